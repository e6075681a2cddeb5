package lettering_test

import (
	"encoding/binary"
	"encoding/json"
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
)

var (
	learn      = flag.String("learn", "", "write examples for testdata/reader/learn.py into this folder")
	learnSeed  = flag.Uint64("learn-seed", 7, "of the random lines")
	learnLines = flag.Int("learn-lines", 8000, "how many lines to write")
)

// learnPlaces are random stands, marks and cards.
func learnPlaces(t *testing.T, n int, rng *rand.Rand) []*place {
	inches := func(v ...int) seating.Length { return seating.Length(v[rng.IntN(len(v))]) * seating.Inch }
	metres := func(low, high float64) float64 { return low + rng.Float64()*(high-low) }
	var places []*place
	for len(places) < n {
		sections, rows := 1+rng.IntN(4), 7+rng.IntN(14)
		seats := (14 + rng.IntN(36)) / sections
		if seats < 7 {
			continue
		}
		spec := bleachers(sections, rows, seats, inches(36, 48, 48, 60), inches(8, 10, 12, 16), inches(22, 24, 30, 33), inches(18, 20, 20, 22))
		wide, high := inches(9, 11, 11, 12, 17, 20), inches(8, 9, 9, 11, 14)
		across := 0.0
		if rng.IntN(2) == 0 {
			across = metres(-9, 9)
		}
		m := mark(across, metres(12, 34), []float64{1.7, 1.7, 2, 2.5, 3, 4, 6, 8}[rng.IntN(8)])
		places = append(places, lookAt(t, "random", spec, m, camera.Card{Width: wide, Height: high, Held: camera.Eyes}))
	}
	return places
}

// crowds are what people wear, and colours of ink and ground.
var (
	crowds = [][]colour.RGB{
		{{62, 66, 84}, {40, 44, 52}, {96, 88, 78}, {120, 120, 124}, {70, 40, 44}, {48, 72, 60}, {134, 110, 92}, {88, 104, 128}},
		{{28, 30, 40}, {36, 40, 56}, {24, 24, 28}, {52, 48, 46}, {44, 50, 44}, {70, 62, 58}},
		{{220, 216, 208}, {180, 160, 150}, {120, 150, 190}, {200, 90, 80}, {90, 120, 90}, {60, 70, 100}, {230, 200, 120}},
		{{150, 148, 140}, {110, 70, 60}, {36, 56, 88}, {176, 40, 44}, {88, 104, 128}, {56, 52, 48}},
	}
	bodies = []colour.RGB{{224, 178, 150}, {150, 106, 80}, {58, 42, 32}, {30, 24, 22}}
	inks   = [][2]colour.RGB{
		{night, gold}, {gold, night}, {{240, 232, 210}, {24, 36, 84}}, {{24, 36, 84}, {240, 232, 210}}, {{244, 240, 228}, {190, 30, 40}},
		{{190, 30, 40}, {250, 248, 240}}, {{20, 20, 22}, {250, 250, 248}}, {{0, 110, 70}, {248, 240, 220}}, {{250, 246, 236}, {20, 20, 22}},
	}
)

// crowdOf is how what people wear looks between ground and ink.
func crowdOf(worn []colour.RGB, ground, ink colour.RGB) legibility.Crowd {
	mean, spread := colour.Between(slices.Concat(worn, worn, bodies), ground, ink)
	return legibility.Crowd{Mean: mean, Spread: spread}
}

// randomText is a word, number or code that means nothing, of two to six characters.
func randomText(rng *rand.Rand) string {
	const vowels, consonants, figures = "AEIOU", "BCDFGHJKLMNPQRSTVWXYZ", "0123456789"
	sets := []string{}
	n := 2 + rng.IntN(5)
	kind := rng.IntN(8)
	for i := range n {
		switch {
		case kind == 0:
			sets = append(sets, figures)
		case kind == 1 || kind == 2:
			sets = append(sets, []string{consonants, vowels}[i%2])
		case kind < 6:
			sets = append(sets, []string{consonants, figures}[rng.IntN(2)])
		default:
			sets = append(sets, vowels+consonants+figures)
		}
	}
	var b strings.Builder
	for _, s := range sets {
		b.WriteByte(s[rng.IntN(len(s))])
	}
	return b.String()
}

// TestLearn writes examples for the learned reader: random lines as their cards and people
// stand in the picture, for the outside reader to read, and what the line reader looks at
// in each letter: once in the picture as planned, with everything that may go wrong still to
// come, and once as it turned out. Only stands and marks of the tuning half, and random
// letters.
func TestLearn(t *testing.T) {
	if *learn == "" {
		t.Skip("run with -learn DIR")
	}
	rng := rand.New(rand.NewPCG(*learnSeed, 7))
	places := learnPlaces(t, max(*learnLines/40, 4), rng)
	files := map[string]*os.File{}
	for _, name := range []string{"samples.f32", "quads.f32", "states.i8"} {
		f, err := os.Create(filepath.Join(*learn, name))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		files[name] = f
	}
	write := func(name string, v any) {
		if err := binary.Write(files[name], binary.LittleEndian, v); err != nil {
			t.Fatal(err)
		}
	}
	var lines []map[string]any
	for len(lines) < *learnLines {
		text := randomText(rng)
		k := rng.IntN(len(places))
		p := places[k]
		var l *lettering.Layout
		if rng.IntN(3) == 0 {
			l, _ = lettering.Fit([]*lettering.Field{p.field}, text, options())
		} else {
			l = lettering.RandomLayout(p.field, text, rng)
		}
		if l == nil {
			continue
		}
		o := options()
		o.Seed = rng.Uint64()
		hand := []float64{0, 0.5, 1, 1, 1, 1, 1.5, 2, 3, 5}[rng.IntN(10)]
		o.HandHeight, o.HandSideways, o.HandTilt = 0.05*hand, 0.05*hand, 8*hand*math.Pi/180
		o.CardWidth, o.CardHeight = p.scene.Card.Width.Metres(), p.scene.Card.Height.Metres()
		colours, crowd := inks[rng.IntN(len(inks))], rng.IntN(len(crowds))
		o.Crowd = crowdOf(crowds[crowd], colours[0], colours[1])
		o.Empty = []float64{0, 0, 0, 0.05, 0.08, 0.1}[rng.IntN(6)]
		o.Wrong = 0
		if o.Empty > 0 {
			o.Wrong = []float64{0, 0.01, 0.01, 0.02}[rng.IntN(4)]
		}
		views := []*lettering.Field{p.field}
		m := legibility.Strikes(p.field, o, 1)[0]
		coming := legibility.Expects(o)
		planned := legibility.Samples(views, 0, l.Ink, l.Glyphs(), o, nil, coming)
		shown := legibility.Samples(views, 0, l.Ink, l.Glyphs(), o, m, legibility.Coming{})
		for i := range planned {
			write("samples.f32", planned[i])
			write("samples.f32", shown[i])
		}
		states, quads := p.turnedOut(l.Ink, m, o.HandTilt, rng)
		write("states.i8", states)
		write("quads.f32", quads)
		seats, rows := sizes(l)
		lines = append(lines, map[string]any{"text": text, "place": k, "seats": seats, "rows": rows, "empty": o.Empty, "wrong": o.Wrong,
			"hand": hand, "ground": colours[0].Hex(), "ink": colours[1].Hex(), "worn": hexes(crowds[crowd])})
	}
	drawn := []any{}
	for _, p := range places {
		drawn = append(drawn, p.people())
	}
	out, err := json.Marshal(map[string]any{"inputs": legibility.SampleN, "lines": lines, "places": drawn, "bodies": hexes(bodies)})
	if err == nil {
		err = os.WriteFile(filepath.Join(*learn, "index.json"), out, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func hexes(colours []colour.RGB) (out []string) {
	for _, c := range colours {
		out = append(out, c.Hex())
	}
	return out
}

// people are the heads and bodies of a place in its picture, by field seat, and the order
// in which to paint, from far to near.
func (p *place) people() map[string]any {
	at := make(map[int32]int, len(p.index))
	for k, i := range p.index {
		at[i] = k
	}
	parts := make([][2][][][2]float64, len(p.index)) // bodies, then heads
	p.scene.Each(func(g *camera.Polygon) {
		k, ok := at[g.Owner]
		if !ok || g.Part != camera.PartHead && g.Part != camera.PartBody {
			return
		}
		var q [][2]float64
		for _, point := range g.Points {
			px, _ := p.view.Project(point)
			q = append(q, [2]float64{math.Round(px[0]*100) / 100, math.Round(px[1]*100) / 100})
		}
		n := 0
		if g.Part == camera.PartHead {
			n = 1
		}
		parts[k][n] = append(parts[k][n], q)
	})
	depth := make([]float64, len(p.index))
	order := make([]int, len(p.index))
	for k, i := range p.index {
		order[k] = k
		_, depth[k] = p.view.Project(p.stands.Seats[i].Position)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if depth[a] > depth[b] {
			return -1
		}
		if depth[a] < depth[b] {
			return 1
		}
		return a - b
	})
	return map[string]any{"people": parts, "order": order, "card_px": p.cardPixels()}
}

// turnedOut is what every field seat shows (0 ground, 1 ink, −1 nobody) and its card's
// corners in the picture, off as in the mishap, rolled and leaning by tilt, one standard deviation.
func (p *place) turnedOut(ink []bool, m *legibility.Mishap, tilt float64, rng *rand.Rand) (states []int8, quads [][4][2]float32) {
	for k, i := range p.index {
		empty, wrong, off := m.Happens(k)
		s := int8(0)
		if ink[k] != wrong {
			s = 1
		}
		if empty {
			s = -1
		}
		states = append(states, s)
		q, _ := p.scene.CardQuad(int(i))
		roll, lean := rng.NormFloat64()*tilt, math.Abs(math.Cos(rng.NormFloat64()*tilt))
		cos, sin := math.Cos(roll), math.Sin(roll)
		at := func(x, y float64) [2]float32 { // in widths and heights of the card, from its middle
			// a roll in metres, of a card that leans back or forward
			y *= lean
			w, h := p.scene.Card.Width.Metres(), p.scene.Card.Height.Metres()
			rx, ry := (x*w*cos-y*h*sin)/w+float64(off[0]), (x*w*sin+y*h*cos)/h+float64(off[1])
			var c seating.Point
			for a := range 3 {
				c[a] = (q[0][a]+q[1][a]+q[2][a]+q[3][a])/4 + rx*(q[1][a]-q[0][a]) + ry*(q[0][a]-q[3][a])
			}
			px, _ := p.view.Project(c)
			return [2]float32{float32(px[0]), float32(px[1])}
		}
		quads = append(quads, [4][2]float32{at(-.5, .5), at(.5, .5), at(.5, -.5), at(-.5, -.5)})
	}
	return states, quads
}
