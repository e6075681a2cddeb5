package mosaic

import (
	"fmt"
	"slices"

	"everyseat/seating/people"
)

// seatGroups seats the groups of the stunt, if it has any.
func (p *Plan) seatGroups() error {
	who := &p.Stunt.People
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
// stay free, and nobody who may not be filmed sits where a mark could see them. The plan is not
// changed. Errors are those of people.Seat.
func (p *Plan) Seat(roster *people.Roster) (*people.Seated, error) {
	unseen := make([]bool, len(p.Stands.Seats))
	for s := range unseen {
		unseen[s] = p.outside(s) // a hidden card is not enough: faces may show
	}
	return people.Seat(roster, people.Hall{Stands: p.Stands, Order: p.Order, Weight: p.weights(), Unseen: unseen})
}

// PeopleWarnings are plain sentences about a roster that is seated.
func (p *Plan) PeopleWarnings(s *people.Seated) []string {
	var out []string
	if n := s.Crowded; n > 0 {
		out = append(out, fmt.Sprintf("For %s no companion place is left: they sit with their group.", plural(n, "companion")))
	}
	if n, invited := len(s.Roster.People), p.Stands.Spec.People; invited > 0 && n > invited {
		out = append(out, fmt.Sprintf("The groups have %s, and only %s are invited: one of the two counts is wrong.", headcount(n), thousands(invited)))
	}
	return out
}

// weights is by seat how much it matters that somebody sits there: its place among those that drop out when few
// come, see Trim. People without cards matter least.
func (p *Plan) weights() []int64 {
	keys := p.trimKeys()
	slices.SortFunc(keys, trimKey.compare)
	out := make([]int64, len(p.Stands.Seats))
	for k := range keys {
		out[keys[k].seat] = int64(k + 1)
	}
	return out
}
