package mosaic

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"everyseat/seating"
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
		return spoken{time: milliseconds(float64(m)*60 + sec)}, true
	}
	words := strings.Fields(text)
	if len(words) == 0 {
		return spoken{}, false
	}
	switch words[0] {
	case "count", "beat":
		if len(words) > 1 {
			n, ok := amount(words[1])
			return spoken{count: n}, ok && n >= 1
		}
		return spoken{}, false
	case "second":
		if len(words) == 2 {
			n, ok := amount(words[1])
			return spoken{time: milliseconds(n)}, ok
		}
		return spoken{}, false
	}
	for _, unit := range []string{"seconds", "second", "sec", "s"} {
		if n, ok := strings.CutSuffix(text, unit); ok {
			v, known := amount(strings.TrimSpace(n))
			return spoken{time: milliseconds(v)}, known
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
func (p *Plan) times() error {
	cues := p.Stunt.Cues
	ups, err := p.ups()
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
			return &seating.Fault{Key: fmt.Sprintf("cue[%d].at", i), What: fmt.Sprintf("cue %q ends more than %d hours after the start", c.Name, latest/time.Hour)}
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
func (p *Plan) ups() ([]time.Duration, error) {
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
				p.Warnings = append(p.Warnings, fmt.Sprintf("Cue %q: at = %q is neither a count nor a second, so its times follow from the cue before.", c.Name, c.At))
			}
			continue
		case s.count > 0:
			guessed = guessed || assumed
			ups[i] = milliseconds((s.count - 1) * 60 / tempo)
		default:
			ups[i] = s.time
		}
		if ups[i] > latest {
			return nil, &seating.Fault{Key: fmt.Sprintf("cue[%d].at", i), What: fmt.Sprintf("%q is more than %d hours after the start", c.At, latest/time.Hour), Hint: "count from the start of the music"}
		}
	}
	if guessed && len(ups) > 1 {
		p.Warnings = append(p.Warnings, fmt.Sprintf("Cues happen at counts and no tempo is given: %d counts a minute are assumed; write tempo = … at the top.", usualTempo))
	}
	return ups, nil
}

// checkAfter refuses a cue that comes before the last one is done.
func checkAfter(cues []Cue, plans []CuePlan, i int) error {
	last, up := &plans[i-1].Times, plans[i].Times.Up
	f := &seating.Fault{Key: fmt.Sprintf("cue[%d].at", i)}
	switch {
	case up == last.Up:
		f.What = fmt.Sprintf("cues %q and %q happen at one moment, %s", cues[i-1].Name, cues[i].Name, clock(up))
		f.Hint = "give each cue its own count or second"
	case up < last.Up:
		f.What = fmt.Sprintf("cue %q, at %s, comes before cue %q, at %s", cues[i].Name, clock(up), cues[i-1].Name, clock(last.Up))
		f.Hint = "put the cues in the order in which they happen"
	case up < last.Full:
		f.What = fmt.Sprintf("cue %q comes at %s, before the last card of cue %q is up at %s", cues[i].Name, clock(up), cues[i-1].Name, clock(last.Full))
		f.Hint = "let it come later, or shorten up or takes of the cue before"
	case up < last.Down:
		f.What = fmt.Sprintf("cue %q comes at %s, before DOWN of cue %q at %s", cues[i].Name, clock(up), cues[i-1].Name, clock(last.Down))
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

// delays give every seat its moment within a wave.
func (p *Plan) delays(cue *Cue) []time.Duration {
	if cue.Transition == AtOnce || cue.Takes == 0 {
		return nil
	}
	at := p.along(cue.Transition)
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for s, v := range at {
		if p.Stands.Seats[s].Use == seating.UseCard {
			low, high = min(low, v), max(high, v)
		}
	}
	out := make([]time.Duration, len(at))
	for s, v := range at {
		if span := high - low; span > 0 && p.Stands.Seats[s].Use == seating.UseCard {
			part := float64(v-low) / float64(span)
			out[s] = milliseconds(part * cue.Takes.Seconds())
		}
	}
	return out
}

// along is how far each seat is on the way of a transition: in millimetres, or rows.
func (p *Plan) along(t Transition) []int64 {
	millimetres := func(v float64) int64 { return int64(math.Round(v * 1000)) }
	at := make([]int64, len(p.Stands.Seats))
	var left, right int64 = math.MaxInt64, math.MinInt64
	for s := range at {
		seat := &p.Stands.Seats[s]
		switch t {
		case LeftToRight, FromMiddle:
			at[s] = millimetres(seat.Position[0])
		case RightToLeft:
			at[s] = -millimetres(seat.Position[0])
		case BottomToTop:
			at[s] = millimetres(seat.Position[2])
		case RowByRow:
			at[s] = int64(seat.Row)
		}
		if seat.Use == seating.UseCard {
			left, right = min(left, at[s]), max(right, at[s])
		}
	}
	if t == FromMiddle {
		for s := range at { // in half millimetres, so that the middle is exact
			at[s] = max(2*at[s]-left-right, left+right-2*at[s])
		}
	}
	return at
}
