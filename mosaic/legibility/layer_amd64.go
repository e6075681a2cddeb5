package legibility

// fourSums is sumsOf for four rows that lie stride apart.
//
//go:noescape
func fourSums(sums *[4][4]float32, rows []float32, stride int, in []float32)
