package mosaic

import (
	"strconv"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// ColourLetters gives every colour of the palette one sign of its own, the same on all papers and pictures: a letter
// of its name where that goes, else a number.
func ColourLetters(colours []Colour) []string {
	letters := make([]string, len(colours))
	taken := map[string]bool{}
	for i, c := range colours {
		letters[i] = freeLetter(c.Name, taken)
		taken[letters[i]] = true
	}
	return letters
}

func freeLetter(name string, taken map[string]bool) string {
	for _, r := range norm.NFC.String(name) {
		if s := string(unicode.ToUpper(r)); unicode.IsLetter(r) && !taken[s] {
			return s
		}
	}
	for n := 1; ; n++ {
		if s := strconv.Itoa(n); !taken[s] {
			return s
		}
	}
}
