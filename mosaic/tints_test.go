package mosaic

import (
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
)

// Seats of a third colour count as what they look like: close to the ground they hardly harm, close to the ink
// as much as ink does.
func TestThirdColoursAreSeen(t *testing.T) {
	score := func(third colour.RGB) float64 {
		s := gullhaven()
		s.Colours[2].RGB = third
		p := mustMake(t, s)
		// Stock was short: a bar of ground across the word's middle has the third colour.
		for i, c := range p.Cues[0].Colours {
			if p.Stands.Seats[i].Row == 6 && c == 0 {
				p.Cues[0].Colours[i] = 2
			}
		}
		j := p.Judged(0)
		return legibility.NewChances(j.Fields, j.First, j.Ink, p.Cues[0].Text.Glyphs(), j.Options).Shrunk(legibility.PhoneWidth).Score
	}
	light, dark := score(colour.RGB{0xff, 0xd8, 0x60}), score(colour.RGB{0x40, 0x20, 0x20})
	if light > dark-0.1 {
		t.Errorf("a bar of a light colour through light letters scores %.3f, of a dark one %.3f", light, dark)
	}
}

// Of cards with two colours the label is on the lighter side, and hardly harms a text of light letters; where both sides
// are dark it shows, and the score knows.
func TestLabelsAreSeen(t *testing.T) {
	threeCues := func(light colour.RGB, how Placards) *Plan {
		s := gullhaven()
		s.Colours[1].RGB = light
		s.Print.Placards = how
		s.Cues = []Cue{{Text: "GLOW"}, {Text: "LAMP"}, {Text: "MOON"}}
		for i := range s.Cues {
			s.Cues[i].Ink, s.Cues[i].Ground = "white", "navy"
		}
		return mustMake(t, s)
	}
	seen := func(p *Plan) (share float64, n int) {
		for _, s := range p.Cues[0].Field {
			if v := p.LabelSeen(0, s); v > 0 {
				share, n = share+v, n+1
			}
		}
		return share, n
	}
	cream, ochre := colour.RGB{0xff, 0xf8, 0xe0}, colour.RGB{0xa8, 0x58, 0x20}
	for _, c := range threeCues(cream, Labels).Cards {
		if c.Sides[0] != c.Sides[1] && c.Sides[0] != 1 {
			t.Errorf("side A of %s is the dark one", c.ID)
		}
	}
	var harm [2]float64
	for i, light := range []colour.RGB{cream, ochre} {
		with, without := threeCues(light, Labels), threeCues(light, FullColoured)
		if share, n := seen(with); n < 20 || share/float64(n) < 0.01 {
			t.Errorf("%v: the camera sees %.2f of labels on %d cards", light, share, n)
		}
		if share, _ := seen(without); share != 0 {
			t.Errorf("%v: cards without stuck labels show %.2f of them", light, share)
		}
		for k := range with.Cues {
			harm[i] += without.Cues[k].Reading.Score - with.Cues[k].Reading.Score
		}
	}
	if harm[0] > 0.02 || harm[0] < -0.02 {
		t.Errorf("white labels on light cards take %.3f of the score", harm[0])
	}
}
