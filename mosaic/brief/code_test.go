package brief

import (
	"regexp"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/testdata/fair"
)

// What seats show or get changes the first half of the code, anything else that a sheet shows the second one, and
// nothing else does.
func TestCode(t *testing.T) {
	const (
		first  = "seats show or get something else"
		second = "every seat shows and gets the same, but something else on the paper has changed"
	)
	of := func(change func(*mosaic.Stunt)) Code {
		s := fair.Crowded()
		change(s)
		p := fair.Plan(t, s)
		o, err := outlook.Of(t.Context(), p, ofSentences, func(string) {})
		if err != nil {
			t.Fatal(err)
		}
		return Of(p, o, nil).Code
	}
	plain := of(func(*mosaic.Stunt) {})
	codes := map[Code]string{plain: "the stunt"}
	signs := regexp.MustCompile(`^[2-9A-HJKMNP-Z]{4}-[2-9A-HJKMNP-Z]{4}$`)
	for _, c := range []struct {
		name    string
		differs string
		change  func(*mosaic.Stunt)
	}{
		{"another seat painted", first, func(s *mosaic.Stunt) { s.Cues[0].Painted[0].Seats.To = 9 }},
		{"a seat less", first, func(s *mosaic.Stunt) {
			s.Stands.Sections[2].Missing = []seating.SeatRange{{Row: "12", From: 12, To: 12}}
		}},
		{"a section renamed", first, func(s *mosaic.Stunt) { s.Stands.Sections[2].Name, s.Cues[0].Painted[0].Section = "D", "D" }},
		{"seats numbered from the other side", first, func(s *mosaic.Stunt) { s.Stands.Sections[2].SeatNumbers.From = seating.Right }},
		{"another shade", first, func(s *mosaic.Stunt) { s.Colours[0].RGB[2]++ }},
		{"another colour name", first, func(s *mosaic.Stunt) { s.Colours[2].Name = "golden"; s.Cues[0].Painted[0].Colour = "golden" }},
		{"serpentine", first, func(s *mosaic.Stunt) { s.Laying.Serpentine = true }},
		{"cues swapped", first, func(s *mosaic.Stunt) { s.Cues[0], s.Cues[1] = s.Cues[1], s.Cues[0] }},
		{"a cue at a count", first, func(s *mosaic.Stunt) { s.Cues[1].At = "16" }},
		{"A4 paper and card", first, func(s *mosaic.Stunt) { s.Print.Paper = "A4" }},
		{"another title", second, func(s *mosaic.Stunt) { s.Title += "!" }},
		{"another date", second, func(s *mosaic.Stunt) { s.Date = "26 Nov" }},
		{"another helper", second, func(s *mosaic.Stunt) { s.Laying.Helpers = 9 }},
		{"the camera a millimetre aside", second, func(s *mosaic.Stunt) { s.Camera.Across = seating.Millimetre }},
		{"two to a sheet", second, func(s *mosaic.Stunt) { s.Print.PerSheet = 2 }},
		{"on coloured stock", second, func(s *mosaic.Stunt) { s.Print.Placards = mosaic.OnStock }},
		{"cut as a pile", second, func(s *mosaic.Stunt) { s.Print.WholePile = true }},
		{"turned over the short edge", second, func(s *mosaic.Stunt) { s.Print.ShortEdge = true }},
		{"a wider margin", second, func(s *mosaic.Stunt) { s.Print.Margin = 9 * seating.Millimetre }},
		{"stick-on labels", second, func(s *mosaic.Stunt) { s.Print.Grid = &mosaic.LabelGrid{Columns: 2, Rows: 5} }},
		{"passed", second, func(s *mosaic.Stunt) { s.Laying.Pass = true }},
		{"cards turned to the mark, and the picture laid anew", first, func(s *mosaic.Stunt) { s.Card.ToMark = true }},
		{"prices", second, func(s *mosaic.Stunt) { s.Colours[0].PriceCents, s.Colours[0].Pack = 1200, 50 }},
	} {
		got := of(c.change)
		if other, taken := codes[got]; taken {
			t.Errorf("%s has the code of %s", c.name, other)
		}
		codes[got] = c.name
		if !signs.MatchString(string(got)) {
			t.Errorf("%s: code %q", c.name, got)
		}
		if d, lie := got.Differs(string(plain)); d != c.differs || lie != (d != first) {
			t.Errorf("%s: %s and %s differ so: %q", c.name, plain, got, d)
		}
	}
	same := of(func(s *mosaic.Stunt) {
		s.Cues[1].ImageName = "another name of the same file.png"
		s.Print.Tile = true // no card is larger than the paper
	})
	if how, lie := same.Differs(string(plain)); same != plain || how != "" || !lie {
		t.Errorf("what no sheet shows changes the code: %s and %s", plain, same)
	}
	if d, lie := plain.Differs("K7QM2X9D"); d != first || lie { // as codes were once
		t.Errorf("a code of one half differs so: %q", d)
	}
}
