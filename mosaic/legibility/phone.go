package legibility

import "math"

// PhoneWidth is how many pixels wide a film is shown on a phone that is held upright, or
// sent small (ours, no source).
const PhoneWidth = 640

// Shrunk is how a text reads once the film is shrunk.
type Shrunk struct {
	Score   float64
	Verdict Verdict
	Pixels  float64 // of the shrunk film, that the smallest letter is high or wide
}

// Shrunk reads the text in the film shrunk to so many pixels across, with what is expected
// to be missing, wrong and uneven. Every pixel of the shrunk film is the mean over its area of
// what was recorded: letters have fewer pixels, and run together by as much. A film that is
// not wider stays as it is.
func (c *Chances) Shrunk(width float64) Shrunk {
	j := c.judge.with(c.judge.ink)
	if share := width / j.field.Width; share < 1 {
		j.pixels *= share
		j.canvas = j.canvas.softened(pixelBlur(1/share) * j.scale())
	}
	score := j.expected().Score
	return Shrunk{score, verdictOf(score), j.pixels}
}

// pixelBlur is the standard deviation, in pixels of the film, that a film adds which is shrunk so
// many times and enlarged again to be looked at. The mean over a pixel of width w has the variance
// w²/12 (a uniform distribution), going straight between pixels w²/6 (a triangle of two widths);
// what the film's own pixels do is there already.
func pixelBlur(times float64) float64 { return math.Sqrt((times*times - 1) / 4) }

// scale is how many canvas pixels a pixel of the film takes, in the middle of the letters.
func (j *judge) scale() float64 {
	sum, n := 0.0, 0.0
	for _, b := range j.boxes {
		if b != ([4]float64{}) {
			u, _ := j.canvas.Warp.Unmap((b[0]+b[2])/2, (b[1]+b[3])/2)
			sum, n = sum+j.canvas.Warp.ScaleAt(u), n+1
		}
	}
	if n == 0 {
		return j.canvas.Warp.Scale
	}
	return sum / n
}

// softened is the canvas of a picture that is blurred by sigma canvas pixels more.
func (c *Canvas) softened(sigma float64) *Canvas {
	soft := *c
	soft.Blur, soft.taps = math.Hypot(c.Blur, sigma), nil
	soft.kernels()
	return &soft
}
