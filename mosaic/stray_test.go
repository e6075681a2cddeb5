package mosaic

import (
	"strings"
	"testing"

	"everyseat/seating"
)

// The farthest multiple of a step that holds, whatever it is, in few tries.
func TestFarthest(t *testing.T) {
	const step, most = 25 * seating.Centimetre, 4 * seating.Metre
	for limit := range 18 {
		tries := 0
		r := Farthest(step, most, func(d seating.Length) (bool, End) {
			tries++
			return d <= seating.Length(limit)*step, EndRoom
		})
		want := Reach{seating.Length(min(limit, 16)) * step, EndRoom}
		if limit >= 16 {
			want.End = EndFar
		}
		if r != want || tries > 7 {
			t.Errorf("it holds up to %d steps: %+v after %d tries", limit, r, tries)
		}
	}
}

// A wall is the end of straying; what does not read at all may not stray.
func TestStray(t *testing.T) {
	p := mustMake(t, gullhaven())
	open, known := p.Stray()
	if !known || open.Left.Distance == 0 || open.Left.End != EndScore || open.Back.Distance < strayStep {
		t.Fatalf("in the open %+v", open)
	}
	if text := p.sayCamera(); !strings.Contains(text, "It may stray from the tape cross "+lesser(open.Left, open.Right).Says()+" to a side") {
		t.Error(text)
	}
	s := gullhaven()
	back := -s.Camera.Back - 60*seating.Centimetre
	s.Room.Walls = [][2]seating.Length{{-20 * seating.Metre, back}, {20 * seating.Metre, back}}
	walled, _ := mustMake(t, s).Stray()
	if walled.Back != (Reach{50 * seating.Centimetre, EndRoom}) || walled.Left != open.Left || walled.Nearer != open.Nearer {
		t.Errorf("a wall 60 cm behind the cross: %+v, in the open %+v", walled, open)
	}
	s = gullhaven()
	s.Camera.Back = 700 * seating.Metre // its letters have fewer pixels than any can be told by
	far := mustMake(t, s)
	if far.ReadsAtMark() {
		t.Fatal("it reads from 700 m: choose a place from which it does not")
	}
	if none, _ := far.Stray(); none != (Stray{}) || !strings.Contains(far.sayCamera(), "it may not stray") {
		t.Errorf("from where it does not read: %+v", none)
	}
}
