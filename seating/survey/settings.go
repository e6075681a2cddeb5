package survey

import (
	"cmp"
	"fmt"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// readSettings reads the lines of a label and a value, those of the table's columns apart.
func (r *reader) readSettings() {
	for _, units := range []bool{true, false} { // units first: they hold for the other lines
		for row := range r.sheet.Rows() {
			l, ok := r.labelled(row, r.openCols(row))
			if !ok || (l.field == fUnits) != units {
				continue
			}
			if r.setting(l.field, l.value, l.unit) {
				for _, col := range l.cols {
					r.sheet.take(row, col)
				}
			} else if (l.field == fPosted || l.field == fPeople) && !r.listDate(row, l.at, "") {
				r.sheet.take(row, l.cols[0])
				r.list(row, l.at, "it is no whole number of people")
			}
		}
	}
}

// labelled is a line of a label and a value: "rise: 9 in" in one cell, or in two,
// or with the unit in a third.
type labelled struct {
	field field
	value string
	unit  seating.Length
	cols  []int // that are read with it
	at    int   // column of the value
}

// labelled reads a line so; ok is false where it is something else.
func (r *reader) labelled(row int, cols []int) (l labelled, ok bool) {
	if len(cols) == 0 {
		return l, false
	}
	label := r.sheet.At(row, cols[0]).Text
	if head, tail, cut := strings.Cut(label, ":"); cut && strings.TrimSpace(tail) != "" {
		l.value, l.at, l.cols = strings.TrimSpace(tail), cols[0], cols[:1]
		l.field, l.unit = fieldOf(head)
		return l, l.field != noField
	}
	if len(cols) < 2 {
		return l, false
	}
	l.field, l.unit = fieldOf(label)
	l.value, l.at, l.cols = r.sheet.At(row, cols[1]).Text, cols[1], cols[:2]
	if other, _ := fieldOf(l.value); l.field == noField || other != noField {
		return l, false // two names of columns
	}
	if l.field == fPosted || l.field == fPeople {
		return l, true // remarks may stand behind
	}
	if len(cols) == 3 {
		l.unit, l.cols = seating.Unit(r.sheet.At(row, cols[2]).Text), cols
		return l, l.unit != 0
	}
	return l, len(cols) == 2
}

// setting keeps one label's value, if the label is one and the value can be read.
func (r *reader) setting(f field, value string, unit seating.Length) (ok bool) {
	switch f {
	case fPosted:
		return keepIfRead(&r.out.Posted, value, cells.Number)
	case fPeople:
		return keepIfRead(&r.out.People, value, cells.Number)
	case fKind:
		return keepIfRead(&r.common.Kind, value, kindOf)
	case fUnits:
		return keepIfRead(&r.unit, value, func(word string) (seating.Length, bool) {
			unit := seating.Unit(word)
			return unit, unit != 0
		})
	}
	m := measureOf(&r.common, f)
	if m == nil {
		return false
	}
	return keepIfRead(m.Length, value, func(text string) (seating.Length, bool) {
		l, err := seating.ParseLengthIn(text, cmp.Or(unit, r.unit))
		return l, err == nil && m.Holds(l)
	})
}

func keepIfRead[T any](to *T, text string, read func(string) (T, bool)) bool {
	v, ok := read(text)
	if ok {
		*to = v
	}
	return ok
}

// measured are the fields that a section has one length of, by its keys.
var measured = map[field]string{
	fPitch: "pitch", fRise: "rise", fRun: "run", fFirstRow: "first_row", fSeatBoard: "seat_board", fAisle: "aisle",
	fRadius: "radius",
}

// measureOf is the length of a section that a field sets, or nil.
func measureOf(s *seating.SectionSpec, f field) *seating.Measure {
	for _, m := range s.Measures() {
		if m.Key == measured[f] {
			return &m
		}
	}
	return nil
}

// length reads a cell as a length of a field; what cannot be read is listed with so behind the reason.
func (r *reader) length(row, col int, f field, unit seating.Length, so string) (seating.Length, bool) {
	if r.listDate(row, col, so) {
		return 0, false
	}
	l, err := seating.ParseLengthIn(r.sheet.At(row, col).Text, cmp.Or(unit, r.unit))
	if err != nil {
		fault := err.(*seating.Fault)
		r.list(row, col, fault.What+"; "+fault.Hint+so)
		return 0, false
	}
	m := measureOf(&r.common, f)
	if m == nil {
		m = &seating.Measure{High: seating.MaxReach}
	}
	if !m.Holds(l) {
		r.list(row, col, fmt.Sprintf("%v cannot be right: look at the unit%s", l, so))
		return 0, false
	}
	r.sheet.take(row, col)
	return l, true
}
