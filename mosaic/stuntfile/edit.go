package stuntfile

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/seating"
)

// Edit changes one key. Key is a path as in seating.Fault.Key: "camera.height",
// "section[1].rise", `cue[0].painted."B-3-4"`. A place one past the last, as in
// "cue[2].text" with two cues, adds a [[cue]]. Value is a string, bool, int,
// float64, seating.Length, a slice of those, or Pairs; nil takes the key, list
// item or table out, with the comment lines right above a table's header.
type Edit struct {
	Key   string
	Value any
}

// Pairs are the keys of a table, in the order in which they are written.
type Pairs []Pair

// Pair is one key of Pairs; Value as in Edit.
type Pair struct {
	Key   string
	Value any
}

// Set gives the file with the edits made one after the other; f stays as it
// is. Every byte outside the changed values and lines is kept. The edited text
// must be a good stunt file, or else the fault says where it is not.
func (f *File) Set(edits ...Edit) (*File, error) {
	d := f.doc
	for _, e := range edits {
		var err error
		if d, err = d.edit(e); err != nil {
			return nil, err
		}
	}
	return Parse(f.Path, d.text, f.open)
}

// edit gives the document with one edit made.
func (d *document) edit(e Edit) (*document, error) {
	steps, err := parsePath(e.Key)
	if err == nil && len(steps) == 0 {
		err = fmt.Errorf("no key is named")
	}
	var c change
	if err == nil {
		c, err = d.plan(steps, e.Value)
	}
	if err != nil {
		return nil, &seating.Fault{Key: e.Key, What: err.Error()}
	}
	text := slices.Concat(d.text[:c.at.from], []byte(c.text), d.text[c.at.to:])
	return parse(d.name, text)
}

// change puts text where the span was.
type change struct {
	at   span
	text string
}

func insert(at int, text string) change { return change{span{at, at}, text} }

// plan finds what to change so that the steps lead to the value.
func (d *document) plan(steps []step, to any) (change, error) {
	t := d.root
	for i, s := range steps {
		last := i == len(steps)-1
		e := t.byName[s.name]
		if e == nil {
			return d.addKey(t, s, nest(steps[i+1:], to))
		}
		v := e.val
		if s.index != noIndex {
			if v.kind != unstable.Array || s.index > len(v.items) {
				return change{}, fmt.Errorf("%s has no item %d", s.name, s.index)
			}
			if s.index == len(v.items) {
				return d.addItem(e, nest(steps[i+1:], to))
			}
			v = v.items[s.index]
		}
		switch {
		case last && to == nil:
			return d.remove(t, e, s.index)
		case last && (v.heads || v.table != nil && v.table.how != inlined):
			return change{}, fmt.Errorf("this is a table: change its keys one by one")
		case last:
			text, err := encode(to)
			return change{v.at, text}, err
		case v.table == nil:
			return change{}, fmt.Errorf("%s is not a table", s.name)
		}
		t = v.table
	}
	panic("unreachable: every path ends at its last step")
}

// nest wraps the value into the tables and lists that the steps name.
func nest(steps []step, to any) any {
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i].index != noIndex {
			to = []any{to}
		}
		to = Pairs{{steps[i].name, to}}
	}
	return to
}

// addKey adds a key to a table that does not have it.
func (d *document) addKey(t *table, s step, to any) (change, error) {
	if to == nil {
		return change{}, fmt.Errorf("there is no %s to take out", s.name)
	}
	if s.index > 0 {
		return change{}, fmt.Errorf("%s has no item %d", s.name, s.index)
	}
	pairs, isTable := to.(Pairs)
	if t == d.root && isTable {
		return d.addHeader(len(d.text), s.name, s.index != noIndex, pairs)
	}
	if s.index != noIndex {
		to = []any{to}
	}
	text, err := encode(to)
	if err != nil {
		return change{}, err
	}
	text = t.prefix + encodeKey(s.name) + " = " + text
	switch {
	case t.braces && len(t.entries) > 0:
		return insert(t.end, ", "+text), nil
	case t.braces:
		return insert(t.end, " "+text+" "), nil
	case t.how == implied:
		return change{}, fmt.Errorf("the table around %s has no header", s.name)
	case t == d.root && t.end <= len(bom) && !t.hasStraight():
		return insert(t.end, text+d.eol()), nil
	}
	return d.addLine(t.end, text), nil
}

// hasStraight says whether any key is written straight into the table.
func (t *table) hasStraight() bool {
	return slices.ContainsFunc(t.entries, func(e *entry) bool {
		within := e.val.table
		return within == nil && !e.val.heads || within != nil && (within.how == inlined || within.how == dotted)
	})
}

// addLine adds a line below the one that holds offset at, indented alike.
func (d *document) addLine(at int, text string) change {
	line := d.text[d.lineStart(at):at]
	text = string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))]) + text
	if bytes.IndexByte(d.text[at:], '\n') < 0 {
		return insert(len(d.text), d.eol()+text)
	}
	return insert(d.lineEnd(at), text+d.eol())
}

// lineEnd is the offset behind the line that holds offset at.
func (d *document) lineEnd(at int) int {
	if i := bytes.IndexByte(d.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(d.text)
}

// eol is the line end that the file uses.
func (d *document) eol() string {
	if i := bytes.IndexByte(d.text, '\n'); i > 0 && d.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// addHeader adds a [table] or [[table]] of its own at a place between lines.
func (d *document) addHeader(at int, name string, list bool, pairs Pairs) (change, error) {
	eol := d.eol()
	var b strings.Builder
	if at > 0 {
		if d.text[at-1] != '\n' {
			b.WriteString(eol)
		}
		b.WriteString(eol)
	}
	open, close := "[", "]"
	if list {
		open, close = "[[", "]]"
	}
	b.WriteString(open + encodeKey(name) + close + eol)
	for _, p := range pairs {
		text, err := p.encode()
		if err != nil {
			return change{}, err
		}
		b.WriteString(text + eol)
	}
	return insert(at, b.String()), nil
}

// addItem adds an item to a list: behind the last one, in the way the list is written.
func (d *document) addItem(e *entry, to any) (change, error) {
	v := e.val
	if v.heads {
		pairs, ok := to.(Pairs)
		if !ok {
			return change{}, fmt.Errorf("a [[%s]] needs keys", e.name)
		}
		end := d.block(v.items[len(v.items)-1].table).to
		end = d.lineEnd(len(bytes.TrimRight(d.text[:end], " \t\r\n")))
		return d.addHeader(end, e.name, true, pairs)
	}
	text, err := encode(to)
	if len(v.items) == 0 {
		return insert(v.at.from+1, text), err
	}
	return insert(v.items[len(v.items)-1].at.to, ", "+text), err
}

// remove takes an entry, or the item index of its list, out of the text.
func (d *document) remove(t *table, e *entry, index int) (change, error) {
	v := e.val
	if index != noIndex {
		if v.heads {
			return change{d.withBlanks(d.block(v.items[index].table)), ""}, nil
		}
		return change{withComma(len(v.items), index, func(i int) span { return v.items[i].at }), ""}, nil
	}
	switch {
	case v.heads, v.table != nil && (v.table.how == implied || v.table.how == dotted):
		return change{}, fmt.Errorf("%s stands in several places: take its parts out one by one", e.name)
	case v.table != nil && v.table.how == headed:
		return change{d.withBlanks(d.block(v.table)), ""}, nil
	case t.braces:
		whole := func(i int) span { return t.entries[i].whole }
		return change{withComma(len(t.entries), slices.Index(t.entries, e), whole), ""}, nil
	}
	start := d.lineStart(e.whole.from)
	if start == 0 && bytes.HasPrefix(d.text, []byte(bom)) {
		start = len(bom)
	}
	return change{span{start, d.lineEnd(e.whole.to)}, ""}, nil
}

// withBlanks adds the blank lines below a block.
func (d *document) withBlanks(s span) span {
	for end := s.to; end < len(d.text) && strings.IndexByte(" \t\r\n", d.text[end]) >= 0; end++ {
		if d.text[end] == '\n' {
			s.to = end + 1
		}
	}
	return s
}

// withComma is the place of item i of n with the comma that parts it from its neighbour.
func withComma(n, i int, place func(int) span) span {
	switch {
	case i+1 < n:
		return span{place(i).from, place(i + 1).from}
	case i > 0:
		return span{place(i - 1).to, place(i).to}
	}
	return place(i)
}

// block is a header with all that belongs to it: the comment lines right above, its keys,
// the headers of the tables within it, and the comment lines right below the last key.
func (d *document) block(t *table) span {
	for i, h := range d.heads {
		if h.table != t {
			continue
		}
		last, limit := t.end, len(d.text)
		for _, next := range d.heads[i+1:] {
			if !t.contains(next.table) {
				limit = d.commentAbove(next.at)
				break
			}
			last = max(last, next.table.end)
		}
		return span{d.commentAbove(h.at), min(limit, d.commentBelow(last))}
	}
	return t.at
}

// contains says whether other is a table somewhere within t.
func (t *table) contains(other *table) bool {
	for _, e := range t.entries {
		for _, v := range slices.Concat(e.val.items, []*value{e.val}) {
			if v.table == other || v.table != nil && v.table.contains(other) {
				return true
			}
		}
	}
	return false
}

// commentAbove is the start of the comment lines right above a line's start.
func (d *document) commentAbove(at int) int {
	for at > 0 && isComment(d.text[d.lineStart(at-1):at]) {
		at = d.lineStart(at - 1)
	}
	return at
}

func isComment(line []byte) bool { return bytes.HasPrefix(bytes.TrimLeft(line, " \t"), []byte("#")) }

// commentBelow is the end of the comment lines right below the line that holds offset at.
func (d *document) commentBelow(at int) int {
	end := d.lineEnd(at)
	for end < len(d.text) && isComment(d.text[end:d.lineEnd(end)]) {
		end = d.lineEnd(end)
	}
	return end
}

// encode writes a value as TOML, on one line.
func encode(to any) (string, error) {
	switch v := to.(type) {
	case string:
		return encodeString(v)
	case bool:
		return strconv.FormatBool(v), nil
	case int:
		return strconv.Itoa(v), nil
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return "", fmt.Errorf("%v is not a number that a stunt file can hold", v)
		}
		text := strconv.FormatFloat(v, 'f', -1, 64)
		if !strings.Contains(text, ".") {
			text += ".0"
		}
		return text, nil
	case seating.Length:
		return encodeString(v.String())
	case []string:
		return encodeList(v)
	case []int:
		return encodeList(v)
	case []seating.Length:
		return encodeList(v)
	case []any:
		return encodeList(v)
	case Pairs:
		if len(v) == 0 {
			return "{}", nil
		}
		list, err := encodeAll(v, Pair.encode)
		return "{ " + list + " }", err
	}
	return "", fmt.Errorf("a %T cannot be written into a stunt file", to)
}

func encodeList[T any](items []T) (string, error) {
	list, err := encodeAll(items, func(item T) (string, error) { return encode(item) })
	return "[" + list + "]", err
}

func encodeAll[T any](items []T, encode func(T) (string, error)) (string, error) {
	words := make([]string, len(items))
	for i, item := range items {
		var err error
		if words[i], err = encode(item); err != nil {
			return "", err
		}
	}
	return strings.Join(words, ", "), nil
}

func (p Pair) encode() (string, error) {
	text, err := encode(p.Value)
	return encodeKey(p.Key) + " = " + text, err
}

func encodeString(s string) (string, error) {
	if !utf8.ValidString(s) {
		return "", fmt.Errorf("%q is not UTF-8", s)
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"', c == '\\':
			b.WriteString(`\` + string(c))
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case c < ' ', c == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String(), nil
}

var bareKey = regexp.MustCompile(`^[A-Za-z0-9_-]+$`)

// encodeKey writes a key bare where TOML allows it.
func encodeKey(key string) string {
	if bareKey.MatchString(key) {
		return key
	}
	quoted, err := encodeString(key)
	if err != nil {
		return strconv.QuoteToASCII(key)
	}
	return quoted
}
