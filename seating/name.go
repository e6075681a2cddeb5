package seating

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// MaxName is the longest part of an id, in runes.
const MaxName = 16

// forbidden are the signs that ids, tables and file names need for themselves.
const forbidden = "-,=/\\#"

// CheckName gives the section or row name in composed form (Unicode NFC), or a
// *Fault without a Key. A name has 1 to MaxName runes, none of - , = / \ # and
// no control or invisible sign.
func CheckName(name string) (string, error) {
	if !utf8.ValidString(name) {
		return "", &Fault{What: fmt.Sprintf("the name %q is no valid UTF-8 text", shown(name)), Hint: "type it anew"}
	}
	name = norm.NFC.String(name)
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return "", &Fault{What: "the name is empty", Hint: `give it one, like "A"`}
	case n > MaxName:
		return "", &Fault{What: fmt.Sprintf("the name %q has %d signs", shown(name), n), Hint: fmt.Sprintf("use at most %d", MaxName)}
	case strings.TrimSpace(name) != name:
		return "", &Fault{What: fmt.Sprintf("the name %q starts or ends with a blank", shown(name)), Hint: "take it away"}
	}
	for _, r := range name {
		if strings.ContainsRune(forbidden, r) {
			return "", &Fault{What: fmt.Sprintf("the name %q holds %q", name, r), Hint: "leave out - , = / \\ and #"}
		}
		if r == unicode.ReplacementChar || r != ' ' && (unicode.Is(unicode.C, r) || unicode.Is(unicode.Z, r)) {
			return "", &Fault{What: fmt.Sprintf("the name %q holds the invisible sign %U", name, r), Hint: "type it anew"}
		}
	}
	return name, nil
}

// nameKey is equal for names that differ in case only.
func nameKey(name string) string { return norm.NFC.String(cases.Fold().String(name)) }

// reservedFiles are names that one family of systems keeps for devices.
var reservedFiles = map[string]bool{
	"con": true, "prn": true, "aux": true, "nul": true,
	"com1": true, "com2": true, "com3": true, "com4": true, "com5": true, "com6": true, "com7": true, "com8": true, "com9": true,
	"lpt1": true, "lpt2": true, "lpt3": true, "lpt4": true, "lpt5": true, "lpt6": true, "lpt7": true, "lpt8": true, "lpt9": true,
}

// FileName makes a part of a file name of an id or of one of its parts: letters,
// figures and - stay, a blank becomes _, everything else its code point between
// tildes. Different ids give different names on every common file system.
func FileName(id string) string {
	var b strings.Builder
	if reservedFiles[strings.ToLower(id)] {
		b.WriteString("~~")
	}
	for _, r := range norm.NFC.String(id) {
		switch {
		case unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.Is(unicode.M, r) || r == '-':
			b.WriteRune(r)
		case r == ' ':
			b.WriteByte('_')
		default:
			fmt.Fprintf(&b, "~%x~", r)
		}
	}
	return b.String()
}

// nearest is the name that takes the fewest changes to reach from want, the
// first one on a tie, or "" where there is none.
func nearest(want string, names []string) string {
	if n, err := strconv.Atoi(want); err == nil {
		if best := nearestNumber(n, names); best != "" {
			return best
		}
	}
	best, least := "", -1
	key := []rune(nameKey(shown(want)))
	for _, n := range names {
		if d := editDistance(key, []rune(nameKey(n))); least < 0 || d < least {
			best, least = n, d
		}
	}
	return best
}

// nearestNumber is the name that is a number and nearest to n, the first one on a tie, or "".
func nearestNumber(n int, names []string) string {
	best, least := "", -1
	for _, name := range names {
		if m, err := strconv.Atoi(name); err == nil && (least < 0 || abs(m-n) < least) {
			best, least = name, abs(m-n)
		}
	}
	return best
}

func editDistance(a, b []rune) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		diagonal := row[0]
		row[0] = i + 1
		for j := range b {
			cost := diagonal
			if a[i] != b[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

// maxShown is how many runes of somebody's text a fault or a list repeats.
const maxShown = 80

// shown is somebody's text as faults and lists repeat it: not too long, and
// without signs that move a terminal's cursor.
func shown(text string) string {
	text = strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return ' '
		}
		return c
	}, text)
	if utf8.RuneCountInString(text) > maxShown {
		text = string([]rune(text)[:maxShown]) + "…"
	}
	return text
}
