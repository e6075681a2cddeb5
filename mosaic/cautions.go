package mosaic

import (
	"fmt"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// leastContrast is WCAG's figure for large text (success criterion 1.4.3).
const leastContrast = 3

// cautions are the warnings about the plan as it has come out.
func (p *Plan) cautions() []string {
	var out []string
	out = append(out, p.outOfSight()...)
	out = append(out, p.paleLetters()...)
	out = append(out, p.shortStock()...)
	if k := p.Stunt.Card.Kind; k == Bonded || k == Printed {
		out = append(out, fmt.Sprintf("Cards are planned as single sheets, one colour on both sides; what a %s card would save is not worked out.", k))
	}
	return out
}

// outOfSight tells which marks do not have everybody in the frame.
func (p *Plan) outOfSight() []string {
	var out []string
	for _, m := range p.Marks {
		outside, behind := 0, 0
		for s := range p.Stands.Seats {
			switch {
			case p.Stands.Seats[s].Use != seating.UseCard:
			case m.Sight.Behind[s]:
				behind++
			case !m.Sight.InFrame[s]:
				outside++
			}
		}
		if outside > 0 {
			out = append(out, fmt.Sprintf("%s of the cards %s not wholly in the frame of the %s.", thousands(outside), are(outside), markName(m.View.Name)))
		}
		if behind > 0 {
			out = append(out, fmt.Sprintf("%s of the cards %s behind the %s or seen from the back.", thousands(behind), are(behind), markName(m.View.Name)))
		}
	}
	return out
}

func (p *Plan) paleLetters() []string {
	var out []string
	byName := map[string]colour.RGB{}
	for _, c := range p.Stunt.Colours {
		byName[c.Name] = c.RGB
	}
	for _, cue := range p.Stunt.Cues {
		if cue.Text == "" || cue.Ground == Shirts {
			continue
		}
		if ratio := colour.Contrast(byName[cue.Ink], byName[cue.Ground]); ratio < leastContrast {
			out = append(out, fmt.Sprintf("Cue %q: %s on %s has a contrast of %.1f to 1; under %d to 1 letters are hard to read.",
				cue.Name, cue.Ink, cue.Ground, ratio, leastContrast))
		}
	}
	return out
}

// shortStock tells which colours need more sheets than there are.
func (p *Plan) shortStock() []string {
	var out []string
	for c, n := range p.sheetsNeeded() {
		k := p.Stunt.Colours[c]
		if k.Sheets >= 0 && n.cards > k.Sheets {
			out = append(out, fmt.Sprintf("%d sheets of %s are needed, without spares, and there are %d.", n.cards, k.Name, k.Sheets))
		}
	}
	return out
}

func markName(name string) string {
	if name == "camera" {
		return name
	}
	return fmt.Sprintf("mark %q", name)
}

func are(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}
