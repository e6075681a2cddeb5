package brief

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
)

// How people come in (common practice, no source).
const (
	doorPeople = 30 // through one door in a minute, counted as they pass, where the stunt does not say
	doorGap    = 1  // minutes between two groups at a door
	walking    = 5  // minutes from the room to the door
	settling   = 5  // minutes from the door until the last one sits
)

// arrival is a group at its door.
type arrival struct {
	*people.Group
	number  int    // of the group
	at      int    // minutes after the base: the first is at the door
	through int    // the last one has passed it
	given   bool   // by the stunt
	said    string // the stunt's words, where they are no time of day; at is unsaid then
}

// unsaid is a time that is none: such arrivals come last in lists.
const unsaid = 1 << 30

// arrivals is how all groups come: one after the other at each door, those who sit highest first, so that nobody
// climbs past people who sit, and the floor last.
type arrivals struct {
	list      []arrival // by time
	perMinute int
	base      mosaic.Clock
	known     bool // base is a time of day; else minutes count from the take
	late      int  // minutes by which the last one sits too late
	doors     int  // when the first may come
	jams      []string
}

// perDoor is how many people pass a door in a minute.
func perDoor(p *mosaic.Plan) int { return cmp.Or(p.Stunt.People.PerMinute, doorPeople) }

// passing is how many minutes so many people take at a door.
func passing(n, perMinute int) int { return (n + perMinute - 1) / perMinute }

// arrivalsOf counts when each group comes; doors is when the first may, in minutes after the take.
func arrivalsOf(p *mosaic.Plan, d *day, doors int) *arrivals {
	a := &arrivals{perMinute: perDoor(p), base: d.take, known: d.takeKnown, doors: doors}
	if c, ok := mosaic.ReadClock(p.Stunt.Day.Doors); ok && !d.takeKnown {
		a.base, a.known, a.doors = c, true, 0
	}
	for _, g := range entering(p) {
		one := arrival{Group: &p.People.Roster.Groups[g], number: g}
		if c, ok := mosaic.ReadClock(one.Time); ok && a.known {
			one.at, one.given = c.After(a.base), true
		} else if one.Time != "" {
			one.said, one.at = one.Time, unsaid
		}
		one.through = one.at + passing(one.People(), a.perMinute)
		a.list = append(a.list, one)
	}
	before := map[string][]int{} // by door, into a.list
	for _, given := range []bool{true, false} {
		for i := range a.list {
			if one := &a.list[i]; one.given == given && one.said == "" {
				a.place(one, before[one.Door])
				before[one.Door] = append(before[one.Door], i)
			}
		}
	}
	slices.SortStableFunc(a.list, func(x, y arrival) int { return cmp.Compare(x.at, y.at) })
	for i := range a.list {
		if one := &a.list[i]; one.said == "" && a.base == d.take {
			a.late = max(a.late, one.through+settling-d.seated)
		}
	}
	return a
}

// place finds the first gap at the door that holds the group; times that the stunt gives stay, and are said where two
// groups meet.
func (a *arrivals) place(one *arrival, before []int) {
	long := one.through - one.at
	if !one.given {
		one.at = a.doors
	}
	for moved := true; moved; {
		moved = false
		for _, i := range before {
			other := &a.list[i]
			switch {
			case one.at >= other.through+doorGap || other.at >= one.at+long+doorGap:
			case !one.given:
				one.at, moved = other.through+doorGap, true
			case one.at < other.through && other.at < one.at+long:
				a.jams = append(a.jams, fmt.Sprintf("%s and %s meet at the %s at %s", other.Name, one.Name,
					cmp.Or(one.Door, "door"), a.when(max(one.at, other.at))))
			}
		}
	}
	one.through = one.at + long
}

// when says minutes after the base as a time.
func (a *arrivals) when(at int) string {
	if a.known {
		return (a.base + mosaic.Clock(at)).String()
	}
	return fromTake(at)
}

// time is when a group is at its door.
func (a *arrivals) time(one *arrival) string {
	if one.said != "" {
		return one.said
	}
	return a.when(one.at)
}

// words say within a sentence how the groups come, as far as their times are known.
func (a *arrivals) words() string {
	switch {
	case a == nil:
		return ""
	case len(a.list) == 0 || a.list[0].said != "":
		return ", by calldown.pdf,"
	}
	last := a.doors
	for _, one := range a.list {
		if one.said == "" {
			last = max(last, one.through)
		}
	}
	return fmt.Sprintf(", by calldown.pdf, from %s to %s,", a.when(a.list[0].at), a.when(last))
}

// entering is the order in which groups come in: the stands from the top down, then the floor from the stands on.
func entering(p *mosaic.Plan) (order []int) {
	type spot struct {
		floor int // 1 = all are on it
		far   int // millimetres: on the stands up, on the floor away from the camera
		seat  int32
	}
	spots := make([]spot, len(p.People.Roster.Groups))
	for g := range spots {
		spot := spot{floor: 1, far: math.MinInt, seat: int32(len(p.Stands.Seats))}
		for i := p.People.Roster.Groups[g].First; i < p.People.Roster.Groups[g].Last; i++ {
			seat := p.People.Seat[i]
			if seat == people.None || p.People.Roster.People[i].Unfilmed || p.Stands.Seats[seat].For != "" {
				continue // they come and sit apart
			}
			at, up := &p.Stands.Seats[seat], 1
			if p.Stands.Sections[at.Section].Spec.Kind != seating.Floor {
				up, spot.floor = 2, 0
			}
			spot.far, spot.seat = max(spot.far, int(math.Round(at.Position[up]*1000))), min(spot.seat, seat)
		}
		spots[g], order = spot, append(order, g)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := &spots[a], &spots[b]
		return cmp.Or(cmp.Compare(x.floor, y.floor), cmp.Compare(y.far, x.far), cmp.Compare(x.seat, y.seat))
	})
	return order
}

// comes is by group when and through which door it comes.
func (t *teller) comes() []string {
	if t.People == nil {
		return nil
	}
	out := make([]string, len(t.People.Roster.Groups))
	for i := range t.day.arrivals.list {
		one := &t.day.arrivals.list[i]
		out[one.number] = t.day.arrivals.time(one)
		if one.Door != "" {
			out[one.number] += ", " + one.Door
		}
	}
	return out
}
