package sheets

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
)

// Rows writes rows.pdf: a strip for every row that gets cards, to be cut off and carried to the
// row's end. It shows the places from left to right as the camera sees them, and
// says the cards run by run from both ends, and which seats stay empty when few people come. The paper
// stands upright or lies on its side, whichever takes fewer sheets. Errors are *seating.Fault.
func Rows(w io.Writer, b *brief.Brief) error {
	p := b.Plan
	sheet, err := checkedSheet(p)
	if err != nil {
		return err
	}
	l := &rowStrips{sheet, b, p, palette(p)}
	pages := l.paginate()
	flat := *l
	flat.Sheet = sheet.Turned()
	if fewer := flat.paginate(); len(fewer) < len(pages) {
		l, pages = &flat, fewer
	}
	d := newDocument(b, "Rows", l.Sheet)
	for i := range pages {
		l.draw(d, pages[i], len(pages))
	}
	if len(pages) == 0 {
		d.AddPage().Text(d.Left(), 30, 14, regular, "No row gets a card in this plan.")
		d.Footer("Rows", 1)
	}
	return d.Write(w)
}

// rowStrips is the design of rows.pdf. Millimetres, points.
type rowStrips struct {
	paper.Sheet
	brief   *brief.Brief
	plan    *mosaic.Plan
	palette []paper.Swatch
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
	work       *brief.Row
	list       []brief.Place
	number, of int
	count      []string // the cards of the whole row
	beside     bool     // the title, in one line; under it otherwise
	lines      []string // the runs from the left end, from the right end, and who drops out
	height     float64
}

// paginate fills pages with strips, a new page for each section.
func (l *rowStrips) paginate() (pages [][]part) {
	for _, rows := range l.brief.Rows {
		room := -1.0
		for i := range rows {
			for _, pt := range l.parts(&rows[i]) {
				if pt.height > room {
					pages, room = append(pages, nil), l.room(pt.work.Section)
				}
				last := len(pages) - 1
				pages[last], room = append(pages[last], pt), room-pt.height
			}
		}
	}
	return pages
}

// room is the height that strips have on a page.
func (l *rowStrips) room(section int) float64 {
	return l.Height - edgeMargin - l.headHeight(section) - footerMargin
}

// parts cuts a row into strips that fit a page; most rows are one.
func (l *rowStrips) parts(work *brief.Row) []part {
	all := brief.Places(l.plan, work)
	for size := min(len(all), 2*l.perLine()); ; size = (size + 1) / 2 {
		n := (len(all) + size - 1) / size
		parts := make([]part, 0, n)
		fits := true
		for i := range n {
			pt := l.part(work, all[i*size:min((i+1)*size, len(all))], i+1, n)
			fits = fits && pt.height <= l.room(work.Section)
			parts = append(parts, pt)
		}
		if fits || size == 1 {
			return parts
		}
	}
}

func (l *rowStrips) part(work *brief.Row, list []brief.Place, number, of int) part {
	pt := part{work: work, list: list, number: number, of: of}
	room := l.Inner() - bold.Width(stripTitle, l.title(&pt)) - 6
	count, of1 := brief.CardCount(l.plan, work.Cards), ""
	if of > 1 {
		count, of1 = "whole row: "+count, " of this part"
	}
	pt.count = bold.Wrap(count, stripCount, max(room, 1))
	if pt.beside = len(pt.count) == 1; !pt.beside {
		pt.count = bold.Wrap(count, stripBody, l.Inner())
		pt.height += float64(float64(len(pt.count)) * paper.LineHeight(stripBody))
	}
	runs := brief.Runs(l.plan, list)
	back := slices.Clone(runs)
	slices.Reverse(back)
	for _, words := range []string{
		"From the LEFT end" + of1 + " as the camera sees it: " + brief.RunWords(runs) + ".",
		"From the RIGHT end" + of1 + " as the camera sees it: " + brief.RunWords(back) + ".",
		l.trimWords(list, of1),
	} {
		pt.lines = append(pt.lines, regular.Wrap(words, stripBody, l.Inner())...)
	}
	blocks := float64((len(list) + l.perLine() - 1) / l.perLine())
	pt.height += 2*stripGap + float64(paper.CapHeight(stripTitle)*1.5) + float64(paper.LineHeight(stripNote)*2.25) +
		float64(blocks*l.blockHeight()) + float64(float64(len(pt.lines))*paper.LineHeight(stripBody))
	return pt
}

func (l *rowStrips) title(pt *part) string {
	title := "Row " + pt.work.Name
	if pt.of > 1 {
		title += fmt.Sprintf(" (part %d of %d from the left)", pt.number, pt.of)
	}
	return title
}

// perLine is how many cells a line of a strip holds.
func (l *rowStrips) perLine() int { return int((l.Inner() - l.cueColumn()) / leastCell) }

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
	return float64(float64(l.cueRows())*l.cellHigh()) + paper.LineHeight(stripNote) + trimHeight + 1.8
}

func (l *rowStrips) draw(d *paper.Document, parts []part, pages int) {
	p, section := d.AddPage(), parts[0].work.Section
	l.head(p, section)
	y := edgeMargin + l.headHeight(section)
	l.cut(p, y)
	for i := range parts {
		l.strip(p, y, &parts[i])
		y += parts[i].height
		l.cut(p, y)
	}
	d.Footer("Rows, section "+l.plan.Stands.Sections[section].Name, pages)
}

func (l *rowStrips) cut(p *paper.Pen, y float64) {
	p.Cuts(func() { p.Line(0, y, l.Width, y) })
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
		lines = regular.Wrap(text, size, l.Inner())
		if len(lines) <= 2 || size <= paper.SizeLeast {
			return size, lines
		}
		if size == small {
			if three := regular.Wrap(text, headSize, l.Inner()); len(three) <= 3 {
				return headSize, three
			}
		}
	}
}

// whose says which row is the front one and whose left is meant.
func (l *rowStrips) whose(section int) string {
	sec := &l.plan.Stands.Sections[section]
	words := "LEFT and RIGHT are as the camera sees the stands. When you sit in the row and face the camera, they " +
		"are the other way round."
	if n := len(sec.Rows); n > 1 {
		words = "FRONT: row " + sec.Rows[0].Name + ", BACK: row " + sec.Rows[n-1].Name + ". " + words
	}
	return words
}

// fewPeople says what is done with the marks for a low turnout, and what is read then.
func (l *rowStrips) fewPeople() string {
	card := "and its card goes back into the bag. "
	if l.plan.Stunt.Laying.Pass {
		card = "and its card comes out of the stack before it is handed in. "
	}
	return strings.TrimSpace("FEW PEOPLE: the crew calls “90”, “80” or “70” of a hundred; a seat whose box has that " +
		"number or a higher one stays empty, " + card + l.brief.Paper.FewRead)
}

// headHeight is where a section's first strip begins, below the page's rim.
func (l *rowStrips) headHeight(section int) float64 {
	high := headTitle + headPatch + 2*headGap + 3
	for _, text := range []string{l.whose(section), l.fewPeople()} {
		size, lines := l.headLines(text)
		high += float64(float64(len(lines)) * paper.LineHeight(size))
	}
	return high
}

// head says which section this is, what the patches mean, whose left is meant and who drops out.
func (l *rowStrips) head(p *paper.Pen, section int) {
	x, y := l.Left(), edgeMargin+headTitle
	p.Text(x, y, 16, bold, "Section "+l.plan.Stands.Sections[section].Name+": what lies on each row")
	y += 1.5
	say := func(text string) {
		size, lines := l.headLines(text)
		y = p.TextLines(x, y, size, regular, lines)
	}
	say(l.whose(section))
	y += headGap
	l.legend(p, x, y)
	y += headPatch + headGap/2
	say(l.fewPeople())
}

func (l *rowStrips) legend(p *paper.Pen, x, y float64) {
	const h, w = headPatch, 9.0
	colours := l.plan.Stunt.Colours
	room := l.Inner() / float64(max(len(colours), 1))
	size := 10.0
	for i := range colours { // one size for all names
		size = min(size, bold.SizeFor(colours[i].Name, max(room-w-5, 8), size))
	}
	for i := range colours {
		p.Swatch(x, y, w, h, l.palette[i])
		name := colours[i].Name
		p.Text(x+w+2, y+h/2+paper.CapHeight(size)/2, size, bold, name)
		x += min(room, w+8+bold.Width(size, name))
	}
}

func (l *rowStrips) strip(p *paper.Pen, y float64, pt *part) {
	x := edgeMargin + paper.Pad
	inner := l.Inner()
	y += stripGap + paper.CapHeight(stripTitle)
	title := l.title(pt)
	p.Text(x, y, bold.SizeFor(title, inner, stripTitle), bold, title)
	if pt.beside {
		p.TextRight(x+inner, y, stripCount, bold, pt.count[0])
	} else {
		y = p.TextLines(x, y, stripBody, bold, pt.count)
	}

	y += paper.CapHeight(stripTitle)*0.5 + paper.LineHeight(stripNote)*0.9
	l.endCaptions(p, x, y, pt)
	y += paper.LineHeight(stripNote) * 1.35
	per := l.perLine()
	w := l.cellWidth(min(len(pt.list), per))
	for from := 0; from < len(pt.list); from += per {
		l.cells(p, x, y, w, pt.list[from:min(from+per, len(pt.list))])
		y += l.blockHeight()
	}
	y += paper.LineHeight(stripBody) * 0.75
	for _, line := range pt.lines {
		p.Text(x, y, stripBody, regular, line)
		y += paper.LineHeight(stripBody)
	}
}

// cellWidth is the same for all lines of a strip whose first one holds n cells.
func (l *rowStrips) cellWidth(n int) float64 {
	return max(leastCell, min(widestCell, math.Floor((l.Inner()-l.cueColumn())/float64(n)*10)/10))
}

// endCaptions name both ends over the cells, for the camera and for whoever sits there, and
// the one where laying starts.
func (l *rowStrips) endCaptions(p *paper.Pen, x, y float64, pt *part) {
	n := min(len(pt.list), l.perLine())
	x += l.cueColumn()
	left, right := l.endCaption(pt, seating.Left, pt.number == 1), l.endCaption(pt, seating.Right, pt.number == pt.of)
	end := x + float64(float64(n)*l.cellWidth(n))
	for i, w := range [2]paper.Weight{bold, regular} { // over a short row the captions reach further than its cells
		end = max(end, x+w.Width(stripNote, left[i]+right[i])+6)
	}
	end = min(end, l.Left()+l.Inner())
	for i, w := range [2]paper.Weight{bold, regular} {
		size := w.SizeFor(left[i]+right[i], end-x-6, stripNote)
		p.Text(x, y, size, w, left[i])
		p.TextRight(end, y, size, w, right[i])
		y += paper.LineHeight(stripNote)
	}
}

// endCaption is two lines: the end for the camera, and for the people in the row.
func (l *rowStrips) endCaption(pt *part, side seating.Side, rowEnds bool) [2]string {
	if !rowEnds {
		return [2]string{"the row goes on", ""}
	}
	camera, person := "LEFT end as the camera sees it", "your right hand when you sit here"
	if side == seating.Right {
		camera, person = "RIGHT end as the camera sees it", "your left hand when you sit here"
	}
	if pt.work.LeftToRight == (side == seating.Left) {
		start := "START HERE: "
		if l.plan.Stunt.Laying.Pass {
			start = "HAND IN HERE: "
		}
		camera = start + camera
	}
	if n := brief.Neighbour(l.plan.Stands, pt.work.Section, side); n != "" {
		person += "; " + n
	}
	return [2]string{camera, person}
}

// cells draws places side by side, a line a cue, with the seat numbers under them.
func (l *rowStrips) cells(p *paper.Pen, x, y, w float64, list []brief.Place) {
	left := x + l.cueColumn()
	for cue := range l.cueRows() {
		if l.cueRows() > 1 {
			p.Text(x, y+l.cellHigh()/2+paper.CapHeight(stripBody)/2, stripBody, regular, "cue "+strconv.Itoa(cue+1))
		}
		from := 0
		same := func(a, b brief.Place) bool { return l.look(a, cue) == l.look(b, cue) }
		for _, alike := range brief.Stretches(list, same) {
			l.alike(p, left+float64(float64(from)*w), y, w, len(alike), l.look(alike[0], cue))
			from += len(alike)
		}
		y += l.cellHigh()
	}
	for i, pl := range list {
		if pl.Seat >= 0 {
			n := strconv.Itoa(int(l.plan.Stands.Seats[pl.Seat].Number))
			p.TextMiddle(left+float64((float64(i)+0.5)*w), y+float64(paper.LineHeight(stripNote)*0.85),
				regular.SizeFor(n, w-0.6, stripNote), regular, n)
		}
	}
	l.trimLine(p, left, y+paper.LineHeight(stripNote)+0.7, w, list)
}

// What a cell may show beside a colour of the palette.
const (
	lookEmpty int16 = -1 // a seat that shows no card
	lookGap   int16 = -2 // no seat
)

// look is what a place shows at a cue: a palette index, lookEmpty or lookGap.
func (l *rowStrips) look(pl brief.Place, cue int) int16 {
	switch {
	case pl.Seat < 0:
		return lookGap
	case cue >= len(l.plan.Cues):
		return lookEmpty
	}
	return max(l.plan.Cues[cue].Colours[pl.Seat], lookEmpty)
}

// alike draws n cells of one look.
func (l *rowStrips) alike(p *paper.Pen, x, y, w float64, n int, look int16) {
	if look >= 0 {
		p.Swatches(x, y, w, l.cellHigh(), n, l.palette[look])
		return
	}
	p.Stroke(grey, 0.2)
	for i := range n {
		left := x + float64(float64(i)*w)
		if look == lookGap {
			p.Cross(left, y, w, l.cellHigh())
		} else {
			p.Box(left, y, w, l.cellHigh())
		}
	}
}

// trimWords say who drops out, share by share: "If few come: at 90 % seats 1, 2; at 80 % also 3 stay empty."
func (l *rowStrips) trimWords(list []brief.Place, where string) string {
	var parts []string
	all := 0
	for _, share := range mosaic.TrimShares {
		var numbers []int
		for _, pl := range list {
			if pl.Seat >= 0 && int(l.brief.Outlook.Trim[pl.Seat]) == share {
				numbers = append(numbers, int(l.plan.Stands.Seats[pl.Seat].Number))
			}
		}
		if len(numbers) == 0 {
			continue
		}
		word := "seat"
		if all > 0 {
			word = "also"
		} else if len(numbers) > 1 {
			word = "seats"
		}
		all += len(numbers)
		parts = append(parts, fmt.Sprintf("at %d %% %s%s%s", share, word, glue, seatRanges(numbers)))
	}
	switch all {
	case 0:
		return "If few come: nobody drops out" + where + "."
	case 1:
		return "If few come" + where + ": " + parts[0] + " stays empty."
	}
	return "If few come" + where + ": " + strings.Join(parts, "; ") + " stay empty."
}

// seatRanges is "1–3, 7" of numbers in the order of the row; houses of odd or even numbers count as they come.
func seatRanges(numbers []int) string {
	var parts []string
	next := func(a, b int) bool { return b-a == 1 || b-a == -1 }
	for _, run := range brief.Stretches(numbers, next) {
		part, last := strconv.Itoa(run[0]), strconv.Itoa(run[len(run)-1])
		switch len(run) {
		case 1:
		case 2:
			part += "," + glue + last
		default:
			part += "–" + last
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, ","+glue)
}

// trimLine draws a box with the share under every seat that drops out.
func (l *rowStrips) trimLine(p *paper.Pen, x, y, w float64, list []brief.Place) {
	const size = 8.5
	p.Stroke(black, 0.35)
	for i, pl := range list {
		if pl.Seat >= 0 && l.brief.Outlook.Trim[pl.Seat] != 0 {
			left, share := x+float64(float64(i)*w), strconv.Itoa(int(l.brief.Outlook.Trim[pl.Seat]))
			p.Box(left+0.5, y, w-1, trimHeight)
			p.TextMiddle(left+w/2, y+trimHeight/2+paper.CapHeight(size)/2, size, bold, share)
		}
	}
}
