package sheets

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/seating"
)

// The pages that the hours are reckoned from are the pages of the files, as poppler counts them, whichever way the
// placards are made; and jobs have at most 50 sheets.
func TestPrintRunCountsThePages(t *testing.T) {
	need(t, "pdftotext")
	s := sample{sections: []string{"A", "B"}, rows: 9, seats: 13, title: "x", paper: "Letter"}
	labels, pile, stuck := s.plan(t), s.plan(t), s.plan(t)
	pile.Stunt.Print.WholePile = true
	grid := stickers["ten on Letter"].grid
	stuck.Stunt.Print.Grid = &grid
	cases := map[string]*mosaic.Plan{"labels": labels, "piles": pile, "stickers": stuck,
		"stock":   onCards(t, s, mosaic.OnStock, 11*seating.Inch, 17*seating.Inch/2),
		"printed": onCards(t, s, mosaic.FullColoured, 11*seating.Inch, 17*seating.Inch/2)}
	for _, how := range []mosaic.Placards{mosaic.OnStock, mosaic.FullColoured} {
		tiled := onCards(t, sample{sections: []string{"A"}, rows: 3, seats: 9, title: "x", paper: "Letter"}, how, 22*seating.Inch, 17*seating.Inch)
		tiled.Stunt.Print.Tile = true
		for i := range tiled.Stunt.Colours { // no stock so dark that it takes labels
			tiled.Stunt.Colours[i].RGB = sampleColours[1]
		}
		cases["tiled "+string(how)] = tiled
	}
	for name, p := range cases {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir, names := placardFiles(t, p)
			pages := 0
			for _, file := range names {
				pages += len(pageWords(t, filepath.Join(dir, file)))
			}
			r := runSaid(t, told(p).Paper.Tally.Hours[0].Much)
			if r.pages != pages || pages == 0 {
				t.Errorf("%d pages are reckoned with, and the files have %d", r.pages, pages)
			}
			if n := p.SheetsPerCard(); p.Stunt.Print.Tile && (n < 2 || r.sheets != n*r.pieces) {
				t.Errorf("%d sheets for %d cards of %d sheets", r.sheets, r.pieces, n)
			}
			if r.jobs*paper.JobSheets < r.sheets {
				t.Errorf("%d sheets in %d jobs", r.sheets, r.jobs)
			}
		})
	}
}

// run is what printing comes to by the tally's words.
type run struct{ pieces, sheets, pages, jobs int }

var printed = regexp.MustCompile(`^(\S+) (?:labels?, \S+ row slips?|pieces?) on (\S+) sheets?(?:, (\S+) banner pages?|(, both sides, a banner page a job))?, (\S+) jobs?$`)

func runSaid(t *testing.T, words string) run {
	t.Helper()
	m := printed.FindStringSubmatch(words)
	if m == nil {
		t.Fatalf("%q says no run", words)
	}
	count := func(s string) int {
		if s == "" {
			return 0
		}
		return int(number(t, strings.ReplaceAll(s, ",", "")))
	}
	r := run{pieces: count(m[1]), sheets: count(m[2]), jobs: count(m[5])}
	if r.pages = r.sheets + count(m[3]); m[4] != "" { // a banner has a back
		r.pages = 2 * (r.sheets + r.jobs)
	}
	return r
}
