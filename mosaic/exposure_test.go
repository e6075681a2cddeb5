package mosaic

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/mosaic/artwork"
	"everyseat/mosaic/colour"
)

// photographs are a real one (its source is told beside it) and two scenes that are drawn here:
// a harbour in the evening, and hills in haze.
func photographs(t *testing.T) map[string]image.Image {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "testdata", "photographs", "rose.webp"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rose, _, err := image.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	harbour, hills := image.NewNRGBA(image.Rect(0, 0, 400, 200)), image.NewNRGBA(image.Rect(0, 0, 400, 200))
	for y := range 200 {
		for x := range 400 {
			sky := color.NRGBA{uint8(250 - y), uint8(190 - y/2), uint8(150 + y/4), 255}
			tower := math.Abs(float64(x)-130) < 14+float64(y)/9 && y > 40
			lamp := math.Hypot(float64(x-130), float64(y-34)) < 18
			water := y > 150
			switch {
			case lamp:
				sky = color.NRGBA{255, 250, 210, 255}
			case tower && y/24%2 == 0:
				sky = color.NRGBA{190, 40, 36, 255}
			case tower:
				sky = color.NRGBA{240, 236, 226, 255}
			case water:
				sky = color.NRGBA{30, 50, uint8(90 + x/8), 255}
			}
			harbour.SetNRGBA(x, y, sky)
			ridge := 90 + 30*math.Sin(float64(x)/37) + 16*math.Sin(float64(x)/13)
			c := color.NRGBA{210, 225, 245, 255}
			if float64(y) > ridge {
				c = color.NRGBA{uint8(40 + y/2), uint8(110 - y/4), 50, 255}
			}
			hills.SetNRGBA(x, y, c)
		}
	}
	return map[string]image.Image{"rose": rose, "harbour": harbour, "hills": hills}
}

// developed is the image with its light changed, as a camera with the wrong exposure has it: in
// 8-bit sRGB again, with what that loses.
func developed(t *testing.T, img image.Image, change func(float64) float64) []byte {
	t.Helper()
	b := img.Bounds()
	out := image.NewNRGBA(b)
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			l := colour.RGB{c.R, c.G, c.B}.Linear()
			for i := range l {
				l[i] = change(l[i])
			}
			rgb := l.RGB()
			out.SetNRGBA(x, y, color.NRGBA{rgb[0], rgb[1], rgb[2], 255})
		}
	}
	var w bytes.Buffer
	if err := png.Encode(&w, out); err != nil {
		t.Fatal(err)
	}
	return w.Bytes()
}

// offPicture is how far what the seats show is from the light of a picture: the mean CIEDE2000
// difference over the seats, each mixed with its neighbours by a normal curve of twice the viewing
// blur, in a plain double loop that shares nothing with the code under test.
func offPicture(p *Plan, want []colour.Linear, seats []int32) float64 {
	sight := p.Marks[0].Sight
	sigma := float64(p.Marks[0].View.Width) / 240 * 2
	var sum float64
	for _, s := range seats {
		var a, b colour.Linear
		var all float64
		for k, n := range seats {
			d := math.Hypot(sight.Centre[s][0]-sight.Centre[n][0], sight.Centre[s][1]-sight.Centre[n][1]) / sigma
			if d > 3 {
				continue
			}
			w := math.Exp(-d*d/2) * float64(sight.Pixels[n])
			shown := p.Stunt.Colours[p.Cues[0].Colours[n]].RGB.Linear()
			all += w
			for c := range a {
				a[c] += w * want[k][c]
				b[c] += w * shown[c]
			}
		}
		for c := range a {
			a[c] /= all
			b[c] /= all
		}
		sum += colour.CIEDE2000(a.Lab(), b.Lab())
	}
	return sum / float64(len(seats))
}

// A photograph that is too dark or washed out is shown never farther from the well
// exposed one by the automatic exposure than as it is, and nearer by a third over all; one
// that is well exposed is not spoiled.
func TestAutomaticExposure(t *testing.T) {
	stunt := func(data []byte, reduce Reduction) *Stunt {
		s := gullhaven()
		s.Colours = append(s.Colours,
			Colour{Name: "red", RGB: colour.RGB{0xc8, 0x1e, 0x2c}, Sheets: -1},
			Colour{Name: "green", RGB: colour.RGB{0x1c, 0x8c, 0x4a}, Sheets: -1})
		s.Cues = []Cue{{ImageName: "photo.png", Image: data, Fit: "fill", Reduce: reduce}}
		return s
	}
	faults := map[string]func(float64) float64{
		"well exposed": func(l float64) float64 { return l },
		"5 stops dark": func(l float64) float64 { return l / 32 },
		"washed out":   func(l float64) float64 { return 0.5 + 0.4*l },
	}
	zero := 0.0
	var sum [2]float64 // over the badly exposed ones: automatically, as they are
	for name, img := range photographs(t) {
		good := mustMake(t, stunt(developed(t, img, faults["well exposed"]), Flat))
		want, seats := wantedLight(t, good)
		for fault, change := range faults {
			for _, reduce := range []Reduction{Flat, Diffuse} {
				s := stunt(developed(t, img, change), reduce)
				auto := offPicture(mustMake(t, s), want, seats)
				s.Cues[0].Exposure = &zero
				fixed := offPicture(mustMake(t, s), want, seats)
				t.Logf("%s, %s, %q: %.2f off, as it is %.2f", name, fault, reduce, auto, fixed)
				if auto > fixed {
					t.Errorf("%s, %s, %q: %.2f off, worse than as it is, %.2f", name, fault, reduce, auto, fixed)
				}
				if fault != "well exposed" {
					sum[0] += auto
					sum[1] += fixed
				}
			}
		}
	}
	if sum[0]*3 > sum[1]*2 {
		t.Errorf("badly exposed photographs are %.0f off in all, and would be %.0f as they are", sum[0], sum[1])
	}
}

// wantedLight is the light of the plan's image on its seats.
func wantedLight(t *testing.T, p *Plan) (want []colour.Linear, seats []int32) {
	t.Helper()
	m := newMaker(p)
	cue := &p.Stunt.Cues[0]
	carry, err := m.carriers(0)
	if err != nil {
		t.Fatal(err)
	}
	seats = m.usable(carry, m.cells[0])
	sample, err := m.sampled(cue, 0, m.cells[0], seats)
	if err != nil {
		t.Fatal(err)
	}
	asItIs := 0.0
	shown := sample.Show(artwork.Cards{Colours: rgbs(p.Stunt.Colours), Palette: colour.NewPalette(rgbs(p.Stunt.Colours))}, Flat, &asItIs)
	for k := range seats {
		aim, _ := shown.Light(k)
		want = append(want, aim)
	}
	return want, seats
}

// An image of one colour is named; a drawing in the cards' own colours is left alone.
func TestExposureSaysWhatItDoes(t *testing.T) {
	s := blackAndWhite(grey(137, 138))
	if w := strings.Join(mustMake(t, s).Warnings, " "); !strings.Contains(w, "grey.png shows nothing: all that falls on seats is one colour") {
		t.Errorf("%q", w)
	}
	s = blackAndWhite(grey(10, 30))
	if w := strings.Join(mustMake(t, s).Warnings, " "); !strings.Contains(w, "stops brighter") && !strings.Contains(w, "is pale") || strings.Contains(w, "shows nothing") {
		t.Errorf("%q", w)
	}
	flag := image.NewNRGBA(image.Rect(0, 0, 300, 150))
	for y := range 150 {
		for x := range 300 {
			c := []color.NRGBA{{0x1b, 0x2a, 0x5c, 255}, {255, 255, 255, 255}}[x/30%2]
			flag.SetNRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, flag); err != nil {
		t.Fatal(err)
	}
	s = gullhaven()
	s.Cues = []Cue{{ImageName: "flag.png", Image: b.Bytes(), Fit: "fill"}}
	if w := strings.Join(mustMake(t, s).Warnings, " "); strings.Contains(w, "exposure") {
		t.Errorf("%q", w)
	}
}
