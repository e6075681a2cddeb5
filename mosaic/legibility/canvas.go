package legibility

import (
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

// NewCanvas prepares the picture of a field under a warp.
func NewCanvas(f *Field, w Warp) *Canvas {
	c := &Canvas{Warp: w, Places: make([]Place, len(f.Seats))}
	var pitches, cards, highs []float64
	right, bottom := 1.0, 1.0
	for i := range f.Seats {
		s := &f.Seats[i]
		p := &c.Places[i]
		p.X, p.Y = w.Map(s.Centre[0], s.Centre[1])
		var q [4][2]float64
		for k, corner := range s.Cell {
			q[k][0], q[k][1] = w.Map(corner[0], corner[1])
		}
		p.Cell = [4]float64{(q[0][0] + q[3][0]) / 2, (q[0][1] + q[1][1]) / 2, (q[1][0] + q[2][0]) / 2, (q[2][1] + q[3][1]) / 2}
		if s.Pixels <= 0 || s.Cell == ([4][2]float64{}) {
			continue
		}
		k := w.ScaleAt(s.Centre[0])
		p.Weight = s.Pixels * k * k
		pitches = append(pitches, p.Cell[2]-p.Cell[0])
		p.card = [2]float64{cardWidth(s) * k, cardHeight(s) * s.Seen * k}
		cards, highs = append(cards, p.card[0]), append(highs, p.card[1])
		right, bottom = max(right, p.Cell[2]), max(bottom, p.Cell[3])
	}
	c.W, c.H = int(math.Ceil(right))+1, int(math.Ceil(bottom))+1
	c.Pitch, c.Blur = median(pitches), max(blurCards*median(cards), minBlur*float64(c.H), 0.5)
	c.card = [2]float64{median(cards), median(highs)}
	c.kernels()
	c.sortByX()
	return c
}

func cardWidth(s *Seat) float64 {
	top := math.Hypot(s.Card[1][0]-s.Card[0][0], s.Card[1][1]-s.Card[0][1])
	low := math.Hypot(s.Card[2][0]-s.Card[3][0], s.Card[2][1]-s.Card[3][1])
	return (top + low) / 2
}

func cardHeight(s *Seat) float64 {
	left := math.Hypot(s.Card[3][0]-s.Card[0][0], s.Card[3][1]-s.Card[0][1])
	right := math.Hypot(s.Card[2][0]-s.Card[1][0], s.Card[2][1]-s.Card[1][1])
	return (left + right) / 2
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
		kn := &c.kern[i]
		w, h := p.card[0], p.card[1]
		c.taps, kn.x, kn.nx, kn.gx = tap(c.taps, p.X, math.Sqrt(c.Blur*c.Blur+w*w/12), c.W, p.Weight)
		c.taps, kn.y, kn.ny, kn.gy = tap(c.taps, p.Y, math.Sqrt(c.Blur*c.Blur+h*h/12), c.H, 1)
		c.add(c.weight, c.W, 0, int32(i), 1)
	}
}

// tap appends the samples of a Gaussian of the given sum and says where they start.
func tap(taps []float32, at, sigma float64, size int, sum float64) (all []float32, first, n, index int32) {
	lo := max(int(math.Floor(at-2.6*sigma)), 0)
	hi := min(int(math.Ceil(at+2.6*sigma)), size-1)
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

func (c *Canvas) sortByX() {
	for i := range c.Places {
		if c.Places[i].Weight > 0 {
			c.byX = append(c.byX, int32(i))
		}
	}
	slices.SortStableFunc(c.byX, func(a, b int32) int {
		switch x, y := c.Places[a].X, c.Places[b].X; {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return int(a - b)
	})
	c.xs = make([]float64, len(c.byX))
	for i, s := range c.byX {
		c.xs[i] = c.Places[s].X
	}
}

// Between lists the seats whose middle lies in x0 … x1, from left to right.
func (c *Canvas) Between(x0, x1 float64) []int32 {
	a := sort.SearchFloat64s(c.xs, x0)
	b := sort.SearchFloat64s(c.xs, x1)
	return c.byX[a:max(a, b)]
}

// Patch is a strip of the predicted picture, columns X0 … X0+W, all rows.
type Patch struct {
	c      *Canvas
	X0, W  int
	pix    []float32
	weight []float32 // what pix is divided by
	own    []float32 // weights with people missing
	goal   []float32 // the letter as printed
	mean   float32   // of the last window

	offTaps []float32 // of a card that is off its place
}

// Begin clears the patch and makes it cover x0 … x1.
func (p *Patch) Begin(c *Canvas, x0, x1 float64) {
	p.c = c
	p.X0 = min(max(int(math.Floor(x0))-1, 0), c.W-1)
	p.W = min(max(int(math.Ceil(x1))+1, p.X0+1), c.W) - p.X0
	n := p.W * c.H
	if cap(p.pix) < n {
		p.pix = make([]float32, n)
	}
	p.pix = p.pix[:n]
	clear(p.pix)
	p.weight = c.weight
}

// Ink shows a seat as ink; v is 1, or less for half shown.
func (p *Patch) Ink(seat int32, v float32) { p.c.add(p.pix, p.W, p.X0, seat, v) }

// at is the predicted picture at a place, 0 ground … 1 ink, interpolated.
func (p *Patch) at(x, y float64) float32 {
	x, y = x-0.5, y-0.5
	fx, fy := math.Floor(x), math.Floor(y)
	ix, iy := int(fx), int(fy)
	ax, ay := float32(x-fx), float32(y-fy)
	top := float32(p.px(ix, iy)*(1-ax)) + float32(p.px(ix+1, iy)*ax)
	low := float32(p.px(ix, iy+1)*(1-ax)) + float32(p.px(ix+1, iy+1)*ax)
	return float32(top*(1-ay)) + float32(low*ay)
}

func (p *Patch) px(x, y int) float32 {
	if x < p.X0 || x >= p.X0+p.W || y < 0 || y >= p.c.H {
		return 0
	}
	return p.pix[y*p.W+x-p.X0] / p.weight[y*p.c.W+x]
}

// sample is at for every x of every y, row after row; xs run one way, and there are at most gridX.
func (p *Patch) sample(xs, ys []float64, out []float32) {
	var column [gridX]int
	var part [gridX]float32
	for i, x := range xs {
		f := math.Floor(x - 0.5)
		column[i], part[i] = int(f), float32(x-0.5-f)
	}
	n := len(xs)
	across := min(column[0], column[n-1]) >= p.X0 && max(column[0], column[n-1])+1 < p.X0+p.W
	for j, y := range ys {
		row := out[j*n:][:n]
		f := math.Floor(y - 0.5)
		iy := int(f)
		if !across || iy < 0 || iy+1 >= p.c.H {
			for i, x := range xs {
				row[i] = p.at(x, y)
			}
			continue
		}
		ay := float32(y - 0.5 - f)
		pix, weight := p.pix[iy*p.W:][:2*p.W], p.weight[iy*p.c.W:][:2*p.c.W]
		for i := range row {
			x := column[i]
			k, ax := x-p.X0, part[i]
			top := float32(pix[k]/weight[x]*(1-ax)) + float32(pix[k+1]/weight[x+1]*ax)
			low := float32(pix[p.W+k]/weight[p.c.W+x]*(1-ax)) + float32(pix[p.W+k+1]/weight[p.c.W+x+1]*ax)
			row[i] = float32(top*(1-ay)) + float32(low*ay)
		}
	}
}
