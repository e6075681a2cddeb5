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
	drawingPixels  = 40_000 // looked at, at most
	mostWidened    = 4      // if more than a fourth of the seats would change, it is a texture
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
	counts := make([]int, noShade+1)
	pixels := make([]light, a.canvas.X)
	for y := step / 2; y < a.canvas.Y; y += step {
		a.row(y, pixels)
		for x := step / 2; x < a.canvas.X; x += step {
			counts[shadeOf(&pixels[x])]++
			all++
		}
	}
	for shade, n := range counts {
		if n > 0 {
			main = append(main, shaded{shade, n})
		}
	}
	slices.SortStableFunc(main, func(a, b shaded) int { return b.pixels - a.pixels })
	return main[:min(drawingColours, len(main))], all
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
	changed, lost, melted := m.widen(image.drawn, seats, ground, shown)
	if slices.Max(changed) == 0 && !m.inCards(image.drawn.main) {
		return nil
	}
	m.sayWidened(cue, changed)
	m.sayLost(cue, lost, "are too thin to keep at %s and are lost there: draw them thicker")
	m.sayLost(cue, melted, "lie closer than a seat at %s and run together there: draw them farther apart")
	return shown
}

// widen makes strokes of a drawing that are thinner than a seat one seat wide: of every colour but the one
// that fills most of it, rarer ones last, so that they lie over others. It gives the numbers of seats changed,
// of those over which a stroke runs that nothing near them shows, and of those at which strokes run together, by
// colour.
func (m *maker) widen(d *drawn, seats []int32, ground int16, shown []int16) (changed, lost, melted []int) {
	n := len(m.p.Stunt.Colours)
	changed, lost, melted = make([]int, n), make([]int, n), make([]int, n)
	inks, order := m.inks(d, seats, ground)
	m.dropStrays(inks, shown)
	next := slices.Clone(shown)
	at := make([]int32, len(m.p.Stands.Seats)) // place in seats, from 1
	for k, s := range seats {
		at[s] = int32(k) + 1
	}
	var walks []*walk
	for k := range m.p.Stands.Sections {
		walks = append(walks, walkOf(&m.p.Stands.Sections[k], m.p.Stands.Seats, at))
	}
	sum := 0
	for _, c := range order {
		shows := make([]bool, len(seats))
		for k := range shows {
			shows[k] = shown[k] == c
		}
		for _, w := range walks {
			s := strokes{walk: w, inked: inks[c], shows: shows}
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
		clear(changed)
	} else {
		copy(shown, next)
	}
	for _, c := range order {
		for _, w := range walks {
			lost[c] += w.lost(inks[c], shown, c)
			melted[c] += w.melted(inks[c], shown, c)
		}
	}
	return changed, lost, melted
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
	m.dropSoftEdges(inks, share)
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
func (m *maker) dropSoftEdges(inks [][]inked, share []int) {
	for c := range inks {
		for a := range inks {
			for b := range a {
				if a == c || b == c || share[a] == 0 || share[b] == 0 || !m.between(c, a, b) {
					continue
				}
				for k := range inks[c] {
					if own := inks[c][k].whole; own < softAtMost || 3*min(inks[a][k].whole, inks[b][k].whole) >= own {
						inks[c][k] = inked{}
					}
				}
			}
		}
	}
}

// dropStrays gives a seat that shows a colour of which it has next to nothing, since the mean of others happens
// to be nearest to it, the colour that it has most of; colours between two others may stay, as its shades.
func (m *maker) dropStrays(inks [][]inked, shown []int16) {
	for k, c := range shown {
		if c == None || inks[c][k].whole >= softAtMost {
			continue
		}
		most := int(c)
		for i := range inks {
			if inks[i][k].whole > inks[most][k].whole {
				most = i
			}
		}
		if !m.shade(inks, int(c), k) {
			shown[k] = int16(most)
		}
	}
}

// shade says whether a colour is between two others of which a seat has some.
func (m *maker) shade(inks [][]inked, c, k int) bool {
	for a := range inks {
		for b := range a {
			if a != c && b != c && min(inks[a][k].whole, inks[b][k].whole) > 0 && m.between(c, a, b) {
				return true
			}
		}
	}
	return false
}

// between says whether colour c is about a mixture of a and b, and neither of them.
func (m *maker) between(c, a, b int) bool {
	colours := m.p.Stunt.Colours
	var along, long float64
	for i := range 3 {
		d := float64(colours[b].RGB[i]) - float64(colours[a].RGB[i])
		along += float64(d * (float64(colours[c].RGB[i]) - float64(colours[a].RGB[i])))
		long += float64(d * d)
	}
	if along <= 0 || along >= long {
		return false
	}
	off := 0.0
	for i := range 3 {
		at := float64(colours[a].RGB[i]) + float64(along/long*(float64(colours[b].RGB[i])-float64(colours[a].RGB[i])))
		off += float64((at - float64(colours[c].RGB[i])) * (at - float64(colours[c].RGB[i])))
	}
	return off <= betweenAtMost*betweenAtMost
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

// mostLost is at how many seats a stroke may be lost, or two be one, that nobody misses (ours, no source).
const mostLost = 2

// sayLost tells what becomes of strokes at so many seats.
func (m *maker) sayLost(cue *Cue, at []int, what string) {
	sum := 0
	var names []string
	for c, n := range at {
		if n > mostLost {
			sum += n
			names = append(names, m.p.Stunt.Colours[c].Name)
		}
	}
	if sum > 0 {
		m.warn("Cue %q: strokes of %s in %s "+what+".", cue.Name, strings.Join(names, " and "), imageName(cue), plural(sum, "seat"))
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
