package outlook

import (
	"fmt"
	"math"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
	"everyseat/seating/together"
)

// hiddenRows says which rows are hidden from the camera, and what would show them.
func hiddenRows(p *mosaic.Plan) []string {
	if len(p.Marks) == 0 {
		return nil
	}
	out := camera.HiddenReport(p.Scene, p.Marks[0].View, p.Marks[0].Sight)
	for i := range out {
		out[i] = say.Sentence(out[i])
	}
	return out
}

// halfSeen is the mean seen share under which a row counts as vanished.
const halfSeen = 0.5

// vanishLower are the rows that show now and would not with the card held one step lower.
func vanishLower(p *mosaic.Plan) []string {
	if len(p.Marks) == 0 || p.Scene.Card.Held <= camera.Chest {
		return nil
	}
	lower := *p.Scene
	lower.Card.Held--
	before, after := p.Marks[0].Sight, lower.See(p.Marks[0].View)
	var out []string
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		var names []string
		for r := range sec.Rows {
			row := &sec.Rows[r]
			if rowSeen(p.Stands, row, before) >= halfSeen && rowSeen(p.Stands, row, after) < halfSeen {
				names = append(names, row.Name)
			}
		}
		if len(names) > 0 {
			out = append(out, fmt.Sprintf("section %s, %s", sec.Name, rowList(names)))
		}
	}
	return out
}

// rowSeen is the mean seen share of a row's cards, 0 without cards.
func rowSeen(stands *seating.Stands, row *seating.Row, sight *camera.Sight) float64 {
	var sum float64
	n := 0
	for s := row.First; s < row.Last; s++ {
		if stands.Seats[s].Use == seating.UseCard {
			sum += float64(sight.Seen[s])
			n++
		}
	}
	return sum / float64(max(n, 1))
}

func rowList(names []string) string {
	const most = 4
	switch n := len(names); {
	case n == 1:
		return "row " + names[0]
	case n > most:
		return fmt.Sprintf("%d rows from %s to %s", n, names[0], names[n-1])
	}
	return "rows " + say.List(names)
}

// Reaches are how far the camera may stray from the tape cross, as it sees the stands, with
// the plan as it is and the lens turned to the stands again: until a text no longer reads, or of
// pictures a tenth of what is seen of the cards is lost.
type Reaches struct {
	Left, Right, Nearer, Back, Up, Down mosaic.Reach
}

// How far and how finely straying is looked at, and among how many seats; package marks looks
// farther, for any number.
const (
	StrayStep  = 25 * seating.Centimetre
	strayMost  = 4 * seating.Metre
	strayTall  = 1 * seating.Metre // up or down
	strayLow   = 10 * seating.Centimetre
	straySeats = 3000
	// straySamples a card are enough where only a score's change counts.
	straySamples = 16
)

// stray is nil where there are too many seats; where the plan does not read from the mark itself, nothing may stray.
func stray(p *mosaic.Plan) *Reaches {
	if len(p.Stands.Seats) > straySeats || len(p.Marks) == 0 {
		return nil
	}
	if !p.ReadsAtMark() {
		return &Reaches{}
	}
	e := p.Elsewhere()
	home, err := e.From(p.Stunt.Camera, straySamples)
	if err != nil {
		return &Reaches{}
	}
	keeps := e.Keeps(home)
	ways := [...][3]seating.Length{{-1}, {1}, {0, -1}, {0, 1}, {0, 0, 1}, {0, 0, -1}} // across, back, height
	var reach [len(ways)]mosaic.Reach
	together.Each(len(ways), func(i int) { reach[i] = strayTo(p, e, ways[i], keeps) })
	return &Reaches{reach[0], reach[1], reach[2], reach[3], reach[4], reach[5]}
}

func strayTo(p *mosaic.Plan, e *mosaic.Elsewhere, way [3]seating.Length, keeps func(mosaic.Mark) bool) mosaic.Reach {
	most := strayMost
	if way[2] != 0 {
		most = strayTall
	}
	return mosaic.Farthest(StrayStep, most, func(d seating.Length) (bool, mosaic.End) {
		m := p.Stunt.Camera
		m.Across, m.Back, m.Height = m.Across+way[0]*d, m.Back+way[1]*d, m.Height+way[2]*d
		if m.Height < strayLow || wallBetween(p, &p.Stunt.Camera, &m) {
			return false, mosaic.EndRoom
		}
		mark, err := e.From(m, straySamples)
		if err != nil {
			return false, mosaic.EndRoom
		}
		return keeps(mark), mosaic.EndScore
	})
}

// wallBetween says whether a wall of the room crosses the way from one place to another.
func wallBetween(p *mosaic.Plan, from, to *camera.Mark) bool {
	at := func(across, away seating.Length) [2]int64 {
		return [2]int64{int64(across / seating.Millimetre), int64(away / seating.Millimetre)}
	}
	side := func(a, b, c [2]int64) int64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
	a, b := at(from.Across, -from.Back), at(to.Across, -to.Back)
	if a == b {
		return false
	}
	walls := p.Stunt.Room.Walls
	for i := range walls {
		c, next := at(walls[i][0], walls[i][1]), (i+1)%len(walls)
		if next == 0 && len(walls) < 3 {
			break
		}
		d := at(walls[next][0], walls[next][1])
		if (side(a, b, c) > 0) != (side(a, b, d) > 0) && (side(c, d, a) > 0) != (side(c, d, b) > 0) {
			return true
		}
	}
	return false
}

// stops are how many times the light is doubled, as a camera on automatic may do it for a dark hall.
var stops = []int{0, 1, 2}

// LightPair is two card colours that show together, and what a camera makes of them.
type LightPair struct {
	A, B string // ink and ground of a text, or two colours of a picture
	Text bool
	At   []LightAt // with no, one and two stops too much light
	Lost int       // how many stops lose the pair; −1 where two do not
}

// LightAt is a pair as recorded with some stops too much light.
type LightAt struct {
	Stops    int
	A, B     colour.RGB
	Contrast float64 // WCAG, 1…21
	Differ   float64 // CIEDE2000
}

// lost says whether nobody parts the two any more: letters need WCAG's 3 to 1 for large text
// (success criterion 1.4.3, level AA), other pairs a CIEDE2000 of ten (ours, no source).
func (l *LightAt) lost(text bool) bool {
	if text {
		return math.Round(l.Contrast*1000) < mosaic.LeastContrast*1000
	}
	return math.Round(l.Differ*100) < mosaic.Confusable
}

func lightPair(a, b *mosaic.Colour, text bool) LightPair {
	out := LightPair{A: a.Name, B: b.Name, Text: text, Lost: -1}
	for _, n := range stops {
		x, y := a.RGB.Linear().Exposed(float64(n)), b.RGB.Linear().Exposed(float64(n))
		at := LightAt{n, x.RGB(), y.RGB(), colour.Contrast(x.RGB(), y.RGB()), float64(mosaic.Differ(x, y)) / 100}
		out.At = append(out.At, at)
		if out.Lost < 0 && at.lost(text) {
			out.Lost = n
		}
	}
	return out
}

// light lists the pairs of ink and ground of all texts, and of what else shows together the pairs that
// two stops too much light lose, in the order of the palette.
func light(p *mosaic.Plan) []LightPair {
	colours := p.Stunt.Colours
	texts := map[[2]int]bool{}
	at := map[string]int{}
	for i := range colours {
		at[colours[i].Name] = i
	}
	var out []LightPair
	for i := range p.Stunt.Cues {
		c := &p.Stunt.Cues[i]
		if c.Text == "" || c.Ground == mosaic.Shirts {
			continue
		}
		a, b := at[c.Ink], at[c.Ground]
		if pair := [2]int{min(a, b), max(a, b)}; !texts[pair] {
			texts[pair] = true
			out = append(out, lightPair(&colours[a], &colours[b], true))
		}
	}
	together := p.UsedTogether()
	for i := range colours {
		for k := range i {
			if !together[i][k] || texts[[2]int{k, i}] {
				continue
			}
			if pair := lightPair(&colours[k], &colours[i], false); pair.Lost >= 0 {
				out = append(out, pair)
			}
		}
	}
	return out
}
