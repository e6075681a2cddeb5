package people

import "sort"

// nearby finds the free place nearest to a spot in laying order, in nearly constant time: places that
// are taken are skipped by links that shorten as they are followed.
type nearby struct {
	at          []int32 // places in laying order
	seats       []int32
	left, right []int32 // by place + 1: the free one at or beyond it; 0 and len+1 = none
}

// newNearby looks among free seats of the list, which is in laying order; with unseen, only among
// those that no camera sees.
func newNearby(s *seater, list []int32, unseen bool) *nearby {
	n := &nearby{}
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

// take gives the nearest free seat, the earlier one of two, and takes it; None where none is left.
func (n *nearby) take(spot int32) int32 {
	i := int32(sort.Search(len(n.at),
		func(k int) bool { return n.at[k] >= spot })) + 1 // the first at or after the spot
	before, after := free(n.left, i-1), free(n.right, i)
	last := int32(len(n.at)) + 1
	at := after
	switch {
	case before == 0 && after == last:
		return None
	case after == last || before != 0 && spot-n.at[before-1] <= n.at[after-1]-spot:
		at = before
	}
	n.left[at], n.right[at] = at-1, at+1
	return n.seats[at-1]
}
