package mosaic

import (
	"strings"

	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// PaperSize is a sheet of paper, upright.
type PaperSize struct {
	Name          string
	Width, Height seating.Length
}

// PaperSizes are the sizes a printer is asked for: ISO 216 A3 to A5, and the customary inch sizes (Letter is
// ANSI A, Tabloid ANSI B).
var PaperSizes = []PaperSize{
	{"Letter", 17 * seating.Inch / 2, 11 * seating.Inch},
	{"Legal", 17 * seating.Inch / 2, 14 * seating.Inch},
	{"Tabloid", 11 * seating.Inch, 17 * seating.Inch},
	{"A4", 210 * seating.Millimetre, 297 * seating.Millimetre},
	{"A3", 297 * seating.Millimetre, 420 * seating.Millimetre},
	{"A5", 148 * seating.Millimetre, 210 * seating.Millimetre},
}

// UsualMargin is what a printer leaves white where nobody measured it (common practice, no source).
const UsualMargin = 5 * seating.Millimetre

// A card that is larger than the paper is put together of pieces, a sheet each.
const (
	TileRim   = 4 * seating.Millimetre  // between the printer's reach and a piece, for the marks
	TileLap   = 15 * seating.Millimetre // by which neighbouring pieces overlap at least
	tileSlack = seating.Millimetre / 20 // within which two edges are one
)

// Tiles is how a card is put together: pieces side by side and one below the other, on paper that stands
// upright or lies on its side; no columns where it cannot be.
type Tiles struct {
	Columns, Rows int
	Flat          bool
}

// Count is how many sheets one card, or one side of it, takes.
func (t Tiles) Count() int { return t.Columns * t.Rows }

// TilesOf lays a card over sheets of paper, upright or on its side, whichever takes fewer.
func TilesOf(width, height seating.Length, paper PaperSize, margin seating.Length) Tiles {
	var best Tiles
	for _, flat := range [2]bool{false, true} {
		w, h := paper.Width, paper.Height
		if flat {
			w, h = h, w
		}
		inset := 2 * (margin + TileRim)
		t := Tiles{tilePieces(width, w-inset), tilePieces(height, h-inset), flat}
		if t.Count() > 0 && (best.Count() == 0 || t.Count() < best.Count()) {
			best = t
		}
	}
	return best
}

// tilePieces shares a length out among pieces of at most room.
func tilePieces(length, room seating.Length) int {
	const longest = 1000 * seating.Metre
	switch {
	case length <= room+tileSlack:
		return 1
	case room <= 2*TileLap || length > longest:
		return 0
	}
	return int((length - TileLap + room - TileLap - 1) / (room - TileLap))
}

// fits says whether a card lies on the paper, either way.
func (s PaperSize) fits(width, height seating.Length) bool {
	on := func(w, h seating.Length) bool { return width <= w+tileSlack && height <= h+tileSlack }
	return on(s.Width, s.Height) || on(s.Height, s.Width)
}

// SheetsPerCard is how many sheets of its stock a card takes, or a side of a bonded one: more than one where cards
// that are printed are larger than the paper.
func (p *Plan) SheetsPerCard() int {
	print := &p.Stunt.Print
	if !print.Tile || print.Placards != OnStock && print.Placards != FullColoured {
		return 1
	}
	width, height := p.cardSize()
	for _, size := range PaperSizes {
		if strings.EqualFold(size.Name, print.Paper) && size.fits(width, height) {
			return 1
		}
	}
	return max(1, p.TilesOn(print.Paper).Count())
}

// TilesOn lays the card as it is held over sheets of paper of this name.
func (p *Plan) TilesOn(paper string) Tiles {
	margin := p.Stunt.Print.Margin
	if margin == 0 {
		margin = UsualMargin
	}
	width, height := p.cardSize()
	for _, size := range PaperSizes {
		if strings.EqualFold(size.Name, paper) {
			return TilesOf(width, height, size, margin)
		}
	}
	return Tiles{}
}

// cardSize is the card as it is held.
func (p *Plan) cardSize() (width, height seating.Length) {
	if p.Scene != nil {
		return p.Scene.Card.Width, p.Scene.Card.Height
	}
	return p.Stunt.Card.Width, p.Stunt.Card.Height
}

// making is what making the cards costs, and how many sheets each takes.
func (p *Plan) making() stock.Work {
	w := p.Stunt.Work.of()
	w.SheetsPerCard = p.SheetsPerCard()
	return w
}

// cardsIn is how many cards, or sides of cards, a colour's stock makes; −1 where it is not limited.
func (p *Plan) cardsIn(c *Colour) int {
	if c.Sheets < 0 {
		return c.Sheets
	}
	return c.Sheets / p.SheetsPerCard()
}
