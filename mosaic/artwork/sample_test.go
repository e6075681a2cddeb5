package artwork

import (
	"encoding/csv"
	"image"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"everyseat/mosaic/colour"
)

func readTable(t testing.TB, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

func openTestImage(t testing.TB, name string) *Image {
	t.Helper()
	data, err := os.ReadFile("../../testdata/sampling/" + name)
	if err != nil {
		t.Fatal(err)
	}
	a, fault := Open(name, data)
	if fault != nil {
		t.Fatal(fault)
	}
	return a
}

// plainGrid is columns × rows equal rectangles over a width × height image, row by row.
func plainGrid(columns, rows int, width, height float64) []Quad {
	var out []Quad
	for y := range rows {
		for x := range columns {
			l, r := float64(x)*width/float64(columns), float64(x+1)*width/float64(columns)
			t, b := float64(y)*height/float64(rows), float64(y+1)*height/float64(rows)
			out = append(out, Quad{{l, t}, {r, t}, {r, b}, {l, b}})
		}
	}
	return out
}

// Against OpenCV's box filter (INTER_AREA on linear light; testdata/sampling,
// COMPUTED) on straight-on grids, most of them with edges inside pixels.
func TestSampleAgainstBoxFilter(t *testing.T) {
	a := openTestImage(t, "picture.png")
	cells := map[[2]int][]light{}
	checked := 0
	for _, row := range readTable(t, "sampling/area.csv") {
		var n [4]int
		for k := range n {
			n[k], _ = strconv.Atoi(row[k])
		}
		size := [2]int{n[0], n[1]}
		if cells[size] == nil {
			cells[size] = a.means(plainGrid(n[0], n[1], 97, 61))
		}
		got := cells[size][n[3]*n[0]+n[2]]
		for c := range 3 {
			want, err := strconv.ParseFloat(row[4+c], 64)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got[c]-want) > 1.0/255 {
				t.Errorf("grid %d × %d, cell %d, %d, channel %d: %.6f, want %.6f", n[0], n[1], n[2], n[3], c, got[c], want)
			}
			checked++
		}
	}
	if checked != 3*(1+13*7+20*11+48*30) {
		t.Errorf("%d values checked", checked)
	}
}

// channel turns values into rows of an image, all four channels alike.
func channel(width int, values ...float64) (image.Point, func(int, []light)) {
	return image.Pt(width, len(values)/width), func(y int, dst []light) {
		for x := range dst {
			v := values[y*width+x]
			dst[x] = light{v, v, v, v}
		}
	}
}

func wantMeans(t *testing.T, got []light, want ...float64) {
	t.Helper()
	for i, w := range want {
		if math.Abs(got[i][0]-w) > 1e-12 || got[i] != (light{got[i][0], got[i][0], got[i][0], got[i][0]}) {
			t.Errorf("cell %d: %v, want %v", i, got[i], w)
		}
	}
}

func upTo(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = float64(i)
	}
	return out
}

// scikit-image's test_block.py (SEEN): 0…23 as 4 × 6 in blocks of 2 × 3, and
// 0…39 as 5 × 8 in blocks of 4 × 5 with nothing beyond the edge.
func TestAveragesOfBlocks(t *testing.T) {
	size, rows := channel(6, upTo(24)...)
	wantMeans(t, averages(size, rows, plainGrid(2, 2, 6, 4)), 4, 7, 16, 19)
	size, rows = channel(8, upTo(40)...)
	wantMeans(t, averages(size, rows, plainGrid(2, 2, 10, 8)), 14, 10.8, 8.5, 5.7)
}

// Edges inside pixels, worked by hand (COMPUTED).
func TestAveragesOfParts(t *testing.T) {
	size, rows := channel(3, 10, 20, 30)
	wantMeans(t, averages(size, rows, plainGrid(2, 1, 3, 1)), 40.0/3, 80.0/3)
	size, rows = channel(5, 0, 10, 20, 30, 40)
	wantMeans(t, averages(size, rows, plainGrid(3, 1, 5, 1)), 4, 20, 36)
	// The same standing.
	size, rows = channel(1, 0, 10, 20, 30, 40)
	wantMeans(t, averages(size, rows, plainGrid(1, 3, 1, 5)), 4, 20, 36)
	// A cell within a pixel, and one of no size.
	size, rows = channel(2, 5, 7, 9, 11)
	wantMeans(t, averages(size, rows, []Quad{
		{{1.2, 0.3}, {1.4, 0.3}, {1.4, 0.6}, {1.2, 0.6}},
		{{1, 1}, {2, 1}, {2, 1}, {1, 1}},
	}), 7, 0)
	// Half of two pixels, under the diagonal: three quarters of it lie in the left one.
	size, rows = channel(2, 4, 8)
	wantMeans(t, averages(size, rows, []Quad{{{0, 0}, {0, 0}, {2, 1}, {0, 1}}}), 4*0.75+8*0.25)
}

// clip cuts a polygon at x·nx + y·ny <= d (Sutherland and Hodgman 1974).
func clip(poly [][2]float64, nx, ny, d float64) [][2]float64 {
	var out [][2]float64
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		a, b := p[0]*nx+p[1]*ny-d, q[0]*nx+q[1]*ny-d
		if a <= 0 {
			out = append(out, p)
		}
		if a*b < 0 {
			t := a / (a - b)
			out = append(out, [2]float64{p[0] + t*(q[0]-p[0]), p[1] + t*(q[1]-p[1])})
		}
	}
	return out
}

func polygonArea(poly [][2]float64) float64 {
	var sum float64
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		sum += p[0]*q[1] - p[1]*q[0]
	}
	return math.Abs(sum) / 2
}

// The obvious way: cut the cell at every pixel and weigh the pixels.
func slowAverage(width, height int, values []float64, q Quad) float64 {
	var sum float64
	l, r, t, b := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range q {
		l, r, t, b = min(l, p[0]), max(r, p[0]), min(t, p[1]), max(b, p[1])
	}
	for y := max(int(t), 0); y < min(int(b)+1, height); y++ {
		for x := max(int(l), 0); x < min(int(r)+1, width); x++ {
			part := q[:]
			part = clip(part, -1, 0, -float64(x))
			part = clip(part, 1, 0, float64(x+1))
			part = clip(part, 0, -1, -float64(y))
			part = clip(part, 0, 1, float64(y+1))
			if len(part) >= 3 {
				sum += polygonArea(part) * values[y*width+x]
			}
		}
	}
	return sum / polygonArea(q[:])
}

// Any convex cell, also half outside and mirrored, against cutting at every pixel.
func TestAveragesOfSlantedCells(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	const width, height = 11, 7
	values := make([]float64, width*height)
	for i := range values {
		values[i] = random.Float64()
	}
	size, rows := channel(width, values...)
	for range 2000 {
		// A parallelogram with a nudge stays convex.
		cx, cy := random.Float64()*14-2, random.Float64()*10-2
		ax, ay := random.Float64()*4+0.1, random.Float64()*2-1
		bx, by := random.Float64()*2-1, random.Float64()*3+0.1
		if math.Abs(ax*by-ay*bx) < 0.02 {
			continue
		}
		nudge := 1 + random.Float64()*0.2
		q := Quad{{cx, cy}, {cx + ax, cy + ay}, {cx + nudge*(ax+bx), cy + nudge*(ay+by)}, {cx + bx, cy + by}}
		want := slowAverage(width, height, values, q)
		mirrored := Quad{q[1], q[0], q[3], q[2]}
		for _, got := range averages(size, rows, []Quad{q, mirrored}) {
			if math.Abs(got[0]-want) > 1e-9 {
				t.Fatalf("%v: %.12f, want %.12f", q, got[0], want)
			}
		}
	}
}

// Cells that share the picture out lose nothing and count nothing twice.
func TestAveragesConserveLight(t *testing.T) {
	a := openTestImage(t, "picture.png")
	whole := a.means(plainGrid(1, 1, 97, 61))[0]
	var sum light
	parts := a.means(plainGrid(31, 17, 97, 61))
	for i := range parts {
		sum.add(&parts[i], 1.0/float64(len(parts)))
	}
	for c := range sum {
		if math.Abs(sum[c]-whole[c]) > 1e-9 {
			t.Errorf("channel %d: parts %.12f, whole %.12f", c, sum[c], whole[c])
		}
	}
}

// Half black and half white is half the light: sRGB 188, not 128 (COMPUTED).
func TestSampleInLinearLight(t *testing.T) {
	black, white := colour.RGB{}.Linear(), colour.RGB{255, 255, 255}.Linear()
	got := averages(image.Pt(2, 1), func(_ int, dst []light) {
		dst[0], dst[1] = light{black[0], black[1], black[2], 1}, light{white[0], white[1], white[2], 1}
	}, plainGrid(1, 1, 2, 1))[0]
	if rgb := got.alone().RGB(); rgb != (colour.RGB{188, 188, 188}) {
		t.Errorf("black and white mix to %s, want #bcbcbc", rgb.Hex())
	}
}

// A round thing stays round from the mark: placed by one scale, in the middle.
func TestPlaceUndistorted(t *testing.T) {
	a := &Image{width: 200, height: 100, turn: upright, canvas: image.Pt(200, 100)}
	fit, half := a.place([4]float64{0, 0, 100, 100}, false, [2]float64{})
	if fit != [2]float64{0, 25} || half != 0.5 {
		t.Errorf("fit: begins at %v, a pixel is %v", fit, half)
	}
	if fill, one := a.place([4]float64{0, 0, 100, 100}, true, [2]float64{}); fill != [2]float64{-50, 0} || one != 1 {
		t.Errorf("fill: begins at %v, a pixel is %v", fill, one)
	}
	seats := []Seat{{Cell: Quad{{0, 25}, {10, 25}, {10, 35}, {0, 35}}}}
	if q := a.cells(seats, fit, half)[0]; q != (Quad{{0, 0}, {20, 0}, {20, 20}, {0, 20}}) {
		t.Errorf("cell on the image: %v", q)
	}
}

// A filling image is moved so that its focus stays in sight.
func TestFocus(t *testing.T) {
	a := &Image{width: 200, height: 100}
	for _, c := range []struct {
		focus, begin [2]float64
	}{
		{[2]float64{0, 0}, [2]float64{-50, 0}}, {[2]float64{0.5, 0.5}, [2]float64{-50, 0}},
		{[2]float64{0.1, 0.5}, [2]float64{0, 0}}, {[2]float64{0.9, 0.2}, [2]float64{-100, 0}}, {[2]float64{0.4, 0.5}, [2]float64{-30, 0}},
	} {
		if begin, scale := a.place([4]float64{0, 0, 100, 100}, true, c.focus); scale != 1 || begin != c.begin {
			t.Errorf("focus %v: begins at %v, a pixel is %v", c.focus, begin, scale)
		}
	}
}

func BenchmarkSample(b *testing.B) {
	const width, height = 2048, 1024
	row := func(_ int, dst []light) {
		for x := range dst {
			dst[x] = light{0.5, 0.25, float64(x) / width, 1}
		}
	}
	for _, grid := range [][2]int{{45, 20}, {200, 50}, {400, 250}} {
		cells := plainGrid(grid[0], grid[1], width, height)
		b.Run(strconv.Itoa(len(cells))+"-cells", func(b *testing.B) {
			for b.Loop() {
				averages(image.Pt(width, height), row, cells)
			}
		})
	}
}
