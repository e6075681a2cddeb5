package stock

import (
	"testing"

	"everyseat/mosaic/colour"
)

func TestCosts(t *testing.T) {
	palette := []colour.RGB{{0, 0, 255}, {255, 255, 255}, {0, 0, 0}}
	blue, sky := palette[0].Linear(), colour.Linear{0.2, 0.3, 0.8}
	cost := Costs([]Want{
		{blue, 1, false, 0}, {sky, 1, false, 0}, {sky, 1, true, 0}, {sky, 0.5, false, 0}, {sky, 0, false, 0}, {sky, 2, false, 0},
		{sky, 0.5, true, 3}, {sky, 1, false, 0.001}, {sky, 1, false, 1e9},
	}, palette)
	row := func(s int) []int32 { return cost[s*3 : s*3+3] }
	if row(0)[0] != 0 {
		t.Errorf("the exact colour costs %d", row(0)[0])
	}
	for c, rgb := range palette {
		err := int32(colour.CIEDE2000(sky.Lab(), rgb.Linear().Lab())*costSteps + 0.5)
		for s, weight := range []int32{0, 256, 1024, 128, 16, 256, 768, 16, 4096} {
			if s > 0 && row(s)[c] != err*weight {
				t.Errorf("seat %d, colour %d: got %d, want %d", s, c, row(s)[c], err*weight)
			}
		}
	}
}

// The largest cost must be one that Assign takes.
func TestCostsStayInRange(t *testing.T) {
	if top := (Want{Weight: 1e9}).weight(); int64(top)*maxError > MaxCost {
		t.Errorf("weight %d times error %d is over %d", top, maxError, MaxCost)
	}
	wants := []Want{{Weight: 1e9}, {Colour: colour.Linear{1, 1, 1}, Weight: 1e9}}
	for i, c := range Costs(wants, []colour.RGB{{0, 0, 0}, {255, 255, 255}, {0, 255, 0}, {0, 0, 255}}) {
		if c < 0 || c > MaxCost {
			t.Errorf("cost %d is %d", i, c)
		}
	}
}

// With plenty of stock Assign agrees with the palette's own decision.
func TestCostsAgreeWithPalette(t *testing.T) {
	rng := numbers(9)
	var palette []colour.RGB
	for range 8 {
		palette = append(palette, colour.RGB{uint8(rng.below(256)), uint8(rng.below(256)), uint8(rng.below(256))})
	}
	var wants []Want
	for range 500 {
		wants = append(wants, Want{
			Colour: colour.RGB{uint8(rng.below(256)), uint8(rng.below(256)), uint8(rng.below(256))}.Linear(),
			Seen:   float64(rng.below(101)) / 100, Stroke: rng.below(2) == 1,
		})
	}
	got, _, err := Assign(Costs(wants, palette), []int{Unlimited, Unlimited, Unlimited, Unlimited, Unlimited, Unlimited, Unlimited, Unlimited})
	if err != nil {
		t.Fatal(err)
	}
	nearest := colour.NewPalette(palette)
	for s, w := range wants {
		if want := nearest.Nearest(w.Colour); int(got[s]) != want {
			t.Errorf("seat %d: got colour %d, want %d", s, got[s], want)
		}
	}
}

// A stroke keeps its colour when there is one card for two seats that want it.
func TestStrokesKeepTheirColour(t *testing.T) {
	palette := []colour.RGB{{255, 255, 255}, {0, 0, 128}}
	white := palette[0].Linear()
	got, _, err := Assign(Costs([]Want{{white, 1, false, 0}, {white, 0.4, true, 0}}, palette), []int{1, Unlimited})
	if err != nil || got[0] != 1 || got[1] != 0 {
		t.Errorf("got %v, %v", got, err)
	}
}

// 100,000 seats that each want a colour of their own, as in a photograph.
func BenchmarkCosts(b *testing.B) {
	rng := numbers(4)
	wants := make([]Want, 100_000)
	for s := range wants {
		for i := range 3 {
			wants[s].Colour[i] = float64(rng.below(1000)) / 1000
		}
		wants[s].Seen = 1
	}
	palette := make([]colour.RGB, 12)
	for c := range palette {
		palette[c] = colour.RGB{uint8(rng.below(256)), uint8(rng.below(256)), uint8(rng.below(256))}
	}
	for b.Loop() {
		Costs(wants, palette)
	}
}
