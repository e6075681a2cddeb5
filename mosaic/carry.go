package mosaic

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/unicode/norm"

	"everyseat/seating"
	"everyseat/seating/say"
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
		m.warn("Of no section more than %.0f %% of the cards can be seen: %s. Cue %q is laid on all of them; "+
			"move the camera or hold the cards higher.", 100*leastSeen, say.FirstFew(poor), cue.Name)
		return among
	}
	m.warn("Cue %q leaves out %s: less than %.0f %% of their cards can be seen. They show the ground.",
		cue.Name, say.FirstFew(poor), 100*leastSeen)
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
		at := slices.IndexFunc(names, func(name string) bool { return strings.EqualFold(name, norm.NFC.String(on)) })
		if at < 0 {
			return oneOf(key, "section", on, names...)
		}
		if !m.holdsCards(at) {
			return &seating.Fault{Key: key, What: fmt.Sprintf("nobody in section %s holds a card", names[at]),
				Hint: "leave it out, or give its people cards"}
		}
		carry[at] = true
	}
	return nil
}

// warnHardlySeen names sections that carry the cue as asked though little of them is seen.
func (m *maker) warnHardlySeen(cue *Cue, among, in []bool) {
	for k := range among {
		if seen, cards := m.meanSeen(k, in); among[k] && cards > 0 && seen < leastSeen {
			m.warn("Cue %q is laid on section %s as asked, though only %.0f %% of its cards can be seen.",
				cue.Name, m.p.Stands.Sections[k].Name, 100*seen)
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

// askedRows are the seats in the rows that cue i asks for, nil where it asks for none. Rows without a
// section must be in every section of among; a section that a range names must be among them.
func (m *maker) askedRows(i int, among []bool) ([]bool, error) {
	stands, cue := m.p.Stands, &m.p.Stunt.Cues[i]
	if len(cue.Rows) == 0 {
		return nil, nil
	}
	own, err := m.sectionsOfRows(i, among)
	if err != nil {
		return nil, err
	}
	in := make([]bool, len(stands.Seats))
	for k, on := range among {
		if on {
			if err := m.addRows(in, i, k, own); err != nil {
				return nil, err
			}
		}
	}
	if m.cardsIn(in, 0, len(in)) == 0 {
		return nil, &seating.Fault{Key: fmt.Sprintf("cue[%d].rows", i), What: "nobody in these rows holds a card",
			Hint: "name other rows"}
	}
	return in, nil
}

// addRows adds what cue i asks for of one section; own is the section of each of its ranges, or −1.
func (m *maker) addRows(in []bool, i, section int, own []int) error {
	sec, mine := &m.p.Stands.Sections[section], section
	switch {
	case slices.Contains(own, section):
	case slices.Contains(own, -1):
		mine = -1
	default: // others are named, and this one has all its rows
		for s := sec.First; s < sec.Last; s++ {
			in[s] = true
		}
		return nil
	}
	for n, r := range m.p.Stunt.Cues[i].Rows {
		if own[n] != mine {
			continue
		}
		from, to, err := m.p.Stands.RowsIn(section, r)
		if err != nil {
			return rowsFault(err, i, n, r)
		}
		for s := sec.Rows[from].First; s < sec.Rows[to].Last; s++ {
			in[s] = true
		}
	}
	if mine == section && m.cardsIn(in, sec.First, sec.Last) == 0 {
		return &seating.Fault{Key: fmt.Sprintf("cue[%d].rows[%d]", i, slices.Index(own, section)),
			What: fmt.Sprintf("nobody in these rows of section %s holds a card", sec.Name), Hint: "name other rows"}
	}
	return nil
}

// sectionsOfRows is the section of each range of the cue, −1 where it names none.
func (m *maker) sectionsOfRows(i int, among []bool) ([]int, error) {
	stands, cue := m.p.Stands, &m.p.Stunt.Cues[i]
	own := make([]int, len(cue.Rows))
	for n, r := range cue.Rows {
		own[n] = -1
		if r.Section == "" {
			continue
		}
		key := fmt.Sprintf("cue[%d].rows[%d]", i, n)
		sec, err := stands.SectionNamed(r.Section)
		if err != nil {
			return nil, m.meantRows(underKey(err, key), r)
		}
		if !among[sec] {
			name := stands.Sections[sec].Name
			return nil, &seating.Fault{Key: key, What: fmt.Sprintf("section %s does not show this cue", name),
				Hint: fmt.Sprintf("name it too: on = [%q]", name)}
		}
		own[n] = sec
	}
	return own, nil
}

// meantRows adds a hint to a fault where somebody wrote "3-10" for "3..10".
func (m *maker) meantRows(err error, r seating.RowRange) error {
	for k := range m.p.Stands.Sections {
		_, _, wrong := m.p.Stands.RowsIn(k, seating.RowRange{From: r.Section, To: r.To})
		if wrong == nil && r.From == r.To {
			f := *err.(*seating.Fault)
			f.Hint = fmt.Sprintf("for rows %s to %s write %q", r.Section, r.To, r.Section+".."+r.To)
			return &f
		}
	}
	return err
}

// rowsFault gives a fault of RowsIn its key; rows without a section are wanted in every section.
func rowsFault(err error, i, n int, r seating.RowRange) error {
	f := *underKey(err, fmt.Sprintf("cue[%d].rows[%d]", i, n)).(*seating.Fault)
	if r.Section == "" && r.From != "" && r.To != "" {
		f.Hint += fmt.Sprintf("; %q is all rows from %s to each section's back, \"B-%s\" is of section B alone",
			r.From+"..", r.From, RowsKey(r))
	}
	return &f
}

func rowsKeys(rows []seating.RowRange) string {
	words := make([]string, len(rows))
	for k, r := range rows {
		words[k] = strconv.Quote(RowsKey(r))
	}
	return strings.Join(words, ", ")
}

// RowsKey is a range of rows as the stunt file writes it.
func RowsKey(r seating.RowRange) string {
	text := r.From
	if r.From != r.To {
		text += ".." + r.To
	}
	if r.Section != "" {
		text = r.Section + "-" + text
	}
	return text
}

// cardsIn counts who holds a card among the chosen seats first…last.
func (m *maker) cardsIn(in []bool, first, last int) (n int) {
	for s := first; s < last; s++ {
		if in[s] && m.p.Stands.Seats[s].Use == seating.UseCard {
			n++
		}
	}
	return n
}
