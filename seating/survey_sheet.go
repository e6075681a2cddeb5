package seating

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/charmap"
)

// cell is one cell as it stands in the table.
type cell struct {
	text string
	date string // what a spreadsheet that made a date of it probably got; "" where it is none
}

// sheet is one table of cells.
type sheet struct {
	name   string
	index  int
	prefix bool // addresses name the sheet
	cells  [][]cell
	done   [][]bool // read, or listed as unread
}

// trim takes blanks off cells and empty ones off the ends.
func (s *sheet) trim() {
	for r, row := range s.cells {
		last := 0
		for c := range row {
			if row[c].text = strings.TrimSpace(row[c].text); row[c].text != "" {
				last = c + 1
			}
		}
		s.cells[r] = row[:last]
	}
	for len(s.cells) > 0 && len(s.cells[len(s.cells)-1]) == 0 {
		s.cells = s.cells[:len(s.cells)-1]
	}
	s.done = make([][]bool, len(s.cells))
	for r, row := range s.cells {
		s.done[r] = make([]bool, len(row))
	}
}

// at is the cell of a row and column, empty outside the table.
func (s *sheet) at(row, col int) cell {
	if row < 0 || row >= len(s.cells) || col < 0 || col >= len(s.cells[row]) {
		return cell{}
	}
	return s.cells[row][col]
}

// take marks a cell as read.
func (s *sheet) take(row, col int) {
	if s.at(row, col).text != "" {
		s.done[row][col] = true
	}
}

// open says whether a cell holds something that nobody has read yet.
func (s *sheet) open(row, col int) bool {
	return s.at(row, col).text != "" && !s.done[row][col]
}

// address is a cell's name as a spreadsheet shows it.
func (s *sheet) address(row, col int) string {
	name, err := excelize.CoordinatesToCellName(col+1, row+1)
	if err != nil {
		name = fmt.Sprintf("row %d column %d", row+1, col+1)
	}
	if s.prefix {
		name = s.name + "!" + name
	}
	return name
}

// readText reads a table in text.
func readText(data []byte, most TableLimits) ([]*sheet, error) {
	text, err := decodeText(data)
	if err != nil {
		return nil, err
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	comma, text, skipped := separator(text)
	cells, err := splitText(text, comma, skipped, most)
	if err != nil {
		return nil, err
	}
	for _, row := range cells {
		for c := range row {
			row[c].date = mangledDate(strings.TrimSpace(row[c].text))
		}
	}
	return []*sheet{{cells: cells}}, nil
}

// decodeText tells the encodings that spreadsheets write apart.
func decodeText(data []byte) (string, error) {
	data, marked := bytes.CutPrefix(data, []byte("\xef\xbb\xbf"))
	switch {
	case !marked && (bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff})):
		return decodeUTF16(data), nil
	case bytes.IndexByte(data, 0) >= 0:
		return "", &Fault{What: "this is no text", Hint: "save the table as CSV (UTF-8) or XLSX"}
	case utf8.Valid(data):
		return string(data), nil
	}
	text, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil {
		return "", &Fault{What: "the text is in no encoding that is read", Hint: "save the table as CSV (UTF-8)"}
	}
	return string(text), nil
}

func decodeUTF16(data []byte) string {
	little := data[0] == 0xff
	units := make([]uint16, 0, len(data)/2)
	for i := 2; i+1 < len(data); i += 2 {
		low, high := data[i], data[i+1]
		if !little {
			low, high = high, low
		}
		units = append(units, uint16(low)|uint16(high)<<8)
	}
	return string(utf16.Decode(units))
}

// separator finds what parts the cells: named in a first line "sep=;", else the
// one of tab, semicolon and comma that most of the first lines hold. A semicolon
// wins over a comma, which may be a decimal one. skipped is 1 where the first line was taken off.
func separator(text string) (comma byte, rest string, skipped int) {
	if after, ok := strings.CutPrefix(text, "sep="); ok && len(after) > 0 && (len(after) == 1 || after[1] == '\n') && strings.IndexByte(",;\t|", after[0]) >= 0 {
		return after[0], strings.TrimPrefix(after[1:], "\n"), 1
	}
	const look = 200 // lines
	counts := map[byte]int{}
	quoted, seen := false, map[byte]bool{}
	for i, lines := 0, 0; i <= len(text) && lines < look; i++ {
		if i == len(text) || text[i] == '\n' && !quoted {
			for c := range seen {
				counts[c]++
			}
			clear(seen)
			lines++
			continue
		}
		switch c := text[i]; {
		case c == '"' && (quoted || i == 0 || strings.IndexByte(",;\t\n\"", text[i-1]) >= 0):
			quoted = !quoted
		case !quoted && strings.IndexByte(",;\t", c) >= 0:
			seen[c] = true
		}
	}
	best := byte(',')
	for _, c := range []byte(";\t") {
		if counts[c]*2 >= max(counts[best], 1) && counts[c] > 0 {
			best = c
		}
	}
	return best, text, 0
}

// splitText parts text into cells. A cell in quotes may hold anything, with ""
// for a quote; a quote inside other text is an inch mark and stays.
func splitText(text string, comma byte, skipped int, most TableLimits) ([][]cell, error) {
	rows := make([][]cell, skipped, 64)
	row, total, line := []cell(nil), 0, skipped+1
	for i := 0; i <= len(text); {
		value, next, err := textCell(text, i, comma, line)
		if err != nil {
			return nil, err
		}
		line += strings.Count(text[i:next], "\n")
		row = append(row, cell{text: value})
		if total++; total > most.Cells || len(row) > maxTableCols || len(rows) >= most.Lines {
			return nil, most.tooLarge(line)
		}
		if next < len(text) && text[next] == comma {
			i = next + 1
			continue
		}
		rows, row = append(rows, row), nil
		i = next + 1
		line++
	}
	return rows, nil
}

func (most TableLimits) tooLarge(line int) error {
	return &Fault{Line: line, What: fmt.Sprintf("the table is larger than %d lines, %d columns or %d cells", most.Lines, maxTableCols, most.Cells),
		Hint: "leave out what does not belong here"}
}

// textCell reads the cell that starts at i; next is the separator, the line's end or the text's.
func textCell(text string, i int, comma byte, line int) (value string, next int, err error) {
	ends := func(k int) bool { return k >= len(text) || text[k] == comma || text[k] == '\n' }
	if i < len(text) && text[i] == '"' {
		var b strings.Builder
		for k := i + 1; k < len(text); k++ {
			switch {
			case text[k] != '"':
				b.WriteByte(text[k])
			case k+1 < len(text) && text[k+1] == '"':
				b.WriteByte('"')
				k++
			case ends(k + 1):
				return b.String(), k + 1, nil
			default:
				b.WriteByte('"')
			}
		}
		return "", 0, &Fault{Line: line, What: "a quotation mark opens a cell and none closes it", Hint: `write an inch mark at a cell's start as "", or save the table anew from the spreadsheet`}
	}
	for next = i; !ends(next); next++ {
	}
	return text[i:next], next, nil
}

// readWorkbook reads the visible sheets of an XLSX file.
func readWorkbook(data []byte, most TableLimits) (sheets []*sheet, err error) {
	broken := &Fault{What: "the workbook cannot be opened", Hint: "open it in a spreadsheet and save it anew as .xlsx, or as .csv"}
	defer func() {
		if recover() != nil { // a hostile file may break the library
			sheets, err = nil, broken
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{
		RawCellValue: true, UnzipSizeLimit: maxUnzipped, UnzipXMLSizeLimit: maxUnzipped,
	})
	if err != nil {
		if strings.Contains(err.Error(), "unzip size exceeds") {
			return nil, &Fault{What: fmt.Sprintf("the workbook is larger than %d MB when unpacked", maxUnzipped>>20), Hint: "leave out pictures and other sheets"}
		}
		return nil, broken
	}
	defer f.Close()
	names := f.GetSheetList()
	if len(names) > maxTableSheets {
		return nil, &Fault{What: fmt.Sprintf("the workbook has %d sheets", len(names)), Hint: fmt.Sprintf("leave at most %d", maxTableSheets)}
	}
	book := &workbook{f: f, most: most, dates: map[int]bool{}}
	for _, name := range names {
		if visible, err := f.GetSheetVisible(name); err != nil || !visible {
			continue
		}
		cells, err := book.sheet(name)
		if err != nil {
			var fault *Fault
			if errors.As(err, &fault) {
				return nil, fault
			}
			return nil, broken
		}
		sheets = append(sheets, &sheet{name: name, cells: cells})
	}
	return sheets, nil
}

// workbook remembers which number formats are dates.
type workbook struct {
	f     *excelize.File
	most  TableLimits
	dates map[int]bool // by style
	total int          // cells so far
}

func (b *workbook) sheet(name string) ([][]cell, error) {
	rows, err := b.f.Rows(name)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out [][]cell
	for blank := 0; rows.Next(); {
		values, err := rows.Columns()
		if err != nil {
			return nil, err
		}
		for len(values) > 0 && strings.TrimSpace(values[len(values)-1]) == "" {
			values = values[:len(values)-1]
		}
		if len(values) == 0 { // a workbook may end in a million of them
			blank++
			continue
		}
		if b.total += len(values); b.total > b.most.Cells || len(values) > maxTableCols || len(out)+blank >= b.most.Lines {
			return nil, b.most.tooLarge(len(out) + blank + 1)
		}
		out, blank = append(out, make([][]cell, blank)...), 0
		row := make([]cell, len(values))
		for c, v := range values {
			if row[c], err = b.cell(name, len(out), c, v); err != nil {
				return nil, err
			}
		}
		out = append(out, row)
	}
	return out, rows.Error()
}

// cell reads one value: numbers with the 15 digits that spreadsheets keep, dates as shown.
func (b *workbook) cell(sheet string, row, col int, raw string) (cell, error) {
	number, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return cell{text: raw, date: mangledDate(raw)}, nil
	}
	at, err := excelize.CoordinatesToCellName(col+1, row+1)
	if err != nil {
		return cell{}, err
	}
	kind, err := b.f.GetCellType(sheet, at)
	if err != nil {
		return cell{}, err
	}
	if kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString {
		return cell{text: raw}, nil
	}
	style, err := b.f.GetCellStyle(sheet, at)
	if err != nil {
		return cell{}, err
	}
	if b.isDate(style) {
		return b.dateCell(sheet, at, number)
	}
	return cell{text: plainNumber(number)}, nil
}

// plainNumber writes a number without exponent, in at most 15 digits.
func plainNumber(v float64) string {
	short, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64)
	if err != nil {
		short = v
	}
	return strconv.FormatFloat(short, 'f', -1, 64)
}

func (b *workbook) dateCell(sheet, at string, serial float64) (cell, error) {
	shown, err := b.f.GetCellValue(sheet, at, excelize.Options{RawCellValue: false})
	if err != nil {
		return cell{}, err
	}
	c := cell{text: shown, date: mangledDate(shown)}
	day, err := excelize.ExcelDateToTime(serial, false)
	if c.date == "" && err == nil {
		c.date = asRange(int(day.Month()), day.Day())
	} else if c.date == "" {
		c.date = "two numbers"
	}
	return c, nil
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
