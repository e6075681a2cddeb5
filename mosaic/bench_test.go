package mosaic

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"strings"
	"testing"
	"time"

	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// bigStunt shows a 2048 × 1024 image on sections side by side.
func bigStunt(sections, rows, seats int, back seating.Length) *Stunt {
	s := gullhaven()
	s.Stands.Sections = nil
	for i := range sections {
		s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
			Name: string(rune('A' + i)), Kind: seating.Bench, Rows: rows, Seats: []int{seats}, Pitch: 20 * seating.Inch,
			Rise: 14 * seating.Inch, Run: 30 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 48 * seating.Inch,
		})
	}
	s.Camera = camera.Mark{Back: back, Height: 12 * seating.Metre}
	s.Colours = append(s.Colours,
		Colour{Name: "red", RGB: colour.RGB{0xc8, 0x1e, 0x2c}, Sheets: -1},
		Colour{Name: "green", RGB: colour.RGB{0x1c, 0x8c, 0x4a}, Sheets: -1},
		Colour{Name: "black", RGB: colour.RGB{0x10, 0x10, 0x10}, Sheets: -1},
		Colour{Name: "sky", RGB: colour.RGB{0x6c, 0xb6, 0xe6}, Sheets: -1},
		Colour{Name: "pink", RGB: colour.RGB{0xf4, 0x9a, 0xb4}, Sheets: -1})
	s.Cues = []Cue{{ImageName: "waves.png", Image: waves(), Fit: "fill"}}
	return s
}

// waves is a picture with slopes in all three channels.
func waves() []byte {
	m := image.NewNRGBA(image.Rect(0, 0, 2048, 1024))
	for y := range 1024 {
		for x := range 2048 {
			m.SetNRGBA(x, y, color.NRGBA{uint8(x / 8), uint8(y / 4), uint8((x*y)>>13) ^ uint8(x), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// The plan, with an image of 2048 × 1024; what looking from the mark takes at
// 3840 × 2160 is reported apart.
func benchmarkMake(b *testing.B, s *Stunt) {
	b.ReportAllocs()
	var looking, planning time.Duration
	var planningCPU time.Duration // on a busy machine the steadier figure
	plan := func(part func() error) {
		start, cpu := time.Now(), cpuTime()
		if err := part(); err != nil {
			b.Fatal(err)
		}
		planning += time.Since(start)
		planningCPU += cpuTime() - cpu
	}
	for b.Loop() {
		var m *maker
		plan(func() (err error) {
			m, err = seatEverybody(s)
			return err
		})
		start := time.Now()
		if err := m.look(b.Context()); err != nil {
			b.Fatal(err)
		}
		looking += time.Since(start)
		plan(func() error { return m.showCues(b.Context()) })
		if p := m.p; len(p.Order) != len(p.Stands.Seats) {
			b.Fatalf("%d of %d seats are in order", len(p.Order), len(p.Stands.Seats))
		}
	}
	report := func(d time.Duration, unit string) {
		b.ReportMetric(float64(d.Microseconds())/1000/float64(b.N), unit)
	}
	report(looking, "look-ms/op")
	report(planning, "plan-ms/op")
	report(planningCPU, "plan-cpu-ms/op")
	if peak := peakMemory(); peak > 0 {
		b.ReportMetric(peak, "peak-MiB")
	}
}

// peakMemory is the most memory that the process has had so far, in MiB, as Linux
// counts it (VmHWM); 0 elsewhere. Run one benchmark alone for a figure of its own:
//
//	go test ./mosaic -run '^$' -bench Make100k -benchtime 3x
func peakMemory() float64 {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	_, after, _ := strings.Cut(string(status), "VmHWM:")
	var kib float64
	if _, err := fmt.Sscan(after, &kib); err != nil {
		return 0
	}
	return kib / 1024
}

func BenchmarkMake450(b *testing.B)  { benchmarkMake(b, bigStunt(3, 10, 15, 18*seating.Metre)) }
func BenchmarkMake10k(b *testing.B)  { benchmarkMake(b, bigStunt(5, 40, 50, 90*seating.Metre)) }
func BenchmarkMake100k(b *testing.B) { benchmarkMake(b, bigStunt(20, 100, 50, 400*seating.Metre)) }

func BenchmarkMakeText450(b *testing.B) { benchmarkMake(b, gullhaven()) }

// Stock tight on six of the eight colours, and a picture.
func BenchmarkMakeScarce100k(b *testing.B) {
	s := bigStunt(20, 100, 50, 400*seating.Metre)
	for c := range 6 {
		s.Colours[c].Sheets = 13_000
	}
	benchmarkMake(b, s)
}

// Ten cues on one plan, bonded cards: the whole kit with them.
func BenchmarkMakeTenCues450(b *testing.B) {
	s := bigStunt(3, 10, 15, 18*seating.Metre)
	image := s.Cues[0]
	s.Cues = nil
	for i := range 10 {
		c := image
		stops := float64(i-5) / 4
		c.Name, c.Exposure = fmt.Sprintf("cue %d", i+1), &stops
		s.Cues = append(s.Cues, c)
	}
	benchmarkMake(b, s)
}
