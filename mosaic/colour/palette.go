package colour

import (
	"math"
	"sync/atomic"
)

// Palette decides which card colour is nearest. It may be used by several goroutines at once.
type Palette struct {
	labs []Lab
	memo []atomic.Uint32 // by hash of the sRGB value: value<<8 | index+1, 0 = not asked yet
}

const (
	memoBits    = 16
	memoColours = 254 // an index+1 must fit into a byte
)

// NewPalette prepares the decision among these colours.
func NewPalette(colours []RGB) *Palette {
	p := &Palette{labs: make([]Lab, len(colours))}
	for i, c := range colours {
		p.labs[i] = c.Linear().Lab()
	}
	if len(colours) <= memoColours {
		p.memo = make([]atomic.Uint32, 1<<memoBits)
	}
	return p
}

// Nearest is the index of the nearest colour by CIEDE2000, compared in whole
// millionths so that every processor decides alike; ties go to the lower index.
// The light is rounded to 8-bit sRGB first, so that an answer can be kept and
// asked again: a step of 1/255 is finer than any two card colours differ.
// An empty palette gives -1.
func (p *Palette) Nearest(l Linear) int { return p.NearestRGB(l.RGB()) }

// NearestRGB is Nearest for a colour that is 8-bit already.
func (p *Palette) NearestRGB(c RGB) int {
	if p.memo == nil {
		return p.nearest(c)
	}
	value := uint32(c[0])<<16 | uint32(c[1])<<8 | uint32(c[2])
	slot := &p.memo[value*2654435761>>(32-memoBits)] // Fibonacci hashing
	if kept := slot.Load(); kept&0xff != 0 && kept>>8 == value {
		return int(kept&0xff) - 1
	}
	i := p.nearest(c)
	slot.Store(value<<8 | uint32(i+1))
	return i
}

func (p *Palette) nearest(c RGB) int {
	lab := c.Linear().Lab()
	best, least := -1, math.Inf(1)
	for i, q := range p.labs {
		if d := math.Round(CIEDE2000(lab, q) * 1e6); d < least {
			best, least = i, d
		}
	}
	return best
}
