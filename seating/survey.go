package seating

import "fmt"

// Limits of a survey file, checked before anything is allocated for it.
const (
	MaxSurveyBytes = 8 << 20
	maxSurveyRows  = 20_000
	maxSurveyCells = 1_000_000
	maxUnread      = 1_000 // listed one by one
	maxSpanText    = 2_000 // bytes of a cell that lists seats
)

// Unread is one cell of a survey table that could not be used.
type Unread struct {
	Cell string // "C7"; "Sheet2!C7" where the workbook has several sheets
	Text string // as it stands there
	Why  string // plain words
}

// Survey is what a table said: sections for a Spec, and what could not be read.
// Every cell that holds something was either read or is in Unread.
type Survey struct {
	Sections []SectionSpec
	Posted   int      // posted occupant load; 0 = the table does not say
	People   int      // people invited; 0 = the table does not say
	Unread   []Unread // by sheet, row and column
	Notes    []string // plain sentences: what was taken for granted
}

// ReadSurvey reads the crew's own table, by the name's ending a text (.csv, .tsv,
// .txt: comma, semicolon or tab, UTF-8, UTF-16 or Windows-1252) or a workbook
// (.xlsx, every visible sheet). Errors are *Fault with the file's name and, where
// it applies, line and column; single bad cells go to Survey.Unread instead.
//
// A line a row: some line names the columns (section, row, seats or bench length,
// pitch, missing, wheelchair, rise, run, aisle …, forgivingly, with a unit in the
// name or in the cells); lines run from the front row to the back. A blank section
// is the one above. A row whose seats cannot be read has none until it is mended.
//
// A grid drawn in cells: where no line names columns, a cell with a mark is a seat
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
func ReadSurvey(name string, data []byte) (*Survey, error) {
	sheets, err := openTable(name, data, TableLimits{Bytes: MaxSurveyBytes, Lines: maxSurveyRows, Cells: maxSurveyCells})
	if err != nil {
		return nil, err
	}
	return readSheets(name, sheets)
}

// readSheets reads each sheet that holds anything.
func readSheets(name string, sheets []*sheet) (*Survey, error) {
	out := &Survey{}
	filled := 0
	for i, s := range sheets {
		s.index = i
		if s.trim(); len(s.cells) > 0 {
			filled++
		}
	}
	if filled == 0 {
		return nil, &Fault{File: name, What: "the table is empty", Hint: "give a line a row: section, row, seats"}
	}
	r := &surveyReader{out: out, sections: map[string]*surveyed{}, listedAt: map[place]int{}}
	for _, s := range sheets {
		if len(s.cells) > 0 {
			s.prefix = filled > 1
			r.read(s)
		}
	}
	r.finish()
	if len(out.Sections) == 0 {
		f := &Fault{File: name, What: "no seats could be read from the table", Hint: "give a line that names the columns (section, row, seats), then a line a row"}
		if u := out.firstTrouble(); u != nil {
			f.What += fmt.Sprintf("; first trouble at %s, %q: %s", u.Cell, u.Text, u.Why)
		}
		return nil, f
	}
	return out, nil
}

// outside is why cells that belong to no row are left unread.
const outside = "it stands outside what is read as rows and seats"

// firstTrouble is the unread cell that says most about what is wrong.
func (s *Survey) firstTrouble() *Unread {
	for i := range s.Unread {
		if s.Unread[i].Why != outside {
			return &s.Unread[i]
		}
	}
	return nil
}
