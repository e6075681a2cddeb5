package stock

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// scarceCues are cues over the same seats, like pictures, with some colours scarce.
func scarceCues(seed uint64, seats, cues, colours, tight int) ([]Cue, []int) {
	all := make([]Cue, cues)
	var stock []int
	for q := range all {
		p := pictureProblem(seed*100+uint64(q), seats, colours, tight)
		all[q].Cost = p.cost
		for s := range seats {
			all[q].Seats = append(all[q].Seats, int32(s))
		}
		if q == 0 {
			stock = p.stock
		}
	}
	return all, stock
}

// With prices no deal is dearer than without them, and over many cases the gap to the bound
// that no plan can go under shrinks to less than a third.
func TestPricesNeverCostMore(t *testing.T) {
	var with, without, least int64
	better := 0
	for seed := range uint64(60) {
		cues, stock := scarceCues(seed, 60+int(seed)*3, 2+int(seed%4), 5+int(seed%3), 3)
		seats := len(cues[0].Seats)
		got, err := AssignCues(cues, seats, stock, nil)
		if err != nil {
			t.Fatal(err)
		}
		recount(t, cues, stock, got)
		plain := &dealer{cues: cues, stock: stock, out: &Colours{ByCue: make([][]int16, len(cues))}}
		for q := range cues {
			plain.out.ByCue[q] = slices.Repeat([]int16{None}, seats)
		}
		if err := plain.rounds(maxRounds, true); err != nil {
			t.Fatal(err)
		}
		if got.Cost > plain.out.Cost {
			t.Errorf("seed %d: %d with prices, %d without", seed, got.Cost, plain.out.Cost)
		}
		if got.Cost < plain.out.Cost {
			better++
		}
		with, without, least = with+got.Cost, without+plain.out.Cost, least+got.Least
	}
	t.Logf("%d of 60 cases are better; over the bound by %.2f %%, without prices by %.2f %%", better, 100*float64(with-least)/float64(least), 100*float64(without-least)/float64(least))
	if (with-least)*3 > without-least {
		t.Errorf("over the bound by %d, without prices by %d", with-least, without-least)
	}
}

// Like people at like cues share a scarce colour: none of three cues loses much more than another.
func TestCuesShareFairly(t *testing.T) {
	const seats = 120 // forty of them at each cue want gold, each at one cue only
	cues := make([]Cue, 3)
	for q := range cues {
		for s := range seats {
			cues[q].Seats = append(cues[q].Seats, int32(s))
			row := []int32{0, 1000}
			if s%3 == q {
				row = []int32{1000, 0}
			}
			cues[q].Cost = append(cues[q].Cost, row...)
		}
	}
	got, err := AssignCues(cues, seats, []int{seats, 60}, nil)
	if err != nil {
		t.Fatal(err)
	}
	recount(t, cues, []int{seats, 60}, got)
	if got.Cost != 60_000 || got.Least != got.Cost {
		t.Errorf("cost %d, at least %d; sixty go without", got.Cost, got.Least)
	}
	for q := range cues {
		n := 0
		for s := range seats {
			if s%3 == q && got.ByCue[q][s] == 1 {
				n++
			}
		}
		if n < 12 || n > 28 {
			t.Errorf("cue %d has gold on %d of the 40 seats that want it", q, n)
		}
	}
}

// The linear program, by gonum's simplex (a general solver), is less than any plan: no cost may be
// under it, and the bound that is given is no weaker, but for what whole numbers round off.
func TestAssignCuesGonum(t *testing.T) {
	var sum, bound, truly float64
	for seed := range uint64(20) {
		cues, stock := scarceCues(seed, 5+int(seed%3), 2+int(seed%2), 3, 2)
		seats := len(cues[0].Seats)
		got, err := AssignCues(cues, seats, stock, nil)
		if err != nil {
			continue // too few cards for everybody
		}
		want := cueSimplex(t, cues, seats, stock)
		if float64(got.Cost) < want-1 {
			t.Errorf("seed %d: cost %d, but the linear program needs %.0f", seed, got.Cost, want)
		}
		best, can := bruteCues(cues, seats, stock)
		if !can || got.Least > best {
			t.Errorf("seed %d: bound %d, truly %d (%v)", seed, got.Least, best, can)
		}
		sum, bound, truly = sum+want, bound+float64(got.Least), truly+float64(best)
	}
	t.Logf("bounds come to %.1f %% of the optima, the linear programs to %.1f %%", 100*bound/truly, 100*sum/truly)
	if truly == 0 || bound < 0.98*sum {
		t.Errorf("bounds come to %.0f, linear programs to %.0f, optima to %.0f", bound, sum, truly)
	}
}

// cueSimplex has a variable for each seat, cue and colour, one for each sheet in a hand, and slacks.
func cueSimplex(t *testing.T, cues []Cue, seats int, stock []int) float64 {
	k, n := len(stock), len(cues)
	shows := func(s, q, c int) int { return (s*n+q)*k + c }
	holds := func(s, c int) int { return seats*n*k + s*k + c }
	slack := seats*n*k + seats*k
	rows, columns := seats*n+seats*n*k+k, slack+seats*n*k+k
	obj, a, b := make([]float64, columns), mat.NewDense(rows, columns, nil), make([]float64, rows)
	row := 0
	for q := range cues {
		for i := range cues[q].Seats {
			for c := range k {
				obj[shows(i, q, c)] = float64(cues[q].Cost[i*k+c]) / 1e6
				a.Set(row, shows(i, q, c), 1)
			}
			b[row] = 1
			row++
		}
	}
	for q := range cues {
		for i := range seats {
			for c := range k {
				a.Set(row, shows(i, q, c), 1)
				a.Set(row, holds(i, c), -1)
				a.Set(row, slack, 1)
				row, slack = row+1, slack+1
			}
		}
	}
	for c := range k {
		for i := range seats {
			a.Set(row, holds(i, c), 1)
		}
		a.Set(row, slack, 1)
		b[row] = float64(stock[c])
		row, slack = row+1, slack+1
	}
	got, _, err := lp.Simplex(obj, a, b, 1e-10, nil)
	if err != nil {
		t.Fatalf("gonum's simplex: %v", err)
	}
	return math.Round(got * 1e6)
}
