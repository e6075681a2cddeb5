package legibility

import "math"

// Happens is what a mishap does to a seat: nobody there, the wrong card, and how far the
// card is off in its own widths and heights.
func (m *Mishap) Happens(seat int) (empty, wrong bool, off [2]float32) {
	if m.off != nil {
		off = m.off[seat]
	}
	return m.empty[seat], m.wrong[seat], off
}

// Samples are what the line reader looks at in each letter of a single line, in the
// picture under a mishap (nil: none), with this still to come.
func Samples(views []*Field, mark int, ink []bool, text []Glyph, o Options, m *Mishap, coming Coming) [][]float32 {
	j := newJudge(views, mark, ink, text, o)
	j.patch.Show(j.canvas, j.ink, j.o.Tints, m)
	l := Line{Boxes: j.boxes, Coming: coming}
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

// inputN is what the small reader looks at: the window and the letter's proportions.
const inputN = gridN + 2

// input is the window scaled to mean 0 and variance 1, then the box's width over
// height and the blur over height.
func (p *Patch) input(b [4]float64) (in [inputN]float32) {
	win, inv := p.window(b[0], b[1], b[2], b[3])
	k := float32(inv * math.Sqrt(gridN))
	for i, v := range win {
		in[i] = v * k
	}
	high := max(b[3]-b[1], 1)
	in[gridN] = float32((b[2] - b[0]) / high)
	in[gridN+1] = float32(10 * p.c.Blur / high)
	return in
}

// SampleN is the length of each of Samples.
const SampleN = wideN
