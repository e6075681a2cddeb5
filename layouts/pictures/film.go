package pictures

import (
	"math"
	"slices"

	"everyseat/seating"
	"everyseat/seating/camera"
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
	for _, p := range points {
		cam = append(cam, f.turned(p))
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

// turned is p in camera axes.
func (f *film) turned(p seating.Point) seating.Point {
	v := f.view
	dx, dy, dz := p[0]-v.Position[0], p[1]-v.Position[1], p[2]-v.Position[2]
	var out seating.Point
	for i, r := range v.Rotation {
		out[i] = float64(float64(float64(r[0]*dx)+float64(r[1]*dy)) + float64(r[2]*dz))
	}
	return out
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
	whole := true
	for _, p := range in {
		whole = whole && p[2] >= nearClip
	}
	if whole {
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
	fc.mirrored = twiceArea(f.corners[fc.first:]) < 0
	return fc, true
}

// toFixed rounds a place in pixels to 1/256, held within ±farCoord.
func toFixed(px float64) int64 {
	return int64(math.Round(max(-farCoord, min(farCoord, px*(1<<subShift)))))
}

// ceilLine is the first sampling line at or below y.
func ceilLine(y int64) int64 { return (y - lineStep/2 + lineStep - 1) >> 6 }

// twiceArea of a polygon on the page, positive when its corners run clockwise
// as seen (v runs down).
func twiceArea(cs []corner) int64 {
	var sum int64
	p := cs[len(cs)-1]
	for _, q := range cs {
		sum += int64(p.x)*int64(q.y) - int64(q.x)*int64(p.y)
		p = q
	}
	return sum
}

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
