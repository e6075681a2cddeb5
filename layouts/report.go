package layouts

import (
	_ "embed"
	"html/template"
	"io"
	"slices"

	"everyseat/layouts/sheets"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
)

//go:embed report.html
var reportPage string

var reportTemplate = template.Must(template.New("report").Parse(reportPage))

// reportData is what the page shows.
type reportData struct {
	brief.Report
	Pictures bool // this run makes them
	Files    []reportFile
}

type reportFile struct{ Name, For string }

// report writes report.html: one page that needs no other file but the
// pictures, linked beside it where this run makes them.
func report(w io.Writer, b *brief.Brief, withPictures bool) error {
	return reportTemplate.Execute(w, &reportData{b.Report, withPictures, reportFiles(b.Plan)})
}

// reportFiles says what else there is.
func reportFiles(p *mosaic.Plan) []reportFile {
	paper, _ := mosaic.LookUpPaper(p.Stunt.Print.Paper)
	placards := reportFile{"sheets/placards-SECTION.pdf",
		"a label for every seat, in laying order, with a slip before each row (" + paper.Name + ")"}
	switch p.Stunt.Print.Placards {
	case mosaic.OnStock:
		placards = reportFile{"sheets/placards-COLOUR.pdf",
			"what is printed on the cards of each colour, or on labels for those too dark, in laying order"}
	case mosaic.FullColoured:
		placards.For = "the cards, printed in full colour on both sides, in laying order"
	}
	files := []reportFile{
		placards,
		{"sheets/rows.pdf", "a strip for every row, run by run from both ends"},
		{"sheets/packet.pdf", "what whoever must say yes has to see: cautions, head count, map, lines to sign"},
		{"sheets/test.pdf", "one sheet, both sides: does the printer keep to size and turn the paper as it should"},
		{"sheets/trial.pdf", "twelve people at the real mark, the week before"},
		{"sheets/tally.pdf", "cards by row and section, spares, what to buy, hours"},
		{"sheets/deal.pdf", "how the row bags are made up from the stacks, with their labels"},
		{"sheets/laying.pdf", "how cards are laid or passed, and which helper has which rows"},
		{"sheets/leaders.pdf", "a map of every block for whoever looks after it"},
		{"sheets/runsheet.pdf", "the day by the clock, and the signals"},
		{"sheets/calldown.pdf", "who comes when, through which door, to which rows, with a slip for every leader"},
		{"sheets/camera.pdf", "one page for the person at the lens"},
		{"seats.csv, seats.xlsx", "a line a seat, in laying order"},
		{"tally.xlsx", "cards and sheets by row and section, spares, what to buy, for a spreadsheet"},
		{"pictures/",
			"what the film will show at each cue and at rest, flat maps, cues.gif, the sequence at true speed, " +
				"and for each text light-1.png, the same in too much light, and a map of the seats that matter most"},
		{"plan.json", "the plan for programs"},
	}
	if p.Stunt.Print.Placards == mosaic.FullColoured {
		spares := reportFile{"sheets/spares.pdf", "spare cards for every section, printed both sides"}
		files = slices.Insert(files, 1, spares)
	}
	if p.Stunt.Print.Bands {
		files = append(files, reportFile{"sheets/bands.pdf", "a band or ticket for every seat"})
	}
	if sheets.NeedsCord(p) {
		const what = "for benches without seat numbers: where each seat is, as marks on a cord"
		files = slices.Insert(files, 2, reportFile{"sheets/cord.pdf", what})
	}
	return files
}
