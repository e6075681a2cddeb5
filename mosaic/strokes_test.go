package mosaic

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/testdata/judges"
)

// arc is part of an ellipse as a line of points; angles in degrees, 0 to the right, 90 up.
func arc(cx, cy, rx, ry, from, to float64) (line [][2]float64) {
	for a := from; a <= to+0.1; a += 5 {
		r := a * math.Pi / 180
		line = append(line, [2]float64{cx + rx*math.Cos(r), cy - ry*math.Sin(r)})
	}
	return line
}

func points(xy ...float64) (line [][2]float64) {
	for i := 0; i < len(xy); i += 2 {
		line = append(line, [2]float64{xy[i], xy[i+1]})
	}
	return line
}

// linework is drawings as lines, in a field of 2 × 1.
var linework = map[string][][][2]float64{
	"ring":     {arc(1, 0.5, 0.4, 0.4, 0, 360)},
	"diagonal": {points(0.3, 0.9, 1.7, 0.1)},
	"anchor":   {arc(1, 0.17, 0.09, 0.09, 0, 360), points(1, 0.26, 1, 0.92), points(0.75, 0.36, 1.25, 0.36), arc(1, 0.55, 0.5, 0.37, 180, 360)},
	"lighthouse": {points(0.8, 0.95, 0.9, 0.35, 1.1, 0.35, 1.2, 0.95, 0.8, 0.95), points(0.9, 0.35, 0.9, 0.15, 1.1, 0.15, 1.1, 0.35),
		points(0.5, 0.1, 0.75, 0.2), points(1.25, 0.2, 1.5, 0.1)},
	"waves": {arc(0.5, 0.35, 0.25, 0.2, 180, 360), arc(1, 0.35, 0.25, 0.2, 180, 360), arc(1.5, 0.35, 0.25, 0.2, 180, 360),
		arc(0.5, 0.7, 0.25, 0.2, 180, 360), arc(1, 0.7, 0.25, 0.2, 180, 360), arc(1.5, 0.7, 0.25, 0.2, 180, 360)},
	"boat":  {points(0.4, 0.65, 0.6, 0.92, 1.4, 0.92, 1.6, 0.65, 0.4, 0.65), points(1, 0.65, 1, 0.05, 1.4, 0.5, 1, 0.5)},
	"star":  {points(1, 0.05, 1.12, 0.38, 1.48, 0.38, 1.2, 0.6, 1.3, 0.95, 1, 0.75, 0.7, 0.95, 0.8, 0.6, 0.52, 0.38, 0.88, 0.38, 1, 0.05)},
	"fish":  {arc(0.9, 0.5, 0.5, 0.3, 20, 340), points(1.37, 0.4, 1.75, 0.75), points(1.37, 0.6, 1.75, 0.25)},
	"frame": {points(0.4, 0.1, 1.6, 0.1, 1.6, 0.9, 0.4, 0.9, 0.4, 0.1), points(0.65, 0.3, 1.35, 0.3, 1.35, 0.7, 0.65, 0.7, 0.65, 0.3)},
	"TEA": {points(0.2, 0.2, 0.6, 0.2), points(0.4, 0.2, 0.4, 0.8), points(1.15, 0.2, 0.8, 0.2, 0.8, 0.8, 1.15, 0.8), points(0.8, 0.5, 1.1, 0.5),
		points(1.35, 0.8, 1.58, 0.2, 1.8, 0.8), points(1.43, 0.6, 1.72, 0.6)},
}

// ink draws lines, so wide, white on navy with soft edges, 720 × 360 pixels.
func ink(lines [][][2]float64, wide float64) image.Image {
	const high = 360
	m := image.NewNRGBA(image.Rect(0, 0, 2*high, high))
	for y := range high {
		for x := range 2 * high {
			p := [2]float64{(float64(x) + 0.5) / high, (float64(y) + 0.5) / high}
			d := math.Inf(1)
			for _, l := range lines {
				for i := 1; i < len(l); i++ {
					d = min(d, toLine(p, l[i-1], l[i]))
				}
			}
			k := min(max((wide/2-d)*high+0.5, 0), 1)
			mix := func(a, b float64) uint8 { return uint8(a + (b-a)*k) }
			m.SetNRGBA(x, y, color.NRGBA{mix(0x1b, 255), mix(0x2a, 255), mix(0x5c, 255), 255})
		}
	}
	return m
}

func toLine(p, a, b [2]float64) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := min(max(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/(dx*dx+dy*dy), 0), 1)
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}

func encoded(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// drawingPlan shows a drawing on one section of 44 seats by 22 rows.
func drawingPlan(t testing.TB, name string, data []byte, reduce Reduction) *Plan {
	t.Helper()
	s := bigStunt(1, 22, 44, 24*seating.Metre)
	s.Colours = s.Colours[:3]
	s.Cues = []Cue{{ImageName: name + ".png", Image: data, Reduce: reduce}}
	return mustMake(t, s)
}

// whiteSeats are the cells of the seats that show white, a tenth wider on each side: rows stagger, and lines
// that pass each other by that look joined.
func whiteSeats(p *Plan) [][4][2]float64 {
	var seats [][4][2]float64
	for i, c := range p.Cues[0].Colours {
		if c != 1 {
			continue
		}
		q := corners(p.Cells[i])
		more := (q[1][0] - q[0][0]) / 10
		q[0][0], q[3][0], q[1][0], q[2][0] = q[0][0]-more, q[3][0]-more, q[1][0]+more, q[2][0]+more
		seats = append(seats, q)
	}
	return seats
}

type counted struct{ Pieces, Holes int }

// piecesOf asks OpenCV's connectedComponents (testdata/reader/pieces.py).
func piecesOf(t *testing.T, jobs []map[string]any) (out []counted) {
	t.Helper()
	if exec.Command("/usr/bin/python3", "-c", "import cv2").Run() != nil {
		judges.Missing(t, "python3-opencv is not installed")
	}
	var all []any
	for _, j := range jobs {
		all = append(all, j)
	}
	for _, line := range judges.Ask(t, "pieces.py", all) {
		var c counted
		if err := json.Unmarshal(line, &c); err != nil {
			t.Fatal(err)
		}
		out = append(out, c)
	}
	return out
}

// A drawing whose strokes are thinner than a seat has as many pieces on the seats as on paper, and no hole of
// it closes, by OpenCV; with nearest colours alone most come apart. Strokes are a sixth to two thirds of a row
// wide. A few holes too many may be left, where a sharp corner is narrower than a seat.
func TestStrokesHoldTogether(t *testing.T) {
	var names []string
	for name := range linework {
		names = append(names, name)
	}
	slices.Sort(names)
	var jobs []map[string]any
	var said []string
	dir := t.TempDir()
	for _, name := range names {
		for _, sixths := range []int{1, 2, 4} {
			data := encoded(t, ink(linework[name], float64(sixths)/6/22))
			file := filepath.Join(dir, fmt.Sprintf("%s-%d.png", name, sixths))
			if err := os.WriteFile(file, data, 0o600); err != nil {
				t.Fatal(err)
			}
			plan, flat := drawingPlan(t, name, data, ""), drawingPlan(t, name, data, Flat)
			jobs = append(jobs, map[string]any{"picture": file}, map[string]any{"seats": whiteSeats(plan)}, map[string]any{"seats": whiteSeats(flat)})
			said = append(said, fmt.Sprintf("%s, strokes of %d/6 row", name, sixths))
			told := strings.Contains(strings.Join(plan.Warnings, " "), "thin strokes of white in "+name+".png are widened to one seat")
			if widened := !slices.Equal(plan.Cues[0].Colours, flat.Cues[0].Colours); told != widened {
				t.Errorf("%s: widened %v, warnings %q", said[len(said)-1], widened, plan.Warnings)
			}
		}
	}
	counts := piecesOf(t, jobs)
	more, before := 0, 0
	for i, what := range said {
		paper, now, flat := counts[3*i], counts[3*i+1], counts[3*i+2]
		t.Logf("%-32s on paper %v, on seats %v, with nearest colours %v", what, paper, now, flat)
		if now.Pieces != paper.Pieces || now.Holes < paper.Holes {
			t.Errorf("%s: on paper %v, on seats %v", what, paper, now)
		}
		more += now.Holes - paper.Holes
		if flat != paper {
			before++
		}
	}
	t.Logf("%d holes too many in %d drawings; with nearest colours %d come apart or close up", more, len(said), before)
	if more > len(said)/3 || before < len(said)/2 {
		t.Errorf("%d holes too many in %d drawings, with nearest colours %d come apart", more, len(said), before)
	}
}

// mast is a white block with a mast on it, so many pixels wide, on navy, 2880 × 1440 pixels: a seat of
// drawingPlan is 65 wide.
func mast(pixels int) image.Image {
	m := image.NewPaletted(image.Rect(0, 0, 2880, 1440), color.Palette{color.NRGBA{0x1b, 0x2a, 0x5c, 255}, color.White})
	fill := func(r image.Rectangle) {
		for y := r.Min.Y; y < r.Max.Y; y++ {
			for x := r.Min.X; x < r.Max.X; x++ {
				m.SetColorIndex(x, y, 1)
			}
		}
	}
	fill(image.Rect(1000, 900, 1900, 1300))
	fill(image.Rect(1410, 200, 1410+pixels, 900))
	return m
}

// A stroke too thin to keep is named as lost, beside others that are kept; one that is kept is not. Judged by
// how high white seats reach.
func TestLostStrokesAreNamed(t *testing.T) {
	top := func(p *Plan) (least float64) {
		least = math.Inf(1)
		for _, q := range whiteSeats(p) {
			least = min(least, q[0][1])
		}
		return least
	}
	block := top(drawingPlan(t, "block", encoded(t, mast(0)), ""))
	for pixels, lost := range map[int]bool{0: false, 1: true, 4: false, 20: false, 90: false} {
		p := drawingPlan(t, "mast", encoded(t, mast(pixels)), "")
		said := slices.ContainsFunc(p.Warnings, func(w string) bool {
			return strings.Contains(w, "strokes of white in mast.png are too thin to keep at ") && strings.HasSuffix(w, "are lost there: draw them thicker.")
		})
		high := top(p) < block-100
		if said != lost || high != (pixels > 1) {
			t.Errorf("a mast of %d pixels: shown %v, said lost %v: %q", pixels, high, said, p.Warnings)
		}
	}
}

// The soft edge of a disc is no stroke of a colour that looks like a mixture of its two, however coarse the image.
func TestSoftEdgesAreNoStrokes(t *testing.T) {
	for _, wide := range []int{200, 400, 800, 1600} {
		disc := image.NewNRGBA(image.Rect(0, 0, wide, wide/2))
		for y := range wide / 2 {
			for x := range wide {
				off := math.Hypot(float64(x)+0.5-float64(wide)/2, float64(y)+0.5-float64(wide)/4)
				k := min(max(0.17*float64(wide)-off+0.5, 0), 1)
				mix := func(a, b float64) uint8 { return uint8(a + (b-a)*k) }
				disc.SetNRGBA(x, y, color.NRGBA{mix(0x1b, 255), mix(0x2a, 255), mix(0x5c, 255), 255})
			}
		}
		s := bigStunt(1, 22, 44, 24*seating.Metre)
		s.Colours = append(s.Colours[:2:2], Colour{Name: "grey", RGB: colour.RGB{0x8d, 0x94, 0xad}, Sheets: -1})
		s.Cues = []Cue{{ImageName: "disc.png", Image: encoded(t, disc)}}
		for _, w := range mustMake(t, s).Warnings {
			if strings.Contains(w, "stroke") {
				t.Errorf("%d pixels: %s", wide, w)
			}
		}
	}
}

// Where the mean of two colours of a drawing is nearest to a third, the third does not show: a cream disc on
// navy holds no orange.
func TestDrawingsHaveNoStrayColours(t *testing.T) {
	for _, wide := range []int{330, 720} {
		s := bigStunt(1, 22, 44, 24*seating.Metre)
		s.Colours = append(s.Colours[:2:2], Colour{Name: "orange", RGB: colour.RGB{0xf0, 0x80, 0x20}, Sheets: -1})
		s.Colours[0].RGB, s.Colours[1].RGB = colour.RGB{0x14, 0x28, 0x4a}, colour.RGB{0xfa, 0xf1, 0xdb}
		disc := image.NewPaletted(image.Rect(0, 0, wide, wide/2), color.Palette{color.NRGBA{0x14, 0x28, 0x4a, 255}, color.NRGBA{0xfa, 0xf1, 0xdb, 255}})
		for y := range wide / 2 {
			for x := range wide {
				if math.Hypot(float64(x-wide/2), float64(y-wide/4)) < 0.21*float64(wide) {
					disc.SetColorIndex(x, y, 1)
				}
			}
		}
		s.Cues = []Cue{{ImageName: "disc.png", Image: encoded(t, disc)}}
		if k := slices.Index(mustMake(t, s).Cues[0].Colours, 2); k >= 0 {
			t.Errorf("%d pixels: seat %d shows orange", wide, k)
		}
		s.Cues[0].Reduce = Flat
		if !slices.Contains(mustMake(t, s).Cues[0].Colours, 2) {
			t.Errorf("%d pixels: with nearest colours no seat shows orange either", wide)
		}
	}
}

// Strokes that lie closer than a seat, but not than two thirds of one, and run together are named; those that
// stay apart are not. OpenCV counts the pieces on the seats (testdata/reader/pieces.py).
func TestStrokesThatRunTogetherAreNamed(t *testing.T) {
	pixels := []int{45, 50, 150, 300}
	var jobs []map[string]any
	var said []bool
	for _, apart := range pixels {
		m := image.NewPaletted(image.Rect(0, 0, 2880, 1440), color.Palette{color.NRGBA{0x1b, 0x2a, 0x5c, 255}, color.White})
		for y := 200; y < 1200; y++ {
			for x := range 10 {
				m.SetColorIndex(1420+x, y, 1)
				m.SetColorIndex(1430+apart+x, y, 1)
			}
		}
		p := drawingPlan(t, "rails", encoded(t, m), "")
		jobs = append(jobs, map[string]any{"seats": whiteSeats(p)})
		said = append(said, slices.ContainsFunc(p.Warnings, func(w string) bool {
			return strings.Contains(w, "strokes of white in rails.png lie closer than a seat at ")
		}))
	}
	for i, c := range piecesOf(t, jobs) {
		if i == 0 && c.Pieces != 1 {
			t.Errorf("two lines %d pixels apart are %d pieces", pixels[i], c.Pieces)
		}
		if together := c.Pieces != 2; said[i] != together || together && pixels[i] > 100 {
			t.Errorf("two lines %d pixels apart are %d pieces, named %v", pixels[i], c.Pieces, said[i])
		}
	}
}
