package seating

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// surveyReader reads the sheets of one file into one survey.
type surveyReader struct {
	out      *Survey
	sheet    *sheet
	sheets   []*sheet    // read so far
	unit     Length      // of bare numbers, where a line of the file says so
	common   SectionSpec // what lines of label and value say of all sections
	order    []*surveyed
	sections map[string]*surveyed // by nameKey
	places   int                  // so far, against MaxSeats
	totals   []totalLine
	listed   []listed
	listedAt map[place]int // into listed
	dropped  int           // unread cells beyond maxUnread
}

// listed is an unread cell and where it belongs in the list.
type listed struct {
	place
	Unread
}

// place is a cell of one of the sheets.
type place struct{ sheet, row, col int }

func (r *surveyReader) read(s *sheet) {
	r.sheet = s
	r.readSettings()
	if head := r.findHeader(); head != nil {
		r.readLines(head)
	} else {
		r.readGrid()
	}
	r.sheets = append(r.sheets, s)
}

// listRest lists the cells of a sheet that nothing has read.
func (r *surveyReader) listRest(s *sheet) {
	r.sheet = s
	for row := range s.cells {
		for _, col := range r.openCols(row) {
			if !r.listDate(row, col, "") {
				r.list(row, col, outside)
			}
		}
	}
}

// list puts a cell among those that could not be read; a second reason joins the first.
func (r *surveyReader) list(row, col int, why string) {
	s := r.sheet
	s.take(row, col)
	at := place{s.index, row, col}
	if i, ok := r.listedAt[at]; ok {
		if !strings.Contains(r.listed[i].Why, why) { // rows that one line stands for have one reason
			r.listed[i].Why += "; " + why
		}
		return
	}
	if len(r.listed) >= maxUnread {
		r.dropped++
		return
	}
	r.listedAt[at] = len(r.listed)
	r.listed = append(r.listed, listed{at, Unread{Cell: s.address(row, col), Text: shown(s.at(row, col).text), Why: why}})
}

// listDate lists a cell that a spreadsheet made a date of, and says whether it is one.
func (r *surveyReader) listDate(row, col int, so string) bool {
	date := r.sheet.at(row, col).date
	if date == "" {
		return false
	}
	r.list(row, col, fmt.Sprintf("a spreadsheet made a date of it; it probably was %s: format the column as text and type it anew%s", date, so))
	return true
}

func (r *surveyReader) note(format string, args ...any) {
	r.out.Notes = append(r.out.Notes, fmt.Sprintf(format, args...))
}

// finish makes the sections and sorts the lists.
func (r *surveyReader) finish() {
	for _, s := range r.order {
		r.out.Sections = append(r.out.Sections, s.finish(r))
	}
	r.listTotals()
	for _, s := range r.sheets {
		r.listRest(s)
	}
	r.finishAisles()
	slices.SortStableFunc(r.listed, func(a, b listed) int {
		return cmp.Or(cmp.Compare(a.sheet, b.sheet), cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col))
	})
	for _, l := range r.listed {
		r.out.Unread = append(r.out.Unread, l.Unread)
	}
	if r.dropped > 0 {
		r.note("%d further cells could not be read and are not listed.", r.dropped)
	}
}

// finishAisles gives side-by-side sections an aisle where the table gives none.
func (r *surveyReader) finishAisles() {
	var without []string
	last := true
	for i := len(r.out.Sections) - 1; i >= 0; i-- {
		s := &r.out.Sections[i]
		if s.Kind == Floor {
			continue
		}
		if !last && s.Aisle == 0 && !r.order[i].has[fAisle] {
			s.Aisle = DefaultAisle
			without = append(without, s.Name)
		}
		last = false
	}
	if slices.Reverse(without); len(without) > 0 {
		r.note("No aisle is given to the right of %s: %v is taken.", strings.Join(without, ", "), DefaultAisle)
	}
}

// readSettings reads the lines of a label and a value, those of the table's columns apart.
func (r *surveyReader) readSettings() {
	for _, units := range []bool{true, false} { // units first: they hold for the other lines
		for row := range r.sheet.cells {
			if cols := r.openCols(row); len(cols) > 0 {
				r.readSetting(row, cols, units)
			}
		}
	}
}

// openCols are the columns of a row that hold something unread.
func (r *surveyReader) openCols(row int) []int {
	var cols []int
	for col := range r.sheet.cells[row] {
		if r.sheet.open(row, col) {
			cols = append(cols, col)
		}
	}
	return cols
}

// labelled is a line of a label and a value: "rise: 9 in" in one cell, or in two,
// or with the unit in a third.
type labelled struct {
	field field
	value string
	unit  Length
	cells []int // columns that are read with it
	at    int   // column of the value
}

// labelled reads a line so; ok is false where it is something else.
func (r *surveyReader) labelled(row int, cols []int) (l labelled, ok bool) {
	label := r.sheet.at(row, cols[0]).text
	if head, tail, cut := strings.Cut(label, ":"); cut && strings.TrimSpace(tail) != "" {
		l.value, l.at, l.cells = strings.TrimSpace(tail), cols[0], cols[:1]
		l.field, l.unit = fieldOf(head)
		return l, l.field != noField
	}
	if len(cols) < 2 {
		return l, false
	}
	l.field, l.unit = fieldOf(label)
	l.value, l.at, l.cells = r.sheet.at(row, cols[1]).text, cols[1], cols[:2]
	if other, _ := fieldOf(l.value); l.field == noField || other != noField {
		return l, false // two names of columns
	}
	if l.field == fPosted || l.field == fPeople {
		return l, true // remarks may stand behind
	}
	if len(cols) == 3 {
		l.unit, l.cells = unitWord(r.sheet.at(row, cols[2]).text), cols
		return l, l.unit != 0
	}
	return l, len(cols) == 2
}

// readSetting reads one line, if it says how long units are or if it does not, as asked.
func (r *surveyReader) readSetting(row int, cols []int, units bool) {
	l, ok := r.labelled(row, cols)
	if !ok || (l.field == fUnits) != units {
		return
	}
	people := l.field == fPosted || l.field == fPeople
	if r.setting(l.field, l.value, l.unit) {
		for _, col := range l.cells {
			r.sheet.take(row, col)
		}
	} else if people && !r.listDate(row, l.at, "") {
		r.sheet.take(row, cols[0])
		r.list(row, l.at, "it is no whole number of people")
	}
}

// setting keeps one label's value, if the label is one and the value can be read.
func (r *surveyReader) setting(f field, value string, unit Length) bool {
	switch f {
	case fPosted, fPeople:
		n, err := wholeNumber(value)
		if err != nil {
			return false
		}
		if f == fPosted {
			r.out.Posted = n
		} else {
			r.out.People = n
		}
		return true
	case fUnits:
		r.unit = cmp.Or(unitWord(value), r.unit)
		return unitWord(value) != 0
	case fKind:
		k, ok := kindOf(value)
		if ok {
			r.common.Kind = k
		}
		return ok
	}
	to := lengthOf(&r.common, f)
	if to == nil {
		return false
	}
	l, err := ParseLengthIn(value, cmp.Or(unit, r.unit))
	if err != nil || !sane(f, l) {
		return false
	}
	*to = l
	return true
}

// lengthOf is the length of a section that a field sets, or nil.
func lengthOf(s *SectionSpec, f field) *Length {
	switch f {
	case fPitch:
		return &s.Pitch
	case fRise:
		return &s.Rise
	case fRun:
		return &s.Run
	case fFirstRow:
		return &s.FirstRow
	case fSeatBoard:
		return &s.SeatBoard
	case fAisle:
		return &s.Aisle
	case fRadius:
		return &s.Radius
	}
	return nil
}

// sane holds a length against the limits that Build has too.
func sane(f field, l Length) bool {
	low, top := Length(0), maxReach
	switch f {
	case fPitch:
		low, top = minPitch, maxPitch
	case fRise:
		top = maxRise
	case fRun:
		low, top = minRun, maxRun
	case fFirstRow:
		top = maxHeight
	case fSeatBoard:
		top = maxBoard
	case fRadius:
		low = -maxReach
	}
	return low <= l && l <= top
}

func kindOf(text string) (Kind, bool) {
	switch plain(text) {
	case "bench", "benches", "bleacher", "bleachers", "plank":
		return Bench, true
	case "chair", "chairs", "seats":
		return Chairs, true
	case "floor", "floor block", "on the floor":
		return Floor, true
	}
	return Bench, false
}

// length reads a cell as a length of a field; what cannot be read is listed with so behind the reason.
func (r *surveyReader) length(row, col int, f field, unit Length, so string) (Length, bool) {
	if r.listDate(row, col, so) {
		return 0, false
	}
	l, err := ParseLengthIn(r.sheet.at(row, col).text, cmp.Or(unit, r.unit))
	if err != nil {
		fault := err.(*Fault)
		r.list(row, col, fault.What+"; "+fault.Hint+so)
		return 0, false
	}
	if !sane(f, l) {
		r.list(row, col, fmt.Sprintf("%v cannot be right: look at the unit%s", l, so))
		return 0, false
	}
	r.sheet.take(row, col)
	return l, true
}

// cleanName makes a name that ids may hold of a cell, and lists the cell where that changed it.
func (r *surveyReader) cleanName(row, col int, text string) string {
	name, err := CheckName(text)
	if err == nil {
		return name
	}
	cleaned := strings.Join(strings.FieldsFunc(text, func(c rune) bool {
		return c <= ' ' || strings.ContainsRune(forbidden, c) || c == utf8.RuneError
	}), " ")
	if runes := []rune(cleaned); len(runes) > MaxName {
		cleaned = strings.TrimSpace(string(runes[:MaxName]))
	}
	name, again := CheckName(cleaned)
	if again != nil {
		name = ""
	}
	if name == "" {
		r.list(row, col, err.(*Fault).What)
		return ""
	}
	r.list(row, col, fmt.Sprintf("%s; it is called %q here", err.(*Fault).What, name))
	return name
}
