package mosaic

import (
	"regexp"
	"strings"
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

// A wall is the end of straying; what does not read at all may not stray.
func TestStray(t *testing.T) {
	gleam := func() *Stunt {
		s := gullhaven()
		s.Cues[0].Text = "GLEAM"
		return s
	}
	p := mustMake(t, gleam())
	open, known := p.Stray()
	if !known || open.Left.Distance == 0 || open.Left.End != EndScore || open.Back.Distance < strayStep {
		t.Fatalf("in the open %+v", open)
	}
	text := p.sayCamera()
	for _, way := range []struct {
		Reach
		to string
	}{{open.Left, "left"}, {open.Right, "right|to either side"}, {open.Nearer, "nearer"}, {open.Back, "back"}, {open.Up, "up"}, {open.Down, "down"}} {
		// Each way has its own figure, or shares it with its opposite.
		if says := regexp.QuoteMeta(way.Says()); !regexp.MustCompile(says + " (to the )?(" + way.to + "|to either side|nearer or back|up or down)").MatchString(text) {
			t.Errorf("%s %s is not in %q", way.Says(), way.to, text)
		}
	}
	far, near := Reach{seating.Metre, EndFar}, Reach{0, EndScore}
	for want, got := range map[string]string{
		"at least 1.00 m (3 ft 3 in) up and less than 0.25 m (10 in) down": eitherWay(far, near, "up", "down", "up or down"),
		"less than 0.25 m (10 in) up or down":                              eitherWay(near, near, "up", "down", "up or down"),
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	s := gleam()
	back := -s.Camera.Back - 60*seating.Centimetre
	s.Room.Walls = [][2]seating.Length{{-20 * seating.Metre, back}, {20 * seating.Metre, back}}
	walled, _ := mustMake(t, s).Stray()
	if walled.Back != (Reach{50 * seating.Centimetre, EndRoom}) || walled.Left != open.Left || walled.Nearer != open.Nearer {
		t.Errorf("a wall 60 cm behind the cross: %+v, in the open %+v", walled, open)
	}
	s = gullhaven()
	s.Camera.Back = 700 * seating.Metre // its letters have fewer pixels than any can be told by
	away := mustMake(t, s)
	if away.ReadsAtMark() {
		t.Fatal("it reads from 700 m: choose a place from which it does not")
	}
	if none, _ := away.Stray(); none != (Stray{}) || !strings.Contains(away.sayCamera(), "it may not stray") {
		t.Errorf("from where it does not read: %+v", none)
	}
}
