package mosaic

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// handOut gives every seat the card it shows at each cue: one kind of card a
// colour in use, the same colour on both sides, so that none can be shown the
// wrong way round.
func handOut(colours []Colour, cues []CuePlan) ([]Card, [][]Hold) {
	used := make([]bool, len(colours))
	for i := range cues {
		for _, c := range cues[i].Colours {
			if c != None {
				used[c] = true
			}
		}
	}
	ids := cardIDs(colours)
	var cards []Card
	kind := make([]int16, len(colours))
	for c := range colours {
		if used[c] {
			kind[c] = int16(len(cards))
			cards = append(cards, Card{ID: ids[c], Sides: [2]int16{int16(c), int16(c)}})
		}
	}
	hands := make([][]Hold, len(cues))
	for i := range cues {
		hands[i] = make([]Hold, len(cues[i].Colours))
		for s, c := range cues[i].Colours {
			hands[i][s] = Hold{Card: -1}
			if c != None {
				hands[i][s].Card = kind[c]
			}
		}
	}
	return cards, hands
}

// cardIDs makes ids of the colours' names: capitals A–Z, figures and -, each once.
func cardIDs(colours []Colour) []string {
	ids := make([]string, len(colours))
	taken := map[string]bool{}
	for i, c := range colours {
		id := plainCapitals(c.Name)
		if id == "" {
			id = fmt.Sprintf("COLOUR-%d", i+1)
		}
		ids[i] = id
		for n := 2; taken[ids[i]]; n++ {
			ids[i] = fmt.Sprintf("%s-%d", id, n)
		}
		taken[ids[i]] = true
	}
	return ids
}

func plainCapitals(name string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(name) {
		switch r = unicode.ToUpper(r); {
		case r >= 'A' && r <= 'Z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case unicode.Is(unicode.M, r): // an accent
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return strings.Trim(b.String(), "-")
}
