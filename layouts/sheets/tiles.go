package sheets

import (
	"fmt"
	"io"
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
)

const (
	lapTick   = 4.0
	mostTiles = 24 // sheets of one card
)

// tiling puts a card together of pieces, a sheet each. Every piece is cut along its marks and glued on the
// one before. Columns and rows are counted as one sees the side that is printed. Millimetres.
type tiling struct {
	sheetWidth, sheetHeight float64
	cardWidth, cardHeight   float64
	columns, rows           int
	piece                   sheetGrid // the one piece on its sheet, in the middle
	stepX, stepY            float64   // from one piece to the next; 0 where there is one
	held                    string    // the card's size in words
}

// newTiling takes the paper upright or on its side, whichever needs fewer sheets. The error is a *seating.Fault.
func newTiling(p *mosaic.Plan, paper Paper) (*tiling, error) {
	width, height := heldSize(p)
	counts := p.TilesOn(paper.Name)
	if n := counts.Count(); n == 0 || counts.Columns > mostTiles || counts.Rows > mostTiles || n > mostTiles {
		return nil, &seating.Fault{Key: "card.size", What: fmt.Sprintf("a card of %s × %s takes more than %d sheets of %s paper", width, height, mostTiles, paper.Name),
			Hint: "larger paper, or smaller cards"}
	}
	side := [2]float64{paper.Width, paper.Height}
	if counts.Flat {
		side[0], side[1] = side[1], side[0]
	}
	inset := printMargin(p) + millimetres(mosaic.TileRim)
	t := &tiling{sheetWidth: side[0], sheetHeight: side[1], cardWidth: millimetres(width), cardHeight: millimetres(height),
		columns: counts.Columns, rows: counts.Rows, held: fmt.Sprintf("%s × %s", width, height)}
	g := &t.piece
	*g = sheetGrid{sheetWidth: side[0], sheetHeight: side[1], columns: 1, rows: 1}
	t.stepX, g.width = pieceStep(t.cardWidth, side[0]-2*inset, t.columns)
	t.stepY, g.height = pieceStep(t.cardHeight, side[1]-2*inset, t.rows)
	g.left, g.top = (side[0]-g.width)/2, (side[1]-g.height)/2
	return t, nil
}

// pieceStep is how far n pieces that share a length lie apart, and how long each is.
func pieceStep(length, room float64, n int) (step, size float64) {
	if n == 1 {
		return 0, length
	}
	return (length - room) / float64(n-1), room
}

func (t *tiling) count() int { return t.columns * t.rows }

// labelRoom is what a label on the first piece of a row may take: no other piece lies on it.
func (t *tiling) labelRoom() (width, height float64) {
	width, height = t.cardWidth, t.cardHeight
	if t.columns > 1 {
		width = t.stepX
	}
	if t.rows > 1 {
		height = t.stepY
	}
	return width, height
}

// at is where the card's top left corner lies on the sheet of piece n.
func (t *tiling) at(n int) (x, y float64) {
	return t.piece.left - float64(n%t.columns)*t.stepX, t.piece.top - float64(n/t.columns)*t.stepY
}

// bears says whether piece n carries the label: the first one of the card, or with foot of its last row.
func (t *tiling) bears(n int, foot bool) bool {
	if foot {
		return n == (t.rows-1)*t.columns
	}
	return n == 0
}

// jobs shares cards out over jobs of at most jobSheets sheets; no card is torn apart.
func (t *tiling) jobs(cards int) []printJob {
	most := jobSheets / t.count()
	jobs := make([]printJob, (cards+most-1)/most)
	for i := range jobs {
		n := min(most, cards-i*most)
		jobs[i] = printJob{number: i + 1, of: len(jobs), first: i * most, count: n, sheets: n * t.count(), perSheet: 1}
	}
	return jobs
}

// marks draws where a piece is cut, and short lines up to which its neighbours are glued on.
func (t *tiling) marks(p *pen, n int, reach float64, ink colour.RGB) {
	g := &t.piece
	p.cutTicks(g, reach)
	p.lineColour(ink)
	column, row := n%t.columns, n/t.columns
	lap := g.width - t.stepX
	for _, v := range [...]struct {
		there bool
		x     float64
	}{{column > 0, g.left + lap}, {column < t.columns-1, g.left + t.stepX}} {
		if v.there {
			p.line(v.x, g.top, v.x, g.top+lapTick)
			p.line(v.x, g.bottom()-lapTick, v.x, g.bottom())
		}
	}
	lap = g.height - t.stepY
	for _, v := range [...]struct {
		there bool
		y     float64
	}{{row > 0, g.top + lap}, {row < t.rows-1, g.top + t.stepY}} {
		if v.there {
			p.line(g.left, v.y, g.left+lapTick, v.y)
			p.line(g.right()-lapTick, v.y, g.right(), v.y)
		}
	}
}

// note names a piece in its rim, which is cut off.
func (t *tiling) note(p *pen, n int, words string) {
	const size = 6.0
	g := &t.piece
	words = fmt.Sprintf("Piece %d of %d: column %d of %d, row %d of %d. %s", n+1, t.count(), n%t.columns+1, t.columns, n/t.columns+1, t.rows, words)
	p.text(g.left+2, g.bottom()+3.6, size, regular, shortenText(words, size, regular, g.width-4))
}

// steps say how a card is put together.
func (t *tiling) steps(p *mosaic.Plan) []string {
	return []string{
		fmt.Sprintf("Each card is %d sheets that follow each other: %d side by side, %d one below the other, as you look at the side with the marks. It becomes %s.",
			t.count(), t.columns, t.rows, t.held),
		"One card at a time: cut each sheet along the marks at its corners, and put it in its place at once.",
		"Glue piece 2 on piece 1 so that its cut edge meets the short lines of piece 1, and so on along the row; then row on row. " + t.labelWords(p),
		"Keep the cards in their order, with this page on top.",
	}
}

// labelWords say which piece the label is on: the check that none was turned or mixed up.
func (t *tiling) labelWords(p *mosaic.Plan) string {
	foot := (t.rows-1)*t.columns + 1
	plain := slices.ContainsFunc(p.Cards, func(c mosaic.Card) bool { return c.Sides[0] == c.Sides[1] })
	switch two := twoColoured(p); {
	case two && plain:
		return fmt.Sprintf("The label is on piece 1, of a card of two colours on piece %d, its lower left as you look at it.", foot)
	case two:
		return fmt.Sprintf("The label is on piece %d, its lower left as you look at it.", foot)
	}
	return "The label is on piece 1, its upper left as you look at it."
}

// tiledFile prints large cards of one colour: the marks are on the side with the label.
func (s *stockCards) tiledFile(colour int16, leaves []leaf, w io.Writer) error {
	t, name := s.tiles, s.colour(colour)
	d := newDocument("Placards on "+name, t.sheetWidth, t.sheetHeight)
	for _, j := range t.jobs(len(leaves)) {
		steps := stockSteps(&t.piece, &j, d.pdf.PageNo()+1, name)
		s.back.banner(d, &banner{
			job: j, what: "Placards on " + name, load: plural(j.sheets, "sheet") + " of " + name, colour: colour,
			steps: append(steps[:len(steps)-1], t.steps(s.plan)...), rows: rowCounts(s.plan, leaves[j.first:j.first+j.count]),
		})
		for sheet := range j.sheets {
			f, n := &leaves[j.first+sheet/t.count()], sheet%t.count()
			p := d.addPage()
			p.inkColour(black)
			t.marks(p, n, s.reach, black)
			t.note(p, n, s.tileWords(f, &j, sheet))
			if sides := s.plan.Cards[f.card].Sides; t.bears(n, sides[0] != sides[1]) {
				x, y := t.at(n)
				s.leaf(d, x, y, f)
			}
		}
	}
	return d.write(w)
}

// tileWords name the card of a piece, and the sheet.
func (c *printedCards) tileWords(f *leaf, j *printJob, sheet int) string {
	if f.spare {
		return fmt.Sprintf("%s. Plan %s, %s", c.spareName(f), c.plan.Code, j.where(sheet, 0))
	}
	return c.cardLabels.tileWords(f, j, sheet)
}

// tileWords name the card of a piece, and the sheet.
func (c *cardLabels) tileWords(f *leaf, j *printJob, sheet int) string {
	return fmt.Sprintf("Seat %s, %s. Plan %s, %s", c.plan.Stands.ID(int(f.row.seats[f.seat])), c.plan.Cards[f.card].ID, c.plan.Code, j.where(sheet, 0))
}

// tiledFile prints large cards in full colour: front and back of every piece.
func (c *printedCards) tiledFile(what string, leaves []leaf, w io.Writer) error {
	t := c.tiles
	d := newDocument(what, t.sheetWidth, t.sheetHeight)
	for _, j := range t.jobs(len(leaves)) {
		c.startJob(d, &j, what, leaves)
		for sheet := range j.sheets {
			f, n := leaves[j.first+sheet/t.count()], sheet%t.count()
			f.side = 0
			// Who looks at the front has the columns the other way round.
			c.tile(d, d.addPage(), &f, n-n%t.columns+t.columns-1-n%t.columns)
			f.side = 1
			d.backPage(c.plan.Stunt.Print.ShortEdge, func(p *pen) {
				c.tile(d, p, &f, n)
				p.inkColour(black)
				t.note(p, n, c.tileWords(&f, &j, sheet))
				t.marks(p, n, c.reach, c.ink(&f))
			})
		}
	}
	return d.write(w)
}

// tile floods one side of a piece, over its edge a little, and prints the label where it belongs.
func (c *printedCards) tile(d *document, p *pen, f *leaf, n int) {
	t := c.tiles
	g := &t.piece
	p.fillColour(c.flood(f))
	p.filled(g.left-bleed, g.top-bleed, g.width+2*bleed, g.height+2*bleed)
	if t.bears(n, c.designOf(f) == c.foot) {
		x, y := t.at(n)
		c.label(d, x, y, t.cardHeight, f)
	}
}
