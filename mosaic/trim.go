package mosaic

import (
	"cmp"
	"math"
	"slices"

	"everyseat/seating"
)

// TrimShares are the turnouts, in percent of the seats with cards, for which paper says who drops out.
var TrimShares = [...]int{90, 80, 70}

// Trim says by seat at which turnout it stays empty: the largest of TrimShares, or 0 where it never
// does. A seat that is empty at one share is empty at every smaller one. First go the seats that no
// mark sees, then ground far from what the cues show and far from the picture's middle, then the
// message's own seats, thinned out evenly; wheelchair and companion places are filled by those who
// need them and go last.
func (p *Plan) Trim() []uint8 {
	keys := p.trimKeys()
	slices.SortFunc(keys, trimKey.compare)
	out := make([]uint8, len(p.Stands.Seats))
	for i := len(TrimShares) - 1; i >= 0; i-- {
		share := TrimShares[i]
		for _, k := range keys[:len(keys)*(100-share)/100] {
			out[k.seat] = uint8(share)
		}
	}
	return out
}

// The order in which seats are given up.
const (
	trimUnseen = iota
	trimGround
	trimMessage
	trimNeeded
)

// trimKey is what decides when a seat is given up, in whole numbers.
type trimKey struct {
	tier  int
	near  int // seats to the nearest one that carries the message; of the message, its turn in thinning out
	outer int // seats from the picture's middle
	seat  int32
}

func (a trimKey) compare(b trimKey) int {
	return cmp.Or(cmp.Compare(a.tier, b.tier), cmp.Compare(b.near, a.near),
		cmp.Compare(b.outer, a.outer), cmp.Compare(a.seat, b.seat))
}

func (p *Plan) trimKeys() []trimKey {
	var keys []trimKey
	g := p.trimGrid()
	message, near := g.message(p)
	for s := range p.Stands.Seats {
		seat := &p.Stands.Seats[s]
		if seat.Use != seating.UseCard {
			continue
		}
		k := trimKey{tier: trimGround, near: int(near[g.cell[s]]), outer: g.outer(g.cell[s]), seat: int32(s)}
		switch {
		case seat.For != "":
			k.tier = trimNeeded
		case p.lostSeat(s):
			k.tier, k.near = trimUnseen, 0
		case message[s]:
			k.tier, k.near = trimMessage, thinning(seat)
		}
		keys = append(keys, k)
	}
	return keys
}

// lostSeat says whether no mark sees the seat's card; without any mark all are seen.
func (p *Plan) lostSeat(s int) bool { return len(p.Marks) > 0 && p.Unseen(s) }

// thinning gives up every other seat of every other row first, and neighbours last.
func thinning(seat *seating.Seat) int {
	return [...]int{3, 1, 0, 2}[seat.Row%2*2+seat.Place%2]
}

// trimGrid is the picture in cells of about one seat each, so that distances are counted in seats.
type trimGrid struct {
	columns, rows int
	cell          []int32 // by seat
}

// mostTrimCells bounds a side of the grid.
const mostTrimCells = 1500

func (p *Plan) trimGrid() *trimGrid {
	at := p.picturePlaces()
	low, high := [2]int64{}, [2]int64{}
	first := true
	for s := range at {
		if p.Stands.Seats[s].Use != seating.UseCard || p.lostSeat(s) {
			continue
		}
		for i := range 2 {
			if first || at[s][i] < low[i] {
				low[i] = at[s][i]
			}
			if first || at[s][i] > high[i] {
				high[i] = at[s][i]
			}
		}
		first = false
	}
	step := p.trimSteps(at)
	g := &trimGrid{cell: make([]int32, len(at))}
	size := [2]int{}
	for i := range 2 {
		step[i] = max(step[i], (high[i]-low[i])/mostTrimCells+1)
		size[i] = int((high[i]-low[i])/step[i]) + 1
	}
	g.columns, g.rows = size[0], size[1]
	for s := range at {
		x := min(max((at[s][0]-low[0])/step[0], 0), int64(g.columns-1))
		y := min(max((at[s][1]-low[1])/step[1], 0), int64(g.rows-1))
		g.cell[s] = int32(y)*int32(g.columns) + int32(x)
	}
	return g
}

// picturePlaces are the middles of the cards in the camera's picture, in sixteenths of a pixel; without a
// camera, the seats as they are numbered.
func (p *Plan) picturePlaces() [][2]int64 {
	at := make([][2]int64, len(p.Stands.Seats))
	for s := range at {
		seat := &p.Stands.Seats[s]
		if len(p.Marks) == 0 {
			at[s] = [2]int64{whole(seat.Position[0] * 1000), whole((seat.Position[1] + seat.Position[2]) * 1000)}
			continue
		}
		if p.Marks[0].Sight.Behind[s] {
			continue
		}
		for _, c := range p.Marks[0].Sight.Corners[s] {
			at[s][0] += whole(c[0] * 4)
			at[s][1] += whole(c[1] * 4)
		}
	}
	return at
}

// trimSteps are how far neighbours in a row, and rows one behind the other, mostly lie apart.
func (p *Plan) trimSteps(at [][2]int64) (step [2]int64) {
	var apart [2][]int64
	for k := range p.Stands.Sections {
		rows := p.Stands.Sections[k].Rows
		for r := range rows {
			for s := rows[r].First; s < rows[r].Last; s++ {
				if p.Stands.Seats[s].Use != seating.UseCard || p.lostSeat(s) {
					continue
				}
				if s+1 < rows[r].Last {
					apart[0] = append(apart[0], between(at[s][0], at[s+1][0]))
				}
				if b := rows[r].First; r > 0 && rows[r-1].First < rows[r-1].Last {
					apart[1] = append(apart[1], between(at[b][1], at[rows[r-1].First][1]))
				}
			}
		}
	}
	for i := range apart {
		step[i] = 1
		if n := len(apart[i]); n > 0 {
			slices.Sort(apart[i])
			step[i] = max(apart[i][n/2], 1)
		}
	}
	return step
}

func between(a, b int64) int64 { return max(a-b, b-a) }

// outer is how far a cell is from the middle, the long way.
func (g *trimGrid) outer(cell int32) int {
	x, y := int(cell)%g.columns, int(cell)/g.columns
	return max(max(2*x-g.columns+1, g.columns-1-2*x), max(2*y-g.rows+1, g.rows-1-2*y))
}

// message says which seats carry the message at any cue, and by cell how far the nearest one is.
func (g *trimGrid) message(p *Plan) (carries []bool, near []int32) {
	carries = make([]bool, len(p.Stands.Seats))
	for i := range p.Cues {
		cue, colours := &p.Stunt.Cues[i], p.Cues[i].Colours
		ground, known := p.groundOf(cue)
		lines := !known || cue.Image != nil || cue.ImageName != ""
		edge := func(int) bool { return true }
		if lines { // of a picture, what matters is where colours meet
			edge = g.edges(p, colours)
		}
		for s := range colours {
			card := p.Stands.Seats[s].Use == seating.UseCard && !p.lostSeat(s)
			carries[s] = carries[s] || card && (lines || colours[s] != ground) && edge(s)
		}
	}
	return carries, g.spread(carries)
}

// groundOf is the palette index of a cue's ground.
func (p *Plan) groundOf(cue *Cue) (index int16, known bool) {
	if cue.Ground == Shirts {
		return None, true
	}
	for i := range p.Stunt.Colours {
		if p.Stunt.Colours[i].Name == cue.Ground {
			return int16(i), true
		}
	}
	return None, false
}

// edges tells seats with another colour beside them.
func (g *trimGrid) edges(p *Plan, colours []int16) func(s int) bool {
	low, high := make([]int16, g.columns*g.rows), make([]int16, g.columns*g.rows)
	for i := range low {
		low[i], high[i] = int16(len(p.Stunt.Colours)), None-1
	}
	for s, c := range colours {
		if p.Stands.Seats[s].Use == seating.UseCard && !p.lostSeat(s) {
			low[g.cell[s]], high[g.cell[s]] = min(low[g.cell[s]], c), max(high[g.cell[s]], c)
		}
	}
	return func(s int) bool {
		other := false
		g.around(g.cell[s], func(n int32) { other = other || low[n] < colours[s] || high[n] > colours[s] })
		return other
	}
}

// around calls visit for a cell and the eight round it.
func (g *trimGrid) around(cell int32, visit func(int32)) {
	x, y := int(cell)%g.columns, int(cell)/g.columns
	for v := max(y-1, 0); v <= min(y+1, g.rows-1); v++ {
		for u := max(x-1, 0); u <= min(x+1, g.columns-1); u++ {
			visit(int32(v*g.columns + u))
		}
	}
}

// spread is by cell how many cells away the nearest seat of these is.
func (g *trimGrid) spread(from []bool) []int32 {
	const far = 1 << 30
	near := make([]int32, g.columns*g.rows)
	for i := range near {
		near[i] = far
	}
	var queue []int32
	for s, is := range from {
		if is && near[g.cell[s]] != 0 {
			near[g.cell[s]] = 0
			queue = append(queue, g.cell[s])
		}
	}
	for len(queue) > 0 {
		cell := queue[0]
		queue = queue[1:]
		g.around(cell, func(n int32) {
			if near[n] == far {
				near[n] = near[cell] + 1
				queue = append(queue, n)
			}
		})
	}
	return near
}

// whole rounds, so that no processor decides otherwise.
func whole(v float64) int64 { return int64(math.Round(v)) }
