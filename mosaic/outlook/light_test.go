package outlook

import (
	"math"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
)

// White and yellow, and white and grey, worked by hand from the formulas of IEC 61966-2-1 (decode c ≤ 0.04045: c/12.92,
// else ((c+0.055)/1.055)^2.4, SEEN in W3C's repository; encode SEEN-2nd) and WCAG's (L1+0.05)/(L2+0.05) with
// L = 0.2126 R + 0.7152 G + 0.0722 B (SEEN); the figures are COMPUTED. #fad628 is 0.955973, 0.672443, 0.021219 in
// linear light; twice that is 1, 1, 0.042438 with two channels full, which is #ffff3a, L 0.930864.
func TestOneStopTooBright(t *testing.T) {
	white := &mosaic.Colour{Name: "white", RGB: colour.RGB{255, 255, 255}}
	for _, c := range []struct {
		rgb      colour.RGB
		recorded [3]string
		contrast [3]float64
		lost     int
	}{
		{colour.RGB{0xfa, 0xd6, 0x28}, [3]string{"#fad628", "#ffff3a", "#ffff52"}, [3]float64{1.4272, 1.0705, 1.0672}, 0},
		{colour.RGB{0x8c, 0x8c, 0x8c}, [3]string{"#8c8c8c", "#c0c0c0", "#ffffff"}, [3]float64{3.3627, 1.8194, 1}, 1},
		{colour.RGB{0x16, 0x29, 0x4d}, [3]string{"#16294d", "#223b6b", "#325494"}, [3]float64{14.3988, 11.0184, 7.4169}, -1},
	} {
		pair := lightPair(white, &mosaic.Colour{Name: "other", RGB: c.rgb}, true)
		if pair.Lost != c.lost {
			t.Errorf("%s is lost at %d stops, want %d", c.rgb.Hex(), pair.Lost, c.lost)
		}
		for n, at := range pair.At {
			if at.Stops != n || at.A.Hex() != "#ffffff" || at.B.Hex() != c.recorded[n] || math.Abs(at.Contrast-c.contrast[n]) > 1e-4 {
				t.Errorf("%s with %d stops: %s at %.4f, want %s at %.4f", c.rgb.Hex(), n, at.B.Hex(), at.Contrast, c.recorded[n], c.contrast[n])
			}
		}
	}
}
