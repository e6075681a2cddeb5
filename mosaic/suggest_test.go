package mosaic

import (
	"errors"
	"math"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

func named(colours []Colour) string {
	var names []string
	for _, c := range colours {
		names = append(names, c.Name)
	}
	return strings.Join(names, " ")
}

// An image of two card colours is served by just these.
func TestSuggestFindsTheColours(t *testing.T) {
	red, sky := usualStock[6], usualStock[11]
	got, err := Suggest("flag.png", halves(red.RGB, sky.RGB), usualStock, 2)
	if err != nil || named(got) != "red sky" {
		t.Errorf("%s, %v", named(got), err)
	}
	if _, err := Suggest("none.png", nil, usualStock, 2); err == nil {
		t.Error("colours are suggested for an empty image")
	}
}

// The search is held against all choices of up to three colours.
func TestSuggestAgainstBruteForce(t *testing.T) {
	var labs []colour.Lab
	for i := range 60 {
		v := float64(i) / 59
		labs = append(labs, colour.Linear{v, v * v, math.Abs(math.Sin(5 * v))}.Lab())
	}
	stock := usualStock[:9]
	sum := func(set []Colour) (total int64) {
		for _, l := range labs {
			least := int64(math.MaxInt64)
			for _, c := range set {
				d := math.Round(colour.CIEDE2000(l, c.RGB.Linear().Lab()) * inHundredth)
				least = min(least, int64(d*d))
			}
			total += least
		}
		return total
	}
	for k := 1; k <= 3; k++ {
		best := int64(math.MaxInt64)
		for code := range int(math.Pow(9, float64(k))) {
			var set []Colour
			for n, i := code, 0; i < k; n, i = n/9, i+1 {
				set = append(set, stock[n%9])
			}
			best = min(best, sum(set))
		}
		got := sum(chosenColours(labs, stock, k))
		if got < best || k == 1 && got > best || float64(got) > 1.1*float64(best) {
			t.Errorf("%d colours: %d, the best have %d", k, got, best)
		}
	}
}

func TestNoColoursAreSuggested(t *testing.T) {
	s := gullhaven()
	s.Colours = nil
	s.Cues = []Cue{{ImageName: "halves.png", Image: halves(colour.RGB{200, 30, 44}, colour.RGB{22, 41, 77})}}
	_, err := Make(s)
	var f *seating.Fault
	if !errors.As(err, &f) || f.Key != "colour" || !strings.Contains(f.Hint, "would serve halves.png best: red #c81e2c, navy #16294d") {
		t.Errorf("%v", err)
	}
}
