// Package faces holds the letter shapes: the Go typefaces and a block face of
// our own, as small rasters that answer one question fast: how much of a box
// is covered by the letter.
package faces

import (
	"math"
	"slices"
	"sync"
)

// Raster sizes: CapRows raster rows from the baseline to the top of a capital,
// with room above for accents and below for tails.
const (
	CapRows  = 64
	roomUp   = 26
	roomDown = 16
	rasterH  = roomUp + CapRows + roomDown
	// sub-scanlines a raster row, and steps across a raster column
	subRows  = 4
	subCols  = 64
	fullCell = subRows * subCols
)

// Fine is how many steps a raster column or row is divided into for Coverage.
const Fine = 16

// Shape is one letter. Its left edge is raster column 0; the top of a capital is
// raster row 0 and the baseline row CapRows, so that accents have negative rows.
type Shape struct {
	Cols   int     // raster columns
	Width  float64 // of the ink, in heights of a capital
	Top    float64 // of the ink above the top of a capital, in heights of a capital; below it negative
	Foot   int     // raster rows from the top of a capital up to its accent; 0: no accent stands apart
	sums   []uint32
	stride int
	once   sync.Once
	labels []uint8 // see split
	twins  []int   // see Twins; one alone is none
	// Left and Right are the ink's distance from the shape's edges at each of
	// profileRows heights, in raster columns; empty rows have the whole width.
	Left, Right [profileRows]int
}

const profileRows = 16

type point struct{ x, y int } // 1/256 raster units

type edge struct{ x0, y0, x1, y1, dir int }

// cross is where a line crosses an edge.
type cross struct{ x, dir int }

// lineStep is from one sub-scanline to the next, in 1/256 raster rows.
const lineStep = 256 / subRows

// descent follows an edge from line to line: x0 + (x1−x0)·(y−y0)/(y1−y0), towards x0, in whole numbers and
// without a division a line.
type descent struct {
	x0, y1, high      int
	along, rest       int // of |x1−x0|·(y−y0)/high
	stepAlong, stepBy int // what a line adds
	sign, dir         int
}

func descend(e *edge, y int) descent {
	d := descent{x0: e.x0, y1: e.y1, high: e.y1 - e.y0, sign: 1, dir: e.dir}
	wide := e.x1 - e.x0
	if wide < 0 {
		wide, d.sign = -wide, -1
	}
	d.along, d.rest = wide*(y-e.y0)/d.high, wide*(y-e.y0)%d.high
	d.stepAlong, d.stepBy = wide*lineStep/d.high, wide*lineStep%d.high
	return d
}

// next is where this line crosses, and goes on to the next one.
func (d *descent) next() cross {
	c := cross{d.x0 + d.sign*d.along, d.dir}
	d.along += d.stepAlong
	if d.rest += d.stepBy; d.rest >= d.high {
		d.rest -= d.high
		d.along++
	}
	return c
}

// raster fills closed polygons (nonzero winding) with whole numbers only, so
// that every processor gets the same shape.
func raster(polys [][]point, cols int) *Shape {
	s := &Shape{Cols: cols, stride: cols + 1}
	s.Width = float64(cols) / CapRows
	var edges []edge
	for _, p := range polys {
		for i := range p {
			a, b := p[i], p[(i+1)%len(p)]
			switch {
			case a.y < b.y:
				edges = append(edges, edge{a.x, a.y, b.x, b.y, 1})
			case a.y > b.y:
				edges = append(edges, edge{b.x, b.y, a.x, a.y, -1})
			}
		}
	}
	slices.SortFunc(edges, func(a, b edge) int { return a.y0 - b.y0 })
	cover := make([]uint16, cols*rasterH)
	var hits []cross
	var active []descent // of the edges that the line crosses; the next ones are in edges
	until := math.MaxInt // when the first of them ends
	whole := make([]int, cols+1)
	for sub := range rasterH * subRows {
		y := sub*lineStep + lineStep/2 - roomUp*256
		if until <= y {
			active = slices.DeleteFunc(active, func(d descent) bool { return d.y1 <= y })
			until = firstEnd(active)
		}
		for len(edges) > 0 && edges[0].y0 <= y {
			if e := &edges[0]; e.y1 > y {
				active = append(active, descend(e, y))
				until = min(until, e.y1)
			}
			edges = edges[1:]
		}
		hits = hits[:0]
		for i := range active {
			h := active[i].next()
			k := len(hits)
			for hits = append(hits, h); k > 0 && hits[k-1].x > h.x; k-- { // they are few
				hits[k] = hits[k-1]
			}
			hits[k] = h
		}
		row := cover[sub/subRows*cols:][:cols]
		wind := 0
		for i, h := range hits {
			if wind != 0 {
				coverRun(row, whole, hits[i-1].x/(256/subCols), h.x/(256/subCols))
			}
			wind += h.dir
		}
		if sub%subRows == subRows-1 {
			addWhole(row, whole)
		}
	}
	s.sums = make([]uint32, (cols+1)*(rasterH+1))
	for y := range rasterH {
		run := uint32(0)
		line, above, below := cover[y*cols:][:cols], s.sums[y*s.stride+1:][:cols], s.sums[(y+1)*s.stride+1:][:cols]
		for x, c := range line {
			run += uint32(min(c, fullCell))
			below[x] = above[x] + run
		}
	}
	s.profile(cover)
	return s
}

// firstEnd is the first line on which an edge ends.
func firstEnd(active []descent) int {
	end := math.MaxInt
	for i := range active {
		end = min(end, active[i].y1)
	}
	return end
}

// coverRun covers a row from step a to b: where it begins and ends at once, what it covers whole by noting where that
// begins and ends, for addWhole.
func coverRun(row []uint16, whole []int, a, b int) {
	if a, b = max(a, 0), min(b, len(row)*subCols); a >= b {
		return
	}
	first, last := a/subCols, b/subCols
	if first == last {
		row[first] += uint16(b - a)
		return
	}
	row[first] += uint16((first+1)*subCols - a)
	if last < len(row) {
		row[last] += uint16(b - last*subCols)
	}
	whole[first+1]++
	whole[last]--
}

// addWhole adds the cells that spans cover whole, and forgets them.
func addWhole(row []uint16, whole []int) {
	n := 0
	for x := range row {
		n += whole[x]
		row[x] += uint16(n * subCols)
	}
	clear(whole)
}

func (s *Shape) profile(cover []uint16) {
	top := rasterH
	for i := range profileRows {
		s.Left[i], s.Right[i] = s.Cols, s.Cols
	}
	for y := range rasterH {
		for x := range s.Cols {
			if cover[y*s.Cols+x]*2 < fullCell {
				continue
			}
			top = min(top, y)
			i := (y - roomUp) * profileRows / CapRows
			if y < roomUp || i >= profileRows {
				continue
			}
			s.Left[i] = min(s.Left[i], x)
			s.Right[i] = min(s.Right[i], s.Cols-1-x)
		}
	}
	s.Top = float64(roomUp-top) / CapRows
	apart := false // a row without ink is passed on the way up
	for y := roomUp - 1; y >= 0 && s.Foot == 0; y-- {
		ink := slices.ContainsFunc(cover[y*s.Cols:][:s.Cols], func(c uint16) bool { return c*8 >= fullCell })
		if apart = apart || !ink; apart && ink {
			s.Foot = roomUp - 1 - y
		}
	}
}

// FullCover is Coverage of a box that lies wholly inside the letter.
const FullCover = 1 << 12

// Coverage is how much of a box the letter covers, 0…FullCover. The box is in
// 1/Fine raster units; its sides are at least 1.
func (s *Shape) Coverage(x0, y0, x1, y1 int) int {
	if x1 <= x0 || y1 <= y0 || x1 <= 0 || x0 >= s.Cols*Fine {
		return 0
	}
	left, right := spotAt(x0, s.Cols), spotAt(x1, s.Cols)
	total := s.above(y1, left, right) - s.above(y0, left, right)
	return int(total * FullCover / (int64(x1-x0) * int64(y1-y0) * fullCell))
}

// spot is a place in the raster, past/Fine of the way from one line of it to the next.
type spot struct {
	at, next int
	past     int64
}

func spotAt(x, lines int) spot {
	x = min(max(x, 0), lines*Fine)
	return spot{x / Fine, min(x/Fine+1, lines), int64(x % Fine)}
}

// of is the value at the spot, between the values at the lines, times Fine.
func (p spot) of(values []uint32) int64 {
	return (Fine-p.past)*int64(values[p.at]) + p.past*int64(values[p.next])
}

// above is the sum of coverage above y between two spots, times Fine².
func (s *Shape) above(y int, left, right spot) int64 {
	p := spotAt(y+roomUp*Fine, rasterH)
	top, low := s.sums[p.at*s.stride:][:s.stride], s.sums[p.next*s.stride:][:s.stride]
	return (Fine-p.past)*(right.of(top)-left.of(top)) + p.past*(right.of(low)-left.of(low))
}

// Kern is how much closer than their edges two letters may stand so that the
// white between them looks like that between two straight stems, in heights of a
// capital; between 0 and half of what the shapes leave open.
func Kern(a, b *Shape) float64 {
	const deep = CapRows / 3 // a hollow deeper than this counts no more
	open := 0
	for i := range profileRows {
		open += min(a.Right[i], deep) + min(b.Left[i], deep)
	}
	nearest := 1 << 30
	for i := range profileRows {
		// neighbouring heights count too, so that slanted strokes keep clear
		for j := max(0, i-1); j <= min(profileRows-1, i+1); j++ {
			nearest = min(nearest, a.Right[i]+b.Left[j])
		}
	}
	white := float64(open) / profileRows / CapRows
	return min(max(0, float64(white)-0.10)*0.6, 0.7*float64(nearest)/CapRows, 0.25)
}
