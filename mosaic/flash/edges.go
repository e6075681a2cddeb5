package flash

import (
	"math"
	"time"

	"everyseat/mosaic/colour"
)

// edge is one half of a flash: a change up (brighter; to red) or down.
type edge struct {
	at  time.Duration
	cue int16
	up  bool
}

// luminanceEdges appends the changes that count as halves of general flashes; up and
// down take turns. A rise in several steps is one change, at the step that makes it
// large enough, and a dip of less than 10 % on the way does not part it.
func luminanceEdges(edges []edge, looks []Look, start int16, own []Change) []edge {
	low := looks[start].Luminance // darkest since the last turn downward began, or since the start
	high := low                   // and the brightest
	rising, falling := false, false
	counted := false // the present rise or fall is among the edges
	for _, c := range own {
		l := looks[c.Look].Luminance
		switch {
		case !rising && l-low >= changeStep:
			rising, falling, counted = true, false, false
			high = l
		case !falling && high-l >= changeStep:
			rising, falling, counted = false, true, false
			low = l
		}
		if rising {
			high = max(high, l)
		} else if falling {
			low = min(low, l)
		} else {
			low, high = min(low, l), max(high, l)
		}
		if (rising || falling) && !counted && low < darkBelow {
			edges = append(edges, edge{c.At, c.Cue, rising})
			counted = true
		}
	}
	return edges
}

// redEdges appends the changes that count as halves of red flashes; to red and from red
// take turns. Coming back to red closes a pair even if the last step is a small one.
func redEdges(edges []edge, looks []Look, start int16, own []Change) []edge {
	before := looks[start]
	red, left := before, false // the last red, and whether a counted change has left it
	for _, c := range own {
		now := looks[c.Look]
		switch {
		case now.Red:
			if left || !red.Red && apart(before, now) {
				edges = append(edges, edge{c.At, c.Cue, true})
			}
			red, left = now, false
		case red.Red && !left && apart(red, now):
			edges = append(edges, edge{c.At, c.Cue, false})
			left = true
		}
		before = now
	}
	return edges
}

// Look is what a seat looks like at one moment, as far as flashes care.
type Look struct {
	Luminance int32 // relative luminance, millionths of the maximum
	Red       bool  // saturated: R/(R+G+B) ≥ 0.8
	U, V      int32 // u′, v′ of CIE 1976 UCS, millionths
}

// LookOf is the look of a colour in linear light: u′, v′ (CIE 15) by XYZ under D65 (IEC 61966-2-1). Black has
// none of its own; it takes those of white, so that dark red against black counts.
func LookOf(l colour.Linear) Look {
	r, g, b := l[0], l[1], l[2]
	look := Look{Luminance: millionths(l.Luminance()), Red: r > 0 && millionths(r/(r+g+b)) >= 800_000}
	if r+g+b <= 0 {
		r, g, b = 1, 1, 1
	}
	x := float64(0.4124*r) + float64(0.3576*g) + float64(0.1805*b)
	y := float64(0.2126*r) + float64(0.7152*g) + float64(0.0722*b)
	z := float64(0.0193*r) + float64(0.1192*g) + float64(0.9505*b)
	sum := x + float64(15*y) + float64(3*z)
	look.U, look.V = millionths(4*x/sum), millionths(9*y/sum)
	return look
}

func millionths(v float64) int32 { return int32(math.Round(v * millionth)) }

// apart says whether two looks differ by more than 0.2 in u′, v′.
func apart(a, b Look) bool {
	du, dv := int64(a.U-b.U), int64(a.V-b.V)
	return du*du+dv*dv > redStep*redStep
}
