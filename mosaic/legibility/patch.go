package legibility

import (
	"math"
)

// Patch is a strip of the predicted picture, columns X0 … X0+W, all rows.
type Patch struct {
	c      *Canvas
	X0, W  int
	pix    []float32
	weight []float32 // what pix is divided by
	own    []float32 // weights with people missing

	offTaps []float32 // of a card that is off its place
}

// Begin clears the patch and makes it cover x0 … x1.
func (p *Patch) Begin(c *Canvas, x0, x1 float64) {
	p.c = c
	p.X0 = min(max(int(math.Floor(x0))-1, 0), c.W-1)
	p.W = min(max(int(math.Ceil(x1))+1, p.X0+1), c.W) - p.X0
	n := p.W * c.H
	if cap(p.pix) < n {
		p.pix = make([]float32, n)
	}
	p.pix = p.pix[:n]
	clear(p.pix)
	p.weight = c.weight
}

// Ink shows a seat as ink; v is 1, or less for half shown.
func (p *Patch) Ink(seat int32, v float32) { p.c.add(p.pix, p.W, p.X0, seat, v) }

// at is the predicted picture at a place, 0 ground … 1 ink, interpolated.
func (p *Patch) at(x, y float64) float32 {
	x, y = x-0.5, y-0.5
	fx, fy := math.Floor(x), math.Floor(y)
	ix, iy := int(fx), int(fy)
	ax, ay := float32(x-fx), float32(y-fy)
	top := float32(p.px(ix, iy)*(1-ax)) + float32(p.px(ix+1, iy)*ax)
	low := float32(p.px(ix, iy+1)*(1-ax)) + float32(p.px(ix+1, iy+1)*ax)
	return float32(top*(1-ay)) + float32(low*ay)
}

func (p *Patch) px(x, y int) float32 {
	if x < p.X0 || x >= p.X0+p.W || y < 0 || y >= p.c.H {
		return 0
	}
	return p.pix[y*p.W+x-p.X0] / p.weight[y*p.c.W+x]
}

// sample is at for every x of every y, row after row; xs run one way, and there are at most gridX.
func (p *Patch) sample(xs, ys []float64, out []float32) {
	var column [gridX]int
	var part [gridX]float32
	for i, x := range xs {
		f := math.Floor(x - 0.5)
		column[i], part[i] = int(f), float32(x-0.5-f)
	}
	n := len(xs)
	across := min(column[0], column[n-1]) >= p.X0 && max(column[0], column[n-1])+1 < p.X0+p.W
	for j, y := range ys {
		row := out[j*n:][:n]
		f := math.Floor(y - 0.5)
		iy := int(f)
		if !across || iy < 0 || iy+1 >= p.c.H {
			for i, x := range xs {
				row[i] = p.at(x, y)
			}
			continue
		}
		ay := float32(y - 0.5 - f)
		pix, weight := p.pix[iy*p.W:][:2*p.W], p.weight[iy*p.c.W:][:2*p.c.W]
		for i := range row {
			x := column[i]
			k, ax := x-p.X0, part[i]
			top := float32(pix[k]/weight[x]*(1-ax)) + float32(pix[k+1]/weight[x+1]*ax)
			low := float32(pix[p.W+k]/weight[p.c.W+x]*(1-ax)) + float32(pix[p.W+k+1]/weight[p.c.W+x+1]*ax)
			row[i] = float32(top*(1-ay)) + float32(low*ay)
		}
	}
}

// Show fills the patch with the whole picture under a mishap (nil: none); tints as in Options.
func (p *Patch) Show(c *Canvas, ink []bool, tints []Tint, m *Mishap) {
	p.Begin(c, 0, float64(c.W))
	if m == nil {
		for i, on := range ink {
			if v := level(tints, i, on); v != 0 {
				p.Ink(int32(i), v)
			}
		}
		return
	}
	p.own = append(p.own[:0], make([]float32, len(c.weight))...)
	for i := range p.own {
		p.own[i] = bare
	}
	for i, on := range ink {
		if m.empty[i] || c.Places[i].Weight == 0 {
			continue
		}
		k := c.kern[i]
		if m.off != nil {
			k = p.shifted(int32(i), m.off[i])
		}
		c.addKernel(p.own, c.W, 0, &k, p.taps(c, &k), m.shown[i])
		if v := level(tints, i, on != m.wrong[i]); v != 0 {
			c.addKernel(p.pix, p.W, p.X0, &k, p.taps(c, &k), float32(v*m.shown[i]))
		}
	}
	p.weight = p.own
}

// taps are the samples that a kernel's indices mean: the canvas's, or the patch's own of a card that is off.
func (p *Patch) taps(c *Canvas, k *kernel) []float32 {
	if k.own {
		return p.offTaps
	}
	return c.taps
}

// shifted is a seat's kernel with the card off its place.
func (p *Patch) shifted(seat int32, off [2]float32) kernel {
	c := p.c
	at := &c.Places[seat]
	x, y := at.X+float64(float64(off[0])*at.card[0]), at.Y-float64(float64(off[1])*at.card[1])
	var k kernel
	k, p.offTaps = c.kernelAt(at, x, y, p.offTaps[:0])
	k.own = true
	return k
}

// keep remembers the part of the picture that a kernel covers; calling the result puts it
// back bit by bit, so that no try leaves anything for the next.
func (p *Patch) keep(k *kernel) func() {
	w, x := int(k.nx), int(k.x)
	pix, weight := make([]float32, 0, w*int(k.ny)), make([]float32, 0, w*int(k.ny))
	for y := int(k.y); y < int(k.y+k.ny); y++ {
		pix = append(pix, p.pix[y*p.W+x-p.X0:][:w]...)
		weight = append(weight, p.weight[y*p.c.W+x:][:w]...)
	}
	return func() {
		for r := range int(k.ny) {
			y := int(k.y) + r
			copy(p.pix[y*p.W+x-p.X0:][:w], pix[r*w:])
			copy(p.weight[y*p.c.W+x:][:w], weight[r*w:])
		}
	}
}
