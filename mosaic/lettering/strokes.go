package lettering

import (
	"cmp"
	"math"
	"slices"

	"everyseat/mosaic/faces"
)

const (
	// bridge is how much of a seat a letter must cover for the seat to mend a broken stroke.
	bridge = faces.FullCover * 8 / 100
	// speck is how many seats beside a letter are a blot and no stroke.
	speck = 2
)

// covered is a seat that a letter touches, by how much, and which of its parts it shows most of: strokes that do not
// touch are parts, such as the dot of an exclamation mark, or an accent.
type covered struct {
	seat  int32
	share int
	part  int
}

// touched is the seats that one letter touches, by seat.
type touched struct {
	g   *ground
	all []covered
}

func (s *search) touched(st *style, it *item, x float64) touched {
	t := touched{g: s.g}
	sh, k := it.shape, float64(it.shape.Cols*faces.Fine)/it.width
	st.covered(s.g.canvas, it, x, func(seat int32, share int) {
		c := &s.g.canvas.Places[seat].Cell
		part := sh.Part(round((c[0]-x)*k), st.rasterY(sh, c[1]), round((c[2]-x)*k), st.rasterY(sh, c[3]))
		t.all = append(t.all, covered{seat, share, part})
	})
	slices.SortFunc(t.all, func(a, b covered) int { return cmp.Compare(a.seat, b.seat) })
	return t
}

// part is that of a seat; 0 where the letter does not touch it.
func (t *touched) part(seat int32) int {
	k, ok := slices.BinarySearchFunc(t.all, seat, func(c covered, s int32) int { return cmp.Compare(c.seat, s) })
	if !ok {
		return 0
	}
	return t.all[k].part
}

// touch says whether any of some seats lies beside one of others.
func (g *ground) touch(some, others []int32) bool {
	near := g.neighbours()
	return slices.ContainsFunc(some, func(i int32) bool {
		return slices.ContainsFunc(near[i], func(n int32) bool { return slices.Contains(others, n) })
	})
}

// tidy mends strokes that fell apart where no seat was covered enough, and takes off what is left
// beside the letter: the pieces of every part of the letter become one, where a seat is there for it.
func (s *search) tidy(st *style, it *item, x float64, ink []int32) []int32 {
	if s.g.whole(ink) {
		return ink
	}
	t := tidier{touched: s.touched(st, it, x), ink: ink}
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
	if len(g.loose) != len(near) {
		g.loose = make([]bool, len(near))
	}
	for _, i := range ink {
		g.loose[i] = true
	}
	g.todo = append(g.todo[:0], ink[0])
	g.loose[ink[0]] = false
	for k := 0; k < len(g.todo); k++ {
		for _, n := range near[g.todo[k]] {
			if g.loose[n] {
				g.loose[n] = false
				g.todo = append(g.todo, n)
			}
		}
	}
	for _, i := range ink {
		g.loose[i] = false
	}
	return len(g.todo) == len(ink)
}

// tidier is one letter's ink while it is mended.
type tidier struct {
	touched
	ink []int32
}

// pieces are the ink's connected pieces of each part, smallest first.
func (t *tidier) pieces() [][]int32 {
	var out [][]int32
	near := t.g.neighbours()
	left := map[int32]bool{}
	for _, i := range t.ink {
		left[i] = true
	}
	for _, i := range t.ink {
		if !left[i] {
			continue
		}
		left[i] = false
		piece, part := []int32{i}, t.part(i)
		for k := 0; k < len(piece); k++ {
			for _, n := range near[piece[k]] {
				if left[n] && t.part(n) == part {
					left[n] = false
					piece = append(piece, n)
				}
			}
		}
		slices.Sort(piece)
		out = append(out, piece)
	}
	slices.SortFunc(out, func(a, b []int32) int { return cmp.Or(len(a)-len(b), int(a[0]-b[0])) })
	return out
}

// mend joins the smallest piece that has others of its part, or takes it off; false where nothing is left to do.
func (t *tidier) mend() bool {
	all := t.pieces()
	for k, piece := range all {
		part := t.part(piece[0])
		rest := slices.DeleteFunc(slices.Concat(all[k+1:]...), func(i int32) bool { return t.part(i) != part })
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
	for _, c := range t.all {
		if c.share <= most || slices.Contains(t.ink, c.seat) {
			continue
		}
		other := slices.ContainsFunc(t.g.neighbours()[c.seat], func(n int32) bool {
			return t.part(n) != part && slices.Contains(t.ink, n)
		})
		if own := []int32{c.seat}; !other && t.g.touch(own, piece) && t.g.touch(own, rest) {
			best, most = c.seat, c.share
		}
	}
	return best
}

// twins gives parts of a letter that are alike, such as the dots of a colon, blocks of one size as the camera
// sees them: as many seats wide as the widest of them, and of as many rows as come nearest to the mean of their ink.
func (s *search) twins(st *style, it *item, x float64, ink []int32) []int32 {
	parts := it.shape.Twins()
	if parts == nil {
		return ink
	}
	t := twins{touched: s.touched(st, it, x), rows: map[int][][]covered{}}
	seats := s.g.field.Seats
	for _, c := range t.all {
		rows, seat := t.rows[c.part], &seats[c.seat]
		if n := len(rows); n > 0 {
			if last := &seats[rows[n-1][0].seat]; last.Section == seat.Section && last.Row == seat.Row {
				rows[n-1] = append(rows[n-1], c)
				continue
			}
		}
		t.rows[c.part] = append(rows, []covered{c})
	}
	across, area := t.size(parts, ink)
	rest := slices.DeleteFunc(slices.Clone(ink), func(i int32) bool { return slices.Contains(parts, t.part(i)) })
	for ; across > 0; across-- {
		if blocks := t.blocks(parts, across, area, rest); blocks != nil {
			return append(rest, blocks...)
		}
	}
	return ink
}

// blocks are the blocks of all parts, or nil where they would touch each other or the rest of the letter.
func (t *twins) blocks(parts []int, across int, area float64, rest []int32) []int32 {
	var out []int32
	for k := len(parts) - 1; k >= 0; k-- {
		block := t.block(parts[k], across, area)
		if block == nil || t.g.touch(block, rest) || t.g.touch(block, out) {
			return nil
		}
		if out == nil {
			area = t.area(block) // the lowest has the highest rows, and the least choice
		}
		out = append(out, block...)
	}
	slices.Sort(out)
	return out
}

type twins struct {
	touched
	rows map[int][][]covered // by part: its seats row by row, front to back
}

// size is how many seats wide a block is, and the area it should have; 0 where a part has no ink.
func (t *twins) size(parts []int, ink []int32) (across int, area float64) {
	for _, p := range parts {
		own := 0.0
		for _, row := range t.rows[p] {
			var inked []int32
			for _, c := range row {
				if slices.Contains(ink, c.seat) {
					inked = append(inked, c.seat)
				}
			}
			across = max(across, len(inked))
			own += t.area(inked)
		}
		if own == 0 {
			return 0, 0
		}
		area += own / float64(len(parts))
	}
	return across, area
}

// area is how much of the canvas cells fill.
func (t *twins) area(seats []int32) (sum float64) {
	for _, i := range seats {
		c := &t.g.canvas.Places[i].Cell
		sum += float64((c[2] - c[0]) * (c[3] - c[1]))
	}
	return sum
}

// block is the seats of a part that are so many across and come nearest to an area: of rows one behind the other,
// those where the part covers most; nil where it touches too few seats.
func (t *twins) block(part, across int, area float64) []int32 {
	var best []int32
	off := int64(math.MaxInt64)
	for up := 1; up <= len(t.rows[part]); up++ {
		block := t.blockOf(part, across, up)
		if block == nil {
			break
		}
		if d := max(quant(t.area(block)-area), quant(area-t.area(block))); d < off {
			best, off = block, d
		}
	}
	return best
}

func (t *twins) blockOf(part, across, up int) []int32 {
	rows, seats := t.rows[part], t.g.field.Seats
	var best []int32
	most := -1
	for first := 0; first+up <= len(rows); first++ {
		var block []int32
		sum := 0
		for k := first; k < first+up; k++ {
			at, share := window(rows[k], across)
			if at < 0 || k > first && seats[rows[k][0].seat].Row-seats[rows[k-1][0].seat].Row != 1 {
				block = nil
				break
			}
			for _, c := range rows[k][at : at+across] {
				block = append(block, c.seat)
			}
			sum += share
		}
		if block != nil && sum > most {
			best, most = block, sum
		}
	}
	return best
}

// window is where so many seats side by side are covered most, and by how much; −1 where there are not so many.
func window(row []covered, across int) (at, most int) {
	at, most = -1, -1
	for k := 0; k+across <= len(row); k++ {
		if row[k+across-1].seat-row[k].seat != int32(across-1) {
			continue
		}
		sum := 0
		for _, c := range row[k : k+across] {
			sum += c.share
		}
		if sum > most {
			at, most = k, sum
		}
	}
	return at, most
}
