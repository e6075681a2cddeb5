package people_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/seating"
	"everyseat/seating/people"
)

// meaning is what a careful person says a list of who comes means; testdata/tables/README.md explains it.
type meaning struct {
	Means, Ask string
	counted
	Or []counted
}

type counted struct {
	Groups []struct {
		Name   string
		People int
	}
	Wheelchair, Companion int
	NotFilmed             int `json:"not_filmed"`
	FilmUnknown           int `json:"film_unknown"`
}

// TestRostersAsMeant holds what is read against testdata/tables, whose meanings were written by hand by somebody who had
// not seen the reader: a roster is read as it is meant, or refused; none is taken for something else. Who is not known
// to be allowed on film is kept out of it.
func TestRostersAsMeant(t *testing.T) {
	for half, most := range map[string]int{"dev": 0, "held": 9} { // wrong, as measured
		files, err := filepath.Glob("../../testdata/tables/rosters/" + half + "/*.json")
		if err != nil || len(files) < 40 {
			t.Fatalf("%d rosters, %v", len(files), err)
		}
		right, refused := 0, 0
		for _, file := range files {
			var m meaning
			data, err := os.ReadFile(file)
			if err == nil {
				err = json.Unmarshal(data, &m)
			}
			if err != nil {
				t.Fatal(file, err)
			}
			name := strings.TrimSuffix(file, ".json") + ".csv"
			if data, err = os.ReadFile(name); err != nil {
				name = strings.TrimSuffix(file, ".json") + ".xlsx"
				data, err = os.ReadFile(name)
			}
			if err != nil {
				t.Fatal(err)
			}
			r, err := people.Read(filepath.Base(name), data)
			if f, ok := errors.AsType[*seating.Fault](err); ok {
				refused++
				if half == "dev" {
					t.Logf("%s is refused: %s", name, f.Error())
				}
				if f.What == "" || f.Hint == "" {
					t.Errorf("%s/%s is refused without a reason or a hint: %v", half, filepath.Base(name), err)
				}
				continue
			}
			if err != nil {
				t.Errorf("%s: %v is no fault", name, err)
				continue
			}
			switch wrong := m.wrong(r); {
			case wrong == "":
				right++
			case half == "dev": // the other half tells nothing but its score
				t.Logf("%s is taken for something else: %s\nit means: %s%s\nunread: %v\nnotes: %q", name, wrong,
					m.Means, m.Ask, r.Unread, r.Notes)
			}
		}
		t.Logf("rosters/%s: of %d rosters %d read as they are meant, %d refused, %d wrong", half, len(files), right,
			refused, len(files)-right-refused)
		if wrong := len(files) - right - refused; wrong > most {
			t.Errorf("rosters/%s: %d are taken for something else, at most %d may be", half, wrong, most)
		}
	}
}

// wrong says what a reading has that the roster does not mean; "" = nothing.
func (m *meaning) wrong(r *people.Roster) string {
	if m.Ask != "" {
		return "somebody would have to ask"
	}
	why := m.counted.differs(r)
	for i := range m.Or {
		if m.Or[i].differs(r) == "" {
			return ""
		}
	}
	return why
}

func (c *counted) differs(r *people.Roster) string {
	if len(c.Groups) != len(r.Groups) {
		return fmt.Sprintf("%d groups for %d", len(r.Groups), len(c.Groups))
	}
	for i, g := range c.Groups {
		if got := &r.Groups[i]; g.Name != "" && plain(got.Name) != plain(g.Name) || got.People() != g.People {
			return fmt.Sprintf("group %q of %d for %q of %d", got.Name, got.People(), g.Name, g.People)
		}
	}
	for _, n := range []struct {
		what      string
		got, want int
	}{
		{"in wheelchairs", r.Count(-1, func(p *people.Person) bool { return p.Need == people.Wheelchair }), c.Wheelchair},
		{"companions", r.Count(-1, func(p *people.Person) bool { return p.Need == people.Companion }), c.Companion},
		{"kept out of the film", r.Count(-1, func(p *people.Person) bool { return p.Unfilmed }), c.NotFilmed + c.FilmUnknown},
	} {
		if n.got != n.want {
			return fmt.Sprintf("%d %s for %d", n.got, n.what, n.want)
		}
	}
	return ""
}

// plain is a name without what does not matter.
func plain(name string) string {
	return strings.TrimPrefix(strings.Join(strings.Fields(strings.ToLower(name)), " "), "group ")
}
