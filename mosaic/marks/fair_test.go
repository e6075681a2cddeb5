package marks

import (
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// fair is a made-up fair's stands: three sections side by side, 450 people, symmetric to
// the camera in the middle.
func fair(text string) *mosaic.Stunt {
	section := func(name string) seating.SectionSpec {
		return seating.SectionSpec{
			Name: name, Kind: seating.Bench, Rows: 15, Seats: []int{10}, Pitch: 20 * seating.Inch,
			Rise: 10 * seating.Inch, Run: 24 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		}
	}
	return &mosaic.Stunt{
		Title:  "Lantern Fair of Gullhaven",
		Stands: seating.Spec{Sections: []seating.SectionSpec{section("A"), section("B"), section("C")}},
		Camera: camera.Mark{Back: 22 * seating.Metre, Height: 3 * seating.Metre},
		Card:   mosaic.CardSpec{Width: 17 * seating.Inch, Height: 11 * seating.Inch, Held: camera.Eyes},
		Colours: []mosaic.Colour{
			{Name: "HARBOUR", RGB: colour.RGB{0x16, 0x29, 0x4d}, Sheets: -1},
			{Name: "CREAM", RGB: colour.RGB{0xfb, 0xf1, 0xd8}, Sheets: -1},
		},
		Cues: []mosaic.Cue{{Text: text, Ink: "CREAM", Ground: "HARBOUR"}},
	}
}

func planned(t testing.TB, s *mosaic.Stunt) *mosaic.Plan {
	t.Helper()
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func mapped(t testing.TB, s *mosaic.Stunt, o Options) *Map {
	t.Helper()
	m, err := Search(planned(t, s), o)
	if err != nil {
		t.Fatal(err)
	}
	return m
}
