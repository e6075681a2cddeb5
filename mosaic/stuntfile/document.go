package stuntfile

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/seating"
)

// span is a range of bytes of the text, from included, to excluded.
type span struct{ from, to int }

// How a table came about decides who may add keys to it (TOML 1.0, "Table" and "Keys").
type making uint8

const (
	implied  making = iota // on the way to a deeper header
	headed                 // by its own [header]
	dotted                 // by a key with dots
	inlined                // in braces
	repeated               // one [[header]] of several
)

// table is a TOML table with the places of everything in it.
type table struct {
	how     making
	at      span // its header, braces or first key
	entries []*entry
	byName  map[string]*entry
	end     int      // behind the last thing written straight into it: where one more key may go
	prefix  string   // of dotted tables: the text before each key
	braces  bool     // lies within braces, so that keys are parted by commas
	asked   []string // the keys that the reader knows, in the order of asking
}

// entry is a key with its value. For tables with a header, key and whole are the header's.
type entry struct {
	name  string
	key   span
	whole span // from the key to the end of the value
	val   *value
}

// value is a TOML value. Tables have kind InlineTable however they are written,
// [[repeated]] tables are an Array of them.
type value struct {
	kind  unstable.Kind
	at    span
	text  string // strings: what they say; other scalars: as written
	items []*value
	table *table
	heads bool // an Array that [[headers]] make
}

// document is a TOML text and where everything in it stands.
type document struct {
	name  string
	text  []byte
	root  *table
	heads []head // headers in the order of the text
}

// head is one [header] or [[header]].
type head struct {
	at    int // where its line begins
	table *table
}

const bom = "\ufeff"

// parse reads text; faults have file, line and column.
func parse(name string, text []byte) (*document, error) {
	d := &document{name: name, text: text, root: newTable(headed, span{})}
	if len(text) > MaxBytes {
		f := seating.Wrong("", "is this a stunt file?",
			"the file has %d bytes, more than the %d that a stunt file may have", len(text), MaxBytes)
		f.File = name
		return nil, f
	}
	for at := 0; at < len(text); {
		r, n := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && n == 1 {
			return nil, d.fault(at, "the text is not UTF-8", "save the file as UTF-8 in the editor")
		}
		at += n
	}
	b := builder{d: d, base: len(text) - len(bytes.TrimPrefix(text, []byte(bom))), open: d.root}
	d.root.end = b.base
	b.p.Reset(text[b.base:])
	if err := b.run(); err != nil {
		return nil, err
	}
	return d, nil
}

func newTable(how making, at span) *table {
	return &table{how: how, at: at, end: at.to, byName: map[string]*entry{}}
}

func tableValue(t *table) *value { return &value{kind: unstable.InlineTable, at: t.at, table: t} }

func (t *table) add(e *entry) {
	t.entries = append(t.entries, e)
	t.byName[e.name] = e
}

// lineColumn counts from 1; columns are characters, not bytes.
func (d *document) lineColumn(at int) (line, column int) {
	at = min(at, len(d.text))
	start := d.lineStart(at)
	line = bytes.Count(d.text[:start], []byte("\n")) + 1
	if start == 0 && bytes.HasPrefix(d.text, []byte(bom)) {
		start = min(len(bom), at)
	}
	return line, utf8.RuneCount(d.text[start:at]) + 1
}

// lineStart is the offset at which the line of an offset begins.
func (d *document) lineStart(at int) int { return bytes.LastIndexByte(d.text[:at], '\n') + 1 }

func (d *document) fault(at int, what, hint string) *seating.Fault {
	line, column := d.lineColumn(at)
	return &seating.Fault{File: d.name, Line: line, Column: column, What: what, Hint: hint}
}

// builder makes tables of the expressions of the text.
type builder struct {
	p    unstable.Parser
	d    *document
	base int    // offset of the parser's first byte
	open *table // the table of the last header
}

func (b *builder) run() error {
	for b.p.NextExpression() {
		n := b.p.Expression()
		var err error
		switch n.Kind {
		case unstable.KeyValue:
			err = b.keyValue(b.open, n)
		case unstable.Table:
			err = b.header(n, false)
		case unstable.ArrayTable:
			err = b.header(n, true)
		}
		if err != nil {
			return err
		}
	}
	err := b.p.Error()
	if err == nil {
		return nil
	}
	at := len(b.d.text)
	if pe, ok := errors.AsType[*unstable.ParserError](err); ok {
		at = b.base + int(b.p.Range(pe.Highlight).Offset)
	}
	return b.d.fault(at, "this is not TOML: "+err.Error(), b.syntaxHint(at))
}

// syntaxHint looks at the line for what people mistype most: curly quotes from a word
// processor, a quote left open, a length without quotes.
func (b *builder) syntaxHint(at int) string {
	line, _, _ := strings.Cut(string(b.d.text[b.d.lineStart(at):]), "\n")
	line, _, _ = strings.Cut(line, "#")
	switch {
	case strings.ContainsAny(line, "“”„«»"):
		return `type straight quotes, "like these": curly ones come from a word processor`
	case strings.Count(line, `"`)%2 == 1:
		return "a quote is left open in this line: close it"
	case bareLength.MatchString(line):
		return `a length stands in quotes, such as "3 m"`
	}
	return `write each line as key = value, [table], or a comment after #; words stand in "quotes"`
}

// bareLength is a key with a number and a unit that no quotes are around.
var bareLength = regexp.MustCompile(`=\s*[0-9][0-9.,/ ]*(mm|cm|m|in|ft|'|")`)

func (b *builder) span(r unstable.Range) span {
	from := b.base + int(r.Offset)
	return span{from, from + int(r.Length)}
}

// key is one part of a key that may have dots.
type key struct {
	name string
	at   span
}

func (b *builder) keys(it unstable.Iterator) []key {
	var ks []key
	for it.Next() {
		n := it.Node()
		ks = append(ks, key{string(n.Data), b.span(n.Raw)})
	}
	return ks
}

func (b *builder) twice(k key, first *entry) error {
	line, _ := b.d.lineColumn(first.key.from)
	return b.d.fault(k.at.from, fmt.Sprintf("%q is given twice, first in line %d", k.name, line), "keep one of them")
}

func (b *builder) keyValue(t *table, n *unstable.Node) error {
	ks := b.keys(n.Key())
	last := ks[len(ks)-1]
	whole := b.span(n.Raw)
	for _, k := range ks[:len(ks)-1] {
		t.end = max(t.end, whole.to)
		e := t.byName[k.name]
		if e == nil {
			sub := newTable(dotted, span{ks[0].at.from, last.at.to})
			sub.braces = t.braces
			sub.prefix = string(b.d.text[ks[0].at.from:k.at.to]) + "."
			e = &entry{k.name, k.at, whole, &value{kind: unstable.InlineTable, at: k.at, table: sub}}
			t.add(e)
		}
		if e.val.table == nil || e.val.table.how != dotted {
			return b.twice(k, e)
		}
		t = e.val.table
	}
	if first := t.byName[last.name]; first != nil {
		return b.twice(last, first)
	}
	start := b.skip(last.at.to, " \t=")
	v, err := b.value(n.Value(), start)
	if err != nil {
		return err
	}
	t.add(&entry{last.name, last.at, span{ks[0].at.from, v.at.to}, v})
	t.end = max(t.end, v.at.to)
	return nil
}

// skip is the first offset from at on that holds none of the characters and no comment.
func (b *builder) skip(at int, characters string) int {
	for at < len(b.d.text) {
		c := b.d.text[at]
		switch {
		case c == '#':
			for at < len(b.d.text) && b.d.text[at] != '\n' {
				at++
			}
		case strings.IndexByte(characters, c) >= 0:
			at++
		default:
			return at
		}
	}
	return at
}

const filler = " \t\r\n,"

// value reads the value that starts at offset start.
func (b *builder) value(n *unstable.Node, start int) (*value, error) {
	v := &value{kind: n.Kind, text: string(n.Data)}
	switch n.Kind {
	case unstable.Array:
		end := start + 1
		for it := n.Children(); it.Next(); {
			item, err := b.value(it.Node(), b.skip(end, filler))
			if err != nil {
				return nil, err
			}
			v.items = append(v.items, item)
			end = item.at.to
		}
		v.at = span{start, b.skip(end, filler) + 1}
	case unstable.InlineTable:
		v.table = newTable(inlined, span{start, start + 1})
		v.table.braces = true
		for it := n.Children(); it.Next(); {
			if err := b.keyValue(v.table, it.Node()); err != nil {
				return nil, err
			}
		}
		v.at = span{start, b.skip(v.table.end, filler) + 1}
		v.table.at = v.at
	default:
		v.at = b.span(n.Raw)
	}
	return v, nil
}

// header opens the table of a [header] or [[header]].
func (b *builder) header(n *unstable.Node, again bool) error {
	ks := b.keys(n.Key())
	t := b.d.root
	for _, k := range ks[:len(ks)-1] {
		e := t.byName[k.name]
		if e == nil {
			e = &entry{k.name, k.at, k.at, tableValue(newTable(implied, k.at))}
			t.add(e)
		}
		switch {
		case e.val.heads:
			t = e.val.items[len(e.val.items)-1].table
		case e.val.table != nil && e.val.table.how != inlined:
			t = e.val.table
		default:
			return b.twice(k, e)
		}
	}
	last := ks[len(ks)-1]
	text := b.d.text
	from := len(bytes.TrimRight(text[:ks[0].at.from], " \t[")) // the span with the brackets
	from += len(text[from:]) - len(bytes.TrimLeft(text[from:], " \t"))
	to := len(text) - len(bytes.TrimLeft(text[last.at.to:], " \t]"))
	at := span{from, len(bytes.TrimRight(text[:to], " \t"))}
	e := t.byName[last.name]
	switch {
	case again && e == nil:
		b.open = newTable(repeated, at)
		t.add(&entry{last.name, last.at, at,
			&value{kind: unstable.Array, at: at, heads: true, items: []*value{tableValue(b.open)}}})
	case again && e.val.heads:
		b.open = newTable(repeated, at)
		e.val.items = append(e.val.items, tableValue(b.open))
	case !again && e == nil:
		b.open = newTable(headed, at)
		t.add(&entry{last.name, last.at, at, tableValue(b.open)})
	case !again && e.val.table != nil && e.val.table.how == implied:
		b.open = e.val.table
		e.key, e.whole, e.val.at = last.at, at, at
		b.open.how, b.open.at, b.open.end = headed, at, at.to
	default:
		return b.twice(last, e)
	}
	b.d.heads = append(b.d.heads, head{b.d.lineStart(at.from), b.open})
	return nil
}
