package mosaic

import (
	"strings"

	"everyseat/seating"
)

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
	one, two := evenCut(paper, 1, n), evenCut(paper, 2, (n+1)/2)
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

func evenCut(paper PaperSize, columns, rows int) LabelCut {
	return LabelCut{columns, rows, (paper.Width - 2*LabelEdge) / seating.Length(columns), (paper.Height - LabelEdge - LabelFooter) / seating.Length(rows)}
}

// LabelSize is the size of the label that is stuck on a card; 0 where no size is known.
func (p *Plan) LabelSize() (width, height seating.Length) {
	if g := p.Stunt.Print.Grid; g != nil {
		return g.Width, g.Height
	}
	for _, paper := range PaperSizes {
		if strings.EqualFold(paper.Name, p.Stunt.Print.Paper) {
			cut, _ := CutLabels(paper, max(p.Stunt.Print.PerSheet, 1), p.Scene.Card.Width, p.Scene.Card.Height)
			return cut.Width, cut.Height
		}
	}
	return 0, 0
}
