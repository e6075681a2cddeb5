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
