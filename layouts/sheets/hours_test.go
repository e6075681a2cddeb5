package sheets

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating/say"
)

// ways are the ways of making placards, each with a sample.
func ways(t *testing.T) map[string]*mosaic.Plan {
	t.Helper()
	s := sample{sections: []string{"A", "B"}, rows: 4, seats: 9, title: "x"}
	w, h := s.plan(t).Stunt.Card.Width, s.plan(t).Stunt.Card.Height
	piles, stuck := s.plan(t), s.plan(t)
	piles.Stunt.Print.WholePile = true
	grid := stickers["ten on Letter"].grid
	stuck.Stunt.Print.Grid = &grid
	two := s
	two.cues, two.bonded = 2, true
	return map[string]*mosaic.Plan{"labels": s.plan(t), "piles": piles, "stickers": stuck, "stock": onCards(t, s, mosaic.OnStock, w, h),
		"bonded stock": onCards(t, two, mosaic.OnStock, w, h), "printed": onCards(t, s, mosaic.FullColoured, w, h)}
}

// As many labels are timed for sticking as there are labels in the files that say so, counted by their ids.
func TestStickingCountsTheLabels(t *testing.T) {
	for name, p := range ways(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir, names := placardFiles(t, p)
			want := 0
			for _, file := range names {
				text := judge(t, "pdftotext", "-raw", filepath.Join(dir, file), "-")
				if p.Stunt.Print.Placards == mosaic.FullColoured || p.Stunt.Print.Placards == mosaic.OnStock && !strings.Contains(text, "these labels are stuck on") {
					continue
				}
				want += len(idsIn(text, sectionNames(p)))
			}
			tally := told(p).Paper.Tally
			at := slices.IndexFunc(tally.Hours, func(l brief.HourLine) bool { return l.What == "Stick on" })
			if (want == 0) != (name == "printed") || (want == 0) != (at < 0) {
				t.Fatalf("the files have %d labels, and the hours are %v", want, tally.Hours)
			}
			if at < 0 {
				return
			}
			got, minutes := tally.Hours[at], (want*10+59)/60
			if got.Much != say.Count(want, "label") || got.Time != fmt.Sprintf("%d:%02d h", minutes/60, minutes%60) {
				t.Errorf("%s are timed at %s, the files have %d", got.Much, got.Time, want)
			}
		})
	}
}

// Cutting is timed where a sheet is more than one piece, by the pieces of the files or by their piles.
func TestCuttingIsTimed(t *testing.T) {
	want := map[string]string{"labels": "pieces", "piles": "whole pile", "stickers": "", "stock": "whole pile", "printed": ""}
	for name, p := range ways(t) {
		if name == "bonded stock" {
			continue
		}
		text := strings.Join(strings.Fields(saidOn(t, "tally.pdf", p)), " ")
		m := regexp.MustCompile(`Cut (\d+) (pieces|whole pile)s? one person, (\d+) (s a piece|minutes? a pile with its stacking) (\d+):(\d\d) h`).FindStringSubmatch(text)
		if want[name] == "" {
			if strings.Contains(text, "Cut ") {
				t.Errorf("%s: nothing is cut, and the tally says %q", name, text)
			}
			continue
		}
		if m == nil || m[2] != want[name] {
			t.Errorf("%s: no cutting of %s in %q", name, want[name], text)
			continue
		}
		each := int(number(t, m[3]))
		if m[4] != "s a piece" {
			each *= 60
		}
		if pieces := len(wantIDs(p)) + rowsWithPaper(p); m[2] == "pieces" && m[1] != strconv.Itoa(pieces) {
			t.Errorf("%s: %s pieces are cut, the files have %d", name, m[1], pieces)
		}
		if got, all := int(number(t, m[5]))*60+int(number(t, m[6])), (int(number(t, m[1]))*each+59)/60; got != all {
			t.Errorf("%s: %s by %d s are %d minutes, and the tally says %d", name, m[1], each, all, got)
		}
	}
}

// One truth about the work before the day: sentence 7, the tally, the packet and the run sheet give the same minutes for
// dealing and for sticking labels on.
func TestWorkIsSaidAlike(t *testing.T) {
	p := inHall(t, nil)
	sentence := told(p).Sentences[6].Text
	for _, c := range []struct{ sentence, tally, sheet string }{
		{`(\d+) minutes to deal`, `Deal \d+ cards into \d+ row bags one person, \d+ s a card and \d+ s a bag (\d+):(\d\d) h`, `dealing \d+ cards into \d+ bags \((\d+) minutes\)`},
		{`(\d+) minutes to stick`, `Stick on \d+ labels one person, \d+ s a label (\d+):(\d\d) h`, `sticking on \d+ labels \((\d+) minutes\)`},
	} {
		m := regexp.MustCompile(c.sentence).FindStringSubmatch(sentence)
		if m == nil {
			t.Errorf("no %s in %q", c.sentence, sentence)
			continue
		}
		tally := strings.Join(strings.Fields(saidOn(t, "tally.pdf", p)), " ")
		if h := regexp.MustCompile(c.tally).FindStringSubmatch(tally); h == nil || fmt.Sprint(int(number(t, h[1]))*60+int(number(t, h[2]))) != m[1] {
			t.Errorf("the sentence says %s minutes, the tally %v: %q", m[1], h, tally)
		}
		for _, name := range []string{"packet.pdf", "runsheet.pdf"} {
			text := strings.Join(strings.Fields(saidOn(t, name, p)), " ")
			if s := regexp.MustCompile(c.sheet).FindStringSubmatch(text); s == nil || s[1] != m[1] {
				t.Errorf("the sentence says %s minutes, %s %v: %q", m[1], name, s, text)
			}
		}
	}
	if strings.Contains(sentence, "not known yet") {
		t.Errorf("not all is known: %q", sentence)
	}
}

// deal.pdf says when labels go on, and which order printed cards keep.
func TestDealSaysWhenLabelsGoOn(t *testing.T) {
	const (
		stick  = "Stick the white labels on before dealing"
		stay   = "printed stacks stay in the order in which they were printed"
		row    = "Now this row's labels go on"
		sorted = "printed cards lie in row order already"
	)
	want := map[string][]string{"labels": {row}, "piles": {row}, "stickers": {row}, "stock": {stick, stay}, "bonded stock": {stick, stay}, "printed": {sorted}}
	for name, p := range ways(t) {
		text := strings.Join(strings.Fields(saidOn(t, "deal.pdf", p)), " ")
		for _, words := range []string{stick, stay, row, sorted} {
			if strings.Contains(text, words) != slices.Contains(want[name], words) {
				t.Errorf("%s: %q on the sheet: %v", name, words, strings.Contains(text, words))
			}
		}
		if made := strings.Contains(text, "glued back to back"); made != (name == "bonded stock") {
			t.Errorf("%s: how cards of two colours are made is said: %v", name, made)
		}
		before := strings.Index(text, "Take the bags in this order")
		for _, words := range []string{stick, stay, sorted} {
			if at := strings.Index(text, words); at > before {
				t.Errorf("%s: %q comes after the first bag", name, words)
			}
		}
	}
}
