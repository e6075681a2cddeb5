package seating

import (
	"cmp"
	"fmt"
	"math"
)

// Build makes the stands. It fills in defaults (the Default constants; a bench's
// rise, run, pitch and seat board count as not given when they are 0), checks
// everything, lays the sections out, and compares the counts. Every error is a
// *Fault whose Key starts at "section[i]", "stands" or "room".
//
// A floor block without a place is centred in front of the stands, its back edge
// FloorWay before their front edge. Origin may name a placed section: then all
// sections move so that the middle of its front row's front edge is the origin.
// With Seats and Bench both given, Seats counts and the bench gives the capacity.
func Build(spec Spec) (*Stands, error) {
	if err := checkSpec(&spec); err != nil {
		return nil, err
	}
	drafts, err := newDrafts(spec.Sections)
	if err != nil {
		return nil, err
	}
	at, err := layOut(&spec, drafts)
	if err != nil {
		return nil, err
	}
	s := &Stands{Spec: spec}
	s.Spec.Sections = make([]SectionSpec, len(drafts))
	total := 0
	for i, d := range drafts {
		s.Spec.Sections[i] = d.spec
		total += d.total
	}
	s.Seats = make([]Seat, 0, total)
	for i, d := range drafts {
		s.add(d, at[i])
	}
	if len(s.Seats) == 0 {
		return nil, Wrong("stands", "leave at least one", "all seats are missing")
	}
	if err := s.checkLanes(); err != nil {
		return nil, err
	}
	if err := s.checkCrossing(); err != nil {
		return nil, err
	}
	s.Warnings = s.warnings()
	return s, nil
}

func checkSpec(spec *Spec) error {
	spec.Expected = cmp.Or(spec.Expected, DefaultExpected)
	switch n := len(spec.Sections); {
	case n == 0:
		return Wrong("stands", "describe at least one section with its rows and seats", "there are no sections")
	case n > MaxSections:
		return Wrong("stands", fmt.Sprintf("at most %d", MaxSections), "%d sections are too many", n)
	case spec.Posted < 0 || spec.Posted > MaxPeople:
		return Wrong("stands.posted", "copy the number from the sign, or leave it out",
			"a posted load of %d people cannot be", spec.Posted)
	case spec.People < 0 || spec.People > MaxPeople:
		return Wrong("stands.people", "say how many are invited, or leave it out", "%d people cannot be", spec.People)
	case !(spec.Expected > 0 && spec.Expected <= 1):
		return Wrong("stands.expected", "give a share above 0 and up to 1, like 0.88",
			"%v is no share of people", spec.Expected)
	}
	return nil
}

func newDrafts(specs []SectionSpec) ([]*draft, error) {
	drafts := make([]*draft, len(specs))
	named := map[string]string{}
	total := 0
	for i, spec := range specs {
		d, err := newDraft(i, spec)
		if err != nil {
			return nil, err
		}
		name, key := d.spec.Name, NameKey(d.spec.Name)
		if twin, ok := named[key]; ok {
			what := fmt.Sprintf("there are two sections %q", twin)
			if twin != name {
				what = fmt.Sprintf("the sections %q and %q have the same name but for capitals", twin, name)
			}
			return nil, d.fault("name", "give every section its own name", "%s", what)
		}
		if total += d.total; total > MaxSeats {
			return nil, d.fault("seats", "look for a digit too many", "the stands have more than %d seats", MaxSeats)
		}
		named[key], drafts[i] = name, d
	}
	return drafts, nil
}

// spot is where a section stands: the middle of its front row's front edge in
// quarter-nanometres, and its facing.
type spot struct {
	x4, y4   Length
	sin, cos float64
	facing   float64 // radians
}

func layOut(spec *Spec, drafts []*draft) ([]spot, error) {
	at := make([]spot, len(drafts))
	sideBySide(drafts, at)
	floor := -1
	for i, d := range drafts {
		at[i].sin, at[i].cos = 0, 1
		switch p := d.spec.Place; {
		case p != nil:
			at[i].x4, at[i].y4 = 4*p.Across, 4*p.Away
			at[i].sin, at[i].cos = sincos(p.Facing)
			at[i].facing = p.Facing * (math.Pi / 180)
		case d.spec.Kind == Floor && floor >= 0:
			return nil, d.fault("place", "place at least one of them by hand",
				"the floor blocks %s and %s are both without a place", drafts[floor].spec.Name, d.spec.Name)
		case d.spec.Kind == Floor:
			floor = i
			left, right := d.extent2()
			at[i].x4 = -(left + right)
			at[i].y4 = -4 * (FloorWay + d.depth())
		}
	}
	if spec.Origin == "" {
		return at, nil
	}
	return at, moveOrigin(spec.Origin, drafts, at, floor)
}

// sideBySide lays the sections without a place from left to right around x = 0.
func sideBySide(drafts []*draft, at []spot) {
	edge2, end2 := Length(0), Length(0)
	for i, d := range drafts {
		if !d.beside() {
			continue
		}
		left, right := d.extent2()
		at[i].x4 = 2 * (edge2 - left)
		end2 = edge2 - left + right
		edge2 = end2 + 2*d.spec.Aisle
	}
	for i, d := range drafts {
		if d.beside() {
			at[i].x4 -= end2
		}
	}
}

func (d *draft) beside() bool { return d.spec.Place == nil && d.spec.Kind != Floor }

// moveOrigin makes the middle of a section's front row the origin. Placed sections
// were measured from the origin, so a side-by-side one moves its neighbours (and
// the floor block centred before them) only.
func moveOrigin(name string, drafts []*draft, at []spot, floor int) error {
	names := make([]string, len(drafts))
	for i, d := range drafts {
		names[i] = d.spec.Name
		if NameKey(d.spec.Name) != NameKey(name) {
			continue
		}
		dx, dy := at[i].x4, at[i].y4
		for j, e := range drafts {
			if d.beside() && !e.beside() && j != floor {
				continue
			}
			at[j].x4 -= dx
			at[j].y4 -= dy
		}
		return nil
	}
	return Wrong("stands.origin", sectionHint(name, names), "there is no section %q to be the origin", name)
}

func (l Length) quarters() float64 { return float64(l) / float64(4*Metre) }

// add makes the section and its seats.
func (s *Stands) add(d *draft, at spot) {
	sec := Section{
		Name: d.spec.Name, Spec: d.spec, Rows: make([]Row, d.spec.Rows), First: len(s.Seats),
		Origin: Point{at.x4.quarters(), at.y4.quarters(), 0}, Facing: at.facing,
	}
	for r := range sec.Rows {
		row := &sec.Rows[r]
		*row = Row{
			Name: d.names[r], First: len(s.Seats), Front: d.fronts[r], Places: d.places[r],
			Height: d.spec.FirstRow + Length(r)*d.spec.Rise, Capacity: d.capacity(r),
		}
		s.addRow(d, at, r, row.Height)
		row.Last = len(s.Seats)
	}
	sec.Last = len(s.Seats)
	s.Sections = append(s.Sections, sec)
}

func (s *Stands) addRow(d *draft, at spot, r int, height Length) {
	begin, line := d.across2(r), d.seatLine2(r)
	for p := range d.places[r] {
		if d.missing(r, p) {
			continue
		}
		seat := Seat{
			Section: int32(len(s.Sections)), Row: int32(r), Place: int32(p),
			Number: int32(d.spec.SeatNumbers.Number(p, d.places[r])), Use: UseCard, Facing: at.facing,
		}
		if d.flags[r] != nil && d.flags[r][p].used != 0 {
			seat.For = d.spec.Reserved[d.flags[r][p].used-1].For
			if seat.For != "wheelchair" && seat.For != "companion" {
				seat.Use = UseReserved
			}
		}
		if d.spec.NoCards && seat.Use == UseCard {
			seat.Use = UsePerson
		}
		across := begin + d.middle2(r, p)
		if d.spec.Radius == 0 && at.sin == 0 && at.cos == 1 {
			// Straight and unturned: one division, so that equal lengths give equal places.
			seat.Position = Point{(at.x4 + 2*across).quarters(), (at.y4 + 2*line).quarters(), height.Metres()}
		} else {
			x, y, turn := d.local(r, across, line)
			seat.Position = Point{
				at.x4.quarters() + float64(x*at.cos) - float64(y*at.sin),
				at.y4.quarters() + float64(x*at.sin) + float64(y*at.cos), height.Metres(),
			}
			seat.Facing = at.facing + turn
		}
		s.Seats = append(s.Seats, seat)
	}
}

// capacity is the people a row holds: one for every whole BenchWidth of each
// unbroken length of bench (IBC 2021 section 1004.6), one a place elsewhere.
func (d *draft) capacity(row int) int {
	if d.spec.Kind != Bench {
		people := 0
		for p := range d.places[row] {
			if !d.missing(row, p) {
				people++
			}
		}
		return people
	}
	// In half-nanometres: what whole pitches leave of the bench lies half at either end.
	spare := d.width(row) - Length(d.places[row])*d.spec.Pitch
	people, run := Length(0), spare
	for p := range d.places[row] {
		if d.missing(row, p) {
			people += run / (2 * BenchWidth)
			run = 0
			continue
		}
		run += 2 * d.spec.Pitch
	}
	if d.places[row] == 0 {
		return 0
	}
	return int(people + (run+spare)/(2*BenchWidth))
}
