package stuntfile

import (
	"bytes"
	"fmt"
	"strings"

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
	text := make([]byte, 0, len(d.text)+len(c.text))
	text = append(text, d.text[:c.at.from]...)
	text = append(text, c.text...)
	text = append(text, d.text[c.at.to:]...)
	return parse(d.name, text)
}

// change puts text where the span was.
type change struct {
	at   span
	text string
}

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
		case last:
			return d.replace(v, to)
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

func (d *document) replace(v *value, to any) (change, error) {
	written := v.table != nil && v.table.how != inlined
	if written || v.heads {
		return change{}, fmt.Errorf("this is a table: change its keys one by one")
	}
	text, err := encode(to)
	return change{v.at, text}, err
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
		at := span{len(d.text), len(d.text)}
		return d.addHeader(at, s.name, s.index != noIndex, pairs)
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
		return change{span{t.end, t.end}, ", " + text}, nil
	case t.braces:
		return change{span{t.end, t.end}, " " + text + " "}, nil
	case t.how == implied:
		return change{}, fmt.Errorf("the table around %s has no header", s.name)
	case t == d.root && t.end <= len(bom) && !t.hasStraight():
		return change{span{t.end, t.end}, text + d.eol()}, nil
	}
	return d.addLine(t.end, text), nil
}

// hasStraight says whether any key is written straight into the table.
func (t *table) hasStraight() bool {
	for _, e := range t.entries {
		if e.val.table == nil && !e.val.heads || e.val.table != nil && (e.val.table.how == inlined || e.val.table.how == dotted) {
			return true
		}
	}
	return false
}

// addLine adds a line below the one that holds offset at, indented alike.
func (d *document) addLine(at int, text string) change {
	start := bytes.LastIndexByte(d.text[:at], '\n') + 1
	indent := start
	for indent < at && (d.text[indent] == ' ' || d.text[indent] == '\t') {
		indent++
	}
	text = string(d.text[start:indent]) + text
	end, closed := d.lineEnd(at)
	if !closed {
		return change{span{end, end}, d.eol() + text}
	}
	return change{span{end, end}, text + d.eol()}
}

// lineEnd is the offset behind the line that holds offset at; closed says that a line end is there.
func (d *document) lineEnd(at int) (end int, closed bool) {
	if i := bytes.IndexByte(d.text[at:], '\n'); i >= 0 {
		return at + i + 1, true
	}
	return len(d.text), false
}

// eol is the line end that the file uses.
func (d *document) eol() string {
	if i := bytes.IndexByte(d.text, '\n'); i > 0 && d.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// addHeader adds a [table] or [[table]] of its own at a place between lines.
func (d *document) addHeader(at span, name string, list bool, pairs Pairs) (change, error) {
	eol := d.eol()
	var b strings.Builder
	if at.from > 0 {
		if d.text[at.from-1] != '\n' {
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
		text, err := encode(p.Value)
		if err != nil {
			return change{}, err
		}
		b.WriteString(encodeKey(p.Key) + " = " + text + eol)
	}
	return change{at, b.String()}, nil
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
		for end > 0 && contains(" \t\r\n", d.text[end-1]) {
			end--
		}
		end, _ = d.lineEnd(end)
		return d.addHeader(span{end, end}, e.name, true, pairs)
	}
	text, err := encode(to)
	if len(v.items) == 0 {
		return change{span{v.at.from + 1, v.at.from + 1}, text}, err
	}
	end := v.items[len(v.items)-1].at.to
	return change{span{end, end}, ", " + text}, err
}

// remove takes an entry, or the item index of its list, out of the text.
func (d *document) remove(t *table, e *entry, index int) (change, error) {
	v := e.val
	if index != noIndex {
		if v.heads {
			return change{d.withBlanks(d.block(v.items[index].table)), ""}, nil
		}
		places := make([]span, len(v.items))
		for i, item := range v.items {
			places[i] = item.at
		}
		return change{withComma(places, index), ""}, nil
	}
	switch {
	case v.heads, v.table != nil && (v.table.how == implied || v.table.how == dotted):
		return change{}, fmt.Errorf("%s stands in several places: take its parts out one by one", e.name)
	case v.table != nil && v.table.how == headed:
		return change{d.withBlanks(d.block(v.table)), ""}, nil
	case t.braces:
		places := make([]span, len(t.entries))
		at := 0
		for i, other := range t.entries {
			places[i] = other.whole
			if other == e {
				at = i
			}
		}
		return change{withComma(places, at), ""}, nil
	}
	start := bytes.LastIndexByte(d.text[:e.whole.from], '\n') + 1
	if start == 0 && bytes.HasPrefix(d.text, []byte(bom)) {
		start = len(bom)
	}
	end, _ := d.lineEnd(e.whole.to)
	return change{span{start, end}, ""}, nil
}

// withBlanks adds the blank lines below a block.
func (d *document) withBlanks(s span) span {
	for end := s.to; end < len(d.text) && contains(" \t\r\n", d.text[end]); end++ {
		if d.text[end] == '\n' {
			s.to = end + 1
		}
	}
	return s
}

// withComma is the place of one item with the comma that parts it from its neighbour.
func withComma(places []span, i int) span {
	switch {
	case i+1 < len(places):
		return span{places[i].from, places[i+1].from}
	case i > 0:
		return span{places[i-1].to, places[i].to}
	}
	return places[i]
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
		if e.val.table == other || e.val.table != nil && e.val.table.contains(other) {
			return true
		}
		for _, item := range e.val.items {
			if item.table == other || item.table != nil && item.table.contains(other) {
				return true
			}
		}
	}
	return false
}

// commentAbove is the start of the comment lines right above a line's start.
func (d *document) commentAbove(at int) int {
	for at > 0 {
		start := bytes.LastIndexByte(d.text[:at-1], '\n') + 1
		if line := bytes.TrimLeft(d.text[start:at], " \t"); len(line) == 0 || line[0] != '#' {
			return at
		}
		at = start
	}
	return at
}

// commentBelow is the end of the comment lines right below the line that holds offset at.
func (d *document) commentBelow(at int) int {
	end, closed := d.lineEnd(at)
	for closed && end < len(d.text) {
		next, more := d.lineEnd(end)
		if line := bytes.TrimLeft(d.text[end:next], " \t"); len(line) == 0 || line[0] != '#' {
			break
		}
		end, closed = next, more
	}
	return end
}
