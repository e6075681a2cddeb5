package artwork

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// raster is a walk over a whole rectangle.
func raster(width, height int) (w walk) {
	for y := range height {
		row := make([]int32, width)
		for x := range row {
			row[x] = int32(y*width + x)
		}
		w = append(w, row)
	}
	return w
}

func fromLeft(int) bool { return false }

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
		got := make([]int16, len(lights))
		raster(w, h).diffuse(got, lights, palette, euclidean(palette), fromLeft)
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
	run := func(w walk, share float64, n int, fromRight func(int) bool) []int16 {
		out := make([]int16, n)
		w.diffuse(out, level(share, n), []light16{black, white}, threshold, fromRight)
		return out
	}
	if got := grid(run(raster(4, 4), 0.5, 16, fromLeft), 4); got != "1010/0101/1010/0101" {
		t.Errorf("half grey: %s", got)
	}
	if got := grid(run(raster(4, 4), 0.25, 16, fromLeft), 4); got != "0000/0101/0000/0100" {
		t.Errorf("quarter grey: %s", got)
	}
	// One row of 0.4: 0.4 is black and hands on 0.175; 0.575 is white and hands on −0.186;
	// 0.214 is black, +0.094; 0.494 is black, +0.216; 0.616 is white.
	if got := grid(run(raster(5, 1), 0.4, 5, fromLeft), 5); got != "01001" {
		t.Errorf("a row: %s", got)
	}
	// An aisle after the second seat: the third begins anew at 0.4.
	if got := grid(run(walk{{0, 1, gap, 2, 3}}, 0.4, 4, fromLeft), 4); got != "0101" {
		t.Errorf("an aisle: %s", got)
	}
	// From the right the same row comes out mirrored.
	if got := grid(run(raster(5, 1), 0.4, 5, func(int) bool { return true }), 5); got != "10010" {
		t.Errorf("from the right: %s", got)
	}
	// Serpentine, two rows of three at 0.4. Top: 0.4 black (+.4), 0.575 white (−.425), 0.2141
	// black (+.2141). Below each gets: left .4·5/16 −.425·3/16 = .0453; middle .4·1/16 −.425·5/16
	// + .2141·3/16 = −.0677; right −.425·1/16 + .2141·5/16 = .0403. From the right: .4403
	// black; .4 −.0677 + .4403·7/16 = .5250 white; .4 + .0453 − .4750·7/16 = .2375 black.
	if got := grid(run(raster(3, 2), 0.4, 6, func(row int) bool { return row == 1 }), 3); got != "010/010" {
		t.Errorf("serpentine: %s", got)
	}
}
