package mosaic

import (
	"fmt"
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
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
	switch n, invited := len(s.Roster.People), p.Stands.Spec.People; {
	case invited > 0 && n > invited:
		out = append(out, fmt.Sprintf("The groups have %s, and only %s are invited: one of the two counts is wrong.", headcount(n), thousands(invited)))
	case n < p.Stands.Spec.ExpectedPeople():
		out = append(out, fmt.Sprintf("%s invited, and the groups have %s: %s of them %s in no group and %s no seat yet.", headcount(invited)+" "+are(invited), thousands(n), thousands(invited-n), are(invited-n), have(invited-n)))
	}
	return out
}

func have(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// free are the seats with a card on which nobody of the groups sits.
func (p *Plan) free() []int32 {
	if p.People == nil {
		return nil
	}
	var out []int32
	for s, who := range p.People.Person {
		if who == people.None && p.Stands.Seats[s].Use == seating.UseCard {
			out = append(out, int32(s))
		}
	}
	return out
}

// sayFreeSeats says how the texts read with just those seats empty that the groups leave free.
func (p *Plan) sayFreeSeats() []string {
	free := p.free()
	if len(free) == 0 {
		return nil
	}
	isFree := func(s int32) bool { _, found := slices.BinarySearch(free, s); return found }
	worst, verdict, texts := 2.0, legibility.Reads, 0
	for cue := range p.Cues {
		if p.Cues[cue].Text == nil {
			continue
		}
		texts++
		if score, v := p.without(cue, isFree); score < worst {
			worst, verdict = score, v
		}
	}
	if texts == 0 {
		return nil
	}
	what := "it"
	if texts > 1 {
		what = "the worst text"
	}
	return []string{fmt.Sprintf("The groups leave %s with a card free: if just those stay empty, %s %s (%.0f of 100).", plural(len(free), "seat"), what, verdict.Says(), 100*worst)}
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
