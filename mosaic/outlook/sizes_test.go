package outlook

import (
	"math"
	"testing"

	"everyseat/seating/camera"
	"everyseat/testdata/fair"
)

// The rules against the figures of testdata/reference/README-signs.md, each just met and just missed.
func TestRulesOfSigns(t *testing.T) {
	met := func(s TextSizes, name string) bool {
		for _, r := range s.Rules() {
			if r.Name == name {
				if r.Asks == "" || r.Here == "" || r.Clause == "" {
					t.Errorf("%+v", r)
				}
				return r.Met
			}
		}
		t.Fatalf("no rule %q", name)
		return false
	}
	for _, c := range []struct {
		name       string
		good, poor TextSizes
	}{
		{"Letter height to distance, road signs", TextSizes{Arcmin: 9.550}, TextSizes{Arcmin: 9.548}},
		{"Letter height to distance, signs of few lights", TextSizes{Arcmin: 57.30}, TextSizes{Arcmin: 57.28}},
		{"Letter height on a screen", TextSizes{Arcmin: 16}, TextSizes{Arcmin: 15.9}},
		{"Stroke to height", TextSizes{Stroke: 0.10}, TextSizes{Stroke: 0.09}},
		{"Stroke to height", TextSizes{Stroke: 0.30}, TextSizes{Stroke: 0.31}},
		{"Width to height", TextSizes{Wide: 0.55}, TextSizes{Wide: 0.54}},
		{"Width to height", TextSizes{Wide: 1.10}, TextSizes{Wide: 1.11}},
		{"Smallest matrix of a capital", TextSizes{Seats: 5, Rows: 7}, TextSizes{Seats: 5, Rows: 6}},
		{"Pixels to tell a thing from others", TextSizes{Pixels: 12.8}, TextSizes{Pixels: 12.7}},
		{"Letter height in the frame, subtitles", TextSizes{Frame: 0.03473}, TextSizes{Frame: 0.0347}},
	} {
		if !met(c.good, c.name) || met(c.poor, c.name) {
			t.Errorf("%s: met by %+v: %v, by %+v: %v", c.name, c.good, met(c.good, c.name), c.poor, met(c.poor, c.name))
		}
	}
}

// 50 mm on a sensor of 36 × 24 mm take in 36 × 24 m at 50 m (COMPUTED, width = d·Z/f); 3600 pixels are then 100 a metre.
func TestFrameAt(t *testing.T) {
	v := &camera.View{Width: 3600, Height: 2400, Focal: 50.0 / 36 * 3600}
	if w, h, px := FrameAt(v, 50); math.Abs(w-36) > 1e-9 || math.Abs(h-24) > 1e-9 || math.Abs(px-100) > 1e-9 {
		t.Errorf("%v × %v m, %v pixels a metre", w, h, px)
	}
}

// The size of a letter in the picture and where its seats are agree: between the upper edge of the highest and the
// lower edge of the lowest row of cards that it takes lies, seen from the lens, about the angle that TextSizes gives. The
// heights here come from the stands alone.
func TestSizesOfLetters(t *testing.T) {
	p := fair.Plan(t, fair.Stunt())
	s := of(t, p, Sizes).Cues[0].Sizes
	if s == nil {
		t.Fatal("no sizes")
	}
	low, high := math.Inf(1), math.Inf(-1)
	eye := p.Marks[0].View.Position
	for k, seat := range p.Cues[0].Field {
		if !p.Cues[0].Text.Ink[k] {
			continue
		}
		quad, _ := p.Scene.CardQuad(int(seat))
		for _, c := range quad {
			up := math.Atan2(c[2]-eye[2], c[1]-eye[1])
			low, high = min(low, up), max(high, up)
		}
	}
	want := (high - low) * 180 / math.Pi * 60
	if s.Arcmin > want*1.05 || s.Arcmin < want*0.85 {
		t.Errorf("letters of %.0f minutes of arc, their cards take %.0f", s.Arcmin, want)
	}
	if s.Distance < 18 || s.Distance > 30 || math.Abs(s.High-s.Distance*s.Arcmin/3437.75)/s.High > 0.01 {
		t.Errorf("%+v", s)
	}
	if s.Stroke < 0.08 || s.Stroke > 0.4 || s.Pixels < s.Frame*2159 || s.Pixels > s.Frame*2161 {
		t.Errorf("%+v", s)
	}
}
