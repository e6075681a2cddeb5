package legibility

import "testing"

// As many seats are empty and as many cards wrong as the share says, however they are drawn.
func TestSharesAreWhatTheySay(t *testing.T) {
	j := hal().judge
	n := len(j.field.Seats)
	whole := func(share float64) int { return int(share*float64(n) + 0.5) }
	count := func(some []bool) (sum int) {
		for _, is := range some {
			if is {
				sum++
			}
		}
		return sum
	}
	for _, share := range []float64{0.01, 0.05, 0.3, 0.9} {
		for k := range 4 {
			m := strike(j.field, j.rng(uint64(k)), share, share, k%2 == 1, &j.o)
			if empty, wrong := count(m.empty), count(m.wrong); empty != whole(share) || wrong != whole(share) {
				t.Errorf("%v of %d seats: %d empty, %d wrong", share, n, empty, wrong)
			}
		}
		d := day{judge: j, rows: j.field.rows()}
		for _, way := range []string{Singly, Groups, Busload, RowEnds} {
			if share > emptyShares[len(emptyShares)-1] {
				continue
			}
			if m, _ := d.empty(way, share)(0); count(m.empty) != whole(share) {
				t.Errorf("%s, %v of %d seats: %d empty", way, share, n, count(m.empty))
			}
		}
	}
}

// Hands that are twice as bad lean twice as much.
func TestUnevenHandsLeanToo(t *testing.T) {
	c := hal()
	c.judge.o.HandHeight, c.judge.o.HandSideways, c.judge.o.HandTilt = 0, 0, 0.2
	got := 0.0
	for _, o := range c.Day(nil) {
		if o.What == Uneven {
			got = o.Score // the last, three times as bad
		}
	}
	c.judge.o.HandTilt = 0.6
	same := 0.0
	for k := range dayTries {
		m := strike(c.judge.field, c.judge.rng(uint64(300+k)), c.judge.o.Empty, c.judge.o.Wrong, k%3 == 2, &c.judge.o)
		same += chance(c.judge.look(m, Coming{})) / dayTries
	}
	if want := c.judge.settledScore(same); got-want > 1e-4 || want-got > 1e-4 {
		t.Errorf("hands that lean by 0.2, three times as bad: %.4f; by 0.6: %.4f", got, want)
	}
}
