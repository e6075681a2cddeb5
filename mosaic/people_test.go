package mosaic

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/seating"
	"everyseat/seating/people"
)

// Who comes changes nobody's colour and no placard: the code stays. The seats that stay free show the ground,
// or are seen by nobody.
func TestGroupsAreSeated(t *testing.T) {
	s := gullhaven()
	bare := mustMake(t, s)
	if bare.People != nil {
		t.Error("people are seated of whom nobody spoke")
	}
	all := bare.Stands.CountAll().People()
	s.People.Groups = []people.Party{{Name: "harbour choir", People: all / 2}, {Name: "rowing club", People: all/2 - 30}}
	p := mustMake(t, s)
	wantSaid(t, p, "Missing and wrong", fmt.Sprintf("Of %d people in the groups about %d are expected (88 %%).", all/2+all/2-30, int(math.Round(0.88*float64(all/2+all/2-30)))))
	if p.Code != bare.Code {
		t.Error("groups change the plan code")
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

// With few free seats the text reads about as well as planned, with half of the stands free it does not; who is invited
// and in no group is named.
func TestFreeSeatsAreSaid(t *testing.T) {
	scores := map[int]int{}
	for _, percent := range []int{98, 50} {
		s := gullhaven()
		all := mustMake(t, s).Stands.CountAll().People()
		s.Stands.People, s.Stands.Expected = all, 0.99
		s.People.Groups = []people.Party{{Name: "harbour choir", People: all * percent / 100}}
		p := mustMake(t, s)
		m := regexp.MustCompile(`The groups leave (\d+) seats with a card free: if just those stay empty, it .*? \((\d+) of 100\)\.`).FindStringSubmatch(said(t, p, "Missing and wrong"))
		if m == nil {
			t.Fatalf("%d %%: %q", percent, said(t, p, "Missing and wrong"))
		}
		free := 0
		for seat, who := range p.People.Person {
			if who == people.None && p.Stands.Seats[seat].Use == seating.UseCard {
				free++
			}
		}
		if m[1] != strconv.Itoa(free) {
			t.Errorf("%d %%: %s seats are said to be free, %d are", percent, m[1], free)
		}
		scores[percent], _ = strconv.Atoi(m[2])
		if warned := strings.Contains(strings.Join(p.Warnings, " "), "are in no group and have no seat yet"); !warned {
			t.Errorf("%d %%: %q", percent, p.Warnings)
		}
	}
	if scores[98] < 80 || scores[50] > scores[98]/2 {
		t.Errorf("scores by how many come, in percent: %v", scores)
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
