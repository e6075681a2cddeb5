package pictures

import (
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// glyphs are letters of five by seven, drawn by hand for these tests.
var glyphs = map[rune][7]string{
	'L': {"#....", "#....", "#....", "#....", "#....", "#....", "#####"},
	'F': {"#####", "#....", "#....", "####.", "#....", "#....", "#...."},
	'O': {".###.", "#...#", "#...#", "#...#", "#...#", "#...#", ".###."},
	'G': {".###.", "#...#", "#....", "#.###", "#...#", "#...#", ".###."},
	'W': {"#...#", "#...#", "#...#", "#.#.#", "#.#.#", "##.##", "#...#"},
}

const inch = seating.Inch

// hall is three sections of bleachers, with a block of people on the floor when asked.
func hall(floor bool) seating.Spec {
	bleacher := func(name string, seats int) seating.SectionSpec {
		return seating.SectionSpec{
			Name: name, Kind: seating.Bench, Rows: 12, Seats: []int{seats}, Pitch: 20 * inch,
			Rise: 9*inch + 5*inch/8, Run: 24 * inch, FirstRow: 10 * inch, SeatBoard: 17 * inch, Aisle: 48 * inch,
		}
	}
	s := seating.Spec{Sections: []seating.SectionSpec{bleacher("A", 12), bleacher("B", 14), bleacher("C", 12)}, Expected: 0.88}
	s.Sections[0].Reserved = []seating.Reserved{
		{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 2}}, For: "wheelchair"},
		{Seats: []seating.SeatRange{{Row: "1", From: 3, To: 3}}, For: "companion"},
	}
	s.Sections[1].Missing = []seating.SeatRange{{Row: "12", From: 1, To: 3}}
	s.Sections[2].Reserved = []seating.Reserved{{Seats: []seating.SeatRange{{Row: "6", From: 11, To: 12}}, For: "platform"}}
	if floor {
		s.Sections = append(s.Sections, seating.SectionSpec{
			Name: "Floor", Kind: seating.Floor, Rows: 15, Seats: []int{30}, Pitch: 20 * inch, Run: 26 * inch, NoCards: true,
			Place: &seating.Place{Away: -(12*seating.Metre + 2*seating.Metre/10)},
		})
		s.Lanes = []seating.Lane{{Name: "cross", Left: -9 * seating.Metre, Right: 9 * seating.Metre, Near: -19 * seating.Metre / 10, Far: -5 * seating.Metre / 10}}
	}
	return s
}

var testColours = []mosaic.Colour{
	{Name: "Navy", RGB: [3]uint8{0x1f, 0x2f, 0x5f}, Sheets: -1},
	{Name: "White", RGB: [3]uint8{0xf7, 0xf7, 0xf2}, Sheets: -1},
	{Name: "Gold", RGB: [3]uint8{0xf2, 0xb6, 0x1e}, Sheets: -1},
}

// painted makes a plan by hand: letters of whole seats on every section but those on the floor.
func painted(tb testing.TB, spec seating.Spec, text string, mark camera.Mark) *mosaic.Plan {
	tb.Helper()
	stands, err := seating.Build(spec)
	if err != nil {
		tb.Fatal(err)
	}
	stunt := &mosaic.Stunt{
		Title: "Lantern Fair of Gullhaven", Date: "12 June 2027", Stands: spec, Camera: mark, Colours: testColours,
		Card: mosaic.CardSpec{
			Width: 11 * inch, Height: 17 * inch / 2, Held: camera.Eyes, Kind: mosaic.Sheet,
			HandHeight: 4 * seating.Centimetre, HandSideways: 2 * seating.Centimetre, HandTilt: 8,
		},
	}
	scene := &camera.Scene{Stands: stands, Card: camera.Card{Width: stunt.Card.Width, Height: stunt.Card.Height, Held: stunt.Card.Held}}
	view, err := camera.NewView(mark, scene)
	if err != nil {
		tb.Fatal(err)
	}
	p := &mosaic.Plan{Stunt: stunt, Stands: stands, Scene: scene, Marks: []mosaic.Mark{{View: view, Sight: scene.See(view)}}}
	p.Cues = []mosaic.CuePlan{{Name: text, Colours: paintText(stands, text)}}
	return p
}

// told is a plan's brief as far as maps show it.
func told(p *mosaic.Plan) *brief.Brief { return &brief.Brief{Plan: p, Code: "K7QX-2M4P"} }

// paintText gives each seat ink (1) or ground (0): the letters side by side over
// the straight sections' width, as the camera sees them.
func paintText(s *seating.Stands, text string) []int16 {
	colours := make([]int16, len(s.Seats))
	left, right, top := 0.0, 0.0, 0
	for i := range s.Seats {
		left, right = min(left, s.Seats[i].Position[0]), max(right, s.Seats[i].Position[0])
		if s.Seats[i].Use == seating.UseCard {
			top = max(top, int(s.Seats[i].Row))
		}
	}
	letters := strings.Split(text, "")
	wide := (right - left + 0.5) / float64(len(letters))
	for i := range s.Seats {
		colours[i] = mosaic.None
		seat := &s.Seats[i]
		if seat.Use != seating.UseCard {
			continue
		}
		colours[i] = 0
		at := (seat.Position[0] - left + 0.25) / wide
		letter := min(int(at), len(letters)-1)
		column := int((at-float64(letter))*8 - 1)
		row := 7 - 1 - int(float64(seat.Row)*7/float64(top+1))
		if column < 0 || column > 4 || (at-float64(letter))*8 < 1 {
			continue
		}
		if glyphs[[]rune(letters[letter])[0]][row][column] == '#' {
			colours[i] = 1
		}
		if seat.For != "" {
			colours[i] = 2
		}
	}
	return colours
}

func testMark() camera.Mark {
	return camera.Mark{Name: "camera", Back: 16 * seating.Metre, Height: 3 * seating.Metre, Picture: [2]int{3840, 2160}, Lens: camera.Lens{FieldOfView: 65}}
}

// smallMark is testMark with a small picture, for tests that look at whole pictures often.
func smallMark() camera.Mark {
	m := testMark()
	m.Picture = [2]int{1280, 720}
	return m
}

// mirrored is the plan as a crew lays it that mixes up left and right: in every
// row the colours run the other way.
func mirrored(p *mosaic.Plan) *mosaic.Plan {
	out := *p
	out.Cues = append([]mosaic.CuePlan(nil), p.Cues...)
	for c := range out.Cues {
		old := p.Cues[c].Colours
		colours := append([]int16(nil), old...)
		for i := range p.Stands.Seats {
			x := -p.Stands.Seats[i].Position[0]
			best, at := 1e9, i
			for k := range p.Stands.Seats {
				if p.Stands.Seats[k].Row == p.Stands.Seats[i].Row && p.Stands.Seats[k].Use == p.Stands.Seats[i].Use {
					if d := p.Stands.Seats[k].Position[0] - x; d*d < best {
						best, at = d*d, k
					}
				}
			}
			colours[i] = old[at]
		}
		out.Cues[c].Colours = colours
	}
	return &out
}
