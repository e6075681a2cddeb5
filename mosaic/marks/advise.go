package marks

import (
	"errors"
	"fmt"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// The heights of a lens that are believed.
const (
	LowestLens  = 10 * seating.Centimetre
	HighestLens = 100 * seating.Metre
)

// Advise adds to a fault of where the camera stands, such as behind or inside the stands, the
// nearest place straight before the middle of the stands from which its lens takes in all
// of them. Other errors are given back as they are.
func Advise(stunt *mosaic.Stunt, err error) error {
	var f *seating.Fault
	if !errors.As(err, &f) || f.Key != "camera" && !wholeMark(f.Key) {
		return err
	}
	at := stunt.Camera
	if f.Key != "camera" {
		var i int
		fmt.Sscanf(f.Key, "mark[%d]", &i)
		if i >= len(stunt.Marks) {
			return err
		}
		at = stunt.Marks[i]
	}
	stands, buildErr := seating.Build(stunt.Stands)
	if buildErr != nil {
		return err
	}
	if at.Height <= 0 {
		at.Height = handHeight
	}
	if at.Picture == [2]int{} {
		at.Picture = stunt.Camera.Picture
	}
	card := camera.Card{Width: stunt.Card.Width, Height: stunt.Card.Height, Held: stunt.Card.Held}
	p := &mosaic.Plan{Stunt: &mosaic.Stunt{Camera: at}, Stands: stands, Scene: &camera.Scene{Stands: stands, Card: card}}
	s := &search{plan: p}
	s.keepQuads()
	e := standsExtent(stands)
	middle := (e.left + e.right) / 2
	from := s.fitsFrom(at.Lens, middle, at.Height)
	if from == 0 {
		return err
	}
	const step = 10 * seating.Centimetre // a tape's figure
	from = (from + step - 1) / step * step
	advised := *f
	advised.Hint = fmt.Sprintf("%s; from back = %q, across = %q this lens takes in all of them", f.Hint, from, middle)
	return &advised
}

func wholeMark(key string) bool {
	return strings.HasPrefix(key, "mark[") && strings.HasSuffix(key, "]")
}
