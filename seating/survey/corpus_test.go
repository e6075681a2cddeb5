package survey_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/seating"
	"everyseat/seating/survey"
	"everyseat/testdata/tables"
)

// meaning is what a careful person says a table of stands means; testdata/tables/README.md explains it.
type meaning struct {
	Means, Ask string
	Sections   []meantSection
	Or         [][]meantSection
}

type meantSection struct {
	Name, Front string
	Rows        []struct {
		Row, Seats string
		Count      int
	}
	Reserved []string
}

// TestTablesAsMeant holds what is read against testdata/tables, whose meanings were written by hand by somebody who had
// not seen the reader: a table is read as it is meant, or refused; none is taken for something else.
func TestTablesAsMeant(t *testing.T) {
	tables.AsMeant(t, "stands", tables.Most{Held: 2, Tables: 100}, func(name string, data []byte, m *meaning) (string, error) {
		s, err := survey.Read(name, data, survey.Options{})
		if err != nil {
			return "", err
		}
		wrong := m.wrong(s)
		if wrong != "" {
			wrong = fmt.Sprintf("%s\nit means: %s%s\nunread: %v\nnotes: %q", wrong, m.Means, m.Ask, s.Unread, s.Notes)
		}
		return wrong, nil
	})
}

// wrong says what a reading has that the table does not mean; "" = nothing.
func (m *meaning) wrong(s *survey.Survey) string {
	if m.Ask != "" {
		return "somebody would have to ask"
	}
	got, err := seating.Build(seating.Spec{Sections: s.Sections})
	if err != nil {
		return err.Error()
	}
	first := ""
	for _, sections := range append([][]meantSection{m.Sections}, m.Or...) {
		if slices.ContainsFunc(sections, func(s meantSection) bool { return s.Front == "unsure" }) {
			first = "its signs for the front contradict"
			continue
		}
		why := differs(sections, got)
		if why == "" {
			return ""
		}
		if first == "" {
			first = why
		}
	}
	return first
}

func differs(want []meantSection, got *seating.Stands) string {
	if len(want) != len(got.Sections) {
		return fmt.Sprintf("%d sections for %d", len(got.Sections), len(want))
	}
	for k := range want {
		w, i := &want[k], k
		if len(want) > 1 { // in whatever order
			i = slices.IndexFunc(got.Sections, func(g seating.Section) bool { return plain(g.Name) == plain(w.Name) })
		}
		if i < 0 || w.Name != "" && plain(got.Sections[i].Name) != plain(w.Name) {
			return fmt.Sprintf("no section %q", w.Name)
		}
		g := &got.Sections[i]
		if len(g.Rows) != len(w.Rows) {
			return fmt.Sprintf("section %q has %d rows for %d", w.Name, len(g.Rows), len(w.Rows))
		}
		var reserved []string
		for r, row := range g.Rows {
			meant := &w.Rows[r]
			var seats []int
			for s := row.First; s < row.Last; s++ {
				seat := &got.Seats[s]
				seats = append(seats, int(seat.Number))
				if seat.Use == seating.UseReserved || seat.For != "" {
					reserved = append(reserved, strings.TrimPrefix(plain(w.Name)+"-", "-")+plain(row.Name)+"-"+
						strconv.Itoa(int(seat.Number)))
				}
			}
			slices.Sort(seats)
			if plain(row.Name) != plain(meant.Row) {
				return fmt.Sprintf("section %q: row %d from the front is %q for %q", w.Name, r+1, row.Name, meant.Row)
			}
			if meant.Seats == "" && len(seats) != meant.Count {
				return fmt.Sprintf("section %q, row %s: %d seats for %d", w.Name, row.Name, len(seats), meant.Count)
			}
			if meant.Seats != "" && !slices.Equal(seats, numbers(meant.Seats)) {
				return fmt.Sprintf("section %q, row %s: seats %v for %s", w.Name, row.Name, seats, meant.Seats)
			}
		}
		var kept []string
		for _, seat := range w.Reserved {
			kept = append(kept, plain(seat))
		}
		slices.Sort(reserved)
		slices.Sort(kept)
		if !slices.Equal(reserved, kept) {
			return fmt.Sprintf("section %q: %v are kept for %v", w.Name, reserved, kept)
		}
	}
	return ""
}

var before = regexp.MustCompile(`^(section|sect\.|block|stand|row|rows) +`)

// plain is a name without what does not matter.
func plain(name string) string {
	return before.ReplaceAllString(strings.Join(strings.Fields(strings.ToLower(name)), " "), "")
}

// numbers are those of "1-6 8-18".
func numbers(said string) (all []int) {
	for part := range strings.FieldsSeq(said) {
		a, b, isRange := strings.Cut(part, "-")
		from, _ := strconv.Atoi(a)
		to := from
		if isRange {
			to, _ = strconv.Atoi(b)
		}
		for n := from; n <= to; n++ {
			all = append(all, n)
		}
	}
	slices.Sort(all)
	return all
}
