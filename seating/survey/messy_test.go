package survey

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

	"everyseat/seating"
	"everyseat/seating/cells"
)

// The workbook holds what the text holds, typed as a spreadsheet would: make it
// anew with -update when the text has changed.
var update = flag.Bool("update", false, "make the workbook of the messy survey anew")

const messy = "../../testdata/surveys/gullhaven-messy"

// seats are neighbours of one row.
func seats(row string, from, to int) seating.SeatRange {
	return seating.SeatRange{Row: row, From: from, To: to}
}

// messySections is what a person reads in the survey, by hand.
var messySections = []seating.SectionSpec{
	{
		Name: "West", Rows: 8, Seats: []int{14, 14, 15, 15, 15, 16, 0, 16}, Pitch: 20 * seating.Inch, Rise: 9*seating.Inch + seating.Inch*5/8, Run: 24 * seating.Inch, FirstRow: seating.Foot, Aisle: 4 * seating.Foot,
		Missing: []seating.SeatRange{seats("3", 3, 3), seats("3", 7, 9), seats("6", 16, 16)},
		Reserved: []seating.Reserved{
			{Seats: []seating.SeatRange{seats("1", 1, 2)}, For: "wheelchair"}, {Seats: []seating.SeatRange{seats("1", 3, 3)}, For: "companion"}, {Seats: []seating.SeatRange{seats("8", 8, 9)}, For: "rail"},
		},
	},
	{
		Name: "Middle", Rows: 8, Pitch: 20 * seating.Inch, Rise: 9*seating.Inch + seating.Inch*5/8, Run: 2 * seating.Foot, FirstRow: seating.Foot, Aisle: 122 * seating.Centimetre,
		Bench:   []seating.Length{25 * seating.Foot, 25 * seating.Foot, 25*seating.Foot + 6*seating.Inch, 762 * seating.Centimetre, 306 * seating.Inch, 0, 26 * seating.Foot, 26*seating.Foot + 8*seating.Inch},
		Missing: []seating.SeatRange{seats("5", 10, 10)},
	},
	{
		Name: "East", Rows: 8, Seats: []int{15, 15, 14, 14, 14, 13, 13, 13}, Pitch: 508 * seating.Millimetre, Rise: 9*seating.Inch + seating.Inch*5/8, Run: 61 * seating.Centimetre, FirstRow: seating.Foot,
		RowNames: seating.RowNaming{Letters: true}, Missing: []seating.SeatRange{seats("C", 1, 1), seats("D", 12, 14)},
	},
}

var messyUnread = []cells.Unread{
	{Cell: "A1", Text: "Harbour Hall, Gullhaven: bleachers on the quay side, measured for the Lantern Fa…", Why: "it stands outside what is read as rows and seats"},
	{Cell: "N5", Text: "Remarks", Why: "no column that is read has this name; left unread below it: N6, N9, N12, N19"},
	{Cell: "F7", Text: "9,625", Why: `"9,625" may mean two lengths: its comma could be a decimal or a thousands mark; write "9625" or "9.625" with the unit`},
	{Cell: "I9", Text: "5-Mar", Why: `a spreadsheet made a date of it; it probably was "3-5" or "5-3": format the column as text and type it anew`},
	{Cell: "G11", Text: "61 cm", Why: "the section's lines differ, and a section has one of it: the first one is kept"},
	{Cell: "C12", Text: "ca. 16", Why: "it is no whole number of seats; the row has no seats until this is mended"},
	{Cell: "D19", Text: "25", Why: `"25" has no unit; write "25in" or "25cm", whichever was measured; the row has no seats until this is mended`},
	{Cell: "I21", Text: "17", Why: "row 8 has no seat 17; the nearest is 16"},
	{Cell: "I28", Text: "six", Why: `"six" is no seat number or range like 3-5`},
	{Cell: "I29", Text: "14", Why: "row H has no seat 14; the nearest is 13"},
	{Cell: "A30", Text: "Total", Why: "a total, no row of seats"},
	// 105 in West, 15 + 15 + 15 + 15 + 15 + 15 + 16 in Middle, 111 in East.
	{Cell: "C30", Text: "347", Why: "a total, no row of seats: the rows above it add up to 322"},
}

var messyNotes = []string{
	"Section West: row 1 is the front one, by the habit that numbers rise toward the back.",
	"Section Middle: row 1 is the front one, by the habit that numbers rise toward the back.",
	"Section East: row A is the front one, by the habit that letters rise toward the back.",
	"missing: West-3-3, West-3-7..9, West-6-16, Middle-5-10, East-C-1, East-D-12..14",
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
		got, err := Read(name, data, Options{LeaveOut: true})
		if err != nil {
			t.Fatal(err)
		}
		want := &Survey{Sections: messySections, Posted: 412, People: 420, Unread: messyUnread, Empty: []string{"West-7", "Middle-6"}, Notes: messyNotes}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: read (+) is not what stands there (-):\n%s", name, diff)
		}
	}
}

// The posted count is wrong, and the stands say so.
func TestMessySurveyBuilds(t *testing.T) {
	s, err := seating.Build(seating.Spec{Sections: messySections, Posted: 412, People: 420})
	if err != nil {
		t.Fatal(err)
	}
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
	sheets, err := cells.Read("t.csv", text, limits)
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
	for r := range sheets[0].Rows() {
		for c := range sheets[0].Cols(r) {
			cell := sheets[0].At(r, c)
			at, _ := excelize.CoordinatesToCellName(c+1, r+1)
			var value any = cell.Text
			switch {
			case cell.Text == "":
				continue
			case whole.MatchString(cell.Text):
				value, _ = strconv.Atoi(cell.Text)
			case cell.Date != "":
				value = time.Date(2026, time.March, 5, 0, 0, 0, 0, time.UTC)
			}
			if err := f.SetCellValue("Sheet1", at, value); err != nil {
				t.Fatal(err)
			}
			if cell.Date != "" {
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
