package paper

import (
	"fmt"
	"iter"
)

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
