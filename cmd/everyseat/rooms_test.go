package main

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// allowed is the way of the data: what each room imports of this module, directly. Whoever adds a room or an
// arrow adds it here, and takes away what is gone; an arrow that runs backwards fails here.
var allowed = roomsOf(`
seating
seating/together
seating/say:        seating
seating/cells:      seating
seating/survey:     seating seating/cells
seating/camera:     seating seating/together
seating/laying:     seating
seating/people:     seating seating/cells seating/say
mosaic/colour
mosaic/flash:       mosaic/colour
mosaic/stock:       mosaic/colour
mosaic/faces
mosaic/legibility:  seating/together mosaic/faces
mosaic/lettering:   mosaic/faces mosaic/legibility seating/together
mosaic/artwork:     seating seating/together mosaic/colour
mosaic:             seating seating/say seating/camera seating/laying seating/people mosaic/colour mosaic/flash
mosaic:             mosaic/stock mosaic/legibility mosaic/lettering mosaic/artwork
mosaic/stuntfile:   seating seating/survey seating/camera seating/people mosaic/colour mosaic
mosaic/marks:       seating seating/together seating/say seating/camera mosaic/legibility mosaic
mosaic/advice:      seating seating/together seating/say seating/camera mosaic/colour mosaic/legibility
mosaic/advice:      mosaic/lettering mosaic mosaic/marks
mosaic/outlook:     seating seating/together seating/say seating/camera mosaic/colour
mosaic/outlook:     mosaic/stock mosaic/legibility mosaic mosaic/marks mosaic/advice
mosaic/brief:       seating seating/say seating/camera seating/people mosaic/colour mosaic/stock
mosaic/brief:       mosaic/legibility mosaic mosaic/advice mosaic/outlook
mosaic/build:       seating mosaic mosaic/stuntfile mosaic/marks mosaic/advice mosaic/outlook mosaic/brief
layouts/paper:      seating/say mosaic/colour
layouts/tables:     seating seating/camera seating/people mosaic/stock mosaic/legibility mosaic mosaic/marks
layouts/tables:     mosaic/advice mosaic/outlook mosaic/brief
layouts/pictures:   seating seating/together seating/say seating/camera mosaic/colour mosaic/legibility mosaic
layouts/pictures:   mosaic/marks mosaic/outlook mosaic/brief layouts/paper
layouts/sheets:     seating seating/say seating/people mosaic/colour mosaic mosaic/brief layouts/paper
layouts:            seating seating/together seating/people mosaic mosaic/marks mosaic/brief layouts/tables
layouts:            layouts/paper layouts/pictures layouts/sheets
cmd/everyseat:      seating seating/say seating/survey seating/people mosaic/colour mosaic mosaic/stuntfile
cmd/everyseat:      mosaic/marks mosaic/outlook mosaic/brief mosaic/build layouts/tables layouts
`)

// roomsOf reads a room a line, and after a colon what it may import.
func roomsOf(table string) map[string][]string {
	out := map[string][]string{}
	for line := range strings.Lines(strings.TrimSpace(table)) {
		room, imports, _ := strings.Cut(line, ":")
		room = strings.TrimSpace(room)
		out[room] = append(out[room], strings.Fields(imports)...)
	}
	return out
}

// A library that is no longer worked on stays behind one room.
var behindOneRoom = map[string]string{
	"github.com/fogleman/gg":          "layouts/pictures",
	"github.com/jung-kurt/gofpdf":     "layouts/paper",
	"github.com/xuri/excelize/v2":     "",
	"github.com/pelletier/go-toml/v2": "mosaic/stuntfile",
	"github.com/spf13/cobra":          "cmd/everyseat",
	"github.com/spf13/pflag":          "cmd/everyseat",
}

type listed struct {
	ImportPath string
	Imports    []string
}

func listRooms(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "everyseat/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	var rooms []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var r listed
		if err := dec.Decode(&r); errors.Is(err, io.EOF) {
			return rooms
		} else if err != nil {
			t.Fatal(err)
		}
		rooms = append(rooms, r)
	}
}

// strays lists the imports of one room that its line does not allow.
func strays(room string, imports []string) []string {
	var bad []string
	for _, path := range imports {
		if inside, ok := strings.CutPrefix(path, "everyseat/"); ok {
			if !slices.Contains(allowed[room], inside) {
				bad = append(bad, inside)
			}
			continue
		}
		if home := behindOneRoom[path]; home != "" && home != room {
			bad = append(bad, path+" (only "+home+" may)")
		}
	}
	return bad
}

func TestRoomsImportOneWay(t *testing.T) {
	rooms := listRooms(t)
	if len(rooms) < 10 {
		t.Fatalf("go list named only %d rooms", len(rooms))
	}
	for _, r := range rooms {
		room := strings.TrimPrefix(r.ImportPath, "everyseat/")
		if _, ok := allowed[room]; !ok {
			t.Errorf("room %s has no line in the table of allowed imports", room)
			continue
		}
		for _, s := range strays(room, r.Imports) {
			t.Errorf("%s imports %s, which the way of the data does not allow", room, s)
		}
		for _, path := range allowed[room] {
			if !slices.Contains(r.Imports, "everyseat/"+path) {
				t.Errorf("%s may import %s and does not", room, path)
			}
		}
	}
	for room := range allowed {
		if !slices.ContainsFunc(rooms, func(r listed) bool { return r.ImportPath == "everyseat/"+room }) {
			t.Errorf("the table has a room %s, and there is none", room)
		}
	}
	if len(strays("seating", []string{"everyseat/mosaic"})) != 1 || len(strays("mosaic", []string{"github.com/fogleman/gg"})) != 1 {
		t.Error("the check lets a backward arrow through")
	}
}
