package people

// sums knows which numbers of people groups make together, each taken whole or not at all.
type sums struct {
	groups []piece
	most   int
	from   [][]uint64 // by group: bit n is set where it and those after it make n
}

// newSums looks at sums of at most most.
func newSums(groups []piece, most int) *sums {
	s := &sums{groups: append([]piece{}, groups...), most: most, from: make([][]uint64, len(groups)+1)}
	words := most/64 + 1
	last := make([]uint64, words)
	last[0] = 1
	s.from[len(groups)] = last
	for g := len(groups) - 1; g >= 0; g-- {
		after := s.from[g+1]
		with := make([]uint64, words)
		copy(with, after)
		jump, shift := s.groups[g].count/64, uint(s.groups[g].count%64)
		for w := words - 1; w >= jump; w-- {
			moved := after[w-jump] << shift
			if shift > 0 && w > jump {
				moved |= after[w-jump-1] >> (64 - shift)
			}
			with[w] |= moved
		}
		s.from[g] = with
	}
	return s
}

func (s *sums) reached(g, n int) bool {
	return n >= 0 && n <= s.most && s.from[g][n/64]>>uint(n%64)&1 == 1
}

// nearest is the sum from low to high that is nearest to aim, the lower one of two.
func (s *sums) nearest(low, high, aim int) (int, bool) {
	low, high = max(low, 0), min(high, s.most)
	for d := 0; aim-d >= low || aim+d <= high; d++ {
		if n := aim - d; n >= low && n <= high && s.reached(0, n) {
			return n, true
		}
		if n := aim + d; n >= low && n <= high && s.reached(0, n) {
			return n, true
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
