package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
)

// tallyColumns is how many kinds of card stand side by side in a table; more come in further tables.
const tallyColumns = 7

// Tally writes tally.pdf: the cards by kind for every row, section and in all, the spares, what to
// buy and what it costs, and the hours that printing and dealing take. Errors are *seating.Fault.
func Tally(w io.Writer, p *mosaic.Plan) error {
	f, err := uprightFlow(p, "Tally")
	if err != nil {
		return err
	}
	f.title("Tally: cards, sheets, money, hours", occasion(p))
	t := tally{flow: f, sections: laid(p)}
	t.buy()
	t.besides()
	t.hours()
	t.spares()
	t.byRow()
	return f.finish(w)
}

type tally struct {
	*flow
	sections [][]rowWork
}

// buy lists every colour: what goes into hands, what is kept back, what must be bought.
func (t *tally) buy() {
	bill := t.plan.Bill()
	if bill == nil {
		return
	}
	t.heading("What to buy")
	if bill.Cards == 0 {
		t.paragraph("Nothing: nobody holds a card in this plan.", sizeBody)
		return
	}
	columns := []column{{head: "Colour", share: 1}, {head: "In hands", right: true}, {head: "Spoiled", right: true}, {head: "Spare", right: true}, {head: "Sheets", right: true},
		{head: "In stock", right: true}, {head: "Buy", right: true}, {head: "Left over", right: true}, {head: "Price a pack", right: true}, {head: "Cost", right: true}}
	var rows [][]cell
	var all [3]int // in hands, spoiled, spare
	for _, l := range bill.Lines {
		name, have, price, pack, patch := "white card to print on", "–", "?", 0, 0
		if l.Colour >= 0 {
			c := &t.plan.Stunt.Colours[l.Colour]
			name, pack, patch = c.Name, c.Pack, l.Colour+1
			if c.Sheets >= 0 {
				have = thousands(c.Sheets)
			}
			if c.Pack > 0 && c.PriceCents > 0 {
				price = money(c.PriceCents)
			}
		}
		buy := "–"
		switch {
		case l.Packs > 0 && (pack > 0 || l.Colour < 0):
			buy = plural(l.Packs, "pack")
			if pack > 0 {
				buy += " of " + strconv.Itoa(pack)
			}
		case l.Packs > 0:
			buy = plural(l.Packs, "sheet")
		}
		cost := "?"
		switch {
		case l.Packs == 0:
			cost, price = "–", "–"
		case l.Cents > 0:
			cost = money(l.Cents)
			price = money(l.Cents / l.Packs)
		}
		line := [3]int{l.Cards, l.Spoiled, l.Spares}
		for i, n := range line {
			all[i] += n
		}
		rows = append(rows, append(append([]cell{{text: name, colour: patch}}, sheetCells(line, false)...),
			cell{text: have}, cell{text: buy}, cell{text: thousands(l.Left)}, cell{text: price}, cell{text: cost}))
	}
	if bill.Toner > 0 {
		rows = append(rows, []cell{{text: "toner: " + thousands(bill.Toner) + " sides to flood"}, {}, {}, {}, {}, {}, {}, {}, {}, {text: money(bill.TonerCents)}})
	}
	total := "not known"
	if bill.Priced {
		total = goods(bill.GoodsCents)
	}
	rows = append(rows, append(append([]cell{{text: "Together", bold: true}}, sheetCells(all, true)...), cell{}, cell{}, cell{}, cell{}, cell{text: total, bold: true}))
	if bill.Spoiled == 0 {
		for i := range rows {
			rows[i] = slices.Delete(rows[i], 2, 3)
		}
		columns = slices.Delete(columns, 2, 3)
	}
	t.table(columns, rows, sizeSmall+0.5)
	if !bill.Priced {
		t.paragraph("? = no pack size or price in the stunt file: write pack = … and price = … beside the colour, and the sum is worked out.", sizeSmall)
	}
	if n := t.plan.SheetsPerCard(); n > 1 {
		t.paragraph(fmt.Sprintf("Each card is larger than the paper and takes %s, which are counted here.", plural(n, "sheet")), sizeSmall)
	}
	t.paragraph(spareWords(t.plan), sizeSmall)
	t.ways()
}

// sheetCells are a line's sheets, in hands, spoiled and spare, and their sum.
func sheetCells(sheets [3]int, strong bool) []cell {
	var cells []cell
	for _, n := range sheets {
		cells = append(cells, cell{text: thousands(n), bold: strong})
	}
	return append(cells, cell{text: thousands(sheets[0] + sheets[1] + sheets[2]), bold: true})
}

// spareWords say what spares are, and what is counted for cards that go wrong.
func spareWords(p *mosaic.Plan) string {
	words := "Spares are a tenth, and five at least, of every colour in every section that shows it (common practice, no source)."
	if twoColoured(p) {
		words += " A spare has one colour: two of them held back to back stand in for a card of two."
	}
	if n := p.Bill().Spoiled; n > 0 {
		words += fmt.Sprintf(" Spoiled: %s more, since one in fifty goes wrong in the making (common practice, no source).", plural(n, "card"))
	}
	return words
}

// ways compares how else the cards could be made.
func (t *tally) ways() {
	bills, best := t.plan.Bills()
	if len(bills) < 2 {
		return
	}
	t.y += 1.5
	var rows [][]cell
	pricedAll := true
	for _, b := range bills {
		pricedAll = pricedAll && b.Priced
	}
	for i, b := range bills {
		cost := "not known"
		if b.Priced {
			cost = goods(b.GoodsCents)
		}
		note := ""
		if i == 0 {
			note = "this plan"
		}
		if i == best && b.Priced && pricedAll {
			note = joinNotes(note, "cheapest, work counted in")
		}
		if b.Short() {
			note = joinNotes(note, "the stock does not reach")
		}
		rows = append(rows, []cell{{text: string(b.Making), bold: i == 0}, {text: thousands(b.Cards)}, {text: thousands(b.Sheets)}, {text: thousands(b.Toner)},
			{text: hours(b.Minutes)}, {text: cost}, {text: note}})
	}
	t.table([]column{{head: "Cards made as"}, {head: "Cards", right: true}, {head: "Sheets", right: true}, {head: "Sides of toner", right: true},
		{head: "Work", right: true}, {head: "Goods", right: true}, {head: "", share: 1}}, rows, sizeSmall+0.5)
	if wage := t.plan.Stunt.Work.WageCents; wage > 0 {
		t.paragraph("An hour of work counts "+money(wage)+" where ways are compared.", sizeSmall)
	} else {
		t.paragraph("An hour of work counts nothing in money: write wage = … under [print] if it should.", sizeSmall)
	}
}

// madeWith says what is counted among the cards that are made.
func madeWith(p *mosaic.Plan) string {
	b := p.Bill()
	if b.Spoiled > 0 {
		return fmt.Sprintf(", %d spoiled and %s counted in", b.Spoiled, plural(b.Spares, "spare"))
	}
	return fmt.Sprintf(", %s counted in", plural(b.Spares, "spare"))
}

func joinNotes(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

func hours(minutes int) string { return fmt.Sprintf("%d:%02d h", minutes/60, minutes%60) }

// hours says how long one person prints, makes and deals, and all helpers lay.
func (t *tally) hours() {
	w := workOf(t.plan, t.sections)
	if w.cards == 0 {
		return
	}
	t.heading("Hours")
	spec := t.plan.Stunt.Laying
	lay := fmt.Sprintf("%s a card and %s a row, shared by %s", seconds(spec.PerCard), seconds(spec.PerRow), plural(w.helpers, "helper"))
	if spec.Pass {
		lay = fmt.Sprintf("%s a row to hand in, shared by %s; then the longest row at %s a card", seconds(spec.PerRow), plural(w.helpers, "helper"), seconds(spec.PerCard))
	}
	rows := [][]cell{
		{{text: w.printing.what}, {text: w.printing.words()},
			{text: fmt.Sprintf("%d pages a minute, jams counted in, and %s a job of at most %d sheets", printPages, minuteWords(loadJob), jobSheets)}, {text: hours(minutes(w.print))}},
	}
	if w.making > 0 {
		rows = append(rows, []cell{{text: "Make cards"}, {text: plural(t.plan.Bill().Cards, "card") + madeWith(t.plan)}, {text: "one person"}, {text: hours(minutes(w.making))}})
	}
	if w.cut > 0 {
		speed := fmt.Sprintf("one person, %s a piece", seconds(cutPerPiece))
		if w.printing.cuts == 0 {
			speed = fmt.Sprintf("one person, %s a pile with its stacking", minuteWords(cutPerPile))
		}
		rows = append(rows, []cell{{text: "Cut"}, {text: w.printing.cutWords()}, {text: speed}, {text: hours(minutes(w.cut))}})
	}
	if w.labels > 0 {
		rows = append(rows, []cell{{text: "Stick on"}, {text: plural(w.labels, "label")}, {text: fmt.Sprintf("one person, %s a label", seconds(mosaic.StickPerLabel))}, {text: hours(minutes(w.stick))}})
	}
	rows = append(rows,
		[]cell{{text: "Deal"}, {text: fmt.Sprintf("%s into %s", plural(w.cards, "card"), plural(w.bags, "row bag"))},
			{text: fmt.Sprintf("one person, %s a card and %s a bag", seconds(mosaic.DealPerCard), seconds(mosaic.DealPerBag))}, {text: hours(minutes(w.deal))}},
		[]cell{{text: sentenceCase(layWord(t.plan))}, {text: fmt.Sprintf("%s along %s", plural(w.cards, "card"), plural(w.bags, "row"))}, {text: lay}, {text: hours(minutes(w.lay))}})
	t.table([]column{{head: "Work"}, {head: "How much", share: 1}, {head: "At which speed", share: 1.2}, {head: "Time", right: true}}, rows, sizeSmall+0.5)
	t.paragraph("These speeds are common practice without a source. Time the first fifty cards and put the true figure here: ______ seconds a card.", sizeSmall)
}

func sentenceCase(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// spares lists what is kept back, by section and colour.
func (t *tally) spares() {
	var rows [][]cell
	all := make([]int, len(t.plan.Stunt.Colours))
	counts := t.plan.SpareTally()
	if len(counts) == 0 {
		return
	}
	var names []string
	for _, section := range withCards(t.sections) {
		names = append(names, t.plan.Stands.Sections[section[0].section].Name)
	}
	for _, section := range counts {
		for c, n := range section {
			all[c] += n
		}
	}
	t.heading("Spares to keep beside each section")
	for from := 0; from < len(all); from += tallyColumns {
		to := min(from+tallyColumns, len(all))
		columns := []column{{head: "Section"}}
		for c := from; c < to; c++ {
			columns = append(columns, column{head: t.plan.Stunt.Colours[c].Name, right: true})
		}
		columns = append(columns, column{share: 1})
		rows = rows[:0]
		for i, name := range names {
			rows = append(rows, append(countCells(name, counts[i][from:to], false), cell{}))
		}
		rows = append(rows, append(countCells("All spares", all[from:to], true), cell{}))
		t.table(columns, rows, sizeSmall+0.5)
	}
}

// countCells is one line of counts with their sum.
func countCells(name string, counts []int, strong bool) []cell {
	row := []cell{{text: name, bold: strong}}
	for _, n := range counts {
		text := "–"
		if n > 0 {
			text = thousands(n)
		}
		row = append(row, cell{text: text, bold: strong})
	}
	return row
}

// byRow lists the cards in people's hands, kind by row, with sums for sections and in all.
func (t *tally) byRow() {
	kinds := len(t.plan.Cards)
	for from := 0; from < kinds; from += tallyColumns {
		to := min(from+tallyColumns, kinds)
		title := "Cards in people's hands, row by row"
		if kinds > tallyColumns {
			title += fmt.Sprintf(" (kinds %d to %d of %d)", from+1, to, kinds)
		}
		t.heading(title)
		last := to == kinds
		columns := []column{{head: "Row"}}
		for _, c := range t.plan.Cards[from:to] {
			columns = append(columns, column{head: strings.Replace(c.ID, "/", "/ ", 1), right: true})
		}
		if last {
			columns = append(columns, column{head: "All cards", right: true})
		}
		columns = append(columns, column{share: 1})
		rows := t.rowLines(from, to, last)
		t.table(columns, rows, t.onePage(len(rows)))
	}
}

// onePage is the type for a table of so many lines: a little smaller where that keeps a few of them from a page of
// their own.
func (t *tally) onePage(lines int) float64 {
	room := t.bottom() - t.y - 2*lineHeight(sizeSmall)
	for size := sizeSmall + 0.5; size >= 7; size -= 0.5 {
		if float64(lines)*(lineHeight(size)+cellAir) <= room {
			return size
		}
	}
	return sizeSmall + 0.5
}

func (t *tally) rowLines(from, to int, withSum bool) [][]cell {
	var rows [][]cell
	all := make([]int, len(t.plan.Cards))
	add := func(name string, counts []int, strong bool) {
		line := countCells(name, counts[from:to], strong)
		if withSum {
			sum := 0
			for _, n := range counts {
				sum += n
			}
			line = append(line, cell{text: thousands(sum), bold: true})
		}
		rows = append(rows, append(line, cell{}))
	}
	for _, section := range t.sections {
		if !anyCards(section) {
			continue
		}
		sums := make([]int, len(all))
		for i := range section {
			add(section[i].name(t.plan), section[i].cards, false)
			for c, n := range section[i].cards {
				sums[c] += n
				all[c] += n
			}
		}
		add("Section "+t.plan.Stands.Sections[section[0].section].Name, sums, true)
	}
	add("All sections", all, true)
	return rows
}
