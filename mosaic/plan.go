package mosaic

import (
	"time"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/people"
)

// Plan is the finished assignment. Slices by seat use the seat's index in Stands.
type Plan struct {
	Stunt  *Stunt
	Code   string // eight characters, in every footer; changes when anything a sheet shows changes
	Stands *seating.Stands
	Scene  *camera.Scene // everybody there, all cards up, held perfectly
	Marks  []Mark        // Marks[0] is the camera
	Cells  []camera.Cell // of the camera
	Cues   []CuePlan
	Cards  []Card
	Hands  [][]Hold       // [cue][seat]
	Order  []int32        // seats in laying order
	Blocks []string       // by seat
	People *people.Seated // who sits where; nil where the stunt has no groups

	Warnings []string // plain sentences
	// Advice is what would make texts read that do not surely read; nil = not measured (package advice does).
	Advice []Advised
	// Flashing is the warning that every paper must carry, or "": the crew has accepted, in
	// words, a sequence that flashes dangerously.
	Flashing string
	Figures  Figures

	bill    *stock.Bill // of the cards as they are made
	lacking []int16     // colours of which more sheets would save changes
	tight   []int       // as made.tight
	ways    *makings    // of making them
	rows    *rowSight   // of Scene from Marks[0]; nil = work it out when asked

	doubts *doubts // what may go wrong; nil = work it out when asked
}

// Figures are what the cards come to, spares not counted.
type Figures struct {
	Cards   int // in people's hands
	Changes int // of card, all people and cues together; turning one over is none
	// LeastChanges is Changes, were there sheets for every side of a card that repeats a colour.
	LeastChanges int
	Most         int // cards that one person holds, at most
	Kinds        int // of card to make
	LeastKinds   int // no other way with so few cards and changes has fewer kinds
	// Error is by how much all seats together show other colours than they would with plenty of
	// all, in units of 1/stock.CostUnit; LeastError is less than no plan can have. Both are 0
	// where the stock suffices, and alike where the deal is an exact optimum.
	Error, LeastError int64
}

// Mark is one mark and what it sees.
type Mark struct {
	View   *camera.View
	Sight  *camera.Sight
	Scores []float64 // by cue
}

// None is the colour of a seat that shows no card.
const None = -1

// CuePlan is one cue as planned.
type CuePlan struct {
	Name    string
	At      string
	Colours []int16           // palette index by seat, or None
	Text    *lettering.Layout // nil where the cue has no text
	Field   []int32           // seat index of each of Text.Ink's entries
	Reading legibility.Reading
	Times   Times
	Delay   []time.Duration // by seat: when it moves, after Times.Up; nil = all at once

	Torn bool // a word of Text has a gap so wide that it falls apart
}

// Card is one kind of card: an id ("BLUE", "BLUE/WHITE") and the palette index of its two sides.
type Card struct {
	ID    string
	Sides [2]int16
}

// Hold is what a seat shows: a card of Plan.Cards and its side; Card is −1 where it shows none.
type Hold struct {
	Card int16
	Side int8
}
