package stuntfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/seating"
)

// scope reads the keys of one table; faults are gathered, since the first one
// in the text is what people want to hear of, whatever the order of reading.
type scope struct {
	r *reader
	t *table
}

// find gives the value of a key that the file may have.
func (s scope) find(key string) *value {
	s.t.asked = append(s.t.asked, key)
	if e := s.t.byName[key]; e != nil {
		return e.val
	}
	return nil
}

// has says whether the file has the key.
func (s scope) has(key string) bool { return s.t.byName[key] != nil }

// close reports the first key that nobody asked for.
func (s scope) close() {
	for _, e := range s.t.entries {
		if !listed(s.t.asked, e.name) {
			s.r.faultAt(e.key.from, fmt.Sprintf("unknown key %q", e.name), nearestHint(e.name, s.t.asked, "keys here are: "))
			return
		}
	}
}

func listed(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

// wrong reports a value of the wrong kind.
func (s scope) wrong(v *value, key, want, hint string) {
	s.r.faultAt(v.at.from, fmt.Sprintf("%s must be %s, not %s", key, want, s.r.quote(v)), hint)
}

// absent reports a key that must be there.
func (s scope) absent(key, hint string) {
	s.r.faults = append(s.r.faults, placed{at: s.t.at.from, absent: true, what: key + " is missing", hint: hint})
}

func (s scope) text(key string, to *string) bool {
	v := s.find(key)
	return v != nil && s.readText(v, key, to)
}

func (s scope) readText(v *value, key string, to *string) bool {
	if v.kind != unstable.String {
		s.wrong(v, key, `words in "quotes"`, fmt.Sprintf("write %s = %q", key, plain(s.r.quote(v))))
		return false
	}
	for _, c := range v.text {
		if c != '\n' && unicode.IsControl(c) {
			s.r.faultAt(v.at.from, fmt.Sprintf("%s holds the control character %U", key, c), "leave it out")
			return false
		}
	}
	*to = v.text
	return true
}

// plain makes a value that stands in a hint's quotes of what somebody wrote.
func plain(s string) string { return strings.Trim(s, "\"'[]{} ") }

func (s scope) texts(key string, to *[]string) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	if v.kind != unstable.Array || v.heads {
		s.wrong(v, key, `a list of words`, fmt.Sprintf(`write %s = ["…", "…"]`, key))
		return false
	}
	*to = make([]string, 0, len(v.items))
	for _, item := range v.items {
		var w string
		if !s.readText(item, key, &w) {
			return false
		}
		*to = append(*to, w)
	}
	return true
}

func (s scope) flag(key string, to *bool) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	if v.kind != unstable.Bool {
		s.wrong(v, key, "true or false, without quotes", "")
		return false
	}
	*to = v.text == "true"
	return true
}

// choice reads one word of several and gives its place among them.
func (s scope) choice(key string, to *int, words ...string) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	for i, w := range words {
		if v.kind == unstable.String && v.text == w {
			*to = i
			return true
		}
	}
	said := ""
	if v.kind == unstable.String {
		said = v.text
	}
	s.wrong(v, key, "one of "+quoted(words), nearestHint(said, words, ""))
	return false
}

// word reads one word of several.
func (s scope) word(key string, to *string, words ...string) bool {
	i := 0
	if !s.choice(key, &i, words...) {
		return false
	}
	*to = words[i]
	return true
}

func quoted(words []string) string {
	qs := make([]string, len(words))
	for i, w := range words {
		qs[i] = strconv.Quote(w)
	}
	return strings.Join(qs, ", ")
}

// maxWhole bounds every count in a file, so that no arithmetic on them can overflow.
const maxWhole = 100_000_000

func (s scope) whole(key string, to *int) bool {
	v := s.find(key)
	return v != nil && s.readWhole(v, key, to)
}

func (s scope) readWhole(v *value, key string, to *int) bool {
	n, ok := integer(v)
	if !ok {
		s.wrong(v, key, "a whole number without quotes", "")
		return false
	}
	if n < -maxWhole || n > maxWhole {
		s.r.faultAt(v.at.from, fmt.Sprintf("%s = %s is too large, or misspelt", key, v.text), "")
		return false
	}
	*to = int(n)
	return true
}

// count is a whole number that is not negative.
func (s scope) count(key string, to *int) bool {
	n := 0
	if !s.whole(key, &n) {
		return false
	}
	if n < 0 {
		s.wrong(s.t.byName[key].val, key, "0 or more", "leave the line out if it is not known")
		return false
	}
	*to = n
	return true
}

// some is a number of things that are there: 0 would mean that nothing was said, and get a default.
func (s scope) some(key string, to *int) bool {
	if !s.count(key, to) {
		return false
	}
	return s.notZero(key, *to == 0)
}

// notZero refuses a 0 that would be taken for nothing said.
func (s scope) notZero(key string, zero bool) bool {
	if zero {
		s.r.faultAt(s.t.byName[key].val.at.from, key+" cannot be 0", "leave the line out if it is not known")
	}
	return !zero
}

// wholes reads one number or a list of them.
func (s scope) wholes(key string, to *[]int) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	if v.kind != unstable.Array {
		n := 0
		if _, ok := integer(v); !ok {
			s.wrong(v, key, "a whole number, or a list with one for each row", fmt.Sprintf("write %s = 18, or %s = [18, 18, 17]", key, key))
			return false
		}
		if !s.readWhole(v, key, &n) {
			return false
		}
		*to = []int{n}
		return true
	}
	*to = make([]int, len(v.items))
	for i, item := range v.items {
		if !s.readWhole(item, key, &(*to)[i]) {
			return false
		}
	}
	return true
}

// integer reads a TOML integer, underscores and bases included.
func integer(v *value) (int64, bool) {
	if v.kind != unstable.Integer {
		return 0, false
	}
	var t struct{ V int64 }
	if toml.Unmarshal([]byte("V = "+v.text), &t) != nil {
		return math.MaxInt64, true
	}
	return t.V, true
}

func (s scope) number(key string, to *float64) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	f, ok := real(v)
	if !ok {
		s.wrong(v, key, "a number without quotes", "")
		return false
	}
	*to = f
	return true
}

// real reads a finite TOML number.
func real(v *value) (float64, bool) {
	if n, ok := integer(v); ok {
		return float64(n), n != math.MaxInt64
	}
	if v.kind != unstable.Float {
		return 0, false
	}
	var t struct{ V float64 }
	if toml.Unmarshal([]byte("V = "+v.text), &t) != nil || math.IsNaN(t.V) || math.IsInf(t.V, 0) {
		return 0, false
	}
	return t.V, true
}

// share reads "88 %" or 0.88.
func (s scope) share(key string, to *float64) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	f, ok := real(v)
	if words, percent := strings.CutSuffix(strings.TrimSpace(v.text), "%"); v.kind == unstable.String && percent {
		p, err := strconv.ParseFloat(strings.TrimSpace(words), 64)
		f, ok = p/100, err == nil
	}
	if !ok || !(f > 0 && f <= 1) {
		s.wrong(v, key, `a share such as "88 %"`, fmt.Sprintf(`write %s = "88 %%"`, key))
		return false
	}
	*to = f
	return true
}

func (s scope) length(key string, to *seating.Length) bool {
	v := s.find(key)
	return v != nil && s.readLength(v, key, to)
}

func (s scope) readLength(v *value, key string, to *seating.Length) bool {
	switch v.kind {
	case unstable.Integer, unstable.Float:
		s.r.faultAt(v.at.from, fmt.Sprintf("%s = %s has no unit", key, v.text),
			fmt.Sprintf(`write "%sin", "%scm" or "%sm", whichever was measured, with the quotes`, v.text, v.text, v.text))
		return false
	case unstable.String:
	default:
		s.wrong(v, key, `a length such as "18in"`, "")
		return false
	}
	l, err := seating.ParseLength(v.text)
	if err != nil {
		what, hint := words(err)
		s.r.faultAt(v.at.from, key+": "+what, hint)
		return false
	}
	*to = l
	return true
}

// measured is a length that is not 0.
func (s scope) measured(key string, to *seating.Length) bool {
	return s.length(key, to) && s.notZero(key, *to == 0)
}

// words takes an error apart into what is wrong and how to mend it.
func words(err error) (what, hint string) {
	if f, ok := err.(*seating.Fault); ok {
		return f.What, f.Hint
	}
	return err.Error(), ""
}

// lengths reads one length or a list of them.
func (s scope) lengths(key string, to *[]seating.Length) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	items := v.items
	if v.kind != unstable.Array {
		items = []*value{v}
	}
	*to = make([]seating.Length, len(items))
	for i, item := range items {
		if !s.readLength(item, key, &(*to)[i]) {
			return false
		}
	}
	return true
}

// duration reads "6 s", "1.5 s" or "2 min".
func (s scope) duration(key string, to *time.Duration) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	if v.kind == unstable.String {
		text := strings.TrimSpace(v.text)
		for _, unit := range []struct {
			name string
			in   float64
		}{{"min", 60}, {"s", 1}} {
			if n, ok := strings.CutSuffix(text, unit.name); ok {
				f, err := strconv.ParseFloat(strings.TrimSpace(n), 64)
				if err == nil && f > 0 && f*unit.in <= 24*3600 {
					*to = time.Duration(math.Round(f*unit.in*1000)) * time.Millisecond
					return true
				}
			}
		}
	}
	s.wrong(v, key, `a time such as "6 s" or "2 min"`, "")
	return false
}

// inner gives the table under key, where there is one.
func (s scope) inner(key string) (scope, bool) {
	v := s.find(key)
	if v == nil {
		return scope{s.r, newTable(implied, s.t.at)}, false
	}
	if v.table == nil {
		s.wrong(v, key, "a table", fmt.Sprintf("write [%s] on a line of its own, with its keys below", key))
		return scope{s.r, newTable(implied, v.at)}, false
	}
	return scope{s.r, v.table}, true
}

// each gives the tables of a list.
func (s scope) each(key string) []scope {
	v := s.find(key)
	if v == nil {
		return nil
	}
	hint := fmt.Sprintf("write [[%s]] on a line of its own, with its keys below", key)
	if v.kind != unstable.Array {
		s.wrong(v, key, "a list of tables", hint)
		return nil
	}
	var all []scope
	for _, item := range v.items {
		if item.table == nil {
			s.wrong(item, key, "a list of tables", hint)
			continue
		}
		all = append(all, scope{s.r, item.table})
	}
	return all
}
