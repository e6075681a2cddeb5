package sheets

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
)

// sizesInPoints reads testdata/paper/paper_sizes.csv: ISO 216 and ANSI sizes (SEEN-2nd, see the
// README there), in PDF units of 1/72 in (ISO 32000-1, 8.3.2.3, SEEN-2nd).
func sizesInPoints(t *testing.T) map[string][2]float64 {
	t.Helper()
	f, err := os.Open("../../testdata/paper/paper_sizes.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	sizes := map[string][2]float64{}
	for _, l := range lines[1:] {
		sizes[l[0]] = [2]float64{number(t, l[1]) / 25.4 * 72, number(t, l[2]) / 25.4 * 72}
	}
	return sizes
}

var mediaBox = regexp.MustCompile(`Page +(\d+) MediaBox: +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+)`)

// Every page of every file has the size of the paper, upright or on its side, as poppler reads it.
func TestPageBoxes(t *testing.T) {
	sizes := sizesInPoints(t)
	if len(sizes) != len(mosaic.PaperSizes) {
		t.Errorf("%d sizes in the table, %d papers", len(sizes), len(mosaic.PaperSizes))
	}
	for name, want := range sizes {
		for _, seats := range []int{6, 40} { // rows that fit upright paper, and rows that do not
			p := sample{sections: []string{"A"}, rows: 2, seats: seats, paper: name}.plan(t)
			f, err := printAll(told(p))
			if err != nil {
				t.Fatal(err)
			}
			dir := t.TempDir()
			if err := f.into(dir); err != nil {
				t.Fatal(err)
			}
			for _, file := range f.names {
				boxes := mediaBox.FindAllStringSubmatch(judge(t, "pdfinfo", "-box", "-l", "99", filepath.Join(dir, file)), -1)
				if len(boxes) == 0 {
					t.Fatalf("%s: pdfinfo shows no page", file)
				}
				for _, b := range boxes {
					if err := hasSize(t, b[2:], want); err != nil {
						t.Errorf("%s, %s, page %s: %v", name, file, b[1], err)
					}
				}
			}
		}
	}
	// A Letter page must not pass for A4.
	if hasSize(t, []string{"0.00", "0.00", "612.00", "792.00"}, sizes["A4"]) == nil {
		t.Error("the check takes Letter for A4")
	}
}

// hasSize allows a hundredth of a point, to which the files are written.
func hasSize(t *testing.T, box []string, want [2]float64) error {
	x0, y0, w, h := number(t, box[0]), number(t, box[1]), number(t, box[2]), number(t, box[3])
	near := func(a, b float64) bool { return a-b < 0.011 && b-a < 0.011 }
	if x0 == 0 && y0 == 0 && (near(w, want[0]) && near(h, want[1]) || near(w, want[1]) && near(h, want[0])) {
		return nil
	}
	return fmt.Errorf("box %v, want %.2f × %.2f", box, want[0], want[1])
}

// qpdf finds nothing wrong in any file, and every font is embedded and maps to Unicode.
func TestFilesAreSound(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		for _, file := range r.files.names {
			path := filepath.Join(r.dir, file)
			if out := judge(t, "qpdf", "--check", path); !strings.Contains(out, "No syntax or stream encoding errors") {
				t.Errorf("%s: %s", file, out)
			}
			fonts := strings.Split(strings.TrimSpace(judge(t, "pdffonts", "-l", "1", path)), "\n")
			if len(fonts) < 3 {
				t.Errorf("%s: no fonts", file)
				continue
			}
			embedded := strings.Index(fonts[0], "emb")
			for _, line := range fonts[2:] {
				if len(line) < embedded+11 || line[embedded:embedded+11] != "yes no  yes" && line[embedded:embedded+11] != "yes yes yes" {
					t.Errorf("%s: font not embedded with Unicode: %s", file, line)
				}
			}
		}
	})
}

// No word leaves the printable part of its page, crosses a cut or lies on another word.
func TestNothingCollides(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		size, err := mosaic.LookUpPaper(r.plan.Stunt.Print.Paper)
		if err != nil {
			t.Fatal(err)
		}
		grid, err := labelGrid(r.plan, size)
		if err != nil {
			t.Fatal(err)
		}
		var cuts []float64
		for c := 0; c <= grid.Rows; c++ {
			cuts = append(cuts, (edgeMargin+float64(c)*grid.Height)*paper.PointsPerMM)
		}
		for _, file := range r.files.names {
			pages := pageWords(t, filepath.Join(r.dir, file))
			if len(pages) == 0 {
				t.Fatalf("%s has no page", file)
			}
			for i, page := range pages {
				if len(page.list) == 0 {
					t.Errorf("%s, page %d is empty", file, i+1)
				}
				for _, fault := range page.faults() {
					t.Errorf("%s, page %d: %s", file, i+1, fault)
				}
				if file == "rows.pdf" {
					continue
				}
				if i < inkPages {
					for _, fault := range touching(t, filepath.Join(r.dir, file), i+1, page) {
						t.Errorf("%s, page %d: %s", file, i+1, fault)
					}
				}
				for _, fault := range page.crossing(cuts) {
					t.Errorf("%s, page %d: %s", file, i+1, fault)
				}
			}
		}
	})
}

// core is the middle of a word's box: poppler's boxes reach over ascenders and descenders.
func (w word) core() (x0, y0, x1, y1 float64) {
	h := w.y1 - w.y0
	return w.x0 + 0.3, w.y0 + 0.3*h, w.x1 - 0.3, w.y1 - 0.3*h
}

func (w *words) faults() []string { return w.faultsWithin(edgeMargin) }

// faultsWithin are faults of a page that is printed up to so many millimetres from the edges.
func (w *words) faultsWithin(rim float64) []string {
	margin := rim * paper.PointsPerMM
	var faults []string
	for i, a := range w.list {
		ax0, ay0, ax1, ay1 := a.core()
		if ax0 < margin-0.3 || ax1 > w.width-margin+0.3 || ay0 < margin || ay1 > w.height-margin/2 {
			faults = append(faults, fmt.Sprintf("%q leaves the page", a.text))
		}
		for _, b := range w.list[:i] {
			if bx0, by0, bx1, by1 := b.core(); ax0 < bx1 && bx0 < ax1 && ay0 < by1 && by0 < ay1 {
				faults = append(faults, fmt.Sprintf("%q lies on %q", a.text, b.text))
			}
		}
	}
	return faults
}

func (w *words) crossing(cuts []float64) []string {
	var faults []string
	for _, a := range w.list {
		_, y0, _, y1 := a.core()
		for _, c := range cuts {
			if y0 < c && c < y1 {
				faults = append(faults, fmt.Sprintf("%q crosses a cut", a.text))
			}
		}
	}
	return faults
}

// The same plan gives the same bytes, also when files are made at the same time.
func TestSameBytes(t *testing.T) {
	s := samples["bonded"]
	first, err := printAll(told(s.plan(t)))
	if err != nil {
		t.Fatal(err)
	}
	p := s.plan(t)
	results := make(chan *files)
	for range 4 {
		go func() {
			f, err := printAll(told(p))
			if err != nil {
				t.Error(err)
			}
			results <- f
		}()
	}
	for range 4 {
		again := <-results
		for _, name := range first.names {
			if !bytes.Equal(first.data[name], again.data[name]) {
				t.Errorf("%s differs between two runs", name)
			}
		}
	}
	for _, name := range first.names {
		if n := bytes.Count(first.data[name], []byte("(D:")); n != 2 || bytes.Count(first.data[name], []byte("(D:20000101000000)")) != n {
			t.Errorf("%s carries the time of day", name)
		}
	}
	other := told(s.plan(t))
	other.Code = "0000-0000"
	f, err := printAll(other)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range first.names {
		if bytes.Equal(first.data[name], f.data[name]) {
			t.Errorf("%s does not carry the plan code", name)
		}
	}
}

// Each page's footer carries the plan code, and pages are counted to the last.
func TestFooters(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		code := told(r.plan).Code
		texts := append(slices.Clone(r.placards), r.rows)
		for i, text := range texts {
			pages := strings.Split(strings.TrimSuffix(text, "\f"), "\f")
			for n, page := range pages {
				if want := fmt.Sprintf("Plan %s, page %d of %d", code, n+1, len(pages)); !strings.Contains(page, want) {
					t.Errorf("file %d: no %q", i, want)
				}
			}
		}
	})
}

// A large section is shared out over files of at most brief.PerFile placards, and no row is torn apart.
func TestManyPlacards(t *testing.T) {
	p := sample{sections: []string{"Great Stand", "B"}, rows: 30, seats: 110, plain: true, perSheet: 12}.plan(t)
	f := &files{}
	if err := Placards(told(p), f.put); err != nil {
		t.Fatal(err)
	}
	want := []string{"placards-Great_Stand-1.pdf", "placards-Great_Stand-2.pdf", "placards-B-1.pdf", "placards-B-2.pdf"}
	if !slices.Equal(f.names, want) {
		t.Fatalf("files %v, want %v", f.names, want)
	}
	for _, rows := range brief.Rows(p) {
		placards := 0
		for _, part := range brief.Files(rows) {
			n := 0
			for _, row := range part {
				n += row.Placards
				if row.Placards != 110 {
					t.Errorf("row %s is torn apart", row.Name)
				}
			}
			if n > brief.PerFile {
				t.Errorf("%d placards in one file", n)
			}
			placards += n
		}
		if placards != 3300 {
			t.Errorf("%d placards in all", placards)
		}
	}
	long := sample{sections: []string{"A"}, rows: 1, seats: 3900, plain: true}.plan(t)
	pieces := brief.Files(brief.Rows(long)[0])
	if len(pieces) != 2 {
		t.Errorf("a row of 3900 takes %d files", len(pieces))
	}
}

// A section in which nobody gets a card needs no placards.
func TestNoCards(t *testing.T) {
	nobody := func(int, int, int, int) int { return mosaic.None }
	p := sample{sections: []string{"A"}, rows: 2, seats: 4, hue: nobody}.plan(t)
	f, err := printAll(told(p))
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(f.names, []string{"rows.pdf"}) {
		t.Errorf("files %v", f.names)
	}
}

func TestFaults(t *testing.T) {
	cases := []struct {
		sample
		key, what string
	}{
		{sample{paper: "B5"}, "print.paper", `"B5"`},
		{sample{perSheet: 13}, "print.per_sheet", "13"},
		{sample{perSheet: -1}, "print.per_sheet", "-1"},
		{sample{perSheet: 12, cues: 40}, "print.per_sheet", "40 cues"},
		{sample{title: "灯籠祭"}, "title", "U+706F"},
		{sample{cueName: "a\U0001F3EEb"}, "cue[0].name", "U+1F3EE"},
		{sample{colours: []string{"Navy", "クリーム"}}, "colour[1].name", "U+30AF"},
	}
	for _, c := range cases {
		c.sections, c.rows, c.seats = []string{"A"}, 2, 4
		p := c.plan(t)
		for name, err := range map[string]error{
			"Check": Check(told(p)), "Placards": Placards(told(p), (&files{}).put), "Rows": Rows(io.Discard, told(p)),
		} {
			if name == "Rows" && c.key == "print.per_sheet" {
				continue
			}
			var fault *seating.Fault
			if !errors.As(err, &fault) {
				t.Errorf("%s of %s: %v is no fault", name, c.key, err)
				continue
			}
			if fault.Key != c.key || !strings.Contains(fault.What, c.what) || fault.Hint == "" {
				t.Errorf("%s: %v, want key %s and %s", name, fault, c.key, c.what)
			}
		}
	}
}

// An error of whoever takes the file comes back as it is.
func TestPutFails(t *testing.T) {
	full := errors.New("full")
	p := sample{sections: []string{"A"}, rows: 2, seats: 4}.plan(t)
	if err := Placards(told(p), func(string, func(io.Writer) error) error { return full }); !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
	if err := Rows(failing{full}, told(p)); !errors.Is(err, full) {
		t.Errorf("got %v", err)
	}
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

// Any name of the languages that the type is for comes back from the paper as it was written.
func TestType(t *testing.T) {
	for _, name := range []string{
		"Žluťoučký kůň", "Ærøskøbing Þór", "İstanbul ğış", "Nguyễn Thị Mỹ Hạnh", "Đặng Ửng Ỹ",
		"Ελληνικά ΐΰώ", "Київ Ґґ Єє Її", "Ўзбек Қазақ Ң", "Łódź Gdańsk", "Sant’Angelo “x” – y", "B(c)\\d",
	} {
		p := sample{sections: []string{"A"}, rows: 1, seats: 2, cueName: name, perSheet: 2}.plan(t)
		f, err := printAll(told(p))
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := f.into(dir); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(judge(t, "pdftotext", "-raw", filepath.Join(dir, f.placards()[0]), "-")), " ")
		if !strings.Contains(text, "“"+name+"”: show") {
			t.Errorf("%q is read back as %q", name, text)
		}
	}
}

func benchmarkPlacards(b *testing.B, sections, rows, seats, perSheet int) {
	names := make([]string, sections)
	for i := range names {
		names[i] = "S" + strconv.Itoa(i)
	}
	p := sample{sections: names, rows: rows, seats: seats, perSheet: perSheet, title: "x", cueName: "Glow"}.plan(b)
	whole := told(p)
	b.ReportAllocs()
	size := 0
	for b.Loop() {
		size = 0
		err := Placards(whole, func(_ string, write func(io.Writer) error) error {
			var buf bytes.Buffer
			err := write(&buf)
			size += buf.Len()
			return err
		})
		if err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(size)/float64(len(wantIDs(p))), "bytes/placard")
}

func BenchmarkPlacards450(b *testing.B)   { benchmarkPlacards(b, 3, 10, 15, 4) }
func BenchmarkPlacards10000(b *testing.B) { benchmarkPlacards(b, 10, 20, 50, 4) }

// 8 a sheet, as a crew with a label printer would.
func BenchmarkPlacards100000(b *testing.B) { benchmarkPlacards(b, 50, 40, 50, 8) }

func BenchmarkRows450(b *testing.B) {
	p := told(sample{sections: []string{"A", "B", "C"}, rows: 10, seats: 15, title: "x"}.plan(b))
	for b.Loop() {
		if err := Rows(io.Discard, p); err != nil {
			b.Fatal(err)
		}
	}
}
