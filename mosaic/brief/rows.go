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
func (r *Row) All() int { return sum(r.Cards) }

// count counts the row's kits, of so many kinds of cards.
func (r *Row) count(kinds int) {
	r.Cards, r.Placards = make([]int, kinds), 0
	for _, kit := range r.Kits {
		r.Placards += min(len(kit), 1)
		for _, c := range kit {
			r.Cards[c]++
		}
	}
}

// Stretches cuts a list where neighbours are not alike.
func Stretches[T any](list []T, alike func(before, next T) bool) (out [][]T) {
	from := 0
	for i := range list {
		if i+1 == len(list) || !alike(list[i], list[i+1]) {
			out = append(out, list[from:i+1:i+1])
			from = i + 1
		}
	}
	return out
}

// sameRow says whether two seats are of one row.
func sameRow(p *mosaic.Plan) func(a, b int32) bool {
	return func(a, b int32) bool {
		s, o := &p.Stands.Seats[a], &p.Stands.Seats[b]
		return s.Section == o.Section && s.Row == o.Row
	}
}

// Rows splits the plan's laying order into rows and sections; sections in which nobody holds a card are left out.
func Rows(p *mosaic.Plan) [][]Row {
	var rows []Row
	for _, seats := range Stretches(p.Order, sameRow(p)) {
		rows = append(rows, newRow(p, seats))
	}
	sections := Stretches(rows, func(a, b Row) bool { return a.Section == b.Section })
	return slices.DeleteFunc(sections, func(rows []Row) bool {
		return !slices.ContainsFunc(rows, func(r Row) bool { return r.Placards > 0 })
	})
}

func newRow(p *mosaic.Plan, seats []int32) Row {
	first, last := &p.Stands.Seats[seats[0]], &p.Stands.Seats[seats[len(seats)-1]]
	sec := &p.Stands.Sections[first.Section]
	r := Row{Section: int(first.Section), Row: int(first.Row), Seats: seats, Kits: make([][]int16, len(seats)),
		Name: sec.Name + "-" + sec.Rows[first.Row].Name, LeftToRight: first.Place <= last.Place}
	buf := make([]int16, 0, len(seats))
	for k, seat := range seats {
		from := len(buf)
		buf = p.CardsOf(buf, seat)
		r.Kits[k] = buf[from:len(buf):len(buf)]
	}
	r.count(len(p.Cards))
	return r
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
	if all := sum(cards); all > 0 {
		return strings.Join(amounts(cards, say.Glue, cardName(p)), ", ") + " = " + say.Count(all, "card")
	}
	return "no cards"
}

// cardName names kinds of cards.
func cardName(p *mosaic.Plan) func(c int) string {
	return func(c int) string { return p.Cards[c].ID }
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
	arms, where := "", "top edge at your eyes"
	switch p.Stunt.Card.Held {
	case camera.Lap:
		return "Hold it flat on your lap."
	case camera.Chest:
		where = "its middle on your chest"
	case camera.Chin:
		where = "top edge just under your chin"
	case camera.Overhead:
		arms, where = " on straight arms", "bottom edge over the top of your head"
	}
	return "Hold it up" + arms + " with " + wayRound(p, "both hands") + ", " + where + "."
}

// wayRound says which way round the card is held, square being what is said of one that has no long side.
func wayRound(p *mosaic.Plan, square string) string {
	switch width, height := p.CardSize(); {
	case width > height:
		return "the long side level"
	case width < height:
		return "the long side upright"
	}
	return square
}

// StartWords names the end to start from for somebody who works in the stands. The people in the
// row face the camera, so what is left for the camera is right for them.
func StartWords(pass, leftToRight bool) string {
	camera, person := "RIGHT", "LEFT"
	if leftToRight {
		camera, person = person, camera
	}
	end := "the " + camera + " end as the camera sees it: that is the " + person + "-hand end when you sit in the " +
		"row and face the camera."
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
			return "Put each label on " + where + "its first card, lay its other cards behind that one, and keep " +
				"this order: "
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
func Runs(p *mosaic.Plan, list []Place) (runs []Run) {
	for _, pl := range list {
		r := Run{1, "no seat", true}
		switch {
		case len(pl.Kit) > 0:
			r.What, r.Gap = KitName(p, pl.Kit), false
		case pl.Seat >= 0:
			r.What = IdleWord(&p.Stands.Seats[pl.Seat])
		}
		if n := len(runs); n > 0 && runs[n-1].What == r.What && runs[n-1].Gap == r.Gap {
			runs[n-1].Count++
		} else {
			runs = append(runs, r)
		}
	}
	return runs
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
	words := "section " + st.Sections[next].Name
	if st.Sections[left].Spec.Aisle != 0 {
		words = "aisle, then " + words
	}
	return words
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

// Cord is one cord: sections with the same pitch and the same way of numbering share it.
type Cord struct {
	Pitch    seating.Length
	Numbers  seating.SeatNumbering
	Sections []int
	Places   int // of the longest row
}

// Cords lists the cords, in the order of the sections.
func Cords(p *mosaic.Plan) []Cord {
	var cords []Cord
	for k := range p.Stands.Sections {
		sec := &p.Stands.Sections[k]
		cards := slices.ContainsFunc(p.Stands.Seats[sec.First:sec.Last],
			func(s seating.Seat) bool { return s.Use == seating.UseCard })
		if sec.Spec.Kind != seating.Bench || !cards {
			continue
		}
		c := Cord{Pitch: sec.Spec.Pitch, Numbers: sec.Spec.SeatNumbers}
		c.Numbers.Start, c.Numbers.Step = max(c.Numbers.Start, 1), max(c.Numbers.Step, 1)
		i := slices.IndexFunc(cords, func(o Cord) bool { return o.Pitch == c.Pitch && o.Numbers == c.Numbers })
		if i < 0 {
			i = len(cords)
			cords = append(cords, c)
		}
		cords[i].Sections = append(cords[i].Sections, k)
		cords[i].Places = max(cords[i].Places, MostPlaces(sec))
	}
	return cords
}

// MostPlaces is how many places the section's longest row has.
func MostPlaces(sec *seating.Section) int {
	most := 0
	for r := range sec.Rows {
		most = max(most, sec.Rows[r].Places)
	}
	return most
}
