package lettering

import "math"

const (
	// evenEnough is how far gaps may differ, in seats (standard deviation), before letters are spread.
	evenEnough = 0.4
	// evenWorth is what one seat less of that is worth beside the reading.
	evenWorth = 0.02
	// hopeless is where sections so far apart set the gaps that evenness is not worth more reading.
	hopeless = 2.0
	// farApart is the widest gap made on purpose, in widths of an H.
	farApart = 0.65
)

// spread gives the line one gap throughout, as wide as aisles have already made some of
// its gaps, where the letters are read nearly as well.
func (s *search) spread(d *draft) *draft {
	ragged := d.ragged()
	if ragged < evenEnough {
		return d
	}
	best := d
	for _, most := range []bool{false, true} {
		for _, steps := range []float64{2, 4} {
			try := s.evened(d, most, steps)
			if try == nil || try.ragged() >= ragged {
				continue
			}
			try.value = s.valueOf(try)
			if quant(try.composed()) > quant(best.composed()) {
				best = try
			}
		}
	}
	return best
}

// composed is what a draft is worth to the reader and to the eye.
func (d *draft) composed() float64 { return d.value - float64(evenWorth*min(d.ragged(), hopeless)) }

// evened is d with its mean gap wanted everywhere, or its widest one, and each letter then moved
// by some steps to where it reads best; nil where that does not fit.
func (s *search) evened(d *draft, most bool, steps float64) *draft {
	try := *d
	try.items, try.at = nil, nil
	for i, items := range d.items {
		more := d.extra(i)
		wider := 0.0
		for _, e := range more {
			if most {
				wider = max(wider, e)
			} else {
				wider += e / float64(len(more))
			}
		}
		items = append([]item(nil), items...)
		st := d.styles[i]
		wider = max(0, min(wider, float64(farApart*st.wide)-st.gap)) // wider apart, letters are no word
		for k := 1; k < len(items); k++ {
			items[k].gap += wider
		}
		try.items = append(try.items, items)
	}
	if !s.space(&try) {
		return nil
	}
	s.refineWithin(&try, steps)
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
