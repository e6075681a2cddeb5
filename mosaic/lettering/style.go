package lettering

import (
	"math"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering/faces"
)

// ink is how much of a seat's cell the letter covers where the seat becomes ink.
const inkShare = faces.FullCover * 46 / 100

// face is one way to draw letters. A typeface, or the block face with its strokes
// in seats and rows.
type face struct {
	name       string
	typeface   *faces.Typeface
	across, up float64 // stroke of the block face, seats and rows
}

// style is how one line is drawn; lengths are canvas pixels.
type style struct {
	face
	top, base  float64 // of the capitals
	wide       float64 // of an H
	gap        float64 // between the letters' inks
	pitch, row float64
}

func (s *style) shape(r rune) *faces.Shape {
	if s.typeface != nil {
		return s.typeface.Shape(r)
	}
	high := s.base - s.top
	return faces.Block(r, faces.Pen{
		Across: int(math.Round(s.across * s.pitch / high * faces.CapRows)),
		Up:     int(math.Round(s.up * s.row / high * faces.CapRows)),
		Wide:   int(math.Round(s.wide / high * faces.CapRows)),
	})
}

// width is the ink's width of a letter.
func (s *style) width(r rune) float64 {
	sh := s.shape(r)
	if s.typeface != nil {
		return sh.Width / s.typeface.Shape('H').Width * s.wide
	}
	return sh.Width * (s.base - s.top)
}

// seats finds the seats that a letter at x makes ink.
func (s *style) seats(c *legibility.Canvas, r rune, x float64, out []int32) []int32 {
	sh := s.shape(r)
	high, wide := s.base-s.top, s.width(r)
	kx, ky := float64(sh.Cols*faces.Fine)/wide, float64(faces.CapRows*faces.Fine)/high
	above, below := s.top-max(sh.Top, 0)*high-s.row, s.base+0.25*high
	for _, i := range c.Between(x-s.pitch, x+wide+s.pitch) {
		p := &c.Places[i]
		if p.Y < above || p.Y > below {
			continue
		}
		x0, x1 := round((p.Cell[0]-x)*kx), round((p.Cell[2]-x)*kx)
		y0, y1 := round((p.Cell[1]-s.top)*ky), round((p.Cell[3]-s.top)*ky)
		if sh.Coverage(x0, y0, x1, y1) >= inkShare {
			out = append(out, i)
		}
	}
	return out
}

func round(v float64) int { return int(math.Floor(v + 0.5)) }
