package mosaic

import (
	"strings"
	"testing"

	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// Worked by hand: Letter leaves 215.9 − 2·(5+4) = 197.9 mm and 261.4 mm for a piece. 22 in is 558.8 mm and takes, with laps
// of 15 mm, 3 pieces of 261.4 mm ((558.8−15)/246.4 = 2.2) or of 197.9 mm (2.97); 17 in is 431.8 mm, 2 of 261.4 mm (1.69) or 3
// of 197.9 mm (2.28).
// Settings that do nothing, or leave the cards to somebody else, are said.
func TestIdleSettingsAreSaid(t *testing.T) {
	for want, spoil := range map[string]func(*Stunt){
		"tile = true changes nothing":                      func(s *Stunt) { s.Print.Tile = true },
		"The cards are printed, and no sheet prints them:": func(s *Stunt) { s.Card.Kind = Printed },
	} {
		s := gullhaven()
		if said := strings.Join(mustMake(t, s).Warnings, " "); strings.Contains(said, want) {
			t.Errorf("said without reason: %q", said)
		}
		spoil(s)
		if said := strings.Join(mustMake(t, s).Warnings, " "); !strings.Contains(said, want) {
			t.Errorf("%q is not in %q", want, said)
		}
	}
}

func TestTilesByHand(t *testing.T) {
	letter := PaperSizes[0]
	for _, c := range []struct {
		width, height seating.Length
		want          Tiles
	}{
		{22 * seating.Inch, 17 * seating.Inch, Tiles{3, 2, false}},
		{17 * seating.Inch, 22 * seating.Inch, Tiles{2, 3, true}},
		{7 * seating.Inch, 9 * seating.Inch, Tiles{1, 1, false}},
		{2000 * seating.Metre, seating.Inch, Tiles{}},
	} {
		got := TilesOf(c.width, c.height, letter, UsualMargin)
		if got.Count() == 0 {
			got = Tiles{}
		}
		if got != c.want {
			t.Errorf("%v × %v: %+v, want %+v", c.width, c.height, got, c.want)
		}
	}
}

// A card of six sheets costs six times the sheets, and the stock makes a sixth of the cards; what labels on whole sheets
// would cost is as it was.
func TestBillCountsTiles(t *testing.T) {
	with := func(tile bool, sheets int) (*Plan, error) {
		s := gullhaven()
		s.Card.Width, s.Card.Height = 22*seating.Inch, 17*seating.Inch
		s.Card.Orientation = "landscape"
		s.Card.Kind = Sheet
		s.Colours[1].Sheets = sheets
		s.Print.Tile, s.Print.Placards = tile, Labels
		if tile {
			s.Print.Placards = OnStock
		}
		return Make(s)
	}
	whole, err := with(false, -1)
	if err != nil {
		t.Fatal(err)
	}
	tiled, err := with(true, -1)
	if err != nil {
		t.Fatal(err)
	}
	if n := tiled.SheetsPerCard(); n != 6 || whole.SheetsPerCard() != 1 {
		t.Fatalf("%d sheets a card, and %d", n, whole.SheetsPerCard())
	}
	for i, l := range tiled.Bill.Lines {
		if w := whole.Bill.Lines[i]; l.Cards != 6*w.Cards || l.Spares != 6*w.Spares || l.Packs != 6*w.Packs {
			t.Errorf("line %d: %+v for tiled cards, %+v for whole ones", i, l, w)
		}
	}
	if tiled.Bill.Cards != whole.Bill.Cards || tiled.Bill.Minutes <= whole.Bill.Minutes {
		t.Error("the cards are others, or putting them together takes no time")
	}
	need := tiled.Bill.Lines[1].Sheets()
	if _, err := with(true, need); err != nil {
		t.Errorf("stock that suffices: %v", err)
	}
	short, err := with(true, need-12)
	if err != nil {
		t.Fatal(err)
	}
	used := short.Bill.Lines[1].Sheets()
	if used > need-12 || used%6 != 0 {
		t.Errorf("%d sheets are used of %d", used, need-12)
	}
}

// Every way of making counts several sheets a card in the same way.
func TestBuySeveralSheetsACard(t *testing.T) {
	supplies := []stock.Supply{{Name: "a", Stock: stock.Unlimited}, {Name: "b", Stock: stock.Unlimited}}
	piles := []stock.Pile{{Sides: [2]int16{0, 0}, Count: 40}, {Sides: [2]int16{1, 1}, Count: 30}}
	for _, making := range []stock.Making{stock.Sheet, stock.Bonded, stock.Printed} {
		one, err := stock.Buy(making, piles, supplies, stock.DefaultWork())
		if err != nil {
			t.Fatal(err)
		}
		work := stock.DefaultWork()
		work.SheetsPerCard = 4
		four, err := stock.Buy(making, piles, supplies, work)
		if err != nil {
			t.Fatal(err)
		}
		if four.Sheets != 4*one.Sheets || four.Toner != 4*one.Toner || four.Cards != one.Cards {
			t.Errorf("%s: %d sheets and %d sides for %d and %d", making, four.Sheets, four.Toner, one.Sheets, one.Toner)
		}
	}
}
