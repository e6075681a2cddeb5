package mosaic

import (
	"slices"
	"testing"
)

func TestColourLetters(t *testing.T) {
	colours := func(names ...string) (list []Colour) {
		for _, n := range names {
			list = append(list, Colour{Name: n})
		}
		return list
	}
	for _, c := range []struct{ names, want []string }{
		{[]string{"navy", "cream", "red"}, []string{"N", "C", "R"}},
		{[]string{"Blue", "Black", "Brown", "B"}, []string{"B", "L", "R", "1"}},
		{[]string{"#", "7"}, []string{"1", "2"}},
		{[]string{"Ώχρα", "Ёлка"}, []string{"Ώ", "Ё"}},
	} {
		if got := ColourLetters(colours(c.names...)); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.names, got, c.want)
		}
	}
}
