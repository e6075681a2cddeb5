package mosaic

import (
	"fmt"
	"slices"

	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
)

// BlockPeople is how many people one leader looks after at most, as far as rows
// go (common practice, no source).
const BlockPeople = 60

// blocks names each seat's block: a section's rows from the front in bands of
// like size. A row longer than that is a block.
func blocks(stands *seating.Stands) []string {
	out := make([]string, len(stands.Seats))
	for k := range stands.Sections {
		all := bands(stands, k)
		for n, band := range all {
			name := blockName(stands.Sections[k].Name, n, len(all))
			for s := band[0]; s < band[1]; s++ {
				out[s] = name
			}
		}
	}
	return out
}

// blockName says in words which part of its section a block is: "A1" would be taken for a row.
func blockName(section string, n, of int) string {
	switch {
	case of == 1:
		return section
	case n == 0 && of <= 3:
		return section + " front"
	case n == of-1 && of <= 3:
		return section + " back"
	case of == 3:
		return section + " middle"
	}
	return fmt.Sprintf("%s part %d", section, n+1)
}

// bands parts a section into as few bands of whole rows as can be, each a range
// of seats, and evens them out.
func bands(stands *seating.Stands, section int) [][2]int {
	rows := stands.Sections[section].Rows
	people, total := make([]int, len(rows)), 0
	for r := range rows {
		people[r] = stands.CountRow(section, r).People()
		total += people[r]
	}
	least := len(filledBands(people, BlockPeople))
	if least == 0 {
		return nil
	}
	// The smallest size that still needs no more bands makes them even.
	size := max(1, (total+least-1)/least)
	for size < BlockPeople && len(filledBands(people, size)) > least {
		size++
	}
	var out [][2]int
	for _, b := range filledBands(people, size) {
		out = append(out, [2]int{rows[b[0]].First, rows[b[1]-1].Last})
	}
	return out
}

// filledBands takes rows into a band until the next one would be more than size.
func filledBands(people []int, size int) [][2]int {
	var out [][2]int
	in := 0
	for r, n := range people {
		if len(out) == 0 || in+n > size && in > 0 {
			out = append(out, [2]int{r, r})
			in = 0
		}
		in += n
		out[len(out)-1][1] = r + 1
	}
	return out
}

// seatGroups seats the groups of the stunt, if it has any.
func (m *maker) seatGroups() error {
	p, who := m.p, &m.p.Stunt.People
	if len(who.Groups) == 0 && who.Roster == nil {
		return nil
	}
	roster, err := people.Gather(who.Groups, who.Roster)
	if err != nil {
		return err
	}
	if p.People, err = p.Seat(roster); err != nil {
		key := "group"
		if len(who.Groups) == 0 {
			key = "people.roster"
		}
		return underKey(err, key)
	}
	p.Warnings = append(p.Warnings, p.PeopleWarnings(p.People)...)
	return nil
}

// Seat seats a roster in the plan's stands, so that the seats that matter least to what the camera sees
// stay free, groups are parted rather than a letter left without people, and nobody who may not be filmed sits
// where a mark could see them. The plan is not changed. Errors are those of people.Seat.
func (p *Plan) Seat(roster *people.Roster) (*people.Seated, error) {
	unseen := make([]bool, len(p.Stands.Seats))
	for s := range unseen {
		unseen[s] = p.Outside(s) // a hidden card is not enough: faces may show
	}
	return people.Seat(roster, people.Hall{Stands: p.Stands, Order: p.Order, Weight: p.weights(), Unseen: unseen,
		Vital: p.vital()})
}

// vital is by seat whether the message needs somebody there: its own seats, and those beside them.
func (p *Plan) vital() []bool {
	out := make([]bool, len(p.Stands.Seats))
	for _, key := range p.trimKeys() {
		out[key.seat] = key.tier == trimMessage || key.tier == trimGround && key.near <= 1
	}
	return out
}

// PeopleWarnings are plain sentences about a roster that is seated.
func (p *Plan) PeopleWarnings(s *people.Seated) []string {
	var out []string
	if n := s.Crowded; n > 0 {
		out = append(out, fmt.Sprintf("For %s no companion place is left: they sit with their group.",
			say.Count(n, "companion")))
	}
	switch n, invited := len(s.Roster.People), p.Stands.Spec.People; {
	case invited > 0 && n > invited:
		out = append(out, fmt.Sprintf("The groups have %s, and only %s are invited: one of the two counts is wrong.",
			say.People(n), say.Thousands(invited)))
	case n < p.Stands.Spec.ExpectedPeople():
		rest := invited - n
		out = append(out,
			fmt.Sprintf("%s %s invited, and the groups have %s: %s of them %s in no group and %s no seat yet.",
				say.People(invited), say.Are(invited), say.Thousands(n), say.Thousands(rest), say.Are(rest),
				say.Have(rest)))
	}
	return out
}

// weights is by seat how much it matters that somebody sits there: its place among those that drop out when few
// come, see Trim. People without cards matter least. Of wheelchair and companion places those of the message matter
// more than the others, and all of these alike.
func (p *Plan) weights() []int64 {
	keys := p.trimKeys()
	slices.SortFunc(keys, trimKey.compare)
	out := make([]int64, len(p.Stands.Seats))
	for k, key := range keys {
		switch {
		case key.tier != trimNeeded:
			out[key.seat] = int64(k + 1)
		case key.near == 0:
			out[key.seat] = int64(len(keys) + 2)
		default:
			out[key.seat] = int64(len(keys) + 1)
		}
	}
	return out
}
