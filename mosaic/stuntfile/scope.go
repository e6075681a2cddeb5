package stuntfile

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"math"
	"path"
	"slices"
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

// enter begins to read a table; in the end, keys that nobody has asked for are faults.
func (r *reader) enter(t *table) scope {
	r.entered = append(r.entered, scope{r, t})
	return scope{r, t}
}

// find gives the value of a key that the file may have.
func (s scope) find(key string) *value {
	if !slices.Contains(s.t.asked, key) {
		s.t.asked = append(s.t.asked, key)
	}
	return s.given(key)
}

// given is the value of a key that was asked for before, or nil.
func (s scope) given(key string) *value {
	if e := s.t.byName[key]; e != nil {
		return e.val
	}
	return nil
}

func (s scope) must(key, hint string) {
	if s.given(key) == nil {
		s.absent(key, hint)
	}
}

func (s scope) absent(key, hint string) {
	s.r.faults = append(s.r.faults, placed{at: s.t.at.from, absent: true, what: key + " is missing", hint: hint})
}

// close reports the first key that nobody asked for.
func (s scope) close() {
	for _, e := range s.t.entries {
		if !slices.Contains(s.t.asked, e.name) {
			s.r.faultAt(e.key.from, fmt.Sprintf("unknown key %q", e.name),
				seating.DidYouMean(e.name, s.t.asked, "keys here are: "))
			return
		}
	}
}

func (s scope) fault(v *value, what, hint string) { s.r.faultAt(v.at.from, what, hint) }

func (s scope) wrong(v *value, key, want, hint string) {
	s.fault(v, fmt.Sprintf("%s must be %s, not %s", key, want, s.quote(v)), hint)
}

// quote is a value as it is written, cut to what fits into a sentence.
func (s scope) quote(v *value) string {
	const longest = 30
	text := s.r.f.doc.text[v.at.from:v.at.to]
	if i := bytes.IndexAny(text, "\r\n"); i >= 0 {
		text = append(text[:i:i], "…"...)
	}
	if letters := []rune(string(text)); len(letters) > longest {
		return string(letters[:longest]) + "…"
	}
	return string(text)
}

func (s scope) text(key string, to *string) bool {
	v := s.find(key)
	return v != nil && s.readText(v, key, to)
}

func (s scope) readText(v *value, key string, to *string) bool {
	if v.kind != unstable.String {
		plain := strings.Trim(s.quote(v), "\"'[]{} ") // it will stand in the hint's own quotes
		s.wrong(v, key, `words in "quotes"`, fmt.Sprintf("write %s = %q", key, plain))
		return false
	}
	for _, c := range v.text {
		if c != '\n' && unicode.IsControl(c) {
			s.fault(v, fmt.Sprintf("%s holds the control character %U", key, c), "leave it out")
			return false
		}
	}
	*to = v.text
	return true
}

func (s scope) texts(key string, to *[]string) {
	v := s.find(key)
	switch {
	case v == nil:
	case v.kind != unstable.Array || v.heads:
		s.wrong(v, key, `a list of words`, fmt.Sprintf(`write %s = ["…", "…"]`, key))
	default:
		list(v, key, to, s.readText)
	}
}

// list reads each value of a list, or the one that stands for a list of one.
func list[T any](v *value, key string, to *[]T, read func(v *value, key string, to *T) bool) bool {
	items := v.items
	if v.kind != unstable.Array {
		items = []*value{v}
	}
	*to = make([]T, len(items))
	for i, item := range items {
		if !read(item, key, &(*to)[i]) {
			return false
		}
	}
	return true
}

// read reads the value of a key that the file may have; what parse cannot take is not what is wanted.
func read[T any](s scope, key string, to *T, want, hint string, parse func(*value) (T, bool)) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	got, ok := parse(v)
	if !ok {
		s.wrong(v, key, want, hint)
		return false
	}
	*to = got
	return true
}

// auto says whether a value leaves the choice to everyseat.
func (v *value) auto() bool { return v.kind == unstable.String && v.text == "auto" }

func (s scope) flag(key string, to *bool) {
	read(s, key, to, "true or false, without quotes", fmt.Sprintf("write %s = true, or leave the line out", key),
		func(v *value) (bool, bool) { return v.text == "true", v.kind == unstable.Bool })
}

// choice reads one word of several and gives its place among them.
func choice[T ~int | ~uint8](s scope, key string, to *T, words ...string) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	said := ""
	if v.kind == unstable.String {
		said = v.text
		if i := slices.Index(words, said); i >= 0 {
			*to = T(i)
			return true
		}
	}
	hint := seating.DidYouMean(said, words, "")
	s.wrong(v, key, "one of "+quoted(words), cmp.Or(hint, fmt.Sprintf("write %s = %q, for example", key, words[0])))
	return false
}

// either reads one of two words, and whether it is the second.
func (s scope) either(key string, second *bool, words ...string) {
	i := 0
	if choice(s, key, &i, words...) {
		*second = i == 1
	}
}

func word[T ~string](s scope, key string, to *T, words ...T) {
	names := make([]string, len(words))
	for i, w := range words {
		names[i] = string(w)
	}
	i := 0
	if choice(s, key, &i, names...) {
		*to = words[i]
	}
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
	switch {
	case !ok:
		s.wrong(v, key, "a whole number without quotes", fmt.Sprintf("write %s = 12, for example", key))
	case n < -maxWhole || n > maxWhole:
		s.fault(v, fmt.Sprintf("%s = %s is too large", key, v.text),
			"write a whole number of at most a hundred million")
	default:
		*to = int(n)
		return true
	}
	return false
}

// count is a whole number that is not negative.
func (s scope) count(key string, to *int) bool {
	n := 0
	if !s.whole(key, &n) {
		return false
	}
	if n < 0 {
		s.wrong(s.given(key), key, "0 or more", "leave the line out if it is not known")
		return false
	}
	*to = n
	return true
}

// some is a number of things that are there: 0 would mean that nothing was said, and get a default.
func (s scope) some(key string, to *int) bool { return s.count(key, to) && s.notZero(key, *to == 0) }

// notZero refuses a 0 that would be taken for nothing said.
func (s scope) notZero(key string, zero bool) bool {
	if zero {
		s.fault(s.given(key), key+" cannot be 0", "leave the line out if it is not known")
	}
	return !zero
}

// wholes reads one number or a list of them.
func (s scope) wholes(key string, to *[]int) bool {
	v := s.find(key)
	if v == nil {
		return false
	}
	if _, ok := integer(v); v.kind != unstable.Array && !ok {
		s.wrong(v, key, "a whole number, or a list with one for each row",
			fmt.Sprintf("write %s = 18, or %s = [18, 18, 17]", key, key))
		return false
	}
	return list(v, key, to, s.readWhole)
}

// decode reads a scalar as TOML has it, underscores and bases included.
func decode[T any](v *value) (T, error) {
	var t struct{ V T }
	err := toml.Unmarshal([]byte("V = "+v.text), &t)
	return t.V, err
}

// integer reads a TOML integer; one that is too large is the largest.
func integer(v *value) (n int64, ok bool) {
	if v.kind != unstable.Integer {
		return 0, false
	}
	n, err := decode[int64](v)
	if err != nil {
		n = math.MaxInt64
	}
	return n, true
}

// number reads a number that is not 0, where 0 would be taken for nothing said.
func (s scope) number(key string, to *float64) bool {
	return s.anyNumber(key, to) && s.notZero(key, *to == 0)
}

func (s scope) anyNumber(key string, to *float64) bool {
	return read(s, key, to, "a number without quotes", fmt.Sprintf("write %s = 7.5, for example", key), real)
}

func real(v *value) (float64, bool) {
	if n, ok := integer(v); ok {
		return float64(n), n != math.MaxInt64
	}
	if v.kind != unstable.Float {
		return 0, false
	}
	f, err := decode[float64](v)
	return f, err == nil && !math.IsNaN(f) && !math.IsInf(f, 0)
}

// two reads a list of two numbers from low to high.
func two[T int64 | float64](v *value, read func(*value) (T, bool), low, high T) (both [2]T, ok bool) {
	ok = v.kind == unstable.Array && len(v.items) == 2
	for i := 0; ok && i < 2; i++ {
		both[i], ok = read(v.items[i])
		ok = ok && low <= both[i] && both[i] <= high
	}
	return both, ok
}

// share reads "88 %" or 0.88.
func (s scope) share(key string, to *float64) {
	read(s, key, to, `a share such as "88 %"`, fmt.Sprintf(`write %s = "88 %%"`, key), func(v *value) (float64, bool) {
		f, ok := real(v)
		if words, percent := strings.CutSuffix(strings.TrimSpace(v.text), "%"); v.kind == unstable.String && percent {
			p, err := strconv.ParseFloat(strings.TrimSpace(words), 64)
			f, ok = p/100, err == nil
		}
		return f, ok && f > 0 && f <= 1
	})
}

// money reads 12 or 12.50 in exact cents.
func (s scope) money(key string, cents *int) {
	read(s, key, cents, "a sum of money, in whole cents and without quotes", fmt.Sprintf("write %s = 12.50", key),
		func(v *value) (int, bool) {
			f, ok := real(v)
			c := math.Round(f * 100)
			return int(c), ok && c >= 0 && c <= maxWhole && math.Abs(float64(f*100)-c) <= 1e-6
		})
}

func (s scope) length(key string, to *seating.Length) bool {
	v := s.find(key)
	return v != nil && s.readLength(v, key, to)
}

func (s scope) readLength(v *value, key string, to *seating.Length) bool {
	switch v.kind {
	case unstable.Integer, unstable.Float:
		s.fault(v, fmt.Sprintf("%s = %s has no unit", key, v.text),
			fmt.Sprintf(`write "%[1]sin", "%[1]scm" or "%[1]sm", whichever was measured, with the quotes`, v.text))
		return false
	case unstable.String:
	default:
		s.wrong(v, key, `a length such as "18in"`, fmt.Sprintf(`write %s = "0.46 m", for example`, key))
		return false
	}
	l, err := seating.ParseLength(v.text)
	if err != nil {
		what, hint := words(err)
		s.fault(v, key+": "+what, hint)
		return false
	}
	*to = l
	return true
}

// measured is a length that is not 0.
func (s scope) measured(key string, to *seating.Length) {
	_ = s.length(key, to) && s.notZero(key, *to == 0)
}

func (s scope) lengths(key string, to *[]seating.Length) bool {
	v := s.find(key)
	return v != nil && list(v, key, to, s.readLength)
}

// side is a length with its key.
type side struct {
	key string
	to  *seating.Length
}

// sides reads lengths that may be there.
func (s scope) sides(all ...side) {
	for _, side := range all {
		s.length(side.key, side.to)
	}
}

// allSides reads lengths that must be there; the hint says what to write where one is not.
func (s scope) allSides(hint string, all ...side) {
	s.sides(all...)
	for _, side := range all {
		s.must(side.key, hint)
	}
}

// words takes an error apart into what is wrong and how to mend it.
func words(err error) (what, hint string) {
	if f, ok := errors.AsType[*seating.Fault](err); ok {
		return f.What, f.Hint
	}
	return err.Error(), ""
}

// duration reads "6 s", "1.5 s" or "2 min".
func (s scope) duration(key string, to *time.Duration) {
	const want, hint = `a time such as "6 s" or "2 min"`, `write %s = "6 s", for example`
	read(s, key, to, want, fmt.Sprintf(hint, key), func(v *value) (time.Duration, bool) {
		number, minutes := strings.CutSuffix(strings.TrimSpace(v.text), "min")
		number, seconds := strings.CutSuffix(number, "s")
		f, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if minutes {
			f *= 60
		}
		return time.Duration(math.Round(f*1000)) * time.Millisecond,
			v.kind == unstable.String && minutes != seconds && err == nil && f > 0 && f <= 24*3600
	})
}

// bare reads a text, or a value of a kind that needs no quotes.
func (s scope) bare(key string, to *string, kind unstable.Kind) {
	if v := s.find(key); v != nil && v.kind == kind {
		*to = v.text
		return
	}
	s.text(key, to)
}

// file reads the file beside the stunt file that a key names, and hands it on under its clean name.
func (s scope) file(key string, take func(name string, data []byte) error) {
	var name string
	if !s.text(key, &name) {
		return
	}
	v := s.given(key)
	clean := path.Clean(name)
	what := ""
	switch {
	case name == "":
		what = key + " names no file"
	case strings.Contains(name, `\`):
		what = fmt.Sprintf("%s = %q has a backslash", key, name)
	case path.IsAbs(name), len(name) > 1 && name[1] == ':':
		what = fmt.Sprintf("%s = %q is not beside the stunt file", key, name)
	case clean == "..", strings.HasPrefix(clean, "../"):
		what = fmt.Sprintf("%s = %q leads out of the stunt's folder", key, name)
	}
	if what != "" {
		s.fault(v, what, "copy the file into the stunt's folder and write its name, "+
			`such as "lantern.png" or "pictures/lantern.png"`)
		return
	}
	data, err := s.r.f.open(clean)
	if err != nil {
		why, hint := words(err)
		s.fault(v, fmt.Sprintf("%s = %q: %s", key, name, why), hint)
		return
	}
	err = take(clean, data)
	if f, ok := errors.AsType[*seating.Fault](err); ok && f.File != "" { // by the path that people know it by
		own := *f
		own.File = besidePath(s.r.f.Path, f.File)
		s.r.faults = append(s.r.faults, placed{at: v.at.from, beside: &own})
	} else if err != nil {
		why, hint := words(err)
		s.fault(v, why, hint)
	}
}

// inner gives the table under key, where there is one.
func (s scope) inner(key string) (scope, bool) {
	v := s.find(key)
	if v == nil {
		return s.r.enter(newTable(implied, s.t.at)), false
	}
	if v.table == nil {
		s.wrong(v, key, "a table", fmt.Sprintf("write [%s] on a line of its own, with its keys below", key))
		return s.r.enter(newTable(implied, v.at)), false
	}
	return s.r.enter(v.table), true
}

func (s scope) each(key string) (all []scope) {
	v := s.find(key)
	if v == nil {
		return nil
	}
	items := v.items
	if v.kind != unstable.Array {
		items = []*value{v}
	}
	for _, item := range items {
		if item.table == nil || v.kind != unstable.Array {
			s.wrong(item, key, "a list of tables",
				fmt.Sprintf("write [[%s]] on a line of its own, with its keys below", key))
			continue
		}
		all = append(all, s.r.enter(item.table))
	}
	return all
}

// tables reads each table of a list into one more entry of to.
func tables[T any](s scope, key string, to *[]T, read func(t scope, one *T)) {
	for _, t := range s.each(key) {
		var one T
		read(t, &one)
		*to = append(*to, one)
	}
}
