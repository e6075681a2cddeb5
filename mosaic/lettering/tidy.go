package lettering

import (
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering/faces"
)

const (
	// touching is how far the cells of neighbouring rows may be apart across, in seats, and still touch to the eye.
	touching = 0.15
	// bridge is how much of a seat a letter must cover for the seat to mend a broken stroke.
	bridge = faces.FullCover * 8 / 100
	// speck is how many seats beside a letter are a blot and no stroke.
	speck = 2
)

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
	reach := touching * g.canvas.Pitch
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

// tidy mends strokes that fell apart where no seat was covered enough, and takes off what is left
// beside the letter: the pieces of every part of the letter become one, where a seat is there for it.
func (s *search) tidy(st *style, it *item, x float64, ink []int32) []int32 {
	if s.g.whole(ink) {
		return ink
	}
	t := tidier{near: s.g.neighbours(), ink: ink}
	t.cover, t.part = map[int32]int{}, map[int32]int{}
	st.covered(s.g.canvas, it, x, func(seat int32, share int) {
		t.cover[seat], t.part[seat] = share, st.part(s.g.canvas, it, x, seat)
		t.about = append(t.about, seat)
	})
	slices.Sort(t.about)
	for t.mend() {
	}
	return t.ink
}

// whole says quickly whether the ink is one piece.
func (g *ground) whole(ink []int32) bool {
	if len(ink) == 0 {
		return true
	}
	near := g.neighbours()
	if len(g.marks) != len(near) {
		g.marks = make([]bool, len(near))
	}
	for _, i := range ink {
		g.marks[i] = true
	}
	g.todo = append(g.todo[:0], ink[0])
	g.marks[ink[0]] = false
	for k := 0; k < len(g.todo); k++ {
		for _, n := range near[g.todo[k]] {
			if g.marks[n] {
				g.marks[n] = false
				g.todo = append(g.todo, n)
			}
		}
	}
	for _, i := range ink {
		g.marks[i] = false
	}
	return len(g.todo) == len(ink)
}

// tidier is one letter's ink while it is mended.
type tidier struct {
	near        [][]int32
	ink         []int32
	about       []int32 // all seats that the letter touches
	cover, part map[int32]int
}

// pieces are the ink's connected pieces of each part, smallest first.
func (t *tidier) pieces() [][]int32 {
	var out [][]int32
	seen := map[int32]bool{}
	left := map[int32]bool{}
	for _, i := range t.ink {
		left[i] = true
	}
	for _, i := range t.ink {
		if seen[i] {
			continue
		}
		seen[i] = true
		piece := []int32{i}
		for k := 0; k < len(piece); k++ {
			for _, n := range t.near[piece[k]] {
				if left[n] && !seen[n] && t.part[n] == t.part[i] {
					seen[n] = true
					piece = append(piece, n)
				}
			}
		}
		slices.Sort(piece)
		out = append(out, piece)
	}
	slices.SortFunc(out, func(a, b []int32) int {
		if len(a) != len(b) {
			return len(a) - len(b)
		}
		return int(a[0] - b[0])
	})
	return out
}

// mend joins the smallest piece that has others of its part, or takes it off; false where nothing is left to do.
func (t *tidier) mend() bool {
	all := t.pieces()
	for k, piece := range all {
		part := t.part[piece[0]]
		rest := slices.Concat(all[k+1:]...)
		rest = slices.DeleteFunc(rest, func(i int32) bool { return t.part[i] != part })
		if len(rest) == 0 {
			continue
		}
		if seat := t.between(piece, rest, part); seat >= 0 {
			t.ink = append(t.ink, seat)
			return true
		}
		if len(piece) <= speck {
			t.ink = slices.DeleteFunc(t.ink, func(i int32) bool { return slices.Contains(piece, i) })
			return true
		}
	}
	return false
}

// between is the seat most covered that touches both and no other part, or −1.
func (t *tidier) between(piece, rest []int32, part int) int32 {
	best, most := int32(-1), bridge-1
	for _, i := range t.about {
		if t.cover[i] <= most || slices.Contains(t.ink, i) {
			continue
		}
		touches := func(set []int32) bool {
			return slices.ContainsFunc(t.near[i], func(n int32) bool { return slices.Contains(set, n) })
		}
		other := slices.ContainsFunc(t.near[i], func(n int32) bool { return t.part[n] != part && slices.Contains(t.ink, n) })
		if !other && touches(piece) && touches(rest) {
			best, most = i, t.cover[i]
		}
	}
	return best
}

// part is which part of the letter a seat shows most of: strokes that do not touch are parts, such as
// the dot of an exclamation mark, or an accent.
func (s *style) part(c *legibility.Canvas, it *item, x float64, seat int32) int {
	sh, p := it.shape, &c.Places[seat]
	k := float64(sh.Cols*faces.Fine) / it.width
	return sh.Part(round((p.Cell[0]-x)*k), s.rasterY(sh, p.Cell[1]), round((p.Cell[2]-x)*k), s.rasterY(sh, p.Cell[3]))
}
