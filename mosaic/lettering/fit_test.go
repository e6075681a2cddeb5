package lettering_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/lettering"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

func fairStands(tb testing.TB) *place {
	return look(tb, "three sections", bleachers(3, 12, 13, aisle, rise, run, pitch), mark(0, 20, 3))
}

func fit(tb testing.TB, p *place, text string) *lettering.Layout {
	tb.Helper()
	l, err := lettering.Fit([]*lettering.Field{p.field}, text, options())
	if err != nil {
		tb.Fatalf("%q: %v", text, err)
	}
	return l
}

// chart is the layout seat by seat, back row first: # ink, · ground, | aisle.
func (p *place) chart(ink []bool) string {
	rows := map[int32]*strings.Builder{}
	last := map[int32]int32{}
	top := int32(0)
	for i, s := range p.field.Seats {
		if rows[s.Row] == nil {
			rows[s.Row] = &strings.Builder{}
		} else if last[s.Row] != s.Section {
			rows[s.Row].WriteString(" | ")
		}
		last[s.Row] = s.Section
		if ink[i] {
			rows[s.Row].WriteString("#")
		} else {
			rows[s.Row].WriteString("·")
		}
		top = max(top, s.Row)
	}
	var b strings.Builder
	for r := top; r >= 0; r-- {
		fmt.Fprintln(&b, rows[r])
	}
	return b.String()
}

// TestCharts keeps layouts as pictures of characters, for an eye to judge. They change
// whenever the search or the learned reader does: look at the difference, then -update.
func TestCharts(t *testing.T) {
	p := fairStands(t)
	texts := []string{"HAVEN", "GULL", "5D", "2026", "FOG!", "TEA & PIE"}
	var want []string
	for _, text := range texts {
		l := fit(t, p, text)
		got := fmt.Sprintf("%s, %s\n\n%s", text, l.Face, p.chart(l.Ink))
		file := filepath.Join("testdata", strings.Map(func(r rune) rune {
			if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
				return r
			}
			return '_'
		}, text)+".txt")
		want = append(want, file)
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		golden, err := os.ReadFile(file)
		if err != nil {
			t.Errorf("%v: run with -update and look at it; now:\n%s", err, got)
			continue
		}
		if diff := cmp.Diff(string(golden), got); diff != "" {
			t.Errorf("%s changed:\n%s", text, diff)
		}
	}
	files, _ := filepath.Glob("testdata/*.txt")
	for _, f := range files {
		if !slices.Contains(want, f) {
			t.Errorf("%s belongs to no test", f)
		}
	}
}

func TestMisfits(t *testing.T) {
	p := fairStands(t)
	low := look(t, "four rows", bleachers(2, 4, 20, aisle, rise, run, pitch), mark(0, 20, 3))
	tests := []struct {
		place      *place
		text       string
		what, hint string
	}{
		{p, "", "empty", "write"},
		{p, " \n ", "empty", "write"},
		{p, "GO\n\nUP", "line 2", "take"},
		{p, "LANTERNFAIROFGULLHAVEN", "22 letters do not fit", "two cues"},
		{p, "שלום", "right to left", "image"},
		{p, "праздник", "not a Latin letter", "image"},
		{p, "A%B", "no face has", "image"},
		{p, "A€", "no face has", "image"},
		{low, "GO", "at least 5 rows", "rows"},
		{p, "A\nB\nC\nD\nE", "5 lines do not fit", "fewer lines"},
		{p, strings.Repeat("A\n", 13) + "B", "lines", "cues"},
		{p, strings.Repeat("A", 500), "letters", "cues"},
	}
	for _, tt := range tests {
		l, err := lettering.Fit([]*lettering.Field{tt.place.field}, tt.text, options())
		var m *lettering.Misfit
		if !errors.As(err, &m) {
			t.Errorf("%q: got %v, %v, want a misfit", tt.text, l, err)
			continue
		}
		if !strings.Contains(m.What, tt.what) || !strings.Contains(m.Hint, tt.hint) {
			t.Errorf("%q: got %q, hint %q; want %q, hint %q", tt.text, m.What, m.Hint, tt.what, tt.hint)
		}
		if strings.Contains(m.What+m.Hint, "\n") {
			t.Errorf("%q: more than one line", tt.text)
		}
	}
	if _, err := lettering.Fit(nil, "GO", options()); err == nil {
		t.Error("no views: want a misfit")
	}
	if _, err := lettering.Fit([]*lettering.Field{{}}, "GO", options()); err == nil {
		t.Error("no seats: want a misfit")
	}
}

// TestSame: the same input gives the same layout, and small letters that of capitals.
func TestSame(t *testing.T) {
	p := fairStands(t)
	a, b, c := fit(t, p, "HAVEN"), fit(t, p, "HAVEN"), fit(t, p, "haven")
	if diff := cmp.Diff(a, b); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(a, c); diff != "" {
		t.Error(diff)
	}
}

// TestNotMirrored: the stem of an L stands at the left of the picture and its foot at the bottom.
func TestNotMirrored(t *testing.T) {
	p := fairStands(t)
	l := fit(t, p, "L")
	box := l.Letters[0].Box
	third, foot := box[0]+(box[2]-box[0])/3, box[3]-(box[3]-box[1])/3
	var stem, corner, wrong int
	for i, s := range p.field.Seats {
		switch c := s.Centre; {
		case !l.Ink[i]:
		case c[0] < third:
			stem++
		case c[1] > foot:
			corner++
		case c[0] > box[2]-(box[2]-box[0])/3:
			wrong++
		}
	}
	if stem < 8 || corner < 2 || wrong > 0 {
		t.Errorf("L has %d seats at its left, %d at its foot, %d at its upper right", stem, corner, wrong)
	}
}

// TestAisles: no letter crosses an aisle, letters keep apart, and the line is centred or says why not.
func TestAisles(t *testing.T) {
	p := fairStands(t)
	for _, text := range []string{"GO", "SEA", "TIDE", "HAVEN", "HARBOR", "B4Z1GS", "LAMP 7"} {
		l := fit(t, p, text)
		for k, b := range l.Letters {
			if k > 0 && b.Box[0] <= l.Letters[k-1].Box[2] {
				t.Errorf("%s: letters %d and %d overlap", text, k, k+1)
			}
			sections := map[int32]bool{}
			for i, s := range p.field.Seats {
				if c := s.Centre; l.Ink[i] && c[0] > b.Box[0] && c[0] < b.Box[2] {
					sections[s.Section] = true
				}
			}
			if len(sections) != 1 {
				t.Errorf("%s: letter %d has ink in %d sections", text, k+1, len(sections))
			}
			if b.Seats < 2.5 && !strings.ContainsRune("I1!.:'", b.Rune) {
				t.Errorf("%s: %c is %.1f seats wide", text, b.Rune, b.Seats)
			}
		}
		off := (l.Letters[0].Box[0]+l.Letters[len(l.Letters)-1].Box[2])/2 - p.field.Width/2
		seat := p.field.Seats[0].Cell[1][0] - p.field.Seats[0].Cell[0][0]
		if len(l.Notes) == 0 && (off > 1.5*seat || off < -1.5*seat) {
			t.Errorf("%s: %.1f seats off centre without a note", text, off/seat)
		}
	}
}

func TestAccents(t *testing.T) {
	p := look(t, "many rows", bleachers(2, 16, 20, aisle, rise, run, pitch), mark(0, 20, 3))
	l := fit(t, p, "FÊTE")
	if len(l.Dropped) != 0 || l.Letters[1].Rune != 'Ê' {
		t.Errorf("16 rows: dropped %q, letter %c", l.Dropped, l.Letters[1].Rune)
	}
	above := 0
	for i, s := range p.field.Seats {
		b := l.Letters[1].Box
		if l.Ink[i] && s.Centre[0] > b[0] && s.Centre[0] < b[2] && s.Centre[1] < b[1] {
			above++
		}
	}
	if above == 0 {
		t.Error("16 rows: no seat shows the accent")
	}
	low := look(t, "few rows", bleachers(2, 8, 20, aisle, rise, run, pitch), mark(0, 20, 3))
	l = fit(t, low, "FÊTE")
	if len(l.Dropped) != 1 || !strings.Contains(l.Dropped[0], "Ê is set as E") || l.Letters[1].Rune != 'E' {
		t.Errorf("8 rows: dropped %q, letter %c", l.Dropped, l.Letters[1].Rune)
	}
}

// TestLines: two lines stand one above the other, each in its own rows.
func TestLines(t *testing.T) {
	p := look(t, "many rows", bleachers(2, 24, 20, aisle, rise, run, pitch), mark(0, 24, 4))
	l := fit(t, p, "LAMP\nFAIR")
	if len(l.Letters) != 8 || l.Letters[0].Line != 0 || l.Letters[4].Line != 1 {
		t.Fatalf("letters %v", l.Letters)
	}
	if l.Letters[0].Box[3] >= l.Letters[4].Box[1] {
		t.Error("the lines overlap")
	}
}

// TestFewerRows: where the rows share too few seats across, fewer than the 20 rows carry the text; and what a
// refusal proposes does fit.
func TestFewerRows(t *testing.T) {
	p := look(t, "three sections, 20 rows", bleachers(3, 20, 15, aisle, rise, run, pitch), mark(0, 20, 3))
	l := fit(t, p, "LANTERNS")
	if len(l.Letters) != 8 || l.Letters[0].Rows >= 16 {
		t.Errorf("%d letters of %d rows", len(l.Letters), l.Letters[0].Rows)
	}
	for _, b := range l.Letters {
		if b.Seats < 2 {
			t.Errorf("%c is %.1f seats wide", b.Rune, b.Seats)
		}
	}
	for _, stands := range []*place{p, fairStands(t)} {
		_, err := lettering.Fit([]*lettering.Field{stands.field}, "HHHHHHHHHHHHHHH", options())
		var m *lettering.Misfit
		if !errors.As(err, &m) {
			t.Fatalf("15 letters: %v", err)
		}
		var most int
		if _, err := fmt.Sscanf(m.Hint[strings.Index(m.Hint, "at most"):], "at most %d letters", &most); err != nil {
			t.Fatalf("%q: %v", m.Hint, err)
		}
		fit(t, stands, strings.Repeat("H", most))
		if _, err := lettering.Fit([]*lettering.Field{stands.field}, strings.Repeat("H", most+1), options()); err == nil {
			t.Errorf("%q, but %d letters fit", m.Hint, most+1)
		}
	}
}
