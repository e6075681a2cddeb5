package brief

import (
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/testdata/fair"
)

// Where the stunt's times leave less than the work takes, it is said, with times and helpers that would do: a day with
// one of them has no such caution. Worked by hand: 432 cards at 6 s in 36 rows at 20 s are 55.2 minutes of work, 9.2 for
// six; keys are 30 minutes before the first card and the last one 15 before the doors.
func TestTightDaysAreSaid(t *testing.T) {
	lessHelp := func(s *mosaic.Stunt) { s.Laying.Helpers = 3 }
	for _, c := range []struct {
		name   string
		day    mosaic.Day
		change func(*mosaic.Stunt)
		want   []string // parts of the one caution; none = there is none
	}{
		{"plain", mosaic.Day{Doors: "17:30", Take: "18:45", From: "16:35", Until: "19:20"}, nil, nil},
		{"nothing known", mosaic.Day{}, nil, nil},
		{"over midnight", mosaic.Day{Doors: "23:15", Take: "0:30", From: "22:00", Until: "1:30"}, nil, nil},
		{"no take", mosaic.Day{Doors: "17:30", Take: "after the parade", From: "17:00"}, nil, nil},
		// 55.2 minutes by three are 19: keys at 16:26. Nine minutes less are ten: 55.2/10 = 5.52, six do.
		{"few helpers", mosaic.Day{Doors: "17:30", Take: "18:45", From: "16:35"}, lessHelp,
			[]string{"from 16:35", "begins at 16:26, 9 minutes earlier", "let 6 helpers lay instead of 3", "open the doors at 17:39", "come in at 16:26"}},
		{"as said, more helpers", mosaic.Day{Doors: "17:30", Take: "18:45", From: "16:35"}, nil, nil},
		{"as said, later doors", mosaic.Day{Doors: "17:39", Take: "18:45", From: "16:35"}, lessHelp, nil},
		{"as said, earlier", mosaic.Day{Doors: "17:30", Take: "18:45", From: "16:26"}, lessHelp, nil},
		// No helpers lay in no time.
		{"no help helps", mosaic.Day{Doors: "17:30", Take: "18:45", From: "17:00"}, nil, []string{"25 minutes earlier: open the doors at 17:55"}},
		// Swept 35 minutes after the take.
		{"out too soon", mosaic.Day{Doors: "17:30", Take: "18:45", Until: "19:10"}, nil,
			[]string{"out at 19:10", "swept at 19:20", "let the take be at 18:35", "stay until 19:20"}},
		// 432 people through two doors at 30 a minute are 8 minutes, and 5 until the last one sits.
		{"late doors", mosaic.Day{Doors: "18:00", Take: "18:45"}, nil,
			[]string{"open at 18:00, and by 18:05 everybody must sit", "rehearsal at 18:10", "People take 13 minutes", "open the doors at 17:52"}},
		{"early enough", mosaic.Day{Doors: "17:52", Take: "18:45"}, nil, nil},
		// READY at -4 s, up in 2 s, up for 15 s, 3 s of rest: one minute.
		{"rehearsal at the take", mosaic.Day{Doors: "17:30", Take: "18:45", Rehearsals: []string{"18:10", "18:25", "18:41"}}, nil,
			[]string{"rehearsal at 18:41 takes 1 minute", "last check is at 18:40", "at 18:39"}},
	} {
		s := fair.Stunt()
		s.Day = c.day
		if c.change != nil {
			c.change(s)
		}
		d := told(t, s).day
		if len(c.want) == 0 && len(d.cautions) > 0 || len(c.want) > 0 && len(d.cautions) != 1 {
			t.Errorf("%s: %q", c.name, d.cautions)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(d.cautions[0], want) || !strings.Contains(d.note(), want) {
				t.Errorf("%s: %q is not in %q", c.name, want, d.cautions[0])
			}
		}
	}
}
