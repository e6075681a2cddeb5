package stuntfile

import (
	"reflect"
	"strings"
	"testing"

	"everyseat/mosaic"
	"everyseat/seating"
)

const spotStunt = `version = 1
[[section]]
name = "A"
rows = 2
seats = 3
[camera]
back = "9 m"
[[cue]]
text = "I"
[room]
camera = [
  { name = "gallery", left = "-4 m", right = "4 m", near = "-21 m", far = "-20 m", heights = ["4.5 m", "15 ft"] },
  { left = "0 m", right = "1 m", near = "-9 m", far = "-8 m" },
]
`

func TestWhereACameraMayStand(t *testing.T) {
	f, err := Parse("stunt.toml", []byte(spotStunt), nil)
	if err != nil {
		t.Fatal(err)
	}
	const m = seating.Metre
	want := []mosaic.Spot{
		{Name: "gallery", Left: -4 * m, Right: 4 * m, Near: -21 * m, Far: -20 * m, Heights: []seating.Length{450 * seating.Centimetre, 15 * seating.Foot}},
		{Left: 0, Right: m, Near: -9 * m, Far: -8 * m},
	}
	if got := f.Stunt.Room.Spots; !reflect.DeepEqual(got, want) {
		t.Errorf("%+v", got)
	}
	for _, c := range [][3]string{
		{`near = "-21 m", `, "", "near is missing"},
		{"heights =", "heigths =", `unknown key "heigths"`},
		{`"15 ft"`, `15`, "heights"},
	} {
		_, err := Parse("stunt.toml", []byte(strings.Replace(spotStunt, c[0], c[1], 1)), nil)
		if f, ok := err.(*seating.Fault); !ok || f.Line != 12 || !strings.Contains(f.What, c[2]) || f.Hint == "" {
			t.Errorf("%q for %q: %v", c[1], c[0], err)
		}
	}
}
