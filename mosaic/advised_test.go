package mosaic

import (
	"strings"
	"testing"

	"everyseat/mosaic/legibility"
)

// The first sentence names what helps most and, where less is enough, that too.
func TestAdviceInTheFirstSentence(t *testing.T) {
	p := mustMake(t, gullhaven())
	p.Cues[0].Reading.Verdict, p.Cues[0].Reading.Score = legibility.DoesNotRead, 0.3
	a := Advised{Before: 0.3, Tried: 12, Advice: []Advice{
		{Change: "fewer letters", Do: "write two letters", After: 0.95, Verdict: legibility.Reads},
		{Change: "a higher lens", Do: "raise the lens", After: 0.91, Verdict: legibility.Reads},
		{Change: "other rows", Do: "leave out row 1", After: 0.55, Verdict: legibility.Marginal},
	}}
	const best = "What helps most of the 12 changes that were measured: write two letters: then it reads (95 of 100)."
	for _, c := range []struct {
		least   int
		smaller string
	}{{0, ""}, {1, " A smaller change: raise the lens: then it reads (91 of 100)."}} {
		a.Least = c.least
		p.Advice = []Advised{a}
		if got := p.sayReads(); !strings.Contains(got, best+c.smaller) || strings.Contains(got, "A smaller change") != (c.smaller != "") {
			t.Errorf("least %d: %s", c.least, got)
		}
	}
}
