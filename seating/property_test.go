package seating

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawSpec makes stands of all kinds that mostly build.
func drawSpec(t *rapid.T) Spec {
	n := rapid.IntRange(1, 5).Draw(t, "sections")
	spec := Spec{Posted: rapid.IntRange(0, 300).Draw(t, "posted"), People: rapid.IntRange(0, 300).Draw(t, "people")}
	floor := false
	for i := range n {
		s := SectionSpec{
			Name: string(rune('A' + i)), Rows: rapid.IntRange(1, 6).Draw(t, "rows"), Align: Align(rapid.IntRange(0, 2).Draw(t, "align")),
			Kind: Kind(rapid.IntRange(0, 2).Draw(t, "kind")), Pitch: Length(rapid.IntRange(16, 30).Draw(t, "pitch")) * Inch,
			Aisle:       Length(rapid.IntRange(30, 60).Draw(t, "aisle")) * Inch,
			RowNames:    RowNaming{Letters: rapid.Bool().Draw(t, "letters"), FromBack: rapid.Bool().Draw(t, "fromBack"), Step: rapid.IntRange(0, 2).Draw(t, "rowStep")},
			SeatNumbers: SeatNumbering{From: Side(rapid.IntRange(0, 1).Draw(t, "from")), Start: rapid.IntRange(0, 3).Draw(t, "start"), Step: rapid.IntRange(0, 2).Draw(t, "step")},
		}
		for range s.Rows {
			s.Seats = append(s.Seats, rapid.IntRange(0, 9).Draw(t, "seats"))
		}
		s.Seats[s.Rows-1]++ // the front row may be empty
		switch rapid.IntRange(0, 3).Draw(t, "shape") {
		case 0:
			if s.Kind != Floor {
				s.Radius = Length(rapid.IntRange(15, 40).Draw(t, "radius")) * Metre * Length(1-2*rapid.IntRange(0, 1).Draw(t, "side"))
			}
		case 1:
			s.Place = &Place{Across: Length(i*60+rapid.IntRange(0, 5).Draw(t, "across")) * Metre, Away: 40 * Metre, Facing: float64(rapid.IntRange(-180, 180).Draw(t, "facing"))}
		}
		if s.Kind == Floor && s.Place == nil {
			if floor {
				s.Kind = Bench
			}
			floor = true
		}
		spec.Sections = append(spec.Sections, s)
	}
	for i := range spec.Sections {
		drawSpecial(t, &spec.Sections[i])
	}
	return spec
}

// drawSpecial takes away and reserves some seats.
func drawSpecial(t *rapid.T, s *SectionSpec) {
	names, err := s.RowNames.names(s.Rows)
	if err != nil {
		t.Fatal(err)
	}
	for r, n := range s.Seats {
		if n < 2 || !rapid.Bool().Draw(t, "special") {
			continue
		}
		numbers := s.SeatNumbers
		if err := numbers.Check(n); err != nil {
			t.Fatal(err)
		}
		gone := rapid.IntRange(0, n-2).Draw(t, "gone")
		kept := rapid.IntRange(gone+1, n-1).Draw(t, "kept")
		s.Missing = append(s.Missing, SeatRange{names[r], numbers.Number(gone, n), numbers.Number(gone, n)})
		s.Reserved = append(s.Reserved, Reserved{Seats: []SeatRange{{names[r], numbers.Number(kept, n), 0}}, For: rapid.SampledFrom(ReservedFor[:]).Draw(t, "use")})
	}
}

// mirror is the spec of the same stands seen in a mirror: the sections in the other
// order, left for right everywhere, the same marks on the same seats.
func mirror(spec Spec) Spec {
	out := spec
	out.Sections = nil
	var beside []int
	for i := range spec.Sections {
		if s := &spec.Sections[i]; s.Place == nil && s.Kind != Floor {
			beside = append(beside, i)
		}
	}
	for i := len(spec.Sections) - 1; i >= 0; i-- {
		s := spec.Sections[i]
		s.Align = [...]Align{AlignCentre, AlignRight, AlignLeft}[s.Align]
		s.SeatNumbers.From = Right - s.SeatNumbers.From
		if s.Place != nil {
			s.Place = &Place{Across: -s.Place.Across, Away: s.Place.Away, Facing: -s.Place.Facing}
		}
		s.Aisle = 0
		for k, b := range beside {
			if b == i && k > 0 {
				s.Aisle = spec.Sections[beside[k-1]].Aisle
			}
		}
		out.Sections = append(out.Sections, s)
	}
	return out
}

func TestStandsProperties(t *testing.T) {
	built := 0
	rapid.Check(t, func(t *rapid.T) {
		spec := drawSpec(t)
		s, err := Build(spec)
		if err != nil {
			if !strings.Contains(err.Error(), "same place") && !strings.Contains(err.Error(), "all seats are missing") {
				t.Fatalf("%v\n%+v", err, spec)
			}
			return
		}
		built++
		checkOrder(t, s)
		checkIDs(t, s)
		checkMirror(t, spec, s)
		again, err := Build(spec)
		if err != nil || !reflect.DeepEqual(s, again) {
			t.Fatal("the same spec built other stands")
		}
	})
	if built < 20 {
		t.Errorf("only %d specs built", built)
	}
}

// checkOrder: seats lie in the rows that say so, sorted, each place at most once.
func checkOrder(t *rapid.T, s *Stands) {
	at := 0
	for i, sec := range s.Sections {
		if sec.First != at {
			t.Fatalf("section %s starts at %d, want %d", sec.Name, sec.First, at)
		}
		for r, row := range sec.Rows {
			if row.First != at {
				t.Fatalf("row %s-%s starts at %d, want %d", sec.Name, row.Name, row.First, at)
			}
			place := int32(-1)
			for ; at < row.Last; at++ {
				seat := s.Seats[at]
				if int(seat.Section) != i || int(seat.Row) != r || seat.Place <= place || int(seat.Place) >= row.Places {
					t.Fatalf("seat %d is %+v in section %d row %d behind place %d", at, seat, i, r, place)
				}
				place = seat.Place
			}
		}
		if sec.Last != at {
			t.Fatalf("section %s ends at %d, want %d", sec.Name, sec.Last, at)
		}
	}
	if at != len(s.Seats) {
		t.Fatalf("%d seats in rows, %d in all", at, len(s.Seats))
	}
	all := s.CountAll()
	if all.Cards+all.Persons+all.Reserved != len(s.Seats) || all.Places-all.Missing != len(s.Seats) {
		t.Fatalf("%d seats, totals %+v", len(s.Seats), all)
	}
}

// checkIDs: ids differ, and find their seats.
func checkIDs(t *rapid.T, s *Stands) {
	seen := map[string]bool{}
	for i := range s.Seats {
		id := s.ID(i)
		if got, err := s.Find(id); seen[id] || err != nil || got != i {
			t.Fatalf("seat %d is %s, which is seat %d (%v), seen before: %v", i, id, got, err, seen[id])
		}
		seen[id] = true
	}
}

// checkMirror: the mirrored stands have the same seats at the mirrored places, and mirrored twice they are the same.
func checkMirror(t *rapid.T, spec Spec, s *Stands) {
	m, err := Build(mirror(spec))
	if err != nil {
		t.Fatalf("the mirror: %v", err)
	}
	twice, err := Build(mirror(mirror(spec)))
	if err != nil || len(m.Seats) != len(s.Seats) || len(twice.Seats) != len(s.Seats) {
		t.Fatalf("%d seats, mirrored %d, twice %d, %v", len(s.Seats), len(m.Seats), len(twice.Seats), err)
	}
	for i, seat := range s.Seats {
		k, err := m.Find(s.ID(i))
		if err != nil {
			t.Fatal(err)
		}
		got, same := m.Seats[k], twice.Seats[i]
		// Arcs are laid out to the micrometre, which rounding outward may shift by one.
		for axis, sign := range []float64{-1, 1, 1} {
			if math.Abs(got.Position[axis]*sign-seat.Position[axis]) > 2e-6 {
				t.Fatalf("%s lies at %v, in the mirror at %v", s.ID(i), seat.Position, got.Position)
			}
		}
		if math.Abs(got.Facing+seat.Facing) > 1e-9 || got.Use != seat.Use || got.For != seat.For {
			t.Fatalf("%s is %+v, in the mirror %+v", s.ID(i), seat, got)
		}
		if same.Position != seat.Position || same.Facing != seat.Facing || same.Number != seat.Number {
			t.Fatalf("%s is %+v, mirrored twice %+v", s.ID(i), seat, same)
		}
	}
}
