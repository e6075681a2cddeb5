package legibility

// withoutTries is how often chance is tried for what stays wrong and uneven.
const withoutTries = 4

// Without is how the text reads with exactly these seats of the field empty, by plan and not by chance; as many cards are
// wrong and hands as uneven as o expects.
func (c *Chances) Without(empty []bool) (score float64, v Verdict) {
	by := make([]float64, withoutTries)
	c.judge.inParallel(len(by), func(j *judge, k int) {
		m := strike(j.field, j.rng(uint64(300+k)), 0, j.o.Wrong, false, &j.o)
		copy(m.empty, empty)
		by[k] = chance(j.look(m, Coming{}))
	})
	sum := 0.0
	for _, v := range by {
		sum += v
	}
	score = c.judge.settledScore(sum / withoutTries)
	return score, verdictOf(score)
}
