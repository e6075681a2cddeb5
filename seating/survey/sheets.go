package survey

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"everyseat/seating"
	"everyseat/seating/cells"
)

// doubtfulSheet matches names of sheets that may be another's twin, or hold no stands.
var doubtfulSheet = regexp.MustCompile(`\b(old|older|copy|backup|bak|draft|drafts|notes?|archived?|previous|` +
	`prev|obsolete|superseded|new|newer|latest|final|revised|rev|version|ver|v ?[0-9]+|scratch|tmp|temp|test|` +
	`unused|kopie|alt)\b|\([0-9]+\)$`)

// choose gives the sheets that are read: those that are asked for, else all that are to be seen, unless a name says
// that one may be another's twin.
func (o *Options) choose(name string, all []*cells.Sheet, r *Survey) ([]*cells.Sheet, error) {
	var names, hidden []string
	var out []*cells.Sheet
	for _, s := range all {
		if s.Hidden {
			hidden = append(hidden, s.Name)
			continue
		}
		names = append(names, s.Name)
		out = append(out, s)
	}
	if len(o.Sheets) > 0 {
		out = nil
		for _, want := range o.Sheets {
			i := slices.IndexFunc(all, func(s *cells.Sheet) bool {
				return strings.EqualFold(s.Name, want) && s.Name != ""
			})
			if i < 0 {
				return nil, &seating.Fault{File: name, What: fmt.Sprintf("there is no sheet %q with anything in it",
					want),
					Hint: seating.DidYouMean(want, append(names, hidden...), "there are ")}
			}
			if !slices.Contains(out, all[i]) {
				out = append(out, all[i])
			}
		}
	} else if len(out) > 1 {
		for _, s := range names {
			if doubtfulSheet.MatchString(strings.ToLower(strings.NewReplacer("_", " ", "-", " ").Replace(s))) {
				return nil, &seating.Fault{File: name, Hint: chooseHint,
					What: fmt.Sprintf("which sheets are the stands? There are %s, and by its name %q may be "+
						"none or another's twin", strings.Join(names, ", "), s)}
			}
		}
	}
	if len(all) > 1 {
		var read, left []string
		for _, s := range all {
			switch {
			case slices.Contains(out, s):
				read = append(read, s.Name)
			case s.Hidden:
				left = append(left, s.Name+" (hidden)")
			default:
				left = append(left, s.Name)
			}
		}
		text := "Sheets that were read: " + strings.Join(read, ", ")
		if left != nil {
			text += "; left out: " + strings.Join(left, ", ")
		}
		r.Notes = append(r.Notes, text+".")
	}
	for _, s := range out {
		if left := s.LeaveOutHidden(); left != "" {
			where := ""
			if len(all) > 1 {
				where = " of sheet " + s.Name
			}
			r.Notes = append(r.Notes, fmt.Sprintf("Hidden in the table and left out%s: %s.", where, left))
		}
	}
	return out, nil
}

const chooseHint = `name those to read: sheet = "NAME", or a list of names, under [stands]; --sheet NAME for ` +
	`everyseat new`

// twins says whether two sheets hold the same section, which nobody asked for by name.
func (r *reader) twins(name string) error {
	if len(r.options.Sheets) > 0 {
		return nil
	}
	for _, s := range r.order {
		for _, l := range s.lines {
			if l.sheet != s.lines[0].sheet {
				return &seating.Fault{File: name, Hint: chooseHint,
					What: fmt.Sprintf("which sheet holds section %s? Sheets %s and %s both do", s.spec.Name,
						s.lines[0].sheet.Name, l.sheet.Name)}
			}
		}
	}
	return nil
}
