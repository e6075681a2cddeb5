package legibility

import (
	"math"
	"slices"
	"testing"

	"everyseat/mosaic/faces"

	"pgregory.net/rapid"
)

// block is a plain field: rows of seats straight before the camera.
func block(rows, seats int, slant float64) *Field {
	f := &Field{Width: 1000, Height: 600}
	const w, h = 20.0, 12.0
	for r := range rows {
		for s := range seats {
			x, y := 50+w*float64(s), 100+h*float64(rows-1-r)+slant*float64(s)
			q := func(in float64) [4][2]float64 {
				return [4][2]float64{{x + in, y + in/2}, {x + w - in, y + in/2 + slant}, {x + w - in, y + h - in/2 + slant}, {x + in, y + h - in/2}}
			}
			f.Seats = append(f.Seats, Seat{
				Index: int32(len(f.Seats)), Row: int32(r), Place: int32(s), Cell: q(0), Card: q(4),
				Centre: [2]float64{x + w/2, y + h/2 + slant/2}, Seen: 0.9, Pixels: 0.9 * 12 * 8,
			})
		}
	}
	return f
}

// print lays bold letters on a block by the middle of each seat, and gives their boxes.
func print(f *Field, text string, left, wide, gap, top, base float64) ([]bool, []Glyph) {
	ink := make([]bool, len(f.Seats))
	var out []Glyph
	x := left
	for _, r := range text {
		sh := faces.Bold.Shape(r)
		w := wide * sh.Width / faces.Bold.Shape('H').Width
		for i, s := range f.Seats {
			u := int((s.Centre[0] - x) / w * float64(sh.Cols*faces.Fine))
			v := int((s.Centre[1] - top) / (base - top) * faces.CapRows * faces.Fine)
			if sh.Coverage(u-1, v-1, u+1, v+1) > faces.FullCover/2 {
				ink[i] = true
			}
		}
		out = append(out, Glyph{Rune: r, Box: [4]float64{x, top, x + w, base}})
		x += w + gap
	}
	return ink, out
}

func judged(f *Field, ink []bool, text []Glyph) Reading {
	return Judge([]*Field{f}, 0, ink, text, Options{Empty: 0.08, Wrong: 0.01, HandHeight: 0.04, HandSideways: 0.02, CardWidth: 0.28, CardHeight: 0.216, Seed: 3})
}

func TestJudge(t *testing.T) {
	f := block(14, 40, 0)
	ink, text := print(f, "HAL", 150, 140, 50, 112, 256)
	good := judged(f, ink, text)
	if good.Verdict == DoesNotRead {
		t.Errorf("HAL, seven seats a letter: %+v", good)
	}
	if again := judged(f, ink, text); !slices.Equal(again.Letters, good.Letters) || again.Score != good.Score {
		t.Error("a second judgement differs")
	}
	// the perturbed case must differ: the H loses its right leg
	hurt := slices.Clone(ink)
	for i, s := range f.Seats {
		if s.Centre[0] > 230 && s.Centre[0] < 300 {
			hurt[i] = false
		}
	}
	bad := judged(f, hurt, text)
	if bad.Score >= good.Score/2 || bad.Letters[0].Margin >= good.Letters[0].Margin || bad.Letters[0].Why == "" {
		t.Errorf("H without a leg: %+v, whole: %+v", bad, good)
	}
	blank := judged(f, make([]bool, len(ink)), text)
	if blank.Verdict != DoesNotRead || blank.EmptyOK != 0 || blank.WrongOK != 0 {
		t.Errorf("no ink at all: %+v", blank)
	}
	if none := judged(f, ink, nil); none.Verdict != Picture {
		t.Errorf("no letters: %+v", none)
	}
}

// TestSecondMark: the same seats seen from a second place that slants them.
func TestSecondMark(t *testing.T) {
	a, b := block(14, 40, 0), block(14, 40, 1.5)
	ink, text := print(a, "HAL", 150, 140, 50, 112, 256)
	o := Options{Seed: 3}
	first := Judge([]*Field{a, b}, 0, ink, text, o)
	second := Judge([]*Field{a, b}, 1, ink, text, o)
	if math.Abs(first.Score-second.Score) > 0.35 {
		t.Errorf("straight %.2f, slanting %.2f: levelled rows should read alike", first.Score, second.Score)
	}
}

// TestLaid: a text kept to be read from many places reads as if it were judged from each afresh.
func TestLaid(t *testing.T) {
	a, b := block(14, 40, 0), block(14, 40, 1.5)
	ink, text := print(a, "HAL", 150, 140, 50, 112, 256)
	o := Options{Empty: 0.08, Wrong: 0.01, Seed: 3}
	got, want := NewLaid(a, ink, text, o).Expect(b), Expect([]*Field{a, b}, 1, ink, text, o)
	if got != want || want < failsTo {
		t.Errorf("kept it scores %v, judged afresh %v", got, want)
	}
}

// TestLinear: the predicted picture of two layouts together is the sum of theirs.
func TestLinear(t *testing.T) {
	f := block(8, 20, 0)
	c := NewCanvas(f, Straight(f))
	rapid.Check(t, func(t *rapid.T) {
		var a, b, both Patch
		for _, p := range []*Patch{&a, &b, &both} {
			p.Begin(c, 0, float64(c.W))
		}
		for i := range f.Seats {
			switch rapid.IntRange(0, 2).Draw(t, "side") {
			case 1:
				a.Ink(int32(i), 1)
				both.Ink(int32(i), 1)
			case 2:
				b.Ink(int32(i), 1)
				both.Ink(int32(i), 1)
			}
		}
		for y := range c.H {
			for x := range c.W {
				if d := a.px(x, y) + b.px(x, y) - both.px(x, y); d > 1e-4 || d < -1e-4 {
					t.Fatalf("pixel %d,%d is off by %g", x, y, d)
				}
			}
		}
	})
}

// TestAllInk: where all seats are ink the picture is ink, but for the bare rim.
func TestAllInk(t *testing.T) {
	f := block(8, 20, 0)
	c := NewCanvas(f, Straight(f))
	var p Patch
	p.Show(c, slices.Repeat([]bool{true}, len(f.Seats)), nil, nil)
	if v := p.px(c.W/2, c.H/2); v < 0.9 || v > 1 {
		t.Errorf("middle of an all-ink picture is %.3f", v)
	}
}

func TestWarpsInvert(t *testing.T) {
	f := block(10, 30, 1.2)
	ws := Warps(f)
	if len(ws) != 2 {
		t.Fatalf("%d warps for slanting rows, want 2", len(ws))
	}
	for _, w := range ws {
		for _, s := range f.Seats {
			x, y := w.Map(s.Centre[0], s.Centre[1])
			u, v := w.Unmap(x, y)
			if math.Hypot(u-s.Centre[0], v-s.Centre[1]) > 0.05 {
				t.Fatalf("%v comes back as %.2f, %.2f", s.Centre, u, v)
			}
		}
	}
	// levelled: seats of a row lie on one height
	w := ws[1]
	_, first := w.Map(f.Seats[0].Centre[0], f.Seats[0].Centre[1])
	for _, s := range f.Seats[:30] {
		if _, y := w.Map(s.Centre[0], s.Centre[1]); math.Abs(y-first) > 0.05 {
			t.Fatalf("row 0 runs from %.2f to %.2f", first, y)
		}
	}
}

func TestCarry(t *testing.T) {
	f := block(10, 30, 0)
	c := NewCanvas(f, Straight(f))
	box := [4]float64{10, 5, 40, 14}
	got := Carry(c, c, box)
	for k := range box {
		if math.Abs(got[k]-box[k]) > 1e-6 {
			t.Fatalf("%v is carried to %v on the same canvas", box, got)
		}
	}
}

// TestReaderFile: the network's file holds exactly what the program reads.
func TestReaderFile(t *testing.T) {
	if want := 4 * (inputN*hiddenN + hiddenN + hiddenN*labelN + labelN); len(readerFile) != want {
		t.Fatalf("reader.f32 has %d bytes, want %d", len(readerFile), want)
	}
	var in [inputN]float32
	l, ok := foretell(smallReader(), in[:], 'A')
	if !ok || l.Chance < 0 || l.Chance > 1 || l.Other < 0 || l.Chance+l.Other > 1+1e-9 {
		t.Errorf("chances %v, %v", l.Chance, l.Other)
	}
	if _, ok := foretell(smallReader(), in[:], '&'); ok {
		t.Error("the reader claims to know &")
	}
}

// TestSample: a grid of samples has the bits of the samples one by one, inside the picture and
// over every edge.
func TestSample(t *testing.T) {
	f := block(10, 30, 0)
	ink, text := print(f, "HAL", 150, 140, 50, 112, 230)
	j := newJudge([]*Field{f}, 0, ink, text, Options{})
	j.patch.Show(j.canvas, ink, nil, nil)
	wide, high := float64(j.canvas.W), float64(j.canvas.H)
	inside, outside := 0, 0
	for _, from := range [][2]float64{{5.3, 4.1}, {-2.2, 3}, {wide - 6, 7}, {20, -3.7}, {30.5, high - 4}, {wide + 3, high + 3}} {
		for _, step := range []float64{0.61, -0.37, 1} {
			var xs [7]float64
			var ys [5]float64
			for i := range xs {
				xs[i] = from[0] + step*float64(i)
			}
			for i := range ys {
				ys[i] = from[1] + math.Abs(step)*float64(i)
			}
			out := make([]float32, len(xs)*len(ys))
			j.patch.sample(xs[:], ys[:], out)
			for n, v := range out {
				want := j.patch.at(xs[n%len(xs)], ys[n/len(xs)])
				if v != want {
					t.Fatalf("sample at %v, %v is %v, want %v", xs[n%len(xs)], ys[n/len(xs)], v, want)
				}
				if want != 0 {
					inside++
				} else {
					outside++
				}
			}
		}
	}
	if inside < 100 || outside < 100 {
		t.Errorf("%d samples show ink and %d none", inside, outside)
	}
}
