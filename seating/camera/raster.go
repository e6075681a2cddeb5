package camera

import (
	"math"

	"everyseat/seating"
)

// The depth buffer keeps, for each sample, 1/z in its high half and what is there
// in its low half: the larger number wins, so the nearer thing does, and of two
// equally near ones the one with the lower tag. All comparing is on integers.
const (
	depthOne  = 1 << 61 // 1/z of 1 per metre; 1/near stays below 1<<63
	depthMask = ^int64(0xffffffff)
	depthTop  = float64(depthOne) / near * 1.0001
	noOwner   = 1<<28 - 1 // nobody's, in a tag; seats have smaller indexes
)

// tagOf is what the buffer keeps of a polygon: turned round, so that lower owners win ties.
func tagOf(owner int32, part Part) int64 {
	o := uint32(noOwner)
	if owner >= 0 {
		o = uint32(owner)
	}
	return int64(^(o<<4 | uint32(part)))
}

// untag is the owner (−1 for nobody) and the part of a tag.
func untag(tag uint32) (owner int32, part Part) {
	tag = ^tag
	owner = int32(tag >> 4)
	if owner == noOwner {
		owner = -1
	}
	return owner, Part(tag & 15)
}

// grid is the samples of one band: their number, how many there are to a pixel
// (each way), and where in the picture the band's corner is. Sample (i, j) lies at
// corner + (i+½, j+½)/scale.
type grid struct {
	width, height int
	scale         float64
	corner        Pixel
}

// canvas is a depth buffer and what drawing into it needs.
type canvas struct {
	grid
	view  *View
	depth []int64 // row by row

	points      [2 * maxPoints][3]float64 // the polygon in camera axes, clipped
	screen      [2 * maxPoints][2]float64 // the same in samples
	n           int
	left, right []int32 // by row of the band
	top, bottom int     // the rows that the polygon crosses: top … bottom−1
}

// begin empties the canvas for another band.
func (c *canvas) begin(g grid) {
	c.grid = g
	if n := g.width * g.height; cap(c.depth) < n {
		c.depth = make([]int64, n)
	} else {
		c.depth = c.depth[:n]
		clear(c.depth)
	}
	if cap(c.left) < g.height {
		c.left, c.right = make([]int32, g.height), make([]int32, g.height)
	}
	c.left, c.right = c.left[:g.height], c.right[:g.height]
}

// place brings a polygon to camera axes, clips it at the near plane and finds, for each row of
// the band, which samples it covers. It says whether it covers any row.
func (c *canvas) place(points []seating.Point) bool {
	c.toCamera(points)
	if c.n < 3 {
		return false
	}
	f := float64(c.view.Focal * c.scale)
	x0 := float64((c.view.Center[0] - c.corner[0]) * c.scale)
	y0 := float64((c.view.Center[1] - c.corner[1]) * c.scale)
	low, high := c.height, 0
	for i := range c.n {
		p := &c.points[i]
		inverse := f / p[2]
		x, y := x0+float64(p[0]*inverse), y0+float64(p[1]*inverse)
		c.screen[i] = [2]float64{x, y}
		row := index(y, c.height)
		low, high = min(low, row), max(high, row)
	}
	c.top, c.bottom = low, high
	if low >= high {
		return false
	}
	c.walk()
	return true
}

// toCamera fills points with the polygon in camera axes, cut off at the near plane. It is
// View.toCamera written out, since most of the time goes here.
func (c *canvas) toCamera(points []seating.Point) {
	r, at := &c.view.Rotation, &c.view.Position
	nearest := math.Inf(1)
	for i := range points {
		p, q := &points[i], &c.points[i]
		x, y, z := p[0]-at[0], p[1]-at[1], p[2]-at[2]
		q[0] = float64(r[0][0]*x) + float64(r[0][1]*y) + float64(r[0][2]*z)
		q[1] = float64(r[1][0]*x) + float64(r[1][1]*y) + float64(r[1][2]*z)
		q[2] = float64(r[2][0]*x) + float64(r[2][1]*y) + float64(r[2][2]*z)
		nearest = min(nearest, q[2])
	}
	c.n = len(points)
	if nearest < near {
		c.clip()
	}
}

// clip cuts off what is nearer than the near plane.
func (c *canvas) clip() {
	var kept [2 * maxPoints][3]float64
	n := 0
	for i := range c.n {
		a, b := c.points[i], c.points[(i+1)%c.n]
		if a[2] >= near {
			kept[n] = a
			n++
		}
		if (a[2] >= near) != (b[2] >= near) {
			t := (near - a[2]) / (b[2] - a[2])
			kept[n] = [3]float64{a[0] + float64(t*(b[0]-a[0])), a[1] + float64(t*(b[1]-a[1])), near}
			n++
		}
	}
	c.points, c.n = kept, n
}

// index is the first sample of 0 … n whose middle lies beyond x.
func index(x float64, n int) int {
	switch {
	case !(x > 0):
		return 0
	case x >= float64(n):
		return n
	}
	return int(x + 0.5)
}

// walk runs down the polygon's edges and notes where each row begins and ends. Every
// edge is measured from its upper end, so that neighbours share their border.
func (c *canvas) walk() {
	area := 0.0
	for i := range c.n {
		a, b := &c.screen[i], &c.screen[(i+1)%c.n]
		area += float64(a[0]*b[1]) - float64(a[1]*b[0])
	}
	for i := range c.n {
		a, b := &c.screen[i], &c.screen[(i+1)%c.n]
		side := c.right
		if (a[1] < b[1]) != (area > 0) {
			side = c.left
		}
		if a[1] > b[1] {
			a, b = b, a
		}
		first, last := index(a[1], c.height), index(b[1], c.height)
		if first >= last {
			continue
		}
		slope := (b[0] - a[0]) / (b[1] - a[1])
		for row := first; row < last; row++ {
			x := a[0] + float64((float64(row)+0.5-a[1])*slope)
			side[row] = int32(index(x, c.width))
		}
	}
}

func (c *canvas) draw(tag int64) {
	// The plane n·X = d of the polygon gives 1/z = n·ray / d, linear in the picture.
	n := c.normal()
	d := dot(n, c.points[0])
	if float64(d*d) <= 1e-14*dot(n, n) {
		return // seen edge-on
	}
	perSample := 1 / float64(c.view.Focal*c.scale)
	unit := depthOne / d
	x0 := float64((c.corner[0] - c.view.Center[0]) * c.scale)
	y0 := float64((c.corner[1] - c.view.Center[1]) * c.scale)
	acrossStep := float64(float64(n[0]*perSample) * unit)
	downStep := float64(float64(n[1]*perSample) * unit)
	origin := float64(n[2]*unit) + float64(acrossStep*(x0+0.5)) + float64(downStep*(y0+0.5))
	for row := c.top; row < c.bottom; row++ {
		left, right := int(c.left[row]), int(c.right[row])
		if left >= right {
			continue
		}
		start := origin + float64(downStep*float64(row))
		first, last := start+float64(acrossStep*float64(left)), start+float64(acrossStep*float64(right-1))
		if !(first > 0 && last > 0 && first < depthTop && last < depthTop) {
			continue
		}
		fill(c.depth[row*c.width+left:row*c.width+right], int64(first), int64(acrossStep), tag)
	}
}

// normal is a normal of the placed polygon, of any length: the sum over all its
// triangles, since clipping can leave corners that coincide.
func (c *canvas) normal() (n [3]float64) {
	p := &c.points[0]
	last := minus(c.points[1], *p)
	for i := 2; i < c.n; i++ {
		next := minus(c.points[i], *p)
		n[0] += float64(last[1]*next[2]) - float64(last[2]*next[1])
		n[1] += float64(last[2]*next[0]) - float64(last[0]*next[2])
		n[2] += float64(last[0]*next[1]) - float64(last[1]*next[0])
		last = next
	}
	return n
}

// fill keeps, at each of a row's samples, the nearer of what is there and the polygon.
func fill(samples []int64, depth, step, tag int64) {
	for i := range samples {
		if key := depth&depthMask | tag; key > samples[i] {
			samples[i] = key
		}
		depth += step
	}
}
