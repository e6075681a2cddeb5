package brief

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/say"
)

// Tally is the cards, the sheets, the money and the hours.
type Tally struct {
	NoCards    bool
	Buy        []BuyLine // none: there is no bill
	Spoils     bool      // sheets are counted for cards that go wrong in the making
	Unpriced   bool
	Tiles      string // "" = a card is one sheet
	SpareWords string
	Ways       []WayLine // none: there is one way alone
	Wage       string
	Besides    []BesideLine
	Hours      []HourLine
	Spares     *CountTable // by section and colour
	ByRow      *CountTable // cards in people's hands
}

// BuyLine is what is needed of a colour.
type BuyLine struct {
	Name                            string
	Colour                          int // of the palette, −1 = none
	InHands, Spoiled, Spare, Sheets string
	Stock, Buy, Left, Price, Cost   string
	Together                        bool // the sum of all
}

// WayLine is a way of making the cards.
type WayLine struct {
	MadeAs, Cards, Sheets, Toner, Work, Goods, Note string
	Own                                             bool
}

// BesideLine is something that is needed beside the cards' stock.
type BesideLine struct{ What, Much, Use string }

// HourLine is a piece of work.
type HourLine struct{ What, Much, Speed, Time string }

// CountTable is counts by line and column.
type CountTable struct {
	Columns []string
	Lines   []CountLine
}

// CountLine is a line of counts; a Sum is one of others.
type CountLine struct {
	Name   string
	Counts []string
	All    string // the line's own sum
	Sum    bool
}

func (t *teller) tally() Tally {
	out := Tally{Hours: t.hours(), Spares: t.spares(), ByRow: t.byRow()}
	b := t.Bill
	switch {
	case b == nil:
		return out
	case b.Cards == 0:
		out.NoCards = true
		return out
	}
	out.Spoils, out.Unpriced = b.Spoiled > 0, !b.Priced
	out.Buy, out.SpareWords = t.buyLines(), t.spareWords()
	if n := t.SheetsPerCard(); n > 1 {
		out.Tiles = fmt.Sprintf("Each card is larger than the paper and takes %s, which are counted here.",
			say.Count(n, "sheet"))
	}
	out.Ways, out.Besides = t.wayLines(), t.besides()
	out.Wage = "An hour of work counts nothing in money: write wage = … under [print] if it should."
	if wage := t.Stunt.Work.WageCents; wage > 0 {
		out.Wage = "An hour of work counts " + say.Money(wage) + " where ways are compared."
	}
	return out
}

// buyLines say of every colour what goes into hands, what is kept back and what must be bought.
func (t *teller) buyLines() (out []BuyLine) {
	bill := t.Bill
	all := make([]int, 3) // in hands, spoiled, spare
	line := func(name string, counts ...int) BuyLine {
		n := thousandsOf(append(counts, sum(counts))...)
		return BuyLine{Name: name, Colour: -1, InHands: n[0], Spoiled: n[1], Spare: n[2], Sheets: n[3]}
	}
	for _, l := range bill.Lines {
		plus(all, []int{l.Cards, l.Spoiled, l.Spares})
		b, pack := line("white card to print on", l.Cards, l.Spoiled, l.Spares), 0
		b.Stock, b.Buy, b.Left, b.Price, b.Cost = "–", "–", say.Thousands(l.Left), "?", "?"
		if l.Colour >= 0 {
			c := &t.Stunt.Colours[l.Colour]
			b.Name, b.Colour, pack = c.Name, l.Colour, c.Pack
			if c.Sheets >= 0 {
				b.Stock = say.Thousands(c.Sheets)
			}
			if c.Pack > 0 && c.PriceCents > 0 {
				b.Price = say.Money(c.PriceCents)
			}
		}
		switch {
		case l.Packs > 0 && pack > 0:
			b.Buy = say.Count(l.Packs, "pack") + " of " + say.Thousands(pack)
		case l.Packs > 0 && l.Colour < 0:
			b.Buy = say.Count(l.Packs, "pack")
		case l.Packs > 0:
			b.Buy = say.Count(l.Packs, "sheet")
		}
		switch {
		case l.Packs == 0:
			b.Cost, b.Price = "–", "–"
		case l.Cents > 0:
			b.Cost, b.Price = say.Money(l.Cents), say.Money(l.Cents/l.Packs)
		}
		out = append(out, b)
	}
	if bill.Toner > 0 {
		out = append(out, BuyLine{Name: "toner: " + say.Thousands(bill.Toner) + " sides to flood", Colour: -1,
			Cost: say.Money(bill.TonerCents)})
	}
	together := line("Together", all...)
	together.Together, together.Cost = true, cost(bill)
	return append(out, together)
}

// spareWords say what spares are, and what is counted for cards that go wrong.
func (t *teller) spareWords() string {
	words := "Spares are a tenth, and five at least, of every colour in every section that shows it (common " +
		"practice, no source)." + t.sayForgone()
	if TwoColoured(t.Plan) {
		words += " A spare has one colour: two of them held back to back stand in for a card of two."
	}
	if n := t.Bill.Spoiled; n > 0 {
		words += fmt.Sprintf(" Spoiled: %s more, since one in fifty goes wrong in the making (common practice, no "+
			"source).", say.Count(n, "card"))
	}
	return words
}

// TwoColoured says whether the plan has cards of two colours.
func TwoColoured(p *mosaic.Plan) bool {
	return slices.ContainsFunc(p.Cards, func(c mosaic.Card) bool { return c.Sides[0] != c.Sides[1] })
}

// wayLines compare how else the cards could be made.
func (t *teller) wayLines() (out []WayLine) {
	bills := t.o.Bills
	if len(bills) < 2 {
		return nil
	}
	unpriced := slices.ContainsFunc(bills, func(b *stock.Bill) bool { return !b.Priced })
	for i, b := range bills {
		var notes []string
		if i == 0 {
			notes = append(notes, "this plan")
		}
		if i == t.o.Cheapest && !unpriced {
			notes = append(notes, "cheapest, work counted in")
		}
		if b.Short() {
			notes = append(notes, "the stock does not reach")
		}
		n := thousandsOf(b.Cards, b.Sheets, b.Toner)
		out = append(out, WayLine{string(b.Making), n[0], n[1], n[2], hours(b.Minutes), cost(b),
			strings.Join(notes, "; "), i == 0})
	}
	return out
}

func hours(minutes int) string { return fmt.Sprintf("%d:%02d h", minutes/60, minutes%60) }

// hours say how long one person prints, makes and deals, and all helpers lay.
func (t *teller) hours() (out []HourLine) {
	w, spec := t.work, t.Stunt.Laying
	if w.cards == 0 {
		return nil
	}
	add := func(what, much, speed string, took time.Duration) {
		out = append(out, HourLine{what, much, speed, hours(say.WholeMinutes(took))})
	}
	add(w.printing.What, w.printing.words(), fmt.Sprintf("%d pages a minute, jams counted in, and %s a job of at "+
		"most %d sheets", printPages, say.Minutes(loadJob), jobSheets), w.print)
	cards, labels := say.Count(w.cards, "card"), say.Count(w.labels, "label")
	if w.making > 0 {
		with := say.Count(t.Bill.Spares, "spare")
		if n := t.Bill.Spoiled; n > 0 {
			with = say.Thousands(n) + " spoiled and " + with
		}
		add("Make cards", say.Count(t.Bill.Cards, "card")+", "+with+" counted in", "one person", w.making)
	}
	if w.cut > 0 {
		speed := fmt.Sprintf("one person, %s a piece", say.Seconds(cutPerPiece))
		if w.printing.Cuts == 0 {
			speed = fmt.Sprintf("one person, %s a pile with its stacking", say.Minutes(cutPerPile))
		}
		add("Cut", w.printing.cutWords(), speed, w.cut)
	}
	if w.labels > 0 {
		add("Stick on", labels, fmt.Sprintf("one person, %s a label", say.Seconds(stickPerLabel)), w.stick)
	}
	add("Deal", cards+" into "+say.Count(w.bags, "row bag"), fmt.Sprintf("one person, %s a card and %s a bag",
		say.Seconds(dealPerCard), say.Seconds(dealPerBag)), w.deal)
	card, row, helpers := say.Seconds(spec.PerCard), say.Seconds(spec.PerRow), say.Count(w.helpers, "helper")
	add(say.Capital(LayWord(t.Plan)), cards+" along "+say.Count(w.bags, "row"), passOr(t.Plan,
		fmt.Sprintf("%s a row to hand in, shared by %s; then the longest row at %s a card", row, helpers, card),
		fmt.Sprintf("%s a card and %s a row, shared by %s", card, row, helpers)), w.lay)
	return out
}

// besides is what is needed beside the cards' stock, as this plan has them made and laid.
func (t *teller) besides() (out []BesideLine) {
	w := t.work
	if w.cards == 0 {
		return nil
	}
	add := func(what, much, use string) { out = append(out, BesideLine{what, much, use}) }
	const glue = "glue that does not wrinkle paper"
	switch run := &w.printing; {
	case run.LabelSheets > 0 && t.Stunt.Print.Grid != nil:
		add("sheets of stick-on labels", say.Count(run.LabelSheets, "sheet"), run.LabelsOn+"; a tenth more for jams")
	case run.LabelSheets > 0:
		add("white paper for labels", say.Count(run.LabelSheets, "sheet"), run.LabelsOn+", which are cut; a tenth "+
			"more for jams")
		add("glue sticks or tape", say.Count(w.labels, "label"), "to stick the labels on the cards")
	}
	pairs := 0
	for c, n := range cardsIn(slices.Concat(t.rows...)) {
		if sides := t.Cards[c].Sides; sides[0] != sides[1] && t.Bill.Making == stock.Bonded {
			pairs += n
		}
	}
	if pairs > 0 {
		add(glue, say.Count(pairs, "card"), "to put two sheets back to back")
	}
	if n := t.SheetsPerCard(); n > 1 {
		add(glue, say.Count(t.Bill.Cards, "card"), fmt.Sprintf("to put each together of %d sheets", n))
	}
	add("bags or large envelopes", say.Count(w.bags, "row"), "one for the cards of each row, its strip and its label")
	add("plain paper", "a ream", "the other sheets of this set, banner pages and what jams")
	if cords := Cords(t.Plan); len(cords) > 0 {
		longest := seating.Length(0)
		for _, c := range cords {
			longest = max(longest, c.Pitch*seating.Length(c.Places))
		}
		much := away(longest.Metres()) + " and a loop"
		if len(cords) > 1 {
			much = fmt.Sprintf("%d, each at most %s", len(cords), much)
		}
		add("cord that does not stretch", much, "to find the seats on benches without numbers: cord.pdf")
	}
	add("bright tape", "a roll", "the tape cross for the camera, and to cover cables")
	return out
}

func counted(name string, counts []int, isSum bool) CountLine {
	l := CountLine{name, thousandsOf(counts...), say.Thousands(sum(counts)), isSum}
	for i, n := range counts {
		if n <= 0 {
			l.Counts[i] = "–"
		}
	}
	return l
}

// spares is what is kept back, by section and colour.
func (t *teller) spares() *CountTable {
	counts := t.SpareTally()
	if len(counts) == 0 {
		return nil
	}
	out := &CountTable{}
	all := make([]int, len(t.Stunt.Colours))
	for c := range all {
		out.Columns = append(out.Columns, t.colourName(c))
	}
	for i, rows := range t.rows {
		out.Lines = append(out.Lines, counted(t.Stands.Sections[rows[0].Section].Name, counts[i], false))
		plus(all, counts[i])
	}
	out.Lines = append(out.Lines, counted("All spares", all, true))
	return out
}

// byRow is the cards in people's hands, row by row, with sums for sections and in all.
func (t *teller) byRow() *CountTable {
	out := &CountTable{}
	for _, c := range t.Cards {
		out.Columns = append(out.Columns, strings.Replace(c.ID, "/", "/ ", 1))
	}
	all := make([]int, len(t.Cards))
	for _, rows := range t.rows {
		for i := range rows {
			out.Lines = append(out.Lines, counted(rows[i].Name, rows[i].Cards, false))
		}
		section := cardsIn(rows)
		plus(all, section)
		out.Lines = append(out.Lines, counted("Section "+t.Stands.Sections[rows[0].Section].Name, section, true))
	}
	out.Lines = append(out.Lines, counted("All sections", all, true))
	return out
}

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
	out += t.sayForgone() + t.sayPrint() + t.sayMade()
	if len(dark) > 0 {
		out += fmt.Sprintf(" Black cannot be read on %s: take white labels there.", strings.Join(dark, " and "))
	}
	switch {
	case !b.Priced:
		out += fmt.Sprintf(" What it costs is %s: write pack sizes and prices beside the colours.", notKnown)
	case b.GoodsCents == 0 && t.Wanted != nil:
		out += fmt.Sprintf(" There is nothing to buy, unless %s can be had; printing is not counted.",
			t.MoreOf(t.Lacking()))
	case b.GoodsCents == 0:
		out += " There is nothing to buy: all of it is in stock; printing is not counted."
	case b.Making == stock.Printed:
		out += fmt.Sprintf(" Card and toner cost %s.", say.Money(b.GoodsCents))
	default:
		out += fmt.Sprintf(" The sheets cost %s, printing not counted.", say.Money(b.GoodsCents))
	}
	return out + t.sayCheapest()
}

// sayLine is "478 of navy (in hand 420, buy 1 pack of 100, 42 left over)".
func (t *teller) sayLine(l stock.Line) string {
	name, pack := "white card to print", t.Stunt.Work.Filled().Paper.Pack
	var of []string
	if l.Colour >= 0 {
		k := &t.Stunt.Colours[l.Colour]
		name, pack = k.Name, k.Pack
		if k.Sheets >= 0 {
			of = append(of, "in hand "+say.Thousands(k.Sheets))
		}
	}
	if l.Packs > 0 && pack > 0 {
		of = append(of, fmt.Sprintf("buy %s of %s", say.Count(l.Packs, "pack"), say.Thousands(pack)),
			say.Thousands(l.Left)+" left over")
	}
	out := fmt.Sprintf("%s of %s", say.Thousands(l.Sheets()), name)
	if len(of) > 0 {
		out += " (" + strings.Join(of, ", ") + ")"
	}
	return out
}

// sayForgone is a sentence about the spares that the stock does not leave; "" = it leaves all.
func (t *teller) sayForgone() string {
	var out []string
	each := t.SheetsPerCard()
	for _, l := range t.Bill.Lines {
		if l.Forgone > 0 {
			left := "no spare"
			if l.Spares > 0 {
				left = say.Count(l.Spares/each, "spare")
			}
			wanted := (l.Spares + l.Forgone) / each
			out = append(out, fmt.Sprintf("%s of %s instead of %d", left, t.colourName(l.Colour), wanted))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return fmt.Sprintf(" The stock leaves %s: spares are given up before any seat shows another colour.",
		say.List(out))
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
	says, goods, work := "Cheaper", cost(b), "no work before they are dealt"
	if b.Cents() == bills[0].Cents() {
		says = "As cheap and less work"
	}
	if b.GoodsCents == 0 {
		goods = "nothing to buy"
	}
	if b.Minutes != 0 {
		work = say.Minutes(time.Duration(b.Minutes)*time.Minute) + " of work"
	}
	out := fmt.Sprintf(" %s would be cards made as %s: %s and %s", says, b.Making, goods, work)
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

func cost(b *stock.Bill) string {
	switch {
	case !b.Priced:
		return "not known"
	case b.GoodsCents == 0:
		return "nothing"
	}
	return say.Money(b.GoodsCents)
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
