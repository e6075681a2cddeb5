package legibility

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

// Blur is what a reader's eye smooths away, one standard deviation in card widths.
const blurCards = 0.8

// bare is the weight of what is no card: cards farther than about two blurs
// away do not colour a place, so that an aisle stays an aisle.
const bare = 0.02

// Limits of the coarse picture, in its pixels: a seat is pitchPixels wide where
// the whole field then is no higher than maxHeight.
const (
	pitchPixels = 3.0
	maxHeight   = 72.0
	maxWidth    = 1200.0
	minBlur     = 0.035 // of the field's height
)

// Place is a seat in a Canvas.
type Place struct {
	X, Y   float64    // middle of what is seen of the card
	Cell   [4]float64 // left, top, right, bottom
	Weight float64    // area seen, canvas pixels
	card   [2]float64 // width of the card and height of what is seen of it
}

// Canvas predicts the coarse picture that a reader sees of a field: every
// pixel is a weighted mean of the seats near it, so that the picture of any
// layout is a sum. Coordinates are canvas pixels, x to the right, y down.
type Canvas struct {
	Warp   Warp
	Places []Place // by Field seat; Weight 0 where nothing is seen
	W, H   int
	Pitch  float64 // median width of a cell
	Blur   float64 // standard deviation of the reader's blur

	card   [2]float64 // median size of what is seen of a card
	cover  float64    // share of the cells' area that cards cover, of cells whose card is seen
	byX    []int32    // seats by X
	xs     []float64
	kern   []kernel
	taps   []float32
	weight []float32 // sum of kernels and bare, by pixel
}

type kernel struct {
	x, y   int32 // first pixel
	nx, ny int32
	gx, gy int32 // index into taps
	own    bool  // of the patch, not of the canvas
}

// Levelled is the picture of a field with its rows levelled, where they slant.
func Levelled(f *Field) *Canvas {
	ws := Warps(f)
	return NewCanvas(f, ws[len(ws)-1])
}

// NewCanvas prepares the picture of a field under a warp.
func NewCanvas(f *Field, w Warp) *Canvas {
	c := &Canvas{Warp: w, Places: make([]Place, len(f.Seats))}
	var pitches, cards, highs []float64
	right, bottom := 1.0, 1.0
	shown, area := 0.0, 0.0
	for i := range f.Seats {
		s := &f.Seats[i]
		p := &c.Places[i]
		p.X, p.Y = w.Map(s.Centre[0], s.Centre[1])
		var q [4][2]float64
		for k, corner := range s.Cell {
			q[k][0], q[k][1] = w.Map(corner[0], corner[1])
		}
		mid := func(a, b, axis int) float64 { return (q[a][axis] + q[b][axis]) / 2 }
		p.Cell = [4]float64{mid(0, 3, 0), mid(0, 1, 1), mid(1, 2, 0), mid(2, 3, 1)}
		if s.Pixels <= 0 || s.Cell == ([4][2]float64{}) {
			continue
		}
		k := w.ScaleAt(s.Centre[0])
		p.Weight = s.Pixels * k * k
		pitches = append(pitches, p.Cell[2]-p.Cell[0])
		side := func(a, b int) float64 { return math.Hypot(s.Card[b][0]-s.Card[a][0], s.Card[b][1]-s.Card[a][1]) }
		p.card = [2]float64{(side(0, 1) + side(3, 2)) / 2 * k, (side(0, 3) + side(1, 2)) / 2 * s.Seen * k}
		cards, highs = append(cards, p.card[0]), append(highs, p.card[1])
		c.byX = append(c.byX, int32(i))
		right, bottom = max(right, p.Cell[2]), max(bottom, p.Cell[3])
		shown, area = shown+p.Weight, area+float64((p.Cell[2]-p.Cell[0])*(p.Cell[3]-p.Cell[1]))
	}
	c.W, c.H = int(math.Ceil(right))+1, int(math.Ceil(bottom))+1
	c.Pitch, c.Blur = median(pitches), max(blurCards*median(cards), minBlur*float64(c.H), 0.5)
	c.card, c.cover = [2]float64{median(cards), median(highs)}, min(shown/max(area, 1e-6), 1)
	c.kernels()
	c.index()
	return c
}

// Leaning is the canvas with its columns of seats so far upright: 0 leaves them as the picture has them, with 1 every
// column of a section stands upright over its middle row. Letters drawn on it lean with the stands in the picture. It is nil
// where the columns are not known.
func (c *Canvas) Leaning(f *Field, lean float64) *Canvas {
	l := *c
	l.Places, l.byX, l.xs, l.taps = slices.Clone(c.Places), slices.Clone(c.byX), nil, nil
	for _, i := range c.byX {
		s, p := &f.Seats[i], &l.Places[i]
		if s.Column == ([2]float64{}) {
			return nil
		}
		left, _ := c.Warp.Map(s.Column[0], s.Centre[1])
		right, _ := c.Warp.Map(s.Column[1], s.Centre[1])
		middle := float64((p.Cell[0] + p.Cell[2]) / 2)
		toward := func(v *float64, to float64) { *v += float64(lean * (to - *v)) }
		was := p.Cell[2] - p.Cell[0]
		toward(&p.Cell[0], left)
		toward(&p.Cell[2], right)
		k := (p.Cell[2] - p.Cell[0]) / max(was, 1e-6)
		p.X = float64(0.5*(p.Cell[0]+p.Cell[2])) + float64((p.X-middle)*k)
		p.card[0] *= k
	}
	l.index()
	l.kernels()
	return &l
}

// index sorts the seats by X.
func (c *Canvas) index() {
	slices.SortStableFunc(c.byX, func(a, b int32) int { return cmp.Compare(c.Places[a].X, c.Places[b].X) })
	for _, s := range c.byX {
		c.xs = append(c.xs, c.Places[s].X)
	}
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return 1
	}
	v = slices.Clone(v)
	slices.Sort(v)
	return v[len(v)/2]
}

func (c *Canvas) kernels() {
	c.kern = make([]kernel, len(c.Places))
	c.weight = make([]float32, c.W*c.H)
	for i := range c.weight {
		c.weight[i] = bare
	}
	for i := range c.Places {
		p := &c.Places[i]
		if p.Weight == 0 {
			continue
		}
		c.kern[i], c.taps = c.kernelAt(p, p.X, p.Y, c.taps)
		c.add(c.weight, c.W, 0, int32(i), 1)
	}
}

// blurOf is the standard deviation of a card's edge in the picture: the reader's blur and the card's own width, which
// has that of a uniform distribution.
func (c *Canvas) blurOf(card float64) float64 {
	return math.Sqrt(float64(c.Blur*c.Blur) + float64(card*card/12))
}

// kernelAt is what a card of a place shows at x, y; its samples are appended to taps.
func (c *Canvas) kernelAt(p *Place, x, y float64, taps []float32) (k kernel, all []float32) {
	taps, k.x, k.nx, k.gx = tap(taps, x, c.blurOf(p.card[0]), c.W, p.Weight)
	taps, k.y, k.ny, k.gy = tap(taps, y, c.blurOf(p.card[1]), c.H, 1)
	return k, taps
}

// tap appends the samples of a Gaussian of the given sum and says where they start.
func tap(taps []float32, at, sigma float64, size int, sum float64) (all []float32, first, n, index int32) {
	reach := float64(2.6 * sigma)
	lo := max(int(math.Floor(at-reach)), 0)
	hi := min(int(math.Ceil(at+reach)), size-1)
	index = int32(len(taps))
	if hi < lo {
		return taps, 0, 0, index
	}
	high := float32(sum / (sigma * math.Sqrt(2*math.Pi)))
	step := bellSteps / sigma
	d := (float64(lo) + 0.5 - at) * step
	for x := lo; x <= hi; x++ {
		taps = append(taps, high*bellTable[min(int(math.Abs(d)+0.5), len(bellTable)-1)])
		d += step
	}
	return taps, int32(lo), int32(hi - lo + 1), index
}

// bellTable is exp(−d²/2) at steps of 1/bellSteps.
const bellSteps = 128

var bellTable = func() (t [3*bellSteps + 1]float32) {
	for i := range t {
		d := float64(i) / bellSteps
		t[i] = float32(math.Exp(-d * d / 2))
	}
	return t
}()

// softened is the canvas of a picture that is blurred by sigma canvas pixels more.
func (c *Canvas) softened(sigma float64) *Canvas {
	soft := *c
	soft.Blur, soft.taps = math.Hypot(c.Blur, sigma), nil
	soft.kernels()
	return &soft
}

// add adds a seat's kernel times v to a picture that is w pixels wide and starts at column x0.
func (c *Canvas) add(pic []float32, w, x0 int, seat int32, v float32) {
	c.addKernel(pic, w, x0, &c.kern[seat], c.taps, v)
}

func (c *Canvas) addKernel(pic []float32, w, x0 int, k *kernel, taps []float32, v float32) {
	a, b := max(int(k.x), x0), min(int(k.x+k.nx), x0+w)
	if a >= b {
		return
	}
	gx := taps[k.gx:][a-int(k.x) : b-int(k.x)]
	for j := range int(k.ny) {
		g := v * taps[int(k.gy)+j]
		row := pic[(int(k.y)+j)*w+a-x0:][:len(gx)]
		for i, t := range gx {
			row[i] += float32(g * t)
		}
	}
}

// Between lists the seats whose middle lies in x0 … x1, from left to right.
func (c *Canvas) Between(x0, x1 float64) []int32 {
	a := sort.SearchFloat64s(c.xs, x0)
	b := sort.SearchFloat64s(c.xs, x1)
	return c.byX[a:max(a, b)]
}
