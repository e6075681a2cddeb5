package pictures

import (
	"math"

	"everyseat/mosaic"
)

// What people look like. Skin and hair are spread over what a mixed town has;
// clothes are muted, so that no shirt passes for a card.
var (
	skinTones = []rgb{
		{0xf3, 0xd3, 0xbd}, {0xe8, 0xbe, 0xa0}, {0xdd, 0xab, 0x86}, {0xcb, 0x93, 0x6c},
		{0xb0, 0x78, 0x52}, {0x8f, 0x5c, 0x3e}, {0x6e, 0x45, 0x30}, {0x52, 0x34, 0x27},
	}
	hairTones = []rgb{
		{0x1e, 0x1a, 0x1a}, {0x2b, 0x21, 0x1d}, {0x3f, 0x2c, 0x22}, {0x5a, 0x3d, 0x2a},
		{0x7d, 0x56, 0x36}, {0xa9, 0x80, 0x50}, {0x8c, 0x4a, 0x2c}, {0x9c, 0x98, 0x94},
	}
	shirtTones = []rgb{
		{0x5b, 0x66, 0x74}, {0x7b, 0x6d, 0x63}, {0x6f, 0x7d, 0x74}, {0x8a, 0x7a, 0x86},
		{0x4c, 0x55, 0x5e}, {0x93, 0x86, 0x76}, {0x6a, 0x5a, 0x5c}, {0x7f, 0x8a, 0x93},
		{0x5d, 0x6b, 0x5c}, {0x85, 0x6c, 0x62}, {0x50, 0x4c, 0x58}, {0x9a, 0x93, 0x8c},
		{0x66, 0x73, 0x85}, {0x77, 0x66, 0x74}, {0x73, 0x75, 0x5f}, {0x45, 0x48, 0x4c},
	}
	trouserTones = []rgb{
		{0x2f, 0x36, 0x42}, {0x3a, 0x3c, 0x40}, {0x4a, 0x52, 0x60}, {0x5a, 0x50, 0x46},
		{0x28, 0x2a, 0x2e}, {0x54, 0x5b, 0x56},
	}
	shoeTone = rgb{0x26, 0x24, 0x24}
)

// clearOfCards is how far, in thousandths of a CIE76 unit, a shirt must be from every card colour.
const clearOfCards = 18_000

// shirtsFor keeps the shirts that pass for no card; at least three stay, the farthest.
func shirtsFor(cards []mosaic.Colour) []rgb {
	type shirt struct {
		c   rgb
		far int
	}
	var kept []rgb
	var rest []shirt
	for _, c := range shirtTones {
		far := math.MaxInt
		for i := range cards {
			far = min(far, apart(c, rgb(cards[i].RGB)))
		}
		if far >= clearOfCards {
			kept = append(kept, c)
		} else {
			rest = append(rest, shirt{c, far})
		}
	}
	for len(kept) < 3 && len(rest) > 0 {
		best := 0
		for i := range rest {
			if rest[i].far > rest[best].far {
				best = i
			}
		}
		kept = append(kept, rest[best].c)
		rest = append(rest[:best], rest[best+1:]...)
	}
	return kept
}

// apart is about CIE76 in thousandths: good enough to keep shirts from cards.
func apart(a, b rgb) int {
	p, q := roughLab(a), roughLab(b)
	return int(math.Round(1000 * math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])))
}

// roughLab is CIELAB with the cube root throughout.
func roughLab(c rgb) [3]float64 {
	const full = 1<<linearBits - 1
	r, g, b := float64(toLinear[c[0]])/full, float64(toLinear[c[1]])/full, float64(toLinear[c[2]])/full
	x := math.Cbrt((0.4124*r + 0.3576*g + 0.1805*b) / 0.9505)
	y := math.Cbrt(0.2126*r + 0.7152*g + 0.0722*b)
	z := math.Cbrt((0.0193*r + 0.1192*g + 0.9505*b) / 1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

// shade is c in percent of its light as sRGB values, held within 0…255.
func shade(c rgb, percent int) rgb {
	for i, v := range c {
		c[i] = uint8(min(255, (int(v)*percent+50)/100))
	}
	return c
}

// between is the way from a to b in n-ths.
func between(a, b rgb, i, n int) rgb {
	var out rgb
	for k := range out {
		out[k] = uint8((int(a[k])*(n-i) + int(b[k])*i + n/2) / n)
	}
	return out
}

// dice are whole numbers that depend on the seat alone (the finaliser of
// SplitMix64; Steele, Lea, Flood 2014).
type dice uint64

func diceOf(seat int32) dice { return dice(uint64(seat)+1) * 0x9e3779b97f4a7c15 }

func (d *dice) roll(sides int) int {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return int((z ^ z>>31) % uint64(sides))
}
