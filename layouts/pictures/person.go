package pictures

import (
	"math"

	"everyseat/seating"
)

// over draws details on a polygon's plane: moved toward the lens, so that they
// stay where they were in the picture and hide nothing but what they lie on.
func (s *studio) over(c uint8, lift float64, ps ...seating.Point) {
	out := s.corner[:len(ps)]
	for i, p := range ps {
		d := seating.Point{s.eye[0] - p[0], s.eye[1] - p[1], s.eye[2] - p[2]}
		t := lift / max(lift, math.Sqrt(dot(d, d)))
		for k := range p {
			out[i][k] = p[k] + float64(t*d[k])
		}
	}
	s.film.add(out, c)
}

// way is the point that part of the way from a to b.
func way(a, b seating.Point, part float64) seating.Point {
	for k := range a {
		a[k] += float64(part * (b[k] - a[k]))
	}
	return a
}

// The lifts of details over what they lie on, in metres.
const lift1, lift2, lift3 = 0.003, 0.005, 0.007

// torso has corners neck left, neck right, shoulder right, hip right, hip left,
// shoulder left. The shoulders that are drawn slope within its outline, and the
// neck stands on them.
func (s *studio) torso(p []seating.Point) {
	t := s.who.shirt
	if !s.who.fine {
		s.film.add(p, t.plain)
		return
	}
	in := grid{p[5], p[2], p[4], p[3], p[0], p[1]}
	body := [8]seating.Point{
		in.at(-0.30, 0.46), in.at(0.30, 0.46), in.at(0.72, 0.28), in.at(0.98, -0.06),
		p[3], p[4], in.at(-0.98, -0.06), in.at(-0.72, 0.28),
	}
	s.film.add(body[:], t.plain)
	s.over(t.dim, lift1, in.at(0.62, 0.32), in.at(0.72, 0.28), in.at(0.98, -0.06), p[3], in.at(0.5, -0.999))
	s.over(t.light, lift1, in.at(-0.72, 0.28), in.at(-0.5, 0.37), in.at(-0.78, -0.3), in.at(-0.975, -0.1))
	if s.who.behind {
		s.over(s.who.skin.dim, lift2, in.at(-0.2, 1), in.at(0.2, 1), in.at(0.23, 0.5), in.at(-0.23, 0.5))
		return
	}
	s.over(s.who.skin.dim, lift2, in.at(-0.2, 1), in.at(0.2, 1), in.at(0.23, 0.43), in.at(0, s.who.collar), in.at(-0.23, 0.43))
	s.over(s.who.skin.plain, lift3, in.at(-0.2, 0.8), in.at(0.1, 0.62), in.at(0.05, 0.36), in.at(0, s.who.collar), in.at(-0.23, 0.43))
}

// grid places details on a torso: across from −1 at the left outline to 1 at the
// right one at shoulder height, up from −1 at the hips over 0 at the shoulders to 1 at the neck's top.
type grid struct{ shoulderLeft, shoulderRight, hipLeft, hipRight, neckLeft, neckRight seating.Point }

func (g *grid) at(across, up float64) seating.Point {
	if up < 0 {
		return way(way(g.shoulderLeft, g.hipLeft, -up), way(g.shoulderRight, g.hipRight, -up), (across+1)/2)
	}
	// Above the shoulders across keeps its measure, so that the neck does not narrow what stands on it.
	rise := way(g.neckLeft, g.neckRight, 0.5)
	base := way(g.shoulderLeft, g.shoulderRight, 0.5)
	p := way(g.shoulderLeft, g.shoulderRight, (across+1)/2)
	for k := range p {
		p[k] += float64(up * (rise[k] - base[k]))
	}
	return p
}

// sleeve has corners left and right at the shoulder, then right and left at the
// wrist. Its shoulder is rounded.
func (s *studio) sleeve(p []seating.Point) {
	if len(p) != 4 || !s.who.fine {
		s.film.add(p, s.who.shirt.plain)
		return
	}
	t := s.who.shirt
	cloth := [6]seating.Point{way(p[0], p[3], 0.12), way(p[0], p[1], 0.3), way(p[0], p[1], 0.7), way(p[1], p[2], 0.12), p[2], p[3]}
	s.film.add(cloth[:], t.plain)
	s.over(t.dim, lift1, way(p[0], p[1], 0.55), cloth[2], cloth[3], p[2], way(p[3], p[2], 0.55))
	if s.who.bareArms {
		s.over(s.who.skin.plain, lift2, way(p[0], p[3], 0.45), way(p[1], p[2], 0.45), p[2], p[3])
		s.over(s.who.skin.dim, lift3, way(way(p[0], p[1], 0.6), way(p[3], p[2], 0.6), 0.45), way(p[1], p[2], 0.45), p[2], way(p[3], p[2], 0.6))
	}
}

// legs has corners left and right at the hip, then right and left at knee or foot.
func (s *studio) legs(p []seating.Point) {
	t := s.who.trousers
	level := math.Abs(p[0][2]-p[2][2]) < 0.05
	if level {
		s.film.add(p, t.light)
		if !s.who.fine {
			return
		}
		s.over(t.dim, lift1, way(p[0], p[1], 0.47), way(p[0], p[1], 0.53), way(p[3], p[2], 0.56), way(p[3], p[2], 0.44))
		return
	}
	s.film.add(p, t.plain)
	if !s.who.fine {
		return
	}
	s.over(s.look.gap, lift1, way(p[0], p[1], 0.47), way(p[0], p[1], 0.53), way(p[3], p[2], 0.6), way(p[3], p[2], 0.4))
	if s.who.kneels {
		return
	}
	l, r := way(p[3], p[0], 0.16), way(p[2], p[1], 0.16)
	s.over(s.look.shoe, lift2, l, way(l, r, 0.38), way(p[3], p[2], 0.38), p[3])
	s.over(s.look.shoe, lift2, way(l, r, 0.62), r, p[2], way(p[3], p[2], 0.62))
}

// head is an octagon from the top left corner, clockwise as seen; what is drawn is
// the egg in it.
func (s *studio) head(p []seating.Point) {
	if len(p) != 8 || !s.who.fine {
		s.film.add(p, s.who.skin.plain)
		return
	}
	s.who.skull = skullOf(p)
	k := &s.who.skull
	var ring [12]seating.Point
	for i := range ring {
		x, y := egg[i][0], egg[i][1]
		ring[i] = k.at(x, y)
	}
	s.film.add(ring[:], s.who.skin.plain)
	// The side away from the light.
	s.over(s.who.skin.dim, lift1, k.at(0.45, -0.85), k.at(0.5, -0.866), ring[2], ring[3], ring[4], ring[5], k.at(0.45, 0.86), k.at(0.62, 0))
}

// ring is the egg cut off level at a part of its lower half.
func (s *studio) ring(k *skull, low float64) []seating.Point {
	out := s.cut[:]
	for i, e := range egg {
		out[i] = k.at(e[0], min(e[1], low))
	}
	return out
}

// skull is the middle of a head and its half axes, right and down.
type skull struct{ middle, right, down seating.Point }

func skullOf(p []seating.Point) skull {
	var k skull
	for i := range k.middle {
		k.middle[i] = (p[0][i] + p[1][i] + p[4][i] + p[5][i]) / 4
		k.right[i] = (p[2][i]+p[3][i])/2 - k.middle[i]
		k.down[i] = (p[4][i]+p[5][i])/2 - k.middle[i]
	}
	return k
}

func (k *skull) at(right, down float64) seating.Point {
	var p seating.Point
	for i := range p {
		p[i] = k.middle[i] + float64(right*k.right[i]) + float64(down*k.down[i])
	}
	return p
}

// egg is a head's outline in half axes from the top, clockwise: a circle above,
// narrower toward the chin.
var egg = [12][2]float64{
	{0, -1}, {0.5, -0.866}, {0.866, -0.5}, {0.98, 0}, {0.82, 0.5}, {0.46, 0.87},
	{0, 1}, {-0.46, 0.87}, {-0.82, 0.5}, {-0.98, 0}, {-0.866, -0.5}, {-0.5, -0.866},
}

// hair lies on the head from the brow up; with eight corners it is seen from behind.
func (s *studio) hair(p []seating.Point) {
	w := &s.who
	if !w.fine {
		s.film.add(p, w.hair.plain)
		return
	}
	const thick = 0.015 // before the face
	k := &w.skull
	if len(p) != 6 {
		s.over(w.hair.plain, thick, s.ring(k, 0.72)...)
		s.over(w.hair.light, thick+lift1, k.at(-0.8, -0.62), k.at(-0.55, -0.86), k.at(-0.05, -0.93), k.at(-0.3, -0.6))
		return
	}
	fringe := w.fringe
	s.over(w.hair.plain, thick,
		k.at(-1, -0.18), k.at(-0.97, -0.5), k.at(-0.7, -0.86), k.at(-0.3, -1), k.at(0.3, -1), k.at(0.7, -0.86), k.at(0.97, -0.5), k.at(1, -0.18),
		k.at(0.8, fringe), k.at(-0.8, fringe))
	s.over(w.hair.light, thick+lift1, k.at(-0.8, -0.62), k.at(-0.55, -0.86), k.at(-0.05, -0.93), k.at(-0.3, -0.66))
	if w.long {
		s.over(w.hair.plain, thick, k.at(-1, -0.3), k.at(-0.74, -0.3), k.at(-0.7, 0.3), k.at(-0.62, 0.98), k.at(-0.86, 0.7), k.at(-1, 0.35))
		s.over(w.hair.dim, thick, k.at(0.74, -0.3), k.at(1, -0.3), k.at(1, 0.35), k.at(0.86, 0.7), k.at(0.62, 0.98), k.at(0.7, 0.3))
	} else {
		s.over(w.hair.plain, thick, k.at(-1, -0.3), k.at(-0.84, -0.3), k.at(-0.86, 0.05), k.at(-0.98, 0.05))
		s.over(w.hair.dim, thick, k.at(0.84, -0.3), k.at(1, -0.3), k.at(0.98, 0.05), k.at(0.86, 0.05))
	}
	if w.beard {
		s.over(w.hair.plain, thick, k.at(-0.8, 0.5), k.at(0.8, 0.5), k.at(0.46, 0.9), k.at(0, 1), k.at(-0.46, 0.9))
	}
	s.face()
}

// face puts brows, eyes and a mouth on the head.
func (s *studio) face() {
	k := &s.who.skull
	const on = 0.022
	bar := func(c uint8, left, right, high, low float64) {
		s.over(c, on, k.at(left, high), k.at(right, high), k.at(right, low), k.at(left, low))
	}
	bar(s.look.iris, -0.5, -0.26, -0.02, 0.13)
	bar(s.look.iris, 0.26, 0.5, -0.02, 0.13)
	s.over(s.who.lips, on, k.at(-0.3, 0.56), k.at(0.3, 0.56), k.at(0.16, 0.68), k.at(-0.16, 0.68))
	bar(s.who.skin.dim, -0.06, 0.12, 0.3, 0.38)
}
