package sheets

import (
	"fmt"
	"slices"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
)

// tileSteps say how a card is put together.
func tileSteps(t *paper.Tiling, p *mosaic.Plan) []string {
	width, height := p.CardSize()
	return []string{
		fmt.Sprintf("Each card is %d sheets that follow each other: %d side by side, %d one below the other, as you "+
			"look at the side with the marks. It becomes %s × %s.", t.Count(), t.Columns, t.Rows, width, height),
		"One card at a time: cut each sheet along the marks at its corners, and put it in its place at once.",
		"Glue piece 2 on piece 1 so that its cut edge meets the short lines of piece 1, and so on along the row; " +
			"then row on row. " + tileLabelWords(t, p),
		"Keep the cards in their order, with this page on top.",
	}
}

// tileLabelWords say which piece the label is on: the check that none was turned or mixed up.
func tileLabelWords(t *paper.Tiling, p *mosaic.Plan) string {
	foot := t.LastRow() + 1
	plain := slices.ContainsFunc(p.Cards, func(c mosaic.Card) bool { return c.Sides[0] == c.Sides[1] })
	switch two := brief.TwoColoured(p); {
	case two && plain:
		return fmt.Sprintf("The label is on piece 1, of a card of two colours on piece %d, its lower left as you "+
			"look at it.", foot)
	case two:
		return fmt.Sprintf("The label is on piece %d, its lower left as you look at it.", foot)
	}
	return "The label is on piece 1, its upper left as you look at it."
}

// bearsLabel says whether piece n carries the label: the first one of the card, or with foot of its last row.
func bearsLabel(t *paper.Tiling, n int, foot bool) bool {
	if foot {
		return n == t.LastRow()
	}
	return n == 0
}

// tile prints a sheet of a large card of one colour: the marks are on the side with the label.
func (s *stockCards) tile(d *paper.Document, j *paper.Job, sheet int, cards []cardSheet) {
	t := s.tiles
	f, n := &cards[j.First+sheet/t.Count()], sheet%t.Count()
	d.TileMarks(t, n, s.reach, black)
	d.TileNote(t, n, s.tileWords(f, j, sheet))
	if sides := s.sides(f); bearsLabel(t, n, sides[0] != sides[1]) {
		x, y := t.Card(n)
		s.label(d, x, y, f)
	}
}

// tileWords name the card of a piece, and the sheet.
func (c *cardLabels) tileWords(f *cardSheet, j *paper.Job, sheet int) string {
	if f.spare {
		return fmt.Sprintf("%s. Plan %s, %s", c.spareName(f), c.brief.Code, j.Where(sheet, 0))
	}
	return fmt.Sprintf("Seat %s, %s. Plan %s, %s", c.plan.Stands.ID(f.index()), c.plan.Cards[f.card].ID, c.brief.Code,
		j.Where(sheet, 0))
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
