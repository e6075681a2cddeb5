package pictures

import (
	"math"
	"testing"

	"everyseat/mosaic/colour"
)

// TestLinearLight holds the tables against sRGB values of IEC 61966-2-1, worked
// out from its formula (COMPUTED; the formula as W3C's WCAG page has it, SEEN).
func TestLinearLight(t *testing.T) {
	for c, want := range map[int]float64{
		0: 0, 1: 0.00030353, 10: 0.00303527, 11: 0.00334654, 64: 0.05126946, 127: 0.21223076, 128: 0.21586050, 188: 0.50288646, 255: 1,
	} {
		const full = 1<<linearBits - 1
		if got := float64(toLinear[c]); math.Abs(got-want*full) > 0.5001 {
			t.Errorf("%d is %v of %d in linear light, want %.2f", c, got, full, want*full)
		}
	}
	for c, l := range toLinear {
		if back := int(toSRGB[l]); back != c && c > 12 {
			t.Errorf("%d comes back as %d", c, back)
		}
	}
}

// TestTablesAreSafe: no table entry is so near to a rounding edge that the last
// bit of a power could move it on another processor.
func TestTablesAreSafe(t *testing.T) {
	const full = 1<<linearBits - 1
	for c := range toLinear {
		x := colour.Decode(float64(c)/255) * full
		if frac := x - math.Floor(x); math.Abs(frac-0.5) < 1e-6 {
			t.Errorf("linear light of %d is %v", c, x)
		}
		if x := colour.Decode((float64(c)+0.5)/255) * full; c < 255 && math.Abs(x-math.Round(x)) < 1e-6 {
			t.Errorf("the edge above %d is %v", c, x)
		}
	}
}

// TestMix: half black and half white is 188 in sRGB, not 128: the average is of
// light (0.5 encodes to 187.5 by IEC 61966-2-1; COMPUTED).
func TestMix(t *testing.T) {
	p := newPalette(rgb{0, 0, 0})
	white, half, wrong := p.of(rgb{255, 255, 255}), p.of(rgb{188, 188, 188}), p.of(rgb{128, 128, 128})
	m := p.mixer()
	if got := m.mix(0, white, white, 0); got != half {
		t.Errorf("half black, half white is entry %d, want %d (%d is the average of the codes)", got, half, wrong)
	}
	if got := m.mix(white, white, white, white); got != white {
		t.Errorf("white and nothing else is entry %d", got)
	}
}

func TestPaletteIsFull(t *testing.T) {
	p := newPalette(rgb{0, 0, 0})
	for i := range 400 {
		p.of(rgb{uint8(i), uint8(i >> 1), 7})
	}
	if len(p.entries) != maxColours {
		t.Fatalf("%d entries", len(p.entries))
	}
	if e := p.entries[p.of(rgb{250, 250, 7})]; e[2] != 7 {
		t.Errorf("the nearest of a full palette is %v", e)
	}
}

// TestShirts: nobody's clothes pass for a card.
func TestShirts(t *testing.T) {
	shirts := shirtsFor(testColours)
	if len(shirts) < 8 {
		t.Fatalf("only %d shirts are left", len(shirts))
	}
	for _, s := range shirts {
		for _, c := range testColours {
			if d := apart(s, rgb(c.RGB)); d < clearOfCards {
				t.Errorf("shirt %s is %d from %s", s.hex(), d, c.Name)
			}
		}
	}
	grey := append(testColours[:0:0], testColours...)
	for i := range grey {
		grey[i].RGB = [3]uint8{0x70, 0x70, 0x70}
	}
	if len(shirtsFor(grey)) < 3 {
		t.Error("grey cards leave nobody a shirt")
	}
}
