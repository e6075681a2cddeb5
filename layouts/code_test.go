package layouts_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"io"
	"io/fs"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/xuri/excelize/v2"

	"everyseat/layouts"
	"everyseat/layouts/tables"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/build"
	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stuntfile"
)

// The stunts whose keys are changed one by one: between them they have every key. All of them are the Lantern Fair's.
var keyed = map[string]string{"full": `version = 1
title = "Lantern Fair"
date = "2027-06-12"
place = "indoors"
contact = "harbour office"
tempo = 100
flashing_risk_accepted = "flashing that may cause seizures: accepted by the safety officer"

[stands]
posted = 300
people = 40
expected = "88 %"
origin = "A"

[[section]]
name = "A"
kind = "bench"
posture = "sitting"
rows = 6
seats = [6, 7, 7, 7, 7, 7]
pitch = "20in"
rise = "10in"
run = "26in"
first_row = "10in"
seat_board = "17in"
aisle = "4 ft"
align = "centre"
row_names = { letters = true }
seat_numbers = { from = "right", start = 1, step = 1 }
cross_aisles = [{ after = "B", depth = "3 ft" }]
missing = ["B-3"]
reserved = [{ seats = ["A-1"], for = "wheelchair" }, { seats = ["A-2"], for = "companion" }]

[[section]]
name = "B"
rows = 6
bench = "12 ft"
pitch = "20in"
rise = "10in"
run = "26in"
place = { across = "4.5 m", away = "0.2 m", facing = 5 }

[[section]]
name = "F"
kind = "floor"
rows = 1
seats = 5
pitch = "24in"
run = "36in"
cards = false
place = { across = "0 m", away = "-3 m", facing = 0 }

[room]
walls = [["-12 m", "-20 m"], ["12 m", "-20 m"]]
lane = [{ name = "door lane", left = "6 m", right = "7 m", near = "-8 m", far = "-5 m" }]
exit = [{ name = "north door", across = "-12 m", away = "-6 m", width = "1.8 m" }]
obstacle = [{ name = "hoop", kind = "hoop", across = "-9 m", away = "-2 m", height = "1 m", width = "1.8 m", bottom = "2.9 m" }]
camera = [{ name = "hall", left = "-8 m", right = "8 m", near = "-19 m", far = "-6 m", heights = ["3 m", "4 m"] }]

[camera]
back = "13 m"
across = "0.2 m"
height = "3 m"
picture = [960, 540]
sees = "6.3 m at 5 m"
aim = { across = "0.5 m", away = "1 m", height = "1.5 m" }
walks = true

[[mark]]
name = "opposite"
back = "15 m"
across = "0.5 m"
height = "3.5 m"
picture = [960, 540]
field_of_view = 60

[card]
size = "Letter"
orientation = "landscape"
held = "eyes"
turn = "mark"
kind = "bonded"
hand_height = "4 cm"
hand_sideways = "2 cm"
hand_tilt = 8

[[colour]]
name = "NAVY"
hex = "#14284f"
sheets = 900
pack = 250
price = 24.50
darkest_ink = "white"

[[colour]]
name = "CREAM"
hex = "#fdf4dc"

[[colour]]
name = "RED"
hex = "#c02020"

[[cue]]
name = "one"
text = "HI"
ink = "CREAM"
ground = "NAVY"
on = ["A", "B"]
rows = ["A-A..F", "B-1..6"]
fit = "camera"
at = "count 9"
up = "2 s"
hold = "10 s"
transition = "left to right"
takes = "3 s"
painted = { "B-6-1..2" = "RED" }

[[cue]]
name = "two"
image = "lantern.png"
ground = "NAVY"
fit = "fill"
reduce = "flat"
exposure = 0.5
focus = [0.4, 0.5]
at = "count 60"

[laying]
how = "lay"
helpers = 6
direction = "left to right"
serpentine = true
per_card = "6 s"
per_row = "20 s"
start = "front"

[print]
paper = "Letter"
per_sheet = 4
placards = "labels"
cut = "each sheet"
margin = "5 mm"
bands = true
band_grid = { columns = 2, rows = 10, width = "4in", height = "1in", left = "4 mm", top = "0.5in", across = "4.1in", down = "1in" }
toner = 0.25
white_pack = 250
white_price = 15.00
wage = 12

[day]
doors = "17:30"
take = "18:45"
from = "15:00"
until = "20:00"
signs = ["fire official"]
rehearsals = ["18:25"]
keys = ["stands"]

[people]
names = true
held_by = "the group's leader"
per_minute = 30
roster = "roster.csv"

[[group]]
name = "harbour choir"
people = 12
wheelchairs = 1
companions = 1
not_filmed = 1
leader = "choir office"
room = "sail loft"
door = "north door"
time = "17:35"
`, "small": `version = 1
title = "Lantern Fair"

[[section]]
name = "A"
rows = 6
seats = 8
pitch = "20in"
rise = "10in"
run = "26in"
radius = "20 m"

[camera]
back = "12 m"
height = "3 m"
picture = [960, 540]
sensor = "36 mm x 24 mm"
lens = "35 mm"

[card]
kind = "printed"
size = "18in x 12in"

[[colour]]
name = "NAVY"
hex = "#14284f"

[[colour]]
name = "CREAM"
hex = "#fdf4dc"

[[cue]]
text = "H"

[print]
paper = "Letter"
placards = "printed"
turn = "long edge"
tile = true
`, "stickers": `version = 1

[stands]
table = "stands.csv"

[camera]
back = "12 m"
height = "3 m"
picture = [960, 540]

[[colour]]
name = "NAVY"
hex = "#14284f"

[[colour]]
name = "CREAM"
hex = "#fdf4dc"

[[cue]]
text = "H"

[print]
grid = { columns = 2, rows = 5, width = "4in", height = "2in", left = "4 mm", top = "0.5in", across = "4.1in", down = "2in" }
`}

// What a change of a key does.
const (
	nothing  = iota // on paper
	paper           // something else than what seats show and get
	seats           // what seats show and get
	either          // something, and what seats show if it comes out so: the message is laid anew
	whatever        // it depends
)

// changes are one or more of every key: in which stunt, the line before and after, and what that does to paper.
var changes = []struct {
	in, key, was, is string
	does             int
}{
	{"full", "title", `title = "Lantern Fair"`, `title = "Lantern Fare"`, paper},
	{"full", "date", `"2027-06-12"`, `"2027-06-13"`, paper},
	{"full", "place", `place = "indoors"`, `place = "outdoors"`, paper},
	{"full", "contact", `"harbour office"`, `"harbour master"`, paper},
	{"full", "tempo", `tempo = 100`, `tempo = 110`, paper},
	{"full", "flashing_risk_accepted", `accepted by the safety officer`, `accepted by the harbour office`, nothing}, // nothing flashes
	{"full", "stands.posted", `posted = 300`, `posted = 301`, paper},
	{"full", "stands.people", `people = 40`, `people = 39`, paper},
	{"full", "stands.expected", `"88 %"`, `"80 %"`, paper},
	{"full", "stands.origin", `origin = "A"`, `origin = "B"`, either},
	{"stickers", "stands.sheet", `table = "stands.csv"`, "table = \"stands.xlsx\"\nsheet = \"Fewer\"", seats},
	{"stickers", "stands.front", `table = "stands.csv"`, "table = \"stands.csv\"\nfront = \"last line\"", seats},
	{"stickers", "stands.unread", `table = "stands.csv"`, "table = \"stands.csv\"\nunread = \"left out\"", nothing},
	{"stickers", "section.front", "[camera]", "[[section]]\nname = \"A\"\nfront = \"last line\"\n\n[camera]", seats},
	{"stickers", "stands.table", `table = "stands.csv"`, `table = "other.csv"`, seats},
	{"full", "section.name", `name = "F"`, `name = "G"`, seats},
	{"full", "section.kind", `kind = "bench"`, `kind = "chairs"`, either},
	{"full", "section.posture", `posture = "sitting"`, `posture = "standing"`, either},
	{"full", "section.rows", "rows = 1\nseats = 5", "rows = 2\nseats = 5", seats},
	{"full", "section.seats", "rows = 1\nseats = 5", "rows = 1\nseats = 4", seats},
	{"full", "section.bench", `bench = "12 ft"`, `bench = "14 ft"`, seats},
	{"full", "section.pitch", `pitch = "24in"`, `pitch = "25in"`, either},
	{"full", "section.rise", "rise = \"10in\"\nrun = \"26in\"\nfirst", "rise = \"10.5in\"\nrun = \"26in\"\nfirst", either},
	{"full", "section.run", "run = \"26in\"\nfirst", "run = \"27in\"\nfirst", either},
	{"full", "section.first_row", `first_row = "10in"`, `first_row = "12in"`, either},
	{"full", "section.seat_board", `seat_board = "17in"`, `seat_board = "18in"`, either},
	{"full", "section.aisle", `aisle = "4 ft"`, `aisle = "5 ft"`, nothing}, // the section beside it stands elsewhere
	{"full", "section.align", `align = "centre"`, `align = "left"`, either},
	{"small", "section.radius", `radius = "20 m"`, `radius = "30 m"`, either},
	{"full", "section.place.across", `across = "4.5 m"`, `across = "4.6 m"`, either},
	{"full", "section.place.away", `away = "0.2 m"`, `away = "0.3 m"`, either},
	{"full", "section.place.facing", `facing = 5`, `facing = 8`, either},
	{"full", "section.row_names.letters", "rows = 1\nseats = 5", "row_names = { letters = true }\nrows = 1\nseats = 5", seats},
	{"full", "section.row_names.all_letters", "rows = 1\nseats = 5", "row_names = { letters = true, all_letters = true, start = 9 }\nrows = 1\nseats = 5", seats},
	{"full", "section.row_names.from", "rows = 1\nseats = 5", "row_names = { from = \"back\" }\nrows = 2\nseats = 5", seats},
	{"full", "section.seat_numbers.from", `from = "right"`, `from = "left"`, seats},
	{"full", "section.seat_numbers.start", "seats = 5\n", "seats = 5\nseat_numbers = { from = \"left\", start = 2 }\n", seats},
	{"full", "section.seat_numbers.step", "seats = 5\n", "seats = 5\nseat_numbers = { from = \"left\", step = 2 }\n", seats},
	{"full", "section.cross_aisles.after", `after = "B"`, `after = "C"`, either},
	{"full", "section.cross_aisles.depth", `depth = "3 ft"`, `depth = "4 ft"`, either},
	{"full", "section.missing", `missing = ["B-3"]`, `missing = ["B-4"]`, seats},
	{"full", "section.reserved.seats", `seats = ["A-1"]`, `seats = ["A-3"]`, seats},
	{"full", "section.reserved.for", `for = "companion"`, `for = "platform"`, seats},
	{"full", "section.cards", `cards = false`, `cards = true`, seats},
	{"full", "room.walls", `["12 m", "-20 m"]`, `["12 m", "-21 m"]`, paper},
	{"full", "room.lane.name", `"door lane"`, `"side lane"`, paper},
	{"full", "room.lane.left", `left = "6 m"`, `left = "6.2 m"`, paper},
	{"full", "room.lane.right", `right = "7 m"`, `right = "7.2 m"`, paper},
	{"full", "room.lane.near", `near = "-8 m"`, `near = "-9 m"`, paper},
	{"full", "room.lane.far", `far = "-5 m"`, `far = "-4.5 m"`, paper},
	{"full", "room.exit.name", `"north door", across`, `"west door", across`, paper},
	{"full", "room.exit.across", `across = "-12 m"`, `across = "-11 m"`, paper},
	{"full", "room.exit.away", `away = "-6 m"`, `away = "-7 m"`, paper},
	{"full", "room.exit.width", `width = "1.8 m" }]` + "\nobst", `width = "2 m" }]` + "\nobst", paper},
	{"full", "room.obstacle.name", `name = "hoop"`, `name = "ring"`, paper},
	{"full", "room.obstacle.kind", `kind = "hoop"`, `kind = "box"`, nothing}, // it stands where it stood
	{"full", "room.obstacle.across", `across = "-9 m"`, `across = "-9.5 m"`, paper},
	{"full", "room.obstacle.away", `away = "-2 m"`, `away = "-2.5 m"`, paper},
	{"full", "room.obstacle.width", `width = "1.8 m", bottom`, `width = "2 m", bottom`, paper},
	{"full", "room.obstacle.height", `height = "1 m"`, `height = "1.2 m"`, nothing}, // it hides nobody
	{"full", "room.obstacle.bottom", `bottom = "2.9 m"`, `bottom = "3 m"`, nothing},
	{"full", "room.camera", `left = "-8 m"`, `left = "-8.5 m"`, paper},
	{"full", "camera.back", `back = "13 m"`, `back = "13.3 m"`, either},
	{"full", "camera.across", `across = "0.2 m"`, `across = "0.3 m"`, either},
	{"full", "camera.height", "across = \"0.2 m\"\nheight = \"3 m\"", "across = \"0.2 m\"\nheight = \"3.1 m\"", either},
	{"full", "camera.picture", "height = \"3 m\"\npicture = [960, 540]", "height = \"3 m\"\npicture = [1920, 1080]", either},
	{"full", "camera.sees", `"6.3 m at 5 m"`, `"6.1 m at 5 m"`, either},
	{"small", "camera.sensor", `sensor = "36 mm x 24 mm"`, `sensor = "35 mm x 24 mm"`, either},
	{"small", "camera.lens", `lens = "35 mm"`, `lens = "36 mm"`, either},
	{"full", "camera.aim", `aim = { across = "0.5 m"`, `aim = { across = "0.6 m"`, either},
	{"full", "camera.walks", `walks = true`, `walks = false`, paper},
	{"full", "mark.name", `name = "opposite"`, `name = "over there"`, paper},
	{"full", "mark.back", `back = "15 m"`, `back = "15.5 m"`, either},
	{"full", "mark.across", `across = "0.5 m"` + "\nheight", `across = "0.6 m"` + "\nheight", either},
	{"full", "mark.height", `height = "3.5 m"`, `height = "3.6 m"`, either},
	{"full", "camera.field_of_view", `field_of_view = 60`, `field_of_view = 62`, whatever},
	{"full", "card.size", `size = "Letter"`, `size = "A4"`, seats},
	{"full", "card.orientation", `"landscape"`, `"portrait"`, seats},
	{"full", "card.held", `held = "eyes"`, `held = "chin"`, seats},
	{"full", "card.turn", `turn = "mark"`, ``, either},
	{"full", "card.kind", `kind = "bonded"`, `kind = "sheet"`, seats},
	{"full", "card.hand_height", `"4 cm"`, `"9 cm"`, whatever},
	{"full", "card.hand_sideways", `hand_sideways = "2 cm"`, `hand_sideways = "9 cm"`, whatever},
	{"full", "card.hand_tilt", `hand_tilt = 8`, `hand_tilt = 25`, whatever},
	{"full", "colour.name", `CREAM`, `CHALK`, seats},
	{"full", "colour.hex", `"#c02020"`, `"#c02030"`, seats},
	{"full", "colour.sheets", `sheets = 900`, `sheets = 901`, paper},
	{"full", "colour.pack", `pack = 250` + "\nprice", `pack = 100` + "\nprice", nothing}, // there are enough
	{"full", "colour.pack of what is bought", `hex = "#fdf4dc"`, `hex = "#fdf4dc"` + "\npack = 100", paper},
	{"full", "colour.price of what is bought", `hex = "#fdf4dc"`, `hex = "#fdf4dc"` + "\npack = 100\nprice = 5.00", paper},
	{"full", "colour.price", `price = 24.50`, `price = 25.00`, nothing},
	{"full", "colour.no_more", `price = 24.50`, `price = 24.50` + "\nno_more = true", nothing},
	{"full", "colour.darkest_ink", `hex = "#fdf4dc"`, `hex = "#fdf4dc"` + "\ndarkest_ink = \"white\"", nothing}, // labels are white paper
	{"full", "cue.name", `name = "one"`, `name = "first"`, seats},
	{"full", "cue.text", `text = "HI"`, `text = "LO"`, seats},
	{"full", "cue.image", `"lantern.png"`, `"other.png"`, seats},
	{"full", "cue.ink", `ink = "CREAM"`, `ink = "RED"`, seats},
	{"full", "cue.ground", "ink = \"CREAM\"\nground = \"NAVY\"", "ink = \"CREAM\"\nground = \"RED\"", seats},
	{"full", "cue.on", `on = ["A", "B"]` + "\nrows = [\"A-A..F\", \"B-1..6\"]", `on = ["A"]`, seats},
	{"full", "cue.rows", `"A-A..F"`, `"A-B..F"`, seats},
	{"full", "cue.fit", `fit = "fill"`, `fit = "fit"`, seats},
	{"full", "cue.reduce", `reduce = "flat"`, `reduce = "diffuse"`, seats},
	{"full", "cue.exposure", `exposure = 0.5`, `exposure = -2`, seats},
	{"full", "cue.focus", `focus = [0.4, 0.5]`, `focus = [0.9, 0.1]`, seats},
	{"full", "cue.at", `at = "count 9"`, `at = "count 10"`, seats},
	{"full", "cue.up", `up = "2 s"`, `up = "2.5 s"`, paper},
	{"full", "cue.hold", `hold = "10 s"`, `hold = "11 s"`, paper},
	{"full", "cue.transition", `"left to right"` + "\ntakes", `"right to left"` + "\ntakes", seats},
	{"full", "cue.takes", `takes = "3 s"`, `takes = "5 s"`, seats},
	{"full", "cue.painted", `"B-6-1..2" = "RED"`, `"B-6-1..3" = "RED"`, seats},
	{"full", "laying.how", `how = "lay"`, `how = "pass"`, paper},
	{"full", "laying.helpers", `helpers = 6`, `helpers = 9`, paper},
	{"full", "laying.direction", `direction = "left to right"`, `direction = "right to left"`, seats},
	{"full", "laying.serpentine", `serpentine = true`, `serpentine = false`, seats},
	{"full", "laying.per_card", `per_card = "6 s"`, `per_card = "8 s"`, paper},
	{"full", "laying.per_row", `per_row = "20 s"`, `per_row = "40 s"`, paper},
	{"full", "laying.start", `start = "front"`, `start = "back"`, seats},
	{"full", "print.paper", `paper = "Letter"`, `paper = "Legal"`, paper},
	{"full", "print.per_sheet", `per_sheet = 4`, `per_sheet = 10`, paper},
	{"full", "print.placards", `placards = "labels"`, `placards = "stock"`, paper},
	{"full", "print.cut", `"each sheet"`, `"whole pile"`, paper},
	{"small", "print.turn", `"long edge"`, `"short edge"`, paper},
	{"full", "print.margin", `margin = "5 mm"`, `margin = "6 mm"`, paper},
	{"small", "print.tile", `size = "18in x 12in"`, `size = "17in x 12in"`, seats}, // no other cards can be printed without
	{"stickers", "print.grid", `top = "0.5in"`, `top = "0.6in"`, paper},
	{"full", "print.bands", `bands = true`, `bands = false`, paper},
	{"full", "print.band_grid", `height = "1in"`, `height = "0.99in"`, paper},
	{"full", "print.toner", `toner = 0.25`, `toner = 0.35`, paper},
	{"full", "print.white_pack", `white_pack = 250`, `white_pack = 50`, paper},
	{"full", "print.white_price", `white_price = 15.00`, `white_price = 19.00`, paper},
	{"full", "print.wage", `wage = 12`, `wage = 14`, paper},
	{"full", "day.doors", `doors = "17:30"`, `doors = "17:20"`, paper},
	{"full", "day.take", `take = "18:45"`, `take = "19:45"`, paper},
	{"full", "day.from", `from = "15:00"`, `from = "15:10"`, paper},
	{"full", "day.until", `until = "20:00"`, `until = "20:10"`, paper},
	{"full", "day.signs", `["fire official"]`, `["custodian"]`, paper},
	{"full", "day.rehearsals", `["18:25"]`, `["18:20"]`, paper},
	{"full", "day.keys", `keys = ["stands"]`, `keys = ["hall"]`, paper},
	{"full", "people.roster", `"roster.csv"`, `"others.csv"`, paper},
	{"full", "people.names", `names = true`, `names = false`, paper},
	{"full", "people.held_by", `"the group's leader"`, `"the office"`, paper},
	{"full", "people.wear", `per_minute = 30`, "per_minute = 30\nwear = \"dark\"", whatever},
	{"full", "people.per_minute", `per_minute = 30`, `per_minute = 3`, paper},
	{"full", "group.name", `name = "harbour choir"`, `name = "hill choir"`, paper},
	{"full", "group.people", `people = 12`, `people = 11`, paper},
	{"full", "group.wheelchairs", `wheelchairs = 1`, `wheelchairs = 0`, paper},
	{"full", "group.companions", `companions = 1`, `companions = 0`, paper},
	{"full", "group.not_filmed", `not_filmed = 1`, `not_filmed = 2`, paper},
	{"full", "group.leader", `"choir office"`, `"sail office"`, paper},
	{"full", "group.room", `"sail loft"`, `"net loft"`, paper},
	{"full", "group.door", `door = "north door"`, `door = "quay door"`, paper},
	{"full", "group.time", `"17:35"`, `"17:40"`, paper},
}

// Paper differs exactly when the code does, and its first half exactly when a seat shows or gets something else; held
// for every key of the stunt file, changed one by one.
func TestCodeTellsWhatPaperShows(t *testing.T) {
	before := map[string]printed{}
	for name, text := range keyed {
		before[name] = printOf(t, text)
	}
	for _, c := range changes {
		t.Run(strings.ReplaceAll(c.key, ".", "_"), func(t *testing.T) {
			t.Parallel()
			if n := strings.Count(keyed[c.in], c.was); n != 1 && c.key != "colour.name" {
				t.Fatalf("%q stands %d times in the stunt", c.was, n)
			}
			was, is := before[c.in], printOf(t, strings.ReplaceAll(keyed[c.in], c.was, c.is))
			first, second := was.code[:4] != is.code[:4], was.code[5:] != is.code[5:]
			var differ []string
			for name := range is.sheets {
				if !bytes.Equal(was.sheets[name], is.sheets[name]) {
					differ = append(differ, name)
				}
			}
			for name := range was.sheets {
				if is.sheets[name] == nil {
					differ = append(differ, name+" is gone")
				}
			}
			slices.Sort(differ)
			onPaper, moved := len(differ) > 0, was.seats != is.seats
			if onPaper != (first || second) || onPaper != (c.does != nothing) && c.does != whatever {
				t.Errorf("code %s, then %s; on paper differ %q", was.code, is.code, differ)
			}
			if changes := c.does == seats || moved && c.does >= either; first != changes {
				t.Errorf("code %s, then %s: does the first half change? seats.csv differs: %v", was.code, is.code, moved)
			}
		})
	}
}

// What is to be printed anew is what differs when the code is always the same: no page more where nothing else does,
// and at least one where something does.
func TestAnew(t *testing.T) {
	for i := 0; i < len(changes); i += 9 {
		c := changes[i]
		t.Run(strings.ReplaceAll(c.key, ".", "_"), func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			was, is := keyed[c.in], strings.ReplaceAll(keyed[c.in], c.was, c.is)
			old := buildOf(t, was)
			folder, err := layouts.NewFolder(dir)
			if err == nil {
				err = layouts.Write(old, layouts.Options{}, folder)
			}
			if err != nil {
				t.Fatal(err)
			}
			now := buildOf(t, is)
			before, err := layouts.Found(dir, now.Code)
			if err != nil || (before == nil) != (old.Code == now.Code) {
				t.Fatalf("plan %s, then %s: the one before is %v", old.Code, now.Code, before)
			}
			if before == nil {
				return
			}
			s := shelf{files: map[string][]byte{}}
			said, err := before.Write(now, &s)
			if err != nil {
				t.Fatal(err)
			}
			oldSheets, newSheets := printOf(t, was).sheets, printOf(t, is).sheets
			for name := range newSheets {
				anew := slices.ContainsFunc(said.Anew, func(sheet string) bool {
					return strings.HasPrefix(sheet, strings.TrimPrefix(name, "sheets/"))
				})
				if differs := !bytes.Equal(oldSheets[name], newSheets[name]); anew != differs {
					t.Errorf("%s: is it printed anew? %v; does it differ? %v", name, anew, differs)
				}
			}
		})
	}
}

// TestEveryKeyIsChanged holds that no key of the stunt file is left out above.
func TestEveryKeyIsChanged(t *testing.T) {
	table, shown := "", 0
	for line := range strings.Lines(string(stuntfile.Fresh())) {
		line = strings.TrimPrefix(strings.TrimSpace(line), "# ")
		if m := regexp.MustCompile(`^\[+([a-z]+)\]+`).FindStringSubmatch(line); m != nil {
			table = m[1] + "."
		}
		m := regexp.MustCompile(`^([a-z_]+) = `).FindStringSubmatch(line)
		if m == nil || m[1] == "version" {
			continue
		}
		shown++
		key := table + m[1]
		if !slices.ContainsFunc(changes, func(c struct {
			in, key, was, is string
			does             int
		}) bool {
			return c.key == key || strings.HasPrefix(c.key, key+".")
		}) {
			t.Errorf("no change of %s", key)
		}
	}
	if shown < 80 {
		t.Errorf("only %d keys seen", shown)
	}
}

// printed is the paper of a stunt, as if its code were always the same.
type printed struct {
	code, seats string
	sheets      map[string][]byte
}

func printOf(t *testing.T, text string) printed {
	t.Helper()
	b := buildOf(t, text)
	same := *b
	same.Code = brief.Code("SAME-CODE")
	s := shelf{files: map[string][]byte{}}
	if err := layouts.Write(&same, layouts.Options{Only: []string{layouts.OnlySheets}}, &s); err != nil {
		t.Fatal(err)
	}
	var csv bytes.Buffer
	if err := tables.Seats(&csv, b.Plan); err != nil {
		t.Fatal(err)
	}
	return printed{string(b.Code), csv.String(), maps.Clone(s.files)}
}

func buildOf(t *testing.T, text string) *brief.Brief {
	t.Helper()
	file, err := stuntfile.Parse("stunt.toml", []byte(text), func(name string) ([]byte, error) {
		if data := beside()[name]; data != nil {
			return data, nil
		}
		return nil, fs.ErrNotExist
	})
	if err != nil {
		t.Fatal(err)
	}
	b, err := build.Run(context.Background(), file, build.Options{Without: outlook.Advice})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// beside are the files that lie beside the stunts.
var beside = sync.OnceValue(func() map[string][]byte {
	picture := func(at int) []byte {
		img := image.NewNRGBA(image.Rect(0, 0, 40, 30))
		for y := range 30 {
			for x := range 40 {
				img.SetNRGBA(x, y, color.NRGBA{uint8(20 + 5*x), uint8(40 + 6*y), uint8((x*y + at) % 200), 255})
			}
		}
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			panic(err)
		}
		return b.Bytes()
	}
	stands := "section,row,seats,rise in,run in,pitch in\nA,1,8,10,26,20\nA,2,8,10,26,20\nA,3,8,10,26,20\nA,4,8,10,26,20\nA,5,8,10,26,20\nA,6,8,10,26,20\n"
	return map[string][]byte{
		"lantern.png": picture(0), "other.png": picture(120),
		"stands.xlsx": workbook(map[string]string{"Stands": stands, "Fewer": strings.Replace(stands, "A,4,8", "A,4,7", 1)}),
		"stands.csv":  []byte(stands), "other.csv": []byte(strings.Replace(stands, "A,4,8", "A,4,7", 1)),
		"roster.csv": []byte("person,group,needs,may not be filmed\nP-1,net-menders,,\nP-2,net-menders,,\nP-3,net-menders,,\n"),
		"others.csv": []byte("person,group,needs,may not be filmed\nP-1,net-menders,,\nP-4,net-menders,,\nP-3,net-menders,,\n"),
	}
})

// workbook makes a workbook of tables by their sheets' names.
func workbook(sheets map[string]string) []byte {
	f := excelize.NewFile()
	defer f.Close()
	for _, name := range slices.Sorted(maps.Keys(sheets)) {
		if _, err := f.NewSheet(name); err != nil {
			panic(err)
		}
		for r, line := range strings.Split(strings.TrimSpace(sheets[name]), "\n") {
			row := strings.Split(line, ",")
			if err := f.SetSheetRow(name, "A"+strconv.Itoa(r+1), &row); err != nil {
				panic(err)
			}
		}
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// shelf is a sink that keeps files in memory.
type shelf struct {
	mu    sync.Mutex
	files map[string][]byte
}

func (s *shelf) Put(name string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files[name] = b.Bytes()
	return nil
}
