package pictures

import (
	"cmp"
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
)

// tint is one tone in three lights, as palette entries.
type tint struct{ light, plain, dim uint8 }

// tint is a colour in three lights, in percent of its own.
func (p *palette) tint(c rgb, light, dim int) tint {
	return tint{p.of(shade(c, light)), p.of(c), p.of(shade(c, dim))}
}

// look is everything that people and things may wear in one picture.
type look struct {
	cards                        []tint
	skin, hair, shirts, trousers []tint
	lips                         []uint8 // by skin
	gap, shoe, iris, paper       uint8
	step, bench, box, rail       tint
	pillar                       tint
	nosing, under                uint8
	shadow                       [2]uint8 // on the floor, dark and half dark
}

func newLook(pal *palette, p *mosaic.Plan) look {
	all := func(cs []rgb, light, dim int) []tint {
		out := make([]tint, len(cs))
		for i, c := range cs {
			out[i] = pal.tint(c, light, dim)
		}
		return out
	}
	l := look{}
	// Cards come first: whatever else runs out of room, they are exact.
	for _, c := range p.Stunt.Colours {
		l.cards = append(l.cards, pal.tint(rgb(c.RGB), 103, 95))
	}
	l.paper = pal.of(rgb{0xff, 0xff, 0xff})
	l.skin = all(skinTones, 104, 87)
	for _, c := range skinTones {
		l.lips = append(l.lips, pal.of(between(shade(c, 75), rgb{0xa0, 0x40, 0x40}, 1, 4)))
	}
	l.hair = all(hairTones, 128, 80)
	l.shirts = all(shirtsFor(p.Stunt.Colours), 108, 86)
	l.trousers = all(trouserTones, 118, 78)
	l.gap, l.shoe, l.iris = pal.of(rgb{0x1d, 0x1e, 0x21}), pal.of(shoeTone), pal.of(rgb{0x2a, 0x22, 0x20})
	l.step = pal.tint(rgb{0x8f, 0x8d, 0x88}, 112, 72)
	l.bench = pal.tint(rgb{0xa8, 0x84, 0x5c}, 114, 74)
	l.box = pal.tint(rgb{0x86, 0x80, 0x78}, 112, 78)
	l.rail = pal.tint(rgb{0x6c, 0x72, 0x78}, 120, 76)
	l.pillar = pal.tint(between(wallLow, wallHigh, 1, 2), 103, 88)
	floor := woodFar
	if p.Stunt.Outdoors {
		floor = between(grassNear, grassFar, 1, 2)
	}
	l.shadow = [2]uint8{pal.of(shade(floor, 66)), pal.of(shade(floor, 83))}
	l.nosing, l.under = pal.of(rgb{0xc2, 0xbe, 0xb2}), pal.of(rgb{0x3d, 0x3c, 0x3b})
	return l
}

// person is how somebody looks: always the same on the same seat.
type person struct {
	seat                  int32
	skin, hair            tint
	shirt, trousers       tint
	lips                  uint8
	long, beard, bareArms bool
	behind                bool    // seen from behind
	kneels                bool    // on the knees: no shoes are seen
	fine                  bool    // large enough in the picture for details
	collar                float64 // where it ends, of the height from shoulder to neck
	fringe                float64 // where the hair ends, of half the head's height below its middle
	skull                 skull   // of the head last drawn
}

func (l *look) person(seat int32) person {
	d := diceOf(seat)
	w := person{seat: seat}
	k := d.roll(len(l.skin))
	w.skin, w.lips = l.skin[k], l.lips[k]
	switch {
	case d.roll(100) < 9: // grey
		w.hair = l.hair[len(l.hair)-1]
	case k < len(l.skin)/2: // fair and red hair stays with the lighter half of the skins, where it is common
		w.hair = l.hair[1+d.roll(len(l.hair)-2)]
	default:
		w.hair = l.hair[d.roll(3)]
	}
	w.shirt = l.shirts[d.roll(len(l.shirts))]
	w.trousers = l.trousers[d.roll(len(l.trousers))]
	w.long = d.roll(100) < 46
	w.beard = !w.long && d.roll(100) < 22
	w.bareArms = d.roll(100) < 30
	w.collar = 0.3 - float64(d.roll(30))/100
	w.fringe = -0.42 + float64(d.roll(22))/100
	if d.roll(100) < 6 { // a cap, or a scarf with long hair's shape
		w.hair = l.shirts[d.roll(len(l.shirts))]
	}
	return w
}

// What people look like. Skin and hair are spread over what a mixed town has;
// clothes are muted, so that no shirt passes for a card.
var (
	skinTones = []rgb{
		{0xf3, 0xd3, 0xbd}, {0xe8, 0xbe, 0xa0}, {0xdd, 0xab, 0x86}, {0xcb, 0x93, 0x6c},
		{0xb0, 0x78, 0x52}, {0x8f, 0x5c, 0x3e}, {0x6e, 0x45, 0x30}, {0x52, 0x34, 0x27},
	}
	hairTones = []rgb{
		{0x1e, 0x1a, 0x1a}, {0x2b, 0x21, 0x1d}, {0x3f, 0x2c, 0x22}, {0x5a, 0x3d, 0x2a},
		{0x7d, 0x56, 0x36}, {0xa9, 0x80, 0x50}, {0x8c, 0x4a, 0x2c}, {0x9c, 0x98, 0x94},
	}
	shirtTones = []rgb{
		{0x5b, 0x66, 0x74}, {0x7b, 0x6d, 0x63}, {0x6f, 0x7d, 0x74}, {0x8a, 0x7a, 0x86},
		{0x4c, 0x55, 0x5e}, {0x93, 0x86, 0x76}, {0x6a, 0x5a, 0x5c}, {0x7f, 0x8a, 0x93},
		{0x5d, 0x6b, 0x5c}, {0x85, 0x6c, 0x62}, {0x50, 0x4c, 0x58}, {0x9a, 0x93, 0x8c},
		{0x66, 0x73, 0x85}, {0x77, 0x66, 0x74}, {0x73, 0x75, 0x5f}, {0x45, 0x48, 0x4c},
	}
	trouserTones = []rgb{
		{0x2f, 0x36, 0x42}, {0x3a, 0x3c, 0x40}, {0x4a, 0x52, 0x60}, {0x5a, 0x50, 0x46},
		{0x28, 0x2a, 0x2e}, {0x54, 0x5b, 0x56},
	}
	shoeTone = rgb{0x26, 0x24, 0x24}
)

// clearOfCards is how far, in thousandths of a CIE76 unit, a shirt must be from every card colour.
const clearOfCards = 18_000

// shirtsFor keeps the shirts that pass for no card; at least three stay, the farthest.
func shirtsFor(cards []mosaic.Colour) []rgb {
	far := func(c rgb) int {
		least := math.MaxInt
		for i := range cards {
			least = min(least, apart(c, rgb(cards[i].RGB)))
		}
		return least
	}
	var kept, rest []rgb
	for _, c := range shirtTones {
		if far(c) >= clearOfCards {
			kept = append(kept, c)
		} else {
			rest = append(rest, c)
		}
	}
	slices.SortStableFunc(rest, func(a, b rgb) int { return cmp.Compare(far(b), far(a)) })
	return append(kept, rest[:max(0, min(len(rest), 3-len(kept)))]...)
}

// apart is about CIE76 in thousandths: good enough to keep shirts from cards.
func apart(a, b rgb) int {
	p, q := roughLab(a), roughLab(b)
	return int(math.Round(1000 * math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])))
}

// roughLab is CIELAB with the cube root throughout.
func roughLab(c rgb) [3]float64 {
	const full = 1<<linearBits - 1
	r, g, b := float64(toLinear[c[0]])/full, float64(toLinear[c[1]])/full, float64(toLinear[c[2]])/full
	x := math.Cbrt((float64(0.4124*r) + float64(0.3576*g) + float64(0.1805*b)) / 0.9505)
	y := math.Cbrt(float64(0.2126*r) + float64(0.7152*g) + float64(0.0722*b))
	z := math.Cbrt((float64(0.0193*r) + float64(0.1192*g) + float64(0.9505*b)) / 1.089)
	return [3]float64{float64(116*y) - 16, 500 * (x - y), 200 * (y - z)}
}

// shade is c in percent of its light as sRGB values, held within 0…255.
func shade(c rgb, percent int) rgb {
	for i, v := range c {
		c[i] = uint8(min(255, (int(v)*percent+50)/100))
	}
	return c
}

// between is the way from a to b in n-ths.
func between(a, b rgb, i, n int) rgb {
	var out rgb
	for k := range out {
		out[k] = uint8((int(a[k])*(n-i) + int(b[k])*i + n/2) / n)
	}
	return out
}

// dice are whole numbers that depend on the seat alone (the finaliser of
// SplitMix64; Steele, Lea, Flood 2014).
type dice uint64

func diceOf(seat int32) dice { return dice(uint64(seat)+1) * 0x9e3779b97f4a7c15 }

func (d *dice) roll(sides int) int {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return int((z ^ z>>31) % uint64(sides))
}

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
	throat, left := in.at(0, s.who.collar), in.at(-0.23, 0.43)
	s.over(s.who.skin.dim, lift2, in.at(-0.2, 1), in.at(0.2, 1), in.at(0.23, 0.43), throat, left)
	s.over(s.who.skin.plain, lift3, in.at(-0.2, 0.8), in.at(0.1, 0.62), in.at(0.05, 0.36), throat, left)
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
	cloth := [6]seating.Point{
		way(p[0], p[3], 0.12), way(p[0], p[1], 0.3), way(p[0], p[1], 0.7), way(p[1], p[2], 0.12), p[2], p[3],
	}
	s.film.add(cloth[:], t.plain)
	s.over(t.dim, lift1, way(p[0], p[1], 0.55), cloth[2], cloth[3], p[2], way(p[3], p[2], 0.55))
	if s.who.bareArms {
		elbow, low := way(p[1], p[2], 0.45), way(p[3], p[2], 0.6)
		s.over(s.who.skin.plain, lift2, way(p[0], p[3], 0.45), elbow, p[2], p[3])
		s.over(s.who.skin.dim, lift3, way(way(p[0], p[1], 0.6), low, 0.45), elbow, p[2], low)
	}
}

// legs has corners left and right at the hip, then right and left at knee or foot.
func (s *studio) legs(p []seating.Point) {
	t := s.who.trousers
	seam := func(c uint8, left, right float64) { // between the legs, wider at the knees
		s.over(c, lift1, way(p[0], p[1], 0.47), way(p[0], p[1], 0.53), way(p[3], p[2], right), way(p[3], p[2], left))
	}
	level := math.Abs(p[0][2]-p[2][2]) < 0.05
	cloth := t.plain
	if level {
		cloth = t.light
	}
	s.film.add(p, cloth)
	switch {
	case !s.who.fine:
		return
	case level:
		seam(t.dim, 0.44, 0.56)
		return
	}
	seam(s.look.gap, 0.4, 0.6)
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
	k := &s.who.skull
	for i := range k.middle {
		k.middle[i] = float64((p[0][i] + p[1][i] + p[4][i] + p[5][i]) * 0.25)
		k.right[i] = float64((p[2][i]+p[3][i])*0.5) - k.middle[i]
		k.down[i] = float64((p[4][i]+p[5][i])*0.5) - k.middle[i]
	}
	ring := s.ring(1)
	s.film.add(ring, s.who.skin.plain)
	// The side away from the light.
	s.over(s.who.skin.dim, lift1,
		k.at(0.45, -0.85), k.at(0.5, -0.866), ring[2], ring[3], ring[4], ring[5], k.at(0.45, 0.86), k.at(0.62, 0))
}

// ring is the egg cut off level at a part of its lower half.
func (s *studio) ring(low float64) []seating.Point {
	out := s.cut[:]
	for i, e := range egg {
		out[i] = s.who.skull.at(e[0], min(e[1], low))
	}
	return out
}

// daub draws a detail on the head; its corners are right and down in turns, in half axes.
func (s *studio) daub(c uint8, lift float64, at ...float64) {
	ps := s.cut[:0]
	for i := 0; i < len(at); i += 2 {
		ps = append(ps, s.who.skull.at(at[i], at[i+1]))
	}
	s.over(c, lift, ps...)
}

// skull is the middle of a head and its half axes, right and down.
type skull struct{ middle, right, down seating.Point }

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
	if len(p) != 6 {
		s.over(w.hair.plain, thick, s.ring(0.72)...)
		s.daub(w.hair.light, thick+lift1, -0.8, -0.62, -0.55, -0.86, -0.05, -0.93, -0.3, -0.6)
		return
	}
	s.daub(w.hair.plain, thick, -1, -0.18, -0.97, -0.5, -0.7, -0.86, -0.3, -1,
		0.3, -1, 0.7, -0.86, 0.97, -0.5, 1, -0.18, 0.8, w.fringe, -0.8, w.fringe)
	s.daub(w.hair.light, thick+lift1, -0.8, -0.62, -0.55, -0.86, -0.05, -0.93, -0.3, -0.66)
	if w.long {
		s.daub(w.hair.plain, thick, -1, -0.3, -0.74, -0.3, -0.7, 0.3, -0.62, 0.98, -0.86, 0.7, -1, 0.35)
		s.daub(w.hair.dim, thick, 0.74, -0.3, 1, -0.3, 1, 0.35, 0.86, 0.7, 0.62, 0.98, 0.7, 0.3)
	} else {
		s.daub(w.hair.plain, thick, -1, -0.3, -0.84, -0.3, -0.86, 0.05, -0.98, 0.05)
		s.daub(w.hair.dim, thick, 0.84, -0.3, 1, -0.3, 0.98, 0.05, 0.86, 0.05)
	}
	if w.beard {
		s.daub(w.hair.plain, thick, -0.8, 0.5, 0.8, 0.5, 0.46, 0.9, 0, 1, -0.46, 0.9)
	}
	s.face()
}

// face puts brows, eyes and a mouth on the head.
func (s *studio) face() {
	const on = 0.022
	bar := func(c uint8, left, right, high, low float64) {
		s.daub(c, on, left, high, right, high, right, low, left, low)
	}
	bar(s.look.iris, -0.5, -0.26, -0.02, 0.13)
	bar(s.look.iris, 0.26, 0.5, -0.02, 0.13)
	s.daub(s.who.lips, on, -0.3, 0.56, 0.3, 0.56, 0.16, 0.68, -0.16, 0.68)
	bar(s.who.skin.dim, -0.06, 0.12, 0.3, 0.38)
}
