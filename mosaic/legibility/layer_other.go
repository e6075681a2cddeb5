//go:build !amd64

package legibility

// fourSums is sumsOf for four rows that lie stride apart.
func fourSums(sums *[4][4]float32, rows []float32, stride int, in []float32) {
	for r := range sums {
		sums[r] = sumsOf(rows[r*stride:][:len(in)], in)
	}
}
