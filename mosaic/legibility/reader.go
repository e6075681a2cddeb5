package legibility

import (
	_ "embed"
	"encoding/binary"
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

type readerNet struct {
	in  [hiddenN][inputN]float32
	inB [hiddenN]float32
	out [labelN][hiddenN]float32
	oB  [labelN]float32
}

var net = sync.OnceValue(func() *readerNet {
	n := &readerNet{}
	at := 0
	next := func() float32 {
		v := math.Float32frombits(binary.LittleEndian.Uint32(readerFile[at:]))
		at += 4
		return v
	}
	for i := range inputN {
		for h := range hiddenN {
			n.in[h][i] = next()
		}
	}
	for h := range hiddenN {
		n.inB[h] = next()
	}
	for h := range hiddenN {
		for l := range labelN {
			n.out[l][h] = next()
		}
	}
	for l := range labelN {
		n.oB[l] = next()
	}
	return n
})

// foretell gives the chance that a letter is read right, the most likely other reading
// (0: none) and its chance; ok is false for signs that the reader does not know.
func foretell(in *[inputN]float32, r rune) (right, other float64, rival rune, ok bool) {
	want := strings.IndexRune(readerLabels, readAs(r))
	if want < 0 {
		return 0, 0, 0, false
	}
	n := net()
	var hidden [hiddenN]float32
	for h := range hiddenN {
		hidden[h] = max(n.inB[h]+sumProduct(n.in[h][:], in[:]), 0)
	}
	var z [labelN]float64
	most := math.Inf(-1)
	for l := range labelN {
		z[l] = float64(n.oB[l] + sumProduct(n.out[l][:], hidden[:]))
		most = max(most, z[l])
	}
	total := 0.0
	for l := range z {
		z[l] = math.Exp(z[l] - most)
		total += z[l]
	}
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

// sumProduct rounds every product, so that no processor fuses it with the sum: the same
// bits everywhere.
func sumProduct(a, b []float32) float32 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float32
	i := 0
	for ; i+4 <= len(a); i += 4 {
		s0 += float32(a[i] * b[i])
		s1 += float32(a[i+1] * b[i+1])
		s2 += float32(a[i+2] * b[i+2])
		s3 += float32(a[i+3] * b[i+3])
	}
	for ; i < len(a); i++ {
		s0 += float32(a[i] * b[i])
	}
	return s0 + s1 + s2 + s3
}
