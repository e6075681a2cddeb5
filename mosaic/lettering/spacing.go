package lettering

import (
	"math"
	"slices"
)

// interval is a stretch of x that letters may use.
type interval struct{ left, right float64 }

// slack is how far ink may reach over the edge of a section, in seats.
const slack = 0.3

// fits reports whether the line fits, each letter within one interval, at its wanted
// gaps, and how long it then is.
func fits(items []item, intervals []interval, pitch float64) (long float64, ok bool) {
	if len(intervals) == 0 {
		return 0, false
	}
	over := float64(slack * pitch)
	k, x, first := 0, intervals[0].left, 0.0
	for i, it := range items {
		if i > 0 {
			x += it.gap
		}
		for ; k < len(intervals); k++ {
			x = max(x, intervals[k].left-over)
			if x+it.width <= intervals[k].right+over {
				break
			}
		}
		if k == len(intervals) {
			return 0, false
		}
		if i == 0 {
			first = x
		}
		x += it.width
	}
	return x - first, true
}

// clearSeat is the least gap between letters, in seats: a seat of ground, wherever the letters stand.
const clearSeat = 1.1

// Costs of a layout, in the units of the reading: a gap one seat off, an end of the
// line one seat off where it should be.
const (
	costGap    = 0.05
	costCentre = 0.015
	costSparse = 0.015 // of the whole line, for every seat by which the gap is wider than two
	worstCost  = 1e9
	// sections farther apart than this, in seats, tear a word
	farSections = 8
)

// spacer places the letters of one line from left to right.
type spacer struct {
	items      []item
	intervals  []interval
	pitch      float64
	step       float64                        // between places tried
	start, end float64                        // where the line should begin and end
	near       []float64                      // places to stay close to; nil: anywhere
	reach      float64                        // how close
	read       func(i int, x float64) float64 // what a letter loses at a place; nil: nothing
	origin     float64                        // of the places
	count      int                            // of the places
	in, inPrev []int                          // intervals that hold the letter at hand, the one before, by place
}

func (j *spacer) x(k int) float64 { return j.origin + float64(float64(k)*j.step) }

// solve is dynamic programming over the places of each letter; the cost is worstCost
// where the line does not fit.
func (j *spacer) solve() (at []float64, cost float64) {
	if len(j.intervals) == 0 {
		return nil, worstCost
	}
	j.origin = j.intervals[0].left - float64(slack*j.pitch)
	j.count = int((j.intervals[len(j.intervals)-1].right-j.origin)/j.step) + 2
	var prev []float64
	j.in, j.inPrev = make([]int, j.count), make([]int, j.count)
	back := make([][]int32, len(j.items))
	for i := range j.items {
		cur := make([]float64, j.count)
		for k := range cur {
			cur[k] = worstCost
		}
		back[i] = make([]int32, j.count)
		lo, hi := 0, j.count-1
		if j.near != nil {
			lo = max(0, int(math.Floor((j.near[i]-j.reach-j.origin)/j.step)))
			hi = min(j.count-1, int(math.Ceil((j.near[i]+j.reach-j.origin)/j.step)))
		}
		for k := lo; k <= hi; k++ {
			j.place(i, k, prev, cur, back[i])
		}
		prev = cur
		j.in, j.inPrev = j.inPrev, j.in
	}
	best, pick := worstCost, -1
	for k, c := range prev {
		if quant(c) < quant(best) {
			best, pick = c, k
		}
	}
	if pick < 0 {
		return nil, worstCost
	}
	at = make([]float64, len(j.items))
	for i := len(at) - 1; i >= 0; i-- {
		at[i] = j.x(pick)
		pick = int(back[i][pick])
	}
	return at, best
}

func (j *spacer) place(i, k int, prev, cur []float64, back []int32) {
	x, w := j.x(k), j.items[i].width
	in := j.intervalOf(x, x+w)
	j.in[k] = in
	if in < 0 {
		return
	}
	c := 0.0
	if i > 0 {
		var from int
		c, from = j.before(i, x, in, prev)
		if from < 0 {
			return
		}
		back[k] = int32(from)
	} else {
		d := (x - j.start) / j.pitch
		c = float64(costCentre * d * d)
	}
	if i == len(j.items)-1 {
		d := (x + w - j.end) / j.pitch
		c += float64(costCentre * d * d)
	}
	if j.read != nil {
		c += j.read(i, x)
	}
	cur[k] = c
}

// before finds the best place of letter i−1 when letter i stands at x in an interval.
func (j *spacer) before(i int, x float64, in int, prev []float64) (best float64, from int) {
	best, from = worstCost, -1
	least := quant(best)
	w, want := j.items[i-1].width, j.items[i].gap
	far := want + float64(3*j.pitch)
	if in > 0 {
		far = max(far, x-j.intervals[in-1].right+float64(2*j.pitch))
	}
	lo := max(0, int(math.Floor((x-far-w-j.origin)/j.step)))
	hi := min(j.count-1, int(math.Floor((x-float64(clearSeat*j.pitch)-w-j.origin)/j.step)))
	for k := lo; k <= hi; k++ {
		if prev[k] >= worstCost {
			continue
		}
		ideal, apart := want, 0.0
		if b := j.inPrev[k]; b != in { // the aisle between may be wider than the gap
			aisle := j.intervals[in].left - j.intervals[b].right
			ideal = max(ideal, aisle)
			apart = max(0, aisle/j.pitch-farSections)
		}
		d := (x - j.x(k) - w - ideal) / j.pitch
		c := prev[k] + float64(costGap*(float64(d*d)+float64(apart*apart)))
		if d < 0 {
			c += float64(2 * costGap * d * d)
		}
		if q := quant(c); q < least {
			best, from, least = c, k, q
		}
	}
	return best, from
}

// intervalOf is the interval that holds a … b, or −1.
func (j *spacer) intervalOf(a, b float64) int {
	e := float64(slack*j.pitch) + 1e-9
	return slices.IndexFunc(j.intervals, func(in interval) bool { return a >= in.left-e && b <= in.right+e })
}

// quant makes whole millionths, so that every processor compares alike.
func quant(v float64) int64 { return int64(math.Round(v * 1e6)) }

const (
	// evenEnough is how far gaps may differ, in seats (standard deviation), before letters are spread.
	evenEnough = 0.4
	// evenWorth is what one seat less of that is worth beside the reading.
	evenWorth = 0.14
	// hopeless is where sections so far apart set the gaps that evenness is not worth more reading.
	hopeless = 2.0
	// spreadSteps is how far letters that were spread may move to where they read best.
	spreadSteps = 4
	// leastEven is how many seats wide an H must stay when letters are made narrower for even gaps.
	leastEven = 3.5
)

// apart are the widest gaps made on purpose, in widths of an H: wider apart, letters are no word.
var apart = []float64{0.65, 0.9}

// spread gives the line one gap throughout, as wide as aisles have already made some of
// its gaps, where the letters are read nearly as well.
func (s *search) spread(d *draft) *draft {
	ragged := d.ragged()
	if ragged < evenEnough {
		return d
	}
	best := d
	for _, far := range apart {
		try := s.evenest(d, far)
		if try == nil {
			continue
		}
		s.refineWithin(try, spreadSteps)
		if try.ragged() >= ragged {
			continue
		}
		try.value = s.valueOf(try)
		if quant(try.composed()) > quant(best.composed()) {
			best = try
		}
	}
	return best
}

// composed is what a draft is worth to the reader and to the eye.
func (d *draft) composed() float64 { return d.value - float64(evenWorth*min(d.ragged(), hopeless)) }

// narrower are the widths tried for letters that would else fill their sections, and so leave all that is
// left over to the aisles.
var narrower = []float64{1, 0.93, 0.87, 0.81}

// evenest is d evened with letters as wide as they may be for gaps that are alike, or the best that can be had.
func (s *search) evenest(d *draft, far float64) *draft {
	var best *draft
	for _, k := range narrower {
		try := s.evened(d, far, k)
		if try != nil && (best == nil || quant(try.ragged()) < quant(best.ragged())) {
			best = try
		}
		if best != nil && best.ragged() < evenEnough {
			break
		}
	}
	return best
}

// evened is d with its widest gap wanted everywhere, at most so far in widths of an H, and letters narrower by some
// share; nil where that does not fit.
func (s *search) evened(d *draft, far, wide float64) *draft {
	try := *d
	try.items, try.at, try.styles = nil, nil, nil
	for i, items := range d.items {
		wider := slices.Max(append(d.extra(i), 0))
		items = slices.Clone(items)
		own := *d.styles[i]
		st := &own
		st.wide *= wide
		wider = max(0, min(wider, float64(far*st.wide)-st.gap))
		for k := range items {
			items[k].width *= wide
			if k > 0 {
				items[k].gap += wider
			}
		}
		try.items, try.styles = append(try.items, items), append(try.styles, st)
	}
	if st := try.styles[0]; wide < 1 && st.wide < leastEven*st.pitch || !s.space(&try) {
		return nil
	}
	return &try
}

// extra is by how much each gap of a line is wider than it was wanted, in canvas pixels.
func (d *draft) extra(line int) []float64 {
	items, at := d.items[line], d.at[line]
	var out []float64
	for k := 1; k < len(at); k++ {
		out = append(out, at[k]-at[k-1]-items[k-1].width-items[k].gap)
	}
	return out
}

// ragged is how far the gaps of the most uneven line differ from what was wanted of
// them all: their standard deviation, in seats.
func (d *draft) ragged() float64 {
	worst := 0.0
	for i := range d.items {
		more := d.extra(i)
		var sum, squares float64
		for _, e := range more {
			e /= d.styles[i].pitch
			sum += e
			squares += float64(e * e)
		}
		if n := float64(len(more)); n > 1 {
			worst = max(worst, math.Sqrt(max(0, squares/n-float64(sum/n*(sum/n)))))
		}
	}
	return worst
}
