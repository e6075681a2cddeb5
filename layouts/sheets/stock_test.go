package sheets

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// onCards are plans whose placards are printed on the cards.
func onCards(t *testing.T, s sample, how mosaic.Placards, width, height seating.Length) *mosaic.Plan {
	t.Helper()
	p := s.plan(t)
	p.Stunt.Print.Placards = how
	if how == mosaic.FullColoured {
		p.Stunt.Card.Kind = mosaic.Printed
	}
	p.Stunt.Card.Width, p.Stunt.Card.Height = width, height
	if how != mosaic.FullColoured {
		return p
	}
	var piles []stock.Pile
	for _, row := range p.Tally() {
		for c, n := range row.Cards {
			piles = append(piles, stock.Pile{Section: row.Section, Sides: p.Cards[c].Sides, Count: n})
		}
	}
	bill, err := stock.Buy(stock.Printed, piles, make([]stock.Supply, len(p.Stunt.Colours)), stock.DefaultWork())
	if err != nil {
		t.Fatal(err)
	}
	p.Bill = bill // which has the spares that are printed
	return p
}

// placardFiles prints the placards of a plan into a folder and gives their names.
func placardFiles(t *testing.T, p *mosaic.Plan) (dir string, names []string) {
	t.Helper()
	f := &files{}
	if err := Placards(told(p), f.put); err != nil {
		t.Fatal(err)
	}
	dir = t.TempDir()
	if err := f.into(dir); err != nil {
		t.Fatal(err)
	}
	return dir, f.names
}

// cutPage is one page as it is cut by its own marks, found in the picture that poppler draws of it.
type cutPage struct {
	words
	across, down []float64 // cuts in points from the left and from the top
}

// cutPages reads a file's words, and its marks at the left and at the upper edge of the paper.
func cutPages(t *testing.T, file string) []cutPage {
	t.Helper()
	var pages []cutPage
	const deep = "9" // pixels: 1.5 mm
	top := renderGray(t, file, marksDPI, "-x", "0", "-y", "0", "-W", "9999", "-H", deep)
	left := renderGray(t, file, marksDPI, "-x", "0", "-y", "0", "-W", deep, "-H", "9999")
	for i, w := range pageWords(t, file) {
		pages = append(pages, cutPage{words: w, across: top[i].marks(true), down: left[i].marks(false)})
	}
	return pages
}

// marksDPI is fine enough for lines of 0.15 mm.
const marksDPI = 150

// grayPage is a rendered page, a byte a pixel.
type grayPage struct {
	width, height int
	dots          float64 // an inch
	pixels        []byte
}

func renderGray(t *testing.T, file string, dpi int, more ...string) []grayPage {
	t.Helper()
	dir := t.TempDir()
	judge(t, "pdftoppm", append(append([]string{"-gray", "-r", strconv.Itoa(dpi)}, more...), file, filepath.Join(dir, "p"))...)
	list, err := filepath.Glob(filepath.Join(dir, "p-*.pgm"))
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(list)
	var pages []grayPage
	for _, name := range list {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		os.Remove(name)
		g := grayPage{dots: float64(dpi)}
		if _, err := fmt.Sscanf(string(data[:20]), "P5\n%d %d\n", &g.width, &g.height); err != nil {
			t.Fatal(err)
		}
		g.pixels = data[len(data)-g.width*g.height:]
		pages = append(pages, g)
	}
	return pages
}

// marks are where a line goes through the picture from edge to edge, in points: downwards (across), or
// from left to right.
func (g *grayPage) marks(across bool) []float64 {
	n, deep := g.height, g.width
	if across {
		n, deep = g.width, g.height
	}
	dark := func(i, k int) bool {
		if across {
			return g.pixels[k*g.width+i] < 225
		}
		return g.pixels[i*g.width+k] < 225
	}
	var list []float64
	from := -1
	for i := 0; i <= n; i++ {
		line := i < n
		for k := 0; line && k < deep; k++ {
			line = dark(i, k)
		}
		switch {
		case line && from < 0:
			from = i
		case !line && from >= 0:
			list = append(list, (float64(from)+float64(i))/2/g.dots*72)
			from = -1
		}
	}
	return list
}

// cell is the number of the piece in which a word's middle lies, when the page is cut.
func (p *cutPage) cell(w word) int {
	x, y := (w.x0+w.x1)/2, (w.y0+w.y1)/2
	column, _ := slices.BinarySearch(p.across, x)
	row, _ := slices.BinarySearch(p.down, y)
	return column*(len(p.down)+1) + row
}

// cutAndStack does what the banner tells: every job's sheets are cut as one pile along their marks, the
// piles are stacked by the number that their pieces carry. It gives the ids from the top of all jobs' stacks, one
// on the other, and how many sheets each job has.
func cutAndStack(t *testing.T, pages []cutPage, sections []string, faces int) (ids []string, sheets []int) {
	t.Helper()
	var job []cutPage
	stack := func() {
		if len(job) == 0 {
			return
		}
		ids = append(ids, stackJob(t, job, sections)...)
		sheets = append(sheets, len(job))
		job = nil
	}
	skip := 0
	for n, page := range pages {
		if len(page.list) > 0 && page.list[0].text == "JOB" {
			stack()
			skip = faces // the banner, and its back
		}
		if skip > 0 {
			skip--
			continue
		}
		if faces == 2 && n%2 == 0 {
			continue // the front; its back carries marks and words
		}
		job = append(job, page)
	}
	stack()
	return ids, sheets
}

func stackJob(t *testing.T, job []cutPage, sections []string) []string {
	t.Helper()
	piles := map[int][]string{} // by the number that they carry
	cells := map[int]int{}
	for n, page := range job {
		if !sameMarks(page.across, job[0].across) || !sameMarks(page.down, job[0].down) {
			t.Fatalf("sheet %d has its marks at %v and %v, sheet 1 at %v and %v: one cut does not do", n+1, page.across, page.down, job[0].across, job[0].down)
		}
		text := map[int]string{}
		for _, w := range page.list {
			text[page.cell(w)] += w.text + " "
		}
		for cell, words := range text {
			found := idsIn(words, sections)
			if len(found) == 0 {
				continue
			}
			pile := 1
			if m := pileNote.FindStringSubmatch(words); m != nil {
				pile, _ = strconv.Atoi(m[1])
				if m[2] != strconv.Itoa(n+1) {
					t.Errorf("sheet %d says %q", n+1, m[0])
				}
			}
			if before, ok := cells[cell]; ok && before != pile {
				t.Errorf("piece %d of sheet %d says pile %d, the pile is %d", cell, n+1, pile, before)
			}
			cells[cell] = pile
			if len(found) != 1 {
				t.Errorf("a piece carries %v", found)
			}
			piles[pile] = append(piles[pile], found...)
		}
	}
	var stack []string
	for n := 1; n <= len(piles)+1; n++ {
		stack = append(stack, piles[n]...)
	}
	return stack
}

var pileNote = regexp.MustCompile(`pile (\d+), sheet (\d+) of \d+`)

func sameMarks(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) < 0.3 })
}

// idsOfColour are the seats that hold a sheet of the colour, in laying order, once for each such card,
// counted straight from the hands. Cards of two colours count for both.
func idsOfColour(p *mosaic.Plan, colour int16) []string {
	var ids []string
	for _, seat := range p.Order {
		has := map[int16]bool{}
		for cue := range p.Hands {
			h := p.Hands[cue][seat]
			if h.Card < 0 || has[h.Card] {
				continue
			}
			has[h.Card] = true
			if s := p.Cards[h.Card].Sides; s[0] == colour || s[1] == colour {
				ids = append(ids, p.Stands.ID(int(seat)))
			}
		}
	}
	return ids
}

// The sheets of every colour, cut along their marks and stacked, are the cards of that colour in laying order: one to a
// sheet, two, four; one colour and two on a card; and the dark colour's labels on white paper.
func TestStockInRowOrder(t *testing.T) {
	mm := seating.Millimetre
	for _, c := range []struct {
		name          string
		sample        sample
		width, height seating.Length
		perSheet      int
	}{
		{"whole sheets", sample{sections: []string{"A", "B"}, rows: 4, seats: 9, title: "x"}, 11 * seating.Inch, 17 * seating.Inch / 2, 1},
		{"over fifty", sample{sections: []string{"A"}, rows: 4, seats: 15, plain: true, hue: func(_, _, row, _ int) int { return 1 + row/4 }}, 11 * seating.Inch, 17 * seating.Inch / 2, 1},
		{"halves", sample{sections: []string{"A"}, rows: 5, seats: 9, paper: "A4"}, 210 * mm, 148 * mm, 2},
		{"four", sample{sections: []string{"A", "B"}, rows: 5, seats: 11, paper: "A3", cues: 2}, 200 * mm, 140 * mm, 4},
		{"two sides", sample{sections: []string{"A"}, rows: 3, seats: 9, paper: "A3", cues: 2, bonded: true, colours: []string{"Cream", "Gold", "Grey"}}, 200 * mm, 140 * mm, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := onCards(t, c.sample, mosaic.OnStock, c.width, c.height)
			if c.sample.bonded { // black can be read on all of them
				for i, rgb := range []colour.RGB{{0xff, 0xf3, 0xd6}, {0xf2, 0xb7, 0x05}, {0xa0, 0xa0, 0xa0}} {
					p.Stunt.Colours[i].RGB = rgb
				}
			}
			dir, names := placardFiles(t, p)
			seen := 0
			for i := range p.Stunt.Colours {
				want := idsOfColour(p, int16(i))
				if len(want) == 0 {
					continue
				}
				seen++
				name := "placards-" + strings.ToUpper(p.Stunt.Colours[i].Name) + ".pdf"
				got, sheets := cutAndStack(t, cutPages(t, filepath.Join(dir, name)), sectionNames(p), 1)
				if err := checkIDs(got, want); err != nil {
					t.Errorf("%s: %v", name, err)
				}
				per := c.perSheet
				if p.Stunt.WhiteLabel(i) {
					if per = 4; c.name == "four" {
						per = 6 // four labels on A3 would be larger than the card
					}
				}
				for n, s := range sheets {
					if s > 50 || n+1 < len(sheets) && s != 50 {
						t.Errorf("%s: job %d of %d has %d sheets", name, n+1, len(sheets), s)
					}
				}
				if all := (len(want) + per - 1) / per; sum(sheets) != all {
					t.Errorf("%s: %d sheets for %d cards, want %d", name, sum(sheets), len(want), all)
				}
				banners(t, filepath.Join(dir, name), sheets, 1)
				judge(t, "qpdf", "--check", filepath.Join(dir, name))
				for n, page := range pageWords(t, filepath.Join(dir, name)) {
					for _, fault := range page.faults() {
						t.Errorf("%s, page %d: %s", name, n+1, fault)
					}
				}
			}
			if len(names) != seen || seen == 0 {
				t.Errorf("files %v for %d colours", names, seen)
			}
		})
	}
}

func sum(list []int) int {
	n := 0
	for _, v := range list {
		n += v
	}
	return n
}

var (
	bannerJob   = regexp.MustCompile(`JOB (\d+) OF (\d+)\s+Load (\d+) sheets? of`)
	bannerPages = regexp.MustCompile(`Print pages? (\d+)(?: to (\d+))?`)
)

// banners checks that every job's banner names its sheets and its pages, by counting them.
func banners(t *testing.T, file string, sheets []int, faces int) {
	t.Helper()
	pages := strings.Split(strings.TrimSuffix(judge(t, "pdftotext", "-raw", file, "-"), "\f"), "\f")
	at := 0
	for n, count := range sheets {
		job, print := bannerJob.FindStringSubmatch(pages[at]), bannerPages.FindStringSubmatch(pages[at])
		if job == nil || print == nil {
			t.Fatalf("page %d is no banner: %q", at+1, pages[at])
		}
		if want := fmt.Sprint(n+1, len(sheets), count); fmt.Sprint(job[1], " ", job[2], " ", job[3]) != want {
			t.Errorf("job %v, want %s", job[1:], want)
		}
		first, last := at+1+faces, at+faces+faces*count
		if print[2] == "" {
			print[2] = print[1]
		}
		if print[1] != strconv.Itoa(first) || print[2] != strconv.Itoa(last) {
			t.Errorf("job %d is said to be on pages %s to %s, it is on %d to %d", n+1, print[1], print[2], first, last)
		}
		at = last
	}
	if at != len(pages) {
		t.Errorf("%d pages, the jobs have %d", len(pages), at)
	}
}

// What the reading notices: two seats swapped in the plan.
func TestCutAndStackNotices(t *testing.T) {
	need(t, "pdftotext", "pdftoppm")
	s := sample{sections: []string{"A"}, rows: 5, seats: 9, plain: true, hue: func(int, int, int, int) int { return 1 }}
	p := onCards(t, s, mosaic.OnStock, 17*seating.Inch/2, 11*seating.Inch/2)
	want := wantIDs(p)
	p.Order[20], p.Order[21] = p.Order[21], p.Order[20]
	dir, names := placardFiles(t, p)
	got, _ := cutAndStack(t, cutPages(t, filepath.Join(dir, names[0])), sectionNames(p), 1)
	if checkIDs(got, want) == nil {
		t.Error("two swapped seats were not noticed")
	}
}

// A printed card's middle is the colour that the palette gives its side, on the front and on the back, and
// the words on the back are in the one of black and white that can be read there.
func TestPrintedColours(t *testing.T) {
	for _, shortEdge := range []bool{false, true} {
		for index := range 3 {
			p := onCards(t, sample{sections: []string{"A"}, rows: 1, seats: 1, hue: func(int, int, int, int) int { return index }}, mosaic.FullColoured, 11*seating.Inch, 17*seating.Inch/2)
			p.Stunt.Print.ShortEdge = shortEdge
			dir, names := placardFiles(t, p)
			want := p.Stunt.Colours[index].RGB
			judge(t, "pdftoppm", "-r", "72", filepath.Join(dir, names[0]), filepath.Join(dir, "p"))
			for page, at := range map[int][2]int{3: {396, 306}, 4: {396, 540}} { // a back is words in its upper half
				if page == 4 && !shortEdge { // a landscape page turned over the long edge stands on its head
					at[1] = 612 - at[1]
				}
				got, ok := pixel(t, filepath.Join(dir, fmt.Sprintf("p-%d.ppm", page)), at[0], at[1])
				if !ok || got != want {
					t.Errorf("%s, page %d: %v, want %v", p.Stunt.Colours[index].Name, page, got, want)
				}
			}
		}
	}
}

// pixel is what a rendered page has at a place; false outside of it.
func pixel(t *testing.T, file string, x, y int) (colour.RGB, bool) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var w, h int
	if _, err := fmt.Sscanf(string(data[:20]), "P6\n%d %d\n", &w, &h); err != nil {
		t.Fatal(err)
	}
	at := len(data) - 3*w*h + 3*(y*w+x)
	if x >= w || y >= h {
		return colour.RGB{}, false
	}
	return colour.RGB(data[at : at+3]), true
}

// The cost of full colour stands on the banner as the plan's bill has it.
func TestPrintedCost(t *testing.T) {
	s := hall()
	s.Card.Kind, s.Print.Placards = mosaic.Printed, mosaic.FullColoured
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	bill := p.Bill
	if !bill.Priced || bill.Toner == 0 {
		t.Fatal("the sample has no price")
	}
	dir, names := placardFiles(t, p)
	text := strings.Join(strings.Fields(judge(t, "pdftotext", "-raw", "-l", "1", filepath.Join(dir, names[0]), "-")), " ")
	want := fmt.Sprintf("%d sides flooded with toner, together %d.%02d", bill.Toner, bill.GoodsCents/100, bill.GoodsCents%100)
	if !strings.Contains(text, want) {
		t.Errorf("want %q in %q", want, text)
	}
}

// Labels for dark stock, as their own marks cut them, are smaller than the card that they are stuck on, however few
// placards a sheet the stunt asks for, and several come on a sheet.
func TestDarkLabelsAreSmaller(t *testing.T) {
	mm := seating.Millimetre
	for _, c := range []struct {
		card     [2]seating.Length
		perSheet int
	}{
		{[2]seating.Length{11 * seating.Inch, 17 * seating.Inch / 2}, 1},
		{[2]seating.Length{17 * seating.Inch / 2, 11 * seating.Inch}, 1},
		{[2]seating.Length{148 * mm, 210 * mm}, 1},
		{[2]seating.Length{210 * mm, 99 * mm}, 2},
		{[2]seating.Length{130 * mm, 90 * mm}, 8},
	} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 9, plain: true, perSheet: c.perSheet, card: c.card, hue: func(int, int, int, int) int { return 0 }}.plan(t)
		p.Stunt.Print.Placards = mosaic.OnStock
		dir, names := placardFiles(t, p)
		pages := cutPages(t, filepath.Join(dir, names[0]))
		page := pages[1] // after the banner
		got := 0
		high, left := 0.0, 0.0
		for _, y := range page.down {
			if left > 0 {
				high = max(high, y-left)
			}
			left = y
		}
		wide := page.width
		if len(page.across) > 0 {
			wide = max(page.across[0], page.width-page.across[len(page.across)-1])
		}
		for _, w := range page.list {
			if len(idsIn(w.text, sectionNames(p))) > 0 {
				got++
			}
		}
		rims := 2 * edgeMargin // stay on the labels at the sheet's sides, and are cut off or folded
		if wide/paper.PointsPerMM-rims > millimetres(c.card[0])+0.5 || high/paper.PointsPerMM > millimetres(c.card[1])+0.5 || got < 4 {
			t.Errorf("card %v: %d labels on a sheet, up to %.0f × %.0f mm", c.card, got, wide/paper.PointsPerMM, high/paper.PointsPerMM)
		}
	}
}

// A label that the stunt asks for and that is larger than the card is refused, on stock and on plain paper; on a card
// that is put together of several sheets it is not.
func TestLabelLargerThanCard(t *testing.T) {
	in := seating.Inch
	wide := &mosaic.LabelGrid{Columns: 1, Rows: 1, Width: 7 * in, Height: 9 * in, Left: in / 2, Top: in}
	for _, c := range []struct {
		name   string
		change func(*mosaic.Stunt)
		key    string
	}{
		{"one a sheet", func(s *mosaic.Stunt) { s.Print.PerSheet = 1 }, "print.per_sheet"},
		{"a large label", func(s *mosaic.Stunt) { s.Print.Grid = wide }, "print.grid"},
		{"a large label on stock", func(s *mosaic.Stunt) { s.Print.Grid, s.Print.Placards = wide, mosaic.OnStock }, "print.grid"},
		{"upright card", func(s *mosaic.Stunt) { s.Print.Grid, s.Card.Width, s.Card.Height = wide, s.Card.Height, s.Card.Width }, ""},
		{"four a sheet", func(s *mosaic.Stunt) { s.Print.PerSheet = 4 }, ""},
	} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 4}.plan(t)
		c.change(p.Stunt)
		for _, err := range []error{Check(told(p)), Placards(told(p), (&files{}).put)} {
			var fault *seating.Fault
			if c.key == "" {
				if err != nil {
					t.Errorf("%s: %v", c.name, err)
				}
			} else if !errors.As(err, &fault) || fault.Key != c.key || !strings.Contains(fault.What, "larger than the card it is stuck on") || fault.Hint == "" {
				t.Errorf("%s: %v", c.name, err)
			}
		}
	}
	p := sample{sections: []string{"A"}, rows: 2, seats: 4, perSheet: 1}.plan(t)
	var fault *seating.Fault
	if err := Check(told(p)); !errors.As(err, &fault) {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`per_sheet = (\d+)`).FindStringSubmatch(fault.Hint)
	if m == nil {
		t.Fatalf("the hint names no number: %s", fault.Hint)
	}
	p.Stunt.Print.PerSheet, _ = strconv.Atoi(m[1])
	if err := Check(told(p)); err != nil {
		t.Errorf("%s was taken, and then: %v", m[0], err)
	}
}

// What cannot be printed on cards is one line with a hint.
func TestCardFaults(t *testing.T) {
	in := seating.Inch
	for _, c := range []struct {
		name      string
		change    func(*mosaic.Stunt)
		key, what string
	}{
		{"stock for printed cards", func(s *mosaic.Stunt) { s.Print.Placards, s.Card.Kind = mosaic.OnStock, mosaic.Printed }, "print.placards", "white card"},
		{"full colour on stock", func(s *mosaic.Stunt) { s.Print.Placards, s.Card.Kind = mosaic.FullColoured, mosaic.Sheet }, "print.placards", "coloured stock"},
		{"too large", func(s *mosaic.Stunt) { s.Print.Placards, s.Card.Width = mosaic.OnStock, 14*in }, "card.size", "14in × 8 1/2in is larger than Letter"},
		{"a card like a wall", func(s *mosaic.Stunt) {
			s.Print.Placards, s.Print.Tile, s.Card.Width = mosaic.OnStock, true, 1000*seating.Metre
		}, "card.size", "more than 24 sheets of Letter paper"},
		{"too small", func(s *mosaic.Stunt) { s.Print.Placards, s.Card.Width, s.Card.Height = mosaic.OnStock, in, in }, "card.size", "no room"},
		{"no such thing", func(s *mosaic.Stunt) { s.Print.Placards = "banners" }, "print.placards", "banners"},
	} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 4}.plan(t)
		c.change(p.Stunt)
		for _, err := range []error{Check(told(p)), Placards(told(p), (&files{}).put)} {
			var fault *seating.Fault
			if !errors.As(err, &fault) || fault.Key != c.key || !strings.Contains(fault.What, c.what) || fault.Hint == "" {
				t.Errorf("%s: %v", c.name, err)
			}
		}
	}
}
