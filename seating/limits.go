package seating

// Limits of what Build accepts. They lie far outside any hall, and keep a slip
// of the pen or a hostile file from asking for more memory than there is.
const (
	MaxSeats    = 250_000 // places, missing ones counted
	MaxSections = 500
	MaxRows     = 500 // in one section
	MaxPeople   = 10_000_000

	maxListed = 4 * MaxSeats // seats named by the ranges of one section
	maxRise   = 3 * Metre
	maxRun    = 10 * Metre
	minRun    = 10 * Centimetre
	maxPitch  = 10 * Metre
	minPitch  = 10 * Centimetre
	maxHeight = 100 * Metre
	maxBoard  = 2 * Metre
	maxReach  = 2000 * Metre // benches, gaps, places, radii
	minRadius = Metre        // of every row's front and back edge
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
	DefaultAisle      = 48 * Inch         // between sections of a survey that gives none: IBC 2021 section 1030.9.1, stepped aisle with seats on both sides
)
