package pictures

import (
	"cmp"
	"image"
	"image/png"
	"io"
	"slices"
)

// coloursOf says how many pixels have each colour.
func coloursOf(img *image.RGBA) map[rgb]int {
	counts := map[rgb]int{}
	var last rgb
	run := 0
	for i := 0; i < len(img.Pix); i += 4 {
		px := img.Pix[i : i+3 : i+3]
		if c := (rgb{px[0], px[1], px[2]}); c != last {
			counts[last] += run
			last, run = c, 0
		}
		run++
	}
	counts[last] += run
	return counts
}

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
