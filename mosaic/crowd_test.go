package mosaic

import (
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
)

// inked is the fair's word in an ink on cream.
func inked(ink colour.RGB, wear Wear) *Stunt {
	s := gullhaven()
	s.Colours[0].RGB, s.Colours[1].RGB = colour.RGB{0xfd, 0xf4, 0xdc}, ink
	s.People.Wear = wear
	return s
}

// Ink that people wear reads worse than red, which few do, and it is said why; of ten pictures with a crowd of its own the
// outside reader read navy ink on cream in none, red in 8, cream on navy in 6 and cream on red in 9.
func TestInkThatPeopleWear(t *testing.T) {
	navy, red := colour.RGB{0x18, 0x24, 0x54}, colour.RGB{0xbe, 0x1e, 0x28}
	for _, wear := range []Wear{Mixed, Dark} {
		dark, bright := mustMake(t, inked(navy, wear)).Cues[0].Reading, mustMake(t, inked(red, wear)).Cues[0].Reading
		if dark.Score > bright.Score-0.1 {
			t.Errorf("%s: navy ink scores %.3f, red ink %.3f", wear, dark.Score, bright.Score)
		}
		said := ""
		for _, l := range dark.Letters {
			said += l.Why + "\n"
		}
		if !strings.Contains(said, "people wear the colour of its ink") {
			t.Errorf("%s: the letters are weak since %q", wear, said)
		}
		for _, l := range bright.Letters {
			if strings.Contains(l.Why, "wear") {
				t.Errorf("%s: red %s is weak since %s", wear, l.Letter, l.Why)
			}
		}
	}
	if s := inked(navy, Light); s.Wears(navy) || !inked(navy, Dark).Wears(navy) {
		t.Error("who wears light clothes wears navy, or nobody in dark ones does")
	}
}

// The worse the hands, the worse it reads, down to not at all; where they are off by a row, that is said.
func TestHandsSpoilAText(t *testing.T) {
	before := 2.0
	for _, hand := range []seating.Length{
		seating.Millimetre, 4 * seating.Centimetre, 10 * seating.Centimetre, 30 * seating.Centimetre,
	} {
		s := gullhaven()
		s.Card.HandHeight, s.Card.HandSideways, s.Card.HandTilt = hand, hand, hand.Metres()*100
		r := mustMake(t, s).Cues[0].Reading
		if r.Score >= before {
			t.Errorf("hands off by %s: %.3f, and %.3f with steadier ones", hand, r.Score, before)
		}
		before = r.Score
		if hand < 30*seating.Centimetre {
			continue
		}
		if r.Verdict != legibility.DoesNotRead {
			t.Errorf("hands off by %s: it %s, %.3f", hand, r.Verdict.Says(), r.Score)
		}
		for _, l := range r.Letters {
			if l.Why != "" && !strings.Contains(l.Why, "hands are off") && !strings.Contains(l.Why, "seats wide") {
				t.Errorf("hands off by %s: %s is weak since %s", hand, l.Letter, l.Why)
			}
		}
	}
}

// Small cards far from each other, seen from above, leave the picture to what shows between them.
func TestSmallCardsOnAWideBench(t *testing.T) {
	read := func(wide, high seating.Length) legibility.Reading {
		s := gullhaven()
		s.Camera.Height, s.Camera.Back = 8*seating.Metre, 14*seating.Metre
		for i := range s.Stands.Sections {
			s.Stands.Sections[i].Pitch = 30 * seating.Inch
		}
		s.Card.Width, s.Card.Height = wide, high
		return mustMake(t, s).Cues[0].Reading
	}
	small, large := read(5*seating.Inch, 7*seating.Inch), read(11*seating.Inch, 14*seating.Inch)
	if small.Score > large.Score-0.1 {
		t.Errorf("cards of 5 by 7 inches score %.3f, of 11 by 14 %.3f", small.Score, large.Score)
	}
	said := ""
	for _, l := range small.Letters {
		said += l.Why + "\n"
	}
	if !strings.Contains(said, "cards cover only") {
		t.Errorf("small cards: the letters are weak since %q", said)
	}
}
