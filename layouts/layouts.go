// Package layouts writes everything a plan is for: tables, pictures, sheets and
// the report, into a sink. Start with Write; NewFolder, NewMemory and NewZip are the sinks.
package layouts

import (
	"fmt"
	"io"
	"path"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/pictures"
	"everyseat/layouts/sheets"
	"everyseat/layouts/tables"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/together"
)

// Sink takes whole files by slash-separated name; a file that fails is not
// there at all. Put may be called for several files at once.
type Sink interface {
	Put(name string, write func(io.Writer) error) error
}

// The groups of output for Options.Only.
const (
	OnlyPlan     = "plan"
	OnlyTables   = "tables"
	OnlyPictures = "pictures"
	OnlySheets   = "sheets"
	OnlyReport   = "report"
)

// Groups are all the groups, in the order in which help names them.
var Groups = []string{OnlyPlan, OnlyTables, OnlyPictures, OnlySheets, OnlyReport}

// Options says which groups to write; empty means all.
type Options struct {
	Only []string
}

// Check says whether every group of Only is known; the error is a *seating.Fault.
func (o Options) Check() error {
	for _, name := range o.Only {
		if !slices.Contains(Groups, name) {
			return &seating.Fault{
				What: fmt.Sprintf("there is no group of files %q", name),
				Hint: "one or more of " + strings.Join(Groups, ", "),
			}
		}
	}
	return nil
}

func (o Options) wants(group string) bool {
	return len(o.Only) == 0 || slices.Contains(o.Only, group)
}

// Write writes the plan's files into the sink:
//
//	plan      plan.json
//	tables    seats.csv, seats.xlsx, tally.xlsx
//	pictures  pictures/camera-1.png …, pictures/rest.png, pictures/cues.gif,
//	          pictures/map-1.png … and .svg, pictures/matter-1.png … and light-1.png … for cues with a text
//	sheets    sheets/placards-SECTION.pdf, sheets/rows.pdf, cord.pdf (benches), deal.pdf, leaders.pdf,
//	          tally.pdf, camera.pdf, runsheet.pdf, packet.pdf, trial.pdf, calldown.pdf, test.pdf, and
//	          bands.pdf if the stunt wants it
//	report    report.html
//
// Files are made at the same time, and their bytes do not depend on that. What the
// paper cannot print is found before anything is written. Errors are *seating.Fault, or
// the sink's own; the first one in the order above is given.
func Write(b *brief.Brief, o Options, sink Sink) error {
	if err := o.Check(); err != nil {
		return err
	}
	if o.wants(OnlySheets) {
		if err := sheets.Check(b); err != nil {
			return err
		}
	}
	return runAll(jobs(b, o, sink))
}

// job makes one or more files.
type job struct {
	weight int // how long it takes, roughly: long ones start first
	run    func() error
}

// jobs lists what is to be done, in the order in which errors count.
func jobs(b *brief.Brief, o Options, sink Sink) []job {
	p := b.Plan
	var all []job
	add := func(group string, weight int, name string, write func(io.Writer) error) {
		if o.wants(group) {
			all = append(all, job{weight, func() error { return sink.Put(name, write) }})
		}
	}
	of := func(fn func(io.Writer, *mosaic.Plan) error) func(io.Writer) error {
		return func(w io.Writer) error { return fn(w, p) }
	}
	told := func(fn func(io.Writer, *brief.Brief) error) func(io.Writer) error {
		return func(w io.Writer) error { return fn(w, b) }
	}
	toldAt := func(fn func(io.Writer, *brief.Brief, int) error, cue int) func(io.Writer) error {
		return func(w io.Writer) error { return fn(w, b, cue) }
	}
	at := func(fn func(io.Writer, *mosaic.Plan, int) error, cue int) func(io.Writer) error {
		return func(w io.Writer) error { return fn(w, p, cue) }
	}
	add(OnlyPlan, 3, "plan.json", told(tables.PlanJSON))
	add(OnlyTables, 1, "seats.csv", of(tables.Seats))
	add(OnlyTables, 4, "seats.xlsx", of(tables.Workbook))
	add(OnlyTables, 1, "tally.xlsx", of(tables.Tally))
	for cue := range p.Cues {
		n := strconv.Itoa(cue + 1)
		add(OnlyPictures, 9, "pictures/camera-"+n+".png", at(pictures.Camera, cue))
		add(OnlyPictures, 6, "pictures/map-"+n+".png", toldAt(pictures.Map, cue))
		add(OnlyPictures, 2, "pictures/map-"+n+".svg", toldAt(pictures.MapSVG, cue))
		if p.Stunt.Cues[cue].Text != "" {
			add(OnlyPictures, 9, "pictures/light-"+n+".png", at(pictures.Light, cue))
		}
		if b.Outlook.Cues[cue].Falls != nil {
			add(OnlyPictures, 7, "pictures/matter-"+n+".png", toldAt(pictures.Matter, cue))
		}
	}
	add(OnlyPictures, 9, "pictures/rest.png", at(pictures.Camera, -1))
	add(OnlyPictures, 9+2*len(p.Cues), "pictures/cues.gif", of(pictures.Cues))
	if o.wants(OnlySheets) {
		all = append(all, job{8, func() error {
			return sheets.Placards(b, func(name string, write func(io.Writer) error) error {
				return sink.Put("sheets/"+name, write)
			})
		}})
	}
	add(OnlySheets, 5, "sheets/rows.pdf", told(sheets.Rows))
	if sheets.NeedsCord(p) {
		add(OnlySheets, 1, "sheets/cord.pdf", told(sheets.PitchCord))
	}
	add(OnlySheets, 2, "sheets/deal.pdf", told(sheets.Deal))
	add(OnlySheets, 1, "sheets/laying.pdf", told(sheets.Laying))
	add(OnlySheets, 1, "sheets/tally.pdf", told(sheets.Tally))
	add(OnlySheets, 3, "sheets/leaders.pdf", told(sheets.Leaders))
	add(OnlySheets, 2, "sheets/camera.pdf", told(sheets.Camera))
	add(OnlySheets, 1, "sheets/runsheet.pdf", told(sheets.RunSheet))
	add(OnlySheets, 3, "sheets/packet.pdf", told(sheets.Packet))
	add(OnlySheets, 1, "sheets/trial.pdf", told(sheets.Trial))
	add(OnlySheets, 1, "sheets/calldown.pdf", told(sheets.Calldown))
	if o.wants(OnlySheets) && p.Stunt.Print.Bands {
		all = append(all, job{3, func() error {
			return sheets.Bands(b, func(name string, write func(io.Writer) error) error {
				return sink.Put("sheets/"+name, write)
			})
		}})
	}
	add(OnlySheets, 1, "sheets/test.pdf", told(sheets.PrinterTest))
	add(OnlyReport, 3, "report.html", func(w io.Writer) error { return report(w, b, o.wants(OnlyPictures)) })
	return all
}

// Ours says whether a file of that name may be one that Write wrote, for whatever plan.
func Ours(name string) bool {
	switch dir, base := path.Split(name); dir {
	case "":
		return slices.Contains([]string{"plan.json", "seats.csv", "seats.xlsx", "tally.xlsx", "report.html"}, base)
	case "pictures/":
		return base == "rest.png" || base == "cues.gif" || strings.HasPrefix(base, "camera-") || strings.HasPrefix(base, "map-") || strings.HasPrefix(base, "matter-") || strings.HasPrefix(base, "light-")
	case "sheets/":
		return path.Ext(base) == ".pdf"
	}
	return false
}

// runAll runs the jobs on all processors, long ones first, and gives the
// error of the first job of the list that has one. After an error no further job starts.
func runAll(jobs []job) error {
	order := make([]int, len(jobs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return jobs[b].weight - jobs[a].weight })
	errs := make([]error, len(jobs))
	together.Until(len(order), func() []job { return jobs }, func(jobs []job, n int) bool {
		i := order[n]
		errs[i] = jobs[i].safely()
		return errs[i] != nil
	})
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// safely runs the job; what breaks inside it is an error, since a panic in a goroutine of
// its own would end the program with a trace that means nothing to people.
func (j job) safely() (err error) {
	defer func() {
		if broke := recover(); broke != nil {
			err = &seating.Fault{What: fmt.Sprintf("something broke inside: %v", broke), Hint: "this is a fault of everyseat: please report the command and the stunt file"}
		}
	}()
	return j.run()
}
