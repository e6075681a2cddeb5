package sheets

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// mapped is one seat of a leader's map as poppler finds it on the page.
type mapped struct {
	number, letter string
	x, y           float64
	size           float64 // of the figures, points
}

// mapRows reads the rows of a map from the top: every number with the letter right above it.
func mapRows(page words) [][]mapped {
	var rows [][]mapped
	for _, l := range page.lines() {
		var row []mapped
		for _, n := range l {
			if _, err := strconv.Atoi(n.text); err != nil {
				continue
			}
			for _, w := range page.list {
				if up := n.y0 - w.y0; up > 8 && up < 40 && math.Abs(w.x0+w.x1-n.x0-n.x1) < 3 && (len([]rune(w.text)) == 1 || w.text == "none" || w.text == "free") {
					row = append(row, mapped{n.text, w.text, (n.x0 + n.x1) / 2, n.y0, (n.y1 - n.y0) / 1.362}) // ascent and descent of the face
				}
			}
		}
		if len(row) > 0 {
			rows = append(rows, row)
		}
	}
	return rows
}

var blockTitle = regexp.MustCompile(`^(?:Block [^:]+: section|Section) (.+), rows? (\S+?)(?: to (\S+))?$`)

// Every seat of a section stands once on the maps of every cue, under its letter; left is left for the
// camera, by the seats' places in the world; and the figures are large enough for an arm's length.
func TestLeadersSeeTheirSeats(t *testing.T) {
	// 16 minutes of arc at 60 cm is what ISO 9241-3 asks for at least (SEEN-2nd).
	least := 600 * math.Tan(16.0/60*math.Pi/180)
	for _, s := range []sample{
		{sections: []string{"A", "B"}, rows: 6, seats: 14, cues: 2, title: "x"},
		{sections: []string{"A"}, rows: 2, seats: 75, title: "x", fromRight: true},
		{sections: []string{"A"}, rows: 30, seats: 3, title: "x", paper: "A5"},
	} {
		p := s.plan(t)
		blocksOf(p, 4)
		got := map[string][]string{} // by cue and row: what is read from left to right
		cue := -1
		for _, page := range pageWords(t, onPaper(t, "leaders.pdf", p)) {
			lines := page.lines()
			m := blockTitle.FindStringSubmatch(lines[0].String())
			if m == nil {
				t.Fatalf("no title: %q", lines[0])
			}
			cue = 0
			if f := regexp.MustCompile(`^Cue (\d)`).FindStringSubmatch(lines[1].String()); f != nil {
				cue, _ = strconv.Atoi(f[1])
				cue--
			}
			for _, row := range mapRows(page) {
				slices.SortFunc(row, func(a, b mapped) int { return cmp.Compare(a.x, b.x) })
				name := rowBeside(page, row, lines)
				for _, v := range row {
					key := fmt.Sprintf("%d %s-%s", cue, m[1], name)
					got[key] = append(got[key], v.number+v.letter)
					if mm := v.size * paper.Capital / paper.PointsPerMM; mm < least {
						t.Errorf("figures of %.2f mm, want %.2f", mm, least)
					}
				}
			}
		}
		for cue := range p.Cues {
			for _, sec := range p.Stands.Sections {
				for _, row := range sec.Rows {
					key := fmt.Sprintf("%d %s-%s", cue, sec.Name, row.Name)
					if want := worldRow(p, cue, row); strings.Join(got[key], " ") != strings.Join(want, " ") {
						t.Errorf("cue and row %s:\ngot  %v\nwant %v", key, got[key], want)
					}
				}
			}
		}
	}
}

// blocksOf names blocks of so many rows.
func blocksOf(p *mosaic.Plan, rows int) {
	for s := range p.Stands.Seats {
		p.Blocks[s] = fmt.Sprintf("B%d.%d", p.Stands.Seats[s].Section, int(p.Stands.Seats[s].Row)/rows)
	}
}

// rowBeside is the name after the word "row" at the left of a row of the map.
func rowBeside(page words, row []mapped, lines []line) string {
	y := 0.0
	for _, v := range page.list {
		if v.text == "row" && v.x0 < row[0].x && math.Abs(v.y0-row[0].y) < 20 {
			y = v.y0
		}
	}
	for _, l := range lines {
		for i, w := range l {
			if w.text == "row" && w.y0 == y && i+1 < len(l) {
				return l[i+1].text
			}
		}
	}
	return ""
}

// worldRow is what a row shows, sorted by x.
func worldRow(p *mosaic.Plan, cue int, row seating.Row) []string {
	var seats []int
	for s := row.First; s < row.Last; s++ {
		seats = append(seats, s)
	}
	slices.SortFunc(seats, func(a, b int) int { return cmp.Compare(p.Stands.Seats[a].Position[0], p.Stands.Seats[b].Position[0]) })
	var out []string
	for _, s := range seats {
		what := "none"
		if c := p.Cues[cue].Colours[s]; c >= 0 {
			what = p.Stunt.Colours[c].Name[:1]
		} else if p.Stands.Seats[s].Use == seating.UseReserved {
			what = "free"
		}
		out = append(out, strconv.Itoa(int(p.Stands.Seats[s].Number))+what)
	}
	return out
}

// The sheet says on which side the camera is, for both views: from a block on the camera's left it lies to the
// left of whoever sits there and looks ahead, since their left is the camera's right.
func TestLeadersKnowWhereTheCameraIs(t *testing.T) {
	p := inHall(t, nil)
	for _, page := range pageWords(t, onPaper(t, "leaders.pdf", p)) {
		var all []string
		for _, l := range page.lines() {
			all = append(all, l.String())
		}
		text := strings.Join(all, " ")
		m := blockTitle.FindStringSubmatch(all[0])
		if m == nil {
			t.Fatal(all[0])
		}
		want := map[string]string{
			"A": "to the left of straight ahead when you sit here (to the right as the camera sees it)",
			"B": "", "C": "to the right of straight ahead when you sit here (to the left as the camera sees it)",
		}[m[1]]
		if !strings.Contains(text, want) {
			t.Errorf("%s: want %q in %q", m[1], want, text)
		}
		for _, must := range []string{"LEFT as the camera sees it RIGHT as the camera sees it", "your right hand when you sit here your left hand when you sit here", "Two-minute check, twenty seconds a row"} {
			if !strings.Contains(text, must) {
				t.Errorf("%s does not say %q", m[0], must)
			}
		}
	}
}

// A small block's map is as large as the sheet lets it be: the lines to sign stand in the sheet's lowest fifth, and
// nothing lies on the footer. Wheelchair and companion places are marked in type of 9 points or more where seats are
// wide enough.
func TestLeadersFillTheSheet(t *testing.T) {
	for _, rows := range []int{3, 4, 5} {
		p := sample{sections: []string{"A", "B"}, rows: rows, seats: 13, title: "x"}.plan(t)
		for i, use := range []string{"wheelchair", "companion"} {
			p.Stands.Seats[i].For = use
		}
		page := pageWords(t, onPaper(t, "leaders.pdf", p))[0]
		sign, marks := 0.0, 0
		for i, w := range page.list {
			switch w.text {
			case "counted":
				sign = max(sign, w.y1)
			case "w", "c":
				legend := page.list[min(i+1, len(page.list)-1)].text == "="
				if size := (w.y1 - w.y0) / 1.362; size >= 9 && !legend { // ascent and descent of the face
					marks++
				}
			}
		}
		if rows == 4 && sign < 0.8*page.height || sign > page.height-footerMargin*paper.PointsPerMM || sign == 0 {
			t.Errorf("%d rows: the lines to sign end at %.0f of %.0f points", rows, sign, page.height)
		}
		if marks != 2 {
			t.Errorf("%d rows: %d marks of kept places in 9 points", rows, marks)
		}
	}
}

// Where people have several cards the leaders' maps count a row's cards as its strip does, and its seats besides.
func TestLeadersCountTheCards(t *testing.T) {
	p := samples["two cards"].plan(t)
	text := judge(t, "pdftotext", "-raw", onPaper(t, "leaders.pdf", p), "-")
	got, want := map[string]int{}, map[string]int{}
	for _, m := range regexp.MustCompile(`(?m)^(\d+ cards?|\d+ seats?)$`).FindAllString(text, -1) {
		got[m]++
	}
	for _, row := range laidRows(p) {
		cards, seats := 0, 0
		for _, kit := range row.Kits {
			if cards += len(kit); len(kit) > 0 {
				seats++
			}
		}
		if cards > 0 {
			want[say.Count(cards, "card")] += len(p.Cues)
			want[say.Count(seats, "seat")] += len(p.Cues)
		}
	}
	if len(want) == 0 || !maps.Equal(got, want) {
		t.Errorf("the leaders count %v, want %v", got, want)
	}
}
