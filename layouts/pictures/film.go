package pictures

import (
	"image"
	"image/color"
	"math"
	"slices"

	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/together"
)

// Picture geometry is whole numbers from the corners on, so that every
// processor fills the same pixels: corners in 1/256 pixel, inverse depth in
// 2^-28 a metre.
const (
	subShift  = 8              // a corner's fraction bits
	subLines  = 4              // sampling lines a pixel row, one sample a pixel on each
	lineStep  = 256 / subLines // in 1/256 pixel
	depthBits = 28             // of inverse depth: 4 µm at 30 m
	planeBits = 16             // more fraction bits while a plane is stepped along
	nearClip  = 0.3            // metres before the lens; nothing nearer is drawn
	farCoord  = 1 << 29        // corners are held within ±2 million pixels
	bandRows  = 16             // picture rows developed at once, few enough to stay in the cache
)

// samplePhase is where on each of a pixel's sampling lines its sample lies, in
// 1/256 pixel: no two in one column, so that upright and level edges are both
// smoothed in four steps.
var samplePhase = [subLines]int64{96, 224, 32, 160}

// corner is a place in the picture in 1/256 pixel.
type corner struct{ x, y int32 }

// face is one convex polygon as the lens sees it. Its inverse depth at (u, v)
// pixels is (a·u + b·v + c) in 2^-(depthBits+planeBits) a metre.
type face struct {
	a, b, c     int64
	first       uint32 // of its corners
	corners     uint8
	colour      uint8
	tame        bool  // the plane stays within tameLimit all over the picture
	mirrored    bool  // corners run clockwise on the picture's page
	top, bottom int32 // sampling lines [top, bottom)
	left, right int16 // tiles across that it may touch
	nearest     int32 // inverse depth of the nearest corner, rounded up
	farthest    int32 // inverse depth of the farthest corner in 2^-depthBits a metre
}

// film takes convex polygons in the world and keeps them as the lens sees them.
type film struct {
	view    *camera.View
	corners []corner
	faces   []face

	marked bool  // faces take mark in the place of their colour
	mark   uint8 // whose they are

	inCamera [2][]seating.Point // scratch: before and after the near clip
}

func newFilm(v *camera.View) *film { return &film{view: v} }

// expect empties the film and makes room for so many faces and corners.
func (f *film) expect(faces, corners int) {
	f.faces = slices.Grow(f.faces[:0], faces)
	f.corners = slices.Grow(f.corners[:0], corners)
}

// add takes a flat convex polygon of palette colour c; what lies nearer than
// nearClip, outside the frame or edge-on is left out.
func (f *film) add(points []seating.Point, c uint8) {
	cam := f.inCamera[0][:0]
	v := f.view
	for _, p := range points { // in camera axes
		dx, dy, dz := p[0]-v.Position[0], p[1]-v.Position[1], p[2]-v.Position[2]
		var q seating.Point
		for i, r := range v.Rotation {
			q[i] = float64(float64(float64(r[0]*dx)+float64(r[1]*dy)) + float64(r[2]*dz))
		}
		cam = append(cam, q)
	}
	f.inCamera[0] = cam
	normal := newell(cam)
	cam = f.clipNear(cam)
	if len(cam) < 3 {
		return
	}
	offset := dot(normal, cam[0])
	size := math.Sqrt(dot(normal, normal))
	// A plane within half a millimetre of the lens is seen as a line; nearer, its depth would not fit the integers.
	if !(math.Abs(offset) > 0.0005*size) {
		return
	}
	fc, ok := f.place(cam)
	if !ok {
		return
	}
	f.depthPlane(&fc, normal, offset)
	fc.colour = c
	if f.marked {
		fc.colour = f.mark
	}
	f.faces = append(f.faces, fc)
}

// newell is the normal of a flat polygon, as long as twice its area; sound for
// any corner order and for corners that coincide.
func newell(ps []seating.Point) seating.Point {
	var n seating.Point
	p := ps[len(ps)-1]
	for _, q := range ps {
		n[0] += float64((p[1] - q[1]) * (p[2] + q[2]))
		n[1] += float64((p[2] - q[2]) * (p[0] + q[0]))
		n[2] += float64((p[0] - q[0]) * (p[1] + q[1]))
		p = q
	}
	return n
}

func dot(a, b seating.Point) float64 {
	return float64(float64(float64(a[0]*b[0])+float64(a[1]*b[1])) + float64(a[2]*b[2]))
}

// clipNear cuts off what lies nearer than nearClip.
func (f *film) clipNear(in []seating.Point) []seating.Point {
	if !slices.ContainsFunc(in, func(p seating.Point) bool { return !(p[2] >= nearClip) }) {
		return in
	}
	out := f.inCamera[1][:0]
	p := in[len(in)-1]
	for _, q := range in {
		if (p[2] >= nearClip) != (q[2] >= nearClip) {
			t := (nearClip - p[2]) / (q[2] - p[2])
			out = append(out, seating.Point{
				p[0] + float64(t*(q[0]-p[0])),
				p[1] + float64(t*(q[1]-p[1])),
				nearClip,
			})
		}
		if q[2] >= nearClip {
			out = append(out, q)
		}
		p = q
	}
	f.inCamera[1] = out
	return out
}

// place projects corners; ok is false when nothing of them is in the frame.
func (f *film) place(cam []seating.Point) (face, bool) {
	v := f.view
	fc := face{first: uint32(len(f.corners)), corners: uint8(len(cam))}
	minX, minY, maxX, maxY := int64(farCoord), int64(farCoord), int64(-farCoord), int64(-farCoord)
	far, near := cam[0][2], cam[0][2]
	for _, p := range cam {
		far, near = max(far, p[2]), min(near, p[2])
		x := toFixed(v.Center[0] + float64(float64(v.Focal*p[0])/p[2]))
		y := toFixed(v.Center[1] + float64(float64(v.Focal*p[1])/p[2]))
		minX, maxX = min(minX, x), max(maxX, x)
		minY, maxY = min(minY, y), max(maxY, y)
		f.corners = append(f.corners, corner{int32(x), int32(y)})
	}
	fc.top = int32(max(0, ceilLine(minY)))
	fc.bottom = int32(min(int64(v.Height*subLines), ceilLine(maxY)))
	if maxX <= 0 || minX >= int64(v.Width)<<subShift || fc.top >= fc.bottom {
		f.corners = f.corners[:fc.first]
		return fc, false
	}
	fc.farthest = int32(math.Round((1 << depthBits) / far))
	fc.nearest = int32(math.Ceil((1<<depthBits)/near)) + 1
	fc.left = int16(max(0, minX>>subShift) / tileWide)
	fc.right = int16(min(int64(v.Width)-1, maxX>>subShift) / tileWide)
	// Twice its area is positive when its corners run clockwise as seen (v runs down).
	cs, area := f.corners[fc.first:], int64(0)
	p := cs[len(cs)-1]
	for _, q := range cs {
		area += int64(p.x)*int64(q.y) - int64(q.x)*int64(p.y)
		p = q
	}
	fc.mirrored = area < 0
	return fc, true
}

// toFixed rounds a place in pixels to 1/256, held within ±farCoord.
func toFixed(px float64) int64 {
	return int64(math.Round(max(-farCoord, min(farCoord, px*(1<<subShift)))))
}

// ceilLine is the first sampling line at or below y.
func ceilLine(y int64) int64 { return (y - lineStep/2 + lineStep - 1) >> 6 }

// tameLimit bounds inverse depth, in planes' units: differences then fit 32 bits
// when the plane's own bits are dropped.
const tameLimit = 1 << (depthBits + planeBits + 2)

func abs(n int64) int64 { return max(n, -n) }

// depthPlane sets the face's inverse depth from normal·X = offset in camera
// axes: 1/Z = (nx·(u−cx)/f + ny·(v−cy)/f + nz) / offset.
func (f *film) depthPlane(fc *face, normal seating.Point, offset float64) {
	v := f.view
	const one = 1 << (depthBits + planeBits)
	a := normal[0] / offset / v.Focal
	b := normal[1] / offset / v.Focal
	c := normal[2]/offset - float64(a*v.Center[0]) - float64(b*v.Center[1])
	fc.a = int64(math.Round(a * one))
	fc.b = int64(math.Round(b * one))
	fc.c = int64(math.Round(c * one))
	x, y := abs(fc.a)*int64(v.Width+tileWide), abs(fc.b)*int64(v.Height+1)
	fc.tame = max(x, y, abs(fc.c)) < tameLimit/4
}

// band is a few picture rows while they are developed, in tiles.
type band struct {
	across   int      // tiles a row
	tiles    []tile   // row by row
	farthest []int32  // by tile: no sample is farther; 0 while some are empty
	colours  []swatch // by tile
	depths   []depths // by tile, of ragged tiles only
	from, to []int64  // of the face at hand, by line, 1/256 pixel
}

const bandLines = bandRows * subLines

// develop fills the picture. Where nothing was added it has palette colour 0.
// Nearer faces win; of two at the same depth one of them, always the same.
func (f *film) develop(pal *palette) *image.Paletted {
	return f.developWith(pal.colours(), func() resolver { return pal.mixer().pixels })
}

// developMarks gives each pixel the mark of what shows at one of its samples, 0 where nothing does.
func (f *film) developMarks() []uint8 {
	one := func(out *[tileWide]uint8, s *swatch) { copy(out[:], s[tileWide:]) }
	return f.developWith(nil, func() resolver { return one }).Pix
}

// resolver makes pixels of a tile's samples.
type resolver func(out *[tileWide]uint8, s *swatch)

// developWith asks for a resolver for every worker.
func (f *film) developWith(colours color.Palette, pixels func() resolver) *image.Paletted {
	img := image.NewPaletted(image.Rect(0, 0, f.view.Width, f.view.Height), colours)
	bins := f.bins()
	type worker struct {
		*band
		pixels resolver
	}
	across := (f.view.Width + tileWide - 1) / tileWide
	n := across * bandRows
	begin := func() worker {
		return worker{&band{
			across: across,
			tiles:  make([]tile, n), farthest: make([]int32, n), colours: make([]swatch, n), depths: make([]depths, n),
			from: make([]int64, bandLines), to: make([]int64, bandLines),
		}, pixels()}
	}
	together.Until(len(bins), begin, func(w worker, i int) bool {
		f.developBand(w.band, bins[i], i*bandRows)
		w.resolve(img, w.pixels, i*bandRows)
		return false
	})
	return img
}

// bins lists by band the faces that reach into it, near ones first: what lies
// behind them is then passed over quickly.
func (f *film) bins() [][]uint32 {
	bins := make([][]uint32, (f.view.Height+bandRows-1)/bandRows)
	for _, i := range f.nearFirst() {
		for b := f.faces[i].top / bandLines; b <= (f.faces[i].bottom-1)/bandLines; b++ {
			bins[b] = append(bins[b], i)
		}
	}
	return bins
}

// nearFirst orders the faces by their farthest corner in 256 steps of inverse
// depth, and as they were added within a step.
func (f *film) nearFirst() []uint32 {
	const steps = 256
	most := int32(1)
	for i := range f.faces {
		most = max(most, f.faces[i].farthest)
	}
	step := func(i int) int { return int(int64(most-f.faces[i].farthest) * (steps - 1) / int64(most)) }
	var starts [steps + 1]int
	for i := range f.faces {
		starts[step(i)+1]++
	}
	for k := range steps {
		starts[k+1] += starts[k]
	}
	order := make([]uint32, len(f.faces))
	for i := range f.faces {
		k := step(i)
		order[starts[k]] = uint32(i)
		starts[k]++
	}
	return order
}

func (f *film) developBand(b *band, faces []uint32, topRow int) {
	clear(b.farthest)
	for i := range b.tiles {
		b.tiles[i].count, b.tiles[i].ragged = 0, false
	}
	first := int32(topRow * subLines)
	last := min(first+bandLines, int32(f.view.Height*subLines))
	for _, i := range faces {
		fc := &f.faces[i]
		top, bottom := max(fc.top, first), min(fc.bottom, last)
		if b.hides(fc, (top-first)/subLines, (bottom-1-first)/subLines) {
			continue
		}
		b.outline(f.corners[fc.first:fc.first+uint32(fc.corners)], fc.mirrored, first, top, bottom)
		b.paint(fc, topRow, top-first, bottom-first, int64(f.view.Width))
	}
}

// hides says whether everything is nearer than the face where it may reach in
// the rows [top, bottom] of the band.
func (b *band) hides(fc *face, top, bottom int32) bool {
	for r := int(top); r <= int(bottom); r++ {
		for _, z := range b.farthest[r*b.across+int(fc.left) : r*b.across+int(fc.right)+1] {
			if z < fc.nearest {
				return false
			}
		}
	}
	return true
}

// outline notes where a convex polygon begins and ends on each line of [top,
// bottom); first is the band's first line. An edge gives the same places
// whichever face it belongs to and whichever way it runs, so that neighbours
// meet without gap or overlap.
func (b *band) outline(cs []corner, mirrored bool, first, top, bottom int32) {
	p := cs[len(cs)-1]
	for _, q := range cs {
		upper, lower, side := p, q, b.to
		if (q.y < p.y) != mirrored {
			side = b.from
		}
		if q.y < p.y {
			upper, lower = q, p
		}
		p = q
		y0 := max(top, int32(ceilLine(int64(upper.y))))
		y1 := min(bottom, int32(ceilLine(int64(lower.y))))
		if y0 >= y1 {
			continue
		}
		const bits = 20
		slope := (int64(lower.x-upper.x) << bits) / int64(lower.y-upper.y)
		x := int64(upper.x)<<bits + (int64(y0)*lineStep+lineStep/2-int64(upper.y))*slope
		for y := range side[y0-first : y1-first] {
			side[int(y0-first)+y] = x >> bits
			x += slope * lineStep
		}
	}
}

// paint fills a face between its outline, on the lines [top, bottom) of the
// band, one picture row after the other.
func (b *band) paint(fc *face, topRow int, top, bottom int32, width int64) {
	for row := top / subLines; row*subLines < bottom; row++ {
		var left, right [subLines]int64
		lo, hi := width, int64(0)     // touched by some line
		inLo, inHi := int64(0), width // inside on all lines
		for k := range int32(subLines) {
			line := row*subLines + k
			if line < top || line >= bottom {
				inHi = 0
				continue
			}
			phase := samplePhase[k]
			i := max(0, (b.from[line]-phase+255)>>subShift)
			end := min(width, (b.to[line]-phase+255)>>subShift)
			if i >= end {
				inHi = 0
				continue
			}
			left[k], right[k] = i, end
			lo, hi = min(lo, i), max(hi, end)
			inLo, inHi = max(inLo, i), min(inHi, end)
		}
		if lo < hi {
			b.row(fc, int64(topRow)+int64(row), int(row)*b.across, &left, &right, lo, hi, inLo, inHi)
		}
	}
}

// row covers the tiles of one picture row that a face touches. base is the row's first tile.
func (b *band) row(fc *face, y int64, base int, left, right *[subLines]int64, lo, hi, inLo, inHi int64) {
	first, last := lo/tileWide, (hi-1)/tileWide
	z := fc.c + fc.b*y + fc.a*tileWide*first
	across := fc.a * tileWide
	for t := first; t <= last; t++ {
		x := t * tileWide
		l := layer{corners: [4]int32{
			depthOf(z), depthOf(z + across), depthOf(z + fc.b), depthOf(z + across + fc.b),
		}}
		z += across
		at := base + int(t)
		if b.farthest[at] >= l.nearest() && fc.tame {
			continue
		}
		l.mask = allSamples
		if x < inLo || x+tileWide > inHi {
			l.mask = coverage(left, right, x)
		}
		if fc.tame {
			b.cover(at, &l, fc.colour)
		} else {
			b.coverEach(at, l.mask, fc, x, y)
		}
	}
}

// coverage is which samples of the tile at x lie between left and right.
func coverage(left, right *[subLines]int64, x int64) uint64 {
	var mask uint64
	for k := range left {
		s, e := max(0, left[k]-x), min(tileWide, right[k]-x)
		if s < e {
			mask |= (1<<uint(e) - 1) &^ (1<<uint(s) - 1) << uint(k*tileWide)
		}
	}
	return mask
}

// depthOf drops the fraction bits. The near clip keeps it below 2^30; nothing
// drawn is 0, so what rounding carries beyond infinity never shows.
func depthOf(z int64) int32 { return int32(z >> planeBits) }
