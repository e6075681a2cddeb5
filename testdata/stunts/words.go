package main

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"encoding/csv"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
)

// kind is how a file is read for its words.
type kind int

const (
	other kind = iota // bytes alone
	plain
	table  // CSV
	json   // only what stands in quotes has words
	markup // HTML, SVG: what stands outside tags, and what pictures are called
	paper
	workbook
	picture
)

func kindOf(name string) kind {
	switch filepath.Ext(name) {
	case ".out", ".err", ".status", ".toml":
		return plain
	case ".csv":
		return table
	case ".json":
		return json
	case ".html", ".svg":
		return markup
	case ".pdf":
		return paper
	case ".xlsx":
		return workbook
	case ".png":
		return picture
	}
	return other
}

// text is the file in lines; with words, what may differ is taken out.
func (k kind) text(data []byte, words bool, codes *regexp.Regexp) (string, error) {
	w := worder{words, codes}
	switch k {
	case plain:
		return w.plain(string(data)), nil
	case table:
		return w.table(data)
	case json:
		return lines(inQuotes.ReplaceAllStringFunc(string(data), w.plain), ',', '{'), nil
	case markup:
		return w.markup(string(data)), nil
	case paper:
		return w.paper(data)
	case workbook:
		return w.workbook(data)
	}
	return "", nil
}

// lines breaks text behind some signs, since programs' files have few line breaks of their own.
func lines(text string, behind ...byte) string {
	for _, c := range behind {
		text = strings.ReplaceAll(text, string(c), string(c)+"\n")
	}
	return text
}

var (
	inQuotes  = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)
	outside   = regexp.MustCompile(`>[^<]+<|(?:alt|title|aria-label)="[^"]*"`)
	listCode  = regexp.MustCompile(`\blist [2-9A-HJKMNP-Z]{4}\b`) // of who sits where, beside the plan's
	thousands = regexp.MustCompile(`\b\d{1,3}(?:[,\x{a0}\x{2009}\x{202f}]\d{3})+\b`)
	widths    = regexp.MustCompile(`(?s)<cols>.*?</cols>| textLength="[^"]*"`) // follow the words
)

// worder takes out of words what may differ.
type worder struct {
	words bool
	codes *regexp.Regexp
}

func (w worder) plain(text string) string {
	if !w.words {
		return text
	}
	if w.codes != nil {
		text = w.codes.ReplaceAllString(text, "CODE")
	}
	text = listCode.ReplaceAllString(text, "list CODE")
	return thousands.ReplaceAllStringFunc(text, func(number string) string {
		return strings.Map(func(r rune) rune {
			if r < '0' || r > '9' {
				return -1
			}
			return r
		}, number)
	})
}

// table reads cell by cell: two cells are no number with a comma in it.
func (w worder) table(data []byte) (string, error) {
	if !w.words {
		return string(data), nil
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.LazyQuotes = -1, true
	rows, err := r.ReadAll()
	var out strings.Builder
	for _, row := range rows {
		for i := range row {
			row[i] = w.plain(row[i])
		}
		fmt.Fprintf(&out, "%q\n", row)
	}
	return out.String(), err
}

func (w worder) markup(text string) string {
	if w.words {
		text = widths.ReplaceAllString(text, "")
	}
	return lines(outside.ReplaceAllStringFunc(text, w.plain), '>')
}

// paper is the text of a PDF file and, below, what is drawn on its pages. With words, they are taken one by one in the
// order in which they were written: lines and columns are guessed from widths, which follow the words.
func (w worder) paper(data []byte) (string, error) {
	order := "-layout"
	if w.words {
		order = "-raw"
	}
	text, err := pdfText(data, order)
	if err != nil {
		return "", err
	}
	if w.words {
		text = strings.Join(strings.Fields(w.plain(text)), "\n") + "\n"
	}
	drawn, err := drawings(data)
	return text + drawn, err
}

// pdfText asks pdftotext (poppler), where it is there.
func pdfText(data []byte, order string) (string, error) {
	c := exec.Command("pdftotext", order, "-", "-")
	c.Stdin = bytes.NewReader(data)
	out, err := c.Output()
	if errors.Is(err, exec.ErrNotFound) {
		return "", nil
	}
	return string(out), err
}

var (
	stream  = regexp.MustCompile(`<<([^<>]*)>>\s*stream\r?\n`)
	page    = regexp.MustCompile(`^\d J\n`) // how the streams of pages begin, and no other
	written = regexp.MustCompile(`(?s)\bBT .*? ET\b`)
)

// drawings are the lines and areas on the pages, without the words.
func drawings(data []byte) (string, error) {
	var out strings.Builder
	for _, at := range stream.FindAllSubmatchIndex(data, -1) {
		_, body, _ := bytes.Cut(data[at[0]:], []byte("stream"))
		body = bytes.TrimLeft(body, "\r\n")
		if bytes.Contains(data[at[2]:at[3]], []byte("/FlateDecode")) {
			z, err := zlib.NewReader(bytes.NewReader(body))
			if err != nil {
				return "", err
			}
			if body, err = io.ReadAll(z); err != nil {
				return "", err
			}
		} else if end := bytes.Index(body, []byte("endstream")); end >= 0 {
			body = body[:end]
		}
		if page.Match(body) {
			fmt.Fprintf(&out, "drawn on a page:\n%s", written.ReplaceAll(body, nil))
		}
	}
	if out.Len() == 0 {
		return "", errors.New("no page was found in the PDF file")
	}
	return out.String(), nil
}

// workbook is every part of an XLSX file.
func (w worder) workbook(data []byte) (string, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for _, f := range z.File {
		part, err := f.Open()
		if err != nil {
			return "", err
		}
		xml, err := io.ReadAll(part)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&out, "%s:\n%s\n", f.Name, w.markup(string(xml)))
	}
	return out.String(), nil
}

// The line of maps on which the plan's code stands, in their own pixels from the left and from the bottom; and how far,
// in levels of 255, colours elsewhere may go with it, since 256 of them are chosen for the whole picture.
const codeWide, codeHigh, codeLevels = 220, 42, 24

var printsCode = regexp.MustCompile(`(map|matter)-\d+\.png$|marks\.png$`)

// pictures says where two PNG files differ. Where codes may, maps may as far as another code on them does it.
func pictures(data [2][]byte, codes bool) string {
	var img [2]image.Image
	for i := range img {
		var err error
		if img[i], err = png.Decode(bytes.NewReader(data[i])); err != nil {
			return "is no PNG picture: " + err.Error()
		}
	}
	size := img[0].Bounds()
	if size != img[1].Bounds() {
		return fmt.Sprintf("is %v pixels and %v", size.Size(), img[1].Bounds().Size())
	}
	foot := image.Rect(size.Min.X, size.Max.Y-codeHigh, size.Min.X+codeWide, size.Max.Y)
	var box image.Rectangle
	count, most := 0, 0
	for y := size.Min.Y; y < size.Max.Y; y++ {
		for x := size.Min.X; x < size.Max.X; x++ {
			levels := apart(img[0].At(x, y), img[1].At(x, y))
			if levels == 0 || codes && (levels <= codeLevels || image.Pt(x, y).In(foot)) {
				continue
			}
			count, most = count+1, max(most, levels)
			box = box.Union(image.Rect(x, y, x+1, y+1))
		}
	}
	switch {
	case count > 0:
		return fmt.Sprintf("%d pixels differ by up to %d of 255, all in %v", count, most, box)
	case codes:
		return ""
	}
	return "shows the same pixels in other bytes"
}

// apart is how far two colours differ in the channel where they differ most, in levels of 255.
func apart(a, b color.Color) int {
	ar, ag, ab, aa := a.RGBA()
	br, bg, bb, ba := b.RGBA()
	most := 0
	for _, c := range [][2]uint32{{ar, br}, {ag, bg}, {ab, bb}, {aa, ba}} {
		d := int(c[0]>>8) - int(c[1]>>8)
		most = max(most, d, -d)
	}
	return most
}

const mostLines, mostSigns = 6, 150

// textDifference shows the first lines that differ.
func textDifference(texts [2]string) string {
	a, b := strings.Split(texts[0], "\n"), strings.Split(texts[1], "\n")
	first := 0
	for first < min(len(a), len(b)) && a[first] == b[first] {
		first++
	}
	a, b = a[first:], b[first:]
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	paired := len(a) == len(b) // then lines differ one by one
	var old, other []string
	for i := range max(len(a), len(b)) {
		if paired && a[i] == b[i] {
			continue
		}
		if i < len(a) {
			old = append(old, a[i])
		}
		if i < len(b) {
			other = append(other, b[i])
		}
	}
	var out strings.Builder
	fmt.Fprintf(&out, " from line %d on, in %d and %d lines", first+1, len(old), len(other))
	for i := range min(mostLines, max(len(old), len(other))) {
		from := 0
		if i < len(old) && i < len(other) {
			from = same([]rune(old[i]), []rune(other[i]))
		}
		if i < len(old) {
			out.WriteString("\n    - " + short(old[i], from))
		}
		if i < len(other) {
			out.WriteString("\n    + " + short(other[i], from))
		}
	}
	return out.String()
}

// same counts the signs that two lines begin with alike.
func same(a, b []rune) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return n
}

// short is what stands around a place in a line.
func short(line string, place int) string {
	signs := []rune(line)
	from := 0
	if len(signs) > mostSigns {
		from = max(0, place-mostSigns/3)
	}
	out := strings.TrimSpace(string(signs[from:min(len(signs), from+mostSigns)]))
	if from > 0 {
		out = "…" + out
	}
	if from+mostSigns < len(signs) {
		out += "…"
	}
	return out
}
