package paper

import (
	"fmt"
	"iter"
	"math"
)

// Grid says where the pieces lie on a sheet, in millimetres from its top left corner.
type Grid struct {
	Sheet         Sheet
	Columns, Rows int
	Left, Top     float64 // of the first piece
	Width, Height float64 // of a piece
	Across, Down  float64 // from one piece's edge to the next one's
	Peeled        bool    // stick-on labels, which follow each other along a row; else pieces to cut, down a column
}

// SameLength is within which two edges are one, in millimetres: a sixteenth of an inch is not.
const SameLength = 0.05

// FillSheet lays as many pieces of a size on the sheet as it holds, upright or on its side; there are none where it
// holds not one.
func FillSheet(sheet Sheet, width, height float64) Grid {
	best := Grid{}
	for _, s := range [...]Sheet{sheet, sheet.Turned()} {
		g := Grid{Sheet: s, Width: width, Height: height, Across: width, Down: height}
		g.Columns = int((s.Width + SameLength) / width)
		g.Rows = int((s.Height + SameLength) / height)
		g.Left = max((s.Width-float64(float64(g.Columns)*width))/2, 0)
		g.Top = max((s.Height-float64(float64(g.Rows)*height))/2, 0)
		if g.Places() > best.Places() {
			best = g
		}
	}
	return best
}

// Places is how many pieces a sheet holds.
func (g *Grid) Places() int { return g.Columns * g.Rows }

// Place is the top left corner of piece n.
func (g *Grid) Place(n int) (x, y float64) {
	column, row := n/g.Rows, n%g.Rows
	if g.Peeled {
		column, row = n%g.Columns, n/g.Columns
	}
	return g.Left + float64(float64(column)*g.Across), g.Top + float64(float64(row)*g.Down)
}

// Right and Bottom are where the pieces end.
func (g *Grid) Right() float64  { return g.Left + float64(float64(g.Columns-1)*g.Across) + g.Width }
func (g *Grid) Bottom() float64 { return g.Top + float64(float64(g.Rows-1)*g.Down) + g.Height }

// cuts are where the knife goes, from the left and from the top; the paper's own edges are none.
func (g *Grid) cuts() (across, down []float64) {
	return cutsOf(g.Left, g.Width, g.Across, g.Columns, g.Sheet.Width),
		cutsOf(g.Top, g.Height, g.Down, g.Rows, g.Sheet.Height)
}

func cutsOf(from, size, pitch float64, n int, end float64) []float64 {
	var list []float64
	for i := range n {
		for _, v := range [...]float64{from + float64(float64(i)*pitch), from + float64(float64(i)*pitch) + size} {
			inside := v > SameLength && v < end-SameLength
			if again := len(list) > 0 && math.Abs(list[len(list)-1]-v) < SameLength; inside && !again {
				list = append(list, v)
			}
		}
	}
	return list
}

// CutLines draws the cuts on the present page from edge to edge, dashed.
func (d *Document) CutLines(g *Grid) {
	d.Show(d.Stamp("cuts", d.Width, d.Height, func(p *Pen) {
		across, down := g.cuts()
		p.Cuts(func() {
			for _, y := range down {
				p.Line(0, y, d.Width, y)
			}
			for _, x := range across {
				if x > g.Left+SameLength && x < g.Right()-SameLength { // the outer rims stay on
					p.Line(x, 0, x, g.Bottom())
				}
			}
		})
	}), 0, 0)
}

// tickInside is how far a cut mark shows on the pieces, where the sheet has no room beside them.
const tickInside = 5.0

// CutTicks draws the cuts as short lines at the sheet's edges, so that the pieces stay clean; reach is what the
// printer leaves white.
func (p *Pen) CutTicks(g *Grid, reach float64) {
	p.Stroke(Black, 0.2)
	length := func(room float64) float64 {
		if room >= reach+2 {
			return room - 0.5
		}
		return reach + tickInside
	}
	x, y := length(g.Left), length(g.Top)
	across, down := g.cuts()
	for _, v := range down {
		p.Line(0, v, x, v)
		p.Line(g.Sheet.Width-x, v, g.Sheet.Width, v)
	}
	for _, v := range across {
		p.Line(v, 0, v, y)
		p.Line(v, g.Sheet.Height-y, v, g.Sheet.Height)
	}
}

// JobSheets is how many sheets of card a bypass tray takes at once (common practice, no source).
const JobSheets = 50

// Job is one load of the tray. Its pile is cut as a whole: the piece at place n of sheet s is piece n·Sheets+s, so
// that the cut piles lie in order one on the other. Stick-on labels are not cut and follow each other sheet by sheet.
type Job struct {
	Number, Of   int
	First, Count int // pieces
	Sheets       int
	PerSheet     int
	Peeled       bool
}

// Jobs shares pieces out over jobs.
func (g *Grid) Jobs(pieces int) []Job {
	perSheet := g.Places()
	return shareOut(pieces, JobSheets*perSheet, func(n int) Job {
		return Job{Count: n, Sheets: (n + perSheet - 1) / perSheet, PerSheet: perSheet, Peeled: g.Peeled}
	})
}

// shareOut makes jobs of at most so many pieces.
func shareOut(pieces, most int, job func(count int) Job) []Job {
	jobs := make([]Job, (pieces+most-1)/most)
	for i := range jobs {
		jobs[i] = job(min(most, pieces-i*most))
		jobs[i].Number, jobs[i].Of, jobs[i].First = i+1, len(jobs), i*most
	}
	return jobs
}

// On gives the places of a sheet that hold a piece, and the number of each piece: only the last piles have fewer.
func (j *Job) On(sheet int) iter.Seq2[int, int] {
	return func(yield func(place, piece int) bool) {
		for place := range j.PerSheet {
			n := place*j.Sheets + sheet
			if j.Peeled {
				n = sheet*j.PerSheet + place
			}
			if n < j.Count && !yield(place, j.First+n) {
				return
			}
		}
	}
}

// Cut says whether the job's pile is cut as a whole.
func (j *Job) Cut() bool { return j.PerSheet > 1 && !j.Peeled }

// Piles is how many piles the cut job makes.
func (j *Job) Piles() int { return (j.Count + j.Sheets - 1) / j.Sheets }

// Where says where in its job a piece belongs, for whoever drops a pile.
func (j *Job) Where(sheet, place int) string {
	pile := ""
	if j.Cut() {
		pile = fmt.Sprintf("pile %d, ", place+1)
	}
	return fmt.Sprintf("job %d of %d, %ssheet %d of %d", j.Number, j.Of, pile, sheet+1, j.Sheets)
}
