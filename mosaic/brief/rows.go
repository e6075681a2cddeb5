package brief

import (
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// Row is one row as the crew meets it: its seats in laying order and what they get.
type Row struct {
	Section, Row int
	Seats        []int32   // all seats of the row, in laying order
	Kits         [][]int16 // by Seats: the cards that each gets, of Plan.Cards
	Cards        []int     // how many of each of Plan.Cards
	Placards     int       // seats that get something
	Name         string    // as it is called on paper, for example B-7
	LeftToRight  bool      // the way it is walked, as the camera sees it
}

// Depth says in words which row of its section it is, since names do not tell front from back.
func (r *Row) Depth(p *mosaic.Plan) string {
	switch rows := len(p.Stands.Sections[r.Section].Rows); {
	case rows == 1:
		return "This section has this row alone."
	case r.Row == 0:
		return "This is the FRONT row."
	case r.Row == rows-1:
		return "This is the BACK row."
	default:
		return "This is row " + strconv.Itoa(r.Row+1) + " from the front."
	}
}

// All is how many cards the row takes.
func (r *Row) All() int {
	all := 0
	for _, n := range r.Cards {
		all += n
	}
	return all
}

// Rows splits the plan's laying order into rows and sections; sections in which nobody holds a card are left out.
func Rows(p *mosaic.Plan) (sections [][]Row) {
	for i := 0; i < len(p.Order); {
		first := &p.Stands.Seats[p.Order[i]]
		end := i + 1
		for end < len(p.Order) && p.Stands.Seats[p.Order[end]].Section == first.Section && p.Stands.Seats[p.Order[end]].Row == first.Row {
			end++
		}
		row := newRow(p, int(first.Section), int(first.Row), p.Order[i:end])
		if n := len(sections); n == 0 || sections[n-1][0].Section != row.Section {
			sections = append(sections, nil)
		}
		sections[len(sections)-1] = append(sections[len(sections)-1], row)
		i = end
	}
	return slices.DeleteFunc(sections, func(rows []Row) bool { return LastBag(rows) < 0 })
}

func newRow(p *mosaic.Plan, section, row int, seats []int32) Row {
	sec := &p.Stands.Sections[section]
	r := Row{Section: section, Row: row, Seats: seats, Cards: make([]int, len(p.Cards)), Kits: make([][]int16, len(seats)), Name: sec.Name + "-" + sec.Rows[row].Name}
	r.LeftToRight = p.Stands.Seats[seats[0]].Place <= p.Stands.Seats[seats[len(seats)-1]].Place
	buf := make([]int16, 0, len(seats))
	for k, seat := range seats {
		from := len(buf)
		buf = p.CardsOf(buf, seat)
		kit := buf[from:len(buf):len(buf)]
		r.Kits[k] = kit
		for _, c := range kit {
			r.Cards[c]++
		}
		if len(kit) > 0 {
			r.Placards++
		}
	}
	return r
}

// LastBag is the last of the rows that gets any card, or −1.
func LastBag(rows []Row) int {
	last := -1
	for i := range rows {
		if rows[i].Placards > 0 {
			last = i
		}
	}
	return last
}

// KitName says a kit in one word or two: "NAVY", or "NAVY + CREAM" for two cards.
func KitName(p *mosaic.Plan, kit []int16) string {
	names := make([]string, len(kit))
	for i, c := range kit {
		names[i] = p.Cards[c].ID
	}
	return strings.Join(names, " + ")
}

// CardCount is "12 NAVY, 6 CREAM = 18 cards".
func CardCount(p *mosaic.Plan, cards []int) string {
	var parts []string
	total := 0
	for c, n := range cards {
		if n > 0 {
			parts = append(parts, say.Thousands(n)+say.Glue+p.Cards[c].ID)
			total += n
		}
	}
	if total == 0 {
		return "no cards"
	}
	return strings.Join(parts, ", ") + " = " + say.Count(total, "card")
}

// IdleWord says why a seat gets nothing.
func IdleWord(s *seating.Seat) string {
	switch s.Use {
	case seating.UseReserved:
		if s.For != "" && s.For != "nobody" {
			return "kept for " + s.For
		}
		return "kept free"
	case seating.UsePerson:
		return "person without a card"
	case seating.UseDropped:
		return "left out"
	}
	return "no card"
}

// HeldWords tells people how to hold the card, by their own body.
func HeldWords(p *mosaic.Plan) string {
	switch p.Stunt.Card.Held {
	case camera.Lap:
		return "Hold it flat on your lap."
	case camera.Chest:
		return "Hold it up with " + wayRound(p) + ", its middle on your chest."
	case camera.Chin:
		return "Hold it up with " + wayRound(p) + ", top edge just under your chin."
	case camera.Overhead:
		return "Hold it up on straight arms with " + wayRound(p) + ", bottom edge over the top of your head."
	}
	return "Hold it up with " + wayRound(p) + ", top edge at your eyes."
}

// wayRound says which way round the card is held.
func wayRound(p *mosaic.Plan) string {
	width, height := p.Stunt.Card.Width, p.Stunt.Card.Height
	if p.Scene != nil {
		width, height = p.Scene.Card.Width, p.Scene.Card.Height
	}
	switch {
	case width > height:
		return "the long side level"
	case width < height:
		return "the long side upright"
	}
	return "both hands"
}

// StartWords names the end to start from for somebody who works in the stands. The people in the
// row face the camera, so what is left for the camera is right for them.
func StartWords(pass, leftToRight bool) string {
	camera, person := "RIGHT", "LEFT"
	if leftToRight {
		camera, person = person, camera
	}
	end := "the " + camera + " end as the camera sees it: that is the " + person + "-hand end when you sit in the row and face the camera."
	if pass {
		return "Hand the stack in at " + end + " Everybody takes the top card and passes the rest on."
	}
	return "Start at " + end
}

// LabelWords says where the labels go.
func LabelWords(p *mosaic.Plan, row *Row) string {
	where := "the back of "
	for _, kit := range row.Kits {
		if len(kit) > 0 && p.Cards[kit[0]].Sides[0] != p.Cards[kit[0]].Sides[1] {
			where = "side A, low down, of " // the camera sees both sides
		}
	}
	for _, kit := range row.Kits {
		if len(kit) > 1 {
			return "Put each label on " + where + "its first card, lay its other cards behind that one, and keep this order: "
		}
	}
	return "Put each label on " + where + "a card of its colour, and keep this order: "
}

// Place is one place of a row, from the left as the camera sees it; Seat is −1 where there is none.
type Place struct {
	Seat int32
	Kit  []int16
}

// Places lays the row out from left to right, gaps included.
func Places(p *mosaic.Plan, r *Row) []Place {
	row := &p.Stands.Sections[r.Section].Rows[r.Row]
	list := make([]Place, row.Places)
	for i := range list {
		list[i].Seat = -1
	}
	for k, seat := range r.Seats {
		list[p.Stands.Seats[seat].Place] = Place{seat, r.Kits[k]}
	}
	return list
}

// Run is so many neighbouring places with the same cards, or with the same reason for none.
type Run struct {
	Count int
	What  string
	Gap   bool
}

// Runs counts runs in the order of the list.
func Runs(p *mosaic.Plan, list []Place) []Run {
	var runs []Run
	for _, pl := range list {
		what, gap := placeWord(p, pl)
		if n := len(runs); n > 0 && runs[n-1].What == what && runs[n-1].Gap == gap {
			runs[n-1].Count++
			continue
		}
		runs = append(runs, Run{1, what, gap})
	}
	return runs
}

func placeWord(p *mosaic.Plan, pl Place) (what string, gap bool) {
	switch {
	case pl.Seat < 0:
		return "no seat", true
	case len(pl.Kit) == 0:
		return IdleWord(&p.Stands.Seats[pl.Seat]), true
	}
	return KitName(p, pl.Kit), false
}

// RunWords is "4 NAVY, [1 no seat], 3 CREAM"; gaps stand in brackets, cards of one person so: 2 × (NAVY + CREAM).
func RunWords(runs []Run) string {
	parts := make([]string, len(runs))
	for i, r := range runs {
		what := r.What
		if strings.Count(what, " + ") == 1 {
			what = strings.ReplaceAll(what, " + ", say.Glue+"+"+say.Glue)
		}
		if !r.Gap && strings.Contains(what, "+") {
			what = "×" + say.Glue + "(" + what + ")"
		}
		parts[i] = strconv.Itoa(r.Count) + say.Glue + what
		if r.Gap {
			parts[i] = "[" + strings.ReplaceAll(parts[i], " ", say.Glue) + "]"
		}
	}
	return strings.Join(parts, ", ")
}

func Reversed(runs []Run) []Run {
	back := make([]Run, len(runs))
	for i, r := range runs {
		back[len(runs)-1-i] = r
	}
	return back
}

// Neighbour says what lies at an end of the section's rows: an aisle to which section, or nothing known.
func Neighbour(st *seating.Stands, section int, side seating.Side) string {
	next := SectionBeside(st, section, side)
	if next < 0 {
		return ""
	}
	left := next
	if side == seating.Right {
		left = section
	}
	if st.Sections[left].Spec.Aisle == 0 {
		return "section " + st.Sections[next].Name
	}
	return "aisle, then section " + st.Sections[next].Name
}

// SectionBeside is the next of the side-by-side sections on one side, or −1.
func SectionBeside(st *seating.Stands, section int, side seating.Side) int {
	if st.Sections[section].Spec.Place != nil {
		return -1
	}
	step := 1
	if side == seating.Left {
		step = -1
	}
	for i := section + step; i >= 0 && i < len(st.Sections); i += step {
		if st.Sections[i].Spec.Place == nil {
			return i
		}
	}
	return -1
}

// Dealt are the seats that get cards, in laying order.
func Dealt(row *Row) []Place {
	var list []Place
	for k, seat := range row.Seats {
		if len(row.Kits[k]) > 0 {
			list = append(list, Place{seat, row.Kits[k]})
		}
	}
	return list
}
