package main

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/layouts"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/build"
	"everyseat/mosaic/outlook"
	"everyseat/mosaic/stuntfile"
)

var update = flag.Bool("update", false, "make the README's picture anew; look at it before you keep it")

const readmePicture = "testdata/readme/camera.png"

// smallDemo is the demo's stunt, filmed in a size that suits a page.
func smallDemo(t *testing.T) *brief.Brief {
	t.Helper()
	file, err := stuntfile.Load("demo")
	if err != nil {
		t.Fatal(err)
	}
	file.Stunt.Camera.Picture = [2]int{1600, 900}
	told, err := build.Run(t.Context(), file, build.Options{Without: outlook.Advice})
	if err != nil {
		t.Fatal(err)
	}
	return told
}

// TestReadmePicture: what the README shows is what the tool makes of the demo.
func TestReadmePicture(t *testing.T) {
	sink := layouts.NewMemory()
	if err := layouts.Write(smallDemo(t), layouts.Options{Only: []string{layouts.OnlyPictures}}, sink); err != nil {
		t.Fatal(err)
	}
	made := sink.File("pictures/camera-1.png")
	golden := filepath.Join("../..", readmePicture)
	if *update {
		if err := os.MkdirAll(filepath.Dir(golden), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, made, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	kept, err := os.ReadFile(golden)
	if err != nil {
		t.Fatalf("%v (go test ./cmd/everyseat -run Readme -update makes it)", err)
	}
	if len(made) == 0 || !bytes.Equal(made, kept) {
		t.Error("the demo's picture is not the README's any more: go test ./cmd/everyseat -run Readme -update, and look at it")
	}
	there, err := os.ReadDir(filepath.Dir(golden))
	if err != nil || len(there) != 1 {
		t.Errorf("%d files beside the README's picture, %v: there should be it alone", len(there), err)
	}
}

// TestReadmeCommands runs every everyseat command that the README shows, in its order.
func TestReadmeCommands(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	survey := []byte("section,row,seats\n")
	for row := 1; row <= 10; row++ {
		survey = fmt.Appendf(survey, "West,%d,18\nEast,%[1]d,18\n", row)
	}
	if !strings.Contains(string(text), "("+readmePicture+")") {
		t.Errorf("the README does not show %s", readmePicture)
	}
	t.Chdir(t.TempDir())
	for name, data := range map[string][]byte{"stands.csv": survey, "who.csv": []byte("class,count\nnet-menders' guild,30\n")} {
		if err := os.WriteFile(name, data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	ran := 0
	for line := range strings.Lines(string(text)) {
		command, ok := strings.CutPrefix(line, "go run ./cmd/everyseat ")
		if !ok {
			continue
		}
		command, _, _ = strings.Cut(command, "#")
		var said bytes.Buffer
		if code := run(words(command), nil, io.Discard, &said); code != exitDone {
			t.Errorf("everyseat %s ended with %d: %s", command, code, said.String())
		}
		ran++
	}
	if ran < 3 {
		t.Errorf("the README shows %d commands; the check has lost them", ran)
	}
	for _, made := range []string{"gullhaven/out/report.html", "ourfinale/out/sheets/rows.pdf"} {
		if _, err := os.Stat(made); err != nil {
			t.Error(err)
		}
	}
}

// words splits a command as a shell does, with plain words and double quotes.
func words(command string) []string {
	var out []string
	for i, part := range strings.Split(command, `"`) {
		if i%2 == 1 {
			out = append(out, part)
			continue
		}
		out = append(out, strings.Fields(part)...)
	}
	return out
}
