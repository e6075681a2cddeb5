package stuntfile

import (
	"errors"
	"testing"

	"everyseat/seating"
)

func TestLocate(t *testing.T) {
	f := parseText(t, everything, map[string]string{"pictures/lantern.png": "PNG"})
	for key, want := range map[string]string{
		"title":                      `"Lantern Fair"`,
		"section[1].bench":           `["30ft"`,
		"section[1].bench[1]":        `"9.5 m"`,
		"section[0].seats[2]":        `17]`,
		"section[0].seats":           `[18, 18`,
		"section[0].missing[1]":      `"A-D-1..3"`,
		"section[0].reserved[1].for": `"companion"`,
		"section[1].place.facing":    `90`,
		"section[1].rise":            "[[section]]\nname = \"B\"", // absent: its table
		"section[1].place.height":    "[section.place]",
		"section[7].rise":            "version", // no such section: the file's start
		"room.lane[0]":               `{ name = "door"`,
		"room.lane[0].left":          `"-1 m", right`,
		"room.walls[1]":              `["10 m"`,
		"camera.height":              `"3 m"`,
		"camera.lens":                "[camera]",
		"mark[1].back":               `"12 m"`,
		"colour[1].hex":              `"#fdf4dc"`,
		"cue[0].text":                `"GLOW\nUP"`,
		"cue[1].painted[1]":          `"none"`,
		"cue[0].rows[1]":             `"A-C.."`,
		`cue[1].painted."B-high-1"`:  `"none"`,
		"cue[1]":                     "[[cue]]\nimage",
		"stands.posted":              `600`,
		"nonsense":                   "version",
		"":                           "version",
		"a..b":                       "version",
	} {
		err := f.Locate(&seating.Fault{Key: key, What: "x"})
		var got *seating.Fault
		if !errors.As(err, &got) {
			t.Fatalf("%s: got %v", key, err)
		}
		line, column := f.doc.lineColumn(index(t, everything, unescape(want)))
		if got.File != "stunt.toml" || got.Line != line || got.Column != column {
			t.Errorf("%s: at %s, want %d:%d", key, got.Where(), line, column)
		}
	}
	other := errors.New("other")
	if f.Locate(other) != other {
		t.Error("an error that is no fault was changed")
	}
	placed := &seating.Fault{File: "x.csv", Line: 3}
	if f.Locate(placed) != error(placed) {
		t.Error("a fault with a file was changed")
	}
}

const tableCSV = "section,row,seats\nA,1,10\nA,2,10\nB,1,8\nB,2,8\n"

const withTable = `version = 1
[stands]
table = "stands.csv"
[[section]]
name = "B"
rise = "9in"
missing = ["1-2"]
[[section]]
name = "FLOOR"
kind = "floor"
rows = 2
seats = 9
cards = false
[camera]
back = "9 m"
[[colour]]
name = "NAVY"
hex = "#14284f"
[[cue]]
painted = { "A-1-1" = "NAVY" }
`

func TestTableAndSections(t *testing.T) {
	f := parseText(t, withTable, map[string]string{"stands.csv": tableCSV})
	secs := f.Stunt.Stands.Sections
	if len(secs) != 3 || secs[0].Name != "A" || secs[1].Name != "B" || secs[2].Name != "FLOOR" {
		t.Fatalf("sections are %+v", secs)
	}
	if secs[1].Rise != 9*seating.Inch || len(secs[1].Missing) != 1 || secs[1].Rows != 2 || !secs[2].NoCards {
		t.Errorf("[[section]] did not refine the table: %+v", secs[1:])
	}
	for key, want := range map[string]string{
		"section[0].rise":  `stunt.toml:3:9: section "A" of the table: x`,
		"section[0]":       `stunt.toml:3:9: section "A" of the table: x`,
		"section[1].rise":  "stunt.toml:6:8: x",
		"section[1].seats": `stunt.toml:3:9: section "B" of the table: x`,
		"section[2].rows":  "stunt.toml:11:8: x",
		"section[2].rise":  "stunt.toml:8:1: x",
	} {
		if got := f.Locate(&seating.Fault{Key: key, What: "x"}).Error(); got != want {
			t.Errorf("%s: %s, want %s", key, got, want)
		}
	}
}
