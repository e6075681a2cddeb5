package people

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

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
	out := &Roster{Unread: file.Unread, Notes: file.Notes, Understood: file.Understood}
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
		needy := party.Wheelchairs + party.Companions
		switch {
		case !has && party.People == 0:
			return nil, groupFault(i, ".people", "write people = 24, or list the group in the roster under this name",
				"how many people group %q has is not said", party.Name)
		case !has && (needy > party.People || party.Unfilmed > party.People):
			return nil,
				groupFault(i, ".people", "people counts everybody, those in wheelchairs and their companions too",
					"group %q has %d people and more with needs", party.Name, party.People)
		case !has && len(out.People)+party.People > MaxPeople:
			return nil, groupFault(i, ".people", "look for a slip of the pen in the numbers",
				"with group %q there are more than %d people", party.Name, MaxPeople)
		case !has:
			out.addCounted(party)
		case party.People != 0 && party.People != file.Groups[at].People():
			return nil, groupFault(i, ".people", "leave people out here: the roster counts",
				"group %q has %d people here and %d in the roster", party.Name, party.People, file.Groups[at].People())
		case needy+party.Unfilmed > 0:
			return nil, groupFault(i, "", "leave wheelchairs, companions and not_filmed out here",
				"group %q is in the roster, which says who needs what", party.Name)
		default:
			out.take(file, at, party)
		}
	}
	for i := range file.Groups {
		if !seen[groupKey(file.Groups[i].Name)] {
			out.take(file, i, &Party{})
		}
	}
	if n := len(out.People); n > MaxPeople {
		return nil, seating.Wrong("group", "look for a slip of the pen in the numbers",
			"the groups have %d people, and at most %d can be seated", n, MaxPeople)
	}
	if n := len(out.Groups); n > MaxGroups {
		return nil, seating.Wrong("group", "name whole classes or clubs, not people",
			"there are %d groups, more than %d", n, MaxGroups)
	}
	return out, nil
}

func groupFault(i int, key, hint, what string, args ...any) error {
	return seating.Wrong(fmt.Sprintf("group[%d]", i)+key, hint, what, args...)
}

// check looks at one party by itself.
func (p *Party) check(i int, seen map[string]bool) error {
	for _, t := range []struct{ key, text string }{
		{"name", p.Name}, {"leader", p.Leader}, {"room", p.Room}, {"door", p.Door}, {"time", p.Time},
	} {
		if why := nameFault(t.text); why != "" {
			return groupFault(i, "."+t.key, "write it shorter, on one line", "the group's %s %s", t.key, why)
		}
	}
	key := groupKey(p.Name)
	twice := seen[key]
	seen[key] = true
	switch {
	case strings.TrimSpace(p.Name) == "":
		return groupFault(i, ".name", `write name = "harbour choir"`, "a group has no name")
	case twice:
		return groupFault(i, ".name", "give each group its own name, or add its people up",
			"group %q is there twice", p.Name)
	case p.People < 0 || p.Wheelchairs < 0 || p.Companions < 0 || p.Unfilmed < 0:
		return groupFault(i, ".people", "leave out what is not known",
			"group %q has a negative number of people", p.Name)
	case p.People > MaxPeople:
		return groupFault(i, ".people", "look for a slip of the pen",
			"group %q has %d people, and at most %d can be seated", p.Name, p.People, MaxPeople)
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

// addCounted adds the party's people, who have no names: wheelchairs first, then their companions. Those who may not
// be filmed are counted from the last one, so that a wheelchair user is among them only when everybody is.
func (r *Roster) addCounted(p *Party) {
	people := make([]Person, p.People)
	for k := range people {
		people[k].Unfilmed = k >= p.People-p.Unfilmed
		switch {
		case k < p.Wheelchairs:
			people[k].Need = Wheelchair
		case k < p.Wheelchairs+p.Companions:
			people[k].Need = Companion
		}
	}
	r.add(p.group(), people)
}

func (p *Party) group() Group {
	return Group{Name: p.Name, Leader: p.Leader, Room: p.Room, Door: p.Door, Time: p.Time}
}

// add puts a group and its people at the end of the roster.
func (r *Roster) add(g Group, people []Person) {
	g.First, g.Last = len(r.People), len(r.People)+len(people)
	for _, one := range people {
		one.Group = int32(len(r.Groups))
		r.People = append(r.People, one)
	}
	r.Groups = append(r.Groups, g)
}

// take copies a group of another roster; what the party says of it wins.
func (r *Roster) take(from *Roster, at int, p *Party) {
	g := from.Groups[at]
	g.Leader, g.Room = cmp.Or(p.Leader, g.Leader), cmp.Or(p.Room, g.Room)
	g.Door, g.Time = cmp.Or(p.Door, g.Door), cmp.Or(p.Time, g.Time)
	r.add(g, from.People[g.First:g.Last])
}

// groupKey is equal for names of groups that differ in capitals and blanks only.
func groupKey(name string) string { return seating.NameKey(strings.Join(strings.Fields(name), " ")) }
