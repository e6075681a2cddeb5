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
	kit, err := stock.NewKit(p.colours(), making)
	if err != nil {
		return nil
	}
	bill, err := stock.Buy(making, kit.Piles(p.sections()), p.Stunt.supplies(), p.Stunt.Work.of())
	if err != nil || making != stock.Printed && p.bill.Making != stock.Printed && bill.Sheets == p.bill.Sheets && bill.Minutes == p.bill.Minutes {
		return nil
	}
	return bill
}
