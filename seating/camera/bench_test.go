package camera

import (
	"fmt"
	"testing"

	"everyseat/seating"
)

// demoSized is three sections of 15 rows with 10 seats each: 450 people.
func demoSized(t testing.TB) (*Scene, *View) {
	s := &Scene{Stands: build(t, bleachers("A", 15, 10), bleachers("B", 15, 10), bleachers("C", 15, 10)), Card: letter(Eyes)}
	return s, view(t, mark(0, 20, 1.6), s)
}

// stadium is so many sections of 100 rows with 100 seats each, filling the frame's width.
func stadium(t testing.TB, sections int) (*Scene, *View) {
	var specs []seating.SectionSpec
	for i := range sections {
		specs = append(specs, bleachers(fmt.Sprint("S", i), 100, 100))
	}
	s := &Scene{Stands: build(t, specs...), Card: letter(Eyes)}
	return s, view(t, mark(0, 54*float64(sections)*0.7, 20), s)
}

func BenchmarkSee(b *testing.B) {
	run := func(name string, s *Scene, v *View) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s.See(v)
			}
		})
	}
	s, v := demoSized(b)
	run("450", s, v)
	for _, sections := range []int{1, 10} {
		s, v := stadium(b, sections)
		run(fmt.Sprint(len(s.Stands.Seats)), s, v)
	}
}

// BenchmarkSeeCoarse is what a search over many places calls: 64 samples a card, 450 seats.
func BenchmarkSeeCoarse(b *testing.B) {
	s, v := demoSized(b)
	for b.Loop() {
		s.SeeWith(v, leastSamples)
	}
}

func BenchmarkNewView(b *testing.B) {
	s, _ := stadium(b, 10)
	for b.Loop() {
		view(b, mark(0, 300, 20), s)
	}
}

func BenchmarkCells(b *testing.B) {
	s, v := stadium(b, 10)
	sight := s.See(v)
	b.ResetTimer()
	for b.Loop() {
		Cells(s.Stands, v, sight)
	}
}

func BenchmarkHiddenReport(b *testing.B) {
	for _, sections := range []int{0, 10} {
		s, v := demoSized(b)
		if sections > 0 {
			s, v = stadium(b, sections)
		}
		s.Card.Held = Chest
		sight := s.See(v)
		b.Run(fmt.Sprint(len(s.Stands.Seats)), func(b *testing.B) {
			for b.Loop() {
				HiddenReport(s, v, sight)
			}
		})
	}
}
