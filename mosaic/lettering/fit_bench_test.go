package lettering_test

import (
	"testing"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
)

// One core: go test ./mosaic/lettering -run ^$ -bench . -cpu 1

func benchFit(b *testing.B, sections, rows, seats int, back float64) {
	p := look(b, "bench", bleachers(sections, rows, seats, aisle, rise, run, pitch), mark(0, back, 3))
	views := []*lettering.Field{p.field}
	for b.Loop() {
		if _, err := lettering.Fit(views, "HAVEN", options()); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(p.field.Seats)), "seats")
}

func BenchmarkFit450(b *testing.B)    { benchFit(b, 3, 12, 13, 20) }
func BenchmarkFit10000(b *testing.B)  { benchFit(b, 4, 50, 50, 60) }
func BenchmarkFit100000(b *testing.B) { benchFit(b, 4, 150, 167, 200) }

// BenchmarkJudge450 is the whole judgement with the simulation of missing people.
func BenchmarkJudge450(b *testing.B) {
	p := look(b, "bench", bleachers(3, 12, 13, aisle, rise, run, pitch), mark(0, 20, 3))
	views := []*lettering.Field{p.field}
	l, err := lettering.Fit(views, "HAVEN", options())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		legibility.Judge(views, 0, l.Ink, l.Glyphs(), options())
	}
}
