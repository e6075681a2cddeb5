package mosaic

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/unicode/norm"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/stock"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// bleachers are twelve rows of twelve.
func bleachers(name string) seating.SectionSpec {
	return seating.SectionSpec{
		Name: name, Kind: seating.Bench, Rows: 12, Seats: []int{12}, Pitch: 20 * seating.Inch,
		Rise: 9*seating.Inch + seating.Inch*5/8, Run: 24 * seating.Inch, FirstRow: 12 * seating.Inch,
		SeatBoard: 17 * seating.Inch, Aisle: 48 * seating.Inch,
	}
}

// gullhaven is a made-up fair: three sections of bleachers.
func gullhaven() *Stunt {
	return &Stunt{
		Title:  "Lantern Fair of Gullhaven",
		Stands: seating.Spec{Sections: []seating.SectionSpec{bleachers("A"), bleachers("B"), bleachers("C")}},
		Camera: camera.Mark{Back: 18 * seating.Metre, Height: 3 * seating.Metre},
		Colours: []Colour{
			{Name: "navy", RGB: colour.RGB{0x1b, 0x2a, 0x5c}, Sheets: -1},
			{Name: "white", RGB: colour.RGB{0xff, 0xff, 0xff}, Sheets: -1},
			{Name: "gold", RGB: colour.RGB{0xf2, 0xb7, 0x05}, Sheets: -1},
		},
		Cues: []Cue{{Text: "GLOW"}},
	}
}

// crowded is gullhaven with people on the floor, seats that are missing and
// reserved, two cues and seats painted by hand.
func crowded() *Stunt {
	s := gullhaven()
	floor := seating.SectionSpec{
		Name: "F", Kind: seating.Floor, Rows: 3, Seats: []int{20}, Pitch: 24 * seating.Inch, Run: 36 * seating.Inch,
		Place: &seating.Place{Away: -5 * seating.Metre}, NoCards: true,
	}
	s.Stands.Sections = append(s.Stands.Sections, floor)
	s.Stands.Sections[0].Missing = []seating.SeatRange{{Row: "3", From: 4, To: 5}}
	s.Stands.Sections[1].Reserved = []seating.Reserved{
		{Seats: []seating.SeatRange{{Row: "1", From: 1, To: 2}}, For: "wheelchair"},
		{Seats: []seating.SeatRange{{Row: "12", From: 6, To: 7}}, For: "platform"},
	}
	s.Cues = append(s.Cues, Cue{Name: "lantern", ImageName: "lantern.png", Image: halves(colour.RGB{0xff, 0xff, 0xff}, colour.RGB{0xf2, 0xb7, 0x05}), Fit: "fill"})
	s.Cues[0].Painted = []Paint{{Section: "C", Seats: seating.SeatRange{Row: "1", From: 12, To: 10}, Colour: "gold"}}
	return s
}

// halves is an image, half one colour and half the other from left to right.
func halves(left, right colour.RGB) []byte {
	m := image.NewNRGBA(image.Rect(0, 0, 64, 32))
	for y := range 32 {
		for x := range 64 {
			c := left
			if x >= 32 {
				c = right
			}
			m.SetNRGBA(x, y, color.NRGBA{c[0], c[1], c[2], 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func mustMake(t testing.TB, s *Stunt) *Plan {
	t.Helper()
	p, err := Make(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// seat finds a seat by its id.
func seat(t testing.TB, p *Plan, id string) int {
	t.Helper()
	s, err := p.Stands.Find(id)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// shows is the name of the colour that a seat shows, or "".
func shows(p *Plan, cue, s int) string {
	c := p.Cues[cue].Colours[s]
	if c == None {
		return ""
	}
	return p.Stunt.Colours[c].Name
}

// ledger is what a test or a property offers to complain with.
type ledger interface {
	Helper()
	Errorf(format string, a ...any)
	Fatalf(format string, a ...any)
}

// checkLedger holds what is true of every plan: every seat is in the order once, every card
// seat shows a colour (or, before shirts, may show none), nobody else does, and the card in
// the hand has that colour on the side that is shown.
func checkLedger(t ledger, p *Plan) {
	t.Helper()
	n := len(p.Stands.Seats)
	order := slices.Clone(p.Order)
	slices.Sort(order)
	for s := range n {
		if len(order) != n || order[s] != int32(s) {
			t.Fatalf("the laying order is no permutation of %d seats", n)
		}
		if p.Blocks[s] == "" {
			t.Errorf("%s belongs to no block", p.Stands.ID(s))
		}
	}
	if len(p.Hands) != len(p.Cues) || len(p.Cells) != n || len(p.Blocks) != n {
		t.Fatalf("%d hands for %d cues, %d cells and %d blocks for %d seats", len(p.Hands), len(p.Cues), len(p.Cells), len(p.Blocks), n)
	}
	for i := range p.Cues {
		if len(p.Hands[i]) != n || len(p.Cues[i].Colours) != n {
			t.Fatalf("cue %d: %d hands and %d colours for %d seats", i, len(p.Hands[i]), len(p.Cues[i].Colours), n)
		}
		shirts := p.Stunt.Cues[i].Ground == Shirts
		for s, c := range p.Cues[i].Colours {
			hold := p.Hands[i][s]
			card := p.Stands.Seats[s].Use == seating.UseCard
			switch {
			case c == None && hold.Card != -1, c != None && (hold.Card < 0 || p.Cards[hold.Card].Sides[hold.Side] != c):
				t.Errorf("cue %d: %s shows colour %d and holds %+v", i, p.Stands.ID(s), c, hold)
			case c != None && !card:
				t.Errorf("cue %d: %s shows colour %d but has no card", i, p.Stands.ID(s), c)
			case c == None && card && !shirts:
				t.Errorf("cue %d: %s has a card and shows none", i, p.Stands.ID(s))
			}
		}
	}
	for k, mark := range p.Marks {
		if len(mark.Scores) != len(p.Cues) {
			t.Errorf("mark %d has %d scores for %d cues", k, len(mark.Scores), len(p.Cues))
		}
	}
}

func TestMakeCrowded(t *testing.T) {
	p := mustMake(t, crowded())
	checkLedger(t, p)
	all := p.Stands.CountAll()
	if all.Cards != 3*144-2-2 || all.Persons != 60 {
		t.Errorf("%d cards and %d persons", all.Cards, all.Persons)
	}
	var held int
	for _, h := range p.Hands[1] {
		if h.Card >= 0 {
			held++
		}
	}
	if held != all.Cards {
		t.Errorf("at cue 2 %d cards are held, %d people have one", held, all.Cards)
	}
	for id, want := range map[string]string{
		"C-1-12": "gold", "C-1-10": "gold", // painted
		"B-1-1":   "navy", // wheelchair places hold cards like everybody
		"B-12-6":  "",     // a platform
		"F-1-1":   "",     // no cards on the floor
		"A-12-12": "navy",
	} {
		if got := shows(p, 0, seat(t, p, id)); got != want {
			t.Errorf("%s shows %q, want %q", id, got, want)
		}
	}
	if got := p.Cues[0].Name + " " + p.Cues[1].Name; got != "GLOW lantern" {
		t.Errorf("cues are called %s", got)
	}
}

func TestMakeTwiceIsTheSame(t *testing.T) {
	a, b := mustMake(t, crowded()), mustMake(t, crowded())
	all := cmp.Exporter(func(reflect.Type) bool { return true })
	if d := cmp.Diff(a, b, all); d != "" {
		t.Error(d)
	}
}

func TestMakeLeavesTheStuntAlone(t *testing.T) {
	s := crowded()
	mustMake(t, s)
	if d := cmp.Diff(crowded(), s); d != "" {
		t.Error(d)
	}
}

// What is on the left of the image is on the camera's left, and what is above is behind.
func TestImageStandsTheRightWay(t *testing.T) {
	s := gullhaven()
	s.Cues = []Cue{{ImageName: "halves.png", Image: halves(colour.RGB{0xff, 0xff, 0xff}, colour.RGB{0xf2, 0xb7, 0x05}), Fit: "fill"}}
	for _, fit := range []string{"fill", "fit", "flat"} {
		s.Cues[0].Fit = fit
		p := mustMake(t, s)
		checkLedger(t, p)
		if r := p.Cues[0].Reading; r.Verdict != legibility.Picture || p.Cues[0].Text != nil {
			t.Errorf("%s: an image is judged as %q", fit, r.Verdict)
		}
		left, right, outer := "A-%d-%d", "C-%d-%d", "white"
		if fit != "fill" { // the stands are wider than the image, which stands on the middle section
			left, right, outer = "B-%d-%d", "B-%d-%d", "navy"
		}
		for row := 4; row <= 9; row++ {
			for n := 2; n <= 5; n++ {
				l, r := seat(t, p, fmt.Sprintf(left, row, n)), seat(t, p, fmt.Sprintf(right, row, 13-n))
				if shows(p, 0, l) != "white" || shows(p, 0, r) != "gold" {
					t.Fatalf("%s: %s is %s and %s is %s, want white and gold", fit, p.Stands.ID(l), shows(p, 0, l), p.Stands.ID(r), shows(p, 0, r))
				}
			}
		}
		if got := shows(p, 0, seat(t, p, "A-6-1")); got != outer {
			t.Errorf("%s: A-6-1 is %s, want %s", fit, got, outer)
		}
	}
}

// mirrored is the seat at the same place of the mirrored stands.
func mirrored(p *Plan, s int) int {
	at := p.Stands.Seats[s]
	sec := p.Stands.Sections[len(p.Stands.Sections)-1-int(at.Section)]
	row := sec.Rows[at.Row]
	return row.Last - 1 - int(at.Place)
}

// With stands and camera that are their own mirror image, a mirrored picture makes
// the mirrored plan; and it is a different one.
func TestImageMirrors(t *testing.T) {
	straight, err := os.ReadFile("../testdata/sampling/picture.png")
	if err != nil {
		t.Fatal(err)
	}
	m, err := png.Decode(bytes.NewReader(straight))
	if err != nil {
		t.Fatal(err)
	}
	turned := image.NewNRGBA(m.Bounds())
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			turned.Set(m.Bounds().Dx()-1-x, y, m.At(x, y))
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, turned); err != nil {
		t.Fatal(err)
	}
	plans := [2]*Plan{}
	for i, data := range [][]byte{straight, b.Bytes()} {
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "picture.png", Image: data, Fit: "fit"}}
		plans[i] = mustMake(t, s)
	}
	wrong, same := 0, 0
	for s := range plans[0].Stands.Seats {
		if plans[0].Cues[0].Colours[s] != plans[1].Cues[0].Colours[mirrored(plans[1], s)] {
			wrong++
		}
		if plans[0].Cues[0].Colours[s] == plans[1].Cues[0].Colours[s] {
			same++
		}
	}
	// Samples of what is hidden fall differently on the two sides, and cells follow them.
	if wrong > len(plans[0].Stands.Seats)/50 {
		t.Errorf("%d of %d seats are not mirrored", wrong, len(plans[0].Stands.Seats))
	}
	if same > len(plans[0].Stands.Seats)*9/10 {
		t.Errorf("%d seats are the same: this picture cannot tell left from right", same)
	}
}

// An L has its stroke on the left and its foot at the bottom, as the camera sees it.
func TestTextStandsTheRightWay(t *testing.T) {
	s := gullhaven()
	s.Stands.Sections = s.Stands.Sections[:1]
	s.Cues = []Cue{{Text: "L"}}
	for _, fit := range []string{"camera", "flat"} {
		s.Cues[0].Fit = fit
		p := mustMake(t, s)
		checkLedger(t, p)
		inRow, inPlace := map[int32]int{}, map[int32]int{}
		for i, c := range p.Cues[0].Colours {
			if c == 1 {
				inRow[p.Stands.Seats[i].Row]++
				inPlace[p.Stands.Seats[i].Place]++
			}
		}
		lowest, highest := int32(99), int32(-1)
		left, right := int32(99), int32(-1)
		for r := range inRow {
			lowest, highest = min(lowest, r), max(highest, r)
		}
		for k := range inPlace {
			left, right = min(left, k), max(right, k)
		}
		byLeft, byRight := 0, 0 // ink on either side of the L's middle
		for k, n := range inPlace {
			if 2*k < left+right {
				byLeft += n
			} else if 2*k > left+right {
				byRight += n
			}
		}
		if inRow[lowest] <= inRow[highest] || byLeft < 2*byRight || highest-lowest < 5 {
			t.Errorf("%s: the L has %v ink by row and %v by place", fit, inRow, inPlace)
		}
	}
}

func TestShirtsAreNoCards(t *testing.T) {
	s := gullhaven()
	s.Cues[0].Ground, s.Cues[0].Ink = Shirts, "white"
	p := mustMake(t, s)
	checkLedger(t, p)
	if len(p.Cards) != 1 || p.Cards[0].ID != "WHITE" {
		t.Errorf("cards are %v, want WHITE alone", p.Cards)
	}
	ink := 0
	for _, c := range p.Cues[0].Colours {
		if c == 1 {
			ink++
		}
	}
	if ink == 0 || ink == len(p.Stands.Seats) {
		t.Errorf("%d of %d seats are ink", ink, len(p.Stands.Seats))
	}
}

// What is transparent in an image is ground: a card of it, or none before shirts.
func TestTransparentIsGround(t *testing.T) {
	data, err := os.ReadFile("../testdata/sampling/clear.png")
	if err != nil {
		t.Fatal(err)
	}
	s := gullhaven()
	s.Colours = append(s.Colours, Colour{Name: "red", RGB: colour.RGB{220, 30, 30}, Sheets: -1})
	s.Cues = []Cue{{ImageName: "clear.png", Image: data, Fit: "fill"}}
	for ground, want := range map[string]string{"gold": "gold", Shirts: ""} {
		s.Cues[0].Ground = ground
		p := mustMake(t, s)
		checkLedger(t, p)
		if left, right := shows(p, 0, seat(t, p, "A-10-4")), shows(p, 0, seat(t, p, "C-10-9")); left != "red" || right != want {
			t.Errorf("before %s the red quarter is %q and the clear one %q, want red and %q", ground, left, right, want)
		}
	}
}

// A floor block with cards is left out of text unless it is named, and shows the ground.
func TestFloorIsLeftOut(t *testing.T) {
	s := crowded()
	s.Stands.Sections[3].NoCards = false
	s.Cues = s.Cues[1:]
	p := mustMake(t, s)
	checkLedger(t, p)
	for i := p.Stands.Sections[3].First; i < p.Stands.Sections[3].Last; i++ {
		if shows(p, 0, i) != "navy" {
			t.Fatalf("%s shows %q", p.Stands.ID(i), shows(p, 0, i))
		}
	}
	s.Cues[0].On = []string{"F"}
	p = mustMake(t, s)
	checkLedger(t, p)
	if a, f := shows(p, 0, seat(t, p, "A-5-5")), shows(p, 0, seat(t, p, "F-2-2")); a != "navy" || f != "white" {
		t.Errorf("with the floor named A shows %s and F %s", a, f)
	}
}

// A section behind a wall is left out and named.
func TestHiddenSectionIsLeftOut(t *testing.T) {
	s := gullhaven()
	s.Room.Obstacles = []camera.Obstacle{{
		Name: "screen", Kind: "box", Across: 8 * seating.Metre, Away: -2 * seating.Metre,
		Width: 8 * seating.Metre, Depth: seating.Metre / 10, Height: 8 * seating.Metre,
	}}
	s.Cues = []Cue{{ImageName: "halves.png", Image: halves(colour.RGB{0xff, 0xff, 0xff}, colour.RGB{0xf2, 0xb7, 0x05}), Fit: "fill"}}
	p := mustMake(t, s)
	checkLedger(t, p)
	if !slices.ContainsFunc(p.Warnings, func(w string) bool { return strings.Contains(w, "leaves out C (") }) {
		t.Errorf("no warning names section C: %q", p.Warnings)
	}
	if got := shows(p, 0, seat(t, p, "C-6-6")); got != "navy" {
		t.Errorf("C-6-6 shows %s, want the ground", got)
	}
	// Half of what is left is half of the picture.
	if a, b := shows(p, 0, seat(t, p, "A-6-2")), shows(p, 0, seat(t, p, "B-6-11")); a != "white" || b != "gold" {
		t.Errorf("A shows %s and B %s, want white and gold", a, b)
	}
	s.Cues[0].On = []string{"c"}
	p = mustMake(t, s)
	if a := shows(p, 0, seat(t, p, "A-6-2")); a != "navy" {
		t.Errorf("with C named A shows %s", a)
	}
	if !slices.ContainsFunc(p.Warnings, func(w string) bool { return strings.Contains(w, "on section C as asked") }) {
		t.Errorf("no warning that C is hardly seen: %q", p.Warnings)
	}
}

// Every mark is judged, and the cue has the worst mark's reading.
func TestWorstMarkCounts(t *testing.T) {
	s := gullhaven()
	s.Marks = []camera.Mark{{Name: "stage", Across: 9 * seating.Metre, Back: 14 * seating.Metre, Height: 2 * seating.Metre}}
	p := mustMake(t, s)
	checkLedger(t, p)
	if len(p.Marks) != 2 || p.Marks[0].View.Name != "camera" || p.Marks[1].View.Name != "stage" {
		t.Fatalf("%d marks", len(p.Marks))
	}
	if worst := min(p.Marks[0].Scores[0], p.Marks[1].Scores[0]); p.Cues[0].Reading.Score != worst {
		t.Errorf("the reading is %v, the worst mark's %v", p.Cues[0].Reading.Score, worst)
	}
	if p.Cues[0].Reading.Verdict == "" {
		t.Error("no verdict")
	}
}

// Painting over the letters takes the reading away: the judge sees what is shown.
func TestPaintedSeatsAreJudged(t *testing.T) {
	s := gullhaven()
	clean := mustMake(t, s).Cues[0].Reading.Score
	for r := 1; r <= 12; r++ {
		for _, sec := range []string{"A", "B", "C"} {
			s.Cues[0].Painted = append(s.Cues[0].Painted, Paint{Section: sec, Seats: seating.SeatRange{Row: fmt.Sprint(r), From: 1, To: 12}, Colour: "navy"})
		}
	}
	p := mustMake(t, s)
	if got := p.Cues[0].Reading.Score; got > clean/2 {
		t.Errorf("all painted over it scores %v, before %v", got, clean)
	}
	s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 3, To: 4}}}
	if p = mustMake(t, s); shows(p, 0, seat(t, p, "A-1-3")) != "" || shows(p, 0, seat(t, p, "A-1-5")) == "" {
		t.Error("a seat painted without a colour still shows a card")
	}
	s.Cues = []Cue{{Painted: []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 3, To: 4}, Colour: "gold"}}}}
	p = mustMake(t, s)
	checkLedger(t, p)
	if p.Cues[0].Reading.Verdict != legibility.Picture || shows(p, 0, seat(t, p, "A-1-3")) != "gold" || shows(p, 0, seat(t, p, "A-1-5")) != "navy" {
		t.Errorf("painted alone: %q, %s", p.Cues[0].Reading.Verdict, shows(p, 0, seat(t, p, "A-1-3")))
	}
}

// The card is held upright where it would overlap the neighbour's, and as asked where asked.
func TestWayRound(t *testing.T) {
	for _, c := range []struct {
		width, height seating.Length
		orientation   string
		want          [2]seating.Length
		warning       string
	}{
		{22 * seating.Inch, 28 * seating.Inch, "auto", [2]seating.Length{22 * seating.Inch, 28 * seating.Inch}, "overlap"},
		{17 * seating.Inch, 28 * seating.Inch, "auto", [2]seating.Length{17 * seating.Inch, 28 * seating.Inch}, ""},
		{28 * seating.Inch, 17 * seating.Inch, "landscape", [2]seating.Length{28 * seating.Inch, 17 * seating.Inch}, "overlap"},
		{11 * seating.Inch, 17 * seating.Inch / 2, "portrait", [2]seating.Length{17 * seating.Inch / 2, 11 * seating.Inch}, ""},
		{17 * seating.Inch / 2, 11 * seating.Inch, "landscape", [2]seating.Length{11 * seating.Inch, 17 * seating.Inch / 2}, ""},
		{12 * seating.Inch, 12 * seating.Inch, "auto", [2]seating.Length{12 * seating.Inch, 12 * seating.Inch}, ""},
	} {
		s := gullhaven()
		s.Card.Width, s.Card.Height, s.Card.Orientation = c.width, c.height, c.orientation
		s.Cues = []Cue{{ImageName: "halves.png", Image: halves(colour.RGB{}, colour.RGB{255, 255, 255})}}
		p := mustMake(t, s)
		if got := [2]seating.Length{p.Scene.Card.Width, p.Scene.Card.Height}; got != c.want {
			t.Errorf("%v × %v %s is held %v", c.width, c.height, c.orientation, got)
		}
		if got := strings.Contains(strings.Join(p.Warnings, " "), "overlap"); got != (c.warning != "") {
			t.Errorf("%v × %v %s: warnings %q", c.width, c.height, c.orientation, p.Warnings)
		}
	}
	// Left open, the way is taken that shows more of the cards.
	shown := map[string]int64{}
	for _, way := range []string{"landscape", "portrait", "auto"} {
		s := gullhaven()
		s.Card.Orientation = way
		shown[way] = pixelsShown(mustMake(t, s).Marks[0].Sight)
	}
	if best := max(shown["landscape"], shown["portrait"]); shown["auto"]*(100+clearlyMore+1) < best*100 {
		t.Errorf("pixels shown: %v", shown)
	}
}

func TestDefaults(t *testing.T) {
	p := mustMake(t, gullhaven())
	s := p.Stunt
	if s.Card.Held != camera.Eyes || s.Card.Kind != Sheet || s.Card.HandTilt != 8 || s.Card.HandHeight != 4*seating.Centimetre {
		t.Errorf("card %+v", s.Card)
	}
	if s.Camera.Picture != [2]int{3840, 2160} || s.Camera.Name != "camera" || s.Camera.Key != "camera" {
		t.Errorf("camera %+v", s.Camera)
	}
	if c := s.Cues[0]; c.Ground != "navy" || c.Ink != "white" || c.Name != "GLOW" {
		t.Errorf("cue %+v", c)
	}
	if s.Print.Paper != "Letter" || s.Card.Width != 11*seating.Inch || s.Card.Height != 17*seating.Inch/2 {
		t.Errorf("%s, %v × %v", s.Print.Paper, s.Card.Width, s.Card.Height)
	}
	a4 := gullhaven()
	a4.Print.Paper = "A4"
	if c := mustMake(t, a4).Stunt.Card; c.Width != 297*seating.Millimetre || c.Height != 210*seating.Millimetre {
		t.Errorf("A4 gives %v × %v", c.Width, c.Height)
	}
}

func TestMakeRefuses(t *testing.T) {
	image1 := halves(colour.RGB{}, colour.RGB{255, 255, 255})
	for _, c := range []struct {
		name      string
		spoil     func(*Stunt)
		key, what string
		hint      string
	}{
		{"a margin like a desk", func(s *Stunt) { s.Print.Margin = 12 * seating.Centimetre }, "print.margin", "no printer leaves 12cm white", "test.pdf"},
		{"a card like a door", func(s *Stunt) { s.Card.Width, s.Card.Height = 2*seating.Metre, seating.Metre }, "card.size", "larger than anybody can hold", "no side over"},
		{"an endless wave", func(s *Stunt) { s.Cues[0].Transition, s.Cues[0].Takes = LeftToRight, 400*time.Second }, "cue[0].takes", "a wave of 400 s", "at most 60 s"},
		{"painted twice", func(s *Stunt) {
			one := Paint{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 3}, Colour: "gold"}
			s.Cues[0].Painted = []Paint{one, one}
		}, "cue[0].painted[1]", "is painted twice", "once"},
		{"painted over rows", func(s *Stunt) {
			s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1..2", From: 1, To: 3}, Colour: "gold"}}
		}, "cue[0].painted[0]", `has no row "1..2"`, "row by row"},
		{"no cue", func(s *Stunt) { s.Cues = nil }, "cue", "there is no message", "[[cue]]"},
		{"empty cue", func(s *Stunt) { s.Cues[0] = Cue{Name: "dusk"} }, "cue[0]", `cue "dusk" shows nothing`, "text"},
		{"blank text", func(s *Stunt) { s.Cues[0].Text = " \n " }, "cue[0].text", "the text is empty", ""},
		{"endless text", func(s *Stunt) { s.Cues[0].Text = strings.Repeat("O", 201) }, "cue[0].text", "more than 200 letters", ""},
		{"text and image", func(s *Stunt) { s.Cues[0].Image = image1 }, "cue[0].image", "not both", "two cues"},
		{"no colours", func(s *Stunt) { s.Colours = nil }, "colour", "there are no card colours", "[[colour]]"},
		{"one colour", func(s *Stunt) { s.Colours = s.Colours[:1] }, "cue[0].ink", "no second colour", "shirts"},
		{"colour twice", func(s *Stunt) { s.Colours[2].Name = "Navy" }, "colour[2].name", `colour "Navy" is there twice`, ""},
		{"colour without name", func(s *Stunt) { s.Colours[2].Name = " " }, "colour[2].name", "a colour has no name", ""},
		{"colour called shirts", func(s *Stunt) { s.Colours[2].Name = "Shirts" }, "colour[2].name", "cannot be called", ""},
		{"unknown ink", func(s *Stunt) { s.Cues[0].Ink = "whit" }, "cue[0].ink", `there is no colour "whit"`, `did you mean "white"?`},
		{"unknown ground", func(s *Stunt) { s.Cues[0].Ground = "purple" }, "cue[0].ground", `there is no colour "purple"`, "shirts, navy, white, gold"},
		{"ink is ground", func(s *Stunt) { s.Cues[0].Ink = "navy" }, "cue[0].ink", "letters and ground are both navy", ""},
		{"unknown fit", func(s *Stunt) { s.Cues[0].Fit = "flatt" }, "cue[0].fit", `there is no fit "flatt"`, `"flat"`},
		{"unknown section", func(s *Stunt) { s.Cues[0].On = []string{"A", "D1"} }, "cue[0].on[1]", `there is no section "D1"`, "A, B, C"},
		{"section without cards", func(s *Stunt) { *s = *crowded(); s.Cues[0].On = []string{"F"} }, "cue[0].on[0]", "nobody in section F holds a card", ""},
		{"nobody holds cards", func(s *Stunt) {
			for i := range s.Stands.Sections {
				s.Stands.Sections[i].NoCards = true
			}
		}, "section", "nobody in these stands holds a card", ""},
		{"text too long", func(s *Stunt) { s.Cues[0].Text = "CELEBRATIONS IN GULLHAVEN TONIGHT" }, "cue[0].text", "not fit", ""},
		{"sign of no face", func(s *Stunt) { s.Cues[0].Text = "AB☃" }, "cue[0].text", "☃", ""},
		{"empty image", func(s *Stunt) { s.Cues[0] = Cue{ImageName: "none.png"} }, "cue[0].image", "none.png is empty", "copy the file again"},
		{"broken image", func(s *Stunt) { s.Cues[0] = Cue{ImageName: "half.png", Image: image1[:60]} }, "cue[0].image", "half.png is damaged or cut short", "PNG"},
		{"painted nowhere", func(s *Stunt) {
			s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "3", From: 2, To: 13}, Colour: "gold"}}
		}, "cue[0].painted[0]", "there is no seat A-3-13", "A-3-12"},
		{"painted in no row", func(s *Stunt) {
			s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "33", From: 2, To: 3}}}
		}, "cue[0].painted[0]", `no row "33"`, ""},
		{"painted in no colour", func(s *Stunt) {
			s.Cues[0].Painted = []Paint{{Section: "A", Seats: seating.SeatRange{Row: "3", From: 2, To: 3}, Colour: "gelb"}}
		}, "cue[0].painted[0].colour", `there is no colour "gelb"`, ""},
		{"painted without cards", func(s *Stunt) {
			*s = *crowded()
			s.Cues[0].Painted = []Paint{{Section: "F", Seats: seating.SeatRange{Row: "1", From: 2, To: 3}, Colour: "gold"}}
		}, "cue[0].painted[0]", "nobody on F-1-2 to F-1-3 holds a card", ""},
		{"camera inside", func(s *Stunt) { s.Camera.Back = -2 * seating.Metre; s.Camera.Height = seating.Metre }, "camera", "inside", ""},
		{"mark inside", func(s *Stunt) { s.Marks = []camera.Mark{{Back: -2 * seating.Metre, Height: seating.Metre}} }, "mark[0]", "inside", ""},
		{"marks of one name", func(s *Stunt) {
			s.Marks = []camera.Mark{{Name: "x", Back: 9 * seating.Metre}, {Name: "x", Back: 8 * seating.Metre}}
		}, "mark[1].name", "two marks", ""},
		{"no seats", func(s *Stunt) { s.Stands.Sections = nil }, "stands", "there are no sections", ""},
		{"section twice", func(s *Stunt) { s.Stands.Sections[2].Name = "A" }, "section[2]", "", ""},
		{"no card size", func(s *Stunt) { s.Card.Width = seating.Inch }, "card.size", "no size", ""},
		{"unknown kind", func(s *Stunt) { s.Card.Kind = "sheets" }, "card.kind", `"sheets"`, `"sheet"`},
		{"unknown orientation", func(s *Stunt) { s.Card.Orientation = "lanscape" }, "card.orientation", `"lanscape"`, `"landscape"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := gullhaven()
			c.spoil(s)
			p, err := Make(s)
			var f *seating.Fault
			if p != nil || !errors.As(err, &f) {
				t.Fatalf("made %v, error %v", p != nil, err)
			}
			if f.Key != c.key && !strings.HasPrefix(f.Key, c.key) || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) {
				t.Errorf("key %q, what %q, hint %q", f.Key, f.What, f.Hint)
			}
			if strings.ContainsAny(f.Error(), "\n") || f.What == "" || strings.HasSuffix(f.What, ".") {
				t.Errorf("not one plain line: %q", f.Error())
			}
		})
	}
}

// Different names give different ids of plain signs.
func TestColourIDs(t *testing.T) {
	var colours []Colour
	for _, n := range []string{"navy", "Navy blue", "navy-blue", "größe", "é", "e\u0301", "青", "赤", "navy blue 2", "  x  ", "Ώχρα", "тёмно-синий",
		"Đỏ đậm", "★ ★", "x", "ﬁ", "FI", "हरा", "con", strings.Repeat("лайм ", 40), strings.Repeat("лайм ", 41)} {
		colours = append(colours, Colour{Name: n})
	}
	// Capitals are those of Unicode's SpecialCasing.txt (SEEN-2nd): ß is SS, ﬁ is FI; ideographs have none.
	want := []string{"NAVY", "NAVY-BLUE", "NAVY-BLUE-2", "GRÖSSE", "É", "É-2", "青", "赤", "NAVY-BLUE-2-2", "X", "ΏΧΡΑ", "ТЁМНО-СИНИЙ",
		"ĐỎ-ĐẬM", "COLOUR-14", "X-2", "FI", "FI-2", "हरा", "CON", "ЛАЙМ-ЛАЙМ-ЛАЙМ-ЛАЙМ-ЛАЙМ", "ЛАЙМ-ЛАЙМ-ЛАЙМ-ЛАЙМ-ЛАЙМ-2"}
	got := ColourIDs(colours)
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	// What Windows, macOS and Linux forbid in a file name, and that they hold two names for one (Microsoft, "Naming Files,
	// Paths, and Namespaces"; MEMORY): 255 bytes at most on ext4.
	seen := map[string]bool{}
	for _, id := range got {
		name := "placards-" + seating.FileName(id) + "-12.pdf"
		key := strings.ToLower(norm.NFD.String(name))
		if strings.ContainsAny(name, "<>:\"/\\|?* ") || len(name) > 255 || seen[key] {
			t.Errorf("%q is no file name of its own", name)
		}
		seen[key] = true
	}
}

// The smallest bands of whole rows that hold all, at most 60 people each, of like size.
func TestBands(t *testing.T) {
	for _, c := range []struct {
		rows []int
		want []int
	}{
		{[]int{12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12}, []int{48, 48, 48}},
		{[]int{60, 60}, []int{60, 60}},
		{[]int{30, 31}, []int{30, 31}},
		{[]int{20, 20, 20}, []int{60}},
		{[]int{80, 10}, []int{80, 10}},
		{[]int{5}, []int{5}},
		{[]int{0, 12, 0}, []int{12}},
	} {
		spec := bleachers("A")
		spec.Rows, spec.Seats = len(c.rows), make([]int, len(c.rows))
		for r, n := range c.rows {
			spec.Seats[r] = max(n, 1)
			if n == 0 {
				spec.Missing = append(spec.Missing, seating.SeatRange{Row: fmt.Sprint(r + 1), From: 1, To: 1})
			}
		}
		stands, err := seating.Build(seating.Spec{Sections: []seating.SectionSpec{spec}})
		if err != nil {
			t.Fatal(err)
		}
		var got []int
		last := ""
		for _, b := range blocks(stands) {
			if b != last {
				got, last = append(got, 0), b
			}
			got[len(got)-1]++
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("rows of %v: %s", c.rows, d)
		}
	}
}

// A tenth, and at least five, of each colour in each section.
func TestSpares(t *testing.T) {
	s := gullhaven()
	s.Cues = []Cue{{Painted: []Paint{{Section: "A", Seats: seating.SeatRange{Row: "1", From: 1, To: 3}, Colour: "gold"}}}}
	p := mustMake(t, s)
	// 141, 144 and 144 navy: 14.1, 14.4 and 14.4 upwards.
	want := []stock.Line{
		{Colour: 0, Cards: 432 - 3, Spares: 15 + 15 + 15, Packs: 432 - 3 + 45},
		{Colour: 2, Cards: 3, Spares: 5, Packs: 8},
	}
	if d := cmp.Diff(want, p.Bill.Lines); d != "" {
		t.Error(d)
	}
	s.Cues = append(s.Cues, s.Cues[0])
	if d := cmp.Diff(want, mustMake(t, s).Bill.Lines); d != "" {
		t.Errorf("the same cue twice needs no more cards: %s", d)
	}
}

func TestPaleLettersAreWarnedAbout(t *testing.T) {
	s := gullhaven()
	s.Colours[0].RGB = colour.RGB{0xa0, 0xa0, 0xa0} // by WCAG's formula 1.05 / (0.3515 + 0.05) against white
	if w := strings.Join(mustMake(t, s).Warnings, " "); !strings.Contains(w, "white on navy has a contrast of 2.6 to 1") {
		t.Errorf("warnings %q", w)
	}
}

// A letter that the film has no pixels for reads from nowhere, however well it is laid.
func TestTooSmallForTheFilm(t *testing.T) {
	from := func(back seating.Length) legibility.Reading {
		s := gullhaven()
		s.Camera.Back = back
		s.Cues = []Cue{{Text: "HI", Ink: s.Colours[1].Name, Ground: s.Colours[0].Name}}
		return mustMake(t, s).Cues[0].Reading
	}
	if near := from(18 * seating.Metre); near.Score < 0.3 {
		t.Errorf("from near it scores %v", near.Score)
	}
	far := from(3000 * seating.Metre)
	if far.Score != 0 || far.Verdict != legibility.DoesNotRead || !strings.Contains(far.Letters[0].Why, "pixels") {
		t.Errorf("from 3 km: %+v", far)
	}
}

// A height that nobody gave is said, for the camera and for every mark.
func TestHeightTakenIsSaid(t *testing.T) {
	s := gullhaven()
	s.Marks = []camera.Mark{{Name: "opposite", Back: 20 * seating.Metre}}
	s.Camera.Height = 0
	all := strings.Join(mustMake(t, s).Warnings, "\n")
	for _, want := range []string{"The height of the camera is not given: 1.60 m", "height = … under [camera]", "The height of mark \"opposite\" is not given: 1.60 m", "under [[mark]]"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %q", want, all)
		}
	}
	if all := strings.Join(mustMake(t, gullhaven()).Warnings, "\n"); strings.Contains(all, "height") {
		t.Errorf("the height is given, and yet %q", all)
	}
}
