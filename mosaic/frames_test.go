package mosaic

import (
	"encoding/binary"
	"hash/crc32"
	"strings"
	"testing"

	"everyseat/mosaic/colour"
)

// A moving PNG carries its number of frames in an acTL chunk before the picture data
// (PNG specification, third edition); a still one has none.
func TestMovingPNG(t *testing.T) {
	still := halves(colour.RGB{}, colour.RGB{255, 255, 255})
	const header = 8 + 12 + 13 // signature and IHDR
	chunk := append([]byte("acTL"), 0, 0, 0, 7, 0, 0, 0, 0)
	moving := append([]byte{}, still[:header]...)
	moving = binary.BigEndian.AppendUint32(moving, 8)
	moving = append(moving, chunk...)
	moving = binary.BigEndian.AppendUint32(moving, crc32.ChecksumIEEE(chunk))
	moving = append(moving, still[header:]...)
	for want, data := range map[bool][]byte{true: moving, false: still} {
		s := gullhaven()
		s.Cues = []Cue{{ImageName: "wave.png", Image: data}}
		if w := strings.Join(mustMake(t, s).Warnings, " "); strings.Contains(w, "wave.png has 7 frames; the first one is shown") != want {
			t.Errorf("warnings %q", w)
		}
	}
	for n := range moving { // cut short anywhere it is one line, not a crash
		openImage("wave.png", moving[:n])
	}
}
