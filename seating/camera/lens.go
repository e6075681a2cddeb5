package camera

import (
	"cmp"
	"fmt"
	"math"

	"everyseat/seating"
)

// Lens is given in one of three ways; all zero means 65 degrees wide.
type Lens struct {
	SensorWidth, SensorHeight, Focal float64        // millimetres; SensorHeight may be 0
	FieldOfView                      float64        // degrees, horizontal
	Sees, At                         seating.Length // the tape test: this width fills the frame at this distance
}

// FullFrame is the width in millimetres of the sensor on which lenses are compared.
const FullFrame = 36

// What is taken where nothing is said, and what is believed.
const (
	defaultFieldOfView = 65.0 // degrees; about a phone's main lens; common practice, no source
	maxFieldOfView     = 170.0
	maxMillimetres     = 10000.0
)

// pixels is the focal length in pixels. A picture that is taller than the sensor,
// in proportion, uses the sensor's height and crops its sides.
func (l Lens) pixels(picture [2]int) float64 {
	w, h := float64(picture[0]), float64(picture[1])
	switch {
	case l.Focal != 0:
		perMillimetre := w / l.SensorWidth
		if l.SensorHeight > 0 {
			perMillimetre = math.Max(perMillimetre, h/l.SensorHeight)
		}
		return l.Focal * perMillimetre
	case l.Sees != 0:
		return w * l.At.Metres() / l.Sees.Metres()
	}
	return w / float64(2*tan(cmp.Or(l.FieldOfView, defaultFieldOfView)*(math.Pi/360)))
}

// check faults a lens that is given half, twice or with impossible numbers.
func (l *Lens) check(m *Mark) error {
	sensor := l.SensorWidth != 0 || l.SensorHeight != 0 || l.Focal != 0
	angle := l.FieldOfView != 0
	tape := l.Sees != 0 || l.At != 0
	if sensor && angle || sensor && tape || angle && tape {
		return m.fault("keep one: sensor and lens, or the field of view, or what the frame sees at a distance",
			"the lens is given in two ways at once")
	}
	if sensor {
		return l.checkSensor(m)
	}
	if angle && !(l.FieldOfView > 0 && l.FieldOfView <= maxFieldOfView) {
		return m.fault(
			fmt.Sprintf("write one that is more than 0 and at most %v; a phone's main lens sees about 65",
				maxFieldOfView),
			"a field of view of %v degrees cannot be", l.FieldOfView)
	}
	if tape && (l.Sees <= 0 || l.At <= 0) {
		return m.fault(`write for example "6.3 m at 5 m"`,
			"the tape test needs the width that the frame sees and the distance it is seen at")
	}
	if half := l.Sees.Metres() / 2; tape && half > l.At.Metres()*tan(maxFieldOfView*(math.Pi/360)) {
		return m.fault("measure again: width first, then distance",
			"no lens sees %.2f m at %.2f m", l.Sees.Metres(), l.At.Metres())
	}
	return nil
}

func (l *Lens) checkSensor(m *Mark) error {
	for i, n := range []struct {
		name  string
		value float64
	}{
		{"the sensor's width", l.SensorWidth}, {"the lens's focal length", l.Focal},
		{"the sensor's height", l.SensorHeight},
	} {
		switch {
		case n.value == 0 && i < 2: // the height may be left out
			return m.fault("sensor and lens go together, in millimetres: a 36 × 24 sensor with a 35 lens, for example",
				"%s is missing", n.name)
		case !(n.value >= 0 && n.value <= maxMillimetres):
			return m.fault(fmt.Sprintf("write one that is more than 0 and at most %v mm", maxMillimetres),
				"%s of %v mm cannot be", n.name, n.value)
		}
	}
	if l.SensorWidth/2 > l.Focal*tan(maxFieldOfView*(math.Pi/360)) {
		return m.fault("look at the two numbers again",
			"a lens of %v mm on a sensor %v mm wide sees more than %v degrees",
			l.Focal, l.SensorWidth, maxFieldOfView)
	}
	return nil
}
