package sheets

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic"
)

// Speeds of a printer fed by hand (common practice, no source).
const (
	printPages = 12 // pages a minute through the bypass tray, jams counted in
	loadJob    = time.Minute
)

// printRun is what printing the placards comes to.
type printRun struct {
	what   string // "Print labels"
	pieces int    // labels, or cards
	slips  int    // row slips among them
	sheets int    // of what is loaded, banner pages not counted
	pages  int    // sides that go through the printer, banner pages too
	jobs   int    // loads of at most jobSheets
	cuts   int    // pieces that are cut out a few sheets at a time
	piles  int    // jobs that are cut as a whole
}

// runOf counts without printing. Where the plan cannot be printed, nothing is counted.
func runOf(p *mosaic.Plan) printRun {
	pl, err := newPlacards(p)
	if err != nil {
		return printRun{what: "Print"}
	}
	return pl.run()
}

// time is that of one person at one printer.
func (r *printRun) time() time.Duration {
	return time.Duration(r.pages)*time.Minute/printPages + time.Duration(r.jobs)*loadJob
}

// cutting is that of one person.
func (r *printRun) cutting() time.Duration {
	return time.Duration(r.cuts)*cutPerPiece + time.Duration(r.piles)*cutPerPile
}

// cutWords say what is cut.
func (r *printRun) cutWords() string {
	var parts []string
	if r.cuts > 0 {
		parts = append(parts, plural(r.cuts, "piece"))
	}
	if r.piles > 0 {
		parts = append(parts, plural(r.piles, "whole pile"))
	}
	return strings.Join(parts, " and ")
}

// words say how much it is.
func (r *printRun) words() string {
	s := plural(r.pieces, "piece")
	if r.slips > 0 {
		s = fmt.Sprintf("%s, %s", plural(r.pieces, "label"), plural(r.slips, "row slip"))
	}
	s += " on " + plural(r.sheets, "sheet")
	if banners := r.pages - r.sheets; banners > 0 && r.pages < 2*r.sheets {
		s += ", " + plural(banners, "banner page")
	} else if r.pages >= 2*r.sheets && r.sheets > 0 {
		s += ", both sides, a banner page a job"
	}
	return s + ", " + plural(r.jobs, "job")
}

// add counts jobs of so many printed sides a sheet, each with a banner; of more than one piece a sheet the piles are cut.
func (r *printRun) add(jobs []printJob, sides int) {
	for _, j := range jobs {
		if j.perSheet > 1 && !j.peeled {
			r.piles++
		}
		r.sheets += j.sheets
		r.pages += sides * (j.sheets + 1)
		r.jobs++
	}
}

func (l *labelSheets) run() printRun {
	r := printRun{what: "Print labels"}
	for _, rows := range laid(l.plan) {
		for _, part := range splitFiles(rows) {
			pieces := len(part)
			for i := range part {
				pieces += part[i].placards
			}
			r.pieces, r.slips = r.pieces+pieces-len(part), r.slips+len(part)
			if l.plan.Stunt.Print.WholePile {
				r.add(printJobs(pieces, &l.grid), 1)
				continue
			}
			per := l.grid.places()
			sheets := (pieces + per - 1) / per
			r.sheets, r.pages, r.jobs = r.sheets+sheets, r.pages+sheets, r.jobs+(sheets+jobSheets-1)/jobSheets
			if !l.grid.alongRows {
				r.cuts += pieces
			}
		}
	}
	return r
}

func (s *stockCards) run() printRun {
	r := printRun{what: "Print on the cards"}
	sections := laid(s.plan)
	for c := range s.plan.Stunt.Colours {
		for part := range slices.Chunk(s.leavesOf(sections, int16(c)), PerFile) {
			r.pieces += len(part)
			switch {
			case s.plan.Stunt.WhiteLabel(c):
				r.add(printJobs(len(part), &s.dark.grid), 1)
			case s.tiles != nil:
				r.add(s.tiles.jobs(len(part)), 1)
				r.cuts += len(part) * s.tiles.count()
			default:
				r.add(printJobs(len(part), &s.grid), 1)
			}
		}
	}
	return r
}

func (c *printedCards) run() printRun {
	r := printRun{what: "Print the cards"}
	sections := laid(c.plan)
	lists := [][]leaf{c.spareLeaves(sections)}
	for _, rows := range sections {
		lists = append(lists, c.leaves(rows))
	}
	for _, leaves := range lists {
		for part := range slices.Chunk(leaves, PerFile) {
			r.pieces += len(part)
			if c.tiles != nil {
				r.add(c.tiles.jobs(len(part)), 2)
				r.cuts += len(part) * c.tiles.count()
			} else {
				r.add(printJobs(len(part), &c.grid), 2)
			}
		}
	}
	return r
}
