// Package laying keeps the one order in which cards are printed, dealt and
// laid: sheets, tables and crew all use it.
package laying

import (
	"slices"
	"time"

	"everyseat/seating"
)

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

// Order lists every seat once, reserved ones at their spot, in the order cards
// are laid: section by section, row by row, along the row. Sections come as they
// stand in the stunt; floor blocks follow the stands, first those with cards,
// then those whose people hold none, so that whoever lays never crosses them. Rows
// run from the front unless FromBack; the first row walked in each section goes
// in Direction, and with Serpentine each next row that has seats goes the other way.
func Order(s *seating.Stands, spec Spec) []int32 {
	order := make([]int32, 0, len(s.Seats))
	for _, section := range sections(s) {
		direction := spec.Direction
		rows := s.Sections[section].Rows
		for i := range rows {
			row := &rows[i]
			if spec.FromBack {
				row = &rows[len(rows)-1-i]
			}
			if row.First == row.Last {
				continue
			}
			from := len(order)
			for seat := row.First; seat < row.Last; seat++ {
				order = append(order, int32(seat))
			}
			if direction == RightToLeft {
				slices.Reverse(order[from:])
			}
			if spec.Serpentine {
				direction = LeftToRight + RightToLeft - direction
			}
		}
	}
	return order
}

func sections(s *seating.Stands) []int {
	order := make([]int, len(s.Sections))
	for i := range order {
		order[i] = i
	}
	rank := func(section int) int {
		switch spec := &s.Sections[section].Spec; {
		case spec.Kind != seating.Floor:
			return 0
		case !spec.NoCards:
			return 1
		}
		return 2
	}
	slices.SortStableFunc(order, func(a, b int) int { return rank(a) - rank(b) })
	return order
}
