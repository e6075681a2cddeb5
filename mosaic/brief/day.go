package brief

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating/say"
)

// RunSheet is the day by the clock.
type RunSheet struct {
	Before   string // the work before the day; "" = there is none
	Calls    string // who decides when a cue comes
	Cues     []CueTimes
	From     string // from where Cues are counted
	Waves    string // "" = no cue comes up as a wave
	Outdoors []string
	Note     string // what is not known
	Steps    []Step
	Contact  string
}

// CueTimes is a cue's line in the table of signals.
type CueTimes struct{ Number, Name, At, Ready, Up, Full, Down string }

// Step is one line of the day.
type Step struct {
	Clock, Take, What, Who string
	IsTake                 bool
}

func (t *teller) runSheet() RunSheet {
	d := t.day
	r := RunSheet{Note: d.note(), Contact: orBlank(t.Stunt.Contact), Waves: Waves(t.Plan)}
	if t.work.cards > 0 {
		r.Before = t.work.before()
	}
	for _, s := range d.steps {
		mark := ""
		if !s.given && d.takeKnown {
			mark = "*"
		}
		r.Steps = append(r.Steps, Step{d.when(s.at) + mark, fromTake(s.at), s.what, s.who, s.take})
	}
	r.signals(t.Plan)
	if t.Stunt.Outdoors {
		by := "three hours before the take" // before anybody sets out (common practice, no source)
		if d.takeKnown {
			by = (d.take - 180).String() + " (" + by + ")"
		}
		r.Outdoors = []string{
			"Sun: behind the lens, never behind the stands. Look at the mark at the hour of the take the day before.",
			"Wind: a card is a sail. If one of ten cards bends in the rehearsal, hold it lower and with both hands; " +
				"if cards fly, call it off.",
			"Rain or thunder: no paper, no crowd on the stands. Thunder empties the stands at once.",
			"Who decides: ______________________   by: " + by + "   other date: ____________",
		}
	}
	return r
}

func orBlank(s string) string {
	return cmp.Or(s, "______________________________ (not in the stunt file: contact = …)")
}

// step is one line of the day; at is minutes after the take.
type step struct {
	at        int
	what, who string
	given     bool // by the stunt; else it is counted back from the take
	take      bool
}

type day struct {
	*teller
	take      mosaic.Clock
	takeKnown bool
	unread    []string
	steps     []step
	seated    int       // when everybody must sit
	cautions  []string  // sentences: where there is less time than the work takes
	arrivals  *arrivals // nil without groups
}

// Minutes after the take where the stunt gives no times (common practice, no source).
const (
	atDoors      = -60
	atSafety     = -40
	atFirst      = -35
	atSecond     = -25
	atCamera     = -12
	atLeaders    = -5
	atAgain      = 6
	atCollect    = 12
	atOut        = 20
	atSwept      = 35
	leadKeys     = 30 // before the first card is laid
	leadHall     = 20
	leadMark     = 30 // before the doors
	leadLeaders  = 10
	spareMinutes = 15 // between the last card laid and the doors
)

// newDay counts the day back from the take.
func newDay(t *teller) *day {
	d := &day{teller: t}
	d.take, d.takeKnown = mosaic.ReadClock(t.Stunt.Day.Take)
	doors, known := d.minute(t.Stunt.Day.Doors)
	times, given := d.rehearsals()
	d.seated = min(atSafety, times[0]-5)
	if t.Stunt.Laying.Pass { // cards go along rows of people
		d.seated -= say.WholeMinutes(t.work.lay)
	}
	if !known {
		doors = atDoors
	}
	if t.People != nil {
		if !known {
			doors = min(doors, d.seated-settling)
			queue := map[string]int{} // minutes, by door
			for _, g := range t.People.Roster.Groups {
				queue[g.Door] += passing(g.People(), perDoor(t.Plan)) + doorGap
				doors = min(doors, d.seated-settling-queue[g.Door]+doorGap)
			}
		}
		d.arrivals = arrivalsOf(t.Plan, d, doors)
	}
	d.before(doors)
	d.steps = append(d.steps, step{at: doors, given: known, who: "leaders, crowd managers", what: "Doors. People " +
		"come in by group" + d.arrivals.words() + " and fill each row from the end that its strip names; leaders " +
		"stand at their blocks."})
	d.rehearse(doors, times, given)
	d.after()
	inOrder := func(a, b step) int { return cmp.Compare(a.at, b.at) }
	slices.SortStableFunc(d.steps, inOrder)
	from, hasFrom := d.minute(t.Stunt.Day.From)
	until, hasUntil := d.minute(t.Stunt.Day.Until)
	if d.takeKnown {
		d.tight(doors, known, times)
	}
	first, last := d.steps[0].at, d.steps[len(d.steps)-1].at
	if hasFrom {
		d.tooEarly(first, from, doors)
		d.steps = append(d.steps, step{at: from, given: true, who: "custodian", what: "The crew may come in."})
	}
	if hasUntil {
		d.tooLate(last, until)
		d.steps = append(d.steps, step{at: until, given: true, who: "custodian, crew", what: "Everybody is out."})
	}
	slices.SortStableFunc(d.steps, inOrder)
	return d
}

func (d *day) add(at int, who, what string) {
	d.steps = append(d.steps, step{at: at, what: what, who: who})
}

// minute is a time of the stunt in minutes after the take.
func (d *day) minute(text string) (at int, ok bool) {
	if text == "" {
		return 0, false
	}
	c, ok := mosaic.ReadClock(text)
	if !ok || !d.takeKnown {
		d.unread = append(d.unread, text)
		return 0, false
	}
	return c.After(d.take), true
}

// beforeDoors is how long all helpers lay cards, or bring bags to the row ends.
func (d *day) beforeDoors() time.Duration {
	if spec := d.Stunt.Laying; spec.Pass {
		return time.Duration(d.work.bags) * spec.PerRow / time.Duration(d.work.helpers)
	}
	return d.work.lay
}

// before the doors: keys, stands, floor, cards, mark.
func (d *day) before(doors int) {
	w := d.work
	cards := doors - spareMinutes - say.WholeMinutes(d.beforeDoors())
	keys := "Doors and keys open (which ones is not in the stunt file: keys = [...])"
	if named := doorsAndKeys(d.Plan); len(named) > 0 {
		keys = "Doors and keys: " + strings.Join(named, ", ") + " open"
	}
	d.add(cards-leadKeys, "custodian", keys+". Stands opened by their custodian, nobody beneath.")
	d.add(cards-leadHall, "floor lead, fire official", "Floor cleared and swept. Lanes taped, cables covered, every "+
		"exit tried. Wheelchair places and routes looked at.")
	if w.cards > 0 {
		helpers := say.Count(w.helpers, "helper")
		d.add(cards, "helpers, by laying.pdf", passOr(d.Plan, fmt.Sprintf("Row bags to the row ends: %s, %s. They "+
			"are passed along when people sit.", say.Count(w.bags, "bag"), helpers), fmt.Sprintf("Cards laid: %s "+
			"from %s, %s, %s.", say.Count(w.cards, "card"), say.Count(w.bags, "row bag"), helpers,
			say.Minutes(w.lay))))
	}
	d.add(doors-leadMark, "camera, spotter", "Tape cross, tripod, lens and frame by camera.pdf.")
	d.add(doors-leadLeaders, "leaders", "Leaders walk their blocks: "+passOr(d.Plan,
		"at each row's end its own bag, the strip on top.", "strip beside row, twenty seconds a row."))
}

// rehearsals are their times, two without and one with the camera: the stunt's own, where it gives them.
func (d *day) rehearsals() (times []int, given int) {
	for _, r := range d.Stunt.Day.Rehearsals {
		if at, ok := d.minute(r); ok {
			times = append(times, at)
		}
	}
	slices.Sort(times)
	given = len(times)
	for _, at := range []int{atFirst, atSecond, atCamera} {
		if len(times) < 3 && (given == 0 || at == atCamera && times[len(times)-1] < atCamera) {
			times = append(times, at)
		}
	}
	return times, given
}

// rehearse lists what is said and tried before the take.
func (d *day) rehearse(doors int, times []int, given int) {
	if d.Stunt.Laying.Pass {
		d.add(max(doors+5, atSafety-say.WholeMinutes(d.work.lay)), "row ends, leaders", fmt.Sprintf("Cards passed "+
			"along the rows, %s; then leaders go along with the strip, twenty seconds a row.",
			say.Minutes(d.work.lay)))
	}
	safety := min(atSafety, times[0]-5)
	d.add(safety, "crew", "Safety words: exits, no jumping, no throwing, alarm = card down and walk. How to hold: "+
		say.Small(HeldWords(d.Plan)))
	if d.work.cards > 0 {
		words := fmt.Sprintf("Empty seats counted (%s with cards). Under 95 of a hundred filled, the caller says "+
			"“90”, “80” or “70”, and row ends leave empty what their strip marks. %s",
			say.Count(d.Stands.CountAll().Cards, "seat"), d.fewRead)
		d.add(max(doors+2, safety-4), "leaders, caller", strings.TrimSpace(words)+" Under 65 no call helps: the "+
			"crew decides whether to film at all.")
	}
	for i, at := range times {
		what := fmt.Sprintf("Rehearsal %d, camera off: READY, UP, HOLD, DOWN, every cue once.", i+1)
		if i == len(times)-1 && i > 0 || len(times) == 1 {
			what = fmt.Sprintf("Rehearsal %d, with the camera: exposure, focus and white balance locked with the "+
				"cards up; one frame looked at.", i+1)
		}
		d.steps = append(d.steps, step{at: at, what: what, who: "caller, leaders", given: i < given})
	}
}

// after the last rehearsal: check, take, collect, sweep, close.
func (d *day) after() {
	d.add(atLeaders, "leaders", "Two-minute check by the leaders; wrong cards changed from the spares. Crowd "+
		"managers say the ways are free.")
	cues := ""
	if n := len(d.Cues); n > 0 {
		cues = ": " + say.Count(n, "cue")
		if last := d.Cues[n-1].Times.Down; last > 0 { // by the plan's own times
			cues += fmt.Sprintf(", %s from the start to the last DOWN", say.Seconds(last.Round(time.Second)))
		}
	}
	d.steps = append(d.steps, step{what: "TAKE" + cues + ".", who: "caller, camera", take: true, given: d.takeKnown})
	d.add(atAgain, "camera, caller", "One frame looked at in full size; a second take if it asks for one. Everybody "+
		"keeps the card.")
	d.add(atCollect, "leaders, helpers", fmt.Sprintf("Cards to the aisle ends, not thrown, and counted into the %s: "+
		"%s.", say.Count(d.work.bags, "row bag"), say.Count(d.work.cards, "card")))
	d.add(atOut, "crowd managers", "People out, row by row, floor first.")
	d.add(atSwept, "floor lead, custodian", "Floor and stands swept, bags counted out. Only then the custodian "+
		"closes the stands, with nobody beneath.")
}

// warn is told where there is less time than the work takes.
func (d *day) warn(format string, args ...any) {
	d.cautions = append(d.cautions, fmt.Sprintf(format, args...))
}

// tooEarly says whether the work begins before the crew may come in, and what would do.
func (d *day) tooEarly(first, from, doors int) {
	if first >= from {
		return
	}
	took, missing, more := d.beforeDoors(), time.Duration(from-first)*time.Minute, ""
	if left := took - missing; left > 0 {
		n := int((took*time.Duration(d.work.helpers) + left - 1) / left)
		more = fmt.Sprintf("let %s lay instead of %d, or ", say.Count(n, "helper"), d.work.helpers)
	}
	d.warn("The crew may come in from %s, and by the run sheet its work begins at %s, %s earlier: %sopen the doors "+
		"at %s, or come in at %s.", d.when(from), d.when(first), say.Minutes(missing), more, d.when(doors+from-first),
		d.when(first))
}

// tooLate says whether the work ends after everybody must be out.
func (d *day) tooLate(last, until int) {
	if last > until {
		d.warn("Everybody must be out at %s, and by the run sheet the stands are swept at %s: let the take be at %s, "+
			"or stay until %s.", d.when(until), d.when(last), d.when(until-last), d.when(last))
	}
}

// tight says where doors and rehearsals leave too little time; given are the doors by the stunt.
func (d *day) tight(doors int, given bool, rehearsals []int) {
	if in := d.comingIn(doors); given && doors+in > d.seated {
		d.warn("The doors open at %s, and by %s everybody must sit, for the safety words and the rehearsal at %s. "+
			"People take %s to come in: open the doors at %s, or rehearse later.", d.when(doors), d.when(d.seated),
			d.when(rehearsals[0]), say.Minutes(time.Duration(in)*time.Minute), d.when(d.seated-in))
	}
	long := say.WholeMinutes(d.Plan.Length())
	for i, at := range rehearsals {
		next, what := atLeaders, "the leaders' last check"
		if i+1 < len(rehearsals) {
			next, what = rehearsals[i+1], "the next one"
		}
		if at+long > next {
			d.warn("The rehearsal at %s takes %s, and %s is at %s: let it be at %s or earlier.", d.when(at),
				say.Minutes(time.Duration(long)*time.Minute), what, d.when(next), d.when(next-long))
		}
	}
}

// usualDoors is how many doors people come through where no exit is given (ours, no source).
const usualDoors = 2

// comingIn is how many minutes everybody takes from the doors' opening until all sit.
func (d *day) comingIn(doors int) int {
	if d.arrivals != nil {
		return max(0, d.seated-doors+d.arrivals.late)
	}
	all := d.CountAll()
	return passing(all.Cards+all.Persons, perDoor(d.Plan)*max(usualDoors, len(d.Stunt.Room.Exits))) + settling
}

// when is the clock column.
func (d *day) when(at int) string {
	if !d.takeKnown {
		return "____"
	}
	return (d.take + mosaic.Clock(at)).String()
}

// fromTake is "T–60", "T", "T+12".
func fromTake(at int) string {
	switch {
	case at < 0:
		return fmt.Sprintf("T–%d", -at) // the face has no minus sign
	case at > 0:
		return fmt.Sprintf("T+%d", at)
	}
	return "T"
}

func (d *day) note() string {
	const counts = "the sheet counts in minutes from the take T. Write take = \"18:45\""
	words := "No time is given for the take: " + counts + " under [day] and the clock is filled in."
	switch said := d.Stunt.Day.Take; {
	case d.takeKnown:
		words = "* = not in the stunt file: counted back from the take."
	case said != "":
		words = "The take is given as “" + said + "”, which is no time of day: " + counts + " and the clock is " +
			"filled in."
	}
	if len(d.unread) > 0 {
		words += " Also given: " + strings.Join(d.unread, "; ") + "."
	}
	return strings.Join(append([]string{words}, d.cautions...), " ")
}

func (r *RunSheet) signals(p *mosaic.Plan) {
	r.Calls, r.From = "The caller decides when a cue comes.", "the start of the sequence"
	if tempo, assumed, counted := p.Stunt.Counts(); counted {
		r.Calls = fmt.Sprintf("Calls follow the count in the music, %g counts a minute.", tempo)
		if assumed {
			r.Calls = fmt.Sprintf("Calls follow the count in the music. Its tempo is not in the stunt file, so %g "+
				"counts a minute are assumed: count a minute of it, write tempo = … and build again.", tempo)
		}
		r.From += ", count 1 of the music"
	}
	timed, otherwise := false, "at the caller's word"
	for i := range p.Cues {
		c := &p.Cues[i]
		t := &c.Times
		line := CueTimes{strconv.Itoa(i + 1), c.Name, cmp.Or(c.At, otherwise), "–", "–", "–", "–"}
		if timed = timed || t.Down > 0; timed {
			line.Ready, line.Up, line.Full, line.Down = stamped(t.Ready), stamped(t.Up), stamped(t.Full),
				stamped(t.Down)
		}
		r.Cues, otherwise = append(r.Cues, line), "after the cue before"
	}
}
