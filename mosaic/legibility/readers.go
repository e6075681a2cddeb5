package legibility

import (
	_ "embed"
	"encoding/binary"
	"math"
	"slices"
	"strings"
	"sync"
)

// Two learned readers foretell what a reader of text in photographs makes of a letter in seats, half blinded by the crowd
// between the cards: the small one of a letter by itself, for the many first looks of a search, and the line reader of a
// letter among its neighbours, for the few that decide. testdata/reader/learn.py makes their files and says from what.
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
	if labelOf(r) < 0 {
		return l, false
	}
	var s sums
	layers[0].add(&s, in, 0, layers[0].ins)
	return likenessOf(layers, &s, labelOf(r)), true
}

// likenessOf is what a reader makes of the sums of its first layer for the letter with this label.
func likenessOf(layers []*layer, s *sums, want int) (l Likeness) {
	var room [firstN]float32
	in := layers[0].total(s, room[:])
	for _, next := range layers[1:] {
		for k := range in {
			in[k] = max(in[k], 0)
		}
		*s = sums{}
		next.add(s, in, 0, next.ins)
		in = next.total(s, room[:])
	}
	var p [lineLabelN]float64 // e to every value less the largest one
	most := float64(slices.Max(in))
	total := 0.0
	for k, v := range in {
		p[k] = math.Exp(float64(v) - most)
		total += p[k]
	}
	for k, v := range p[:len(in)] {
		if v /= total; k == want {
			l.Chance = v
		} else if v > l.Other {
			l.Other, l.Rival = v, 0
			if k < len(readerLabels) {
				l.Rival = rune(readerLabels[k])
			}
		}
	}
	return l
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

// sums are what a layer has added up: the four sums of every four outs.
type sums [firstN / 4][4][4]float32

// add adds ins up, from a multiple of four to another, or to the last of the layer's, which are at most wideN.
// Every product is rounded, so that no processor fuses it with the sum, and each sum is added up in one
// order: same bits everywhere, and whether in one go or in several.
func (l *layer) add(s *sums, in []float32, from, to int) {
	var room [wideN]float32
	ordered := room[:l.ins]
	for k, i := range l.order {
		ordered[k] = in[i]
	}
	for o := 0; o < l.outs; o += 4 {
		weights := l.weights[o/4*l.ins:]
		begin := 0
		for k, end := range l.ends {
			first, last := begin+from/4, end
			if to < l.ins {
				last = begin + to/4
			}
			fourOuts(&s[o/4][k], weights[first:last], ordered[first:last])
			begin = end
		}
	}
}

// total gives the layer's outs, in the first of room: a bias and the four sums from the first to the last.
func (l *layer) total(s *sums, room []float32) []float32 {
	out := room[:l.outs]
	for o := range out {
		four, r := &s[o/4], o%4
		out[o] = l.bias[o] + (four[0][r] + four[1][r] + four[2][r] + four[3][r])
	}
	return out
}

// fourOuts adds to one sum of four outs. Four at once keep a processor busy while it adds.
func fourOuts(sum *[4]float32, weights [][4]float32, in []float32) {
	in = in[:len(weights)]
	a, b, c, d := sum[0], sum[1], sum[2], sum[3]
	for i := range weights {
		w, x := &weights[i], in[i]
		a += float32(w[0] * x)
		b += float32(w[1] * x)
		c += float32(w[2] * x)
		d += float32(w[3] * x)
	}
	*sum = [4]float32{a, b, c, d}
}
