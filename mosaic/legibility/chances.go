package legibility

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// Chances answers what may become of a laid text beyond its verdict: on a phone, on a bad
// day, without a single seat, or with sections that show something else. The same input
// gives the same answers, on any number of processors.
type Chances struct{ judge *judge }

// NewChances takes what Judge takes; text has at least one letter.
func NewChances(views []*Field, mark int, ink []bool, text []Glyph, o Options) *Chances {
	return &Chances{newJudge(views, mark, ink, text, o)}
}

// Pixels is how many pixels of the film the smallest letter has, across or up.
func (c *Chances) Pixels() float64 { return c.judge.pixels }

// FewestPixels is how many a letter must have, see Judge.
func FewestPixels() float64 { return fewestPixels }

// with is the judge with a picture of its own, to be used beside others.
func (j *judge) with(ink []bool) *judge {
	k := *j
	k.ink, k.patch, k.lines = ink, Patch{}, slices.Clone(j.lines)
	return &k
}

// settledScore is the score of a mean chance as it is told: rounded, so that decisions are
// alike everywhere, and 0 where a letter has too few pixels.
func (j *judge) settledScore(chance float64) float64 {
	if j.pixels < fewestPixels {
		return 0
	}
	return math.Round(j.score(chance)*1e6) / 1e6
}

// inParallel does n pieces of work, each on a judge of its worker's own.
func (j *judge) inParallel(n int, work func(j *judge, i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			own := j.with(j.ink)
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				work(own, i)
			}
		})
	}
	wait.Wait()
}
