package pictures

import (
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/marks"
	"everyseat/seating"
)

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
	w, h := s.world.x1-s.world.x0+2*sitePad, s.world.y1-s.world.y0+2*sitePad
	tall := siteTall
	if !large {
		tall = siteTall / 2
	}
	p.scale = math.Min(p.wide/w, tall/h)
	p.high = ceil(h * p.scale)
	p.wide = math.Min(p.wide, ceil(w*p.scale))
	p.draw()
	return p.high
}

// at is a place on the page of a place on the floor.
func (p *panel) at(world spot) spot {
	w := &p.world
	way := spot{w.x0, w.y0}.toward(spot{w.x1, w.y1}, 0.5).to(world)
	return spot{p.x, p.y}.along(spot{p.wide, p.high}, 0.5).along(onPage(way), p.scale)
}

// of is where a camera's place is on the page.
func (p *panel) of(place marks.Place) spot {
	return p.at(spot{place.Across.Metres(), -place.Back.Metres()})
}

// tag notes a name to be written.
func (p *panel) tag(x, y float64, words string, a anchor) {
	p.tags = append(p.tags, tag{at: spot{x, y}, words: words, anchor: a})
}

func (p *panel) draw() {
	p.area(inkFloor, rectangle(p.x, p.y, p.wide, p.high)...)
	for _, patch := range p.group.patches {
		p.ground(patch)
		if p.anew {
			a, _ := p.cellOf(patch, 0, 0)
			_, b := p.cellOf(patch, patch.Cols-1, patch.Rows-1)
			p.outline(inkHair, 1, rectangle(a.x+0.5, a.y+0.5, b.x-a.x-1, b.y-a.y-1)...)
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
			p.tag(at.x, at.y+12, patch.Name, atMiddle)
		}
	}
	p.names()
	p.outline(inkLine, 1, rectangle(p.x+0.5, p.y+0.5, p.wide-1, p.high-1)...)
	p.ruler()
}

// cellOf is the page's rectangle of a patch's place.
func (p *panel) cellOf(patch *marks.Patch, col, row int) (a, b spot) {
	corner := func(col, row int) spot {
		wide, deep := (patch.Right - patch.Left).Metres(), (patch.Farthest - patch.Nearest).Metres()
		across := patch.Left.Metres() + float64(wide*float64(col)/float64(patch.Cols))
		at := p.at(spot{across, -(patch.Nearest.Metres() + float64(deep*float64(row)/float64(patch.Rows)))})
		return spot{whole(at.x), whole(at.y)}
	}
	return corner(col, row), corner(col+1, row+1)
}

// ground strokes the places where no camera can be. In a plan of scores it fills the others with theirs.
func (p *panel) ground(patch *marks.Patch) {
	for i, score := range patch.Fixed {
		switch a, b := p.cellOf(patch, i%patch.Cols, i/patch.Cols); {
		case score == marks.Unknown:
			p.line(inkHair, 1, spot{a.x, b.y}, spot{b.x, a.y})
		case !p.anew:
			p.area(scoreInk(score), rectangle(a.x, a.y, b.x-a.x, b.y-a.y)...)
		}
	}
}

// dots shows what was planned anew: the even places as large dots with their score, those
// around the best as small ones.
func (p *panel) dots(patch *marks.Patch) {
	// The least distance of two large dots on the page.
	w := (patch.Right - patch.Left).Metres() * p.scale / float64(min(patch.Cols, patch.EvenCols()))
	h := (patch.Farthest - patch.Nearest).Metres() * p.scale / float64(min(patch.Rows, patch.EvenRows()))
	step := math.Min(w, h)
	for _, large := range []bool{true, false} {
		for i, score := range patch.Anew {
			if score == marks.Unknown || patch.Even(i) != large {
				continue
			}
			at := p.of(patch.At(i%patch.Cols, i/patch.Cols))
			ink := scoreInk(score)
			r := math.Min(17, step*0.4)
			if !large {
				r = math.Min(6, r/2)
			}
			p.add(shape{points: circle(at, r), fill: &ink, stroke: &inkText, width: 1})
			p.sign(at, r)
			if large && r >= 12 {
				l := small(fmt.Sprintf("%.0f", 100*score))
				l.bold, l.colour = true, inkOn(ink)
				p.write(at, l)
			}
		}
	}
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
			p.tag(p.x+4, a.y, fmt.Sprintf("%.0f m", -y), atStart)
			p.tag(p.x+p.wide-4, a.y, fmt.Sprintf("%.0f ft", -y/0.3048), atEnd)
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
		right, left := spot{b.x, a.y}, spot{a.x, b.y}
		for _, side := range [4][2]spot{{a, right}, {a, left}, {left, b}, {right, b}} {
			p.dashed(side[0], side[1])
		}
		// Its name stands along its longer side, where there is room.
		t := tag{at: spot{(a.x + b.x) / 2, (a.y + b.y) / 2}, words: laneName(printable(l.Name, false))}
		long := advance(t.words, false, smallType) + 8
		t.upright = long >= b.x-a.x
		if p.large && (!t.upright || long < b.y-a.y && b.x-a.x > 16) {
			p.tags = append(p.tags, t)
		}
	}
}

func (p *panel) clip(a spot) spot {
	return spot{math.Max(p.x, math.Min(p.x+p.wide, a.x)), math.Max(p.y, math.Min(p.y+p.high, a.y))}
}

// dashed is a line that shows on light and dark ground.
func (d *drawing) dashed(a, b spot) {
	d.line(inkWhite, 2.5, a, b)
	long := math.Hypot(b.x-a.x, b.y-a.y)
	const dash = 6.0
	for at := 0.0; at < long; at += 2 * dash {
		d.line(inkText, 1, a.toward(b, at/long), a.toward(b, math.Min(long, at+dash)/long))
	}
}

// doubled is a black line on a wider white one, which shows on every ground.
func (d *drawing) doubled(wide, width float64, ps ...spot) {
	d.line(inkWhite, wide, ps...)
	d.line(inkText, width, ps...)
}

// people draws the seats of every section and its name.
func (p *panel) people() {
	stands := p.m.Plan.Stands
	for i := range stands.Sections {
		sec := &stands.Sections[i]
		if sec.First == sec.Last {
			continue
		}
		var all []spot
		for k := sec.First; k < sec.Last; k++ {
			var cell []spot
			for _, q := range p.seats[k] {
				cell = append(cell, p.at(q))
			}
			all = append(all, cell...)
			if len(stands.Seats) <= siteSeats && sec.Spec.Kind != seating.Floor {
				p.add(shape{points: cell, fill: &inkPerson, stroke: &inkWhite, width: 0.5})
			}
		}
		middle := middle(all)
		ring := hull(all)
		switch {
		case sec.Spec.Kind == seating.Floor && p.group.height >= overPeople:
			p.outline(inkWhite, 2.5, ring...)
			p.outline(inkText, 1, ring...)
		case sec.Spec.Kind == seating.Floor || len(stands.Seats) > siteSeats:
			p.add(shape{points: ring, fill: &inkPerson, stroke: &inkLine, width: 1})
		}
		if p.large {
			p.tag(middle.x, middle.y, sec.Name, atMiddle)
		}
	}
}

// overPeople is a lens under which people on the floor sit without being in its place.
const overPeople = 220 * seating.Centimetre

// things draws walls and obstacles.
func (p *panel) things() {
	room := &p.m.Plan.Stunt.Room
	var walls []spot
	for _, c := range room.Walls {
		walls = append(walls, p.at(spot{c[0].Metres(), c[1].Metres()}))
	}
	if p.m.Closed && len(walls) > 0 {
		walls = append(walls, walls[0])
	}
	for i := 1; i < len(walls); i++ {
		if a, b, ok := p.within(walls[i-1], walls[i]); ok {
			p.line(inkText, 4, a, b)
		}
	}
	for i := range room.Obstacles {
		o := &room.Obstacles[i]
		far, near := standing(o)
		a, b := p.at(far), p.at(near)
		if b.x < p.x || a.x > p.x+p.wide || b.y < p.y || a.y > p.y+p.high {
			continue
		}
		wide, high := math.Max(4, b.x-a.x), math.Max(4, b.y-a.y)
		box := rectangle(a.x, a.y, wide, high)
		p.add(shape{points: box, fill: &inkWhite, stroke: &inkText, width: 1.5})
		p.crossed(inkText, box)
		if p.large && o.Name != "" {
			p.tag(a.x+float64(wide*0.5), b.y+11, o.Name, atMiddle)
		}
	}
}

// within is the part of a stretch that lies in the panel (Liang and Barsky's clipping).
func (p *panel) within(a, b spot) (c, d spot, ok bool) {
	t0, t1 := 0.0, 1.0
	w := a.to(b)
	for _, e := range [4][2]float64{
		{-w.x, a.x - p.x}, {w.x, p.x + p.wide - a.x}, {-w.y, a.y - p.y}, {w.y, p.y + p.high - a.y},
	} {
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
	return a.toward(b, t0), a.toward(b, t1), t0 < t1
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
		at[k] = p.of(patch.At(c, r))
	}
	var ends []spot
	for k := range 4 {
		a, b := score[k], score[(k+1)%4]
		if (a >= level) == (b >= level) {
			continue
		}
		ends = append(ends, at[k].toward(at[(k+1)%4], (level-a)/(b-a)))
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

// signs draws how much the lens takes in from the mark, the walk, further marks, the mark and the best place.
func (p *panel) signs() {
	here := p.of(p.m.Here.Place)
	if p.large && !p.anew {
		v := p.m.Plan.Marks[0].View
		half := float64(v.Width) / 2 / v.Focal
		f, r := v.Rotation[2], v.Rotation[0]
		for _, side := range []float64{-half, half} {
			way := onPage(spot{f[0], f[1]}.along(spot{r[0], r[1]}, side))
			const far = 200
			if a, b, ok := p.within(here, here.along(way, far*p.scale)); ok {
				p.doubled(2.5, 1, a, b)
			}
		}
		if p.m.Walk != nil {
			p.walk(p.m.Walk.Steps)
		}
	}
	for i := 1; i < len(p.m.Plan.Marks); i++ {
		v := p.m.Plan.Marks[i].View
		at := p.at(spot{v.Position[0], v.Position[1]})
		p.cross(at, 6)
		if p.large {
			p.tag(at.x, at.y+18, v.Name, atMiddle)
		}
	}
	if p.m.Here.Height == p.group.height || p.large {
		p.cross(here, 10)
	}
	if p.m.BestPlan != nil && p.anew && p.m.Best.Height == p.group.height {
		p.star(p.of(p.m.Best.Place), 14)
	}
}

func (p *panel) walk(steps []marks.WalkStep) {
	var way []spot
	for i := range steps {
		way = append(way, p.of(steps[i].Place))
	}
	p.doubled(5, 2, way...)
	for i, at := range way {
		if f := steps[i].Fixed; f != marks.Unknown {
			ink := scoreInk(f)
			p.add(shape{points: circle(at, 4), fill: &ink, stroke: &inkText, width: 1})
		}
	}
}

// cross is a tape cross.
func (p *panel) cross(at spot, r float64) {
	p.sign(at, r+1)
	for _, s := range []struct {
		ink      rgb
		width, e float64
	}{{inkText, 8, r + 1}, {inkWhite, 4, r}} {
		p.line(s.ink, s.width, spot{at.x - s.e, at.y - s.e}, spot{at.x + s.e, at.y + s.e})
		p.line(s.ink, s.width, spot{at.x - s.e, at.y + s.e}, spot{at.x + s.e, at.y - s.e})
	}
}

// star marks the best place.
func (p *panel) star(at spot, r float64) {
	p.sign(at, r)
	var ps [10]spot
	for i := range ps {
		sin, cos := math.Sincos(math.Pi * float64(i) / 5)
		ps[i] = at.along(spot{sin, -cos}, [...]float64{r, r * 0.45}[i%2])
	}
	p.add(shape{points: ps[:], fill: &inkWhite, stroke: &inkText, width: 2})
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
	at := func(metres, below float64) spot {
		return spot{p.x + float64(metres*p.scale), p.y + p.high + 28 + below}
	}
	p.line(inkText, 1.5, at(0, 0), at(long, 0))
	for i := range 6 {
		m := long * float64(i) / 5
		p.line(inkText, 1.5, at(m, -6), at(m, 0))
		p.write(at(m, -14), small(fmt.Sprintf("%g", m)))
	}
	step := 5.0
	for step*0.3048*5 < long*0.9 {
		step += 5
	}
	for f := 0.0; f*0.3048 <= long+1e-9; f += step {
		p.line(inkText, 1.5, at(f*0.3048, 0), at(f*0.3048, 6))
		p.write(at(f*0.3048, 15), small(fmt.Sprintf("%.0f", f)))
	}
	for _, unit := range []struct {
		words string
		below float64
	}{{"m", -14}, {"ft", 15}} {
		end := at(long, unit.below)
		p.write(spot{end.x + 16, end.y}, lettering{words: unit.words, size: smallType, colour: inkText})
	}
}

// tag is a name on a panel, to be written when all else is drawn, on paper of its own so that it can
// be read on any ground.
type tag struct {
	at      spot
	words   string
	anchor  anchor
	upright bool // from below to above
}

// box is the tag's paper.
func (t *tag) box() extent {
	long := advance(t.words, false, smallType) + 6
	if t.upright {
		return around(t.at, 16, long+2)
	}
	x := t.at.x - 3
	switch t.anchor {
	case atMiddle:
		x = t.at.x - float64(long*0.5)
	case atEnd:
		x = t.at.x - long + 3
	}
	return extent{x, t.at.y - 8, x + long, t.at.y + 8}
}

// sign remembers that something round is drawn here which no name may cover.
func (p *panel) sign(at spot, r float64) {
	p.signed = append(p.signed, around(at, 2*r, 2*r))
}

// names writes the tags, each as near to its place as it covers nothing.
func (p *panel) names() {
	for _, t := range p.tags {
		t.words = printable(t.words, false)
		t.at = p.clear(t)
		b := t.box()
		p.signed = append(p.signed, b)
		p.area(inkFloor, rectangle(whole(b.x0), whole(b.y0), whole(b.x1-b.x0), whole(b.y1-b.y0))...)
		l := lettering{words: t.words, size: smallType, colour: inkText, anchor: t.anchor}
		if t.upright {
			l.anchor, l.turn = atMiddle, -math.Pi/2
		}
		p.write(t.at, l)
	}
}

// clear is the nearest place, by steps, where the tag covers no sign, no other name, and leaves the panel
// nowhere; its own where there is none.
func (p *panel) clear(t tag) spot {
	const step, most = 6.0, 24
	best, least := t.at, math.Inf(1)
	for dy := -most; dy <= most; dy++ {
		for dx := -most; dx <= most; dx++ {
			// Aside is worse than up or down: a name stays in line with what it names.
			far := float64(2*dx*dx + dy*dy)
			if far >= least {
				continue
			}
			moved := t
			moved.at = t.at.along(spot{float64(dx), float64(dy)}, step)
			b := moved.box()
			covers := func(s extent) bool { return b.x0 < s.x1 && s.x0 < b.x1 && b.y0 < s.y1 && s.y0 < b.y1 }
			inside := b.x0 >= p.x && b.y0 >= p.y && b.x1 <= p.x+p.wide && b.y1 <= p.y+p.high
			if inside && !slices.ContainsFunc(p.signed, covers) {
				best, least = moved.at, far
			}
		}
	}
	return best
}
