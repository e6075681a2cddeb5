package camera

import (
	"math"

	"everyseat/seating"
)

// Body sizes in metres: the mean of the male and the female median of the ANSUR
// II survey (US Army adults, measured 2010–2012; Gordon et al., NATICK/TR-15/007),
// as testdata/anthropometry_ansur2.csv of this repository has them. Crowds with
// children are smaller; survey people sit upright, which crowds do for a picture.
const (
	sittingHeight   = 0.8875 // seat to crown
	eyeBelowCrown   = 0.1115
	shoulderBelow   = 0.3    // acromion below the crown, sitting
	stature         = 1.6905 // standing, floor to crown
	lowerLeg        = 0.4085 // popliteal height
	shoulderBreadth = 0.4795 // bideltoid
	hipBreadth      = 0.3875 // sitting
	headBreadth     = 0.1505
	buttockKnee     = 0.603
)

// Sizes that the survey's table does not hold.
const (
	chinBelowEye  = eyeBelowCrown // eyes half-way between crown and chin: the rule of drawing, from memory
	chestBelow    = 0.15          // middle of the chest below the shoulder; from memory
	headLength    = 0.19          // brow to back of the head; from memory
	chestDepth    = 0.25          // from memory
	thighHeight   = 0.15          // top of the thigh above the seat; from memory
	benchDepth    = 0.25          // a bleacher's seat board; common practice, no source
	cardReach     = 0.30          // card before the axis of the body, arms half bent; our assumption
	overheadReach = 0.10          // the same with the arms up
	lapReach      = 0.25          // middle of a card that lies on the lap
)

// figure is one person's measures where they sit, kneel or stand: a frame under
// the axis of the body on the footboard, and heights above it.
type figure struct {
	frame
	crown, hip  float64 // hip is the seat's surface, or where it would be
	breadth     float64 // shoulders, not wider than the place
	posture     seating.Posture
	crossLegged bool
}

func (g *figure) eyes() float64     { return g.crown - eyeBelowCrown }
func (g *figure) chin() float64     { return g.crown - eyeBelowCrown - chinBelowEye }
func (g *figure) shoulder() float64 { return g.crown - shoulderBelow }
func (g *figure) lap() float64      { return g.hip + thighHeight }

// crownOf is the top of the head above the footboard.
func crownOf(spec *seating.SectionSpec) float64 {
	switch spec.Posture {
	case seating.Kneeling:
		return stature - lowerLeg
	case seating.Standing:
		return stature
	default:
		return seatHeight(spec) + sittingHeight
	}
}

// EyeHeight is how high the eyes of a section's people are above the footboard, in metres.
func EyeHeight(spec *seating.SectionSpec) float64 { return crownOf(spec) - eyeBelowCrown }

// seatHeight is the seat board above the footboard; people on the floor sit on it.
func seatHeight(spec *seating.SectionSpec) float64 {
	if spec.Kind == seating.Floor {
		return 0
	}
	return spec.SeatBoard.Metres()
}

// ahead is how far before the middle of the run the body's axis is.
func ahead(spec *seating.SectionSpec) float64 {
	switch {
	case spec.Posture == seating.Kneeling:
		return 0
	case spec.Posture == seating.Standing:
		if spec.Kind == seating.Bench && spec.SeatBoard > 0 {
			return benchDepth / 2
		}
		return 0
	case spec.Kind == seating.Bench:
		return -math.Max(0, spec.Run.Metres()/2-benchDepth/2)
	default:
		return -chestDepth / 2
	}
}

// figureAt measures the person on a seat.
func (s *Scene) figureAt(seat int) figure {
	at := &s.Stands.Seats[seat]
	spec := &s.Stands.Sections[at.Section].Spec
	f := frameOf(at.Position, at.Facing)
	f.origin = f.at(0, ahead(spec), 0)
	crown := crownOf(spec)
	breadth := shoulderBreadth
	if pitch := spec.Pitch.Metres(); pitch > 0 {
		breadth = math.Min(breadth, pitch)
	}
	return figure{
		frame:       f,
		crown:       crown,
		hip:         crown - sittingHeight,
		breadth:     breadth,
		posture:     spec.Posture,
		crossLegged: seatHeight(spec) < 0.2,
	}
}
