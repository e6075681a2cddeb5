package pictures

import "math"

// tag is a name on a panel, to be written when all else is drawn, on paper of its own so that it can
// be read on any ground.
type tag struct {
	at      spot
	words   string
	anchor  anchor
	upright bool // from below to above
}

// box is the tag's paper.
func (t *tag) box() extent {
	long := advance(t.words, false)*smallType + 6
	if t.upright {
		return extent{t.at.x - 8, t.at.y - long/2 - 1, t.at.x + 8, t.at.y + long/2 + 1}
	}
	x := t.at.x - 3
	switch t.anchor {
	case atMiddle:
		x = t.at.x - long/2
	case atEnd:
		x = t.at.x - long + 3
	}
	return extent{x, t.at.y - 8, x + long, t.at.y + 8}
}

// sign remembers that something round is drawn here which no name may cover.
func (p *panel) sign(at spot, r float64) {
	p.signed = append(p.signed, extent{at.x - r, at.y - r, at.x + r, at.y + r})
}

// names writes the tags, each as near to its place as it covers nothing.
func (p *panel) names() {
	for _, t := range p.tags {
		t.words = printable(t.words, false)
		t.at = p.clear(t)
		b := t.box()
		p.signed = append(p.signed, b)
		p.area(inkFloor, rectangle(whole(b.x0), whole(b.y0), whole(b.x1-b.x0), whole(b.y1-b.y0))...)
		l := lettering{words: t.words, size: smallType, colour: inkText, anchor: t.anchor}
		if t.upright {
			l.anchor, l.turn = atMiddle, -math.Pi/2
		}
		p.write(t.at, l)
	}
}

// clear is the nearest place, by steps, where the tag covers no sign, no other name, and leaves the panel
// nowhere; its own where there is none.
func (p *panel) clear(t tag) spot {
	const step, most = 6.0, 24
	best, least := t.at, math.Inf(1)
	for dy := -most; dy <= most; dy++ {
		for dx := -most; dx <= most; dx++ {
			moved := t
			moved.at = spot{t.at.x + step*float64(dx), t.at.y + step*float64(dy)}
			// Aside is worse than up or down: a name stays in line with what it names.
			if far := float64(2*dx*dx + dy*dy); far < least && p.isClear(moved.box()) {
				best, least = moved.at, far
			}
		}
	}
	return best
}

func (p *panel) isClear(b extent) bool {
	if b.x0 < p.x || b.y0 < p.y || b.x1 > p.x+p.wide || b.y1 > p.y+p.high {
		return false
	}
	for _, s := range p.signed {
		if b.x0 < s.x1 && s.x0 < b.x1 && b.y0 < s.y1 && s.y0 < b.y1 {
			return false
		}
	}
	return true
}
