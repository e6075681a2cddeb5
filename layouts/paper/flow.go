package paper

import (
	"io"
	"strconv"
)

// Flow fills pages from the top: titles, paragraphs, lists and tables follow each other, and what does not fit goes to
// the next page. Lengths are millimetres, type sizes points.
type Flow struct {
	*Document
	Palette   []Swatch // what cells of tables name by number
	Continued string   // what stands at the top of a page that goes on with something
	Y         float64  // the next thing's top
	what      string   // for the footer of this page and the next ones
	before    []string // the footers of the pages that had another one
}

// Type sizes of running paper.
const (
	SizeTitle = 20.0
	SizeHead  = 13.0
	SizeBody  = 10.0
	SizeSmall = 8.5
	SizeLeast = 6.5 // smaller is not printed
)

// NewFlow starts a file with its first page; what is its title, and stands in its footers.
func NewFlow(what string, sheet Sheet, imprint Imprint, palette []Swatch) *Flow {
	f := &Flow{Document: NewDocument(what, sheet, imprint), Palette: palette, what: what}
	f.NewPage()
	return f
}

// NewPage goes on at the top of the next page.
func (f *Flow) NewPage() {
	f.AddPage()
	f.Y = f.Edge + 5
	if f.Flashing != "" {
		f.Boxed("FLASHING", []string{f.Flashing})
	}
	if f.Continued != "" {
		f.Lines(f.Left(), f.Inner(), f.Continued, SizeBody, Bold)
		f.Y += 1.5
	}
}

// FooterFrom gives the pages from the next one on another footer.
func (f *Flow) FooterFrom(what string) {
	for len(f.before) < f.Page() {
		f.before = append(f.before, f.what)
	}
	f.what = what
}

// Need starts a page where less than so much is left of this one.
func (f *Flow) Need(height float64) {
	if f.Y+float64(height) > f.Bottom() {
		f.NewPage()
	}
}

// Finish puts the footers, which know how many pages there are, and writes the file. Errors are those of w.
func (f *Flow) Finish(w io.Writer) error {
	pages := f.Page()
	for n := 1; n <= pages; n++ {
		f.pdf.SetPage(n)
		f.Pen = Pen{pdf: f.pdf}
		// The library leaves out what it believes is set; on this page it may not be.
		f.Fill(White)
		f.Ink(Black)
		f.pdf.SetFontSize(1)
		what := f.what
		if n <= len(f.before) {
			what = f.before[n-1]
		}
		f.Footer(what, pages)
	}
	return f.Write(w)
}

// Title opens the file: what it is, and below it what it is for.
func (f *Flow) Title(text, under string) {
	const least = 13.0 // a longer title goes over several lines
	size := max(Bold.SizeFor(text, f.Inner(), SizeTitle), least)
	for i, line := range Bold.Wrap(text, size, f.Inner()) {
		if i == 0 {
			f.Y += CapHeight(SizeTitle)
		} else {
			f.Y += LineHeight(size)
		}
		f.Text(f.Left(), f.Y, size, Bold, line)
	}
	f.Y += LineHeight(SizeTitle) * 0.35
	if under != "" {
		f.Paragraph(under, 11)
	}
	f.Rule(0.5)
	f.Y += 3
}

// Rule draws a line across, so heavy, and leaves some room below.
func (f *Flow) Rule(width float64) {
	f.Stroke(Black, width)
	f.Line(f.Left(), f.Y+1, f.Right(), f.Y+1)
	f.Y += 2.5
}

// Heading opens a part; it does not stand alone at a page's foot.
func (f *Flow) Heading(title string) {
	f.Need(LineHeight(SizeHead)*1.6 + 6*LineHeight(SizeBody)) // a table's head and some lines stay with it
	f.Y += LineHeight(SizeHead)*1.15 + 1.5
	f.Text(f.Left(), f.Y, Bold.SizeFor(title, f.Inner(), SizeHead), Bold, title)
	f.Y += 2.2
}

// Paragraph is running text over the whole width.
func (f *Flow) Paragraph(text string, size float64) {
	f.Lines(f.Left(), f.Inner(), text, size, Regular)
}

// Lines wraps text from x on.
func (f *Flow) Lines(x, width float64, text string, size float64, w Weight) {
	for _, line := range w.Wrap(text, size, width) {
		f.Need(LineHeight(size))
		f.Y += LineHeight(size)
		f.Text(x, f.Y, size, w, line)
	}
}

// Steps are numbered paragraphs.
func (f *Flow) Steps(size float64, texts ...string) {
	for i, text := range texts {
		f.item(strconv.Itoa(i+1)+".", text, size)
	}
}

// Dashes are paragraphs behind dashes.
func (f *Flow) Dashes(texts ...string) {
	for _, text := range texts {
		f.item("–", text, SizeBody)
	}
}

func (f *Flow) item(mark, text string, size float64) { f.hang(mark, size, text, size, 7, 3, 0.2) }

// Pair is a bold word with its text beside it.
func (f *Flow) Pair(name, text string) { f.PairAt(name, text, SizeBody, 36) }

// PairAt is a pair in another type size, its text so far to the right.
func (f *Flow) PairAt(name, text string, size, indent float64) {
	f.hang(name, Bold.SizeFor(name, indent-2, size), text, size, indent, 4, 0.25)
}

// PairHeight is how high a pair is in running type.
func (f *Flow) PairHeight(text string, indent float64) float64 {
	return (float64(max(1, len(Regular.Wrap(text, SizeBody, f.Inner()-indent)))) + 0.25) * LineHeight(SizeBody)
}

// hang puts text beside a bold mark, as many lines together as are given, and some air of a line's height below.
func (f *Flow) hang(mark string, markSize float64, text string, size, indent float64, together int, air float64) {
	lines := len(Regular.Wrap(text, size, f.Inner()-indent))
	f.Need(LineHeight(size) * float64(max(1, min(lines, together))))
	f.Text(f.Left(), f.Y+LineHeight(size), markSize, Bold, mark)
	if lines == 0 {
		f.Y += LineHeight(size)
	}
	f.Lines(f.Left()+indent, f.Inner()-indent, text, size, Regular)
	f.Y += float64(LineHeight(size) * air)
}

// Boxed puts items into a frame with a heavy left side, which a copier keeps.
func (f *Flow) Boxed(title string, items []string) {
	const size, pad = 9.5, 3.0
	var lines [][]string
	height := pad*2 + LineHeight(SizeBody+1)
	for _, it := range items {
		wrapped := Regular.Wrap(it, size, f.Inner()-2*pad-4-4)
		lines = append(lines, wrapped)
		height += float64(float64(len(wrapped)) * LineHeight(size))
	}
	f.Need(min(height, f.Bottom()-f.Edge-40))
	top, x := f.Y, f.Left()+pad
	y := top + pad*0.6 + LineHeight(SizeBody+1)
	f.Text(x+3, y, SizeBody+1, Bold, title)
	y += 1
	for _, wrapped := range lines {
		f.Text(x+3, y+LineHeight(size), size, Bold, "–")
		y = f.TextLines(x+7, y, size, Regular, wrapped)
	}
	y += pad
	f.Stroke(Black, 0.4)
	f.Box(f.Left(), top, f.Inner(), y-top)
	f.Fill(Black)
	f.Filled(f.Left(), top, 2, y-top)
	f.Y = y + 3
}

// TickSide is the side of a box to tick.
const TickSide = 3.8

// Tick is an empty box with its left middle at (x, y).
func (f *Flow) Tick(x, y float64) {
	f.Stroke(Black, 0.3)
	f.Box(x, y-TickSide/2, TickSide, TickSide)
}

// Blank is a line to write on, with what goes there under it.
func (f *Flow) Blank(x, y, width float64, under string) {
	const size = 7.5
	f.Stroke(Black, 0.25)
	f.Line(x, y, x+width, y)
	f.Text(x, y+LineHeight(size), size, Regular, Regular.Shorten(under, size, width))
}
