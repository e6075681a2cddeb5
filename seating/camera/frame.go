package camera

import (
	"math"

	"everyseat/seating"
)

// frame is a place and the way it faces: right as the camera sees it, forward the
// way a person there looks. Both are horizontal and of length 1; up is z.
type frame struct {
	origin         seating.Point
	right, forward [2]float64
}

// frameOf stands at p and faces as a seat does: 0 looks toward −y, positive
// counter-clockwise from above.
func frameOf(p seating.Point, facing float64) frame {
	s, c := sincos(facing)
	return frame{origin: p, right: [2]float64{c, s}, forward: [2]float64{s, -c}}
}

// at is the point that lies across to the right, ahead forward and up.
func (f *frame) at(across, ahead, up float64) seating.Point {
	return seating.Point{
		f.origin[0] + float64(across*f.right[0]) + float64(ahead*f.forward[0]),
		f.origin[1] + float64(across*f.right[1]) + float64(ahead*f.forward[1]),
		f.origin[2] + up,
	}
}

// local is the inverse of at.
func (f *frame) local(p seating.Point) (across, ahead, up float64) {
	x, y := p[0]-f.origin[0], p[1]-f.origin[1]
	across = float64(x*f.right[0]) + float64(y*f.right[1])
	ahead = float64(x*f.forward[0]) + float64(y*f.forward[1])
	return across, ahead, p[2] - f.origin[2]
}

// turnedTo is f turned about its own vertical so that it faces p, and the cosine
// of that turn; f itself and 1 where p is straight above or below.
func (f *frame) turnedTo(p seating.Point) (turned frame, cosine float64) {
	x, y := p[0]-f.origin[0], p[1]-f.origin[1]
	far := math.Sqrt(float64(x*x) + float64(y*y))
	if far < 1e-6 {
		return *f, 1
	}
	x, y = x/far, y/far
	turned = frame{origin: f.origin, right: [2]float64{-y, x}, forward: [2]float64{x, y}}
	return turned, float64(x*f.forward[0]) + float64(y*f.forward[1])
}

func dot(a, b [3]float64) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{
		float64(a[1]*b[2]) - float64(a[2]*b[1]),
		float64(a[2]*b[0]) - float64(a[0]*b[2]),
		float64(a[0]*b[1]) - float64(a[1]*b[0]),
	}
}

func minus(a, b seating.Point) [3]float64 {
	return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]}
}

// unit is a at length 1; ok is false where a has no direction.
func unit(a [3]float64) (u [3]float64, ok bool) {
	n := math.Sqrt(dot(a, a))
	if !(n > 1e-12) || math.IsInf(n, 0) {
		return a, false
	}
	return [3]float64{a[0] / n, a[1] / n, a[2] / n}, true
}

// sum is p + a·x + b·y.
func sum(p seating.Point, a float64, x [3]float64, b float64, y [3]float64) seating.Point {
	for i := range p {
		p[i] = p[i] + float64(a*x[i]) + float64(b*y[i])
	}
	return p
}

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
