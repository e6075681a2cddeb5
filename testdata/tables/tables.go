// Package tables holds readers to tables that somebody else wrote and explained, for tests alone; README.md says how
// they came about.
package tables

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"everyseat/seating"
)

// Most is how many tables of each folder may be taken for something else, as measured, and how many each has at least.
type Most struct{ Dev, Opened, Held, Tables int }

// AsMeant has every table of a kind read: wrong says what the reading has that the table, of that meaning, does not
// mean, "" = nothing; a table that is refused gives a *seating.Fault. Of the tables held out the score alone is told.
func AsMeant[M any](t *testing.T, kind string, most Most,
	read func(name string, data []byte, m *M) (wrong string, err error)) {
	t.Helper()
	for _, folder := range []struct {
		name string
		most int
	}{{"dev", most.Dev}, {"opened", most.Opened}, {"held", most.Held}} {
		_, here, _, _ := runtime.Caller(0)
		files, err := filepath.Glob(filepath.Join(filepath.Dir(here), kind, folder.name, "*.json"))
		if err != nil || len(files) < most.Tables {
			t.Fatalf("%s/%s: %d tables, %v", kind, folder.name, len(files), err)
		}
		right, refused := 0, 0
		for _, file := range files {
			name, data, m := open[M](t, file)
			wrong, err := read(filepath.Base(name), data, m)
			fault, isFault := errors.AsType[*seating.Fault](err)
			switch {
			case isFault && (fault.What == "" || fault.Hint == ""):
				t.Errorf("%s is refused without a reason or a hint: %v", name, err)
			case err != nil && !isFault:
				t.Errorf("%s: %v is no fault", name, err)
			case folder.name != "held" && isFault:
				t.Logf("%s is refused: %v", name, err)
			case folder.name != "held" && wrong != "":
				t.Logf("%s is taken for something else: %s", name, wrong)
			}
			if isFault {
				refused++
			} else if err == nil && wrong == "" {
				right++
			}
		}
		wrong := len(files) - right - refused
		t.Logf("%s/%s: of %d tables %d read as they are meant, %d refused, %d wrong", kind, folder.name, len(files), right,
			refused, wrong)
		if wrong > folder.most {
			t.Errorf("%s/%s: %d are taken for something else, at most %d may be", kind, folder.name, wrong, folder.most)
		}
	}
}

// open gives the table that a meaning is of.
func open[M any](t *testing.T, file string) (name string, data []byte, m *M) {
	t.Helper()
	m = new(M)
	said, err := os.ReadFile(file)
	if err == nil {
		err = json.Unmarshal(said, m)
	}
	if err != nil {
		t.Fatal(file, err)
	}
	for _, ending := range []string{".csv", ".xlsx"} {
		name = strings.TrimSuffix(file, ".json") + ending
		if data, err = os.ReadFile(name); err == nil {
			return name, data, m
		}
	}
	t.Fatal(err)
	return "", nil, nil
}
