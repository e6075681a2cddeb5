package people

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"everyseat/seating"
)

// Party is a group as somebody counts it, without naming anybody. Of its People so many come in
// wheelchairs, so many with them, and so many may not be filmed.
type Party struct {
	Name, Leader                      string
	Room, Door, Time                  string
	People                            int
	Wheelchairs, Companions, Unfilmed int
}

// Gather makes one roster of parties and of a roster file, either of which may be missing. Groups come in
// the parties' order, then in the file's. A party that the file lists too, by its name, lends it room, door, time
// and leader; its people then are those of the file, and People may be 0 or must agree. Errors are
// *seating.Fault with the Key group[i] and what belongs to it.
func Gather(parties []Party, file *Roster) (*Roster, error) {
	if file == nil {
		file = &Roster{}
	}
	out := &Roster{Unread: file.Unread, Notes: file.Notes}
	listed := map[string]int{}
	for i := range file.Groups {
		listed[groupKey(file.Groups[i].Name)] = i
	}
	seen := map[string]bool{}
	for i := range parties {
		party := &parties[i]
		if err := party.check(i, seen); err != nil {
			return nil, err
		}
		at, has := listed[groupKey(party.Name)]
		if !has {
			if err := out.count(party, i); err != nil {
				return nil, err
			}
			continue
		}
		if n := file.Groups[at].People(); party.People != 0 && party.People != n {
			return nil, &seating.Fault{Key: fmt.Sprintf("group[%d].people", i),
				What: fmt.Sprintf("group %q has %d people here and %d in the roster", party.Name, party.People, n), Hint: "leave people out here: the roster counts"}
		}
		if party.Wheelchairs+party.Companions+party.Unfilmed > 0 {
			return nil, &seating.Fault{Key: fmt.Sprintf("group[%d]", i),
				What: fmt.Sprintf("group %q is in the roster, which says who needs what", party.Name), Hint: "leave wheelchairs, companions and not_filmed out here"}
		}
		out.take(file, at, party)
	}
	for i := range file.Groups {
		if !seen[groupKey(file.Groups[i].Name)] {
			out.take(file, i, &Party{})
		}
	}
	return out, out.bounded()
}

// bounded holds the roster against its limits.
func (r *Roster) bounded() error {
	switch {
	case len(r.People) > MaxPeople:
		return &seating.Fault{Key: "group", What: fmt.Sprintf("the groups have %d people, and at most %d can be seated", len(r.People), MaxPeople), Hint: "look for a slip of the pen in the numbers"}
	case len(r.Groups) > MaxGroups:
		return &seating.Fault{Key: "group", What: fmt.Sprintf("there are %d groups, more than %d", len(r.Groups), MaxGroups), Hint: "name whole classes or clubs, not people"}
	}
	return nil
}

// check looks at one party by itself.
func (p *Party) check(i int, seen map[string]bool) error {
	key := fmt.Sprintf("group[%d].", i)
	for _, t := range []struct {
		key  string
		text *string
	}{{"name", &p.Name}, {"leader", &p.Leader}, {"room", &p.Room}, {"door", &p.Door}, {"time", &p.Time}} {
		if why := nameFault(*t.text); why != "" {
			return &seating.Fault{Key: key + t.key, What: fmt.Sprintf("the group's %s %s", t.key, why), Hint: "write it shorter, on one line"}
		}
	}
	if strings.TrimSpace(p.Name) == "" {
		return &seating.Fault{Key: key + "name", What: "a group has no name", Hint: `write name = "harbour choir"`}
	}
	k := groupKey(p.Name)
	if seen[k] {
		return &seating.Fault{Key: key + "name", What: fmt.Sprintf("group %q is there twice", p.Name), Hint: "give each group its own name, or add its people up"}
	}
	seen[k] = true
	if p.People < 0 || p.Wheelchairs < 0 || p.Companions < 0 || p.Unfilmed < 0 {
		return &seating.Fault{Key: key + "people", What: fmt.Sprintf("group %q has a negative number of people", p.Name), Hint: "leave out what is not known"}
	}
	if p.People > MaxPeople {
		return &seating.Fault{Key: key + "people", What: fmt.Sprintf("group %q has %d people, and at most %d can be seated", p.Name, p.People, MaxPeople), Hint: "look for a slip of the pen"}
	}
	return nil
}

// nameFault says what is wrong with a text that goes on paper, or "".
func nameFault(text string) string {
	switch {
	case !utf8.ValidString(text):
		return "is no valid UTF-8 text"
	case utf8.RuneCountInString(text) > MaxName:
		return fmt.Sprintf("has more than %d signs", MaxName)
	case strings.ContainsFunc(text, unicode.IsControl):
		return "holds a line end or another control character"
	}
	return ""
}

// count adds a party of which nobody is listed: wheelchairs first, then their companions.
func (r *Roster) count(p *Party, i int) error {
	key := fmt.Sprintf("group[%d].", i)
	switch {
	case p.People == 0:
		return &seating.Fault{Key: key + "people", What: fmt.Sprintf("how many people group %q has is not said", p.Name), Hint: "write people = 24, or list the group in the roster under this name"}
	case p.Wheelchairs+p.Companions > p.People || p.Unfilmed > p.People:
		return &seating.Fault{Key: key + "people", What: fmt.Sprintf("group %q has %d people and more with needs", p.Name, p.People), Hint: "people counts everybody, those in wheelchairs and their companions too"}
	case len(r.People)+p.People > MaxPeople:
		return &seating.Fault{Key: key + "people", What: fmt.Sprintf("with group %q there are more than %d people", p.Name, MaxPeople), Hint: "look for a slip of the pen in the numbers"}
	}
	r.addCounted(p)
	return nil
}

// addCounted adds the party's people, who have no names. Those who may not be filmed are counted from
// the last one, so that a wheelchair user is among them only when everybody is.
func (r *Roster) addCounted(p *Party) {
	g := r.open(Group{Name: p.Name, Leader: p.Leader, Room: p.Room, Door: p.Door, Time: p.Time})
	for k := range p.People {
		one := Person{Group: int32(g), Unfilmed: k >= p.People-p.Unfilmed}
		switch {
		case k < p.Wheelchairs:
			one.Need = Wheelchair
		case k < p.Wheelchairs+p.Companions:
			one.Need = Companion
		}
		r.People = append(r.People, one)
	}
	r.Groups[g].Last = len(r.People)
}

// open starts a group at the end of the roster.
func (r *Roster) open(g Group) int {
	g.First, g.Last = len(r.People), len(r.People)
	r.Groups = append(r.Groups, g)
	return len(r.Groups) - 1
}

// take copies a group of another roster; what the party says of it wins.
func (r *Roster) take(from *Roster, at int, p *Party) {
	g := from.Groups[at]
	for _, t := range []struct {
		to   *string
		said string
	}{{&g.Leader, p.Leader}, {&g.Room, p.Room}, {&g.Door, p.Door}, {&g.Time, p.Time}} {
		if t.said != "" {
			*t.to = t.said
		}
	}
	people := from.People[g.First:g.Last]
	n := r.open(g)
	for _, one := range people {
		one.Group = int32(n)
		r.People = append(r.People, one)
	}
	r.Groups[n].Last = len(r.People)
}

// groupKey is equal for names of groups that differ in capitals and blanks only.
func groupKey(name string) string {
	return norm.NFC.String(cases.Fold().String(strings.Join(strings.Fields(name), " ")))
}
