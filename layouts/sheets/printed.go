package sheets

import (
	"fmt"
	"io"
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// bleed is how far a flooded card reaches over the outer cuts, where the sheet has room, in millimetres.
const bleed = 2.0

// printedCards are white card flooded with the colours of both sides, in laying order, a file a section.
type printedCards struct {
	*cardLabels
	grid  sheetGrid
	tiles *tiling                // of a card larger than the paper; nil = grid
	inks  map[*labels][2]*labels // every design in black and in white
}

func newPrinted(p *mosaic.Plan, paper Paper) (*printedCards, error) {
	if p.Stunt.Card.Kind != mosaic.Printed {
		return nil, &seating.Fault{Key: "print.placards", What: "the cards are coloured stock, and full colour is printed on white card",
			Hint: fmt.Sprintf("write kind = %q under [card], or placards = %q", mosaic.Printed, mosaic.OnStock)}
	}
	grid, tiles, err := layCards(p, paper)
	if err != nil {
		return nil, err
	}
	c, err := newCardLabels(p, &grid, tiles)
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
	sections := laid(c.plan)
	for _, rows := range sections {
		name := c.plan.Stands.Sections[rows[0].section].Name
		if err := c.parts("placards-"+seating.FileName(name), "Printed cards, section "+name, c.leaves(rows), put); err != nil {
			return err
		}
	}
	return c.parts("spares", "Printed cards, spares", c.spareLeaves(sections), put)
}

// parts puts a file for every PerFile cards.
func (c *printedCards) parts(base, what string, leaves []leaf, put put) error {
	files := slices.Collect(slices.Chunk(leaves, PerFile))
	for i, part := range files {
		if err := put(numbered(base, i, len(files)), func(w io.Writer) error { return c.file(what, part, w) }); err != nil {
			return err
		}
	}
	return nil
}

// leaves are the section's cards in laying order, a leaf each.
func (c *printedCards) leaves(rows []rowWork) []leaf {
	var list []leaf
	for i := range rows {
		for k, kit := range rows[i].kits {
			for n, card := range kit {
				list = append(list, leaf{row: &rows[i], seat: k, card: card, side: 1, nth: n + 1, of: len(kit)})
			}
		}
	}
	return list
}

// file prints cards: of every sheet the front, side A, then its back, side B.
func (c *printedCards) file(what string, leaves []leaf, w io.Writer) error {
	if c.tiles != nil {
		return c.tiledFile(what, leaves, w)
	}
	d := newDocument(what, c.grid.sheetWidth, c.grid.sheetHeight)
	d.packed = len(leaves) <= packed
	for _, j := range printJobs(len(leaves), &c.grid) {
		c.startJob(d, &j, what, leaves)
		for sheet := range j.sheets {
			c.sheet(d, &j, sheet, leaves)
		}
	}
	return d.write(w)
}

// startJob prints the banner and, since all sheets have two sides, its back.
func (c *printedCards) startJob(d *document, j *printJob, what string, leaves []leaf) {
	c.back.banner(d, &banner{
		job: *j, what: what, load: plural(j.sheets, "sheet") + " of white card", under: c.cost(), colour: -1,
		steps: c.steps(j, d.pdf.PageNo()+2), rows: rowCounts(c.plan, leaves[j.first:j.first+j.count]),
	})
	p := d.addPage()
	p.inkColour(black)
	p.text(edgeMargin+labelPad, 30, 12, regular, "The back of the page before.")
}

// sheet prints both pages of one sheet.
func (c *printedCards) sheet(d *document, j *printJob, sheet int, leaves []leaf) {
	for side := range int8(2) {
		draw := func(p *pen) {
			for place := range c.grid.places() {
				n := j.piece(sheet, place)
				if n < 0 {
					continue
				}
				x, y := c.grid.place(place)
				if side == 1 {
					x = c.grid.sheetWidth - x - c.grid.width // the sheet is turned over
				}
				f := leaves[n]
				f.side = side
				c.side(d, x, y, &f)
				if side == 1 {
					p.inkColour(c.ink(&f))
					c.footLine(p, x, y, &c.grid, fmt.Sprintf("Plan %s. %s", c.plan.Code, j.where(sheet, place)))
				}
			}
			if side == 1 && c.grid.places() > 1 {
				p.cutTicks(&c.grid, c.reach)
			}
		}
		if side == 0 {
			draw(d.addPage())
		} else {
			d.backPage(c.plan.Stunt.Print.ShortEdge, draw)
		}
	}
}

// backPage adds the page that a printer puts on the back of the one before. What is drawn is what one
// sees who turns the sheet like a page of a book, its left and right changed; where the printer
// turns the sheet the other way, the page stands on its head.
func (d *document) backPage(shortEdge bool, draw func(p *pen)) {
	p := d.addPage()
	upright := d.width <= d.height
	if upright != shortEdge {
		draw(p)
		return
	}
	d.pdf.TransformBegin()
	d.pdf.TransformRotate(180, d.width/2, d.height/2)
	draw(p)
	d.pdf.TransformEnd()
}

// side floods one side of a card and prints what it has to say: a card of one colour has its label on
// side B and nothing else on side A, a card of two has one along the foot of each.
func (c *printedCards) side(d *document, x, y float64, f *leaf) {
	p := &d.page
	p.fillColour(c.flood(f))
	x0, y0, x1, y1 := c.flooded(x, y)
	p.filled(x0, y0, x1-x0, y1-y0)
	c.label(d, x, y, c.grid.height, f)
}

// label prints the words of one side of a card of this height at (x, y); side A of a card of one colour has none.
func (c *printedCards) label(d *document, x, y, height float64, f *leaf) {
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
		c.spareLabel(&d.page, x, y, inked, f)
		return
	}
	inked.placard(d, x, y, int(f.row.seats[f.seat]), f.row.kits[f.seat], c.note(f))
}

// designOf is the design of a side's label, or nil.
func (c *printedCards) designOf(f *leaf) *labels {
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
func (c *printedCards) ink(f *leaf) colour.RGB {
	return readable(c.flood(f))
}

// flood is the colour of a card's side.
func (c *printedCards) flood(f *leaf) colour.RGB {
	return c.plan.Stunt.Colours[c.sides(f)[f.side]].RGB
}

// flooded is the area of a card at (x, y) that takes colour: over the outer cuts a little, and no
// further than the printer reaches.
func (c *printedCards) flooded(x, y float64) (x0, y0, x1, y1 float64) {
	g := &c.grid
	x0, y0, x1, y1 = x, y, x+g.width, y+g.height
	if x0 < g.left+sameLength {
		x0 -= bleed
	}
	if y0 < g.top+sameLength {
		y0 -= bleed
	}
	if x1 > g.right()-sameLength {
		x1 += bleed
	}
	if y1 > g.bottom()-sameLength {
		y1 += bleed
	}
	return max(x0, c.reach), max(y0, c.reach), min(x1, g.sheetWidth-c.reach), min(y1, g.sheetHeight-c.reach)
}

// cost says what full colour costs in this plan.
func (c *printedCards) cost() string {
	b := c.plan.Bill()
	if b == nil {
		return ""
	}
	words := fmt.Sprintf("Full colour, all cards of the plan, spares counted in: %s of white card, %s flooded with toner", plural(b.Sheets, "sheet"), plural(b.Toner, "side"))
	if b.Priced {
		words += ", together " + money(b.GoodsCents)
	}
	return words + fmt.Sprintf(", and %s of work.", hours(b.Minutes))
}

// steps say what is done with a job; its first card is on the page given.
func (c *printedCards) steps(j *printJob, page int) []string {
	turn := "long edge"
	if c.plan.Stunt.Print.ShortEdge {
		turn = "short edge"
	}
	steps := []string{
		"Print test.pdf first: it shows whether this printer turns the sheet over the " + turn + ", as these pages want it, and how wide its white rim is.",
		"Put " + plural(j.sheets, "sheet") + " of white card into the tray. Keep a few more at hand for jams.",
		"Print " + pagesFrom(page, 2*j.sheets) + " on them: at actual size (100 %), in colour, on both sides, turned over the " + turn +
			". A printer that prints one side only: first the odd pages, then the pile goes back in, turned over the " + turn + ", for the even ones.",
	}
	if c.tiles != nil {
		return append(steps, c.tiles.steps(c.plan)...)
	}
	steps = append(steps, pileSteps(&c.grid, j)...)
	if c.grid.places() == 1 {
		steps = append(steps, fmt.Sprintf("A rim of %g mm stays white: that is as far as the printer reaches.", c.reach))
	}
	return append(steps, "Keep the pile in its order, with this page on top.")
}
