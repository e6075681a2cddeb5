package lettering_test

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"everyseat/testdata/judges"
)

// readScene reads the cases' drawings with the scene-text reader. What it says as filmed is a judgement: it is
// printed, and nothing is taught, chosen or set by it.
func readScene(tb testing.TB, cases []*outcome) {
	tb.Helper()
	var cuts, reads []any
	for _, c := range cases {
		cuts = append(cuts, map[string]any{
			"plan": c.plan, "picture": c.Shot, "ground": night.Hex(), "ink": gold.Hex(), "out": c.Shot + "-crops", "eye": c.eye,
		})
	}
	for i, line := range judges.Ask(tb, "scene/crop.py", cuts) {
		var crops struct{ Map, Film []string }
		if err := json.Unmarshal(line, &crops); err != nil {
			tb.Fatalf("crop.py, job %d: %v: %s", i, err, line)
		}
		reads = append(reads, map[string]any{"pictures": crops.Map}, map[string]any{"pictures": crops.Film})
	}
	for i, line := range judges.Ask(tb, "scene/read.mjs", reads) {
		var said struct{ Text string }
		if err := json.Unmarshal(line, &said); err != nil {
			tb.Fatalf("read.mjs, job %d: %v: %s", i, err, line)
		}
		c := cases[i/2]
		if ok := said.Text == plainText(c.Text); i%2 == 0 {
			c.Known, c.KnownOK = said.Text, ok
		} else {
			c.Film, c.FilmOK = said.Text, ok
		}
	}
	for _, c := range cases {
		if *studyKeep == "" {
			os.RemoveAll(c.Shot + "-crops")
		}
	}
}

// TestScenePrints holds the scene-text reader itself to plain print, an outside bold face in black on white: what it
// does not read there it is no judge of. With -study every message of the study is printed, else every fifth.
func TestScenePrints(t *testing.T) {
	judges.SceneReader(t)
	if _, err := exec.LookPath("convert"); err != nil {
		judges.Missing(t, "ImageMagick is not installed")
	}
	dir := t.TempDir()
	face := []string{"-background", "white", "-fill", "black", "-font", "DejaVu-Sans-Bold", "-pointsize", "60"}
	var texts []string
	var reads []any
	for i, m := range messages() {
		if i%5 == 0 || *study {
			print := filepath.Join(dir, fmt.Sprintf("%03d.png", len(texts)))
			texts, reads = append(texts, m.text), append(reads, map[string]any{"pictures": []string{print}})
			face = append(face, "label:"+m.text)
		}
	}
	face = append(face, "-trim", "-bordercolor", "white", "-border", "12", "-resize", "x48", "+adjoin",
		"PNG24:"+filepath.Join(dir, "%03d.png"))
	if out, err := exec.Command("convert", face...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for i, line := range judges.Ask(t, "scene/read.mjs", reads) {
		var said struct{ Text string }
		if err := json.Unmarshal(line, &said); err != nil {
			t.Fatalf("%v: %s", err, line)
		}
		if said.Text != plainText(texts[i]) {
			t.Errorf("%s is read as %q", texts[i], said.Text)
		}
	}
}
