package lettering

import (
	"math"

	"everyseat/mosaic/faces"
	"everyseat/mosaic/legibility"
)

// ink is how much of a seat's cell the letter covers where the seat becomes ink.
const inkShare = faces.FullCover * 46 / 100

// face is one way to draw letters. A typeface, or the block face with its strokes
// in seats and rows.
type face struct {
	name       string
	typeface   *faces.Typeface
	stem       float64 // an upright stroke of the typeface over the width of its H
	across, up float64 // stroke of the block face, seats and rows
}

// style is how one line is drawn; lengths are canvas pixels.
type style struct {
	face
	top, base  float64 // of the capitals
	wide       float64 // of an H
	gap        float64 // between the letters' inks
	pitch, row float64
	room       float64 // above the capitals, for accents
}

// cut is one way to draw a letter in a face: the face's own, another typeface or a form of
// the block face with strokes as thick, and wider or narrower than usual.
type cut struct {
	typeface *faces.Typeface
	block    bool
	form     int
	wide     float64
}

// cuts are tried for every letter; the first is the face's own.
var cuts = []cut{
	{wide: 1}, {block: true, wide: 1}, {wide: 1.18}, {block: true, wide: 1.18},
	{wide: 0.86}, {block: true, wide: 0.86},
	{block: true, form: 1, wide: 1}, {block: true, form: 1, wide: 0.86}, {block: true, form: 1, wide: 1.18},
	{block: true, form: 2, wide: 1},
	{typeface: faces.Mono, wide: 1}, {typeface: faces.Bold, wide: 0.94},
}

// blockStroke is how high level strokes of the block face are beside a typeface, in heights of a capital.
const blockStroke = 5.0 / 32

// shape is the letter's shape in a cut and its ink's width; nil where it has no such form.
func (s *style) shape(r rune, c cut) (sh *faces.Shape, width float64) {
	high := s.base - s.top
	wide := s.wide * c.wide
	t := s.typeface
	if c.typeface != nil {
		t = c.typeface
	}
	if t != nil && !c.block {
		sh = t.Shape(r)
	}
	if sh != nil && (sh.Foot > 0 || sh.Top < accented) {
		return sh, sh.Width / t.Shape('H').Width * wide
	}
	raster := func(length float64) int { return round(length / high * faces.CapRows) }
	pen := faces.Pen{Across: raster(s.across * s.pitch), Up: raster(s.up * s.row), Wide: raster(wide), Form: c.form}
	if s.typeface != nil {
		pen.Across, pen.Up = raster(s.stem*s.wide), round(blockStroke*faces.CapRows)
	}
	if sh = faces.Block(r, pen); sh == nil {
		return nil, 0
	}
	return sh, sh.Width * high
}

// accented is how far letters with accents at least rise above the capitals, in heights of a capital.
// The block face draws those whose accent touches them, as an Å's does in the typefaces.
const accented = 0.1

// item is a letter of a line with what the style makes of it.
type item struct {
	sign
	cut   cut
	shape *faces.Shape
	width float64
	gap   float64 // wanted before it: the style's, less the kerning, plus a space
}

// items sets a line; chosen gives each letter's cut, nil the face's own.
func (s *style) items(line []sign, chosen []cut) []item {
	out := make([]item, len(line))
	for i, l := range line {
		it := &out[i]
		it.sign, it.cut = l, cuts[0]
		if chosen != nil {
			it.cut = chosen[i]
		}
		it.shape, it.width = s.shape(l.rune, it.cut)
		if i == 0 {
			continue
		}
		it.gap = max(s.gap-float64(faces.Kern(out[i-1].shape, it.shape)*(s.base-s.top)), max(clearSeat*s.pitch, s.gap/2))
		if l.space {
			it.gap = s.gap + float64(wordSpace*s.wide)
		}
	}
	return out
}

// wordSpace is how much wider the gap between words is, in widths of an H.
const wordSpace = 0.8

// boldness is what is tried instead of inkShare, which comes first: less makes bolder strokes.
var boldness = []int{inkShare, faces.FullCover * 37 / 100, faces.FullCover * 29 / 100}

// seats finds the seats that a letter at x makes ink: those it covers enough of.
func (s *style) seats(c *legibility.Canvas, it *item, x float64, enough int, out []int32) []int32 {
	s.covered(c, it, x, func(seat int32, share int) {
		if share >= enough {
			out = append(out, seat)
		}
	})
	return out
}

// covered gives every seat that a letter at x touches and the share of its cell.
func (s *style) covered(c *legibility.Canvas, it *item, x float64, fn func(seat int32, share int)) {
	sh := it.shape
	high, wide := s.base-s.top, it.width
	kx := float64(sh.Cols*faces.Fine) / wide
	above, below := s.top-s.rise(sh)-s.row, s.base+float64(0.25*high)
	for _, i := range c.Between(x-s.pitch, x+wide+s.pitch) {
		p := &c.Places[i]
		if p.Y < above || p.Y > below {
			continue
		}
		x0, x1 := round((p.Cell[0]-x)*kx), round((p.Cell[2]-x)*kx)
		y0, y1 := s.rasterY(sh, p.Cell[1]), s.rasterY(sh, p.Cell[3])
		if share := sh.Coverage(x0, y0, x1, y1); share > 0 {
			fn(i, share)
		}
	}
}

// rise is how far a letter rises above the capitals.
func (s *style) rise(sh *faces.Shape) float64 {
	if sh.Foot > 0 {
		return s.room
	}
	return max(sh.Top, 0) * (s.base - s.top)
}

// rasterY is a height of the canvas in steps of the letter's raster. An accent fills the room above the
// capitals but for one row, at least, which stays ground between it and the letter.
func (s *style) rasterY(sh *faces.Shape, y float64) int {
	high := s.base - s.top
	k := float64(faces.CapRows*faces.Fine) / high
	if sh.Foot == 0 || y >= s.top || s.room <= s.row {
		return round((y - s.top) * k)
	}
	foot, top := float64(sh.Foot*faces.Fine), float64(sh.Top*faces.CapRows*faces.Fine)
	apart := min(max(s.row, foot/k), s.room-s.row)
	up := s.top - y
	if up <= apart {
		return -round(up / apart * foot)
	}
	return -round(foot + float64((up-apart)/(s.room-apart)*(top-foot)))
}

func round(v float64) int { return int(math.Floor(float64(v) + 0.5)) }
