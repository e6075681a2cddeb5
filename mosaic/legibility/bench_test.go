package legibility

import "testing"

func BenchmarkForetell(b *testing.B) {
	var in [inputN]float32
	for i := range in {
		in[i] = float32(i%7) - 3
	}
	for b.Loop() {
		foretell(smallReader(), in[:], 'A')
	}
}

func BenchmarkCompare(b *testing.B) {
	f := block(12, 38, 0)
	ink, text := print(f, "HAL", 150, 140, 50, 112, 230)
	j := newJudge([]*Field{f}, 0, ink, text, Options{})
	j.patch.Show(j.canvas, ink, nil, nil)
	x := j.boxes[0]
	for b.Loop() {
		j.patch.Compare('H', x)
	}
}
