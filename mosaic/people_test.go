package mosaic

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"everyseat/seating"
	"everyseat/seating/people"
)

// Who comes changes nobody's colour and card. The seats that stay free show the ground, or are seen by nobody.
func TestGroupsAreSeated(t *testing.T) {
	s := gullhaven()
	bare := mustMake(t, s)
	if bare.People != nil {
		t.Error("people are seated of whom nobody spoke")
	}
	all := bare.Stands.CountAll().People()
	s.People.Groups = []people.Party{{Name: "harbour choir", People: all / 2}, {Name: "rowing club", People: all/2 - 30}}
	p := mustMake(t, s)
	if d := cmp.Diff([]any{bare.Cues, bare.Cards, bare.Hands, bare.Order}, []any{p.Cues, p.Cards, p.Hands, p.Order}); d != "" {
		t.Errorf("groups change what seats show: %s", d)
	}
	free := 0
	for seat, who := range p.People.Person {
		if who != people.None {
			continue
		}
		free++
		for i := range p.Cues {
			if c := p.Cues[i].Colours[seat]; c != None && p.Stunt.Colours[c].Name != p.Stunt.Cues[i].Ground && p.Marks[0].Sight.Seen[seat] > 0 {
				t.Errorf("seat %s of the letters stays free", p.Stands.ID(seat))
			}
		}
	}
	if free < 29 {
		t.Errorf("%d seats stay free, want 30 or so", free)
	}
}

func TestGroupFaults(t *testing.T) {
	for want, who := range map[string]People{
		"group: there are ":                               {Groups: []people.Party{{Name: "everybody", People: 10_000}}},
		"group[0].people: how many people":                {Groups: []people.Party{{Name: "choir"}}},
		"people.roster: 1 people come in wheelchairs and": {Roster: &people.Roster{Groups: []people.Group{{Name: "choir", Last: 1}}, People: []people.Person{{Name: "P-1", Need: people.Wheelchair}}}},
	} {
		s := gullhaven()
		s.People = who
		_, err := Make(s)
		var f *seating.Fault
		if !errors.As(err, &f) || !strings.HasPrefix(f.Error(), want) || f.Hint == "" {
			t.Errorf("%v, want %s", err, want)
		}
	}
	s := gullhaven()
	s.Stands.People = 20
	s.People.Groups = []people.Party{{Name: "choir", People: 30, Companions: 1}}
	if w := strings.Join(mustMake(t, s).Warnings, "\n"); !strings.Contains(w, "The groups have 30 people, and only 20 are invited") || !strings.Contains(w, "For 1 companion no companion place is left") {
		t.Errorf("warnings %q", w)
	}
}
