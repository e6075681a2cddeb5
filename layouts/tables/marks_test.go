package tables

import (
	"bytes"
	"encoding/csv"
	"testing"

	"everyseat/mosaic/marks"
	"everyseat/seating"
)

// smallMap has one patch of four places.
func smallMap() *marks.Map {
	const m = seating.Metre
	return &marks.Map{
		Spells: true,
		Here:   marks.Scored{Place: marks.Place{Across: 0, Back: 9 * m, Height: 2 * m}, Fixed: 0.5, Anew: 0.5},
		Patches: []marks.Patch{{
			Left: -m, Right: m, Nearest: 8 * m, Farthest: 10 * m, Height: 2 * m, Cols: 2, Rows: 2,
			Fixed: []float64{0, marks.Unknown, 1, 0.125}, Anew: []float64{marks.Unknown, marks.Unknown, 0.75, marks.Unknown},
		}},
	}
}

func TestMarks(t *testing.T) {
	m := smallMap()
	var b bytes.Buffer
	if err := Marks(&b, m); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	// Places are the middles of the patch's quarters, so half a metre inside its edges.
	want := [][]string{
		{"across_m", "back_m", "height_m", "score_fixed", "score_replanned", "verdict"},
		{"0.00", "9.00", "2.00", "0.500", "0.500", string(m.Verdict(0.5))},
		{"-0.50", "8.50", "2.00", "0.000", "", "does not read"},
		{"-0.50", "9.50", "2.00", "1.000", "0.750", "reads"},
		{"0.50", "9.50", "2.00", "0.125", "", string(m.Verdict(0.125))},
	}
	if len(rows) != len(want) {
		t.Fatalf("%d lines: %q", len(rows), rows)
	}
	for i := range want {
		for k := range want[i] {
			if rows[i][k] != want[i][k] {
				t.Errorf("line %d, %s: %q, want %q", i+1, want[0][k], rows[i][k], want[i][k])
			}
		}
	}
}

func TestMarksWithoutText(t *testing.T) {
	m := smallMap()
	m.Spells = false
	var b bytes.Buffer
	if err := Marks(&b, m); err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(b.Bytes(), []byte("0.00,9.00,2.00,0.500,0.500,picture\n")) {
		t.Errorf("%s", b.Bytes())
	}
}
