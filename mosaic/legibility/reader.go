package legibility

import (
	_ "embed"
	"math"
	"strings"
	"sync"
)

// The learned reader foretells what a general OCR program makes of a letter in seats.
// It has one hidden layer; testdata/reader/learn.py makes reader.f32 and says from what.
const (
	readerLabels = "ABCDEFGHJKLMNPQRSTUVWXYZ0234567891" // O counts as 0 and I as 1
	labelN       = len(readerLabels) + 1                // and: no letter was read in its place
	hiddenN      = 64
)

//go:embed reader.f32
var readerFile []byte

// smallReader is the reader's layers, the hidden one and the labels.
var smallReader = sync.OnceValue(func() [2]*layer {
	hidden, rest := readLayer(readerFile, inputN, hiddenN)
	labels, _ := readLayer(rest, hiddenN, labelN)
	return [2]*layer{hidden, labels}
})

// foretell gives the chance that a letter is read right, the most likely other reading
// (0: none) and its chance; ok is false for signs that the reader does not know.
func foretell(in *[inputN]float32, r rune) (right, other float64, rival rune, ok bool) {
	want := strings.IndexRune(readerLabels, readAs(r))
	if want < 0 {
		return 0, 0, 0, false
	}
	n := smallReader()
	var hidden [hiddenN]float32
	n[0].times(in[:], hidden[:])
	clip(hidden[:])
	var labels [labelN]float32
	n[1].times(hidden[:], labels[:])
	var z [labelN]float64
	total := powers(labels[:], z[:])
	for l, v := range z {
		if l != want && v/total > other {
			other = v / total
			rival = 0
			if l < len(readerLabels) {
				rival = rune(readerLabels[l])
			}
		}
	}
	return z[want] / total, other, rival, true
}

// readAs is the label of a letter.
func readAs(r rune) rune {
	switch r {
	case 'O':
		return '0'
	case 'I':
		return '1'
	}
	return r
}

// powers gives e to every value less the largest one, and their sum.
func powers(v []float32, out []float64) (total float64) {
	most := math.Inf(-1)
	for _, x := range v {
		most = max(most, float64(x))
	}
	for i, x := range v {
		out[i] = math.Exp(float64(x) - most)
		total += out[i]
	}
	return total
}
