package stuntfile

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"everyseat/seating"
)

func index(t *testing.T, text, part string) int {
	t.Helper()
	at := strings.Index(text, part)
	if at < 0 {
		t.Fatalf("%q is not in the text", part)
	}
	return at
}

// unescape lets a table say "\n" for what a TOML text writes as two characters.
func unescape(s string) string {
	if strings.HasPrefix(s, `"GLOW`) {
		return `"GLOW\nUP"`
	}
	return s
}

func TestSet(t *testing.T) {
	for _, c := range []struct {
		name, text, key string
		to              any
		want            string
	}{
		{"a value", "a = 1 # one\nb = 2\n", "a", 5, "a = 5 # one\nb = 2\n"},
		{"a length", "[t]\nrise = \"8in\" # step\n", "t.rise", 9 * seating.Inch, "[t]\nrise = \"9in\" # step\n"},
		{"a text", "a = 'x'\n", "a", "5'6\" \\ \n", "a = \"5'6\\\" \\\\ \\n\"\n"},
		{"a list over lines", "a = [\n 1, # one\n 2\n]\nb = 1\n", "a", []int{3}, "a = [3]\nb = 1\n"},
		{"an item", "a = [\n 1, # one\n 2\n]\n", "a[1]", 7, "a = [\n 1, # one\n 7\n]\n"},
		{"one more item", "a = [\n 1, # one\n 2,\n]\n", "a[2]", 7, "a = [\n 1, # one\n 2, 7,\n]\n"},
		{"a first item", "a = []\n", "a[0]", 7, "a = [7]\n"},
		{"a new key", "# top\na = 1 # one\n\n# t\n[t]\nc = 3\n", "b", true, "# top\na = 1 # one\nb = true\n\n# t\n[t]\nc = 3\n"},
		{"a first key", "[t]\nc = 3\n", "b", 2.5, "b = 2.5\n[t]\nc = 3\n"},
		{"a key in a table", "[t]\nc = 3 # three\n\n# u\n[u]\n", "t.d", "x", "[t]\nc = 3 # three\nd = \"x\"\n\n# u\n[u]\n"},
		{"a key in an empty table", "[t] # tee\n[u]\n", "t.d", "x", "[t] # tee\nd = \"x\"\n[u]\n"},
		{"indented alike", "[t]\n\tc = 3\n", "t.d", 1, "[t]\n\tc = 3\n\td = 1\n"},
		{"no line end at the end", "[t]\nc = 3", "t.d", 1, "[t]\nc = 3\nd = 1"},
		{"Windows line ends", "[t]\r\nc = 3\r\n[u]\r\n", "t.d", 1, "[t]\r\nc = 3\r\nd = 1\r\n[u]\r\n"},
		{"a table", "a = 1\n", "t.d", 1, "a = 1\n\n[t]\nd = 1\n"},
		{"a table within", "[t]\nc = 1\n", "t.p.x", 1, "[t]\nc = 1\np = { x = 1 }\n"},
		{"braces", "p = { x = 1 } # p\n", "p.y", 2, "p = { x = 1, y = 2 } # p\n"},
		{"empty braces", "p = {}\n", "p.y", 2, "p = { y = 2 }\n"},
		{"dots", "[t]\np.x = 1 # x\nq = 1\n", "t.p.y", 2, "[t]\np.x = 1 # x\np.y = 2\nq = 1\n"},
		{"dots in braces", "p = { q.x = 1, r = 2 }\n", "p.q.y", 2, "p = { q.x = 1, q.y = 2, r = 2 }\n"},
		{"a key to be quoted", "p = { \"A-1-2..3\" = \"X\" }\n", `p."A-1-4"`, "Y", "p = { \"A-1-2..3\" = \"X\", A-1-4 = \"Y\" }\n"},
		{"a quoted key", "p = { \"A-1-2..3\" = \"X\" }\n", `p."A-1-2..3"`, "Y", "p = { \"A-1-2..3\" = \"Y\" }\n"},
		{"in one of several", "[[s]]\nn = 1\n[[s]]\nn = 2\n[c]\n", "s[1].m", 3, "[[s]]\nn = 1\n[[s]]\nn = 2\nm = 3\n[c]\n"},
		{"one more of several", "[[s]]\nn = 1\n\n# about c\n[c]\n", "s[1].n", 2, "[[s]]\nn = 1\n\n[[s]]\nn = 2\n\n# about c\n[c]\n"},
		{"one more behind what belongs to the last", "[[s]]\nn = 1\n[s.p]\nx = 1\n[c]\n", "s[1].n", 2,
			"[[s]]\nn = 1\n[s.p]\nx = 1\n\n[[s]]\nn = 2\n[c]\n"},
		{"the first of several", "a = 1\n", "s[0].n", 2, "a = 1\n\n[[s]]\nn = 2\n"},
		{"one more, whole", "[[s]]\nn = 1\n", "s[1]", Pairs{{"n", 2}, {"m", []string{"x"}}}, "[[s]]\nn = 1\n\n[[s]]\nn = 2\nm = [\"x\"]\n"},
		{"a list within", "[[s]]\nn = 1\n", "s[0].r[0].for", "x", "[[s]]\nn = 1\nr = [{ for = \"x\" }]\n"},
		{"take a key out", "a = 1 # one\nb = 2 # two\nc = 3\n", "b", nil, "a = 1 # one\nc = 3\n"},
		{"take an item out", "a = [1, 2, 3]\n", "a[2]", nil, "a = [1, 2]\n"},
		{"take the first item out", "a = [1, 2, 3]\n", "a[0]", nil, "a = [2, 3]\n"},
		{"take the only key of braces out", "p = { x = 1 }\n", "p.x", nil, "p = {  }\n"},
		{"take a table out", "a = 1\n\n# about t\n# more\n[t]\nb = 1\n[t.u]\nc = 1\n# about v\n[v]\n", "t", nil, "a = 1\n\n# about v\n[v]\n"},
		{"one more before what is parted by a blank line", "[[s]]\nn = 1\n# m = 2\n\n# [room]\n# x = 1\n", "s[1].n", 2,
			"[[s]]\nn = 1\n# m = 2\n\n[[s]]\nn = 2\n\n# [room]\n# x = 1\n"},
		{"leave what is parted by a blank line", "[[s]]\nn = 1\n# m = 2\n\n# [room]\n# x = 1\n", "s[0]", nil, "# [room]\n# x = 1\n"},
		{"take one of several out", "[[s]]\nn = 1\n[[s]]\nn = 2\n", "s[0]", nil, "[[s]]\nn = 2\n"},
		{"behind a byte order mark", bom + "[t]\n", "b", 1, bom + "b = 1\n[t]\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, err := parse("x", []byte(c.text))
			if err != nil {
				t.Fatal(err)
			}
			got, err := d.edit(Edit{c.key, c.to})
			if err != nil {
				t.Fatal(err)
			}
			if string(got.text) != c.want {
				t.Errorf("got\n%s\nwant\n%s", got.text, c.want)
			}
			if string(d.text) != c.text {
				t.Error("the text before was changed")
			}
		})
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct {
		text, key string
		to        any
	}{
		{"a = 1\n", "", 1},
		{"a = 1\n", "a.b", 1},
		{"a = 1\n", "a[0]", 1},
		{"a = [1]\n", "a[2]", 1},
		{"a = [1]\n", "b[1]", 1},
		{"a = 1\n", "b", nil},
		{"[t]\n", "t", 5},
		{"[[s]]\n", "s", 5},
		{"[[s]]\n", "s[1]", 5},
		{"[t.u]\n", "t.x", 5},
		{"t.x = 1\n", "t", nil},
		{"a = 1\n", "a", math.NaN()},
		{"a = 1\n", "a", "\xff"},
		{"a = 1\n", "a", struct{}{}},
		{"a = 1\n", "a[", 1},
		{"a = 1\n", `"a`, 1},
	} {
		d, err := parse("x", []byte(c.text))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := d.edit(Edit{c.key, c.to}); err == nil {
			t.Errorf("%s = %v in %q gave %q, want an error", c.key, c.to, c.text, got.text)
		}
	}
}

// TestSetKeepsTheRest: whatever is set, the bytes before and after the changed range are the
// same, the new text says what was wanted, and every other value is what it was.
func TestSetKeepsTheRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, keys := drawText(t)
		d, err := parse("x", []byte(text))
		if err != nil {
			t.Fatalf("the drawn text does not parse: %v\n%s", err, text)
		}
		key := rapid.SampledFrom(keys).Draw(t, "key")
		to := drawValue(t)
		after, err := d.edit(Edit{key, to})
		if err != nil {
			t.Fatalf("%s: %v\n%s", key, err, text)
		}
		steps, _ := parsePath(key)
		c, err := d.plan(steps, to)
		if err != nil {
			t.Fatal(err)
		}
		if string(after.text[:c.at.from]) != text[:c.at.from] ||
			string(after.text[c.at.from+len(c.text):]) != text[c.at.to:] {
			t.Fatalf("bytes outside the range changed:\n%s\n----\n%s", text, after.text)
		}
		before, now := flat(d), flat(after)
		wantText, _ := encode(to)
		want, err := parse("x", []byte("v = "+wantText))
		if err != nil {
			t.Fatal(err)
		}
		if got := now[key]; got != flat(want)["v"] {
			t.Fatalf("%s is %s, want %s\n%s", key, got, wantText, after.text)
		}
		for k, v := range before {
			if k != key && now[k] != v {
				t.Fatalf("%s changed from %s to %s\n%s", k, v, now[k], after.text)
			}
		}
		if len(now) > len(before)+1 {
			t.Fatalf("more than one key was added\n%s", after.text)
		}
	})
}

// flat lists the scalars and lists of a document by path.
func flat(d *document) map[string]string {
	all := map[string]string{}
	var walk func(string, *table)
	walk = func(path string, t *table) {
		for _, e := range t.entries {
			at := path + e.name
			switch {
			case e.val.table != nil:
				walk(at+".", e.val.table)
			case e.val.heads:
				for i, item := range e.val.items {
					walk(fmt.Sprintf("%s[%d].", at, i), item.table)
				}
			default:
				all[at] = say(e.val)
			}
		}
	}
	walk("", d.root)
	return all
}

func say(v *value) string {
	s := fmt.Sprint(v.kind, v.text)
	for _, item := range v.items {
		s += "," + say(item)
	}
	return s
}

func drawValue(t *rapid.T) any {
	switch rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		return rapid.IntRange(-1000, 1000).Draw(t, "int")
	case 1:
		return rapid.StringMatching(`[a-zA-Z0-9 "'\\#\[\]{}=,.é\n\t]{0,12}`).Draw(t, "text")
	case 2:
		return rapid.Bool().Draw(t, "bool")
	case 3:
		return float64(rapid.IntRange(-999, 999).Draw(t, "real")) / 8
	case 4:
		return rapid.SliceOfN(rapid.IntRange(0, 99), 0, 4).Draw(t, "ints")
	}
	return rapid.SliceOfN(rapid.StringMatching(`[a-z#"]{0,4}`), 0, 3).Draw(t, "texts")
}

// drawText makes a text with comments, blank lines and odd spacing; keys are its
// own and some that it does not have.
func drawText(t *rapid.T) (text string, keys []string) {
	eol := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "eol")
	var b strings.Builder
	line := func(s string) { b.WriteString(s + eol) }
	fillers := func() {
		for range rapid.IntRange(0, 2).Draw(t, "fill") {
			line(rapid.SampledFrom([]string{"", "# words = 1", "  # [not] a header", "\t"}).Draw(t, "filler"))
		}
	}
	body := func(path string) {
		for _, k := range []string{"a", "b", "c"}[:rapid.IntRange(0, 3).Draw(t, "keys")] {
			fillers()
			value, _ := encode(drawValue(t))
			line(rapid.SampledFrom([]string{"", "  ", "\t"}).Draw(t, "indent") + k + " = " + value +
				rapid.SampledFrom([]string{"", " # why = \"x\"", "   "}).Draw(t, "tail"))
			keys = append(keys, path+k)
		}
		if rapid.Bool().Draw(t, "braces") {
			line("p = { x = 1,y = [1, 2] }  # p")
			keys = append(keys, path+"p.x", path+"p.y", path+"p.z")
		}
		if rapid.Bool().Draw(t, "long") {
			line("l = [ # start" + eol + "  1, # one" + eol + "  2" + eol + "]")
			keys = append(keys, path+"l")
		}
		keys = append(keys, path+"new")
	}
	body("")
	for _, name := range []string{"t", "u"}[:rapid.IntRange(0, 2).Draw(t, "tables")] {
		fillers()
		line("[" + name + "]")
		body(name + ".")
	}
	n := rapid.IntRange(0, 3).Draw(t, "several")
	for i := range n {
		fillers()
		line("[[s]] # again")
		body(fmt.Sprintf("s[%d].", i))
	}
	keys = append(keys, fmt.Sprintf("s[%d].a", n), "fresh.key", "w[0].x")
	text = b.String()
	if rapid.Bool().Draw(t, "cut") {
		text = strings.TrimSuffix(text, eol)
	}
	return text, keys
}

// TestSetOnAFile: the file that comes back is read anew, the one before is as it was.
func TestSetOnAFile(t *testing.T) {
	f := parseText(t, small, nil)
	g, err := f.Set(Edit{"section[0].rise", 9 * seating.Inch}, Edit{"cue[1].text", "GO"}, Edit{"camera.height", "2 m"})
	if err != nil {
		t.Fatal(err)
	}
	s := g.Stunt
	if s.Stands.Sections[0].Rise != 9*seating.Inch || len(s.Cues) != 2 || s.Cues[1].Text != "GO" || s.Camera.Height != 2*seating.Metre {
		t.Errorf("the edits did not arrive:\n%s", g.Text)
	}
	if f.Stunt.Stands.Sections[0].Rise != 8*seating.Inch || string(f.Text) != small {
		t.Error("the file before was changed")
	}
	if _, err := f.Set(Edit{"section[0].rows", "many"}); err == nil || !strings.Contains(err.Error(), "stunt.toml:4:8: rows") {
		t.Errorf("got %v, want the fault of the new text", err)
	}
}
