package people

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"everyseat/seating"
	"everyseat/seating/laying"
)

// hallOf builds stands; weights count from the front row up, so that the back rows matter most, unless
// even says that all matter alike.
func hallOf(t testing.TB, lay laying.Spec, even bool, sections ...seating.SectionSpec) Hall {
	t.Helper()
	st, err := seating.Build(seating.Spec{Sections: sections})
	if err != nil {
		t.Fatal(err)
	}
	h := Hall{Stands: st, Order: laying.Order(st, lay), Weight: make([]int64, len(st.Seats)), Unseen: make([]bool, len(st.Seats))}
	for i := range st.Seats {
		if !even {
			h.Weight[i] = int64(st.Seats[i].Row)
		}
	}
	return h
}

func bench(name string, rows, seats int) seating.SectionSpec {
	return seating.SectionSpec{Name: name, Rows: rows, Seats: []int{seats}, Aisle: seating.Metre}
}

func counted(t testing.TB, parties ...Party) *Roster {
	t.Helper()
	r, err := Gather(parties, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func party(name string, people int) Party { return Party{Name: name, People: people} }

// picture draws the stands as text, a line a row from the front: each seat by the first letter of its
// group, "." where it stays free.
func picture(h Hall, s *Seated) string {
	var b strings.Builder
	for _, sec := range h.Stands.Sections {
		for _, row := range sec.Rows {
			fmt.Fprintf(&b, "%s-%s ", sec.Name, row.Name)
			for i := row.First; i < row.Last; i++ {
				if p := s.Person[i]; p == None {
					b.WriteByte('.')
				} else {
					b.WriteByte(s.Roster.Groups[s.Roster.People[p].Group].Name[0])
				}
			}
			b.WriteByte('\n')
		}
	}
	return strings.TrimSpace(b.String())
}

// Worked by hand: groups sit in their order along the laying order, in one section each; seats of the
// rows that matter least, here the front ones, stay free.
func TestSeatsGroupsInBlocks(t *testing.T) {
	for _, c := range []struct {
		name   string
		lay    laying.Spec
		even   bool
		groups []Party
		want   string
	}{
		{"just enough", laying.Spec{}, true, []Party{party("harbour", 5), party("net", 3), party("oars", 4)},
			"A-1 hhh\nA-2 hho\nA-3 ooo\nB-1 nnn"},
		{"serpentine", laying.Spec{Serpentine: true}, true, []Party{party("harbour", 5), party("oars", 4), party("net", 3)},
			"A-1 hhh\nA-2 ohh\nA-3 ooo\nB-1 nnn"},
		{"the front row matters least", laying.Spec{}, false, []Party{party("harbour", 4), party("net", 2)},
			"A-1 ...\nA-2 hhh\nA-3 hnn\nB-1 ..."},
		{"all alike: the last laid stay free", laying.Spec{}, true, []Party{party("harbour", 4), party("net", 2)},
			"A-1 hhh\nA-2 hnn\nA-3 ...\nB-1 ..."},
		{"a group waits for a section that holds it", laying.Spec{}, true, []Party{party("harbour", 6), party("oars", 3), party("net", 3)},
			"A-1 hhh\nA-2 hhh\nA-3 ooo\nB-1 nnn"},
		{"too large for any section", laying.Spec{}, true, []Party{party("harbour", 12)},
			"A-1 hhh\nA-2 hhh\nA-3 hhh\nB-1 hhh"},
		{"no way to keep both whole", laying.Spec{}, true, []Party{party("harbour", 5), party("net", 7)},
			"A-1 hhh\nA-2 hhn\nA-3 nnn\nB-1 nnn"},
	} {
		h := hallOf(t, c.lay, c.even, bench("A", 3, 3), bench("B", 1, 3))
		s, err := Seat(counted(t, c.groups...), h)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := picture(h, s); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// A group stays whole where no seat is vital, and is parted where one of each section is: worked by hand, three of four
// sit on the seats of A that matter, and one where somebody must sit in B.
func TestVitalSeatsPartGroups(t *testing.T) {
	for _, vital := range []bool{false, true} {
		h := hallOf(t, laying.Spec{}, false, bench("A", 2, 3), bench("B", 2, 3))
		want := "A-1 h..\nA-2 hhh\nB-1 ...\nB-2 ..."
		if vital {
			h.Vital = make([]bool, len(h.Weight))
			want = "A-1 ...\nA-2 hhh\nB-1 ...\nB-2 ..h"
		}
		for _, id := range []string{"A-2-1", "B-2-3"} {
			seat, err := h.Stands.Find(id)
			if err != nil {
				t.Fatal(err)
			}
			if h.Weight[seat] = 9; vital {
				h.Vital[seat] = true
			}
		}
		s, err := Seat(counted(t, party("harbour", 4)), h)
		if err != nil {
			t.Fatal(err)
		}
		if got := picture(h, s); got != want {
			t.Errorf("\n%s\nwant\n%s", got, want)
		}
	}
}

// Wheelchair and companion places go to those who need them, near their group, and stay free otherwise.
func TestSeatsNeeds(t *testing.T) {
	sec := bench("A", 2, 8)
	sec.Reserved = []seating.Reserved{
		{Seats: []seating.SeatRange{{Row: "1", From: 1}, {Row: "1", From: 7}}, For: "wheelchair"},
		{Seats: []seating.SeatRange{{Row: "1", From: 2}, {Row: "1", From: 8}}, For: "companion"},
		{Seats: []seating.SeatRange{{Row: "2", From: 4}}, For: "rail"},
	}
	h := hallOf(t, laying.Spec{}, true, sec)
	s, err := Seat(counted(t, party("harbour", 3), Party{Name: "net", People: 6, Wheelchairs: 1, Companions: 1}), h)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := picture(h, s), "A-1 ..hhhnnn\nA-2 nnn....."; got != want {
		t.Errorf("\n%s\nwant\n%s", got, want)
	}
	if id := h.Stands.ID(int(s.Seat[3])); id != "A-1-7" {
		t.Errorf("the wheelchair is at %s", id)
	}
	s, err = Seat(counted(t, Party{Name: "net", People: 5, Companions: 3}), h)
	if err != nil || s.Crowded != 1 {
		t.Errorf("%v, %d companions without a place", err, s.Crowded)
	}
}

// Of wheelchair places those are given first that matter most, with the companion place beside them, wherever the group
// sits; the others stay free. Worked by hand: of W1 C2 … W5 C6 … C8 W9 C10 the weight lies on C6 and C10.
func TestPlacesThatMatterAreTaken(t *testing.T) {
	sec := bench("A", 2, 12)
	place := func(numbers ...int) (out []seating.SeatRange) {
		for _, n := range numbers {
			out = append(out, seating.SeatRange{Row: "1", From: n})
		}
		return out
	}
	sec.Reserved = []seating.Reserved{{Seats: place(1, 5, 9), For: "wheelchair"}, {Seats: place(2, 6, 8, 10), For: "companion"}}
	h := hallOf(t, laying.Spec{}, true, sec)
	h.Weight[5], h.Weight[9] = 7, 7
	for groups, want := range map[int]string{1: "A-1-5 A-1-6", 2: "A-1-5 A-1-6 A-1-9 A-1-10", 3: "A-1-5 A-1-6 A-1-9 A-1-10 A-1-1 A-1-2"} {
		var parties []Party
		for g := range groups {
			parties = append(parties, Party{Name: fmt.Sprint(g), People: 3, Wheelchairs: 1, Companions: 1})
		}
		s, err := Seat(counted(t, parties...), h)
		if err != nil {
			t.Fatal(err)
		}
		var ids []string
		for g := range parties {
			for _, seat := range s.Seat[3*g : 3*g+2] {
				ids = append(ids, h.Stands.ID(int(seat)))
			}
		}
		if got := strings.Join(ids, " "); got != want {
			t.Errorf("%d groups: %s, want %s", groups, got, want)
		}
	}
}

// Who may not be filmed sits where no camera sees them, near the group, or beside the camera.
func TestSeatsUnfilmed(t *testing.T) {
	h := hallOf(t, laying.Spec{}, true, bench("A", 3, 4))
	for _, i := range []int{3, 7} { // the right ends of the two front rows
		h.Unseen[i] = true
	}
	s, err := Seat(counted(t, party("harbour", 4), Party{Name: "net", People: 5, Unfilmed: 3}), h)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := picture(h, s), "A-1 hhhn\nA-2 hnnn\nA-3 ...."; got != want {
		t.Errorf("\n%s\nwant\n%s", got, want)
	}
	if s.Aside() != 1 {
		t.Errorf("%d beside the camera, want 1", s.Aside())
	}
	// Where every seat is needed, they leave theirs to those who may be filmed.
	s, err = Seat(counted(t, party("harbour", 12), Party{Name: "net", People: 1, Unfilmed: 1}), h)
	if err != nil || s.Aside() != 1 {
		t.Errorf("%v", err)
	}
}

func TestTooMany(t *testing.T) {
	h := hallOf(t, laying.Spec{}, true, bench("A", 3, 4))
	for want, parties := range map[string][]Party{
		"there are 12 seats for 15 people, wheelchair and companion places apart: 3 people too many": {party("harbour", 15)},
		"1 people come in wheelchairs and 0 wheelchair places are kept: 1 too few":                   {{Name: "net", People: 2, Wheelchairs: 1}},
	} {
		_, err := Seat(counted(t, parties...), h)
		f, ok := err.(*seating.Fault)
		if !ok || f.What != want || f.Hint == "" {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// Whatever the stands and groups: everybody sits once or, unfilmed, not at all; nobody on a seat kept for something else,
// nobody unfilmed in sight; no needs unmet; every group in one run a section; the free seats of a section matter no more
// than the taken ones; no vital seat free for a group's sake; and the same again.
func TestSeatProperties(t *testing.T) {
	seated := 0
	rapid.Check(t, func(t *rapid.T) {
		h, r := drawn(t)
		s, err := Seat(r, h)
		if err != nil {
			if !tooMany(h, r) {
				t.Fatalf("%v", err)
			}
			return
		}
		if tooMany(h, r) {
			t.Fatal("more people than seats, and no word of it")
		}
		seated++
		checkEverybody(t, h, s)
		checkRuns(t, h, s)
		checkFree(t, h, s)
		checkVital(t, h, s)
		again, _ := Seat(r, h)
		if !slices.Equal(s.Seat, again.Seat) {
			t.Fatal("a second run differs")
		}
	})
	if seated < 20 {
		t.Errorf("only %d cases could be seated", seated)
	}
}

// drawn makes a hall and a roster.
func drawn(t *rapid.T) (Hall, *Roster) {
	var spec seating.Spec
	for k := range rapid.IntRange(1, 4).Draw(t, "sections") {
		rows := rapid.SliceOfN(rapid.IntRange(1, 9), 1, 6).Draw(t, "rows")
		sec := seating.SectionSpec{Name: string(rune('A' + k)), Rows: len(rows), Seats: rows, Aisle: seating.Metre}
		if rapid.Bool().Draw(t, "kept") {
			for i, use := range []string{"wheelchair", "companion", "rail"} {
				if i < rows[0] {
					sec.Reserved = append(sec.Reserved, seating.Reserved{Seats: []seating.SeatRange{{Row: "1", From: i + 1}}, For: use})
				}
			}
		}
		spec.Sections = append(spec.Sections, sec)
	}
	st, err := seating.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	h := Hall{Stands: st, Order: laying.Order(st, laying.Spec{Serpentine: rapid.Bool().Draw(t, "serpentine")}), Weight: make([]int64, len(st.Seats)), Unseen: make([]bool, len(st.Seats))}
	for i := range st.Seats {
		h.Weight[i] = int64(rapid.IntRange(0, 3).Draw(t, "weight"))
		h.Unseen[i] = rapid.IntRange(0, 5).Draw(t, "unseen") == 0
	}
	if rapid.Bool().Draw(t, "vital") {
		for i := range st.Seats {
			h.Vital = append(h.Vital, h.Weight[i] == 3)
		}
	}
	var parties []Party
	left := rapid.IntRange(1, len(st.Seats)+3).Draw(t, "people")
	for k := 0; left > 0; k++ {
		n := min(rapid.IntRange(1, 14).Draw(t, "size"), left)
		p := party(fmt.Sprint("group ", k), n)
		p.Wheelchairs = rapid.IntRange(0, min(1, n)).Draw(t, "wheelchairs")
		p.Companions = rapid.IntRange(0, min(1, n-p.Wheelchairs)).Draw(t, "companions")
		p.Unfilmed = rapid.IntRange(0, min(2, n)).Draw(t, "unfilmed")
		parties = append(parties, p)
		left -= n
	}
	r, err := Gather(parties, nil)
	if err != nil {
		t.Fatal(err)
	}
	return h, r
}

// tooMany counts by itself whether there is a seat for all who may be filmed.
func tooMany(h Hall, r *Roster) bool {
	seats := map[string]int{}
	for _, seat := range h.Stands.Seats {
		if seat.Use == seating.UseCard {
			seats[seat.For]++
		}
	}
	wheelchairs, companions, plain := 0, 0, 0
	for _, p := range r.People {
		if p.Need == Companion {
			companions++
			if companions > seats["companion"] && !p.Unfilmed {
				plain++
			}
			continue
		}
		switch {
		case p.Unfilmed:
		case p.Need == Wheelchair:
			wheelchairs++
		default:
			plain++
		}
	}
	return wheelchairs > seats["wheelchair"] || plain > seats[""]
}

func checkEverybody(t *rapid.T, h Hall, s *Seated) {
	on := map[int32]int{}
	for i := range s.Roster.People {
		p, seat := &s.Roster.People[i], s.Seat[i]
		if seat == None {
			if !p.Unfilmed {
				t.Fatalf("person %d has no seat", i)
			}
			continue
		}
		if other, taken := on[seat]; taken {
			t.Fatalf("persons %d and %d on seat %d", other, i, seat)
		}
		on[seat] = i
		if s.Person[seat] != int32(i) {
			t.Fatalf("seat %d is of person %d and of %d", seat, s.Person[seat], i)
		}
		at := &h.Stands.Seats[seat]
		switch {
		case at.Use != seating.UseCard:
			t.Fatalf("person %d sits on a seat for nobody", i)
		case p.Unfilmed && !h.Unseen[seat]:
			t.Fatalf("person %d may not be filmed and is in sight", i)
		case p.Need == Wheelchair && at.For != "wheelchair", p.Need == Nothing && at.For != "", p.Need == Companion && at.For == "wheelchair":
			t.Fatalf("person %d with need %d is on a seat for %q", i, p.Need, at.For)
		}
	}
	for seat, p := range s.Person {
		if p != None && on[int32(seat)] != int(p) {
			t.Fatalf("seat %d is of nobody listed", seat)
		}
	}
}

// checkRuns walks the laying order: who may be filmed and needs nothing sits in one run a group and section.
func checkRuns(t *rapid.T, h Hall, s *Seated) {
	closed, last := map[[2]int32]bool{}, [2]int32{-1, -1}
	for _, seat := range h.Order {
		i := s.Person[seat]
		if i == None {
			continue
		}
		p := &s.Roster.People[i]
		if p.Unfilmed || h.Stands.Seats[seat].For != "" {
			continue
		}
		here := [2]int32{p.Group, h.Stands.Seats[seat].Section}
		if here != last {
			if closed[here] {
				t.Fatalf("group %d sits in two places of section %d", here[0], here[1])
			}
			closed[here], last = true, here
		}
	}
	parts := make([]int, len(s.Parts))
	for key := range closed {
		parts[key[0]]++
	}
	for g, n := range parts {
		if s.Parts[g] != n {
			t.Fatalf("group %d sits in %d sections, and %d are said", g, n, s.Parts[g])
		}
	}
}

// checkFree compares, section by section, seats that stay free with those of people whom no other rule put there.
func checkFree(t *rapid.T, h Hall, s *Seated) {
	for k := range h.Stands.Sections {
		sec := &h.Stands.Sections[k]
		most, least := int64(-1), int64(1<<60)
		for i := sec.First; i < sec.Last; i++ {
			if at := &h.Stands.Seats[i]; at.For != "" || at.Use != seating.UseCard {
				continue
			}
			if p := s.Person[i]; p == None {
				most = max(most, h.Weight[i])
			} else if !s.Roster.People[p].Unfilmed {
				least = min(least, h.Weight[i])
			}
		}
		if most > least {
			t.Fatalf("section %s: a seat of weight %d stays free and one of %d is taken", sec.Name, most, least)
		}
	}
}

// checkVital: as long as a vital seat is free, nobody sits on another whom no other rule put there.
func checkVital(t *rapid.T, h Hall, s *Seated) {
	if h.Vital == nil {
		return
	}
	free, other := -1, -1
	for i := range h.Stands.Seats {
		at := &h.Stands.Seats[i]
		switch p := s.Person[i]; {
		case at.For != "" || at.Use != seating.UseCard:
		case p == None && h.Vital[i]:
			free = i
		case p != None && !h.Vital[i] && !s.Roster.People[p].Unfilmed:
			other = i
		}
	}
	if free >= 0 && other >= 0 {
		t.Fatalf("vital seat %s is free, and somebody sits on %s", h.Stands.ID(free), h.Stands.ID(other))
	}
}

// With people who come alone nothing holds the choice: the seats that matter least of all stay free.
func TestLeastOfAllStayFree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h, _ := drawn(t)
		n := rapid.IntRange(1, len(h.Stands.Seats)).Draw(t, "n")
		var parties []Party
		for k := range n {
			parties = append(parties, party(fmt.Sprint(k), 1))
		}
		r, err := Gather(parties, nil)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Seat(r, h)
		if err != nil {
			return
		}
		most, least := int64(-1), int64(1<<60)
		for i := range h.Stands.Seats {
			if at := &h.Stands.Seats[i]; at.For != "" || at.Use != seating.UseCard {
				continue
			}
			if s.Person[i] == None {
				most = max(most, h.Weight[i])
			} else {
				least = min(least, h.Weight[i])
			}
		}
		if most > least {
			t.Fatalf("a seat of weight %d stays free and one of %d is taken", most, least)
		}
	})
}

// Groups are parted only where that must be: against all ways of sharing small groups out.
func TestWholeGroupsAgainstAllWays(t *testing.T) {
	could, did := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.SliceOfN(rapid.IntRange(1, 8), 2, 3).Draw(t, "room")
		sizes := rapid.SliceOfN(rapid.IntRange(1, 6), 1, 6).Draw(t, "sizes")
		people, seats := 0, 0
		for _, n := range sizes {
			people += n
		}
		for _, n := range room {
			seats += n
		}
		if people > seats {
			return
		}
		want, left := make([]int, len(room)), people
		for k := range room {
			want[k] = min(room[k], left)
			left -= want[k]
		}
		whole := true
		got := make([]int, len(sizes))
		for k, pieces := range share(sizes, room, want, make([]int, len(room))) {
			n := 0
			for _, p := range pieces {
				n += p.count
				got[p.group] += p.count
				whole = whole && p.count == sizes[p.group]
			}
			if n > room[k] {
				t.Fatalf("%d people in section %d of %v", n, k, room)
			}
		}
		if !slices.Equal(got, sizes) {
			t.Fatalf("%v people of groups %v", got, sizes)
		}
		if canBeWhole(sizes, slices.Clone(room)) {
			could++
			if whole {
				did++
			}
		}
	})
	t.Logf("all groups whole in %d of the %d cases where that can be", did, could)
	if did*100 < could*85 {
		t.Errorf("all groups whole in only %d of %d cases where that can be", did, could)
	}
}

// canBeWhole tries every section for every group.
func canBeWhole(sizes, room []int) bool {
	if len(sizes) == 0 {
		return true
	}
	for k := range room {
		if room[k] >= sizes[0] {
			room[k] -= sizes[0]
			ok := canBeWhole(sizes[1:], room)
			room[k] += sizes[0]
			if ok {
				return true
			}
		}
	}
	return false
}

// Seats in sections of 400, a group for every 25 people, one in three with somebody who may not be filmed.
func BenchmarkSeat(b *testing.B) {
	for _, seats := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(seats), func(b *testing.B) {
			var sections []seating.SectionSpec
			for k := range seats / 400 {
				sections = append(sections, bench(fmt.Sprint("S", k), 20, 20))
			}
			h := hallOf(b, laying.Spec{Serpentine: true}, false, sections...)
			for i := range h.Unseen {
				h.Unseen[i] = i%97 == 0
			}
			var parties []Party
			left := seats * 98 / 100
			for k := 0; left > 0; k++ {
				n := min(7+k*13%37, left)
				p := party(fmt.Sprint("group ", k), n)
				if n > 10 {
					p.Unfilmed = k % 3 % 2
				}
				parties = append(parties, p)
				left -= n
			}
			r := counted(b, parties...)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Seat(r, h); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A roster of 100,000 lines.
func BenchmarkRead(b *testing.B) {
	var text strings.Builder
	text.WriteString("name,group,needs,may be filmed\n")
	for i := range 100_000 {
		fmt.Fprintf(&text, "P-%d,group %d,,yes\n", i, i/30)
	}
	data := []byte(text.String())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Read("r.csv", data); err != nil {
			b.Fatal(err)
		}
	}
}
