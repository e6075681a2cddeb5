package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
)

// Calldown writes calldown.pdf: which group comes from which room, through which door, at which time,
// to which rows; then a slip to cut off for every group's leader. Times are counted so that doors
// do not jam, see arrivals. Names are on the slips only where the stunt asks for them, and then each
// slip says who may hold it. Without groups it is a form to fill in by hand, block by block. Errors
// are *seating.Fault.
func Calldown(w io.Writer, p *mosaic.Plan) error {
	what := "Calldown"
	if p.People != nil {
		what += ", list " + p.People.Code()
	}
	f, err := uprightFlow(p, what)
	if err != nil {
		return err
	}
	if p.People == nil {
		f.calldownForm()
		return f.finish(w)
	}
	c := newCalldown(f)
	f.title("Calldown: who comes when, through which door", occasion(p))
	c.total()
	c.table()
	c.counting()
	c.free()
	if namesOnPaper(p) {
		c.footerFrom(c.what + ", with names: for " + nameKeeper(p) + " alone")
	}
	for i := range c.list {
		c.slip(i)
	}
	return f.finish(w)
}

// calldown is the sheet with who comes when.
type calldown struct {
	*flow
	*arrivals
	who  *people.Seated
	code string // of who
}

func newCalldown(f *flow) *calldown {
	return &calldown{flow: f, arrivals: dayOf(f.plan).arrivals, who: f.plan.People, code: f.plan.People.Code()}
}

func (c *calldown) group(i int) *people.Group { return &c.who.Roster.Groups[c.list[i].group] }

// seats of a group: those for everybody, the kept ones of its wheelchair users and companions, those of its people
// who may not be filmed, and how many watch from beside the camera.
type groupSeats struct {
	plain, wheelchair, companion, unfilmed []int32 // of unfilmed, those in wheelchairs and with them are in the other lists
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
func (c *calldown) total() {
	r := c.who.Roster
	words := []string{fmt.Sprintf("%s in %s.", countPeople(len(r.People)), plural(len(r.Groups), "group"))}
	if n := r.Count(-1, func(p *people.Person) bool { return p.Need == people.Wheelchair }); n > 0 {
		words = append(words, fmt.Sprintf("In wheelchairs: %s; they come before the others of their group, by the level way, and leave by it.", thousands(n)))
	}
	if n := r.Count(-1, func(p *people.Person) bool { return p.Unfilmed }); n > 0 {
		words = append(words, fmt.Sprintf("Not to be filmed: %s, %s. Their leaders know who; nobody asks why.", thousands(n), unfilmedWhere(n, c.who.Aside())))
	}
	c.paragraph(strings.Join(words, " "), sizeBody)
	c.y += 2
	c.boxed("Before the first door opens", []string{
		"The custodian has opened the stands, the ways and exits are free, the cards lie where they belong.",
		"Nobody runs, nobody stops in an aisle or a door; whoever waits stands along the wall.",
		"An alarm means: card down, and walk out by the nearest exit. Leaders count their group outside.",
	})
}

// unfilmedWhere says where those are who may not be filmed, so many of them beside the camera.
func unfilmedWhere(n, aside int) string {
	switch {
	case aside == 0:
		return "all on seats out of the camera's sight"
	case aside == n:
		return "all beside the camera, since no seat that is left is out of its sight"
	}
	return fmt.Sprintf("%s on seats out of the camera's sight and %s beside the camera", thousands(n-aside), thousands(aside))
}

func countPeople(n int) string {
	if n == 1 {
		return "1 person"
	}
	return thousands(n) + " people"
}

// time is the clock column.
func (c *calldown) time(one *arrival) string {
	if one.said != "" {
		return one.said
	}
	return c.when(one.at)
}

func (c *calldown) table() {
	var rows [][]cell
	for i := range c.list {
		one, g := &c.list[i], c.group(i)
		s := c.seatsOf(one.group)
		leave := ""
		if one.said == "" {
			leave = c.when(one.at - walking)
		}
		where := rowsShort(c.plan, spansOf(c.plan, s.together()))
		if n := len(s.unfilmed) + s.aside; n > 0 { // the crew need not know where
			where = strings.TrimPrefix(where+fmt.Sprintf("; %d apart, see the slip", n), "; ")
		}
		star := ""
		if !one.given && one.said == "" {
			star = "*"
		}
		rows = append(rows, []cell{{text: c.time(one) + star, bold: true}, {text: leave}, {text: g.Name, bold: true}, {text: thousands(g.People()), bold: true},
			{text: orLine(g.Room)}, {text: orLine(g.Door)}, {text: where}, {tick: true}})
	}
	c.flow.table([]column{{head: "At the door"}, {head: "Leaves"}, {head: "Group", share: 1.5}, {head: "People", right: true}, {head: "From room", share: 1}, {head: "Door", share: 1},
		{head: "To rows", share: 1.6}, {head: "In"}}, rows, 9.5)
}

// orLine leaves room to write where nothing is known.
func orLine(s string) string {
	if s == "" {
		return "________"
	}
	return s
}

// counting says how the times come about, and what is wrong with them.
func (c *calldown) counting() {
	for _, jam := range c.jams {
		c.lines(c.left, c.width(), "Jam: "+jam+". Change one of the two times.", sizeBody, bold)
	}
	if c.late > 0 {
		c.lines(c.left, c.width(), fmt.Sprintf("Too late: the last group sits %s after the safety words should begin. Open %s earlier, use another door for some groups, or let more people a minute through (per_minute).", plural(c.late, "minute"), plural(c.late, "minute")), sizeBody, bold)
	}
	speed := "common practice, no source; measure yours and write per_minute under [people]"
	if c.plan.Stunt.People.PerMinute > 0 {
		speed = "as the stunt file says"
	}
	words := fmt.Sprintf("* = counted: %d people a minute through one door (%s), %s between two groups, those who sit highest first and the floor last. A group leaves its room %d minutes before; %d minutes after the last one has passed the door everybody sits.",
		c.perMinute, speed, plural(doorGap, "minute"), walking, settling)
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
	c.y += 1
	c.paragraph(words, sizeSmall)
}

// free says which seats stay free, for late-comers.
func (c *calldown) free() {
	var seats []int32
	for i, who := range c.who.Person {
		s := &c.plan.Stands.Seats[i]
		if who == people.None && s.For == "" && (s.Use == seating.UseCard || s.Use == seating.UsePerson) {
			seats = append(seats, int32(i))
		}
	}
	c.y += 2
	c.keptFree()
	if len(seats) == 0 {
		c.pair("Free seats", "None: late-comers watch from beside the camera.", sizeBody)
		return
	}
	const few = 12 // spans that are said seat by seat
	spans := spansOf(c.plan, seats)
	where := rowsShort(c.plan, spans) + "."
	if len(spans) <= few {
		where = strings.Join(seatWords(c.plan, spans), " ")
	}
	c.pair("Free seats", fmt.Sprintf("%s, those whose being empty shows least in the picture; late-comers take them. %s", plural(len(seats), "seat"), where), sizeBody)
}

// keptFree says which wheelchair and companion places nobody of the groups has asked for.
func (c *calldown) keptFree() {
	var seats []int32
	for i, who := range c.who.Person {
		if s := &c.plan.Stands.Seats[i]; who == people.None && s.Use == seating.UseCard && keptMark(s) != "" {
			seats = append(seats, int32(i))
		}
	}
	if len(seats) > 0 {
		c.pair("Kept places", fmt.Sprintf("%s that nobody has asked for yet: they stay kept for who comes in a wheelchair, or with somebody who does. %s.", plural(len(seats), "place"), idList(c.plan, seats, 20)), sizeBody)
	}
}

// slip is one group's: to cut off, and to be held by its leader.
func (c *calldown) slip(i int) {
	one, g := &c.list[i], c.group(i)
	s := c.seatsOf(one.group)
	parts := c.slipParts(one, g, &s)
	names := c.namesOf(one.group)
	high := c.slipHead(g, true)
	for _, part := range parts {
		high += c.pairHeight(part[1])
	}
	high += slipCounts
	if first := i == 0; first || namesOnPaper(c.plan) || c.y+high > c.bottom() {
		c.newPage() // names of two groups never share a sheet
	} else {
		c.cutHere()
	}
	c.continued = g.Name + ", continued"
	c.slipHead(g, false)
	for _, part := range parts {
		c.pairAt(part[0], part[1], sizeBody, slipIndent)
	}
	c.counts(g)
	if len(names) > 0 {
		c.names(names)
	}
	c.slipFoot()
	c.continued = ""
}

// Sizes of a slip: millimetres, points.
const (
	slipIndent = 27.0
	slipName   = 18.0
	slipCounts = 24.0 // the lines for the count, and the cut
)

// slipHead is the group's name and its number of people; with measure it only gives its height.
func (c *calldown) slipHead(g *people.Group, measure bool) float64 {
	const least = 11.0
	count := countPeople(g.People())
	room := c.width() - textWidth(slipName, bold, count) - 6
	size := max(sizeFor(g.Name, bold, room, slipName), least)
	lines := wrapText(g.Name, size, bold, room)
	high := capMM(slipName) + 1 + float64(len(lines)-1)*lineHeight(size) + 1.5
	if measure {
		return high
	}
	c.need(high)
	base := c.y + capMM(slipName) + 1
	c.pen().textRight(c.right, base, slipName, bold, count)
	for n, line := range lines {
		c.pen().text(c.left, base+float64(n)*lineHeight(size), size, bold, line)
	}
	c.y += high
	return high
}

func (c *calldown) pairHeight(text string) float64 {
	n := len(wrapText(text, sizeBody, regular, c.width()-slipIndent))
	return (float64(max(n, 1)) + 0.25) * lineHeight(sizeBody)
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
	parts := [][2]string{{"Time", capitalFirst(when) + "."}}
	wait := "In " + g.Room
	if g.Room == "" {
		wait = "In room ____________"
	}
	parts = append(parts, [2]string{"Wait", wait + " until then; before the door in one line along the wall, the way kept free."})
	if g.Leader != "" {
		parts = append(parts, [2]string{"Leader", g.Leader})
	}
	if len(s.plain) > 0 {
		parts = append(parts, [2]string{"Seats", strings.Join(seatWords(c.plan, spansOf(c.plan, s.plain)), " ") + c.parted(one.group)})
		parts = append(parts, [2]string{"Walk in", "One behind the other, the highest row first. In each row the first person goes on to the far end of these seats and the others sit down beside one another; seats that are not named here stay free. " + c.sides(s.plain)})
	}
	if len(s.wheelchair)+len(s.companion) > 0 {
		words := ""
		if len(s.wheelchair) > 0 {
			words = "Wheelchair " + idList(c.plan, s.wheelchair, 20) + ". "
		}
		if len(s.companion) > 0 {
			words += "Companion " + idList(c.plan, s.companion, 20) + ". "
		}
		parts = append(parts, [2]string{"Kept places", words + "They come in before the others, by the level way."})
	}
	if words := c.unfilmed(s); words != "" {
		parts = append(parts, [2]string{"Not filmed", words})
	}
	return append(parts, [2]string{"Do", c.doing(s)})
}

func capitalFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

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
		parts = append(parts, fmt.Sprintf("%d out of the camera's sight, on %s", n, idList(c.plan, s.unfilmed, 20)))
	}
	if s.aside > 0 {
		parts = append(parts, fmt.Sprintf("%d beside the camera, where the crew keeps a place and a card", s.aside))
	}
	if len(parts) == 0 {
		return ""
	}
	return capitalFirst(strings.Join(parts, "; ")) + ". You know who; nobody is named or asked."
}

// doing says what to do once they sit.
func (c *calldown) doing(s *groupSeats) string {
	cards, without := 0, 0
	for _, seat := range slices.Concat(s.together(), s.unfilmed) {
		if len(c.plan.Kit(nil, seat)) > 0 {
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
		words = "Where a card lies on the seat, it stays with its seat: take it on the lap, read it, wait until you are told. Where none lies, stay seated and low. Nobody changes places."
	default:
		words = "A card lies on every seat: it stays with its seat, so nobody changes places. Take it on the lap, read it, wait until you are told."
	}
	return words + " Alarm: card down, walk out together, count outside."
}

// counts are the lines to write the count on.
func (c *calldown) counts(g *people.Group) {
	c.y += 9
	wide := (c.width() - 12) / 4
	for i, under := range []string{"counted in the room", "counted at the door", "counted when all sit", "of " + strconv.Itoa(g.People()) + ": who is missing"} {
		c.blank(c.left+float64(i)*(wide+4), c.y, wide, under)
	}
	c.y += 5
}

// slipFoot says which plan and list the slip is of, once it is cut off.
func (c *calldown) slipFoot() {
	const size = 7.5
	c.y += 2
	words := "Plan " + c.plan.Code + ", list " + c.code
	if c.plan.Stunt.Title != "" {
		words += ". " + c.plan.Stunt.Title
	}
	c.pen().text(c.left, c.y+1.5, size, regular, shortenText(words, size, regular, c.width()))
	c.y += 3.5
}

// cutHere draws where two slips are cut apart.
func (c *calldown) cutHere() {
	p := c.pen()
	p.lineColour(grey)
	p.lineWidth(0.15)
	p.dashed(2, 1.5)
	p.line(0, c.y, c.document.width, c.y)
	p.solid()
	c.y += 3
}

// seatName is a seat and who sits there.
type seatName struct{ id, name string }

// namesOf are the names of a group's people where the stunt wants them on paper, in the order of their seats.
func (c *calldown) namesOf(g int) []seatName {
	if !namesOnPaper(c.plan) {
		return nil
	}
	var list []seatName
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
		list = append(list, seatName{id, name})
	}
	return list
}

// namesOnPaper says whether the stunt wants names on paper and there are any.
func namesOnPaper(p *mosaic.Plan) bool {
	return p.Stunt.People.Names && p.People != nil && p.People.Roster.Named()
}

// nameKeeper is who may hold paper with names.
func nameKeeper(p *mosaic.Plan) string {
	if who := p.Stunt.People.HeldBy; who != "" {
		return who
	}
	return "the group's own leader"
}

// names lists who sits where, in two columns.
func (c *calldown) names(list []seatName) {
	const size = 9.0
	c.lines(c.left, c.width(), "Names: this sheet may be held by "+nameKeeper(c.plan)+" alone, is not left lying about, and is given back and destroyed after the take.", size, bold)
	c.y += 1
	half := (len(list) + 1) / 2
	rows := make([][]cell, half)
	for i := range rows {
		rows[i] = []cell{{text: list[i].id, bold: true}, {text: list[i].name}, {}, {}}
		if k := i + half; k < len(list) {
			rows[i][2], rows[i][3] = cell{text: list[k].id, bold: true}, cell{text: list[k].name}
		}
	}
	c.flow.table([]column{{head: "Seat"}, {head: "Name", share: 1}, {head: "Seat"}, {head: "Name", share: 1}}, rows, size)
}

// calldownForm is what is printed where no groups are given: a form, block by block.
func (f *flow) calldownForm() {
	p := f.plan
	f.title("Calldown: who comes when, through which door", occasion(p))
	f.boxed("No groups are in the stunt file yet", []string{
		"Fill this in by hand: which group goes to which block, from which room, through which door, at which time.",
		"Or write a [[group]] for each class, club or choir (name, people, room, door), or roster = \"roster.csv\" under [people], and build again: then everybody has a seat, doors have their times, and every leader gets a slip.",
	})
	var rows [][]cell
	for _, b := range seatBlocks(p) {
		line := []cell{{text: b.name, bold: true}, {text: rowsShort(p, spansOf(p, b.seats))}, {text: thousands(len(b.seats)), bold: true}}
		for range 4 {
			line = append(line, cell{})
		}
		rows = append(rows, line)
	}
	f.table([]column{{head: "Block"}, {head: "Rows", share: 1.2}, {head: "Seats", right: true}, {head: "Group", share: 1.6}, {head: "From room", share: 1.2}, {head: "Door", share: 0.9}, {head: "Time", share: 0.6}}, rows, 11)
	f.paragraph(fmt.Sprintf("Let about %d people a minute through one door (common practice, no source), one group after the other, those who sit highest first and the floor last.", doorPeople), sizeSmall)
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

// writtenOfPeople is what the sheets print of the groups, and of people where names are wanted.
func writtenOfPeople(p *mosaic.Plan) []written {
	if p.People == nil {
		return nil
	}
	who := &p.Stunt.People
	all := []written{{"people.held_by", who.HeldBy}}
	for i := range p.People.Roster.Groups {
		g := &p.People.Roster.Groups[i]
		key := "people.roster"
		if i < len(who.Groups) { // parties come first
			key = fmt.Sprintf("group[%d]", i)
		}
		for _, text := range []string{g.Name, g.Leader, g.Room, g.Door, g.Time} {
			all = append(all, written{key, text})
		}
	}
	if who.Names {
		for i := range p.People.Roster.People {
			all = append(all, written{"people.roster", p.People.Roster.People[i].Name})
		}
	}
	return all
}
