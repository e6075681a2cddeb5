package mosaic

import (
	"fmt"
	"math"
	"strings"

	"golang.org/x/text/unicode/norm"

	"everyseat/seating"
)

// leastSeen is the share of their cards' area that a section must show, in the
// middle over its seats and from the worst mark, to carry a message unless the
// stunt says so by name. Below a quarter not even strokes of two seats survive
// (common practice, no source).
const leastSeen = 0.25

// carriers are the sections that carry cue i, by section index.
func (m *maker) carriers(i int) ([]bool, error) {
	stands, cue := m.p.Stands, &m.p.Stunt.Cues[i]
	carry := make([]bool, len(stands.Sections))
	if len(cue.On) > 0 {
		return carry, m.namedCarriers(carry, cue, i)
	}
	var some, someFloor bool
	var poor []string
	for k := range stands.Sections {
		seen, cards := m.meanSeen(k)
		if cards == 0 {
			continue
		}
		if stands.Sections[k].Spec.Kind == seating.Floor {
			someFloor = true
			continue
		}
		if seen < leastSeen {
			poor = append(poor, fmt.Sprintf("%s (%.0f %%)", stands.Sections[k].Name, 100*seen))
			continue
		}
		carry[k], some = true, true
	}
	if !some {
		return m.lastResort(carry, cue, poor, someFloor), nil
	}
	if len(poor) > 0 {
		m.warn("Cue %q leaves out %s: less than %.0f %% of their cards can be seen. They show the ground.",
			cue.Name, firstFew(poor), 100*leastSeen)
	}
	return carry, nil
}

// lastResort lets every section carry the cue where none is seen well enough,
// floor blocks only if there is nothing else.
func (m *maker) lastResort(carry []bool, cue *Cue, poor []string, floor bool) []bool {
	onFloor := len(poor) == 0 && floor
	for k := range carry {
		_, cards := m.meanSeen(k)
		carry[k] = cards > 0 && (m.p.Stands.Sections[k].Spec.Kind == seating.Floor) == onFloor
	}
	if onFloor {
		m.warn("Cue %q is shown by the people on the floor: nobody else holds a card.", cue.Name)
	} else {
		m.warn("Of no section more than %.0f %% of the cards can be seen: %s. Cue %q is laid on all of them; move the camera or hold the cards higher.",
			100*leastSeen, firstFew(poor), cue.Name)
	}
	return carry
}

func (m *maker) namedCarriers(carry []bool, cue *Cue, i int) error {
	names := make([]string, len(carry))
	for k := range carry {
		names[k] = m.p.Stands.Sections[k].Name
	}
	for n, on := range cue.On {
		key := fmt.Sprintf("cue[%d].on[%d]", i, n)
		at := -1
		for k, name := range names {
			if strings.EqualFold(name, norm.NFC.String(on)) {
				at = k
			}
		}
		if at < 0 {
			return unknown(key, "section", on, names)
		}
		seen, cards := m.meanSeen(at)
		if cards == 0 {
			return &seating.Fault{Key: key, What: fmt.Sprintf("nobody in section %s holds a card", names[at]), Hint: "leave it out, or give its people cards"}
		}
		if seen < leastSeen {
			m.warn("Cue %q is laid on section %s as asked, though only %.0f %% of its cards can be seen.", cue.Name, names[at], 100*seen)
		}
		carry[at] = true
	}
	return nil
}

// meanSeen is the mean share of the section's cards that is seen from the worst mark, and their number.
func (m *maker) meanSeen(section int) (seen float64, cards int) {
	sec := &m.p.Stands.Sections[section]
	worst := math.Inf(1)
	for _, mark := range m.p.Marks {
		var sum float64
		cards = 0
		for i := sec.First; i < sec.Last; i++ {
			if m.p.Stands.Seats[i].Use == seating.UseCard {
				cards++
				sum += float64(mark.Sight.Seen[i])
			}
		}
		worst = min(worst, sum/float64(max(cards, 1)))
	}
	// Whole thousandths decide alike on every processor.
	return math.Round(worst*1000) / 1000, cards
}

func (m *maker) warn(format string, a ...any) {
	m.p.Warnings = append(m.p.Warnings, fmt.Sprintf(format, a...))
}
