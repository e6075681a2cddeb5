package legibility

import (
	"math"
)

// Undecided is a seat of which a letter covers a share that leaves open whether it is ink.
type Undecided struct {
	Seat int32
	Ink  bool
}

// coverage is how much of a canvas box a letter covers, 0…1.
type coverage = func(x0, y0, x1, y1 float64) float64

// settlePasses is how often the undecided seats are gone through.
const settlePasses = 3

// Settle decides the open seats of a letter so that the predicted picture comes
// closest to the letter as it would be printed: strokes become even in the
// picture although the seats stagger and rows in front hide parts. sure is the
// letter's other ink; cover gives how much of a canvas box the letter covers, 0…1;
// box is the letter's.
func (p *Patch) Settle(c *Canvas, sure []int32, open []Undecided, box [4]float64, cover coverage) {
	if len(open) == 0 {
		return
	}
	reach := float64(2.6*math.Hypot(c.Blur, c.card[0]/3)) + 1
	p.Begin(c, box[0]-reach, box[2]+reach)
	top, bottom := max(int(box[1]-reach), 0), min(int(box[3]+reach)+1, c.H)
	p.setGoal(top, bottom, cover)
	for _, s := range sure {
		p.Ink(s, 1)
	}
	for i := range open {
		if open[i].Ink {
			p.Ink(open[i].Seat, 1)
		}
	}
	for range settlePasses {
		changed := false
		for i := range open {
			d := &open[i]
			v := float32(1)
			if d.Ink {
				v = -1
			}
			if p.change(d.Seat, v) < 0 {
				p.Ink(d.Seat, v)
				d.Ink = !d.Ink
				changed = true
			}
		}
		if !changed {
			return
		}
	}
}

// setGoal fills goal with the letter as printed, blurred as cards and reader blur it.
func (p *Patch) setGoal(top, bottom int, cover coverage) {
	c := p.c
	n := p.W * c.H
	p.goal = append(p.goal[:0], make([]float32, n)...)
	flat := make([]float32, n)
	for y := top; y < bottom; y++ {
		for x := range p.W {
			flat[y*p.W+x] = float32(cover(float64(p.X0+x), float64(y), float64(p.X0+x+1), float64(y+1)))
		}
	}
	kx := bell(c.blurOf(c.card[0]))
	ky := bell(c.blurOf(c.card[1]))
	across := make([]float32, n)
	for y := top; y < bottom; y++ {
		for x := range p.W {
			var s float32
			for i, k := range kx {
				if at := x + i - len(kx)/2; at >= 0 && at < p.W {
					s += float32(float32(k) * flat[y*p.W+at])
				}
			}
			across[y*p.W+x] = s
		}
	}
	for y := range c.H {
		for i, k := range ky {
			at := y + i - len(ky)/2
			if at < top || at >= bottom {
				continue
			}
			for x := range p.W {
				p.goal[y*p.W+x] += float32(float32(k) * across[at*p.W+x])
			}
		}
	}
}

// change is how much farther from the goal, in whole thousandths, the picture gets when a seat changes by v.
func (p *Patch) change(seat int32, v float32) int64 {
	c := p.c
	k := &c.kern[seat]
	a, b := max(int(k.x), p.X0), min(int(k.x+k.nx), p.X0+p.W)
	var sum float32
	for j := range int(k.ny) {
		y := int(k.y) + j
		g := v * c.taps[int(k.gy)+j]
		for x := a; x < b; x++ {
			w := 1 / c.weight[y*c.W+x]
			d := float32(g * c.taps[int(k.gx)+x-int(k.x)] * w)
			i := y*p.W + x - p.X0
			sum += float32(d * (float32(2*(float32(p.pix[i]*w)-p.goal[i])) + d))
		}
	}
	return int64(math.Round(float64(sum) * 1000))
}
