package seating

// Spec is the stands as somebody measured them; Build turns it into seats.
type Spec struct {
	Sections []SectionSpec
	Lanes    []Lane
	Posted   int     // posted occupant load in people; 0 = not given
	People   int     // people invited; 0 = not given
	Expected float64 // share of the invited who come, 0…1
	Origin   string  // section whose front row's middle is the origin; "" = middle of the side-by-side sections
}

// Kind is what people sit on.
type Kind uint8

// The kinds of seating.
const (
	Bench Kind = iota
	Chairs
	Floor
)

// Posture is how people in a section are.
type Posture uint8

// The postures.
const (
	Sitting Posture = iota
	Kneeling
	Standing
)

// Side is left or right, always as the camera sees the stands.
type Side uint8

// The sides.
const (
	Left Side = iota
	Right
)

// Align is where a row that is shorter than the longest one lies.
type Align uint8

// The alignments.
const (
	AlignCentre Align = iota
	AlignLeft
	AlignRight
)

// SectionSpec is one section as measured. Rows run from the front (0) to the back.
// Pitch, Rise, Run and SeatBoard are filled in by kind where they are 0 (the Default
// constants); a floor block has no rise, and by default no seat board: people sit on the floor.
type SectionSpec struct {
	Name    string
	Kind    Kind
	Posture Posture
	Rows    int      // 0 = as many as the lists are long
	Seats   []int    // places in each row, counted with missing ones; one number serves all rows
	Bench   []Length // or the bench's length in each row; one serves all. Without Seats, these are whole pitches
	Pitch   Length
	Align   Align

	Rise      Length // one row's step up
	Run       Length // one row's depth
	FirstRow  Length // height of the first row's footboard above the floor
	SeatBoard Length // height of the seat board above the footboard

	Aisle  Length // gap to the next side-by-side section on the right
	Place  *Place // nil = side by side with its neighbours; a floor block: centred before the stands
	Radius Length // of the front row's front edge; 0 = straight, positive = centre on the camera's side

	RowNames    RowNaming
	SeatNumbers SeatNumbering
	CrossAisles []CrossAisle
	Missing     []SeatRange
	MissingRows []RowRange // all seats of these rows; their Section is not looked at
	Reserved    []Reserved
	NoCards     bool // people here hold nothing and hide what is behind them
}

// Place puts the middle of a section's front row's front edge on the floor plan.
type Place struct {
	Across Length  // to the camera's right
	Away   Length  // away from the camera; negative on the floor in front
	Facing float64 // degrees; 0 looks toward the camera's side (−y), positive counter-clockwise from above
}

// RowNaming says what the rows are called, from the front to the back unless FromBack.
type RowNaming struct {
	Letters    bool     // A, B, C … instead of 1, 2, 3 …
	AllLetters bool     // with letters: keep I and O, which are usually left out
	Start      int      // first number, or first letter's place in the alphabet from 1; 0 = 1
	Step       int      // 0 = 1
	FromBack   bool     // the first name belongs to the back row
	Names      []string // or one name a row, front to back
}

// SeatNumbering says what the seats of a row are called.
type SeatNumbering struct {
	From  Side
	Start int // 0 = 1
	Step  int // 0 = 1; 2 gives odd or even houses
}

// CrossAisle is a level walkway behind a row.
type CrossAisle struct {
	After string // row name
	Depth Length
}

// SeatRange is seats From…To (numbers as marked, in either order) of one row.
type SeatRange struct {
	Row      string
	From, To int // To 0 = From alone
}

// RowRange is neighbouring rows From…To, the one nearer to the front first. An end that is "" is
// the section's own: its front row, its back row.
type RowRange struct {
	Section  string // "" = every section that it is asked of
	From, To string // row names
}

// Reserved keeps seats for a use: "wheelchair" and "companion" people hold a
// card like everybody; "platform", "rail" and "nobody" hold none.
type Reserved struct {
	Seats []SeatRange
	Rows  []RowRange // all seats of these rows too; their Section is not looked at
	For   string
}

// Lane is a way on the floor that is kept free: a rectangle in world axes.
type Lane struct {
	Name                   string
	Left, Right, Near, Far Length // x from Left to Right, y from Near to Far
}

// Limits of what Build accepts. They lie far outside any hall, and keep a slip
// of the pen or a hostile file from asking for more memory than there is.
const (
	MaxSeats    = 250_000 // places, missing ones counted
	MaxSections = 500
	MaxRows     = 500 // in one section
	MaxPeople   = 10_000_000
	MaxReach    = 2000 * Metre // benches, gaps, places, radii

	maxListed = 4 * MaxSeats // seats named by the ranges of one section
	maxRise   = 3 * Metre
	maxRun    = 10 * Metre
	minRun    = 10 * Centimetre
	maxPitch  = 10 * Metre
	minPitch  = 10 * Centimetre
	maxHeight = 100 * Metre
	maxBoard  = 2 * Metre
	minRadius = Metre // of every row's front and back edge
)

// Defaults for what a survey leaves out.
const (
	DefaultPitch      = 20 * Inch         // planning pitch: common practice, no source
	DefaultFloorPitch = 24 * Inch         // people who sit on the floor: common practice, no source
	DefaultRise       = 9*Inch + Inch*5/8 // of telescopic seating, typical: trade pages
	DefaultRun        = 24 * Inch         // of telescopic seating, typical: trade pages
	DefaultChairRun   = 33 * Inch         // common practice, no source
	DefaultFloorRun   = 36 * Inch         // common practice, no source
	DefaultSeatBoard  = 17 * Inch         // common practice, no source
	DefaultExpected   = 0.88              // share of the invited who come: common practice, no source
	FloorWay          = 4 * Foot          // kept free between a floor block and the stands: common practice, no source
	BenchWidth        = 18 * Inch         // a person on a bench without arms: IBC 2021 section 1004.6
	DefaultAisle      = 48 * Inch         // stepped, with seats on both sides: IBC 2021 section 1030.9.1
)

// Measure is one length of a section: its key in the stunt file, where it is kept, and between what it lies.
type Measure struct {
	Key       string
	Length    *Length
	Low, High Length
}

// Holds says whether the measure can be so long.
func (m *Measure) Holds(l Length) bool { return m.Low <= l && l <= m.High }

// Measures lists the lengths that a section has one of.
func (s *SectionSpec) Measures() []Measure {
	return []Measure{
		{"rise", &s.Rise, 0, maxRise}, {"run", &s.Run, minRun, maxRun}, {"pitch", &s.Pitch, minPitch, maxPitch},
		{"first_row", &s.FirstRow, 0, maxHeight}, {"seat_board", &s.SeatBoard, 0, maxBoard},
		{"aisle", &s.Aisle, 0, MaxReach}, {"radius", &s.Radius, -MaxReach, MaxReach},
	}
}
