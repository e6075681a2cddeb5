package camera

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"everyseat/seating"
)

// Outside says in plain sentences which cards the picture does not hold: outside
// the frame, cut by its edge, behind the lens, or seen from behind. Empty is good.
func Outside(s *Scene, v *View, sight *Sight) []string {
	var outside, cut, behind, back []int32
	for seat := range s.Stands.Seats {
		q, ok := s.CardQuad(seat)
		if !ok {
			continue
		}
		t := v.quad(q)
		b := t.box()
		switch {
		case t.depth < near:
			behind = append(behind, int32(seat))
		case !t.front:
			back = append(back, int32(seat))
		case sight.InFrame[seat]:
		case b[2] <= 0 || b[3] <= 0 || b[0] >= float64(v.Width) || b[1] >= float64(v.Height):
			outside = append(outside, int32(seat))
		default:
			cut = append(cut, int32(seat))
		}
	}
	var lines []string
	say := func(seats []int32, one, many string) {
		what := fmt.Sprintf("%d %s", len(seats), many)
		if len(seats) == 1 {
			what = "1 " + one
		}
		if len(seats) > 0 {
			lines = append(lines, what+": "+nameSeats(s.Stands, seats, s.holds))
		}
	}
	say(outside, "card is outside the frame", "cards are outside the frame")
	say(cut, "card is cut by the edge of the frame", "cards are cut by the edge of the frame")
	say(behind, "card is behind the lens or within 0.3 m of it", "cards are behind the lens or within 0.3 m of it")
	if s.Resting || s.Card.Held == Lap {
		say(back, "card lies flat and is seen from below", "cards lie flat and are seen from below")
	} else {
		say(back, "card is seen from behind", "cards are seen from behind")
	}
	return lines
}

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
		for row := range byRow(s.Stands, groups[i].seats) {
			n := min(rowSeats, len(row))
			for k := range n {
				wanted[row[k*len(row)/n]] = true
			}
		}
	}
	helped := make([]bool, len(groups))
	for held := s.Card.Held + 1; held <= Overhead && !s.Resting; held++ { // the lowest way of holding that helps
		higher := *s
		higher.Card.Held = held
		s.try(groups, wanted, helped, higher.see(v, leastSamples, wanted), "the card held "+held.Words())
	}
	clear(helped)
	stands, floor := s.outline()
	all := append(stands, floor...)
	for _, height := range lensHeights { // the lowest lens that helps, the cards in the middle of the frame
		higher := *v
		higher.Position[2] = height
		if height <= v.Position[2]+0.1 {
			continue
		}
		if _, ok := higher.centre(all); ok {
			sight := s.see(&higher, leastSamples, wanted)
			s.try(groups, wanted, helped, sight, fmt.Sprintf("the lens at %g m", height))
		}
	}
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
			of := &s.Stands.Sections[i].Rows[r]
			for seat := of.First; seat < of.Last; seat++ {
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
			follows := func(g *hiddenRows) bool { return g.section == i && g.last == r-1 && g.cause == row.cause }
			if n := len(groups) - 1; n >= 0 && follows(&groups[n]) {
				g := &groups[n]
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

// causes are what hides a card, by the part that hides most of it.
var causes = [...]string{
	PartCard: "cards in the rows in front hide them",
	PartHead: causePeople, PartHair: causePeople, PartBody: causePeople, PartLegs: causePeople, PartHand: causePeople,
	PartBench: causeSteps, PartStep: causeSteps, PartFloor: causeSteps,
	PartRail: "a rail is in front of them",
	PartBox:  "an obstacle stands in front of them",
}

const (
	causeFrame  = "the edge of the frame cuts them off"
	causePeople = "heads and shoulders in the rows in front hide them"
	causeSteps  = "benches and steps in front hide them"
)

func (s *Scene) cause(seat int, sight *Sight) string {
	part := sight.Hider[seat]
	switch {
	case !sight.InFrame[seat] && (part < 0 || sight.Seen[seat] == 0):
		return causeFrame
	case part < 0:
		return "they are seen edge-on"
	}
	if owner := sight.HiderOf[seat]; owner >= 0 && Part(part) != PartRail {
		section := s.Stands.Seats[owner].Section
		if s.Stands.Sections[section].Spec.Kind == seating.Floor && section != s.Stands.Seats[seat].Section {
			return "people on the floor are in front of them"
		}
	}
	return causes[part]
}

// runs parts a list where neighbours are not alike.
func runs[T any](list []T, alike func(a, b T) bool) iter.Seq[[]T] {
	return func(yield func([]T) bool) {
		for len(list) > 0 {
			n := 1
			for n < len(list) && alike(list[n-1], list[n]) {
				n++
			}
			if !yield(list[:n]) {
				return
			}
			list = list[n:]
		}
	}
}

// byRow parts seats of one section, sorted by row, where the row changes.
func byRow(stands *seating.Stands, seats []int32) iter.Seq[[]int32] {
	return runs(seats, func(a, b int32) bool { return stands.Seats[a].Row == stands.Seats[b].Row })
}

// try keeps what helps for the groups that it is the first to help: of which every row, as seen then, shows at least
// half of its cards.
func (s *Scene) try(groups []hiddenRows, wanted []bool, helped []bool, sight *Sight, what string) {
	for i := range groups {
		ok := !helped[i]
		for row := range byRow(s.Stands, groups[i].seats) {
			seen, n := 0.0, 0
			for _, seat := range row {
				if wanted[seat] {
					seen += float64(sight.Seen[seat])
					n++
				}
			}
			ok = ok && seen >= rowHidden*float64(n)
		}
		if ok {
			helped[i] = true
			groups[i].helps = append(groups[i].helps, what)
		}
	}
}

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
		highest := lensHeights[len(lensHeights)-1]
		line += fmt.Sprintf("; neither a higher hand nor a lens up to %g m high shows them", highest)
	}
	return line
}

const mostNamed = 8

// nameSeats says which seats these are: "section B, rows 3–5 and row 6 seats 1–4; all of section C".
// Seats come in index order; of is all the seats that could be named, to know what "all" is.
func nameSeats(stands *seating.Stands, seats []int32, of func(seat int) bool) string {
	var sections []string
	section := func(seat int32) int32 { return stands.Seats[seat].Section }
	for run := range runs(seats, func(a, b int32) bool { return section(a) == section(b) }) {
		sections = append(sections, nameInSection(stands, &stands.Sections[section(run[0])], run, of))
	}
	return strings.Join(sections, "; ")
}

func nameInSection(stands *seating.Stands, sec *seating.Section, seats []int32, of func(seat int) bool) string {
	if len(seats) == countSeats(sec.First, sec.Last, of) {
		return "all of section " + sec.Name
	}
	row := func(seats []int32) int { return int(stands.Seats[seats[0]].Row) }
	whole := func(seats []int32) bool {
		r := &sec.Rows[row(seats)]
		return len(seats) == countSeats(r.First, r.Last, of)
	}
	follows := func(a, b []int32) bool { return whole(a) && whole(b) && row(b) == row(a)+1 }
	var names []string
	for rows := range runs(slices.Collect(byRow(stands, seats)), follows) {
		if first := rows[0]; whole(first) {
			names = append(names, nameRows(sec, row(first), row(rows[len(rows)-1])))
		} else {
			names = append(names, "row "+sec.Rows[row(first)].Name+" "+nameNumbers(stands, first))
		}
	}
	more := ""
	if len(names) > mostNamed {
		more = fmt.Sprintf(" and %d more", len(names)-mostNamed)
		names = names[:mostNamed]
	}
	return "section " + sec.Name + ", " + strings.Join(names, ", ") + more
}

func countSeats(first, last int, of func(seat int) bool) int {
	n := 0
	for seat := first; seat < last; seat++ {
		if of(seat) {
			n++
		}
	}
	return n
}

func nameRows(sec *seating.Section, first, last int) string {
	if first == last {
		return "row " + sec.Rows[first].Name
	}
	return "rows " + sec.Rows[first].Name + "–" + sec.Rows[last].Name
}

// nameNumbers names seats of one row by their numbers as marked.
func nameNumbers(stands *seating.Stands, seats []int32) string {
	word := "seats "
	if len(seats) == 1 {
		word = "seat "
	}
	var names []string
	for run := range runs(seats, func(a, b int32) bool { return b == a+1 }) {
		a, b := stands.Seats[run[0]].Number, stands.Seats[run[len(run)-1]].Number
		name := fmt.Sprint(min(a, b))
		if len(run) > 1 {
			name += fmt.Sprintf("–%d", max(a, b))
		}
		names = append(names, name)
	}
	if len(names) > mostNamed {
		names = append(names[:mostNamed], "…")
	}
	return word + strings.Join(names, ", ")
}
