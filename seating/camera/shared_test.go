package camera

import (
	"encoding/csv"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"everyseat/seating"
)

// reference is where the repository keeps values from outside.
const reference = "../../testdata"

// table reads a CSV of the reference values, its header first, and skips comment lines.
func table(t *testing.T, name string) (rows []map[string]string) {
	t.Helper()
	file, err := os.Open(filepath.Join(reference, name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	return readTable(t, file)
}

func readTable(t *testing.T, file io.Reader) (rows []map[string]string) {
	t.Helper()
	r := csv.NewReader(file)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func metres(x float64) seating.Length {
	if x < 0 {
		return -metres(-x)
	}
	return seating.Length(x*1e9 + 0.5)
}

func build(t testing.TB, sections ...seating.SectionSpec) *seating.Stands {
	t.Helper()
	s, err := seating.Build(seating.Spec{Sections: sections})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// bleachers is a section as handbooks describe telescopic ones.
func bleachers(name string, rows, seats int) seating.SectionSpec {
	return seating.SectionSpec{
		Name: name, Rows: rows, Seats: []int{seats}, Pitch: 20 * seating.Inch,
		Rise: 9*seating.Inch + 5*seating.Inch/8, Run: 24 * seating.Inch,
		FirstRow: 10 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 48 * seating.Inch,
	}
}

// letter is a Letter sheet held landscape.
func letter(held Held) Card {
	return Card{Width: 11 * seating.Inch, Height: 17 * seating.Inch / 2, Held: held}
}

func view(t testing.TB, m Mark, s *Scene) *View {
	t.Helper()
	v, err := NewView(m, s)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// mark stands so many metres before the stands, across and up.
func mark(across, back, height float64) Mark {
	return Mark{Name: "camera", Across: metres(across), Back: metres(back), Height: metres(height)}
}

func mean(seen []float32) float64 {
	total := 0.0
	for _, x := range seen {
		total += float64(x)
	}
	return total / float64(len(seen))
}
