package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/seating"
)

type section struct {
	spec  seating.SectionSpec
	has   map[field]bool // given by the table
	lines []*line
}

// line is one row of seats as its line gives it.
type line struct {
	sheet    *sheet
	row      int // of the sheet
	name     string
	nameCol  int
	seats    int
	bench    seating.Length
	hasSeats bool
	hasBench bool
	benchCol int
	cross    seating.Length
	lists    []listCell
	drawn    bool // in a grid
	first    int  // column of its first place there
}

// listCell is a cell that lists seats.
type listCell struct {
	field field
	col   int
}

// section finds a section by name, or starts it.
func (r *reader) section(name string) *section {
	key := seating.NameKey(name)
	if s, ok := r.sections[key]; ok {
		return s
	}
	s := &section{spec: r.common, has: map[field]bool{}}
	s.spec.Name = name
	for f := range fUnits {
		if m := measureOf(&r.common, f); m != nil {
			s.has[f] = *m.Length != 0
		}
	}
	if strings.Contains(strings.ToLower(name), "floor") && s.spec.Kind != seating.Floor {
		s.spec.Kind = seating.Floor
		r.note("Section %s is taken for a floor block because of its name.", name)
	}
	r.sections[key] = s
	r.order = append(r.order, s)
	return s
}

// finish makes the section of its lines, front to back.
func (s *section) finish(r *reader) seating.SectionSpec {
	s.nameRows(r)
	s.fillSeats(r)
	if s.spec.Kind == seating.Floor && s.spec.Rise != 0 {
		s.spec.Rise = 0
		r.note("Section %s is a floor block: its rise is not used.", s.spec.Name)
	}
	for i, l := range s.lines {
		if l.cross > 0 && i < len(s.lines)-1 {
			s.spec.CrossAisles = append(s.spec.CrossAisles, seating.CrossAisle{After: l.name, Depth: l.cross})
		}
		if l.drawn {
			s.readDrawn(r, l)
		} else {
			s.readLists(r, l)
		}
	}
	return s.spec
}

// nameRows gives every row a name of its own and finds the rule behind them.
func (s *section) nameRows(r *reader) {
	seen := map[string]bool{}
	for _, l := range s.lines {
		if l.name != "" && seen[seating.NameKey(l.name)] {
			free := l.name
			for n := 2; seen[seating.NameKey(free)]; n++ {
				free = l.name + "." + strconv.Itoa(n)
			}
			r.listOf(l, l.nameCol, fmt.Sprintf("row %s is there twice; this one is called %s here", l.name, free))
			l.name = free
		}
		if l.name != "" {
			seen[seating.NameKey(l.name)] = true
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
	s.spec.RowNames = seating.NamingOf(names)
	if s.spec.RowNames.FromBack {
		r.note("Section %s: the lines are taken from the front to the back, so row %s is the front one.",
			s.spec.Name, names[0])
	}
}

// fillSeats turns counted seats and benches into the section's lists.
func (s *section) fillSeats(r *reader) {
	pitch := cmp.Or(s.spec.Pitch, seating.DefaultPitch)
	if s.spec.Kind == seating.Floor {
		pitch = cmp.Or(s.spec.Pitch, seating.DefaultFloorPitch)
	}
	counted, benches := false, false
	var seats []int
	var bench []seating.Length
	for _, l := range s.lines {
		counted, benches = counted || l.hasSeats, benches || l.hasBench
		n, b := l.seats, l.bench
		need := seating.Length(n) * pitch
		switch {
		case l.hasSeats && l.hasBench && need > b:
			r.listOf(l, l.benchCol, fmt.Sprintf("%d seats of %v need %v: the counted seats are used", n, pitch, need))
			b = need
		case l.hasBench && !l.hasSeats:
			if n = int(b / pitch); n > seating.MaxSeats-r.places {
				r.listOf(l, l.benchCol, tooMany)
				n, b = 0, 0
			}
			r.places += n
		case !l.hasBench:
			b = need
		}
		l.seats = n
		seats, bench = append(seats, n), append(bench, b)
	}
	if counted || !benches {
		s.spec.Seats = oneForAll(seats)
	}
	if benches {
		s.spec.Bench = oneForAll(bench)
	}
}

// oneForAll shortens a list of equal entries to one.
func oneForAll[T comparable](list []T) []T {
	if len(slices.Compact(slices.Clone(list))) == 1 {
		return list[:1]
	}
	return list
}

// readLists reads the cells of a line that list seats.
func (s *section) readLists(r *reader, l *line) {
	r.sheet = l.sheet
	uses := map[int]field{} // by seat number
	for _, c := range l.lists {
		text := r.sheet.At(l.row, c.col).Text
		if nothing(text) {
			r.sheet.take(l.row, c.col)
			continue
		}
		if r.listDate(l.row, c.col, "") {
			continue
		}
		lists := []seatList{{c.field, text}}
		if c.field == fReserved {
			if lists = reservedLists(text); lists == nil {
				r.list(l.row, c.col, "it does not say for whom: wheelchair, companion, platform, rail or nobody")
				continue
			}
		}
		if why := s.keepLists(l, lists, uses); why != "" {
			r.list(l.row, c.col, why)
			continue
		}
		r.sheet.take(l.row, c.col)
	}
}

// seatList is a text that lists seats that are missing, or kept for a use.
type seatList struct {
	field field
	text  string
}

// reservedLists reads "3-4 wheelchair; 5 companion", or gives nil where one of them names no use.
func reservedLists(text string) []seatList {
	var out []seatList
	for _, list := range strings.FieldsFunc(strings.ToLower(text),
		func(c rune) bool { return c == ';' || c == '\n' }) {
		found := noField
		for i, use := range seating.ReservedFor {
			for _, word := range []string{use + "s", use} {
				if strings.Contains(list, word) && found == noField {
					found = fWheelchair + field(i)
					list = strings.Replace(list, word, " ", 1)
				}
			}
		}
		if found == noField {
			return nil
		}
		list = strings.NewReplacer("(", " ", ")", " ", ":", " ").Replace(list)
		out = append(out, seatList{found, strings.ReplaceAll(list, " for ", " ")})
	}
	return out
}

// keepLists keeps seats as missing or reserved, all of a cell or none; why says what is wrong.
func (s *section) keepLists(l *line, lists []seatList, uses map[int]field) (why string) {
	numbers := s.spec.SeatNumbers
	if numbers.Check(l.seats) != nil || l.seats == 0 {
		return fmt.Sprintf("row %s has no seats", l.name)
	}
	type kept struct {
		field field
		r     seating.SeatRange
	}
	var keep []kept
	for _, list := range lists {
		ranges, err := seatRanges(list.text)
		if err != nil {
			return err.Error()
		}
		for _, ends := range ranges {
			if ends == [2]int{} {
				ends = [2]int{numbers.Start, numbers.Start + numbers.Step*(l.seats-1)}
			}
			for _, n := range ends {
				if near, ok := numbers.Place(n, l.seats); !ok {
					return fmt.Sprintf("row %s has no seat %d; the nearest is %d",
						l.name, n, numbers.Number(near, l.seats))
				}
			}
			low, high := min(ends[0], ends[1]), max(ends[0], ends[1])
			for n := low; n <= high; n += numbers.Step {
				if was, ok := uses[n]; ok && was != list.field {
					return fmt.Sprintf("seat %d of row %s is in another column too", n, l.name)
				}
			}
			keep = append(keep, kept{list.field, seating.SeatRange{Row: l.name, From: low, To: high}})
		}
	}
	for _, k := range keep {
		for n := k.r.From; n <= k.r.To; n += numbers.Step {
			uses[n] = k.field
		}
		s.keepRange(k.field, k.r)
	}
	return ""
}

// keepRange adds a range to the section's missing seats, or to those kept for one use.
func (s *section) keepRange(f field, r seating.SeatRange) {
	if f == fMissing {
		s.spec.Missing = append(s.spec.Missing, r)
		return
	}
	use := seating.ReservedFor[f-fWheelchair]
	i := slices.IndexFunc(s.spec.Reserved, func(kept seating.Reserved) bool { return kept.For == use })
	if i < 0 {
		i = len(s.spec.Reserved)
		s.spec.Reserved = append(s.spec.Reserved, seating.Reserved{For: use})
	}
	s.spec.Reserved[i].Seats = append(s.spec.Reserved[i].Seats, r)
}
