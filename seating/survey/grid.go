package survey

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// sign is what one cell of a drawn grid says.
type sign uint8

const (
	noSign    sign = iota // blank, or words
	signGap               // a place that is missing
	signSeat              // a seat
	signOther             // a sign without a meaning of its own: a seat, and listed
	signFor               // from here on: reserved, in the order of seating.ReservedFor
)

func signOf(c cells.Cell) sign {
	text := strings.ToUpper(c.Text)
	if c.Date != "" || text == "" {
		return noSign
	}
	switch text {
	case "-", ".", "·", "_", "–", "—", "0", "M":
		return signGap
	case "X", "O", "S", "*", "#", "✓", "✔", "●", "○", "■", "□":
		return signSeat
	case "WC", "W/C", "♿":
		return signFor
	}
	const letters = "WCPRN" // of seating.ReservedFor
	if i := strings.Index(letters, text); i >= 0 && len(text) == 1 {
		return signFor + sign(i)
	}
	if _, ok := seatNumber(text); ok && len(text) <= 4 {
		return signSeat
	}
	if utf8.RuneCountInString(text) == 1 {
		return signOther
	}
	return noSign
}

// drawing is lines of a sheet without a blank one between.
type drawing struct {
	*reader
	from, to int   // its lines: rows of seats, without titles and numbers
	titles   []int // lines of words above
	front    int   // −1: the words say the front is above, +1 below, 0 nothing
	numbers  int   // the line of seat numbers, or −1
	labels   int   // the column of row names, or −1
	extra    int   // a second column with the same row names, or −1
	rows     []gridRow
}

// gridRow is one line of a grid: where it is and what it is called.
type gridRow struct {
	row  int
	name string
}

// readGrid reads seats drawn in cells, one to a cell.
func (r *reader) readGrid() {
	var titles []int
	front, drawn := 0, false
	for from := 0; from < r.sheet.Rows(); from++ {
		to := from
		for to < r.sheet.Rows() && len(r.openCols(to)) > 0 {
			to++
		}
		if from == to {
			continue
		}
		d := &drawing{reader: r, from: from, to: to, titles: titles, front: front, numbers: -1, labels: -1, extra: -1}
		d.peel()
		titles, front = d.titles, d.front
		if d.from < d.to {
			drawn = d.read() || drawn
			titles, front = nil, 0
		}
		from = to
	}
	if !drawn {
		return
	}
	seen := map[string]bool{}
	for row := range r.sheet.Rows() {
		for col := range r.sheet.Cols(row) {
			seen[strings.ToUpper(r.sheet.At(row, col).Text)] = true
		}
	}
	if seen["X"] && seen["O"] {
		r.note("Both x and o are drawn, and both are taken for seats: mark what is missing with - or M.")
	}
	r.note("Seats are drawn in cells: left on paper is taken for left as the camera sees the stands. " +
		"If it was drawn from the seats, turn it round, or the message is mirrored.")
}

// peel takes lines of words off both ends of a drawing.
func (d *drawing) peel() {
	for d.from < d.to && (d.allWords(d.from) || d.lettersAbove()) {
		if side := d.frontWord(d.from); side != 0 {
			d.front = -side
		} else {
			d.titles = append(d.titles, d.from)
		}
		d.from++
	}
	for d.from < d.to && d.allWords(d.to-1) {
		if side := d.frontWord(d.to - 1); side != 0 {
			d.front = side
		}
		d.to--
	}
}

// allWords says whether a line holds words and no signs.
func (d *drawing) allWords(row int) bool {
	return !slices.ContainsFunc(d.openCols(row), func(col int) bool { return signOf(d.sheet.At(row, col)) != noSign })
}

// lettersAbove says whether the drawing's first line holds single capitals as titles, few over many seats.
func (d *drawing) lettersAbove() bool {
	cols := d.openCols(d.from)
	if d.to-d.from < 2 || len(cols)*3 > len(d.openCols(d.from+1)) {
		return false
	}
	return !slices.ContainsFunc(cols, func(col int) bool {
		text := d.sheet.At(d.from, col).Text
		return len(text) != 1 || text[0] < 'A' || text[0] > 'Z' || strings.Contains("XOS", text)
	})
}

// frontWord is 1 where a line says that the front is here, −1 for the back, 0 for neither; it takes the line.
func (d *drawing) frontWord(row int) int {
	side := 0
	for _, col := range d.openCols(row) {
		for _, word := range strings.Fields(cells.Plain(d.sheet.At(row, col).Text)) {
			switch word {
			case "front", "camera", "court", "stage", "field":
				side = 1
			case "back", "rear", "wall":
				side = min(side, 0) - 1
			}
		}
	}
	if side != 0 {
		for _, col := range d.openCols(row) {
			d.sheet.take(row, col)
		}
	}
	return max(-1, side)
}

// read reads the rows of a drawing and says whether there were seats.
func (d *drawing) read() bool {
	d.findLabels()
	d.findNumbers()
	blocks := d.blocks()
	if len(blocks) == 0 {
		return false
	}
	d.nameRows()
	for _, b := range blocks {
		b.findEnds()
	}
	blocks = slices.DeleteFunc(blocks, func(b *block) bool {
		if b.isDrawn() {
			return false
		}
		b.each(func(row, col int) {
			if b.sheet.open(row, col) && !b.listDate(row, col, "") {
				b.list(row, col, "no line above names the columns (section, row, seats), "+
					"and as a drawing of seats these numbers do not count along the row")
			}
		})
		return true
	})
	if len(blocks) == 0 {
		return false
	}
	where := "the lowest line"
	if d.rows[0].row == d.from && len(d.rows) > 1 {
		where = "the highest line"
	}
	at := d.sheet.Address(d.rows[0].row, max(d.labels, 0))
	d.note("The front row is the one at %s, %s of the drawing.", at, where)
	for i, name := range d.blockNames(blocks) {
		blocks[i].finish(d.section(name))
	}
	last := d.order[len(d.order)-len(blocks):]
	for _, s := range last[:len(last)-1] {
		if s.spec.Aisle == 0 {
			s.spec.Aisle, s.has[fAisle] = seating.DefaultAisle, true
			d.note("The blank column to the right of %s is taken for an aisle of %v.", s.spec.Name, s.spec.Aisle)
		}
	}
	return true
}

// findLabels looks for a column of row names at the left, and the same again at the right.
func (d *drawing) findLabels() {
	left, right := -1, -1
	for row := d.from; row < d.to; row++ {
		if cols := d.openCols(row); len(cols) > 0 {
			if left < 0 || cols[0] < left {
				left = cols[0]
			}
			right = max(right, cols[len(cols)-1])
		}
	}
	if d.isLabels(left, 1) {
		d.labels = left
	}
	if right <= left || !d.isLabels(right, -1) {
		return
	}
	if d.labels < 0 {
		d.labels = right
		return
	}
	for row := d.from; row < d.to; row++ {
		if d.sheet.At(row, left).Text != d.sheet.At(row, right).Text {
			return
		}
	}
	d.extra = right
}

// isLabels says whether a column holds row names: words in every line, or names that
// count up or down while the cells beside them do not count on along the row. At the
// right, words must say "row", since remarks stand there too.
func (d *drawing) isLabels(col, inward int) bool {
	var names []string
	words := 0
	for row := d.from; row < d.to; row++ {
		c := d.sheet.At(row, col)
		if c.Text == "" || isCorner(c.Text) {
			continue
		}
		if c.Date == "" && signOf(c) == noSign && (inward > 0 || rowTitle(c.Text) != c.Text) {
			words++
		}
		names = append(names, rowTitle(c.Text))
	}
	if words > 0 && words == d.to-d.from {
		return true
	}
	if len(names) < 2 || len(seating.NamingOf(names).Names) > 0 {
		return false
	}
	for row := d.from; row < d.to; row++ {
		n, ok := d.number(row, col)
		next, ok2 := d.number(row, col+inward)
		third, ok3 := d.number(row, col+2*inward)
		if !ok || !ok2 || !ok3 || next-n != third-next || next == n {
			return true
		}
	}
	return false
}

func (d *drawing) number(row, col int) (n int, ok bool) {
	n, err := strconv.Atoi(d.sheet.At(row, col).Text)
	return n, err == nil
}

// isCorner says whether a text stands over the row names or before the seat numbers.
func isCorner(text string) bool {
	return slices.Contains([]string{"row", "rows", "seat", "seats", "row seat"}, cells.Plain(text))
}

// findNumbers looks for a line of seat numbers above or below the seats.
func (d *drawing) findNumbers() {
	for _, row := range []int{d.from, d.to - 1} {
		if d.to-d.from < 2 || !d.isNumbers(row) {
			continue
		}
		other := d.from
		if row == d.from {
			other = d.from + 1
		}
		isSign := func(col int) bool {
			_, number := d.number(other, col)
			return !number
		}
		if !slices.ContainsFunc(d.seatCols(other), isSign) {
			continue // the seats themselves are numbered
		}
		d.numbers = row
		d.sheet.take(row, d.labels)
		d.sheet.take(row, d.extra)
		if row == d.from {
			d.from++
		} else {
			d.to--
		}
		return
	}
}

// seatCols are the columns of a row that hold something and are no row names.
func (d *drawing) seatCols(row int) []int {
	return slices.DeleteFunc(d.openCols(row), func(col int) bool { return col == d.labels || col == d.extra })
}

// isNumbers says whether a line counts along its cells and names no row.
func (d *drawing) isNumbers(row int) bool {
	if label := d.sheet.At(row, d.labels).Text; label != "" && !isCorner(label) {
		return false
	}
	cols := d.seatCols(row)
	counting, last := 0, 0
	for i, col := range cols {
		n, ok := d.number(row, col)
		if !ok || n < 1 {
			return false
		}
		if i > 0 && n != last && last-2 <= n && n <= last+2 {
			counting++
		}
		last = n
	}
	return len(cols) > 1 && counting*2 >= len(cols)-1
}

// blocks are the runs of columns that hold seats; a blank column parts them.
func (d *drawing) blocks() []*block {
	var used, seated []bool // by column: whether it holds a sign, and one of a seat
	for row := d.from; row < d.to; row++ {
		more := make([]bool, max(0, d.sheet.Cols(row)-len(used)))
		used, seated = append(used, more...), append(seated, more...)
		for col := range d.sheet.Cols(row) {
			sign := signOf(d.sheet.At(row, col))
			seated[col] = seated[col] || sign > signGap
			used[col] = used[col] || sign >= signGap && d.sheet.open(row, col) && col != d.labels && col != d.extra
		}
	}
	var out []*block
	for from := 0; from < len(used); from++ {
		to := from
		for to < len(used) && used[to] {
			to++
		}
		if slices.Contains(seated[from:to], true) {
			out = append(out, &block{drawing: d, left: from, right: to})
		}
		from = to
	}
	return out
}

// nameRows lists the lines front to back with their names.
func (d *drawing) nameRows() {
	for row := d.from; row < d.to; row++ {
		g := gridRow{row: row}
		if d.labels >= 0 && d.sheet.At(row, d.labels).Text != "" {
			g.name = d.rowName(row, d.labels)
		}
		d.sheet.take(row, d.extra)
		d.rows = append(d.rows, g)
	}
	// The lowest name is the front row's, and stands on top where names rise from the top line to the bottom one.
	first, last := d.rows[0].name, d.rows[len(d.rows)-1].name
	a, err := strconv.Atoi(first)
	z, err2 := strconv.Atoi(last)
	letters := err != nil || err2 != nil
	if letters {
		a, z = seating.AllLetters.Index(strings.ToUpper(first)), seating.AllLetters.Index(strings.ToUpper(last))
	}
	rise := a < z && (a > 0 || !letters)
	if d.front > 0 || d.front == 0 && !rise {
		slices.Reverse(d.rows)
	}
}

// blockNames gives each block a name of its own: its title, else the sheet's name or a letter.
func (d *drawing) blockNames(blocks []*block) []string {
	names := make([]string, len(blocks))
	if len(d.titles) > 0 {
		d.readTitles(d.titles[len(d.titles)-1], blocks, names)
	} else if len(blocks) == 1 && len(d.sheets) > 1 {
		if name, err := seating.CheckName(sectionTitle(d.sheet.Name)); err == nil {
			names[0] = name
		}
	}
	next, taken := 1, map[string]bool{}
	for i, wanted := range names {
		for names[i] == "" || d.sections[seating.NameKey(names[i])] != nil || taken[seating.NameKey(names[i])] {
			names[i] = seating.RowLetters.Name(next)
			next++
		}
		taken[seating.NameKey(names[i])] = true
		if wanted != "" && wanted != names[i] {
			d.note("There is a section %s already: the second one is called %s.", wanted, names[i])
		}
	}
	return names
}

// readTitles reads the nearest line of words above the blocks: one over each block, or
// one over all of them with figures behind it.
func (d *drawing) readTitles(row int, blocks []*block, names []string) {
	title := func(col int) string { return d.cleanName(row, col, sectionTitle(d.sheet.At(row, col).Text)) }
	cols := slices.DeleteFunc(d.openCols(row), func(col int) bool { return d.sheet.At(row, col).Date != "" })
	if len(cols) == 1 && len(blocks) > 1 {
		if all := title(cols[0]); all != "" && utf8.RuneCountInString(all) < seating.MaxName-1 {
			for i := range names {
				names[i] = all + strconv.Itoa(i+1)
			}
		}
		return
	}
	before := -1
	for i, b := range blocks {
		for k, col := range cols {
			above := before < col && col < b.right
			if len(cols) == len(blocks) {
				above = k == i
			}
			if names[i] == "" && above {
				names[i] = title(col)
			}
		}
		before = b.right - 1
	}
}
