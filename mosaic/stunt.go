// Package mosaic turns measured stands and messages into a plan: one colour for
// every seat at every cue, and the cards that do it. Start with Make.
package mosaic

import (
	"slices"
	"time"

	"everyseat/mosaic/artwork"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
	"everyseat/seating/people"
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
	Walks   bool          // the camera walks from its mark over the further ones, in order
	Card    CardSpec
	Colours []Colour
	Cues    []Cue
	Laying  laying.Spec
	Print   Print
	Work    Work
	Day     Day
	People  People

	Tempo float64 // counts a minute; 0 = not said
	// FlashingRisk is the crew's own line that names the risk of flashing and accepts it; "" = not accepted.
	FlashingRisk string
}

// Work is what making the cards costs beside their stock; 0 = not said, see stock.DefaultWork.
type Work struct {
	WageCents  int // an hour of work; 0 where everybody helps for nothing
	TonerCents int // flooding one side of a card with toner
	PaperPack  int // white card to print on: sheets a pack
	PaperCents int // a pack of it
}

// Filled is the work with what was not said taken for granted.
func (w Work) Filled() stock.Work {
	out := stock.DefaultWork()
	out.WageCents = w.WageCents
	out.SheetSeconds = 0 // the words on a card or its label say which seat it is for
	if w.TonerCents > 0 {
		out.TonerCents = w.TonerCents
	}
	if w.PaperPack > 0 && w.PaperCents > 0 {
		out.Paper.Pack, out.Paper.Cents = w.PaperPack, w.PaperCents
	}
	return out
}

// Room is what stands around the stands. Lanes are in Stands, since no seat may enter them.
type Room struct {
	Walls     [][2]seating.Length // corners on the floor, across and away, in order
	Obstacles []camera.Obstacle
	Spots     []Spot // where a camera may stand; none = on the floor before the stands
	Exits     []Exit
}

// Exit is a door on the floor plan by which people leave.
type Exit struct {
	Name         string
	Across, Away seating.Length // of its middle, as of an obstacle
	Width        seating.Length // of the opening
}

// Spot is a rectangle on the floor plan where a camera may stand: a stage, a gallery, the
// third row of the stands across.
type Spot struct {
	Name                   string
	Left, Right, Near, Far seating.Length   // across and away, as of a lane
	Heights                []seating.Length // of the lens above the floor; none = wherever it is asked for
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

// Colour is one card colour.
type Colour struct {
	Name       string
	RGB        colour.RGB
	Sheets     int    // that there are; −1 = not given
	Pack       int    // sheets a pack; 0 = not given
	PriceCents int    // a pack; 0 = not given
	NoMore     bool   // Sheets is all that can be had, though Pack is given
	DarkestInk string // "white" where black print does not show on it; "" and "black" = by contrast
}

// Limited says whether no more than Sheets can be had: nothing says in which packs more is bought, or that there is
// no more.
func (c *Colour) Limited() bool { return c.Sheets >= 0 && (c.NoMore || c.Pack == 0) }

// Limited says whether any colour is.
func (s *Stunt) Limited() bool {
	return slices.ContainsFunc(s.Colours, func(c Colour) bool { return c.Limited() })
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
	// Rows are the rows of those sections that show it; a section that is named here has these alone,
	// the others those without a section. Empty = all.
	Rows []seating.RowRange
	Fit  string // images: "fit", "fill" or "flat"; text: "camera" or "flat"; "" = fit, camera
	At   string // of UP, as the crew writes it: "count 33", "12.5 s", "1:05"; "" = after the cue before

	// How an image is laid.
	Reduce   Reduction  // to the card colours; "" = what looks closer
	Exposure *float64   // stops: 1 = twice the light; nil = as most of the image shows
	Focus    [2]float64 // of a filling image: the point that stays in sight, 0…1 from left and top; {} = the middle

	// How the cards come up and how long they stay; 0 = not said.
	UpWithin   time.Duration // from the call until a person's card is up
	Hold       time.Duration // from the last card up until DOWN
	Transition Transition
	Takes      time.Duration // a wave, or row by row: from the first person's moment to the last's
}

// Reduction is how an image's colours become card colours.
type Reduction = artwork.Reduction

// The reductions: every seat its nearest colour, or the error handed on to the neighbours.
const (
	Flat    = artwork.Flat
	Diffuse = artwork.Diffuse
)

// Transition is how a cue comes up.
type Transition string

// The transitions; "" is AtOnce.
const (
	AtOnce      Transition = "at once"
	LeftToRight Transition = "left to right" // as the camera sees it
	RightToLeft Transition = "right to left"
	BottomToTop Transition = "bottom to top"
	FromMiddle  Transition = "from the middle"
	RowByRow    Transition = "row by row" // from the front of each section
)

// Paint gives one seat or range of seats a colour by hand; Colour "" means no card.
type Paint struct {
	Section string
	Seats   seating.SeatRange
	Colour  string
}

// Print is how the paper is made.
type Print struct {
	Paper    string // "Letter", "A4", …
	PerSheet int    // placards a sheet, where Placards is Labels and there is no Grid
	Placards Placards
	// WholePile: labels are cut as one pile and stacked, instead of sheet by sheet.
	WholePile bool
	ShortEdge bool           // the printer turns a sheet over its short edge, not its long one
	Margin    seating.Length // what the printer leaves white at every edge; 0 = not said
	Tile      bool           // a card larger than the paper is put together of several sheets
	Grid      *LabelGrid     // stick-on labels; nil = plain paper, cut
	Bands     bool           // a wrist band or ticket for every seat
	BandGrid  *LabelGrid     // what bands are printed on; nil = plain paper, cut into strips
}

// Placards is what carries the words for the person on a seat.
type Placards string

// The kinds of placards; "" is Labels.
const (
	Labels       Placards = "labels"  // a label on the back of each card
	OnStock      Placards = "stock"   // black print on the card itself, sheets of one colour
	FullColoured Placards = "printed" // white card, flooded with its colours
)

// LabelGrid is a sheet of stick-on labels: how many, how large, where the first one
// begins, and from one label's edge to the next one's.
type LabelGrid struct {
	Columns, Rows int
	Width, Height seating.Length
	Left, Top     seating.Length
	Across, Down  seating.Length // 0 = Width, Height: they touch
}

// Day is the day by the clock; empty strings are not known yet.
type Day struct {
	Doors, Take string
	From, Until string   // when the crew may come in, and when everybody must be out
	Signs       []string // who must say yes
	Rehearsals  []string
	Keys        []string
}

// People is who comes, group by group. It says who sits where, and never who shows what.
type People struct {
	Groups     []people.Party
	Roster     *people.Roster // of a file; nil = none
	RosterName string         // the file's
	Names      bool           // paper carries the roster's names, not seat codes alone
	HeldBy     string         // who may hold paper with names; "" = not said
	PerMinute  int            // people who pass one door in a minute; 0 = not said
	Wear       Wear
}
