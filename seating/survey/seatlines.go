package survey

import (
	"slices"
	"strconv"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// readSeatLines reads a table with a line a seat, and says whether it is one. Where its cells are ranges, or counts,
// the column is read as one of seats.
func (b *tableBody) readSeatLines() bool {
	col := b.at[fSeat]
	asSeats := func() bool {
		b.at[fSeats], b.at[fSeat] = col, -1
		return false
	}
	type key struct{ section, row string }
	rows, lines, again := map[key]int{}, 0, 0
	for row := b.row + 1; row < b.end; row++ {
		text := b.sheet.At(row, col).Text
		if text == "" {
			continue
		}
		if _, ok := seatNumber(strings.TrimSuffix(text, ".0")); !ok {
			if lines == 0 {
				return asSeats()
			}
			continue
		}
		k := key{b.sheet.At(row, b.at[fSection]).Text, b.sheet.At(row, b.at[fRow]).Text}
		if rows[k]++; rows[k] > 1 {
			again++
		}
		lines++
	}
	if lines == 0 {
		return asSeats()
	}
	if again == 0 {
		b.ask(b.sheet, b.row, col, "below it may stand how many seats a row has, or the number of one seat a line",
			`name the column "number of seats" where they are counted`)
		return asSeats()
	}
	b.seatByLine()
	return true
}

// seatByLine gathers the numbers of every row.
func (b *tableBody) seatByLine() {
	type key struct {
		section *section
		row     string
	}
	seen := map[key]*line{}
	numbers := map[*line][]int{}
	var order []*line
	row0 := ""
	for row := b.row + 1; row < b.end; row++ {
		cols := b.cols(b.reader, row)
		if len(cols) == 0 || b.total(b.header, row, cols, b.current) || b.aside(row, cols) {
			continue
		}
		if !slices.ContainsFunc(cols, func(col int) bool { return b.field(col) != noField }) {
			continue
		}
		s := b.lineSection(row)
		if s != b.current {
			row0 = ""
		}
		b.current = s
		if col := b.at[fRow]; b.sheet.open(row, col) && !cells.Ditto(b.sheet.At(row, col).Text) {
			row0 = b.rowName(row, col)
		} else {
			b.sheet.take(row, col)
		}
		n, ok := seatNumber(strings.TrimSuffix(b.sheet.At(row, b.at[fSeat]).Text, ".0"))
		if !ok || b.sheet.At(row, b.at[fSeat]).Date != "" || n < 1 || n > maxRowSeats*10 {
			b.lose(row, b.at[fSeat], "it is no seat's number")
			continue
		}
		b.sheet.take(row, b.at[fSeat])
		k := key{s, row0}
		l := seen[k]
		if l == nil {
			if len(s.lines) >= seating.MaxRows {
				b.lose(row, b.at[fSeat],
					"with it section "+s.spec.Name+" has more than "+strconv.Itoa(seating.MaxRows)+" rows: it "+
						"is left out")
				continue
			}
			l = &line{sheet: b.sheet, row: row, col: b.at[fSeat], name: row0, nameCol: -1, benchCol: -1, of: 1}
			if b.at[fRow] >= 0 {
				l.side, _ = sideOfText(b.sheet.At(row, b.at[fRow]).Text)
				l.sideText, l.sideCol = b.sheet.At(row, b.at[fRow]).Text, b.at[fRow]
			}
			seen[k] = l
			order = append(order, l)
			s.lines = append(s.lines, l)
		}
		numbers[l] = append(numbers[l], n)
		for f := fMissing; f <= fNobody; f++ {
			if at := b.at[f]; b.sheet.open(row, at) {
				b.useOfSeat(l, row, at, f, n)
			}
		}
		for f := fPitch; f <= fStep; f++ {
			if b.sheet.open(row, b.at[f]) {
				b.sectionCell(b.header, s, l, f)
			}
		}
		b.height(l, row)
		for _, f := range []field{fRows, fBench, fMissingCount, fCapacity} {
			if b.sheet.open(row, b.at[f]) {
				b.lose(row, b.at[f], "it does not belong to a line a seat")
			}
		}
	}
	for _, l := range order {
		list := numbers[l]
		slices.Sort(list)
		whole := slices.Compact(slices.Clone(list))
		if len(whole) < len(list) {
			b.ask(l.sheet, l.row, l.col, "a seat of row "+l.name+" has more than one line", "leave one of them")
		}
		l.text = seatText{list: true}
		for _, n := range whole {
			l.text.spans = append(l.text.spans, [2]int{n, n})
		}
	}
}

// useOfSeat reads what a line says of its seat alone.
func (b *tableBody) useOfSeat(l *line, row, col int, f field, n int) {
	text := cells.Plain(b.sheet.At(row, col).Text)
	use := -1
	switch {
	case nothing(b.sheet.At(row, col).Text):
		b.sheet.take(row, col)
		return
	case f == fReserved:
		for i, name := range seating.ReservedFor {
			if strings.Contains(text, name) {
				use = i
			}
		}
	case f >= fWheelchair && slices.Contains([]string{"x", "yes", "y", "1", "true"}, text):
		use = int(f - fWheelchair)
	}
	if use < 0 {
		b.lose(row, col, "it does not say for whom this one seat is kept")
		return
	}
	b.sheet.take(row, col)
	l.uses = append(l.uses, seatUse{fWheelchair + field(use), n})
}

// seatUse is what one seat of a row is kept for.
type seatUse struct {
	field  field
	number int
}
