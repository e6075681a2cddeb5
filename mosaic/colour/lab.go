package colour

import "math"

// Lab is CIELAB under D65.
type Lab [3]float64

// xyz is linear sRGB to CIE XYZ under D65, seven digits; its rows sum to the white point.
var xyz = [3][3]float64{
	{0.4124564, 0.3575761, 0.1804375},
	{0.2126729, 0.7151522, 0.0721750},
	{0.0193339, 0.1191920, 0.9503041},
}

var whiteD65 = [3]float64{0.95047, 1, 1.08883}

// Lab converts by XYZ (D65).
func (l Linear) Lab() Lab {
	var f [3]float64
	for i, m := range xyz {
		f[i] = labCurve((float64(m[0]*l[0]) + float64(m[1]*l[1]) + float64(m[2]*l[2])) / whiteD65[i])
	}
	return Lab{float64(116*f[1]) - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])}
}

// labCurve is CIE 15's cube root with the straight piece near black.
func labCurve(t float64) float64 {
	const epsilon, kappa = 216.0 / 24389, 24389.0 / 27
	if t > epsilon {
		return math.Cbrt(t)
	}
	return (float64(kappa*t) + 16) / 116
}

// CIEDE2000 is the colour difference of Sharma, Wu, Dalal 2005, kL = kC = kH = 1.
// The names of the steps are those of the paper.
func CIEDE2000(a, b Lab) float64 {
	cMean7 := pow7((chroma(a[1], a[2]) + chroma(b[1], b[2])) / 2)
	g := float64(0.5 * (1 - math.Sqrt(cMean7/(cMean7+pow25to7))))
	a1, a2 := (1+g)*a[1], (1+g)*b[1]
	c1, c2 := chroma(a1, a[2]), chroma(a2, b[2])
	h1, h2 := hue(a1, a[2]), hue(a2, b[2])

	dL, dC := b[0]-a[0], c2-c1
	dh, hMean := h2-h1, h1+h2
	// The paper asks whether |dh| > 180, and opposite hues lie exactly on that edge
	// (its pairs 10 and 14). The sine of dh, here as a cross product, has the other
	// sign than dh exactly where |dh| > 180, and is exactly 0 for opposite hues.
	sine := float64(a1*b[2]) - float64(a2*a[2])
	switch {
	case c1*c2 == 0: // a grey has no hue
		dh = 0
	case dh*sine >= 0:
		hMean /= 2
	default:
		if dh > 0 {
			dh -= 360
		} else {
			dh += 360
		}
		if hMean < 360 {
			hMean = (hMean + 360) / 2
		} else {
			hMean = (hMean - 360) / 2
		}
	}
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(radians(dh/2))

	lMean, cMean := float64((a[0]+b[0])/2), float64((c1+c2)/2)
	t := 1 - float64(0.17*math.Cos(radians(hMean-30))) +
		float64(0.24*math.Cos(radians(2*hMean))) +
		float64(0.32*math.Cos(radians(float64(3*hMean)+6))) -
		float64(0.20*math.Cos(radians(float64(4*hMean)-63)))
	l50 := float64((lMean - 50) * (lMean - 50))
	sL := 1 + float64(0.015*l50)/math.Sqrt(20+l50)
	sC := 1 + float64(0.045*cMean)
	sH := 1 + float64(0.015*cMean*t)
	turn := (hMean - 275) / 25
	c7 := pow7(cMean)
	rT := -2 * math.Sqrt(c7/(c7+pow25to7)) * math.Sin(radians(60*math.Exp(-turn*turn)))

	l, c, h := dL/sL, dC/sC, dH/sH
	return math.Sqrt(float64(l*l) + float64(c*c) + float64(h*h) + float64(rT*c*h))
}

const pow25to7 = 6103515625 // 25⁷

func pow7(x float64) float64 {
	x3 := x * x * x
	return float64(x3 * x3 * x)
}

// chroma is the distance from grey.
func chroma(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }

// hue is in degrees, 0…360; 0 for grey.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := float64(math.Atan2(b, a) * (180 / math.Pi))
	if h < 0 {
		h += 360
	}
	return h
}

func radians(degrees float64) float64 { return degrees * (math.Pi / 180) }

// Between says how some colours look between two others, 0 like a and 1 like b: their mean and their spread, one
// standard deviation, along the straight line from a to b in sRGB.
func Between(some []RGB, a, b RGB) (mean, spread float64) {
	var squares, long float64
	for k := range a {
		d := float64(b[k]) - float64(a[k])
		long += float64(d * d)
	}
	for _, c := range some {
		at := 0.0
		for k := range a {
			at += float64((float64(c[k]) - float64(a[k])) * (float64(b[k]) - float64(a[k])))
		}
		at /= max(long, 1)
		mean, squares = mean+at, squares+float64(at*at)
	}
	n := float64(max(len(some), 1))
	mean /= n
	return mean, math.Sqrt(max(squares/n-float64(mean*mean), 0))
}
