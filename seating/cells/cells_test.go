package cells

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"everyseat/seating"
)

var limits = Limits{Bytes: 8 << 20, Lines: 20_000, Cells: 1_000_000}

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
		{"another kind", "t.ods", "x", "tables are read from", "save"},
		{"old workbook", "t.xls", "x", "tables are read from", "save"},
		{"workbook named as text", "t.csv", wordsOnly.String(), "workbook", ".xlsx"},
		{"text named as workbook", "t.xlsx", "row,seats\n", "no workbook", ""},
		{"truncated workbook", "t.xlsx", wordsOnly.String()[:500], "cannot be opened", "save it anew"},
		{"zip of nothing", "t.xlsx", "PK\x05\x06" + strings.Repeat("\x00", 18), "cannot be opened", ""},
		{"binary", "t.csv", "\x00\x01\x02", "no text", ""},
		{"an open quote", "t.csv", "row,seats\n\"1,5\n2,5\n", "none closes it", ""},
		{"too many bytes", "t.csv", strings.Repeat("x", limits.Bytes+1), "more than", ""},
		{"too many lines", "t.csv", strings.Repeat("1,2\n", limits.Lines+1), "larger than", ""},
		{"too many columns", "t.csv", strings.Repeat("x,", maxCols+1), "larger than", ""},
		{"a workbook with a cell far away", "t.xlsx", farAway(t, "A1000000"), "larger than", ""},
		{"a workbook with a cell far to the right", "t.xlsx", farAway(t, "XFD3"), "larger than", ""},
		{"a workbook that swells", "t.xlsx", bomb(t), "larger than 64 MB", ""},
	} {
		got, err := Read(c.file, []byte(c.data), limits)
		var f *seating.Fault
		if !errors.As(err, &f) || f.File != c.file || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) || f.Hint == "" {
			t.Errorf("%s: %v, %v; want a fault with %q and a hint with %q", c.name, got, err, c.what, c.hint)
		}
	}
}

// farAway is a workbook whose table is vast and empty but for a corner.
func farAway(t *testing.T, at string) string {
	t.Helper()
	f := excelize.NewFile()
	if err := f.SetCellValue("Sheet1", at, "x"); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// bomb is a small workbook whose sheet unpacks to more than is read.
func bomb(t *testing.T) string {
	t.Helper()
	f := excelize.NewFile()
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	in, err := zip.NewReader(bytes.NewReader(b.Bytes()), int64(b.Len()))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, part := range in.File {
		if part.Name == "xl/worksheets/sheet1.xml" {
			to, err := w.Create(part.Name)
			if err != nil {
				t.Fatal(err)
			}
			chunk := bytes.Repeat([]byte(" "), 1<<20)
			for range 1 + maxUnpacked>>20 {
				if _, err := to.Write(chunk); err != nil {
					t.Fatal(err)
				}
			}
		} else if err := w.Copy(part); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestMangledDate(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"5-Mar", `"3-5" or "5-3"`}, {"Mar-05", `"3-5" or "5-3"`}, {"12. Jan", `"1-12" or "12-1"`}, {"12-Jan-2026", `"1-12" or "12-1"`},
		{"2026-05-09", `"5-9" or "9-5"`}, {"2026-05-09 00:00:00", `"5-9" or "9-5"`}, {"2026-05-09T00:00:00", `"5-9" or "9-5"`},
		{"5/9/2026", `"5-9" or "9-5"`}, {"09.05.2026", `"9-5" or "5-9"`}, {"05-09-26", `"5-9" or "9-5"`}, {"3-Mar", `"3-3"`}, {"7. Mrz", `"3-7" or "7-3"`},
		{"5-9", ""}, {"3, 7-9", ""}, {"1, 2, 3", ""}, {"9 5/8", ""}, {"5/8", ""}, {"24.5", ""}, {"A-1-2", ""}, {"Row 3", ""}, {"mark 3", ""}, {"May", ""}, {"", ""}, {"3-5-300", ""}, {"13-14-2026", ""},
		{"7, 9-10", ""}, {"3, 5-16", ""}, {"5-6, 12", ""}, {"1-2, 12", ""}, {"5 - 6, 12", ""}, {"1.2, 26", ""}, {"5/6-26", ""}, {"7 9 10", ""}, {"1, 2, 26", ""}, {"-5-9-26", ""}, {"5-9-26.", ""},
		{"5 Mar 2026", `"3-5" or "5-3"`}, {"Mar 5, 2026", `"3-5" or "5-3"`}, {"5. Mar 2026", `"3-5" or "5-3"`}, {"5-9-2026", `"5-9" or "9-5"`}, {"May 3", `"5-3" or "3-5"`},
	} {
		if got := mangledDate(c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
}
