package camera

import (
	"math"
	"testing"

	"everyseat/seating"
)

// facet is a polygon of the scene in the picture, and its 1/z there as a plane a·u + b·v + c.
type facet struct {
	owner  int32
	part   Part
	points []Pixel
	plane  [3]float64
	box    box
}

// facets lists everything in a view, clipped at the near plane; a plain way, apart from See's.
func facets(s *Scene, v *View) []facet {
	var all []facet
	s.EachFrom(&v.Position, func(p *Polygon) {
		var c [][3]float64
		for i := range p.Points {
			a, b := v.toCamera(p.Points[i]), v.toCamera(p.Points[(i+1)%len(p.Points)])
			if a[2] >= near {
				c = append(c, a)
			}
			if (a[2] >= near) != (b[2] >= near) {
				t := (near - a[2]) / (b[2] - a[2])
				c = append(c, [3]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1]), near})
			}
		}
		if len(c) < 3 {
			return
		}
		f := facet{owner: p.Owner, part: p.Part, box: emptyBox()}
		for _, q := range c {
			at := v.onPicture(q)
			f.points = append(f.points, at)
			f.box.add(at)
		}
		if size, _ := area(f.points); size < 1e-9 {
			return // edge-on
		}
		f.plane = planeThrough(f.points, c)
		all = append(all, f)
	})
	return all
}

// planeThrough solves 1/z = a·u + b·v + c through the three corners that span the most.
func planeThrough(at []Pixel, c [][3]float64) [3]float64 {
	best, k := -1.0, [3]int{}
	for i := range at {
		for j := i + 1; j < len(at); j++ {
			for l := j + 1; l < len(at); l++ {
				if d := math.Abs(det(at[i], at[j], at[l])); d > best {
					best, k = d, [3]int{i, j, l}
				}
			}
		}
	}
	p, q, r := at[k[0]], at[k[1]], at[k[2]]
	zp, zq, zr := 1/c[k[0]][2], 1/c[k[1]][2], 1/c[k[2]][2]
	d := det(p, q, r)
	a := ((zq-zp)*(r[1]-p[1]) - (zr-zp)*(q[1]-p[1])) / d
	b := ((q[0]-p[0])*(zr-zp) - (r[0]-p[0])*(zq-zp)) / d
	return [3]float64{a, b, zp - a*p[0] - b*p[1]}
}

func det(p, q, r Pixel) float64 { return (q[0]-p[0])*(r[1]-p[1]) - (r[0]-p[0])*(q[1]-p[1]) }

// cut parts a convex polygon along a·u + b·v + c = 0: where it is positive, and the rest.
func cut(p []Pixel, line [3]float64) (in, out []Pixel) {
	for i, a := range p {
		b := p[(i+1)%len(p)]
		da, db := line[0]*a[0]+line[1]*a[1]+line[2], line[0]*b[0]+line[1]*b[1]+line[2]
		if da >= 0 {
			in = append(in, a)
		} else {
			out = append(out, a)
		}
		if da >= 0 && db < 0 || da < 0 && db >= 0 {
			t := da / (da - db)
			m := Pixel{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
			in, out = append(in, m), append(out, m)
		}
	}
	return in, out
}

// exactShare is the share of a card that is seen, by taking away from it, piece by
// piece, whatever lies nearer, and what is cut by the frame; and the middle of the rest.
func exactShare(card *facet, all []facet, v *View) (share float64, middle Pixel) {
	pieces := [][]Pixel{v.inFrame(card.points)}
	for i := range all {
		f := &all[i]
		if f == card || f.box[2] <= card.box[0] || f.box[0] >= card.box[2] || f.box[3] <= card.box[1] || f.box[1] >= card.box[3] {
			continue
		}
		nearer := [3]float64{f.plane[0] - card.plane[0], f.plane[1] - card.plane[1], f.plane[2] - card.plane[2]}
		hides, _ := cut(f.points, nearer)
		if len(hides) >= 3 {
			pieces = takeAway(pieces, hides)
		}
	}
	whole, _ := area(card.points)
	left := 0.0
	for _, p := range pieces {
		n, m := area(p)
		left += n
		middle[0] += n * m[0]
		middle[1] += n * m[1]
	}
	if left > 0 {
		middle = Pixel{middle[0] / left, middle[1] / left}
	}
	return left / whole, middle
}

// takeAway cuts a convex polygon out of convex pieces.
func takeAway(pieces [][]Pixel, hides []Pixel) [][]Pixel {
	if twice(hides) < 0 {
		turned := make([]Pixel, len(hides))
		for i := range hides {
			turned[len(hides)-1-i] = hides[i]
		}
		hides = turned
	}
	var rest [][]Pixel
	for _, p := range pieces {
		for i, a := range hides {
			b := hides[(i+1)%len(hides)]
			// Positive on the inner side of the edge a → b.
			in, out := cut(p, [3]float64{a[1] - b[1], b[0] - a[0], a[0]*b[1] - a[1]*b[0]})
			if n, _ := area(out); n > 1e-12 {
				rest = append(rest, out)
			}
			if p = in; len(p) < 3 {
				break
			}
		}
	}
	return rest
}

// twice is double the signed area.
func twice(p []Pixel) (a float64) {
	for i := 1; i+1 < len(p); i++ {
		a += det(p[0], p[i], p[i+1])
	}
	return a
}

func perimeter(p []Pixel) (l float64) {
	for i := range p {
		q := p[(i+1)%len(p)]
		l += math.Hypot(q[0]-p[i][0], q[1]-p[i][1])
	}
	return l
}

// crowded is small stands with everything that can hide something.
func crowded(t testing.TB) *Scene {
	t.Helper()
	curved := bleachers("C", 4, 6)
	curved.Radius = 9 * seating.Metre
	turned := bleachers("T", 4, 5)
	turned.Place = &seating.Place{Across: -7 * seating.Metre, Away: -4 * seating.Metre, Facing: 60}
	chairs := bleachers("D", 3, 4)
	chairs.Kind, chairs.Run = seating.Chairs, 33*seating.Inch
	chairs.Posture = seating.Standing
	a := bleachers("A", 6, 8)
	a.Reserved = []seating.Reserved{{For: "rail", Seats: []seating.SeatRange{{Row: "2", From: 3, To: 4}}}, {For: "platform", Seats: []seating.SeatRange{{Row: "1", From: 1, To: 2}}}}
	a.Missing = []seating.SeatRange{{Row: "3", From: 5, To: 5}}
	floor := seating.SectionSpec{Name: "F", Kind: seating.Floor, Posture: seating.Kneeling, Rows: 2, Seats: []int{9}, Pitch: 24 * seating.Inch, Run: 36 * seating.Inch, NoCards: true}
	s := &Scene{
		Stands: build(t, a, chairs, curved, turned, floor),
		Card:   letter(Eyes),
		Obstacles: []Obstacle{
			{Kind: "post", Across: seating.Metre, Away: -seating.Metre, Width: 15 * seating.Centimetre, Depth: 15 * seating.Centimetre, Height: 6 * seating.Metre},
			{Kind: "hoop", Away: -2 * seating.Metre, Width: 180 * seating.Centimetre, Depth: 5 * seating.Centimetre, Bottom: 290 * seating.Centimetre, Height: 105 * seating.Centimetre},
		},
	}
	s.Absent = make([]bool, len(s.Stands.Seats))
	for i := range s.Absent {
		s.Absent[i] = i%11 == 3
	}
	return s
}

// Seen shares against exact areas by polygon clipping. A border of length l between what
// is seen and what is not can be off by half a sample along all of it, so the tolerance is
// half of twice the card's own outline times the samples' distance, over the card's area.
// Finer sampling must close in.
func TestSeenLikeExactClipping(t *testing.T) {
	wide := mark(2, 14, 1.8)
	tele := mark(-3, 12, 3)
	tele.Lens.FieldOfView = 25 // cuts cards at the frame's edge
	for name, c := range map[string]struct {
		m     Mark
		shake bool
		held  Held
	}{
		"wide": {wide, false, Eyes}, "tele": {tele, false, Chin}, "shaken": {wide, true, Eyes}, "high": {mark(0, 10, 7), false, Chest}, "overhead": {wide, false, Overhead},
	} {
		s := crowded(t)
		s.Card.Held = c.held
		if c.shake {
			s = s.Shaken(7, 0.04, 0.02, 8*math.Pi/180)
		}
		v := view(t, c.m, s)
		all := facets(s, v)
		exact := map[int32]float64{}
		middles := map[int32]Pixel{}
		for i := range all {
			if f := &all[i]; f.part == PartCard {
				exact[f.owner], middles[f.owner] = exactShare(f, all, v)
			}
		}
		last := math.Inf(1)
		for _, samples := range []int{64, 1024, 16384} {
			sight := s.SeeWith(v, samples)
			squares, n, part := 0.0, 0, 0
			for seat, want := range exact {
				if sight.Behind[seat] {
					if sight.Seen[seat] != 0 {
						t.Errorf("%s: seat %d is behind and seen", name, seat)
					}
					continue
				}
				corners := sight.Corners[seat][:]
				size, _ := area(corners)
				tolerance := perimeter(corners) / math.Sqrt(size*float64(samples))
				off := math.Abs(float64(sight.Seen[seat]) - want)
				if off > tolerance {
					t.Errorf("%s: %s shows %.4f with %d samples, exactly %.4f: more than %.4f off", name, s.Stands.ID(int(seat)), sight.Seen[seat], samples, want, tolerance)
				}
				if math.Abs(float64(sight.Pixels[seat])-want*size) > tolerance*size {
					t.Errorf("%s: %s shows %g px, exactly %g", name, s.Stands.ID(int(seat)), sight.Pixels[seat], want*size)
				}
				if want > 0.2 && math.Hypot(sight.Centre[seat][0]-middles[seat][0], sight.Centre[seat][1]-middles[seat][1]) > tolerance*math.Sqrt(size) {
					t.Errorf("%s: %s's middle is %v, exactly %v", name, s.Stands.ID(int(seat)), sight.Centre[seat], middles[seat])
				}
				squares += off * off
				n++
				if want > 0.01 && want < 0.99 {
					part++
				}
			}
			rms := math.Sqrt(squares / float64(n))
			t.Logf("%s, %d samples: %d cards, %d partly hidden, off by %.4f in the mean square", name, samples, n, part, rms)
			if rms > last/2 {
				t.Errorf("%s: %d samples are off by %g, fewer by %g", name, samples, rms, last)
			}
			last = rms
			if n < 80 || part < 5 {
				t.Errorf("%s: only %d cards, %d of them partly hidden", name, n, part)
			}
		}
	}
}
