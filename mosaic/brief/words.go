package brief

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/say"
)

// away is a distance, whichever way, in both measures.
func away(metres float64) string { return say.Span(math.Abs(metres)) }

// aside says how far x is from the middle; behind the distance stands to which side.
func aside(x float64, left, right, middle string) string {
	switch mm := math.Round(x * 1000); {
	case mm < 0:
		return away(x) + left
	case mm > 0:
		return away(x) + right
	}
	return middle
}

// amounts are "12 NAVY", "6 CREAM": the counts that are not 0, with their names.
func amounts(counts []int, blank string, name func(i int) string) (out []string) {
	for i, n := range counts {
		if n > 0 {
			out = append(out, say.Thousands(n)+blank+name(i))
		}
	}
	return out
}

func thousandsOf(counts ...int) []string {
	out := make([]string, len(counts))
	for i, n := range counts {
		out[i] = say.Thousands(n)
	}
	return out
}

func plus(to, counts []int) {
	for i, n := range counts {
		to[i] += n
	}
}

func sum(counts []int) (all int) {
	for _, n := range counts {
		all += n
	}
	return all
}

// occasion is the line under a sheet's title: which stunt, when, where.
func occasion(p *mosaic.Plan) string {
	parts := []string{p.Stunt.Title, p.Stunt.Date, where(p)}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
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
			which = "the weakest, " + CueName(t.Plan, at) + ","
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
func LayWord(p *mosaic.Plan) string { return passOr(p, "passing", "laying") }

// passOr is the one of two wordings for cards that are passed or laid.
func passOr(p *mosaic.Plan, pass, lay string) string {
	if p.Stunt.Laying.Pass {
		return pass
	}
	return lay
}

func floorPeople(p *mosaic.Plan) (n int) {
	for k := range p.Stands.Sections {
		if p.Stands.Sections[k].Spec.Kind == seating.Floor {
			n += p.Stands.Count(k).People()
		}
	}
	return n
}

// cautions open everything that goes to the crew or to whoever must say yes. They are this project's advice where no
// code is named; local code and licensed practice decide.
func cautions(p *mosaic.Plan) []string {
	names := "Names stay on the machine: paper carries seat codes."
	if NamesOnPaper(p) {
		names = "Names stand on the slips of calldown.pdf alone: whoever holds one gives it back, and it is destroyed."
	}
	list := []string{
		"No jumping, stamping or swaying in time on the stands; nobody stands on seats.",
		"Aisles, lanes, exits and wheelchair routes stay free: no card, bag, cable or person in them.",
		"The posted occupant load and the fire official decide, whatever the survey counts.",
		"Stands are opened and closed by their custodian alone, with nobody beneath.",
		"Nothing is thrown. Cards go to the aisle after the take and are counted; the floor is swept before the " +
			"stands are closed.",
		"Cables and tape are covered. Whoever walks backwards with a camera has a spotter. No ladder, and nothing " +
			"flown over people.",
		"An alarm means: card down, and walk.",
		"Wheelchair and companion places go to those who need them, and they hold a card like everybody.",
		"Nobody who may not be filmed is placed in the frame. " + names,
	}
	if len(p.Cues) > 1 {
		list = append(list, "Flashing colour can harm: cards change only at the calls, never faster than three "+
			"times in a second (WCAG 2.3.1).")
	}
	return list
}

// NamesOnPaper says whether the stunt wants names on paper and there are any.
func NamesOnPaper(p *mosaic.Plan) bool {
	return p.Stunt.People.Names && p.People != nil && p.People.Roster.Named()
}
