package seating

import (
	"bytes"
	"flag"
	"os"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

// The workbook holds what the text holds, typed as a spreadsheet would: make it
// anew with -update when the text has changed.
var update = flag.Bool("update", false, "make the workbook of the messy survey anew")

const messy = "../testdata/surveys/gullhaven-messy"

// messySections is what a person reads in the survey, by hand.
var messySections = []SectionSpec{
	{
		Name: "West", Rows: 8, Seats: []int{14, 14, 15, 15, 15, 16, 0, 16}, Pitch: 20 * Inch, Rise: 9*Inch + Inch*5/8, Run: 24 * Inch, FirstRow: Foot, Aisle: 4 * Foot,
		Missing: []SeatRange{{"3", 3, 3}, {"3", 7, 9}, {"6", 16, 16}},
		Reserved: []Reserved{
			{Seats: []SeatRange{{"1", 1, 2}}, For: "wheelchair"}, {Seats: []SeatRange{{"1", 3, 3}}, For: "companion"}, {Seats: []SeatRange{{"8", 8, 9}}, For: "rail"},
		},
	},
	{
		Name: "Middle", Rows: 8, Pitch: 20 * Inch, Rise: 9*Inch + Inch*5/8, Run: 2 * Foot, FirstRow: Foot, Aisle: 122 * Centimetre,
		Bench:   []Length{25 * Foot, 25 * Foot, 25*Foot + 6*Inch, 762 * Centimetre, 306 * Inch, 0, 26 * Foot, 26*Foot + 8*Inch},
		Missing: []SeatRange{{"5", 10, 10}},
	},
	{
		Name: "East", Rows: 8, Seats: []int{15, 15, 14, 14, 14, 13, 13, 13}, Pitch: 508 * Millimetre, Rise: 9*Inch + Inch*5/8, Run: 61 * Centimetre, FirstRow: Foot,
		RowNames: RowNaming{Letters: true}, Missing: []SeatRange{{"C", 1, 1}, {"D", 12, 14}},
	},
}

var messyUnread = []Unread{
	{"A1", "Harbour Hall, Gullhaven: bleachers on the quay side, measured for the Lantern Fa…", "it stands outside what is read as rows and seats"},
	{"N5", "Remarks", "no column that is read has this name; left unread below it: N6, N9, N12, N19"},
	{"F7", "9,625", `"9,625" may mean two lengths: its comma could be a decimal or a thousands mark; write "9625" or "9.625" with the unit`},
	{"I9", "5-Mar", `a spreadsheet made a date of it; it probably was "3-5" or "5-3": format the column as text and type it anew`},
	{"G11", "61 cm", "the section's lines differ, and a section has one of it: the first one is kept"},
	{"C12", "ca. 16", "it is no whole number of seats; the row has no seats until this is mended"},
	{"D19", "25", `"25" has no unit; write "25in" or "25cm", whichever was measured; the row has no seats until this is mended`},
	{"I21", "17", "row 8 has no seat 17; the nearest is 16"},
	{"I28", "six", `"six" is no seat number or range like 3-5`},
	{"I29", "14", "row H has no seat 14; the nearest is 13"},
	{"A30", "Total", "a total, no row of seats"},
	// 105 in West, 15 + 15 + 15 + 15 + 15 + 15 + 16 in Middle, 111 in East.
	{"C30", "347", "a total, no row of seats: the rows above it add up to 322"},
}

func TestMessySurvey(t *testing.T) {
	text, err := os.ReadFile(messy + ".csv")
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(messy+".xlsx", messyWorkbook(t, text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{messy + ".csv", messy + ".xlsx"} {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := ReadSurvey(name, data)
		if err != nil {
			t.Fatal(err)
		}
		want := &Survey{Sections: messySections, Posted: 412, People: 420, Unread: messyUnread}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: read (+) is not what stands there (-):\n%s", name, diff)
		}
	}
}

// The posted count is wrong, and the stands say so.
func TestMessySurveyBuilds(t *testing.T) {
	s := must(t, Spec{Sections: messySections, Posted: 412, People: 420})
	if all := s.CountAll(); all.Places != 322 || all.Missing != 10 || all.Reserved != 2 {
		t.Errorf("%+v", all)
	}
	if len(s.Warnings) != 4 {
		t.Errorf("warnings: %q", s.Warnings)
	}
}

// messyWorkbook types the text's cells into a workbook: whole numbers as numbers, the mangled cell as a true date.
func messyWorkbook(t *testing.T, text []byte) []byte {
	t.Helper()
	sheets, err := readText(text, surveyTest)
	if err != nil {
		t.Fatal(err)
	}
	f := excelize.NewFile()
	defer f.Close()
	format := "d-mmm"
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
	if err != nil {
		t.Fatal(err)
	}
	whole := regexp.MustCompile(`^[0-9]+$`)
	for r, row := range sheets[0].cells {
		for c, cell := range row {
			at, _ := excelize.CoordinatesToCellName(c+1, r+1)
			var value any = cell.text
			switch {
			case cell.text == "":
				continue
			case whole.MatchString(cell.text):
				value, _ = strconv.Atoi(cell.text)
			case cell.date != "":
				value = time.Date(2026, time.March, 5, 0, 0, 0, 0, time.UTC)
			}
			if err := f.SetCellValue("Sheet1", at, value); err != nil {
				t.Fatal(err)
			}
			if cell.date != "" {
				if err := f.SetCellStyle("Sheet1", at, at, style); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
