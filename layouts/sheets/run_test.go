package sheets

import (
	"path/filepath"
	"testing"

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
			r := runOf(p)
			if r.pages != pages || pages == 0 {
				t.Errorf("%d pages are reckoned with, and the files have %d", r.pages, pages)
			}
			if n := p.SheetsPerCard(); p.Stunt.Print.Tile && (n < 2 || r.sheets != n*r.pieces) {
				t.Errorf("%d sheets for %d cards of %d sheets", r.sheets, r.pieces, n)
			}
			if r.jobs*jobSheets < r.sheets {
				t.Errorf("%d sheets in %d jobs", r.sheets, r.jobs)
			}
		})
	}
}
