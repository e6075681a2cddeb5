package artwork

import (
	"image"
	"image/color"
	"math"
	"sync"

	"everyseat/mosaic/colour"
)

// light is premultiplied linear light with the share that is covered: r, g, b, alpha, all 0…1.
type light [4]float64

func (l *light) add(m *light, by float64) {
	for c := range l {
		l[c] += float64(m[c] * by)
	}
}

// over is the light of l in front of a ground.
func (l *light) over(ground colour.Linear) (out colour.Linear) {
	for c := range out {
		out[c] = l[c] + float64((1-l[3])*ground[c])
	}
	return out
}

// alone is the colour of what is covered, whatever shows through.
func (l *light) alone() colour.Linear {
	if l[3] <= 0 {
		return colour.Linear{}
	}
	return colour.Linear{l[0] / l[3], l[1] / l[3], l[2] / l[3]}
}

// A seat is looked at in so many parts across and down, to find what is too thin for it.
const (
	partsAside   = 3
	mostForParts = 20_000 // seats; where there are more, few lines are thinner than one
)

// Sample is the light of an image at the seats of a wall.
type Sample struct {
	Frames int // of the image

	wall         *Wall
	whole, parts []light  // by seat; and partsAside² a seat, none on a large wall
	drawing      *drawing // nil for a photograph
}

// Sample lays the image on the wall and averages it over each cell in linear light: what lies outside
// it is not covered. It is placed undistorted with its middle on the middle of into (left, top, right and
// bottom, where the cells are), within it or, if it is to fill it, over all of it; then focus, in shares of
// its width and height, comes as near to the middle as its edges allow. {} is the middle of the image.
func (im *Image) Sample(wall *Wall, into [4]float64, fill bool, focus [2]float64) *Sample {
	n := len(wall.Seats)
	begin, scale := im.place(into, fill, focus)
	cells := im.cells(wall.Seats, begin, scale)
	if n > mostForParts {
		return &Sample{Frames: im.Frames, wall: wall, whole: im.means(cells)}
	}
	cells = append(cells, parts(cells)...)
	lights := im.means(cells)
	s := &Sample{Frames: im.Frames, wall: wall, whole: lights[:n:n], parts: lights[n:]}
	if main, few := im.mainShades(); few {
		s.drawing = &drawing{im, cells, main}
	}
	return s
}

// place says where the image begins, at its left and top, and how large a pixel is.
func (im *Image) place(into [4]float64, fill bool, focus [2]float64) (begin [2]float64, scale float64) {
	size := [2]float64{float64(im.width), float64(im.height)}
	across, down := (into[2]-into[0])/size[0], (into[3]-into[1])/size[1]
	scale = min(across, down)
	if fill {
		scale = max(across, down)
	}
	for c := range size {
		low, high, long := into[c], into[2+c], float64(scale*size[c])
		begin[c] = float64((low+high)/2) - float64(long/2)
		if fill && focus != [2]float64{} {
			begin[c] = max(min(float64((low+high)/2)-float64(focus[c]*long), low), high-long)
		}
	}
	return begin, scale
}

// cells brings the seats' cells onto the stored image, in its pixels.
func (im *Image) cells(seats []Seat, begin [2]float64, scale float64) []Quad {
	w, h := float64(im.canvas.X), float64(im.canvas.Y)
	out := make([]Quad, len(seats))
	for k := range seats {
		for i, c := range seats[k].Cell {
			out[k][i] = im.turn.stored((c[0]-begin[0])/scale, (c[1]-begin[1])/scale, w, h)
		}
	}
	return out
}

// parts cuts cells into like parts, row by row.
func parts(cells []Quad) []Quad {
	out := make([]Quad, 0, len(cells)*partsAside*partsAside)
	for i := range cells {
		q := &cells[i]
		inside := func(x, y int) (p [2]float64) {
			u, v := float64(x)/partsAside, float64(y)/partsAside
			for c := range p {
				top := q[0][c] + float64(u*(q[1][c]-q[0][c]))
				bottom := q[3][c] + float64(u*(q[2][c]-q[3][c]))
				p[c] = top + float64(v*(bottom-top))
			}
			return p
		}
		for y := range partsAside {
			for x := range partsAside {
				out = append(out, Quad{inside(x, y), inside(x+1, y), inside(x+1, y+1), inside(x, y+1)})
			}
		}
	}
	return out
}

// means are the cells' area averages. What lies outside the image counts as not covered.
func (im *Image) means(cells []Quad) []light {
	means := averages(im.canvas, im.row, cells)
	for i := range means {
		for c := range means[i] { // rounding may leave it by a hair
			means[i][c] = min(max(means[i][c], 0), 1)
		}
	}
	return means
}

// averages is the mean over each cell of an image whose rows are given by row; outside it is 0.
//
// It is exact for any quadrilateral. By Green's theorem the integral of the image
// over a cell is the sum over its edges of ∫F dy, F(x, y) being the light to the
// left of x in row y, and F is piecewise linear. So one pass over the rows does,
// with one row of running sums in memory.
func averages(size image.Point, row func(y int, dst []light), cells []Quad) []light {
	sums := make([]light, len(cells))
	edges, first := edgesByRow(cells, size.Y)
	pixels := make([]light, size.X)
	left := make([]light, size.X+1) // left[x] is the row's light left of pixel x
	var active []int32
	for y := range size.Y {
		for i := first[y]; i > 0; i = edges[i-1].next {
			active = append(active, i-1)
		}
		if len(active) == 0 {
			continue
		}
		row(y, pixels)
		for x := range pixels {
			left[x+1] = left[x]
			left[x+1].add(&pixels[x], 1)
		}
		kept := active[:0]
		for _, i := range active {
			e := &edges[i]
			e.along(float64(y), pixels, left, &sums[e.cell])
			if e.y1 > float64(y+1) {
				kept = append(kept, i)
			}
		}
		active = kept
	}
	for i := range sums {
		area := cells[i].area()
		if area == 0 {
			sums[i] = light{}
			continue
		}
		for c := range sums[i] {
			sums[i][c] /= area
		}
	}
	return sums
}

// area is ∮x dy: positive clockwise as seen, since y points down.
func (q *Quad) area() (sum float64) {
	for i, p := range q {
		n := q[(i+1)&3]
		sum += float64((p[0] + n[0]) / 2 * (n[1] - p[1]))
	}
	return sum
}

// edge is one side of a cell, from its upper end to its lower.
type edge struct {
	x0, y0, x1, y1 float64
	sign           float64 // +1 where the cell's way round goes down
	cell, next     int32
}

// edgesByRow lists the cells' edges by the row in which they begin: first says where those of a row start in edges,
// counted from 1, and next which comes then; 0 is none. Edges that are level or outside are left out.
func edgesByRow(cells []Quad, height int) (edges []edge, first []int32) {
	edges, first = make([]edge, 0, 4*len(cells)), make([]int32, height)
	for i := len(cells) - 1; i >= 0; i-- { // backwards, since each comes before those that are there
		for k := 3; k >= 0; k-- {
			p, n := cells[i][k], cells[i][(k+1)&3]
			e := edge{p[0], p[1], n[0], n[1], 1, int32(i), 0}
			if e.y0 > e.y1 {
				e = edge{n[0], n[1], p[0], p[1], -1, int32(i), 0}
			}
			if e.y0 < e.y1 && e.y1 > 0 && e.y0 < float64(height) {
				row := int(max(e.y0, 0))
				e.next = first[row]
				edges = append(edges, e)
				first[row] = int32(len(edges))
			}
		}
	}
	return edges, first
}

// along adds ±∫F dy over the part of the edge in the pixel row whose top is at y.
func (e *edge) along(y float64, pixels, left []light, sum *light) {
	top, bottom := max(e.y0, y), min(e.y1, y+1)
	dy := bottom - top
	if dy <= 0 {
		return
	}
	slope := (e.x1 - e.x0) / (e.y1 - e.y0)
	xa, xb := e.x0+float64((top-e.y0)*slope), e.x0+float64((bottom-e.y0)*slope)
	if xa > xb {
		xa, xb = xb, xa
	}
	right := float64(len(pixels))
	if xb <= 0 {
		return // nothing lies to the left
	}
	if xa >= right {
		sum.add(&left[len(pixels)], e.sign*dy)
		return
	}
	if first := math.Floor(xa); xa >= 0 && xb <= first+1 { // within one pixel: F is linear
		x := int(first)
		by := e.sign * dy
		sum.add(&left[x], by)
		sum.add(&pixels[x], by*(float64((xa+xb)/2)-first))
		return
	}
	// dy/dx is constant, so ∫F dy is dy times the mean of F over xa…xb.
	share := e.sign * dy / (xb - xa)
	for x := int(max(xa, 0)); x < len(pixels); x++ {
		from, to := max(xa, float64(x)), min(xb, float64(x+1))
		if to <= from {
			break
		}
		by := share * (to - from)
		sum.add(&left[x], by)
		sum.add(&pixels[x], by*(float64((from+to)/2)-float64(x)))
	}
	if xb > right {
		sum.add(&left[len(pixels)], share*(xb-right))
	}
}

// row fills dst with the pixels of row y as stored. What the stored image does not cover is transparent.
func (im *Image) row(y int, dst []light) {
	bounds := im.stored.Bounds()
	x, end := max(bounds.Min.X, 0), min(bounds.Max.X, len(dst))
	if y < bounds.Min.Y || y >= bounds.Max.Y || x >= end {
		clear(dst)
		return
	}
	clear(dst[:x])
	clear(dst[end:])
	dst = dst[x:end]
	switch m := im.stored.(type) {
	case *image.NRGBA:
		pix := m.Pix[m.PixOffset(x, y):]
		for i := range dst {
			dst[i] = straight(pix[4*i], pix[4*i+1], pix[4*i+2], pix[4*i+3])
		}
	case *image.RGBA:
		pix := m.Pix[m.PixOffset(x, y):]
		for i := range dst {
			if pix[4*i+3] == 255 { // quickly, since most images are such
				dst[i] = straight(pix[4*i], pix[4*i+1], pix[4*i+2], 255)
			} else {
				dst[i] = premultiplied(m.RGBA64At(x+i, y))
			}
		}
	case *image.YCbCr:
		for i := range dst {
			dst[i] = im.ycbcr(m, x+i, y, 255)
		}
	case *image.NYCbCrA:
		for i := range dst {
			dst[i] = im.ycbcr(&m.YCbCr, x+i, y, m.A[m.AOffset(x+i, y)])
		}
	case *image.Paletted:
		var table [256]light
		for i, c := range m.Palette[:min(len(m.Palette), 256)] {
			table[i] = premultiplied(color.RGBA64Model.Convert(c).(color.RGBA64))
		}
		for i, v := range m.Pix[m.PixOffset(x, y):][:len(dst)] {
			dst[i] = table[v]
		}
	default: // grey, CMYK, 16 bits
		for i := range dst {
			dst[i] = premultiplied(m.RGBA64At(x+i, y))
		}
	}
}

func (im *Image) ycbcr(m *image.YCbCr, x, y int, alpha uint8) light {
	luma, at := m.Y[m.YOffset(x, y)], m.COffset(x, y)
	r, g, b := color.YCbCrToRGB(luma, m.Cb[at], m.Cr[at])
	if im.studio {
		r, g, b = studioRGB(luma, m.Cb[at], m.Cr[at])
	}
	return straight(r, g, b, alpha)
}

// studioRGB decodes luma 16…235 and chroma 16…240 by ITU-R BT.601, as the WebP
// container specification says for lossy pictures. The decoder hands them out
// in the type of JPEG's full range, in which black would be grey.
func studioRGB(luma, cb, cr uint8) (r, g, b uint8) {
	const one = 1 << 16
	const (
		gain = one * 255 / 219
		rCr  = one * 1402 * 255 / 224 / 1000
		gCb  = one * 344136 * 255 / 224 / 1000000
		gCr  = one * 714136 * 255 / 224 / 1000000
		bCb  = one * 1772 * 255 / 224 / 1000
	)
	y, u, v := gain*(int(luma)-16)+one/2, int(cb)-128, int(cr)-128
	clamped := func(n int) uint8 { return uint8(min(max(n>>16, 0), 255)) }
	return clamped(y + rCr*v), clamped(y - gCb*u - gCr*v), clamped(y + bCb*u)
}

// straight is the light of an 8-bit pixel whose colour is not multiplied by its alpha.
func straight(r, g, b, alpha uint8) light {
	l := colour.RGB{r, g, b}.Linear()
	if alpha == 255 {
		return light{l[0], l[1], l[2], 1}
	}
	a := float64(alpha) / 255
	return light{l[0] * a, l[1] * a, l[2] * a, a}
}

// premultiplied is the light of a 16-bit pixel whose coded colour is multiplied by its alpha.
func premultiplied(c color.RGBA64) light {
	if c.A == 0 {
		return light{}
	}
	table := decoded16()
	a := float64(c.A) / math.MaxUint16
	var l light
	for i, v := range [3]uint16{c.R, c.G, c.B} {
		coded := (uint32(v)*math.MaxUint16 + uint32(c.A)/2) / uint32(c.A)
		l[i] = table[min(coded, math.MaxUint16)] * a
	}
	l[3] = a
	return l
}

var decoded16 = sync.OnceValue(func() *[1 << 16]float64 {
	t := new([1 << 16]float64)
	for i := range t {
		t[i] = colour.Decode(float64(i) / math.MaxUint16)
	}
	return t
})
