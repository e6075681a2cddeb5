package mosaic

import (
	"errors"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

func TestColoursAreRefused(t *testing.T) {
	for _, c := range []struct {
		name            string
		spoil           func(*Stunt)
		key, what, hint string
	}{
		{"given twice", func(s *Stunt) { s.Colours[2].RGB = s.Colours[0].RGB }, "colour[2].hex", "navy and gold are one colour, #1b2a5c", "leave one"},
		{"too close", func(s *Stunt) { s.Colours[2].RGB = colour.RGB{0x1b, 0x2c, 0x5e} }, "colour[2].hex", "gold, #1b2c5e, is too close to navy, #1b2a5c", ""},
		{"white on yellow", func(s *Stunt) {
			s.Cues[0].Ground, s.Cues[0].Ink, s.Colours[2].RGB = "gold", "white", colour.RGB{0xff, 0xe6, 0x00}
		}, "cue[0].ink", "white on gold is white with yellow", "dark"},
		{"yellow on white", func(s *Stunt) { s.Cues[0].Ground, s.Cues[0].Ink = "white", "gold" }, "cue[0].ink", "gold on white is white with yellow", "dark"},
		{"negative stock", func(s *Stunt) { s.Colours[1].Sheets = -5 }, "colour[1]", "negative number of sheets", ""},
		{"price without pack", func(s *Stunt) { s.Colours[1].PriceCents = 500 }, "colour[1].price", "a price and no pack size", "pack = 50"},
		{"no more than what", func(s *Stunt) { s.Colours[1].NoMore = true }, "colour[1].no_more", "has no_more, and nothing says how many", "sheets = 500"},
		{"white card without a price", func(s *Stunt) { s.Work.PaperPack = 100 }, "print.white_pack", "white_pack and no white_price", "write both"},
		{"white card without a pack", func(s *Stunt) { s.Work.PaperCents = 900 }, "print.white_price", "white_price and no white_pack", "write both"},
		{"a first mark called camera", func(s *Stunt) { s.Marks = []camera.Mark{{Name: "camera", Back: 9 * seating.Metre}} }, "mark[0].name", `two marks called "camera"`, "own name"},
		{"a place for cameras without area", func(s *Stunt) {
			s.Room.Spots = []Spot{{Left: seating.Metre, Right: seating.Metre, Near: -9 * seating.Metre, Far: -8 * seating.Metre}}
		}, "room.camera[0]", "has no area", "left smaller than right"},
		{"uneven hands", func(s *Stunt) { s.Card.HandTilt = 400 }, "card.hand_tilt", "leans by 400 degrees", "hand_tilt = 8"},
	} {
		s := gullhaven()
		c.spoil(s)
		_, err := Make(s)
		var f *seating.Fault
		if !errors.As(err, &f) || f.Key != c.key || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Red on green of like lightness: fine for most, too little for protan eyes, which
// see red dark, is told apart by them; the figures are those of the package colour.
func TestOtherEyesAreWarnedAbout(t *testing.T) {
	s := gullhaven()
	red, black := colour.RGB{0xe0, 0x20, 0x20}, colour.RGB{0x10, 0x10, 0x10}
	if colour.Contrast(red, black) < LeastContrast {
		t.Fatal("this pair does not test other eyes")
	}
	s.Colours[0].RGB, s.Colours[1].RGB = black, red
	w := strings.Join(mustMake(t, s).Warnings, "\n")
	if !strings.Contains(w, "for people with protan vision white on navy has a contrast of ") || strings.Contains(w, "tritan vision white") {
		t.Errorf("warnings %s", w)
	}
}

// Colours that show together and are near to each other are named.
func TestAlikeColoursAreNamed(t *testing.T) {
	s := gullhaven()
	s.Colours[2].RGB = colour.RGB{0x2c, 0x3a, 0x6e} // CIEDE2000 of some 5 to navy
	if w := strings.Join(mustMake(t, s).Warnings, " "); strings.Contains(w, "for each other") {
		t.Errorf("gold does not show, and still: %q", w)
	}
	s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 4}, Colour: "gold"}}
	if w := strings.Join(mustMake(t, s).Warnings, " "); !strings.Contains(w, "A camera may take these colours for each other: navy and gold.") {
		t.Errorf("warnings %q", w)
	}
	s.Colours[0].RGB, s.Colours[2].RGB = colour.RGB{0x80, 0x70, 0x00}, colour.RGB{0xa0, 0x62, 0x00}
	if w := strings.Join(mustMake(t, s).Warnings, " "); !strings.Contains(w, "Colour-blind people may take these colours for each other: navy and gold (") {
		t.Errorf("warnings %q", w)
	}
}

// Black on the card by WCAG's ratio (4.5 to 1, success criterion 1.4.3), or as the crew says.
func TestWhiteLabels(t *testing.T) {
	s := gullhaven()
	for i, want := range []bool{true, false, false} {
		if got := s.WhiteLabel(i); got != want {
			t.Errorf("%s: %v", s.Colours[i].Name, got)
		}
	}
	s.Colours[2].DarkestInk = "white"
	if !s.WhiteLabel(2) {
		t.Error("only white shows on gold, as the crew says")
	}
}
