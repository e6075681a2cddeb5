package seating

import (
	"fmt"
	"slices"
	"strings"
)

// column is one named column of a line-a-row table.
type column struct {
	field field
	unit  Length
}

// header is the line that names the columns.
type header struct {
	row  int
	cols map[int]column
}

// findHeader looks for a line that names seats or a bench's length and something else.
func (r *surveyReader) findHeader() *header {
	for row := range r.sheet.cells {
		h := r.header(row)
		seen := map[field]bool{}
		for _, c := range h.cols {
			seen[c.field] = true
		}
		if (seen[fSeats] || seen[fBench]) && len(seen) > 1 {
			return h
		}
	}
	return nil
}

// header reads a line as names of columns; of two with one meaning the left one counts.
func (r *surveyReader) header(row int) *header {
	h := &header{row: row, cols: map[int]column{}}
	seen := map[field]bool{}
	for _, col := range r.openCols(row) {
		f, unit := fieldOf(r.sheet.at(row, col).text)
		if f == noField || f == fUnits || f == fPosted || f == fPeople || seen[f] {
			continue
		}
		seen[f] = true
		h.cols[col] = column{f, unit}
	}
	return h
}

// seatsCol is the column of seats, or else of benches.
func (h *header) seatsCol() int {
	at := 0
	for col, c := range h.cols {
		switch c.field {
		case fSeats:
			return col
		case fBench:
			at = col
		}
	}
	return at
}

// surveyed is one section while a table is read.
type surveyed struct {
	spec  SectionSpec
	has   map[field]bool // given by the table
	lines []*surveyLine
	drawn []int // of a grid: the column of each line's first place
}

// surveyLine is one row of seats as its line gives it.
type surveyLine struct {
	sheet    *sheet
	row      int // of the sheet
	name     string
	nameCol  int
	seats    int
	bench    Length
	hasSeats bool
	hasBench bool
	benchCol int
	cross    Length
	spans    []spanCell
}

// spanCell is a cell that lists seats.
type spanCell struct {
	field field
	col   int
}

// section finds a section by name, or starts it.
func (r *surveyReader) section(name string) *surveyed {
	key := nameKey(name)
	if s, ok := r.sections[key]; ok {
		return s
	}
	s := &surveyed{spec: r.common, has: map[field]bool{}}
	s.spec.Name = name
	for _, f := range []field{fPitch, fRise, fRun, fFirstRow, fSeatBoard, fAisle, fRadius} {
		s.has[f] = *lengthOf(&r.common, f) != 0
	}
	if strings.Contains(strings.ToLower(name), "floor") && s.spec.Kind != Floor {
		s.spec.Kind = Floor
		r.note("Section %s is taken for a floor block because of its name.", name)
	}
	r.sections[key] = s
	r.order = append(r.order, s)
	return s
}

// readLines reads the lines below the header.
func (r *surveyReader) readLines(h *header) {
	r.takeHeader(h)
	var current *surveyed
	for row := h.row + 1; row < len(r.sheet.cells); row++ {
		cols := r.openCols(row)
		if len(cols) == 0 || r.headerAgain(h, row, cols) || r.total(h, row, cols, current) {
			continue
		}
		named := false
		for _, col := range cols {
			named = named || h.cols[col].field != noField
		}
		if named {
			current = r.readLine(h, row, current)
		}
	}
}

// takeHeader marks the names as read, and lists the columns that have no meaning here.
func (r *surveyReader) takeHeader(h *header) {
	for _, col := range r.openCols(h.row) {
		if h.cols[col].field != noField {
			r.sheet.take(h.row, col)
			continue
		}
		var cells []string
		for row := h.row + 1; row < len(r.sheet.cells); row++ {
			if r.sheet.open(row, col) {
				r.sheet.take(row, col)
				cells = append(cells, r.sheet.address(row, col))
			}
		}
		why := "no column that is read has this name"
		if f, _ := fieldOf(r.sheet.at(h.row, col).text); f != noField {
			why = "another column has this meaning already"
		}
		const few = 8
		switch {
		case len(cells) > few:
			why += fmt.Sprintf("; %d cells below it are left: %s …", len(cells), strings.Join(cells[:few], ", "))
		case len(cells) > 0:
			why += "; left unread below it: " + strings.Join(cells, ", ")
		}
		r.list(h.row, col, why)
	}
}

// headerAgain takes a line that repeats the names, as tables over several pages do.
func (r *surveyReader) headerAgain(h *header, row int, cols []int) bool {
	for _, col := range cols {
		if f, _ := fieldOf(r.sheet.at(row, col).text); f == noField || f != h.cols[col].field {
			return false
		}
	}
	for _, col := range cols {
		r.sheet.take(row, col)
	}
	return true
}

// total lists a line of totals, which is no row; the rows are counted here.
func (r *surveyReader) total(h *header, row int, cols []int, current *surveyed) bool {
	first := cols[0]
	words := strings.Fields(plain(r.sheet.at(row, first).text))
	if len(words) == 0 || !slices.ContainsFunc(words, func(w string) bool {
		return w == "total" || w == "totals" || w == "sum" || w == "subtotal"
	}) {
		return false
	}
	sum := totalLine{}
	for _, s := range r.order {
		if h.cols[first].field != fRow || s == current {
			sum.lines = append(sum.lines, s.lines...)
		}
	}
	for _, col := range cols {
		if h.cols[col].field == fSeats {
			sum.sheet, sum.row, sum.col = r.sheet, row, col
			r.sheet.take(row, col)
			r.totals = append(r.totals, sum)
			continue
		}
		r.list(row, col, "a total, no row of seats")
	}
	return true
}

// totalLine is a total in the seats' column and the lines it adds up.
type totalLine struct {
	sheet    *sheet
	row, col int
	lines    []*surveyLine
}

// listTotals lists the totals, once the seats of benches are known too.
func (r *surveyReader) listTotals() {
	for _, t := range r.totals {
		sum := 0
		for _, l := range t.lines {
			sum += l.seats
		}
		r.sheet = t.sheet
		r.list(t.row, t.col, fmt.Sprintf("a total, no row of seats: the rows above it add up to %d", sum))
	}
}

// readLine reads one line; it gives the section the line belongs to.
func (r *surveyReader) readLine(h *header, row int, current *surveyed) *surveyed {
	byField := map[field]int{}
	for col, c := range h.cols {
		if r.sheet.open(row, col) {
			byField[c.field] = col
		}
	}
	s := r.lineSection(row, byField, current)
	line := &surveyLine{sheet: r.sheet, row: row, nameCol: -1, benchCol: -1}
	if col, ok := byField[fRow]; ok {
		line.nameCol = col
		line.name = r.rowName(row, col)
	}
	r.lineSeats(h, line, byField)
	for f := fMissing; f <= fNobody; f++ {
		if col, ok := byField[f]; ok {
			line.spans = append(line.spans, spanCell{f, col})
		}
	}
	for f := fPitch; f <= fStep; f++ {
		if col, ok := byField[f]; ok {
			r.sectionCell(s, line, row, col, h.cols[col])
		}
	}
	count := r.lineRows(row, byField)
	if count > MaxRows-len(s.lines) {
		r.list(row, h.seatsCol(), fmt.Sprintf("with it section %s has more than %d rows: it is left out", s.spec.Name, MaxRows))
		count = 0
	}
	if line.seats > 0 && count > (MaxSeats-r.places)/line.seats {
		r.list(row, byField[fSeats], fmt.Sprintf("with it there are more than %d seats%s", MaxSeats, noneUntil))
		line.seats, count = 0, 1
	}
	r.places += line.seats * count
	for range count {
		s.lines = append(s.lines, line)
		again := *line
		again.spans, again.nameCol, again.name = nil, -1, ""
		line = &again
	}
	return s
}

// lineRows is how many equal rows a line stands for.
func (r *surveyReader) lineRows(row int, byField map[field]int) int {
	col, ok := byField[fRows]
	if !ok {
		return 1
	}
	if r.listDate(row, col, "") {
		return 1
	}
	n, err := wholeNumber(r.sheet.at(row, col).text)
	if err != nil || n < 1 || n > MaxRows {
		r.list(row, col, "it is no number of rows; one row is taken")
		return 1
	}
	r.sheet.take(row, col)
	return n
}

// lineSection is the section that a line names, else the one above.
func (r *surveyReader) lineSection(row int, byField map[field]int, current *surveyed) *surveyed {
	col, ok := byField[fSection]
	text := r.sheet.at(row, col).text
	if ok && (text == `"` || text == "″" || text == "〃" || plain(text) == "ditto" || plain(text) == "do") {
		r.sheet.take(row, col)
		ok = false
	}
	if ok && !r.listDate(row, col, "") {
		name := r.cleanName(row, col, sectionTitle(text))
		r.sheet.take(row, col)
		if name != "" {
			return r.section(name)
		}
	}
	if current == nil {
		current = r.section("A")
		r.note("The first lines name no section: it is called A.")
	}
	return current
}

// sectionTitle takes "Section" and its like off a title.
func sectionTitle(text string) string {
	for _, word := range []string{"section", "block", "stand", "bleacher", "sec."} {
		if len(text) > len(word) && strings.EqualFold(text[:len(word)], word) {
			if rest := strings.TrimLeft(text[len(word):], " :."); rest != "" && len(rest) < len(text)-len(word) {
				return rest
			}
		}
	}
	return text
}

func (r *surveyReader) rowName(row, col int) string {
	if r.listDate(row, col, "; the row is named by its place") {
		return ""
	}
	text := rowTitle(r.sheet.at(row, col).text)
	name := r.cleanName(row, col, text)
	r.sheet.take(row, col)
	return name
}

// rowTitle takes "Row" off a row's name.
func rowTitle(text string) string {
	if len(text) > 4 && strings.EqualFold(text[:3], "row") {
		if rest := strings.TrimLeft(text[3:], " :."); rest != "" && len(rest) < len(text)-3 {
			return rest
		}
	}
	return strings.TrimSuffix(text, ".0")
}

const noneUntil = "; the row has no seats until this is mended"

// lineSeats reads how many seats a row has, counted or as a bench.
func (r *surveyReader) lineSeats(h *header, line *surveyLine, byField map[field]int) {
	benchCol, bench := byField[fBench]
	col, ok := byField[fSeats]
	so := noneUntil
	if bench {
		so = "; the bench's length is used instead"
	}
	if ok && !r.listDate(line.row, col, so) {
		n, err := wholeNumber(r.sheet.at(line.row, col).text)
		switch {
		case nothing(r.sheet.at(line.row, col).text):
			line.hasSeats = true
		case err != nil:
			r.list(line.row, col, "it is no whole number of seats"+so)
		case n > MaxSeats:
			r.list(line.row, col, "that many seats cannot be"+so)
		default:
			line.seats, line.hasSeats = n, true
		}
		r.sheet.take(line.row, col)
	}
	if bench {
		so = noneUntil
		if line.hasSeats {
			so = "; the counted seats are used"
		}
		line.bench, line.hasBench = r.length(line.row, benchCol, fBench, h.cols[benchCol].unit, so)
		line.benchCol = benchCol
	}
	if !ok && !bench {
		r.list(line.row, h.seatsCol(), "no seats are given"+noneUntil)
	}
}

// sectionCell reads a cell that holds for the whole section.
func (r *surveyReader) sectionCell(s *surveyed, line *surveyLine, row, col int, c column) {
	text := r.sheet.at(row, col).text
	switch c.field {
	case fKind:
		if k, ok := kindOf(text); !ok {
			r.list(row, col, "the kinds are bench, chairs and floor")
		} else {
			r.keep(s, row, col, c.field, s.spec.Kind == k, func() { s.spec.Kind = k })
		}
	case fFrom:
		side, ok := sideOf(text)
		if !ok {
			r.list(row, col, "seats are numbered from the left or from the right, as the camera sees the stands")
			return
		}
		r.keep(s, row, col, c.field, s.spec.SeatNumbers.From == side, func() { s.spec.SeatNumbers.From = side })
	case fStart, fStep:
		n, err := wholeNumber(text)
		if err != nil || n < 1 || n > maxNumber/MaxSeats {
			r.list(row, col, "it is no number that seats can start at or step by")
			return
		}
		to := &s.spec.SeatNumbers.Start
		if c.field == fStep {
			to = &s.spec.SeatNumbers.Step
		}
		r.keep(s, row, col, c.field, *to == n, func() { *to = n })
	case fCross:
		if nothing(text) {
			r.sheet.take(row, col)
		} else {
			line.cross, _ = r.length(row, col, c.field, c.unit, "")
		}
	default:
		if to := lengthOf(&s.spec, c.field); to != nil && !(c.field == fAisle && nothing(text)) {
			if l, ok := r.length(row, col, c.field, c.unit, ""); ok {
				r.keep(s, row, col, c.field, *to == l, func() { *to = l })
			}
		} else if to != nil {
			r.sheet.take(row, col)
		}
	}
}

// keep sets what a section has once; a line that says otherwise is listed.
func (r *surveyReader) keep(s *surveyed, row, col int, f field, same bool, set func()) {
	if s.has[f] && !same {
		r.list(row, col, "the section's lines differ, and a section has one of it: the first one is kept")
		return
	}
	r.sheet.take(row, col)
	s.has[f] = true
	set()
}

func sideOf(text string) (Side, bool) {
	switch plain(text) {
	case "left", "l", "from left", "camera left", "from the left":
		return Left, true
	case "right", "r", "from right", "camera right", "from the right":
		return Right, true
	}
	return Left, false
}
