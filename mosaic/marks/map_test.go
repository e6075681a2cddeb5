package marks

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"reflect"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// blank shows no text: scores are then what is seen, which geometry alone decides.
func blank() *mosaic.Stunt {
	s := fair("")
	s.Cues = []mosaic.Cue{{Name: "all cream", Ground: "HARBOUR", Painted: []mosaic.Paint{{Section: "B", Seats: seating.SeatRange{Row: "1", From: 1, To: 10}, Colour: "CREAM"}}}}
	return s
}

// Stands that are alike on both sides, with the camera in the middle, look alike from both sides.
func TestSymmetricStandsGiveASymmetricMap(t *testing.T) {
	mp := mapped(t, blank(), Options{Places: 16})
	if mp.Spells {
		t.Fatal("a painted cue spells")
	}
	p := &mp.Patches[0]
	seen, off := 0, 0.0
	for i, f := range p.Fixed {
		mirror := p.Fixed[i/p.Cols*p.Cols+p.Cols-1-i%p.Cols]
		if (f == Unknown) != (mirror == Unknown) {
			t.Fatalf("place %d is known on one side only", i)
		}
		if f == Unknown {
			continue
		}
		off = max(off, math.Abs(f-mirror))
		if f > 0.5 {
			seen++
		}
	}
	if off > 0.01 {
		t.Errorf("the two sides differ by %g", off)
	}
	if seen < len(p.Fixed)/4 {
		t.Errorf("from only %d of %d places half of the cards is seen", seen, len(p.Fixed))
	}
	if d := mp.Stray.Left.Distance - mp.Stray.Right.Distance; abs(d) > strayStep {
		t.Errorf("it may stray %v to the left and %v to the right", mp.Stray.Left.Distance, mp.Stray.Right.Distance)
	}
	// A camera that stands aside sees the stands unevenly: the check above can fail.
	s := blank()
	s.Stands.Sections[2].NoCards = true
	p = &mapped(t, s, Options{Places: 16}).Patches[0]
	off = 0
	for i, f := range p.Fixed {
		off = max(off, math.Abs(f-p.Fixed[i/p.Cols*p.Cols+p.Cols-1-i%p.Cols]))
	}
	if off < 0.02 {
		t.Errorf("uneven stands look alike from both sides, but for %g", off)
	}
}

// The plan as it is, looked at anew from its own mark, has the plan's own score.
func TestOwnMarkHasThePlansScore(t *testing.T) {
	for _, word := range []string{"HI", "LAMP"} {
		p := planned(t, fair(word))
		own := placeOf(&p.Stunt.Camera)
		v, err := camera.NewView(markAt(p, own), p.Scene)
		if err != nil {
			t.Fatal(err)
		}
		got := p.Elsewhere().Read(mosaic.Mark{View: v, Sight: p.Scene.See(v)})[0]
		if want := p.Cues[0].Reading; math.Abs(got.Score-want.Score) > 1e-3 || got.Verdict != want.Verdict || len(got.Letters) != len(want.Letters) {
			t.Errorf("%s: %.4f (%s) from its own mark, the plan says %.4f (%s)", word, got.Score, got.Verdict, want.Score, want.Verdict)
		}
		s := newSearch(p, &room{plan: p}, Options{})
		mp := &Map{Plan: p, Spells: true}
		s.here(mp)
		if math.Abs(mp.Here.Fixed-p.Marks[0].Scores[0]) > 5e-4 {
			t.Errorf("%s: the map says %g, the plan %g", word, mp.Here.Fixed, p.Marks[0].Scores[0])
		}
	}
}

// Shares taken from glimpses around a place give the score of a careful look.
func TestGlimpsesAgreeWithLooks(t *testing.T) {
	for name, s := range map[string]*mosaic.Stunt{"three sections": fair("HI"), "behind posts": posts()} {
		p := planned(t, s)
		r := newRoom(p)
		sr := newSearch(p, r, Options{})
		patches, err := sr.patches()
		if err != nil {
			t.Fatal(err)
		}
		q := &patches[0]
		l := sr.glimpses(q)
		var sum, worst float64
		n := 0
		for i := 3; i < len(q.Fixed); i += 37 {
			at := q.At(i%q.Cols, i/q.Cols)
			quick, ok := sr.lookAt(q, l, i)
			if !ok {
				continue
			}
			_, v, err := sr.view(at)
			if err != nil {
				t.Fatal(err)
			}
			careful := mosaic.Mark{View: v, Sight: p.Scene.See(v)}
			d := math.Abs(sr.score(quick) - sr.score(careful))
			sum, worst, n = sum+d, max(worst, d), n+1
		}
		t.Logf("%s: %d places, scores differ by %.4f in the mean and %.4f at most", name, n, sum/float64(n), worst)
		if n < 30 || sum/float64(n) > 0.01 || worst > 0.08 {
			t.Errorf("%s: %d places, scores differ by %.4f in the mean and %.4f at most", name, n, sum/float64(n), worst)
		}
	}
}

// posts is the fair with two posts before the stands, which hide other seats from every place.
func posts() *mosaic.Stunt {
	s := fair("HI")
	for _, across := range []seating.Length{-3 * m, 4 * m} {
		s.Room.Obstacles = append(s.Room.Obstacles, camera.Obstacle{
			Name: fmt.Sprintf("POST %v", across), Kind: "post", Across: across, Away: -2 * m,
			Width: 30 * seating.Centimetre, Depth: 30 * seating.Centimetre, Height: 6 * m,
		})
	}
	return s
}

// Places that are not looked at since all around them is lost are lost indeed.
func TestPlacesAmongTheLostAreLost(t *testing.T) {
	p := planned(t, fair("LAMP"))
	r := newRoom(p)
	s := newSearch(p, r, Options{Places: 24})
	patches, err := s.patches()
	if err != nil {
		t.Fatal(err)
	}
	q := &patches[0]
	l := s.glimpses(q)
	s.scoreAll(q, l)
	tried := 0
	for i := range q.Fixed {
		col, row := i%q.Cols, i/q.Cols
		if _, ok := q.lostAround(col, row); !ok || (col+row)%2 == 0 || i%5 != 0 {
			continue
		}
		mark, ok := s.lookAt(q, l, i)
		if !ok {
			t.Fatalf("no camera can be at %v, which has a score", q.At(col, row))
		}
		tried++
		if got := s.score(mark); math.Abs(got-q.Fixed[i]) > 2*alike {
			t.Errorf("%v has %.3f among the lost, and was given %.3f", q.At(col, row), got, q.Fixed[i])
		}
	}
	if tried < 10 {
		t.Errorf("only %d places were among the lost", tried)
	}
}

// Where half of a text is unseen and it is not judged, judging it would not call it readable.
func TestHopelessPlacesDoNotRead(t *testing.T) {
	p := planned(t, fair("HI"))
	e := p.Elsewhere()
	_, fails := legibility.Thresholds()
	tried := 0
	for _, at := range []Place{{0, 2 * m, 3 * m}, {-6 * m, 3 * m, 3 * m}, {6 * m, 3 * m, 3 * m}, {-12 * m, 6 * m, 3 * m}, {0, 3 * m, 2 * m}} {
		v, err := camera.NewView(markAt(p, at), p.Scene)
		if err != nil {
			t.Fatal(err)
		}
		mark := mosaic.Mark{View: v, Sight: p.Scene.See(v)}
		if e.Score(mark) > 0 {
			continue
		}
		tried++
		if got := e.Read(mark)[0]; got.Score >= fails {
			t.Errorf("%v: not judged, though it has %.2f", at, got.Score)
		}
	}
	if tried < 2 {
		t.Errorf("only %d places were hopeless", tried)
	}
}

// lenses are focal lengths on full frame and the width of their frame at 50 m, by width = d·Z/f:
// testdata/reference/fov.csv (COMPUTED; sensor sizes SEEN).
func lenses(t *testing.T) map[float64]float64 {
	t.Helper()
	f, err := os.Open("../../testdata/reference/fov.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[float64]float64{}
	for _, row := range rows[1:] {
		if !strings.HasPrefix(row[0], "Full frame") {
			continue
		}
		focal, err1 := strconv.ParseFloat(row[1], 64)
		width, err2 := strconv.ParseFloat(row[5], 64)
		if err1 != nil || err2 != nil {
			t.Fatal(row)
		}
		out[focal] = width
	}
	return out
}

// A single straight row at the lens's own height, which the table alone says how far away to film.
func TestMarkForALensAgainstTheTable(t *testing.T) {
	s := fair("")
	s.Cues = blank().Cues
	s.Cues[0].Painted[0].Section = "A"
	s.Stands.Sections = s.Stands.Sections[:1]
	s.Stands.Sections[0].Rows, s.Stands.Sections[0].Seats = 1, []int{24}
	s.Cues[0].Painted[0].Seats.To = 24
	p := planned(t, s)
	first, _ := p.Scene.CardQuad(0)
	last, _ := p.Scene.CardQuad(23)
	long, plane := last[1][0]-first[0][0], first[0][1]
	height := (first[0][2] + first[3][2]) / 2
	sr := newSearch(p, &room{plan: p, extent: standsExtent(p.Stands)}, Options{})
	tested := 0
	for focal, width := range lenses(t) {
		want := long/roomy*50/width + -plane // before the cards, which are that far before the front edge
		got := sr.fitsFrom(camera.Lens{SensorWidth: camera.FullFrame, SensorHeight: 24, Focal: focal}, 0, length(height)).Metres()
		if got < want-0.005 || got > want+0.055 {
			t.Errorf("%g mm: all cards from %.3f m, the table says %.3f", focal, got, want)
		}
		tested++
	}
	if tested != 5 {
		t.Errorf("%d lenses", tested)
	}
}

// The longest lens for a mark: from where this lens just fits, it is this lens itself.
func TestLensForAMark(t *testing.T) {
	p := planned(t, fair("HI"))
	r := newRoom(p)
	s := newSearch(p, r, Options{})
	stunt := *p.Stunt
	stunt.Camera.Back = s.fits
	q := planned(t, &stunt)
	l := newSearch(q, r, Options{}).lens(&Map{Plan: q})
	if l.Longest < l.Now || l.Longest > l.Now*1.01 || l.Fill > roomy || l.Fill < roomy*0.99 {
		t.Errorf("at %v, where all cards just fit, the lens is %.2f mm, the longest %.2f, and the frame is filled to %.3f", s.fits, l.Now, l.Longest, l.Fill)
	}
	// 65 degrees wide, as 2·atan(36 / 2f) = 65°: f = 28.25 mm (MEMORY, the formula of fov.csv).
	if math.Abs(l.Now-28.25) > 0.01 {
		t.Errorf("65 degrees are %.3f mm", l.Now)
	}
}

func TestSameMapOnOneProcessor(t *testing.T) {
	p := planned(t, fair("HI"))
	search := func() *Map {
		mp, err := Search(p, Options{Places: 6, Heights: []seating.Length{3 * m}})
		if err != nil {
			t.Fatal(err)
		}
		return mp
	}
	many := search()
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	one := search()
	if !reflect.DeepEqual(many.Patches, one.Patches) || many.Best != one.Best || many.Stray != one.Stray || !reflect.DeepEqual(many.Sentences(), one.Sentences()) {
		t.Error("the map depends on how many processors there are")
	}
}

func TestMapsOfAllHeights(t *testing.T) {
	s := fair("HI")
	s.Camera.Height = 2 * m
	done, of := 0, 0
	mp := mapped(t, s, Options{Places: 8, Progress: func(d, o int) {
		if d < done || o < d {
			t.Errorf("%d of %d done after %d", d, o, done)
		}
		done, of = d, o
	}})
	if done != of || of == 0 {
		t.Errorf("%d of %d done", done, of)
	}
	var heights []seating.Length
	for i := range mp.Patches {
		p := &mp.Patches[i]
		heights = append(heights, p.Height)
		anew, even := 0, 0
		for k := range p.Anew {
			if p.Anew[k] != Unknown {
				anew++
			}
			if p.Even(k) {
				even++
			}
		}
		want := usualAnew
		if i > 0 {
			want = usualAnew / coarserBy
		}
		if even != want*want || anew < even/2 || anew > even+32 {
			t.Errorf("at %v %d places of an even %d were planned anew", p.Height, anew, even)
		}
		if cols := 8 / (1 + min(i, 1)); p.Cols != cols || p.Rows != cols {
			t.Errorf("at %v the map has %d × %d places", p.Height, p.Cols, p.Rows)
		}
	}
	if !reflect.DeepEqual(heights, []seating.Length{2 * m, handHeight, highHeight}) {
		t.Errorf("heights %v", heights)
	}
	if mp.BestPlan != nil && mp.Best.Anew < mp.Here.Anew+worthMoving {
		t.Errorf("the cross moves from %g to %g", mp.Here.Anew, mp.Best.Anew)
	}
}

func TestWalk(t *testing.T) {
	s := fair("HI")
	s.Camera = camera.Mark{Across: -6 * m, Back: 14 * m, Height: 2 * m}
	s.Marks = []camera.Mark{{Name: "gate", Across: -6 * m, Back: 20 * m, Height: 2 * m}, {Name: "end", Across: 2 * m, Back: 26 * m, Height: 3 * m}}
	mp := mapped(t, s, Options{Places: 4, Walk: true, Heights: []seating.Length{2 * m}})
	w := mp.Walk
	// 6 m straight back, then 8 and 6 m at a right angle, which is 10 m.
	if w.Whole != 16*m {
		t.Errorf("the way is %v long", w.Whole)
	}
	if n := len(w.Steps); n != 1+12+20 {
		t.Errorf("%d steps", n)
	}
	if at := w.Steps[12]; at.Place != (Place{-6 * m, 20 * m, 2 * m}) || at.Gone != 6*m {
		t.Errorf("the gate is at %v after %v", at.Place, at.Gone)
	}
	if at := w.Steps[22]; at.Place != (Place{-2 * m, 23 * m, 250 * seating.Centimetre}) || at.Gone != 11*m {
		t.Errorf("half-way to the end is at %v after %v", at.Place, at.Gone)
	}
	for _, st := range w.Steps {
		reads := mp.Verdict(st.Fixed) == legibility.Reads
		if w.Whole-st.Gone <= w.From && w.From > 0 && !reads {
			t.Errorf("%v before the end it does not read", w.Whole-st.Gone)
		}
	}
	if !w.Ends() && w.EndAnew == Unknown {
		t.Error("it does not read along the last part, and nobody planned for the end")
	}
	for _, c := range []struct {
		from, whole seating.Length
		want        bool
	}{{0, 9 * m, false}, {2 * m, 9 * m, false}, {3 * m, 9 * m, true}, {9 * m, 9 * m, true}} {
		if got := (&Walk{From: c.from, Whole: c.whole}).Ends(); got != c.want {
			t.Errorf("%v of %v: %v", c.from, c.whole, got)
		}
	}
	s.Marks = nil
	if _, err := Search(planned(t, s), Options{Places: 4, Walk: true, Heights: []seating.Length{2 * m}}); err == nil || !strings.Contains(err.Error(), "one mark alone") {
		t.Errorf("a walk of one mark: %v", err)
	}
}

// A walk from one side to the other: a plan for its beginning does not read at its
// end; planned for the end it does, and how far before it too is what that plan is read from there.
func TestWalkIsPlannedForItsEnd(t *testing.T) {
	s := fair("A")
	s.Camera = camera.Mark{Across: -12 * m, Back: 18 * m, Height: 3 * m}
	s.Marks = []camera.Mark{{Name: "end", Across: 12 * m, Back: 18 * m, Height: 3 * m}}
	mp := mapped(t, s, Options{Places: 2, Walk: true, Heights: []seating.Length{3 * m}})
	w := mp.Walk
	if w.Ends() {
		t.Fatalf("planned for both ends it reads along the last %v: put them farther apart", w.From)
	}
	one := *s
	one.Camera, one.Marks = camera.Mark{Across: 12 * m, Back: 18 * m, Height: 3 * m}, nil
	p := planned(t, &one)
	if want := thousandth(p.Cues[0].Reading.Score); w.EndAnew != want {
		t.Errorf("planned for the end %g, a plan made there %g", w.EndAnew, want)
	}
	if mp.Verdict(w.EndAnew) != legibility.Reads || w.FromAnew >= w.Whole {
		t.Errorf("planned for the end: %g there, along the last %v of %v", w.EndAnew, w.FromAnew, w.Whole)
	}
	if said := mp.sayWalk(); !strings.Contains(said, "Planned for its end alone it reads") || !strings.Contains(said, "make that place the [camera]") {
		t.Errorf("%q", said)
	}
}

func TestWarnsOfALensThatSeesOneSection(t *testing.T) {
	s := fair("I")
	s.Camera.Lens = camera.Lens{FieldOfView: 12}
	mp := mapped(t, s, Options{Places: 4, Heights: []seating.Length{3 * m}})
	if len(mp.Warnings) != 1 || !strings.Contains(mp.Warnings[0], "sees section B only, and not A and C") || !strings.Contains(mp.Warnings[0], "put the mark") {
		t.Errorf("%q", mp.Warnings)
	}
	if mp = mapped(t, fair("I"), Options{Places: 4, Heights: []seating.Length{3 * m}}); len(mp.Warnings) != 0 {
		t.Errorf("a lens that sees all: %q", mp.Warnings)
	}
}

func TestWarnsOfAMarkThatNoPlanServes(t *testing.T) {
	s := fair("LAMP")
	s.Marks = []camera.Mark{{Name: "side door", Across: 16 * m, Back: 2 * m, Height: 160 * seating.Centimetre}}
	mp := mapped(t, s, Options{Places: 4, Heights: []seating.Length{3 * m}})
	if len(mp.Warnings) != 1 || !strings.Contains(mp.Warnings[0], "side door") {
		t.Errorf("%q", mp.Warnings)
	}
}

// Two marks on both sides: planned for each alone it reads, for both it cannot, and the place that is
// named instead goes with the camera's.
func TestWarnsOfMarksThatContradict(t *testing.T) {
	found := 0
	for _, at := range [][2]seating.Length{{10 * m, 20 * m}, {9 * m, 14 * m}, {8 * m, 14 * m}, {12 * m, 18 * m}} {
		s := fair("A")
		s.Camera = camera.Mark{Across: -at[0], Back: at[1], Height: 3 * m}
		s.Marks = []camera.Mark{{Name: "right door", Across: at[0], Back: at[1], Height: 3 * m}}
		p := planned(t, s)
		for _, c := range Cautions(p) {
			if c.Key != "mark[0]" {
				t.Errorf("%+v", c)
			}
			if strings.HasPrefix(c.Text, "The marks camera and right door contradict each other: planned for each alone the text reads, planned for both it reads from ") {
				found++
				contradicts(t, s, p, c.Text)
			}
		}
	}
	if found == 0 {
		t.Error("no two marks contradict: choose others")
	}
}

// contradicts checks what is said of two marks by planning for them.
func contradicts(t *testing.T, s *mosaic.Stunt, p *mosaic.Plan, text string) {
	t.Helper()
	for _, mark := range []camera.Mark{s.Camera, s.Marks[0]} {
		alone := *s
		alone.Camera, alone.Marks = mark, nil
		if v := planned(t, &alone).Cues[0].Reading.Verdict; v == legibility.DoesNotRead {
			t.Errorf("from %v to the right alone it %s", mark.Across, v)
		}
	}
	if v := p.Cues[0].Reading.Verdict; v == legibility.Reads {
		t.Errorf("from both it %s", v)
	}
	words := regexp.MustCompile(`is ([0-9.]+) m \([^)]*\) back, ([0-9.]+) m \([^)]*\) to the left, lens ([0-9.]+) m`).FindStringSubmatch(text)
	if words == nil {
		return // there is none, or it is in the middle
	}
	nearer := camera.Mark{Name: "nearer"}
	for i, to := range []*seating.Length{&nearer.Back, &nearer.Across, &nearer.Height} {
		l, err := seating.ParseLength(words[i+1] + " m")
		if err != nil {
			t.Fatal(err)
		}
		*to = l
	}
	nearer.Across *= -1
	both := *s
	both.Marks = []camera.Mark{nearer}
	if v := planned(t, &both).Cues[0].Reading.Verdict; v == legibility.DoesNotRead {
		t.Errorf("with the place that is named instead it %s", v)
	}
}

func TestAdviceForAMarkThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		at   camera.Mark
		says string
	}{
		"behind": {camera.Mark{Back: -20 * m, Height: 2 * m}, "no card's front is before the lens"},
		"inside": {camera.Mark{Back: -3 * m, Height: 2 * m}, "inside the stands"},
		"under":  {camera.Mark{Back: -5 * m, Height: 60 * seating.Centimetre}, "inside the stands"},
	} {
		s := fair("HI")
		s.Camera = c.at
		_, err := mosaic.Make(s)
		f, ok := Advise(s, err).(*seating.Fault)
		if !ok || !strings.Contains(f.What, c.says) || !strings.Contains(f.Hint, "from back = ") {
			t.Errorf("%s: %v", name, f)
			continue
		}
		// What is advised works.
		back, _, _ := strings.Cut(strings.SplitAfter(f.Hint, `back = "`)[1], `"`)
		l, err := seating.ParseLength(back)
		if err != nil {
			t.Fatal(err)
		}
		s.Camera.Back = l
		p := planned(t, s)
		if out := camera.Outside(p.Scene, p.Marks[0].View, p.Marks[0].Sight); len(out) > 0 {
			t.Errorf("%s: from back = %v %v", name, l, out)
		}
	}
	if err := Advise(fair("HI"), os.ErrNotExist); err != os.ErrNotExist {
		t.Errorf("another error became %v", err)
	}
}

// Who looks the cross up on the map, in either half, finds the plan's own score; and what is planned anew for
// a place is what a plan gets whose camera stands there.
func TestTheMapSaysWhatThePlanSays(t *testing.T) {
	for _, c := range []struct {
		word   string
		across seating.Length
	}{{"SEA", 0}, {"HI", 4 * m}} {
		s := fair(c.word)
		s.Camera.Across = c.across
		p := planned(t, s)
		mp := mapped(t, s, Options{Heights: []seating.Length{s.Camera.Height}, Places: 16})
		want := thousandth(p.Cues[0].Reading.Score)
		patch := &mp.Patches[0]
		at, ok := patch.cell(placeOf(&s.Camera))
		if !ok || patch.Fixed[at] != want || patch.Anew[at] != want || mp.Here.Fixed != want || mp.Here.Anew != want {
			t.Errorf("%s: the plan has %.3f, the map at the cross %.3f as it is and %.3f anew, in words %.3f and %.3f", c.word, want, patch.Fixed[at], patch.Anew[at], mp.Here.Fixed, mp.Here.Anew)
		}
		near := patch.At(at%patch.Cols, at/patch.Cols)
		if d := near.Across - s.Camera.Across; 2*abs(d) > (patch.Right-patch.Left)/16+seating.Centimetre {
			t.Errorf("%s: the cross is %v beside the middle of its place", c.word, d)
		}
		compared := 0
		for i := 5; i < len(patch.Anew) && compared < 6; i += 3 {
			if i == at || patch.Anew[i] == Unknown {
				continue
			}
			moved := *s
			moved.Camera = markAt(p, patch.At(i%patch.Cols, i/patch.Cols))
			there, err := mosaic.Make(&moved)
			if err != nil {
				continue
			}
			compared++
			if got := there.Cues[0].Reading.Score; math.Abs(got-patch.Anew[i]) > 5e-4 {
				t.Errorf("%s: planned anew %s the map has %.3f, a plan made for it %.3f", c.word, patch.At(i%patch.Cols, i/patch.Cols).Words(), patch.Anew[i], got)
			}
		}
		if compared < 4 {
			t.Errorf("%s: only %d places compared", c.word, compared)
		}
	}
}

// With several marks or texts the map says which of their scores it shows.
func TestTheMapNamesWhatItsScoreIsOf(t *testing.T) {
	s := fair("SEA")
	s.Cues = append(s.Cues, mosaic.Cue{Text: "HI", Ink: "CREAM", Ground: "HARBOUR"})
	s.Marks = append(s.Marks, camera.Mark{Name: "quay", Across: 12 * m, Back: 30 * m, Height: 2 * m})
	p := planned(t, s)
	sr := newSearch(p, &room{plan: p}, Options{})
	mp := &Map{Plan: p, Spells: true}
	sr.here(mp)
	worst := math.Min(p.Cues[0].Reading.Score, p.Cues[1].Reading.Score)
	if mp.Here.Fixed-worst < 0.02 {
		t.Fatalf("the camera's %.3f is no better than the worst mark's %.3f: it says nothing here", mp.Here.Fixed, worst)
	}
	got := mp.sayHere()
	for _, want := range []string{", the least of its 2 texts)", fmt.Sprintf("From the worst of the 2 marks it has %.0f of 100", 100*worst)} {
		if !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
}
