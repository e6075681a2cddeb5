package tables

import (
	"io"
	"slices"

	"github.com/xuri/excelize/v2"

	"everyseat/mosaic"
	"everyseat/mosaic/stock"
)

// Tally writes tally.xlsx, in three sheets whose first column says what a line is, to filter by:
//
//	cards   a line a row in laying order, then a line a section, then all: how many of each kind of card
//	        people hold
//	sheets  the same in sheets of each colour of stock; spares by section and in all, sheets that are
//	        spoiled in making, all together, and the packs to buy
//	buy     a line a colour: sheets in hands, spare, together, in stock, packs to buy and what they cost
//
// Ids are text, headers stay in sight, colours are filled. Errors are those of w.
func Tally(w io.Writer, p *mosaic.Plan) error {
	f := excelize.NewFile()
	defer f.Close()
	t := &tallyBook{file: f, plan: p, rows: p.Tally()}
	var err error
	if t.styles, err = colourStyles(f, p); err != nil {
		return err
	}
	if err := f.SetSheetName("Sheet1", "cards"); err != nil {
		return err
	}
	for _, sheet := range []struct {
		name  string
		write func(*tallySheet)
	}{{"cards", t.cards}, {"sheets", t.sheets}, {"buy", t.buy}} {
		if _, err := f.NewSheet(sheet.name); err != nil { // that which is there stays
			return err
		}
		s := &tallySheet{}
		sheet.write(s)
		if err := t.put(sheet.name, s); err != nil {
			return err
		}
	}
	return f.Write(w)
}

// tallyBook is the workbook on its way.
type tallyBook struct {
	file   *excelize.File
	plan   *mosaic.Plan
	rows   []mosaic.RowTally
	styles styles
}

// tallySheet is one table; the first line is its header.
type tallySheet struct {
	lines  [][]excelize.Cell
	widths []float64
	ids    int // columns on the left that stay in sight, too
}

func (s *tallySheet) add(cells ...excelize.Cell) { s.lines = append(s.lines, cells) }

// put writes a sheet: header, panes, widths, filter. It does so cell by cell, since the library puts several
// streams into the file in no order.
func (t *tallyBook) put(name string, s *tallySheet) error {
	f := t.file
	for i := range s.lines[0] {
		wide := 12.0
		if i < len(s.widths) {
			wide = s.widths[i]
		}
		column, _ := excelize.ColumnNumberToName(i + 1)
		if err := f.SetColWidth(name, column, column, wide); err != nil {
			return err
		}
	}
	for i, line := range s.lines {
		for k, c := range line {
			if c.Value == nil {
				continue
			}
			at := cellName(k+1, i+1)
			if err := f.SetCellValue(name, at, c.Value); err != nil { // text is never a formula
				return err
			}
			if err := f.SetCellStyle(name, at, at, c.StyleID); err != nil {
				return err
			}
		}
	}
	panes := excelize.Panes{
		Freeze: true, XSplit: s.ids, YSplit: 1, TopLeftCell: cellName(s.ids+1, 2), ActivePane: "bottomRight",
	}
	if err := f.SetPanes(name, &panes); err != nil {
		return err
	}
	return f.AutoFilter(name, "A1:"+cellName(len(s.lines[0]), len(s.lines)), nil)
}

// strong is a head, or a sum.
func (t *tallyBook) strong(v any) excelize.Cell {
	return excelize.Cell{StyleID: t.styles.header, Value: v}
}

func (t *tallyBook) heads(words ...string) (cells []excelize.Cell) {
	for _, w := range words {
		cells = append(cells, t.strong(w))
	}
	return cells
}

// headOf names a colour or a card on its first colour.
func (t *tallyBook) headOf(words string, colour int) excelize.Cell {
	if colour < 0 {
		return t.strong(words)
	}
	return excelize.Cell{StyleID: t.styles.colours[colour], Value: words}
}

func (t *tallyBook) id(words string) excelize.Cell {
	return excelize.Cell{StyleID: t.styles.text, Value: words}
}

func count(n int) excelize.Cell { return excelize.Cell{Value: n} }

// What a line of a tally is.
const (
	lineRow     = "row"
	lineSection = "section"
	lineSpare   = "spare"
	lineSpoiled = "spoiled"
	lineAll     = "all"
	lineWhole   = "all with spares"
	linePacks   = "packs to buy"
)

// cards counts what people hold, kind by kind.
func (t *tallyBook) cards(s *tallySheet) {
	var kinds []excelize.Cell
	for _, c := range t.plan.Cards {
		kinds = append(kinds, t.headOf(c.ID, int(c.Sides[0])))
	}
	t.counted(s, 10, kinds, "cards", func(r *mosaic.RowTally) []int { return r.Cards })
}

// counted adds a head, a line a row, then one a section and one of all, and gives the sections' names.
func (t *tallyBook) counted(s *tallySheet, wide float64, columns []excelize.Cell, sum string,
	of func(*mosaic.RowTally) []int) (names []string) {
	s.ids, s.widths = 3, []float64{wide, 14, 10}
	s.add(slices.Concat(t.heads("line", "section", "row"), columns, t.heads(sum))...)
	var sections [][]int
	all := make([]int, len(columns))
	before := -1
	for i := range t.rows {
		r := &t.rows[i]
		section := &t.plan.Stands.Sections[r.Section]
		if r.Section != before {
			sections = append(sections, make([]int, len(columns)))
			names = append(names, section.Name)
			before = r.Section
		}
		n := of(r)
		for c := range n {
			all[c] += n[c]
			sections[len(sections)-1][c] += n[c]
		}
		t.line(s, lineRow, section.Name, section.Rows[r.Row].Name, n)
	}
	for i, name := range names {
		t.line(s, lineSection, name, "", sections[i])
	}
	t.line(s, lineAll, "", "", all)
	return names
}

// line adds counts with their sum; that of all is bold.
func (t *tallyBook) line(s *tallySheet, what, section, row string, counts []int) {
	cells := []excelize.Cell{t.id(what), t.id(section), t.id(row)}
	sum := 0
	for _, n := range counts {
		cell := count(n)
		if what == lineAll {
			cell = t.strong(n)
		}
		cells = append(cells, cell)
		sum += n
	}
	s.add(append(cells, t.strong(sum))...)
}

// sheets counts stock instead of cards: a card of two sheets takes one of each colour.
func (t *tallyBook) sheets(s *tallySheet) {
	bill := t.plan.Bill
	var stocks []excelize.Cell
	for _, l := range bill.Lines {
		stocks = append(stocks, t.headOf(t.stockName(l.Colour), l.Colour))
	}
	names := t.counted(s, 16, stocks, "sheets", func(r *mosaic.RowTally) []int {
		return t.stock(r.Cards, func(kind, colour int) bool {
			sides := t.plan.Cards[kind].Sides
			return int(sides[0]) == colour || int(sides[1]) == colour
		})
	})
	if len(bill.Lines) == 0 {
		return
	}
	spares := t.plan.SpareTally()
	for i, name := range names {
		t.line(s, lineSpare, name, "", t.stock(spares[i], func(k, colour int) bool { return k == colour }))
	}
	n := len(bill.Lines)
	spoiled, whole, packs := make([]int, n), make([]int, n), make([]int, n)
	for i, l := range bill.Lines {
		spoiled[i], whole[i], packs[i] = l.Spoiled, l.Sheets(), l.Packs
	}
	t.line(s, lineSpoiled, "", "", spoiled)
	t.line(s, lineWhole, "", "", whole)
	t.line(s, linePacks, "", "", packs)
}

// stockName is a colour's name, or that of the card that is printed on.
func (t *tallyBook) stockName(colour int) string {
	if colour < 0 {
		return "white card"
	}
	return t.plan.Stunt.Colours[colour].Name
}

// stock counts the sheets, by line of the bill, of what takes its colour; all take the card that is printed on.
func (t *tallyBook) stock(counts []int, takes func(k, colour int) bool) []int {
	out := make([]int, len(t.plan.Bill.Lines))
	for i, l := range t.plan.Bill.Lines {
		for k, n := range counts {
			if l.Colour < 0 || takes(k, l.Colour) {
				out[i] += n * t.plan.SheetsPerCard()
			}
		}
	}
	return out
}

// buy lists what goes into hands, what is kept back, what is bought.
func (t *tallyBook) buy(s *tallySheet) {
	s.ids, s.widths = 1, []float64{18, 10, 10, 10, 10, 10, 12, 14, 10, 12, 12}
	s.add(t.heads("colour", "in hands", "spoiled", "spare", "sheets", "in stock", "packs to buy", "sheets a pack",
		"left over", "price a pack", "cost")...)
	bill := t.plan.Bill
	var all [3]int // in hands, spoiled, spare
	for _, l := range bill.Lines {
		all[0], all[1], all[2] = all[0]+l.Cards, all[1]+l.Spoiled, all[2]+l.Spares
		s.add(append([]excelize.Cell{
			t.headOf(t.stockName(l.Colour), l.Colour),
			count(l.Cards), count(l.Spoiled), count(l.Spares), count(l.Sheets()),
		}, t.bought(&l)...)...)
	}
	last := func(first []excelize.Cell, cost excelize.Cell) {
		line := make([]excelize.Cell, len(s.widths))
		copy(line, first)
		line[len(line)-1] = cost
		s.add(line...)
	}
	if bill.Toner > 0 {
		last(t.heads("toner"), t.money(bill.TonerCents))
	}
	total := excelize.Cell{}
	if bill.Priced {
		total = t.money(bill.GoodsCents)
	}
	last([]excelize.Cell{
		t.strong("all"), t.strong(all[0]), t.strong(all[1]), t.strong(all[2]), t.strong(all[0] + all[1] + all[2]),
	}, total)
}

// bought are the cells of a line of the bill from "in stock" on; what is not known stays empty.
func (t *tallyBook) bought(l *stock.Line) []excelize.Cell {
	var have, pack, price, cost excelize.Cell
	if l.Packs > 0 {
		pack = count(1) // single sheets where the pack is not known
	}
	if l.Colour >= 0 {
		c := &t.plan.Stunt.Colours[l.Colour]
		if c.Sheets >= 0 {
			have = count(c.Sheets)
		}
		if c.Pack > 0 {
			pack = count(c.Pack)
		}
	}
	if l.Packs > 0 && l.Cents > 0 {
		price, cost = t.money(l.Cents/l.Packs), t.money(l.Cents)
	}
	return []excelize.Cell{have, count(l.Packs), pack, count(l.Left), price, cost}
}

func (t *tallyBook) money(cents int) excelize.Cell {
	return excelize.Cell{StyleID: t.styles.money, Value: float64(cents) / 100}
}
