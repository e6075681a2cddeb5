package artwork

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
)

var quarterColours = map[string]colour.RGB{
	"red": {220, 30, 30}, "green": {20, 160, 40}, "blue": {30, 50, 200}, "yellow": {240, 210, 40},
}

// quarterMeans samples the inner part of each quarter of the image as it is looked at.
func quarterMeans(a *Image) []light {
	w, h := float64(a.width), float64(a.height)
	var cells []Quad
	for i := range 4 {
		l, t := float64(i%2)*w/2+w/8, float64(i/2)*h/2+h/8
		q := Quad{{l, t}, {l + w/4, t}, {l + w/4, t + h/4}, {l, t + h/4}}
		for k := range q {
			q[k] = a.turn.stored(q[k][0], q[k][1], float64(a.canvas.X), float64(a.canvas.Y))
		}
		cells = append(cells, q)
	}
	return a.means(cells)
}

// wantNear allows a few of 255: decoders round differently, and JPEG and WebP change flat colours.
func wantNear(t *testing.T, what string, l light, want colour.RGB, few float64) {
	t.Helper()
	got := l.alone().RGB()
	for c := range got {
		if math.Abs(float64(got[c])-float64(want[c])) > few || math.Abs(l[3]-1) > 1e-9 {
			t.Errorf("%s is %s (covered %.3f), want %s", what, got.Hex(), l[3], want.Hex())
			return
		}
	}
}

// Every kind of file against what Pillow reads (testdata/sampling, COMPUTED).
func TestOpenImageKinds(t *testing.T) {
	rows := readTable(t, "sampling/kind.csv")
	if len(rows) != 10 {
		t.Fatalf("%d kinds of image, want 10", len(rows))
	}
	for _, row := range rows {
		a := openTestImage(t, row[0])
		if fmt.Sprint(a.width, a.height) != row[1]+" "+row[2] {
			t.Errorf("%s is %d × %d, want %s × %s", row[0], a.width, a.height, row[1], row[2])
		}
		for i, l := range quarterMeans(a) {
			want, err := colour.ParseHex(row[3+i])
			if err != nil {
				t.Fatal(err)
			}
			wantNear(t, fmt.Sprintf("%s, quarter %d", row[0], i), l, want, 2)
		}
	}
}

// Against OpenCV's imread, which turns by the Exif tag (testdata/sampling, COMPUTED).
func TestOrientation(t *testing.T) {
	rows := readTable(t, "sampling/orientation.csv")
	if len(rows) != 8 {
		t.Fatalf("%d orientations, want 8", len(rows))
	}
	for _, row := range rows {
		a := openTestImage(t, row[0])
		if fmt.Sprint(a.width, a.height) != row[1]+" "+row[2] {
			t.Errorf("%s is %d × %d, want %s × %s", row[0], a.width, a.height, row[1], row[2])
		}
		for i, l := range quarterMeans(a) {
			wantNear(t, fmt.Sprintf("%s, quarter %d", row[0], i), l, quarterColours[row[3+i]], 4)
		}
	}
}

// Where the right half is transparent only the left half is covered, whatever colour lies beneath.
func TestTransparency(t *testing.T) {
	for _, name := range []string{"clear.png", "clear-16.png", "clear.gif", "clear.webp"} {
		got := quarterMeans(openTestImage(t, name))
		wantNear(t, name+", top left", got[0], quarterColours["red"], 4)
		wantNear(t, name+", bottom left", got[2], quarterColours["blue"], 4)
		if got[1] != (light{}) || got[3] != (light{}) {
			t.Errorf("%s: the transparent half gives %v, %v", name, got[1], got[3])
		}
		ground := colour.RGB{1, 2, 3}
		if rgb := got[1].over(ground.Linear()).RGB(); rgb != ground {
			t.Errorf("%s: the transparent half over %s is %s", name, ground.Hex(), rgb.Hex())
		}
	}
}

// Half-transparent white over black is half the light, in every way of storing it.
func TestHalfTransparent(t *testing.T) {
	rect := image.Rect(0, 0, 2, 2)
	pics := map[string]interface {
		image.RGBA64Image
		Set(x, y int, c color.Color)
	}{"straight": image.NewNRGBA(rect), "premultiplied": image.NewRGBA(rect), "16-bit": image.NewNRGBA64(rect), "16-bit premultiplied": image.NewRGBA64(rect)}
	for name, m := range pics {
		for i := range 4 {
			m.Set(i%2, i/2, color.NRGBA{255, 255, 255, 128})
		}
		a := &Image{width: 2, height: 2, turn: upright, canvas: image.Pt(2, 2), stored: m}
		got := a.means(plainGrid(1, 1, 2, 2))[0]
		if rgb := got.over(colour.Linear{}).RGB(); rgb != (colour.RGB{188, 188, 188}) {
			t.Errorf("%s: %s, want #bcbcbc", name, rgb.Hex())
		}
	}
}

// A first frame that covers only a part of the picture leaves the rest clear, and
// later frames are not looked at.
func TestGIFFirstFrame(t *testing.T) {
	frame := func(r image.Rectangle, c color.Color) *image.Paletted {
		p := image.NewPaletted(r, color.Palette{c})
		return p
	}
	var b bytes.Buffer
	err := gif.EncodeAll(&b, &gif.GIF{
		Image:  []*image.Paletted{frame(image.Rect(4, 0, 8, 8), color.NRGBA{220, 30, 30, 255}), frame(image.Rect(0, 0, 8, 8), color.Black)},
		Delay:  []int{1, 1},
		Config: image.Config{Width: 8, Height: 8},
	})
	if err != nil {
		t.Fatal(err)
	}
	a, fault := Open("two.gif", b.Bytes())
	if fault != nil {
		t.Fatal(fault)
	}
	if a.Frames != 2 {
		t.Errorf("%d frames are counted, want 2", a.Frames)
	}
	for n := range b.Len() {
		if got := gifFrames(b.Bytes()[:n]); got > 2 {
			t.Errorf("cut to %d bytes %d frames are counted", n, got)
		}
	}
	if one := openTestImage(t, "clear.gif"); one.Frames != 1 {
		t.Errorf("clear.gif: %d frames are counted, want 1", one.Frames)
	}
	if got := quarterMeans(a); got[0] != (light{}) || got[1].alone().RGB() != (colour.RGB{220, 30, 30}) {
		t.Errorf("quarters are %v", got)
	}
}

// A moving PNG carries its number of frames in an acTL chunk before the picture data
// (PNG specification, third edition); a still one has none.
func TestMovingPNG(t *testing.T) {
	var still bytes.Buffer
	if err := png.Encode(&still, image.NewGray(image.Rect(0, 0, 64, 32))); err != nil {
		t.Fatal(err)
	}
	const header = 8 + 12 + 13 // signature and IHDR
	chunk := append([]byte("acTL"), 0, 0, 0, 7, 0, 0, 0, 0)
	moving := bytes.Clone(still.Bytes()[:header])
	moving = binary.BigEndian.AppendUint32(moving, 8)
	moving = append(moving, chunk...)
	moving = binary.BigEndian.AppendUint32(moving, crc(chunk))
	moving = append(moving, still.Bytes()[header:]...)
	for frames, data := range map[int][]byte{7: moving, 1: still.Bytes()} {
		if a, fault := Open("wave.png", data); fault != nil || a.Frames != frames {
			t.Errorf("%v, want %d frames; fault %v", a, frames, fault)
		}
	}
	for n := range moving { // cut short anywhere it is one line, not a crash
		if _, fault := Open("wave.png", moving[:n]); fault == nil || strings.Contains(fault.Error(), "\n") {
			t.Errorf("cut to %d bytes: %v", n, fault)
		}
	}
}

// An animated WebP, made by ImageMagick (libwebp), shows its first picture; where that fills only a
// part, or the file is cut short, one line says what to do.
func TestMovingWebP(t *testing.T) {
	whole, err := os.ReadFile("../../testdata/sampling/moving.webp")
	if err != nil {
		t.Fatal(err)
	}
	a, fault := Open("moving.webp", whole)
	if fault != nil {
		t.Fatal(fault)
	}
	if a.Frames != 2 || a.width != 40 || a.height != 20 {
		t.Errorf("%d frames of %d × %d, want 2 of 40 × 20", a.Frames, a.width, a.height)
	}
	for i, l := range quarterMeans(a) { // red, as saved with loss
		if c := l.alone().RGB(); c[0] < 240 || c[1] > 15 || c[2] > 15 {
			t.Errorf("quarter %d is %s", i, c.Hex())
		}
	}
	aside := bytes.Clone(whole)
	aside[bytes.Index(aside, []byte("ANMF"))+8] = 1
	if _, fault := Open("aside.webp", aside); fault == nil || !strings.Contains(fault.What, "aside.webp is an animated WebP whose first picture") || fault.Hint == "" {
		t.Errorf("%v", fault)
	}
	for n := range whole {
		if a, fault := Open("short.webp", whole[:n]); fault != nil && (fault.Hint == "" || strings.Contains(fault.Error(), "broke")) {
			t.Errorf("cut to %d bytes: %v", n, fault)
		} else if fault == nil && n < bytes.LastIndex(whole, []byte("ANMF")) {
			t.Errorf("cut to %d bytes: %d × %d", n, a.width, a.height)
		}
	}
}

// pngSaying is a PNG whose header claims a size.
func pngSaying(t testing.TB, w, h uint32) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewGray(image.Rect(0, 0, 1, 1))); err != nil {
		t.Fatal(err)
	}
	data := b.Bytes()
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc(data[12:29]))
	return data
}

// crc is PNG's (ISO 3309), bit by bit.
func crc(data []byte) uint32 {
	c := ^uint32(0)
	for _, d := range data {
		c ^= uint32(d)
		for range 8 {
			c = c>>1 ^ 0xedb88320*(c&1)
		}
	}
	return ^c
}

func TestOpenImageRefuses(t *testing.T) {
	whole, err := os.ReadFile("../../testdata/sampling/picture.png")
	if err != nil {
		t.Fatal(err)
	}
	photo, err := os.ReadFile("../../testdata/sampling/kind-progressive.jpg")
	if err != nil {
		t.Fatal(err)
	}
	flipped := bytes.Clone(whole)
	flipped[len(flipped)/2] ^= 0xff
	for _, c := range []struct {
		name string
		data []byte
		what string
	}{
		{"nothing.png", nil, "nothing.png is empty"},
		{"huge.png", make([]byte, maxBytes+1), "huge.png has 64 MiB, more than"},
		{"wide.png", pngSaying(t, 6001, 4000), "wide.png has 6001 × 4000 pixels, more than the 24 million"},
		{"tall.png", pngSaying(t, 2, 1<<24), "tall.png has 2 × 16777216 pixels, more than"},
		{"bomb.png", pngSaying(t, 1<<30, 1<<30), "bomb.png is of a kind that cannot be read"},
		{"short.png", whole[:len(whole)/2], "short.png is damaged or cut short"},
		{"short.jpg", photo[:len(photo)-100], "short.jpg is damaged or cut short"},
		{"header.png", whole[:20], "header.png is damaged or cut short"},
		{"flipped.png", flipped, "flipped.png is damaged or cut short"},
		{"words.txt", []byte("this is no image at all"), "words.txt is not an image that can be read"},
		{"plan.pdf", []byte("%PDF-1.4 and so on"), "it is a PDF"},
		{"drawing.svg", []byte(`<?xml version="1.0"?><svg></svg>`), "it is an SVG drawing"},
		{"phone.heic", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "it is a HEIC photo"},
		{"header.gif", []byte("GIF89a"), "header.gif is damaged or cut short"},
	} {
		a, fault := Open(c.name, c.data)
		if fault == nil {
			t.Errorf("%s is opened as %d × %d", c.name, a.width, a.height)
			continue
		}
		if !strings.Contains(fault.What, c.what) || fault.Hint == "" || strings.Contains(fault.Error(), "\n") {
			t.Errorf("%s: %q, want %q and a hint", c.name, fault.Error(), c.what)
		}
	}
	if _, fault := Open("limit.png", pngSaying(t, 6000, 4000)); fault == nil || strings.Contains(fault.What, "more than") {
		t.Errorf("6000 × 4000 is within the limit, but: %v", fault)
	}
}

// A tag that makes no sense leaves the picture as it is.
func TestTurnOfNonsense(t *testing.T) {
	tag := func(order string, kind, value uint16) []byte {
		var o binary.AppendByteOrder = binary.LittleEndian
		if order == "MM" {
			o = binary.BigEndian
		}
		b := o.AppendUint16([]byte(order), 42)
		b = o.AppendUint32(b, 8)
		b = o.AppendUint16(b, 1)
		b = o.AppendUint16(b, 0x0112)
		b = o.AppendUint16(b, kind)
		b = o.AppendUint32(b, 1)
		return append(o.AppendUint16(b, value), 0, 0)
	}
	for _, order := range []string{"II", "MM"} {
		for v := range uint16(12) {
			want := upright
			if v >= 1 && v <= 8 {
				want = turn(v)
			}
			if got := tiffTurn(tag(order, 3, v)); got != want {
				t.Errorf("%s orientation %d is read as %d", order, v, got)
			}
		}
		if got := tiffTurn(tag(order, 4, 6)); got != upright {
			t.Errorf("%s: a tag of another type is read as %d", order, got)
		}
		whole := tag(order, 3, 6)
		for n := range len(whole) - 4 {
			if got := tiffTurn(whole[:n]); got != upright {
				t.Errorf("%s cut to %d bytes is read as %d", order, n, got)
			}
		}
	}
}

func FuzzOpenImage(f *testing.F) {
	files, err := filepath.Glob("../../testdata/sampling/*.*")
	if err != nil {
		f.Fatal(err)
	}
	seeds := 0
	for _, name := range files {
		switch filepath.Ext(name) {
		case ".png", ".jpg", ".gif", ".webp", ".bmp", ".tiff":
			data, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
			f.Add(data[:len(data)*2/3])
			seeds++
		}
	}
	if seeds < 20 {
		f.Fatalf("%d seeds in testdata/sampling", seeds)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		a, fault := Open("fuzz-"+strconv.Itoa(len(data)), data)
		if fault != nil {
			if fault.What == "" || strings.Contains(fault.What, "\n") {
				t.Errorf("the fault says %q", fault.What)
			}
			return
		}
		if a.width*a.height > 1<<20 {
			return // within the limits, but slow to look at
		}
		for _, l := range a.means(plainGrid(3, 2, float64(a.canvas.X), float64(a.canvas.Y))) {
			for _, v := range l {
				if !(v >= 0 && v <= 1) {
					t.Fatalf("a mean of %v", l)
				}
			}
		}
	})
}
