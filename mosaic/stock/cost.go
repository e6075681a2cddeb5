package stock

import (
	"math"

	"everyseat/mosaic/colour"
)

// The weights of a seat (ours; no outside source).
const (
	// fullSight is the weight of a seat that the camera sees wholly.
	fullSight = 256
	// leastSight keeps a hidden seat from being free: its neighbours in the stands, and a
	// camera that moves, still see it.
	leastSight = 16
	// strokeWeight is how much more it costs to get a seat of a letter's stroke wrong.
	strokeWeight = 4
	// costSteps is how fine a difference of colour counts: thousandths of one CIEDE2000 unit.
	costSteps = 1000
	// maxError bounds the difference; no two sRGB colours are farther apart, and
	// cost stays under MaxCost.
	maxError = 128 * costSteps
)

// CostUnit is what one CIEDE2000 unit costs at a seat of the ground that is seen wholly.
const CostUnit = fullSight * costSteps

// Want is what one seat ought to show.
type Want struct {
	Colour colour.Linear // the mean of the message over the seat's cell
	Seen   float64       // share of the card that the camera sees, 0…1
	Stroke bool          // part of a letter, not of the ground
}

// Costs are the costs of every card colour at every seat, as Assign takes them: the
// CIEDE2000 difference times a weight of what the camera sees, strokes of letters
// heavier than ground. An exact colour costs nothing; of two wrong ones, a
// seat that is hardly seen still prefers the nearer.
func Costs(wants []Want, palette []colour.RGB) []int32 {
	labs := make([]colour.Lab, len(palette))
	for c, rgb := range palette {
		labs[c] = rgb.Linear().Lab()
	}
	cost := make([]int32, len(wants)*len(palette))
	// Letters and grounds repeat a handful of colours; a picture's are mostly its own.
	known := map[colour.Linear][]int32{}
	for s, w := range wants {
		errs, ok := known[w.Colour]
		if !ok {
			errs = differences(w.Colour.Lab(), labs)
			known[w.Colour] = errs
		}
		weight := w.weight()
		row := cost[s*len(labs) : (s+1)*len(labs)]
		for c, e := range errs {
			row[c] = e * weight
		}
	}
	return cost
}

func differences(want colour.Lab, palette []colour.Lab) []int32 {
	errs := make([]int32, len(palette))
	for c, lab := range palette {
		errs[c] = int32(min(math.Round(colour.CIEDE2000(want, lab)*costSteps), maxError))
	}
	return errs
}

// weight is leastSight…fullSight, for a stroke strokeWeight times as much.
func (w Want) weight() int32 {
	weight := int32(math.Round(min(max(w.Seen, 0), 1) * fullSight))
	weight = max(weight, leastSight)
	if w.Stroke {
		weight *= strokeWeight
	}
	return weight
}
