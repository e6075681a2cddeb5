package marks

import (
	"math"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// FullFrame is the width in millimetres of the sensor on which lenses are compared.
const FullFrame = 36

// roomy is how much of the frame the cards may fill, so that nothing touches its edge.
const roomy = 0.95

// FocalLengths are lenses that people own, in millimetres on full frame; common practice, no source.
var FocalLengths = []float64{24, 28, 35, 50, 70, 85, 135, 200}

// Lens is which lens suits the mark, and which mark suits the lens.
type Lens struct {
	Now     float64 // millimetres on full frame
	Fill    float64 // how much of the frame, one way or the other, the cards fill from the mark; over 1 does not fit
	Longest float64 // millimetres on full frame: the longest lens that takes in all cards from the mark; 0 = none does
	// From is how far back, straight before the middle of the stands and at the camera's height, this lens takes in all
	// cards; 0 = not within 200 m. To is the farthest place of the map from which the text
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
	perMM := float64(v.Width) / FullFrame
	l := Lens{Now: v.Focal / perMM, From: s.whereFits()}
	if across, down := s.plan.Scene.Fill(v); across > 0 && s.allBefore(v) {
		l.Fill = max(across, down)
		l.Longest = l.Now * roomy / l.Fill
	}
	middle := (s.room.extent.left + s.room.extent.right) / 2
	for _, f := range FocalLengths {
		lens := camera.Lens{SensorWidth: FullFrame, Focal: f}
		if from := s.fitsFrom(lens, middle, s.plan.Stunt.Camera.Height); from > 0 {
			l.Others = append(l.Others, Fits{f, from})
		}
	}
	for i := range m.Patches {
		p := &m.Patches[i]
		for k, score := range p.Anew {
			if score != Unknown && legibility.VerdictOf(score) == legibility.Reads {
				l.To = max(l.To, p.At(k%p.Cols, k/p.Cols).Back)
			}
		}
	}
	return l
}

// whereFits is how far back the stunt's lens takes in all cards.
func (s *search) whereFits() seating.Length {
	if s.fits == 0 {
		s.fits = s.fitsFrom(s.plan.Stunt.Camera.Lens, (s.room.extent.left+s.room.extent.right)/2, s.plan.Stunt.Camera.Height)
	}
	return s.fits
}

// Longest is the longest lens, in whole millimetres on full frame, that takes in all cards from the
// plan's camera; 0 = none does. Takes says whether its own lens does.
func Longest(p *mosaic.Plan) (longest int, takes bool) {
	s := &search{plan: p}
	s.keepQuads()
	v := p.Marks[0].View
	across, down := p.Scene.Fill(v)
	if across <= 0 || !s.allBefore(v) {
		return 0, false
	}
	fill := max(across, down)
	return int(v.Focal / (float64(v.Width) / FullFrame) * roomy / fill), math.Round(1e6*fill) <= 1e6
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
	lo, hi := seating.Length(0), farthestFit/step
	if !fits(hi * step) {
		return 0
	}
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; fits(mid * step) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi * step
}
