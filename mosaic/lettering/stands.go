package lettering

import (
	"math"
	"slices"

	"everyseat/mosaic/legibility"
)

// span is an interval of x.
type span struct{ left, right float64 }

// ground is what a canvas offers for letters.
type ground struct {
	canvas *legibility.Canvas
	field  *Field
	edges  []float64 // of the usable rows in the canvas, from the top down: rows+1 values
	row    float64   // mean height of a row
	near   [][]int32 // see neighbours
	marks  []bool    // for whole: all false between calls
	todo   []int32
}

// survey finds the usable rows: those of the section with the most seats, front to back, leaving out rows of
// which too little is seen.
func survey(f *Field, c *legibility.Canvas) *ground {
	g := &ground{canvas: c, field: f}
	type line struct{ top, bottom, seen, y, n float64 }
	rows := map[[2]int32]*line{}
	count := map[int32]int{}
	for i := range f.Seats {
		s, p := &f.Seats[i], &c.Places[i]
		if p.Weight == 0 {
			continue
		}
		k := [2]int32{s.Section, s.Row}
		l := rows[k]
		if l == nil {
			l = &line{}
			rows[k] = l
		}
		l.top += p.Cell[1]
		l.bottom += p.Cell[3]
		l.y += p.Y
		l.seen += s.Seen
		l.n++
		count[s.Section]++
	}
	main, most := int32(0), -1
	for s, n := range count {
		if n > most || n == most && s < main {
			main, most = s, n
		}
	}
	var lines []*line
	for k, l := range rows {
		if k[0] == main && l.seen/l.n >= leastSeen {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		return g
	}
	slices.SortFunc(lines, func(a, b *line) int { return sign64(a.y/a.n - b.y/b.n) })
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

func sign64(v float64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

func (g *ground) rows() int { return max(len(g.edges)-1, 0) }

// spans are the sections' usable intervals in a band of the canvas: from the
// largest left edge to the smallest right edge of their rows, but for one
// row in eight that may be shorter.
func (g *ground) spans(top, base float64) []span {
	type run struct{ left, right float64 }
	var out []span
	var runs []run
	flush := func() {
		if len(runs) == 0 {
			return
		}
		skip := len(runs) / 8
		slices.SortFunc(runs, func(a, b run) int { return sign64(b.left - a.left) })
		s := span{left: runs[skip].left}
		slices.SortFunc(runs, func(a, b run) int { return sign64(a.right - b.right) })
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
	slices.SortFunc(out, func(a, b span) int { return sign64(a.left - b.left) })
	return out
}
