package pictures

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// floor draws what lies under the seats: lanes, floor blocks, and what stands on the floor near the seats.
func (c *chart) floor() {
	for i := range c.stands.Spec.Lanes {
		c.lane(&c.stands.Spec.Lanes[i])
	}
	for i := range c.stands.Sections {
		if s := &c.stands.Sections[i]; s.Spec.Kind == seating.Floor {
			c.block(s)
		}
	}
	for i := range c.plan.Scene.Obstacles {
		o := &c.plan.Scene.Obstacles[i]
		far, near := standing(o)
		a, b := c.at(far), c.at(near)
		if b.x < c.page.x0-mapSide || a.x > c.page.x1+mapSide || b.y < c.page.y0-40 || a.y > c.page.y1+60 {
			continue
		}
		c.taken.take(extent{a.x, a.y, b.x, b.y})
		box := rectangle(a.x, a.y, math.Max(3, b.x-a.x), math.Max(3, b.y-a.y))
		c.add(shape{points: box, fill: &inkHair, stroke: &inkLine, width: 1, name: o.Name})
	}
}

// lane draws as much of a lane as lies near the seats, with its name along it.
func (c *chart) lane(l *seating.Lane) {
	a, b := c.at(spot{l.Left.Metres(), l.Far.Metres()}), c.at(spot{l.Right.Metres(), l.Near.Metres()})
	const beyond = 24
	a = spot{whole(math.Max(a.x, c.page.x0-beyond)), whole(math.Max(a.y, c.page.y0-beyond))}
	b = spot{whole(math.Min(b.x, c.page.x1+beyond)), whole(math.Min(b.y, c.page.y1+beyond))}
	w, h := b.x-a.x, b.y-a.y
	if w < 2 || h < 2 {
		return
	}
	c.add(shape{points: rectangle(a.x, a.y, w, h), fill: &inkLane, name: laneName(l.Name)})
	c.hatch(a, b)
	c.taken.take(extent{a.x, a.y, b.x, b.y})
	if math.Min(w, h) < 20 {
		return
	}
	text := lettering{size: 14, colour: inkText, anchor: atMiddle}
	long := math.Max(w, h)
	text.words = shorten(laneName(l.Name)+", kept free", false, text.size, long-20)
	ground := spot{text.length() + 16, 20}
	if h > w {
		text.turn, ground = -math.Pi/2, spot{ground.y, ground.x}
	}
	m := middle([]spot{a, b})
	e := around(m, ground.x, ground.y)
	c.area(inkLane, rectangle(whole(e.x0), whole(e.y0), whole(ground.x), whole(ground.y))...)
	c.write(m, text)
}

// laneName says that it is a lane, unless its name does.
func laneName(name string) string {
	if low := strings.ToLower(name); strings.Contains(low, "lane") || strings.Contains(low, "way") {
		return name
	}
	return strings.TrimSpace("lane " + name)
}

// standing is where an obstacle stands on the floor: its far left corner and its near right one.
func standing(o *camera.Obstacle) (far, near spot) {
	e := around(spot{o.Across.Metres(), o.Away.Metres()}, o.Width.Metres(), o.Depth.Metres())
	return spot{e.x0, e.y1}, spot{e.x1, e.y0}
}

// hatch strokes a lane at a slant, so that a copy without colour shows it too.
func (c *chart) hatch(a, b spot) {
	const step = 14.0
	h := b.y - a.y
	for x := a.x - h + step; x < b.x; x += step {
		p, q := spot{x, b.y}, spot{x + h, a.y}
		if p.x < a.x {
			p = spot{a.x, b.y - (a.x - x)}
		}
		if q.x > b.x {
			q = spot{b.x, a.y + (x + h - b.x)}
		}
		c.line(inkHair, 1, p, q)
	}
}

// blockMargin is from the seats of a floor block to its outline, in pixels.
const blockMargin = 7

// block outlines a floor block.
func (c *chart) block(s *seating.Section) {
	var ps []spot
	for i := s.First; i < s.Last; i++ {
		ps = append(ps, c.cells[i][:]...)
	}
	ring := hull(ps)
	if len(ring) < 3 {
		return
	}
	outline := make([]spot, len(ring)) // with the corners moved outward
	for i, p := range ring {
		in, on := ring[(i+len(ring)-1)%len(ring)].to(p).unit(), p.to(ring[(i+1)%len(ring)]).unit()
		n := spot{in.y + on.y, -in.x - on.x}
		outline[i] = p.along(n, blockMargin*2/math.Max(0.5, float64(n.x*n.x)+float64(n.y*n.y)))
	}
	c.add(shape{points: outline, fill: &inkFloor, stroke: &inkLine, width: 1, name: "floor block " + s.Name})
}

// hull is the convex hull, corners in order (Andrew's monotone chain).
func hull(ps []spot) []spot {
	slices.SortFunc(ps, func(a, b spot) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y)) })
	ps = slices.Compact(ps)
	if len(ps) < 3 {
		return ps
	}
	var out []spot
	for range 2 {
		base := len(out)
		for _, p := range ps {
			for len(out)-base >= 2 && turn(out[len(out)-2], out[len(out)-1], p) <= 1e-6 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
		slices.Reverse(ps)
	}
	return out
}

func turn(a, b, c spot) float64 {
	d, e := a.to(b), a.to(c)
	return float64(d.x*e.y) - float64(d.y*e.x)
}

// sections lays a panel under the seats; where a seat is missing the panel is missing.
func (c *chart) sections() {
	for i := range c.stands.Seats {
		if c.stands.Sections[c.stands.Seats[i].Section].Spec.Kind != seating.Floor {
			c.area(inkPanel, c.cell(i, -2)...)
		}
		e := nothing()
		e.hold(c.cells[i][:]...)
		c.taken.take(extent{e.x0 + 1, e.y0 + 1, e.x1 - 1, e.y1 - 1})
	}
}

// names writes section names, row names at both ends, and seat numbers.
func (c *chart) names() {
	for i := range c.stands.Sections {
		s := &c.stands.Sections[i]
		if s.First == s.Last {
			continue
		}
		for r := range s.Rows {
			c.rowNames(s, &s.Rows[r])
		}
		c.numbers(s)
		c.sectionName(s)
	}
	c.aisles()
	for i := range c.plan.Scene.Obstacles { // below what they name, where there is room
		o := &c.plan.Scene.Obstacles[i]
		at := c.at(spot{o.Across.Metres(), o.Away.Metres() - float64(o.Depth.Metres()/2)})
		at.y += 9
		e := around(at, advance(printable(o.Name, false), false, smallType), 10)
		if e.x0 >= 4 && e.x1 <= c.width-4 && e.y0 >= c.page.y0 && e.y1 <= c.page.y1+60 && c.taken.free(e) {
			c.taken.take(e)
			c.write(at, small(o.Name))
		}
	}
}

const smallType = 12.0

// small is a name or a number about its place.
func small(words string) lettering {
	return lettering{words: words, size: smallType, colour: inkText, anchor: atMiddle}
}

// beside writes words off a seat, so many times a direction of the floor, if there is room.
// far is how far from the seat's middle the words' nearest edge lies.
func (c *chart) beside(seat int, floor spot, sign, far float64, l lettering) bool {
	way := onPage(spot{floor.x * sign, floor.y * sign})
	w, h := l.length(), l.size*paper.Capital
	if l.turn != 0 {
		w, h = h, w
	}
	at := middle(c.cells[seat][:]).along(way, far+float64((float64(math.Abs(way.x)*w)+float64(math.Abs(way.y)*h))/2))
	e := around(at, w, h)
	if !c.taken.free(e) {
		return false
	}
	c.taken.take(extent{e.x0 - 2, e.y0 - 1, e.x1 + 2, e.y1 + 1})
	l.anchor = atMiddle
	c.write(at, l)
	return true
}

// onPage turns a direction on the floor into one on the page.
func onPage(d spot) spot { return spot{d.x, -d.y} }

// reach is from a seat's middle to the edge of its section, across a place so wide or deep.
func (c *chart) reach(s *seating.Section, place seating.Length) float64 {
	far := float64(place.Metres() / 2 * c.scale)
	if s.Spec.Kind == seating.Floor {
		far += blockMargin
	}
	return far
}

// end is a seat at the end of a row and on which side of it the row ends.
type end struct {
	seat int
	sign float64
}

func ends(r *seating.Row) [2]end { return [2]end{{r.First, -1}, {r.Last - 1, 1}} }

func (c *chart) rowNames(s *seating.Section, r *seating.Row) {
	if r.First == r.Last || s.Spec.Run.Metres()*c.scale < smallType*paper.Capital {
		return
	}
	missing := [2]int32{c.stands.Seats[r.First].Place, int32(r.Places) - 1 - c.stands.Seats[r.Last-1].Place}
	for i, end := range ends(r) {
		right, _ := axes(&c.stands.Seats[end.seat])
		far := c.reach(s, s.Spec.Pitch) + 6
		if s.Spec.Radius == 0 {
			far += float64(s.Spec.Pitch.Metres() * c.scale * float64(missing[i]))
		}
		name := small(r.Name)
		name.bold = true
		c.beside(end.seat, right, end.sign, far, name)
	}
}

// numbers writes seat numbers before the front row and behind the back row:
// the ends first, then every fifth, where there is room.
func (c *chart) numbers(s *seating.Section) {
	far := c.reach(s, s.Spec.Run) + 5
	write := func(seat int, sign float64) {
		_, ahead := axes(&c.stands.Seats[seat])
		number := small(fmt.Sprint(c.stands.Seats[seat].Number))
		number.colour = inkFaint
		c.beside(seat, ahead, sign, far, number)
	}
	for i, row := range [2]*seating.Row{c.row(s.First), c.row(s.Last - 1)} {
		sign := [2]float64{1, -1}[i]
		write(row.First, sign)
		write(row.Last-1, sign)
		for seat := row.First; seat < row.Last; seat++ {
			if c.stands.Seats[seat].Number%5 == 0 {
				write(seat, sign)
			}
		}
	}
}

// row is the seat's; a section's first seat is in its front row, the last one in its back row.
func (c *chart) row(seat int) *seating.Row {
	s := &c.stands.Seats[seat]
	return &c.stands.Sections[s.Section].Rows[s.Row]
}

// nameGap is between a section and its name, in pixels; seat numbers stand in it.
const nameGap = 24.0

// aisles names the ways between neighbouring sections.
func (c *chart) aisles() {
	for i := 1; i < len(c.stands.Sections); i++ {
		a, b := &c.stands.Sections[i-1], &c.stands.Sections[i]
		if !besides(a) || !besides(b) {
			continue
		}
		left, right := nothing(), nothing()
		for k := a.First; k < a.Last; k++ {
			left.hold(middle(c.cells[k][:]))
		}
		for k := b.First; k < b.Last; k++ {
			right.hold(middle(c.cells[k][:]))
		}
		m := spot{float64((left.x1 + right.x0) * 0.5), float64((left.y0 + left.y1) * 0.5)}
		l := small("aisle, kept free")
		l.colour, l.turn = inkFaint, -math.Pi/2
		if e := around(m, smallType*paper.Capital, l.length()); c.taken.free(e) {
			c.taken.take(e)
			c.write(m, l)
		}
	}
}

// besides says whether a section stands straight in the side-by-side line.
func besides(s *seating.Section) bool {
	return s.Spec.Place == nil && s.Spec.Radius == 0 && s.Spec.Kind != seating.Floor && s.Last > s.First
}

// sectionName stands behind the back row, or for a floor block before its front row.
func (c *chart) sectionName(s *seating.Section) {
	row, sign := c.row(s.Last-1), -1.0
	if s.Spec.Kind == seating.Floor {
		row, sign = c.row(s.First), 1
	}
	mid := (row.First + row.Last - 1) / 2
	_, ahead := axes(&c.stands.Seats[mid])
	words := s.Name
	if len([]rune(words)) <= 3 {
		words = "Section " + words
	}
	words = fmt.Sprintf("%s  (%s)", words, say.Thousands(s.Last-s.First))
	l := lettering{words: words, size: 17, bold: true, colour: inkText}
	if math.Abs(ahead.x) > math.Abs(ahead.y) {
		l.turn = math.Copysign(math.Pi/2, ahead.x*sign)
	}
	half := c.reach(s, s.Spec.Run)
	for _, far := range []float64{nameGap, 2 * nameGap, 3 * nameGap} {
		if c.beside(mid, ahead, sign, half+far, l) {
			return
		}
	}
	c.nameAside(s, row, l)
}

// nameAside writes the name of a section that stands tight between others at the end of its row,
// beyond the row's own name: at the left, else at the right; smaller where there is little room.
func (c *chart) nameAside(s *seating.Section, row *seating.Row, l lettering) {
	l.turn = 0
	beyond := c.reach(s, s.Spec.Pitch) + 6 + advance(printable(row.Name, true), true, smallType) + 8
	for _, size := range []float64{l.size, 14, smallType} {
		l.size = size
		for _, end := range ends(row) {
			right, _ := axes(&c.stands.Seats[end.seat])
			if c.beside(end.seat, right, end.sign, beyond, l) {
				return
			}
		}
	}
}

// occupancy remembers which parts of a page are taken, so that names do not lie
// on seats or on each other.
type occupancy struct {
	w, h  int
	taken []bool
}

const occupancyStep = 3.0 // pixels

func newOccupancy(width, height float64) *occupancy {
	o := &occupancy{w: int(width/occupancyStep) + 1, h: int(height/occupancyStep) + 1}
	o.taken = make([]bool, o.w*o.h)
	return o
}

// each visits the squares that e touches; false ends it.
func (o *occupancy) each(e extent, fn func(*bool) bool) bool {
	x0, x1 := max(0, int(math.Floor(e.x0/occupancyStep))), min(o.w-1, int(math.Floor(e.x1/occupancyStep)))
	y0, y1 := max(0, int(math.Floor(e.y0/occupancyStep))), min(o.h-1, int(math.Floor(e.y1/occupancyStep)))
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			if !fn(&o.taken[y*o.w+x]) {
				return false
			}
		}
	}
	return true
}

func (o *occupancy) take(e extent) {
	o.each(e, func(taken *bool) bool {
		*taken = true
		return true
	})
}

func (o *occupancy) free(e extent) bool { return o.each(e, func(taken *bool) bool { return !*taken }) }
