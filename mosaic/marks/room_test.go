package marks

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

const m = seating.Metre

func walls(metres ...[2]float64) [][2]seating.Length {
	var out [][2]seating.Length
	for _, c := range metres {
		out = append(out, [2]seating.Length{length(c[0]), length(c[1])})
	}
	return out
}

func floorPlace(across, back float64) Place {
	return Place{length(across), length(back), 160 * seating.Centimetre}
}

// Worked by hand on paper: which side a point is on, which stretches meet.
func TestTurnsAndCrossings(t *testing.T) {
	if turn(corner{0, 0}, corner{4, 0}, corner{0, 3}) != 12 || turn(corner{0, 0}, corner{4, 0}, corner{0, -3}) != -12 || turn(corner{0, 0}, corner{4, 2}, corner{8, 4}) != 0 {
		t.Error("turns are wrong")
	}
	for _, c := range []struct {
		a, b, c, d corner
		want       bool
	}{
		{corner{0, 0}, corner{4, 4}, corner{0, 4}, corner{4, 0}, true},
		{corner{0, 0}, corner{4, 4}, corner{4, 4}, corner{9, 0}, true},  // an end in common
		{corner{0, 0}, corner{4, 0}, corner{2, 0}, corner{2, 5}, true},  // a T
		{corner{0, 0}, corner{4, 0}, corner{5, 0}, corner{9, 0}, false}, // in line, apart
		{corner{0, 0}, corner{4, 0}, corner{3, 0}, corner{9, 0}, true},  // in line, together
		{corner{0, 0}, corner{4, 4}, corner{3, 2}, corner{9, 0}, false},
	} {
		if got := crosses(c.a, c.b, c.c, c.d); got != c.want {
			t.Errorf("%v–%v and %v–%v: %v", c.a, c.b, c.c, c.d, got)
		}
	}
}

// Points of an L-shaped hall, worked by hand.
func TestInsideAnLShape(t *testing.T) {
	hall := []corner{{-10, 0}, {-10, -20}, {0, -20}, {0, -10}, {10, -10}, {10, 0}}
	for _, c := range []struct {
		p    corner
		want bool
	}{
		{corner{-5, -15}, true}, {corner{5, -5}, true}, {corner{5, -15}, false}, {corner{11, -5}, false},
		{corner{-11, -10}, false}, {corner{0, -15}, true}, {corner{5, -10}, true}, {corner{-10, -20}, true}, {corner{-5, 1}, false},
		{corner{-5, -10}, true}, {corner{5, -11}, false}, {corner{-3, -20}, true}, {corner{3, -20}, false},
	} {
		if got := inside(hall, c.p); got != c.want {
			t.Errorf("%v inside: %v", c.p, got)
		}
	}
}

// Going round the other way, or starting elsewhere, is the same hall.
func TestInsideDoesNotDependOnTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hall := []corner{{-10, 0}, {-10, -20}, {0, -20}, {0, -10}, {10, -10}, {10, 0}}
		p := corner{rapid.Int64Range(-14, 14).Draw(t, "x"), rapid.Int64Range(-24, 4).Draw(t, "y")}
		want := p.x >= -10 && p.x <= 0 && p.y >= -20 && p.y <= 0 || p.x >= -10 && p.x <= 10 && p.y >= -10 && p.y <= 0
		from := rapid.IntRange(0, 5).Draw(t, "from")
		var forth, back []corner
		for i := range hall {
			forth = append(forth, hall[(from+i)%6])
			back = append(back, hall[(from+6-i)%6])
		}
		if inside(forth, p) != want || inside(back, p) != want {
			t.Errorf("%v: %v forth, %v back, want %v", p, inside(forth, p), inside(back, p), want)
		}
	})
}

func roomOf(t *testing.T, change func(*mosaic.Stunt)) *room {
	t.Helper()
	s := fair("HI")
	change(s)
	return newRoom(planned(t, s))
}

func expectRefusal(t *testing.T, r *room, at Place, want refusal) {
	t.Helper()
	if got := r.refuses(at); got != want {
		t.Errorf("%v: %d, want %d", at, got, want)
	}
}

func TestWallsThatGoAllTheWayRound(t *testing.T) {
	r := roomOf(t, func(s *mosaic.Stunt) {
		s.Room.Walls = walls([2]float64{-12, 12}, [2]float64{-12, -25}, [2]float64{12, -25}, [2]float64{12, 12})
	})
	if !r.ring {
		t.Fatal("four walls around the stands are no ring")
	}
	expectRefusal(t, r, floorPlace(0, 10), free)
	expectRefusal(t, r, floorPlace(0, 25.5), behindWall)
	expectRefusal(t, r, floorPlace(0, 24.75), behindWall) // nearer to the wall than half a tripod
	expectRefusal(t, r, floorPlace(0, 24.65), free)
	expectRefusal(t, r, floorPlace(13, 10), behindWall)
}

func TestWallsThatStop(t *testing.T) {
	r := roomOf(t, func(s *mosaic.Stunt) { s.Room.Walls = walls([2]float64{-10, -12}, [2]float64{10, -12}) })
	if r.ring {
		t.Fatal("one wall is a ring")
	}
	expectRefusal(t, r, floorPlace(0, 11), free)
	expectRefusal(t, r, floorPlace(0, 15), behindWall)
	// Far enough aside one looks past the wall's end: from (30, −15) the way to (0, −0.5) passes
	// away −12 at across 23.8.
	expectRefusal(t, r, floorPlace(30, 15), free)
	// A corner of two walls stays open on the far side.
	r = roomOf(t, func(s *mosaic.Stunt) {
		s.Room.Walls = walls([2]float64{-10, 0}, [2]float64{-10, -12}, [2]float64{10, -12})
	})
	if r.ring {
		t.Fatal("two walls are a ring")
	}
	expectRefusal(t, r, floorPlace(5, 10), free)
	expectRefusal(t, r, floorPlace(-11, 5), behindWall)
	expectRefusal(t, r, floorPlace(0, 13), behindWall)
}

func TestObstaclesLanesAndPeople(t *testing.T) {
	r := roomOf(t, func(s *mosaic.Stunt) {
		s.Room.Obstacles = []camera.Obstacle{
			{Name: "BOX", Kind: "box", Across: 3 * m, Away: -8 * m, Width: m, Depth: m, Height: m},
			{Name: "HOOP", Kind: "hoop", Across: -3 * m, Away: -8 * m, Width: m, Depth: m, Bottom: 290 * seating.Centimetre, Height: m},
		}
		s.Stands.Lanes = []seating.Lane{{Name: "way", Left: -m, Right: m, Near: -30 * m, Far: 0}}
		s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
			Name: "QUAY", Kind: seating.Floor, Rows: 2, Seats: []int{4}, Pitch: m, Run: m, NoCards: true,
			Place: &seating.Place{Across: 6 * m, Away: -4 * m},
		})
	})
	expectRefusal(t, r, floorPlace(3.69, 8), onObstacle) // half a metre of box and 20 cm
	expectRefusal(t, r, floorPlace(3.71, 8), free)
	expectRefusal(t, r, floorPlace(-3, 8), free) // a hoop hangs over it
	expectRefusal(t, r, floorPlace(0.9, 8), inLane)
	expectRefusal(t, r, floorPlace(1.1, 8), free)
	high := floorPlace(0, 8)
	high.Height = 3 * m
	expectRefusal(t, r, high, free)                    // people pass below
	expectRefusal(t, r, floorPlace(4.1, 3.1), onSeats) // the block reaches from 4 to 8 across and from −4 to −2 away
	expectRefusal(t, r, floorPlace(3.9, 3.1), free)
	expectRefusal(t, r, floorPlace(5, -1), onSeats) // within the stands
}

func TestSpots(t *testing.T) {
	r := roomOf(t, func(s *mosaic.Stunt) {
		s.Room.Spots = []mosaic.Spot{{Name: "gallery", Left: -4 * m, Right: 4 * m, Near: -21 * m, Far: -20 * m, Heights: []seating.Length{4 * m}}}
	})
	at := Place{0, 20500 * seating.Millimetre, 4 * m}
	expectRefusal(t, r, at, free)
	at.Height = 3 * m
	expectRefusal(t, r, at, noSpot)
	at.Height, at.Across = 4*m, 5*m
	expectRefusal(t, r, at, noSpot)
}

// Places are on whole centimetres, within their patch, in order, and alike on both sides.
func TestPatchPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := seating.Length(rapid.IntRange(100, 5000).Draw(t, "half")) * seating.Centimetre
		near := seating.Length(rapid.IntRange(0, 500).Draw(t, "near")) * seating.Centimetre
		cols, rows := rapid.IntRange(1, 40).Draw(t, "cols"), rapid.IntRange(1, 40).Draw(t, "rows")
		p := newPatch("", extent{-half, half, -near - 20*m, -near}, 3*m, cols, rows)
		for c := range cols {
			at := p.At(c, 0)
			if at.Across != -p.At(cols-1-c, 0).Across || at.Across%seating.Centimetre != 0 || at.Across < -half || at.Across > half {
				t.Fatalf("column %d of %d is at %v, its mirror at %v", c, cols, at.Across, p.At(cols-1-c, 0).Across)
			}
		}
		for r := range rows {
			if at := p.At(0, r); at.Back < near || at.Back > near+20*m || r > 0 && at.Back <= p.At(0, r-1).Back {
				t.Fatalf("row %d is %v back", r, at.Back)
			}
		}
	})
}

func TestFaultsOfTheRoom(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*mosaic.Stunt)
		key    string
	}{
		"a place behind the stands": {func(s *mosaic.Stunt) {
			s.Room.Spots = []mosaic.Spot{{Left: -m, Right: m, Near: 20 * m, Far: 22 * m}}
		}, "room.camera"},
		"a room without floor": {func(s *mosaic.Stunt) {
			s.Room.Walls = walls([2]float64{-12, 12}, [2]float64{-12, -0.6}, [2]float64{12, -0.6}, [2]float64{12, 12})
		}, "room.walls"},
	} {
		s := fair("HI")
		c.change(s)
		_, err := Search(planned(t, s), Options{Places: 8})
		f, ok := err.(*seating.Fault)
		if !ok || f.Key != c.key || f.What == "" || f.Hint == "" {
			t.Errorf("%s: %#v", name, err)
		}
	}
}

// A mark in a lane, or where a door swings, is warned about with a way out that has no such warning; a balcony that the
// room names is none of it. Worked by hand.
func TestMarksInTheWay(t *testing.T) {
	lane := func(s *mosaic.Stunt) {
		s.Stands.Lanes = []seating.Lane{{Name: "way", Left: -m, Right: 2 * m, Near: -30 * m, Far: 0}}
	}
	door := func(s *mosaic.Stunt) {
		s.Room.Exits = []mosaic.Exit{{Name: "main", Across: 0, Away: -19 * m, Width: 150 * seating.Centimetre}}
	}
	at := func(across, back, height float64) func(*mosaic.Stunt) {
		return func(s *mosaic.Stunt) {
			s.Camera.Across, s.Camera.Back, s.Camera.Height = length(across), length(back), length(height)
		}
	}
	for _, c := range []struct {
		name   string
		change []func(*mosaic.Stunt)
		key    string
		want   []string // none = nothing is said
	}{
		{"in the lane", []func(*mosaic.Stunt){lane, at(0, 18, 1.6)}, "camera", []string{`The camera stands in the lane "way"`, "move it 1.30 m (4 ft 3 in) to the left."}},
		{"out of it", []func(*mosaic.Stunt){lane, at(-1.3, 18, 1.6)}, "", nil},
		{"high in the lane", []func(*mosaic.Stunt){lane, at(1, 18, 3)}, "camera", []string{"1.30 m (4 ft 3 in) to the right", "balcony"}},
		{"on a balcony", []func(*mosaic.Stunt){lane, door, at(0, 18, 3), func(s *mosaic.Stunt) {
			s.Room.Spots = []mosaic.Spot{{Left: -m, Right: m, Near: -19 * m, Far: -17 * m}}
		}}, "", nil},
		{"at the door", []func(*mosaic.Stunt){door, at(0, 18, 1.6)}, "camera", []string{`1.00 m (3 ft 3 in) from the door "main", which swings 1.50 m`, "move it 0.80 m (2 ft 7 in) farther away."}},
		{"away from it", []func(*mosaic.Stunt){door, at(0, 17.2, 1.6)}, "", nil},
		{"a further mark", []func(*mosaic.Stunt){lane, at(-3, 18, 3), func(s *mosaic.Stunt) {
			s.Marks = []camera.Mark{{Name: "stage", Across: m, Back: 18 * m, Height: 160 * seating.Centimetre, Picture: s.Camera.Picture}}
		}}, "mark[0]", []string{`The mark "stage" stands in the lane`}},
		{"walked over", []func(*mosaic.Stunt){lane, at(-3, 18, 3), func(s *mosaic.Stunt) {
			s.Marks, s.Walks = []camera.Mark{{Name: "stage", Across: m, Back: 18 * m, Height: 160 * seating.Centimetre, Picture: s.Camera.Picture}}, true
		}}, "", nil},
	} {
		s := fair("HI")
		for _, change := range c.change {
			change(s)
		}
		p := planned(t, s)
		got := (&search{plan: p, room: newRoom(p)}).inTheWay(s.Walks)
		if len(c.want) == 0 && len(got) > 0 || len(c.want) > 0 && (len(got) != 1 || got[0].Key != c.key) {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(got[0].Text, want) {
				t.Errorf("%s: %q is not in %q", c.name, want, got[0].Text)
			}
		}
	}
}
