package pictures

import (
	"fmt"
	"io"
	"strconv"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
)

// NamedSeats is how many of the seats that matter most have a number on the map, and a line in the report.
const NamedSeats = 10

// Matter writes, as PNG, the flat map of a text cue with the seats that matter most: the darker one is, the
// more of the score it costs empty or with the wrong card, weighed by how many of each are expected.
// The first few are numbered. It is an error for a cue without text or with more seats than are weighed.
func Matter(w io.Writer, p *mosaic.Plan, cue int) error {
	if err := checkCue(p, cue); err != nil {
		return err
	}
	falls := p.Falls(cue)
	if falls == nil {
		return fmt.Errorf("cue %d has no seats to weigh", cue+1)
	}
	c := &chart{plan: p, cue: cue, stands: p.Stands, keys: colourKeys(p.Stunt.Colours), matter: newMatter(p, cue, falls)}
	c.draw()
	return c.writePNG(w)
}

// matter is what a map of the seats that matter shows.
type matter struct {
	class []uint8 // by seat, into matterInks
	rank  map[int]int
	count [len(matterInks)]int
}

// matterInks are the classes from the least: five greys, which a copy without colour and every eye keep.
var matterInks = [...]rgb{{0xf4, 0xf4, 0xf4}, {0xd4, 0xd4, 0xd4}, {0xa6, 0xa6, 0xa6}, {0x6a, 0x6a, 0x6a}, {0x24, 0x24, 0x24}}

var matterWords = [...]string{"less", "an eighth of it", "a quarter", "half of it", "nearly as much as the worst seat"}

func newMatter(p *mosaic.Plan, cue int, falls []legibility.Fall) *matter {
	m := &matter{class: make([]uint8, len(falls)), rank: map[int]int{}}
	for i, s := range p.MatterMost(cue, NamedSeats) {
		m.rank[int(s)] = i + 1
	}
	worst := 1
	for i := range falls {
		worst = max(worst, mosaic.Harm(falls[i]))
	}
	for i := range falls {
		for k, part := range []int{12, 6, 3} { // twelfths of the worst: classes meet half-way between their names
			if h := mosaic.Harm(falls[i]); m.class[i] == 0 && 16*h >= part*worst {
				m.class[i] = uint8(4 - k)
			}
		}
		if h := mosaic.Harm(falls[i]); m.class[i] == 0 && 16*h >= worst {
			m.class[i] = 1
		}
		if p.Stands.Seats[i].Use == seating.UseCard {
			m.count[m.class[i]]++
		}
	}
	return m
}

// weighed draws a seat in the grey of its class, with its card's letter, or with its number.
func (c *chart) weighed(i int, k int16, name string) {
	class := c.matter.class[i]
	fill := matterInks[class]
	cell := c.cell(i, c.gap())
	c.add(shape{points: cell, fill: &fill, name: name})
	if n := c.matter.rank[i]; n > 0 {
		c.numbered(cell, n)
		return
	}
	if c.roomFor() {
		letter := lettering{words: c.keys[k], size: c.letterSize(c.keys[k]), colour: between(fill, inkOn(fill), 1, 2), anchor: atMiddle}
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
		c.write(middle(cell), lettering{words: strconv.Itoa(n), size: 13, bold: true, colour: inkWhite, anchor: atMiddle})
	}
}

// matterKeys is the legend.
func (c *chart) matterKeys() []sample {
	var out []sample
	if n := len(c.matter.rank); n > 0 {
		out = append(out, sample{func(cell []spot) { c.numbered(cell, 1) }, fmt.Sprintf("1 to %d: who must be there, with the right card", n)})
	} else {
		out = append(out, sample{func(cell []spot) { c.outline(inkLine, 1, inset(cell, 0.5)...) }, "no seat alone changes anything"})
	}
	for k := len(matterInks) - 1; k >= 0; k-- {
		fill := matterInks[k]
		if c.matter.count[k] > 0 && len(c.matter.rank) > 0 {
			out = append(out, sample{func(cell []spot) {
				c.add(shape{points: inset(cell, 0.5), fill: &fill, stroke: &inkLine, width: 1})
			}, fmt.Sprintf("%s  %s", matterWords[k], grouped(c.matter.count[k]))})
		}
	}
	return out
}
