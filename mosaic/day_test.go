package mosaic

import (
	"errors"
	"strings"
	"testing"
	"time"

	"everyseat/seating"
	"everyseat/seating/people"
)

// Times of day as people write them; worked by hand.
func TestReadClock(t *testing.T) {
	for text, want := range map[string]string{"18:45": "18:45", "6:45 pm": "18:45", "6.45 p.m.": "18:45", "12:05 am": "0:05", "12 pm": "12:00", "9 AM": "9:00", " 07:30h ": "7:30", "17:30:00": "17:30"} {
		if c, ok := ReadClock(text); !ok || c.String() != want {
			t.Errorf("%q is %v %v, want %s", text, c, ok, want)
		}
	}
	for _, text := range []string{"", "18", "25:00", "18:60", "18:5", "noon", "13 pm", "18:45:10", "-1:30"} {
		if c, ok := ReadClock(text); ok {
			t.Errorf("%q is read as %v", text, c)
		}
	}
}

// A time is taken for the nearest one before another, or for one a few hours after it.
func TestClockAfter(t *testing.T) {
	for _, c := range []struct {
		at, other string
		want      int
	}{{"17:30", "18:45", -75}, {"18:45", "18:45", 0}, {"19:00", "18:45", 15}, {"23:15", "0:30", -75}, {"0:10", "23:50", 20}, {"6:00", "18:45", -765}, {"0:44", "18:45", 359}} {
		at, _ := ReadClock(c.at)
		other, _ := ReadClock(c.other)
		if got := at.After(other); got != c.want {
			t.Errorf("%s is %d minutes after %s, want %d", c.at, got, c.other, c.want)
		}
	}
}

// Times that no clock shows, an order that no day has, and speeds that nobody has are refused where they stand.
func TestDaysAreRefused(t *testing.T) {
	for _, c := range []struct {
		name      string
		spoil     func(*Stunt)
		key, what string
	}{
		{"no such hour", func(s *Stunt) { s.Day.Take = "25:99" }, "day.take", `"25:99" is no time of day`},
		{"no such minute", func(s *Stunt) { s.Day.Doors = "17:60" }, "day.doors", `"17:60" is no time of day`},
		{"a bare number", func(s *Stunt) { s.Day.Rehearsals[1] = "18" }, "day.rehearsals[1]", `"18" is no time of day`},
		{"a group's", func(s *Stunt) { s.People.Groups = []people.Party{{Name: "choir", People: 3, Time: "1730"}} }, "group[0].time", `"1730" is no time of day`},
		{"doors after the take", func(s *Stunt) { s.Day.Doors = "19:00" }, "day.doors", "19:00 is not before the take, at 18:45"},
		{"doors at the take", func(s *Stunt) { s.Day.Doors = "6:45 pm" }, "day.doors", "18:45 is not before the take"},
		{"a rehearsal after it", func(s *Stunt) { s.Day.Rehearsals[0] = "18:50" }, "day.rehearsals[0]", "18:50 is not before the take"},
		{"a rehearsal twice", func(s *Stunt) { s.Day.Rehearsals[1] = "18.10" }, "day.rehearsals[1]", "two rehearsals are at 18:10"},
		{"a late group", func(s *Stunt) { s.People.Groups = []people.Party{{Name: "choir", People: 3, Time: "18:45"}} }, "group[0].time", "18:45 is not before the take"},
		{"a late crew", func(s *Stunt) { s.Day.From = "18:00" }, "day.doors", "the doors open at 17:30, and the crew may come in from 18:00"},
		{"out before the take", func(s *Stunt) { s.Day.Until = "18:30" }, "day.until", "everybody must be out at 18:30, and the take is at 18:45"},
		{"slow hands", func(s *Stunt) { s.Laying.PerCard = 20 * time.Hour }, "laying.per_card", "20 h 00 min for one card"},
		{"slow feet", func(s *Stunt) { s.Laying.PerRow = 2 * time.Hour }, "laying.per_row", "2 h 00 min to get to the next row"},
		{"a town of helpers", func(s *Stunt) { s.Laying.Helpers = 99_999_999 }, "laying.helpers", "99999999 helpers"},
		{"a wide door", func(s *Stunt) { s.People.PerMinute = 99_999 }, "people.per_minute", "99999 people a minute"},
	} {
		s := gullhaven()
		s.Day = Day{Doors: "17:30", Take: "18:45", From: "15:00", Until: "20:00", Rehearsals: []string{"18:10", "18:25"}}
		if err := checkDay(s); err != nil {
			t.Fatal(err)
		}
		c.spoil(s)
		_, err := Make(s)
		var f *seating.Fault
		if !errors.As(err, &f) || f.Key != c.key || !strings.Contains(f.What, c.what) || f.Hint == "" {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	s := gullhaven()
	s.Day = Day{Doors: "when the parade ends", Take: "at dusk", From: "morning", Until: "20:00"}
	if err := checkDay(s); err != nil {
		t.Errorf("words are refused: %v", err)
	}
}
