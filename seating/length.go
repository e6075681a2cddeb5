package seating

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Length is an exact length in nanometres: every 64th of an inch and every
// hundredth of a millimetre is a whole number, so nine feet hold exactly six
// 18-inch pitches.
type Length int64

// The units that survey tables and stunt files use.
const (
	Millimetre Length = 1_000_000
	Centimetre Length = 10 * Millimetre
	Metre      Length = 1000 * Millimetre
	Inch       Length = 25_400_000
	Foot       Length = 12 * Inch
)

// maxLengthText bounds what ParseLength looks at, in bytes.
const maxLengthText = 64

// Metres is l in metres.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// ParseLength reads "18in", "9 5/8in", `5'6"`, "5 ft 6 in", "0.46 m", "0,46 m",
// "46cm", "460 mm", "1 m 20 cm", "-3 ft". Typographic quotes and primes, ½ and
// its like, and a decimal comma are read too; "0" needs no unit. Errors are
// *Fault without a Key: a number without a unit (the hint says what to write), a
// comma that may be a thousands mark, a length that is no whole number of
// nanometres (nothing is rounded), one that an int64 cannot hold.
func ParseLength(s string) (Length, error) { return ParseLengthIn(s, 0) }

// ParseLengthIn reads a length as ParseLength does, but a bare number is in
// unit, as in a table column whose header names it. Unit 0 refuses bare numbers.
func ParseLengthIn(s string, unit Length) (Length, error) {
	if len(s) > maxLengthText || !utf8.ValidString(s) {
		return 0, lengthFault(s, "is no length", `write a number and a unit, like "18in" or "46cm"`)
	}
	p := lengthParser{text: s, rest: foldLength(s), bare: unit}
	return p.parse()
}

// MarshalText gives String.
func (l Length) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText reads what ParseLength reads.
func (l *Length) UnmarshalText(text []byte) error {
	v, err := ParseLength(string(text))
	if err == nil {
		*l = v
	}
	return err
}

// String is l in the unit that says it shortest without loss, and without quote
// marks: "18in", "2ft", "9 5/8in", "46cm". A whole number of 64ths of an inch that is
// no whole number of millimetres is told in inches. ParseLength reads it back exactly.
func (l Length) String() string {
	if l == 0 {
		return "0m"
	}
	n, sign := uint64(l), ""
	if l < 0 {
		n, sign = -n, "-"
	}
	best := inches64(n)
	if n%uint64(Foot) == 0 {
		best = shorter(strconv.FormatUint(n/uint64(Foot), 10)+"ft", best)
	}
	if best == "" || n%uint64(Millimetre) == 0 {
		for _, c := range []string{decimal(n, 6) + "mm", decimal(n, 7) + "cm", decimal(n, 9) + "m"} {
			best = shorter(best, c)
		}
	}
	return sign + best
}

// Spoken is l in both ways, since a crew reads one or the other, to the centimetre and to the inch: "18.00 m
// (59 ft 1 in)", "0.25 m (10 in)".
func (l Length) Spoken() string {
	inches := int(math.Round(math.Abs(l.Metres()) / Inch.Metres()))
	sign := ""
	if l < 0 && inches > 0 {
		sign = "-"
	}
	words := fmt.Sprintf("%d ft %d in", inches/12, inches%12)
	switch {
	case inches < 12:
		words = fmt.Sprintf("%d in", inches)
	case inches%12 == 0:
		words = fmt.Sprintf("%d ft", inches/12)
	}
	return fmt.Sprintf("%s%.2f m (%s%s)", sign, math.Abs(l.Metres()), sign, words)
}

// shorter is the shorter text, the first on a tie; an empty one never wins.
func shorter(a, b string) string {
	if a == "" || b != "" && len(b) < len(a) {
		return b
	}
	return a
}

// inches64 is n nanometres in inches and 64ths, or "" where it is none.
func inches64(n uint64) string {
	const part = uint64(Inch) / 64
	if n%part != 0 {
		return ""
	}
	whole, top, bottom := n/uint64(Inch), n%uint64(Inch)/part, uint64(64)
	for top != 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	var words []string
	if whole != 0 {
		words = append(words, strconv.FormatUint(whole, 10))
	}
	if top != 0 {
		words = append(words, strconv.FormatUint(top, 10)+"/"+strconv.FormatUint(bottom, 10))
	}
	return strings.Join(words, " ") + "in"
}

// decimal is n shifted right by the given decimal places, exactly.
func decimal(n uint64, places int) string {
	s := strconv.FormatUint(n, 10)
	if len(s) <= places {
		s = strings.Repeat("0", places+1-len(s)) + s
	}
	whole, part := s[:len(s)-places], strings.TrimRight(s[len(s)-places:], "0")
	if part == "" {
		return whole
	}
	return whole + "." + part
}

// foldLength brings the many ways to type marks and fractions to one.
func foldLength(s string) string { return strings.TrimSpace(lengthFolder.Replace(strings.ToLower(s))) }

// Two apostrophes are an inch mark; a vulgar fraction stands apart from the digits before it.
var lengthFolder = strings.NewReplacer(
	"''", `"`, "’’", `"`, "′′", `"`, "‘‘", `"`, "``", `"`, "´´", `"`,
	"’", "'", "‘", "'", "′", "'", "´", "'", "`", "'", "ʹ", "'",
	"”", `"`, "“", `"`, "″", `"`, "„", `"`, "ʺ", `"`,
	"−", "-", "–", "-", "‐", "-", "‑", "-", "⁄", "/", "∕", "/",
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
	"⅓", " 1/3", "⅔", " 2/3", "⅕", " 1/5", "⅖", " 2/5", "⅗", " 3/5", "⅘", " 4/5", "⅙", " 1/6", "⅚", " 5/6",
)

// lengthUnit is one unit word. Parts of one length go down within a family.
type lengthUnit struct {
	word   string
	size   Length
	family byte
}

// Longer words first, so that "mm" is not read as "m".
var lengthUnits = []lengthUnit{
	{"millimetres", Millimetre, 'm'}, {"millimeters", Millimetre, 'm'}, {"millimetre", Millimetre, 'm'},
	{"millimeter", Millimetre, 'm'},
	{"centimetres", Centimetre, 'm'}, {"centimeters", Centimetre, 'm'}, {"centimetre", Centimetre, 'm'},
	{"centimeter", Centimetre, 'm'},
	{"metres", Metre, 'm'}, {"meters", Metre, 'm'}, {"metre", Metre, 'm'}, {"meter", Metre, 'm'},
	{"inches", Inch, 'i'}, {"inch", Inch, 'i'}, {"feet", Foot, 'i'}, {"foot", Foot, 'i'},
	{"mm.", Millimetre, 'm'}, {"cm.", Centimetre, 'm'}, {"in.", Inch, 'i'}, {"ft.", Foot, 'i'},
	{"mm", Millimetre, 'm'}, {"cm", Centimetre, 'm'}, {"in", Inch, 'i'}, {"ft", Foot, 'i'},
	{"m", Metre, 'm'}, {`"`, Inch, 'i'}, {"'", Foot, 'i'},
}

// Unit is the length of a unit as people write it, "in" or "feet", or 0 where there is no such.
func Unit(word string) Length {
	word = foldLength(word)
	for _, u := range lengthUnits {
		if u.word == word {
			return u.size
		}
	}
	return 0
}

type lengthParser struct {
	text, rest string
	bare       Length
}

func (p *lengthParser) parse() (Length, error) {
	negative := p.take("-")
	if !negative {
		p.take("+")
	}
	sum := new(big.Rat)
	var last lengthUnit
	for first := true; first || p.rest != ""; first = false {
		if !first {
			p.take("-") // 5'-6"
		}
		number, typed, err := p.number()
		if err != nil {
			return 0, err
		}
		unit, err := p.unit(number, typed, last)
		if err != nil {
			return 0, err
		}
		if last.size != 0 && (unit.family != last.family || unit.size >= last.size) {
			return 0, p.fault("mixes units in a way that has no one meaning",
				`write one unit, or feet and inches like 5'6"`)
		}
		sum.Add(sum, number.Mul(number, new(big.Rat).SetInt64(int64(unit.size))))
		last = unit
	}
	if !sum.IsInt() {
		return 0, p.fault("is no whole number of nanometres", "write it with fewer decimals, or as a decimal in mm")
	}
	if negative {
		sum.Neg(sum)
	}
	if !sum.Num().IsInt64() {
		return 0, p.fault("is longer than any length can be", "look for a digit too many")
	}
	return Length(sum.Num().Int64()), nil
}

// unit reads the unit after a number. After a foot mark the last number may be bare inches: 5'6.
func (p *lengthParser) unit(number *big.Rat, typed string, last lengthUnit) (lengthUnit, error) {
	for _, u := range lengthUnits {
		if p.take(u.word) {
			return u, nil
		}
	}
	switch {
	case p.rest != "":
		return lengthUnit{}, p.fault("is no length", `write its unit, of in, ft, mm, cm and m: "18in", "46cm"`)
	case last.word == "'":
		return lengthUnit{"", Inch, 'i'}, nil
	case last.size != 0:
		return lengthUnit{}, p.fault("has a last number without a unit", "write the unit behind every number")
	case p.bare != 0:
		return lengthUnit{"", p.bare, 'b'}, nil
	case number.Sign() == 0:
		return lengthUnit{"", Metre, 'm'}, nil
	}
	return lengthUnit{}, p.fault("has no unit", `write "`+typed+`in" or "`+typed+`cm", whichever was measured`)
}

// number reads 18, 0.46, 0,46, 5/8, 9 5/8 or 9-5/8, and gives it as typed too.
func (p *lengthParser) number() (number *big.Rat, typed string, err error) {
	start := p.rest
	number, err = p.decimals()
	if err != nil {
		return nil, "", err
	}
	if m := fractionBehind.FindStringSubmatch(p.rest); m != nil {
		p.rest = p.rest[len(m[0]):]
		whole, top := new(big.Rat), number
		if m[1] != "" {
			whole = number
			top, _ = new(big.Rat).SetString(m[1])
		}
		bottom, _ := new(big.Rat).SetString("0" + m[2])
		if bottom.Sign() == 0 || !top.IsInt() || !whole.IsInt() || m[1] != "" && top.Cmp(bottom) >= 0 {
			return nil, "", p.fault("has a fraction that cannot be right", `write it like "9 5/8in"`)
		}
		number = whole.Add(whole, top.Quo(top, bottom))
	}
	typed = strings.TrimSpace(start[:len(start)-len(p.rest)])
	p.rest = strings.TrimLeft(p.rest, " ")
	return number, typed, nil
}

// fractionBehind is what makes a fraction of a number, /8, or stands behind a whole one,  5/8 or -5/8.
var fractionBehind = regexp.MustCompile(`^(?:(?: +|- *)(\d+))?/(\d*)`)

// decimals reads digits with at most one decimal point or comma.
func (p *lengthParser) decimals() (*big.Rat, error) {
	p.rest = strings.TrimLeft(p.rest, " ")
	whole := p.digits()
	part := ""
	if p.rest != "" && (p.rest[0] == '.' || p.rest[0] == ',') {
		mark := p.rest[0]
		p.rest = p.rest[1:]
		part = p.digits()
		if part == "" || p.rest != "" && (p.rest[0] == '.' || p.rest[0] == ',') {
			return nil, p.fault("is no length", `leave out thousands marks; write "1200mm" or "1.2m"`)
		}
		if mark == ',' && len(part) == 3 && strings.Trim(whole, "0") != "" {
			return nil, p.fault("may mean two lengths: its comma could be a decimal or a thousands mark",
				`write "`+whole+part+`" or "`+whole+"."+part+`" with the unit`)
		}
	}
	if whole+part == "" {
		return nil, p.fault("is no length", `write a number and a unit, like "18in" or "46cm"`)
	}
	r, _ := new(big.Rat).SetString("0" + whole + "." + part + "0")
	return r, nil
}

func (p *lengthParser) digits() string {
	n := 0
	for n < len(p.rest) && p.rest[n] >= '0' && p.rest[n] <= '9' {
		n++
	}
	d := p.rest[:n]
	p.rest = p.rest[n:]
	return d
}

// take removes a word and the spaces behind it.
func (p *lengthParser) take(word string) bool {
	rest, ok := strings.CutPrefix(p.rest, word)
	if ok {
		p.rest = strings.TrimLeft(rest, " ")
	}
	return ok
}

func (p *lengthParser) fault(what, hint string) error { return lengthFault(p.text, what, hint) }

func lengthFault(text, what, hint string) error {
	if len(text) > maxLengthText {
		text = strings.ToValidUTF8(text[:maxLengthText], "") + "…"
	}
	return &Fault{What: strconv.Quote(text) + " " + what, Hint: hint}
}
