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
	p, d := t.p, t.day
	r := RunSheet{Note: d.note(), Contact: orBlank(p.Stunt.Contact)}
	if t.work.cards > 0 {
		r.Before = t.work.before()
	}
	for _, s := range d.steps {
		mark := ""
		if s.counted && d.takeKnown {
			mark = "*"
		}
		r.Steps = append(r.Steps, Step{d.when(s.at) + mark, fromTake(s.at), s.what, s.who, s.take})
	}
	signals(p, &r)
	if p.Stunt.Outdoors {
		r.Outdoors = []string{
			"Sun: behind the lens, never behind the stands. Look at the mark at the hour of the take the day before.",
			"Wind: a card is a sail. If one of ten cards bends in the rehearsal, hold it lower and with both hands; if cards fly, call it off.",
			"Rain or thunder: no paper, no crowd on the stands. Thunder empties the stands at once.",
			"Who decides: ______________________   by: " + decideBy(p) + "   other date: ____________",
		}
	}
	return r
}

func orBlank(s string) string {
	if s == "" {
		return "______________________________ (not in the stunt file: contact = …)"
	}
	return s
}

// step is one line of the day; at is minutes after the take.
type step struct {
	at        int
	what, who string
	counted   bool // the stunt does not give the time: it is counted back from the take
	take      bool
}

// day is the run of it.
type day struct {
	take      clock
	takeKnown bool
	takeSaid  string // as the stunt says it, where that is no time of day
	unread    []string
	steps     []step
	seated    int       // when everybody must sit
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

// dayOf counts the day back from the take.
func dayOf(p *mosaic.Plan, w *work, reads string) *day {
	d := &day{}
	d.take, d.takeKnown = readClock(p.Stunt.Day.Take)
	if !d.takeKnown {
		d.takeSaid = p.Stunt.Day.Take
	}
	doors, known := d.minute(p.Stunt.Day.Doors)
	times, given := d.rehearsals(p)
	d.seated = min(atSafety, times[0]-5)
	if p.Stunt.Laying.Pass { // cards go along rows of people
		d.seated -= say.WholeMinutes(w.lay)
	}
	if !known {
		doors = atDoors
		if p.People != nil {
			doors = min(doors, d.seated-settling-longestQueue(p))
		}
	}
	if p.People != nil {
		d.arrivals = arrivalsOf(p, d, doors)
	}
	d.before(p, w, doors)
	d.add(step{at: doors, what: "Doors. People come in by group" + d.arrivals.words() + " and fill each row from the end that its strip names; leaders stand at their blocks.", who: "leaders, crowd managers", counted: !known})
	d.rehearse(p, w, doors, times, given, reads)
	d.after(p, w)
	slices.SortStableFunc(d.steps, func(a, b step) int { return cmp.Compare(a.at, b.at) })
	return d
}

func (d *day) add(s step) { d.steps = append(d.steps, s) }

// minute is a time of the stunt in minutes after the take.
func (d *day) minute(text string) (at int, ok bool) {
	if text == "" {
		return 0, false
	}
	c, ok := readClock(text)
	if !ok || !d.takeKnown {
		d.unread = append(d.unread, text)
		return 0, false
	}
	return int(c - d.take), true
}

// before the doors: keys, stands, floor, cards, mark.
func (d *day) before(p *mosaic.Plan, w *work, doors int) {
	cards := doors - spareMinutes - say.WholeMinutes(w.lay)
	if p.Stunt.Laying.Pass {
		cards = doors - spareMinutes - say.WholeMinutes(time.Duration(w.bags)*p.Stunt.Laying.PerRow/time.Duration(w.helpers))
	}
	keys := "Doors and keys"
	if doors := doorsAndKeys(p); len(doors) > 0 {
		keys += ": " + strings.Join(doors, ", ") + " open"
	} else {
		keys += " open (which ones is not in the stunt file: keys = [...])"
	}
	d.add(step{at: cards - leadKeys, what: keys + ". Stands opened by their custodian, nobody beneath.", who: "custodian", counted: true})
	d.add(step{at: cards - leadHall, what: "Floor cleared and swept. Lanes taped, cables covered, every exit tried. Wheelchair places and routes looked at.", who: "floor lead, fire official", counted: true})
	if w.cards > 0 {
		what := fmt.Sprintf("Cards laid: %s from %s, %s, %s.", say.Count(w.cards, "card"), say.Count(w.bags, "row bag"), say.Count(w.helpers, "helper"), say.Minutes(w.lay))
		if p.Stunt.Laying.Pass {
			what = fmt.Sprintf("Row bags to the row ends: %s, %s. They are passed along when people sit.", say.Count(w.bags, "bag"), say.Count(w.helpers, "helper"))
		}
		d.add(step{at: cards, what: what, who: "helpers, by laying.pdf", counted: true})
	}
	d.add(step{at: doors - leadMark, what: "Tape cross, tripod, lens and frame by camera.pdf.", who: "camera, spotter", counted: true})
	check := "Leaders walk their blocks: strip beside row, twenty seconds a row."
	if p.Stunt.Laying.Pass {
		check = "Leaders walk their blocks: at each row's end its own bag, the strip on top."
	}
	d.add(step{at: doors - leadLeaders, what: check, who: "leaders", counted: true})
}

// rehearsals are their times, two without and one with the camera: the stunt's own, where it gives them.
func (d *day) rehearsals(p *mosaic.Plan) (times []int, given int) {
	for _, r := range p.Stunt.Day.Rehearsals {
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
func (d *day) rehearse(p *mosaic.Plan, w *work, doors int, times []int, given int, reads string) {
	safety := "Safety words: exits, no jumping, no throwing, alarm = card down and walk. How to hold: " + say.Small(HeldWords(p))
	if p.Stunt.Laying.Pass {
		d.add(step{at: max(doors+5, atSafety-say.WholeMinutes(w.lay)), what: fmt.Sprintf("Cards passed along the rows, %s; then leaders go along with the strip, twenty seconds a row.", say.Minutes(w.lay)), who: "row ends, leaders", counted: true})
	}
	first := times[0]
	d.add(step{at: min(atSafety, first-5), what: safety, who: "crew", counted: true})
	if w.cards > 0 {
		d.add(step{at: max(doors+2, min(atSafety, first-5)-4), what: fewWords(p, reads), who: "leaders, caller", counted: true})
	}
	for i, at := range times {
		what := fmt.Sprintf("Rehearsal %d, camera off: READY, UP, HOLD, DOWN, every cue once.", i+1)
		if i == len(times)-1 && i > 0 || len(times) == 1 {
			what = fmt.Sprintf("Rehearsal %d, with the camera: exposure, focus and white balance locked with the cards up; one frame looked at.", i+1)
		}
		d.add(step{at: at, what: what, who: "caller, leaders", counted: i >= given})
	}
}

// fewWords say what is done when few people have come.
func fewWords(p *mosaic.Plan, reads string) string {
	words := fmt.Sprintf("Empty seats counted (%s with cards). Under 95 of a hundred filled, the caller says “90”, “80” or “70”, and row ends leave empty what their strip marks.",
		say.Count(p.Stands.CountAll().Cards, "seat"))
	return strings.TrimSpace(words+" "+reads) + " Under 65 no call helps: the crew decides whether to film at all."
}

// after the last rehearsal: check, take, collect, sweep, close.
func (d *day) after(p *mosaic.Plan, w *work) {
	d.add(step{at: atLeaders, what: "Two-minute check by the leaders; wrong cards changed from the spares. Crowd managers say the ways are free.", who: "leaders", counted: true})
	d.add(step{at: 0, what: "TAKE" + takeWords(p), who: "caller, camera", take: true, counted: !d.takeKnown})
	d.add(step{at: atAgain, what: "One frame looked at in full size; a second take if it asks for one. Everybody keeps the card.", who: "camera, caller", counted: true})
	d.add(step{at: atCollect, what: fmt.Sprintf("Cards to the aisle ends, not thrown, and counted into the %s: %s.", say.Count(w.bags, "row bag"), say.Count(w.cards, "card")), who: "leaders, helpers", counted: true})
	d.add(step{at: atOut, what: "People out, row by row, floor first.", who: "crowd managers", counted: true})
	d.add(step{at: atSwept, what: "Floor and stands swept, bags counted out. Only then the custodian closes the stands, with nobody beneath.", who: "floor lead, custodian", counted: true})
}

// takeWords says how long the cues take by the plan's own times.
func takeWords(p *mosaic.Plan) string {
	if len(p.Cues) == 0 {
		return "."
	}
	last := p.Cues[len(p.Cues)-1].Times.Down
	if last <= 0 {
		return ": " + say.Count(len(p.Cues), "cue") + "."
	}
	return fmt.Sprintf(": %s, %s from the start to the last DOWN.", say.Count(len(p.Cues), "cue"), say.Seconds(last.Round(time.Second)))
}

// when is the clock column.
func (d *day) when(at int) string {
	if !d.takeKnown {
		return "____"
	}
	return (d.take + clock(at)).String()
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

// note says what is not known.
func (d *day) note() string {
	var parts []string
	switch {
	case d.takeKnown:
		parts = append(parts, "* = not in the stunt file: counted back from the take.")
	case d.takeSaid != "":
		parts = append(parts, fmt.Sprintf("The take is given as “%s”, which is no time of day: the sheet counts in minutes from the take T. Write take = \"18:45\" and the clock is filled in.", d.takeSaid))
	default:
		parts = append(parts, "No time is given for the take: the sheet counts in minutes from the take T. Write take = \"18:45\" under [day] and the clock is filled in.")
	}
	if len(d.unread) > 0 {
		parts = append(parts, "Also given: "+strings.Join(d.unread, "; ")+".")
	}
	return strings.Join(parts, " ")
}

// signals is the plan of calls, cue by cue.
func signals(p *mosaic.Plan, r *RunSheet) {
	r.Calls, r.From = "The caller decides when a cue comes.", "the start of the sequence"
	if tempo, assumed, counted := p.Stunt.Counts(); counted {
		r.Calls = fmt.Sprintf("Calls follow the count in the music, %g counts a minute.", tempo)
		if assumed {
			r.Calls = fmt.Sprintf("Calls follow the count in the music. Its tempo is not in the stunt file, so %g counts a minute are assumed: "+
				"count a minute of it, write tempo = … and build again.", tempo)
		}
		r.From += ", count 1 of the music"
	}
	timed := false
	for i := range p.Cues {
		c := &p.Cues[i]
		t := c.Times
		timed = timed || t.Down > 0
		at := c.At
		if at == "" {
			at = "after the cue before"
			if i == 0 {
				at = "at the caller's word"
			}
		}
		when := func(moment time.Duration) string {
			if !timed {
				return "–"
			}
			return stamped(moment)
		}
		r.Cues = append(r.Cues, CueTimes{strconv.Itoa(i + 1), c.Name, at, when(t.Ready), when(t.Up), when(t.Full), when(t.Down)})
	}
	r.Waves = Waves(p)
}

// decideBy is when the weather is decided upon: three hours before the take, before anybody sets out (common
// practice, no source).
func decideBy(p *mosaic.Plan) string {
	const before = 180
	if take, ok := readClock(p.Stunt.Day.Take); ok {
		return (take - before).String() + " (three hours before the take)"
	}
	return "three hours before the take"
}

// clock is a time of day in minutes after midnight.
type clock int

// readClock reads "18:45", "6:45 pm", "18.45", "1845h" or "6 pm"; ok is false for anything else.
func readClock(text string) (c clock, ok bool) {
	t := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), ".", ":"))
	half := -1
	for i, mark := range []string{"am", "pm"} {
		for _, m := range []string{mark, mark[:1] + ":m:", mark[:1] + ":m"} {
			if s, found := strings.CutSuffix(t, m); found {
				t, half = strings.TrimSpace(s), i
				break
			}
		}
	}
	t = strings.TrimSpace(strings.TrimSuffix(t, "h"))
	h, m, colon := strings.Cut(t, ":")
	if !colon && half < 0 {
		return 0, false
	}
	hour, err := strconv.Atoi(h)
	if err != nil {
		return 0, false
	}
	minute := 0
	if colon {
		if minute, err = strconv.Atoi(m); err != nil || len(m) != 2 {
			return 0, false
		}
	}
	if half >= 0 {
		if hour < 1 || hour > 12 {
			return 0, false
		}
		hour = hour%12 + 12*half
	}
	if hour < 0 || hour > 23 || minute < 0 || minute > 59 {
		return 0, false
	}
	return clock(hour*60 + minute), true
}

// String is the time on a clock of 24 hours.
func (c clock) String() string {
	m := (int(c)%1440 + 1440) % 1440
	return fmt.Sprintf("%d:%02d", m/60, m%60)
}
