package advice

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// hard is a stunt of a made-up fair that asks much of its stands.
func hard(text string, sections, rows, seats int) *mosaic.Stunt {
	s := &mosaic.Stunt{
		Title:  "Lantern Fair of Gullhaven",
		Camera: camera.Mark{Back: 18 * seating.Metre, Height: 2 * seating.Metre, Picture: [2]int{1920, 1080}},
		Card:   mosaic.CardSpec{Width: 11 * seating.Inch, Height: 17 * seating.Inch / 2, Held: camera.Chin},
		Colours: []mosaic.Colour{
			{Name: "HARBOUR", RGB: colour.RGB{0x16, 0x29, 0x4d}, Sheets: -1},
			{Name: "CREAM", RGB: colour.RGB{0xfb, 0xf1, 0xd8}, Sheets: -1},
			{Name: "LANTERN", RGB: colour.RGB{0xe8, 0x86, 0x2c}, Sheets: -1},
		},
		Cues: []mosaic.Cue{{Text: text, Ink: "LANTERN", Ground: "HARBOUR"}},
	}
	for k := range sections {
		s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
			Name: string(rune('A' + k)), Kind: seating.Bench, Rows: rows, Seats: []int{seats}, Pitch: 20 * seating.Inch,
			Rise: 10 * seating.Inch, Run: 24 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		})
	}
	return s
}

func planned(t testing.TB, s *mosaic.Stunt) *mosaic.Plan {
	t.Helper()
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// weakOnes are stunts of which at least the first cue does not surely read.
func weakOnes(t *testing.T) map[string]*mosaic.Stunt {
	t.Helper()
	short := hard("WALL", 3, 10, 8)
	short.Colours[0].Sheets, short.Colours[1].Sheets = 60, 20
	short.Cues = append(short.Cues, mosaic.Cue{Name: "rest", Painted: []mosaic.Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 4}, Colour: "CREAM"}}})
	out := map[string]*mosaic.Stunt{}
	for name, s := range map[string]*mosaic.Stunt{
		"a code": hard("5B8D07", 3, 10, 11), "two lines": hard("SEA\nFAIR", 1, 12, 24), "short of cards": short,
	} {
		if v := planned(t, s).Cues[0].Reading.Verdict; v == legibility.Reads {
			t.Logf("%s reads: it says nothing here", name)
			continue
		}
		out[name] = s
	}
	if len(out) < 2 {
		t.Fatal("nearly everything reads: ask more of the stands")
	}
	return out
}

// Advice never names what does not help, best first, and each figure is that of a plan which
// somebody who follows the words gets.
func TestAdviceIsMeasured(t *testing.T) {
	for name, s := range weakOnes(t) {
		p := planned(t, s)
		all := Measure(t.Context(), p)
		if len(all) == 0 || all[0].Cue != 0 || all[0].Tried == 0 || all[0].Before != p.Cues[0].Reading.Score {
			t.Fatalf("%s: no advice on a cue that %s: %+v", name, p.Cues[0].Reading.Verdict, all)
		}
		before := all[0].Before
		for k, a := range all[0].Advice {
			if math.Round(100*(a.After-before)) < 5 && worth(a.After) <= worth(before) {
				t.Errorf("%s: %q is proposed and does not help: %.3f → %.3f", name, a.Do, before, a.After)
			}
			if a.Verdict != legibility.VerdictOf(a.After) {
				t.Errorf("%s: %q: verdict %q of %.3f", name, a.Do, a.Verdict, a.After)
			}
			if k > 0 && worth(a.After) > worth(all[0].Advice[k-1].After) {
				t.Errorf("%s: the better one comes later: %q", name, a.Do)
			}
			if got, ok := followed(t, s, a.Do); ok && math.Abs(got-a.After) > 1e-9 {
				t.Errorf("%s: %q promises %.4f, and who does it gets %.4f", name, a.Do, a.After, got)
			}
		}
	}
}

var (
	quotes  = regexp.MustCompile(`“([^”]*)”`)
	lens    = regexp.MustCompile(`^raise the lens to ([0-9.]+) m`)
	place   = regexp.MustCompile(`^put the camera ([0-9.]+) m \([^)]*\) back, (in the middle|([0-9.]+) m \([^)]*\) to the (left|right)), lens ([0-9.]+) m`)
	heldKey = regexp.MustCompile(`\(held = "(\w+)"\)$`)
	inkKey  = regexp.MustCompile(`\(ink = "(\w+)", ground = "(\w+)"\)$`)
	rowsKey = regexp.MustCompile(`rows = \[(.*)\]\)$`)
	buyMore = regexp.MustCompile(`([0-9]+) (sheet|pack)s? more of (\w+)`)
	onKey   = regexp.MustCompile(`\(on = \[(.*)\]\)$`)
)

// followed does in the stunt what the words say, and gives the score; ok is false for words
// that it does not understand.
func followed(t *testing.T, s *mosaic.Stunt, do string) (score float64, ok bool) {
	t.Helper()
	c, cues := understood(t, s, do)
	if c == nil {
		return 0, false
	}
	p, err := mosaic.Make(c)
	if err != nil {
		return 0, true // it does not fit
	}
	score = 1
	for i := range cues {
		score = min(score, p.Cues[i].Reading.Score)
	}
	return score, true
}

// understood is the stunt changed as the words say, and how many cues the text becomes; nil where
// the words are not understood.
func understood(t *testing.T, s *mosaic.Stunt, do string) (c *mosaic.Stunt, cues int) {
	t.Helper()
	c, cues = copied(s), 1
	metres := func(text string) seating.Length {
		l, err := seating.ParseLength(text + " m")
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	switch {
	case strings.Contains(do, ", and "):
		return nil, 0
	case strings.HasPrefix(do, "make "):
		parts := quotes.FindAllStringSubmatch(do, -1)
		cues = len(parts)
		var list []mosaic.Cue
		for _, part := range parts {
			cue := c.Cues[0]
			cue.Name, cue.Text = "", strings.ReplaceAll(part[1], " / ", "\n")
			list = append(list, cue)
		}
		c.Cues = append(list, c.Cues[1:]...)
	case strings.HasPrefix(do, "write at most"):
		c.Cues[0].Text = strings.ReplaceAll(quotes.FindStringSubmatch(do)[1], " / ", "\n")
	case lens.MatchString(do):
		c.Camera.Height = metres(lens.FindStringSubmatch(do)[1])
	case place.MatchString(do):
		m := place.FindStringSubmatch(do)
		c.Camera.Back, c.Camera.Across, c.Camera.Height = metres(m[1]), 0, metres(m[5])
		if m[3] != "" {
			c.Camera.Across = metres(m[3])
		}
		if m[4] == "left" {
			c.Camera.Across *= -1
		}
	case strings.HasPrefix(do, "buy "):
		for _, m := range buyMore.FindAllStringSubmatch(do, -1) {
			k := slices.IndexFunc(c.Colours, func(k mosaic.Colour) bool { return k.Name == m[3] })
			n, err := strconv.Atoi(m[1])
			if err != nil || k < 0 {
				t.Fatal(do)
			}
			if m[2] == "pack" {
				n *= c.Colours[k].Pack
			}
			c.Colours[k].Sheets += n
		}
	case heldKey.MatchString(do):
		for h := camera.Chest; h <= camera.Overhead; h++ {
			if h.String() == heldKey.FindStringSubmatch(do)[1] {
				c.Card.Held = h
			}
		}
	case inkKey.MatchString(do):
		m := inkKey.FindStringSubmatch(do)
		c.Cues[0].Ink, c.Cues[0].Ground = m[1], m[2]
	case rowsKey.MatchString(do):
		for _, text := range strings.Split(rowsKey.FindStringSubmatch(do)[1], ", ") {
			var r seating.RowRange
			text = strings.Trim(text, `"`)
			if section, rows, named := strings.Cut(text, "-"); named {
				r.Section, text = section, rows
			}
			var two bool
			if r.From, r.To, two = strings.Cut(text, ".."); !two {
				r.To = r.From
			}
			c.Cues[0].Rows = append(c.Cues[0].Rows, r)
		}
	case onKey.MatchString(do):
		for _, name := range strings.Split(onKey.FindStringSubmatch(do)[1], ", ") {
			c.Cues[0].On = append(c.Cues[0].On, strings.Trim(name, `"`))
		}
	default:
		return nil, 0
	}
	return c, cues
}

// A text that is spoiled by cards that are short is told what to buy, so that it reads as with plenty of all. Who
// does so gets what was measured.
func TestMoreCardsAreAdvised(t *testing.T) {
	for _, c := range []struct {
		sheets, pack [3]int
		do           string
	}{
		{[3]int{20, -1, -1}, [3]int{0}, "sheets more of HARBOUR"},
		{[3]int{20, -1, -1}, [3]int{50}, "packs more of HARBOUR"},
		{[3]int{20, 40, -1}, [3]int{50}, " of HARBOUR and "},
	} {
		s := hard("MOON", 3, 13, 14)
		s.Colours[2].RGB = colour.RGB{0xa0, 0x50, 0x1b} // no good in place of either
		s.Camera.Height, s.Card.Height, s.Card.Held = 4*seating.Metre, 17*seating.Inch, camera.Eyes
		s.Cues[0].Ink = "CREAM"
		plenty := planned(t, s).Cues[0].Reading.Verdict
		for k := range s.Colours {
			s.Colours[k].Sheets, s.Colours[k].Pack, s.Colours[k].NoMore = c.sheets[k], c.pack[k], c.sheets[k] >= 0
		}
		p := planned(t, s)
		all := Measure(t.Context(), p)
		if len(all) == 0 {
			t.Errorf("%s: with these cards it reads, %v", c.do, p.Cues[0].Reading.Score)
			continue
		}
		i := slices.IndexFunc(all[0].Advice, func(a Advice) bool { return a.Change == MoreStock })
		if i < 0 || !strings.Contains(all[0].Advice[i].Do, c.do) || all[0].Advice[i].Verdict != plenty {
			t.Errorf("%s: %+v", c.do, all[0].Advice)
			continue
		}
		a := all[0].Advice[i]
		t.Logf("%.2f: %s, %.2f", all[0].Before, a.Do, a.After)
		if got, ok := followed(t, s, a.Do); !ok || got != a.After {
			t.Errorf("%s promises %v, and who does it gets %v", a.Do, a.After, got)
		}
	}
}

// Most kinds of advice can be followed by their words alone.
func TestWordsCanBeFollowed(t *testing.T) {
	s := hard("5B8D07", 3, 10, 11)
	known := 0
	study := newStudy(t.Context(), s, planned(t, s).Stands, 0)
	for _, v := range study.singles() {
		if c, _ := understood(t, s, v.do); c != nil {
			known++
		} else if v.change != "larger cards" && v.change != "cards turned" && v.change != "more seats" {
			t.Errorf("not understood: %q", v.do)
		}
	}
	if known < 8 {
		t.Errorf("only %d changes can be followed", known)
	}
}

// The same stunt gets the same advice, whatever the number of processors.
func TestSameAdvice(t *testing.T) {
	s := hard("5B8D07", 3, 10, 11)
	p := planned(t, s)
	first := Measure(t.Context(), p)
	for _, a := range first {
		if a.Tried > mostPlans {
			t.Errorf("%d plans were made", a.Tried)
		}
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if again := Measure(t.Context(), p); !reflect.DeepEqual(first, again) {
		t.Errorf("other advice on one processor:\n%+v\n%+v", first, again)
	}
}

// What reads needs no advice.
func TestNoAdviceOnWhatReads(t *testing.T) {
	s := hard("M", 1, 14, 14)
	s.Card.Held, s.Cues[0].Ink = camera.Eyes, "CREAM"
	p := planned(t, s)
	if v := p.Cues[0].Reading.Verdict; v != legibility.Reads {
		t.Fatalf("one letter on fourteen by fourteen seats %s", v)
	}
	if all := Measure(t.Context(), p); len(all) != 0 {
		t.Errorf("advice: %+v", all)
	}
	s.Cues[0] = mosaic.Cue{Name: "lanterns", Painted: []mosaic.Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 3}, Colour: "LANTERN"}}}
	if all := Measure(t.Context(), planned(t, s)); len(all) != 0 {
		t.Errorf("advice on a picture: %+v", all)
	}
}

// The work is bounded by counting plans: fewer where each looks at more seats.
func TestBounded(t *testing.T) {
	for _, c := range []struct{ seats, marks, most int }{{450, 1, 28}, {450, 10, 13}, {10_000, 1, 6}, {100_000, 1, 2}} {
		if got := plans(&seating.Stands{Seats: make([]seating.Seat, c.seats)}, c.marks); got != c.most {
			t.Errorf("%d seats, %d marks: %d plans, want %d", c.seats, c.marks, got, c.most)
		}
	}
}

// With three and fewer seats a letter the tool says so, and fewer letters, several cues and more
// seats are all measured.
func TestFewSeatsALetter(t *testing.T) {
	s := hard("LANTERN", 1, 10, 32)
	p := planned(t, s)
	each := mosaic.SeatsEach(p.Cues[0].Text)
	if !mosaic.Narrow(each) {
		t.Fatalf("the letters have %.2f seats each: give them less room", each)
	}
	said := strings.Join(p.Warnings, "\n")
	for _, want := range []string{"fewer than four they cannot be relied on", "two cues", "fewer letters", "more seats"} {
		if !strings.Contains(said, want) {
			t.Errorf("the warnings lack %q:\n%s", want, said)
		}
	}
	kinds := map[string]bool{}
	study := newStudy(t.Context(), s, p.Stands, 0)
	study.seatsEach = each
	for _, v := range study.singles()[:6] { // even the largest stands but one get so many
		kinds[v.change] = true
	}
	if !kinds["more cues"] || !kinds["fewer letters"] || !kinds["more seats"] {
		t.Errorf("not all is tried: %v", kinds)
	}
	roomy := planned(t, hard("SEA", 1, 12, 30))
	if strings.Contains(strings.Join(roomy.Warnings, "\n"), "relied on") {
		t.Errorf("warned with %.1f seats a letter", mosaic.SeatsEach(roomy.Cues[0].Text))
	}
}

// What does not fit is refused with what would, measured.
func TestMend(t *testing.T) {
	s := hard("LANTERNFAIR", 1, 10, 24)
	s.Card.Held = camera.Eyes
	_, err := mosaic.Make(s)
	var before, after *seating.Fault
	if !errors.As(err, &before) || before.Key != "cue[0].text" {
		t.Fatalf("eleven letters on 24 seats: %v", err)
	}
	if !errors.As(Mend(t.Context(), s, err), &after) || after.Key != before.Key || after.What != before.What {
		t.Fatalf("mended: %+v", after)
	}
	if !regexp.MustCompile(`: (reads|marginal), [0-9]+ of 100`).MatchString(after.Hint) {
		t.Fatalf("hint: %q", after.Hint)
	}
	for _, hint := range strings.Split(after.Hint, "; or ") {
		do, _, _ := strings.Cut(hint, ": reads, ")
		do, _, _ = strings.Cut(do, ": marginal, ")
		if score, ok := followed(t, s, do); ok && !strings.Contains(hint, fmt.Sprintf("%.0f of 100", 100*score)) {
			t.Errorf("%q, and who does it gets %.3f", hint, score)
		}
	}
	// A fault of another kind keeps its own hint.
	s.Cues[0].Text = "G漢"
	_, err = mosaic.Make(s)
	if mended := Mend(t.Context(), s, err); mended != err {
		t.Errorf("mended what no change of the stands mends: %v", mended)
	}
}

// Stands of few rows get the advice of more, and it keeps what each row is.
func TestMoreRows(t *testing.T) {
	s := hard("SEA", 1, 6, 24)
	s.Stands.Sections[0].Rows, s.Stands.Sections[0].Seats = 0, []int{20, 20, 22, 22, 24, 24}
	stands, err := seating.Build(s.Stands)
	if err != nil {
		t.Fatal(err)
	}
	more := newStudy(t.Context(), s, stands, 0).moreRows()
	if len(more) != 1 || more[0].do != "use stands of 10 rows instead of 6" {
		t.Fatalf("%+v", more)
	}
	c := copied(s)
	more[0].apply(c)
	if taller, err := seating.Build(c.Stands); err != nil || len(taller.Sections[0].Rows) != 10 || len(taller.Seats) != 2*(20+22+24)+4*24 {
		t.Errorf("%v, %v", c.Stands.Sections[0].Seats, err)
	}
	if len(s.Stands.Sections[0].Seats) != 6 {
		t.Error("the stunt itself was changed")
	}
	if more := newStudy(t.Context(), hard("SEA", 1, 10, 24), planned(t, hard("SEA", 1, 10, 24)).Stands, 0).moreRows(); more != nil {
		t.Errorf("ten rows are enough: %+v", more)
	}
}

func BenchmarkMeasure450(b *testing.B) {
	s := hard("5B8D07", 3, 15, 10)
	p := planned(b, s)
	for b.Loop() {
		Measure(b.Context(), p)
	}
}

// The smallest change is one with the best verdict there is.
func TestSmallestChange(t *testing.T) {
	of := func(after float64, rank int) *variant { return &variant{after: after, rank: rank} }
	for _, c := range []struct {
		best []*variant
		want int
	}{
		{nil, 0},
		{[]*variant{of(0.95, rankFewer), of(0.9, rankPlace), of(0.85, rankCards)}, 1},
		{[]*variant{of(0.95, rankPlace), of(0.9, rankFewer)}, 0},
		{[]*variant{of(0.95, rankFewer), of(0.7, rankHeld)}, 0}, // it does not surely read
	} {
		if got := least(c.best); got != c.want {
			t.Errorf("smallest of %d is %d, want %d", len(c.best), got, c.want)
		}
	}
}

// Where people wear the letters' colour, another is tried for them first: of the palette if it has one, else a usual one,
// and what is told to do does it.
func TestLettersInAnotherColour(t *testing.T) {
	s := hard("WALL", 3, 12, 12)
	s.Colours = []mosaic.Colour{
		{Name: "CREAM", RGB: colour.RGB{0xfb, 0xf1, 0xd8}, Sheets: -1},
		{Name: "HARBOUR", RGB: colour.RGB{0x16, 0x29, 0x4d}, Sheets: -1},
	}
	s.Cues[0].Ink, s.Cues[0].Ground = "HARBOUR", "CREAM"
	p := planned(t, s)
	first := func(s *mosaic.Stunt) *variant {
		return newStudy(t.Context(), s, p.Stands, 0).contrast()[0]
	}
	v := first(s)
	if !strings.HasPrefix(v.do, "take ") || !strings.Contains(v.do, "[[colour]]") {
		t.Errorf("without another ink: %s", v.do)
	}
	changed := copied(s)
	v.apply(changed)
	ink := changed.RGBOf(changed.Cues[0].Ink)
	if ground := changed.Colours[0].RGB; changed.Wears(ink) || colour.Contrast(ink, ground) < mosaic.LeastContrast || len(s.Colours) != 2 {
		t.Errorf("%s: %s on %s", v.do, ink.Hex(), ground.Hex())
	}
	if score := planned(t, changed).Cues[0].Reading.Score; !Helps(p.Cues[0].Reading.Score, score) {
		t.Errorf("%s: %.3f before and %.3f after", v.do, p.Cues[0].Reading.Score, score)
	}
	s.Colours = append(s.Colours, mosaic.Colour{Name: "RED", RGB: colour.RGB{0xc0, 0x1c, 0x2c}, Sheets: -1})
	if v := first(s); !strings.HasPrefix(v.do, "take RED for the letters, which few people wear (ink =") {
		t.Errorf("with red: %s", v.do)
	}
	s.Cues[0].Ink, s.Cues[0].Ground = "CREAM", "RED"
	for _, v := range newStudy(t.Context(), s, p.Stands, 0).contrast() {
		if strings.HasPrefix(v.do, "take ") {
			t.Errorf("cream letters are changed since people wear cream: %s", v.do)
		}
	}
}
