package sheets

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
)

// fairGroups are the hall's guests: two doors, needs, some who may not be filmed.
func fairGroups() []people.Party {
	return []people.Party{
		{Name: "harbour choir", People: 40, Room: "sail loft", Door: "north door", Wheelchairs: 1, Companions: 1},
		{Name: "net-menders' guild", People: 33, Room: "net store", Door: "quay door", Leader: "guild office"},
		{Name: "rowing club", People: 61, Room: "boat shed", Door: "quay door"},
		{Name: "tide school, top class", People: 24, Door: "north door", Unfilmed: 2},
		{Name: "brass band", People: 70, Room: "bandstand", Door: "north door"},
		{Name: "lifeboat crew", People: 20, Room: "lifeboat house"},
	}
}

var madeFair = sync.OnceValues(func() (*mosaic.Plan, error) {
	s := hall()
	s.People.Groups = fairGroups()
	return mosaic.Make(s)
})

// atFair is the hall's plan with its groups, and the stunt's people as change says.
func atFair(t testing.TB, change func(*mosaic.Stunt)) *mosaic.Plan {
	t.Helper()
	whole, err := madeFair()
	if err != nil {
		t.Fatal(err)
	}
	p, s := *whole, *whole.Stunt
	p.Stunt = &s
	if change == nil {
		return &p
	}
	before := len(s.People.Groups)
	change(&s)
	if s.People.Roster != nil || len(s.People.Groups) != before || !slices.Equal(s.People.Groups, whole.Stunt.People.Groups) {
		roster, err := people.Gather(s.People.Groups, s.People.Roster)
		if err == nil {
			p.People, err = p.Seat(roster)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return &p
}

// named makes a roster of the fair's groups in which everybody has a name.
func named(name func(group, n int) string) *people.Roster {
	r := &people.Roster{}
	for g, party := range fairGroups() {
		first := len(r.People)
		for n := range party.People {
			r.People = append(r.People, people.Person{Name: name(g, n), Group: int32(g)})
		}
		r.Groups = append(r.Groups, people.Group{Name: party.Name, First: first, Last: len(r.People)})
	}
	return r
}

// slips parts the text of the leaders' slips by group, each from its name to the next one's.
func slips(t testing.TB, p *mosaic.Plan, text string) map[string]string {
	t.Helper()
	out := map[string]string{}
	pages := strings.Split(text, "\f")
	rest := strings.Join(strings.Fields(strings.Join(pages[1:], " ")), " ")
	type spot struct {
		at   int
		name string
	}
	var spots []spot
	for g := range p.People.Roster.Groups {
		group := &p.People.Roster.Groups[g]
		title := fmt.Sprintf("%s %s", say.People(group.People()), strings.Join(strings.Fields(group.Name), " "))
		if n := strings.Count(rest, title); n != 1 {
			t.Errorf("the slip of %s is there %d times", group.Name, n)
			continue
		}
		spots = append(spots, spot{strings.Index(rest, title), group.Name})
	}
	slices.SortFunc(spots, func(a, b spot) int { return a.at - b.at })
	for i, s := range spots {
		end := len(rest)
		if i+1 < len(spots) {
			end = spots[i+1].at
		}
		out[s.name] = rest[s.at:end]
	}
	return out
}

var (
	seatsPart = regexp.MustCompile(`Seats (Section .*?) Walk in`)
	rowsPart  = regexp.MustCompile(`^rows? (\S+)(?: to (\S+))?, (?:all (\d+) seats|seats (\d+) to (\d+)|seat (\d+))$`)
	idPart    = regexp.MustCompile(`\b[A-Z]+-\d+-\d+\b`)
)

// expandSeats reads "Section A: rows 1 to 2, all 14 seats; row 3, seats 1 to 4." as a stranger would, with nothing but
// the stands in hand.
func expandSeats(t testing.TB, st *seating.Stands, words string) []int32 {
	t.Helper()
	var seats []int32
	for _, sentence := range strings.Split(strings.TrimSuffix(words, "."), ". ") {
		name, list, ok := strings.Cut(strings.TrimPrefix(sentence, "Section "), ": ")
		if !ok {
			continue // how many sections the group is parted into
		}
		section := slices.IndexFunc(st.Sections, func(s seating.Section) bool { return s.Name == name })
		if section < 0 {
			t.Fatalf("no section %q in %q", name, words)
		}
		rows := st.Sections[section].Rows
		for _, part := range strings.Split(list, "; ") {
			m := rowsPart.FindStringSubmatch(part)
			if m == nil {
				t.Fatalf("%q says no seats", part)
			}
			first := slices.IndexFunc(rows, func(r seating.Row) bool { return r.Name == m[1] })
			last := first
			if m[2] != "" {
				last = slices.IndexFunc(rows, func(r seating.Row) bool { return r.Name == m[2] })
			}
			before := len(seats)
			for _, row := range rows[first : last+1] {
				for i := row.First; i < row.Last; i++ {
					s := &st.Seats[i]
					from, _ := strconv.Atoi(m[4] + m[6])
					to, _ := strconv.Atoi(m[5] + m[6])
					if n := int(s.Number); m[3] == "" && n >= min(from, to) && n <= max(from, to) || m[3] != "" && s.For == "" {
						seats = append(seats, int32(i))
					}
				}
			}
			if want, _ := strconv.Atoi(m[3]); m[3] != "" && len(seats)-before != want {
				t.Errorf("%q: %d seats there", part, len(seats)-before)
			}
		}
	}
	return seats
}

// Each group stands once in the table and has one slip, whose words give exactly its people's seats: everybody
// has one seat, and nobody's is somebody else's.
func TestCalldownSeatsEverybody(t *testing.T) {
	for name, change := range map[string]func(*mosaic.Stunt){
		"the fair": nil,
		"many small ones": func(s *mosaic.Stunt) {
			s.People.Groups = nil
			for k := range 30 {
				s.People.Groups = append(s.People.Groups, people.Party{Name: fmt.Sprintf("boat %02d", k), People: 1 + k%9})
			}
		},
	} {
		p := atFair(t, change)
		text := judge(t, "pdftotext", "-raw", onPaper(t, "calldown.pdf", p), "-")
		table := strings.Join(strings.Fields(strings.Split(text, "* = counted")[0]), " ")
		on := map[int32]string{}
		said := slips(t, p, text)
		for g := range p.People.Roster.Groups {
			group := &p.People.Roster.Groups[g]
			if n := strings.Count(table, fmt.Sprintf(" %s %d ", group.Name, group.People())); n != 1 {
				t.Errorf("%s: group %s stands %d times in the table", name, group.Name, n)
			}
			slip := said[group.Name]
			var seats []int32
			if m := seatsPart.FindStringSubmatch(slip); m != nil {
				seats = expandSeats(t, p.Stands, m[1])
			}
			for _, id := range idPart.FindAllString(slip, -1) {
				i, err := p.Stands.Find(id)
				if err != nil {
					t.Fatal(err)
				}
				seats = append(seats, int32(i))
			}
			aside := 0
			if m := regexp.MustCompile(`(\d+) beside the camera`).FindStringSubmatch(slip); m != nil {
				aside, _ = strconv.Atoi(m[1])
			}
			if len(seats)+aside != group.People() {
				t.Errorf("%s: %s has %d people, and its slip seats %d and %d beside the camera: %s", name, group.Name, group.People(), len(seats), aside, slip)
			}
			for _, seat := range seats {
				if other, taken := on[seat]; taken {
					t.Errorf("%s: seat %s is %s's and %s's", name, p.Stands.ID(int(seat)), other, group.Name)
				}
				on[seat] = group.Name
				if who := p.People.Person[seat]; who == people.None || int(p.People.Roster.People[who].Group) != g {
					t.Errorf("%s: seat %s is not %s's", name, p.Stands.ID(int(seat)), group.Name)
				}
			}
		}
	}
}

var atDoor = regexp.MustCompile(`(\d+) people .*? At the door at (\d+):(\d+), through (the .*?|door _+); leave at (\d+):(\d+)\.`)

// Read back from the slips: at every door a group has passed, by the people a minute that the sheet names, before the next one
// comes; nobody is called before the doors open, and all sit before the safety words of the run sheet.
func TestCalldownDoorsDoNotJam(t *testing.T) {
	for _, perMinute := range []int{0, 12} {
		p := atFair(t, func(s *mosaic.Stunt) { s.People.PerMinute = perMinute })
		text := judge(t, "pdftotext", "-raw", onPaper(t, "calldown.pdf", p), "-")
		m := regexp.MustCompile(`counted: (\d+) people a minute`).FindStringSubmatch(text)
		if m == nil {
			t.Fatal("the sheet does not say how many people a minute")
		}
		rate, _ := strconv.Atoi(m[1])
		type call struct{ at, through int }
		doors := map[string][]call{}
		last := 0
		for name, slip := range slips(t, p, text) {
			m := atDoor.FindStringSubmatch(slip)
			if m == nil {
				t.Fatalf("no time in %q", slip)
			}
			n := func(i int) int { v, _ := strconv.Atoi(m[i]); return v }
			at := n(2)*60 + n(3)
			c := call{at, at + (n(1)+rate-1)/rate}
			doors[m[4]] = append(doors[m[4]], c)
			last = max(last, c.through)
			if at < 17*60+30 || n(5)*60+n(6) >= at {
				t.Errorf("%s is called at %d:%02d and leaves at %s:%s", name, n(2), n(3), m[5], m[6])
			}
		}
		if len(doors) != 3 {
			t.Errorf("doors %v", doors)
		}
		for door, calls := range doors {
			slices.SortFunc(calls, func(a, b call) int { return a.at - b.at })
			for i := 1; i < len(calls); i++ {
				if calls[i].at <= calls[i-1].through {
					t.Errorf("%s: a group comes at minute %d, and the one before passes until %d", door, calls[i].at, calls[i-1].through)
				}
			}
		}
		run := saidOn(t, "runsheet.pdf", p)
		safe := regexp.MustCompile(`(\d+):(\d+)\*? T–\d+ Safety words`).FindStringSubmatch(run)
		if safe == nil {
			t.Fatalf("no safety words in %s", run)
		}
		h, _ := strconv.Atoi(safe[1])
		minute, _ := strconv.Atoi(safe[2])
		if last >= h*60+minute {
			t.Errorf("the last group passes the door at minute %d, and the safety words are at %s:%s", last, safe[1], safe[2])
		}
		if !strings.Contains(run, "by calldown.pdf, from 17:30 to ") {
			t.Error("the run sheet does not speak of the calldown")
		}
	}
}

// Times that do not work out are said, and what the stunt gives stays.
func TestCalldownTimes(t *testing.T) {
	said := func(change func(*mosaic.Stunt)) string {
		text := judge(t, "pdftotext", "-raw", onPaper(t, "calldown.pdf", atFair(t, change)), "-")
		return strings.Join(strings.Fields(text), " ")
	}
	groups := func(s *mosaic.Stunt, times ...string) {
		s.People.Groups = slices.Clone(s.People.Groups)
		for i, at := range times {
			s.People.Groups[i].Time = at
		}
	}
	for name, c := range map[string]struct {
		change func(*mosaic.Stunt)
		want   []string
	}{
		"too slow":    {func(s *mosaic.Stunt) { s.People.PerMinute = 2 }, []string{"Too late: the last group sits ", "as the stunt file says"}},
		"in time":     {nil, []string{"common practice, no source; measure yours", "The first comes at 17:30, when the doors open."}},
		"they meet":   {func(s *mosaic.Stunt) { groups(s, "17:40", "", "", "17:41") }, []string{"Jam: harbour choir and tide school, top class meet at the north door at 17:41."}},
		"given":       {func(s *mosaic.Stunt) { groups(s, "17:30") }, []string{"17:30 17:25 harbour choir 40"}},
		"no time":     {func(s *mosaic.Stunt) { groups(s, "after the parade") }, []string{"after the parade harbour choir 40", "At the door after the parade, through the north door."}},
		"no doors":    {func(s *mosaic.Stunt) { s.Day.Doors = "" }, []string{"counted back from the take"}},
		"no take":     {func(s *mosaic.Stunt) { s.Day = mosaic.Day{} }, []string{"No time is given for the take", "T–60* T–65"}},
		"doors alone": {func(s *mosaic.Stunt) { s.Day = mosaic.Day{Doors: "17:30"} }, []string{"17:30* 17:25"}},
		"much slower, no doors": {func(s *mosaic.Stunt) { s.Day.Doors, s.People.PerMinute = "", 4 },
			[]string{"counted back from the take"}},
	} {
		text := said(c.change)
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in %s", name, want, text)
			}
		}
		if late := strings.Contains(text, "Too late"); late != (name == "too slow") {
			t.Errorf("%s: late is %v", name, late)
		}
	}
}

// Without groups the sheet is a form that names every block once.
func TestCalldownForm(t *testing.T) {
	p := inHall(t, nil)
	text := judge(t, "pdftotext", "-raw", onPaper(t, "calldown.pdf", p), "-")
	blocks := map[string]bool{}
	for i, s := range p.Stands.Seats {
		if s.Use != seating.UseReserved && !blocks[p.Blocks[i]] {
			blocks[p.Blocks[i]] = true
			if n := len(regexp.MustCompile(`(?m)^`+p.Blocks[i]+` [A-Z]+ rows? `).FindAllString(text, -1)); n != 1 {
				t.Errorf("block %s stands %d times in the form", p.Blocks[i], n)
			}
		}
	}
	if !strings.Contains(text, "[[group]]") {
		t.Error("the form does not say how groups are given")
	}
}

// Paper has no name unless the stunt asks; then every name once, and every sheet that has any says who may hold it.
func TestNamesOnPaper(t *testing.T) {
	roster := named(func(g, n int) string { return fmt.Sprintf("Ånyname%dx%d Žižkov", g, n) })
	for _, wanted := range []bool{false, true} {
		p := atFair(t, func(s *mosaic.Stunt) {
			s.People.Groups, s.People.Roster, s.People.Names, s.People.HeldBy = nil, roster, wanted, "the class teacher"
			s.Print.Bands = true
		})
		text := judge(t, "pdftotext", "-raw", onPaper(t, "calldown.pdf", p), "-")
		bands := ""
		for _, path := range bandFiles(t, p) {
			bands += judge(t, "pdftotext", "-raw", path, "-")
		}
		for i := range roster.People {
			for sheet, said := range map[string]string{"calldown": text, "bands": bands} {
				n := strings.Count(strings.Join(strings.Fields(said), " "), roster.People[i].Name)
				if want := map[bool]int{true: 1}[wanted]; n != want {
					t.Fatalf("names %v: %s has %q %d times", wanted, sheet, roster.People[i].Name, n)
				}
			}
		}
		for n, page := range append(strings.Split(text, "\f"), strings.Split(bands, "\f")...) {
			if strings.Contains(page, "Ånyname") && !strings.Contains(page, "for the class teacher alone") && !strings.Contains(page, "given out by the class teacher") {
				t.Errorf("page %d has names and does not say who may hold it", n+1)
			}
		}
		if has := strings.Contains(text, "may be held by the class teacher alone"); has != wanted {
			t.Errorf("names %v: the line about them is there: %v", wanted, has)
		}
	}
}

// scripts are names that a roster may have: Latin with accents, Vietnamese, Greek, Cyrillic; one without accents put together.
var scripts = []string{"Đặng Thị Ngọc Ánh", "Ελευθερία Παπαδοπούλου", "Юлия Щербакова", "Łucja Żółć", "Ağa Şükrü", "Björk Þóra", "Zoë D'Arçon", "Nguye\u0302\u0303n"}

// Names in these scripts, and of 200 characters with and without blanks, print whole on every paper; what the type lacks is
// a fault that says where.
func TestNamesPrint(t *testing.T) {
	unbroken := strings.ReplaceAll(long, " ", "")
	for _, size := range []string{"Letter", "A4", "A5", "Tabloid"} {
		t.Run(size, func(t *testing.T) {
			t.Parallel()
			p := atFair(t, func(s *mosaic.Stunt) {
				s.Print.Paper, s.Print.Bands = size, true
				s.People.Names, s.People.HeldBy = true, long
				s.People.Roster = named(func(g, n int) string {
					if n%7 == 6 {
						return []string{long, unbroken}[n%2]
					}
					return scripts[(g+n)%len(scripts)]
				})
				s.People.Groups = []people.Party{{Name: "Harbour Choir", Leader: long, Room: unbroken, Door: long, Time: "17:31"}, {Name: "brass band", Door: unbroken}, {Name: "lifeboat crew", Time: long}}
				s.People.Roster.Groups[1].Name, s.People.Roster.Groups[2].Name = long, unbroken
			})
			path := onPaper(t, "calldown.pdf", p)
			isSound(t, path)
			insidePage(t, path)
			hasBoxes(t, path, sizesInPoints(t)[size])
			text := strings.Join(strings.Fields(judge(t, "pdftotext", "-raw", path, "-")), " ")
			for _, name := range scripts {
				if !strings.Contains(text, paper.Composed(name)) {
					t.Errorf("%q was not read back", name)
				}
			}
			if joined := strings.ReplaceAll(text, " ", ""); strings.Count(joined, unbroken) < 20 {
				t.Errorf("names of 200 characters are cut short: %d whole ones", strings.Count(joined, unbroken))
			}
			for _, path := range bandFiles(t, p) {
				isSound(t, path)
				insidePage(t, path)
				hasBoxes(t, path, sizesInPoints(t)[size])
			}
		})
	}
	for key, change := range map[string]func(*mosaic.Stunt){
		"group[1]": func(s *mosaic.Stunt) {
			s.People.Groups = slices.Clone(s.People.Groups)
			s.People.Groups[1].Door = "灯 door"
		},
		"people.roster": func(s *mosaic.Stunt) {
			s.People.Groups, s.People.Names = nil, true
			s.People.Roster = named(func(int, int) string { return "灯" })
		},
		"people.held_by": func(s *mosaic.Stunt) { s.People.HeldBy = "灯" },
	} {
		p := atFair(t, change)
		for _, write := range []func(io.Writer, *brief.Brief) error{Calldown, RunSheet} {
			var b bytes.Buffer
			var fault *seating.Fault
			if err := write(&b, told(p)); !errors.As(err, &fault) || fault.Key != key || !strings.Contains(fault.What, "灯") || b.Len() > 0 {
				t.Errorf("%s: %v and %d bytes", key, err, b.Len())
			}
		}
	}
	p := atFair(t, func(s *mosaic.Stunt) {
		s.People.Groups, s.People.Roster = nil, named(func(int, int) string { return "灯" })
	})
	if err := Check(told(p)); err != nil {
		t.Errorf("a name that is not printed: %v", err)
	}
}

// A long group name takes the room that other columns of the table leave, and does not stand a word or two a line:
// sixteen words have three lines at most.
func TestLongGroupName(t *testing.T) {
	const name = "Quay and harbour choir with friends and helpers of the outer islands and from the hills"
	p := atFair(t, func(s *mosaic.Stunt) {
		s.People.Groups = nil
		s.People.Roster = named(func(_, n int) string { return fmt.Sprint("person ", n) })
		s.People.Roster.Groups[1].Name = name
	})
	page := pageWords(t, onPaper(t, "calldown.pdf", p))[0]
	lines := map[int]int{} // words by their height on the page
	for i, w := range page.list {
		if w.text != "Quay" {
			continue
		}
		for _, v := range page.list[i:] {
			if v.x0 < w.x0-1 || !strings.Contains(name, v.text) {
				break
			}
			lines[int(v.y0)]++
		}
		break
	}
	if len(lines) == 0 {
		t.Fatal("the name is not in the table")
	}
	if len(lines) > 3 {
		t.Errorf("the name takes %d lines", len(lines))
	}
}

// bandFiles writes the bands for the judges.
func bandFiles(t testing.TB, p *mosaic.Plan) []string {
	t.Helper()
	dir := t.TempDir()
	var paths []string
	err := Bands(told(p), func(name string, write func(io.Writer) error) error {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			return err
		}
		path := filepath.Join(dir, name)
		paths = append(paths, path)
		return os.WriteFile(path, b.Bytes(), 0o666)
	})
	if err != nil {
		t.Fatal(err)
	}
	return paths
}
