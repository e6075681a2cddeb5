package brief

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
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
	all, people := t.CountAll(), t.Stands.CountAll().People()
	k := Packet{Title: "Request for approval", What: t.whatIsAsked(), When: t.whenItIs(),
		Where: where(t.Plan) + "; the stands and the floor as on the map in this packet",
		Who: fmt.Sprintf("%s with cards, %s without; %s of them on the floor. %s", say.Count(all.Cards, "seat"),
			say.Thousands(all.Persons), say.Thousands(floorPeople(t.Plan)), t.invited()),
		AskedBy: orBlank(t.Stunt.Contact), SaysYes: cmp.Or(strings.Join(t.Stunt.Day.Signs, ", "),
			"whoever has charge of the stands, and the local fire official (others are not in the stunt file: signs "+
				"= [...])"),
		Flashing: cmp.Or(t.Flashing, "Cards change only at calls. The sequence was checked against WCAG 2.3.1: more "+
			"than three flashes in a second over a quarter of the frame would have been refused."),
		Heads: t.heads(), Posted: postedWords(t.Stands.Spec.Posted, people), Wheelchairs: wheelchairWords(t.Plan),
		Exits: exitWords(t.Stunt.Room.Exits), Managers: managerWords(people),
		Leaders: fmt.Sprintf("%s, one a block of at most %d people; they know the exits and repeat the calls.",
			say.Count(len(t.blocks), "leader"), mosaic.BlockPeople),
		NotFilmed: t.notFilmed(), Before: t.work.before(), Money: moneyWords(t.Plan), Signs: t.Stunt.Day.Signs,
		Texts: t.Spells(),
		OnTheDay: fmt.Sprintf("%s; %s the cards takes %s at the speeds of the stunt file.", say.Count(t.work.helpers,
			"helper"), LayWord(t.Plan), say.Minutes(t.work.lay)),
	}
	if t.Stunt.Title != "" {
		k.Title += ": " + t.Stunt.Title
	}
	if t.Stunt.Outdoors {
		k.Where = "outdoors; in rain, wind or thunder it does not take place" + strings.TrimPrefix(k.Where, "outdoors")
	}
	if len(k.Signs) == 0 {
		k.Signs = []string{"in charge of the stands", "fire official"}
	}
	for i := range t.Cues {
		k.Readings = append(k.Readings, t.cueReading(i))
	}
	from := "before the first card is laid"
	if t.day.takeKnown {
		from = "at " + t.day.when(t.day.steps[0].at)
	}
	for _, name := range doorsAndKeys(t.Plan) {
		k.Doors = append(k.Doors, Door{name, from})
	}
	return k
}

func (t *teller) whatIsAsked() string {
	const most = 6
	var says []string
	for _, c := range t.Cues[:min(len(t.Cues), most)] {
		says = append(says, say.Quoted(c.Name))
	}
	if more := len(t.Cues) - most; more > 0 {
		says = append(says, "and "+say.Count(more, "cue")+" more")
	}
	return fmt.Sprintf("%s: %s. Everybody sits, holds a card up for some seconds, and lays it down. Nobody climbs, "+
		"nobody moves about.", say.Count(len(t.Cues), "cue"), strings.Join(says, ", "))
}

func (t *teller) whenItIs() string {
	d := t.day
	words := cmp.Or(t.Stunt.Date, "date not given yet")
	switch {
	case d.takeKnown:
		needed := "The hall is"
		if t.Stunt.Outdoors {
			needed = "The stands and the floor are"
		}
		return words + fmt.Sprintf("; the take is at %s. %s needed from %s to %s.", d.take, needed,
			d.when(d.steps[0].at), d.when(d.steps[len(d.steps)-1].at))
	case t.Stunt.Day.Take != "":
		return words + "; the take: " + t.Stunt.Day.Take + "."
	}
	return words + "; the time of the take is not given yet."
}

func (t *teller) invited() string {
	spec := &t.Stands.Spec
	if spec.People == 0 {
		return "How many are invited is not known yet."
	}
	return fmt.Sprintf("Invited are %s, expected about %s.", say.Thousands(spec.People),
		say.Thousands(spec.ExpectedPeople()))
}

// cueReading says what a cue spells, whether it reads, and what it may be taken for.
func (t *teller) cueReading(cue int) CueReading {
	c := &t.Cues[cue]
	r := CueReading{Name: c.Name, Says: "a picture without letters: look at it before you say yes"}
	if c.Text != nil {
		r.Says = fmt.Sprintf("%s on film (%d of 100, with people missing and cards held unevenly).", c.Reading.Verdict,
			int(math.Round(100*c.Reading.Score)))
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
	var hows []string
	sections := map[string][]string{} // by what goes wrong
	for _, u := range look.Unwanted[:len(look.Unwanted)-more] {
		if sections[u.How] == nil {
			hows = append(hows, u.How)
		}
		sections[u.How] = append(sections[u.How], t.Stands.Sections[u.Section].Name+" = "+cmp.Or(u.Reads, "nothing"))
	}
	words := "As planned: " + orBlank(look.Planned) + "."
	for _, how := range hows {
		words += " One section " + how + ": " + strings.Join(sections[how], ", ") + "."
	}
	if hows == nil {
		words += " read the same whichever section is missing or laid from the wrong end."
	}
	if more > 0 {
		words += fmt.Sprintf(" %s in report.html.", say.Count(more, "more reading"))
	}
	return words
}

// nearestRivals are the three letters with the least margin, each with the one it would be taken for.
func nearestRivals(c *mosaic.CuePlan) (out []string) {
	letters := slices.Clone(c.Reading.Letters)
	slices.SortStableFunc(letters, func(a, b legibility.Letter) int {
		return cmp.Compare(math.Round(a.Margin*1000), math.Round(b.Margin*1000))
	})
	for _, l := range letters {
		words := l.Letter + " for " + l.Rival
		printable := l.Rival != "" && strings.IndexFunc(l.Rival, func(r rune) bool { return !unicode.IsPrint(r) }) < 0
		if printable && !slices.Contains(out, words) && len(out) < 3 {
			out = append(out, words)
		}
	}
	return out
}

// heads is the head count against what the survey allows.
func (t *teller) heads() (out []HeadCount) {
	st := t.Stands
	add := func(name string, n seating.Totals, all bool) {
		counts := thousandsOf(n.Places-n.Missing, n.Capacity, n.Cards, n.Persons, n.Reserved, n.People())
		out = append(out, HeadCount{name, counts, all})
	}
	const most = 16
	for i := range st.Sections {
		if i == most-1 && len(st.Sections) > most {
			rest := seating.Totals{}
			for j := i; j < len(st.Sections); j++ {
				rest = rest.Plus(st.Count(j))
			}
			add(fmt.Sprintf("%d more sections", len(st.Sections)-i), rest, false)
			break
		}
		name := "Section " + st.Sections[i].Name
		if st.Sections[i].Spec.Kind == seating.Floor {
			name += " (floor)"
		}
		add(name, st.Count(i), false)
	}
	add("Stands and floor together", st.CountAll(), true)
	return out
}

// postedWords holds the people of the plan against the sign by the door.
func postedWords(posted, people int) string {
	words := fmt.Sprintf("People in the plan: %s", say.Thousands(people))
	switch {
	case posted == 0:
		return words + ". The posted occupant load is not given: read it off the sign by the main exit before " +
			"signing: ________"
	case people > posted:
		return words + fmt.Sprintf(", MORE than the posted occupant load of %s. This plan must not be carried out "+
			"as it is.", say.Thousands(posted))
	}
	return words + fmt.Sprintf(". Posted occupant load: %s. That leaves %s for crew, crowd managers and everybody "+
		"else in the room.", say.Thousands(posted), say.Thousands(posted-people))
}

// wheelchairWords hold the places that are kept against what is asked for.
func wheelchairWords(p *mosaic.Plan) string {
	kept := map[string]int{}
	for s := range p.Stands.Seats {
		if p.Stands.Seats[s].Use == seating.UseCard {
			kept[p.Stands.Seats[s].For]++
		}
	}
	seats, _, want := p.Stands.WheelchairPlaces()
	return fmt.Sprintf("%s and %s kept. For %s seats in the stands the ADA 2010 table (221.2.1.1) asks for %s, as "+
		"help.", say.Count(kept["wheelchair"], "wheelchair place"), say.Count(kept["companion"], "companion place"),
		say.Thousands(seats), say.Thousands(want))
}

func exitWords(exits []mosaic.Exit) string {
	const check = " Tried and found free on the day by: ________________"
	if len(exits) == 0 {
		return "The stunt file holds no exits ([room], exit = …): draw each one in, with the way to it, before " +
			"signing." + check
	}
	var parts []string
	for _, e := range exits {
		name := cmp.Or(e.Name, "one without a name")
		if e.Width > 0 {
			name += " (" + away(e.Width.Metres()) + " wide)"
		}
		parts = append(parts, name)
	}
	return say.Count(len(exits), "exit") + ": " + strings.Join(parts, ", ") + ". The lanes lead to them and stay " +
		"free." + check
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
	words := "%d for %s people, from one for each 250 or part and not fewer than two over 500 people (New York " +
		"State fire code 403.11.3; other adoptions begin at 1,000)."
	if people <= 500 {
		words = "%d at least for %s people (NFPA 1-2021); over 500 people one for each 250 or part, not fewer than " +
			"two (New York State fire code 403.11.3)."
	}
	return fmt.Sprintf(words+" The figure is help: the fire official decides. They keep exits, aisles and lanes "+
		"free and do nothing else.", CrowdManagers(people), say.Thousands(people))
}

// notFilmed is how many may not be filmed and where they are, as far as the groups say, and who keeps names.
func (t *teller) notFilmed() string {
	many, names := "______", "No names on paper."
	if t.People != nil {
		many = "nobody by the groups' lists; asked again on the day: ______"
		if n, where := t.unfilmed(); n > 0 {
			many = say.Thousands(n) + ", " + where
		}
	}
	if NamesOnPaper(t.Plan) {
		names = "The slips of calldown.pdf carry names, since the stunt file asks for them, and are for " +
			NameKeeper(t.Plan) + " alone; no other paper does."
	}
	return "Whoever may not be filmed sits outside the frame or watches from beside the camera, with the same card " +
		"and no reason asked. How many: " + many + ". " + names + " " + t.sayHidden()
}

func moneyWords(p *mosaic.Plan) string {
	const more = " Printing, tape and bags come on top."
	switch b := p.Bill; {
	case b == nil || !b.Priced:
		return "not known yet: pack sizes and prices are missing"
	case b.GoodsCents == 0:
		return fmt.Sprintf("nothing to buy: all %s of card stock, spares counted in, are there.", say.Count(b.Sheets,
			"sheet")) + more
	default:
		return fmt.Sprintf("%s for %s of card stock, spares counted in, as far as it must be bought.",
			say.Money(b.GoodsCents), say.Count(b.Sheets, "sheet")) + more
	}
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
