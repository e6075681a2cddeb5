package lettering

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

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
		return nil, &Misfit{What: fmt.Sprintf("the text has %d lines, more than %d", len(raw), maxLines), Hint: "make several cues of it"}
	}
	count := 0
	for i, l := range raw {
		line, err := cleanLine(l, i, len(raw))
		if err != nil {
			return nil, err
		}
		lines = append(lines, line)
		count += len(line)
	}
	if count > maxLetters {
		return nil, &Misfit{What: fmt.Sprintf("the text has %d letters, more than %d", count, maxLetters), Hint: "make several cues of it"}
	}
	return lines, nil
}

func cleanLine(l string, index, of int) ([]sign, error) {
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
			if !faces.Known(u) {
				return nil, &Misfit{What: fmt.Sprintf("%q in the text cannot be shown: no face has this sign", r), Hint: "leave it out or write it in words; A–Z, letters with accents, 0–9 and & ! ? . - + # ' / : can be shown, and anything as an image"}
			}
			line = append(line, sign{u, space})
			space = false
		}
	}
	if len(line) == 0 {
		if of == 1 {
			return nil, &Misfit{What: "the text is empty", Hint: "write the letters that the stands shall show"}
		}
		return nil, &Misfit{What: fmt.Sprintf("line %d of the text is empty", index+1), Hint: "take the empty line out"}
	}
	return line, nil
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

func refuse(r rune) error {
	if unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko) {
		return &Misfit{What: fmt.Sprintf("%q is written from right to left, which the faces cannot set", r), Hint: "give this text as an image"}
	}
	if unicode.IsLetter(r) && !unicode.Is(unicode.Latin, r) {
		return &Misfit{What: fmt.Sprintf("%q is not a Latin letter, and no face has it", r), Hint: "give this text as an image"}
	}
	return nil
}

func accents(line []sign) bool {
	for _, l := range line {
		if _, ok := faces.Base(l.rune); ok {
			return true
		}
	}
	return false
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
				lay.Dropped = append(lay.Dropped, fmt.Sprintf("%c is set as %c: %d rows a line are too few for accents, which need %d", s.rune, b, rows/len(lines), rowsForAccents))
			}
		}
	}
	return out
}
