package brief

import (
	"fmt"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// jobSheets is how many sheets of card a bypass tray takes at once (common practice, no source).
const jobSheets = 50

// Speeds of a printer fed by hand (common practice, no source).
const (
	printPages = 12 // pages a minute through the bypass tray, jams counted in
	loadJob    = time.Minute
)

// PrintRun is what printing the placards comes to.
type PrintRun struct {
	LabelSheets int    // of labels that are stuck on cards
	LabelsOn    string // how they lie on a sheet
	What        string // "Print labels"
	Pieces      int    // labels, or cards
	Slips       int    // row slips among them
	Sheets      int    // of what is loaded, banner pages not counted
	Pages       int    // sides that go through the printer, banner pages too
	Jobs        int    // loads of at most jobSheets
	Cuts        int    // pieces that are cut out a few sheets at a time
	Piles       int    // jobs that are cut as a whole
}

func (r *PrintRun) cutWords() string {
	var parts []string
	if r.Cuts > 0 {
		parts = append(parts, say.Count(r.Cuts, "piece"))
	}
	if r.Piles > 0 {
		parts = append(parts, say.Count(r.Piles, "whole pile"))
	}
	return strings.Join(parts, " and ")
}

func (r *PrintRun) words() string {
	s := say.Count(r.Pieces, "piece")
	if r.Slips > 0 {
		s = fmt.Sprintf("%s, %s", say.Count(r.Pieces, "label"), say.Count(r.Slips, "row slip"))
	}
	s += " on " + say.Count(r.Sheets, "sheet")
	if banners := r.Pages - r.Sheets; banners > 0 && r.Pages < 2*r.Sheets {
		s += ", " + say.Count(banners, "banner page")
	} else if r.Pages >= 2*r.Sheets && r.Sheets > 0 {
		s += ", both sides, a banner page a job"
	}
	return s + ", " + say.Count(r.Jobs, "job")
}

// add counts jobs of pieces that lie so, each of so many printed sides a sheet, with a banner.
func (r *PrintRun) add(pieces, sides int, on perSheet) {
	for most := max(jobSheets*on.places/on.tiles, 1); pieces > 0; pieces -= most {
		n := on.sheets(min(pieces, most))
		if on.places > 1 && !on.peeled {
			r.Piles++
		}
		r.Sheets, r.Pages, r.Jobs = r.Sheets+n, r.Pages+sides*(n+1), r.Jobs+1
	}
}

func (r *PrintRun) addCards(cards, sides int, on perSheet) {
	r.Pieces += cards
	for ; cards > 0; cards -= PerFile {
		n := min(cards, PerFile)
		r.add(n, sides, on)
		if on.tiles > 1 {
			r.Cuts += n * on.tiles
		}
	}
}

// perSheet is how many pieces lie on a sheet, or of how many sheets one is put together, and whether they are stick-on
// labels.
type perSheet struct {
	places, tiles int
	peeled        bool
}

func (on perSheet) sheets(pieces int) int { return (pieces + on.places - 1) / on.places * on.tiles }

// says is how labels lie on their sheets.
func (on perSheet) says(g *mosaic.LabelGrid) string {
	if g == nil {
		return fmt.Sprintf("%d labels on each", on.places)
	}
	millimetres := func(l seating.Length) float64 { return float64(l) / float64(seating.Millimetre) }
	return fmt.Sprintf("%d on each, %.1f × %.1f mm", on.places, millimetres(g.Width), millimetres(g.Height))
}

// labelsOn is how labels for all lie on a sheet of the stunt's paper; dark, those on which black cannot be read: as
// many as the stunt has labels, but four at least, and more where the card is small.
func labelsOn(p *mosaic.Plan, size mosaic.PaperSize, dark bool) perSheet {
	if g := p.Stunt.Print.Grid; g != nil {
		return perSheet{max(g.Columns*g.Rows, 1), 1, true}
	}
	n := max(p.Stunt.Print.PerSheet, 1)
	if dark {
		n = max(n, 4)
	}
	n = min(n, MostPerSheet)
	width, height := p.CardSize()
	cut, fits := mosaic.CutLabels(size, n, width, height)
	for ; dark && !fits && n < MostPerSheet && p.SheetsPerCard() == 1; n++ {
		cut, fits = mosaic.CutLabels(size, n+1, width, height)
	}
	return perSheet{cut.Columns * cut.Rows, 1, false}
}

// MostPerSheet bounds the labels that are cut out of one sheet.
const MostPerSheet = 12

// printRun counts what printing the placards comes to, without printing. Of paper that nobody knows nothing is
// counted.
func (t *teller) printRun() PrintRun {
	size, err := mosaic.LookUpPaper(t.Stunt.Print.Paper)
	if err != nil {
		return PrintRun{What: "Print"}
	}
	width, height := t.CardSize()
	cards := perSheet{max(size.Holds(width, height), 1), t.SheetsPerCard(), false}
	switch t.Stunt.Print.Placards {
	case mosaic.OnStock:
		return t.stockRun(cards, labelsOn(t.Plan, size, true))
	case mosaic.FullColoured:
		return t.colouredRun(cards)
	}
	r, on := PrintRun{What: "Print labels"}, labelsOn(t.Plan, size, false)
	for _, rows := range t.rows {
		for _, file := range Files(rows) {
			labels := 0
			for i := range file {
				labels += file[i].Placards
			}
			pieces := labels + len(file)
			r.Pieces, r.Slips = r.Pieces+labels, r.Slips+len(file)
			if t.Stunt.Print.WholePile {
				r.add(pieces, 1, on)
				continue
			}
			n := on.sheets(pieces)
			r.Sheets, r.Pages, r.Jobs = r.Sheets+n, r.Pages+n, r.Jobs+(n+jobSheets-1)/jobSheets
			if !on.peeled {
				r.Cuts += pieces
			}
		}
	}
	r.LabelSheets, r.LabelsOn = r.Sheets, on.says(t.Stunt.Print.Grid)
	return r
}

func (t *teller) stockRun(cards, dark perSheet) PrintRun {
	r := PrintRun{What: "Print on the cards", LabelsOn: dark.says(t.Stunt.Print.Grid)}
	pieces := make([]int, len(t.Stunt.Colours))
	for _, rows := range t.rows {
		for card, n := range cardsIn(rows) {
			for _, side := range PrintedSides(t.Plan, int16(card)) {
				pieces[t.Cards[card].Sides[side]] += n
			}
		}
	}
	for c, n := range pieces {
		if !t.Stunt.WhiteLabel(c) {
			r.addCards(n, 1, cards)
			continue
		}
		before := r.Sheets
		r.addCards(n, 1, dark)
		r.LabelSheets += r.Sheets - before
	}
	return r
}

func (t *teller) colouredRun(cards perSheet) PrintRun {
	r := PrintRun{What: "Print the cards"}
	spares := 0
	for _, section := range t.SpareTally() {
		spares += sum(section)
	}
	r.addCards(spares, 2, cards)
	for _, rows := range t.rows {
		r.addCards(sum(cardsIn(rows)), 2, cards)
	}
	return r
}

// PrintedSides are the sides of a card that get a label, where words are printed on coloured stock.
func PrintedSides(p *mosaic.Plan, card int16) []int8 {
	sides := p.Cards[card].Sides
	switch dark := [2]bool{p.Stunt.WhiteLabel(int(sides[0])), p.Stunt.WhiteLabel(int(sides[1]))}; {
	case sides[0] == sides[1], dark[1]:
		return []int8{0}
	case dark[0]:
		return []int8{1}
	}
	return []int8{0, 1}
}

// PerFile is how many placards one file holds at most.
const PerFile = 2000

// Files shares the rows out over files of at most PerFile placards, whole rows where they fit.
func Files(rows []Row) [][]Row {
	var files [][]Row
	room := 0
	for _, row := range rows {
		size := len(row.Seats)
		if row.Placards > PerFile {
			size = PerFile
		}
		for from := 0; from < len(row.Seats); from += size {
			piece, to := row, min(from+size, len(row.Seats))
			piece.Seats, piece.Kits = row.Seats[from:to], row.Kits[from:to]
			piece.count(len(row.Cards))
			if piece.Placards > room || len(files) == 0 {
				files = append(files, nil)
				room = PerFile
			}
			files[len(files)-1] = append(files[len(files)-1], piece)
			room -= piece.Placards
		}
	}
	return files
}
