package stuntfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"everyseat/seating"
)

// Pairs are the keys of a table, in the order in which they are written.
type Pairs []Pair

// Pair is one key of Pairs; Value as in Edit.
type Pair struct {
	Key   string
	Value any
}

// encode writes a value as TOML, on one line.
func encode(to any) (string, error) {
	switch v := to.(type) {
	case string:
		return encodeString(v)
	case bool:
		return strconv.FormatBool(v), nil
	case int:
		return strconv.Itoa(v), nil
	case float64:
		return encodeFloat(v)
	case seating.Length:
		return encodeString(v.String())
	case []string:
		return encodeList(v)
	case []int:
		return encodeList(v)
	case []seating.Length:
		return encodeList(v)
	case []any:
		return encodeList(v)
	case Pairs:
		return encodePairs(v)
	}
	return "", fmt.Errorf("a %T cannot be written into a stunt file", to)
}

func encodeList[T any](items []T) (string, error) {
	words := make([]string, len(items))
	for i, item := range items {
		var err error
		if words[i], err = encode(item); err != nil {
			return "", err
		}
	}
	return "[" + strings.Join(words, ", ") + "]", nil
}

func encodePairs(pairs Pairs) (string, error) {
	if len(pairs) == 0 {
		return "{}", nil
	}
	words := make([]string, len(pairs))
	for i, p := range pairs {
		text, err := encode(p.Value)
		if err != nil {
			return "", err
		}
		words[i] = encodeKey(p.Key) + " = " + text
	}
	return "{ " + strings.Join(words, ", ") + " }", nil
}

func encodeFloat(f float64) (string, error) {
	if math.IsNaN(f) || math.IsInf(f, 0) {
		return "", fmt.Errorf("%v is not a number that a stunt file can hold", f)
	}
	text := strconv.FormatFloat(f, 'f', -1, 64)
	if !strings.Contains(text, ".") {
		text += ".0"
	}
	return text, nil
}

// encodeString writes a TOML basic string.
func encodeString(s string) (string, error) {
	if !utf8.ValidString(s) {
		return "", fmt.Errorf("%q is not UTF-8", s)
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"', c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case c < ' ', c == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String(), nil
}

// encodeKey writes a key bare where TOML allows it.
func encodeKey(key string) string {
	bare := key != ""
	for _, c := range key {
		bare = bare && (c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' || c == '_')
	}
	if bare {
		return key
	}
	quoted, err := encodeString(key)
	if err != nil {
		return strconv.QuoteToASCII(key)
	}
	return quoted
}
