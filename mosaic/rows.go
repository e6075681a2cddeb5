package mosaic

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/seating"
)

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
		return nil, &seating.Fault{Key: fmt.Sprintf("cue[%d].rows", i), What: "nobody in these rows holds a card", Hint: "name other rows"}
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
		return &seating.Fault{Key: fmt.Sprintf("cue[%d].rows[%d]", i, slices.Index(own, section)), What: fmt.Sprintf("nobody in these rows of section %s holds a card", sec.Name), Hint: "name other rows"}
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
			return nil, &seating.Fault{Key: key, What: fmt.Sprintf("section %s does not show this cue", stands.Sections[sec].Name), Hint: fmt.Sprintf("name it too: on = [%q]", stands.Sections[sec].Name)}
		}
		own[n] = sec
	}
	return own, nil
}

// meantRows adds a hint to a fault where somebody wrote "3-10" for "3..10".
func (m *maker) meantRows(err error, r seating.RowRange) error {
	for k := range m.p.Stands.Sections {
		if _, _, wrong := m.p.Stands.RowsIn(k, seating.RowRange{From: r.Section, To: r.To}); wrong == nil && r.From == r.To {
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
		f.Hint += fmt.Sprintf("; %q is all rows from %s to each section's back, \"B-%s\" is of section B alone", r.From+"..", r.From, RowsKey(r))
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
