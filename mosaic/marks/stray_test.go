package marks_test

import (
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/marks"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
)

// How far the camera may stray by the outlook's quick look is what the map's careful look says, to a step.
func TestStrayAgreesWithTheOutlook(t *testing.T) {
	for _, word := range []string{"LAMP", "HI"} {
		p, err := mosaic.Make(marks.Fair(word))
		if err != nil {
			t.Fatal(err)
		}
		o, err := outlook.Of(t.Context(), p, outlook.Stray, func(string) {})
		if err != nil || o.Stray == nil {
			t.Fatalf("the outlook does not know: %v", err)
		}
		careful, quick := marks.Strays(p), o.Stray
		for way, pair := range map[string][2]marks.Reach{
			"left": {careful.Left, quick.Left}, "right": {careful.Right, quick.Right},
			"nearer": {careful.Forward, quick.Nearer}, "back": {careful.Back, quick.Back},
		} {
			far := min(pair[0].Distance, 4*seating.Metre) // the outlook looks no farther
			if d := far - pair[1].Distance; max(d, -d) > outlook.StrayStep {
				t.Errorf("%s, %s: %v by the map, %v by the outlook", word, way, pair[0].Distance, pair[1].Distance)
			}
		}
	}
}
