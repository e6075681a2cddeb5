package mosaic

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/gif" // decoders register themselves
	_ "image/jpeg"
	_ "image/png"
	"math"
	"strings"
	"sync"

	_ "golang.org/x/image/bmp"
	_ "golang.org/x/image/tiff"
	_ "golang.org/x/image/webp"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// Limits on images, checked before anything is decoded. Stands have some hundred
// seats across, so no message loses by them.
const (
	MaxImageBytes  = 64 << 20   // 64 MiB
	MaxImagePixels = 24_000_000 // 6000 × 4000
)

// artwork is a decoded image: width × height as it is looked at, after turning.
type artwork struct {
	width, height int
	turn          turn
	canvas        image.Point // size as stored; a GIF's first frame may cover only a part of it
	stored        image.Image
	frames        int  // more than 1 in an animated GIF, PNG or WebP, of which the first is shown
	studio        bool // luma and chroma are in studio range, as in WebP, not in JPEG's full range
}

const imageKinds = "PNG, JPEG, GIF, WebP, BMP and TIFF can be read"

// openImage decodes data; the fault has no Key yet. Colours are taken as sRGB
// whatever profile the file carries; of what moves the first frame counts.
func openImage(name string, data []byte) (a *artwork, fault *seating.Fault) {
	if name == "" {
		name = "the image"
	}
	if len(data) == 0 {
		return nil, &seating.Fault{What: name + " is empty", Hint: "copy the file again; " + imageKinds}
	}
	if len(data) > MaxImageBytes {
		return nil, &seating.Fault{
			What: fmt.Sprintf("%s has %d MiB, more than the %d that are read", name, len(data)>>20, MaxImageBytes>>20),
			Hint: "save it smaller, 2000 pixels wide is plenty",
		}
	}
	still, moving := movingWebP(data)
	if moving > 0 && still == nil {
		return nil, &seating.Fault{What: name + " is an animated WebP whose first picture cannot be taken by itself", Hint: "save the picture that is meant as PNG"}
	} else if moving > 0 {
		data = still
	}
	config, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, unreadable(name, data, err)
	}
	w, h := config.Width, config.Height
	if w <= 0 || h <= 0 {
		return nil, &seating.Fault{What: name + " has no pixels", Hint: imageKinds}
	}
	if int64(w)*int64(h) > MaxImagePixels {
		return nil, &seating.Fault{
			What: fmt.Sprintf("%s has %d × %d pixels, more than the %d million that are read", name, w, h, MaxImagePixels/1_000_000),
			Hint: "scale it down, 2000 pixels wide is plenty",
		}
	}
	// The decoders are other people's and the file is a stranger's: a decoder that
	// trips over it must not take the program along.
	defer func() {
		if recover() != nil {
			a, fault = nil, &seating.Fault{What: name + " is damaged", Hint: "save it again as PNG"}
		}
	}()
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, unreadable(name, data, err)
	}
	a = &artwork{width: w, height: h, canvas: image.Pt(w, h), stored: img, turn: upright, frames: 1}
	switch kind {
	case "gif":
		a.frames = gifFrames(data)
	case "png":
		a.frames = pngFrames(data)
	case "jpeg":
		a.turn = jpegTurn(data)
	case "tiff":
		a.turn = tiffTurn(data)
	case "webp":
		a.studio, a.frames = true, max(moving, 1)
	}
	if a.turn.swaps() {
		a.width, a.height = h, w
	}
	return a, nil
}

// unreadable says in plain words why a decoder gave up.
func unreadable(name string, data []byte, err error) *seating.Fault {
	switch {
	case errors.Is(err, image.ErrFormat):
		return &seating.Fault{What: name + " is not an image that can be read" + looksLike(data), Hint: imageKinds}
	case strings.Contains(err.Error(), "unsupported"): // every decoder has its own type for it
		return &seating.Fault{What: fmt.Sprintf("%s is of a kind that cannot be read (%v)", name, err), Hint: "save it again as PNG"}
	default:
		return &seating.Fault{What: fmt.Sprintf("%s is damaged or cut short (%v)", name, err), Hint: "copy the file again, or save it again as PNG"}
	}
}

// looksLike names the usual files that are taken for images.
func looksLike(data []byte) string {
	has := func(at int, magic string) bool {
		return len(data) >= at+len(magic) && string(data[at:at+len(magic)]) == magic
	}
	switch {
	case has(4, "ftypheic"), has(4, "ftypheix"), has(4, "ftypmif1"):
		return " (it is a HEIC photo)"
	case has(4, "ftypavif"):
		return " (it is an AVIF image)"
	case has(0, "%PDF"):
		return " (it is a PDF)"
	case bytes.Contains(data[:min(len(data), 512)], []byte("<svg")):
		return " (it is an SVG drawing)"
	}
	return ""
}

// light is premultiplied linear light with the share that is covered: r, g, b, alpha, all 0…1.
type light [4]float64

func (l *light) add(m *light, by float64) {
	for c := range l {
		l[c] += float64(m[c] * by)
	}
}

// row fills dst with the pixels of row y as stored. What the stored image does not cover is transparent.
func (a *artwork) row(y int, dst []light) {
	bounds := a.stored.Bounds()
	if y < bounds.Min.Y || y >= bounds.Max.Y {
		clear(dst)
		return
	}
	from, to := max(bounds.Min.X, 0), min(bounds.Max.X, a.canvas.X)
	if to <= from {
		clear(dst)
		return
	}
	clear(dst[:from])
	clear(dst[to:])
	a.pixels(dst[from:to], from, y)
}

// pixels reads row y from column x on.
func (a *artwork) pixels(dst []light, x, y int) {
	switch m := a.stored.(type) {
	case *image.NRGBA:
		pix := m.Pix[m.PixOffset(x, y):]
		for i := range dst {
			dst[i] = straight(pix[4*i], pix[4*i+1], pix[4*i+2], pix[4*i+3])
		}
	case *image.RGBA:
		pix := m.Pix[m.PixOffset(x, y):]
		for i := range dst {
			if pix[4*i+3] == 255 {
				dst[i] = straight(pix[4*i], pix[4*i+1], pix[4*i+2], 255)
			} else {
				dst[i] = premultiplied(m.RGBA64At(x+i, y))
			}
		}
	case *image.YCbCr:
		for i := range dst {
			dst[i] = a.ycbcr(m, x+i, y, 255)
		}
	case *image.NYCbCrA:
		for i := range dst {
			dst[i] = a.ycbcr(&m.YCbCr, x+i, y, m.A[m.AOffset(x+i, y)])
		}
	case *image.Paletted:
		a.lookUp(dst, m, x, y)
	case image.RGBA64Image: // grey, CMYK, 16 bits: all that the standard library has
		for i := range dst {
			dst[i] = premultiplied(m.RGBA64At(x+i, y))
		}
	default:
		for i := range dst {
			dst[i] = premultiplied(rgba64(m.At(x+i, y)))
		}
	}
}

// lookUp reads a row of palette indices.
func (a *artwork) lookUp(dst []light, m *image.Paletted, x, y int) {
	var table [256]light
	for i, c := range m.Palette[:min(len(m.Palette), 256)] {
		table[i] = premultiplied(rgba64(c))
	}
	for i, v := range m.Pix[m.PixOffset(x, y):][:len(dst)] {
		dst[i] = table[v]
	}
}

func rgba64(c color.Color) color.RGBA64 {
	r, g, b, a := c.RGBA()
	return color.RGBA64{R: uint16(r), G: uint16(g), B: uint16(b), A: uint16(a)}
}

func (a *artwork) ycbcr(m *image.YCbCr, x, y int, alpha uint8) light {
	luma, at := m.Y[m.YOffset(x, y)], m.COffset(x, y)
	if a.studio {
		r, g, b := studioRGB(luma, m.Cb[at], m.Cr[at])
		return straight(r, g, b, alpha)
	}
	r, g, b := color.YCbCrToRGB(luma, m.Cb[at], m.Cr[at])
	return straight(r, g, b, alpha)
}

// studioRGB decodes luma 16…235 and chroma 16…240 by ITU-R BT.601, as the WebP
// container specification says for lossy pictures. The decoder hands them out
// in the type of JPEG's full range, in which black would be grey.
func studioRGB(luma, cb, cr uint8) (r, g, b uint8) {
	const one = 1 << 16
	const (
		gain = one * 255 / 219
		rCr  = one * 1402 * 255 / 224 / 1000
		gCb  = one * 344136 * 255 / 224 / 1000000
		gCr  = one * 714136 * 255 / 224 / 1000000
		bCb  = one * 1772 * 255 / 224 / 1000
	)
	y, u, v := gain*(int(luma)-16)+one/2, int(cb)-128, int(cr)-128
	clamped := func(n int) uint8 { return uint8(min(max(n>>16, 0), 255)) }
	return clamped(y + rCr*v), clamped(y - gCb*u - gCr*v), clamped(y + bCb*u)
}

// straight is the light of an 8-bit pixel whose colour is not multiplied by its alpha.
func straight(r, g, b, alpha uint8) light {
	l := colour.RGB{r, g, b}.Linear()
	if alpha == 255 {
		return light{l[0], l[1], l[2], 1}
	}
	a := float64(alpha) / 255
	return light{l[0] * a, l[1] * a, l[2] * a, a}
}

// premultiplied is the light of a 16-bit pixel whose coded colour is multiplied by its alpha.
func premultiplied(c color.RGBA64) light {
	if c.A == 0 {
		return light{}
	}
	table := decoded16()
	a := float64(c.A) / math.MaxUint16
	var l light
	for i, v := range [3]uint16{c.R, c.G, c.B} {
		coded := (uint32(v)*math.MaxUint16 + uint32(c.A)/2) / uint32(c.A)
		l[i] = table[min(coded, math.MaxUint16)] * a
	}
	l[3] = a
	return l
}

var decoded16 = sync.OnceValue(func() *[1 << 16]float64 {
	t := new([1 << 16]float64)
	for i := range t {
		t[i] = colour.Decode(float64(i) / math.MaxUint16)
	}
	return t
})
