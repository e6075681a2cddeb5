// Package paper is what printed sheets stand on: type and its measuring, for pictures too, a pen, files of pages with
// their footers, pages that fill from the top, and pieces that are cut out of a sheet. It knows no plan. Start with
// NewFlow for running text and tables, and with NewDocument for everything that is placed by hand.
//
// Lengths are millimetres from the top left corner of the page, type sizes are points. The same drawing gives the same
// bytes.
package paper

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"github.com/jung-kurt/gofpdf"
)

// Sheet is a sheet of paper as it lies, in millimetres.
type Sheet struct {
	Width, Height float64
	Edge          float64 // what stays white at every edge
	Foot          float64 // what only the footer uses, at the lower edge
}

// Pad is from a cut, or from what stays white, to the print, in millimetres.
const Pad = 3.5

// Turned is the sheet on its side.
func (s Sheet) Turned() Sheet {
	s.Width, s.Height = s.Height, s.Width
	return s
}

// Left is where running text begins, Right where it ends, Inner how wide it is.
func (s Sheet) Left() float64  { return s.Edge + Pad }
func (s Sheet) Right() float64 { return s.Width - s.Edge - Pad }
func (s Sheet) Inner() float64 { return s.Right() - s.Left() }

// Bottom is where a page's text ends, above the footer.
func (s Sheet) Bottom() float64 { return s.Height - s.Foot - 1 }

// printDate stands in every file, so that the same plan gives the same bytes.
var printDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// Imprint is what the footers of a file say besides the page: what it belongs to.
type Imprint struct {
	Plan     string // its code
	Stunt    string // its title; "" = none
	Flashing string // a warning that no page goes without; "" = none
}

// Document is one PDF file on its way, its pages of one size. It draws on its last page.
type Document struct {
	Sheet
	Pen
	Imprint
	Loose  bool // not compressed: for a large file that would take too long
	stamps map[string]*Stamp
}

// NewDocument starts a file; its first page is added by AddPage.
func NewDocument(title string, sheet Sheet, imprint Imprint) *Document {
	pdf := gofpdf.NewCustom(&gofpdf.InitType{
		OrientationStr: "P", // the size is given as it lies
		UnitStr:        "mm",
		Size:           gofpdf.SizeType{Wd: sheet.Width, Ht: sheet.Height},
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
	for w, style := range styles {
		// The library writes into the bytes it is given.
		pdf.AddUTF8FontFromBytes(family, style, bytes.Clone(Weight(w).File()))
	}
	return &Document{Sheet: sheet, Pen: Pen{pdf: pdf}, Imprint: imprint, stamps: map[string]*Stamp{}}
}

// AddPage starts the next page and gives the pen for it, with black ink.
func (d *Document) AddPage() *Pen {
	d.pdf.AddPage()
	d.Pen = Pen{pdf: d.pdf}
	d.Ink(Black)
	return &d.Pen
}

// BackPage adds the page that a printer puts on the back of the one before. What is drawn is what one sees who turns
// the sheet like a page of a book, its left and right changed; where the printer turns the sheet the other way, the
// page stands on its head.
func (d *Document) BackPage(shortEdge bool, draw func(*Pen)) {
	p := d.AddPage()
	if upright := d.Width <= d.Height; upright != shortEdge {
		draw(p)
		return
	}
	d.pdf.TransformBegin()
	d.pdf.TransformRotate(180, d.Width/2, d.Height/2)
	draw(p)
	d.pdf.TransformEnd()
}

// Page is the number of the last page, from 1; 0 before the first one.
func (d *Document) Page() int { return d.pdf.PageNo() }

// Footer says what the present page is, and what it belongs to.
func (d *Document) Footer(what string, pages int) {
	const size = 8.0
	y := d.Height - d.Foot + 6.5
	page := fmt.Sprintf("Plan %s, page %d of %d", d.Plan, d.Page(), pages)
	d.TextRight(d.Right(), y, size, Regular, page)
	if d.Stunt != "" {
		what += ". " + d.Stunt
	}
	d.Text(d.Left(), y, size, Regular, Regular.Shorten(what, size, d.Inner()-Regular.Width(size, page)-5))
	if d.Flashing != "" {
		words := "FLASHING: " + d.Flashing
		small := max(Bold.SizeFor(words, d.Inner(), 7.5), 5)
		d.Text(d.Left(), y-3.3, small, Bold, Bold.Shorten(words, small, d.Inner()))
	}
}

// Write finishes the file. Errors are those of w.
func (d *Document) Write(w io.Writer) error {
	if d.Loose {
		return d.pdf.Output(w)
	}
	var file bytes.Buffer
	if err := d.pdf.Output(&file); err != nil {
		return err
	}
	return pack(w, file.Bytes())
}

// Stamp is a drawing that the file holds once and shows many times.
type Stamp struct {
	drawing       gofpdf.Template
	id            string // "" until it was shown once
	width, height float64
}

// Stamp makes the drawing of this name, so wide and high, at its first call. A page must have been added.
func (d *Document) Stamp(name string, width, height float64, draw func(*Pen)) *Stamp {
	if s := d.stamps[name]; s != nil {
		return s
	}
	s := &Stamp{width: width, height: height}
	size := gofpdf.SizeType{Wd: width, Ht: height}
	s.drawing = d.pdf.CreateTemplateCustom(gofpdf.PointType{}, size, func(t *gofpdf.Tpl) { draw(&Pen{pdf: &t.Fpdf}) })
	d.stamps[name] = s
	return s
}

// Show puts a stamp with its top left corner at (x, y) on the present page.
func (d *Document) Show(s *Stamp, x, y float64) {
	if s.id == "" { // the library makes it a resource of the file, slowly; once is enough
		d.pdf.UseTemplateScaled(s.drawing, gofpdf.PointType{X: x, Y: y}, gofpdf.SizeType{Wd: s.width, Ht: s.height})
		s.id = s.drawing.ID()
		return
	}
	left, foot := points(x*PointsPerMM), points((d.Height-y-s.height)*PointsPerMM)
	d.pdf.RawWriteStr("q 1 0 0 1 " + left + " " + foot + " cm /TPL" + s.id + " Do Q")
}

// points is a length with at most two digits behind the point, as the library writes it.
func points(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64) // −0 is 0
}
