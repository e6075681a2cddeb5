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
		cell := int(g.cell[s])
		x, y := 2*(cell%g.columns)-g.columns+1, 2*(cell/g.columns)-g.rows+1
		k := trimKey{tier: trimGround, near: int(near[cell]), outer: max(x, -x, y, -y), seat: int32(s)}
		switch {
		case seat.For != "":
			k.tier = trimNeeded
		case !p.shows(s):
			k.tier, k.near = trimUnseen, 0
		case message[s]: // every other seat of every other row goes first, and neighbours last
			k.tier, k.near = trimMessage, [...]int{3, 1, 0, 2}[seat.Row%2*2+seat.Place%2]
		}
		keys = append(keys, k)
	}
	return keys
}

// shows says whether somebody holds a card that some mark sees; without any mark all are seen.
func (p *Plan) shows(s int) bool {
	return p.Stands.Seats[s].Use == seating.UseCard && (len(p.Marks) == 0 || !p.Unseen(s))
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
	var low, high [2]int64
	first := true
	for s, a := range at {
		if !p.shows(s) {
			continue
		}
		if first {
			low, high, first = a, a, false
		}
		for i := range a {
			low[i], high[i] = min(low[i], a[i]), max(high[i], a[i])
		}
	}
	step := p.trimSteps(at)
	var size [2]int64
	for i := range size {
		step[i] = max(step[i], (high[i]-low[i])/mostTrimCells+1)
		size[i] = (high[i]-low[i])/step[i] + 1
	}
	g := &trimGrid{columns: int(size[0]), rows: int(size[1]), cell: make([]int32, len(at))}
	for s, a := range at {
		for i := range a {
			a[i] = min(max((a[i]-low[i])/step[i], 0), size[i]-1)
		}
		g.cell[s] = int32(a[1]*size[0] + a[0])
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
		for r, row := range rows {
			for s := row.First; s < row.Last; s++ {
				if !p.shows(s) {
					continue
				}
				if s+1 < row.Last {
					apart[0] = append(apart[0], between(at[s][0], at[s+1][0]))
				}
				if r > 0 && rows[r-1].First < rows[r-1].Last {
					apart[1] = append(apart[1], between(at[row.First][1], at[rows[r-1].First][1]))
				}
			}
		}
	}
	for i, all := range apart {
		step[i] = 1
		if n := len(all); n > 0 {
			slices.Sort(all)
			step[i] = max(all[n/2], 1)
		}
	}
	return step
}

func between(a, b int64) int64 { return max(a-b, b-a) }

// message says which seats carry the message at any cue, and by cell how far the nearest one is.
func (g *trimGrid) message(p *Plan) (carries []bool, near []int32) {
	carries = make([]bool, len(p.Stands.Seats))
	for i := range p.Cues {
		cue, colours := &p.Stunt.Cues[i], p.Cues[i].Colours
		ground := int16(p.Stunt.colourNamed(cue.Ground)) // None before shirts
		lines := ground == None && cue.Ground != Shirts || cue.Image != nil || cue.ImageName != ""
		edge := func(int) bool { return true }
		if lines { // of a picture, what matters is where colours meet
			edge = g.edges(p, colours)
		}
		for s := range colours {
			carries[s] = carries[s] || p.shows(s) && (lines || colours[s] != ground) && edge(s)
		}
	}
	return carries, g.spread(carries)
}

// edges tells seats with another colour beside them.
func (g *trimGrid) edges(p *Plan, colours []int16) func(s int) bool {
	low, high := make([]int16, g.columns*g.rows), make([]int16, g.columns*g.rows)
	for i := range low {
		low[i], high[i] = int16(len(p.Stunt.Colours)), None-1
	}
	for s, c := range colours {
		if p.shows(s) {
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
	near := slices.Repeat([]int32{far}, g.columns*g.rows)
	var queue []int32
	for s, is := range from {
		if is && near[g.cell[s]] != 0 {
			near[g.cell[s]] = 0
			queue = append(queue, g.cell[s])
		}
	}
	for ; len(queue) > 0; queue = queue[1:] {
		g.around(queue[0], func(n int32) {
			if near[n] == far {
				near[n] = near[queue[0]] + 1
				queue = append(queue, n)
			}
		})
	}
	return near
}

// whole rounds, so that no processor decides otherwise.
func whole(v float64) int64 { return int64(math.Round(v)) }
