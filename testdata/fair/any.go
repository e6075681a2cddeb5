package fair

import (
	"pgregory.net/rapid"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Any draws stands, marks and cues of all sorts; many cannot be planned.
func Any(t *rapid.T) *mosaic.Stunt {
	length := func(name string, from, to int) seating.Length {
		return seating.Length(rapid.IntRange(from, to).Draw(t, name)) * seating.Centimetre
	}
	pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	s := Stunt()
	s.Stands.Sections = nil
	for i := range rapid.IntRange(1, 4).Draw(t, "sections") {
		sec := Bleachers(string(rune('A' + i)))
		sec.Rows = rapid.IntRange(4, 14).Draw(t, "rows")
		sec.Seats = []int{rapid.IntRange(6, 20).Draw(t, "seats")}
		if sec.Kind = seating.Kind(rapid.IntRange(0, 2).Draw(t, "kind")); sec.Kind == seating.Floor {
			sec.Rise, sec.FirstRow, sec.SeatBoard = 0, 0, 0
		}
		sec.NoCards = rapid.IntRange(0, 4).Draw(t, "no cards") == 0
		if rapid.Bool().Draw(t, "placed") { // in places of their own, so that few overlap
			sec.Place = &seating.Place{
				Across: seating.Length(i-2)*20*seating.Metre + length("across", -300, 300),
				Away:   length("away", -300, 1500),
				Facing: float64(rapid.IntRange(-9, 9).Draw(t, "facing") * 10),
			}
		}
		s.Stands.Sections = append(s.Stands.Sections, sec)
	}
	mark := func() camera.Mark {
		return camera.Mark{
			Across: length("mark across", -1500, 1500), Back: length("mark back", 300, 4000),
			Height: length("mark height", 120, 900), Picture: [2]int{640, 360},
			Lens: camera.Lens{FieldOfView: float64(rapid.IntRange(10, 110).Draw(t, "field of view"))},
		}
	}
	s.Camera = mark()
	for range rapid.IntRange(0, 1).Draw(t, "marks") {
		s.Marks = append(s.Marks, mark())
	}
	s.Card.Held = camera.Held(rapid.IntRange(0, 4).Draw(t, "held"))
	for c := range s.Colours {
		if rapid.IntRange(0, 3).Draw(t, "limited") == 0 {
			s.Colours[c].Sheets = rapid.IntRange(0, 900).Draw(t, "sheets")
		}
	}
	s.Card.Kind = mosaic.CardKind(pick("kind of card", "", "sheet", "bonded", "printed"))
	s.Card.ToMark = rapid.Bool().Draw(t, "to mark")
	s.Cues = nil
	for range rapid.IntRange(1, 3).Draw(t, "cues") {
		c := mosaic.Cue{Ground: pick("ground", "navy", "gold", mosaic.Shirts), Ink: "white"}
		if rapid.Bool().Draw(t, "image") {
			c.Image, c.ImageName = Halves(s.Colours[1].RGB, s.Colours[2].RGB), "halves.png"
			c.Fit = pick("fit", "", "fit", "fill", "flat")
		} else {
			c.Text = pick("text", "A", "HI", "MOON", "7", "GO\nON", "É!", "SAIL")
			c.Fit = pick("fit", "", "camera", "flat")
		}
		if rapid.IntRange(0, 3).Draw(t, "named") == 0 {
			c.On = []string{"A"}
		}
		if rapid.IntRange(0, 3).Draw(t, "some rows") == 0 {
			c.Rows = []seating.RowRange{{
				Section: pick("section of rows", "", "A", "F"),
				From:    pick("first row", "", "2", "1"), To: pick("last row", "", "3", "7"),
			}}
		}
		s.Cues = append(s.Cues, c)
	}
	return s
}
