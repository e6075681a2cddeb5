package pictures

import (
	"fmt"
	"strings"
	"sync"
	"unicode"

	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"

	"everyseat/layouts/fonts"
)

// capital is the capitals' height of Noto Sans, in ems.
const capital = 0.714

// faces are the two that maps are set in: regular and bold.
var faces = sync.OnceValue(func() [2]*truetype.Font {
	var out [2]*truetype.Font
	for i, data := range [][]byte{fonts.Regular, fonts.Bold} {
		f, err := truetype.Parse(data)
		if err != nil {
			panic(fmt.Sprintf("a font does not parse: %v", err))
		}
		out[i] = f
	}
	return out
})

func faceOf(bold bool) *truetype.Font {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

// advance is the width of a line in ems, without kerning.
func advance(words string, bold bool) float64 {
	const em = 1000
	f := faceOf(bold)
	var sum fixed.Int26_6
	for _, r := range words {
		sum += f.HMetric(fixed.I(em), f.Index(r)).AdvanceWidth
	}
	return float64(sum) / 64 / em
}

func (l *lettering) length() float64 { return advance(l.words, l.bold) * l.size }

// printable is words with what the face lacks set as its plain letter where
// there is one, else as "?": never as an empty box.
func printable(words string, bold bool) string {
	t := faceOf(bold)
	var b strings.Builder
	for _, r := range norm.NFC.String(words) {
		switch {
		case unicode.IsControl(r):
			b.WriteByte(' ')
		case t.Index(r) != 0:
			b.WriteRune(r)
		default:
			b.WriteString(plain(r, t))
		}
	}
	return strings.TrimSpace(b.String())
}

// plain is r with as many of its marks as the face can draw, or "?".
func plain(r rune, t *truetype.Font) string {
	parts := []rune(norm.NFKD.String(string(r)))
	for n := len(parts) - 1; n >= 1; n-- {
		less := []rune(norm.NFC.String(string(parts[:n])))
		if len(less) == 1 && t.Index(less[0]) != 0 {
			return string(less)
		}
	}
	return "?"
}
