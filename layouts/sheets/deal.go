package sheets

import (
	"fmt"
	"io"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// Deal writes deal.pdf: how the row bags are made up from the stacks of cards, bag by bag in laying order, what must
// be left of every stack after each section, and a label to cut out for every bag. Errors are *seating.Fault.
func Deal(w io.Writer, b *brief.Brief) error {
	return running(w, b, "Dealing the row bags", "Dealing: from the stacks to the row bags", func(f *flow) {
		d := dealing{f, &b.Paper.Deal}
		if d.words.Bags == 0 {
			f.Paragraph("No row gets a card in this plan.", 12)
			return
		}
		f.Heading("Set out these stacks, and count each of them once")
		last := &d.words.Stacks[len(d.words.Stacks)-1]
		table(f, 10.5, []column{{"Stack", 0, strong}, {d.words.Looks, 1, 0}, {"Cards", 0, right | strong}, {"", 0, 0}},
			d.words.Stacks, func(s *brief.StackLine, cells []paper.Cell) {
				cells[0].Colour, cells[0].Other = s.Colour+1, s.Other+1
				if s != last {
					cells[3] = paper.Cell{Text: "counted", Tick: true}
				}
			})
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
	})
}

// Laying writes laying.pdf: how a card is laid, or how a row's cards are passed on, and which helper has which rows,
// shared out so that all end at about the same time. Errors are *seating.Fault.
func Laying(w io.Writer, b *brief.Brief) error {
	lay := &b.Paper.Laying
	how := say.Capital(lay.How)
	return running(w, b, how, how+": how, and who has which rows", func(f *flow) {
		if len(lay.Stints) == 0 {
			f.Paragraph("No row gets a card in this plan.", 12)
			return
		}
		f.Heading("How")
		f.Steps(11, lay.Steps...)
		f.Heading("Who has which rows")
		table(f, 10, []column{{"Helper", 0, strong}, {"Rows, in this order", 1, 0}, {"Bags", 0, right},
			{"Cards", 0, right}, {"About", 0, right}, {"Name or sign", 0, 0}, {"", 0, tick}}, lay.Stints,
			func(_ *brief.StintLine, cells []paper.Cell) {
				cells[5].Text, cells[6].Text = "______________", lay.Done
			})
		f.Paragraph(lay.Speed, paper.SizeSmall)
	})
}

type dealing struct {
	*flow
	words *brief.Deal
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
	d.Lines(d.Left(), d.Inner(), b.Line, size, regular)
	for i, line := range count {
		d.Need(paper.LineHeight(size))
		d.Y += paper.LineHeight(size)
		d.Text(d.Left(), d.Y, size, bold, line)
		if i == 0 {
			d.counted(d.Y, size)
		}
	}
	d.Y += 1.8
	d.StrokeColour(grey)
	d.StrokeWidth(0.12)
	d.Line(d.Left(), d.Y, d.Right(), d.Y)
}

// counted is a box to tick at the right, on this baseline.
func (d *dealing) counted(y, size float64) {
	d.Tick(d.Right()-24, y-paper.CapHeight(size)/2)
	d.Text(d.Right()-24+paper.TickSide+1.5, y, size, regular, "counted")
}

func (d *dealing) check(text string) {
	d.Y += 1.5
	lines := bold.Wrap(text, paper.SizeBody, d.Inner()-28)
	d.Need(float64(len(lines)) * paper.LineHeight(paper.SizeBody))
	d.counted(d.Y+paper.LineHeight(paper.SizeBody), paper.SizeBody)
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

// bagWords are what stands below a label's row.
func bagWords(b *brief.Bag, width float64) []setLine {
	lines := setLines(nil, b.Place, bagLabelType, regular, width)
	lines = setLines(lines, b.Begin, bagLabelType, regular, width)
	return setLines(lines, b.Cards, bagLabelType, bold, width)
}

// bagHead is the height of a label above its words.
func bagHead(name string, width float64) float64 {
	_, down := bold.Reach(name)
	return paper.Pad + paper.CapHeight(bagLabelType) + paper.CapHeight(bagLabelName) + 3.2 +
		max(1.2, down*bold.SizeFor(name, width, bagLabelName)/paper.PointsPerMM)
}

// bagSigns is the room for who dealt and who counted, in millimetres.
const bagSigns = 13.0

// bagLabels fills pages with labels to cut out, in the order of the bags.
func (d *dealing) bagLabels() {
	width := (d.Width - 2*edgeMargin) / bagLabelCols
	inner, top, high := width-2*paper.Pad, edgeMargin+8.0, leastBagLabel
	var bags []*brief.Bag
	for _, section := range d.words.Sections {
		for i := range section.Bags {
			b := &section.Bags[i]
			bags = append(bags, b)
			lines := float64(len(bagWords(b, inner)))
			high = max(high, bagHead(b.Row, inner)+float64(lines*paper.LineHeight(bagLabelType))+bagSigns)
		}
	}
	high = min(high, (d.Height-footerMargin-edgeMargin-8)/2) // half a page's
	rows := max(1, int((d.Height-footerMargin-top)/high))
	for n, b := range bags {
		at := n % (rows * bagLabelCols)
		if at == 0 {
			d.AddPage().Text(d.Left(), edgeMargin+4.5, paper.SizeSmall, regular,
				"Bag labels: cut along the dashes, one label on each row bag.")
			d.Cuts(func() {
				for r := 0; r <= rows; r++ {
					y := top + float64(float64(r)*high)
					d.Line(0, y, d.Width, y)
				}
				d.Line(edgeMargin+width, top, edgeMargin+width, top+float64(float64(rows)*high))
			})
		}
		x, y := edgeMargin+float64(float64(at/rows)*width), top+float64(float64(at%rows)*high)
		d.bagLabel(x, y, width, high, n+1, b)
	}
}

// bagLabel is one label: the row as large as it goes, where it is begun, what is inside.
func (d *dealing) bagLabel(x, y, width, high float64, number int, b *brief.Bag) {
	x, inner := x+paper.Pad, width-2*paper.Pad
	base := y + paper.Pad + paper.CapHeight(bagLabelType)
	d.Text(x, base, bagLabelType, bold, "ROW BAG")
	d.TextRight(x+inner, base, bagLabelType, regular, fmt.Sprintf("bag %d of %d", number, d.words.Bags))
	d.Text(x, base+paper.CapHeight(bagLabelName)+3.2, bold.SizeFor(b.Row, inner, bagLabelName), bold, b.Row)
	base = y + bagHead(b.Row, inner)
	for _, line := range bagWords(b, inner) {
		if base += paper.LineHeight(line.size); base > y+high-bagSigns+4.5 {
			break // a kit of very many kinds: the deal sheet has the whole count
		}
		d.Text(x, base, line.size, line.weight, line.text)
	}
	d.Blank(x, y+high-6.2, inner*0.46, "dealt by")
	d.Blank(x+float64(inner*0.52), y+high-6.2, inner*0.48, "counted by")
}
