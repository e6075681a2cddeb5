package legibility

import (
	"math"
	"math/rand/v2"
)

// mishap is one way things may go: who is missing, whose card is wrong, how much of each card shows.
type mishap struct {
	empty []bool
	wrong []bool
	shown []float32 // factor on the area seen
}

// clusterSeats is how many neighbours are missing together: a late car, a row's end.
const clusterSeats = 5

// strike draws a mishap: shares of seats empty (singly or in runs of neighbours) and wrong.
func strike(f *Field, rng *rand.Rand, empty, wrong float64, clusters bool, hand float64) *mishap {
	n := len(f.Seats)
	m := &mishap{empty: make([]bool, n), wrong: make([]bool, n), shown: make([]float32, n)}
	for i := range m.shown {
		m.shown[i] = float32(min(max(1+hand*rng.NormFloat64(), 0.3), 1.7))
	}
	gone := int(math.Round(empty * float64(n)))
	for tries := 0; gone > 0 && tries < 20*n; tries++ {
		at, run := rng.IntN(n), 1
		if clusters {
			run = clusterSeats
		}
		row, section := f.Seats[at].Row, f.Seats[at].Section
		for k := at; k < n && k < at+run && gone > 0 && f.Seats[k].Row == row && f.Seats[k].Section == section; k++ {
			if !m.empty[k] {
				m.empty[k] = true
				gone--
			}
		}
	}
	for k := int(math.Round(wrong * float64(n))); k > 0; k-- {
		m.wrong[rng.IntN(n)] = true
	}
	return m
}

// handFactor is how unevenly cards show when hands err in height: the share of a
// card's height that one standard deviation is, for the half of the cards whose edge a head or a
// neighbour's card bounds.
func handFactor(o *Options) float64 {
	if o.CardHeight <= 0 {
		return 0
	}
	return min(0.5*math.Hypot(o.HandHeight, 0.3*o.HandSideways)/o.CardHeight, 0.4)
}

// show fills the patch with the whole picture under a mishap (nil: none).
func (p *Patch) show(c *Canvas, ink []bool, m *mishap) {
	p.Begin(c, 0, float64(c.W))
	if m == nil {
		for i, on := range ink {
			if on {
				p.Ink(int32(i), 1)
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
		c.add(p.own, c.W, 0, int32(i), m.shown[i])
		if on != m.wrong[i] {
			p.Ink(int32(i), m.shown[i])
		}
	}
	p.weight = p.own
}
