package paper

import "strings"

// Column is one of a table.
type Column struct {
	Head  string  // one with "/ " in it stands in two lines where it must
	Share float64 // of the width that columns with one get; 0 = as wide as its widest cell
	Right bool    // its cells end at the right
}

// Cell is one entry of a table.
type Cell struct {
	Text   string
	Bold   bool
	Colour int  // 1 + number in the flow's palette of a patch before the text; 0 = none
	Other  int  // 1 + that of the patch's right half; 0 = all one colour
	Tick   bool // an empty box to tick
}

// CellAir is between the lines of a table.
const CellAir = 1.6

const (
	patchWidth = 7.0
	cellPad    = 1.6
	leastWidth = 4.0 // of a cell's text
	widestPart = 0.4 // of the table, for a column without a share
)

// Table rules a table; its head comes again on every page. Type is smaller where words would have to be broken.
func (f *Flow) Table(columns []Column, rows [][]Cell, size float64) {
	for size > SizeLeast && f.tooWide(columns, rows, size) {
		size -= 0.5
	}
	widths := f.columnWidths(columns, rows, size)
	f.Need(LineHeight(size) * 4)
	f.tableHead(columns, widths, size)
	for _, row := range rows {
		lines := make([][]string, len(row))
		most := 1
		for i, c := range row {
			lines[i] = c.weight().Wrap(c.Text, size, max(widths[i]-2*cellPad-c.before(), leastWidth))
			most = max(most, len(lines[i]))
		}
		height := float64(float64(most)*LineHeight(size)) + CellAir
		if f.Y+height > f.Bottom() {
			f.NewPage()
			f.tableHead(columns, widths, size)
		}
		f.tableRow(columns, widths, row, lines, size, height)
	}
	f.Y += 2
}

func (c *Cell) weight() Weight {
	if c.Bold {
		return Bold
	}
	return Regular
}

// before is the room that a patch or box takes before the text.
func (c *Cell) before() float64 {
	switch {
	case c.Colour > 0:
		return patchWidth + 1.5
	case c.Tick:
		return TickSide + 1.5
	}
	return 0
}

// tooWide says whether words would have to be broken at this size.
func (f *Flow) tooWide(columns []Column, rows [][]Cell, size float64) bool {
	sum := 0.0
	for i, c := range columns {
		sum += min(widest(i, c, rows, size, c.Share > 0)+2*cellPad, f.Inner()*widestPart)
	}
	return sum > f.Inner()
}

// widest is the width of a column's widest text, or of its widest word.
func widest(column int, c Column, rows [][]Cell, size float64, words bool) float64 {
	wide := 0.0
	for _, part := range strings.SplitAfter(c.Head, "/ ") {
		wide = max(wide, Bold.Width(size, part))
	}
	for _, row := range rows {
		cell := row[column]
		texts := []string{cell.Text}
		if words {
			texts = strings.Fields(cell.Text)
		}
		for _, cell.Text = range texts {
			wide = max(wide, cell.weight().Width(size, cell.Text)+cell.before())
		}
	}
	return wide
}

func (f *Flow) columnWidths(columns []Column, rows [][]Cell, size float64) []float64 {
	widths, whole := make([]float64, len(columns)), make([]float64, len(columns))
	rest := f.Inner()
	for i, c := range columns {
		whole[i] = widest(i, c, rows, size, false) + (2*cellPad + 0.1)
		if c.Share == 0 {
			widths[i] = min(whole[i], f.Inner()*widestPart)
			rest -= widths[i]
		}
	}
	shareWidth(columns, widths, whole, rest)
	// Too much to fit: everything shrinks alike and the cells wrap.
	if sum := sumOf(widths); sum > f.Inner() {
		for i := range widths {
			widths[i] *= f.Inner() / sum
		}
	}
	return widths
}

// shareWidth gives the rest of a table's width to the columns with a share. One whose longest text needs less than its
// share takes no more than that while others have too little.
func shareWidth(columns []Column, widths, whole []float64, rest float64) {
	const least = 8
	content := make([]bool, len(columns)) // with its whole text
	sumShares := func() float64 {
		sum := 0.0
		for i, c := range columns {
			if !content[i] {
				sum += c.Share
			}
		}
		return sum
	}
	all := sumShares()
	for open := all; open > 0; open = sumShares() {
		each, left, settled := rest/open, rest, true
		for i, c := range columns {
			if c.Share > 0 && !content[i] && whole[i] <= each*c.Share {
				widths[i], content[i], settled = whole[i], true, false
				left -= whole[i]
			}
		}
		if rest = left; !settled {
			continue
		}
		for i, c := range columns {
			if c.Share > 0 && !content[i] {
				widths[i] = max(each*c.Share, least)
			}
		}
		return
	}
	for i, c := range columns { // all have their text: what is left is shared out
		if c.Share > 0 {
			widths[i] += rest * c.Share / all
		}
	}
}

func sumOf(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += v
	}
	return sum
}

func (f *Flow) tableHead(columns []Column, widths []float64, size float64) {
	most := 1
	heads := make([][]string, len(columns))
	for i, c := range columns {
		heads[i] = Bold.Wrap(c.Head, size, max(widths[i]-2*cellPad, leastWidth))
		most = max(most, len(heads[i]))
	}
	x := f.Left()
	for i, c := range columns {
		for n, line := range heads[i] {
			y := f.Y + float64(float64(most-len(heads[i])+n+1)*LineHeight(size))
			f.cellText(x, y, widths[i], size, Bold, line, c.Right)
		}
		x += widths[i]
	}
	f.Y += float64(float64(most)*LineHeight(size)) + 1
	f.Stroke(Black, 0.4)
	f.Line(f.Left(), f.Y+0.3, f.Left()+sumOf(widths), f.Y+0.3)
	f.Y += 0.6
}

func (f *Flow) cellText(x, y, width, size float64, w Weight, s string, right bool) {
	if right {
		f.TextRight(x+width-cellPad, y, size, w, s)
	} else {
		f.Text(x+cellPad, y, size, w, s)
	}
}

func (f *Flow) tableRow(columns []Column, widths []float64, row []Cell, lines [][]string, size, height float64) {
	x := f.Left()
	base := f.Y + 0.5 + float64(LineHeight(size)*0.9)
	for i, c := range row {
		switch {
		case c.Colour > 0:
			wide, high := patchWidth, LineHeight(size)*0.95
			if c.Other > 0 {
				wide /= 2
				f.Swatch(x+cellPad+wide, f.Y+1, wide, high, f.Palette[c.Other-1])
			}
			f.Swatch(x+cellPad, f.Y+1, wide, high, f.Palette[c.Colour-1])
		case c.Tick:
			f.Tick(x+cellPad, base-float64(CapHeight(size)/2))
		}
		for n, line := range lines[i] {
			y := base + float64(float64(n)*LineHeight(size))
			f.cellText(x+c.before(), y, widths[i]-c.before(), size, c.weight(), line, columns[i].Right)
		}
		x += widths[i]
	}
	f.Y += height
	f.Stroke(Grey, 0.12)
	f.Line(f.Left(), f.Y, f.Left()+sumOf(widths), f.Y)
}
