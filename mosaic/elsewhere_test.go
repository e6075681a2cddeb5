package mosaic

import (
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
