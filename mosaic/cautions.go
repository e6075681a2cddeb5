package mosaic

import (
	"fmt"

	"everyseat/seating"
)

// cautions are the warnings about the plan as it has come out.
func (p *Plan) cautions() []string {
	var out []string
	out = append(out, p.outOfSight()...)
	if p.Stunt.Print.Tile && p.SheetsPerCard() == 1 {
		out = append(out, "tile = true changes nothing: cards are put together of several sheets only where they are printed (placards = \"stock\" or \"printed\") and larger than the paper.")
	}
	if p.Stunt.Card.Kind == Printed && p.Stunt.Print.Placards != FullColoured {
		out = append(out, "The cards are printed, and no sheet prints them: write placards = \"printed\" under [print], unless somebody else makes them.")
	}
	out = append(out, p.paleLetters()...)
	out = append(out, p.alike()...)
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
			out = append(out, fmt.Sprintf("%s of the cards %s not wholly in the frame of the %s: go farther back, zoom out, or leave aim away so that the stands fill the frame.", thousands(outside), are(outside), markName(m.View.Name)))
		}
		if behind > 0 {
			out = append(out, fmt.Sprintf("%s of the cards %s behind the %s or seen from the back: look at facing of the sections, or let them leave the message with cards = false.", thousands(behind), are(behind), markName(m.View.Name)))
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
