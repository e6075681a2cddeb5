package sheets

import (
	"fmt"
	"testing"
)

// The boxes of words that poppler gives are those of the font and not of the strokes: whether large type, with its
// descenders and stacked accents, keeps clear of the words round it is seen in the picture alone.

const (
	inkPages  = 2    // pages of a file that are looked at: the rest are laid out like these
	inkDots   = 127  // an inch: 5 a millimetre
	largeWord = 30.0 // points of a word's box
)

// touching are the words that the strokes of a large word come nearer to than 0.4 mm.
func touching(t *testing.T, file string, number int, page words) []string {
	t.Helper()
	n := fmt.Sprint(number)
	pic := renderGray(t, file, inkDots, "-f", n, "-l", n)[0]
	blots := pic.blots()
	of := make([]map[int]bool, len(page.list))
	for i, w := range page.list {
		of[i] = map[int]bool{}
		x0, y0, x1, y1 := w.core()
		for y := pic.dot(y0); y <= pic.dot(y1); y++ {
			for x := pic.dot(x0); x <= pic.dot(x1); x++ {
				if b := blots[y*pic.width+x]; b > 0 {
					of[i][b] = true
				}
			}
		}
	}
	var faults []string
	for i, a := range page.list {
		if a.y1-a.y0 < largeWord {
			continue
		}
		for k, b := range page.list {
			for blot := range of[i] {
				if k != i && of[k][blot] && !a.besides(b) {
					faults = append(faults, fmt.Sprintf("the strokes of %q touch %q", a.text, b.text))
					break
				}
			}
		}
	}
	return faults
}

// besides says that two words stand in one line.
func (w word) besides(v word) bool {
	_, ay0, _, ay1 := w.core()
	_, by0, _, by1 := v.core()
	return ay0 < by1 && by0 < ay1
}

func (g *grayPage) dot(points float64) int { return int(points / 72 * g.dots) }

// blots numbers from 1 what hangs together when every dark dot is taken a dot larger.
func (g *grayPage) blots() []int {
	dark := make([]bool, len(g.pixels))
	for y := 1; y+1 < g.height; y++ {
		for x := 1; x+1 < g.width; x++ {
			if g.pixels[y*g.width+x] < 128 {
				for _, d := range [...]int{-g.width, -1, 0, 1, g.width} {
					dark[y*g.width+x+d] = true
				}
			}
		}
	}
	blots := make([]int, len(dark))
	next := 0
	var stack []int
	for i := range dark {
		if !dark[i] || blots[i] > 0 {
			continue
		}
		next++
		blots[i] = next
		for stack = append(stack[:0], i); len(stack) > 0; {
			at := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			for _, d := range [...]int{-g.width - 1, -g.width, -g.width + 1, -1, 1, g.width - 1, g.width, g.width + 1} {
				if k := at + d; k >= 0 && k < len(dark) && dark[k] && blots[k] == 0 {
					blots[k] = next
					stack = append(stack, k)
				}
			}
		}
	}
	return blots
}
