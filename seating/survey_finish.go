package seating

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// finish makes the section of its lines, front to back.
func (s *surveyed) finish(r *surveyReader) SectionSpec {
	s.nameRows(r)
	s.fillSeats(r)
	if s.spec.Kind == Floor && s.spec.Rise != 0 {
		s.spec.Rise = 0
		r.note("Section %s is a floor block: its rise is not used.", s.spec.Name)
	}
	for i, l := range s.lines {
		if l.cross > 0 && i < len(s.lines)-1 {
			s.spec.CrossAisles = append(s.spec.CrossAisles, CrossAisle{After: l.name, Depth: l.cross})
		}
		if s.drawn != nil {
			s.readDrawn(r, l, s.drawn[i])
		} else {
			s.lineSpans(r, l)
		}
	}
	return s.spec
}

// nameRows gives every row a name of its own and finds the rule behind them.
func (s *surveyed) nameRows(r *surveyReader) {
	seen := map[string]bool{}
	for _, l := range s.lines {
		if l.name != "" && seen[nameKey(l.name)] {
			free := l.name
			for n := 2; seen[nameKey(free)]; n++ {
				free = l.name + "." + strconv.Itoa(n)
			}
			r.sheet = l.sheet
			r.list(l.row, l.nameCol, fmt.Sprintf("row %s is there twice; this one is called %s here", l.name, free))
			l.name = free
		}
		if l.name != "" {
			seen[nameKey(l.name)] = true
		}
	}
	names, nameless := make([]string, len(s.lines)), 0
	for i, l := range s.lines {
		if l.name == "" {
			nameless++
			for n := i + 1; l.name == "" || seen[l.name]; n++ {
				l.name = strconv.Itoa(n)
			}
			seen[l.name] = true
		}
		names[i] = l.name
	}
	if nameless > 0 && nameless < len(names) {
		r.note("Section %s: %d rows without a name are named by their place from the front.", s.spec.Name, nameless)
	}
	s.spec.Rows = len(names)
	s.spec.RowNames = namingOf(names)
	if s.spec.RowNames.FromBack {
		r.note("Section %s: the lines are taken from the front to the back, so row %s is the front one.", s.spec.Name, names[0])
	}
}

// namingOf is the shortest rule that gives these names, front to back.
func namingOf(names []string) RowNaming {
	rules := []RowNaming{{}, {Letters: true}, {Letters: true, AllLetters: true}}
	for _, end := range []string{names[0], names[len(names)-1]} {
		if n, err := strconv.Atoi(end); err == nil && n > 0 && n <= maxNumber {
			rules = append(rules, RowNaming{Start: n})
		}
		if n := letterIndex(end, allLetters); n > 0 && len(end) < 4 {
			rules = append(rules, RowNaming{Letters: true, Start: n}, RowNaming{Letters: true, AllLetters: true, Start: n})
		}
	}
	for _, back := range []bool{false, true} {
		for _, rule := range rules {
			rule.FromBack = back && len(names) > 1
			if got, err := rule.names(len(names)); err == nil && slices.Equal(got, names) {
				return rule
			}
		}
	}
	return RowNaming{Names: names}
}

// fillSeats turns counted seats and benches into the section's lists.
func (s *surveyed) fillSeats(r *surveyReader) {
	pitch := s.spec.Pitch
	if pitch == 0 {
		if pitch = DefaultPitch; s.spec.Kind == Floor {
			pitch = DefaultFloorPitch
		}
	}
	counted, measured := false, false
	for _, l := range s.lines {
		counted = counted || l.hasSeats
		measured = measured || l.hasBench
	}
	var seats []int
	var bench []Length
	for _, l := range s.lines {
		n, b := l.seats, l.bench
		need := Length(n) * pitch
		switch {
		case l.hasSeats && l.hasBench && need > b:
			r.sheet = l.sheet
			r.list(l.row, l.benchCol, fmt.Sprintf("%d seats of %v need %v: the counted seats are used", n, pitch, need))
			b = need
		case l.hasBench && !l.hasSeats:
			if n = int(b / pitch); n > MaxSeats-r.places {
				r.sheet = l.sheet
				r.list(l.row, l.benchCol, fmt.Sprintf("with it there are more than %d seats%s", MaxSeats, noneUntil))
				n, b = 0, 0
			}
			r.places += n
		case !l.hasBench:
			b = need
		}
		l.seats = n
		seats, bench = append(seats, n), append(bench, b)
	}
	if counted || !measured {
		s.spec.Seats = oneForAll(seats)
	}
	if measured {
		s.spec.Bench = oneForAll(bench)
	}
}

// oneForAll shortens a list of equal entries to one.
func oneForAll[T comparable](list []T) []T {
	for _, v := range list {
		if v != list[0] {
			return list
		}
	}
	return list[:1]
}

// lineSpans reads the cells of a line that list seats.
func (s *surveyed) lineSpans(r *surveyReader, l *surveyLine) {
	r.sheet = l.sheet
	uses := map[int]field{} // by seat number
	for _, c := range l.spans {
		text := r.sheet.at(l.row, c.col).text
		if nothing(text) {
			r.sheet.take(l.row, c.col)
			continue
		}
		if r.listDate(l.row, c.col, "") {
			continue
		}
		parts := []useSpans{{c.field, text}}
		if c.field == fReserved {
			if parts = reservedParts(text); parts == nil {
				r.list(l.row, c.col, "it does not say for whom: wheelchair, companion, platform, rail or nobody")
				continue
			}
		}
		if why := s.keepSpans(l, parts, uses); why != "" {
			r.list(l.row, c.col, why)
			continue
		}
		r.sheet.take(l.row, c.col)
	}
}

// useSpans is a text that lists seats for one use.
type useSpans struct {
	field field
	text  string
}

var useFields = map[string]field{"wheelchair": fWheelchair, "companion": fCompanion, "platform": fPlatform, "rail": fRail, "nobody": fNobody}

// reservedParts reads "3-4 wheelchair; 5 companion", or gives nil where a part names no use.
func reservedParts(text string) []useSpans {
	var out []useSpans
	for _, part := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return c == ';' || c == '\n' }) {
		found := noField
		for _, u := range reservedUses {
			for _, word := range []string{u.word + "s", u.word} {
				if strings.Contains(part, word) && found == noField {
					found = useFields[u.word]
					part = strings.Replace(part, word, " ", 1)
				}
			}
		}
		part = strings.Map(func(c rune) rune {
			if strings.ContainsRune("():", c) {
				return ' '
			}
			return c
		}, part)
		if part = strings.ReplaceAll(part, " for ", " "); found == noField {
			return nil
		}
		out = append(out, useSpans{found, part})
	}
	return out
}

// keepSpans keeps seats as missing or reserved, all of a cell or none; why says what is wrong.
func (s *surveyed) keepSpans(l *surveyLine, parts []useSpans, uses map[int]field) (why string) {
	numbers := s.spec.SeatNumbers
	if numbers.check(l.seats) != nil || l.seats == 0 {
		return fmt.Sprintf("row %s has no seats", l.name)
	}
	type kept struct {
		field field
		r     SeatRange
	}
	var keep []kept
	for _, part := range parts {
		spans, err := seatSpans(part.text)
		if err != nil {
			return err.Error()
		}
		for _, span := range spans {
			if span == [2]int{} {
				span = [2]int{numbers.Start, numbers.Start + numbers.Step*(l.seats-1)}
			}
			for _, n := range span {
				if near, ok := numbers.place(n, l.seats); !ok {
					return fmt.Sprintf("row %s has no seat %d; the nearest is %d", l.name, n, numbers.number(near, l.seats))
				}
			}
			low, high := min(span[0], span[1]), max(span[0], span[1])
			for n := low; n <= high; n += numbers.Step {
				if was, ok := uses[n]; ok && was != part.field {
					return fmt.Sprintf("seat %d of row %s is in another column too", n, l.name)
				}
			}
			keep = append(keep, kept{part.field, SeatRange{Row: l.name, From: low, To: high}})
		}
	}
	for _, k := range keep {
		for n := k.r.From; n <= k.r.To; n += numbers.Step {
			uses[n] = k.field
		}
		if k.field == fMissing {
			s.spec.Missing = append(s.spec.Missing, k.r)
		} else {
			s.reserve(k.field, k.r)
		}
	}
	return ""
}

// reserve adds a range to the section's list of one use.
func (s *surveyed) reserve(f field, r SeatRange) {
	word := ""
	for w, field := range useFields {
		if field == f {
			word = w
		}
	}
	for i := range s.spec.Reserved {
		if s.spec.Reserved[i].For == word {
			s.spec.Reserved[i].Seats = append(s.spec.Reserved[i].Seats, r)
			return
		}
	}
	s.spec.Reserved = append(s.spec.Reserved, Reserved{Seats: []SeatRange{r}, For: word})
}
