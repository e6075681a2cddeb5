package pictures

import (
	"image"
	"image/color"
	"runtime"
	"sync"
)

// band is a few picture rows while they are developed, in tiles.
type band struct {
	across   int      // tiles a row
	tiles    []tile   // row by row
	farthest []int32  // by tile: no sample is farther; 0 while some are empty
	colours  []swatch // by tile
	depths   []depths // by tile, of ragged tiles only
	from, to []int64  // of the face at hand, by line, 1/256 pixel
}

const bandLines = bandRows * subLines

func newBand(width int) *band {
	across := (width + tileWide - 1) / tileWide
	n := across * bandRows
	return &band{
		across:   across,
		tiles:    make([]tile, n),
		farthest: make([]int32, n),
		colours:  make([]swatch, n),
		depths:   make([]depths, n),
		from:     make([]int64, bandLines),
		to:       make([]int64, bandLines),
	}
}

// develop fills the picture. Where nothing was added it has palette colour 0.
// Nearer faces win; of two at the same depth one of them, always the same.
func (f *film) develop(pal *palette) *image.Paletted {
	return f.developWith(pal.colours(), func() resolver { return pal.mixer().pixels })
}

// developMarks gives each pixel the mark of what shows at one of its samples, 0 where nothing does.
func (f *film) developMarks() []uint8 {
	one := func(out *[tileWide]uint8, s *swatch) { copy(out[:], s[tileWide:]) }
	return f.developWith(nil, func() resolver { return one }).Pix
}

// resolver makes pixels of a tile's samples.
type resolver func(out *[tileWide]uint8, s *swatch)

// developWith asks for a resolver for every worker.
func (f *film) developWith(colours color.Palette, pixels func() resolver) *image.Paletted {
	img := image.NewPaletted(image.Rect(0, 0, f.view.Width, f.view.Height), colours)
	bins := f.bins()
	workers := min(runtime.GOMAXPROCS(0), len(bins))
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			b, resolve := newBand(f.view.Width), pixels()
			for i := w; i < len(bins); i += workers {
				f.developBand(b, bins[i], i*bandRows)
				b.resolve(img, resolve, i*bandRows)
			}
		})
	}
	wg.Wait()
	return img
}

// bins lists by band the faces that reach into it, near ones first: what lies
// behind them is then passed over quickly.
func (f *film) bins() [][]uint32 {
	n := (f.view.Height + bandRows - 1) / bandRows
	counts := make([]int, n)
	for i := range f.faces {
		for b := f.faces[i].top / bandLines; b <= (f.faces[i].bottom-1)/bandLines; b++ {
			counts[b]++
		}
	}
	bins := make([][]uint32, n)
	for b, c := range counts {
		bins[b] = make([]uint32, 0, c)
	}
	for _, i := range f.nearFirst() {
		for b := f.faces[i].top / bandLines; b <= (f.faces[i].bottom-1)/bandLines; b++ {
			bins[b] = append(bins[b], i)
		}
	}
	return bins
}

// nearFirst orders the faces by their farthest corner in 256 steps of inverse
// depth, and as they were added within a step.
func (f *film) nearFirst() []uint32 {
	const steps = 256
	most := int32(1)
	for i := range f.faces {
		most = max(most, f.faces[i].farthest)
	}
	step := func(i int) int { return int(int64(most-f.faces[i].farthest) * (steps - 1) / int64(most)) }
	var starts [steps + 1]int
	for i := range f.faces {
		starts[step(i)+1]++
	}
	for k := range steps {
		starts[k+1] += starts[k]
	}
	order := make([]uint32, len(f.faces))
	for i := range f.faces {
		k := step(i)
		order[starts[k]] = uint32(i)
		starts[k]++
	}
	return order
}

func (f *film) developBand(b *band, faces []uint32, topRow int) {
	clear(b.farthest)
	for i := range b.tiles {
		b.tiles[i].count, b.tiles[i].ragged = 0, false
	}
	first := int32(topRow * subLines)
	last := min(first+bandLines, int32(f.view.Height*subLines))
	for _, i := range faces {
		fc := &f.faces[i]
		top, bottom := max(fc.top, first), min(fc.bottom, last)
		if b.hides(fc, (top-first)/subLines, (bottom-1-first)/subLines) {
			continue
		}
		b.outline(f.corners[fc.first:fc.first+uint32(fc.corners)], fc.mirrored, first, top, bottom)
		b.paint(fc, topRow, top-first, bottom-first, int64(f.view.Width))
	}
}

// hides says whether everything is nearer than the face where it may reach in
// the rows [top, bottom] of the band.
func (b *band) hides(fc *face, top, bottom int32) bool {
	for r := int(top); r <= int(bottom); r++ {
		for _, z := range b.farthest[r*b.across+int(fc.left) : r*b.across+int(fc.right)+1] {
			if z < fc.nearest {
				return false
			}
		}
	}
	return true
}

// outline notes where a convex polygon begins and ends on each line of [top,
// bottom); first is the band's first line. An edge gives the same places
// whichever face it belongs to and whichever way it runs, so that neighbours
// meet without gap or overlap.
func (b *band) outline(cs []corner, mirrored bool, first, top, bottom int32) {
	p := cs[len(cs)-1]
	for _, q := range cs {
		upper, lower, side := p, q, b.to
		if (q.y < p.y) != mirrored {
			side = b.from
		}
		if q.y < p.y {
			upper, lower = q, p
		}
		p = q
		y0 := max(top, int32(ceilLine(int64(upper.y))))
		y1 := min(bottom, int32(ceilLine(int64(lower.y))))
		if y0 >= y1 {
			continue
		}
		const bits = 20
		slope := (int64(lower.x-upper.x) << bits) / int64(lower.y-upper.y)
		x := int64(upper.x)<<bits + (int64(y0)*lineStep+lineStep/2-int64(upper.y))*slope
		for y := range side[y0-first : y1-first] {
			side[int(y0-first)+y] = x >> bits
			x += slope * lineStep
		}
	}
}

// paint fills a face between its outline, on the lines [top, bottom) of the
// band, one picture row after the other.
func (b *band) paint(fc *face, topRow int, top, bottom int32, width int64) {
	for row := top / subLines; row*subLines < bottom; row++ {
		var left, right [subLines]int64
		lo, hi := width, int64(0)     // touched by some line
		inLo, inHi := int64(0), width // inside on all lines
		for k := range int32(subLines) {
			line := row*subLines + k
			if line < top || line >= bottom {
				inHi = 0
				continue
			}
			phase := samplePhase[k]
			i := max(0, (b.from[line]-phase+255)>>subShift)
			end := min(width, (b.to[line]-phase+255)>>subShift)
			if i >= end {
				inHi = 0
				continue
			}
			left[k], right[k] = i, end
			lo, hi = min(lo, i), max(hi, end)
			inLo, inHi = max(inLo, i), min(inHi, end)
		}
		if lo < hi {
			b.row(fc, int64(topRow)+int64(row), int(row)*b.across, &left, &right, lo, hi, inLo, inHi)
		}
	}
}

// row covers the tiles of one picture row that a face touches. base is the row's first tile.
func (b *band) row(fc *face, y int64, base int, left, right *[subLines]int64, lo, hi, inLo, inHi int64) {
	first, last := lo/tileWide, (hi-1)/tileWide
	z := fc.c + fc.b*y + fc.a*tileWide*first
	across := fc.a * tileWide
	for t := first; t <= last; t++ {
		x := t * tileWide
		l := layer{corners: [4]int32{
			depthOf(z), depthOf(z + across), depthOf(z + fc.b), depthOf(z + across + fc.b),
		}}
		z += across
		at := base + int(t)
		if b.farthest[at] >= l.nearest() && fc.tame {
			continue
		}
		l.mask = allSamples
		if x < inLo || x+tileWide > inHi {
			l.mask = coverage(left, right, x)
		}
		if fc.tame {
			b.cover(at, &l, fc.colour)
		} else {
			b.coverEach(at, l.mask, fc, x, y)
		}
	}
}

// coverage is which samples of the tile at x lie between left and right.
func coverage(left, right *[subLines]int64, x int64) uint64 {
	var mask uint64
	for k := range left {
		s, e := max(0, left[k]-x), min(tileWide, right[k]-x)
		if s < e {
			mask |= (1<<uint(e) - 1) &^ (1<<uint(s) - 1) << uint(k*tileWide)
		}
	}
	return mask
}

// depthOf drops the fraction bits. The near clip keeps it below 2^30; nothing
// drawn is 0, so what rounding carries beyond infinity never shows.
func depthOf(z int64) int32 { return int32(z >> planeBits) }
