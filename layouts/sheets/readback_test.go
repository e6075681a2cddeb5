package sheets

import (
	"fmt"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/laying"
)

// samples are plans of many shapes; all read-back tests go through all of them.
var samples = map[string]sample{
	"lantern":    {sections: []string{"A", "B"}, rows: 3, seats: 10, title: "Lantern Fair of Gullhaven", cueName: "Glow"},
	"eight":      {sections: []string{"A"}, rows: 4, seats: 10, title: "x", perSheet: 8},
	"serpentine": {sections: []string{"A", "B"}, rows: 3, seats: 9, title: "x", lay: laying.Spec{Direction: laying.RightToLeft, Serpentine: true}, paper: "A4"},
	"from back":  {sections: []string{"North", "South"}, rows: 3, seats: 6, title: "x", lay: laying.Spec{FromBack: true}, paper: "Legal", perSheet: 3},
	"two cards":  {sections: []string{"A"}, rows: 3, seats: 8, cues: 2, title: "x", cueName: "Glow", perSheet: 8},
	"bonded":     {sections: []string{"A"}, rows: 3, seats: 8, cues: 2, bonded: true, title: "x", cueName: "Glow", perSheet: 12, paper: "A3", card: [2]seating.Length{420 * seating.Millimetre, 297 * seating.Millimetre}},
	"one a page": {sections: []string{"A"}, rows: 1, seats: 7, title: "x", perSheet: 1, paper: "Tabloid", card: [2]seating.Length{11 * seating.Inch, 17 * seating.Inch}},
	"small":      {sections: []string{"A"}, rows: 3, seats: 8, title: "x", perSheet: 4, paper: "A5"},
	"many cues": {sections: []string{"E"}, rows: 1, seats: 34, cues: 10, title: "x", perSheet: 4, cueName: "A rather long name of a cue",
		colours: []string{"Navy", "Cream", "Scarlet", "Gold", "Green", "Violet", "Grey", "Black", "White", "Orange", "Brown", "Sky"}},
	"long rows": {sections: []string{"A"}, rows: 1, seats: 101, title: "x", perSheet: 6},
	"shirts": {sections: []string{"A", "B"}, rows: 3, seats: 10, title: "x", hue: func(_, section, row, place int) int {
		if section == 1 || (row+place)%3 == 0 {
			return mosaic.None
		}
		return place % 2
	}},
	"descenders": {sections: []string{"Đông", "Ngoài", "Qayq", "Ὀξύςϕ", "ẬỄỹ"}, rows: 2, seats: 6, title: "x", perSheet: 6},
	"long names": {sections: []string{"WESTERN GALLERY8", "Кириллица МЖШЩЮЫ"}, rows: 2, seats: 8, title: "x",
		colours: []string{"Ultramarine violet", "Cream", "Scarlet"}, cueName: strings.Repeat("long ", 40)},
}

// everySample runs check for each sample, with its paper read back.
func everySample(t *testing.T, check func(t *testing.T, r *reading)) {
	for _, name := range sampleNames {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			check(t, readBack(t, name))
		})
	}
}

// Every seat's id stands on exactly one placard, and the placards come in laying order.
func TestPlacardsInLayingOrder(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		var got []string
		for _, text := range r.placards {
			got = append(got, idsIn(text, sectionNames(r.plan))...)
		}
		want := wantIDs(r.plan)
		if len(want) == 0 {
			t.Fatal("the sample has no placards")
		}
		if err := checkIDs(got, want); err != nil {
			t.Error(err)
		}
	})
}

// The same for whoever reads the file without telling pdftotext to keep the order of drawing:
// two columns on one sheet too are read one after the other.
func TestPlacardsReadPlainly(t *testing.T) {
	for _, name := range []string{"from back", "bonded", "small", "eight"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := readBack(t, name)
			var got []string
			for _, file := range r.files.placards() {
				got = append(got, idsIn(judge(t, "pdftotext", filepath.Join(r.dir, file), "-"), sectionNames(r.plan))...)
			}
			if err := checkIDs(got, wantIDs(r.plan)); err != nil {
				t.Error(err)
			}
		})
	}
}

// The check itself must notice a page that is gone, a seat that was dropped, and two that were swapped.
func TestReadBackNotices(t *testing.T) {
	need(t, "pdftotext", "qpdf")
	s := samples["serpentine"]
	want := wantIDs(s.plan(t))
	read := func(p *mosaic.Plan, dropPage bool) error {
		f, err := printAll(told(p))
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := f.into(dir); err != nil {
			t.Fatal(err)
		}
		var got []string
		for i, file := range f.placards() {
			path := filepath.Join(dir, file)
			if dropPage && i == 1 {
				short := filepath.Join(dir, "short.pdf")
				judge(t, "qpdf", path, "--pages", path, "1,3-z", "--", short)
				path = short
			}
			got = append(got, idsIn(judge(t, "pdftotext", "-raw", path, "-"), sectionNames(p))...)
		}
		return checkIDs(got, want)
	}
	if err := read(s.plan(t), false); err != nil {
		t.Fatal("the whole plan:", err)
	}
	if read(s.plan(t), true) == nil {
		t.Error("a missing page was not noticed")
	}
	dropped := s.plan(t)
	dropped.Hands[0][17] = mosaic.Hold{Card: -1}
	if read(dropped, false) == nil {
		t.Error("a dropped seat was not noticed")
	}
	swapped := s.plan(t)
	swapped.Order[20], swapped.Order[21] = swapped.Order[21], swapped.Order[20]
	if read(swapped, false) == nil {
		t.Error("two swapped seats were not noticed")
	}
}

var (
	slipRow = regexp.MustCompile(`^ROW (.+?)(?: (?:\d+ labels?) after this slip)?$`)
	countOf = regexp.MustCompile(`(\d+) ([^,=\[\]]+?)(?:, | = )`)
	totalOf = regexp.MustCompile(` = (\d+) cards?`)
)

// readSlip is one slip as read back: row, cards by kind, and the ids of the placards that follow.
type readSlip struct {
	row   string
	cards map[string]int
	total int
	ids   []string
}

func readSlips(t *testing.T, text string, sections []string) []readSlip {
	t.Helper()
	var slips []readSlip
	lines := strings.Split(text, "\n")
	for i := 0; i < len(lines); i++ {
		if m := slipRow.FindStringSubmatch(lines[i]); m != nil {
			s := readSlip{row: m[1], cards: map[string]int{}}
			count := ""
			for i++; i < len(lines); i++ {
				if lines[i] == "no cards" || strings.HasSuffix(lines[i], "after this slip") {
					if lines[i] == "no cards" {
						break
					}
					continue
				}
				count += lines[i] + " "
				if totalOf.MatchString(lines[i]) {
					break
				}
			}
			for _, c := range countOf.FindAllStringSubmatch(count, -1) {
				s.cards[c[2]] = int(number(t, c[1]))
			}
			if m := totalOf.FindStringSubmatch(count); m != nil {
				s.total = int(number(t, m[1]))
			}
			slips = append(slips, s)
			continue
		}
		if ids := idsIn(lines[i], sections); len(ids) > 0 && len(slips) > 0 {
			slips[len(slips)-1].ids = append(slips[len(slips)-1].ids, ids...)
		}
	}
	return slips
}

// What a slip says is what the hands of its row's seats take, counted here anew from the plan; and
// exactly the placards of that row follow it.
func TestSlips(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		p := r.plan
		seen := 0
		for _, text := range r.placards {
			for _, slip := range readSlips(t, text, sectionNames(p)) {
				seen++
				cards, ids := rowByHand(p, slip.row)
				if len(cards) == 0 {
					cards = map[string]int{}
				}
				if !maps.Equal(cards, slip.cards) {
					t.Errorf("row %s: the slip says %v, want %v", slip.row, slip.cards, cards)
				}
				sum := 0
				for _, n := range cards {
					sum += n
				}
				if slip.total != sum {
					t.Errorf("row %s: the slip says %d cards, want %d", slip.row, slip.total, sum)
				}
				if err := checkIDs(slip.ids, ids); err != nil {
					t.Errorf("row %s: %v", slip.row, err)
				}
			}
		}
		if want := rowsWithPaper(p); seen != want {
			t.Errorf("%d slips, want %d", seen, want)
		}
	})
}

// rowByHand counts a row's cards straight from the hands, without the code under test.
func rowByHand(p *mosaic.Plan, row string) (cards map[string]int, ids []string) {
	cards = map[string]int{}
	for _, seat := range p.Order {
		id := p.Stands.ID(int(seat))
		if id[:strings.LastIndex(id, "-")] != row {
			continue
		}
		has := map[int16]bool{}
		for cue := range p.Hands {
			if h := p.Hands[cue][seat]; h.Card >= 0 && !has[h.Card] {
				has[h.Card] = true
				cards[p.Cards[h.Card].ID]++
			}
		}
		if len(has) > 0 {
			ids = append(ids, id)
		}
	}
	return cards, ids
}

// rowsWithPaper counts the rows of sections in which anybody gets a card.
func rowsWithPaper(p *mosaic.Plan) int {
	n := 0
	for k := range p.Stands.Sections {
		s := &p.Stands.Sections[k]
		any, rows := false, 0
		for r := range s.Rows {
			_, ids := rowByHand(p, s.Name+"-"+s.Rows[r].Name)
			any = any || len(ids) > 0
			if s.Rows[r].First < s.Rows[r].Last {
				rows++
			}
		}
		if any {
			n += rows
		}
	}
	return n
}

var showing = regexp.MustCompile(`show (no card|[^(]+?)(?: \(card ([^,]+), side ([AB])\))?(?: Cue \d| Hold it)`)

// Every placard says what its own seat shows at each cue: the colour, and with cards of two colours
// the card and its side; it names section, row and seat in words.
func TestPlacardsSay(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		p := r.plan
		seats := map[string]int{}
		for i := range p.Stands.Seats {
			seats[p.Stands.ID(i)] = i
		}
		checked := 0
		for _, text := range r.placards {
			before := ""
			lines := strings.Split(text, "\n")
			for i, line := range lines {
				ids := idsIn(line, sectionNames(p))
				if len(ids) == 0 {
					before += line + " "
					continue
				}
				seat := seats[ids[0]]
				if err := says(p, seat, before); err != nil {
					t.Errorf("%s: %v", ids[0], err)
				}
				s := p.Stands.Seats[seat]
				section := p.Stands.Sections[s.Section]
				if want := fmt.Sprintf("Section %s, row %s, seat %d", section.Name, section.Rows[s.Row].Name, s.Number); !strings.HasPrefix(lines[i+1], want) {
					t.Errorf("%s is called %q", ids[0], lines[i+1])
				}
				before = ""
				checked++
			}
		}
		if checked != len(wantIDs(p)) {
			t.Errorf("%d placards were checked, want %d", checked, len(wantIDs(p)))
		}
	})
}

// says checks the text of one placard, from the arrow to the id, against the seat's hands.
func says(p *mosaic.Plan, seat int, text string) error {
	if from := strings.LastIndex(text, "UP "); from >= 0 {
		text = text[from:]
	}
	var got []string
	for rest := text; ; {
		m := showing.FindStringSubmatchIndex(rest)
		if m == nil {
			break
		}
		say := rest[m[2]:m[3]]
		if m[4] >= 0 {
			say += " of " + rest[m[4]:m[5]] + " " + rest[m[6]:m[7]]
		}
		got = append(got, say)
		rest = rest[m[3]:]
	}
	var want []string
	for cue := range p.Hands {
		h := p.Hands[cue][seat]
		if h.Card < 0 {
			want = append(want, "no card")
			continue
		}
		card := p.Cards[h.Card]
		say := p.Stunt.Colours[card.Sides[h.Side]].Name
		if card.Sides[0] != card.Sides[1] {
			say += " of " + card.ID + " " + string(rune('A'+h.Side))
		}
		want = append(want, say)
		if cue < 4 && !strings.Contains(text, card.ID) {
			return fmt.Errorf("the card %s is not named in %q", card.ID, text)
		}
	}
	if !slices.Equal(got, want) {
		return fmt.Errorf("says %q, want %q", got, want)
	}
	return nil
}

var runPart = regexp.MustCompile(`^(\[?)(\d+) (.+?)(\]?)$`)

// The runs on a row's strip, read back and walked from either end, give every place of the row what
// the plan gives it.
func TestRowRuns(t *testing.T) {
	everySample(t, func(t *testing.T, r *reading) {
		p := r.plan
		rows := readRuns(t, r.rows)
		seen := 0
		for k := range p.Stands.Sections {
			for r := range p.Stands.Sections[k].Rows {
				name := p.Stands.Sections[k].Name + "-" + p.Stands.Sections[k].Rows[r].Name
				_, ids := rowByHand(p, name)
				got, ok := rows[name]
				if !ok {
					if len(ids) > 0 {
						t.Errorf("row %s has no strip", name)
					}
					continue
				}
				seen++
				want := placesByHand(p, k, r)
				if g := strings.Join(got.left, "|"); g != strings.Join(want, "|") {
					t.Errorf("row %s from the left: %s, want %s", name, g, strings.Join(want, "|"))
				}
				if len(got.right) > 0 {
					if g := strings.Join(mirrored(got.right), "|"); g != strings.Join(want, "|") {
						t.Errorf("row %s from the right: %s, want %s", name, g, strings.Join(want, "|"))
					}
				}
			}
		}
		if seen == 0 {
			t.Error("no strip was read back")
		}
	})
}

// placesByHand says from left to right what lies on each place.
func placesByHand(p *mosaic.Plan, section, row int) []string {
	r := &p.Stands.Sections[section].Rows[row]
	list := make([]string, r.Places)
	for i := range list {
		list[i] = "[no seat]"
	}
	for i := r.First; i < r.Last; i++ {
		seat := p.Stands.Seats[i]
		var kit []string
		for cue := range p.Hands {
			if h := p.Hands[cue][i]; h.Card >= 0 && !strings.Contains(" + "+strings.Join(kit, " + ")+" + ", " + "+p.Cards[h.Card].ID+" + ") {
				kit = append(kit, p.Cards[h.Card].ID)
			}
		}
		what := strings.Join(kit, " + ")
		switch {
		case what != "":
		case seat.Use == seating.UseReserved:
			what = "[kept for " + seat.For + "]"
		default:
			what = "[no card]"
		}
		list[seat.Place] = what
	}
	return list
}

func mirrored(list []string) []string {
	back := make([]string, len(list))
	for i, v := range list {
		back[len(list)-1-i] = v
	}
	return back
}

type rowText struct{ left, right []string }

var (
	rowTitle = regexp.MustCompile(`^Row (\S.*?-\S+?)(?: \(part (\d+) of \d+ from the left\))?(?: .*)?$`)
	fromLeft = "From the LEFT end"
	fromRite = "From the RIGHT end"
)

// readRuns gives by row what each place holds, from the left and from the right. Long rows come in
// parts; theirs are joined from the left, and from the right too.
func readRuns(t *testing.T, text string) map[string]rowText {
	t.Helper()
	rows := map[string]rowText{}
	row, sentence := "", ""
	flush := func() {
		if sentence == "" {
			return
		}
		_, runs, ok := strings.Cut(sentence, "sees it: ")
		if !ok {
			t.Fatalf("no runs in %q", sentence)
		}
		rt := rows[row]
		if places := expand(t, strings.TrimSuffix(runs, ".")); strings.HasPrefix(sentence, fromLeft) {
			rt.left = append(rt.left, places...)
		} else {
			rt.right = append(places, rt.right...)
		}
		rows[row] = rt
		sentence = ""
	}
	for _, line := range strings.Split(text, "\n") {
		if m := rowTitle.FindStringSubmatch(line); m != nil && sentence == "" {
			row = m[1]
		}
		if strings.HasPrefix(line, fromLeft) || strings.HasPrefix(line, fromRite) {
			flush()
			sentence = line
		} else if sentence != "" {
			sentence += " " + line
		}
		if strings.HasSuffix(sentence, ".") {
			flush()
		}
	}
	return rows
}

// expand turns "2 Navy, [1 no seat]" into one entry a place.
func expand(t *testing.T, runs string) []string {
	t.Helper()
	var list []string
	for _, part := range strings.Split(runs, ", ") {
		m := runPart.FindStringSubmatch(part)
		if m == nil {
			t.Fatalf("%q is no run", part)
		}
		n, err := strconv.Atoi(m[2])
		if err != nil {
			t.Fatal(err)
		}
		for range n {
			list = append(list, fmt.Sprint(m[1], oneKit(m[3]), m[4]))
		}
	}
	return list
}
