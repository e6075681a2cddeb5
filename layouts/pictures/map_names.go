package pictures

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// floor draws what lies under the seats: lanes, obstacles and floor blocks.
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
		c.obstacle(&c.plan.Scene.Obstacles[i])
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
	text := lettering{size: 14, colour: inkText, anchor: atMiddle}
	long := w
	if h > w {
		text.turn, long = -math.Pi/2, h
	}
	if math.Min(w, h) < 20 {
		return
	}
	text.words = shorten(laneName(l.Name)+", kept free", false, text.size, long-20)
	pad := advance(text.words, false)*text.size + 16
	m := middle([]spot{a, b})
	if h > w {
		c.area(inkLane, rectangle(whole(m.x-10), whole(m.y-pad/2), 20, whole(pad))...)
	} else {
		c.area(inkLane, rectangle(whole(m.x-pad/2), whole(m.y-10), whole(pad), 20)...)
	}
	c.write(m, text)
}

// laneName says that it is a lane, unless its name does.
func laneName(name string) string {
	if low := strings.ToLower(name); strings.Contains(low, "lane") || strings.Contains(low, "way") {
		return name
	}
	return strings.TrimSpace("lane " + name)
}

// obstacle draws what stands on the floor near the seats.
func (c *chart) obstacle(o *camera.Obstacle) {
	x, y, w, d := o.Across.Metres(), o.Away.Metres(), o.Width.Metres()/2, o.Depth.Metres()/2
	a, b := c.at(spot{x - w, y + d}), c.at(spot{x + w, y - d})
	if b.x < c.page.x0-mapSide || a.x > c.page.x1+mapSide || b.y < c.page.y0-40 || a.y > c.page.y1+60 {
		return
	}
	c.taken.take(extent{a.x, a.y, b.x, b.y})
	c.add(shape{points: rectangle(a.x, a.y, math.Max(3, b.x-a.x), math.Max(3, b.y-a.y)), fill: &inkHair, stroke: &inkLine, width: 1, name: o.Name})
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

// block outlines a floor block.
func (c *chart) block(s *seating.Section) {
	var ps []spot
	for i := s.First; i < s.Last; i++ {
		ps = append(ps, c.cells[i][:]...)
	}
	if ring := hull(ps); len(ring) > 2 {
		c.add(shape{points: grow(ring, 7), fill: &inkFloor, stroke: &inkLine, width: 1, name: "floor block " + s.Name})
	}
}

// blockMargin is how far the outline of a floor block keeps names away.
func blockMargin(s *seating.Section) float64 {
	if s.Spec.Kind == seating.Floor {
		return 7
	}
	return 0
}

// hull is the convex hull, corners in order.
func hull(ps []spot) []spot {
	slices.SortFunc(ps, func(a, b spot) int {
		if a.x != b.x {
			return int(math.Copysign(1, a.x-b.x))
		}
		return int(math.Copysign(1, a.y-b.y))
	})
	ps = slices.Compact(ps)
	if len(ps) < 3 {
		return ps
	}
	var out []spot
	half := func(next func(int) spot) {
		base := len(out)
		for i := range ps {
			p := next(i)
			for len(out)-base >= 2 && turn(out[len(out)-2], out[len(out)-1], p) <= 1e-6 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
	}
	half(func(i int) spot { return ps[i] })
	half(func(i int) spot { return ps[len(ps)-1-i] })
	return out
}

func turn(a, b, c spot) float64 { return (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x) }

// grow moves the corners of a convex ring outward.
func grow(ring []spot, px float64) []spot {
	out := make([]spot, len(ring))
	for i, p := range ring {
		a, b := ring[(i+len(ring)-1)%len(ring)], ring[(i+1)%len(ring)]
		nx := unit(p.y-a.y, p.x-a.x) + unit(b.y-p.y, b.x-p.x)
		ny := -unit(p.x-a.x, p.y-a.y) - unit(b.x-p.x, b.y-p.y)
		f := px * 2 / math.Max(0.5, nx*nx+ny*ny)
		out[i] = spot{p.x + nx*f, p.y + ny*f}
	}
	return out
}

// sections lays a panel under the seats; where a seat is missing the panel is missing.
func (c *chart) sections() {
	for i := range c.stands.Seats {
		if c.stands.Sections[c.stands.Seats[i].Section].Spec.Kind != seating.Floor {
			c.area(inkPanel, c.cell(i, -2)...)
		}
		e := nothing()
		for _, p := range c.cells[i] {
			e.hold(p)
		}
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
	for i := range c.plan.Scene.Obstacles {
		c.obstacleName(&c.plan.Scene.Obstacles[i])
	}
}

// obstacleName stands below what it names, where there is room.
func (c *chart) obstacleName(o *camera.Obstacle) {
	at := c.at(spot{o.Across.Metres(), o.Away.Metres() - o.Depth.Metres()/2})
	at.y += 9
	w := advance(printable(o.Name, false), false) * smallType
	e := extent{at.x - w/2, at.y - 5, at.x + w/2, at.y + 5}
	if e.x0 < 4 || e.x1 > c.width-4 || e.y0 < c.page.y0 || e.y1 > c.page.y1+60 || !c.taken.free(e) {
		return
	}
	c.taken.take(e)
	c.write(at, lettering{words: o.Name, size: smallType, colour: inkText, anchor: atMiddle})
}

const smallType = 12.0

// beside writes words off a seat, in a direction on the page, if there is room.
// far is how far from the seat's middle the words' nearest edge lies.
func (c *chart) beside(seat int, way spot, far float64, l lettering) bool {
	m := middle(c.cells[seat][:])
	w, h := advance(l.words, l.bold)*l.size, l.size*capital
	if l.turn != 0 {
		w, h = h, w
	}
	reach := far + (math.Abs(way.x)*w+math.Abs(way.y)*h)/2
	at := spot{m.x + way.x*reach, m.y + way.y*reach}
	e := extent{at.x - w/2, at.y - h/2, at.x + w/2, at.y + h/2}
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

func (c *chart) rowNames(s *seating.Section, r *seating.Row) {
	if r.First == r.Last || s.Spec.Run.Metres()*c.scale < smallType*capital {
		return
	}
	pitch := s.Spec.Pitch.Metres() * c.scale
	first, last := &c.stands.Seats[r.First], &c.stands.Seats[r.Last-1]
	for _, end := range []struct {
		seat    int
		sign    float64
		missing int32 // places beyond it
	}{{r.First, -1, first.Place}, {r.Last - 1, 1, int32(r.Places) - 1 - last.Place}} {
		right, _ := axes(&c.stands.Seats[end.seat])
		way := onPage(spot{right.x * end.sign, right.y * end.sign})
		far := pitch/2 + blockMargin(s) + 6
		if s.Spec.Radius == 0 {
			far += pitch * float64(end.missing)
		}
		c.beside(end.seat, way, far, lettering{words: r.Name, size: smallType, bold: true, colour: inkText})
	}
}

// numbers writes seat numbers before the front row and behind the back row:
// the ends first, then every fifth, where there is room.
func (c *chart) numbers(s *seating.Section) {
	half := s.Spec.Run.Metres()/2*c.scale + blockMargin(s)
	for _, edge := range []struct {
		row  *seating.Row
		sign float64
	}{{frontRow(s), 1}, {backRow(s), -1}} {
		var order []int
		order = append(order, edge.row.First, edge.row.Last-1)
		for i := edge.row.First; i < edge.row.Last; i++ {
			if c.stands.Seats[i].Number%5 == 0 {
				order = append(order, i)
			}
		}
		for _, i := range order {
			_, ahead := axes(&c.stands.Seats[i])
			way := onPage(spot{ahead.x * edge.sign, ahead.y * edge.sign})
			c.beside(i, way, half+5, lettering{words: fmt.Sprint(c.stands.Seats[i].Number), size: smallType, colour: inkFaint})
		}
	}
}

func frontRow(s *seating.Section) *seating.Row {
	for r := range s.Rows {
		if s.Rows[r].Last > s.Rows[r].First {
			return &s.Rows[r]
		}
	}
	return &s.Rows[0]
}

func backRow(s *seating.Section) *seating.Row {
	for r := len(s.Rows) - 1; r > 0; r-- {
		if s.Rows[r].Last > s.Rows[r].First {
			return &s.Rows[r]
		}
	}
	return &s.Rows[0]
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
		m := spot{(left.x1 + right.x0) / 2, (left.y0 + left.y1) / 2}
		words := "aisle, kept free"
		long, tall := advance(words, false)*smallType, smallType*capital
		e := extent{m.x - tall/2, m.y - long/2, m.x + tall/2, m.y + long/2}
		if c.taken.free(e) {
			c.taken.take(e)
			c.write(m, lettering{words: words, size: smallType, colour: inkFaint, anchor: atMiddle, turn: -math.Pi / 2})
		}
	}
}

// besides says whether a section stands straight in the side-by-side line.
func besides(s *seating.Section) bool {
	return s.Spec.Place == nil && s.Spec.Radius == 0 && s.Spec.Kind != seating.Floor && s.Last > s.First
}

// sectionName stands behind the back row, or for a floor block before its front row.
func (c *chart) sectionName(s *seating.Section) {
	row, sign := backRow(s), -1.0
	if s.Spec.Kind == seating.Floor {
		row, sign = frontRow(s), 1
	}
	mid := (row.First + row.Last - 1) / 2
	_, ahead := axes(&c.stands.Seats[mid])
	way := onPage(spot{ahead.x * sign, ahead.y * sign})
	half := s.Spec.Run.Metres()/2*c.scale + blockMargin(s)
	words := s.Name
	if len([]rune(words)) <= 3 {
		words = "Section " + words
	}
	words = fmt.Sprintf("%s  (%s)", words, grouped(s.Last-s.First))
	l := lettering{words: words, size: 17, bold: true, colour: inkText}
	if math.Abs(way.x) > math.Abs(way.y) {
		l.turn = math.Copysign(math.Pi/2, way.x)
	}
	for _, far := range []float64{nameGap, 2 * nameGap, 3 * nameGap} {
		if c.beside(mid, way, half+far, l) {
			return
		}
	}
	c.nameAside(s, row, l)
}

// nameAside writes the name of a section that stands tight between others at the end of its row,
// beyond the row's own name: at the left, else at the right; smaller where there is little room.
func (c *chart) nameAside(s *seating.Section, row *seating.Row, l lettering) {
	l.turn = 0
	pitch := s.Spec.Pitch.Metres() * c.scale
	beyond := pitch/2 + blockMargin(s) + 6 + advance(printable(row.Name, true), true)*smallType + 8
	for _, size := range []float64{l.size, 14, smallType} {
		l.size = size
		for _, end := range []struct {
			seat int
			sign float64
		}{{row.First, -1}, {row.Last - 1, 1}} {
			right, _ := axes(&c.stands.Seats[end.seat])
			if c.beside(end.seat, onPage(spot{right.x * end.sign, right.y * end.sign}), beyond, l) {
				return
			}
		}
	}
}
