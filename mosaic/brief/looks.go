package brief

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating/say"
)

// then says the change and what it gives.
func then(a *advice.Advice) string {
	verdict := a.Verdict.Says()
	if a.Verdict == legibility.DoesNotRead {
		verdict = "still does not read"
	}
	return fmt.Sprintf("%s: then it %s (%.0f of 100)", a.Do, verdict, 100*a.After)
}

// adviceFor says which one change helps most, or plainly that none does.
func (t *teller) adviceFor(cue int) string {
	i := slices.IndexFunc(t.o.Advice, func(a advice.Advised) bool { return a.Cue == cue })
	if i < 0 {
		return say.Sentence("Which one change helps most is " + notKnown)
	}
	a := &t.o.Advice[i]
	if len(a.Advice) == 0 {
		return fmt.Sprintf("None of the %d changes that were measured helps.", a.Tried)
	}
	out := fmt.Sprintf("What helps most of the %d changes that were measured: %s.", a.Tried, then(&a.Advice[0]))
	if a.Least > 0 {
		out += fmt.Sprintf(" A smaller change: %s.", then(&a.Advice[a.Least]))
	}
	return out
}

// lockAdvice is what helps against all of it.
const lockAdvice = "Lock exposure, focus and white balance with the cards up, and look at the lightest card at full " +
	"size: it must not burn out."

// sayLight is what too much light and dark clothes do, in plain sentences; the last one is advice.
func (t *teller) sayLight() []string {
	var out []string
	for n, words := range [...]string{"Even in the right light", "With one stop too much light", "With two stops " +
		"too much light"} {
		if names := t.lostAt(n); len(names) > 0 {
			out = append(out, fmt.Sprintf("%s the camera loses %s.", words, strings.Join(names, ", ")))
		}
	}
	if len(out) == 0 {
		out = append(out, "With up to two stops too much light no pair of colours is lost.")
	}
	out = append(out, t.sayClothes()...)
	return append(out, lockAdvice)
}

// lostAt names the pairs that so many stops lose first.
func (t *teller) lostAt(stops int) []string {
	var names []string
	for _, l := range t.o.Light {
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
func (t *teller) sayClothes() (out []string) {
	said := map[[2]string]bool{}
	for i := range t.Stunt.Cues {
		c := &t.Stunt.Cues[i]
		ink := colour.Contrast(t.Stunt.RGBOf(c.Ink), outlook.DarkClothes)
		switch inks := [2]string{c.Ink, c.Ground}; {
		case c.Text == "" || said[inks] || ink >= mosaic.LeastContrast:
			continue
		case c.Ground == mosaic.Shirts:
			out = append(out, fmt.Sprintf("Before a crowd in dark clothes %s letters are lost (contrast %.1f to 1): "+
				"take a light ink, or cards for the ground.", c.Ink, ink))
		default:
			out = append(out, fmt.Sprintf("With a crowd in dark clothes what shows between the %s cards looks like "+
				"%s ink (contrast %.1f to 1): ask for light tops, or take light letters on a dark ground.", c.Ground,
				c.Ink, ink))
		}
		said[[2]string{c.Ink, c.Ground}] = true
	}
	if len(out) == 0 && t.Spells() {
		out = append(out, "A crowd in dark clothes takes nothing from the letters. But a camera on automatic makes "+
			"a dark picture brighter, and then the cards are too bright: lock the exposure.")
	}
	return out
}

// lightLine is one line for the person at the lens: what is lost first, or "".
func (t *teller) lightLine() string {
	for n, words := range [...]string{1: "One stop", 2: "Two stops"} {
		if names := t.lostAt(n); len(names) > 0 && n > 0 {
			return fmt.Sprintf("%s too bright loses %s.", words, strings.Join(names, ", "))
		}
	}
	return ""
}

// sayFrame is what the camera's frame takes in at the middle of the cards.
func (t *teller) sayFrame() string {
	v := t.Marks[0].View
	deep, n := 0.0, 0.0
	for s := range CardsSeen(t.Plan) {
		_, depth := v.Project(t.Stands.Seats[s].Position)
		deep, n = deep+depth, n+1
	}
	if n == 0 {
		return ""
	}
	at := deep / n
	w, h, px := outlook.FrameAt(v, at)
	degrees := func(pixels int) float64 { return 2 * math.Atan(float64(pixels)/2/v.Focal) * 180 / math.Pi }
	wide, high := t.Scene.Card.Width.Metres(), t.Scene.Card.Height.Metres()
	return fmt.Sprintf("The lens sees %.1f° across and %.1f° up and down. At %s, the middle of the cards, its frame "+
		"is %s wide and %s high (distance × picture size ÷ focal length in pixels), which gives %.0f pixels a "+
		"metre: a card of %.0f × %.0f cm that faces it has %.0f × %.0f pixels.", degrees(v.Width), degrees(v.Height),
		say.Span(at), say.Span(w), say.Span(h), px, 100*wide, 100*high, px*wide, px*high)
}
