package brief

import (
	"fmt"
	"math"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/say"
)

// then says the change and what it gives.
func then(a *advice.Advice) string {
	return fmt.Sprintf("%s: then it %s (%.0f of 100)", a.Do, verdictWords(a.Verdict), 100*a.After)
}

// verdictWords is a verdict on a change, after "it".
func verdictWords(v legibility.Verdict) string {
	if v == legibility.DoesNotRead {
		return "still does not read"
	}
	return v.Says()
}

// adviceFor says which one change helps most, or plainly that none does.
func (t *teller) adviceFor(cue int) string {
	for i := range t.o.Advice {
		a := &t.o.Advice[i]
		if a.Cue != cue {
			continue
		}
		if len(a.Advice) == 0 {
			return fmt.Sprintf("None of the %d changes that were measured helps.", a.Tried)
		}
		best := &a.Advice[0]
		out := fmt.Sprintf("What helps most of the %d changes that were measured: %s.", a.Tried, then(best))
		if a.Least > 0 {
			out += fmt.Sprintf(" A smaller change: %s.", then(&a.Advice[a.Least]))
		}
		return out
	}
	return say.Sentence("Which one change helps most is " + notKnown)
}

// lockAdvice is what helps against all of it.
const lockAdvice = "Lock exposure, focus and white balance with the cards up, and look at the lightest card at full size: it must not burn out."

// sayLight is what too much light and dark clothes do, in plain sentences; the last one is advice.
func (t *teller) sayLight() []string {
	var out []string
	for n, words := range [...]string{"Even in the right light", "With one stop too much light", "With two stops too much light"} {
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
func (t *teller) sayClothes() []string {
	p := t.p
	var out []string
	said := map[[2]string]bool{}
	for i := range p.Stunt.Cues {
		c := &p.Stunt.Cues[i]
		if c.Text == "" || said[[2]string{c.Ink, c.Ground}] {
			continue
		}
		said[[2]string{c.Ink, c.Ground}] = true
		ink := colour.Contrast(p.Stunt.RGBOf(c.Ink), outlook.DarkClothes)
		if ink >= mosaic.LeastContrast {
			continue
		}
		if c.Ground == mosaic.Shirts {
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
	p := t.p
	v := p.Marks[0].View
	sum, n := 0.0, 0.0
	for s := range p.Stands.Seats {
		if p.Stands.Seats[s].Use == seating.UseCard && !p.Marks[0].Sight.Behind[s] {
			_, depth := v.Project(p.Stands.Seats[s].Position)
			sum, n = sum+depth, n+1
		}
	}
	if n == 0 {
		return ""
	}
	at := sum / n
	w, h, px := outlook.FrameAt(v, at)
	across, up := 2*math.Atan(float64(v.Width)/2/v.Focal)*180/math.Pi, 2*math.Atan(float64(v.Height)/2/v.Focal)*180/math.Pi
	card := p.Scene.Card
	return fmt.Sprintf("The lens sees %.1f° across and %.1f° up and down. At %s, the middle of the cards, its frame is %s wide and %s high (distance × picture size ÷ focal length in pixels), which gives %.0f pixels a metre: a card of %.0f × %.0f cm that faces it has %.0f × %.0f pixels.",
		across, up, say.Span(at), say.Span(w), say.Span(h), px, 100*card.Width.Metres(), 100*card.Height.Metres(), px*card.Width.Metres(), px*card.Height.Metres())
}
