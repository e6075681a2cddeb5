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
		trim, field := p.Trim(), p.Cues[cue].Field
		for _, share := range TrimShares {
			empty := make([]bool, len(field))
			for k, s := range field {
				empty[k] = int(trim[s]) >= share
			}
			t := Trimmed{Share: share}
			t.Score, t.Verdict = d.chances[p.WorstMark(cue)].Without(empty)
			d.trimmed.all = append(d.trimmed.all, t)
		}
	})
	return d.trimmed.all
}
