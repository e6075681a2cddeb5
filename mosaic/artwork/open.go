package artwork

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	_ "image/gif" // decoders register themselves
	_ "image/jpeg"
	_ "image/png"
	"strings"

	_ "golang.org/x/image/bmp"
	_ "golang.org/x/image/tiff"
	_ "golang.org/x/image/webp"

	"everyseat/seating"
)

// Limits on images, checked before anything is decoded. Stands have some hundred
// seats across, so no message loses by them.
const (
	maxBytes  = 64 << 20   // 64 MiB
	maxPixels = 24_000_000 // 6000 × 4000
)

// Image is a decoded image.
type Image struct {
	Frames int // more than 1 in an animated GIF, PNG or WebP, of which the first is shown

	width, height int // as it is looked at, after turning
	turn          turn
	canvas        image.Point // size as stored; a GIF's first frame may cover only a part of it
	stored        image.RGBA64Image
	studio        bool // luma and chroma are in studio range, as in WebP, not in JPEG's full range
}

const canBeRead = "PNG, JPEG, GIF, WebP, BMP and TIFF can be read"

// Open decodes a file of at most 64 MiB and 24 million pixels; name is what faults call it. The fault
// has no Key. Colours are taken as sRGB whatever profile the file carries; of what moves the first
// frame counts.
func Open(name string, data []byte) (im *Image, fault *seating.Fault) {
	// The decoders are other people's and the file is a stranger's: a decoder that
	// trips over it must not take the program along.
	defer func() {
		if recover() != nil {
			im, fault = refused("save it again as PNG", "%s is damaged", name)
		}
	}()
	switch size := len(data); {
	case size == 0:
		return refused("copy the file again; "+canBeRead, "%s is empty", name)
	case size > maxBytes:
		return refused("save it smaller, 2000 pixels wide is plenty",
			"%s has %d MiB, more than the %d that are read", name, size>>20, maxBytes>>20)
	}
	still, moving := movingWebP(data)
	if moving > 0 && still == nil {
		return refused("save the picture that is meant as PNG",
			"%s is an animated WebP whose first picture cannot be taken by itself", name)
	} else if moving > 0 {
		data = still
	}
	config, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return unreadable(name, data, err)
	}
	w, h := config.Width, config.Height
	switch {
	case w <= 0 || h <= 0:
		return refused(canBeRead, "%s has no pixels", name)
	case int64(w)*int64(h) > maxPixels:
		return refused("scale it down, 2000 pixels wide is plenty",
			"%s has %d × %d pixels, more than the %d million that are read", name, w, h, maxPixels/1_000_000)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return unreadable(name, data, err)
	}
	im = &Image{width: w, height: h, canvas: image.Pt(w, h), stored: img.(image.RGBA64Image), turn: upright, Frames: 1}
	switch kind {
	case "gif":
		im.Frames = gifFrames(data)
	case "png":
		im.Frames = pngFrames(data)
	case "jpeg":
		im.turn = jpegTurn(data)
	case "tiff":
		im.turn = tiffTurn(data)
	case "webp":
		im.studio, im.Frames = true, max(moving, 1)
	}
	if im.turn >= 5 { // on its side
		im.width, im.height = h, w
	}
	return im, nil
}

func refused(hint, what string, a ...any) (*Image, *seating.Fault) {
	return nil, &seating.Fault{What: fmt.Sprintf(what, a...), Hint: hint}
}

// unreadable says in plain words why a decoder gave up.
func unreadable(name string, data []byte, err error) (*Image, *seating.Fault) {
	switch {
	case errors.Is(err, image.ErrFormat):
		return refused(canBeRead, "%s is not an image that can be read%s", name, looksLike(data))
	case strings.Contains(err.Error(), "unsupported"): // every decoder has its own type for it
		return refused("save it again as PNG", "%s is of a kind that cannot be read (%v)", name, err)
	}
	return refused("copy the file again, or save it again as PNG", "%s is damaged or cut short (%v)", name, err)
}

// looksLike names the usual files that are taken for images.
func looksLike(data []byte) string {
	brand := string(data[min(4, len(data)):min(12, len(data))])
	switch {
	case brand == "ftypheic", brand == "ftypheix", brand == "ftypmif1":
		return " (it is a HEIC photo)"
	case brand == "ftypavif":
		return " (it is an AVIF image)"
	case bytes.HasPrefix(data, []byte("%PDF")):
		return " (it is a PDF)"
	case bytes.Contains(data[:min(len(data), 512)], []byte("<svg")):
		return " (it is an SVG drawing)"
	}
	return ""
}

// gifFrames counts the pictures in a GIF (GIF89a specification, W3C copy,
// sections 17 to 27) without decoding them; what is cut short counts as far as it goes.
func gifFrames(data []byte) (frames int) {
	const screen, descriptor = 6 + 7, 10 // the header and what it says of the screen; before each picture
	if len(data) < screen {
		return 0
	}
	colourTable := func(flags byte) int { // its bytes
		if flags&0x80 == 0 {
			return 0
		}
		return 3 << (flags&7 + 1)
	}
	at := screen + colourTable(data[screen-3])
	for at < len(data) {
		switch data[at] {
		case 0x21: // an extension
			at += 2
		case 0x2c: // a picture
			if at+descriptor > len(data) {
				return frames
			}
			frames++
			at += descriptor + colourTable(data[at+descriptor-1]) + 1
		default: // the trailer
			return frames
		}
		for at < len(data) && data[at] != 0 { // blocks of data, to the empty one
			at += 1 + int(data[at])
		}
		at++
	}
	return frames
}

// pngFrames is what the acTL chunk of an animated PNG says (PNG specification, third
// edition, section 11.3.6.1), 1 without one; it stands before the picture data.
func pngFrames(data []byte) int {
	const signature, frame = 8, 12 // a chunk's length, type and check sum
	for at := signature; at+frame <= len(data); {
		size := int64(binary.BigEndian.Uint32(data[at:]))
		kind := string(data[at+4 : at+8])
		if kind == "acTL" && at+frame <= len(data)-4 {
			return int(min(binary.BigEndian.Uint32(data[at+8:]), 1<<20))
		}
		if kind == "acTL" || kind == "IDAT" || size > int64(len(data)) {
			break
		}
		at += frame + int(size)
	}
	return 1
}

// movingWebP takes the first picture out of an animated WebP, as a WebP of its own, and counts
// the pictures (WebP container specification, RFC 9649, section 2.7); frames is 0 for all that is no
// animated WebP. The still is nil where the first picture does not fill the canvas or is cut short.
func movingWebP(data []byte) (still []byte, frames int) {
	const header, extended = 12, 10
	const animation, alpha = 1 << 1, 1 << 4
	if len(data) < header+8+extended || string(data[:4]) != "RIFF" || string(data[8:16]) != "WEBPVP8X" ||
		data[header+8]&animation == 0 {
		return nil, 0
	}
	canvas := data[header+8+4 : header+8+extended] // width and height less one, three bytes each
	for at := header; at+8 <= len(data); {
		size := int64(binary.LittleEndian.Uint32(data[at+4:]))
		from := int64(at) + 8
		if string(data[at:at+4]) == "ANMF" {
			frames++
			const places = 16 // where it lies, its size, how long it stands
			if frames == 1 && size > places && from+size <= int64(len(data)) {
				f := data[from : from+size]
				if bytes.Equal(f[:6], make([]byte, 6)) && bytes.Equal(f[6:12], canvas) {
					still = wrapped(f[places:], canvas, data[header+8]&alpha)
				}
			}
		}
		next := from + size + size&1
		if next > int64(len(data)) {
			break
		}
		at = int(next)
	}
	return still, max(frames, 1)
}

// wrapped makes a still WebP of a frame's own chunks.
func wrapped(chunks, canvas []byte, flags byte) []byte {
	out := []byte("RIFF\x00\x00\x00\x00WEBP")
	if bytes.HasPrefix(chunks, []byte("ALPH")) {
		out = append(out, "VP8X\x0a\x00\x00\x00"...)
		out = append(append(out, flags, 0, 0, 0), canvas...)
	}
	out = append(out, chunks...)
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
	return out
}

// turn is how a stored image is turned to be looked at: the Orientation tag of
// TIFF 6.0 and Exif (0x0112), 1 to 8.
type turn uint8

const upright turn = 1

// stored is the place in the stored image, w × h, of a place in the image as it
// is looked at. Both count from the outer corner of the first pixel.
func (t turn) stored(x, y, w, h float64) [2]float64 {
	switch t {
	case 2: // mirrored
		return [2]float64{w - x, y}
	case 3: // upside down
		return [2]float64{w - x, h - y}
	case 4: // mirrored upside down
		return [2]float64{x, h - y}
	case 5: // first row is the left side, first column the top
		return [2]float64{y, x}
	case 6: // first row is the right side, first column the top
		return [2]float64{y, h - x}
	case 7: // first row is the right side, first column the bottom
		return [2]float64{w - y, h - x}
	case 8: // first row is the left side, first column the bottom
		return [2]float64{w - y, x}
	}
	return [2]float64{x, y}
}

// jpegTurn looks through the segments before the picture data for an Exif one.
// Whatever cannot be understood means upright: a bad tag is no reason to refuse a photo.
func jpegTurn(data []byte) turn {
	const startOfScan, app1 = 0xda, 0xe1
	for at := 2; at+4 <= len(data) && data[at] == 0xff; {
		marker := data[at+1]
		if marker == 0xff { // fill byte
			at++
			continue
		}
		size := int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == startOfScan || size < 2 || at+2+size > len(data) {
			break
		}
		body := data[at+4 : at+2+size]
		if exif, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); ok && marker == app1 {
			return tiffTurn(exif)
		}
		at += 2 + size
	}
	return upright
}

// tiffTurn reads the tag from the first directory of a TIFF structure.
func tiffTurn(data []byte) turn {
	const tagOrientation, typeShort, entrySize = 0x0112, 3, 12
	var order binary.ByteOrder
	switch {
	case len(data) >= 8 && string(data[:2]) == "II":
		order = binary.LittleEndian
	case len(data) >= 8 && string(data[:2]) == "MM":
		order = binary.BigEndian
	default:
		return upright
	}
	at := int64(order.Uint32(data[4:]))
	if at+2 > int64(len(data)) {
		return upright
	}
	count := int64(order.Uint16(data[at:]))
	for e := at + 2; e < at+2+count*entrySize && e+entrySize <= int64(len(data)); e += entrySize {
		entry := data[e : e+entrySize]
		if order.Uint16(entry) != tagOrientation {
			continue
		}
		if v := order.Uint16(entry[8:]); order.Uint16(entry[2:]) == typeShort && v >= 1 && v <= 8 {
			return turn(v)
		}
		break
	}
	return upright
}
