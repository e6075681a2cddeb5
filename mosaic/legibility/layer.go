package legibility

import (
	"encoding/binary"
	"math"
)

// layer is one layer of a learned reader: every one of its outs is a bias and the sum of all
// ins, each with its weight.
type layer struct {
	ins, outs int
	weights   []float32 // out after out
	bias      []float32
}

// readLayer takes a layer off a file: weights in after in, then biases, little-endian.
func readLayer(file []byte, ins, outs int) (*layer, []byte) {
	l := &layer{ins, outs, make([]float32, ins*outs), make([]float32, outs)}
	next := func() float32 {
		v := math.Float32frombits(binary.LittleEndian.Uint32(file))
		file = file[4:]
		return v
	}
	for i := range ins {
		for o := range outs {
			l.weights[o*ins+i] = next()
		}
	}
	for o := range l.bias {
		l.bias[o] = next()
	}
	return l, file
}

// times gives the layer's outs for its ins, which are as long as the layer says. Every product is rounded, so that no processor
// fuses it with the sum, and products are added up in one order: in four sums, of every
// fourth product each, then these from the first to the last. Same bits everywhere.
func (l *layer) times(in, out []float32) {
	fours := l.ins &^ 3
	var sums [4][4]float32
	for o := 0; o < l.outs; o += 4 {
		rows := l.weights[o*l.ins:]
		n := min(4, l.outs-o)
		if n == 4 && fours > 0 {
			fourSums(&sums, rows[:3*l.ins+fours], l.ins, in[:fours])
		} else {
			for r := range n {
				sums[r] = sumsOf(rows[r*l.ins:][:fours], in)
			}
		}
		for r := range n {
			s := &sums[r]
			for i := fours; i < l.ins; i++ {
				s[0] += float32(rows[r*l.ins+i] * in[i])
			}
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
