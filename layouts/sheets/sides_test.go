package sheets

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/seating"
	"everyseat/seating/laying"
)

// Mixing up left and right mirrors the message. These tests take the sides from the seats' places in
// the world, where x grows to the camera's right, and not from their order in the plan.

// sides says at which end of the row the first card lies: for the camera, and for
// somebody who sits there, whose right hand points along facing × up.
func sides(p *mosaic.Plan, seats []int32) (camera, person string) {
	first, last := p.Stands.Seats[seats[0]], p.Stands.Seats[seats[len(seats)-1]]
	camera, person = "LEFT", "LEFT"
	along := [2]float64{first.Position[0] - last.Position[0], first.Position[1] - last.Position[1]}
	if along[0] > 0 {
		camera = "RIGHT"
	}
	facing := [2]float64{math.Sin(first.Facing), -math.Cos(first.Facing)}
	right := [2]float64{facing[1], -facing[0]}
	if along[0]*right[0]+along[1]*right[1] > 0 {
		person = "RIGHT"
	}
	return camera, person
}

func TestStartsAtTheRightEnd(t *testing.T) {
	for _, lay := range []laying.Spec{{}, {Direction: laying.RightToLeft}, {Serpentine: true}, {Serpentine: true, FromBack: true, Pass: true}} {
		s := sample{sections: []string{"A", "B"}, rows: 4, seats: 7, lay: lay, plain: true}
		p := s.plan(t)
		f, err := printAll(told(p))
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := f.into(dir); err != nil {
			t.Fatal(err)
		}
		var text string
		for _, file := range f.placards() {
			text += judge(t, "pdftotext", "-raw", filepath.Join(dir, file), "-")
		}
		said := strings.Split(strings.Join(strings.Fields(text), " "), "ROW ")[1:]
		seen := 0
		for _, rows := range brief.Rows(p) {
			for i := range rows {
				camera, person := sides(p, rows[i].Seats)
				want := fmt.Sprintf("the %s end as the camera sees it: that is the %s-hand end", camera, person)
				slip, _, _ := strings.Cut(said[seen], " UP ")
				if !strings.Contains(slip, want) {
					t.Errorf("%+v, row %s: want %q in %q", lay, rows[i].Name, want, slip)
				}
				if strings.Contains(slip, "passes the rest on") != lay.Pass {
					t.Errorf("%+v: laying and passing are mixed up in %q", lay, slip)
				}
				seen++
			}
		}
		if seen != 8 || len(said) != 8 {
			t.Errorf("%d slips were read", len(said))
		}
	}
}

// On a strip the cells lie as the camera sees the seats: letters and seat numbers, sorted by where poppler
// finds them on the page, are those of the seats sorted by x.
func TestStripsAreNotMirrored(t *testing.T) {
	for _, fromRight := range []bool{false, true} {
		s := sample{sections: []string{"A"}, rows: 3, seats: 9, plain: true, fromRight: fromRight,
			hue: func(_, _, row, place int) int { return [...]int{0, 0, 1, 2, 1, 1, 0, 2, 2}[(place+row)%9] }}
		p := s.plan(t)
		f, err := printAll(told(p))
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := f.into(dir); err != nil {
			t.Fatal(err)
		}
		page := pageWords(t, filepath.Join(dir, "rows.pdf"))[0]
		letters, numbers := cellLines(page)
		if len(letters) != 3 || len(numbers) != 3 {
			t.Fatalf("%d lines of letters, %d of numbers", len(letters), len(numbers))
		}
		for r := range 3 {
			row := p.Stands.Sections[0].Rows[r]
			seats := make([]int, 0, 9)
			for i := row.First; i < row.Last; i++ {
				seats = append(seats, i)
			}
			slices.SortFunc(seats, func(a, b int) int {
				return cmp.Compare(p.Stands.Seats[a].Position[0], p.Stands.Seats[b].Position[0])
			})
			wantLetters, wantNumbers := "", ""
			for _, i := range seats {
				wantLetters += p.Stunt.Colours[p.Cues[0].Colours[i]].Name[:1]
				wantNumbers += strconv.Itoa(int(p.Stands.Seats[i].Number)) + " "
			}
			if letters[r] != wantLetters || numbers[r]+" " != wantNumbers {
				t.Errorf("row %s shows %s over %s, want %s over %s", row.Name, letters[r], numbers[r], wantLetters, wantNumbers)
			}
			if strings.Join(mirrored(strings.Split(wantLetters, "")), "") == wantLetters {
				t.Error("the sample is the same when mirrored")
			}
		}
	}
}

// Over the cells of a strip both ends are named where they are, for the camera and for the people in the row; START
// HERE stands at the end of the first card; and aisles lie between the sections.
func TestStripEnds(t *testing.T) {
	s := sample{sections: []string{"A", "B"}, rows: 3, seats: 20, plain: true, lay: laying.Spec{Serpentine: true}}
	p := s.plan(t)
	f, err := printAll(told(p))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := f.into(dir); err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, page := range pageWords(t, filepath.Join(dir, "rows.pdf")) {
		for _, line := range page.lines() {
			lines = append(lines, line.String())
		}
	}
	seen := 0
	for _, rows := range brief.Rows(p) {
		for i := range rows {
			at := slices.Index(lines, "Row "+rows[i].Name)
			if at < 0 || at+4 >= len(lines) {
				t.Fatalf("row %s has no strip", rows[i].Name)
			}
			at++ // the count
			want := [2]string{"LEFT end as the camera sees it START HERE: RIGHT end as the camera sees it"}
			if camera, _ := sides(p, rows[i].Seats); camera == "LEFT" {
				want[0] = "START HERE: LEFT end as the camera sees it RIGHT end as the camera sees it"
			}
			// Facing the camera, its left is at everybody's right hand; A lies to the left of B.
			want[1] = "your right hand when you sit here your left hand when you sit here; aisle, then section B"
			if rows[i].Section == 1 {
				want[1] = "your right hand when you sit here; aisle, then section A your left hand when you sit here"
			}
			if got := [2]string(lines[at+1 : at+3]); got != want {
				t.Errorf("row %s: %q, want %q", rows[i].Name, got, want)
			}
			seen++
		}
	}
	if seen != 6 {
		t.Errorf("%d strips were read", seen)
	}
}

// line is words at one height, from left to right.
type line []word

func (l line) String() string {
	texts := make([]string, len(l))
	for i, w := range l {
		texts[i] = w.text
	}
	return strings.Join(texts, " ")
}

// lines sorts a page's words into lines from the top; words of one line have their middles within a point.
func (w words) lines() []line {
	byHeight := map[int]line{}
	for _, v := range w.list {
		y := int(math.Round((v.y0 + v.y1) / 2))
		byHeight[y] = append(byHeight[y], v)
	}
	var lines []line
	for _, y := range slices.Sorted(maps.Keys(byHeight)) {
		l := byHeight[y]
		slices.SortFunc(l, func(a, b word) int { return cmp.Compare(a.x0, b.x0) })
		lines = append(lines, l)
	}
	return lines
}

// cellLines finds the lines of single letters and the lines of numbers under them, from the top.
func cellLines(page words) (letters, numbers []string) {
	for _, l := range page.lines() {
		single, digits := len(l) >= 9, len(l) >= 9
		for _, w := range l {
			_, err := strconv.Atoi(w.text)
			digits = digits && err == nil
			single = single && err != nil && len(w.text) == 1
		}
		switch {
		case single:
			letters = append(letters, strings.ReplaceAll(l.String(), " ", ""))
		case digits:
			numbers = append(numbers, l.String())
		}
	}
	return letters, numbers
}

// The placard's patch shows the card's colour, and its label says so; a full-size
// rendering by poppler is looked at in the middle of the patch's upper edge strip.
func TestPatchColour(t *testing.T) {
	for index := range 3 {
		p := sample{sections: []string{"A"}, rows: 1, seats: 1, hue: func(int, int, int, int) int { return index }, perSheet: 4}.plan(t)
		f := &files{}
		if err := Placards(told(p), f.put); err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		if err := f.into(dir); err != nil {
			t.Fatal(err)
		}
		judge(t, "pdftoppm", "-r", "254", "-singlefile", filepath.Join(dir, f.names[0]), filepath.Join(dir, "p")) // 10 pixels a millimetre
		ppm, err := os.ReadFile(filepath.Join(dir, "p.ppm"))
		if err != nil {
			t.Fatal(err)
		}
		width, height := 2159, 2794
		pixels := ppm[len(ppm)-3*width*height:]
		want := p.Stunt.Colours[index].RGB
		same := 0
		for n := 0; n < len(pixels); n += 3 {
			if pixels[n] == want[0] && pixels[n+1] == want[1] && pixels[n+2] == want[2] {
				same++
			}
		}
		// The patch is about 50 × 30 mm; its pattern and its letter's plate take up to two thirds.
		if area := float64(same) / 100; area < 400 || area > 2200 {
			t.Errorf("%s covers %.0f square millimetres of the page", p.Stunt.Colours[index].Name, area)
		}
	}
}

// A row of a section that is turned to the side has no left and right end in x alone; the words must still hold.
func TestTurnedSection(t *testing.T) {
	spec := seating.Spec{Sections: []seating.SectionSpec{{
		Name: "Side", Rows: 2, Seats: []int{6}, Pitch: 20 * seating.Inch, Rise: 10 * seating.Inch, Run: 24 * seating.Inch,
		SeatBoard: 17 * seating.Inch, Place: &seating.Place{Across: 8 * seating.Metre, Away: -5 * seating.Metre, Facing: -60},
	}}}
	stands, err := seating.Build(spec)
	if err != nil {
		t.Fatal(err)
	}
	p := sample{sections: []string{"A"}, rows: 1, seats: 1}.plan(t)
	p.Stands, p.Stunt.Stands, p.Order = stands, spec, laying.Order(stands, laying.Spec{})
	p.Blocks, p.Cues, p.Hands, p.Cards, p.Stunt.Cues = make([]string, len(stands.Seats)), nil, nil, nil, nil
	sample{}.handOut(p)
	rows := brief.Rows(p)[0]
	camera, person := sides(p, rows[0].Seats)
	if want := fmt.Sprintf("the %s end as the camera sees it: that is the %s-hand end", camera, person); !strings.Contains(brief.StartWords(false, rows[0].LeftToRight), want) {
		t.Errorf("want %q, got %q", want, brief.StartWords(false, rows[0].LeftToRight))
	}
	if err := Rows(io.Discard, told(p)); err != nil {
		t.Error(err)
	}
}
