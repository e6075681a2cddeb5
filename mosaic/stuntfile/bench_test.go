package stuntfile

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkHostile: a file as large as is read, a fault in every line: must stay linear.
func BenchmarkHostile(b *testing.B) {
	for _, c := range []struct{ name, line string }{
		{"keys", "k%d=1\n"},
		{"tables", "[t%d]\n"},
		{"sections", "[[section]]\nr%d=1\n"},
		{"marks", "[[mark]]\nback=%d\n"},
		{"cues", "[[cue]]\npainted={a%d=1}\n"},
	} {
		b.Run(c.name, func(b *testing.B) {
			var text strings.Builder
			for i := 0; text.Len() < MaxBytes-60; i++ {
				fmt.Fprintf(&text, c.line, i)
			}
			for b.Loop() {
				if _, err := Parse("stunt.toml", []byte(text.String()), beside(nil)); err == nil {
					b.Fatal("no fault")
				}
			}
		})
	}
}

// BenchmarkFresh is what everybody's file costs.
func BenchmarkFresh(b *testing.B) {
	for b.Loop() {
		if _, err := Parse("stunt.toml", freshText, beside(nil)); err != nil {
			b.Fatal(err)
		}
	}
}
