package paper

import (
	"bytes"
	"compress/zlib"
	"errors"
	"io"
	"regexp"
	"slices"
	"strconv"
)

// leastPacked is the length of a stream, in bytes, that is worth packing.
const leastPacked = 200

var (
	errNoTable   = errors.New("the file has no cross-reference table")
	streamLength = regexp.MustCompile(`/Length (\d+)`)
	streamWord   = []byte("stream\n")
)

// pack writes a finished file with its plain streams compressed (ISO 32000-1, 7.4.4, and the table of 7.5.4). The
// library makes a new compressor for every page, which costs ten times the drawing; here one serves the whole
// file.
func pack(w io.Writer, file []byte) error {
	starts, table, err := objectStarts(file)
	if err != nil {
		return err
	}
	order := make([]int, 0, len(starts)) // objects as they lie in the file
	for n := range starts {
		if starts[n] > 0 {
			order = append(order, n)
		}
	}
	slices.SortFunc(order, func(a, b int) int { return starts[a] - starts[b] })
	packer, err := zlib.NewWriterLevel(io.Discard, zlib.BestSpeed)
	if err != nil {
		return err
	}
	out := make([]byte, 0, len(file))
	moved := make([]int, len(starts))
	from := 0
	for i, n := range order {
		end := table
		if i+1 < len(order) {
			end = starts[order[i+1]]
		}
		if i == 0 {
			out = append(out, file[:starts[n]]...)
		}
		moved[n] = len(out)
		out, err = appendObject(out, file[starts[n]:end], packer)
		if err != nil {
			return err
		}
		from = end
	}
	out = appendTable(out, file[from:], moved)
	_, err = w.Write(out)
	return err
}

// objectStarts reads the table: where each object begins, 0 where there is none, and where the table does.
func objectStarts(file []byte) (starts []int, table int, err error) {
	_, tail, found := bytes.Cut(file[max(0, len(file)-64):], []byte("startxref\n"))
	digits, _, ended := bytes.Cut(tail, []byte("\n"))
	table, err = strconv.Atoi(string(digits))
	if !found || !ended || err != nil || table <= 0 || table > len(file) {
		return nil, 0, errNoTable
	}
	lines := bytes.Split(file[table:], []byte("\n"))
	if len(lines) < 3 || string(lines[0]) != "xref" {
		return nil, 0, errNoTable
	}
	for _, line := range lines[2:] {
		if len(line) < 18 || line[10] != ' ' {
			break
		}
		at, err := strconv.Atoi(string(line[:10]))
		if err != nil || at > table || line[17] == 'n' && at == 0 {
			return nil, 0, errNoTable
		}
		starts = append(starts, at)
	}
	return starts, table, nil
}

// appendObject adds one object, its stream compressed where that makes it shorter.
func appendObject(out, object []byte, packer *zlib.Writer) ([]byte, error) {
	at := bytes.Index(object, streamWord)
	if at < 0 || bytes.Contains(object[:at], []byte("/Filter")) {
		return append(out, object...), nil
	}
	m := streamLength.FindSubmatchIndex(object[:at])
	if m == nil {
		return append(out, object...), nil
	}
	n, err := strconv.Atoi(string(object[m[2]:m[3]]))
	from := at + len(streamWord)
	if err != nil || n < leastPacked || from+n > len(object) {
		return append(out, object...), nil
	}
	var short bytes.Buffer
	packer.Reset(&short)
	if _, err := packer.Write(object[from : from+n]); err != nil {
		return nil, err
	}
	if err := packer.Close(); err != nil {
		return nil, err
	}
	out = append(out, object[:m[0]]...)
	out = append(out, "/Filter /FlateDecode /Length "...)
	out = strconv.AppendInt(out, int64(short.Len()), 10)
	out = append(out, object[m[1]:from]...)
	out = append(out, short.Bytes()...)
	return append(out, object[from+n:]...), nil
}

// appendTable writes the table anew; tail is the old one with the trailer.
func appendTable(out, tail []byte, moved []int) []byte {
	table := len(out)
	lines := bytes.SplitAfter(tail, []byte("\n"))
	out = append(append(out, lines[0]...), lines[1]...)
	for n, at := range moved {
		if at == 0 {
			out = append(out, lines[2+n]...)
			continue
		}
		digits := strconv.Itoa(at)
		out = append(out, "0000000000"[:10-len(digits)]...)
		out = append(out, digits...)
		out = append(out, lines[2+n][10:]...)
	}
	rest := bytes.Join(lines[2+len(moved):], nil)
	before, _, _ := bytes.Cut(rest, []byte("startxref\n"))
	out = append(append(out, before...), "startxref\n"...)
	out = strconv.AppendInt(out, int64(table), 10)
	return append(out, "\n%%EOF\n"...)
}
