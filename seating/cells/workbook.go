package cells

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"everyseat/seating"
)

// readWorkbook reads the visible sheets of an XLSX file, or all.
func readWorkbook(data []byte, most Limits, hidden bool) (sheets []*Sheet, err error) {
	broken := seating.Wrong("", "open it in a spreadsheet and save it anew as .xlsx, or as .csv",
		"the workbook cannot be opened")
	defer func() {
		if recover() != nil { // a hostile file may break the library
			sheets, err = nil, broken
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{
		RawCellValue: true, UnzipSizeLimit: maxUnpacked, UnzipXMLSizeLimit: maxUnpacked,
	})
	if err != nil && strings.Contains(err.Error(), "unzip size exceeds") {
		return nil, seating.Wrong("", "leave out pictures and other sheets",
			"the workbook is larger than %d MB when unpacked", maxUnpacked>>20)
	}
	if err != nil {
		return nil, broken
	}
	defer f.Close()
	names := f.GetSheetList()
	if len(names) > maxSheets {
		return nil, seating.Wrong("", fmt.Sprintf("leave at most %d", maxSheets), "the workbook has %d sheets",
			len(names))
	}
	book := &workbook{f: f, most: most, dates: map[int]bool{}}
	for _, name := range names {
		visible, err := f.GetSheetVisible(name)
		if err != nil || !visible && !hidden {
			continue
		}
		sheet := &Sheet{Name: name, Hidden: !visible}
		err = book.read(sheet)
		if err != nil {
			if fault, ok := errors.AsType[*seating.Fault](err); ok {
				return nil, fault
			}
			return nil, broken
		}
		book.pinned(sheet)
		sheets = append(sheets, sheet)
	}
	book.looks(data, sheets, hidden)
	if hidden {
		book.hiddenCols(sheets)
	}
	return sheets, nil
}

// workbook remembers which number formats are dates.
type workbook struct {
	f     *excelize.File
	most  Limits
	dates map[int]bool // by style
	total int          // cells so far
}

func (b *workbook) read(s *Sheet) error {
	rows, err := b.f.Rows(s.Name)
	if err != nil {
		return err
	}
	defer rows.Close()
	for blank := 0; rows.Next(); {
		if at := len(s.cells) + blank; rows.GetRowOpts().Hidden && at < b.most.Lines {
			s.hiddenRows = append(s.hiddenRows, at)
		}
		values, err := rows.Columns()
		if err != nil {
			return err
		}
		for len(values) > 0 && strings.TrimSpace(values[len(values)-1]) == "" {
			values = values[:len(values)-1]
		}
		if len(values) == 0 { // a workbook may end in a million of them
			blank++
			continue
		}
		if b.total += len(values); b.total > b.most.Cells || len(values) > maxCols ||
			len(s.cells)+blank >= b.most.Lines {
			return b.most.tooLarge(len(s.cells) + blank + 1)
		}
		s.cells, blank = append(s.cells, make([][]Cell, blank)...), 0
		row := make([]Cell, len(values))
		for c, v := range values {
			if row[c], err = b.cell(s.Name, len(s.cells), c, v); err != nil {
				return err
			}
		}
		s.cells = append(s.cells, row)
	}
	return rows.Error()
}

// pinned reads the comments that are pinned to cells of a sheet; those that cannot be read are none.
func (b *workbook) pinned(s *Sheet) {
	comments, err := b.f.GetComments(s.Name)
	if err != nil {
		return
	}
	for i := range comments {
		col, row, err := excelize.CellNameToCoordinates(comments[i].Cell)
		if err != nil || row > len(s.cells) || col > len(s.cells[row-1]) {
			continue
		}
		text := comments[i].Text
		for _, run := range comments[i].Paragraph {
			text += run.Text
		}
		s.cells[row-1][col-1].Pinned = strings.TrimSpace(text)
	}
}

// hiddenCols finds the hidden columns of sheets.
func (b *workbook) hiddenCols(sheets []*Sheet) {
	for _, s := range sheets {
		widest := 0
		for _, row := range s.cells {
			widest = max(widest, len(row))
		}
		for col := range widest {
			name, _ := excelize.ColumnNumberToName(col + 1)
			if visible, err := b.f.GetColVisible(s.Name, name); err == nil && !visible {
				s.hiddenCols = append(s.hiddenCols, col)
			}
		}
	}
}

// cell reads one value: numbers with the 15 digits that spreadsheets keep, dates as shown.
func (b *workbook) cell(sheet string, row, col int, raw string) (Cell, error) {
	number, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return Cell{Text: raw, Date: mangledDate(raw)}, nil
	}
	at, _ := excelize.CoordinatesToCellName(col+1, row+1)
	kind, err := b.f.GetCellType(sheet, at)
	if err != nil {
		return Cell{}, err
	}
	if kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString {
		return Cell{Text: raw}, nil
	}
	style, err := b.f.GetCellStyle(sheet, at)
	if err != nil {
		return Cell{}, err
	}
	if !b.isDate(style) {
		return Cell{Text: plainNumber(number)}, nil
	}
	shown, err := b.f.GetCellValue(sheet, at, excelize.Options{RawCellValue: false})
	if err != nil {
		return Cell{}, err
	}
	c := Cell{Text: shown, Date: mangledDate(shown)}
	day, err := excelize.ExcelDateToTime(number, false)
	if c.Date == "" && err == nil {
		c.Date = asRange(int(day.Month()), day.Day())
	} else if c.Date == "" {
		c.Date = "two numbers"
	}
	return c, nil
}

// plainNumber writes a number without exponent, in at most 15 digits.
func plainNumber(v float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64)
	if err != nil {
		short = v
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}

// isDate says whether a style shows numbers as days.
func (b *workbook) isDate(style int) bool {
	if known, ok := b.dates[style]; ok {
		return known
	}
	is := false
	if st, err := b.f.GetStyle(style); err == nil && st != nil {
		n := st.NumFmt
		is = n >= 14 && n <= 17 || n == 22 || n >= 27 && n <= 36 || n >= 50 && n <= 58
		if st.CustomNumFmt != nil {
			is = is || dateFormat(*st.CustomNumFmt)
		}
	}
	b.dates[style] = is
	return is
}

// dateFormat says whether a number format holds a day, a month beside one, or a year, outside quotes and brackets.
func dateFormat(format string) bool {
	quoted, bracket, skip := false, false, false
	for _, r := range strings.ToLower(format) {
		switch {
		case skip:
			skip = false
		case r == '\\' || r == '_' || r == '*':
			skip = true
		case r == '"':
			quoted = !quoted
		case r == '[':
			bracket = true
		case r == ']':
			bracket = false
		case !quoted && !bracket && (r == 'd' || r == 'y'):
			return true
		}
	}
	return false
}
