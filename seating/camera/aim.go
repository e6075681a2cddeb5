package camera

import (
	"math"

	"everyseat/seating"
)

// near is the clip in front of the lens, in metres.
const near = 0.3

// aimAt turns the camera so that the box around the cards is centred in the
// picture: all cards where they fit, else those that are not on the floor.
func (v *View) aimAt(m *Mark, scene *Scene) error {
	stands, floor := scene.outline()
	all := append(stands[:len(stands):len(stands)], floor...)
	if len(all) == 0 {
		return m.fault("give some seats cards, or give the aim", "there are no cards to aim at")
	}
	if len(floor) > 0 && len(stands) > 0 {
		whole := *v
		if box, ok := whole.centre(all); ok && box.inside(v.Width, v.Height) {
			*v = whole
			return nil
		}
		all = stands
	}
	if _, ok := v.centre(all); !ok {
		return m.fault("put the mark before the stands, where people look at it", "no card is in front of the lens")
	}
	return nil
}

// outline is the corners of the cards that can be outermost in any picture: those at
// the ends of straight rows, all of curved ones; sections on the floor apart.
func (s *Scene) outline() (stands, floor []seating.Point) {
	var row []int
	for i := range s.Stands.Sections {
		sec := &s.Stands.Sections[i]
		list := &stands
		if sec.Spec.Kind == seating.Floor {
			list = &floor
		}
		for r := range sec.Rows {
			row = row[:0]
			for seat := sec.Rows[r].First; seat < sec.Rows[r].Last; seat++ {
				if s.holds(seat) {
					row = append(row, seat)
				}
			}
			if len(row) > 0 && sec.Spec.Radius == 0 {
				row = append(row[:1], row[len(row)-1])
			}
			for _, seat := range row {
				q, _ := s.CardQuad(seat)
				*list = append(*list, q[:]...)
			}
		}
	}
	return stands, floor
}

// box is a rectangle of the picture: left, top, right, bottom.
type box [4]float64

func (b box) inside(width, height int) bool {
	return b[0] >= 0 && b[1] >= 0 && b[2] <= float64(width) && b[3] <= float64(height)
}

func (b *box) add(p Pixel) {
	b[0], b[1] = min(b[0], p[0]), min(b[1], p[1])
	b[2], b[3] = max(b[2], p[0]), max(b[3], p[1])
}

func emptyBox() box { return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)} }

// centre turns v until the box around the points is in the picture's middle. A turn
// is no shift, so it is repeated; about six times is enough. Where the points lie so
// widely around the camera that it finds no rest, it looks along the mean of their
// directions. ok is false where no point can be brought before the lens.
func (v *View) centre(points []seating.Point) (b box, ok bool) {
	middle := v.meanDirection(points)
	if !v.look(middle) {
		return b, false
	}
	for range 50 {
		b = v.boxAround(points)
		if b[0] > b[2] {
			break
		}
		off := Pixel{float64((b[0]+b[2])/2) - v.Center[0], float64((b[1]+b[3])/2) - v.Center[1]}
		if math.Abs(off[0]) < 1e-7 && math.Abs(off[1]) < 1e-7 {
			return b, true
		}
		// Newton's step: a small turn moves what is t = tan(angle) off the axis by 1 + t².
		for axis := range off {
			a, c := (b[axis]-v.Center[axis])/v.Focal, (b[axis+2]-v.Center[axis])/v.Focal
			off[axis] /= 1 + float64(a*a/2) + float64(c*c/2)
		}
		if !v.look(v.ray(off)) {
			break
		}
	}
	if b[0] <= b[2] && math.Abs(b[0]+b[2]-2*v.Center[0]) < 1 && math.Abs(b[1]+b[3]-2*v.Center[1]) < 1 {
		return b, true
	}
	v.look(middle)
	b = v.boxAround(points)
	return b, b[0] <= b[2]
}

// boxAround is the box in the picture around those points that are before the lens.
func (v *View) boxAround(points []seating.Point) box {
	b := emptyBox()
	for _, p := range points {
		if at, depth := v.Project(p); depth >= near {
			b.add(at)
		}
	}
	return b
}

// ray is the direction, in the world, of the picture's place at this offset from its centre.
func (v *View) ray(off Pixel) [3]float64 {
	r := v.Rotation
	var d [3]float64
	for i := range d {
		d[i] = float64(off[0]*r[0][i]) + float64(off[1]*r[1][i]) + float64(v.Focal*r[2][i])
	}
	return d
}

// meanDirection is the mean of the directions to the points; the last one's where they cancel.
func (v *View) meanDirection(points []seating.Point) [3]float64 {
	var total, last [3]float64
	for _, p := range points {
		u, ok := unit(minus(p, v.Position))
		if !ok {
			continue
		}
		last = u
		for i := range total {
			total[i] += u[i]
		}
	}
	if u, ok := unit(total); ok && math.Abs(u[2]) < 0.999 {
		return u
	}
	return last
}

// Fill is how much of the frame the cards' box takes: its width and height as
// shares of the picture's. More than 1 does not fit; 0 where no card is before the lens.
func (s *Scene) Fill(v *View) (across, down float64) {
	stands, floor := s.outline()
	b := v.boxAround(append(stands, floor...))
	if b[0] > b[2] {
		return 0, 0
	}
	return (b[2] - b[0]) / float64(v.Width), (b[3] - b[1]) / float64(v.Height)
}
