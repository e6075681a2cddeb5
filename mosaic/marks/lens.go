package marks

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// roomy is how much of the frame the cards may fill, so that nothing touches its edge.
const roomy = 0.95

// FocalLengths are lenses that people own, in millimetres on full frame; common practice, no source.
var FocalLengths = []float64{24, 28, 35, 50, 70, 85, 135, 200}

// Lens is which lens suits the mark, and which mark suits the lens.
type Lens struct {
	Now     float64 // millimetres on full frame
	Fill    float64 // how much of the frame, one way or the other, the cards fill from the mark; over 1 does not fit
	Longest float64 // millimetres on full frame: the longest lens that takes in all cards from the mark; 0 = none does
	// From is how far back, straight before the middle of the stands and at the camera's height, this lens takes
	// in all cards; 0 = not within 200 m. To is the farthest place of the map from which the text
	// reads when planned anew; 0 = from none.
	From, To seating.Length
	Others   []Fits
}

// Fits is from how far back a lens takes in all cards, before the middle of the stands.
type Fits struct {
	Focal float64 // millimetres on full frame
	From  seating.Length
}

func (s *search) lens(m *Map) Lens {
	v := s.plan.Marks[0].View
	l := Lens{Now: v.FocalOn(camera.FullFrame), From: s.whereFits()}
	if l.Fill = s.filled(v); l.Fill > 0 {
		l.Longest = l.Now * roomy / l.Fill
	}
	for _, f := range FocalLengths {
		lens := camera.Lens{SensorWidth: camera.FullFrame, Focal: f}
		if from := s.fitsFrom(lens, s.room.extent.middle(), s.plan.Stunt.Camera.Height); from > 0 {
			l.Others = append(l.Others, Fits{f, from})
		}
	}
	for i := range m.Patches {
		p := &m.Patches[i]
		for k, score := range p.Anew {
			if score != Unknown && legibility.VerdictOf(score) == legibility.Reads {
				l.To = max(l.To, p.place(k).Back)
			}
		}
	}
	return l
}

// whereFits is how far back the stunt's lens takes in all cards.
func (s *search) whereFits() seating.Length {
	if at := &s.plan.Stunt.Camera; s.fits == 0 {
		s.fits = s.fitsFrom(at.Lens, s.room.extent.middle(), at.Height)
	}
	return s.fits
}

// Longest is the longest lens, in whole millimetres on full frame, that takes in all cards from the
// plan's camera; 0 = none does. Takes says whether its own lens does.
func Longest(p *mosaic.Plan) (longest int, takes bool) {
	s := &search{plan: p}
	s.keepQuads()
	v := p.Marks[0].View
	fill := s.filled(v)
	if fill == 0 {
		return 0, false
	}
	return int(v.FocalOn(camera.FullFrame) * roomy / fill), math.Round(1e6*fill) <= 1e6
}

// filled is how much of a frame, one way or the other, the cards fill; 0 where some are not before the lens.
func (s *search) filled(v *camera.View) float64 {
	across, down := s.plan.Scene.Fill(v)
	if across <= 0 || !s.allBefore(v) {
		return 0
	}
	return max(across, down)
}

// allBefore says whether every card is before the lens: a frame cannot be filled with what is beside it.
func (s *search) allBefore(v *camera.View) bool {
	for i, ok := range s.cards {
		if !ok {
			continue
		}
		if _, depth := v.Project(s.quads[i][0]); depth < nearest {
			return false
		}
	}
	return true
}

// farthestFit is how far back a lens is looked for a place.
const farthestFit = 200 * seating.Metre

// fitsFrom is how far back, to the next 5 cm, a lens takes in all cards; 0 where it does not up to 200 m.
func (s *search) fitsFrom(lens camera.Lens, across, height seating.Length) seating.Length {
	fits := func(back seating.Length) bool {
		m := markAt(s.plan, Place{across, back, height})
		m.Lens, m.Aim = lens, nil
		v, err := camera.NewView(m, s.plan.Scene)
		if err != nil || !s.allBefore(v) {
			return false
		}
		a, d := s.plan.Scene.Fill(v)
		return math.Round(1e6*max(a, d)) <= 1e6*roomy
	}
	const step = 5 * seating.Centimetre
	if !fits(farthestFit) {
		return 0
	}
	return step * seating.Length(1+sort.Search(int(farthestFit/step)-1, func(k int) bool {
		return fits(step * seating.Length(k+1))
	}))
}

// The heights of a lens that are believed.
const (
	LowestLens  = 10 * seating.Centimetre
	HighestLens = 100 * seating.Metre
)

// Advise adds to a fault of where the camera stands, such as behind or inside the stands, the
// nearest place straight before the middle of the stands from which its lens takes in all
// of them. Other errors are given back as they are.
func Advise(stunt *mosaic.Stunt, err error) error {
	f, ok := errors.AsType[*seating.Fault](err)
	at, known := stunt.Camera, ok && f.Key == "camera"
	for i, m := range stunt.Marks {
		if ok && f.Key == fmt.Sprintf("mark[%d]", i) {
			at, known = m, true
		}
	}
	if !known {
		return err
	}
	stands, buildErr := seating.Build(stunt.Stands)
	if buildErr != nil {
		return err
	}
	if at.Height <= 0 {
		at.Height = handHeight
	}
	if at.Picture == [2]int{} {
		at.Picture = stunt.Camera.Picture
	}
	card := camera.Card{Width: stunt.Card.Width, Height: stunt.Card.Height, Held: stunt.Card.Held}
	p := &mosaic.Plan{Stunt: &mosaic.Stunt{Camera: at}, Stands: stands,
		Scene: &camera.Scene{Stands: stands, Card: card}}
	s := &search{plan: p}
	s.keepQuads()
	middle := standsExtent(stands).middle()
	from := s.fitsFrom(at.Lens, middle, at.Height)
	if from == 0 {
		return err
	}
	const step = 10 * seating.Centimetre // a tape's figure
	from = (from + step - 1) / step * step
	advised := *f
	advised.Hint = fmt.Sprintf("%s; from back = %q, across = %q this lens takes in all of them", f.Hint, from, middle)
	return &advised
}

// Heights and steps at which other places are tried.
const (
	ladderless = 5 * seating.Metre // as high as a gallery or a lift
	asideFrom  = seating.Metre / 2 // from the middle: less is not worth moving
)

// Others are a few places where the stunt's camera could stand instead, those that help most
// often first: higher, in the middle, nearer and farther; inside the room and not in a lane.
// Where the room names places for cameras, they are in the middle and the
// outer parts of each, at its heights.
func Others(stunt *mosaic.Stunt, stands *seating.Stands) []Place {
	r := newRoom(&mosaic.Plan{Stunt: stunt, Stands: stands})
	own := placeOf(&stunt.Camera)
	if own.Height <= 0 {
		own.Height = handHeight
	}
	var all []Place
	if spots := stunt.Room.Spots; len(spots) > 0 {
		for _, part := range []seating.Length{3, 1, 5} { // sixths from the left: the middle first
			for _, sp := range spots {
				heights := unique(sp.Heights)
				if len(heights) == 0 {
					heights = unique([]seating.Length{own.Height, highHeight})
				}
				for _, h := range heights {
					across := halfInCentimetres(2 * (sp.Left + (sp.Right-sp.Left)*part/6))
					all = append(all, Place{across, -halfInCentimetres(sp.Near + sp.Far), h})
				}
			}
		}
	} else {
		all = around(own, r.extent.middle())
	}
	var out []Place
	for _, p := range all {
		if p != own && !slices.Contains(out, p) && r.refuses(p) == free {
			out = append(out, p)
		}
	}
	return out
}

// around is places about a mark, those that help most often first.
func around(own Place, middle seating.Length) []Place {
	back := func(percent seating.Length) seating.Length {
		const step = seating.Metre / 2
		return max(step, (own.Back*percent/100+step/2)/step*step)
	}
	var heights []seating.Length
	for _, h := range []seating.Length{highHeight, ladderless, 8 * seating.Metre} {
		if h >= own.Height+seating.Metre/2 && len(heights) < 2 {
			heights = append(heights, h)
		}
	}
	var out []Place
	aside := abs(own.Across-middle) >= asideFrom
	for _, h := range heights {
		out = append(out, Place{own.Across, own.Back, h})
		if aside {
			out = append(out, Place{middle, own.Back, h})
		}
	}
	if aside {
		out = append(out, Place{middle, own.Back, own.Height}, Place{(own.Across + middle) / 2, own.Back, own.Height})
	}
	for _, percent := range []seating.Length{75, 140} {
		out = append(out, Place{own.Across, back(percent), own.Height})
		for _, h := range heights[:min(1, len(heights))] {
			out = append(out, Place{middle, back(percent), h})
		}
	}
	return out
}
