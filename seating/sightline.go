package seating

import "math"

// CValue is the height at which a person's line of sight to the focus passes
// over the eye of the person in the row before: C = D(N+R)/(D+T) − R. All lengths
// share one unit. distance D is from the eye in front to the focus along the
// floor, above R is that eye's height over the focus, riser N and depth T are one
// row's step. Source: P. Shepherd, University of Bath, worksheet on stadium
// sight lines (2012).
func CValue(distance, above, riser, depth float64) float64 {
	return distance*(riser+above)/(distance+depth) - above
}

// Sightline is how well one row sees over the row before it.
type Sightline struct {
	Row int     // index into Section.Rows, from 1: the front row has nobody before it
	C   float64 // metres
}

// Sightlines gives the C-value of each row but the first of a section, in the
// vertical plane through the focus straight before the section's middle. focus is
// in world axes, eye the height of the eyes above the footboard, both in metres.
// Rows that the focus lies beside or behind are left out.
func (s *Stands) Sightlines(section int, focus Point, eye float64) []Sightline {
	sec := &s.Sections[section]
	sin, cos := math.Sincos(sec.Facing)
	dx, dy := focus[0]-sec.Origin[0], focus[1]-sec.Origin[1]
	before := float64(dx*sin) - float64(dy*cos) // how far the focus lies before the section's front edge
	half := float64(sec.Spec.Run.Metres() / 2)
	var out []Sightline
	for r := 1; r < len(sec.Rows); r++ {
		front, back := &sec.Rows[r-1], &sec.Rows[r]
		distance := before + front.Front.Metres() + half
		if distance <= 0 {
			continue
		}
		c := CValue(distance, front.Height.Metres()+eye-focus[2], (back.Height - front.Height).Metres(),
			(back.Front - front.Front).Metres())
		out = append(out, Sightline{Row: r, C: c})
	}
	return out
}
