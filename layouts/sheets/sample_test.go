package sheets

import (
	"context"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
)

// sample says what stands and cards a test plan has. Its colours follow a
// rule of the seat's own numbers, so that a test can tell what any seat shows.
type sample struct {
	sections       []string
	rows, seats    int
	cues           int
	colours        []string
	bonded         bool
	plain          bool // no missing and no reserved seats
	fromRight      bool // seats are numbered from the right
	lay            laying.Spec
	paper          string
	perSheet       int
	title, cueName string
	card           [2]seating.Length // as it is held; none = Letter on its side
	hue            func(cue, section, row, place int) int
}

var sampleColours = []colour.RGB{
	{0x14, 0x2a, 0x5c}, {0xff, 0xf3, 0xd6}, {0xd9, 0x2b, 0x2b}, {0xf2, 0xb7, 0x05}, {0x1c, 0x7c, 0x54}, {0x6a, 0x3d, 0x9a},
	{0x80, 0x80, 0x80}, {0x00, 0x00, 0x00}, {0xff, 0xff, 0xff}, {0xf0, 0x7c, 0x2a}, {0x8a, 0x5a, 0x33}, {0x9f, 0xd3, 0xe6},
}

// plan builds the plan: real stands and laying order, colours and hands by the rule.
func (s sample) plan(t testing.TB) *mosaic.Plan {
	t.Helper()
	spec := seating.Spec{}
	for k, name := range s.sections {
		sec := seating.SectionSpec{
			Name: name, Kind: seating.Bench, Rows: s.rows, Seats: []int{s.seats}, Pitch: 20 * seating.Inch,
			Rise: 10 * seating.Inch, Run: 24 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		}
		if s.fromRight {
			sec.SeatNumbers.From = seating.Right
		}
		if !s.plain && k == 0 && s.rows > 2 && s.seats > 6 {
			sec.Missing = []seating.SeatRange{{Row: "2", From: 4, To: 5}}
			sec.Reserved = []seating.Reserved{
				{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 1}}, For: "wheelchair"},
				{Seats: []seating.SeatRange{{Row: "3", From: s.seats, To: s.seats}}, For: "rail"},
			}
		}
		spec.Sections = append(spec.Sections, sec)
	}
	stands, err := seating.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	if s.card[0] == 0 {
		s.card = [2]seating.Length{11 * seating.Inch, 17 * seating.Inch / 2}
	}
	if s.perSheet == 0 {
		s.perSheet = 4
	}
	names := s.colours
	if names == nil {
		names = []string{"Navy", "Cream", "Scarlet"}
	}
	st := &mosaic.Stunt{Title: s.title, Stands: spec, Laying: s.lay, Card: mosaic.CardSpec{Held: camera.Eyes, Width: s.card[0], Height: s.card[1]}, Print: mosaic.Print{Paper: s.paper, PerSheet: s.perSheet}}
	for i, n := range names {
		st.Colours = append(st.Colours, mosaic.Colour{Name: n, RGB: sampleColours[i%len(sampleColours)]})
	}
	p := &mosaic.Plan{Stunt: st, Stands: stands, Order: laying.Order(stands, s.lay), Blocks: make([]string, len(stands.Seats))}
	s.handOut(p)
	return p
}

// handOut gives single sheets, or with bonded cards of two colours each.
func (s sample) handOut(p *mosaic.Plan) {
	n := len(p.Stunt.Colours)
	hue := s.hue
	if hue == nil {
		hue = func(cue, section, row, place int) int { return (place/3 + row/2 + cue + section) % n }
	}
	for i := range n {
		if c := p.Stunt.Colours[i].Name; s.bonded {
			o := (i + 1) % n
			p.Cards = append(p.Cards, mosaic.Card{ID: c + "/" + p.Stunt.Colours[o].Name, Sides: [2]int16{int16(i), int16(o)}})
		} else {
			p.Cards = append(p.Cards, mosaic.Card{ID: c, Sides: [2]int16{int16(i), int16(i)}})
		}
	}
	for cue := range max(s.cues, 1) {
		c := mosaic.CuePlan{Name: s.cueName, Colours: make([]int16, len(p.Stands.Seats))}
		hands := make([]mosaic.Hold, len(p.Stands.Seats))
		for i, seat := range p.Stands.Seats {
			c.Colours[i], hands[i] = mosaic.None, mosaic.Hold{Card: -1}
			if seat.Use != seating.UseCard {
				continue
			}
			h := hue(cue, int(seat.Section), int(seat.Row), int(seat.Place))
			if h < 0 {
				continue
			}
			c.Colours[i], hands[i] = int16(h), mosaic.Hold{Card: int16(h)}
			if s.bonded && cue%2 == 1 {
				hands[i] = mosaic.Hold{Card: int16((h + n - 1) % n), Side: 1}
			}
		}
		p.Cues = append(p.Cues, c)
		p.Stunt.Cues = append(p.Stunt.Cues, mosaic.Cue{Name: s.cueName, Text: "GLOW"})
		p.Hands = append(p.Hands, hands)
	}
}

// told is what is told of a plan.
func told(p *mosaic.Plan) *brief.Brief { return brief.Of(p, outlookOf(p), nil) }

// outlookOf is a plan's outlook as far as sheets show it.
func outlookOf(p *mosaic.Plan) *outlook.Outlook {
	const parts = outlook.Fewer | outlook.Unwanted | outlook.Stray | outlook.Rows | outlook.Light | outlook.Ways
	o, err := outlook.Of(context.Background(), p, parts, func(string) {})
	if err != nil {
		panic(err) // nobody stops it
	}
	return o
}
