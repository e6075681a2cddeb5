package camera

import "math"

// Half pi in two parts, the first of 33 bits, so that a whole number of quarters times
// it is exact (the split of fdlibm's trigonometric functions; from memory).
const (
	halfPiHigh = 1.57079632673412561417e+00
	halfPiLow  = 6.07710050650619224932e-11
)

// sincos is the sine and cosine of x radians, |x| below about 10⁵, to within 2⁻⁵¹.
// Package math may fuse products and sums on some processors; the explicit
// conversions here forbid that, so every processor gives the same bits.
func sincos(x float64) (sin, cos float64) {
	quarter := math.Floor(float64(x/halfPiHigh) + 0.5)
	r := x - float64(quarter*halfPiHigh)
	r -= float64(quarter * halfPiLow)
	s, c := sincosSmall(r)
	switch int64(quarter) & 3 {
	case 0:
		return s, c
	case 1:
		return c, -s
	case 2:
		return -s, -c
	default:
		return -c, s
	}
}

// sincosSmall sums the Taylor series for |r| <= π/4, from the small end.
func sincosSmall(r float64) (sin, cos float64) {
	square := float64(r * r)
	s, c := 1.0, 1.0
	for n := 20.0; n >= 2; n -= 2 {
		c = 1 - float64(float64(square*c)/float64(n*(n-1)))
		s = 1 - float64(float64(square*s)/float64(n*(n+1)))
	}
	return float64(r * s), c
}

// tan is the tangent of x radians, with the same bits everywhere.
func tan(x float64) float64 {
	s, c := sincos(x)
	return s / c
}
