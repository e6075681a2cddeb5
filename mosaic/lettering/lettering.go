// Package lettering fits text to seats as the camera sees them: it decides
// which seats are ink. Start with Fit.
package lettering

import "everyseat/mosaic/legibility"

// Seat is one seat that may carry the text, as one view sees it.
type Seat = legibility.Seat

// Field is the seats that may carry the text as one mark sees them.
type Field = legibility.Field

// Options is what the reading depends on beside the seats.
type Options = legibility.Options

// Letter is one letter as it was laid.
type Letter struct {
	Rune    rune
	Line    int
	Box     [4]float64 // left, top, right, bottom in the main picture
	Seats   float64    // mean width in seats
	Rows    int        // height in rows
	Section int32      // where most of it lies
}

// Layout is the text laid on the seats.
type Layout struct {
	Ink     []bool // by Field seat
	Letters []Letter
	Face    string
	Score   float64  // 0…1, the reading score of the worst view
	Dropped []string // plain words: accents that did not fit, signs set otherwise
	Notes   []string // plain words: why it is not centred, and the like
}

// Misfit says that the text does not fit, and what would.
type Misfit struct {
	What string
	Hint string
	// Small: the letters could be set, but the seats are too few for so many.
	Small bool
}

func (m *Misfit) Error() string { return m.What }
