package sheets

import (
	"cmp"
	"math"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// floorPlan is everything from above, to scale, the camera's side at the bottom: seats, aisles, lanes,
// walls, what stands about, the mark and what its lens takes in.
type floorPlan struct {
	plan         *mosaic.Plan
	x0, y0       float64 // of the drawing's top left corner, on the page
	left, top    float64 // world x and y there
	scale        float64 // millimetres a metre
	width, depth float64 // of the drawing, millimetres
}

// newFloorPlan fits everything into a box; the drawing is centred across.
func newFloorPlan(p *mosaic.Plan, x, y, width, height float64) floorPlan {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	hold := func(px, py, round float64) {
		low[0], low[1] = min(low[0], px-round), min(low[1], py-round)
		high[0], high[1] = max(high[0], px+round), max(high[1], py+round)
	}
	for s := range p.Stands.Seats {
		q := p.Stands.Seats[s].Position
		hold(q[0], q[1], 0.6)
	}
	for _, m := range p.Marks {
		hold(m.View.Position[0], m.View.Position[1], 0.8)
	}
	for _, l := range p.Stands.Spec.Lanes {
		hold(l.Left.Metres(), l.Near.Metres(), 0.1)
		hold(l.Right.Metres(), l.Far.Metres(), 0.1)
	}
	for _, s := range p.Stunt.Room.Spots {
		hold(s.Left.Metres(), s.Near.Metres(), 0.1)
		hold(s.Right.Metres(), s.Far.Metres(), 0.1)
	}
	for _, e := range p.Stunt.Room.Exits {
		hold(e.Across.Metres(), e.Away.Metres(), 0.9)
	}
	for _, w := range p.Stunt.Room.Walls {
		hold(w[0].Metres(), w[1].Metres(), 0.2)
	}
	f := floorPlan{plan: p, left: low[0], top: high[1]}
	f.scale = min(width/(high[0]-low[0]), height/(high[1]-low[1]), 25)
	f.width, f.depth = (high[0]-low[0])*f.scale, (high[1]-low[1])*f.scale
	f.x0, f.y0 = x+(width-f.width)/2, y
	return f
}

func (f *floorPlan) at(x, y float64) [2]float64 {
	return [2]float64{f.x0 + float64((x-f.left)*f.scale), f.y0 + float64((f.top-y)*f.scale)}
}

// The greys of the plan: a copier keeps them apart.
var (
	greySeat = colour.RGB{0xb8, 0xb8, 0xb8}
	greyLane = colour.RGB{0x8c, 0x8c, 0x8c}
)

func (f *floorPlan) draw(p *paper.Pen) {
	p.Inside(f.x0-1, f.y0-1, f.width+2, f.depth+2, func() {
		f.sight(p)
		f.walls(p)
		f.lanes(p)
		f.seats(p)
		f.exits(p)
		f.spots(p)
		f.path(p)
		f.things(p)
	})
	f.names(p)
	f.ruler(p)
}

func (f *floorPlan) sight(p *paper.Pen) {
	if len(f.plan.Marks) == 0 {
		return
	}
	v := f.plan.Marks[0].View
	p.Stroke(grey, 0.2)
	p.Dashed(1.5, 1.5)
	for _, side := range []float64{-1, 1} {
		t := side * float64(v.Width) / 2 / v.Focal
		dx, dy := float64(v.Rotation[0][0]*t)+v.Rotation[2][0], float64(v.Rotation[0][1]*t)+v.Rotation[2][1]
		long := math.Hypot(dx, dy)
		a, b := f.at(v.Position[0], v.Position[1]), f.at(v.Position[0]+float64(dx/long*200),
			v.Position[1]+float64(dy/long*200))
		p.Line(a[0], a[1], b[0], b[1])
	}
	p.Solid()
}

func (f *floorPlan) walls(p *paper.Pen) {
	w := f.plan.Stunt.Room.Walls
	if len(w) < 2 {
		return
	}
	points := make([][2]float64, len(w))
	for i := range w {
		points[i] = f.at(w[i][0].Metres(), w[i][1].Metres())
	}
	p.Stroke(black, 0.7)
	p.Polygon(paper.Outline, points...)
}

func (f *floorPlan) lanes(p *paper.Pen) {
	for _, l := range f.plan.Stands.Spec.Lanes {
		a, b := f.at(l.Left.Metres(), l.Far.Metres()), f.at(l.Right.Metres(), l.Near.Metres())
		x, y, w, h := a[0], a[1], b[0]-a[0], b[1]-a[1]
		p.Stroke(greyLane, 0.15)
		p.Hatched(x, y, w, h, 3)
		p.StrokeWidth(0.35)
		p.Dashed(2, 1)
		p.Box(x, y, w, h)
		p.Solid()
	}
}

// spots are where a camera may stand: a balcony, a stage.
func (f *floorPlan) spots(p *paper.Pen) {
	p.Stroke(black, 0.25)
	for _, s := range f.plan.Stunt.Room.Spots {
		a, b := f.at(s.Left.Metres(), s.Far.Metres()), f.at(s.Right.Metres(), s.Near.Metres())
		p.Box(a[0], a[1], b[0]-a[0], b[1]-a[1])
	}
}

// seats draws a place a person: with a card grey, without one white, kept free crossed.
func (f *floorPlan) seats(p *paper.Pen) {
	p.Stroke(black, 0.1)
	for s := range f.plan.Stands.Seats {
		seat := &f.plan.Stands.Seats[s]
		spec := &f.plan.Stands.Sections[seat.Section].Spec
		w, d := spec.Pitch.Metres()*0.45, min(spec.Run.Metres()*0.42, 0.36)
		sin, cos := math.Sincos(seat.Facing)
		corner := func(a, b float64) [2]float64 {
			return f.at(seat.Position[0]+float64(cos*a)+float64(sin*b), seat.Position[1]+float64(sin*a)-float64(cos*b))
		}
		q := [4][2]float64{corner(-w, -d), corner(w, -d), corner(w, d), corner(-w, d)}
		special := seat.For == "wheelchair" || seat.For == "companion"
		switch {
		case seat.Use == seating.UseCard && !special:
			p.Fill(greySeat)
			p.Polygon(paper.Both, q[:]...)
		case seat.Use == seating.UseCard, seat.Use == seating.UsePerson:
			p.Polygon(paper.Outline, q[:]...)
		default:
			p.Polygon(paper.Outline, q[:]...)
			p.Line(q[0][0], q[0][1], q[2][0], q[2][1])
			p.Line(q[1][0], q[1][1], q[3][0], q[3][1])
		}
		if special {
			m := f.at(seat.Position[0], seat.Position[1])
			size := min(2*w*f.scale*paper.PointsPerMM*0.85, 9)
			letter := map[string]string{"wheelchair": "W", "companion": "C"}[seat.For]
			p.TextMiddle(m[0], m[1]+paper.CapHeight(size)/2, size, bold, letter)
		}
	}
}

// things are the obstacles and the marks.
func (f *floorPlan) things(p *paper.Pen) {
	p.Fill(black)
	for _, o := range f.plan.Stunt.Room.Obstacles {
		w, d := max(o.Width.Metres(), 0.15), max(o.Depth.Metres(), 0.15)
		a := f.at(o.Across.Metres()-w/2, o.Away.Metres()+d/2)
		p.Filled(a[0], a[1], w*f.scale, d*f.scale)
	}
	for _, m := range f.plan.Marks {
		a := f.at(m.View.Position[0], m.View.Position[1])
		p.Polygon(paper.Area, [2]float64{a[0], a[1] - 2.6}, [2]float64{a[0] + 2.2, a[1] + 1.4},
			[2]float64{a[0] - 2.2, a[1] + 1.4})
	}
}

// names puts words where they belong, each on a white plate that lines do not cross.
func (f *floorPlan) names(p *paper.Pen) {
	for k := range f.plan.Stands.Sections {
		sec := &f.plan.Stands.Sections[k]
		if sec.First == sec.Last {
			continue
		}
		var x, y float64
		for s := sec.First; s < sec.Last; s++ {
			x += f.plan.Stands.Seats[s].Position[0] / float64(sec.Last-sec.First)
			y += f.plan.Stands.Seats[s].Position[1] / float64(sec.Last-sec.First)
		}
		f.plate(p, f.at(x, y), 11, bold, sec.Name)
	}
	for _, l := range f.plan.Stands.Spec.Lanes {
		f.plate(p, f.at((l.Left+l.Right).Metres()/2, (l.Near+l.Far).Metres()/2), 8, regular, cmp.Or(l.Name, "lane"))
	}
	for _, o := range f.plan.Stunt.Room.Obstacles {
		a := f.at(o.Across.Metres(), o.Away.Metres())
		f.plate(p, [2]float64{a[0], a[1] - 3.5}, 7.5, regular, o.Name)
	}
	for _, s := range f.plan.Stunt.Room.Spots {
		f.plate(p, f.at((float64(s.Left.Metres()*3)+s.Right.Metres())/4, s.Far.Metres()), 7.5, regular, s.Name)
	}
	for i := range f.plan.Stunt.Room.Exits {
		e := &f.plan.Stunt.Room.Exits[i]
		_, d := f.door(e)
		a := f.at(e.Across.Metres(), e.Away.Metres()+d)
		f.plate(p, [2]float64{a[0], a[1] - 2.6}, 8, bold, strings.TrimSpace("EXIT "+e.Name))
	}
	for i, m := range f.plan.Marks {
		a := f.at(m.View.Position[0], m.View.Position[1])
		name := m.View.Name
		if i == 0 {
			name = "camera"
		}
		f.plate(p, [2]float64{a[0], a[1] + 4}, 8, bold, name)
	}
	f.aisles(p)
}

// aisles names the gaps between sections that stand side by side.
func (f *floorPlan) aisles(p *paper.Pen) {
	var before *seating.Section
	for k := range f.plan.Stands.Sections {
		sec := &f.plan.Stands.Sections[k]
		if sec.Spec.Place != nil || sec.First == sec.Last {
			continue
		}
		if before != nil && before.Spec.Aisle > 0 {
			left, right := &before.Rows[0], &sec.Rows[0]
			if left.First < left.Last && right.First < right.Last {
				a, b := f.plan.Stands.Seats[left.Last-1].Position, f.plan.Stands.Seats[right.First].Position
				f.plate(p, f.at((a[0]+b[0])/2, (a[1]+b[1])/2), 7.5, regular, "aisle")
			}
		}
		before = sec
	}
}

// plate writes a word with its middle at a point.
func (f *floorPlan) plate(p *paper.Pen, at [2]float64, size float64, w paper.Weight, s string) {
	if s == "" {
		return
	}
	s = w.Shorten(s, size, max(f.width*0.6, 20))
	wide, high := w.Width(size, s)+1.6, paper.CapHeight(size)+1.8
	x := min(max(at[0]-wide/2, f.x0), max(f.x0, f.x0+f.width-wide))
	p.Fill(white)
	p.Filled(x, at[1]-high/2, wide, high)
	p.Text(x+0.8, at[1]+paper.CapHeight(size)/2, size, w, s)
}

// ruler is five metres long, or one where everything is small.
func (f *floorPlan) ruler(p *paper.Pen) {
	metres, words := 5.0, "5 m (16 ft 5 in)"
	if f.width < 7*f.scale {
		metres, words = 1, "1 m (3 ft 3 in)"
	}
	y := f.y0 + f.depth + 3
	p.Stroke(black, 0.4)
	p.Line(f.x0, y, f.x0+float64(metres*f.scale), y)
	for i := range int(metres) + 1 {
		x := f.x0 + float64(float64(i)*f.scale)
		p.Line(x, y-1, x, y+1)
	}
	p.Text(f.x0+float64(metres*f.scale)+2, y+paper.CapHeight(8)/2, 8, regular, words)
}

const leastDoor = 0.9 // metres, as it is drawn

// exits draws each door as a heavy bar as wide as it opens.
func (f *floorPlan) exits(p *paper.Pen) {
	p.Fill(black)
	for i := range f.plan.Stunt.Room.Exits {
		e := &f.plan.Stunt.Room.Exits[i]
		w, d := f.door(e)
		a := f.at(e.Across.Metres()-w, e.Away.Metres()+d)
		p.Filled(a[0], a[1], 2*w*f.scale, 2*d*f.scale)
	}
}

// door is half of how far an exit reaches across and away, in metres. It lies along the nearest wall; without walls,
// across where it is before or behind all seats and not beside them.
func (f *floorPlan) door(e *mosaic.Exit) (w, d float64) {
	walls := f.plan.Stunt.Room.Walls
	best, across := int64(math.MaxInt64), true
	x, y := e.Across.Metres(), e.Away.Metres()
	for i := range walls {
		a, b := walls[i], walls[(i+1)%len(walls)]
		ax, ay, dx, dy := a[0].Metres(), a[1].Metres(), (b[0] - a[0]).Metres(), (b[1] - a[1]).Metres()
		t := 0.0
		if long := float64(dx*dx) + float64(dy*dy); long > 0 {
			t = min(max((float64((x-ax)*dx)+float64((y-ay)*dy))/long, 0), 1)
		}
		if d := int64(math.Round(math.Hypot(ax+float64(t*dx)-x, ay+float64(t*dy)-y) * 1000)); d < best {
			best, across = d, math.Abs(dx) >= math.Abs(dy)
		}
	}
	if len(walls) < 2 {
		low, high := math.Inf(1), math.Inf(-1)
		for s := range f.plan.Stands.Seats {
			y := f.plan.Stands.Seats[s].Position[1]
			low, high = min(low, y), max(high, y)
		}
		across = y < low || y > high
	}
	w, d = max(e.Width.Metres(), leastDoor)/2, 0.18
	if !across {
		w, d = d, w
	}
	return w, d
}

// path draws the walk on the plan, dashed, with an arrow at its end.
func (f *floorPlan) path(p *paper.Pen) {
	if !f.plan.Stunt.Walks {
		return
	}
	p.Stroke(black, 0.6)
	p.Dashed(1, 1)
	for i := 1; i < len(f.plan.Marks); i++ {
		a, b := f.plan.Marks[i-1].View.Position, f.plan.Marks[i].View.Position
		q, r := f.at(a[0], a[1]), f.at(b[0], b[1])
		p.Line(q[0], q[1], r[0], r[1])
	}
	p.Solid()
}
