package paper

import (
	_ "embed" // for the faces' files
	"math"
	"strings"
	"sync"

	"everyseat/seating/say"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
)

// Weight is one of the two faces that paper and pictures are set in: Noto Sans, cut down to Latin, Greek and Cyrillic
// letters with all their accents, and the signs that are used. Where it comes from is told in FONTS.md.
type Weight uint8

// The two faces.
const (
	Regular Weight = iota
	Bold
)

var (
	//go:embed NotoSans-Regular.ttf
	regularFile []byte
	//go:embed NotoSans-Bold.ttf
	boldFile []byte
)

// File is the face as a TrueType file; nobody may change it.
func (w Weight) File() []byte { return [...][]byte{Regular: regularFile, Bold: boldFile}[w] }

// Capital is the height of capitals, in parts of the size (Noto Sans: 714/1000).
const Capital = 0.714

// PointsPerMM turns millimetres into points: a point is 1/72 in.
const PointsPerMM = 72 / 25.4

// widestRune bounds the table of widths: the faces reach to the end of the Latin ligatures.
const widestRune = 0xFB10

// face is what is known of one weight.
type face struct {
	width    []int16 // by rune, thousandths of the size; −1 where the face has no glyph
	outlines *sfnt.Font
}

var faces = sync.OnceValue(func() [2]face { return [...]face{Regular: loadFace(Regular), Bold: loadFace(Bold)} })

// loadFace reads an embedded file; a broken one is a broken build of the program.
func loadFace(w Weight) face {
	f, err := sfnt.Parse(w.File())
	if err != nil {
		panic(err)
	}
	fc := face{width: make([]int16, widestRune), outlines: f}
	var buf sfnt.Buffer
	for r := range rune(widestRune) {
		fc.width[r] = -1
		g, err := f.GlyphIndex(&buf, r)
		if err != nil || g == 0 {
			continue
		}
		adv, err := f.GlyphAdvance(&buf, g, fixed.I(1000), font.HintingNone)
		if err != nil {
			continue
		}
		fc.width[r] = int16(adv.Round())
	}
	return fc
}

// Has says whether the face draws r.
func (w Weight) Has(r rune) bool { return r >= 0 && r < widestRune && faces()[w].width[r] >= 0 }

// Ems is the width of s in parts of the size, without kerning; what the face lacks has none.
func (w Weight) Ems(s string) float64 { return float64(w.thousandths(s)) / 1000 }

func (w Weight) thousandths(s string) int {
	width, sum := faces()[w].width, 0
	for _, r := range s {
		if r < widestRune {
			sum += int(max(width[r], 0))
		}
	}
	return sum
}

// Width is that of s at a size in points, in millimetres.
func (w Weight) Width(size float64, s string) float64 { return w.Ems(Composed(s)) * size / PointsPerMM }

// Reach is how far the strokes of s go above and below the baseline, in parts of the size.
func (w Weight) Reach(s string) (up, down float64) {
	var buf sfnt.Buffer
	outlines := faces()[w].outlines
	for _, r := range Composed(s) {
		if !w.Has(r) {
			continue
		}
		g, err := outlines.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		box, _, err := outlines.GlyphBounds(&buf, g, fixed.I(1000), font.HintingNone)
		if err != nil {
			continue
		}
		up, down = max(up, -float64(box.Min.Y.Floor())/1000), max(down, float64(box.Max.Y.Ceil())/1000)
	}
	return up, down
}

// Composed is s with its accents put together, as the faces hold them.
func Composed(s string) string {
	if norm.NFC.IsNormalString(s) {
		return s
	}
	return norm.NFC.String(s)
}

// LineHeight is from baseline to baseline in running text of a size in points, in millimetres.
func LineHeight(size float64) float64 { return size * 1.25 / PointsPerMM }

// CapHeight is the height of capitals of a size in points, in millimetres.
func CapHeight(size float64) float64 { return size * Capital / PointsPerMM }

// SizeFor is the largest size in points, at most most, at which s is at most width millimetres wide.
func (w Weight) SizeFor(s string, width, most float64) float64 {
	at1 := w.Width(1, s)
	if at1*most <= width {
		return most
	}
	return math.Floor(width/at1*10) / 10
}

// Shorten cuts s so that it is at most width millimetres wide at a size in points, and marks the cut; lines become
// one.
func (w Weight) Shorten(s string, size, width float64) string {
	s = Composed(strings.ReplaceAll(s, "\n", " / "))
	width *= PointsPerMM
	if w.Ems(s)*size <= width {
		return s
	}
	runes := []rune(s)
	for len(runes) > 1 {
		runes = runes[:len(runes)-1]
		cut := strings.TrimRight(string(runes), " ") + "…"
		if w.Ems(cut)*size <= width {
			return cut
		}
	}
	return string(runes)
}

// Wrap breaks s into lines of at most width millimetres at a size in points; a word wider than that is broken where
// it must be.
func (w Weight) Wrap(s string, size, width float64) []string {
	width *= PointsPerMM
	fits := func(thousandths int) bool { return float64(thousandths)/1000*size <= width }
	var lines []string
	line, wide, space := "", 0, w.thousandths(" ")
	for _, word := range strings.Fields(Composed(s)) {
		word = strings.ReplaceAll(word, say.Glue, " ")
		long := w.thousandths(word)
		if line != "" {
			if fits(wide + space + long) {
				line, wide = line+" "+word, wide+space+long
				continue
			}
			lines = append(lines, line)
		}
		line, wide = word, long
		for runes := []rune(line); !fits(wide) && len(runes) > 1; runes = []rune(line) {
			n := 1
			for n < len(runes) && fits(w.thousandths(string(runes[:n+1]))) {
				n++
			}
			lines = append(lines, string(runes[:n]))
			line = string(runes[n:])
			wide = w.thousandths(line)
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
