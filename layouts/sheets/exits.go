package sheets

import (
	"math"
	"strings"

	"everyseat/mosaic"
)

// leastDoor is how wide a door is drawn at least, in metres.
const leastDoor = 0.9

// exits draws each door as a heavy bar as wide as it opens.
func (f *floorPlan) exits(p *pen) {
	p.fillColour(black)
	for i := range f.plan.Stunt.Room.Exits {
		e := &f.plan.Stunt.Room.Exits[i]
		across := f.exitAcross(e)
		w, d := max(e.Width.Metres(), leastDoor)/2, 0.18
		if !across {
			w, d = d, w
		}
		a := f.at(e.Across.Metres()-w, e.Away.Metres()+d)
		p.filled(a[0], a[1], 2*w*f.scale, 2*d*f.scale)
	}
}

// exitNames stand over the doors.
func (f *floorPlan) exitNames(p *pen) {
	for i := range f.plan.Stunt.Room.Exits {
		e := &f.plan.Stunt.Room.Exits[i]
		high := 0.18
		if !f.exitAcross(e) {
			high = max(e.Width.Metres(), leastDoor) / 2
		}
		a := f.at(e.Across.Metres(), e.Away.Metres()+high)
		f.plate(p, [2]float64{a[0], a[1] - 2.6}, 8, bold, strings.TrimSpace("EXIT "+e.Name))
	}
}

// exitAcross says whether the wall that an exit is in runs across, as the nearest wall does; without
// walls, whether the exit lies before or behind all seats and not beside them.
func (f *floorPlan) exitAcross(e *mosaic.Exit) bool {
	walls := f.plan.Stunt.Room.Walls
	if len(walls) < 2 {
		low, high := math.Inf(1), math.Inf(-1)
		for s := range f.plan.Stands.Seats {
			y := f.plan.Stands.Seats[s].Position[1]
			low, high = min(low, y), max(high, y)
		}
		return e.Away.Metres() < low || e.Away.Metres() > high
	}
	best, across := int64(math.MaxInt64), true
	x, y := e.Across.Metres(), e.Away.Metres()
	for i := range walls {
		a, b := walls[i], walls[(i+1)%len(walls)]
		ax, ay, dx, dy := a[0].Metres(), a[1].Metres(), (b[0] - a[0]).Metres(), (b[1] - a[1]).Metres()
		t := 0.0
		if long := dx*dx + dy*dy; long > 0 {
			t = min(max(((x-ax)*dx+(y-ay)*dy)/long, 0), 1)
		}
		if d := int64(math.Round(math.Hypot(ax+t*dx-x, ay+t*dy-y) * 1000)); d < best {
			best, across = d, math.Abs(dx) >= math.Abs(dy)
		}
	}
	return across
}
