package legibility

import (
	"math"
	"sync"

	"everyseat/mosaic/lettering/faces"
)

// Signs are what a letter can be mistaken for.
const Signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

// A letter is compared on a grid of gridX × gridY samples: its box and, around
// it, marginX and marginY of its height.
const (
	gridX   = 18
	gridY   = 16
	gridN   = gridX * gridY
	marginX = 0.20
	marginY = 0.14
)

// sharp is how fast a worse likeness loses: a likeness lower by this is e times less likely.
const sharp = 0.04

// sheet is the signs as a reader expects them in one letter's box; the right one first.
type sheet struct {
	rune  []rune
	likes [][][gridN]float32 // by sign, by face; mean 0, length 1
}

type sheetKey struct {
	r             rune
	aspect, blurs int8
	rivals        bool
}

var (
	sheetMu sync.Mutex
	sheets  = map[sheetKey]*sheet{}
)

// Steps of aspect (width over height, by 15 %) and of blur over height (by 30 %).
const (
	aspectStep = 1.15
	blurStep   = 1.30
)

func classOf(v, step float64) int8 {
	return int8(math.Round(math.Log(max(v, 1e-3)) / math.Log(step)))
}

// sheetFor finds or makes the sheet for a letter whose box is aspect times as wide as
// high, blurred by blur heights; without rivals it holds the right sign alone.
func sheetFor(r rune, aspect, blur float64, rivals bool) *sheet {
	k := sheetKey{r, classOf(aspect, aspectStep), classOf(blur, blurStep), rivals}
	sheetMu.Lock()
	defer sheetMu.Unlock()
	if s, ok := sheets[k]; ok {
		return s
	}
	s := makeSheet(r, math.Pow(aspectStep, float64(k.aspect)), math.Pow(blurStep, float64(k.blurs)), rivals)
	sheets[k] = s
	return s
}

// readerFaces are the plain faces that a reader may have in mind.
func readerFaces(r rune) []*faces.Shape {
	wide := faces.CapRows * 7 / 10
	all := []*faces.Shape{
		faces.Bold.Shape(r), faces.Medium.Shape(r), faces.Mono.Shape(r),
		faces.Block(r, faces.Pen{Across: wide / 5, Up: faces.CapRows / 6, Wide: wide}),
	}
	var out []*faces.Shape
	for _, s := range all {
		if s != nil {
			out = append(out, s)
		}
	}
	return out
}

func makeSheet(r rune, aspect, blur float64, rivals bool) *sheet {
	s := &sheet{}
	own := readerFaces(r)
	if len(own) == 0 {
		return s
	}
	add := func(sign rune) {
		var likes [][gridN]float32
		for i, f := range readerFaces(sign) {
			width := aspect
			if q := f.Width / own[min(i, len(own)-1)].Width; q < 0.72 || q > 1.39 {
				width = aspect * q // too different to be read as this sign drawn wide or narrow
			}
			likes = append(likes, likeness(f, aspect, width, blur))
		}
		s.rune = append(s.rune, sign)
		s.likes = append(s.likes, likes)
	}
	add(r)
	for _, sign := range Signs {
		if rivals && readAs(sign) != readAs(r) {
			add(sign)
		}
	}
	return s
}

// likeness draws a shape of the given width in the middle of a box of the given aspect.
func likeness(f *faces.Shape, aspect, width, blur float64) [gridN]float32 {
	stepX, stepY := (aspect+2*marginX)/gridX, (1+2*marginY)/gridY
	var g [gridN]float64
	perX := float64(f.Cols) / width * faces.Fine
	perY := float64(faces.CapRows * faces.Fine)
	for j := range gridY {
		y0 := float64(j)*stepY - marginY
		for i := range gridX {
			x0 := float64(i)*stepX - marginX - (aspect-width)/2
			g[j*gridX+i] = float64(f.Coverage(round(x0*perX), round(y0*perY), round((x0+stepX)*perX), round((y0+stepY)*perY))) / faces.FullCover
		}
	}
	smooth(&g, blur/stepX, blur/stepY)
	mean, norm := 0.0, 0.0
	for _, v := range g {
		mean += v / gridN
	}
	for _, v := range g {
		norm += (v - mean) * (v - mean)
	}
	norm = max(math.Sqrt(norm), 1e-9)
	var out [gridN]float32
	for i, v := range g {
		out[i] = float32((v - mean) / norm)
	}
	return out
}

func round(v float64) int { return int(math.Floor(v + 0.5)) }

// smooth blurs by Gaussians of the given standard deviations, in samples; nothing lies outside.
func smooth(g *[gridN]float64, sx, sy float64) {
	kx, ky := bell(sx), bell(sy)
	var h [gridN]float64
	for j := range gridY {
		for i := range gridX {
			for d, k := range kx {
				if x := i + d - len(kx)/2; x >= 0 && x < gridX {
					h[j*gridX+i] += k * g[j*gridX+x]
				}
			}
		}
	}
	*g = [gridN]float64{}
	for j := range gridY {
		for i := range gridX {
			for d, k := range ky {
				if y := j + d - len(ky)/2; y >= 0 && y < gridY {
					g[j*gridX+i] += k * h[y*gridX+i]
				}
			}
		}
	}
}

func bell(s float64) []float64 {
	n := int(math.Ceil(2.6 * s))
	k := make([]float64, 2*n+1)
	sum := 0.0
	for i := range k {
		d := float64(i-n) / max(s, 1e-6)
		k[i] = math.Exp(-d * d / 2)
		sum += k[i]
	}
	for i := range k {
		k[i] /= sum
	}
	return k
}

// Likeness is how a letter compares with what it may be taken for.
type Likeness struct {
	Shape  float64 // correlation with the letter as printed, −1…1
	Chance float64 // that it is read right, 0…1
	Other  float64 // chance of the likeliest other reading
	Rival  rune    // which is that; 0 = no letter at all
}

// Margin is how much likelier the right reading is than the likeliest other.
func (l Likeness) Margin() float64 { return l.Chance - l.Other }

// Compare holds the predicted picture of a letter against its rivals. The box is the
// letter's, from its left to its right edge and from the top of a capital to the
// baseline, in canvas pixels. Letters and figures are judged by the learned reader,
// other signs by their likeness to the printed signs.
func (p *Patch) Compare(r rune, x0, y0, x1, y1 float64) Likeness {
	high := max(y1-y0, 1)
	in := p.input([4]float64{x0, y0, x1, y1})
	win := (*[gridN]float32)(in[:gridN])
	var l Likeness
	var known bool
	l.Chance, l.Other, l.Rival, known = foretell(&in, r)
	sh := sheetFor(r, (x1-x0)/high, p.c.Blur/high, !known)
	likes := make([]float64, len(sh.rune))
	for i := range sh.rune {
		likes[i] = -1
		for k := range sh.likes[i] {
			likes[i] = max(likes[i], float64(dot(win, &sh.likes[i][k]))/math.Sqrt(gridN))
		}
	}
	if len(likes) == 0 {
		return l
	}
	l.Shape = likes[0]
	if !known {
		total, best := 0.0, math.Inf(-1)
		for i, v := range likes {
			total += math.Exp((v - likes[0]) / sharp)
			if i > 0 && v > best {
				best, l.Rival = v, sh.rune[i]
			}
		}
		l.Chance, l.Other = 1/total, math.Exp((best-likes[0])/sharp)/total
	}
	return l
}

// window samples the picture in and around a letter's box, less its mean, and gives one
// over its length.
func (p *Patch) window(x0, y0, x1, y1 float64) (win [gridN]float32, inv float64) {
	high := max(y1-y0, 1)
	stepX, stepY := (x1-x0+float64(2*marginX*high))/gridX, high*(1+2*marginY)/gridY
	var xs [gridX]float64
	var ys [gridY]float64
	for i := range xs {
		xs[i] = x0 - float64(marginX*high) + float64((float64(i)+0.5)*stepX)
	}
	for j := range ys {
		ys[j] = y0 - float64(marginY*high) + float64((float64(j)+0.5)*stepY)
	}
	p.sample(xs[:], ys[:], win[:])
	var sum float32
	for _, v := range win {
		sum += v
	}
	mean := sum / gridN
	p.mean = mean
	var norm float32
	for i, v := range win {
		win[i] = v - mean
		norm += float32(win[i] * win[i])
	}
	return win, 1 / max(math.Sqrt(float64(norm)), 1e-6)
}

func dot(a, b *[gridN]float32) float32 {
	var s0, s1, s2, s3 float32
	for i := 0; i < gridN; i += 4 {
		s0 += float32(a[i] * b[i])
		s1 += float32(a[i+1] * b[i+1])
		s2 += float32(a[i+2] * b[i+2])
		s3 += float32(a[i+3] * b[i+3])
	}
	return s0 + s1 + s2 + s3
}
