package say

import (
	"testing"
	"time"
)

func TestSpan(t *testing.T) {
	for m, want := range map[float64]string{
		0: "0.00 m (0 in)", 0.25: "0.25 m (10 in)", -0.25: "-0.25 m (-10 in)", 0.3: "0.30 m (1 ft)", 0.001: "0.00 m (0 in)", 0.3048: "0.30 m (1 ft)", 18: "18.00 m (59 ft 1 in)", 1.6: "1.60 m (5 ft 3 in)", -1: "-1.00 m (-3 ft 3 in)",
	} {
		if got := Span(m); got != want {
			t.Errorf("%v m is said as %q, want %q", m, got, want)
		}
	}
}

func TestWords(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 1234567: "1,234,567", -4200: "-4,200"} {
		if got := Thousands(n); got != want {
			t.Errorf("%d is written %q, want %q", n, got, want)
		}
	}
	for words, want := range map[string]string{"": "", " é is set as E ": "É is set as E.", "Done.": "Done.", "why?": "Why?"} {
		if got := Sentence(words); got != want {
			t.Errorf("%q becomes %q, want %q", words, got, want)
		}
	}
	for d, want := range map[time.Duration]string{time.Second: "1 minute", time.Minute + 1: "2 minutes", 3 * time.Hour: "3 h 00 min"} {
		if got := Minutes(d); got != want {
			t.Errorf("%v is said as %q, want %q", d, got, want)
		}
	}
}
