package sheets

import (
	"io"
	"testing"

	"everyseat/mosaic"
)

// BenchmarkWholeSet prints everything that a crew carries for a hall of 450 seats, on one processor.
func BenchmarkWholeSet(b *testing.B) {
	s := hall()
	for i := range 3 {
		s.Stands.Sections[i].Rows = 15
	}
	s.Stands.Sections[0].Missing = nil
	s.Stands.Sections[1].Reserved = nil
	p, err := mosaic.Make(s)
	if err != nil {
		b.Fatal(err)
	}
	whole := told(p)
	discard := func(_ string, write func(io.Writer) error) error { return write(io.Discard) }
	for _, sheet := range crewSheets {
		b.Run(sheet.name, func(b *testing.B) {
			for b.Loop() {
				if err := sheet.write(io.Discard, whole); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("all", func(b *testing.B) {
		for b.Loop() {
			if err := Placards(whole, discard); err != nil {
				b.Fatal(err)
			}
			if err := Rows(io.Discard, whole); err != nil {
				b.Fatal(err)
			}
			for _, sheet := range crewSheets {
				if err := sheet.write(io.Discard, whole); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}
