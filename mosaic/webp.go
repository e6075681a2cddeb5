package mosaic

import (
	"bytes"
	"encoding/binary"
)

// movingWebP takes the first picture out of an animated WebP, as a WebP of its own, and counts
// the pictures (WebP container specification, RFC 9649, section 2.7); frames is 0 for all that is no
// animated WebP. The still is nil where the first picture does not fill the canvas or is cut short.
func movingWebP(data []byte) (still []byte, frames int) {
	const header, extended = 12, 10
	if len(data) < header+8+extended || string(data[:4]) != "RIFF" || string(data[8:16]) != "WEBPVP8X" {
		return nil, 0
	}
	const animation, alpha = 1 << 1, 1 << 4
	canvas := data[header+8+4 : header+8+extended] // width and height less one, three bytes each
	if data[header+8]&animation == 0 {
		return nil, 0
	}
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
