// Package survey reads the crew's own tables of the stands: a line a row of seats, or the seats drawn in cells.
// Start with Read.
package survey

import (
	"cmp"
	"fmt"
	"regexp"
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
	maxRows   = 50_000
)

// Survey is what a table said: sections for a Spec, and what could not be read.
// Every cell that holds something was either read or is in Unread.
type Survey struct {
	Sections []seating.SectionSpec
	Posted   int            // posted occupant load; 0 = the table does not say
	People   int            // people invited; 0 = the table does not say
	Empty    []string       // rows (SECTION-ROW) whose seats are not given or could not be read: they have none
	Unread   []cells.Unread // by sheet, row and column
	Notes    []string       // plain sentences: what was understood and what was taken for granted
}

// Options settle what a table leaves open.
type Options struct {
	Sheets []string         // of a workbook, those to read; nil = all that are to be seen
	Front  Front            // of all sections; FrontUnsaid = as the table says
	Fronts map[string]Front // of sections by name, before Front
	// LeaveOut: cells that say something of rows or seats and cannot be read are left out and listed, not refused.
	LeaveOut bool
}

// Read reads a table as cells.Read takes them. Errors are *seating.Fault with the file's name and, where
// it applies, line and column; single bad cells go to Survey.Unread instead. What may mean two things is refused:
// the fault names the cell and says how to write it. What was understood stands in Survey.Notes.
//
// A line a row: some line names the columns (section, row, seats or bench length,
// pitch, missing, wheelchair, rise, run, aisle …, forgivingly, with a unit in the
// name or in the cells). A blank section is the one above; a line such as "Section B", a title over a table
// of its own, or the sheet's name starts one too. Tables may stand side by side, and sections across
// ("Row | A | B"). A line may stand for several rows: "1-5" with "18 each". A line "walkway 4 ft" is a way between
// rows, a blank one nothing. A row whose seats cannot be read has none until it is mended, and is in Survey.Empty.
//
// Seats are how many there are, or their numbers: "18", "1-18 (no 7)", "2-20 even", a first and a last one. "2-20"
// alone is refused unless a count beside it or other rows say whether all are meant. Missing seats are numbers; "2
// seats" is refused, and a bare 2 where no cell of the file shows that numbers are listed.
//
// A line a seat: a column seat, no column of seats, and rows that come again. Seats between the numbers are missing.
//
// A grid drawn in cells: where no line names columns, a cell with a sign is a seat
// and a blank, "-", "." or "0" in a row is a place that is missing. W marks a
// wheelchair place, C a companion, P a platform, R a rail, N a seat for nobody, M a
// missing one; x, o, s or numbers are seats, one of them in a drawing, and another single sign is taken for
// a seat and listed. Where no seat is written, cells filled with one colour are seats.
// A blank column parts two sections unless numbers go on over it; a line of words above names them. A blank line is
// nothing where row names go on. Left on paper is left as the camera sees it.
//
// The front row, section by section: Options, else words in names of rows, heights, sentences ("Row 1 is at the
// top", "listed from back to front"), words beside, above and below the rows (FIELD, STAGE, BACK WALL), which must
// agree; else the row of the lowest number or letter; else, where rows of a list have no names, the first line.
//
// What is not read is refused as well, unless Options leave it out: columns and remarks beside rows, brackets and
// marks behind names, sums that do not add up, rows that have no seats. Titles without a number or a word of the
// stands, and a few columns that are known to be about something else, are listed.
//
// Lines of a label and a value, like "posted capacity, 412" or "rise, 9 5/8in",
// hold for all sections of the file.
//
// Of a workbook all sheets are read that are to be seen, without hidden rows and columns. Sheets that hold the same
// section, or whose names say old, copy, draft, notes and the like, are refused until Options name those to read.
func Read(name string, data []byte, options Options) (*Survey, error) {
	all, err := cells.ReadHidden(name, data, cells.Limits{Bytes: MaxBytes, Lines: maxLines, Cells: maxCells})
	if err != nil {
		return nil, err
	}
	out := &Survey{}
	sheets, err := options.choose(name, all, out)
	if err != nil {
		return nil, err
	}
	if len(sheets) == 0 {
		return nil, &seating.Fault{File: name, What: "the table is empty",
			Hint: "give a line a row: section, row, seats"}
	}
	r := newReader(sheets)
	r.out, r.options = out, options
	return r.read(name)
}

// reader reads the sheets of one file into one survey.
type reader struct {
	out       *Survey
	options   Options
	sheet     *sheet // that is read just now
	sheets    []*sheet
	unit      seating.Length      // of bare numbers, where a line of the file says so
	common    seating.SectionSpec // what lines of label and value say of all sections
	order     []*section
	sections  map[string]*section // by seating.NameKey
	places    int                 // so far, against seating.MaxSeats
	letters   int                 // that were tried as names of sections, so far
	rows      int                 // so far, against maxRows
	groups    int                 // lines that stand for several rows, so far
	totals    []totalLine
	told      []told            // sentences about the order of rows
	unsure    *told             // one that was not understood
	heads     []*header         // of tables that were read
	beside    map[place][]*line // by sheet and row
	sums      []sumColumn
	above     string // the last cell of seats, for those that are the same
	lists     bool   // some cell lists numbers of seats
	evenRange bool   // some row has a range like 2-20
	listed    []listed
	listedAt  map[place]int // into listed
	dropped   int           // unread cells beyond maxUnread
	undrawn   *place        // numbers that are no drawing
	asked     *asked        // the first thing that must be settled
	lost      *asked        // the first cell that would be lost
}

// asked is what may mean two things.
type asked struct {
	place
	what, hint string
	more       int
}

// ask notes that a cell may mean two things: nothing of the table is read until it is settled.
func (r *reader) ask(s *sheet, row, col int, why, hint string) {
	r.asked = r.askedOr(r.asked, s, row, col, why, hint)
}

// askedOr is what is asked, or a cell's question where that stands before it.
func (r *reader) askedOr(before *asked, s *sheet, row, col int, why, hint string) *asked {
	s.take(row, col)
	at := place{s.index, row, col}
	first := asked{place: at, what: fmt.Sprintf("cell %s, %q: %s", s.Address(row, col), seating.Shown(s.At(row,
		col).Text), why), hint: hint}
	switch {
	case before == nil:
		return &first
	case at == before.place:
	case before.before(at):
		before.more++
	default:
		first.more = before.more + 1
		return &first
	}
	return before
}

func (a *asked) fault(file string) error {
	f := &seating.Fault{File: file, What: a.what, Hint: a.hint}
	if a.more > 0 {
		f.What += fmt.Sprintf("; cells like it: %d more", a.more)
	}
	return f
}

func (a *place) before(b place) bool {
	return cmp.Or(cmp.Compare(a.sheet, b.sheet), cmp.Compare(a.row, b.row), cmp.Compare(a.col, b.col)) <= 0
}

// askFront is ask for which row of a section is in front.
func (r *reader) askFront(s *section, why string, args ...any) {
	l := s.lines[0]
	if r.asked == nil || !r.asked.before(place{l.sheet.index, l.row, 0}) {
		r.asked = &asked{place: place{l.sheet.index, l.row, 0},
			what: fmt.Sprintf("which row of section %s is in front? "+why, append([]any{s.spec.Name}, args...)...),
			hint: fmt.Sprintf(`sort its lines, or write front = "first line" or front = "last line" under `+
				`[stands], or in `+
				`the [[section]] %q; for everyseat new --front "last line" or --front "%s=last line"`, s.spec.Name,
				s.spec.Name)}
	}
}

// sheet remembers which of its cells were read, or listed as unread.
type sheet struct {
	*cells.Sheet
	index int
	done  [][]bool
	named bool // a row read from it has a name
}

// place is a cell of one of the sheets.
type place struct{ sheet, row, col int }

// listed is an unread cell and where it belongs in the list.
type listed struct {
	place
	cells.Unread
}

func newReader(sheets []*cells.Sheet) *reader {
	r := &reader{out: &Survey{}, sections: map[string]*section{}, listedAt: map[place]int{},
		beside: map[place][]*line{}}
	for i, s := range sheets {
		done := make([][]bool, s.Rows())
		for row := range done {
			done[row] = make([]bool, s.Cols(row))
		}
		r.sheets = append(r.sheets, &sheet{s, i, done, false})
	}
	return r
}

// read reads sheet after sheet, then makes the sections and sorts the lists.
func (r *reader) read(name string) (*Survey, error) {
	for _, s := range r.sheets {
		r.sheet = s
		r.askStruck()
		r.readSettings()
		if r.readTables() || r.readAcross() {
			continue
		}
		if r.askNames(); r.asked != nil {
			break
		}
		if err := r.readGrid(); err != nil {
			err.File = name
			return nil, err
		}
	}
	r.order = slices.DeleteFunc(r.order, func(s *section) bool { return len(s.lines) == 0 })
	if err := r.twins(name); err != nil {
		return nil, err
	}
	for _, s := range r.order {
		for _, l := range s.lines {
			l.sheet.named = l.sheet.named || l.name != ""
			at := place{l.sheet.index, l.row, 0}
			r.beside[at] = append(r.beside[at], l)
		}
	}
	r.heedWords()
	for _, h := range r.heads {
		for _, col := range h.cols(r, h.row) {
			r.sheet = h.on
			r.listColumn(h, col)
		}
	}
	for _, s := range r.order {
		r.out.Sections = append(r.out.Sections, s.finish(r))
	}
	for i, t := range r.totals { // now that the seats of benches are known too
		sum, gone, since, goneSince := 0, 0, 0, 0 // since the total before
		for k, l := range t.lines {
			sum, gone = sum+l.seats, gone+l.gone
			if i > 0 && k >= len(r.totals[i-1].lines) {
				since, goneSince = since+l.seats, goneSince+l.gone
			}
		}
		r.sheet = t.sheet
		why := fmt.Sprintf("a total, no row of seats: the rows above it add up to %d", sum)
		n, ok := cells.Number(t.sheet.At(t.row, t.col).Text)
		if !ok || slices.Contains([]int{sum, sum - gone, since, since - goneSince}, n) {
			r.list(t.row, t.col, why)
		} else {
			r.lose(t.row, t.col, why)
		}
	}
	r.checkSums()
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
	if r.undrawn != nil && len(r.order) > 0 { // a whole block would be lost
		r.ask(r.sheets[r.undrawn.sheet], r.undrawn.row, r.undrawn.col, notDrawn,
			"name the columns, or mend the numbers")
	}
	if r.asked != nil {
		return nil, r.asked.fault(name)
	}
	empty := slices.IndexFunc(r.order, func(s *section) bool {
		return !slices.ContainsFunc(s.lines, func(l *line) bool { return l.seats > 0 || l.none })
	})
	if len(r.order) == 0 || empty >= 0 {
		f := &seating.Fault{File: name, What: "no seats could be read from the table",
			Hint: "give a line that names the columns (section, row, seats), then a line a row"}
		if len(r.order) > 0 {
			f.What = fmt.Sprintf("no seats of section %s could be read", r.order[empty].spec.Name)
			f.Hint = "mend the cells of its seats, or take the section out of the table"
		}
		// The unread cell that says most about what is wrong.
		says := func(u cells.Unread) bool { return u.Why != outside }
		if i := slices.IndexFunc(r.out.Unread, says); i >= 0 {
			u := &r.out.Unread[i]
			f.What += fmt.Sprintf("; first trouble at cell %s, %q: %s", u.Cell, u.Text, u.Why)
		}
		return nil, f
	}
	if r.lost != nil {
		return nil, r.lost.fault(name)
	}
	r.echo()
	return r.out, nil
}

// echo notes which seats are missing.
func (r *reader) echo() {
	const most = 40
	var said []string
	more := 0
	for i := range r.out.Sections {
		s := &r.out.Sections[i]
		for _, m := range s.Missing {
			if len(said) == most {
				more++
				continue
			}
			text := fmt.Sprintf("%s-%s-%d", s.Name, m.Row, m.From)
			if m.To > m.From {
				text += fmt.Sprintf("..%d", m.To)
			}
			said = append(said, text)
		}
	}
	switch {
	case more > 0:
		r.note("missing: %s and %d more.", strings.Join(said, ", "), more)
	case said != nil:
		r.note("missing: %s", strings.Join(said, ", "))
	}
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

// lose lists a cell that says something of the rows or the seats; unless it may be left out, the table is refused.
func (r *reader) lose(row, col int, why string) {
	r.list(row, col, why)
	if !r.options.LeaveOut {
		r.lost = r.askedOr(r.lost, r.sheet, row, col, why,
			`mend it, or take it out of the table; where it says nothing that matters, write `+
				`unread = "left out" under [stands]: --leave-out for everyseat new`)
	}
}

// aboutStands are words of what a table says of rows and seats beside the columns that are read, in small letters.
var aboutStands = regexp.MustCompile(`\b(rows?|seats?|front|back|behind|rear|near(est)?|far|furthest|farthest|` +
	`close(st)?|` +
	`closed|fenced|nobody|locked|cancell?ed|repair|repaired|unsafe|gesperrt|geschlossen|kaputt|defekt|nicht|keine?|` +
	`nur|reserviert|ferm[ée]e?|r[ée]serv[ée]e?s?|` +
	`interdit|cerrad[oa]|rot[oa]|reservad[oa]|used?|only|half|pairs?|both|per|every|each|distance|levels?|heights?|` +
	`platform|broken|missing|gaps?|gone|blocked|except|not|no|none|without|` +
	`there|usable|` +
	`left|rest|others?|kept|reserved|pillar|first|last|top|bottom|up|down|field|stage|pitch|court|reihen?|` +
	`pl[aä]tze?|vorn|vorne|hinten|` +
	`rangs?|rang[ée]es?|places?|devant|derri[eè]re|filas?|asientos?|delante|detr[aá]s)\b`)

func ofStands(text string) bool { return aboutStands.MatchString(strings.ToLower(text)) }

// askStruck asks about what is struck through, and about comments that may say that some seats do not count.
func (r *reader) askStruck() {
	for row := range r.sheet.Rows() {
		for col := range r.sheet.Cols(row) {
			if pinned := r.sheet.At(row, col).Pinned; !r.options.LeaveOut && (ofStands(pinned) || counts(pinned)) {
				r.lost = r.askedOr(r.lost, r.sheet, row, col, fmt.Sprintf("its comment, %q, is not read",
					seating.Shown(pinned)), `take it away where it says nothing that matters, or write unread = `+
					`"left out" under [stands]: --leave-out for everyseat new`)
			}
			if r.sheet.At(row, col).Struck {
				r.ask(r.sheet, row, col, "it is struck through",
					"take it out of the table, or the line through it away")
			}
		}
	}
}

// loseOf is lose for a cell of a line, on whichever sheet it stands.
func (r *reader) loseOf(l *line, col int, why string) {
	r.sheet = l.sheet
	r.lose(l.row, col, why)
}

// listDate lists a cell that a spreadsheet made a date of, and says whether it is one.
func (r *reader) listDate(row, col int, so string) bool {
	date := r.sheet.At(row, col).Date
	if date == "" {
		return false
	}
	r.lose(row, col, "a spreadsheet made a date of it; it probably was "+date+
		": format the column as text and type it anew"+so)
	return true
}

// outside is why cells that belong to no row are left unread.
const outside = "it stands outside what is read as rows and seats"

// listRest lists what nobody has read. Beside rows and below them it may say that some of them do not count, and what
// holds a number above them how many there are: then the table is refused.
func (r *reader) listRest() {
	for _, s := range r.sheets {
		r.sheet = s
		above := true // of the first row of seats
		for row := range s.Rows() {
			above = above && r.beside[place{s.index, row, 0}] == nil
			title := above && s.held(row) == 1
			for _, col := range r.openCols(row) {
				text := s.At(row, col).Text
				thing := thingBeside.MatchString(strings.ToLower(text))
				switch {
				case r.listDate(row, col, ""):
				case ofStands(text) || counts(text) || strings.Contains(text, "(") || !title && !thing:
					r.lose(row, col, outside)
				default:
					r.list(row, col, outside)
				}
			}
		}
	}
}

// thingBeside is what stands in and about stands and says nothing of rows and seats.
var thingBeside = regexp.MustCompile(`^[^\pL]*(stairs?|steps|stairway|staircase|stair head|pillar|post|column|säule|` +
	`treppe|press box|kiosk|café|door|entrance|exit|tree|mast|roof)[^\pL]*$|` +
	`^(counted|measured|surveyed|checked|written down) (by|on) `)

// counts says whether a text holds a number that may be of rows or seats: two figures or more, no date and no year.
func counts(text string) bool {
	text = datesAndYears.ReplaceAllString(strings.ToLower(text), "")
	return twoFigures.MatchString(text)
}

var (
	twoFigures    = regexp.MustCompile(`[0-9]{2}`)
	datesAndYears = regexp.MustCompile(`\b(19|20)[0-9]{2}\b|\b[0-9]{1,2}[:.][0-9]{2}\b|` +
		`\b[0-9]{1,2}[./][0-9]{1,2}\b\.?|` +
		`\b[0-9]{1,2}(st|nd|rd|th|\.)? ?(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|märz|mai|okt|dez)|` +
		`\b(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.? [0-9]{1,2}\b`)
)

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
		r.note("No aisle is given to the right of %s: %v is taken.", strings.Join(without, ", "), seating.DefaultAisle)
	}
}
