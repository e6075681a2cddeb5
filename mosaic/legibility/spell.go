package legibility

import (
	"cmp"
	"math"
	"slices"
	"unicode"
)

// Blot stands for something where a letter should be that reads as no letter.
const Blot = '·'

// Spelt is what a letter of the text is taken for.
type Spelt struct {
	Glyph int  // which letter of the text
	Rune  rune // Blot where it is none
	X     float64
}

// leastContrast is how far the lightest and the darkest part of a letter's place must differ, of ink and
// ground, for anything to be seen there; leastKept is the share of its seats that
// must show anything. Both are ours, no source.
const (
	leastContrast = 0.3
	leastKept     = 0.5
)

// Spell reads the text as it looks where seats show something else than planned, nothing else
// missing or uneven: a letter at a time, from left to right. Letters of whose seats too
// few show anything drop out. from says whose card each seat shows, where the cards of
// a row were laid from the wrong end; nil: everybody shows the own one.
func (c *Chances) Spell(shows []Shows, from []int32) []Spelt {
	j := c.judge.with(make([]bool, len(shows)))
	m := &Mishap{empty: make([]bool, len(shows)), wrong: make([]bool, len(shows)), shown: make([]float32, len(shows))}
	for i, s := range shows {
		j.ink[i], m.empty[i], m.shown[i] = s == ShowsInk, s == ShowsNothing, 1
	}
	j.patch.Show(j.canvas, j.ink, nil, m)
	to := turned(from)
	var out []Spelt
	for g, box := range j.boxes {
		if box == ([4]float64{}) {
			continue
		}
		if to != nil {
			box = j.moved(box, to)
		}
		if r := j.spelt(j.text[g].Rune, box, m); r != 0 {
			out = append(out, Spelt{g, r, (box[0] + box[2]) / 2})
		}
	}
	slices.SortStableFunc(out, func(a, b Spelt) int {
		if d := j.line(a.Glyph) - j.line(b.Glyph); d != 0 {
			return d
		}
		return cmp.Compare(math.Round(a.X*16), math.Round(b.X*16))
	})
	return out
}

// line counts the lines of the text before a letter: a new one begins where the letters begin again
// at the left, or below.
func (j *judge) line(glyph int) int {
	n := 0
	for i := 1; i <= glyph; i++ {
		if a, b := &j.text[i-1].Box, &j.text[i].Box; b[0] < a[0] || b[1] > (a[1]+a[3])/2 {
			n++
		}
	}
	return n
}

// turned is the other way round of from: on which seat each seat's card lies.
func turned(from []int32) []int32 {
	if from == nil {
		return nil
	}
	to := make([]int32, len(from))
	for i, f := range from {
		to[f] = int32(i)
	}
	return to
}

// moved is where a letter's box lies once its cards lie on other seats of their rows, the other way round.
func (j *judge) moved(b [4]float64, to []int32) [4]float64 {
	n, away, middle, down := 0.0, 0.0, 0.0, 0.0
	for _, i := range j.canvas.Between(b[0], b[2]) {
		p := &j.canvas.Places[i]
		if p.Y < b[1] || p.Y > b[3] {
			continue
		}
		q := &j.canvas.Places[to[i]]
		if to[i] != i {
			away++
		}
		n, middle, down = n+1, middle+p.X+q.X, down+q.Y-p.Y
	}
	if n == 0 || 3*away < 2*n { // most of it stays
		return b
	}
	middle, down = middle/n, down/n
	return [4]float64{middle - b[2], b[1] + down, middle - b[0], b[3] + down}
}

// spelt is what is read in a box; 0 where nothing is to be seen.
func (j *judge) spelt(planned rune, b [4]float64, m *Mishap) rune {
	all, kept := 0, 0
	for _, i := range j.canvas.Between(b[0], b[2]) {
		if p := &j.canvas.Places[i]; p.Y > b[1] && p.Y < b[3] && p.Weight > 0 {
			all++
			if !m.empty[i] {
				kept++
			}
		}
	}
	low, high := float32(1), float32(0)
	for y := math.Floor(b[1]) + 0.5; y < b[3]; y++ {
		for x := math.Floor(b[0]) + 0.5; x < b[2]; x++ {
			v := j.patch.at(x, y)
			low, high = min(low, v), max(high, v)
		}
	}
	if float64(kept) < leastKept*float64(all) || high-low < leastContrast {
		return 0
	}
	l := j.patch.Compare(planned, b)
	switch {
	case math.Round(l.Chance*1e6) >= math.Round(l.Other*1e6):
		return planned
	case l.Rival == 0:
		return Blot
	}
	return j.asWritten(l.Rival)
}

// asWritten gives a sign that stands for two, O or 0 and I or 1, as the text would have it.
func (j *judge) asWritten(r rune) rune {
	letters := 0
	for _, g := range j.text {
		if unicode.IsLetter(g.Rune) {
			letters++
		}
	}
	if 2*letters >= len(j.text) {
		switch r {
		case '0':
			return 'O'
		case '1':
			return 'I'
		}
	}
	return r
}
