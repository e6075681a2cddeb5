package survey

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// book makes a workbook of sheets: a name, then lines with commas between cells. A cell "[14284F]" is filled with that
// colour, a name in brackets is a hidden sheet, and a line that begins with ~ is hidden.
func book(t testing.TB, sheets ...string) []byte {
	t.Helper()
	f := excelize.NewFile()
	check := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	styles := map[string]int{}
	for i, sheet := range sheets {
		name, text, _ := strings.Cut(sheet, "\n")
		bare, hides := strings.CutPrefix(name, "(")
		if hides {
			bare = strings.TrimSuffix(bare, ")")
		}
		if i == 0 {
			check(f.SetSheetName("Sheet1", bare))
		} else {
			_, err := f.NewSheet(bare)
			check(err)
		}
		for r, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
			line, hidden := strings.CutPrefix(line, "~")
			for c, cell := range strings.Split(line, ",") {
				at, err := excelize.CoordinatesToCellName(c+1, r+1)
				check(err)
				if colour, ok := strings.CutPrefix(cell, "["); ok {
					if styles[colour] == 0 {
						styles[colour], err = f.NewStyle(&excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{strings.TrimSuffix(colour, "]")}}})
						check(err)
					}
					check(f.SetCellStyle(bare, at, at, styles[colour]))
				} else if cell != "" {
					check(f.SetCellValue(bare, at, cell))
				}
			}
			if hidden {
				check(f.SetRowVisible(bare, r+1, false))
			}
		}
		if hides {
			check(f.SetSheetVisible(bare, false))
		}
	}
	var b bytes.Buffer
	check(f.Write(&b))
	return b.Bytes()
}

func TestSheets(t *testing.T) {
	const table = "row,seats\n1,5\n2,6\n"
	const named = "section,row,seats\nQuay,1,5\n"
	for _, c := range []struct {
		name   string
		sheets []string
		choose []string
		want   string // what is read, or a word of the fault
		note   string
	}{
		{"a section a sheet", []string{"West\n" + table, "East\n" + table}, nil, "West rows=2 seats=[5 6] aisle=4ft\nEast rows=2 seats=[5 6]\n", "Sheets that were read: West, East."},
		{"a drawing a sheet", []string{"West\nx,x\nx,x\nFIELD\n", "East\nx,x,x\n"}, nil, "West rows=2 seats=[2] aisle=4ft\nEast rows=1 seats=[3]\n", ""},
		{"an old one", []string{"Stands\n" + named, "Stands old\n" + named}, nil, `by its name "Stands old"`, ""},
		{"of which one is chosen", []string{"Stands\n" + named, "Stands old\n" + named}, []string{"stands"}, "Quay rows=1 seats=[5]\n", "read: Stands; left out: Stands old."},
		{"a copy", []string{"West\n" + table, "West (2)\n" + table}, nil, `by its name "West (2)"`, ""},
		{"notes", []string{"Stands\n" + table, "Notes\nask the custodian\n"}, nil, `by its name "Notes"`, ""},
		{"versions", []string{"plan v1\n" + named, "plan v2\n" + named}, nil, `by its name "plan v1"`, ""},
		{"the same section twice", []string{"May\n" + named, "June\n" + named}, nil, "Sheets May and June both do", ""},
		{"which both are meant", []string{"May\n" + named, "June\nsection,row,seats\nQuay,2,6\n"}, []string{"May", "June"}, "Quay rows=2 seats=[5 6]\n", ""},
		{"a sheet that is not there", []string{"May\n" + named, "June\n" + named}, []string{"Juni"}, `did you mean "June"?`, ""},
		{"a hidden one", []string{"Stands\n" + named, "(Old)\n" + named}, nil, "Quay rows=1 seats=[5]\n", "left out: Old (hidden)."},
		{"that is asked for", []string{"Stands\n" + named, "(Old)\nrow,seats\n1,9\n"}, []string{"Old"}, "A rows=1 seats=[9]\n", "read: Old; left out: Stands."},
		{"a hidden row", []string{"Stands\nrow,seats\n1,5\n~2,5\n3,5\n"}, nil, "A rows=2 seats=[5] names=[1 3]\n", "left out: row 3."},
		{"seats by colour", []string{"Stands\nB,[14284F],[14284F],[FFFFFF],[14284F]\nA,[14284F],[14284F],[14284F],[14284F]\n"}, nil,
			"A rows=2 seats=[4] names=[A B] missing=[{B 3 3}]\n", "filled with a colour"},
		{"by colour and sign", []string{"Stands\n[14284F],[14284F],W\n[14284F],[14284F],[14284F]\nSTAGE\n"}, nil, "A rows=2 seats=[3] wheelchair=[{2 3 3}]\n", `"STAGE" at A3`},
		{"two colours", []string{"Stands\n[14284F],[14284F],[FF0000]\n"}, nil, "several colours, as at A1 and C1", ""},
		{"two colours and what they mean", []string{"Stands\n[14284F],[FF0000],[14284F]\n\n[14284F],seat\n[FF0000],missing\n"}, nil, "A rows=1 seats=[3] missing=[{1 2 2}]\n", ""},
		{"a colour behind what is written", []string{"Stands\nx,x,[FF0000],x\n"}, nil, "A rows=1 seats=[2] aisle=4ft\nB rows=1 seats=[1]\n", ""},
	} {
		got, err := Read("book.xlsx", book(t, c.sheets...), Options{Sheets: c.choose, LeaveOut: true})
		said, notes := "", ""
		if err != nil {
			said = err.Error()
		} else {
			said, notes = brief(got), strings.Join(got.Notes, "\n")
		}
		if err != nil && !strings.Contains(said, c.want) || err == nil && said != c.want || !strings.Contains(notes, c.note) {
			t.Errorf("%s: %s\n%s\nwant %s\nand a note with %q", c.name, said, notes, c.want, c.note)
		}
		if err != nil && !strings.Contains(said, "hint: ") {
			t.Errorf("%s: no hint in %s", c.name, fmt.Sprint(err))
		}
	}
}

// What is pinned to a cell is asked about where it may say that seats do not count.
func TestPinned(t *testing.T) {
	for comment, want := range map[string]string{"row 2 is closed": "its comment", "counted by Tilda": ""} {
		f := excelize.NewFile()
		for cell, value := range map[string]any{"A1": "row", "B1": "seats", "A2": 1, "B2": 9, "A3": 2, "B3": 9} {
			if err := f.SetCellValue("Sheet1", cell, value); err != nil {
				t.Fatal(err)
			}
		}
		if err := f.AddComment("Sheet1", excelize.Comment{Cell: "A3", Author: "Osk", Text: comment}); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatal(err)
		}
		f.Close()
		if _, err := Read("book.xlsx", b.Bytes(), Options{}); (err != nil) != (want != "") ||
			err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", comment, err)
		}
	}
}
