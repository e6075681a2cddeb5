package sheets

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/say"
)

// The sheet for the lens is one page on every paper, and its figures are those of the hall, worked by hand: the
// mark is 14 m before the front row, 1 m right of the middle, 4 m from the wall behind it, 11 m from the one on its right.
func TestCameraPage(t *testing.T) {
	for _, paper := range []string{"Letter", "A4", "A3", "A5"} {
		p := inHall(t, onPaperSize(paper))
		if n := len(pageWords(t, onPaper(t, "camera.pdf", p))); n != 1 {
			t.Errorf("%d pages on %s", n, paper)
		}
		text := saidOn(t, "camera.pdf", p)
		stray := outlookOf(p).Stray
		says := "LEFT " + reach(stray.Left) + ", RIGHT " + reach(stray.Right) + ", nearer " + reach(stray.Nearer)
		if !p.ReadsAtMark() {
			says = "it may not stray at all"
		}
		for _, want := range []string{
			says,
			"14.00 m (45 ft 11 in) in front of the front row's front edge, 1.00 m (3 ft 3 in) to the RIGHT of the stands' middle",
			"4.00 m (13 ft 1 in) square to the wall behind the camera", "11.00 m (36 ft 1 in) square to the wall on the RIGHT",
			"3.00 m (9 ft 10 in) above the floor", "65° across", "at 5 m (16 ft 5 in) the frame is 6.37 m (20 ft 11 in) wide",
			"exposure, focus and white balance", "spotter",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in %s", paper, want, text)
			}
		}
	}
}

// reach is how far the lens may stray one way, as the sheet says it.
func reach(r mosaic.Reach) string {
	words := say.Span(r.Distance.Metres())
	switch {
	case r.Distance == 0 && r.End == mosaic.EndRoom:
		return "not at all"
	case r.Distance == 0:
		return "less than 0.25 m"
	case r.End == mosaic.EndFar:
		return "at least " + words
	}
	return words
}

// The drawn picture is the camera's: where a card lies free in the picture, the page rendered by poppler has its colour
// there. The frame is found by its ground, not by our own sizes.
func TestCameraPicture(t *testing.T) {
	p := inHall(t, nil)
	dir := t.TempDir()
	judge(t, "pdftoppm", "-r", "200", "-singlefile", onPaper(t, "camera.pdf", p), filepath.Join(dir, "c"))
	page := readPPM(t, filepath.Join(dir, "c.ppm"))
	// The first cue's picture is the only one of full width: its ground spans most of the page's upper third.
	x0, y0, x1 := page.width, page.height, 0
	for y := range page.height / 3 {
		run := 0
		for x := range page.width {
			if page.at(x, y) != paleGround {
				run = 0
			} else if run++; run > 30 { // no letter's edge is as long
				x0, y0, x1 = min(x0, x-run+1), min(y0, y), max(x1, x)
			}
		}
	}
	if float64(x1-x0) < 0.7*float64(page.width) {
		t.Fatal("no picture was found")
	}
	// The picture may go on below, so its height follows from its shape.
	scale := float64(x1-x0+1) / float64(p.Marks[0].View.Width)
	checked, wrong := 0, 0
	for s, seat := range p.Stands.Seats {
		c := p.Cues[0].Colours[s]
		if c == mosaic.None || seat.Use != seating.UseCard || p.Marks[0].Sight.Seen[s] < 0.95 {
			continue
		}
		var u, v float64
		for _, q := range p.Marks[0].Sight.Corners[s] {
			u, v = u+q[0]/4, v+q[1]/4
		}
		checked++
		if page.at(x0+int(math.Round(u*scale)), y0+int(math.Round(v*scale))) != p.Stunt.Colours[c].RGB {
			wrong++
		}
	}
	if checked < 80 || wrong > checked/50 {
		t.Errorf("%d of %d cards have another colour on paper", wrong, checked)
	}
}

type raster struct {
	width, height int
	pixels        []byte
}

func (r *raster) at(x, y int) colour.RGB {
	if x < 0 || y < 0 || x >= r.width || y >= r.height {
		return colour.RGB{}
	}
	n := 3 * (y*r.width + x)
	return colour.RGB{r.pixels[n], r.pixels[n+1], r.pixels[n+2]}
}

// readPPM reads what pdftoppm writes.
func readPPM(t *testing.T, path string) *raster {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	f := strings.Fields(string(data[:min(40, len(data))]))
	if len(f) < 4 || f[0] != "P6" {
		t.Fatal("no PPM")
	}
	w, errW := strconv.Atoi(f[1])
	h, errH := strconv.Atoi(f[2])
	if errW != nil || errH != nil || len(data) < 3*w*h {
		t.Fatal("a broken PPM")
	}
	return &raster{w, h, data[len(data)-3*w*h:]}
}
