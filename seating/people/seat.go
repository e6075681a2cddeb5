package people

import (
	"cmp"
	"slices"

	"everyseat/seating"
)

// Hall is what the room is told of the seats; it knows no message.
type Hall struct {
	Stands *seating.Stands
	Order  []int32 // every seat once, in laying order
	Weight []int64 // by seat: how much it matters that somebody sits there
	Unseen []bool  // by seat: no camera sees whoever sits there
	// Vital is by seat: as long as there are people somebody must sit there, even if that parts a group; nil = none.
	Vital []bool
}

// None stands for no seat and for no person.
const None = -1

// Seated is who sits where.
type Seated struct {
	Roster *Roster
	// Seat is by person; None = there is no seat out of sight for somebody who may not be filmed: they watch from
	// beside the camera.
	Seat   []int32
	Person []int32 // by seat; None = free
	// Parts is by group: in how many sections its people without needs sit; more than one where no section held them
	// all.
	Parts []int
	// Crowded are companions for whom no companion place was left: they sit with their group.
	Crowded int
}

// Aside is how many watch from beside the camera.
func (s *Seated) Aside() int {
	n := 0
	for _, seat := range s.Seat {
		if seat == None {
			n++
		}
	}
	return n
}

// Seat seats everybody of the roster once:
//
//   - Wheelchair and companion places go to those who need them and to nobody else: those that matter most first, then
//     near their group, with the companion beside the wheelchair.
//   - Whoever may not be filmed sits where no camera sees them, as near to the group as can be, or nowhere.
//   - Groups sit in laying order in the order of the roster, each in one run of seats of one section; a group
//     waits for a later section, or is parted, where that is the only way to seat all, or to have somebody on vital
//     seats.
//   - Where there are more seats than people, those that matter least stay free, in every section and, as far
//     as groups allow, in all; of seats that matter alike those late in laying order.
//
// Errors are *seating.Fault without a Key: more people than seats, more wheelchairs than places for them.
func Seat(r *Roster, h Hall) (*Seated, error) {
	nobody := []int32{None}
	s := &seater{Hall: h, out: &Seated{Roster: r, Seat: slices.Repeat(nobody, len(r.People)),
		Person: slices.Repeat(nobody, len(h.Stands.Seats)), Parts: make([]int, len(r.Groups))},
		chosen: make([]bool, len(h.Stands.Seats))}
	s.sort()
	s.findPlaces()
	if err := s.enough(); err != nil {
		return nil, err
	}
	s.anchor = s.anchors(s.arrange(s.plain))
	s.seatUnseen(s.unfilmed, s.plain, len(s.plain)-s.seen)
	taken := func(seat int32) bool { return s.out.Person[seat] != None }
	runs := s.arrange(slices.DeleteFunc(slices.Clone(s.plain), taken))
	s.anchor = s.anchors(runs)
	next := make([]int, len(s.filmed)) // everybody without needs in the order of the roster
	for _, r := range runs {
		s.out.Parts[r.group]++
		for _, seat := range r.seats {
			s.put(s.filmed[r.group][next[r.group]], seat)
			next[r.group]++
		}
	}
	s.seatNeeds()
	return s.out, nil
}

// seater is one run of Seat.
type seater struct {
	Hall
	out *Seated

	plain                   []int32   // seats for everybody, in laying order
	wheelchair, companion   []int32   // kept places, in laying order
	filmed                  [][]int32 // people by group: those who may be filmed and need nothing
	seen                    int       // of them
	unfilmed, wheeled, with []int32   // people: hidden ones without needs, in wheelchairs, companions with a place
	at                      []int32   // by seat: its place in laying order
	chosen                  []bool    // by seat, see choose
	anchor                  []int32   // by group: the place in laying order about which it sits
}

// sort parts the people by what they need. Leaders come first in their group.
func (s *seater) sort() {
	r := s.out.Roster
	s.filmed = make([][]int32, len(r.Groups))
	places := 0 // of companions
	for i := range s.Stands.Seats {
		if seat := &s.Stands.Seats[i]; seat.For == "companion" && seat.Use == seating.UseCard {
			places++
		}
	}
	for g := range r.Groups {
		for _, leading := range []bool{true, false} {
			for i := r.Groups[g].First; i < r.Groups[g].Last; i++ {
				p := &r.People[i]
				if p.Leads != leading {
					continue
				}
				need := p.Need
				if need == Companion && len(s.with) == places {
					need = Nothing
					s.out.Crowded++
				}
				switch {
				case need == Wheelchair:
					s.wheeled = append(s.wheeled, int32(i))
				case need == Companion:
					s.with = append(s.with, int32(i))
				case p.Unfilmed:
					s.unfilmed = append(s.unfilmed, int32(i))
				default:
					s.filmed[g] = append(s.filmed[g], int32(i))
					s.seen++
				}
			}
		}
	}
}

// countSeen counts those of a list who may be filmed.
func (s *seater) countSeen(people []int32) int {
	n := 0
	for _, i := range people {
		if !s.out.Roster.People[i].Unfilmed {
			n++
		}
	}
	return n
}

// findPlaces parts the seats by who may sit there.
func (s *seater) findPlaces() {
	s.at = make([]int32, len(s.Stands.Seats))
	for k, i := range s.Order {
		s.at[i] = int32(k)
		seat := &s.Stands.Seats[i]
		switch {
		case seat.Use != seating.UseCard && seat.Use != seating.UsePerson:
		case seat.For == "wheelchair":
			s.wheelchair = append(s.wheelchair, i)
		case seat.For == "companion":
			s.companion = append(s.companion, i)
		case seat.For == "":
			s.plain = append(s.plain, i)
		}
	}
}

// enough says whether all have a place; who may not be filmed needs none.
func (s *seater) enough() error {
	wheeled := s.countSeen(s.wheeled)
	if n := len(s.wheelchair); wheeled > n {
		return seating.Wrong("",
			`keep more under [[section]]: reserved = [{ seats = ["1-1..2"], for = "wheelchair" }]`,
			"%d people come in wheelchairs and %d wheelchair places are kept: %d too few", wheeled, n, wheeled-n)
	}
	if n, people := len(s.plain), s.seen; people > n {
		return seating.Wrong("", "write down those who will come, or measure more seats",
			"there are %d seats for %d people, wheelchair and companion places apart: %d people too many",
			n, people, people-n)
	}
	return nil
}

// seatUnseen seats those of a list who may not be filmed on places out of sight, near their groups, as long as there
// are places to spare for them.
func (s *seater) seatUnseen(people, places []int32, spare int) {
	search := newNearby(s, places, true)
	for _, i := range people {
		p := &s.out.Roster.People[i]
		if !p.Unfilmed || spare <= 0 {
			continue
		}
		if seat := search.take(s.anchor[p.Group]); seat != None {
			s.put(i, seat)
			spare--
		}
	}
}

func (s *seater) put(person, seat int32) { s.out.Seat[person], s.out.Person[seat] = seat, person }

// run is a group's seats in one section, in laying order.
type run struct {
	group int
	seats []int32
}

// arrange shares seats out among the groups: which sections each sits in, which seats stay free.
func (s *seater) arrange(seats []int32) []run {
	sections := s.bySection(seats)
	sizes := make([]int, len(s.filmed))
	for g, list := range s.filmed {
		sizes[g] = len(list)
	}
	room, want, least := make([]int, len(sections)), make([]int, len(sections)), make([]int, len(sections))
	for k, list := range sections {
		room[k] = len(list)
	}
	s.choose(seats, s.seen)
	for k, list := range sections {
		for _, seat := range list {
			if s.chosen[seat] {
				want[k]++
			}
			if s.chosen[seat] && s.Vital != nil && s.Vital[seat] {
				least[k]++
			}
		}
	}
	var runs []run
	for k, pieces := range share(sizes, room, want, least) {
		used := 0
		for _, p := range pieces {
			used += p.count
		}
		s.choose(sections[k], used)
		list := slices.DeleteFunc(slices.Clone(sections[k]), func(seat int32) bool { return !s.chosen[seat] })
		for _, p := range pieces {
			runs = append(runs, run{p.group, list[:p.count:p.count]})
			list = list[p.count:]
		}
	}
	return runs
}

// bySection parts seats in laying order where the section changes.
func (s *seater) bySection(seats []int32) [][]int32 {
	var out [][]int32
	for i, seat := range seats {
		if i == 0 || s.Stands.Seats[seat].Section != s.Stands.Seats[seats[i-1]].Section {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], seat)
	}
	return out
}

// choose marks as chosen the n seats of a list in laying order that matter most.
func (s *seater) choose(seats []int32, n int) {
	sorted := slices.Clone(seats)
	slices.SortStableFunc(sorted, func(a, b int32) int { return cmp.Compare(s.Weight[b], s.Weight[a]) })
	for k, seat := range sorted {
		s.chosen[seat] = k < n
	}
}

// anchors is where each group sits, in laying order; a group without a seat of its own yet is
// taken to sit with the one before it.
func (s *seater) anchors(runs []run) []int32 {
	anchor := slices.Repeat([]int32{None}, len(s.filmed))
	size := make([]int, len(s.filmed))
	for _, r := range runs {
		if len(r.seats) > size[r.group] {
			size[r.group] = len(r.seats)
			anchor[r.group] = s.at[r.seats[len(r.seats)/2]]
		}
	}
	last := int32(0)
	for g := range anchor {
		if anchor[g] == None {
			anchor[g] = last
		}
		last = anchor[g]
	}
	return anchor
}

// seatNeeds gives wheelchair places, those that matter most first and near the groups, and companion places beside
// them. Who may not be filmed comes first, since fewer places will do, and leaves enough for the others.
func (s *seater) seatNeeds() {
	s.seatUnseen(s.wheeled, s.wheelchair, len(s.wheelchair)-s.countSeen(s.wheeled))
	s.seatUnseen(s.with, s.companion, len(s.companion)-s.countSeen(s.with))
	var ranks []*nearby
	for _, places := range s.ranked(s.wheelchair) {
		ranks = append(ranks, newNearby(s, places, false))
	}
	chairs := make([][]int32, len(s.filmed)) // by group: where its wheelchairs are
	for _, i := range s.wheeled {
		p := &s.out.Roster.People[i]
		for k := 0; !p.Unfilmed && s.out.Seat[i] == None; k++ { // enough says that there are places
			if seat := ranks[k].take(s.anchor[p.Group]); seat != None {
				s.put(i, seat)
			}
		}
		if seat := s.out.Seat[i]; seat != None {
			chairs[p.Group] = append(chairs[p.Group], seat)
		}
	}
	s.seatCompanions(chairs)
}

// ranked parts wheelchair places by how much they matter, each with the companion place beside it, the most first.
func (s *seater) ranked(places []int32) (ranks [][]int32) {
	worth := func(seat int32) int64 {
		most := int64(0)
		for _, c := range s.beside(seat) {
			most = max(most, s.Weight[c])
		}
		return s.Weight[seat] + most
	}
	sorted := slices.Clone(places)
	slices.SortStableFunc(sorted, func(a, b int32) int { return cmp.Compare(worth(b), worth(a)) })
	for i, seat := range sorted {
		if i == 0 || worth(seat) != worth(sorted[i-1]) {
			ranks = append(ranks, nil)
		}
		ranks[len(ranks)-1] = append(ranks[len(ranks)-1], seat)
	}
	return ranks
}

// beside are the free companion places next to a seat of its row.
func (s *seater) beside(seat int32) (out []int32) {
	at := &s.Stands.Seats[seat]
	for _, n := range [2]int32{seat - 1, seat + 1} {
		if n < 0 || int(n) == len(s.Stands.Seats) {
			continue
		}
		next := &s.Stands.Seats[n]
		if next.Section == at.Section && next.Row == at.Row && next.For == "companion" && s.out.Person[n] == None {
			out = append(out, n)
		}
	}
	return out
}

// seatCompanions seats companions by their group's wheelchairs, beside those first that have the fewest places beside
// them.
func (s *seater) seatCompanions(chairs [][]int32) {
	type pair struct{ person, spot, choice int32 }
	var pairs []pair
	count := make([]int, len(s.filmed))
	for _, i := range s.with {
		p := &s.out.Roster.People[i]
		if p.Unfilmed {
			continue
		}
		one := pair{i, s.anchor[p.Group], int32(len(s.companion))}
		if list := chairs[p.Group]; len(list) > 0 {
			chair := list[count[p.Group]%len(list)]
			one.spot, one.choice = s.at[chair], int32(len(s.beside(chair)))
			count[p.Group]++
		}
		pairs = append(pairs, one)
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return cmp.Compare(a.choice, b.choice) })
	companions := newNearby(s, s.companion, false)
	for _, one := range pairs {
		s.put(one.person, companions.take(one.spot))
	}
}

// nearby finds the free place nearest to a spot in laying order, in nearly constant time: places that
// are taken are skipped by links that shorten as they are followed.
type nearby struct {
	at          []int32 // places in laying order
	seats       []int32
	weight      []int64 // by seat of the stands
	left, right []int32 // by place + 1: the free one at or beyond it; 0 and len+1 = none
}

// newNearby looks among free seats of the list, which it puts in laying order; with unseen, only among
// those that no camera sees.
func newNearby(s *seater, list []int32, unseen bool) *nearby {
	n := &nearby{weight: s.Weight}
	list = slices.Clone(list)
	slices.SortFunc(list, func(a, b int32) int { return cmp.Compare(s.at[a], s.at[b]) })
	for _, seat := range list {
		if s.out.Person[seat] == None && (s.Unseen[seat] || !unseen) {
			n.at = append(n.at, s.at[seat])
			n.seats = append(n.seats, seat)
		}
	}
	n.left, n.right = make([]int32, len(n.seats)+2), make([]int32, len(n.seats)+2)
	for i := range n.left {
		n.left[i], n.right[i] = int32(i), int32(i)
	}
	return n
}

// free follows the links to the free place, and shortens them.
func free(links []int32, i int32) int32 {
	for links[i] != i {
		links[i] = links[links[i]]
		i = links[i]
	}
	return i
}

// take gives the nearest free seat, of two the one that matters more, then the earlier one, and takes it; None where
// none is left.
func (n *nearby) take(spot int32) int32 {
	first, _ := slices.BinarySearch(n.at, spot) // at or after the spot
	before, after := free(n.left, int32(first)), free(n.right, int32(first)+1)
	last := int32(len(n.at)) + 1
	at := after
	switch {
	case before == 0 && after == last:
		return None
	case after == last || before != 0 && n.nearer(spot, before-1, after-1):
		at = before
	}
	n.left[at], n.right[at] = at-1, at+1
	return n.seats[at-1]
}

// nearer says whether a place before a spot is to be taken rather than one after it.
func (n *nearby) nearer(spot, before, after int32) bool {
	a, b := spot-n.at[before], n.at[after]-spot
	return a < b || a == b && n.weight[n.seats[before]] >= n.weight[n.seats[after]]
}
