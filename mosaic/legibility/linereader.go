package legibility

import (
	_ "embed"
	"encoding/binary"
	"math"
	"strings"
	"sync"
)

// The line reader foretells what a general OCR program makes of a letter among its
// neighbours. It has two hidden layers; testdata/reader/learn.py makes line.f32 and says from
// what. The small reader of reader.go is for the many first looks of a search, this one for
// the few that decide.
const (
	firstN   = 192
	secondN  = 64
	lineOutN = len(readerLabels) + 2 // and: nothing was read in its place, or more than one letter
)

//go:embed line.f32
var lineFile []byte

type lineNet struct {
	first   [firstN][wideN]float32
	firstB  [firstN]float32
	second  [secondN][firstN]float32
	secondB [secondN]float32
	out     [lineOutN][secondN]float32
	outB    [lineOutN]float32
}

var liner = sync.OnceValue(func() *lineNet {
	n := &lineNet{}
	at := 0
	next := func() float32 {
		v := math.Float32frombits(binary.LittleEndian.Uint32(lineFile[at:]))
		at += 4
		return v
	}
	for i := range wideN {
		for h := range firstN {
			n.first[h][i] = next()
		}
	}
	for h := range n.firstB {
		n.firstB[h] = next()
	}
	for i := range firstN {
		for h := range secondN {
			n.second[h][i] = next()
		}
	}
	for h := range n.secondB {
		n.secondB[h] = next()
	}
	for h := range secondN {
		for l := range lineOutN {
			n.out[l][h] = next()
		}
	}
	for l := range n.outB {
		n.outB[l] = next()
	}
	return n
})

// read gives the chance of every label.
func (n *lineNet) read(in *[wideN]float32) (p [lineOutN]float64) {
	var a [firstN]float32
	for h := range a {
		a[h] = max(n.firstB[h]+sumProduct(n.first[h][:], in[:]), 0)
	}
	var b [secondN]float32
	for h := range b {
		b[h] = max(n.secondB[h]+sumProduct(n.second[h][:], a[:]), 0)
	}
	most := math.Inf(-1)
	for l := range p {
		p[l] = float64(n.outB[l] + sumProduct(n.out[l][:], b[:]))
		most = max(most, p[l])
	}
	total := 0.0
	for l := range p {
		p[l] = math.Exp(p[l] - most)
		total += p[l]
	}
	for l := range p {
		p[l] /= total
	}
	return p
}

// CompareIn is Compare for letter i of a line, read among its neighbours: what counts in
// the end.
func (p *Patch) CompareIn(l *Line, i int) Likeness {
	r, b := l.Runes[i], l.Boxes[i]
	if b == ([4]float64{}) {
		return Likeness{Other: 1}
	}
	want := strings.IndexRune(readerLabels, readAs(r))
	if want < 0 {
		return p.Compare(r, b[0], b[1], b[2], b[3])
	}
	in := p.wide(l, i)
	chances := liner().read(&in)
	out := Likeness{Chance: chances[want], Shape: p.likeness(r, b, (*[gridN]float32)(in[:gridN]))}
	for k, v := range chances {
		if k != want && v > out.Other {
			out.Other, out.Rival = v, 0
			if k < len(readerLabels) {
				out.Rival = rune(readerLabels[k])
			}
		}
	}
	return out
}

// chanceIn is CompareIn's chance alone.
func (p *Patch) chanceIn(l *Line, i int) float64 {
	want := strings.IndexRune(readerLabels, readAs(l.Runes[i]))
	if want < 0 || l.Boxes[i] == ([4]float64{}) {
		return p.CompareIn(l, i).Chance
	}
	in := p.wide(l, i)
	chances := liner().read(&in)
	return chances[want]
}

// likeness is the correlation with the letter as printed.
func (p *Patch) likeness(r rune, b [4]float64, win *[gridN]float32) float64 {
	high := max(b[3]-b[1], 1)
	sh := sheetFor(r, (b[2]-b[0])/high, p.c.Blur/high, false)
	best := -1.0
	if len(sh.likes) > 0 {
		for k := range sh.likes[0] {
			best = max(best, float64(dot(win, &sh.likes[0][k]))/math.Sqrt(gridN))
		}
	}
	return best
}
