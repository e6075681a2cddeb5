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
type printedCards struct {
	*cardLabels
	grid  paper.Grid
	tiles *paper.Tiling          // of a card larger than the paper; nil = grid
	inks  map[*labels][2]*labels // every design in black and in white
}

func newPrinted(b *brief.Brief, size mosaic.PaperSize) (*printedCards, error) {
	p := b.Plan
	if p.Stunt.Card.Kind != mosaic.Printed {
		return nil, &seating.Fault{Key: "print.placards",
			What: "the cards are coloured stock, and full colour is printed on white card",
			Hint: fmt.Sprintf("write kind = %q under [card], or placards = %q", mosaic.Printed, mosaic.OnStock)}
	}
	grid, tiles, err := layCards(p, size)
	if err != nil {
		return nil, err
	}
	c, err := newCardLabels(b, &grid, tiles)
	if err != nil {
		return nil, err
	}
	pc := &printedCards{cardLabels: c, grid: grid, tiles: tiles, inks: map[*labels][2]*labels{}}
	for _, l := range []*labels{c.back, c.foot} {
		inWhite := *l
		inWhite.ink = white
		pc.inks[l] = [2]*labels{l, &inWhite}
	}
	return pc, nil
}

// files puts a file for every section that gets cards, and one of spares.
func (c *printedCards) files(put put) error {
	sections := c.brief.Rows
	for _, rows := range sections {
		name := c.plan.Stands.Sections[rows[0].Section].Name
		if err := c.parts("placards-"+seating.FileName(name), "Printed cards, section "+name, c.cards(rows),
			put); err != nil {
			return err
		}
	}
	return c.parts("spares", "Printed cards, spares", c.spareSheets(sections), put)
}

// parts puts a file for every brief.PerFile cards.
func (c *printedCards) parts(base, what string, cards []cardSheet, put put) error {
	parts := slices.Collect(slices.Chunk(cards, brief.PerFile))
	return putParts(put, base, parts, func(part []cardSheet, w io.Writer) error { return c.file(what, part, w) })
}

// cards are the section's cards in laying order, a sheet each.
func (c *printedCards) cards(rows []brief.Row) []cardSheet {
	var list []cardSheet
	for i := range rows {
		for k, kit := range rows[i].Kits {
			for n, card := range kit {
				list = append(list, cardSheet{row: &rows[i], seat: k, card: card, side: 1, nth: n + 1, of: len(kit)})
			}
		}
	}
	return list
}

// file prints cards: of every sheet the front, side A, then its back, side B.
func (c *printedCards) file(what string, cards []cardSheet, w io.Writer) error {
	if c.tiles != nil {
		return c.tiledFile(what, cards, w)
	}
	d := newDocument(c.brief, what, c.grid.Sheet)
	d.Loose = len(cards) > packed
	for _, j := range c.grid.Jobs(len(cards)) {
		c.startJob(d, &j, what, cards)
		for sheet := range j.Sheets {
			c.sheet(d, &j, sheet, cards)
		}
	}
	return d.Write(w)
}

// startJob prints the banner and, since all sheets have two sides, its back.
func (c *printedCards) startJob(d *paper.Document, j *paper.Job, what string, cards []cardSheet) {
	c.back.banner(d, &banner{
		Job: *j, what: what, load: say.Count(j.Sheets, "sheet") + " of white card", under: c.brief.Paper.PrintCost, colour: -1,
		steps: c.steps(j, d.Page()+2), rows: rowCounts(c.plan, cards[j.First:j.First+j.Count]),
	})
	p := d.AddPage()
	p.Text(edgeMargin+paper.Pad, 30, 12, regular, "The back of the page before.")
}

// sheet prints both pages of one sheet.
func (c *printedCards) sheet(d *paper.Document, j *paper.Job, sheet int, cards []cardSheet) {
	for side := range int8(2) {
		draw := func(p *paper.Pen) {
			for place, n := range j.On(sheet) {
				x, y := c.grid.Place(place)
				if side == 1 {
					x = c.grid.Sheet.Width - x - c.grid.Width // the sheet is turned over
				}
				f := cards[n]
				f.side = side
				c.side(d, x, y, &f)
				if side == 1 {
					p.Ink(c.ink(&f))
					c.footLine(p, x, y, &c.grid, fmt.Sprintf("Plan %s. %s", string(c.brief.Code), j.Where(sheet, place)))
				}
			}
			if side == 1 && c.grid.Places() > 1 {
				p.CutTicks(&c.grid, c.reach)
			}
		}
		if side == 0 {
			draw(d.AddPage())
		} else {
			d.BackPage(c.plan.Stunt.Print.ShortEdge, draw)
		}
	}
}

// side floods one side of a card and prints what it has to say: a card of one colour has its label on
// side B and nothing else on side A, a card of two has one along the foot of each.
func (c *printedCards) side(d *paper.Document, x, y float64, f *cardSheet) {
	p := &d.Pen
	p.Fill(c.flood(f))
	x0, y0, x1, y1 := c.flooded(x, y)
	p.Filled(x0, y0, x1-x0, y1-y0)
	c.label(d, x, y, c.grid.Height, f)
}

// label prints the words of one side of a card of this height at (x, y); side A of a card of one colour has none.
func (c *printedCards) label(d *paper.Document, x, y, height float64, f *cardSheet) {
	l := c.designOf(f)
	if l == nil {
		return
	}
	inked := c.inks[l][0]
	if c.ink(f) == white {
		inked = c.inks[l][1]
	}
	x, y = c.place(l, x, y, height)
	if f.spare {
		c.spareLabel(&d.Pen, x, y, inked, f)
		return
	}
	inked.placard(d, x, y, int(f.row.Seats[f.seat]), f.row.Kits[f.seat], c.note(f))
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

// ink is the one of black and white that can be read on the side.
func (c *printedCards) ink(f *cardSheet) colour.RGB {
	return paper.Readable(c.flood(f))
}

// flood is the colour of a card's side.
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
		"Print test.pdf first: it shows whether this printer turns the sheet over the " + turn +
			", as these pages want it, and how wide its white rim is.",
		"Put " + say.Count(j.Sheets, "sheet") + " of white card into the tray. Keep a few more at hand for jams.",
		"Print " + pagesFrom(page, 2*j.Sheets) +
			" on them: at actual size (100 %), in colour, on both sides, turned over the " + turn +
			". A printer that prints one side only: first the odd pages, then the pile goes back in, turned over the " + turn +
			", for the even ones.",
	}
	if c.tiles != nil {
		return append(steps, tileSteps(c.tiles, c.plan)...)
	}
	steps = append(steps, pileSteps(&c.grid, j)...)
	if c.grid.Places() == 1 {
		steps = append(steps, fmt.Sprintf("A rim of %g mm stays white: that is as far as the printer reaches.", c.reach))
	}
	return append(steps, "Keep the pile in its order, with this page on top.")
}

// spareSheets are the spares, section by section, as many of each colour as the bill has.
func (c *printedCards) spareSheets(sections [][]brief.Row) []cardSheet {
	var list []cardSheet
	counts := c.plan.SpareTally()
	for i, rows := range sections {
		for index, n := range counts[i] {
			spare := cardSheet{row: &rows[0], card: int16(index), spare: true}
			list = append(list, slices.Repeat([]cardSheet{spare}, n)...)
		}
	}
	return list
}

// sides are the colours of a sheet's card.
func (c *printedCards) sides(f *cardSheet) [2]int16 {
	if f.spare {
		return [2]int16{f.card, f.card}
	}
	return c.plan.Cards[f.card].Sides
}

// spareName says what a spare is.
func (c *printedCards) spareName(f *cardSheet) string {
	return "SPARE " + c.colour(f.card) + ", section " + c.plan.Stands.Sections[f.row.Section].Name
}

// spareLabel stands on the back of a spare instead of a seat's label, in a label's place at (x, y).
func (c *printedCards) spareLabel(p *paper.Pen, x, y float64, l *labels, f *cardSheet) {
	words := "Of the " + c.colour(f.card) +
		" that a section shows some are kept for cards that are lost or spoiled. This one has no seat."
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
	room -= paper.LineHeight(size)
	for body := 14.0; body >= 6; body -= 0.5 {
		lines := regular.Wrap(words, body, inner)
		if float64(len(lines))*paper.LineHeight(body) > room && body > 6 {
			continue
		}
		p.TextLines(x, y+2, body, regular, lines)
		return
	}
}
