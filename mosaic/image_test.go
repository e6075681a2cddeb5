package mosaic

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// An image that was sampled for a cue before is the same to a later one, however either is exposed or fitted.
func TestSampledOnce(t *testing.T) {
	stops := -1.5
	cue := Cue{ImageName: "waves.png", Image: waves(), Fit: "fill"}
	s := bigStunt(3, 10, 15, 18*seating.Metre)
	s.Cues = []Cue{cue, cue, cue, cue}
	s.Cues[0].Exposure = &stops
	s.Cues[2].Fit = "flat"
	s.Cues[3].Image = slices.Clone(cue.Image)
	together := mustMake(t, s)
	for i := range s.Cues {
		alone := *s
		alone.Cues = s.Cues[i : i+1]
		if !slices.Equal(mustMake(t, &alone).Cues[0].Colours, together.Cues[i].Colours) {
			t.Errorf("cue %d looks otherwise beside the others", i+1)
		}
	}
}

// A moving PNG carries its number of frames in an acTL chunk before the picture data
// (PNG specification, third edition); a still one has none.
func TestMovingPNG(t *testing.T) {
	still := halves(colour.RGB{}, colour.RGB{255, 255, 255})
	const header = 8 + 12 + 13 // signature and IHDR
	chunk := append([]byte("acTL"), 0, 0, 0, 7, 0, 0, 0, 0)
	moving := append([]byte{}, still[:header]...)
	moving = binary.BigEndian.AppendUint32(moving, 8)
	moving = append(moving, chunk...)
	moving = binary.BigEndian.AppendUint32(moving, crc32.ChecksumIEEE(chunk))
	moving = append(moving, still[header:]...)
	for want, data := range map[bool][]byte{true: moving, false: still} {
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "wave.png", Image: data}}
		if w := strings.Join(mustMake(t, s).Warnings, " "); strings.Contains(w, "wave.png has 7 frames; the first one is shown") != want {
			t.Errorf("warnings %q", w)
		}
	}
}

// grey is an image of one grey, or a slope of greys; the slope down is that up mirrored.
func grey(from, to uint8) []byte {
	low, high := min(from, to), max(from, to)
	m := image.NewGray(image.Rect(0, 0, 128, 64))
	for y := range 64 {
		for x := range 128 {
			at := x
			if from > to {
				at = 127 - x
			}
			m.SetGray(x, y, color.Gray{uint8(int(low) + int(high-low)*at/127)})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// blackAndWhite shows an image with two cards.
func blackAndWhite(data []byte) *Stunt {
	s := gullhaven()
	s.Colours = []Colour{{Name: "black", RGB: colour.RGB{}, Sheets: -1}, {Name: "white", RGB: colour.RGB{255, 255, 255}, Sheets: -1}}
	s.Cues = []Cue{{ImageName: "grey.png", Image: data, Fit: "fill", Reduce: Diffuse}}
	return s
}

// A grey of so much light shows white on about so many seats; flat it shows none or all.
func TestGreyIsDiffused(t *testing.T) {
	for _, level := range []uint8{99, 137, 188} {
		s := blackAndWhite(grey(level, level))
		p := mustMake(t, s)
		checkLedger(t, p)
		got := float64(count(p, 0, 1)) / 432
		if want := colour.Decode(float64(level) / 255); got < want-0.08 || got > want+0.08 {
			t.Errorf("grey %d: %.2f of the seats are white, its light is %.2f", level, got, want)
		}
		s.Cues[0].Reduce = Flat
		if n := count(mustMake(t, s), 0, 1); n != 0 && n != 432 {
			t.Errorf("flat, %d seats are white", n)
		}
	}
}

// A mirrored slope makes the mirrored plan. The plain grid is its own mirror image; from
// the camera, samples of what is hidden fall differently on the two sides.
func TestDiffusionMirrors(t *testing.T) {
	plans := [2]*Plan{}
	for i, data := range [][]byte{grey(20, 230), grey(230, 20)} {
		s := blackAndWhite(data)
		s.Cues[0].Fit, s.Camera.Height = "flat", 9*seating.Metre
		plans[i] = mustMake(t, s)
	}
	a, b := plans[0], plans[1]
	wrong := 0
	for s := range a.Stands.Seats {
		if a.Cues[0].Colours[s] != b.Cues[0].Colours[mirrored(b, s)] {
			wrong++
		}
	}
	if wrong > 0 {
		t.Errorf("%d of 432 seats are not mirrored", wrong)
	}
	if n := count(a, 0, 1); n < 80 || n > 350 {
		t.Errorf("%d seats are white", n)
	}
}

// From far away the seats run together and diffusing looks closer; from close by each
// card is seen by itself and the nearest colour is best.
func TestReductionIsChosen(t *testing.T) {
	s := blackAndWhite(grey(137, 137))
	s.Cues[0].Reduce = ""
	if n := count(mustMake(t, s), 0, 1); n != 0 && n != 432 {
		t.Errorf("from close by %d of 432 seats are white", n)
	}
	s.Camera.Back = 400 * seating.Metre
	s.Camera.Lens.FieldOfView = 65
	if n := count(mustMake(t, s), 0, 1); n == 0 || n == 432 {
		t.Errorf("from afar %d of 432 seats are white", n)
	}
}

func TestExposure(t *testing.T) {
	s := blackAndWhite(grey(99, 99)) // light of 0.125: three stops make it white
	stops := 3.0
	s.Cues[0].Exposure = &stops
	if n := count(mustMake(t, s), 0, 1); n < 420 {
		t.Errorf("%d of 432 seats are white", n)
	}
	stops = -3
	if n := count(mustMake(t, s), 0, 1); n > 25 {
		t.Errorf("%d of 432 seats are white", n)
	}
}

// A line of a tenth of a seat is named as lost, one of two seats is kept.
func TestThinLines(t *testing.T) {
	for wide, lost := range map[int]bool{2: true, 48: false} {
		m := image.NewNRGBA(image.Rect(0, 0, 720, 360))
		draw.Draw(m, m.Bounds(), image.NewUniform(color.NRGBA{0x1b, 0x2a, 0x5c, 255}), image.Point{}, draw.Src)
		for x := 50; x < 700; x += 150 {
			draw.Draw(m, image.Rect(x, 0, x+wide, 360), image.NewUniform(color.NRGBA{255, 255, 255, 255}), image.Point{}, draw.Src)
		}
		var b bytes.Buffer
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "mast.png", Image: b.Bytes(), Fit: "fill", Reduce: Flat}}
		p := mustMake(t, s)
		said := strings.Contains(strings.Join(p.Warnings, " "), "what is white in mast.png is thinner than a seat")
		if said != lost {
			t.Errorf("%d wide, %d seats white: warnings %q", wide, count(p, 0, 1), p.Warnings)
		}
	}
}

// An image that shows on a few seats alone is warned about, one that fills the stands is not.
func TestSmallImagesAreNamed(t *testing.T) {
	for wide, small := range map[int]bool{40: true, 500: false} {
		m := image.NewNRGBA(image.Rect(0, 0, 720, 360))
		draw.Draw(m, m.Bounds(), image.NewUniform(color.NRGBA{0x1b, 0x2a, 0x5c, 255}), image.Point{}, draw.Src)
		draw.Draw(m, image.Rect(360-wide/2, 180-wide/2, 360+wide/2, 180+wide/2), image.NewUniform(color.NRGBA{255, 255, 255, 255}), image.Point{}, draw.Src)
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "mast.png", Image: encoded(t, m), Fit: "fill", Ground: "navy"}}
		p := mustMake(t, s)
		if said := strings.Contains(strings.Join(p.Warnings, " "), "seats show anything but navy: crop mast.png"); said != small {
			t.Errorf("%d wide: warnings %q", wide, p.Warnings)
		}
	}
}

func TestNoColoursAreSuggested(t *testing.T) {
	s := gullhaven()
	s.Colours = nil
	s.Cues = []Cue{{ImageName: "halves.png", Image: halves(colour.RGB{200, 30, 44}, colour.RGB{22, 41, 77})}}
	_, err := Make(s)
	var f *seating.Fault
	if !errors.As(err, &f) || f.Key != "colour" || !strings.Contains(f.Hint, "would serve halves.png best: red #c81e2c, navy #16294d") {
		t.Errorf("%v", err)
	}
}
