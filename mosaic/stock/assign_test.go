package stock

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
	"pgregory.net/rapid"
)

// solve assigns and checks what must hold of any answer.
func solve(t interface{ Fatalf(string, ...any) }, p problem) ([]int16, int64, error) {
	colours, total, err := Assign(p.cost, p.stock)
	if err != nil {
		return nil, 0, err
	}
	var sum int64
	used := make([]int, len(p.stock))
	for s, c := range colours {
		cost := p.cost[s*len(p.stock)+int(c)]
		if cost == Never {
			t.Fatalf("seat %d has a colour that it must not show", s)
		}
		sum += int64(cost)
		used[c]++
	}
	for c, n := range used {
		if p.stock[c] != Unlimited && n > p.stock[c] {
			t.Fatalf("colour %d: %d used of %d", c, n, p.stock[c])
		}
	}
	if len(colours) != p.seats() || sum != total {
		t.Fatalf("%d of %d seats, cost %d, said to be %d", len(colours), p.seats(), sum, total)
	}
	return colours, total, nil
}

// example reads a row of the published examples; see the README beside the table.
func example(t *testing.T, id string) (data, optimum string) {
	t.Helper()
	f, err := os.Open("../../testdata/reference/assignment_transport.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		if row[0] == id {
			return row[2], row[3]
		}
	}
	t.Fatalf("no example %s", id)
	return "", ""
}

// matrix reads the first [[…]] of a text, times a factor that makes it whole.
func matrix(t *testing.T, text string, factor float64) [][]int32 {
	t.Helper()
	var rows [][]float64
	if err := json.Unmarshal(regexp.MustCompile(`\[\[.*?\]\]`).FindAll([]byte(text), 1)[0], &rows); err != nil {
		t.Fatal(err)
	}
	whole := make([][]int32, len(rows))
	for i, row := range rows {
		for _, v := range row {
			whole[i] = append(whole[i], int32(v*factor+0.5))
		}
	}
	return whole
}

// number reads the first number after a word.
func number(t *testing.T, text, word string) float64 {
	t.Helper()
	found := regexp.MustCompile(word + `(\d+\.?\d*)`).FindStringSubmatch(text)
	if found == nil {
		t.Fatalf("no number after %q in %q", word, text)
	}
	v, err := strconv.ParseFloat(found[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Assignment: A1 of the SciPy documentation (SEEN-2nd), 3 seats of 3 colours; A2 of the
// OR-Tools samples (SEEN), where 4 tasks are the seats and 5 workers the colours.
func TestAssignPublishedAssignments(t *testing.T) {
	data, optimum := example(t, "A1")
	a1 := matrix(t, data, 1)
	colours, total, err := solve(t, problem{slices.Concat(a1...), []int{1, 1, 1}})
	if err != nil || float64(total) != number(t, optimum, "^") || fmt.Sprint(colours) != "[1 0 2]" {
		t.Errorf("A1: got %v, cost %d, %v, want %s", colours, total, err, optimum)
	}
	data, optimum = example(t, "A2")
	var cost []int32
	workers := matrix(t, data, 1)
	for task := range workers[0] {
		for _, row := range workers {
			cost = append(cost, row[task])
		}
	}
	if _, total, err := solve(t, problem{cost, []int{1, 1, 1, 1, 1}}); err != nil || float64(total) != number(t, optimum, "^") {
		t.Errorf("A2: got %d, %v, want %s", total, err, optimum)
	}
}

// T1: SAS/OR getting started (data SEEN, optimum COMPUTED); a seat a unit of supply, a colour a market.
func TestAssignPublishedBalancedTransport(t *testing.T) {
	data, optimum := example(t, "T1")
	rows := matrix(t, data, 1)
	var cost []int32
	for i, town := range []string{"Detroit", "Pittsburgh"} {
		for range int(number(t, data, town)) {
			cost = append(cost, rows[i]...)
		}
	}
	stock := []int{int(number(t, data, "Boston")), int(number(t, data, "NewYork"))}
	if _, total, err := solve(t, problem{cost, stock}); err != nil || float64(total) != number(t, optimum, "^") {
		t.Errorf("got %d, %v, want %s", total, err, optimum)
	}
}

// T2: Dantzig 1963, section 3.3 (data SEEN, optimum COMPUTED); a seat a case that a
// market demands, a colour a plant. Distances are in tenths of a thousand miles, $90 a case and thousand miles.
func TestAssignPublishedTransport(t *testing.T) {
	data, optimum := example(t, "T2")
	rows := matrix(t, data, 10)
	var cost []int32
	for m, market := range []string{"NY", "Chi", "Top"} {
		for range int(number(t, data, market)) {
			cost = append(cost, rows[0][m], rows[1][m])
		}
	}
	stock := []int{int(number(t, data, "Seattle")), int(number(t, data, "SanDiego"))}
	_, total, err := solve(t, problem{cost, stock})
	if dollars := total * 9; err != nil || dollars != int64(number(t, optimum, "^")*1000+0.5) {
		t.Errorf("got $%d, %v, want %s", dollars, err, optimum)
	}
}

// F1: Bradley, Hax, Magnanti, figure 8.1 (SEEN). A flow is a transportation problem when each
// unit of an arc's capacity is a seat that goes to the arc's end at its cost, or
// stays at its start for nothing; node i then takes the capacity that leaves it less its supply.
func TestAssignPublishedFlow(t *testing.T) {
	data, optimum := example(t, "F1")
	list := func(word string) []int {
		var out []int
		found := regexp.MustCompile(word + ` ([-\d ]+)`).FindStringSubmatch(data)
		for _, digits := range regexp.MustCompile(`-?\d+`).FindAllString(found[1], -1) {
			n, err := strconv.Atoi(digits)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, n)
		}
		return out
	}
	start, end, capacity, price, supply := list("start"), list("end"), list("cap"), list("cost"), list("supply")
	nodes := len(supply)
	stock := make([]int, nodes)
	var cost []int32
	for a := range start {
		stock[start[a]] += capacity[a]
		row := slices.Repeat([]int32{Never}, nodes)
		row[start[a]], row[end[a]] = 0, int32(price[a])
		for range capacity[a] {
			cost = append(cost, row...)
		}
	}
	for i, s := range supply {
		stock[i] -= s
	}
	if _, total, err := solve(t, problem{cost, stock}); err != nil || float64(total) != number(t, optimum, "^") {
		t.Errorf("got %d, %v, want %s", total, err, optimum)
	}
}

// The optimum of gonum's simplex method (a general solver of linear programs) on small random cases.
func TestAssignGonum(t *testing.T) {
	for seed := range uint64(300) {
		rng := numbers(seed + 1000)
		seats, colours := 1+rng.below(9), 2+rng.below(4)
		p := randomProblem(seed*2, seats, colours, rng.below(colours))
		if seed%4 != 0 {
			p = pictureProblem(seed, seats, colours, rng.below(colours))
		}
		want := simplex(t, p)
		if _, total, err := solve(t, p); err != nil || total != want {
			t.Errorf("seed %d: got %d, %v, want %d", seed, total, err, want)
		}
	}
}

// simplex has a variable for each seat and colour and a slack for each colour.
func simplex(t *testing.T, p problem) int64 {
	seats, k := p.seats(), len(p.stock)
	n := seats*k + k
	c := make([]float64, n)
	a := mat.NewDense(seats+k, n, nil)
	b := make([]float64, seats+k)
	for s := range seats {
		b[s] = 1
		for col := range k {
			// Costs are scaled so that the solver's tolerances suit them.
			c[s*k+col] = min(float64(p.cost[s*k+col]), 1e8) / 1e6
			a.Set(s, s*k+col, 1)
			a.Set(seats+col, s*k+col, 1)
		}
	}
	for col := range k {
		b[seats+col] = float64(p.stock[col])
		a.Set(seats+col, seats*k+col, 1)
	}
	got, _, err := lp.Simplex(c, a, b, 0, nil)
	if err != nil {
		t.Fatalf("gonum's simplex: %v", err)
	}
	return int64(got*1e6 + 0.5)
}

// Every assignment of tiny cases.
func TestAssignBruteForce(t *testing.T) {
	short := 0
	for seed := range uint64(2000) {
		rng := numbers(seed)
		seats, colours := 1+rng.below(6), 2+rng.below(3)
		p := randomProblem(seed, seats, colours, rng.below(colours+1))
		want, most := bruteForce(p)
		_, total, err := solve(t, p)
		var lack *Short
		switch {
		case err == nil && most == seats && total == want:
		case errors.As(err, &lack) && most == seats-lack.Seats && lack.Seats > 0:
			short++
		default:
			t.Errorf("seed %d: got %d, %v, want %d, %d of %d seats", seed, total, err, want, most, seats)
		}
	}
	if short < 100 {
		t.Errorf("only %d cases were short", short)
	}
}

// bruteForce is the least cost with a card for each seat, and the most seats that can have one.
func bruteForce(p problem) (least int64, most int) {
	k := len(p.stock)
	left := slices.Clone(p.stock)
	least = 1 << 62
	var try func(s, served int, sum int64)
	try = func(s, served int, sum int64) {
		if s == p.seats() {
			most = max(most, served)
			if served == s {
				least = min(least, sum)
			}
			return
		}
		for c := range k {
			if cost := p.cost[s*k+c]; left[c] > 0 && cost != Never {
				left[c]--
				try(s+1, served+1, sum+int64(cost))
				left[c]++
			}
		}
		try(s+1, served, sum)
	}
	try(0, 0, 0)
	return least, most
}

// Never worse than first come, first served, and the same again from the same input.
func TestAssignBeatsGreedy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		colours := rapid.IntRange(1, 12).Draw(t, "colours")
		seats := rapid.IntRange(1, 300).Draw(t, "seats")
		p := pictureProblem(rapid.Uint64().Draw(t, "seed"), seats, colours, rapid.IntRange(0, colours-1).Draw(t, "tight"))
		if rapid.Bool().Draw(t, "open") {
			p.stock[colours-1] = Unlimited
		}
		got, total, err := solve(t, p)
		if err != nil {
			t.Fatal(err)
		}
		if g := greedy(p); total > g {
			t.Fatalf("cost %d, first come first served has %d", total, g)
		}
		if again, _, _ := Assign(p.cost, p.stock); !slices.Equal(got, again) {
			t.Fatal("not the same twice")
		}
	})
}

func greedy(p problem) int64 {
	left := slices.Clone(p.stock)
	var sum int64
	for s := range p.seats() {
		best := -1
		row := p.cost[s*len(left) : (s+1)*len(left)]
		for c := range left {
			if left[c] != 0 && (best < 0 || row[c] < row[best]) {
				best = c
			}
		}
		if left[best] > 0 {
			left[best]--
		}
		sum += int64(row[best])
	}
	return sum
}

// Of seats that are alike, the lower ones are moved.
func TestAssignTies(t *testing.T) {
	p := problem{stock: []int{2, Unlimited}}
	for range 5 {
		p.cost = append(p.cost, 0, 7)
	}
	if got, _, err := solve(t, p); err != nil || fmt.Sprint(got) != "[1 1 1 0 0]" {
		t.Errorf("got %v, %v", got, err)
	}
}

func TestAssignShort(t *testing.T) {
	const no = Never
	_, _, err := Assign([]int32{0, 5, 9, 0, 5, 9, 0, 5, 9, 9, 5, 0}, []int{1, 1, 1})
	var short *Short
	if !errors.As(err, &short) || short.Seats != 1 || fmt.Sprint(short.Colours) != "[0 1 2]" {
		t.Fatalf("got %v", err)
	}
	want := "cards short among colour 0, colour 1, colour 2: 1; colour 0: 3 wanted, 1 in stock"
	if got := short.Error(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	// Two seats that may only be red; blue has plenty for the third, but not for them.
	_, _, err = Assign([]int32{0, no, 0, no, 0, 1}, []int{1, 9})
	if !errors.As(err, &short) || short.Seats != 1 || fmt.Sprint(short.Colours) != "[0]" {
		t.Errorf("got %v", err)
	}
	_, _, err = Assign([]int32{no, no}, []int{1, 9})
	if !errors.As(err, &short) || short.Seats != 1 || short.Error() != "seats that may take no colour at all: 1" {
		t.Errorf("got %v", err)
	}
}

func TestAssignBadInput(t *testing.T) {
	for name, p := range map[string]problem{
		"no colours":      {[]int32{1}, nil},
		"too many":        {make([]int32, MaxColours+1), make([]int, MaxColours+1)},
		"negative stock":  {[]int32{1, 1}, []int{1, -2}},
		"ragged":          {[]int32{1, 1, 1}, []int{1, 1}},
		"negative cost":   {[]int32{-1, 1}, []int{1, 1}},
		"cost over limit": {[]int32{MaxCost + 1, 1}, []int{1, 1}},
	} {
		var short *Short
		if _, _, err := Assign(p.cost, p.stock); err == nil || errors.As(err, &short) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	if c, total, err := Assign(nil, []int{0}); len(c) != 0 || total != 0 || err != nil {
		t.Errorf("no seats: %v, %d, %v", c, total, err)
	}
}
