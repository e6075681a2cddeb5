package sheets

import (
	"fmt"
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"

	"everyseat/layouts/fonts"
	"everyseat/mosaic"
	"everyseat/seating"
)

// weight picks one of the two faces.
type weight uint8

const (
	regular weight = iota
	bold
)

// widestRune bounds the table of widths: the faces reach to the end of the Latin ligatures.
const widestRune = 0xFB10

// face is one weight of the type on paper.
type face struct {
	file     []byte
	width    []int16 // by rune, thousandths of the size; −1 where the face has no glyph
	outlines *sfnt.Font
}

var faces = sync.OnceValue(func() [2]*face {
	return [2]*face{
		loadFace(fonts.Regular),
		loadFace(fonts.Bold),
	}
})

// loadFace reads an embedded file; a broken one is a broken build of the program.
func loadFace(file []byte) *face {
	f, err := sfnt.Parse(file)
	if err != nil {
		panic(err)
	}
	fc := &face{file: file, width: make([]int16, widestRune), outlines: f}
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

// has says whether the face draws r.
func (f *face) has(r rune) bool { return r >= 0 && r < widestRune && f.width[r] >= 0 }

// measure is the width of s at a size of 1, in the unit of the size.
func (f *face) measure(s string) float64 {
	sum := 0
	for _, r := range s {
		if f.has(r) {
			sum += int(f.width[r])
		}
	}
	return float64(sum) / 1000
}

// reach is how far the strokes of s go above and below the baseline, in parts of the size.
func (f *face) reach(s string) (up, down float64) {
	var buf sfnt.Buffer
	for _, r := range composed(s) {
		if !f.has(r) {
			continue
		}
		g, err := f.outlines.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		box, _, err := f.outlines.GlyphBounds(&buf, g, fixed.I(1000), font.HintingNone)
		if err != nil {
			continue
		}
		up, down = max(up, -float64(box.Min.Y.Floor())/1000), max(down, float64(box.Max.Y.Ceil())/1000)
	}
	return up, down
}

// composed is s with its accents put together, as the faces hold them.
func composed(s string) string {
	if norm.NFC.IsNormalString(s) {
		return s
	}
	return norm.NFC.String(s)
}

// checkType looks up every character that the sheets would print of what the
// crew wrote. A character that the type lacks would print as an empty box, so
// it is a *seating.Fault with the Key of the text and the character.
func checkType(p *mosaic.Plan) error {
	for _, t := range writtenByCrew(p) {
		for _, r := range composed(t.text) {
			if r == '\n' || (faces()[regular].has(r) && faces()[bold].has(r)) {
				continue
			}
			return &seating.Fault{
				Key:  t.key,
				What: fmt.Sprintf("the type on paper has no %q (U+%04X), in %q", r, r, faces()[regular].shorten(strings.Join(strings.Fields(t.text), " "), 1, 30)),
				Hint: "write it in Latin, Greek or Cyrillic letters, figures and the usual signs",
			}
		}
	}
	return nil
}

type written struct{ key, text string }

func writtenByCrew(p *mosaic.Plan) []written {
	all := []written{{"title", p.Stunt.Title}, {"date", p.Stunt.Date}, {"contact", p.Stunt.Contact},
		{"day.doors", p.Stunt.Day.Doors}, {"day.take", p.Stunt.Day.Take}, {"flashing_risk", p.Flashing}}
	for _, l := range []struct {
		key   string
		texts []string
	}{{"day.signs", p.Stunt.Day.Signs}, {"day.rehearsals", p.Stunt.Day.Rehearsals}, {"day.keys", p.Stunt.Day.Keys}} {
		for i, text := range l.texts {
			all = append(all, written{fmt.Sprintf("%s[%d]", l.key, i), text})
		}
	}
	for i, l := range p.Stunt.Stands.Lanes {
		all = append(all, written{fmt.Sprintf("room.lane[%d].name", i), l.Name})
	}
	for i, o := range p.Stunt.Room.Obstacles {
		all = append(all, written{fmt.Sprintf("room.obstacle[%d].name", i), o.Name})
	}
	for i, e := range p.Stunt.Room.Exits {
		all = append(all, written{fmt.Sprintf("room.exit[%d].name", i), e.Name})
	}
	for _, m := range p.Stunt.Marks {
		all = append(all, written{m.Key, m.Name})
	}
	for i, c := range p.Stunt.Colours {
		all = append(all, written{fmt.Sprintf("colour[%d].name", i), c.Name})
	}
	for i, id := range mosaic.ColourIDs(p.Stunt.Colours) { // capitals may be missing where small letters are not
		all = append(all, written{fmt.Sprintf("colour[%d].name", i), id})
	}
	for i := range p.Cues {
		all = append(all,
			written{fmt.Sprintf("cue[%d].name", i), p.Cues[i].Name},
			written{fmt.Sprintf("cue[%d].at", i), p.Cues[i].At})
	}
	for i := range p.Stands.Sections {
		s := &p.Stands.Sections[i]
		all = append(all, written{fmt.Sprintf("section[%d].name", i), s.Name})
		for r := range s.Rows {
			all = append(all, written{fmt.Sprintf("section[%d].rows", i), s.Rows[r].Name})
		}
		for _, r := range s.Spec.Reserved {
			all = append(all, written{fmt.Sprintf("section[%d].reserved", i), r.For})
		}
	}
	return append(all, writtenOfPeople(p)...)
}

// shorten cuts s so that it is at most width wide at the size, and marks the cut.
func (f *face) shorten(s string, size, width float64) string {
	if f.measure(s)*size <= width {
		return s
	}
	runes := []rune(s)
	for len(runes) > 1 {
		runes = runes[:len(runes)-1]
		cut := strings.TrimRight(string(runes), " ") + "…"
		if f.measure(cut)*size <= width {
			return cut
		}
	}
	return string(runes)
}

// glue is a blank at which wrap does not break; on paper it is a plain blank.
const glue = "\uE000"

// wrap breaks s into lines of at most width at the size; a word wider than
// that is broken where it must be.
func (f *face) wrap(s string, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		word = strings.ReplaceAll(word, glue, " ")
		try := word
		if line != "" {
			try = line + " " + word
		}
		if f.measure(try)*size <= width {
			line = try
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = word
		for f.measure(line)*size > width && len([]rune(line)) > 1 {
			head, tail := f.breakWord(line, size, width)
			lines = append(lines, head)
			line = tail
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

func (f *face) breakWord(word string, size, width float64) (head, tail string) {
	runes := []rune(word)
	n := 1
	for n < len(runes) && f.measure(string(runes[:n+1]))*size <= width {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}
