package pictures

import (
	"math"
)

// A drawing is made once and written twice, as PNG and as SVG, so that both
// show the same. Units are pixels of the PNG, from the top left corner.
type drawing struct {
	width, height float64
	shapes        []shape
}

// spot is a place in a drawing.
type spot struct{ x, y float64 }

// shape is one thing to draw: a line of text, a closed outline, or an open line.
type shape struct {
	points []spot
	open   bool
	fill   *rgb // nil = none
	stroke *rgb // nil = none
	width  float64
	text   *lettering // points[0] is where its anchor stands
	name   string     // what it is, for those who point at it or cannot see it; "" = nothing
}

// anchor is which part of a text stands at its place.
type anchor uint8

const (
	atStart anchor = iota
	atMiddle
	atEnd
)

// lettering is a line of text; its place is on the middle of the capitals' height.
type lettering struct {
	words  string
	size   float64 // pixels an em
	bold   bool
	colour rgb
	anchor anchor
	turn   float64 // radians, clockwise on the page
}

func (d *drawing) add(s shape) { d.shapes = append(d.shapes, s) }

func (d *drawing) area(c rgb, ps ...spot) { d.add(shape{points: ps, fill: &c}) }

func (d *drawing) line(c rgb, width float64, ps ...spot) {
	d.add(shape{points: ps, open: true, stroke: &c, width: width})
}

func (d *drawing) outline(c rgb, width float64, ps ...spot) {
	d.add(shape{points: ps, stroke: &c, width: width})
}

func (d *drawing) write(at spot, l lettering) {
	l.words = printable(l.words, l.bold)
	if l.words != "" {
		d.add(shape{points: []spot{at}, text: &l})
	}
}

// rectangle from the top left corner.
func rectangle(x, y, w, h float64) []spot {
	return []spot{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

// circle as a polygon fine enough for its size.
func circle(c spot, r float64) []spot {
	n := max(12, int(r*2))
	ps := make([]spot, n)
	for i := range ps {
		a := 2 * math.Pi * float64(i) / float64(n)
		ps[i] = spot{c.x + r*math.Cos(a), c.y + r*math.Sin(a)}
	}
	return ps
}

// steady drops the last bits of a length, which processors may round each its
// own way, so that what is rounded next falls alike everywhere.
func steady(v float64) float64 { return math.Round(v*1024) / 1024 }

// tenth rounds to a tenth of a pixel, the finest step that both writers show.
func tenth(v float64) float64 { return math.Round(steady(v)*10) / 10 }

// ceil is the next whole pixel.
func ceil(v float64) float64 { return math.Ceil(steady(v)) }

// whole rounds to a pixel.
func whole(v float64) float64 { return math.Round(steady(v)) }

// settle rounds every place, so that no writer sees the last bits of a float.
func (d *drawing) settle() {
	for i := range d.shapes {
		for j, p := range d.shapes[i].points {
			d.shapes[i].points[j] = spot{tenth(p.x), tenth(p.y)}
		}
	}
}
