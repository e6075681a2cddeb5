package mosaic

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"everyseat/seating"
)

// flicker turns all cards from navy to white and back every so often, cards up at once.
func flicker(every time.Duration, cues int) *Stunt {
	s := gullhaven()
	// From close by, and from above, the cards fill more than half of the picture.
	s.Camera.Back, s.Camera.Height = 9*seating.Metre, 6*seating.Metre
	s.Card.Width, s.Card.Height = 20*seating.Inch, 24*seating.Inch
	s.Cues = nil
	for i := range cues {
		s.Cues = append(s.Cues, Cue{
			Name: fmt.Sprintf("beat %d", i+1), At: fmt.Sprintf("%d.%03d s", time.Duration(i)*every/time.Second, time.Duration(i)*every%time.Second/time.Millisecond),
			Ground: []string{"navy", "white"}[i%2], UpWithin: time.Millisecond,
			Painted: []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 1}, Colour: "gold"}},
		})
	}
	return s
}

// WCAG 2.3.1 (SEEN): more than three flashes in any one second over more than a quarter.
func TestFlashingIsRefused(t *testing.T) {
	s := flicker(100*time.Millisecond, 12)
	_, err := Make(s)
	var f *seating.Fault
	if !errors.As(err, &f) {
		t.Fatalf("error %v", err)
	}
	if !strings.HasPrefix(f.Key, "cue[") || !strings.HasSuffix(f.Key, "].at") || !strings.Contains(f.What, `cue "beat `) || !strings.Contains(f.What, "more than three flashes in the second from 0") {
		t.Errorf("%v", f)
	}
	s.FlashingRisk = "we know"
	if _, err := Make(s); !errors.As(err, &f) || f.Key != "flashing_risk_accepted" || !strings.Contains(f.Hint, "seizures") {
		t.Errorf("a line that names no risk: %v", err)
	}
	s.FlashingRisk = "Flashing that may cause seizures, accepted by the harbour council."
	p := mustMake(t, s)
	if !strings.Contains(p.Flashing, "It may cause seizures") || !strings.HasPrefix(p.Warnings[0], "FLASHING: "+p.Flashing) || !strings.Contains(p.Warnings[0], "harbour council") {
		t.Errorf("%q; %q", p.Flashing, p.Warnings)
	}
}

// Slowly, or few, or over less than a quarter of the picture, the same is let through.
func TestWhatFlashesAndPasses(t *testing.T) {
	far := flicker(100*time.Millisecond, 12)
	far.Camera.Back, far.Camera.Lens.FieldOfView = 60*seating.Metre, 65
	for name, s := range map[string]*Stunt{
		"slowly": flicker(time.Second, 12), "three": flicker(100*time.Millisecond, 5), "from afar": far,
	} {
		p := mustMake(t, s)
		if p.Flashing != "" {
			t.Errorf("%s: %q", name, p.Flashing)
		}
		hurried := strings.Contains(strings.Join(p.Warnings, " "), "more than three changes of card in one second")
		if hurried != (name != "slowly") {
			t.Errorf("%s: warnings %q", name, p.Warnings)
		}
	}
}

// A wave is looked at too, seat by seat.
func TestWavesAreLookedAt(t *testing.T) {
	s := flicker(100*time.Millisecond, 12)
	for i := range s.Cues {
		s.Cues[i].Transition, s.Cues[i].Takes = LeftToRight, 50*time.Millisecond
	}
	if _, err := Make(s); err == nil {
		t.Error("a flickering wave passes")
	}
}
