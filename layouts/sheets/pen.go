package sheets

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/jung-kurt/gofpdf"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
)

// pointsPerMM turns millimetres into points: a point is 1/72 in.
const pointsPerMM = 72 / 25.4

// capHeight and ascent are parts of the size (Noto Sans: cap height 714/1000).
const capHeight = 0.714

// printDate stands in every file, so that the same plan gives the same bytes.
var printDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// document is one PDF file on its way. Lengths are millimetres from the top left corner
// of the page, type sizes are points.
type document struct {
	pdf           *gofpdf.Fpdf
	width, height float64
	stamps        map[string]*stamp
	page          pen
	packed        bool // compressed; a large file takes too long
}

// stamp is a drawing that the file holds once and shows many times.
type stamp struct {
	drawing       gofpdf.Template
	id            string // "" until it was shown once
	width, height float64
}

// newDocument starts a file with pages of one size.
func newDocument(title string, width, height float64) *document {
	pdf := gofpdf.NewCustom(&gofpdf.InitType{
		OrientationStr: "P", // the size is given as it lies
		UnitStr:        "mm",
		Size:           gofpdf.SizeType{Wd: width, Ht: height},
	})
	pdf.SetCompression(false) // see pack
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(printDate)
	pdf.SetModificationDate(printDate)
	pdf.SetProducer("everyseat", true)
	pdf.SetCreator("everyseat", true)
	pdf.SetTitle(title, true)
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	for w, style := range [...]string{regular: "", bold: "B"} {
		// The library writes into the bytes it is given.
		pdf.AddUTF8FontFromBytes("noto", style, bytes.Clone(faces()[w].file))
	}
	return &document{pdf: pdf, width: width, height: height, stamps: map[string]*stamp{}, packed: true}
}

// addPage starts the next page and gives the pen for it.
func (d *document) addPage() *pen {
	d.pdf.AddPage()
	d.page = pen{pdf: d.pdf}
	return &d.page
}

// footer says what the page is, of which stunt and of which plan.
func (d *document) footer(p *mosaic.Plan, what string, pages int) {
	const size = 8.0
	y := d.height - footerMargin + 6.5
	left, right := edgeMargin+labelPad, d.width-edgeMargin-labelPad
	page := fmt.Sprintf("Plan %s, page %d of %d", p.Code, d.pdf.PageNo(), pages)
	d.page.textRight(right, y, size, regular, page)
	if p.Stunt.Title != "" {
		what += ". " + p.Stunt.Title
	}
	room := right - left - textWidth(size, regular, page) - 5
	d.page.text(left, y, size, regular, shortenText(what, size, regular, room))
	if p.Flashing != "" { // no sheet goes without it
		words := "FLASHING: " + p.Flashing
		small := max(sizeFor(words, bold, right-left, 7.5), 5)
		d.page.text(left, y-3.3, small, bold, shortenText(words, small, bold, right-left))
	}
}

// write finishes the file.
func (d *document) write(w io.Writer) error {
	if !d.packed {
		return d.pdf.Output(w)
	}
	var file bytes.Buffer
	if err := d.pdf.Output(&file); err != nil {
		return err
	}
	return pack(w, file.Bytes())
}

// stamp makes the drawing of this name at its first call. A page must have been added.
func (d *document) stamp(name string, width, height float64, draw func(*pen)) *stamp {
	if s := d.stamps[name]; s != nil {
		return s
	}
	s := &stamp{width: width, height: height}
	s.drawing = d.pdf.CreateTemplateCustom(gofpdf.PointType{}, gofpdf.SizeType{Wd: width, Ht: height}, func(t *gofpdf.Tpl) {
		draw(&pen{pdf: &t.Fpdf})
	})
	d.stamps[name] = s
	return s
}

// show puts a stamp with its top left corner at (x, y) on the present page.
func (d *document) show(s *stamp, x, y float64) {
	if s.id == "" { // the library makes it a resource of the file, slowly; once is enough
		d.pdf.UseTemplateScaled(s.drawing, gofpdf.PointType{X: x, Y: y}, gofpdf.SizeType{Wd: s.width, Ht: s.height})
		s.id = s.drawing.ID()
		return
	}
	b := make([]byte, 0, 96)
	b = append(b, "q 1 0 0 1 "...)
	b = appendPoints(b, x*pointsPerMM)
	b = append(b, ' ')
	b = appendPoints(b, (d.height-y-s.height)*pointsPerMM)
	b = append(b, " cm /TPL"...)
	b = append(b, s.id...)
	b = append(b, " Do Q"...)
	d.pdf.RawWriteStr(string(b))
}

// appendPoints writes v with two digits, as the library does.
func appendPoints(b []byte, v float64) []byte {
	n := int64(math.Round(v * 100))
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	b = appendInt(b, n/100)
	if n %= 100; n != 0 {
		b = append(b, '.', byte('0'+n/10))
		if n%10 != 0 {
			b = append(b, byte('0'+n%10))
		}
	}
	return b
}

func appendInt(b []byte, n int64) []byte {
	if n >= 10 {
		b = appendInt(b, n/10)
	}
	return append(b, byte('0'+n%10))
}

// pen draws on a page or on a stamp.
type pen struct {
	pdf    *gofpdf.Fpdf
	weight weight
	size   float64
}

// black is the ink of everything that must survive a copier.
var (
	black = colour.RGB{0, 0, 0}
	white = colour.RGB{255, 255, 255}
	grey  = colour.RGB{110, 110, 110}
)

// text puts s with its baseline at y, from x to the right.
func (p *pen) text(x, y, size float64, w weight, s string) {
	if s == "" {
		return
	}
	if p.size != size || p.weight != w {
		p.pdf.SetFont("noto", [...]string{regular: "", bold: "B"}[w], size)
		p.size, p.weight = size, w
	}
	p.pdf.Text(x, y, composed(s))
}

// textRight ends at x, textMiddle has its middle there.
func (p *pen) textRight(x, y, size float64, w weight, s string) {
	p.text(x-textWidth(size, w, s), y, size, w, s)
}

func (p *pen) textMiddle(x, y, size float64, w weight, s string) {
	p.text(x-textWidth(size, w, s)/2, y, size, w, s)
}

// textWidth is in millimetres.
func textWidth(size float64, w weight, s string) float64 {
	return faces()[w].measure(composed(s)) * size / pointsPerMM
}

// lineHeight is from baseline to baseline in running text, in millimetres.
func lineHeight(size float64) float64 { return size * 1.25 / pointsPerMM }

// capMM is the height of capitals in millimetres.
func capMM(size float64) float64 { return size * capHeight / pointsPerMM }

// sizeFor is the largest size, at most most, at which s is at most width wide.
func sizeFor(s string, w weight, width, most float64) float64 {
	at1 := textWidth(1, w, s)
	if at1*most <= width {
		return most
	}
	return math.Floor(width/at1*10) / 10
}

func wrapText(s string, size float64, w weight, width float64) []string {
	return faces()[w].wrap(composed(s), size, width*pointsPerMM)
}

func shortenText(s string, size float64, w weight, width float64) string {
	return faces()[w].shorten(composed(strings.ReplaceAll(s, "\n", " / ")), size, width*pointsPerMM)
}

func (p *pen) inkColour(c colour.RGB)  { p.pdf.SetTextColor(int(c[0]), int(c[1]), int(c[2])) }
func (p *pen) fillColour(c colour.RGB) { p.pdf.SetFillColor(int(c[0]), int(c[1]), int(c[2])) }
func (p *pen) lineColour(c colour.RGB) { p.pdf.SetDrawColor(int(c[0]), int(c[1]), int(c[2])) }
func (p *pen) lineWidth(mm float64)    { p.pdf.SetLineWidth(mm) }

func (p *pen) line(x1, y1, x2, y2 float64) { p.pdf.Line(x1, y1, x2, y2) }
func (p *pen) box(x, y, w, h float64)      { p.pdf.Rect(x, y, w, h, "D") }
func (p *pen) filled(x, y, w, h float64)   { p.pdf.Rect(x, y, w, h, "F") }

// plate is a filled square with a border.
func (p *pen) plate(x, y, side float64) { p.pdf.Rect(x, y, side, side, "FD") }

func (p *pen) polygon(style string, points ...[2]float64) {
	list := make([]gofpdf.PointType, len(points))
	for i, q := range points {
		list[i] = gofpdf.PointType{X: q[0], Y: q[1]}
	}
	p.pdf.Polygon(list, style)
}

func (p *pen) dashed(on, off float64) { p.pdf.SetDashPattern([]float64{on, off}, 0) }
func (p *pen) solid()                 { p.pdf.SetDashPattern(nil, 0) }

// inside limits what draw does to the rectangle.
func (p *pen) inside(x, y, w, h float64, draw func()) {
	p.pdf.ClipRect(x, y, w, h, false)
	draw()
	p.pdf.ClipEnd()
}
