package pictures

import (
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
)

// labelColours are both so dark that a white label shows on either side.
var labelColours = []mosaic.Colour{{Name: "night", RGB: colour.RGB{0x10, 0x18, 0x30}, Sheets: -1}, {Name: "moss", RGB: colour.RGB{0x70, 0xa0, 0x58}, Sheets: -1}}

// TestLabelsInThePicture: of the labels that a plan says the camera sees, the drawn picture shows about as much, heads, hands
// and cards in front taken off by what is drawn and not by the plan's arithmetic.
func TestLabelsInThePicture(t *testing.T) {
	p, err := mosaic.Make(&mosaic.Stunt{
		Title: "Lantern Fair of Gullhaven", Stands: hall(false), Camera: testMark(), Colours: labelColours,
		Cues: []mosaic.Cue{{Text: "SEA"}, {Text: "TIDE"}, {Text: "OAR"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	said := 0.0
	for s := range p.Stands.Seats {
		said += p.LabelSeen(0, int32(s)) * float64(p.Marks[0].Sight.Pixels[s])
	}
	img := filmed(t, p, 0)
	got := count(img, img.Bounds(), rgb{0xff, 0xff, 0xff})
	if said < 1000 || float64(got) < said/2 || float64(got) > said*2 {
		t.Errorf("%d pixels of labels, the plan says %.0f", got, said)
	}
	bare := *p.Stunt
	bare.Print.Placards = mosaic.FullColoured
	other := *p
	other.Stunt = &bare
	img = filmed(t, &other, 0)
	if n := count(img, img.Bounds(), rgb{0xff, 0xff, 0xff}); n > got/50 {
		t.Errorf("%d pixels of labels where none are stuck on", n)
	}
}
