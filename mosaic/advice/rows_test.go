package advice

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// boarded is two sections of which a board, as boat builders lean against their stands, hides the front
// rows of the left one; the camera has one place, a jetty.
const boarded = `version = 1
title = "Lantern Fair of Gullhaven"
[[section]]
name = "A"
rows = 14
seats = 16
pitch = "20in"
rise = "10in"
run = "24in"
seat_board = "17in"
aisle = "4 ft"
[[section]]
name = "B"
rows = 14
seats = 17
pitch = "20in"
rise = "10in"
run = "24in"
seat_board = "17in"
[room]
obstacle = [{ name = "board", kind = "box", across = "-5 m", away = "-1 m", width = "9 m", depth = "10 cm", height = "2.2 m" }]
[[room.camera]]
name = "jetty"
left = "-1 m"
right = "1 m"
near = "-17 m"
far = "-15 m"
heights = ["2.5 m"]
[camera]
back = "16 m"
height = "2.5 m"
picture = [1920, 1080]
[card]
size = "11in x 8.5in"
held = "eyes"
[[colour]]
name = "HARBOUR"
hex = "#16294d"
[[colour]]
name = "CREAM"
hex = "#fbf1d8"
[[cue]]
text = "FOG"
`

// lowDown is a floor block before one section, and a camera that sees the floor at a grazing angle; the text
// was asked for on both.
const lowDown = `version = 1
title = "Lantern Fair of Gullhaven"
[[section]]
name = "A"
rows = 10
seats = 24
pitch = "20in"
rise = "10in"
run = "24in"
seat_board = "17in"
[[section]]
name = "QUAY"
kind = "floor"
rows = 12
seats = 26
pitch = "20in"
run = "36in"
place = { across = "0 m", away = "-14 m", facing = 0 }
[[room.camera]]
name = "jetty"
left = "-1 m"
right = "1 m"
near = "-31 m"
far = "-29 m"
heights = ["4 m"]
[camera]
back = "30 m"
height = "4 m"
picture = [1920, 1080]
[card]
size = "11in x 8.5in"
held = "eyes"
[[colour]]
name = "HARBOUR"
hex = "#16294d"
[[colour]]
name = "CREAM"
hex = "#fbf1d8"
[[cue]]
text = "HI"
on = ["A", "QUAY"]
`

var listKey = regexp.MustCompile(`(on|rows) = \[([^\]]*)\]`)

// written puts the keys that the words of an advice name into the stunt file, as its reader would.
func written(t *testing.T, f *stuntfile.File, do string) *stuntfile.File {
	t.Helper()
	var edits []stuntfile.Edit
	for _, m := range listKey.FindAllStringSubmatch(do, -1) {
		var names []string
		for _, quoted := range strings.Split(m[2], ", ") {
			name, err := strconv.Unquote(quoted)
			if err != nil {
				t.Fatal(err)
			}
			names = append(names, name)
		}
		edits = append(edits, stuntfile.Edit{Key: "cue[0]." + m[1], Value: names})
	}
	out, err := f.Set(edits...)
	if err != nil || len(edits) == 0 {
		t.Fatalf("%q: %v", do, err)
	}
	return out
}

// Where front rows are hidden, and where a floor block is seen flat, other rows are what helps most; and who
// writes the keys that the advice names into the stunt file gets the score it promises.
func TestOtherRowsHelpMost(t *testing.T) {
	for _, c := range []struct{ name, text, change, keys string }{
		{"front rows behind a board", boarded, "other rows", `rows = ["A-6.."]`},
		{"a floor block seen flat", lowDown, "other sections", `on = ["A"]`},
	} {
		f, err := stuntfile.Parse("stunt.toml", []byte(c.text), nil)
		if err != nil {
			t.Fatal(err)
		}
		p := planned(t, f.Stunt)
		all := Measure(t.Context(), p)
		if len(all) != 1 || len(all[0].Advice) == 0 {
			t.Fatalf("%s: no advice: %+v", c.name, all)
		}
		best := all[0].Advice[0]
		if best.Change != c.change || !strings.Contains(best.Do, c.keys) || best.After < all[0].Before+0.1 {
			t.Errorf("%s: from %.3f, best is %+v", c.name, all[0].Before, best)
		}
		if got := planned(t, written(t, f, best.Do).Stunt).Cues[0].Reading.Score; got != best.After {
			t.Errorf("%s: %q promises %.6f, and the file so changed gets %.6f", c.name, best.Do, best.After, got)
		}
	}
}

// rowsTried are the keys of the choices of rows that are tried for the stunt's first cue.
func rowsTried(t *testing.T, s *mosaic.Stunt) []string {
	t.Helper()
	p := planned(t, s)
	study := newStudy(t.Context(), s, p.Stands, 0)
	study.lookAtRows(p, 0)
	var out []string
	for _, v := range study.rows() {
		out = append(out, v.do[strings.LastIndex(v.do, " (")+1:])
		c := copied(study.stunt)
		if v.apply(c); len(c.Cues[0].Rows) == 0 && len(c.Cues[0].On) == 0 {
			t.Errorf("%q changes nothing", v.do)
		}
	}
	return out
}

// What is tried follows from what hides the rows, worked out by hand from where they stand.
func TestRowsThatAreTried(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(*mosaic.Stunt)
		want  string
	}{
		// From a lens 2 m high and 18 m back the sight line over a board of 1.9 m falls by 6 mm a metre: it is
		// 1.88 m high over all rows. Under the chin a card reaches from 0.88 m to 1.10 m above a footboard (seat
		// 0.43 m, crown 0.89 m above it, chin 0.22 m lower), and a footboard is 0.254 m higher each row: that of
		// row 4 ends at 1.86 m, that of row 5 begins at 1.90 m.
		{"a board before all", func(s *mosaic.Stunt) {
			s.Room.Obstacles = []camera.Obstacle{{Name: "board", Kind: "box", Away: -seating.Metre, Width: 30 * seating.Metre, Depth: 5 * seating.Centimetre, Height: 19 * seating.Metre / 10}}
		}, `(rows = ["5.."])`},
		// Eight rows of twelve in B: what lies above its last one is on A and C alone.
		{"a low section in the middle", func(s *mosaic.Stunt) { s.Stands.Sections[1].Rows = 8 }, `(rows = ["A-..8", "C-..8"])`},
		{"all alike: the lowest quarter", func(s *mosaic.Stunt) {}, `(rows = ["4.."])`},
		{"rows that the stunt has chosen are judged anew", func(s *mosaic.Stunt) {
			s.Cues[0].Rows = []seating.RowRange{{From: "2", To: "7"}}
		}, `(rows = ["4.."])`},
		// A hoarding six metres high stands before B.
		{"one section hidden wholly", func(s *mosaic.Stunt) {
			s.Room.Obstacles = []camera.Obstacle{{Name: "hoarding", Kind: "box", Away: -seating.Metre, Width: 4 * seating.Metre, Depth: 5 * seating.Centimetre, Height: 6 * seating.Metre}}
		}, `(on = ["A", "C"])`},
	} {
		s := hard("SEA", 3, 12, 10)
		c.spoil(s)
		got := rowsTried(t, s)
		found := false
		for _, keys := range got {
			found = found || keys == c.want
		}
		if !found {
			t.Errorf("%s: tried are %q, want %s among them", c.name, got, c.want)
		}
	}
}

// With many marks few plans are made and many changes wait; pairs get their share all the same.
func TestPairsAreNotStarved(t *testing.T) {
	s := hard("SEA", 3, 10, 10)
	for k := range 3 {
		s.Marks = append(s.Marks, camera.Mark{Name: "gallery " + strconv.Itoa(k), Across: seating.Length(3*k-3) * seating.Metre, Back: 20 * seating.Metre, Height: 3 * seating.Metre, Picture: s.Camera.Picture})
	}
	p := planned(t, s)
	const most = 12
	study := newStudy(t.Context(), s, p.Stands, 0)
	study.before = p.Cues[0].Reading.Score
	if n := len(study.singles()); n < most {
		t.Fatalf("%d single changes would leave room for pairs anyway", n)
	}
	study.run(most)
	pairs := 0
	for _, v := range study.tried {
		if strings.Contains(v.do, ", and ") {
			pairs++
		} else if v.made && worth(v.after) == 2 {
			t.Fatalf("%q alone makes it read", v.do)
		}
	}
	if pairs < 2 || len(study.tried) > most {
		t.Errorf("%d of %d plans were pairs", pairs, len(study.tried))
	}
}

// Two changes that undo each other are no pair.
func TestPairsAddUp(t *testing.T) {
	higher := &variant{change: "a higher lens", do: "a", rank: rankPlace}
	nearer := &variant{change: "another mark", do: "b", rank: rankPlace}
	fewer := &variant{change: "fewer letters", do: "c", rank: rankFewer, content: true}
	cues := &variant{change: "more cues", do: "d", rank: rankCues, content: true}
	var got []string
	for _, v := range new(study).pairs([]*variant{higher, nearer, fewer, cues}) {
		got = append(got, v.do)
	}
	if want := "a, and c|a, and d|b, and c|b, and d"; strings.Join(got, "|") != want {
		t.Errorf("pairs are %q", got)
	}
}

// Two changes are told only where they are better than one of them.
func TestPairsThatAddNothing(t *testing.T) {
	one := &variant{change: "a", after: 0.6, made: true}
	other := &variant{change: "b", after: 0.5, made: true}
	both := func(after float64) *variant {
		v := paired(one, other)
		v.after, v.made = after, true
		return v
	}
	for after, want := range map[float64]int{0.62: 2, 0.66: 3, 0.55: 2} {
		s := &study{before: 0.4, tried: []*variant{one, other, both(after)}}
		if got := s.helpful(); len(got) != want {
			t.Errorf("0.6 and 0.5 alone, %.2f together: %d are told, want %d", after, len(got), want)
		}
	}
}
