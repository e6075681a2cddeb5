package camera

import (
	"math"

	"everyseat/seating"
)

// maxPoints is what Polygon promises.
const maxPoints = 12

// brush hands out polygons one at a time, in one buffer.
type brush struct {
	polygon Polygon
	points  [maxPoints]seating.Point
	fn      func(*Polygon)
}

// draw hands one polygon to the callback.
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
	switch {
	case g.posture == seating.Standing || g.posture == seating.Kneeling:
		b.draw(seat, PartLegs, g.at(-hips, 0.02, g.hip+0.05), g.at(hips, 0.02, g.hip+0.05), g.at(feet, 0.02, 0), g.at(-feet, 0.02, 0))
	case g.crossLegged:
		const knees, far = 0.30, 0.35
		b.draw(seat, PartLegs, g.at(-hips, 0.02, g.lap()), g.at(hips, 0.02, g.lap()), g.at(knees, far, g.lap()), g.at(-knees, far, g.lap()))
		b.draw(seat, PartLegs, g.at(-knees, far, g.lap()), g.at(knees, far, g.lap()), g.at(knees, far, 0), g.at(-knees, far, 0))
	default:
		const far = buttockKnee - chestDepth/2
		b.draw(seat, PartLegs, g.at(-hips, 0.02, g.lap()), g.at(hips, 0.02, g.lap()), g.at(hips, far, g.lap()), g.at(-hips, far, g.lap()))
		b.draw(seat, PartLegs, g.at(-hips, far, g.lap()), g.at(hips, far, g.lap()), g.at(feet, far-0.05, 0), g.at(-feet, far-0.05, 0))
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
		from := g.at(float64(side*(g.breadth/2-0.06)), 0.06, g.shoulder()-0.05)
		across := [3]float64{g.right[0], g.right[1], 0}
		b.draw(seat, PartBody,
			sum(from, -thick, across, 0, across), sum(from, thick, across, 0, across),
			sum(hand, wrist, across, -behind, normal), sum(hand, -wrist, across, -behind, normal))
		in, out := edge-float64(side*inside), edge+float64(side*outside)
		b.draw(seat, PartHand, back.at(in, tall-low), back.at(out, tall-low), back.at(out, -tall-low), back.at(in, -tall-low))
	}
}
