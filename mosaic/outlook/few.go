package outlook

import (
	"context"
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/advice"
	"everyseat/mosaic/legibility"
)

// Few is how a plan fares with just the people who come.
type Few struct {
	mosaic.Turnout
	Cues []Trimmed // by cue; the verdict of a picture is ""
	// Moves help where a text does not surely read, by so much that Moved is worth it; none = they do not.
	Moves []mosaic.Move
	Moved []Trimmed // by cue
	// Enough is how many people with a card every text needs to read, on the seats that matter most; 0 = where no text
	// fares worse, or not even all are enough.
	Enough int
	// Advice is where a text fares worse than with everybody there, on all that do not surely read: each change is
	// measured with as many people on the seats that matter most then.
	Advice []advice.Advised
}

// FewOf asks who comes to a plan and what to do with them; nil where no seat stays free. It ends early, with what it
// has, when ctx does.
func FewOf(ctx context.Context, p *mosaic.Plan) *Few {
	f := &Few{Turnout: p.Turnout()}
	if len(f.Free) == 0 {
		return nil
	}
	f.Cues = readWithout(p, f.Free)
	worse := false
	for i := range f.Cues {
		if c := &f.Cues[i]; c.Verdict != "" && c.Verdict != legibility.Reads {
			worse = worse || advice.Helps(c.Score, p.Cues[i].Reading.Score)
		}
	}
	if !worse || f.People == 0 {
		return f
	}
	if moves, free := p.Moves(); len(moves) > 0 {
		moved := readWithout(p, free)
		for i := range moved {
			if advice.Helps(f.Cues[i].Score, moved[i].Score) {
				f.Moves, f.Moved = moves, moved
			}
		}
	}
	f.Enough = enough(ctx, p)
	f.Advice = advice.MeasureFew(ctx, p)
	return f
}

// enough halves the number of seats that may stay free until the least is found with which every text reads. Places
// that are kept count as far as they are known to be taken.
func enough(ctx context.Context, p *mosaic.Plan) int {
	open, kept := p.LeastFirst()
	reads := func(people int) bool {
		empty := slices.Concat(kept, open[:len(open)-people])
		slices.Sort(empty)
		return !slices.ContainsFunc(readWithout(p, empty), func(t Trimmed) bool {
			return t.Verdict != "" && t.Verdict != legibility.Reads
		})
	}
	if !reads(len(open)) {
		return 0
	}
	low, high := 0, len(open) // too few, enough
	for high-low > 1 && ctx.Err() == nil {
		if middle := (low + high) / 2; reads(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

// readWithout is how each text reads with just these seats empty.
func readWithout(p *mosaic.Plan, empty []int32) []Trimmed {
	out := make([]Trimmed, len(p.Cues))
	for i := range p.Cues {
		if p.Cues[i].Text != nil {
			out[i].Score, out[i].Verdict = p.ReadsWithout(i, empty)
		}
	}
	return out
}
