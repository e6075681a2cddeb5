package pictures

import (
	"image"
	"math"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/math/fixed"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// level is a camera at the origin that looks along y, horizon in the middle.
func level(width, height int, focal float64) *camera.View {
	return &camera.View{
		Rotation: [3][3]float64{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}},
		Focal:    focal, Center: camera.Pixel{float64(width) / 2, float64(height) / 2},
		Width: width, Height: height,
	}
}

// solid is a palette of n colours that mix to nothing else among them.
func solid(n int) *palette {
	p := newPalette(rgb{0, 0, 0})
	for i := 1; i < n; i++ {
		p.of(rgb{uint8(i * 37), uint8(i * 101), uint8(i * 53)})
	}
	return p
}

// surface is a convex polygon for both the film and the slow twin below.
type surface struct {
	points []seating.Point
	colour uint8
}

// slowly is the obvious renderer: every sample of every pixel against every
// polygon, in floating point.
func slowly(v *camera.View, surfaces []surface, mix *mixer) *image.Paletted {
	img := image.NewPaletted(image.Rect(0, 0, v.Width, v.Height), mix.pal.colours())
	for y := range v.Height {
		for x := range v.Width {
			var s [subLines]uint8
			for k := range s {
				ray := seating.Point{
					(float64(x) + float64(samplePhase[k])/256 - v.Center[0]) / v.Focal, 1,
					-(float64(y) + (float64(k)+0.5)/subLines - v.Center[1]) / v.Focal,
				}
				nearest := math.Inf(1)
				for _, f := range surfaces {
					if d, ok := hit(ray, f.points); ok && d < nearest {
						nearest, s[k] = d, f.colour
					}
				}
			}
			img.Pix[y*img.Stride+x] = mix.mix(s[0], s[1], s[2], s[3])
		}
	}
	return img
}

// hit is how far along the ray from the origin (in units of y) it meets the
// polygon beyond the near clip.
func hit(ray seating.Point, ps []seating.Point) (float64, bool) {
	n := newell(ps)
	d := dot(n, ps[0]) / dot(n, ray)
	if !(d >= nearClip) || math.IsInf(d, 0) {
		return 0, false
	}
	q := seating.Point{ray[0] * d, ray[1] * d, ray[2] * d}
	for i, a := range ps {
		b := ps[(i+1)%len(ps)]
		u := seating.Point{b[0] - a[0], b[1] - a[1], b[2] - a[2]}
		w := seating.Point{q[0] - a[0], q[1] - a[1], q[2] - a[2]}
		c := seating.Point{u[1]*w[2] - u[2]*w[1], u[2]*w[0] - u[0]*w[2], u[0]*w[1] - u[1]*w[0]}
		if dot(c, n) < 0 {
			return 0, false
		}
	}
	return d, true
}

// scattered draws a flat convex polygon of 3 to 8 corners about a random place before the lens.
func scattered(r *rand.Rand, colour uint8) surface {
	num := func(low, high float64) float64 { return low + r.Float64()*(high-low) }
	depth := num(0.5, 8)
	middle := seating.Point{num(-0.7, 0.7) * depth, depth, num(-0.7, 0.7) * depth}
	a, b := num(0, 2*math.Pi), num(-1.5, 1.5)
	right := seating.Point{math.Cos(a), math.Sin(a), 0}
	up := seating.Point{-math.Sin(a) * math.Sin(b), math.Cos(a) * math.Sin(b), math.Cos(b)}
	size := num(0.05, 1) * depth
	n := 3 + r.IntN(6)
	s := surface{colour: colour}
	start := num(0, 6)
	for i := range n {
		at := start + 2*math.Pi*float64(i)/float64(n)
		p := middle
		for k := range p {
			p[k] += size * (right[k]*math.Cos(at) + up[k]*math.Sin(at))
		}
		s.points = append(s.points, p)
	}
	return s
}

// TestDevelopTwin holds the film against the slow twin on scattered polygons
// that cut, hide and cross each other, some of them behind the lens. Samples that
// lie on an edge or where two polygons cross may round either way.
func TestDevelopTwin(t *testing.T) {
	v := level(61, 47, 40)
	pal := solid(13)
	for seed := range uint64(100) {
		r := rand.New(rand.NewPCG(seed, 1))
		n := 1 + r.IntN(12)
		var all []surface
		f := newFilm(v)
		for i := range n {
			s := scattered(r, uint8(i+1))
			all = append(all, s)
			f.add(s.points, s.colour)
		}
		got, want := f.develop(pal), slowly(v, all, pal.mixer())
		if off := differ(got, want); off > 4*n {
			t.Errorf("seed %d: %d of %d pixels differ for %d polygons", seed, off, len(got.Pix), n)
		}
	}
}

func differ(a, b *image.Paletted) int {
	n := 0
	for i := range a.Pix {
		if a.Pix[i] != b.Pix[i] {
			n++
		}
	}
	return n
}

// TestDevelopTwinTells makes sure that the comparison above can fail: a polygon
// moved by a hundredth of its distance, or hidden by another order of depth, must show.
func TestDevelopTwinTells(t *testing.T) {
	v := level(61, 47, 40)
	pal := solid(4)
	square := func(x, depth float64, c uint8) surface {
		return surface{[]seating.Point{{x - 1, depth, 1}, {x + 1, depth, 1}, {x + 1, depth, -1}, {x - 1, depth, -1}}, c}
	}
	f := newFilm(v)
	f.add(square(0, 3, 1).points, 1)
	f.add(square(0.5, 4, 2).points, 2)
	got := f.develop(pal)
	if off := differ(got, slowly(v, []surface{square(0, 3, 1), square(0.5, 4, 2)}, pal.mixer())); off != 0 {
		t.Errorf("%d pixels differ of two squares", off)
	}
	for name, other := range map[string][]surface{
		"moved": {square(0.06, 3, 1), square(0.5, 4, 2)},
		"order": {square(0, 4.5, 1), square(0.5, 4, 2)},
	} {
		if differ(got, slowly(v, other, pal.mixer())) < 20 {
			t.Errorf("%s: the comparison does not notice", name)
		}
	}
}

// TestCoverage holds the smoothed edges against the exact area that
// github.com/golang/freetype/raster, a general-purpose rasteriser, gives each
// pixel: four samples are off by at most three eighths at a single pixel, and over
// a whole polygon by less than a twentieth of a pixel for each pixel of its outline.
func TestCoverage(t *testing.T) {
	const side = 64
	pal := newPalette(rgb{0, 0, 0})
	white := pal.of(rgb{255, 255, 255})
	steps := map[uint8]float64{0: 0, white: 1}
	for n := 1; n < subLines; n++ {
		l := n * (1<<linearBits - 1) / subLines
		g := toSRGB[l]
		steps[pal.of(rgb{g, g, g})] = float64(n) / subLines
	}
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 2))
		n := 3 + r.IntN(6)
		var ring []seating.Point
		exact := raster.NewRasterizer(side, side)
		cx, cy, size, turn := 24+16*r.Float64(), 24+16*r.Float64(), 8+14*r.Float64(), 6*r.Float64()
		for i := range n + 1 {
			at := turn + 2*math.Pi*float64(i)/float64(n)
			x, y := cx+size*math.Cos(at), cy+size*math.Sin(at)*0.7
			p := fixed.Point26_6{X: fixed.Int26_6(math.Round(x * 64)), Y: fixed.Int26_6(math.Round(y * 64))}
			if i == 0 {
				exact.Start(p)
			} else {
				exact.Add1(p)
				ring = append(ring, seating.Point{(float64(p.X)/64 - side/2) / 50, 1, -(float64(p.Y)/64 - side/2) / 50})
			}
		}
		want := image.NewAlpha(image.Rect(0, 0, side, side))
		exact.Rasterize(raster.NewAlphaSrcPainter(want))
		f := newFilm(level(side, side, 50))
		f.add(ring, white)
		got, sum, area := f.develop(pal), 0.0, 0.0
		for i, k := range got.Pix {
			w := float64(want.Pix[i]) / 255
			if d := math.Abs(steps[k] - w); d > 3.0/8+0.02 {
				t.Errorf("seed %d: pixel (%d, %d) is covered by %.2f, want %.2f", seed, i%side, i/side, steps[k], w)
			}
			sum, area = sum+steps[k], area+w
		}
		if math.Abs(sum-area) > 0.05*2*math.Pi*size {
			t.Errorf("seed %d: %.1f pixels are covered, want %.1f", seed, sum, area)
		}
	}
}

// TestEdgesMeet cuts a rectangle into a fan of triangles: no sample may fall
// through the seams.
func TestEdgesMeet(t *testing.T) {
	v := level(200, 150, 150)
	pal := solid(3)
	rim := []seating.Point{{-3, 3, 3}, {-0.7, 3, 3}, {1.3, 3, 3}, {3, 3, 3}, {3, 3, 0.4}, {3, 3, -3}, {-0.2, 3, -3}, {-3, 3, -3}}
	hub := seating.Point{0.123, 3, -0.217}
	f := newFilm(v)
	for i := range rim {
		f.add([]seating.Point{hub, rim[i], rim[(i+1)%len(rim)]}, 1)
	}
	for i, k := range f.develop(pal).Pix {
		if k != 1 {
			t.Fatalf("the seams show at pixel (%d, %d)", i%200, i/200)
		}
	}
}

// TestNearClip: a floor that runs under and behind the lens fills everything
// below the horizon, and nothing above.
func TestNearClip(t *testing.T) {
	v := level(120, 80, 90)
	f := newFilm(v)
	f.add([]seating.Point{{-1e6, -50, -1.6}, {1e6, -50, -1.6}, {1e6, 1e6, -1.6}, {-1e6, 1e6, -1.6}}, 1)
	img := f.develop(solid(2))
	for i, k := range img.Pix {
		if want := uint8(0); i/120 >= 40 {
			want = 1
			if k != want {
				t.Fatalf("no floor at row %d", i/120)
			}
		} else if k != want {
			t.Fatalf("floor above the horizon at row %d", i/120)
		}
	}
}

// TestWorkers: the picture does not depend on how many processors there are.
func TestWorkers(t *testing.T) {
	p := painted(t, hall(false), "LF", smallMark())
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	one, err := shoot(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	runtime.GOMAXPROCS(3)
	three, err := shoot(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	if n := differ(one, three); n > 0 {
		t.Errorf("%d pixels differ", n)
	}
}

// FuzzAdd: no number, however odd, makes the film fail.
func FuzzAdd(f *testing.F) {
	f.Add(0.0, 3.0, 0.0, 1.0, 3.0, 0.0, 0.0, 3.0, 1.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1e-300, 0.3, 1e300, -1e300, 0.3, 0.0, 5.0, -5.0, 1e9)
	f.Add(math.NaN(), math.Inf(1), 0.0, 1.0, 2.0, math.Inf(-1), 0.0, 0.0, 1.0)
	f.Add(0.011, 0.31, -9.0, 0.011, 500.0, 9.0, 0.0111, 40.0, 0.0)
	f.Fuzz(func(t *testing.T, ax, ay, az, bx, by, bz, cx, cy, cz float64) {
		film := newFilm(level(40, 30, 25))
		film.add([]seating.Point{{ax, ay, az}, {bx, by, bz}, {cx, cy, cz}}, 1)
		film.add([]seating.Point{{-1, 5, -1}, {1, 5, -1}, {1, 5, 1}, {-1, 5, 1}}, 1)
		film.develop(solid(2))
	})
}
