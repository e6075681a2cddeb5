package outlook

import (
	"slices"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/seating/people"
	"everyseat/testdata/fair"
)

// With just enough people the text reads and with one fewer it does not; a change is advised that reads with as many as
// come. What reads anyway is given no advice, and where nobody says who comes nothing is said.
func TestFewPeople(t *testing.T) {
	s := fair.Stunt()
	s.Cues[0].Text = "MM"
	if f := FewOf(t.Context(), fair.Plan(t, s)); f != nil {
		t.Errorf("nobody says who comes: %+v", f)
	}
	s.Stands.People, s.Stands.Expected = 150, 1
	p := fair.Plan(t, s)
	f := FewOf(t.Context(), p)
	if f.People != 150 || f.Grouped || f.Cues[0].Verdict != legibility.DoesNotRead || len(f.Moves) > 0 {
		t.Fatalf("%d people: %+v", f.People, f.Cues)
	}
	open, _ := p.LeastFirst()
	for n, reads := range map[int]bool{f.Enough: true, f.Enough - 1: false} {
		empty := slices.Sorted(slices.Values(open[:len(open)-n]))
		if score, v := p.ReadsWithout(0, empty); (v == legibility.Reads) != reads {
			t.Errorf("%d people: %s, %.3f", n, v, score)
		}
	}
	if len(f.Advice) != 1 || len(f.Advice[0].Advice) == 0 || f.Advice[0].Advice[0].Verdict != legibility.Reads {
		t.Errorf("advice %+v", f.Advice)
	}
	s.Stands.People = f.Enough + 5
	if f := FewOf(t.Context(), fair.Plan(t, s)); f.Cues[0].Verdict != legibility.Reads || f.Advice != nil || f.Enough != 0 {
		t.Errorf("with %d: %+v", s.Stands.People, f)
	}
	// The roster of a group is told what the same group of the stunt file is.
	s.Stands.People = 0
	s.People.Groups = []people.Party{{Name: "harbour choir", People: f.Enough + 30}}
	p = fair.Plan(t, s)
	q, err := p.Seating(p.People.Roster)
	if err != nil {
		t.Fatal(err)
	}
	a, b := FewOf(t.Context(), p), FewOf(t.Context(), q)
	if !a.Grouped || a.Cues[0] != b.Cues[0] || !slices.Equal(a.Free, b.Free) {
		t.Errorf("%+v of the file, %+v of the roster", a.Cues, b.Cues)
	}
}
