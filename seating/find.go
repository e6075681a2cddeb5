package seating

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// ID is SECTION-ROW-SEAT, for example B-7-12.
func (s *Stands) ID(seat int) string {
	at := &s.Seats[seat]
	sec := &s.Sections[at.Section]
	return seatID(sec.Name, sec.Rows[at.Row].Name, int(at.Number))
}

func seatID(section, row string, number int) string {
	return section + "-" + row + "-" + strconv.Itoa(number)
}

// Find is the index of the seat with an id. Capitals do not matter. Errors are
// *Fault without a Key that name the nearest section, row or seat.
func (s *Stands) Find(id string) (int, error) {
	const hint = "write SECTION-ROW-SEAT, like B-7-12"
	parts := strings.Split(id, "-")
	if len(parts) != 3 {
		return 0, Wrong("", hint, "%q is no seat", id)
	}
	number, err := strconv.Atoi(parts[2])
	if err != nil {
		return 0, Wrong("", hint, "%q is no seat: its last part is no number", id)
	}
	seats, err := s.InRange(parts[0], SeatRange{Row: parts[1], From: number, To: number})
	if err != nil {
		return 0, err
	}
	return int(seats[0]), nil
}

// InRange lists the seats of a range as marked, left to right; missing ones
// inside it are left out, but its ends must be seats. Errors are *Fault without
// a Key that name the nearest section, row or seat.
func (s *Stands) InRange(section string, r SeatRange) ([]int32, error) {
	sec, err := s.SectionNamed(section)
	if err != nil {
		return nil, err
	}
	rows := s.Sections[sec].Rows
	row := indexByName(rows, r.Row, nameOfRow)
	if row < 0 {
		return nil, Wrong("", rowHint(r.Row, namesOf(rows, nameOfRow)), "section %s has no row %q",
			s.Sections[sec].Name, r.Row)
	}
	low, high := min(r.From, r.To), max(r.From, r.To)
	var out []int32
	ends := 0
	for i := rows[row].First; i < rows[row].Last; i++ {
		n := int(s.Seats[i].Number)
		if n == low || n == high {
			ends++
		}
		if low <= n && n <= high {
			out = append(out, int32(i))
		}
	}
	if ends < 2 && (low != high || ends < 1) {
		return nil, s.noSeat(sec, row, low, high)
	}
	return out, nil
}

// RowsIn gives the rows of a range in a section, by index in its Rows, both ends among them. The range's
// own Section is not looked at. Errors are *Fault without a Key that name the nearest row.
func (s *Stands) RowsIn(section int, r RowRange) (from, to int, err error) {
	sec := &s.Sections[section]
	from, to = 0, len(sec.Rows)-1
	for _, end := range []struct {
		name string
		at   *int
	}{{r.From, &from}, {r.To, &to}} {
		if end.name == "" {
			continue
		}
		if *end.at = indexByName(sec.Rows, end.name, nameOfRow); *end.at < 0 {
			names := namesOf(sec.Rows, nameOfRow)
			hint := rowHint("", names)
			if near := nearest(end.name, names); near != "" {
				hint += "; the nearest is row " + near
			}
			return 0, 0, Wrong("", hint, "section %s has no row %q", sec.Name, end.name)
		}
	}
	if from > to {
		return 0, 0, Wrong("", fmt.Sprintf("name the row nearer to the front first: %q", r.To+".."+r.From),
			"in section %s row %s lies behind row %s", sec.Name, r.From, r.To)
	}
	return from, to, nil
}

// SectionNamed is the index of a section, capitals do not matter. The error is a *Fault without a Key.
func (s *Stands) SectionNamed(name string) (int, error) {
	if sec := indexByName(s.Sections, name, nameOfSection); sec >= 0 {
		return sec, nil
	}
	return 0, Wrong("", sectionHint(name, namesOf(s.Sections, nameOfSection)), "there is no section %q", name)
}

// noSeat is the fault for a range whose end is no seat.
func (s *Stands) noSeat(sec, row, low, high int) error {
	r := &s.Sections[sec].Rows[row]
	if r.First == r.Last {
		return Wrong("", "name another row", "row %s of section %s has no seats", r.Name, s.Sections[sec].Name)
	}
	absent := low
	if slices.ContainsFunc(s.Seats[r.First:r.Last], func(seat Seat) bool { return int(seat.Number) == low }) {
		absent = high
	}
	best := r.First
	for i := r.First; i < r.Last; i++ {
		if abs(int(s.Seats[i].Number)-absent) < abs(int(s.Seats[best].Number)-absent) {
			best = i
		}
	}
	return Wrong("", "the nearest is "+s.ID(best), "there is no seat %s", seatID(s.Sections[sec].Name, r.Name, absent))
}

func abs(n int) int { return max(n, -n) }

// indexByName finds a name as written, or else but for capitals; −1 without.
func indexByName[T any](list []T, want string, name func(*T) string) int {
	for i := range list {
		if name(&list[i]) == want {
			return i
		}
	}
	key := NameKey(want)
	for i := range list {
		if NameKey(name(&list[i])) == key {
			return i
		}
	}
	return -1
}

// sectionHint and rowHint name what was probably meant, else what there is, given the names in order.
func sectionHint(want string, names []string) string {
	if near := nearest(want, names); near != "" {
		return "the nearest is " + near
	}
	const few = 12
	if more := len(names) - few; more > 0 {
		names = append(slices.Clone(names[:few]), fmt.Sprintf("and %d more", more))
	}
	return "there are " + strings.Join(names, ", ")
}

func rowHint(want string, names []string) string {
	if near := nearest(want, names); near != "" {
		return "the nearest is row " + near
	}
	return fmt.Sprintf("it has rows %s to %s, front to back", names[0], names[len(names)-1])
}

// nearest is Nearest, but for a number the nearest number where there are any, the first one on a tie.
func nearest(want string, names []string) string {
	best, least := "", -1
	if n, err := strconv.Atoi(want); err == nil {
		for _, name := range names {
			if m, err := strconv.Atoi(name); err == nil && (least < 0 || abs(m-n) < least) {
				best, least = name, abs(m-n)
			}
		}
	}
	if least < 0 {
		return Nearest(Shown(want), names)
	}
	return best
}

func namesOf[T any](list []T, name func(*T) string) []string {
	names := make([]string, len(list))
	for i := range list {
		names[i] = name(&list[i])
	}
	return names
}

func nameOfRow(r *Row) string         { return r.Name }
func nameOfSection(s *Section) string { return s.Name }
