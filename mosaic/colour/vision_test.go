package colour

import (
	"strings"
	"testing"
)

func visionNamed(t *testing.T, name string) Vision {
	t.Helper()
	for _, v := range Visions {
		if v.String() == name {
			return v
		}
	}
	t.Fatalf("no vision named %q", name)
	return 0
}

// Machado, Oliveira, Fernandes 2009, severity 1.0 (SEEN-2nd, see the README beside the table).
func TestVisionMatrices(t *testing.T) {
	for i, row := range table(t, "cvd_machado2009.csv", 9) {
		v := visionNamed(t, row[0])
		for j := range 3 {
			if got, want := machado[v][i%3][j], number(t, row[2+j]); got != want {
				t.Errorf("%s row %s column %d: got %v, want %v", row[0], row[1], j, got, want)
			}
		}
	}
}

// Worked eight-bit values (COMPUTED: the matrices on linear light, then clamped).
func TestVisionWorked(t *testing.T) {
	for _, row := range table(t, "cvd_worked.csv", 18) {
		got := visionNamed(t, row[0]).See(hex(t, strings.ToLower(row[1])).Linear()).RGB()
		for i := range got {
			if want := number(t, row[2+i]); float64(got[i]) != want {
				t.Errorf("%s of %s, channel %d: got %d, want %v", row[0], row[1], i, got[i], want)
			}
		}
	}
}

// Each row of the matrices sums to one within 1e-6 (COMPUTED), so greys are fixed points.
func TestVisionKeepsGreys(t *testing.T) {
	for _, v := range Visions {
		for g := range 256 {
			grey := RGB{uint8(g), uint8(g), uint8(g)}
			if got := v.See(grey.Linear()).RGB(); got != grey {
				t.Errorf("%v of %s: got %s", v, grey.Hex(), got.Hex())
			}
		}
	}
}

// What the matrices bring out of range is held to 0…1.
func TestVisionStaysInRange(t *testing.T) {
	for _, v := range Visions {
		for bits := range 8 {
			l := Linear{float64(bits & 1), float64(bits >> 1 & 1), float64(bits >> 2)}
			for i, seen := range v.See(l) {
				if seen < 0 || seen > 1 {
					t.Errorf("%v of %v, channel %d: %v", v, l, i, seen)
				}
			}
		}
	}
}
