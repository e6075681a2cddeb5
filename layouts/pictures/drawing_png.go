package pictures

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"io"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// writePNG writes the drawing as a palette picture.
func (d *drawing) writePNG(w io.Writer) error {
	img := blankPage(int(math.Ceil(d.width)), int(math.Ceil(d.height)))
	d.onto(img)
	return writePaletted(w, reduce(img, d.colours()))
}

func blankPage(wide, high int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	return img
}

// onto draws on a picture.
func (d *drawing) onto(img *image.RGBA) {
	p := &pen{img: img, gg: gg.NewContextForRGBA(img), fonts: map[typeKey]font.Face{}}
	for i := range d.shapes {
		if s := &d.shapes[i]; s.text != nil {
			p.text(s)
		} else {
			p.path(s)
		}
	}
}

// colours lists the colours that the drawing asks for, the first use first.
func (d *drawing) colours() []rgb {
	out := []rgb{{255, 255, 255}}
	seen := map[rgb]bool{out[0]: true}
	note := func(c *rgb) {
		if c != nil && !seen[*c] {
			seen[*c] = true
			out = append(out, *c)
		}
	}
	for i := range d.shapes {
		s := &d.shapes[i]
		note(s.fill)
		note(s.stroke)
		if s.text != nil {
			note(&s.text.colour)
		}
	}
	return out
}

type typeKey struct {
	size float64
	bold bool
}

// pen draws shapes on an RGBA picture.
type pen struct {
	img   *image.RGBA
	gg    *gg.Context
	fonts map[typeKey]font.Face
}

func (p *pen) path(s *shape) {
	if s.fill != nil && s.stroke == nil && p.block(s) {
		return
	}
	for i, q := range s.points {
		if i == 0 {
			p.gg.MoveTo(q.x, q.y)
		} else {
			p.gg.LineTo(q.x, q.y)
		}
	}
	if !s.open {
		p.gg.ClosePath()
	}
	if s.fill != nil {
		p.gg.SetColor(s.fill.opaque())
		if s.stroke == nil {
			p.gg.Fill()
			return
		}
		p.gg.FillPreserve()
	}
	p.gg.SetColor(s.stroke.opaque())
	p.gg.SetLineWidth(s.width)
	p.gg.Stroke()
}

// block fills a rectangle of whole pixels, the shape of most seats; false when s is none.
func (p *pen) block(s *shape) bool {
	if len(s.points) != 4 {
		return false
	}
	a, c := s.points[0], s.points[2]
	for i, q := range s.points {
		if q.x != math.Trunc(q.x) || q.y != math.Trunc(q.y) {
			return false
		}
		// The corners of an upright rectangle take turns in x and y.
		atX, atY := q.x == a.x, q.y == a.y
		if i == 2 && (atX || atY) || i%2 == 1 && atX == atY || i%2 == 1 && (!atX && q.x != c.x || !atY && q.y != c.y) {
			return false
		}
	}
	r := image.Rect(int(a.x), int(a.y), int(c.x), int(c.y))
	draw.Draw(p.img, r, image.NewUniform(s.fill.opaque()), image.Point{}, draw.Src)
	return true
}

func (p *pen) text(s *shape) {
	l, at := s.text, s.points[0]
	shift := [...]float64{0, 0.5, 1}[l.anchor] * l.length()
	face := p.face(l.size, l.bold)
	if l.turn != 0 {
		p.gg.Push()
		p.gg.RotateAbout(l.turn, at.x, at.y)
		p.gg.SetFontFace(face)
		p.gg.SetColor(l.colour.opaque())
		p.gg.DrawString(l.words, at.x-shift, at.y+l.size*capital/2)
		p.gg.Pop()
		return
	}
	d := font.Drawer{
		Dst:  p.img,
		Src:  image.NewUniform(l.colour.opaque()),
		Face: face,
		Dot: fixed.Point26_6{
			X: fixed.Int26_6(math.Round((at.x - shift) * 64)),
			Y: fixed.Int26_6(math.Round((at.y + l.size*capital/2) * 64)),
		},
	}
	d.DrawString(l.words)
}

func (p *pen) face(size float64, bold bool) font.Face {
	k := typeKey{size, bold}
	if f, ok := p.fonts[k]; ok {
		return f
	}
	f := truetype.NewFace(faceOf(bold), &truetype.Options{Size: size, DPI: 72, Hinting: font.HintingNone})
	p.fonts[k] = f
	return f
}

func (c rgb) opaque() color.RGBA { return color.RGBA{c[0], c[1], c[2], 255} }

// reduce gives img a palette: first the colours that were asked for, exact;
// then those of the edges between them, the frequent ones first.
func reduce(img *image.RGBA, first []rgb) *image.Paletted {
	pal := paletteFor(first, coloursOf(img))
	out := image.NewPaletted(img.Rect, pal.colours())
	pal.paint(out, img)
	return out
}

// paletteFor has the first colours, and of the others the most used for which there is room.
func paletteFor(first []rgb, uses map[rgb]int) *palette {
	pal := newPalette(first[0])
	for _, c := range first[1:] {
		pal.of(c)
	}
	for _, c := range frequent(uses) {
		if len(pal.entries) == maxColours {
			break
		}
		pal.of(c)
	}
	return pal
}

// paint fills the top left of out with img in the palette's nearest colours.
func (p *palette) paint(out *image.Paletted, img *image.RGBA) {
	known := map[uint32]uint8{}
	var before, to []byte
	for y := range img.Rect.Dy() {
		line, done := lineOf(img, y), to
		to = out.Pix[y*out.Stride:][:img.Rect.Dx()]
		if y > 0 && bytes.Equal(line, before) {
			copy(to, done)
			continue
		}
		before = line
		for x := 0; x < len(to); {
			c := pixel(line[4*x:])
			at, ok := known[c]
			if !ok {
				at = p.of(unpacked(c))
				known[c] = at
			}
			for ; x < len(to) && pixel(line[4*x:]) == c; x++ {
				to[x] = at
			}
		}
	}
}

// copyInto copies a picture to a place of out, its entries shown as these colours.
func (p *palette) copyInto(out *image.Paletted, at image.Point, img *image.Paletted, as []rgb) {
	var entry [maxColours]uint8
	for k, c := range as {
		entry[k] = p.of(c)
	}
	for y := range img.Rect.Dy() {
		from, to := img.Pix[y*img.Stride:][:img.Rect.Dx()], out.Pix[(at.Y+y)*out.Stride+at.X:]
		for x, k := range from {
			to[x] = entry[k]
		}
	}
}
