package artwork

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// ink is white on navy, as wide as a fiftieth of the image's height, with soft edges: of whatever is at a distance
// from places in a field of 2 × 1.
func ink(distance func(x, y float64) float64) image.Image {
	const high = 360
	m := image.NewNRGBA(image.Rect(0, 0, 2*high, high))
	for y := range high {
		for x := range 2 * high {
			k := min(max((0.01-distance((float64(x)+0.5)/high, (float64(y)+0.5)/high))*high+0.5, 0), 1)
			mix := func(a, b float64) uint8 { return uint8(a + (b-a)*k) }
			m.SetNRGBA(x, y, color.NRGBA{mix(0x1b, 255), mix(0x2a, 255), mix(0x5c, 255), 255})
		}
	}
	return m
}

// Photographs and slopes are no drawings; what few colours draw is, with soft edges too.
func TestIsDrawing(t *testing.T) {
	slope, waves := image.NewGray(image.Rect(0, 0, 256, 64)), image.NewNRGBA(image.Rect(0, 0, 2048, 1024))
	for i := range slope.Pix {
		slope.Pix[i] = uint8(i % 256)
	}
	for y := range 1024 {
		for x := range 2048 {
			waves.SetNRGBA(x, y, color.NRGBA{uint8(x / 8), uint8(y / 4), uint8((x*y)>>13) ^ uint8(x), 255})
		}
	}
	for name, c := range map[string]struct {
		image.Image
		drawing bool
	}{
		"ring":            {ink(func(x, y float64) float64 { return math.Abs(math.Hypot(x-1, y-0.5) - 0.4) }), true},
		"saltire":         {ink(func(x, y float64) float64 { return math.Abs(math.Abs(x-1)-math.Abs(y-0.5)) / math.Sqrt2 }), true},
		"slope":           {slope, false},
		"waves of colour": {waves, false},
	} {
		var b bytes.Buffer
		if err := png.Encode(&b, c.Image); err != nil {
			t.Fatal(err)
		}
		a, fault := Open(name, b.Bytes())
		if fault != nil {
			t.Fatal(fault)
		}
		if _, few := a.mainShades(); few != c.drawing {
			t.Errorf("%s: a drawing: %v", name, few)
		}
	}
	files, err := filepath.Glob("../../testdata/photographs/*.webp")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d photographs, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		a, fault := Open(file, data)
		if fault != nil {
			t.Fatal(fault)
		}
		if _, few := a.mainShades(); few {
			t.Errorf("%s is taken for a drawing", file)
		}
	}
}

// Worked by hand on a grid: a line a third of a seat wide that lies just on the border of two columns shows on
// both, one that lies more on the second there alone; two lines with ground between them, all within three
// columns, stay two.
func TestWidenedByHand(t *testing.T) {
	const rows, columns = 5, 6
	var w walk
	var in []inked
	for r := range rows {
		var line []int32
		for c := range columns {
			line = append(line, int32(r*columns+c))
			var k inked
			switch c {
			case 0, 1: // the right sixth of column 0, the left one of column 1
				k.whole = 167
				for y := range partsAside {
					k.part[y*partsAside+2-2*c] = 500
				}
			case 3: // a line at its left, and at its right a third of
				k.whole = 400
				for y := range partsAside {
					k.part[y*partsAside], k.part[y*partsAside+2] = 700, 500
				}
			case 2, 4:
				k.whole = 900
			}
			in = append(in, k)
		}
		w = append(w, line)
	}
	shows := make([]bool, rows*columns)
	for k := range shows {
		shows[k] = k%columns == 4
	}
	var got [rows][columns]int
	s := strokes{walk: w, ink: in, shows: shows}
	for _, k := range s.widened() {
		got[k/columns][k%columns] = 1
	}
	for r := range got {
		if got[r][3] != 0 {
			t.Errorf("row %d: the gap is closed: %v", r, got[r])
		}
	}
	// Alone, the first two columns.
	for k := range in {
		if k%columns > 1 {
			in[k] = inked{}
		}
	}
	clear(shows)
	for _, c := range []struct{ first, seats int }{{167, 2 * rows}, {60, rows}} {
		for k := 0; k < len(in); k += columns {
			in[k].whole = c.first
		}
		s = strokes{walk: w, ink: in, shows: shows}
		if got := s.widened(); len(got) != c.seats || got[0] != int32(2-c.seats/rows) {
			t.Errorf("a line of %d rows, %d of 1000 in the first column, became seats %v", rows, c.first, got)
		}
	}
}
