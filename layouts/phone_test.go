package layouts

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"everyseat/layouts/tables"
	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/outlook"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/testdata/judges"
)

// spoken is a word on three sections of 12 rows of 13, from 20 m and 3 m high.
func spoken(t *testing.T, word string) *mosaic.Plan {
	t.Helper()
	s := stunt()
	s.Stands.Sections = nil
	for _, name := range []string{"A", "B", "C"} {
		s.Stands.Sections = append(s.Stands.Sections, seating.SectionSpec{
			Name: name, Rows: 12, Seats: []int{13}, Pitch: 20 * seating.Inch, Rise: 10 * seating.Inch,
			Run: 26 * seating.Inch, SeatBoard: 17 * seating.Inch, Aisle: 4 * seating.Foot,
		})
	}
	s.Camera = camera.Mark{Back: 20 * seating.Metre, Height: 3 * seating.Metre}
	s.Colours = []mosaic.Colour{
		{Name: "NIGHT", RGB: colour.RGB{0x16, 0x29, 0x4d}, Sheets: -1},
		{Name: "GOLD", RGB: colour.RGB{0xf2, 0xb7, 0x05}, Sheets: -1},
	}
	s.Cues = []mosaic.Cue{{Text: word, Ground: "NIGHT", Ink: "GOLD"}}
	p, err := mosaic.Make(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The phone against an OCR program that reads a picture which OpenCV draws from plan.json and shrinks by area average
// (testdata/reader): of the words that it reads on film and that are called "reads" on a phone, it reads three of four
// on the phone at least; where the letters are too small for anything it reads none.
func TestPhoneAgainstTheReader(t *testing.T) {
	for _, program := range []string{"/usr/bin/python3", "tesseract"} {
		if _, err := exec.LookPath(program); err != nil || exec.Command("/usr/bin/python3", "-c", "import cv2").Run() != nil {
			judges.Missing(t, fmt.Sprintf("%s with OpenCV is not there: nobody reads the phone", program))
		}
	}
	words := []string{"LAMP", "GO", "TIDE", "WAVE", "HAVEN", "42", "TEAM", "WALK", "LAKE", "HEAT", "MAKE"}
	widths := []int{3840, legibility.PhoneWidth, 60}
	dir := t.TempDir()
	var draws, shrinks, reads []any
	var called []legibility.Verdict
	for i, word := range words {
		p := spoken(t, word)
		told := told(t, p)
		j := p.Judged(0)
		chances := legibility.NewChances(j.Fields, j.First, j.Ink, p.Cues[0].Text.Glyphs(), j.Options)
		if got, want := chances.Shrunk(legibility.PhoneWidth), told.Outlook.Cues[0].Phone[0]; got != want {
			t.Errorf("%s on a phone is foretold to be %+v, want %+v", word, want, got)
		}
		file, shot := filepath.Join(dir, word+".json"), filepath.Join(dir, word+".bmp")
		var b bytes.Buffer
		if err := tables.PlanJSON(&b, told); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		draws = append(draws, map[string]any{"plan": file, "picture": shot, "seed": i + 1, "empty": 0.08, "wrong": 0.01})
		for _, width := range widths {
			small := filepath.Join(dir, fmt.Sprintf("%s-%d.bmp", word, width))
			v := p.Marks[0].View
			_, _, perMetre := outlook.FrameAt(v, 24)
			shrinks = append(shrinks, map[string]any{"picture": shot, "width": width, "small": small})
			reads = append(reads, map[string]any{
				"picture": small, "ground": "#16294d", "ink": "#f2b705", "lines": 1,
				"card_px": p.Scene.Card.Width.Metres() * perMetre * float64(width) / float64(v.Width),
			})
			called = append(called, chances.Shrunk(float64(width)).Verdict)
		}
	}
	judges.Ask(t, "draw.py", draws)
	judges.Ask(t, "shrink.py", shrinks)
	film, phone, tiny := 0, 0, 0
	onFilm := false
	for i, line := range judges.Ask(t, "read.py", reads) {
		var a struct{ Text *string }
		if err := json.Unmarshal([]byte(line), &a); err != nil {
			t.Fatal(err)
		}
		word, read := words[i/len(widths)], "nothing"
		if a.Text != nil {
			read = *a.Text
		}
		right := a.Text != nil && read == strings.NewReplacer("O", "0", "I", "1").Replace(word)
		switch width := widths[i%len(widths)]; {
		case width > legibility.PhoneWidth:
			onFilm = right
		case width < legibility.PhoneWidth:
			if right {
				tiny++
			}
			if called[i] != legibility.DoesNotRead {
				t.Errorf("%s at %d pixels is called %q", word, width, called[i])
			}
		case onFilm && called[i] == legibility.Reads:
			film++
			if right {
				phone++
			}
		}
		t.Logf("%s at %d pixels: called %q, read as %s", word, widths[i%len(widths)], called[i], read)
	}
	t.Logf("read on film and called %q on a phone: %d, read there: %d; read at 60 pixels: %d", legibility.Reads, film, phone, tiny)
	if film < 2 || 4*phone < 3*film || tiny > 0 {
		t.Errorf("of %d read on film %d are read on a phone, %d at 60 pixels", film, phone, tiny)
	}
}
