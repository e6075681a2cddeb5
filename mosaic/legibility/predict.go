package legibility

import (
	"image"
	"image/color"
	"math"
)

// Predict is what Judge looks at in one of its tries: the coarse picture, ink white,
// and for each letter the samples in and around its box, as the learned reader gets
// them. A try below 0 has nothing missing, wrong or uneven.
func Predict(views []*Field, mark int, ink []bool, text []Glyph, o Options, try int) (*image.Gray, [][]float32) {
	j := newJudge(views, mark, ink, text, o)
	var m *Mishap
	if try >= 0 {
		m = Strikes(j.field, o, try+1)[try]
	}
	j.patch.Show(j.canvas, j.ink, m)
	const high = 50
	f := high / float64(j.canvas.H)
	img := image.NewGray(image.Rect(0, 0, int(float64(j.canvas.W)*f), high))
	for y := range high {
		for x := range img.Rect.Dx() {
			v := j.patch.at((float64(x)+0.5)/f, (float64(y)+0.5)/f)
			img.SetGray(x, y, color.Gray{Y: uint8(math.Round(255 * float64(min(max(v, 0), 1))))})
		}
	}
	var windows [][]float32
	for _, b := range j.boxes {
		in := j.patch.input(b)
		windows = append(windows, in[:])
	}
	return img, windows
}

// inputN is what the learned reader looks at: the window and the letter's proportions.
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
