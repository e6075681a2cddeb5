package sheets

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

var (
	cordInches = regexp.MustCompile(`(?m)^(?:(\d+) )?(?:(\d+)/(\d+) )?in$`)
	cordCentim = regexp.MustCompile(`(?m)^([\d.]+) cm$`)
)

// cordMarks reads a cord's marks from the text, each as millimetres by its inches and by its centimetres.
func cordMarks(t *testing.T, text string) (byInch, byCentimetre []float64) {
	t.Helper()
	for _, line := range strings.Split(text, "\n") {
		if m := cordInches.FindStringSubmatch(strings.TrimSpace(line)); m != nil {
			v := 0.0
			if m[1] != "" {
				v = number(t, m[1])
			}
			if m[2] != "" {
				v += number(t, m[2]) / number(t, m[3])
			}
			byInch = append(byInch, v*25.4) // an inch is 25.4 mm exactly (ISO 31-1, MEMORY)
		}
		if m := cordCentim.FindStringSubmatch(strings.TrimSpace(line)); m != nil {
			byCentimetre = append(byCentimetre, number(t, m[1])*10)
		}
	}
	return byInch, byCentimetre
}

// Every mark of every cord says its distance from the loop in both units, and both are so many pitches.
func TestCordMarks(t *testing.T) {
	for _, c := range []struct {
		pitch  seating.Length
		places int
	}{{20 * seating.Inch, 14}, {18*seating.Inch + seating.Inch/4, 21}, {50 * seating.Centimetre, 9}, {457 * seating.Millimetre, 30}} {
		p := sample{sections: []string{"A"}, rows: 2, seats: c.places, plain: true, title: "x"}.plan(t)
		p.Stands.Sections[0].Spec.Pitch = c.pitch
		text := judge(t, "pdftotext", "-raw", onPaper(t, "cord.pdf", p), "-")
		byInch, byCentimetre := cordMarks(t, text)
		if len(byInch) < c.places || len(byInch) != len(byCentimetre) {
			t.Fatalf("%v: %d marks in inches and %d in centimetres, want %d", c.pitch, len(byInch), len(byCentimetre), c.places)
		}
		last := 0
		for i := range byInch {
			n := int(math.Round(byCentimetre[i] / (c.pitch.Metres() * 1000)))
			want := c.pitch.Metres() * 1000 * float64(n)
			// To the next sixteenth of an inch and the next millimetre.
			if math.Abs(byInch[i]-want) > 25.4/32+1e-6 || math.Abs(byCentimetre[i]-want) > 0.5+1e-6 || n < last || n > last+1 {
				t.Errorf("%v: mark %d is %.2f mm by inches and %.1f by centimetres, want %.2f", c.pitch, n, byInch[i], byCentimetre[i], want)
			}
			last = n
		}
		if last != c.places {
			t.Errorf("%v: the last mark is %d, want %d", c.pitch, last, c.places)
		}
	}
}

// The seat between two marks is the one that the stands have there, from whichever side they are numbered.
func TestCordSeats(t *testing.T) {
	need(t, "pdftotext")
	for _, fromRight := range []bool{false, true} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 12, plain: true, fromRight: fromRight, title: "x"}.plan(t)
		page := pageWords(t, onPaper(t, "cord.pdf", p))[0]
		var marks, seats []word
		for _, w := range page.list {
			if _, err := strconv.Atoi(w.text); err != nil {
				continue
			}
			switch high := w.y1 - w.y0; {
			case math.Abs(high-9*1.362) < 0.2:
				marks = append(marks, w)
			case math.Abs(high-10*1.362) < 0.2:
				seats = append(seats, w)
			}
		}
		seats = slices.DeleteFunc(seats, func(s word) bool { // numbers of the sentences above
			return !slices.ContainsFunc(marks, func(m word) bool { return math.Abs(m.y0-s.y0) < 10 })
		})
		inOrder := func(a, b word) int {
			return cmp.Or(cmp.Compare(math.Round(a.y0/40), math.Round(b.y0/40)), cmp.Compare(a.x0, b.x0))
		}
		slices.SortFunc(seats, inOrder)
		slices.SortFunc(marks, inOrder)
		if len(seats) != 12 {
			t.Fatalf("%d seats", len(seats))
		}
		for i, s := range seats {
			place := i
			if fromRight {
				place = 11 - i
			}
			seat := p.Stands.Seats[p.Stands.Sections[0].Rows[0].First+place]
			if s.text != strconv.Itoa(int(seat.Number)) {
				t.Errorf("from the right %v: seat %d of the cord is %s, and the stands have %d there", fromRight, i, s.text, seat.Number)
			}
			before, after := "", ""
			for _, m := range marks {
				if math.Abs(m.y0-s.y0) > 15 {
					continue
				}
				if m.x1 < s.x1 {
					before = m.text
				} else if after == "" {
					after = m.text
				}
			}
			if before != strconv.Itoa(i) || after != strconv.Itoa(i+1) {
				t.Errorf("seat %s lies between marks %q and %q", s.text, before, after)
			}
		}
		end := map[bool]string{false: "LEFT", true: "RIGHT"}[fromRight]
		if text := saidOn(t, "cord.pdf", p); !strings.Contains(text, "Loop at the "+end+" end") {
			t.Errorf("the loop is not at the %s end", end)
		}
	}
}

// Chairs and the floor need no cord.
func TestCordForBenchesAlone(t *testing.T) {
	for kind, want := range map[seating.Kind]bool{seating.Bench: true, seating.Chairs: false, seating.Floor: false} {
		p := sample{sections: []string{"A"}, rows: 2, seats: 6, plain: true}.plan(t)
		p.Stands.Sections[0].Spec.Kind = kind
		if got := NeedsCord(p); got != want {
			t.Errorf("kind %v: %v", kind, got)
		}
	}
	if NeedsCord(&mosaic.Plan{Stands: &seating.Stands{}}) {
		t.Error("no seat needs a cord")
	}
}
