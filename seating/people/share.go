package people

import (
	"math/big"
	"slices"
)

// piece is so many people of a group in one section.
type piece struct{ group, count int }

// Bounds of the search for groups that fill a section, so that it stays short with thousands of them.
const (
	searched = 128 // groups, from the first one that has no seats yet
	leftOver = 512 // seats: until fewer are left, groups are taken in their order
)

// share gives each section its groups, whole ones in their order where that can be. Section k has
// room[k] seats and should take want[k] people; want adds up to all sizes, and at no place is there room
// for fewer people than are left. A section takes more or fewer than it should only to keep groups whole, and never
// fewer than least[k], which is no more than want[k].
func share(sizes, room, want, least []int) [][]piece {
	s := &sharing{}
	for g, n := range sizes {
		if n > 0 {
			s.groups = append(s.groups, piece{g, n})
			s.people += n
		}
	}
	later, owed := 0, 0 // of the sections to come: seats, and people that they must have
	for k, n := range room {
		later, owed = later+n, owed+least[k]
	}
	out := make([][]piece, len(room))
	due := 0 // people that should have been seated by the end of this section, less those who were
	for k := range room {
		later, owed = later-room[k], owed-least[k]
		due += want[k]
		low, high := max(least[k], s.people-later), min(room[k], s.people-owed)
		out[k] = s.section(low, high, min(max(due, low), high))
		for _, p := range out[k] {
			due -= p.count
		}
	}
	return out
}

// sharing is what is still to be seated.
type sharing struct {
	groups []piece // in order; the first may be the rest of a group
	parted bool    // it is
	people int
}

// section takes from low to high people, as near to aim as whole groups allow.
func (s *sharing) section(low, high, aim int) []piece {
	if high == 0 {
		return nil
	}
	var out []piece
	taken := 0
	take := func(i, n int) {
		out = append(out, piece{s.groups[i].group, n})
		taken += n
		s.people -= n
		if s.groups[i].count -= n; s.groups[i].count == 0 {
			s.groups = append(s.groups[:i], s.groups[i+1:]...)
		}
	}
	if s.parted {
		take(0, min(s.groups[0].count, high))
		if s.parted = taken == high && len(s.groups) > 0 && s.groups[0].group == out[0].group; s.parted {
			return out
		}
	}
	for len(s.groups) > 0 && taken+s.groups[0].count+leftOver <= aim {
		take(0, s.groups[0].count)
	}
	if low == high && high == s.people+taken { // the last section
		for len(s.groups) > 0 {
			take(0, s.groups[0].count)
		}
		return out
	}
	sums := newSums(s.groups[:min(len(s.groups), searched)], high-taken)
	sum, whole := sums.nearest(low-taken, high-taken, aim-taken)
	for gone, k := range sums.members(sum) {
		take(k-gone, s.groups[k-gone].count)
	}
	for !whole && taken < aim {
		n := s.groups[0].count
		s.parted = n > aim-taken
		take(0, min(n, aim-taken))
	}
	return out
}

// sums knows which numbers of people groups make together, each taken whole or not at all.
type sums struct {
	groups []piece
	most   int
	from   []*big.Int // by group: bit n is set where it and those after it make n
}

// newSums looks at sums of at most most.
func newSums(groups []piece, most int) *sums {
	s := &sums{groups: slices.Clone(groups), most: most, from: make([]*big.Int, len(groups)+1)}
	one := big.NewInt(1)
	mask := new(big.Int).Sub(new(big.Int).Lsh(one, uint(most+1)), one)
	s.from[len(groups)] = one
	for g := len(groups) - 1; g >= 0; g-- {
		after, with := s.from[g+1], new(big.Int)
		with.Lsh(after, uint(groups[g].count))
		s.from[g] = with.Or(with, after).And(with, mask)
	}
	return s
}

func (s *sums) reached(g, n int) bool { return n >= 0 && n <= s.most && s.from[g].Bit(n) == 1 }

// nearest is the sum from low to high that is nearest to aim, the lower one of two.
func (s *sums) nearest(low, high, aim int) (int, bool) {
	low, high = max(low, 0), min(high, s.most)
	for d := 0; aim-d >= low || aim+d <= high; d++ {
		for _, n := range [2]int{aim - d, aim + d} {
			if n >= low && n <= high && s.reached(0, n) {
				return n, true
			}
		}
	}
	return 0, false
}

// members are the groups that make a sum, the first ones where there is a choice.
func (s *sums) members(sum int) []int {
	var out []int
	for g := range s.groups {
		if n := s.groups[g].count; sum >= n && s.reached(g+1, sum-n) && sum > 0 {
			out = append(out, g)
			sum -= n
		}
	}
	return out
}
