package sheets

import (
	"everyseat/mosaic/colour"
)

// patterns is how many there are; more colours share them and are told apart by letter alone.
const patterns = 10

// readable is the one of black and white that stands out more from c.
func readable(c colour.RGB) colour.RGB {
	if colour.Contrast(black, c) >= colour.Contrast(white, c) {
		return black
	}
	return white
}

// swatch is a patch of a colour that can be told from every other one also
// after copying in black and white: by its pattern, and by its letter on a plate.
func (p *pen) swatch(x, y, w, h float64, index int, c colour.RGB, letter string) {
	p.swatches(x, y, w, h, 1, index, c, letter)
}

// swatches are n of them side by side, each w wide.
func (p *pen) swatches(x, y, w, h float64, n, index int, c colour.RGB, letter string) {
	all := w * float64(n)
	p.fillColour(c)
	p.filled(x, y, all, h)
	if index%patterns != 0 {
		p.inside(x, y, all, h, func() { p.pattern(x, y, all, h, index%patterns, readable(c)) })
	}
	side := 0.62 * min(w, h)
	size := sizeFor(letter, bold, side*0.8, side*pointsPerMM*0.95)
	p.fillColour(white)
	p.lineColour(black)
	p.lineWidth(0.2)
	for i := range n {
		left := x + float64(i)*w
		p.plate(left+(w-side)/2, y+(h-side)/2, side)
		p.box(left, y, w, h)
		p.textMiddle(left+w/2, y+h/2+capMM(size)/2, size, bold, letter)
	}
}

// pattern rules the rectangle; its step follows the height, so that a small patch looks like a large one.
func (p *pen) pattern(x, y, w, h float64, index int, c colour.RGB) {
	step := min(max(h/6, 0.9), 2.6)
	p.lineColour(c)
	p.fillColour(c)
	p.lineWidth(step * 0.2)
	switch index {
	case 0: // plain
	case 1:
		p.diagonals(x, y, w, h, step*1.4, true)
	case 2:
		p.dots(x, y, w, h, step, false)
	case 3:
		p.horizontals(x, y, w, h, step)
	case 4:
		p.diagonals(x, y, w, h, step*1.8, true)
		p.diagonals(x, y, w, h, step*1.8, false)
	case 5:
		p.verticals(x, y, w, h, step)
	case 6:
		p.dots(x, y, w, h, step*1.5, true)
	case 7:
		p.diagonals(x, y, w, h, step*1.4, false)
	case 8:
		p.horizontals(x, y, w, h, step*1.3)
		p.verticals(x, y, w, h, step*1.3)
	case 9:
		p.lineWidth(step * 0.7)
		p.horizontals(x, y, w, h, step*2)
	}
}

func (p *pen) horizontals(x, y, w, h, step float64) {
	for v := step / 2; v < h; v += step {
		p.line(x, y+v, x+w, y+v)
	}
}

func (p *pen) verticals(x, y, w, h, step float64) {
	for u := step / 2; u < w; u += step {
		p.line(x+u, y, x+u, y+h)
	}
}

// diagonals rise to the right, or fall.
func (p *pen) diagonals(x, y, w, h, step float64, rise bool) {
	for u := step / 2; u < w+h; u += step {
		if rise {
			p.line(x+u-h, y+h, x+u, y)
		} else {
			p.line(x+u-h, y, x+u, y+h)
		}
	}
}

// dots are small squares, or with open their outlines, in staggered rows.
func (p *pen) dots(x, y, w, h, step float64, open bool) {
	side := step * 0.4
	for row, v := 0, step/2; v < h; row, v = row+1, v+step {
		for u := step/2 + float64(row%2)*step/2; u < w; u += step {
			if open {
				p.box(x+u-side/2, y+v-side/2, side, side)
			} else {
				p.filled(x+u-side/2, y+v-side/2, side, side)
			}
		}
	}
}

// upArrow points to the top, drawn, since not every type has the sign.
func (p *pen) upArrow(x, y, w, h float64, ink colour.RGB) {
	p.fillColour(ink)
	head := h * 0.5
	shaft := w * 0.4
	p.polygon("F",
		[2]float64{x + w/2, y}, [2]float64{x + w, y + head},
		[2]float64{x + w/2 + shaft/2, y + head}, [2]float64{x + w/2 + shaft/2, y + h},
		[2]float64{x + w/2 - shaft/2, y + h}, [2]float64{x + w/2 - shaft/2, y + head},
		[2]float64{x, y + head})
}
