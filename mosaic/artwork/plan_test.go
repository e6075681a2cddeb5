package artwork_test

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"slices"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/artwork"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Every seat of a plan shows what the obvious way finds in its own cell, in the
// camera's picture and laid flat. Placing is worked out anew here: the whole image
// in the middle of the box around all cells.
func TestSeatsShowTheirCells(t *testing.T) {
	const width, height = 97, 61
	data, err := os.ReadFile("../../testdata/sampling/picture.png")
	if err != nil {
		t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	channels := [3][]float64{}
	for y := range height {
		for x := range width {
			r, g, b, _ := picture.At(x, y).RGBA()
			l := colour.RGB{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}.Linear()
			for c := range channels {
				channels[c] = append(channels[c], l[c])
			}
		}
	}
	var palette []colour.RGB
	colours := []mosaic.Colour{
		{Name: "navy", RGB: colour.RGB{0x1b, 0x2a, 0x5c}, Sheets: -1},
		{Name: "white", RGB: colour.RGB{0xff, 0xff, 0xff}, Sheets: -1},
		{Name: "gold", RGB: colour.RGB{0xf2, 0xb7, 0x05}, Sheets: -1},
	}
	for _, c := range colours {
		palette = append(palette, c.RGB)
	}
	nearest, ground := colour.NewPalette(palette), palette[0].Linear()
	var sections []seating.SectionSpec
	for _, name := range []string{"A", "B", "C"} {
		sections = append(sections, seating.SectionSpec{
			Name: name, Kind: seating.Bench, Rows: 12, Seats: []int{12}, Pitch: 20 * seating.Inch,
			Rise: 9*seating.Inch + seating.Inch*5/8, Run: 24 * seating.Inch, FirstRow: 12 * seating.Inch,
			SeatBoard: 17 * seating.Inch, Aisle: 48 * seating.Inch,
		})
	}
	for _, fit := range []string{"fit", "flat"} {
		p, err := mosaic.Make(&mosaic.Stunt{
			Title: "Lantern Fair of Gullhaven", Stands: seating.Spec{Sections: sections}, Colours: colours,
			Camera: camera.Mark{Back: 18 * seating.Metre, Height: 3 * seating.Metre},
			Cues:   []mosaic.Cue{{ImageName: "picture.png", Image: data, Fit: fit}},
		})
		if err != nil {
			t.Fatal(err)
		}
		cells := p.Cells
		if fit == "flat" {
			cells = camera.FlatCells(p.Stands)
		}
		left, right, top, bottom := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, c := range cells {
			for _, k := range c {
				left, right, top, bottom = min(left, k[0]), max(right, k[0]), min(top, k[1]), max(bottom, k[1])
			}
		}
		scale := min((right-left)/width, (bottom-top)/height)
		kinds := map[int16]int{}
		for i, c := range cells {
			var q artwork.Quad
			for k := range c {
				q[k][0] = (c[k][0]-(left+right)/2)/scale + width/2.0
				q[k][1] = (c[k][1]-(top+bottom)/2)/scale + height/2.0
			}
			covered := artwork.SlowAverage(width, height, slices.Repeat([]float64{1}, width*height), q)
			var mean colour.Linear
			for k := range mean {
				mean[k] = artwork.SlowAverage(width, height, channels[k], q) + (1-covered)*ground[k]
			}
			want := int16(nearest.Nearest(mean))
			if got := p.Cues[0].Colours[i]; got != want {
				t.Errorf("%s: %s shows %d, its cell %d", fit, p.Stands.ID(i), got, want)
			}
			kinds[want]++
		}
		if len(kinds) < 3 {
			t.Errorf("%s: only the colours %v are shown", fit, kinds)
		}
	}
}
