package pictures

import (
	"fmt"
	"math"

	"everyseat/mosaic"
	"everyseat/seating"
)

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
	plan   *mosaic.Plan
	cue    int // −1 is everybody resting
	keys   []string
	scale  float64 // pixels a metre
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
func newChart(p *mosaic.Plan, cue int) (*chart, error) {
	if err := checkCue(p, cue); err != nil {
		return nil, err
	}
	c := &chart{plan: p, cue: cue, stands: p.Stands, keys: colourKeys(p.Stunt.Colours)}
	c.draw()
	return c, nil
}

func (c *chart) draw() {
	c.measure()
	c.floor()
	c.sections()
	c.seats()
	c.names()
	c.below()
	c.heading()
	c.settle()
}

func checkCue(p *mosaic.Plan, cue int) error {
	switch {
	case cue < -1 || cue >= len(p.Cues):
		return fmt.Errorf("there is no cue %d; the plan has %d", cue+1, len(p.Cues))
	case len(p.Marks) == 0 || p.Marks[0].View == nil:
		return fmt.Errorf("the plan has no camera")
	}
	return nil
}

// extent is a rectangle that grows.
type extent struct{ x0, y0, x1, y1 float64 }

func nothing() extent {
	return extent{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

func (e *extent) hold(p spot) {
	e.x0, e.x1 = math.Min(e.x0, p.x), math.Max(e.x1, p.x)
	e.y0, e.y1 = math.Min(e.y0, p.y), math.Max(e.y1, p.y)
}

// measure fixes the scale, the page and every seat's cell.
func (c *chart) measure() {
	world := nothing()
	pitch := math.Inf(1)
	for i := range c.stands.Seats {
		for _, p := range c.footprint(i, 1) {
			world.hold(p)
		}
	}
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
	c.width = ceil(math.Max(mapNarrow, w*c.scale+2*(mapMargin+mapSide)))
	c.left = (world.x0+world.x1)/2 - c.width/2/c.scale
	c.top = ceil(headingHeight + world.y1*c.scale)
	c.page = nothing()
	c.page.hold(c.at(spot{world.x0, world.y0}))
	c.page.hold(c.at(spot{world.x1, world.y1}))
	c.cells = make([][4]spot, len(c.stands.Seats))
	for i := range c.cells {
		for k, p := range c.footprint(i, 1) {
			c.cells[i][k] = c.at(p)
		}
	}
	c.taken = newOccupancy(c.width, c.page.y1+200)
}

// at is a place on the page of a place on the floor: the camera is below.
func (c *chart) at(world spot) spot {
	return spot{(world.x - c.left) * c.scale, c.top - float64(world.y*c.scale)}
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

// footprint is the seat's place on the floor, scaled about its middle: back
// left, back right, front right, front left as the camera sees it.
func (c *chart) footprint(seat int, scale float64) [4]spot {
	s := &c.stands.Seats[seat]
	spec := &c.stands.Sections[s.Section].Spec
	w, d := spec.Pitch.Metres()/2*scale, spec.Run.Metres()/2*scale
	if d == 0 {
		d = w
	}
	r, a := axes(s)
	x, y := s.Position[0], s.Position[1]
	return [4]spot{
		{x - r.x*w - a.x*d, y - r.y*w - a.y*d},
		{x + r.x*w - a.x*d, y + r.y*w - a.y*d},
		{x + r.x*w + a.x*d, y + r.y*w + a.y*d},
		{x - r.x*w + a.x*d, y - r.y*w + a.y*d},
	}
}

// cell is the seat's cell on the page, less a gap in pixels to each neighbour;
// upright cells lie on whole pixels.
func (c *chart) cell(seat int, gap float64) []spot {
	q := c.cells[seat]
	upright := math.Abs(q[0].y-q[1].y) < 0.01 && math.Abs(q[0].x-q[3].x) < 0.01
	if upright {
		x0, y0 := whole(math.Min(q[0].x, q[2].x)), whole(math.Min(q[0].y, q[2].y))
		x1, y1 := whole(math.Max(q[0].x, q[2].x)), whole(math.Max(q[0].y, q[2].y))
		return []spot{{x0 + gap, y0 + gap}, {x1 - gap, y0 + gap}, {x1 - gap, y1 - gap}, {x0 + gap, y1 - gap}}
	}
	m := middle(q[:])
	out := make([]spot, 4)
	for i, p := range q {
		f := 1 - gap*math.Sqrt2/math.Hypot(p.x-m.x, p.y-m.y)
		out[i] = spot{m.x + (p.x-m.x)*f, m.y + (p.y-m.y)*f}
	}
	return out
}

func middle(ps []spot) spot {
	var m spot
	for _, p := range ps {
		m.x += p.x / float64(len(ps))
		m.y += p.y / float64(len(ps))
	}
	return m
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
