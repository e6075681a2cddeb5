package pictures

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"image"
	"image/png"
	"io"
	"slices"
)

// coloursOf says how many pixels have each colour.
func coloursOf(img *image.RGBA) map[rgb]int {
	counts := map[uint32]int{}
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
			counts[c] += (i - from) / 4 * same
		}
		y += same
	}
	out := make(map[rgb]int, len(counts))
	for c, n := range counts {
		out[unpacked(c)] = n
	}
	return out
}

// lineOf is a row's pixels, four bytes each.
func lineOf(img *image.RGBA, y int) []byte { return img.Pix[y*img.Stride:][:4*img.Rect.Dx()] }

// pixel is a colour in one number, quick to compare; unpacked is its way back.
func pixel(px []byte) uint32 { return binary.LittleEndian.Uint32(px) }

func unpacked(c uint32) rgb { return rgb{uint8(c), uint8(c >> 8), uint8(c >> 16)} }

// frequent lists colours, most used first, ties by value.
func frequent(counts map[rgb]int) []rgb {
	type used struct {
		c rgb
		n int
	}
	all := make([]used, 0, len(counts))
	for c, k := range counts {
		all = append(all, used{c, k})
	}
	slices.SortFunc(all, func(a, b used) int {
		return cmp.Or(cmp.Compare(b.n, a.n), slices.Compare(a.c[:], b.c[:]))
	})
	out := make([]rgb, len(all))
	for i := range out {
		out[i] = all[i].c
	}
	return out
}

// buffers lends the encoder its buffer from one picture to the next.
type buffers struct{ pool chan *png.EncoderBuffer }

func (b buffers) Get() *png.EncoderBuffer {
	select {
	case e := <-b.pool:
		return e
	default:
		return nil
	}
}

func (b buffers) Put(e *png.EncoderBuffer) {
	select {
	case b.pool <- e:
	default:
	}
}

var encoder = png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: buffers{make(chan *png.EncoderBuffer, 2)}}

func writePaletted(w io.Writer, img *image.Paletted) error { return encoder.Encode(w, img) }
