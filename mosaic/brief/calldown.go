package brief

import (
	"fmt"
	"slices"
	"strconv"
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
	p := t.p
	if p.People == nil {
		out := Calldown{Door: fmt.Sprintf("Let about %d people a minute through one door (common practice, no source), one group "+
			"after the other, those who sit highest first and the floor last.", doorPeople)}
		for _, b := range seatBlocks(p) {
			out.Form = append(out.Form, BlockLine{b.name, rowsShort(p, spansOf(p, b.seats)), say.Thousands(len(b.seats))})
		}
		return out
	}
	c := &calldown{arrivals: t.day.arrivals, plan: p, who: p.People}
	out := Calldown{List: p.People.Code(), Total: c.total(), Wrong: c.wrong(), Counting: c.counting(), Kept: c.keptFree(), Free: c.free()}
	if NamesOnPaper(p) {
		out.Keeper = NameKeeper(p)
	}
	for i := range c.list {
		one, g := &c.list[i], c.group(i)
		s := c.seatsOf(one.group)
		out.Arrivals = append(out.Arrivals, c.line(one, g, &s))
		slip := Slip{Group: g.Name, People: say.People(g.People()), Parts: c.slipParts(one, g, &s), Names: c.namesOf(one.group),
			Missing: "of " + say.Thousands(g.People()) + ": who is missing", Foot: "list " + out.List}
		if p.Stunt.Title != "" {
			slip.Foot += ". " + p.Stunt.Title
		}
		out.Slips = append(out.Slips, slip)
	}
	return out
}

// calldown is what its words are made from.
type calldown struct {
	*arrivals
	plan *mosaic.Plan
	who  *people.Seated
}

func (c *calldown) group(i int) *people.Group { return &c.who.Roster.Groups[c.list[i].group] }

// seats of a group: those for everybody, the kept ones of its wheelchair users and companions, those of its people
// who may not be filmed, and how many watch from beside the camera.
type groupSeats struct {
	// of unfilmed, those in wheelchairs and with them are in the other lists
	plain, wheelchair, companion, unfilmed []int32
	aside                                  int
}

// together are the seats that a group walks to together.
func (s *groupSeats) together() []int32 { return slices.Concat(s.plain, s.wheelchair, s.companion) }

func (c *calldown) seatsOf(g int) groupSeats {
	var s groupSeats
	group := &c.who.Roster.Groups[g]
	for i := group.First; i < group.Last; i++ {
		seat := c.who.Seat[i]
		if seat == people.None {
			s.aside++
			continue
		}
		switch {
		case c.plan.Stands.Seats[seat].For == "wheelchair":
			s.wheelchair = append(s.wheelchair, seat)
		case c.plan.Stands.Seats[seat].For == "companion":
			s.companion = append(s.companion, seat)
		case c.who.Roster.People[i].Unfilmed:
			s.unfilmed = append(s.unfilmed, seat)
		default:
			s.plain = append(s.plain, seat)
		}
	}
	return s
}

// total counts who comes.
func (c *calldown) total() string {
	r := c.who.Roster
	words := []string{fmt.Sprintf("%s in %s.", say.People(len(r.People)), say.Count(len(r.Groups), "group"))}
	if n := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Wheelchair }); n > 0 {
		words = append(words,
			fmt.Sprintf("In wheelchairs: %s; they come before the others of their group, by the level way, and leave by it.",
				say.Thousands(n)))
	}
	if n := r.Count(-1, func(p *people.Person) bool { return p.Unfilmed }); n > 0 {
		words = append(words, fmt.Sprintf("Not to be filmed: %s, %s. Their leaders know who; nobody asks why.", say.Thousands(n),
			unfilmedWhere(n, c.who.Aside())))
	}
	return strings.Join(words, " ")
}

// unfilmedWhere says where those are who may not be filmed, so many of them beside the camera.
func unfilmedWhere(n, aside int) string {
	switch {
	case aside == 0:
		return "all on seats out of the camera's sight"
	case aside == n:
		return "all beside the camera, since no seat that is left is out of its sight"
	}
	return fmt.Sprintf("%s on seats out of the camera's sight and %s beside the camera", say.Thousands(n-aside),
		say.Thousands(aside))
}

// time is the clock column.
func (c *calldown) time(one *arrival) string {
	if one.said != "" {
		return one.said
	}
	return c.when(one.at)
}

// line is a group in the table; the crew need not know where those sit who may not be filmed.
func (c *calldown) line(one *arrival, g *people.Group, s *groupSeats) ArrivalLine {
	l := ArrivalLine{Time: c.time(one), Group: g.Name, People: say.Thousands(g.People()), Room: orLine(g.Room), Door: orLine(g.Door)}
	if one.said == "" {
		l.Leaves = c.when(one.at - walking)
	}
	if !one.given && one.said == "" {
		l.Time += "*"
	}
	l.Where = rowsShort(c.plan, spansOf(c.plan, s.together()))
	if n := len(s.unfilmed) + s.aside; n > 0 {
		l.Where = strings.TrimPrefix(l.Where+fmt.Sprintf("; %d apart, see the slip", n), "; ")
	}
	return l
}

// orLine leaves room to write where nothing is known.
func orLine(s string) string {
	if s == "" {
		return "________"
	}
	return s
}

// wrong is what is wrong with the times.
func (c *calldown) wrong() (out []string) {
	for _, jam := range c.jams {
		out = append(out, "Jam: "+jam+". Change one of the two times.")
	}
	if c.late > 0 {
		out = append(out, fmt.Sprintf("Too late: the last group sits %s after the safety words should begin. Open %s earlier, use another "+
			"door for some groups, or let more people a minute through (per_minute).", say.Count(c.late, "minute"), say.Count(c.late, "minute")))
	}
	return out
}

// counting says how the times come about.
func (c *calldown) counting() string {
	speed := "common practice, no source; measure yours and write per_minute under [people]"
	if c.plan.Stunt.People.PerMinute > 0 {
		speed = "as the stunt file says"
	}
	words := fmt.Sprintf("* = counted: %d people a minute through one door (%s), %s between two groups, those who sit "+
		"highest first and the floor last. A group leaves its room %d minutes before; %d minutes after the last one has "+
		"passed the door everybody sits.",
		c.perMinute, speed, say.Count(doorGap, "minute"), walking, settling)
	switch {
	case !c.known:
		words += " No time is given for the take: minutes count from the take T. Write take and doors under [day]."
	case c.doors == 0 && c.base != 0:
		words += " The first comes when the doors open."
	default:
		words += fmt.Sprintf(" The first comes at %s, counted back from the take.", c.when(c.doors))
		if c.plan.Stunt.Day.Doors != "" {
			words = strings.Replace(words, ", counted back from the take.", ", when the doors open.", 1)
		}
	}
	return words
}

// free says which seats stay free, for late-comers.
func (c *calldown) free() string {
	var seats []int32
	for i, who := range c.who.Person {
		s := &c.plan.Stands.Seats[i]
		if who == people.None && s.For == "" && (s.Use == seating.UseCard || s.Use == seating.UsePerson) {
			seats = append(seats, int32(i))
		}
	}
	if len(seats) == 0 {
		return "None: late-comers watch from beside the camera."
	}
	const few = 12 // spans that are said seat by seat
	spans := spansOf(c.plan, seats)
	where := rowsShort(c.plan, spans) + "."
	if len(spans) <= few {
		where = strings.Join(seatWords(c.plan, spans), " ")
	}
	return fmt.Sprintf("%s, those whose being empty shows least in the picture; late-comers take them. %s",
		say.Count(len(seats), "seat"), where)
}

// keptFree says which wheelchair and companion places nobody of the groups has asked for.
func (c *calldown) keptFree() string {
	var seats []int32
	for i, who := range c.who.Person {
		if s := &c.plan.Stands.Seats[i]; who == people.None && s.Use == seating.UseCard && KeptMark(s) != "" {
			seats = append(seats, int32(i))
		}
	}
	if len(seats) == 0 {
		return ""
	}
	return fmt.Sprintf("%s that nobody has asked for yet: they stay kept for who comes in a wheelchair, or with somebody "+
		"who does. %s.", say.Count(len(seats), "place"), idList(c.plan, seats))
}

// slipParts are the words of a slip: what they are about, and the words.
func (c *calldown) slipParts(one *arrival, g *people.Group, s *groupSeats) [][2]string {
	door := "through the " + g.Door
	if g.Door == "" {
		door = "through door ____________"
	}
	when := "at the door " + c.time(one) + ", " + door
	if one.said == "" {
		when = "at the door at " + c.when(one.at) + ", " + door + "; leave at " + c.when(one.at-walking)
	}
	parts := [][2]string{{"Time", say.Capital(when) + "."}}
	wait := "In " + g.Room
	if g.Room == "" {
		wait = "In room ____________"
	}
	parts = append(parts,
		[2]string{"Wait", wait + " until then; before the door in one line along the wall, the way kept free."})
	if g.Leader != "" {
		parts = append(parts, [2]string{"Leader", g.Leader})
	}
	if len(s.plain) > 0 {
		parts = append(parts, [2]string{"Seats", strings.Join(seatWords(c.plan, spansOf(c.plan, s.plain)), " ") +
			c.parted(one.group)})
		parts = append(parts,
			[2]string{"Walk in",
				"One behind the other, the highest row first. In each row the first person goes on to the far end of these " +
					"seats and the others sit down beside one another; seats that are not named here stay free. " + c.sides(s.plain)})
	}
	if len(s.wheelchair)+len(s.companion) > 0 {
		words := ""
		if len(s.wheelchair) > 0 {
			words = "Wheelchair " + idList(c.plan, s.wheelchair) + ". "
		}
		if len(s.companion) > 0 {
			words += "Companion " + idList(c.plan, s.companion) + ". "
		}
		parts = append(parts, [2]string{"Kept places", words + "They come in before the others, by the level way."})
	}
	if words := c.unfilmed(s); words != "" {
		parts = append(parts, [2]string{"Not filmed", words})
	}
	return append(parts, [2]string{"Do", c.doing(s)})
}

// parted says that no section held the group.
func (c *calldown) parted(g int) string {
	if n := c.who.Parts[g]; n > 1 {
		return fmt.Sprintf(" No section holds you all: you sit in %d, with a helper in each.", n)
	}
	return ""
}

// sides names both lefts once, for whoever reads seat numbers in the stands.
func (c *calldown) sides(seats []int32) string {
	first := &c.plan.Stands.Seats[seats[0]]
	left := c.plan.Stands.Sections[first.Section].Spec.SeatNumbers.From == seating.Left
	if left {
		return "Numbers begin at the left as the camera sees it: on your right when you sit."
	}
	return "Numbers begin at the right as the camera sees it: on your left when you sit."
}

// unfilmed tells the leader where those sit who may not be filmed, by count and seat.
func (c *calldown) unfilmed(s *groupSeats) string {
	var parts []string
	if n := len(s.unfilmed); n > 0 {
		parts = append(parts, fmt.Sprintf("%d out of the camera's sight, on %s", n, idList(c.plan, s.unfilmed)))
	}
	if s.aside > 0 {
		parts = append(parts, fmt.Sprintf("%d beside the camera, where the crew keeps a place and a card", s.aside))
	}
	if len(parts) == 0 {
		return ""
	}
	return say.Capital(strings.Join(parts, "; ")) + ". You know who; nobody is named or asked."
}

// doing says what to do once they sit.
func (c *calldown) doing(s *groupSeats) string {
	cards, without := 0, 0
	for _, seat := range slices.Concat(s.together(), s.unfilmed) {
		if len(c.plan.CardsOf(nil, seat)) > 0 {
			cards++
		} else {
			without++
		}
	}
	var words string
	switch pass := c.plan.Stunt.Laying.Pass; {
	case cards == 0:
		words = "You hold no card. Stay seated and low: you sit before the picture."
	case pass:
		words = "Cards come along the row: take the top one and pass the rest on. Keep it on the lap until you are told."
	case without > 0:
		words = "Where a card lies on the seat, it stays with its seat: take it on the lap, read it, wait until you are " +
			"told. Where none lies, stay seated and low. Nobody changes places."
	default:
		words = "A card lies on every seat: it stays with its seat, so nobody changes places. Take it on the lap, read " +
			"it, wait until you are told."
	}
	return words + " Alarm: card down, walk out together, count outside."
}

// namesOf are the names of a group's people where the stunt wants them on paper, in the order of their seats.
func (c *calldown) namesOf(g int) [][2]string {
	if !NamesOnPaper(c.plan) {
		return nil
	}
	var list [][2]string
	group := &c.who.Roster.Groups[g]
	for i := group.First; i < group.Last; i++ {
		name := c.who.Roster.People[i].Name
		if name == "" {
			continue
		}
		id := "beside the camera"
		if seat := c.who.Seat[i]; seat != people.None {
			id = c.plan.Stands.ID(int(seat))
		}
		list = append(list, [2]string{id, name})
	}
	return list
}

// NameKeeper is who may hold paper with names.
func NameKeeper(p *mosaic.Plan) string {
	if who := p.Stunt.People.HeldBy; who != "" {
		return who
	}
	return "the group's own leader"
}

// seatBlock is a block with its people's seats.
type seatBlock struct {
	name  string
	seats []int32
}

// seatBlocks lists the blocks in the order of the seats.
func seatBlocks(p *mosaic.Plan) []seatBlock {
	var list []seatBlock
	for i := range p.Stands.Seats {
		s := &p.Stands.Seats[i]
		if s.Use != seating.UseCard && s.Use != seating.UsePerson {
			continue
		}
		name := p.Blocks[i]
		if name == "" {
			name = p.Stands.Sections[s.Section].Name
		}
		if n := len(list); n == 0 || list[n-1].name != name {
			list = append(list, seatBlock{name: name})
		}
		list[len(list)-1].seats = append(list[len(list)-1].seats, int32(i))
	}
	return list
}

// rowSpan is so many seats of one row, or of rows that follow each other and are the group's alone.
type rowSpan struct {
	section, first, last int // rows; last included
	whole                bool
	from, to             int32 // seat numbers, where it is one row and not whole
	seats                int
}

// spansOf says which rows and seats a list of seats are, in the order of the stands.
func spansOf(p *mosaic.Plan, seats []int32) []rowSpan {
	sorted := slices.Sorted(slices.Values(seats))
	var spans []rowSpan
	for len(sorted) > 0 {
		first := &p.Stands.Seats[sorted[0]]
		n := 1
		for n < len(sorted) && p.Stands.Seats[sorted[n]].Section == first.Section &&
			p.Stands.Seats[sorted[n]].Row == first.Row {
			n++
		}
		spans = appendRow(p, spans, sorted[:n])
		sorted = sorted[n:]
	}
	return spans
}

// appendRow adds the seats of one row.
func appendRow(p *mosaic.Plan, spans []rowSpan, seats []int32) []rowSpan {
	section, row := int(p.Stands.Seats[seats[0]].Section), int(p.Stands.Seats[seats[0]].Row)
	if len(seats) == openSeats(p, section, row) {
		if n := len(spans); n > 0 && spans[n-1].whole && spans[n-1].section == section && spans[n-1].last == row-1 {
			spans[n-1].last = row
			spans[n-1].seats += len(seats)
			return spans
		}
		return append(spans, rowSpan{section: section, first: row, last: row, whole: true, seats: len(seats)})
	}
	for from := 0; from < len(seats); {
		to := from + 1
		for to < len(seats) && p.Stands.Seats[seats[to]].Place == p.Stands.Seats[seats[to-1]].Place+1 {
			to++
		}
		spans = append(spans, rowSpan{section: section, first: row, last: row, seats: to - from,
			from: p.Stands.Seats[seats[from]].Number, to: p.Stands.Seats[seats[to-1]].Number})
		from = to
	}
	return spans
}

// openSeats counts a row's seats that are for everybody.
func openSeats(p *mosaic.Plan, section, row int) int {
	n := 0
	r := &p.Stands.Sections[section].Rows[row]
	for i := r.First; i < r.Last; i++ {
		if s := &p.Stands.Seats[i]; s.For == "" && (s.Use == seating.UseCard || s.Use == seating.UsePerson) {
			n++
		}
	}
	return n
}

// seatWords says spans in full, a sentence a section: "Section A: rows 3 to 5, all 30 seats; row 6, seats 1 to 8."
func seatWords(p *mosaic.Plan, spans []rowSpan) []string {
	var out []string
	for len(spans) > 0 {
		section := spans[0].section
		var parts []string
		for len(spans) > 0 && spans[0].section == section {
			parts = append(parts, spans[0].words(p))
			spans = spans[1:]
		}
		out = append(out, "Section "+p.Stands.Sections[section].Name+": "+strings.Join(parts, "; ")+".")
	}
	return out
}

func (s *rowSpan) words(p *mosaic.Plan) string {
	rows := p.Stands.Sections[s.section].Rows
	name := "row" + say.Glue + rows[s.first].Name
	if s.last > s.first {
		name = "rows" + say.Glue + rows[s.first].Name + say.Glue + "to" + say.Glue + rows[s.last].Name
	}
	switch {
	case s.whole && s.seats > 1:
		return fmt.Sprintf("%s, all %d seats", name, s.seats)
	case s.seats == 1:
		at := s.from
		if s.whole {
			at = onlySeat(p, s)
		}
		return fmt.Sprintf("%s, seat"+say.Glue+"%d", name, at)
	}
	return fmt.Sprintf("%s, seats"+say.Glue+"%d"+say.Glue+"to"+say.Glue+"%d", name, s.from, s.to)
}

// onlySeat is the number of the one seat of a row.
func onlySeat(p *mosaic.Plan, s *rowSpan) int32 {
	r := &p.Stands.Sections[s.section].Rows[s.first]
	for i := r.First; i < r.Last; i++ {
		if p.Stands.Seats[i].For == "" {
			return p.Stands.Seats[i].Number
		}
	}
	return 0
}

// rowsShort says which rows in a few words: "A 3–6, B 1".
func rowsShort(p *mosaic.Plan, spans []rowSpan) string {
	var parts []string
	for i := 0; i < len(spans); {
		section, first, last := spans[i].section, spans[i].first, spans[i].last
		n := i + 1
		for n < len(spans) && spans[n].section == section && spans[n].first <= last+1 {
			last = max(last, spans[n].last)
			n++
		}
		rows := p.Stands.Sections[section].Rows
		words := p.Stands.Sections[section].Name + say.Glue + "row" + say.Glue + rows[first].Name
		if last > first {
			words = p.Stands.Sections[section].Name + say.Glue + "rows" + say.Glue + rows[first].Name + "–" + rows[last].Name
		}
		parts = append(parts, words)
		i = n
	}
	return strings.Join(parts, ", ")
}

// idList is "A-1-7, A-1-9", of many the first few.
func idList(p *mosaic.Plan, seats []int32) string {
	const most = 20
	var ids []string
	for i, s := range seats {
		if i == most {
			ids = append(ids, "and "+strconv.Itoa(len(seats)-most)+" more")
			break
		}
		ids = append(ids, p.Stands.ID(int(s)))
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
