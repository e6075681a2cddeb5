// Package laying keeps the one order in which cards are printed, dealt and
// laid: sheets, tables and crew all use it.
package laying

import "time"

// Direction is the way a row is walked.
type Direction uint8

// The directions, as the camera sees the stands.
const (
	LeftToRight Direction = iota
	RightToLeft
)

// Spec is how the cards get onto the seats.
type Spec struct {
	Pass       bool // handed along the row when people sit, instead of laid before they come
	Helpers    int
	PerCard    time.Duration // default 6 s
	PerRow     time.Duration // default 20 s
	Direction  Direction     // of the first row of each section
	Serpentine bool          // every other row the other way
	FromBack   bool          // start with the back row
}
