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
	lines  [][2]int  // the field's rows, section by section, front to back: from which seat to before which
	near   [][]int32 // see neighbours
	loose  []bool    // for whole: ink not reached yet; all false between calls
	todo   []int32
}

// survey finds the usable rows: those of the section with the most seats, front to back, leaving out rows of
// which too little is seen.
func survey(f *Field, c *legibility.Canvas) *ground {
	g := &ground{canvas: c, field: f}
	for i := range f.Seats {
		if i == 0 || f.Seats[i-1].Section != f.Seats[i].Section || f.Seats[i-1].Row != f.Seats[i].Row {
			g.lines = append(g.lines, [2]int{i, i})
		}
		g.lines[len(g.lines)-1][1]++
	}
	type line struct{ top, bottom, seen, y, n float64 }
	var lines, section []line // of the section with the most seats so far, and of this one
	most, count := 0, 0
	for _, r := range g.lines {
		if r[0] == 0 || f.Seats[r[0]-1].Section != f.Seats[r[0]].Section {
			section, count = nil, 0
		}
		var l line
		for i := r[0]; i < r[1]; i++ {
			p := &c.Places[i]
			if p.Weight == 0 {
				continue
			}
			l.top += p.Cell[1]
			l.bottom += p.Cell[3]
			l.y += p.Y
			l.seen += f.Seats[i].Seen
			l.n++
			count++
		}
		if section = append(section, l); count > most {
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
	var out []interval
	var lefts, rights []float64 // of a section's rows
	seats := g.field.Seats
	for k, r := range g.lines {
		left, right, y, n := math.Inf(1), math.Inf(-1), 0.0, 0.0
		for j := r[0]; j < r[1]; j++ {
			if p := &g.canvas.Places[j]; p.Weight > 0 {
				left, right = min(left, p.Cell[0]), max(right, p.Cell[2])
				y += p.Y
				n++
			}
		}
		if n > 0 && y/n > top && y/n < base {
			lefts, rights = append(lefts, left), append(rights, right)
		}
		if k+1 < len(g.lines) && seats[r[0]].Section == seats[r[1]].Section {
			continue
		}
		if rows := len(lefts); rows > 0 {
			slices.Sort(lefts)
			slices.Sort(rights)
			in := interval{lefts[rows-1-rows/8], rights[rows/8]}
			if in.right > in.left && float64(rows) >= 0.75*(base-top)/g.row-1 {
				out = append(out, in)
			}
		}
		lefts, rights = lefts[:0], rights[:0]
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
	before := [2]int{} // the row in front
	for _, r := range g.lines {
		for j := r[0] + 1; j < r[1]; j++ {
			if d := seats[j].Place - seats[j-1].Place; d == 1 || d == -1 {
				join(j-1, j)
			}
		}
		if front, own := &seats[before[0]], &seats[r[0]]; front.Section == own.Section && own.Row-front.Row == 1 {
			for a := r[0]; a < r[1]; a++ {
				for b := before[0]; b < before[1]; b++ {
					if places[a].Cell[0] <= places[b].Cell[2]+reach && places[b].Cell[0] <= places[a].Cell[2]+reach {
						join(a, b)
					}
				}
			}
		}
		before = r
	}
	return g.near
}
