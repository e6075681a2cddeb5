// Package pictures draws a plan: what the film will show, and flat maps. Start
// with Camera and Map.
//
// Pictures are made of whole numbers from the polygons' corners on, so the same
// plan gives the same bytes on every processor.
package pictures

import (
	"fmt"
	"image"
	"io"
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// handSeed fixes how unevenly the cards of a picture are held: the same in every run.
const handSeed = 1

// Camera writes, as PNG, what the camera records at a cue (from 0); −1 is
// everybody resting. It has the size of the first mark's view. Everybody is
// there; cards are held as unevenly as the stunt says, the same in every run.
func Camera(w io.Writer, p *mosaic.Plan, cue int) error {
	img, err := shoot(p, cue)
	if err != nil {
		return err
	}
	return writePaletted(w, img)
}

// shoot draws what the camera records at a cue; −1 is everybody resting.
func shoot(p *mosaic.Plan, cue int) (*image.Paletted, error) {
	v, err := viewOf(p, cue)
	if err != nil {
		return nil, err
	}
	return shootWith(p, cue, v, false), nil
}

// shootWith draws a cue in a view, with everybody in dark clothes or as they come.
func shootWith(p *mosaic.Plan, cue int, v *camera.View, dark bool) *image.Paletted {
	s := studioOf(p, cue, newFilm(v), newPalette(emptyTone(p.Stunt.Outdoors)))
	if dark { // everybody alike
		clothes := s.pal.tint(rgb(mosaic.DarkClothes), 108, 86)
		s.look.shirts, s.look.trousers = []tint{clothes}, []tint{clothes}
	}
	s.dress()
	return s.film.develop(s.pal)
}

// viewOf is what the first mark sees of a cue, if it can be drawn.
func viewOf(p *mosaic.Plan, cue int) (*camera.View, error) {
	if err := checkCue(p, cue); err != nil {
		return nil, err
	}
	v := p.Marks[0].View
	if v.Width < 1 || v.Height < 1 || v.Width > maxSide || v.Height > maxSide {
		return nil, fmt.Errorf("a picture of %d × %d pixels cannot be drawn", v.Width, v.Height)
	}
	return v, nil
}

// checkCue says what is wrong with a cue, or with a plan that nobody films.
func checkCue(p *mosaic.Plan, cue int) error {
	switch {
	case cue < -1 || cue >= len(p.Cues):
		return fmt.Errorf("there is no cue %d; the plan has %d", cue+1, len(p.Cues))
	case len(p.Marks) == 0 || p.Marks[0].View == nil:
		return fmt.Errorf("the plan has no camera")
	}
	return nil
}

// maxSide is the widest or highest picture, in pixels.
const maxSide = 16384

// studio is one picture while its scene is dressed.
type studio struct {
	plan *mosaic.Plan
	cue  int
	film *film
	pal  *palette
	look look
	eye  seating.Point

	ceiling float64 // above the floor, in metres

	who    person
	marks  []uint8           // by seat: with the film marked, the number of its faces
	corner [16]seating.Point // scratch of over
	cut    [12]seating.Point // scratch of ring
}

// studioOf takes a film, which is wound back, and a palette that others may use too.
func studioOf(p *mosaic.Plan, cue int, film *film, pal *palette) *studio {
	s := &studio{plan: p, cue: cue, film: film, pal: pal, eye: film.view.Position}
	s.look = newLook(pal, p)
	s.who.seat = -1
	s.film.expect(s.size())
	return s
}

// finePixels is the least scale, in pixels a metre, at which people get details:
// a head is then 8 pixels wide.
const finePixels = 54

// fine says whether somebody on the seat is large enough in the picture for details.
func (s *studio) fine(seat int32) bool {
	p := &s.plan.Stands.Seats[seat].Position
	d := seating.Point{s.eye[0] - p[0], s.eye[1] - p[1], s.eye[2] - p[2]}
	far := s.film.view.Focal / finePixels
	return dot(d, d) < float64(far*far)
}

// size is about how many faces and corners the picture takes.
func (s *studio) size() (faces, corners int) {
	for i := range s.plan.Stands.Seats {
		if s.fine(int32(i)) {
			faces, corners = faces+34, corners+170
		} else {
			faces, corners = faces+12, corners+62
		}
	}
	return faces + 2000, corners + 8000
}

func emptyTone(outdoors bool) rgb {
	if outdoors {
		return skyHigh
	}
	return wallHigh
}

// dress puts everything before the lens.
func (s *studio) dress() {
	s.crowd()
	s.film.mark = 0
	s.surroundings()
}

// crowd draws the scene: cards up where the cue shows one, on the lap elsewhere.
func (s *studio) crowd() {
	spec := &s.plan.Stunt.Card
	height, sideways := spec.HandHeight.Metres(), spec.HandSideways.Metres()
	up := s.plan.Scene.Shaken(handSeed, height, sideways, spec.HandTilt*math.Pi/180)
	rest := *s.plan.Scene
	rest.Resting = true
	if s.cue < 0 {
		rest.EachFrom(&s.eye, s.polygon)
		return
	}
	resting := make([]bool, len(s.plan.Stands.Seats)) // who shows no card
	for i, k := range s.plan.Cues[s.cue].Colours {
		resting[i] = k == mosaic.None && s.plan.Stands.Seats[i].Use == seating.UseCard
	}
	up.EachFrom(&s.eye, func(g *camera.Polygon) {
		if g.Owner < 0 || !resting[g.Owner] {
			s.polygon(g)
		}
	})
	if !slices.Contains(resting, true) {
		return
	}
	rest.EachFrom(&s.eye, func(g *camera.Polygon) {
		if g.Owner >= 0 && resting[g.Owner] {
			s.polygon(g)
		}
	})
}

// polygon dresses one polygon of the scene, lit from above and before.
func (s *studio) polygon(g *camera.Polygon) {
	if g.Owner < 0 {
		s.film.mark = 0
	} else if s.who.seat != g.Owner {
		if s.marks != nil {
			s.film.mark = s.marks[g.Owner]
		}
		s.meet(g.Owner)
	}
	switch g.Part {
	case camera.PartCard:
		s.card(g)
	case camera.PartHead:
		s.head(g.Points)
	case camera.PartHair:
		s.hair(g.Points)
	case camera.PartBody:
		if len(g.Points) == 6 {
			s.torso(g.Points)
		} else {
			s.sleeve(g.Points)
		}
	case camera.PartLegs:
		s.legs(g.Points)
	case camera.PartHand:
		s.film.add(g.Points, s.who.skin.dim)
	case camera.PartFloor: // drawn with the surroundings, in strips of light
	case camera.PartStep:
		s.step(g.Points)
	case camera.PartBench:
		s.lit(g.Points, s.look.bench)
	case camera.PartRail:
		s.lit(g.Points, s.look.rail)
	default:
		s.lit(g.Points, s.look.box)
	}
}

// meet is the next person before the lens, and the shadow that is seen first.
func (s *studio) meet(seat int32) {
	s.who = s.look.person(seat)
	s.who.fine = s.fine(seat)
	at := &s.plan.Stands.Seats[seat]
	_, ahead := axes(at)
	s.who.behind = float64((s.eye[0]-at.Position[0])*ahead.x)+float64((s.eye[1]-at.Position[1])*ahead.y) < 0
	s.who.kneels = s.plan.Stands.Sections[at.Section].Spec.Posture == seating.Kneeling
	s.pool(seat)
}

// card is the seat's card, a shade lighter when it leans back to the light and darker when forward. At rest it shows
// the colour of the next cue that the seat has a card for.
func (s *studio) card(g *camera.Polygon) {
	k := int16(mosaic.None)
	for i := 0; i < len(s.plan.Cues) && k == mosaic.None; i++ {
		k = s.plan.Cues[(max(s.cue, 0)+i)%len(s.plan.Cues)].Colours[g.Owner]
	}
	if k == mosaic.None {
		return
	}
	t := s.look.cards[k]
	n := newell(g.Points)
	lean := -n[2] / math.Max(1e-9, math.Sqrt(dot(n, n)))
	tone := t.plain
	switch {
	case math.Abs(lean) > 0.7: // on a lap
	case lean > 0.1:
		tone = t.light
	case lean < -0.1:
		tone = t.dim
	}
	s.film.add(g.Points, tone)
	if s.cue >= 0 && s.plan.LabelSeen(s.cue, g.Owner) > 0 {
		s.label(g.Points)
	}
}

// label is the white label low down on a card with corners top left, top right, bottom right and bottom left.
func (s *studio) label(card []seating.Point) {
	width, height := s.plan.LabelSize()
	size := s.plan.Scene.Card
	across, up := float64(width.Metres()/size.Width.Metres()/2), height.Metres()/size.Height.Metres()
	at := func(x, y float64) seating.Point { return way(way(card[3], card[2], x), way(card[0], card[1], x), y) }
	s.over(s.look.paper, lift1, at(0.5-across, up), at(0.5+across, up), at(0.5+across, 0), at(0.5-across, 0))
}
