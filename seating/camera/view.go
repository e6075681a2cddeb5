// Package camera says what a camera sees of the stands: where every card lands
// in the picture, what hides it, and how much of it shows. Start with a Scene,
// NewView and Scene.See.
//
// The camera is a pure pinhole: lenses that bend straight lines, and depth of
// field, are deliberately absent.
package camera

import (
	"cmp"
	"fmt"
	"math"

	"everyseat/seating"
)

// Pixel is a place in the picture: (0,0) is the outer corner of the first
// pixel, u to the right, v down; pixel i covers [i, i+1).
type Pixel [2]float64

// Mark is where the camera stands and how its lens was given.
type Mark struct {
	Name    string // "camera" for the first
	Key     string // what faults call it: "camera" (also when empty), "mark[0]"
	Across  seating.Length
	Back    seating.Length // in front of the stands: y = −Back
	Height  seating.Length
	Aim     *seating.Point // nil = the seats that show the message are centred in the frame
	Picture [2]int         // width and height in pixels; both 0 = 3840 × 2160
	Lens    Lens
}

// Limits of what is believed.
const (
	maxPicture    = 16384 // pixels, either way
	maxFar        = 10 * 1000 * seating.Metre
	defaultWidth  = 3840 // UHD-1, SMPTE ST 2036-1
	defaultHeight = 2160
)

// Position is the lens centre in the world, in metres.
func (m *Mark) Position() seating.Point {
	return seating.Point{m.Across.Metres(), -m.Back.Metres(), m.Height.Metres()}
}

// View is a pinhole camera: X_cam = R·(P − Position), camera axes x right, y
// down, z forward, det R = +1; u = cx + f·X/Z, v = cy + f·Y/Z.
type View struct {
	Name     string
	Position seating.Point
	Rotation [3][3]float64
	Focal    float64 // pixels
	Center   Pixel
	Width    int
	Height   int
}

// Project gives the place of p in the picture and its depth in metres along
// the optical axis; u and v mean nothing where depth <= 0.
func (v *View) Project(p seating.Point) (at Pixel, depth float64) {
	c := v.toCamera(p)
	return v.onPicture(c), c[2]
}

// toCamera is p in camera axes, in metres.
func (v *View) toCamera(p seating.Point) [3]float64 {
	d := minus(p, v.Position)
	return [3]float64{dot(v.Rotation[0], d), dot(v.Rotation[1], d), dot(v.Rotation[2], d)}
}

func (v *View) onPicture(c [3]float64) Pixel {
	return Pixel{v.Center[0] + float64(float64(v.Focal*c[0])/c[2]), v.Center[1] + float64(float64(v.Focal*c[1])/c[2])}
}

// Angle is the picture's horizontal field of view in radians; hfov = 2·atan(d / 2f) with d the part of the sensor that
// is used.
func (v *View) Angle() float64 { return 2 * math.Atan(float64(v.Width)/2/v.Focal) }

// FocalOn is the focal length in millimetres that gives the same picture on a sensor of that width, all of which the
// picture uses.
func (v *View) FocalOn(sensorWidth float64) float64 {
	return v.Focal / (float64(v.Width) / sensorWidth)
}

// look turns the camera to a direction, without roll; ok is false straight up or down.
func (v *View) look(direction [3]float64) (ok bool) {
	forward, ok := unit(direction)
	if !ok {
		return false
	}
	right, ok := unit(cross(forward, [3]float64{0, 0, 1}))
	if !ok {
		return false
	}
	v.Rotation = [3][3]float64{right, cross(forward, right), forward}
	return true
}

// NewView places the camera. scene gives what an automatic aim must hold: the
// cards of all seats that may show the message. Faults: a camera inside the
// stands or under the floor, a lens without numbers, nothing in front of the lens.
func NewView(m Mark, scene *Scene) (*View, error) {
	if m.Picture == [2]int{} {
		m.Picture = [2]int{defaultWidth, defaultHeight}
	}
	if err := m.check(); err != nil {
		return nil, err
	}
	if err := m.checkInside(scene); err != nil {
		return nil, err
	}
	v := &View{
		Name:     m.Name,
		Position: m.Position(),
		Focal:    m.Lens.pixels(m.Picture),
		Center:   Pixel{float64(m.Picture[0]) / 2, float64(m.Picture[1]) / 2},
		Width:    m.Picture[0],
		Height:   m.Picture[1],
	}
	if m.Aim != nil {
		if !v.look(minus(*m.Aim, v.Position)) {
			return nil, m.fault("aim at a point in the stands", "the camera looks straight up or down, or at itself")
		}
	} else if err := v.aimAt(&m, scene); err != nil {
		return nil, err
	}
	return v, m.checkSeesCards(v, scene)
}

func (m *Mark) fault(hint, what string, args ...any) error {
	return seating.Wrong(cmp.Or(m.Key, "camera"), hint, what, args...)
}

// check looks at the numbers alone.
func (m *Mark) check() error {
	const measure = "measure from the floor to the lens, like 1.6 m"
	if m.Height == 0 {
		return m.fault(measure, "the camera's height is missing")
	}
	if m.Height < 0 {
		return m.fault(measure, "the camera's height %.2f m is below the floor", m.Height.Metres())
	}
	for _, l := range []seating.Length{m.Across, m.Back, m.Height} {
		if l > maxFar || l < -maxFar {
			return m.fault("look at the units; at most 10 km is believed", "the mark is %.0f km away", l.Metres()/1000)
		}
	}
	if m.Aim != nil {
		for _, x := range m.Aim {
			if !(x >= -maxFar.Metres() && x <= maxFar.Metres()) {
				return m.fault("leave the aim out, and the stands are centred", "the aim is no place within 10 km")
			}
		}
	}
	for _, n := range m.Picture {
		if n <= 0 || n > maxPicture {
			return m.fault(fmt.Sprintf("both sides lie between 1 and %d; 3840 × 2160 is usual", maxPicture),
				"a picture of %d × %d pixels cannot be made", m.Picture[0], m.Picture[1])
		}
	}
	return m.Lens.check(m)
}
