// Package artwork turns an image into the colours of cards: Open decodes it, Image.Sample averages it
// over the seats' cells in linear light, and Sample.Show gives every seat its card, keeping thin strokes
// of drawings and exposing photographs. Image.Suggest says which cards would serve.
//
// Decisions are made on whole numbers, and ties go to the lower seat or colour, so that the same image
// gives the same cards everywhere.
package artwork

import (
	"math"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// None is the colour of a seat that shows no card, and the ground where people's clothes show.
const None = -1

// Wall is what an image is laid on, as one camera sees it.
type Wall struct {
	Stands *seating.Stands
	Seats  []Seat // those that show the image, by their index in Stands
	Width  int    // of the camera's picture, pixels
}

// Seat is one seat of a wall.
type Seat struct {
	Index  int32      // in Stands.Seats
	Cell   Quad       // the part of the picture, or of any other plane, that it answers for
	Centre [2]float64 // of its card in the camera's picture, pixels
	Pixels float64    // of its card that the camera sees
	Hidden bool       // hardly anything of the card is seen
}

// Quad is four corners of a convex cell, in their order round, y down.
type Quad [4][2]float64

// Cards are the cards there are, and the one behind an image.
type Cards struct {
	Colours []colour.RGB
	Palette *colour.Palette // of Colours
	Ground  int16           // index of the colour that shows through, or None
}

// Reduction is how an image's colours become card colours; "" is what looks closer, with thin strokes of
// drawings kept.
type Reduction string

// The reductions: every seat its nearest colour, or the error handed on to the neighbours.
const (
	Flat    Reduction = "flat"
	Diffuse Reduction = "diffuse"
)

// Shown is an image as cards show it. Slices by seat are as Wall.Seats, those by colour as Cards.Colours.
type Shown struct {
	Colours []int16 // by seat: index of its colour, or None

	// What became of a photograph, or of a drawing with a reduction or exposure asked for.
	Blank   bool    // all that falls on seats is one colour
	Levels  Levels  // how it was exposed of itself; AsItIs where it was not
	TooThin []int16 // colours of lines that are thinner than a seat and lost

	// What became of a drawing's strokes: at how many seats, by colour, they were widened to one seat;
	// run where nothing near shows them; run into each other.
	Widened, Lost, Merged []int

	cards Cards
	aims  []light // by seat
}

// Show gives every seat a card. Stops are how much brighter an image is to be shown than it is, 1 = twice
// the light; nil leaves it to the image.
func (s *Sample) Show(cards Cards, how Reduction, stops *float64) *Shown {
	p := &painting{s, cards, how}
	if s.drawing != nil && how == "" && stops == nil {
		if shown := p.drawn(); shown != nil {
			return shown
		}
	}
	return p.exposed(stops)
}

// Light is the light that a seat ought to show, and whether it shows the colour nearest to that; if not,
// it was given another one on purpose.
func (s *Shown) Light(seat int) (aim colour.Linear, nearest bool) {
	return s.cards.best(&s.aims[seat]), s.Colours[seat] == s.cards.nearest(&s.aims[seat])
}

// painting is one image on its way to one set of cards.
type painting struct {
	*Sample
	Cards
	how Reduction
}

// best is the light that a seat would best show.
func (c *Cards) best(l *light) colour.Linear {
	if c.Ground == None {
		return l.alone()
	}
	return l.over(c.Colours[c.Ground].Linear())
}

// bare says whether a seat shows no card: before shirts one more than half empty.
func (c *Cards) bare(l *light) bool { return c.Ground == None && math.Round(l[3]*1e6) < 500_000 }

// nearest is the card colour of a seat's light. Before a ground of cards what is
// transparent shows the ground.
func (c *Cards) nearest(l *light) int16 {
	if c.bare(l) {
		return None
	}
	return int16(c.Palette.Nearest(c.best(l)))
}

// nearestAll is the nearest colour of each.
func (c *Cards) nearestAll(lights []light) []int16 {
	out := make([]int16, len(lights))
	for k := range lights {
		out[k] = c.nearest(&lights[k])
	}
	return out
}

// about is nearest for a light that is first rounded to 32 steps a channel: enough to
// count or to compare, and few colours need comparing.
func (c *Cards) about(l *light) int16 {
	if c.bare(l) {
		return None
	}
	rgb := c.best(l).RGB()
	for i := range rgb {
		rgb[i] = rgb[i]&^7 | 4
	}
	return int16(c.Palette.NearestRGB(rgb))
}

// walk is a section's seats in rows, from the back one down, each in its column: their numbers in
// Wall.Seats, or gap where none stands that takes part.
type walk [][]int32

const gap = -1

// walks are the wall's sections, with the seats that take part.
func (w *Wall) walks(part func(k int) bool) []walk {
	at := make([]int32, len(w.Stands.Seats)) // number in Wall.Seats, from 1
	for k := range w.Seats {
		if part(k) {
			at[w.Seats[k].Index] = int32(k) + 1
		}
	}
	var out []walk
	for i := range w.Stands.Sections {
		sec := &w.Stands.Sections[i]
		widest := 0
		for _, row := range sec.Rows {
			widest = max(widest, row.Places)
		}
		rows := make(walk, len(sec.Rows))
		for r := range rows {
			row := &sec.Rows[len(rows)-1-r]
			shift := (widest - row.Places) / 2
			switch sec.Spec.Align {
			case seating.AlignLeft:
				shift = 0
			case seating.AlignRight:
				shift = widest - row.Places
			}
			rows[r] = make([]int32, widest)
			for col := range rows[r] {
				rows[r][col] = gap
			}
			for s := row.First; s < row.Last; s++ {
				if at[s] > 0 {
					rows[r][shift+int(w.Stands.Seats[s].Place)] = at[s] - 1
				}
			}
		}
		out = append(out, rows)
	}
	return out
}

// at is the number at a place, or gap.
func (w walk) at(row, column int) int32 {
	if row < 0 || row >= len(w) || column < 0 || column >= len(w[row]) {
		return gap
	}
	return w[row][column]
}
