package camera

import (
	"math"
	"math/rand/v2"
	"testing"

	"everyseat/seating"
)

// contains says whether a cell holds a point; borders belong to the left and upper cell.
func (c *Cell) contains(p Pixel) bool {
	inside := true
	for i := range c {
		a, b := c[i], c[(i+1)%4]
		inside = inside && det(a, b, p) > 0
	}
	return inside
}

// regular is a sight of stands on a plain grid, 50 by 30 pixels a seat, all seen.
func regular(stands *seating.Stands) *Sight {
	sight := newSight(len(stands.Seats))
	for i, seat := range stands.Seats {
		at := Pixel{1000 + 50*float64(seat.Place), 900 - 30*float64(seat.Row)}
		sight.Centre[i], sight.Seen[i] = at, 1
		sight.Corners[i] = [4]Pixel{{at[0] - 20, at[1] - 12}, {at[0] + 20, at[1] - 12}, {at[0] + 20, at[1] + 12}, {at[0] - 20, at[1] + 12}}
	}
	return sight
}

// On a regular grid a cell is exactly the grid's own, at ends and beside gaps too.
func TestCellsOfARegularGrid(t *testing.T) {
	a := bleachers("A", 5, 7)
	a.Missing = []seating.SeatRange{{Row: "2", From: 4, To: 4}, {Row: "4", From: 1, To: 2}, {Row: "3", From: 2, To: 7}}
	s := &Scene{Stands: build(t, a), Card: letter(Eyes)}
	sight := regular(s.Stands)
	cells := Cells(s.Stands, view(t, mark(0, 20, 2), s), sight)
	for i, c := range cells {
		at := sight.Centre[i]
		want := Cell{{at[0] - 25, at[1] - 15}, {at[0] + 25, at[1] - 15}, {at[0] + 25, at[1] + 15}, {at[0] - 25, at[1] + 15}}
		for k := range c {
			// A card alone in its row has no neighbours to go by: its pitch as projected is near enough.
			alone := s.Stands.Seats[i].Row == 2
			if math.Abs(c[k][1]-want[k][1]) > 1e-9 || !alone && math.Abs(c[k][0]-want[k][0]) > 1e-9 {
				t.Errorf("%s: %v, want %v", s.Stands.ID(i), c, want)
				break
			}
		}
	}
}

// A real wall of seats seen straight on: cells tile it, neither gap nor overlap.
func TestCellsTile(t *testing.T) {
	a := bleachers("A", 8, 14)
	a.Rise, a.Run = 80*seating.Centimetre, 40*seating.Centimetre
	s := &Scene{Stands: build(t, a), Card: letter(Eyes)}
	v := view(t, mark(0, 25, 4), s)
	cells := Cells(s.Stands, v, s.See(v))
	// The outline: corners of the four corner seats' cells. Rows are straight, so it is a quadrilateral
	// but for the slant of its sides, which run from row to row.
	var outline []Pixel
	last := s.Stands.Sections[0].Last
	for r := range 8 { // up the left side
		row := s.Stands.Sections[0].Rows[r]
		outline = append(outline, cells[row.First][3], cells[row.First][0])
	}
	for r := 7; r >= 0; r-- { // down the right side
		row := s.Stands.Sections[0].Rows[r]
		outline = append(outline, cells[row.Last-1][1], cells[row.Last-1][2])
	}
	whole := math.Abs(twice(outline)) / 2
	total := 0.0
	for i := range cells {
		n, _ := area(cells[i][:])
		total += n
	}
	if math.Abs(total/whole-1) > 1e-6 {
		t.Errorf("cells have %g px together, their outline %g", total, whole)
	}
	checkEachOnce(t, cells, outline, 0, last)
	for r := range 7 {
		row := s.Stands.Sections[0].Rows[r]
		for i := row.First; i+1 < row.Last; i++ {
			if cells[i][1] != cells[i+1][0] || cells[i][2] != cells[i+1][3] {
				t.Fatalf("%s and its neighbour do not share a border: %v, %v", s.Stands.ID(i), cells[i], cells[i+1])
			}
		}
	}
}

// checkEachOnce throws points into the box around the outline; each lies in one cell or, outside the outline, in none.
func checkEachOnce(t *testing.T, cells []Cell, outline []Pixel, first, last int) {
	t.Helper()
	b := emptyBox()
	for _, p := range outline {
		b.add(p)
	}
	random := rand.New(rand.NewPCG(1, 2))
	hits := 0
	for range 20000 {
		p := Pixel{b[0] + random.Float64()*(b[2]-b[0]), b[1] + random.Float64()*(b[3]-b[1])}
		n := 0
		for i := first; i < last; i++ {
			if cells[i].contains(p) {
				n++
			}
		}
		want := 0
		if windingInside(outline, p) {
			want = 1
			hits++
		}
		if n != want {
			t.Fatalf("%v lies in %d cells, want %d", p, n, want)
		}
	}
	if hits < 10000 {
		t.Fatalf("only %d points were inside", hits)
	}
}

// windingInside is the even-odd rule for any polygon.
func windingInside(poly []Pixel, p Pixel) (in bool) {
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			in = !in
		}
	}
	return in
}

// From the side, curved, turned, with people missing: every cell is a proper quadrilateral
// around the middle of what is seen, and hardly any place belongs to two cells of a section.
func TestCellsAreRobust(t *testing.T) {
	side := bleachers("S", 6, 12)
	side.Place = &seating.Place{Across: -9 * seating.Metre, Away: -6 * seating.Metre, Facing: 88}
	curved := bleachers("C", 7, 14)
	curved.Radius = 8 * seating.Metre
	curved.Place = &seating.Place{Across: 8 * seating.Metre, Facing: -20}
	for _, m := range []Mark{mark(0, 22, 3), mark(7, 15, 1.8), mark(-3, 25, 9)} {
		s := &Scene{Stands: build(t, bleachers("A", 10, 10), side, curved), Card: letter(Eyes)}
		s.Absent = make([]bool, len(s.Stands.Seats))
		for i := range s.Absent {
			s.Absent[i] = i%9 == 4
		}
		v := view(t, m, s)
		sight := s.See(v)
		cells := Cells(s.Stands, v, sight)
		for i := range cells {
			if !s.holds(i) || sight.Behind[i] {
				if cells[i] != (Cell{}) {
					t.Fatalf("%v: %s has a cell", m.Position(), s.Stands.ID(i))
				}
				continue
			}
			c := cells[i]
			if twice(c[:]) <= 0 || !(det(c[0], c[1], c[2]) > 0 && det(c[1], c[2], c[3]) > 0 && det(c[2], c[3], c[0]) > 0 && det(c[3], c[0], c[1]) > 0) {
				t.Errorf("%v: %s's cell is not convex, clockwise in the picture: %v", m.Position(), s.Stands.ID(i), c)
			}
			if !c.contains(sight.Centre[i]) {
				t.Errorf("%v: %s's cell %v does not hold what is seen at %v", m.Position(), s.Stands.ID(i), c, sight.Centre[i])
			}
		}
		for k := range s.Stands.Sections {
			sec := &s.Stands.Sections[k]
			twiceOwned, owned := overlaps(cells[sec.First:sec.Last])
			if owned < 2000 || twiceOwned > owned/50 {
				t.Errorf("%v: of %d places in section %s %d belong to two cells", m.Position(), owned, sec.Name, twiceOwned)
			}
		}
	}
}

// overlaps counts random places that belong to one cell or more, and to two or more.
func overlaps(cells []Cell) (two, one int) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 8000 {
		c := &cells[random.IntN(len(cells))]
		if *c == (Cell{}) {
			continue
		}
		a, b := random.Float64(), random.Float64()
		var p Pixel
		for axis := range p {
			p[axis] = (1-b)*((1-a)*c[0][axis]+a*c[1][axis]) + b*((1-a)*c[3][axis]+a*c[2][axis])
		}
		n := 0
		for i := range cells {
			if cells[i].contains(p) {
				n++
			}
		}
		if n > 0 {
			one++
		}
		if n > 1 {
			two++
		}
	}
	return two, one
}

// The flat grid: a pitch wide, a slanted step high, rows upward, sections where they are.
func TestFlatCells(t *testing.T) {
	turned := bleachers("T", 2, 6)
	turned.Place = &seating.Place{Across: -9 * seating.Metre, Away: -6 * seating.Metre, Facing: 90}
	other := bleachers("U", 2, 6)
	other.Place = &seating.Place{Across: 9 * seating.Metre, Away: -6 * seating.Metre, Facing: -90}
	curved := bleachers("C", 3, 5)
	curved.Radius = 9 * seating.Metre
	curved.Place = &seating.Place{Across: 30 * seating.Metre}
	a := bleachers("A", 4, 5)
	a.Rise, a.Run, a.Pitch, a.FirstRow, a.Aisle = 3*seating.Foot, 4*seating.Foot, 2*seating.Foot, 2*seating.Foot, 4*seating.Foot // a step of 5 ft
	b := a
	b.Name = "B"
	s := build(t, a, b, turned, other, curved)
	cells := FlatCells(s)
	const foot = 0.3048
	near := func(x, y float64) bool { return math.Abs(x-y) < 1e-9 }
	// Sections A and B are 10 ft wide each with an aisle of 4 ft: A's first seat begins 12 ft left of the middle.
	for _, c := range []struct {
		seat                     int
		left, top, right, bottom float64 // feet
	}{
		{0, -12, -7, -10, -2}, {4, -4, -7, -2, -2}, {5, -12, -12, -10, -7}, {19, -4, -22, -2, -17}, {20, 2, -7, 4, -2},
	} {
		got := cells[c.seat]
		if !near(got[0][0], c.left*foot) || !near(got[0][1], c.top*foot) || !near(got[2][0], c.right*foot) || !near(got[2][1], c.bottom*foot) {
			t.Errorf("seat %d: %v, want %g…%g ft across and %g…%g ft down", c.seat, got, c.left, c.right, c.top, c.bottom)
		}
	}
	// What faces sideways is folded out on its own side and overlaps nothing.
	for i := range cells {
		if twice(cells[i][:]) <= 0 {
			t.Fatalf("%s has no cell", s.ID(i))
		}
		for j := range i {
			if cells[i][0][0] < cells[j][2][0]-1e-9 && cells[j][0][0] < cells[i][2][0]-1e-9 && cells[i][0][1] < cells[j][2][1]-1e-9 && cells[j][0][1] < cells[i][2][1]-1e-9 {
				t.Fatalf("the cells of %s and %s overlap", s.ID(i), s.ID(j))
			}
		}
	}
	if left := cells[s.Sections[2].First]; left[2][0] > -12*foot {
		t.Errorf("the section on the left is folded out at %v", left)
	}
	if right := cells[s.Sections[3].First]; right[0][0] < 12*foot {
		t.Errorf("the section on the right is folded out at %v", right)
	}
	// A curved row is unrolled: its seats are whole pitches apart.
	row := s.Sections[4].Rows[2]
	for i := row.First; i+1 < row.Last; i++ {
		if !near(cells[i+1][0][0]-cells[i][0][0], (20*seating.Inch).Metres()) || !near(cells[i][1][0], cells[i+1][0][0]) {
			t.Errorf("curved: %v is followed by %v", cells[i], cells[i+1])
		}
	}
}
