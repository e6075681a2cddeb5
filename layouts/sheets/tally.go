package sheets

import (
	"fmt"
	"io"
	"slices"

	"everyseat/layouts/paper"
	"everyseat/mosaic/brief"
)

// tallyColumns is how many kinds of card stand side by side in a table; more come in further tables.
const tallyColumns = 7

// Tally writes tally.pdf: the cards by kind for every row, section and in all, the spares, what to
// buy and what it costs, and the hours that printing and dealing take. Errors are *seating.Fault.
func Tally(w io.Writer, b *brief.Brief) error {
	f, err := uprightFlow(b, "Tally")
	if err != nil {
		return err
	}
	f.Title("Tally: cards, sheets, money, hours", b.Paper.Occasion)
	t := tally{f, &b.Paper.Tally}
	t.buy()
	t.besides()
	t.hours()
	t.counts("Spares to keep beside each section", "Section", t.words.Spares, false)
	t.counts("Cards in people's hands, row by row", "Row", t.words.ByRow, true)
	return f.Finish(w)
}

type tally struct {
	*flow
	words *brief.Tally
}

// buy lists every colour: what goes into hands, what is kept back, what must be bought.
func (t *tally) buy() {
	if len(t.words.Buy) == 0 && !t.words.NoCards {
		return
	}
	t.Heading("What to buy")
	if t.words.NoCards {
		t.Paragraph("Nothing: nobody holds a card in this plan.", paper.SizeBody)
		return
	}
	columns := []paper.Column{{Head: "Colour", Share: 1}, {Head: "In hands", Right: true}, {Head: "Spoiled", Right: true},
		{Head: "Spare", Right: true}, {Head: "Sheets", Right: true},
		{Head: "In stock", Right: true}, {Head: "Buy", Right: true}, {Head: "Left over", Right: true},
		{Head: "Price a pack", Right: true}, {Head: "Cost", Right: true}}
	var rows [][]paper.Cell
	for _, l := range t.words.Buy {
		strong := l.Together
		rows = append(rows, []paper.Cell{{Text: l.Name, Colour: l.Colour + 1, Bold: strong}, {Text: l.InHands, Bold: strong},
			{Text: l.Spoiled, Bold: strong}, {Text: l.Spare, Bold: strong}, {Text: l.Sheets, Bold: true},
			{Text: l.Stock}, {Text: l.Buy}, {Text: l.Left}, {Text: l.Price}, {Text: l.Cost, Bold: strong}})
	}
	if !t.words.Spoils {
		for i := range rows {
			rows[i] = slices.Delete(rows[i], 2, 3)
		}
		columns = slices.Delete(columns, 2, 3)
	}
	t.Table(columns, rows, paper.SizeSmall+0.5)
	if t.words.Unpriced {
		t.Paragraph("? = no pack size or price in the stunt file: write pack = … and price = … beside the colour, and "+
			"the sum is worked out.", paper.SizeSmall)
	}
	if t.words.Tiles != "" {
		t.Paragraph(t.words.Tiles, paper.SizeSmall)
	}
	t.Paragraph(t.words.SpareWords, paper.SizeSmall)
	t.ways()
}

// ways compare how else the cards could be made.
func (t *tally) ways() {
	if len(t.words.Ways) == 0 {
		return
	}
	t.Y += 1.5
	var rows [][]paper.Cell
	for _, l := range t.words.Ways {
		rows = append(rows, []paper.Cell{{Text: l.MadeAs, Bold: l.Own}, {Text: l.Cards}, {Text: l.Sheets}, {Text: l.Toner},
			{Text: l.Work}, {Text: l.Goods}, {Text: l.Note}})
	}
	t.Table([]paper.Column{{Head: "Cards made as"}, {Head: "Cards", Right: true}, {Head: "Sheets", Right: true},
		{Head: "Sides of toner", Right: true}, {Head: "Work", Right: true}, {Head: "Goods", Right: true},
		{Head: "", Share: 1}}, rows, paper.SizeSmall+0.5)
	t.Paragraph(t.words.Wage, paper.SizeSmall)
}

// besides is what is needed beside the cards' stock.
func (t *tally) besides() {
	if len(t.words.Besides) == 0 {
		return
	}
	t.Heading("And besides")
	var rows [][]paper.Cell
	for _, l := range t.words.Besides {
		rows = append(rows, []paper.Cell{{Text: l.What}, {Text: l.Much}, {Text: l.Use}})
	}
	t.Table([]paper.Column{{Head: "What"}, {Head: "For how much"}, {Head: "Use", Share: 1}}, rows, paper.SizeSmall+0.5)
}

// hours say how long one person prints, makes and deals, and all helpers lay.
func (t *tally) hours() {
	if len(t.words.Hours) == 0 {
		return
	}
	t.Heading("Hours")
	var rows [][]paper.Cell
	for _, l := range t.words.Hours {
		rows = append(rows, []paper.Cell{{Text: l.What}, {Text: l.Much}, {Text: l.Speed}, {Text: l.Time}})
	}
	t.Table([]paper.Column{{Head: "Work"}, {Head: "How much", Share: 1}, {Head: "At which speed", Share: 1.2},
		{Head: "Time", Right: true}}, rows, paper.SizeSmall+0.5)
	t.Paragraph("These speeds are common practice without a source. Time the first fifty cards and put the true figure "+
		"here: ______ seconds a card.", paper.SizeSmall)
}

// counts is a table of counts, a few columns at a time; kinds are numbered and every line has its sum behind the last.
func (t *tally) counts(title, first string, c *brief.CountTable, kinds bool) {
	if c == nil {
		return
	}
	all := len(c.Columns)
	for from := 0; from < all; from += tallyColumns {
		to := min(from+tallyColumns, all)
		heading := title
		if kinds && all > tallyColumns {
			heading += fmt.Sprintf(" (kinds %d to %d of %d)", from+1, to, all)
		}
		if kinds || from == 0 {
			t.Heading(heading)
		}
		sums := kinds && to == all
		columns := []paper.Column{{Head: first}}
		for _, name := range c.Columns[from:to] {
			columns = append(columns, paper.Column{Head: name, Right: true})
		}
		if sums {
			columns = append(columns, paper.Column{Head: "All cards", Right: true})
		}
		var rows [][]paper.Cell
		for _, l := range c.Lines {
			row := []paper.Cell{{Text: l.Name, Bold: l.Sum}}
			for _, n := range l.Counts[from:to] {
				row = append(row, paper.Cell{Text: n, Bold: l.Sum})
			}
			if sums {
				row = append(row, paper.Cell{Text: l.All, Bold: true})
			}
			rows = append(rows, append(row, paper.Cell{}))
		}
		size := paper.SizeSmall + 0.5
		if kinds {
			size = t.onePage(len(rows))
		}
		t.Table(append(columns, paper.Column{Share: 1}), rows, size)
	}
}

// onePage is the type for a table of so many lines: a little smaller where that keeps a few of them from a page of
// their own.
func (t *tally) onePage(lines int) float64 {
	room := t.Bottom() - t.Y - 2*paper.LineHeight(paper.SizeSmall)
	for size := paper.SizeSmall + 0.5; size >= 7; size -= 0.5 {
		if float64(lines)*(paper.LineHeight(size)+paper.CellAir) <= room {
			return size
		}
	}
	return paper.SizeSmall + 0.5
}
