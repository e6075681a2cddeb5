package survey

import (
	"slices"

	"everyseat/seating"
)

// block is one section of a drawing while it is read.
type block struct {
	*drawing
	left, right int      // columns from left up to right
	ends        [][2]int // by row: the columns of its first seat and behind its last one
	told        bool     // and these are the truth: places are made of them, and not of columns
	from        seating.Side
}

// findEnds finds where each row begins and ends.
func (b *block) findEnds() {
	for _, row := range b.rows {
		first, behind := b.left, b.left
		for col := b.left; col < b.right; col++ {
			if signOf(b.sheet.At(row.row, col)) < signGap {
				continue
			}
			if behind == b.left {
				first = col
			}
			behind = col + 1
		}
		b.ends = append(b.ends, [2]int{first, behind})
	}
}

func (b *block) each(do func(row, col int)) {
	for _, row := range b.rows {
		for col := b.left; col < b.right; col++ {
			do(row.row, col)
		}
	}
}

// isDrawn says whether the cells are signs: if most are numbers, they must count along the rows.
func (b *block) isDrawn() bool {
	numbers, signs, others := 0, 0, 0
	b.each(func(row, col int) {
		if n, ok := b.number(row, col); ok && n > 1 {
			numbers++
		} else if sign := signOf(b.sheet.At(row, col)); sign > signGap {
			signs++
			if sign == signOther {
				others++
			}
		}
	})
	if others*2 > signs+numbers {
		return false
	}
	if numbers <= signs || b.numbers >= 0 {
		return true
	}
	if _, ok := b.rule(-1); ok {
		return true
	}
	b.told = b.counted()
	return b.told
}

// counted says whether the cells of every row are numbers that go on to one side, most of them without a hole: then
// one that is not there is missing, whether its cell is blank or there is none.
func (b *block) counted() bool {
	steps, side := [2]int{}, 0
	for _, row := range b.rows {
		last, n, first := 0, 0, 0
		for col := b.left; col < b.right; col++ {
			c := b.sheet.At(row.row, col)
			number, ok := seatNumber(c.Text)
			if !ok && signOf(c) > signGap {
				return false
			}
			if !ok || number < 1 || number > maxRowSeats {
				continue
			}
			if n++; n == 1 {
				first, last = number, number
				continue
			}
			now := 1
			if number < last {
				now = -1
			}
			if number == last || side != 0 && side != now {
				return false
			}
			side = now
			if gap := (number - last) * now; gap <= len(steps) {
				steps[gap-1]++
			}
			last = number
		}
		if long := max(last-first, first-last); n > 1 && long > 3*n+2 {
			return false
		}
	}
	if b.from = seating.Left; side < 0 {
		b.from = seating.Right
	}
	return steps[0]+steps[1] > 2 && side != 0
}

// finish finds alignment and numbers, and makes the section's lines.
func (b *block) finish(s *section) {
	if b.told {
		if s.spec.SeatNumbers.From = b.from; b.from == seating.Right {
			s.spec.Align = seating.AlignRight
		} else {
			s.spec.Align = seating.AlignLeft
		}
	} else {
		b.align(&s.spec)
	}
	if rule, ok := b.rule(b.numbers); b.told {
	} else if ok {
		s.spec.SeatNumbers = rule
		for col := b.left; col < b.right; col++ {
			b.sheet.take(b.numbers, col)
		}
	}
	for i, row := range b.rows {
		l := &line{
			sheet: b.sheet, row: row.row, nameCol: max(b.labels, 0), name: row.name, col: b.left, of: 1,
			benchCol: -1, drawn: true, gap: b.gaps[row.row], side: row.side, sideText: row.sideText, sideCol: b.labels,
		}
		s.lines = append(s.lines, l)
		if b.told {
			b.numbersOf(l)
			continue
		}
		l.first, l.seats, l.hasSeats = b.ends[i][0], b.ends[i][1]-b.ends[i][0], true
		l.none = l.seats == 0
		if b.places += l.seats; b.places > seating.MaxSeats {
			l.seats = 0
		}
	}
}

// numbersOf takes the numbers in a row's cells for its seats.
func (b *block) numbersOf(l *line) {
	l.text.list = true
	for col := b.left; col < b.right; col++ {
		c := b.sheet.At(l.row, col)
		switch n, ok := seatNumber(c.Text); {
		case c.Text == "" || b.listDate(l.row, col, "; the place is taken for a gap"):
		case ok && n > 0:
			l.text.spans = append(l.text.spans, [2]int{n, n})
			b.sheet.take(l.row, col)
		case signOf(c) == signGap:
			b.sheet.take(l.row, col)
		}
	}
	slices.SortFunc(l.text.spans, func(a, b [2]int) int { return a[0] - b[0] })
	if l.text.spans == nil {
		l.hasSeats, l.none = true, true
	}
}

// align finds how shorter rows lie; where no rule fits, or seat numbers stand over
// the columns, every row gets all the columns and what is blank is missing.
func (b *block) align(spec *seating.SectionSpec) {
	left, right, centre := true, true, true
	for _, ends := range b.ends {
		before, behind := ends[0]-b.left, b.right-ends[1]
		left, right, centre = left && before == 0, right && behind == 0, centre && before == behind
	}
	switch {
	case b.numbers < 0 && centre:
		spec.Align = seating.AlignCentre
	case b.numbers < 0 && left:
		spec.Align = seating.AlignLeft
	case b.numbers < 0 && right:
		spec.Align = seating.AlignRight
	default:
		for i, ends := range b.ends {
			if ends[0] < ends[1] {
				b.ends[i] = [2]int{b.left, b.right}
			}
		}
	}
}

// rule is the rule of the numbers in the given line, or in the block's own cells for −1: it gives every number
// that stands there, at least two of them.
func (b *block) rule(numbers int) (rule seating.SeatNumbering, ok bool) {
	lines, ends := []gridRow{{row: numbers}}, [][2]int{{b.left, b.right}}
	if numbers < 0 {
		lines, ends = b.rows, b.ends
	}
	for _, from := range []seating.Side{seating.Left, seating.Right} {
		if rule, ok = b.ruleFrom(from, lines, ends); ok {
			return rule, true
		}
	}
	return seating.SeatNumbering{}, false
}

func (b *block) ruleFrom(from seating.Side, lines []gridRow, ends [][2]int) (rule seating.SeatNumbering, ok bool) {
	type marked struct{ line, place, number int }
	var all []marked
	for i, row := range lines {
		for place := range ends[i][1] - ends[i][0] {
			col := ends[i][0] + place
			if from == seating.Right {
				col = ends[i][1] - 1 - place
			}
			if n, ok := b.number(row.row, col); ok {
				all = append(all, marked{i, place, n})
			}
		}
	}
	rule.From = from
	for i := 1; i < len(all) && rule.Step == 0; i++ {
		if a, z := all[i-1], all[i]; a.line == z.line {
			rule.Step = (z.number - a.number) / (z.place - a.place)
			rule.Start = z.number - rule.Step*z.place
			if rule.Step < 1 || rule.Start < 1 {
				return rule, false
			}
		}
	}
	for _, m := range all {
		if rule.Start+rule.Step*m.place != m.number {
			return rule, false
		}
	}
	return rule, rule.Step > 0
}

// readDrawn reads the signs of a drawn row: what is missing and what is reserved.
func (s *section) readDrawn(r *reader, l *line) {
	numbers := s.spec.SeatNumbers
	if l.seats == 0 || numbers.Check(l.seats) != nil {
		return
	}
	r.sheet = l.sheet
	use := func(place int) field {
		switch sign := signOf(r.sheet.At(l.row, l.first+place)); {
		case sign >= signFor:
			return fWheelchair + field(sign-signFor)
		case sign >= signSeat:
			return fSeats
		}
		return fMissing
	}
	for p := 0; p < l.seats; {
		from, f := p, use(p)
		for p < l.seats && use(p) == f {
			at := l.first + p
			switch signOf(r.sheet.At(l.row, at)) {
			case noSign: // words stay for the list
				r.listDate(l.row, at, "; the place is taken for a gap")
			case signOther:
				r.lose(l.row, at, "no mark with a meaning; it is taken for a seat")
			default:
				r.sheet.take(l.row, at)
			}
			p++
		}
		if f != fSeats {
			a, z := numbers.Number(from, l.seats), numbers.Number(p-1, l.seats)
			s.keepRange(f, seating.SeatRange{Row: l.name, From: min(a, z), To: max(a, z)})
		}
	}
}
