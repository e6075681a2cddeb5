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

// allowed is the way of the data: what each room may import of this module, directly. Whoever adds a
// room adds a line; an arrow that runs backwards fails here.
var allowed = map[string][]string{
	"judges":                 {},
	"seating":                {},
	"seating/camera":         {"seating"},
	"seating/laying":         {"seating"},
	"seating/people":         {"seating"},
	"mosaic/colour":          {},
	"mosaic/flash":           {"mosaic/colour"},
	"mosaic/stock":           {"mosaic/colour"},
	"mosaic/lettering/faces": {},
	"mosaic/legibility":      {"mosaic/colour", "mosaic/lettering/faces"},
	"mosaic/lettering":       {"mosaic/colour", "mosaic/legibility", "mosaic/lettering/faces"},
	"mosaic":                 {"seating", "seating/camera", "seating/laying", "seating/people", "mosaic/colour", "mosaic/flash", "mosaic/stock", "mosaic/legibility", "mosaic/lettering"},
	"mosaic/stuntfile":       {"mosaic", "mosaic/colour", "seating", "seating/camera", "seating/laying", "seating/people"},
	"mosaic/marks":           {"mosaic", "mosaic/colour", "mosaic/legibility", "mosaic/lettering", "seating", "seating/camera"},
	"mosaic/advice":          {"mosaic", "mosaic/marks", "mosaic/colour", "mosaic/legibility", "mosaic/lettering", "seating", "seating/camera"},
	"layouts/fonts":          {},
	"layouts/tables":         {"mosaic", "mosaic/marks", "mosaic/colour", "mosaic/legibility", "seating", "seating/camera", "seating/laying", "seating/people"},
	"layouts/pictures":       {"layouts/fonts", "mosaic", "mosaic/marks", "mosaic/colour", "mosaic/legibility", "seating", "seating/camera"},
	"layouts/sheets":         {"layouts/fonts", "mosaic", "mosaic/colour", "seating", "seating/camera", "seating/laying", "seating/people"},
	"layouts":                {"mosaic", "mosaic/marks", "mosaic/colour", "mosaic/legibility", "seating", "seating/camera", "seating/people", "layouts/tables", "layouts/pictures", "layouts/sheets"},
	"cmd/everyseat":          {"mosaic", "mosaic/advice", "mosaic/marks", "mosaic/stuntfile", "mosaic/colour", "seating", "seating/people", "layouts", "layouts/tables"},
}

// A library that is no longer worked on stays behind one room.
var behindOneRoom = map[string]string{
	"github.com/fogleman/gg":          "layouts/pictures",
	"github.com/jung-kurt/gofpdf":     "layouts/sheets",
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
	}
	if len(strays("seating", []string{"everyseat/mosaic"})) != 1 || len(strays("mosaic", []string{"github.com/fogleman/gg"})) != 1 {
		t.Error("the check lets a backward arrow through")
	}
}
