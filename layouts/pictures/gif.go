package pictures

import (
	"bufio"
	"compress/lzw"
	"encoding/binary"
	"image"
	"image/color"
	"io"
	"math/bits"
	"slices"
)

// longestDelay is what one frame can stand, in hundredths of a second.
const longestDelay = 1<<16 - 1

// gifWriter writes a GIF that plays for ever (GIF89a specification, W3C copy), frame by frame, so
// that no more than one is in memory. All frames share one palette, and each holds only the
// rectangle in which anything changes, what does not change in it being transparent.
type gifWriter struct {
	out         *bufio.Writer
	err         error
	width       int
	clear       uint8 // the transparent entry, where there is room for one
	transparent bool
	bits        int // of a palette entry, at least 2
}

func newGIF(w io.Writer, width, height int, colours color.Palette) *gifWriter {
	g := &gifWriter{
		out: bufio.NewWriter(w), width: width, clear: uint8(len(colours)), transparent: len(colours) < maxColours,
	}
	g.bits = max(2, bits.Len(uint(min(len(colours)+1, maxColours)-1)))
	g.put([]byte("GIF89a"))
	g.words(width, height)
	g.put([]byte{0x80 | 7<<4 | byte(g.bits-1), 0, 0}) // a palette for all, 8 bits a channel
	table := make([]byte, 3<<g.bits)
	for i, c := range colours {
		r, gr, b, _ := c.RGBA()
		table[3*i], table[3*i+1], table[3*i+2] = uint8(r>>8), uint8(gr>>8), uint8(b>>8)
	}
	g.put(table)
	g.put([]byte("\x21\xff\x0bNETSCAPE2.0\x03\x01\x00\x00\x00")) // again and again
	return g
}

func (g *gifWriter) put(data []byte) {
	if g.err == nil {
		_, g.err = g.out.Write(data)
	}
}

func (g *gifWriter) words(values ...int) {
	for _, v := range values {
		g.put(binary.LittleEndian.AppendUint16(nil, uint16(v)))
	}
}

// frame shows the pixels of a rectangle, row by row, for so many hundredths of a second.
func (g *gifWriter) frame(r image.Rectangle, pix []uint8, hundredths int) {
	g.picture(r, pix, min(hundredths, longestDelay))
	for hundredths -= longestDelay; hundredths > 0; hundredths -= longestDelay {
		// The picture stands longer than one frame can: its first pixel once more.
		g.picture(image.Rectangle{r.Min, r.Min.Add(image.Pt(1, 1))}, pix[:1], min(hundredths, longestDelay))
	}
}

func (g *gifWriter) picture(r image.Rectangle, pix []uint8, hundredths int) {
	const keep = 1 << 2 // the frame stays where the next one says nothing
	control := []byte{0x21, 0xf9, 4, keep, 0, 0, 0, 0}
	binary.LittleEndian.PutUint16(control[4:], uint16(hundredths))
	if g.transparent {
		control[3] |= 1
		control[6] = g.clear
	}
	g.put(control)
	g.put([]byte{0x2c})
	g.words(r.Min.X, r.Min.Y, r.Dx(), r.Dy())
	g.put([]byte{0, byte(g.bits)})
	if g.err != nil {
		return
	}
	blocks := &subBlocks{out: g.out}
	packed := lzw.NewWriter(blocks, lzw.LSB, g.bits)
	_, err := packed.Write(pix)
	if err == nil {
		err = packed.Close()
	}
	if err == nil {
		err = blocks.end()
	}
	g.err = err
}

// close ends the file; what went wrong first is said here.
func (g *gifWriter) close() error {
	g.put([]byte{0x3b})
	if g.err != nil {
		return g.err
	}
	return g.out.Flush()
}

// subBlocks cuts data into blocks of at most 255 bytes, each with its length before it.
type subBlocks struct {
	out  *bufio.Writer
	held [256]byte // the length, then the bytes
	n    int
}

func (b *subBlocks) WriteByte(c byte) error {
	b.n++
	b.held[b.n] = c
	if b.n < len(b.held)-1 {
		return nil
	}
	return b.flush()
}

func (b *subBlocks) Write(data []byte) (int, error) {
	for i, c := range data {
		if err := b.WriteByte(c); err != nil {
			return i, err
		}
	}
	return len(data), nil
}

// Flush is asked for by the packer, which then takes no buffer of its own; blocks end when they are full.
func (b *subBlocks) Flush() error { return nil }

func (b *subBlocks) flush() error {
	b.held[0] = byte(b.n)
	_, err := b.out.Write(b.held[:b.n+1])
	b.n = 0
	return err
}

// end writes what is left and the block without bytes that ends the data.
func (b *subBlocks) end() error {
	if b.n > 0 {
		if err := b.flush(); err != nil {
			return err
		}
	}
	return b.out.WriteByte(0)
}

// changed is the smallest rectangle outside which both pictures are alike; it is never empty,
// and everything where nothing was before.
func changed(was, now []uint8, width, height int) image.Rectangle {
	if was == nil {
		return image.Rect(0, 0, width, height)
	}
	r := image.Rectangle{image.Pt(width, height), image.Point{}}
	for y := range height {
		a, b := was[y*width:][:width], now[y*width:][:width]
		if slices.Equal(a, b) {
			continue
		}
		left, right := 0, width
		for a[left] == b[left] {
			left++
		}
		for a[right-1] == b[right-1] {
			right--
		}
		r.Min.X, r.Max.X = min(r.Min.X, left), max(r.Max.X, right)
		r.Min.Y, r.Max.Y = min(r.Min.Y, y), y+1
	}
	if r.Empty() {
		return image.Rect(0, 0, 1, 1)
	}
	return r
}
