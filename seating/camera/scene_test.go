package camera

import (
	"math"
	"reflect"
	"testing"

	"everyseat/seating"
)

// Every polygon is flat, convex, of 3 to 12 corners; seats come in order, then what is nobody's.
func TestPolygonsAreFlatAndConvex(t *testing.T) {
	for _, held := range []Held{Lap, Chest, Eyes, Overhead} {
		s := crowded(t)
		s.Card.Held, s.Card.ToMark, s.Mark = held, true, &seating.Point{3, -15, 4}
		s = s.Shaken(5, 0.05, 0.05, 0.2)
		last, parts := int32(0), map[Part]int{}
		s.Each(func(p *Polygon) {
			parts[p.Part]++
			n := len(p.Points)
			if n < 3 || n > 12 {
				t.Fatalf("part %d has %d corners", p.Part, n)
			}
			if p.Owner >= 0 && p.Owner < last || p.Owner < -1 || last == math.MaxInt32 && p.Owner >= 0 {
				t.Fatalf("owner %d comes after %d", p.Owner, last)
			}
			if last = p.Owner; last < 0 {
				last = math.MaxInt32
			}
			checkConvex(t, p)
		})
		for part := PartCard; part <= PartBox; part++ {
			if parts[part] == 0 {
				t.Errorf("held %s: nothing of part %d is drawn", held, part)
			}
		}
	}
}

func checkConvex(t *testing.T, p *Polygon) {
	t.Helper()
	n := len(p.Points)
	var normal [3]float64
	for i := range n {
		m := cross(minus(p.Points[(i+1)%n], p.Points[i]), minus(p.Points[(i+2)%n], p.Points[(i+1)%n]))
		for k := range normal {
			normal[k] += m[k]
		}
	}
	normal, ok := unit(normal)
	if !ok {
		t.Fatalf("part %d of %d has no area: %v", p.Part, p.Owner, p.Points)
	}
	for i := range n {
		if off := dot(normal, minus(p.Points[i], p.Points[0])); math.Abs(off) > 1e-9 {
			t.Fatalf("part %d of %d is not flat: %g m off", p.Part, p.Owner, off)
		}
		m := cross(minus(p.Points[(i+1)%n], p.Points[i]), minus(p.Points[(i+2)%n], p.Points[(i+1)%n]))
		if dot(normal, m) < -1e-12 {
			t.Fatalf("part %d of %d is not convex: %v", p.Part, p.Owner, p.Points)
		}
	}
}

// Who is there: cards and people, people without cards, nobody.
func TestWhoIsDrawn(t *testing.T) {
	a := bleachers("A", 1, 5)
	a.Reserved = []seating.Reserved{{For: "rail", Seats: []seating.SeatRange{{Row: "1", From: 2, To: 2}}}, {For: "platform", Seats: []seating.SeatRange{{Row: "1", From: 3, To: 3}}}}
	s := &Scene{Stands: build(t, a), Card: letter(Eyes)}
	s.Stands.Seats[3].Use = seating.UsePerson
	s.Absent = []bool{false, false, false, false, true}
	drawn := make([]map[Part]int, 5)
	for i := range drawn {
		drawn[i] = map[Part]int{}
	}
	s.Each(func(p *Polygon) {
		if p.Owner >= 0 {
			drawn[p.Owner][p.Part]++
		}
	})
	person := map[Part]int{PartLegs: 2, PartBody: 3, PartHead: 1, PartHair: 1, PartHand: 2}
	holder := map[Part]int{PartCard: 1, PartLegs: 2, PartBody: 3, PartHead: 1, PartHair: 1, PartHand: 2}
	for i, want := range []map[Part]int{holder, {PartRail: 3}, {}, person, {}} {
		if !reflect.DeepEqual(drawn[i], want) {
			t.Errorf("seat %d: drawn %v, want %v", i, drawn[i], want)
		}
	}
	s.Stands.Seats[0].Use = seating.UseDropped
	s.Each(func(p *Polygon) {
		if p.Owner == 0 {
			t.Error("somebody sits on a seat that is left out")
		}
	})
	for seat := range 5 {
		if _, ok := s.CardQuad(seat); ok {
			t.Errorf("seat %d has a card", seat)
		}
	}
}

// The stepped aisle lies between the sections, one step a row, as high as the rows.
func TestAisleSteps(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 4, 6), bleachers("B", 4, 6)), Card: letter(Eyes)}
	var treads []float64
	half := (24 * seating.Inch).Metres() // the aisle is 48 in wide, its middle at x = 0
	s.Each(func(p *Polygon) {
		if p.Part != PartStep || math.Abs(p.Points[0][0]) > half+1e-9 || p.Points[0][2] != p.Points[2][2] {
			return
		}
		if math.Abs(p.Points[0][0]+half) > 1e-9 || math.Abs(p.Points[1][0]-half) > 1e-9 {
			return // a row's own footboard
		}
		treads = append(treads, p.Points[0][2])
	})
	for r, z := range treads {
		if want := s.Stands.Sections[0].Rows[r].Height.Metres(); math.Abs(z-want) > 1e-12 {
			t.Errorf("step %d is %g m high, its row %g", r, z, want)
		}
	}
	if len(treads) != 4 {
		t.Errorf("%d steps for 4 rows", len(treads))
	}
}

// Hands err as they are told to: the mean near nothing, the spread near one deviation,
// the same every time, and other seeds err otherwise.
func TestShaken(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 40, 50)), Card: letter(Eyes)}
	const up, side, tilt = 0.04, 0.02, 8 * math.Pi / 180
	a, again, other := s.Shaken(1, up, side, tilt), s.Shaken(1, up, side, tilt), s.Shaken(2, up, side, tilt)
	type spread struct{ sum, squares float64 }
	var got [4]spread
	n, same := 0.0, 0
	for seat := range s.Stands.Seats {
		p, _ := s.CardQuad(seat)
		q, _ := a.CardQuad(seat)
		if r, _ := again.CardQuad(seat); r != q {
			t.Fatal("the same seed gives two answers")
		}
		if r, _ := other.CardQuad(seat); r == q {
			same++
		}
		middle := func(c [4]seating.Point, k int) float64 { return (c[0][k] + c[2][k]) / 2 }
		right := minus(q[1], q[0])
		up := minus(q[0], q[3])
		roll := math.Asin(right[2] / math.Sqrt(dot(right, right)))
		lean := math.Atan2(up[1], up[2])
		for i, x := range []float64{middle(q, 2) - middle(p, 2), middle(q, 0) - middle(p, 0), roll, lean} {
			got[i].sum += x
			got[i].squares += x * x
		}
		n++
	}
	for i, want := range []float64{up, side, tilt, tilt} {
		mean, deviation := got[i].sum/n, math.Sqrt(got[i].squares/n)
		// 2,000 seats: four standard errors.
		if math.Abs(mean) > 4*want/math.Sqrt(n) || math.Abs(deviation/want-1) > 4/math.Sqrt(2*n)+0.02 {
			t.Errorf("error %d: mean %g, deviation %g; want 0 and %g", i, mean, deviation, want)
		}
	}
	if same > 0 {
		t.Errorf("%d seats err alike under another seed", same)
	}
	if q, _ := s.CardQuad(3); math.Abs(q[0][2]-q[1][2]) > 0 {
		t.Error("Shaken changed the scene it was made from")
	}
}

// A card turned to the mark looks at it: its normal passes through the mark.
func TestCardToMark(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 5, 9)), Card: letter(Eyes), Mark: &seating.Point{6, -9, 5}}
	s.Card.ToMark = true
	for seat := range s.Stands.Seats {
		q, _ := s.CardQuad(seat)
		middle := seating.Point{(q[0][0] + q[2][0]) / 2, (q[0][1] + q[2][1]) / 2, (q[0][2] + q[2][2]) / 2}
		normal, _ := unit(cross(minus(q[1], q[0]), minus(q[0], q[3])))
		to, _ := unit(minus(*s.Mark, middle))
		if d := dot(normal, to); d < 1-1e-12 {
			t.Fatalf("seat %d looks %g degrees past the mark", seat, math.Acos(d)*180/math.Pi)
		}
		if q[0][2] != q[1][2] {
			t.Fatalf("seat %d's top edge is not level", seat)
		}
	}
	// A positive tilt leans the top back, away from the mark.
	s.Card.ToMark, s.Card.Tilt = false, 0.2
	if q, _ := s.CardQuad(0); q[0][1] <= q[3][1] {
		t.Error("a positive tilt leans the top forward")
	}
}
