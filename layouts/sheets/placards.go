package sheets

import (
	"fmt"
	"io"
	"strconv"

	"everyseat/mosaic"
	"everyseat/seating"
)

// PerFile is how many placards one file holds at most.
const PerFile = 2000

// packed is up to how many labels a file's pages are compressed: it takes a third off a small file, whose fonts and
// drawings few labels share, and too long for a large one.
const packed = 600

// Margins of a placard sheet in millimetres: what a copier leaves white, and the footer.
const (
	edgeMargin   = float64(mosaic.LabelEdge / seating.Millimetre)
	footerMargin = float64(mosaic.LabelFooter / seating.Millimetre)
)

// mostPerSheet bounds [print] per_sheet.
const mostPerSheet = 12

// put takes a file by its name.
type put = func(name string, write func(io.Writer) error) error

// Check says whether the sheets of the plan can be printed, before anything is written:
// paper, labels, cards, and every character. The error is a *seating.Fault.
func Check(p *mosaic.Plan) error {
	if err := checkType(p); err != nil {
		return err
	}
	if _, err := newPlacards(p); err != nil {
		return err
	}
	if p.Stunt.Print.Bands {
		_, err := newBands(p)
		return err
	}
	return nil
}

// Placards puts the placards, in files of at most PerFile (then NAME-1, -2 …). What they are the
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
func Placards(p *mosaic.Plan, put func(name string, write func(io.Writer) error) error) error {
	if err := checkType(p); err != nil {
		return err
	}
	pl, err := newPlacards(p)
	if err != nil {
		return err
	}
	return pl.files(put)
}

// placards are one of the ways of printing them, ready to be written.
type placards interface {
	files(put) error
	run() printRun
}

func newPlacards(p *mosaic.Plan) (placards, error) {
	paper, err := LookUpPaper(p.Stunt.Print.Paper)
	if err != nil {
		return nil, err
	}
	switch p.Stunt.Print.Placards {
	case "", mosaic.Labels:
		return newLabels(p, paper)
	case mosaic.OnStock:
		return newStock(p, paper)
	case mosaic.FullColoured:
		return newPrinted(p, paper)
	}
	return nil, &seating.Fault{Key: "print.placards", What: fmt.Sprintf("placards cannot be made as %q", p.Stunt.Print.Placards),
		Hint: fmt.Sprintf("one of %s, %s, %s", mosaic.Labels, mosaic.OnStock, mosaic.FullColoured)}
}

// numbered is the name of one file of several.
func numbered(base string, i, of int) string {
	if of == 1 {
		return base + ".pdf"
	}
	return base + "-" + strconv.Itoa(i+1) + ".pdf"
}

// splitFiles shares the rows out over files of at most PerFile placards, whole rows where they fit.
func splitFiles(rows []rowWork) [][]rowWork {
	var files [][]rowWork
	room := 0
	for _, row := range rows {
		for _, piece := range splitRow(row) {
			if piece.placards > room || len(files) == 0 {
				files = append(files, nil)
				room = PerFile
			}
			files[len(files)-1] = append(files[len(files)-1], piece)
			room -= piece.placards
		}
	}
	// A section without any card needs no paper.
	if len(files) == 1 && room == PerFile {
		return nil
	}
	return files
}

// splitRow cuts a row of more than PerFile seats into pieces that fit a file each.
func splitRow(row rowWork) []rowWork {
	if row.placards <= PerFile {
		return []rowWork{row}
	}
	var pieces []rowWork
	for from := 0; from < len(row.seats); from += PerFile {
		to := min(from+PerFile, len(row.seats))
		piece := row
		piece.seats, piece.kits = row.seats[from:to], row.kits[from:to]
		piece.cards, piece.placards = make([]int, len(row.cards)), 0
		for _, kit := range piece.kits {
			for _, c := range kit {
				piece.cards[c]++
			}
			if len(kit) > 0 {
				piece.placards++
			}
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

// labelSheets are labels on plain or stick-on paper.
type labelSheets struct {
	*labels
	grid sheetGrid
}

func newLabels(p *mosaic.Plan, paper Paper) (*labelSheets, error) {
	grid, err := labelGrid(p, paper)
	if err != nil {
		return nil, err
	}
	return designLabels(p, grid)
}

// designLabels fits the words on labels that lie so on a sheet.
func designLabels(p *mosaic.Plan, grid sheetGrid, notes ...string) (*labelSheets, error) {
	l := &labelSheets{grid: grid}
	fits := false
	if l.labels, fits = newDesign(p, grid.width, grid.height, notes...); fits && grid.height >= leastLabel && grid.width >= leastLabel {
		return l, nil
	}
	fault := &seating.Fault{Key: "print.per_sheet",
		What: fmt.Sprintf("a placard with %s has no room at %d a sheet", plural(len(p.Cues), "cue"), grid.places()),
		Hint: "fewer placards a sheet, larger paper, or shorter moments (at = …)"}
	if p.Stunt.Print.Grid != nil {
		fault.Key, fault.Hint = "print.grid", smallestLabel(p, grid.width, notes)
		fault.What = fmt.Sprintf("a placard with %s has no room on a label of %.1f × %.1f mm", plural(len(p.Cues), "cue"), grid.width, grid.height)
	}
	return nil, fault
}

// leastLabel is the least side of a label, in millimetres, at which an id can be read at arm's length.
const leastLabel = 25.0

// smallestLabel says how large a label must be for what this plan has to say, found by trying in whole millimetres: as
// wide as the stunt's, or where that is too narrow at any height, as wide as half a Letter sheet.
func smallestLabel(p *mosaic.Plan, width float64, notes []string) string {
	const half, highest = 107, 300
	design := startDesign(p, notes...)
	for _, wide := range []float64{max(width, leastLabel), half} {
		for height := leastLabel; height <= highest; height++ {
			if _, fits := design.sized(wide, height); fits {
				return fmt.Sprintf("no side may be under %g mm; the smallest label that holds everything at %.1f mm wide is %g mm high", leastLabel, wide, height)
			}
		}
	}
	return "larger labels, or fewer cues"
}

// labelGrid is where the labels lie on a sheet, none larger than the card that it is stuck on.
func labelGrid(p *mosaic.Plan, paper Paper) (sheetGrid, error) {
	if p.Stunt.Print.Grid != nil {
		grid, err := stickerGrid(p, paper)
		if err == nil && !grid.within(p) {
			err = tooLarge(p, &grid, "print.grid", "smaller labels, or larger cards")
		}
		return grid, err
	}
	n := p.Stunt.Print.PerSheet
	if n == 0 {
		n = 4
	}
	if n < 1 || n > mostPerSheet {
		return sheetGrid{}, &seating.Fault{Key: "print.per_sheet", What: fmt.Sprintf("%d placards a sheet cannot be printed", n),
			Hint: fmt.Sprintf("1 to %d; 4 is usual", mostPerSheet)}
	}
	grid, fits := cutWithin(p, paper, n)
	if fits {
		return grid, nil
	}
	hint := "larger cards"
	for more := n + 1; more <= mostPerSheet; more++ {
		if _, fits := cutWithin(p, paper, more); fits {
			hint = fmt.Sprintf("per_sheet = %d under [print], the fewest that are not, or larger cards", more)
			break
		}
	}
	return grid, tooLarge(p, &grid, "print.per_sheet", hint)
}

// darkGrid is where the labels lie that are stuck on cards on which black cannot be read: as many on a sheet as the
// stunt has labels, but four at least, and more where the card is small.
func darkGrid(p *mosaic.Plan, paper Paper, tiled bool) (sheetGrid, error) {
	if p.Stunt.Print.Grid != nil {
		grid, err := stickerGrid(p, paper)
		if err == nil && !tiled && !grid.within(p) {
			err = tooLarge(p, &grid, "print.grid", "smaller labels, or larger cards")
		}
		return grid, err
	}
	n := max(p.Stunt.Print.PerSheet, 4)
	for ; n < mostPerSheet; n++ {
		if grid, fits := cutWithin(p, paper, n); fits || tiled {
			return grid, nil
		}
	}
	grid, fits := cutWithin(p, paper, min(n, mostPerSheet))
	if !fits && !tiled {
		return grid, tooLarge(p, &grid, "card.size", "larger cards")
	}
	return grid, nil
}

// within says that a piece of the grid is not larger than the card as it is held; where no card is known, none is.
func (g *sheetGrid) within(p *mosaic.Plan) bool {
	width, height := heldSize(p)
	return width == 0 || height == 0 || g.width <= millimetres(width)+sameLength && g.height <= millimetres(height)+sameLength
}

func tooLarge(p *mosaic.Plan, g *sheetGrid, key, hint string) error {
	width, height := heldSize(p)
	return &seating.Fault{Key: key, What: fmt.Sprintf("a label of %.0f × %.0f mm is larger than the card it is stuck on, %s × %s as it is held (%.0f × %.0f mm)",
		g.width, g.height, width, height, millimetres(width), millimetres(height)), Hint: hint}
}

// cutWithin cuts n labels out of a sheet; false where they are larger than the card.
func cutWithin(p *mosaic.Plan, paper Paper, n int) (sheetGrid, bool) {
	width, height := heldSize(p)
	cut, fits := mosaic.CutLabels(paper.size(), n, width, height)
	g := sheetGrid{sheetWidth: paper.Width, sheetHeight: paper.Height, columns: cut.Columns, rows: cut.Rows, left: edgeMargin, top: edgeMargin,
		width: millimetres(cut.Width), height: millimetres(cut.Height)}
	g.across, g.down = g.width, g.height
	return g, fits
}

// load is what the labels are printed on.
func (l *labelSheets) load(sheets int) string {
	if l.grid.alongRows {
		return plural(sheets, "sheet") + " of labels"
	}
	return plural(sheets, "sheet") + " of white paper"
}

func (l *labelSheets) files(put put) error {
	for _, rows := range laid(l.plan) {
		parts := splitFiles(rows)
		base := "placards-" + seating.FileName(l.plan.Stands.Sections[rows[0].section].Name)
		for i, part := range parts {
			if err := put(numbered(base, i, len(parts)), func(w io.Writer) error { return l.file(part, w) }); err != nil {
				return err
			}
		}
	}
	return nil
}

// labelPiece is one label: of a seat, or the slip of a row.
type labelPiece struct {
	row  *rowWork
	seat int // index in row.seats; −1 = the slip
}

// file prints one file of labels.
func (l *labelSheets) file(rows []rowWork, w io.Writer) error {
	var pieces []labelPiece
	for i := range rows {
		pieces = append(pieces, labelPiece{&rows[i], -1})
		for k := range rows[i].seats {
			if len(rows[i].kits[k]) > 0 {
				pieces = append(pieces, labelPiece{&rows[i], k})
			}
		}
	}
	what := "Placards, section " + l.plan.Stands.Sections[rows[0].section].Name
	d := newDocument(what, l.grid.sheetWidth, l.grid.sheetHeight)
	d.packed = len(pieces) <= packed
	if l.plan.Stunt.Print.WholePile {
		l.pileByPile(d, pieces, what)
	} else {
		l.sheetBySheet(d, pieces, what)
	}
	return d.write(w)
}

// sheetBySheet deals the labels out, one sheet after the other.
func (l *labelSheets) sheetBySheet(d *document, pieces []labelPiece, what string) {
	per := l.grid.places()
	pages := (len(pieces) + per - 1) / per
	for k, piece := range pieces {
		if k%per == 0 {
			l.startSheet(d, what, pages)
		}
		x, y := l.grid.place(k % per)
		l.piece(d, x, y, piece)
		if l.grid.alongRows { // the sheet has no foot of its own
			l.note(&d.page, x, y, "Plan "+l.plan.Code)
		}
	}
}

// pileByPile deals the labels out so that a job's pile, cut as a whole, stacks in order.
func (l *labelSheets) pileByPile(d *document, pieces []labelPiece, what string) {
	jobs := printJobs(len(pieces), &l.grid)
	pages := jobPages(jobs)
	where := "the back of a card of its colour"
	if twoColoured(l.plan) {
		where = "a card as its row's slip says"
	}
	for _, j := range jobs {
		l.banner(d, &banner{
			job: j, what: what, load: l.load(j.sheets), colour: -1,
			steps: labelSteps(l, &j, d.pdf.PageNo()+1, where), rows: pieceCounts(l.plan, pieces[j.first:j.first+j.count]),
		})
		for sheet := range j.sheets {
			l.startSheet(d, what, pages)
			for place := range l.grid.places() {
				if n := j.piece(sheet, place); n >= 0 {
					x, y := l.grid.place(place)
					l.piece(d, x, y, pieces[n])
					l.note(&d.page, x, y, j.where(sheet, place))
				}
			}
		}
	}
}

// pieceCounts says how many labels of each row there are, slips not counted.
func pieceCounts(p *mosaic.Plan, pieces []labelPiece) string {
	var list []leaf
	for _, piece := range pieces {
		if piece.seat >= 0 {
			list = append(list, leaf{row: piece.row})
		}
	}
	return rowCounts(p, list)
}

// startSheet draws what a page has besides its labels: where to cut, and the footer. A sheet of stick-on
// labels has none of it.
func (l *labelSheets) startSheet(d *document, what string, pages int) {
	p := d.addPage()
	p.inkColour(black)
	if l.grid.alongRows {
		return
	}
	d.show(d.stamp("cuts", d.width, d.height, func(p *pen) { p.cutLines(&l.grid) }), 0, 0)
	d.footer(l.plan, what, pages)
}

func (l *labelSheets) piece(d *document, x, y float64, piece labelPiece) {
	if piece.seat < 0 {
		l.slip(&d.page, x, y, piece.row)
		return
	}
	seat := int(piece.row.seats[piece.seat])
	l.placard(d, x, y, seat, piece.row.kits[piece.seat], "")
}
