// Package seating turns measured stands into seats: every seat, where it is,
// what it is called and who may use it. Start with Build.
//
// World axes, in metres: x to the camera's right, y away from the camera into
// the stands, z up; the origin is on the floor at the front edge of the front
// row, in the middle of the side-by-side sections.
package seating

// Point is x, y, z in metres.
type Point [3]float64

// Use is who is on a seat in the plan.
type Use uint8

// The uses.
const (
	UseCard     Use = iota // a person who holds a card
	UseReserved            // nobody: a rail, a platform
	UsePerson              // a person without a card
	UseDropped             // left out of this plan
)

// String is the word that files use.
func (u Use) String() string { return [...]string{"card", "reserved", "person", "dropped"}[u] }

// Seat is one place for one person. Missing seats keep their number but are not in the list.
type Seat struct {
	Section  int32 // index into Stands.Sections
	Row      int32 // index into Section.Rows, from the front
	Place    int32 // place in the row from the left as the camera sees it, from 0, missing places counted
	Number   int32 // as marked
	Use      Use
	For      string  // what it is reserved for, or ""
	Position Point   // on the footboard: middle of the place across, middle of the row's run in depth
	Facing   float64 // radians, 0 looks toward −y, positive counter-clockwise from above
}

// Row is one row of a section.
type Row struct {
	Name        string
	First, Last int    // its seats are Stands.Seats[First:Last], left to right
	Front       Length // front edge behind the section's front edge
	Height      Length // footboard above the floor
	Places      int    // with the missing ones
	Capacity    int    // people by the 18-inch rule for benches, places otherwise
}

// Section is one section with its rows, front to back.
type Section struct {
	Name        string
	Spec        SectionSpec // with defaults filled in
	Rows        []Row
	First, Last int     // its seats are Stands.Seats[First:Last]
	Origin      Point   // middle of the front row's front edge, on the floor (z = 0)
	Facing      float64 // radians
}

// Stands is all the seating of one stunt. Seats are sorted by section, row
// (front to back) and place (left to right); a seat's index is its identity
// everywhere in this module.
type Stands struct {
	Spec     Spec
	Sections []Section
	Seats    []Seat
	Warnings []string // plain sentences: counts that disagree
}

// Totals counts a section, a row or all the stands.
type Totals struct {
	Places   int // as surveyed, with the missing ones
	Missing  int // places that are not there
	Cards    int // people who hold a card
	Reserved int // places that stay empty
	Persons  int // people without a card
	Capacity int // people by the 18-inch rule on benches, one a place elsewhere
}

// People is how many sit there: with and without cards.
func (t Totals) People() int { return t.Cards + t.Persons }

// Count totals one section. Seats that a plan has dropped are in Places and Capacity alone.
func (s *Stands) Count(section int) Totals {
	var t Totals
	for row := range s.Sections[section].Rows {
		t = t.Plus(s.CountRow(section, row))
	}
	return t
}

// CountRow totals one row of a section.
func (s *Stands) CountRow(section, row int) Totals {
	r := &s.Sections[section].Rows[row]
	t := Totals{Places: r.Places, Missing: r.Places - (r.Last - r.First), Capacity: r.Capacity}
	for _, seat := range s.Seats[r.First:r.Last] {
		switch seat.Use {
		case UseCard:
			t.Cards++
		case UseReserved:
			t.Reserved++
		case UsePerson:
			t.Persons++
		}
	}
	return t
}

// CountAll totals all the stands.
func (s *Stands) CountAll() Totals {
	var t Totals
	for section := range s.Sections {
		t = t.Plus(s.Count(section))
	}
	return t
}

// Plus adds the counts of two parts of the stands.
func (t Totals) Plus(o Totals) Totals {
	return Totals{t.Places + o.Places, t.Missing + o.Missing, t.Cards + o.Cards, t.Reserved + o.Reserved,
		t.Persons + o.Persons, t.Capacity + o.Capacity}
}
