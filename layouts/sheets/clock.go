package sheets

import (
	"fmt"
	"strconv"
	"strings"
)

// clock is a time of day in minutes after midnight.
type clock int

// readClock reads "18:45", "6:45 pm", "18.45", "1845h" or "6 pm"; ok is false for anything else.
func readClock(text string) (c clock, ok bool) {
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
	return clock(hour*60 + minute), true
}

// String is the time on a clock of 24 hours.
func (c clock) String() string {
	m := (int(c)%1440 + 1440) % 1440
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}
