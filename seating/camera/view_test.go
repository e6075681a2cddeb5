package camera

import (
	"errors"
	"math"
	"strings"
	"testing"

	"everyseat/seating"
)

// Fields of view against testdata/reference/fov.csv (COMPUTED by 2·atan(d/2f); the
// formula is universal), for a picture with the sensor's own proportions.
func TestFieldOfView(t *testing.T) {
	rows := table(t, "reference/fov.csv")
	for _, row := range rows {
		var w, h float64
		size := row["sensor"][strings.LastIndex(row["sensor"], " ")+1:]
		a, b, _ := strings.Cut(size, "x")
		w, h = number(t, a), number(t, b)
		picture := [2]int{int(w*100 + 0.5), int(h*100 + 0.5)}
		l := Lens{SensorWidth: w, SensorHeight: h, Focal: number(t, row["focal_mm"])}
		across := viewThrough(l, picture).Angle() * 180 / math.Pi
		down := 2 * math.Atan(float64(picture[1])/2/l.pixels(picture)) * 180 / math.Pi
		corner := 2 * math.Atan(math.Hypot(float64(picture[0]), float64(picture[1]))/2/l.pixels(picture)) * 180 / math.Pi
		at50 := 50 * float64(picture[0]) / l.pixels(picture)
		for _, c := range []struct{ got, want float64 }{
			{across, number(t, row["hfov_deg"])}, {down, number(t, row["vfov_deg"])}, {corner, number(t, row["dfov_deg"])}, {at50, number(t, row["width_at_50m_m"])},
		} {
			if math.Abs(c.got-c.want) > 6e-5 { // the table has four decimals
				t.Errorf("%s %s mm: %.5f, want %.4f", row["sensor"], row["focal_mm"], c.got, c.want)
			}
		}
	}
	if len(rows) != 30 {
		t.Errorf("%d lines in the table, not 30", len(rows))
	}
}

func viewThrough(l Lens, picture [2]int) *View {
	return &View{Width: picture[0], Focal: l.pixels(picture)}
}

// The three ways to give a lens agree, and a picture taller than the sensor crops its sides.
func TestLensWays(t *testing.T) {
	picture := [2]int{3600, 2400}
	sensor := Lens{SensorWidth: 36, SensorHeight: 24, Focal: 50}
	tape := Lens{Sees: 36 * seating.Metre, At: 50 * seating.Metre}
	angle := Lens{FieldOfView: viewThrough(sensor, picture).Angle() * 180 / math.Pi}
	for _, l := range []Lens{sensor, tape, angle} {
		if f := l.pixels(picture); math.Abs(f-5000) > 1e-9 {
			t.Errorf("%+v: %g px, want 5000", l, f)
		}
		if f := viewThrough(l, picture).FocalOn(36); math.Abs(f-50) > 1e-9 {
			t.Errorf("%+v: %g mm on full frame, want 50", l, f)
		}
	}
	if f := sensor.pixels([2]int{2400, 2400}); f != 5000 {
		t.Errorf("a square picture of a 36 × 24 sensor uses its height: %g px, want 5000", f)
	}
	if f := sensor.pixels([2]int{3600, 2025}); f != 5000 {
		t.Errorf("a wide picture uses the width: %g px, want 5000", f)
	}
	if d := viewThrough(Lens{}, [2]int{3840, 2160}).Angle() * 180 / math.Pi; math.Abs(d-65) > 1e-9 {
		t.Errorf("no lens given: %g degrees, want 65", d)
	}
}

func TestSincos(t *testing.T) {
	for x := -50.0; x < 50; x += 0.0137 {
		s, c := sincos(x)
		if math.Abs(s-math.Sin(x)) > 4e-16 || math.Abs(c-math.Cos(x)) > 4e-16 {
			t.Fatalf("sincos(%g) = %g, %g; want %g, %g", x, s, c, math.Sin(x), math.Cos(x))
		}
	}
}

// An automatic aim centres the cards' box, without roll, from wherever one stands.
func TestAutoAim(t *testing.T) {
	floor := seating.SectionSpec{Name: "F", Kind: seating.Floor, Rows: 4, Seats: []int{20}, Pitch: 24 * seating.Inch, Run: 36 * seating.Inch}
	crowd := floor
	crowd.NoCards = true
	for _, c := range []struct {
		m     Mark
		extra []seating.SectionSpec
		holds bool // the floor block is part of what is centred
	}{
		{mark(0, 20, 1.6), nil, false}, {mark(9, 12, 3), nil, false}, {mark(-20, 3, 8), nil, false},
		{mark(0, 30, 3), []seating.SectionSpec{floor}, true},
		{mark(0, 9, 2), []seating.SectionSpec{floor}, false},
		{mark(3, 20, 3), []seating.SectionSpec{crowd}, false},
	} {
		s := &Scene{Stands: build(t, append([]seating.SectionSpec{bleachers("A", 10, 12), bleachers("B", 12, 9)}, c.extra...)...), Card: letter(Eyes)}
		v := view(t, c.m, s)
		b := emptyBox()
		for seat := range s.Stands.Seats {
			q, ok := s.CardQuad(seat)
			if ok && (c.holds || s.Stands.Sections[s.Stands.Seats[seat].Section].Spec.Kind != seating.Floor) {
				for _, p := range q {
					at, _ := v.Project(p)
					b.add(at)
				}
			}
		}
		if math.Abs(b[0]+b[2]-3840) > 1e-5 || math.Abs(b[1]+b[3]-2160) > 1e-5 {
			t.Errorf("from %v: the box %v is not centred", c.m.Position(), b)
		}
		if r := v.Rotation; r[0][2] != 0 {
			t.Errorf("from %v: the camera rolls", c.m.Position())
		}
		checkRotation(t, v)
		if across, down := s.Fill(v); !c.holds && len(c.extra) == 0 && (math.Abs(across-(b[2]-b[0])/3840) > 1e-9 || math.Abs(down-(b[3]-b[1])/2160) > 1e-9) {
			t.Errorf("Fill says %g × %g", across, down)
		}
	}
}

// checkRotation wants an orthogonal matrix with determinant +1.
func checkRotation(t *testing.T, v *View) {
	t.Helper()
	r := v.Rotation
	for i := range 3 {
		for j := range 3 {
			want := 0.0
			if i == j {
				want = 1
			}
			if math.Abs(dot(r[i], r[j])-want) > 1e-12 {
				t.Errorf("R·Rᵀ[%d][%d] = %g", i, j, dot(r[i], r[j]))
			}
		}
	}
	if det := dot(r[0], cross(r[1], r[2])); math.Abs(det-1) > 1e-12 {
		t.Errorf("det R = %g", det)
	}
}

// A curved section is outermost in its middle or anywhere: every seat counts.
func TestAutoAimCurved(t *testing.T) {
	spec := bleachers("C", 6, 30)
	spec.Radius = 10 * seating.Metre
	s := &Scene{Stands: build(t, spec), Card: letter(Eyes)}
	v := view(t, mark(4, 8, 2), s)
	b := emptyBox()
	for seat := range s.Stands.Seats {
		q, _ := s.CardQuad(seat)
		for _, p := range q {
			at, _ := v.Project(p)
			b.add(at)
		}
	}
	if math.Abs(b[0]+b[2]-3840) > 1e-5 || math.Abs(b[1]+b[3]-2160) > 1e-5 {
		t.Errorf("the box %v is not centred", b)
	}
}

// In the middle of a horseshoe, where cards lie on three sides, the aim is the mean direction; no mark fails to find one.
func TestAutoAimAmidCards(t *testing.T) {
	left, right := bleachers("L", 4, 10), bleachers("R", 4, 10)
	left.Place = &seating.Place{Across: -4 * seating.Metre, Away: -5 * seating.Metre, Facing: 90}
	right.Place = &seating.Place{Across: 4 * seating.Metre, Away: -5 * seating.Metre, Facing: -90}
	s := &Scene{Stands: build(t, bleachers("A", 4, 15), left, right), Card: letter(Eyes)}
	for _, back := range []float64{2, 5, 7, 9} {
		v := view(t, mark(0, back, 1.6), s)
		checkRotation(t, v)
		if f := v.Rotation[2]; math.Abs(f[0]) > 1e-6 || back >= 7 && f[1] < 0.5 {
			t.Errorf("from %g m back it looks along %v", back, f)
		}
	}
}

func TestViewFaults(t *testing.T) {
	floor := seating.SectionSpec{Name: "F", Kind: seating.Floor, Rows: 4, Seats: []int{20}, Pitch: 24 * seating.Inch, Run: 36 * seating.Inch}
	curved := bleachers("C", 5, 9)
	curved.Radius = 20 * seating.Metre
	curved.Place = &seating.Place{Across: 30 * seating.Metre}
	s := &Scene{Stands: build(t, bleachers("A", 10, 12), bleachers("B", 10, 12), floor, curved), Card: letter(Eyes)}
	s.Obstacles = []Obstacle{{Name: "lamp", Kind: "box", Away: -15 * seating.Metre, Width: seating.Metre, Depth: seating.Metre, Height: 2 * seating.Metre}}
	nowhere := seating.Point{math.NaN(), 0, 0}
	up := seating.Point{0, -20, 50}
	away := seating.Point{0, -200, 1}
	person := s.Stands.Seats[s.Stands.Sections[2].First+3].Position
	inCurve := s.Stands.Seats[s.Stands.Sections[3].First+30].Position
	with := func(m Mark, change func(*Mark)) Mark {
		change(&m)
		return m
	}
	good := mark(0, 20, 3)
	for _, c := range []struct {
		name string
		mark Mark
		says string
	}{
		{"no height", mark(0, 20, 0), "height is missing"},
		{"below the floor", mark(0, 20, -1), "below the floor"},
		{"inside a section", mark(-4, -3, 1.5), "inside the stands, in section A, row 5"},
		{"under the back row", mark(-4, -6, 0.5), "inside the stands, in section A, row 10"},
		{"under the aisle", mark(0, -3, 0.5), "under the aisle beside section A"},
		{"inside a curve", mark(inCurve[0], -inCurve[1], inCurve[2]+0.5), "inside the stands, in section C"},
		{"inside a person on the floor", mark(person[0]+0.1, -person[1], 0.5), "inside the stands, in section F, row 1"},
		{"inside an obstacle", mark(0.3, 15, 1.5), `inside the obstacle "lamp"`},
		{"behind the stands", mark(-4, -30, 3), "no card's front"},
		{"looking away", with(good, func(m *Mark) { m.Aim = &away }), "no card's front"},
		{"aim nowhere", with(good, func(m *Mark) { m.Aim = &nowhere }), "no place within 10 km"},
		{"aim straight up", with(good, func(m *Mark) { m.Aim = &up }), "straight up or down"},
		{"far off", mark(0, 20000, 3), "20 km away"},
		{"half a picture", with(good, func(m *Mark) { m.Picture = [2]int{1920, 0} }), "1920 × 0 pixels"},
		{"a huge picture", with(good, func(m *Mark) { m.Picture = [2]int{16385, 100} }), "16385 × 100 pixels"},
		{"two ways", with(good, func(m *Mark) { m.Lens = Lens{FieldOfView: 60, Sees: 1, At: 1} }), "two ways at once"},
		{"a sensor alone", with(good, func(m *Mark) { m.Lens.SensorWidth = 36 }), "focal length is missing"},
		{"a lens alone", with(good, func(m *Mark) { m.Lens.Focal = 50 }), "sensor's width is missing"},
		{"a negative lens", with(good, func(m *Mark) { m.Lens = Lens{SensorWidth: 36, Focal: -50} }), "-50 mm cannot be"},
		{"a lens that is no number", with(good, func(m *Mark) { m.Lens = Lens{SensorWidth: 36, Focal: math.NaN()} }), "cannot be"},
		{"a negative angle", with(good, func(m *Mark) { m.Lens.FieldOfView = -5 }), "-5 degrees"},
		{"a half circle", with(good, func(m *Mark) { m.Lens.FieldOfView = 180 }), "180 degrees"},
		{"half a tape test", with(good, func(m *Mark) { m.Lens.Sees = seating.Metre }), "the tape test needs"},
		{"a tape test that no lens has", with(good, func(m *Mark) { m.Lens = Lens{Sees: 30 * seating.Metre, At: seating.Metre} }), "no lens sees 30.00 m at 1.00 m"},
	} {
		_, err := NewView(c.mark, s)
		var f *seating.Fault
		if !errors.As(err, &f) {
			t.Errorf("%s: %v is no fault", c.name, err)
			continue
		}
		if f.Key != "camera" || !strings.Contains(f.What, c.says) || f.Hint == "" || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %q, want something with %q, a key and a hint", c.name, err, c.says)
		}
	}
	m := mark(0, 20, 0)
	m.Key = "mark[1]"
	if _, err := NewView(m, s); err == nil || !strings.HasPrefix(err.Error(), "mark[1]: ") {
		t.Errorf("the mark's own key is not named: %v", err)
	}
	// Between people on the floor, in an aisle above its steps and over heads one may stand.
	for _, m := range []Mark{mark(person[0]+0.3, -person[1], 0.5), mark(0, -3, 6), mark(-4, -3, 5), mark(0.3, 15, 2.5)} {
		if err := (&m).checkInside(s); err != nil {
			t.Errorf("%v: %v", m.Position(), err)
		}
	}
	empty := &Scene{Stands: s.Stands, Card: s.Card, Absent: make([]bool, len(s.Stands.Seats))}
	for i := range empty.Absent {
		empty.Absent[i] = true
	}
	if _, err := NewView(good, empty); err == nil || !strings.Contains(err.Error(), "no cards to aim at") {
		t.Errorf("nobody there: %v", err)
	}
}
