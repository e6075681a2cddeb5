package mosaic

import (
	"fmt"
	"math"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
)

// Advised is what was tried to make one cue's text read, and what of it helps.
type Advised struct {
	Cue    int
	Before float64  // reading score, 0…1; 0 where the text does not fit
	Tried  int      // changes that were tried
	Advice []Advice // best first; none = nothing of what was tried helps
	Least  int      // which of Advice is the smallest change that gets the verdict of the best
}

// Advice is one change that helps, measured by making the changed plan.
type Advice struct {
	Change  string             // what is changed, in two or three words
	Do      string             // what to do: "make two cues of it, “SEA” and “FAIR”"
	After   float64            // reading score of the changed plan; the least where it has several cues
	Verdict legibility.Verdict // of the changed plan
}

// then says the change and what it gives.
func (a *Advice) then() string {
	return fmt.Sprintf("%s: then it %s (%.0f of 100)", a.Do, verdictWords(a.Verdict), 100*a.After)
}

// verdictWords is a verdict on a change, after "it".
func verdictWords(v legibility.Verdict) string {
	if v == legibility.DoesNotRead {
		return "still does not read"
	}
	return v.Says()
}

// adviceFor says which one change helps most, or plainly that none does.
func (p *Plan) adviceFor(cue int) string {
	for i := range p.Advice {
		a := &p.Advice[i]
		if a.Cue != cue {
			continue
		}
		if len(a.Advice) == 0 {
			return fmt.Sprintf("None of the %d changes that were measured helps.", a.Tried)
		}
		best := &a.Advice[0]
		out := fmt.Sprintf("What helps most of the %d changes that were measured: %s.", a.Tried, best.then())
		if a.Least > 0 {
			out += fmt.Sprintf(" A smaller change: %s.", a.Advice[a.Least].then())
		}
		return out
	}
	return sentence("Which one change helps most is " + notKnown)
}

// enoughSeats is how many seats a letter needs for reading it to be relied on: of letters three seats
// wide six in ten were read, of four nearly nine, of six all (our own study, one reader).
const enoughSeats = 4

// Narrow says whether letters of so many seats cannot be relied on.
func Narrow(seats float64) bool { return seats < enoughSeats }

// SeatsEach is the mean width of a text's letters in seats; 0 = there are none.
func SeatsEach(text *lettering.Layout) float64 {
	if text == nil || len(text.Letters) == 0 {
		return 0
	}
	sum := 0.0
	for i := range text.Letters {
		sum += text.Letters[i].Seats
	}
	return sum / float64(len(text.Letters))
}

// warnNarrow says that letters are too narrow to be relied on, whatever their score.
func (m *maker) warnNarrow(cue *Cue, text *lettering.Layout) {
	if each := math.Floor(10*SeatsEach(text)) / 10; Narrow(each) {
		m.warn("Cue %q: its letters have %.1f seats each, and with fewer than four they cannot be relied on: make two cues of it, write fewer letters, or give it more seats.", cue.Name, each)
	}
}
