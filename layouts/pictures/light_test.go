package pictures

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/outlook"
)

// brighter is a channel with so many stops more light: the transfer curve of IEC 61966-2-1,
// written out here on its own, and full at 255.
func brighter(v uint8, stops float64) uint8 {
	l := min(1, colour.Decode(float64(v)/255)*math.Exp2(stops))
	if l <= 0.0031308 {
		return uint8(math.Round(255 * 12.92 * l))
	}
	return uint8(math.Round(255 * (1.055*math.Pow(l, 1/2.4) - 0.055)))
}

// TestLightAgrees: in the drawn pictures ink and ground have the very colours, and so the
// contrast, that the report's figures give for them; these follow IEC 61966-2-1.
func TestLightAgrees(t *testing.T) {
	p := painted(t, hall(false), "LFO", testMark())
	p.Stunt.Cues = []mosaic.Cue{{Name: "1", Text: "LFO", Ink: testColours[1].Name, Ground: testColours[0].Name}}
	o, err := outlook.Of(t.Context(), p, outlook.Light, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	pairs := o.Light
	if len(pairs) == 0 {
		t.Fatal("no pair of ink and ground")
	}
	var b bytes.Buffer
	if err := Light(&b, p, 0); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	sheet := layLight(p, 0)
	for i, l := range lightPanels {
		at := pairs[0].At[int(l.stops)]
		r := sheet.at(i)
		ink, ground := count(img, r, rgb(at.A)), count(img, r, rgb(at.B))
		if ink < 300 || ground < 1000 {
			t.Errorf("%s: %d pixels of %s and %d of %s", l.name, ink, at.A.Hex(), ground, at.B.Hex())
		}
		for c := range 3 {
			from := p.Stunt.Colours
			a, b := brighter(named(from, pairs[0].A)[c], l.stops), brighter(named(from, pairs[0].B)[c], l.stops)
			if a != at.A[c] || b != at.B[c] {
				t.Errorf("%s, channel %d: %d and %d by the standard, %d and %d drawn", l.name, c, a, b, at.A[c], at.B[c])
			}
		}
	}
	// Dark clothes are seen where other clothes were; a few edges have their colour by chance.
	dark := rgb(mosaic.DarkClothes)
	if was, is := count(img, sheet.at(0), dark), count(img, sheet.at(3), dark); is < 200 || 50*was > is {
		t.Errorf("%d pixels of dark clothes in the usual crowd, %d in the dark one", was, is)
	}
}

// TestLightIsLarge: each of the four pictures holds every card of the text that is in the frame;
// they span most of its width or height; and the sheet is used up one way.
func TestLightIsLarge(t *testing.T) {
	p := painted(t, hall(false), "LFO", testMark())
	v, sheet := p.Marks[0].View, layLight(p, 0)
	k := sheet.view.Focal / v.Focal
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := range p.Stands.Seats {
		if p.Cues[0].Colours[i] == mosaic.None || !p.Marks[0].Sight.InFrame[i] {
			continue
		}
		for _, c := range p.Marks[0].Sight.Corners[i] {
			x, y := (c[0]-v.Center[0])*k+sheet.view.Center[0], (c[1]-v.Center[1])*k+sheet.view.Center[1]
			x0, x1, y0, y1 = math.Min(x0, x), math.Max(x1, x), math.Min(y0, y), math.Max(y1, y)
		}
	}
	wide, high := float64(sheet.view.Width), float64(sheet.view.Height)
	if x0 < 0 || x1 > wide || y0 < 0 || y1 > high {
		t.Errorf("cards from %.0f to %.0f across and %.0f to %.0f down in a picture of %.0f × %.0f", x0, x1, y0, y1, wide, high)
	}
	if y1-y0 < 0.7*high && x1-x0 < 0.7*wide {
		t.Errorf("cards span %.0f × %.0f of a picture of %.0f × %.0f", x1-x0, y1-y0, wide, high)
	}
	all := sheet.at(len(lightPanels) - 1).Max
	if most := max(all.X, all.Y); most > lightSide || most < lightSide-8 {
		t.Errorf("the sheet is %v, and may be %d either way", all, lightSide)
	}
}

func named(from []mosaic.Colour, name string) colour.RGB {
	for i := range from {
		if from[i].Name == name {
			return from[i].RGB
		}
	}
	panic(name)
}

func count(img image.Image, in image.Rectangle, c rgb) int {
	n := 0
	for y := in.Min.Y; y < in.Max.Y; y++ {
		for x := in.Min.X; x < in.Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			if (rgb{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}) == c {
				n++
			}
		}
	}
	return n
}
