package build

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
	"everyseat/testdata/fair"
)

// lanterns is a stunt of two texts.
const lanterns = `version = 1
title = "Lantern Fair of Gullhaven"
[[section]]
name = "A"
rows = 10
seats = 20
pitch = "20in"
rise = "10in"
run = "24in"
seat_board = "17in"
[camera]
back = "16 m"
height = "3 m"
picture = [1280, 720]
[[colour]]
name = "HARBOUR"
hex = "#16294d"
[[colour]]
name = "CREAM"
hex = "#fbf1d8"
[[cue]]
text = "HI"
[[cue]]
text = "SEA"
`

func parsed(t testing.TB, text string) *stuntfile.File {
	t.Helper()
	f, err := stuntfile.Parse("stunt.toml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// All of a stunt goes through, or the one cue that is asked for, and it is told what is being done.
func TestRun(t *testing.T) {
	f := parsed(t, lanterns)
	for _, c := range []struct {
		cue  int
		want string
	}{{0, "HI SEA"}, {1, "HI"}, {2, "SEA"}} {
		var told []string
		b, err := Run(t.Context(), f, Options{Cue: c.cue, Without: outlook.Advice, Progress: func(doing string) { told = append(told, doing) }})
		if err != nil {
			t.Fatal(err)
		}
		var cues []string
		for i := range b.Plan.Cues {
			cues = append(cues, b.Plan.Cues[i].Name)
		}
		if got := strings.Join(cues, " "); got != c.want || b.Outlook.Has != outlook.All&^outlook.Advice || len(b.Sentences) != 10 {
			t.Errorf("cue %d: %s, parts %b, %d sentences", c.cue, got, b.Outlook.Has, len(b.Sentences))
		}
		if len(told) < 3 || told[0] != "planning …" || slices.Contains(told, "measuring what would help …") {
			t.Errorf("told is %q", told)
		}
	}
	if len(f.Stunt.Cues) != 2 {
		t.Errorf("the file's stunt has %d cues left", len(f.Stunt.Cues))
	}
}

// It stops when its context ends, before or at whatever it is doing, with the context's error and nothing else.
func TestRunStops(t *testing.T) {
	f := parsed(t, lanterns)
	for stopAt := range 4 {
		ctx, stop := context.WithCancel(t.Context())
		if stopAt == 0 {
			stop()
		}
		told := 0
		b, err := Run(ctx, f, Options{Progress: func(string) {
			if told++; told == stopAt {
				stop()
			}
		}})
		stop()
		if b != nil || err != context.Canceled || told > max(1, stopAt) {
			t.Errorf("stopped at step %d: a brief %v, error %v after %d steps", stopAt, b != nil, err, told)
		}
	}
}

// The error of a text that does not fit has the place in the file, of its own cue, and names what would fit; when the
// context ends before that is measured, the error is the context's.
func TestMisfitIsMended(t *testing.T) {
	f := parsed(t, strings.Replace(lanterns, `"SEA"`, `"LANTERNFAIR"`, 1))
	for _, cue := range []int{0, 2} {
		_, err := Plan(t.Context(), f, cue)
		var fault *seating.Fault
		if !errors.As(err, &fault) || fault.Key != "cue[1].text" || fault.File != "stunt.toml" || fault.Line == 0 {
			t.Fatalf("cue %d: %+v", cue, fault)
		}
		if text := strings.Split(string(f.Text), "\n")[fault.Line-1]; !strings.Contains(text, "LANTERNFAIR") {
			t.Errorf("cue %d: the fault is in line %d, %q", cue, fault.Line, text)
		}
		if !strings.Contains(fault.Hint, " of 100") {
			t.Errorf("cue %d: hint %q", cue, fault.Hint)
		}
	}
	for _, n := range []int64{0, 1, 2, 3, 4, 6, 10} {
		if p, err := Plan(fair.EndsAfter(n), f, 2); p != nil || err != context.Canceled {
			t.Errorf("its context ends at look %d: made %v, error %v", n+1, p != nil, err)
		}
	}
}
