package mosaic

import (
	"sync"

	"everyseat/mosaic/stock"
)

// makings are the ways of making the cards, worked out once, when somebody asks.
type makings struct {
	once     sync.Once
	bills    []*stock.Bill
	cheapest int
}

// Bill is what the cards take as the stunt has them made.
func (p *Plan) Bill() *stock.Bill { return p.bill }

// Bills are what the ways of making cards take that can show this plan: the stunt's own
// first, then the others; and the index of the cheapest, work included.
func (p *Plan) Bills() (bills []*stock.Bill, cheapest int) {
	w := p.ways
	if w == nil {
		w = new(makings)
	}
	w.once.Do(func() {
		w.bills = []*stock.Bill{p.bill}
		for _, making := range []stock.Making{stock.Sheet, stock.Bonded, stock.Printed} {
			if making == p.bill.Making {
				continue
			}
			if b := p.billAs(making); b != nil {
				w.bills = append(w.bills, b)
			}
		}
		w.cheapest = stock.Cheapest(w.bills...)
	})
	return w.bills, w.cheapest
}

// billAs is nil where the way gives other people more cards than hands can serve, or
// where it comes to the same as the stunt's own.
func (p *Plan) billAs(making stock.Making) *stock.Bill {
	if p.checkHands(making) != nil {
		return nil
	}
	kit, err := p.kit(making)
	if err != nil {
		return nil
	}
	bill := kit.bill
	if making != stock.Printed && p.bill.Making != stock.Printed && bill.Sheets == p.bill.Sheets && bill.Minutes == p.bill.Minutes {
		return nil
	}
	return bill
}

// RowTally is one row in which anybody holds a card, and how many there are of each of Plan.Cards.
type RowTally struct {
	Section, Row int
	Cards        []int
}

// Tally counts the cards in people's hands, row by row in laying order; a section's rows follow each other.
func (p *Plan) Tally() []RowTally {
	var rows []RowTally
	var kit []int16
	for _, s := range p.Order {
		if kit = p.Kit(kit[:0], s); len(kit) == 0 {
			continue
		}
		seat := &p.Stands.Seats[s]
		if n := len(rows); n == 0 || rows[n-1].Section != int(seat.Section) || rows[n-1].Row != int(seat.Row) {
			rows = append(rows, RowTally{int(seat.Section), int(seat.Row), make([]int, len(p.Cards))})
		}
		for _, c := range kit {
			rows[len(rows)-1].Cards[c]++
		}
	}
	return rows
}

// SpareTally is how many sheets are kept back of each colour of the palette, for every section of Tally in turn.
func (p *Plan) SpareTally() [][]int {
	var sections [][]int
	before := -1
	for _, r := range p.Tally() {
		if r.Section != before {
			sections, before = append(sections, make([]int, len(p.Stunt.Colours))), r.Section
		}
		shown := sections[len(sections)-1]
		for c, n := range r.Cards {
			sides := p.Cards[c].Sides
			shown[sides[0]] += n
			if sides[1] != sides[0] {
				shown[sides[1]] += n
			}
		}
	}
	for _, shown := range sections {
		for c, n := range shown {
			shown[c] = Spares(n)
		}
	}
	return sections
}
