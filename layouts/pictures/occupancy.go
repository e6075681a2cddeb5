package pictures

import "math"

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
	o.each(e, func(t *bool) bool { *t = true; return true })
}

func (o *occupancy) free(e extent) bool {
	return o.each(e, func(t *bool) bool { return !*t })
}
