package legibility

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestLayer: whatever the processor, a layer gives the same bits as the sums written out, and the
// right ones: within float32's rounding of what float64 gives.
func TestLayer(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	for _, size := range [][2]int{{wideN, firstN}, {firstN, secondN}, {secondN, lineOutN}, {inputN, hiddenN}, {hiddenN, labelN}, {4, 4}, {3, 5}, {1, 1}, {9, 7}} {
		l := &layer{ins: size[0], outs: size[1], weights: make([]float32, size[0]*size[1]), bias: make([]float32, size[1])}
		in, out := make([]float32, l.ins), make([]float32, l.outs)
		for _, v := range [][]float32{l.weights, l.bias, in} {
			for i := range v {
				v[i] = float32(rng.NormFloat64())
			}
		}
		l.times(in, out)
		for o := range out {
			row := l.weights[o*l.ins:][:l.ins]
			var s [4]float32
			exact, size := float64(l.bias[o]), math.Abs(float64(l.bias[o]))
			for i, w := range row {
				k := i % 4
				if i >= l.ins&^3 {
					k = 0
				}
				s[k] += float32(w * in[i])
				exact += float64(w) * float64(in[i])
				size += math.Abs(float64(w) * float64(in[i]))
			}
			if want := l.bias[o] + (s[0] + s[1] + s[2] + s[3]); out[o] != want {
				t.Fatalf("%d × %d: out %d is %v, written out %v", l.ins, l.outs, o, out[o], want)
			}
			if d := math.Abs(float64(out[o]) - exact); d > 1e-5*size {
				t.Fatalf("%d × %d: out %d is %v, exactly %v", l.ins, l.outs, o, out[o], exact)
			}
		}
	}
}
