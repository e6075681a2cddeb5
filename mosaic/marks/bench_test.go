package marks

import (
	"testing"

	"everyseat/seating"
)

// The whole map of 450 seats: 40 × 40 places as the plan is, 8 × 8 and around the best planned anew.
func BenchmarkMap450(b *testing.B) {
	p := planned(b, fair("LAMP"))
	for b.Loop() {
		if _, err := Search(p, Options{Heights: []seating.Length{3 * seating.Metre}}); err != nil {
			b.Fatal(err)
		}
	}
}

// The same at three heights, which is what everyseat marks does where the stunt's own is neither 1.6 m nor 3 m.
func BenchmarkMap450ThreeHeights(b *testing.B) {
	s := fair("LAMP")
	s.Camera.Height = 2 * seating.Metre
	p := planned(b, s)
	for b.Loop() {
		if _, err := Search(p, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
