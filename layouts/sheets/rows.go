package sheets

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Rows writes rows.pdf: a strip for every row that gets cards, to be cut off and carried to the
// row's end. It shows the places from left to right as the camera sees them, and
// says the cards run by run from both ends, and which seats stay empty when few people come. The paper
// stands upright or lies on its side, whichever takes fewer sheets. Errors are *seating.Fault.
func Rows(w io.Writer, p *mosaic.Plan) error {
	if err := checkType(p); err != nil {
		return err
	}
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return err
	}
	l := newRowStrips(p, paper.Width, paper.Height)
	pages := l.paginate()
	flat := newRowStrips(p, paper.Height, paper.Width)
	if fewer := flat.paginate(); len(fewer) < len(pages) {
		l, pages = flat, fewer
	}
	d := newDocument("Rows", l.width, l.height)
	for i := range pages {
		l.draw(d, &pages[i], len(pages))
	}
	if len(pages) == 0 {
		d.addPage().text(edgeMargin+labelPad, 30, 14, regular, "No row gets a card in this plan.")
		d.footer(p, "Rows", 1)
	}
	return d.write(w)
}

// rowStrips is the design of rows.pdf. Millimetres, points.
type rowStrips struct {
	plan          *mosaic.Plan
	width, height float64
	letters       []string
	trim          []uint8 // by seat: at which turnout it stays empty, see mosaic.Plan.Trim
	trimmed       string  // how it reads then; "" where there is no text
}

func newRowStrips(p *mosaic.Plan, width, height float64) *rowStrips {
	return &rowStrips{plan: p, width: width, height: height, letters: mosaic.ColourLetters(p.Stunt.Colours), trim: p.Trim(), trimmed: trimReads(p)}
}

const (
	stripTitle  = 20.0 // points
	stripCount  = 13.0
	stripBody   = 11.0
	stripNote   = 8.5
	widestCell  = 12.0 // millimetres
	leastCell   = 6.0
	trimHeight  = 4.4
	stripGap    = 3.0 // above and below each cut
	mostCueRows = 16  // cues drawn cell by cell
)

// part is a row, or as much of a long one as one strip shows.
type part struct {
	work       *rowWork
	list       []place
	number, of int
	count      []string // the cards of the whole row
	beside     bool     // the title, in one line; under it otherwise
	left       []string // lines of the runs from the left end
	right      []string
	trim       []string // who drops out
	height     float64
}

// sheetOfStrips is one page.
type sheetOfStrips struct {
	section int
	parts   []part
}

// paginate fills pages with strips, a new page for each section.
func (l *rowStrips) paginate() []sheetOfStrips {
	var pages []sheetOfStrips
	room := 0.0
	for _, rows := range laid(l.plan) {
		if !anyCards(rows) {
			continue
		}
		pages = append(pages, sheetOfStrips{section: rows[0].section})
		room = l.room(rows[0].section)
		for i := range rows {
			for _, pt := range l.parts(&rows[i]) {
				if pt.height > room && len(pages[len(pages)-1].parts) > 0 {
					pages = append(pages, sheetOfStrips{section: rows[i].section})
					room = l.room(rows[0].section)
				}
				last := &pages[len(pages)-1]
				last.parts = append(last.parts, pt)
				room -= pt.height
			}
		}
	}
	return pages
}

// withCards are the sections in which anybody holds a card.
func withCards(sections [][]rowWork) (some [][]rowWork) {
	for _, rows := range sections {
		if anyCards(rows) {
			some = append(some, rows)
		}
	}
	return some
}

func anyCards(rows []rowWork) bool {
	for i := range rows {
		if rows[i].placards > 0 {
			return true
		}
	}
	return false
}

// room is the height that strips have on a page.
func (l *rowStrips) room(section int) float64 {
	return l.height - edgeMargin - l.headHeight(section) - footerMargin
}

func (l *rowStrips) inner() float64 { return l.width - 2*(edgeMargin+labelPad) }

// parts cuts a row into strips that fit a page; most rows are one.
func (l *rowStrips) parts(work *rowWork) []part {
	all := places(l.plan, work)
	for size := min(len(all), 2*l.perLine()); ; size = (size + 1) / 2 {
		n := (len(all) + size - 1) / size
		parts := make([]part, 0, n)
		fits := true
		for i := range n {
			pt := l.part(work, all[i*size:min((i+1)*size, len(all))], i+1, n)
			fits = fits && pt.height <= l.room(work.section)
			parts = append(parts, pt)
		}
		if fits || size == 1 {
			return parts
		}
	}
}

func (l *rowStrips) part(work *rowWork, list []place, number, of int) part {
	pt := part{work: work, list: list, number: number, of: of}
	room := l.inner() - textWidth(stripTitle, bold, l.title(&pt)) - 6
	count := cardCount(l.plan, work.cards)
	if of > 1 {
		count = "whole row: " + count
	}
	pt.count = wrapText(count, stripCount, bold, max(room, 1))
	if pt.beside = len(pt.count) == 1; !pt.beside {
		pt.count = wrapText(count, stripBody, bold, l.inner())
		pt.height += float64(len(pt.count)) * lineHeight(stripBody)
	}
	of1 := ""
	if of > 1 {
		of1 = " of this part"
	}
	runs := runsOf(l.plan, list)
	pt.left = wrapText("From the LEFT end"+of1+" as the camera sees it: "+runWords(runs)+".", stripBody, regular, l.inner())
	pt.right = wrapText("From the RIGHT end"+of1+" as the camera sees it: "+runWords(reversed(runs))+".", stripBody, regular, l.inner())
	pt.trim = wrapText(l.trimWords(list, of1), stripBody, regular, l.inner())
	lines := float64(len(pt.left) + len(pt.right) + len(pt.trim))
	blocks := float64((len(list) + l.perLine() - 1) / l.perLine())
	pt.height += 2*stripGap + capMM(stripTitle)*1.5 + lineHeight(stripNote)*2.25 +
		blocks*l.blockHeight() + lines*lineHeight(stripBody)
	return pt
}

func (l *rowStrips) title(pt *part) string {
	title := "Row " + pt.work.name(l.plan)
	if pt.of > 1 {
		title += fmt.Sprintf(" (part %d of %d from the left)", pt.number, pt.of)
	}
	return title
}

// perLine is how many cells a line of a strip holds.
func (l *rowStrips) perLine() int { return int((l.inner() - l.cueColumn()) / leastCell) }

// cueColumn is room for the cue's number before the cells.
func (l *rowStrips) cueColumn() float64 {
	if l.cueRows() > 1 {
		return 14
	}
	return 0
}

func (l *rowStrips) cueRows() int { return max(1, min(len(l.plan.Cues), mostCueRows)) }

// cellHigh is the height of a cell: lower where there are many cues, so that all of them are on the strip.
func (l *rowStrips) cellHigh() float64 {
	switch n := l.cueRows(); {
	case n <= 3:
		return 9
	case n <= 6:
		return 7.5
	}
	return 5.5
}

func (l *rowStrips) blockHeight() float64 {
	return float64(l.cueRows())*l.cellHigh() + lineHeight(stripNote) + trimHeight + 1.8
}

// draw prints one page.
func (l *rowStrips) draw(d *document, page *sheetOfStrips, pages int) {
	p := d.addPage()
	p.inkColour(black)
	l.head(p, page.section)
	y := edgeMargin + l.headHeight(page.section)
	l.cut(p, y)
	for i := range page.parts {
		l.strip(p, y, &page.parts[i])
		y += page.parts[i].height
		l.cut(p, y)
	}
	d.footer(l.plan, "Rows, section "+l.plan.Stands.Sections[page.section].Name, pages)
}

func (l *rowStrips) cut(p *pen, y float64) {
	p.lineColour(grey)
	p.lineWidth(0.15)
	p.dashed(2, 1.5)
	p.line(0, y, l.width, y)
	p.solid()
}

// A page's head: a title, whose left is meant, the legend, and what trimming is.
const (
	headSize  = 9.0 // points
	headTitle = 6.0 // millimetres
	headPatch = 6.5
	headGap   = 2.5
)

// headLines wraps a sentence of the head into two lines; into three where it would be too small in two.
func (l *rowStrips) headLines(text string) (size float64, lines []string) {
	const small = 7.5
	for size = headSize; ; size -= 0.5 {
		lines = wrapText(text, size, regular, l.inner())
		if len(lines) <= 2 || size <= sizeLeast {
			return size, lines
		}
		if size == small {
			if three := wrapText(text, headSize, regular, l.inner()); len(three) <= 3 {
				return headSize, three
			}
		}
	}
}

// whose says which row is the front one and whose left is meant.
func (l *rowStrips) whose(section int) string {
	sec := &l.plan.Stands.Sections[section]
	words := "LEFT and RIGHT are as the camera sees the stands. When you sit in the row and face the camera, they are the other way round."
	if n := len(sec.Rows); n > 1 {
		words = "FRONT: row " + sec.Rows[0].Name + ", BACK: row " + sec.Rows[n-1].Name + ". " + words
	}
	return words
}

// fewPeople says what the marks for a low turnout are, and what is read then.
func (l *rowStrips) fewPeople() string {
	return strings.TrimSpace(trimRule(l.plan.Stunt.Laying.Pass) + " " + l.trimmed)
}

// headHeight is where a section's first strip begins, below the page's rim.
func (l *rowStrips) headHeight(section int) float64 {
	high := headTitle + headPatch + 2*headGap + 3
	for _, text := range []string{l.whose(section), l.fewPeople()} {
		size, lines := l.headLines(text)
		high += float64(len(lines)) * lineHeight(size)
	}
	return high
}

// head says which section this is, what the patches mean, whose left is meant and who drops out.
func (l *rowStrips) head(p *pen, section int) {
	x, y := edgeMargin+labelPad, edgeMargin+headTitle
	p.text(x, y, 16, bold, "Section "+l.plan.Stands.Sections[section].Name+": what lies on each row")
	y += 1.5
	say := func(text string) {
		size, lines := l.headLines(text)
		for _, line := range lines {
			y += lineHeight(size)
			p.text(x, y, size, regular, line)
		}
	}
	say(l.whose(section))
	y += headGap
	l.legend(p, x, y)
	y += headPatch + headGap/2
	say(l.fewPeople())
}

func (l *rowStrips) legend(p *pen, x, y float64) {
	const h, w = headPatch, 9.0
	colours := l.plan.Stunt.Colours
	room := l.inner() / float64(max(len(colours), 1))
	size := 10.0
	for i := range colours { // one size for all names
		size = min(size, sizeFor(colours[i].Name, bold, max(room-w-5, 8), size))
	}
	for i := range colours {
		p.swatch(x, y, w, h, i, colours[i].RGB, l.letters[i])
		name := colours[i].Name
		p.text(x+w+2, y+h/2+capMM(size)/2, size, bold, name)
		x += min(room, w+8+textWidth(size, bold, name))
	}
}

// strip prints one row.
func (l *rowStrips) strip(p *pen, y float64, pt *part) {
	x := edgeMargin + labelPad
	inner := l.inner()
	y += stripGap + capMM(stripTitle)
	title := l.title(pt)
	p.text(x, y, sizeFor(title, bold, inner, stripTitle), bold, title)
	if pt.beside {
		p.textRight(x+inner, y, stripCount, bold, pt.count[0])
	} else {
		for _, line := range pt.count {
			y += lineHeight(stripBody)
			p.text(x, y, stripBody, bold, line)
		}
	}

	y += capMM(stripTitle)*0.5 + lineHeight(stripNote)*0.9
	l.endCaptions(p, x, y, pt)
	y += lineHeight(stripNote) * 1.35
	per := l.perLine()
	w := l.cellWidth(min(len(pt.list), per))
	for from := 0; from < len(pt.list); from += per {
		l.cells(p, x, y, w, pt.list[from:min(from+per, len(pt.list))])
		y += l.blockHeight()
	}
	y += lineHeight(stripBody) * 0.75
	for _, lines := range [][]string{pt.left, pt.right, pt.trim} {
		for _, line := range lines {
			p.text(x, y, stripBody, regular, line)
			y += lineHeight(stripBody)
		}
	}
}

// cellWidth is the same for all lines of a strip whose first one holds n cells.
func (l *rowStrips) cellWidth(n int) float64 {
	return max(leastCell, min(widestCell, math.Floor((l.inner()-l.cueColumn())/float64(n)*10)/10))
}

// endCaptions name both ends over the cells, for the camera and for whoever sits there, and
// the one where laying starts.
func (l *rowStrips) endCaptions(p *pen, x, y float64, pt *part) {
	n := min(len(pt.list), l.perLine())
	x += l.cueColumn()
	left, right := l.endCaption(pt, seating.Left, pt.number == 1), l.endCaption(pt, seating.Right, pt.number == pt.of)
	end := x + float64(n)*l.cellWidth(n)
	for i, w := range [2]weight{bold, regular} { // over a short row the captions reach further than its cells
		end = max(end, x+textWidth(stripNote, w, left[i]+right[i])+6)
	}
	end = min(end, edgeMargin+labelPad+l.inner())
	for i, w := range [2]weight{bold, regular} {
		size := sizeFor(left[i]+right[i], w, end-x-6, stripNote)
		p.text(x, y, size, w, left[i])
		p.textRight(end, y, size, w, right[i])
		y += lineHeight(stripNote)
	}
}

// endCaption is two lines: the end for the camera, and for the people in the row.
func (l *rowStrips) endCaption(pt *part, side seating.Side, rowEnds bool) [2]string {
	if !rowEnds {
		return [2]string{"the row goes on", ""}
	}
	camera := [...]string{seating.Left: "LEFT end as the camera sees it", seating.Right: "RIGHT end as the camera sees it"}[side]
	if pt.work.leftToRight(l.plan) == (side == seating.Left) {
		camera = startHere(l.plan.Stunt.Laying.Pass) + camera
	}
	person := [...]string{seating.Left: "your right hand when you sit here", seating.Right: "your left hand when you sit here"}[side]
	if n := neighbour(l.plan.Stands, pt.work.section, side); n != "" {
		person += "; " + n
	}
	return [2]string{camera, person}
}

// cells draws places side by side, a line a cue, with the seat numbers under them.
func (l *rowStrips) cells(p *pen, x, y, w float64, list []place) {
	for cue := range l.cueRows() {
		if l.cueRows() > 1 {
			p.text(x, y+l.cellHigh()/2+capMM(stripBody)/2, stripBody, regular, "cue "+strconv.Itoa(cue+1))
		}
		for from := 0; from < len(list); {
			to := from + 1
			for to < len(list) && l.look(list[to], cue) == l.look(list[from], cue) {
				to++
			}
			l.alike(p, x+l.cueColumn()+float64(from)*w, y, w, to-from, l.look(list[from], cue))
			from = to
		}
		y += l.cellHigh()
	}
	for i, pl := range list {
		if pl.seat < 0 {
			continue
		}
		n := strconv.Itoa(int(l.plan.Stands.Seats[pl.seat].Number))
		size := sizeFor(n, regular, w-0.6, stripNote)
		p.textMiddle(x+l.cueColumn()+(float64(i)+0.5)*w, y+lineHeight(stripNote)*0.85, size, regular, n)
	}
	l.trimLine(p, x+l.cueColumn(), y+lineHeight(stripNote)+0.7, w, list)
}

// What a cell may show beside a colour of the palette.
const (
	lookEmpty int16 = -1 // a seat that shows no card
	lookGap   int16 = -2 // no seat
)

// look is what a place shows at a cue: a palette index, lookEmpty or lookGap.
func (l *rowStrips) look(pl place, cue int) int16 {
	switch {
	case pl.seat < 0:
		return lookGap
	case cue >= len(l.plan.Cues):
		return lookEmpty
	}
	return max(l.plan.Cues[cue].Colours[pl.seat], lookEmpty)
}

// alike draws n cells of one look.
func (l *rowStrips) alike(p *pen, x, y, w float64, n int, look int16) {
	if look >= 0 {
		p.swatches(x, y, w, l.cellHigh(), n, int(look), l.plan.Stunt.Colours[look].RGB, l.letters[look])
		return
	}
	p.lineColour(grey)
	p.lineWidth(0.2)
	for i := range n {
		left := x + float64(i)*w
		if look == lookGap {
			p.line(left, y, left+w, y+l.cellHigh())
			p.line(left, y+l.cellHigh(), left+w, y)
		} else {
			p.box(left, y, w, l.cellHigh())
		}
	}
}
