package people

import (
	"fmt"

	"everyseat/seating"
)

// uncounted refuses a roster of names beside numbers that may count people, under a name that is not known:
// taken for one person a line, it would be too short by far.
func (r *reader) uncounted() error {
	_, person := r.at[fPerson]
	_, group := r.at[fGroup]
	_, count := r.at[fCount]
	if !person || group || count || r.several {
		return nil
	}
	for col := range r.table.Cols(r.head) {
		if _, used := r.cols[col]; used || r.table.Text(r.head, col) == "" || !r.mayCount(col) {
			continue
		}
		return r.fault(r.head, col, fmt.Sprintf("column %q holds numbers, and nothing says whether they count people", r.table.Text(r.head, col)),
			"call it count if so many come under each name; else take it away, or add a column group")
	}
	return nil
}

// mayCount says whether the cells of a column could all be counts of people: whole numbers, not all of them one,
// and not the numbers of the lines.
func (r *reader) mayCount(col int) bool {
	lines, some, numbered := 0, false, true
	for row := r.head + 1; row < r.table.Rows(); row++ {
		text := r.table.Text(row, col)
		if text == "" {
			continue
		}
		n, whole := seating.WholeNumber(text)
		if !whole || n < 0 || n > MaxPeople {
			return false
		}
		lines++
		some = some || n != 1
		numbered = numbered && n == lines
	}
	return some && !(numbered && lines > 1)
}
