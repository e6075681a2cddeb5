package seating

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// must builds stands that are known to be right.
func must(t testing.TB, spec Spec) *Stands {
	t.Helper()
	s, err := Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// checkSpots holds seats against coordinates, in feet, to a nanometre.
func checkSpots(s *Stands, want map[string]Point) error {
	const foot = 0.3048
	for id, feet := range want {
		i, err := s.Find(id)
		if err != nil {
			return err
		}
		for axis, got := range s.Seats[i].Position {
			if math.Abs(got-feet[axis]*foot) > 1e-9 {
				return fmt.Errorf("seat %s lies at %v m, want %v ft on axis %d", id, s.Seats[i].Position, feet[axis], axis)
			}
		}
	}
	return nil
}

// checkTurn holds seats against the ways they face, in degrees.
func checkTurn(s *Stands, want map[string]float64) error {
	for id, degrees := range want {
		i, err := s.Find(id)
		if err != nil {
			return err
		}
		if got := s.Seats[i].Facing * 180 / math.Pi; math.Abs(got-degrees) > 1e-9 {
			return fmt.Errorf("seat %s faces %v degrees, want %v", id, got, degrees)
		}
	}
	return nil
}

// A quarter turn in whole feet, worked by hand: three seats of 2 ft, two rows of
// 1 ft rise and 3 ft run. Section A stands beside nothing; R is placed 20 ft to the
// right and 10 ft back and faces 90 degrees, which is the camera's right, so that its
// rows go back to the left and its left seat, for somebody facing it, is nearest the camera.
var quarterTurn = Spec{Sections: []SectionSpec{
	{Name: "A", Rows: 2, Seats: []int{3}, Pitch: 2 * Foot, Rise: Foot, Run: 3 * Foot, FirstRow: Foot / 2},
	{Name: "R", Rows: 2, Seats: []int{3}, Pitch: 2 * Foot, Rise: Foot, Run: 3 * Foot, Place: &Place{Across: 20 * Foot, Away: 10 * Foot, Facing: 90}},
	{Name: "L", Rows: 2, Seats: []int{3}, Pitch: 2 * Foot, Rise: Foot, Run: 3 * Foot, Place: &Place{Across: -20 * Foot, Away: 10 * Foot, Facing: -90}},
	{Name: "O", Rows: 1, Seats: []int{3}, Pitch: 2 * Foot, Rise: Foot, Run: 3 * Foot, Place: &Place{Away: -30 * Foot, Facing: 180}},
}}

var quarterSpots = map[string]Point{
	"A-1-1": {-2, 1.5, 0.5}, "A-1-2": {0, 1.5, 0.5}, "A-1-3": {2, 1.5, 0.5}, "A-2-1": {-2, 4.5, 1.5},
	"R-1-1": {18.5, 8, 0}, "R-1-2": {18.5, 10, 0}, "R-1-3": {18.5, 12, 0}, "R-2-1": {15.5, 8, 1},
	"L-1-1": {-18.5, 12, 0}, "L-1-2": {-18.5, 10, 0}, "L-1-3": {-18.5, 8, 0}, "L-2-3": {-15.5, 8, 1},
	"O-1-1": {2, -31.5, 0}, "O-1-2": {0, -31.5, 0}, "O-1-3": {-2, -31.5, 0},
}

var quarterTurns = map[string]float64{"A-1-1": 0, "R-2-3": 90, "L-1-1": -90, "O-1-3": 180}

func TestQuarterTurn(t *testing.T) {
	s := must(t, quarterTurn)
	if err := errors.Join(checkSpots(s, quarterSpots), checkTurn(s, quarterTurns)); err != nil {
		t.Error(err)
	}
	if h := s.Sections[0].Rows[1].Height; h != 18*Inch {
		t.Errorf("the second row is %v up, want 18in", h)
	}
}

// The same check must see a section that is mirrored, and a seat that is 1 mm off.
func TestQuarterTurnMutants(t *testing.T) {
	mirrored := must(t, quarterTurn)
	for i := mirrored.Sections[1].First; i < mirrored.Sections[1].Last; i++ {
		p := &mirrored.Seats[i].Position
		p[1] = 2*mirrored.Sections[1].Origin[1] - p[1]
	}
	if checkSpots(mirrored, quarterSpots) == nil {
		t.Error("a mirrored section passes")
	}
	swapped := quarterTurn
	swapped.Sections = append([]SectionSpec(nil), quarterTurn.Sections...)
	swapped.Sections[1].SeatNumbers.From = Right
	if checkSpots(must(t, swapped), quarterSpots) == nil {
		t.Error("seats numbered from the other side pass")
	}
	for axis := range 3 {
		moved := must(t, quarterTurn)
		i, _ := moved.Find("R-1-2")
		moved.Seats[i].Position[axis] += 0.001
		if checkSpots(moved, quarterSpots) == nil {
			t.Errorf("a seat 1 mm off on axis %d passes", axis)
		}
	}
	turned := must(t, quarterTurn)
	turned.Seats[turned.Sections[1].Last-1].Facing *= -1
	if checkTurn(turned, quarterTurns) == nil {
		t.Error("a seat that faces the other way passes")
	}
}

// Side by side, worked by hand: A is 6 ft wide, then 4 ft of aisle, B is 10 ft, 2 ft of
// aisle, C is 4 ft: 26 ft in all, so A spans −13…−7, B −3…7, C 9…13. The floor block is
// two rows of 3 ft, and 4 ft before the stands.
func TestSideBySide(t *testing.T) {
	base := SectionSpec{Rows: 2, Seats: []int{3}, Pitch: 2 * Foot, Rise: Foot, Run: 2 * Foot}
	sec := func(name string, seats []int, aisle Length) SectionSpec {
		s := base
		s.Name, s.Seats, s.Aisle = name, seats, aisle
		return s
	}
	floor := SectionSpec{Name: "F", Kind: Floor, Rows: 2, Seats: []int{2}, Pitch: 2 * Foot, Run: 3 * Foot}
	placed := sec("P", []int{1}, 0)
	placed.Place = &Place{Across: 50 * Foot}
	spec := Spec{Sections: []SectionSpec{sec("A", []int{3}, 4*Foot), floor, sec("B", []int{5, 3}, 2*Foot), placed, sec("C", []int{2}, 9*Foot)}}
	want := map[string]Point{
		"A-1-1": {-12, 1, 0}, "A-1-3": {-8, 1, 0}, "B-1-1": {-2, 1, 0}, "B-1-5": {6, 1, 0}, "B-2-1": {0, 3, 1}, "B-2-3": {4, 3, 1},
		"C-1-1": {10, 1, 0}, "C-1-2": {12, 1, 0}, "F-1-1": {-1, -8.5, 0}, "F-2-2": {1, -5.5, 0}, "P-1-1": {50, 1, 0},
	}
	if err := checkSpots(must(t, spec), want); err != nil {
		t.Error(err)
	}
	// Origin on B: its front row's middle was at 2 ft, so its neighbours and the floor
	// block go 2 ft to the left; the placed section was measured from B and stays.
	spec.Origin = "b"
	want = map[string]Point{"A-1-1": {-14, 1, 0}, "B-1-3": {0, 1, 0}, "C-1-2": {10, 1, 0}, "F-1-1": {-3, -8.5, 0}, "P-1-1": {50, 1, 0}}
	if err := checkSpots(must(t, spec), want); err != nil {
		t.Error(err)
	}
	// Origin on the placed section moves everything.
	spec.Origin = "P"
	want = map[string]Point{"A-1-1": {-62, 1, 0}, "F-1-1": {-51, -8.5, 0}, "P-1-1": {0, 1, 0}}
	if err := checkSpots(must(t, spec), want); err != nil {
		t.Error(err)
	}
}

// Rows of 4 and 2 seats of 2 ft; the origin is the middle of the 4 ft front row.
func TestAlign(t *testing.T) {
	for align, want := range map[Align]map[string]Point{
		AlignCentre: {"A-1-1": {-1, 1, 0}, "A-2-1": {-3, 3, 0}},
		AlignLeft:   {"A-1-1": {-1, 1, 0}, "A-2-1": {-1, 3, 0}, "A-2-4": {5, 3, 0}},
		AlignRight:  {"A-1-2": {1, 1, 0}, "A-2-1": {-5, 3, 0}, "A-2-4": {1, 3, 0}},
	} {
		s := must(t, Spec{Sections: []SectionSpec{{Name: "A", Rows: 2, Seats: []int{2, 4}, Align: align, Pitch: 2 * Foot, Rise: 1, Run: 2 * Foot, Place: &Place{}}}})
		for i := range s.Seats {
			s.Seats[i].Position[2] = 0 // a rise of 0 stands for the usual one
		}
		if err := checkSpots(s, want); err != nil {
			t.Errorf("align %d: %v", align, err)
		}
	}
}

// A bench of 100 in holds five of 18 in, with 5 in left at either end: the first
// seat's middle is 5 + 9 = 14 in from its left end, 36 in left of the middle.
func TestBench(t *testing.T) {
	s := must(t, Spec{Sections: []SectionSpec{{Name: "A", Rows: 1, Bench: []Length{100 * Inch}, Pitch: 18 * Inch, Run: 2 * Foot}}})
	if err := checkSpots(s, map[string]Point{"A-1-1": {-3, 1, 0}, "A-1-5": {3, 1, 0}}); err != nil {
		t.Error(err)
	}
	if len(s.Seats) != 5 {
		t.Errorf("%d seats, want 5", len(s.Seats))
	}
}

// A cross-aisle is level: it puts the next row back and not up.
func TestCrossAisle(t *testing.T) {
	s := must(t, Spec{Sections: []SectionSpec{{
		Name: "A", Rows: 3, Seats: []int{1}, Pitch: 2 * Foot, Rise: Foot, Run: 2 * Foot, RowNames: RowNaming{Letters: true},
		CrossAisles: []CrossAisle{{After: "B", Depth: 4 * Foot}},
	}}})
	if err := checkSpots(s, map[string]Point{"A-A-1": {0, 1, 0}, "A-B-1": {0, 3, 1}, "A-C-1": {0, 9, 2}}); err != nil {
		t.Error(err)
	}
}

// checkArc holds each row of a curve against its centre: all seats at one
// distance, neighbours one pitch of arc apart, everybody facing the centre or away from it.
func checkArc(s *Stands, section int) error {
	sec := &s.Sections[section]
	r := sec.Spec.Radius.Metres()
	sin, cos := math.Sincos(sec.Facing)
	centre := Point{sec.Origin[0] + r*sin, sec.Origin[1] - r*cos}
	for _, row := range sec.Rows {
		want := math.Abs(r + row.Front.Metres() + sec.Spec.Run.Metres()/2)
		last := math.NaN()
		for _, seat := range s.Seats[row.First:row.Last] {
			dx, dy := seat.Position[0]-centre[0], seat.Position[1]-centre[1]
			if d := math.Hypot(dx, dy); math.Abs(d-want) > 1e-9 {
				return fmt.Errorf("row %s: a seat lies %v m from the centre, want %v", row.Name, d, want)
			}
			look := math.Atan2(dx, -dy) // from the centre outward, as a facing
			if r > 0 {
				look += math.Pi
			}
			if off := math.Remainder(seat.Facing-look, 2*math.Pi); math.Abs(off) > 1e-9 {
				return fmt.Errorf("row %s: a seat faces %v off the centre's line", row.Name, off)
			}
			at := math.Atan2(dx, dy)
			if arc := math.Abs(math.Remainder(at-last, 2*math.Pi)) * want; math.Abs(arc-sec.Spec.Pitch.Metres()) > 1e-9 {
				return fmt.Errorf("row %s: neighbours are %v m of arc apart, want %v", row.Name, arc, sec.Spec.Pitch)
			}
			last = at
		}
	}
	return nil
}

func TestCurve(t *testing.T) {
	for _, radius := range []Length{30 * Foot, -60 * Foot} {
		for _, place := range []*Place{nil, {Across: 5 * Foot, Away: 7 * Foot, Facing: 33}} {
			for align := AlignCentre; align <= AlignRight; align++ {
				spec := Spec{Sections: []SectionSpec{{Name: "A", Rows: 6, Seats: []int{20, 21, 22, 23, 24, 25}, Radius: radius, Place: place, Align: align}}}
				s := must(t, spec)
				if err := checkArc(s, 0); err != nil {
					t.Errorf("radius %v align %d: %v", radius, align, err)
				}
				s.Seats[7].Position[0] += 0.001
				if checkArc(s, 0) == nil {
					t.Error("a seat 1 mm off passes")
				}
				mirrored := must(t, spec)
				for i := range mirrored.Seats {
					mirrored.Seats[i].Facing *= -1
					mirrored.Seats[i].Position[1] *= -1
				}
				if checkArc(mirrored, 0) == nil {
					t.Error("a mirrored curve passes")
				}
			}
		}
	}
}

// With its centre on the camera's side a curve bends toward the camera at both
// ends; rows lie on arcs, so the middle of the front row is the nearest to y = 0 from behind.
func TestCurveSide(t *testing.T) {
	near := must(t, Spec{Sections: []SectionSpec{{Name: "A", Rows: 1, Seats: []int{21}, Radius: 20 * Foot}}})
	far := must(t, Spec{Sections: []SectionSpec{{Name: "A", Rows: 1, Seats: []int{21}, Radius: -20 * Foot}}})
	middle, _ := near.Find("A-1-11")
	if y := near.Seats[0].Position[1]; y >= near.Seats[middle].Position[1] {
		t.Errorf("centre on the camera's side: the end lies at y = %v, behind the middle", y)
	}
	if y := far.Seats[0].Position[1]; y <= far.Seats[middle].Position[1] {
		t.Errorf("centre behind: the end lies at y = %v, before the middle", y)
	}
	if near.Seats[0].Facing <= 0 || far.Seats[0].Facing >= 0 {
		t.Errorf("the left ends face %v and %v; want toward the middle, and away from it", near.Seats[0].Facing, far.Seats[0].Facing)
	}
}

// Two half circles of one row side by side: each reaches as far as its own radius
// to either side, since the arcs go on beyond their widest place.
func TestCurvesDoNotMeet(t *testing.T) {
	arc := SectionSpec{Rows: 2, Seats: []int{50}, Pitch: 2 * Foot, Run: 2 * Foot, Radius: 20 * Foot, Aisle: 4 * Foot}
	a, b := arc, arc
	a.Name, b.Name = "A", "B"
	s := must(t, Spec{Sections: []SectionSpec{a, b}})
	if gap := s.Sections[1].Origin[0] - s.Sections[0].Origin[0]; math.Abs(gap-(2*24+4)*0.3048) > 2e-6 {
		t.Errorf("the middles are %v m apart, want two radii of 24 ft and 4 ft", gap)
	}
}

func TestCapacity(t *testing.T) {
	for _, c := range []struct {
		name string
		spec SectionSpec
		want int
	}{
		// IBC 2021 section 1004.6: one occupant for each 18 in of bench (SEEN-2nd).
		{"nine feet hold six", SectionSpec{Bench: []Length{9 * Foot}, Pitch: 18 * Inch}, 6},
		{"nine feet at 20 in still hold six", SectionSpec{Bench: []Length{9 * Foot}}, 6},
		{"a nanometre short holds five", SectionSpec{Bench: []Length{9*Foot - 1}, Pitch: 18 * Inch}, 5},
		{"seven places of 20 in are 140 in", SectionSpec{Seats: []int{7}}, 7},
		{"nine places of 20 in are 180 in", SectionSpec{Seats: []int{9}}, 10},
		{"a gap breaks the bench: 4 and 4 of 20 in", SectionSpec{Seats: []int{9}, Missing: []SeatRange{{Row: "1", From: 5}}}, 8},
		{"what whole pitches leave counts with the ends", SectionSpec{Bench: []Length{107 * Inch}, Pitch: 50 * Inch, Missing: []SeatRange{{Row: "1", From: 2}}}, 2},
		{"chairs count a place each", SectionSpec{Kind: Chairs, Seats: []int{9}, Missing: []SeatRange{{Row: "1", From: 5, To: 6}}}, 7},
		{"people on the floor too", SectionSpec{Kind: Floor, Seats: []int{9}}, 9},
	} {
		c.spec.Name, c.spec.Rows = "A", 1
		s := must(t, Spec{Sections: []SectionSpec{c.spec}})
		if got := s.Count(0).Capacity; got != c.want {
			t.Errorf("%s: %d", c.name, got)
		}
	}
}

func TestTotals(t *testing.T) {
	s := must(t, Spec{Sections: []SectionSpec{
		{Name: "A", Rows: 2, Seats: []int{5, 6}, Missing: []SeatRange{{"1", 2, 3}}, Reserved: []Reserved{
			{Seats: []SeatRange{{"1", 5, 4}}, For: "wheelchair"}, {Seats: []SeatRange{{"2", 1, 1}, {"2", 6, 6}}, For: "rail"}}},
		{Name: "F", Kind: Floor, Rows: 1, Seats: []int{4}, NoCards: true, Reserved: []Reserved{{Seats: []SeatRange{{"1", 1, 0}}, For: "nobody"}, {Seats: []SeatRange{{"1", 2, 0}}, For: "companion"}}},
	}})
	for _, c := range []struct {
		what      string
		got, want Totals
	}{
		{"row A-1", s.CountRow(0, 0), Totals{Places: 5, Missing: 2, Cards: 3, Capacity: 3}},
		{"section A", s.Count(0), Totals{Places: 11, Missing: 2, Cards: 7, Reserved: 2, Capacity: 9}},
		{"section F", s.Count(1), Totals{Places: 4, Reserved: 1, Persons: 3, Capacity: 4}},
		{"all", s.CountAll(), Totals{Places: 15, Missing: 2, Cards: 7, Reserved: 3, Persons: 3, Capacity: 13}},
	} {
		if c.got != c.want {
			t.Errorf("%s: %+v, want %+v", c.what, c.got, c.want)
		}
	}
	if i, err := s.Find("A-1-5"); err != nil || s.Seats[i].Use != UseCard || s.Seats[i].For != "wheelchair" {
		t.Errorf("A-1-5: %+v, %v", s.Seats[i], err)
	}
	if i, err := s.Find("F-1-2"); err != nil || s.Seats[i].Use != UsePerson || s.Seats[i].For != "companion" {
		t.Errorf("F-1-2: %+v, %v", s.Seats[i], err)
	}
}

// readCSV reads a reference table without its header.
func readCSV(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../testdata/seating/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d lines, %v", name, len(rows), err)
	}
	return rows[1:]
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// 2010 ADA Standards, table 221.2.1.1 (SEEN); the worked examples are COMPUTED.
func TestWheelchairSpaces(t *testing.T) {
	rows := readCSV(t, "ada_wheelchair.csv")
	if len(rows) != 12 {
		t.Errorf("%d lines of the table, want 12", len(rows))
	}
	for _, row := range rows {
		seats, _ := strconv.Atoi(row[3])
		want, _ := strconv.Atoi(row[4])
		if got := WheelchairSpaces(seats); got != want || want == 0 {
			t.Errorf("%d seats: %d spaces, want %d", seats, got, want)
		}
		if fixed, err := strconv.Atoi(row[2]); err == nil { // both ends of a range
			low, _ := strconv.Atoi(row[0])
			high, _ := strconv.Atoi(row[1])
			if WheelchairSpaces(low) != fixed || WheelchairSpaces(high) != fixed {
				t.Errorf("%d to %d seats: %d and %d spaces, want %d", low, high, WheelchairSpaces(low), WheelchairSpaces(high), fixed)
			}
		}
	}
}

func TestFind(t *testing.T) {
	s := must(t, Spec{Sections: []SectionSpec{
		{Name: "North", Rows: 3, Seats: []int{5}, RowNames: RowNaming{Letters: true}, SeatNumbers: SeatNumbering{Start: 101, Step: 2, From: Right}, Missing: []SeatRange{{"B", 105, 105}}},
		{Name: "South", Rows: 1, Seats: []int{2}},
	}})
	if i, err := s.Find("north-b-101"); err != nil || s.ID(i) != "North-B-101" || s.Seats[i].Place != 4 {
		t.Errorf("north-b-101: %d, %v", i, err)
	}
	if got, err := s.InRange("North", SeatRange{"B", 109, 103}); err != nil || len(got) != 3 {
		t.Errorf("109 to 103 without 105: %v, %v", got, err)
	}
	for _, c := range []struct{ id, what, hint string }{
		{"Noth-A-101", "no section", "North"}, {"North-D-101", `no row "D"`, "row A"}, {"North-B-105", "no seat North-B-105", "North-B-107"},
		{"North-B", "no seat", "SECTION-ROW-SEAT"}, {"North-B-x", "no number", ""}, {"South-1-9", "no seat South-1-9", "South-1-2"},
	} {
		_, err := s.Find(c.id)
		var f *Fault
		if !errors.As(err, &f) || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%s: %v, want %q and a hint with %q", c.id, err, c.what, c.hint)
		}
	}
}

func BenchmarkBuild(b *testing.B) {
	for _, sections := range []int{1, 10, 20, 40} {
		spec := Spec{}
		for i := range sections {
			spec.Sections = append(spec.Sections, SectionSpec{Name: strconv.Itoa(i), Rows: 50, Seats: []int{100}, Aisle: 4 * Foot, Radius: Length(i%2) * 50 * Metre})
		}
		b.Run(fmt.Sprintf("seats=%d", sections*5000), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Build(spec); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
