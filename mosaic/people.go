package mosaic

import (
	"fmt"
	"math"

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
	if n, invited := len(s.Roster.People), p.Stands.Spec.People; invited > 0 && n > invited {
		out = append(out, fmt.Sprintf("The groups have %s, and only %s are invited: one of the two counts is wrong.", headcount(n), thousands(invited)))
	}
	return out
}

// How much it matters that somebody sits on a seat, for each cue (ours, no source): an empty seat of the ground
// is a dark speck, one of a letter is a part of its stroke, and at an edge it blurs the shape.
const (
	weightShown  = 1 // it shows something
	weightFigure = 2 // something other than the ground
	weightEdge   = 1 // and a neighbour in the row shows something else
)

// weights is by seat how much it matters that somebody sits there: over all cues, times the share of
// its card that the camera sees, in hundredths.
func (p *Plan) weights() []int64 {
	out := make([]int64, len(p.Stands.Seats))
	for i := range p.Cues {
		colours := p.Cues[i].Colours
		ground, _ := p.groundOf(&p.Stunt.Cues[i])
		for s, c := range colours {
			if c == None {
				continue
			}
			out[s] += weightShown
			if c != ground {
				out[s] += weightFigure
			}
			if p.differs(colours, s, s-1) || p.differs(colours, s, s+1) {
				out[s] += weightEdge
			}
		}
	}
	for s := range out {
		out[s] *= int64(math.Round(float64(p.Marks[0].Sight.Seen[s]) * 100))
	}
	return out
}

// differs says whether two seats stand side by side and show different colours.
func (p *Plan) differs(colours []int16, s, t int) bool {
	if t < 0 || t >= len(colours) || colours[s] == colours[t] {
		return false
	}
	a, b := &p.Stands.Seats[s], &p.Stands.Seats[t]
	return a.Section == b.Section && a.Row == b.Row && max(a.Place-b.Place, b.Place-a.Place) == 1 && b.Use == seating.UseCard
}
