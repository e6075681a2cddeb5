package legibility

import (
	"math"
	"unicode"
)

// Line is the letters of one line where they stand in a canvas, and what may still go
// wrong with the picture that shows them.
type Line struct {
	Runes  []rune
	Boxes  [][4]float64 // left, top, right, bottom in canvas pixels; a zero box is out of sight
	Of     int          // lines that the text has; 0 counts as 1
	Coming Coming
}

// Coming is what the picture does not show yet: with everything of it still to come, a
// letter's chance is the mean over all that may happen.
type Coming struct {
	Hand         float64 // 1: cards will be as far off as hands hold them; 0: the picture shows it
	Empty, Wrong float64 // shares of seats
}

// What the line reader looks at: the letter's window, a coarser strip on each side with
// its neighbours, and numbers about the line.
const (
	sideX  = 6
	sideY  = 8
	sideN  = sideX * sideY
	traitN = 18
	wideN  = gridN + 2*sideN + traitN
)

// wide is what the line reader looks at for letter i. The samples are scaled to mean 0
// and variance 1 over the letter's own window.
func (p *Patch) wide(l *Line, i int) (in [wideN]float32) {
	b := l.Boxes[i]
	high := max(b[3]-b[1], 1)
	win, inv := p.window(b[0], b[1], b[2], b[3])
	k := float32(inv * math.Sqrt(gridN))
	for n, v := range win {
		in[n] = v * k
	}
	mean := p.mean
	step := high / sideX
	up := high * (1 + 2*marginY) / sideY
	var xs [sideX]float64
	var ys [sideY]float64
	for y := range ys {
		ys[y] = b[1] - float64(marginY*high) + float64((float64(y)+0.5)*up)
	}
	for side := range 2 {
		for x := range xs {
			d := float64(marginX*high) + float64((float64(x)+0.5)*step)
			xs[x] = b[0] - d
			if side == 1 {
				xs[x] = b[2] + d
			}
		}
		out := in[gridN+side*sideN:][:sideN]
		p.sample(xs[:], ys[:], out)
		for n := range out {
			out[n] = (out[n] - mean) * k
		}
	}
	p.traits(l, i, high, inv, (*[traitN]float32)(in[gridN+2*sideN:]))
	return in
}

// farthest is the gap, in heights, from which a neighbour is none.
const farthest = 1.5

func (p *Patch) traits(l *Line, i int, high, inv float64, t *[traitN]float32) {
	b := l.Boxes[i]
	beside := func(k int) (gap, width, figure float64) {
		if k < 0 || k >= len(l.Boxes) || l.Boxes[k] == ([4]float64{}) {
			return farthest, 0, 0.5
		}
		o := l.Boxes[k]
		gap = max(o[0]-b[2], b[0]-o[2]) / high
		if unicode.IsDigit(l.Runes[k]) {
			figure = 1
		}
		return min(max(gap, 0), farthest), min((o[2]-o[0])/high, farthest), figure
	}
	figures := 0.0
	for k, r := range l.Runes {
		if k != i && unicode.IsDigit(r) {
			figures++
		}
	}
	others := float64(max(len(l.Runes)-1, 1))
	gl, wl, fl := beside(i - 1)
	gr, wr, fr := beside(i + 1)
	c := p.c
	for k, v := range [traitN]float64{
		(b[2] - b[0]) / high, 10 * c.Blur / high, gl, gr, wl, wr,
		min(float64(len(l.Runes)), 12) / 6, figures / others, fl, fr,
		high * float64(max(l.Of, 1)) / float64(c.H), 5 * c.Pitch / high, 5 * c.card[1] / high, 5 * c.card[0] / high,
		l.Coming.Hand, 10 * l.Coming.Empty, 50 * l.Coming.Wrong, 1 / max(inv*10, 0.2),
	} {
		t[k] = float32(v)
	}
}
