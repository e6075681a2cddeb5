package seating

import "testing"

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
