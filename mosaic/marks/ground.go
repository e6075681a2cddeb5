package marks

import (
	"fmt"
	"math"
	"slices"

	"everyseat/seating"
)

// Heights that are always looked at: in the hand or on a tripod, and above the heads.
const (
	handHeight = 160 * seating.Centimetre
	highHeight = 3 * seating.Metre
)

// How finely a map is drawn.
const (
	usualPlaces   = 40 // each way
	usualAnew     = 8  // each way, planned anew
	coarserBy     = 2  // at the other heights
	manySeats     = 5_000
	veryManySeats = 20_000
	farthestLook  = 60 * seating.Metre // without walls
)

// heights are those of the maps; the first gets the whole one.
func (s *search) heights() []seating.Length {
	if len(s.o.Heights) > 0 {
		return unique(s.o.Heights)
	}
	return unique([]seating.Length{s.plan.Stunt.Camera.Height, handHeight, highHeight})
}

func unique(all []seating.Length) []seating.Length {
	var out []seating.Length
	for _, h := range all {
		if !slices.Contains(out, h) {
			out = append(out, h)
		}
	}
	return out
}

// places is how many places each way the whole map has.
func (s *search) places() int {
	n := s.o.Places
	if n == 0 {
		n = usualPlaces
	}
	switch seats := len(s.plan.Stands.Seats); {
	case seats > veryManySeats:
		return min(n, 12)
	case seats > manySeats:
		return min(n, 20)
	}
	return n
}

// patches are the rectangles of places to look at, their scores unknown.
func (s *search) patches() ([]Patch, error) {
	var out []Patch
	if spots := s.plan.Stunt.Room.Spots; len(spots) > 0 {
		out = s.spotPatches()
	} else {
		e := s.floor()
		for k, h := range s.heights() {
			n := s.places()
			if k > 0 {
				n = max(2, n/coarserBy)
			}
			out = append(out, newPatch("", e, h, n, n))
		}
	}
	for i := range out {
		if s.anyFree(&out[i]) {
			return out, nil
		}
	}
	key, hint := "room.walls", "look at the walls' corners: across and away, in order; before the stands away is negative"
	if len(s.plan.Stunt.Room.Spots) > 0 {
		key, hint = "room.camera", "name a place before the stands, where people look at it"
	}
	return nil, &seating.Fault{Key: key, What: "there is no place where a camera could stand and see a card", Hint: hint}
}

func newPatch(name string, e extent, height seating.Length, cols, rows int) Patch {
	p := Patch{Name: name, Left: e.left, Right: e.right, Nearest: -e.far, Farthest: -e.near, Height: height, Cols: cols, Rows: rows}
	p.Fixed, p.Anew = make([]float64, cols*rows), make([]float64, cols*rows)
	for i := range p.Fixed {
		p.Fixed[i], p.Anew[i] = Unknown, Unknown
	}
	return p
}

func (s *search) anyFree(p *Patch) bool {
	for i := range p.Fixed {
		at := p.At(i%p.Cols, i/p.Cols)
		if s.canBe(at) {
			if _, err := s.view(at); err == nil {
				return true
			}
		}
	}
	return false
}

// spotPatches shares the places out over the spots by their area.
func (s *search) spotPatches() []Patch {
	spots := s.plan.Stunt.Room.Spots
	area := 0.0
	for i := range spots {
		area += (spots[i].Right - spots[i].Left).Metres() * (spots[i].Far - spots[i].Near).Metres()
	}
	whole := s.places()
	step := math.Sqrt(area) / float64(whole)
	parts := func(l seating.Length) int { return min(whole, max(1, int(math.Round(l.Metres()/step)))) }
	var out []Patch
	for i := range spots {
		sp := &spots[i]
		heights := sp.Heights
		if len(heights) == 0 {
			heights = s.heights()
		}
		for k, h := range unique(heights) {
			name := sp.Name
			if name == "" {
				name = fmt.Sprintf("place %d", i+1)
			}
			cols, rows := parts(sp.Right-sp.Left), parts(sp.Far-sp.Near)
			if k > 0 {
				cols, rows = max(1, cols/coarserBy), max(1, rows/coarserBy)
			}
			out = append(out, newPatch(name, extent{sp.Left, sp.Right, sp.Near, sp.Far}, h, cols, rows))
		}
	}
	return out
}

// floor is the floor before the stands: inside the walls where they are known, else a
// span that the lens and the stands make sensible.
func (s *search) floor() extent {
	mark, stands := &s.plan.Stunt.Camera, s.room.extent
	middle := (stands.left + stands.right) / 2
	deep := max(3*mark.Back/2, mark.Back+4*seating.Metre, 5*s.fits/4, 8*seating.Metre)
	deep = min(deep, max(farthestLook, mark.Back+4*seating.Metre))
	half := max((stands.right-stands.left)/2+2*seating.Metre, abs(mark.Across-middle)+3*seating.Metre, deep/2)
	e := extent{middle - half, middle + half, -deep, -offStands}
	if s.room.ring {
		e = s.room.around()
		e.far = min(e.far, -offStands)
	}
	e.left, e.right = down(e.left), -down(-e.right)
	e.near = down(e.near)
	if e.near >= e.far { // a room that ends at the stands: nothing is free there, and that is said
		e.near = e.far - seating.Metre
	}
	return e
}

// down is the next half metre below.
func down(l seating.Length) seating.Length {
	const half = seating.Metre / 2
	n := l / half
	if n*half > l {
		n--
	}
	return n * half
}

// around is the box around the walls.
func (r *room) around() extent {
	e := extent{math.MaxInt64, math.MinInt64, math.MaxInt64, math.MinInt64}
	for _, c := range r.walls {
		x, y := seating.Length(c.x)*seating.Millimetre, seating.Length(c.y)*seating.Millimetre
		e = extent{min(e.left, x), max(e.right, x), min(e.near, y), max(e.far, y)}
	}
	return e
}
