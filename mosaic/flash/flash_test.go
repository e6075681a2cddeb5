package flash

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"everyseat/mosaic/colour"
)

// grey looks of a given luminance.
func grey(luminance float64) Look {
	return LookOf(colour.Linear{luminance, luminance, luminance})
}

// blink changes a seat n times between looks 1 and 0, one change each `every`, a cue each.
func blink(seat int32, begin, every time.Duration, n int) []Change {
	changes := make([]Change, n)
	for i := range changes {
		changes[i] = Change{At: begin + time.Duration(i)*every, Seat: seat, Look: int16(1 - i%2), Cue: int16(i)}
	}
	return changes
}

func check(t *testing.T, shares []float64, looks []Look, changes []Change) Report {
	t.Helper()
	r, err := Check(shares, looks, make([]int16, len(shares)), changes)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var blackWhite = []Look{grey(0), grey(1)}

// The boundaries of WCAG 2.3.1 (SEEN: W3C, general-flash-and-red-flash-thresholds and
// three-flashes-or-below-threshold). What exactly three a second means is ours to
// define (see the package's comment): it passes.
func TestGeneralFlashBoundaries(t *testing.T) {
	const sixth = time.Second / 6
	for _, c := range []struct {
		name    string
		share   float64
		looks   []Look
		changes []Change
		refused bool
	}{
		{"three flashes in a second, then still", 1, blackWhite, blink(0, 0, 100*time.Millisecond, 6), false},
		{"three flashes and a rise that stays", 1, blackWhite, blink(0, 0, 100*time.Millisecond, 7), false},
		{"four flashes in a second", 1, blackWhite, blink(0, 0, 100*time.Millisecond, 8), true},
		{"cycles of exactly a third, for ten seconds", 1, blackWhite, blink(0, 0, sixth+1, 60), false},
		{"cycles of a third in whole milliseconds", 1, blackWhite, blink(0, 0, 333*time.Millisecond/2, 60), false},
		{"cycles longer than a third", 1, blackWhite, blink(0, 0, 170*time.Millisecond, 60), false},
		{"cycles shorter than a third", 1, blackWhite, blink(0, 0, 160*time.Millisecond, 60), true},
		{"a luminance step of 0.10", 1, []Look{grey(0.20), grey(0.30)}, blink(0, 0, 100*time.Millisecond, 8), true},
		{"a luminance step of 0.09", 1, []Look{grey(0.20), grey(0.29)}, blink(0, 0, 100*time.Millisecond, 8), false},
		{"the darker at 0.80", 1, []Look{grey(0.80), grey(1)}, blink(0, 0, 100*time.Millisecond, 8), false},
		{"the darker at 0.79", 1, []Look{grey(0.79), grey(1)}, blink(0, 0, 100*time.Millisecond, 8), true},
		{"a quarter of the picture", 0.25, blackWhite, blink(0, 0, 100*time.Millisecond, 8), false},
		{"more than a quarter", 0.2501, blackWhite, blink(0, 0, 100*time.Millisecond, 8), true},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := check(t, []float64{c.share}, c.looks, c.changes)
			if (r.General != nil) != c.refused || r.Refused() != c.refused {
				t.Errorf("refused %v, want %v: %v", r.Refused(), c.refused, r.Say())
			}
		})
	}
}

// The red flash of WCAG 2.2 (working definition, SEEN). Red and blue of the test have
// luminances that differ by less than 10 %, so that only the red rule can find them.
func TestRedFlashBoundaries(t *testing.T) {
	darkRed, darkBlue := colour.Linear{0.2, 0, 0}, colour.Linear{0, 0, 0.6}
	for _, c := range []struct {
		name    string
		a, b    colour.Linear
		n       int
		refused bool
	}{
		{"red and blue, four flashes", darkBlue, darkRed, 8, true},
		{"red and blue, three flashes", darkBlue, darkRed, 6, false},
		{"ratio 0.80", darkBlue, colour.Linear{0.2, 0.03, 0.02}, 8, true},
		{"ratio 0.79", darkBlue, colour.Linear{0.2, 0.033, 0.02}, 8, false},
		{"red and a near orange", colour.Linear{0.2, 0.06, 0}, darkRed, 10, false},
		{"two reds", darkRed, colour.Linear{0.2, 0.03, 0}, 8, false},
		{"dark red and black", colour.Linear{}, darkRed, 8, true},
		{"green and blue", darkBlue, colour.Linear{0, 0.05, 0}, 8, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := check(t, []float64{1}, []Look{LookOf(c.a), LookOf(c.b)}, blink(0, 0, 100*time.Millisecond, c.n))
			if r.General != nil {
				t.Fatalf("the general rule must not find it: %v", r.Say())
			}
			if (r.Red != nil) != c.refused {
				t.Errorf("refused %v, want %v: %v", r.Red != nil, c.refused, r.Say())
			}
		})
	}
}

// u′, v′ of the sRGB primaries' and white's published x, y (IEC 61966-2-1: red 0.64,
// 0.33; green 0.30, 0.60; blue 0.15, 0.06; white 0.3127, 0.3290; MEMORY) by
// u′ = 4x/(−2x+12y+3), v′ = 9y/(−2x+12y+3) (CIE 15; MEMORY).
func TestChromaticity(t *testing.T) {
	for _, c := range []struct {
		l    colour.Linear
		x, y float64
	}{
		{colour.Linear{1, 0, 0}, 0.64, 0.33},
		{colour.Linear{0, 1, 0}, 0.30, 0.60},
		{colour.Linear{0, 0, 1}, 0.15, 0.06},
		{colour.Linear{1, 1, 1}, 0.3127, 0.3290},
		{colour.Linear{0, 0, 0}, 0.3127, 0.3290},
	} {
		d := -2*c.x + 12*c.y + 3
		u, v := int32(4e6*c.x/d), int32(9e6*c.y/d)
		look := LookOf(c.l)
		// The matrix has four places: two units of the fourth place in u′ and v′.
		if du, dv := look.U-u, look.V-v; du < -200 || du > 200 || dv < -200 || dv > 200 {
			t.Errorf("%v: got %d, %d, want %d, %d", c.l, look.U, look.V, u, v)
		}
	}
}

// A rise by steps is one change, a small dip does not part it, and a dip inside the
// bright range is no change.
func TestStepsAndDips(t *testing.T) {
	looks := []Look{grey(0), grey(0.05), grey(0.1), grey(0.5), grey(0.45), grey(1), grey(0.85)}
	for _, c := range []struct {
		name  string
		path  []int16
		edges string
	}{
		{"two small steps", []int16{1, 2}, ".U"},
		{"steps up", []int16{2, 3, 5}, "U.."},
		{"small dip", []int16{3, 4, 5, 0}, "U..D"},
		{"bright dip", []int16{5, 6, 5, 0}, "U..D"},
		{"bright dip that goes on", []int16{5, 6, 3, 5}, "U.DU"},
		{"up and down", []int16{5, 0, 5, 0}, "UDUD"},
	} {
		var own []Change
		for i, look := range c.path {
			own = append(own, Change{At: time.Duration(i), Look: look})
		}
		got := []byte(strings.Repeat(".", len(c.path)))
		for _, e := range luminanceEdges(nil, looks, 0, own) {
			got[e.at] = 'D'
			if e.up {
				got[e.at] = 'U'
			}
		}
		if string(got) != c.edges {
			t.Errorf("%s: got %s, want %s", c.name, got, c.edges)
		}
	}
}

// Areas add up over seats that flash in the same second, whichever moment each takes.
func TestAreasAddUp(t *testing.T) {
	fast := 100 * time.Millisecond
	// Two tenths of the picture each, half a step apart: no single moment reaches a quarter.
	together := append(blink(0, 0, fast, 8), blink(1, fast/2, fast, 8)...)
	if r := check(t, []float64{0.2, 0.2}, blackWhite, together); r.General == nil {
		t.Error("two parts that flash in the same second must add up")
	}
	apart := append(blink(0, 0, fast, 8), blink(1, 5*time.Second, fast, 8)...)
	if r := check(t, []float64{0.2, 0.2}, blackWhite, apart); r.General != nil {
		t.Errorf("parts that flash five seconds apart must not add up: %v", r.Say())
	}
	// Only the seconds that begin between 0.152 s and 0.2 s have four flashes of both.
	long := append(blink(0, 0, fast, 10), blink(1, 550*time.Millisecond, fast, 8)...)
	if r := check(t, []float64{0.2, 0.2}, blackWhite, long); r.General == nil {
		t.Error("a part that joins one that has long been flashing must add up")
	}
	// 450 seats, a quarter of the picture in shares that round up: the sum must still pass.
	shares := make([]float64, 450)
	var many []Change
	for s := range shares {
		shares[s] = 0.25 / 450
		many = append(many, blink(int32(s), 0, fast, 8)...)
	}
	if r := check(t, shares, blackWhite, many); r.Refused() {
		t.Errorf("a quarter in many small shares must pass: %v", r.Say())
	}
}

// Eight changes in a second are four flashes, also when the first goes down.
func TestFlashesThatBeginDownward(t *testing.T) {
	changes := []Change{{0, 0, 1, 0}}
	for _, c := range blink(0, 5*time.Second, 100*time.Millisecond, 8) {
		c.Look = 1 - c.Look
		changes = append(changes, c)
	}
	if r := check(t, []float64{1}, blackWhite, changes); r.General == nil {
		t.Error("must be refused")
	}
	if r := check(t, []float64{1}, blackWhite, changes[:8]); r.General != nil {
		t.Errorf("seven changes must pass: %v", r.Say())
	}
}

// Two halves that flash twice a second each, in turn, are four flashes of the picture.
func TestHalvesInTurn(t *testing.T) {
	left := []Change{{0, 0, 1, 0}, {100e6, 0, 0, 1}, {400e6, 0, 1, 4}, {500e6, 0, 0, 5}}
	right := []Change{{200e6, 1, 1, 2}, {300e6, 1, 0, 3}, {600e6, 1, 1, 6}, {700e6, 1, 0, 7}}
	if r := check(t, []float64{0.5, 0.5}, blackWhite, append(left, right...)); r.General == nil {
		t.Error("halves that flash in turn must be refused")
	}
	if r := check(t, []float64{0.2, 0.2}, blackWhite, append(left, right...)); r.General != nil {
		t.Errorf("parts of a fifth must pass: %v", r.Say())
	}
}

// A checkerboard that swaps, half up while half goes down, flashes like its seats do.
func TestSwappingHalves(t *testing.T) {
	for n, refused := range map[int]bool{7: false, 8: true} {
		changes := blink(0, 0, 100*time.Millisecond, n)
		for _, c := range blink(1, 0, 100*time.Millisecond, n) {
			c.Look = 1 - c.Look
			changes = append(changes, c)
		}
		r, err := Check([]float64{0.5, 0.5}, blackWhite, []int16{0, 1}, changes)
		if err != nil {
			t.Fatal(err)
		}
		if r.Refused() != refused {
			t.Errorf("%d swaps: refused %v, want %v", n, r.Refused(), refused)
		}
	}
}

// Three parts change so that no seat flashes often, but the picture as a whole goes
// down, up, down, up …; at the first moment one part goes up and another down.
func TestFirstChangeBothWays(t *testing.T) {
	const a, b, c = 0, 1, 2
	var changes []Change
	for i, step := range [][2]int{{b, 0}, {b, 1}, {a, 0}, {c, 1}, {c, 0}, {a, 1}, {a, 0}, {c, 1}} {
		at := time.Duration(i) * 100 * time.Millisecond
		changes = append(changes, Change{At: at, Seat: int32(step[0]), Look: int16(step[1])})
	}
	changes = append(changes, Change{At: 0, Seat: a, Look: 1})
	r, err := Check([]float64{0.3, 0.3, 0.3}, blackWhite, []int16{0, 1, 0}, changes)
	if err != nil || r.General == nil {
		t.Errorf("must be refused: %+v, %v", r, err)
	}
}

func TestNamesCueAndSecond(t *testing.T) {
	calm := Change{At: time.Second, Seat: 0, Look: 1, Cue: 0}
	down := Change{At: 3 * time.Second, Seat: 0, Look: 0, Cue: 1}
	changes := []Change{calm, down}
	for _, c := range blink(0, 10*time.Second, 100*time.Millisecond, 8) {
		c.Cue += 2
		changes = append(changes, c)
	}
	r := check(t, []float64{0.6}, blackWhite, changes)
	if r.General == nil {
		t.Fatal("must be refused")
	}
	// The fourth flash begins with the seventh change, that of the ninth cue.
	if got := *r.General; got != (Danger{Cue: 8, From: 10 * time.Second, Area: 0.6}) {
		t.Errorf("got %+v", got)
	}
	want := "cue 9, in the second from 10.00 s: more than three flashes over 60 % of the picture"
	if got := r.Say()[0]; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// More than three changes a second only warn, whatever their size.
func TestHurried(t *testing.T) {
	looks := []Look{grey(0.50), grey(0.51)}
	if r := check(t, []float64{0.01}, looks, blink(0, 0, 200*time.Millisecond, 4)); r.Hurried == nil || r.Refused() {
		t.Errorf("four changes in a second must warn and pass: %+v", r)
	}
	if r := check(t, []float64{0.01}, looks, blink(0, 0, 200*time.Millisecond, 3)); r.Hurried != nil {
		t.Error("three changes in a second must not warn")
	}
	same := []Change{{0, 0, 1, 0}, {1, 0, 1, 1}, {2, 0, 1, 2}, {3, 0, 1, 3}, {4, 0, 1, 4}}
	if r := check(t, []float64{0.01}, looks, same); r.Hurried != nil {
		t.Error("changes to the look that is there must not count")
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	changes := append(blink(0, 0, 100*time.Millisecond, 8), blink(1, 0, 70*time.Millisecond, 9)...)
	want := check(t, []float64{0.3, 0.1}, blackWhite, changes)
	backward := make([]Change, len(changes))
	for i, c := range changes {
		backward[len(changes)-1-i] = c
	}
	got := check(t, []float64{0.3, 0.1}, blackWhite, backward)
	if *got.General != *want.General || *got.Hurried != *want.Hurried {
		t.Errorf("got %v, want %v", got.Say(), want.Say())
	}
}

func TestBadInput(t *testing.T) {
	for _, c := range []struct {
		shares  []float64
		start   []int16
		changes []Change
		says    string
	}{
		{[]float64{-0.1}, []int16{0}, nil, "seat 0 fills -0.1 of the picture"},
		{[]float64{0.7, 0.7}, []int16{0, 0}, nil, "the seats fill 1.4"},
		{[]float64{0.5}, nil, nil, "1 seats, but the looks of 0"},
		{[]float64{0.5}, []int16{2}, nil, "seat 0 starts with look 2 of 2"},
		{[]float64{0.5}, []int16{0}, []Change{{Seat: 1}}, "a change of seat 1; there are 1 seats"},
		{[]float64{0.5}, []int16{0}, []Change{{Look: -1}}, "seat 0 changes to look -1 of 2"},
		{[]float64{0.5}, []int16{0}, []Change{{At: -1}}, "seat 0 changes at -1ns, before the start"},
	} {
		_, err := Check(c.shares, blackWhite, c.start, c.changes)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("got %v, want %q", err, c.says)
		}
	}
}

// 100,000 seats, ten cues as a wave of two seconds, in steps of ten milliseconds.
func BenchmarkCheck(b *testing.B) {
	shares := make([]float64, 100_000)
	start := make([]int16, len(shares))
	var changes []Change
	for s := range shares {
		shares[s] = 0.8 / float64(len(shares))
		changes = append(changes, blink(int32(s), time.Duration(s%200)*10*time.Millisecond, 2*time.Second, 10)...)
	}
	b.ResetTimer()
	for range b.N {
		if _, err := Check(shares, blackWhite, start, changes); err != nil {
			b.Fatal(err)
		}
	}
}

// Say are plain sentences, none if all is clear.
func (r Report) Say() []string {
	var lines []string
	say := func(d *Danger, what string) {
		if d != nil {
			lines = append(lines, fmt.Sprintf("cue %d, in the second from %.2f s: %s over %.0f %% of the picture",
				d.Cue+1, d.From.Seconds(), what, 100*d.Area))
		}
	}
	say(r.General, "more than three flashes")
	say(r.Red, "more than three red flashes")
	say(r.Hurried, "more than three changes of card")
	return lines
}
