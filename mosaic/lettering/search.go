package lettering

import (
	"math"
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering/faces"
)

// Fewest seats a letter (an H) may be wide and rows it may be high: below that
// nothing tells it from its neighbours in the alphabet.
const (
	fewestSeats = 3.0
	fewestRows  = 5
)

// widest is how wide an H may be, in heights; lines that share the rows are low and may be wider.
const (
	widest     = 1.0
	widestMany = 1.3
)

// draft is one way to lay the whole text.
type draft struct {
	styles []*style // by line
	at     [][]float64
	items  [][]item
	spans  [][]span
	face   string
	share  float64 // of the rows used
	bold   int     // index into boldness
	settle bool    // doubtful seats are decided by the picture
	value  float64 // higher is better

	read []map[placed]float64 // by line: what letters were worth where refine has tried them
}

// placed is a letter at a place, in millionths of a canvas pixel.
type placed struct {
	shape *faces.Shape
	width int64
	x     int64
}

// search tries styles on one canvas.
type search struct {
	g     *ground
	lines [][]sign
	views []*legibility.Canvas // of the further marks
	patch legibility.Patch
	seats []int32

	coming legibility.Coming // what may go wrong
}

// styleFaces are the faces tried, plainest first.
func styleFaces() []face {
	return []face{
		{name: "bold", typeface: boldFace, stem: 0.23},
		{name: "medium", typeface: mediumFace, stem: 0.19},
		{name: "block", across: 1, up: 2},
		{name: "broad block", across: 2, up: 2},
	}
}

// drafts lists what may be tried: faces, heights, gaps and widths, each line's letters
// already placed by spacing alone.
func (s *search) drafts() []*draft {
	var out []*draft
	for _, used := range s.heights() {
		bands := s.bands(used)
		if bands == nil {
			continue
		}
		for _, f := range styleFaces() {
			out = append(out, s.gaps(f, bands, float64(used)/float64(s.g.rows()))...)
		}
	}
	return out
}

// marginRows is the fewest rows a line of which one above and one below the letters may stay ground:
// letters of ten rows lose little to letters of twelve, those of eight much to those of ten
// (measured on a straight grid).
const marginRows = 12

func (s *search) margin() bool { return s.g.rows() >= marginRows*len(s.lines) }

// heights are the numbers of rows tried, most first.
func (s *search) heights() []int {
	rows := s.g.rows()
	share := func(k float64) int { return int(math.Round(k * float64(rows))) }
	if s.margin() {
		return slices.Compact([]int{rows, rows - 2, share(0.8), share(0.7)})
	}
	return slices.Compact([]int{rows, share(0.85), share(0.7)})
}

// gaps tries gaps between letters in seats: narrow ones, and wide ones only where aisles
// otherwise push the line off the middle or make it uneven.
func (s *search) gaps(f face, bands []band, share float64) []*draft {
	var out []*draft
	least := math.Inf(1)
	for i, gap := range []float64{1.2, 2, 3, 4, 5.5, 7, 9} {
		if i > 1 && least < plainEnough {
			break
		}
		for _, d := range s.widths(f, bands, gap, share) {
			least = min(least, s.uneven(d))
			out = append(out, d)
		}
	}
	return out
}

// plainEnough is the cost of unevenness that is not worth wider gaps.
const plainEnough = 0.06

// band is where one line's capitals stand, as edges of rows from the top, and the rows above for accents.
type band struct{ top, base, room int }

// bands shares out the used rows over the lines, in the middle of all rows; nil where they are too few.
func (s *search) bands(used int) []band { return s.bandsFrom(used, -1) }

// bandsFrom is bands with the used rows beginning at one of the rows; −1 is in the middle.
func (s *search) bandsFrom(used, start int) []band {
	n := len(s.lines)
	rows := used
	leading := 0
	if n > 1 {
		leading = max(2, int(math.Round(float64(used)*0.3/(float64(n)+0.3*float64(n-1)))))
		rows = (used - leading*(n-1)) / n
	}
	if rows < fewestRows {
		return nil
	}
	if start < 0 {
		start = (s.g.rows() - rows*n - leading*(n-1)) / 2
	}
	var out []band
	for i, l := range s.lines {
		room := 0 // above the capitals, for accents
		if accents(l) {
			room = max(leastRoom, int(math.Ceil(0.28*float64(rows))))
			if rows-room < fewestRows {
				return nil
			}
		}
		top := start + i*(rows+leading)
		out = append(out, band{top + room, top + rows, room})
	}
	return out
}

// leastRoom is the fewest rows for an accent: one of ground and two for its strokes.
const leastRoom = 3

func (s *search) widths(f face, bands []band, gap, share float64) []*draft {
	g := s.g
	pitch := g.canvas.Pitch
	most := math.Inf(1)
	broad := widest
	if len(bands) > 1 {
		broad = widestMany
	}
	for _, b := range bands {
		most = min(most, broad*(g.edges[b.base]-g.edges[b.top]))
	}
	var spans [][]span
	for _, b := range bands {
		spans = append(spans, g.spans(g.edges[b.top], g.edges[b.base]))
	}
	try := func(wide float64) *draft {
		d := &draft{face: f.name, share: share, spans: spans}
		for i, b := range bands {
			st := &style{face: f, top: g.edges[b.top], base: g.edges[b.base], wide: wide, gap: gap * pitch, pitch: pitch, row: g.row, room: g.edges[b.top] - g.edges[b.top-b.room]}
			items := st.items(s.lines[i], nil)
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
			j.step *= 2 // coarse: refine moves the letters again
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
		j := s.joint(d, i)
		at := d.at[i]
		spans := d.spans[i]
		middle := (spans[0].left + spans[len(spans)-1].right) / 2
		long := at[len(at)-1] + items[len(at)-1].width - at[0]
		j.start, j.end = middle-long/2, middle+long/2
		j.near, j.reach = at, steps*j.step
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
	m := 0.25*(st.base-st.top) + 3*c.Blur
	s.patch.Begin(c, x-m, x+it.width+m)
	s.seats = st.seats(c, &it, x, inkShare, s.seats[:0])
	for _, i := range s.seats {
		s.patch.Ink(i, 1)
	}
	return s.patch.Compare(it.rune, x, st.top, x+it.width, st.base)
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
			if quant(weightAll*(sum+float64(rest)*mostWorth)+weightWorst*worst+fixed) < quant(least) {
				return false
			}
		}
	}
	d.value = weightAll*sum + weightWorst*worst + fixed
	return true
}

// How much all letters and the worst one count.
const (
	weightAll   = 0.4
	weightWorst = 0.3
)

// total joins the letters' worth: all together, and the worst one.
func total(v []float64) float64 {
	sum, worst := 0.0, math.Inf(1)
	for _, x := range v {
		sum += x
		worst = min(worst, x)
	}
	return float64(weightAll*sum) + float64(weightWorst*worst)
}

// sizeBonus favours letters as high as the stands allow, but for a row of ground above
// and below where there are rows enough.
func (s *search) sizeBonus(d *draft) float64 {
	if d.share >= 1 && s.margin() {
		return d.share - costEdge
	}
	return d.share
}

// What the learned reader does not see, in the units of worth, as measured on the tuning half:
// strokes that end where the cards end, so that their edge is the edge of what lies behind; and
// doubtful seats that were settled by a picture in which hands are steady.
const (
	costEdge   = 0.5
	costSettle = 0.2
)

// choose gives every letter the cut that reads best where it stands, and spaces the
// line again.
func (s *search) choose(d *draft) {
	old := *d
	d.items, d.at = make([][]item, len(old.items)), nil
	for i, items := range old.items {
		st := d.styles[i]
		chosen := make([]int, len(items))
		for k, it := range items {
			most := -worstCost
			middle := old.at[i][k] + it.width/2
			for n, c := range cuts {
				try := it
				if try.shape, try.width = st.shape(it.rune, c); try.shape == nil {
					continue
				}
				w := worth(s.single(st, try, middle-try.width/2))
				if n > 0 {
					w -= cutCost
				}
				if quant(w) > quant(most) {
					most, chosen[k] = w, n
				}
			}
		}
		d.items[i] = st.items(s.lines[i], chosen)
		if _, ok := fits(d.items[i], d.spans[i], st.pitch); !ok {
			*d = old
			return
		}
	}
	if !s.space(d) {
		*d = old
	}
}

// cutCost is what another cut than the face's own must gain.
const cutCost = 0.05

// ink is the whole layout's ink by seat.
func (s *search) ink(d *draft) []bool {
	out := make([]bool, len(s.g.field.Seats))
	for i, items := range d.items {
		st := d.styles[i]
		for k, it := range items {
			if d.settle {
				s.seats = st.settled(s.g.canvas, &s.patch, &it, d.at[i][k])
			} else {
				s.seats = st.seats(s.g.canvas, &it, d.at[i][k], boldness[d.bold], s.seats[:0])
			}
			s.seats = s.twins(st, &it, d.at[i][k], s.tidy(st, &it, d.at[i][k], s.seats))
			for _, n := range s.seats {
				out[n] = true
			}
		}
	}
	return out
}

// whole values a draft in the full picture of every view with everything that may go wrong
// still to come: thinner and bolder, and with doubtful seats settled; the best counts.
func (s *search) whole(d *draft) {
	best := *d
	best.value = -worstCost
	for n := range len(boldness) + 1 {
		try := *d
		try.bold, try.settle = n%len(boldness), n == len(boldness)
		if try.value = s.valueOf(&try); quant(try.value) > quant(best.value) {
			best = try
		}
	}
	*d = best
}

func (s *search) valueOf(d *draft) float64 {
	ink := s.ink(d)
	value := math.Inf(1)
	for v := -1; v < len(s.views); v++ {
		c := s.g.canvas
		if v >= 0 {
			c = s.views[v]
		}
		s.patch.Show(c, ink, nil, nil)
		value = min(value, total(s.letters(d, c)))
	}
	if d.settle {
		value -= costSettle
	}
	return value + s.sizeBonus(d) - s.uneven(d)
}

// letters reads every letter of the draft in the patch, among its neighbours.
func (s *search) letters(d *draft, c *legibility.Canvas) []float64 {
	var all []float64
	for i, items := range d.items {
		st := d.styles[i]
		l := legibility.Line{Of: len(d.items), Coming: s.coming}
		for k, it := range items {
			box := [4]float64{d.at[i][k], st.top, d.at[i][k] + it.width, st.base}
			if c != s.g.canvas {
				box = legibility.Carry(s.g.canvas, c, box)
			}
			l.Runes, l.Boxes = append(l.Runes, it.rune), append(l.Boxes, box)
		}
		for k := range items {
			r := s.patch.CompareIn(&l, k)
			all = append(all, math.Log(max(r.Chance, 0.003))+float64(shapeWorth*r.Shape))
		}
	}
	return all
}

// shapeWorth is what a letter well drawn is worth beside one that is read.
const shapeWorth = 0.1

// uneven is what gaps that differ and a line off centre cost.
func (s *search) uneven(d *draft) float64 {
	cost := 0.0
	for i, items := range d.items {
		at, spans, st := d.at[i], d.spans[i], d.styles[i]
		pitch := st.pitch
		middle := (spans[0].left + spans[len(spans)-1].right) / 2
		off := ((at[0]+at[len(at)-1]+items[len(at)-1].width)/2 - middle) / pitch
		cost += 2*costCentre*off*off + costSparse*max(0, st.gap/st.pitch-2)
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
