package mosaic

import (
	"testing"

	"everyseat/seating"
)

// Who is painted without a card at every cue, and who stands before shirts, holds none and is not
// counted among those who do; the sum of people stays.
func TestPeopleWithoutACard(t *testing.T) {
	s := gullhaven()
	whole := mustMake(t, s).CountAll()
	s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 3}}}
	p := mustMake(t, s)
	all := p.CountAll()
	if all.Cards != whole.Cards-3 || all.Persons != whole.Persons+3 || all.People() != whole.People() {
		t.Errorf("%+v, before %+v", all, whole)
	}
	if row := p.CountRow(0, 0); row.Cards != 9 || row.Persons != 3 {
		t.Errorf("row 1: %+v", row)
	}
	s.Cues = append(s.Cues, Cue{Text: "GO"}) // at another cue they hold one
	if got := mustMake(t, s).CountAll(); got != whole {
		t.Errorf("with a second cue %+v", got)
	}
	s = gullhaven()
	s.Cues[0].Ground = Shirts
	ink := 0
	p = mustMake(t, s)
	for _, c := range p.Cues[0].Colours {
		if c != None {
			ink++
		}
	}
	if got := p.CountAll().Cards; got != ink || ink == 0 || ink == whole.Cards {
		t.Errorf("before shirts %d of %d hold a card, and %d are ink", got, whole.Cards, ink)
	}
}
