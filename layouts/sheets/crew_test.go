package sheets

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
)

// crewSheets are the files beside placards and strips.
var crewSheets = []struct {
	name  string
	write func(io.Writer, *brief.Brief) error
}{
	{"cord.pdf", PitchCord},
	{"deal.pdf", Deal},
	{"laying.pdf", Laying},
	{"tally.pdf", Tally},
	{"leaders.pdf", Leaders},
	{"camera.pdf", Camera},
	{"runsheet.pdf", RunSheet},
	{"packet.pdf", Packet},
	{"trial.pdf", Trial},
	{"calldown.pdf", Calldown},
}

// hall is a whole stunt as a crew would write it: three sections, people on the floor, walls, a lane.
func hall() *mosaic.Stunt {
	bench := func(name string, seats int) seating.SectionSpec {
		return seating.SectionSpec{
			Name: name, Rows: 8, Seats: []int{seats}, Pitch: 20 * seating.Inch, Rise: 10 * seating.Inch,
			Run: 26 * seating.Inch, FirstRow: 10 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		}
	}
	a, b, c := bench("A", 8), bench("B", 14), bench("C", 8)
	a.Missing = []seating.SeatRange{{Row: "2", From: 3, To: 4}}
	a.Reserved = []seating.Reserved{
		{Seats: []seating.SeatRange{{Row: "1", From: 5}, {Row: "1", From: 7}}, For: "wheelchair"},
		{Seats: []seating.SeatRange{{Row: "1", From: 6}}, For: "companion"},
	}
	b.Reserved = []seating.Reserved{{Seats: []seating.SeatRange{{Row: "8", From: 7, To: 8}}, For: "platform"}}
	floor := seating.SectionSpec{
		Name: "PORT", Kind: seating.Floor, Rows: 3, Seats: []int{10}, Pitch: 24 * seating.Inch, Run: 30 * seating.Inch,
		NoCards: true, Place: &seating.Place{Across: -4 * seating.Metre, Away: -6 * seating.Metre},
	}
	return &mosaic.Stunt{
		Title: "Lantern Fair of Gullhaven", Date: "2027-10-02", Contact: "fair office, boat hall",
		Stands: seating.Spec{
			Sections: []seating.SectionSpec{a, b, c, floor}, Expected: 0.9, Posted: 700, People: 260,
			Lanes: []seating.Lane{{Name: "way along the stands", Left: -11 * seating.Metre, Right: 11 * seating.Metre, Near: -2 * seating.Metre}},
		},
		Room: mosaic.Room{
			Walls:     [][2]seating.Length{{-12 * seating.Metre, -18 * seating.Metre}, {12 * seating.Metre, -18 * seating.Metre}, {12 * seating.Metre, 8 * seating.Metre}, {-12 * seating.Metre, 8 * seating.Metre}},
			Obstacles: []camera.Obstacle{{Name: "post", Kind: "post", Across: 9 * seating.Metre, Away: -5 * seating.Metre, Width: 30 * seating.Centimetre, Height: 4 * seating.Metre}},
		},
		Camera: camera.Mark{Name: "camera", Across: seating.Metre, Back: 14 * seating.Metre, Height: 3 * seating.Metre, Picture: [2]int{1920, 1080}},
		Card:   mosaic.CardSpec{Width: 11 * seating.Inch, Height: 17 * seating.Inch / 2, Held: camera.Eyes, Kind: mosaic.Sheet},
		Colours: []mosaic.Colour{
			{Name: "NAVY", RGB: colour.RGB{0x14, 0x28, 0x4f}, Sheets: 400},
			{Name: "CREAM", RGB: colour.RGB{0xfd, 0xf4, 0xdc}, Sheets: -1, Pack: 50, PriceCents: 1390},
		},
		Cues: []mosaic.Cue{
			{Name: "First", Text: "UP", Ink: "CREAM", Ground: "NAVY", At: "count 33"},
			{Name: "Second", Text: "IT", Ink: "NAVY", Ground: "CREAM", At: "count 65"},
		},
		Tempo:  120,
		Laying: laying.Spec{Helpers: 4, PerCard: 6 * time.Second, PerRow: 20 * time.Second, Serpentine: true},
		Day: mosaic.Day{
			Doors: "17:30", Take: "18:45", Signs: []string{"fire official", "custodian of the stands"},
			Rehearsals: []string{"18:10", "18:25"}, Keys: []string{"boat hall", "stands"},
		},
	}
}

var madeHall = sync.OnceValues(func() (*mosaic.Plan, error) { return mosaic.Make(hall()) })

// inHall is the hall's plan, with another day or paper where change says so. What it changes must be nothing
// that the plan is made of.
func inHall(t testing.TB, change func(*mosaic.Stunt)) *mosaic.Plan {
	t.Helper()
	whole, err := madeHall()
	if err != nil {
		t.Fatal(err)
	}
	p, s := *whole, *whole.Stunt
	p.Stunt = &s
	if change != nil {
		change(&s)
	}
	return &p
}

func onPaperSize(name string) func(*mosaic.Stunt) {
	return func(s *mosaic.Stunt) { s.Print.Paper = name }
}

// onPaper writes one sheet of a plan to a file for the judges.
func onPaper(t testing.TB, name string, p *mosaic.Plan) string {
	t.Helper()
	for _, s := range crewSheets {
		if s.name != name {
			continue
		}
		var b bytes.Buffer
		if err := s.write(&b, told(p)); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	t.Fatalf("there is no sheet %s", name)
	return ""
}

// saidOn is the sheet's text in the order of drawing, one blank between words.
func saidOn(t testing.TB, name string, p *mosaic.Plan) string {
	t.Helper()
	return strings.Join(strings.Fields(judge(t, "pdftotext", "-raw", onPaper(t, name, p), "-")), " ")
}

// Every sheet is a sound file on the right paper, with its fonts inside, with nothing off the page, and the same
// bytes twice.
func TestCrewSheetsAreSound(t *testing.T) {
	need(t, "qpdf", "pdfinfo", "pdffonts")
	sizes := sizesInPoints(t)
	for _, paper := range []string{"Letter", "A5", "A4", "Legal", "Tabloid", "A3"} {
		t.Run(paper, func(t *testing.T) {
			t.Parallel()
			p := inHall(t, onPaperSize(paper))
			for _, sheet := range crewSheets {
				path := onPaper(t, sheet.name, p)
				hasBoxes(t, path, sizes[paper])
				if paper == "Letter" || paper == "A5" { // the usual and the smallest
					isSound(t, path)
					insidePage(t, path)
				}
				first, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				var again bytes.Buffer
				if err := sheet.write(&again, told(p)); err != nil || !bytes.Equal(first, again.Bytes()) {
					t.Errorf("%s: two runs differ (%v)", sheet.name, err)
				}
			}
		})
	}
}

// long is 200 characters, the most that a name may be expected to have.
var long = strings.Repeat("Gullhaven Harbour ", 12)[:200]

// Names of 200 characters, letters of several scripts, forty colours on one stand, no times and nobody named: every sheet
// is still a good page with nothing off it, and one that the type cannot print is refused before anything is written.
func TestCrewSheetsBearMuch(t *testing.T) {
	need(t, "qpdf", "pdffonts")
	p := inHall(t, func(s *mosaic.Stunt) {
		s.Title, s.Contact, s.Date = long, strings.ReplaceAll(long, " ", ""), "Ημερομηνία Дата Ngày Nguyễn"
		s.Day = mosaic.Day{Take: long, Signs: []string{long, ""}, Keys: []string{strings.ReplaceAll(long, " ", "")}}
		s.Colours = append([]mosaic.Colour{}, s.Colours...)
		s.Colours[0].Name = long[:60]
		s.Room.Obstacles = append([]camera.Obstacle{}, s.Room.Obstacles...)
		s.Room.Obstacles[0].Name = long
	})
	many := samples["many cues"].plan(t)
	for _, sheet := range crewSheets {
		path := onPaper(t, sheet.name, p)
		isSound(t, path)
		insidePage(t, path)
		var b bytes.Buffer
		if err := sheet.write(&b, told(many)); err != nil && !errors.Is(err, errNoCamera) {
			t.Errorf("%s with ten cues and twelve colours: %v", sheet.name, err)
		} else if err == nil {
			isSound(t, onPaper(t, sheet.name, many))
		}
		b.Reset()
		var fault *seating.Fault
		err := sheet.write(&b, told(inHall(t, func(s *mosaic.Stunt) { s.Contact = "灯" })))
		if !errors.As(err, &fault) || fault.Key != "contact" || b.Len() > 0 {
			t.Errorf("%s: a sign that the type lacks gives %v and %d bytes", sheet.name, err, b.Len())
		}
	}
}

func hasBoxes(t *testing.T, path string, size [2]float64) {
	t.Helper()
	boxes := mediaBox.FindAllStringSubmatch(judge(t, "pdfinfo", "-box", "-l", "999", path), -1)
	if len(boxes) == 0 {
		t.Errorf("%s: no page", filepath.Base(path))
	}
	for _, b := range boxes {
		if err := hasSize(t, b[2:], size); err != nil {
			t.Errorf("%s, page %s: %v", filepath.Base(path), b[1], err)
		}
	}
}

// isSound asks qpdf, and looks whether all fonts are inside and have all signs of the text.
func isSound(t *testing.T, path string) {
	t.Helper()
	judge(t, "qpdf", "--check", path)
	fonts := strings.Split(strings.TrimSpace(judge(t, "pdffonts", path)), "\n")
	if len(fonts) < 3 {
		t.Errorf("%s: no fonts", filepath.Base(path))
	}
	for _, line := range fonts[min(2, len(fonts)):] {
		if f := strings.Fields(line); len(f) < 5 || f[len(f)-5] != "yes" {
			t.Errorf("%s: a font is not embedded: %s", filepath.Base(path), line)
		}
	}
	for _, r := range judge(t, "pdftotext", "-l", "6", path, "-") {
		if r > ' ' && !regular.Has(r) {
			t.Errorf("%s: the type has no %q", filepath.Base(path), r)
		}
	}
}

// insidePage finds words that a printer would cut off: copiers leave about 6 mm white (common practice, no source).
func insidePage(t *testing.T, path string) {
	t.Helper()
	const reach = 6.0 * 72 / 25.4
	var width, height float64
	page := 0
	// Three pages are enough to see them all: poppler is slow on maps, of which there may be many.
	for _, line := range strings.Split(judge(t, "pdftotext", "-bbox", "-l", "3", path, "-"), "\n") {
		if m := pageTag.FindStringSubmatch(line); m != nil {
			width, height = number(t, m[1]), number(t, m[2])
			page++
		}
		m := wordTag.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		if x0, y0, x1, y1 := inkBox(number(t, m[1]), number(t, m[2]), number(t, m[3]), number(t, m[4])); x0 < reach || x1 > width-reach || y0 < reach || y1 > height-reach/2 {
			t.Errorf("%s, page %d: %q runs off the page (%.0f %.0f %.0f %.0f of %.0f × %.0f)", filepath.Base(path), page, m[5], x0, y0, x1, y1, width, height)
		}
	}
	if page == 0 {
		t.Errorf("%s: no page was read", filepath.Base(path))
	}
}

// inkBox is a word's box from the baseline to the top of its capitals; poppler's reaches from the face's descent (0.293
// of the size) to its ascent (1.069).
func inkBox(x0, y0, x1, y1 float64) (float64, float64, float64, float64) {
	size := (y1 - y0) / 1.362
	base := y1 - 0.293*size
	return x0, base - paper.Capital*size, x1, base
}

var (
	bagLine   = regexp.MustCompile(`Bag (\d+): row (.+?) From the (LEFT|RIGHT) end as the camera sees it(?: \([^)]*\))?: (.*?)\. Check count: (.*?) = (\d+) cards?`)
	stackLine = regexp.MustCompile(`(\d+) counted`)
	afterLine = regexp.MustCompile(`the stacks hold (.*?) = (\d+) cards?\.`)
)

// Whoever deals the stacks by the sheet as it was read back gets every row's strip as it was read back, from
// the end at which the row begins, and no card is left over.
func TestDealtStacksGiveTheStrips(t *testing.T) {
	names := []string{"lantern", "serpentine", "from back", "two cards", "shirts", "many cues", "long rows", "bonded"}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := samples[name].plan(t)
			strips := stripsOf(t, readBack(t, name).rows)
			text := saidOn(t, "deal.pdf", p)
			if err := dealOut(text, strips, p); err != nil {
				t.Error(err)
			}
		})
	}
}

// oneKit takes the sign and the brackets off the cards of one person.
func oneKit(what string) string {
	return strings.TrimSuffix(strings.TrimPrefix(what, "× ("), ")")
}

// dealOut simulates the evening before.
func dealOut(text string, strips map[string]map[string][]string, p *mosaic.Plan) error {
	stack := map[string]int{}
	total := 0
	for _, row := range laidRows(p) {
		for c, n := range row.Cards {
			stack[p.Cards[c].ID] += n
			total += n
		}
	}
	set := 0
	for _, m := range stackLine.FindAllStringSubmatch(strings.Split(text, "How to deal")[0], -1) {
		n, _ := strconv.Atoi(m[1])
		set += n
	}
	if set != total {
		return fmt.Errorf("stacks of %d cards are set out, want %d", set, total)
	}
	dealt := 0
	for _, m := range bagLine.FindAllStringSubmatch(text, -1) {
		row, end, runs := m[2], m[3], m[4]
		var pile []string
		cards := 0
		for _, part := range strings.Split(runs, ", ") {
			count, what, _ := strings.Cut(part, " ")
			what = oneKit(what)
			n, err := strconv.Atoi(count)
			if err != nil {
				return fmt.Errorf("row %s: %q is no run", row, part)
			}
			for range n {
				pile = append(pile, what)
				for _, id := range strings.Split(what, " + ") {
					stack[id]--
					cards++
				}
			}
		}
		want := strips[row][end]
		if strings.Join(pile, "|") != strings.Join(want, "|") {
			return fmt.Errorf("row %s from the %s: the bag holds %v, the strip says %v", row, end, pile, want)
		}
		if said, _ := strconv.Atoi(m[6]); said != cards {
			return fmt.Errorf("row %s: check count %d for %d cards", row, said, cards)
		}
		dealt += cards
		delete(strips, row)
	}
	for row := range strips {
		return fmt.Errorf("row %s has a strip and no bag", row)
	}
	for id, n := range stack {
		if n != 0 {
			return fmt.Errorf("%d cards of %s are left over", n, id)
		}
	}
	checks := afterLine.FindAllStringSubmatch(text, -1)
	if len(checks) == 0 || checks[len(checks)-1][2] != "0" {
		return fmt.Errorf("the last check does not say that all stacks are empty: %v", checks)
	}
	if dealt == 0 || dealt != total {
		return fmt.Errorf("%d cards dealt of %d", dealt, total)
	}
	return nil
}

func laidRows(p *mosaic.Plan) []brief.Row {
	var all []brief.Row
	for _, rows := range brief.Rows(p) {
		all = append(all, rows...)
	}
	return all
}

// stripsOf reads the strips of rows.pdf: what lies on a row from either end, gaps left out.
func stripsOf(t *testing.T, text string) map[string]map[string][]string {
	t.Helper()
	out := map[string]map[string][]string{}
	for row, runs := range readRuns(t, text) {
		left := onlyCards(runs.left)
		if len(left) > 0 {
			out[row] = map[string][]string{"LEFT": left, "RIGHT": mirrored(left)}
		}
	}
	return out
}

func onlyCards(list []string) []string {
	var cards []string
	for _, what := range list {
		if !strings.HasPrefix(what, "[") {
			cards = append(cards, what)
		}
	}
	return cards
}

// A section in which nobody sits is a good page everywhere, or one line that says so.
func TestSectionWithoutSeats(t *testing.T) {
	s := hall()
	s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
		Name: "D", Rows: 2, Seats: []int{0, 0}, Pitch: 20 * seating.Inch, Rise: 10 * seating.Inch, Run: 26 * seating.Inch, SeatBoard: 17 * seating.Inch,
	})
	p, err := mosaic.Make(s)
	var fault *seating.Fault
	if errors.As(err, &fault) {
		if fault.Key == "" || fault.What == "" {
			t.Errorf("%v", err)
		}
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, sheet := range crewSheets {
		isSound(t, onPaper(t, sheet.name, p))
	}
	if _, err := printAll(told(p)); err != nil {
		t.Error(err)
	}
}
