package mosaic

import (
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
)

// shirtGrey stands for people's clothes, where a ground has no cards (ours, no source).
const shirtGrey = 110

// laid is how a cue's text lies on its field, and with what it is read: which seats show its ink, and what the cards
// show that is neither ink nor ground. Painted seats and stock that is short may have changed what the search laid.
// Labels count where hands, by cue and seat, are dealt; nil: not yet.
func (m *maker) laid(plan *CuePlan, i int, hands [][]Hold) ([]bool, lettering.Options) {
	cue := &m.p.Stunt.Cues[i]
	o := m.options(cue)
	inkIndex, ground := m.index[cue.Ink], m.index[cue.Ground]
	level := m.levels(cue)
	ink := make([]bool, len(plan.Field))
	tints := make([]legibility.Tint, len(plan.Field))
	some := false
	for k, s := range plan.Field {
		c := plan.Colours[s]
		ink[k] = c == inkIndex
		if c != inkIndex && c != ground {
			tints[k] = legibility.Tint{Share: 1, Level: level(c)}
		}
		if share := m.p.labelSeen(hands, i, s); share > 0 {
			tints[k] = labelled(tints[k], share, level(whitePaper))
		}
		some = some || tints[k].Share > 0
	}
	if some {
		o.Tints = tints
	}
	return ink, o
}

// whitePaper is the index of what is no card but a label.
const whitePaper = None - 1

// labelled is a tint with a label over a share of it.
func labelled(t legibility.Tint, share, paper float32) legibility.Tint {
	rest := float32(t.Share * (1 - share))
	all := rest + share
	return legibility.Tint{Share: all, Level: (float32(rest*t.Level) + float32(share*paper)) / all}
}

// levels says how a colour looks between the cue's ground, 0, and its ink, 1: by the luma of ITU-R BT.601, as
// programs that read pictures take it, and within these ends.
func (m *maker) levels(cue *Cue) func(c int16) float32 {
	luma := func(c int16) int {
		switch c {
		case None:
			return 1000 * shirtGrey
		case whitePaper:
			return 1000 * 255
		}
		return lumaOf(m.p.Stunt.Colours[c].RGB)
	}
	ground := luma(m.index[cue.Ground])
	span := luma(m.index[cue.Ink]) - ground
	return func(c int16) float32 {
		if span == 0 {
			return 0
		}
		return min(max(float32(luma(c)-ground)/float32(span), 0), 1)
	}
}

// lumaOf is the luma in thousandths.
func lumaOf(c colour.RGB) int { return 299*int(c[0]) + 587*int(c[1]) + 114*int(c[2]) }

// labelSeen is the share that a white label covers of what the cameras see of a seat's card at the cue, on side A of
// a card of two colours: of cards of one colour the labels are on backs.
func (p *Plan) labelSeen(hands [][]Hold, cue int, s int32) float32 {
	if cue >= len(hands) {
		return 0
	}
	h := hands[cue][s]
	if h.Card < 0 || h.Side != 0 {
		return 0
	}
	sides := p.Cards[h.Card].Sides
	if sides[0] == sides[1] || !p.sticksOn(hands, h.Card, s) {
		return 0
	}
	return p.labelShare(s)
}

// sticksOn says whether a label is stuck on a seat's card: labels for all go on the first card that a seat shows, and where
// cards are printed on, only those get one on which black cannot be read.
func (p *Plan) sticksOn(hands [][]Hold, card int16, s int32) bool {
	switch p.Stunt.Print.Placards {
	case Labels:
		for _, cue := range hands {
			if first := cue[s].Card; first >= 0 {
				return first == card
			}
		}
	case OnStock:
		return p.Stunt.WhiteLabel(int(p.Cards[card].Sides[0]))
	}
	return false
}

// LabelSeen is the share, 0…1, that a white label covers of what the cameras see of a seat's card at the cue.
func (p *Plan) LabelSeen(cue int, s int32) float64 { return float64(p.labelSeen(p.Hands, cue, s)) }

// labelShare is how much of what the cameras see of a seat's card its label covers: the label is low down, and the rows in
// front hide a card from its lower edge up.
func (p *Plan) labelShare(s int32) float32 {
	card := p.Scene.Card
	width, height := p.LabelSize()
	seen := 0.0
	for k := range p.Marks {
		seen = max(seen, float64(p.Marks[k].Sight.Seen[s]))
	}
	if seen == 0 {
		return 0
	}
	across, up := width.Metres()/card.Width.Metres(), height.Metres()/card.Height.Metres()
	return float32(min(across*max(up-(1-seen), 0)/seen, 1))
}
