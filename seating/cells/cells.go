// Package cells reads tables as people keep them, in text or in a workbook, into cells; what these mean is for
// others to say. Start with Read.
package cells

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"everyseat/seating"
)

// Limits of every table.
const (
	maxSheets   = 50
	maxCols     = 2_000
	maxUnpacked = 64 << 20 // of a workbook
)

// Limits bounds a table that somebody gives us; it is checked before anything is allocated.
type Limits struct {
	Bytes int // of the file
	Lines int // of one sheet
	Cells int // of all sheets
}

func (most Limits) tooLarge(line int) error {
	f := seating.Wrong("", "leave out what does not belong here",
		"the table is larger than %d lines, %d columns or %d cells", most.Lines, maxCols, most.Cells)
	f.Line = line
	return f
}

// Cell is one cell as it stands in the table, blanks taken off its ends.
type Cell struct {
	Text string
	Date string // what a spreadsheet that made a date of it probably got, like `"3-5" or "5-3"`; "" where it is none
	Fill string // the colour of a cell without text, RRGGBB; "" for none and white. ReadHidden alone gives it
	// Struck: a line goes through the text, which may mean that it does not hold any more.
	Struck bool
	Pinned string // a comment that is pinned to a cell of a workbook
}

// Sheet is one sheet of a table: cells by row and column from 0, empty ones taken off the ends.
type Sheet struct {
	Name       string // in its workbook; "" for a text
	Hidden     bool   // nobody sees it in the workbook
	cells      [][]Cell
	prefix     bool  // addresses name the sheet
	hiddenRows []int // that hold anything, from 0
	hiddenCols []int
}

// Unread is a cell that could not be used.
type Unread struct {
	Cell string // "C7"; "Sheet2!C7" where the workbook has several sheets
	Text string // as it stands there
	Why  string // plain words
}

// In says so of a cell of that file.
func (u Unread) In(file string) string {
	return fmt.Sprintf("%s: cell %s, %q: %s", file, u.Cell, u.Text, u.Why)
}

// Read reads the sheets that hold anything, by the name's ending a text (.csv, .tsv, .txt: comma,
// semicolon or tab, UTF-8, UTF-16 or Windows-1252) or a workbook (.xlsx, every visible sheet). Errors
// are *seating.Fault with the file's name and, where it applies, line.
func Read(name string, data []byte, most Limits) ([]*Sheet, error) {
	return readAll(name, data, most, false)
}

// ReadHidden is Read with the hidden sheets of a workbook too.
func ReadHidden(name string, data []byte, most Limits) ([]*Sheet, error) {
	return readAll(name, data, most, true)
}

func readAll(name string, data []byte, most Limits, hidden bool) ([]*Sheet, error) {
	fault := func(what, hint string) ([]*Sheet, error) {
		return nil, &seating.Fault{File: name, What: what, Hint: hint}
	}
	if len(data) > most.Bytes {
		return fault(fmt.Sprintf("the file has %d bytes, more than the %d that are read", len(data), most.Bytes),
			"leave out pictures and other sheets")
	}
	zipped := strings.HasPrefix(string(data[:min(2, len(data))]), "PK")
	var sheets []*Sheet
	var err error
	switch strings.ToLower(filepath.Ext(name)) {
	case ".csv", ".tsv", ".txt":
		if zipped {
			return fault("this is a workbook, not a table in text", "name it .xlsx")
		}
		sheets, err = readText(data, most)
	case ".xlsx", ".xlsm":
		if !zipped {
			return fault("this is no workbook", "save it anew as .xlsx, or as .csv")
		}
		sheets, err = readWorkbook(data, most, hidden)
	default:
		return fault("tables are read from .csv and .xlsx files", "save the table as one of them")
	}
	if err != nil {
		f := err.(*seating.Fault)
		f.File = name
		return nil, f
	}
	var filled []*Sheet
	for _, s := range sheets {
		if s.trim(); len(s.cells) > 0 {
			filled = append(filled, s)
		}
	}
	seen := 0
	for _, s := range filled {
		if !s.Hidden {
			seen++
		}
	}
	for _, s := range filled {
		s.prefix = seen > 1 || s.Hidden
	}
	return filled, nil
}

// trim takes blanks off cells and empty ones off the ends.
func (s *Sheet) trim() {
	for r, row := range s.cells {
		last := 0
		for c := range row {
			if row[c].Text = strings.TrimSpace(row[c].Text); row[c].Text != "" || row[c].Fill != "" {
				last = c + 1
			}
		}
		s.cells[r] = row[:last]
	}
	for len(s.cells) > 0 && len(s.cells[len(s.cells)-1]) == 0 {
		s.cells = s.cells[:len(s.cells)-1]
	}
}

// DrawFills writes texts by colour into the cells that have none and are filled with it.
func (s *Sheet) DrawFills(texts map[string]string) {
	for _, row := range s.cells {
		for c := range row {
			if row[c].Text == "" && row[c].Fill != "" {
				row[c].Text = texts[row[c].Fill]
			}
		}
	}
}

// LeaveOutHidden empties the cells of hidden rows and columns, and names those that held anything: "rows 3, 4, column
// C".
func (s *Sheet) LeaveOutHidden() string {
	var rows, cols []string
	for _, row := range s.hiddenRows {
		if row < len(s.cells) && len(s.cells[row]) > 0 {
			rows = append(rows, strconv.Itoa(row+1))
			s.cells[row] = nil
		}
	}
	for _, col := range s.hiddenCols {
		held := false
		for _, row := range s.cells {
			if col < len(row) {
				held = held || row[col] != Cell{}
				row[col] = Cell{}
			}
		}
		if held {
			name, _ := excelize.ColumnNumberToName(col + 1)
			cols = append(cols, name)
		}
	}
	s.trim()
	var all []string
	for _, list := range []struct {
		one   string
		names []string
	}{{"row", rows}, {"column", cols}} {
		if len(list.names) > 1 {
			list.one += "s"
		}
		if list.names != nil {
			all = append(all, list.one+" "+strings.Join(list.names, ", "))
		}
	}
	return strings.Join(all, " and ")
}

// Rows is how many rows there are, Cols how many cells a row has.
func (s *Sheet) Rows() int        { return len(s.cells) }
func (s *Sheet) Cols(row int) int { return len(s.cells[row]) }

// At is the cell of a row and column, empty outside the table.
func (s *Sheet) At(row, col int) Cell {
	if row < 0 || row >= len(s.cells) || col < 0 || col >= len(s.cells[row]) {
		return Cell{}
	}
	return s.cells[row][col]
}

// Address is a cell's name as a spreadsheet shows it, with the sheet's name where there are several.
func (s *Sheet) Address(row, col int) string {
	name, _ := excelize.CoordinatesToCellName(col+1, row+1) // no table is too large for one
	if s.prefix {
		name = s.Name + "!" + name
	}
	return name
}

// Plain is text in small letters, with single blanks for everything that is no letter or figure.
func Plain(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

// Number reads a whole number: "15", "15.0", "1,200" or "15 seats". ok is false for anything else, for what is
// negative and for more than seating.MaxPeople.
func Number(text string) (n int, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, word := range []string{"seats", "seat", "places", "people", "persons", "pers.", "rows", "chairs"} {
		t = strings.TrimSpace(strings.TrimSuffix(t, word))
	}
	t = strings.TrimSuffix(t, ".0")
	if head, tail, ok := strings.Cut(t, ","); ok && len(tail) == 3 && len(head) <= 3 && head != "" && head != "0" {
		t = head + tail
	}
	n, err := strconv.Atoi(t)
	if err != nil || t[0] == '+' || n > seating.MaxPeople || n < 0 {
		return 0, false
	}
	return n, true
}

// Ditto says whether a text stands for the one above it.
func Ditto(text string) bool {
	return slices.Contains([]string{`"`, "″", "〃"}, text) || Plain(text) == "ditto"
}

// Meaning finds which of some lists of names holds the words that somebody wrote over a column, all in small letters
// and single blanks: −1 for none. A slip of one letter in a longer word is forgiven where it leaves one meaning.
func Meaning(words string, names [][]string) int {
	if words == "" {
		return -1
	}
	for i := range names {
		if slices.Contains(names[i], words) {
			return i
		}
	}
	const long = 5 // letters
	if len(words) < long {
		return -1
	}
	found, letters := -1, utf8.RuneCountInString(words)
	for i := range names {
		for _, name := range names[i] {
			more := len(name) - len(words)
			if len(name) < long || more < -utf8.UTFMax || more > utf8.UTFMax { // cheaper than to count the slips
				continue
			}
			if more = utf8.RuneCountInString(name) - letters; more < -1 || more > 1 || seating.Slips(name, words) > 1 {
				continue
			}
			if found >= 0 && found != i {
				return -1
			}
			found = i
		}
	}
	return found
}
