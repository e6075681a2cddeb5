package artwork

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"slices"
	"testing"

	"everyseat/mosaic/colour"
)

// stock is white, black, grey, cream, yellow, orange, red, pink, purple, navy, blue and sky.
var stock = []colour.RGB{
	{255, 255, 255}, {26, 26, 26}, {140, 140, 140}, {251, 241, 216}, {250, 214, 40}, {232, 134, 44},
	{200, 30, 44}, {244, 154, 180}, {98, 54, 140}, {22, 41, 77}, {30, 90, 180}, {108, 182, 230},
}

// An image of two card colours is served by just these, the one that fills more of it first.
func TestSuggestFindsTheColours(t *testing.T) {
	const red, sky = 6, 11
	m := image.NewNRGBA(image.Rect(0, 0, 64, 32))
	for y := range 32 {
		for x := range 64 {
			c := stock[sky]
			if x >= 24 {
				c = stock[red]
			}
			m.SetNRGBA(x, y, color.NRGBA{c[0], c[1], c[2], 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	flag, fault := Open("flag.png", b.Bytes())
	if fault != nil {
		t.Fatal(fault)
	}
	// More colours than the image has are not named, and none twice.
	for _, k := range []int{2, 4} {
		if got := flag.Suggest(stock, k); !slices.Equal(got, []int{red, sky}) {
			t.Errorf("of %d: %v", k, got)
		}
	}
}

// The search is held against all choices of up to three colours.
func TestSuggestAgainstBruteForce(t *testing.T) {
	var labs []colour.Lab
	for i := range 60 {
		v := float64(i) / 59
		labs = append(labs, colour.Linear{v, v * v, math.Abs(math.Sin(5 * v))}.Lab())
	}
	stock := stock[:9]
	sum := func(set []int) (total int64) {
		for _, l := range labs {
			least := int64(math.MaxInt64)
			for _, c := range set {
				d := math.Round(colour.CIEDE2000(l, stock[c].Linear().Lab()) * 100)
				least = min(least, int64(d*d))
			}
			total += least
		}
		return total
	}
	for k := 1; k <= 3; k++ {
		best := int64(math.MaxInt64)
		for code := range int(math.Pow(9, float64(k))) {
			var set []int
			for n, i := code, 0; i < k; n, i = n/9, i+1 {
				set = append(set, n%9)
			}
			best = min(best, sum(set))
		}
		got := sum(chosenColours(labs, stock, k))
		if got < best || k == 1 && got > best || float64(got) > 1.1*float64(best) {
			t.Errorf("%d colours: %d, the best have %d", k, got, best)
		}
	}
}
