package faces

import (
	"testing"

	"pgregory.net/rapid"
)

const signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789&!?.-+#'/:ÉÑÜÅ"

var pens = []Pen{{6, 8, 40, 0}, {10, 10, 56, 0}, {16, 12, 70, 0}, {13, 20, 44, 0}}

func all(r rune) map[string]*Shape {
	out := map[string]*Shape{"bold": Bold.Shape(r), "medium": Medium.Shape(r), "mono": Mono.Shape(r)}
	for i, p := range pens {
		out["block"+string(rune('0'+i))] = Block(r, p)
	}
	return out
}

// TestLetters: every face has every sign, none is empty and none is a blot.
func TestLetters(t *testing.T) {
	for _, r := range signs {
		if !Known(r) {
			t.Errorf("%c is not known", r)
		}
		for name, s := range all(r) {
			if s == nil {
				t.Errorf("%s has no %c", name, r)
				continue
			}
			ink := s.Coverage(0, -roomUp*Fine, s.Cols*Fine, (CapRows+roomDown)*Fine)
			if ink == 0 {
				t.Errorf("%s: %c is empty", name, r)
			}
		}
	}
	if Known('€') || Bold.Shape('\u05d0') != nil || Block('%', pens[0]) != nil {
		t.Error("a face claims a letter it has not")
	}
}

// TestAccents: an accent stands above the capitals, and the letter under it stays.
func TestAccents(t *testing.T) {
	for r, base := range map[rune]rune{'É': 'E', 'Ñ': 'N', 'Ü': 'U', 'Å': 'A', 'Í': 'I'} {
		b, ok := Base(r)
		if !ok || b != base {
			t.Errorf("Base(%c) = %c, %v", r, b, ok)
		}
		for name, s := range all(r) {
			if s.Top < 0.1 {
				t.Errorf("%s: %c rises %.2f above the capitals", name, r, s.Top)
			}
		}
		for name, s := range all(base) {
			if s.Top > 0.05 {
				t.Errorf("%s: %c rises %.2f above the capitals", name, base, s.Top)
			}
		}
	}
}

// TestCoverage holds the summed table against counting samples one by one.
func TestCoverage(t *testing.T) {
	s := Bold.Shape('R')
	rapid.Check(t, func(t *rapid.T) {
		x0 := rapid.IntRange(-5, s.Cols).Draw(t, "x0")
		y0 := rapid.IntRange(-roomUp, CapRows).Draw(t, "y0")
		x1 := x0 + rapid.IntRange(1, 30).Draw(t, "w")
		y1 := y0 + rapid.IntRange(1, 30).Draw(t, "h")
		sum := 0
		for y := y0; y < y1; y++ {
			for x := x0; x < x1; x++ {
				sum += s.Coverage(x*Fine, y*Fine, (x+1)*Fine, (y+1)*Fine)
			}
		}
		want := sum / ((x1 - x0) * (y1 - y0))
		if got := s.Coverage(x0*Fine, y0*Fine, x1*Fine, y1*Fine); got < want-1 || got > want+1 {
			t.Fatalf("box %d,%d–%d,%d: %d, counted %d", x0, y0, x1, y1, got, want)
		}
	})
}

// TestSquare: the raster of a known square covers exactly its area.
func TestSquare(t *testing.T) {
	s := raster([][]point{{{0, 0}, {32 * 256, 0}, {32 * 256, 32 * 256}, {0, 32 * 256}}}, 64)
	if got := s.Coverage(0, 0, 64*Fine, 64*Fine); got != FullCover/4 {
		t.Errorf("a quarter covers %d of %d", got, FullCover)
	}
	if got := s.Coverage(16*Fine, 16*Fine, 48*Fine, 48*Fine); got != FullCover/4 {
		t.Errorf("overlap %d of %d", got, FullCover)
	}
	if got := s.Coverage(40*Fine, 0, 60*Fine, 60*Fine); got != 0 {
		t.Errorf("beside the square %d", got)
	}
}

// TestKern: open pairs move together, stems do not.
func TestKern(t *testing.T) {
	kern := func(a, b rune) float64 { return Kern(Bold.Shape(a), Bold.Shape(b)) }
	if k := kern('H', 'H'); k != 0 {
		t.Errorf("HH %.2f, want 0", k)
	}
	for _, p := range []string{"AV", "LT", "TA", "LY"} {
		if k := kern(rune(p[0]), rune(p[1])); k <= 0.03 {
			t.Errorf("%s %.2f, want more", p, k)
		}
	}
}
