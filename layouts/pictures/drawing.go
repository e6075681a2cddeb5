package pictures

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/draw"
	"io"
	"math"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"

	"everyseat/layouts/paper"
)

// A drawing is made once and written twice, as PNG and as SVG, so that both
// show the same. Units are pixels of the PNG, from the top left corner.
type drawing struct {
	width, height float64
	shapes        []shape
}

// spot is a place in a drawing, or a way from one to another.
type spot struct{ x, y float64 }

func (p spot) to(q spot) spot { return spot{q.x - p.x, q.y - p.y} }

// along is p moved so many times a way.
func (p spot) along(way spot, times float64) spot {
	return spot{p.x + float64(way.x*times), p.y + float64(way.y*times)}
}

// toward is the place a part of the way from p to q.
func (p spot) toward(q spot, part float64) spot { return p.along(p.to(q), part) }

// unit is a way's direction, one long; nothing of nothing.
func (p spot) unit() spot {
	if h := math.Hypot(p.x, p.y); h > 0 {
		return spot{p.x / h, p.y / h}
	}
	return spot{}
}

func middle(ps []spot) spot {
	var m spot
	for _, p := range ps {
		m = m.along(p, 1/float64(len(ps)))
	}
	return m
}

// extent is a rectangle that grows.
type extent struct{ x0, y0, x1, y1 float64 }

func nothing() extent {
	return extent{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
}

// around is a rectangle about its middle.
func around(m spot, wide, high float64) extent {
	a, b := m.along(spot{wide, high}, -0.5), m.along(spot{wide, high}, 0.5)
	return extent{a.x, a.y, b.x, b.y}
}

func (e *extent) hold(ps ...spot) {
	for _, p := range ps {
		e.x0, e.x1 = math.Min(e.x0, p.x), math.Max(e.x1, p.x)
		e.y0, e.y1 = math.Min(e.y0, p.y), math.Max(e.y1, p.y)
	}
}

// shape is one thing to draw: a line of text, a closed outline, or an open line.
type shape struct {
	points []spot
	open   bool
	fill   *rgb // nil = none
	stroke *rgb // nil = none
	width  float64
	text   *lettering // points[0] is where its anchor stands
	name   string     // what it is, for those who point at it or cannot see it; "" = nothing
}

// anchor is which part of a text stands at its place.
type anchor uint8

const (
	atStart anchor = iota
	atMiddle
	atEnd
)

// lettering is a line of text; its place is on the middle of the capitals' height.
type lettering struct {
	words  string
	size   float64 // pixels an em
	bold   bool
	colour rgb
	anchor anchor
	turn   float64 // radians, clockwise on the page
}

func (d *drawing) add(s shape) { d.shapes = append(d.shapes, s) }

func (d *drawing) area(c rgb, ps ...spot) { d.add(shape{points: ps, fill: &c}) }

func (d *drawing) line(c rgb, width float64, ps ...spot) {
	d.add(shape{points: ps, open: true, stroke: &c, width: width})
}

func (d *drawing) outline(c rgb, width float64, ps ...spot) {
	d.add(shape{points: ps, stroke: &c, width: width})
}

// crossed draws both diagonals of a cell.
func (d *drawing) crossed(c rgb, cell []spot) {
	d.line(c, 1, cell[0], cell[2])
	d.line(c, 1, cell[1], cell[3])
}

// framed is a cell with an edge.
func (d *drawing) framed(cell []spot, fill rgb) {
	d.add(shape{points: inset(cell, 0.5), fill: &fill, stroke: &inkLine, width: 1})
}

func (d *drawing) write(at spot, l lettering) {
	l.words = printable(l.words, l.bold)
	if l.words != "" {
		d.add(shape{points: []spot{at}, text: &l})
	}
}

// rectangle from the top left corner.
func rectangle(x, y, w, h float64) []spot {
	return []spot{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

// circle as a polygon fine enough for its size.
func circle(c spot, r float64) []spot {
	n := max(12, int(r*2))
	ps := make([]spot, n)
	for i := range ps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		ps[i] = c.along(spot{cos, sin}, r)
	}
	return ps
}

// steady drops the last bits of a length, which processors may round each its
// own way, so that what is rounded next falls alike everywhere.
func steady(v float64) float64 { return math.Round(v*1024) / 1024 }

// tenth rounds to a tenth of a pixel, the finest step that both writers show.
func tenth(v float64) float64 { return math.Round(steady(v)*10) / 10 }

// ceil is the next whole pixel.
func ceil(v float64) float64 { return math.Ceil(steady(v)) }

// whole rounds to a pixel.
func whole(v float64) float64 { return math.Round(steady(v)) }

// settle rounds every place, so that no writer sees the last bits of a float.
func (d *drawing) settle() {
	for i := range d.shapes {
		for j, p := range d.shapes[i].points {
			d.shapes[i].points[j] = spot{tenth(p.x), tenth(p.y)}
		}
	}
}

// weightOf is the face that pictures are set in.
func weightOf(bold bool) paper.Weight {
	if bold {
		return paper.Bold
	}
	return paper.Regular
}

// typefaces are both faces as the drawing library reads them.
var typefaces = sync.OnceValue(func() (faces [2]*truetype.Font) {
	for w := range faces {
		f, err := truetype.Parse(paper.Weight(w).File())
		if err != nil {
			panic(fmt.Sprintf("a font does not parse: %v", err))
		}
		faces[w] = f
	}
	return faces
})

// advance is the width of a line, without kerning; size is that of an em.
func advance(words string, bold bool, size float64) float64 {
	return float64(weightOf(bold).Ems(words) * size)
}

func (l *lettering) length() float64 { return advance(l.words, l.bold, l.size) }

// drop is from the middle of the capitals' height to their foot.
func (l *lettering) drop() float64 { return float64(l.size * paper.Capital / 2) }

// printable is words with what the face lacks set as its plain letter where
// there is one, else as "?": never as an empty box.
func printable(words string, bold bool) string {
	w := weightOf(bold)
	var b strings.Builder
	for _, r := range norm.NFC.String(words) {
		switch {
		case unicode.IsControl(r):
			b.WriteByte(' ')
		case w.Has(r):
			b.WriteRune(r)
		default:
			b.WriteString(plain(r, w))
		}
	}
	return strings.TrimSpace(b.String())
}

// plain is r with as many of its marks as the face can draw, or "?".
func plain(r rune, w paper.Weight) string {
	parts := []rune(norm.NFKD.String(string(r)))
	for n := len(parts) - 1; n >= 1; n-- {
		less := []rune(norm.NFC.String(string(parts[:n])))
		if len(less) == 1 && w.Has(less[0]) {
			return string(less)
		}
	}
	return "?"
}

// writePNG writes the drawing as a palette picture.
func (d *drawing) writePNG(w io.Writer) error {
	img := blankPage(int(math.Ceil(d.width)), int(math.Ceil(d.height)))
	d.onto(img)
	// First the colours that were asked for, exact; then those of the edges between them.
	pal := paletteFor(d.colours(), coloursOf(img))
	out := image.NewPaletted(img.Rect, pal.colours())
	pal.paint(out, img)
	return writePaletted(w, out)
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

// colours lists the colours that the drawing asks for, as it does.
func (d *drawing) colours() []rgb {
	out := []rgb{{255, 255, 255}}
	for i := range d.shapes {
		s := &d.shapes[i]
		if s.fill != nil {
			out = append(out, *s.fill)
		}
		if s.stroke != nil {
			out = append(out, *s.stroke)
		}
		if s.text != nil {
			out = append(out, s.text.colour)
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
	left := at.x - float64([...]float64{0, 0.5, 1}[l.anchor]*l.length())
	foot := at.y + l.drop()
	face := p.face(l.size, l.bold)
	if l.turn != 0 {
		p.gg.Push()
		p.gg.RotateAbout(l.turn, at.x, at.y)
		p.gg.SetFontFace(face)
		p.gg.SetColor(l.colour.opaque())
		p.gg.DrawString(l.words, left, foot)
		p.gg.Pop()
		return
	}
	d := font.Drawer{
		Dst:  p.img,
		Src:  image.NewUniform(l.colour.opaque()),
		Face: face,
		Dot:  fixed.Point26_6{X: fixed.Int26_6(math.Round(left * 64)), Y: fixed.Int26_6(math.Round(foot * 64))},
	}
	d.DrawString(l.words)
}

func (p *pen) face(size float64, bold bool) font.Face {
	k := typeKey{size, bold}
	if f, ok := p.fonts[k]; ok {
		return f
	}
	options := truetype.Options{Size: size, DPI: 72, Hinting: font.HintingNone}
	f := truetype.NewFace(typefaces()[weightOf(bold)], &options)
	p.fonts[k] = f
	return f
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

// writeSVG writes the drawing as SVG 1.1; it needs no font file: texts are held
// to the measured length, so that another sans serif takes the same room.
func (d *drawing) writeSVG(w io.Writer, title string) error {
	b := bufio.NewWriter(w)
	fmt.Fprintf(b, `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="%s" height="%s" viewBox="0 0 %[1]s %[2]s" font-family="%[3]s">
<title>%[4]s</title>
<rect width="%[1]s" height="%[2]s" fill="#ffffff"/>
`, num(d.width), num(d.height), "'Noto Sans', 'Helvetica Neue', Arial, sans-serif", escaped(title))
	for i := range d.shapes {
		if s := &d.shapes[i]; s.text != nil {
			svgText(b, s)
		} else {
			svgPath(b, s)
		}
	}
	b.WriteString("</svg>\n")
	return b.Flush()
}

func svgPath(b *bufio.Writer, s *shape) {
	b.WriteString(`<path d="`)
	for i, p := range s.points {
		fmt.Fprintf(b, "%c%s %s", "ML"[min(i, 1)], num(p.x), num(p.y))
	}
	if !s.open {
		b.WriteByte('Z')
	}
	fmt.Fprintf(b, `" fill="%s"`, paint(s.fill))
	if s.stroke != nil {
		fmt.Fprintf(b, ` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, paint(s.stroke), num(s.width))
	}
	if s.name == "" {
		b.WriteString("/>\n")
	} else {
		fmt.Fprintf(b, "><title>%s</title></path>\n", escaped(s.name))
	}
}

func svgText(b *bufio.Writer, s *shape) {
	l, p := s.text, s.points[0]
	y := tenth(p.y + l.drop())
	fmt.Fprintf(b, `<text x="%s" y="%s" font-size="%s" fill="%s"`, num(p.x), num(y), num(l.size), paint(&l.colour))
	if l.bold {
		b.WriteString(` font-weight="bold"`)
	}
	if l.anchor != atStart {
		fmt.Fprintf(b, ` text-anchor="%s"`, [...]string{"start", "middle", "end"}[l.anchor])
	}
	if l.turn != 0 {
		fmt.Fprintf(b, ` transform="rotate(%s %s %s)"`, num(tenth(l.turn*180/math.Pi)), num(p.x), num(p.y))
	}
	if len(l.words) > 2 {
		fmt.Fprintf(b, ` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(tenth(l.length())))
	}
	fmt.Fprintf(b, ">%s</text>\n", escaped(l.words))
}

// num is a number in the fewest signs.
func num(v float64) string {
	if v == 0 {
		return "0" // also for −0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func paint(c *rgb) string {
	if c == nil {
		return "none"
	}
	return c.hex()
}

// escaped is text as XML holds it; what XML cannot hold becomes U+FFFD.
func escaped(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder takes everything
	return b.String()
}
