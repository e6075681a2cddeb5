package paper

import (
	"cmp"
	"fmt"

	"everyseat/mosaic/colour"
)

// Tiling puts a card together of pieces, a sheet each. Every piece is cut along its marks and glued on the one before.
// Columns and rows are counted as one sees the side that is printed. Millimetres.
type Tiling struct {
	CardWidth, CardHeight float64
	Columns, Rows         int
	Piece                 Grid    // the one piece on its sheet, in the middle
	stepX, stepY          float64 // from one piece to the next; 0 where there is one
}

// NewTiling lays pieces that keep so far from the sheet's edges over a card.
func NewTiling(sheet Sheet, inset, cardWidth, cardHeight float64, columns, rows int) *Tiling {
	t := &Tiling{CardWidth: cardWidth, CardHeight: cardHeight, Columns: columns, Rows: rows}
	g := &t.Piece
	*g = Grid{Sheet: sheet, Columns: 1, Rows: 1}
	t.stepX, g.Width = pieceStep(cardWidth, sheet.Width-2*inset, columns)
	t.stepY, g.Height = pieceStep(cardHeight, sheet.Height-2*inset, rows)
	g.Left, g.Top = (sheet.Width-g.Width)/2, (sheet.Height-g.Height)/2
	return t
}

// pieceStep is how far n pieces that share a length lie apart, and how long each is.
func pieceStep(length, room float64, n int) (step, size float64) {
	if n == 1 {
		return 0, length
	}
	return (length - room) / float64(n-1), room
}

// Count is how many pieces a card has.
func (t *Tiling) Count() int { return t.Columns * t.Rows }

// Free is how much of the first piece of a row no other piece lies on.
func (t *Tiling) Free() (width, height float64) {
	return cmp.Or(t.stepX, t.CardWidth), cmp.Or(t.stepY, t.CardHeight)
}

// Card is where the card's top left corner lies on the sheet of piece n.
func (t *Tiling) Card(n int) (x, y float64) {
	return t.Piece.Left - float64(float64(n%t.Columns)*t.stepX), t.Piece.Top - float64(float64(n/t.Columns)*t.stepY)
}

// LastRow is the first piece of the card's last row.
func (t *Tiling) LastRow() int { return (t.Rows - 1) * t.Columns }

// Jobs shares cards out over jobs of at most JobSheets sheets; no card is torn apart.
func (t *Tiling) Jobs(cards int) []Job {
	return shareOut(cards, JobSheets/t.Count(), func(n int) Job {
		return Job{Count: n, Sheets: n * t.Count(), PerSheet: 1}
	})
}

// lapTick is how long the lines are up to which the next piece is glued on.
const lapTick = 4.0

// TileMarks draws where piece n is cut, and short lines up to which its neighbours are glued on; reach is what the
// printer leaves white.
func (p *Pen) TileMarks(t *Tiling, n int, reach float64, ink colour.RGB) {
	g := &t.Piece
	p.CutTicks(g, reach)
	p.StrokeColour(ink)
	for _, x := range laps(n%t.Columns, t.Columns, g.Left, g.Width, t.stepX) {
		p.Line(x, g.Top, x, g.Top+lapTick)
		p.Line(x, g.Bottom()-lapTick, x, g.Bottom())
	}
	for _, y := range laps(n/t.Columns, t.Rows, g.Top, g.Height, t.stepY) {
		p.Line(g.Left, y, g.Left+lapTick, y)
		p.Line(g.Right()-lapTick, y, g.Right(), y)
	}
}

// laps are where the pieces before and after the one at a place end and begin on it.
func laps(at, of int, from, size, step float64) (list []float64) {
	if at > 0 {
		list = append(list, from+(size-step))
	}
	if at < of-1 {
		list = append(list, from+step)
	}
	return list
}

// TileNote names piece n in its rim, which is cut off.
func (p *Pen) TileNote(t *Tiling, n int, words string) {
	const size = 6.0
	g := &t.Piece
	words = fmt.Sprintf("Piece %d of %d: column %d of %d, row %d of %d. %s",
		n+1, t.Count(), n%t.Columns+1, t.Columns, n/t.Columns+1, t.Rows, words)
	p.Text(g.Left+2, g.Bottom()+3.6, size, Regular, Regular.Shorten(words, size, g.Width-4))
}
