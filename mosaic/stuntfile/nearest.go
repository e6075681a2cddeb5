package stuntfile

import (
	"strconv"
	"strings"
)

// nearestHint names the known word that was probably meant, or else all of
// them behind lead; no lead, no list.
func nearestHint(word string, known []string, lead string) string {
	if w := nearest(word, known); w != "" {
		return "did you mean " + strconv.Quote(w) + "?"
	}
	if lead == "" {
		return ""
	}
	return lead + strings.Join(known, ", ")
}

// nearest is the known word with the smallest edit distance, the first of
// equals, or "" where every one differs in more than half of its letters.
func nearest(word string, known []string) string {
	const longest = 64 // nobody mistypes more; keeps the work small
	best, found := len(word)+1, ""
	if word == "" || len(word) > longest {
		return ""
	}
	for _, k := range known {
		d := editDistance(fold(word), fold(k))
		if d < best && 2*d <= max(len([]rune(k)), 2) {
			best, found = d, k
		}
	}
	return found
}

// fold makes alike what people write alike: case, spaces and hyphens.
func fold(s string) []rune {
	return []rune(strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(s)))
}

// editDistance counts insertions, deletions, changes and swaps of neighbours
// (optimal string alignment).
func editDistance(a, b []rune) int {
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
