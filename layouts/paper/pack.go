package paper

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"unicode/utf16"
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
	head, stream, foot, left, err := firstObject(rest)
	if err != nil {
		return nil, nil, err
	}
	if len(stream) < leastPacked || bytes.Contains(head, []byte("/Filter")) {
		return append(out, rest[:len(rest)-len(left)]...), left, nil
	}
	var short bytes.Buffer
	packer.Reset(&short)
	if _, err := packer.Write(stream); err != nil {
		return nil, nil, err
	}
	if err := packer.Close(); err != nil {
		return nil, nil, err
	}
	m := streamLength.FindIndex(head)
	out = fmt.Appendf(append(out, head[:m[0]]...), "/Filter /FlateDecode /Length %d", short.Len())
	out = append(append(out, head[m[1]:]...), short.Bytes()...)
	return append(out, foot...), left, nil
}

// firstObject splits the first object off what is left of a file: its head to where its stream begins, the stream, if
// it has one, and its foot.
func firstObject(rest []byte) (head, stream, foot, left []byte, err error) {
	const begin, finish = "stream\n", "endobj\n"
	from, end := bytes.Index(rest, []byte(begin))+len(begin), bytes.Index(rest, []byte(finish))+len(finish)
	if end < len(finish) {
		return nil, nil, nil, nil, errNoTable
	}
	if from < len(begin) || from > end {
		return rest[:end], nil, nil, rest[end:], nil
	}
	m := streamLength.FindSubmatch(rest[:from])
	if m == nil {
		return nil, nil, nil, nil, errNoTable
	}
	size, err := strconv.Atoi(string(m[1]))
	if err != nil || size > len(rest)-from {
		return nil, nil, nil, nil, errNoTable
	}
	to := from + size
	end = bytes.Index(rest[to:], []byte(finish))
	if end < 0 {
		return nil, nil, nil, nil, errNoTable
	}
	end += to + len(finish)
	return rest[:from], rest[from:to], rest[to:end], rest[end:], nil
}

// PageSum is of what is drawn on a page, apart from the plan's code in its texts, what comes of how wide that is, and
// how many pages there are.
type PageSum [sha256.Size]byte

// Pages gives the sums of a finished file's pages, in order; code is the plan's. The error says that Document wrote no
// such file.
func Pages(file []byte, code string) (pages []PageSum, err error) {
	marked := wide(code)
	_, rest, _ := bytes.Cut(file, []byte("\n"))
	page := false // the object before was one, and its drawing follows
	for objectNumber.Match(rest) {
		var head, stream []byte
		if head, stream, _, rest, err = firstObject(rest); err != nil {
			return nil, err
		}
		if page && bytes.Contains(head, []byte("/Filter")) {
			unpacker, err := zlib.NewReader(bytes.NewReader(stream))
			if err != nil {
				return nil, err
			}
			if stream, err = io.ReadAll(io.LimitReader(unpacker, maxPage)); err != nil {
				return nil, err
			}
		}
		if page {
			pages = append(pages, sha256.Sum256(without(stream, marked)))
		}
		page = bytes.Contains(head, []byte("/Type /Page\n"))
	}
	if len(pages) == 0 {
		return nil, errNoTable
	}
	return pages, nil
}

// maxPage bounds what a page is unpacked to.
const maxPage = 64 << 20

// wide is text as the library writes it into a page.
func wide(text string) []byte {
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		out = binary.BigEndian.AppendUint16(out, u)
	}
	return out
}

// without is a page's drawing without the code. The library draws a text in a line, BT x y Td (text) Tj, and sets its
// font in a line before where it is another one: here every text has its font, but for those with the code, which have
// neither that nor their place. Where the number of the page follows the code, that is left out too.
func without(stream, code []byte) (out []byte) {
	var font []byte
	for line := range bytes.SplitAfterSeq(stream, []byte("\n")) {
		if bytes.HasPrefix(line, []byte("BT /F")) {
			font = line
			continue
		}
		_, text, isText := bytes.Cut(line, []byte("Td ("))
		before, after, found := bytes.Cut(text, code)
		switch {
		case found:
			if bytes.HasPrefix(after, wide(", page ")) {
				after = nil
			}
			out = append(append(out, before...), after...)
		case isText:
			out = append(append(out, font...), line...)
		default:
			out = append(out, line...)
		}
	}
	return out
}
