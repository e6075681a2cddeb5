package tables

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
)

func seatsCSV(t testing.TB, p *mosaic.Plan) [][]string {
	t.Helper()
	var b bytes.Buffer
	if err := Seats(&b, p); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return lines
}

// The columns are those that the crew's programs rely on, and every seat stands
// there once, in laying order, with what the hands show.
func TestSeats(t *testing.T) {
	p := plan(t)
	lines := seatsCSV(t, p)
	want := "order,seat_id,section,row,seat,block,use,cue_1,cue_2,card_1,card_2"
	if got := strings.Join(lines[0], ","); got != want {
		t.Fatalf("columns %s, want %s", got, want)
	}
	if len(lines)-1 != len(p.Stands.Seats) {
		t.Fatalf("%d lines for %d seats", len(lines)-1, len(p.Stands.Seats))
	}
	seen := map[string]bool{}
	uses := map[string]int{}
	for k, l := range lines[1:] {
		seat := p.Order[k]
		s := p.Stands.Seats[seat]
		if l[0] != strconv.Itoa(k+1) || l[1] != p.Stands.ID(int(seat)) || l[1] != l[2]+"-"+l[3]+"-"+l[4] {
			t.Errorf("line %d: %v", k+2, l)
		}
		if seen[l[1]] {
			t.Errorf("seat %s stands there twice", l[1])
		}
		seen[l[1]] = true
		uses[l[6]]++
		for cue := range p.Cues {
			colour, card := l[7+cue], l[9+cue]
			h := p.Hands[cue][seat]
			if h.Card < 0 {
				if colour != "" || card != "" {
					t.Errorf("%s shows nothing at cue %d: %q, %q", l[1], cue+1, colour, card)
				}
				continue
			}
			side := p.Cards[h.Card].Sides[h.Side]
			if strings.TrimPrefix(colour, "'") != p.Stunt.Colours[side].Name {
				t.Errorf("%s at cue %d: %q, want %q", l[1], cue+1, colour, p.Stunt.Colours[side].Name)
			}
			if want := p.Cards[h.Card].ID + " A"; card != want {
				t.Errorf("%s at cue %d: card %q, want %q", l[1], cue+1, card, want)
			}
		}
		if (s.Use != seating.UseCard) && (l[7] != "" || l[8] != "") {
			t.Errorf("%s holds no card: %v", l[1], l)
		}
	}
	if uses["card"] == 0 || uses["reserved"] != 1 {
		t.Errorf("uses %v", uses)
	}
	if seen["A-2-3"] || !seen["A-2-5"] || !seen["A-1-1"] {
		t.Error("missing seats are not listed, wheelchair places are")
	}
}

// No cell may start a formula (common practice, no source); and only such text is touched.
func TestPlain(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+1": "'+1", "-2": "'-2", "@SUM(A1)": "'@SUM(A1)", "\t=1": "'\t=1", "\r=1": "'\r=1",
		"NAVY": "NAVY", "": "", "a=b": "a=b", "B-7-12": "B-7-12",
	} {
		if got := Plain(in); got != want {
			t.Errorf("%q becomes %q, want %q", in, got, want)
		}
	}
	for _, l := range seatsCSV(t, plan(t)) {
		for _, cell := range l {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				t.Errorf("cell %q would run", cell)
			}
		}
	}
}

func planJSON(t testing.TB, told *brief.Brief) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := PlanJSON(&b, told); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Every key of version 1 is there, with values of its kind, as a reader finds it that knows only the schema.
func TestPlanKeys(t *testing.T) {
	p := plan(t)
	var d map[string]any
	if err := json.Unmarshal(planJSON(t, told(t, p)), &d); err != nil {
		t.Fatal(err)
	}
	n := len(p.Stands.Seats)
	want := map[string]string{
		"version": "number", "code": "text", "title": "text", "picture": "list 2",
		"camera.position": "list 3", "camera.rotation": "list 3", "camera.focal_px": "number", "camera.center": "list 2",
		"marks": "list 2", "marks.name": "text", "marks.camera.position": "list 3",
		"marks.visible": fmt.Sprint("list ", n), "marks.scores": "list 2",
		"palette": "list 2", "palette.name": "text", "palette.hex": "text",
		"seats": fmt.Sprint("list ", n), "seats.id": "text", "seats.section": "text", "seats.row": "text", "seats.seat": "number",
		"seats.use": "text", "seats.block": "text", "seats.position": "list 3", "seats.card": "list 4", "seats.corners": "list 4",
		"seats.visible": "number", "seats.pixels": "number",
		"cues": "list 2", "cues.name": "text", "cues.at": "text", "cues.colours": fmt.Sprint("list ", n),
		"cues.legibility.score": "number", "cues.legibility.verdict": "text", "cues.legibility.letters": "list 2",
		"cues.legibility.empty_ok": "number", "cues.legibility.wrong_ok": "number",
		"cards": "list 2", "cards.id": "text", "cards.sides": "list 2",
		"hands": fmt.Sprint("list ", n),
	}
	for path, kind := range want {
		if got := kindAt(d, strings.Split(path, ".")); got != kind {
			t.Errorf("%s is %s, want %s", path, got, kind)
		}
	}
}

// kindAt follows keys, and the first entry of lists, to a value and says what it is.
func kindAt(v any, path []string) string {
	for _, key := range path {
		if list, ok := v.([]any); ok && len(list) > 0 {
			v = list[0]
		}
		m, ok := v.(map[string]any)
		if !ok {
			return "nothing"
		}
		if v, ok = m[key]; !ok {
			return "nothing"
		}
	}
	switch v := v.(type) {
	case string:
		return "text"
	case float64:
		return "number"
	case []any:
		return fmt.Sprint("list ", len(v))
	}
	return "something else"
}

// ReadPlan gives back what the plan says, list by list.
func TestReadPlan(t *testing.T) {
	p := plan(t)
	told := told(t, p)
	f, err := ReadPlan(bytes.NewReader(planJSON(t, told)))
	if err != nil {
		t.Fatal(err)
	}
	if f.Code != string(told.Code) || f.Title != p.Stunt.Title || f.Picture != [2]int{1920, 1080} || f.Marks[0].Name != "camera" || f.Marks[1].Name != "gallery" {
		t.Errorf("code %q, title %q, picture %v, marks %q %q", f.Code, f.Title, f.Picture, f.Marks[0].Name, f.Marks[1].Name)
	}
	for i, s := range f.Seats {
		if s.ID != p.Stands.ID(i) || s.Use != p.Stands.Seats[i].Use.String() || s.Block != p.Blocks[i] {
			t.Errorf("seat %d: %+v", i, s)
		}
		if holds := p.Stands.Seats[i].Use == seating.UseCard; (len(s.Card) == 4) != holds {
			t.Errorf("seat %s: card %v", s.ID, s.Card)
		}
		if math.Abs(s.Visible-float64(p.Marks[0].Sight.Seen[i])) > 0.5e-4+1e-9 || math.Abs(f.Marks[1].Visible[i]-float64(p.Marks[1].Sight.Seen[i])) > 0.5e-4+1e-9 {
			t.Errorf("seat %s: visible %v", s.ID, s.Visible)
		}
		for cue := range p.Cues {
			if f.Cues[cue].Colours[i] != int(p.Cues[cue].Colours[i]) {
				t.Errorf("seat %s: cue %d shows %d", s.ID, cue+1, f.Cues[cue].Colours[i])
			}
			h := f.Hands[i][cue]
			if shown := f.Cues[cue].Colours[i]; shown < 0 != (h[0] < 0) || shown >= 0 && f.Cards[h[0]].Sides[h[1]] != shown {
				t.Errorf("seat %s: the hand does not show the colour of cue %d", s.ID, cue+1)
			}
		}
	}
	for i, c := range f.Cues {
		if c.Legibility.Verdict != p.Cues[i].Reading.Verdict || len(c.Legibility.Letters) != len(p.Cues[i].Reading.Letters) {
			t.Errorf("cue %d: legibility %+v", i, c.Legibility)
		}
	}
}

// project is the pinhole camera of the file's own description, written down here
// anew: X = R·(P − position), u = cx + f·X/Z, v = cy + f·Y/Z.
func project(c PlanCamera, p [3]float64) (u, v, z float64) {
	var x [3]float64
	for i := range x {
		for k := range p {
			x[i] += c.Rotation[i][k] * (p[k] - c.Position[k])
		}
	}
	return c.Center[0] + c.Focal*x[0]/x[2], c.Center[1] + c.Focal*x[1]/x[2], x[2]
}

// The file holds together: each seat's card, seen by the file's camera, has the file's corners, to what rounding leaves.
func TestCornersFollowFromCards(t *testing.T) {
	f, err := ReadPlan(bytes.NewReader(planJSON(t, told(t, plan(t)))))
	if err != nil {
		t.Fatal(err)
	}
	if err := cornersFollow(f); err != nil {
		t.Error(err)
	}
	// A card moved by a millimetre, and a camera that mirrors, must be noticed.
	f.Seats[20].Card[2][0] += 0.001
	if cornersFollow(f) == nil {
		t.Error("a corner moved by 1 mm was not noticed")
	}
	f.Seats[20].Card[2][0] -= 0.001
	for k := range f.Camera.Rotation[0] {
		f.Camera.Rotation[0][k] *= -1
	}
	if cornersFollow(f) == nil {
		t.Error("a mirrored camera was not noticed")
	}
}

func cornersFollow(f *PlanFile) error {
	checked := 0
	for _, s := range f.Seats {
		for i := range s.Corners {
			u, v, z := project(f.Camera, s.Card[i])
			// Half of the 0.0001 px to which corners are written, and what half a micrometre in each of the card's
			// coordinates is at this distance; the camera's own digits are finer.
			tolerance := 0.51e-4 + 2*f.Camera.Focal/z*0.5e-6
			if math.Abs(u-s.Corners[i][0]) > tolerance || math.Abs(v-s.Corners[i][1]) > tolerance {
				return fmt.Errorf("%s corner %d: the card lies at %.4f, %.4f, the file says %v", s.ID, i, u, v, s.Corners[i])
			}
			checked++
		}
	}
	if checked < 4*100 {
		return fmt.Errorf("only %d corners were checked", checked)
	}
	return nil
}

func TestRounded(t *testing.T) {
	for _, c := range []struct {
		v      float64
		digits int
		want   string
	}{
		{0, 4, "0"}, {1, 4, "1"}, {-1e-9, 6, "0"}, {0.1 + 0.2, 6, "0.3"}, {1234.56785, 4, "1234.5678"}, {-2.5, 0, "-2"}, {100, 1, "100"},
		{math.NaN(), 2, "0"}, {math.Inf(-1), 2, "0"}, {1e-12, 12, "0.000000000001"},
	} {
		if got := decimal(c.v, c.digits); got != c.want {
			t.Errorf("%v to %d digits is %s, want %s", c.v, c.digits, got, c.want)
		}
	}
}

func TestSameBytes(t *testing.T) {
	p := plan(t)
	again, err := mosaic.Make(stunt())
	if err != nil {
		t.Fatal(err)
	}
	second := writers(told(t, again))
	for name, write := range writers(told(t, p)) {
		var a, b bytes.Buffer
		if err := errors.Join(write(&a), second[name](&b)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two runs differ", name)
		}
	}
}

type full struct{ room int }

var errFull = errors.New("no room")

func (f *full) Write(b []byte) (int, error) {
	if f.room -= len(b); f.room < 0 {
		return 0, errFull
	}
	return len(b), nil
}

// A writer that refuses, at once or after a while, is heard.
func TestWriterErrors(t *testing.T) {
	for name, write := range writers(told(t, plan(t))) {
		for _, room := range []int{0, 5000} {
			if err := write(&full{room}); !errors.Is(err, errFull) {
				t.Errorf("%s with room for %d bytes: %v", name, room, err)
			}
		}
	}
}

// The workbook holds the table of seats.csv: numbers as numbers, ids as text, colours filled, the header frozen.
func TestWorkbook(t *testing.T) {
	p := plan(t)
	var b bytes.Buffer
	if err := Workbook(&b, p); err != nil {
		t.Fatal(err)
	}
	checkFilter(t, b.Bytes(), len(header(p)), len(p.Order)+1)
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("seats")
	if err != nil {
		t.Fatal(err)
	}
	lines := seatsCSV(t, p)
	if len(rows) != len(lines) {
		t.Fatalf("%d rows, want %d", len(rows), len(lines))
	}
	for i := range rows {
		for len(rows[i]) < len(lines[i]) {
			rows[i] = append(rows[i], "")
		}
		for k := range lines[i] {
			lines[i][k] = strings.TrimPrefix(lines[i][k], "'")
		}
		if !slices.Equal(rows[i], lines[i]) {
			t.Errorf("row %d: %v, want %v", i+1, rows[i], lines[i])
		}
	}
	for cell, want := range map[string]excelize.CellType{"A2": excelize.CellTypeUnset, "B2": excelize.CellTypeInlineString, "D2": excelize.CellTypeInlineString, "H2": excelize.CellTypeInlineString} {
		if got, err := f.GetCellType("seats", cell); err != nil || got != want {
			t.Errorf("cell %s is of type %v, want %v (%v)", cell, got, want, err)
		}
		if formula, _ := f.GetCellFormula("seats", cell); formula != "" {
			t.Errorf("cell %s runs %q", cell, formula)
		}
	}
	id, err := f.GetCellStyle("seats", "H2")
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil || len(style.Fill.Color) == 0 || !strings.EqualFold(style.Fill.Color[0], "14284F") {
		t.Errorf("cell H2 is filled %v (%v)", style.Fill.Color, err)
	}
	if panes, err := f.GetPanes("seats"); err != nil || !panes.Freeze || panes.YSplit != 1 {
		t.Errorf("panes %+v (%v)", panes, err)
	}
}

// checkFilter looks into the sheet itself for the filter over all its cells: ECMA-376 part 1, 18.3.1.2 (from memory).
func checkFilter(t *testing.T, book []byte, columns, lines int) {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	file, err := r.Open("xl/worksheets/sheet1.xml")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var sheet struct {
		Filter struct {
			Ref string `xml:"ref,attr"`
		} `xml:"autoFilter"`
	}
	if err := xml.NewDecoder(file).Decode(&sheet); err != nil {
		t.Fatal(err)
	}
	last, err := excelize.CoordinatesToCellName(columns, lines)
	if got := strings.ReplaceAll(sheet.Filter.Ref, "$", ""); err != nil || got != "A1:"+last {
		t.Errorf("the sheet filters %q, want A1:%s (%v)", got, last, err)
	}
}

func TestReadPlanFaults(t *testing.T) {
	good := string(planJSON(t, told(t, plan(t))))
	for name, c := range map[string]struct{ text, what string }{
		"empty":        {"", "broken"},
		"cut off":      {good[:len(good)/2], "broken after"},
		"other":        {`{"hello":1}`, "version is 0"},
		"later":        {strings.Replace(good, `{"version":1`, `{"version":2`, 1), "version is 2"},
		"wrong kind":   {strings.Replace(good, `"code":"`, `"code":7,"was":"`, 1), "code holds a number"},
		"lost hands":   {good[:strings.Index(good, `"hands":[`)] + `"hands":[]}`, "hands for 0"},
		"wrong colour": {strings.Replace(good, `"colours":[`, `"colours":[99,`, 1), "cues[0]"},
	} {
		_, err := ReadPlan(strings.NewReader(c.text))
		var fault *seating.Fault
		if !errors.As(err, &fault) || !strings.Contains(fault.What, c.what) || fault.Hint == "" {
			t.Errorf("%s: %v, want a fault with %q", name, err, c.what)
		}
	}
	if _, err := ReadPlan(io.LimitReader(blanks{}, MaxPlanBytes+2)); err == nil || !strings.Contains(err.Error(), "larger than 256 MiB") {
		t.Errorf("a huge file: %v", err)
	}
}

type blanks struct{}

func (blanks) Read(b []byte) (int, error) {
	for i := range b {
		b[i] = ' '
	}
	return len(b), nil
}

// Whatever ReadPlan accepts is whole, and no input makes it fall over.
func FuzzReadPlan(f *testing.F) {
	p, err := planned()
	if err != nil {
		f.Fatal(err)
	}
	good := planJSON(f, told(f, p))
	f.Add(good)
	f.Add(good[:1000])
	f.Add([]byte(`{"version":1,"marks":[{"visible":[]}],"seats":[],"hands":[],"cues":[],"cards":[]}`))
	f.Add([]byte(`{"version":1,"marks":[{"visible":[0]}],"seats":[{"card":[[0,0,0]]}],"hands":[[]]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		plan, err := ReadPlan(bytes.NewReader(data))
		if err != nil {
			var fault *seating.Fault
			if !errors.As(err, &fault) {
				t.Fatalf("%v is no fault", err)
			}
			return
		}
		for i := range plan.Seats {
			for cue, h := range plan.Hands[i] {
				if h[0] >= 0 {
					_ = plan.Palette[plan.Cards[h[0]].Sides[h[1]]]
				}
				_ = plan.Cues[cue].Colours[i]
			}
			_ = plan.Marks[0].Visible[i]
		}
	})
}

// large is the plan of many seats, with colours by rule.
func large(b *testing.B, rows int) *mosaic.Plan {
	b.Helper()
	p := *plan(b)
	spec := stunt().Stands
	spec.Sections = spec.Sections[:1]
	spec.Sections[0].Seats, spec.Sections[0].Rows = []int{500}, rows
	stands, err := seating.Build(spec)
	if err != nil {
		b.Fatal(err)
	}
	n := len(stands.Seats)
	scene := *p.Scene
	scene.Stands = stands
	p.Stands, p.Scene, p.Order, p.Blocks = stands, &scene, make([]int32, n), make([]string, n)
	for i := range p.Order {
		p.Order[i] = int32(i)
	}
	mark := p.Marks[0]
	mark.Sight = scene.See(mark.View)
	p.Marks = []mosaic.Mark{mark}
	p.Cues, p.Hands = slices.Clone(p.Cues), nil
	for c := range p.Cues {
		p.Cues[c].Colours = make([]int16, n)
		p.Hands = append(p.Hands, make([]mosaic.Hold, n))
	}
	return &p
}

func BenchmarkTables100000(b *testing.B) {
	p := large(b, 200)
	for name, write := range writers(&brief.Brief{Plan: p, Outlook: &outlook.Outlook{Cues: make([]outlook.Cue, len(p.Cues))}}) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if err := write(io.Discard); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What may become of a text is in plan.json: on a phone from every mark, on the day, which seats matter and what a section
// gone wrong leaves to read; a general JSON reader finds it beside the keys of version 1.
func TestPlanOfTheDay(t *testing.T) {
	told := told(t, plan(t))
	var got struct {
		Marks []struct{ Scores, Phone []float64 }
		Stray map[string]float64
		Cues  []struct {
			Phone struct {
				Width   int
				Score   float64
				Verdict string
			}
			Day []struct {
				What, Way, Verdict string
				Share, Score       float64
			}
			Matter   []struct{ Seat string }
			Unwanted []struct{ Section, How, Reads string }
		}
	}
	if err := json.Unmarshal(planJSON(t, told), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Stray) != 6 {
		t.Errorf("stray %v", got.Stray)
	}
	for i, c := range got.Cues {
		worst := 1.0
		for k := range got.Marks {
			worst = min(worst, got.Marks[k].Phone[i])
		}
		if c.Phone.Width != legibility.PhoneWidth || c.Phone.Score != worst || c.Phone.Verdict == "" {
			t.Errorf("cue %d on a phone: %+v, the marks have %v at worst", i, c.Phone, worst)
		}
		look := &told.Outlook.Cues[i]
		if len(c.Day) != len(look.Day) || len(c.Matter) != min(len(look.Matter), 10) || len(c.Unwanted) != len(look.Unwanted) {
			t.Errorf("cue %d: %d outcomes, %d seats, %d readings", i, len(c.Day), len(c.Matter), len(c.Unwanted))
		}
		for k, o := range look.Day {
			if d := c.Day[k].Score - o.Score; d > 1e-4 || d < -1e-4 || c.Day[k].What != string(o.What) || c.Day[k].Way != o.Way {
				t.Errorf("outcome %+v became %+v", o, c.Day[k])
			}
		}
	}
}
