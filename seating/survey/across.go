package survey

import (
	"regexp"
	"slices"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// readAcross reads a table with sections across and rows down, or the other way round: "Row | A | B | C" and below it
// how many seats each has, or their numbers. It says whether there is one.
func (r *reader) readAcross() bool {
	found := false
	for row := 0; row < r.sheet.Rows(); row++ {
		if end, ok := r.acrossAt(row); ok {
			found = true
			row = end - 1
		}
	}
	return found
}

// acrossAt reads the one whose names stand in a line; end is the line behind it.
func (r *reader) acrossAt(head int) (end int, ok bool) {
	cols := r.openCols(head)
	if len(cols) < 2 {
		return 0, false
	}
	corner, names := noField, cols[1:]
	switch f, _ := fieldOf(r.sheet.At(head, cols[0]).Text); f {
	case fRow, fRows:
		corner = fRow
	case fSection:
		corner = fSection
	default:
		if cols[0] == 0 || !isNames(r, head, cols) {
			return 0, false
		}
		names = cols
	}
	first := cols[0]
	if len(names) == len(cols) {
		first = cols[0] - 1
	}
	for _, col := range names {
		if f, _ := fieldOf(r.sheet.At(head, col).Text); f != noField && f != fNobody ||
			r.sheet.At(head, col).Date != "" {
			return 0, false
		}
	}
	total := -1
	if i := slices.IndexFunc(names, func(col int) bool { return isTotal(r.sheet.At(head, col).Text) }); i >= 0 {
		total, names = names[i], slices.Delete(slices.Clone(names), i, i+1)
	}
	// The cells below are counts or numbers of seats, not signs.
	counts, others, idle := 0, 0, 0
	for end = head + 1; end < r.sheet.Rows(); end++ {
		line := r.openCols(end)
		if len(line) == 0 {
			continue
		}
		if len(line) > 1 && line[0] < first {
			break
		}
		if idle++; others > 8 && others*4 > counts || idle > 100 {
			return 0, false // of a long table, its beginning tells
		}
		for _, col := range names {
			text := r.sheet.At(end, col).Text
			t, why, unsure := readSeats(text)
			switch {
			case text == "" || r.sheet.At(end, col).Date != "" || nothing(text):
			case !unsure && why == "" && (t.spans != nil || t.count > 1):
				counts++
				idle = 0
			default:
				others++
			}
		}
	}
	if counts < 2 || others*4 > counts || r.counting(head, names) && r.countsOn(head+1, end, names) ||
		len(names) == 0 {
		return 0, false
	}
	down := r.acrossWay(head, end, first, names, corner)
	if down == noField {
		return 0, false
	}
	if down == fRow {
		for i, col := range names {
			name := strings.ToLower(strings.TrimSuffix(r.sheet.At(head, col).Text, " seats"))
			short := len(names) > 1 && (wingLetters.MatchString(name) || i > 0 && r.follows(head, names[i-1], col) ||
				i+1 < len(names) && r.follows(head, col, names[i+1]))
			if !short && !sectionWord.MatchString(name) || countWord.MatchString(name) {
				r.lose(head, col, `it may be a section, or who counted: write "section" before its name`)
			}
		}
	}
	r.sheet.take(head, first)
	if total >= 0 {
		r.sums = append(r.sums, sumColumn{r.sheet, head, end, total})
	}
	r.readCells(head, end, first, names, down)
	for row := head; row < end; row++ {
		r.sheet.take(row, total)
	}
	return end, true
}

// sectionWord are words in names of sections.
var sectionWord = regexp.MustCompile(`\b(sect(ion)?s?|blocks?|stands?|bays?|banks?|wings?|sides?|terraces?|` +
	`tiers?|areas?|` +
	`zones?|galler(y|ies)|floor|left|right|centre|center|middle|north|south|east|west|port|starboard|main|front|` +
	`back|` +
	`upper|lower|inner|outer|quay|links|rechts|mitte|gauche|droite|milieu|izquierda|derecha|centro)\b`)

// countWord are words in names of columns that count something.
var countWord = regexp.MustCompile(`\b(seats?|places?|chairs?|per|each|free|taken|sold|count(ed)?|sign|used?)\b`)

// wingLetters are short for left, middle, right and the points of the compass.
var wingLetters = regexp.MustCompile(`^[nsewlmcr]{1,2}$`)

// follows says whether the name in a column is the next one behind that of another: A and B, 1 and 2.
func (r *reader) follows(head, col, next int) bool {
	kind, n := rankOf(r.sheet.At(head, col).Text)
	kind2, n2 := rankOf(r.sheet.At(head, next).Text)
	return kind == kind2 && n > 0 && n2 == n+1
}

// acrossWay says what stands down the first column: fRow where names across are sections, fSection where they are
// rows, noField where neither can be, as where the column names what stands beside it.
func (r *reader) acrossWay(head, end, first int, names []int, corner field) field {
	counts := func(text string) bool {
		_, n := rankOf(rowNamed(text))
		side, bare := sideOfText(text)
		return n > 0 || side != 0 && bare || rowTitle(text) != text
	}
	across, down := true, true // whether all of them may be rows
	for _, col := range names {
		across = across && counts(r.sheet.At(head, col).Text)
	}
	for row := head + 1; row < end; row++ {
		text := r.sheet.At(row, first).Text
		if _, walk := isWalkway(text); text == "" || isTotal(text) || walk {
			continue
		}
		if f, _ := fieldOf(text); f != noField && f != fSection && canName(text) {
			return noField
		}
		down = down && counts(text)
	}
	switch {
	case across && !down:
		return fSection
	case across && corner == fSection && !r.saysRow(head, names):
		r.ask(r.sheet, head, first, "the names to its right may be sections, or rows of the sections below it",
			`write "Row" here, or "Row 1", "Row 2" …`)
	case across && corner == fSection:
		return fSection
	}
	return fRow
}

// saysRow says whether names are written as those of rows: "Row 1".
func (r *reader) saysRow(head int, names []int) bool {
	text := r.sheet.At(head, names[0]).Text
	return rowTitle(text) != text
}

// askNames refuses a sheet whose columns or rows are named, and not the seats in a way that is read.
func (r *reader) askNames() {
	var down []field
	at, letters := place{}, -1 // the line of a section and letters
	for row := range r.sheet.Rows() {
		var across []field
		for i, col := range r.openCols(row) {
			text := r.sheet.At(row, col).Text
			if !canName(text) || len(text) == 1 {
				continue
			}
			f, _ := fieldOf(text)
			if f == noField || f >= fPosted {
				continue
			}
			if !slices.Contains(across, f) {
				across = append(across, f)
			}
			if i == 0 && !slices.Contains(down, f) {
				down = append(down, f)
				at = place{r.sheet.index, row, col}
			}
		}
		if cols := r.openCols(row); len(cols) > 2 && letters < 0 && slices.Equal(across, []field{fSection}) &&
			!slices.ContainsFunc(cols[1:], func(col int) bool {
				text := r.sheet.At(row, col).Text
				return len(text) > 1 || !canName(text)
			}) {
			letters = row
		}
		if len(across) > 1 {
			r.askSeats(row)
			return
		}
	}
	if len(down) > 1 && slices.ContainsFunc(down, func(f field) bool {
		return f == fSeats || f == fCapacity || f == fBench || f == fRows
	}) {
		r.ask(r.sheet, at.row, at.col, "what the cells mean stands down the first column",
			"turn the table, so that the names stand in one line and each row of seats is a line")
	} else if letters >= 0 {
		r.askSeats(letters)
	}
}

func (r *reader) askSeats(row int) {
	r.ask(r.sheet, row, r.openCols(row)[0], "this line names columns, and none that is read as the seats of a row",
		`name that one "seats"`)
}

// isNames says whether a line over a blank corner names sections: words or letters, not numbers or signs of seats.
func isNames(r *reader, head int, cols []int) bool {
	return !slices.ContainsFunc(cols, func(col int) bool {
		text := r.sheet.At(head, col).Text
		s := signOf(r.sheet.At(head, col))
		return !canName(text) || s == signSeat || s == signGap
	})
}

// totalWords are those of lines and columns that add others up.
var totalWords = []string{"total", "totals", "sum", "subtotal", "all", "together", "summe", "gesamt", "totale",
	"totaal", "suma", "totalt", "razem", "celkem", "yhteensä"}

func isTotal(text string) bool {
	return slices.Contains(totalWords, cells.Plain(text))
}

// counting says whether the names are numbers that count along the line.
func (r *reader) counting(head int, names []int) bool {
	last := 0
	for i, col := range names {
		n, ok := seatNumber(r.sheet.At(head, col).Text)
		if !ok || i > 0 && n-last != 1 && n-last != 2 && n-last != -1 && n-last != -2 {
			return false
		}
		last = n
	}
	return true
}

// countsOn says whether cells below repeat the numbers over them or hold ones, as a drawing of seats does.
func (r *reader) countsOn(from, to int, names []int) bool {
	same, cells := 0, 0
	for row := from; row < to; row++ {
		for _, col := range names {
			if text := r.sheet.At(row, col).Text; text != "" {
				cells++
				if text == "1" || text == r.sheet.At(from-1, col).Text || signOf(r.sheet.At(row, col)) != signSeat {
					same++
				}
			}
		}
	}
	return same*2 > cells
}

// readCells makes a line of every cell below the names.
func (r *reader) readCells(head, end, first int, names []int, corner field) {
	for i, col := range names {
		var s *section
		title := r.sheet.At(head, col).Text
		empty := !slices.ContainsFunc(r.column(r.sheet, head+1, end, col),
			func(text string) bool { return text != "" })
		if empty && corner == fRow {
			r.lose(head, col, "no seats stand below it")
			continue
		}
		if corner == fRow {
			s = r.section(r.acrossName(head, col, sectionTitle(title)))
			r.sheet.take(head, col)
		}
		for row := head + 1; row < end; row++ {
			label := r.sheet.At(row, first).Text
			if isTotal(label) {
				if i == 0 {
					r.sheet.take(row, first)
					r.list(row, first, "a total, no row of seats")
				}
				if r.sheet.open(row, col) && s != nil {
					r.sheet.take(row, col)
					r.totals = append(r.totals, totalLine{r.sheet, row, col, slices.Clone(s.lines)})
				}
				continue
			}
			if _, ok := isWalkway(label); ok && s != nil && len(s.lines) > 0 {
				depth, _ := isWalkway(label)
				l, _ := seating.ParseLength(depth)
				r.gap(s, l, row, []int{first})
				continue
			}
			text := r.sheet.At(row, col).Text
			if text == "" {
				continue
			}
			if corner == fSection {
				s = r.section(r.acrossName(row, first, sectionTitle(label)))
			}
			if len(s.lines) >= seating.MaxRows {
				r.lose(row, col, "the section has too many rows: it is left out")
				continue
			}
			l := &line{sheet: r.sheet, row: row, nameCol: -1, benchCol: -1, of: 1, col: col}
			at, in := row, first
			if corner == fSection {
				at, in = head, col
			}
			if r.sheet.At(at, in).Text != "" {
				r.nameLine(l, at, in)
			}
			if !r.listDate(row, col, noneUntil) {
				r.seatsCell(l, col, noneUntil)
			}
			if r.places += l.seats; r.places > seating.MaxSeats {
				r.lose(row, col, tooMany)
				l.seats = 0
			}
			s.lines = append(s.lines, l)
		}
	}
}

// column is what stands in a column, line by line.
func (r *reader) column(s *sheet, from, to, col int) (texts []string) {
	for row := from; row < to; row++ {
		texts = append(texts, s.At(row, col).Text)
	}
	return texts
}

// acrossName is the section's name in a cell, or a free letter.
func (r *reader) acrossName(row, col int, text string) string {
	for _, word := range []string{" seats", " block", " section", " stand"} {
		if head, ok := strings.CutSuffix(text, word); ok {
			text = head
		}
	}
	if name := r.sectionName(row, col, text); name != "" {
		return name
	}
	return r.freeName()
}
