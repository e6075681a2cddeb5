package tables

import (
	"cmp"
	"io"
	"strconv"

	"github.com/xuri/excelize/v2"

	"everyseat/mosaic"
)

// Workbook writes seats.xlsx: the table of Seats in one sheet, ids as text,
// the header frozen, with filters, and the cue cells filled with their colours.
// Errors are those of w.
func Workbook(w io.Writer, p *mosaic.Plan) error {
	f := excelize.NewFile()
	defer f.Close()
	const sheet = "seats"
	styles, err := colourStyles(f, p)
	if err != nil {
		return err
	}
	// The filter comes first: later the library reads all rows in again to add it.
	table := "A1:" + cellName(len(header(p)), len(p.Order)+1)
	if err := cmp.Or(f.SetSheetName("Sheet1", sheet), f.AutoFilter(sheet, table, nil)); err != nil {
		return err
	}
	out, err := f.NewStreamWriter(sheet)
	if err != nil {
		return err
	}
	if err := writeRows(out, p, styles); err != nil {
		return err
	}
	if err := out.Flush(); err != nil {
		return err
	}
	return f.Write(w)
}

// cellName is "B7" for column 2 and row 7; the library refuses the "" of a place that is on no sheet.
func cellName(column, row int) string {
	name, _ := excelize.CoordinatesToCellName(column, row)
	return name
}

// styles are the looks of the workbook's cells, by colour of the palette and for the header.
type styles struct {
	header  int
	text    int // ids: a spreadsheet keeps them as they are when somebody edits them
	money   int
	colours []int
}

func colourStyles(f *excelize.File, p *mosaic.Plan) (s styles, err error) {
	add := func(look excelize.Style) (id int) {
		if err == nil {
			id, err = f.NewStyle(&look)
		}
		return id
	}
	const asText, twoDecimals = 49, 2 // built-in number formats (ECMA-376 part 1, 18.8.30)
	s.header = add(excelize.Style{Font: &excelize.Font{Bold: true}})
	s.text = add(excelize.Style{NumFmt: asText})
	s.money = add(excelize.Style{NumFmt: twoDecimals})
	for _, c := range p.Stunt.Colours {
		ink := "#000000"
		if c.RGB.Linear().Luminance() < 0.179 { // where black and white stand out alike (WCAG contrast)
			ink = "#ffffff"
		}
		s.colours = append(s.colours, add(excelize.Style{
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{c.RGB.Hex()}},
			Font: &excelize.Font{Color: ink},
		}))
	}
	return s, err
}

func writeRows(out *excelize.StreamWriter, p *mosaic.Plan, s styles) error {
	names := header(p)
	for i, wide := range []float64{8, 16, 12, 8, 8, 12, 10} {
		if err := out.SetColWidth(i+1, i+1, wide); err != nil {
			return err
		}
	}
	if len(p.Cues) > 0 {
		if err := out.SetColWidth(8, 7+2*len(p.Cues), 14); err != nil {
			return err
		}
	}
	panes := excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}
	if err := out.SetPanes(&panes); err != nil {
		return err
	}
	cells := make([]any, len(names))
	for i, n := range names {
		cells[i] = excelize.Cell{StyleID: s.header, Value: n}
	}
	if err := out.SetRow("A1", cells); err != nil {
		return err
	}
	var line []string
	for k, seat := range p.Order {
		line = record(line[:0], p, k, seat)
		for i, text := range line {
			cells[i] = cellOf(p, s, i, seat, text)
		}
		if err := out.SetRow("A"+strconv.Itoa(k+2), cells); err != nil {
			return err
		}
	}
	return nil
}

// cellOf gives numbers as numbers, everything else as text, and cues their colour.
func cellOf(p *mosaic.Plan, s styles, column int, seat int32, text string) any {
	switch {
	case text == "":
		return nil
	case column == 0 || column == 4:
		if n, err := strconv.Atoi(text); err == nil {
			return n
		}
	case column >= 7 && column < 7+len(p.Cues):
		return excelize.Cell{StyleID: s.colours[p.Cues[column-7].Colours[seat]], Value: text}
	}
	return excelize.Cell{StyleID: s.text, Value: text}
}
