package lettering_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"everyseat/layouts/pictures"
	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// ownPicture writes the picture that the product itself draws of a layout.
func (p *place) ownPicture(tb testing.TB, path string, ink []bool) {
	tb.Helper()
	colours := make([]int16, len(p.stands.Seats))
	for i := range colours {
		colours[i] = mosaic.None
	}
	for k, on := range ink {
		colours[p.index[k]] = 0
		if on {
			colours[p.index[k]] = 1
		}
	}
	plan := &mosaic.Plan{
		Stunt: &mosaic.Stunt{
			Colours: []mosaic.Colour{{Name: "night", RGB: night, Sheets: -1}, {Name: "gold", RGB: gold, Sheets: -1}},
			Card: mosaic.CardSpec{
				Width: letterCard.Width, Height: letterCard.Height, Held: camera.Eyes, Kind: mosaic.Sheet,
				HandHeight: 4 * seating.Centimetre, HandSideways: 2 * seating.Centimetre, HandTilt: 8,
			},
		},
		Stands: p.stands, Scene: p.scene, Marks: []mosaic.Mark{{View: p.view, Sight: p.sight}},
		Cues: []mosaic.CuePlan{{Name: "text", Colours: colours}},
	}
	f, err := os.Create(path)
	if err != nil {
		tb.Fatal(err)
	}
	if err := pictures.Camera(f, plan, 0); err != nil {
		tb.Fatal(err)
	}
	if err := f.Close(); err != nil {
		tb.Fatal(err)
	}
}

// corners are the stands' upper left, upper right, lower right and lower left in the picture.
func (p *place) corners() [4][2]float64 {
	var out [4][2]float64
	best := [4]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, s := range p.field.Seats {
		for k, away := range [4][2]float64{{-1, 60}, {1, 60}, {1, -60}, {-1, -60}} { // rows first
			if v := away[0]*s.Cell[k][0]/10 + away[1]*float64(s.Row)*100; s.Pixels > 0 && v > best[k] {
				best[k], out[k] = v, s.Cell[k]
			}
		}
	}
	return out
}

// cellAspect is how wide a seat's cell looks beside its height, in the middle case.
func (p *place) cellAspect() float64 {
	var all []float64
	for _, s := range p.field.Seats {
		all = append(all, (s.Cell[1][0]-s.Cell[0][0])/max(s.Cell[3][1]-s.Cell[0][1], 1))
	}
	slices.Sort(all)
	return all[len(all)/2]
}
