package camera

import (
	"math"

	"everyseat/seating"
)

// Body sizes in metres: the mean of the male and the female median of the ANSUR
// II survey (US Army adults, measured 2010–2012; Gordon et al., NATICK/TR-15/007),
// as testdata/reference/anthropometry_ansur2.csv of this repository has them. Crowds with
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
		return -math.Max(0, spec.Run.Metres()-benchDepth) / 2
	default:
		return -chestDepth / 2
	}
}

func (s *Scene) figureAt(seat int) figure {
	at := &s.Stands.Seats[seat]
	spec := &s.Stands.Sections[at.Section].Spec
	g := figure{
		frame: frameOf(at.Position, at.Facing), crown: crownOf(spec), breadth: shoulderBreadth,
		posture: spec.Posture, crossLegged: seatHeight(spec) < 0.2,
	}
	g.origin = g.at(0, ahead(spec), 0)
	g.hip = g.crown - sittingHeight
	if pitch := spec.Pitch.Metres(); pitch > 0 {
		g.breadth = math.Min(g.breadth, pitch)
	}
	return g
}

// maxPoints is what Polygon promises.
const maxPoints = 12

// brush hands out polygons one at a time, in one buffer.
type brush struct {
	polygon Polygon
	points  [maxPoints]seating.Point
	fn      func(*Polygon)
}

func (b *brush) draw(owner int, part Part, points ...seating.Point) {
	n := copy(b.points[:], points)
	b.polygon = Polygon{Owner: int32(owner), Part: part, Points: b.points[:n]}
	b.fn(&b.polygon)
}

// person draws whoever is on the seat: legs, body, head, hair, arms, hands and card.
// A body is a flat piece turned to the eye, as wide as an oval body looks from
// there; without an eye it is turned the seat's way.
func (b *brush) person(s *Scene, seat int, eye *seating.Point) {
	g := s.figureAt(seat)
	seen, cosine := g.frame, 1.0
	if eye != nil {
		seen, cosine = g.frame.turnedTo(*eye)
	}
	b.legs(seat, &g)
	b.torso(seat, &g, &seen, cosine)
	b.head(seat, &g, &seen, cosine)
	holds := s.holds(seat)
	hold := lapPlane(&g)
	width := g.breadth * 0.7
	if holds {
		hold = s.cardPlane(seat, &g)
		width = s.Card.Width.Metres()
	}
	b.arms(seat, &g, &hold, width)
	if holds {
		quad := s.quadOf(hold)
		b.draw(seat, PartCard, quad[:]...)
	}
}

// oval is the breadth of an oval, broad × deep, seen from the angle with that cosine.
func oval(broad, deep, cosine float64) float64 {
	c := float64(cosine * cosine)
	return math.Sqrt(float64(float64(broad*broad)*c) + float64(float64(deep*deep)*(1-c)))
}

func (b *brush) legs(seat int, g *figure) {
	const hips, feet = hipBreadth / 2, 0.15
	// A leg is as broad as half to either side, from one place ahead and up to the other.
	leg := func(half, ahead, up, half2, ahead2, up2 float64) {
		b.draw(seat, PartLegs,
			g.at(-half, ahead, up), g.at(half, ahead, up), g.at(half2, ahead2, up2), g.at(-half2, ahead2, up2))
	}
	switch {
	case g.posture == seating.Standing || g.posture == seating.Kneeling:
		leg(hips, 0.02, g.hip+0.05, feet, 0.02, 0)
	case g.crossLegged:
		const knees, far = 0.30, 0.35
		leg(hips, 0.02, g.lap(), knees, far, g.lap())
		leg(knees, far, g.lap(), knees, far, 0)
	default:
		const far = buttockKnee - chestDepth/2
		leg(hips, 0.02, g.lap(), hips, far, g.lap())
		leg(hips, far, g.lap(), feet, far-0.05, 0)
	}
}

// torso runs from the seat to the neck.
func (b *brush) torso(seat int, g *figure, seen *frame, cosine float64) {
	hips := oval(hipBreadth, chestDepth, cosine) / 2
	shoulders := oval(g.breadth, chestDepth, cosine) / 2
	const neck = 0.06
	high, top := g.shoulder()-0.07, g.chin()+0.01
	b.draw(seat, PartBody,
		seen.at(-neck, 0, top), seen.at(neck, 0, top),
		seen.at(shoulders, 0, high), seen.at(hips, 0, g.hip),
		seen.at(-hips, 0, g.hip), seen.at(-shoulders, 0, high))
}

// head is an octagon as broad and high as a head, and the hair a piece of it from
// the brow up; from behind all of it is hair.
func (b *brush) head(seat int, g *figure, seen *frame, cosine float64) {
	const corner = 0.41421356237309503 // tan 22.5°
	wide, high, middle := oval(headBreadth, headLength, cosine)/2, (eyeBelowCrown+chinBelowEye)/2, g.eyes()
	w, h := float64(wide*corner), high*corner
	octagon := func(ahead float64, part Part) {
		b.draw(seat, part,
			seen.at(-w, ahead, middle+high), seen.at(w, ahead, middle+high),
			seen.at(wide, ahead, middle+h), seen.at(wide, ahead, middle-h),
			seen.at(w, ahead, middle-high), seen.at(-w, ahead, middle-high),
			seen.at(-wide, ahead, middle-h), seen.at(-wide, ahead, middle+h))
	}
	octagon(0.005, PartHead)
	const before = 0.012
	if cosine < 0 {
		octagon(before, PartHair)
		return
	}
	const brow = 0.35 * eyeBelowCrown
	b.draw(seat, PartHair,
		seen.at(-w, before, middle+high), seen.at(w, before, middle+high),
		seen.at(wide, before, middle+h), seen.at(wide, before, middle+brow),
		seen.at(-wide, before, middle+brow), seen.at(-wide, before, middle+h))
}

// arms are sleeves from the shoulders to the hands; the hands hold the card's sides
// from behind, so that they hide nothing of it.
func (b *brush) arms(seat int, g *figure, hold *plane, width float64) {
	const thick, wrist, inside, outside, tall, low, behind = 0.05, 0.035, 0.03, 0.04, 0.045, 0.02, 0.006
	normal := cross(hold.right, hold.up)
	back := *hold
	back.middle = sum(hold.middle, -behind, normal, 0, normal)
	for _, side := range [2]float64{-1, 1} {
		edge := float64(side * width / 2)
		hand := back.at(edge, -low)
		from := g.at(float64(side*(float64(g.breadth/2)-0.06)), 0.06, g.shoulder()-0.05)
		across := [3]float64{g.right[0], g.right[1], 0}
		b.draw(seat, PartBody,
			sum(from, -thick, across, 0, across), sum(from, thick, across, 0, across),
			sum(hand, wrist, across, -behind, normal), sum(hand, -wrist, across, -behind, normal))
		in, out := edge-float64(side*inside), edge+float64(side*outside)
		b.draw(seat, PartHand,
			back.at(in, tall-low), back.at(out, tall-low), back.at(out, -tall-low), back.at(in, -tall-low))
	}
}
