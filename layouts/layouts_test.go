package layouts

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/net/html"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// stunt is a small one with all kinds of seats.
func stunt() *mosaic.Stunt {
	bench := func(name string) seating.SectionSpec {
		return seating.SectionSpec{
			Name: name, Rows: 8, Seats: []int{12}, Pitch: 20 * seating.Inch, Rise: 10 * seating.Inch,
			Run: 26 * seating.Inch, FirstRow: 10 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		}
	}
	a, b := bench("A"), bench("B 2")
	a.Missing = []seating.SeatRange{{Row: "2", From: 3, To: 4}}
	b.Reserved = []seating.Reserved{{Seats: []seating.SeatRange{{Row: "8", From: 12, To: 12}}, For: "platform"}}
	floor := seating.SectionSpec{
		Name: "Floor", Kind: seating.Floor, Rows: 2, Seats: []int{6}, Pitch: 22 * seating.Inch, Run: 36 * seating.Inch,
		NoCards: true, Place: &seating.Place{Away: -3 * seating.Metre},
	}
	return &mosaic.Stunt{
		Title: `The <Lantern> & "Fair"`, Date: "2027-06-12",
		Stands: seating.Spec{Sections: []seating.SectionSpec{a, b, floor}, Expected: 0.88, Posted: 100},
		Camera: camera.Mark{Name: "camera", Back: 14 * seating.Metre, Height: 3 * seating.Metre, Picture: [2]int{960, 540}},
		Card:   mosaic.CardSpec{Width: 11 * seating.Inch, Height: 17 * seating.Inch / 2, Held: camera.Eyes, Kind: mosaic.Sheet},
		Colours: []mosaic.Colour{
			{Name: "NAVY", RGB: colour.RGB{0x14, 0x28, 0x4f}, Sheets: -1},
			{Name: "CREAM", RGB: colour.RGB{0xfd, 0xf4, 0xdc}, Sheets: -1},
		},
		Cues: []mosaic.Cue{{Name: "First", Text: "UP", Ink: "CREAM", Ground: "NAVY"}, {Name: "Second", Text: "IT", Ink: "NAVY", Ground: "CREAM"}},
	}
}

var planned = sync.OnceValues(func() (*mosaic.Plan, error) { return mosaic.Make(stunt()) })

func plan(t testing.TB) *mosaic.Plan {
	t.Helper()
	p, err := planned()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// told is what is told of a plan; without advice.
func told(t testing.TB, p *mosaic.Plan) *brief.Brief {
	t.Helper()
	o, err := outlook.Of(t.Context(), p, outlook.All&^outlook.Advice, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	return brief.Of(p, o, nil)
}

var sheetFiles = []string{
	"sheets/calldown.pdf", "sheets/camera.pdf", "sheets/cord.pdf", "sheets/deal.pdf", "sheets/laying.pdf", "sheets/leaders.pdf", "sheets/packet.pdf",
	"sheets/placards-A.pdf", "sheets/placards-B_2.pdf", "sheets/rows.pdf", "sheets/runsheet.pdf", "sheets/tally.pdf", "sheets/test.pdf", "sheets/trial.pdf",
}

var allFiles = append([]string{
	"pictures/camera-1.png", "pictures/camera-2.png", "pictures/cues.gif", "pictures/light-1.png", "pictures/light-2.png", "pictures/map-1.png", "pictures/map-1.svg", "pictures/map-2.png", "pictures/map-2.svg", "pictures/matter-1.png", "pictures/matter-2.png", "pictures/rest.png",
	"plan.json", "report.html", "seats.csv", "seats.xlsx",
}, append(slices.Clone(sheetFiles), "tally.xlsx")...)

// Folder, memory and archive get the same files with the same bytes, with one worker and with many.
func TestSinksAgree(t *testing.T) {
	p := told(t, plan(t))
	memory := NewMemory()
	if err := Write(p, Options{}, memory); err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(memory.Names(), allFiles) {
		t.Fatalf("files %v, want %v", memory.Names(), allFiles)
	}
	dir := t.TempDir()
	folder, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	before := runtime.GOMAXPROCS(1)
	err = Write(p, Options{}, folder)
	runtime.GOMAXPROCS(before)
	if err != nil {
		t.Fatal(err)
	}
	if got := inFolder(t, dir); !slices.Equal(got, allFiles) {
		t.Errorf("the folder holds %v", got)
	}
	var b bytes.Buffer
	z := NewZip(&b)
	if err := errors.Join(Write(p, Options{}, z), z.Close()); err != nil {
		t.Fatal(err)
	}
	r, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range allFiles {
		onDisk, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !bytes.Equal(onDisk, memory.File(name)) {
			t.Errorf("%s differs between folder and memory (%v)", name, err)
		}
		packed, err := r.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(packed)
		if err != nil || !bytes.Equal(got, memory.File(name)) || r.File[i].Name != name {
			t.Errorf("%s differs between archive and memory (%v)", name, err)
		}
	}
}

func TestOnly(t *testing.T) {
	for group, want := range map[string][]string{
		"plan": {"plan.json"}, "tables": {"seats.csv", "seats.xlsx", "tally.xlsx"}, "report": {"report.html"},
		"sheets": sheetFiles,
	} {
		m := NewMemory()
		if err := Write(told(t, plan(t)), Options{Only: []string{group}}, m); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(m.Names(), want) {
			t.Errorf("%s: files %v, want %v", group, m.Names(), want)
		}
	}
	m := NewMemory()
	err := Write(told(t, plan(t)), Options{Only: []string{"plan", "paper"}}, m)
	if f := faultOf(t, err); !strings.Contains(f.What, `"paper"`) || !strings.Contains(f.Hint, "sheets") || len(m.Names()) > 0 {
		t.Errorf("%v, files %v", f, m.Names())
	}
}

// What the paper cannot print stops everything before the first file.
func TestNothingBeforeTheCheck(t *testing.T) {
	p := *plan(t)
	s := *p.Stunt
	s.Title = "灯"
	p.Stunt = &s
	m := NewMemory()
	if f := faultOf(t, Write(told(t, &p), Options{}, m)); f.Key != "title" || len(m.Names()) > 0 {
		t.Errorf("%v, files %v", f, m.Names())
	}
}

type refusing struct {
	sink Sink
	name string
	err  error
}

func (r refusing) Put(name string, write func(io.Writer) error) error {
	if name == r.name {
		return r.err
	}
	return r.sink.Put(name, write)
}

// An error of one file is the error of the whole, and every file that is there is whole.
func TestOneFails(t *testing.T) {
	whole := NewMemory()
	if err := Write(told(t, plan(t)), Options{Only: []string{OnlyTables, OnlySheets, OnlyPlan}}, whole); err != nil {
		t.Fatal(err)
	}
	no := errors.New("no")
	for _, name := range []string{"plan.json", "seats.csv", "sheets/placards-B_2.pdf", "sheets/rows.pdf"} {
		m := NewMemory()
		if err := Write(told(t, plan(t)), Options{Only: []string{OnlyTables, OnlySheets, OnlyPlan}}, refusing{m, name, no}); !errors.Is(err, no) {
			t.Errorf("%s: %v", name, err)
		}
		for _, there := range m.Names() {
			if !bytes.Equal(m.File(there), whole.File(there)) {
				t.Errorf("%s is not whole", there)
			}
		}
	}
}

func TestFirstErrorCounts(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2)) // two jobs at once
	first, second := errors.New("first"), errors.New("second")
	gate := make(chan struct{})
	err := runAll([]job{
		{1, func() error { <-gate; return first }},
		{1, func() error { close(gate); return second }},
	})
	if !errors.Is(err, first) {
		t.Errorf("got %v", err)
	}
}

// page is report.html as a reader of HTML sees it.
func page(t *testing.T, b *brief.Brief, only ...string) (*html.Node, *Memory) {
	t.Helper()
	m := NewMemory()
	if err := Write(b, Options{Only: only}, m); err != nil {
		t.Fatal(err)
	}
	root, err := html.Parse(bytes.NewReader(m.File("report.html")))
	if err != nil {
		t.Fatal(err)
	}
	return root, m
}

func all(n *html.Node, tag string) (list []*html.Node) {
	for d := range n.Descendants() {
		if d.Type == html.ElementNode && d.Data == tag {
			list = append(list, d)
		}
	}
	return list
}

func attr(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// The report's list of files names every sheet that is written, and no other, however the placards are printed.
func TestReportNamesTheSheets(t *testing.T) {
	for _, how := range []mosaic.Placards{mosaic.Labels, mosaic.OnStock, mosaic.FullColoured} {
		whole := plan(t) // shared by all tests
		p, s := *whole, *whole.Stunt
		p.Stunt = &s
		p.Stunt.Print.Placards, p.Stunt.Print.Bands = how, true
		if how == mosaic.FullColoured {
			p.Stunt.Card.Kind = mosaic.Printed
		}
		root, m := page(t, told(t, &p))
		listed := map[string]bool{}
		for _, dt := range all(root, "dt") {
			if name := textOf(dt); strings.HasPrefix(name, "sheets/") {
				listed[name] = false
			}
		}
		for _, name := range m.Names() {
			if !strings.HasPrefix(name, "sheets/") {
				continue
			}
			found := false
			for pattern := range listed {
				stem, _, some := strings.Cut(strings.TrimSuffix(pattern, ".pdf"), "SECTION")
				if !some {
					stem, _, some = strings.Cut(stem, "COLOUR")
				}
				if name == pattern || some && strings.HasPrefix(name, stem) {
					found, listed[pattern] = true, true
				}
			}
			if !found {
				t.Errorf("%s: %s is not on the list %v", how, name, listed)
			}
		}
		for pattern, written := range listed {
			if !written {
				t.Errorf("%s: %s is on the list and not written", how, pattern)
			}
		}
	}
}

// The report opens with the ten sentences; every link leads to a file that is there; every picture
// says in words what it shows.
func TestReport(t *testing.T) {
	told := told(t, plan(t))
	p := told.Plan
	root, m := page(t, told)
	if h := all(root, "h1"); len(h) != 1 || textOf(h[0]) != p.Stunt.Title {
		t.Errorf("the title is %q", textOf(h[0]))
	}
	items := all(all(root, "ol")[0], "li")
	sentences := told.Sentences
	if len(sentences) != 10 || len(items) != 10 {
		t.Fatalf("%d sentences, %d on the page", len(sentences), len(items))
	}
	for i, s := range sentences {
		if want := strings.Join(strings.Fields(s.About+" "+s.Text), " "); textOf(items[i]) != want {
			t.Errorf("sentence %d is %q, want %q", i+1, textOf(items[i]), want)
		}
	}
	for _, img := range all(root, "img") {
		if m.File(attr(img, "src")) == nil || len(attr(img, "alt")) < 20 {
			t.Errorf("picture %q, in words %q", attr(img, "src"), attr(img, "alt"))
		}
	}
	if n := len(all(root, "img")); n != 10 {
		t.Errorf("%d pictures, want two a cue, one in more light, and one at rest, the first again in the strip between two rests, and the moving one", n)
	}
	for _, a := range all(root, "a") {
		href := attr(a, "href")
		if strings.HasPrefix(href, "#") {
			continue
		}
		if m.File(href) == nil {
			t.Errorf("the link %q leads nowhere", href)
		}
	}
	if len(all(root, "script"))+len(all(root, "link"))+len(all(root, "iframe")) > 0 {
		t.Error("the page needs more than itself")
	}
	body := textOf(root)
	for _, words := range append(slices.Clone(told.Warnings), append(slices.Clone(told.Report.Cautions), string(told.Code))...) {
		if !strings.Contains(body, strings.Join(strings.Fields(words), " ")) {
			t.Errorf("the page does not say %q", words)
		}
	}
}

// The strip tells the sequence from rest to rest: each cue by its name, when it comes and how.
func TestReportStrip(t *testing.T) {
	whole := *plan(t) // shared by all tests
	p := &whole
	p.Cues = slices.Clone(p.Cues)
	stunt := *p.Stunt
	p.Stunt, stunt.Cues = &stunt, slices.Clone(stunt.Cues)
	stunt.Cues[1].Transition, stunt.Cues[1].Takes = mosaic.RowByRow, 2500*time.Millisecond
	p.Cues[1].Delay = make([]time.Duration, len(p.Stands.Seats))
	p.Cues[0].Times = mosaic.Times{Ready: -4 * time.Second, Up: 0, Full: 2 * time.Second, Down: 9 * time.Second}
	p.Cues[1].Times = mosaic.Times{Ready: 61 * time.Second, Up: 65 * time.Second, Full: 69500 * time.Millisecond, Down: 80 * time.Second}
	root, _ := page(t, told(t, p))
	cells := all(all(root, "ol")[1], "li")
	if len(cells) != 4 {
		t.Fatalf("%d cells, want two cues between two rests", len(cells))
	}
	for i, words := range [][]string{
		{"Rest", "READY at –0:04"},
		{"1 " + p.Cues[0].Name, "UP 0:00, all at once", "all up 0:02, HOLD 7 s", "DOWN 0:09, rest 56 s"},
		{"2 " + p.Cues[1].Name, "UP 1:05, row by row in 2.5 s", "all up 1:09.5, HOLD 10.5 s", "DOWN 1:20"},
		{"Rest", "from DOWN at 1:20"},
	} {
		for _, w := range words {
			if !strings.Contains(textOf(cells[i]), w) {
				t.Errorf("cell %d is %q; it does not say %q", i, textOf(cells[i]), w)
			}
		}
	}
	if text := textOf(all(root, "summary")[0]); !strings.Contains(text, "87 s") {
		t.Errorf("%q, want the 84 s from READY to the last DOWN and 3 s of rest", text)
	}
}

// The tables add up to what the hands take, counted here anew.
func TestReportCounts(t *testing.T) {
	p := plan(t)
	root, _ := page(t, told(t, p), OnlyReport)
	want := map[string]map[string]int{}
	for seat, s := range p.Stands.Seats {
		has := map[int16]bool{}
		for cue := range p.Hands {
			if c := p.Hands[cue][seat].Card; c >= 0 && !has[c] {
				has[c] = true
				name := p.Stands.Sections[s.Section].Name
				if want[name] == nil {
					want[name] = map[string]int{}
				}
				want[name][p.Cards[c].ID]++
			}
		}
	}
	var cards *html.Node
	for _, table := range all(root, "table") {
		if strings.Contains(textOf(table), "In people’s hands") {
			cards = table
		}
	}
	if cards == nil {
		t.Fatal("there is no table of cards")
	}
	kinds := all(all(cards, "thead")[0], "th")
	lines := all(all(cards, "tbody")[0], "tr")
	if len(lines) != len(want) {
		t.Errorf("%d sections with cards, want %d", len(lines), len(want))
	}
	sums := map[string]int{}
	for _, line := range lines {
		section := textOf(all(line, "th")[0])
		for i, cell := range all(line, "td") {
			kind := textOf(kinds[i+1])
			got, err := strconv.Atoi(textOf(cell))
			if err != nil {
				t.Fatal(err)
			}
			if kind != "All" && got != want[section][kind] {
				t.Errorf("section %s takes %d %s, want %d", section, got, kind, want[section][kind])
			}
			sums[kind] += got
		}
	}
	for i, cell := range all(all(all(cards, "tfoot")[0], "tr")[0], "td") {
		if kind := textOf(kinds[i+1]); textOf(cell) != strconv.Itoa(sums[kind]) {
			t.Errorf("in all %s %s, want %d", textOf(cell), kind, sums[kind])
		}
	}
	if len(all(root, "img")) > 0 || !strings.Contains(textOf(root), "This run made no pictures.") {
		t.Error("a report without pictures links them")
	}
}

// A tenth of a section's cards, rounded up, and never fewer than five (common practice, no source).
func TestSpares(t *testing.T) {
	for n, want := range map[int]int{0: 0, 1: 5, 50: 5, 51: 6, 100: 10, 101: 11} {
		if got := stock.Spares(n); got != want {
			t.Errorf("%d cards take %d spares, want %d", n, got, want)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	p := told(b, plan(b))
	for _, group := range Groups {
		b.Run(group, func(b *testing.B) {
			for b.Loop() {
				if err := Write(p, Options{Only: []string{group}}, NewMemory()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// The report says what may go wrong on the day with every text: as many outcomes as were simulated, the first ten seats
// that matter, what a missing section leaves to read, and every text on a phone.
func TestReportOfTheDay(t *testing.T) {
	p := plan(t)
	told := told(t, p)
	root, _ := page(t, told)
	body := textOf(root)
	for i := range p.Cues {
		look := &told.Outlook.Cues[i]
		for _, want := range []string{"As planned the letters read " + look.Planned, "Map of the seats that matter"} {
			if !strings.Contains(body, want) {
				t.Errorf("no %q", want)
			}
		}
		for _, u := range look.Unwanted {
			reads := u.Reads
			if reads == "" {
				reads = "nothing"
			}
			if want := p.Stands.Sections[u.Section].Name + " " + u.How + " " + reads; !strings.Contains(rowsOf(root), want) {
				t.Errorf("no line %q", want)
			}
		}
		for n, s := range look.Matter[:10] {
			if want := strconv.Itoa(n+1) + ". " + p.Stands.ID(int(s)) + ": "; !strings.Contains(body, want) {
				t.Errorf("seat %q is not named", want)
			}
		}
	}
	scored := 0
	for _, td := range all(root, "td") {
		if text := textOf(td); strings.HasPrefix(text, "0.") && strings.Contains(text, "read") || strings.HasPrefix(text, "0.") && strings.Contains(text, "marginal") {
			scored++
		}
	}
	if want := len(p.Cues) * (4*4 + 2); scored != want {
		t.Errorf("%d scores of empty seats, on film and on a phone, want %d", scored, want)
	}
}

// rowsOf is the text of all table rows, cells parted by blanks.
func rowsOf(root *html.Node) string {
	var b strings.Builder
	for _, tr := range all(root, "tr") {
		var cells []string
		for d := range tr.ChildNodes() {
			if d.Type == html.ElementNode {
				cells = append(cells, textOf(d))
			}
		}
		b.WriteString(strings.Join(cells, " ") + "\n")
	}
	return b.String()
}
