package cells

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"everyseat/seating"
)

func readText(data []byte, most Limits) ([]*Sheet, error) {
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
			row[c].Date = mangledDate(strings.TrimSpace(row[c].Text))
		}
	}
	return []*Sheet{{cells: cells}}, nil
}

// decodeText tells the encodings that spreadsheets write apart.
func decodeText(data []byte) (string, error) {
	decoder := charmap.Windows1252.NewDecoder()
	data, marked := bytes.CutPrefix(data, []byte("\xef\xbb\xbf"))
	switch {
	case !marked && (bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff"))):
		decoder = unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder()
		data = data[:len(data)&^1]
	case bytes.IndexByte(data, 0) >= 0:
		return "", seating.Wrong("", "save the table as CSV (UTF-8) or XLSX", "this is no text")
	case utf8.Valid(data):
		return string(data), nil
	}
	text, _ := decoder.Bytes(data) // both decoders put a sign for what they cannot read
	return string(text), nil
}

// separator finds what parts the cells: named in a first line "sep=;", else the
// one of tab, semicolon and comma that most of the first lines hold. A semicolon
// wins over a comma, which may be a decimal one. skipped is 1 where the first line was taken off.
func separator(text string) (comma byte, rest string, skipped int) {
	if line, rest, _ := strings.Cut(text, "\n"); len(line) == len("sep=;") && strings.HasPrefix(line, "sep=") {
		if c := line[len(line)-1]; strings.IndexByte(",;\t|", c) >= 0 {
			return c, rest, 1
		}
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
func splitText(text string, comma byte, skipped int, most Limits) ([][]Cell, error) {
	rows := make([][]Cell, skipped, 64)
	row, total, line := []Cell(nil), 0, skipped+1
	for i := 0; i <= len(text); {
		value, next, err := textCell(text, i, comma, line)
		if err != nil {
			return nil, err
		}
		line += strings.Count(text[i:next], "\n")
		row = append(row, Cell{Text: value})
		if total++; total > most.Cells || len(row) > maxCols || len(rows) >= most.Lines {
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
		return "", 0, &seating.Fault{Line: line, What: "a quotation mark opens a cell and none closes it",
			Hint: `write an inch mark at a cell's start as "", or save the table anew from the spreadsheet`}
	}
	for next = i; !ends(next); next++ {
	}
	return text[i:next], next, nil
}
