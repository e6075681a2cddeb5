package legibility

import (
	_ "embed"
	"encoding/binary"
	"math"
	"slices"
	"strings"
	"sync"
)

// Two learned readers foretell what a general OCR program makes of a letter in seats: the small one of a
// letter by itself, for the many first looks of a search, and the line reader of a letter among its
// neighbours, for the few that decide. testdata/reader/learn.py makes their files and says from what.
const (
	readerLabels = "ABCDEFGHJKLMNPQRSTUVWXYZ0234567891" // O counts as 0 and I as 1
	labelN       = len(readerLabels) + 1                // and: no letter was read in its place
	lineLabelN   = labelN + 1                           // and: more than one was
	hiddenN      = 64                                   // of the small reader's one hidden layer
	firstN       = 192                                  // of the line reader's two
	secondN      = 64
)

var (
	//go:embed reader.f32
	readerFile []byte
	//go:embed line.f32
	lineFile []byte

	smallReader = reader(readerFile, inputN, hiddenN, labelN)
	lineReader  = reader(lineFile, wideN, firstN, secondN, lineLabelN)
)

// reader reads a file's layers when they are first asked for; sizes are of what goes into each, and of the
// last one's outs.
func reader(file []byte, sizes ...int) func() []*layer {
	return sync.OnceValue(func() []*layer {
		layers := make([]*layer, len(sizes)-1)
		for i := range layers {
			layers[i], file = readLayer(file, sizes[i], sizes[i+1])
		}
		return layers
	})
}

// labelOf is the label of a letter, or −1.
func labelOf(r rune) int { return strings.IndexRune(readerLabels, readAs(r)) }

// readAs is the sign that counts as the same to a reader.
func readAs(r rune) rune {
	switch r {
	case 'O':
		return '0'
	case 'I':
		return '1'
	}
	return r
}

// foretell is how a reader takes what it looks at for a letter; known is false for signs that readers do not know.
func foretell(layers []*layer, in []float32, r rune) (l Likeness, known bool) {
	want := labelOf(r)
	if want < 0 {
		return l, false
	}
	for i, layer := range layers {
		out := make([]float32, layer.outs)
		layer.times(in, out)
		for k := range out {
			if i+1 < len(layers) {
				out[k] = max(out[k], 0)
			}
		}
		in = out
	}
	p := make([]float64, len(in)) // e to every value less the largest one
	most := float64(slices.Max(in))
	total := 0.0
	for k, v := range in {
		p[k] = math.Exp(float64(v) - most)
		total += p[k]
	}
	for k, v := range p {
		if v /= total; k == want {
			l.Chance = v
		} else if v > l.Other {
			l.Other, l.Rival = v, 0
			if k < len(readerLabels) {
				l.Rival = rune(readerLabels[k])
			}
		}
	}
	return l, true
}

// layer is one layer of a learned reader: every one of its outs is a bias and the sum of all
// ins, each with its weight. Ins are added up in four sums, of every fourth in each, and the
// first one also of what is left over after the last four.
type layer struct {
	ins, outs int
	order     []int        // the ins as they are added up, sum after sum
	ends      [4]int       // of each sum in order
	weights   [][4]float32 // of every four outs in turn, the ins in order
	bias      []float32
}

// readLayer takes a layer off a file: weights in after in, then biases, little-endian.
func readLayer(file []byte, ins, outs int) (*layer, []byte) {
	l := &layer{ins: ins, outs: outs, weights: make([][4]float32, ins*((outs+3)/4)), bias: make([]float32, outs)}
	for k := range l.ends {
		for i := k; i < ins&^3; i += 4 {
			l.order = append(l.order, i)
		}
		for i := ins &^ 3; k == 0 && i < ins; i++ {
			l.order = append(l.order, i)
		}
		l.ends[k] = len(l.order)
	}
	number := func(i int) float32 { return math.Float32frombits(binary.LittleEndian.Uint32(file[4*i:])) }
	for o := range outs {
		for k, i := range l.order {
			l.weights[o/4*ins+k][o%4] = number(i*outs + o)
		}
		l.bias[o] = number(ins*outs + o)
	}
	return l, file[4*(ins+1)*outs:]
}

// times gives the layer's outs for its ins, which are as long as the layer says and at most wideN.
// Every product is rounded, so that no processor fuses it with the sum, and all are added up in one
// order, the four sums from the first to the last: same bits everywhere.
func (l *layer) times(in, out []float32) {
	var room [wideN]float32
	ordered := room[:l.ins]
	for k, i := range l.order {
		ordered[k] = in[i]
	}
	for o := 0; o < l.outs; o += 4 {
		weights := l.weights[o/4*l.ins:]
		var sums [4][4]float32
		from := 0
		for k, to := range l.ends {
			sums[k] = fourOuts(weights[from:to], ordered[from:to])
			from = to
		}
		for r := range min(4, l.outs-o) {
			out[o+r] = l.bias[o+r] + (sums[0][r] + sums[1][r] + sums[2][r] + sums[3][r])
		}
	}
}

// fourOuts are one sum of four outs. Four at once keep a processor busy while it adds.
func fourOuts(weights [][4]float32, in []float32) [4]float32 {
	in = in[:len(weights)]
	var a, b, c, d float32
	for i := range weights {
		w, x := &weights[i], in[i]
		a += float32(w[0] * x)
		b += float32(w[1] * x)
		c += float32(w[2] * x)
		d += float32(w[3] * x)
	}
	return [4]float32{a, b, c, d}
}
