package legibility

import "everyseat/mosaic/colour"

// Seat is one seat that may carry the text, as one view sees it. All places are pixels.
type Seat struct {
	Index   int32 // the seat's index in the stands
	Section int32 // sections, rows and places order as in package seating
	Row     int32
	Place   int32
	Cell    [4][2]float64 // the part of the picture the seat answers for: top-left, top-right, bottom-right, bottom-left
	Card    [4][2]float64 // corners of the card in the picture
	Centre  [2]float64    // middle of what is seen of the card
	Seen    float64       // share of the card that is seen, 0…1
	Pixels  float64       // area seen
}

// Field is the seats that may carry the text as one mark sees them, sorted by
// section, row and place, and the size of the picture in pixels.
type Field struct {
	Seats         []Seat
	Width, Height float64
}

// Options is what the reading depends on beside the seats.
type Options struct {
	Ink    colour.RGB
	Ground *colour.RGB // nil: no card, what shows is people's clothes
	Empty  float64     // share of people expected to be missing
	Wrong  float64     // share of cards expected to be wrong
	// Error of hand in metres and radians, one standard deviation, and the card's size in metres.
	HandHeight, HandSideways, HandTilt float64
	CardWidth, CardHeight              float64
	Seed                               uint64
}

// Glyph is one letter of the text and its box in the main picture.
type Glyph struct {
	Rune rune
	Box  [4]float64 // left, top, right, bottom of the ink, pixels of views[0]
}
