package survey_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/seating"
	"everyseat/seating/survey"
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
	for half, most := range map[string]int{"dev": 0, "held": 19} { // wrong, as measured
		files, err := filepath.Glob("../../testdata/tables/stands/" + half + "/*.json")
		if err != nil || len(files) < 100 {
			t.Fatalf("%d tables, %v", len(files), err)
		}
		right, refused := 0, 0
		for _, file := range files {
			var m meaning
			data, err := os.ReadFile(file)
			if err == nil {
				err = json.Unmarshal(data, &m)
			}
			if err != nil {
				t.Fatal(file, err)
			}
			name := strings.TrimSuffix(file, ".json") + ".csv"
			if data, err = os.ReadFile(name); err != nil {
				name = strings.TrimSuffix(file, ".json") + ".xlsx"
				data, err = os.ReadFile(name)
			}
			if err != nil {
				t.Fatal(err)
			}
			s, err := survey.Read(filepath.Base(name), data, survey.Options{})
			if f, ok := errors.AsType[*seating.Fault](err); ok {
				refused++
				if half == "dev" {
					t.Logf("%s is refused: %s", name, f.Error())
				}
				if f.What == "" || f.Hint == "" {
					t.Errorf("%s/%s is refused without a reason or a hint: %v", half, filepath.Base(name), err)
				}
				continue
			}
			if err != nil {
				t.Errorf("%s: %v is no fault", name, err)
				continue
			}
			switch wrong := m.wrong(s); {
			case wrong == "":
				right++
			case half == "dev": // the other half tells nothing but its score
				t.Logf("%s is taken for something else: %s\nit means: %s%s\nunread: %v\nnotes: %q", name, wrong,
					m.Means, m.Ask, s.Unread, s.Notes)
			}
		}
		t.Logf("stands/%s: of %d tables %d read as they are meant, %d refused, %d wrong", half, len(files), right,
			refused, len(files)-right-refused)
		if wrong := len(files) - right - refused; wrong > most {
			t.Errorf("stands/%s: %d are taken for something else, at most %d may be", half, wrong, most)
		}
	}
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
