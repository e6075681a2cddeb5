package camera

// shake is how unevenly hands hold: one standard deviation each, in metres and
// radians, and the seed of the hash that gives every seat its own error.
type shake struct {
	seed                   uint64
	height, sideways, tilt float64
}

// Shaken is the scene with every card a little off: height and sideways in metres,
// tilt in radians, each one standard deviation of a normal error. Tilt works twice,
// as lean (the top back or forward) and as roll (in the card's own plane). The
// same seed gives the same errors; cards on laps lie still.
func (s *Scene) Shaken(seed uint64, height, sideways, tilt float64) *Scene {
	shaken := *s
	shaken.hands = shake{seed: seed, height: height, sideways: sideways, tilt: tilt}
	return &shaken
}

// normal is a normal number with deviation 1 for the seat and the axis: the sum of
// twelve even ones, so it is whole-number arithmetic and never beyond 6.
func (h *shake) normal(seat, axis int) float64 {
	state := h.seed ^ uint64(seat)*0x9e3779b97f4a7c15 ^ uint64(axis)*0xd1b54a32d192ed03
	total := int64(0)
	for range 3 {
		state += 0x9e3779b97f4a7c15
		for bits := mix(state); bits != 0; bits >>= 16 {
			total += int64(bits & 0xffff)
		}
	}
	return float64(2*total-12*0xffff) / (2 * 65536)
}

// mix is the finaliser of the SplitMix64 generator (Steele, Lea, Flood 2014; from memory).
func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
