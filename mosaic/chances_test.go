package mosaic

import (
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// A section that is missing takes its letters with it: GLOW without its first third is LOW.
func TestUnwanted(t *testing.T) {
	p := mustMake(t, gullhaven())
	all, planned := p.Unwanted(0)
	if planned != "GLOW" {
		t.Errorf("as planned it reads %q", planned)
	}
	var lines []string
	for _, u := range all {
		lines = append(lines, u.Says(p))
	}
	for _, want := range []string{"section A missing, or still at rest: LOW", "section C missing, or still at rest: GLO"} {
		if !slices.Contains(lines, want) {
			t.Errorf("no %q in %q", want, lines)
		}
	}
	if !slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, "section B laid from the wrong end: G") }) {
		t.Errorf("nobody lays B from the wrong end: %q", lines)
	}
}

// A section that still shows the cue before shows its letters; words stay apart, and so do lines.
func TestUnwantedOfTheCueBefore(t *testing.T) {
	s := gullhaven()
	s.Cues = []Cue{{Text: "GLOW"}, {Text: "GO UP"}}
	p := mustMake(t, s)
	all, planned := p.Unwanted(1)
	if planned != "GO UP" {
		t.Errorf("as planned it reads %q", planned)
	}
	if !slices.ContainsFunc(all, func(u Unwanted) bool { return u.How == "still showing the cue before" }) {
		t.Errorf("no section is late: %+v", all)
	}
	if first, _ := p.Unwanted(0); slices.ContainsFunc(first, func(u Unwanted) bool { return u.How == "still showing the cue before" }) {
		t.Error("there is no cue before the first")
	}
}

// On a phone it never reads better than in the film, and every mark has its own figures.
func TestPhone(t *testing.T) {
	s := gullhaven()
	s.Marks = []camera.Mark{{Name: "gallery", Across: -3 * seating.Metre, Back: 20 * seating.Metre, Height: 5 * seating.Metre}}
	p := mustMake(t, s)
	by, pixels := p.Phone(0), p.Pixels(0)
	if len(by) != 2 || len(pixels) != 2 {
		t.Fatalf("%d marks", len(by))
	}
	for k := range by {
		want := pixels[k] * legibility.PhoneWidth / float64(p.Marks[k].View.Width)
		if d := by[k].Pixels - want; d > 1e-9 || d < -1e-9 || by[k].Score > p.Marks[k].Scores[0]+0.02 {
			t.Errorf("mark %d: %+v, on film %v with %v pixels", k, by[k], p.Marks[k].Scores[0], pixels[k])
		}
	}
	if w := p.WorstMark(0); p.Marks[w].Scores[0] > p.Marks[1-w].Scores[0] {
		t.Errorf("the worst mark is %d of %v and %v", w, p.Marks[0].Scores, p.Marks[1].Scores)
	}
	// A film of 320 pixels is no larger on a phone: letters of it have no pixels to lose.
	s.Camera.Picture = [2]int{320, 180}
	s.Marks = nil
	p = mustMake(t, s)
	if by := p.Phone(0); by[0].Score != p.Marks[0].Scores[0] {
		t.Errorf("%v on a phone, %v on film", by[0].Score, p.Marks[0].Scores[0])
	}
}

// A film of which the stands fill a small part reads as it is and not on a phone: the first sentence says so.
func TestLostOnPhones(t *testing.T) {
	s := gullhaven()
	s.Cues[0].Text = "GLEAM"
	if text := mustMake(t, s).sayReads(); strings.Contains(text, "On a phone") {
		t.Error(text)
	}
	s.Camera.Lens.FieldOfView = 140
	p := mustMake(t, s)
	if p.Cues[0].Reading.Verdict != legibility.Reads || p.Phone(0)[0].Pixels >= legibility.FewestPixels() {
		t.Fatalf("%v on film, %+v on a phone", p.Cues[0].Reading, p.Phone(0))
	}
	if text := p.sayReads(); !strings.Contains(text, "On a phone, with the film shrunk to 640 pixels across, these do not surely read: “GLEAM”.") {
		t.Error(text)
	}
}

// The seats that matter are seats of the text, in order, and the outcomes name seats of the stands.
func TestSeatsThatMatter(t *testing.T) {
	p := mustMake(t, gullhaven())
	falls := p.Falls(0)
	first := p.MatterMost(0, 10)
	if len(first) != 10 || len(falls) != len(p.Stands.Seats) {
		t.Fatalf("%d seats, %d falls", len(first), len(falls))
	}
	for i := 1; i < len(first); i++ {
		a, b := Harm(falls[first[i-1]]), Harm(falls[first[i]])
		if a < b || a == b && first[i-1] > first[i] {
			t.Errorf("%s before %s", p.Stands.ID(int(first[i-1])), p.Stands.ID(int(first[i])))
		}
	}
	least := Harm(falls[first[9]])
	for s := range falls {
		if Harm(falls[s]) > least && !slices.Contains(first, int32(s)) {
			t.Errorf("%s does more harm than the tenth", p.Stands.ID(s))
		}
	}
	// by hand: 8 % are expected to be missing and 1 % wrong
	if got := Harm(legibility.Fall{Empty: 1000, Wrong: -300}); got != 8*1000-300 {
		t.Errorf("harm %d", got)
	}
	worst := 0
	for _, o := range p.Day(0) {
		if o.Worst >= 0 {
			worst++
			if row := &p.Stands.Seats[o.Worst]; row.Place != 0 {
				t.Errorf("the worst row begins at %s", p.Stands.ID(o.Worst))
			}
		}
	}
	if worst != 2 {
		t.Errorf("%d rows are named, want one off and one backwards", worst)
	}
	pic := mustMake(t, crowded())
	if pic.Day(1) != nil || pic.Falls(1) != nil || pic.Phone(1) != nil {
		t.Error("an image has no letters")
	}
}

// The whole simulation of what goes wrong, with the map of the seats that matter, from a plan that is there.
//
//	go test ./mosaic -run '^$' -bench Chances -cpu 1
func benchmarkChances(b *testing.B, s *Stunt) {
	p := mustMake(b, s)
	for b.Loop() {
		p.doubts = new(doubts)
		p.Day(0)
		p.Falls(0)
	}
	b.ReportMetric(float64(len(p.Cues[0].Field)), "seats")
}

func BenchmarkChances450(b *testing.B) { benchmarkChances(b, gullhaven()) }

func BenchmarkChances10k(b *testing.B) {
	s := bigStunt(5, 40, 50, 90*seating.Metre)
	s.Cues = []Cue{{Text: "GLOW"}}
	benchmarkChances(b, s)
}

func BenchmarkChances100k(b *testing.B) {
	s := bigStunt(20, 100, 50, 400*seating.Metre)
	s.Cues = []Cue{{Text: "GLOW"}}
	benchmarkChances(b, s)
}

func BenchmarkStray450(b *testing.B) {
	p := mustMake(b, gullhaven())
	for b.Loop() {
		p.doubts = new(doubts)
		p.Stray()
	}
}
