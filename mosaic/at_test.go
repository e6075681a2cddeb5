package mosaic

import (
	"errors"
	"strings"
	"testing"
	"time"

	"everyseat/seating"
)

func TestParseAt(t *testing.T) {
	second := func(s float64) spoken { return spoken{time: time.Duration(s * float64(time.Second))} }
	for at, want := range map[string]spoken{
		"count 1": {count: 1}, "Count 33": {count: 33}, "count 1 of the last verse": {count: 1}, "beat 4": {count: 4}, "16": {count: 16}, " 2.5 ": {count: 2.5},
		"12.5 s": second(12.5), "12s": second(12), "second 12": second(12), "3 seconds": second(3), "0 s": second(0),
		"1:05": second(65), "0:07.25": second(7.25), "10:00": second(600),
	} {
		if got, ok := parseAt(at); !ok || got != want {
			t.Errorf("%q: %+v, %v; want %+v", at, got, ok, want)
		}
	}
	for _, at := range []string{"", "when the drums stop", "count", "count zero", "count 0", "-3 s", "1e3 s", "1:75", "x:10", "second", "second 1 2", "99999999999999 s"} {
		if got, ok := parseAt(at); ok {
			t.Errorf("%q is understood as %+v", at, got)
		}
	}
}

func FuzzParseAt(f *testing.F) {
	for _, at := range []string{"count 1 of", "1:05.5", "12.5 s", "second 3", "::", "count ", "1..2 s"} {
		f.Add(at)
	}
	f.Fuzz(func(t *testing.T, at string) {
		s, ok := parseAt(at)
		if ok && (s.time < 0 || s.count < 0 || s.count != 0 && s.count < 1) {
			t.Errorf("%q is %+v", at, s)
		}
	})
}

// three cues of one letter each, at these moments.
func threeCues(ats ...string) *Stunt {
	s := gullhaven()
	s.Stands.Sections = s.Stands.Sections[:1]
	s.Cues = nil
	for i, at := range ats {
		s.Cues = append(s.Cues, Cue{Text: string("LOT"[i%3]), At: at})
	}
	return s
}

// READY, UP within 2 s, HOLD 15 s, DOWN (common practice, no source).
func TestTimes(t *testing.T) {
	s := threeCues("10 s", "count 121", "")
	s.Tempo = 120 // count 121 is a minute after count 1
	s.Cues[1].Hold = 5 * time.Second
	s.Cues[2].Transition, s.Cues[2].Takes = LeftToRight, 3*time.Second
	p := mustMake(t, s)
	sec := func(n float64) time.Duration { return time.Duration(n * float64(time.Second)) }
	for i, want := range []Times{
		{sec(6), sec(10), sec(12), sec(27)},
		{sec(56), sec(60), sec(62), sec(67)},
		{sec(67), sec(71), sec(76), sec(91)}, // READY as soon as the others are down
	} {
		if got := p.Cues[i].Times; got != want {
			t.Errorf("cue %d: %+v, want %+v", i, got, want)
		}
	}
	// Where the next cue comes sooner, the cards stay until then.
	s = threeCues("0 s", "6 s", "30 s")
	if p = mustMake(t, s); p.Cues[0].Times.Down != sec(6) || p.Cues[1].Times.Down != sec(23) {
		t.Errorf("%+v, %+v", p.Cues[0].Times, p.Cues[1].Times)
	}
	// Nobody has a tempo in mind who gives none: it is assumed aloud.
	s = threeCues("count 1", "count 65", "later")
	p = mustMake(t, s)
	w := strings.Join(p.Warnings, " ")
	if p.Cues[1].Times.Up != sec(32) || !strings.Contains(w, "120 counts a minute are assumed") || !strings.Contains(w, `at = "later" is neither`) {
		t.Errorf("%+v; %q", p.Cues[1].Times, w)
	}
}

// Each seat's own moment in a wave; mirrored waves mirror it.
func TestWaves(t *testing.T) {
	for _, c := range []struct {
		transition  Transition
		first, last []string
	}{
		{LeftToRight, []string{"A-1-1", "A-12-1"}, []string{"C-1-12", "C-12-12"}},
		{RightToLeft, []string{"C-1-12"}, []string{"A-5-1"}},
		{BottomToTop, []string{"A-1-1", "C-1-12"}, []string{"A-12-1", "B-12-6"}},
		{FromMiddle, []string{"B-1-6", "B-4-7"}, []string{"A-1-1", "C-1-12"}},
		{RowByRow, []string{"A-1-1", "C-1-12"}, []string{"A-12-1", "C-12-12"}},
	} {
		s := gullhaven()
		s.Cues[0].Transition, s.Cues[0].Takes, s.Cues[0].At = c.transition, 11*time.Second, "5 s"
		p := mustMake(t, s)
		for _, id := range c.first {
			if got := p.Moment(0, seat(t, p, id)); got != 5*time.Second {
				t.Errorf("%s: %s moves at %v", c.transition, id, got)
			}
		}
		for _, id := range c.last {
			if got := p.Moment(0, seat(t, p, id)); got != 16*time.Second {
				t.Errorf("%s: %s moves at %v", c.transition, id, got)
			}
		}
		if c.transition == RowByRow { // twelve rows, eleven steps of a second
			if got := p.Moment(0, seat(t, p, "B-4-4")); got != 8*time.Second {
				t.Errorf("row 4 moves at %v", got)
			}
		}
		if full := p.Cues[0].Times.Full; full != 18*time.Second {
			t.Errorf("all are up at %v", full)
		}
	}
}

func TestTimesRefuse(t *testing.T) {
	for _, c := range []struct {
		name            string
		spoil           func(*Stunt)
		key, what, hint string
	}{
		{"two at one moment", func(s *Stunt) { s.Cues[1].At = "count 1" }, "cue[1].at", `cues "L" and "O" happen at one moment, 0 s`, "its own"},
		{"backwards", func(s *Stunt) { s.Cues[2].At = "5 s" }, "cue[2].at", `cue "T", at 5 s, comes before cue "O", at 30 s`, "order"},
		{"before DOWN", func(s *Stunt) { s.Cues[0].Hold = time.Minute }, "cue[1].at", `cue "O" comes at 30 s, before DOWN of cue "L" at 1:02`, "hold"},
		{"before all are up", func(s *Stunt) { s.Cues[0].UpWithin = time.Minute }, "cue[1].at", `before the last card of cue "L" is up at 1:00`, "up"},
		{"endless", func(s *Stunt) { s.Cues[2].At = "361:00" }, "cue[2].at", "more than 6 hours", ""},
		{"no transition", func(s *Stunt) { s.Cues[0].Transition = "left to rigth" }, "cue[0].transition", "there is no transition", `"left to right"`},
		{"takes time at once", func(s *Stunt) { s.Cues[0].Takes = time.Second }, "cue[0].takes", "comes up at once", "transition"},
		{"negative hold", func(s *Stunt) { s.Cues[0].Hold = -time.Second }, "cue[0].hold", "negative", ""},
		{"no tempo", func(s *Stunt) { s.Tempo = 4000 }, "tempo", "no music's", "120"},
	} {
		s := threeCues("count 1", "30 s", "60 s")
		c.spoil(s)
		_, err := Make(s)
		var f *seating.Fault
		if !errors.As(err, &f) || f.Key != c.key || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
