package advice

import (
	"slices"
	"strings"
	"unicode"

	"everyseat/seating/say"
)

// mostParts is how many cues a text is parted into, at most.
const mostParts = 6

// splits are ways to part a text: in two, by words or lines where there are more than two, and, if
// it is far too long, in three and four.
func splits(text string, far bool) [][]string {
	two := halve(text)
	if len(two) < 2 {
		return nil
	}
	out := [][]string{two}
	parts := strings.Fields(text)
	if n := len(parts); n > 2 && n <= mostParts {
		out = append(out, parts)
	}
	if runes := []rune(parts[0]); far && len(parts) == 1 {
		for n := 3; n <= 4 && len(runes) >= 2*n; n++ {
			var pieces []string // nearly alike ones
			for k := range n {
				pieces = append(pieces, string(runes[len(runes)*k/n:len(runes)*(k+1)/n]))
			}
			out = append(out, pieces)
		}
	}
	return out
}

// halve parts a text between lines, else at the space nearest to its middle, else in its middle.
func halve(text string) []string {
	text = strings.TrimSpace(text)
	if lines := strings.Split(text, "\n"); len(lines) > 1 {
		half := (len(lines) + 1) / 2
		return []string{strings.Join(lines[:half], "\n"), strings.Join(lines[half:], "\n")}
	}
	if words := strings.Fields(text); len(words) > 1 {
		best, least := 1, len(text)
		for k := 1; k < len(words); k++ {
			a, b := letters(strings.Join(words[:k], "")), letters(strings.Join(words[k:], ""))
			if off := max(a-b, b-a); off < least {
				best, least = k, off
			}
		}
		return []string{strings.Join(words[:best], " "), strings.Join(words[best:], " ")}
	}
	runes := []rune(text)
	if len(runes) < 2 {
		return nil
	}
	half := (len(runes) + 1) / 2
	return []string{string(runes[:half]), string(runes[half:])}
}

func letters(line string) int { return len([]rune(strings.Join(strings.Fields(line), ""))) }

func longestLine(text string) (longest int) {
	for l := range strings.Lines(text) {
		longest = max(longest, letters(l))
	}
	return longest
}

// beginning is the first n letters of every line.
func beginning(text string, n int) string {
	var out []string
	for _, l := range strings.Split(strings.TrimSpace(text), "\n") {
		var b strings.Builder
		count := 0
		for _, r := range l {
			if !unicode.IsSpace(r) {
				if count++; count > n {
					break
				}
			}
			b.WriteRune(r)
		}
		out = append(out, strings.TrimSpace(b.String()))
	}
	return strings.Join(out, "\n")
}

// mostFewer is how many shorter texts are tried.
const mostFewer = 4

// fewerLetters are the lengths that are tried, longest first: down to half, or to two where the text is far
// too long; never one letter alone.
func fewerLetters(longest int, far bool) []int {
	least := max(2, (longest+1)/2)
	if far {
		least = 2
	}
	var out []int
	for k := 1; k <= mostFewer; k++ {
		n := longest - max(k, (longest-least)*k/mostFewer)
		if n >= least && !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	return out
}

func quotedList(parts []string) string {
	words := make([]string, len(parts))
	for i, p := range parts {
		words[i] = say.Quoted(p)
	}
	return say.List(words)
}

// countWord is "two cues", "one letter".
func countWord(n int, of string) string {
	if n != 1 {
		of += "s"
	}
	return say.Number(n) + " " + of
}
