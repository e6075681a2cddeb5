package mosaic

import "everyseat/mosaic/legibility"

// Trimmed is how a cue's text reads when so few come that Trim leaves seats empty, at one of TrimShares.
type Trimmed struct {
	Share   int
	Score   float64
	Verdict legibility.Verdict
}

// Trimmed says by TrimShares how the cue's text reads with just the seats empty that Trim gives up, from the mark from
// which it reads worst; nil where it has no text.
func (p *Plan) Trimmed(cue int) []Trimmed {
	d := p.chances(cue)
	if d == nil {
		return nil
	}
	d.trimmed.once.Do(func() {
		trim := p.Trim()
		for _, share := range TrimShares {
			t := Trimmed{Share: share}
			t.Score, t.Verdict = p.without(cue, func(s int32) bool { return int(trim[s]) >= share })
			d.trimmed.all = append(d.trimmed.all, t)
		}
	})
	return d.trimmed.all
}

// without is how a cue's text reads with just these seats empty, from the mark from which it reads worst.
func (p *Plan) without(cue int, empty func(seat int32) bool) (float64, legibility.Verdict) {
	field := p.Cues[cue].Field
	gone := make([]bool, len(field))
	for k, s := range field {
		gone[k] = empty(s)
	}
	return p.chances(cue).chances[p.WorstMark(cue)].Without(gone)
}
