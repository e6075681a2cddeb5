//go:build !amd64

package legibility

// fourSums is sumsOf for four rows that lie one after the other, each as long as in.
func fourSums(sums *[4][4]float32, rows, in []float32) {
	for r := range sums {
		sums[r] = sumsOf(rows[r*len(in):][:len(in)], in)
	}
}
