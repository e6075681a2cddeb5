package mosaic

import (
	"fmt"
	"math"
	"strings"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// Contrasts by WCAG: large text (success criterion 1.4.3), for letters in the stands;
// and usual text (the same, level AA), for a label on its card.
const (
	leastContrast  = 3
	labelContrast  = 4.5
	yellowContrast = 2 // white with yellow stays under it
)

// Differences of card colours by CIEDE2000, in hundredths (ours, no source): under the
// first nobody tells two cards apart in a pile, under the second a camera may take
// one for the other, in shade or under coloured light.
const (
	tooClose    = 300
	confusable  = 1000
	inHundredth = 100
)

// differ is the CIEDE2000 difference in whole hundredths.
func differ(a, b colour.Linear) int {
	return int(math.Round(colour.CIEDE2000(a.Lab(), b.Lab()) * inHundredth))
}

// checkApart refuses a colour that is given twice, or nearly.
func checkApart(colours []Colour) error {
	for i := range colours {
		for k := range i {
			a, b := &colours[i], &colours[k]
			if a.RGB == b.RGB {
				return &seating.Fault{
					Key:  fmt.Sprintf("colour[%d].hex", i),
					What: fmt.Sprintf("%s and %s are one colour, %s", b.Name, a.Name, a.RGB.Hex()),
					Hint: "leave one of them out",
				}
			}
			if differ(a.RGB.Linear(), b.RGB.Linear()) < tooClose {
				return &seating.Fault{
					Key:  fmt.Sprintf("colour[%d].hex", i),
					What: fmt.Sprintf("%s, %s, is too close to %s, %s, to be told apart", a.Name, a.RGB.Hex(), b.Name, b.RGB.Hex()),
					Hint: "leave one of them out",
				}
			}
		}
	}
	return nil
}

// White is light and nearly without colour; yellow is light, and its hue angle in
// CIELAB lies about that of sRGB yellow, 103 degrees (ours, no source).
const (
	paleLight, paleChroma = 88, 16
	yellowLight           = 70
	yellowChroma          = 35
	yellowFrom, yellowTo  = 75, 115
)

func whitish(l colour.Lab) bool {
	return l[0] >= paleLight && math.Hypot(l[1], l[2]) <= paleChroma
}

func yellowish(l colour.Lab) bool {
	hue := math.Atan2(l[2], l[1]) * 180 / math.Pi
	return l[0] >= yellowLight && math.Hypot(l[1], l[2]) >= yellowChroma && hue >= yellowFrom && hue <= yellowTo
}

// checkInk refuses white with yellow: no eye and no camera parts them from afar.
func checkInk(ink, ground colour.RGB, c *Cue, key string) error {
	a, b := ink.Linear().Lab(), ground.Linear().Lab()
	if whitish(a) && yellowish(b) || yellowish(a) && whitish(b) {
		return &seating.Fault{
			Key:  key,
			What: fmt.Sprintf("%s on %s is white with yellow, which nobody can read (contrast %.1f to 1)", c.Ink, c.Ground, colour.Contrast(ink, ground)),
			Hint: "choose a dark colour for one of them",
		}
	}
	return nil
}

// paleLetters tells which texts have too little contrast, for usual eyes or for others.
func (p *Plan) paleLetters() []string {
	var out []string
	for i := range p.Stunt.Cues {
		cue := &p.Stunt.Cues[i]
		if cue.Text == "" || cue.Ground == Shirts {
			continue
		}
		ink, ground := p.Stunt.rgb(cue.Ink), p.Stunt.rgb(cue.Ground)
		if ratio := colour.Contrast(ink, ground); ratio < leastContrast {
			out = append(out, fmt.Sprintf("Cue %q: %s on %s has a contrast of %.1f to 1; under %d to 1 letters are hard to read.",
				cue.Name, cue.Ink, cue.Ground, ratio, leastContrast))
			continue
		}
		for _, v := range colour.Visions {
			if ratio := colour.Contrast(v.See(ink.Linear()).RGB(), v.See(ground.Linear()).RGB()); ratio < leastContrast {
				out = append(out, fmt.Sprintf("Cue %q: for people with %s vision %s on %s has a contrast of %.1f to 1; under %d to 1 letters are hard to read.",
					cue.Name, v, cue.Ink, cue.Ground, ratio, leastContrast))
			}
		}
	}
	return out
}

func (s *Stunt) rgb(name string) colour.RGB {
	for _, c := range s.Colours {
		if c.Name == name {
			return c.RGB
		}
	}
	return colour.RGB{}
}

// alike names colours of one cue that a camera may confuse, or colour-blind people.
func (p *Plan) alike() []string {
	used := p.usedTogether()
	var camera, eyes []string
	for i := range p.Stunt.Colours {
		for k := range i {
			if !used[i][k] {
				continue
			}
			a, b := &p.Stunt.Colours[k], &p.Stunt.Colours[i]
			pair := a.Name + " and " + b.Name
			if differ(a.RGB.Linear(), b.RGB.Linear()) < confusable {
				camera = append(camera, pair)
				continue
			}
			for _, v := range colour.Visions {
				if differ(v.See(a.RGB.Linear()), v.See(b.RGB.Linear())) < confusable {
					eyes = append(eyes, fmt.Sprintf("%s (%s)", pair, v))
				}
			}
		}
	}
	var out []string
	if len(camera) > 0 {
		out = append(out, fmt.Sprintf("A camera may take these colours for each other: %s.", strings.Join(camera, ", ")))
	}
	if len(eyes) > 0 {
		out = append(out, fmt.Sprintf("Colour-blind people may take these colours for each other: %s.", strings.Join(eyes, ", ")))
	}
	return out
}

// usedTogether says which colours show at the same cue.
func (p *Plan) usedTogether() [][]bool {
	n := len(p.Stunt.Colours)
	out := make([][]bool, n)
	for i := range out {
		out[i] = make([]bool, n)
	}
	for q := range p.Cues {
		shown := make([]bool, n)
		for _, c := range p.Cues[q].Colours {
			if c != None {
				shown[c] = true
			}
		}
		for i := range shown {
			for k := range shown {
				out[i][k] = out[i][k] || shown[i] && shown[k]
			}
		}
	}
	return out
}

// WhiteLabel says whether black print cannot be read on a card of this colour, so that
// its label has to be white.
func (s *Stunt) WhiteLabel(colourIndex int) bool {
	c := &s.Colours[colourIndex]
	if c.DarkestInk == "white" {
		return true
	}
	return colour.Contrast(c.RGB, colour.RGB{}) < labelContrast
}
