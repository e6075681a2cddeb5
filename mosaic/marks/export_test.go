package marks

import "everyseat/mosaic"

// Fair is the fair's stands with a text.
var Fair = fair

// Strays is how far the camera of a plan may stray where nothing stands in its way.
func Strays(p *mosaic.Plan) Stray {
	s := newSearch(p, &room{plan: p}, Options{})
	m := &Map{Plan: p, Spells: true}
	s.here(m)
	return m.Stray
}
