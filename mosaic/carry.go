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
	among, err := m.mayCarry(i)
	if err != nil {
		return nil, err
	}
	in, err := m.askedRows(i, among)
	if err != nil {
		return nil, err
	}
	among = m.wellSeen(&m.p.Stunt.Cues[i], among, in)
	carry := make([]bool, len(m.p.Stands.Seats))
	for s := range carry {
		seat := &m.p.Stands.Seats[s]
		carry[s] = seat.Use == seating.UseCard && among[seat.Section] && (in == nil || in[s])
	}
	return carry, nil
}

// mayCarry are the sections that may carry cue i, whatever is seen of them: those it names, or else all
// but floor blocks where people hold cards; floor blocks only if there is nothing else.
func (m *maker) mayCarry(i int) ([]bool, error) {
	stands, cue := m.p.Stands, &m.p.Stunt.Cues[i]
	among := make([]bool, len(stands.Sections))
	names := mapped(stands.Sections, func(s seating.Section) string { return s.Name })
	for n, on := range cue.On {
		key := fmt.Sprintf("cue[%d].on[%d]", i, n)
		at := slices.IndexFunc(names, func(name string) bool { return strings.EqualFold(name, norm.NFC.String(on)) })
		if at < 0 {
			return nil, oneOf(key, "section", on, names...)
		}
		if stands.Count(at).Cards == 0 {
			return nil, &seating.Fault{Key: key, What: fmt.Sprintf("nobody in section %s holds a card", names[at]),
				Hint: "leave it out, or give its people cards"}
		}
		among[at] = true
	}
	for _, floor := range []bool{false, true} {
		if slices.Contains(among, true) {
			break
		}
		for k := range among {
			among[k] = (stands.Sections[k].Spec.Kind == seating.Floor) == floor && stands.Count(k).Cards > 0
		}
		if floor && slices.Contains(among, true) {
			m.warn("Cue %q is shown by the people on the floor: nobody else holds a card.", cue.Name)
		}
	}
	return among, nil
}

// wellSeen are those of the sections that are seen well enough; all of them where none is, or where the cue names
// them.
func (m *maker) wellSeen(cue *Cue, among, in []bool) []bool {
	out := make([]bool, len(among))
	var poor []string
	onFloor := false
	for k := range among {
		seen, cards := m.meanSeen(k, in)
		if !among[k] || cards == 0 {
			continue
		}
		sec := &m.p.Stands.Sections[k]
		onFloor = sec.Spec.Kind == seating.Floor
		switch out[k] = seen >= leastSeen; {
		case !out[k] && len(cue.On) > 0:
			m.warn("Cue %q is laid on section %s as asked, though only %.0f %% of its cards can be seen.",
				cue.Name, sec.Name, 100*seen)
		case !out[k]:
			poor = append(poor, fmt.Sprintf("%s (%.0f %%)", sec.Name, 100*seen))
		}
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
	rows := m.p.Stunt.Cues[i].Rows
	if len(rows) == 0 {
		return nil, nil
	}
	own, err := m.sectionsOfRows(i, among)
	if err != nil {
		return nil, err
	}
	in := make([]bool, len(m.p.Stands.Seats))
	for k, on := range among {
		if !on {
			continue
		}
		if err := m.addRows(in, i, k, own); err != nil {
			return nil, err
		}
	}
	return in, refuse(m.holding(in, 0, len(in)) == 0, fmt.Sprintf("cue[%d].rows", i),
		"nobody in these rows holds a card", "name other rows")
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
			f := *underKey(err, fmt.Sprintf("cue[%d].rows[%d]", i, n)).(*seating.Fault)
			if r.Section == "" && r.From != "" && r.To != "" { // they are wanted in every section
				f.Hint += fmt.Sprintf("; %q is all rows from %s to each section's back, "+
					"\"B-%s\" is of section B alone",
					r.From+"..", r.From, RowsKey(r))
			}
			return &f
		}
		for s := sec.Rows[from].First; s < sec.Rows[to].Last; s++ {
			in[s] = true
		}
	}
	return refuse(mine == section && m.holding(in, sec.First, sec.Last) == 0,
		fmt.Sprintf("cue[%d].rows[%d]", i, slices.Index(own, section)),
		fmt.Sprintf("nobody in these rows of section %s holds a card", sec.Name), "name other rows")
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

func rowsKeys(rows []seating.RowRange) string { return KeyList(mapped(rows, RowsKey)) }

// KeyList is names as the stunt file writes them.
func KeyList(names []string) string {
	return "[" + strings.Join(mapped(names, strconv.Quote), ", ") + "]"
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

// holding counts who holds a card among the chosen seats first…last.
func (m *maker) holding(in []bool, first, last int) (n int) {
	for s := first; s < last; s++ {
		if in[s] && m.p.Stands.Seats[s].Use == seating.UseCard {
			n++
		}
	}
	return n
}
