package mosaic

import (
	"fmt"
	"strings"
	"testing"
)

// The second sentence names the seat whose one wrong card costs most, with the figure of the
// map of seats that matter, and nothing where nothing is spelt.
func TestFrailSeatsAreNamed(t *testing.T) {
	for _, text := range []string{"GLOW", "HI", "B", "MM"} {
		s := gullhaven()
		s.Cues[0].Text = text
		p := mustMake(t, s)
		worst, at := int32(0), 0
		for seat, f := range p.Falls(0) {
			if f.Wrong > worst {
				worst, at = f.Wrong, seat
			}
		}
		says := p.Sentences()[1].Text
		want := fmt.Sprintf("one wrong card on %s alone costs %d of 100 points", p.Stands.ID(at), (worst+5000)/10_000)
		if worst < frailFrom || !strings.Contains(says, want) {
			t.Errorf("%s: %q is not in %q", text, want, says)
		}
		t.Logf("%s: %d millionths on %s", text, worst, p.Stands.ID(at))
	}
	s := gullhaven()
	s.Cues = []Cue{{ImageName: "halves.png", Image: halves(s.Colours[1].RGB, s.Colours[2].RGB)}}
	if says := mustMake(t, s).Sentences()[1].Text; strings.Contains(says, "alone costs") {
		t.Errorf("of a picture: %q", says)
	}
}
