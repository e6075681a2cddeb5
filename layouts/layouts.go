// Package layouts writes everything a plan is for: tables, pictures, sheets and
// the report, into a sink. Start with Write; NewFolder, NewMemory and NewZip are the sinks.
package layouts

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/layouts/pictures"
	"everyseat/layouts/sheets"
	"everyseat/layouts/tables"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/marks"
	"everyseat/seating"
	"everyseat/seating/people"
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
	add(OnlyPlan, 3, "plan.json", of(tables.PlanJSON, b))
	add(OnlyTables, 1, "seats.csv", of(tables.Seats, p))
	add(OnlyTables, 4, "seats.xlsx", of(tables.Workbook, p))
	add(OnlyTables, 1, "tally.xlsx", of(tables.Tally, p))
	for cue := range p.Cues {
		n := strconv.Itoa(cue + 1)
		add(OnlyPictures, 9, "pictures/camera-"+n+".png", at(pictures.Camera, p, cue))
		add(OnlyPictures, 6, "pictures/map-"+n+".png", at(pictures.Map, b, cue))
		add(OnlyPictures, 2, "pictures/map-"+n+".svg", at(pictures.MapSVG, b, cue))
		if p.Stunt.Cues[cue].Text != "" {
			add(OnlyPictures, 9, "pictures/light-"+n+".png", at(pictures.Light, p, cue))
		}
		if b.Outlook.Cues[cue].Falls != nil {
			add(OnlyPictures, 7, "pictures/matter-"+n+".png", at(pictures.Matter, b, cue))
		}
	}
	add(OnlyPictures, 9, "pictures/rest.png", at(pictures.Camera, p, -1))
	add(OnlyPictures, 9+2*len(p.Cues), "pictures/cues.gif", of(pictures.Cues, p))
	put := func(name string, write func(io.Writer) error) error { return sink.Put("sheets/"+name, write) }
	several := func(weight int, write func(*brief.Brief, func(string, func(io.Writer) error) error) error) {
		if o.wants(OnlySheets) {
			all = append(all, job{weight, func() error { return write(b, put) }})
		}
	}
	several(8, sheets.Placards)
	add(OnlySheets, 5, "sheets/rows.pdf", of(sheets.Rows, b))
	if sheets.NeedsCord(p) {
		add(OnlySheets, 1, "sheets/cord.pdf", of(sheets.PitchCord, b))
	}
	add(OnlySheets, 2, "sheets/deal.pdf", of(sheets.Deal, b))
	add(OnlySheets, 1, "sheets/laying.pdf", of(sheets.Laying, b))
	add(OnlySheets, 1, "sheets/tally.pdf", of(sheets.Tally, b))
	add(OnlySheets, 3, "sheets/leaders.pdf", of(sheets.Leaders, b))
	add(OnlySheets, 2, "sheets/camera.pdf", of(sheets.Camera, b))
	add(OnlySheets, 1, "sheets/runsheet.pdf", of(sheets.RunSheet, b))
	add(OnlySheets, 3, "sheets/packet.pdf", of(sheets.Packet, b))
	add(OnlySheets, 1, "sheets/trial.pdf", of(sheets.Trial, b))
	add(OnlySheets, 1, "sheets/calldown.pdf", of(sheets.Calldown, b))
	if p.Stunt.Print.Bands {
		several(3, sheets.Bands)
	}
	add(OnlySheets, 1, "sheets/test.pdf", of(sheets.PrinterTest, b))
	add(OnlyReport, 3, "report.html", func(w io.Writer) error { return report(w, b, o.wants(OnlyPictures)) })
	return all
}

// of is what writes about a value, at is what writes about one of its cues.
func of[T any](write func(io.Writer, T) error, v T) func(io.Writer) error {
	return func(w io.Writer) error { return write(w, v) }
}

func at[T any](write func(io.Writer, T, int) error, v T, cue int) func(io.Writer) error {
	return func(w io.Writer) error { return write(w, v, cue) }
}

// Apart are the files of WriteMarks and WritePeople, which belong to no build.
var Apart = []string{"marks.csv", "pictures/marks.png", "people.csv"}

// Since are the files that a build adds whose plan is another one than that of the build before.
var Since = []string{"changes.csv", "sheets/changes.pdf"}

// WriteMarks writes where the camera can stand into the sink: marks.csv and
// pictures/marks.png. Errors are those of the sink.
func WriteMarks(m *marks.Map, code brief.Code, sink Sink) error {
	picture := func(w io.Writer) error { return pictures.Marks(w, m, code) }
	return runAll([]job{
		{1, func() error { return sink.Put("marks.csv", of(tables.Marks, m)) }},
		{2, func() error { return sink.Put("pictures/marks.png", picture) }},
	})
}

// WritePeople writes who sits where into the sink: people.csv. Errors are those of the sink.
func WritePeople(p *mosaic.Plan, s *people.Seated, sink Sink) error {
	return sink.Put("people.csv", func(w io.Writer) error { return tables.People(w, p, s) })
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
	return cmp.Or(errs...)
}

// safely runs the job; what breaks inside it is an error, since a panic in a goroutine of
// its own would end the program with a trace that means nothing to people.
func (j job) safely() (err error) {
	defer func() {
		if broke := recover(); broke != nil {
			err = &seating.Fault{
				What: fmt.Sprintf("something broke inside: %v", broke),
				Hint: "this is a fault of everyseat: please report the command and the stunt file",
			}
		}
	}()
	return j.run()
}
