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
	spec     seating.SectionSpec
	has      map[field]bool // given by the table
	lines    []*line        // as they stand in the table, until orient
	from, to int            // its first and last line on the sheet
	clues    []clue         // strong ones, of where the front is
	near     [2]*landmark   // words for a side above and below it
	front    string         // by which sign the front row was found
	turned   bool           // its lines stand in the table from the back to the front
}

// line is one row of seats as its line gives it.
type line struct {
	sheet       *sheet
	row         int // of the sheet
	col         int // of its seats
	name        string
	nameCol     int
	ordinal     string // the name, where it is a number in words
	seats       int
	text        seatText // the numbers of its seats, where the table gives them
	holes       [][2]int // numbers between them that are missing
	gone        int      // how many of its seats are missing
	capacity    int      // a second count beside the first
	capacityCol int
	bench       seating.Length
	hasSeats    bool
	none        bool // it says that there are no seats
	hasBench    bool
	benchCol    int
	height      seating.Length // or distance from the front: it grows toward the back
	hasHeight   bool
	rise        seating.Length
	riseCol     int
	distance    bool
	cross       seating.Length // of the way behind the row
	gap         seating.Length // of the way between the row and the next line of the table
	lists       []listCell
	uses        []seatUse // of single seats
	drawn       bool      // in a grid
	first       int       // column of its first place there
	group, of   int       // of how many rows that one line stands for it is one
	each        bool      // what stands there is of each of them
	rowless     bool      // no column of its table names or counts rows
	marked      bool      // the name over its seats says that they are numbers
	leftToRight bool      // it says that they stand as the camera sees the seats
	parity      int       // 1 where it says that they are odd ones, 2 even ones
	side        int       // 1 where words beside it say front, -1 for back
	sideText    string
	sideCol     int
}

// listCell is a cell that lists seats.
type listCell struct {
	field field
	col   int
	sure  bool // the column's name says that it holds numbers
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
	if last := s.lines[len(s.lines)-1]; last.gap > 0 {
		r.note("Section %s: the walkway behind its last line in the table lies between no two rows of it: it is "+
			"left out.", s.spec.Name)
		last.gap = 0
	}
	s.orient(r)
	s.nameRows(r)
	if l := s.lines[0]; len(s.lines) == 1 && l.rowless {
		r.ask(l.sheet, l.row, l.col,
			fmt.Sprintf("section %s has this one line, and no column names or counts rows: it may be the seats "+
				"of all its rows", s.spec.Name),
			`add a column "rows" with their number, and name this one "seats per row"`)
	}
	s.eachOrAll(r)
	s.settle(r)
	s.fillSeats(r)
	s.fillHeights(r)
	if s.spec.Kind == seating.Floor && s.spec.Rise != 0 {
		s.spec.Rise = 0
		r.note("Section %s is a floor block: its rise is not used.", s.spec.Name)
	}
	for i, l := range s.lines {
		if i < len(s.lines)-1 {
			next := s.lines[i+1]
			depth := l.gap
			if s.turned { // then the way between two lines belongs to the one behind
				depth = next.gap
			}
			if l.group == 0 || l.group != next.group { // behind the last of rows that one line names
				depth += l.cross
			}
			if depth > 0 {
				s.spec.CrossAisles = append(s.spec.CrossAisles, seating.CrossAisle{After: l.name, Depth: depth})
			}
		}
		before := len(s.spec.Missing)
		if l.drawn && l.text.spans == nil {
			s.readDrawn(r, l)
		} else {
			s.readLists(r, l)
		}
		for _, m := range s.spec.Missing[before:] {
			l.gone += (m.To-m.From)/max(s.spec.SeatNumbers.Step, 1) + 1
		}
		if l.hasSeats && l.gone >= l.seats && !r.options.LeaveOut {
			r.lost = r.askedOr(r.lost, l.sheet, l.row, max(l.col, 0), "row "+l.name+" has no seats: it may be "+
				"there, and lift those behind it, or not", `take it out of the table where it is not there; where it `+
				`is, write unread = "left out" under [stands]: --leave-out for everyseat new`)
		}
		if l.seats == 0 && !l.none {
			r.out.Empty = append(r.out.Empty, s.spec.Name+"-"+l.name)
		}
	}
	return s.spec
}

// fillHeights makes the rise of a column of heights that grow by equal steps.
func (s *section) fillHeights(r *reader) {
	n := len(s.lines)
	if grows := func(i, by int) bool { return (s.lines[i].rise-s.lines[i-1].rise)*seating.Length(by) > 0 }; n > 2 {
		up, down := true, true
		for i := 1; i < n; i++ {
			up, down = up && grows(i, 1), down && grows(i, -1)
		}
		if up || down {
			r.ask(s.lines[1].sheet, s.lines[1].row, s.lines[1].riseCol,
				"rises that grow from row to row are heights, and the rise is one row's step up",
				`name the column "height"`)
		}
	}
	if n < 2 || s.has[fRise] || s.spec.Kind == seating.Floor || !s.lines[0].hasHeight || s.lines[0].distance {
		return
	}
	rise := s.lines[1].height - s.lines[0].height
	for i, l := range s.lines[1:] {
		if !l.hasHeight || l.height-s.lines[i].height != rise {
			rise = 0
		}
	}
	m := measureOf(&s.spec, fRise)
	if rise <= 0 || !m.Holds(rise) {
		r.note("Section %s: the heights of its rows do not grow by equal steps: they say which row is in front, "+
			"and nothing else.", s.spec.Name)
		return
	}
	s.spec.Rise = rise
	if !s.has[fFirstRow] {
		s.spec.FirstRow = s.lines[0].height
	}
	r.note("Section %s: by the heights of its rows one rises %v over the other, and the front one stands at %v.",
		s.spec.Name, rise, s.spec.FirstRow)
}

// nameRows gives every row a name of its own and finds the rule behind them.
func (s *section) nameRows(r *reader) {
	seen, next, again := map[string]bool{}, map[string]int{}, 0
	for _, l := range s.lines {
		if l.name != "" && seen[seating.NameKey(l.name)] {
			free := l.name
			for n := max(2, next[l.name]); seen[seating.NameKey(free)]; n++ {
				free = l.name + "." + strconv.Itoa(n)
				next[l.name] = n
			}
			if again++; again*2 >= len(s.lines) && len(s.lines) > 2 {
				r.ask(l.sheet, l.row, l.nameCol, fmt.Sprintf("rows of section %s come again and again", s.spec.Name),
					`for a line a seat, name the column of their numbers "seat"; else give each row one line`)
			}
			r.loseOf(l, l.nameCol, fmt.Sprintf("row %s is there twice; this one is called %s here", l.name, free))
			l.name = free
		}
		if l.name != "" {
			seen[seating.NameKey(l.name)] = true
		}
	}
	names, nameless := make([]string, len(s.lines)), 0
	for i, l := range s.lines {
		if l.name == "" {
			if nameless++; l.sheet.named && l.col >= 0 {
				r.loseOf(l, max(l.nameCol, 0),
					"a row without a name among rows that have one: it may be a sum or a way")
			}
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
	if s.front != "" {
		r.note("Section %s: row %s is the front one, %s.", s.spec.Name, names[0], s.front)
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
			r.sheet = l.sheet
			r.list(l.row, l.benchCol, fmt.Sprintf("%d seats of %v need %v: the counted seats are used", n, pitch,
				need))
			b = need
		case l.hasBench && !l.hasSeats && l.text.spans == nil:
			if n = int(b / pitch); n > seating.MaxSeats-r.places {
				r.loseOf(l, l.benchCol, tooMany)
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
	for _, h := range l.holes {
		s.keepRange(fMissing, seating.SeatRange{Row: l.name, From: h[0], To: h[1]})
		for n := h[0]; n <= h[1]; n += max(s.spec.SeatNumbers.Step, 1) {
			uses[n] = fMissing
		}
	}
	for _, u := range l.uses {
		if l.seats > 0 {
			s.keepRange(u.field, seating.SeatRange{Row: l.name, From: u.number, To: u.number})
		}
	}
	for _, c := range l.lists {
		text := r.sheet.At(l.row, c.col).Text
		if nothing(text) {
			r.sheet.take(l.row, c.col)
			continue
		}
		if r.listDate(l.row, c.col, "") {
			continue
		}
		if seatsCounted(text) {
			r.ask(r.sheet, l.row, c.col, "it says how many seats, and not which", whichHint)
			continue
		}
		if n, ok := seatNumber(text); ok && !c.sure && !r.lists && n < l.seats && n*2 <= l.seats+1 {
			r.ask(r.sheet, l.row, c.col, fmt.Sprintf("it may be seat %d or %d seats", n, n), whichHint)
			continue
		}
		lists := []seatList{{c.field, text}}
		if c.field == fReserved {
			if lists = reservedLists(text); lists == nil {
				r.lose(l.row, c.col, "it does not say for whom: wheelchair, companion, platform, rail or nobody")
				continue
			}
		}
		if why := s.keepLists(l, lists, uses); why != "" {
			r.lose(l.row, c.col, why)
			continue
		}
		r.sheet.take(l.row, c.col)
	}
	if l.capacity == 0 || l.text.spans != nil || !l.hasSeats {
		return
	}
	missing := 0
	for _, f := range uses {
		if f == fMissing {
			missing++
		}
	}
	if l.capacity != l.seats && l.capacity != l.seats-missing && l.capacity != l.seats*l.of {
		r.ask(r.sheet, l.row, l.capacityCol, fmt.Sprintf("the row has %d seats by another column", l.seats),
			"mend one of the two")
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
			known := false // as missing, from the seats' own column
			for n := low; n <= high; n += numbers.Step {
				if was, ok := uses[n]; ok && was == fMissing && list.field == fMissing && low == high {
					known = true
				} else if ok && was != list.field {
					return fmt.Sprintf("seat %d of row %s is in another column too", n, l.name)
				}
			}
			if known {
				continue
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
