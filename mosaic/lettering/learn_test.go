package lettering_test

import (
	"encoding/binary"
	"encoding/json"
	"flag"
	"fmt"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
)

var (
	learn      = flag.String("learn", "", "write examples for testdata/reader/learn.py into this folder")
	learnSeed  = flag.Uint64("learn-seed", 7, "of the random lines")
	learnLines = flag.Int("learn-lines", 8000, "how many lines to write")
)

// TestLearn writes examples for the learned reader: lines as Judge predicts them, and what
// it looks at in each letter. Only stands and marks of the tuning half, and random letters.
func TestLearn(t *testing.T) {
	if *learn == "" {
		t.Skip("run with -learn DIR")
	}
	var places []*place
	for _, st := range standsList() {
		if st.held {
			continue
		}
		for _, m := range [][3]float64{{0, 16, 3}, {0, 20, 3}, {7, 16, 3}, {7, 20, 3}, {-7, 18, 3}, {3, 14, 2}, {7, 12, 1.8}} {
			places = append(places, look(t, st.name, st.spec, mark(m[0], m[1], m[2])))
		}
	}
	const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789"
	rng := rand.New(rand.NewPCG(*learnSeed, 7))
	data, err := os.Create(filepath.Join(*learn, "windows.f32"))
	if err != nil {
		t.Fatal(err)
	}
	defer data.Close()
	var index []map[string]any
	for n := 0; n < *learnLines; {
		text := make([]byte, 2+rng.IntN(4))
		for i := range text {
			text[i] = letters[rng.IntN(len(letters))]
		}
		p := places[rng.IntN(len(places))]
		l := lettering.RandomLayout(p.field, string(text), rng)
		if l == nil {
			continue
		}
		o := options()
		o.Seed = rng.Uint64()
		o.HandHeight, o.HandSideways = 0.05, 0.05
		o.Empty = []float64{0, 0, 0.05, 0.1}[rng.IntN(4)]
		o.Wrong = []float64{0, 0, 0, 0.01}[rng.IntN(4)]
		img, windows := legibility.Predict([]*lettering.Field{p.field}, 0, l.Ink, l.Glyphs(), o, rng.IntN(3))
		name := fmt.Sprintf("%06d.png", n)
		f, err := os.Create(filepath.Join(*learn, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		f.Close()
		for _, w := range windows {
			if err := binary.Write(data, binary.LittleEndian, w); err != nil {
				t.Fatal(err)
			}
		}
		index = append(index, map[string]any{"picture": name, "text": string(text)})
		n++
	}
	out, err := json.Marshal(index)
	if err == nil {
		err = os.WriteFile(filepath.Join(*learn, "index.json"), out, 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}
