package pictures

import (
	"fmt"
	"io"
	"math"
	"regexp"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Map writes the flat map of a cue as PNG: the stands from above with the
// camera below, so left and right are as the camera sees them. −1 is everybody resting.
func Map(w io.Writer, b *brief.Brief, cue int) error {
	c, err := newChart(b, cue)
	if err != nil {
		return err
	}
	return c.writePNG(w)
}

// MapSVG writes the same map as SVG 1.1. Every seat is a path whose title is its
// id and what it shows.
func MapSVG(w io.Writer, b *brief.Brief, cue int) error {
	c, err := newChart(b, cue)
	if err != nil {
		return err
	}
	return c.writeSVG(w, b.Plan.Stunt.Title)
}

// Sizes of a map, in pixels.
const (
	mapCell    = 26.0       // wide, of a seat
	smallCell  = 4.0        // the least when there are very many
	letterCell = 13.0       // the least that takes a letter of readable size
	mapMargin  = 48.0       // round everything
	mapSide    = 72.0       // beside the stands, for row names and obstacles
	mapNarrow  = 1180.0     // the least width, for title and legend
	mapMost    = 30_000_000 // pixels in all, where cells can be smaller
)

// The ink of a map.
var (
	inkText   = rgb{0x1f, 0x23, 0x28}
	inkFaint  = rgb{0x6b, 0x72, 0x7a}
	inkLine   = rgb{0x9a, 0xa1, 0xa9}
	inkHair   = rgb{0xc9, 0xce, 0xd3}
	inkPanel  = rgb{0xf1, 0xf2, 0xf0}
	inkFloor  = rgb{0xf7, 0xf5, 0xef}
	inkLane   = rgb{0xe3, 0xe8, 0xee}
	inkPerson = rgb{0xdd, 0xdf, 0xe1}
	inkWhite  = rgb{0xff, 0xff, 0xff}
)

// chart is a map while it is made.
type chart struct {
	drawing
	brief  *brief.Brief
	plan   *mosaic.Plan
	cue    int // −1 is everybody resting
	keys   []string
	scale  float64 // pixels a metre
	pitch  float64 // pixels a seat in the narrowest section
	left   float64 // world x at page x 0
	top    float64 // page y of world y 0
	page   extent  // of the seats, in pixels
	cells  [][4]spot
	taken  *occupancy
	stands *seating.Stands

	toScale bool // the camera stands where it is drawn

	matter *matter // nil = the map shows the cards
}

// newChart draws the flat map of a cue.
func newChart(b *brief.Brief, cue int) (*chart, error) {
	if err := checkCue(b.Plan, cue); err != nil {
		return nil, err
	}
	return drawn(b, cue, nil), nil
}

// drawn is a cue's map, of its cards or of the seats that matter.
func drawn(b *brief.Brief, cue int, m *matter) *chart {
	p := b.Plan
	c := &chart{brief: b, plan: p, cue: cue, stands: p.Stands, keys: colourKeys(p.Stunt.Colours), matter: m}
	c.measure()
	c.floor()
	c.sections()
	c.seats()
	c.names()
	c.below()
	c.heading(c.plan, c.subtitle())
	c.settle()
	return c
}

// measure fixes the scale, the page and every seat's cell.
func (c *chart) measure() {
	world := nothing()
	for i := range c.stands.Seats {
		q := footprint(c.stands, i)
		world.hold(q[:]...)
	}
	pitch := math.Inf(1)
	for i := range c.stands.Sections {
		pitch = math.Min(pitch, c.stands.Sections[i].Spec.Pitch.Metres())
	}
	c.scale = mapCell / pitch
	w, h := world.x1-world.x0, world.y1-world.y0
	if px := w * h * c.scale * c.scale; px > mapMost {
		c.scale = math.Max(smallCell/pitch, c.scale*math.Sqrt(mapMost/px))
	}
	// A whole number of pixels to half a seat keeps the columns even.
	c.scale = math.Max(1, whole(c.scale*pitch)) / pitch
	c.pitch = pitch * c.scale
	c.width = ceil(math.Max(mapNarrow, float64(w*c.scale)+2*(mapMargin+mapSide)))
	c.left = float64((world.x0+world.x1)/2) - c.width/2/c.scale
	c.top = ceil(headingHeight + float64(world.y1*c.scale))
	c.page = nothing()
	c.page.hold(c.at(spot{world.x0, world.y0}), c.at(spot{world.x1, world.y1}))
	c.cells = make([][4]spot, len(c.stands.Seats))
	for i := range c.cells {
		for k, p := range footprint(c.stands, i) {
			c.cells[i][k] = c.at(p)
		}
	}
	c.taken = newOccupancy(c.width, c.page.y1+200)
}

// at is a place on the page of a place on the floor: the camera is below.
func (c *chart) at(world spot) spot {
	return spot{float64((world.x - c.left) * c.scale), c.top - float64(world.y*c.scale)}
}

// axes of a seat on the floor: right along the row as the camera sees it when
// the seat faces it, and ahead, the way the seat faces.
func axes(s *seating.Seat) (right, ahead spot) {
	if s.Facing == 0 {
		return spot{1, 0}, spot{0, -1}
	}
	sin, cos := math.Sincos(s.Facing)
	// Held to 2^-40, so that the last bits of a sine are the same everywhere.
	const steps = 1 << 40
	sin, cos = math.Round(sin*steps)/steps, math.Round(cos*steps)/steps
	return spot{cos, sin}, spot{sin, -cos}
}

// footprint is the seat's place on the floor: back left, back right, front right, front left as the camera
// sees it.
func footprint(stands *seating.Stands, seat int) [4]spot {
	s := &stands.Seats[seat]
	spec := &stands.Sections[s.Section].Spec
	w, d := spec.Pitch.Metres()/2, spec.Run.Metres()/2
	if d == 0 {
		d = w
	}
	right, ahead := axes(s)
	m := spot{s.Position[0], s.Position[1]}
	l, r := m.along(right, -w), m.along(right, w)
	return [4]spot{l.along(ahead, -d), r.along(ahead, -d), r.along(ahead, d), l.along(ahead, d)}
}

// cell is the seat's cell on the page, less a gap in pixels to each neighbour;
// upright cells lie on whole pixels.
func (c *chart) cell(seat int, gap float64) []spot {
	q := c.cells[seat]
	if math.Abs(q[0].y-q[1].y) < 0.01 && math.Abs(q[0].x-q[3].x) < 0.01 {
		x0, y0 := whole(math.Min(q[0].x, q[2].x)), whole(math.Min(q[0].y, q[2].y))
		x1, y1 := whole(math.Max(q[0].x, q[2].x)), whole(math.Max(q[0].y, q[2].y))
		return []spot{{x0 + gap, y0 + gap}, {x1 - gap, y0 + gap}, {x1 - gap, y1 - gap}, {x0 + gap, y1 - gap}}
	}
	m := middle(q[:])
	out := make([]spot, 4)
	for i, p := range q {
		out[i] = m.toward(p, 1-gap*math.Sqrt2/math.Hypot(p.x-m.x, p.y-m.y))
	}
	return out
}

// colourKeys are the colours' letters, numbers for those that the face lacks.
func colourKeys(colours []mosaic.Colour) []string {
	keys := mosaic.ColourLetters(colours)
	for i, k := range keys {
		if printable(k, true) != k {
			keys[i] = fmt.Sprintf("#%d", i+1)
		}
	}
	return keys
}

const headingHeight = 178.0 // from the page's top to the hindmost seat

// heading writes title, date and what a map or a plan is.
func (d *drawing) heading(of *mosaic.Plan, what string) {
	title := of.Stunt.Title
	if title == "" {
		title = "Card stunt"
	}
	wide := d.width - 2*mapMargin
	d.write(spot{mapMargin, 50},
		lettering{words: shorten(title, true, 28, wide-180), size: 28, bold: true, colour: inkText})
	d.write(spot{mapMargin + wide, 50}, lettering{words: of.Stunt.Date, size: 16, colour: inkFaint, anchor: atEnd})
	d.write(spot{mapMargin, 84}, lettering{words: shorten(what, false, 17, wide), size: 17, colour: inkText})
	d.line(inkHair, 1, spot{mapMargin, 104.5}, spot{mapMargin + wide, 104.5})
}

// footer writes the plan's code and a note at the foot of a map or a plan.
func (d *drawing) footer(code brief.Code, note string) {
	y, right := d.height-26, d.width-mapMargin
	d.line(inkHair, 1, spot{mapMargin, y - 16.5}, spot{right, y - 16.5})
	d.write(spot{mapMargin, y}, lettering{words: "Plan " + string(code), size: 13, bold: true, colour: inkText})
	d.write(spot{right, y}, lettering{words: note, size: 13, colour: inkFaint, anchor: atEnd})
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
	if advance(words, bold, size) <= width {
		return words
	}
	r := []rune(words)
	for len(r) > 0 && advance(string(r)+"…", bold, size) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimSpace(string(r)) + "…"
}

// below draws what stands under the seats: the camera, the sides, legend and footer.
func (c *chart) below() {
	y := c.page.y1
	for i := range c.shapes { // seats and names
		for _, p := range c.shapes[i].points {
			y = math.Max(y, p.y)
		}
	}
	y += 34
	c.sides(y)
	y = c.cameraMark(y)
	y = c.legend(y + 34)
	c.height = ceil(y + 78)
	c.footer(c.brief.Code, "Aisles and lanes stay empty, always.  Left and right are as the camera sees the stands.")
}

// sides says which side is which.
func (c *chart) sides(y float64) {
	for _, side := range []struct {
		x, in  float64 // the page's edge, and the way to its inside
		anchor anchor
		words  string
		theirs string
	}{{mapMargin, 1, atStart, "LEFT", "right"}, {c.width - mapMargin, -1, atEnd, "RIGHT", "left"}} {
		at := spot{side.x + float64(22*side.in), y}
		c.write(at, lettering{
			words: side.words + " as the camera sees", size: 15, bold: true, colour: inkText, anchor: side.anchor,
		})
		c.write(spot{at.x, y + 21}, lettering{
			words: "the " + side.theirs + " hand of people in the stands",
			size:  13, colour: inkFaint, anchor: side.anchor,
		})
		arrow := side.x + float64(14*side.in)
		c.area(inkText, spot{side.x, y}, spot{arrow, y - 8}, spot{arrow, y + 8})
	}
}

// cameraMark draws the camera across from where it stands and the way it looks;
// how far away is told in words, since the floor between is left out.
func (c *chart) cameraMark(y float64) float64 {
	v := c.plan.Marks[0].View
	at := c.at(spot{v.Position[0], v.Position[1]})
	x := math.Max(mapMargin+300, math.Min(c.width-mapMargin-300, at.x))
	way := onPage(spot{v.Rotation[2][0], v.Rotation[2][1]}).unit()
	body := spot{x, y + 62}
	c.toScale = at.x == x && at.y >= body.y && at.y < body.y+180
	if c.toScale {
		body = at
	}
	tip, aside := body.along(way, 58), spot{-way.y, way.x}
	barb := tip.along(way, -14)
	c.line(inkText, 2, body.along(way, 18), tip.along(way, -8))
	c.area(inkText, tip, barb.along(aside, -6), barb.along(aside, 6))
	c.area(inkText, rectangle(x-17, body.y-10, 34, 22)...)
	c.area(inkText, rectangle(x-8, body.y-15, 16, 6)...)
	c.area(inkWhite, circle(spot{x, body.y + 1}, 7.5)...)
	c.area(inkText, circle(spot{x, body.y + 1}, 4.5)...)
	l := lettering{words: c.cameraWords(), size: 14, colour: inkText, anchor: atMiddle}
	half := float64(l.length() / 2)
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

var beforeUnit = regexp.MustCompile(`(\d)(\pL)`)

// measure is a length in the crew's own unit, with a blank before the unit.
func measure(l seating.Length) string { return beforeUnit.ReplaceAllString(l.String(), "$1 $2") }

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
		w := sign + 9 + advance(printable(k.words, false), false, size)
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
			out = append(out, sample{sign, fmt.Sprintf("%s  %s", words, say.Thousands(count))})
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
	framed := func(cell []spot) { c.framed(cell, inkWhite) }
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
				c.crossed(inkLine, cell)
			}
		}
		put(r.places, words, sign)
	}
	return out
}
