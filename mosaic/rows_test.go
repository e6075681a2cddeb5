package mosaic

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// carried lists the rows whose seats may show cue 0, as "A1-12 B3-12": counted from the front, and
// every seat of such a row, or none.
func carried(t *testing.T, s *Stunt) string {
	t.Helper()
	p := mustMake(t, s)
	carry, err := newMaker(p).carriers(0)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, sec := range p.Stands.Sections {
		var rows []int
		for k, r := range sec.Rows {
			of := carry[r.First:r.Last]
			if slices.Contains(of, true) {
				rows = append(rows, k+1)
				if slices.Contains(of, false) {
					t.Errorf("a part of row %s of section %s", r.Name, sec.Name)
				}
			}
		}
		if len(rows) > 0 {
			out = append(out, fmt.Sprintf("%s%d-%d", sec.Name, rows[0], rows[len(rows)-1]))
		}
	}
	return strings.Join(out, " ")
}

func rowRange(section, from, to string) seating.RowRange {
	return seating.RowRange{Section: section, From: from, To: to}
}

// What is asked for in words is what is carried: rows without a section hold in every section of the cue, a
// section that is named has its own alone.
func TestRowsOfACue(t *testing.T) {
	for _, c := range []struct {
		name string
		on   []string
		rows []seating.RowRange
		want string
	}{
		{"all", nil, nil, "A1-12 B1-12 C1-8"},
		{"from the third up", nil, []seating.RowRange{rowRange("", "3", "")}, "A3-12 B3-12 C3-8"},
		{"the lower eight", nil, []seating.RowRange{rowRange("", "", "8")}, "A1-8 B1-8 C1-8"},
		{"between", nil, []seating.RowRange{rowRange("", "2", "7")}, "A2-7 B2-7 C2-7"},
		{"one section has its own", nil, []seating.RowRange{rowRange("b", "5", "")}, "A1-12 B5-12 C1-8"},
		{"one its own, the others theirs", nil, []seating.RowRange{rowRange("", "", "7"), rowRange("B", "5", "")}, "A1-7 B5-12 C1-7"},
		{"two ranges are both", nil, []seating.RowRange{rowRange("", "1", "4"), rowRange("", "5", "7")}, "A1-7 B1-7 C1-7"},
		{"in the sections of on", []string{"B"}, []seating.RowRange{rowRange("", "4", "11")}, "B4-11"},
		{"the floor, where it is named", []string{"B", "F"}, []seating.RowRange{rowRange("B", "4", "11")}, "B4-11 F1-6"},
	} {
		s := gullhaven()
		s.Stands.Sections[2].Rows = 8
		s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
			Name: "F", Kind: seating.Floor, Rows: 6, Seats: []int{20}, Pitch: 24 * seating.Inch, Run: 36 * seating.Inch,
			Place: &seating.Place{Away: -8 * seating.Metre},
		})
		s.Cues = []Cue{{Text: "A", On: c.on, Rows: c.rows}}
		if got := carried(t, s); got != c.want {
			t.Errorf("%s: carried by %s, want %s", c.name, got, c.want)
		}
	}
}

// Rows counted from the back are named front first all the same; capitals do not matter.
func TestRowsNamedFromTheBack(t *testing.T) {
	s := gullhaven()
	for k := range s.Stands.Sections {
		s.Stands.Sections[k].RowNames = seating.RowNaming{Letters: true, FromBack: true}
	}
	// Twelve rows, A at the back: M is the front one, since I and O are left out.
	s.Cues = []Cue{{Text: "A", Rows: []seating.RowRange{rowRange("", "k", "c")}}}
	if got, want := carried(t, s), "A3-10 B3-10 C3-10"; got != want {
		t.Errorf("carried by %s, want %s", got, want)
	}
	s.Cues[0].Rows[0] = rowRange("", "c", "k")
	var f *seating.Fault
	if _, err := Make(s); !errors.As(err, &f) || f.Key != "cue[0].rows[0]" || !strings.Contains(f.What, "row c lies behind row k") || !strings.Contains(f.Hint, `"k..c"`) {
		t.Errorf("reversed: %v", err)
	}
}

// Seats outside the rows show the ground, and an image is fitted to the rows inside.
func TestRowsOutsideShowGround(t *testing.T) {
	white, gold := colour.RGB{0xff, 0xff, 0xff}, colour.RGB{0xf2, 0xb7, 0x05}
	s := gullhaven()
	s.Cues = []Cue{{ImageName: "halves.png", Image: halves(white, gold), Fit: "fill", Rows: []seating.RowRange{rowRange("", "4", "9")}}, {Text: "A", Rows: []seating.RowRange{rowRange("", "4", "")}}}
	p := mustMake(t, s)
	checkLedger(t, p)
	for at := range p.Stands.Seats {
		row := p.Stands.Seats[at].Row + 1
		if inside := row >= 4 && row <= 9; inside == (shows(p, 0, at) == "navy") {
			t.Fatalf("%s shows %s", p.Stands.ID(at), shows(p, 0, at))
		}
		if row < 4 && shows(p, 1, at) != "navy" {
			t.Fatalf("%s is below the text and shows %s", p.Stands.ID(at), shows(p, 1, at))
		}
	}
	for _, at := range p.Cues[1].Field {
		if p.Stands.Seats[at].Row < 3 {
			t.Fatalf("%s is a seat of the text", p.Stands.ID(int(at)))
		}
	}
}

// Whether a section is seen well enough is asked of the rows that the cue is laid on.
func TestRowsThatAreSeenCount(t *testing.T) {
	s := gullhaven()
	s.Room.Obstacles = []camera.Obstacle{{
		Name: "board", Kind: "box", Across: 8 * seating.Metre, Away: -seating.Metre,
		Width: 8 * seating.Metre, Depth: seating.Metre / 10, Height: 37 * seating.Metre / 10,
	}}
	s.Cues = []Cue{{Text: "A", Rows: []seating.RowRange{rowRange("", "", "6")}}}
	if got := carried(t, s); got != "A1-6 B1-6" {
		t.Errorf("with the front rows of C behind a board it is carried by %s", got)
	}
	s.Cues[0].Rows[0] = rowRange("", "8", "")
	if got := carried(t, s); got != "A8-12 B8-12 C8-12" {
		t.Errorf("above the board it is carried by %s", got)
	}
}

func TestRowsRefused(t *testing.T) {
	for _, c := range []struct {
		name      string
		rows      []seating.RowRange
		spoil     func(*Stunt)
		key, what string
		hint      string
	}{
		{"no such row", []seating.RowRange{rowRange("", "3", "13")}, nil, "cue[0].rows[0]", `section A has no row "13"`, `the nearest is row 12; "3.." is all rows from 3`},
		{"no such row in one section", []seating.RowRange{rowRange("", "", "3"), rowRange("", "3", "10")}, func(s *Stunt) { s.Stands.Sections[2].Rows = 8 }, "cue[0].rows[1]", `section C has no row "10"`, "rows 1 to 8, front to back"},
		{"reversed", []seating.RowRange{rowRange("B", "9", "3")}, nil, "cue[0].rows[0]", "in section B row 9 lies behind row 3", `"3..9"`},
		{"no such section", []seating.RowRange{rowRange("D", "1", "3")}, nil, "cue[0].rows[0]", `there is no section "D"`, "the nearest is A"},
		{"a hyphen for two dots", []seating.RowRange{rowRange("3", "10", "10")}, nil, "cue[0].rows[0]", `there is no section "3"`, `"3..10"`},
		{"not on this section", []seating.RowRange{rowRange("C", "1", "3")}, func(s *Stunt) { s.Cues[0].On = []string{"A"} }, "cue[0].rows[0]", "section C does not show this cue", `on = ["C"]`},
		{"a floor block not named", []seating.RowRange{rowRange("F", "1", "3")}, func(s *Stunt) { *s = *crowded(); s.Cues = s.Cues[:1] }, "cue[0].rows[0]", "section F does not show this cue", `on = ["F"]`},
		{"a row of nobody", []seating.RowRange{rowRange("B", "1", "1")}, func(s *Stunt) {
			s.Stands.Sections[1].Reserved = []seating.Reserved{{For: "nobody", Seats: []seating.SeatRange{{Row: "1", From: 1, To: 12}}}}
		}, "cue[0].rows[0]", "nobody in these rows of section B holds a card", ""},
		{"a row of nobody at all", []seating.RowRange{rowRange("", "1", "1")}, func(s *Stunt) {
			for k := range s.Stands.Sections {
				s.Stands.Sections[k].Reserved = []seating.Reserved{{For: "nobody", Seats: []seating.SeatRange{{Row: "1", From: 1, To: 12}}}}
			}
		}, "cue[0].rows", "nobody in these rows holds a card", ""},
	} {
		s := gullhaven()
		if c.spoil != nil {
			c.spoil(s)
		}
		s.Cues[0].Rows = c.rows
		_, err := Make(s)
		var f *seating.Fault
		if !errors.As(err, &f) || f.Key != c.key || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) || strings.Contains(f.Error(), "\n") {
			t.Errorf("%s: %v (key %q)", c.name, err, f.Key)
		}
	}
}
