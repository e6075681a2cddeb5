package lettering

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"everyseat/mosaic/faces"
	"everyseat/mosaic/legibility"

	"golang.org/x/text/unicode/norm"
)

// Limits of a text.
const (
	maxLines   = 12
	maxLetters = 400
)

// sign is one letter of a line.
type sign struct {
	rune  rune
	space bool // a space stands before it
}

// clean turns a text into lines of capitals that the faces have.
func clean(text string) (lines [][]sign, err error) {
	text = norm.NFC.String(strings.TrimRight(strings.ReplaceAll(text, "\r\n", "\n"), "\n"))
	if strings.TrimSpace(text) == "" {
		return nil, &Misfit{What: "the text is empty", Hint: "write the letters that the stands shall show"}
	}
	raw := strings.Split(text, "\n")
	if len(raw) > maxLines {
		return nil, &Misfit{What: fmt.Sprintf("the text has %d lines, more than %d", len(raw), maxLines),
			Hint: "make several cues of it"}
	}
	count := 0
	for i, l := range raw {
		var line []sign
		space := false
		for _, r := range l {
			if unicode.IsSpace(r) {
				space = len(line) > 0
				continue
			}
			if err := refuse(r); err != nil {
				return nil, err
			}
			for _, u := range capitals(r) {
				line = append(line, sign{u, space})
				space = false
			}
		}
		if len(line) == 0 {
			return nil, &Misfit{What: fmt.Sprintf("line %d of the text is empty", i+1),
				Hint: "take the empty line out"}
		}
		lines = append(lines, line)
		count += len(line)
	}
	if count > maxLetters {
		return nil, &Misfit{What: fmt.Sprintf("the text has %d letters, more than %d", count, maxLetters),
			Hint: "make several cues of it"}
	}
	return lines, nil
}

// capitals sets a letter as capitals, and dashes and quotes as the plain sign.
func capitals(r rune) []rune {
	switch r {
	case '–', '—', '‐', '‑', '−':
		return []rune{'-'}
	case '’', '‘', '´', '`':
		return []rune{'\''}
	case 'ß', 'ẞ':
		return []rune{'S', 'S'}
	case 'æ', 'Æ':
		return []rune{'A', 'E'}
	case 'œ', 'Œ':
		return []rune{'O', 'E'}
	}
	return []rune{unicode.ToUpper(r)}
}

// refuse says why no face has a letter.
func refuse(r rune) error {
	m := &Misfit{Hint: "give this text as an image"}
	switch {
	case unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko):
		m.What = fmt.Sprintf("%q is written from right to left, which the faces cannot set", r)
	case unicode.IsLetter(r) && !unicode.Is(unicode.Latin, r):
		m.What = fmt.Sprintf("%q is not a Latin letter, and no face has it", r)
	case !slices.ContainsFunc(capitals(r), func(u rune) bool { return !faces.Known(u) }):
		return nil
	default:
		m.What = fmt.Sprintf("%q in the text cannot be shown: no face has this sign", r)
		m.Hint = "leave it out or write it in words; A–Z, " + accentedLetters + ", 0–9 and & ! ? . - + # ' / : can " +
			"be shown, and anything as an image"
		if plain, ok := plainLetter(r); ok {
			m.Hint = fmt.Sprintf("write %c for it; of letters with accents there are %s, and anything can be shown "+
				"as an image", plain, accentedLetters)
		}
	}
	return m
}

// accentedLetters are all that the faces have.
const accentedLetters = "ÁÀÂÃÄÅÉÈÊËÍÌÎÏÑÓÒÔÕÖÚÙÛÜÝ"

// plainLetter is the letter under an accent, a hook or a bar that no face has.
func plainLetter(r rune) (plain rune, ok bool) {
	plain, _ = utf8.DecodeRuneInString(norm.NFD.String(string(unicode.ToUpper(r))))
	switch plain {
	case 'Ł':
		plain = 'L'
	case 'Ø':
		plain = 'O'
	case 'Đ', 'Ð':
		plain = 'D'
	}
	return plain, unicode.IsLetter(plain) && faces.Known(plain)
}

// accented says whether the letter has an accent.
func (s sign) accented() bool {
	_, ok := faces.Base(s.rune)
	return ok
}

// rowsForAccents is how many rows a line needs for letters with accents.
const rowsForAccents = 10

// plainAccents takes accents off where the rows are too few, and says so.
func plainAccents(f *Field, lines [][]sign, lay *Layout) [][]sign {
	rows := survey(f, legibility.NewCanvas(f, legibility.Straight(f))).rows()
	if rows/len(lines) >= rowsForAccents {
		return lines
	}
	out := make([][]sign, len(lines))
	for i, l := range lines {
		out[i] = slices.Clone(l)
		for k, s := range l {
			if b, ok := faces.Base(s.rune); ok {
				out[i][k].rune = b
				lay.Dropped = append(lay.Dropped,
					fmt.Sprintf("%c is set as %c: %d rows a line are too few for accents, "+
						"which need %d", s.rune, b, rows/len(lines), rowsForAccents))
			}
		}
	}
	return out
}
