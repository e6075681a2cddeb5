package mosaic

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"

	"everyseat/seating/say"
)

// Clock is a time of day in minutes after midnight.
type Clock int

// ReadClock reads "18:45", "6:45 pm", "18.45", "18:45:00" or "6 pm"; ok is false for anything else.
func ReadClock(text string) (c Clock, ok bool) {
	t := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), ".", ":"))
	half := -1
	for i, mark := range []string{"am", "pm"} {
		for _, m := range []string{mark, mark[:1] + ":m:", mark[:1] + ":m"} {
			if s, found := strings.CutSuffix(t, m); found {
				t, half = strings.TrimSpace(s), i
				break
			}
		}
	}
	t = strings.TrimSpace(strings.TrimSuffix(t, "h"))
	if strings.Count(t, ":") == 2 { // as a TOML time has it
		t = strings.TrimSuffix(t, ":00")
	}
	h, m, colon := strings.Cut(t, ":")
	if !colon && half < 0 {
		return 0, false
	}
	hour, err := strconv.Atoi(h)
	if err != nil {
		return 0, false
	}
	minute := 0
	if colon {
		if minute, err = strconv.Atoi(m); err != nil || len(m) != 2 {
			return 0, false
		}
	}
	if half >= 0 {
		if hour < 1 || hour > 12 {
			return 0, false
		}
		hour = hour%12 + 12*half
	}
	if hour < 0 || hour > 23 || minute < 0 || minute > 59 {
		return 0, false
	}
	return Clock(hour*60 + minute), true
}

// String is the time on a clock of 24 hours.
func (c Clock) String() string {
	m := (int(c)%dayLong + dayLong) % dayLong
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}

// A day has so many minutes; a time is taken for one that is less than so many after another, or else for one before
// it: a stunt's doors may open before midnight, and its take be after.
const (
	dayLong   = 24 * 60
	mostAfter = 6 * 60
)

// After is how many minutes after another time it is, negative before it.
func (c Clock) After(other Clock) int {
	return ((int(c-other)+dayLong-mostAfter)%dayLong+dayLong)%dayLong + mostAfter - dayLong
}

// moment is a time of the day in the stunt file.
type moment struct {
	key string
	at  Clock
}

// checkDay refuses times that no clock shows and a day in an order that cannot be. Words without figures, such as
// "after the parade", are no times, and allowed.
func checkDay(s *Stunt) error {
	var wrong error
	read := func(key, text string) (m moment, ok bool) {
		m.key = key
		if m.at, ok = ReadClock(text); !ok && strings.ContainsFunc(text, unicode.IsDigit) {
			wrong = cmp.Or(wrong, refuse(true, key, fmt.Sprintf("%q is no time of day", text),
				`write "18:45" or "6:45 pm", or words without figures, such as "after the parade"`))
		}
		return m, ok
	}
	d := &s.Day
	take, known := read("day.take", d.Take)
	var all []moment
	between := func(key, text string) (m moment, ok bool) {
		if m, ok = read(key, text); ok {
			all = append(all, m)
		}
		return m, ok
	}
	from, hasFrom := between("day.from", d.From)
	doors, hasDoors := between("day.doors", d.Doors)
	times := map[Clock]bool{}
	for i, text := range d.Rehearsals {
		if m, ok := between(fmt.Sprintf("day.rehearsals[%d]", i), text); ok {
			wrong = cmp.Or(wrong, refuse(times[m.at], m.key, fmt.Sprintf("two rehearsals are at %s", m.at),
				"leave one of them out"))
			times[m.at] = true
		}
	}
	for i, g := range s.People.Groups {
		between(fmt.Sprintf("group[%d].time", i), g.Time)
	}
	until, hasUntil := read("day.until", d.Until)
	for _, m := range all {
		wrong = cmp.Or(wrong, refuse(known && m.at.After(take.at) >= 0, m.key,
			fmt.Sprintf("%s is not before the take, at %s", m.at, take.at), "write an earlier time, or a later take"))
	}
	return cmp.Or(wrong,
		refuse(hasFrom && hasDoors && doors.at.After(from.at) < 0, "day.doors",
			fmt.Sprintf("the doors open at %s, and the crew may come in from %s", doors.at, from.at),
			"write later doors, or an earlier from"),
		refuse(known && hasUntil && until.at.After(take.at) <= 0, "day.until",
			fmt.Sprintf("everybody must be out at %s, and the take is at %s", until.at, take.at),
			"write an earlier take, or a later until"))
}

// Longest times of laying, and most who lay or pass a door (ours, no source): more is a slip of the pen.
const (
	longestCard   = 10 * time.Minute
	longestRow    = time.Hour
	mostHelpers   = 10_000
	mostPerMinute = 1_000
)

// checkLaying refuses speeds that nobody has.
func checkLaying(s *Stunt) error {
	l := s.Laying
	return cmp.Or(
		refuse(l.PerCard > longestCard, "laying.per_card", say.Minutes(l.PerCard)+" for one card",
			`time the first fifty and write per_card = "6 s"`),
		refuse(l.PerRow > longestRow, "laying.per_row", say.Minutes(l.PerRow)+" to get to the next row",
			`time a few and write per_row = "20 s"`),
		refuse(l.Helpers > mostHelpers, "laying.helpers", fmt.Sprintf("%d helpers", l.Helpers),
			"count who really comes and write helpers = 6"),
		refuse(s.People.PerMinute > mostPerMinute, "people.per_minute",
			fmt.Sprintf("%d people a minute through one door", s.People.PerMinute),
			"count them and write per_minute = 30"),
	)
}
