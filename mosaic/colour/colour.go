// Package colour is the arithmetic of card colours: sRGB, linear light, CIELAB,
// CIEDE2000 and WCAG contrast.
//
// Products that are added are written float64(x*y): Go then may not fuse them
// into one rounding, and every processor gets the same bits. What comes out of
// the transcendental functions is rounded before anything is decided on it.
package colour

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// RGB is an sRGB colour, 8 bits a channel (IEC 61966-2-1).
type RGB [3]uint8

// Linear is linear light with the sRGB primaries, 0…1.
type Linear [3]float64

// ParseHex reads "#rrggbb"; the error is plain words without place.
func ParseHex(s string) (RGB, error) {
	digits, ok := strings.CutPrefix(s, "#")
	v, err := strconv.ParseUint(digits, 16, 24)
	if !ok || err != nil || len(digits) != 6 {
		return RGB{}, fmt.Errorf("%q is not a colour: write # and six digits 0-9 a-f, such as #1f4e9c", s)
	}
	return RGB{uint8(v >> 16), uint8(v >> 8), uint8(v)}, nil
}

// Hex is "#rrggbb" in small letters.
func (c RGB) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2]) }

// Linear decodes c.
func (c RGB) Linear() Linear {
	return Linear{decoded[c[0]], decoded[c[1]], decoded[c[2]]}
}

// RGB encodes l, clamped, rounded to nearest.
func (l Linear) RGB() RGB {
	return RGB{encode8(l[0]), encode8(l[1]), encode8(l[2])}
}

// Decode is the linear light of one sRGB channel value, both 0…1.
func Decode(v float64) float64 {
	// The break of IEC 61966-2-1. WCAG before 2021 printed 0.03928; no 8-bit value lies between.
	if v <= 0.04045 {
		return grid(v / 12.92)
	}
	return grid(math.Pow((v+0.055)/1.055, 2.4))
}

// grid rounds to a multiple of 2^-40, far coarser than the last bit in which
// processors differ and far finer than any colour.
func grid(v float64) float64 {
	const steps = 1 << 40
	return math.Round(v*steps) / steps
}

// decoded is Decode for each 8-bit value. halfway[i] is the light at which
// rounding to 8 bits turns from i to i+1.
var decoded, halfway = func() (d [256]float64, h [255]float64) {
	for i := range d {
		d[i] = Decode(float64(i) / 255)
	}
	for i := range h {
		h[i] = Decode((float64(i) + 0.5) / 255)
	}
	return d, h
}()

// encode8 counts the halfway lights at or below l by bisection; NaN gives 0.
func encode8(l float64) uint8 {
	lo, hi := 0, len(halfway)
	for lo < hi {
		mid := (lo + hi) / 2
		if l >= halfway[mid] {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return uint8(lo)
}

// Luminance is the WCAG relative luminance, 0 (black) … 1 (white).
func (l Linear) Luminance() float64 {
	return float64(0.2126*l[0]) + float64(0.7152*l[1]) + float64(0.0722*l[2])
}

// Contrast is the WCAG contrast ratio, 1…21, the same in either order.
func Contrast(a, b RGB) float64 {
	la, lb := a.Linear().Luminance(), b.Linear().Luminance()
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

// Exposed is how a camera records l with so many stops more light than is right: every
// channel takes 2^stops times the light, and is full at 1. Below 0 it is darker.
func (l Linear) Exposed(stops float64) Linear {
	gain := grid(math.Exp2(stops))
	var out Linear
	for i := range out {
		out[i] = min(max(l[i]*gain, 0), 1)
	}
	return out
}
