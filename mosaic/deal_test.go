package mosaic

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/stock"
	"everyseat/seating"
)

// checkStock holds what is true of every plan: cards in hands and spares never exceed a stock that is limited, and
// spares are only missing where all of it is used.
func checkStock(t ledger, p *Plan) {
	t.Helper()
	kept := make([]int, len(p.Stunt.Colours))
	for _, section := range p.SpareTally() {
		for c, n := range section {
			kept[c] += n
		}
	}
	for c, k := range p.Stunt.Colours {
		if !k.Limited() || p.Stunt.Card.Kind == Printed {
			continue
		}
		shown, wanted := 0, 0
		for i := range p.Stands.Sections {
			sec, n := &p.Stands.Sections[i], 0
			for s := sec.First; s < sec.Last; s++ {
				if slices.ContainsFunc(p.Cues, func(q CuePlan) bool { return q.Colours[s] == int16(c) }) {
					n++
				}
			}
			shown, wanted = shown+n, wanted+stock.Spares(n)
		}
		if used := shown + kept[c]; used > p.cardsIn(&k) {
			t.Errorf("%d cards of %s are used with spares, and there are %d", used, k.Name, p.cardsIn(&k))
		}
		for _, l := range p.Bill.Lines {
			if l.Colour == c && kept[c] < wanted && l.Sheets()/p.SheetsPerCard() != p.cardsIn(&k) {
				t.Errorf("%d spares of %s, not %d, and %d sheets of %d are used", kept[c], k.Name, wanted, l.Sheets(), k.Sheets)
			}
		}
	}
}

func count(p *Plan, cue int, c int16) int {
	n := 0
	for _, got := range p.Cues[cue].Colours {
		if got == c {
			n++
		}
	}
	return n
}

// With plenty of everything, and with a stock that just suffices, the plan is the same.
func TestStockThatSuffices(t *testing.T) {
	free := mustMake(t, gullhaven())
	s := gullhaven()
	for _, l := range free.Bill.Lines {
		s.Colours[l.Colour].Sheets = l.Sheets()
	}
	tight := mustMake(t, s)
	checkStock(t, tight)
	if !slices.Equal(free.Cues[0].Colours, tight.Cues[0].Colours) {
		t.Error("the colours differ, though the stock suffices")
	}
	if len(tight.Warnings) != len(free.Warnings) {
		t.Errorf("warnings %q", tight.Warnings)
	}
}

// One cue: the deal is the optimum of the transportation problem. No seat can be given
// another colour of which a sheet is left, and no two seats can swap, without more error. The letters are painted by
// hand, so that no score of a text is weighed.
func TestScarceStockIsDealtBest(t *testing.T) {
	free := mustMake(t, gullhaven())
	ink := count(free, 0, 1)
	s := gullhaven()
	s.Cues[0] = Cue{Ground: "navy"}
	for q, c := range free.Cues[0].Colours {
		if c == 1 {
			at := &free.Stands.Seats[q]
			sec, n := &free.Stands.Sections[at.Section], int(at.Number)
			one := seating.SeatRange{Row: sec.Rows[at.Row].Name, From: n, To: n}
			s.Cues[0].Painted = append(s.Cues[0].Painted, Paint{Section: sec.Name, Seats: one, Colour: "white"})
		}
	}
	s.Colours[0].Sheets = 270 // of navy, where some 300 are wanted
	p := mustMake(t, s)
	checkLedger(t, p)
	checkStock(t, p)
	if got := count(p, 0, 1) + count(p, 0, 2); got <= ink {
		t.Errorf("white and gold on %d seats, %d before navy was short", got, ink)
	}
	for q, c := range free.Cues[0].Colours {
		if c == 1 && p.Cues[0].Colours[q] != 1 {
			t.Errorf("%s is of a stroke and loses its colour", p.Stands.ID(q))
		}
	}
	var wants []stock.Want
	var seats []int
	for q, c := range free.Cues[0].Colours {
		if c != None {
			wants = append(wants, stock.Want{Colour: s.Colours[c].RGB.Linear(), Seen: float64(p.Marks[0].Sight.Seen[q]), Stroke: c == 1})
			seats = append(seats, q)
		}
	}
	cost := stock.Costs(wants, rgbs(s.Colours))
	colours := p.Cues[0].Colours
	for i := range seats {
		a := int(colours[seats[i]])
		for b := 1; b < 3; b++ { // unlimited
			if cost[3*i+b] < cost[3*i+a] {
				t.Fatalf("%s would be better off with %s", p.Stands.ID(seats[i]), s.Colours[b].Name)
			}
		}
		for j := range i {
			b := int(colours[seats[j]])
			if cost[3*i+b]+cost[3*j+a] < cost[3*i+a]+cost[3*j+b] {
				t.Fatalf("%s and %s should swap", p.Stands.ID(seats[i]), p.Stands.ID(seats[j]))
			}
		}
	}
	if w := strings.Join(p.Warnings, " "); !strings.Contains(w, "The stock of navy does not reach: ") {
		t.Errorf("warnings %q", w)
	}
	if f := p.Figures; f.Error == 0 || f.Error != f.LeastError {
		t.Errorf("one cue is exact: error %d, least %d", f.Error, f.LeastError)
	}
}

// Spares are given up before any seat shows another colour, and no further than need be; sheets in hand of a colour
// that is sold in packs are used up first, and never bound what is bought.
func TestSparesAreGivenUpFirst(t *testing.T) {
	free := mustMake(t, gullhaven())
	navy := free.Bill.Lines[0]
	for _, c := range []struct {
		sheets, pack  int
		noMore        bool
		spares, packs int
	}{
		{navy.Sheets(), 0, false, navy.Spares, 0},
		{navy.Sheets() - 1, 0, false, navy.Spares - 1, 0},
		{navy.Cards, 0, false, 0, 0},
		{navy.Cards, 100, true, 0, 0},
		{navy.Cards, 100, false, navy.Spares, 1},
		{10, 100, false, navy.Spares, 4},
		{navy.Sheets(), 100, false, navy.Spares, 0},
	} {
		s := gullhaven()
		s.Colours[0].Sheets, s.Colours[0].Pack, s.Colours[0].NoMore = c.sheets, c.pack, c.noMore
		p := mustMake(t, s)
		checkStock(t, p)
		if !slices.Equal(p.Cues[0].Colours, free.Cues[0].Colours) || p.Wanted != nil || len(p.Warnings) != len(free.Warnings) {
			t.Errorf("%+v: seats show other colours, or %q", c, p.Warnings)
		}
		if l := p.Bill.Lines[0]; l.Spares != c.spares || max(l.Packs, 0) != c.packs || l.Spares+l.Forgone != navy.Spares {
			t.Errorf("%+v: %+v", c, l)
		}
	}
	s := gullhaven()
	s.Colours[0].Sheets, s.Colours[0].Pack, s.Colours[0].NoMore = navy.Cards-1, 30, true
	p := mustMake(t, s)
	if want := []Lack{{0, 1 + navy.Spares}}; !slices.Equal(p.Lacking(), want) || p.Bill.Lines[0].Spares != 0 {
		t.Errorf("lacking %v, want %v; %+v", p.Lacking(), want, p.Bill.Lines[0])
	}
	if w := strings.Join(p.Warnings, " "); !strings.Contains(w, "1 seat shows another colour than planned") || !strings.Contains(w, "2 packs more of navy, spares counted in") {
		t.Errorf("warnings %q", w)
	}
}

// A colour of another section that has enough keeps all its seats.
func TestScarceStockLeavesOthersAlone(t *testing.T) {
	s := gullhaven()
	s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 12}, Colour: "gold"}}
	s.Colours[2].Sheets = 12
	s.Colours[0].Sheets = 270
	p := mustMake(t, s)
	checkStock(t, p)
	for q := 1; q <= 12; q++ {
		if got := shows(p, 0, seat(t, p, fmt.Sprintf("A-1-%d", q))); got != "gold" {
			t.Errorf("A-1-%d shows %s", q, got)
		}
	}
}

// Several cues share one stock.
func TestScarceStockOverCues(t *testing.T) {
	s := gullhaven()
	s.Cues = []Cue{{Text: "GLOW"}, {Text: "LAMP"}, {Text: "MOON"}}
	s.Colours[1].Sheets = 160
	p := mustMake(t, s)
	checkLedger(t, p)
	checkStock(t, p)
	if p.Stunt.Card.Kind != Bonded {
		t.Errorf("three cues are made as %s", p.Stunt.Card.Kind)
	}
	if w := strings.Join(p.Warnings, " "); !strings.Contains(w, " at “") || !strings.Contains(w, "no plan can have less than") || !strings.Contains(w, "The stock of white does not reach") {
		t.Errorf("warnings %q", w)
	}
}

func TestTooFewCards(t *testing.T) {
	s := gullhaven()
	navy := mustMake(t, s).Bill.Lines[0].Cards
	for c, n := range []int{220, 150, 20} {
		s.Colours[c].Sheets = n
	}
	_, err := Make(s)
	var f *seating.Fault
	if !errors.As(err, &f) {
		t.Fatalf("error %v", err)
	}
	if f.Key != "colour[0].sheets" || strings.Contains(f.Error(), "\n") {
		t.Errorf("%v", f)
	}
	// 390 sheets for 432 people.
	for _, want := range []string{"42 cards short", fmt.Sprintf("navy is wanted by %d people, and there are 220 sheets", navy)} {
		if !strings.Contains(f.What, want) {
			t.Errorf("%q is not in %q", want, f.What)
		}
	}
	for _, want := range []string{"write pack = …", "42 sheets more of navy", "another colour of which there are 42 sheets", `ground = "shirts"`, "cards = false in section A (144 cards)", "42 people fewer"} {
		if !strings.Contains(f.Hint, want) {
			t.Errorf("%q is not in %q", want, f.Hint)
		}
	}
	// What is offered fits.
	s.Cues[0].Ground, s.Cues[0].Ink = Shirts, "white"
	checkStock(t, mustMake(t, s))
	s = gullhaven()
	for c, n := range []int{220 + 42, 150, 20} {
		s.Colours[c].Sheets = n
	}
	checkStock(t, mustMake(t, s))
}

// Printed cards take white card, whatever coloured stock there is.
func TestPrintedTakesNoStock(t *testing.T) {
	s := gullhaven()
	s.Card.Kind = Printed
	s.Colours[0].Sheets = 10
	p := mustMake(t, s)
	b := p.Bill
	if len(b.Lines) != 1 || b.Lines[0].Colour != -1 || b.Toner == 0 {
		t.Errorf("the bill is %+v", b)
	}
}

// Two cues with sheets, three with bonded cards; and the hands show what the cue asks.
func TestKitsByCues(t *testing.T) {
	s := gullhaven()
	s.Cues = []Cue{{Text: "GLOW"}, {Text: "LAMP"}}
	p := mustMake(t, s)
	checkLedger(t, p)
	if p.Stunt.Card.Kind != Sheet || len(p.Cards) != 2 || p.Figures.Most != 2 {
		t.Errorf("%s, %v, %+v", p.Stunt.Card.Kind, p.Cards, p.Figures)
	}
	s.Cues = append(s.Cues, Cue{Text: "MOON"})
	p = mustMake(t, s)
	checkLedger(t, p)
	ids := map[string]bool{}
	for _, c := range p.Cards {
		ids[c.ID] = true
	}
	if !ids["WHITE/NAVY"] || !ids["NAVY"] || p.Figures.Most != 1 || p.Figures.Changes != 0 {
		t.Errorf("%v, %+v", p.Cards, p.Figures)
	}
	s.Card.Kind = Sheet
	if p = mustMake(t, s); len(p.Cards) != 2 || p.Figures.Most != 2 {
		t.Errorf("as asked, sheets: %v, %+v", p.Cards, p.Figures)
	}
}

// Nine colours one after the other are nine sheets a person, five bonded cards.
func TestMoreCardsThanHands(t *testing.T) {
	s := gullhaven()
	s.Colours = nil
	for i := range 9 {
		s.Colours = append(s.Colours, Colour{Name: "c" + string(rune('1'+i)), RGB: colour.RGB{uint8(28 * i), uint8(255 - 28*i), uint8(90 * (i % 3))}, Sheets: -1})
	}
	s.Cues = nil
	for i := range 9 {
		s.Cues = append(s.Cues, Cue{Ground: s.Colours[i].Name, Painted: []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 1}, Colour: "c1"}}})
	}
	s.Card.Kind = Sheet
	_, err := Make(s)
	var f *seating.Fault
	if !errors.As(err, &f) || f.Key != "card.kind" || !strings.Contains(f.What, "A-1-2 would hold 9 cards for 9 colours") || !strings.Contains(f.Hint, "make it 5") {
		t.Fatalf("error %v", err)
	}
	s.Card.Kind = ""
	if p := mustMake(t, s); p.Figures.Most != 5 {
		t.Errorf("%+v", p.Figures)
	}
}

// Letters that lose seats to a short stock are judged as they come out.
func TestScarceInkIsJudged(t *testing.T) {
	full := mustMake(t, gullhaven()).Cues[0].Reading.Score
	s := gullhaven()
	s.Colours = s.Colours[:2]
	s.Colours[1].Sheets = 40
	p := mustMake(t, s)
	checkStock(t, p)
	if got := p.Cues[0].Reading; got.Score >= full || got.Verdict == legibility.Reads {
		t.Errorf("with 40 white sheets it scores %v, %s; with plenty %v", got.Score, got.Verdict, full)
	}
}

// Where stock is short, the seats that go wrong are those that the text loses least by: never does it read worse than
// where seats are weighed by what is seen of them alone, and mostly better; nor does it read much better than with plenty,
// which would be the reader's weakness and not the text's strength.
func TestScarceStockSparesTheText(t *testing.T) {
	better := 0
	for _, word := range []string{"GLOW", "KELP", "MOON"} {
		for c, share := range []float64{0.7, 0.5} { // of navy, and of white
			s := gullhaven()
			s.Cues[0].Text = word
			plenty := mustMake(t, s)
			for _, l := range plenty.Bill.Lines {
				if l.Colour == c {
					s.Colours[c].Sheets = int(float64(l.Sheets()) * share)
				}
			}
			p := mustMake(t, s)
			checkLedger(t, p)
			checkStock(t, p)
			m := newMaker(p)
			m.judged[0], m.wanted = p.Judged(0).Fields, plenty.colours()
			spared := m.textScores()[0]
			if full := int(1000 * plenty.Cues[0].Reading.Score); spared > full+40 {
				t.Errorf("%s, %s short: %d thousandths, and %d with plenty", word, s.Colours[c].Name, spared, full)
			}
			if err := m.rationBy(m.asks(nil)); err != nil {
				t.Fatal(err)
			}
			if seen := m.textScores()[0]; spared < seen {
				t.Errorf("%s, %s short: %d thousandths, and %d by what is seen alone", word, s.Colours[c].Name, spared, seen)
			} else if spared > seen+20 {
				better++
			}
		}
	}
	if better < 4 {
		t.Errorf("%d of 6 texts read better for it", better)
	}
}
