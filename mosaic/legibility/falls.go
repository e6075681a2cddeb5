package legibility

import (
	"math"
	"slices"
)

// Fall is how much of the score a seat alone takes away, in millionths: where it is empty,
// and where it shows the wrong side. Below 0 the text reads better so.
type Fall struct{ Empty, Wrong int32 }

// MostFalls is the most seats for which Falls is worked out: among more none counts for itself.
const MostFalls = many

// fallTries is how many mishaps each seat is tried in; one where there are more than a few thousand seats.
const (
	fallTries = 2
	fallSeats = 2000
)

// Falls tries every seat of the field, with what else is expected to be missing, wrong and
// uneven: the letters near it are read once more without its card, and with the other
// side. It is nil for more than MostFalls seats. The time it takes is linear in the seats.
func (c *Chances) Falls() []Fall {
	j := c.judge
	n := len(j.field.Seats)
	if n > MostFalls {
		return nil
	}
	tries := Strikes(j.field, j.o, fallTries)
	if n > fallSeats {
		tries = tries[:1]
	}
	lost := make([][][2]float64, len(tries)) // of the chance, by try and seat
	bases := make([]float64, len(tries))
	batch := max(64, (n+7)/8) // seats that share a picture
	batches := (n + batch - 1) / batch
	for t := range tries {
		lost[t] = make([][2]float64, n)
	}
	j.inParallel(len(tries)*batches, func(j *judge, i int) {
		t, from := i/batches, i%batches*batch
		base := j.tryWithout(tries[t], from, min(from+batch, n), lost[t])
		if from == 0 {
			bases[t] = base
		}
	})
	base := 0.0
	for _, b := range bases {
		base += b / float64(len(tries))
	}
	whole := j.settledScore(base)
	out := make([]Fall, n)
	for i := range out {
		present, sums := 0.0, [2]float64{}
		for t, m := range tries {
			if !m.empty[i] {
				present++
				sums[0], sums[1] = sums[0]+lost[t][i][0], sums[1]+lost[t][i][1]
			}
		}
		fall := func(sum float64) int32 {
			return int32(math.Round(1e6 * (whole - j.settledScore(base-sum/max(present, 1)))))
		}
		out[i] = Fall{fall(sums[0]), fall(sums[1])}
	}
	return out
}

// tryWithout changes one seat after the other in the picture of a mishap; lost is how much of the
// chance that takes. It gives the chance with none of them changed.
func (j *judge) tryWithout(m *Mishap, from, to int, lost [][2]float64) float64 {
	as := j.look(m, Coming{})
	base := chance(as)
	seen := j.glances(as)
	p := &j.patch
	for i := from; i < to; i++ {
		if m.empty[i] || j.canvas.Places[i].Weight == 0 {
			continue
		}
		k := j.canvas.kern[i]
		if m.off != nil {
			k = p.shifted(int32(i), m.off[i])
		}
		near := j.nearLetters(&k)
		if len(near) == 0 {
			continue
		}
		undo := p.keep(&k)
		inked := j.ink[i] != m.wrong[i]
		is, other := level(j.o.Tints, i, inked), level(j.o.Tints, i, !inked)
		j.canvas.addKernel(p.pix, p.W, p.X0, &k, p.taps(j.canvas, &k), float32((other-is)*m.shown[i]))
		lost[i][1] = base - chanceWith(seen, near)
		undo()
		if is != 0 {
			j.canvas.addKernel(p.pix, p.W, p.X0, &k, p.taps(j.canvas, &k), float32(-is*m.shown[i]))
		}
		j.canvas.addKernel(p.weight, j.canvas.W, 0, &k, p.taps(j.canvas, &k), -m.shown[i])
		lost[i][0] = base - chanceWith(seen, near)
		undo()
	}
	return base
}

// glance is a letter as it was read in a picture, to read it again where little of the picture changes.
type glance struct {
	judge  *judge
	line   *Line
	at     int // in the line
	chance float64
	in     [wideN]float32
	window sums // of what lies in the letter's own window
}

func (j *judge) glances(as []Likeness) []glance {
	out := make([]glance, 0, len(as))
	for k := range j.lines {
		for i := range j.lines[k].Runes {
			g := glance{judge: j, line: &j.lines[k], at: i, chance: as[len(out)].Chance}
			if g.learned() {
				g.in = j.patch.wide(g.line, i)
				lineReader()[0].add(&g.window, g.in[:], 0, gridN)
			}
			out = append(out, g)
		}
	}
	return out
}

// learned says whether the line reader reads the letter.
func (g *glance) learned() bool {
	return labelOf(g.line.Runes[g.at]) >= 0 && g.line.Boxes[g.at] != [4]float64{}
}

// again is the chance alone of the letter read anew, in what the picture is now and with what was to come before.
func (g *glance) again() float64 {
	if !g.learned() {
		return g.judge.patch.CompareIn(g.line, g.at).Chance
	}
	in := g.judge.patch.wide(g.line, g.at)
	if in == g.in {
		return g.chance
	}
	s, from := g.window, gridN
	if [gridN]float32(in[:]) != [gridN]float32(g.in[:]) {
		s, from = sums{}, 0
	}
	lineReader()[0].add(&s, in[:], from, wideN)
	return likenessOf(lineReader(), &s, labelOf(g.line.Runes[g.at])).Chance
}

// chanceWith is the chance with some letters read anew.
func chanceWith(all []glance, anew []int) float64 {
	p := 1.0
	for i := range all {
		if slices.Contains(anew, i) {
			p *= all[i].again()
		} else {
			p *= all[i].chance
		}
	}
	return p
}

// nearLetters are the letters in whose window or beside which a card's kernel touches what is looked at.
func (j *judge) nearLetters(k *kernel) []int {
	var out []int
	for i, b := range j.boxes {
		if b == ([4]float64{}) {
			continue
		}
		high := max(b[3]-b[1], 1)
		aside, over := float64((1+marginX)*high), float64(marginY*high)
		x0, x1 := b[0]-aside-1, b[2]+aside+1
		y0, y1 := b[1]-over-1, b[3]+over+1
		if float64(k.x) < x1 && float64(k.x+k.nx) > x0 && float64(k.y) < y1 && float64(k.y+k.ny) > y0 {
			out = append(out, i)
		}
	}
	return out
}
