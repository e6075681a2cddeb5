package stock

import (
	"fmt"
	"math/bits"
	"slices"
	"testing"
)

// count is what one person does with a kit.
type count struct{ cards, changes int }

// show checks that a kit shows what was asked for, and counts again, from what the
// hands do, the cards held, the changes and the kinds.
func show(t *testing.T, cues [][]int16, k *Kit) []count {
	t.Helper()
	made := make([]int, len(k.Cards))
	counts := make([]count, len(cues[0]))
	total, changes, most := 0, 0, 0
	for s := range counts {
		n := &counts[s]
		held := map[int16]bool{}
		hand := int16(-1)
		for q := range cues {
			h := k.Hands[q][s]
			if (h.Card < 0) != (cues[q][s] == None) {
				t.Fatalf("cue %d, seat %d: holds %v for colour %d", q, s, h, cues[q][s])
			}
			if h.Card < 0 {
				continue
			}
			if got := k.Cards[h.Card].Sides[h.Side]; got != cues[q][s] {
				t.Fatalf("cue %d, seat %d: shows %d, want %d", q, s, got, cues[q][s])
			}
			if hand >= 0 && hand != h.Card {
				n.changes++
			}
			hand = h.Card
			if !held[h.Card] {
				held[h.Card] = true
				made[h.Card]++
				n.cards++
			}
		}
		total, changes, most = total+n.cards, changes+n.changes, max(most, n.cards)
	}
	if total != k.Total || changes != k.Changes || most != k.Most || fmt.Sprint(made) != fmt.Sprint(k.Made) {
		t.Fatalf("hands: %d cards, %d changes, %d at most, made %v; kit says %d, %d, %d, %v",
			total, changes, most, made, k.Total, k.Changes, k.Most, k.Made)
	}
	if k.LeastKinds > len(k.Cards) {
		t.Fatalf("%d kinds, fewer than the lower bound %d", len(k.Cards), k.LeastKinds)
	}
	return counts
}

// asCues turns one person's sequence into cues of one seat.
func asCues(sequences ...[]int16) [][]int16 {
	cues := make([][]int16, len(sequences[0]))
	for q := range cues {
		for _, seq := range sequences {
			cues[q] = append(cues[q], seq[q])
		}
	}
	return cues
}

func mustKit(t *testing.T, making Making, sequences ...[]int16) *Kit {
	t.Helper()
	cues := asCues(sequences...)
	k, err := NewKit(cues, making, nil)
	if err != nil {
		t.Fatal(err)
	}
	show(t, cues, k)
	return k
}

// slow tries every set of cards for one sequence: the fewest cards, the fewest changes
// with so few, and all sets (bits of the kinds below) that reach both.
type slow struct {
	kinds [][2]int16
}

func newSlow(colours int) slow {
	var s slow
	for a := range int16(colours) {
		for b := a; b < int16(colours); b++ {
			s.kinds = append(s.kinds, [2]int16{a, b})
		}
	}
	return s
}

func (s slow) solve(seq []int16) (cards, changes int, sets []int) {
	for cards = 0; ; cards++ {
		changes = MaxOwn
		s.choose(cards, 0, 0, func(set int) {
			switch n := s.changes(seq, set); {
			case n < changes:
				changes, sets = n, []int{set}
			case n == changes && n < MaxOwn:
				sets = append(sets, set)
			}
		})
		if changes < MaxOwn {
			return cards, changes, sets
		}
	}
}

func (s slow) choose(n, from, set int, try func(set int)) {
	if n == 0 {
		try(set)
		return
	}
	for k := from; k < len(s.kinds); k++ {
		s.choose(n-1, k+1, set|1<<k, try)
	}
}

// changes is the fewest over all ways to choose a card at each cue, or MaxOwn where a colour has none.
func (s slow) changes(seq []int16, set int) int {
	last := make([]int, len(s.kinds)) // fewest changes that end with this card in hand
	first := true
	for _, c := range seq {
		if c == None {
			continue
		}
		now := make([]int, len(s.kinds))
		for k, sides := range s.kinds {
			now[k] = MaxOwn
			if set>>k&1 == 0 || sides[0] != c && sides[1] != c {
				continue
			}
			for before, n := range last {
				switch {
				case first:
					now[k] = 0
				case before == k:
					now[k] = min(now[k], n)
				default:
					now[k] = min(now[k], n+1)
				}
			}
		}
		last, first = now, false
	}
	if first {
		return 0
	}
	fewest := MaxOwn
	for _, n := range last {
		fewest = min(fewest, n)
	}
	return fewest
}

// Every sequence of up to six cues in up to four colours or none, by brute force; those of
// one length are the seats of one kit.
func TestKitAgainstBruteForce(t *testing.T) {
	brute := newSlow(4)
	checked := 0
	for length := 1; length <= 6; length++ {
		seqs := make([][]int16, pow(5, length))
		for n := range seqs {
			seqs[n] = make([]int16, length)
			for q, rest := 0, n; q < length; q, rest = q+1, rest/5 {
				seqs[n][q] = int16(rest%5) + None
			}
		}
		cues := asCues(seqs...)
		k, err := NewKit(cues, Bonded, nil)
		if err != nil {
			t.Fatal(err)
		}
		for s, got := range show(t, cues, k) {
			cards, changes, _ := brute.solve(seqs[s])
			if got != (count{cards, changes}) {
				t.Fatalf("%v: %+v, brute force %d cards, %d changes", seqs[s], got, cards, changes)
			}
			checked++
		}
	}
	if checked != 5+25+125+625+3125+15625 {
		t.Fatalf("checked %d sequences", checked)
	}
}

func pow(b, n int) int {
	p := 1
	for range n {
		p *= b
	}
	return p
}

// A B A C A with two cards: A/B, then A/C, which A's double lets pass with one change.
func TestKitABACA(t *testing.T) {
	k := mustKit(t, Bonded, []int16{0, 1, 0, 2, 0})
	if k.Total != 2 || k.Changes != 1 {
		t.Errorf("got %d cards, %d changes, want 2, 1", k.Total, k.Changes)
	}
	k = mustKit(t, Bonded, []int16{0, None, 1, None, 0})
	if k.Total != 1 || k.Changes != 0 {
		t.Errorf("a card remembered over a rest: got %d cards, %d changes, want 1, 0", k.Total, k.Changes)
	}
	k = mustKit(t, Sheet, []int16{0, 1, 0, 2, 0})
	if k.Total != 3 || k.Changes != 4 {
		t.Errorf("sheets: got %d cards, %d changes, want 3, 4", k.Total, k.Changes)
	}
}

// Longer sequences with more colours, by brute force on random ones.
func TestKitLongSequences(t *testing.T) {
	rng := numbers(7)
	brute := newSlow(6)
	for range 150 {
		seq := make([]int16, 7+rng.below(9))
		for q := range seq {
			seq[q] = int16(rng.below(7)) + None
		}
		k := mustKit(t, Printed, seq)
		cards, changes, _ := brute.solve(seq)
		if k.Total != cards || k.Changes != changes {
			t.Fatalf("%v: %d cards, %d changes, brute force %d, %d", seq, k.Total, k.Changes, cards, changes)
		}
	}
}

// The longest kits with the most colours must still be answered.
func TestKitLongest(t *testing.T) {
	for _, colours := range []int{1, 2, 12, 17, 31, 32} {
		rng := numbers(colours)
		seq := make([]int16, MaxOwn)
		for q := range seq {
			seq[q] = int16(rng.below(colours))
			if colours >= 31 {
				seq[q] = int16(q % colours)
			}
		}
		mustKit(t, Bonded, seq)
	}
	star := make([]int16, MaxOwn) // A B A C A D …
	for q := range star {
		if q%2 == 1 {
			star[q] = int16(q/2 + 1)
		}
	}
	if k := mustKit(t, Bonded, star); k.Total != 9 {
		t.Errorf("17 colours: %d cards, want 9", k.Total)
	}
}

// With few people the fewest kinds can be found by trying every set of kinds. The kit
// has as many or more, its lower bound as many or fewer; over all cases the
// search stays within a twentieth of the fewest.
func TestKitKinds(t *testing.T) {
	brute := newSlow(5)
	rng := numbers(11)
	ours, fewest, least := 0, 0, 0
	for range 100 {
		seqs := make([][]int16, 8+rng.below(17))
		cues := 3 + rng.below(3)
		for i := range seqs {
			seqs[i] = make([]int16, cues)
			for q := range seqs[i] {
				seqs[i][q] = int16(rng.below(6)) + None
			}
		}
		k := mustKit(t, Bonded, seqs...)
		sets := brute.ownSets(seqs)
		n := brute.fewestKinds(sets)
		if len(k.Cards) < n || k.LeastKinds > n {
			t.Fatalf("%v: %d kinds, lower bound %d, truly %d", seqs, len(k.Cards), k.LeastKinds, n)
		}
		for _, spared := range k.Cards {
			kinds := 0
			for _, c := range k.Cards {
				if c != spared {
					kinds |= 1 << slices.Index(brute.kinds, c.Sides)
				}
			}
			if enough(kinds, sets) {
				t.Errorf("%v: kind %v of %v can be spared", seqs, spared, k.Cards)
			}
		}
		ours, fewest, least = ours+len(k.Cards), fewest+n, least+k.LeastKinds
	}
	t.Logf("kinds in all: ours %d, fewest %d, lower bound %d", ours, fewest, least)
	if 20*(ours-fewest) > fewest {
		t.Errorf("%d kinds, where %d would do", ours, fewest)
	}
}

// ownSets are the best sets of cards for each sequence. As in NewKit, no card may show a colour
// that its holder never shows.
func (s slow) ownSets(seqs [][]int16) [][]int {
	sets := make([][]int, len(seqs))
	for i, seq := range seqs {
		_, _, all := s.solve(seq)
		for _, set := range all {
			if s.onlyOwn(set, seq) {
				sets[i] = append(sets[i], set)
			}
		}
	}
	return sets
}

// fewestKinds tries every set of kinds.
func (s slow) fewestKinds(sets [][]int) int {
	fewest := len(s.kinds)
	for kinds := range 1 << len(s.kinds) {
		if n := bits.OnesCount(uint(kinds)); n < fewest && enough(kinds, sets) {
			fewest = n
		}
	}
	return fewest
}

// enough says whether every sequence has a set among these kinds.
func enough(kinds int, sets [][]int) bool {
	for _, own := range sets {
		if !slices.ContainsFunc(own, func(set int) bool { return set&^kinds == 0 }) {
			return false
		}
	}
	return true
}

func (s slow) onlyOwn(set int, seq []int16) bool {
	shows := map[int16]bool{}
	for _, c := range seq {
		shows[c] = true
	}
	for k, sides := range s.kinds {
		if set>>k&1 == 1 && (!shows[sides[0]] || !shows[sides[1]]) {
			return false
		}
	}
	return true
}

func TestKitBadInput(t *testing.T) {
	for name, err := range map[string]error{
		"making":  second(NewKit([][]int16{{0}}, "stone", nil)),
		"own":     second(NewKit(ladder(MaxOwn+1), Bonded, nil)),
		"seats":   second(NewKit([][]int16{{0}, {0, 1}}, Sheet, nil)),
		"colour":  second(NewKit([][]int16{{MaxColours}}, Sheet, nil)),
		"colour2": second(NewKit([][]int16{{-2}}, Sheet, nil)),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if k, err := NewKit(nil, Bonded, nil); err != nil || len(k.Cards) != 0 {
		t.Errorf("no cues: %v, %v", k, err)
	}
	if k, err := NewKit([][]int16{{None, None}}, Bonded, nil); err != nil || k.Total != 0 {
		t.Errorf("nobody shows anything: %v, %v", k, err)
	}
}

func second[T any](_ T, err error) error { return err }

// ladder is one person who shows another colour at every cue.
func ladder(colours int) [][]int16 {
	cues := make([][]int16, colours)
	for q := range cues {
		cues[q] = []int16{int16(q)}
	}
	return cues
}

// Cues may be many where a person's colours are few.
func TestKitManyCues(t *testing.T) {
	seq := make([]int16, 500)
	for q := range seq {
		seq[q] = int16(q % 4)
	}
	// A B C D A … : two cards, and of any two steps in a row at most one turns a card over.
	if k := mustKit(t, Bonded, seq); k.Total != 2 || k.Changes != 249 {
		t.Errorf("%d cards and %d changes, want 2 and 249", k.Total, k.Changes)
	}
}

// randomCues is the hard case: no two people need have the same sequence.
func randomCues(cues, seats, colours int) [][]int16 {
	rng := numbers(1)
	all := make([][]int16, cues)
	for q := range all {
		all[q] = make([]int16, seats)
		for s := range all[q] {
			all[q][s] = int16(rng.below(colours))
		}
	}
	return all
}

// messageCues is the usual case: words in one colour on another, with pictures between.
func messageCues(cues, seats, colours int) [][]int16 {
	rng := numbers(2)
	all := make([][]int16, cues)
	for q := range all {
		all[q] = make([]int16, seats)
		ink, ground := rng.below(colours), rng.below(colours)
		at := 0
		for at < seats {
			for range min(1+rng.below(9), seats-at) {
				all[q][at] = int16(ground)
				at++
			}
			for range min(2+rng.below(3), seats-at) {
				all[q][at] = int16(ink)
				if q%3 == 2 {
					all[q][at] = int16(rng.below(colours))
				}
				at++
			}
		}
	}
	return all
}

func benchmarkKit(b *testing.B, cues [][]int16) {
	var k *Kit
	for b.Loop() {
		var err error
		if k, err = NewKit(cues, Bonded, nil); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(k.Cards)), "kinds")
	b.ReportMetric(float64(k.LeastKinds), "least")
}

func BenchmarkKit(b *testing.B) {
	for _, seats := range []int{450, 100_000} {
		b.Run(fmt.Sprintf("%d/messages6", seats), func(b *testing.B) { benchmarkKit(b, messageCues(10, seats, 6)) })
		b.Run(fmt.Sprintf("%d/random6", seats), func(b *testing.B) { benchmarkKit(b, randomCues(10, seats, 6)) })
		b.Run(fmt.Sprintf("%d/random12", seats), func(b *testing.B) { benchmarkKit(b, randomCues(10, seats, 12)) })
	}
}
