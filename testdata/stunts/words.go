package main

import (
	"archive/zip"
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"io/fs"
	"maps"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// side is what one program wrote.
type side struct {
	files folder
	codes *regexp.Regexp // of the plans made there; nil = none
}

var planCode = regexp.MustCompile(`"code":"([^"]+)"`)

func newSide(files folder) *side {
	var codes []string
	for _, file := range slices.Sorted(maps.Keys(files)) {
		if m := planCode.FindSubmatch(files[file]); m != nil && filepath.Base(file) == "plan.json" {
			codes = append(codes, regexp.QuoteMeta(string(m[1])))
		}
	}
	if codes == nil {
		return &side{files, nil}
	}
	return &side{files, regexp.MustCompile(strings.Join(codes, "|"))}
}

// difference says how a file differs on the two sides, or "".
func difference(name string, sides [2]*side) string {
	old, isOld := sides[0].files[name]
	made, isNew := sides[1].files[name]
	ending := filepath.Ext(name)
	switch a, b := sides[0].codes, sides[1].codes; {
	case !isOld:
		return "only new writes it"
	case !isNew:
		return "only old writes it"
	case bytes.Equal(old, made):
		return ""
	case ending == ".png":
		codes := *words && a != nil && b != nil && a.String() != b.String() && printsCode.MatchString(name)
		return pictures(old, made, codes)
	}
	text, other := sides[0].text(ending, old), sides[1].text(ending, made)
	said := fmt.Sprintf("bytes differ (%d and %d of them)", len(old), len(made))
	switch {
	case text != other:
		return "differs" + textDifference(strings.Split(text, "\n"), strings.Split(other, "\n"))
	case *words && text != "":
		return ""
	case ending == ".pdf":
		said += ", though the words and what is drawn are the same: words may stand elsewhere"
	}
	return said
}

// What has words in programs' files, and what of it may differ.
var (
	// Two cells are no number with a comma in it.
	cells     = regexp.MustCompile(`"(?:[^"]|"")*"|[^,\r\n]+`)
	inQuotes  = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)
	outside   = regexp.MustCompile(`>[^<]+<|(?:alt|title|aria-label)="[^"]*"`)
	listCode  = regexp.MustCompile(`\blist [2-9A-HJKMNP-Z]{4}\b`) // of who sits where, beside the plan's
	thousands = regexp.MustCompile(`\b\d{1,3}(?:[,\x{a0}\x{2009}\x{202f}]\d{3})+\b`)
	noDigit   = regexp.MustCompile(`\D`)
	widths    = regexp.MustCompile(`(?s)<cols>.*?</cols>| textLength="[^"]*"`) // follow the words
)

// text is a file in lines, "" where it has none; with words, what may differ is taken out.
func (s *side) text(ending string, data []byte) string {
	switch ending {
	case ".out", ".err", ".status", ".toml":
		return s.plain(string(data))
	case ".csv":
		return cells.ReplaceAllStringFunc(string(data), s.plain)
	case ".json": // only what stands in quotes has words
		text := inQuotes.ReplaceAllStringFunc(string(data), s.plain)
		return strings.NewReplacer(",", ",\n", "{", "{\n").Replace(text)
	case ".html", ".svg":
		return s.markup(data)
	case ".pdf":
		return s.paper(data)
	case ".xlsx":
		text, z := "", must(zip.NewReader(bytes.NewReader(data), int64(len(data))))
		for _, f := range z.File {
			text += f.Name + ":\n" + s.markup(must(fs.ReadFile(z, f.Name))) + "\n"
		}
		return text
	}
	return ""
}

func (s *side) plain(text string) string {
	if !*words {
		return text
	}
	if s.codes != nil {
		text = s.codes.ReplaceAllString(text, "CODE")
	}
	text = listCode.ReplaceAllString(text, "list CODE")
	return thousands.ReplaceAllStringFunc(text, func(n string) string { return noDigit.ReplaceAllString(n, "") })
}

// markup has words outside tags and in what pictures are called.
func (s *side) markup(data []byte) string {
	text := string(data)
	if *words {
		text = widths.ReplaceAllString(text, "")
	}
	return strings.ReplaceAll(outside.ReplaceAllStringFunc(text, s.plain), ">", ">\n")
}

const onPage = "drawn on a page:\n"

// Of a PDF file.
var (
	stream  = regexp.MustCompile(`<<([^<>]*)>>\s*stream\r?\n`)
	page    = regexp.MustCompile(`^\d J\n`) // how the streams of pages begin, and no other
	written = regexp.MustCompile(`(?s)\bBT .*? ET\b`)
)

// paper is the text of a PDF file in the order in which it was written, where pdftotext (poppler) is there, and
// below, the lines and areas on its pages. With words, they are taken one by one: lines are guessed from widths,
// which follow the words.
func (s *side) paper(data []byte) string {
	c := exec.Command("pdftotext", "-raw", "-", "-")
	c.Stdin = bytes.NewReader(data)
	said, err := c.Output()
	if !errors.Is(err, exec.ErrNotFound) {
		check(err)
	}
	text := string(said)
	if *words {
		text = strings.Join(strings.Fields(s.plain(text)), "\n") + "\n"
	}
	for _, at := range stream.FindAllSubmatchIndex(data, -1) {
		body, _, _ := bytes.Cut(data[at[1]:], []byte("endstream"))
		if bytes.Contains(data[at[2]:at[3]], []byte("/FlateDecode")) {
			body = must(io.ReadAll(must(zlib.NewReader(bytes.NewReader(data[at[1]:])))))
		}
		if page.Match(body) {
			text += onPage + string(written.ReplaceAll(body, nil))
		}
	}
	if !strings.Contains(text, onPage) {
		check(errors.New("no page was found in a PDF file"))
	}
	return text
}

// The line of maps on which the plan's code stands, in their own pixels from the left and from the bottom; and how
// far, in levels of 255, colours elsewhere may go with it, since 256 of them are chosen for the whole picture.
const codeWide, codeHigh, codeLevels = 220, 42, 24

var printsCode = regexp.MustCompile(`(map|matter)-\d+\.png$|marks\.png$`)

// pictures says where two PNG files differ. Where codes may, maps may as far as another code on them does it.
func pictures(old, made []byte, codes bool) string {
	img := [2]image.Image{must(png.Decode(bytes.NewReader(old))), must(png.Decode(bytes.NewReader(made)))}
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
func apart(a, b color.Color) (most int) {
	p, q := color.RGBAModel.Convert(a).(color.RGBA), color.RGBAModel.Convert(b).(color.RGBA)
	for _, c := range [][2]uint8{{p.R, q.R}, {p.G, q.G}, {p.B, q.B}, {p.A, q.A}} {
		most = max(most, int(c[0])-int(c[1]), int(c[1])-int(c[0]))
	}
	return most
}

const mostLines, mostSigns = 6, 150

// textDifference shows the first lines that differ.
func textDifference(old, made []string) string {
	first := alike(old, made)
	said, shown := fmt.Sprintf(" from line %d on", first+1), 0
	for i := first; i < max(len(old), len(made)) && shown < mostLines; i++ {
		var a, b []rune // nothing behind the end
		if i < len(old) {
			a = []rune(old[i])
		}
		if i < len(made) {
			b = []rune(made[i])
		}
		if slices.Equal(a, b) {
			continue
		}
		from := max(0, alike(a, b)-mostSigns/3) // of a long line what stands around the place where it differs
		said += fmt.Sprintf("\n    - %.*s\n    + %.*s", mostSigns, string(a[from:]), mostSigns, string(b[from:]))
		shown++
	}
	return said
}

// alike counts what two lists begin with alike.
func alike[T comparable](a, b []T) int {
	n := 0
	for n < min(len(a), len(b)) && a[n] == b[n] {
		n++
	}
	return n
}
