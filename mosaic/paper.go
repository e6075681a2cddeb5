package mosaic

import (
	"cmp"
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
	{"A3", 297 * seating.Millimetre, 420 * seating.Millimetre},
	{"A4", 210 * seating.Millimetre, 297 * seating.Millimetre},
	{"A5", 148 * seating.Millimetre, 210 * seating.Millimetre},
}

// LookUpPaper finds a size by its name, large or small letters alike; "" is Letter. The error is a *seating.Fault.
func LookUpPaper(name string) (PaperSize, error) {
	for _, s := range PaperSizes {
		if name == "" || strings.EqualFold(s.Name, name) {
			return s, nil
		}
	}
	names := mapped(PaperSizes, func(s PaperSize) string { return s.Name })
	return PaperSize{}, &seating.Fault{
		Key:  "print.paper",
		What: "paper \"" + name + "\" is not known",
		Hint: "one of " + strings.Join(names, ", "),
	}
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

// SheetsPerCard is how many sheets of its stock a card takes, or a side of a bonded one: more than one where cards
// that are printed are larger than the paper.
func (p *Plan) SheetsPerCard() int {
	print := &p.Stunt.Print
	if !print.Tile || print.Placards != OnStock && print.Placards != FullColoured {
		return 1
	}
	width, height := p.CardSize()
	if size, err := LookUpPaper(print.Paper); err == nil && size.Holds(width, height) > 0 {
		return 1
	}
	return max(1, p.TilesOn(print.Paper).Count())
}

// TilesOn lays the card as it is held over sheets of paper of this name.
func (p *Plan) TilesOn(paper string) Tiles {
	size, err := LookUpPaper(paper)
	if err != nil {
		return Tiles{}
	}
	width, height := p.CardSize()
	return TilesOf(width, height, size, cmp.Or(p.Stunt.Print.Margin, UsualMargin))
}

// CardSize is the card as it is held.
func (p *Plan) CardSize() (width, height seating.Length) {
	if p.Scene != nil {
		return p.Scene.Card.Width, p.Scene.Card.Height
	}
	return p.Stunt.Card.Width, p.Stunt.Card.Height
}

// making is what making the cards costs, and how many sheets each takes.
func (p *Plan) making() stock.Work {
	w := p.Stunt.Work.Filled()
	w.SheetsPerCard = p.SheetsPerCard()
	return w
}

// cardsIn is how many cards, or sides of cards, a colour's stock makes, or stock.Unlimited.
func (p *Plan) cardsIn(c *Colour) int {
	if !c.Limited() {
		return stock.Unlimited
	}
	return c.Sheets / p.SheetsPerCard()
}

// Holds is how many pieces of a size a sheet holds, upright or on its side.
func (s PaperSize) Holds(width, height seating.Length) int {
	on := func(w, h seating.Length) int { return int((w+tileSlack)/width) * int((h+tileSlack)/height) }
	return max(on(s.Width, s.Height), on(s.Height, s.Width))
}

// What stays free of labels on a sheet of plain paper: what a copier leaves white, and the footer.
const (
	LabelEdge   = 7 * seating.Millimetre
	LabelFooter = 12 * seating.Millimetre
)

// lowestLabel is the height under which labels on plain paper are cut in two columns instead.
const lowestLabel = 29 * seating.Millimetre

// LabelCut is how labels are cut out of a sheet of plain paper: they touch each other.
type LabelCut struct {
	Columns, Rows int
	Width, Height seating.Length
}

// CutLabels cuts n labels out of a sheet for cards of this size (0: any): in two columns where in one they would be
// too low or larger than the card; fits is false where they are larger in either.
func CutLabels(paper PaperSize, n int, width, height seating.Length) (cut LabelCut, fits bool) {
	even := func(columns, rows int) LabelCut {
		wide, high := paper.Width-2*LabelEdge, paper.Height-LabelEdge-LabelFooter
		return LabelCut{columns, rows, wide / seating.Length(columns), high / seating.Length(rows)}
	}
	one, two := even(1, n), even(2, (n+1)/2)
	if one.Height < lowestLabel {
		one = two
	}
	for _, cut := range [2]LabelCut{one, two} {
		if width == 0 || height == 0 || cut.Width <= width+tileSlack && cut.Height <= height+tileSlack {
			return cut, true
		}
	}
	return one, false
}

// LabelSize is the size of the label that is stuck on a card; 0 where no size is known.
func (p *Plan) LabelSize() (width, height seating.Length) {
	if g := p.Stunt.Print.Grid; g != nil {
		return g.Width, g.Height
	}
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return 0, 0
	}
	cut, _ := CutLabels(paper, max(p.Stunt.Print.PerSheet, 1), p.Scene.Card.Width, p.Scene.Card.Height)
	return cut.Width, cut.Height
}

// labelSeen is the share that a white label covers of what the cameras see of a seat's card at the cue, on side A of
// a card of two colours: of cards of one colour the labels are on backs. The label is low down, and the rows in front
// hide a card from its lower edge up.
func (p *Plan) labelSeen(hands [][]Hold, cue int, s int32) float32 {
	if cue >= len(hands) {
		return 0
	}
	h := hands[cue][s]
	if h.Card < 0 || h.Side != 0 {
		return 0
	}
	sides := p.Cards[h.Card].Sides
	if sides[0] == sides[1] || !p.sticksOn(hands, h.Card, s) {
		return 0
	}
	seen := 0.0
	for k := range p.Marks {
		seen = max(seen, float64(p.Marks[k].Sight.Seen[s]))
	}
	if seen == 0 {
		return 0
	}
	card := p.Scene.Card
	width, height := p.LabelSize()
	across, up := width.Metres()/card.Width.Metres(), height.Metres()/card.Height.Metres()
	return float32(min(across*max(up-(1-seen), 0)/seen, 1))
}

// sticksOn says whether a label is stuck on a seat's card: labels for all go on the first card that a seat shows, and
// where cards are printed on, only those get one on which black cannot be read.
func (p *Plan) sticksOn(hands [][]Hold, card int16, s int32) bool {
	switch p.Stunt.Print.Placards {
	case Labels:
		for _, cue := range hands {
			if first := cue[s].Card; first >= 0 {
				return first == card
			}
		}
	case OnStock:
		return p.Stunt.WhiteLabel(int(p.Cards[card].Sides[0]))
	}
	return false
}

// LabelSeen is the share, 0…1, that a white label covers of what the cameras see of a seat's card at the cue.
func (p *Plan) LabelSeen(cue int, s int32) float64 { return float64(p.labelSeen(p.Hands, cue, s)) }
