package mosaic

import (
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
)

// A word over two sections that stand far apart falls apart, and that is said; two words do not, nor
// does a word on sections with an aisle between them.
func TestWideGapsAreSaid(t *testing.T) {
	const words = "the word falls apart"
	far := func(text string) *Stunt {
		s := gullhaven()
		s.Stands.Sections = s.Stands.Sections[:2]
		for k, across := range []seating.Length{-9 * seating.Metre, 9 * seating.Metre} {
			s.Stands.Sections[k].Place = &seating.Place{Across: across}
		}
		s.Camera.Back = 26 * seating.Metre
		s.Cues[0].Text = text
		return s
	}
	said := func(s *Stunt) string {
		var out []string
		for _, w := range mustMake(t, s).Warnings {
			if strings.Contains(w, words) {
				out = append(out, w)
			}
		}
		return strings.Join(out, "\n")
	}
	if got := said(far("TIDE")); !strings.Contains(got, "between I and D") {
		t.Errorf("TIDE torn apart: %q", got)
	}
	if p := mustMake(t, far("TIDE")); !p.Cues[0].Torn || p.Cues[0].Reading.Verdict == legibility.Reads {
		t.Errorf("TIDE torn apart %s", p.Cues[0].Reading.Verdict)
	}
	if got := said(far("TI DE")); got != "" {
		t.Errorf("two words: %q", got)
	}
	if got := said(gullhaven()); got != "" {
		t.Errorf("sections side by side: %q", got)
	}
}

// A word that is torn apart never "reads", however clear its letters are; others are as they are.
func TestTornWordsAreHeldBack(t *testing.T) {
	reads, fails := legibility.Thresholds()
	for _, c := range []struct {
		score float64
		torn  bool
		want  legibility.Verdict
	}{{0.95, true, legibility.Marginal}, {reads, true, legibility.Marginal}, {fails - 0.1, true, legibility.DoesNotRead}, {0.95, false, legibility.Reads}} {
		r := legibility.Reading{Score: c.score, Verdict: legibility.VerdictOf(c.score)}
		cue := CuePlan{Torn: c.torn}
		cue.holdBack(&r)
		if r.Verdict != c.want || legibility.VerdictOf(r.Score) != c.want || !c.torn && r.Score != c.score {
			t.Errorf("%g, torn %v: %g %s", c.score, c.torn, r.Score, r.Verdict)
		}
	}
}

// A section that carries no letter is named.
func TestBareSectionsAreNoted(t *testing.T) {
	s := gullhaven()
	s.Stands.Sections[2].Seats = []int{2}
	s.Cues[0].Text = "GO"
	p := mustMake(t, s)
	bare := true
	for k, i := range p.Cues[0].Field {
		bare = bare && (p.Stands.Seats[i].Section != 2 || !p.Cues[0].Text.Ink[k])
	}
	if said := slices.Contains(p.Cues[0].Text.Notes, "no letter lies on section C: the ground shows there"); !bare || !said {
		t.Errorf("two seats a row carry no letter: %v, notes %q", bare, p.Cues[0].Text.Notes)
	}
}

// Seats that show no card, or a colour that is neither ink nor ground, do not carry the text: the
// letters are fitted to the others.
func TestTextDoesWithoutPaintedSeats(t *testing.T) {
	s := gullhaven()
	s.Cues[0].Painted = []Paint{
		{Section: "B", Seats: seating.SeatRange{Row: "6", From: 3, To: 9}},
		{Section: "B", Seats: seating.SeatRange{Row: "2", From: 1, To: 2}, Colour: "gold"},
		{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 2}, Colour: "white"},
	}
	p := mustMake(t, s)
	for _, id := range []string{"B-6-3", "B-6-9", "B-2-1"} {
		if slices.Contains(p.Cues[0].Field, int32(seat(t, p, id))) {
			t.Errorf("%s carries the text", id)
		}
	}
	if !slices.Contains(p.Cues[0].Field, int32(seat(t, p, "A-1-1"))) {
		t.Error("a seat painted with the ink does not count")
	}
	if c := p.Cues[0].Colours[seat(t, p, "B-6-5")]; c != None {
		t.Errorf("B-6-5 shows %d", c)
	}
}
