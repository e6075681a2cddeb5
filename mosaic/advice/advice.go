// Package advice finds what would make a text read that does not surely read: it makes changed
// plans, one change each, and keeps those that help. Start with Measure.
package advice

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/mosaic/marks"
	"everyseat/seating"
	"everyseat/seating/together"
)

// How many changed plans are made, counted and never timed, so that every machine gives the same
// advice: as many as keep about 450 seats within a second on two processors, fewer
// the more seats and marks each has to look at.
const (
	mostPlans  = 28
	leastPlans = 2
	seatsInAll = 60_000 // seats × marks of all plans together
	mostCues   = 6      // that are advised on, the worst first
)

// helps is by how much a score must rise to be worth a change, where the verdict stays. Smaller
// differences are the score's own noise.
const helps = 0.05

// alike is the step in which scores are compared: of what helps alike the lesser change comes first.
const alike = 0.02

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

// Measure finds what would help each text of the plan that does not surely read, the worst ones
// first as far as the work goes. It ends early, with what it has, when ctx does.
func Measure(ctx context.Context, plan *mosaic.Plan) []Advised {
	return measure(ctx, plan, false, readingScore)
}

func readingScore(p *mosaic.Plan, cue int) float64 { return p.Cues[cue].Reading.Score }

// MeasureFew is Measure for just the people who come: each changed plan leaves those of its own seats free that matter
// least to it.
func MeasureFew(ctx context.Context, plan *mosaic.Plan) []Advised {
	return measure(ctx, plan, true, func(p *mosaic.Plan, cue int) float64 {
		score, _ := p.ReadsWithout(cue, p.Turnout().Free)
		return score
	})
}

// measure advises by a score of a plan's cue that has a text.
func measure(ctx context.Context, plan *mosaic.Plan, few bool, score func(*mosaic.Plan, int) float64) []Advised {
	var weak []int
	scores := make([]float64, len(plan.Cues))
	for i := range plan.Cues {
		if plan.Cues[i].Text == nil {
			continue
		}
		if scores[i] = score(plan, i); legibility.VerdictOf(scores[i]) != legibility.Reads {
			weak = append(weak, i)
		}
	}
	slices.SortStableFunc(weak, func(a, b int) int {
		return cmp.Compare(hundredths(scores[a]), hundredths(scores[b]))
	})
	weak = weak[:min(len(weak), mostCues)]
	out := make([]Advised, 0, len(weak))
	for _, i := range weak {
		s := newStudy(ctx, plan.Given, plan.Stands, i)
		s.before, s.score, s.few = scores[i], score, few
		s.lens, s.takes = marks.Longest(plan)
		s.lookAtRows(plan, i)
		s.plan = plan
		s.seatsEach = mosaic.SeatsEach(plan.Cues[i].Text)
		s.run(plans(plan.Stands, len(plan.Marks)) / len(weak))
		a := Advised{Cue: i, Before: s.before, Tried: len(s.tried)}
		helpful := s.helpful()
		a.Least = least(helpful)
		for _, v := range helpful {
			a.Advice = append(a.Advice, Advice{v.change, v.do, v.after, legibility.VerdictOf(v.after)})
		}
		out = append(out, a)
	}
	slices.SortFunc(out, func(a, b Advised) int { return cmp.Compare(a.Cue, b.Cue) })
	return out
}

// plans is how many changed plans may be made of these stands.
func plans(stands *seating.Stands, marks int) int {
	return max(leastPlans, min(mostPlans, seatsInAll/max(1, len(stands.Seats)*marks)))
}

// Mend looks at an error of mosaic.Make: where a text does not fit the stands, it measures what
// would fit, and gives the error a hint that names the nearest. Other errors are given
// back as they are.
func Mend(ctx context.Context, stunt *mosaic.Stunt, err error) error {
	f, isFault := errors.AsType[*seating.Fault](err)
	misfit, fitsNot := errors.AsType[*lettering.Misfit](err)
	if !isFault || !fitsNot || !misfit.Small {
		return err
	}
	cue := -1
	if _, scanErr := fmt.Sscanf(f.Key, "cue[%d].text", &cue); scanErr != nil || cue < 0 || cue >= len(stunt.Cues) {
		return err
	}
	stands, buildErr := seating.Build(stunt.Stands)
	if buildErr != nil {
		return err
	}
	s := newStudy(ctx, stunt, stands, cue)
	s.run(plans(stands, 1+len(stunt.Marks)))
	mended := *f
	mended.Hint = s.nearest(f.Hint)
	return &mended
}

// nearestNamed is how many ways out an error names.
const nearestNamed = 3

// nearest names what works with the least change, one of each kind.
func (s *study) nearest(otherwise string) string {
	fits := s.helpful()
	for _, verdict := range []legibility.Verdict{legibility.Reads, legibility.Marginal} {
		var words []string
		slices.SortStableFunc(fits, func(a, b *variant) int { return cmp.Compare(a.rank, b.rank) })
		for _, v := range fits {
			if legibility.VerdictOf(v.after) == verdict && len(words) < nearestNamed {
				words = append(words, fmt.Sprintf("%s: %s, %.0f of 100", v.do, verdict, 100*v.after))
			}
		}
		if len(words) > 0 {
			return strings.Join(words, "; or ")
		}
	}
	return fmt.Sprintf("%s; of %d changes that were measured none makes it read", otherwise, len(s.tried))
}

func hundredths(score float64) int { return int(math.Round(100 * score)) }

// study is what advice on one cue shares.
type study struct {
	ctx       context.Context
	stunt     *mosaic.Stunt // with that cue alone where the others cannot matter
	filled    *mosaic.Stunt // the same with the defaults
	stands    *seating.Stands
	cue       int
	score     func(plan *mosaic.Plan, cue int) float64
	few       bool         // people come, so that more seats are no help
	plan      *mosaic.Plan // that is to be mended; nil where none was made
	before    float64
	seatsEach float64
	lens      int           // the longest that takes in all cards, millimetres on full frame; 0 = not known
	takes     bool          // so does the lens as it is
	seen      []seenSection // that may carry the text; none = not known, since no plan was made
	tried     []*variant
}

// newStudy leaves the other cues out, unless they share cards that are short.
func newStudy(ctx context.Context, stunt *mosaic.Stunt, stands *seating.Stands, cue int) *study {
	own := *stunt
	if !own.Limited() {
		own.Cues = []mosaic.Cue{stunt.Cues[cue]}
		own.Cues[0].At = ""
		cue = 0
	}
	return &study{ctx: ctx, stunt: &own, filled: mosaic.Filled(&own), stands: stands, cue: cue, score: readingScore}
}

// variant is one change.
type variant struct {
	change string
	do     string
	rank   int // how large a change it is, by kind
	// leastFirst: its kind is listed from the least change to the largest.
	leastFirst bool
	content    bool // it changes what is written
	apply      func(*mosaic.Stunt)
	cues       int     // how many cues the text becomes; 0 = 1
	alone      float64 // of a pair: the score of the better one alone

	after float64
	made  bool
}

// run measures changes in three rounds: single ones, then, where none makes it read, pairs of the best, then
// the single ones for which plans were kept that no pair took.
func (s *study) run(most int) {
	all := s.singles()
	kept := min(most/4, mostPairs-1) // for pairs: single changes alone would use up all
	single := all[:min(len(all), most-kept)]
	s.measure(single)
	s.tried = slices.Clone(single)
	best := s.helpful()
	if len(best) > 0 && legibility.VerdictOf(best[0].after) == legibility.Reads {
		return
	}
	pairs := s.pairs(best)
	pairs = pairs[:min(len(pairs), max(0, most-len(s.tried)), mostPairs)]
	s.measure(pairs)
	rest := all[len(single):min(len(all), max(len(single), most-len(pairs)))]
	s.measure(rest)
	s.tried = append(append(s.tried, rest...), pairs...)
}

// measure makes the plans on all processors, each into its own variant; the worst of the text's cues counts.
func (s *study) measure(all []*variant) {
	together.Each(len(all), func(i int) {
		if s.ctx.Err() != nil {
			return
		}
		v, changed := all[i], copied(s.stunt)
		v.apply(changed)
		plan, err := mosaic.MakeContext(s.ctx, changed)
		if err != nil {
			return
		}
		v.made, v.after = true, 1
		for i := s.cue; i < s.cue+max(1, v.cues); i++ {
			v.after = min(v.after, s.score(plan, i))
		}
	})
}

// copied is a stunt whose colours, cues, sections and marks may be changed.
func copied(s *mosaic.Stunt) *mosaic.Stunt {
	c := *s
	c.Colours = slices.Clone(s.Colours)
	c.Cues = slices.Clone(s.Cues)
	c.Marks = slices.Clone(s.Marks)
	c.Stands.Sections = slices.Clone(s.Stands.Sections)
	return &c
}

// helpful are the changes that help, best first; of each kind the best one alone.
func (s *study) helpful() []*variant {
	var out []*variant
	for _, v := range s.tried {
		before := max(s.before, v.alone)
		if v.made && Helps(before, v.after) {
			out = append(out, v)
		}
	}
	return bestFirst(out)
}

// Helps says whether a score is so much better than another, or its verdict, that a change is worth it.
func Helps(before, after float64) bool {
	return hundredths(after-before) >= hundredths(helps) || worth(after) > worth(before)
}

// least is which of them is the smallest change with the verdict of the best.
func least(best []*variant) int {
	at := 0
	for i, v := range best {
		if worth(v.after) == worth(best[0].after) && v.rank < best[at].rank {
			at = i
		}
	}
	return at
}

// bestFirst keeps the best of each kind and sorts the kinds: the verdict, the score, the lesser change.
func bestFirst(all []*variant) []*variant {
	var kinds []*variant
	for _, v := range all {
		k := slices.IndexFunc(kinds, func(k *variant) bool { return k.change == v.change })
		switch {
		case k < 0:
			kinds = append(kinds, v)
		case v.beats(kinds[k]):
			kinds[k] = v
		}
	}
	slices.SortStableFunc(kinds, func(a, b *variant) int {
		return cmp.Or(cmp.Compare(worth(b.after), worth(a.after)), cmp.Compare(steps(b.after), steps(a.after)),
			cmp.Compare(a.rank, b.rank))
	})
	return kinds
}

// beats says whether v is to be told rather than one of its kind that was listed before it. Where
// more of a change makes the better score, the least that reads is enough.
func (v *variant) beats(before *variant) bool {
	if a, b := worth(v.after), worth(before.after); a != b {
		return a > b
	}
	if v.leastFirst && legibility.VerdictOf(v.after) == legibility.Reads {
		return false
	}
	return steps(v.after) > steps(before.after)
}

func steps(score float64) int { return int(math.Round(score / alike)) }

// worth orders the verdicts.
func worth(score float64) int {
	return 1 + slices.Index([]legibility.Verdict{legibility.Marginal, legibility.Reads}, legibility.VerdictOf(score))
}

// mostPairs is how many pairs of changes are tried where no single one is enough.
const mostPairs = 4

// pairs are the best single changes, two at a time, that may be made together: both of what is written, or both of
// where the camera stands, do not help more than one.
func (s *study) pairs(best []*variant) []*variant {
	var out []*variant
	for sum := 1; sum < 2*len(best); sum++ { // the best with the second, then with the third …
		for i := max(0, sum+1-len(best)); 2*i < sum; i++ {
			a, b := best[i], best[sum-i]
			if a.change != b.change && !(a.content && b.content) && !(a.rank == rankPlace && b.rank == rankPlace) {
				out = append(out, paired(a, b))
			}
		}
	}
	return out
}

// paired is both changes.
func paired(a, b *variant) *variant {
	if a.content { // what is written changes last: it copies the cue
		a, b = b, a
	}
	return &variant{
		change: a.change + " and " + b.change, do: a.do + ", and " + b.do, rank: rankSeats + a.rank + b.rank,
		cues: max(a.cues, b.cues), alone: max(a.after, b.after),
		apply: func(stunt *mosaic.Stunt) {
			a.apply(stunt)
			b.apply(stunt)
		},
	}
}
