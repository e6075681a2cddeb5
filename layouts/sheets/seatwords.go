package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// rowSpan is so many seats of one row, or of rows that follow each other and are the group's alone.
type rowSpan struct {
	section, first, last int // rows; last included
	whole                bool
	from, to             int32 // seat numbers, where it is one row and not whole
	seats                int
}

// spansOf says which rows and seats a list of seats are, in the order of the stands.
func spansOf(p *mosaic.Plan, seats []int32) []rowSpan {
	sorted := slices.Sorted(slices.Values(seats))
	var spans []rowSpan
	for len(sorted) > 0 {
		first := &p.Stands.Seats[sorted[0]]
		n := 1
		for n < len(sorted) && p.Stands.Seats[sorted[n]].Section == first.Section && p.Stands.Seats[sorted[n]].Row == first.Row {
			n++
		}
		spans = appendRow(p, spans, sorted[:n])
		sorted = sorted[n:]
	}
	return spans
}

// appendRow adds the seats of one row.
func appendRow(p *mosaic.Plan, spans []rowSpan, seats []int32) []rowSpan {
	section, row := int(p.Stands.Seats[seats[0]].Section), int(p.Stands.Seats[seats[0]].Row)
	if len(seats) == openSeats(p, section, row) {
		if n := len(spans); n > 0 && spans[n-1].whole && spans[n-1].section == section && spans[n-1].last == row-1 {
			spans[n-1].last = row
			spans[n-1].seats += len(seats)
			return spans
		}
		return append(spans, rowSpan{section: section, first: row, last: row, whole: true, seats: len(seats)})
	}
	for from := 0; from < len(seats); {
		to := from + 1
		for to < len(seats) && p.Stands.Seats[seats[to]].Place == p.Stands.Seats[seats[to-1]].Place+1 {
			to++
		}
		spans = append(spans, rowSpan{section: section, first: row, last: row, seats: to - from,
			from: p.Stands.Seats[seats[from]].Number, to: p.Stands.Seats[seats[to-1]].Number})
		from = to
	}
	return spans
}

// openSeats counts a row's seats that are for everybody.
func openSeats(p *mosaic.Plan, section, row int) int {
	n := 0
	r := &p.Stands.Sections[section].Rows[row]
	for i := r.First; i < r.Last; i++ {
		if s := &p.Stands.Seats[i]; s.For == "" && (s.Use == seating.UseCard || s.Use == seating.UsePerson) {
			n++
		}
	}
	return n
}

// seatWords says spans in full, a sentence a section: "Section A: rows 3 to 5, all 30 seats; row 6, seats 1 to 8."
func seatWords(p *mosaic.Plan, spans []rowSpan) []string {
	var out []string
	for len(spans) > 0 {
		section := spans[0].section
		var parts []string
		for len(spans) > 0 && spans[0].section == section {
			parts = append(parts, spans[0].words(p))
			spans = spans[1:]
		}
		out = append(out, "Section "+p.Stands.Sections[section].Name+": "+strings.Join(parts, "; ")+".")
	}
	return out
}

func (s *rowSpan) words(p *mosaic.Plan) string {
	rows := p.Stands.Sections[s.section].Rows
	name := "row" + glue + rows[s.first].Name
	if s.last > s.first {
		name = "rows" + glue + rows[s.first].Name + glue + "to" + glue + rows[s.last].Name
	}
	switch {
	case s.whole && s.seats > 1:
		return fmt.Sprintf("%s, all %d seats", name, s.seats)
	case s.seats == 1:
		at := s.from
		if s.whole {
			at = onlySeat(p, s)
		}
		return fmt.Sprintf("%s, seat"+glue+"%d", name, at)
	}
	return fmt.Sprintf("%s, seats"+glue+"%d"+glue+"to"+glue+"%d", name, s.from, s.to)
}

// onlySeat is the number of the one seat of a row.
func onlySeat(p *mosaic.Plan, s *rowSpan) int32 {
	r := &p.Stands.Sections[s.section].Rows[s.first]
	for i := r.First; i < r.Last; i++ {
		if p.Stands.Seats[i].For == "" {
			return p.Stands.Seats[i].Number
		}
	}
	return 0
}

// rowsShort says which rows in a few words: "A 3–6, B 1".
func rowsShort(p *mosaic.Plan, spans []rowSpan) string {
	var parts []string
	for i := 0; i < len(spans); {
		section, first, last := spans[i].section, spans[i].first, spans[i].last
		n := i + 1
		for n < len(spans) && spans[n].section == section && spans[n].first <= last+1 {
			last = max(last, spans[n].last)
			n++
		}
		rows := p.Stands.Sections[section].Rows
		words := p.Stands.Sections[section].Name + glue + "row" + glue + rows[first].Name
		if last > first {
			words = p.Stands.Sections[section].Name + glue + "rows" + glue + rows[first].Name + "–" + rows[last].Name
		}
		parts = append(parts, words)
		i = n
	}
	return strings.Join(parts, ", ")
}

// idList is "A-1-7, A-1-9", of many the first few.
func idList(p *mosaic.Plan, seats []int32, most int) string {
	var ids []string
	for i, s := range seats {
		if i == most {
			ids = append(ids, "and "+strconv.Itoa(len(seats)-most)+" more")
			break
		}
		ids = append(ids, p.Stands.ID(int(s)))
	}
	return strings.Join(ids, ", ")
}
