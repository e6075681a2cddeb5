// Package cells reads tables as people keep them, in text or in a workbook, into cells; what these mean is for
// others to say. Start with Read.
package cells

import (
	"fmt"
	"path/filepath"
	"strings"

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
	return &seating.Fault{
		Line: line,
		What: fmt.Sprintf("the table is larger than %d lines, %d columns or %d cells", most.Lines, maxCols,
			most.Cells),
		Hint: "leave out what does not belong here",
	}
}

// Cell is one cell as it stands in the table, blanks taken off its ends.
type Cell struct {
	Text string
	Date string // what a spreadsheet that made a date of it probably got, like `"3-5" or "5-3"`; "" where it is none
}

// Sheet is one sheet of a table: cells by row and column from 0, empty ones taken off the ends.
type Sheet struct {
	Name   string // in its workbook; "" for a text
	cells  [][]Cell
	prefix bool // addresses name the sheet
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
		sheets, err = readWorkbook(data, most)
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
	for _, s := range filled {
		s.prefix = len(filled) > 1
	}
	return filled, nil
}

// trim takes blanks off cells and empty ones off the ends.
func (s *Sheet) trim() {
	for r, row := range s.cells {
		last := 0
		for c := range row {
			if row[c].Text = strings.TrimSpace(row[c].Text); row[c].Text != "" {
				last = c + 1
			}
		}
		s.cells[r] = row[:last]
	}
	for len(s.cells) > 0 && len(s.cells[len(s.cells)-1]) == 0 {
		s.cells = s.cells[:len(s.cells)-1]
	}
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
	name, err := excelize.CoordinatesToCellName(col+1, row+1)
	if err != nil {
		name = fmt.Sprintf("row %d column %d", row+1, col+1)
	}
	if s.prefix {
		name = s.Name + "!" + name
	}
	return name
}
