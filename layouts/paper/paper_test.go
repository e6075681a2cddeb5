package paper

import (
	"bytes"
	"encoding/xml"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/testdata/judges"
)

// judge gives what poppler's or qpdf's program prints.
func judge(t *testing.T, name string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		judges.Missing(t, name+" is not installed")
	}
	out, err := exec.Command(name, args...).Output()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

// written is the file of a document.
func written(t *testing.T, d *Document) string {
	t.Helper()
	var b bytes.Buffer
	if err := d.Write(&b); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "p.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

// Accents apart from their letters are put together.
func TestComposed(t *testing.T) {
	if got := Composed("e\u0301"); got != "é" {
		t.Errorf("Composed gives %q", got)
	}
}

// A word is as wide as poppler finds it in the file, and ends where it is told to.
func TestWidths(t *testing.T) {
	words := []string{"Gullhaven", "Žluťoučký", "WAVE…", "ΐΰώ", "Їжак", "1½-2/16", "Nguyễn"}
	d := NewDocument("widths", Sheet{Width: 200, Height: 200}, Imprint{})
	d.AddPage()
	for i, s := range words {
		d.TextRight(150, float64(10*i+10), 17, Weight(i%2), s)
	}
	var page struct {
		Words []struct {
			XMin float64 `xml:"xMin,attr"`
			XMax float64 `xml:"xMax,attr"`
			Text string  `xml:",chardata"`
		} `xml:"body>doc>page>word"`
	}
	if err := xml.Unmarshal(judge(t, "pdftotext", "-bbox", written(t, d), "-"), &page); err != nil {
		t.Fatal(err)
	}
	if len(page.Words) != len(words) {
		t.Fatalf("poppler reads %d words of %d", len(page.Words), len(words))
	}
	for i, w := range page.Words {
		width := (w.XMax - w.XMin) / PointsPerMM
		if w.Text != words[i] || math.Abs(width-Weight(i%2).Width(17, words[i])) > 0.02 || math.Abs(w.XMax/PointsPerMM-150) > 0.02 {
			t.Errorf("%q is read as %q, %.2f mm wide up to %.2f, not %.2f", words[i], w.Text, width, w.XMax/PointsPerMM, Weight(i%2).Width(17, words[i]))
		}
	}
}

// What is packed is still a sound file with the same pages, as qpdf reads it.
func TestPackedFileIsSound(t *testing.T) {
	for _, loose := range []bool{false, true} {
		d := NewDocument("sound", Sheet{Width: 100, Height: 100, Edge: 7, Foot: 12}, Imprint{Plan: "X", Stunt: "sound"})
		for range 3 {
			d.AddPage()
			d.Show(d.Stamp("cross", 50, 50, func(p *Pen) { p.Cross(0, 0, 50, 50) }), 10, 10)
			d.Footer("Sound", 3)
		}
		d.Loose = loose
		file := written(t, d)
		judge(t, "qpdf", "--check", file)
		if n := bytes.TrimSpace(judge(t, "qpdf", "--show-npages", file)); string(n) != "3" {
			t.Errorf("%s pages", n)
		}
	}
}

// Two colours that a copier makes alike are told apart by their pattern: no two
// patches of one grey, rendered by poppler, are alike beside their letters.
func TestPatternsDiffer(t *testing.T) {
	d := NewDocument("patterns", Sheet{Width: 100, Height: 100}, Imprint{})
	p := d.AddPage()
	for i := range patterns {
		p.Swatch(5+float64(i%5)*18, 5+float64(i/5)*18, 16, 12, Swatch{colour.RGB{0x80, 0x80, 0x80}, i, "X"})
	}
	file := written(t, d)
	judge(t, "pdftoppm", "-gray", "-r", "127", "-singlefile", file, file) // 5 pixels a millimetre
	pgm, err := os.ReadFile(file + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	pixels := pgm[len(pgm)-500*500:]
	patch := func(i int) []byte {
		var out []byte
		for y := range 60 {
			from := (25+i/5*90+y)*500 + 25 + i%5*90
			out = append(out, pixels[from:from+80]...)
		}
		return out
	}
	for i := range patterns {
		for k := range i {
			a, b := patch(i), patch(k)
			differ := 0
			for n := range a {
				if int(a[n])-int(b[n]) > 60 || int(b[n])-int(a[n]) > 60 {
					differ++
				}
			}
			if share := float64(differ) / float64(len(a)); share < 0.05 {
				t.Errorf("patterns %d and %d differ in %.1f %% of their patch only", k, i, share*100)
			}
		}
	}
}

// Numbers have two digits at most, as the library writes them.
func TestNumbersInPoints(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 1: "1", 12.345: "12.35", -0.5: "-0.5", 100.1: "100.1", -3.07: "-3.07", 0.004: "0"} {
		if got := points(v); got != want {
			t.Errorf("%v is written %s, want %s", v, got, want)
		}
	}
}

// Pages are told apart by what is on them and not by the code, the place of which follows its width.
func TestPages(t *testing.T) {
	const one, two = "AAAA-IIII", "WWWW-MMMM"
	write := func(code, third string) []byte {
		d := NewDocument("sheet", Sheet{Width: 100, Height: 100, Edge: 5, Foot: 10}, Imprint{Plan: code, Stunt: "Fair"})
		for _, text := range []string{"first", "second", third} {
			d.AddPage()
			d.TextRight(90, 20, 9, Regular, text+" of plan "+code)
			d.Text(10, 30, Regular.SizeFor("Plan "+code+" in a narrow place", 40, 12), Bold, "Plan "+code)
			d.Text(10, 40, 9, Bold, text)
			d.Footer("sheet", 3)
		}
		var b bytes.Buffer
		if err := d.Write(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	pages := func(file []byte, code string) []PageSum {
		sums, err := Pages(file, code)
		if err != nil || len(sums) != 3 {
			t.Fatalf("%d pages, %v", len(sums), err)
		}
		return sums
	}
	a, b, c := pages(write(one, "third"), one), pages(write(two, "third"), two), pages(write(two, "last"), two)
	if a[0] != b[0] || a[1] != b[1] || a[2] != b[2] {
		t.Error("the code alone makes pages differ")
	}
	if b[0] != c[0] || b[1] != c[1] || b[2] == c[2] || a[0] == a[1] {
		t.Error("what is on pages does not tell them apart")
	}
	if _, err := Pages([]byte("%PDF-1.3\nnothing"), one); err == nil {
		t.Error("no file of ours is taken for one")
	}
}

// What stands in the folder may be anything.
func FuzzPages(f *testing.F) {
	d := NewDocument("sheet", Sheet{Width: 100, Height: 100}, Imprint{Plan: "AAAA-BBBB"})
	d.AddPage()
	d.Text(10, 10, 9, Regular, "Plan AAAA-BBBB, page 1 of 1")
	var b bytes.Buffer
	if err := d.Write(&b); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("%PDF-1.3\n1 0 obj\n<</Type /Page\n>>\nendobj\n2 0 obj\n<</Length 99>>\nstream\n\nendobj\n"))
	f.Fuzz(func(t *testing.T, file []byte) { Pages(file, "AAAA-BBBB") })
}
