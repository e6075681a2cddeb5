package flash

import (
	"math"

	"everyseat/mosaic/colour"
)

// Look is what a seat looks like at one moment, as far as flashes care.
type Look struct {
	Luminance int32 // relative luminance, millionths of the maximum
	Red       bool  // saturated: R/(R+G+B) ≥ 0.8
	U, V      int32 // u′, v′ of CIE 1976 UCS, millionths
}

// LookOf is the look of a colour in linear light.
func LookOf(l colour.Linear) Look {
	r, g, b := l[0], l[1], l[2]
	u, v := chromaticity(r, g, b)
	return Look{
		Luminance: millionths(float64(0.2126*r) + float64(0.7152*g) + float64(0.0722*b)),
		Red:       r > 0 && millionths(r/(r+g+b)) >= 800_000,
		U:         millionths(u),
		V:         millionths(v),
	}
}

func millionths(v float64) int32 { return int32(math.Round(v * millionth)) }

// chromaticity is u′, v′ (CIE 15) from linear sRGB by XYZ under D65 (IEC 61966-2-1).
// Black has none of its own; it takes that of white, so that dark red against black counts.
func chromaticity(r, g, b float64) (u, v float64) {
	if r+g+b <= 0 {
		r, g, b = 1, 1, 1
	}
	x := float64(0.4124*r) + float64(0.3576*g) + float64(0.1805*b)
	y := float64(0.2126*r) + float64(0.7152*g) + float64(0.0722*b)
	z := float64(0.0193*r) + float64(0.1192*g) + float64(0.9505*b)
	sum := x + float64(15*y) + float64(3*z)
	return 4 * x / sum, 9 * y / sum
}

// apart says whether two looks differ by more than 0.2 in u′, v′.
func apart(a, b Look) bool {
	du, dv := int64(a.U-b.U), int64(a.V-b.V)
	return du*du+dv*dv > redStep*redStep
}
