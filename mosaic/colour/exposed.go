package colour

import "math"

// Exposed is how a camera records l with so many stops more light than is right: every
// channel takes 2^stops times the light, and is full at 1. Below 0 it is darker.
func (l Linear) Exposed(stops float64) Linear {
	gain := grid(math.Exp2(stops))
	var out Linear
	for i := range out {
		out[i] = min(max(l[i]*gain, 0), 1)
	}
	return out
}
