package seating

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// mark is what one cell of a drawn grid says.
type mark uint8

const (
	noMark     mark      = iota // blank, or words
	markGap                     // a place that is missing
	markSeat                    // a seat
	markOther                   // a sign without a meaning of its own: a seat, and listed
	markFor                     // from here on: reserved, in the order of reservedUses
	markLetter = "WCPRN"        // signs of reservedUses, in their order
)

// markOf reads a cell of a grid.
func markOf(c cell) mark {
	text := strings.ToUpper(c.text)
	if c.date != "" || text == "" {
		return noMark
	}
	switch text {
	case "-", ".", "·", "_", "–", "—", "0", "M":
		return markGap
	case "X", "O", "S", "*", "#", "✓", "✔", "●", "○", "■", "□":
		return markSeat
	case "WC", "W/C", "♿":
		return markFor
	}
	if len(text) == 1 {
		if i := strings.Index(markLetter, text); i >= 0 {
			return markFor + mark(i)
		}
	}
	if _, err := seatNumber(text); err == nil && len(text) <= 4 {
		return markSeat
	}
	if utf8.RuneCountInString(text) == 1 {
		return markOther
	}
	return noMark
}

// band is a run of lines without a blank one between.
type band struct {
	from, to int // lines of the body: rows of seats, without titles and numbers
	titles   []int
	front    int // −1: the words say the front is above, +1 below, 0 nothing
	numbers  int // the line of seat numbers, or −1
	labels   int // the column of row names, or −1
	extra    int // a second column with the same row names, or −1
}

// readGrid reads seats drawn in cells, one to a cell.
func (r *surveyReader) readGrid() {
	var titles []int
	front := 0
	drawn := false
	for from := 0; from < len(r.sheet.cells); from++ {
		if len(r.openCols(from)) == 0 {
			continue
		}
		to := from
		for to < len(r.sheet.cells) && len(r.openCols(to)) > 0 {
			to++
		}
		b := &band{from: from, to: to, titles: titles, front: front, numbers: -1, labels: -1, extra: -1}
		r.peel(b)
		titles, front = b.titles, b.front
		if b.from < b.to {
			drawn = r.readBand(b) || drawn
			titles, front = nil, 0
		}
		from = to
	}
	if drawn {
		r.noteCrosses()
		r.note("Seats are drawn in cells: left on paper is taken for left as the camera sees the stands. If it was drawn from the seats, turn it round, or the message is mirrored.")
	}
}

// noteCrosses warns where x may mean a seat that is missing, since another sign means one that is there.
func (r *surveyReader) noteCrosses() {
	seen := map[string]bool{}
	for _, row := range r.sheet.cells {
		for _, c := range row {
			seen[strings.ToUpper(c.text)] = true
		}
	}
	if seen["X"] && seen["O"] {
		r.note("Both x and o are drawn, and both are taken for seats: mark what is missing with - or M.")
	}
}

// peel takes lines of words off both ends of a band.
func (r *surveyReader) peel(b *band) {
	for b.from < b.to && (r.allWords(b.from) || r.lettersAbove(b)) {
		if side := r.frontWord(b.from); side != 0 {
			b.front = -side
		} else {
			b.titles = append(b.titles, b.from)
		}
		b.from++
	}
	for b.from < b.to && r.allWords(b.to-1) {
		if side := r.frontWord(b.to - 1); side != 0 {
			b.front = side
		}
		b.to--
	}
}

// allWords says whether a line holds words and no marks.
func (r *surveyReader) allWords(row int) bool {
	for _, col := range r.openCols(row) {
		if markOf(r.sheet.at(row, col)) != noMark {
			return false
		}
	}
	return true
}

// lettersAbove says whether the band's first line holds single capitals as titles, few over many seats.
func (r *surveyReader) lettersAbove(b *band) bool {
	cols := r.openCols(b.from)
	if b.to-b.from < 2 || len(cols)*3 > len(r.openCols(b.from+1)) {
		return false
	}
	for _, col := range cols {
		text := r.sheet.at(b.from, col).text
		if len(text) != 1 || text[0] < 'A' || text[0] > 'Z' || strings.Contains("XOS", text) {
			return false
		}
	}
	return true
}

// frontWord is 1 where a line says that the front is here, −1 for the back, 0 for neither; it takes the line.
func (r *surveyReader) frontWord(row int) int {
	side := 0
	for _, col := range r.openCols(row) {
		for _, word := range strings.Fields(plain(r.sheet.at(row, col).text)) {
			switch word {
			case "front", "camera", "court", "stage", "field":
				side = 1
			case "back", "rear", "wall":
				side = min(side, 0) - 1
			}
		}
	}
	if side != 0 {
		for _, col := range r.openCols(row) {
			r.sheet.take(row, col)
		}
	}
	return max(-1, side)
}

// readBand reads the rows of one band and says whether there were seats.
func (r *surveyReader) readBand(b *band) bool {
	r.findLabels(b)
	r.findNumbers(b)
	blocks := r.blocks(b)
	if len(blocks) == 0 {
		return false
	}
	rows := r.bandRows(b)
	var drawn []*gridBlock
	for _, block := range blocks {
		g := &gridBlock{r: r, from: block[0], to: block[1]}
		for _, row := range rows {
			g.add(row)
		}
		if g.isDrawing(b) {
			drawn = append(drawn, g)
		} else {
			g.listAll()
		}
	}
	if len(drawn) == 0 {
		return false
	}
	r.noteFront(b, rows)
	for i, name := range r.blockNames(b, drawn) {
		drawn[i].finish(b, r.section(name))
	}
	r.blockAisles(len(drawn))
	return true
}

// blockAisles puts an aisle where a blank column parts the last n sections.
func (r *surveyReader) blockAisles(n int) {
	last := r.order[len(r.order)-n:]
	for _, s := range last[:n-1] {
		if s.spec.Aisle == 0 {
			s.spec.Aisle, s.has[fAisle] = DefaultAisle, true
			r.note("The blank column to the right of %s is taken for an aisle of %v.", s.spec.Name, DefaultAisle)
		}
	}
}

// findLabels looks for a column of row names at the left, and the same again at the right.
func (r *surveyReader) findLabels(b *band) {
	left, right := -1, -1
	for row := b.from; row < b.to; row++ {
		if cols := r.openCols(row); len(cols) > 0 {
			if left < 0 || cols[0] < left {
				left = cols[0]
			}
			right = max(right, cols[len(cols)-1])
		}
	}
	if r.isLabels(b, left, 1) {
		b.labels = left
	}
	if right > left && r.isLabels(b, right, -1) {
		if b.labels < 0 {
			b.labels = right
		} else if r.sameColumn(b, left, right) {
			b.extra = right
		}
	}
}

// isLabels says whether a column holds row names: words in every line, or names that
// count up or down while the cells beside them do not count on along the row. At the
// right, words must say "row", since remarks stand there too.
func (r *surveyReader) isLabels(b *band, col, inward int) bool {
	var names []string
	words := 0
	for row := b.from; row < b.to; row++ {
		c := r.sheet.at(row, col)
		if c.text == "" || isCorner(c.text) {
			continue
		}
		if c.date == "" && markOf(c) == noMark && (inward > 0 || rowTitle(c.text) != c.text) {
			words++
		}
		names = append(names, rowTitle(c.text))
	}
	if words > 0 && words == b.to-b.from {
		return true
	}
	if len(names) < 2 || len(namingOf(names).Names) > 0 {
		return false
	}
	for row := b.from; row < b.to; row++ {
		n, err := strconv.Atoi(r.sheet.at(row, col).text)
		next, err2 := strconv.Atoi(r.sheet.at(row, col+inward).text)
		third, err3 := strconv.Atoi(r.sheet.at(row, col+2*inward).text)
		if err != nil || err2 != nil || err3 != nil || next-n != third-next || next == n {
			return true
		}
	}
	return false
}

// isCorner says whether a text stands over the row names or before the seat numbers.
func isCorner(text string) bool {
	switch plain(text) {
	case "row", "rows", "seat", "seats", "row seat":
		return true
	}
	return false
}

func (r *surveyReader) sameColumn(b *band, one, two int) bool {
	for row := b.from; row < b.to; row++ {
		if r.sheet.at(row, one).text != r.sheet.at(row, two).text {
			return false
		}
	}
	return true
}

// findNumbers looks for a line of seat numbers above or below the seats.
func (r *surveyReader) findNumbers(b *band) {
	for _, row := range []int{b.from, b.to - 1} {
		if b.to-b.from < 2 || !r.isNumbers(b, row) {
			continue
		}
		other := b.from
		if row == b.from {
			other = b.from + 1
		}
		marks := 0
		for _, col := range r.seatCols(b, other) {
			if _, err := strconv.Atoi(r.sheet.at(other, col).text); err != nil {
				marks++
			}
		}
		if marks == 0 {
			continue // the seats themselves are numbered
		}
		b.numbers = row
		r.sheet.take(row, b.labels)
		r.sheet.take(row, b.extra)
		if row == b.from {
			b.from++
		} else {
			b.to--
		}
		return
	}
}

// seatCols are the columns of a row that hold something and are no row names.
func (r *surveyReader) seatCols(b *band, row int) []int {
	return slices.DeleteFunc(r.openCols(row), func(col int) bool { return col == b.labels || col == b.extra })
}

// isNumbers says whether a line counts along its cells and names no row.
func (r *surveyReader) isNumbers(b *band, row int) bool {
	if label := r.sheet.at(row, b.labels).text; label != "" && !isCorner(label) {
		return false
	}
	cols := r.seatCols(b, row)
	counting := 0
	last := 0
	for i, col := range cols {
		n, err := strconv.Atoi(r.sheet.at(row, col).text)
		if err != nil || n < 1 {
			return false
		}
		if i > 0 && n != last && abs(n-last) <= 2 {
			counting++
		}
		last = n
	}
	return len(cols) > 1 && counting*2 >= len(cols)-1
}

// blocks are the runs of columns that hold seats, from and to; a blank column parts them.
func (r *surveyReader) blocks(b *band) [][2]int {
	var used []bool
	for row := b.from; row < b.to; row++ {
		for _, col := range r.seatCols(b, row) {
			if markOf(r.sheet.at(row, col)) < markGap {
				continue
			}
			for len(used) <= col {
				used = append(used, false)
			}
			used[col] = true
		}
	}
	var out [][2]int
	for col := 0; col < len(used); col++ {
		if !used[col] {
			continue
		}
		from := col
		for col < len(used) && used[col] {
			col++
		}
		if r.hasSeat(b, from, col) {
			out = append(out, [2]int{from, col})
		}
	}
	return out
}

func (r *surveyReader) hasSeat(b *band, from, to int) bool {
	for row := b.from; row < b.to; row++ {
		for col := from; col < to; col++ {
			if markOf(r.sheet.at(row, col)) > markGap {
				return true
			}
		}
	}
	return false
}

// blockNames gives each block a name of its own: its title, else the sheet's name or a letter.
func (r *surveyReader) blockNames(b *band, blocks []*gridBlock) []string {
	names := make([]string, len(blocks))
	if len(b.titles) > 0 {
		r.titles(b.titles[len(b.titles)-1], blocks, names)
	} else if len(blocks) == 1 && r.sheet.prefix {
		if name, err := CheckName(sectionTitle(r.sheet.name)); err == nil {
			names[0] = name
		}
	}
	next, taken := 1, map[string]bool{}
	for i, wanted := range names {
		for names[i] == "" || r.sections[nameKey(names[i])] != nil || taken[nameKey(names[i])] {
			names[i] = letterName(next, letterRows)
			next++
		}
		taken[nameKey(names[i])] = true
		if wanted != "" && wanted != names[i] {
			r.note("There is a section %s already: the second one is called %s.", wanted, names[i])
		}
	}
	return names
}

// titles reads the nearest line of words above the blocks: one over each block, or
// one over all of them with figures behind it.
func (r *surveyReader) titles(row int, blocks []*gridBlock, names []string) {
	cols := slices.DeleteFunc(r.openCols(row), func(col int) bool { return r.sheet.at(row, col).date != "" })
	if len(cols) == 1 && len(blocks) > 1 {
		title := r.title(row, cols[0])
		for i := range names {
			if title != "" && utf8.RuneCountInString(title) < MaxName-1 {
				names[i] = title + strconv.Itoa(i+1)
			}
		}
		return
	}
	before := -1
	for i, block := range blocks {
		for k, col := range cols {
			above := before < col && col < block.to
			if len(cols) == len(blocks) {
				above = k == i
			}
			if names[i] == "" && above {
				names[i] = r.title(row, col)
			}
		}
		before = block.to - 1
	}
}

func (r *surveyReader) title(row, col int) string {
	name := r.cleanName(row, col, sectionTitle(r.sheet.at(row, col).text))
	r.sheet.take(row, col)
	return name
}

// gridRow is one line of a grid: where it is and what it is called.
type gridRow struct {
	row  int
	name string
}

// bandRows lists the lines front to back with their names.
func (r *surveyReader) bandRows(b *band) []gridRow {
	var rows []gridRow
	for row := b.from; row < b.to; row++ {
		g := gridRow{row: row}
		if b.labels >= 0 && r.sheet.at(row, b.labels).text != "" {
			g.name = r.rowName(row, b.labels)
		}
		if b.extra >= 0 {
			r.sheet.take(row, b.extra)
		}
		rows = append(rows, g)
	}
	switch {
	case b.front > 0, b.front == 0 && !countsDown(rows):
		slices.Reverse(rows)
	}
	return rows
}

// noteFront says which line is taken for the front row.
func (r *surveyReader) noteFront(b *band, rows []gridRow) {
	where := "the lowest line"
	if rows[0].row == b.from && len(rows) > 1 {
		where = "the highest line"
	}
	r.note("The front row is the one at %s, %s of the drawing.", r.sheet.address(rows[0].row, max(b.labels, 0)), where)
}

// countsDown says whether row names rise from the top line to the bottom one, so
// that the lowest name, which is the front row's, stands on top.
func countsDown(rows []gridRow) bool {
	first, last := rows[0].name, rows[len(rows)-1].name
	a, err := strconv.Atoi(first)
	z, err2 := strconv.Atoi(last)
	if err == nil && err2 == nil {
		return a < z
	}
	a, z = letterIndex(strings.ToUpper(first), allLetters), letterIndex(strings.ToUpper(last), allLetters)
	return a > 0 && z > 0 && a < z
}

// gridBlock is one section of a grid while it is read.
type gridBlock struct {
	r        *surveyReader
	from, to int // columns
	rows     []gridRow
	spans    [][2]int // columns of each row's first and behind its last seat
}

func (g *gridBlock) add(row gridRow) {
	first, last := -1, -1
	for col := g.from; col < g.to; col++ {
		if markOf(g.r.sheet.at(row.row, col)) >= markGap {
			if first < 0 {
				first = col
			}
			last = col + 1
		}
	}
	if first < 0 {
		first, last = g.from, g.from
	}
	g.rows = append(g.rows, row)
	g.spans = append(g.spans, [2]int{first, last})
}

// isDrawing says whether the cells are marks: if most are numbers, they must count along the rows.
func (g *gridBlock) isDrawing(b *band) bool {
	numbers, marks := 0, 0
	for _, row := range g.rows {
		for col := g.from; col < g.to; col++ {
			c := g.r.sheet.at(row.row, col)
			if n, err := strconv.Atoi(c.text); err == nil && n > 1 {
				numbers++
			} else if markOf(c) > markGap {
				marks++
			}
		}
	}
	if numbers <= marks || b.numbers >= 0 {
		return true
	}
	_, ok := g.rule(-1)
	return ok
}

// listAll lists every cell of a block that is no drawing.
func (g *gridBlock) listAll() {
	for _, row := range g.rows {
		for col := g.from; col < g.to; col++ {
			if g.r.sheet.open(row.row, col) && !g.r.listDate(row.row, col, "") {
				g.r.list(row.row, col, "no line above names the columns (section, row, seats), and as a drawing of seats these numbers do not count along the row")
			}
		}
	}
}

// finish finds alignment and numbers, and makes the section's lines.
func (g *gridBlock) finish(b *band, s *surveyed) {
	g.align(b, s)
	g.number(b, s)
	for i, row := range g.rows {
		n := g.spans[i][1] - g.spans[i][0]
		if g.r.places += n; g.r.places > MaxSeats {
			n = 0
		}
		line := &surveyLine{sheet: g.r.sheet, row: row.row, nameCol: max(b.labels, 0), name: row.name, seats: n, hasSeats: true, benchCol: -1}
		s.lines = append(s.lines, line)
		s.drawn = append(s.drawn, g.spans[i][0])
	}
}

// align finds how shorter rows lie; where no rule fits, or seat numbers stand over
// the columns, every row gets all the columns and what is blank is missing.
func (g *gridBlock) align(b *band, s *surveyed) {
	left, right, centre := true, true, true
	for _, span := range g.spans {
		before, behind := span[0]-g.from, g.to-span[1]
		left, right, centre = left && before == 0, right && behind == 0, centre && before == behind
	}
	switch {
	case b.numbers < 0 && centre:
		s.spec.Align = AlignCentre
	case b.numbers < 0 && left:
		s.spec.Align = AlignLeft
	case b.numbers < 0 && right:
		s.spec.Align = AlignRight
	default:
		for i, span := range g.spans {
			if span[0] < span[1] {
				g.spans[i] = [2]int{g.from, g.to}
			}
		}
	}
}

// number finds the rule of the seat numbers, written over the columns or in the cells.
func (g *gridBlock) number(b *band, s *surveyed) {
	rule, ok := g.rule(b.numbers)
	if ok {
		s.spec.SeatNumbers = rule
		for col := g.from; col < g.to && b.numbers >= 0; col++ {
			g.r.sheet.take(b.numbers, col)
		}
	} else if g.numbered() {
		g.r.note("Section %s: the numbers in its cells follow no one rule and are not used; seats are numbered from the left.", s.spec.Name)
	}
}

// rule is the rule of the numbers in the given line, or in the block's own cells for −1.
func (g *gridBlock) rule(numbers int) (SeatNumbering, bool) {
	at := func(row, col int) (int, bool) {
		n, err := strconv.Atoi(g.r.sheet.at(row, col).text)
		return n, err == nil
	}
	lines, spans := make([]int, len(g.rows)), g.spans
	for i, row := range g.rows {
		lines[i] = row.row
	}
	if numbers >= 0 {
		lines, spans = []int{numbers}, [][2]int{{g.from, g.to}}
	}
	for _, from := range []Side{Left, Right} {
		if rule, ok := numberRule(lines, spans, from, at); ok {
			return rule, true
		}
	}
	return SeatNumbering{}, false
}

// numberRule is the rule that gives every number that stands in the lines, at least two of them.
func numberRule(lines []int, spans [][2]int, from Side, at func(row, col int) (int, bool)) (SeatNumbering, bool) {
	rule, found, seen := SeatNumbering{From: from}, false, 0
	for pass := range 2 {
		for i, row := range lines {
			lastPlace, last := -1, 0
			for k := range spans[i][1] - spans[i][0] {
				col := spans[i][0] + k
				if from == Right {
					col = spans[i][1] - 1 - k
				}
				n, ok := at(row, col)
				if !ok {
					continue
				}
				if pass == 0 && !found && lastPlace >= 0 {
					rule.Step = (n - last) / (k - lastPlace)
					rule.Start = n - rule.Step*k
					found = true
				}
				if pass == 1 {
					if seen++; rule.number(0, 1)+rule.Step*k != n {
						return rule, false
					}
				}
				lastPlace, last = k, n
			}
		}
		if !found || rule.Step < 1 || rule.Start < 1 {
			return rule, false
		}
	}
	return rule, seen > 1
}

// numbered says whether cells hold numbers beyond a mere 1 for a seat.
func (g *gridBlock) numbered() bool {
	for _, row := range g.rows {
		for col := g.from; col < g.to; col++ {
			if n, err := strconv.Atoi(g.r.sheet.at(row.row, col).text); err == nil && n > 1 {
				return true
			}
		}
	}
	return false
}

// readDrawn reads the marks of a drawn row: what is missing and what is reserved.
func (s *surveyed) readDrawn(r *surveyReader, l *surveyLine, first int) {
	numbers := s.spec.SeatNumbers
	if l.seats == 0 || numbers.check(l.seats) != nil {
		return
	}
	r.sheet = l.sheet
	use := func(p int) field {
		c := r.sheet.at(l.row, first+p)
		switch m := markOf(c); {
		case m >= markFor:
			return useFields[reservedUses[m-markFor].word]
		case m >= markSeat:
			return fSeats
		}
		return fMissing
	}
	for p := 0; p < l.seats; {
		from, f := p, use(p)
		for p < l.seats && use(p) == f {
			s.takeDrawn(r, l.row, first+p)
			p++
		}
		if f == fSeats {
			continue
		}
		a, z := numbers.number(from, l.seats), numbers.number(p-1, l.seats)
		span := SeatRange{Row: l.name, From: min(a, z), To: max(a, z)}
		if f == fMissing {
			s.spec.Missing = append(s.spec.Missing, span)
		} else {
			s.reserve(f, span)
		}
	}
}

// takeDrawn marks a drawn cell as read; words and dates stay for the list.
func (s *surveyed) takeDrawn(r *surveyReader, row, col int) {
	c := r.sheet.at(row, col)
	switch markOf(c) {
	case noMark:
		if c.date != "" {
			r.listDate(row, col, "; the place is taken for a gap")
		}
	case markOther:
		r.list(row, col, "no mark with a meaning; it is taken for a seat")
	default:
		r.sheet.take(row, col)
	}
}
