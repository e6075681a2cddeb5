package camera

import (
	"fmt"
	"iter"
	"strings"
)

// What HiddenReport asks and tries.
const (
	rowHidden = 0.5 // a row whose cards show less than this on average is hidden
	rowSeats  = 8   // cards of a row that are looked at again
)

// lensHeights are what is tried, in metres: a tripod, a table or a stand, a gallery.
var lensHeights = [...]float64{2, 3, 4, 6, 8, 12}

// hiddenRows is rows of one section that follow each other and are hidden by the same thing.
type hiddenRows struct {
	section, first, last int
	cause                string
	seats                []int32
	seen                 float64 // sum of the shares
	helps                []string
}

// HiddenReport names in plain sentences the rows whose cards show less than half,
// what hides them, and how the card must be held, or how high the lens must stand,
// for every one of them to show. What is tried is seen again with a few cards of each row.
func HiddenReport(s *Scene, v *View, sight *Sight) []string {
	groups := s.hiddenGroups(sight)
	if len(groups) == 0 {
		return nil
	}
	wanted := make([]bool, len(s.Stands.Seats))
	for i := range groups {
		for row := range s.byRow(groups[i].seats) {
			n := min(rowSeats, len(row))
			for k := range n {
				wanted[row[k*len(row)/n]] = true
			}
		}
	}
	s.tryHeld(v, groups, wanted)
	s.tryHeights(v, groups, wanted)
	lines := make([]string, len(groups))
	for i := range groups {
		lines[i] = groups[i].sentence(s)
	}
	return lines
}

// hiddenGroups finds the rows, front to back.
func (s *Scene) hiddenGroups(sight *Sight) []hiddenRows {
	var groups []hiddenRows
	for i := range s.Stands.Sections {
		for r := range s.Stands.Sections[i].Rows {
			row := hiddenRows{section: i, first: r, last: r}
			causes := map[string]float64{}
			for seat := s.Stands.Sections[i].Rows[r].First; seat < s.Stands.Sections[i].Rows[r].Last; seat++ {
				if !s.holds(seat) || sight.Behind[seat] {
					continue
				}
				row.seats = append(row.seats, int32(seat))
				row.seen += float64(sight.Seen[seat])
				causes[s.cause(seat, sight)] += 1 - float64(sight.Seen[seat])
			}
			if len(row.seats) == 0 || row.seen >= rowHidden*float64(len(row.seats)) {
				continue
			}
			row.cause = most(causes)
			if n := len(groups); n > 0 && groups[n-1].section == i && groups[n-1].last == r-1 && groups[n-1].cause == row.cause {
				g := &groups[n-1]
				g.last, g.seats, g.seen = r, append(g.seats, row.seats...), g.seen+row.seen
				continue
			}
			groups = append(groups, row)
		}
	}
	return groups
}

// most is the cause with the largest sum, to a millionth; of equals the first in the alphabet.
func most(causes map[string]float64) string {
	best, size := "", int64(-1)
	for cause, x := range causes {
		if n := int64(x * 1e6); n > size || n == size && cause < best {
			best, size = cause, n
		}
	}
	return best
}

// The causes.
const (
	causeFrame    = "the edge of the frame cuts them off"
	causeFloor    = "people on the floor are in front of them"
	causePeople   = "heads and shoulders in the rows in front hide them"
	causeFlat     = "they are seen edge-on"
	causeCards    = "cards in the rows in front hide them"
	causeRail     = "a rail is in front of them"
	causeSteps    = "benches and steps in front hide them"
	causeObstacle = "an obstacle stands in front of them"
)

// cause is what hides most of a seat's card.
func (s *Scene) cause(seat int, sight *Sight) string {
	if sight.Hider[seat] < 0 || !sight.InFrame[seat] && sight.Seen[seat] == 0 {
		if sight.InFrame[seat] {
			return causeFlat
		}
		return causeFrame
	}
	part := Part(sight.Hider[seat])
	if owner := sight.HiderOf[seat]; owner >= 0 && part != PartRail && s.floorSection(owner) && s.Stands.Seats[owner].Section != s.Stands.Seats[seat].Section {
		return causeFloor
	}
	switch part {
	case PartCard:
		return causeCards
	case PartRail:
		return causeRail
	case PartBench, PartStep, PartFloor:
		return causeSteps
	case PartBox:
		return causeObstacle
	}
	return causePeople
}

// byRow gives the runs of seats, sorted by row, that lie in one row.
func (s *Scene) byRow(seats []int32) iter.Seq[[]int32] {
	return func(yield func([]int32) bool) {
		for len(seats) > 0 {
			n := 1
			for n < len(seats) && s.Stands.Seats[seats[n]].Row == s.Stands.Seats[seats[0]].Row {
				n++
			}
			if !yield(seats[:n]) {
				return
			}
			seats = seats[n:]
		}
	}
}

// shows says of which groups every row shows at least half of its cards.
func (s *Scene) shows(groups []hiddenRows, wanted []bool, sight *Sight) []bool {
	ok := make([]bool, len(groups))
	for i := range groups {
		ok[i] = true
		for row := range s.byRow(groups[i].seats) {
			seen, n := 0.0, 0
			for _, seat := range row {
				if wanted[seat] {
					seen += float64(sight.Seen[seat])
					n++
				}
			}
			ok[i] = ok[i] && seen >= rowHidden*float64(n)
		}
	}
	return ok
}

// tryHeld finds the lowest way of holding, above the scene's, at which each group shows.
func (s *Scene) tryHeld(v *View, groups []hiddenRows, wanted []bool) {
	if s.Resting {
		return
	}
	helped := make([]bool, len(groups))
	for held := s.Card.Held + 1; held <= Overhead; held++ {
		higher := *s
		higher.Card.Held = held
		for i, ok := range s.shows(groups, wanted, higher.see(v, leastSamples, wanted)) {
			if ok && !helped[i] {
				helped[i] = true
				groups[i].helps = append(groups[i].helps, "the card held "+held.Words())
			}
		}
	}
}

// tryHeights finds the lowest lens, above the view's, from which each group shows.
func (s *Scene) tryHeights(v *View, groups []hiddenRows, wanted []bool) {
	helped := make([]bool, len(groups))
	for _, height := range lensHeights {
		if height <= v.Position[2]+0.1 {
			continue
		}
		higher, ok := s.raised(v, height)
		if !ok {
			continue
		}
		for i, ok := range s.shows(groups, wanted, s.see(higher, leastSamples, wanted)) {
			if ok && !helped[i] {
				helped[i] = true
				groups[i].helps = append(groups[i].helps, fmt.Sprintf("the lens at %g m", height))
			}
		}
	}
}

// raised is the view from higher up, with the cards in the middle of the frame.
func (s *Scene) raised(v *View, height float64) (*View, bool) {
	higher := *v
	higher.Position[2] = height
	stands, floor := s.outline()
	_, ok := higher.centre(append(stands, floor...))
	return &higher, ok
}

// sentence says it.
func (g *hiddenRows) sentence(s *Scene) string {
	sec := &s.Stands.Sections[g.section]
	verb := "is"
	if g.last > g.first {
		verb = "are"
	}
	line := fmt.Sprintf("Section %s, %s %s hidden: %d %% of the cards shows, %s",
		sec.Name, nameRows(sec, g.first, g.last), verb, int(100*g.seen/float64(len(g.seats))), g.cause)
	switch {
	case g.cause == causeFrame:
		line += "; aim that way, step back or take a wider lens"
	case len(g.helps) > 0:
		line += "; they would show with " + strings.Join(g.helps, ", or with ")
	default:
		line += "; neither a higher hand nor a lens up to " + fmt.Sprintf("%g m", lensHeights[len(lensHeights)-1]) + " high shows them"
	}
	return line
}
