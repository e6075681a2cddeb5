package mosaic

import (
	"math"
	"strings"
)

// A seat is looked at in so many parts across and down, to find what is too thin for it.
const (
	partsAside   = 3
	mostForLines = 20_000 // seats; where there are more, few lines are thinner than one
)

// A colour that fills so much of the picture, in thousandths, and shows on less than a
// quarter of the seats that this would be, is lost (ours, no source).
const (
	noticeable  = 4
	shownAtMost = 4
)

// parts cuts cells into like parts.
func parts(cells []quad) []quad {
	out := make([]quad, 0, len(cells)*partsAside*partsAside)
	for i := range cells {
		q := &cells[i]
		inside := func(x, y int) [2]float64 {
			u, v := float64(x)/partsAside, float64(y)/partsAside
			var p [2]float64
			for c := range p {
				top := q[0][c] + float64(u*(q[1][c]-q[0][c]))
				bottom := q[3][c] + float64(u*(q[2][c]-q[3][c]))
				p[c] = top + float64(v*(bottom-top))
			}
			return p
		}
		for y := range partsAside {
			for x := range partsAside {
				out = append(out, quad{inside(x, y), inside(x+1, y), inside(x+1, y+1), inside(x, y+1)})
			}
		}
	}
	return out
}

// lostLines names the colours of an image that are in parts of seats and on hardly any
// whole one: its thin lines.
func (m *maker) lostLines(cue *Cue, inParts []int, parts int, shown []int16) {
	onSeats := make([]int, len(inParts))
	for _, c := range shown {
		if c != None {
			onSeats[c]++
		}
	}
	var lost []string
	for c, n := range inParts {
		if n*1000 >= noticeable*parts && onSeats[c]*partsAside*partsAside*shownAtMost < n {
			lost = append(lost, m.p.Stunt.Colours[c].Name)
		}
	}
	if len(lost) > 0 {
		m.warn("Cue %q: what is %s in %s is thinner than a seat and is lost: draw these lines thicker.", cue.Name, strings.Join(lost, " or "), imageName(cue))
	}
}

// countParts counts the parts that each colour is nearest to.
func (m *maker) countParts(fine []light, ground int16) []int {
	inParts := make([]int, len(m.p.Stunt.Colours))
	for k := range fine {
		if c := m.about(&fine[k], ground); c != None {
			inParts[c]++
		}
	}
	return inParts
}

// about is the nearest colour of a light that is first rounded to 32 steps a channel: enough to
// count parts, and few colours need comparing.
func (m *maker) about(l *light, ground int16) int16 {
	if ground == None && math.Round(l[3]*1e6) < 500_000 {
		return None
	}
	rgb := m.bestLight(l, ground).RGB()
	for c := range rgb {
		rgb[c] = rgb[c]&^7 | 4
	}
	return int16(m.palette.NearestRGB(rgb))
}

func imageName(cue *Cue) string {
	if cue.ImageName == "" {
		return "the image"
	}
	return cue.ImageName
}
