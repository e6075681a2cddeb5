package colour

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// table reads a reference table of testdata/reference; its README names the sources.
func table(t testing.TB, name string, rows int) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != rows+1 {
		t.Fatalf("%s has %d rows, want %d", name, len(all)-1, rows)
	}
	return all[1:]
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func hex(t testing.TB, s string) RGB {
	t.Helper()
	c, err := ParseHex(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Sharma, Wu, Dalal 2005, Table 1 (SEEN-2nd): all 34 pairs, both ways round.
// The table is rounded to four places.
func TestCIEDE2000(t *testing.T) {
	for i, row := range table(t, "ciede2000.csv", 34) {
		var v [7]float64
		for k := range v {
			v[k] = number(t, row[k])
		}
		a, b := Lab{v[0], v[1], v[2]}, Lab{v[3], v[4], v[5]}
		there, back := CIEDE2000(a, b), CIEDE2000(b, a)
		if math.Abs(there-v[6]) > 1e-4 {
			t.Errorf("pair %d: %.6f, want %.4f", i+1, there, v[6])
		}
		if math.Abs(back-v[6]) > 1e-4 {
			t.Errorf("pair %d the other way round: %.6f, want %.4f", i+1, back, v[6])
		}
	}
}

// A formula without the paper's rotation term must not pass the table.
func TestCIEDE2000TableTellsFormulasApart(t *testing.T) {
	var differ int
	for _, row := range table(t, "ciede2000.csv", 34) {
		d76 := math.Sqrt(math.Pow(number(t, row[0])-number(t, row[3]), 2) +
			math.Pow(number(t, row[1])-number(t, row[4]), 2) + math.Pow(number(t, row[2])-number(t, row[5]), 2))
		if math.Abs(d76-number(t, row[6])) > 1e-4 {
			differ++
		}
	}
	if differ < 30 {
		t.Errorf("the plain distance differs from the table in %d pairs only", differ)
	}
}

// IEC 61966-2-1 by its formula (COMPUTED), eight places.
func TestDecode(t *testing.T) {
	for v, want := range map[uint8]float64{
		0: 0, 1: 0.00030353, 10: 0.00303527, 11: 0.00334654, 64: 0.05126946,
		127: 0.21223076, 128: 0.21586050, 188: 0.50288646, 255: 1,
	} {
		if got := (RGB{v, 0, 0}).Linear()[0]; math.Abs(got-want) > 5e-9 {
			t.Errorf("%d decodes to %.9f, want %.8f", v, got, want)
		}
	}
}

// Half the light of white is 188, not 128 (COMPUTED: 0.5 encodes to 187.52).
func TestEncode(t *testing.T) {
	for i := range 256 {
		c := RGB{uint8(i), uint8(255 - i), 7}
		if got := c.Linear().RGB(); got != c {
			t.Errorf("%v comes back as %v", c, got)
		}
	}
	for _, c := range []struct {
		l    float64
		want uint8
	}{{0.5, 188}, {-1, 0}, {2, 255}, {math.NaN(), 0}, {math.Inf(1), 255}} {
		if got := (Linear{c.l, 0, 0}).RGB()[0]; got != c.want {
			t.Errorf("%v encodes to %d, want %d", c.l, got, c.want)
		}
	}
	// Against the encoding formula of the standard (SEEN-2nd), away from halves.
	for i := range 10000 {
		l := float64(i) / 9999
		v := 12.92 * l
		if l > 0.0031308 {
			v = 1.055*math.Pow(l, 1/2.4) - 0.055
		}
		v *= 255
		if math.Abs(v-math.Floor(v)-0.5) < 1e-3 {
			continue
		}
		if got := (Linear{l, 0, 0}).RGB()[0]; float64(got) != math.Round(v) {
			t.Errorf("%v encodes to %d, want %v", l, got, math.Round(v))
		}
	}
}

// CIELAB under D65 (COMPUTED with the seven-digit matrix; red 53.24, 80.09, 67.20 SEEN-2nd).
func TestLab(t *testing.T) {
	for s, want := range map[string]Lab{
		"#ff0000": {53.2408, 80.0925, 67.2032},
		"#00ff00": {87.7347, -86.1827, 83.1793},
		"#0000ff": {32.2970, 79.1875, -107.8602},
		"#ffff00": {97.1393, -21.5537, 94.4780},
		"#808080": {53.5850, 0, 0},
		"#ffffff": {100, 0, 0},
		"#000000": {0, 0, 0},
	} {
		got := hex(t, s).Linear().Lab()
		for k := range got {
			if math.Abs(got[k]-want[k]) > 1e-4 {
				t.Errorf("%s is %.5f, want %.4f", s, got, want)
				break
			}
		}
	}
}

// WCAG relative luminance and contrast ratio (COMPUTED by the formula SEEN in
// the W3C's text; 4.54 for #767676 on white SEEN-2nd).
func TestContrast(t *testing.T) {
	for _, row := range table(t, "wcag_contrast.csv", 13) {
		a, b := hex(t, row[0]), hex(t, row[1])
		if got := a.Linear().Luminance(); math.Abs(got-number(t, row[2])) > 1e-6 {
			t.Errorf("luminance of %s is %.7f, want %s", row[0], got, row[2])
		}
		if got := Contrast(a, b); math.Abs(got-number(t, row[4])) > 1e-4 {
			t.Errorf("%s on %s: %.5f, want %s", row[0], row[1], got, row[4])
		}
		if Contrast(a, b) != Contrast(b, a) {
			t.Errorf("%s on %s depends on the order", row[0], row[1])
		}
	}
}

func TestParseHex(t *testing.T) {
	if got := hex(t, "#1F4e9c"); got != (RGB{0x1f, 0x4e, 0x9c}) || got.Hex() != "#1f4e9c" {
		t.Errorf("#1F4e9c reads as %v, writes as %s", got, got.Hex())
	}
	for _, s := range []string{"", "#", "1f4e9c", "#1f4e9", "#1f4e9cc", "#1f4e9g", "#+f4e9c", "#1f_e9c", "red", "#ééé"} {
		if c, err := ParseHex(s); err == nil {
			t.Errorf("%q reads as %v", s, c)
		} else if !strings.Contains(err.Error(), strconv.Quote(s)) {
			t.Errorf("%q: the error does not show it: %v", s, err)
		}
	}
}

// colours is a varied set of n, from a small linear congruential generator.
func colours(n int) []RGB {
	out := make([]RGB, n)
	state := uint32(1)
	for i := range out {
		state = state*1664525 + 1013904223
		out[i] = RGB{uint8(state >> 8), uint8(state >> 16), uint8(state >> 24)}
	}
	return out
}

// The kept answer is the plain search's answer, also when it is asked again and
// when slots of the memo are shared.
func TestNearestIsTheSearch(t *testing.T) {
	palette := colours(12)
	p := NewPalette(palette)
	asked := colours(40000)
	for pass := range 2 {
		for _, c := range asked {
			best, least := -1, math.Inf(1)
			for i, q := range palette {
				if d := CIEDE2000(c.Linear().Lab(), q.Linear().Lab()); d < least-1e-6 {
					best, least = i, d
				}
			}
			if got := p.Nearest(c.Linear()); got != best {
				t.Fatalf("pass %d: %s goes to %d, want %d", pass, c.Hex(), got, best)
			}
		}
	}
}

func TestNearestTiesAndEdges(t *testing.T) {
	p := NewPalette([]RGB{{9, 9, 9}, {200, 0, 0}, {200, 0, 0}})
	if got := p.NearestRGB(RGB{201, 0, 0}); got != 1 {
		t.Errorf("a tie goes to %d, want the lower index 1", got)
	}
	if got := NewPalette(nil).Nearest(Linear{}); got != -1 {
		t.Errorf("an empty palette gives %d", got)
	}
	many := colours(300)
	if got := NewPalette(many).NearestRGB(many[299]); many[got] != many[299] {
		t.Errorf("of 300 colours %v goes to %v", many[299], many[got])
	}
}

func FuzzParseHex(f *testing.F) {
	for _, s := range []string{"#1f4e9c", "#FFFFFF", "", "#12345", "#zzzzzz", "blue"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if c, err := ParseHex(s); err == nil && c.Hex() != strings.ToLower(s) {
			t.Errorf("%q reads as %s", s, c.Hex())
		}
	})
}

func BenchmarkNearest(b *testing.B) {
	p, asked := NewPalette(colours(12)), colours(100_000)
	b.Run("asked-again", func(b *testing.B) {
		for i := range b.N {
			p.NearestRGB(asked[i%1000])
		}
	})
	b.Run("always-new", func(b *testing.B) {
		for i := range b.N {
			p.nearest(asked[i%len(asked)])
		}
	})
}
