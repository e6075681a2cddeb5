package sheets

import (
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// walkingCamera is the hall with a camera that goes 6 m back, and one that stands still.
func walkingCamera(t *testing.T, walks bool) *mosaic.Plan {
	t.Helper()
	s := hall()
	s.Camera.Across = 0
	s.Camera.Back = 10 * seating.Metre
	s.Walks = walks
	s.Marks = []camera.Mark{
		{Name: "bend", Back: 13 * seating.Metre, Height: 3 * seating.Metre, Picture: [2]int{1920, 1080}},
		{Name: "end", Across: 3 * seating.Metre, Back: 13 * seating.Metre, Height: 3 * seating.Metre, Picture: [2]int{1920, 1080}},
	}
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A camera that walks gets its path and its last steps; worked by hand: 3 m straight back, then 3 m to the right, 6 m in
// all, 9 steps of 70 cm, and short tapes at 2.1, 1.4 and 0.7 m. It is still one page.
func TestCameraWalks(t *testing.T) {
	p := walkingCamera(t, true)
	text := saidOn(t, "camera.pdf", p)
	for _, want := range []string{
		"3.00 m (9 ft 10 in) BACKWARD to “bend” (13.00 m (42 ft 8 in) in front of the front row, in the middle",
		"then 3.00 m (9 ft 10 in) to the right to “end” (13.00 m (42 ft 8 in) in front of the front row, 3.00 m (9 ft 10 in) RIGHT of the middle",
		"In all 6.00 m (19 ft 8 in), about 9 steps of 70 cm and 9 s.",
		"2.10 m (6 ft 11 in), 1.40 m (4 ft 7 in), 0.70 m (2 ft 4 in) before the last cross, “end”, are the last 3 steps",
		"has a spotter",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	for _, paper := range []string{"Letter", "A5"} {
		q := *p
		stunt := *p.Stunt
		stunt.Print.Paper = paper
		q.Stunt = &stunt
		if n := len(pageWords(t, onPaper(t, "camera.pdf", &q))); n != 1 {
			t.Errorf("%d pages on %s", n, paper)
		}
	}
	if text := saidOn(t, "camera.pdf", walkingCamera(t, false)); strings.Contains(text, "Last steps") || !strings.Contains(text, "The camera stands still.") {
		t.Error("a camera that stands still is told to walk")
	}
}

// The packet's map shows the exits by name, and says how many there are and how wide; without any it asks for them.
func TestPacketExits(t *testing.T) {
	p := inHall(t, func(s *mosaic.Stunt) {
		s.Room.Exits = []mosaic.Exit{
			{Name: "harbour door", Across: -12 * seating.Metre, Away: -3 * seating.Metre, Width: 180 * seating.Centimetre},
			{Across: 4 * seating.Metre, Away: -18 * seating.Metre},
		}
	})
	text := saidOn(t, "packet.pdf", p)
	for _, want := range []string{"EXIT harbour door", "2 exits: harbour door (1.80 m (5 ft 11 in) wide), one without a name."} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
	if text := saidOn(t, "packet.pdf", inHall(t, nil)); !strings.Contains(text, "holds no exits") {
		t.Error("without exits nobody asks for them")
	}
	f := newFloorPlan(p, 0, 0, 180, 180)
	across := func(exit int) bool {
		w, d := f.door(&p.Stunt.Room.Exits[exit])
		return w > d
	}
	if across(0) || !across(1) {
		t.Error("an exit lies across its wall")
	}
}
