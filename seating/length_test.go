package seating

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// One inch is exactly 25.4 mm (the yard and pound agreement of 1959: MEMORY); all else is arithmetic by hand.
var lengthCases = []struct {
	text string
	want Length // nanometres
	out  string
}{
	{"18in", 457_200_000, "18in"},
	{`18"`, 457_200_000, "18in"},
	{"18”", 457_200_000, "18in"},
	{"18″", 457_200_000, "18in"},
	{"18''", 457_200_000, "18in"},
	{"18 in.", 457_200_000, "18in"},
	{"18 Inches", 457_200_000, "18in"},
	{"1/64in", 396_875, "1/64in"},
	{"9 5/8in", 244_475_000, "9 5/8in"},
	{"9-5/8 in", 244_475_000, "9 5/8in"},
	{"9⅝in", 244_475_000, "9 5/8in"},
	{"9 5⁄8″", 244_475_000, "9 5/8in"},
	{"9.625in", 244_475_000, "9 5/8in"},
	{"9,625 in", 0, ""}, // a thousands mark, or a decimal comma
	{`5'6"`, 1_676_400_000, "66in"},
	{"5’6”", 1_676_400_000, "66in"},
	{"5′ 6″", 1_676_400_000, "66in"},
	{"5'6", 1_676_400_000, "66in"},
	{`5'-6 1/2"`, 1_689_100_000, "66 1/2in"},
	{"5 ft 6 in", 1_676_400_000, "66in"},
	{"5ft6in", 1_676_400_000, "66in"},
	{"3 ft", 914_400_000, "3ft"},
	{"-3ft", -914_400_000, "-3ft"},
	{"−3 ft", -914_400_000, "-3ft"},
	{"0,46 m", 460_000_000, "46cm"},
	{"0.460m", 460_000_000, "46cm"},
	{"0,460 m", 460_000_000, "46cm"},
	{"46cm", 460_000_000, "46cm"},
	{"460 mm", 460_000_000, "46cm"},
	{"1 m 20 cm", 1_200_000_000, "1.2m"},
	{".5 m", 500_000_000, "50cm"},
	{"2\u00a0400 mm", 0, ""},
	{"0.000001 mm", 1, "0.000001mm"},
	{"0", 0, "0m"},
	{"0in", 0, "0m"},
	{"9223372036.854775807 m", math.MaxInt64, "9223372036.854775807m"},
	{"-9223372036.854775808 m", math.MinInt64, "-9223372036.854775808m"},
}

// A crew reads metres or feet; less than a foot is inches alone. 1 in = 25.4 mm (international yard and pound
// agreement 1959, from memory).
func TestSpoken(t *testing.T) {
	for l, want := range map[Length]string{
		0: "0.00 m (0 in)", 10 * Inch: "0.25 m (10 in)", 11*Inch + Inch/4: "0.29 m (11 in)", 11*Inch + Inch*3/4: "0.30 m (1 ft)",
		Foot: "0.30 m (1 ft)", 25 * Centimetre: "0.25 m (10 in)", 18 * Metre: "18.00 m (59 ft 1 in)", -Metre: "-1.00 m (-3 ft 3 in)", -Millimetre: "0.00 m (0 in)",
	} {
		if got := l.Spoken(); got != want {
			t.Errorf("%v is said as %q, want %q", l, got, want)
		}
	}
}

func TestParseLength(t *testing.T) {
	for _, c := range lengthCases {
		got, err := ParseLength(c.text)
		if c.out == "" {
			if err == nil {
				t.Errorf("%q: want a fault, got %v", c.text, got)
			}
			continue
		}
		if err != nil || got != c.want || got.String() != c.out {
			t.Errorf("%q: got %d %q %v, want %d %q", c.text, got, got.String(), err, c.want, c.out)
		}
	}
}

func TestLengthFaults(t *testing.T) {
	for _, c := range []struct{ text, what, hint string }{
		{"18", "has no unit", `"18in" or "18cm"`},
		{"9 5/8", "has no unit", `"9 5/8in"`},
		{"-18", "has no unit", `"18in"`},
		{"", "is no length", "18in"},
		{"in", "is no length", ""},
		{"about 18in", "is no length", ""},
		{"18 furlongs", "is no length", "in, ft, mm, cm and m"},
		{"1,200 mm", "thousands", `"1200"`},
		{"1,234.5 mm", "is no length", "thousands"},
		{"1.2.3m", "is no length", ""},
		{"1/3in", "nanometres", "mm"},
		{"0.0000001mm", "nanometres", ""},
		{"3/0in", "fraction", ""},
		{"9 9/8in", "fraction", ""},
		{"9.5 1/8in", "fraction", ""},
		{"5-6in", "is no length", ""},
		{`6"5'`, "mixes units", ""},
		{"5ft 20cm", "mixes units", ""},
		{"5ft 6", "last number", ""},
		{"10000000000m", "longer than", ""},
		{"1e3m", "is no length", ""},
		{strings.Repeat("1", 70) + "m", "is no length", ""},
		{"1\xffin", "is no length", ""},
	} {
		got, err := ParseLength(c.text)
		var f *Fault
		if !errors.As(err, &f) || !strings.Contains(f.What, c.what) || !strings.Contains(f.Hint, c.hint) {
			t.Errorf("%q: got %v %v, want a fault with %q and a hint with %q", c.text, got, err, c.what, c.hint)
		}
	}
}

func TestParseLengthIn(t *testing.T) {
	for _, c := range []struct {
		text string
		want Length
	}{{"9 5/8", 9*Inch + Inch*5/8}, {"24", 24 * Inch}, {"24 cm", 24 * Centimetre}, {"0,5", Inch / 2}} {
		if got, err := ParseLengthIn(c.text, Inch); err != nil || got != c.want {
			t.Errorf("%q in inches: got %v, %v, want %v", c.text, got, err, c.want)
		}
	}
}

func TestLengthText(t *testing.T) {
	text, _ := (18 * Inch).MarshalText()
	l := 7 * Metre
	if err := l.UnmarshalText(text); err != nil || l != 18*Inch {
		t.Errorf("%q came back as %v, %v", text, l, err)
	}
	if err := l.UnmarshalText([]byte("18")); err == nil || l != 18*Inch {
		t.Errorf("a bare number changed the length to %v (%v)", l, err)
	}
}

// Nine feet hold six places by the 18-inch rule: in floats of metres they need not.
func TestNineFeetHoldSix(t *testing.T) {
	if n := (9 * Foot) / BenchWidth; n != 6 || 9*Foot != 6*18*Inch {
		t.Errorf("nine feet hold %d", n)
	}
}

func TestLengthRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64().Draw(t, "nm"))
		if rapid.Bool().Draw(t, "inches") {
			l = l / (Inch / 64) * (Inch / 64)
		}
		got, err := ParseLength(l.String())
		if err != nil || got != l {
			t.Fatalf("%d is written %q and read back as %d, %v", l, l.String(), got, err)
		}
		if got, err := ParseLength(strings.Replace(l.String(), ".", ",", 1)); err == nil && got != l {
			t.Fatalf("%q with a comma is read as %d, want %d or a fault", l.String(), got, l)
		}
	})
}

func FuzzLength(f *testing.F) {
	for _, c := range lengthCases {
		f.Add(c.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ParseLength(text)
		if err != nil {
			var fault *Fault
			if !errors.As(err, &fault) || strings.ContainsAny(fault.Error(), "\n\r") {
				t.Fatalf("%q: %v is no fault on one line", text, err)
			}
			return
		}
		back, err := ParseLength(l.String())
		if err != nil || back != l {
			t.Fatalf("%q is %d, written %q, read back as %d, %v", text, l, l.String(), back, err)
		}
	})
}
