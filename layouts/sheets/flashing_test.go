package sheets

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
)

// Where the crew has accepted a sequence that flashes, no page of any paper goes without that line.
func TestFlashingOnEveryPage(t *testing.T) {
	need(t, "pdftotext")
	const risk = "This sequence flashes."
	check := func(name, path string) {
		pages := strings.Split(strings.TrimSuffix(judge(t, "pdftotext", "-raw", path, "-"), "\f"), "\f")
		for i, page := range pages {
			if !strings.Contains(page, "FLASHING") {
				t.Errorf("%s, page %d of %d: no word of the flashing", name, i+1, len(pages))
			}
		}
	}
	whole := *inHall(t, nil)
	whole.Flashing = risk
	for _, sheet := range crewSheets {
		check(sheet.name, onPaper(t, sheet.name, &whole))
	}
	dir := t.TempDir()
	for _, sheet := range []struct {
		name  string
		write func(io.Writer, *brief.Brief) error
	}{{"rows.pdf", Rows}, {"test.pdf", PrinterTest}} {
		var b bytes.Buffer
		if err := sheet.write(&b, told(&whole)); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, sheet.name)
		if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		check(sheet.name, path)
	}
	s := sample{sections: []string{"A"}, rows: 2, seats: 9, title: "x"}
	labels, pile, stuck := s.plan(t), s.plan(t), s.plan(t)
	pile.Stunt.Print.WholePile = true
	grid := stickers["ten on Letter"].grid
	stuck.Stunt.Print.Grid = &grid
	cards := onCards(t, s, mosaic.OnStock, 11*seating.Inch, 17*seating.Inch/2)
	for name, p := range map[string]*mosaic.Plan{"labels": labels, "piles": pile, "stickers": stuck, "stock": cards} {
		p.Flashing = risk
		where, names := placardFiles(t, p)
		for _, file := range names {
			check(name+" "+file, filepath.Join(where, file))
		}
	}
}
