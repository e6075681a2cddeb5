package cells

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"everyseat/seating"
)

// Plain is text in small letters, with single blanks for everything that is no letter or figure.
func Plain(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

// Number reads a whole number: "15", "15.0", "1,200" or "15 seats". ok is false for anything else, for what is
// negative and for more than seating.MaxPeople.
func Number(text string) (n int, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, word := range []string{"seats", "seat", "places", "people", "persons", "pers.", "rows", "chairs"} {
		t = strings.TrimSpace(strings.TrimSuffix(t, word))
	}
	t = strings.TrimSuffix(t, ".0")
	if head, tail, ok := strings.Cut(t, ","); ok && len(tail) == 3 && len(head) <= 3 && head != "" && head != "0" {
		t = head + tail
	}
	n, err := strconv.Atoi(t)
	if err != nil || t[0] == '+' || n > seating.MaxPeople || n < 0 {
		return 0, false
	}
	return n, true
}

// Ditto says whether a text stands for the one above it.
func Ditto(text string) bool {
	return slices.Contains([]string{`"`, "″", "〃"}, text) || Plain(text) == "ditto"
}

// Meaning finds which of some lists of names holds the words that somebody wrote over a column, all in small letters
// and single blanks: −1 for none. A slip of one letter in a longer word is forgiven where it leaves one meaning.
func Meaning(words string, names [][]string) int {
	if words == "" {
		return -1
	}
	for i := range names {
		if slices.Contains(names[i], words) {
			return i
		}
	}
	const long = 5 // letters
	found := -1
	for i := range names {
		for _, name := range names[i] {
			if min(len(name), len(words)) < long || seating.Slips(name, words) > 1 {
				continue
			}
			if found >= 0 && found != i {
				return -1
			}
			found = i
		}
	}
	return found
}
