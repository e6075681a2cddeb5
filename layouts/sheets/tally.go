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

// tallyType is the type of the tally's tables.
const tallyType = paper.SizeSmall + 0.5

// Tally writes tally.pdf: the cards by kind for every row, section and in all, the spares, what to buy and what it
// costs, and the hours that printing and dealing take. Errors are *seating.Fault.
func Tally(w io.Writer, b *brief.Brief) error {
	return running(w, b, "Tally", "Tally: cards, sheets, money, hours", func(f *flow) {
		t := &b.Paper.Tally
		f.buy(t)
		if len(t.Besides) > 0 {
			f.Heading("And besides")
			table(f, tallyType, []column{{"What", 0, 0}, {"For how much", 0, 0}, {"Use", 1, 0}}, t.Besides, nil)
		}
		if len(t.Hours) > 0 {
			f.Heading("Hours")
			table(f, tallyType, []column{{"Work", 0, 0}, {"How much", 1, 0}, {"At which speed", 1.2, 0},
				{"Time", 0, right}}, t.Hours, nil)
			f.Paragraph("These speeds are common practice without a source. Time the first fifty cards and put the "+
				"true figure here: ______ seconds a card.", paper.SizeSmall)
		}
		f.counts("Spares to keep beside each section", "Section", t.Spares, false)
		f.counts("Cards in people's hands, row by row", "Row", t.ByRow, true)
	})
}

// buy lists every colour: what goes into hands, what is kept back, what must be bought, and how else the cards could
// be made.
func (f *flow) buy(t *brief.Tally) {
	if len(t.Buy) == 0 && !t.NoCards {
		return
	}
	f.Heading("What to buy")
	if t.NoCards {
		f.Paragraph("Nothing: nobody holds a card in this plan.", paper.SizeBody)
		return
	}
	columns := []column{{"Colour", 1, 0}, {"In hands", 0, right}, {"Spoiled", 0, right}, {"Spare", 0, right},
		{"Sheets", 0, right}, {"In stock", 0, right}, {"Buy", 0, right}, {"Left over", 0, right},
		{"Price a pack", 0, right}, {"Cost", 0, right}}
	const spoiled, sheets = 2, 4
	heads, cells := tableOf(columns, t.Buy, func(l *brief.BuyLine, cells []paper.Cell) {
		cells[0].Colour = l.Colour + 1
		for _, k := range []int{0, 1, 2, 3, 9} {
			cells[k].Bold = l.Together
		}
		cells[sheets].Bold = true
	})
	if !t.Spoils {
		for i := range cells {
			cells[i] = slices.Delete(cells[i], spoiled, spoiled+1)
		}
		heads = slices.Delete(heads, spoiled, spoiled+1)
	}
	f.Table(heads, cells, tallyType)
	if t.Unpriced {
		f.Paragraph("? = no pack size or price in the stunt file: write pack = … and price = … beside the colour, "+
			"and the sum is worked out.", paper.SizeSmall)
	}
	if t.Tiles != "" {
		f.Paragraph(t.Tiles, paper.SizeSmall)
	}
	f.Paragraph(t.SpareWords, paper.SizeSmall)
	if len(t.Ways) > 0 {
		f.Y += 1.5
		table(f, tallyType, []column{{"Cards made as", 0, 0}, {"Cards", 0, right}, {"Sheets", 0, right},
			{"Sides of toner", 0, right}, {"Work", 0, right}, {"Goods", 0, right}, {"", 1, 0}}, t.Ways,
			func(l *brief.WayLine, cells []paper.Cell) { cells[0].Bold = l.Own })
		f.Paragraph(t.Wage, paper.SizeSmall)
	}
}

// counts is a table of counts, a few columns at a time; kinds are numbered and every line has its sum behind the last.
func (f *flow) counts(title, first string, c *brief.CountTable, kinds bool) {
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
			f.Heading(heading)
		}
		sums := kinds && to == all
		columns := []column{{first, 0, 0}}
		for _, name := range c.Columns[from:to] {
			columns = append(columns, column{name, 0, right})
		}
		if sums {
			columns = append(columns, column{"All cards", 0, right | strong})
		}
		lines := make([]brief.CountLine, len(c.Lines))
		for i, l := range c.Lines {
			if l.Counts = l.Counts[from:to]; !sums {
				l.All = ""
			}
			lines[i] = l
		}
		size := tallyType
		if kinds {
			size = f.onePage(len(lines))
		}
		table(f, size, append(columns, column{"", 1, 0}), lines, func(l *brief.CountLine, cells []paper.Cell) {
			for k := range cells[:1+len(l.Counts)] {
				cells[k].Bold = l.Sum
			}
		})
	}
}

// onePage is the type for a table of so many lines: a little smaller where that keeps a few of them from a page of
// their own.
func (f *flow) onePage(lines int) float64 {
	room := f.Bottom() - f.Y - 2*paper.LineHeight(paper.SizeSmall)
	for size := tallyType; size >= 7; size -= 0.5 {
		if float64(lines)*(paper.LineHeight(size)+paper.CellAir) <= room {
			return size
		}
	}
	return tallyType
}
