package sheets

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// Every row with cards has one helper, rows in laying order, and no way of cutting that order into as many parts
// ends earlier: the linear partition problem by dynamic programming (S. Skiena, The Algorithm Design Manual, 2nd ed.,
// section 8.5; the recurrence from memory).
func TestHelpersShareTheRows(t *testing.T) {
	for _, name := range []string{"lantern", "serpentine", "two cards", "long rows", "many cues"} {
		for helpers := 1; helpers <= 9; helpers++ {
			p := samples[name].plan(t)
			p.Stunt.Laying.PerCard, p.Stunt.Laying.PerRow, p.Stunt.Laying.Helpers = 6*time.Second, 20*time.Second, helpers
			sections := laid(p)
			var order []string
			var times []int
			for _, rows := range sections {
				for i := range rows {
					if rows[i].placards > 0 {
						order = append(order, rows[i].name(p))
						times = append(times, int(rowTime(p, &rows[i])/time.Second))
					}
				}
			}
			var got []string
			longest := 0
			list := shareOut(p, sections, helpers)
			for _, s := range list {
				for _, row := range s.rows {
					got = append(got, row.name(p))
				}
				longest = max(longest, int(s.took/time.Second))
			}
			if strings.Join(got, " ") != strings.Join(order, " ") || len(list) > helpers {
				t.Errorf("%s, %d helpers: %d have %v, want %v", name, helpers, len(list), got, order)
			}
			if best := partition(times, helpers); longest != best {
				t.Errorf("%s, %d helpers: the longest takes %d s, %d would do", name, helpers, longest, best)
			}
		}
	}
}

func partition(times []int, parts int) int {
	const never = 1 << 40
	best := make([]int, len(times)+1) // of the first i times in so many parts
	for i := range best[1:] {
		best[i+1] = never
	}
	for range parts {
		next := make([]int, len(best))
		for i := 1; i < len(best); i++ {
			next[i] = best[i]
			for j, sum := i-1, 0; j >= 0; j-- {
				sum += times[j]
				next[i] = min(next[i], max(best[j], sum))
			}
		}
		best = next
	}
	return best[len(times)]
}

var stintLine = regexp.MustCompile(`(?m)^(\d) .*? (\d+) (\d+) (\d+) minutes? _+ laid$`)

// The sheet's cards and bags are those of the plan, and it says how a card is laid.
func TestLayingSheet(t *testing.T) {
	p := inHall(t, nil)
	text := judge(t, "pdftotext", "-raw", onPaper(t, "laying.pdf", p), "-")
	bags, cards := 0, 0
	for _, m := range stintLine.FindAllStringSubmatch(text, -1) {
		b, _ := strconv.Atoi(m[2])
		c, _ := strconv.Atoi(m[3])
		bags, cards = bags+b, cards+c
	}
	if w := workOf(p, laid(p)); bags != w.bags || cards != w.cards {
		t.Errorf("helpers have %d bags and %d cards, the plan %d and %d: %s", bags, cards, w.bags, w.cards, text)
	}
	text = strings.Join(strings.Fields(text), " ")
	for _, want := range []string{"never on seats", "as you have them when you stand before the front row", "never in the aisle", "label up, its arrow to the row behind", "The top card is for the first seat at that end", "handed over in person"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
}
