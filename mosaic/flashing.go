package mosaic

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/flash"
	"everyseat/seating"
)

// restLight is what a seat looks like at rest, card on the lap: grey of 18 %, the
// photographer's mean of all clothes (common practice, no source).
const restLight = 0.18

// flashes refuses a sequence that flashes dangerously from any mark, unless the crew's own
// line accepts the risk; and warns of cards that change too fast.
func (p *Plan) flashes() error {
	if p.calm() {
		return nil
	}
	looks := make([]flash.Look, len(p.Stunt.Colours)+1)
	for i, c := range p.Stunt.Colours {
		looks[i] = flash.LookOf(c.RGB.Linear())
	}
	rest := int16(len(p.Stunt.Colours))
	looks[rest] = flash.LookOf(colour.Linear{restLight, restLight, restLight})
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
			p.Warnings = append(p.Warnings, fmt.Sprintf("Cue %q, in the second from %s: more than three changes of card in one second are more than hands can do.", p.Cues[d.Cue].Name, clock(d.From)))
		}
		if report.Refused() && p.Flashing == "" {
			if err := p.dangerous(report, k); err != nil {
				return err
			}
		}
	}
	return nil
}

// dangerous refuses, or takes the warning down that every paper carries.
func (p *Plan) dangerous(report flash.Report, mark int) error {
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
			Hint: "let the cues come more slowly; only a line flashing_risk_accepted = \"…\" at the top that names the risk lets this through",
		}
	}
	p.Flashing = fmt.Sprintf("Cue %s makes %s. It may cause seizures: warn everybody before.", quoted(p.Cues[d.Cue].Name), said)
	p.Warnings = append([]string{"FLASHING: " + p.Flashing + fmt.Sprintf(" Accepted by the crew: %s.", quoted(strings.TrimRight(p.Stunt.FlashingRisk, ".")))}, p.Warnings...)
	return nil
}

// riskWords name the risk of flashing, as parts of words.
var riskWords = []string{"flash", "seizure", "epilep", "strob"}

// checkRisk refuses an acceptance that does not say what is accepted.
func checkRisk(line string) error {
	if line == "" {
		return nil
	}
	folded := strings.ToLower(line)
	for _, w := range riskWords {
		if strings.Contains(folded, w) {
			return nil
		}
	}
	return &seating.Fault{
		Key:  "flashing_risk_accepted",
		What: fmt.Sprintf("%q does not name the risk", line),
		Hint: `write who accepts what, such as "flashing that may cause seizures, accepted by the safety officer"`,
	}
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
