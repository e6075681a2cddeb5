package brief

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/say"
)

// away is a distance, whichever way, in both measures.
func away(metres float64) string { return say.Span(math.Abs(metres)) }

// occasion is the line under a sheet's title: which stunt, when, where.
func occasion(p *mosaic.Plan) string {
	var parts []string
	for _, s := range []string{p.Stunt.Title, p.Stunt.Date} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(append(parts, where(p)), ", ")
}

// CueName is how a cue is called on paper.
func CueName(p *mosaic.Plan, cue int) string {
	name := "the cue"
	if len(p.Cues) > 1 {
		name = "cue " + strconv.Itoa(cue+1)
	}
	return name + QuotedCue(p, cue)
}

// QuotedCue is a cue's own name after its number, or nothing where that is all there is to say.
func QuotedCue(p *mosaic.Plan, cue int) string {
	n := p.Cues[cue].Name
	if n == "" || n == "cue "+strconv.Itoa(cue+1) {
		return ""
	}
	return " “" + n + "”"
}

// list joins words with commas, or gives what stands for nothing.
func list(words []string, nothing string) string {
	if len(words) == 0 {
		return nothing
	}
	return strings.Join(words, ", ")
}

// trimReads says how the texts read when so few come that the marked seats stay empty, by legibility's score; "" where
// no cue has a text. Of several texts the one that reads worst stands for all.
func (t *teller) trimReads() string {
	var said, shares []string // what is read, and at which shares
	for i, share := range mosaic.TrimShares {
		worst, at, texts := outlook.Trimmed{}, -1, 0
		for cue := range t.o.Cues {
			if trimmed := t.o.Cues[cue].Trimmed; trimmed != nil {
				texts++
				if at < 0 || trimmed[i].Score < worst.Score {
					worst, at = trimmed[i], cue
				}
			}
		}
		if at < 0 {
			return ""
		}
		which := "it"
		if texts > 1 {
			which = "the weakest, " + CueName(t.p, at) + ","
		}
		words := fmt.Sprintf("%s %s (%.0f of 100)", which, worst.Verdict.Says(), 100*worst.Score)
		if last := len(said) - 1; last >= 0 && said[last] == words {
			shares[last] += " and " + strconv.Itoa(share)
			continue
		}
		said, shares = append(said, words), append(shares, strconv.Itoa(share))
	}
	for i := range said {
		said[i] = "at " + shares[i] + " " + said[i]
	}
	return "The message then: " + strings.Join(said, "; ") + "."
}

// LayWord is how the cards get to the people.
func LayWord(p *mosaic.Plan) string {
	if p.Stunt.Laying.Pass {
		return "passing"
	}
	return "laying"
}

// floorPeople counts who is on the floor, with and without cards.
func floorPeople(p *mosaic.Plan) int {
	n := 0
	for k := range p.Stands.Sections {
		if p.Stands.Sections[k].Spec.Kind == seating.Floor {
			n += p.Stands.Count(k).People()
		}
	}
	return n
}
