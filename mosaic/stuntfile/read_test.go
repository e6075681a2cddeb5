package stuntfile

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/laying"
	"everyseat/seating/people"
)

// beside opens the files of a made-up folder.
func beside(files map[string]string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		if data, ok := files[name]; ok {
			return []byte(data), nil
		}
		return nil, plainError(fs.ErrNotExist)
	}
}

func parseText(t *testing.T, text string, files map[string]string) *File {
	t.Helper()
	f, err := Parse("stunt.toml", []byte(text), beside(files))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// everything is a file with every key there is.
const everything = `version = 1
title = "Lantern Fair"
date = 2027-10-02
place = "outdoors"
contact = "fair office"
tempo = 96
flashing_risk_accepted = "flashing: accepted by the fair office"

[stands]
posted = 600
people = 480
expected = "85 %"
origin = "B"

[[section]]
name = "A"
kind = "chairs"
posture = "standing"
seats = [18, 18, 17]
pitch = "20in"
rise = "9 5/8in"
run = "0.61 m"
first_row = "1 ft"
seat_board = "17in"
aisle = "4 ft"
align = "left"
radius = "20 m"
row_names = { letters = true, all_letters = true, start = 2, step = 1, from = "back" }
seat_numbers = { from = "right", start = 1, step = 2 }
cross_aisles = [{ after = "B", depth = "4 ft" }]
missing = ["C-4", "A-D-1..3"]
reserved = [{ seats = ["B-1..2"], for = "wheelchair" }, { seats = ["A-B-3"], for = "companion" }]
cards = false

[[section]]
name = "B"
rows = 2
bench = ["30ft", "9.5 m"]
pitch = "18in"
row_names = ["low", "high"]

[section.place]
across = "-1 m"
away = "-4 m"
facing = 90

[room]
walls = [["-10 m", "-12 m"], ["10 m", "-12 m"]]
lane = [{ name = "door", left = "-1 m", right = "1 m", near = "-8 m", far = "-1 m" }]
obstacle = [{ name = "hoop", kind = "hoop", across = "0 m", away = "-2 m", width = "1.8 m", depth = "5 cm", height = "1 m", bottom = "2.9 m" }]
exit = [{ name = "north door", across = "-10 m", away = "-6 m", width = "1.8 m" }]

[camera]
walks = true
across = "-2 m"
back = "20 m"
height = "3 m"
aim = { across = "1 m", away = "3 m", height = "2 m" }
picture = [1920, 1080]
sees = "6.3 m at 5 m"

[[mark]]
name = "balcony"
back = "28 m"
height = "5 m"
sensor = "36 x 24 mm"
lens = "35 mm"

[[mark]]
back = "12 m"
aim = "auto"
field_of_view = 70

[card]
size = "A4"
orientation = "landscape"
held = "chin"
turn = "mark"
kind = "bonded"
hand_height = "3 cm"
hand_sideways = "1 cm"
hand_tilt = 5.5

[[colour]]
name = "NAVY"
hex = "#14284f"
sheets = 500
pack = 250
price = 24.35
no_more = true
darkest_ink = "white"

[[colour]]
name = "CREAM"
hex = "#fdf4dc"

[[cue]]
name = "word"
text = "GLOW\nUP"
ink = "CREAM"
ground = "shirts"
on = ["A"]
rows = ["B..C", "A-C..", "..D", "A - D"]
fit = "flat"
at = 8

[[cue]]
image = "pictures/lantern.png"
fit = "fill"
reduce = "diffuse"
exposure = -0.5
focus = [0.25, 1]
at = "second 12"
up = "1.5 s"
hold = "8 s"
transition = "from the middle"
takes = "3 s"
painted = { "B-low-4..9" = "CREAM", "B-high-1" = "none" }

[laying]
how = "pass"
helpers = 6
per_card = "5.5 s"
per_row = "1 min"
direction = "right to left"
serpentine = true
start = "back"

[print]
paper = "A4"
per_sheet = 8
placards = "stock"
cut = "whole pile"
turn = "short edge"
margin = "6 mm"
tile = true
grid = { columns = 3, rows = 7, width = "63.5 mm", height = "38.1 mm", left = "7 mm", top = "15 mm", across = "66 mm", down = "38.1 mm" }
bands = true
band_grid = { columns = 1, rows = 10, width = "190 mm", height = "25 mm", left = "10 mm", top = "20 mm" }
toner = 0.30
white_pack = 100
white_price = 9.50
wage = 12

[day]
doors = 17:30:00
take = "18:45"
from = 15:00:00
until = "20:00"
signs = ["fire official"]
rehearsals = ["18:10", "18:20"]
keys = ["north door"]

[people]
names = true
held_by = "choir leaders"
per_minute = 25
wear = "dark"

[[group]]
name = "harbour choir"
people = 48
wheelchairs = 2
companions = 1
not_filmed = 3
leader = "choir office"
room = "sail loft"
door = "north door"
time = 17:35:00

[[group]]
name = "net-menders' guild"
`

func TestEveryKeyIsRead(t *testing.T) {
	exposure := -0.5
	f := parseText(t, everything, map[string]string{"pictures/lantern.png": "PNG"})
	const m, cm, mm, in, ft = seating.Metre, seating.Centimetre, seating.Millimetre, seating.Inch, seating.Foot
	want := &mosaic.Stunt{
		Title: "Lantern Fair", Date: "2027-10-02", Outdoors: true, Contact: "fair office",
		Tempo: 96, FlashingRisk: "flashing: accepted by the fair office",
		Work: mosaic.Work{TonerCents: 30, PaperPack: 100, PaperCents: 950, WageCents: 1200},
		Stands: seating.Spec{
			Sections: []seating.SectionSpec{{
				Name: "A", Kind: seating.Chairs, Posture: seating.Standing, Rows: 3, Seats: []int{18, 18, 17},
				Pitch: 20 * in, Rise: 77 * in / 8, Run: 61 * cm, FirstRow: ft, SeatBoard: 17 * in, Aisle: 4 * ft,
				Align: seating.AlignLeft, Radius: 20 * m,
				RowNames:    seating.RowNaming{Letters: true, AllLetters: true, Start: 2, Step: 1, FromBack: true},
				SeatNumbers: seating.SeatNumbering{From: seating.Right, Start: 1, Step: 2},
				CrossAisles: []seating.CrossAisle{{After: "B", Depth: 4 * ft}},
				Missing:     []seating.SeatRange{{Row: "C", From: 4, To: 4}, {Row: "D", From: 1, To: 3}},
				Reserved: []seating.Reserved{
					{Seats: []seating.SeatRange{{Row: "B", From: 1, To: 2}}, For: "wheelchair"},
					{Seats: []seating.SeatRange{{Row: "B", From: 3, To: 3}}, For: "companion"}},
				NoCards: true,
			}, {
				Name: "B", Rows: 2, Bench: []seating.Length{30 * ft, 950 * cm}, Pitch: 18 * in,
				RowNames: seating.RowNaming{Names: []string{"low", "high"}},
				Place:    &seating.Place{Across: -m, Away: -4 * m, Facing: 90},
			}},
			Lanes:  []seating.Lane{{Name: "door", Left: -m, Right: m, Near: -8 * m, Far: -m}},
			Posted: 600, People: 480, Expected: .85, Origin: "B",
		},
		Room: mosaic.Room{
			Walls: [][2]seating.Length{{-10 * m, -12 * m}, {10 * m, -12 * m}},
			Obstacles: []camera.Obstacle{{Name: "hoop", Kind: "hoop", Away: -2 * m, Width: 180 * cm, Depth: 5 * cm,
				Height: m, Bottom: 290 * cm}},
			Exits: []mosaic.Exit{{Name: "north door", Across: -10 * m, Away: -6 * m, Width: 180 * cm}},
		},
		Walks: true,
		Camera: camera.Mark{Across: -2 * m, Back: 20 * m, Height: 3 * m, Aim: &seating.Point{1, 3, 2},
			Picture: [2]int{1920, 1080}, Lens: camera.Lens{Sees: 630 * cm, At: 5 * m}},
		Marks: []camera.Mark{
			{Name: "balcony", Back: 28 * m, Height: 5 * m,
				Lens: camera.Lens{SensorWidth: 36, SensorHeight: 24, Focal: 35}},
			{Back: 12 * m, Lens: camera.Lens{FieldOfView: 70}}},
		Card: mosaic.CardSpec{Width: 210 * mm, Height: 297 * mm, Orientation: "landscape", Held: camera.Chin, ToMark: true,
			Kind: mosaic.Bonded, HandHeight: 3 * cm, HandSideways: cm, HandTilt: 5.5},
		Colours: []mosaic.Colour{
			{Name: "NAVY", RGB: colour.RGB{0x14, 0x28, 0x4f}, Sheets: 500, Pack: 250, PriceCents: 2435, NoMore: true, DarkestInk: "white"},
			{Name: "CREAM", RGB: colour.RGB{0xfd, 0xf4, 0xdc}, Sheets: -1}},
		Cues: []mosaic.Cue{
			{Name: "word", Text: "GLOW\nUP", Ink: "CREAM", Ground: "shirts", On: []string{"A"}, Fit: "flat", At: "8",
				Rows: []seating.RowRange{{From: "B", To: "C"}, {Section: "A", From: "C"}, {To: "D"}, {Section: "A", From: "D", To: "D"}}},
			{Image: []byte("PNG"), ImageName: "pictures/lantern.png", Fit: "fill", At: "second 12",
				Reduce: mosaic.Diffuse, Exposure: &exposure, Focus: [2]float64{0.25, 1},
				UpWithin: 1500 * time.Millisecond, Hold: 8 * time.Second, Transition: mosaic.FromMiddle, Takes: 3 * time.Second,
				Painted: []mosaic.Paint{
					{Section: "B", Seats: seating.SeatRange{Row: "low", From: 4, To: 9}, Colour: "CREAM"},
					{Section: "B", Seats: seating.SeatRange{Row: "high", From: 1, To: 1}}}}},
		Laying: laying.Spec{Pass: true, Helpers: 6, PerCard: 5500 * time.Millisecond, PerRow: time.Minute,
			Direction: laying.RightToLeft, Serpentine: true, FromBack: true},
		Print: mosaic.Print{Paper: "A4", PerSheet: 8, Placards: mosaic.OnStock, WholePile: true, ShortEdge: true, Margin: 6 * mm, Tile: true,
			Grid: &mosaic.LabelGrid{Columns: 3, Rows: 7, Width: 635 * mm / 10, Height: 381 * mm / 10, Left: 7 * mm, Top: 15 * mm,
				Across: 66 * mm, Down: 381 * mm / 10},
			Bands: true, BandGrid: &mosaic.LabelGrid{Columns: 1, Rows: 10, Width: 190 * mm, Height: 25 * mm, Left: 10 * mm, Top: 20 * mm}},
		Day: mosaic.Day{Doors: "17:30:00", Take: "18:45", From: "15:00:00", Until: "20:00", Signs: []string{"fire official"},
			Rehearsals: []string{"18:10", "18:20"}, Keys: []string{"north door"}},
		People: mosaic.People{Names: true, HeldBy: "choir leaders", PerMinute: 25, Wear: mosaic.Dark, Groups: []people.Party{
			{Name: "harbour choir", People: 48, Wheelchairs: 2, Companions: 1, Unfilmed: 3, Leader: "choir office", Room: "sail loft", Door: "north door", Time: "17:35:00"},
			{Name: "net-menders' guild"},
		}},
	}
	if diff := cmp.Diff(want, f.Stunt, cmpopts.EquateEmpty()); diff != "" {
		t.Errorf("the stunt differs (-want +got):\n%s", diff)
	}
}

// TestFreshTeachesEveryKey: the fresh file shows every key that the reader asks for, and no other.
func TestFreshTeachesEveryKey(t *testing.T) {
	f := parseText(t, everything, map[string]string{"pictures/lantern.png": "PNG"})
	asked := map[string]bool{}
	var walk func(*table)
	walk = func(t *table) {
		for _, k := range t.asked {
			asked[k] = true
		}
		for _, e := range t.entries {
			for _, v := range append(e.val.items, e.val) {
				if v.table != nil && e.name != "painted" {
					walk(v.table)
				}
			}
		}
	}
	walk(f.doc.root)
	if len(asked) < 80 {
		t.Errorf("only %d keys seen: is the walk right?", len(asked))
	}
	fresh := string(Fresh())
	for k := range asked {
		if !strings.Contains(fresh, k+" = ") && !strings.Contains(fresh, "["+k+"]") {
			t.Errorf("the fresh file does not show %q", k)
		}
	}
	shown := 0
	for i, line := range strings.Split(fresh, "\n") {
		line = strings.TrimPrefix(line, "# ")
		k, _, ok := strings.Cut(line, " = ")
		if !ok || strings.ContainsAny(k, " ,:") {
			continue
		}
		shown++
		if !asked[k] {
			t.Errorf("line %d of the fresh file shows %q, which nobody reads", i+1, k)
		}
	}
	if shown < 50 {
		t.Errorf("only %d keys shown", shown)
	}
}

// TestFreshCommentedKeys: each commented key works when its # is taken away.
func TestFreshCommentedKeys(t *testing.T) {
	lines := strings.Split(string(Fresh()), "\n")
	instead := map[string]string{"bench": "seats", "field_of_view": "", "sensor": ""}
	tried := 0
	for i, line := range lines {
		bare := strings.TrimPrefix(line, "# ")
		k, _, ok := strings.Cut(bare, " = ")
		if bare == line || !ok || strings.ContainsAny(k, " ,:") || k == "sensor" || k == "table" || k == "roster" {
			continue
		}
		edited := append([]string{}, lines...)
		edited[i] = bare
		for j := i - 1; j >= 0 && strings.HasPrefix(lines[j], "#"); j-- { // the commented header above
			if strings.HasPrefix(lines[j], "# [") {
				edited[j] = strings.TrimPrefix(lines[j], "# ")
				break
			}
		}
		for j, l := range lines {
			if other := instead[k]; other != "" && strings.HasPrefix(l, other+" = ") {
				edited[j] = ""
			}
			if k == "fit" && strings.HasPrefix(l, "# on =") {
				edited[j] = ""
			}
		}
		if k == "on" {
			edited[i] = `on = ["A"]`
		}
		if k == "height" || k == "name" { // keys of the commented [[mark]]: it needs back
			continue
		}
		if _, err := Parse("fresh", []byte(strings.Join(edited, "\n")), beside(nil)); err != nil {
			t.Errorf("%s: %v", k, err)
		}
		tried++
	}
	if tried < 25 {
		t.Errorf("only %d keys tried", tried)
	}
}

// TestRoster: a roster beside the stunt file is read; its faults have its own name and line, and cells that are
// not used are warned about.
func TestRoster(t *testing.T) {
	text := small + "[people]\nroster = \"lists/who.csv\"\n"
	f := parseText(t, text, map[string]string{"lists/who.csv": "person,group,needs\nP-1,choir,a window\nP-2,choir,\n"})
	who := f.Stunt.People
	if who.Roster == nil || len(who.Roster.People) != 2 || who.RosterName != "lists/who.csv" {
		t.Errorf("read %+v", who)
	}
	if w := f.Warnings(); len(w) != 1 || !strings.Contains(w[0], `who.csv: cell C2, "a window": only wheelchair`) {
		t.Errorf("warnings %q", w)
	}
	_, err := Parse("fair/stunt.toml", []byte(text), beside(map[string]string{"lists/who.csv": "group,count\nchoir,some\n"}))
	if fault, ok := err.(*seating.Fault); !ok || filepath.ToSlash(fault.File) != "fair/lists/who.csv" || fault.Line != 2 {
		t.Errorf("%v", err)
	}
}

// small is the smallest stunt; lines from 1.
const small = `version = 1
[[section]]
name = "A"
rows = 3
seats = 4
rise = "8in"
run = "24in"
[camera]
back = "9 m"
[[colour]]
name = "NAVY"
hex = "#14284f"
[[colour]]
name = "CREAM"
hex = "#fdf4dc"
[[cue]]
text = "HI"
`

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name, old, new string // in small
		where          string // line:column
		what, hint     string // parts of what is said
	}{
		{"a group of none", "[camera]", "[[group]]\nname = \"choir\"\npeople = 0\n[camera]", "10:10", "people cannot be 0", "leave the line out"},
		{"groups in one table", "[camera]", "[group]\nname = \"choir\"\n[camera]", "8:1", "group must be a list of tables", "[[group]]"},
		{"no_more without a pack", `hex = "#14284f"`, "hex = \"#14284f\"\nsheets = 9\nno_more = false", "14:11", "nothing says how more is bought", "pack = 50"},
		{"each key once", `name = "NAVY"`, "nomen = 7", "11:1", `unknown key "nomen"`, "keys here are: name, hex, sheets, pack, price, no_more, darkest_ink"},
		{"no roster", "[camera]", "[people]\nroster = \"roster.csv\"\n[camera]", "9:10", "there is no such file", "spelled, capitals too"},
		{"no unit", `rise = "8in"`, `rise = 8`, "6:8", "rise = 8 has no unit", `"8in"`},
		{"no unit in quotes", `rise = "8in"`, `rise = "8"`, "6:8", "rise: ", ""},
		{"no unit as a fraction", `rise = "8in"`, `rise = 8.5`, "6:8", "rise = 8.5 has no unit", `"8.5cm"`},
		{"a curve without radius", `rise = "8in"`, "rise = \"8in\"\nradius = \"0 m\"", "7:10", "a radius of 0 m is no curve", "leave radius out"},
		{"a list for a length", `rise = "8in"`, `rise = ["8in"]`, "6:8", `rise must be a length`, ""},
		{"unknown key", `rise =`, `risse =`, "6:1", `unknown key "risse"`, `did you mean "rise"?`},
		{"unknown key far from all", `rise =`, `elevation_of_step =`, "6:1", `unknown key`, `keys here are: name, kind`},
		{"hyphen", `run = "24in"`, "run = \"24in\"\nseat-board = \"17in\"", "8:1", `unknown key "seat-board"`, `did you mean "seat_board"?`},
		{"unknown table", `[camera]`, `[kamera]`, "8:2", `unknown key "kamera"`, `did you mean "camera"?`},
		{"twice", `rows = 3`, "rows = 3\nrows = 4", "5:1", `"rows" is given twice, first in line 4`, "keep one"},
		{"table twice", `[[cue]]`, "[camera]\n[[cue]]", "16:2", `"camera" is given twice, first in line 8`, ""},
		{"not TOML", `rows = 3`, `rows 3`, "4:6", "this is not TOML", "key = value"},
		{"length without quotes", `rise = "8in"`, `rise = 25 cm`, "6:11", "this is not TOML", "a length stands in quotes"},
		{"curly quotes", `"NAVY"`, `“NAVY”`, "11:8", "this is not TOML", "straight quotes"},
		{"open quote", `"NAVY"`, `"NAVY`, "11:13", "this is not TOML", "left open"},
		{"no quotes", `"NAVY"`, `NAVY`, "11:8", "this is not TOML", "quotes"},
		{"a word for a number", `rows = 3`, `rows = "three"`, "4:8", `rows must be a whole number without quotes, not "three"`, ""},
		{"a fraction of a row", `rows = 3`, `rows = 3.5`, "4:8", `rows must be a whole number`, ""},
		{"less than no rows", `rows = 3`, `rows = -3`, "4:8", `rows must be 0 or more`, ""},
		{"an ink that is no ink", `hex = `, "darkest_ink = \"purple-ish\"\nhex = ", "12:15", `darkest_ink must be one of "black", "white"`, ""},
		{"no white cards in a pack", "[camera]", "[print]\nwhite_pack = 0\n[camera]", "9:14", "white_pack cannot be 0", ""},
		{"no columns of labels", "[camera]", "[print]\ngrid = { columns = 0, rows = 5, width = \"4in\", height = \"2in\" }\n[camera]", "9:20", "columns cannot be 0", "count the labels"},
		{"an empty message", "text = ", "text = \"\" # ", "17:8", "the text is empty", "leave the line out"},
		{"no rows", `rows = 3`, `rows = 0`, "4:8", `rows cannot be 0`, "leave the line out"},
		{"level rows", `rise = "8in"`, `rise = "0in"`, "6:8", `rise cannot be 0`, `kind = "floor"`},
		{"nobody holds still", "[camera]", "[card]\nhand_tilt = 0\n[camera]", "9:13", "hand_tilt cannot be 0", ""},
		{"a lens on the floor", `back = "9 m"`, "back = \"9 m\"\nheight = \"0 m\"", "10:10", "height cannot be 0", ""},
		{"nobody comes", "[camera]", "[stands]\nexpected = \"0 %\"\n[camera]", "9:12", "expected must be a share", ""},
		{"a focus outside", `text = "`, "focus = [0.5, 1.5]\ntext = \"", "17:9", "focus must be two shares", "0.3"},
		{"huge count", `rows = 3`, `rows = 99999999999999999999`, "4:8", `too large`, ""},
		{"huge seats", `seats = 4`, `seats = [4, 0x7fffffffffffffff]`, "5:13", `too large`, ""},
		{"seats in words", `seats = 4`, `seats = "4"`, "5:9", `seats must be a whole number, or a list`, "seats = [18, 18, 17]"},
		{"number for a word", `name = "A"`, `name = 5`, "3:8", `name must be words in "quotes", not 5`, `name = "5"`},
		{"control character", `"HI"`, `"H\u0007I"`, "17:8", "control character U+0007", ""},
		{"version", `version = 1`, `version = 2`, "1:11", "version 2 is not known here", "version = 1"},
		{"no version", "version = 1\n", "", "1:1", "version is missing", "version = 1"},
		{"no camera", "[camera]\nback = \"9 m\"\n", "", "1:1", "[camera] is missing", "back ="},
		{"no back", `back = "9 m"`, `height = "2 m"`, "8:1", "back is missing", `back = "20 m"`},
		{"lens twice", `back = "9 m"`, "back = \"9 m\"\nfield_of_view = 65\nsees = \"6 m at 5 m\"", "8:1", "more than one way", "sees"},
		{"half a lens", `back = "9 m"`, "back = \"9 m\"\nlens = \"50 mm\"", "8:1", "sensor is missing", "36 mm"},
		{"tape test", `back = "9 m"`, "back = \"9 m\"\nsees = \"6 m\"", "10:8", "sees must be what fills the frame", "6.3 m at 5 m"},
		{"picture", `back = "9 m"`, "back = \"9 m\"\npicture = [3840]", "10:11", "picture must be width and height", "[3840, 2160]"},
		{"huge picture", `back = "9 m"`, "back = \"9 m\"\npicture = [384000, 2160]", "10:11", "from 64 to 16384", ""},
		{"hex", `"#14284f"`, `"#14284g"`, "12:7", "hex must be a colour", "#12284c"},
		{"no hex", "hex = \"#14284f\"\n", "", "10:1", "hex is missing", "#12284c"},
		{"a colour called none", `"CREAM"`, `"none"`, "14:8", `means no card`, ""},
		{"slash in a colour", `"CREAM"`, `"A/B"`, "14:8", `holds '/'`, ""},
		{"section without brackets", "[[section]]", "[section]", "2:1", "section must be a list of tables", "[[section]]"},
		{"missing image", `text = "HI"`, `image = "a.png"`, "17:9", `image = "a.png": there is no such file`, "spelled"},
		{"image outside", `text = "HI"`, `image = "../a.png"`, "17:9", "leads out of the stunt's folder", "copy the file"},
		{"image outside, hidden", `text = "HI"`, `image = "x/../../a.png"`, "17:9", "leads out of the stunt's folder", "copy the file"},
		{"absolute image", `text = "HI"`, `image = "/etc/passwd"`, "17:9", "not beside the stunt file", "copy the file"},
		{"drive letter", `text = "HI"`, `image = "C:/a.png"`, "17:9", "not beside the stunt file", "copy the file"},
		{"backslash", `text = "HI"`, `image = 'x\a.png'`, "17:9", "has a backslash", "copy the file"},
		{"missing table", `[camera]`, "[stands]\ntable = \"stands.csv\"\n[camera]", "9:9", `table = "stands.csv": there is no such file`, ""},
		{"seat", `seats = 4`, "seats = 4\nmissing = [\"3-x\"]", "6:12", `missing must be a seat, not "3-x"`, "ROW-SEAT"},
		{"signed seat", `seats = 4`, "seats = 4\nmissing = [\"3-+4\"]", "6:12", `missing must be a seat`, "ROW-SEAT"},
		{"somebody else's seat", `seats = 4`, "seats = 4\nmissing = [\"B-3-4\"]", "6:12", `seat "B-3-4" is not in section "A"`, `[[section]] "B"`},
		{"reserved for", `seats = 4`, "seats = 4\nreserved = [{ seats = [\"1-1\"], for = \"wheelchairs\" }]", "6:38", "for must be one of", `"wheelchair"`},
		{"painted nowhere", `text = "HI"`, "painted = { \"A-1\" = \"CREAM\" }", "17:13", `"A-1" is not a seat`, "section, row, seat"},
		{"no rows of a cue", `text = "HI"`, "text = \"HI\"\nrows = []", "18:8", "rows names no row", "leave the line out"},
		{"an empty range of rows", `text = "HI"`, "text = \"HI\"\nrows = [\"1..\", \"..\"]", "18:16", `rows must be rows such as "3..10", not ".."`, `"B-3..10"`},
		{"rows of a section without a name", `text = "HI"`, "text = \"HI\"\nrows = \"-3\"", "18:8", `rows must be rows such as "3..10"`, "front first"},
		{"a row without quotes", `text = "HI"`, "text = \"HI\"\nrows = [1, 2]", "18:9", `rows must be rows such as "3..10", not 1`, `rows = ["3..10"]`},
		{"a seat for a row", `text = "HI"`, "text = \"HI\"\nrows = [\"A-3-4\"]", "18:9", `rows must be rows such as "3..10"`, ""},
		{"lane", "[camera]", "[[room.lane]]\nleft = \"1 m\"\n[camera]", "8:1", "right is missing", "rectangle"},
		{"placards", "[camera]", "[print]\nplacards = \"stok\"\n[camera]", "9:12", "placards must be one of", `did you mean "stock"?`},
		{"half a grid of labels", "[camera]", "[print]\ngrid = { columns = 2, rows = 5, width = \"4in\" }\n[camera]", "9:8", "height is missing", "rows = 5"},
		{"no columns of labels", "[camera]", "[print]\ngrid = { columns = 0, rows = 5, width = \"4in\", height = \"2in\" }\n[camera]", "9:20", "columns cannot be 0", ""},
		{"share", "[camera]", "[stands]\nexpected = 88\n[camera]", "9:12", "expected must be a share", `"88 %"`},
		{"impossible date", "version = 1\n", "version = 1\ndate = 2027-13-01\n", "2:8", "there is no date 2027-13-01", ""},
		{"price", `name = "NAVY"`, "name = \"NAVY\"\nprice = 1.005", "12:9", "whole cents", ""},
		{"time", "[camera]", "[laying]\nper_card = 6\n[camera]", "9:12", "per_card must be a time", ""},
		{"held", "[camera]", "[card]\nheld = \"chinn\"\n[camera]", "9:8", "held must be one of", `did you mean "chin"?`},
		{"not UTF-8", `"HI"`, "\"H\xff\"", "17:10", "not UTF-8", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !strings.Contains(small, c.old) {
				t.Fatalf("%q is not in the small stunt", c.old)
			}
			text := strings.Replace(small, c.old, c.new, 1)
			_, err := Parse("stunt.toml", []byte(text), beside(nil))
			var f *seating.Fault
			if !errors.As(err, &f) {
				t.Fatalf("got %v, want a fault", err)
			}
			if want := "stunt.toml:" + c.where; f.Where() != want {
				t.Errorf("stands at %s, want %s (%v)", f.Where(), want, err)
			}
			if !strings.Contains(f.What, c.what) {
				t.Errorf("says %q, want %q in it", f.What, c.what)
			}
			if !strings.Contains(f.Hint, c.hint) {
				t.Errorf("hints %q, want %q in it", f.Hint, c.hint)
			}
			if strings.ContainsAny(f.Error(), "\n\r") {
				t.Errorf("more than one line: %q", f.Error())
			}
		})
	}
}

func TestSmallIsGood(t *testing.T) { parseText(t, small, nil) }

func TestByteOrderMark(t *testing.T) {
	f := parseText(t, bom+small, nil)
	if f.Stunt.Cues[0].Text != "HI" {
		t.Error("the text was not read")
	}
	_, err := Parse("stunt.toml", []byte(bom+"verzion = 1\n"), beside(nil))
	if err == nil || !strings.Contains(err.Error(), "stunt.toml:1:1: ") {
		t.Errorf("got %v, want a fault at 1:1", err)
	}
}

func TestTooLarge(t *testing.T) {
	text := small + "# " + strings.Repeat("x", MaxBytes)
	if _, err := Parse("stunt.toml", []byte(text), beside(nil)); err == nil || !strings.Contains(err.Error(), "bytes") {
		t.Errorf("got %v, want a fault about the size", err)
	}
}

// TestManyFaults: what stands first in the text is said, whatever is read first.
func TestManyFaults(t *testing.T) {
	text := strings.Replace(small, `back = "9 m"`, `back = 9`, 1)
	text = strings.Replace(text, `"HI"`, `7`, 1)
	text = strings.Replace(text, `rows = 3`, `rows = true`, 1)
	_, err := Parse("stunt.toml", []byte(text), beside(nil))
	if err == nil || !strings.HasPrefix(err.Error(), "stunt.toml:4:8: rows") {
		t.Errorf("got %v, want the fault of line 4", err)
	}
}

// What a table leaves open is settled by keys: which sheet, which end is the front, in which order sections stand.
func TestTableIsSettled(t *testing.T) {
	const head, tail = "version = 1\n", "[camera]\nback = \"20 m\"\n"
	const two = "section,row,seats,aisle\nA,1,9,\nA,2,9,\nA,3,8,\nB,1,7,\nB,2,7,\n"
	const jumbled = "section,row,seats\nA,2,9\nA,7,8\nA,3,8\nB,1,7\nB,2,6\n"
	for _, c := range []struct{ name, table, keys, want string }{
		{"the table's order", two, "", "A front 1, aisle 4ft; B front 1, aisle 0m"},
		{"the sections' order", two, "[[section]]\nname = \"B\"\n[[section]]\nname = \"A\"\n", "B front 1, aisle 4ft; A front 1, aisle 4ft"},
		{"some sections alone", two, "[[section]]\nname = \"B\"\n", "A front 1, aisle 4ft; B front 1, aisle 0m"},
		{"a new one behind them", two, "[[section]]\nname = \"B\"\n[[section]]\nname = \"C\"\nrows = 1\nseats = 2\n[[section]]\nname = \"A\"\n",
			"B front 1, aisle 4ft; C front 1, aisle 0m; A front 1, aisle 4ft"},
		{"new ones and another order", two, "[[section]]\nname = \"C\"\nrows = 1\nseats = 2\n[[section]]\nname = \"A\"\n", "A front 1, aisle 4ft; B front 1, aisle 0m; C front 1, aisle 0m"},
		{"the front of all", two, "[stands]\nfront = \"last line\"\n", "A front 3, aisle 4ft; B front 2, aisle 0m"},
		{"the front of one", two, "[[section]]\nname = \"B\"\nfront = \"last line\"\n", "A front 1, aisle 4ft; B front 2, aisle 0m"},
		{"nothing settles it", jumbled, "", "which row of section A is in front?"},
		{"this does", jumbled, "[[section]]\nname = \"A\"\nfront = \"first line\"\n", "A front 2, aisle 4ft; B front 1, aisle 0m"},
		{"a front of no line", two, "[[section]]\nname = \"C\"\nrows = 1\nseats = 2\nfront = \"last line\"\n", `section "C" is not in it`},
		{"a sheet of no workbook", two, "[stands]\nsheet = \"May\"\n", `there is no sheet "May"`},
		{"two sheets of no workbook", two, "[stands]\nsheet = [\"May\", \"June\"]\n", `there is no sheet "May"`},
		{"an end that is none", two, "[stands]\nfront = \"top\"\n", `front must be one of "first line", "last line"`},
	} {
		keys, ok := strings.CutPrefix(c.keys, "[stands]\n")
		stands := "[stands]\ntable = \"stands.csv\"\n"
		if ok {
			stands, keys = stands+keys, ""
		}
		f, err := Parse(Name, []byte(head+stands+keys+tail), beside(map[string]string{"stands.csv": c.table}))
		got := ""
		if err != nil {
			got = err.Error()
			if !strings.Contains(got, c.want) {
				t.Errorf("%s: %s, want %s", c.name, got, c.want)
			}
			continue
		}
		built, err := seating.Build(f.Stunt.Stands)
		if err != nil {
			t.Fatal(c.name, err)
		}
		var said []string
		for i := range built.Sections {
			s := &built.Sections[i]
			said = append(said, fmt.Sprintf("%s front %s, aisle %v", s.Name, s.Rows[0].Name, f.Stunt.Stands.Sections[i].Aisle))
		}
		if got = strings.Join(said, "; "); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
	// Where the table's order stands against that of some sections, it is said.
	f, err := Parse(Name, []byte(head+"[stands]\ntable = \"stands.csv\"\n[[section]]\nname = \"C\"\n[[section]]\nname = \"A\"\n"+tail),
		beside(map[string]string{"stands.csv": two + "C,1,5,\n"}))
	if err != nil || len(f.Warnings()) != 1 || !strings.Contains(f.Warnings()[0], "in the order of the table") {
		t.Errorf("%v, %v", err, f.Warnings())
	}
}

// Missing and reserved take whole rows, as the rows of a cue do.
func TestWholeRows(t *testing.T) {
	const head, tail = "version = 1\n[[section]]\nname = \"A\"\nrows = 5\nseats = 4\n", "[camera]\nback = \"20 m\"\n"
	for _, c := range []struct{ keys, want string }{
		{`missing = ["2"]`, "4 0 4 4 4; 0 kept"},
		{`missing = ["4.."]`, "4 4 4 0 0; 0 kept"},
		{`missing = ["..2", "5-1..2"]`, "0 0 4 4 2; 0 kept"},
		{`reserved = [{ seats = ["2..3", "1-1"], for = "nobody" }]`, "4 4 4 4 4; 9 kept"},
		{"missing = [\"2-1\"]\nreserved = [{ seats = [\"2\"], for = \"rail\" }]", "4 3 4 4 4; 3 kept"},
		{`missing = ["7"]`, `section A has no row "7"`},
		{`missing = ["3..2"]`, "row 3 lies behind row 2"},
		{"reserved = [{ seats = [\"2\"], for = \"rail\" }, { seats = [\"1..\"], for = \"nobody\" }]", "reserved for two uses"},
	} {
		f, err := Parse(Name, []byte(head+c.keys+"\n"+tail), beside(nil))
		if err != nil {
			t.Errorf("%s: %v", c.keys, err)
			continue
		}
		got := ""
		if s, err := seating.Build(f.Stunt.Stands); err != nil {
			got = f.Locate(err).Error()
			if !strings.HasPrefix(got, Name+":6") {
				t.Errorf("%s: %s names no line", c.keys, got)
			}
		} else {
			for _, row := range s.Sections[0].Rows {
				got += fmt.Sprintf(" %d", row.Last-row.First)
			}
			kept := 0
			for _, seat := range s.Seats {
				if seat.For != "" {
					kept++
				}
			}
			got = strings.TrimSpace(got) + fmt.Sprintf("; %d kept", kept)
		}
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %s, want %s", c.keys, got, c.want)
		}
	}
}
