package seating

import (
	"fmt"
	"regexp"
	"slices"
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
		return "", Wrong("", "type it anew", "the name %q is no valid UTF-8 text", Shown(name))
	}
	name = norm.NFC.String(name)
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return "", Wrong("", `give it one, like "A"`, "the name is empty")
	case n > MaxName:
		return "", Wrong("", fmt.Sprintf("use at most %d", MaxName), "the name %q has %d signs", Shown(name), n)
	case strings.TrimSpace(name) != name:
		return "", Wrong("", "take it away", "the name %q starts or ends with a blank", Shown(name))
	}
	for _, r := range name {
		if strings.ContainsRune(forbidden, r) {
			return "", Wrong("", "leave out - , = / \\ and #", "the name %q holds %q", name, r)
		}
		if r == unicode.ReplacementChar || r != ' ' && (unicode.Is(unicode.C, r) || unicode.Is(unicode.Z, r)) {
			return "", Wrong("", "type it anew", "the name %q holds the invisible sign %U", name, r)
		}
	}
	return name, nil
}

// NameFrom is a text less what a name may not hold, cut to its length; "" where nothing is left that can be one.
func NameFrom(text string) string {
	name := strings.Join(strings.FieldsFunc(text, func(c rune) bool {
		return c <= ' ' || strings.ContainsRune(forbidden, c) || c == utf8.RuneError
	}), " ")
	if runes := []rune(name); len(runes) > MaxName {
		name = strings.TrimSpace(string(runes[:MaxName]))
	}
	name, _ = CheckName(name)
	return name
}

// NameKey is equal for names that differ in case only.
func NameKey(name string) string { return norm.NFC.String(cases.Fold().String(name)) }

// reservedFile matches names that one family of systems keeps for devices.
var reservedFile = regexp.MustCompile(`^(?i:con|prn|aux|nul|com[1-9]|lpt[1-9])$`)

// FileName makes a part of a file name of an id or of one of its parts: letters,
// figures and - stay, a blank becomes _, everything else its code point between
// tildes. Different ids give different names on every common file system.
func FileName(id string) string {
	var b strings.Builder
	if reservedFile.MatchString(id) {
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

// maxShown is how many runes of somebody's text a fault or a list repeats.
const maxShown = 80

// Shown is somebody's text as faults and lists repeat it: not too long, and
// without signs that move a terminal's cursor.
func Shown(text string) string {
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

// Alphabet is the letters that name things one after the other.
type Alphabet string

// The alphabets. Rows usually leave out I and O, which look like 1 and 0.
const (
	AllLetters Alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	RowLetters Alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ"
)

// Name is the n-th name, from 1: A … Z, AA, AB …
func (a Alphabet) Name(n int) string {
	var b []byte
	for ; n > 0; n = (n - 1) / len(a) {
		b = append(b, a[(n-1)%len(a)])
	}
	slices.Reverse(b)
	return string(b)
}

// Index is the inverse of Name; 0 where a letter is not in the alphabet.
func (a Alphabet) Index(name string) int {
	n := 0
	for _, r := range name {
		i := strings.IndexRune(string(a), r)
		if i < 0 {
			return 0
		}
		n = n*len(a) + i + 1
	}
	return n
}

// MaxNumber bounds seat and row numbers as marked.
const MaxNumber = 99_999_999

func (n RowNaming) names(rows int) ([]string, error) {
	ruled := n.Letters || n.AllLetters || n.Start != 0 || n.Step != 0 || n.FromBack
	switch given := len(n.Names); {
	case given > 0 && ruled:
		return nil, Wrong("", "give one of the two; the list runs from the front to the back",
			"rows have a list of names and a rule for names")
	case given > 0 && given != rows:
		return nil, Wrong("", "give one a row, from the front to the back",
			"there are %d names for %d rows", given, rows)
	case given > 0:
		return checkNames(n.Names)
	}
	start, step := max(n.Start, 1), max(n.Step, 1)
	if n.Start < 0 || n.Step < 0 {
		return nil, Wrong("", "for names that fall toward the back, let them begin at the back",
			"row names count upwards from 1")
	}
	if start > MaxNumber || step > MaxNumber/max(rows, 1) {
		return nil, Wrong("", fmt.Sprintf("stay below %d", MaxNumber), "row numbers are too large")
	}
	name := strconv.Itoa
	if n.Letters {
		alphabet := RowLetters
		if n.AllLetters {
			alphabet = AllLetters
		}
		first := AllLetters.Name(start)
		if start = alphabet.Index(first); start == 0 {
			return nil, Wrong("", "start at another letter, or ask for all letters",
				"rows cannot start at %s, which is left out because it looks like a figure", first)
		}
		name = alphabet.Name
	}
	out := make([]string, rows)
	for i := range out {
		out[i] = name(start + i*step)
	}
	if n.FromBack {
		slices.Reverse(out)
	}
	return out, nil
}

// checkNames checks a list of row names: each may be a name, and no two are the same.
func checkNames(names []string) ([]string, error) {
	out, seen := make([]string, len(names)), map[string]string{}
	for i, raw := range names {
		name, err := CheckName(raw)
		if err != nil {
			return nil, err
		}
		key := NameKey(name)
		if twin, ok := seen[key]; ok {
			return nil, Wrong("", "name one of them otherwise",
				"the rows %q and %q have the same name but for capitals", twin, name)
		}
		seen[key], out[i] = name, name
	}
	return out, nil
}

// NamingOf is the shortest rule that gives these names, front to back.
func NamingOf(names []string) RowNaming {
	rules := []RowNaming{{}, {Letters: true}, {Letters: true, AllLetters: true}}
	for _, end := range []string{names[0], names[len(names)-1]} {
		if n, err := strconv.Atoi(end); err == nil && n > 0 && n <= MaxNumber {
			rules = append(rules, RowNaming{Start: n})
		}
		if n := AllLetters.Index(end); n > 0 && len(end) < 4 {
			rules = append(rules, RowNaming{Letters: true, Start: n},
				RowNaming{Letters: true, AllLetters: true, Start: n})
		}
	}
	for _, back := range []bool{false, true} {
		for _, rule := range rules {
			rule.FromBack = back && len(names) > 1
			if got, err := rule.names(len(names)); err == nil && slices.Equal(got, names) {
				return rule
			}
		}
	}
	return RowNaming{Names: names}
}

// Check fills in defaults and bounds the largest number of a row with so many places. Errors are *Fault without a Key.
func (n *SeatNumbering) Check(places int) error {
	if n.Start < 0 || n.Step < 0 || n.From > Right {
		return Wrong("", "for numbers that fall to the right, let them begin at the right",
			"seat numbers count upwards from 1")
	}
	n.Start, n.Step = max(n.Start, 1), max(n.Step, 1)
	if n.Start > MaxNumber || n.Step > MaxNumber/max(places, 1) {
		return Wrong("", fmt.Sprintf("stay below %d", MaxNumber), "seat numbers are too large")
	}
	return nil
}

// Number is what the place from the left is marked as in a row of so many places.
func (n SeatNumbering) Number(place, places int) int {
	if n.From == Right {
		place = places - 1 - place
	}
	return n.Start + n.Step*place
}

// Place is the inverse of Number. When no place has the number, ok is false and
// place is the nearest one, the lower number on a tie.
func (n SeatNumbering) Place(number, places int) (place int, ok bool) {
	i := 0
	if number > n.Start {
		i = (number - n.Start + (n.Step-1)/2) / n.Step
	}
	i = min(i, places-1)
	ok = n.Start+n.Step*i == number
	if n.From == Right {
		i = places - 1 - i
	}
	return i, ok
}
