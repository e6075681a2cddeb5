package lettering_test

import (
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// bleachers is a plain spec: the same section several times, side by side.
func bleachers(sections, rows, seats int, aisle, rise, run, pitch seating.Length) seating.Spec {
	var spec seating.Spec
	for i := range sections {
		spec.Sections = append(spec.Sections, seating.SectionSpec{
			Name: string(rune('A' + i)), Kind: seating.Bench, Rows: rows, Seats: []int{seats}, Pitch: pitch,
			Rise: rise, Run: run, FirstRow: 40 * seating.Centimetre, SeatBoard: 43 * seating.Centimetre, Aisle: aisle,
		})
	}
	return spec
}

// Typical telescopic bleachers: rise 9 5/8 in, spacing 24 in (trade pages, SEEN-2nd), pitch 20 in.
const (
	rise  = 9*seating.Inch + 5*seating.Inch/8
	run   = 24 * seating.Inch
	pitch = 20 * seating.Inch
	aisle = 48 * seating.Inch // stepped aisle with seats on both sides, IBC 2021 1030.9.1, SEEN-2nd
)

var (
	gold  = colour.RGB{0xf2, 0xc1, 0x2e}
	night = colour.RGB{0x1f, 0x3a, 0x7a}
)

// place is stands and a mark, and what the mark sees.
type place struct {
	name   string
	stands *seating.Stands
	scene  *camera.Scene
	view   *camera.View
	sight  *camera.Sight
	field  *lettering.Field
	index  []int32 // seat of the stands by field seat
}

var letterCard = camera.Card{Width: 11 * seating.Inch, Height: 8*seating.Inch + seating.Inch/2, Held: camera.Eyes}

func look(tb testing.TB, name string, spec seating.Spec, m camera.Mark) *place {
	tb.Helper()
	return lookAt(tb, name, spec, m, letterCard)
}

func lookAt(tb testing.TB, name string, spec seating.Spec, m camera.Mark, card camera.Card) *place {
	tb.Helper()
	stands, err := seating.Build(spec)
	if err != nil {
		tb.Fatal(err)
	}
	p := &place{name: name, stands: stands, scene: &camera.Scene{Stands: stands, Card: card}}
	p.view, err = camera.NewView(m, p.scene)
	if err != nil {
		tb.Fatal(err)
	}
	p.sight = p.scene.See(p.view)
	cells := camera.Cells(stands, p.view, p.sight)
	columns := camera.Columns(stands, p.view)
	p.field = &lettering.Field{Width: float64(p.view.Width), Height: float64(p.view.Height)}
	for i := range stands.Seats {
		s := &stands.Seats[i]
		if s.Use != seating.UseCard || stands.Sections[s.Section].Spec.Kind == seating.Floor {
			continue
		}
		f := lettering.Seat{
			Index: int32(i), Section: s.Section, Row: s.Row, Place: s.Place,
			Centre: p.sight.Centre[i], Seen: float64(p.sight.Seen[i]), Pixels: float64(p.sight.Pixels[i]), Column: columns[i],
		}
		for k := range 4 {
			f.Cell[k], f.Card[k] = cells[i][k], p.sight.Corners[i][k]
		}
		p.field.Seats = append(p.field.Seats, f)
		p.index = append(p.index, int32(i))
	}
	return p
}

func mark(across, back, height float64) camera.Mark {
	m := func(v float64) seating.Length { return seating.Length(v * float64(seating.Metre)) }
	return camera.Mark{Name: "camera", Across: m(across), Back: m(back), Height: m(height), Picture: [2]int{1920, 1080}, Lens: camera.Lens{FieldOfView: 65}}
}

func options() lettering.Options {
	return lettering.Options{
		Empty: 0.08, Wrong: 0.01,
		HandHeight: 0.04, HandSideways: 0.02, HandTilt: 8 * 3.14159 / 180,
		CardWidth: letterCard.Width.Metres(), CardHeight: letterCard.Height.Metres(), Seed: 1,
		Crowd: crowdOf(crowds[0], night, gold),
	}
}

// planFile writes what the outside program needs to draw a layout.
func (p *place) planFile(tb testing.TB, path string, ink []bool) {
	tb.Helper()
	type seat struct {
		Section  int32         `json:"section"`
		Row      int32         `json:"row"`
		Use      string        `json:"use"`
		Position seating.Point `json:"position"`
		Card     any           `json:"card"`
		Corners  any           `json:"corners,omitempty"`
	}
	seats := make([]seat, len(p.stands.Seats))
	colours := make([]int, len(seats))
	for i := range seats {
		s := &p.stands.Seats[i]
		seats[i] = seat{s.Section, s.Row, s.Use.String(), s.Position, nil, nil}
		if q, ok := p.scene.CardQuad(i); ok {
			seats[i].Card, seats[i].Corners = q, p.sight.Corners[i]
		}
		colours[i] = -1
	}
	for k, on := range ink {
		colours[p.index[k]] = 0
		if on {
			colours[p.index[k]] = 1
		}
	}
	plan := map[string]any{
		"version": 1, "picture": [2]int{p.view.Width, p.view.Height},
		"camera":  map[string]any{"position": p.view.Position, "rotation": p.view.Rotation, "focal_px": p.view.Focal, "center": p.view.Center},
		"palette": []map[string]string{{"name": "night", "hex": night.Hex()}, {"name": "gold", "hex": gold.Hex()}},
		"seats":   seats, "cues": []map[string]any{{"colours": colours}},
	}
	data, err := json.Marshal(plan)
	if err == nil {
		err = os.WriteFile(path, data, 0o644)
	}
	if err != nil {
		tb.Fatal(err)
	}
}

// cardPixels is the median width of a card in the picture.
func (p *place) cardPixels() float64 {
	s := p.field.Seats[len(p.field.Seats)/2]
	return s.Card[1][0] - s.Card[0][0]
}

// sizes are the mean width in seats of a layout's letters, I and signs apart, and its rows.
func sizes(l *lettering.Layout) (seats float64, rows int) {
	n := 0.0
	rows = 1 << 30
	for _, t := range l.Letters {
		rows = min(rows, t.Rows)
		seats += t.Seats
		n++
	}
	return seats / n, rows
}

func (p *place) String() string { return fmt.Sprintf("%s (%d seats)", p.name, len(p.field.Seats)) }
