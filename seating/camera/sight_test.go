package camera

import (
	"math"
	"reflect"
	"runtime"
	"testing"

	"everyseat/seating"
)

// One row, straight on: everything is seen, everything is where the formula puts it.
func TestSeenAlone(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 1, 9)), Card: letter(Eyes)}
	v := view(t, mark(0, 10, 1.6), s)
	sight := s.See(v)
	for seat := range s.Stands.Seats {
		if sight.Seen[seat] != 1 || sight.Behind[seat] || !sight.InFrame[seat] || sight.Hider[seat] != -1 || sight.HiderOf[seat] != -1 {
			t.Errorf("seat %d: seen %g, behind %v, in frame %v, hidden by %d of %d", seat, sight.Seen[seat], sight.Behind[seat], sight.InFrame[seat], sight.Hider[seat], sight.HiderOf[seat])
		}
		size, middle := area(sight.Corners[seat][:])
		if math.Abs(float64(sight.Pixels[seat])/size-1) > 1e-6 || math.Hypot(sight.Centre[seat][0]-middle[0], sight.Centre[seat][1]-middle[1]) > 1e-9 {
			t.Errorf("seat %d: %g px at %v, want %g at %v", seat, sight.Pixels[seat], sight.Centre[seat], size, middle)
		}
		if c := sight.Corners[seat]; !(c[0][0] < c[1][0] && c[0][1] < c[3][1] && c[3][0] < c[2][0]) {
			t.Errorf("seat %d: corners do not run top-left, top-right, bottom-right, bottom-left: %v", seat, c)
		}
	}
}

// Who hides whom, where it is plain.
func TestHider(t *testing.T) {
	two := bleachers("A", 2, 3)
	two.Rise, two.FirstRow = seating.Millimetre, 0 // one row right behind the other on level ground
	wall := Obstacle{Kind: "box", Away: -2 * seating.Metre, Width: 9 * seating.Metre, Depth: 10 * seating.Centimetre, Height: 3 * seating.Metre}
	standing := seating.SectionSpec{Name: "F", Kind: seating.Floor, Posture: seating.Standing, Rows: 1, Seats: []int{9}, Pitch: 45 * seating.Centimetre, Run: 36 * seating.Inch, NoCards: true}
	railed := bleachers("R", 2, 1)
	railed.Reserved = []seating.Reserved{{For: "rail", Seats: []seating.SeatRange{{Row: "1", From: 1, To: 1}}}}
	railed.Rise = 20 * seating.Centimetre
	for name, c := range map[string]struct {
		scene  *Scene
		seat   int
		part   Part
		owner  int32
		height float64
	}{
		"a card":      {&Scene{Stands: build(t, two), Card: Card{Width: 45 * seating.Centimetre, Height: 45 * seating.Centimetre, Held: Eyes}}, 4, PartCard, 1, 1.1},
		"a body":      {&Scene{Stands: build(t, two), Card: letter(Chest)}, 4, PartCard, 1, 0.9},
		"an obstacle": {&Scene{Stands: build(t, bleachers("A", 1, 3)), Card: letter(Eyes), Obstacles: []Obstacle{wall}}, 1, PartBox, -1, 1.5},
		"the floor":   {&Scene{Stands: build(t, bleachers("A", 1, 3), standing), Card: letter(Eyes)}, 1, PartBody, 7, 1.3},
		"a rail":      {&Scene{Stands: build(t, railed), Card: Card{Width: 30 * seating.Centimetre, Height: 10 * seating.Centimetre, Held: Chest}}, 1, PartRail, 0, 1.35},
	} {
		s := c.scene
		sight := s.See(view(t, mark(0, 12, c.height), s))
		if sight.Hider[c.seat] != int8(c.part) || sight.HiderOf[c.seat] != c.owner || sight.Seen[c.seat] > 0.9 {
			t.Errorf("%s: seat %d shows %g, hidden by part %d of %d; want part %d of %d", name, c.seat, sight.Seen[c.seat], sight.Hider[c.seat], sight.HiderOf[c.seat], c.part, c.owner)
		}
	}
}

// Cards behind the lens, seen from behind, and cut by the frame.
func TestBehindAndFrame(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 3, 9)), Card: letter(Eyes)}
	v := view(t, mark(0, 8, 2), s)

	back := *v
	back.Position = seating.Point{0, 12, 2.5}
	back.look([3]float64{0, -1, 0})
	away := *v
	away.look([3]float64{0, -1, 0})
	for name, w := range map[string]*View{"from behind": &back, "looking away": &away} {
		sight := s.See(w)
		for seat := range s.Stands.Seats {
			if !sight.Behind[seat] || sight.Seen[seat] != 0 || sight.Pixels[seat] != 0 {
				t.Fatalf("%s: seat %d is seen", name, seat)
			}
		}
	}

	// The frame's right edge runs exactly through the middle of the middle card.
	half := *v
	half.look([3]float64{0, 1, 0})
	half.Center[0] = float64(half.Width)
	sight := s.See(&half)
	if got := sight.Seen[4]; math.Abs(float64(got)-0.5) > 1e-6 || sight.InFrame[4] {
		t.Errorf("a card cut in half shows %g, in frame %v", got, sight.InFrame[4])
	}
	if sight.Seen[5] != 0 || sight.InFrame[5] || sight.Behind[5] {
		t.Errorf("a card outside the frame shows %g", sight.Seen[5])
	}
	if sight.Seen[3] < 0.99 || !sight.InFrame[3] {
		t.Errorf("a card inside the frame shows %g", sight.Seen[3])
	}
	if c := sight.Centre[4]; !(c[0] < float64(half.Width)) {
		t.Errorf("the middle of what is seen, %v, lies outside the frame", c)
	}
}

// The number of cores changes nothing, and neither does leaving out what cannot be seen.
func TestSeeIsTheSameEverywhere(t *testing.T) {
	s := crowded(t)
	v := view(t, mark(2, 14, 1.8), s)
	want := s.See(v)
	for _, cores := range []int{1, 3} {
		before := runtime.GOMAXPROCS(cores)
		got := s.See(v)
		runtime.GOMAXPROCS(before)
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%d cores see otherwise", cores)
		}
	}
	all := make([]bool, len(s.Stands.Seats))
	for i := range all {
		all[i] = true
	}
	few := make([]bool, len(all))
	for i := range few {
		few[i] = i%7 == 2
	}
	if got := s.see(v, mostSamples, all); !reflect.DeepEqual(got, want) {
		t.Error("asked for all by name, it sees otherwise")
	}
	got := s.see(v, mostSamples, few)
	for i := range few {
		if few[i] && math.Abs(float64(got.Seen[i]-want.Seen[i])) > 0.05 {
			t.Errorf("seat %d shows %g among few, %g among all", i, got.Seen[i], want.Seen[i])
		}
	}
}

// People's boxes leave nothing of them out: drawing everything everywhere gives the same.
func TestNothingIsCulledThatShows(t *testing.T) {
	for _, held := range []Held{Lap, Chest, Eyes, Overhead} {
		s := crowded(t).Shaken(3, 0.1, 0.1, 0.4)
		s.Card.Held = held
		v := view(t, mark(2, 9, 2.2), s)
		for item := range s.items() {
			r := &seeing{Scene: s, view: v}
			drawn, kept := r.drawnReach(item), r.reachOf(item)
			if drawn[0] <= drawn[2] && (kept[0] > drawn[0]+2 || kept[1] > drawn[1]+2 || kept[2] < drawn[2]-2 || kept[3] < drawn[3]-2) {
				t.Fatalf("held %s: item %d is drawn in %v, its box is %v", held, item, drawn, kept)
			}
		}
	}
}

// At least 64 samples a card, also in stands so far away that the picture has fewer pixels.
func TestSamplesEnough(t *testing.T) {
	for name, c := range map[string]struct {
		rows, seats int
		back        float64
	}{"near": {10, 20, 12}, "far": {60, 60, 300}} {
		s := &Scene{Stands: build(t, bleachers("A", c.rows, c.seats)), Card: letter(Overhead)}
		m := mark(0, c.back, 6)
		m.Picture = [2]int{1280, 720}
		v := view(t, m, s)
		r := &seeing{Scene: s, view: v, sight: newSight(len(s.Stands.Seats)), samples: leastSamples, cards: make([]card, len(s.Stands.Seats)), reaches: make([]reach, s.items())}
		for seat := range s.Stands.Seats {
			r.shoot(seat, true)
		}
		window, _ := r.window()
		r.divide(window)
		alone := map[int32]int64{}
		for i := range r.bands {
			cv := canvas{view: v}
			cv.begin(r.bands[i].grid)
			for seat := range s.Stands.Seats {
				q, _ := s.CardQuad(seat)
				if cv.place(q[:]) {
					p := piece{seat: int32(seat)}
					cv.count(&p)
					alone[p.seat] += p.alone
				}
			}
		}
		least := int64(math.MaxInt64)
		for _, n := range alone {
			least = min(least, n)
		}
		t.Logf("%s: %d cards of %.1f px, at least %d samples each", name, len(alone), r.cards[0].size, least)
		if len(alone) != len(s.Stands.Seats) || least < leastSamples {
			t.Errorf("%s: %d cards, one has %d samples", name, len(alone), least)
		}
	}
}

// Memory is bounded: a picture of 16,384 pixels each way, with a card right before the lens.
func TestHugePictureNearCard(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 3, 4)), Card: letter(Eyes)}
	q, _ := s.CardQuad(1)
	m := mark(q[0][0], -q[0][1]+0.5, q[0][2])
	m.Picture = [2]int{maxPicture, maxPicture}
	v := view(t, m, s)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	sight := s.See(v)
	runtime.ReadMemStats(&after)
	if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 200 {
		t.Errorf("%d MiB were used", used)
	}
	if mean(sight.Seen) == 0 {
		t.Error("nothing is seen")
	}
}

// Cards' seen share by lens height and by how the card is held, over a handful of
// stands; an older study of our own with smaller people had .40 to .49 at the chest and
// .77 to .82 before the face from 1.6 m. Printed with -v; the order is what is checked.
func TestSeenShareTable(t *testing.T) {
	stands := map[string][]seating.SectionSpec{
		"12 × 36":          {bleachers("A", 12, 36)},
		"15 × 30, 1 aisle": {bleachers("A", 15, 15), bleachers("B", 15, 15)},
		"20 × 45, 2":       {bleachers("A", 20, 15), bleachers("B", 20, 15), bleachers("C", 20, 15)},
	}
	last := map[float64]float64{}
	for _, held := range []Held{Chest, Chin, Eyes, Overhead} {
		for _, height := range []float64{1.6, 3, 4, 8} {
			low, high := 1.0, 0.0
			for _, specs := range stands {
				s := &Scene{Stands: build(t, specs...), Card: letter(held)}
				for _, back := range []float64{16, 30} {
					m := mean(s.SeeWith(view(t, mark(0, back, height), s), leastSamples).Seen)
					low, high = min(low, m), max(high, m)
				}
			}
			t.Logf("%-8s lens at %3g m: %.2f to %.2f", held, height, low, high)
			if low < last[height] {
				t.Errorf("held %s, lens at %g m: %g is seen, less than held lower (%g)", held, height, low, last[height])
			}
			last[height] = low
		}
	}
}
