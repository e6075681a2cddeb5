package lettering

import (
	"errors"
	"strings"
	"testing"

	"everyseat/mosaic/faces"
)

var cleanSeeds = []string{"HAVEN", "haven", "É ñ ü å", "TEA & PIE\nAT 7:30!", "Straße", "“quoted”", "שלום", "日本", "\n", "", "A\n\nB", "\xff\xfe", "e\u0301", strings.Repeat("A", 500)}

// FuzzClean: whatever comes in, either a misfit with one line and a hint comes out, or
// lines of letters that the faces have; and setting the result again changes nothing.
func FuzzClean(f *testing.F) {
	if len(cleanSeeds) == 0 {
		f.Fatal("no seeds")
	}
	for _, s := range cleanSeeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		lines, err := clean(text)
		if err != nil {
			var m *Misfit
			if !errors.As(err, &m) || m.What == "" || m.Hint == "" || strings.Contains(m.What, "\n") {
				t.Fatalf("%q: %#v", text, err)
			}
			return
		}
		var again strings.Builder
		for i, l := range lines {
			if len(l) == 0 {
				t.Fatalf("%q: line %d has no letter", text, i)
			}
			if i > 0 {
				again.WriteByte('\n')
			}
			for _, s := range l {
				if !faces.Known(s.rune) {
					t.Fatalf("%q: %q is in no face", text, s.rune)
				}
				if s.space {
					again.WriteByte(' ')
				}
				again.WriteRune(s.rune)
			}
		}
		twice, err := clean(again.String())
		if err != nil || len(twice) != len(lines) {
			t.Fatalf("%q set as %q: then %v", text, again.String(), err)
		}
	})
}

// A letter that no face has is named with the one to write instead, and the accents that are named are those that there
// are.
func TestWhatToWriteInstead(t *testing.T) {
	for text, want := range map[string]string{"ÇA": "write C for it", "łódź": "write L for it", "SØ": "write O for it", "ŠŤ": "write S for it", "5€": "write it in words"} {
		_, err := clean(text)
		var m *Misfit
		if !errors.As(err, &m) || !strings.Contains(m.Hint, want) || !strings.Contains(m.Hint, accentedLetters) {
			t.Errorf("%s: %v", text, err)
		}
	}
	for r := rune(0xC0); r < 0x250; r++ { // Latin-1 Supplement to Latin Extended-B
		if faces.Known(r) != strings.ContainsRune(accentedLetters, r) {
			t.Errorf("%c: the faces have it: %v", r, faces.Known(r))
		}
	}
}
