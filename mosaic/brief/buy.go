package brief

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/mosaic/stock"
	"everyseat/seating/say"
)

// sayPrint says what carries the words for the person on a seat.
func (t *teller) sayPrint() string {
	p := t.p
	switch p.Stunt.Print.Placards {
	case mosaic.OnStock:
		return " The words for each seat are printed on the coloured cards themselves."
	case mosaic.FullColoured:
		return " The cards are printed in full colour, words and all."
	}
	each := p.Stunt.Print.PerSheet
	if g := p.Stunt.Print.Grid; g != nil {
		each = g.Columns * g.Rows
	}
	return fmt.Sprintf(" Print %s, %d on a sheet.", say.Count(Stickers(t.p), "placard label"), each)
}

// sayTiles says that a card is put together of several sheets.
func (t *teller) sayTiles() string {
	p := t.p
	n := p.SheetsPerCard()
	if n == 1 {
		return ""
	}
	return fmt.Sprintf(" Each card is larger than the paper and is put together of %s.", say.Count(n, "sheet"))
}

func (t *teller) sayBuy() string {
	b := t.p.Bill
	if b.Cards == 0 {
		return "No cards are needed."
	}
	var buy []string
	for _, l := range b.Lines {
		buy = append(buy, t.sayLine(l))
	}
	out := fmt.Sprintf("Sheets, spares counted in (a tenth more of each colour in each section, %d at least): %s.", stock.LeastSpares, strings.Join(buy, ", ")) + t.sayTiles() + t.sayPrint() + t.sayMade()
	if names := t.darkColours(); len(names) > 0 {
		out += fmt.Sprintf(" Black cannot be read on %s: take white labels there.", strings.Join(names, " and "))
	}
	switch {
	case !b.Priced:
		out += fmt.Sprintf(" What it costs is %s: write pack sizes and prices beside the colours.", notKnown)
	case b.GoodsCents == 0:
		out += " There is nothing to buy: all of it is in stock; printing is not counted."
	case b.Making == stock.Printed:
		out += fmt.Sprintf(" Card and toner cost %s.", say.Money(b.GoodsCents))
	default:
		out += fmt.Sprintf(" The sheets cost %s, printing not counted.", say.Money(b.GoodsCents))
	}
	return out + t.sayCheapest()
}

// sayLine is "478 of navy (500 in stock)", or with the packs to buy.
func (t *teller) sayLine(l stock.Line) string {
	p := t.p
	name, pack, have := "white card to print", 0, -1
	if l.Colour >= 0 {
		k := &p.Stunt.Colours[l.Colour]
		name, pack, have = k.Name, k.Pack, k.Sheets
	} else {
		pack = p.Stunt.Work.Filled().Paper.Pack
	}
	out := fmt.Sprintf("%s of %s", say.Thousands(l.Sheets()), name)
	if have >= 0 {
		out += fmt.Sprintf(" (%s in stock)", say.Thousands(have))
	}
	if l.Packs > 0 && pack > 0 {
		out += fmt.Sprintf(" = %s to buy, %s left over", say.Count(l.Packs, "pack"), say.Thousands(l.Left))
	}
	return out
}

// sayMade tells how the cards are made where that is more than one sheet a person.
func (t *teller) sayMade() string {
	p := t.p
	f := &p.Figures
	out := ""
	if p.Bill.Making == stock.Printed {
		out = fmt.Sprintf(" The cards are printed: %s to flood with toner.", say.Count(p.Bill.Toner, "side"))
	}
	if f.Most < 2 && p.Bill.Making != stock.Bonded {
		return out
	}
	out += fmt.Sprintf(" That makes %s in people's hands, at most %s each, of %s", say.Count(f.Cards, "card"), say.Number(f.Most), say.Count(f.Kinds, "kind"))
	if f.LeastKinds < f.Kinds {
		out += fmt.Sprintf(" (%d at least)", f.LeastKinds)
	}
	if p.Bill.Making == stock.Bonded {
		out += ", two sheets back to back where a card has two colours"
	}
	return out + fmt.Sprintf("; the card is changed %s in all.", say.Count(f.Changes, "time"))
}

// darkColours are the colours in use on which black print cannot be read.
func (t *teller) darkColours() []string {
	p := t.p
	var names []string
	for _, l := range p.Bill.Lines {
		if l.Colour >= 0 && p.Stunt.WhiteLabel(l.Colour) {
			names = append(names, p.Stunt.Colours[l.Colour].Name)
		}
	}
	return names
}

// sayCheapest compares the ways of making the cards, as far as prices are known.
func (t *teller) sayCheapest() string {
	p := t.p
	bills, best := t.o.Bills, t.o.Cheapest
	if !bills[0].Priced || len(bills) < 2 {
		return ""
	}
	if best == 0 {
		known := slices.IndexFunc(bills[1:], func(b *stock.Bill) bool { return b.Priced }) >= 0
		unknown := slices.IndexFunc(bills[1:], func(b *stock.Bill) bool { return !b.Priced }) >= 0
		switch {
		case !known:
			return fmt.Sprintf(" Whether another way of making the cards is cheaper is %s: write pack sizes and prices beside the colours.", notKnown)
		case unknown:
			return fmt.Sprintf(" Of the ways of making the cards that have prices no other is cheaper%s%s.", t.countsWork(), t.assumed(bills))
		}
		return fmt.Sprintf(" No other way of making the cards is cheaper%s%s.", t.countsWork(), t.assumed(bills))
	}
	b := bills[best]
	if !b.Priced {
		return ""
	}
	says := "Cheaper"
	if b.Cents() == bills[0].Cents() {
		says = "As cheap and less work"
	}
	out := fmt.Sprintf(" %s would be cards made as %s: %s and %s", says, b.Making, goods(b.GoodsCents), making(b.Minutes))
	if most := p.CardsEach(b.Making); most > p.Figures.Most {
		out += fmt.Sprintf(", but up to %s cards a person", say.Number(most))
	}
	out += t.countsWork()
	if b.Making == stock.Printed {
		out += t.assumed(bills)
	}
	return out + "."
}

// making says how long cards take to make.
func making(m int) string {
	if m == 0 {
		return "no work before they are dealt"
	}
	return say.Minutes(time.Duration(m)*time.Minute) + " of work"
}

// countsWork says what an hour of work counts where ways are compared.
func (t *teller) countsWork() string {
	p := t.p
	if wage := p.Stunt.Work.WageCents; wage > 0 {
		return fmt.Sprintf(", with %s for an hour of work", say.Money(wage))
	}
	return ""
}

// assumed tells which prices of printing are not the crew's own.
func (t *teller) assumed(bills []*stock.Bill) string {
	p := t.p
	w, own := p.Stunt.Work.Filled(), p.Stunt.Work
	for _, b := range bills {
		if b.Making == stock.Printed && (own.TonerCents == 0 || own.PaperCents == 0) {
			return fmt.Sprintf(" (printing at %s of toner a side and %s for %d white cards, which is assumed)", say.Money(w.TonerCents), say.Money(w.Paper.Cents), w.Paper.Pack)
		}
	}
	return ""
}

// goods is what has to be paid for, or that nothing has.
func goods(cents int) string {
	if cents == 0 {
		return "nothing to buy"
	}
	return say.Money(cents)
}

// printCost says what full colour costs in this plan.
func printCost(p *mosaic.Plan) string {
	b := p.Bill
	if b == nil || p.Stunt.Print.Placards != mosaic.FullColoured {
		return ""
	}
	words := fmt.Sprintf("Full colour, all cards of the plan, spares counted in: %s of white card, %s flooded with toner",
		say.Count(b.Sheets, "sheet"), say.Count(b.Toner, "side"))
	if b.Priced {
		words += ", together " + say.Money(b.GoodsCents)
	}
	return words + fmt.Sprintf(", and %s of work.", hours(b.Minutes))
}
