package faces

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Typeface is one of the Go typefaces.
type Typeface struct {
	Name   string
	nought int // width of 0 beside O, percent
	ttf    []byte
	once   sync.Once
	font   *sfnt.Font
	cap    fixed.Int26_6
	shapes Memo[rune, *Shape]
}

// The typefaces.
var (
	Bold   = &Typeface{Name: "Go Bold", nought: 84, ttf: gobold.TTF}
	Medium = &Typeface{Name: "Go Medium", nought: 84, ttf: gomedium.TTF}
	Mono   = &Typeface{Name: "Go Mono Bold", nought: 92, ttf: gomonobold.TTF}
)

const ppem = fixed.Int26_6(2048 << 6)

func (t *Typeface) open() {
	f, err := sfnt.Parse(t.ttf)
	if err != nil {
		panic("faces: embedded typeface: " + err.Error())
	}
	t.font = f
	t.shapes.Half = 256
	var buf sfnt.Buffer
	gi, _ := f.GlyphIndex(&buf, 'H')
	b, _, err := f.GlyphBounds(&buf, gi, ppem, font.HintingNone)
	if err != nil {
		panic("faces: embedded typeface: " + err.Error())
	}
	t.cap = -b.Min.Y
}

// Shape is the letter's shape, or nil where the typeface has no such letter.
func (t *Typeface) Shape(r rune) *Shape {
	t.once.Do(t.open)
	return t.shapes.Of(r, func() *Shape { return t.draw(r) })
}

func (t *Typeface) draw(r rune) *Shape {
	var buf sfnt.Buffer
	squeeze := 100
	if r == '0' { // the typeface's own is slashed, which seats make a blot of
		r, squeeze = 'O', t.nought
	}
	gi, err := t.font.GlyphIndex(&buf, r)
	if err != nil || gi == 0 {
		return nil
	}
	segs, err := t.font.LoadGlyph(&buf, gi, ppem, nil)
	if err != nil || len(segs) == 0 {
		return nil
	}
	left, right := segs.Bounds().Min.X, segs.Bounds().Max.X
	scale := func(p fixed.Point26_6) point {
		return point{
			int(int64(p.X-left) * CapRows * 256 * int64(squeeze) / int64(100*t.cap)),
			int(int64(p.Y+t.cap) * CapRows * 256 / int64(t.cap)),
		}
	}
	var polys [][]point
	var pen point
	for _, s := range segs {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			pen = scale(s.Args[0])
			polys = append(polys, []point{pen})
		case sfnt.SegmentOpLineTo:
			pen = scale(s.Args[0])
			polys[len(polys)-1] = append(polys[len(polys)-1], pen)
		case sfnt.SegmentOpQuadTo:
			c, e := scale(s.Args[0]), scale(s.Args[1])
			polys[len(polys)-1] = append(polys[len(polys)-1], bend(pen, c, e)...)
			pen = e
		}
	}
	cols := int((int64(right-left)*CapRows*int64(squeeze)/100 + int64(t.cap)/2) / int64(t.cap))
	return raster(polys, max(cols, 1))
}

// bend flattens a quadratic curve, without its first point.
func bend(a, c, b point) []point {
	const n = 8
	out := make([]point, 0, n)
	for i := 1; i <= n; i++ {
		j := n - i
		out = append(out, point{
			(a.x*j*j + 2*c.x*i*j + b.x*i*i) / (n * n),
			(a.y*j*j + 2*c.y*i*j + b.y*i*i) / (n * n),
		})
	}
	return out
}
