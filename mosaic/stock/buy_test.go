package stock

import (
	"fmt"
	"strings"
	"testing"
)

// common practice, no source: a tenth, five at least, for each section.
func TestSpares(t *testing.T) {
	for cards, want := range map[int]int{0: 0, 1: 5, 50: 5, 51: 6, 60: 6, 100: 10, 101: 11} {
		if got := Spares(cards); got != want {
			t.Errorf("%d cards: %d spares, want %d", cards, got, want)
		}
	}
}

func supplies() []Supply {
	return []Supply{
		{Name: "blue", Stock: Unlimited, Pack: 50, Cents: 800},
		{Name: "white", Stock: Unlimited, Have: 30, Pack: 100, Cents: 900, White: true},
		{Name: "red", Stock: 40, Pack: 25, Cents: 500},
	}
}

func bill(t *testing.T, making Making, piles []Pile, work Work) *Bill {
	t.Helper()
	b, err := Buy(making, piles, supplies(), work)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Sheets, worked by hand. Section 0 takes 90 blue and 12 white, section 1 takes 20
// blue and 8 white: spares 9 + 5 blue, 5 + 5 white. Blue 124 = 3 packs of 50, 26 left;
// white 30, of which 30 are there.
func TestBuySheets(t *testing.T) {
	piles := []Pile{{0, [2]int16{0, 0}, 90}, {0, [2]int16{1, 1}, 12}, {1, [2]int16{0, 0}, 20}, {1, [2]int16{1, 1}, 8}}
	work := DefaultWork()
	work.WageCents = 1200
	b := bill(t, Sheet, piles, work)
	want := []Line{
		{Colour: 0, Cards: 110, Spares: 14, Packs: 3, Left: 26, Cents: 2400},
		{Colour: 1, Cards: 20, Spares: 10},
	}
	if fmt.Sprint(b.Lines) != fmt.Sprint(want) {
		t.Errorf("got  %+v\nwant %+v", b.Lines, want)
	}
	// 154 cards at 2 s are 308 s, six minutes; at 12.00 an hour 102.67 cents.
	if b.Cards != 154 || b.Sheets != 154 || b.Toner != 0 || b.Minutes != 6 || b.GoodsCents != 2400 || b.WorkCents != 103 || !b.Priced || b.Short() {
		t.Errorf("got %+v", b)
	}
}

// Bonded, worked by hand: 100 blue/white and 30 plain red in one section. Two blue/white are
// spoiled. Spares: 10 blue, 10 white, 5 red. Red is 35 of 40 in stock, 2 packs.
func TestBuyBonded(t *testing.T) {
	piles := []Pile{{0, [2]int16{0, 1}, 100}, {0, [2]int16{2, 2}, 30}}
	b := bill(t, Bonded, piles, DefaultWork())
	want := []Line{
		{Colour: 0, Cards: 100, Spoiled: 2, Spares: 10, Packs: 3, Left: 38, Cents: 2400},
		{Colour: 1, Cards: 100, Spoiled: 2, Spares: 10, Packs: 1, Left: 18, Cents: 900},
		{Colour: 2, Cards: 30, Spares: 5, Packs: 2, Left: 15, Cents: 1000},
	}
	if fmt.Sprint(b.Lines) != fmt.Sprint(want) {
		t.Errorf("got  %+v\nwant %+v", b.Lines, want)
	}
	// 157 cards at 2 s and 102 bonds at 20 s: 2354 s.
	if b.Cards != 157 || b.Spoiled != 2 || b.Spares != 25 || b.Sheets != 259 || b.Minutes != 40 || b.Cents() != 4300 {
		t.Errorf("got %+v", b)
	}
}

// Printed, the same piles: 102 cards flooded on the blue side only, 31 red on both, spares
// 10 blue and 5 red on both, 10 white bare. 158 sheets of white card are a pack.
func TestBuyPrinted(t *testing.T) {
	piles := []Pile{{0, [2]int16{0, 1}, 100}, {0, [2]int16{2, 2}, 30}}
	b := bill(t, Printed, piles, DefaultWork())
	want := []Line{{Colour: -1, Cards: 130, Spoiled: 3, Spares: 25, Packs: 1, Left: 92, Cents: 1500}}
	if fmt.Sprint(b.Lines) != fmt.Sprint(want) {
		t.Errorf("got  %+v\nwant %+v", b.Lines, want)
	}
	// Toner: 102 + 62 + 20 + 10 sides. Time: 158 cards at 2 s, 194 sides at 6 s: 1480 s.
	if b.Cards != 158 || b.Sheets != 158 || b.Toner != 194 || b.Minutes != 25 || b.Cents() != 1500+194*25 {
		t.Errorf("got %+v", b)
	}
}

func TestBuyShortAndUnpriced(t *testing.T) {
	b := bill(t, Sheet, []Pile{{0, [2]int16{2, 2}, 45}}, DefaultWork())
	if !b.Short() || b.Lines[0].Short != 5 || b.Lines[0].Spares != 0 || b.Lines[0].Forgone != 5 {
		t.Errorf("45 red of 40: got %+v", b.Lines)
	}
	b, err := Buy(Sheet, []Pile{{0, [2]int16{0, 0}, 40}}, []Supply{{Name: "blue", Stock: Unlimited}}, DefaultWork())
	if err != nil || b.Priced || b.Lines[0].Packs != 45 || b.Lines[0].Left != 0 {
		t.Errorf("no pack, no price: got %+v, %v", b, err)
	}
}

// Spares are what is left of 40 red, worked by hand: 12, 11 and 10 cards would have five spares in each section. Of the
// seven that are left, counted up to each section in turn, 7*5/15 = 2, 7*10/15 = 4 and 7 are given.
func TestSparesGiveWay(t *testing.T) {
	red := [2]int16{2, 2}
	b := bill(t, Sheet, []Pile{{0, red, 12}, {1, red, 11}, {2, red, 10}}, DefaultWork())
	want := Line{Colour: 2, Cards: 33, Spares: 7, Forgone: 8, Packs: 2, Left: 10, Cents: 1000}
	if b.Short() || !b.Lacks() || b.Lines[0] != want || b.Spares != 7 || b.Cards != 40 {
		t.Errorf("got %+v", b)
	}
	if kept := []Pile{{0, red, 2}, {1, red, 2}, {2, red, 3}}; fmt.Sprint(b.Kept) != fmt.Sprint(kept) {
		t.Errorf("kept %v, want %v", b.Kept, kept)
	}
	// Cards that go wrong in the making are no spares: 30 of two colours spoil one, which is made first.
	b = bill(t, Bonded, []Pile{{0, [2]int16{0, 2}, 30}, {0, red, 6}}, DefaultWork())
	if l := b.Lines[1]; l.Cards != 36 || l.Spoiled != 1 || l.Spares != 3 || l.Forgone != 2 || b.Short() {
		t.Errorf("got %+v", l)
	}
	// White card to print on is not limited.
	if b = bill(t, Printed, []Pile{{0, red, 60}}, DefaultWork()); b.Lacks() || b.Spares != 6 {
		t.Errorf("got %+v", b)
	}
}

func TestCheapest(t *testing.T) {
	a := &Bill{Priced: true, GoodsCents: 500, WorkCents: 100, Minutes: 50}
	b := &Bill{Priced: true, GoodsCents: 600, Minutes: 10}
	short := &Bill{Priced: true, Lines: []Line{{Short: 1}}}
	unpriced := &Bill{}
	for _, c := range []struct {
		bills []*Bill
		want  int
	}{
		{nil, -1},
		{[]*Bill{a, b}, 1}, // as dear, but less work
		{[]*Bill{short, unpriced, a}, 2},
		{[]*Bill{short, unpriced}, 1},
		{[]*Bill{b, b}, 0},
	} {
		if got := Cheapest(c.bills...); got != c.want {
			t.Errorf("%v: got %d, want %d", c.bills, got, c.want)
		}
	}
}

// Work may turn the scales: gluing costs hours, toner costs money.
func TestCheapestWithHours(t *testing.T) {
	piles := []Pile{{0, [2]int16{0, 1}, 400}}
	work := DefaultWork()
	if Cheapest(bill(t, Bonded, piles, work), bill(t, Printed, piles, work)) != 0 {
		t.Error("where work is free, bonding must be cheaper")
	}
	work.WageCents = 6000
	if Cheapest(bill(t, Bonded, piles, work), bill(t, Printed, piles, work)) != 1 {
		t.Error("at 60.00 an hour, printing must be cheaper")
	}
}

func TestBuyBadInput(t *testing.T) {
	fine := []Pile{{0, [2]int16{0, 0}, 1}}
	for _, c := range []struct {
		making   Making
		piles    []Pile
		supplies []Supply
		says     string
	}{
		{"stone", fine, supplies(), `cards are made as "stone"`},
		{Sheet, []Pile{{0, [2]int16{0, 1}, 1}}, supplies(), "a sheet has one colour, not blue and white"},
		{Bonded, []Pile{{0, [2]int16{0, 3}, 1}}, supplies(), "a card of colour 3; there are 3 colours"},
		{Sheet, []Pile{{2, [2]int16{0, 0}, -1}}, supplies(), "section 2: -1 cards"},
		{Sheet, fine, []Supply{{Name: "blue", Cents: 5}}, "blue has a price but no pack size"},
		{Sheet, fine, []Supply{{Name: "blue", Stock: -2}}, "blue: stock, pack and price cannot be negative"},
	} {
		if _, err := Buy(c.making, c.piles, c.supplies, DefaultWork()); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("got %v, want %q", err, c.says)
		}
	}
}

// The piles of a kit hold every card once.
func TestKitPiles(t *testing.T) {
	cues := [][]int16{{0, 0, 1, None}, {1, 0, 1, None}, {0, 2, 0, None}}
	k, err := NewKit(cues, Bonded, nil)
	if err != nil {
		t.Fatal(err)
	}
	got := fmt.Sprint(k.Piles([]int{0, 1, 1, 1}))
	if want := "[{0 [0 1] 1} {1 [0 1] 1} {1 [0 2] 1}]"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
