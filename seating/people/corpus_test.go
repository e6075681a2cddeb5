package people_test

import (
	"fmt"
	"strings"
	"testing"

	"everyseat/seating/people"
	"everyseat/testdata/tables"
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
	tables.AsMeant(t, "rosters", tables.Most{Held: 1, Tables: 50}, func(name string, data []byte, m *meaning) (string, error) {
		r, err := people.Read(name, data)
		if err != nil {
			return "", err
		}
		wrong := m.wrong(r)
		if wrong != "" {
			wrong = fmt.Sprintf("%s\nit means: %s%s\nunread: %v\nnotes: %q", wrong, m.Means, m.Ask, r.Unread, r.Notes)
		}
		return wrong, nil
	})
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
