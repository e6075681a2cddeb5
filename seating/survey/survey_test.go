package survey

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"everyseat/seating"
	"everyseat/seating/cells"
)

func survey(t testing.TB, text string) *Survey {
	t.Helper()
	s, err := Read("t.csv", []byte(text), Options{LeaveOut: true})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return s
}

// brief is a survey in few words, for tables of cases.
func brief(s *Survey) string {
	var b strings.Builder
	for _, sec := range s.Sections {
		fmt.Fprintf(&b, "%s rows=%d", sec.Name, sec.Rows)
		if sec.Seats != nil {
			fmt.Fprintf(&b, " seats=%v", sec.Seats)
		}
		if sec.Bench != nil {
			fmt.Fprintf(&b, " bench=%v", sec.Bench)
		}
		for _, l := range []struct {
			name string
			l    seating.Length
		}{{"pitch", sec.Pitch}, {"rise", sec.Rise}, {"run", sec.Run}, {"first", sec.FirstRow}, {"board", sec.SeatBoard}, {"aisle", sec.Aisle}, {"radius", sec.Radius}} {
			if l.l != 0 {
				fmt.Fprintf(&b, " %s=%v", l.name, l.l)
			}
		}
		if sec.Kind != seating.Bench {
			fmt.Fprintf(&b, " kind=%d", sec.Kind)
		}
		if sec.Align != seating.AlignCentre {
			fmt.Fprintf(&b, " align=%d", sec.Align)
		}
		if n := sec.RowNames; n.Letters || n.FromBack || n.Start > 0 || n.Names != nil {
			fmt.Fprintf(&b, " names=%v", rowNames(n, sec.Rows))
		}
		if n := sec.SeatNumbers; n != (seating.SeatNumbering{}) {
			fmt.Fprintf(&b, " numbers=%d:%d+%d", n.From, n.Start, n.Step)
		}
		if sec.Missing != nil {
			fmt.Fprintf(&b, " missing=%v", sec.Missing)
		}
		for _, r := range sec.Reserved {
			fmt.Fprintf(&b, " %s=%v", r.For, r.Seats)
		}
		if sec.CrossAisles != nil {
			fmt.Fprintf(&b, " cross=%v", sec.CrossAisles)
		}
		b.WriteString("\n")
	}
	for _, u := range s.Unread {
		fmt.Fprintf(&b, "! %s %q\n", u.Cell, u.Text)
	}
	return b.String()
}

// rowNames are the names that a rule gives to so many rows.
func rowNames(rule seating.RowNaming, rows int) (names []string) {
	stands, err := seating.Build(seating.Spec{Sections: []seating.SectionSpec{
		{Name: "A", Rows: rows, Seats: []int{1}, RowNames: rule},
	}})
	if err != nil {
		return nil
	}
	for _, row := range stands.Sections[0].Rows {
		names = append(names, row.Name)
	}
	return names
}

func TestTables(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"plain", "section,row,seats\nA,1,15\nA,2,16\nB,1,9\n", "A rows=2 seats=[15 16] aisle=4ft\nB rows=1 seats=[9]\n"},
		{"names of columns forgiven", "SECTION,Row #,No. of Seats:,Seat pitch [mm]\nA,1,15,508\n", "A rows=1 seats=[15] pitch=20in\n"},
		{"a slip in a name", "Secton,Row,Seets,Missng seats\nA,1,15,seat 3\n", "A rows=1 seats=[15] missing=[{1 3 3}]\n"},
		{"tabs", "row\tseats\tbench (ft)\n1\t3\t5\n", "A rows=1 seats=[3] bench=[5ft]\n"},
		{"sep= line", "sep=|\nrow|seats\n1|3\n", "A rows=1 seats=[3]\n"},
		{"quotes", "\"row\",\"seats\",\"run\"\n\"1\",\"3\",\"2' 6\"\"\"\n", "A rows=1 seats=[3] run=30in\n"},
		{"carriage returns alone", "row,seats\r1,3\r2,4\r", "A rows=2 seats=[3 4]\n"},
		{"blank lines keep addresses", "\n\nrow,seats\n\n1,?\n2,4\n", "A rows=2 seats=[0 4]\n! B5 \"?\"\n"},
		{"columns in another order", "seats,section,row\n5,A,1\n", "A rows=1 seats=[5]\n"},
		{"section left blank", "section,row,seats\nA,1,5\n,2,5\n\"\"\"\",3,6\nditto,4,6\n", "A rows=4 seats=[5 5 6 6]\n"},
		{"rows of a section apart", "section,row,seats\nA,1,5\nB,1,4\nA,2,6\n", "A rows=2 seats=[5 6] aisle=4ft\nB rows=1 seats=[4]\n"},
		{"titles of sections and rows", "section,row,seats\nSection B,Row 1,5\nBlock C,Row 1,4\n", "B rows=1 seats=[5] aisle=4ft\nC rows=1 seats=[4]\n"},
		{"a section a line", "section,rows,seats,rise (in)\nA,10,15,9 5/8\nB,8 rows,12,9.625\n", "A rows=10 seats=[15] rise=9 5/8in aisle=4ft\nB rows=8 seats=[12] rise=9 5/8in\n"},
		{"letters", "row,seats\nA,5\nB,5\n", "A rows=2 seats=[5] names=[A B]\n"},
		{"letters without I", "row,seats\nH,5\nJ,5\n", "A rows=2 seats=[5] names=[H J]\n"},
		{"from the back", "row,seats\n3,5\n2,5\n1,6\n", "A rows=3 seats=[6 5 5]\n"},
		{"names of no rule", "row,seats\nlow,5\nhigh,5\n", "A rows=2 seats=[5] names=[low high]\n"},
		{"a row without a name", "row,seats\n1,5\n,5\n2,5\n", "A rows=3 seats=[5] names=[1 3 2]\n! A3 \"\"\n"},
		{"a row twice", "row,seats\n1,5\n1,6\n", "A rows=2 seats=[5 6] names=[1 1.2]\n! A3 \"1\"\n"},
		{"hyphen in a name", "section,row,seats\nNorth-East,1,5\n", "North East rows=1 seats=[5]\n! A2 \"North-East\"\n"},
		{"benches and counts mixed", "row,seats,bench,pitch\n1,5,,20in\n2,,9 ft,\n3,6,10ft,\n", "A rows=3 seats=[5 5 6] bench=[100in 9ft 10ft] pitch=20in\n"},
		{"seats over the bench", "row,seats,bench,pitch\n1,6,5 ft,20in\n", "A rows=1 seats=[6] bench=[10ft] pitch=20in\n! C2 \"5 ft\"\n"},
		{"lengths in the cells and the units line", "units,cm\nrow,seats,run,rise\n1,5,60,9 5/8in\n", "A rows=1 seats=[5] rise=9 5/8in run=60cm\n"},
		{"label and value for all", "Rise: 9 5/8 in\nPitch,18,in\nSeat board,17in\nsection,row,seats\nA,1,5\nB,1,5\n", "A rows=1 seats=[5] pitch=18in rise=9 5/8in board=17in aisle=4ft\nB rows=1 seats=[5] pitch=18in rise=9 5/8in board=17in\n"},
		{"uses", "row,seats,wheelchair,companion,reserved\n1,9,1-2,3,4 rail; 5-6 (nobody)\n2,9,none,-,7\n", "A rows=2 seats=[9] rail=[{1 4 4}] nobody=[{1 5 6}] wheelchair=[{1 1 2}] companion=[{1 3 3}]\n! E3 \"7\"\n"},
		{"a seat in two columns", "row,seats,missing,rail\n1,9,1-3,3\n", "A rows=1 seats=[9] missing=[{1 1 3}]\n! D2 \"3\"\n"},
		{"spans of all kinds", "row,seats,missing\n1,9,\"1; 3–4 and 6 to 7\"\n2,9,all\n3,9,no\n4,9,#2 & 5\n", "A rows=4 seats=[9] missing=[{1 1 1} {1 3 4} {1 6 7} {2 1 9} {4 2 2} {4 5 5}]\n"},
		{"numbers of the house", "row,seats,from,first seat,number step,missing\n1,5,right,2,2,4\n", "A rows=1 seats=[5] numbers=1:2+2 missing=[{1 4 4}]\n"},
		{"cross-aisles", "row,seats,cross-aisle (ft)\n1,5,\n2,5,4\n3,5,\n", "A rows=3 seats=[5] cross=[{2 4ft}]\n"},
		{"kinds", "section,row,seats,kind\nA,1,5,chairs\nF,1,5,floor\n", "A rows=1 seats=[5] kind=1\nF rows=1 seats=[5] kind=2\n"},
		{"a floor block by name", "section,row,seats,rise\nFloor,1,5,9in\n", "Floor rows=1 seats=[5] kind=2\n"},
		{"the head again", "row,seats\n1,5\nrow,seats\n2,5\n", "A rows=2 seats=[5]\n"},
		{"dates", "row,seats,missing\n1,9,2026-05-09\n2,12-Jan,\n3-May,9,5/9/2026\n", "A rows=3 seats=[9 0 9]\n! C2 \"2026-05-09\"\n! B3 \"12-Jan\"\n! A4 \"3-May\"\n! C4 \"5/9/2026\"\n"},
		{"words of all kinds", "section,row,seats,kind,numbered from,first seat\nA,1,5,sofa,above,none\nB,1,5,bleachers,camera left,1\nC,1,5,floor block,R,\n",
			"A rows=1 seats=[5] aisle=4ft\nB rows=1 seats=[5] numbers=0:1+0\nC rows=1 seats=[5] kind=2 numbers=1:0+0\n! D2 \"sofa\"\n! E2 \"above\"\n! F2 \"none\"\n"},
		{"numbers of rows that are none", "section,rows,seats\nA,3-Mar,5\nB,many,5\n", "A rows=1 seats=[5] aisle=4ft\nB rows=1 seats=[5]\n! B2 \"3-Mar\"\n! B3 \"many\"\n"},
		{"names that cannot be", "section,row,seats\n#,1,5\nAn exceedingly long name,/,5\n", "A rows=1 seats=[5] aisle=4ft\nAn exceedingly l rows=1 seats=[5]\n! A2 \"#\"\n! A3 \"An exceedingly long name\"\n! B3 \"/\"\n"},
		{"more rows than there can be", "section,rows,seats\nA,400,5\nA,200,5\n", "A rows=400 seats=[5]\n! C3 \"5\"\n"},
		{"more seats than there can be", "row,seats\n1,250000\n2,1\n3,250001\n", "A rows=3 seats=[0 1 0]\n! B2 \"250000\"\n! B4 \"250001\"\n"},
		{"more bench than there can be", "row,bench,pitch\n1,2 km,\n2,2000m,10cm\n", "A rows=2 bench=[0m 2000m] pitch=10cm\n! B2 \"2 km\"\n"},
		{"two columns of one meaning", "row,seats,places\n1,5,6\n", "A rows=1 seats=[5]\n! C1 \"places\"\n"},
		{"no number of seats", "row,seats\n1,\n2,5\n,\n", "A rows=2 seats=[0 5]\n! B2 \"\"\n"},
		{"units at odds", "row,seats,rise\n1,5,9 m\n2,5,9\n3,5,9in\n", "A rows=3 seats=[5] rise=9in\n! C2 \"9 m\"\n! C3 \"9\"\n"},
		{"posted in words", "Posted capacity: 412 persons\nrow,seats\n1,5\n", "A rows=1 seats=[5]\n"},
		{"posted that is none", "Posted capacity,many\nrow,seats\n1,5\n", "A rows=1 seats=[5]\n! B1 \"many\"\n"},
		{"aisle of nothing", "section,row,seats,aisle\nA,1,5,none\nB,1,5,\n", "A rows=1 seats=[5] aisle=4ft\nB rows=1 seats=[5]\n"},
	} {
		if got := brief(survey(t, c.text)); got != c.want {
			t.Errorf("%s: (-want +got)\n%s", c.name, cmp.Diff(c.want, got))
		}
	}
}

func TestGrids(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"bare", "x,x,x\nx,x,x\nFIELD\n", "A rows=2 seats=[3]\n"},
		{"blanks are gaps", "x,x,x,x\nx,,x,x\nFIELD\n", "A rows=2 seats=[4] missing=[{1 2 2}]\n"},
		{"dashes are gaps", "x,-,x\nx,x,.\nFIELD\n", "A rows=2 seats=[3] missing=[{1 3 3} {2 2 2}]\n"},
		{"unless it says so", "front\nx,x,x\n,x,\n", "A rows=2 seats=[3 1]\n"},
		{"or the camera stands there", ",x,\nx,x,x\ncamera here\n", "A rows=2 seats=[3 1]\n"},
		{"or the back does", "back wall\nx,x,x\n,x,\n", "A rows=2 seats=[1 3]\n"},
		{"or the rows are named", "1,x,x,x\n2,,x,\n", "A rows=2 seats=[3 1]\n"},
		{"names of rows on both sides", "B,x,x,B\nA,x,x,A\n", "A rows=2 seats=[2] names=[A B]\n"},
		{"rows in words", "Row 2,x,x\nRow 1,x,x\n", "A rows=2 seats=[2]\n"},
		{"left", "x,x,\nx,x,x\nFIELD\n", "A rows=2 seats=[3 2] align=1\n"},
		{"right", ",x,x\nx,x,x\nFIELD\n", "A rows=2 seats=[3 2] align=2\n"},
		{"ragged", "x,x,,\n,x,x,x\nFIELD\n", "A rows=2 seats=[4] missing=[{1 1 1} {2 3 4}]\n"},
		{"sections side by side", "x,x,,x,x,x\nx,x,,x,x,x\nFIELD\n", "A rows=2 seats=[2] aisle=4ft\nB rows=2 seats=[3]\n"},
		{"with titles", "Section West,,,East\nx,x,,x,x,x\nx,x,,x,x,x\nFIELD\n", "West rows=2 seats=[2] aisle=4ft\nEast rows=2 seats=[3]\n"},
		{"with letters for titles", "K,,,,L,,\nx,x,x,,x,x,x\n", "K rows=1 seats=[3] aisle=4ft\nL rows=1 seats=[3]\n"},
		{"one title over two", "North\nx,x,,x,x,x\n", "North1 rows=1 seats=[2] aisle=4ft\nNorth2 rows=1 seats=[3]\n"},
		{"one below the other", "North\nx,x\n\nSouth\nx,x,x\n", "North rows=1 seats=[2] aisle=4ft\nSouth rows=1 seats=[3]\n"},
		{"a title and a blank line", "North\n\nx,x\n", "North rows=1 seats=[2]\n"},
		{"uses", "W,C,x,R,P,N,M,x,x,x,x\n", "A rows=1 seats=[11] missing=[{1 7 7}] wheelchair=[{1 1 1}] companion=[{1 2 2}] rail=[{1 4 4}] platform=[{1 5 5}] nobody=[{1 6 6}]\n"},
		{"another sign", "x,?,x\n", "A rows=1 seats=[3]\n! B1 \"?\"\n"},
		{"words beside", "x,x,,rail loose\nx,x\nFIELD\n", "A rows=2 seats=[2]\n! D1 \"rail loose\"\n"},
		{"words inside", "x,post,x\nx,x,x\nFIELD\n", "A rows=2 seats=[3] missing=[{2 2 2}]\n! B1 \"post\"\n"},
		{"seats numbered", "1,2,3\n1,2,3\nFIELD\n", "A rows=2 seats=[3] numbers=0:1+1\n"},
		{"from the right, odd", "5,3,1\n5,,1\nFIELD\n", "A rows=2 seats=[3] numbers=1:1+2 missing=[{1 3 3}]\n"},
		{"numbers over the columns", "7,8,9\nx,,x\n,x,x\nFIELD\n", "A rows=2 seats=[3] numbers=0:7+1 missing=[{1 7 7} {2 8 8}]\n"},
		{"numbers and names", "Row,1,2,3,Row\nB,x,x,x,B\nA,x,,x,A\n", "A rows=2 seats=[3] names=[A B] numbers=0:1+1 missing=[{A 2 2}]\n"},
		{"numbers below", "x,,x\nx,x,x\n3,2,1\nFIELD\n", "A rows=2 seats=[3] numbers=1:1+1 missing=[{2 2 2}]\n"},
		{"ones for seats", "1,1,1\n1,0,1\nFIELD\n", "A rows=2 seats=[3] missing=[{1 2 2}]\n"},
		{"a measure above", "Rise,9 5/8in\nPosted capacity,40\nx,x\n", "A rows=1 seats=[2] rise=9 5/8in\n"},
		{"a date inside", "x,5-Mar,x\nx,x,x\nFIELD\n", "A rows=2 seats=[3] missing=[{2 2 2}]\n! B1 \"5-Mar\"\n"},
	} {
		if got := brief(survey(t, c.text)); got != c.want {
			t.Errorf("%s: (-want +got)\n%s", c.name, cmp.Diff(c.want, got))
		}
	}
}

func TestNotes(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"x,x\n", "left on paper"}, {"x,x\n", "front row"}, {"x,,x\n", "blank column"}, {"row,seats\n3,5\n2,5\n", "row 2 is the front one"},
		{"section,row,seats\nA,1,5\nB,1,5\n", "No aisle is given to the right of A"}, {"row,seats\n1,5\n", "called A"}, {"section,row,seats\nfloor,1,5\n", "floor block"},
	} {
		if notes := strings.Join(survey(t, c.text).Notes, "\n"); !strings.Contains(notes, c.want) {
			t.Errorf("%q: notes %q, want %q", c.text, notes, c.want)
		}
	}
	for range 2 {
		if got := survey(t, "Invited,420\nPosted,412\nrow,seats\n1,5\n"); got.Posted != 412 || got.People != 420 {
			t.Errorf("posted %d, people %d", got.Posted, got.People)
		}
	}
}

func TestEncodings(t *testing.T) {
	const text = "section;row;seats\nCafé – Süd;1;5\n"
	cp, err := charmap.Windows1252.NewEncoder().String(text)
	if err != nil {
		t.Fatal(err)
	}
	little, _ := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String(text)
	big, _ := unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder().String(text)
	for name, data := range map[string]string{"UTF-8": text, "with a mark": "\ufeff" + text, "Windows-1252": cp, "UTF-16": little, "UTF-16, big end first": big} {
		if got := survey(t, data); len(got.Sections) != 1 || got.Sections[0].Name != "Café – Süd" {
			t.Errorf("%s: %+v", name, got.Sections)
		}
	}
}

func TestFaults(t *testing.T) {
	book := excelize.NewFile()
	for r := range 3 {
		_ = book.SetCellValue("Sheet1", fmt.Sprintf("A%d", r+1), "note")
	}
	var wordsOnly bytes.Buffer
	if err := book.Write(&wordsOnly); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, file, data, what, hint string }{
		{"empty", "t.csv", "", "empty", "section, row, seats"},
		{"blank", "t.csv", " , ,\n,,\n", "empty", ""},
		{"no names of columns", "t.csv", "Sor;Székek;Hiány\n1;15;3\n2;15;\n", "no seats could be read", "names the columns"},
		{"words only", "t.xlsx", wordsOnly.String(), "no seats could be read", ""},
		{"too many bytes", "t.csv", strings.Repeat("x", MaxBytes+1), "more than", ""},
		{"too many lines", "t.csv", strings.Repeat("1,2\n", maxLines+1), "larger than", ""},
	} {
		got, err := Read(c.file, []byte(c.data), Options{})
		var f *seating.Fault
		if !errors.As(err, &f) || f.File != c.file || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) || f.Hint == "" {
			t.Errorf("%s: %v, %v; want a fault with %q and a hint with %q", c.name, got, err, c.what, c.hint)
		}
	}
}

// A workbook: numbers as spreadsheets keep them, several sheets, a hidden one, dates in many formats.
func TestWorkbook(t *testing.T) {
	f := excelize.NewFile()
	set := func(sheet, at string, value any, format string) {
		if err := f.SetCellValue(sheet, at, value); err != nil {
			t.Fatal(err)
		}
		if format != "" {
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
			if err != nil {
				t.Fatal(err)
			}
			if err := f.SetCellStyle(sheet, at, at, style); err != nil {
				t.Fatal(err)
			}
		}
	}
	for i, h := range []string{"Section", "Row", "Seats", "Missing", "Run (m)", "Rise (in)"} {
		set("Sheet1", string(rune('A'+i))+"1", h, "")
	}
	for r, row := range [][]any{{"A", 1, 15, "3, 7-9", 0.1 + 0.2, 9.625}, {"A", 2, 15.0, 46090, nil, nil}, {"A", 3, 16, 46090, nil, nil}, {"A", 4, 16, 46090, nil, nil}} {
		for c, v := range row {
			if v != nil {
				set("Sheet1", fmt.Sprintf("%c%d", 'A'+c, r+2), v, "")
			}
		}
	}
	set("Sheet1", "D3", 46090, "d-mmm")             // 9 March 2026
	set("Sheet1", "D4", 46090, "yyyy\\-mm\\-dd")    //
	set("Sheet1", "D5", 46090, `"on "dddd`)         // a day without a number
	set("Sheet1", "C5", 16, `[Blue]0" seats, dry"`) // no date, although it holds d and y
	for _, name := range []string{"Balcony", "Old"} {
		if _, err := f.NewSheet(name); err != nil {
			t.Fatal(err)
		}
		set(name, "B2", "x", "")
		set(name, "C2", "W", "")
	}
	if err := f.SetSheetVisible("Old", false); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	got, err := Read("book.XLSX", b.Bytes(), Options{LeaveOut: true})
	if err != nil {
		t.Fatal(err)
	}
	want := "A rows=4 seats=[15 15 16 16] rise=9 5/8in run=30cm aisle=4ft missing=[{1 3 3} {1 7 9}]\nBalcony rows=1 seats=[2] wheelchair=[{1 2 2}]\n" +
		"! Sheet1!D3 \"9-Mar\"\n! Sheet1!D4 \"2026-03-09\"\n! Sheet1!D5 \"on Monday\"\n"
	if diff := cmp.Diff(want, brief(got)); diff != "" {
		t.Error(diff)
	}
	for _, u := range got.Unread {
		if !strings.Contains(u.Why, `made a date of it; it probably was "3-9" or "9-3"`) {
			t.Errorf("%s: %s", u.Cell, u.Why)
		}
	}
}

// checkWhole: every cell that holds something was read or is listed, no cell is listed twice, and Build never panics.
func checkWhole(t *testing.T, sheets []*cells.Sheet) {
	if len(sheets) == 0 {
		return
	}
	r := newReader(sheets)
	out, err := r.read("t")
	if err != nil {
		var f *seating.Fault
		if !errors.As(err, &f) || strings.ContainsAny(f.Where(), "\n\r") {
			t.Fatalf("%v is no fault", err)
		}
		return
	}
	for _, s := range r.sheets {
		for row := range s.Rows() {
			for col := range s.Cols(row) {
				if s.open(row, col) {
					t.Fatalf("%s %q is neither read nor listed", s.Address(row, col), s.At(row, col).Text)
				}
			}
		}
	}
	seen := map[string]bool{}
	for _, u := range out.Unread {
		if seen[u.Cell] || u.Why == "" {
			t.Fatalf("%s is listed twice, or without a reason: %+v", u.Cell, out.Unread)
		}
		seen[u.Cell] = true
	}
	for _, sec := range out.Sections {
		if sec.Name == "" || sec.Rows == 0 {
			t.Fatalf("a section %+v", sec)
		}
	}
	if _, err := seating.Build(seating.Spec{Sections: out.Sections, Posted: out.Posted, People: out.People}); err != nil {
		var f *seating.Fault
		if !errors.As(err, &f) || f.Key == "" {
			t.Fatalf("%v is no fault with a key", err)
		}
	}
}

func FuzzText(f *testing.F) {
	text, err := os.ReadFile(messy + ".csv")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	for _, seed := range []string{
		"section,row,seats,missing,rise (in)\nA,1,15,3-5,9 5/8\n", "W,C,x,,x\n1,2,3,,4\n", "K,,L\nx,x,,x\n\ncamera\n", "sep=;\nrow;seats;reserved\n1;9;3 rail\n",
		"row,seats,from,first seat,number step,missing\n1,5,right,2,2,4\n", "Rise: 9in\nunits,cm\nx,-,x\n", "row,rows,seats\n1,400,700\n",
		"West,,,East\nrow,seats,,row,seats\n3,1-18 (no 7),,1,2-20 even\nwalkway 4 ft,,,,\n", "row,A,B,total\n1,18,1-9\nfront,9,\"1,2,4\"\n", "section,row 1,row 2\nA,9,8\n",
		"section,row,seat\nA,1,1\nA,1,3\nB,1,2\n", "rows,first,last,capacity\n1-5,2,20,10\nA to F,1,18,\n", "1,x,x\n\n2,x,x\nFIELD\n\n1,x\n", "Row 1 is at the top\nrow,seats,height (cm)\n1,9,30\n", ",A,B\n,02\n,\"2\"",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<14 {
			return
		}
		sheets, err := cells.Read("t.csv", data, limits)
		if err != nil {
			var fault *seating.Fault
			if !errors.As(err, &fault) {
				t.Fatalf("%v is no fault", err)
			}
			return
		}
		checkWhole(t, sheets)
	})
}

func FuzzWorkbook(f *testing.F) {
	book, err := os.ReadFile(messy + ".xlsx")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(book)
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<16 {
			return
		}
		sheets, err := cells.Read("t.xlsx", data, limits)
		if err == nil {
			checkWhole(t, sheets)
		}
	})
}

// The largest tables that are read must not take more than a moment: nothing in them is compared with everything.
func BenchmarkRead(b *testing.B) {
	var lines, drawn strings.Builder
	lines.WriteString("section,row,seats,missing,rise (in)\n")
	for i := range 10_000 {
		fmt.Fprintf(&lines, "S%d,%d,20,\"3, 7-9\",9 5/8\n", i/25, i%25+1)
	}
	for range 1000 {
		drawn.WriteString(strings.Repeat("x,", 200) + "\n")
	}
	drawn.WriteString("FIELD\n")
	for _, c := range []struct{ name, text string }{{"lines=10000", lines.String()}, {"grid=200000", drawn.String()}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Read("t.csv", []byte(c.text), Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// limits are those of a survey, for tests that open its cells.
var limits = cells.Limits{Bytes: MaxBytes, Lines: maxLines, Cells: maxCells}

// A section may be drawn on one sheet and go on, line by line, on another, where somebody says that both are meant.
func TestDrawnThenListed(t *testing.T) {
	f := excelize.NewFile()
	for _, at := range []string{"A1", "B1", "A2", "B2"} {
		if err := f.SetCellValue("Sheet1", at, "x"); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetSheetName("Sheet1", "A"); err != nil {
		t.Fatal(err)
	}
	if _, err := f.NewSheet("more"); err != nil {
		t.Fatal(err)
	}
	for at, text := range map[string]string{"A1": "section", "B1": "row", "C1": "seats", "D1": "missing", "A2": "A", "B2": "9", "C2": "5", "D2": "seat 3"} {
		if err := f.SetCellValue("more", at, text); err != nil {
			t.Fatal(err)
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	if _, err := Read("book.xlsx", b.Bytes(), Options{}); err == nil || !strings.Contains(err.Error(), "Sheets A and more both do") {
		t.Errorf("%v: nobody said that both sheets are meant", err)
	}
	got, err := Read("book.xlsx", b.Bytes(), Options{Sheets: []string{"A", "more"}})
	if err != nil {
		t.Fatal(err)
	}
	if want := "A rows=3 seats=[2 2 5] names=[1 2 9] missing=[{9 3 3}]\n"; brief(got) != want {
		t.Errorf("%s, want %s", brief(got), want)
	}
}
