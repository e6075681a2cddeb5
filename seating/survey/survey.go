// Package survey reads the crew's own tables of the stands: a line a row of seats, or the seats drawn in cells.
// Start with Read.
package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// Limits of a survey file, checked before anything is allocated for it.
const (
	MaxBytes  = 8 << 20
	maxLines  = 20_000
	maxCells  = 1_000_000
	maxUnread = 1_000 // listed one by one
)

// Survey is what a table said: sections for a Spec, and what could not be read.
// Every cell that holds something was either read or is in Unread.
type Survey struct {
	Sections []seating.SectionSpec
	Posted   int            // posted occupant load; 0 = the table does not say
	People   int            // people invited; 0 = the table does not say
	Unread   []cells.Unread // by sheet, row and column
	Notes    []string       // plain sentences: what was taken for granted
}

// Read reads a table as cells.Read takes them. Errors are *seating.Fault with the file's name and, where
// it applies, line and column; single bad cells go to Survey.Unread instead.
//
// A line a row: some line names the columns (section, row, seats or bench length,
// pitch, missing, wheelchair, rise, run, aisle …, forgivingly, with a unit in the
// name or in the cells); lines run from the front row to the back. A blank section
// is the one above. A row whose seats cannot be read has none until it is mended.
//
// A grid drawn in cells: where no line names columns, a cell with a sign is a seat
// and a blank, "-", "." or "0" in a row is a place that is missing. W marks a
// wheelchair place, C a companion, P a platform, R a rail, N a seat for nobody, M a
// missing one; x, o, s and numbers are seats, and another single sign is taken for
// a seat and listed. A blank column parts two sections, a blank line starts new
// ones; a line of words above names them. The front row is the one beside the word
// "front" or "camera", else the lowest row name, else the lowest line; left on
// paper is left as the camera sees it.
//
// Lines of a label and a value, like "posted capacity, 412" or "rise, 9 5/8in",
// hold for all sections of the file.
func Read(name string, data []byte) (*Survey, error) {
	sheets, err := cells.Read(name, data, cells.Limits{Bytes: MaxBytes, Lines: maxLines, Cells: maxCells})
	if err != nil {
		return nil, err
	}
	if len(sheets) == 0 {
		return nil, &seating.Fault{File: name, What: "the table is empty", Hint: "give a line a row: section, row, seats"}
	}
	return newReader(sheets).read(name)
}

// reader reads the sheets of one file into one survey.
type reader struct {
	out      *Survey
	sheet    *sheet // that is read just now
	sheets   []*sheet
	unit     seating.Length      // of bare numbers, where a line of the file says so
	common   seating.SectionSpec // what lines of label and value say of all sections
	order    []*section
	sections map[string]*section // by seating.NameKey
	places   int                 // so far, against seating.MaxSeats
	totals   []totalLine
	listed   []listed
	listedAt map[place]int // into listed
	dropped  int           // unread cells beyond maxUnread
}

// sheet remembers which of its cells were read, or listed as unread.
type sheet struct {
	*cells.Sheet
	index int
	done  [][]bool
}

// place is a cell of one of the sheets.
type place struct{ sheet, row, col int }

// listed is an unread cell and where it belongs in the list.
type listed struct {
	place
	cells.Unread
}

func newReader(sheets []*cells.Sheet) *reader {
	r := &reader{out: &Survey{}, sections: map[string]*section{}, listedAt: map[place]int{}}
	for i, s := range sheets {
		done := make([][]bool, s.Rows())
		for row := range done {
			done[row] = make([]bool, s.Cols(row))
		}
		r.sheets = append(r.sheets, &sheet{s, i, done})
	}
	return r
}

// read reads sheet after sheet, then makes the sections and sorts the lists.
func (r *reader) read(name string) (*Survey, error) {
	for _, s := range r.sheets {
		r.sheet = s
		r.readSettings()
		if head := r.findHeader(); head != nil {
			r.readLines(head)
		} else {
			r.readGrid()
		}
	}
	for _, s := range r.order {
		r.out.Sections = append(r.out.Sections, s.finish(r))
	}
	for _, t := range r.totals { // now that the seats of benches are known too
		sum := 0
		for _, l := range t.lines {
			sum += l.seats
		}
		r.sheet = t.sheet
		r.list(t.row, t.col, fmt.Sprintf("a total, no row of seats: the rows above it add up to %d", sum))
	}
	r.listRest()
	r.finishAisles()
	slices.SortStableFunc(r.listed, func(a, b listed) int {
		return cmp.Or(cmp.Compare(a.sheet, b.sheet), cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col))
	})
	for _, l := range r.listed {
		r.out.Unread = append(r.out.Unread, l.Unread)
	}
	if r.dropped > 0 {
		r.note("%d further cells could not be read and are not listed.", r.dropped)
	}
	if len(r.out.Sections) == 0 {
		f := &seating.Fault{File: name, What: "no seats could be read from the table",
			Hint: "give a line that names the columns (section, row, seats), then a line a row"}
		// The unread cell that says most about what is wrong.
		says := func(u cells.Unread) bool { return u.Why != outside }
		if i := slices.IndexFunc(r.out.Unread, says); i >= 0 {
			u := &r.out.Unread[i]
			f.What += fmt.Sprintf("; first trouble at %s, %q: %s", u.Cell, u.Text, u.Why)
		}
		return nil, f
	}
	return r.out, nil
}

func (s *sheet) take(row, col int) {
	if s.At(row, col).Text != "" {
		s.done[row][col] = true
	}
}

// open says whether a cell holds something that nobody has read yet.
func (s *sheet) open(row, col int) bool { return s.At(row, col).Text != "" && !s.done[row][col] }

// openCols are the columns of a row that hold something unread.
func (r *reader) openCols(row int) []int {
	var cols []int
	for col := range r.sheet.Cols(row) {
		if r.sheet.open(row, col) {
			cols = append(cols, col)
		}
	}
	return cols
}

func (r *reader) note(format string, args ...any) {
	r.out.Notes = append(r.out.Notes, fmt.Sprintf(format, args...))
}

// list puts a cell among those that could not be read; a second reason joins the first.
func (r *reader) list(row, col int, why string) {
	s := r.sheet
	s.take(row, col)
	at := place{s.index, row, col}
	if i, ok := r.listedAt[at]; ok {
		if !strings.Contains(r.listed[i].Why, why) { // rows that one line stands for have one reason
			r.listed[i].Why += "; " + why
		}
		return
	}
	if len(r.listed) >= maxUnread {
		r.dropped++
		return
	}
	r.listedAt[at] = len(r.listed)
	u := cells.Unread{Cell: s.Address(row, col), Text: seating.Shown(s.At(row, col).Text), Why: why}
	r.listed = append(r.listed, listed{at, u})
}

// listOf is list for a cell of a line, on whichever sheet it stands.
func (r *reader) listOf(l *line, col int, why string) {
	r.sheet = l.sheet
	r.list(l.row, col, why)
}

// listDate lists a cell that a spreadsheet made a date of, and says whether it is one.
func (r *reader) listDate(row, col int, so string) bool {
	date := r.sheet.At(row, col).Date
	if date == "" {
		return false
	}
	r.list(row, col, "a spreadsheet made a date of it; it probably was "+date+
		": format the column as text and type it anew"+so)
	return true
}

// outside is why cells that belong to no row are left unread.
const outside = "it stands outside what is read as rows and seats"

func (r *reader) listRest() {
	for _, s := range r.sheets {
		r.sheet = s
		for row := range s.Rows() {
			for _, col := range r.openCols(row) {
				if !r.listDate(row, col, "") {
					r.list(row, col, outside)
				}
			}
		}
	}
}

// finishAisles gives side-by-side sections an aisle where the table gives none.
func (r *reader) finishAisles() {
	var without []string
	last := true
	for i := len(r.out.Sections) - 1; i >= 0; i-- {
		s := &r.out.Sections[i]
		if s.Kind == seating.Floor {
			continue
		}
		if !last && s.Aisle == 0 && !r.order[i].has[fAisle] {
			s.Aisle = seating.DefaultAisle
			without = append(without, s.Name)
		}
		last = false
	}
	if slices.Reverse(without); len(without) > 0 {
		r.note("No aisle is given to the right of %s: %v is taken.", strings.Join(without, ", "),
			seating.DefaultAisle)
	}
}
