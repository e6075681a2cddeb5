package lettering

import (
	"cmp"
	"math"
	"slices"

	"everyseat/mosaic/faces"
	"everyseat/mosaic/legibility"
)

// search tries styles on one canvas.
type search struct {
	g     *ground
	lines [][]sign
	film  []*legibility.Canvas // what every mark sees, the camera first
	patch legibility.Patch
	seats []int32

	coming legibility.Coming // what may go wrong
	crowd  legibility.Crowd
}

// placed is a letter at a place, in millionths of a canvas pixel.
type placed struct {
	shape *faces.Shape
	width int64
	x     int64
}

// space places the letters of a draft by spacing and centring alone.
func (s *search) space(d *draft) bool {
	d.at = make([][]float64, len(d.items))
	for i, items := range d.items {
		long, _ := fits(items, d.intervals[i], d.styles[i].pitch)
		for range 2 {
			j := s.spacer(d, i, long)
			j.step *= 2 // coarse: refine moves the letters again
			at, cost := j.solve()
			if cost >= worstCost {
				return false
			}
			d.at[i] = at
			long = d.end(i) - at[0]
		}
	}
	return true
}

// spacer spaces a line that should be so long, in the middle.
func (s *search) spacer(d *draft, line int, long float64) *spacer {
	st, middle := d.styles[line], d.middle(line)
	return &spacer{
		items: d.items[line], intervals: d.intervals[line], pitch: st.pitch, step: max(st.pitch/4, st.wide/40),
		start: middle - float64(long/2), end: middle + float64(long/2),
	}
}

// refine moves the letters to the places near their own where they read best.
func (s *search) refine(d *draft) {
	d.read = make([]map[placed]float64, len(d.items))
	for i := range d.read {
		d.read[i] = map[placed]float64{}
	}
	s.refineWithin(d, 5)
}

// refineWithin is refine with how many steps a letter may move.
func (s *search) refineWithin(d *draft, steps float64) {
	for i, items := range d.items {
		st := d.styles[i]
		memo := d.read[i]
		j := s.spacer(d, i, d.end(i)-d.at[i][0])
		j.near, j.reach = d.at[i], steps*j.step
		j.read = func(k int, x float64) float64 {
			key := placed{items[k].shape, quant(items[k].width), quant(x)}
			if v, ok := memo[key]; ok {
				return v
			}
			v := -weightAll * worth(s.single(st, items[k], x))
			memo[key] = v
			return v
		}
		if at, cost := j.solve(); cost < worstCost {
			d.at[i] = at
		}
	}
}

// worth is what one letter's likeness is worth: mostly whether it is read, a little whether
// it is well drawn.
func worth(l legibility.Likeness) float64 {
	return math.Log(max(l.Chance, 0.005)) + float64(mostWorth*l.Shape)
}

// mostWorth is worth of a letter that is surely read and perfectly drawn.
const mostWorth = 1.5

// single reads one letter that stands alone.
func (s *search) single(st *style, it item, x float64) legibility.Likeness {
	c := s.g.canvas
	m := float64(0.25*(st.base-st.top)) + float64(3*c.Blur)
	s.patch.Begin(c, x-m, x+it.width+m)
	s.seats = st.seats(c, &it, x, inkShare, s.seats[:0])
	for _, i := range s.seats {
		s.patch.Ink(i, 1)
	}
	return s.patch.Compare(it.rune, [4]float64{x, st.top, x + it.width, st.base})
}

// glance values drafts by their letters where spacing put them, each alone, and keeps
// the best n. A draft is left as soon as its remaining letters cannot bring it among them.
func (s *search) glance(ds []*draft, n int) []*draft {
	var kept []*draft
	for _, d := range ds {
		least := -worstCost
		if len(kept) == n {
			least = kept[n-1].value
		}
		if s.alone(d, least) {
			kept = best(append(kept, d), n)
		}
	}
	return kept
}

// alone values a draft letter by letter; false if it ends under least.
func (s *search) alone(d *draft, least float64) bool {
	rest := 0
	for _, items := range d.items {
		rest += len(items)
	}
	fixed := s.sizeBonus(d) - s.uneven(d)
	sum, worst := 0.0, mostWorth
	for i, items := range d.items {
		for k, it := range items {
			w := worth(s.single(d.styles[i], it, d.at[i][k]))
			sum, worst = sum+w, min(worst, w)
			rest--
			most := float64(weightAll*(sum+float64(float64(rest)*mostWorth))) + float64(weightWorst*worst) + fixed
			if quant(most) < quant(least) {
				return false
			}
		}
	}
	d.value = float64(weightAll*sum) + float64(weightWorst*worst) + fixed
	return true
}

// How much all letters and the worst one count.
const (
	weightAll   = 0.4
	weightWorst = 0.3
)

// sizeBonus favours letters as high and as wide as the stands allow, but for a row of ground above and below where there
// are rows enough.
func (s *search) sizeBonus(d *draft) float64 {
	size := float64(weightHigh*d.share) + float64(weightWide*d.filled())
	if d.share >= 1 && s.margin() {
		size -= costEdge
	}
	return size
}

// What letters are worth that use all rows, and that fill the sections across, beside how they are read: by eye, over
// sheets of plans; the learned reader hardly tells letters of ten rows from those of twelve.
const (
	weightHigh = 1.7
	weightWide = 0.8
)

// filled is the share of the seats across that the letters of the emptiest line take.
func (d *draft) filled() float64 {
	least := 1.0
	for i, items := range d.items {
		wide, room := 0.0, 0.0
		for _, it := range items {
			wide += it.width
		}
		for _, in := range d.intervals[i] {
			room += in.right - in.left
		}
		least = min(least, wide/max(room, 1e-6))
	}
	return least
}

// costEdge is what the learned reader does not see, in the units of worth, as measured on the tuning half: strokes that
// end where the cards end, so that their edge is the edge of what lies behind.
const costEdge = 0.5

// choose gives every letter the cut that reads best where it stands, and spaces the
// line again.
func (s *search) choose(d *draft) {
	old := *d
	d.items, d.at = make([][]item, len(old.items)), nil
	for i, items := range old.items {
		st := d.styles[i]
		chosen := make([]cut, len(items))
		for k, it := range items {
			most := -worstCost
			middle := old.at[i][k] + float64(it.width/2)
			for n, c := range cuts {
				try := it
				if try.shape, try.width = st.shape(it.rune, c); try.shape == nil {
					continue
				}
				w := worth(s.single(st, try, middle-float64(try.width/2)))
				if n > 0 {
					w -= cutCost
				}
				if quant(w) > quant(most) {
					most, chosen[k] = w, c
				}
			}
		}
		d.items[i] = st.items(s.lines[i], chosen)
		if _, ok := fits(d.items[i], d.intervals[i], st.pitch); !ok {
			*d = old
			return
		}
	}
	if !s.space(d) {
		*d = old
	}
}

// grow makes single letters wider, or narrower, where the line then reads better: width goes to the letters that need it,
// and to what is left over beside them.
func (s *search) grow(d *draft) *draft {
	for range growPasses {
		before := d
		for i := range d.items {
			for k := range d.items[i] {
				for _, by := range growBy {
					if try := s.widened(d, i, k, by); try != nil && quant(try.composed()) > quant(d.composed()) {
						d = try
					}
				}
			}
		}
		if d == before {
			break
		}
	}
	return d
}

// How often all letters are looked at, and how much wider each is tried.
const growPasses = 2

var growBy = []float64{1.3, 1.12, 0.85}

// widened is d with one letter so many times as wide, valued; nil where that does not fit.
func (s *search) widened(d *draft, line, letter int, by float64) *draft {
	try := *d
	st := d.styles[line]
	chosen := make([]cut, len(d.items[line]))
	for k := range chosen {
		chosen[k] = d.items[line][k].cut
	}
	if chosen[letter].wide *= by; chosen[letter].wide > mostGrown || chosen[letter].wide < leastGrown {
		return nil
	}
	try.items, try.at = slices.Clone(d.items), nil
	try.items[line] = st.items(s.lines[line], chosen)
	if it := &try.items[line][letter]; it.width > float64(mostWide*(st.base-st.top)) {
		return nil
	}
	if _, ok := fits(try.items[line], d.intervals[line], st.pitch); !ok || !s.space(&try) {
		return nil
	}
	s.refineWithin(&try, 2)
	try.value = s.valueOf(&try)
	return &try
}

// How wide a letter may be, in heights, and how far from the line's own width it may grow: beyond that it looks as if
// it came from another text.
const (
	mostWide   = 1.8
	mostGrown  = 1.4
	leastGrown = 0.75
)

// cutCost is what another cut than the face's own must gain.
const cutCost = 0.05

// ink is the whole layout's ink by seat.
func (s *search) ink(d *draft) []bool {
	out := make([]bool, len(s.g.field.Seats))
	for i, items := range d.items {
		st := d.styles[i]
		for k, it := range items {
			s.seats = st.seats(s.g.canvas, &it, d.at[i][k], boldness[d.bold], s.seats[:0])
			s.seats = s.twins(st, &it, d.at[i][k], s.tidy(st, &it, d.at[i][k], s.seats))
			for _, n := range s.seats {
				out[n] = true
			}
		}
	}
	return out
}

// whole values a draft in the full picture of every view with everything that may go wrong
// still to come: thinner and bolder; the best counts.
func (s *search) whole(d *draft) {
	best := *d
	best.value = -worstCost
	for n := range boldness {
		try := *d
		try.bold = n
		if try.value = s.valueOf(&try); quant(try.value) > quant(best.value) {
			best = try
		}
	}
	*d = best
}

func (s *search) valueOf(d *draft) float64 {
	ink := s.ink(d)
	value := math.Inf(1)
	for _, c := range s.film {
		s.patch.Show(c, ink, nil, nil)
		value = min(value, s.letters(d, c))
	}
	return value + s.sizeBonus(d) - s.uneven(d)
}

// letters reads every letter of the draft in the patch, among its neighbours, and joins what they are worth: all
// together, and the worst one.
func (s *search) letters(d *draft, c *legibility.Canvas) float64 {
	sum, worst := 0.0, math.Inf(1)
	for i, items := range d.items {
		st := d.styles[i]
		l := legibility.Line{Of: len(d.items), Coming: s.coming, Crowd: s.crowd}
		for k, it := range items {
			box := s.filmed(c, [4]float64{d.at[i][k], st.top, d.at[i][k] + it.width, st.base})
			l.Runes, l.Boxes = append(l.Runes, it.rune), append(l.Boxes, box)
		}
		for k := range items {
			r := s.patch.CompareIn(&l, k)
			w := math.Log(max(r.Chance, 0.003)) + float64(shapeWorth*r.Shape)
			sum, worst = sum+w, min(worst, w)
		}
	}
	return float64(weightAll*sum) + float64(weightWorst*worst)
}

// filmed is where a letter's box lies in what a mark sees.
func (s *search) filmed(c *legibility.Canvas, box [4]float64) [4]float64 {
	if c == s.g.canvas {
		return box
	}
	return legibility.Carry(s.g.canvas, c, box)
}

// shapeWorth is what a letter well drawn is worth beside one that is read.
const shapeWorth = 0.1

// uneven is what gaps that differ and a line off centre cost.
func (s *search) uneven(d *draft) float64 {
	cost := 0.0
	for i, items := range d.items {
		at, pitch := d.at[i], d.styles[i].pitch
		off := (float64((at[0]+at[len(at)-1]+items[len(at)-1].width)/2) - d.middle(i)) / pitch
		cost += float64(2*costCentre*off*off) + float64(costSparse*max(0, d.styles[i].gap/pitch-2))
		for _, e := range d.extra(i) {
			if e /= pitch; e > 0 {
				e /= 2
			}
			cost += float64(costGap * e * e / float64(len(at)))
		}
	}
	return cost
}

// best sorts drafts by value, higher first, and keeps n.
func best(ds []*draft, n int) []*draft {
	slices.SortStableFunc(ds, func(a, b *draft) int { return cmp.Compare(quant(b.value), quant(a.value)) })
	return ds[:min(n, len(ds))]
}
