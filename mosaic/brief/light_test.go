package brief

import (
	"fmt"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/testdata/fair"
)

// What is lost is named, with the cure; what is not lost is not.
func TestLightIsSaid(t *testing.T) {
	s := fair.Stunt()
	if all := tells(t, s, outlook.Light); all.lightLine() != "" || !strings.HasPrefix(all.sayLight()[0], "With up to two stops too much light no pair") {
		t.Errorf("white on navy: %q, %q", all.lightLine(), all.sayLight())
	}
	s.Colours[0] = mosaic.Colour{Name: "grey", RGB: colour.RGB{0x8c, 0x8c, 0x8c}, Sheets: -1}
	all := tells(t, s, outlook.Light)
	said := strings.Join(all.sayLight(), " ")
	if !strings.Contains(said, "With one stop too much light the camera loses white on grey (contrast 1.8 to 1).") || !strings.HasSuffix(said, lockAdvice) {
		t.Errorf("white on grey: %q", said)
	}
	if all.lightLine() != "One stop too bright loses white on grey (contrast 1.8 to 1)." {
		t.Errorf("to the lens: %q", all.lightLine())
	}
}

// Between light cards dark clothes look like dark ink; light letters on a dark ground have nothing to fear.
func TestDarkClothes(t *testing.T) {
	s := fair.Stunt()
	if said := strings.Join(tells(t, s, 0).sayClothes(), " "); !strings.Contains(said, "takes nothing from the letters") {
		t.Errorf("white on navy: %q", said)
	}
	s.Cues[0].Ink, s.Cues[0].Ground = "navy", "white"
	if said := strings.Join(tells(t, s, 0).sayClothes(), " "); !strings.Contains(said, "between the white cards looks like navy ink") {
		t.Errorf("navy on white: %q", said)
	}
	s.Cues[0].Ground = mosaic.Shirts
	if said := strings.Join(tells(t, s, 0).sayClothes(), " "); !strings.Contains(said, "navy letters are lost") {
		t.Errorf("navy on shirts: %q", said)
	}
}

// The first sentence names what helps most and, where less is enough, that too.
func TestAdviceInTheFirstSentence(t *testing.T) {
	all := tells(t, fair.Stunt(), outlook.Phone)
	all.Plan.Cues[0].Reading.Verdict, all.Plan.Cues[0].Reading.Score = legibility.DoesNotRead, 0.3
	a := advice.Advised{Before: 0.3, Tried: 12, Advice: []advice.Advice{
		{Change: "fewer letters", Do: "write two letters", After: 0.95, Verdict: legibility.Reads},
		{Change: "a higher lens", Do: "raise the lens", After: 0.91, Verdict: legibility.Reads},
		{Change: "other rows", Do: "leave out row 1", After: 0.55, Verdict: legibility.Marginal},
	}}
	const best = "What helps most of the 12 changes that were measured: write two letters: then it reads (95 of 100)."
	for _, c := range []struct {
		least   int
		smaller string
	}{{0, ""}, {1, " A smaller change: raise the lens: then it reads (91 of 100)."}} {
		a.Least = c.least
		all.o.Advice = []advice.Advised{a}
		if got := all.sayReads(); !strings.Contains(got, best+c.smaller) || strings.Contains(got, "A smaller change") != (c.smaller != "") {
			t.Errorf("least %d: %s", c.least, got)
		}
	}
}

// Where nothing helps it is said plainly: from a kilometre away no letter has pixels enough.
func TestNothingHelps(t *testing.T) {
	s := fair.Stunt()
	s.Cues[0].Text = "BUOY"
	s.Camera.Back, s.Camera.Picture = 1000*seating.Metre, [2]int{640, 360}
	all := tells(t, s, outlook.Phone|outlook.Advice)
	if a := all.o.Advice; len(a) != 1 || len(a[0].Advice) != 0 || a[0].Tried < 5 {
		t.Fatalf("advice: %+v", a)
	}
	want := fmt.Sprintf("None of the %d changes that were measured helps.", all.o.Advice[0].Tried)
	if got := all.sayReads(); !strings.Contains(got, want) {
		t.Errorf("sentence 1 is %q", got)
	}
}
