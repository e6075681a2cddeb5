package legibility

import (
	"encoding/binary"
	"math"
)

// layer is one layer of a learned reader: every one of its outs is a bias and the sum of all
// ins, each with its weight.
type layer struct {
	ins, outs int
	wide      int       // of a row of weights, a multiple of four
	weights   []float32 // a row an out, see place
	bias      []float32
}

func newLayer(ins, outs int) *layer {
	wide := place(ins-1, ins) + 4
	if ins%4 == 0 {
		wide = ins
	}
	return &layer{ins, outs, wide, make([]float32, wide*outs), make([]float32, outs)}
}

// place is where an in stands in a row: what is left over after the last four has a four each
// to itself, so that it is added to the first of the four sums.
func place(i, ins int) int {
	if fours := ins &^ 3; i >= fours {
		return fours + 4*(i-fours)
	}
	return i
}

// readLayer takes a layer off a file: weights in after in, then biases, little-endian.
func readLayer(file []byte, ins, outs int) (*layer, []byte) {
	l := newLayer(ins, outs)
	next := func() float32 {
		v := math.Float32frombits(binary.LittleEndian.Uint32(file))
		file = file[4:]
		return v
	}
	for i := range ins {
		for o := range outs {
			l.weights[o*l.wide+place(i, ins)] = next()
		}
	}
	for o := range l.bias {
		l.bias[o] = next()
	}
	return l, file
}

// widestRow is as long as a row of any layer can be.
const widestRow = wideN + 12

// times gives the layer's outs for its ins, which are as long as the layer says. Every product is
// rounded, so that no processor fuses it with the sum, and products are added up in one order: in
// four sums, of every fourth product each, then these from the first to the last. Same bits everywhere.
func (l *layer) times(in, out []float32) {
	var room [widestRow]float32
	if l.wide > l.ins {
		for i := copy(room[:l.ins&^3], in); i < l.ins; i++ {
			room[place(i, l.ins)] = in[i]
		}
		in = room[:l.wide]
	}
	var sums [4][4]float32
	for o := 0; o < l.outs; o += 4 {
		rows := l.weights[o*l.wide:]
		n := min(4, l.outs-o)
		if n == 4 {
			fourSums(&sums, rows[:4*l.wide], in)
		} else {
			for r := range n {
				sums[r] = sumsOf(rows[r*l.wide:][:l.wide], in)
			}
		}
		for r := range n {
			s := &sums[r]
			out[o+r] = l.bias[o+r] + (s[0] + s[1] + s[2] + s[3])
		}
	}
}

// sumsOf are the four sums of a row whose length is a multiple of four.
func sumsOf(row, in []float32) [4]float32 {
	in = in[:len(row)]
	var s0, s1, s2, s3 float32
	for i := 0; i+4 <= len(row); i += 4 {
		s0 += float32(row[i] * in[i])
		s1 += float32(row[i+1] * in[i+1])
		s2 += float32(row[i+2] * in[i+2])
		s3 += float32(row[i+3] * in[i+3])
	}
	return [4]float32{s0, s1, s2, s3}
}

// clip makes what is below zero zero.
func clip(v []float32) {
	for i := range v {
		v[i] = max(v[i], 0)
	}
}
