package survey

import (
	"fmt"
	"slices"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// header is the line that names the columns of a line-a-row table.
type header struct {
	row  int
	at   [fUnits + 1]int // columns by field; −1 where there is none
	unit [fUnits + 1]seating.Length
}

// findHeader looks for a line that names seats or a bench's length and something else; of two columns with one meaning
// the left one counts.
func (r *reader) findHeader() *header {
	for row := range r.sheet.Rows() {
		h := &header{row: row}
		for f := range h.at {
			h.at[f] = -1
		}
		named := 0
		for _, col := range r.openCols(row) {
			f, unit := fieldOf(r.sheet.At(row, col).Text)
			if f == noField || f >= fPosted || h.at[f] >= 0 {
				continue
			}
			h.at[f], h.unit[f] = col, unit
			named++
		}
		if h.seatsCol() >= 0 && named > 1 {
			return h
		}
	}
	return nil
}

func (h *header) field(col int) field { return field(max(0, slices.Index(h.at[:], col))) }

// seatsCol is the column of seats, or else of benches.
func (h *header) seatsCol() int {
	if h.at[fSeats] < 0 {
		return h.at[fBench]
	}
	return h.at[fSeats]
}

func (r *reader) readLines(h *header) {
	r.takeHeader(h)
	var current *section
	for row := h.row + 1; row < r.sheet.Rows(); row++ {
		cols := r.openCols(row)
		if len(cols) == 0 || r.headerAgain(h, row, cols) || r.total(h, row, cols, current) {
			continue
		}
		if slices.ContainsFunc(cols, func(col int) bool { return h.field(col) != noField }) {
			current = r.readLine(h, row, current)
		}
	}
}

// takeHeader marks the names as read, and lists the columns that have no meaning here.
func (r *reader) takeHeader(h *header) {
	for _, col := range r.openCols(h.row) {
		if h.field(col) != noField {
			r.sheet.take(h.row, col)
			continue
		}
		var below []string
		for row := h.row + 1; row < r.sheet.Rows(); row++ {
			if r.sheet.open(row, col) {
				r.sheet.take(row, col)
				below = append(below, r.sheet.Address(row, col))
			}
		}
		why := "no column that is read has this name"
		if f, _ := fieldOf(r.sheet.At(h.row, col).Text); f != noField {
			why = "another column has this meaning already"
		}
		const few = 8
		switch {
		case len(below) > few:
			why += fmt.Sprintf("; %d cells below it are left: %s …", len(below), strings.Join(below[:few], ", "))
		case len(below) > 0:
			why += "; left unread below it: " + strings.Join(below, ", ")
		}
		r.list(h.row, col, why)
	}
}

// headerAgain takes a line that repeats the names, as tables over several pages do.
func (r *reader) headerAgain(h *header, row int, cols []int) bool {
	for _, col := range cols {
		if f, _ := fieldOf(r.sheet.At(row, col).Text); f == noField || f != h.field(col) {
			return false
		}
	}
	for _, col := range cols {
		r.sheet.take(row, col)
	}
	return true
}

// total lists a line of totals, which is no row; the rows are counted here.
func (r *reader) total(h *header, row int, cols []int, current *section) bool {
	first := cols[0]
	words := strings.Fields(cells.Plain(r.sheet.At(row, first).Text))
	adds := func(word string) bool { return slices.Contains([]string{"total", "totals", "sum", "subtotal"}, word) }
	if !slices.ContainsFunc(words, adds) {
		return false
	}
	sum := totalLine{}
	for _, s := range r.order {
		if h.field(first) != fRow || s == current {
			sum.lines = append(sum.lines, s.lines...)
		}
	}
	for _, col := range cols {
		if col == h.at[fSeats] {
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
	lines    []*line
}

// readLine reads one line; it gives the section the line belongs to.
func (r *reader) readLine(h *header, row int, current *section) *section {
	s := r.lineSection(h, row, current)
	line := &line{sheet: r.sheet, row: row, nameCol: -1, benchCol: -1}
	if col := h.at[fRow]; r.sheet.open(row, col) {
		line.nameCol = col
		line.name = r.rowName(row, col)
	}
	r.lineSeats(h, line)
	for f := fMissing; f <= fNobody; f++ {
		if r.sheet.open(row, h.at[f]) {
			line.lists = append(line.lists, listCell{f, h.at[f]})
		}
	}
	for f := fPitch; f <= fStep; f++ {
		if r.sheet.open(row, h.at[f]) {
			r.sectionCell(h, s, line, f)
		}
	}
	count := 1 // equal rows that the line stands for
	if col := h.at[fRows]; r.sheet.open(row, col) && !r.listDate(row, col, "") {
		if n, ok := cells.Number(r.sheet.At(row, col).Text); ok && n >= 1 && n <= seating.MaxRows {
			count = n
			r.sheet.take(row, col)
		} else {
			r.list(row, col, "it is no number of rows; one row is taken")
		}
	}
	if count > seating.MaxRows-len(s.lines) {
		r.list(row, h.seatsCol(), fmt.Sprintf("with it section %s has more than %d rows: it is left out",
			s.spec.Name, seating.MaxRows))
		count = 0
	}
	if line.seats > 0 && count > (seating.MaxSeats-r.places)/line.seats {
		r.list(row, h.at[fSeats], tooMany)
		line.seats, count = 0, 1
	}
	r.places += line.seats * count
	for range count {
		s.lines = append(s.lines, line)
		again := *line
		again.lists, again.nameCol, again.name = nil, -1, ""
		line = &again
	}
	return s
}

// lineSection is the section that a line names, else the one above.
func (r *reader) lineSection(h *header, row int, current *section) *section {
	col := h.at[fSection]
	text := r.sheet.At(row, col).Text
	if cells.Ditto(text) || cells.Plain(text) == "do" {
		r.sheet.take(row, col)
	} else if r.sheet.open(row, col) && !r.listDate(row, col, "") {
		if name := r.cleanName(row, col, sectionTitle(text)); name != "" {
			return r.section(name)
		}
	}
	if current == nil {
		current = r.section("A")
		r.note("The first lines name no section: it is called A.")
	}
	return current
}

// cleanName makes a name that ids may hold of a cell's text, and lists the cell where that changed it.
func (r *reader) cleanName(row, col int, text string) string {
	name, err := seating.CheckName(text)
	if err != nil {
		why := err.(*seating.Fault).What
		if name = seating.NameFrom(text); name != "" {
			why += fmt.Sprintf("; it is called %q here", name)
		}
		r.list(row, col, why)
	}
	r.sheet.take(row, col)
	return name
}

func (r *reader) rowName(row, col int) string {
	if r.listDate(row, col, "; the row is named by its place") {
		return ""
	}
	return r.cleanName(row, col, rowTitle(r.sheet.At(row, col).Text))
}

const noneUntil = "; the row has no seats until this is mended"

var tooMany = fmt.Sprintf("with it there are more than %d seats%s", seating.MaxSeats, noneUntil)

// lineSeats reads how many seats a row has, counted or as a bench.
func (r *reader) lineSeats(h *header, line *line) {
	col, benchCol := h.at[fSeats], h.at[fBench]
	ok, bench := r.sheet.open(line.row, col), r.sheet.open(line.row, benchCol)
	so := noneUntil
	if bench {
		so = "; the bench's length is used instead"
	}
	if ok && !r.listDate(line.row, col, so) {
		n, whole := cells.Number(r.sheet.At(line.row, col).Text)
		switch {
		case nothing(r.sheet.At(line.row, col).Text):
			line.hasSeats = true
		case !whole:
			r.list(line.row, col, "it is no whole number of seats"+so)
		case n > seating.MaxSeats:
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
		line.bench, line.hasBench = r.length(line.row, benchCol, fBench, h.unit[fBench], so)
		line.benchCol = benchCol
	}
	if !ok && !bench {
		r.list(line.row, h.seatsCol(), "no seats are given"+noneUntil)
	}
}

// sectionCell reads a cell that holds for the whole section.
func (r *reader) sectionCell(h *header, s *section, line *line, f field) {
	row, col := line.row, h.at[f]
	text := r.sheet.At(row, col).Text
	once := onceCell{r, s, row, col, f}
	switch f {
	case fKind:
		kind, ok := kindOf(text)
		keepOnce(once, &s.spec.Kind, kind, ok, "the kinds are bench, chairs and floor")
	case fFrom:
		side, ok := sideOf(text)
		keepOnce(once, &s.spec.SeatNumbers.From, side, ok,
			"seats are numbered from the left or from the right, as the camera sees the stands")
	case fStart, fStep:
		to := &s.spec.SeatNumbers.Start
		if f == fStep {
			to = &s.spec.SeatNumbers.Step
		}
		n, ok := cells.Number(text)
		ok = ok && n >= 1 && n <= seating.MaxNumber/seating.MaxSeats
		keepOnce(once, to, n, ok, "it is no number that seats can start at or step by")
	default:
		if (f == fAisle || f == fCross) && nothing(text) {
			r.sheet.take(row, col)
			return
		}
		l, ok := r.length(row, col, f, h.unit[f], "")
		if f == fCross {
			line.cross = l
		} else if ok {
			keepOnce(once, measureOf(&s.spec, f).Length, l, true, "")
		}
	}
}

// onceCell is a cell for what a section has one of.
type onceCell struct {
	r        *reader
	s        *section
	row, col int
	field    field
}

// keepOnce keeps what a cell says; one that says nothing, and why, is listed, and one that says otherwise than a
// line before it.
func keepOnce[T comparable](c onceCell, to *T, v T, ok bool, why string) {
	if ok && c.s.has[c.field] && *to != v {
		ok, why = false, "the section's lines differ, and a section has one of it: the first one is kept"
	}
	if !ok {
		c.r.list(c.row, c.col, why)
		return
	}
	c.r.sheet.take(c.row, c.col)
	c.s.has[c.field] = true
	*to = v
}
