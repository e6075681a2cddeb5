package sheets

import (
	"fmt"
	"io"
	"slices"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/say"
)

// bleed is how far a flooded card reaches over the outer cuts, where the sheet has room, in millimetres.
const bleed = 2.0

// printedCards are white card flooded with the colours of both sides, in laying order, a file a section.
type printedCards struct{ *cardLabels }

func newPrinted(b *brief.Brief, size mosaic.PaperSize) (*printedCards, error) {
	if b.Plan.Stunt.Card.Kind != mosaic.Printed {
		return nil, fault("print.placards", fmt.Sprintf("write kind = %q under [card], or placards = %q",
			mosaic.Printed, mosaic.OnStock), "the cards are coloured stock, and full colour is printed on white card")
	}
	c, err := newCardLabels(b, size)
	return &printedCards{c}, err
}

// files puts a file for every section that gets cards, and one of spares.
func (c *printedCards) files(put put) error {
	parts := func(base, what string, cards []cardSheet) error {
		file := func(part []cardSheet, w io.Writer) error { return c.file(what, part, w) }
		return putParts(put, base, chunks(cards), file)
	}
	for _, rows := range c.brief.Rows {
		name := c.plan.Stands.Sections[rows[0].Section].Name
		err := parts("placards-"+seating.FileName(name), "Printed cards, section "+name, allCards(rows))
		if err != nil {
			return err
		}
	}
	return parts("spares", "Printed cards, spares", c.spares())
}

// file prints cards: of every sheet the front, side A, then its back, side B.
func (c *printedCards) file(what string, cards []cardSheet, w io.Writer) error {
	d, jobs := c.start(what, len(cards))
	for _, j := range jobs {
		c.back.banner(d, &banner{Job: j, what: what, load: say.Count(j.Sheets, "sheet") + " of white card",
			under: c.brief.Paper.PrintCost, colour: -1, steps: c.steps(&j, d.Page()+2)}, cards)
		// All sheets have two sides, the banner's too.
		d.AddPage().Text(edgeMargin+paper.Pad, 30, 12, regular, "The back of the page before.")
		for sheet := range j.Sheets {
			for side := range int8(2) {
				draw := func(p *paper.Pen) {
					if c.tiles != nil {
						c.tile(d, p, &j, sheet, side, cards[j.First+sheet/c.tiles.Count()])
					} else {
						c.sheet(d, p, &j, sheet, side, cards)
					}
				}
				if side == 0 {
					draw(d.AddPage())
				} else {
					d.BackPage(c.plan.Stunt.Print.ShortEdge, draw)
				}
			}
		}
	}
	return d.Write(w)
}

// sheet prints one page of a sheet: a card of one colour has its label on side B and nothing else on side A, a card of
// two has one along the foot of each.
func (c *printedCards) sheet(d *paper.Document, p *paper.Pen, j *paper.Job, sheet int, side int8, cards []cardSheet) {
	for place, n := range j.On(sheet) {
		x, y := c.grid.Place(place)
		if side == 1 {
			x = c.grid.Sheet.Width - x - c.grid.Width // the sheet is turned over
		}
		f := cards[n]
		f.side = side
		p.Fill(c.flood(&f))
		x0, y0, x1, y1 := c.flooded(x, y)
		p.Filled(x0, y0, x1-x0, y1-y0)
		c.label(d, x, y, &f)
		if side == 1 {
			p.Ink(paper.Readable(c.flood(&f)))
			c.footLine(p, x, y, fmt.Sprintf("Plan %s. %s", c.brief.Code, j.Where(sheet, place)))
		}
	}
	if side == 1 && c.grid.Places() > 1 {
		p.CutTicks(&c.grid, c.reach)
	}
}

// tile floods one side of a large card's piece, over its edge a little, and prints the label where it belongs.
func (c *printedCards) tile(d *paper.Document, p *paper.Pen, j *paper.Job, sheet int, side int8, f cardSheet) {
	t := c.tiles
	f.side = side
	n := sheet % t.Count()
	at := n
	if side == 0 { // who looks at the front has the columns the other way round
		at = n - n%t.Columns + t.Columns - 1 - n%t.Columns
	}
	g := &t.Piece
	p.Fill(c.flood(&f))
	p.Filled(g.Left-bleed, g.Top-bleed, g.Width+2*bleed, g.Height+2*bleed)
	if bearsLabel(t, at, c.designOf(&f) == c.foot) {
		x, y := t.Card(at)
		c.label(d, x, y, &f)
	}
	if side == 1 {
		p.Ink(black)
		p.TileNote(t, n, c.tileWords(&f, j, sheet))
		p.TileMarks(t, n, c.reach, paper.Readable(c.flood(&f)))
	}
}

// label prints the words of one side of a card at (x, y), in the ink that can be read on it; side A of a card of one
// colour has none.
func (c *printedCards) label(d *paper.Document, x, y float64, f *cardSheet) {
	l := c.designOf(f)
	if l == nil {
		return
	}
	x, y = c.place(l, x, y)
	inked := *l
	inked.ink = paper.Readable(c.flood(f))
	if f.spare {
		c.spareLabel(&d.Pen, x, y, &inked, f)
	} else {
		inked.placard(d, x, y, f.index(), f.kit(), cardNote(c.plan, f))
	}
}

// designOf is the design of a side's label, or nil.
func (c *printedCards) designOf(f *cardSheet) *labels {
	sides := c.sides(f)
	switch {
	case sides[0] != sides[1]:
		return c.foot
	case f.side == 1:
		return c.back
	}
	return nil
}

func (c *printedCards) flood(f *cardSheet) colour.RGB {
	return c.plan.Stunt.Colours[c.sides(f)[f.side]].RGB
}

// flooded is the area of a card at (x, y) that takes colour: over the outer cuts a little, and no
// further than the printer reaches.
func (c *printedCards) flooded(x, y float64) (x0, y0, x1, y1 float64) {
	g := &c.grid
	x0, y0, x1, y1 = x, y, x+g.Width, y+g.Height
	if x0 < g.Left+paper.SameLength {
		x0 -= bleed
	}
	if y0 < g.Top+paper.SameLength {
		y0 -= bleed
	}
	if x1 > g.Right()-paper.SameLength {
		x1 += bleed
	}
	if y1 > g.Bottom()-paper.SameLength {
		y1 += bleed
	}
	return max(x0, c.reach), max(y0, c.reach), min(x1, g.Sheet.Width-c.reach), min(y1, g.Sheet.Height-c.reach)
}

// steps say what is done with a job; its first card is on the page given.
func (c *printedCards) steps(j *paper.Job, page int) []string {
	turn := "long edge"
	if c.plan.Stunt.Print.ShortEdge {
		turn = "short edge"
	}
	steps := []string{
		"Print test.pdf first: it shows whether this printer turns the sheet over the " + turn + ", as these pages " +
			"want it, and how wide its white rim is.",
		"Put " + say.Count(j.Sheets, "sheet") + " of white card into the tray. Keep a few more at hand for jams.",
		"Print " + pagesFrom(page, 2*j.Sheets) + " on them: at actual size (100 %), in colour, on both sides, " +
			"turned over the " + turn + ". A printer that prints one side only: first the odd pages, then the pile " +
			"goes back in, turned over the " + turn + ", for the even ones.",
	}
	switch {
	case c.tiles != nil:
		return append(steps, tileSteps(c.tiles, c.plan)...)
	case c.grid.Places() == 1:
		steps = append(steps, fmt.Sprintf("A rim of %g mm stays white: that is as far as the printer reaches.",
			c.reach))
	}
	return append(steps, pileSteps(&c.grid, j, keepPile)...)
}

// spares are a sheet each, section by section, as many of each colour as the bill has.
func (c *printedCards) spares() (list []cardSheet) {
	counts := c.plan.SpareTally()
	for i, rows := range c.brief.Rows {
		for index, n := range counts[i] {
			spare := cardSheet{row: &rows[0], card: int16(index), spare: true}
			list = append(list, slices.Repeat([]cardSheet{spare}, n)...)
		}
	}
	return list
}

func (c *cardLabels) spareName(f *cardSheet) string {
	return "SPARE " + c.colour(f.card) + ", section " + c.plan.Stands.Sections[f.row.Section].Name
}

// spareLabel stands on the back of a spare instead of a seat's label, in a label's place at (x, y).
func (c *printedCards) spareLabel(p *paper.Pen, x, y float64, l *labels, f *cardSheet) {
	words := "Of the " + c.colour(f.card) + " that a section shows some are kept for cards that are lost or " +
		"spoiled. This one has no seat."
	if brief.TwoColoured(c.plan) {
		words += " Two spares held back to back stand in for a card of two colours."
	}
	words += " " + brief.HeldWords(c.plan) + " Keep it for a second take. Do not throw it."
	p.Ink(l.ink)
	inner, room := l.width-2*paper.Pad, l.height-2*paper.Pad
	name := c.spareName(f)
	size := bold.SizeFor(name, inner, 28)
	x, y = x+paper.Pad, y+paper.Pad+paper.CapHeight(size)
	p.Text(x, y, size, bold, name)
	body, lines := largest(words, 14, 6, inner, room-paper.LineHeight(size))
	p.TextLines(x, y+2, body, regular, lines)
}
