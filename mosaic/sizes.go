package mosaic

import (
	"fmt"
	"math"

	"everyseat/seating"
	"everyseat/seating/camera"
)

// Sizes are how large a text is, as the camera sees it.
type Sizes struct {
	Distance float64 // metres from the lens to the smallest letter's seats
	High     float64 // metres that letter would be high, square to the lens
	Arcmin   float64 // its height as an angle, minutes of arc
	Pixels   float64 // its height in pixels of the film
	Frame    float64 // share of the frame's height
	Stroke   float64 // width of a stroke over the height
	Wide     float64 // its width over its height
	Seats    float64 // its width in seats
	Rows     int     // its height in rows
}

// Sizes measures the lowest letter of the cue's text in the camera's picture; ok is
// false where there is no text or nothing of it is seen.
func (p *Plan) Sizes(cue int) (s Sizes, ok bool) {
	d := p.chances(cue)
	if d == nil {
		return s, false
	}
	v, text := p.Marks[0].View, p.Cues[cue].Text
	boxes := d.chances[0].Boxes()
	at := -1
	for i, b := range boxes {
		if b != ([4]float64{}) && (at < 0 || math.Round(64*(b[3]-b[1])) < math.Round(64*(boxes[at][3]-boxes[at][1]))) {
			at = i
		}
	}
	if at < 0 {
		return s, false
	}
	b := boxes[at]
	middle := (b[0] + b[2]) / 2
	angle := angleBetween(v, camera.Pixel{middle, b[1]}, camera.Pixel{middle, b[3]})
	s = Sizes{
		Distance: p.distanceTo(cue, b), Arcmin: angle * 180 / math.Pi * 60,
		Pixels: b[3] - b[1], Frame: (b[3] - b[1]) / float64(v.Height),
		Stroke: d.chances[0].Stroke() / (b[3] - b[1]), Wide: (b[2] - b[0]) / (b[3] - b[1]),
		Seats: text.Letters[at].Seats, Rows: text.Letters[at].Rows,
	}
	s.High = 2 * s.Distance * math.Tan(angle/2)
	return s, true
}

// angleBetween is the angle in radians between the lines of sight through two places of a picture.
func angleBetween(v *camera.View, a, b camera.Pixel) float64 {
	ray := func(p camera.Pixel) [3]float64 { return [3]float64{p[0] - v.Center[0], p[1] - v.Center[1], v.Focal} }
	x, y := ray(a), ray(b)
	dot := float64(x[0]*y[0]) + float64(x[1]*y[1]) + float64(x[2]*y[2])
	cross := [3]float64{float64(x[1]*y[2]) - float64(x[2]*y[1]), float64(x[2]*y[0]) - float64(x[0]*y[2]), float64(x[0]*y[1]) - float64(x[1]*y[0])}
	return math.Atan2(math.Sqrt(float64(cross[0]*cross[0])+float64(cross[1]*cross[1])+float64(cross[2]*cross[2])), dot)
}

// distanceTo is from the lens to the seats in a box of the picture, in the mean.
func (p *Plan) distanceTo(cue int, b [4]float64) float64 {
	sum, n := 0.0, 0.0
	m := &p.Marks[0]
	for _, s := range p.Cues[cue].Field {
		if c := m.Sight.Centre[s]; m.Sight.Seen[s] > 0 && c[0] >= b[0] && c[0] <= b[2] && c[1] >= b[1] && c[1] <= b[3] {
			at := p.Stands.Seats[s].Position
			eye := m.View.Position
			sum += math.Hypot(math.Hypot(at[0]-eye[0], at[1]-eye[1]), at[2]-eye[2])
			n++
		}
	}
	return sum / math.Max(n, 1)
}

// Rule is a published rule for signs and letters, held against a text. It is information: none of
// them was made for letters of people.
type Rule struct {
	Name, Clause string
	Asks, Here   string
	Met          bool
}

// Published figures; testdata/reference/README-signs.md tells where they were read.
const (
	signRule       = 1.0 / 360          // 1 in of letter a 30 ft of distance
	coarseSignRule = 1.0 / 60           // 1/5 in a foot, signs of low resolution
	screenArcmin   = 16                 // least height of a sign on a screen
	strokeFrom     = 10                 // percent of the height
	strokeTo       = 30                 //
	wideFrom       = 55                 // percent of the height, of an O beside an I
	wideTo         = 110                //
	matrixSeats    = 5.0                // least matrix of a capital
	matrixRows     = 7                  //
	identifyPixels = 12.8               // 6.4 pairs of lines
	subtitleShare  = 20.0 / 576         // least height of a capital in the frame
	arcminutes     = 180 * 60 / math.Pi // in a radian
)

// Rules holds the cue's text against what is published on signs.
func (s Sizes) Rules() []Rule {
	ratio := func(rule float64) string { return fmt.Sprintf("%.1f′", 2*math.Atan(rule/2)*arcminutes) }
	here := fmt.Sprintf("%.0f′", s.Arcmin)
	stroke, wide := math.Round(100*s.Stroke), math.Round(100*s.Wide)
	angle := func(rule float64) bool { return s.Arcmin >= 2*math.Atan(rule/2)*arcminutes }
	return []Rule{
		{"Letter height to distance, road signs", "MUTCD 2009, 2A.13: 1 in for each 30 ft", ratio(signRule), here, angle(signRule)},
		{"Letter height to distance, signs of few lights", "California CBC 2013, 11B-703.8.4: 1/5 in for each foot", ratio(coarseSignRule), here, angle(coarseSignRule)},
		{"Letter height on a screen", "ISO 9241-3: 16′, better 20′ to 22′", fmt.Sprintf("%d′", screenArcmin), here, s.Arcmin >= screenArcmin},
		{"Stroke to height", "ADA 2010, 703.5: 10 to 30 %", "10 to 30 %", fmt.Sprintf("%.0f %%", stroke), stroke >= strokeFrom && stroke <= strokeTo},
		{"Width to height", "ADA 2010, 703.5, of the O: 55 to 110 %", "55 to 110 %", fmt.Sprintf("%.0f %%", wide), wide >= wideFrom && wide <= wideTo},
		{"Smallest matrix of a capital", "ISO 9241-3: 5 × 7, for reading 7 × 9", "5 × 7", fmt.Sprintf("%.1f seats × %d rows", s.Seats, s.Rows), s.Seats >= matrixSeats && s.Rows >= matrixRows},
		{"Pixels to tell a thing from others", "Johnson 1958, 50 %: 6.4 pairs of lines", "12.8 pixels", fmt.Sprintf("%.0f pixels", s.Pixels), s.Pixels >= identifyPixels},
		{"Letter height in the frame, subtitles", "UK digital TV: 20 of 576 lines", "3.5 %", fmt.Sprintf("%.1f %%", 100*s.Frame), s.Frame >= subtitleShare},
	}
}

// FrameAt is what the camera's frame takes in at a distance along its axis, in metres, and how many pixels
// a metre has there: width = picture width · distance / focal length in pixels.
func FrameAt(v *camera.View, distance float64) (width, height, pixelsAMetre float64) {
	return float64(v.Width) * distance / v.Focal, float64(v.Height) * distance / v.Focal, v.Focal / distance
}

// SayFrame is what the camera's frame takes in at the middle of the cards.
func (p *Plan) SayFrame() string {
	v := p.Marks[0].View
	sum, n := 0.0, 0.0
	for s := range p.Stands.Seats {
		if p.Stands.Seats[s].Use == seating.UseCard && !p.Marks[0].Sight.Behind[s] {
			_, depth := v.Project(p.Stands.Seats[s].Position)
			sum, n = sum+depth, n+1
		}
	}
	if n == 0 {
		return ""
	}
	at := sum / n
	w, h, px := FrameAt(v, at)
	across, up := 2*math.Atan(float64(v.Width)/2/v.Focal)*180/math.Pi, 2*math.Atan(float64(v.Height)/2/v.Focal)*180/math.Pi
	card := p.Scene.Card
	return fmt.Sprintf("The lens sees %.1f° across and %.1f° up and down. At %s, the middle of the cards, its frame is %s wide and %s high (distance × picture size ÷ focal length in pixels), which gives %.0f pixels a metre: a card of %.0f × %.0f cm that faces it has %.0f × %.0f pixels.",
		across, up, span(at), span(w), span(h), px, 100*card.Width.Metres(), 100*card.Height.Metres(), px*card.Width.Metres(), px*card.Height.Metres())
}
