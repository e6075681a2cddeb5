package sheets

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
)

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
	wantBags, wantCards := 0, 0
	for _, row := range laidRows(p) {
		wantBags, wantCards = wantBags+min(row.Placards, 1), wantCards+row.All()
	}
	if bags != wantBags || cards != wantCards {
		t.Errorf("helpers have %d bags and %d cards, the plan %d and %d: %s", bags, cards, wantBags, wantCards, text)
	}
	text = strings.Join(strings.Fields(text), " ")
	for _, want := range []string{"never on seats", "as you have them when you stand before the front row", "never in the aisle", "label up, its arrow to the row behind", "The top card is for the first seat at that end", "handed over in person"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet does not say %q", want)
		}
	}
}
