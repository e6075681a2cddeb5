package stuntfile

import (
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/survey"
)

// stands reads [stands], its table and every [[section]].
func (r *reader) stands(s scope, st *mosaic.Stunt) {
	t, _ := s.inner("stands")
	all := s.each("section")
	if len(all) > seating.MaxSections {
		r.faultAt(all[seating.MaxSections].t.at.from,
			fmt.Sprintf("there are more than %d sections", seating.MaxSections),
			"make one of sections that stand side by side")
		all = all[:seating.MaxSections]
	}
	spec := &st.Stands
	options := surveyOptions(t, all)
	t.file("table", func(name string, data []byte) error {
		table, err := survey.Read(name, data, options)
		if err == nil {
			r.f.Survey = table
			spec.Sections = slices.Clone(table.Sections)
			spec.Posted, spec.People = table.Posted, table.People
		}
		return err
	})
	t.some("posted", &spec.Posted)
	t.some("people", &spec.People)
	t.share("expected", &spec.Expected)
	t.text("origin", &spec.Origin)
	r.f.sections = slices.Repeat([]int{fromTable}, len(spec.Sections))
	for i, sec := range all {
		r.section(sec, i, spec)
	}
	if r.f.Survey != nil {
		r.order(spec, all)
	}
}

// surveyOptions are what settles how the table is read: which sheets, and which end of its lines is the front.
func surveyOptions(t scope, sections []scope) survey.Options {
	o := survey.Options{Fronts: map[string]survey.Front{}}
	if v := t.find("sheet"); v != nil {
		list(v, "sheet", &o.Sheets, func(v *value, key string, to *string) bool { return t.readText(v, key, to) })
	}
	if end := survey.Front(0); choice(t, "front", &end, survey.FrontWords[:]...) {
		o.Front = survey.FirstLine + end
	}
	t.either("unread", &o.LeaveOut, "refused", "left out")
	for _, s := range sections {
		name, front := s.given("name"), s.given("front")
		if name == nil || front == nil {
			continue
		}
		if i := slices.Index(survey.FrontWords[:], front.text); i >= 0 {
			o.Fronts[name.text] = survey.FirstLine + survey.Front(i)
		}
	}
	return o
}

// order puts the table's sections in the order of the [[section]] tables, from left to right, where these name them
// all; where they name some of them in another order than the table's, that is said.
func (r *reader) order(spec *seating.Spec, all []scope) {
	n := len(r.f.Survey.Sections)
	var named []int
	for _, i := range r.f.sections[:n] {
		if i != fromTable {
			named = append(named, i)
		}
	}
	switch {
	case slices.IsSorted(named):
		return
	case len(named) < n:
		r.f.ordered = "Sections stand side by side in the order of the table, since not every one of them has a " +
			"[[section]]: " +
			"give each one its [[section]] to order them otherwise."
		return
	}
	last := r.f.Survey.Sections[n-1].Name
	type placed struct {
		spec seating.SectionSpec
		at   int
	}
	both := make([]placed, len(spec.Sections))
	for k := range both {
		both[k] = placed{spec.Sections[k], r.f.sections[k]}
	}
	slices.SortStableFunc(both, func(a, b placed) int { return a.at - b.at })
	for k, p := range both {
		if p.spec.Name == last && p.spec.Aisle == 0 && p.spec.Kind != seating.Floor &&
			all[p.at].given("aisle") == nil {
			p.spec.Aisle = seating.DefaultAisle // nothing stood to its right in the table
		}
		spec.Sections[k], r.f.sections[k] = p.spec, p.at
	}
}

// fromTable marks sections that have no [[section]] of their own.
const fromTable = -1

// section reads [[section]] number i: a new section, or what it adds to the table's.
func (r *reader) section(s scope, i int, spec *seating.Spec) {
	var name string
	s.text("name", &name)
	s.must("name", `every [[section]] has a name, such as name = "A"`)
	sec := r.sectionOf(name, i, spec)
	choice(s, "kind", &sec.Kind, "bench", "chairs", "floor")
	choice(s, "posture", &sec.Posture, "sitting", "kneeling", "standing")
	choice(s, "align", &sec.Align, "centre", "left", "right")
	rows := s.some("rows", &sec.Rows)
	if s.wholes("seats", &sec.Seats) && len(sec.Seats) > 1 && !rows {
		sec.Rows = len(sec.Seats)
	}
	if s.lengths("bench", &sec.Bench) && len(sec.Bench) > 1 && !rows {
		sec.Rows = len(sec.Bench)
	}
	s.measured("pitch", &sec.Pitch)
	s.measured("run", &sec.Run)
	for _, l := range []side{{"rise", &sec.Rise}, {"seat_board", &sec.SeatBoard}} { // level on the floor alone
		if s.length(l.key, l.to) && *l.to == 0 && sec.Kind != seating.Floor {
			s.fault(s.given(l.key), l.key+" cannot be 0",
				`level rows are kind = "floor"; with chairs on them, seat_board = "17in"`)
		}
	}
	s.length("first_row", &sec.FirstRow)
	s.length("aisle", &sec.Aisle)
	if s.length("radius", &sec.Radius) && sec.Radius == 0 {
		s.fault(s.find("radius"), "a radius of 0 m is no curve", "leave radius out for straight rows")
	}
	if p, there := s.inner("place"); there {
		sec.Place = &seating.Place{}
		p.sides(side{"across", &sec.Place.Across}, side{"away", &sec.Place.Away})
		p.anyNumber("facing", &sec.Place.Facing)
	}
	r.rowNames(s, &sec.RowNames)
	if t, there := s.inner("seat_numbers"); there {
		sec.SeatNumbers = seating.SeatNumbering{}
		choice(t, "from", &sec.SeatNumbers.From, "left", "right")
		t.some("start", &sec.SeatNumbers.Start)
		t.some("step", &sec.SeatNumbers.Step)
	}
	tables(s, "cross_aisles", &sec.CrossAisles, func(c scope, a *seating.CrossAisle) {
		c.text("after", &a.After)
		c.must("after", `write { after = "5", depth = "4 ft" }: the row in front of the walkway`)
		c.length("depth", &a.Depth)
		c.must("depth", `write { after = "5", depth = "4 ft" }`)
	})
	// What is missing and reserved comes on top of what the table says.
	seats, whole := r.seatList(s, "missing", sec.Name)
	sec.Missing, sec.MissingRows = append(sec.Missing, seats...), append(sec.MissingRows, whole...)
	tables(s, "reserved", &sec.Reserved, func(t scope, res *seating.Reserved) {
		res.Seats, res.Rows = r.seatList(t, "seats", sec.Name)
		t.must("seats", `write { seats = ["3-1..2"], for = "wheelchair" }`)
		uses := seating.ReservedFor[:]
		word(t, "for", &res.For, uses...)
		t.must("for", "say for whom: "+quoted(uses))
	})
	cards := !sec.NoCards
	s.flag("cards", &cards)
	sec.NoCards = !cards
	if end := survey.Front(0); choice(s, "front", &end, survey.FrontWords[:]...) && r.f.Survey != nil &&
		!slices.ContainsFunc(r.f.Survey.Sections, func(sec seating.SectionSpec) bool { return sec.Name == name }) {
		s.fault(s.given("front"), fmt.Sprintf("front speaks of the lines of the table, and section %q is not in it",
			name), "leave it out")
	}
}

// sectionOf finds the table's section to refine, or adds one. A second
// [[section]] of the same name is added, so that the stands refuse it by name.
func (r *reader) sectionOf(name string, i int, spec *seating.Spec) *seating.SectionSpec {
	for k := range spec.Sections {
		if spec.Sections[k].Name == name && r.f.sections[k] == fromTable {
			r.f.sections[k] = i
			return &spec.Sections[k]
		}
	}
	spec.Sections = append(spec.Sections, seating.SectionSpec{Name: name})
	r.f.sections = append(r.f.sections, i)
	return &spec.Sections[len(spec.Sections)-1]
}

func (r *reader) rowNames(s scope, to *seating.RowNaming) {
	v := s.find("row_names")
	if v == nil {
		return
	}
	if v.kind == unstable.Array {
		*to = seating.RowNaming{}
		s.texts("row_names", &to.Names)
		return
	}
	if v.table == nil {
		s.wrong(v, "row_names", "a list of names or a table",
			`write row_names = { letters = true }, or row_names = ["A", "B", "C"], front to back`)
		return
	}
	t := r.enter(v.table)
	*to = seating.RowNaming{}
	t.flag("letters", &to.Letters)
	t.flag("all_letters", &to.AllLetters)
	t.some("start", &to.Start)
	t.some("step", &to.Step)
	t.either("from", &to.FromBack, "front", "back")
}

const seatHint = `write a seat as ROW-SEAT or SECTION-ROW-SEAT, such as "3-4"; neighbours are "3-4..9", a whole ` +
	`row is "7", ` +
	`rows 7 to the back "7.."`

// seatList reads seats, "3-4..9", and whole rows, "7" or "7..9".
func (r *reader) seatList(s scope, key, section string) (list []seating.SeatRange, whole []seating.RowRange) {
	v := s.find(key)
	if v == nil {
		return nil, nil
	}
	if v.kind != unstable.Array {
		s.wrong(v, key, "a list of seats", fmt.Sprintf(`write %s = ["3-4", "5-1..3"]`, key))
		return nil, nil
	}
	for _, item := range v.items {
		if rows, ok := parseRows(item.text); ok && item.kind == unstable.String && rows.Section == "" {
			whole = append(whole, rows)
			continue
		}
		named, seats, ok := parseSeats(item.text)
		switch {
		case item.kind != unstable.String || !ok:
			s.wrong(item, key, "a seat", seatHint)
		case named != "" && named != section:
			s.fault(item, fmt.Sprintf("%s: seat %q is not in section %q", key, item.text, section),
				fmt.Sprintf("write it under the [[section]] %q", named))
		default:
			list = append(list, seats)
		}
	}
	return list, whole
}

// parseSeats reads "B-3-4", "B-5-1..3" or, without the section, "3-4".
func parseSeats(text string) (section string, seats seating.SeatRange, ok bool) {
	parts := strings.Split(text, "-")
	if len(parts) == 3 {
		section = strings.TrimSpace(parts[0])
		if section == "" {
			return "", seats, false
		}
		parts = parts[1:]
	}
	if len(parts) != 2 {
		return "", seats, false
	}
	seats.Row = strings.TrimSpace(parts[0])
	from, to, two := strings.Cut(parts[1], "..")
	if !two {
		to = from
	}
	seats.From, ok = figures(from)
	if ok {
		seats.To, ok = figures(to)
	}
	return section, seats, ok && seats.Row != ""
}

// figures reads a seat's number as marked: digits only, so that no two texts name one seat by a sign.
func figures(text string) (int, bool) {
	text = strings.TrimSpace(text)
	n := 0
	for _, c := range []byte(text) {
		if c < '0' || c > '9' || n > maxWhole {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	return n, text != "" && n <= maxWhole
}
