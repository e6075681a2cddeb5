package seating

import (
	"strings"
	"testing"
)

func TestFaultWhere(t *testing.T) {
	for _, c := range []struct {
		f    Fault
		want string
	}{
		{Fault{What: "no"}, "no"},
		{Fault{Key: "section[1].rise", What: "no", Hint: "do"}, "section[1].rise: no (hint: do)"},
		{Fault{File: "stunt.toml", Key: "section[1].rise", What: "no"}, "stunt.toml: no"},
		{Fault{File: "stunt.toml", Line: 3, What: "no"}, "stunt.toml:3: no"},
		{Fault{File: "stunt.toml", Line: 3, Column: 9, What: "no"}, "stunt.toml:3:9: no"},
	} {
		if got := c.f.Error(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestUseWords(t *testing.T) {
	for u, want := range []string{"card", "reserved", "person", "dropped"} {
		if got := Use(u).String(); got != want {
			t.Errorf("use %d is %q, want %q", u, got, want)
		}
	}
}

// The worked example of R. Wagner and M. Fischer's distance (kitten, sitting), and the pair that tells optimal string
// alignment from the unrestricted distance: CA to ABC takes 3, not 2 (L. Boytsov, Indexing methods for approximate
// dictionary searching, ACM JEA 16, 2011).
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"CA", "ABC", 3}, {"aisle", "asile", 1}, {"", "row", 3}, {"é", "e", 1}, {"row", "row", 0}} {
		if got, back := Slips(c.a, c.b), Slips(c.b, c.a); got != c.want || back != c.want {
			t.Errorf("%q and %q: %d and %d slips, want %d", c.a, c.b, got, back, c.want)
		}
	}
}

func TestNearest(t *testing.T) {
	known := []string{"rise", "run", "seat_board", "aisle", "A", "B"}
	for _, c := range []struct{ word, want string }{
		{"risse", "rise"}, {"asile", "aisle"}, {"Seat Bord", "seat_board"}, {"C", "A"},
		{"elevation", ""}, {"raise up", ""}, {"ruin it", ""}, {"", ""}, {strings.Repeat("rise", 17), ""},
	} {
		if got := Nearest(c.word, known); got != c.want {
			t.Errorf("%q: %q, want %q", c.word, got, c.want)
		}
	}
}
