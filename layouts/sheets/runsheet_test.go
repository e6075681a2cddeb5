package sheets

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
)

var stepLine = regexp.MustCompile(`(?m)^(?:(\d+):(\d\d)(\*?)|____) T(?:([–+])(\d+))? (.*)$`)

// The day is counted from the take: every clock time is the take's plus what the line says, lines follow each other,
// times that the stunt gives have no star, and all others do. Cautions come before anything else.
func TestRunSheetCountsFromTheTake(t *testing.T) {
	p := inHall(t, nil)
	text := judge(t, "pdftotext", "-raw", onPaper(t, "runsheet.pdf", p), "-")
	if strings.Index(text, "Before anything else") > strings.Index(text, "The day by the clock") || !strings.Contains(text, "No jumping, stamping or swaying") {
		t.Error("the cautions do not come first")
	}
	before, lines := -1<<30, stepLine.FindAllStringSubmatch(text, -1)
	given := map[string]string{"17:30": "Doors", "18:10": "Rehearsal 1", "18:25": "Rehearsal 2", "18:45": "TAKE"}
	for _, m := range lines {
		h, _ := strconv.Atoi(m[1])
		minute, _ := strconv.Atoi(m[2])
		at, _ := strconv.Atoi(m[5])
		if m[4] == "–" {
			at = -at
		}
		if h*60+minute != 18*60+45+at {
			t.Errorf("%s:%s is not %d minutes from the take", m[1], m[2], at)
		}
		if at < before {
			t.Errorf("%q comes too late", m[6])
		}
		before = at
		what, isGiven := given[m[1]+":"+m[2]]
		if isGiven == (m[3] == "*") || isGiven && !strings.HasPrefix(m[6], what) {
			t.Errorf("%s:%s%s is %q", m[1], m[2], m[3], m[6])
		}
	}
	if len(lines) < 12 {
		t.Errorf("only %d lines", len(lines))
	}
	// Laying ends a quarter of an hour before the doors: 234 cards at 6 s and 24 rows at 20 s, by four helpers.
	cards := 0
	for _, row := range laidRows(p) {
		for _, n := range row.Cards {
			cards += n
		}
	}
	lay := (cards*6+24*20)/4 + 59
	if want := fmt.Sprintf("T–%d Cards laid: %d cards from 24 row bags, 4 helpers", 75+15+lay/60, cards); !strings.Contains(text, want) {
		t.Errorf("no %q in %s", want, text)
	}
}

// Without times the sheet says so and counts in minutes; what cannot be read as a time is shown and not guessed.
func TestRunSheetWithoutTimes(t *testing.T) {
	text := saidOn(t, "runsheet.pdf", inHall(t, func(s *mosaic.Stunt) { s.Day = mosaic.Day{} }))
	if !strings.Contains(text, "No time is given for the take") || !strings.Contains(text, "____ T–60 Doors") || !strings.Contains(text, "____ T TAKE") {
		t.Error(text)
	}
	text = saidOn(t, "runsheet.pdf", inHall(t, func(s *mosaic.Stunt) { s.Day.Take, s.Outdoors = "after the parade", true }))
	for _, want := range []string{"“after the parade”, which is no time of day", "Also given: 17:30; 18:10; 18:25.", "Wind: a card is a sail", "Sun: behind the lens"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
}

// The clock hangs by the door: it begins a page and ends on it, outdoors, with every group and with four cues in waves.
func TestClockIsOnePage(t *testing.T) {
	for name, change := range map[string]func(*mosaic.Stunt){
		"indoors":  nil,
		"outdoors": func(s *mosaic.Stunt) { s.Outdoors = true },
		"passing":  func(s *mosaic.Stunt) { s.Laying.Pass, s.Outdoors = true, true },
	} {
		pages := pageWords(t, onPaper(t, "runsheet.pdf", inHall(t, change)))
		with := 0
		for _, page := range pages {
			lines := page.lines()
			steps := 0
			for _, l := range lines {
				if stepLine.MatchString(l.String()) {
					steps++
				}
			}
			if steps > 0 {
				with++
				if got := lines[0].String(); got != "The day by the clock" {
					t.Errorf("%s: the page of the clock begins %q", name, got)
				}
			}
		}
		if with != 1 || len(pages) != 2 {
			t.Errorf("%s: the clock is on %d of %d pages", name, with, len(pages))
		}
	}
}
