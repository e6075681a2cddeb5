package sheets

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

// A sheet that is turned over one of its edges is mirrored at that edge: over an upright edge left and
// right change places, over a level one top and bottom. That is all these tests know.

// throughTheSheet says where a point of the back page lies on the front page, in points.
func throughTheSheet(w words, shortEdge bool, x, y float64) (float64, float64) {
	overUpright := (w.height >= w.width) != shortEdge // the long edge stands upright on upright paper
	if overUpright {
		return w.width - x, y
	}
	return x, w.height - y
}

// Labels cut and stacked as the banner says come in laying order, slips and all: in one column and in two.
func TestLabelPilesStackInOrder(t *testing.T) {
	for _, c := range []sample{
		{sections: []string{"A"}, rows: 5, seats: 9},
		{sections: []string{"A"}, rows: 4, seats: 10, perSheet: 12, paper: "A4"},
		{sections: []string{"A"}, rows: 3, seats: 40, plain: true, perSheet: 2},
	} {
		p := c.plan(t)
		p.Stunt.Print.WholePile = true
		dir, names := placardFiles(t, p)
		file := filepath.Join(dir, names[0])
		got, sheets := cutAndStack(t, cutPages(t, file), sectionNames(p), 1)
		if err := checkIDs(got, wantIDs(p)); err != nil {
			t.Errorf("%d a sheet: %v", c.perSheet, err)
		}
		banners(t, file, sheets, 1)
		judge(t, "qpdf", "--check", file)
		for n, page := range pageWords(t, file) {
			for _, fault := range page.faults() {
				t.Errorf("page %d: %s", n+1, fault)
			}
		}
	}
}

// Both sides of every printed card carry the same seat where the sheet is cut, stand the same way up, and
// the cut piles are in laying order.
func TestBacksFallOnTheirFronts(t *testing.T) {
	mm := seating.Millimetre
	for _, shortEdge := range []bool{false, true} {
		for _, size := range [][2]seating.Length{{200 * mm, 140 * mm}, {140 * mm, 200 * mm}, {297 * mm, 420 * mm}, {420 * mm, 297 * mm}} {
			p := onCards(t, sample{sections: []string{"A"}, rows: 2, seats: 5, paper: "A3", cues: 2, bonded: true}, mosaic.FullColoured, size[0], size[1])
			p.Stunt.Print.ShortEdge = shortEdge
			dir, names := placardFiles(t, p)
			file := filepath.Join(dir, names[0])
			what := fmt.Sprintf("%v, short edge %v", size, shortEdge)
			pages := cutPages(t, file)
			if err := coincide(pages, shortEdge); err != nil {
				t.Errorf("%s: %v", what, err)
			}
			if coincide(pages, !shortEdge) == nil {
				t.Errorf("%s: the other turning does as well", what)
			}
			var want []string
			for _, id := range wantIDs(p) {
				for range p.CardsOf(nil, int32(seatOf(p, id))) {
					want = append(want, id)
				}
			}
			got, sheets := cutAndStack(t, pages, sectionNames(p), 2)
			if err := checkIDs(got, want); err != nil {
				t.Errorf("%s: %v", what, err)
			}
			banners(t, file, sheets, 2)
			judge(t, "qpdf", "--check", file)
		}
	}
}

func seatOf(p *mosaic.Plan, id string) int {
	for i := range p.Stands.Seats {
		if p.Stands.ID(i) == id {
			return i
		}
	}
	return -1
}

// coincide compares the sheets' fronts and backs, banner pages left out.
func coincide(pages []cutPage, shortEdge bool) error {
	compared := 0
	for n := 2; n+1 < len(pages); n += 2 {
		front, back := pages[n], pages[n+1]
		front.across, front.down = nil, nil
		for _, x := range back.across { // the marks are on the backs
			at, _ := throughTheSheet(back.words, shortEdge, x, 0)
			front.across = append(front.across, at)
		}
		for _, y := range back.down {
			_, at := throughTheSheet(back.words, shortEdge, 0, y)
			front.down = append(front.down, at)
		}
		slices.Sort(front.across)
		slices.Sort(front.down)
		fronts, backs := map[int]string{}, map[int]string{}
		above := map[int][2]float64{} // the id's height and the words' below it
		for _, w := range front.list {
			c := front.cell(w)
			if isID(w.text) {
				fronts[c] = w.text
				above[c] = [2]float64{(w.y0 + w.y1) / 2, above[c][1]}
			} else if w.text == "Section" {
				above[c] = [2]float64{above[c][0], (w.y0 + w.y1) / 2}
			}
		}
		ups := map[int][2]float64{}
		for _, w := range back.list {
			x, y := throughTheSheet(back.words, shortEdge, (w.x0+w.x1)/2, (w.y0+w.y1)/2)
			c := front.cell(word{x0: x, x1: x, y0: y, y1: y})
			if isID(w.text) {
				backs[c] = w.text
				ups[c] = [2]float64{y, ups[c][1]}
			} else if w.text == "Section" {
				ups[c] = [2]float64{ups[c][0], y}
			}
		}
		if len(fronts) != len(backs) || len(fronts) == 0 {
			return fmt.Errorf("page %d: %d cards in front, %d behind", n+1, len(fronts), len(backs))
		}
		for c, id := range fronts {
			if backs[c] != id {
				return fmt.Errorf("page %d: %s in front, %s behind", n+1, id, backs[c])
			}
			if above[c][0] >= above[c][1] || ups[c][0] >= ups[c][1] {
				return fmt.Errorf("page %d: a side of %s stands on its head", n+1, id)
			}
			compared++
		}
	}
	if compared == 0 {
		return fmt.Errorf("no card was compared")
	}
	return nil
}

func isID(s string) bool { return len(idsIn(s, []string{"A"})) == 1 }

// The test page's rulers are 100 mm long within 0.1, as poppler draws them, and its corners' letters lie on each
// other through the sheet under its own way of turning and under no other.
func TestPrinterTestPage(t *testing.T) {
	for _, paper := range []string{"Letter", "A4", "A3", "A5", "Tabloid", "Legal"} {
		for _, shortEdge := range []bool{false, true} {
			p := sample{sections: []string{"A"}, rows: 1, seats: 2, paper: paper}.plan(t)
			p.Stunt.Print.ShortEdge = shortEdge
			var b bytes.Buffer
			if err := PrinterTest(&b, told(p)); err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(t.TempDir(), "test.pdf")
			if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
			judge(t, "qpdf", "--check", file)
			pages := pageWords(t, file)
			if len(pages) != 2 {
				t.Fatalf("%d pages", len(pages))
			}
			for n, page := range pages {
				for _, fault := range page.faults() {
					t.Errorf("%s, page %d: %s", paper, n+1, fault)
				}
			}
			if err := lettersMeet(pages[0], pages[1], shortEdge); err != nil {
				t.Errorf("%s, short edge %v: %v", paper, shortEdge, err)
			}
			if lettersMeet(pages[0], pages[1], !shortEdge) == nil {
				t.Errorf("%s, short edge %v: the other turning does as well", paper, shortEdge)
			}
			if shortEdge || paper == "Legal" {
				continue
			}
			front := renderGray(t, file, 600, "-l", "1")[0]
			for _, down := range []bool{false, true} {
				if got := front.bar(down); math.Abs(got-100) > 0.1 {
					t.Errorf("%s, ruler down %v: %.2f mm", paper, down, got)
				}
			}
		}
	}
}

// lettersMeet: A to D, each on its own through the sheet, within 2 mm of the middles of poppler's boxes, which
// are not those of the letters.
func lettersMeet(front, back words, shortEdge bool) error {
	at := map[string][2]float64{}
	for _, w := range front.list {
		if len(w.text) == 1 && w.text >= "A" && w.text <= "D" && w.y1-w.y0 > 15 {
			at[w.text] = [2]float64{(w.x0 + w.x1) / 2, (w.y0 + w.y1) / 2}
		}
	}
	met := 0
	for _, w := range back.list {
		if len(w.text) != 1 || w.text < "A" || w.text > "D" || w.y1-w.y0 < 15 {
			continue
		}
		x, y := throughTheSheet(back, shortEdge, (w.x0+w.x1)/2, (w.y0+w.y1)/2)
		if f := at[w.text]; math.Hypot(f[0]-x, f[1]-y) > 2*72/25.4 {
			return fmt.Errorf("%s is at %v in front, at %.0f %.0f behind", w.text, f, x, y)
		}
		met++
	}
	if met != 4 || len(at) != 4 {
		return fmt.Errorf("%d letters in front, %d behind", len(at), met)
	}
	return nil
}

// bar is the longest straight run of ink between 80 and 120 mm, in millimetres.
func (g *grayPage) bar(down bool) float64 {
	lines, length := g.height, g.width
	if down {
		lines, length = g.width, g.height
	}
	dark := func(line, at int) bool {
		if down {
			return g.pixels[at*g.width+line] < 128
		}
		return g.pixels[line*g.width+at] < 128
	}
	best := 0.0
	for line := range lines {
		run := 0
		for at := 0; at <= length; at++ {
			if at < length && dark(line, at) {
				run++
				continue
			}
			if mm := float64(run) / g.dots * 25.4; mm > 80 && mm < 120 {
				best = max(best, mm)
			}
			run = 0
		}
	}
	return best
}
