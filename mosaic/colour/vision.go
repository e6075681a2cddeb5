package colour

// Vision is a way of seeing colours: one of the three kinds of dichromacy.
type Vision int

// Protan, deutan and tritan vision lack the long-, middle- and short-wave cones.
const (
	Protan Vision = iota
	Deutan
	Tritan
)

// Visions are all of them, in order.
var Visions = []Vision{Protan, Deutan, Tritan}

// String is "protan", "deutan" or "tritan".
func (v Vision) String() string { return [...]string{"protan", "deutan", "tritan"}[v] }

// machado are the matrices at severity 1.0 of Machado, Oliveira, Fernandes,
// "A Physiologically-based Model for Simulation of Color Vision Deficiency",
// IEEE TVCG 15(6), 2009. Each row sums to one, so greys stay as they are.
var machado = [...][3][3]float64{
	Protan: {
		{0.152286, 1.052583, -0.204868},
		{0.114503, 0.786281, 0.099216},
		{-0.003882, -0.048116, 1.051998},
	},
	Deutan: {
		{0.367322, 0.860646, -0.227968},
		{0.280085, 0.672501, 0.047413},
		{-0.011820, 0.042940, 0.968881},
	},
	Tritan: {
		{1.255528, -0.076749, -0.178779},
		{-0.078411, 0.930809, 0.147602},
		{0.004733, 0.691367, 0.303900},
	},
}

// See is how l looks to somebody with vision v: the matrix on linear light, each
// channel then held to 0…1.
func (v Vision) See(l Linear) Linear {
	var seen Linear
	for i, row := range machado[v] {
		sum := float64(row[0]*l[0]) + float64(row[1]*l[1]) + float64(row[2]*l[2])
		seen[i] = min(max(sum, 0), 1)
	}
	return seen
}
