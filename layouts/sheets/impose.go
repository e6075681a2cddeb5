package sheets

import "math"

// sheetGrid says where the pieces lie on a sheet, in millimetres from its top left corner.
type sheetGrid struct {
	sheetWidth, sheetHeight float64
	columns, rows           int
	left, top               float64 // of the first piece
	width, height           float64 // of a piece
	across, down            float64 // from one piece's edge to the next one's
	alongRows               bool    // pieces follow each other along a row, as stick-on labels are peeled off; else down a column
}

// places is how many pieces a sheet holds.
func (g *sheetGrid) places() int { return g.columns * g.rows }

// place is the top left corner of piece n.
func (g *sheetGrid) place(n int) (x, y float64) {
	column, row := n/g.rows, n%g.rows
	if g.alongRows {
		column, row = n%g.columns, n/g.columns
	}
	return g.left + float64(column)*g.across, g.top + float64(row)*g.down
}

// right and bottom are where the pieces end.
func (g *sheetGrid) right() float64  { return g.left + float64(g.columns-1)*g.across + g.width }
func (g *sheetGrid) bottom() float64 { return g.top + float64(g.rows-1)*g.down + g.height }

// sameLength is within which two edges are one, in millimetres: a sixteenth of an inch is not.
const sameLength = 0.05

// gridOf lays as many pieces of a size on the paper as it holds, upright or on its side; there
// are none where it holds not one.
func gridOf(paper Paper, width, height float64) sheetGrid {
	best := sheetGrid{}
	for _, side := range [...][2]float64{{paper.Width, paper.Height}, {paper.Height, paper.Width}} {
		g := sheetGrid{sheetWidth: side[0], sheetHeight: side[1], width: width, height: height, across: width, down: height}
		g.columns = int((side[0] + sameLength) / width)
		g.rows = int((side[1] + sameLength) / height)
		g.left = max((side[0]-float64(g.columns)*width)/2, 0)
		g.top = max((side[1]-float64(g.rows)*height)/2, 0)
		if g.places() > best.places() {
			best = g
		}
	}
	return best
}

// cuts are where the knife goes, from the left and from the top; the paper's own edges are none.
func (g *sheetGrid) cuts() (across, down []float64) {
	return cutsOf(g.left, g.width, g.across, g.columns, g.sheetWidth), cutsOf(g.top, g.height, g.down, g.rows, g.sheetHeight)
}

func cutsOf(from, size, pitch float64, n int, end float64) []float64 {
	var list []float64
	for i := range n {
		for _, v := range [...]float64{from + float64(i)*pitch, from + float64(i)*pitch + size} {
			inside := v > sameLength && v < end-sameLength
			if again := len(list) > 0 && math.Abs(list[len(list)-1]-v) < sameLength; inside && !again {
				list = append(list, v)
			}
		}
	}
	return list
}

// cutLines draws the cuts from edge to edge, dashed.
func (p *pen) cutLines(g *sheetGrid) {
	p.lineColour(grey)
	p.lineWidth(0.15)
	p.dashed(2, 1.5)
	across, down := g.cuts()
	for _, y := range down {
		p.line(0, y, g.sheetWidth, y)
	}
	for _, x := range across {
		if x > g.left+sameLength && x < g.right()-sameLength { // the outer rims stay on
			p.line(x, 0, x, g.bottom())
		}
	}
	p.solid()
}

// tickInside is how far a cut mark shows on the pieces, where the sheet has no room beside them.
const tickInside = 5.0

// cutTicks draws the cuts as short lines at the sheet's edges, so that the pieces stay clean; reach is
// what the printer leaves white.
func (p *pen) cutTicks(g *sheetGrid, reach float64) {
	p.lineColour(black)
	p.lineWidth(0.2)
	length := func(room float64) float64 {
		if room >= reach+2 {
			return room - 0.5
		}
		return reach + tickInside
	}
	x, y := length(g.left), length(g.top)
	across, down := g.cuts()
	for _, v := range down {
		p.line(0, v, x, v)
		p.line(g.sheetWidth-x, v, g.sheetWidth, v)
	}
	for _, v := range across {
		p.line(v, 0, v, y)
		p.line(v, g.sheetHeight-y, v, g.sheetHeight)
	}
}

// jobSheets is how many sheets of card a bypass tray takes at once (common practice, no source).
const jobSheets = 50

// printJob is one load of the tray. Its pile is cut as a whole: the piece at place n of sheet s is
// piece n·sheets+s, so that the cut piles lie in order one on the other. Stick-on labels
// are not cut and follow each other sheet by sheet.
type printJob struct {
	number, of   int
	first, count int // pieces
	sheets       int
	perSheet     int
	peeled       bool
}

// printJobs shares pieces out over jobs.
func printJobs(pieces int, g *sheetGrid) []printJob {
	perSheet := g.places()
	most := jobSheets * perSheet
	jobs := make([]printJob, (pieces+most-1)/most)
	for i := range jobs {
		n := min(most, pieces-i*most)
		jobs[i] = printJob{number: i + 1, of: len(jobs), first: i * most, count: n,
			sheets: (n + perSheet - 1) / perSheet, perSheet: perSheet, peeled: g.alongRows}
	}
	return jobs
}

// jobPages counts the pages of jobs printed on one side, banners too.
func jobPages(jobs []printJob) int {
	pages := 0
	for _, j := range jobs {
		pages += 1 + j.sheets
	}
	return pages
}

// piece is the number of the piece at a place of a sheet, or −1: only the last piles have fewer.
func (j *printJob) piece(sheet, place int) int {
	n := place*j.sheets + sheet
	if j.peeled {
		n = sheet*j.perSheet + place
	}
	if n >= j.count {
		return -1
	}
	return j.first + n
}

// piles is how many piles the cut job makes.
func (j *printJob) piles() int { return (j.count + j.sheets - 1) / j.sheets }
