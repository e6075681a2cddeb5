package mosaic

import (
	"strings"
	"unicode"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
)

// wideGap is how many letters wide a gap within a word may be before the word falls apart
// (by eye over forty plans of ours, no source).
const wideGap = 2

// warnGaps says where a word is torn apart, by sections that stand far from each other, and whether
// one is.
func (m *maker) warnGaps(cue *Cue, text *lettering.Layout) (torn bool) {
	width := 0.0
	for i := range text.Letters {
		width += (text.Letters[i].Box[2] - text.Letters[i].Box[0]) / float64(len(text.Letters))
	}
	begins := wordBegins(cue.Text)
	if len(begins) != len(text.Letters) { // some sign was set as two
		return false
	}
	for i := 1; i < len(text.Letters); i++ {
		a, b := &text.Letters[i-1], &text.Letters[i]
		if a.Line != b.Line || width <= 0 || begins[i] {
			continue
		}
		if gap := (b.Box[0] - a.Box[2]) / width; gap > wideGap {
			m.warn("Cue %q: between %c and %c lies a gap as wide as %.1f letters, and the word falls apart: lay it on fewer sections with on = […], or make a cue of each part.", cue.Name, a.Rune, b.Rune, gap)
			return true
		}
	}
	return false
}

// under is how far under what reads the score of a torn text stays.
const under = 0.01

// heldBack is the score of the cue's text, and where a word of it is torn apart at most just under
// what reads: each letter may be clear, and still nobody reads the word.
func (c *CuePlan) heldBack(score float64) float64 {
	if reads, _ := legibility.Thresholds(); c.Torn && score > reads-under {
		return reads - under
	}
	return score
}

// holdBack does the same to a reading.
func (c *CuePlan) holdBack(r *legibility.Reading) {
	if held := c.heldBack(r.Score); held != r.Score {
		r.Score, r.Verdict = held, legibility.VerdictOf(held)
	}
}

// noteBare says which sections that could carry the text have no letter.
func (m *maker) noteBare(seats []int32, text *lettering.Layout) {
	stands := m.p.Stands
	could, has := make([]bool, len(stands.Sections)), make([]bool, len(stands.Sections))
	for k, s := range seats {
		section := stands.Seats[s].Section
		could[section] = true
		has[section] = has[section] || text.Ink[k]
	}
	var bare []string
	for k := range could {
		if could[k] && !has[k] {
			bare = append(bare, stands.Sections[k].Name)
		}
	}
	if len(bare) > 0 {
		text.Notes = append(text.Notes, "no letter lies on section "+firstFew(bare)+": the ground shows there")
	}
}

// wordBegins says for every letter of a text, spaces not counted, whether a word begins with it.
func wordBegins(text string) []bool {
	var out []bool
	begins := true
	for _, r := range strings.TrimSpace(text) {
		if unicode.IsSpace(r) {
			begins = true
			continue
		}
		out, begins = append(out, begins), false
	}
	return out
}

// bare are seats that are painted by hand with neither ink nor ground: a text must do without
// them. What is painted wrongly is found when it is painted.
func (m *maker) bare(cue *Cue) map[int32]bool {
	out := map[int32]bool{}
	for k := range cue.Painted {
		p := &cue.Painted[k]
		seats, err := m.p.Stands.InRange(p.Section, p.Seats)
		for _, s := range seats {
			if err == nil {
				out[s] = p.Colour != cue.Ink && p.Colour != cue.Ground
			}
		}
	}
	return out
}
