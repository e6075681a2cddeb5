package brief

import (
	"testing"
	"time"

	"everyseat/mosaic"
	"everyseat/testdata/fair"
)

// Whoever is told to follow a hand or a row follows somebody who goes up before: left and right as who faces the camera has
// them.
func TestLeadsGoFirst(t *testing.T) {
	s := fair.Crowded()
	s.Cues = s.Cues[:1]
	for _, how := range []mosaic.Transition{mosaic.LeftToRight, mosaic.RightToLeft, mosaic.FromMiddle, mosaic.BottomToTop, mosaic.RowByRow} {
		s.Cues[0].Transition, s.Cues[0].Takes = how, 4*time.Second
		p := fair.Plan(t, s)
		counts := map[Lead]int{}
		for seat := range p.Stands.Seats {
			if p.Hands[0][seat].Card < 0 {
				continue
			}
			a := ActOf(p, 0, int32(seat))
			counts[a.After]++
			next := seat
			switch a.After {
			case rightHand: // to the left as the camera sees it: a lesser x
				next = seat - 1
				if p.Stands.Seats[next].Position[0] >= p.Stands.Seats[seat].Position[0] {
					t.Errorf("%s: the right hand of %s is on its left", how, p.Stands.ID(seat))
				}
			case leftHand:
				next = seat + 1
			default:
				continue
			}
			if p.Moment(0, next) >= p.Moment(0, seat) {
				t.Errorf("%s: %s follows %s, which goes up no earlier", how, p.Stands.ID(seat), p.Stands.ID(next))
			}
		}
		side := map[mosaic.Transition][]Lead{mosaic.LeftToRight: {rightHand}, mosaic.RightToLeft: {leftHand}, mosaic.FromMiddle: {rightHand, leftHand},
			mosaic.BottomToTop: {rowInFront}, mosaic.RowByRow: {rowInFront}}[how]
		for l, n := range counts {
			known := l == Nobody
			for _, k := range side {
				known = known || l == k
			}
			if !known {
				t.Errorf("%s: %d seats follow %q", how, n, leads[l])
			}
		}
		if counts[side[0]] == 0 {
			t.Errorf("%s: nobody follows%s", how, leads[side[0]])
		}
	}
}
