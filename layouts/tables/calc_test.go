package tables

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"everyseat/mosaic"
	"everyseat/testdata/judges"
)

// calc converts workbooks with LibreOffice (Debian's libreoffice-calc-nogui), every sheet to a CSV file
// NAME-SHEET.csv with the values as they are stored. Without it the test is skipped, unless
// EVERYSEAT_JUDGES=required.
func calc(t *testing.T, books map[string]func(io.Writer, *mosaic.Plan) error, p *mosaic.Plan) func(name string) [][]string {
	t.Helper()
	soffice, err := exec.LookPath("soffice")
	if err != nil {
		judges.Missing(t, "soffice is not installed")
	}
	dir := t.TempDir()
	args := []string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile"), "--headless",
		"--convert-to", "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1", "--outdir", dir}
	for name, write := range books {
		var b bytes.Buffer
		if err := write(&b, p); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	if out, err := exec.Command(soffice, args...).CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v\n%s", err, out)
	}
	return func(name string) [][]string {
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		lines, err := csv.NewReader(f).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return lines
	}
}

// LibreOffice opens both workbooks, and what it reads is what we meant to write: ids and formulas as the text
// that they are, numbers as numbers, every line in its place.
func TestCalcReadsTheWorkbooks(t *testing.T) {
	p := plan(t)
	read := calc(t, map[string]func(io.Writer, *mosaic.Plan) error{"seats.xlsx": Workbook, "tally.xlsx": Tally}, p)

	want := [][]string{header(p)}
	for k, seat := range p.Order {
		want = append(want, record(nil, p, k, seat))
	}
	sameLines(t, "seats", read("seats-seats.csv"), want)

	book := excelize.NewFile()
	defer book.Close()
	looks, err := colourStyles(book, p)
	if err != nil {
		t.Fatal(err)
	}
	tally := &tallyBook{file: book, plan: p, rows: p.Tally(), styles: looks}
	for name, write := range map[string]func(*tallySheet){"cards": tally.cards, "sheets": tally.sheets, "buy": tally.buy} {
		s := &tallySheet{}
		write(s)
		want := make([][]string, len(s.lines))
		for i, line := range s.lines {
			for _, c := range line {
				text := fmt.Sprint(c.Value)
				if c.Value == nil {
					text = ""
				}
				want[i] = append(want[i], text)
			}
		}
		sameLines(t, name, read("tally-"+name+".csv"), want)
	}
}

func sameLines(t *testing.T, name string, got, want [][]string) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d lines, want %d", name, len(got), len(want))
	}
	for i := range min(len(got), len(want)) {
		if !slices.Equal(got[i], want[i]) {
			t.Errorf("%s, line %d: LibreOffice reads %q, want %q", name, i+1, got[i], want[i])
		}
	}
}

// The tally counts what the hands hold, counted here seat by seat; its sums are the bill's.
func TestTallyBook(t *testing.T) {
	p := plan(t)
	var b bytes.Buffer
	if err := Tally(&b, p); err != nil {
		t.Fatal(err)
	}
	book, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if got := strings.Join(book.GetSheetList(), " "); got != "cards sheets buy" {
		t.Fatalf("sheets %s", got)
	}
	held := map[string]map[string]int{} // by row, then card
	for s := range p.Stands.Seats {
		seat := &p.Stands.Seats[s]
		sec := &p.Stands.Sections[seat.Section]
		for c := range p.Cards {
			for cue := range p.Hands {
				if int(p.Hands[cue][s].Card) == c {
					row := sec.Name + "|" + sec.Rows[seat.Row].Name
					if held[row] == nil {
						held[row] = map[string]int{}
					}
					held[row][p.Cards[c].ID]++
					break
				}
			}
		}
	}
	lines, err := book.GetRows("cards")
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines[1:] {
		if l[0] != lineRow {
			continue
		}
		for i, card := range lines[0][3 : len(lines[0])-1] {
			if got, want := l[3+i], fmt.Sprint(held[l[1]+"|"+l[2]][card]); got != want {
				t.Errorf("row %s-%s: %s of %s, want %s", l[1], l[2], got, card, want)
			}
		}
		delete(held, l[1]+"|"+l[2])
	}
	if len(held) > 0 {
		t.Errorf("rows without a line: %v", held)
	}
	buy, err := book.GetRows("buy")
	if err != nil {
		t.Fatal(err)
	}
	whole, err := book.GetRows("sheets")
	if err != nil {
		t.Fatal(err)
	}
	sums := whole[len(whole)-2]
	spares := make([]int, len(buy))
	for _, l := range whole {
		for i := range len(buy) - 2 {
			if n, err := strconv.Atoi(l[3+i]); err == nil && l[0] == lineSpare {
				spares[i] += n
			}
		}
	}
	for i, line := range buy[1 : len(buy)-1] {
		if line[3] != strconv.Itoa(spares[i]) {
			t.Errorf("%s: %s spares to buy, and the sections keep %d", line[0], line[3], spares[i])
		}
		if line[4] != sums[3+i] {
			t.Errorf("%s: %s sheets to buy for, and %s in the sums", line[0], line[4], sums[3+i])
		}
	}
	if kind, err := book.GetCellType("cards", "C2"); err != nil || kind == excelize.CellTypeNumber {
		t.Errorf("a row's name is no text: %v %v", kind, err)
	}
	if panes, err := book.GetPanes("cards"); err != nil || !panes.Freeze || panes.YSplit != 1 {
		t.Errorf("the header is not frozen: %+v %v", panes, err)
	}
}
