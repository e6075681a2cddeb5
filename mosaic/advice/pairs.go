package advice

import "everyseat/mosaic"

// mostPairs is how many pairs of changes are tried where no single one is enough.
const mostPairs = 4

// pairs are the best single changes, two at a time; of what is written only one changes.
func (s *study) pairs(best []*variant) []*variant {
	var out []*variant
	for sum := 1; sum < 2*len(best); sum++ { // the best with the second, then with the third …
		for i := 0; 2*i < sum; i++ {
			k := sum - i
			if k >= len(best) || best[i].content && best[k].content || best[i].change == best[k].change {
				continue
			}
			a, b := best[i], best[k]
			if a.content { // what is written changes last: it copies the cue
				a, b = b, a
			}
			out = append(out, &variant{
				change: a.change + " and " + b.change, do: a.do + ", and " + b.do, rank: rankSeats + a.rank + b.rank, cues: max(a.cues, b.cues),
				apply: func(stunt *mosaic.Stunt) {
					a.apply(stunt)
					b.apply(stunt)
				},
			})
		}
	}
	return out
}
