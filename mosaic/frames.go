package mosaic

import "encoding/binary"

// gifFrames counts the pictures in a GIF (GIF89a specification, W3C copy,
// sections 17 to 27) without decoding them; what is cut short counts as far as it goes.
func gifFrames(data []byte) int {
	const (
		header     = 6
		screen     = 7
		descriptor = 10 // with its introducer
		extension  = 0x21
		picture    = 0x2c
	)
	at := header + screen
	if len(data) < at {
		return 0
	}
	at += colourTable(data[header+4])
	frames := 0
	for at < len(data) {
		switch data[at] {
		case extension:
			at = skipBlocks(data, at+2)
		case picture:
			if at+descriptor > len(data) {
				return frames
			}
			frames++
			at = skipBlocks(data, at+descriptor+colourTable(data[at+descriptor-1])+1)
		default: // the trailer
			return frames
		}
	}
	return frames
}

// colourTable is the size in bytes of the table that the packed flags tell of.
func colourTable(flags byte) int {
	if flags&0x80 == 0 {
		return 0
	}
	return 3 << (flags&7 + 1)
}

// skipBlocks is the place behind data blocks that begin at a place.
func skipBlocks(data []byte, at int) int {
	for at < len(data) && data[at] != 0 {
		at += 1 + int(data[at])
	}
	return at + 1
}

// pngFrames is what the acTL chunk of an animated PNG says (PNG specification, third
// edition, section 11.3.6.1), 1 without one; it stands before the picture data.
func pngFrames(data []byte) int {
	const signature, frame = 8, 12 // a chunk's length, type and check sum
	for at := signature; at+frame <= len(data); {
		size := int64(binary.BigEndian.Uint32(data[at:]))
		switch string(data[at+4 : at+8]) {
		case "IDAT":
			return 1
		case "acTL":
			if at+frame <= len(data)-4 {
				return int(min(binary.BigEndian.Uint32(data[at+8:]), 1<<20))
			}
			return 1
		}
		if size > int64(len(data)) {
			return 1
		}
		at += frame + int(size)
	}
	return 1
}
