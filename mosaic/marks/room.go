package marks

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Distances that a camera keeps; common practice, no source.
const (
	offWall     = 30 * seating.Centimetre  // half a tripod
	offObstacle = 20 * seating.Centimetre  // from the middle of the tripod to what stands there
	overHeads   = 220 * seating.Centimetre // a lens from here up hangs, or stands on something, and people pass below
	offStands   = 50 * seating.Centimetre  // before the front row's edge
)

// corner is a point of the floor plan in whole millimetres, so that sides are decided exactly.
type corner struct{ x, y int64 }

func cornerOf(across, away seating.Length) corner {
	return corner{int64(across / seating.Millimetre), int64(away / seating.Millimetre)}
}

// turn is positive where c lies to the left of the way from a to b.
func turn(a, b, c corner) int64 {
	return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
}

// crosses says whether two stretches share a point; ends count.
func crosses(a, b, c, d corner) bool {
	if max(a.x, b.x) < min(c.x, d.x) || max(c.x, d.x) < min(a.x, b.x) ||
		max(a.y, b.y) < min(c.y, d.y) || max(c.y, d.y) < min(a.y, b.y) {
		return false
	}
	sides := func(p, q, r, s corner) bool {
		t, u := turn(p, q, r), turn(p, q, s)
		return t >= 0 && u <= 0 || t <= 0 && u >= 0
	}
	return sides(a, b, c, d) && sides(c, d, a, b)
}

// inside says whether p lies within a ring of corners; its border counts.
func inside(ring []corner, p corner) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if crosses(a, b, p, p) {
			return true
		}
		if (a.y > p.y) != (b.y > p.y) {
			// The border is to the right of p where p is on its left going up.
			if t := turn(a, b, p); t > 0 == (b.y > a.y) {
				in = !in
			}
		}
	}
	return in
}

// near says whether p is closer than mm millimetres to the stretch from a to b.
func near(a, b, p corner, mm int64) bool {
	dx, dy := float64(b.x-a.x), float64(b.y-a.y)
	px, py := float64(p.x-a.x), float64(p.y-a.y)
	t := 0.0
	if long := float64(dx*dx) + float64(dy*dy); long > 0 {
		t = math.Max(0, math.Min(1, (float64(px*dx)+float64(py*dy))/long))
	}
	return math.Round(math.Hypot(px-float64(t*dx), py-float64(t*dy))) < float64(mm)
}

// room is where cameras may be.
type room struct {
	plan   *mosaic.Plan
	walls  []corner
	ring   bool   // the walls go all the way round
	facing corner // a point just before the stands, which the camera must look at
	extent extent // of the seats
}

// extent is a rectangle of the floor plan.
type extent struct{ left, right, near, far seating.Length }

func (e extent) holds(p Place) bool {
	return p.Across >= e.left && p.Across <= e.right && p.Away() >= e.near && p.Away() <= e.far
}

func (e extent) middle() seating.Length { return (e.left + e.right) / 2 }

func newRoom(p *mosaic.Plan) *room {
	r := &room{plan: p, extent: standsExtent(p.Stands)}
	for _, w := range p.Stunt.Room.Walls {
		r.walls = append(r.walls, cornerOf(w[0], w[1]))
	}
	r.facing = cornerOf(r.extent.middle(), min(0, r.extent.near)-offStands)
	if n := len(r.walls); n > 2 && r.walls[0] == r.walls[n-1] {
		r.walls = r.walls[:n-1]
	}
	// Three walls and more close where the stands then lie inside; else they are what they are.
	r.ring = len(r.walls) > 2 && inside(r.walls, r.facing)
	return r
}

// standsExtent is around the seats that are not on the floor, or all where only those are there.
func standsExtent(stands *seating.Stands) extent {
	of := func(floor bool) (extent, bool) {
		x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for i := range stands.Seats {
			spec := &stands.Sections[stands.Seats[i].Section].Spec
			if (spec.Kind == seating.Floor) != floor {
				continue
			}
			at := stands.Seats[i].Position
			half, deep := float64(spec.Pitch.Metres()/2), float64(spec.Run.Metres()/2)
			x0, x1 = min(x0, at[0]-half), max(x1, at[0]+half)
			y0, y1 = min(y0, at[1]-deep), max(y1, at[1]+deep)
		}
		return extent{length(x0), length(x1), length(y0), length(y1)}, x0 <= x1
	}
	if e, ok := of(false); ok {
		return e
	}
	e, _ := of(true)
	return e
}

// length is metres on whole millimetres.
func length(metres float64) seating.Length {
	if math.Abs(metres) > 1e6 {
		return 0
	}
	return seating.Length(math.Round(metres*1000)) * seating.Millimetre
}

// refusal is why a camera cannot be at a place.
type refusal uint8

const (
	free refusal = iota
	behindWall
	onSeats
	onObstacle
	inLane // it may pass, but its cross may not be there
	noSpot
)

// refuses says why a camera cannot be there, or free.
func (r *room) refuses(at Place) refusal {
	if spots := r.plan.Stunt.Room.Spots; len(spots) > 0 {
		for _, s := range spots {
			high := len(s.Heights) == 0 || slices.Contains(s.Heights, at.Height)
			if high && (extent{s.Left, s.Right, s.Near, s.Far}).holds(at) {
				return free // who allowed it knows what it stands on
			}
		}
		return noSpot
	}
	p := cornerOf(at.Across, at.Away())
	if r.walled(p) {
		return behindWall
	}
	for _, o := range r.plan.Stunt.Room.Obstacles {
		across, away := 2*abs(at.Across-o.Across), 2*abs(at.Away()-o.Away)
		if o.Bottom < at.Height && across < o.Width+2*offObstacle && away < o.Depth+2*offObstacle {
			return onObstacle
		}
	}
	if r.onSeats(at) {
		return onSeats
	}
	if at.Height < overHeads {
		for _, l := range r.plan.Stands.Spec.Lanes {
			if (extent{l.Left, l.Right, l.Near, l.Far}).holds(at) {
				return inLane
			}
		}
	}
	return free
}

// walled says whether a wall is in the way to the stands, or too near.
func (r *room) walled(p corner) bool {
	if r.ring && !inside(r.walls, p) {
		return true
	}
	for i, a := range r.walls {
		if i+1 == len(r.walls) && !r.ring {
			break
		}
		b := r.walls[(i+1)%len(r.walls)]
		if crosses(a, b, p, r.facing) || near(a, b, p, int64(offWall/seating.Millimetre)) {
			return true
		}
	}
	return false
}

// onSeats says whether somebody's place is there.
func (r *room) onSeats(at Place) bool {
	x, y := at.Across.Metres(), at.Away().Metres()
	stands := r.plan.Stands
	for i := range stands.Sections {
		sec := &stands.Sections[i]
		if sec.Spec.Kind == seating.Floor && at.Height >= overHeads {
			continue
		}
		wide, deep := sec.Spec.Pitch.Metres()/2, sec.Spec.Run.Metres()/2
		for k := sec.First; k < sec.Last; k++ {
			seat := &stands.Seats[k]
			dx, dy := x-seat.Position[0], y-seat.Position[1]
			sin, cos := math.Sincos(seat.Facing)
			across, ahead := float64(dx*cos)+float64(dy*sin), float64(dx*sin)-float64(dy*cos)
			if math.Abs(across) <= wide && math.Abs(ahead) <= deep {
				return true
			}
		}
	}
	return false
}

func abs(l seating.Length) seating.Length { return max(l, -l) }

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
	n := cmp.Or(s.o.Places, usualPlaces)
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
		for k := range out[i].Fixed {
			at := out[i].place(k)
			if !s.canBe(at) {
				continue
			}
			if _, _, err := s.view(at); err == nil {
				return out, nil
			}
		}
	}
	key, hint := "room.walls",
		"look at the walls' corners: across and away, in order; before the stands away is negative"
	if len(s.plan.Stunt.Room.Spots) > 0 {
		key, hint = "room.camera", "name a place before the stands, where people look at it"
	}
	return nil, &seating.Fault{Key: key, Hint: hint,
		What: "there is no place where a camera could stand and see a card"}
}

func newPatch(name string, e extent, height seating.Length, cols, rows int) Patch {
	p := Patch{
		Name: name, Left: e.left, Right: e.right, Nearest: -e.far, Farthest: -e.near, Height: height, Cols: cols,
		Rows: rows,
	}
	p.Fixed, p.Anew = make([]float64, cols*rows), make([]float64, cols*rows)
	for i := range p.Fixed {
		p.Fixed[i], p.Anew[i] = Unknown, Unknown
	}
	return p
}

// spotPatches shares the places out over the spots by their area.
func (s *search) spotPatches() []Patch {
	spots := s.plan.Stunt.Room.Spots
	area := 0.0
	for _, sp := range spots {
		area += float64((sp.Right - sp.Left).Metres() * (sp.Far - sp.Near).Metres())
	}
	whole := s.places()
	step := math.Sqrt(area) / float64(whole)
	parts := func(l seating.Length) int { return min(whole, max(1, int(math.Round(l.Metres()/step)))) }
	var out []Patch
	for i, sp := range spots {
		heights := unique(sp.Heights)
		if len(heights) == 0 {
			heights = s.heights()
		}
		for k, h := range heights {
			cols, rows := parts(sp.Right-sp.Left), parts(sp.Far-sp.Near)
			if k > 0 {
				cols, rows = max(1, cols/coarserBy), max(1, rows/coarserBy)
			}
			name := cmp.Or(sp.Name, fmt.Sprintf("place %d", i+1))
			out = append(out, newPatch(name, extent{sp.Left, sp.Right, sp.Near, sp.Far}, h, cols, rows))
		}
	}
	return out
}

// floor is the floor before the stands: inside the walls where they are known, else a
// span that the lens and the stands make sensible.
func (s *search) floor() extent {
	mark, stands := &s.plan.Stunt.Camera, s.room.extent
	deep := max(3*mark.Back/2, mark.Back+4*seating.Metre, 5*s.fits/4, 8*seating.Metre)
	deep = min(deep, max(farthestLook, mark.Back+4*seating.Metre))
	half := max((stands.right-stands.left)/2+2*seating.Metre, abs(mark.Across-stands.middle())+3*seating.Metre, deep/2)
	e := extent{stands.middle() - half, stands.middle() + half, -deep, -offStands}
	if s.room.ring {
		e = extent{math.MaxInt64, math.MinInt64, math.MaxInt64, math.MinInt64}
		for _, c := range s.room.walls {
			x, y := seating.Length(c.x)*seating.Millimetre, seating.Length(c.y)*seating.Millimetre
			e = extent{min(e.left, x), max(e.right, x), min(e.near, y), max(e.far, y)}
		}
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
	n := l / half * half
	if n > l {
		n -= half
	}
	return n
}
