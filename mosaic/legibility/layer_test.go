package legibility

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"testing"
)

// TestLayer: whatever the processor, a layer gives the same bits as the sums written out, and the
// right ones: within float32's rounding of what float64 gives.
func TestLayer(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1))
	for _, size := range [][2]int{{wideN, firstN}, {firstN, secondN}, {secondN, lineLabelN}, {inputN, hiddenN}, {hiddenN, labelN}, {4, 4}, {3, 5}, {1, 1}, {9, 7}} {
		var file []byte
		for range (size[0] + 1) * size[1] {
			file = binary.LittleEndian.AppendUint32(file, math.Float32bits(float32(rng.NormFloat64())))
		}
		weight := func(i, o int) float32 {
			return math.Float32frombits(binary.LittleEndian.Uint32(file[4*(i*size[1]+o):]))
		}
		l, rest := readLayer(file, size[0], size[1])
		if len(rest) != 0 {
			t.Fatalf("%d bytes are left over", len(rest))
		}
		in := make([]float32, l.ins)
		for i := range in {
			in[i] = float32(rng.NormFloat64())
		}
		var s, parts sums
		l.add(&s, in, 0, l.ins)
		out := l.total(&s, make([]float32, l.outs))
		some := rng.IntN(l.ins+1) &^ 3
		l.add(&parts, in, 0, some)
		if l.add(&parts, in, some, l.ins); parts != s {
			t.Fatalf("%d × %d: the sums differ when %d ins are added up first", l.ins, l.outs, some)
		}
		for o := range out {
			var s [4]float32
			bias := weight(l.ins, o)
			exact, size := float64(bias), math.Abs(float64(bias))
			for i := range in {
				w, k := weight(i, o), i%4
				if i >= l.ins&^3 {
					k = 0
				}
				s[k] += float32(w * in[i])
				exact += float64(w) * float64(in[i])
				size += math.Abs(float64(w) * float64(in[i]))
			}
			if want := bias + (s[0] + s[1] + s[2] + s[3]); out[o] != want {
				t.Fatalf("%d × %d: out %d is %v, written out %v", l.ins, l.outs, o, out[o], want)
			}
			if d := math.Abs(float64(out[o]) - exact); d > 1e-5*size {
				t.Fatalf("%d × %d: out %d is %v, exactly %v", l.ins, l.outs, o, out[o], exact)
			}
		}
	}
}
