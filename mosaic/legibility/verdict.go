package legibility

// VerdictOf is the verdict that goes with a score, 0…1.
func VerdictOf(score float64) Verdict { return verdictOf(score) }

// Says is the verdict after "it": "it reads", "it is marginal".
func (v Verdict) Says() string {
	if v == Marginal {
		return "is marginal"
	}
	return string(v)
}

// Thresholds are the least score of what reads, and the score under which it does not.
func Thresholds() (reads, fails float64) { return readsFrom, failsTo }

// MostTried are the largest shares of empty seats and of wrong cards that Judge tries.
func MostTried() (empty, wrong float64) {
	return emptyShares[len(emptyShares)-1], wrongShares[len(wrongShares)-1]
}
