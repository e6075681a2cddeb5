package pictures

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"slices"
	"sync"

	"everyseat/mosaic/colour"
)

// rgb is an sRGB colour, 8 bits a channel.
type rgb [3]uint8

// hex is "#rrggbb".
func (c rgb) hex() string { return colour.RGB(c).Hex() }

func (c rgb) opaque() color.RGBA { return color.RGBA{c[0], c[1], c[2], 255} }

// maxColours is what a palette picture can hold.
const maxColours = 256

// palette collects the colours of one picture; entry 0 is what shows where
// nothing is drawn.
type palette struct {
	entries []rgb
	index   map[rgb]uint8
}

func newPalette(nothing rgb) *palette {
	p := &palette{index: map[rgb]uint8{}}
	p.of(nothing)
	return p
}

// of is the entry for c, which is added if there is room; else the nearest one.
func (p *palette) of(c rgb) uint8 {
	if i, ok := p.index[c]; ok {
		return i
	}
	if len(p.entries) == maxColours {
		return p.nearest(c)
	}
	i := uint8(len(p.entries))
	p.entries = append(p.entries, c)
	p.index[c] = i
	return i
}

// nearest weighs the channels about as eyes do; ties go to the lower entry.
func (p *palette) nearest(c rgb) uint8 {
	best, at := math.MaxInt, 0
	for i, e := range p.entries {
		dr, dg, db := int(e[0])-int(c[0]), int(e[1])-int(c[1]), int(e[2])-int(c[2])
		if d := 3*dr*dr + 6*dg*dg + 2*db*db; d < best {
			best, at = d, i
		}
	}
	return uint8(at)
}

func (p *palette) colours() color.Palette {
	out := make(color.Palette, len(p.entries))
	for i, c := range p.entries {
		out[i] = c.opaque()
	}
	return out
}

// linearBits of light are kept while colours are averaged.
const linearBits = 12

// toLinear and toSRGB are the transfer curve of IEC 61966-2-1 as tables.
var (
	toLinear [256]uint16
	toSRGB   [1 << linearBits]uint8
)

func init() {
	for i := range toLinear {
		toLinear[i] = uint16(math.Round(colour.Decode(float64(i)/255) * (1<<linearBits - 1)))
	}
	at := 0
	for l := range toSRGB {
		for at < 255 && colour.Decode((float64(at)+0.5)/255)*(1<<linearBits-1) < float64(l) {
			at++
		}
		toSRGB[l] = uint8(at)
	}
}

// mixer averages palette colours in linear light and answers with palette
// entries. It is not safe for use by several goroutines at once; its answers
// do not depend on what it was asked before.
type mixer struct {
	pal    *palette
	linear [maxColours]uint64         // red, green, blue in lanes of 16 bits
	answer [1 << (3 * mixBits)]uint16 // entry + 1; 0 = not asked yet
}

// mixBits of each channel tell mixed colours apart.
const mixBits = 6

func (p *palette) mixer() *mixer {
	m := &mixer{pal: p}
	for i, c := range p.entries {
		m.linear[i] = uint64(toLinear[c[0]])<<32 | uint64(toLinear[c[1]])<<16 | uint64(toLinear[c[2]])
	}
	return m
}

// mix is the entry nearest to the average of four.
func (m *mixer) mix(a, b, c, d uint8) uint8 {
	if a == b && b == c && c == d {
		return a
	}
	// The sum of four fits a lane; two in each rounds the division by four.
	const half, quarter = 2<<32 | 2<<16 | 2, 1<<linearBits - 1
	sum := (m.linear[a] + m.linear[b] + m.linear[c] + m.linear[d] + half) >> 2
	const drop = 8 - mixBits
	lane := func(shift int) uint32 { return uint32(toSRGB[sum>>shift&quarter] >> drop) }
	key := lane(32)<<(2*mixBits) | lane(16)<<mixBits | lane(0)
	if m.answer[key] == 0 {
		m.answer[key] = 1 + uint16(m.pal.nearest(rgb{widen(key >> (2 * mixBits)), widen(key >> mixBits), widen(key)}))
	}
	return uint8(m.answer[key] - 1)
}

// widen turns the lowest mixBits bits into eight.
func widen(k uint32) uint8 {
	k &= 1<<mixBits - 1
	return uint8(k<<(8-mixBits) | k>>(2*mixBits-8))
}

// coloursOf says how many pixels have each colour.
func coloursOf(img *image.RGBA) map[rgb]int {
	counts := map[rgb]int{}
	for y, high := 0, img.Rect.Dy(); y < high; {
		line, same := lineOf(img, y), 1
		for y+same < high && bytes.Equal(line, lineOf(img, y+same)) {
			same++
		}
		for i := 0; i < len(line); {
			c, from := pixel(line[i:]), i
			for i < len(line) && pixel(line[i:]) == c {
				i += 4
			}
			counts[unpacked(c)] += (i - from) / 4 * same
		}
		y += same
	}
	return counts
}

// lineOf is a row's pixels, four bytes each.
func lineOf(img *image.RGBA, y int) []byte { return img.Pix[y*img.Stride:][:4*img.Rect.Dx()] }

// pixel is a colour in one number, quick to compare; unpacked is its way back.
func pixel(px []byte) uint32 { return binary.LittleEndian.Uint32(px) }

func unpacked(c uint32) rgb { return rgb{uint8(c), uint8(c >> 8), uint8(c >> 16)} }

// frequent lists colours, most used first, ties by value.
func frequent(counts map[rgb]int) []rgb {
	all := make([]rgb, 0, len(counts))
	for c := range counts {
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b rgb) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), slices.Compare(a[:], b[:]))
	})
	return all
}

// buffers lends the encoder its buffer from one picture to the next.
type buffers struct{ pool sync.Pool }

func (b *buffers) Get() *png.EncoderBuffer {
	e, _ := b.pool.Get().(*png.EncoderBuffer)
	return e
}

func (b *buffers) Put(e *png.EncoderBuffer) { b.pool.Put(e) }

var encoder = png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: &buffers{}}

func writePaletted(w io.Writer, img *image.Paletted) error { return encoder.Encode(w, img) }
