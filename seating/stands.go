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
