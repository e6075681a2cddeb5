package lettering

import (
	"math/rand/v2"
)

// RandomLayout lays a text in one of the ways that Fit tries, with random cuts of the
// letters and places a little off: examples for the learned reader.
func RandomLayout(f *Field, text string, rng *rand.Rand) *Layout {
	lines, err := clean(text)
	if err != nil {
		return nil
	}
	all := searches([]*Field{f}, lines, Options{})
	s := all[rng.IntN(len(all))]
	ds := s.drafts()
	if len(ds) == 0 {
		return nil
	}
	d := ds[rng.IntN(len(ds))]
	var chosen []cut
	for _, l := range lines[0] {
		n := rng.IntN(len(cuts))
		if sh, _ := d.styles[0].shape(l.rune, cuts[n]); sh == nil {
			n = 0
		}
		c := cuts[n]
		if rng.IntN(3) == 0 {
			c.wide *= growBy[rng.IntN(len(growBy))]
		}
		chosen = append(chosen, c)
	}
	// half of the lines as the search would have them
	d.items[0] = d.styles[0].items(lines[0], chosen)
	if _, ok := fits(d.items[0], d.intervals[0], d.styles[0].pitch); !ok || !s.space(d) {
		return nil
	}
	if rng.IntN(2) == 0 {
		s.choose(d)
		s.refine(d)
	} else {
		for k := range d.at[0] {
			d.at[0][k] += (rng.Float64() - 0.5) * d.styles[0].pitch
		}
	}
	d.bold = rng.IntN(len(boldness))
	lay := &Layout{}
	s.finish(d, lay)
	return lay
}
