package advice

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/say"
)

// seenRow is one row of a section as the marks see it.
type seenRow struct {
	name string
	seen float64 // mean share of its cards that is seen, from the worst mark
	high float64 // mean height of its seats' cells in the camera's picture, pixels
	y    float64 // mean middle of its cards in the camera's picture, pixels from the top
}

// seenSection is the rows of a section that may carry the text, front to back.
type seenSection struct {
	name string
	rows []seenRow
}

// lookAtRows keeps how the sections that may carry cue i are seen, row by row: those that it names, or else any with
// cards but floor blocks.
func (s *study) lookAtRows(plan *mosaic.Plan, i int) {
	on := plan.Stunt.Cues[i].On
	for _, sec := range plan.Stands.Sections {
		named := slices.ContainsFunc(on, func(name string) bool { return strings.EqualFold(name, sec.Name) })
		if !named && (len(on) > 0 || !onStands(&sec.Spec)) {
			continue
		}
		out := seenSection{name: sec.Name}
		for _, r := range sec.Rows {
			out.rows = append(out.rows, lookAtRow(plan, &r))
		}
		s.seen = append(s.seen, out)
	}
}

// lookAtRow measures one row; where nobody holds a card it is as good as any.
func lookAtRow(plan *mosaic.Plan, r *seating.Row) seenRow {
	out := seenRow{name: r.Name, seen: 1}
	cards, seen := 0.0, make([]float64, len(plan.Marks))
	for at := r.First; at < r.Last; at++ {
		if plan.Stands.Seats[at].Use != seating.UseCard {
			continue
		}
		cards++
		c := &plan.Cells[at]
		out.high += math.Hypot(c[3][0]-c[0][0], c[3][1]-c[0][1])
		out.y += plan.Marks[0].Sight.Centre[at][1]
		for k := range seen {
			seen[k] += float64(plan.Marks[k].Sight.Seen[at])
		}
	}
	if cards == 0 {
		out.high = math.Inf(1)
		return out
	}
	out.high, out.y = out.high/cards, out.y/cards
	for _, sum := range seen {
		out.seen = min(out.seen, math.Round(1000*sum/cards)/1000)
	}
	return out
}

// What is tried of rows: those of which less than so much is seen are left out, and those that are so
// much lower in the picture than the middle one; or the lowest part of all.
const (
	hardlySeen = 0.4
	halfSeen   = 0.7
	flat       = 0.6
	lowPart    = 4  // one row in so many
	rowsEnough = 6  // a letter needs five, and looks well on more
	mostRows   = 4  // choices that are tried
	uneven     = 10 // so many hundredths of a row: sections differ in height by more
)

// choice is the rows from…to of each section of a study; from > to = none of them.
type choice [][2]int

// rows is the text on other rows of its sections: without those that are hidden or seen flat, on those that
// all sections share, without the lowest. The least change comes first.
func (s *study) rows() []*variant {
	var choices []choice
	add := func(keep func(section, row int) bool) {
		c := s.longest(keep)
		if c != nil && !slices.ContainsFunc(choices, func(o choice) bool { return slices.Equal(o, c) }) {
			choices = append(choices, c)
		}
	}
	middle := s.middleHeight()
	seen := func(least float64) func(k, r int) bool {
		return func(k, r int) bool { return s.seen[k].rows[r].seen >= least }
	}
	tall := func(k, r int) bool {
		return s.seen[k].rows[r].seen >= hardlySeen && hundredths(s.seen[k].rows[r].high) >= hundredths(flat*middle)
	}
	add(seen(hardlySeen))
	add(seen(halfSeen))
	add(tall)
	if top, bottom, differ := s.shared(); differ {
		add(func(k, r int) bool { y := s.seen[k].rows[r].y; return y >= top && y <= bottom })
	}
	add(func(k, r int) bool { return r >= (len(s.seen[k].rows)+lowPart-1)/lowPart })
	slices.SortStableFunc(choices, func(a, b choice) int { return cmp.Compare(b.count(), a.count()) })
	var out []*variant
	for _, c := range choices[:min(len(choices), mostRows)] {
		out = append(out, s.onRows(c))
	}
	return out
}

func (c choice) count() (n int) {
	for _, r := range c {
		n += max(0, r[1]+1-r[0])
	}
	return n
}

// longest keeps of each section the longest run of rows that are to be kept, the upper one of like ones;
// nil where that is no choice: everything, or nothing that letters could stand on.
func (s *study) longest(keep func(section, row int) bool) choice {
	c := make(choice, len(s.seen))
	most, all := 0, true
	for k := range s.seen {
		c[k] = [2]int{0, -1}
		n := len(s.seen[k].rows)
		for from := 0; from < n; from++ {
			to := from
			for to < n && keep(k, to) {
				to++
			}
			if to > from && to-from >= c[k][1]+1-c[k][0] {
				c[k] = [2]int{from, to - 1}
			}
			from = to
		}
		length := c[k][1] + 1 - c[k][0]
		if length < rowsEnough {
			c[k], length = [2]int{0, -1}, 0
		}
		most, all = max(most, length), all && length == n
	}
	if most == 0 || all {
		return nil
	}
	return c
}

// middleHeight is the median height of a row in the picture.
func (s *study) middleHeight() float64 {
	var all []float64
	for k := range s.seen {
		for _, r := range s.seen[k].rows {
			if !math.IsInf(r.high, 1) {
				all = append(all, r.high)
			}
		}
	}
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[len(all)/2]
}

// shared is the part of the picture's height in which every section has rows, half a row more at its
// ends; differ says whether any section has more.
func (s *study) shared() (top, bottom float64, differ bool) {
	if len(s.seen) < 2 {
		return 0, 0, false
	}
	top, bottom = math.Inf(-1), math.Inf(1)
	half := float64(s.middleHeight() / 2)
	for k := range s.seen {
		rows := s.seen[k].rows
		top, bottom = max(top, rows[len(rows)-1].y-half), min(bottom, rows[0].y+half)
	}
	for k := range s.seen {
		rows := s.seen[k].rows
		off := max(top-rows[len(rows)-1].y, rows[0].y-bottom)
		differ = differ || off > half*uneven/100
	}
	return top, bottom, differ
}

// onRows is the text laid on a choice of rows; sections of which none is left are left out.
func (s *study) onRows(c choice) *variant {
	var on, names []string
	for k := range c {
		if c[k][0] <= c[k][1] {
			on = append(on, s.seen[k].name)
		}
	}
	rows, words := s.ranges(c)
	if len(rows) == 0 {
		return s.onSections(on)
	}
	for _, r := range rows {
		names = append(names, mosaic.RowsKey(r))
	}
	keys := "rows = " + mosaic.KeyList(names)
	if len(on) < len(c) {
		keys = "on = " + mosaic.KeyList(on) + ", " + keys
	} else {
		on = nil
	}
	return &variant{
		change: "other rows", do: fmt.Sprintf("lay it on %s (%s)", words, keys), rank: rankRows, leastFirst: true,
		apply: func(stunt *mosaic.Stunt) {
			cue := s.own(stunt)
			cue.Rows = rows
			if on != nil {
				cue.On = on
			}
		},
	}
}

// ranges writes a choice as the stunt file does, and in words: for all sections at once where they are alike. An end
// that is the section's own is left open.
func (s *study) ranges(c choice) (rows []seating.RowRange, words string) {
	var each []seating.RowRange // by section that is left
	var names []string
	for k, part := range c {
		if part[0] > part[1] {
			continue
		}
		var r seating.RowRange
		own := s.seen[k].rows
		if part[0] > 0 {
			r.From = own[part[0]].name
		}
		if part[1] < len(own)-1 {
			r.To = own[part[1]].name
		}
		each = append(each, r)
		names = append(names, rowWords(r)+" of section "+s.seen[k].name)
		if r.From != "" || r.To != "" {
			r.Section = s.seen[k].name
			rows = append(rows, r)
		}
	}
	alike := !slices.ContainsFunc(each, func(r seating.RowRange) bool { return r != each[0] })
	if alike && len(each) == len(c) && len(rows) > 0 {
		return each[:1], rowWords(each[0]) + " alone"
	}
	return rows, say.List(names)
}

func rowWords(r seating.RowRange) string {
	switch {
	case r.From == "" && r.To == "":
		return "all rows"
	case r.To == "":
		return "the rows from " + r.From + " to the back"
	case r.From == "":
		return "the rows from the front to " + r.To
	case r.From == r.To:
		return "row " + r.From
	}
	return "rows " + r.From + " to " + r.To
}
