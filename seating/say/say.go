// Package say puts numbers, lengths, times and money into words, the same on every paper, page and screen.
package say

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"everyseat/seating"
)

// Glue is a blank between words that stay on one line. Whoever sets the words prints a plain blank.
const Glue = "\uE000"

// Span says metres in both ways, since a crew reads metres or feet: 18.00 m (59 ft 1 in).
func Span(metres float64) string {
	return seating.Length(math.Round(metres * float64(seating.Metre))).Spoken()
}

// Thousands writes 12345 as 12,345.
func Thousands(n int) string {
	if n < 0 {
		return "-" + Thousands(-n)
	}
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

var smallNumbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
	"eleven", "twelve"}

// Number says a count within a sentence: small ones in words.
func Number(n int) string {
	if n >= 0 && n < len(smallNumbers) {
		return smallNumbers[n]
	}
	return Thousands(n)
}

// Count is "1 card", "1,200 cards".
func Count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return Thousands(n) + " " + what + "s"
}

// People is "1 person", "1,200 people".
func People(n int) string {
	if n == 1 {
		return "1 person"
	}
	return Thousands(n) + " people"
}

// Are is the verb that so many take.
func Are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// Have is the verb that so many take.
func Have(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// Quoted puts a name in quotation marks, its lines side by side.
func Quoted(name string) string { return "“" + strings.ReplaceAll(name, "\n", " / ") + "”" }

// List is "NAVY", "NAVY and RED", "NAVY, CREAM and RED".
func List(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// mostNamed is how many names a sentence lists; of more it counts the rest.
const mostNamed = 8

// FirstFew lists names, and counts those that a sentence has no room for.
func FirstFew(names []string) string {
	if len(names) <= mostNamed {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:mostNamed-1], ", "), len(names)-mostNamed+1)
}

// Capital makes the first letter a capital.
func Capital(words string) string {
	runes := []rune(words)
	if len(runes) == 0 {
		return ""
	}
	return strings.ToUpper(string(runes[:1])) + string(runes[1:])
}

// Small makes the first letter small, where it is one of A to Z.
func Small(words string) string {
	if words != "" && words[0] >= 'A' && words[0] <= 'Z' {
		return string(words[0]-'A'+'a') + words[1:]
	}
	return words
}

// Sentence makes a sentence of words: a capital first and a full stop last.
func Sentence(words string) string {
	out := Capital(strings.TrimSpace(words))
	if out != "" && !strings.ContainsAny(out[len(out)-1:], ".!?") {
		out += "."
	}
	return out
}

// Seconds is "6 s", "0.5 s".
func Seconds(d time.Duration) string { return fmt.Sprintf("%g s", d.Seconds()) }

// WholeMinutes rounds up: nobody plans with the last seconds.
func WholeMinutes(d time.Duration) int { return int((d + time.Minute - 1) / time.Minute) }

// Minutes is "1 minute", "90 minutes", "2 h 05 min", rounded up.
func Minutes(d time.Duration) string {
	n := WholeMinutes(d)
	if n < 120 {
		return Count(n, "minute")
	}
	return fmt.Sprintf("%d h %02d min", n/60, n%60)
}

// Money writes cents as 1,234.05; the crew knows in which currency.
func Money(cents int) string { return fmt.Sprintf("%s.%02d", Thousands(cents/100), cents%100) }

// codeSigns are capitals and figures that nobody takes for each other: without 0 O 1 I L.
const codeSigns = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"

// Code writes the lowest part of n as so many signs, at most 12, that nobody takes for each other.
func Code(n uint64, signs int) string {
	out := make([]byte, signs)
	for i := range out {
		out[i] = codeSigns[n%uint64(len(codeSigns))]
		n /= uint64(len(codeSigns))
	}
	return string(out)
}
