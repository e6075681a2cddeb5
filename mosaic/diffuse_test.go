package mosaic

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// raster is a walk over a whole rectangle.
func raster(width, height int) *walk {
	w := &walk{}
	for y := range height {
		row := make([]int32, width)
		for x := range row {
			row[x] = int32(y*width + x)
		}
		w.rows = append(w.rows, row)
	}
	return w
}

// euclidean is the choice that image/draw makes: the least sum of squares, the first of equals.
func euclidean(palette []light16) func(light16) int {
	square := func(a, b int32) uint32 {
		d := uint32(a - b)
		return d * d >> 2
	}
	return func(l light16) int {
		best, least := 0, ^uint32(0)
		for i, p := range palette {
			if sum := square(l[0], p[0]) + square(l[1], p[1]) + square(l[2], p[2]); sum < least {
				best, least = i, sum
			}
		}
		return best
	}
}

// With identity transfer, Euclidean RGB and raster scan the kernel is that of Go's
// standard library, image/draw.FloydSteinberg, seat for seat.
func TestDiffusionIsFloydSteinberg(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for n := range 200 {
		w, h := 1+rng.IntN(40), 1+rng.IntN(30)
		src := image.NewRGBA64(image.Rect(0, 0, w, h))
		lights := make([]light16, 0, w*h)
		for y := range h {
			for x := range w {
				c := color.RGBA64{uint16(rng.IntN(65536)), uint16(x * 65535 / w), uint16(y * 65535 / h), 65535}
				if n%2 == 0 {
					c.R = uint16((x + y) * 65535 / (w + h))
				}
				src.SetRGBA64(x, y, c)
				lights = append(lights, light16{int32(c.R), int32(c.G), int32(c.B)})
			}
		}
		var palette []light16
		var theirs color.Palette
		for range 2 + rng.IntN(8) {
			c := color.RGBA64{uint16(rng.IntN(65536)), uint16(rng.IntN(65536)), uint16(rng.IntN(65536)), 65535}
			theirs = append(theirs, c)
			palette = append(palette, light16{int32(c.R), int32(c.G), int32(c.B)})
		}
		want := image.NewPaletted(src.Bounds(), theirs)
		draw.FloydSteinberg.Draw(want, src.Bounds(), src, image.Point{})
		got := raster(w, h).diffuse(lights, palette, euclidean(palette))
		for i, c := range got {
			if int16(want.Pix[i]) != c {
				t.Fatalf("%d × %d, %d colours: pixel %d is %d, want %d", w, h, len(palette), i, c, want.Pix[i])
			}
		}
	}
}

func grid(got []int16, width int) string {
	var b strings.Builder
	for i, c := range got {
		if i > 0 && i%width == 0 {
			b.WriteByte('/')
		}
		fmt.Fprintf(&b, "%d", c)
	}
	return b.String()
}

// Grids worked by hand. The first two are those of the table beside assignment_transport.csv
// (COMPUTED); the others are worked in the comments.
func TestDiffusionByHand(t *testing.T) {
	black, white := light16{}, light16{fullLight, fullLight, fullLight}
	threshold := func(l light16) int {
		if l[0] >= (fullLight+1)/2 {
			return 1
		}
		return 0
	}
	level := func(share float64, n int) []light16 {
		v := int32(share*fullLight + 0.5)
		return slices.Repeat([]light16{{v, v, v}}, n)
	}
	run := func(w *walk, lights []light16) []int16 { return w.diffuse(lights, []light16{black, white}, threshold) }
	if got := grid(run(raster(4, 4), level(0.5, 16)), 4); got != "1010/0101/1010/0101" {
		t.Errorf("half grey: %s", got)
	}
	if got := grid(run(raster(4, 4), level(0.25, 16)), 4); got != "0000/0101/0000/0100" {
		t.Errorf("quarter grey: %s", got)
	}
	// One row of 0.4: 0.4 is black and hands on 0.175; 0.575 is white and hands on −0.186;
	// 0.214 is black, +0.094; 0.494 is black, +0.216; 0.616 is white.
	if got := grid(run(raster(5, 1), level(0.4, 5)), 5); got != "01001" {
		t.Errorf("a row: %s", got)
	}
	// An aisle after the second seat: the third begins anew at 0.4.
	w := raster(5, 1)
	w.rows[0] = []int32{0, 1, gap, 2, 3}
	if got := grid(run(w, level(0.4, 4)), 4); got != "0101" {
		t.Errorf("an aisle: %s", got)
	}
	// From the right the same row comes out mirrored.
	w = raster(5, 1)
	w.fromRight = true
	if got := grid(run(w, level(0.4, 5)), 5); got != "10010" {
		t.Errorf("from the right: %s", got)
	}
	// Serpentine, two rows of three at 0.4. Top: 0.4 black (+.4), 0.575 white (−.425), 0.2141
	// black (+.2141). Below each gets: left .4·5/16 −.425·3/16 = .0453; middle .4·1/16 −.425·5/16
	// + .2141·3/16 = −.0677; right −.425·1/16 + .2141·5/16 = .0403. From the right: .4403
	// black; .4 −.0677 + .4403·7/16 = .5250 white; .4 + .0453 − .4750·7/16 = .2375 black.
	w = raster(3, 2)
	w.serpentine = true
	if got := grid(run(w, level(0.4, 6)), 3); got != "010/010" {
		t.Errorf("serpentine: %s", got)
	}
}

// grey is an image of one grey, or a slope of greys; the slope down is that up mirrored.
func grey(from, to uint8) []byte {
	low, high := min(from, to), max(from, to)
	m := image.NewGray(image.Rect(0, 0, 128, 64))
	for y := range 64 {
		for x := range 128 {
			at := x
			if from > to {
				at = 127 - x
			}
			m.SetGray(x, y, color.Gray{uint8(int(low) + int(high-low)*at/127)})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// blackAndWhite shows an image with two cards.
func blackAndWhite(data []byte) *Stunt {
	s := gullhaven()
	s.Colours = []Colour{{Name: "black", RGB: colour.RGB{}, Sheets: -1}, {Name: "white", RGB: colour.RGB{255, 255, 255}, Sheets: -1}}
	s.Cues = []Cue{{ImageName: "grey.png", Image: data, Fit: "fill", Reduce: Diffuse}}
	return s
}

// A grey of so much light shows white on about so many seats; flat it shows none or all.
func TestGreyIsDiffused(t *testing.T) {
	for _, level := range []uint8{99, 137, 188} {
		s := blackAndWhite(grey(level, level))
		p := mustMake(t, s)
		checkLedger(t, p)
		got := float64(count(p, 0, 1)) / 432
		if want := colour.Decode(float64(level) / 255); got < want-0.08 || got > want+0.08 {
			t.Errorf("grey %d: %.2f of the seats are white, its light is %.2f", level, got, want)
		}
		s.Cues[0].Reduce = Flat
		if n := count(mustMake(t, s), 0, 1); n != 0 && n != 432 {
			t.Errorf("flat, %d seats are white", n)
		}
	}
}

// A mirrored slope makes the mirrored plan. The plain grid is its own mirror image; from
// the camera, samples of what is hidden fall differently on the two sides.
func TestDiffusionMirrors(t *testing.T) {
	plans := [2]*Plan{}
	for i, data := range [][]byte{grey(20, 230), grey(230, 20)} {
		s := blackAndWhite(data)
		s.Cues[0].Fit, s.Camera.Height = "flat", 9*seating.Metre
		plans[i] = mustMake(t, s)
	}
	a, b := plans[0], plans[1]
	wrong := 0
	for s := range a.Stands.Seats {
		if a.Cues[0].Colours[s] != b.Cues[0].Colours[mirrored(b, s)] {
			wrong++
		}
	}
	if wrong > 0 {
		t.Errorf("%d of 432 seats are not mirrored", wrong)
	}
	if n := count(a, 0, 1); n < 80 || n > 350 {
		t.Errorf("%d seats are white", n)
	}
}

// From far away the seats run together and diffusing looks closer; from close by each
// card is seen by itself and the nearest colour is best.
func TestReductionIsChosen(t *testing.T) {
	s := blackAndWhite(grey(137, 137))
	s.Cues[0].Reduce = ""
	if n := count(mustMake(t, s), 0, 1); n != 0 && n != 432 {
		t.Errorf("from close by %d of 432 seats are white", n)
	}
	s.Camera.Back = 400 * seating.Metre
	s.Camera.Lens.FieldOfView = 65
	if n := count(mustMake(t, s), 0, 1); n == 0 || n == 432 {
		t.Errorf("from afar %d of 432 seats are white", n)
	}
}

func TestExposure(t *testing.T) {
	s := blackAndWhite(grey(99, 99)) // light of 0.125: three stops make it white
	stops := 3.0
	s.Cues[0].Exposure = &stops
	if n := count(mustMake(t, s), 0, 1); n < 420 {
		t.Errorf("%d of 432 seats are white", n)
	}
	stops = -3
	if n := count(mustMake(t, s), 0, 1); n > 25 {
		t.Errorf("%d of 432 seats are white", n)
	}
}

// A filling image is moved so that its focus stays in sight.
func TestFocus(t *testing.T) {
	a := &artwork{width: 200, height: 100}
	for _, c := range []struct {
		focus      [2]float64
		left, top  float64
		cutOffLeft bool
	}{
		{[2]float64{0, 0}, -50, 0, true}, {[2]float64{0.5, 0.5}, -50, 0, true},
		{[2]float64{0.1, 0.5}, 0, 0, false}, {[2]float64{0.9, 0.2}, -100, 0, true}, {[2]float64{0.4, 0.5}, -30, 0, true},
	} {
		p := a.place(box{0, 0, 100, 100}, true, c.focus)
		if p.scale != 1 || p.left != c.left || p.top != c.top {
			t.Errorf("focus %v: %+v", c.focus, p)
		}
	}
}

// A line of a tenth of a seat is named as lost, one of two seats is kept.
func TestThinLines(t *testing.T) {
	for wide, lost := range map[int]bool{2: true, 48: false} {
		m := image.NewNRGBA(image.Rect(0, 0, 720, 360))
		draw.Draw(m, m.Bounds(), image.NewUniform(color.NRGBA{0x1b, 0x2a, 0x5c, 255}), image.Point{}, draw.Src)
		for x := 50; x < 700; x += 150 {
			draw.Draw(m, image.Rect(x, 0, x+wide, 360), image.NewUniform(color.NRGBA{255, 255, 255, 255}), image.Point{}, draw.Src)
		}
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "mast.png", Image: b.Bytes(), Fit: "fill", Reduce: Flat}}
		p := mustMake(t, s)
		said := strings.Contains(strings.Join(p.Warnings, " "), "what is white in mast.png is thinner than a seat")
		if said != lost {
			t.Errorf("%d wide, %d seats white: warnings %q", wide, count(p, 0, 1), p.Warnings)
		}
	}
}

// An image that shows on a few seats alone is warned about, one that fills the stands is not.
func TestSmallImagesAreNamed(t *testing.T) {
	for wide, small := range map[int]bool{40: true, 500: false} {
		m := image.NewNRGBA(image.Rect(0, 0, 720, 360))
		draw.Draw(m, m.Bounds(), image.NewUniform(color.NRGBA{0x1b, 0x2a, 0x5c, 255}), image.Point{}, draw.Src)
		draw.Draw(m, image.Rect(360-wide/2, 180-wide/2, 360+wide/2, 180+wide/2), image.NewUniform(color.NRGBA{255, 255, 255, 255}), image.Point{}, draw.Src)
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "mast.png", Image: encoded(t, m), Fit: "fill", Ground: "navy"}}
		p := mustMake(t, s)
		if said := strings.Contains(strings.Join(p.Warnings, " "), "seats show anything but navy: crop mast.png"); said != small {
			t.Errorf("%d wide: warnings %q", wide, p.Warnings)
		}
	}
}
