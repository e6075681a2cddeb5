package mosaic

import (
	"bytes"
	"encoding/binary"
)

// turn is how a stored image is turned to be looked at: the Orientation tag of
// TIFF 6.0 and Exif (0x0112), 1 to 8.
type turn uint8

const upright turn = 1

// swaps says that width and height change places.
func (t turn) swaps() bool { return t >= 5 }

// stored is the place in the stored image, w × h, of a place in the image as it
// is looked at. Both count from the outer corner of the first pixel.
func (t turn) stored(x, y, w, h float64) (float64, float64) {
	switch t {
	case 2: // mirrored
		return w - x, y
	case 3: // upside down
		return w - x, h - y
	case 4: // mirrored upside down
		return x, h - y
	case 5: // first row is the left side, first column the top
		return y, x
	case 6: // first row is the right side, first column the top
		return y, h - x
	case 7: // first row is the right side, first column the bottom
		return w - y, h - x
	case 8: // first row is the left side, first column the bottom
		return w - y, x
	}
	return x, y
}

// jpegTurn looks through the segments before the picture data for an Exif one.
// Whatever cannot be understood means upright: a bad tag is no reason to refuse a photo.
func jpegTurn(data []byte) turn {
	const (
		startOfScan = 0xda
		app1        = 0xe1
	)
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
	const (
		tagOrientation = 0x0112
		typeShort      = 3
		entrySize      = 12
	)
	if len(data) < 8 {
		return upright
	}
	var order binary.ByteOrder = binary.LittleEndian
	switch string(data[:2]) {
	case "II":
	case "MM":
		order = binary.BigEndian
	default:
		return upright
	}
	at := int64(order.Uint32(data[4:]))
	if at+2 > int64(len(data)) {
		return upright
	}
	count := int64(order.Uint16(data[at:]))
	for i := range count {
		e := at + 2 + i*entrySize
		if e+entrySize > int64(len(data)) {
			break
		}
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
