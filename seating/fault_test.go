package seating

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// good is one section that builds; each case spoils it in one way.
func good() Spec {
	return Spec{Sections: []SectionSpec{
		{Name: "A", Rows: 3, Seats: []int{5}, Aisle: 4 * Foot},
		{Name: "B", Rows: 3, Seats: []int{5}},
	}}
}

func TestBuildFaults(t *testing.T) {
	b := func(change func(s *SectionSpec)) func(*Spec) { return func(s *Spec) { change(&s.Sections[1]) } }
	for _, c := range []struct {
		name      string
		spoil     func(*Spec)
		key, what string
		hint      string
	}{
		{"no sections", func(s *Spec) { s.Sections = nil }, "stands", "no sections", "at least one"},
		{"too many sections", func(s *Spec) { s.Sections = make([]SectionSpec, MaxSections+1) }, "stands", "too many", "500"},
		{"no rows", b(func(s *SectionSpec) { s.Rows = 0 }), "section[1].rows", "no rows", ""},
		{"negative rows", b(func(s *SectionSpec) { s.Rows = -1 }), "section[1].rows", "no rows", ""},
		{"too many rows", b(func(s *SectionSpec) { s.Rows = MaxRows + 1 }), "section[1].rows", "too many", ""},
		{"nothing counted", b(func(s *SectionSpec) { s.Seats = nil }), "section[1].seats", "how many seats", "pitch"},
		{"no seats", b(func(s *SectionSpec) { s.Seats = []int{0} }), "section[1].seats", "no seats", ""},
		{"bench too short", b(func(s *SectionSpec) { s.Seats = nil; s.Bench = []Length{Foot} }), "section[1].seats", "no seats", ""},
		{"all missing", func(s *Spec) {
			s.Sections = s.Sections[:1]
			s.Sections[0].Missing = []SeatRange{{"1", 1, 5}, {"2", 1, 5}, {"3", 5, 1}}
		}, "stands", "all seats are missing", ""},
		{"negative seats", b(func(s *SectionSpec) { s.Seats = []int{-3} }), "section[1].seats", "-3", ""},
		{"list too short", b(func(s *SectionSpec) { s.Seats = []int{1, 2} }), "section[1].seats", "2 entries for 3 rows", ""},
		{"bench list too long", b(func(s *SectionSpec) { s.Seats, s.Bench = nil, make([]Length, 4) }), "section[1].bench", "4 entries for 3 rows", ""},
		{"seats over the bench", b(func(s *SectionSpec) { s.Bench = []Length{5 * Foot} }), "section[1].seats", "do not fit", "3 fit"},
		{"huge seats", b(func(s *SectionSpec) { s.Seats = []int{math.MaxInt} }), "section[1].seats", "more than 250000", ""},
		{"huge row", b(func(s *SectionSpec) { s.Seats = []int{9000} }), "section[1].seats", "longer than", ""},
		{"many seats together", func(s *Spec) {
			for i := range s.Sections {
				s.Sections[i].Rows, s.Sections[i].Rise, s.Sections[i].Seats = 500, Inch, []int{251}
			}
		}, "section[1].seats", "stands have more than 250000", ""},
		{"negative rise", b(func(s *SectionSpec) { s.Rise = -Inch }), "section[1].rise", "-1in is negative", "sign"},
		{"negative run", b(func(s *SectionSpec) { s.Run = -Inch }), "section[1].run", "negative", ""},
		{"negative pitch", b(func(s *SectionSpec) { s.Pitch = -Inch }), "section[1].pitch", "negative", ""},
		{"negative aisle", b(func(s *SectionSpec) { s.Aisle = -1 }), "section[1].aisle", "negative", ""},
		{"negative first row", b(func(s *SectionSpec) { s.FirstRow = -1 }), "section[1].first_row", "negative", ""},
		{"negative seat board", b(func(s *SectionSpec) { s.SeatBoard = -1 }), "section[1].seat_board", "negative", ""},
		{"rise in metres for inches", b(func(s *SectionSpec) { s.Rise = 9 * Metre }), "section[1].rise", "9m cannot be right", "unit"},
		{"rows into the sky", b(func(s *SectionSpec) { s.Rows, s.Rise = 400, Metre }), "section[1].rise", "up", ""},
		{"tiny pitch", b(func(s *SectionSpec) { s.Pitch = Millimetre }), "section[1].pitch", "cannot be right", ""},
		{"absurd bench", b(func(s *SectionSpec) { s.Seats, s.Bench = nil, []Length{math.MaxInt64} }), "section[1].bench", "cannot be right", ""},
		{"absurd place", b(func(s *SectionSpec) { s.Place = &Place{Across: math.MinInt64} }), "section[1].place", "cannot be right", ""},
		{"absurd facing", b(func(s *SectionSpec) { s.Place = &Place{Facing: math.NaN()} }), "section[1].place.facing", "no way to face", ""},
		{"unknown kind", b(func(s *SectionSpec) { s.Kind = 9 }), "section[1].kind", "kind", "bench"},
		{"unknown posture", b(func(s *SectionSpec) { s.Posture = 9 }), "section[1].posture", "posture", ""},
		{"unknown align", b(func(s *SectionSpec) { s.Align = 9 }), "section[1].align", "align", ""},
		{"floor with rise", b(func(s *SectionSpec) { s.Kind, s.Rise = Floor, Inch }), "section[1].rise", "no rise", ""},
		{"curved floor", b(func(s *SectionSpec) { s.Kind, s.Radius = Floor, 9*Metre }), "section[1].radius", "straight", ""},
		{"two floor blocks", func(s *Spec) { s.Sections[0].Kind, s.Sections[1].Kind = Floor, Floor }, "section[1].place", "A and B", "by hand"},
		{"section twice", b(func(s *SectionSpec) { s.Name = "A" }), "section[1].name", `two sections "A"`, ""},
		{"case-only twins", b(func(s *SectionSpec) { s.Name = "a" }), "section[1].name", "but for capitals", ""},
		{"twins in two ways to write é", func(s *Spec) { s.Sections[0].Name, s.Sections[1].Name = "\u00e9", "e\u0301" }, "section[1].name", "two sections", ""},
		{"forbidden sign", b(func(s *SectionSpec) { s.Name = "B-2" }), "section[1].name", `holds '-'`, ""},
		{"no name", b(func(s *SectionSpec) { s.Name = "" }), "section[1].name", "empty", ""},
		{"row names", b(func(s *SectionSpec) { s.RowNames.Names = []string{"x", "y", "X"} }), "section[1].row_names", "but for capitals", ""},
		{"seat numbers", b(func(s *SectionSpec) { s.SeatNumbers.Step = -1 }), "section[1].seat_numbers", "upwards", ""},
		{"cross-aisle nowhere", b(func(s *SectionSpec) { s.CrossAisles = []CrossAisle{{"7", Foot}} }), "section[1].cross_aisles[0]", `no row "7"`, "row 3"},
		{"cross-aisle behind the last", b(func(s *SectionSpec) { s.CrossAisles = []CrossAisle{{"3", Foot}} }), "section[1].cross_aisles[0]", "last one", ""},
		{"cross-aisle twice", b(func(s *SectionSpec) { s.CrossAisles = []CrossAisle{{"1", Foot}, {"1", Foot}} }), "section[1].cross_aisles[1]", "two cross-aisles", ""},
		{"cross-aisle without depth", b(func(s *SectionSpec) { s.CrossAisles = []CrossAisle{{"1", 0}} }), "section[1].cross_aisles[0]", "deep", ""},
		{"missing seat that is not", b(func(s *SectionSpec) { s.Missing = []SeatRange{{"2", 1, 2}, {"2", 4, 9}} }), "section[1].missing[1]", "row 2 of section B has no seat 9", "B-2-5"},
		{"missing in no row", b(func(s *SectionSpec) { s.Missing = []SeatRange{{"22", 1, 1}} }), "section[1].missing[0]", `no row "22"`, "row 3"},
		{"reserved seat that is not", b(func(s *SectionSpec) {
			s.SeatNumbers = SeatNumbering{Start: 2, Step: 2}
			s.Reserved = []Reserved{{Seats: []SeatRange{{"2", 5, 5}}, For: "rail"}}
		}), "section[1].reserved[0]", "no seat 5", "B-2-4"},
		{"reserved for somebody else", b(func(s *SectionSpec) { s.Reserved = []Reserved{{Seats: []SeatRange{{"2", 5, 5}}, For: "band"}} }), "section[1].reserved[0]", `"band"`, "wheelchair"},
		{"reserved and missing", b(func(s *SectionSpec) {
			s.Missing = []SeatRange{{"2", 5, 5}}
			s.Reserved = []Reserved{{Seats: []SeatRange{{"2", 4, 5}}, For: "rail"}}
		}), "section[1].reserved[0]", "B-2-5 is missing", ""},
		{"reserved twice", b(func(s *SectionSpec) {
			s.Reserved = []Reserved{{Seats: []SeatRange{{"2", 4, 5}}, For: "rail"}, {Seats: []SeatRange{{"2", 1, 4}}, For: "nobody"}}
		}), "section[1].reserved[1]", "B-2-4 is reserved for two uses", ""},
		{"ranges without end", b(func(s *SectionSpec) {
			s.Seats, s.Pitch = []int{10_000}, 10*Centimetre
			for range 101 {
				s.Missing = append(s.Missing, SeatRange{"1", 1, 10_000})
			}
		}), "section[1].missing[100]", "more than", ""},
		{"radius too small", b(func(s *SectionSpec) { s.Radius = Foot }), "section[1].radius", "too small", "1m"},
		{"rows past the centre", b(func(s *SectionSpec) { s.Radius = -2 * Metre }), "section[1].radius", "too small", ""},
		{"a row around itself", b(func(s *SectionSpec) { s.Seats, s.Radius = []int{40}, 2*Metre }), "section[1].radius", "overlap itself", ""},
		{"sections in each other", b(func(s *SectionSpec) { s.Place = &Place{Across: Foot, Away: Foot} }), "section[1]", "same place", ""},
		{"posted", func(s *Spec) { s.Posted = -1 }, "stands.posted", "-1", ""},
		{"people", func(s *Spec) { s.People = -1 }, "stands.people", "-1", ""},
		{"share", func(s *Spec) { s.Expected = 88 }, "stands.expected", "88", "0.88"},
		{"no share", func(s *Spec) { s.Expected = math.NaN() }, "stands.expected", "NaN", ""},
		{"origin", func(s *Spec) { s.Origin = "C" }, "stands.origin", `no section "C"`, "A"},
		{"lane without area", func(s *Spec) { s.Lanes = []Lane{{Left: 1, Right: 2, Near: 3, Far: 3}} }, "room.lane[0]", "no area", ""},
		{"lane without end", func(s *Spec) { s.Lanes = []Lane{{Left: math.MinInt64, Right: 2, Near: 3, Far: 4}} }, "room.lane[0]", "reaches", ""},
	} {
		spec := good()
		c.spoil(&spec)
		_, err := Build(spec)
		var f *Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: got %v, want a fault", c.name, err)
			continue
		}
		if f.Key != c.key || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) || f.Hint == "" {
			t.Errorf("%s: got %q\nwant key %s, %q, a hint with %q", c.name, f.Error(), c.key, c.what, c.hint)
		}
		if strings.ContainsAny(f.Error(), "\n\r") || strings.HasSuffix(f.What, ".") {
			t.Errorf("%s: %q is not one plain line", c.name, f.Error())
		}
	}
}

// A floor block of 4 seats of 2 ft by 3 ft, placed at the origin: its seats span −4…4 ft across, 0…3 ft back.
func TestLanes(t *testing.T) {
	block := func(facing float64, lane Lane) error {
		_, err := Build(Spec{
			Sections: []SectionSpec{
				{Name: "A", Rows: 1, Seats: []int{3}, Place: &Place{Away: 30 * Foot}},
				{Name: "F", Kind: Floor, Rows: 1, Seats: []int{4}, Pitch: 2 * Foot, Run: 3 * Foot, Place: &Place{Facing: facing}, Missing: []SeatRange{{"1", 4, 4}}},
			},
			Lanes: []Lane{lane},
		})
		return err
	}
	for _, c := range []struct {
		name   string
		facing float64
		lane   Lane
		seat   string // "" = clear
	}{
		{"touches on the left", 0, Lane{Left: -9 * Foot, Right: -4 * Foot, Near: 0, Far: 3 * Foot}, ""},
		{"a millimetre inside", 0, Lane{Left: -9 * Foot, Right: -4*Foot + Millimetre, Near: 0, Far: 3 * Foot}, "F-1-1"},
		{"through the missing seat", 0, Lane{Left: 2 * Foot, Right: 4 * Foot, Near: -9 * Foot, Far: 9 * Foot}, ""},
		{"touches behind", 0, Lane{Left: -9 * Foot, Right: 9 * Foot, Near: 3 * Foot, Far: 6 * Foot}, ""},
		{"across everything", 0, Lane{Left: -9 * Foot, Right: 9 * Foot, Near: Foot, Far: 2 * Foot}, "F-1-1"},
		{"within one seat", 0, Lane{Left: -Foot - Inch, Right: -Foot, Near: Foot, Far: Foot + Inch}, "F-1-2"},
		{"stands are no floor block", 0, Lane{Left: -9 * Foot, Right: 9 * Foot, Near: 30 * Foot, Far: 40 * Foot}, ""},
		// Facing 90 the block spans −3…0 ft across, −4…4 ft back, its left seat nearest the camera.
		{"turned, touching", 90, Lane{Left: 0, Right: Foot, Near: -9 * Foot, Far: 9 * Foot}, ""},
		{"turned, inside", 90, Lane{Left: -Foot, Right: Foot, Near: -4 * Foot, Far: -3 * Foot}, "F-1-1"},
		// Facing 45 the front left corner lies at (−4, −4)·√½ = −2.83 ft both ways; a lane that only meets the bounding box is clear.
		{"at the corner of a turned block", 45, Lane{Left: -6 * Foot, Right: -2 * Foot, Near: -6 * Foot, Far: -3 * Foot}, ""},
		{"in the corner of a turned block", 45, Lane{Left: -6 * Foot, Right: -2 * Foot, Near: -6 * Foot, Far: -2 * Foot}, "F-1-1"},
		{"beside the slanted side", 45, Lane{Left: -9 * Foot, Right: -5 * Foot, Near: -2 * Foot, Far: -1 * Foot}, ""},
	} {
		c.lane.Name = "door way"
		err := block(c.facing, c.lane)
		if c.seat == "" {
			if err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		var f *Fault
		if !errors.As(err, &f) || f.Key != "section[1]" || !strings.Contains(f.What, c.seat+" ") || !strings.Contains(f.What, "door way") {
			t.Errorf("%s: %v, want seat %s and the lane named", c.name, err, c.seat)
		}
	}
}

func TestWarnings(t *testing.T) {
	sec := SectionSpec{Name: "A", Rows: 10, Seats: []int{9}, Pitch: 20 * Inch} // 90 seats; 10 a row by the 18-inch rule
	wheels := []Reserved{{Seats: []SeatRange{{"1", 1, 4}}, For: "wheelchair"}}
	for _, c := range []struct {
		name                     string
		posted, people, reserved int
		want                     []string // starts, in order
	}{
		{"nothing asked", 0, 0, 1, nil},
		{"all agrees", 100, 100, 1, nil},
		{"wheelchairs", 0, 0, 0, []string{"Wheelchair places: 0 reserved; the 2010 ADA Standards, table 221.2.1.1, ask for 4 where there are 90 seats"}},
		{"too many people", 80, 80, 1, []string{"TOO MANY PEOPLE: the plan seats 90, 10 more than the posted limit of 80", "The survey and the posted limit disagree: by the survey the stands hold 100 people", "Of 80 people invited, about 70 are expected (88 %) for 90 seats: 20 seats (22 %)"}},
		{"too many invited", 100, 101, 1, []string{"TOO MANY PEOPLE INVITED: if all 101 come, they are 1 more than the posted limit of 100"}},
		{"too few seats", 0, 200, 1, []string{"Of 200 people invited, about 176 are expected (88 %), and there are 90 seats for them: 86 would find none"}},
		{"five in a hundred empty is as expected", 0, 98, 1, nil}, // 86 expected, 4 of 90 empty
		{"six are not", 0, 97, 1, []string{"Of 97 people invited, about 85 are expected (88 %) for 90 seats: 5 seats (6 %)"}},
	} {
		s := sec
		if c.reserved > 0 {
			s.Reserved = wheels
		}
		got := must(t, Spec{Sections: []SectionSpec{s}, Posted: c.posted, People: c.people}).Warnings
		if len(got) != len(c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
			continue
		}
		for i := range got {
			if !strings.HasPrefix(got[i], c.want[i]) {
				t.Errorf("%s: %q, want it to start %q", c.name, got[i], c.want[i])
			}
		}
	}
}

// What no stand measures is said by name: a unit or a column has slipped.
func TestUnlikelyMeasures(t *testing.T) {
	for _, c := range []struct {
		change func(s *SectionSpec)
		want   string // ";" between starts of warnings
	}{
		{func(s *SectionSpec) {}, ""},
		{func(s *SectionSpec) { s.Pitch, s.Rise, s.Run = 18*Inch, 16*Inch, 20*Inch }, ""},
		{func(s *SectionSpec) { s.Pitch = 18 * Foot }, "Section B: a pitch of 18ft is far"},
		{func(s *SectionSpec) { s.Pitch = 6 * Inch }, "Section B: a pitch of 6in is far"},
		{func(s *SectionSpec) { s.Rise, s.Run = 2*Metre, 3*Metre }, "Section B: a rise of 2m is far"},
		{func(s *SectionSpec) { s.Rise, s.Run = 24*Inch, 9*Inch+Inch*5/8 }, "Section B: its rise of 2ft is larger than its run of 9 5/8in"},
		{func(s *SectionSpec) { s.SeatBoard, s.FirstRow = Metre, 20*Metre }, "Section B: a first row of 20m is far;Section B: a seat board of 1m is far"},
		{func(s *SectionSpec) { s.Kind = Floor }, ""},
	} {
		spec := good()
		spec.Sections[0].Reserved = []Reserved{{Seats: []SeatRange{{"1", 1, 2}}, For: "wheelchair"}}
		c.change(&spec.Sections[1])
		var want []string
		if c.want != "" {
			want = strings.Split(c.want, ";")
		}
		got := must(t, spec).Warnings
		if len(got) != len(want) {
			t.Errorf("%q, want %q", got, want)
			continue
		}
		for i := range got {
			if !strings.HasPrefix(got[i], want[i]) {
				t.Errorf("%q, want it to start %q", got[i], want[i])
			}
		}
	}
}

func TestExpectedPeople(t *testing.T) {
	for _, c := range []struct {
		people int
		share  float64
		want   int
	}{{450, 0.88, 396}, {1, 0.5, 1}, {3, 0.5, 2}, {512, 0.88, 451}, {1000, 0.333333, 333}, {MaxPeople, 1, MaxPeople}} {
		if got := (&Spec{People: c.people, Expected: c.share}).ExpectedPeople(); got != c.want {
			t.Errorf("%d × %v = %d, want %d", c.people, c.share, got, c.want)
		}
	}
}
