package sheets

import (
	"fmt"
	"maps"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
)

var pieceNote = regexp.MustCompile(`Piece (\d+) of (\d+): column (\d+) of (\d+), row (\d+) of (\d+)\. Seat (\S+),`)

// tilePiece is one page of a tiled card as read back: what its rim says, and in points where it is cut and where
// the short lines for its neighbours are.
type tilePiece struct {
	page                     int
	seat                     string
	column, row              int
	columns, rows            int
	left, right, top, bottom float64
	across, down             []float64
}

// tilePieces reads the pages that carry a piece's note.
func tilePieces(t *testing.T, file string) []tilePiece {
	t.Helper()
	var list []tilePiece
	pics := renderGray(t, file, marksDPI)
	for n, page := range cutPages(t, file) {
		var texts []string
		for _, w := range page.list {
			texts = append(texts, w.text)
		}
		m := pieceNote.FindStringSubmatch(strings.Join(texts, " "))
		if m == nil {
			continue
		}
		if len(page.across) != 2 || len(page.down) != 2 {
			t.Fatalf("page %d is cut at %v and %v", n+1, page.across, page.down)
		}
		pc := tilePiece{page: n, seat: m[7], column: int(number(t, m[3])), columns: int(number(t, m[4])), row: int(number(t, m[5])), rows: int(number(t, m[6])),
			left: page.across[0], right: page.across[1], top: page.down[0], bottom: page.down[1]}
		pc.across = pics[n].strokes(true, pc.top, pc.left, pc.right)
		pc.down = pics[n].strokes(false, pc.left, pc.top, pc.bottom)
		list = append(list, pc)
	}
	return list
}

// strokes are where thin lines stand on a piece's edge, 2 mm inside of it, between two points of the edge.
func (g *grayPage) strokes(across bool, edge, from, to float64) []float64 {
	px := func(points float64) int { return int(math.Round(points / 72 * g.dots)) }
	line := px(edge + 2*72/25.4)
	var list []float64
	start := -1
	for i := px(from + 2); i <= px(to-2); i++ {
		v := g.pixels[line*g.width+i]
		if !across {
			v = g.pixels[i*g.width+line]
		}
		switch {
		case v < 160 && start < 0:
			start = i
		case v >= 160 && start >= 0:
			list = append(list, (float64(start)+float64(i))/2/g.dots*72)
			start = -1
		}
	}
	return list
}

// The pieces of a large card, cut at their marks and glued up to their short lines, make a card of its size; every card
// has all of its pieces, in order, and its label once, on the part that no other piece covers.
func TestTiledCards(t *testing.T) {
	in := seating.Inch
	for _, c := range []struct {
		paper         string
		width, height seating.Length
		bonded        bool
	}{
		{"Letter", 17 * in, 11 * in, false}, {"Letter", 22 * in, 28 * in, false}, {"A4", 420 * seating.Millimetre, 297 * seating.Millimetre, false},
		{"A4", 200 * seating.Millimetre, 500 * seating.Millimetre, true},
	} {
		t.Run(fmt.Sprint(c.paper, " ", c.width, " × ", c.height), func(t *testing.T) {
			t.Parallel()
			s := sample{sections: []string{"A"}, rows: 2, seats: 7, plain: true, paper: c.paper, title: "x", hue: func(_, _, _, place int) int { return 1 + place%2 }}
			if c.bonded {
				s.bonded, s.cues, s.colours = true, 2, []string{"Cream", "Gold"}
				s.hue = func(_, _, _, place int) int { return place % 2 }
			}
			p := onCards(t, s, mosaic.OnStock, c.width, c.height)
			for i := range p.Stunt.Colours { // black can be read on all of them
				p.Stunt.Colours[i].RGB = sampleColours[1+2*(i%2)]
			}
			p.Stunt.Print.Tile = true
			dir, names := placardFiles(t, p)
			if len(names) != 2 {
				t.Fatalf("files %v", names)
			}
			for _, name := range names {
				file := filepath.Join(dir, name)
				judge(t, "qpdf", "--check", file)
				colour := slices.IndexFunc(p.Stunt.Colours, func(k mosaic.Colour) bool { return name == "placards-"+strings.ToUpper(k.Name)+".pdf" })
				pieces := tilePieces(t, file)
				checkTiles(t, name, pieces, idsOfColour(p, int16(colour)), c.width, c.height)
				checkTileLabels(t, name, pieces, pageWords(t, file), idsOfColour(p, int16(colour)))
				for n, page := range pageWords(t, file) {
					for _, fault := range page.faultsWithin(5) {
						t.Errorf("%s, page %d: %s", name, n+1, fault)
					}
				}
			}
		})
	}
}

// checkTiles puts every card together.
func checkTiles(t *testing.T, name string, pieces []tilePiece, want []string, width, height seating.Length) {
	t.Helper()
	if len(pieces) == 0 {
		t.Fatalf("%s has no pieces", name)
	}
	columns, rows := pieces[0].columns, pieces[0].rows
	if len(pieces) != len(want)*columns*rows {
		t.Fatalf("%s: %d pieces of %d × %d for %d cards", name, len(pieces), columns, rows, len(want))
	}
	mm := func(l seating.Length) float64 { return float64(l) / 1e6 }
	for n, id := range want {
		card := pieces[n*columns*rows : (n+1)*columns*rows]
		wide, high := 0.0, 0.0
		for k, pc := range card {
			if pc.seat != id || pc.column != k%columns+1 || pc.row != k/columns+1 {
				t.Fatalf("%s: piece %d of %s is for %s, column %d, row %d", name, k+1, id, pc.seat, pc.column, pc.row)
			}
			if pc.row == 1 {
				wide += pc.right - pc.left
				if pc.column > 1 {
					wide -= lapBetween(t, card[k-1].across, card[k-1].right, pc.across, pc.left)
				}
			}
			if pc.column == 1 {
				high += pc.bottom - pc.top
				if pc.row > 1 {
					above := card[k-columns]
					high -= lapBetween(t, above.down, above.bottom, pc.down, pc.top)
				}
			}
		}
		if w, h := wide/72*25.4, high/72*25.4; math.Abs(w-mm(width)) > 0.4 || math.Abs(h-mm(height)) > 0.4 { // marks are read to a tenth of a millimetre each
			t.Errorf("%s: the card of %s becomes %.1f × %.1f mm, want %.1f × %.1f", name, id, w, h, mm(width), mm(height))
		}
	}
}

// lapBetween measures by how much two neighbours overlap: from the short line to the cut edge, on both of them alike.
func lapBetween(t *testing.T, before []float64, end float64, after []float64, start float64) float64 {
	t.Helper()
	if len(before) == 0 || len(after) == 0 {
		t.Fatal("a piece has no line for its neighbour")
	}
	a, b := end-before[len(before)-1], after[0]-start
	if math.Abs(a-b) > 0.8 {
		t.Errorf("neighbours overlap by %.1f and by %.1f points", a, b)
	}
	return a
}

// checkTileLabels: the large ids come once a card, in order, on the part of a piece that stays open.
func checkTileLabels(t *testing.T, name string, pieces []tilePiece, pages []words, want []string) {
	t.Helper()
	var got []string
	for _, pc := range pieces {
		open := pc.right
		if pc.column < pc.columns {
			open = pc.across[len(pc.across)-1]
		}
		for _, w := range pages[pc.page].list {
			if !isID(w.text) || w.y1-w.y0 < 15 {
				continue
			}
			got = append(got, w.text)
			if x0, y0, x1, y1 := w.core(); x0 < pc.left || x1 > open || y0 < pc.top || y1 > pc.bottom {
				t.Errorf("%s: the label of %s lies outside of its piece", name, w.text)
			}
		}
	}
	if err := checkIDs(got, want); err != nil {
		t.Errorf("%s: %v", name, err)
	}
}

// In full colour every piece is flooded to its cuts on both sides, and cards of one colour after the other have their
// fronts and backs on the same sheet, whichever way it turns.
func TestTiledFullColour(t *testing.T) {
	for _, shortEdge := range []bool{false, true} {
		p := onCards(t, sample{sections: []string{"A"}, rows: 1, seats: 2, plain: true, hue: func(_, _, _, place int) int { return place }}, mosaic.FullColoured, 17*seating.Inch, 11*seating.Inch)
		p.Stunt.Print.Tile, p.Stunt.Print.ShortEdge = true, shortEdge
		dir, names := placardFiles(t, p)
		file := filepath.Join(dir, names[0])
		judge(t, "qpdf", "--check", file)
		judge(t, "pdftoppm", "-r", "72", file, filepath.Join(dir, "p"))
		pages := cutPages(t, file)
		cards := 0
		for n := 3; n < len(pages); n += 2 {
			back := pages[n]
			if len(back.across) != 2 || len(back.down) != 2 {
				t.Fatalf("page %d is cut at %v and %v", n+1, back.across, back.down)
			}
			want := colour.RGB{}
			for _, w := range back.list {
				if strings.HasPrefix(w.text, "A-1-") {
					want = p.Stunt.Colours[p.Hands[0][seatOf(p, strings.TrimSuffix(w.text, ","))].Card].RGB
					cards++
					break
				}
			}
			const in = 9 // points inside the cuts
			for _, x := range []float64{back.across[0] + in, back.across[1] - in} {
				for _, y := range []float64{back.down[0] + in*2, back.down[1] - in*2} {
					fx, fy := throughTheSheet(back.words, shortEdge, x, y)
					for page, at := range map[int][2]float64{n + 1: {x, y}, n: {fx, fy}} {
						got, _ := pixel(t, filepath.Join(dir, fmt.Sprintf("p-%0*d.ppm", len(fmt.Sprint(len(pages))), page)), int(at[0]), int(at[1]))
						if got != want {
							t.Errorf("short edge %v, page %d at %.0f, %.0f: %v, want %v", shortEdge, page, at[0], at[1], got, want)
						}
					}
				}
			}
		}
		if cards == 0 || cards != (len(pages)-2)/2 {
			t.Errorf("%d pieces were looked at, %d pages", cards, len(pages))
		}
	}
}

// What to do stands in full sentences on both sides of a printed card of two colours, as high as is read at arm's length
// (16 minutes of arc at 60 cm, ISO 9241-3, SEEN-2nd).
func TestPrintedFeetAreRead(t *testing.T) {
	p := onCards(t, sample{sections: []string{"A"}, rows: 1, seats: 2, cues: 2, bonded: true, plain: true, colours: []string{"HAHA", "EHEH", "LLLL"}}, mosaic.FullColoured, 17*seating.Inch, 11*seating.Inch)
	p.Stunt.Print.Tile, p.Stunt.Print.ShortEdge = true, true
	dir, names := placardFiles(t, p)
	file := filepath.Join(dir, names[0])
	least := 600 * math.Tan(16.0/60*math.Pi/180) / paper.Capital * paper.PointsPerMM
	found := 0
	for n, page := range pageWords(t, file) {
		for _, w := range page.list {
			if w.text != "show" {
				continue
			}
			found++
			if size := (w.y1 - w.y0) / 1.362; size < least {
				t.Errorf("page %d: words of %.1f points, want %.1f", n+1, size, least)
			}
		}
	}
	if found < 2*2*2 {
		t.Errorf("%d cues on the sides of 2 cards say what to show", found)
	}
}

// The banner says on which piece of a card the label is: the one whose page has the large id, with cards of one colour
// and of two.
func TestTileLabelsAreWhereTheBannerSays(t *testing.T) {
	for _, s := range []sample{
		{sections: []string{"A"}, rows: 1, seats: 3, plain: true},
		{sections: []string{"A"}, rows: 1, seats: 3, plain: true, cues: 2, bonded: true},
	} {
		p := onCards(t, s, mosaic.FullColoured, 17*seating.Inch, 17*seating.Inch)
		p.Stunt.Print.Tile = true
		dir, names := placardFiles(t, p)
		pages := pageWords(t, filepath.Join(dir, names[0]))
		said := map[string]bool{}
		for _, m := range regexp.MustCompile(`label is on piece (\d+)`).FindAllStringSubmatch(saidIn(pages[0]), -1) {
			said[m[1]] = true
		}
		found := map[string]bool{}
		for _, page := range pages[2:] {
			m := regexp.MustCompile(`Piece (\d+) of`).FindStringSubmatch(saidIn(page))
			for _, w := range page.list {
				if m != nil && isID(w.text) && w.y1-w.y0 >= 15 {
					found[m[1]] = true
				}
			}
		}
		if len(found) == 0 || !maps.Equal(said, found) {
			t.Errorf("two colours %v: the banner says pieces %v, the labels are on %v", s.bonded, said, found)
		}
	}
}

func saidIn(page words) string {
	var parts []string
	for _, w := range page.list {
		parts = append(parts, w.text)
	}
	return strings.Join(parts, " ")
}
