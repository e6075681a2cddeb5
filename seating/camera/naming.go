package camera

import (
	"fmt"
	"slices"
	"strings"

	"everyseat/seating"
)

// mostNamed is how many row names one section gets in a sentence.
const mostNamed = 8

// nameSeats says which seats these are: "section B, rows 3–5 and row 6 seats 1–4; all of section C".
// Seats come in index order; of is all the seats that could be named, to know what "all" is.
func nameSeats(stands *seating.Stands, seats []int32, of func(seat int) bool) string {
	var sections []string
	for len(seats) > 0 {
		section := stands.Seats[seats[0]].Section
		n := 1
		for n < len(seats) && stands.Seats[seats[n]].Section == section {
			n++
		}
		sections = append(sections, nameInSection(stands, int(section), seats[:n], of))
		seats = seats[n:]
	}
	return strings.Join(sections, "; ")
}

func nameInSection(stands *seating.Stands, section int, seats []int32, of func(seat int) bool) string {
	sec := &stands.Sections[section]
	if len(seats) == countSeats(sec.First, sec.Last, of) {
		return "all of section " + sec.Name
	}
	var names []string
	from := -1 // first of the whole rows that follow each other
	whole := func(until int) {
		if from >= 0 {
			names = append(names, nameRows(sec, from, until))
			from = -1
		}
	}
	for len(seats) > 0 {
		row := int(stands.Seats[seats[0]].Row)
		n := 1
		for n < len(seats) && int(stands.Seats[seats[n]].Row) == row {
			n++
		}
		if n < countSeats(sec.Rows[row].First, sec.Rows[row].Last, of) {
			whole(row - 1)
			names = append(names, "row "+sec.Rows[row].Name+" "+nameNumbers(stands, seats[:n]))
		} else if from < 0 {
			from = row
		}
		seats = seats[n:]
		if from >= 0 && (len(seats) == 0 || int(stands.Seats[seats[0]].Row) != row+1) {
			whole(row)
		}
	}
	more := ""
	if len(names) > mostNamed {
		more = fmt.Sprintf(" and %d more", len(names)-mostNamed)
		names = names[:mostNamed]
	}
	return "section " + sec.Name + ", " + strings.Join(names, ", ") + more
}

func countSeats(first, last int, of func(seat int) bool) int {
	n := 0
	for seat := first; seat < last; seat++ {
		if of(seat) {
			n++
		}
	}
	return n
}

func nameRows(sec *seating.Section, first, last int) string {
	if first == last {
		return "row " + sec.Rows[first].Name
	}
	return "rows " + sec.Rows[first].Name + "–" + sec.Rows[last].Name
}

// nameNumbers names seats of one row by their numbers as marked.
func nameNumbers(stands *seating.Stands, seats []int32) string {
	var runs []string
	for len(seats) > 0 {
		n := 1
		for n < len(seats) && seats[n] == seats[n-1]+1 {
			n++
		}
		a, b := stands.Seats[seats[0]].Number, stands.Seats[seats[n-1]].Number
		run := fmt.Sprint(min(a, b))
		if n > 1 {
			run += fmt.Sprintf("–%d", max(a, b))
		}
		runs = append(runs, run)
		seats = seats[n:]
	}
	if len(runs) > mostNamed {
		runs = append(slices.Clone(runs[:mostNamed]), "…")
	}
	word := "seat "
	if len(runs) > 1 || strings.Contains(runs[0], "–") {
		word = "seats "
	}
	return word + strings.Join(runs, ", ")
}

// count is "1 card", "2 cards".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
