package lettering

import (
	"cmp"
	"math"
	"slices"

	"everyseat/mosaic/legibility"
)

// ground is what a canvas offers for letters.
type ground struct {
	canvas *legibility.Canvas
	field  *Field
	edges  []float64 // of the usable rows in the canvas, from the top down: rows+1 values
	row    float64   // mean height of a row
	near   [][]int32 // see neighbours
	loose  []bool    // for whole: ink not reached yet; all false between calls
	todo   []int32
}

// survey finds the usable rows: those of the section with the most seats, front to back, leaving out rows of
// which too little is seen.
func survey(f *Field, c *legibility.Canvas) *ground {
	g := &ground{canvas: c, field: f}
	type line struct{ top, bottom, seen, y, n float64 }
	var lines, section []line // of the section with the most seats so far, and of this one
	most, count := 0, 0
	for i := range f.Seats {
		s, p := &f.Seats[i], &c.Places[i]
		begins := i == 0 || f.Seats[i-1].Section != s.Section
		if begins {
			section, count = nil, 0
		}
		if begins || f.Seats[i-1].Row != s.Row {
			section = append(section, line{})
		}
		if p.Weight == 0 {
			continue
		}
		l := &section[len(section)-1]
		l.top += p.Cell[1]
		l.bottom += p.Cell[3]
		l.y += p.Y
		l.seen += s.Seen
		l.n++
		if count++; count > most {
			lines, most = section, count
		}
	}
	lines = slices.DeleteFunc(lines, func(l line) bool { return l.n == 0 || l.seen/l.n < leastSeen })
	if len(lines) == 0 {
		return g
	}
	slices.SortFunc(lines, func(a, b line) int { return cmp.Compare(a.y/a.n, b.y/b.n) })
	g.edges = append(g.edges, lines[0].top/lines[0].n)
	for i := range lines {
		e := lines[i].bottom / lines[i].n
		if i+1 < len(lines) {
			e = (e + lines[i+1].top/lines[i+1].n) / 2
		}
		g.edges = append(g.edges, max(e, g.edges[i]+1e-6))
	}
	g.row = (g.edges[len(lines)] - g.edges[0]) / float64(len(lines))
	return g
}

// leastSeen is how much of a row's cards must be seen for letters to use it.
const leastSeen = 0.2

func (g *ground) rows() int { return max(len(g.edges)-1, 0) }

// intervals are the sections' usable stretches between two heights of the canvas: from the
// largest left edge to the smallest right edge of their rows, but for one
// row in eight that may be shorter.
func (g *ground) intervals(top, base float64) []interval {
	type run struct{ left, right float64 }
	var out []interval
	var runs []run
	flush := func() {
		if len(runs) == 0 {
			return
		}
		skip := len(runs) / 8
		slices.SortFunc(runs, func(a, b run) int { return cmp.Compare(b.left, a.left) })
		s := interval{left: runs[skip].left}
		slices.SortFunc(runs, func(a, b run) int { return cmp.Compare(a.right, b.right) })
		s.right = runs[skip].right
		if s.right > s.left && float64(len(runs)) >= 0.75*(base-top)/g.row-1 {
			out = append(out, s)
		}
		runs = runs[:0]
	}
	seats := g.field.Seats
	for i := 0; i < len(seats); {
		j := i
		r := run{math.Inf(1), math.Inf(-1)}
		y, n := 0.0, 0.0
		for ; j < len(seats) && seats[j].Section == seats[i].Section && seats[j].Row == seats[i].Row; j++ {
			if p := &g.canvas.Places[j]; p.Weight > 0 {
				r.left, r.right = min(r.left, p.Cell[0]), max(r.right, p.Cell[2])
				y += p.Y
				n++
			}
		}
		if n > 0 && y/n > top && y/n < base {
			runs = append(runs, r)
		}
		if j == len(seats) || seats[j].Section != seats[i].Section {
			flush()
		}
		i = j
	}
	slices.SortFunc(out, func(a, b interval) int { return cmp.Compare(a.left, b.left) })
	return out
}

// touching is how far the cells of neighbouring rows may be apart across, in seats, and still touch to the eye.
const touching = 0.15

// neighbours are the seats that touch each seat: beside it, and in the rows before and behind.
func (g *ground) neighbours() [][]int32 {
	if g.near != nil {
		return g.near
	}
	seats, places := g.field.Seats, g.canvas.Places
	g.near = make([][]int32, len(seats))
	join := func(a, b int) {
		g.near[a], g.near[b] = append(g.near[a], int32(b)), append(g.near[b], int32(a))
	}
	reach := float64(touching * g.canvas.Pitch)
	before := 0 // where the row in front begins
	for i := 0; i < len(seats); {
		j := i + 1
		for ; j < len(seats) && seats[j].Section == seats[i].Section && seats[j].Row == seats[i].Row; j++ {
			if d := seats[j].Place - seats[j-1].Place; d == 1 || d == -1 {
				join(j-1, j)
			}
		}
		if front := &seats[before]; front.Section == seats[i].Section && seats[i].Row-front.Row == 1 {
			for a := i; a < j; a++ {
				for b := before; b < i; b++ {
					if places[a].Cell[0] <= places[b].Cell[2]+reach && places[b].Cell[0] <= places[a].Cell[2]+reach {
						join(a, b)
					}
				}
			}
		}
		before, i = i, j
	}
	return g.near
}
