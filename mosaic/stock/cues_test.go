package stock

import (
	"errors"
	"slices"
	"testing"
)

// randomCueCosts has two or three cues over a few seats, not all of them at every cue.
func randomCueCosts(rng *numbers, seats, cues, colours, top int) []Cue {
	all := make([]Cue, cues)
	for q := range all {
		for s := range seats {
			if rng.below(4) == 0 {
				continue
			}
			all[q].Seats = append(all[q].Seats, int32(s))
			for range colours {
				all[q].Cost = append(all[q].Cost, int32(rng.below(top)))
			}
		}
	}
	return all
}

// recount counts cost and stock again from the colours.
func recount(t *testing.T, cues []Cue, stock []int, c *Colours) {
	t.Helper()
	k := len(stock)
	seats := len(c.ByCue[0])
	shows := make([]map[int16]bool, seats)
	for s := range shows {
		shows[s] = map[int16]bool{}
	}
	var sum int64
	for q, cue := range cues {
		left := slices.Clone(c.ByCue[q])
		for i, s := range cue.Seats {
			colour := left[s]
			if colour == None {
				t.Fatalf("cue %d: seat %d has no colour", q, s)
			}
			sum += int64(cue.Cost[i*k+int(colour)])
			shows[s][colour] = true
			left[s] = None
		}
		for s, colour := range left {
			if colour != None {
				t.Fatalf("cue %d: seat %d should show nothing", q, s)
			}
		}
	}
	used := make([]int, k)
	for _, own := range shows {
		for colour := range own {
			used[colour]++
		}
	}
	for colour, n := range used {
		if stock[colour] != Unlimited && n > stock[colour] {
			t.Fatalf("colour %d: %d sheets of %d", colour, n, stock[colour])
		}
	}
	if sum != c.Cost || c.Least > c.Cost {
		t.Fatalf("cost %d, said to be %d, lower bound %d", sum, c.Cost, c.Least)
	}
}

// Tiny cases against every answer there is: never below the true optimum, the
// lower bound never above it, and an error exactly where the people are more than the sheets.
func TestAssignCuesBruteForce(t *testing.T) {
	exact, cases, short := 0, 600, 0
	var excess, optimum int64
	for seed := range cases {
		rng := numbers(seed)
		seats, colours := 1+rng.below(4), 2+rng.below(2)
		cues := randomCueCosts(&rng, seats, 2+rng.below(2), colours, 30)
		stock := make([]int, colours)
		for c := range stock {
			stock[c] = rng.below(seats + 1)
		}
		want, can := bruteCues(cues, seats, stock)
		got, err := AssignCues(cues, seats, stock, nil)
		lack := new(Short)
		if errors.As(err, &lack) {
			if can {
				t.Fatalf("seed %d: %v, but there is an answer of cost %d", seed, err, want)
			}
			short++
			continue
		}
		if err != nil || !can {
			t.Fatalf("seed %d: %v, though no answer exists", seed, err)
		}
		recount(t, cues, stock, got)
		if got.Cost < want || got.Least > want {
			t.Fatalf("seed %d: cost %d, lower bound %d, truly %d", seed, got.Cost, got.Least, want)
		}
		if got.Cost == want {
			exact++
		}
		excess += got.Cost - want
		optimum += want
	}
	if short == 0 || short == cases {
		t.Fatalf("%d of %d cases are short: not a fair choice", short, cases)
	}
	t.Logf("%d of %d answers are optimal, %.1f %% over all", exact, cases-short, 100*float64(excess)/float64(optimum))
}

func bruteCues(cues []Cue, seats int, stock []int) (least int64, can bool) {
	left := slices.Clone(stock)
	held := make([]uint64, seats)
	var try func(q, i int, sum int64)
	try = func(q, i int, sum int64) {
		for q < len(cues) && i == len(cues[q].Seats) {
			q, i = q+1, 0
		}
		if q == len(cues) {
			if !can || sum < least {
				least, can = sum, true
			}
			return
		}
		s := cues[q].Seats[i]
		for c := range stock {
			cost := int64(cues[q].Cost[i*len(stock)+c])
			if held[s]>>c&1 == 1 {
				try(q, i+1, sum+cost)
			} else if left[c] > 0 {
				left[c]--
				held[s] |= 1 << c
				try(q, i+1, sum+cost)
				held[s] &^= 1 << c
				left[c]++
			}
		}
	}
	try(0, 0, 0)
	return least, can
}

// With stock for all wishes, every cue has its own optimum.
func TestAssignCuesPlenty(t *testing.T) {
	rng := numbers(3)
	cues := randomCueCosts(&rng, 50, 3, 5, 1000)
	stock := []int{Unlimited, 50, 50, 50, 50}
	got, err := AssignCues(cues, 50, stock, nil)
	if err != nil {
		t.Fatal(err)
	}
	recount(t, cues, stock, got)
	if got.Cost != got.Least {
		t.Errorf("cost %d, lower bound %d", got.Cost, got.Least)
	}
}

// Larger cases with one cue are the plain problem.
func TestAssignCuesOfOne(t *testing.T) {
	for seed := range uint64(50) {
		p := pictureProblem(seed, 200, 6, 3)
		cue := Cue{Cost: p.cost}
		for s := range p.seats() {
			cue.Seats = append(cue.Seats, int32(s))
		}
		_, want, err := Assign(p.cost, p.stock)
		if err != nil {
			t.Fatal(err)
		}
		got, err := AssignCues([]Cue{cue}, 200, p.stock, nil)
		if err != nil || got.Cost != want || got.Least != want {
			t.Errorf("seed %d: got %v, %v, want %d", seed, got, err, want)
		}
	}
}

// A sheet is left for somebody who comes only at the last cue, though the first person
// would have liked it.
func TestAssignCuesLeaveOneForLater(t *testing.T) {
	cues := []Cue{{[]int32{0}, []int32{0, 9}}, {[]int32{0}, []int32{9, 0}}, {[]int32{1}, []int32{0, 0}}}
	stock := []int{1, 1}
	got, err := AssignCues(cues, 2, stock, nil)
	if err != nil {
		t.Fatal(err)
	}
	recount(t, cues, stock, got)
	if got.Cost != 9 {
		t.Errorf("cost %d, want 9", got.Cost)
	}
}

func TestAssignCuesBadInput(t *testing.T) {
	for name, cue := range map[string]Cue{
		"one cost for two colours": {[]int32{0}, []int32{1}},
		"no such seat":             {[]int32{1}, []int32{1, 1}},
		"a seat twice":             {[]int32{0, 0}, []int32{1, 1, 1, 1}},
	} {
		if _, err := AssignCues([]Cue{cue}, 1, []int{9, 9}, nil); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if got, err := AssignCues(nil, 3, []int{1}, nil); err != nil || got.Cost != 0 {
		t.Errorf("no cues: %v, %v", got, err)
	}
	// Three people at two cues, two sheets.
	cues := []Cue{{[]int32{0, 1}, []int32{0, 9, 0, 9}}, {[]int32{2}, []int32{0, 9}}}
	short := new(Short)
	if _, err := AssignCues(cues, 3, []int{1, 1}, nil); !errors.As(err, &short) || short.Seats != 1 {
		t.Errorf("got %v", err)
	}
	want := "cards short among colour 0, colour 1: 1; colour 0: 3 wanted, 1 in stock"
	if got := short.Error(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Three cues on 100,000 seats, the stock six tenths of what the cues want of six colours.
func BenchmarkAssignCues(b *testing.B) {
	const seats = 100_000
	cues := make([]Cue, 3)
	var stock []int
	for q := range cues {
		p := pictureProblem(uint64(q+1), seats, 12, 6)
		cues[q] = Cue{Cost: p.cost}
		for s := range seats {
			cues[q].Seats = append(cues[q].Seats, int32(s))
		}
		if q == 0 {
			stock = p.stock
		}
	}
	var got *Colours
	for b.Loop() {
		var err error
		if got, err = AssignCues(cues, seats, stock, nil); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(100*float64(got.Cost-got.Least)/float64(got.Least), "%gap")
}
