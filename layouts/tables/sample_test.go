package tables

import (
	"io"
	"sync"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// stunt is a small one: two sections, one of them turned, missing and kept seats, two
// cues, and a second mark.
func stunt() *mosaic.Stunt {
	bench := func(name string, rows, seats int) seating.SectionSpec {
		return seating.SectionSpec{
			Name: name, Rows: rows, Seats: []int{seats}, Pitch: 20 * seating.Inch, Rise: 10 * seating.Inch,
			Run: 26 * seating.Inch, FirstRow: 10 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		}
	}
	a, b := bench("A", 8, 14), bench("Side", 6, 12)
	a.Missing = []seating.SeatRange{{Row: "2", From: 3, To: 4}}
	a.Reserved = []seating.Reserved{
		{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 2}}, For: "wheelchair"},
		{Seats: []seating.SeatRange{{Row: "8", From: 14, To: 14}}, For: "platform"},
	}
	b.Place = &seating.Place{Across: 9 * seating.Metre, Away: -1 * seating.Metre, Facing: -30}
	return &mosaic.Stunt{
		Title:  "Lantern “Fair” of <Gullhaven>",
		Stands: seating.Spec{Sections: []seating.SectionSpec{a, b}, Expected: 0.88},
		Camera: camera.Mark{Name: "camera", Back: 14 * seating.Metre, Height: 3 * seating.Metre, Picture: [2]int{1920, 1080}},
		Marks:  []camera.Mark{{Name: "gallery", Across: -3 * seating.Metre, Back: 18 * seating.Metre, Height: 6 * seating.Metre, Picture: [2]int{1280, 720}}},
		Card:   mosaic.CardSpec{Width: 11 * seating.Inch, Height: 17 * seating.Inch / 2, Held: camera.Eyes, Kind: mosaic.Sheet},
		Colours: []mosaic.Colour{
			{Name: "=NAVY", RGB: colour.RGB{0x14, 0x28, 0x4f}, Sheets: -1},
			{Name: "CREAM, light", RGB: colour.RGB{0xfd, 0xf4, 0xdc}, Sheets: -1},
		},
		Cues: []mosaic.Cue{
			{Name: "First", Text: "UP", Ink: "CREAM, light", Ground: "=NAVY", At: "count 1"},
			{Name: "Second", Text: "IT", Ink: "CREAM, light", Ground: mosaic.Shirts, At: "count 9"},
		},
	}
}

var planned = sync.OnceValues(func() (*mosaic.Plan, error) { return mosaic.Make(stunt()) })

// plan is the stunt's; tests only read it.
func plan(t testing.TB) *mosaic.Plan {
	t.Helper()
	p, err := planned()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// told is what is told of a plan; without advice.
func told(t testing.TB, p *mosaic.Plan) *brief.Brief {
	t.Helper()
	o, err := outlook.Of(t.Context(), p, outlook.All&^outlook.Advice, func(string) {})
	if err != nil {
		t.Fatal(err)
	}
	return brief.Of(p, o, nil)
}

// writers are all that write tables and data.
func writers(b *brief.Brief) map[string]func(io.Writer) error {
	return map[string]func(io.Writer) error{
		"Seats":    func(w io.Writer) error { return Seats(w, b.Plan) },
		"PlanJSON": func(w io.Writer) error { return PlanJSON(w, b) },
		"Workbook": func(w io.Writer) error { return Workbook(w, b.Plan) },
		"Tally":    func(w io.Writer) error { return Tally(w, b.Plan) },
	}
}
