package sheets

import (
	"fmt"
	"io"
	"slices"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// tileSteps say how a card is put together.
func tileSteps(t *paper.Tiling, p *mosaic.Plan) []string {
	width, height := heldSize(p)
	return []string{
		fmt.Sprintf("Each card is %d sheets that follow each other: %d side by side, %d one below the other, as you look "+
			"at the side with the marks. It becomes %s × %s.",
			t.Count(), t.Columns, t.Rows, width, height),
		"One card at a time: cut each sheet along the marks at its corners, and put it in its place at once.",
		"Glue piece 2 on piece 1 so that its cut edge meets the short lines of piece 1, and so on along the row; then " +
			"row on row. " + tileLabelWords(t, p),
		"Keep the cards in their order, with this page on top.",
	}
}

// tileLabelWords say which piece the label is on: the check that none was turned or mixed up.
func tileLabelWords(t *paper.Tiling, p *mosaic.Plan) string {
	foot := t.LastRow() + 1
	plain := slices.ContainsFunc(p.Cards, func(c mosaic.Card) bool { return c.Sides[0] == c.Sides[1] })
	switch two := brief.TwoColoured(p); {
	case two && plain:
		return fmt.Sprintf("The label is on piece 1, of a card of two colours on piece %d, its lower left as you look at "+
			"it.", foot)
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

// tiledFile prints large cards of one colour: the marks are on the side with the label.
func (s *stockCards) tiledFile(colour int16, cards []cardSheet, w io.Writer) error {
	t, name := s.tiles, s.colour(colour)
	d := newDocument(s.brief, "Placards on "+name, t.Piece.Sheet)
	for _, j := range t.Jobs(len(cards)) {
		steps := stockSteps(&t.Piece, &j, d.Page()+1, name)
		s.back.banner(d, &banner{
			Job: j, what: "Placards on " + name, load: say.Count(j.Sheets, "sheet") + " of " + name, colour: colour,
			steps: append(steps[:len(steps)-1], tileSteps(t, s.plan)...),
			rows:  rowCounts(s.plan, cards[j.First:j.First+j.Count]),
		})
		for sheet := range j.Sheets {
			f, n := &cards[j.First+sheet/t.Count()], sheet%t.Count()
			p := d.AddPage()
			p.TileMarks(t, n, s.reach, black)
			p.TileNote(t, n, s.tileWords(f, &j, sheet))
			if sides := s.plan.Cards[f.card].Sides; bearsLabel(t, n, sides[0] != sides[1]) {
				x, y := t.Card(n)
				s.label(d, x, y, f)
			}
		}
	}
	return d.Write(w)
}

// tileWords name the card of a piece, and the sheet.
func (c *printedCards) tileWords(f *cardSheet, j *paper.Job, sheet int) string {
	if f.spare {
		return fmt.Sprintf("%s. Plan %s, %s", c.spareName(f), string(c.brief.Code), j.Where(sheet, 0))
	}
	return c.cardLabels.tileWords(f, j, sheet)
}

// tileWords name the card of a piece, and the sheet.
func (c *cardLabels) tileWords(f *cardSheet, j *paper.Job, sheet int) string {
	return fmt.Sprintf("Seat %s, %s. Plan %s, %s", c.plan.Stands.ID(int(f.row.Seats[f.seat])), c.plan.Cards[f.card].ID,
		string(c.brief.Code), j.Where(sheet, 0))
}

// tiledFile prints large cards in full colour: front and back of every piece.
func (c *printedCards) tiledFile(what string, cards []cardSheet, w io.Writer) error {
	t := c.tiles
	d := newDocument(c.brief, what, t.Piece.Sheet)
	for _, j := range t.Jobs(len(cards)) {
		c.startJob(d, &j, what, cards)
		for sheet := range j.Sheets {
			f, n := cards[j.First+sheet/t.Count()], sheet%t.Count()
			f.side = 0
			// Who looks at the front has the columns the other way round.
			c.tile(d, d.AddPage(), &f, n-n%t.Columns+t.Columns-1-n%t.Columns)
			f.side = 1
			d.BackPage(c.plan.Stunt.Print.ShortEdge, func(p *paper.Pen) {
				c.tile(d, p, &f, n)
				p.Ink(black)
				p.TileNote(t, n, c.tileWords(&f, &j, sheet))
				p.TileMarks(t, n, c.reach, c.ink(&f))
			})
		}
	}
	return d.Write(w)
}

// tile floods one side of a piece, over its edge a little, and prints the label where it belongs.
func (c *printedCards) tile(d *paper.Document, p *paper.Pen, f *cardSheet, n int) {
	t := c.tiles
	g := &t.Piece
	p.Fill(c.flood(f))
	p.Filled(g.Left-bleed, g.Top-bleed, g.Width+2*bleed, g.Height+2*bleed)
	if bearsLabel(t, n, c.designOf(f) == c.foot) {
		x, y := t.Card(n)
		c.label(d, x, y, t.CardHeight, f)
	}
}
