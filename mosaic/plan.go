package mosaic

import (
	"slices"
	"time"

	"everyseat/mosaic/artwork"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/people"
)

// Plan is the finished assignment: pure data, made once by Make and never changed. Slices by seat use the seat's
// index in Stands.
type Plan struct {
	Given  *Stunt // as the crew wrote it
	Stunt  *Stunt // with the defaults filled in
	Stands *seating.Stands
	Scene  *camera.Scene // everybody there, all cards up, held perfectly
	Marks  []Mark        // Marks[0] is the camera
	Cells  []camera.Cell // of the camera
	Cues   []CuePlan
	Cards  []Card
	Hands  [][]Hold       // [cue][seat]
	Order  []int32        // seats in laying order
	Blocks []string       // by seat
	People *people.Seated // who sits where; nil where the stunt has no groups

	Bill     *stock.Bill // of the cards as they are made
	Wanted   *stock.Bill // of those that would be made, were there sheets for all; nil where there are
	Figures  Figures
	Warnings []string // plain sentences
	// Flashing is the warning that every paper must carry, or "": the crew has accepted, in
	// words, a sequence that flashes dangerously.
	Flashing string
}

// Figures are what the cards come to, spares not counted.
type Figures struct {
	Cards   int // in people's hands
	Changes int // of card, all people and cues together; turning one over is none
	// LeastChanges is Changes, were there sheets for every side of a card that repeats a colour.
	LeastChanges int
	Most         int // cards that one person holds, at most
	Kinds        int // of card to make
	LeastKinds   int // no other way with so few cards and changes has fewer kinds
	// Error is by how much all seats together show other colours than they would with plenty of
	// all, in units of 1/stock.CostUnit; LeastError is less than no plan can have. Both are 0
	// where the stock suffices, and alike where the deal is an exact optimum.
	Error, LeastError int64
}

// Mark is one mark and what it sees.
type Mark struct {
	View   *camera.View
	Sight  *camera.Sight
	Scores []float64 // by cue
}

// None is the colour of a seat that shows no card.
const None = artwork.None

// CuePlan is one cue as planned.
type CuePlan struct {
	Name    string
	At      string
	Colours []int16           // palette index by seat, or None
	Text    *lettering.Layout // nil where the cue has no text
	Field   []int32           // seat index of each of Text.Ink's entries
	Reading legibility.Reading
	Times   Times
	Delay   []time.Duration // by seat: when it moves, after Times.Up; nil = all at once

	Torn bool // a word of Text has a gap so wide that it falls apart
}

// Card is one kind of card: an id ("BLUE", "BLUE/WHITE") and the palette index of its two sides.
type Card struct {
	ID    string
	Sides [2]int16
}

// Hold is what a seat shows: a card of Plan.Cards and its side; Card is −1 where it shows none.
type Hold struct {
	Card int16
	Side int8
}

// WorstMark is the mark from which the cue reads worst; of those alike the first.
func (p *Plan) WorstMark(cue int) int {
	worst := 0
	for k := range p.Marks {
		if len(p.Marks[k].Scores) > cue && p.Marks[k].Scores[cue] < p.Marks[worst].Scores[cue] {
			worst = k
		}
	}
	return worst
}

// LeastScore is the least score of the texts from a mark; 1 where there are none.
func (p *Plan) LeastScore(mark int) float64 {
	least := 1.0
	for i := range p.Cues {
		if p.Cues[i].Text != nil {
			least = min(least, p.Marks[mark].Scores[i])
		}
	}
	return least
}

// ReadsAtMark says whether every text reads from the camera.
func (p *Plan) ReadsAtMark() bool { return legibility.VerdictOf(p.LeastScore(0)) == legibility.Reads }

// Spells says whether any cue is a text.
func (p *Plan) Spells() bool {
	return slices.ContainsFunc(p.Cues, func(c CuePlan) bool { return c.Text != nil })
}

// Judged is how a cue's text lies before the marks, as its reader takes it.
type Judged struct {
	// Fields are one a mark; before them the flat one in which the letters have their places, if it is not the
	// first's.
	Fields  []*lettering.Field
	First   int    // of Fields: that of Marks[0]
	Ink     []bool // by Field: which seats show the text's ink
	Options lettering.Options
}

// Judged is how the cue's text is read; the cue has one.
func (p *Plan) Judged(cue int) Judged {
	m, c := newMaker(p), &p.Cues[cue]
	fields := m.fieldsFor(&p.Stunt.Cues[cue], c.Field)
	out := Judged{Fields: fields, First: len(fields) - len(p.Marks)}
	out.Ink, out.Options = m.laid(c, cue, p.Hands)
	return out
}

// hiddenCard is the seen share under which a card counts as hidden.
const hiddenCard = 0.1

// Unseen says whether no mark sees a tenth of the seat's card.
func (p *Plan) Unseen(s int) bool {
	for _, m := range p.Marks {
		if m.Sight.Seen[s] >= hiddenCard {
			return false
		}
	}
	return true
}

// Outside says that a person is well outside the frame of every mark, arms and
// head with them: a metre and a half around the seat's shoulders projects outside.
func (p *Plan) Outside(s int) bool {
	const around = 1.5
	at := p.Stands.Seats[s].Position
	at[2]++
	for _, m := range p.Marks {
		px, depth := m.View.Project(at)
		if depth <= 0 {
			// Behind the lens; whoever is close beside it may still reach into the frame.
			if depth < -around {
				continue
			}
			return false
		}
		reach, width, height := float64(m.View.Focal*around/depth), float64(m.View.Width), float64(m.View.Height)
		if px[0] > -reach && px[0] < width+reach && px[1] > -reach && px[1] < height+reach {
			return false
		}
	}
	return true
}

// CountRow totals one row: who could hold a card and never gets one, since the seat is painted
// without or stands before shirts, counts as a person without a card.
func (p *Plan) CountRow(section, row int) seating.Totals {
	t := p.Stands.CountRow(section, row)
	r := &p.Stands.Sections[section].Rows[row]
	for s := r.First; s < r.Last; s++ {
		shown := slices.ContainsFunc(p.Hands, func(hands []Hold) bool { return hands[s].Card >= 0 })
		if p.Stands.Seats[s].Use == seating.UseCard && !shown {
			t.Cards--
			t.Persons++
		}
	}
	return t
}

// Count totals one section as CountRow does.
func (p *Plan) Count(section int) seating.Totals {
	var t seating.Totals
	for row := range p.Stands.Sections[section].Rows {
		t = t.Plus(p.CountRow(section, row))
	}
	return t
}

// CountAll totals all the stands as CountRow does.
func (p *Plan) CountAll() seating.Totals {
	var t seating.Totals
	for section := range p.Stands.Sections {
		t = t.Plus(p.Count(section))
	}
	return t
}

// BillAs is what the cards take if they are made another way than the stunt has them made. It is nil where the way
// gives people more cards than hands can serve, or where it comes to the same as the stunt's own.
func (p *Plan) BillAs(making stock.Making) *stock.Bill {
	if p.checkHands(making) != nil {
		return nil
	}
	kit, err := p.fewestCards(making)
	if err != nil {
		return nil
	}
	alike := kit.bill.Sheets == p.Bill.Sheets && kit.bill.Minutes == p.Bill.Minutes
	if alike && making != stock.Printed && p.Bill.Making != stock.Printed {
		return nil
	}
	return kit.bill
}

// RowTally is one row in which anybody holds a card, and how many there are of each of Plan.Cards.
type RowTally struct {
	Section, Row int
	Cards        []int
}

// Tally counts the cards in people's hands, row by row in laying order; a section's rows follow each other.
func (p *Plan) Tally() []RowTally {
	var rows []RowTally
	var cards []int16
	for _, s := range p.Order {
		if cards = p.CardsOf(cards[:0], s); len(cards) == 0 {
			continue
		}
		seat := &p.Stands.Seats[s]
		if n := len(rows); n == 0 || rows[n-1].Section != int(seat.Section) || rows[n-1].Row != int(seat.Row) {
			rows = append(rows, RowTally{int(seat.Section), int(seat.Row), make([]int, len(p.Cards))})
		}
		for _, c := range cards {
			rows[len(rows)-1].Cards[c]++
		}
	}
	return rows
}

// SpareTally is how many spares are kept of each colour of the palette, for every section of Tally in turn; nil
// without a bill.
func (p *Plan) SpareTally() [][]int {
	if p.Bill == nil {
		return nil
	}
	var sections [][]int
	before := -1
	for _, r := range p.Tally() {
		if r.Section == before {
			continue
		}
		before = r.Section
		kept := make([]int, len(p.Stunt.Colours))
		for _, spare := range p.Bill.Kept {
			if spare.Section == r.Section {
				kept[spare.Sides[0]] += spare.Count
			}
		}
		sections = append(sections, kept)
	}
	return sections
}
