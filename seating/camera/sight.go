package camera

import (
	"math"
	"slices"

	"everyseat/seating"
)

// Sight is what one view sees; all slices are by seat index.
type Sight struct {
	Corners [][4]Pixel // of the card, also where it is hidden
	Behind  []bool     // the card is not wholly in front of the lens, or is seen from behind
	Seen    []float32  // samples won over samples covered alone; 0 without a card; unseen outside the frame
	Pixels  []float32  // area seen, in pixels of the picture
	Centre  []Pixel    // middle of what is seen; of the whole card where nothing is
	InFrame []bool     // all four corners inside the picture
	Hider   []int8     // the Part that hides most of what is hidden, −1 where nothing does
	HiderOf []int32    // the owner of that part, −1 for nobody
}

// See runs the depth buffer: bands of picture rows, 1/z, near clip at 0.3 m, at
// least 64 samples a card and up to 256 where there are few cards. Cards seen
// at less than about 6 degrees get fewer, and so do cards so far apart in size
// that one band would need more than 4 million samples.
func (s *Scene) See(v *View) *Sight {
	return s.SeeWith(v, max(leastSamples, min(mostSamples, manySamples/max(1, len(s.Stands.Seats)))))
}

// SeeWith is See with at least so many samples a card; fewer are faster. Below 1 means 1.
func (s *Scene) SeeWith(v *View, samples int) *Sight {
	return s.see(v, max(1, samples), nil)
}

// How finely See looks.
const (
	leastSamples = 64
	mostSamples  = 256
	manySamples  = 500_000
)

func newSight(n int) *Sight {
	return &Sight{
		Corners: make([][4]Pixel, n), Behind: make([]bool, n), InFrame: make([]bool, n), Centre: make([]Pixel, n),
		Seen: make([]float32, n), Pixels: make([]float32, n),
		Hider: slices.Repeat([]int8{-1}, n), HiderOf: slices.Repeat([]int32{-1}, n),
	}
}

// shot is a card as the view takes it, hidden or not.
type shot struct {
	corners [4]Pixel
	depth   float64 // of the nearest corner
	front   bool    // its front looks at the lens
	flat    float64 // share of its size that is seen, 0 edge-on … 1 straight on
}

func (v *View) quad(q [4]seating.Point) shot {
	t := shot{depth: math.Inf(1)}
	var c [4][3]float64
	for i := range q {
		c[i] = v.toCamera(q[i])
		t.corners[i] = v.onPicture(c[i])
		t.depth = math.Min(t.depth, c[i][2])
	}
	// The front's normal is right × up; from top-left, that is down × right.
	normal := cross(minus(c[3], c[0]), minus(c[1], c[0]))
	toward := -dot(normal, c[0])
	t.front = toward > 0
	t.flat = math.Abs(toward) / math.Sqrt(float64(dot(normal, normal)*dot(c[0], c[0])))
	return t
}

func (t *shot) box() box {
	b := emptyBox()
	for _, p := range t.corners {
		b.add(p)
	}
	return b
}

// area is the size in square pixels of a convex polygon, and its middle.
func area(p []Pixel) (size float64, middle Pixel) {
	if len(p) == 0 {
		return 0, middle
	}
	// From the first corner, so that far-off places lose no digits.
	var u, w float64
	for i := 1; i+1 < len(p); i++ {
		a := Pixel{p[i][0] - p[0][0], p[i][1] - p[0][1]}
		b := Pixel{p[i+1][0] - p[0][0], p[i+1][1] - p[0][1]}
		piece := float64(a[0]*b[1]) - float64(a[1]*b[0])
		size += piece
		u += float64(piece * (a[0] + b[0]))
		w += float64(piece * (a[1] + b[1]))
	}
	if size == 0 {
		for _, q := range p {
			middle[0] += q[0] / float64(len(p))
			middle[1] += q[1] / float64(len(p))
		}
		return 0, middle
	}
	return math.Abs(size) / 2, Pixel{p[0][0] + u/(3*size), p[0][1] + w/(3*size)}
}

// inFrame is the part of a convex polygon that lies in the picture.
func (v *View) inFrame(p []Pixel) []Pixel {
	limits := [4]struct {
		axis int
		at   float64
		sign float64
	}{{0, 0, 1}, {0, float64(v.Width), -1}, {1, 0, 1}, {1, float64(v.Height), -1}}
	for _, l := range limits {
		var kept []Pixel
		for i, a := range p {
			b := p[(i+1)%len(p)]
			da, db := float64(l.sign*(a[l.axis]-l.at)), float64(l.sign*(b[l.axis]-l.at))
			if da >= 0 {
				kept = append(kept, a)
			}
			if (da >= 0) != (db >= 0) {
				t := da / (da - db)
				kept = append(kept, Pixel{a[0] + float64(t*(b[0]-a[0])), a[1] + float64(t*(b[1]-a[1]))})
			}
		}
		p = kept
	}
	return p
}
