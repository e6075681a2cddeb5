package mosaic

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"everyseat/mosaic/flash"
	"everyseat/seating"
	"everyseat/seating/say"
)

// latest bounds every time of a stunt.
const latest = 6 * time.Hour

// Tempos that music has, in counts a minute, and the one that is taken where cues
// happen at counts and none is given (common practice, no source).
const (
	slowestTempo = 10
	fastestTempo = 400
	usualTempo   = 120
)

// spoken is a cue's "at" as understood: a count from 1, or a time from the start.
type spoken struct {
	count float64 // 0 = a time
	time  time.Duration
}

// parseAt reads "count 33", "33", "12.5 s", "second 12" or "1:05"; words may follow a
// count ("count 1 of the last verse"). Understood is false for other words.
func parseAt(at string) (s spoken, understood bool) {
	text := strings.ToLower(strings.TrimSpace(at))
	if minutes, seconds, ok := strings.Cut(text, ":"); ok {
		m, err := strconv.ParseUint(minutes, 10, 16)
		sec, known := amount(seconds)
		if err != nil || !known || sec >= 60 {
			return spoken{}, false
		}
		return spoken{time: milliseconds(float64(60*m) + sec)}, true
	}
	switch words := append(strings.Fields(text), "", ""); {
	case words[0] == "count" || words[0] == "beat":
		text = words[1]
	case words[0] == "second" && len(words) == 4:
		n, ok := amount(words[1])
		return spoken{time: milliseconds(n)}, ok
	default:
		for _, unit := range []string{"seconds", "second", "sec", "s"} {
			if n, ok := strings.CutSuffix(text, unit); ok {
				v, known := amount(strings.TrimSpace(n))
				return spoken{time: milliseconds(v)}, known
			}
		}
	}
	n, ok := amount(text)
	return spoken{count: n}, ok && n >= 1
}

// amount reads plain decimal figures: no sign, no exponent.
func amount(text string) (float64, bool) {
	if text == "" || strings.Trim(text, "0123456789.") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && v < 1e9
}

// milliseconds rounds to whole ones, in which all times are decided.
func milliseconds(seconds float64) time.Duration {
	return time.Duration(math.Round(seconds*1000)) * time.Millisecond
}

// Times are the moments of a cue, from the start of the sequence: the call READY, the
// call UP, when the last card is up, and the call DOWN.
type Times struct {
	Ready, Up, Full, Down time.Duration
}

// times works out when every cue happens. A cue without a time of its own follows the
// one before after a rest. Where nobody says how long the cards stay, they stay 15 s,
// or until the next cue where that is sooner.
func (m *maker) times() error {
	p, cues := m.p, m.p.Stunt.Cues
	ups, err := m.ups()
	if err != nil {
		return err
	}
	var before time.Duration // DOWN of the last cue
	for i := range cues {
		c, t := &cues[i], &p.Cues[i].Times
		if ups[i] < 0 {
			ups[i] = before + defaultReady
		}
		t.Up = ups[i]
		t.Ready, t.Full = t.Up-defaultReady, t.Up+c.Takes+c.UpWithin
		if i > 0 {
			if err := checkAfter(cues, p.Cues, i); err != nil {
				return err
			}
			t.Ready = max(t.Ready, before)
		}
		t.Down = t.Full + defaultHold
		if c.Hold > 0 {
			t.Down = t.Full + c.Hold
		} else if i+1 < len(cues) && ups[i+1] > t.Full {
			t.Down = min(t.Down, ups[i+1])
		}
		if t.Down > latest {
			return &seating.Fault{Key: fmt.Sprintf("cue[%d].at", i),
				What: fmt.Sprintf("cue %q ends more than %d hours after the start", c.Name, latest/time.Hour),
				Hint: "let it come sooner, or write a shorter hold"}
		}
		before = t.Down
	}
	return nil
}

// Counts says whether any cue happens at a count, at how many counts a minute, and whether the stunt says so many or
// they are assumed.
func (s *Stunt) Counts() (perMinute float64, assumed, any bool) {
	for i := range s.Cues {
		at, understood := parseAt(s.Cues[i].At)
		any = any || understood && at.count > 0
	}
	if s.Tempo == 0 {
		return usualTempo, true, any
	}
	return s.Tempo, false, any
}

// ups are the calls UP that the crew has fixed, −1 where a cue follows the one before.
func (m *maker) ups() ([]time.Duration, error) {
	p := m.p
	tempo, assumed, _ := p.Stunt.Counts()
	guessed := false
	ups := make([]time.Duration, len(p.Stunt.Cues))
	for i := range ups {
		c := &p.Stunt.Cues[i]
		ups[i] = -1
		if strings.TrimSpace(c.At) == "" {
			continue
		}
		s, understood := parseAt(c.At)
		switch {
		case !understood:
			if len(ups) > 1 {
				m.warn("Cue %q: at = %q is neither a count nor a second, so its times follow from the cue before.",
					c.Name, c.At)
			}
			continue
		case s.count > 0:
			guessed = guessed || assumed
			ups[i] = milliseconds((s.count - 1) * 60 / tempo)
		default:
			ups[i] = s.time
		}
		if ups[i] > latest {
			return nil, &seating.Fault{Key: fmt.Sprintf("cue[%d].at", i),
				What: fmt.Sprintf("%q is more than %d hours after the start", c.At, latest/time.Hour),
				Hint: "count from the start of the music"}
		}
	}
	if guessed && len(ups) > 1 {
		m.warn("Cues happen at counts and no tempo is given: %d counts a minute are assumed; "+
			"write tempo = … at the top.", usualTempo)
	}
	return ups, nil
}

// checkAfter refuses a cue that comes before the last one is done.
func checkAfter(cues []Cue, plans []CuePlan, i int) error {
	last, up := &plans[i-1].Times, plans[i].Times.Up
	name, before := cues[i].Name, cues[i-1].Name
	f := &seating.Fault{Key: fmt.Sprintf("cue[%d].at", i)}
	switch {
	case up == last.Up:
		f.What = fmt.Sprintf("cues %q and %q happen at one moment, %s", before, name, clock(up))
		f.Hint = "give each cue its own count or second"
	case up < last.Up:
		f.What = fmt.Sprintf("cue %q, at %s, comes before cue %q, at %s", name, clock(up), before, clock(last.Up))
		f.Hint = "put the cues in the order in which they happen"
	case up < last.Full:
		f.What = fmt.Sprintf("cue %q comes at %s, before the last card of cue %q is up at %s",
			name, clock(up), before, clock(last.Full))
		f.Hint = "let it come later, or shorten up or takes of the cue before"
	case up < last.Down:
		f.What = fmt.Sprintf("cue %q comes at %s, before DOWN of cue %q at %s",
			name, clock(up), before, clock(last.Down))
		f.Hint = "let it come later, or shorten hold of the cue before"
	default:
		return nil
	}
	return f
}

// clock is a moment from the start: 4.5 s, 1:05.2.
func clock(d time.Duration) string {
	s := d.Seconds()
	if s < 60 {
		return strconv.FormatFloat(s, 'f', -1, 64) + " s"
	}
	whole := int(s) / 60
	rest := strconv.FormatFloat(math.Round((s-float64(60*whole))*1000)/1000, 'f', -1, 64)
	if strings.IndexByte(rest+".", '.') < 2 {
		rest = "0" + rest
	}
	return fmt.Sprintf("%d:%s", whole, rest)
}

// Moment is when a seat moves at a cue, from the start of the sequence.
func (p *Plan) Moment(cue, seat int) time.Duration {
	c := &p.Cues[cue]
	if c.Delay == nil {
		return c.Times.Up
	}
	return c.Times.Up + c.Delay[seat]
}

// delays give every seat its moment within a wave, by how far it is on the way: in millimetres, or rows.
func (m *maker) delays(cue *Cue) []time.Duration {
	if cue.Transition == AtOnce || cue.Takes == 0 {
		return nil
	}
	seats := m.p.Stands.Seats
	at := make([]int64, len(seats))
	for s := range at {
		switch p := &seats[s].Position; cue.Transition {
		case LeftToRight, FromMiddle:
			at[s] = whole(p[0] * 1000)
		case RightToLeft:
			at[s] = -whole(p[0] * 1000)
		case BottomToTop:
			at[s] = whole(p[2] * 1000)
		case RowByRow:
			at[s] = int64(seats[s].Row)
		}
	}
	ends := func() (low, high int64) {
		low, high = math.MaxInt64, math.MinInt64
		for s, v := range at {
			if seats[s].Use == seating.UseCard {
				low, high = min(low, v), max(high, v)
			}
		}
		return low, high
	}
	low, high := ends()
	if cue.Transition == FromMiddle {
		for s := range at { // in half millimetres, so that the middle is exact
			at[s] = max(2*at[s]-low-high, low+high-2*at[s])
		}
		low, high = ends()
	}
	out := make([]time.Duration, len(at))
	for s, v := range at {
		if high > low && seats[s].Use == seating.UseCard {
			out[s] = milliseconds(float64(v-low) / float64(high-low) * cue.Takes.Seconds())
		}
	}
	return out
}

// RestAfter is how long everybody rests after the last DOWN until the sequence is played again.
const RestAfter = 3 * time.Second

// Length is how long the sequence plays, from READY of the first cue, until it begins again.
func (p *Plan) Length() time.Duration {
	if len(p.Cues) == 0 {
		return 0
	}
	return p.Cues[len(p.Cues)-1].Times.Down + RestAfter - p.Cues[0].Times.Ready
}

// flashes refuses a sequence that flashes dangerously from any mark, unless the crew's own
// line accepts the risk; and warns of cards that change too fast.
func (m *maker) flashes() error {
	p := m.p
	if p.calm() {
		return nil
	}
	looks := make([]flash.Look, len(p.Stunt.Colours)+1)
	for i, c := range p.Stunt.Colours {
		looks[i] = flash.LookOf(c.RGB.Linear())
	}
	rest := int16(len(p.Stunt.Colours))
	looks[rest] = flash.LookOf(p.Stunt.People.Wear.mean()) // card on the lap
	start := slices.Repeat([]int16{rest}, len(p.Stands.Seats))
	changes := p.changes(rest)
	hurried := false
	for k := range p.Marks {
		report, err := flash.Check(p.shares(k), looks, start, changes)
		if err != nil {
			return &seating.Fault{Key: "cue", What: err.Error()}
		}
		if d := report.Hurried; d != nil && !hurried {
			hurried = true
			m.warn("Cue %q, in the second from %s: more than three changes of card in one second are more than "+
				"hands can do.", p.Cues[d.Cue].Name, clock(d.From))
		}
		if report.Refused() && p.Flashing == "" {
			if err := m.dangerous(report, k); err != nil {
				return err
			}
		}
	}
	return nil
}

// dangerous refuses, or takes the warning down that every paper carries.
func (m *maker) dangerous(report flash.Report, mark int) error {
	p := m.p
	d, what := report.General, "more than three flashes"
	if d == nil || report.Red != nil && report.Red.From < d.From {
		d, what = report.Red, "more than three red flashes"
	}
	said := fmt.Sprintf("%s in the second from %s over %.0f %% of the picture", what, clock(d.From), 100*d.Area)
	if mark > 0 {
		said += " of the " + markName(p.Marks[mark].View.Name)
	}
	if p.Stunt.FlashingRisk == "" {
		return &seating.Fault{
			Key:  fmt.Sprintf("cue[%d].at", d.Cue),
			What: fmt.Sprintf("cue %q makes %s: it may cause seizures", p.Cues[d.Cue].Name, said),
			Hint: "let the cues come more slowly; only a line flashing_risk_accepted = \"…\" at the top that " +
				"names the risk lets this through",
		}
	}
	p.Flashing = fmt.Sprintf("Cue %s makes %s. It may cause seizures: warn everybody before.",
		say.Quoted(p.Cues[d.Cue].Name), said)
	p.Warnings = slices.Insert(p.Warnings, 0, fmt.Sprintf("FLASHING: %s Accepted by the crew: %s.",
		p.Flashing, say.Quoted(strings.TrimRight(p.Stunt.FlashingRisk, "."))))
	return nil
}

// riskWords name the risk of flashing, as parts of words.
var riskWords = []string{"flash", "seizure", "epilep", "strob"}

// checkRisk refuses an acceptance that does not say what is accepted.
func checkRisk(line string) error {
	named := slices.ContainsFunc(riskWords, func(w string) bool { return strings.Contains(strings.ToLower(line), w) })
	return refuse(line != "" && !named, "flashing_risk_accepted", fmt.Sprintf("%q does not name the risk", line),
		`write who accepts what, such as "flashing that may cause seizures, accepted by the safety officer"`)
}

// calm says that no second has more than three moments at which anything changes, and
// nothing moves in a wave, so that there is nothing to look for.
func (p *Plan) calm() bool {
	var moments []time.Duration
	for i := range p.Cues {
		if p.Cues[i].Delay != nil && len(p.Cues) > 1 {
			return false
		}
		moments = append(moments, p.Cues[i].Times.Up, p.Cues[i].Times.Down)
	}
	slices.Sort(moments)
	moments = slices.Compact(moments)
	for i := flash.MaxFlashes; i < len(moments); i++ {
		if moments[i]-moments[i-flash.MaxFlashes] < flash.Second {
			return false
		}
	}
	return true
}

// changes are what every seat does and when, rest included.
func (p *Plan) changes(rest int16) []flash.Change {
	var out []flash.Change
	for i := range p.Cues {
		c := &p.Cues[i]
		down := i+1 == len(p.Cues) || p.Cues[i+1].Times.Up > c.Times.Down
		for s := range p.Stands.Seats {
			if p.Stands.Seats[s].Use != seating.UseCard {
				continue
			}
			look := c.Colours[s]
			if look == None {
				look = rest
			}
			out = append(out, flash.Change{At: p.Moment(i, s), Seat: int32(s), Look: look, Cue: int16(i)})
			if down {
				out = append(out, flash.Change{At: c.Times.Down, Seat: int32(s), Look: rest, Cue: int16(i)})
			}
		}
	}
	return out
}

// shares are the parts of a mark's picture that the seats' cards fill.
func (p *Plan) shares(mark int) []float64 {
	m := &p.Marks[mark]
	frame := float64(m.View.Width) * float64(m.View.Height)
	out := make([]float64, len(p.Stands.Seats))
	var sum float64
	for s := range out {
		out[s] = min(float64(m.Sight.Pixels[s])/frame, 1)
		sum += out[s]
	}
	if sum > 1 { // samples are not exact
		for s := range out {
			out[s] /= sum
		}
	}
	return out
}
