package artwork

import (
	"math"
	"slices"

	"everyseat/mosaic/colour"
)

// A drawing has few colours (ours, no source): so many fill so much of it, in thousandths. The rest are the
// soft edges between them. Photographs and slopes have more.
const (
	drawingColours = 8
	drawingShare   = 930
	drawingPixels  = 40_000 // looked at, at most
	mostWidened    = 4      // if more than a fourth of the seats would change, it is a texture
	mostLost       = 2      // at so many seats a stroke may be lost, or two be one, that nobody misses
	sameCard       = 1000   // hundredths of CIEDE2000 under which a camera may take a colour for a card's
)

// drawing is what is kept of a drawing to find its strokes.
type drawing struct {
	im    *Image
	cells []Quad // of the seats, and of their parts
	main  []shaded
}

// shaded is a colour of an image, in 32 steps a channel, and how many of the pixels looked at have it.
type shaded struct {
	shade, pixels int
}

// noShade is the shade of what is transparent.
const noShade = 1 << 15

// mainShades are the most frequent colours of an image. They are few if the others are no more than soft
// edges, so that a thin stroke of it is meant as one.
func (im *Image) mainShades() (main []shaded, few bool) {
	step, all := 1, 0
	for (im.canvas.X/step)*(im.canvas.Y/step) > drawingPixels {
		step++
	}
	counts := make([]int, noShade+1)
	pixels := make([]light, im.canvas.X)
	for y := step / 2; y < im.canvas.Y; y += step {
		im.row(y, pixels)
		for x := step / 2; x < im.canvas.X; x += step {
			shade := noShade
			if l := &pixels[x]; math.Round(l[3]*255) >= 128 {
				c := l.alone().RGB()
				shade = int(c[0]>>3)<<10 | int(c[1]>>3)<<5 | int(c[2]>>3)
			}
			counts[shade]++
			all++
		}
	}
	for shade, n := range counts {
		if n > 0 {
			main = append(main, shaded{shade, n})
		}
	}
	slices.SortStableFunc(main, func(a, b shaded) int { return b.pixels - a.pixels })
	main = main[:min(drawingColours, len(main))]
	return main, 1000*total(main) >= drawingShare*all
}

func total(of []shaded) (n int) {
	for _, s := range of {
		n += s.pixels
	}
	return n
}

// inCards says whether nearly all of a drawing is in colours that there are cards of.
func (c *Cards) inCards(main []shaded) bool {
	of := slices.DeleteFunc(slices.Clone(main), func(s shaded) bool {
		if s.shade == noShade {
			return false
		}
		own := colour.RGB{uint8(s.shade>>10<<3 | 4), uint8(s.shade>>5<<3 | 4), uint8(s.shade<<3 | 4)}
		card := c.Colours[c.Palette.NearestRGB(own)]
		return apart(own.Linear().Lab(), card.Linear().Lab()) >= sameCard
	})
	return 1000*total(of) >= drawingShare*total(main)
}

// apart is the CIEDE2000 difference in whole hundredths.
func apart(a, b colour.Lab) int64 { return int64(math.Round(colour.CIEDE2000(a, b) * 100)) }

// drawn shows a drawing in the nearest colours, thin strokes widened. It is nil where there are
// none of these and the drawing is in colours without a card, which others may have to be mixed for.
func (p *painting) drawn() *Shown {
	out := &Shown{Colours: p.nearestAll(p.whole), Levels: AsItIs, cards: p.Cards, aims: p.whole}
	p.keepStrokes(out)
	if slices.Max(out.Widened) == 0 && !p.inCards(p.drawing.main) {
		return nil
	}
	return out
}

// keepStrokes makes strokes that are thinner than a seat one seat wide: of every colour but the one
// that fills most of the drawing, rarer ones last, so that they lie over others; and counts what becomes of them.
func (p *painting) keepStrokes(out *Shown) {
	shown, n := out.Colours, len(p.Colours)
	out.Widened, out.Lost, out.Merged = make([]int, n), make([]int, n), make([]int, n)
	inks, order := p.inks()
	p.dropStrays(inks, shown)
	next := slices.Clone(shown)
	walks := p.wall.walks(func(int) bool { return true })
	for _, c := range order {
		shows := make([]bool, len(shown))
		for k := range shows {
			shows[k] = shown[k] == c
		}
		for _, w := range walks {
			s := strokes{walk: w, ink: inks[c], shows: shows}
			for _, k := range s.widened() {
				next[k] = c
			}
		}
	}
	sum := 0
	for k := range next {
		if next[k] != shown[k] {
			out.Widened[next[k]]++
			sum++
		}
	}
	if sum*mostWidened > len(shown) {
		clear(out.Widened)
	} else {
		copy(shown, next)
	}
	for _, c := range order {
		lost, merged := 0, 0
		for _, w := range walks {
			lost += w.lost(inks[c], shown, c)
			merged += w.merged(inks[c], shown, c)
		}
		if lost > mostLost {
			out.Lost[c] = lost
		}
		if merged > mostLost {
			out.Merged[c] = merged
		}
	}
}

// inked is how much of a seat one colour covers, in thousandths: all of it, and its parts row by row.
type inked struct {
	whole int
	part  [partsAside * partsAside]int
}

// inks is how much of each seat and of its parts every card colour covers in the drawing, each pixel taken
// for the colour nearest to it, and the colours in the order in which to draw them: most of it first, without
// that which fills most.
func (p *painting) inks() (inks [][]inked, order []int16) {
	im, seats, n := p.drawing.im, len(p.whole), len(p.Colours)
	inks = make([][]inked, n)
	share := make([]int, n)
	for first := 0; first < n; first += len(light{}) { // so many colours at once
		means := averages(im.canvas, func(y int, dst []light) {
			im.row(y, dst)
			var before light
			c := int(p.nearest(&before)) - first
			for x := range dst {
				if dst[x] != before {
					before = dst[x]
					c = int(p.nearest(&before)) - first
				}
				dst[x] = light{}
				if c >= 0 && c < len(light{}) {
					dst[x][c] = 1
				}
			}
		}, p.drawing.cells)
		for c := first; c < min(n, first+len(light{})); c++ {
			thousandths := func(cell int) int { return int(math.Round(1000 * means[cell][c-first])) }
			inks[c] = make([]inked, seats)
			for k := range inks[c] {
				in := &inks[c][k]
				in.whole = thousandths(k)
				share[c] += in.whole
				for i := range in.part {
					in.part[i] = thousandths(seats + k*len(in.part) + i)
				}
			}
		}
	}
	p.dropSoftEdges(inks, share)
	for c := range int16(n) {
		if share[c] > 0 {
			order = append(order, c)
		}
	}
	slices.SortStableFunc(order, func(a, b int16) int { return share[b] - share[a] })
	return inks, order[min(1, len(order)):]
}

// A colour that lies so near the line from one colour to another, in steps of sRGB, is what a soft edge between
// them looks like; a soft edge covers less of a seat than so many thousandths (ours, no source).
const (
	betweenAtMost = 40
	softAtMost    = 150
)

// dropSoftEdges takes away what is only the soft edge between two other colours of the drawing: of a colour
// between them less than an edge covers, or not three times as much as there is of either in the same seat.
func (c *Cards) dropSoftEdges(inks [][]inked, share []int) {
	c.eachMixture(func(mixed, a, b int) {
		if share[a] == 0 || share[b] == 0 {
			return
		}
		for k := range inks[mixed] {
			own := inks[mixed][k].whole
			if own < softAtMost || 3*min(inks[a][k].whole, inks[b][k].whole) >= own {
				inks[mixed][k] = inked{}
			}
		}
	})
}

// dropStrays gives a seat that shows a colour of which it has next to nothing, since the mean of others happens
// to be nearest to it, the colour that it has most of; a colour between two of which it has some may stay, as
// their shade.
func (c *Cards) dropStrays(inks [][]inked, shown []int16) {
	parents := make([][][2]int, len(inks))
	c.eachMixture(func(mixed, a, b int) { parents[mixed] = append(parents[mixed], [2]int{a, b}) })
	for k, own := range shown {
		if own == None || inks[own][k].whole >= softAtMost {
			continue
		}
		if slices.ContainsFunc(parents[own], func(of [2]int) bool {
			return min(inks[of[0]][k].whole, inks[of[1]][k].whole) > 0
		}) {
			continue
		}
		for i := range inks {
			if inks[i][k].whole > inks[shown[k]][k].whole {
				shown[k] = int16(i)
			}
		}
	}
}

// eachMixture names every colour that is about a mixture of two others, and these.
func (c *Cards) eachMixture(is func(mixed, a, b int)) {
	for mixed := range c.Colours {
		for a := range c.Colours {
			for b := range a {
				if a != mixed && b != mixed && between(c.Colours[mixed], c.Colours[a], c.Colours[b]) {
					is(mixed, a, b)
				}
			}
		}
	}
}

// between says whether a colour is about a mixture of a and b, and neither of them.
func between(mixed, a, b colour.RGB) bool {
	var along, long float64
	for i := range 3 {
		d := float64(b[i]) - float64(a[i])
		along += float64(d * (float64(mixed[i]) - float64(a[i])))
		long += float64(d * d)
	}
	if along <= 0 || along >= long {
		return false
	}
	off := 0.0
	for i := range 3 {
		at := float64(a[i]) + float64(along/long*(float64(b[i])-float64(a[i])))
		off += float64((at - float64(mixed[i])) * (at - float64(mixed[i])))
	}
	return off <= betweenAtMost*betweenAtMost
}
