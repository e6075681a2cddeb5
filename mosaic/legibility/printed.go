package legibility

import (
	"math"

	"everyseat/mosaic/faces"
)

// Signs are what a letter can be mistaken for.
const Signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"

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
}

// The sheets of 5 kB with the right sign alone, and those of 170 kB with all its rivals.
var (
	ownSheets   = faces.Memo[sheetKey, *sheet]{Half: 1024}
	rivalSheets = faces.Memo[sheetKey, *sheet]{Half: 64}
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
	k := sheetKey{r, classOf(aspect, aspectStep), classOf(blur, blurStep)}
	sheets := &ownSheets
	if rivals {
		sheets = &rivalSheets
	}
	return sheets.Of(k, func() *sheet {
		return makeSheet(r, math.Pow(aspectStep, float64(k.aspect)), math.Pow(blurStep, float64(k.blurs)), rivals)
	})
}

// sheet is the sheet for a letter's box in the patch.
func (p *Patch) sheet(r rune, b [4]float64, rivals bool) *sheet {
	high := max(b[3]-b[1], 1)
	return sheetFor(r, (b[2]-b[0])/high, p.c.Blur/high, rivals)
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
			likes = append(likes, printed(f, aspect, width, blur))
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

// printed draws a shape of the given width in the middle of a box of the given aspect.
func printed(f *faces.Shape, aspect, width, blur float64) [gridN]float32 {
	stepX, stepY := (aspect+2*marginX)/gridX, (1+2*marginY)/gridY
	var g [gridN]float64
	perX := float64(f.Cols) / width * faces.Fine
	perY := float64(faces.CapRows * faces.Fine)
	for j := range gridY {
		y0 := float64(float64(j)*stepY) - marginY
		for i := range gridX {
			x0 := float64(float64(i)*stepX) - marginX - float64((aspect-width)/2)
			cover := f.Coverage(round(x0*perX), round(y0*perY), round((x0+stepX)*perX), round((y0+stepY)*perY))
			g[j*gridX+i] = float64(cover) / faces.FullCover
		}
	}
	smooth(&g, blur/stepX, blur/stepY)
	mean, norm := 0.0, 0.0
	for _, v := range g {
		mean += float64(v / gridN)
	}
	for _, v := range g {
		norm += float64((v - mean) * (v - mean))
	}
	norm = max(math.Sqrt(norm), 1e-9)
	var out [gridN]float32
	for i, v := range g {
		out[i] = float32((v - mean) / norm)
	}
	return out
}

func round(v float64) int { return int(math.Floor(float64(v) + 0.5)) }

// smooth blurs by Gaussians of the given standard deviations, in samples; nothing lies outside.
func smooth(g *[gridN]float64, sx, sy float64) {
	kx, ky := bell(sx), bell(sy)
	var h [gridN]float64
	for j := range gridY {
		for i := range gridX {
			for d, k := range kx {
				if x := i + d - len(kx)/2; x >= 0 && x < gridX {
					h[j*gridX+i] += float64(k * g[j*gridX+x])
				}
			}
		}
	}
	*g = [gridN]float64{}
	for j := range gridY {
		for i := range gridX {
			for d, k := range ky {
				if y := j + d - len(ky)/2; y >= 0 && y < gridY {
					g[j*gridX+i] += float64(k * h[y*gridX+i])
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

// shape is the correlation with sign i as printed, in the face that is nearest; −1 where it is in none.
func (s *sheet) shape(i int, win *[gridN]float32) float64 {
	best := -1.0
	if i < len(s.likes) {
		for k := range s.likes[i] {
			best = max(best, float64(dot(win, &s.likes[i][k]))/math.Sqrt(gridN))
		}
	}
	return best
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
