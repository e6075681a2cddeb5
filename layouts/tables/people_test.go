package tables

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"everyseat/seating/people"
)

// Read back by the standard library's reader: a line a person in the roster's order, each seat once and as it is called in
// seats.csv, nobody's name a formula, and no seat for who watches from beside the camera.
func TestPeople(t *testing.T) {
	p := plan(t)
	file, err := people.Read("who.csv", []byte("name,group,may be filmed\n=Eva,@choir,yes\nNguyễn Thị Ánh,@choir,yes\nΆννα,@choir,no\n"))
	if err != nil {
		t.Fatal(err)
	}
	roster, err := people.Gather([]people.Party{{Name: "rowing club", People: 20, Wheelchairs: 1}}, file)
	if err != nil {
		t.Fatal(err)
	}
	seated, err := p.Seat(roster)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := People(&b, p, seated); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(lines[0], ","); got != "person,group,seat_id,block" || len(lines) != 24 {
		t.Fatalf("columns %s, %d lines", got, len(lines))
	}
	blocks := map[string]string{}
	for _, l := range seatsCSV(t, p)[1:] {
		blocks[l[1]] = l[5]
	}
	taken := map[string]bool{}
	without := 0
	for _, l := range lines[1:] {
		for _, cell := range l {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				t.Errorf("cell %q would run", cell)
			}
		}
		id := l[2]
		if id == "" {
			without++
			continue
		}
		if block, known := blocks[id]; !known || taken[id] || l[3] != block {
			t.Errorf("line %v: seat known %v, taken %v", l, known, taken[id])
		}
		taken[id] = true
	}
	if without != seated.Aside() {
		t.Errorf("%d people without a seat, and %d beside the camera", without, seated.Aside())
	}
	if lines[1][0] != "rowing club 1" || lines[21][0] != "'=Eva" || lines[21][1] != "'@choir" || lines[23][0] != "Άννα" {
		t.Errorf("lines %v, %v, %v", lines[1], lines[21], lines[23])
	}
}
