package mosaic

import (
	"cmp"
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/people"
)

// Turnout is who comes by what the stunt says, and which seats then stay free: those that matter least.
type Turnout struct {
	People  int     // who have a seat; 0 = how many come is not known
	Grouped bool    // they are those of the groups or of the roster; else so many of the invited as are expected
	Free    []int32 // seats on which nobody sits, by index
}

// Turnout is the plan's: of groups, or of so many of the invited as are expected, whichever are fewer. Nobody sits on
// wheelchair and companion places but who is known to need one: without groups they are free.
func (p *Plan) Turnout() Turnout {
	var t Turnout
	var taken []int32 // by whoever may come, on seats for everybody
	for s := range p.Stands.Seats {
		seat := &p.Stands.Seats[s]
		nobody := p.People != nil && p.People.Person[s] == people.None
		switch {
		case seat.Use != seating.UseCard && seat.Use != seating.UsePerson:
		case nobody, p.People == nil && seat.For != "":
			t.Free = append(t.Free, int32(s))
		case seat.For == "":
			taken = append(taken, int32(s))
		}
	}
	here := len(taken)
	if p.People != nil {
		t.Grouped, here = true, len(p.People.Roster.People)-p.People.Aside()
		t.People = here
	}
	if expected := p.Stands.Spec.ExpectedPeople(); expected > 0 && (p.People == nil || expected < here) {
		t.Grouped, t.People = false, min(expected, here)
		p.leastFirst(taken)
		t.Free = append(t.Free, taken[:min(here-t.People, len(taken))]...)
		slices.Sort(t.Free)
	}
	return t
}

// leastFirst sorts seats by how little they matter; of like ones those that are laid last come first.
func (p *Plan) leastFirst(seats []int32) {
	weight, at := p.weights(), p.laidAt()
	slices.SortFunc(seats, func(a, b int32) int {
		return cmp.Or(cmp.Compare(weight[a], weight[b]), cmp.Compare(at[b], at[a]))
	})
}

// laidAt is by seat its place in laying order.
func (p *Plan) laidAt() []int32 {
	at := make([]int32, len(p.Order))
	for k, s := range p.Order {
		at[s] = int32(k)
	}
	return at
}

// Seating is the plan with other people on its seats, those of a roster alone; what seats show stays. Errors are those
// of people.Seat.
func (p *Plan) Seating(roster *people.Roster) (*Plan, error) {
	seated, err := p.Seat(roster)
	if err != nil {
		return nil, err
	}
	q, given := *p, *p.Given
	given.People.Groups, given.People.Roster = nil, roster
	q.Given, q.People = &given, seated
	return &q, nil
}

// Chances are those of a text cue from a mark; j is how it is read.
func (p *Plan) Chances(j Judged, cue, mark int) *legibility.Chances {
	return legibility.NewChances(j.Fields, j.First+mark, j.Ink, p.Cues[cue].Text.Glyphs(), j.Options)
}

// Without is how a text cue reads with just these seats of Stands empty, in the order of their index; c is of the cue.
func (p *Plan) Without(c *legibility.Chances, cue int, empty []int32) (float64, legibility.Verdict) {
	field := p.Cues[cue].Field
	gone := make([]bool, len(field))
	for k, s := range field {
		_, gone[k] = slices.BinarySearch(empty, s)
	}
	return c.Without(gone)
}

// ReadsWithout is that from the mark from which the cue reads worst.
func (p *Plan) ReadsWithout(cue int, empty []int32) (float64, legibility.Verdict) {
	return p.Without(p.Chances(p.Judged(cue), cue, p.WorstMark(cue)), cue, empty)
}

// LeastFirst are the seats with a card that are for everybody, those that matter least first, and the kept ones that
// nobody is known to need.
func (p *Plan) LeastFirst() (open, kept []int32) {
	for s := range p.Stands.Seats {
		switch seat := &p.Stands.Seats[s]; {
		case seat.Use != seating.UseCard:
		case seat.For == "":
			open = append(open, int32(s))
		case p.People == nil || p.People.Person[s] == people.None:
			kept = append(kept, int32(s))
		}
	}
	p.leastFirst(open)
	return open, kept
}

// Move is people of one group who would do more for the picture elsewhere.
type Move struct {
	Group    int     // of the roster
	From, To []int32 // as many seats, in laying order
}

// Moves are who would move where if the seats that matter least of all were to stay free, whatever that does to groups
// that sit together; free are those seats then. Nobody who may not be filmed is moved, and nobody from or to a place
// that is kept. There are none where fewer are expected than the groups have: who stays away is not known.
func (p *Plan) Moves() (moves []Move, free []int32) {
	turnout := p.Turnout()
	if free = turnout.Free; !turnout.Grouped {
		return nil, free
	}
	isOpen := func(s int32) bool { return p.Stands.Seats[s].For == "" }
	var from, to []int32
	for s, who := range p.People.Person {
		if who != people.None && isOpen(int32(s)) && !p.People.Roster.People[who].Unfilmed {
			from = append(from, int32(s))
		}
	}
	for _, s := range free {
		if isOpen(s) {
			to = append(to, s)
		}
	}
	weight := p.weights()
	p.leastFirst(from)
	p.leastFirst(to)
	slices.Reverse(to)
	n := 0
	for n < min(len(from), len(to)) && weight[to[n]] > weight[from[n]] {
		n++
	}
	from, to = from[:n], to[:n]
	at := p.laidAt()
	laid := func(a, b int32) int { return cmp.Compare(at[a], at[b]) }
	slices.SortFunc(to, laid)
	slices.SortFunc(from, func(a, b int32) int {
		group := func(s int32) int32 { return p.People.Roster.People[p.People.Person[s]].Group }
		return cmp.Or(cmp.Compare(group(a), group(b)), laid(a, b))
	})
	for k, s := range from {
		group := int(p.People.Roster.People[p.People.Person[s]].Group)
		if len(moves) == 0 || moves[len(moves)-1].Group != group {
			moves = append(moves, Move{Group: group})
		}
		m := &moves[len(moves)-1]
		m.From, m.To = append(m.From, s), append(m.To, to[k])
	}
	slices.Sort(to)
	free = slices.DeleteFunc(free, func(s int32) bool {
		_, taken := slices.BinarySearch(to, s)
		return taken
	})
	free = append(free, from...)
	slices.Sort(free)
	return moves, free
}
