package camera

import (
	"math"

	"everyseat/seating"
)

// Held is how a card is held; people are told in body words.
type Held uint8

// The ways to hold a card, from low to high. Eyes is the default: the top edge at
// the eyes, the card before chin and nose.
const (
	Lap      Held = iota // flat on the lap: resting
	Chest                // its middle before the chest
	Chin                 // its top edge under the chin
	Eyes                 // its top edge at the eyes
	Overhead             // its bottom edge over the top of the head
)

// String is the word that files use.
func (h Held) String() string { return [...]string{"lap", "chest", "chin", "eyes", "overhead"}[h] }

// Words is what people are told.
func (h Held) Words() string {
	return [...]string{
		"flat on the lap",
		"with its middle before the chest",
		"with its top edge under the chin",
		"with its top edge at the eyes",
		"with its bottom edge over the top of the head",
	}[h]
}

// Card is what everybody holds, as it is held: Width × Height upright.
type Card struct {
	Width, Height seating.Length
	Held          Held
	ToMark        bool    // turned to the mark instead of the section's way
	Tilt          float64 // radians, positive when the top leans back
}

// Part is what a polygon of the scene shows.
type Part uint8

// The parts.
const (
	PartCard Part = iota
	PartHead
	PartHair
	PartBody
	PartLegs
	PartHand
	PartBench
	PartStep // footboards and risers
	PartFloor
	PartRail
	PartBox // obstacles
)

// Polygon is convex and flat; Owner is the seat's index, or −1 for what belongs to nobody.
type Polygon struct {
	Owner  int32
	Part   Part
	Points []seating.Point // at least 3, at most 12; valid until the callback returns
}

// Obstacle is something else that stands about, and hides.
type Obstacle struct {
	Name                                       string
	Kind                                       string         // "box", "post" or "hoop"
	Across, Away, Width, Depth, Height, Bottom seating.Length // Across, Away: its middle on the floor
}

// Scene is the stands with everybody in them, as convex polygons. Polygons are
// made when they are asked for; nothing is kept. Reading is safe from several
// goroutines at once.
type Scene struct {
	Stands    *seating.Stands
	Card      Card
	Obstacles []Obstacle
	Mark      *seating.Point // what cards turn to, with Card.ToMark; heads and bodies are drawn as seen from there
	Resting   bool           // all cards on the laps
	Absent    []bool         // by seat: nobody came; nil = everybody did

	hands shake
}

// occupied says whether a person is on the seat, with or without a card.
func (s *Scene) occupied(seat int) bool {
	if s.Absent != nil && s.Absent[seat] {
		return false
	}
	use := s.Stands.Seats[seat].Use
	return use == seating.UseCard || use == seating.UsePerson
}

func (s *Scene) holds(seat int) bool {
	return s.Stands.Seats[seat].Use == seating.UseCard && s.occupied(seat)
}

// plane is a card's middle and its own axes, for somebody who faces its front.
type plane struct {
	middle    seating.Point
	right, up [3]float64
}

// at is the point of the plane that lies across and up from its middle.
func (p *plane) at(across, up float64) seating.Point { return sum(p.middle, across, p.right, up, p.up) }

// CardQuad is the seat's card: top-left, top-right, bottom-right, bottom-left for
// somebody who faces its front. ok is false for seats without a card.
func (s *Scene) CardQuad(seat int) (quad [4]seating.Point, ok bool) {
	if !s.holds(seat) {
		return quad, false
	}
	g := s.figureAt(seat)
	return s.quadOf(s.cardPlane(seat, &g)), true
}

func (s *Scene) quadOf(p plane) [4]seating.Point {
	w, h := s.Card.Width.Metres()/2, s.Card.Height.Metres()/2
	return [4]seating.Point{p.at(-w, h), p.at(w, h), p.at(w, -h), p.at(-w, -h)}
}

// cardPlane is where and how the person holds the card.
func (s *Scene) cardPlane(seat int, g *figure) plane {
	if s.Resting || s.Card.Held == Lap {
		return lapPlane(g)
	}
	f := g.frame
	reach := cardReach
	if s.Card.Held == Overhead {
		reach = overheadReach
	}
	middle := f.at(0, reach, s.heldAt(g))
	lean := s.Card.Tilt
	roll := 0.0
	if h := &s.hands; h.height != 0 || h.sideways != 0 || h.tilt != 0 {
		middle = f.at(float64(h.sideways*h.normal(seat, 0)), reach, s.heldAt(g)+float64(h.height*h.normal(seat, 1)))
		lean += float64(h.tilt * h.normal(seat, 2))
		roll = float64(h.tilt * h.normal(seat, 3))
	}
	f.origin = middle
	sinLean, cosLean := sincos(lean)
	if s.Card.ToMark && s.Mark != nil {
		f, sinLean, cosLean = toward(f, *s.Mark, sinLean, cosLean)
	}
	p := plane{
		middle: middle,
		right:  [3]float64{f.right[0], f.right[1], 0},
		up:     [3]float64{-float64(f.forward[0] * sinLean), -float64(f.forward[1] * sinLean), cosLean},
	}
	if roll != 0 {
		p.roll(roll)
	}
	return p
}

// toward turns a card's frame to the mark and adds the lean at which its front looks up to the mark.
func toward(f frame, mark seating.Point, sinLean, cosLean float64) (frame, float64, float64) {
	turned, _ := f.turnedTo(mark)
	_, far, up := turned.local(mark)
	long := math.Sqrt(float64(far*far) + float64(up*up))
	if long < 1e-6 {
		return f, sinLean, cosLean
	}
	s, c := up/long, far/long
	return turned, float64(sinLean*c) + float64(cosLean*s), float64(cosLean*c) - float64(sinLean*s)
}

// roll turns the plane about its own normal, counter-clockwise for somebody who faces it.
func (p *plane) roll(angle float64) {
	s, c := sincos(angle)
	right, up := p.right, p.up
	for i := range right {
		p.right[i] = float64(c*right[i]) + float64(s*up[i])
		p.up[i] = float64(c*up[i]) - float64(s*right[i])
	}
}

// lapPlane lies flat, its top edge toward the body.
func lapPlane(g *figure) plane {
	return plane{
		middle: g.at(0, lapReach, g.lap()+0.01),
		right:  [3]float64{g.right[0], g.right[1], 0},
		up:     [3]float64{-g.forward[0], -g.forward[1], 0},
	}
}

// heldAt is the card's middle above the footboard.
func (s *Scene) heldAt(g *figure) float64 {
	half := float64(s.Card.Height.Metres() / 2)
	switch s.Card.Held {
	case Chest:
		return g.shoulder() - chestBelow
	case Chin:
		return g.chin() - half
	case Overhead:
		return g.crown + 0.02 + half
	default:
		return g.eyes() - half
	}
}

// shake is how unevenly hands hold: one standard deviation each, in metres and
// radians, and the seed of the hash that gives every seat its own error.
type shake struct {
	seed                   uint64
	height, sideways, tilt float64
}

// Shaken is the scene with every card a little off: height and sideways in metres,
// tilt in radians, each one standard deviation of a normal error. Tilt works twice,
// as lean (the top back or forward) and as roll (in the card's own plane). The
// same seed gives the same errors; cards on laps lie still.
func (s *Scene) Shaken(seed uint64, height, sideways, tilt float64) *Scene {
	shaken := *s
	shaken.hands = shake{seed: seed, height: height, sideways: sideways, tilt: tilt}
	return &shaken
}

// normal is a normal number with deviation 1 for the seat and the axis: the sum of
// twelve even ones, so it is whole-number arithmetic and never beyond 6.
func (h *shake) normal(seat, axis int) float64 {
	state := h.seed ^ uint64(seat)*0x9e3779b97f4a7c15 ^ uint64(axis)*0xd1b54a32d192ed03
	total := int64(0)
	for range 3 {
		state += 0x9e3779b97f4a7c15
		for bits := mix(state); bits != 0; bits >>= 16 {
			total += int64(bits & 0xffff)
		}
	}
	return float64(2*total-12*0xffff) / (2 * 65536)
}

// mix is the finaliser of the SplitMix64 generator (Steele, Lea, Flood 2014; from memory).
func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
