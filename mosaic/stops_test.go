package mosaic_test

import (
	"context"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/testdata/fair"
)

// Planning stops wherever its context ends, with the context's error and no plan: before each further mark, and before
// each cue is laid out and is read.
func TestMakeContextStops(t *testing.T) {
	s := fair.Crowded()
	s.Marks = []camera.Mark{{Name: "gallery", Across: -3 * seating.Metre, Back: 20 * seating.Metre, Height: 5 * seating.Metre}}
	looks := int64(len(s.Marks) + 2*len(s.Cues))
	for n := range looks + 1 {
		switch p, err := mosaic.MakeContext(fair.EndsAfter(n), s); {
		case n < looks && (p != nil || err != context.Canceled):
			t.Errorf("its context ends at look %d, and it is made: %v, error %v", n+1, p != nil, err)
		case n == looks && err != nil:
			t.Errorf("its context lasts: %v", err)
		}
	}
}
