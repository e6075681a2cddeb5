package sheets

import (
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// place is one place of a row, from the left as the camera sees it; seat is −1 where there is none.
type place struct {
	seat int32
	kit  []int16
}

// places lays the row out from left to right, gaps included.
func places(p *mosaic.Plan, work *rowWork) []place {
	row := &p.Stands.Sections[work.section].Rows[work.row]
	list := make([]place, row.Places)
	for i := range list {
		list[i].seat = -1
	}
	for k, seat := range work.seats {
		list[p.Stands.Seats[seat].Place] = place{seat, work.kits[k]}
	}
	return list
}

// run is so many neighbouring places with the same cards, or with the same reason for none.
type run struct {
	count int
	what  string
	gap   bool
}

// runsOf counts runs in the order of the list.
func runsOf(p *mosaic.Plan, list []place) []run {
	var runs []run
	for _, pl := range list {
		what, gap := placeWord(p, pl)
		if n := len(runs); n > 0 && runs[n-1].what == what && runs[n-1].gap == gap {
			runs[n-1].count++
			continue
		}
		runs = append(runs, run{1, what, gap})
	}
	return runs
}

func placeWord(p *mosaic.Plan, pl place) (what string, gap bool) {
	switch {
	case pl.seat < 0:
		return "no seat", true
	case len(pl.kit) == 0:
		return idleWord(&p.Stands.Seats[pl.seat]), true
	}
	return kitName(p, pl.kit), false
}

// runWords is "4 NAVY, [1 no seat], 3 CREAM"; gaps stand in brackets, cards of one person so: 2 × (NAVY + CREAM).
func runWords(runs []run) string {
	parts := make([]string, len(runs))
	for i, r := range runs {
		what := r.what
		if strings.Count(what, " + ") == 1 {
			what = strings.ReplaceAll(what, " + ", glue+"+"+glue)
		}
		if !r.gap && strings.Contains(what, "+") {
			what = "×" + glue + "(" + what + ")"
		}
		parts[i] = strconv.Itoa(r.count) + glue + what
		if r.gap {
			parts[i] = "[" + strings.ReplaceAll(parts[i], " ", glue) + "]"
		}
	}
	return strings.Join(parts, ", ")
}

func reversed(runs []run) []run {
	back := make([]run, len(runs))
	for i, r := range runs {
		back[len(runs)-1-i] = r
	}
	return back
}

// neighbour says what lies at an end of the section's rows: an aisle to which section, or nothing known.
func neighbour(st *seating.Stands, section int, side seating.Side) string {
	step := 1
	if side == seating.Left {
		step = -1
	}
	here := &st.Sections[section]
	if here.Spec.Place != nil {
		return ""
	}
	for i := section + step; i >= 0 && i < len(st.Sections); i += step {
		next := &st.Sections[i]
		if next.Spec.Place != nil {
			continue
		}
		left := next
		if side == seating.Right {
			left = here
		}
		if left.Spec.Aisle == 0 {
			return "section " + next.Name
		}
		return "aisle, then section " + next.Name
	}
	return ""
}
