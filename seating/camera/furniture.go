package camera

import (
	"math"

	"everyseat/seating"
)

// Sizes of what people sit and walk on, in metres; common practice, no source.
const (
	boardThick  = 0.05
	chairWide   = 0.45
	chairDeep   = 0.42
	chairBack   = 0.45 // backrest above the chair's seat
	railHeight  = 1.07
	railBar     = 0.05
	floorBefore = 40.0 // how far the floor reaches before, beside and behind the seats
	floorBeside = 15.0
)

// Each calls fn for every polygon, seat by seat in index order, then what belongs to nobody.
// Heads and bodies are turned to Mark where it is set.
func (s *Scene) Each(fn func(*Polygon)) { s.EachFrom(s.Mark, fn) }

// EachFrom is Each with heads and bodies as they look from the eye, which is what See draws
// for a view; nil turns them the way their seats face. The order does not depend on the eye.
func (s *Scene) EachFrom(eye *seating.Point, fn func(*Polygon)) {
	b := brush{fn: fn}
	for item := range s.items() {
		b.item(s, item, eye)
	}
}

// items counts what is drawn one after the other: first every seat, then every
// row, then every aisle between neighbouring sections, the obstacles and the floor.
func (s *Scene) items() int {
	n := len(s.Stands.Seats) + len(s.Stands.Sections) + len(s.Obstacles) + 1
	for i := range s.Stands.Sections {
		n += len(s.Stands.Sections[i].Rows)
	}
	return n
}

func (b *brush) item(s *Scene, item int, eye *seating.Point) {
	if item < len(s.Stands.Seats) {
		at := &s.Stands.Seats[item]
		switch {
		case s.occupied(item):
			b.person(s, item, eye)
		case at.Use == seating.UseReserved && at.For == "rail":
			b.rail(s, item)
		}
		return
	}
	item -= len(s.Stands.Seats)
	for i := range s.Stands.Sections {
		if rows := len(s.Stands.Sections[i].Rows); item >= rows {
			item -= rows
			continue
		}
		b.row(s, i, item)
		return
	}
	if item < len(s.Stands.Sections) {
		b.steps(s, item)
		return
	}
	item -= len(s.Stands.Sections)
	if item < len(s.Obstacles) {
		b.obstacle(&s.Obstacles[item])
		return
	}
	b.floor(s)
}

// rail is a bar, a lower bar and a post across the place.
func (b *brush) rail(s *Scene, seat int) {
	at := &s.Stands.Seats[seat]
	f := frameOf(at.Position, at.Facing)
	half := s.Stands.Sections[at.Section].Spec.Pitch.Metres() / 2
	b.upright(&f, seat, PartRail, -half, half, 0, railHeight-railBar, railHeight)
	b.upright(&f, seat, PartRail, -half, half, 0, railHeight/2-railBar, railHeight/2)
	b.upright(&f, seat, PartRail, -railBar/2, railBar/2, 0, 0, railHeight)
}

// upright is a standing rectangle that faces ahead, side one that faces across, level a level one.
func (b *brush) upright(f *frame, owner int, part Part, left, right, ahead, low, high float64) {
	b.draw(owner, part,
		f.at(left, ahead, high), f.at(right, ahead, high), f.at(right, ahead, low), f.at(left, ahead, low))
}

func (b *brush) side(f *frame, owner int, part Part, across, behind, before, low, high float64) {
	b.draw(owner, part,
		f.at(across, behind, high), f.at(across, before, high), f.at(across, before, low), f.at(across, behind, low))
}

func (b *brush) level(f *frame, owner int, part Part, left, right, behind, before, up float64) {
	b.draw(owner, part,
		f.at(left, behind, up), f.at(right, behind, up), f.at(right, before, up), f.at(left, before, up))
}

// tier is one row's step: how far its footboard reaches before and behind the
// middle of the run, how high its riser is, and its seat board.
type tier struct {
	before, behind float64 // ahead of the middle of the run; behind is negative
	riser          float64
	board          float64 // seat board above the footboard; 0 = none
}

func tierOf(section *seating.Section, row int) tier {
	run := section.Spec.Run.Metres()
	t := tier{before: float64(run / 2), behind: float64(-run / 2)}
	rows := section.Rows
	if row+1 < len(rows) {
		t.behind = math.Min(t.behind, t.before-(rows[row+1].Front-rows[row].Front).Metres())
	}
	t.riser = rows[row].Height.Metres()
	if row > 0 {
		t.riser -= rows[row-1].Height.Metres()
	}
	if section.Spec.Kind == seating.Bench {
		t.board = seatHeight(&section.Spec)
	}
	return t
}

// row draws footboard, riser and seat board from row end to row end, or the chairs.
func (b *brush) row(s *Scene, section, row int) {
	sec := &s.Stands.Sections[section]
	r := &sec.Rows[row]
	if r.First >= r.Last {
		return
	}
	t := tierOf(sec, row)
	pitch := sec.Spec.Pitch.Metres()
	if sec.Spec.Radius == 0 {
		f, left, wide := s.straight(sec, r)
		b.tier(&f, t, left, left+wide, true, true)
	} else {
		// Chords of the arc, a little longer than the places so that no crack shows between them.
		const lap = 1.04
		for i := r.First; i < r.Last; i++ {
			f := frameOf(s.Stands.Seats[i].Position, s.Stands.Seats[i].Facing)
			b.tier(&f, t, -pitch/2*lap, pitch/2*lap, i == r.First, i+1 == r.Last)
		}
	}
	if sec.Spec.Kind == seating.Chairs {
		for i := r.First; i < r.Last; i++ {
			b.chair(&s.Stands.Seats[i], &sec.Spec)
		}
	}
}

// tier draws one step; its seat board may end on its left and on its right.
func (b *brush) tier(f *frame, t tier, left, right float64, endLeft, endRight bool) {
	if f.origin[2] > 0 {
		b.level(f, -1, PartStep, left, right, t.behind, t.before, 0)
	}
	if t.riser > 0 {
		b.upright(f, -1, PartStep, left, right, t.before, -t.riser, 0)
	}
	if t.board > 0 {
		back := math.Min(0, -t.before+benchDepth) - benchDepth
		front := back + benchDepth
		low := math.Max(0, t.board-boardThick)
		b.level(f, -1, PartBench, left, right, back, front, t.board)
		b.upright(f, -1, PartBench, left, right, front, low, t.board)
		if endLeft {
			b.side(f, -1, PartBench, left, back, front, low, t.board)
		}
		if endRight {
			b.side(f, -1, PartBench, right, back, front, low, t.board)
		}
	}
}

func (b *brush) chair(seat *seating.Seat, spec *seating.SectionSpec) {
	if seat.Use == seating.UseReserved {
		return
	}
	f := frameOf(seat.Position, seat.Facing)
	half := math.Min(chairWide, spec.Pitch.Metres()*0.95) / 2
	up := seatHeight(spec)
	back := ahead(spec) - chestDepth/2 - 0.02
	if spec.Posture != seating.Sitting {
		back = -chairDeep / 2
	}
	b.level(&f, -1, PartBench, -half, half, back, back+chairDeep, up)
	b.upright(&f, -1, PartBench, -half, half, back+chairDeep, math.Max(0, up-boardThick), up)
	b.upright(&f, -1, PartBench, -half, half, back, up, up+chairBack)
}

// steps draws the stepped aisle on the right of a section, as high as its rows.
func (b *brush) steps(s *Scene, section int) {
	f, left, right, ok := s.aisle(section)
	if !ok {
		return
	}
	sec := &s.Stands.Sections[section]
	for row := range sec.Rows {
		t := tierOf(sec, row)
		tread := f
		tread.origin = f.at(0, -sec.Rows[row].Front.Metres()-t.before, sec.Rows[row].Height.Metres())
		t.board = 0
		b.tier(&tread, t, left, right, false, false)
	}
}

// aisle is the gap between a section and its right neighbour, across from the
// section's own origin; ok is false where there is none.
func (s *Scene) aisle(section int) (f frame, left, right float64, ok bool) {
	if section+1 >= len(s.Stands.Sections) {
		return f, 0, 0, false
	}
	a, c := &s.Stands.Sections[section], &s.Stands.Sections[section+1]
	beside := func(x *seating.Section) bool {
		return x.Spec.Place == nil && x.Spec.Radius == 0 && x.Spec.Kind != seating.Floor && x.Last > x.First
	}
	if !beside(a) || !beside(c) || a.Facing != c.Facing {
		return f, 0, 0, false
	}
	f = frameOf(a.Origin, a.Facing)
	_, left = s.extent(a, &f)
	right, _ = s.extent(c, &f)
	return f, left, right, right > left+1e-6
}

// extent is how far a section's rows reach across, in the frame's measure.
func (s *Scene) extent(section *seating.Section, f *frame) (left, right float64) {
	left, right = math.Inf(1), math.Inf(-1)
	for i := range section.Rows {
		if r := &section.Rows[i]; r.First < r.Last {
			own, start, wide := s.straight(section, r)
			across, _, _ := f.local(own.origin)
			left, right = math.Min(left, across+start), math.Max(right, across+start+wide)
		}
	}
	return left, right
}

// straight is the frame of a straight row's first seat, where the row begins across from there, and how wide it is.
func (s *Scene) straight(section *seating.Section, row *seating.Row) (f frame, left, wide float64) {
	seat, pitch := &s.Stands.Seats[row.First], section.Spec.Pitch.Metres()
	f = frameOf(seat.Position, seat.Facing)
	return f, -float64((float64(seat.Place) + 0.5) * pitch), float64(float64(row.Places) * pitch)
}

// obstacle draws a box or a post as its six sides, a hoop as its board and its ring.
func (b *brush) obstacle(o *Obstacle) {
	middle := seating.Point{o.Across.Metres(), o.Away.Metres(), o.Bottom.Metres()}
	f := frameOf(middle, 0)
	w, d, h := o.Width.Metres()/2, o.Depth.Metres()/2, o.Height.Metres()
	b.upright(&f, -1, PartBox, -w, w, d, 0, h)
	b.upright(&f, -1, PartBox, -w, w, -d, 0, h)
	b.level(&f, -1, PartBox, -w, w, -d, d, h)
	b.level(&f, -1, PartBox, -w, w, -d, d, 0)
	b.side(&f, -1, PartBox, -w, -d, d, 0, h)
	b.side(&f, -1, PartBox, w, -d, d, 0, h)
	if o.Kind == "hoop" {
		b.ring(&f, d)
	}
}

// ring is a basket's rim before the board: twelve strips, 0.23 m in radius, 0.15 m
// above the board's lower edge (common practice, no source).
func (b *brush) ring(f *frame, depth float64) {
	const radius, up, thick, n = 0.23, 0.15, 0.02, 12
	for i := range n {
		s0, c0 := sincos(2 * math.Pi * float64(i) / n)
		s1, c1 := sincos(2 * math.Pi * float64(i+1) / n)
		middle := depth + radius + 0.15
		x0, y0 := radius*c0, middle+float64(radius*s0)
		x1, y1 := radius*c1, middle+float64(radius*s1)
		b.draw(-1, PartBox, f.at(x0, y0, up+thick), f.at(x1, y1, up+thick), f.at(x1, y1, up), f.at(x0, y0, up))
	}
}

// floor is one rectangle under and around all seats.
func (b *brush) floor(s *Scene) {
	left, right, near, far := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for i := range s.Stands.Seats {
		p := &s.Stands.Seats[i].Position
		left, right = math.Min(left, p[0]), math.Max(right, p[0])
		near, far = math.Min(near, p[1]), math.Max(far, p[1])
	}
	if left > right {
		return
	}
	f := frame{right: [2]float64{1, 0}, forward: [2]float64{0, -1}}
	b.level(&f, -1, PartFloor, left-floorBeside, right+floorBeside, -far-floorBeside, -near+floorBefore, 0)
}
