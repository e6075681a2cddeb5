package sheets

import (
	"bytes"
	"errors"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
)

// peopleIDs are the seats on which anybody may sit.
func peopleIDs(p *mosaic.Plan) []string {
	var ids []string
	for i, s := range p.Stands.Seats {
		if s.Use == seating.UseCard || s.Use == seating.UsePerson {
			ids = append(ids, p.Stands.ID(i))
		}
	}
	slices.Sort(ids)
	return ids
}

// Every seat has exactly one band, read back with poppler, on strips and on labels of several shapes; each lies on its own
// label wholly, groups together and free seats last.
func TestBands(t *testing.T) {
	mm := seating.Millimetre
	grids := map[string]*mosaic.LabelGrid{
		"strips": nil,
	}
	for name, s := range stickers {
		if s.paper == "Letter" {
			grids[name] = &s.grid
		}
	}
	grids["tickets"] = &mosaic.LabelGrid{Columns: 3, Rows: 4, Width: 60 * mm, Height: 50 * mm, Left: 12 * mm, Top: 20 * mm, Across: 64 * mm, Down: 60 * mm}
	grids["name tags"] = &mosaic.LabelGrid{Columns: 3, Rows: 10, Width: 667 * mm / 10, Height: 254 * mm / 10, Left: 48 * mm / 10, Top: 127 * mm / 10, Across: 698 * mm / 10}
	for name, grid := range grids {
		for _, groups := range []bool{true, false} {
			if !groups && grid != nil {
				continue // once is enough: labels are laid out alike
			}
			p := inHall(t, nil)
			if groups {
				p = atFair(t, nil)
			}
			p.Stunt.Print.Bands, p.Stunt.Print.BandGrid = true, grid
			paths := bandFiles(t, p)
			if len(paths) != 1 || filepath.Base(paths[0]) != "bands.pdf" {
				t.Errorf("%s: files %v", name, paths)
			}
			isSound(t, paths[0])
			hasBoxes(t, paths[0], sizesInPoints(t)["Letter"])
			var ids []string
			for n, page := range pageWords(t, paths[0]) {
				on := map[int][]string{} // by label, or by how far down the page
				for _, w := range page.list {
					label := int(w.y0)
					if grid != nil {
						ok := false
						if label, ok = onLabel(grid, w); !ok {
							t.Errorf("%s, page %d: %q lies on no label", name, n+1, w.text)
						}
					}
					if got := idsIn(w.text, sectionNames(p)); len(got) > 0 {
						on[label] = append(on[label], got...)
					}
				}
				for _, label := range slices.Sorted(maps.Keys(on)) {
					if ids = append(ids, on[label]...); len(on[label]) > 1 {
						t.Errorf("%s, page %d: %v on one band", name, n+1, on[label])
					}
				}
			}
			if groups {
				checkBandOrder(t, p, ids)
			}
			slices.Sort(ids)
			want := slices.DeleteFunc(peopleIDs(p), func(id string) bool { // a kept place that nobody asked for is given out in person
				seat := seatOf(p, id)
				return groups && p.People.Person[seat] == people.None && p.Stands.Seats[seat].For != ""
			})
			if !slices.Equal(ids, want) {
				t.Errorf("%s: %d bands for %d seats", name, len(ids), len(want))
			}
		}
	}
}

// checkBandOrder finds groups that do not lie together, and free seats that do not come last.
func checkBandOrder(t *testing.T, p *mosaic.Plan, ids []string) {
	last := -1
	for _, id := range ids {
		seat, err := p.Stands.Find(id)
		if err != nil {
			t.Fatal(err)
		}
		group := len(p.People.Roster.Groups)
		if who := p.People.Person[seat]; who != people.None {
			group = int(p.People.Roster.People[who].Group)
		}
		if group < last {
			t.Fatalf("the band of %s, group %d, lies behind group %d", id, group, last)
		}
		last = group
	}
}

// Bands that cannot be are one line.
func TestBandFaults(t *testing.T) {
	mm := seating.Millimetre
	for what, grid := range map[string]mosaic.LabelGrid{
		"a band has no room on a label of 20.0 × 10.0 mm": {Columns: 2, Rows: 4, Width: 20 * mm, Height: 10 * mm, Left: 10 * mm, Top: 10 * mm},
		"reach to 266.7 mm, and Letter paper is 215.9":    {Columns: 1, Rows: 9, Width: 10 * seating.Inch, Height: seating.Inch, Left: seating.Inch / 2, Top: seating.Inch / 2},
		"the labels lie on each other":                    {Columns: 2, Rows: 2, Width: 90 * mm, Height: 40 * mm, Left: 10 * mm, Top: 10 * mm, Across: 50 * mm},
	} {
		p := inHall(t, nil)
		p.Stunt.Print.Bands, p.Stunt.Print.BandGrid = true, &grid
		for _, err := range []error{Check(told(p)), Bands(told(p), func(string, func(io.Writer) error) error { return nil })} {
			var fault *seating.Fault
			if !errors.As(err, &fault) || fault.Key != "print.band_grid" || !strings.Contains(fault.What, what) || fault.Hint == "" {
				t.Errorf("%v, want %s", err, what)
			}
		}
	}
}

// Over 2,000 bands go into several files.
func TestManyBands(t *testing.T) {
	s := sample{sections: []string{"A", "B", "C"}, rows: 30, seats: 30, plain: true}
	p := s.plan(t)
	p.Stunt.Print.Bands = true
	var names []string
	err := Bands(told(p), func(name string, write func(io.Writer) error) error {
		names = append(names, name)
		var b bytes.Buffer
		return write(&b)
	})
	if err != nil || !slices.Equal(names, []string{"bands-1.pdf", "bands-2.pdf"}) {
		t.Errorf("%v, files %v", err, names)
	}
}
