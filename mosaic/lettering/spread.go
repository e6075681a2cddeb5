package lettering

import "math"

const (
	// evenEnough is how far gaps may differ, in seats (standard deviation), before letters are spread.
	evenEnough = 0.4
	// evenWorth is what one seat less of that is worth beside the reading.
	evenWorth = 0.07
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
		more := d.extra(i)
		wider := 0.0
		for _, e := range more {
			wider = max(wider, e)
		}
		items = append([]item(nil), items...)
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
