package stuntfile

import (
	"errors"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"

	"everyseat/seating"
)

// seeds are texts that try the corners of TOML's tables.
var seeds = []string{
	small, everything, withTable, string(freshText),
	"", "\n", "a", "a =", "a = 1", "a.b = 1\na.c = 2", "a.b = 1\n[a]", "[a.b]\n[a]\nc = 1", "[a]\n[a.b]\n[a]",
	"[a.b]\nz = 9\n[a]\nb.t = 1", "[[a]]\n[a.b]\n[[a]]\n[a.b]", "a = []\n[[a]]", "a = {}\n[a]", "a = { b = 1 }\na.c = 1",
	"[a]\nb.c = 1\n[a.b]", "[a]\nb.c.d = 1\n[a.b.e]", "a = [[1, 2], [\n3 # x ]\n]]", "a = { b = [ { c = 1 }, { d = '}' } ] }",
	"[[a.b]]\n[a]\nc = 1", "\"\" = 1", "'a b'.c = 1", "[ a . 'b' ] # x", "[[ a ]]\nb = \"\"\"\nx\"\"\"\nc = 1", "a = 1979-05-27T07:32:00Z",
	"a = '''\n'''", "a = inf", "a = [", "\r", "\xff", bom, bom + "a = 1", "a = {b = 1, b = 2}", "a = {b.c = 1, b.d = 2}", "\x00", "[a]\n[[a]]",
	"a = 0x_1", "a = 1__0", "a = 1.e5", "a = 99999999999999999999",
}

// FuzzParse: no text breaks the reader; every fault has a place in the text and one
// line; a text that our tables take is one that the library takes, and the other way round
// but for values (numbers out of range), which are looked at when a key asks for them.
func FuzzParse(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	open := beside(map[string]string{"stands.csv": tableCSV, "pictures/lantern.png": "PNG"})
	f.Fuzz(func(t *testing.T, text string) {
		d, derr := parse("x", []byte(text))
		var into map[string]any
		terr := toml.Unmarshal([]byte(strings.TrimPrefix(text, bom)), &into)
		if terr == nil && derr != nil {
			t.Errorf("refused what the library takes: %v", derr)
		}
		if derr == nil && terr != nil && !aboutValue(terr) {
			t.Errorf("took what the library refuses: %v", terr)
		}
		file, err := Parse("x", []byte(text), open)
		if err != nil {
			var fault *seating.Fault
			if !errors.As(err, &fault) || fault.File == "" || fault.File == "x" && fault.Line == 0 && len(text) <= MaxBytes {
				t.Fatalf("no place: %v", err)
			}
			if strings.ContainsAny(fault.Error(), "\n\r") {
				t.Errorf("more than one line: %q", fault.Error())
			}
			return
		}
		if d == nil || file.Stunt == nil {
			t.Fatal("a file without a stunt")
		}
		moved, err := file.Set(Edit{"title", "x"})
		if err != nil || moved.Stunt.Title != "x" {
			t.Errorf("a title cannot be set: %v", err)
		}
	})
}

// aboutValue says whether the library refuses a value (a number or a date that cannot be) rather
// than what its tables are made of, which it says in these words.
func aboutValue(err error) bool {
	for _, word := range []string{"already exists", "already defined", "should be"} {
		if strings.Contains(err.Error(), word) {
			return false
		}
	}
	return true
}

func TestSeedsAreThere(t *testing.T) {
	if len(seeds) < 40 {
		t.Errorf("only %d seeds", len(seeds))
	}
}
