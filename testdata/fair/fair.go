// Package fair is the made-up Lantern Fair of Gullhaven, which tests of several packages plan.
package fair

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"sync/atomic"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Bleachers are twelve rows of twelve.
func Bleachers(name string) seating.SectionSpec {
	return seating.SectionSpec{
		Name: name, Kind: seating.Bench, Rows: 12, Seats: []int{12}, Pitch: 20 * seating.Inch,
		Rise: 9*seating.Inch + seating.Inch*5/8, Run: 24 * seating.Inch, FirstRow: 12 * seating.Inch,
		SeatBoard: 17 * seating.Inch, Aisle: 48 * seating.Inch,
	}
}

// Stunt is GLOW, white on navy, on the sections A, B and C of bleachers.
func Stunt() *mosaic.Stunt {
	return &mosaic.Stunt{
		Title:  "Lantern Fair of Gullhaven",
		Stands: seating.Spec{Sections: []seating.SectionSpec{Bleachers("A"), Bleachers("B"), Bleachers("C")}},
		Camera: camera.Mark{Back: 18 * seating.Metre, Height: 3 * seating.Metre},
		Colours: []mosaic.Colour{
			{Name: "navy", RGB: colour.RGB{0x1b, 0x2a, 0x5c}, Sheets: -1},
			{Name: "white", RGB: colour.RGB{0xff, 0xff, 0xff}, Sheets: -1},
			{Name: "gold", RGB: colour.RGB{0xf2, 0xb7, 0x05}, Sheets: -1},
		},
		Cues: []mosaic.Cue{{Text: "GLOW"}},
	}
}

// Crowded is Stunt with people without cards on the floor F, seats that are missing and reserved, a second cue that
// is a picture, and seats painted by hand.
func Crowded() *mosaic.Stunt {
	s := Stunt()
	floor := seating.SectionSpec{
		Name: "F", Kind: seating.Floor, Rows: 3, Seats: []int{20}, Pitch: 24 * seating.Inch, Run: 36 * seating.Inch,
		Place: &seating.Place{Away: -5 * seating.Metre}, NoCards: true,
	}
	s.Stands.Sections = append(s.Stands.Sections, floor)
	s.Stands.Sections[0].Missing = []seating.SeatRange{{Row: "3", From: 4, To: 5}}
	s.Stands.Sections[1].Reserved = []seating.Reserved{
		{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 2}}, For: "wheelchair"},
		{Seats: []seating.SeatRange{{Row: "12", From: 6, To: 7}}, For: "platform"},
	}
	lantern := Halves(s.Colours[1].RGB, s.Colours[2].RGB)
	s.Cues = append(s.Cues, mosaic.Cue{Name: "lantern", ImageName: "lantern.png", Image: lantern, Fit: "fill"})
	gold := seating.SeatRange{Row: "1", From: 12, To: 10}
	s.Cues[0].Painted = []mosaic.Paint{{Section: "C", Seats: gold, Colour: "gold"}}
	return s
}

// Big is GLOW on steep sections side by side, filmed from so far back.
func Big(sections, rows, seats int, back seating.Length) *mosaic.Stunt {
	s := Stunt()
	s.Stands.Sections = nil
	for i := range sections {
		s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
			Name: string(rune('A' + i)), Kind: seating.Bench, Rows: rows, Seats: []int{seats},
			Pitch: 20 * seating.Inch, Rise: 14 * seating.Inch, Run: 30 * seating.Inch,
			SeatBoard: 17 * seating.Inch, Aisle: 48 * seating.Inch,
		})
	}
	s.Camera = camera.Mark{Back: back, Height: 12 * seating.Metre}
	return s
}

// Halves is an image, half one colour and half the other from left to right.
func Halves(left, right colour.RGB) []byte {
	m := image.NewNRGBA(image.Rect(0, 0, 64, 32))
	for y := range 32 {
		for x := range 64 {
			c := left
			if x >= 32 {
				c = right
			}
			m.SetNRGBA(x, y, color.NRGBA{c[0], c[1], c[2], 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// Plan plans a stunt.
func Plan(t testing.TB, s *mosaic.Stunt) *mosaic.Plan {
	t.Helper()
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// EndsAfter is a context that ends when it has been asked so often whether it has.
func EndsAfter(asked int64) context.Context {
	c := &ending{Context: context.Background()}
	c.left.Store(asked)
	return c
}

type ending struct {
	context.Context
	left atomic.Int64
}

func (c *ending) Err() error {
	if c.left.Add(-1) < 0 {
		return context.Canceled
	}
	return nil
}
