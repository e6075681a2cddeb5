package sheets

import (
	"fmt"
	"io"
	"strconv"

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
	p := b.Plan
	if err := checkType(p); err != nil {
		return err
	}
	if _, err := newPlacards(b); err != nil {
		return err
	}
	if p.Stunt.Print.Bands {
		_, err := newBands(b)
		return err
	}
	return nil
}

// Placards puts the placards, in files of at most brief.PerFile (then NAME-1, -2 …). What they are the
// stunt decides:
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
	if err := checkType(b.Plan); err != nil {
		return err
	}
	pl, err := newPlacards(b)
	if err != nil {
		return err
	}
	return pl.files(put)
}

// placards are one of the ways of printing them, ready to be written.
type placards interface {
	files(put) error
}

func newPlacards(b *brief.Brief) (placards, error) {
	p := b.Plan
	size, err := mosaic.LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return nil, err
	}
	switch p.Stunt.Print.Placards {
	case "", mosaic.Labels:
		return newLabels(b, size)
	case mosaic.OnStock:
		return newStock(b, size)
	case mosaic.FullColoured:
		return newPrinted(b, size)
	}
	return nil, &seating.Fault{Key: "print.placards", What: fmt.Sprintf("placards cannot be made as %q",
		p.Stunt.Print.Placards),
		Hint: fmt.Sprintf("one of %s, %s, %s", mosaic.Labels, mosaic.OnStock, mosaic.FullColoured)}
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

// labelSheets are labels on plain or stick-on paper.
type labelSheets struct {
	*labels
	grid paper.Grid
}

func newLabels(b *brief.Brief, size mosaic.PaperSize) (*labelSheets, error) {
	grid, err := labelGrid(b.Plan, size)
	if err != nil {
		return nil, err
	}
	return designLabels(b, grid)
}

// designLabels fits the words on labels that lie so on a sheet.
func designLabels(b *brief.Brief, grid paper.Grid, notes ...string) (*labelSheets, error) {
	p := b.Plan
	l := &labelSheets{grid: grid}
	fits := false
	if l.labels, fits = newDesign(b, grid.Width, grid.Height, notes...); fits && grid.Height >= leastLabel &&
		grid.Width >= leastLabel {
		return l, nil
	}
	fault := &seating.Fault{Key: "print.per_sheet",
		What: fmt.Sprintf("a placard with %s has no room at %d a sheet", say.Count(len(p.Cues), "cue"), grid.Places()),
		Hint: "fewer placards a sheet, larger paper, or shorter moments (at = …)"}
	if p.Stunt.Print.Grid != nil {
		fault.Key, fault.Hint = "print.grid", smallestLabel(b, grid.Width, notes)
		fault.What = fmt.Sprintf("a placard with %s has no room on a label of %.1f × %.1f mm", say.Count(len(p.Cues), "cue"),
			grid.Width, grid.Height)
	}
	return nil, fault
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
				return fmt.Sprintf("no side may be under %g mm; the smallest label that holds everything at %.1f mm wide is %g "+
					"mm high", leastLabel, wide, height)
			}
		}
	}
	return "larger labels, or fewer cues"
}

// load is what the labels are printed on.
func (l *labelSheets) load(sheets int) string {
	if l.grid.Peeled {
		return say.Count(sheets, "sheet") + " of labels"
	}
	return say.Count(sheets, "sheet") + " of white paper"
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

// labelPiece is one label: of a seat, or the slip of a row.
type labelPiece struct {
	row  *brief.Row
	seat int // index in row.seats; −1 = the slip
}

// file prints one file of labels.
func (l *labelSheets) file(rows []brief.Row, w io.Writer) error {
	var pieces []labelPiece
	for i := range rows {
		pieces = append(pieces, labelPiece{&rows[i], -1})
		for k := range rows[i].Seats {
			if len(rows[i].Kits[k]) > 0 {
				pieces = append(pieces, labelPiece{&rows[i], k})
			}
		}
	}
	what := "Placards, section " + l.plan.Stands.Sections[rows[0].Section].Name
	d := newDocument(l.brief, what, l.grid.Sheet)
	d.Loose = len(pieces) > packed
	if l.plan.Stunt.Print.WholePile {
		l.pileByPile(d, pieces, what)
	} else {
		l.sheetBySheet(d, pieces, what)
	}
	return d.Write(w)
}

// sheetBySheet deals the labels out, one sheet after the other.
func (l *labelSheets) sheetBySheet(d *paper.Document, pieces []labelPiece, what string) {
	per := l.grid.Places()
	pages := (len(pieces) + per - 1) / per
	for k, piece := range pieces {
		if k%per == 0 {
			l.startSheet(d, what, pages)
		}
		x, y := l.grid.Place(k % per)
		l.piece(d, x, y, piece)
		if l.grid.Peeled { // the sheet has no foot of its own
			l.note(&d.Pen, x, y, "Plan "+string(l.brief.Code))
		}
	}
}

// pileByPile deals the labels out so that a job's pile, cut as a whole, stacks in order.
func (l *labelSheets) pileByPile(d *paper.Document, pieces []labelPiece, what string) {
	jobs := l.grid.Jobs(len(pieces))
	pages := jobPages(jobs)
	where := "the back of a card of its colour"
	if brief.TwoColoured(l.plan) {
		where = "a card as its row's slip says"
	}
	for _, j := range jobs {
		l.banner(d, &banner{
			Job: j, what: what, load: l.load(j.Sheets), colour: -1,
			steps: labelSteps(l, &j, d.Page()+1, where), rows: pieceCounts(l.plan, pieces[j.First:j.First+j.Count]),
		})
		for sheet := range j.Sheets {
			l.startSheet(d, what, pages)
			for place, n := range j.On(sheet) {
				x, y := l.grid.Place(place)
				l.piece(d, x, y, pieces[n])
				l.note(&d.Pen, x, y, j.Where(sheet, place))
			}
		}
	}
}

// pieceCounts says how many labels of each row there are, slips not counted.
func pieceCounts(p *mosaic.Plan, pieces []labelPiece) string {
	var list []cardSheet
	for _, piece := range pieces {
		if piece.seat >= 0 {
			list = append(list, cardSheet{row: piece.row})
		}
	}
	return rowCounts(p, list)
}

// startSheet draws what a page has besides its labels: where to cut, and the footer. A sheet of stick-on
// labels has none of it.
func (l *labelSheets) startSheet(d *paper.Document, what string, pages int) {
	d.AddPage()
	if l.grid.Peeled {
		return
	}
	d.CutLines(&l.grid)
	d.Footer(what, pages)
}

func (l *labelSheets) piece(d *paper.Document, x, y float64, piece labelPiece) {
	if piece.seat < 0 {
		l.slip(&d.Pen, x, y, piece.row)
		return
	}
	seat := int(piece.row.Seats[piece.seat])
	l.placard(d, x, y, seat, piece.row.Kits[piece.seat], "")
}
