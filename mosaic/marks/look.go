package marks

import (
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// How finely the stands are looked at from each place: fewer samples than for a plan,
// since the scores of a map need no more.
const lookSamples = 64

// wideTangent is how far to the sides a glimpse sees, as the tangent of the angle from its axis.
const wideTangent = 3

// noGlimpse marks a card that a glimpse has not before it.
const noGlimpse = -1

// glimpse is what is seen of every card from one place, whatever the frame.
type glimpse struct {
	seen []float32
	off  [][2]float32 // middle of what is seen, from the card's middle, in parts of its width and height
}

// view is the scene from a place, and what the stunt's camera has of it.
func (s *search) view(at Place) (*camera.Scene, *camera.View, error) {
	m := markAt(s.plan, at)
	scene := s.elsewhere.Scene(m)
	v, err := camera.NewView(m, scene)
	return scene, v, err
}

// see looks from a place, whatever the glimpses say.
func (s *search) see(at Place) (mosaic.Mark, error) {
	return s.elsewhere.From(markAt(s.plan, at), lookSamples)
}

// glimpseFrom looks from a place without a frame; nil where no camera can be.
func (s *search) glimpseFrom(at Place) *glimpse {
	scene, v, err := s.view(at)
	if err != nil {
		return nil
	}
	wide := *v
	wide.Width, wide.Height = int(2*wideTangent*v.Focal), int(2*wideTangent*v.Focal)
	wide.Center = camera.Pixel{float64(wide.Width) / 2, float64(wide.Height) / 2}
	t := scene.SeeWith(&wide, lookSamples)
	g := &glimpse{seen: make([]float32, len(t.Seen)), off: make([][2]float32, len(t.Seen))}
	for i := range t.Seen {
		g.seen[i] = noGlimpse
		if t.Behind[i] || !t.InFrame[i] {
			continue
		}
		g.seen[i] = t.Seen[i]
		c, p := &t.Corners[i], t.Centre[i]
		ax, ay := c[1][0]-c[0][0], c[1][1]-c[0][1]
		bx, by := c[3][0]-c[0][0], c[3][1]-c[0][1]
		mx, my := p[0]-float64((c[0][0]+c[2][0])/2), p[1]-float64((c[0][1]+c[2][1])/2)
		if d := float64(ax*by) - float64(ay*bx); math.Abs(d) >= 1e-9 {
			g.off[i] = [2]float32{
				float32((float64(mx*by) - float64(my*bx)) / d), float32((float64(ax*my) - float64(ay*mx)) / d),
			}
		}
	}
	return g
}

// lattice is the glimpses of a patch, fewer than its places.
type lattice struct {
	cols, rows int
	of         []*glimpse
}

// weigh finds the four glimpses around a place and their weights, which may lie a
// little outside 0…1 at the edges; ok is false where one of them is missing.
func (l *lattice) weigh(p *Patch, col, row int) (four [4]*glimpse, weight [4]float32, ok bool) {
	if len(l.of) == 0 {
		return four, weight, false
	}
	i, tx := part(col, p.Cols, l.cols)
	k, ty := part(row, p.Rows, l.rows)
	i1, k1 := min(i+1, l.cols-1), min(k+1, l.rows-1)
	four = [4]*glimpse{l.of[k*l.cols+i], l.of[k*l.cols+i1], l.of[k1*l.cols+i], l.of[k1*l.cols+i1]}
	weight = [4]float32{(1 - tx) * (1 - ty), tx * (1 - ty), (1 - tx) * ty, tx * ty}
	return four, weight, !slices.Contains(four[:], nil)
}

// part is which of n glimpses lies before place i of m, and how far the place is on the way to the next.
func part(i, m, n int) (first int, on float32) {
	at := float64((float64(i)+0.5)/float64(m)*float64(n)) - 0.5
	first = max(0, min(n-2, int(math.Floor(at))))
	if n == 1 {
		return 0, 0
	}
	return first, float32(at - float64(first))
}

// blend is what a view sees, with the shares taken from four glimpses around it.
func (s *search) blend(scene *camera.Scene, v *camera.View, four [4]*glimpse, weight [4]float32) *camera.Sight {
	n := len(s.plan.Stands.Seats)
	t := &camera.Sight{
		Corners: make([][4]camera.Pixel, n), Behind: make([]bool, n), Seen: make([]float32, n),
		Pixels: make([]float32, n),
		Centre: make([]camera.Pixel, n), InFrame: make([]bool, n), Hider: make([]int8, n), HiderOf: make([]int32, n),
	}
	for i := range n {
		t.Hider[i], t.HiderOf[i] = -1, -1
		quad, ok := s.quads[i], s.cards[i]
		if scene != s.plan.Scene {
			quad, ok = scene.CardQuad(i)
		}
		if !ok {
			continue
		}
		depth := math.Inf(1)
		for k := range quad {
			at, d := v.Project(quad[k])
			t.Corners[i][k], depth = at, min(depth, d)
		}
		c := &t.Corners[i] // the area is positive where the card's front is seen
		size := (float64((c[2][0]-c[0][0])*(c[3][1]-c[1][1])) - float64((c[2][1]-c[0][1])*(c[3][0]-c[1][0]))) / 2
		if t.Behind[i] = depth < nearest || size <= 0; t.Behind[i] {
			continue
		}
		seen, off := mix(four, weight, i)
		share := s.frameShare(t, i, v)
		t.Seen[i] = seen * share
		t.Pixels[i] = seen * share * float32(size)
		for k, most := range [2]int{v.Width, v.Height} {
			across, down := float64(off[0]*(c[1][k]-c[0][k])), float64(off[1]*(c[3][k]-c[0][k]))
			t.Centre[i][k] = float64((c[0][k]+c[2][k])/2) + across + down
			if share < 1 {
				t.Centre[i][k] = max(0, min(float64(most), t.Centre[i][k]))
			}
		}
	}
	return t
}

// nearest is the clip before the lens, in metres, as package camera has it.
const nearest = 0.3

// mix weighs what four glimpses saw of a card; those that had it not before them do not count.
func mix(four [4]*glimpse, weight [4]float32, seat int) (seen float32, off [2]float64) {
	var sum float32
	for k, g := range four {
		if g.seen[seat] == noGlimpse {
			continue
		}
		sum += weight[k]
		seen += float32(weight[k] * g.seen[seat])
		off[0] += float64(weight[k] * g.off[seat][0])
		off[1] += float64(weight[k] * g.off[seat][1])
	}
	if sum < 1e-3 {
		return 0, [2]float64{}
	}
	return max(0, min(1, seen/sum)), [2]float64{off[0] / float64(sum), off[1] / float64(sum)}
}

// frameShare is how much of the box around a card is in the picture.
func (s *search) frameShare(t *camera.Sight, i int, v *camera.View) float32 {
	lo, hi := t.Corners[i][0], t.Corners[i][0]
	for _, p := range t.Corners[i][1:] {
		lo = camera.Pixel{min(lo[0], p[0]), min(lo[1], p[1])}
		hi = camera.Pixel{max(hi[0], p[0]), max(hi[1], p[1])}
	}
	w, h := float64(v.Width), float64(v.Height)
	if t.InFrame[i] = lo[0] >= 0 && lo[1] >= 0 && hi[0] <= w && hi[1] <= h; t.InFrame[i] {
		return 1
	}
	across := max(0, min(hi[0], w)-max(lo[0], 0))
	down := max(0, min(hi[1], h)-max(lo[1], 0))
	return float32(across * down / max(1e-9, (hi[0]-lo[0])*(hi[1]-lo[1])))
}

// keepQuads keeps where the cards are, which does not depend on the camera unless they turn to it.
func (s *search) keepQuads() {
	n := len(s.plan.Stands.Seats)
	s.quads, s.cards = make([][4]seating.Point, n), make([]bool, n)
	for i := range n {
		s.quads[i], s.cards[i] = s.plan.Scene.CardQuad(i)
	}
}
