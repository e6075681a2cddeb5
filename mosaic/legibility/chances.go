package legibility

import (
	"math"
	"slices"

	"everyseat/seating/together"
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
	together.Until(n, func() *judge { return j.with(j.ink) }, func(own *judge, i int) bool {
		work(own, i)
		return false
	})
}

// withoutTries is how often chance is tried for what stays wrong and uneven.
const withoutTries = 4

// Without is how the text reads with exactly these seats of the field empty, by plan and not by chance;
// as many cards are wrong and hands as uneven as o expects.
func (c *Chances) Without(empty []bool) (score float64, v Verdict) {
	by := make([]float64, withoutTries)
	c.judge.inParallel(len(by), func(j *judge, k int) {
		m := strike(j.field, j.rng(uint64(300+k)), 0, j.o.Wrong, false, &j.o)
		copy(m.empty, empty)
		by[k] = chance(j.look(m, Coming{}))
	})
	sum := 0.0
	for _, v := range by {
		sum += v
	}
	score = c.judge.settledScore(sum / withoutTries)
	return score, VerdictOf(score)
}

// Boxes are the letters' boxes in the film: left, top, right, bottom, in its pixels; empty
// where too few of a letter's seats are seen.
func (c *Chances) Boxes() [][4]float64 {
	j := c.judge
	out := make([][4]float64, len(j.boxes))
	for i, b := range j.boxes {
		if b != ([4]float64{}) {
			out[i] = j.canvas.Warp.Box(b)
		}
	}
	return out
}

// Stroke is how wide an upright stroke of the letters is, in pixels of the film: the middle one of
// the runs of ink along the rows, times the width of a seat. 0 where there is none.
func (c *Chances) Stroke() float64 {
	j := c.judge
	var runs, wide []float64
	run := 0
	for i := range j.field.Seats {
		s := &j.field.Seats[i]
		if s.Pixels > 0 {
			wide = append(wide, s.Cell[1][0]-s.Cell[0][0])
		}
		if j.ink[i] {
			run++
		}
		last := i+1 == len(j.field.Seats) || j.field.Seats[i+1].Row != s.Row || j.field.Seats[i+1].Section != s.Section
		if run > 0 && (last || !j.ink[i+1]) {
			runs, run = append(runs, float64(run)), 0
		}
	}
	if len(runs) == 0 {
		return 0
	}
	return median(runs) * median(wide)
}

// PhoneWidth is how many pixels wide a film is shown on a phone that is held upright, or
// sent small (ours, no source).
const PhoneWidth = 640

// Shrunk is how a text reads once the film is shrunk.
type Shrunk struct {
	Score   float64
	Verdict Verdict
	Pixels  float64 // of the shrunk film, that the smallest letter is high or wide
}

// Shrunk reads the text in the film shrunk to so many pixels across, with what is expected
// to be missing, wrong and uneven. Every pixel of the shrunk film is the mean over its area of
// what was recorded: letters have fewer pixels, and run together by as much. A film that is
// not wider stays as it is.
func (c *Chances) Shrunk(width float64) Shrunk {
	j := c.judge.with(c.judge.ink)
	if share := width / j.field.Width; share < 1 {
		j.pixels *= share
		j.canvas = j.canvas.softened(pixelBlur(1/share) * j.scale())
	}
	score := j.expected().Score
	return Shrunk{score, VerdictOf(score), j.pixels}
}

// pixelBlur is the standard deviation, in pixels of the film, that a film adds which is shrunk so
// many times and enlarged again to be looked at. The mean over a pixel of width w has the variance
// w²/12 (a uniform distribution), going straight between pixels w²/6 (a triangle of two widths);
// what the film's own pixels do is there already.
func pixelBlur(times float64) float64 { return math.Sqrt((float64(times*times) - 1) / 4) }

// scale is how many canvas pixels a pixel of the film takes, in the middle of the letters.
func (j *judge) scale() float64 {
	sum, n := 0.0, 0.0
	for _, b := range j.boxes {
		if b != ([4]float64{}) {
			u, _ := j.canvas.Warp.Unmap((b[0]+b[2])/2, (b[1]+b[3])/2)
			sum, n = sum+j.canvas.Warp.ScaleAt(u), n+1
		}
	}
	if n == 0 {
		return j.canvas.Warp.Scale
	}
	return sum / n
}

// Laid is a text as it was laid in one picture, to be read from many other places. It
// may be used by several goroutines at once.
type Laid struct {
	home *Canvas
	ink  []bool
	text []Glyph
	o    Options
}

// NewLaid keeps a text whose letters' boxes lie in the picture of home; ink is by Field seat.
func NewLaid(home *Field, ink []bool, text []Glyph, o Options) *Laid {
	return &Laid{home: Levelled(home), ink: ink, text: text, o: o}
}

// Expect is what Expect of the package gives for the views home and from, and the mark from.
func (l *Laid) Expect(from *Field) float64 {
	if len(l.text) == 0 {
		return 0
	}
	return judgeFrom(from, l.home, l.ink, l.text, l.o).expected().Score
}
