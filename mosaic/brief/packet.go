package brief

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/people"
	"everyseat/seating/say"
)

// Packet is what an administrator and a fire official must see to say yes.
type Packet struct {
	Title                                    string
	What, When, Where, Who, AskedBy, SaysYes string
	Readings                                 []CueReading // by cue
	Flashing                                 string
	Heads                                    []HeadCount
	Posted                                   string
	Wheelchairs, Exits                       string
	Managers, Leaders, NotFilmed             string
	Before, OnTheDay, Money                  string
	Doors                                    []Door // none: they are not known
	Signs                                    []string
	Texts                                    bool // some cue spells something
}

// CueReading is whether a cue reads, and what its text may be taken for.
type CueReading struct {
	Name   string
	Says   string
	Others string // "" for a picture
}

// HeadCount is a line of the table of people.
type HeadCount struct {
	Name   string
	Counts []string // seats, capacity, with cards, without, kept free, people
	All    bool     // the last line
}

// Door is a door or key, and from when it is needed.
type Door struct{ Name, From string }

func (t *teller) packet() Packet {
	p := t.p
	all := p.CountAll()
	k := Packet{Title: "Request for approval", AskedBy: orBlank(p.Stunt.Contact), Flashing: p.Flashing, Texts: p.Spells(), Signs: p.Stunt.Day.Signs}
	if p.Stunt.Title != "" {
		k.Title += ": " + p.Stunt.Title
	}
	k.What = t.whatIsAsked()
	k.When = t.whenItIs()
	k.Where = where(p) + "; the stands and the floor as on the map in this packet"
	if p.Stunt.Outdoors {
		k.Where = "outdoors; in rain, wind or thunder it does not take place; the stands and the floor as on the map in this packet"
	}
	k.Who = fmt.Sprintf("%s with cards, %s without; %s of them on the floor. %s",
		say.Count(all.Cards, "seat"), say.Thousands(all.Persons), say.Thousands(floorPeople(p)), t.invited())
	k.SaysYes = list(p.Stunt.Day.Signs, "whoever has charge of the stands, and the local fire official (others are not in the stunt file: signs = [...])")
	if len(k.Signs) == 0 {
		k.Signs = []string{"in charge of the stands", "fire official"}
	}
	if k.Flashing == "" {
		k.Flashing = "Cards change only at calls. The sequence was checked against WCAG 2.3.1: more than three flashes in a second over a quarter of the frame would have been refused."
	}
	for i := range p.Cues {
		k.Readings = append(k.Readings, t.cueReading(i))
	}
	k.Heads = t.heads()
	k.Posted = postedWords(p.Stands.Spec.Posted, p.Stands.CountAll().People())
	k.Wheelchairs = wheelchairWords(p)
	k.Exits = exitWords(p.Stunt.Room.Exits)
	k.Managers = managerWords(p.Stands.CountAll().People())
	k.Leaders = fmt.Sprintf("%s, one a block of at most %d people; they know the exits and repeat the calls.", say.Count(len(t.blocks), "leader"), mosaic.BlockPeople)
	k.NotFilmed = "Whoever may not be filmed sits outside the frame or watches from beside the camera, with the same card and no reason asked. How many: " +
		t.notFilmed() + ". " + namesWords(p) + " " + t.sayHidden()
	k.Before = t.work.before()
	k.OnTheDay = fmt.Sprintf("%s; %s the cards takes %s at the speeds of the stunt file.", say.Count(t.work.helpers, "helper"), LayWord(p), say.Minutes(t.work.lay))
	k.Money = moneyWords(p)
	from := "before the first card is laid"
	if t.day.takeKnown {
		from = "at " + t.day.when(t.day.steps[0].at)
	}
	for _, name := range doorsAndKeys(p) {
		k.Doors = append(k.Doors, Door{name, from})
	}
	return k
}

func (t *teller) whatIsAsked() string {
	p := t.p
	var says []string
	for i := range p.Cues {
		says = append(says, say.Quoted(p.Cues[i].Name))
	}
	const most = 6
	if len(says) > most {
		says = append(says[:most], fmt.Sprintf("and %s more", say.Count(len(p.Cues)-most, "cue")))
	}
	return fmt.Sprintf("%s: %s. Everybody sits, holds a card up for some seconds, and lays it down. Nobody climbs, nobody moves about.",
		say.Count(len(p.Cues), "cue"), strings.Join(says, ", "))
}

func (t *teller) whenItIs() string {
	d, p := t.day, t.p
	words := p.Stunt.Date
	if words == "" {
		words = "date not given yet"
	}
	switch {
	case d.takeKnown:
		needed := "The hall is"
		if p.Stunt.Outdoors {
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

func (t *teller) invited() string {
	spec := &t.p.Stands.Spec
	if spec.People == 0 {
		return "How many are invited is not known yet."
	}
	return fmt.Sprintf("Invited are %s, expected about %s.", say.Thousands(spec.People), say.Thousands(spec.ExpectedPeople()))
}

// cueReading says what a cue spells, whether it reads, and what it may be taken for.
func (t *teller) cueReading(cue int) CueReading {
	c := &t.p.Cues[cue]
	r := CueReading{Name: c.Name, Says: "a picture without letters: look at it before you say yes"}
	if c.Text != nil {
		r.Says = fmt.Sprintf("%s on film (%d of 100, with people missing and cards held unevenly).", c.Reading.Verdict, int(math.Round(100*c.Reading.Score)))
		if rivals := nearestRivals(c); len(rivals) > 0 {
			r.Says += " Nearest to being taken for another letter are " + strings.Join(rivals, ", ") + "."
		}
		r.Others = t.otherReadings(cue)
	}
	return r
}

// mostUnwanted is how many readings of a cue the packet has room for.
const mostUnwanted = 24

// otherReadings are what a cue reads as when one section goes wrong: people judge the words.
func (t *teller) otherReadings(cue int) string {
	look := &t.o.Cues[cue]
	more := max(len(look.Unwanted)-mostUnwanted, 0)
	var by []string // by what goes wrong
	order := map[string]int{}
	for _, u := range look.Unwanted[:len(look.Unwanted)-more] {
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
		by[at] += t.p.Stands.Sections[u.Section].Name + " = " + reads
	}
	words := "read the same whichever section is missing or laid from the wrong end."
	if len(by) > 0 {
		words = strings.Join(by, ". ") + "."
	}
	if more > 0 {
		words += fmt.Sprintf(" %s in report.html.", say.Count(more, "more reading"))
	}
	return "As planned: " + orBlank(look.Planned) + ". " + words
}

// nearestRivals are the three letters with the least margin, each with the one it would be taken for.
func nearestRivals(c *mosaic.CuePlan) (out []string) {
	letters := c.Reading.Letters
	order := make([]int, len(letters))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(math.Round(letters[a].Margin*1000), math.Round(letters[b].Margin*1000))
	})
	for _, i := range order {
		words := letters[i].Letter + " for " + letters[i].Rival
		printable := letters[i].Rival != "" && strings.IndexFunc(letters[i].Rival, func(r rune) bool { return !unicode.IsPrint(r) }) < 0
		if printable && !slices.Contains(out, words) && len(out) < 3 {
			out = append(out, words)
		}
	}
	return out
}

// heads is the head count against what the survey allows.
func (t *teller) heads() (out []HeadCount) {
	st := t.p.Stands
	line := func(name string, n seating.Totals) HeadCount {
		h := HeadCount{Name: name}
		for _, n := range []int{n.Places - n.Missing, n.Capacity, n.Cards, n.Persons, n.Reserved, n.People()} {
			h.Counts = append(h.Counts, say.Thousands(n))
		}
		return h
	}
	const most = 16
	for i := range st.Sections {
		if i == most-1 && len(st.Sections) > most {
			rest := seating.Totals{}
			for j := i; j < len(st.Sections); j++ {
				rest = rest.Plus(st.Count(j))
			}
			out = append(out, line(fmt.Sprintf("%d more sections", len(st.Sections)-i), rest))
			break
		}
		name := "Section " + st.Sections[i].Name
		if st.Sections[i].Spec.Kind == seating.Floor {
			name += " (floor)"
		}
		out = append(out, line(name, st.Count(i)))
	}
	all := line("Stands and floor together", st.CountAll())
	all.All = true
	return append(out, all)
}

// postedWords holds the people of the plan against the sign by the door.
func postedWords(posted, people int) string {
	switch {
	case posted == 0:
		return fmt.Sprintf("People in the plan: %s. The posted occupant load is not given: read it off the sign by the main exit before signing: ________", say.Thousands(people))
	case people > posted:
		return fmt.Sprintf("People in the plan: %s, MORE than the posted occupant load of %s. This plan must not be carried out as it is.", say.Thousands(people), say.Thousands(posted))
	}
	return fmt.Sprintf("People in the plan: %s. Posted occupant load: %s. That leaves %s for crew, crowd managers and everybody else in the room.",
		say.Thousands(people), say.Thousands(posted), say.Thousands(posted-people))
}

// wheelchairWords hold the places that are kept against what is asked for.
func wheelchairWords(p *mosaic.Plan) string {
	kept := map[string]int{}
	for s := range p.Stands.Seats {
		if p.Stands.Seats[s].For != "" && p.Stands.Seats[s].Use == seating.UseCard {
			kept[p.Stands.Seats[s].For]++
		}
	}
	seats, _, want := p.Stands.WheelchairPlaces()
	return fmt.Sprintf("%s and %s kept. For %s seats in the stands the ADA 2010 table (221.2.1.1) asks for %s, as help.",
		say.Count(kept["wheelchair"], "wheelchair place"), say.Count(kept["companion"], "companion place"), say.Thousands(seats), say.Thousands(want))
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
			name += " (" + away(e.Width.Metres()) + " wide)"
		}
		parts = append(parts, name)
	}
	return say.Count(len(exits), "exit") + ": " + strings.Join(parts, ", ") + ". The lanes lead to them and stay free." + check
}

// CrowdManagers is the figure that codes give: more than 500 people, one for each 250 or part, two at
// least; with fewer people one.
func CrowdManagers(people int) int {
	if people <= 500 {
		return 1
	}
	return max(2, (people+249)/250)
}

func managerWords(people int) string {
	n := CrowdManagers(people)
	words := fmt.Sprintf("%d for %s people, from one for each 250 or part and not fewer than two over 500 people (New York State fire code 403.11.3; other adoptions begin at 1,000).", n, say.Thousands(people))
	if people <= 500 {
		words = fmt.Sprintf("%d at least for %s people (NFPA 1-2021); over 500 people one for each 250 or part, not fewer than two (New York State fire code 403.11.3).", n, say.Thousands(people))
	}
	return words + " The figure is help: the fire official decides. They keep exits, aisles and lanes free and do nothing else."
}

// notFilmed is how many may not be filmed, and where they are, as far as the groups say.
func (t *teller) notFilmed() string {
	who := t.p.People
	if who == nil {
		return "______"
	}
	n := who.Roster.Count(-1, func(p *people.Person) bool { return p.Unfilmed })
	if n == 0 {
		return "nobody by the groups' lists; asked again on the day: ______"
	}
	return say.Thousands(n) + ", " + unfilmedWhere(n, who.Aside())
}

// namesWords say whether names stand on paper, and who keeps it.
func namesWords(p *mosaic.Plan) string {
	if !NamesOnPaper(p) {
		return "No names on paper."
	}
	return "The slips of calldown.pdf carry names, since the stunt file asks for them, and are for " + NameKeeper(p) + " alone; no other paper does."
}

func moneyWords(p *mosaic.Plan) string {
	b := p.Bill
	switch {
	case b == nil || !b.Priced:
		return "not known yet: pack sizes and prices are missing"
	case b.GoodsCents == 0:
		return fmt.Sprintf("nothing to buy: all %s of card stock, spares counted in, are there. Printing, tape and bags come on top.", say.Count(b.Sheets, "sheet"))
	}
	return fmt.Sprintf("%s for %s of card stock, spares counted in, as far as it must be bought. Printing, tape and bags come on top.", say.Money(b.GoodsCents), say.Count(b.Sheets, "sheet"))
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
