package mosaic

import (
	"fmt"
	"math"
	"strings"
	"time"

	"everyseat/seating"
)

// span says metres in both ways, since a crew reads metres or feet: 18.00 m (59 ft 1 in).
func span(m float64) string { return seating.Length(math.Round(m * float64(seating.Metre))).Spoken() }

var smallNumbers = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// number says a count within a sentence: small ones in words.
func number(n int) string {
	if n >= 0 && n < len(smallNumbers) {
		return smallNumbers[n]
	}
	return thousands(n)
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return thousands(n) + " " + what + "s"
}

func headcount(n int) string {
	if n == 1 {
		return "1 person"
	}
	return thousands(n) + " people"
}

func quoted(name string) string { return "“" + name + "”" }

// mostNamed is how many names a sentence lists; of more it counts the rest.
const mostNamed = 8

// firstFew lists names, and counts those that a sentence has no room for.
func firstFew(names []string) string {
	if len(names) <= mostNamed {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:mostNamed-1], ", "), len(names)-mostNamed+1)
}

// thousands writes 12345 as 12,345.
func thousands(n int) string {
	s := fmt.Sprint(n)
	if n < 0 {
		return "-" + thousands(-n)
	}
	var b strings.Builder
	for i, r := range s {
		if i > 0 && (len(s)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(r)
	}
	return b.String()
}

func capital(words string) string {
	runes := []rune(words)
	if len(runes) == 0 {
		return ""
	}
	return strings.ToUpper(string(runes[:1])) + string(runes[1:])
}

// sentence makes a sentence of words: a capital first and a full stop last.
func sentence(words string) string {
	out := capital(strings.TrimSpace(words))
	if out != "" && !strings.ContainsAny(out[len(out)-1:], ".!?") {
		out += "."
	}
	return out
}

func seconds(d time.Duration) string { return fmt.Sprintf("%g s", d.Seconds()) }

// minutes rounds up: nobody plans with the last seconds.
func minutes(d time.Duration) string {
	n := int((d + time.Minute - 1) / time.Minute)
	if n < 120 {
		return plural(n, "minute")
	}
	return fmt.Sprintf("%d h %02d min", n/60, n%60)
}

// listed is "NAVY", "NAVY and RED", "NAVY, CREAM and RED".
func listed(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}
