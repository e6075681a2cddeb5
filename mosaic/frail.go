package mosaic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// From so many millionths of its score that one wrong card takes from a text, its seat is named (ours, no
// source), and so many of them.
const (
	frailFrom = 100_000
	frailMost = 4
)

// frailSeat is a seat whose wrong card alone harms a text.
type frailSeat struct {
	cue  int
	seat int32
	fall int32 // millionths of the score
}

// frailSeats are those that harm most first; ties go to the earlier cue, then the lower seat.
func (p *Plan) frailSeats() []frailSeat {
	var out []frailSeat
	for i := range p.Cues {
		for s, f := range p.Falls(i) {
			if f.Wrong >= frailFrom {
				out = append(out, frailSeat{i, int32(s), f.Wrong})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b frailSeat) int { return cmp.Compare(b.fall, a.fall) })
	return out
}

// sayFrailSeats names the seats on which a share of wrong cards is no comfort.
func (p *Plan) sayFrailSeats() []string {
	all := p.frailSeats()
	if len(all) == 0 {
		return nil
	}
	var parts []string
	for i, f := range all[:min(frailMost, len(all))] {
		part := fmt.Sprintf("on %s %d", p.Stands.ID(int(f.seat)), (f.fall+5000)/10_000)
		if i == 0 {
			part = fmt.Sprintf("on %s alone costs %d of 100 points", p.Stands.ID(int(f.seat)), (f.fall+5000)/10_000)
		}
		if len(p.Cues) > 1 {
			part += " at " + quoted(p.Cues[f.cue].Name)
		}
		parts = append(parts, part)
	}
	more := ""
	if n := len(all) - frailMost; n > 0 {
		more = fmt.Sprintf(", and on %s %d or more", plural(n, "other seat"), frailFrom/10_000)
	}
	return []string{fmt.Sprintf("Which ones counts too: one wrong card %s%s: check these seats first.", strings.Join(parts, ", "), more)}
}
