package pictures

import (
	"fmt"
	"math"

	"everyseat/mosaic"
	"everyseat/seating"
)

// colourOf is the palette index that the seat shows, or mosaic.None.
func colourOf(p *mosaic.Plan, cue, seat int) int16 {
	if cue < 0 {
		return mosaic.None
	}
	return p.Cues[cue].Colours[seat]
}

// seats draws every seat once: the colour it shows with the colour's letter, or
// who is there instead.
func (c *chart) seats() {
	for i := range c.stands.Seats {
		s := &c.stands.Seats[i]
		k := colourOf(c.plan, c.cue, i)
		name := c.stands.ID(i)
		switch {
		case s.Use == seating.UseReserved:
			c.keptFree(i, name+" "+s.For)
		case s.Use == seating.UsePerson || s.Use == seating.UseDropped:
			c.person(i, name+" no card")
		case k == mosaic.None:
			c.cardless(i, name+" shows none")
		case c.matter != nil:
			c.weighed(i, k, name)
		default:
			c.card(i, k, name+" "+c.plan.Stunt.Colours[k].Name)
		}
		c.badge(i)
	}
}

// roomFor says whether a seat's cell takes a letter.
func (c *chart) roomFor() bool { return c.pitchPixels() >= letterCell }

func (c *chart) pitchPixels() float64 {
	least := math.Inf(1)
	for i := range c.stands.Sections {
		least = math.Min(least, c.stands.Sections[i].Spec.Pitch.Metres()*c.scale)
	}
	return least
}

// gap between cells is a pixel on either side while cells are large enough.
func (c *chart) gap() float64 {
	if c.pitchPixels() >= 9 {
		return 1
	}
	return 0.5
}

func (c *chart) card(i int, k int16, name string) {
	fill := rgb(c.plan.Stunt.Colours[k].RGB)
	cell := c.cell(i, c.gap())
	c.add(shape{points: cell, fill: &fill, name: name})
	if pale(fill) {
		// A white card on white paper still has an edge.
		c.outline(inkHair, 1, inset(cell, 0.5)...)
	}
	c.key(cell, k)
}

// key marks a cell with its colour's letter, or where that would be too small
// with a stroke, so that a copy without colour says the same.
func (c *chart) key(cell []spot, k int16) {
	fill := rgb(c.plan.Stunt.Colours[k].RGB)
	if c.roomFor() {
		c.write(middle(cell), lettering{words: c.keys[k], size: c.letterSize(c.keys[k]), bold: true, colour: inkOn(fill), anchor: atMiddle})
		return
	}
	ink := between(fill, inkOn(fill), 2, 3)
	for i, s := range strokes {
		if int(k)>>i&1 != 0 {
			c.line(ink, 1, inCell(cell, s[0], s[1]), inCell(cell, s[2], s[3]))
		}
	}
}

// strokes tell up to sixteen colours apart: the bits of a colour's place in the
// palette. Each runs from across, down to across, down, in parts of the cell.
var strokes = [4][4]float64{{0.1, 0.9, 0.9, 0.1}, {0.1, 0.5, 0.9, 0.5}, {0.1, 0.1, 0.9, 0.9}, {0.5, 0.1, 0.5, 0.9}}

// inCell is a place in a cell, in parts of its width and depth.
func inCell(cell []spot, across, down float64) spot {
	top := spot{cell[0].x + (cell[1].x-cell[0].x)*across, cell[0].y + (cell[1].y-cell[0].y)*across}
	low := spot{cell[3].x + (cell[2].x-cell[3].x)*across, cell[3].y + (cell[2].y-cell[3].y)*across}
	return spot{top.x + (low.x-top.x)*down, top.y + (low.y-top.y)*down}
}

// letterSize fits a key into a cell.
func (c *chart) letterSize(key string) float64 {
	size := math.Max(11, math.Min(15, c.pitchPixels()*0.55))
	if len([]rune(key)) > 1 {
		size = math.Max(11, size-2)
	}
	return whole(size)
}

func (c *chart) cardless(i int, name string) {
	cell := c.cell(i, c.gap())
	c.add(shape{points: cell, fill: &inkWhite, stroke: &inkHair, width: 1, name: name})
}

// person is somebody without a card: a head and shoulders from above.
func (c *chart) person(i int, name string) {
	cell := c.cell(i, c.gap())
	c.add(shape{points: cell, fill: &inkWhite, name: name})
	if c.roomFor() {
		c.area(inkPerson, circle(middle(cell), c.pitchPixels()*0.3)...)
	} else {
		c.area(inkPerson, inset(cell, 1)...)
	}
}

// keptFree is a seat where nobody sits: a cross.
func (c *chart) keptFree(i int, name string) {
	cell := inset(c.cell(i, c.gap()), 1)
	c.add(shape{points: cell, fill: &inkWhite, stroke: &inkLine, width: 1, name: name})
	c.line(inkLine, 1, cell[0], cell[2])
	c.line(inkLine, 1, cell[1], cell[3])
}

// badge marks places kept for somebody who sits there: a heavy frame, and for
// wheelchairs a ring as well.
func (c *chart) badge(i int) {
	s := &c.stands.Seats[i]
	if s.For == "" || s.Use == seating.UseReserved || c.matter != nil {
		return
	}
	cell := c.cell(i, c.gap())
	ink := inkText
	if k := colourOf(c.plan, c.cue, i); k != mosaic.None {
		ink = inkOn(rgb(c.plan.Stunt.Colours[k].RGB))
	}
	c.reservedSign(cell, ink, s.For == forWheelchair)
}

const forWheelchair = "wheelchair"

func (c *chart) reservedSign(cell []spot, ink rgb, wheel bool) {
	if wheel {
		m := middle(cell)
		r := math.Min(math.Hypot(cell[0].x-cell[1].x, cell[0].y-cell[1].y), math.Hypot(cell[1].x-cell[2].x, cell[1].y-cell[2].y))
		c.outline(ink, 1.5, circle(m, r*0.42)...)
		return
	}
	c.outline(ink, 1.5, inset(cell, 2.5)...)
}

// inset moves a cell's corners toward its middle by px along both axes.
func inset(cell []spot, px float64) []spot {
	m := middle(cell)
	out := make([]spot, len(cell))
	for i, p := range cell {
		d := math.Hypot(p.x-m.x, p.y-m.y)
		if d == 0 {
			out[i] = p
			continue
		}
		q, r := cell[(i+1)%len(cell)], cell[(i+len(cell)-1)%len(cell)]
		out[i] = spot{
			p.x + px*(unit(q.x-p.x, q.y-p.y)+unit(r.x-p.x, r.y-p.y)),
			p.y + px*(unit(q.y-p.y, q.x-p.x)+unit(r.y-p.y, r.x-p.x)),
		}
	}
	return out
}

// unit is a's part of the unit vector (a, b).
func unit(a, b float64) float64 {
	if h := math.Hypot(a, b); h > 0 {
		return a / h
	}
	return 0
}

// fullLight is luminance of white.
const fullLight = 10000 * (1<<linearBits - 1)

// luminance is WCAG relative luminance in whole numbers, 0…fullLight.
func luminance(c rgb) int64 {
	return 2126*int64(toLinear[c[0]]) + 7152*int64(toLinear[c[1]]) + 722*int64(toLinear[c[2]])
}

// inkOn is black or white, whichever has the larger WCAG contrast on c: above the
// geometric mean of their luminances, 0.05 added to each, it is black.
func inkOn(c rgb) rgb {
	if l := luminance(c) + fullLight/20; l*l > fullLight/20*(fullLight+fullLight/20) {
		return inkText
	}
	return inkWhite
}

func pale(c rgb) bool { return luminance(c) > fullLight*3/4 }

// counted is how many seats of the cue show each colour, how many show none,
// how many people hold no card, and what places are reserved for.
type counted struct {
	colours       []int
	none, persons int
	reserved      []reservation
}

// reservation is a use that places are kept for.
type reservation struct {
	use    string
	empty  bool // nobody sits there
	places int
}

func (c *chart) count() counted {
	n := counted{colours: make([]int, len(c.plan.Stunt.Colours))}
	for i := range c.stands.Seats {
		s := &c.stands.Seats[i]
		empty := s.Use == seating.UseReserved
		switch k := colourOf(c.plan, c.cue, i); {
		case empty:
		case s.Use != seating.UseCard:
			n.persons++
		case k == mosaic.None:
			n.none++
		default:
			n.colours[k]++
		}
		if s.For != "" || empty {
			n.reserve(s.For, empty)
		}
	}
	return n
}

func (n *counted) reserve(use string, empty bool) {
	for i := range n.reserved {
		if r := &n.reserved[i]; r.use == use && r.empty == empty {
			r.places++
			return
		}
	}
	n.reserved = append(n.reserved, reservation{use, empty, 1})
}

// grouped writes whole numbers with thin groups of three.
func grouped(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
