package mosaic

import (
	"errors"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// anyStunt draws stands, marks and cues of all sorts; many cannot be planned.
func anyStunt(t *rapid.T) *Stunt {
	length := func(name string, from, to int) seating.Length {
		return seating.Length(rapid.IntRange(from, to).Draw(t, name)) * seating.Centimetre
	}
	pick := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	s := gullhaven()
	s.Stands.Sections = nil
	for i := range rapid.IntRange(1, 4).Draw(t, "sections") {
		sec := bleachers(string(rune('A' + i)))
		sec.Rows = rapid.IntRange(4, 14).Draw(t, "rows")
		sec.Seats = []int{rapid.IntRange(6, 20).Draw(t, "seats")}
		if sec.Kind = seating.Kind(rapid.IntRange(0, 2).Draw(t, "kind")); sec.Kind == seating.Floor {
			sec.Rise, sec.FirstRow, sec.SeatBoard = 0, 0, 0
		}
		sec.NoCards = rapid.IntRange(0, 4).Draw(t, "no cards") == 0
		if rapid.Bool().Draw(t, "placed") { // in places of their own, so that few overlap
			sec.Place = &seating.Place{
				Across: seating.Length(i-2)*20*seating.Metre + length("across", -300, 300), Away: length("away", -300, 1500),
				Facing: float64(rapid.IntRange(-9, 9).Draw(t, "facing") * 10),
			}
		}
		s.Stands.Sections = append(s.Stands.Sections, sec)
	}
	mark := func() camera.Mark {
		return camera.Mark{
			Across: length("mark across", -1500, 1500), Back: length("mark back", 300, 4000), Height: length("mark height", 120, 900),
			Picture: [2]int{640, 360}, Lens: camera.Lens{FieldOfView: float64(rapid.IntRange(10, 110).Draw(t, "field of view"))},
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
	s.Card.Kind = CardKind(pick("kind of card", "", "sheet", "bonded", "printed"))
	s.Card.ToMark = rapid.Bool().Draw(t, "to mark")
	s.Cues = nil
	for range rapid.IntRange(1, 3).Draw(t, "cues") {
		c := Cue{Ground: pick("ground", "navy", "gold", Shirts), Ink: "white"}
		if rapid.Bool().Draw(t, "image") {
			c.Image, c.ImageName = halves(s.Colours[1].RGB, s.Colours[2].RGB), "halves.png"
			c.Fit = pick("fit", "", "fit", "fill", "flat")
		} else {
			c.Text, c.Fit = pick("text", "A", "HI", "MOON", "7", "GO\nON", "É!", "SAIL"), pick("fit", "", "camera", "flat")
		}
		if rapid.IntRange(0, 3).Draw(t, "named") == 0 {
			c.On = []string{"A"}
		}
		if rapid.IntRange(0, 3).Draw(t, "some rows") == 0 {
			c.Rows = []seating.RowRange{{Section: pick("section of rows", "", "A", "F"), From: pick("first row", "", "2", "1"), To: pick("last row", "", "3", "7")}}
		}
		s.Cues = append(s.Cues, c)
	}
	return s
}

// Whatever is asked for, there is a plan in which everything adds up, or one clear line.
func TestMakeAnything(t *testing.T) {
	made, refused := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		p, err := Make(anyStunt(r))
		if err != nil {
			var f *seating.Fault
			if !errors.As(err, &f) || f.Key == "" || f.What == "" || strings.Contains(f.Error(), "\n") {
				r.Fatalf("no plain fault with its key: %v", err)
			}
			refused++
			return
		}
		made++
		checkLedger(r, p)
		checkStock(r, p)
		for _, s := range p.Sentences() {
			if strings.Contains(s.Text, "NaN") || strings.Contains(s.Text, "%!") || !strings.HasSuffix(s.Text, ".") {
				r.Errorf("%s: %q", s.About, s.Text)
			}
		}
	})
	t.Logf("%d made, %d refused", made, refused)
	if made < 10 {
		t.Errorf("only %d stunts could be planned", made)
	}
}
