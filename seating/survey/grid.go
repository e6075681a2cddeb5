package survey

import (
	"fmt"
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
	if c.Date != "" || c.Text == "" {
		return noSign
	}
	text := strings.ToUpper(c.Text)
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

// drawing is lines of a sheet that belong together.
type drawing struct {
	*reader
	lines   []int                  // of the sheet, without titles and numbers
	gaps    map[int]seating.Length // ways behind lines of the sheet
	titles  []int                  // lines of words above
	numbers int                    // the line of seat numbers, or −1
	labels  int                    // the column of row names, or −1
	extras  []int                  // further columns with the same row names
	rows    []gridRow
}

// gridRow is one line of a grid: where it is and what it is called.
type gridRow struct {
	row      int
	name     string
	side     int // 1 where the name says front, -1 for back
	sideText string
}

// readGrid reads seats drawn in cells, one to a cell.
func (r *reader) readGrid() *seating.Fault {
	if err := r.drawFills(); err != nil {
		return err
	}
	drawings := r.drawings()
	drawn := false
	for _, d := range drawings {
		d.peel()
		if len(d.lines) > 0 {
			drawn = d.read() || drawn
		}
	}
	if !drawn {
		return nil
	}
	r.note("Seats are drawn in cells: left on paper is taken for left as the camera sees the stands. " +
		"If it was drawn from the seats, turn it round, or the message is mirrored.")
	return nil
}

// drawings parts the sheet's lines into drawings: words over lines of seats start a new one, and so do blank lines
// unless the names of rows go on behind them. A line that says walkway is a way between the rows beside it.
func (r *reader) drawings() (all []*drawing) {
	var d *drawing
	var titles []int
	blank, between := 0, false // since the last line of seats: blank lines, and words that are no title
	way, ways := seating.Length(0), []int(nil)
	for row := range r.sheet.Rows() {
		cols := r.openCols(row)
		if len(cols) == 0 {
			blank++
			continue
		}
		if r.allWords(row) {
			text := r.sheet.At(row, cols[0]).Text
			depth, walk := isWalkway(text)
			side, bare := r.sideOfLine(row, cols)
			told, unsure := claims(text)
			switch {
			case walk && len(cols) == 1 && d != nil:
				l, _ := seating.ParseLength(depth)
				if l == 0 {
					l = seating.DefaultAisle
					r.note("The walkway at %s has no depth: %v is taken.", r.sheet.Address(row, cols[0]), l)
				}
				way, ways = way+l, append(ways, row)
			case side != 0 && bare || len(told) > 0 || unsure || isOnlookers(text):
				between = true
			default:
				titles = append(titles, row)
			}
			continue
		}
		goesOn := d != nil && (blank == 0 && titles == nil && !between || way > 0 && titles == nil)
		if d != nil && !goesOn {
			goesOn = d.namesGoOn(row)
			if goesOn && blank > 0 && titles == nil {
				r.note("The blank line above %s is taken for nothing, since the names of rows go on: write "+
					"walkway and its depth there if it is one.", r.sheet.Address(row, cols[0]))
			}
		}
		if d != nil && !goesOn && titles == nil && !between && !d.labelled(append(slices.Clone(d.lines), row)) {
			r.ask(r.sheet, row, cols[0], "the blank line above it may be a walkway, or part two sections",
				`write "walkway 4 ft" there, or the section's name, or take the line out`)
		}
		if goesOn {
			if way > 0 {
				d.gaps[d.lines[len(d.lines)-1]] += way
				for _, row := range ways {
					r.sheet.take(row, r.openCols(row)[0])
				}
			}
			d.lines = append(d.lines, row)
		} else {
			d = &drawing{reader: r, lines: []int{row}, titles: titles, numbers: -1, labels: -1,
				gaps: map[int]seating.Length{}}
			all = append(all, d)
		}
		titles, blank, between, way, ways = nil, 0, false, 0, nil
	}
	return all
}

// namesGoOn says whether the lines of a drawing and one more have names that go on up or down.
func (d *drawing) namesGoOn(row int) bool {
	if len(d.lines) >= seating.MaxRows {
		return false
	}
	names := make([]string, 0, len(d.lines)+1)
	left := d.openCols(row)[0]
	for _, at := range append(slices.Clone(d.lines), row) {
		if !d.sheet.open(at, left) {
			return false
		}
		names = append(names, rowNamed(d.sheet.At(at, left).Text))
	}
	return inOrder(names) && d.labelled(append(slices.Clone(d.lines), row))
}

// labelled says whether lines begin with the names of rows.
func (d *drawing) labelled(lines []int) bool {
	left := -1
	for _, row := range lines {
		if cols := d.openCols(row); len(cols) > 0 && (left < 0 || cols[0] < left) {
			left = cols[0]
		}
	}
	for _, row := range lines {
		if !d.sheet.open(row, left) {
			return false
		}
	}
	probe := &drawing{reader: d.reader, lines: lines}
	return probe.isLabels(left, 1)
}

// sideOfLine is the side that a line of words says, all its cells alike.
func (r *reader) sideOfLine(row int, cols []int) (side int, bare bool) {
	for _, col := range cols {
		s, b := landmarkSide(r.sheet.At(row, col).Text)
		if !b || side != 0 && s != side {
			return 0, false
		}
		side = s
	}
	return side, true
}

// drawFills makes signs of cells that are filled with a colour, where no seat is written. A word beside a filled cell,
// such as missing or wheelchair, says what its colour means; one colour without a word is the seats'.
func (r *reader) drawFills() *seating.Fault {
	var legends []place
	at := map[string]place{}
	signs := map[string]string{}
	var colours []string
	for row := range r.sheet.Rows() {
		for col := range r.sheet.Cols(row) {
			c := r.sheet.At(row, col)
			if c.Text != "" || c.Fill == "" {
				continue
			}
			if _, ok := at[c.Fill]; !ok {
				colours = append(colours, c.Fill)
				at[c.Fill] = place{r.sheet.index, row, col}
			}
			if sign := fillSign(r.sheet.At(row, col+1).Text); sign != "" && signs[c.Fill] == "" {
				signs[c.Fill] = sign
				legends = append(legends, place{r.sheet.index, row, col})
			}
		}
	}
	if len(colours) == 0 {
		return nil
	}
	for row := range r.sheet.Rows() {
		for col := range r.sheet.Cols(row) {
			c := r.sheet.At(row, col)
			if sign := signOf(c); sign == signSeat || sign == signOther && (c.Text < "A" || c.Text > "Z") {
				return nil // seats are written, and colours decorate
			}
		}
	}
	var unsaid []string
	for _, c := range colours {
		if signs[c] == "" {
			signs[c] = "■"
			unsaid = append(unsaid, c)
		}
	}
	if len(unsaid) > 1 {
		a, b := at[unsaid[0]], at[unsaid[1]]
		return &seating.Fault{What: fmt.Sprintf("cells are filled with several colours, as at %s and %s, and "+
			"nothing says which are seats",
			r.sheet.Address(a.row, a.col), r.sheet.Address(b.row, b.col)),
			Hint: "write x into seats, W into wheelchair places, - where one is missing; or put a word such as " +
				"missing beside a cell of each colour"}
	}
	r.sheet.DrawFills(signs)
	for _, p := range legends {
		r.sheet.take(p.row, p.col)
		r.sheet.take(p.row, p.col+1)
	}
	r.note("Cells filled with a colour are taken for seats.")
	return nil
}

// fillSign is the sign for what a word says of a colour.
func fillSign(text string) string {
	switch strings.TrimSuffix(cells.Plain(text), "s") {
	case "seat", "card", "chair", "people":
		return "■"
	case "missing", "no seat", "gone", "broken", "missing seat":
		return "-"
	case "wheelchair", "wheelchair place", "wheelchair space":
		return "W"
	case "companion":
		return "C"
	case "platform", "camera platform":
		return "P"
	case "rail":
		return "R"
	case "nobody", "closed", "kept free", "blocked":
		return "N"
	}
	return ""
}

// peel takes a line of single capitals that stand over blocks off the drawing.
func (d *drawing) peel() {
	for len(d.lines) > 0 && d.lettersAbove() {
		d.titles = append(d.titles, d.lines[0])
		d.lines = d.lines[1:]
	}
}

// allWords says whether a line holds words and no signs.
func (r *reader) allWords(row int) bool {
	return !slices.ContainsFunc(r.openCols(row), func(col int) bool { return signOf(r.sheet.At(row, col)) != noSign })
}

// lettersAbove says whether the drawing's first line holds single capitals as titles, few over many seats.
func (d *drawing) lettersAbove() bool {
	cols := d.openCols(d.lines[0])
	if len(d.lines) < 2 || len(cols)*3 > len(d.openCols(d.lines[1])) {
		return false
	}
	return !slices.ContainsFunc(cols, func(col int) bool {
		text := d.sheet.At(d.lines[0], col).Text
		return len(text) != 1 || text[0] < 'A' || text[0] > 'Z' || strings.Contains("XOS", text)
	})
}

// read reads the rows of a drawing and says whether there were seats.
func (d *drawing) read() bool {
	d.findLabels()
	d.peelLetters()
	d.findNumbers()
	blocks := d.blocks()
	if len(blocks) == 0 {
		return false
	}
	d.nameRows()
	for _, b := range blocks {
		b.findEnds()
	}
	for _, b := range blocks {
		if b.isDrawn() {
			continue
		}
		b.each(func(row, col int) {
			if b.sheet.open(row, col) && !b.listDate(row, col, "") {
				if b.undrawn == nil {
					b.undrawn = &place{b.sheet.index, row, col}
				}
				b.list(row, col, notDrawn)
			}
		})
		return false
	}
	d.askSigns(blocks)
	d.askAisles(blocks)
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

// askSigns asks where seats are drawn with several signs, or with letters alone that may be the colours of cards.
func (d *drawing) askSigns(blocks []*block) {
	const hint = "draw every seat with one sign, such as x, or with its number, and - where none is"
	first, letters, seats := "", 0, 0
	var letter place
	for _, b := range blocks {
		b.each(func(row, col int) {
			c := d.sheet.At(row, col)
			text := strings.ToUpper(c.Text)
			if _, ok := d.number(row, col); ok {
				text = "1"
			}
			switch sign := signOf(c); {
			case sign >= signOther:
				letters++
				letter = place{d.sheet.index, row, col}
			case sign == signSeat && first != "" && text != first:
				d.ask(d.sheet, row, col, fmt.Sprintf("it is another sign than %q: one of the two may be no seat",
					first), hint)
			case sign == signSeat:
				first = text
				seats++
			}
		})
	}
	if letters > seats {
		d.ask(d.sheet, letter.row, letter.col,
			"most seats hold letters, which may be other things than W for a wheelchair "+
				"place, C, P, R and N", hint)
	}
}

// askAisles asks where numbers of seats go on over a blank column that nobody has named two sections about.
func (d *drawing) askAisles(blocks []*block) {
	for i := range len(blocks) - 1 {
		if len(d.titles) > 0 {
			return
		}
		left, right := blocks[i].right-1, blocks[i+1].left
		for _, row := range append(slices.Clone(d.lines), max(d.numbers, 0)) {
			a, ok := d.number(row, left)
			b, ok2 := d.number(row, right)
			if ok && ok2 && (b-a == 1 || a-b == 1) {
				d.ask(d.sheet, row, right,
					"the numbers go on over the blank column before it: it may part two sections, or "+
						"be an aisle in one",
					"write the name of each section above its seats; or take the blank column out")
				return
			}
		}
	}
}

// peelLetters takes a line of letters over the columns off a drawing whose other lines have names: a block's letter
// again and again names it, others would be letters of seats.
func (d *drawing) peelLetters() {
	if d.labels < 0 || len(d.lines) < 2 || d.sheet.At(d.lines[0], d.labels).Text != "" {
		return
	}
	row := d.lines[0]
	cols := d.seatCols(row)
	same := true
	for _, col := range cols {
		text := d.sheet.At(row, col).Text
		if len(text) != 1 || text < "A" || text > "Z" || strings.Contains("XOS", text) {
			return
		}
		same = same && text == d.sheet.At(row, cols[0]).Text
	}
	d.lines = d.lines[1:]
	if same {
		d.titles = append(d.titles, row)
		for _, col := range cols[1:] {
			d.sheet.take(row, col)
		}
		return
	}
	for _, col := range cols {
		d.list(row, col, "a letter over a column; seats have numbers here")
	}
}

const notDrawn = "no line above names the columns (section, row, seats), " +
	"and as a drawing of seats these numbers do not count along the row"

// findLabels looks for a column of row names at the left, and the same again at the right.
func (d *drawing) findLabels() {
	left, right := -1, -1
	for _, row := range d.lines {
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
	if d.labels < 0 {
		if right > left && d.isLabels(right, -1) {
			d.labels = right
		}
		return
	}
	for col := left + 1; col <= right; col++ { // again at the right end, and before each block
		again := col == right && d.isLabels(right, -1) || col < right
		for _, row := range d.lines {
			again = again && d.sheet.At(row, left).Text == d.sheet.At(row, col).Text && (col == right ||
				d.sheet.At(row, col-1).Text == "")
		}
		if again {
			d.extras = append(d.extras, col)
		}
	}
}

// isName says whether a column holds the names of rows.
func (d *drawing) isName(col int) bool { return col == d.labels || slices.Contains(d.extras, col) }

// takeExtras takes what stands in the further columns of row names.
func (d *drawing) takeExtras(row int) {
	for _, col := range d.extras {
		d.sheet.take(row, col)
	}
}

// isLabels says whether a column holds row names: words in every line, or names that
// count up or down while the cells beside them do not count on along the row. At the
// right, words must say "row", since remarks stand there too.
func (d *drawing) isLabels(col, inward int) bool {
	var names []string
	words := 0
	for _, row := range d.lines {
		c := d.sheet.At(row, col)
		if c.Text == "" || isCorner(c.Text) {
			continue
		}
		if c.Date == "" && signOf(c) == noSign && (inward > 0 || rowTitle(c.Text) != c.Text) {
			words++
		}
		names = append(names, rowNamed(c.Text))
	}
	if words > 0 && words == len(d.lines) || d.aloneNamed(col) {
		return true
	}
	if len(names) < 2 || !inOrder(names) {
		return false
	}
	for _, row := range d.lines {
		n, ok := d.number(row, col)
		next, ok2 := d.number(row, col+inward)
		third, ok3 := d.number(row, col+2*inward)
		if !ok || !ok2 || !ok3 || next-n != third-next || next == n {
			return true
		}
	}
	return false
}

// aloneNamed says whether a column has words or numbers in every line where all others hold signs.
func (d *drawing) aloneNamed(col int) bool {
	says := func(row, col int) bool {
		n, number := d.number(row, col)
		return number && n > 1 || signOf(d.sheet.At(row, col)) == noSign
	}
	named := false
	for _, row := range d.lines {
		if c := d.sheet.At(row, col); c.Text == "" || c.Date != "" || signOf(c) == signGap {
			return false
		}
		named = named || says(row, col)
	}
	return named && len(d.lines) > 1 && !slices.ContainsFunc(d.lines, func(row int) bool {
		return slices.ContainsFunc(d.openCols(row), func(at int) bool { return at != col && says(row, at) })
	})
}

// inOrder says whether names go up all the way or down all the way, of one kind.
func inOrder(names []string) bool {
	step, last, kind := 0, 0, ""
	for i, name := range names {
		k, n := rankOf(name)
		if n == 0 || i > 0 && (k != kind || n == last) {
			return false
		}
		now := 1
		if n < last {
			now = -1
		}
		if i > 1 && now != step {
			return false
		}
		if i > 0 {
			step = now
		}
		last, kind = n, k
	}
	sign := func(name string) bool { return len(name) == 1 && strings.Contains("WCPRNMXOS", strings.ToUpper(name)) }
	return !slices.ContainsFunc(names, sign) || len(seating.NamingOf(names).Names) == 0
}

func (d *drawing) number(row, col int) (n int, ok bool) {
	text := d.sheet.At(row, col).Text
	if text == "" || text[0] > '9' {
		return 0, false
	}
	n, err := strconv.Atoi(text)
	return n, err == nil
}

// isCorner says whether a text stands over the row names or before the seat numbers.
func isCorner(text string) bool {
	return slices.Contains([]string{"row", "rows", "seat", "seats", "row seat"}, cells.Plain(text))
}

// findNumbers looks for a line of seat numbers above or below the seats.
func (d *drawing) findNumbers() {
	for _, row := range []int{d.lines[0], d.lines[len(d.lines)-1]} {
		if len(d.lines) < 2 || !d.isNumbers(row) {
			continue
		}
		other := d.lines[0]
		if row == d.lines[0] {
			other = d.lines[1]
		}
		cols, same := d.seatCols(other), 0
		isSign := func(col int) bool { _, number := d.number(other, col); return !number }
		counts := func(col int) bool { n, number := d.number(other, col); return number && n > 1 }
		for _, col := range cols {
			if n, ok := d.number(row, col); ok && n > 0 && d.sheet.At(row, col).Text == d.sheet.At(other, col).Text {
				same++
			}
		}
		if same*2 > len(cols) || !slices.ContainsFunc(cols, isSign) && slices.ContainsFunc(cols, counts) {
			continue // the seats themselves are numbered
		}
		d.numbers = row
		d.sheet.take(row, d.labels)
		d.takeExtras(row)
		d.lines = slices.DeleteFunc(d.lines, func(line int) bool { return line == row })
		return
	}
}

// seatCols are the columns of a row that hold something and are no row names.
func (d *drawing) seatCols(row int) []int {
	return slices.DeleteFunc(d.openCols(row), d.isName)
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
	for _, row := range d.lines {
		more := make([]bool, max(0, d.sheet.Cols(row)-len(used)))
		used, seated = append(used, more...), append(seated, more...)
		for col := range d.sheet.Cols(row) {
			sign := signOf(d.sheet.At(row, col))
			seated[col] = seated[col] || sign > signGap
			used[col] = used[col] || sign >= signGap && d.sheet.open(row, col) && !d.isName(col)
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

// nameRows lists the lines with their names.
func (d *drawing) nameRows() {
	for _, row := range d.lines {
		g := gridRow{row: row}
		if text := d.sheet.At(row, d.labels).Text; d.labels >= 0 && text != "" {
			g.name = d.rowName(row, d.labels)
			if len(text) > 1 {
				g.side, _ = sideOfText(text)
				g.sideText = text
			}
		}
		d.takeExtras(row)
		d.rows = append(d.rows, g)
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
	taken := map[string]bool{}
	for i, wanted := range names {
		for names[i] == "" || d.sections[seating.NameKey(names[i])] != nil || taken[seating.NameKey(names[i])] {
			d.letters++
			names[i] = seating.RowLetters.Name(d.letters)
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
	title := func(col int) string { return d.sectionName(row, col, sectionTitle(d.sheet.At(row, col).Text)) }
	cols := slices.DeleteFunc(d.openCols(row), func(col int) bool {
		if isCorner(d.sheet.At(row, col).Text) {
			d.sheet.take(row, col)
			return true
		}
		return d.sheet.At(row, col).Date != ""
	})
	for _, b := range blocks {
		over := slices.DeleteFunc(slices.Clone(cols), func(col int) bool { return col < b.left || col >= b.right })
		if len(over) > 1 && len(cols) > len(blocks) {
			d.ask(d.sheet, row, over[1], "two titles stand over one block of seats",
				"leave a blank column between two sections")
		}
	}
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
