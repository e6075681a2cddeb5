package seating

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Fault is one thing wrong in what somebody gave us: where it is, what is
// wrong, and how to mend it. Key is the dotted path of the stunt file
// ("section[1].rise", counted from 0) for whoever knows files to turn into a
// line; File, Line and Column (from 1) are empty or 0 until then.
type Fault struct {
	File   string
	Line   int
	Column int
	Key    string
	What   string // lower case, no full stop
	Hint   string // how to mend it; may be empty
	Cause  error  // what it was made of, for whoever can say more; may be nil
}

// Wrong is a fault of a key; what and args are as fmt.Sprintf takes them.
func Wrong(key, hint, what string, args ...any) *Fault {
	return &Fault{Key: key, What: fmt.Sprintf(what, args...), Hint: hint}
}

// Unwrap is the cause.
func (f *Fault) Unwrap() error { return f.Cause }

// Error says place, what is wrong and the hint on one line.
func (f *Fault) Error() string {
	text := f.What
	if at := f.Where(); at != "" {
		text = at + ": " + text
	}
	if f.Hint != "" {
		text += " (hint: " + f.Hint + ")"
	}
	return text
}

// Where is "file:line:column", or the key while no file is known.
func (f *Fault) Where() string {
	if f.File == "" {
		return f.Key
	}
	at := f.File
	for _, n := range []int{f.Line, f.Column} {
		if n == 0 {
			break
		}
		at += ":" + strconv.Itoa(n)
	}
	return at
}

// DidYouMean is the hint that names the known word that somebody probably meant, or else all of them behind lead; no
// lead, no list.
func DidYouMean(word string, known []string, lead string) string {
	if near := Nearest(word, known); near != "" {
		return "did you mean " + strconv.Quote(near) + "?"
	}
	if lead == "" {
		return ""
	}
	return lead + strings.Join(known, ", ")
}

// Nearest is the known word that somebody probably meant, the first of equals, or "" where every one takes more
// Slips than a third of the shorter word's letters, and more than one. Capitals do not matter, nor which of blank,
// hyphen and underscore parts words.
func Nearest(word string, known []string) string {
	const longest = 64 // nobody mistypes more; keeps the work small
	if word == "" || len(word) > longest {
		return ""
	}
	fold := func(s string) string { return strings.NewReplacer("-", "_", " ", "_").Replace(NameKey(s)) }
	found, least := "", len(word)+1
	for _, k := range known {
		most := max(1, min(utf8.RuneCountInString(word), utf8.RuneCountInString(k))/3)
		if n := Slips(fold(word), fold(k)); n < least && n <= most {
			found, least = k, n
		}
	}
	return found
}

// Slips counts the letters that are left out, put in or changed, and the neighbours that are swapped, between two
// words (optimal string alignment distance).
func Slips(one, two string) int {
	a, b := []rune(one), []rune(two)
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
