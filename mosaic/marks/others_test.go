package marks

import (
	"slices"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Other places for the camera are in the room, out of lanes, and inside the places that are allowed.
func TestOthers(t *testing.T) {
	s := fair("HI")
	s.Camera = camera.Mark{Across: -5 * m, Back: 12 * m, Height: 2 * m}
	stands, err := seating.Build(s.Stands)
	if err != nil {
		t.Fatal(err)
	}
	open := Others(s, stands)
	if len(open) < 6 || open[0] != (Place{-5 * m, 12 * m, 3 * m}) || !slices.Contains(open, Place{0, 12 * m, 2 * m}) {
		t.Errorf("on an open floor: %v", open)
	}
	s.Room.Walls = [][2]seating.Length{{-12 * m, 12 * m}, {-12 * m, -13 * m}, {12 * m, -13 * m}, {12 * m, 12 * m}}
	s.Stands.Lanes = []seating.Lane{{Name: "middle", Left: -m, Right: m, Near: -13 * m, Far: 0}}
	if stands, err = seating.Build(s.Stands); err != nil {
		t.Fatal(err)
	}
	closed := Others(s, stands)
	if len(closed) == 0 || len(closed) >= len(open) {
		t.Errorf("between walls: %v", closed)
	}
	for _, p := range closed {
		if p.Back > 13*m || p.Across == 0 && p.Height < overHeads {
			t.Errorf("behind the wall, or in the lane: %v", p)
		}
	}
	s.Room.Spots = []mosaic.Spot{{Name: "gallery", Left: -6 * m, Right: 6 * m, Near: -20 * m, Far: -18 * m, Heights: []seating.Length{4 * m}}}
	if got, want := Others(s, stands), []Place{{0, 19 * m, 4 * m}, {-4 * m, 19 * m, 4 * m}, {4 * m, 19 * m, 4 * m}}; !slices.Equal(got, want) {
		t.Errorf("in the gallery: %v, want %v", got, want)
	}
}
