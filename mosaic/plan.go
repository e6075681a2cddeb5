package mosaic

import (
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
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
	Hands  [][]Hold // [cue][seat]
	Order  []int32  // seats in laying order
	Blocks []string // by seat

	Warnings []string // plain sentences

	rows *rowSight // of Scene from Marks[0]; nil = work it out when asked
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
