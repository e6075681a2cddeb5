package legibility

import (
	"slices"
	"testing"
)

// A card that looks like ink is ink to the picture, whatever the plan calls it, and one half way between is half way; what a
// label covers shows the label.
func TestTints(t *testing.T) {
	f := block(8, 20, 0)
	c := NewCanvas(f, Straight(f))
	n := len(f.Seats)
	middle := func(ink bool, tint Tint) float32 {
		var p Patch
		p.Show(c, slices.Repeat([]bool{ink}, n), slices.Repeat([]Tint{tint}, n), nil)
		return p.px(c.W/2, c.H/2)
	}
	ink, ground := middle(true, Tint{}), middle(false, Tint{})
	for name, row := range map[string]struct {
		ink  bool
		tint Tint
		want float32
	}{
		"a third colour like ink":          {false, Tint{1, 1}, ink},
		"a third colour half way":          {false, Tint{1, 0.5}, (ink + ground) / 2},
		"a light label on a quarter":       {false, Tint{0.25, 1}, ground + (ink-ground)/4},
		"a label on ink that is as ground": {true, Tint{0.25, 0}, ink - (ink-ground)/4},
		"a label on ink that is as ink":    {true, Tint{0.25, 1}, ink},
	} {
		if got := middle(row.ink, row.tint); max(got-row.want, row.want-got) > 1e-4 {
			t.Errorf("%s: %.4f, want %.4f", name, got, row.want)
		}
	}
}
