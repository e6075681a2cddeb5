package brief

import (
	"fmt"
	"strings"
	"time"

	"everyseat/mosaic"
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
	b := t.p.Bill
	switch {
	case b == nil:
		return out
	case b.Cards == 0:
		out.NoCards = true
		return out
	}
	out.Spoils, out.Unpriced = b.Spoiled > 0, !b.Priced
	out.Buy, out.SpareWords = t.buyLines(), t.spareWords()
	if n := t.p.SheetsPerCard(); n > 1 {
		out.Tiles = fmt.Sprintf("Each card is larger than the paper and takes %s, which are counted here.", say.Count(n, "sheet"))
	}
	out.Ways, out.Besides = t.wayLines(), t.besides()
	out.Wage = "An hour of work counts nothing in money: write wage = … under [print] if it should."
	if wage := t.p.Stunt.Work.WageCents; wage > 0 {
		out.Wage = "An hour of work counts " + say.Money(wage) + " where ways are compared."
	}
	return out
}

// buyLines say of every colour what goes into hands, what is kept back and what must be bought.
func (t *teller) buyLines() (out []BuyLine) {
	bill := t.p.Bill
	var all [3]int // in hands, spoiled, spare
	line := func(name string, n [3]int) BuyLine {
		return BuyLine{Name: name, Colour: -1, InHands: say.Thousands(n[0]), Spoiled: say.Thousands(n[1]), Spare: say.Thousands(n[2]),
			Sheets: say.Thousands(n[0] + n[1] + n[2])}
	}
	for _, l := range bill.Lines {
		n := [3]int{l.Cards, l.Spoiled, l.Spares}
		for i := range n {
			all[i] += n[i]
		}
		b, pack := line("white card to print on", n), 0
		b.Stock, b.Buy, b.Left, b.Price, b.Cost = "–", "–", say.Thousands(l.Left), "?", "?"
		if l.Colour >= 0 {
			c := &t.p.Stunt.Colours[l.Colour]
			b.Name, b.Colour, pack = c.Name, l.Colour, c.Pack
			if c.Sheets >= 0 {
				b.Stock = say.Thousands(c.Sheets)
			}
			if c.Pack > 0 && c.PriceCents > 0 {
				b.Price = say.Money(c.PriceCents)
			}
		}
		switch {
		case l.Packs > 0 && (pack > 0 || l.Colour < 0):
			b.Buy = say.Count(l.Packs, "pack")
			if pack > 0 {
				b.Buy += " of " + say.Thousands(pack)
			}
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
		out = append(out, BuyLine{Name: "toner: " + say.Thousands(bill.Toner) + " sides to flood", Colour: -1, Cost: say.Money(bill.TonerCents)})
	}
	sum := line("Together", all)
	sum.Together, sum.Cost = true, "not known"
	if bill.Priced {
		sum.Cost = nothingOr(bill.GoodsCents)
	}
	return append(out, sum)
}

// nothingOr is what has to be paid for, or that nothing has.
func nothingOr(cents int) string {
	if cents == 0 {
		return "nothing"
	}
	return say.Money(cents)
}

// spareWords say what spares are, and what is counted for cards that go wrong.
func (t *teller) spareWords() string {
	words := "Spares are a tenth, and five at least, of every colour in every section that shows it (common practice, no source)."
	if TwoColoured(t.p) {
		words += " A spare has one colour: two of them held back to back stand in for a card of two."
	}
	if n := t.p.Bill.Spoiled; n > 0 {
		words += fmt.Sprintf(" Spoiled: %s more, since one in fifty goes wrong in the making (common practice, no source).", say.Count(n, "card"))
	}
	return words
}

// TwoColoured says whether the plan has cards of two colours.
func TwoColoured(p *mosaic.Plan) bool {
	for _, c := range p.Cards {
		if c.Sides[0] != c.Sides[1] {
			return true
		}
	}
	return false
}

// wayLines compare how else the cards could be made.
func (t *teller) wayLines() (out []WayLine) {
	bills := t.o.Bills
	if len(bills) < 2 {
		return nil
	}
	pricedAll := true
	for _, b := range bills {
		pricedAll = pricedAll && b.Priced
	}
	for i, b := range bills {
		cost := "not known"
		if b.Priced {
			cost = nothingOr(b.GoodsCents)
		}
		var notes []string
		if i == 0 {
			notes = append(notes, "this plan")
		}
		if i == t.o.Cheapest && b.Priced && pricedAll {
			notes = append(notes, "cheapest, work counted in")
		}
		if b.Short() {
			notes = append(notes, "the stock does not reach")
		}
		out = append(out, WayLine{string(b.Making), say.Thousands(b.Cards), say.Thousands(b.Sheets), say.Thousands(b.Toner),
			hours(b.Minutes), cost, strings.Join(notes, "; "), i == 0})
	}
	return out
}

func hours(minutes int) string { return fmt.Sprintf("%d:%02d h", minutes/60, minutes%60) }

func hoursOf(d time.Duration) string { return hours(say.WholeMinutes(d)) }

// hours say how long one person prints, makes and deals, and all helpers lay.
func (t *teller) hours() (out []HourLine) {
	w, spec := t.work, t.p.Stunt.Laying
	if w.cards == 0 {
		return nil
	}
	out = append(out, HourLine{w.printing.What, w.printing.words(),
		fmt.Sprintf("%d pages a minute, jams counted in, and %s a job of at most %d sheets", printPages, say.Minutes(loadJob), jobSheets), hoursOf(w.print)})
	if w.making > 0 {
		b := t.p.Bill
		with := fmt.Sprintf(", %s counted in", say.Count(b.Spares, "spare"))
		if b.Spoiled > 0 {
			with = fmt.Sprintf(", %s spoiled and %s counted in", say.Thousands(b.Spoiled), say.Count(b.Spares, "spare"))
		}
		out = append(out, HourLine{"Make cards", say.Count(b.Cards, "card") + with, "one person", hoursOf(w.making)})
	}
	if w.cut > 0 {
		speed := fmt.Sprintf("one person, %s a piece", say.Seconds(cutPerPiece))
		if w.printing.Cuts == 0 {
			speed = fmt.Sprintf("one person, %s a pile with its stacking", say.Minutes(cutPerPile))
		}
		out = append(out, HourLine{"Cut", w.printing.cutWords(), speed, hoursOf(w.cut)})
	}
	if w.labels > 0 {
		out = append(out, HourLine{"Stick on", say.Count(w.labels, "label"), fmt.Sprintf("one person, %s a label", say.Seconds(stickPerLabel)), hoursOf(w.stick)})
	}
	lay := fmt.Sprintf("%s a card and %s a row, shared by %s", say.Seconds(spec.PerCard), say.Seconds(spec.PerRow), say.Count(w.helpers, "helper"))
	if spec.Pass {
		lay = fmt.Sprintf("%s a row to hand in, shared by %s; then the longest row at %s a card", say.Seconds(spec.PerRow), say.Count(w.helpers, "helper"), say.Seconds(spec.PerCard))
	}
	return append(out,
		HourLine{"Deal", fmt.Sprintf("%s into %s", say.Count(w.cards, "card"), say.Count(w.bags, "row bag")),
			fmt.Sprintf("one person, %s a card and %s a bag", say.Seconds(dealPerCard), say.Seconds(dealPerBag)), hoursOf(w.deal)},
		HourLine{say.Capital(LayWord(t.p)), fmt.Sprintf("%s along %s", say.Count(w.cards, "card"), say.Count(w.bags, "row")), lay, hoursOf(w.lay)})
}

// besides is what is needed beside the cards' stock, as this plan has them made and laid.
func (t *teller) besides() (out []BesideLine) {
	p, w := t.p, t.work
	if w.cards == 0 {
		return nil
	}
	add := func(what, much, use string) { out = append(out, BesideLine{what, much, use}) }
	if run := &w.printing; run.LabelSheets > 0 {
		if p.Stunt.Print.Grid != nil {
			add("sheets of stick-on labels", say.Count(run.LabelSheets, "sheet"), run.LabelsOn+"; a tenth more for jams")
		} else {
			add("white paper for labels", say.Count(run.LabelSheets, "sheet"), run.LabelsOn+", which are cut; a tenth more for jams")
			add("glue sticks or tape", say.Count(w.labels, "label"), "to stick the labels on the cards")
		}
	}
	if pairs := t.pairsGlued(); pairs > 0 {
		add("glue that does not wrinkle paper", say.Count(pairs, "card"), "to put two sheets back to back")
	}
	if n := p.SheetsPerCard(); n > 1 {
		add("glue that does not wrinkle paper", say.Count(p.Bill.Cards, "card"), fmt.Sprintf("to put each together of %d sheets", n))
	}
	add("bags or large envelopes", say.Count(w.bags, "row"), "one for the cards of each row, its strip and its label")
	add("plain paper", "a ream", "the other sheets of this set, banner pages and what jams")
	if cords := Cords(p); len(cords) > 0 {
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

// pairsGlued is how many cards are two sheets back to back.
func (t *teller) pairsGlued() (n int) {
	if mosaic.CardKind(t.p.Bill.Making) != mosaic.Bonded {
		return 0
	}
	for _, row := range t.p.Tally() {
		for c, count := range row.Cards {
			if sides := t.p.Cards[c].Sides; sides[0] != sides[1] {
				n += count
			}
		}
	}
	return n
}

// counted is a line of counts.
func counted(name string, counts []int, sum bool) CountLine {
	l := CountLine{Name: name, Sum: sum}
	all := 0
	for _, n := range counts {
		text := "–"
		if n > 0 {
			text = say.Thousands(n)
		}
		l.Counts = append(l.Counts, text)
		all += n
	}
	l.All = say.Thousands(all)
	return l
}

// spares is what is kept back, by section and colour.
func (t *teller) spares() *CountTable {
	counts := t.p.SpareTally()
	if len(counts) == 0 {
		return nil
	}
	out := &CountTable{}
	all := make([]int, len(t.p.Stunt.Colours))
	for _, c := range t.p.Stunt.Colours {
		out.Columns = append(out.Columns, c.Name)
	}
	for i, rows := range t.rows {
		out.Lines = append(out.Lines, counted(t.p.Stands.Sections[rows[0].Section].Name, counts[i], false))
		for c, n := range counts[i] {
			all[c] += n
		}
	}
	out.Lines = append(out.Lines, counted("All spares", all, true))
	return out
}

// byRow is the cards in people's hands, row by row, with sums for sections and in all.
func (t *teller) byRow() *CountTable {
	out := &CountTable{}
	for _, c := range t.p.Cards {
		out.Columns = append(out.Columns, strings.Replace(c.ID, "/", "/ ", 1))
	}
	all := make([]int, len(t.p.Cards))
	for _, rows := range t.rows {
		sums := make([]int, len(all))
		for i := range rows {
			out.Lines = append(out.Lines, counted(rows[i].Name, rows[i].Cards, false))
			for c, n := range rows[i].Cards {
				sums[c] += n
				all[c] += n
			}
		}
		out.Lines = append(out.Lines, counted("Section "+t.p.Stands.Sections[rows[0].Section].Name, sums, true))
	}
	out.Lines = append(out.Lines, counted("All sections", all, true))
	return out
}
