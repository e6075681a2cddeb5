package mosaic

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// Samples of an image across and down, when colours are suggested for it.
const (
	suggestAcross = 64
	suggestDown   = 36
	suggestCards  = 4
)

// usualStock are colours in which card can be had nearly everywhere, by plain names; the
// shades are ours (no source) and to be replaced by those of the cards at hand.
var usualStock = []Colour{
	{Name: "white", RGB: colour.RGB{255, 255, 255}}, {Name: "black", RGB: colour.RGB{26, 26, 26}},
	{Name: "grey", RGB: colour.RGB{140, 140, 140}}, {Name: "cream", RGB: colour.RGB{251, 241, 216}},
	{Name: "yellow", RGB: colour.RGB{250, 214, 40}}, {Name: "orange", RGB: colour.RGB{232, 134, 44}},
	{Name: "red", RGB: colour.RGB{200, 30, 44}}, {Name: "pink", RGB: colour.RGB{244, 154, 180}},
	{Name: "purple", RGB: colour.RGB{98, 54, 140}}, {Name: "navy", RGB: colour.RGB{22, 41, 77}},
	{Name: "blue", RGB: colour.RGB{30, 90, 180}}, {Name: "sky", RGB: colour.RGB{108, 182, 230}},
	{Name: "green", RGB: colour.RGB{28, 140, 74}}, {Name: "brown", RGB: colour.RGB{110, 70, 40}},
}

// Suggest picks the k colours of a range with which the image looks best when every part
// takes its nearest: the least sum of squared CIEDE2000 differences. They come by the
// part of the image that they fill, the most first. The search adds the best colour one
// by one and then swaps single ones while that helps; for k = 1 it is exact. The fault
// has no Key.
func Suggest(name string, data []byte, stock []Colour, k int) ([]Colour, error) {
	if len(stock) == 0 || k < 1 {
		return nil, nil
	}
	art, fault := openImage(name, data)
	if fault != nil {
		return nil, fault
	}
	var quads []quad
	w, h := float64(art.canvas.X)/suggestAcross, float64(art.canvas.Y)/suggestDown
	for y := range suggestDown {
		for x := range suggestAcross {
			l, t := float64(x)*w, float64(y)*h
			quads = append(quads, quad{{l, t}, {l + w, t}, {l + w, t + h}, {l, t + h}})
		}
	}
	var labs []colour.Lab
	for _, l := range art.sample(quads) {
		if l[3] >= 0.5 {
			labs = append(labs, l.alone().Lab())
		}
	}
	return chosenColours(labs, stock, k), nil
}

// chosenColours is the search, on how far every sample is from every colour.
func chosenColours(labs []colour.Lab, stock []Colour, k int) []Colour {
	off := make([][]int64, len(stock))
	for c := range stock {
		lab := stock[c].RGB.Linear().Lab()
		off[c] = make([]int64, len(labs))
		for s := range labs {
			d := math.Round(colour.CIEDE2000(labs[s], lab) * inHundredth)
			off[c][s] = int64(d * d)
		}
	}
	var chosen []int
	for range min(k, len(stock)) {
		chosen = append(chosen, -1)
		swapBest(off, chosen, len(chosen)-1)
	}
	for better := true; better; {
		better = false
		for i := range chosen {
			before := totalOff(off, chosen)
			swapBest(off, chosen, i)
			better = better || totalOff(off, chosen) < before
		}
	}
	slices.Sort(chosen) // ties go to the lower
	return byShare(off, chosen, stock)
}

// swapBest puts the best colour of all into place i; ties go to what is there, then the lower.
func swapBest(off [][]int64, chosen []int, i int) {
	best, least := chosen[i], int64(math.MaxInt64)
	if best >= 0 {
		least = totalOff(off, chosen)
	}
	for c := range off {
		chosen[i] = c
		if sum := totalOff(off, chosen); sum < least {
			best, least = c, sum
		}
	}
	chosen[i] = best
}

func totalOff(off [][]int64, chosen []int) int64 {
	var sum int64
	for s := range off[0] {
		least := int64(math.MaxInt64)
		for _, c := range chosen {
			least = min(least, off[c][s])
		}
		sum += least
	}
	return sum
}

// byShare sorts the chosen colours by how many samples take them; what none takes goes last.
func byShare(off [][]int64, chosen []int, stock []Colour) []Colour {
	takes := make([]int, len(chosen))
	for s := range off[0] {
		best := 0
		for i := range chosen {
			if off[chosen[i]][s] < off[chosen[best]][s] {
				best = i
			}
		}
		takes[best]++
	}
	var out []Colour
	for range chosen {
		most := 0
		for i := range takes {
			if takes[i] > takes[most] {
				most = i
			}
		}
		out = append(out, stock[chosen[most]])
		takes[most] = math.MinInt
	}
	return out
}

// noColours says that there are none, and which would serve the stunt's first image.
func noColours(cues []Cue) error {
	f := &seating.Fault{Key: "colour", What: "there are no card colours", Hint: `add a [[colour]] with name = "blue" and hex = "#1f4e9c"; the first is the ground, the second the ink`}
	for i := range cues {
		if cues[i].Image == nil {
			continue
		}
		colours, err := Suggest(cues[i].ImageName, cues[i].Image, usualStock, suggestCards)
		if err != nil {
			break
		}
		var names []string
		for _, c := range colours {
			names = append(names, c.Name+" "+c.RGB.Hex())
		}
		f.Hint = fmt.Sprintf("add a [[colour]] for each; these of the usual card colours would serve %s best: %s", imageName(&cues[i]), strings.Join(names, ", "))
		break
	}
	return f
}
