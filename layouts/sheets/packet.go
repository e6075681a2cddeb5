package sheets

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
)

// Packet writes packet.pdf, what an administrator and a fire official must see to say yes: the
// cautions, what is asked, the picture from the mark, the head count against capacity, the map, the
// crowd, the work, the money, and lines to sign. Errors are *seating.Fault.
func Packet(w io.Writer, p *mosaic.Plan) error {
	if len(p.Marks) == 0 || p.Marks[0].View == nil || len(p.Cues) == 0 {
		return errNoCamera
	}
	f, err := uprightFlow(p, "Request for approval")
	if err != nil {
		return err
	}
	k := packet{flow: f, work: workOf(p, laid(p))}
	k.asked()
	k.heads()
	k.seen()
	k.crowd()
	k.floor()
	k.effort()
	k.sign()
	return f.finish(w)
}

type packet struct {
	*flow
	work work
}

// asked is the first page: cautions, and what somebody says yes to.
func (k *packet) asked() {
	p := k.plan
	title := "Request for approval"
	if p.Stunt.Title != "" {
		title += ": " + p.Stunt.Title
	}
	k.title(title, "A card stunt: people in the stands hold up coloured cards that make a message for one camera.")
	k.boxed("Cautions, before anything else", Cautions(p))
	k.heading("What is asked")
	var says []string
	for i := range p.Cues {
		says = append(says, "“"+p.Cues[i].Name+"”")
	}
	const most = 6
	if len(says) > most {
		says = append(says[:most], fmt.Sprintf("and %s more", plural(len(p.Cues)-most, "cue")))
	}
	k.pair("What", fmt.Sprintf("%s: %s. Everybody sits, holds a card up for some seconds, and lays it down. Nobody climbs, nobody moves about.", plural(len(p.Cues), "cue"), strings.Join(says, ", ")), sizeBody)
	k.pair("When", k.when(), sizeBody)
	where := "indoors"
	if p.Stunt.Outdoors {
		where = "outdoors; in rain, wind or thunder it does not take place"
	}
	k.pair("Where", where+"; the stands and the floor as on the map in this packet", sizeBody)
	all := p.CountAll()
	k.pair("Who", fmt.Sprintf("%s with cards, %s without; %s of them on the floor. %s", plural(all.Cards, "seat"), thousands(all.Persons), thousands(floorPeople(p)), k.invited()), sizeBody)
	k.pair("Asked by", orBlank(p.Stunt.Contact), sizeBody)
	k.pair("Says yes", list(p.Stunt.Day.Signs, "whoever has charge of the stands, and the local fire official (others are not in the stunt file: signs = [...])"), sizeBody)
}

func (k *packet) when() string {
	d := dayOf(k.plan)
	words := k.plan.Stunt.Date
	if words == "" {
		words = "date not given yet"
	}
	switch {
	case d.takeKnown:
		needed := "The hall is"
		if k.plan.Stunt.Outdoors {
			needed = "The stands and the floor are"
		}
		words += fmt.Sprintf("; the take is at %s. %s needed from %s to %s.", d.take, needed, d.when(d.steps[0].at), d.when(d.steps[len(d.steps)-1].at))
	case d.takeSaid != "":
		words += "; the take: " + d.takeSaid + "."
	default:
		words += "; the time of the take is not given yet."
	}
	return words
}

func (k *packet) invited() string {
	spec := &k.plan.Stands.Spec
	if spec.People == 0 {
		return "How many are invited is not known yet."
	}
	return fmt.Sprintf("Invited are %s, expected about %s.", thousands(spec.People), thousands(spec.ExpectedPeople()))
}

// seen is the picture, and what else it may be read as.
func (k *packet) seen() {
	k.newPage()
	k.heading("What the film will show")
	p := k.plan
	k.pictures()
	k.paragraph("From the camera's place, as much of the film's frame as the cards take. Only the cards are drawn; the film shows people too.", sizeSmall)
	k.y += 1
	if slices.ContainsFunc(p.Cues, func(c mosaic.CuePlan) bool { return c.Text != nil }) {
		k.paragraph("Other readings are what a text spells when one section goes wrong, and nobody wants. A dot is no letter. No list of bad words is kept: whoever signs reads them aloud and judges.", sizeSmall)
	}
	for i := range p.Cues {
		k.reading(i)
	}
	flash := "Cards change only at calls. The sequence was checked against WCAG 2.3.1: more than three flashes in a second over a quarter of the frame would have been refused."
	if p.Flashing != "" {
		flash = p.Flashing
	}
	k.pair("Flashing", flash, sizeBody)
}

// pictures are those of all cues: over the whole width where that leaves the page half free, or else in two columns.
func (k *packet) pictures() {
	const gap = 5.0
	columns := 2
	caption := lineHeight(9) + 3
	if wide := newClosePicture(k.plan, 0, 0, 0, k.width()).height + caption; float64(len(k.plan.Cues))*wide <= (k.bottom()-k.y)/2 {
		columns = 1
	}
	k.y += 2
	if len(k.plan.Cues) == 1 {
		width := k.width()
		q := newClosePicture(k.plan, 0, k.left, k.y, width)
		if high := (k.bottom() - k.y) * 0.4; q.height > high {
			width = q.width * high / q.height
			q = newClosePicture(k.plan, 0, (k.left+k.right-width)/2, k.y, width)
		}
		q.draw(k.pen())
		k.y += q.height + 3
		return
	}
	width := (k.width() - gap*float64(columns-1)) / float64(columns)
	for first := 0; first < len(k.plan.Cues); first += columns {
		high := newClosePicture(k.plan, first, 0, 0, width).height
		k.need(high + caption)
		for i := range min(columns, len(k.plan.Cues)-first) {
			q := newClosePicture(k.plan, first+i, k.left+float64(i)*(width+gap), k.y, width)
			q.draw(k.pen())
			k.pen().text(q.x, k.y+high+lineHeight(9), 9, regular, shortenText(sentenceCase(cueName(k.plan, first+i)), 9, regular, width))
		}
		k.y += high + caption
	}
}

// namesWords say whether names stand on paper, and who keeps it.
func namesWords(p *mosaic.Plan) string {
	if !namesOnPaper(p) {
		return "No names on paper."
	}
	return "The slips of calldown.pdf carry names, since the stunt file asks for them, and are for " + nameKeeper(p) + " alone; no other paper does."
}

// reading says what a cue spells, whether it reads, and what it may be taken for.
func (k *packet) reading(cue int) {
	c := &k.plan.Cues[cue]
	r := &c.Reading
	words := "a picture without letters: look at it before you say yes"
	if c.Text != nil {
		words = fmt.Sprintf("%s on film (%d of 100, with people missing and cards held unevenly).", r.Verdict, int(math.Round(100*r.Score)))
		if rivals := nearestRivals(c); len(rivals) > 0 {
			words += " Nearest to being taken for another letter are " + strings.Join(rivals, ", ") + "."
		}
	}
	name := "Cue " + fmt.Sprint(cue+1)
	k.need(4 * lineHeight(sizeBody)) // with its other readings
	k.pair(name, "“"+shortenText(c.Name, sizeBody, regular, k.width()*0.6)+"”: "+words, sizeBody)
	k.unwanted(cue)
}

// mostUnwanted is how many readings of a cue the packet has room for.
const mostUnwanted = 24

// unwanted prints what a cue reads as when one section goes wrong: people judge the words.
func (k *packet) unwanted(cue int) {
	if k.plan.Cues[cue].Text == nil {
		return
	}
	list, planned := k.plan.Unwanted(cue)
	more := max(len(list)-mostUnwanted, 0)
	var by []string // by what goes wrong
	order := map[string]int{}
	for _, u := range list[:len(list)-more] {
		at, known := order[u.How]
		if !known {
			at = len(by)
			order[u.How], by = at, append(by, "One section "+u.How+": ")
		} else {
			by[at] += ", "
		}
		reads := u.Reads
		if reads == "" {
			reads = "nothing"
		}
		by[at] += k.plan.Stands.Sections[u.Section].Name + " = " + reads
	}
	words := "read the same whichever section is missing or laid from the wrong end."
	if len(by) > 0 {
		words = strings.Join(by, ". ") + "."
	}
	if more > 0 {
		words += fmt.Sprintf(" %s in report.html.", plural(more, "more reading"))
	}
	k.pair("Other readings", "As planned: "+orBlank(planned)+". "+words, sizeBody)
}

// nearestRivals are the three letters with the least margin, each with the one it would be taken for.
func nearestRivals(c *mosaic.CuePlan) []string {
	letters := c.Reading.Letters
	order := make([]int, len(letters))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(math.Round(letters[a].Margin*1000), math.Round(letters[b].Margin*1000))
	})
	var out []string
	for _, i := range order {
		l := &letters[i]
		if words := l.Letter + " for " + l.Rival; l.Rival != "" && runesKnown(l.Rival) && !slices.Contains(out, words) && len(out) < 3 {
			out = append(out, words)
		}
	}
	return out
}

func runesKnown(s string) bool {
	for _, r := range s {
		if !faces()[regular].has(r) {
			return false
		}
	}
	return true
}

// heads is the head count against what the survey and the sign allow.
func (k *packet) heads() {
	st := k.plan.Stands
	k.heading("Head count against capacity")
	var rows [][]cell
	line := func(name string, t seating.Totals, strong bool) {
		cells := []cell{{text: name, bold: strong}}
		for _, n := range []int{t.Places - t.Missing, t.Capacity, t.Cards, t.Persons, t.Reserved, t.People()} {
			cells = append(cells, cell{text: thousands(n), bold: strong})
		}
		rows = append(rows, cells)
	}
	const most = 16
	for i := range st.Sections {
		if i == most-1 && len(st.Sections) > most {
			rest := seating.Totals{}
			for j := i; j < len(st.Sections); j++ {
				rest = addTotals(rest, st.Count(j))
			}
			line(fmt.Sprintf("%d more sections", len(st.Sections)-i), rest, false)
			break
		}
		name := "Section " + st.Sections[i].Name
		if st.Sections[i].Spec.Kind == seating.Floor {
			name += " (floor)"
		}
		line(name, st.Count(i), false)
	}
	all := st.CountAll()
	line("Stands and floor together", all, true)
	k.table([]column{{head: "", share: 1}, {head: "Seats", right: true}, {head: "Capacity", right: true}, {head: "With cards", right: true},
		{head: "Without", right: true}, {head: "Kept free", right: true}, {head: "People", right: true}}, rows, 9.5)
	k.paragraph("Capacity counts 18 in (457 mm) of bench a person (IBC 2021, 1004.6), and a person a place elsewhere, as help and never as approval.", sizeSmall)
	k.y += 1
	k.lines(k.left, k.width(), k.postedWords(all.People()), sizeBody, bold)
}

func addTotals(a, b seating.Totals) seating.Totals {
	return seating.Totals{Places: a.Places + b.Places, Missing: a.Missing + b.Missing, Cards: a.Cards + b.Cards,
		Reserved: a.Reserved + b.Reserved, Persons: a.Persons + b.Persons, Capacity: a.Capacity + b.Capacity}
}

// postedWords holds the people of the plan against the sign by the door.
func (k *packet) postedWords(people int) string {
	posted := k.plan.Stands.Spec.Posted
	switch {
	case posted == 0:
		return fmt.Sprintf("People in the plan: %s. The posted occupant load is not given: read it off the sign by the main exit before signing: ________", thousands(people))
	case people > posted:
		return fmt.Sprintf("People in the plan: %s, MORE than the posted occupant load of %s. This plan must not be carried out as it is.", thousands(people), thousands(posted))
	}
	return fmt.Sprintf("People in the plan: %s. Posted occupant load: %s. That leaves %s for crew, crowd managers and everybody else in the room.", thousands(people), thousands(posted), thousands(posted-people))
}

// floor is the map.
func (k *packet) floor() {
	k.newPage()
	k.heading("The map: aisles, lanes, exits, wheelchair places")
	const below = 46.0
	f := newFloorPlan(k.plan, k.left, k.y+2, k.width(), k.bottom()-k.y-2-below)
	f.draw(k.pen())
	k.y += 2 + f.depth + 6
	k.mapKey()
	k.paragraph("The camera's side is at the bottom: left and right are as the camera sees them.", sizeSmall)
	w := wheelchairs(k.plan)
	seats, _, want := k.plan.Stands.WheelchairPlaces()
	k.y += 1
	k.pair("Wheelchairs", fmt.Sprintf("%s and %s kept. For %s seats in the stands the ADA 2010 table (221.2.1.1) asks for %s, as help.", plural(w["wheelchair"], "wheelchair place"), plural(w["companion"], "companion place"), thousands(seats), thousands(want)), sizeBody)
	k.pair("Exits", exitWords(k.plan.Stunt.Room.Exits), sizeBody)
}

// mapKey shows each sign of the map beside what it means.
func (k *packet) mapKey() {
	const w, h, gap, size = 5.0, 3.6, 6.0, 9.0
	p := k.pen()
	box := func(x, y float64) {
		p.lineColour(black)
		p.lineWidth(0.25)
		p.box(x, y, w, h)
	}
	letter := func(s string) func(x, y float64) {
		return func(x, y float64) {
			box(x, y)
			p.textMiddle(x+w/2, y+h/2+capMM(8)/2, 8, bold, s)
		}
	}
	x := k.left
	k.y += 1
	for _, sign := range []struct {
		words string
		draw  func(x, y float64)
	}{
		{"a person with a card", func(x, y float64) { p.fillColour(greySeat); p.filled(x, y, w, h); box(x, y) }},
		{"a person without", box},
		{"kept free", func(x, y float64) { box(x, y); p.line(x, y, x+w, y+h); p.line(x, y+h, x+w, y) }},
		{"wheelchair place", letter("W")},
		{"companion", letter("C")},
		{"a lane that stays free", func(x, y float64) {
			box(x, y)
			p.lineColour(greyLane)
			p.inside(x, y, w, h, func() { p.diagonals(x, y, w, h, 1.5, true) })
		}},
		{"an exit", func(x, y float64) { p.fillColour(black); p.filled(x, y+h/2-0.7, w, 1.4) }},
		{"what the lens takes in", func(x, y float64) {
			p.lineColour(grey)
			p.lineWidth(0.2)
			p.dashed(1.5, 1.5)
			p.line(x, y+h/2, x+w, y+h/2)
			p.solid()
		}},
	} {
		wide := w + 1.5 + textWidth(size, regular, sign.words)
		if x > k.left && x+wide > k.right {
			x, k.y = k.left, k.y+lineHeight(size)+1
		}
		sign.draw(x, k.y)
		p.text(x+w+1.5, k.y+h/2+capMM(size)/2, size, regular, sign.words)
		x += wide + gap
	}
	k.y += h + 1.5
}

// exitWords list the exits with their widths.
func exitWords(exits []mosaic.Exit) string {
	const check = " Tried and found free on the day by: ________________"
	if len(exits) == 0 {
		return "The stunt file holds no exits ([room], exit = …): draw each one in, with the way to it, before signing." + check
	}
	var parts []string
	for _, e := range exits {
		name := e.Name
		if name == "" {
			name = "one without a name"
		}
		if e.Width > 0 {
			name += " (" + span(e.Width.Metres()) + " wide)"
		}
		parts = append(parts, name)
	}
	return plural(len(exits), "exit") + ": " + strings.Join(parts, ", ") + ". The lanes lead to them and stay free." + check
}

// crowdManagers is the figure that codes give: more than 500 people, one for each 250 or part, two at
// least; with fewer people one (see Packet's words for the clauses).
func crowdManagers(people int) int {
	if people <= 500 {
		return 1
	}
	return max(2, (people+249)/250)
}

// crowd is who looks after the people, and who may not be filmed.
func (k *packet) crowd() {
	k.heading("Crowd, and who may not be filmed")
	people := k.plan.Stands.CountAll().People()
	n := crowdManagers(people)
	words := fmt.Sprintf("%d for %s people, from one for each 250 or part and not fewer than two over 500 people (New York State fire code 403.11.3; other adoptions begin at 1,000).", n, thousands(people))
	if people <= 500 {
		words = fmt.Sprintf("%d at least for %s people (NFPA 1-2021); over 500 people one for each 250 or part, not fewer than two (New York State fire code 403.11.3).", n, thousands(people))
	}
	k.pair("Crowd managers", words+" The figure is help: the fire official decides. They keep exits, aisles and lanes free and do nothing else.", sizeBody)
	k.pair("Leaders", fmt.Sprintf("%s, one a block of at most %d people; they know the exits and repeat the calls.", plural(countBlocks(k.plan), "leader"), mosaic.BlockPeople), sizeBody)
	k.pair("Not filmed", "Whoever may not be filmed sits outside the frame or watches from beside the camera, with the same card and no reason asked. How many: "+k.notFilmed()+". "+namesWords(k.plan)+" "+k.outOfSight(), sizeBody)
	k.pair("Told before", "Everybody hears: exits, no jumping, nothing thrown, alarm means card down and walk; that it is filmed; that nobody has to take part.", sizeBody)
}

// notFilmed is how many may not be filmed, and where they are, as far as the groups say.
func (k *packet) notFilmed() string {
	who := k.plan.People
	if who == nil {
		return "______"
	}
	n := who.Roster.Count(-1, func(p *people.Person) bool { return p.Unfilmed })
	if n == 0 {
		return "nobody by the groups' lists; asked again on the day: ______"
	}
	return thousands(n) + ", " + unfilmedWhere(n, who.Aside())
}

// outOfSight is the plan's own sentence about seats that the lens does not see.
func (k *packet) outOfSight() string {
	for _, s := range k.plan.Sentences() {
		if s.About == "Out of sight" {
			return s.Text
		}
	}
	return ""
}

// countBlocks counts the blocks with cards.
func countBlocks(p *mosaic.Plan) int { return len(leaderBlocks(p)) }

// effort is helpers, hours, money, doors and keys.
func (k *packet) effort() {
	w := k.work
	k.newPage()
	k.heading("Helpers, hours, money")
	k.pair("Before", w.before(), sizeBody)
	k.pair("On the day", fmt.Sprintf("%s; %s the cards takes %s at the speeds of the stunt file.", plural(w.helpers, "helper"), layWord(k.plan), minuteWords(w.lay)), sizeBody)
	cost := "not known yet: pack sizes and prices are missing"
	if b := k.plan.Bill(); b != nil && b.Priced {
		cost = fmt.Sprintf("%s for %s of card stock, spares counted in, as far as it must be bought. Printing, tape and bags come on top.", money(b.GoodsCents), plural(b.Sheets, "sheet"))
		if b.GoodsCents == 0 {
			cost = fmt.Sprintf("nothing to buy: all %s of card stock, spares counted in, are there. Printing, tape and bags come on top.", plural(b.Sheets, "sheet"))
		}
	}
	k.pair("Money", cost, sizeBody)
	k.heading("Doors and keys")
	d := dayOf(k.plan)
	from := "before the first card is laid"
	if d.takeKnown {
		from = "at " + d.when(d.steps[0].at)
	}
	doors := doorsAndKeys(k.plan)
	if len(doors) == 0 {
		k.paragraph("Which doors and keys are needed is not in the stunt file (keys = [...]): ____________________________________________", sizeBody)
		return
	}
	var rows [][]cell
	for _, key := range doors {
		rows = append(rows, []cell{{text: key, bold: true}, {text: from}, {text: "______________________"}, {text: "after the sweep"}, {tick: true}})
	}
	k.table([]column{{head: "Door or key", share: 1}, {head: "Open"}, {head: "By whom"}, {head: "Closed"}, {head: "Done"}}, rows, sizeBody)
}

// doorsAndKeys are what the stunt file names, and the doors that groups come through.
func doorsAndKeys(p *mosaic.Plan) []string {
	list := slices.Clone(p.Stunt.Day.Keys)
	if p.People == nil {
		return list
	}
	for _, g := range p.People.Roster.Groups {
		if g.Door != "" && !slices.Contains(list, g.Door) {
			list = append(list, g.Door)
		}
	}
	return list
}

// sign is the lines to sign.
func (k *packet) sign() {
	signs := k.plan.Stunt.Day.Signs
	if len(signs) == 0 {
		signs = []string{"in charge of the stands", "fire official"}
	}
	k.heading("Decision")
	k.paragraph("Yes means: this plan, with the code at the foot of the page, on this day. Any change of seats, people or lanes needs a new yes.", sizeBody)
	for _, s := range append(append([]string{}, signs...), "asks for it") {
		k.need(14)
		k.y += 11
		k.tick(k.left, k.y-1.5)
		k.pen().text(k.left+tickSide+1, k.y, 9, regular, "yes")
		k.tick(k.left+14, k.y-1.5)
		k.pen().text(k.left+14+tickSide+1, k.y, 9, regular, "no")
		x := k.left + 30
		width := k.right - x
		k.blank(x, k.y, width*0.62, s)
		k.blank(x+width*0.66, k.y, width*0.34, "date")
		k.y += 3
	}
}
