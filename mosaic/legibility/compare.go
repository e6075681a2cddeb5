package legibility

import (
	"math"
	"unicode"
)

// Likeness is how a letter compares with what it may be taken for.
type Likeness struct {
	Shape  float64 // correlation with the letter as printed, −1…1
	Chance float64 // that it is read right, 0…1
	Other  float64 // chance of the likeliest other reading
	Rival  rune    // which is that; 0 = no letter at all
}

// Margin is how much likelier the right reading is than the likeliest other.
func (l Likeness) Margin() float64 { return l.Chance - l.Other }

// Line is the letters of one line where they stand in a canvas, and what may still go
// wrong with the picture that shows them.
type Line struct {
	Runes  []rune
	Boxes  [][4]float64 // left, top, right, bottom in canvas pixels; a zero box is out of sight
	Of     int          // lines that the text has; 0 counts as 1
	Coming Coming
	Crowd  Crowd
}

// Coming is what the picture does not show yet: with everything of it still to come, a
// letter's chance is the mean over all that may happen.
type Coming struct {
	Hand         float64 // how far cards will be off, in shares of a card; 0: the picture shows it
	Empty, Wrong float64 // shares of seats
}

// Compare holds the predicted picture of a letter against its rivals. The box is the
// letter's, from its left to its right edge and from the top of a capital to the
// baseline, in canvas pixels. Letters and figures are judged by the learned reader,
// other signs by their likeness to the printed signs.
func (p *Patch) Compare(r rune, box [4]float64) Likeness {
	in := p.input(box)
	win := (*[gridN]float32)(in[:gridN])
	l, known := foretell(smallReader(), in[:], r)
	sh := p.sheet(r, box, !known)
	if len(sh.rune) == 0 {
		return l
	}
	l.Shape = sh.shape(0, win)
	if known {
		return l
	}
	total, best := 1.0, math.Inf(-1)
	for i := 1; i < len(sh.rune); i++ {
		v := sh.shape(i, win)
		total += math.Exp((v - l.Shape) / sharp)
		if v > best {
			best, l.Rival = v, sh.rune[i]
		}
	}
	l.Chance, l.Other = 1/total, math.Exp((best-l.Shape)/sharp)/total
	return l
}

// CompareIn is Compare for letter i of a line, read among its neighbours: what counts in
// the end.
func (p *Patch) CompareIn(l *Line, i int) Likeness {
	r, b := l.Runes[i], l.Boxes[i]
	if b == ([4]float64{}) {
		return Likeness{Other: 1}
	}
	if labelOf(r) < 0 {
		return p.Compare(r, b)
	}
	in := p.wide(l, i)
	out, _ := foretell(lineReader(), in[:], r)
	out.Shape = p.sheet(r, b, false).shape(0, (*[gridN]float32)(in[:gridN]))
	return out
}

// A letter is compared on a grid of gridX × gridY samples: its box and, around
// it, marginX and marginY of its height.
const (
	gridX   = 18
	gridY   = 16
	gridN   = gridX * gridY
	marginX = 0.20
	marginY = 0.14
)

// window samples the picture in and around a letter's box, less its mean, and gives the mean and one
// over its length.
func (p *Patch) window(b [4]float64) (win [gridN]float32, mean float32, inv float64) {
	x0, y0, x1 := b[0], b[1], b[2]
	high := max(b[3]-y0, 1)
	stepX, stepY := (x1-x0+float64(2*marginX*high))/gridX, high*(1+2*marginY)/gridY
	var xs [gridX]float64
	var ys [gridY]float64
	for i := range xs {
		xs[i] = x0 - float64(marginX*high) + float64((float64(i)+0.5)*stepX)
	}
	for j := range ys {
		ys[j] = y0 - float64(marginY*high) + float64((float64(j)+0.5)*stepY)
	}
	p.sample(xs[:], ys[:], win[:])
	var sum float32
	for _, v := range win {
		sum += v
	}
	mean = sum / gridN
	var norm float32
	for i, v := range win {
		win[i] = v - mean
		norm += float32(win[i] * win[i])
	}
	return win, mean, 1 / max(math.Sqrt(float64(norm)), 1e-6)
}

// inputN is what the small reader looks at: the window and the letter's proportions.
const inputN = gridN + 2

// input is the window scaled to mean 0 and variance 1, then the box's width over
// height and the blur over height.
func (p *Patch) input(b [4]float64) (in [inputN]float32) {
	win, _, inv := p.window(b)
	k := float32(inv * math.Sqrt(gridN))
	for i, v := range win {
		in[i] = v * k
	}
	high := max(b[3]-b[1], 1)
	in[gridN] = float32((b[2] - b[0]) / high)
	in[gridN+1] = float32(10 * p.c.Blur / high)
	return in
}

// What the line reader looks at: the letter's window, a coarser strip on each side with
// its neighbours, and numbers about the line.
const (
	sideX  = 6
	sideY  = 8
	sideN  = sideX * sideY
	traitN = 22
	wideN  = gridN + 2*sideN + traitN
)

// wide is what the line reader looks at for letter i. The samples are scaled to mean 0
// and variance 1 over the letter's own window.
func (p *Patch) wide(l *Line, i int) (in [wideN]float32) {
	b := l.Boxes[i]
	high := max(b[3]-b[1], 1)
	win, mean, inv := p.window(b)
	k := float32(inv * math.Sqrt(gridN))
	for n, v := range win {
		in[n] = v * k
	}
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
		4 * l.Coming.Hand, 10 * l.Coming.Empty, 50 * l.Coming.Wrong, 1 / max(inv*10, 0.2),
		2 * c.cover, l.Crowd.Mean, 4 * l.Crowd.Spread, 3 * l.Crowd.Spread * (1 - c.cover) / max(c.cover, 0.1),
	} {
		t[k] = float32(v)
	}
}

// SampleN is the length of each of Samples.
const SampleN = wideN

// Samples are what the line reader looks at in each letter of a single line, in the
// picture under a mishap (nil: none), with this still to come.
func Samples(views []*Field, mark int, ink []bool, text []Glyph, o Options, m *Mishap, coming Coming) [][]float32 {
	j := newJudge(views, mark, ink, text, o)
	j.patch.Show(j.canvas, j.ink, j.o.Tints, m)
	l := Line{Boxes: j.boxes, Coming: coming, Crowd: o.Crowd}
	for _, g := range text {
		l.Runes = append(l.Runes, g.Rune)
	}
	out := make([][]float32, len(text))
	for i := range text {
		in := j.patch.wide(&l, i)
		out[i] = in[:]
	}
	return out
}
