package pictures

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"everyseat/mosaic"
	"everyseat/testdata/judges"
)

// judge is the path of an outside program; without it the test is skipped, or
// fails, see judges.Missing.
func judge(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	judges.Missing(t, name+" is not installed")
	return ""
}

// TestBrowserSeesTheSameMap: a browser draws the SVG, and every seat has the
// colour that it has in the plan, at the place where the PNG has it.
func TestBrowserSeesTheSameMap(t *testing.T) {
	chromium := judge(t, "chromium")
	p := painted(t, court(), "LF", smallMark())
	c, err := newChart(told(p), 0)
	if err != nil {
		t.Fatal(err)
	}
	img := screenshot(t, chromium, p, int(c.width), int(c.height))
	seen := 0
	for i := range p.Stands.Seats {
		k := p.Cues[0].Colours[i]
		if k == mosaic.None {
			continue
		}
		seen++
		q := inCell(c.cell(i, 1), 0.2, 0.17)
		r, g, b, _ := img.At(int(q.x), int(q.y)).RGBA()
		want := rgb(p.Stunt.Colours[k].RGB)
		if got := (rgb{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}); got != want {
			t.Errorf("%s is %s in the browser, want %s", p.Stands.ID(i), got.hex(), want.hex())
		}
	}
	if seen < 400 {
		t.Errorf("only %d seats were looked at", seen)
	}
}

// screenshot is the SVG of the first cue as the browser draws it.
func screenshot(t *testing.T, chromium string, p *mosaic.Plan, width, height int) image.Image {
	t.Helper()
	dir := t.TempDir()
	var svg bytes.Buffer
	if err := MapSVG(&svg, told(p), 0); err != nil {
		t.Fatal(err)
	}
	in, out := filepath.Join(dir, "map.svg"), filepath.Join(dir, "map.png")
	if err := os.WriteFile(in, svg.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), chromium, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
		"--force-color-profile=srgb", "--force-device-scale-factor=1", "--user-data-dir="+filepath.Join(dir, "profile"),
		fmt.Sprintf("--window-size=%d,%d", width, height), "--screenshot="+out, "file://"+in)
	if log, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, log)
	}
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}
