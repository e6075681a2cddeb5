package pictures

import (
	"fmt"
	"io"
	"math"
	"strings"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/marks"
	"everyseat/seating"
)

// Marks writes, as PNG, the plan of where the camera can stand: on the left the plan
// as it is, on the right planned anew, below both for the other heights. The camera's side
// is below, so left and right are as the camera sees them.
func Marks(w io.Writer, m *marks.Map) error {
	s := newSite(m)
	s.heading()
	s.groups()
	s.legend()
	s.settle()
	return s.writePNG(w)
}

// Sizes of the plan of marks, in pixels.
const (
	siteWidth  = 1640.0
	siteMargin = 48.0
	siteGap    = 32.0   // between panels
	siteTall   = 1000.0 // a panel at most
	siteTop    = 132.0
	sitePad    = 1.5 // metres around everything
)

// The scale of scores, ten steps from 0 to 1: from dark blue over grey to yellow, so that lightness alone
// tells it too, on a copy without colour and to eyes that do not tell red from green.
// The steps are those of cividis (Nuñez, Anderton, Renslow 2018, PLOS ONE 13(7)), from memory.
var scoreInks = [10]rgb{
	{0x00, 0x22, 0x4e}, {0x12, 0x35, 0x70}, {0x3b, 0x49, 0x6c}, {0x57, 0x5d, 0x6d}, {0x70, 0x71, 0x73},
	{0x8a, 0x86, 0x78}, {0xa5, 0x9c, 0x74}, {0xc3, 0xb3, 0x69}, {0xe1, 0xcc, 0x55}, {0xfe, 0xe8, 0x38},
}

func scoreInk(score float64) rgb { return scoreInks[max(0, min(9, int(score*10+1e-9)))] }

// site is the plan while it is drawn.
type site struct {
	drawing
	m     *marks.Map
	world extent // what every panel shows, in metres
	seats [][4]spot
	y     float64 // how far down it is drawn
}

// most seats that are drawn one by one.
const siteSeats = 6000

func newSite(m *marks.Map) *site {
	s := &site{m: m, world: nothing(), y: siteTop}
	s.width = siteWidth
	c := &chart{stands: m.Plan.Stands}
	for i := range m.Plan.Stands.Seats {
		q := c.footprint(i, 1)
		for _, p := range q {
			s.world.hold(p)
		}
		s.seats = append(s.seats, q)
	}
	for i := range m.Patches {
		p := &m.Patches[i]
		s.world.hold(spot{p.Left.Metres(), -p.Farthest.Metres()})
		s.world.hold(spot{p.Right.Metres(), -p.Nearest.Metres()})
	}
	for i := range m.Plan.Marks {
		v := m.Plan.Marks[i].View.Position
		s.world.hold(spot{v[0] - 1, v[1] - 1})
		s.world.hold(spot{v[0] + 1, v[1] + 1})
	}
	return s
}

func (s *site) heading() {
	title := s.m.Plan.Stunt.Title
	if title == "" {
		title = "Card stunt"
	}
	s.write(spot{siteMargin, 50}, lettering{words: shorten(title, true, 28, s.width-2*siteMargin-180), size: 28, bold: true, colour: inkText})
	s.write(spot{s.width - siteMargin, 50}, lettering{words: s.m.Plan.Stunt.Date, size: 16, colour: inkFaint, anchor: atEnd})
	s.write(spot{siteMargin, 84}, lettering{words: "Where the camera can stand.  Plan from above; the camera's side is below, left and right as the camera sees.", size: 17, colour: inkText})
	s.line(inkHair, 1, spot{siteMargin, 104.5}, spot{s.width - siteMargin, 104.5})
}

// group is the patches at one height.
type group struct {
	height  seating.Length
	patches []*marks.Patch
}

func (s *site) byHeight() []group {
	var out []group
	for i := range s.m.Patches {
		p := &s.m.Patches[i]
		k := 0
		for k < len(out) && out[k].height != p.Height {
			k++
		}
		if k == len(out) {
			out = append(out, group{height: p.Height})
		}
		out[k].patches = append(out[k].patches, p)
	}
	return out
}

// groups draws the first height large and the others below, small.
func (s *site) groups() {
	all := s.byHeight()
	wide := (s.width - 2*siteMargin - siteGap) / 2
	x := siteMargin
	s.panelTitle(x, fmt.Sprintf("The plan as it is, lens %s high", all[0].height.Spoken()), s.strayWords(), 19, wide)
	s.panelTitle(x+wide+siteGap, fmt.Sprintf("Planned anew for each place, lens %s high", all[0].height.Spoken()), s.bestWords(), 19, wide)
	high := s.panel(all[0], x, s.y+58, wide, false, true)
	s.panel(all[0], x+wide+siteGap, s.y+58, wide, true, true)
	s.y += 58 + high + 64
	for rest := all[1:]; len(rest) > 0; rest = rest[min(2, len(rest)):] {
		s.small(rest[:min(2, len(rest))], wide)
	}
}

// small draws one or two further heights below the columns of the first: as it is on the left, anew
// on the right.
func (s *site) small(some []group, column float64) {
	wide := (column - siteGap*float64(len(some)-1)) / float64(len(some))
	high := 0.0
	for k, g := range some {
		x := siteMargin + float64(k)*(wide+siteGap)
		s.panelTitle(x, fmt.Sprintf("As it is, lens %s high", g.height.Spoken()), "", 16, wide)
		s.panelTitle(x+column+siteGap, fmt.Sprintf("Planned anew, lens %s high", g.height.Spoken()), "", 16, wide)
		high = s.panel(g, x, s.y+26, wide, false, false)
		s.panel(g, x+column+siteGap, s.y+26, wide, true, false)
	}
	s.y += 26 + high + 40
}

func (s *site) panelTitle(x float64, words, below string, size, wide float64) {
	s.write(spot{x, s.y + 8}, lettering{words: shorten(words, true, size, wide), size: size, bold: true, colour: inkText})
	small := 15.0
	for small > smallType && advance(printable(below, false), false)*small > wide {
		small--
	}
	s.write(spot{x, s.y + 36}, lettering{words: shorten(below, false, small, wide), size: small, colour: inkText})
}

func (s *site) strayWords() string {
	m := s.m
	if !m.Spells {
		return fmt.Sprintf("No text: shown is the share of the cards' area that is seen. At the mark %.0f %%.", 100*m.Here.Fixed)
	}
	head := fmt.Sprintf("At the mark it %s: %.0f of 100.", m.Verdict(m.Here.Fixed).Says(), 100*m.Here.Fixed)
	if m.Verdict(m.Here.Fixed) != legibility.Reads {
		return head
	}
	stuck := marks.Reach{End: marks.EndRoom}
	if m.Stray == (marks.Stray{Left: stuck, Right: stuck, Forward: stuck, Back: stuck}) {
		return head + " It cannot stray: nothing around is allowed or free."
	}
	reach := func(r marks.Reach) string {
		if r.End == marks.EndFar {
			return fmt.Sprintf("over %g m", r.Distance.Metres())
		}
		return fmt.Sprintf("%g m", r.Distance.Metres())
	}
	return fmt.Sprintf("%s It may stray: left %s, right %s, toward the stands %s, away %s.", head,
		reach(m.Stray.Left), reach(m.Stray.Right), reach(m.Stray.Forward), reach(m.Stray.Back))
}

func (s *site) bestWords() string {
	b := &s.m.Best
	switch {
	case !s.m.Spells:
		return "Nothing to plan anew where nothing is spelt."
	case s.m.BestPlan == nil:
		return fmt.Sprintf("Nowhere clearly better than at the mark, with %.0f of 100: keep the cross where it is.", 100*s.m.Here.Anew)
	}
	side := "in the middle"
	if b.Across != 0 {
		side = fmt.Sprintf("%.2f m to the %s", math.Abs(b.Across.Metres()), map[bool]string{true: "right", false: "left"}[b.Across > 0])
	}
	return fmt.Sprintf("Best: %.2f m back, %s, lens %.2f m high: %s, %.0f of 100; at the mark %.0f.", b.Back.Metres(), side, b.Height.Metres(), s.m.Verdict(b.Anew).Says(), 100*b.Anew, 100*s.m.Here.Anew)
}

// panel is one plan of the room on the page.
type panel struct {
	*site
	scale      float64
	x, y       float64 // of its top left corner
	wide, high float64
	group      group
	anew       bool
	large      bool
	tags       []tag
	signed     []extent // places of dots, crosses and stars, which no name may cover
}

// panel draws a plan into a width and gives its height.
func (s *site) panel(g group, x, y, wide float64, anew, large bool) float64 {
	p := &panel{site: s, x: whole(x), y: whole(y), wide: whole(wide), group: g, anew: anew, large: large}
	w, h := s.world.x1-s.world.x0, s.world.y1-s.world.y0
	p.scale = p.wide / (w + 2*sitePad)
	tall := siteTall
	if !large {
		tall = siteTall / 2
	}
	p.scale = math.Min(p.scale, tall/(h+2*sitePad))
	p.high = ceil((h + 2*sitePad) * p.scale)
	p.wide = math.Min(p.wide, ceil((w+2*sitePad)*p.scale))
	p.draw()
	return p.high
}

// at is a place on the page of a place on the floor.
func (p *panel) at(world spot) spot {
	w := &p.world
	return spot{p.x + p.wide/2 + (world.x-(w.x0+w.x1)/2)*p.scale, p.y + p.high/2 - (world.y-(w.y0+w.y1)/2)*p.scale}
}

func (p *panel) draw() {
	p.area(inkFloor, rectangle(p.x, p.y, p.wide, p.high)...)
	for _, patch := range p.group.patches {
		if p.anew {
			p.ground(patch)
			a, _ := p.cellOf(patch, 0, 0)
			_, b := p.cellOf(patch, patch.Cols-1, patch.Rows-1)
			p.outline(inkHair, 1, rectangle(a.x+0.5, a.y+0.5, b.x-a.x-1, b.y-a.y-1)...)
		} else {
			p.heat(patch)
		}
	}
	p.grid()
	p.ways()
	p.people()
	p.things()
	for _, patch := range p.group.patches {
		if p.anew {
			p.dots(patch)
		} else {
			p.contour(patch)
		}
	}
	p.signs()
	for _, patch := range p.group.patches {
		if patch.Name != "" {
			at := p.at(spot{(patch.Left + patch.Right).Metres() / 2, -patch.Farthest.Metres()})
			p.tags = append(p.tags, tag{at: spot{at.x, at.y + 12}, words: patch.Name, anchor: atMiddle})
		}
	}
	p.names()
	p.outline(inkLine, 1, rectangle(p.x+0.5, p.y+0.5, p.wide-1, p.high-1)...)
	p.ruler()
}

// cellOf is the page's rectangle of a patch's place.
func (p *panel) cellOf(patch *marks.Patch, col, row int) (a, b spot) {
	part := func(from, to seating.Length, i, n int) float64 {
		return from.Metres() + (to-from).Metres()*float64(i)/float64(n)
	}
	a = p.at(spot{part(patch.Left, patch.Right, col, patch.Cols), -part(patch.Nearest, patch.Farthest, row, patch.Rows)})
	b = p.at(spot{part(patch.Left, patch.Right, col+1, patch.Cols), -part(patch.Nearest, patch.Farthest, row+1, patch.Rows)})
	return spot{whole(a.x), whole(a.y)}, spot{whole(b.x), whole(b.y)}
}

// heat fills every place with its score's step.
func (p *panel) heat(patch *marks.Patch) {
	for i, score := range patch.Fixed {
		a, b := p.cellOf(patch, i%patch.Cols, i/patch.Cols)
		if score == marks.Unknown {
			p.line(inkHair, 1, spot{a.x, b.y}, spot{b.x, a.y})
			continue
		}
		p.area(scoreInk(score), rectangle(a.x, a.y, b.x-a.x, b.y-a.y)...)
	}
}

// ground strokes the places of a plan of dots where no camera can be.
func (p *panel) ground(patch *marks.Patch) {
	for i, score := range patch.Fixed {
		if a, b := p.cellOf(patch, i%patch.Cols, i/patch.Cols); score == marks.Unknown {
			p.line(inkHair, 1, spot{a.x, b.y}, spot{b.x, a.y})
		}
	}
}

// dots shows what was planned anew: the even places as large dots with their score, those
// around the best as small ones.
func (p *panel) dots(patch *marks.Patch) {
	step := p.dotStep(patch)
	for _, large := range []bool{true, false} {
		for i, score := range patch.Anew {
			if score == marks.Unknown || patch.Even(i) != large {
				continue
			}
			place := patch.At(i%patch.Cols, i/patch.Cols)
			at := p.at(spot{place.Across.Metres(), -place.Back.Metres()})
			ink := scoreInk(score)
			r := math.Min(17, step*0.4)
			if !large {
				r = math.Min(6, r/2)
			}
			p.add(shape{points: circle(at, r), fill: &ink, stroke: &inkText, width: 1})
			p.sign(at, r)
			if large && r >= 12 {
				p.write(at, lettering{words: fmt.Sprintf("%.0f", 100*score), size: 12, bold: true, colour: inkOn(ink), anchor: atMiddle})
			}
		}
	}
}

// dotStep is the least distance of two large dots on the page.
func (p *panel) dotStep(patch *marks.Patch) float64 {
	w := (patch.Right - patch.Left).Metres() * p.scale / float64(min(patch.Cols, patch.EvenCols()))
	h := (patch.Farthest - patch.Nearest).Metres() * p.scale / float64(min(patch.Rows, patch.EvenRows()))
	return math.Min(w, h)
}

// grid is a fine line every five metres, from the front row's middle.
func (p *panel) grid() {
	const step = 5
	for x := math.Ceil(p.world.x0/step) * step; x <= p.world.x1; x += step {
		p.line(inkHair, 0.5, p.at(spot{x, p.world.y0 - 1}), p.at(spot{x, math.Min(0, p.world.y1)}))
	}
	for y := math.Ceil(p.world.y0/step) * step; y <= 0; y += step {
		a, b := p.at(spot{p.world.x0, y}), p.at(spot{p.world.x1, y})
		p.line(inkHair, 0.5, spot{p.x, a.y}, spot{p.x + p.wide, b.y})
		if p.large && y < 0 && a.y < p.y+p.high-24 {
			p.tags = append(p.tags, tag{at: spot{p.x + 4, a.y}, words: fmt.Sprintf("%.0f m", -y), anchor: atStart},
				tag{at: spot{p.x + p.wide - 4, a.y}, words: fmt.Sprintf("%.0f ft", -y/0.3048), anchor: atEnd})
		}
	}
}

// ways draws lanes.
func (p *panel) ways() {
	for i := range p.m.Plan.Stands.Spec.Lanes {
		l := &p.m.Plan.Stands.Spec.Lanes[i]
		a, b := p.at(spot{l.Left.Metres(), l.Far.Metres()}), p.at(spot{l.Right.Metres(), l.Near.Metres()})
		a, b = p.clip(a), p.clip(b)
		if b.x-a.x < 2 || b.y-a.y < 2 {
			continue
		}
		p.dashed(a, spot{b.x, a.y})
		p.dashed(a, spot{a.x, b.y})
		p.dashed(spot{a.x, b.y}, b)
		p.dashed(spot{b.x, a.y}, b)
		if p.large {
			p.nameLane(l.Name, a, b)
		}
	}
}

// nameLane names a lane along its longer side, where it has room.
func (p *panel) nameLane(name string, a, b spot) {
	words := laneName(printable(name, false))
	long := advance(words, false)*smallType + 8
	t := tag{at: spot{(a.x + b.x) / 2, (a.y + b.y) / 2}, words: words}
	switch {
	case long < b.x-a.x:
	case long < b.y-a.y && b.x-a.x > 16:
		t.upright = true
	default:
		return
	}
	p.tags = append(p.tags, t)
}

func (p *panel) clip(a spot) spot {
	return spot{math.Max(p.x, math.Min(p.x+p.wide, a.x)), math.Max(p.y, math.Min(p.y+p.high, a.y))}
}

// dashed is a line that shows on light and dark ground.
func (p *panel) dashed(a, b spot) {
	p.line(inkWhite, 2.5, a, b)
	long := math.Hypot(b.x-a.x, b.y-a.y)
	const dash = 6.0
	for d := 0.0; d < long; d += 2 * dash {
		e := math.Min(long, d+dash)
		p.line(inkText, 1, spot{a.x + (b.x-a.x)*d/long, a.y + (b.y-a.y)*d/long}, spot{a.x + (b.x-a.x)*e/long, a.y + (b.y-a.y)*e/long})
	}
}

// people draws the seats of every section and its name.
func (p *panel) people() {
	stands := p.m.Plan.Stands
	for i := range stands.Sections {
		sec := &stands.Sections[i]
		if sec.First == sec.Last {
			continue
		}
		var middle spot
		var all []spot
		for k := sec.First; k < sec.Last; k++ {
			var cell []spot
			for _, q := range p.seats[k] {
				at := p.at(q)
				cell = append(cell, at)
				middle.x += at.x / 4 / float64(sec.Last-sec.First)
				middle.y += at.y / 4 / float64(sec.Last-sec.First)
			}
			all = append(all, cell...)
			if len(stands.Seats) <= siteSeats && sec.Spec.Kind != seating.Floor {
				p.add(shape{points: cell, fill: &inkPerson, stroke: &inkWhite, width: 0.5})
			}
		}
		ring := hull(all)
		switch {
		case sec.Spec.Kind == seating.Floor && p.group.height >= overPeople:
			p.outline(inkWhite, 2.5, ring...)
			p.outline(inkText, 1, ring...)
		case sec.Spec.Kind == seating.Floor || len(stands.Seats) > siteSeats:
			p.add(shape{points: ring, fill: &inkPerson, stroke: &inkLine, width: 1})
		}
		if p.large {
			p.tags = append(p.tags, tag{at: middle, words: sec.Name, anchor: atMiddle})
		}
	}
}

// overPeople is a lens under which people on the floor sit without being in its place.
const overPeople = 220 * seating.Centimetre

// things draws walls and obstacles.
func (p *panel) things() {
	room := &p.m.Plan.Stunt.Room
	var corners []spot
	for _, c := range room.Walls {
		corners = append(corners, p.at(spot{c[0].Metres(), c[1].Metres()}))
	}
	for i := range corners {
		k := i + 1
		if k == len(corners) {
			if !p.m.Closed {
				break
			}
			k = 0
		}
		if a, b, ok := p.within(corners[i], corners[k]); ok {
			p.line(inkText, 4, a, b)
		}
	}
	for i := range room.Obstacles {
		o := &room.Obstacles[i]
		x, y, w, d := o.Across.Metres(), o.Away.Metres(), o.Width.Metres()/2, o.Depth.Metres()/2
		a, b := p.at(spot{x - w, y + d}), p.at(spot{x + w, y - d})
		if b.x < p.x || a.x > p.x+p.wide || b.y < p.y || a.y > p.y+p.high {
			continue
		}
		wide, high := math.Max(4, b.x-a.x), math.Max(4, b.y-a.y)
		box := rectangle(a.x, a.y, wide, high)
		p.add(shape{points: box, fill: &inkWhite, stroke: &inkText, width: 1.5})
		p.line(inkText, 1, box[0], box[2])
		p.line(inkText, 1, box[1], box[3])
		if p.large && o.Name != "" {
			p.tags = append(p.tags, tag{at: spot{a.x + wide/2, b.y + 11}, words: o.Name, anchor: atMiddle})
		}
	}
}

// within is the part of a stretch that lies in the panel (Liang and Barsky's clipping).
func (p *panel) within(a, b spot) (c, d spot, ok bool) {
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{{a.x - b.x, a.x - p.x}, {b.x - a.x, p.x + p.wide - a.x}, {a.y - b.y, a.y - p.y}, {b.y - a.y, p.y + p.high - a.y}} {
		switch t := e[1] / e[0]; {
		case e[0] == 0 && e[1] < 0:
			return c, d, false
		case e[0] == 0:
		case e[0] < 0:
			t0 = math.Max(t0, t)
		default:
			t1 = math.Min(t1, t)
		}
	}
	on := func(t float64) spot { return spot{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t} }
	return on(t0), on(t1), t0 < t1
}

// contour draws where what reads ends: marching squares between the places' middles.
func (p *panel) contour(patch *marks.Patch) {
	if !p.m.Spells {
		return
	}
	reads, _ := legibility.Thresholds()
	var lines [][2]spot
	for row := 0; row+1 < patch.Rows; row++ {
		for col := 0; col+1 < patch.Cols; col++ {
			lines = append(lines, p.square(patch, col, row, reads)...)
		}
	}
	for _, l := range lines {
		p.line(inkWhite, 5, l[0], l[1])
	}
	for _, l := range lines {
		p.line(inkText, 2.5, l[0], l[1])
	}
}

// square is the contour in the square between four places.
func (p *panel) square(patch *marks.Patch, col, row int, level float64) [][2]spot {
	var at [4]spot
	var score [4]float64
	for k, d := range [4][2]int{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		c, r := col+d[0], row+d[1]
		if score[k] = patch.Fixed[r*patch.Cols+c]; score[k] == marks.Unknown {
			return nil
		}
		place := patch.At(c, r)
		at[k] = p.at(spot{place.Across.Metres(), -place.Back.Metres()})
	}
	var ends []spot
	for k := range 4 {
		a, b := score[k], score[(k+1)%4]
		if (a >= level) == (b >= level) {
			continue
		}
		t := (level - a) / (b - a)
		p, q := at[k], at[(k+1)%4]
		ends = append(ends, spot{p.x + (q.x-p.x)*t, p.y + (q.y-p.y)*t})
	}
	switch len(ends) {
	case 2:
		return [][2]spot{{ends[0], ends[1]}}
	case 4:
		// A saddle: the middle decides which corners belong together.
		if mean := (score[0] + score[1] + score[2] + score[3]) / 4; (mean >= level) == (score[0] >= level) {
			return [][2]spot{{ends[0], ends[1]}, {ends[2], ends[3]}}
		}
		return [][2]spot{{ends[3], ends[0]}, {ends[1], ends[2]}}
	}
	return nil
}

// signs draws the frame, the walk, further marks, the mark and the best place.
func (p *panel) signs() {
	here := p.at(spot{p.m.Here.Across.Metres(), -p.m.Here.Back.Metres()})
	if p.large && !p.anew {
		p.frame(here)
	}
	p.walk()
	for i := 1; i < len(p.m.Plan.Marks); i++ {
		v := p.m.Plan.Marks[i].View
		at := p.at(spot{v.Position[0], v.Position[1]})
		p.cross(at, 6)
		if p.large {
			p.tags = append(p.tags, tag{at: spot{at.x, at.y + 18}, words: v.Name, anchor: atMiddle})
		}
	}
	if p.m.Here.Height == p.group.height || p.large {
		p.cross(here, 10)
	}
	if p.m.BestPlan != nil && p.anew && p.m.Best.Height == p.group.height {
		p.star(p.at(spot{p.m.Best.Across.Metres(), -p.m.Best.Back.Metres()}), 14)
	}
}

// frame shows how much the lens takes in from the mark.
func (p *panel) frame(here spot) {
	v := p.m.Plan.Marks[0].View
	half := float64(v.Width) / 2 / v.Focal
	f, r := v.Rotation[2], v.Rotation[0]
	for _, side := range []float64{-half, half} {
		way := spot{f[0] + side*r[0], f[1] + side*r[1]}
		const far = 200
		if a, b, ok := p.within(here, spot{here.x + way.x*far*p.scale, here.y - way.y*far*p.scale}); ok {
			p.line(inkWhite, 2.5, a, b)
			p.line(inkText, 1, a, b)
		}
	}
}

func (p *panel) walk() {
	if p.m.Walk == nil || p.anew || !p.large {
		return
	}
	var way []spot
	for i := range p.m.Walk.Steps {
		s := &p.m.Walk.Steps[i]
		way = append(way, p.at(spot{s.Across.Metres(), -s.Back.Metres()}))
	}
	p.line(inkWhite, 5, way...)
	p.line(inkText, 2, way...)
	for i, at := range way {
		if f := p.m.Walk.Steps[i].Fixed; f != marks.Unknown {
			ink := scoreInk(f)
			p.add(shape{points: circle(at, 4), fill: &ink, stroke: &inkText, width: 1})
		}
	}
}

// cross is a tape cross.
func (p *panel) cross(at spot, r float64) {
	p.sign(at, r+1)
	for _, s := range []struct {
		ink   rgb
		width float64
		over  float64
	}{{inkText, 8, 2}, {inkWhite, 4, 0}} {
		e := r + s.over/2
		p.line(s.ink, s.width, spot{at.x - e, at.y - e}, spot{at.x + e, at.y + e})
		p.line(s.ink, s.width, spot{at.x - e, at.y + e}, spot{at.x + e, at.y - e})
	}
}

// star marks the best place.
func (p *panel) star(at spot, r float64) {
	p.sign(at, r)
	var ps []spot
	for i := range 10 {
		a := math.Pi * float64(i) / 5
		q := r
		if i%2 == 1 {
			q = r * 0.45
		}
		ps = append(ps, spot{at.x + q*math.Sin(a), at.y - q*math.Cos(a)})
	}
	p.add(shape{points: ps, fill: &inkWhite, stroke: &inkText, width: 2})
}

// ruler stands below a panel: metres above its line, feet below.
func (p *panel) ruler() {
	if !p.large {
		return
	}
	long := 5.0
	for _, l := range []float64{10, 20, 50} {
		if l*p.scale <= p.wide/2.5 {
			long = l
		}
	}
	x, y := p.x, p.y+p.high+28
	p.line(inkText, 1.5, spot{x, y}, spot{x + long*p.scale, y})
	for i := range 6 {
		m := long * float64(i) / 5
		at := x + m*p.scale
		p.line(inkText, 1.5, spot{at, y - 6}, spot{at, y})
		p.write(spot{at, y - 14}, lettering{words: fmt.Sprintf("%g", m), size: smallType, colour: inkText, anchor: atMiddle})
	}
	step := 5.0
	for step*0.3048*5 < long*0.9 {
		step += 5
	}
	last := 0.0
	for f := 0.0; f*0.3048 <= long+1e-9; f += step {
		last = x + f*0.3048*p.scale
		p.line(inkText, 1.5, spot{last, y}, spot{last, y + 6})
		p.write(spot{last, y + 15}, lettering{words: fmt.Sprintf("%.0f", f), size: smallType, colour: inkText, anchor: atMiddle})
	}
	p.write(spot{x + long*p.scale + 16, y - 14}, lettering{words: "m", size: smallType, colour: inkText})
	p.write(spot{x + long*p.scale + 16, y + 15}, lettering{words: "ft", size: smallType, colour: inkText})
}

// legend says what colours and signs mean.
func (s *site) legend() {
	y := s.y + 14
	s.line(inkHair, 1, spot{siteMargin, whole(y) - 0.5}, spot{s.width - siteMargin, whole(y) - 0.5})
	y += 40
	s.scale(siteMargin, y)
	p := &panel{site: s}
	x := siteMargin + 620
	sign := func(draw func(at spot), words string) {
		draw(spot{x + 12, y})
		s.write(spot{x + 34, y}, lettering{words: words, size: 15, colour: inkText})
		y += 30
	}
	y -= 8
	top := y
	sign(func(at spot) { p.cross(at, 8) }, "a mark as the stunt has it")
	if s.m.BestPlan != nil {
		sign(func(at spot) { p.star(at, 12) }, "the best place for the cross")
	}
	sign(func(at spot) {
		s.line(inkWhite, 5, spot{at.x - 12, at.y}, spot{at.x + 12, at.y})
		s.line(inkText, 2.5, spot{at.x - 12, at.y}, spot{at.x + 12, at.y})
	}, "within this line it reads")
	x, y = x+310, top
	sign(func(at spot) {
		a := spot{at.x - 9, at.y - 9}
		s.area(inkFloor, rectangle(a.x, a.y, 18, 18)...)
		for d := 6.0; d < 36; d += 6 {
			q := spot{at.x - 9 + math.Min(d, 18), at.y + 9 - math.Max(0, d-18)}
			r := spot{at.x - 9 + math.Max(0, d-18), at.y + 9 - math.Min(d, 18)}
			s.line(inkHair, 1, q, r)
		}
	}, "no camera can stand there, or none was looked at")
	sign(func(at spot) { p.dashed(spot{at.x - 12, at.y}, spot{at.x + 12, at.y}) }, "a lane: it stays free, the cross is never put there below 2.2 m")
	sign(func(at spot) {
		s.add(shape{points: rectangle(at.x-9, at.y-9, 18, 18), fill: &inkPerson, stroke: &inkLine, width: 1})
	}, "seats")
	s.height = ceil(math.Max(y, top+110) + 50)
	foot := s.height - 26
	s.line(inkHair, 1, spot{siteMargin, foot - 16.5}, spot{s.width - siteMargin, foot - 16.5})
	s.write(spot{siteMargin, foot}, lettering{words: "Plan " + s.m.Plan.Code, size: 13, bold: true, colour: inkText})
	s.write(spot{s.width - siteMargin, foot}, lettering{words: "Scores count people missing, wrong cards and uneven hands in.  Whoever walks backwards with a camera has a spotter.", size: 13, colour: inkFaint, anchor: atEnd})
}

// scale is the bar of colours with what they mean.
func (s *site) scale(x, y float64) {
	const wide, high = 54.0, 22.0
	words := "score of 100"
	if !s.m.Spells {
		words = "share of the cards' area that is seen, in percent"
	}
	s.write(spot{x, y - 22}, lettering{words: words, size: 15, colour: inkText})
	for i, ink := range scoreInks {
		s.area(ink, rectangle(x+float64(i)*wide, y-6, wide, high)...)
	}
	s.outline(inkText, 1, rectangle(x-0.5, y-6.5, 10*wide+1, high+1)...)
	for i := 0; i <= 10; i += 2 {
		s.write(spot{x + float64(i)*wide, y + 28}, lettering{words: fmt.Sprint(i * 10), size: smallType, colour: inkText, anchor: atMiddle})
	}
	if !s.m.Spells {
		return
	}
	reads, fails := legibility.Thresholds()
	from := 0.0
	for _, part := range []struct {
		to    float64
		words string
	}{{fails, "does not read"}, {reads, "marginal"}, {1, "reads"}} {
		a, b := x+from*10*wide, x+part.to*10*wide
		s.line(inkText, 1.5, spot{a + 2, y + 44}, spot{b - 2, y + 44})
		s.line(inkText, 1.5, spot{a + 2, y + 38}, spot{a + 2, y + 44})
		s.line(inkText, 1.5, spot{b - 2, y + 38}, spot{b - 2, y + 44})
		s.write(spot{(a + b) / 2, y + 58}, lettering{words: strings.TrimSpace(shorten(part.words, false, 14, math.Max(b-a, 40))), size: 14, colour: inkText, anchor: atMiddle})
		from = part.to
	}
}
