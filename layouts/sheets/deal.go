package sheets

import (
	"fmt"
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// Deal writes deal.pdf: how the row bags are made up from the stacks of cards, bag by bag in laying
// order, what must be left of every stack after each section, and a label to cut out for every
// bag. Errors are *seating.Fault.
func Deal(w io.Writer, b *brief.Brief) error {
	f, err := uprightFlow(b, "Dealing the row bags")
	if err != nil {
		return err
	}
	d := dealing{f, &b.Paper.Deal}
	f.Title("Dealing: from the stacks to the row bags", b.Paper.Occasion)
	if d.words.Bags == 0 {
		f.Paragraph("No row gets a card in this plan.", 12)
		return f.Finish(w)
	}
	d.stacks()
	f.Heading("How to deal")
	f.Steps(paper.SizeBody, d.words.Steps...)
	number := 0
	for _, s := range d.words.Sections {
		f.Need(45) // a heading and its first bag stay together
		f.Heading("Section " + s.Name)
		for i := range s.Bags {
			number++
			d.bag(number, &s.Bags[i], i == len(s.Bags)-1)
		}
		d.check(s.After)
	}
	d.bagLabels()
	return f.Finish(w)
}

// dealing is the sheet with its words.
type dealing struct {
	*flow
	words *brief.Deal
}

// stacks says what to set out before the first bag.
func (d *dealing) stacks() {
	d.Heading("Set out these stacks, and count each of them once")
	var rows [][]paper.Cell
	for i, s := range d.words.Stacks {
		tick := paper.Cell{Text: "counted", Tick: true}
		if i == len(d.words.Stacks)-1 {
			tick = paper.Cell{}
		}
		rows = append(rows, []paper.Cell{{Text: s.Name, Bold: true, Colour: s.Colour + 1, Other: s.Other + 1}, {Text: s.Looks},
			{Text: s.Cards, Bold: true}, tick})
	}
	d.Table([]paper.Column{{Head: "Stack"}, {Head: d.words.Looks, Share: 1}, {Head: "Cards", Right: true}, {Head: ""}}, rows, 10.5)
}

// bag is one bag: its row, its cards in order, its count. The last one stays with the check after it.
func (d *dealing) bag(number int, b *brief.Bag, last bool) {
	const size, titleSize = 10.5, 11.5
	lines := regular.Wrap(b.Line, size, d.Inner())
	count := bold.Wrap("Check count: "+b.Cards, size, d.Inner()-28)
	height := 3 + paper.LineHeight(titleSize) + float64(float64(len(lines)+len(count))*paper.LineHeight(size))
	if last {
		height += 2 + 2*paper.LineHeight(paper.SizeBody)
	}
	d.Need(min(height, 60))
	d.Y += paper.LineHeight(titleSize)
	title := fmt.Sprintf("Bag %d: row %s", number, b.Row)
	d.Text(d.Left(), d.Y, bold.SizeFor(title, d.Inner(), titleSize), bold, title)
	for _, line := range lines {
		d.Need(paper.LineHeight(size))
		d.Y += paper.LineHeight(size)
		d.Text(d.Left(), d.Y, size, regular, line)
	}
	for i, line := range count {
		d.Need(paper.LineHeight(size))
		d.Y += paper.LineHeight(size)
		d.Text(d.Left(), d.Y, size, bold, line)
		if i == 0 {
			d.Tick(d.Right()-24, d.Y-paper.CapHeight(size)/2)
			d.Text(d.Right()-24+paper.TickSide+1.5, d.Y, size, regular, "counted")
		}
	}
	d.Y += 1.8
	d.StrokeColour(grey)
	d.StrokeWidth(0.12)
	d.Line(d.Left(), d.Y, d.Right(), d.Y)
}

// check says what must be left of the stacks.
func (d *dealing) check(text string) {
	d.Y += 1.5
	lines := bold.Wrap(text, paper.SizeBody, d.Inner()-28)
	d.Need(float64(len(lines)) * paper.LineHeight(paper.SizeBody))
	d.Tick(d.Right()-24, d.Y+paper.LineHeight(paper.SizeBody)-paper.CapHeight(paper.SizeBody)/2)
	d.Text(d.Right()-24+paper.TickSide+1.5, d.Y+paper.LineHeight(paper.SizeBody), paper.SizeBody, regular, "counted")
	d.Lines(d.Left(), d.Inner()-28, text, paper.SizeBody, bold)
	d.Y += 2
}

// The bag labels: two columns, as many rows as fit. They are as high as the longest one needs.
const (
	leastBagLabel = 49.0
	bagLabelCols  = 2
	bagLabelName  = 34.0 // points
	bagLabelType  = 9.5
)

// bagWords are what stands below a label's row, line by line.
type bagWords struct {
	lines  []string
	weight []paper.Weight
}

func newBagWords(b *brief.Bag, width float64) (w bagWords) {
	for _, t := range []struct {
		text string
		w    paper.Weight
	}{{b.Place, regular}, {b.Begin, regular}, {b.Cards, bold}} {
		for _, line := range t.w.Wrap(t.text, bagLabelType, width) {
			w.lines, w.weight = append(w.lines, line), append(w.weight, t.w)
		}
	}
	return w
}

// bagHead is the height of a label above its words.
func bagHead(name string, width float64) float64 {
	_, down := bold.Reach(name)
	return paper.Pad + paper.CapHeight(bagLabelType) + paper.CapHeight(bagLabelName) + 3.2 +
		max(1.2, down*bold.SizeFor(name, width, bagLabelName)/paper.PointsPerMM)
}

// bagLabelHigh is the height of all labels, at most half a page's.
func (d *dealing) bagLabelHigh(width float64) float64 {
	high := leastBagLabel
	for _, section := range d.words.Sections {
		for i := range section.Bags {
			lines := len(newBagWords(&section.Bags[i], width).lines)
			head := bagHead(section.Bags[i].Row, width)
			high = max(high, head+float64(float64(lines)*paper.LineHeight(bagLabelType))+bagSigns)
		}
	}
	return min(high, (d.Height-footerMargin-edgeMargin-8)/2)
}

// bagSigns is the room for who dealt and who counted, in millimetres.
const bagSigns = 13.0

// bagLabels fills pages with labels to cut out, in the order of the bags.
func (d *dealing) bagLabels() {
	width := (d.Width - 2*edgeMargin) / bagLabelCols
	top, high := edgeMargin+8.0, d.bagLabelHigh(width-2*paper.Pad)
	rows := max(1, int((d.Height-footerMargin-top)/high))
	n := 0
	for _, section := range d.words.Sections {
		for i := range section.Bags {
			at := n % (rows * bagLabelCols)
			if at == 0 {
				d.labelPage(top, width, high, rows)
			}
			n++
			d.bagLabel(edgeMargin+float64(float64(at/rows)*width), top+float64(float64(at%rows)*high), width, high, n, &section.Bags[i])
		}
	}
}

// labelPage starts a page and draws where to cut.
func (d *dealing) labelPage(top, width, high float64, rows int) {
	p := d.AddPage()
	p.Text(d.Left(), edgeMargin+4.5, paper.SizeSmall, regular,
		"Bag labels: cut along the dashes, one label on each row bag.")
	p.Cuts(func() {
		for r := 0; r <= rows; r++ {
			y := top + float64(float64(r)*high)
			p.Line(0, y, d.Width, y)
		}
		for c := 1; c < bagLabelCols; c++ {
			p.Line(edgeMargin+float64(float64(c)*width), top, edgeMargin+float64(float64(c)*width), top+float64(float64(rows)*high))
		}
	})
}

// bagLabel is one label: the row as large as it goes, where it is begun, what is inside.
func (d *dealing) bagLabel(x, y, width, high float64, number int, b *brief.Bag) {
	p := &d.Pen
	x, inner := x+paper.Pad, width-2*paper.Pad
	base := y + paper.Pad + paper.CapHeight(bagLabelType)
	p.Text(x, base, bagLabelType, bold, "ROW BAG")
	p.TextRight(x+inner, base, bagLabelType, regular, fmt.Sprintf("bag %d of %d", number, d.words.Bags))
	name := b.Row
	p.Text(x, base+paper.CapHeight(bagLabelName)+3.2, bold.SizeFor(name, inner, bagLabelName), bold, name)
	base = y + bagHead(name, inner)
	words := newBagWords(b, inner)
	for i, line := range words.lines {
		if base += paper.LineHeight(bagLabelType); base > y+high-bagSigns+4.5 {
			break // a kit of very many kinds: the deal sheet has the whole count
		}
		p.Text(x, base, bagLabelType, words.weight[i], line)
	}
	d.Blank(x, y+high-6.2, inner*0.46, "dealt by")
	d.Blank(x+float64(inner*0.52), y+high-6.2, inner*0.48, "counted by")
}
