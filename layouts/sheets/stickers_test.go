package sheets

import (
	"errors"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

// stickers are sheets of labels as shops sell them: ten of 4 × 2 in on Letter, twenty-one of 63.5 × 38.1 mm on A4 (MEMORY; their
// margins too).
var stickers = map[string]struct {
	paper string
	grid  mosaic.LabelGrid
}{
	"ten on Letter": {"Letter", mosaic.LabelGrid{Columns: 2, Rows: 5, Width: 4 * seating.Inch, Height: 2 * seating.Inch,
		Left: 4 * seating.Millimetre, Top: seating.Inch / 2, Across: 1064 * seating.Millimetre / 10}},
	"twenty-one on A4": {"A4", mosaic.LabelGrid{Columns: 3, Rows: 7, Width: 635 * seating.Millimetre / 10, Height: 381 * seating.Millimetre / 10,
		Left: 72 * seating.Millimetre / 10, Top: 151 * seating.Millimetre / 10, Across: 66 * seating.Millimetre}},
	"one on A5": {"A5", mosaic.LabelGrid{Columns: 1, Rows: 1, Width: 140 * seating.Millimetre, Height: 100 * seating.Millimetre, Left: 4 * seating.Millimetre, Top: 50 * seating.Millimetre}},
}

// Every word of every stick-on label lies on a label, labels computed here from the measures alone; and peeled off in
// reading order they are in laying order, a slip before each row.
func TestStickers(t *testing.T) {
	for name, c := range stickers {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := sample{sections: []string{"A", "B"}, rows: 3, seats: 11, paper: c.paper, cues: 2, cueName: "Glow", title: "x"}.plan(t)
			p.Stunt.Print.Grid = &c.grid
			code := string(told(p).Code)
			dir, names := placardFiles(t, p)
			var got []string
			slips := 0
			for _, name := range names {
				judge(t, "qpdf", "--check", filepath.Join(dir, name))
				for n, page := range pageWords(t, filepath.Join(dir, name)) {
					on := map[int]string{}
					for _, w := range page.list {
						label, ok := onLabel(&c.grid, w)
						if !ok {
							t.Errorf("%s, page %d: %q lies on no label", name, n+1, w.text)
						}
						on[label] += w.text + " "
					}
					for _, fault := range page.faultsWithin(5) { // what a printer leaves white where nothing is said
						t.Errorf("%s, page %d: %s", name, n+1, fault)
					}
					for label := range c.grid.Columns * c.grid.Rows {
						ids := idsIn(on[label], sectionNames(p))
						got = append(got, ids...)
						if len(ids) > 1 {
							t.Errorf("%s, page %d: %v on one label", name, n+1, ids)
						}
						if strings.Contains(on[label], "ROW ") {
							slips++
						}
						if on[label] != "" && !strings.Contains(on[label], code) {
							t.Errorf("%s, page %d: label %d does not carry the plan code", name, n+1, label+1)
						}
					}
				}
			}
			if err := checkIDs(got, wantIDs(p)); err != nil {
				t.Error(err)
			}
			if slips != 6 {
				t.Errorf("%d slips", slips)
			}
		})
	}
}

// onLabel is the label on which a word lies wholly, in reading order.
func onLabel(g *mosaic.LabelGrid, w word) (int, bool) {
	mm := func(l seating.Length) float64 { return float64(l) / 1e6 * 72 / 25.4 }
	across, down := mm(g.Across), mm(g.Down)
	if across == 0 {
		across = mm(g.Width)
	}
	if down == 0 {
		down = mm(g.Height)
	}
	x0, y0, x1, y1 := w.core()
	for row := range g.Rows {
		for column := range g.Columns {
			left, top := mm(g.Left)+float64(column)*across, mm(g.Top)+float64(row)*down
			if x0 >= left && x1 <= left+mm(g.Width) && y0 >= top && y1 <= top+mm(g.Height) {
				return row*g.Columns + column, true
			}
		}
	}
	return 0, false
}

// Label grids that cannot be are one line that says which measure is wrong.
func TestStickerFaults(t *testing.T) {
	mm := seating.Millimetre
	good := stickers["ten on Letter"].grid
	for _, c := range []struct {
		name   string
		change func(*mosaic.Print)
		key    string
		what   string
	}{
		{"good", func(*mosaic.Print) {}, "", ""},
		{"too wide for the sheet", func(p *mosaic.Print) { p.Grid.Columns = 3 }, "print.grid", "3 labels side by side reach to 318.4 mm, and Letter paper is 215.9 mm wide"},
		{"too high for the sheet", func(p *mosaic.Print) { p.Grid.Rows = 6 }, "print.grid", "6 labels one below the other reach to 317.5 mm, and Letter paper is 279.4 mm high"},
		{"before the sheet", func(p *mosaic.Print) { p.Grid.Left = -mm }, "print.grid", "left of the paper"},
		{"on each other", func(p *mosaic.Print) { p.Grid.Across = 100 * mm }, "print.grid", "lie on each other"},
		{"beyond the printer", func(p *mosaic.Print) { p.Margin = 9 * mm }, "print.grid", "at the left edge labels are printed up to 7.5 mm from the paper's edge, and the printer leaves 9.0 mm white"},
		{"too small for words", func(p *mosaic.Print) { p.Grid.Width, p.Grid.Height = 20*mm, 10*mm }, "print.grid", "no room on a label of 20.0 × 10.0 mm"},
		{"no labels", func(p *mosaic.Print) { p.Grid.Rows = 0 }, "print.grid", "2 × 0 labels"},
		{"a million labels", func(p *mosaic.Print) { p.Grid.Rows, p.Grid.Columns = 1<<40, 1<<40 }, "print.grid", "labels"},
		{"no width", func(p *mosaic.Print) { p.Grid.Width = 0 }, "print.grid", "a label of 0m"},
		{"cut", func(p *mosaic.Print) { p.WholePile = true }, "print.cut", "not cut"},
	} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 4}.plan(t)
		grid := good
		p.Stunt.Print.Grid = &grid
		c.change(&p.Stunt.Print)
		for _, err := range []error{Check(told(p)), Placards(told(p), (&files{}).put)} {
			var fault *seating.Fault
			if c.key == "" {
				if err != nil {
					t.Errorf("%s: %v", c.name, err)
				}
			} else if !errors.As(err, &fault) || fault.Key != c.key || !strings.Contains(fault.What, c.what) || fault.Hint == "" {
				t.Errorf("%s: %v", c.name, err)
			}
		}
	}
}

// Labels for dark stock are stick-on labels too where the stunt has some: peeled sheet by sheet they are in order.
func TestDarkStockOnStickers(t *testing.T) {
	p := onCards(t, sample{sections: []string{"A"}, rows: 3, seats: 9, title: "x"}, mosaic.OnStock, 11*seating.Inch, 17*seating.Inch/2)
	grid := stickers["ten on Letter"].grid
	p.Stunt.Print.Grid = &grid
	dir, names := placardFiles(t, p)
	if !slices.Contains(names, "placards-NAVY.pdf") {
		t.Fatalf("files %v", names)
	}
	pages := pageWords(t, filepath.Join(dir, "placards-NAVY.pdf"))
	var got []string
	for _, page := range pages[1:] { // after the banner
		on := map[int]string{}
		for _, w := range page.list {
			label, _ := onLabel(&grid, w)
			on[label] += w.text + " "
		}
		for label := range 10 {
			got = append(got, idsIn(on[label], sectionNames(p))...)
		}
	}
	if err := checkIDs(got, idsOfColour(p, 0)); err != nil {
		t.Error(err)
	}
	text := judge(t, "pdftotext", "-raw", "-l", "1", filepath.Join(dir, "placards-NAVY.pdf"), "-")
	if !strings.Contains(text, "Load 1 sheet of labels") || strings.Contains(text, "cut it") {
		t.Errorf("the banner says %q", text)
	}
}

// A label that is too small is told how small it may be, and one of that size is taken.
func TestSmallestLabel(t *testing.T) {
	mm := seating.Millimetre
	for _, side := range [][2]seating.Length{{63 * mm, 24 * mm}, {20 * mm, 40 * mm}, {99 * mm, 12 * mm}} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 4}.plan(t)
		p.Stunt.Print.Grid = &mosaic.LabelGrid{Columns: 1, Rows: 2, Width: side[0], Height: side[1], Left: 10 * mm, Top: 10 * mm}
		var fault *seating.Fault
		if err := Check(told(p)); !errors.As(err, &fault) || fault.Key != "print.grid" || !strings.Contains(fault.Hint, "25 mm") {
			t.Fatalf("%v × %v: %v", side[0], side[1], err)
		}
		m := regexp.MustCompile(`at ([\d.]+) mm wide is (\d+) mm high`).FindStringSubmatch(fault.Hint)
		if m == nil {
			t.Fatalf("no size in %q", fault.Hint)
		}
		high := seating.Length(number(t, m[2])) * mm
		p.Stunt.Print.Grid.Width, p.Stunt.Print.Grid.Height = seating.Length(number(t, m[1])*1e6), high
		if err := Check(told(p)); err != nil {
			t.Errorf("a label of the size that was asked for: %v", err)
		}
		if high -= mm; high >= 25*mm {
			p.Stunt.Print.Grid.Height = high
			if Check(told(p)) == nil {
				t.Errorf("a label of %v is taken, and the smallest was to be %v", high, high+mm)
			}
		}
	}
}
