package pictures

import (
	"bytes"
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

var update = flag.Bool("update", false, "write the golden files anew; look at what changed")

// filmed is what Camera writes, read back as any program would.
func filmed(tb testing.TB, p *mosaic.Plan, cue int) image.Image {
	tb.Helper()
	var b bytes.Buffer
	if err := Camera(&b, p, cue); err != nil {
		tb.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		tb.Fatal(err)
	}
	return img
}

// near says whether a colour is c but for the shades of leaning cards.
func near(got color.Color, c rgb) bool {
	r, g, b, _ := got.RGBA()
	const tolerance = 15
	for i, v := range []uint32{r >> 8, g >> 8, b >> 8} {
		if math.Abs(float64(v)-float64(c[i])) > tolerance {
			return false
		}
	}
	return true
}

// inkSides counts ink pixels left and right of the picture's middle.
func inkSides(img image.Image, ink rgb) (left, right int) {
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if near(img.At(x, y), ink) {
				if x < b.Dx()/2 {
					left++
				} else {
					right++
				}
			}
		}
	}
	return left, right
}

// TestNotMirrored judges the pixels of the picture: L and F have most of their
// ink left of the middle. The plan with left and right mixed up must be caught.
func TestNotMirrored(t *testing.T) {
	for _, letter := range []string{"L", "F"} {
		p := painted(t, hall(false), letter, smallMark())
		for i := range p.Cues[0].Colours {
			if p.Cues[0].Colours[i] == 2 { // gold of the reserved seats
				p.Cues[0].Colours[i] = 0
			}
		}
		reads := func(p *mosaic.Plan) bool {
			left, right := inkSides(filmed(t, p, 0), rgb(testColours[1].RGB))
			if left+right < 2000 {
				t.Fatalf("%s: only %d pixels of ink", letter, left+right)
			}
			return left*2 > right*3
		}
		if !reads(p) {
			t.Errorf("%s stands the wrong way round", letter)
		}
		if reads(mirrored(p)) {
			t.Errorf("%s: a mirrored plan is not noticed", letter)
		}
	}
}

// TestCardsShowTheirColour looks at every card that is seen well: at the middle of
// what is seen of it the picture has its colour, and no other card's.
func TestCardsShowTheirColour(t *testing.T) {
	for name, c := range map[string]struct {
		spec    seating.Spec
		mark    camera.Mark
		outside bool
	}{
		"hall":     {hall(true), testMark(), false},
		"aside":    {hall(false), aside(), false},
		"outdoors": {hall(false), testMark(), true},
		"court":    {court(), testMark(), false},
	} {
		t.Run(name, func(t *testing.T) {
			p := painted(t, c.spec, "GLOW", c.mark)
			p.Stunt.Outdoors = c.outside
			checkCards(t, p)
		})
	}
}

func checkCards(t *testing.T, p *mosaic.Plan) {
	img := filmed(t, p, 0)
	card := &p.Stunt.Card
	hands := p.Scene.Shaken(handSeed, card.HandHeight.Metres(), card.HandSideways.Metres(), card.HandTilt*math.Pi/180)
	sight := hands.See(p.Marks[0].View)
	checked, wrong := 0, 0
	for i := range p.Stands.Seats {
		k := p.Cues[0].Colours[i]
		if sight.Seen[i] <= 0.6 || k == mosaic.None || sight.Pixels[i] < 60 {
			continue
		}
		checked++
		quad, _ := hands.CardQuad(i)
		if !cornersShow(img, p.Marks[0].View, &quad, rgb(p.Stunt.Colours[k].RGB)) {
			wrong++
			t.Logf("%s should show %s", p.Stands.ID(i), p.Stunt.Colours[k].Name)
		}
	}
	if checked < 100 {
		t.Errorf("only %d cards are seen well enough to be checked", checked)
	}
	if wrong > 0 {
		t.Errorf("%d of %d cards do not show their colour", wrong, checked)
	}
}

// cornersShow looks at nine places of the card: its projected middle shows the
// colour, or where a head is before the middle, at least five of the others do.
func cornersShow(img image.Image, v *camera.View, quad *[4]seating.Point, c rgb) bool {
	at := func(across, down float64) bool {
		p := way(way(quad[0], quad[1], across), way(quad[3], quad[2], across), down)
		px, _ := v.Project(p)
		return near(img.At(int(px[0]), int(px[1])), c)
	}
	if at(0.5, 0.5) {
		return true
	}
	n := 0
	for _, across := range []float64{0.15, 0.5, 0.85} {
		for _, down := range []float64{0.2, 0.5, 0.8} {
			if at(across, down) {
				n++
			}
		}
	}
	return n >= 5
}

func aside() camera.Mark {
	m := testMark()
	m.Across, m.Height = 7*seating.Metre, 18*seating.Metre/10
	return m
}

// court is a curved section between two that are turned toward it.
func court() seating.Spec {
	spec := hall(false)
	spec.Sections = spec.Sections[1:2]
	spec.Sections[0].Missing = nil
	side := spec.Sections[0]
	spec.Sections[0].Radius = 9 * seating.Metre
	side.Name, side.Place = "E", &seating.Place{Across: 8 * seating.Metre, Away: -2 * seating.Metre, Facing: -60}
	spec.Sections = append(spec.Sections, side)
	side.Name, side.Place = "W", &seating.Place{Across: -8 * seating.Metre, Away: -2 * seating.Metre, Facing: 60}
	spec.Sections = append(spec.Sections, side)
	return spec
}

// TestRest: when everybody rests, next to nothing of the message shows.
func TestRest(t *testing.T) {
	p := painted(t, hall(false), "GLOW", smallMark())
	ink := rgb(testColours[1].RGB)
	left, right := inkSides(filmed(t, p, 0), ink)
	restLeft, restRight := inkSides(filmed(t, p, -1), ink)
	if rest, up := restLeft+restRight, left+right; rest == 0 || rest*5 > up {
		t.Errorf("%d pixels of ink at rest, %d with the cards up", rest, up)
	}
}

// TestShirtsAsGround: who shows no card at a cue has it on the lap.
func TestShirtsAsGround(t *testing.T) {
	p := painted(t, hall(false), "GLOW", smallMark())
	ground := rgb(testColours[0].RGB)
	before, after := 0, 0
	a, b := inkSides(filmed(t, p, 0), ground)
	before = a + b
	shirts := append([]int16(nil), p.Cues[0].Colours...)
	for i, k := range shirts {
		if k == 0 {
			shirts[i] = mosaic.None
		}
	}
	p.Cues = append([]mosaic.CuePlan{{Name: "shirts", Colours: shirts}}, p.Cues...)
	a, b = inkSides(filmed(t, p, 0), ground)
	after = a + b
	if after == 0 || after*4 > before {
		t.Errorf("%d pixels of ground with cards on laps, %d with cards up", after, before)
	}
}

func TestCameraTwice(t *testing.T) {
	p := painted(t, hall(true), "GLOW", smallMark())
	var a, b bytes.Buffer
	if err := Camera(&a, p, 0); err != nil {
		t.Fatal(err)
	}
	if err := Camera(&b, p, 0); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("the same plan gives two pictures")
	}
}

func TestNoSuchPicture(t *testing.T) {
	p := painted(t, hall(false), "L", smallMark())
	for _, write := range []func() error{
		func() error { return Camera(&bytes.Buffer{}, p, 1) },
		func() error { return Camera(&bytes.Buffer{}, p, -2) },
		func() error { return Map(&bytes.Buffer{}, told(p), 7) },
		func() error { return MapSVG(&bytes.Buffer{}, told(&mosaic.Plan{}), -1) },
	} {
		if write() == nil {
			t.Error("no error")
		}
	}
}

// TestGolden keeps camera pictures as text that can be judged by eye: each sign
// is a block of pixels, named after what most of it is. It protects what people
// see against changes nobody meant; run with -update after one that was meant.
func TestGolden(t *testing.T) {
	dir := filepath.Join("testdata", "camera")
	got := map[string]string{
		"glow.txt":  blocks(filmed(t, painted(t, hall(false), "GLOW", smallMark()), 0)),
		"rest.txt":  blocks(filmed(t, painted(t, hall(false), "GLOW", smallMark()), -1)),
		"aside.txt": blocks(filmed(t, painted(t, hall(true), "GLOW", tiny(aside())), 0)),
	}
	if *update {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
		for name, text := range got {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	for name, text := range got {
		want, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Errorf("%s is missing: run go test -update and look at it", name)
		} else if text != string(want) {
			t.Errorf("%s differs; got\n%s\nwant\n%s", name, text, want)
		}
	}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if _, ok := got[e.Name()]; !ok {
			t.Errorf("%s belongs to no test", e.Name())
		}
	}
}

func tiny(m camera.Mark) camera.Mark {
	m.Picture = smallMark().Picture
	return m
}

// blocks is a picture in signs of 10 × 20 pixels: # ink, : ground, G gold, o
// people and all else that is not the surroundings, blank the rest.
func blocks(img image.Image) string {
	signs := []struct {
		sign byte
		like []rgb
	}{
		{':', []rgb{rgb(testColours[0].RGB)}},
		{'#', []rgb{rgb(testColours[1].RGB)}},
		{'G', []rgb{rgb(testColours[2].RGB)}},
		{' ', []rgb{wallHigh, wallLow, between(wallLow, wallHigh, 1, 2), dadoTone, ceilTone, lampTone, woodNear, woodFar, between(woodNear, woodFar, 1, 2)}},
	}
	var b strings.Builder
	for y := 0; y < img.Bounds().Dy(); y += 20 {
		var line strings.Builder
		for x := 0; x < img.Bounds().Dx(); x += 10 {
			var count [256]int
			for dy := range 20 {
				for dx := range 10 {
					count[sign(img.At(x+dx, y+dy), signs)]++
				}
			}
			best := byte(' ')
			for c := range count {
				if count[c] > count[best] {
					best = byte(c)
				}
			}
			// Cards are smaller than blocks: a third of one is enough.
			for _, c := range []byte("#:G") {
				if count[c] > 66 {
					best = c
				}
			}
			line.WriteByte(best)
		}
		fmt.Fprintln(&b, strings.TrimRight(line.String(), " "))
	}
	return b.String()
}

func sign(c color.Color, signs []struct {
	sign byte
	like []rgb
}) byte {
	for _, s := range signs {
		for _, like := range s.like {
			if near(c, like) {
				return s.sign
			}
		}
	}
	return 'o'
}
