package stuntfile

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"everyseat/seating"
)

// Locate gives a fault of the stunt (by its Key) the file, line and column
// where it stands: of the value, or else of the nearest table around it. Other
// errors, and faults that have a file already, come back as they are.
func (f *File) Locate(err error) error {
	var fault *seating.Fault
	if !errors.As(err, &fault) || fault.File != "" {
		return err
	}
	c := *fault
	steps, err := parsePath(fault.Key)
	if err != nil {
		steps = nil
	} else if len(steps) > 0 && steps[0].name == "section" && steps[0].index >= 0 {
		steps = f.locateSection(steps, &c)
	}
	c.File = f.Path
	at := f.doc.root.at.from
	if v, _ := f.doc.root.follow(steps); v != nil {
		at = v.at.from
	}
	c.Line, c.Column = f.doc.lineColumn(at)
	return &c
}

// locateSection turns a section of the stunt into the [[section]] that speaks of
// it; of what stands in the table alone, it says the section's name.
func (f *File) locateSection(steps []step, c *seating.Fault) []step {
	i := steps[0].index
	if i >= len(f.sections) {
		return nil
	}
	own := f.sections[i]
	if own != fromTable {
		moved := slices.Clone(steps)
		moved[0].index = own
		_, left := f.doc.root.follow(moved[:min(2, len(moved))])
		if len(left) == 0 || f.Survey == nil || i >= len(f.Survey.Sections) {
			return moved
		}
	}
	c.What = fmt.Sprintf("section %q of the table: %s", f.Stunt.Stands.Sections[i].Name, c.What)
	return []step{{name: "stands", index: noIndex}, {name: "table", index: noIndex}}
}

// step is one part of a dotted path: a key, and the place in its list or noIndex.
type step struct {
	name  string
	index int
}

const noIndex = -1

// parsePath reads `section[1].rise` or `cue[0].painted."B-3-4..9"`; places count from 0.
func parsePath(path string) ([]step, error) {
	var steps []step
	bad := fmt.Errorf("%q is not the path of a key", path)
	for rest := path; rest != ""; {
		s := step{index: noIndex}
		if rest[0] == '"' {
			quoted, err := strconv.QuotedPrefix(rest)
			if err != nil {
				return nil, bad
			}
			s.name, _ = strconv.Unquote(quoted)
			rest = rest[len(quoted):]
		} else {
			n := strings.IndexAny(rest, ".[")
			if n < 0 {
				n = len(rest)
			}
			s.name, rest = rest[:n], rest[n:]
		}
		if strings.HasPrefix(rest, "[") {
			digits, after, closed := strings.Cut(rest[1:], "]")
			n, ok := figures(digits)
			if !closed || !ok {
				return nil, bad
			}
			s.index, rest = n, after
		}
		steps = append(steps, s)
		if rest == "" {
			break
		}
		if rest[0] != '.' || len(rest) == 1 {
			return nil, bad
		}
		rest = rest[1:]
	}
	return steps, nil
}

// follow goes as far along the steps as there are values; it gives the last one
// (nil: none) and the steps that are left. A step into a list counts when both its key and its
// place are there; where only the key is, the list is given and the step is left. A value that stands for a list of
// one is its own first.
func (t *table) follow(steps []step) (v *value, left []step) {
	for len(steps) > 0 && t != nil {
		e := t.byName[steps[0].name]
		if e == nil {
			break
		}
		v = e.val
		switch i := steps[0].index; {
		case i == noIndex, i == 0 && v.table == nil && v.items == nil:
		case v.table != nil && i < len(v.table.entries):
			v = v.table.entries[i].val
		case i < len(v.items):
			v = v.items[i]
		default:
			return v, steps
		}
		t, steps = v.table, steps[1:]
	}
	return v, steps
}
