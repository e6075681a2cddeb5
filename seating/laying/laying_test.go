package laying

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"everyseat/seating"
)

func build(t testing.TB) *seating.Stands {
	t.Helper()
	s, err := seating.Build(seating.Spec{Sections: []seating.SectionSpec{
		{Name: "F", Kind: seating.Floor, Rows: 1, Seats: []int{2}, NoCards: true},
		{Name: "G", Kind: seating.Floor, Rows: 1, Seats: []int{2}, Place: &seating.Place{Across: 20 * seating.Metre}},
		{Name: "A", Rows: 4, Seats: []int{2, 0, 3, 2}, Aisle: seating.Metre, Missing: []seating.SeatRange{{Row: "3", From: 2}}},
		{Name: "B", Rows: 1, Seats: []int{2}, Reserved: []seating.Reserved{{Seats: []seating.SeatRange{{Row: "1", From: 1}}, For: "nobody"}}},
	}})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Worked by hand: the stands before the floor, people without cards last; row A-2 is empty and no turn.
func TestOrder(t *testing.T) {
	s := build(t)
	for _, c := range []struct {
		name string
		spec Spec
		want string
	}{
		{"plain", Spec{}, "A-1-1 A-1-2 A-3-1 A-3-3 A-4-1 A-4-2 B-1-1 B-1-2 G-1-1 G-1-2 F-1-1 F-1-2"},
		{"from the right", Spec{Direction: RightToLeft}, "A-1-2 A-1-1 A-3-3 A-3-1 A-4-2 A-4-1 B-1-2 B-1-1 G-1-2 G-1-1 F-1-2 F-1-1"},
		{"serpentine", Spec{Serpentine: true}, "A-1-1 A-1-2 A-3-3 A-3-1 A-4-1 A-4-2 B-1-1 B-1-2 G-1-1 G-1-2 F-1-1 F-1-2"},
		{"from the back", Spec{FromBack: true, Serpentine: true, Direction: RightToLeft}, "A-4-2 A-4-1 A-3-1 A-3-3 A-1-2 A-1-1 B-1-2 B-1-1 G-1-2 G-1-1 F-1-2 F-1-1"},
	} {
		var ids []string
		for _, seat := range Order(s, c.spec) {
			ids = append(ids, s.ID(int(seat)))
		}
		if got := strings.Join(ids, " "); got != c.want {
			t.Errorf("%s:\ngot  %s\nwant %s", c.name, got, c.want)
		}
	}
}

func TestOrderHasEverySeatOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var spec seating.Spec
		for i := range rapid.IntRange(1, 4).Draw(t, "sections") {
			rows := rapid.SliceOfN(rapid.IntRange(0, 7), 1, 6).Draw(t, "seats")
			rows[0]++
			spec.Sections = append(spec.Sections, seating.SectionSpec{Name: string(rune('A' + i)), Rows: len(rows), Seats: rows, Aisle: seating.Metre})
		}
		s, err := seating.Build(spec)
		if err != nil {
			t.Fatal(err)
		}
		order := Order(s, Spec{Direction: Direction(rapid.IntRange(0, 1).Draw(t, "direction")), Serpentine: rapid.Bool().Draw(t, "serpentine"), FromBack: rapid.Bool().Draw(t, "back")})
		slices.Sort(order)
		for i, seat := range order {
			if int(seat) != i {
				t.Fatalf("seat %d stands at %d of the sorted order", seat, i)
			}
		}
		if len(order) != len(s.Seats) {
			t.Fatalf("%d of %d seats", len(order), len(s.Seats))
		}
	})
}
