package legibility

import (
	"math"
	"runtime"
	"slices"
	"testing"
)

// usual is what every verdict expects.
var usual = Options{Empty: 0.08, Wrong: 0.01, HandHeight: 0.04, HandSideways: 0.02, CardWidth: 0.28, CardHeight: 0.216, Seed: 3}

// hal is a word of three letters on 14 rows of 40.
func hal() *Chances {
	f := block(14, 40, 0)
	ink, text := print(f, "HAL", 150, 140, 50, 112, 256)
	return NewChances([]*Field{f}, 0, ink, text, usual)
}

// Shrinking takes pixels away by the factor alone, and from 12.8 of them on no letter is told from others
// (Johnson 1958 as encyclopaedias quote it, SEEN-2nd: 6.4 pairs of lines, two pixels each).
func TestShrunkHasFewerPixels(t *testing.T) {
	c := hal()
	whole := c.judge.expected().Score
	if same := c.Shrunk(2000); same.Score != whole || same.Pixels != c.Pixels() {
		t.Errorf("a film that is not wider: %+v, as recorded %v with %v pixels", same, whole, c.Pixels())
	}
	last := whole
	for _, width := range []float64{640, 320, 160} {
		s := c.Shrunk(width)
		if math.Abs(s.Pixels-c.Pixels()*width/1000) > 1e-9 || s.Pixels < 12.8 || s.Score == 0 || s.Score > last+0.01 {
			t.Errorf("%v across: %+v after %v", width, s, last)
		}
		last = s.Score
	}
	width := 12.8 / c.Pixels() * 1000
	if s := c.Shrunk(width - 1); s.Score != 0 || s.Verdict != DoesNotRead {
		t.Errorf("under 12.8 pixels a letter: %+v", s)
	}
	if s := c.Shrunk(width + 1); s.Score == 0 {
		t.Errorf("over 12.8 pixels a letter: %+v", s)
	}
}

// The blur that stands for shrinking is what shrinking does: here the picture is really averaged over large
// pixels and enlarged again by straight lines between their middles. A pixel half a seat wide is about what
// letters of 12.8 pixels have; one of a whole seat is beyond.
func TestShrinkingIsAnAreaAverage(t *testing.T) {
	c := hal().judge
	var fine Patch
	fine.Show(c.canvas, c.ink, nil, nil)
	for wide, most := range map[float64]float64{pitchPixels / 2: 0.01, pitchPixels: 0.02} {
		var soft Patch
		soft.Show(c.canvas.softened(math.Sqrt(wide*wide/4)), c.ink, nil, nil)
		off, before := shrunkBeside(&fine, &soft, c.canvas, wide)
		t.Logf("pixels of %v: mean difference %.4f, without the blur %.4f", wide, off, before)
		if off > most || before < 2*off {
			t.Errorf("pixels of %v: the blur is %.4f from the area average in the mean, no blur %.4f", wide, off, before)
		}
	}
}

// shrunkBeside compares, over the canvas's inside, the fine picture as shrunk and enlarged with the soft one and with itself.
func shrunkBeside(fine, soft *Patch, c *Canvas, wide float64) (off, before float64) {
	average := func(col, row int) float64 {
		sum := 0.0
		for y := range 8 {
			for x := range 8 {
				sum += float64(fine.at((float64(col)+(float64(x)+0.5)/8)*wide, (float64(row)+(float64(y)+0.5)/8)*wide))
			}
		}
		return sum / 64
	}
	n := 0.0
	for y := 8.0; y < float64(c.H)-8; y++ {
		for x := 8.0; x < float64(c.W)-8; x++ {
			u, v := x/wide-0.5, y/wide-0.5
			i, k := int(math.Floor(u)), int(math.Floor(v))
			a, b := u-float64(i), v-float64(k)
			shrunk := (average(i, k)*(1-a)+average(i+1, k)*a)*(1-b) + (average(i, k+1)*(1-a)+average(i+1, k+1)*a)*b
			off += math.Abs(shrunk - float64(soft.at(x, y)))
			before += math.Abs(shrunk - float64(fine.at(x, y)))
			n++
		}
	}
	return off / n, before / n
}

// The same answers on one processor and on several.
func TestChancesOnOneProcessor(t *testing.T) {
	many, falls := hal().Day(nil), hal().Falls()
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	if one := hal().Day(nil); !slices.Equal(one, many) {
		t.Error("the day differs on one processor")
	}
	if one := hal().Falls(); !slices.Equal(one, falls) {
		t.Error("the falls differ on one processor")
	}
}

// More of a mischief is never clearly better, much of it is clearly worse, and every kind is there.
func TestDay(t *testing.T) {
	by := map[Mischief]map[string][]Outcome{}
	for _, o := range hal().Day(nil) {
		if o.Verdict != VerdictOf(o.Score) {
			t.Errorf("%+v", o)
		}
		if by[o.What] == nil {
			by[o.What] = map[string][]Outcome{}
		}
		by[o.What][o.Way] = append(by[o.What][o.Way], o)
	}
	for what, ways := range map[Mischief]int{EmptySeats: 4, WrongCards: 1, Late: 1, Uneven: 1, RowOff: 1, RowReversed: 1} {
		if len(by[what]) != ways {
			t.Errorf("%s in %d ways, want %d", what, len(by[what]), ways)
		}
		for way, all := range by[what] {
			for i := 1; i < len(all); i++ {
				if all[i].Share <= all[i-1].Share || all[i].Score > all[i-1].Score+0.02 {
					t.Errorf("%s %s: %v at %v after %v at %v", what, way, all[i].Score, all[i].Share, all[i-1].Score, all[i-1].Share)
				}
			}
		}
	}
	if bus := by[EmptySeats][Busload]; bus[3].Score > bus[0].Score-0.1 {
		t.Errorf("a late bus: %v with 5 %% and %v with 30 %% empty", bus[0].Score, bus[3].Score)
	}
	for _, what := range []Mischief{RowOff, RowReversed} {
		if o := by[what][""][0]; o.Worst < 0 || o.WorstScore > o.Score || o.Worst%40 != 0 {
			t.Errorf("%s: %+v", what, o)
		}
	}
}

// Exactly the share is missing, whichever way.
func TestSoManyAreMissing(t *testing.T) {
	j := hal().judge
	d := day{judge: j, rows: j.field.rows()}
	if len(d.rows) != 14 {
		t.Fatalf("%d rows", len(d.rows))
	}
	for _, way := range []string{Singly, Groups, Busload, RowEnds} {
		for _, share := range emptyShares {
			m, _ := d.empty(way, share)(1)
			gone := 0
			for _, e := range m.empty {
				if e {
					gone++
				}
			}
			if want := int(math.Round(share * 560)); gone != want {
				t.Errorf("%s, %v: %d seats, want %d", way, share, gone, want)
			}
		}
	}
}

// Seats empty by plan: none is no worse than what is expected of chance, those far from the letters do next to no harm,
// and all of a letter's seats take the word away.
func TestWithout(t *testing.T) {
	c := hal()
	none := make([]bool, 560)
	score, v := c.Without(none)
	if expected := c.judge.expected().Score; score < expected || v != Reads {
		t.Errorf("nobody missing: %.3f (%s), expected %.3f", score, v, expected)
	}
	far, letters := slices.Clone(none), slices.Clone(none)
	for i, ink := range c.judge.ink {
		letters[i] = ink
		far[i] = i%40 < 2 || i%40 >= 38 // the letters stand three columns away and more
	}
	if edge, _ := c.Without(far); edge < score-0.02 {
		t.Errorf("the rim missing: %.3f, whole %.3f", edge, score)
	}
	if gone, v := c.Without(letters); gone > 0.2 || v != DoesNotRead {
		t.Errorf("the letters missing: %.3f (%s)", gone, v)
	}
}

// Rows gone wrong, worked by hand.
func TestRowsGoneWrong(t *testing.T) {
	for way, want := range [][2][]bool{
		{{true, true, false, false}, {true, false, false, false}},
		{{false, false, true, true}, {false, false, false, true}},
	} {
		ink, empty := []bool{true, false, false, true}, make([]bool, 4)
		shifted(ink, empty, way)
		if !slices.Equal(ink, want[0]) || !slices.Equal(empty, want[1]) {
			t.Errorf("one seat off, way %d: %v, empty %v", way, ink, empty)
		}
	}
	ink := []bool{true, false, false, false}
	reversed(ink, nil, 0)
	if !slices.Equal(ink, []bool{false, false, false, true}) {
		t.Errorf("backwards: %v", ink)
	}
}

// Whoever still shows the same picture is not late; whoever still shows nothing is.
func TestLateIsWhatWasBefore(t *testing.T) {
	c := hal()
	same := make([]Shows, len(c.judge.ink))
	for i, on := range c.judge.ink {
		if on {
			same[i] = ShowsInk
		}
	}
	half := func(before []Shows) float64 {
		for _, o := range c.Day(before) {
			if o.What == Late && o.Share == 0.5 {
				return o.Score
			}
		}
		return -1
	}
	sum := 0.0
	for k := range dayTries {
		d := day{judge: c.judge}
		sum += chance(c.judge.look(d.expected(k), Coming{}))
	}
	if got, want := half(same), c.judge.settledScore(sum/dayTries); math.Abs(got-want) > 1e-6 {
		t.Errorf("half of them late with the same picture: %v, nobody late: %v", got, want)
	}
	if half(nil) > half(same)-0.05 {
		t.Errorf("half of them still at rest: %v, nobody late: %v", half(nil), half(same))
	}
}

// What a seat takes away is what a picture drawn anew without it, or with its other side, takes away.
func TestFallsAgainstPicturesDrawnAnew(t *testing.T) {
	c := hal()
	j := c.judge
	falls := c.Falls()
	tries := Strikes(j.field, j.o, fallTries)
	mean := func(change func(m *Mishap)) float64 {
		sum := 0.0
		for _, m := range tries {
			n := *m
			n.empty, n.wrong = slices.Clone(m.empty), slices.Clone(m.wrong)
			change(&n)
			sum += chance(j.look(&n, Coming{})) / fallTries
		}
		return sum
	}
	base := j.settledScore(mean(func(*Mishap) {}))
	checked, harm := 0, false
	for i := 3; i < len(falls); i += 17 {
		if slices.ContainsFunc(tries, func(m *Mishap) bool { return m.empty[i] }) {
			continue // its mean is over fewer tries
		}
		empty := base - j.settledScore(mean(func(m *Mishap) { m.empty[i] = true }))
		wrong := base - j.settledScore(mean(func(m *Mishap) { m.wrong[i] = !m.wrong[i] }))
		if math.Abs(1e6*empty-float64(falls[i].Empty)) > 30 || math.Abs(1e6*wrong-float64(falls[i].Wrong)) > 30 {
			t.Errorf("seat %d: %+v, drawn anew %.0f and %.0f", i, falls[i], 1e6*empty, 1e6*wrong)
		}
		checked++
		harm = harm || wrong > 0.005
	}
	if checked < 20 || !harm {
		t.Errorf("only %d seats checked, any of them counting: %v", checked, harm)
	}
}

func spelling(c *Chances, change func(shows []Shows, from []int32)) string {
	shows, from := make([]Shows, len(c.judge.ink)), make([]int32, len(c.judge.ink))
	for i, on := range c.judge.ink {
		from[i] = int32(i)
		if on {
			shows[i] = ShowsInk
		}
	}
	change(shows, from)
	var out []rune
	for _, s := range c.Spell(shows, from) {
		out = append(out, s.Rune)
	}
	return string(out)
}

// Letters whose people are missing drop out; rows laid from the wrong end put the letters, mirrored, the other
// way round: H and A are their own mirror images.
func TestSpell(t *testing.T) {
	c := hal()
	if got := spelling(c, func([]Shows, []int32) {}); got != "HAL" {
		t.Errorf("as planned it reads %q", got)
	}
	missing := func(from, to float64) func([]Shows, []int32) {
		return func(shows []Shows, _ []int32) {
			for i, s := range c.judge.field.Seats {
				if s.Centre[0] > from && s.Centre[0] < to {
					shows[i] = ShowsNothing
				}
			}
		}
	}
	if got := spelling(c, missing(0, 320)); got != "AL" {
		t.Errorf("without the seats of the H it reads %q", got)
	}
	if got := spelling(c, missing(0, 2000)); got != "" {
		t.Errorf("with nobody there it reads %q", got)
	}
	ground := func(shows []Shows, _ []int32) { clear(shows) }
	if got := spelling(c, ground); got != "" {
		t.Errorf("all ground reads %q", got)
	}
	mirrored := func(shows []Shows, from []int32) {
		for _, r := range c.judge.field.rows() {
			slices.Reverse(shows[r[0]:r[1]])
			slices.Reverse(from[r[0]:r[1]])
		}
	}
	if got := []rune(spelling(c, mirrored)); len(got) != 3 || got[0] == 'L' || got[1] != 'A' || got[2] != 'H' {
		t.Errorf("laid from the wrong end it reads %q", string(got))
	}
}

// Lines are read one after the other, also lines of a single letter.
func TestLinesOfText(t *testing.T) {
	f := block(10, 30, 0)
	text := []Glyph{{'A', [4]float64{200, 100, 260, 140}}, {'B', [4]float64{210, 160, 270, 200}}, {'C', [4]float64{290, 161, 350, 201}}, {'D', [4]float64{100, 205, 160, 220}}}
	j := NewChances([]*Field{f}, 0, make([]bool, len(f.Seats)), text, usual).judge
	for i, want := range []int{0, 1, 1, 2} {
		if got := j.line(i); got != want {
			t.Errorf("letter %d is on line %d, want %d", i, got, want)
		}
	}
}

// A stroke of two seats of 20 pixels, and a letter's box as it was given.
func TestLettersInTheFilm(t *testing.T) {
	f := block(10, 30, 0)
	ink := make([]bool, len(f.Seats))
	for i, s := range f.Seats {
		ink[i] = s.Place == 10 || s.Place == 11
	}
	box := [4]float64{250, 112, 290, 208}
	c := NewChances([]*Field{f}, 0, ink, []Glyph{{'I', box}}, usual)
	if got := c.Stroke(); math.Abs(got-40) > 1e-9 {
		t.Errorf("a stroke of %v pixels, want 40", got)
	}
	for k, v := range c.Boxes()[0] {
		if math.Abs(v-box[k]) > 1e-6 {
			t.Fatalf("box %v, want %v", c.Boxes()[0], box)
		}
	}
}
