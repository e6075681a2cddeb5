package mosaic

import (
	"slices"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
)

// Wear is what most people of a crowd wear.
type Wear string

// The crowds; "" is Mixed.
const (
	Mixed Wear = "mixed"
	Dark  Wear = "dark"
	Light Wear = "light"
)

// What shows of people between the cards: their clothes, of a mixed crowd mostly muted and dark, and skin and hair
// (ours, no source).
var (
	mixedClothes = []colour.RGB{
		{62, 66, 84}, {40, 44, 52}, {96, 88, 78}, {120, 120, 124}, {70, 40, 44}, {48, 72, 60}, {134, 110, 92},
		{88, 104, 128},
	}
	darkClothes = []colour.RGB{
		DarkClothes, {36, 40, 56}, {24, 24, 28}, {52, 48, 46}, {44, 50, 44}, {70, 62, 58},
	}
	lightClothes = []colour.RGB{
		{220, 216, 208}, {180, 160, 150}, {120, 150, 190}, {200, 90, 80}, {90, 120, 90}, {60, 70, 100},
		{230, 200, 120},
	}
	bodies = []colour.RGB{{224, 178, 150}, {150, 106, 80}, {58, 42, 32}, {30, 24, 22}}
)

// DarkClothes is the colour of a crowd in dark clothes where one must stand for all.
var DarkClothes = colour.RGB{28, 28, 32}

// colours are what shows between the cards, each for an equal part: clothes twice as much as skin and hair.
func (w Wear) colours() []colour.RGB {
	worn := mixedClothes
	switch w {
	case Dark:
		worn = darkClothes
	case Light:
		worn = lightClothes
	}
	return slices.Concat(worn, worn, bodies)
}

// mean is all of it blurred to one colour, in linear light.
func (w Wear) mean() colour.Linear {
	var sum colour.Linear
	all := w.colours()
	for _, c := range all {
		for k, v := range c.Linear() {
			sum[k] += float64(v / float64(len(all)))
		}
	}
	return sum
}

// asWorn is the CIEDE2000, in hundredths, within which clothes pass for a card: cloth differs from cloth by as much
// again as two cards that are confused (ours, no source).
const asWorn = 2 * Confusable

// share is how much of what shows between the cards passes for a card of this colour, 0…1.
func (w Wear) share(card colour.RGB) float64 {
	n := 0
	all := w.colours()
	for _, c := range all {
		if Differ(c.Linear(), card.Linear()) < asWorn {
			n++
		}
	}
	return float64(n) / float64(len(all))
}

// Wears says whether people wear a card's colour, so that what shows between the cards passes for it.
func (s *Stunt) Wears(card colour.RGB) bool { return s.People.Wear.share(card) >= legibility.OftenWorn }

// crowd is how what shows between the cards of a text looks. Before shirts the ground is the crowd itself.
func (m *maker) crowd(cue *Cue) legibility.Crowd {
	wear := m.p.Stunt.People.Wear
	ink := m.p.Stunt.RGBOf(cue.Ink)
	ground := wear.mean().RGB()
	var c legibility.Crowd
	if cue.Ground != Shirts {
		ground = m.p.Stunt.RGBOf(cue.Ground)
		c.Ground = wear.share(ground)
	}
	c.Ink = wear.share(ink)
	c.Mean, c.Spread = colour.Between(wear.colours(), ground, ink)
	return c
}
