package mosaic

import (
	"math"

	"everyseat/mosaic/colour"
	"everyseat/seating/camera"
)

// box is a rectangle in picture places: left, top, right, bottom.
type box [4]float64

// extent is the smallest box around the cells of these seats.
func extent(cells []camera.Cell, seats []int32) box {
	b := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, s := range seats {
		for _, p := range cells[s] {
			b[0], b[1] = min(b[0], p[0]), min(b[1], p[1])
			b[2], b[3] = max(b[2], p[0]), max(b[3], p[1])
		}
	}
	return b
}

// meet is where both boxes are; it may be empty.
func (b box) meet(c box) box {
	return box{max(b[0], c[0]), max(b[1], c[1]), min(b[2], c[2]), min(b[3], c[3])}
}

func (b box) empty() bool { return !(b[0] < b[2] && b[1] < b[3]) }

// placement says where the image lies among the cells: its middle on the middle
// of the box, undistorted.
type placement struct {
	left, top float64 // of the image, in picture places
	scale     float64 // picture places per image pixel
}

// place fits the image into b, or lets it cover all of b, the focus as near to the
// middle as the image's edges allow.
func (a *artwork) place(b box, cover bool, focus [2]float64) placement {
	across, down := (b[2]-b[0])/float64(a.width), (b[3]-b[1])/float64(a.height)
	scale := min(across, down)
	if cover {
		scale = max(across, down)
	}
	p := placement{
		left:  (b[0]+b[2])/2 - float64(scale*float64(a.width))/2,
		top:   (b[1]+b[3])/2 - float64(scale*float64(a.height))/2,
		scale: scale,
	}
	if cover && focus != [2]float64{} {
		p.left = brought(b[0], b[2], scale*float64(a.width), focus[0])
		p.top = brought(b[1], b[3], scale*float64(a.height), focus[1])
	}
	return p
}

// brought is where an image of this size begins so that its focus comes to the middle
// of low…high, as far as it still covers all of that.
func brought(low, high, size, focus float64) float64 {
	at := (low+high)/2 - float64(focus*size)
	return max(min(at, low), high-size)
}

// quad is a cell's corners in pixels of the stored image.
type quad [4][2]float64

// quads brings cells onto the stored image.
func (a *artwork) quads(cells []camera.Cell, seats []int32, p placement) []quad {
	w, h := float64(a.canvas.X), float64(a.canvas.Y)
	out := make([]quad, len(seats))
	for i, s := range seats {
		for k, c := range cells[s] {
			out[i][k][0], out[i][k][1] = a.turn.stored((c[0]-p.left)/p.scale, (c[1]-p.top)/p.scale, w, h)
		}
	}
	return out
}

// sample gives each cell's area average: premultiplied linear light and the share
// covered. What lies outside the image counts as not covered.
func (a *artwork) sample(cells []quad) []light {
	means := averages(a.canvas.X, a.canvas.Y, a.row, cells)
	for i := range means {
		for c := range means[i] { // rounding may leave it by a hair
			means[i][c] = min(max(means[i][c], 0), 1)
		}
	}
	return means
}

// averages is the mean over each cell of an image of width × height pixels whose
// rows are given by row; outside it is 0.
//
// It is exact for any quadrilateral. By Green's theorem the integral of the image
// over a cell is the sum over its edges of ∫F dy, F(x, y) being the light to the
// left of x in row y, and F is piecewise linear. So one pass over the rows does,
// with one row of running sums in memory.
func averages(width, height int, row func(y int, dst []light), cells []quad) []light {
	sums := make([]light, len(cells))
	edges, starts := edgesByRow(cells, height)
	pixels := make([]light, width)
	left := make([]light, width+1) // left[x] is the row's light left of pixel x
	var active []int32
	for y := range height {
		for i := starts[y]; i < starts[y+1]; i++ {
			active = append(active, i)
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
func (q *quad) area() float64 {
	var sum float64
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
	cell           int32
}

// edgesByRow sorts the cells' edges by the row in which they begin; those of row
// y are edges[starts[y]:starts[y+1]]. Edges that are level or outside are left out.
func edgesByRow(cells []quad, height int) (edges []edge, starts []int32) {
	starts = make([]int32, height+1)
	visit := func(fn func(e edge, row int)) {
		for i := range cells {
			for k, p := range cells[i] {
				n := cells[i][(k+1)&3]
				e := edge{p[0], p[1], n[0], n[1], 1, int32(i)}
				if e.y0 > e.y1 {
					e = edge{n[0], n[1], p[0], p[1], -1, int32(i)}
				}
				if e.y0 < e.y1 && e.y1 > 0 && e.y0 < float64(height) {
					fn(e, int(max(e.y0, 0)))
				}
			}
		}
	}
	visit(func(_ edge, row int) { starts[row+1]++ })
	for y := range height {
		starts[y+1] += starts[y]
	}
	edges = make([]edge, starts[height])
	next := append([]int32(nil), starts[:height]...)
	visit(func(e edge, row int) {
		edges[next[row]] = e
		next[row]++
	})
	return edges, starts
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
		sum.add(&pixels[x], by*((xa+xb)/2-first))
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
		sum.add(&pixels[x], by*((from+to)/2-float64(x)))
	}
	if xb > right {
		sum.add(&left[len(pixels)], share*(xb-right))
	}
}

// over is the light of l in front of a ground.
func (l *light) over(ground colour.Linear) colour.Linear {
	var out colour.Linear
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
