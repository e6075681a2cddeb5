package mosaic

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"everyseat/seating"
)

// leastSeen is the share of their cards' area that a section must show, in the
// middle over its seats and from the worst mark, to carry a message unless the
// stunt says so by name. Below a quarter not even strokes of two seats survive
// (common practice, no source).
const leastSeen = 0.25

// carriers are the seats that carry cue i, by seat: who holds a card, in the sections and rows that it
// asks for or that are seen well enough.
func (m *maker) carriers(i int) ([]bool, error) {
	stands, cue := m.p.Stands, &m.p.Stunt.Cues[i]
	among, err := m.mayCarry(cue, i)
	if err != nil {
		return nil, err
	}
	in, err := m.askedRows(i, among)
	if err != nil {
		return nil, err
	}
	if len(cue.On) > 0 {
		m.warnHardlySeen(cue, among, in)
	} else {
		among = m.wellSeen(cue, among, in)
	}
	carry := make([]bool, len(stands.Seats))
	for s := range carry {
		seat := &stands.Seats[s]
		carry[s] = seat.Use == seating.UseCard && among[seat.Section] && (in == nil || in[s])
	}
	return carry, nil
}

// mayCarry are the sections that may carry cue i, whatever is seen of them: those it names, or else all
// but floor blocks where people hold cards; floor blocks only if there is nothing else.
func (m *maker) mayCarry(cue *Cue, i int) ([]bool, error) {
	among := make([]bool, len(m.p.Stands.Sections))
	if len(cue.On) > 0 {
		return among, m.namedCarriers(among, cue, i)
	}
	for _, floor := range []bool{false, true} {
		for k := range among {
			among[k] = (m.p.Stands.Sections[k].Spec.Kind == seating.Floor) == floor && m.holdsCards(k)
		}
		if slices.Contains(among, true) {
			if floor {
				m.warn("Cue %q is shown by the people on the floor: nobody else holds a card.", cue.Name)
			}
			break
		}
	}
	return among, nil
}

func (m *maker) holdsCards(section int) bool {
	_, cards := m.meanSeen(section, nil)
	return cards > 0
}

// wellSeen are those of the sections that are seen well enough; all of them where none is.
func (m *maker) wellSeen(cue *Cue, among, in []bool) []bool {
	out := make([]bool, len(among))
	var poor []string
	onFloor := false
	for k := range among {
		seen, cards := m.meanSeen(k, in)
		if !among[k] || cards == 0 {
			continue
		}
		if out[k] = seen >= leastSeen; !out[k] {
			poor = append(poor, fmt.Sprintf("%s (%.0f %%)", m.p.Stands.Sections[k].Name, 100*seen))
		}
		onFloor = m.p.Stands.Sections[k].Spec.Kind == seating.Floor
	}
	switch {
	case len(poor) == 0 || onFloor:
		return among
	case !slices.Contains(out, true):
		m.warn("Of no section more than %.0f %% of the cards can be seen: %s. Cue %q is laid on all of them; move the camera or hold the cards higher.",
			100*leastSeen, firstFew(poor), cue.Name)
		return among
	}
	m.warn("Cue %q leaves out %s: less than %.0f %% of their cards can be seen. They show the ground.",
		cue.Name, firstFew(poor), 100*leastSeen)
	return out
}

// namedCarriers marks the sections that cue i names.
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
		if !m.holdsCards(at) {
			return &seating.Fault{Key: key, What: fmt.Sprintf("nobody in section %s holds a card", names[at]), Hint: "leave it out, or give its people cards"}
		}
		carry[at] = true
	}
	return nil
}

// warnHardlySeen names sections that carry the cue as asked though little of them is seen.
func (m *maker) warnHardlySeen(cue *Cue, among, in []bool) {
	for k := range among {
		if seen, cards := m.meanSeen(k, in); among[k] && cards > 0 && seen < leastSeen {
			m.warn("Cue %q is laid on section %s as asked, though only %.0f %% of its cards can be seen.", cue.Name, m.p.Stands.Sections[k].Name, 100*seen)
		}
	}
}

// meanSeen is the mean share of the section's cards that is seen from the worst mark, and their number: of
// the seats that are in, or of all (nil).
func (m *maker) meanSeen(section int, in []bool) (seen float64, cards int) {
	sec := &m.p.Stands.Sections[section]
	worst := math.Inf(1)
	for _, mark := range m.p.Marks {
		var sum float64
		cards = 0
		for i := sec.First; i < sec.Last; i++ {
			if m.p.Stands.Seats[i].Use == seating.UseCard && (in == nil || in[i]) {
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
