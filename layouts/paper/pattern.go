package paper

import "everyseat/mosaic/colour"

// patterns is how many there are; more colours share them and are told apart by letter alone.
const patterns = 10

// Readable is the one of black and white that stands out more from c.
func Readable(c colour.RGB) colour.RGB {
	if colour.Contrast(Black, c) >= colour.Contrast(White, c) {
		return Black
	}
	return White
}

// Swatch is a colour that can be told from every other one also after copying in black and white: by its pattern, and
// by its letter on a plate.
type Swatch struct {
	RGB     colour.RGB
	Pattern int // from 0, which is plain
	Letter  string
}

// Swatch draws a patch of a colour.
func (p *Pen) Swatch(x, y, w, h float64, s Swatch) { p.Swatches(x, y, w, h, 1, s) }

// Swatches are n of them side by side, each w wide.
func (p *Pen) Swatches(x, y, w, h float64, n int, s Swatch) {
	all := w * float64(n)
	p.Fill(s.RGB)
	p.Filled(x, y, all, h)
	if at := s.Pattern % patterns; at != 0 {
		p.Inside(x, y, all, h, func() { p.pattern(x, y, all, h, at, Readable(s.RGB)) })
	}
	side := 0.62 * min(w, h)
	size := Bold.SizeFor(s.Letter, side*0.8, side*PointsPerMM*0.95)
	p.Fill(White)
	p.Stroke(Black, 0.2)
	for i := range n {
		left := x + float64(float64(i)*w)
		p.pdf.Rect(left+(w-side)/2, y+(h-side)/2, side, side, Both)
		p.Box(left, y, w, h)
		p.TextMiddle(left+w/2, y+h/2+CapHeight(size)/2, size, Bold, s.Letter)
	}
}

// pattern rules the rectangle; its step follows the height, so that a small patch looks like a large one.
func (p *Pen) pattern(x, y, w, h float64, index int, c colour.RGB) {
	step := min(max(h/6, 0.9), 2.6)
	p.StrokeColour(c)
	p.Fill(c)
	p.StrokeWidth(step * 0.2)
	switch index {
	case 1:
		p.slanted(x, y+h, y, w, h, step*1.4)
	case 2:
		p.dots(x, y, w, h, step, Area)
	case 3:
		p.level(x, y, w, h, step)
	case 4:
		p.slanted(x, y+h, y, w, h, step*1.8)
		p.slanted(x, y, y+h, w, h, step*1.8)
	case 5:
		p.slanted(x, y, y+h, w, 0, step)
	case 6:
		p.dots(x, y, w, h, step*1.5, Outline)
	case 7:
		p.slanted(x, y, y+h, w, h, step*1.4)
	case 8:
		p.level(x, y, w, h, step*1.3)
		p.slanted(x, y, y+h, w, 0, step*1.3)
	case 9:
		p.StrokeWidth(step * 0.7)
		p.level(x, y, w, h, step*2)
	}
}

// level lines fill a rectangle.
func (p *Pen) level(x, y, w, h, step float64) {
	for v := step / 2; v < h; v += step {
		p.Line(x, y+v, x+w, y+v)
	}
}

// slanted lines go from one height to the other, and so far to the right on that way.
func (p *Pen) slanted(x, from, to, w, aside, step float64) {
	for u := step / 2; u < w+aside; u += step {
		p.Line(x+u-aside, from, x+u, to)
	}
}

// dots are small squares in staggered rows, in a style.
func (p *Pen) dots(x, y, w, h, step float64, style string) {
	side := step * 0.4
	for row, v := 0, step/2; v < h; row, v = row+1, v+step {
		for u := step/2 + float64(row%2)*step/2; u < w; u += step {
			p.pdf.Rect(x+u-side/2, y+v-side/2, side, side, style)
		}
	}
}

// UpArrow points to the top, drawn, since not every type has the sign.
func (p *Pen) UpArrow(x, y, w, h float64, ink colour.RGB) {
	p.Fill(ink)
	head, shaft := h*0.5, w*0.4
	p.Polygon(Area,
		[2]float64{x + w/2, y}, [2]float64{x + w, y + head},
		[2]float64{x + w/2 + shaft/2, y + head}, [2]float64{x + w/2 + shaft/2, y + h},
		[2]float64{x + w/2 - shaft/2, y + h}, [2]float64{x + w/2 - shaft/2, y + head},
		[2]float64{x, y + head})
}
