package pictures

import (
	"encoding/binary"
	"image"
	"math/bits"
	"slices"
)

// A tile is tileWide pixels of one picture row: 64 samples, bit line·tileWide +
// pixel of a mask. As long as few faces show in it, their planes and masks say
// everything about its depths; a ragged tile has a depth for every sample.
const (
	tileWide   = 16
	allSamples = ^uint64(0)
	maxLayers  = 6
)

// layer is what one face shows in a tile: the samples, and its inverse depth at
// the tile's corners, top left, top right, bottom left, bottom right.
type layer struct {
	mask    uint64
	corners [4]int32
}

func (l *layer) nearest() int32 {
	return max(max(l.corners[0], l.corners[1]), max(l.corners[2], l.corners[3]))
}

func (l *layer) farthest() int32 {
	return min(min(l.corners[0], l.corners[1]), min(l.corners[2], l.corners[3]))
}

// tile is what is known of 16 × 4 samples, beside band.farthest.
type tile struct {
	count   uint8 // of layers
	nearest int32 // of a ragged tile: no sample is nearer
	ragged  bool
	layers  [maxLayers]layer
}

// swatch is the colours of a tile's samples.
type swatch [64]uint8

// cover shows a layer where nothing nearer is.
func (b *band) cover(at int, l *layer, colour uint8) {
	t := &b.tiles[at]
	if t.ragged {
		b.coverRagged(at, l, colour)
		return
	}
	show := l.mask
	for i := range t.layers[:t.count] {
		o := &t.layers[i]
		if show&o.mask == 0 {
			continue
		}
		// How far before the other one it lies at each corner; at the same depth it is behind.
		p, q := l.corners[0]-o.corners[0], l.corners[1]-o.corners[1]
		r, s := l.corners[2]-o.corners[2], l.corners[3]-o.corners[3]
		if max(max(p, q), max(r, s)) <= 0 {
			show &^= o.mask
		} else if min(min(p, q), min(r, s)) < 0 {
			b.roughen(at)
			b.coverRagged(at, l, colour)
			return
		}
	}
	if show == 0 {
		return
	}
	if t.count == 0 && show != allSamples {
		b.colours[at] = swatch{}
	}
	b.colours[at].fill(show, colour)
	l.mask = show
	farthest, ok := t.put(l)
	if !ok {
		b.roughen(at)
		b.depths[at].lay(l)
		b.tiles[at].nearest = max(b.tiles[at].nearest, l.nearest())
		b.measure(at)
		return
	}
	b.farthest[at] = max(b.farthest[at], farthest)
}

// put makes room for l, which is in front wherever its mask is; ok is false when
// there is none. No sample is then farther than farthest; 0 while some are empty.
func (t *tile) put(l *layer) (farthest int32, ok bool) {
	kept := uint8(0)
	union := l.mask
	farthest = l.farthest()
	for i := range t.layers[:t.count] {
		o := &t.layers[i]
		o.mask &^= l.mask
		if o.mask == 0 {
			continue
		}
		union |= o.mask
		farthest = min(farthest, o.farthest())
		if kept != uint8(i) {
			t.layers[kept] = *o
		}
		kept++
	}
	t.count = kept
	if kept == maxLayers {
		return 0, false
	}
	t.layers[kept] = *l
	t.count++
	if union != allSamples {
		farthest = 0
	}
	return farthest, true
}

// roughen gives every sample its own depth.
func (b *band) roughen(at int) {
	t, d := &b.tiles[at], &b.depths[at]
	if t.count == 0 {
		b.colours[at] = swatch{}
	}
	*d = depths{}
	t.nearest = 0
	for i := range t.layers[:t.count] {
		d.lay(&t.layers[i])
		t.nearest = max(t.nearest, t.layers[i].nearest())
	}
	t.ragged, t.count = true, 0
}

// depths are inverse depths by sample; 0 is empty.
type depths [64]int32

// lay sets the depths of a layer's samples.
func (d *depths) lay(l *layer) {
	for m := l.mask; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		d[i] = l.at(i)
	}
}

// at is the inverse depth of a sample.
func (l *layer) at(sample int) int32 {
	line, px := sample/tileWide, int64(sample%tileWide)
	dx, dy := int64(l.corners[1])-int64(l.corners[0]), int64(l.corners[2])-int64(l.corners[0])
	// In 1/4096: a pixel is a 16th of dx, a line a fourth of dy.
	z := int64(l.corners[0])<<12 + dx*(px<<8+samplePhase[line]) + dy*int64(2*line+1)<<9
	return int32(z >> 12)
}

// coverRagged shows a layer in a ragged tile.
func (b *band) coverRagged(at int, l *layer, colour uint8) {
	t, d, s := &b.tiles[at], &b.depths[at], &b.colours[at]
	if l.mask == allSamples && l.farthest() > t.nearest {
		t.ragged, t.count = false, 1
		t.layers[0] = *l
		b.farthest[at] = l.farthest()
		s.fill(allSamples, colour)
		return
	}
	for m := l.mask; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if z := l.at(i); z > d[i] {
			d[i], s[i] = z, colour
		}
	}
	t.nearest = max(t.nearest, l.nearest())
	if l.mask == allSamples {
		b.measure(at)
	}
}

// coverEach shows samples of a face whose plane is too steep for a layer; x and
// y are the tile's first pixel.
func (b *band) coverEach(at int, mask uint64, fc *face, x, y int64) {
	t, d, s := &b.tiles[at], &b.depths[at], &b.colours[at]
	if !t.ragged {
		b.roughen(at)
	}
	for m := mask; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		line := int64(i / tileWide)
		within := (fc.a*samplePhase[line] + fc.b*(line*lineStep+lineStep/2)) >> subShift // of the pixel
		z := fc.c + fc.a*(x+int64(i%tileWide)) + fc.b*y + within
		if n := depthOf(max(0, min(tameLimit, z))); n > d[i] {
			d[i], s[i] = n, fc.colour
			t.nearest = max(t.nearest, n)
		}
	}
}

// measure finds the farthest sample of a ragged tile.
func (b *band) measure(at int) {
	b.farthest[at] = slices.Min(b.depths[at][:])
}

// spread has a byte of ones for every bit.
var spread [256]uint64

func init() {
	for i := range spread {
		for k := range 8 {
			if i>>k&1 != 0 {
				spread[i] |= 0xff << (8 * k)
			}
		}
	}
}

// fill colours the samples of a mask.
func (s *swatch) fill(mask uint64, colour uint8) {
	word := uint64(colour) * 0x0101010101010101
	if mask == allSamples {
		for i := 0; i < len(s); i += 8 {
			binary.LittleEndian.PutUint64(s[i:i+8], word)
		}
		return
	}
	for i := 0; mask != 0; i, mask = i+8, mask>>8 {
		if on := spread[mask&255]; on != 0 {
			p := s[i : i+8 : i+8]
			binary.LittleEndian.PutUint64(p, binary.LittleEndian.Uint64(p)&^on|word&on)
		}
	}
}

// resolve makes each pixel of the picture of its samples.
func (b *band) resolve(img *image.Paletted, pixels resolver, topRow int) {
	rows := min(bandRows, img.Rect.Dy()-topRow)
	w := img.Rect.Dx()
	var last [tileWide]uint8
	for r := range rows {
		out := img.Pix[(topRow+r)*img.Stride:][:w]
		for t := range b.across {
			at := r*b.across + t
			x := t * tileWide
			if k := &b.tiles[at]; k.count == 0 && !k.ragged {
				continue // entry 0, as the picture began
			}
			if x+tileWide <= w {
				pixels((*[tileWide]uint8)(out[x:]), &b.colours[at])
			} else {
				pixels(&last, &b.colours[at])
				copy(out[x:], last[:])
			}
		}
	}
}

// pixels averages the four samples of each pixel of a tile.
func (m *mixer) pixels(out *[tileWide]uint8, s *swatch) {
	for i := 0; i < tileWide; i += 8 {
		p := binary.LittleEndian.Uint64(s[i:])
		q := binary.LittleEndian.Uint64(s[i+tileWide:])
		r := binary.LittleEndian.Uint64(s[i+2*tileWide:])
		t := binary.LittleEndian.Uint64(s[i+3*tileWide:])
		if p == q && q == r && r == t {
			binary.LittleEndian.PutUint64(out[i:], p)
			continue
		}
		for j := i; j < i+8; j++ {
			out[j] = m.mix(s[j], s[j+tileWide], s[j+2*tileWide], s[j+3*tileWide])
		}
	}
}
