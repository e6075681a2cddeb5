package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/say"
)

// packed is up to how many labels a file's pages are compressed: it takes a third off a small file, whose fonts and
// drawings few labels share, and too long for a large one.
const packed = 600

// put takes a file by its name.
type put = func(name string, write func(io.Writer) error) error

// Check says whether the sheets of the plan can be printed, before anything is written:
// paper, labels, cards, and every character. The error is a *seating.Fault.
func Check(b *brief.Brief) error {
	_, err := newPlacards(b)
	if err == nil && b.Plan.Stunt.Print.Bands {
		_, err = newBands(b)
	}
	return err
}

// Placards puts the placards, in files of at most brief.PerFile (then NAME-1, -2 …). What they are the stunt decides:
//
//   - mosaic.Labels: placards-SECTION.pdf for every section that gets cards, labels for the backs of
//     the cards. Each file goes through the section in laying order: before every row a slip that says how
//     many cards of each colour the row takes, then a label for every seat that gets a card.
//   - mosaic.OnStock: placards-COLOUR.pdf for every colour, black print on the cards themselves, in
//     laying order, in jobs of at most 50 sheets with a banner page each.
//   - mosaic.FullColoured: placards-SECTION.pdf, white card flooded on both sides or on one, with
//     the label on the back; such jobs too.
//
// Errors are *seating.Fault for what the stunt asks and cannot be printed.
func Placards(b *brief.Brief, put put) error {
	pl, err := newPlacards(b)
	if err != nil {
		return err
	}
	return pl.files(put)
}

// placards are one of the ways of printing them, ready to be written.
type placards interface{ files(put) error }

func newPlacards(b *brief.Brief) (placards, error) {
	size, err := checkedPaper(b.Plan)
	if err != nil {
		return nil, err
	}
	switch how := b.Plan.Stunt.Print.Placards; how {
	case "", mosaic.Labels:
		grid, err := labelGrid(b.Plan, size)
		if err != nil {
			return nil, err
		}
		return designLabels(b, grid)
	case mosaic.OnStock:
		return newStock(b, size)
	case mosaic.FullColoured:
		return newPrinted(b, size)
	default:
		return nil, fault("print.placards", fmt.Sprintf("one of %s, %s, %s", mosaic.Labels, mosaic.OnStock,
			mosaic.FullColoured), "placards cannot be made as %q", how)
	}
}

// putParts puts a file for every part, numbered where there are several.
func putParts[T any](put put, base string, parts [][]T, write func(part []T, w io.Writer) error) error {
	for i, part := range parts {
		name := base + ".pdf"
		if len(parts) > 1 {
			name = base + "-" + strconv.Itoa(i+1) + ".pdf"
		}
		if err := put(name, func(w io.Writer) error { return write(part, w) }); err != nil {
			return err
		}
	}
	return nil
}

// chunks are parts of at most brief.PerFile.
func chunks[T any](list []T) [][]T { return slices.Collect(slices.Chunk(list, brief.PerFile)) }

// labelSheets are labels on plain or stick-on paper.
type labelSheets struct {
	*labels
	grid paper.Grid
}

func designLabels(b *brief.Brief, grid paper.Grid, notes ...string) (*labelSheets, error) {
	design, fits := startDesign(b, notes...).sized(grid.Width, grid.Height)
	if fits && grid.Height >= leastLabel && grid.Width >= leastLabel {
		return &labelSheets{design, grid}, nil
	}
	cues := say.Count(len(b.Plan.Cues), "cue")
	if b.Plan.Stunt.Print.Grid != nil {
		return nil, fault("print.grid", smallestLabel(b, grid.Width, notes),
			"a placard with %s has no room on a label of %.1f × %.1f mm", cues, grid.Width, grid.Height)
	}
	return nil, fault("print.per_sheet", "fewer placards a sheet, larger paper, or shorter moments (at = …)",
		"a placard with %s has no room at %d a sheet", cues, grid.Places())
}

// leastLabel is the least side of a label, in millimetres, at which an id can be read at arm's length.
const leastLabel = 25.0

// smallestLabel says how large a label must be for what this plan has to say, found by trying in whole millimetres: as
// wide as the stunt's, or where that is too narrow at any height, as wide as half a Letter sheet.
func smallestLabel(b *brief.Brief, width float64, notes []string) string {
	const half, highest = 107, 300
	design := startDesign(b, notes...)
	for _, wide := range []float64{max(width, leastLabel), half} {
		for height := leastLabel; height <= highest; height++ {
			if _, fits := design.sized(wide, height); fits {
				return fmt.Sprintf("no side may be under %g mm; the smallest label that holds everything at %.1f mm "+
					"wide is %g mm high", leastLabel, wide, height)
			}
		}
	}
	return "larger labels, or fewer cues"
}

func (l *labelSheets) files(put put) error {
	for _, rows := range l.brief.Rows {
		name := l.plan.Stands.Sections[rows[0].Section].Name
		if err := putParts(put, "placards-"+seating.FileName(name), brief.Files(rows), l.file); err != nil {
			return err
		}
	}
	return nil
}

// file prints one file of labels, a slip before those of each row: one sheet after the other, or job by job.
func (l *labelSheets) file(rows []brief.Row, w io.Writer) error {
	var pieces []cardSheet
	for i := range rows {
		pieces = append(pieces, cardSheet{row: &rows[i], seat: aSlip})
		for k, kit := range rows[i].Kits {
			if len(kit) > 0 {
				pieces = append(pieces, cardSheet{row: &rows[i], seat: k})
			}
		}
	}
	piece := func(d *paper.Document, x, y float64, f *cardSheet) {
		if f.seat == aSlip {
			l.slip(&d.Pen, x, y, f.row)
		} else {
			l.placard(d, x, y, f.index(), f.kit(), "")
		}
	}
	what := "Placards, section " + l.plan.Stands.Sections[rows[0].Section].Name
	if l.plan.Stunt.Print.WholePile {
		where := "the back of a card of its colour"
		if brief.TwoColoured(l.plan) {
			where = "a card as its row's slip says"
		}
		return l.jobs(w, pieces, where, banner{what: what, colour: -1}, piece)
	}
	d := newDocument(l.brief, what, l.grid.Sheet)
	d.Loose = len(pieces) > packed
	per := l.grid.Places()
	for k := range pieces {
		if k%per == 0 {
			l.startSheet(d, what, (len(pieces)+per-1)/per)
		}
		x, y := l.grid.Place(k % per)
		piece(d, x, y, &pieces[k])
		if l.grid.Peeled { // the sheet has no foot of its own
			l.note(&d.Pen, x, y, "Plan "+string(l.brief.Code))
		}
	}
	return d.Write(w)
}

// jobs prints labels that go where is said, so that a job's pile, cut as a whole, stacks in order; head is what the
// banners of all jobs say.
func (l *labelSheets) jobs(w io.Writer, pieces []cardSheet, where string, head banner,
	print func(d *paper.Document, x, y float64, f *cardSheet)) error {
	d := newDocument(l.brief, head.what, l.grid.Sheet)
	d.Loose = len(pieces) > packed
	jobs := l.grid.Jobs(len(pieces))
	pages := 0
	for _, j := range jobs {
		pages += 1 + j.Sheets
	}
	for _, j := range jobs {
		head.Job, head.load = j, say.Count(j.Sheets, "sheet")+" of white paper"
		if l.grid.Peeled {
			head.load = say.Count(j.Sheets, "sheet") + " of labels"
		}
		head.steps = append([]string{"Print " + pagesFrom(d.Page()+1, j.Sheets) + ": at actual size (100 %), on one " +
			"side."}, pileSteps(&l.grid, &j, "Stick each label on "+where+", and keep this order, with this page on "+
			"top.")...)
		l.banner(d, &head, pieces)
		for sheet := range j.Sheets {
			l.startSheet(d, head.what, pages)
			for place, n := range j.On(sheet) {
				x, y := l.grid.Place(place)
				print(d, x, y, &pieces[n])
				l.note(&d.Pen, x, y, j.Where(sheet, place))
			}
		}
	}
	return d.Write(w)
}

// startSheet draws what a page has besides its labels: where to cut, and the footer. A sheet of stick-on
// labels has none of it.
func (l *labelSheets) startSheet(d *paper.Document, what string, pages int) {
	d.AddPage()
	if !l.grid.Peeled {
		d.CutLines(&l.grid)
		d.Footer(what, pages)
	}
}

// cardSheet is a piece of a job: a label, a row's slip, or one sheet of one card as it is printed: all of a card of
// one colour, or a side of a card of two.
type cardSheet struct {
	row     *brief.Row
	seat    int // index in row.Seats, or aSlip
	card    int16
	side    int8 // that shows the sheet's colour
	nth, of int  // of the seat's cards
	spare   bool // a spare of a row's section, and card is its colour
}

const aSlip = -1

// index is the seat's among all seats, kit its cards.
func (f *cardSheet) index() int   { return int(f.row.Seats[f.seat]) }
func (f *cardSheet) kit() []int16 { return f.row.Kits[f.seat] }

// banner is the page before a job: what to load, what to print on it, what to do with the pile.
type banner struct {
	paper.Job
	what   string // for the footer
	load   string
	under  string // a line below
	colour int16  // of the cards; −1 = of several
	steps  []string
}

// banner prints the page before a job of these pieces.
func (l *labels) banner(d *paper.Document, b *banner, pieces []cardSheet) {
	const body = 12.0
	p := d.AddPage()
	left, inner := d.Left(), d.Inner()
	if b.colour >= 0 {
		side := min(inner*0.14, 30)
		p.Swatch(left+inner-side, edgeMargin+4, side, side, l.palette[b.colour])
	}
	y := edgeMargin + 4 + paper.CapHeight(34)
	title := fmt.Sprintf("JOB %d OF %d", b.Number, b.Of)
	p.Text(left, y, bold.SizeFor(title, inner*0.8, 34), bold, title)
	load := "Load " + b.load
	y += 6 + paper.CapHeight(30)
	p.Text(left, y, bold.SizeFor(load, inner*0.82, 30), bold, load)
	y += 4
	y = p.TextLines(left, y, body, regular, regular.Wrap(b.under, body, inner)) + 3
	for i, step := range b.steps {
		y += 1.5
		p.Text(left, y+paper.LineHeight(body), body, bold, strconv.Itoa(i+1)+".")
		y = p.TextLines(left+8, y, body, regular, regular.Wrap(step, body, inner-8))
	}
	y += 4
	if l.plan.Flashing != "" { // no pile goes without it
		y = p.TextLines(left, y, 10, bold, bold.Wrap("FLASHING: "+l.plan.Flashing, 10, inner)) + 3
	}
	words := "Check: this job has for each row: " + rowCounts(l.plan, pieces[b.First:b.First+b.Count]) + "."
	room := d.Height - footerMargin - 2 - y
	size, lines := largest(words, 11, 5, inner, room)
	p.TextLines(left, y, size, regular, lines[:min(len(lines), int(room/paper.LineHeight(size)))])
	page := fmt.Sprintf("Plan %s, page %d", l.brief.Code, d.Page())
	foot := d.Height - footerMargin + 6.5
	p.TextRight(left+inner, foot, 8, regular, page)
	p.Text(left, foot, 8, regular,
		regular.Shorten(b.what+". "+l.plan.Stunt.Title, 8, inner-regular.Width(8, page)-5))
}

// largest sets words as large as they fit into so much room, in points from most down to least.
func largest(words string, most, least, width, room float64) (size float64, lines []string) {
	for size = most; ; size -= 0.5 {
		lines = regular.Wrap(words, size, width)
		if float64(len(lines))*paper.LineHeight(size) <= room || size <= least {
			return size, lines
		}
	}
}

// rowCounts says how many pieces of each row there are, slips not counted: "B-1 14, B-2 13".
func rowCounts(p *mosaic.Plan, pieces []cardSheet) string {
	pieces = slices.DeleteFunc(slices.Clone(pieces), func(f cardSheet) bool { return f.seat == aSlip })
	var parts []string
	together := func(a, b cardSheet) bool { return a.row == b.row && a.spare == b.spare }
	for _, row := range brief.Stretches(pieces, together) {
		name := row[0].row.Name
		if row[0].spare {
			name = "spares of section " + p.Stands.Sections[row[0].row.Section].Name
		}
		parts = append(parts, name+glue+strconv.Itoa(len(row)))
	}
	return strings.Join(parts, ", ")
}

// pagesFrom names the pages of a job after its banner.
func pagesFrom(page, n int) string {
	if n == 1 {
		return "page " + strconv.Itoa(page+1)
	}
	return fmt.Sprintf("pages %d to %d", page+1, page+n)
}

const keepPile = "Keep the pile in its order, with this page on top."

// pileSteps say how the printed pile is cut and stacked, but where a sheet is one piece; then come others.
func pileSteps(g *paper.Grid, j *paper.Job, then ...string) []string {
	if g.Places() == 1 || g.Peeled {
		return then
	}
	return append([]string{
		"Knock the pile square, sheet 1 on top and print up, and cut it as a whole along the marks.",
		fmt.Sprintf("Stack the %s that this gives: pile 1 on top of pile 2, and so on; each piece says its pile. Now "+
			"everything lies in order.", say.Count(j.Piles(), "pile")),
	}, then...)
}
