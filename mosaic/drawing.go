package mosaic

import (
	"math"
	"slices"
	"strings"

	"everyseat/mosaic/colour"
	"everyseat/seating/camera"
)

// A drawing has few colours (ours, no source): so many fill so much of it, in thousandths. The rest are the
// soft edges between them. Photographs and slopes have more.
const (
	drawingColours = 8
	drawingShare   = 930
	drawingPixels  = 250_000 // looked at, at most
	mostWidened    = 4       // if more than a fourth of the seats would change, it is a texture
)

// shaded is a colour of an image, in 32 steps a channel, and how many of the pixels looked at have it.
type shaded struct {
	shade, pixels int
}

// mainShades are the most frequent colours of an image, and how many pixels were looked at.
func (a *artwork) mainShades() (main []shaded, all int) {
	step := 1
	for (a.canvas.X/step)*(a.canvas.Y/step) > drawingPixels {
		step++
	}
	counts := make([]shaded, noShade+1)
	for i := range counts {
		counts[i].shade = i
	}
	pixels := make([]light, a.canvas.X)
	for y := step / 2; y < a.canvas.Y; y += step {
		a.row(y, pixels)
		for x := step / 2; x < a.canvas.X; x += step {
			counts[shadeOf(&pixels[x])].pixels++
			all++
		}
	}
	slices.SortStableFunc(counts, func(a, b shaded) int { return b.pixels - a.pixels })
	return counts[:drawingColours], all
}

// isDrawing says whether an image has so few colours that a thin stroke of it is meant as one.
func isDrawing(main []shaded, all int) bool {
	return 1000*total(main) >= drawingShare*all
}

func total(of []shaded) (n int) {
	for _, s := range of {
		n += s.pixels
	}
	return n
}

// inCards says whether nearly all of a drawing is in colours that there are cards of.
func (m *maker) inCards(main []shaded) bool {
	of := slices.DeleteFunc(slices.Clone(main), func(s shaded) bool {
		if s.shade == noShade {
			return false
		}
		c := colour.RGB{uint8(s.shade>>10<<3 | 4), uint8(s.shade>>5<<3 | 4), uint8(s.shade<<3 | 4)}
		return differ(c.Linear(), m.p.Stunt.Colours[m.palette.NearestRGB(c)].RGB.Linear()) >= confusable
	})
	return 1000*total(of) >= drawingShare*total(main)
}

// noShade is the shade of what is transparent.
const noShade = 1 << 15

// shadeOf is a colour in 32 steps a channel.
func shadeOf(l *light) int {
	if math.Round(l[3]*255) < 128 {
		return noShade
	}
	c := l.alone().RGB()
	return int(c[0]>>3)<<10 | int(c[1]>>3)<<5 | int(c[2]>>3)
}

// drawn is a drawing and where it lies, kept to find its strokes.
type drawn struct {
	art   *artwork
	cells []camera.Cell
	at    placement
	main  []shaded
}

// drawing is what a drawing's seats show: the nearest colours, thin strokes widened. It is nil where there are
// none of these and the drawing is in colours without a card, which others may have to be mixed for.
func (m *maker) drawing(cue *Cue, seats []int32, image *sampled, ground int16) []int16 {
	if image.drawn == nil || cue.Reduce != "" || cue.Exposure != nil {
		return nil
	}
	shown := make([]int16, len(seats))
	for k := range shown {
		shown[k] = m.nearest(&image.covered[k], ground)
	}
	changed := m.widen(image.drawn, seats, ground, shown)
	if slices.Max(changed) == 0 && !m.inCards(image.drawn.main) {
		return nil
	}
	m.sayWidened(cue, changed)
	return shown
}

// widen makes strokes of a drawing that are thinner than a seat one seat wide: of every colour but the one
// that fills most of it, rarer ones last, so that they lie over others. It gives the number of seats changed
// by colour.
func (m *maker) widen(d *drawn, seats []int32, ground int16, shown []int16) []int {
	changed := make([]int, len(m.p.Stunt.Colours))
	inks, order := m.inks(d, seats, ground)
	next := slices.Clone(shown)
	at := make([]int32, len(m.p.Stands.Seats)) // place in seats, from 1
	for k, s := range seats {
		at[s] = int32(k) + 1
	}
	sum := 0
	for _, c := range order {
		shows := make([]bool, len(seats))
		for k := range shows {
			shows[k] = shown[k] == c
		}
		for k := range m.p.Stands.Sections {
			s := strokes{walk: walkOf(&m.p.Stands.Sections[k], m.p.Stands.Seats, at), inked: inks[c], shows: shows}
			for _, n := range s.widened() {
				next[n] = c
			}
		}
	}
	for k := range next {
		if next[k] != shown[k] {
			changed[next[k]]++
			sum++
		}
	}
	if sum*mostWidened > len(seats) {
		return make([]int, len(changed))
	}
	copy(shown, next)
	return changed
}

// inks is how much of each seat and of its parts every card colour covers in the drawing, each pixel taken
// for the colour nearest to it, and the colours in the order in which to draw them: most of it first, without
// that which fills most.
func (m *maker) inks(d *drawn, seats []int32, ground int16) (inks [][]inked, order []int16) {
	quads := d.art.quads(d.cells, seats, d.at)
	quads = append(quads, parts(quads)...)
	n := len(m.p.Stunt.Colours)
	inks = make([][]inked, n)
	share := make([]int, n)
	row := m.classes(d.art, ground)
	for first := 0; first < n; first += len(light{}) {
		means := averages(d.art.canvas.X, d.art.canvas.Y, func(y int, dst []light) {
			for x, c := range row(y) {
				dst[x] = light{}
				if i := int(c) - first; i >= 0 && i < len(dst[x]) {
					dst[x][i] = 1
				}
			}
		}, quads)
		for c := first; c < min(n, first+len(light{})); c++ {
			inks[c] = make([]inked, len(seats))
			for k := range seats {
				in := &inks[c][k]
				in.whole = int(math.Round(1000 * means[k][c-first]))
				share[c] += in.whole
				for p := range in.part {
					in.part[p] = int(math.Round(1000 * means[len(seats)+k*len(in.part)+p][c-first]))
				}
			}
		}
	}
	for c := range int16(n) {
		if share[c] > 0 {
			order = append(order, c)
		}
	}
	slices.SortStableFunc(order, func(a, b int16) int { return share[b] - share[a] })
	return inks, order[min(1, len(order)):]
}

// classes gives the card colours of a row's pixels.
func (m *maker) classes(a *artwork, ground int16) func(y int) []int16 {
	pixels, out := make([]light, a.canvas.X), make([]int16, a.canvas.X)
	return func(y int) []int16 {
		a.row(y, pixels)
		for x := range pixels {
			if x > 0 && pixels[x] == pixels[x-1] {
				out[x] = out[x-1]
				continue
			}
			out[x] = m.nearest(&pixels[x], ground)
		}
		return out
	}
}

// sayWidened tells how many seats strokes were widened at.
func (m *maker) sayWidened(cue *Cue, changed []int) {
	sum := 0
	var names []string
	for c, n := range changed {
		if n > 0 {
			sum += n
			names = append(names, m.p.Stunt.Colours[c].Name)
		}
	}
	if sum > 0 {
		m.warn("Cue %q: thin strokes of %s in %s are widened to one seat, at %s; reduce = \"flat\" shows every seat its nearest colour instead.", cue.Name, strings.Join(names, " and "), imageName(cue), plural(sum, "seat"))
	}
}
