package pictures

import (
	"bytes"
	"image/png"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/outlook"
)

// The numbered seats are black where they lie, those that hardly matter are white, and so much light lies between the
// classes that a copy without colour parts them: every class has three quarters of the light of the one before or less
// (relative luminance by WCAG, SEEN in W3C's repository).
func TestMatter(t *testing.T) {
	p, err := mosaic.Make(&mosaic.Stunt{
		Title: "Lantern Fair of Gullhaven", Stands: hall(false), Camera: smallMark(), Colours: testColours,
		Cues: []mosaic.Cue{{Text: "GLOW", Ground: "Navy", Ink: "White"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	o, err := outlook.Of(t.Context(), p, outlook.Falls, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	told := told(p)
	told.Outlook = o
	var b, again bytes.Buffer
	if err := Matter(&b, told, 0); err != nil {
		t.Fatal(err)
	}
	if err := Matter(&again, told, 0); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Errorf("a second map differs (%v)", err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	c, err := newChart(told, 0)
	if err != nil {
		t.Fatal(err)
	}
	corner := func(seat int) rgb { // inside the cell, outside the letter and the frame
		q := c.cell(seat, c.gap())
		r, g, bl, _ := img.At(int(q[0].x)+1, int(q[0].y)+1).RGBA()
		return rgb{uint8(r >> 8), uint8(g >> 8), uint8(bl >> 8)}
	}
	look := &o.Cues[0]
	if len(look.Matter) < brief.NamedSeats {
		t.Fatalf("%d seats matter", len(look.Matter))
	}
	for _, s := range look.Matter[:brief.NamedSeats] {
		if luminance(corner(int(s))) > 2*luminance(inkText) {
			t.Errorf("%s is %v", p.Stands.ID(int(s)), corner(int(s)))
		}
	}
	white := 0
	for _, s := range p.Cues[0].Field {
		if outlook.Harm(look.Falls[s]) <= 0 {
			if got := corner(int(s)); luminance(got) < luminance(matterInks[0])*9/10 {
				t.Errorf("%s does no harm and is %v", p.Stands.ID(int(s)), got)
			}
			white++
		}
	}
	if white < 20 {
		t.Errorf("only %d seats do no harm", white)
	}
	for k := 1; k < len(matterInks); k++ {
		if lighter, darker := luminance(matterInks[k-1]), luminance(matterInks[k]); darker*4 > lighter*3 {
			t.Errorf("classes %d and %d are too alike", k-1, k)
		}
	}
	if err := Matter(&b, told, 5); err == nil {
		t.Error("there is no sixth cue")
	}
}
