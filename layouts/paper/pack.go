package paper

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
)

// leastPacked is the length of a stream, in bytes, that is worth packing.
const leastPacked = 200

var (
	errNoTable   = errors.New("the file has no cross-reference table")
	objectNumber = regexp.MustCompile(`^(\d+) 0 obj\n`)
	streamLength = regexp.MustCompile(`/Length (\d+)`)
)

// pack writes a finished file with its plain streams compressed (ISO 32000-1, 7.4.4, and the table of 7.5.4). The
// library makes a new compressor for every page, which costs ten times the drawing; here one serves the whole
// file.
func pack(w io.Writer, file []byte) error {
	packer, err := zlib.NewWriterLevel(io.Discard, zlib.BestSpeed)
	if err != nil {
		return err
	}
	var places []int // of objects by number, 0 where there is none
	first := bytes.IndexByte(file, '\n') + 1
	out, rest := append(make([]byte, 0, len(file)), file[:first]...), file[first:]
	for m := objectNumber.FindSubmatch(rest); m != nil; m = objectNumber.FindSubmatch(rest) {
		n, err := strconv.Atoi(string(m[1]))
		if err != nil || n > len(file) {
			return errNoTable
		}
		if n >= len(places) {
			places = append(places, make([]int, n+1-len(places))...)
		}
		places[n] = len(out)
		if out, rest, err = packObject(out, rest, packer); err != nil {
			return err
		}
	}
	lines := bytes.SplitAfter(rest, []byte("\n"))
	if string(lines[0]) != "xref\n" || len(lines) < 2+len(places) {
		return errNoTable
	}
	table := len(out)
	out = append(append(out, lines[0]...), lines[1]...)
	for n, line := range lines[2 : 2+len(places)] {
		if places[n] > 0 {
			line = fmt.Appendf(nil, "%010d%s", places[n], line[10:])
		}
		out = append(out, line...)
	}
	trailer, _, _ := bytes.Cut(bytes.Join(lines[2+len(places):], nil), []byte("startxref\n"))
	_, err = w.Write(fmt.Appendf(append(out, trailer...), "startxref\n%d\n%%%%EOF\n", table))
	return err
}

// packObject adds the first object of what is left, its stream compressed where it is plain and worth it.
func packObject(out, rest []byte, packer *zlib.Writer) (added, left []byte, err error) {
	const begin, finish = "stream\n", "endobj\n"
	from, end := bytes.Index(rest, []byte(begin))+len(begin), bytes.Index(rest, []byte(finish))+len(finish)
	if from < len(begin) || from > end {
		return append(out, rest[:end]...), rest[end:], nil
	}
	m := streamLength.FindSubmatchIndex(rest[:from])
	if m == nil {
		return nil, nil, errNoTable
	}
	size, err := strconv.Atoi(string(rest[m[2]:m[3]]))
	if err != nil || from+size > len(rest) {
		return nil, nil, errNoTable
	}
	to := from + size
	end = to + bytes.Index(rest[to:], []byte(finish)) + len(finish)
	if size < leastPacked || bytes.Contains(rest[:from], []byte("/Filter")) {
		return append(out, rest[:end]...), rest[end:], nil
	}
	var short bytes.Buffer
	packer.Reset(&short)
	if _, err := packer.Write(rest[from:to]); err != nil {
		return nil, nil, err
	}
	if err := packer.Close(); err != nil {
		return nil, nil, err
	}
	out = fmt.Appendf(append(out, rest[:m[0]]...), "/Filter /FlateDecode /Length %d", short.Len())
	out = append(append(out, rest[m[1]:from]...), short.Bytes()...)
	return append(out, rest[to:end]...), rest[end:], nil
}
