package cells

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/xuri/excelize/v2"
)

// shown is a sheet's cells in few words: their text, or [their colour].
func shown(s *Sheet) (out string) {
	for r := range s.Rows() {
		for c := range s.Cols(r) {
			switch cell := s.At(r, c); {
			case cell.Fill != "":
				out += "[" + cell.Fill + "]"
			case cell.Struck:
				out += "-" + cell.Text + "-"
			case cell.Text != "":
				out += cell.Text
			default:
				out += "."
			}
		}
		out += "\n"
	}
	return out
}

// What is hidden can be left out; what is filled with a colour alone, and what is struck through, can be seen.
func TestHiddenAndFilled(t *testing.T) {
	f := excelize.NewFile()
	fill := func(pattern int, colour string) int {
		style, err := f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: pattern, Color: []string{colour}}})
		if err != nil {
			t.Fatal(err)
		}
		return style
	}
	struck, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Strike: true}})
	if err != nil {
		t.Fatal(err)
	}
	navy, white := fill(1, "14284F"), fill(1, "FFFFFF")
	for at, text := range map[string]string{"A1": "a", "B1": "b", "C2": "c", "A4": "d", "E4": "e"} {
		if err := f.SetCellValue("Sheet1", at, text); err != nil {
			t.Fatal(err)
		}
	}
	for at, style := range map[string]int{"B2": navy, "E2": navy, "D2": white, "A1": navy, "G3": navy, "A4": struck, "C4": struck} {
		if err := f.SetCellStyle("Sheet1", at, at, style); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetRowVisible("Sheet1", 3, false); err != nil {
		t.Fatal(err)
	}
	if err := f.SetColVisible("Sheet1", "E", false); err != nil {
		t.Fatal(err)
	}
	if _, err := f.NewSheet("Old"); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellValue("Old", "A1", "x"); err != nil {
		t.Fatal(err)
	}
	if err := f.SetSheetVisible("Old", false); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	seen, err := Read("t.xlsx", b.Bytes(), limits)
	if err != nil || len(seen) != 1 || shown(seen[0]) != "ab\n..c\n\n-d-...e\n" {
		t.Errorf("%v, %q", err, shown(seen[0]))
	}
	all, err := ReadHidden("t.xlsx", b.Bytes(), limits)
	if err != nil || len(all) != 2 || !all[1].Hidden || all[0].Hidden {
		t.Fatalf("%v, %v", err, all)
	}
	const n = "[14284F]"
	if got, want := shown(all[0]), fmt.Sprintf("ab\n.%sc.%s\n......%s\n-d-...e\n", n, n, n); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if left := all[0].LeaveOutHidden(); left != "row 3 and column E" {
		t.Errorf("left out %q", left)
	}
	all[0].DrawFills(map[string]string{"14284F": "#"})
	if got, want := shown(all[0]), "ab\n."+n+"c\n\n-d-\n"; got != want || all[0].At(1, 1).Text != "#" {
		t.Errorf("%q, want %q", got, want)
	}
}
