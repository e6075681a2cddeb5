package paper

import (
	"github.com/jung-kurt/gofpdf"

	"everyseat/mosaic/colour"
)

// Black is the ink of everything that must survive a copier.
var (
	Black = colour.RGB{0, 0, 0}
	White = colour.RGB{255, 255, 255}
	Grey  = colour.RGB{110, 110, 110}
)

const family = "noto"

var styles = [...]string{Regular: "", Bold: "B"}

// Pen draws on a page or on a stamp.
type Pen struct {
	pdf    *gofpdf.Fpdf
	weight Weight
	size   float64
}

// Text puts s with its baseline at y, from x to the right.
func (p *Pen) Text(x, y, size float64, w Weight, s string) {
	if s == "" {
		return
	}
	if p.size != size || p.weight != w {
		p.pdf.SetFont(family, styles[w], size)
		p.size, p.weight = size, w
	}
	p.pdf.Text(x, y, Composed(s))
}

// TextRight ends at x.
func (p *Pen) TextRight(x, y, size float64, w Weight, s string) {
	p.Text(x-w.Width(size, s), y, size, w, s)
}

// TextMiddle has its middle at x.
func (p *Pen) TextMiddle(x, y, size float64, w Weight, s string) {
	p.Text(x-float64(w.Width(size, s)/2), y, size, w, s)
}

// TextLines puts lines below each other, the first one a line's height below y, and gives the last one's baseline.
func (p *Pen) TextLines(x, y, size float64, w Weight, lines []string) float64 {
	for _, line := range lines {
		y += LineHeight(size)
		p.Text(x, y, size, w, line)
	}
	return y
}

// Ink is the colour of text from now on.
func (p *Pen) Ink(c colour.RGB) { p.pdf.SetTextColor(int(c[0]), int(c[1]), int(c[2])) }

// Fill is the colour of areas from now on.
func (p *Pen) Fill(c colour.RGB) { p.pdf.SetFillColor(int(c[0]), int(c[1]), int(c[2])) }

// Stroke is the colour and the width of lines from now on, StrokeColour and StrokeWidth one of them.
func (p *Pen) Stroke(c colour.RGB, width float64) {
	p.StrokeColour(c)
	p.StrokeWidth(width)
}
func (p *Pen) StrokeColour(c colour.RGB) { p.pdf.SetDrawColor(int(c[0]), int(c[1]), int(c[2])) }
func (p *Pen) StrokeWidth(width float64) { p.pdf.SetLineWidth(width) }

// Dashed lines have dashes and gaps so long, until Solid.
func (p *Pen) Dashed(dash, gap float64) { p.pdf.SetDashPattern([]float64{dash, gap}, 0) }
func (p *Pen) Solid()                   { p.pdf.SetDashPattern(nil, 0) }

// How a circle or a polygon is drawn.
const (
	Outline = "D"
	Area    = "F"
	Both    = "FD"
)

// Line goes from one point to another.
func (p *Pen) Line(x1, y1, x2, y2 float64) { p.pdf.Line(x1, y1, x2, y2) }

// Box is the outline of a rectangle, Filled the whole of it.
func (p *Pen) Box(x, y, w, h float64)    { p.pdf.Rect(x, y, w, h, Outline) }
func (p *Pen) Filled(x, y, w, h float64) { p.pdf.Rect(x, y, w, h, Area) }

// Circle is drawn in a style: Outline, Area or Both.
func (p *Pen) Circle(x, y, radius float64, style string) { p.pdf.Circle(x, y, radius, style) }

// Polygon joins points (x, y) in a style, the last one with the first.
func (p *Pen) Polygon(style string, points ...[2]float64) {
	list := make([]gofpdf.PointType, len(points))
	for i, q := range points {
		list[i] = gofpdf.PointType{X: q[0], Y: q[1]}
	}
	p.pdf.Polygon(list, style)
}

// Cross draws both diagonals of a rectangle.
func (p *Pen) Cross(x, y, w, h float64) {
	p.Line(x, y, x+w, y+h)
	p.Line(x, y+h, x+w, y)
}

// Inside limits what draw does to the rectangle.
func (p *Pen) Inside(x, y, w, h float64, draw func()) {
	p.pdf.ClipRect(x, y, w, h, false)
	draw()
	p.pdf.ClipEnd()
}

// Hatched fills the rectangle with lines that rise to the right, step apart.
func (p *Pen) Hatched(x, y, w, h, step float64) {
	p.Inside(x, y, w, h, func() { p.slanted(x, y+h, y, w, h, step) })
}

// Cuts makes the lines that draw draws those along which paper is cut: grey and dashed.
func (p *Pen) Cuts(draw func()) {
	p.Stroke(Grey, 0.15)
	p.Dashed(2, 1.5)
	draw()
	p.Solid()
}
