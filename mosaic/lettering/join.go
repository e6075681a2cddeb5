package lettering

import (
	"math"

	"everyseat/mosaic/lettering/faces"
)

// item is a letter of a line with what the style makes of it.
type item struct {
	sign
	shape *faces.Shape
	width float64
	gap   float64 // wanted before it: the style's, less the kerning, plus a space
}

// items sets a line; chosen gives each letter's cut, nil the face's own.
func (s *style) items(line []sign, chosen []int) []item {
	out := make([]item, len(line))
	for i, l := range line {
		c := cuts[0]
		if chosen != nil {
			c = cuts[chosen[i]]
		}
		it := &out[i]
		it.sign = l
		it.shape, it.width = s.shape(l.rune, c)
		if i == 0 {
			continue
		}
		it.gap = max(s.gap-faces.Kern(out[i-1].shape, it.shape)*(s.base-s.top), 0.75*s.pitch)
		if l.space {
			it.gap = s.gap + wordSpace*s.wide
		}
	}
	return out
}

// wordSpace is how much wider the gap between words is, in widths of an H.
const wordSpace = 0.8

// slack is how far ink may reach over the edge of a section, in seats.
const slack = 0.3

// fits reports whether the line fits, each letter within one span, at its wanted
// gaps, and how long it then is.
func fits(items []item, spans []span, pitch float64) (long float64, ok bool) {
	if len(spans) == 0 {
		return 0, false
	}
	k, x, first := 0, spans[0].left, 0.0
	for i, it := range items {
		if i > 0 {
			x += it.gap
		}
		for ; k < len(spans); k++ {
			x = max(x, spans[k].left-slack*pitch)
			if x+it.width <= spans[k].right+slack*pitch {
				break
			}
		}
		if k == len(spans) {
			return 0, false
		}
		if i == 0 {
			first = x
		}
		x += it.width
	}
	return x - first, true
}

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

// joint places the letters of one line from left to right.
type joint struct {
	items      []item
	spans      []span
	pitch      float64
	step       float64                        // between places tried
	start, end float64                        // where the line should begin and end
	near       []float64                      // places to stay close to; nil: anywhere
	reach      float64                        // how close
	read       func(i int, x float64) float64 // what a letter loses at a place; nil: nothing
	origin     float64                        // of the places
	count      int                            // of the places
	in, inPrev []int                          // the spans that hold the letter at hand, and the one before, by place
}

func (j *joint) x(k int) float64 { return j.origin + float64(k)*j.step }

// solve is dynamic programming over the places of each letter; the cost is worstCost
// where the line does not fit.
func (j *joint) solve() (at []float64, cost float64) {
	if len(j.spans) == 0 {
		return nil, worstCost
	}
	j.origin = j.spans[0].left - slack*j.pitch
	j.count = int((j.spans[len(j.spans)-1].right-j.origin)/j.step) + 2
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

func (j *joint) place(i, k int, prev, cur []float64, back []int32) {
	x, w := j.x(k), j.items[i].width
	in := j.spanOf(x, x+w)
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
		c = costCentre * d * d
	}
	if i == len(j.items)-1 {
		d := (x + w - j.end) / j.pitch
		c += costCentre * d * d
	}
	if j.read != nil {
		c += j.read(i, x)
	}
	cur[k] = c
}

// before finds the best place of letter i−1 when letter i stands at x in a span.
func (j *joint) before(i int, x float64, in int, prev []float64) (best float64, from int) {
	best, from = worstCost, -1
	least := quant(best)
	w, want := j.items[i-1].width, j.items[i].gap
	far := want + 3*j.pitch
	if in > 0 {
		far = max(far, x-j.spans[in-1].right+2*j.pitch)
	}
	lo := max(0, int(math.Floor((x-far-w-j.origin)/j.step)))
	hi := min(j.count-1, int(math.Floor((x-0.7*j.pitch-w-j.origin)/j.step)))
	for k := lo; k <= hi; k++ {
		if prev[k] >= worstCost {
			continue
		}
		ideal, apart := want, 0.0
		if b := j.inPrev[k]; b != in { // the aisle between may be wider than the gap
			aisle := j.spans[in].left - j.spans[b].right
			ideal = max(ideal, aisle)
			apart = max(0, aisle/j.pitch-farSections)
		}
		d := (x - j.x(k) - w - ideal) / j.pitch
		c := prev[k] + costGap*(d*d+apart*apart)
		if d < 0 {
			c += 2 * costGap * d * d
		}
		if q := quant(c); q < least {
			best, from, least = c, k, q
		}
	}
	return best, from
}

// spanOf is the span that holds a … b, or −1.
func (j *joint) spanOf(a, b float64) int {
	e := slack*j.pitch + 1e-9
	for i, s := range j.spans {
		if a >= s.left-e && b <= s.right+e {
			return i
		}
	}
	return -1
}

// quant makes whole millionths, so that every processor compares alike.
func quant(v float64) int64 { return int64(math.Round(v * 1e6)) }
