package pictures

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/say"
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
		name, cell := c.stands.ID(i), c.cell(i, c.gap())
		switch {
		case s.Use == seating.UseReserved: // nobody sits there: a cross
			c.add(shape{points: inset(cell, 1), fill: &inkWhite, stroke: &inkLine, width: 1, name: name + " " + s.For})
			c.crossed(inkLine, inset(cell, 1))
			continue
		case s.Use == seating.UsePerson || s.Use == seating.UseDropped: // a head and shoulders from above
			c.add(shape{points: cell, fill: &inkWhite, name: name + " no card"})
			if c.roomFor() {
				c.area(inkPerson, circle(middle(cell), c.pitch*0.3)...)
			} else {
				c.area(inkPerson, inset(cell, 1)...)
			}
		case k == mosaic.None:
			c.add(shape{points: cell, fill: &inkWhite, stroke: &inkHair, width: 1, name: name + " shows none"})
		case c.matter != nil:
			c.weighed(i, k, cell, name)
		default:
			fill := rgb(c.plan.Stunt.Colours[k].RGB)
			c.add(shape{points: cell, fill: &fill, name: name + " " + c.plan.Stunt.Colours[k].Name})
			if pale(fill) { // a white card on white paper still has an edge
				c.outline(inkHair, 1, inset(cell, 0.5)...)
			}
			c.key(cell, k)
		}
		if s.For != "" && c.matter == nil { // kept for somebody who sits there
			ink := inkText
			if k != mosaic.None {
				ink = inkOn(rgb(c.plan.Stunt.Colours[k].RGB))
			}
			c.reservedSign(cell, ink, s.For == forWheelchair)
		}
	}
}

// roomFor says whether a seat's cell takes a letter.
func (c *chart) roomFor() bool { return c.pitch >= letterCell }

// gap between cells is a pixel on either side while cells are large enough.
func (c *chart) gap() float64 {
	if c.pitch >= 9 {
		return 1
	}
	return 0.5
}

// key marks a cell with its colour's letter, or where that would be too small
// with a stroke, so that a copy without colour says the same.
func (c *chart) key(cell []spot, k int16) {
	fill := rgb(c.plan.Stunt.Colours[k].RGB)
	if c.roomFor() {
		l := c.letter(k, inkOn(fill))
		l.bold = true
		c.write(middle(cell), l)
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
	return cell[0].toward(cell[1], across).toward(cell[3].toward(cell[2], across), down)
}

// letter is a colour's key, so large that it fits into a cell.
func (c *chart) letter(k int16, ink rgb) lettering {
	size := math.Max(11, math.Min(15, c.pitch*0.55))
	if len([]rune(c.keys[k])) > 1 {
		size = math.Max(11, size-2)
	}
	return lettering{words: c.keys[k], size: whole(size), colour: ink, anchor: atMiddle}
}

const forWheelchair = "wheelchair"

// reservedSign marks a place kept for somebody: a heavy frame, for wheelchairs a ring.
func (c *chart) reservedSign(cell []spot, ink rgb, wheel bool) {
	if wheel {
		wide, deep := cell[0].to(cell[1]), cell[1].to(cell[2])
		r := math.Min(math.Hypot(wide.x, wide.y), math.Hypot(deep.x, deep.y))
		c.outline(ink, 1.5, circle(middle(cell), r*0.42)...)
		return
	}
	c.outline(ink, 1.5, inset(cell, 2.5)...)
}

// inset moves a cell's corners toward its middle by px along both axes.
func inset(cell []spot, px float64) []spot {
	out := make([]spot, len(cell))
	for i, p := range cell {
		q, r := p.to(cell[(i+1)%len(cell)]).unit(), p.to(cell[(i+len(cell)-1)%len(cell)]).unit()
		out[i] = p.along(spot{q.x + r.x, q.y + r.y}, px)
	}
	return out
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
		if s.For == "" && !empty {
			continue
		}
		same := func(r reservation) bool { return r.use == s.For && r.empty == empty }
		at := slices.IndexFunc(n.reserved, same)
		if at < 0 {
			at = len(n.reserved)
			n.reserved = append(n.reserved, reservation{use: s.For, empty: empty})
		}
		n.reserved[at].places++
	}
	return n
}

// Matter writes, as PNG, the flat map of a text cue with the seats that matter most: the darker one is, the
// more of the score it costs empty or with the wrong card, weighed by how many of each are expected.
// The first few are numbered. It is an error for a cue without text or with more seats than are weighed.
func Matter(w io.Writer, b *brief.Brief, cue int) error {
	p := b.Plan
	if err := checkCue(p, cue); err != nil {
		return err
	}
	look := &b.Outlook.Cues[cue]
	if look.Falls == nil {
		return fmt.Errorf("cue %d has no seats to weigh", cue+1)
	}
	return drawn(b, cue, newMatter(p, look)).writePNG(w)
}

// matter is what a map of the seats that matter shows.
type matter struct {
	class []uint8 // by seat, into matterInks
	rank  map[int]int
	count [len(matterInks)]int
}

// matterInks are the classes from the least: five greys, which a copy without colour and every eye keep.
var matterInks = [...]rgb{
	{0xf4, 0xf4, 0xf4}, {0xd4, 0xd4, 0xd4}, {0xa6, 0xa6, 0xa6}, {0x6a, 0x6a, 0x6a}, {0x24, 0x24, 0x24},
}

var matterWords = [...]string{"less", "an eighth of it", "a quarter", "half of it", "nearly as much as the worst seat"}

func newMatter(p *mosaic.Plan, look *outlook.Cue) *matter {
	falls := look.Falls
	m := &matter{class: make([]uint8, len(falls)), rank: map[int]int{}}
	for i, s := range look.Matter[:min(len(look.Matter), brief.NamedSeats)] {
		m.rank[int(s)] = i + 1
	}
	worst := 1
	for i := range falls {
		worst = max(worst, outlook.Harm(falls[i]))
	}
	for i := range falls {
		// Sixteenths of the worst: classes meet half-way between their names.
		for k, part := range [...]int{1, 3, 6, 12} {
			if 16*outlook.Harm(falls[i]) >= part*worst {
				m.class[i] = uint8(k + 1)
			}
		}
		if p.Stands.Seats[i].Use == seating.UseCard {
			m.count[m.class[i]]++
		}
	}
	return m
}

// weighed draws a seat in the grey of its class, with its card's letter, or with its number.
func (c *chart) weighed(i int, k int16, cell []spot, name string) {
	fill := matterInks[c.matter.class[i]]
	c.add(shape{points: cell, fill: &fill, name: name})
	if n := c.matter.rank[i]; n > 0 {
		c.numbered(cell, n)
		return
	}
	if c.roomFor() {
		letter := c.letter(k, between(fill, inkOn(fill), 1, 2))
		if c.plan.Stunt.Colours[k].Name == c.plan.Stunt.Cues[c.cue].Ink {
			letter.bold, letter.colour = true, inkOn(fill) // the text shows through
		}
		c.write(middle(cell), letter)
	}
}

// numbered is one of the first few: black, in a heavy frame, with its number where that can be read.
func (c *chart) numbered(cell []spot, n int) {
	c.add(shape{points: cell, fill: &inkText})
	c.outline(inkWhite, 1.5, inset(cell, 2.5)...)
	if c.roomFor() {
		number := lettering{words: strconv.Itoa(n), size: 13, bold: true, colour: inkWhite, anchor: atMiddle}
		c.write(middle(cell), number)
	}
}

// matterKeys is the legend.
func (c *chart) matterKeys() []sample {
	n := len(c.matter.rank)
	if n == 0 {
		edge := func(cell []spot) { c.outline(inkLine, 1, inset(cell, 0.5)...) }
		return []sample{{edge, "no seat alone changes anything"}}
	}
	first := func(cell []spot) { c.numbered(cell, 1) }
	out := []sample{{first, fmt.Sprintf("1 to %d: who must be there, with the right card", n)}}
	for k, fill := range slices.Backward(matterInks[:]) {
		if count := c.matter.count[k]; count > 0 {
			grey := func(cell []spot) { c.framed(cell, fill) }
			out = append(out, sample{grey, fmt.Sprintf("%s  %s", matterWords[k], say.Thousands(count))})
		}
	}
	return out
}
