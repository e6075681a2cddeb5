package legibility

// fourSums is sumsOf for four rows that lie one after the other, each as long as in.
//
//go:noescape
func fourSums(sums *[4][4]float32, rows, in []float32)
