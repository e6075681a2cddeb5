package pictures

import (
	"math"

	"everyseat/seating"
)

// What stands round the stands.
var (
	wallHigh  = rgb{0xcb, 0xc7, 0xbf}
	wallLow   = rgb{0xaf, 0xab, 0xa3}
	dadoTone  = rgb{0x6f, 0x7b, 0x82}
	ceilTone  = rgb{0x80, 0x82, 0x84}
	lampTone  = rgb{0xf4, 0xf1, 0xe6}
	woodNear  = rgb{0xc9, 0xa4, 0x77}
	woodFar   = rgb{0xa9, 0x86, 0x5f}
	skyHigh   = rgb{0x8f, 0xb2, 0xd3}
	skyLow    = rgb{0xdd, 0xe6, 0xea}
	hillTone  = rgb{0x8b, 0x9b, 0x9a}
	treeTone  = rgb{0x5f, 0x70, 0x5f}
	grassNear = rgb{0x9a, 0x9c, 0x8c}
	grassFar  = rgb{0x83, 0x88, 0x7a}
)

// Sizes of the hall, in metres: our own choice.
const (
	wallBehind = 1.6  // behind the hindmost seat
	wallBeside = 60.0 // to either side
	wallHeight = 9.0  // at least
	headroom   = 4.0  // over the hindmost seat and the lens
	dadoHeight = 1.8
)

// lit shades by the way a surface lies: up, to the front, or aside.
func (s *studio) lit(p []seating.Point, t tint) {
	n := newell(p)
	size := math.Sqrt(dot(n, n))
	switch {
	case math.Abs(n[2]) > 0.7*size:
		s.film.add(p, t.light)
	case math.Abs(n[0]) > 0.7*size:
		s.film.add(p, t.dim)
	default:
		s.film.add(p, t.plain)
	}
}

// step is a footboard with a nosing at its front edge and dark under its ends,
// or a riser. Its corners are back left, back right, front right, front left.
func (s *studio) step(p []seating.Point) {
	if len(p) != 4 || math.Abs(p[0][2]-p[2][2]) > 0.01 {
		s.film.add(p, s.look.step.dim)
		s.contact(p)
		return
	}
	s.film.add(p, s.look.step.light)
	depth := math.Sqrt(float64((p[0][0]-p[3][0])*(p[0][0]-p[3][0])) + float64((p[0][1]-p[3][1])*(p[0][1]-p[3][1])))
	part := 0.05 / math.Max(depth, 0.05)
	s.over(s.look.nosing, lift1, way(p[3], p[0], part), way(p[2], p[1], part), p[2], p[3])
	for _, end := range [2][2]seating.Point{{p[0], p[3]}, {p[1], p[2]}} {
		a, b := end[0], end[1]
		s.film.add([]seating.Point{a, b, {b[0], b[1], 0}, {a[0], a[1], 0}}, s.look.under)
	}
}

// contact is the soft shadow on the floor before a riser that stands on it.
func (s *studio) contact(p []seating.Point) {
	if len(p) != 4 || p[2][2] > 0.01 || p[3][2] > 0.01 {
		return
	}
	a, b := p[3], p[2]
	out := seating.Point{b[1] - a[1], a[0] - b[0]}
	size := math.Sqrt(dot(out, out))
	if size == 0 {
		return
	}
	if dot(out, seating.Point{s.eye[0] - a[0], s.eye[1] - a[1]}) < 0 {
		size = -size
	}
	from := 0.0
	for i, c := range s.look.shadow {
		to := 0.16 * float64(i+1)
		at := func(q seating.Point, far float64) seating.Point {
			return seating.Point{q[0] + float64(out[0]/size*far), q[1] + float64(out[1]/size*far), floorLift}
		}
		s.film.add([]seating.Point{at(a, from), at(b, from), at(b, to), at(a, to)}, c)
		from = to
	}
}

// floorLift keeps what is painted on the floor above it, in metres.
const floorLift = 0.004

// pool is the shadow under somebody who sits on the floor.
func (s *studio) pool(seat int32) {
	at := &s.plan.Stands.Seats[seat]
	if !s.who.fine || at.Position[2] > 0.01 || s.plan.Stands.Sections[at.Section].Spec.Kind != seating.Floor {
		return
	}
	right, ahead := axes(at)
	for i := range 2 {
		var ring [16]seating.Point
		for k := range ring {
			less := float64(0.1 * float64(i))
			across, forward := float64(round16[k][0]*(0.46-less)), float64(round16[k][1]*(0.42-less))
			ring[k] = seating.Point{
				at.Position[0] + float64(across*right.x) + float64((forward+0.1)*ahead.x),
				at.Position[1] + float64(across*right.y) + float64((forward+0.1)*ahead.y),
				floorLift + float64(0.002*float64(i)),
			}
		}
		s.film.add(ring[:], s.look.shadow[1-i])
	}
}

// round16 is a circle in sixteenths: cosine and sine, written out so that every
// processor has the same.
var round16 = func() (ring [16][2]float64) {
	quarter := [5]float64{1, 0.9238795325112867, 0.7071067811865476, 0.3826834323650898, 0}
	for k := range 4 {
		c, s := quarter[k], quarter[4-k]
		for turns, at := range [4][2]float64{{c, s}, {-s, c}, {-c, -s}, {s, -c}} {
			ring[k+4*turns] = at
		}
	}
	return ring
}()

// surroundings draws floor, walls and ceiling, or ground and sky: last, since
// nearly all of it is hidden.
func (s *studio) surroundings() {
	far, near, wide := s.reach()
	if s.plan.Stunt.Outdoors {
		s.ground(near, far+400, grassNear, grassFar)
		s.sky(far)
		return
	}
	corner := func(c [2]seating.Length) seating.Point { return seating.Point{c[0].Metres(), c[1].Metres()} }
	for w := s.plan.Stunt.Room.Walls; len(w) > 1; w = w[1:] {
		s.wall(corner(w[0]), corner(w[1]))
	}
	far += wallBehind
	s.ground(near, far, woodNear, woodFar)
	joints := s.pal.of(between(woodNear, woodFar, 4, 5)) // of the boards
	const apart, joint = 1.2, 0.012
	for x := math.Floor((s.eye[0]-40)/apart) * apart; x < s.eye[0]+40; x += apart {
		s.level(x, near, x+joint, far, 0.002, joints)
	}
	s.wall(seating.Point{-wide, far}, seating.Point{wide, far})
	s.wall(seating.Point{-wide, near}, seating.Point{-wide, far})
	s.wall(seating.Point{wide, far}, seating.Point{wide, near})
	s.level(-wide, near, wide, far, s.ceiling, s.pal.of(ceilTone))
	lamp := s.pal.of(lampTone)
	for y := far - 3; y > near; y -= 5 {
		for x := -30.0; x <= 30; x += 6 {
			s.level(x, y, x+2.4, y+0.5, s.ceiling-0.05, lamp)
		}
	}
}

// reach is how far the seats reach back, how near the camera's side of the hall
// is, and how far everything reaches to either side. It sets the ceiling.
func (s *studio) reach() (far, near, wide float64) {
	far, near = 0, s.eye[1]-6
	for _, corner := range s.plan.Stunt.Room.Walls {
		far, wide = math.Max(far, corner[1].Metres()), math.Max(wide, math.Abs(corner[0].Metres()))
	}
	s.ceiling = math.Max(wallHeight, s.eye[2]+headroom)
	for i := range s.plan.Stands.Seats {
		p := &s.plan.Stands.Seats[i].Position
		far, near = math.Max(far, p[1]), math.Min(near, p[1]-6)
		wide = math.Max(wide, math.Abs(p[0]))
		s.ceiling = math.Max(s.ceiling, p[2]+headroom)
	}
	return far, near, math.Max(wide, math.Abs(s.eye[0])) + wallBeside
}

// upright draws a wall's part over the line from a to b, between two heights.
func (s *studio) upright(a, b seating.Point, low, high float64, c uint8) {
	s.film.add([]seating.Point{{a[0], a[1], high}, {b[0], b[1], high}, {b[0], b[1], low}, {a[0], a[1], low}}, c)
}

// level draws a level rectangle of the floor or of what hangs over it.
func (s *studio) level(x0, y0, x1, y1, height float64, c uint8) {
	s.film.add([]seating.Point{{x0, y0, height}, {x1, y0, height}, {x1, y1, height}, {x0, y1, height}}, c)
}

// ground runs from near to far in strips, a little darker toward the stands.
func (s *studio) ground(near, far float64, light, dark rgb) {
	const strips = 24
	const beside = 400.0
	y := near
	for i := range strips {
		// Strips widen with the distance, as the picture narrows them.
		to := near + float64((far-near)*float64((i+1)*(i+1))/(strips*strips))
		c := s.pal.of(between(light, dark, i, strips-1))
		s.level(-beside, y, beside, to, 0, c)
		y = to
	}
}

// wall stands from a to b on the floor: a dado, then strips that get lighter upward.
func (s *studio) wall(a, b seating.Point) {
	band := func(low, high float64, c rgb) { s.upright(a, b, low, high, s.pal.of(c)) }
	band(0, 0.12, shade(dadoTone, 70))
	band(0.12, dadoHeight-0.06, dadoTone)
	band(dadoHeight-0.06, dadoHeight, shade(dadoTone, 125))
	s.pilasters(a, b)
	const strips = 14
	for i := range strips {
		h := (s.ceiling - dadoHeight) / strips
		low := dadoHeight + float64(h*float64(i))
		band(low, low+h, between(wallLow, wallHigh, i, strips-1))
	}
}

// pilasters are flat pillars on a wall, a lit side and a dark side each.
func (s *studio) pilasters(a, b seating.Point) {
	const apart, wide, proud = 5.0, 0.45, 0.12
	d := seating.Point{b[0] - a[0], b[1] - a[1]}
	long := math.Sqrt(dot(d, d))
	for k := range d {
		d[k] /= math.Max(long, 1e-9)
	}
	// Toward the inside of the hall.
	in := seating.Point{d[1], -d[0]}
	if dot(in, seating.Point{s.eye[0] - a[0], s.eye[1] - a[1]}) < 0 {
		in = seating.Point{-in[0], -in[1]}
	}
	at := func(along, out float64) (p seating.Point) {
		for k := range 2 {
			p[k] = a[k] + float64(d[k]*along) + float64(in[k]*out)
		}
		return p
	}
	for x := math.Mod(long/2, apart); x+wide < long; x += apart {
		s.upright(at(x, proud), at(x+wide, proud), 0, s.ceiling, s.look.pillar.plain)
		s.upright(at(x+wide, proud), at(x+wide+0.1, 0.01), 0, s.ceiling, s.look.pillar.dim)
	}
}

// sky is a tall curtain behind everything, with hills and trees before it.
func (s *studio) sky(far float64) {
	const away, strips, top = 900.0, 20, 900.0
	for i := range strips {
		low := top * float64(i*i) / (strips * strips)
		high := top * float64((i+1)*(i+1)) / (strips * strips)
		c := s.pal.of(between(skyLow, skyHigh, i, strips-1))
		s.upright(seating.Point{-3 * away, away}, seating.Point{3 * away, away}, low-5, high, c)
	}
	s.ridge(far+380, 60, 9, 16, s.pal.of(hillTone), 7)
	s.ridge(far+120, 9, 3, 5, s.pal.of(treeTone), 3)
}

// ridge is a row of rounded tops, each wide metres wide and low to high metres high.
func (s *studio) ridge(y, wide float64, low, high int, c uint8, seed int32) {
	d := diceOf(seed)
	for x := -8 * y; x < 8*y; x += float64(wide * 0.7) {
		h := float64(low) + float64(d.roll((high-low)*10))/10
		var ring [9]seating.Point
		for i := range ring {
			ring[i] = seating.Point{x + float64(wide*round16[i][0]), y, h * round16[i][1]}
		}
		s.film.add(ring[:], c)
	}
}
