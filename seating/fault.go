package seating

import (
	"strconv"
	"strings"
)

// Fault is one thing wrong in what somebody gave us: where it is, what is
// wrong, and how to mend it. Key is the dotted path of the stunt file
// ("section[1].rise", counted from 0) for whoever knows files to turn into a
// line; File, Line and Column (from 1) are empty or 0 until then.
type Fault struct {
	File   string
	Line   int
	Column int
	Key    string
	What   string // lower case, no full stop
	Hint   string // how to mend it; may be empty
	Cause  error  // what it was made of, for whoever can say more; may be nil
}

// Unwrap is the cause.
func (f *Fault) Unwrap() error { return f.Cause }

// Error says place, what is wrong and the hint on one line.
func (f *Fault) Error() string {
	var b strings.Builder
	if at := f.Where(); at != "" {
		b.WriteString(at)
		b.WriteString(": ")
	}
	b.WriteString(f.What)
	if f.Hint != "" {
		b.WriteString(" (hint: ")
		b.WriteString(f.Hint)
		b.WriteString(")")
	}
	return b.String()
}

// Where is "file:line:column", or the key while no file is known.
func (f *Fault) Where() string {
	if f.File == "" {
		return f.Key
	}
	at := f.File
	for _, n := range []int{f.Line, f.Column} {
		if n == 0 {
			break
		}
		at += ":" + strconv.Itoa(n)
	}
	return at
}
