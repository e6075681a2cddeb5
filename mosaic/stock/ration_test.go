package stock

import (
	"slices"
	"testing"
)

// way is a set of cards that one person may have: the changes, and the sheets by colour beyond one of each.
type way struct {
	changes int
	more    []int
}

// ways are all sets with the fewest cards that show only the person's own colours.
func (s slow) ways(seq []int16, colours int) []way {
	cards, _, _ := s.solve(seq)
	var out []way
	s.choose(cards, 0, 0, func(set int) {
		n := s.changes(seq, set)
		if n == MaxOwn || !s.onlyOwn(set, seq) {
			return
		}
		w := way{n, make([]int, colours)}
		for k, sides := range s.kinds {
			if set>>k&1 == 1 {
				w.more[sides[0]]++
				if sides[0] != sides[1] {
					w.more[sides[1]]++
				}
			}
		}
		for c := range w.more {
			w.more[c] = max(w.more[c]-1, 0)
		}
		out = append(out, w)
	})
	return out
}

// fewestWithin tries every way of every person.
func fewestWithin(people [][]way, over []int) int {
	if len(people) == 0 {
		return 0
	}
	fewest := 1 << 20
	for _, w := range people[0] {
		left := slices.Clone(over)
		fits := true
		for c, n := range w.more {
			if left[c] != Unlimited {
				left[c] -= n
				fits = fits && left[c] >= 0
			}
		}
		if fits {
			fewest = min(fewest, w.changes+fewestWithin(people[1:], left))
		}
	}
	return fewest
}

// repeated counts the sheets by colour that people have beyond one of each.
func repeated(cues [][]int16, k *Kit, colours int) []int {
	out := make([]int, colours)
	for s := range cues[0] {
		held := map[int16]bool{}
		sheets := make([]int, colours)
		for q := range cues {
			if c := k.Hands[q][s].Card; c >= 0 && !held[c] {
				held[c] = true
				sheets[k.Cards[c].Sides[0]]++
				if !k.Cards[c].Plain() {
					sheets[k.Cards[c].Sides[1]]++
				}
			}
		}
		for c, n := range sheets {
			out[c] += max(n-1, 0)
		}
	}
	return out
}

// Few people with every way of holding cards: the kit takes no more sheets than are over, has the
// fewest cards, and no other has fewer changes. With plenty it is NewKit.
func TestKitOfFewSheets(t *testing.T) {
	const colours = 5
	brute := newSlow(colours)
	rng := numbers(31)
	cases, given, fewer := 400, 0, 0
	for n := range cases {
		seqs := make([][]int16, 1+rng.below(4))
		cues := 3 + rng.below(6)
		people := make([][]way, len(seqs))
		for i := range seqs {
			seqs[i] = make([]int16, cues)
			for q := range seqs[i] {
				seqs[i][q] = int16(rng.below(4+n%3)) + None
			}
			people[i] = brute.ways(seqs[i], colours)
		}
		over := make([]int, colours)
		for c := range over {
			over[c] = rng.below(4) - 1
			if n%2 == 1 {
				over[c] = rng.below(2)
			}
		}
		k, err := NewKit(asCues(seqs...), Bonded, over)
		if err != nil {
			t.Fatal(err)
		}
		free := mustKit(t, Bonded, seqs...)
		show(t, asCues(seqs...), k)
		if want := fewestWithin(people, over); k.Changes != want || k.Total != free.Total {
			t.Fatalf("%v with %v over: %d cards, %d changes; %d cards, brute force %d changes", seqs, over, k.Total, k.Changes, free.Total, want)
		}
		for c, used := range repeated(asCues(seqs...), k, colours) {
			if over[c] != Unlimited && used > over[c] {
				t.Fatalf("%v with %v over: %d sheets more of colour %d", seqs, over, used, c)
			}
			if used > 0 {
				given++
			}
		}
		if k.LeastChanges != free.Changes || (k.Changes > k.LeastChanges) != (len(k.Lacking) > 0) {
			t.Fatalf("%v with %v over: %d changes, %d at least, lacking %v; with plenty %d", seqs, over, k.Changes, k.LeastChanges, k.Lacking, free.Changes)
		}
		if k.Changes > k.LeastChanges {
			fewer++
		}
	}
	t.Logf("of %d cases %d have more changes than with plenty; %d colours are repeated", cases, fewer, given)
	if fewer < cases/20 || given < cases/20 {
		t.Error("not a fair choice of cases")
	}
}

// A plain side is kept for the person for whom it costs least.
func TestKitOfSharesWell(t *testing.T) {
	seqs := [][]int16{{0, 1, 0, 2, None, None, None, None}, {0, 1, 0, 2, 0, 1, 0, 2}}
	k, err := NewKit(asCues(seqs...), Bonded, []int{1, 0, 0})
	if err != nil {
		t.Fatal(err)
	}
	counts := show(t, asCues(seqs...), k)
	if counts[0].changes != 1 || counts[1].changes != 3 {
		t.Errorf("changes %v", counts)
	}
}
