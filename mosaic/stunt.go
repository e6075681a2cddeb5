// Package mosaic turns measured stands and messages into a plan: one colour for
// every seat at every cue, and the cards that do it. Start with Make.
package mosaic

import (
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
)

// Stunt is everything the crew decided or measured. Package stuntfile reads one.
type Stunt struct {
	Title    string
	Date     string
	Outdoors bool
	Contact  string

	Stands  seating.Spec
	Room    Room
	Camera  camera.Mark
	Marks   []camera.Mark // further marks; the worst one counts
	Card    CardSpec
	Colours []Colour
	Cues    []Cue
	Laying  laying.Spec
	Print   Print
	Day     Day
}

// Room is what stands around the stands. Lanes are in Stands, since no seat may enter them.
type Room struct {
	Walls     [][2]seating.Length // corners on the floor, across and away, in order
	Obstacles []camera.Obstacle
}

// CardKind is how a card is made.
type CardKind string

// The kinds: a sheet of coloured stock (one colour, both sides), two sheets back to back, or printed.
const (
	Sheet   CardKind = "sheet"
	Bonded  CardKind = "bonded"
	Printed CardKind = "printed"
)

// CardSpec is what everybody holds and how.
type CardSpec struct {
	Width, Height seating.Length // the sheet; Orientation decides which way round it is held
	Orientation   string         // "landscape", "portrait" or "auto"
	Held          camera.Held
	ToMark        bool
	Kind          CardKind
	// Error of hand, one standard deviation; HandTilt in degrees.
	HandHeight, HandSideways seating.Length
	HandTilt                 float64
}

// Colour is one card colour. Sheets is −1 where the stock is not limited.
type Colour struct {
	Name       string
	RGB        colour.RGB
	Sheets     int
	Pack       int    // sheets a pack; 0 = not given
	PriceCents int    // a pack; 0 = not given
	DarkestInk string // name of the darkest printing ink that shows on it; "" = black
}

// Shirts as a cue's ground means that ground seats show no card.
const Shirts = "shirts"

// Cue is one message. Exactly one of Text, Image and Painted (alone) is the content; painted
// seats may also override text or image.
type Cue struct {
	Name      string
	Text      string // lines parted by "\n"
	Image     []byte // the file as it is
	ImageName string
	Painted   []Paint
	Ink       string   // colour name
	Ground    string   // colour name, or Shirts
	On        []string // sections; empty = all that are seen well enough
	Fit       string   // images: "fit", "fill" or "flat"; text: "camera" or "flat"; "" = fit, camera
	At        string   // count or second, as the crew writes it
}

// Paint gives one seat or range of seats a colour by hand; Colour "" means no card.
type Paint struct {
	Section string
	Seats   seating.SeatRange
	Colour  string
}

// Print is how the paper is made.
type Print struct {
	Paper    string // "Letter", "A4", …
	PerSheet int    // placards a sheet
}

// Day is the day by the clock; empty strings are not known yet.
type Day struct {
	Doors, Take string
	Signs       []string // who must say yes
	Rehearsals  []string
	Keys        []string
}
