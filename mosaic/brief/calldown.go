package brief

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
)

// Calldown is who comes when, through which door, to which rows.
type Calldown struct {
	List     string // code of the list of people; "" = no groups are given
	Total    string
	Arrivals []ArrivalLine
	Wrong    []string // what is wrong with the times
	Counting string
	Kept     string // "" = no place is kept for nobody
	Free     string
	Slips    []Slip
	Keeper   string      // who may hold paper with names; "" = there are none on paper
	Form     []BlockLine // to fill in by hand, without groups
	Door     string      // how fast people pass a door
}

// ArrivalLine is a group in the table.
type ArrivalLine struct{ Time, Leaves, Group, People, Room, Door, Where string }

// Slip is one group's, to cut off and to be held by its leader.
type Slip struct {
	Group, People string
	Parts         [][2]string // what they are about, and the words
	Missing       string      // under the line for who is missing
	Names         [][2]string // seat and name, where the stunt wants them on paper
	Foot          string
}

// BlockLine is a block of the form.
type BlockLine struct{ Block, Rows, Seats string }

func (t *teller) calldown() Calldown {
	if t.People == nil {
		out := Calldown{Door: fmt.Sprintf("Let about %d people a minute through one door (common practice, no "+
			"source), one group after the other, those who sit highest first and the floor last.", doorPeople)}
		var seats []int32
		for s := range t.Stands.Seats {
			if use := t.Stands.Seats[s].Use; use == seating.UseCard || use == seating.UsePerson {
				seats = append(seats, int32(s))
			}
		}
		block := func(s int32) string {
			return cmp.Or(t.Blocks[s], t.Stands.Sections[t.Stands.Seats[s].Section].Name)
		}
		for _, seats := range Stretches(seats, func(a, b int32) bool { return block(a) == block(b) }) {
			out.Form = append(out.Form, BlockLine{block(seats[0]), t.rowsShort(seats), say.Thousands(len(seats))})
		}
		if turnout := t.Turnout(); turnout.People > 0 {
			out.Free = fmt.Sprintf("About %s are expected. %s", say.People(turnout.People), t.freeSeats(turnout.Free))
		}
		return out
	}
	c := &calldown{t, t.day.arrivals}
	out := Calldown{List: t.People.Code(), Total: c.total(), Wrong: c.wrong(), Counting: c.counting(),
		Kept: c.keptFree(), Free: c.freeSeats(c.nobodys(forEverybody))}
	names := NamesOnPaper(t.Plan)
	if names {
		out.Keeper = NameKeeper(t.Plan)
	}
	foot := "list " + out.List
	if t.Stunt.Title != "" {
		foot += ". " + t.Stunt.Title
	}
	for i := range c.list {
		one := &c.list[i]
		s := c.seatsOf(one)
		out.Arrivals = append(out.Arrivals, c.line(one, &s))
		slip := Slip{Group: one.Name, People: say.People(one.People()), Parts: c.slipParts(one, &s),
			Missing: "of " + say.Thousands(one.People()) + ": who is missing", Foot: foot}
		for i := one.First; names && i < one.Last; i++ { // in the order of their seats
			id := "beside the camera"
			if seat := t.People.Seat[i]; seat != people.None {
				id = t.Stands.ID(int(seat))
			}
			if name := t.People.Roster.People[i].Name; name != "" {
				slip.Names = append(slip.Names, [2]string{id, name})
			}
		}
		out.Slips = append(out.Slips, slip)
	}
	return out
}

// calldown is what its words are made from where groups come.
type calldown struct {
	*teller
	*arrivals
}

// groupSeats are the seats of a group: those for everybody, the kept ones of its wheelchair users and companions,
// those of its people who may not be filmed, and how many watch from beside the camera.
type groupSeats struct {
	// of unfilmed, those in wheelchairs and with them are in the other lists
	plain, wheelchair, companion, unfilmed []int32
	aside                                  int
}

// together are the seats that a group walks to together.
func (s *groupSeats) together() []int32 { return slices.Concat(s.plain, s.wheelchair, s.companion) }

func (c *calldown) seatsOf(g *arrival) (s groupSeats) {
	for i := g.First; i < g.Last; i++ {
		seat := c.People.Seat[i]
		if seat == people.None {
			s.aside++
			continue
		}
		list := &s.plain
		switch {
		case c.Stands.Seats[seat].For == "wheelchair":
			list = &s.wheelchair
		case c.Stands.Seats[seat].For == "companion":
			list = &s.companion
		case c.People.Roster.People[i].Unfilmed:
			list = &s.unfilmed
		}
		*list = append(*list, seat)
	}
	return s
}

func (c *calldown) total() string {
	r := c.People.Roster
	words := fmt.Sprintf("%s in %s.", say.People(len(r.People)), say.Count(len(r.Groups), "group"))
	if n := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Wheelchair }); n > 0 {
		words += fmt.Sprintf(" In wheelchairs: %s; they come before the others of their group, by the level way, "+
			"and leave by it.", say.Thousands(n))
	}
	if n, where := c.unfilmed(); n > 0 {
		words += fmt.Sprintf(" Not to be filmed: %s, %s. Their leaders know who; nobody asks why.", say.Thousands(n),
			where)
	}
	return words
}

// unfilmed is how many may not be filmed by the groups' lists, and where they are.
func (t *teller) unfilmed() (n int, where string) {
	n, aside := t.People.Roster.Count(-1, func(p *people.Person) bool { return p.Unfilmed }), t.People.Aside()
	switch aside {
	case 0:
		return n, "all on seats out of the camera's sight"
	case n:
		return n, "all beside the camera, since no seat that is left is out of its sight"
	}
	return n, fmt.Sprintf("%s on seats out of the camera's sight and %s beside the camera", say.Thousands(n-aside),
		say.Thousands(aside))
}

// line is a group in the table; the crew need not know where those sit who may not be filmed.
func (c *calldown) line(one *arrival, s *groupSeats) ArrivalLine {
	const toWrite = "________"
	l := ArrivalLine{Time: c.time(one), Group: one.Name, People: say.Thousands(one.People()),
		Room: cmp.Or(one.Room, toWrite), Door: cmp.Or(one.Door, toWrite), Where: c.rowsShort(s.together())}
	if one.said == "" {
		l.Leaves = c.when(one.at - walking)
		if !one.given {
			l.Time += "*"
		}
	}
	if n := len(s.unfilmed) + s.aside; n > 0 {
		l.Where = strings.TrimPrefix(l.Where+fmt.Sprintf("; %d apart, see the slip", n), "; ")
	}
	return l
}

func (c *calldown) wrong() (out []string) {
	for _, jam := range c.jams {
		out = append(out, "Jam: "+jam+". Change one of the two times.")
	}
	if c.late > 0 {
		out = append(out, fmt.Sprintf("Too late: the last group sits %[1]s after the safety words should begin. "+
			"Open %[1]s earlier, use another door for some groups, or let more people a minute through (per_minute).",
			say.Count(c.late, "minute")))
	}
	return out
}

// counting says how the times come about.
func (c *calldown) counting() string {
	speed := "common practice, no source; measure yours and write per_minute under [people]"
	if c.Stunt.People.PerMinute > 0 {
		speed = "as the stunt file says"
	}
	words := fmt.Sprintf("* = counted: %d people a minute through one door (%s), %s between two groups, those who "+
		"sit highest first and the floor last. A group leaves its room %d minutes before; %d minutes after the last "+
		"one has passed the door everybody sits.", c.perMinute, speed, say.Count(doorGap, "minute"), walking, settling)
	switch {
	case !c.known:
		return words + " No time is given for the take: minutes count from the take T. Write take and doors under " +
			"[day]."
	case c.doors == 0 && c.base != 0:
		return words + " The first comes when the doors open."
	case c.Stunt.Day.Doors != "":
		return words + fmt.Sprintf(" The first comes at %s, when the doors open.", c.when(c.doors))
	}
	return words + fmt.Sprintf(" The first comes at %s, counted back from the take.", c.when(c.doors))
}

// nobodys are the seats of a kind that no group has.
func (c *calldown) nobodys(kind func(*seating.Seat) bool) (seats []int32) {
	for i, who := range c.People.Person {
		if who == people.None && kind(&c.Stands.Seats[i]) {
			seats = append(seats, int32(i))
		}
	}
	return seats
}

// freeSpans is how many spans of free seats are named one by one.
const freeSpans = 400

// freeSeats says which seats stay free, for late-comers.
func (t *teller) freeSeats(seats []int32) string {
	seats = slices.DeleteFunc(slices.Clone(seats), func(s int32) bool { return !forEverybody(&t.Stands.Seats[s]) })
	if len(seats) == 0 {
		return "None: late-comers watch from beside the camera."
	}
	where := t.rowsShort(seats) + "."
	if spans := t.spans(seats); len(spans) <= freeSpans {
		where = t.seatWords(spans)
	}
	return fmt.Sprintf("%s, those whose being empty shows least in the picture; late-comers take them. %s",
		say.Count(len(seats), "seat"), where)
}

// keptFree says which wheelchair and companion places nobody of the groups has asked for.
func (c *calldown) keptFree() string {
	seats := c.nobodys(func(s *seating.Seat) bool { return s.Use == seating.UseCard && KeptMark(s) != "" })
	if len(seats) == 0 {
		return ""
	}
	return fmt.Sprintf("%s that nobody has asked for yet: they stay kept for who comes in a wheelchair, or with "+
		"somebody who does. %s.", say.Count(len(seats), "place"), c.idList(seats))
}

// slipParts are the words of a slip: what they are about, and the words.
func (c *calldown) slipParts(one *arrival, s *groupSeats) [][2]string {
	door := ", through the " + one.Door
	if one.Door == "" {
		door = ", through door ____________"
	}
	when := one.said + door
	if one.said == "" {
		when = "at " + c.when(one.at) + door + "; leave at " + c.when(one.at-walking)
	}
	parts := [][2]string{{"Time", "At the door " + when + "."}, {"Wait", "In " + cmp.Or(one.Room, "room "+
		"____________") + " until then; before the door in one line along the wall, the way kept free."}}
	add := func(about, words string) { parts = append(parts, [2]string{about, words}) }
	if one.Leader != "" {
		add("Leader", one.Leader)
	}
	if len(s.plain) > 0 {
		seats := c.seatWords(c.spans(s.plain))
		if n := c.People.Parts[one.number]; n > 1 {
			seats += fmt.Sprintf(" You sit in %d sections, with a helper in each.", n)
		}
		add("Seats", seats)
		from, left := "left", "right" // both lefts are named once, for whoever reads seat numbers in the stands
		if c.Stands.Sections[c.Stands.Seats[s.plain[0]].Section].Spec.SeatNumbers.From != seating.Left {
			from, left = left, from
		}
		add("Walk in", "One behind the other, the highest row first. In each row the first person goes on to the "+
			"far end of these seats and the others sit down beside one another; seats that are not named here stay "+
			"free. Numbers begin at the "+from+" as the camera sees it: on your "+left+" when you sit.")
	}
	kept := ""
	if len(s.wheelchair) > 0 {
		kept = "Wheelchair " + c.idList(s.wheelchair) + ". "
	}
	if len(s.companion) > 0 {
		kept += "Companion " + c.idList(s.companion) + ". "
	}
	if kept != "" {
		add("Kept places", kept+"They come in before the others, by the level way.")
	}
	var unfilmed []string
	if n := len(s.unfilmed); n > 0 {
		unfilmed = append(unfilmed, fmt.Sprintf("%d out of the camera's sight, on %s", n, c.idList(s.unfilmed)))
	}
	if s.aside > 0 {
		unfilmed = append(unfilmed, fmt.Sprintf("%d beside the camera, where the crew keeps a place and a card",
			s.aside))
	}
	if unfilmed != nil {
		add("Not filmed", say.Capital(strings.Join(unfilmed, "; "))+". You know who; nobody is named or asked.")
	}
	add("Do", c.doing(s))
	return parts
}

func (c *calldown) doing(s *groupSeats) string {
	seats := slices.Concat(s.together(), s.unfilmed)
	cards := 0
	for _, seat := range seats {
		cards += min(len(c.CardsOf(nil, seat)), 1)
	}
	words := "A card lies on every seat: it stays with its seat, so nobody changes places. Take it on the lap, read " +
		"it, wait until you are told."
	switch {
	case cards == 0:
		words = "You hold no card. Stay seated and low: you sit before the picture."
	case c.Stunt.Laying.Pass:
		words = "Cards come along the row: take the top one and pass the rest on. Keep it on the lap until you are " +
			"told."
	case cards < len(seats):
		words = "Where a card lies on the seat, it stays with its seat: take it on the lap, read it, wait until you " +
			"are told. Where none lies, stay seated and low. Nobody changes places."
	}
	return words + " Alarm: card down, walk out together, count outside."
}

// NameKeeper is who may hold paper with names.
func NameKeeper(p *mosaic.Plan) string {
	return cmp.Or(p.Stunt.People.HeldBy, "the group's own leader")
}

// rowSpan is so many seats of one row, or of rows that follow each other and are the group's alone.
type rowSpan struct {
	section, first, last int // rows; last included
	whole                bool
	from, to             int32 // numbers of the first and the last seat
	seats                int
}

// spans says which rows and seats a list of seats are, in the order of the stands.
func (t *teller) spans(seats []int32) (spans []rowSpan) {
	at := func(s int32) *seating.Seat { return &t.Stands.Seats[s] }
	for _, seats := range Stretches(slices.Sorted(slices.Values(seats)), sameRow(t.Plan)) {
		section, row := int(at(seats[0]).Section), int(at(seats[0]).Row)
		r, open := &t.Stands.Sections[section].Rows[row], 0
		for s := r.First; s < r.Last; s++ {
			if forEverybody(at(int32(s))) {
				open++
			}
		}
		whole := len(seats) == open
		if n := len(spans); whole && n > 0 && spans[n-1].whole && spans[n-1].section == section &&
			spans[n-1].last == row-1 {
			spans[n-1].last = row
			spans[n-1].seats += len(seats)
			continue
		}
		beside := func(a, b int32) bool { return whole || at(b).Place == at(a).Place+1 }
		for _, side := range Stretches(seats, beside) {
			from, to := at(side[0]).Number, at(side[len(side)-1]).Number
			spans = append(spans, rowSpan{section, row, row, whole, from, to, len(side)})
		}
	}
	return spans
}

func forEverybody(s *seating.Seat) bool {
	return s.For == "" && (s.Use == seating.UseCard || s.Use == seating.UsePerson)
}

// seatWords says spans in full, a sentence a section: "Section A: rows 3 to 5, all 30 seats; row 6, seats 1 to 8."
func (t *teller) seatWords(spans []rowSpan) string {
	var out []string
	for _, spans := range Stretches(spans, sameSection) {
		section := &t.Stands.Sections[spans[0].section]
		var parts []string
		for _, s := range spans {
			words := "row" + say.Glue + section.Rows[s.first].Name
			if s.last > s.first {
				words = "rows" + say.Glue + section.Rows[s.first].Name + say.Glue + "to" + say.Glue +
					section.Rows[s.last].Name
			}
			switch {
			case s.whole && s.seats > 1:
				words += fmt.Sprintf(", all %d seats", s.seats)
			case s.seats == 1:
				words += fmt.Sprintf(", seat"+say.Glue+"%d", s.from)
			default:
				words += fmt.Sprintf(", seats"+say.Glue+"%d"+say.Glue+"to"+say.Glue+"%d", s.from, s.to)
			}
			parts = append(parts, words)
		}
		out = append(out, "Section "+section.Name+": "+strings.Join(parts, "; ")+".")
	}
	return strings.Join(out, " ")
}

func sameSection(a, b rowSpan) bool { return a.section == b.section }

// rowsShort says in which rows seats are, in a few words: "A 3–6, B 1".
func (t *teller) rowsShort(seats []int32) string {
	var parts []string
	together := func(a, b rowSpan) bool { return sameSection(a, b) && b.first <= a.last+1 }
	for _, rows := range Stretches(t.spans(seats), together) {
		section := &t.Stands.Sections[rows[0].section]
		first, last := rows[0].first, rows[len(rows)-1].last
		words := section.Name + say.Glue + "row" + say.Glue + section.Rows[first].Name
		if last > first {
			words = section.Name + say.Glue + "rows" + say.Glue + section.Rows[first].Name + "–" +
				section.Rows[last].Name
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

// idList is "A-1-7, A-1-9", of many the first few.
func (t *teller) idList(seats []int32) string {
	const most = 20
	var ids []string
	for _, s := range seats[:min(len(seats), most)] {
		ids = append(ids, t.Stands.ID(int(s)))
	}
	if more := len(seats) - most; more > 0 {
		ids = append(ids, fmt.Sprintf("and %d more", more))
	}
	return strings.Join(ids, ", ")
}

// KeptMark is the letter of a wheelchair or companion place, or "".
func KeptMark(seat *seating.Seat) string {
	if seat.For == "wheelchair" || seat.For == "companion" {
		return seat.For[:1]
	}
	return ""
}
