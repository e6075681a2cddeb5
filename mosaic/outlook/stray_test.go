package outlook

import (
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/testdata/fair"
)

// home is a stunt that surely reads from its camera.
func home() *mosaic.Stunt {
	s := fair.Stunt()
	s.Cues[0].Text = "HOME"
	return s
}

// A wall is the end of straying; what does not read at all may not stray.
func TestStray(t *testing.T) {
	open := of(t, fair.Plan(t, home()), Stray).Stray
	if open == nil || open.Left.Distance == 0 || open.Left.End != mosaic.EndScore || open.Back.Distance < StrayStep {
		t.Fatalf("in the open %+v", open)
	}
	s := home()
	back := -s.Camera.Back - 60*seating.Centimetre
	s.Room.Walls = [][2]seating.Length{{-20 * seating.Metre, back}, {20 * seating.Metre, back}}
	walled := of(t, fair.Plan(t, s), Stray).Stray
	if walled.Back != (mosaic.Reach{Distance: 50 * seating.Centimetre, End: mosaic.EndRoom}) || walled.Left != open.Left || walled.Nearer != open.Nearer {
		t.Errorf("a wall 60 cm behind the cross: %+v, in the open %+v", walled, open)
	}
	s = fair.Stunt()
	s.Camera.Back = 700 * seating.Metre // its letters have fewer pixels than any can be told by
	away := fair.Plan(t, s)
	if away.ReadsAtMark() {
		t.Fatal("it reads from 700 m: choose a place from which it does not")
	}
	if none := of(t, away, Stray).Stray; none == nil || *none != (Reaches{}) {
		t.Errorf("from where it does not read: %+v", none)
	}
}

// Among more than a few thousand seats nobody looks.
func TestStrayOfManySeats(t *testing.T) {
	if got := of(t, &mosaic.Plan{Stands: &seating.Stands{Seats: make([]seating.Seat, straySeats+1)}, Marks: make([]mosaic.Mark, 1)}, Stray).Stray; got != nil {
		t.Errorf("%+v", got)
	}
}

func BenchmarkStray450(b *testing.B) {
	p := fair.Plan(b, home())
	for b.Loop() {
		of(b, p, Stray)
	}
}
