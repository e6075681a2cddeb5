package mosaic

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
