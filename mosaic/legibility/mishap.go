package legibility

import (
	"math"
	"math/rand/v2"
)

// Mishap is one way things may go: who is missing, whose card is wrong, how much of each card shows.
type Mishap struct {
	empty []bool
	wrong []bool
	shown []float32 // factor on the area seen
	// where the card is off to, in canvas pixels a pixel of its width and height
	off [][2]float32
}

// Happens is what a mishap does to a seat: nobody there, the wrong card, and how far the
// card is off in its own widths and heights.
func (m *Mishap) Happens(seat int) (empty, wrong bool, off [2]float32) {
	if m.off != nil {
		off = m.off[seat]
	}
	return m.empty[seat], m.wrong[seat], off
}

// leave empties a seat and says how many that made more.
func (m *Mishap) leave(i int) int {
	if m.empty[i] {
		return 0
	}
	m.empty[i] = true
	return 1
}

// clusterSeats is how many neighbours are missing together: a late car, a row's end.
const clusterSeats = 5

// strike draws a mishap: shares of seats empty (singly or in runs of neighbours) and wrong.
func strike(f *Field, rng *rand.Rand, empty, wrong float64, clusters bool, o *Options) *Mishap {
	n := len(f.Seats)
	m := &Mishap{empty: make([]bool, n), wrong: make([]bool, n), shown: make([]float32, n)}
	across, up := handShares(o)
	if across > 0 || up > 0 {
		m.off = make([][2]float32, n)
	}
	for i := range m.shown {
		m.shown[i] = 1
		if m.off != nil {
			dx, dy := rng.NormFloat64(), rng.NormFloat64()
			m.off[i] = [2]float32{float32(across * dx), float32(up * dy)}
			// half of the cards have an edge behind a head or a neighbour's card
			m.shown[i] = float32(min(max(1-float64(0.5*up*dy), 0.3), 1.7))
		}
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
	for k := int(math.Round(min(wrong, 1) * float64(n))); k > 0; {
		if at := rng.IntN(n); !m.wrong[at] {
			m.wrong[at] = true
			k--
		}
	}
	return m
}

// Strikes draws n mishaps of what o expects: people missing (in every third try in
// clusters), cards wrong, hands uneven.
func Strikes(f *Field, o Options, n int) []*Mishap {
	out := make([]*Mishap, n)
	for k := range out {
		rng := rand.New(rand.NewPCG(o.Seed, uint64(k)))
		out[k] = strike(f, rng, o.Empty, o.Wrong, k%3 == 2, &o)
	}
	return out
}

// handShares is the error of hand in widths and heights of a card, at most two. A card that leans in its own plane by
// a small angle is off at its edges by as much as one that is moved by the angle times the other side over √12, the
// deviation of a uniform distribution.
func handShares(o *Options) (across, up float64) {
	if o.CardWidth <= 0 || o.CardHeight <= 0 {
		return 0, 0
	}
	roll := o.HandTilt / math.Sqrt(12)
	across = math.Hypot(o.HandSideways, roll*o.CardHeight) / o.CardWidth
	up = math.Hypot(o.HandHeight, roll*o.CardWidth) / o.CardHeight
	return min(across, mostOff), min(up, mostOff)
}

// mostOff is how many cards' widths or heights a card is off at most, one standard deviation: far beyond what reads.
const mostOff = 2
