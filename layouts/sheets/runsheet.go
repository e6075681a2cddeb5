package sheets

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
)

// RunSheet writes runsheet.pdf: the cautions first, the signal plan, and on a page of its own the day by the clock,
// counted back from the take. What the stunt does not say is counted back from the take
// and marked so; without a time for the take the sheet counts in minutes before it. Errors are
// *seating.Fault.
func RunSheet(w io.Writer, p *mosaic.Plan) error {
	f, err := uprightFlow(p, "Run sheet")
	if err != nil {
		return err
	}
	f.title("Run sheet", occasion(p))
	f.boxed("Before anything else", Cautions(p))
	d := dayOf(p)
	if w := workOf(p, laid(p)); w.cards > 0 {
		f.heading("Before the day")
		f.paragraph(w.before(), sizeBody)
	}
	signals(f)
	outdoors(f)
	early := f.y+lineHeight(sizeHead)*1.6+4*lineHeight(sizeBody) <= f.bottom()
	if early {
		whoToAsk(f)
	}
	f.newPage() // the clock hangs by the door on a page of its own
	f.heading("The day by the clock")
	if note := d.note(); note != "" {
		f.paragraph(note, sizeSmall)
	}
	var rows [][]cell
	for _, s := range d.steps {
		mark := ""
		if s.counted && d.takeKnown {
			mark = "*"
		}
		rows = append(rows, []cell{{text: d.when(s.at) + mark, bold: true}, {text: fromTake(s.at)}, {text: s.what, bold: s.take}, {text: s.who}, {tick: true}})
	}
	f.table([]column{{head: "Clock"}, {head: "Take"}, {head: "What", share: 3}, {head: "Who", share: 1.15}, {head: "Done"}}, rows, 9.5)
	if !early {
		whoToAsk(f)
	}
	return f.finish(w)
}

func whoToAsk(f *flow) {
	f.heading("Who to ask")
	f.pair("Contact", orBlank(f.plan.Stunt.Contact), sizeBody)
	f.pair("Says stop", "Anybody. The custodian of the stands and the fire official without giving a reason.", sizeBody)
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
	atDoors     = -60
	atSafety    = -40
	atFirst     = -35
	atSecond    = -25
	atCamera    = -12
	atLeaders   = -5
	atAgain     = 6
	atCollect   = 12
	atOut       = 20
	atSwept     = 35
	leadKeys    = 30 // before the first card is laid
	leadHall    = 20
	leadMark    = 30 // before the doors
	leadLeaders = 10
)

// dayOf counts the day back from the take.
func dayOf(p *mosaic.Plan) *day {
	d := &day{}
	d.take, d.takeKnown = readClock(p.Stunt.Day.Take)
	if !d.takeKnown {
		d.takeSaid = p.Stunt.Day.Take
	}
	w := workOf(p, laid(p))
	doors, known := d.minute(p.Stunt.Day.Doors)
	times, given := d.rehearsals(p)
	d.seated = min(atSafety, times[0]-5)
	if p.Stunt.Laying.Pass { // cards go along rows of people
		d.seated -= minutes(w.lay)
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
	d.rehearse(p, w, doors, times, given)
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
func (d *day) before(p *mosaic.Plan, w work, doors int) {
	cards := doors - spareMinutes - minutes(w.lay)
	if p.Stunt.Laying.Pass {
		cards = doors - spareMinutes - minutes(time.Duration(w.bags)*p.Stunt.Laying.PerRow/time.Duration(w.helpers))
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
		what := fmt.Sprintf("Cards laid: %s from %s, %s, %s.", plural(w.cards, "card"), plural(w.bags, "row bag"), plural(w.helpers, "helper"), minuteWords(w.lay))
		if p.Stunt.Laying.Pass {
			what = fmt.Sprintf("Row bags to the row ends: %s, %s. They are passed along when people sit.", plural(w.bags, "bag"), plural(w.helpers, "helper"))
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
func (d *day) rehearse(p *mosaic.Plan, w work, doors int, times []int, given int) {
	safety := "Safety words: exits, no jumping, no throwing, alarm = card down and walk. How to hold: " + lowerFirst(heldWords(p))
	if p.Stunt.Laying.Pass {
		d.add(step{at: max(doors+5, atSafety-minutes(w.lay)), what: fmt.Sprintf("Cards passed along the rows, %s; then leaders go along with the strip, twenty seconds a row.", minuteWords(w.lay)), who: "row ends, leaders", counted: true})
	}
	first := times[0]
	d.add(step{at: min(atSafety, first-5), what: safety, who: "crew", counted: true})
	if w.cards > 0 {
		d.add(step{at: max(doors+2, min(atSafety, first-5)-4), what: fewWords(p), who: "leaders, caller", counted: true})
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
func fewWords(p *mosaic.Plan) string {
	words := fmt.Sprintf("Empty seats counted (%s with cards). Under 95 of a hundred filled, the caller says “90”, “80” or “70”, and row ends leave empty what their strip marks.",
		plural(p.Stands.CountAll().Cards, "seat"))
	return strings.TrimSpace(words+" "+trimReads(p)) + " Under 65 no call helps: the crew decides whether to film at all."
}

// after the last rehearsal: check, take, collect, sweep, close.
func (d *day) after(p *mosaic.Plan, w work) {
	d.add(step{at: atLeaders, what: "Two-minute check by the leaders; wrong cards changed from the spares. Crowd managers say the ways are free.", who: "leaders", counted: true})
	d.add(step{at: 0, what: "TAKE" + takeWords(p), who: "caller, camera", take: true, counted: !d.takeKnown})
	d.add(step{at: atAgain, what: "One frame looked at in full size; a second take if it asks for one. Everybody keeps the card.", who: "camera, caller", counted: true})
	d.add(step{at: atCollect, what: fmt.Sprintf("Cards to the aisle ends, not thrown, and counted into the %s: %s.", plural(w.bags, "row bag"), plural(w.cards, "card")), who: "leaders, helpers", counted: true})
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
		return ": " + plural(len(p.Cues), "cue") + "."
	}
	return fmt.Sprintf(": %s, %s from the start to the last DOWN.", plural(len(p.Cues), "cue"), seconds(last.Round(time.Second)))
}

func lowerFirst(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]-'A'+'a') + s[1:]
	}
	return s
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
func signals(f *flow) {
	p := f.plan
	f.heading("Signals")
	calls := "The caller decides when a cue comes."
	from := "the start of the sequence"
	if tempo, assumed, counted := p.Stunt.Counts(); counted {
		calls = fmt.Sprintf("Calls follow the count in the music, %g counts a minute.", tempo)
		if assumed {
			calls = fmt.Sprintf("Calls follow the count in the music. Its tempo is not in the stunt file, so %g counts a minute are assumed: count a minute of it, write tempo = … and build again.", tempo)
		}
		from += ", count 1 of the music"
	}
	f.item("–", calls+" Beside the lens a flag goes up at READY and drops at UP; leaders, who see the flag, echo both with a raised arm.", sizeBody)
	f.item("–", "DOWN is a sound, a whistle or the caller's voice, since faces are behind cards and see no flag.", sizeBody)
	f.item("–", "A long whistle at any time means: card down, sit, listen. An alarm means card down and walk.", sizeBody)
	if len(p.Cues) == 0 {
		return
	}
	var rows [][]cell
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
		rows = append(rows, []cell{{text: fmt.Sprint(i + 1), bold: true}, {text: c.Name}, {text: at}, {text: stamped(t.Ready, timed)}, {text: stamped(t.Up, timed), bold: true},
			{text: stamped(t.Full, timed)}, {text: stamped(t.Down, timed)}})
	}
	f.y += 1
	f.table([]column{{head: "Cue"}, {head: "Name", share: 1.4}, {head: "When", share: 1}, {head: "READY", right: true}, {head: "UP", right: true}, {head: "all up", right: true}, {head: "DOWN", right: true}}, rows, 9.5)
	f.paragraph("Minutes and seconds from "+from+"; what is before it has a dash. From the call UP everybody has the card up; HOLD is silent; before the first cue and after the last the card lies on the lap.", sizeSmall)
	if waves := wavesWords(p); waves != "" {
		f.item("–", waves, sizeBody)
	}
}

// stamped is a moment of the sequence, if it is known.
func stamped(t time.Duration, known bool) string {
	if !known {
		return "–"
	}
	return Stamped(t)
}

// Stamped is a moment of the sequence in minutes and seconds, to a tenth: "1:05.2"; what is
// before its start has a dash.
func Stamped(t time.Duration) string {
	if t < 0 {
		return "–" + Stamped(-t)
	}
	tenths := int((t + 50*time.Millisecond) / (100 * time.Millisecond))
	s := fmt.Sprintf("%d:%02d", tenths/600, tenths/10%60)
	if tenths%10 != 0 {
		s += fmt.Sprintf(".%d", tenths%10)
	}
	return s
}

// outdoors adds what the weather decides.
func outdoors(f *flow) {
	if !f.plan.Stunt.Outdoors {
		return
	}
	f.heading("Outdoors")
	for _, s := range []string{
		"Sun: behind the lens, never behind the stands. Look at the mark at the hour of the take the day before.",
		"Wind: a card is a sail. If one of ten cards bends in the rehearsal, hold it lower and with both hands; if cards fly, call it off.",
		"Rain or thunder: no paper, no crowd on the stands. Thunder empties the stands at once.",
		"Who decides: ______________________   by: " + decideBy(f.plan) + "   other date: ____________",
	} {
		f.item("–", s, sizeBody)
	}
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

// wheelchairs counts the places kept for somebody, by use.
func wheelchairs(p *mosaic.Plan) map[string]int {
	count := map[string]int{}
	for s := range p.Stands.Seats {
		if p.Stands.Seats[s].For != "" && p.Stands.Seats[s].Use == seating.UseCard {
			count[p.Stands.Seats[s].For]++
		}
	}
	return count
}
