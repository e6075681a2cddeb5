package advice

import "everyseat/mosaic"

// mostPairs is how many pairs of changes are tried where no single one is enough.
const mostPairs = 4

// forPairs is how many of so many plans are kept for pairs: single changes alone would use up all.
func forPairs(most int) int { return min(most/4, mostPairs-1) }

// together says whether two changes add up: both of what is written, or both of where the camera stands, do not.
func together(a, b *variant) bool {
	return a.change != b.change && !(a.content && b.content) && !(a.rank == rankPlace && b.rank == rankPlace)
}

// pairs are the best single changes, two at a time; of what is written only one changes.
func (s *study) pairs(best []*variant) []*variant {
	var out []*variant
	for sum := 1; sum < 2*len(best); sum++ { // the best with the second, then with the third …
		for i := 0; 2*i < sum; i++ {
			k := sum - i
			if k >= len(best) || !together(best[i], best[k]) {
				continue
			}
			out = append(out, paired(best[i], best[k]))
		}
	}
	return out
}

// paired is both changes.
func paired(a, b *variant) *variant {
	if a.content { // what is written changes last: it copies the cue
		a, b = b, a
	}
	return &variant{
		change: a.change + " and " + b.change, do: a.do + ", and " + b.do, rank: rankSeats + a.rank + b.rank,
		cues: max(a.cues, b.cues), alone: max(a.after, b.after),
		apply: func(stunt *mosaic.Stunt) {
			a.apply(stunt)
			b.apply(stunt)
		},
	}
}
