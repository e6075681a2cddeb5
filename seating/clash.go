package seating

import (
	"fmt"
	"math"
)

// maxLanes bounds the ways on the floor.
const maxLanes = 10_000

// checkLanes refuses lanes without an area, and floor seats inside a lane. A seat
// takes up its pitch across and its run in depth; touching a lane is allowed.
func (s *Stands) checkLanes() error {
	if len(s.Spec.Lanes) > maxLanes {
		return Wrong("room.lane", fmt.Sprintf("at most %d", maxLanes), "%d lanes are too many", len(s.Spec.Lanes))
	}
	for i, l := range s.Spec.Lanes {
		key := fmt.Sprintf("room.lane[%d]", i)
		if l.Left >= l.Right || l.Near >= l.Far {
			return Wrong(key, "write left smaller than right, and near (the camera's side) smaller than far",
				"the lane %q has no area", l.Name)
		}
		if min(l.Left, l.Near) < -MaxReach || max(l.Right, l.Far) > MaxReach {
			return Wrong(key, "look at the units", "the lane %q reaches further than %v", l.Name, MaxReach)
		}
	}
	for seat := range s.Seats {
		at := int(s.Seats[seat].Section)
		if s.Sections[at].Spec.Kind != Floor {
			continue
		}
		for _, l := range s.Spec.Lanes {
			if !s.footprint(seat, 0).meets(l.rectangle()) {
				continue
			}
			lane := "a lane"
			if l.Name != "" {
				lane = fmt.Sprintf("the lane %q", l.Name)
			}
			return Wrong(sectionKey(at, ""), "move the block, or list the seats in the lane as missing",
				"floor seat %s lies in %s, which stays free", s.ID(seat), lane)
		}
	}
	return nil
}

// rectangle is a turned rectangle on the floor plan: its middle, half its sides and its turn, in metres.
type rectangle struct {
	x, y, across, away float64
	sin, cos           float64
}

func (l Lane) rectangle() rectangle {
	return rectangle{
		x: halves(l.Left + l.Right), y: halves(l.Near + l.Far),
		across: halves(l.Right - l.Left), away: halves(l.Far - l.Near), cos: 1,
	}
}

// footprint is what a seat takes up: its pitch and its run, less slack metres on every side.
func (s *Stands) footprint(seat int, slack float64) rectangle {
	at := &s.Seats[seat]
	spec := &s.Sections[at.Section].Spec
	r := rectangle{x: at.Position[0], y: at.Position[1], across: halves(spec.Pitch) - slack,
		away: halves(spec.Run) - slack}
	r.sin, r.cos = math.Sincos(at.Facing)
	return r
}

// meets says whether two rectangles share area: they do unless the direction of
// one of their sides separates them. Less than a micrometre is no more than touching.
func (r rectangle) meets(o rectangle) bool { return !r.separates(o) && !o.separates(r) }

// separates says whether a direction of r's sides has nothing in common with o.
func (r rectangle) separates(o rectangle) bool {
	dx, dy := o.x-r.x, o.y-r.y
	cos := math.Abs(float64(r.cos*o.cos) + float64(r.sin*o.sin))
	sin := math.Abs(float64(r.sin*o.cos) - float64(r.cos*o.sin))
	apart := func(distance, reach float64) bool { return math.Round(math.Abs(distance)*1e6) >= math.Round(reach*1e6) }
	return apart(float64(dx*r.cos)+float64(dy*r.sin), r.across+float64(o.across*cos)+float64(o.away*sin)) ||
		apart(float64(dy*r.cos)-float64(dx*r.sin), r.away+float64(o.across*sin)+float64(o.away*cos))
}

// Seats of two sections are in the same place when their footprints meet although
// each is made this much smaller on every side, and they are not a storey apart.
const (
	crossingSlack = 0.05 // metres
	storey        = 1.5  // metres
)

// box is a section's footprints on the floor plan, in metres.
type box struct{ x0, y0, x1, y1 float64 }

func (s *Stands) box(section int) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	sec := &s.Sections[section]
	for i := sec.First; i < sec.Last; i++ {
		p, r := s.Seats[i].Position, s.reach(section)
		b = box{min(b.x0, p[0]-r), min(b.y0, p[1]-r), max(b.x1, p[0]+r), max(b.y1, p[1]+r)}
	}
	return b
}

// reach is from a seat's middle to a corner of its footprint.
func (s *Stands) reach(section int) float64 {
	spec := &s.Sections[section].Spec
	return math.Hypot(halves(spec.Pitch), halves(spec.Run))
}

func (b box) meets(o box) bool { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }

func (s *Stands) checkCrossing() error {
	boxes := make([]box, len(s.Sections))
	for i := range s.Sections {
		boxes[i] = s.box(i)
	}
	for j := range s.Sections {
		for i := range j {
			if !boxes[i].meets(boxes[j]) {
				continue
			}
			if one, two := s.crossing(i, j); one >= 0 {
				return Wrong(sectionKey(j, ""), "move one of the sections, or look at aisle, place and facing",
					"seats %s and %s are in the same place", s.ID(one), s.ID(two))
			}
		}
	}
	return nil
}

// crossing is the first pair of seats of two sections that are in the same place,
// or −1. Seats are looked up by tiles, so that only near ones are compared.
func (s *Stands) crossing(i, j int) (one, two int) {
	type tile [2]int
	size := s.reach(i) + s.reach(j)
	tileOf := func(p Point) tile { return tile{int(math.Floor(p[0] / size)), int(math.Floor(p[1] / size))} }
	samePlace := func(a, b int) bool {
		return math.Abs(s.Seats[a].Position[2]-s.Seats[b].Position[2]) < storey &&
			s.footprint(a, crossingSlack).meets(s.footprint(b, crossingSlack))
	}
	tiles := map[tile][]int{}
	for k := s.Sections[i].First; k < s.Sections[i].Last; k++ {
		at := tileOf(s.Seats[k].Position)
		tiles[at] = append(tiles[at], k)
	}
	for m := s.Sections[j].First; m < s.Sections[j].Last; m++ {
		at := tileOf(s.Seats[m].Position)
		near := -1
		for d := range 9 {
			for _, k := range tiles[tile{at[0] + d/3 - 1, at[1] + d%3 - 1}] {
				if (near < 0 || k < near) && samePlace(k, m) {
					near = k
				}
			}
		}
		if near >= 0 {
			return near, m
		}
	}
	return -1, -1
}
