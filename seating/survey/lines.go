package survey

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// header is the line that names the columns of a line-a-row table.
type header struct {
	on       *sheet
	row      int
	from, to int             // its columns, where tables stand side by side
	end      int             // the line behind its last one
	at       [fUnits + 1]int // columns by field; −1 where there is none
	unit     [fUnits + 1]seating.Length
	each     bool // the name over the seats says that they are of each row
	twice    int  // a second column of rows behind the seats, or 0
	// leftToRight: the name over the seats says that their numbers stand as the camera sees the seats.
	leftToRight bool
	parity      int  // 1 where it says that they are odd ones, 2 even ones
	marked      bool // it says that they are numbers
	numbers     bool // the name over missing seats says that they are numbers
}

// headersIn finds the tables whose columns a line names: each names seats or a bench's length and something else. Of
// two columns with one meaning the left one counts; where the names begin anew, another table stands beside the first.
func (r *reader) headersIn(row int) []*header {
	cols := r.openCols(row)
	if len(cols) < 2 || slices.ContainsFunc(cols, func(col int) bool { return !canName(r.sheet.At(row, col).Text) }) {
		return nil
	}
	var all []*header
	var h *header
	var first field
	add := func() {
		if h != nil {
			if h.sortOut(r); h.seatsCol() >= 0 && h.known() > 1 {
				all = append(all, h)
			}
		}
		h = nil
	}
	for _, col := range cols {
		f, unit := noField, seating.Length(0)
		if text := r.sheet.At(row, col).Text; len(text) > 1 {
			f, unit = fieldOf(text)
		}
		if h != nil && f != noField && f == first && h.seatsCol() >= 0 &&
			(r.sheet.At(row, col).Text == r.sheet.At(row, h.at[first]).Text || r.sheet.At(row, col-1).Text == "") {
			add()
		}
		if h == nil {
			h = &header{on: r.sheet, row: row, from: col, to: math.MaxInt, end: r.sheet.Rows()}
			for f := range h.at {
				h.at[f] = -1
			}
			if len(all) > 0 {
				all[len(all)-1].to = col
			} else {
				h.from = 0
			}
			first = noField
		}
		if f == noField || f >= fPosted {
			continue
		}
		if f == fRow && h.at[f] >= 0 && h.at[fSection] < 0 && h.seatsCol() < 0 { // tiers, and rows of them
			h.at[fSection], h.at[f] = h.at[f], col
			continue
		}
		if h.at[f] >= 0 {
			if h.seatsCol() >= 0 && f == fRow {
				h.twice = col
			}
			continue
		}
		if first == noField {
			first = f
		}
		h.at[f], h.unit[f] = col, unit
		words := strings.Fields(cells.Plain(r.sheet.At(row, col).Text))
		says := func(word string) bool { return slices.Contains(words, word) }
		if f == fSeats || f == fCapacity {
			h.each = h.each || says("per") || says("each") || says("in") || says("row")
			h.marked = h.marked || says("numbers") || says("nos") || says("numbered") || says("numbering") ||
				says("range")
		}
		if f == fMissing {
			h.numbers = says("numbers") || says("nos") || says("which") || says("seat") && !says("seats")
		}
	}
	add()
	return all
}

// canName says whether a text may name a column: there is no figure at its start.
func canName(text string) bool { return text == "" || text[0] < '0' || text[0] > '9' }

// sortOut gives the columns that may mean two things the meaning that the others leave them.
func (h *header) sortOut(r *reader) {
	move := func(from, to field) {
		if h.at[from] >= 0 && h.at[to] < 0 {
			h.at[to], h.unit[to], h.at[from] = h.at[from], h.unit[from], -1
		}
	}
	if h.at[fLast] < 0 {
		move(fFirst, fStart)
	} else if at := h.at[fFrom]; at >= 0 && slices.Contains([]string{"from", "seats from", "seat from"},
		cells.Plain(r.sheet.At(h.row, at).Text)) {
		move(fFrom, fFirst)
	}
	if h.at[fFirst] < 0 {
		h.at[fLast] = -1
	}
	if at := h.at[fFirstRow]; h.at[fRowTo] >= 0 && at >= 0 && cells.Plain(r.sheet.At(h.row, at).Text) == "first row" {
		move(fFirstRow, fRowFrom)
	}
	if h.at[fLast] >= 0 { // the numbers say which, another column how many
		move(fSeats, fCapacity)
	}
	if h.at[fLast] < 0 && h.at[fSeats] < 0 {
		move(fCapacity, fSeats)
	}
	if h.at[fSeats] >= 0 || h.at[fLast] >= 0 || h.at[fSeat] < 0 {
		h.at[fSeat] = -1
	}
}

func (h *header) known() (n int) {
	for _, col := range h.at {
		if col >= 0 {
			n++
		}
	}
	return n
}

func (h *header) field(col int) field { return field(max(0, slices.Index(h.at[:], col))) }

// seatsCol is the column of seats, or else of benches.
func (h *header) seatsCol() int {
	for _, f := range []field{fSeats, fCapacity, fSeat, fBench} {
		if h.at[f] >= 0 {
			return h.at[f]
		}
	}
	if h.at[fFirst] >= 0 {
		return h.at[fLast]
	}
	return -1
}

// cols are the columns of a line that hold something unread and belong to the table.
func (h *header) cols(r *reader, row int) []int {
	cols := r.openCols(row)
	if h.from > 0 || h.to < math.MaxInt {
		cols = slices.DeleteFunc(cols, func(col int) bool { return col < h.from || col >= h.to })
	}
	return cols
}

// readTables reads the tables of a sheet with a line a row, and says whether there are any.
func (r *reader) readTables() bool {
	var heads []*header
	for row := range r.sheet.Rows() {
		for _, h := range r.headersIn(row) {
			for _, above := range heads {
				if above.row < row && above.end > row && above.from < h.to && h.from < above.to {
					above.end = row
				}
			}
			heads = append(heads, h)
		}
	}
	var current *section
	for i, h := range heads {
		beside := i > 0 && heads[i-1].row == h.row || i+1 < len(heads) && heads[i+1].row == h.row
		current = r.readLines(h, current, i > 0, len(heads) > 1, beside)
	}
	return len(heads) > 0
}

// tableBody is a table while its lines are read.
type tableBody struct {
	*reader
	*header
	current *section // that lines without a name belong to
	title   string   // of the section that the next line starts
}

func (r *reader) readLines(h *header, current *section, again, several, beside bool) *section {
	b := &tableBody{reader: r, header: h, current: current}
	if h.twice > 0 {
		r.ask(r.sheet, h.row, h.twice, "rows go on to the right of the seats",
			"put one below the other, or give the second rows their own section column")
	}
	for row := h.row + 1; row < h.end && h.at[fRow] < 0 && h.at[fRows] >= 0; row++ {
		if some, _ := rowsNamed(r.sheet.At(row, h.at[fRows]).Text); some != nil { // names of rows, and not how many
			h.at[fRow], h.at[fRows] = h.at[fRows], -1
		}
	}
	if at := h.at[fBench]; at >= 0 && h.at[fRow] < 0 && h.at[fRows] < 0 && (h.at[fSeats] >= 0 || h.at[fLast] >= 0) {
		length := func(text string) bool {
			_, err := seating.ParseLengthIn(text, cmp.Or(h.unit[fBench], r.unit))
			return text != "" && err == nil
		}
		if !slices.ContainsFunc(r.column(h.on, h.row+1, h.end, at), length) { // names of benches, and no lengths
			h.at[fRow], h.at[fBench] = at, -1
		}
	}
	if at := h.at[fSection]; at >= 0 && slices.ContainsFunc(r.column(h.on, h.row+1, h.end, at),
		func(text string) bool {
			side, _ := sideOfText(text)
			return side != 0 && strings.HasSuffix(cells.Plain(text), " side")
		}) {
		h.at[fSection] = -1 // words for front and back, and no sections
	}
	b.takeHeader()
	b.findTitle(again, several, beside)
	if h.at[fSeat] >= 0 && b.readSeatLines() {
		return b.current
	}
	for row := h.row + 1; row < h.end; row++ {
		cols := h.cols(r, row)
		if len(cols) == 0 || r.total(h, row, cols, b.current) {
			continue
		}
		if b.aside(row, cols) {
			continue
		}
		if slices.ContainsFunc(cols, func(col int) bool { return h.field(col) != noField }) {
			b.readLine(row)
		}
	}
	return b.current
}

// findTitle finds the section that the lines without a name belong to: in the line above the header, or the sheet's.
func (b *tableBody) findTitle(again, several, beside bool) {
	if b.at[fSection] >= 0 {
		return
	}
	for row := b.row - 1; row >= 0; row-- {
		cols := b.cols(b.reader, row)
		if beside { // a title over one of them stands over its columns
			cols = slices.DeleteFunc(cols, func(col int) bool {
				return headingOf(b.sheet.At(row, col).Text) == "" && b.sheet.held(row) < 2
			})
		}
		if len(cols) == 0 {
			if b.sheet.Cols(row) > 0 && row < b.row-1 {
				break
			}
			continue
		}
		text := b.sheet.At(row, cols[0]).Text
		name := headingOf(text)
		_, mark := landmarkSide(text)
		if all, unsure := claims(text); name == "" && (len(cols) > 1 || len(all) > 0 || unsure || mark) {
			continue
		}
		if name == "" && several && len(strings.Fields(text)) <= 3 && b.sheet.At(row, cols[0]).Date == "" &&
			!strings.Contains(text, ":") {
			name = text
		}
		if name == "" {
			break
		}
		b.title = b.sectionName(row, cols[0], name)
		for _, col := range cols[1:] {
			b.sheet.take(row, col)
		}
		return
	}
	switch {
	case len(b.sheets) > 1 && b.sheet.Name != "" && (b.current == nil || !b.current.on(b.sheet)):
		b.title, _ = seating.CheckName(sectionTitle(b.sheet.Name))
		if b.title == "" {
			b.title = seating.NameFrom(b.sheet.Name)
		}
	case beside || again && b.startsAnew(b.row+1):
		b.title = b.freeName()
		b.note("The table at %s names no section: it is called %s.", b.sheet.Address(b.row, max(b.from, 0)), b.title)
	}
}

// held is how many cells of a line hold anything, read or not.
func (s *sheet) held(row int) (n int) {
	for col := range s.Cols(row) {
		if s.At(row, col).Text != "" {
			n++
		}
	}
	return n
}

// on says whether the section's lines stand on a sheet.
func (s *section) on(at *sheet) bool {
	return len(s.lines) > 0 && s.lines[len(s.lines)-1].sheet == at
}

// freeName is the first letter that names no section.
func (r *reader) freeName() string {
	for {
		r.letters++
		if name := seating.RowLetters.Name(r.letters); r.sections[seating.NameKey(name)] == nil {
			return name
		}
	}
}

// startsAnew says whether the next row's name stands in the current section already.
func (b *tableBody) startsAnew(row int) bool {
	for ; row < b.end && b.current != nil; row++ {
		if text := b.sheet.At(row, b.at[fRow]).Text; text != "" && len(b.cols(b.reader, row)) > 1 {
			name := rowNamed(text)
			return slices.ContainsFunc(b.current.lines, func(l *line) bool { return l.name == name })
		}
	}
	return false
}

// aside reads a line that is no row: a heading over the rows below it, or a way between rows.
func (b *tableBody) aside(row int, cols []int) bool {
	text := b.sheet.At(row, cols[0]).Text
	if _, ok := isWalkway(text); ok && b.walkway(row, cols) {
		return true
	}
	if at := b.at[fRow]; at >= 0 && at != cols[0] && b.sheet.open(row, at) {
		if _, ok := isWalkway(b.sheet.At(row, at).Text); ok && b.walkway(row, cols) {
			return true
		}
	}
	if !canName(text) || b.sheet.open(row, b.seatsCol()) && b.seatsCol() != cols[0] {
		return false
	}
	if len(cols) > 1 {
		return false
	}
	if _, n := rankOf(rowNamed(text)); n == 0 && b.headerNext(row+1) {
		return true // a title of the table below
	}
	name, f := "", b.field(cols[0])
	all, unsure := claims(text)
	_, mark := landmarkSide(text)
	if len(all) > 0 || unsure || mark && !b.named() && !b.startsAnew(row+1) {
		return true // what is left outside is read at the end
	}
	if text[0] == '(' {
		return f != fRow
	}
	switch {
	case f == fSection:
		name = sectionTitle(text)
		if cells.Ditto(text) || b.sheet.At(row, cols[0]).Date != "" {
			return false
		}
	case headingOf(text) != "":
		name = headingOf(text)
	default:
		_, n := rankOf(rowTitle(text))
		if n > 0 || f != noField && f != fRow || b.sheet.At(row, cols[0]).Date != "" {
			return false
		}
		if len(strings.Fields(text)) > 3 {
			return true
		}
		if !strings.ContainsFunc(text, unicode.IsLetter) {
			return f != fRow
		}
		if !b.startsAnew(row+1) && (b.current != nil || row+1 >= b.end || len(b.cols(b.reader, row+1)) < 2) {
			return f != fRow
		}
		name = text
		b.note("%q at %s is taken for the heading of a section.", seating.Shown(text), b.sheet.Address(row, cols[0]))
	}
	if name = b.sectionName(row, cols[0], name); name != "" {
		b.title = name
	}
	return true
}

// headerNext says whether the next line that holds anything names the columns of another table.
func (b *tableBody) headerNext(row int) bool {
	for row < b.end && len(b.cols(b.reader, row)) == 0 {
		row++
	}
	return row == b.end && row < b.sheet.Rows()
}

// named says whether the row above has a name in words, as one called Front has.
func (b *tableBody) named() bool {
	if b.current == nil || b.title != "" || len(b.current.lines) == 0 {
		return false
	}
	_, n := rankOf(b.current.lines[len(b.current.lines)-1].name)
	return n == 0
}

// walkway reads a line such as "walkway 4 ft": a way behind or before the row above it.
func (b *tableBody) walkway(row int, cols []int) bool {
	depth := seating.Length(0)
	for _, col := range cols {
		text := b.sheet.At(row, col).Text
		if rest, ok := isWalkway(text); ok {
			text = rest
		}
		if text == "" || col == b.at[fSection] || nothing(text) {
			continue
		}
		unit := b.header.unit[b.field(col)]
		l, err := seating.ParseLengthIn(text, unit)
		if err != nil || depth != 0 {
			return false
		}
		depth = l
	}
	if b.current == nil || b.title != "" || len(b.current.lines) == 0 {
		return false
	}
	b.gap(b.current, depth, row, cols)
	return true
}

// gap puts a way behind the last line of a section, as the table has them.
func (r *reader) gap(s *section, depth seating.Length, row int, cols []int) {
	for _, col := range cols {
		r.sheet.take(row, col)
	}
	if depth == 0 {
		depth = seating.DefaultAisle
		r.note("Section %s: the walkway at %s has no depth: %v is taken.", s.spec.Name, r.sheet.Address(row, cols[0]),
			depth)
	}
	s.lines[len(s.lines)-1].gap += depth
}

// takeHeader marks the names as read. What stands in brackets behind one may change what its column means.
func (b *tableBody) takeHeader() {
	r, h := b.reader, b.header
	r.heads, r.above = append(r.heads, h), ""
	for _, col := range h.cols(r, h.row) {
		text := r.sheet.At(h.row, col).Text
		f := h.field(col)
		switch {
		case f != noField:
			r.sheet.take(h.row, col)
			if f <= fHeight {
				b.remark(col, f)
			}
		case h.at[fSeat] >= 0 && ownColumn(text):
			r.sheet.take(h.row, col)
			for row := h.row + 1; row < h.end; row++ {
				if r.sheet.take(row, col); r.sheet.At(row, col).Text == "reserved" {
					r.list(row, col, "it does not say for whom")
				}
			}
		case sumsBeside.MatchString(strings.ToLower(text)):
			r.sums = append(r.sums, sumColumn{h.on, h.row, h.end, col})
			for row := h.row; row < h.end; row++ {
				h.on.take(row, col)
			}
		case besideStands.MatchString(strings.ToLower(text)):
			r.listColumn(h, col)
		}
	}
}

// besideStands are names of columns that say nothing of rows and seats.
var besideStands = regexp.MustCompile(`^(x|names?|who|leaders?|called|cards?( packed)?|measured( by| on)?|surveyed ` +
	`by|` +
	`counted by|checked( by)?|by|date|day|time|tally|paint|colou?r|photos?|pictures?|phone|` +
	`initials|width|material)( *\(m\))?$`)

// sumsBeside are names of columns that count what is read otherwise.
var sumsBeside = regexp.MustCompile(`^(running total|total|totals|sum|all|left( over)?|remain(ing|s)|usable|(seats ` +
	`)?there|bleibt|` +
	`bleiben|summe|gesamt)$`)

// sumColumn is a column of such a name.
type sumColumn struct {
	on            *sheet
	row, end, col int
}

// checkSums holds columns of sums against the seats of their lines, and of all so far.
func (r *reader) checkSums() {
	for _, c := range r.sums {
		r.sheet = c.on
		all, gone := 0, 0
		for row := c.row; row < c.end; row++ {
			here, less := 0, 0
			for _, l := range r.beside[place{c.on.index, row, 0}] {
				here, less = here+l.seats, less+l.gone
			}
			all, gone = all+here, gone+less
			text := c.on.At(row, c.col).Text
			n, ok := cells.Number(text)
			switch {
			case text == "":
			case row > c.row && here > 0 && (!ok || !slices.Contains([]int{here, here - less, all, all - gone}, n)):
				r.lose(row, c.col, fmt.Sprintf("the row has %d seats by what is read", here-less))
			default:
				r.list(row, c.col, "a total, no row of seats")
			}
		}
	}
}

// plainRemarks are words in brackets behind the name of a column that change nothing.
var plainRemarks = regexp.MustCompile(`^(no|nr|nos|number|numbers|numbered|of|seats?|rows?|each|per|in|a|the|names?|` +
	`count|counted|how|many|which|from|to|first|last|and|or|by|people|places|above|ground|floor|level|as|painted|` +
	`written|on|it)$`)

// remark heeds what stands in brackets behind the name of a column.
func (b *tableBody) remark(col int, f field) {
	text := b.sheet.At(b.row, col).Text
	_, remark, _ := strings.Cut(text, "(")
	if strings.HasSuffix(cells.Plain(remark), "left to right") {
		b.leftToRight = true
		return
	}
	of := ""
	if f == fRow {
		of = "numbered "
	}
	if b.tell(b.on, b.row, col, of+remark) || b.tell(b.on, b.row, col, remark) {
		return
	}
	for _, word := range strings.Fields(cells.Plain(remark)) {
		switch {
		case word == "odd" || word == "odds":
			b.parity = 1
		case word == "even" || word == "evens":
			b.parity = 2
		case word != "only" && seating.Unit(word) == 0 && !plainRemarks.MatchString(word):
			b.lose(b.row, col, "what stands in brackets may change what its column means")
			return
		}
	}
}

// listColumn lists a column that is not read; where it may say something of the stands, the table is refused.
func (r *reader) listColumn(h *header, col int) {
	r.sheet = h.on
	var below []string
	why, says := "no column that is read has this name", false
	name := h.on.At(h.row, col).Text
	if f, _ := fieldOf(name); f != noField && f < fPosted {
		why, says = "another column has this meaning already", true
	}
	for row := h.row + 1; row < h.end; row++ {
		if h.on.open(row, col) && h.on.held(row) > 1 {
			h.on.take(row, col)
			below = append(below, h.on.Address(row, col))
			says = says || ofStands(h.on.At(row, col).Text)
		}
	}
	apart := false // from the table, by a blank column
	for at := slices.Max(h.at[:]) + 1; at < col; at++ {
		apart = apart || !slices.ContainsFunc(r.column(h.on, h.row, h.end, at),
			func(text string) bool { return text != "" })
	}
	says = says || ofStands(name) || !apart && !besideStands.MatchString(strings.ToLower(name))
	const few = 8
	switch {
	case len(below) > few:
		why += fmt.Sprintf("; %d cells below it are left: %s …", len(below), strings.Join(below[:few], ", "))
	case len(below) > 0:
		why += "; left unread below it: " + strings.Join(below, ", ")
	}
	if h.at[fRow] < 0 || says && len(below) > 0 {
		r.lose(h.row, col, why)
	} else {
		r.list(h.row, col, why)
	}
}

// ownColumn says whether a column of a table with a line a seat says nothing of the stands, as those of seats.csv.
func ownColumn(text string) bool {
	words := strings.Fields(cells.Plain(text))
	return slices.Contains([]string{"order", "seat id", "block", "use", "id"}, strings.Join(words, " ")) ||
		len(words) == 2 && (words[0] == "cue" || words[0] == "card")
}

// total lists a line of totals, which is no row; the rows are counted here.
func (r *reader) total(h *header, row int, cols []int, current *section) bool {
	first := cols[0]
	text := r.sheet.At(row, first).Text
	counts := func(col int) bool { return col == h.at[fSeats] || col == h.at[fCapacity] }
	adds := func(word string) bool {
		return slices.Contains(totalWords, word) && word != "all" && word != "together"
	}
	n, alone := cells.Number(text) // a sum without a word
	alone = alone && counts(first) && len(cols) == 1 && h.at[fRow] >= 0
	if len(r.totals) > maxMarks || !alone && (!canName(text) || !isTotal(text) &&
		!slices.ContainsFunc(strings.Fields(cells.Plain(text)), adds)) {
		return false
	}
	sum, all := totalLine{}, 0
	for _, s := range r.order {
		for _, l := range s.lines {
			if h.field(first) != fRow || s == current {
				sum.lines = append(sum.lines, l)
				all += max(l.seats, l.capacity)
			}
		}
	}
	if alone && (n != all || len(sum.lines) < 2) {
		return false
	}
	for _, col := range cols {
		if counts(col) {
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

// readLine reads one line: a row, or several that are alike.
func (b *tableBody) readLine(row int) {
	r, h := b.reader, b.header
	s := b.lineSection(row)
	b.current = s
	line := &line{sheet: r.sheet, row: row, nameCol: -1, benchCol: -1, col: h.seatsCol(), of: 1, each: h.each,
		marked: h.marked, parity: h.parity, leftToRight: h.leftToRight,
		rowless: h.at[fSection] >= 0 && h.at[fRow] < 0 && h.at[fRows] < 0 && h.at[fRowFrom] < 0 && h.at[fBench] < 0}
	var names []string
	for _, f := range []field{fRow, fRows} {
		col := h.at[f]
		if !r.sheet.open(row, col) {
			continue
		}
		text := r.sheet.At(row, col).Text
		some, unsure := rowsNamed(text)
		switch {
		case r.sheet.At(row, col).Date != "":
			if f == fRow {
				r.rowName(row, col)
			}
			continue
		case some != nil && unsure:
			r.ask(r.sheet, row, col, "rows between these letters may leave out I and O, or not",
				`list them, such as "A-H, J"`)
		case some != nil:
			names = some
			line.each = line.each || strings.HasSuffix(strings.ToLower(text), "each")
			r.sheet.take(row, col)
			continue
		case f == fRow:
			line.nameCol = col
			r.nameLine(line, row, col)
		}
	}
	if from, to := h.at[fRowFrom], h.at[fRowTo]; r.sheet.open(row, from) && r.sheet.open(row, to) && names == nil {
		if r.sheet.At(row, from).Text != r.sheet.At(row, to).Text {
			names, _ = rowsNamed(r.sheet.At(row, from).Text + "-" + r.sheet.At(row, to).Text)
			if names == nil {
				r.ask(r.sheet, row, from, "between this row and the next column's may lie any number of rows",
					`give each row a line, or write "1-5"`)
			}
			r.sheet.take(row, from)
		} else {
			line.nameCol = from
			r.nameLine(line, row, from)
		}
		r.sheet.take(row, to)
	}
	r.lineSeats(h, line)
	for f := fMissing; f <= fNobody; f++ {
		if r.sheet.open(row, h.at[f]) {
			line.lists = append(line.lists, listCell{f, h.at[f], h.numbers && f == fMissing})
			r.lists = r.lists || listsSeats(r.sheet.At(row, h.at[f]).Text)
		}
	}
	if col := h.at[fMissingCount]; r.sheet.open(row, col) {
		if text := r.sheet.At(row, col).Text; nothing(text) {
			r.sheet.take(row, col)
		} else {
			r.ask(r.sheet, row, col, "it says how many seats are missing, and not which", whichHint)
		}
	}
	b.height(line, row)
	for f := fPitch; f <= fStep; f++ {
		if r.sheet.open(row, h.at[f]) {
			r.sectionCell(h, s, line, f)
		}
	}
	count := max(1, len(names)) // rows that the line stands for
	if col := h.at[fRows]; names == nil && r.sheet.open(row, col) && !r.listDate(row, col, "") {
		if n, ok := cells.Number(r.sheet.At(row, col).Text); ok && n >= 1 && n <= seating.MaxRows {
			count = n
			r.sheet.take(row, col)
		} else {
			r.lose(row, col, "it is no number of rows; one row is taken")
		}
	}
	if count > seating.MaxRows-len(s.lines) {
		r.lose(row, h.seatsCol(), fmt.Sprintf("with it section %s has more than %d rows: it is left out",
			s.spec.Name, seating.MaxRows))
		count = 0
	}
	if r.rows += count; r.rows > maxRows {
		r.ask(r.sheet, row, h.seatsCol(), fmt.Sprintf("with it there are more than %d rows", maxRows),
			"leave out what does not belong here")
		count = 0
	}
	if line.seats > 0 && count > (seating.MaxSeats-r.places)/line.seats {
		r.lose(row, line.col, tooMany)
		line.seats, count = 0, 1
	}
	r.places += line.seats * count
	if count > 1 {
		r.groups++
		line.group, line.of = r.groups, count
	}
	for i := range count {
		if i < len(names) {
			line.name = names[i]
		}
		s.lines = append(s.lines, line)
		again := *line
		again.nameCol, again.name = -1, ""
		if i+1 < count {
			line = &again
		}
	}
}

// height reads how high a row is, or how far from the front or the back. Lines of one row must agree.
func (b *tableBody) height(l *line, row int) {
	col := b.at[fHeight]
	if !b.on.open(row, col) {
		return
	}
	text := b.on.At(row, col).Text
	height, ok := b.length(row, col, fHeight, b.header.unit[fHeight], "")
	if !ok {
		b.lose(row, col, "which row is in front may hang on it")
		return
	}
	words := strings.Fields(cells.Plain(b.on.At(b.row, col).Text))
	from, _ := sideSaid(words)
	l.distance = from != 0 || slices.Contains(words, "distance")
	if slices.Contains(words, "from") && from < 0 {
		height = -height
	}
	if l.hasHeight && l.height != height {
		b.lose(row, col, fmt.Sprintf("the row's other lines do not say %s", text))
	}
	l.height, l.hasHeight = height, true
}

// nameLine names a line by its cell, and keeps what that says of front and back.
func (r *reader) nameLine(l *line, row, col int) {
	text := r.sheet.At(row, col).Text
	if canName(text) || strings.ContainsAny(text, " (") {
		if side, _ := sideOfText(text); side != 0 {
			l.side, l.sideText, l.sideCol = side, text, col
		}
	}
	l.name = r.rowName(row, col)
	if slices.Contains(ordinals, strings.ToLower(rowTitle(text))) {
		l.ordinal = rowTitle(text)
	}
}

const whichHint = `write the numbers of the missing seats, such as "7, 9-10", or "seat 7" for one`

// listsSeats says whether a cell can only be meant as numbers of seats: a list, a range, or "seat 7".
func listsSeats(text string) bool {
	t := strings.ToLower(strings.TrimSpace(text))
	_, number := seatNumber(t)
	if number || t == "" || seatsCounted(t) {
		return false
	}
	return strings.ContainsAny(t, "0123456789")
}

// seatsCounted says whether a text is a number of seats rather than the number of one: "2 seats", "3 missing".
func seatsCounted(text string) bool {
	t := strings.ToLower(strings.TrimSpace(text))
	head := strings.TrimLeft(t, "0123456789")
	if head == t || head == "" {
		return false
	}
	words := strings.Fields(strings.Trim(head, " ()x×"))
	return len(words) > 0 && !slices.ContainsFunc(words, func(word string) bool {
		return !slices.Contains([]string{"seat", "seats", "place", "places", "chair", "chairs", "missing", "gone",
			"of", "them", "broken", "removed", "seat(s)"}, word)
	})
}

// lineSection is the section that a line names, else the one above.
func (b *tableBody) lineSection(row int) *section {
	col := b.at[fSection]
	text := b.sheet.At(row, col).Text
	if cells.Ditto(text) || cells.Plain(text) == "do" {
		b.sheet.take(row, col)
	} else if b.sheet.open(row, col) && !b.listDate(row, col, "") {
		if name := b.sectionName(row, col, sectionTitle(text)); name != "" {
			b.title = ""
			return b.section(name)
		}
	}
	if b.title != "" {
		b.current, b.title = b.section(b.title), ""
	}
	if b.current == nil {
		b.current = b.section("A")
		b.note("The first lines name no section: it is called A.")
	}
	return b.current
}

// restOf are words of rows that a table does not name.
var restOf = regexp.MustCompile(`\b(all|others?|rest|remaining|each|every)\b`)

// cleanName makes a name that ids may hold of a cell's text, and lists the cell where that changed it.
func (r *reader) cleanName(row, col int, text string) string {
	name, err := seating.CheckName(text)
	if err != nil {
		why := err.(*seating.Fault).What
		if name = seating.NameFrom(text); name != "" {
			why += fmt.Sprintf("; it is called %q here", name)
		}
		r.lose(row, col, why)
	}
	if restOf.MatchString(strings.ToLower(text)) {
		r.lose(row, col, "it does not say which rows")
	}
	r.sheet.take(row, col)
	return name
}

// sectionName is cleanName for a section. What stands behind the name in its cell may be of its rows.
func (r *reader) sectionName(row, col int, name string) string {
	text := r.sheet.At(row, col).Text
	clean := r.cleanName(row, col, name)
	if _, remark, _ := strings.Cut(name, "("); ofStands(remark) {
		r.lose(row, col, "what stands in brackets may change what it means")
	}
	if tail := text[max(0, strings.LastIndex(text, name)+len(name)):]; !r.heedTail(row, col, tail) {
		if ofStands(tail) || counts(tail) {
			r.lose(row, col, "what stands behind the name is not read")
		} else {
			r.list(row, col, "what stands behind the name is not read")
		}
	}
	return clean
}

// heedTail keeps what stands behind a name where that says which row is in front, and says whether there is no more.
func (r *reader) heedTail(row, col int, tail string) bool {
	side, bare := sideOfText(tail)
	return r.tell(r.sheet, row, col, tail) || bare && side != 0 || !strings.ContainsFunc(tail, unicode.IsLetter)
}

func (r *reader) rowName(row, col int) string {
	if r.listDate(row, col, "; the row is named by its place") {
		return ""
	}
	name := rowNamed(r.sheet.At(row, col).Text)
	if head, tail, ok := cutAny(name, " (,:"); ok && strings.ContainsFunc(tail, unicode.IsLetter) {
		if _, n := rankOf(head); n > 0 && !r.heedTail(row, col, tail) {
			r.lose(row, col, "it says more than the row's name")
		}
	}
	if _, way := isWalkway(name); way {
		r.lose(row, col, "a way between rows has no seats")
	}
	if strings.ContainsAny(name, "*?!†") {
		r.lose(row, col, "its mark is not explained")
	}
	return r.cleanName(row, col, name)
}

const noneUntil = "; the row has no seats until this is mended"

var tooMany = fmt.Sprintf("with it there are more than %d seats%s", seating.MaxSeats, noneUntil)

// lineSeats reads how many seats a row has or which: counted, numbered, or as a bench.
func (r *reader) lineSeats(h *header, line *line) {
	col, benchCol := h.at[fSeats], h.at[fBench]
	ok, bench := r.sheet.open(line.row, col), r.sheet.open(line.row, benchCol)
	so := noneUntil
	if bench {
		so = "; the bench's length is used instead"
	}
	if h.at[fLast] >= 0 {
		ok = r.firstAndLast(h, line)
	} else if ok && !r.listDate(line.row, col, so) {
		r.seatsCell(line, col, so)
	}
	if at := h.at[fCapacity]; at >= 0 && r.sheet.open(line.row, at) {
		r.capacity(line, at, ok)
		ok = true
	}
	if bench {
		so = noneUntil
		if line.hasSeats || line.text.spans != nil {
			so = "; the counted seats are used"
		}
		line.bench, line.hasBench = r.length(line.row, benchCol, fBench, h.unit[fBench], so)
		if line.benchCol = benchCol; !line.hasBench && so == noneUntil {
			r.lose(line.row, benchCol, strings.TrimPrefix(noneUntil, "; "))
		}
	}
	if !ok && !bench {
		r.lose(line.row, h.seatsCol(), "no seats are given"+noneUntil)
	}
}

// mostInRow is more seats than any row has: larger numbers are something else (ours, no source).
const mostInRow = 2000

var sameAgain = regexp.MustCompile(`^(?i)(the )?same( as above| again)?$|^(?i)as above$`)

// seatsCell reads a cell of seats: how many, or which.
func (r *reader) seatsCell(line *line, col int, so string) {
	text := r.sheet.At(line.row, col).Text
	line.col = col
	if cells.Ditto(text) || sameAgain.MatchString(text) {
		text = cmp.Or(r.above, text)
	}
	r.above = text
	if nothing(text) {
		line.hasSeats, line.none = true, true
		r.sheet.take(line.row, col)
		return
	}
	t, why, unsure := readSeats(text)
	if line.parity > 0 && why == "" {
		t.step = 2
		t, why, unsure = t.checked(line.parity%2, 0)
	}
	switch {
	case unsure || line.marked && t.spans == nil && why == "":
		if why == "" {
			why = "it may be a number of seats or the number of one"
		}
		r.ask(r.sheet, line.row, col, why, writeIts)
	case why != "":
		r.lose(line.row, col, why+so)
	case t.count > mostInRow:
		r.lose(line.row, col, "that many seats cannot be"+so)
	case t.spans == nil:
		line.seats, line.hasSeats = t.count, true
	default:
		line.text = t
		if span, ok := t.doubtful(); ok && span[0] == 2 {
			r.evenRange = true
		}
	}
	line.each = line.each || t.each || t.spans != nil
	r.sheet.take(line.row, col)
}

// firstAndLast reads the numbers of a row's first and last seat.
func (r *reader) firstAndLast(h *header, line *line) bool {
	var ends [2]int
	for i, f := range []field{fFirst, fLast} {
		col := h.at[f]
		if !r.sheet.open(line.row, col) {
			return false
		}
		n, ok := seatNumber(strings.TrimSuffix(r.sheet.At(line.row, col).Text, ".0"))
		if !ok || n < 1 {
			r.lose(line.row, col, "it is no seat's number"+noneUntil)
			return true
		}
		ends[i] = n
	}
	for _, f := range []field{fFirst, fLast} {
		r.sheet.take(line.row, h.at[f])
	}
	line.col = h.at[fLast]
	line.text = seatText{falls: ends[1] < ends[0], spans: [][2]int{{min(ends[0], ends[1]), max(ends[0], ends[1])}}}
	parity := -1
	if line.parity > 0 {
		line.text.step, parity = 2, line.parity%2
	}
	t, why, _ := line.text.checked(parity, 0)
	if line.text = t; why != "" {
		r.lose(line.row, line.col, why+noneUntil)
		line.text = seatText{}
		return true
	}
	line.each = true
	if span, ok := line.text.doubtful(); ok && span[0] == 2 {
		r.evenRange = true
	}
	return true
}

// capacity reads a column that counts the seats beside one that gives them otherwise.
func (r *reader) capacity(line *line, col int, other bool) {
	if r.listDate(line.row, col, "") {
		return
	}
	text := r.sheet.At(line.row, col).Text
	n, ok := cells.Number(text)
	switch {
	case !other:
		r.seatsCell(line, col, noneUntil)
	case !ok:
		r.lose(line.row, col, howMany)
	default:
		line.capacity, line.capacityCol = n, col
		r.sheet.take(line.row, col)
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
		if f == fRise {
			line.rise, line.riseCol = l, col
		}
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
	switch {
	case !ok && c.field < fKind: // a length, which moves seats and takes none away
		c.r.list(c.row, c.col, why)
		return
	case !ok:
		c.r.lose(c.row, c.col, why)
		return
	}
	c.r.sheet.take(c.row, c.col)
	c.s.has[c.field] = true
	*to = v
}
