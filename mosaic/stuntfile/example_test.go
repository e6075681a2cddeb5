package stuntfile_test

import (
	"fmt"

	"everyseat/mosaic/stuntfile"
	"everyseat/seating"
)

// A value changes, a key and a cue are added; the comments stay.
func ExampleFile_Set() {
	text := `version = 1          # of the keys
[[section]]
name = "A"           # the only one
rows = 10
seats = 15           # counted twice
[camera]
back = "18 m"
[[colour]]
name = "NAVY"
hex = "#14284f"
[[colour]]
name = "CREAM"
hex = "#fdf4dc"
[[cue]]
text = "HI"          # before the song
`
	f, err := stuntfile.Parse("stunt.toml", []byte(text), nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err = f.Set(
		stuntfile.Edit{Key: "section[0].seats", Value: 14},
		stuntfile.Edit{Key: "camera.height", Value: 3 * seating.Metre},
		stuntfile.Edit{Key: "cue[1].text", Value: "BYE"},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(string(f.Text))
	// Output:
	// version = 1          # of the keys
	// [[section]]
	// name = "A"           # the only one
	// rows = 10
	// seats = 14           # counted twice
	// [camera]
	// back = "18 m"
	// height = "3m"
	// [[colour]]
	// name = "NAVY"
	// hex = "#14284f"
	// [[colour]]
	// name = "CREAM"
	// hex = "#fdf4dc"
	// [[cue]]
	// text = "HI"          # before the song
	//
	// [[cue]]
	// text = "BYE"
}
