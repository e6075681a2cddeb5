package stuntfile

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/seating"
)

// stands reads [stands], its table and every [[section]].
func (r *reader) stands(s scope, st *mosaic.Stunt) {
	t, _ := s.inner("stands")
	spec := &st.Stands
	r.table(t, spec)
	t.some("posted", &spec.Posted)
	t.some("people", &spec.People)
	t.share("expected", &spec.Expected)
	t.text("origin", &spec.Origin)
	t.close()
	r.f.sections = make([]int, len(spec.Sections))
	for i := range r.f.sections {
		r.f.sections[i] = fromTable
	}
	all := s.each("section")
	if len(all) > seating.MaxSections {
		r.faultAt(all[seating.MaxSections].t.at.from, fmt.Sprintf("there are more than %d sections", seating.MaxSections), "")
		all = all[:seating.MaxSections]
	}
	for i, sec := range all {
		r.section(sec, i, spec)
	}
}

// fromTable marks sections that have no [[section]] of their own.
const fromTable = -1

func (r *reader) table(s scope, spec *seating.Spec) {
	var name string
	if !s.text("table", &name) {
		return
	}
	v := s.t.byName["table"].val
	name, data, ok := r.file(v, "table")
	if !ok {
		return
	}
	survey, err := seating.ReadSurvey(name, data)
	if err != nil {
		r.faultBeside(v.at.from, r.beside(err))
		return
	}
	r.f.Survey = survey
	spec.Sections = append(spec.Sections, survey.Sections...)
	spec.Posted, spec.People = survey.Posted, survey.People
}

// beside gives a fault of a file beside the stunt file the path that people know it by.
func (r *reader) beside(err error) *seating.Fault {
	f, ok := err.(*seating.Fault)
	if !ok {
		return &seating.Fault{What: err.Error()}
	}
	c := *f
	if c.File != "" {
		c.File = besidePath(r.d.name, c.File)
	}
	return &c
}

// section reads [[section]] number i: a new section, or what it adds to the table's.
func (r *reader) section(s scope, i int, spec *seating.Spec) {
	var name string
	if !s.text("name", &name) && !s.has("name") {
		s.absent("name", `every [[section]] has a name, such as name = "A"`)
	}
	sec := r.sectionOf(name, i, spec)
	kind, posture, align := int(sec.Kind), int(sec.Posture), int(sec.Align)
	s.choice("kind", &kind, "bench", "chairs", "floor")
	s.choice("posture", &posture, "sitting", "kneeling", "standing")
	s.choice("align", &align, "centre", "left", "right")
	sec.Kind, sec.Posture, sec.Align = seating.Kind(kind), seating.Posture(posture), seating.Align(align)
	rows := s.some("rows", &sec.Rows)
	if s.wholes("seats", &sec.Seats) {
		if len(sec.Seats) > 1 && !rows {
			sec.Rows = len(sec.Seats)
		}
	}
	if s.lengths("bench", &sec.Bench) && len(sec.Bench) > 1 && !rows {
		sec.Rows = len(sec.Bench)
	}
	s.measured("pitch", &sec.Pitch)
	r.steps(s, sec)
	s.length("first_row", &sec.FirstRow)
	s.length("aisle", &sec.Aisle)
	if s.length("radius", &sec.Radius) && sec.Radius == 0 {
		s.r.faultAt(s.find("radius").at.from, "a radius of 0 m is no curve", "leave radius out for straight rows")
	}
	r.place(s, sec)
	r.rowNames(s, &sec.RowNames)
	r.seatNumbers(s, &sec.SeatNumbers)
	r.crossAisles(s, sec)
	r.seatLists(s, sec)
	cards := !sec.NoCards
	s.flag("cards", &cards)
	sec.NoCards = !cards
	s.close()
}

// steps reads what is level on the floor alone: elsewhere a 0 would be taken for nothing said.
func (r *reader) steps(s scope, sec *seating.SectionSpec) {
	s.measured("run", &sec.Run)
	for _, l := range []struct {
		key string
		to  *seating.Length
	}{{"rise", &sec.Rise}, {"seat_board", &sec.SeatBoard}} {
		if s.length(l.key, l.to) && *l.to == 0 && sec.Kind != seating.Floor {
			r.faultAt(s.t.byName[l.key].val.at.from, l.key+" cannot be 0",
				`level rows are kind = "floor"; with chairs on them, seat_board = "17in"`)
		}
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

func (r *reader) place(s scope, sec *seating.SectionSpec) {
	p, there := s.inner("place")
	var place seating.Place
	p.length("across", &place.Across)
	p.length("away", &place.Away)
	p.number("facing", &place.Facing)
	p.close()
	if there {
		sec.Place = &place
	}
}

func (r *reader) rowNames(s scope, to *seating.RowNaming) {
	v := s.find("row_names")
	if v == nil {
		return
	}
	if v.kind == unstable.Array {
		var n seating.RowNaming
		if s.texts("row_names", &n.Names) {
			*to = n
		}
		return
	}
	if v.table == nil {
		s.wrong(v, "row_names", "a list of names or a table", `write row_names = { letters = true }, or row_names = ["A", "B", "C"], front to back`)
		return
	}
	var n seating.RowNaming
	t := scope{r, v.table}
	t.flag("letters", &n.Letters)
	t.flag("all_letters", &n.AllLetters)
	t.some("start", &n.Start)
	t.some("step", &n.Step)
	from := 0
	t.choice("from", &from, "front", "back")
	n.FromBack = from == 1
	t.close()
	*to = n
}

func (r *reader) seatNumbers(s scope, to *seating.SeatNumbering) {
	t, there := s.inner("seat_numbers")
	var n seating.SeatNumbering
	from := 0
	t.choice("from", &from, "left", "right")
	n.From = seating.Side(from)
	t.some("start", &n.Start)
	t.some("step", &n.Step)
	t.close()
	if there {
		*to = n
	}
}

func (r *reader) crossAisles(s scope, sec *seating.SectionSpec) {
	for _, c := range s.each("cross_aisles") {
		var a seating.CrossAisle
		if !c.text("after", &a.After) && !c.has("after") {
			c.absent("after", `write { after = "5", depth = "4 ft" }: the row in front of the walkway`)
		}
		if !c.length("depth", &a.Depth) && !c.has("depth") {
			c.absent("depth", `write { after = "5", depth = "4 ft" }`)
		}
		c.close()
		sec.CrossAisles = append(sec.CrossAisles, a)
	}
}

// seatLists reads missing and reserved; they come on top of what the table says.
func (r *reader) seatLists(s scope, sec *seating.SectionSpec) {
	if v := s.find("missing"); v != nil {
		sec.Missing = append(sec.Missing, r.seatList(s, v, "missing", sec.Name)...)
	}
	for _, t := range s.each("reserved") {
		var res seating.Reserved
		if v := t.find("seats"); v != nil {
			res.Seats = r.seatList(t, v, "seats", sec.Name)
		} else {
			t.absent("seats", `write { seats = ["3-1..2"], for = "wheelchair" }`)
		}
		uses := []string{"wheelchair", "companion", "platform", "rail", "nobody"}
		if !t.word("for", &res.For, uses...) && !t.has("for") {
			t.absent("for", "say for whom: "+quoted(uses))
		}
		t.close()
		sec.Reserved = append(sec.Reserved, res)
	}
}

const seatHint = `a seat is ROW-SEAT or SECTION-ROW-SEAT, such as "3-4"; neighbours are "3-4..9"`

func (r *reader) seatList(s scope, v *value, key, section string) []seating.SeatRange {
	if v.kind != unstable.Array {
		s.wrong(v, key, "a list of seats", fmt.Sprintf(`write %s = ["3-4", "5-1..3"]`, key))
		return nil
	}
	var list []seating.SeatRange
	for _, item := range v.items {
		named, seats, ok := parseSeats(item.text)
		switch {
		case item.kind != unstable.String || !ok:
			s.wrong(item, key, "a seat", seatHint)
		case named != "" && named != section:
			r.faultAt(item.at.from, fmt.Sprintf("%s: seat %q is not in section %q", key, item.text, section),
				fmt.Sprintf("write it under the [[section]] %q", named))
		default:
			list = append(list, seats)
		}
	}
	return list
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
