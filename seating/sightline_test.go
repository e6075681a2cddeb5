package seating

import (
	"math"
	"testing"
)

// Worked C-values of testdata/seating/sightlines.csv, to the digits given there.
func TestSightlineExamples(t *testing.T) {
	rows := readCSV(t, "sightlines.csv")
	if len(rows) != 4 {
		t.Errorf("%d examples, want 4", len(rows))
	}
	for _, row := range rows {
		d, r, depth, c, n := number(t, row[0]), number(t, row[1]), number(t, row[2]), number(t, row[3]), number(t, row[4])
		digits := 1e-5
		if row[5] == "mm" {
			digits = 1e-3
		}
		if got := CValue(d, r, n, depth); math.Abs(got-c) > digits {
			t.Errorf("%v: C %v, want %v", row, got, c)
		}
	}
}

// The worked example D = 10 m, R = 2 m, T = 0.8 m, N = 0.4 m gives C = 222.222 mm
// (COMPUTED): row 1's eyes lie 10 m behind the focus and 2 m over it, whichever way the section is turned.
func TestSightlinesOfStands(t *testing.T) {
	for _, facing := range []float64{0, 90, -135} {
		s := must(t, Spec{Sections: []SectionSpec{{
			Name: "A", Rows: 3, Seats: []int{3}, Rise: 40 * Centimetre, Run: 80 * Centimetre, FirstRow: 80 * Centimetre,
			Place: &Place{Facing: facing},
		}}})
		sin, cos := math.Sincos(facing * math.Pi / 180)
		const before = 10 - 0.4 // eyes sit in the middle of the run
		lines := s.Sightlines(0, Point{before * sin, -before * cos, 0}, 1.2)
		if len(lines) != 2 || lines[0].Row != 1 || math.Abs(lines[0].C-0.2222222) > 1e-6 {
			t.Fatalf("facing %v: %+v", facing, lines)
		}
		if want := CValue(10.8, 2.4, 0.4, 0.8); math.Abs(lines[1].C-want) > 1e-9 {
			t.Errorf("facing %v: row 2 has C %v, want %v", facing, lines[1].C, want)
		}
		if behind := s.Sightlines(0, Point{-5 * sin, 5 * cos, 0}, 1.2); len(behind) != 0 {
			t.Errorf("a focus behind the rows has sight lines %v", behind)
		}
	}
}
