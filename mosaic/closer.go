package mosaic

import (
	"math"
	"sync"

	"everyseat/mosaic/colour"
	"everyseat/seating/camera"
)

// viewBlur is the blur at which a picture of the stands is judged, as a part of the
// frame's width: a film is watched some 480 pixels wide, and two of these run together
// (ours, no source).
const viewBlur = 1.0 / 240

// looksOff is by how much each try looks off what was wanted, from the mark at viewing
// blur: the sum over the seats of the squared CIELAB difference of both as blurred, in
// hundredths.
func (m *maker) looksOff(seats []int32, want []colour.Linear, tries ...[]int16) []int64 {
	b := newBlur(m.p.Marks[0].View.Width, seats, m.p.Marks[0].Sight)
	wanted := b.of(want)
	sums := make([]int64, len(tries))
	var wait sync.WaitGroup
	for i, colours := range tries {
		wait.Go(func() { sums[i] = b.differs(wanted, b.of(m.shows(want, colours))) })
	}
	wait.Wait()
	return sums
}

// shows is the light of the cards in these colours.
func (m *maker) shows(want []colour.Linear, colours []int16) []colour.Linear {
	shown := make([]colour.Linear, len(want))
	for k, c := range colours {
		shown[k] = want[k] // nobody holds a card there: it is no difference
		if c != None {
			shown[k] = m.p.Stunt.Colours[c].RGB.Linear()
		}
	}
	return shown
}

// differs sums the squared differences of two blurred pictures over the seats, in whole hundredths.
func (b *blur) differs(wanted, got []light) int64 {
	var sum int64
	for _, at := range b.at {
		if wanted[at][3] == 0 {
			continue
		}
		x, y := wanted[at].alone().Lab(), got[at].alone().Lab()
		d := [3]float64{x[0] - y[0], x[1] - y[1], x[2] - y[2]}
		sum += int64(math.Round(100 * (float64(d[0]*d[0]) + float64(d[1]*d[1]) + float64(d[2]*d[2]))))
	}
	return sum
}

// blur mixes the light of seats that are near each other in the picture: on a grid of
// one sigma a side over the seats, across and then down.
type blur struct {
	columns, lines int
	at             []int32 // by seat: its place in the grid
	weight         []float64
}

// gauss is the normal curve at 0…3 sigma.
var gauss = func() (g [4]float64) {
	for i := range g {
		g[i] = math.Round(math.Exp(-float64(i*i)/2)*1e9) / 1e9
	}
	return g
}()

func newBlur(width int, seats []int32, sight *camera.Sight) *blur {
	side := viewBlur * float64(width)
	low, high := [2]int{math.MaxInt, math.MaxInt}, [2]int{math.MinInt, math.MinInt}
	cell := make([][2]int, len(seats))
	b := &blur{at: make([]int32, len(seats)), weight: make([]float64, len(seats))}
	for k, s := range seats {
		b.weight[k] = float64(sight.Pixels[s])
		for c := range 2 { // far outside the frame nothing shows, wherever it lies
			v := min(max(sight.Centre[s][c], -float64(width)), 2*float64(width))
			cell[k][c] = int(math.Floor(v / side))
			low[c], high[c] = min(low[c], cell[k][c]), max(high[c], cell[k][c])
		}
	}
	b.columns, b.lines = high[0]-low[0]+1, high[1]-low[1]+1
	for k := range cell {
		b.at[k] = int32((cell[k][1]-low[1])*b.columns + cell[k][0] - low[0])
	}
	return b
}

// of is the light on the grid, blurred; its last part is the weight.
func (b *blur) of(lights []colour.Linear) []light {
	grid := make([]light, b.columns*b.lines)
	for k, l := range lights {
		grid[b.at[k]].add(&light{l[0], l[1], l[2], 1}, b.weight[k])
	}
	across := b.spread(grid, 1, func(i int) (int, int) { return i % b.columns, b.columns })
	return b.spread(across, b.columns, func(i int) (int, int) { return i / b.columns, b.lines })
}

// spread blurs along one direction; place tells where along it an entry lies, and how long it is.
func (b *blur) spread(grid []light, step int, place func(int) (at, length int)) []light {
	out := make([]light, len(grid))
	for i := range grid {
		if grid[i][3] == 0 {
			continue
		}
		at, length := place(i)
		for d := max(-3, -at); d <= min(3, length-1-at); d++ {
			out[i+d*step].add(&grid[i], gauss[max(d, -d)])
		}
	}
	return out
}
