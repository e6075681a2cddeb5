package pictures

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/marks"
	"everyseat/seating"
)

// roomMap is a map made by hand over the test's hall: scores fall off to the right, and nobody
// stands in the first row of places.
func roomMap(t testing.TB) *marks.Map {
	t.Helper()
	const m = seating.Metre
	p := painted(t, hall(true), "GLOW", testMark())
	here := marks.Place{Across: p.Stunt.Camera.Across, Back: p.Stunt.Camera.Back, Height: p.Stunt.Camera.Height}
	out := &marks.Map{Plan: p, Spells: true, Here: marks.Scored{Place: here, Fixed: 0.9, Anew: 0.9}}
	patch := marks.Patch{Left: -10 * m, Right: 10 * m, Nearest: 2 * m, Farthest: 22 * m, Height: here.Height, Cols: 20, Rows: 20}
	for i := range 400 {
		score := 1 - float64(i%20)/19
		if i < 20 {
			score = marks.Unknown
		}
		patch.Fixed = append(patch.Fixed, score)
		patch.Anew = append(patch.Anew, marks.Unknown)
	}
	patch.Anew[205] = 0.6
	out.Patches = []marks.Patch{patch}
	return out
}

func drawnMarks(t testing.TB, m *marks.Map) (image.Image, []byte) {
	t.Helper()
	var b bytes.Buffer
	if err := Marks(&b, m, "K7QX-2M4P"); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	return img, b.Bytes()
}

func at8(img image.Image, at spot) rgb {
	r, g, b, _ := img.At(int(at.x), int(at.y)).RGBA()
	return rgb{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}
}

// Every place that is in the clear has the ink of its score, where the floor plan says it is.
func TestMarksShowScoresWhereTheyAre(t *testing.T) {
	m := roomMap(t)
	img, first := drawnMarks(t, m)
	if _, again := drawnMarks(t, m); !bytes.Equal(first, again) {
		t.Error("the same map gives other bytes")
	}
	s := newSite(m, "K7QX-2M4P")
	wide := (s.width - 2*siteMargin - siteGap) / 2
	p := &panel{site: s, x: siteMargin, y: siteTop + 58, wide: whole(wide)}
	w, h := s.world.x1-s.world.x0, s.world.y1-s.world.y0
	p.scale = math.Min(p.wide/(w+2*sitePad), siteTall/(h+2*sitePad))
	p.high, p.wide = ceil((h+2*sitePad)*p.scale), math.Min(p.wide, ceil((w+2*sitePad)*p.scale))
	patch := &m.Patches[0]
	right, wrong := 0, 0
	for row := 12; row < 19; row++ {
		for col := range 20 {
			place := patch.At(col, row)
			at := p.at(spot{place.Across.Metres() + 0.2, -place.Back.Metres() - 0.3})
			if at8(img, at) == scoreInk(patch.Fixed[row*20+col]) {
				right++
			} else {
				wrong++
			}
		}
	}
	// Signs, names and the frame's lines lie over some.
	if right < 110 || wrong > 30 {
		t.Errorf("%d places have their score's ink, %d have not", right, wrong)
	}
	place := m.Here
	if c := at8(img, p.at(spot{place.Across.Metres(), -place.Back.Metres()})); c != inkWhite {
		t.Errorf("at the mark there is %v, no cross of white tape", c)
	}
	// Unknown places are paper.
	place.Place = patch.At(1, 0)
	if c := at8(img, p.at(spot{place.Across.Metres(), -place.Back.Metres() + 0.4})); c == scoreInk(patch.Fixed[21]) || c == scoreInk(0) {
		t.Errorf("where nobody can stand there is a score's ink, %v", c)
	}
}

// A copy without colour, and eyes that lack one of the three, tell every step from the next by its
// lightness: CIELAB (CIE 15) of sRGB (IEC 61966-2-1), colour blindness by Machado, Oliveira and Fernandes 2009.
func TestScaleOfScoresIsLightness(t *testing.T) {
	light := func(c rgb) float64 { return colour.RGB(c).Linear().Lab()[0] }
	for i := 1; i < len(scoreInks); i++ {
		if d := light(scoreInks[i]) - light(scoreInks[i-1]); d < 4 {
			t.Errorf("steps %d and %d differ by %.1f in lightness", i-1, i, d)
		}
		for _, v := range colour.Visions {
			a := v.See(colour.RGB(scoreInks[i-1]).Linear()).Lab()[0]
			b := v.See(colour.RGB(scoreInks[i]).Linear()).Lab()[0]
			if b-a < 4 {
				t.Errorf("with %s vision steps %d and %d differ by %.1f in lightness", v, i-1, i, b-a)
			}
		}
	}
}

// Marching squares, worked by hand: three corners of a square read, or two that face each other.
func TestContour(t *testing.T) {
	m := roomMap(t)
	p := &panel{site: newSite(m, "K7QX-2M4P"), scale: 10}
	const cm = seating.Centimetre
	patch := &marks.Patch{Left: 0, Right: 200 * cm, Nearest: 0, Farthest: 200 * cm, Cols: 2, Rows: 2}
	for _, c := range []struct {
		score [4]float64
		lines int
	}{
		{[4]float64{0, 0, 0, 0}, 0}, {[4]float64{1, 1, 1, 1}, 0}, {[4]float64{1, 0, 0, 0}, 1}, {[4]float64{1, 1, 0, 0}, 1},
		{[4]float64{1, 0, 1, 0}, 1}, {[4]float64{1, 0, 0, 1}, 2}, {[4]float64{1, marks.Unknown, 0, 0}, 0},
	} {
		patch.Fixed = c.score[:]
		if got := p.square(patch, 0, 0, 0.5); len(got) != c.lines {
			t.Errorf("%v: %d lines", c.score, len(got))
		}
	}
	// Left reads, right does not: the line runs half-way between, from the one row to the other.
	patch.Fixed = []float64{1, 0, 1, 0}
	l := p.square(patch, 0, 0, 0.5)[0]
	a, b := p.at(spot{1, -0.5}), p.at(spot{1, -1.5})
	near := func(p, q spot) bool { return math.Hypot(p.x-q.x, p.y-q.y) < 1e-6 }
	if !(near(l[0], a) && near(l[1], b) || near(l[0], b) && near(l[1], a)) {
		t.Errorf("the line runs from %v to %v, want %v to %v", l[0], l[1], a, b)
	}
}

func BenchmarkMarks(b *testing.B) {
	m := roomMap(b)
	for b.Loop() {
		var out bytes.Buffer
		if err := Marks(&out, m, "K7QX-2M4P"); err != nil {
			b.Fatal(err)
		}
	}
}

// No name covers a dot, a cross or another name, though a place where a camera may stand is full of dots.
func TestMarksNamesCoverNothing(t *testing.T) {
	m := roomMap(t)
	patch := &m.Patches[0]
	patch.Name = "STARBOARD"
	for i := range patch.Anew {
		if i%2 == 0 && i/20%2 == 0 {
			patch.Anew[i] = 0.6
		}
	}
	s := newSite(m, "K7QX-2M4P")
	p := &panel{site: s, x: 40, y: 40, wide: 800, high: 800, scale: 25, anew: true, large: true, group: group{m.Here.Height, []*marks.Patch{patch}}}
	p.draw()
	names := p.signed[len(p.signed)-len(p.tags):]
	signs := p.signed[:len(p.signed)-len(p.tags)]
	if len(signs) < 20 || len(names) < 4 {
		t.Fatalf("%d signs, %d names: not a fair case", len(signs), len(names))
	}
	for i, a := range names {
		for _, b := range append(signs, names[:i]...) {
			if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				t.Errorf("%q at %v covers what is at %v", p.tags[i].words, a, b)
			}
		}
	}
}
