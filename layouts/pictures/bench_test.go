package pictures

import (
	"io"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// The benchmarks draw and write 3840 × 2160 pixels; cpu-ms/op is processor time.

// BenchmarkDraw is the hall of 450 seats with 450 people on the floor before it.
func BenchmarkDraw(b *testing.B) {
	benchDraw(b, painted(b, hall(true), "GLOW", testMark()))
}

// BenchmarkDrawMany is 100,000 seats.
func BenchmarkDrawMany(b *testing.B) {
	benchDraw(b, many(b))
}

func benchDraw(b *testing.B, p *mosaic.Plan) {
	b.ReportAllocs()
	reportCPU(b)
	for b.Loop() {
		if _, err := shoot(p, 0); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	img, err := shoot(painted(b, hall(true), "GLOW", testMark()), 0)
	if err != nil {
		b.Fatal(err)
	}
	var n counter
	reportCPU(b)
	for b.Loop() {
		n = 0
		if err := writePaletted(&n, img); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(n), "bytes")
}

// counter is a writer that counts.
type counter int

func (c *counter) Write(p []byte) (int, error) { *c += counter(len(p)); return len(p), nil }

func BenchmarkMap(b *testing.B) {
	benchMap(b, painted(b, hall(true), "GLOW", testMark()), Map)
}

func BenchmarkMapSVG(b *testing.B) {
	benchMap(b, painted(b, hall(true), "GLOW", testMark()), MapSVG)
}

func BenchmarkMapMany(b *testing.B) { benchMap(b, many(b), Map) }

func benchMap(b *testing.B, p *mosaic.Plan, write func(io.Writer, *brief.Brief, int) error) {
	whole := told(p)
	b.ReportAllocs()
	reportCPU(b)
	for b.Loop() {
		if err := write(io.Discard, whole, 0); err != nil {
			b.Fatal(err)
		}
	}
}

// many is ten sections of a hundred rows of a hundred seats.
func many(tb testing.TB) *mosaic.Plan {
	var spec seating.Spec
	for i := range 10 {
		spec.Sections = append(spec.Sections, seating.SectionSpec{
			Name: string(rune('A' + i)), Kind: seating.Bench, Rows: 100, Seats: []int{100}, Pitch: 20 * inch,
			Rise: 12 * inch, Run: 30 * inch, FirstRow: 40 * inch, SeatBoard: 17 * inch, Aisle: 48 * inch,
		})
	}
	mark := camera.Mark{Name: "camera", Back: 200 * seating.Metre, Height: 20 * seating.Metre, Picture: [2]int{3840, 2160}, Lens: camera.Lens{FieldOfView: 105}}
	return painted(tb, spec, "GLOW", mark)
}

// BenchmarkCues is the hall of 450 seats and one cue.
func BenchmarkCues(b *testing.B) { benchCues(b, painted(b, hall(true), "GLOW", testMark())) }

// BenchmarkCuesMany is 100,000 seats and one cue.
func BenchmarkCuesMany(b *testing.B) { benchCues(b, many(b)) }

func benchCues(b *testing.B, p *mosaic.Plan) {
	b.ReportAllocs()
	reportCPU(b)
	for b.Loop() {
		if err := Cues(io.Discard, p); err != nil {
			b.Fatal(err)
		}
	}
}
