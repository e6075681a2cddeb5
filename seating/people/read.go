package people

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// Limits of the table of a roster, beside MaxBytes.
const (
	maxLines  = MaxPeople + 1_000
	maxCells  = 2_000_000
	maxUnread = 1_000 // listed one by one
)

// Read reads a roster, a table in text or a workbook as cells.Read takes them. Some line names the
// columns, forgivingly: person (a name or a code; or first and last name), group (class, club, choir,
// ward …), and if wanted needs (wheelchair, companion; or a column each), may not be filmed (or may be
// filmed), room, door, time, leader. A line is a person; or, where there are columns of group and count alone, a
// group of so many. A blank group is the one above; without a column of groups, a sheet of several is one.
//
// Where a column says who may be filmed, whoever has no clear leave there is taken for somebody who may not be; what
// else speaks of being filmed is refused. Errors are *seating.Fault with the file's name and, where it applies, line
// and column.
func Read(name string, data []byte) (*Roster, error) {
	sheets, err := cells.Read(name, data, cells.Limits{Bytes: MaxBytes, Lines: maxLines, Cells: maxCells})
	if err != nil {
		return nil, err
	}
	if len(sheets) == 0 {
		return nil, &seating.Fault{File: name, What: "the roster is empty",
			Hint: "give a line a person: person, group; or a line a group: group, count"}
	}
	r := &reader{file: name, out: &Roster{}, groups: map[string]*gathering{}, several: len(sheets) > 1,
		listed: map[[2]string]bool{}}
	headed, silent, says := 0, "", false
	for _, s := range sheets {
		r.sheet = s
		r.checkSheetName()
		if !r.findHeader() {
			r.note("Sheet %q names no columns of a roster and is left out.", s.Name)
			for row := range s.Rows() {
				r.checkFilmIn(row)
			}
			r.checkRemarks()
			if r.several && r.fault == nil && !besideRoster.MatchString(cells.Plain(s.Name)) {
				return nil, &seating.Fault{File: name, What: fmt.Sprintf("sheet %q names no columns of a roster",
					s.Name),
					Hint: "write a first line into it: person, group; or group, count; or hide it, where nobody in " +
						"it comes"}
			}
			continue
		}
		headed++
		if r.readLines(); r.fault != nil {
			return nil, r.fault
		}
		if says = says || len(r.film) > 0; len(r.film) == 0 {
			silent = s.Name
		}
	}
	r.checkSheets(silent, says)
	if headed == 0 && r.fault == nil {
		return nil, &seating.Fault{File: name, Line: 1, What: "no line names the columns",
			Hint: "write a first line: person, group; or group, count"}
	}
	if r.fault != nil {
		return nil, r.fault
	}
	return r.finish()
}

// besideRoster are names of sheets that list nobody.
var besideRoster = regexp.MustCompile(`^(remarks?|notes?|info|read ?me|help|key|legend|plan|programme|schedule)$`)

// reader reads the sheets of one file into one roster.
type reader struct {
	file    string
	sheet   *cells.Sheet
	several bool // sheets

	head    int             // the row that names the columns
	cols    int             // of its sheet
	at      [fComes + 1]int // their columns by field, or -1
	film    []filmColumn
	current *gathering // of the last line

	out     *Roster
	groups  map[string]*gathering // by groupKey, and by name as it stands
	order   []*gathering
	total   int                // people so far
	summed  int                // of them before the last line that added up
	above   int                // lines that name no group
	absent  int                // people who do not come
	listed  map[[2]string]bool // by group and person
	unsaid  int                // people of whom a cell does not say whether they may be filmed
	dropped int                // unread cells beyond maxUnread
	fault   error              // the first one
}

type gathering struct {
	party  Party
	people []Person
	line   string // that counts it, or lists its first person
}

func (r *reader) note(format string, args ...any) {
	r.out.Notes = append(r.out.Notes, fmt.Sprintf(format, args...))
}

// wrong keeps the first fault, about one cell; col is negative where it is about the line.
func (r *reader) wrong(row, col int, hint, what string, args ...any) {
	if r.fault != nil {
		return
	}
	what = fmt.Sprintf(what, args...)
	if r.several {
		what = fmt.Sprintf("sheet %s: %s", r.sheet.Name, what)
	}
	r.fault = &seating.Fault{File: r.file, Line: row + 1, Column: col + 1, What: what, Hint: hint}
}

// fits refuses a text that cannot go on paper, and what a spreadsheet has made of another.
func (r *reader) fits(row, col int, what, text string) {
	if why := nameFault(text); why != "" {
		r.wrong(row, col, "write it shorter, on one line", "%s %s", what, why)
	}
	const anew = "format the column as text and type it anew"
	if date := r.sheet.At(row, col).Date; date != "" {
		r.wrong(row, col, anew, "a spreadsheet made a date of %s, %q: it probably was %s", what, shown(text), date)
	}
	if asPower.MatchString(text) {
		r.wrong(row, col, anew, "a spreadsheet made a number of %s, %q: it probably was like 5E1", what, shown(text))
	}
}

// asPower is how spreadsheets show a name like 5E1, which they take for a number.
var asPower = regexp.MustCompile(`^[0-9][.,][0-9]+E\+[0-9]+$`)

// list puts a cell among those that were not used.
func (r *reader) list(row, col int, why string) {
	if len(r.out.Unread) >= maxUnread {
		r.dropped++
		return
	}
	r.out.Unread = append(r.out.Unread,
		cells.Unread{Cell: r.sheet.Address(row, col), Text: shown(r.sheet.At(row, col).Text), Why: why})
}

// findHeader looks for a line that names a person, or a group and its count; of two columns with one meaning the left
// one counts, but all that say who may be filmed do.
func (r *reader) findHeader() bool {
	r.current, r.cols = nil, 0
	for row := range r.sheet.Rows() {
		r.cols = max(r.cols, r.sheet.Cols(row))
	}
	for r.head = range r.sheet.Rows() {
		for f := range r.at {
			r.at[f] = -1
		}
		r.film = nil
		for col := range r.sheet.Cols(r.head) {
			name := r.sheet.At(r.head, col).Text
			if may, is := isFilm(name); is {
				r.film = append(r.film, filmColumn{col: col, may: may})
			} else if f := fieldOf(name); f != noField && r.at[f] < 0 {
				r.at[f] = col
			}
		}
		if r.has(fComes) && !r.has(fPerson) && !r.has(fGiven) && !r.has(fCount) { // how many come
			r.at[fCount], r.at[fComes] = r.at[fComes], -1
		}
		person, group, count := r.has(fPerson), r.has(fGroup), r.has(fCount)
		if !person && !r.has(fGiven) && !(group && count) {
			continue
		}
		if person && count && !group { // “name, people” counts groups
			r.at[fGroup], r.at[fPerson] = r.at[fPerson], -1
		}
		return true
	}
	r.head, r.film = r.sheet.Rows(), nil // all lines are above the one that is not there
	return false
}

// fieldOf is what a column of that name means; one that speaks of being filmed is never taken for a slip of the pen.
func fieldOf(name string) field {
	f := field(cells.Meaning(cells.Plain(name), fieldNames))
	words := folded(name)
	switch wheelchair, companion := speaks(words, ofWheelchair), speaks(words, ofCompanion); {
	case f != noField && speaks(header(name), ofFilm):
		return noField
	case f == noField && wheelchair && !companion && !speaks(words, ofNo):
		return fWheelchair
	case f == noField && companion && !wheelchair && !speaks(words, ofNo):
		return fCompanion
	}
	return f
}

func (r *reader) has(f field) bool { return r.at[f] >= 0 }

// used says whether a column is read.
func (r *reader) used(col int) bool { return slices.Contains(r.at[:], col) || r.isFilmed(col) }

// below is the first line below the names of the columns that has something in a column, −1 where none has.
func (r *reader) below(col int) int {
	for row := r.head + 1; row < r.sheet.Rows(); row++ {
		if r.sheet.At(row, col).Text != "" {
			return row
		}
	}
	return -1
}

// noteUnused says which columns are not used: a roster often has more than is asked for. Two that count or say who
// needs what are refused, since one would be lost.
func (r *reader) noteUnused() {
	var names []string
	for col := range r.cols {
		name, below := r.sheet.At(r.head, col).Text, r.below(col)
		if r.used(col) || name == "" && below < 0 {
			continue
		}
		if f := fieldOf(name); f >= fGroup && f <= fCompanion && below >= 0 {
			r.wrong(r.head, col, "take one of the two away, the one they do not sit by",
				"columns %q and %q mean the same", r.sheet.At(r.head, r.at[f]).Text, name)
		}
		if below >= 0 {
			r.checkColumn(col)
		}
		called := "without a name"
		if name != "" {
			called = strconv.Quote(name)
		}
		names = append(names, r.sheet.Address(r.head, col)+" "+called)
	}
	const most = 12
	if n := len(names); n > most {
		names = append(names[:most], fmt.Sprintf("and %d more", n-most))
	}
	if len(names) > 0 {
		r.note("Columns that are not used: %s.", strings.Join(names, ", "))
	}
	var lost []string
	for row := range r.head {
		filled := 0
		for col := range r.sheet.Cols(row) {
			if r.sheet.At(row, col).Text != "" {
				filled++
			}
		}
		if filled > 1 {
			lost = append(lost, strconv.Itoa(row+1))
		}
	}
	if len(lost) > 0 {
		r.note("The columns are named in %s, and what stands above it is not read: line %s.", r.where(r.head),
			strings.Join(lost[:min(len(lost), most)], ", "))
	}
}

func (r *reader) readLines() {
	r.checkFilm()
	r.checkRemarks()
	r.noteUnused()
	r.findAnswers()
	r.howFilmed()
	for row := r.head + 1; row < r.sheet.Rows() && r.fault == nil; row++ {
		switch {
		case r.blank(row), r.headerAgain(row):
		case r.isTotal(row):
		default:
			r.readLine(row)
		}
	}
}

// ofAbsence are words of people who may not come, in small letters without accents.
var ofAbsence = []string{" cancel", " not coming", " withdr", " dropped out", " drops out", " absent", " waiting ",
	" wait list", " waitlist", " standby", " stand by", " reserve list", " abgesagt", " absage", " kommt nicht",
	" warteliste", " absent", " annul", " liste d attente", " ausente", " lista de espera", " assente", " afgemeld",
	" wachtlijst", " not come ", " cannot come ", " can t come ", " reserves ", " unable ", " won t ", " ill ",
	" sick ", " krank ", " malade "}

// checkRemarks refuses what says in words that somebody needs another place, is no single person or may not come,
// where nobody would read it.
func (r *reader) checkRemarks() {
	for row := 0; row < r.sheet.Rows() && r.fault == nil; row++ {
		for col := range r.sheet.Cols(row) {
			text := r.sheet.At(row, col).Text
			if pinned := r.sheet.At(row, col).Pinned; speaks(folded(pinned), ofFilm, ofAbsence, ofWheelchair,
				ofCompanion) {
				r.wrong(row, col, "say it in a column that is read, and take the comment away",
					"the comment %q is not read", shown(pinned))
			}
			if text == "" || row == r.head {
				continue
			}
			words := folded(text)
			person := row > r.head && (col == r.at[fPerson] || col == r.at[fGiven] || col == r.at[fFamily])
			switch used := row > r.head && r.used(col); {
			case r.sheet.At(row, col).Struck:
				r.wrong(row, col, "take the line of the table out, or the line through the text away",
					"%q is struck through", shown(text))
			case (!used || person || col == r.at[fLeader]) && speaks(words, ofWheelchair, ofCompanion):
				r.wrong(row, col, `write wheelchair or companion into a column "needs", and take the words away here`,
					"%q speaks of a place that somebody needs, and its column is not read for that", shown(text))
			case !(used && r.isFilmed(col)) && speaks(words, ofAbsence):
				r.wrong(row, col, "take out whoever does not come, and then the words",
					"%q speaks of somebody who may not come", shown(text))
			case person && (peopleIn.MatchString(strings.ToLower(text)) || strings.Count(text, ",") > 1 ||
				strings.ContainsAny(text, ";&+") || speaks(words, ofSeveral)):
				r.wrong(row, col, "write a line a person, or how many they are into a column \"count\"",
					"%q may be several people", shown(text))
			case person && (speaks(words, ofNobody) || words == "  "):
				r.wrong(row, col, "take the line out, or write a name or a code", "%q names nobody", shown(text))
			case person && moreThanName.MatchString(text) && !speaks(words, ofTotals):
				r.wrong(row, col, "write the name alone, and the rest into a column that is read: group, needs, "+
					"coming, "+
					"may be filmed", "%q says more than a name", shown(text))
			case row < r.head && !r.agrees(text):
				r.wrong(row, col, "mend it, or take it away", "%q tells another number of people than is listed",
					shown(text))
			}
		}
	}
}

// Words of a person's cell that names several, or nobody.
var (
	ofSeveral = []string{" and ", " und ", " et ", " family ", " familie ", " famille ", " familia ", " twins "}
	ofNobody  = []string{" tba ", " tbc ", " tbd ", " vacant ", " n n ", " nobody ", " free place ", " spare "}
)

var ofTotals = []string{" total", " sum", " gesamt ", " people "}

// moreThanName matches a person's cell that may be a heading or has a remark: a mark, an end in brackets, two names.
var moreThanName = regexp.MustCompile(`[*?†♿/:]|\)$|^(--|[–—])`)

// agrees says whether a title tells as many people as there are lines below it, where it tells a number.
func (r *reader) agrees(title string) bool {
	m := peopleIn.FindStringSubmatch(strings.ToLower(title))
	if m == nil {
		return true
	}
	told, _ := strconv.Atoi(m[1])
	lines, counted := 0, 0
	for row := r.head + 1; row < r.sheet.Rows(); row++ {
		if n, ok := cells.Number(r.sheet.At(row, r.at[fCount]).Text); ok {
			counted += n
		}
		if !r.blank(row) {
			lines++
		}
	}
	return told == lines || counted > 0 && (told == counted || 2*told == counted)
}

var peopleIn = regexp.MustCompile(`\b([0-9]{1,6}) (people|persons|names|pupils|students|children|singers|members|` +
	`guests|` +
	`personen|personnes|personas|persone)\b`)

// besidePeople are names of columns that say neither who comes, nor how many, nor what somebody needs.
var besidePeople = regexp.MustCompile(`^((no|nr|n|number|age|born|birth(day|date)?|date of birth|year|(under|over) ` +
	`[0-9]+|` +
	`phone|mobile|tel|telephone|e ?mail( address)?|address|street|town|city|contact|parents?|mother|father|school|` +
	`house|` +
	`locker|diet|food|meal|lunch|allerg(y|ies)|vegetarian|vegan|t? ?shirt( size)?|size|voice|instrument|part|boat|` +
	`bus|` +
	`colou?r|signed up( on)?|invited on|(seat )?wish(es)?|paid|fee|ticket( no)?|gender|sex|pronouns?|post ?code|zip|` +
	`language|row|seat|block|date|registered( on)?|badge|geboren|geburtsdatum|alter|telefon|handy|adresse|straße|` +
	`ort|` +
	`naissance|âge|téléphone|edad|teléfono|età|telefono|leeftijd|ålder)( |$))+$`)

// checkColumn refuses a column that is not read and may say who comes, or how many.
func (r *reader) checkColumn(col int) {
	name := r.sheet.At(r.head, col).Text
	if besidePeople.MatchString(cells.Plain(name)) {
		return
	}
	const hint = "take the column away where it says nothing of who comes; else say it in one that is read: " +
		"person, group, " +
		"count, needs, coming, may be filmed"
	if r.mayCount(col) {
		r.wrong(r.head, col, "call it count if so many come under each name; "+hint,
			"column %q holds numbers, and nothing says whether they count people", name)
	}
	for row := r.head + 1; row < r.sheet.Rows(); row++ {
		if c := r.sheet.At(row, col); c.Text != "" && c.Date == "" && !r.blank(row) {
			r.wrong(row, col, hint, "column %q is not read, and %q may say who comes, or how many", name,
				shown(c.Text))
		}
	}
}

// blank says whether nothing in the line stands under a known name.
func (r *reader) blank(row int) bool {
	for col := range r.sheet.Cols(row) {
		if r.used(col) && r.sheet.At(row, col).Text != "" {
			return false
		}
	}
	return true
}

// headerAgain says whether the line names the columns once more; one that names them in another way is refused.
func (r *reader) headerAgain(row int) bool {
	same, filled := 0, 0
	for col := range r.sheet.Cols(row) {
		text := r.sheet.At(row, col).Text
		if !r.used(col) || text == "" {
			continue
		}
		filled++
		if text == r.sheet.At(r.head, col).Text {
			same++
		} else if !namesColumn(text) {
			return false
		}
	}
	if filled > 1 && same < filled {
		r.wrong(row, -1, "put what stands below it into a sheet or a file of its own",
			"the line names columns in another way than line %d", r.head+1)
	}
	return filled > 1
}

// namesColumn says whether a text is one of the names of columns, letter by letter.
func namesColumn(text string) bool {
	words := cells.Plain(text)
	in := func(names []string) bool { return slices.Contains(names, words) }
	return slices.ContainsFunc(fieldNames, in) || in(mayBeFilmed) || in(mayNotBeFilmed)
}

// isTotal says whether the line adds others up: its first word says so. Where what it counts is not what the lines
// above it add up to, it may be a group.
func (r *reader) isTotal(row int) bool {
	first := -1
	for col := range r.sheet.Cols(row) {
		if r.sheet.At(row, col).Text != "" {
			first = col
			break
		}
	}
	if first < 0 {
		return false
	}
	words := strings.Trim(cells.Plain(r.sheet.At(row, first).Text), " 0123456789")
	sure := slices.Contains(totals, words)
	head, _, _ := strings.Cut(words, " ")
	last := words[strings.LastIndexByte(words, ' ')+1:] // of people it may be a name
	if !sure && !slices.Contains(totals, head) && !(r.has(fCount) && slices.Contains(totals, last)) {
		return false
	}
	text, col := r.text(row, fCount)
	for at := first + 1; col < 0 && at < r.sheet.Cols(row); at++ { // where nothing is counted, one number stands alone
		text += r.sheet.At(row, at).Text
		if r.has(fWheelchair) || r.has(fCompanion) {
			text = ""
		}
	}
	if text == "" {
		text = numberBehind.FindString(r.sheet.At(row, first).Text)
	}
	n, whole := cells.Number(text)
	switch agrees := whole && (n == r.total || n == r.total-r.summed); {
	case agrees:
		r.summed = r.total
	case !sure || whole:
		r.wrong(row, first, "take a total away; give a group or a person another name",
			"%q may be a total or a group, and the lines above it add up to %d people",
			shown(r.sheet.At(row, first).Text), r.total)
	}
	return true
}

// numberBehind is a number at the end of a text, in brackets or not.
var numberBehind = regexp.MustCompile(`[0-9]+\)?$`)

// text is the cell of a field in a line; col is −1 where there is no such column.
func (r *reader) text(row int, f field) (text string, col int) {
	return r.sheet.At(row, r.at[f]).Text, r.at[f]
}

func (r *reader) readLine(row int) {
	person := r.person(row)
	switch text, col := r.text(row, fComes); {
	case col < 0 || answerOf(text) == yes:
	case answerOf(text) == no:
		r.absent++
		return
	default:
		r.wrong(row, col, "write yes or no", "%q does not say whether the person comes", shown(text))
	}
	count, counted := r.count(row)
	g, named := r.group(row)
	r.current = g
	r.shared(row, g, person != "")
	switch {
	case person != "" && counted && count != 1:
		r.wrong(row, r.at[fCount], "give a line a person, or a line a group and its count",
			"a person and a count of %d stand in one line", count)
	case person != "":
		r.addPerson(row, g, person)
	case counted:
		r.addCount(row, g, count)
	case !named:
		r.wrong(row, -1, "fill it in, or take it away", "the line says neither who comes nor how many")
	case !r.has(fPerson) && !r.has(fGiven): // else it is a line of its own over the group's people
		r.wrong(row, r.at[fCount], "write a number, 0 where nobody comes",
			"how many people group %q has is not said", g.party.Name)
	}
}

// person is the line's person, put together from its parts.
func (r *reader) person(row int) string {
	var parts []string
	for _, f := range []field{fPerson, fGiven, fFamily} {
		text, col := r.text(row, f)
		if r.fits(row, col, "the person's name", text); text != "" {
			parts = append(parts, text)
		}
	}
	name := strings.Join(parts, " ")
	r.fits(row, -1, "the person's name", name)
	return name
}

// count is how many people the line stands for, where it says so.
func (r *reader) count(row int) (n int, ok bool) {
	text, col := r.text(row, fCount)
	n, whole := cells.Number(text)
	switch {
	case text == "":
		return 0, false
	case r.sheet.At(row, col).Date != "":
		r.wrong(row, col, "format the column as text and type it anew",
			"a spreadsheet made a date of the number of people")
	case !whole || n > MaxPeople:
		r.wrong(row, col, "write a whole number, such as 24", "%q is no number of people", shown(text))
	}
	return n, true
}

func shown(text string) string {
	const most = 40
	if runes := []rune(text); len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return text
}

// everybody is the group of a roster that names none.
const everybody = "everybody"

// group finds the line's group, or starts it; named says whether the line names it.
func (r *reader) group(row int) (g *gathering, named bool) {
	name, col := r.text(row, fGroup)
	r.fits(row, col, "the group's name", name)
	named = name != ""
	switch ditto := cells.Ditto(name); {
	case col < 0 && r.several:
		name = r.sheet.Name
	case col < 0:
		name = everybody
	case (name == "" || ditto) && r.current != nil:
		if !ditto {
			r.above++
		}
		return r.current, false
	case name == "" || ditto:
		name = "no group"
	}
	if g = r.gathering(name); len(r.order) > MaxGroups {
		r.wrong(row, col, "the column of groups names classes or clubs, not people",
			"there are more than %d groups", MaxGroups)
	}
	return g, named
}

// gathering is the group of a name, the same for all ways of writing it.
func (r *reader) gathering(name string) *gathering {
	if g := r.groups[name]; g != nil {
		return g
	}
	key := groupKey(name)
	g := r.groups[key]
	if g == nil {
		g = &gathering{party: Party{Name: name}}
		r.groups[key] = g
		r.order = append(r.order, g)
	}
	r.groups[name] = g
	return g
}

// shared reads what holds for the whole group: room, door, time, leader.
func (r *reader) shared(row int, g *gathering, person bool) {
	for _, t := range []struct {
		field field
		what  string
		to    *string
	}{{fRoom, "room", &g.party.Room}, {fDoor, "door", &g.party.Door}, {fTime, "time", &g.party.Time},
		{fLeader, "leader", &g.party.Leader}} {
		text, col := r.text(row, t.field)
		if text == "" || t.field == fLeader && person && leads(text) != other {
			continue
		}
		switch t.field {
		case fTime:
			if why := nameFault(text); why != "" { // a date is one
				r.fits(row, -1, "the group's time", text)
			}
			text = clockOf(text)
		case fLeader:
			if _, number := cells.Number(text); number {
				r.wrong(row, col, "count them among the group's people, and name the column otherwise",
					"%q may be people who come too", shown(text))
			}
			if answerOf(text) != other {
				r.list(row, col, "it is no leader's name")
				continue
			}
			if r.fits(row, col, "the group's leader", text); cells.Plain(r.sheet.At(r.head, col).Text) == "role" {
				r.list(row, col, "of roles only who leads is read")
				continue
			}
		default:
			r.fits(row, col, "the group's "+t.what, text)
		}
		if *t.to != "" && *t.to != text {
			r.list(row, col, "the group's lines differ, and a group has one "+t.what+": the first one is kept")
			continue
		}
		*t.to = text
	}
}

// leads says whether a cell marks a person as leader; other where it says who leads the group.
func leads(text string) answer {
	switch cells.Plain(text) {
	case "leader", "helper", "teacher", "lead", "group leader", "tutor", "conductor", "coach":
		return yes
	case "member", "student", "pupil", "participant", "singer":
		return no
	}
	return answerOf(text)
}

// clockOf turns the part of a day that a spreadsheet keeps for a time into hours and minutes.
func clockOf(text string) string {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || v <= 0 || v >= 1 {
		return text
	}
	minutes := int(float64(v*1440) + 0.5)
	return fmt.Sprintf("%d:%02d", minutes/60%24, minutes%60)
}

func (r *reader) where(row int) string {
	if r.several {
		return fmt.Sprintf("line %d of sheet %s", row+1, r.sheet.Name)
	}
	return fmt.Sprintf("line %d", row+1)
}

func (r *reader) addPerson(row int, g *gathering, name string) {
	if g.party.People > 0 {
		r.wrong(row, -1, "keep one of the two", "a person of group %q stands here, and %s counts the group",
			g.party.Name, g.line)
	}
	if r.total++; r.total > MaxPeople {
		r.wrong(row, -1, "no stands hold so many", "there are more than %d people", MaxPeople)
	}
	leader, _ := r.text(row, fLeader)
	p := Person{Name: name, Need: r.need(row), Unfilmed: r.unfilmed(row), Leads: leads(leader) == yes}
	key := [2]string{g.party.Name, groupKey(name)}
	if r.listed[key] {
		r.wrong(row, -1, "keep one of the lines, or tell the two people apart", "%q of group %q is listed twice",
			shown(name), shown(g.party.Name))
	}
	r.listed[key] = true
	if g.people = append(g.people, p); g.line == "" {
		g.line = r.where(row)
	}
}

// need reads what the person needs of a seat; what is about something else is listed.
func (r *reader) need(row int) Need {
	text, col := r.text(row, fNeeds)
	need, ok, sure := needOf(text)
	switch {
	case !sure:
		r.wrong(row, col, "write wheelchair for whoever comes in one, companion for whoever comes with them, each in "+
			"their own line", "what seat the person needs is not sure: %q", shown(text))
	case !ok:
		r.list(row, col, "only wheelchair and companion are read here; the crew must see to it")
	}
	for _, c := range []struct {
		field field
		need  Need
	}{{fWheelchair, Wheelchair}, {fCompanion, Companion}} {
		text, col := r.text(row, c.field)
		switch a := answerOf(text); {
		case a == other:
			r.wrong(row, col, "write yes where the person needs such a place, else leave it blank",
				"%q is no answer to %q", shown(text), r.sheet.At(r.head, col).Text)
		case a == yes && need != Nothing && need != c.need:
			r.wrong(row, col, "a companion has a line of their own",
				"the person cannot need a wheelchair place and a companion's")
		case a == yes:
			need = c.need
		case a == unknown && !dash(text):
			r.list(row, col, "it does not say: no place is kept for the person")
		}
	}
	return need
}

// dash says whether a cell says that there is nothing to say.
func dash(text string) bool {
	words := cells.Plain(text)
	return strings.Trim(text, "-–— ") == "" || words == "na" || words == "n a"
}

func (r *reader) addCount(row int, g *gathering, n int) {
	party := &g.party
	switch {
	case party.People > 0:
		r.wrong(row, -1, "add them up in one line, or give the two their own names",
			"group %q is counted twice, in %s too", party.Name, g.line)
	case len(g.people) > 0:
		r.wrong(row, -1, "keep one of the two", "group %q is counted here, and its people are listed from %s on",
			party.Name, g.line)
	}
	if r.total += n; r.total > MaxPeople {
		r.wrong(row, -1, "look for a slip of the pen in the numbers", "with it there are more than %d people",
			MaxPeople)
	}
	party.People, g.line = n, r.where(row)
	if text, col := r.text(row, fNeeds); answerOf(text) == other {
		r.wrong(row, col, "write how many into columns named wheelchairs and companions", "%q is not read for a group",
			shown(text))
	}
	r.part(row, n, fWheelchair, &party.Wheelchairs)
	r.part(row, n, fCompanion, &party.Companions)
	party.Unfilmed = r.unfilmedOf(row, n)
	if needs := party.Wheelchairs + party.Companions; needs > n {
		r.wrong(row, -1, "the count has everybody in it",
			"group %q has %d people and %d wheelchair users and companions",
			party.Name, n, needs)
	}
}

// part reads how many of the counted people a column is about: a number, or no for none.
func (r *reader) part(row, of int, f field, to *int) {
	text, col := r.text(row, f)
	switch n, whole := cells.Number(text); {
	case whole && n <= of:
		*to = n
	case text == "", dash(text), answerOf(text) == no, cells.Plain(text) == "none":
	default:
		r.wrong(row, col, "write how many of the group, such as 2", "%q is no number of people of %d", shown(text), of)
	}
}

func (r *reader) finish() (*Roster, error) {
	for _, g := range r.order {
		if head, told, _ := strings.Cut(strings.TrimSuffix(g.party.Name, ")"), "("); head != "" {
			if n, ok := cells.Number(told); ok && n != max(len(g.people), g.party.People) {
				return nil, &seating.Fault{File: r.file,
					What: fmt.Sprintf("group %q has %d people by its lines, and %d by "+
						"its name", g.party.Name, max(len(g.people), g.party.People), n), Hint: "mend one of the two"}
			}
		}
		if len(g.people) > 0 {
			r.out.add(g.party.group(), g.people)
		} else if g.party.People > 0 {
			r.out.addCounted(&g.party)
		}
	}
	if len(r.out.People) == 0 {
		return nil, &seating.Fault{File: r.file, What: "nobody is in the roster",
			Hint: "write the people, or the groups and their counts, below the line that names the columns"}
	}
	if r.above > 0 {
		r.note("%d lines name no group: the one above is taken.", r.above)
	}
	if r.absent > 0 {
		r.note("%d lines say that who stands there does not come: they are left out.", r.absent)
	}
	r.saySilent()
	if r.dropped > 0 {
		r.note("%d further cells were not used and are not listed.", r.dropped)
	}
	return r.out, nil
}

// mayCount says whether the cells of a column could all be counts of people: whole numbers, not all of them one,
// and not the numbers of the lines.
func (r *reader) mayCount(col int) bool {
	lines, some, numbered := 0, false, true
	for row := r.head + 1; row < r.sheet.Rows(); row++ {
		text := r.sheet.At(row, col).Text
		if text == "" {
			continue
		}
		n, whole := cells.Number(text)
		if !whole || n < 0 || n > MaxPeople {
			return false
		}
		lines++
		some = some || n != 1
		numbered = numbered && n == lines
	}
	return some && !(numbered && lines > 1)
}
