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
	switch t.Stunt.Print.Placards {
	case mosaic.OnStock:
		return " The words for each seat are printed on the coloured cards themselves."
	case mosaic.FullColoured:
		return " The cards are printed in full colour, words and all."
	}
	each := t.Stunt.Print.PerSheet
	if g := t.Stunt.Print.Grid; g != nil {
		each = g.Columns * g.Rows
	}
	return fmt.Sprintf(" Print %s, %d on a sheet.", say.Count(Stickers(t.Plan), "placard label"), each)
}

func (t *teller) sayBuy() string {
	b := t.Bill
	if b.Cards == 0 {
		return "No cards are needed."
	}
	var buy, dark []string
	for _, l := range b.Lines {
		buy = append(buy, t.sayLine(l))
		if l.Colour >= 0 && t.Stunt.WhiteLabel(l.Colour) {
			dark = append(dark, t.colourName(l.Colour))
		}
	}
	out := fmt.Sprintf("Sheets, spares counted in (a tenth more of each colour in each section, %d at least): %s.",
		stock.LeastSpares, strings.Join(buy, ", "))
	if n := t.SheetsPerCard(); n > 1 {
		out += fmt.Sprintf(" Each card is larger than the paper and is put together of %s.", say.Count(n, "sheet"))
	}
	out += t.sayPrint() + t.sayMade()
	if len(dark) > 0 {
		out += fmt.Sprintf(" Black cannot be read on %s: take white labels there.", strings.Join(dark, " and "))
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
	name, pack, have := "white card to print", t.Stunt.Work.Filled().Paper.Pack, -1
	if l.Colour >= 0 {
		k := &t.Stunt.Colours[l.Colour]
		name, pack, have = k.Name, k.Pack, k.Sheets
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
	f := &t.Figures
	out := ""
	if t.Bill.Making == stock.Printed {
		out = fmt.Sprintf(" The cards are printed: %s to flood with toner.", say.Count(t.Bill.Toner, "side"))
	}
	if f.Most < 2 && t.Bill.Making != stock.Bonded {
		return out
	}
	out += fmt.Sprintf(" That makes %s in people's hands, at most %s each, of %s", say.Count(f.Cards, "card"),
		say.Number(f.Most), say.Count(f.Kinds, "kind"))
	if f.LeastKinds < f.Kinds {
		out += fmt.Sprintf(" (%d at least)", f.LeastKinds)
	}
	if t.Bill.Making == stock.Bonded {
		out += ", two sheets back to back where a card has two colours"
	}
	return out + fmt.Sprintf("; the card is changed %s in all.", say.Count(f.Changes, "time"))
}

// sayCheapest compares the ways of making the cards, as far as prices are known.
func (t *teller) sayCheapest() string {
	bills, best := t.o.Bills, t.o.Cheapest
	if !bills[0].Priced || len(bills) < 2 {
		return ""
	}
	counts := ""
	if wage := t.Stunt.Work.WageCents; wage > 0 {
		counts = fmt.Sprintf(", with %s for an hour of work", say.Money(wage))
	}
	priced := 0
	for _, b := range bills[1:] {
		if b.Priced {
			priced++
		}
	}
	b := bills[best]
	switch {
	case best == 0 && priced == 0:
		return fmt.Sprintf(" Whether another way of making the cards is cheaper is %s: write pack sizes and prices "+
			"beside the colours.", notKnown)
	case best == 0 && priced < len(bills)-1:
		return " Of the ways of making the cards that have prices no other is cheaper" + counts + t.assumed() + "."
	case best == 0:
		return " No other way of making the cards is cheaper" + counts + t.assumed() + "."
	case !b.Priced:
		return ""
	}
	says, work := "Cheaper", "no work before they are dealt"
	if b.Cents() == bills[0].Cents() {
		says = "As cheap and less work"
	}
	if b.Minutes != 0 {
		work = say.Minutes(time.Duration(b.Minutes)*time.Minute) + " of work"
	}
	out := fmt.Sprintf(" %s would be cards made as %s: %s and %s", says, b.Making, goods(b.GoodsCents,
		"nothing to buy"), work)
	if most := t.CardsEach(b.Making); most > t.Figures.Most {
		out += fmt.Sprintf(", but up to %s cards a person", say.Number(most))
	}
	if out += counts; b.Making == stock.Printed {
		out += t.assumed()
	}
	return out + "."
}

// assumed tells which prices of printing are not the crew's own, where ways are compared.
func (t *teller) assumed() string {
	w, own := t.Stunt.Work.Filled(), t.Stunt.Work
	printed := slices.ContainsFunc(t.o.Bills, func(b *stock.Bill) bool { return b.Making == stock.Printed })
	if !printed || own.TonerCents != 0 && own.PaperCents != 0 {
		return ""
	}
	return fmt.Sprintf(" (printing at %s of toner a side and %s for %d white cards, which is assumed)",
		say.Money(w.TonerCents), say.Money(w.Paper.Cents), w.Paper.Pack)
}

// goods is what has to be paid for, or that nothing has.
func goods(cents int, nothing string) string {
	if cents == 0 {
		return nothing
	}
	return say.Money(cents)
}

// printCost says what full colour costs in this plan.
func printCost(p *mosaic.Plan) string {
	b := p.Bill
	if b == nil || p.Stunt.Print.Placards != mosaic.FullColoured {
		return ""
	}
	words := fmt.Sprintf("Full colour, all cards of the plan, spares counted in: %s of white card, %s flooded with "+
		"toner", say.Count(b.Sheets, "sheet"), say.Count(b.Toner, "side"))
	if b.Priced {
		words += ", together " + say.Money(b.GoodsCents)
	}
	return words + fmt.Sprintf(", and %s of work.", hours(b.Minutes))
}
