package camera

import (
	"math"
	"testing"

	"everyseat/seating"
)

// Body sizes against ANSUR II, medians of men and women halved: testdata/reference/
// anthropometry_ansur2.csv (raw tables SEEN, percentiles COMPUTED).
func TestBodySizes(t *testing.T) {
	median := map[string]float64{}
	for _, row := range table(t, "reference/anthropometry_ansur2.csv") {
		median[row["dimension"]] += number(t, row["p50_mm"]) / 2000
	}
	crown := median["sittingheight"]
	for name, c := range map[string]struct{ got, want, tolerance float64 }{
		"sitting height":    {sittingHeight, crown, 1e-9},
		"eye below crown":   {eyeBelowCrown, crown - median["eyeheightsitting"], 1e-9},
		"the same, derived": {eyeBelowCrown, median["crown_above_eye_derived"], 1e-9},
		"shoulder below":    {shoulderBelow, crown - median["acromialheightsitting_derived(elbowrest+shoulderelbow)"], 1e-9},
		"stature":           {stature, median["stature"], 1e-9},
		"lower leg":         {lowerLeg, median["poplitealheight"], 1e-9},
		"shoulder breadth":  {shoulderBreadth, median["bideltoidbreadth"], 1e-9},
		"hip breadth":       {hipBreadth, median["hipbreadthsitting"], 1e-9},
		"head breadth":      {headBreadth, median["headbreadth"], 1e-9},
		"buttock to knee":   {buttockKnee, median["buttockkneelength"], 1e-9},
		// From the ear to the crown is about half of a head: a rough check of the chin.
		"head": {eyeBelowCrown + chinBelowEye, 2 * median["tragiontopofhead"], 0.04},
	} {
		if !(math.Abs(c.got-c.want) <= c.tolerance) {
			t.Errorf("%s: %g m, the survey says %g", name, c.got, c.want)
		}
	}
}

// On a 17-inch board adults' crowns are near 1.3 m, eyes near 1.2 and chins at 1.0 to 1.1
// above the footboard: COMPUTED from the same survey.
func TestHeadsOnABench(t *testing.T) {
	s := &Scene{Stands: build(t, bleachers("A", 2, 3)), Card: letter(Eyes)}
	g := s.figureAt(0)
	for name, c := range map[string][3]float64{
		"crown": {g.crown, 1.25, 1.35}, "eyes": {g.eyes(), 1.15, 1.25}, "chin": {g.chin(), 1.0, 1.1},
	} {
		if c[0] < c[1] || c[0] > c[2] {
			t.Errorf("%s at %g m, not in %g to %g", name, c[0], c[1], c[2])
		}
	}
}

// What is drawn reaches as high, and is as broad, as the measures say.
func TestPersonIsDrawnToMeasure(t *testing.T) {
	spec := bleachers("A", 1, 1)
	for _, c := range []struct {
		posture seating.Posture
		crown   float64
	}{{seating.Sitting, 17*0.0254 + sittingHeight}, {seating.Kneeling, stature - lowerLeg}, {seating.Standing, stature}} {
		spec.Posture = c.posture
		s := &Scene{Stands: build(t, spec), Card: letter(Chest)}
		top, wide := map[Part]float64{}, map[Part]float64{}
		s.Each(func(p *Polygon) {
			if p.Owner == 0 {
				for _, q := range p.Points {
					top[p.Part] = math.Max(top[p.Part], q[2]-s.Stands.Seats[0].Position[2])
					wide[p.Part] = math.Max(wide[p.Part], 2*math.Abs(q[0]-s.Stands.Seats[0].Position[0]))
				}
			}
		})
		if math.Abs(top[PartHead]-c.crown) > 1e-9 || math.Abs(top[PartHair]-c.crown) > 1e-9 || math.Abs(wide[PartHead]-headBreadth) > 1e-9 {
			t.Errorf("posture %d: head up to %g m, %g m wide; want %g and %g", c.posture, top[PartHead], wide[PartHead], c.crown, headBreadth)
		}
	}
}

// Where a card is, by how it is held.
func TestHeldHeights(t *testing.T) {
	const board = 17 * 0.0254
	for _, c := range []struct {
		held        Held
		top, bottom float64 // above the footboard
	}{
		{Lap, board + 0.16, board + 0.16},
		{Chest, board + sittingHeight - 0.45 + 0.10795, board + sittingHeight - 0.45 - 0.10795},
		{Chin, board + 0.6645, board + 0.6645 - 0.2159},
		{Eyes, board + 0.776, board + 0.776 - 0.2159},
		{Overhead, board + 0.9075 + 0.2159, board + 0.9075},
	} {
		s := &Scene{Stands: build(t, bleachers("A", 1, 1)), Card: letter(c.held)}
		q, _ := s.CardQuad(0)
		z := s.Stands.Seats[0].Position[2]
		if math.Abs(q[0][2]-z-c.top) > 1e-9 || math.Abs(q[3][2]-z-c.bottom) > 1e-9 {
			t.Errorf("%s: from %g to %g m, want %g to %g", c.held, q[3][2]-z, q[0][2]-z, c.bottom, c.top)
		}
	}
	s := &Scene{Stands: build(t, bleachers("A", 1, 1)), Card: letter(Overhead), Resting: true}
	if q, _ := s.CardQuad(0); q[0][2] != q[2][2] {
		t.Error("a resting card does not lie flat")
	}
}
