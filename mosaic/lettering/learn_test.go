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

// learnPlaces are stands and marks of the tuning half.
func learnPlaces(t *testing.T) []*place {
	var places []*place
	for _, st := range standsList() {
		if st.held {
			continue
		}
		for _, m := range [][3]float64{{0, 16, 3}, {0, 20, 3}, {1, 17, 3}, {0, 18, 3}, {7, 16, 3}, {7, 20, 3}, {-7, 18, 3}, {3, 14, 2}, {7, 12, 1.8}} {
			places = append(places, look(t, st.name, st.spec, mark(m[0], m[1], m[2])))
		}
	}
	return places
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
	places := learnPlaces(t)
	rng := rand.New(rand.NewPCG(*learnSeed, 7))
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
		o.HandHeight, o.HandSideways = 0.05, 0.05
		o.Empty = []float64{0, 0, 0, 0.05, 0.08, 0.1}[rng.IntN(6)]
		o.Wrong = 0
		if o.Empty > 0 {
			o.Wrong = []float64{0, 0.01, 0.01, 0.02}[rng.IntN(4)]
		}
		views := []*lettering.Field{p.field}
		m := legibility.Strikes(p.field, o, 1)[0]
		coming := legibility.Coming{Hand: 1, Empty: o.Empty, Wrong: o.Wrong}
		planned := legibility.Samples(views, 0, l.Ink, l.Glyphs(), o, nil, coming)
		shown := legibility.Samples(views, 0, l.Ink, l.Glyphs(), o, m, legibility.Coming{})
		for i := range planned {
			write("samples.f32", planned[i])
			write("samples.f32", shown[i])
		}
		states, quads := p.turnedOut(l.Ink, m, rng)
		write("states.i8", states)
		write("quads.f32", quads)
		seats, rows := sizes(l)
		lines = append(lines, map[string]any{"text": text, "place": k, "seats": seats, "rows": rows, "empty": o.Empty, "wrong": o.Wrong})
	}
	drawn := []any{}
	for _, p := range places {
		drawn = append(drawn, p.people())
	}
	out, err := json.Marshal(map[string]any{"inputs": legibility.SampleN, "lines": lines, "places": drawn, "ground": night.Hex(), "ink": gold.Hex()})
	if err == nil {
		err = os.WriteFile(filepath.Join(*learn, "index.json"), out, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// people are the heads and bodies of a place in its picture, by field seat, and the order
// in which to paint, from far to near.
func (p *place) people() map[string]any {
	at := make(map[int32]int, len(p.index))
	for k, i := range p.index {
		at[i] = k
	}
	parts := make([][][][2]float64, len(p.index))
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
		parts[k] = append(parts[k], q)
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
// corners in the picture, off as in the mishap and rolled by 8 degrees, one standard deviation.
func (p *place) turnedOut(ink []bool, m *legibility.Mishap, rng *rand.Rand) (states []int8, quads [][4][2]float32) {
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
		roll := rng.NormFloat64() * 8 * math.Pi / 180
		cos, sin := math.Cos(roll), math.Sin(roll)
		at := func(x, y float64) [2]float32 { // in widths and heights of the card, from its middle
			// a roll in metres
			w, h := letterCard.Width.Metres(), letterCard.Height.Metres()
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
