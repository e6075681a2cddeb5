package pictures

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"everyseat/seating"
)

const headingHeight = 178.0 // from the page's top to the hindmost seat

// heading writes title, cue, date and what the map is.
func (c *chart) heading() {
	title := c.plan.Stunt.Title
	if title == "" {
		title = "Card stunt"
	}
	x := mapMargin
	c.write(spot{x, 50}, lettering{words: shorten(title, true, 28, c.width-2*mapMargin-180), size: 28, bold: true, colour: inkText})
	c.write(spot{c.width - mapMargin, 50}, lettering{words: c.plan.Stunt.Date, size: 16, colour: inkFaint, anchor: atEnd})
	c.write(spot{x, 84}, lettering{words: shorten(c.subtitle(), false, 17, c.width-2*mapMargin), size: 17, colour: inkText})
	c.line(inkHair, 1, spot{x, 104.5}, spot{c.width - mapMargin, 104.5})
}

func (c *chart) subtitle() string {
	what := "Everybody resting: cards on laps"
	if c.cue >= 0 {
		cue := c.plan.Cues[c.cue]
		what = fmt.Sprintf("Cue %d of %d", c.cue+1, len(c.plan.Cues))
		if cue.Name != "" {
			what += ": " + cue.Name
		}
		if cue.At != "" && c.matter == nil {
			what += ", at " + cue.At
		}
	}
	if c.matter != nil {
		what += ".  The darker a seat, the more it matters that somebody is there with the right card"
	}
	return what + ".  Plan from above, the camera is below."
}

// shorten cuts words to a width in pixels.
func shorten(words string, bold bool, size, width float64) string {
	words = printable(words, bold)
	if advance(words, bold)*size <= width {
		return words
	}
	r := []rune(words)
	for len(r) > 0 && advance(string(r)+"…", bold)*size > width {
		r = r[:len(r)-1]
	}
	return strings.TrimSpace(string(r)) + "…"
}

// below draws what stands under the seats: the camera, the sides, legend and footer.
func (c *chart) below() {
	y := c.lowest() + 34
	c.sides(y)
	y = c.cameraMark(y)
	y = c.legend(y + 34)
	c.height = ceil(y + 78)
	c.footer()
}

// lowest is the lowest place of the page that seats and names take.
func (c *chart) lowest() float64 {
	y := c.page.y1
	for i := range c.shapes {
		for _, p := range c.shapes[i].points {
			y = math.Max(y, p.y)
		}
	}
	return y
}

// sides says which side is which.
func (c *chart) sides(y float64) {
	x0, x1 := mapMargin, c.width-mapMargin
	c.write(spot{x0 + 22, y}, lettering{words: "LEFT as the camera sees", size: 15, bold: true, colour: inkText})
	c.write(spot{x0 + 22, y + 21}, lettering{words: "the right hand of people in the stands", size: 13, colour: inkFaint})
	c.area(inkText, spot{x0, y}, spot{x0 + 14, y - 8}, spot{x0 + 14, y + 8})
	c.write(spot{x1 - 22, y}, lettering{words: "RIGHT as the camera sees", size: 15, bold: true, colour: inkText, anchor: atEnd})
	c.write(spot{x1 - 22, y + 21}, lettering{words: "the left hand of people in the stands", size: 13, colour: inkFaint, anchor: atEnd})
	c.area(inkText, spot{x1, y}, spot{x1 - 14, y - 8}, spot{x1 - 14, y + 8})
}

// cameraMark draws the camera across from where it stands and the way it looks;
// how far away is told in words, since the floor between is left out.
func (c *chart) cameraMark(y float64) float64 {
	v := c.plan.Marks[0].View
	at := c.at(spot{v.Position[0], v.Position[1]})
	x := math.Max(mapMargin+300, math.Min(c.width-mapMargin-300, at.x))
	way := onPage(spot{v.Rotation[2][0], v.Rotation[2][1]})
	way = spot{unit(way.x, way.y), unit(way.y, way.x)}
	body := spot{x, y + 62}
	c.toScale = at.x == x && at.y >= body.y && at.y < body.y+180
	if c.toScale {
		body = at
	}
	tip := spot{body.x + way.x*58, body.y + way.y*58}
	c.line(inkText, 2, spot{body.x + way.x*18, body.y + way.y*18}, spot{tip.x - way.x*8, tip.y - way.y*8})
	c.area(inkText, tip, spot{tip.x - way.x*14 + way.y*6, tip.y - way.y*14 - way.x*6}, spot{tip.x - way.x*14 - way.y*6, tip.y - way.y*14 + way.x*6})
	c.area(inkText, rectangle(x-17, body.y-10, 34, 22)...)
	c.area(inkText, rectangle(x-8, body.y-15, 16, 6)...)
	c.area(inkWhite, circle(spot{x, body.y + 1}, 7.5)...)
	c.area(inkText, circle(spot{x, body.y + 1}, 4.5)...)
	l := lettering{words: c.cameraWords(), size: 14, colour: inkText, anchor: atMiddle}
	half := l.length() / 2
	c.write(spot{math.Max(mapMargin+half, math.Min(c.width-mapMargin-half, x)), body.y + 30}, l)
	return body.y + 30
}

func (c *chart) cameraWords() string {
	m := c.plan.Stunt.Camera
	side := "in the middle"
	switch {
	case m.Across > 0:
		side = measure(m.Across) + " to the right of the middle"
	case m.Across < 0:
		side = measure(-m.Across) + " to the left of the middle"
	}
	words := fmt.Sprintf("Camera: %s before the front row, %s, lens %s high", measure(m.Back), side, measure(m.Height))
	if !c.toScale {
		words += " (drawn nearer than it is)"
	}
	return words
}

// measure is a length in the crew's own unit, with a blank before the unit.
func measure(l seating.Length) string {
	var b strings.Builder
	last := ' '
	for _, r := range l.String() {
		if unicode.IsLetter(r) && unicode.IsDigit(last) {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
		last = r
	}
	return b.String()
}

// sample is one entry of the legend.
type sample struct {
	sign  func(cell []spot)
	words string
}

// legend lists colours with counts, then the other signs that the map uses.
func (c *chart) legend(y float64) float64 {
	const sign, gap, lineHeight, size = 24.0, 30.0, 36.0, 15.0
	x := mapMargin
	for _, k := range c.keysUsed() {
		w := sign + 9 + advance(printable(k.words, false), false)*size
		if x+w > c.width-mapMargin && x > mapMargin {
			x, y = mapMargin, y+lineHeight
		}
		k.sign(rectangle(x, whole(y-sign/2), sign, sign))
		c.write(spot{x + sign + 9, whole(y)}, lettering{words: k.words, size: size, colour: inkText})
		x += w + gap
	}
	return y
}

func (c *chart) keysUsed() []sample {
	if c.matter != nil {
		return c.matterKeys()
	}
	n := c.count()
	var out []sample
	put := func(count int, words string, sign func([]spot)) {
		if count > 0 {
			out = append(out, sample{sign, fmt.Sprintf("%s  %s", words, grouped(count))})
		}
	}
	for k, count := range n.colours {
		colour := c.plan.Stunt.Colours[k]
		fill := rgb(colour.RGB)
		put(count, colour.Name, func(cell []spot) {
			c.area(fill, cell...)
			if pale(fill) {
				c.outline(inkLine, 1, inset(cell, 0.5)...)
			}
			c.key(cell, int16(k))
		})
	}
	framed := func(cell []spot) { c.add(shape{points: inset(cell, 0.5), fill: &inkWhite, stroke: &inkLine, width: 1}) }
	put(n.none, "shows no card", framed)
	put(n.persons, "person without a card", func(cell []spot) {
		framed(cell)
		c.area(inkPerson, circle(middle(cell), 8)...)
	})
	for _, r := range n.reserved {
		sign := func(cell []spot) { framed(cell); c.reservedSign(cell, inkText, r.use == forWheelchair) }
		words := r.use + " place"
		if r.empty {
			words = strings.TrimSuffix("kept free: "+r.use, ": ")
			sign = func(cell []spot) {
				framed(cell)
				c.line(inkLine, 1, cell[0], cell[2])
				c.line(inkLine, 1, cell[1], cell[3])
			}
		}
		put(r.places, words, sign)
	}
	return out
}

func (c *chart) footer() {
	y := c.height - 26
	c.line(inkHair, 1, spot{mapMargin, y - 16.5}, spot{c.width - mapMargin, y - 16.5})
	c.write(spot{mapMargin, y}, lettering{words: "Plan " + c.plan.Code, size: 13, bold: true, colour: inkText})
	words := "Aisles and lanes stay empty, always.  Left and right are as the camera sees the stands."
	c.write(spot{c.width - mapMargin, y}, lettering{words: words, size: 13, colour: inkFaint, anchor: atEnd})
}
