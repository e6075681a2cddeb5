package legibility

import (
	_ "embed"
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

// liner is the line reader's layers, two hidden ones and the labels.
var liner = sync.OnceValue(func() [3]*layer {
	first, rest := readLayer(lineFile, wideN, firstN)
	second, rest := readLayer(rest, firstN, secondN)
	labels, _ := readLayer(rest, secondN, lineOutN)
	return [3]*layer{first, second, labels}
})

// readLine gives the chance of every label.
func readLine(in *[wideN]float32) (p [lineOutN]float64) {
	n := liner()
	var a [firstN]float32
	n[0].times(in[:], a[:])
	clip(a[:])
	var b [secondN]float32
	n[1].times(a[:], b[:])
	clip(b[:])
	var labels [lineOutN]float32
	n[2].times(b[:], labels[:])
	total := powers(labels[:], p[:])
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
	chances := readLine(&in)
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
	chances := readLine(&in)
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
