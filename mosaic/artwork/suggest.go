package artwork

import (
	"cmp"
	"math"
	"slices"

	"everyseat/mosaic/colour"
)

// Samples of an image across and down, when colours are suggested for it.
const (
	suggestAcross = 64
	suggestDown   = 36
)

// Suggest picks at most k colours of a stock, by their indices, with which the image looks best when every
// part takes its nearest: the least sum of squared CIEDE2000 differences. They come by the
// part of the image that they fill, the most first. The search adds the best colour one
// by one and then swaps single ones while that helps; for k = 1 it is exact.
func (im *Image) Suggest(stock []colour.RGB, k int) []int {
	var cells []Quad
	w, h := float64(float64(im.canvas.X)/suggestAcross), float64(float64(im.canvas.Y)/suggestDown)
	for y := range suggestDown {
		for x := range suggestAcross {
			l, t := float64(float64(x)*w), float64(float64(y)*h)
			cells = append(cells, Quad{{l, t}, {l + w, t}, {l + w, t + h}, {l, t + h}})
		}
	}
	var labs []colour.Lab
	for _, l := range im.means(cells) {
		if l[3] >= 0.5 {
			labs = append(labs, l.alone().Lab())
		}
	}
	return chosenColours(labs, stock, k)
}

// chosenColours is the search, on how far every sample is from every colour.
func chosenColours(labs []colour.Lab, stock []colour.RGB, k int) []int {
	off := make([][]int64, len(stock)) // squares, by colour and sample
	for c := range stock {
		for _, lab := range labs {
			d := apart(lab, stock[c].Linear().Lab())
			off[c] = append(off[c], d*d)
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
	slices.Sort(chosen)               // ties go to the lower
	takes := make([]int, len(chosen)) // samples, by place in chosen
	order := make([]int, len(chosen))
	for i := range order {
		order[i] = i
	}
	for s := range labs {
		takes[slices.MinFunc(order, func(i, k int) int { return cmp.Compare(off[chosen[i]][s], off[chosen[k]][s]) })]++
	}
	slices.SortStableFunc(order, func(i, k int) int { return takes[k] - takes[i] })
	for len(order) > 1 && takes[order[len(order)-1]] == 0 { // what nothing of the image takes
		order = order[:len(order)-1]
	}
	for i := range order {
		order[i] = chosen[order[i]]
	}
	return order
}

// swapBest puts the best colour of all into place i; ties go to what is there, then the lower.
func swapBest(off [][]int64, chosen []int, i int) {
	best, least := chosen[i], int64(math.MaxInt64)
	if best >= 0 {
		least = totalOff(off, chosen)
	}
	others := slices.Clone(chosen)
	others[i] = -1
	for c := range off {
		if slices.Contains(others, c) {
			continue // twice serves nobody
		}
		chosen[i] = c
		if sum := totalOff(off, chosen); sum < least {
			best, least = c, sum
		}
	}
	chosen[i] = best
}

func totalOff(off [][]int64, chosen []int) (sum int64) {
	for s := range off[0] {
		least := int64(math.MaxInt64)
		for _, c := range chosen {
			least = min(least, off[c][s])
		}
		sum += least
	}
	return sum
}
