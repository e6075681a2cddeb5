package camera

import (
	"strings"
	"testing"

	"everyseat/seating"
)

func TestOutside(t *testing.T) {
	a, b := bleachers("A", 3, 10), bleachers("B", 3, 10)
	a.RowNames.Letters = true
	s := &Scene{Stands: build(t, a, b), Card: letter(Eyes)}
	whole := view(t, mark(0, 20, 2), s)
	if lines := Outside(s, whole, s.See(whole)); len(lines) > 0 {
		t.Errorf("all is in the frame, but: %q", lines)
	}

	// Section B is out of the picture, and so is A's right end, from the middle of seat 8 on.
	q, _ := s.CardQuad(7)
	left := *whole
	left.look([3]float64{0, 1, 0})
	left.Center = Pixel{1920, 1080}
	at, _ := left.Project(q[0])
	other, _ := left.Project(q[1])
	left.Center[0] += 3840 - (at[0]+other[0])/2
	left.Focal *= 1.0001
	lines := Outside(s, &left, s.See(&left))
	for _, want := range []string{"all of section B", "cut by the edge of the frame", "section A, row A seats 9–10", "row A seat 8"} {
		if !strings.Contains(strings.Join(lines, "\n"), want) {
			t.Errorf("%q does not say %q", lines, want)
		}
	}

	back := *whole
	back.Position = seating.Point{0, 12, 2.5}
	back.look([3]float64{0, -1, 0})
	if lines := Outside(s, &back, s.See(&back)); len(lines) != 1 || lines[0] != "60 cards are seen from behind: all of section A; all of section B" {
		t.Errorf("from behind: %q", lines)
	}
	back.look([3]float64{0, 1, 0})
	if lines := Outside(s, &back, s.See(&back)); len(lines) != 1 || lines[0] != "60 cards are behind the lens or within 0.3 m of it: all of section A; all of section B" {
		t.Errorf("behind the lens: %q", lines)
	}
}

// Ranges are named by rows and by numbers as marked, whichever way these run.
func TestNameSeats(t *testing.T) {
	a := bleachers("A", 5, 6)
	a.SeatNumbers = seating.SeatNumbering{From: seating.Right, Step: 2}
	b := bleachers("B", 2, 2)
	s := build(t, a, b)
	every := func(int) bool { return true }
	row := func(section, row, first, last int) (list []int32) {
		for i := first; i <= last; i++ {
			list = append(list, int32(s.Sections[section].Rows[row].First+i))
		}
		return list
	}
	join := func(lists ...[]int32) (all []int32) {
		for _, l := range lists {
			all = append(all, l...)
		}
		return all
	}
	for _, c := range []struct {
		seats []int32
		want  string
	}{
		{row(0, 1, 2, 2), "section A, row 2 seat 7"},
		{row(0, 1, 0, 2), "section A, row 2 seats 7–11"},
		{join(row(0, 1, 0, 0), row(0, 1, 2, 3)), "section A, row 2 seats 11, 5–7"},
		{row(0, 3, 0, 5), "section A, row 4"},
		{join(row(0, 0, 0, 5), row(0, 1, 0, 5), row(0, 2, 0, 0), row(0, 4, 0, 5)), "section A, rows 1–2, row 3 seat 11, row 5"},
		{join(row(0, 0, 0, 5), row(0, 2, 0, 5)), "section A, row 1, row 3"},
		{join(row(0, 0, 0, 0), row(1, 0, 0, 1), row(1, 1, 0, 1)), "section A, row 1 seat 11; all of section B"},
	} {
		if got := nameSeats(s, c.seats, every); got != c.want {
			t.Errorf("%v: %q, want %q", c.seats, got, c.want)
		}
	}
}

// Hidden rows are named with what hides them and with what would help; what is said to
// help is seen again here with everybody.
func TestHiddenReport(t *testing.T) {
	shows := func(s *Scene, v *View, section, row int) float64 {
		r := s.Stands.Sections[section].Rows[row]
		return mean(s.See(v).Seen[r.First:r.Last])
	}

	s := &Scene{Stands: build(t, bleachers("A", 8, 12)), Card: letter(Chest)}
	v := view(t, mark(0, 20, 1.6), s)
	lines := HiddenReport(s, v, s.See(v))
	if len(lines) == 0 || !strings.Contains(lines[0], "Section A, row") || !strings.Contains(lines[0], "heads and shoulders in the rows in front hide them") ||
		!strings.Contains(lines[0], "the card held with its top edge under the chin") {
		t.Errorf("cards before the chest: %q", lines)
	}
	higher := *s
	higher.Card.Held = Chin
	if shows(s, v, 0, 5) >= 0.5 || shows(&higher, v, 0, 5) < 0.5 {
		t.Errorf("row 6 shows %g, held higher %g", shows(s, v, 0, 5), shows(&higher, v, 0, 5))
	}

	// A standing block on the floor hides the front rows; a lens from higher up sees over it.
	floor := seating.SectionSpec{Name: "F", Kind: seating.Floor, Posture: seating.Standing, Rows: 3, Seats: []int{18}, Pitch: 45 * seating.Centimetre, Run: 36 * seating.Inch, NoCards: true}
	a := bleachers("A", 6, 12)
	a.FirstRow = 0
	s = &Scene{Stands: build(t, a, floor), Card: letter(Eyes)}
	v = view(t, mark(0, 20, 1.6), s)
	lines = HiddenReport(s, v, s.See(v))
	if len(lines) == 0 || !strings.HasPrefix(lines[0], "Section A, row") || !strings.Contains(lines[0], "people on the floor are in front of them") || !strings.Contains(lines[0], "the lens at ") {
		t.Errorf("behind people who stand: %q", lines)
	}

	// A row that the frame cuts off is told apart.
	s = &Scene{Stands: build(t, bleachers("A", 4, 6)), Card: letter(Overhead)}
	v = view(t, mark(0, 10, 2), s)
	v.look([3]float64{0, 1, 2})
	lines = HiddenReport(s, v, s.See(v))
	if len(lines) != 1 || !strings.Contains(lines[0], "rows 1–4 are hidden: 0 % of the cards shows, the edge of the frame cuts them off; aim that way") {
		t.Errorf("out of the frame: %q", lines)
	}

	// Cards that lie flat, level with the lens.
	flat := *s
	flat.Card.Held = Lap
	q, _ := flat.CardQuad(0)
	v = view(t, mark(0, 10, q[0][2]+1e-4), s)
	lines = HiddenReport(&flat, v, flat.See(v))
	if len(lines) == 0 || !strings.Contains(lines[0], "row 1 is hidden: 0 % of the cards shows, they are seen edge-on") {
		t.Errorf("edge-on: %q", lines)
	}
	if lines := Outside(&flat, v, flat.See(v)); len(lines) != 1 || lines[0] != "18 cards lie flat and are seen from below: section A, rows 2–4" {
		t.Errorf("from below: %q", lines)
	}

	// Nothing hidden, nothing said.
	v = view(t, mark(0, 10, 2), s)
	if lines := HiddenReport(s, v, s.See(v)); len(lines) > 0 {
		t.Errorf("all is seen, but: %q", lines)
	}
}
