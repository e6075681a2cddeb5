package outlook

import (
	"math"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/testdata/fair"
)

// A section that is missing takes its letters with it: GLOW without its first third is LOW.
func TestUnwanted(t *testing.T) {
	p := fair.Plan(t, fair.Stunt())
	look := of(t, p, Unwanted).Cues[0]
	if look.Planned != "GLOW" {
		t.Errorf("as planned it reads %q", look.Planned)
	}
	var lines []string
	for _, u := range look.Unwanted {
		lines = append(lines, p.Stands.Sections[u.Section].Name+" "+u.How+": "+u.Reads)
	}
	for _, want := range []string{"A missing, or still at rest: LOW", "C missing, or still at rest: GLO"} {
		if !slices.Contains(lines, want) {
			t.Errorf("no %q in %q", want, lines)
		}
	}
	if !slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, "B laid from the wrong end: G") }) {
		t.Errorf("nobody lays B from the wrong end: %q", lines)
	}
}

// A section that still shows the cue before shows its letters; words stay apart, and so do lines.
func TestUnwantedOfTheCueBefore(t *testing.T) {
	s := fair.Stunt()
	s.Cues = []mosaic.Cue{{Text: "GLOW"}, {Text: "GO UP"}}
	cues := of(t, fair.Plan(t, s), Unwanted).Cues
	if cues[1].Planned != "GO UP" {
		t.Errorf("as planned it reads %q", cues[1].Planned)
	}
	late := func(u Unwanting) bool { return u.How == "still showing the cue before" }
	if !slices.ContainsFunc(cues[1].Unwanted, late) {
		t.Errorf("no section is late: %+v", cues[1].Unwanted)
	}
	if slices.ContainsFunc(cues[0].Unwanted, late) {
		t.Error("there is no cue before the first")
	}
}

// On a phone it never reads better than in the film, and every mark has its own figures.
func TestPhone(t *testing.T) {
	s := fair.Stunt()
	s.Marks = []camera.Mark{{Name: "gallery", Across: -3 * seating.Metre, Back: 20 * seating.Metre, Height: 5 * seating.Metre}}
	p := fair.Plan(t, s)
	look := of(t, p, Phone).Cues[0]
	by, pixels := look.Phone, look.Pixels
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
	p = fair.Plan(t, s)
	if by := of(t, p, Phone).Cues[0].Phone; by[0].Score != p.Marks[0].Scores[0] {
		t.Errorf("%v on a phone, %v on film", by[0].Score, p.Marks[0].Scores[0])
	}
}

// The seats that matter are seats of the text, in order, and the outcomes name seats of the stands.
func TestSeatsThatMatter(t *testing.T) {
	p := fair.Plan(t, fair.Stunt())
	look := of(t, p, Day|Falls).Cues[0]
	falls := look.Falls
	if len(look.Matter) < 10 || len(falls) != len(p.Stands.Seats) {
		t.Fatalf("%d seats, %d falls", len(look.Matter), len(falls))
	}
	for i, s := range look.Matter {
		if Harm(falls[s]) <= 0 {
			t.Errorf("%s does no harm", p.Stands.ID(int(s)))
		}
		if i == 0 {
			continue
		}
		before := look.Matter[i-1]
		if a, b := Harm(falls[before]), Harm(falls[s]); a < b || a == b && before > s {
			t.Errorf("%s before %s", p.Stands.ID(int(before)), p.Stands.ID(int(s)))
		}
	}
	for s := range falls {
		if Harm(falls[s]) > 0 && !slices.Contains(look.Matter, int32(s)) {
			t.Errorf("%s does harm, and is not named", p.Stands.ID(s))
		}
	}
	// by hand: 8 % are expected to be missing and 1 % wrong
	if got := Harm(legibility.Fall{Empty: 1000, Wrong: -300}); got != 8*1000-300 {
		t.Errorf("harm %d", got)
	}
	worst := 0
	for _, o := range look.Day {
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
}

// After the trim the message still reads: where letters have ground round them the score is that of the whole plan,
// less a hundredth at most; and with a fifth or more missing it is better than with as many missing here and there by
// chance, though that chance has no wrong cards besides, and the trim has those that are expected.
func TestTrimmedStillReads(t *testing.T) {
	for name, stunt := range map[string]*mosaic.Stunt{"gullhaven": home(), "crowded": fair.Crowded()} {
		p := fair.Plan(t, stunt)
		o := of(t, p, Fewer|Day)
		if !slices.Equal(o.Trim, p.Trim()) {
			t.Errorf("%s: other seats stay empty than the plan's", name)
		}
		for cue := range p.Cues {
			trimmed := o.Cues[cue].Trimmed
			if p.Cues[cue].Text == nil {
				if trimmed != nil {
					t.Errorf("%s: cue %d has no text", name, cue+1)
				}
				continue
			}
			whole, _ := newText(p, cue).chances[p.WorstMark(cue)].Without(make([]bool, len(p.Cues[cue].Field)))
			byChance := map[int]float64{}
			for _, o := range o.Cues[cue].Day {
				if o.What == legibility.EmptySeats && o.Way == legibility.Singly {
					byChance[100-int(math.Round(100*o.Share))] = o.Score
				}
			}
			if len(trimmed) != len(mosaic.TrimShares) {
				t.Fatalf("%s: %d shares", name, len(trimmed))
			}
			for i, tr := range trimmed {
				chance, known := byChance[tr.Share]
				t.Logf("%s, cue %d, %d %%: trimmed %.3f, by chance %.3f, whole %.3f", name, cue+1, tr.Share, tr.Score, chance, whole)
				if tr.Share != mosaic.TrimShares[i] || !known || tr.Share <= 80 && tr.Score <= chance {
					t.Errorf("%s, cue %d at %d %%: %.3f, by chance %.3f", name, cue+1, tr.Share, tr.Score, chance)
				}
				if name == "gullhaven" && (tr.Score < whole-0.01 || tr.Verdict != legibility.Reads) {
					t.Errorf("%s, cue %d at %d %%: %.3f, whole %.3f", name, cue+1, tr.Share, tr.Score, whole)
				}
			}
		}
	}
}

// The whole simulation of what goes wrong, with the map of the seats that matter, from a plan that is there.
//
//	go test ./mosaic/outlook -run '^$' -bench Chances -cpu 1
func benchmarkChances(b *testing.B, s *mosaic.Stunt) {
	p := fair.Plan(b, s)
	for b.Loop() {
		of(b, p, Day|Falls)
	}
	b.ReportMetric(float64(len(p.Cues[0].Field)), "seats")
}

func BenchmarkChances450(b *testing.B) { benchmarkChances(b, fair.Stunt()) }

func BenchmarkChances10k(b *testing.B) { benchmarkChances(b, fair.Big(5, 40, 50, 90*seating.Metre)) }

func BenchmarkChances100k(b *testing.B) {
	benchmarkChances(b, fair.Big(20, 100, 50, 400*seating.Metre))
}
