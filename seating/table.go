package seating

import (
	"fmt"
	"path/filepath"
	"strings"
)

// Limits of every table.
const (
	maxTableSheets = 50
	maxTableCols   = 2_000
	maxUnzipped    = 64 << 20 // of a workbook
)

// TableLimits bounds a table that somebody gives us; it is checked before anything is allocated.
type TableLimits struct {
	Bytes int // of the file
	Lines int // of one sheet
	Cells int // of all sheets
}

// Table is one sheet of a table: cells by row and column from 0, blanks taken off
// them and empty ones off the ends.
type Table struct{ sheet *sheet }

// ReadTables reads the sheets that hold anything, by the name's ending a text (.csv, .tsv, .txt: comma,
// semicolon or tab, UTF-8, UTF-16 or Windows-1252) or a workbook (.xlsx, every visible sheet). Errors
// are *Fault with the file's name and, where it applies, line.
func ReadTables(name string, data []byte, most TableLimits) ([]Table, error) {
	sheets, err := openTable(name, data, most)
	if err != nil {
		return nil, err
	}
	var filled []Table
	for _, s := range sheets {
		if s.trim(); len(s.cells) > 0 {
			filled = append(filled, Table{s})
		}
	}
	for _, t := range filled {
		t.sheet.prefix = len(filled) > 1
	}
	return filled, nil
}

// Name is the sheet's in its workbook; "" for a text.
func (t Table) Name() string { return t.sheet.name }

// Rows is how many rows there are, Cols how many cells a row has.
func (t Table) Rows() int        { return len(t.sheet.cells) }
func (t Table) Cols(row int) int { return len(t.sheet.cells[row]) }

// Text is a cell's text, "" outside the table.
func (t Table) Text(row, col int) string { return t.sheet.at(row, col).text }

// Date says what a cell probably was that a spreadsheet made a date of, like `"3-5" or "5-3"`;
// "" for all other cells.
func (t Table) Date(row, col int) string { return t.sheet.at(row, col).date }

// Address is a cell's name as a spreadsheet shows it, with the sheet's name where there are several.
func (t Table) Address(row, col int) string { return t.sheet.address(row, col) }

// openTable reads the sheets of a file by its name's ending.
func openTable(name string, data []byte, most TableLimits) ([]*sheet, error) {
	fault := func(what, hint string) ([]*sheet, error) {
		return nil, &Fault{File: name, What: what, Hint: hint}
	}
	if len(data) > most.Bytes {
		return fault(fmt.Sprintf("the file has %d bytes, more than the %d that are read", len(data), most.Bytes), "leave out pictures and other sheets")
	}
	zipped := strings.HasPrefix(string(data[:min(2, len(data))]), "PK")
	var sheets []*sheet
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
		sheets, err = readWorkbook(data, most)
	default:
		return fault("tables are read from .csv and .xlsx files", "save the table as one of them")
	}
	if err != nil {
		f := err.(*Fault)
		f.File = name
		return nil, f
	}
	return sheets, nil
}

// Meaning finds which of some lists of names (in small letters, single blanks) holds what somebody
// wrote over a column: −1 for none. Signs and capitals do not matter, and a slip of one letter in a
// longer word is forgiven where it leaves one meaning.
func Meaning(text string, names [][]string) int {
	return meaning(plain(text), len(names), func(i int) []string { return names[i] })
}

func meaning(words string, n int, names func(int) []string) int {
	const long = 5 // letters
	if words == "" {
		return -1
	}
	for i := range n {
		for _, name := range names(i) {
			if name == words {
				return i
			}
		}
	}
	found := -1
	if len(words) < long {
		return found
	}
	for i := range n {
		for _, name := range names(i) {
			if len(name) < long || abs(len(name)-len(words)) > 1 || editDistance([]rune(name), []rune(words)) > 1 {
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

// WholeNumber reads "15", "15.0", "1,200" or "15 people"; ok is false for anything else, for
// what is negative and for more than MaxPeople.
func WholeNumber(text string) (n int, ok bool) {
	n, err := wholeNumber(text)
	return n, err == nil
}

// PlainWords is text in small letters, with single blanks for everything that is no letter or figure.
func PlainWords(text string) string { return plain(text) }
