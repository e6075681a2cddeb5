package mosaic

import (
	"fmt"
	"math"
	"strings"

	"everyseat/mosaic/colour"
)

// stops are how many times the light is doubled, as a camera on automatic may do it for a dark hall.
var stops = []int{0, 1, 2}

// DarkClothes is what a crowd in dark clothes shows between the cards (ours, no source).
var DarkClothes = colour.RGB{0x1c, 0x1c, 0x20}

// LightPair is two card colours that show together, and what a camera makes of them.
type LightPair struct {
	A, B string // ink and ground of a text, or two colours of a picture
	Text bool
	At   []LightAt // with no, one and two stops too much light
	Lost int       // how many stops lose the pair; −1 where two do not
}

// LightAt is a pair as recorded with some stops too much light.
type LightAt struct {
	Stops    int
	A, B     colour.RGB
	Contrast float64 // WCAG, 1…21
	Differ   float64 // CIEDE2000
}

// lost says whether nobody parts the two any more: letters need WCAG's 3 to 1 for large text
// (success criterion 1.4.3, level AA), other pairs a CIEDE2000 of ten (ours, no source).
func (l *LightAt) lost(text bool) bool {
	if text {
		return math.Round(l.Contrast*1000) < leastContrast*1000
	}
	return math.Round(l.Differ*inHundredth) < confusable
}

func lightPair(a, b *Colour, text bool) LightPair {
	out := LightPair{A: a.Name, B: b.Name, Text: text, Lost: -1}
	for _, n := range stops {
		x, y := a.RGB.Linear().Exposed(float64(n)), b.RGB.Linear().Exposed(float64(n))
		at := LightAt{n, x.RGB(), y.RGB(), colour.Contrast(x.RGB(), y.RGB()), float64(differ(x, y)) / inHundredth}
		out.At = append(out.At, at)
		if out.Lost < 0 && at.lost(text) {
			out.Lost = n
		}
	}
	return out
}

// Light lists the pairs of ink and ground of all texts, and of what else shows together the pairs that
// two stops too much light lose, in the order of the palette.
func (p *Plan) Light() []LightPair {
	colours := p.Stunt.Colours
	texts := map[[2]int]bool{}
	at := map[string]int{}
	for i := range colours {
		at[colours[i].Name] = i
	}
	var out []LightPair
	for i := range p.Stunt.Cues {
		c := &p.Stunt.Cues[i]
		if c.Text == "" || c.Ground == Shirts {
			continue
		}
		a, b := at[c.Ink], at[c.Ground]
		if pair := [2]int{min(a, b), max(a, b)}; !texts[pair] {
			texts[pair] = true
			out = append(out, lightPair(&colours[a], &colours[b], true))
		}
	}
	together := p.usedTogether()
	for i := range colours {
		for k := range i {
			if !together[i][k] || texts[[2]int{k, i}] {
				continue
			}
			if pair := lightPair(&colours[k], &colours[i], false); pair.Lost >= 0 {
				out = append(out, pair)
			}
		}
	}
	return out
}

// lockAdvice is what helps against all of it.
const lockAdvice = "Lock exposure, focus and white balance with the cards up, and look at the lightest card at full size: it must not burn out."

// SayLight is what too much light and dark clothes do, in plain sentences; the last one is advice.
func (p *Plan) SayLight() []string {
	var out []string
	for n, words := range []string{"Even in the right light", "With one stop too much light", "With two stops too much light"} {
		if names := p.lostAt(n); len(names) > 0 {
			out = append(out, fmt.Sprintf("%s the camera loses %s.", words, strings.Join(names, ", ")))
		}
	}
	if len(out) == 0 {
		out = append(out, "With up to two stops too much light no pair of colours is lost.")
	}
	out = append(out, p.sayClothes()...)
	return append(out, lockAdvice)
}

// lostAt names the pairs that so many stops lose first.
func (p *Plan) lostAt(stops int) []string {
	var names []string
	for _, l := range p.Light() {
		switch {
		case l.Lost != stops:
		case l.Text:
			names = append(names, fmt.Sprintf("%s on %s (contrast %.1f to 1)", l.A, l.B, l.At[stops].Contrast))
		default:
			names = append(names, fmt.Sprintf("%s beside %s (CIEDE2000 %.1f)", l.A, l.B, l.At[stops].Differ))
		}
	}
	return names
}

// sayClothes says which texts a crowd in dark clothes spoils.
func (p *Plan) sayClothes() []string {
	var out []string
	said := map[[2]string]bool{}
	for i := range p.Stunt.Cues {
		c := &p.Stunt.Cues[i]
		if c.Text == "" || said[[2]string{c.Ink, c.Ground}] {
			continue
		}
		said[[2]string{c.Ink, c.Ground}] = true
		ink := colour.Contrast(p.Stunt.rgb(c.Ink), DarkClothes)
		if ink >= leastContrast {
			continue
		}
		if c.Ground == Shirts {
			out = append(out, fmt.Sprintf("Before a crowd in dark clothes %s letters are lost (contrast %.1f to 1): take a light ink, or cards for the ground.", c.Ink, ink))
		} else {
			out = append(out, fmt.Sprintf("With a crowd in dark clothes what shows between the %s cards looks like %s ink (contrast %.1f to 1): ask for light tops, or take light letters on a dark ground.", c.Ground, c.Ink, ink))
		}
	}
	if len(out) == 0 && p.Spells() {
		out = append(out, "A crowd in dark clothes takes nothing from the letters. But a camera on automatic makes a dark picture brighter, and then the cards are too bright: lock the exposure.")
	}
	return out
}

// LightLine is one line for the person at the lens: what is lost first, or "".
func (p *Plan) LightLine() string {
	for n := range stops {
		if names := p.lostAt(n); len(names) > 0 && n > 0 {
			return fmt.Sprintf("%s too bright loses %s.", []string{"", "One stop", "Two stops"}[n], strings.Join(names, ", "))
		}
	}
	return ""
}
