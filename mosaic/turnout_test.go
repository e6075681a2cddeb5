package mosaic

import (
	"slices"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/people"
)

// Of those who are expected everybody has a seat, and whatever stays free matters no more than what is taken. Places
// that are kept are free until somebody is known to need them.
func TestTurnoutLeavesFreeWhatMattersLeast(t *testing.T) {
	s := crowded()
	s.Stands.People, s.Stands.Expected = 400, 0.5
	p := mustMake(t, s)
	turnout, weight := p.Turnout(), p.weights()
	if turnout.Grouped || turnout.People != 200 || !slices.IsSorted(turnout.Free) {
		t.Fatalf("%+v", turnout)
	}
	taken, least, most := 0, int64(1<<60), int64(-1)
	for i := range p.Stands.Seats {
		seat := &p.Stands.Seats[i]
		_, free := slices.BinarySearch(turnout.Free, int32(i))
		switch {
		case seat.Use != seating.UseCard && seat.Use != seating.UsePerson:
			if free {
				t.Errorf("%s is no seat", p.Stands.ID(i))
			}
		case seat.For != "":
			if !free {
				t.Errorf("nobody has asked for %s", p.Stands.ID(i))
			}
		case free:
			most = max(most, weight[i])
		default:
			taken++
			least = min(least, weight[i])
		}
	}
	if taken != 200 || most > least {
		t.Errorf("%d sit, on seats from %d on, while one of %d is free", taken, least, most)
	}
	s.People.Groups = []people.Party{{Name: "harbour choir", People: 300}, {Name: "rowing club", People: 20, Wheelchairs: 1}}
	p = mustMake(t, s) // fewer are expected than the groups have
	turnout = p.Turnout()
	for seat, who := range p.People.Person {
		use := p.Stands.Seats[seat].Use
		if _, free := slices.BinarySearch(turnout.Free, int32(seat)); who == people.None && !free && (use == seating.UseCard || use == seating.UsePerson) {
			t.Errorf("nobody has %s, and it is not free", p.Stands.ID(seat))
		}
	}
	if all := p.Stands.CountAll().People(); turnout.Grouped || turnout.People != 200 || len(turnout.Free) != all-200 {
		t.Errorf("200 are expected: %d people, %d of %d seats free", turnout.People, len(turnout.Free), all)
	}
	s.People.Groups, s.Stands.People = nil, 0
	if turnout := mustMake(t, s).Turnout(); turnout.People != 0 || len(turnout.Free) != 2 {
		t.Errorf("nobody says how many come: %+v", turnout)
	}
}

// A group too large for a section sits on the letters all the same: what is left free is what matters least but for
// the ground, and the text reads nearly as with everybody where they stood.
func TestGroupsArePartedForTheMessage(t *testing.T) {
	s := gullhaven()
	s.Cues[0].Text = "WAVE"
	all := mustMake(t, s).Stands.CountAll().People()
	s.People.Groups = []people.Party{{Name: "harbour choir", People: all * 3 / 4}}
	p := mustMake(t, s)
	turnout, vital := p.Turnout(), p.vital()
	if !turnout.Grouped || turnout.People != all*3/4 || len(turnout.Free) != all-all*3/4 {
		t.Fatalf("%d people, %d seats free", turnout.People, len(turnout.Free))
	}
	for _, seat := range turnout.Free {
		if vital[seat] {
			t.Errorf("%s is free, of or beside a letter", p.Stands.ID(int(seat)))
		}
	}
	if score, v := p.ReadsWithout(0, turnout.Free); v != legibility.Reads {
		t.Errorf("%s, %v of %v", v, score, p.Cues[0].Reading.Score)
	}
}

// Moves take people from seats that matter less to free ones that matter more, as many as there are to gain by it.
func TestMoves(t *testing.T) {
	s := gullhaven()
	all := mustMake(t, s).Stands.CountAll().People()
	s.People.Groups = []people.Party{{Name: "harbour choir", People: all / 3}, {Name: "rowing club", People: all / 3, Unfilmed: 3}}
	p, weight := mustMake(t, s), []int64(nil)
	weight = p.weights()
	moves, free := p.Moves()
	var from, to []int32
	for _, m := range moves {
		if len(m.From) != len(m.To) {
			t.Errorf("%d of group %d move to %d seats", len(m.From), m.Group, len(m.To))
		}
		for k := range m.From {
			who := p.People.Person[m.From[k]]
			if int(p.People.Roster.People[who].Group) != m.Group || p.People.Roster.People[who].Unfilmed || p.People.Person[m.To[k]] != people.None {
				t.Errorf("%s to %s", p.Stands.ID(int(m.From[k])), p.Stands.ID(int(m.To[k])))
			}
		}
		from, to = append(from, m.From...), append(to, m.To...)
	}
	lost, won := int64(0), int64(1<<60)
	for k := range from {
		lost, won = max(lost, weight[from[k]]), min(won, weight[to[k]])
	}
	if lost >= won {
		t.Errorf("from a seat of %d to one of %d", lost, won)
	}
	want := slices.DeleteFunc(p.Turnout().Free, func(s int32) bool { return slices.Contains(to, s) })
	want = append(want, from...)
	slices.Sort(want)
	if !slices.Equal(free, want) {
		t.Errorf("%v stay free, want %v", free, want)
	}
	stay := int64(1 << 60)
	for i, who := range p.People.Person {
		if who != people.None && !p.People.Roster.People[who].Unfilmed && !slices.Contains(from, int32(i)) {
			stay = min(stay, weight[i])
		}
	}
	for _, seat := range free {
		if weight[seat] > stay {
			t.Errorf("%s of %d is free, and somebody sits on one of %d", p.Stands.ID(int(seat)), weight[seat], stay)
		}
	}
	if bare, _ := mustMake(t, gullhaven()).Moves(); bare != nil {
		t.Error("nobody is known, and they move")
	}
}
