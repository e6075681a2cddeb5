package camera

import (
	"math"

	"everyseat/seating"
)

// elbow is how near to a person's middle, in metres, a lens counts as inside them.
const elbow = 0.25

// checkInside faults a camera in a section's footprint below its people's heads,
// which is inside or under the stands, and one inside a person or an obstacle.
func (m *Mark) checkInside(s *Scene) error {
	at := m.Position()
	for i := range s.Stands.Sections {
		sec := &s.Stands.Sections[i]
		for r := range sec.Rows {
			if s.inRow(sec, r, at) {
				return m.fault("put the mark before the stands, or over the heads there",
					"the camera is inside the stands, in section %s, row %s", sec.Name, sec.Rows[r].Name)
			}
		}
		f, left, right, ok := s.aisle(i)
		across, ahead, up := f.local(at)
		for r := 0; ok && r < len(sec.Rows) && left <= across && across <= right; r++ {
			t, front := tierOf(sec, r), -sec.Rows[r].Front.Metres()
			if ahead <= front && ahead >= front-(t.before-t.behind) && up < sec.Rows[r].Height.Metres() {
				return m.fault("put the mark before the stands",
					"the camera is under the aisle beside section %s", sec.Name)
			}
		}
	}
	for i := range s.Obstacles {
		if o := &s.Obstacles[i]; o.holds(at) {
			return m.fault("move the mark, or correct where the obstacle stands",
				"the camera is inside the obstacle %q", o.Name)
		}
	}
	return nil
}

func (o *Obstacle) holds(p seating.Point) bool {
	return math.Abs(p[0]-o.Across.Metres()) < o.Width.Metres()/2 &&
		math.Abs(p[1]-o.Away.Metres()) < o.Depth.Metres()/2 &&
		p[2] > o.Bottom.Metres() && p[2] < (o.Bottom+o.Height).Metres()
}

// inRow says whether a point lies over a row's run, below the heads there. On the
// floor only a person is in the way, and there is room between them.
func (s *Scene) inRow(sec *seating.Section, row int, at seating.Point) bool {
	r := &sec.Rows[row]
	top := r.Height.Metres() + crownOf(&sec.Spec)
	if r.First >= r.Last || at[2] >= top {
		return false
	}
	t := tierOf(sec, row)
	over := func(ahead float64) bool { return t.behind <= ahead && ahead <= t.before }
	if sec.Spec.Kind != seating.Floor && sec.Spec.Radius == 0 {
		f, left, wide := s.straight(sec, r)
		across, ahead, _ := f.local(at)
		return across >= left && across <= left+wide && over(ahead)
	}
	for i := r.First; i < r.Last; i++ {
		seat := &s.Stands.Seats[i]
		f := frameOf(seat.Position, seat.Facing)
		across, ahead, _ := f.local(at)
		if sec.Spec.Kind == seating.Floor {
			if s.occupied(i) && math.Abs(across) < elbow && math.Abs(ahead) < elbow {
				return true
			}
		} else if math.Abs(across) <= sec.Spec.Pitch.Metres()/2 && over(ahead) {
			return true
		}
	}
	return false
}

// checkSeesCards faults a view with no card's front before the lens.
func (m *Mark) checkSeesCards(v *View, s *Scene) error {
	cards := false
	for seat := range s.Stands.Seats {
		if q, ok := s.CardQuad(seat); ok {
			cards = true
			if c := v.quad(q); c.depth >= near && (c.front || s.Resting || s.Card.Held == Lap) {
				return nil
			}
		}
	}
	if !cards {
		return nil
	}
	return m.fault("put the mark where people look at it, and aim at them", "no card's front is before the lens")
}
