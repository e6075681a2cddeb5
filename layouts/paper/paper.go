// Package paper is what printed sheets stand on: type and its measuring, for pictures too, a pen, files of pages with
// their footers, pages that fill from the top, and pieces that are cut out of a sheet. It knows no plan. Start with
// NewFlow for running text and tables, and with NewDocument for everything that is placed by hand.
//
// Lengths are millimetres from the top left corner of the page, type sizes are points. The same drawing gives the same
// bytes.
package paper

// Sheet is a sheet of paper as it lies, in millimetres.
type Sheet struct {
	Width, Height float64
	Edge          float64 // what stays white at every edge
	Foot          float64 // what only the footer uses, at the lower edge
}

// Pad is from a cut, or from what stays white, to the print, in millimetres.
const Pad = 3.5

// Turned is the sheet on its side.
func (s Sheet) Turned() Sheet {
	s.Width, s.Height = s.Height, s.Width
	return s
}

// Left is where running text begins, Right where it ends, Inner how wide it is.
func (s Sheet) Left() float64  { return s.Edge + Pad }
func (s Sheet) Right() float64 { return s.Width - s.Edge - Pad }
func (s Sheet) Inner() float64 { return s.Right() - s.Left() }

// Bottom is where a page's text ends, above the footer.
func (s Sheet) Bottom() float64 { return s.Height - s.Foot - 1 }
