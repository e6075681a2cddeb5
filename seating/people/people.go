// Package people reads a roster and seats it: groups in blocks of neighbouring seats, wheelchair and
// companion places to those who need them, people who may not be filmed where no camera sees
// them. It knows no message: how much a seat matters is told to it, seat by seat. Start with Read
// or Gather, then Seat.
package people

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"

	"everyseat/seating"
	"everyseat/seating/cells"
	"everyseat/seating/say"
)

// Limits of a roster.
const (
	MaxBytes  = 16 << 20         // of a roster file
	MaxPeople = seating.MaxSeats // nobody seats more than there can be seats
	MaxGroups = 5_000
	MaxName   = 200 // runes of a person's, a group's, a room's or a door's name
)

// Need is what a person needs of a seat.
type Need uint8

// The needs.
const (
	Nothing    Need = iota
	Wheelchair      // a wheelchair place
	Companion       // a companion place, beside whom they come with
)

// Person is one of a group. Name is as the roster has it, a name or a code; "" where the
// group was only counted.
type Person struct {
	Name     string
	Group    int32 // index into Roster.Groups
	Need     Need
	Unfilmed bool // may not be filmed
	Leads    bool // the group's leader or one of its helpers
}

// Group is who comes and sits together: a class, a club, a choir, a ward. Room, Door, Time and Leader
// are as somebody wrote them, "" where nobody did.
type Group struct {
	Name, Leader     string
	Room, Door, Time string
	First, Last      int // its people are Roster.People[First:Last]
}

// People is how many belong to the group.
func (g *Group) People() int { return g.Last - g.First }

// Roster is who comes, group by group.
type Roster struct {
	Groups []Group
	People []Person
	Unread []cells.Unread // cells of the file that were not used, by sheet, row and column
	Notes  []string       // plain sentences: what was taken for granted
	// Understood says how the columns were read that keep people out of the film, in words without a full stop.
	Understood []string
}

// Called is what a person is called in tables: the name or code of the roster, or the group's name with
// a number from 1 where the group was only counted.
func (r *Roster) Called(person int) string {
	p := &r.People[person]
	if p.Name != "" {
		return p.Name
	}
	g := &r.Groups[p.Group]
	return fmt.Sprintf("%s %d", g.Name, person-g.First+1)
}

// Count counts the people of a group, or of all where group is negative, for whom is holds.
func (r *Roster) Count(group int, is func(*Person) bool) int {
	first, last := 0, len(r.People)
	if group >= 0 {
		first, last = r.Groups[group].First, r.Groups[group].Last
	}
	n := 0
	for i := first; i < last; i++ {
		if is(&r.People[i]) {
			n++
		}
	}
	return n
}

// Named says whether any person has a name or code of their own.
func (r *Roster) Named() bool { return r.Count(-1, func(p *Person) bool { return p.Name != "" }) > 0 }

// Code is four characters of who sits where: lists printed from another roster have another code, though
// the plan and its code stay.
func (s *Seated) Code() string {
	sum := sha256.New()
	for g := range s.Roster.Groups {
		group := &s.Roster.Groups[g]
		fmt.Fprintf(sum, "%q %q %q %q %q", group.Name, group.Leader, group.Room, group.Door, group.Time)
		for i := group.First; i < group.Last; i++ {
			fmt.Fprintf(sum, "%q %d ", s.Roster.People[i].Name, s.Seat[i])
		}
	}
	return say.Code(binary.BigEndian.Uint64(sum.Sum(nil)), 4)
}
