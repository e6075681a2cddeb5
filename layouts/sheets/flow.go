package sheets

import (
	"io"
	"strings"

	"everyseat/mosaic"
)

// flow fills pages from the top: titles, paragraphs, lists and tables follow each other, and what
// does not fit goes to the next page. Lengths are millimetres, type sizes points.
type flow struct {
	*document
	plan        *mosaic.Plan
	what        string         // for the footer of this page and the next ones
	before      map[int]string // of pages that had another footer
	continued   string         // what stands at the top of a page that goes on with something
	left, right float64
	y           float64 // the next thing's top
	letters     []string
}

// Type sizes of running paper.
const (
	sizeTitle = 20.0
	sizeHead  = 13.0
	sizeBody  = 10.0
	sizeSmall = 8.5
	sizeLeast = 6.5 // smaller is not printed
)

// newFlow starts a file with its first page.
func newFlow(p *mosaic.Plan, what string, width, height float64) *flow {
	d := newDocument(what, width, height)
	f := &flow{document: d, plan: p, what: what, left: edgeMargin + labelPad, right: width - edgeMargin - labelPad,
		letters: mosaic.ColourLetters(p.Stunt.Colours)}
	f.newPage()
	return f
}

// uprightFlow starts a file on the stunt's paper.
func uprightFlow(p *mosaic.Plan, what string) (*flow, error) {
	if err := checkType(p); err != nil {
		return nil, err
	}
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return nil, err
	}
	return newFlow(p, what, paper.Width, paper.Height), nil
}

func (f *flow) width() float64  { return f.right - f.left }
func (f *flow) bottom() float64 { return f.height - footerMargin - 1 }

// pen is that of the present page.
func (f *flow) pen() *pen { return &f.page }

func (f *flow) newPage() {
	p := f.addPage()
	p.inkColour(black)
	f.y = edgeMargin + 5
	if f.plan.Flashing != "" { // no sheet goes without it
		f.boxed("FLASHING", []string{f.plan.Flashing})
	}
	if f.continued != "" {
		f.lines(f.left, f.width(), f.continued, sizeBody, bold)
		f.y += 1.5
	}
}

// footerFrom gives the pages from the next one on another footer.
func (f *flow) footerFrom(what string) {
	if f.before == nil {
		f.before = map[int]string{}
	}
	for n := 1; n <= f.pdf.PageNo(); n++ {
		if _, known := f.before[n]; !known {
			f.before[n] = f.what
		}
	}
	f.what = what
}

// need starts a page where less than so much is left of this one.
func (f *flow) need(height float64) {
	if f.y+height > f.bottom() {
		f.newPage()
	}
}

// finish puts the footers, which know how many pages there are, and writes the file.
func (f *flow) finish(w io.Writer) error {
	pages := f.pdf.PageNo()
	for n := 1; n <= pages; n++ {
		f.pdf.SetPage(n)
		f.page = pen{pdf: f.pdf}
		// The library leaves out what it believes is set; on this page it may not be.
		f.page.fillColour(white)
		f.page.inkColour(black)
		f.pdf.SetFontSize(1)
		what, other := f.before[n]
		if !other {
			what = f.what
		}
		f.footer(f.plan, what, pages)
	}
	return f.write(w)
}

// title opens a file: what it is, and for which stunt.
func (f *flow) title(text, under string) {
	const least = 13.0 // a longer title goes over several lines
	size := max(sizeFor(text, bold, f.width(), sizeTitle), least)
	for i, line := range wrapText(text, size, bold, f.width()) {
		if i == 0 {
			f.y += capMM(sizeTitle)
		} else {
			f.y += lineHeight(size)
		}
		f.pen().text(f.left, f.y, size, bold, line)
	}
	f.y += lineHeight(sizeTitle) * 0.35
	if under != "" {
		f.paragraph(under, 11)
	}
	f.rule(0.5)
	f.y += 3
}

// rule draws a line across and leaves some room below.
func (f *flow) rule(width float64) {
	p := f.pen()
	p.lineColour(black)
	p.lineWidth(width)
	p.line(f.left, f.y+1, f.right, f.y+1)
	f.y += 2.5
}

// heading starts a part; it does not stand alone at a page's foot.
func (f *flow) heading(text string) {
	f.need(lineHeight(sizeHead)*1.6 + 6*lineHeight(sizeBody)) // a table's head and some lines stay with it
	f.y += lineHeight(sizeHead)*1.15 + 1.5
	f.pen().text(f.left, f.y, sizeFor(text, bold, f.width(), sizeHead), bold, text)
	f.y += 2.2
}

// paragraph is running text over the whole width.
func (f *flow) paragraph(text string, size float64) { f.lines(f.left, f.width(), text, size, regular) }

// lines wraps text from x on.
func (f *flow) lines(x, width float64, text string, size float64, w weight) {
	for _, line := range wrapText(text, size, w, width) {
		f.need(lineHeight(size))
		f.y += lineHeight(size)
		f.pen().text(x, f.y, size, w, line)
	}
}

// item is a paragraph behind a mark: a number, a dash.
func (f *flow) item(mark, text string, size float64) {
	const indent = 7.0
	lines := wrapText(text, size, regular, f.width()-indent)
	f.need(lineHeight(size) * float64(min(len(lines), 3)))
	f.pen().text(f.left, f.y+lineHeight(size), size, bold, mark)
	f.lines(f.left+indent, f.width()-indent, text, size, regular)
	f.y += lineHeight(size) * 0.2
}

// pair is a bold word with its text beside it.
func (f *flow) pair(name, text string, size float64) { f.pairAt(name, text, size, 36) }

func (f *flow) pairAt(name, text string, size, indent float64) {
	lines := wrapText(text, size, regular, f.width()-indent)
	f.need(lineHeight(size) * float64(max(1, min(len(lines), 4))))
	f.pen().text(f.left, f.y+lineHeight(size), sizeFor(name, bold, indent-2, size), bold, name)
	if len(lines) == 0 {
		f.y += lineHeight(size)
	}
	f.lines(f.left+indent, f.width()-indent, text, size, regular)
	f.y += lineHeight(size) * 0.25
}

// boxed puts lines into a frame with a heavy left side, which a copier keeps.
func (f *flow) boxed(title string, items []string) {
	const size, pad = 9.5, 3.0
	inner := f.width() - 2*pad - 4
	var lines [][]string
	height := pad*2 + lineHeight(sizeBody+1)
	for _, it := range items {
		wrapped := wrapText(it, size, regular, inner-4)
		lines = append(lines, wrapped)
		height += float64(len(wrapped)) * lineHeight(size)
	}
	f.need(min(height, f.bottom()-edgeMargin-40))
	p := f.pen()
	top := f.y
	y := top + pad*0.6 + lineHeight(sizeBody+1)
	p.text(f.left+pad+3, y, sizeBody+1, bold, title)
	y += 1
	for _, wrapped := range lines {
		for i, line := range wrapped {
			y += lineHeight(size)
			if i == 0 {
				p.text(f.left+pad+3, y, size, bold, "–")
			}
			p.text(f.left+pad+7, y, size, regular, line)
		}
	}
	y += pad
	p.lineColour(black)
	p.lineWidth(0.4)
	p.box(f.left, top, f.width(), y-top)
	p.fillColour(black)
	p.filled(f.left, top, 2, y-top)
	f.y = y + 3
}

// column is one of a table. Width is a share of what columns with one get; 0 takes what its widest
// cell needs.
type column struct {
	head  string
	share float64
	right bool
}

// cell is one entry of a table.
type cell struct {
	text   string
	bold   bool
	colour int  // 1 + palette index of a patch before the text; 0 = none
	other  int  // 1 + palette index of the patch's right half; 0 = all one colour
	tick   bool // an empty box to tick
}

const (
	patchWidth = 7.0
	tickSide   = 3.8
	cellPad    = 1.6
	cellAir    = 1.6 // between the lines of a table
)

// table rules a table; its head comes again on every page.
func (f *flow) table(columns []column, rows [][]cell, size float64) {
	for size > sizeLeast && f.tooWide(columns, rows, size) {
		size -= 0.5
	}
	widths := f.columnWidths(columns, rows, size)
	f.need(lineHeight(size) * 4)
	f.tableHead(columns, widths, size)
	for _, row := range rows {
		lines := make([][]string, len(row))
		most := 1
		for i, c := range row {
			lines[i] = wrapText(c.text, size, c.weight(), max(widths[i]-2*cellPad-c.before(), 4))
			most = max(most, len(lines[i]))
		}
		height := float64(most)*lineHeight(size) + cellAir
		if f.y+height > f.bottom() {
			f.newPage()
			f.tableHead(columns, widths, size)
		}
		f.tableRow(columns, widths, row, lines, size, height)
	}
	f.y += 2
}

func (c *cell) weight() weight {
	if c.bold {
		return bold
	}
	return regular
}

// before is the room that a patch or box takes before the text.
func (c *cell) before() float64 {
	switch {
	case c.colour > 0:
		return patchWidth + 1.5
	case c.tick:
		return tickSide + 1.5
	}
	return 0
}

// tooWide says whether words would have to be broken at this size.
func (f *flow) tooWide(columns []column, rows [][]cell, size float64) bool {
	sum := 0.0
	for i, c := range columns {
		widest := 0.0
		hold := func(text string, w weight, before float64) {
			if c.share == 0 {
				widest = max(widest, textWidth(size, w, text)+before)
				return
			}
			for _, word := range strings.Fields(text) {
				widest = max(widest, textWidth(size, w, word)+before)
			}
		}
		widest = headWidth(c.head, size)
		for _, row := range rows {
			hold(row[i].text, row[i].weight(), row[i].before())
		}
		sum += min(widest+2*cellPad, f.width()*0.4)
	}
	return sum > f.width()
}

// headWidth is how wide a table's head is: one with "/ " in it stands in two lines where it must.
func headWidth(head string, size float64) float64 {
	wide := 0.0
	for _, part := range strings.SplitAfter(head, "/ ") {
		wide = max(wide, textWidth(size, bold, part))
	}
	return wide
}

func (f *flow) columnWidths(columns []column, rows [][]cell, size float64) []float64 {
	widths, whole := make([]float64, len(columns)), make([]float64, len(columns))
	rest := f.width()
	for i, c := range columns {
		whole[i] = headWidth(c.head, size)
		for _, row := range rows {
			whole[i] = max(whole[i], textWidth(size, row[i].weight(), row[i].text)+row[i].before())
		}
		whole[i] += 2*cellPad + 0.1
		if c.share == 0 {
			widths[i] = min(whole[i], f.width()*0.4)
			rest -= widths[i]
		}
	}
	shareWidth(columns, widths, whole, rest)
	// Too much to fit: everything shrinks alike and the cells wrap.
	sum := 0.0
	for _, w := range widths {
		sum += w
	}
	if sum > f.width() {
		for i := range widths {
			widths[i] *= f.width() / sum
		}
	}
	return widths
}

// shareWidth gives the rest of a table's width to the columns with a share. One whose longest text needs less than its
// share takes no more than that while others have too little.
func shareWidth(columns []column, widths, whole []float64, rest float64) {
	const least = 8
	content := make([]bool, len(columns)) // with its whole text
	all := sumShares(columns, nil)
	for open := all; open > 0; open = sumShares(columns, content) {
		each, left, settled := rest/open, rest, true
		for i, c := range columns {
			if c.share > 0 && !content[i] && whole[i] <= each*c.share {
				widths[i], content[i], settled = whole[i], true, false
				left -= whole[i]
			}
		}
		if rest = left; !settled {
			continue
		}
		for i, c := range columns {
			if c.share > 0 && !content[i] {
				widths[i] = max(each*c.share, least)
			}
		}
		return
	}
	for i, c := range columns { // all have their text: what is left is shared out
		if c.share > 0 {
			widths[i] += rest * c.share / all
		}
	}
}

func sumShares(columns []column, without []bool) float64 {
	sum := 0.0
	for i, c := range columns {
		if without == nil || !without[i] {
			sum += c.share
		}
	}
	return sum
}

func (f *flow) tableHead(columns []column, widths []float64, size float64) {
	p := f.pen()
	most := 1
	heads := make([][]string, len(columns))
	for i, c := range columns {
		heads[i] = wrapText(c.head, size, bold, max(widths[i]-2*cellPad, 4))
		most = max(most, len(heads[i]))
	}
	x := f.left
	for i, c := range columns {
		for n, line := range heads[i] {
			f.cellText(x, f.y+float64(most-len(heads[i])+n+1)*lineHeight(size), widths[i], size, bold, line, c.right)
		}
		x += widths[i]
	}
	f.y += float64(most)*lineHeight(size) + 1
	p.lineColour(black)
	p.lineWidth(0.4)
	p.line(f.left, f.y+0.3, f.left+sumOf(widths), f.y+0.3)
	f.y += 0.6
}

func sumOf(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum
}

func (f *flow) cellText(x, y, width, size float64, w weight, s string, right bool) {
	if right {
		f.pen().textRight(x+width-cellPad, y, size, w, s)
	} else {
		f.pen().text(x+cellPad, y, size, w, s)
	}
}

func (f *flow) tableRow(columns []column, widths []float64, row []cell, lines [][]string, size, height float64) {
	p := f.pen()
	x := f.left
	base := f.y + 0.5 + lineHeight(size)*0.9
	for i, c := range row {
		switch {
		case c.colour > 0:
			wide, high := patchWidth, lineHeight(size)*0.95
			if c.other > 0 {
				wide /= 2
				f.patch(x+cellPad+wide, f.y+1, wide, high, c.other-1)
			}
			f.patch(x+cellPad, f.y+1, wide, high, c.colour-1)
		case c.tick:
			f.tick(x+cellPad, base-capMM(size)/2)
		}
		for n, line := range lines[i] {
			f.cellText(x+c.before(), base+float64(n)*lineHeight(size), widths[i]-c.before(), size, c.weight(), line, columns[i].right)
		}
		x += widths[i]
	}
	f.y += height
	p.lineColour(grey)
	p.lineWidth(0.12)
	p.line(f.left, f.y, f.left+sumOf(widths), f.y)
}

// patch is a small swatch of a palette colour.
func (f *flow) patch(x, y, w, h float64, index int) {
	f.pen().swatch(x, y, w, h, index, f.plan.Stunt.Colours[index].RGB, f.letters[index])
}

// tick is an empty box with its left middle at (x, y).
func (f *flow) tick(x, y float64) {
	p := f.pen()
	p.lineColour(black)
	p.lineWidth(0.3)
	p.box(x, y-tickSide/2, tickSide, tickSide)
}

// blank is a line to write on, with what goes there under it.
func (f *flow) blank(x, y, width float64, under string) {
	p := f.pen()
	p.lineColour(black)
	p.lineWidth(0.25)
	p.line(x, y, x+width, y)
	p.text(x, y+lineHeight(7.5), 7.5, regular, shortenText(under, 7.5, regular, width))
}
