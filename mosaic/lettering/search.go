package lettering

import (
	"math"
	"slices"

	"everyseat/mosaic/legibility"
)

// Fewest seats a letter (an H) may be wide and rows it may be high: below that
// nothing tells it from its neighbours in the alphabet.
const (
	fewestSeats = 3.0
	fewestRows  = 5
)

// widest is how wide an H may be, in heights.
const widest = 1.0

// draft is one way to lay the whole text.
type draft struct {
	styles []*style // by line
	at     [][]float64
	items  [][]item
	spans  [][]span
	face   string
	share  float64 // of the rows used
	value  float64 // higher is better
}

// search tries styles on one canvas.
type search struct {
	g     *ground
	lines [][]sign
	views []*legibility.Canvas // of the further marks
	patch legibility.Patch
	seats []int32
}

// styleFaces are the faces tried, plainest first.
func styleFaces() []face {
	return []face{
		{name: "bold", typeface: boldFace},
		{name: "medium", typeface: mediumFace},
		{name: "block", across: 1, up: 2},
		{name: "broad block", across: 2, up: 2},
	}
}

// drafts lists what may be tried: faces, heights, gaps and widths, each line's letters
// already placed by spacing alone.
func (s *search) drafts() []*draft {
	var out []*draft
	seen := map[[2]int]bool{}
	for _, share := range []float64{1, 0.85, 0.7} {
		used := int(math.Round(share * float64(s.g.rows())))
		bands := s.bands(used)
		if bands == nil {
			continue
		}
		if seen[[2]int{used}] {
			continue
		}
		seen[[2]int{used}] = true
		for _, f := range styleFaces() {
			for _, gap := range []float64{1, 1.5, 2} {
				out = append(out, s.widths(f, bands, gap, float64(used)/float64(s.g.rows()))...)
			}
		}
	}
	return out
}

// band is where one line's capitals stand, as edges of rows from the top.
type band struct{ top, base int }

// bands shares out the used rows over the lines; nil where they are too few.
func (s *search) bands(used int) []band {
	n := len(s.lines)
	room := 0 // rows above for accents, and between lines
	rows := used
	leading := 0
	if n > 1 {
		leading = max(2, int(math.Round(float64(used)*0.3/(float64(n)+0.3*float64(n-1)))))
		rows = (used - leading*(n-1)) / n
	}
	if rows < fewestRows {
		return nil
	}
	start := (s.g.rows() - rows*n - leading*(n-1)) / 2
	var out []band
	for i, l := range s.lines {
		room = 0
		if accents(l) {
			room = int(math.Ceil(0.28 * float64(rows)))
		}
		top := start + i*(rows+leading)
		out = append(out, band{top + room, top + rows})
	}
	return out
}

func (s *search) widths(f face, bands []band, gap, share float64) []*draft {
	g := s.g
	pitch := g.canvas.Pitch
	most := math.Inf(1)
	for _, b := range bands {
		most = min(most, widest*(g.edges[b.base]-g.edges[b.top]))
	}
	var spans [][]span
	for _, b := range bands {
		spans = append(spans, g.spans(g.edges[b.top], g.edges[b.base]))
	}
	try := func(wide float64) *draft {
		d := &draft{face: f.name, share: share, spans: spans}
		for i, b := range bands {
			st := &style{face: f, top: g.edges[b.top], base: g.edges[b.base], wide: wide, gap: gap * pitch, pitch: pitch, row: g.row}
			items := st.items(s.lines[i])
			if _, ok := fits(items, spans[i], pitch); !ok {
				return nil
			}
			d.styles, d.items = append(d.styles, st), append(d.items, items)
		}
		return d
	}
	// the widest that fits, by halving
	lo, hi := fewestSeats*pitch, max(most, fewestSeats*pitch)
	if try(lo) == nil {
		return nil
	}
	if try(hi) == nil {
		for range 7 {
			if mid := (lo + hi) / 2; try(mid) != nil {
				lo = mid
			} else {
				hi = mid
			}
		}
	} else {
		lo = hi
	}
	var out []*draft
	for _, k := range []float64{1, 0.87} {
		if d := try(max(lo*k, fewestSeats*pitch)); d != nil && s.space(d) {
			out = append(out, d)
		}
	}
	return out
}

// space places the letters of a draft by spacing and centring alone.
func (s *search) space(d *draft) bool {
	d.at = make([][]float64, len(d.items))
	for i, items := range d.items {
		spans := d.spans[i]
		middle := (spans[0].left + spans[len(spans)-1].right) / 2
		long, _ := fits(items, spans, d.styles[i].pitch)
		for range 2 {
			j := s.joint(d, i)
			j.start, j.end = middle-long/2, middle+long/2
			at, cost := j.solve()
			if cost >= worstCost {
				return false
			}
			d.at[i] = at
			long = at[len(at)-1] + items[len(at)-1].width - at[0]
		}
	}
	return true
}

func (s *search) joint(d *draft, line int) *joint {
	pitch := d.styles[line].pitch
	return &joint{items: d.items[line], spans: d.spans[line], pitch: pitch, step: max(pitch/4, d.styles[line].wide/40)}
}

// refine moves the letters to the places near their own where they read best.
func (s *search) refine(d *draft) {
	for i, items := range d.items {
		st := d.styles[i]
		memo := map[[2]int64]float64{}
		j := s.joint(d, i)
		at := d.at[i]
		j.start, j.end = at[0], at[len(at)-1]+items[len(at)-1].width
		j.near, j.reach = at, 5*j.step
		j.read = func(k int, x float64) float64 {
			key := [2]int64{int64(items[k].rune), quant(x)}
			if v, ok := memo[key]; ok {
				return v
			}
			v := -worth(s.single(st, items[k], x)) / float64(len(items))
			memo[key] = v
			return v
		}
		if at, cost := j.solve(); cost < worstCost {
			d.at[i] = at
		}
	}
}

// worth is what one letter's likeness is worth.
func worth(l legibility.Likeness) float64 { return max(l.LogP, -6) + 1.5*l.Right }

// single reads one letter that stands alone.
func (s *search) single(st *style, it item, x float64) legibility.Likeness {
	c := s.g.canvas
	m := 0.25*(st.base-st.top) + 3*c.Blur
	s.patch.Begin(c, x-m, x+it.width+m)
	s.seats = st.seats(c, it.rune, x, s.seats[:0])
	for _, i := range s.seats {
		s.patch.Ink(i, 1)
	}
	return s.patch.Compare(it.rune, x, st.top, x+it.width, st.base)
}

// glance values a draft by its letters where spacing put them, each alone.
func (s *search) glance(d *draft) {
	var all []float64
	for i, items := range d.items {
		for k, it := range items {
			all = append(all, worth(s.single(d.styles[i], it, d.at[i][k])))
		}
	}
	d.value = total(all) + sizeBonus(d)
}

// total joins the letters' worth: the mean, and the worst one.
func total(v []float64) float64 {
	sum, worst := 0.0, math.Inf(1)
	for _, x := range v {
		sum += x
		worst = min(worst, x)
	}
	return 0.5*sum/float64(len(v)) + 0.5*worst
}

func sizeBonus(d *draft) float64 { return 1.2 * d.share }

// ink is the whole layout's ink by seat.
func (s *search) ink(d *draft) []bool {
	out := make([]bool, len(s.g.field.Seats))
	for i, items := range d.items {
		for k, it := range items {
			s.seats = d.styles[i].seats(s.g.canvas, it.rune, d.at[i][k], s.seats[:0])
			for _, n := range s.seats {
				out[n] = true
			}
		}
	}
	return out
}

// whole values a draft in the full picture of every view.
func (s *search) whole(d *draft) {
	ink := s.ink(d)
	d.value = math.Inf(1)
	for v := -1; v < len(s.views); v++ {
		c := s.g.canvas
		if v >= 0 {
			c = s.views[v]
		}
		s.patch.Begin(c, 0, float64(c.W))
		for i, on := range ink {
			if on {
				s.patch.Ink(int32(i), 1)
			}
		}
		var all []float64
		for i, items := range d.items {
			st := d.styles[i]
			for k, it := range items {
				box := [4]float64{d.at[i][k], st.top, d.at[i][k] + it.width, st.base}
				if v >= 0 {
					box = legibility.Carry(s.g.canvas, c, box)
				}
				all = append(all, worth(s.patch.Compare(it.rune, box[0], box[1], box[2], box[3])))
			}
		}
		d.value = min(d.value, total(all)+sizeBonus(d)-s.uneven(d))
	}
}

// uneven is what gaps that differ and a line off centre cost.
func (s *search) uneven(d *draft) float64 {
	cost := 0.0
	for i, items := range d.items {
		at, spans, pitch := d.at[i], d.spans[i], d.styles[i].pitch
		middle := (spans[0].left + spans[len(spans)-1].right) / 2
		off := ((at[0]+at[len(at)-1]+items[len(at)-1].width)/2 - middle) / pitch
		cost += 2 * costCentre * off * off
		for k := 1; k < len(at); k++ {
			e := (at[k] - at[k-1] - items[k-1].width - items[k].gap) / pitch
			if e > 0 {
				e /= 2
			}
			cost += costGap * e * e / float64(len(at))
		}
	}
	return cost
}

// best sorts drafts by value, higher first, and keeps n.
func best(ds []*draft, n int) []*draft {
	slices.SortStableFunc(ds, func(a, b *draft) int { return sign64(float64(quant(b.value) - quant(a.value))) })
	return ds[:min(n, len(ds))]
}
