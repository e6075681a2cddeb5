package outlook

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/seating/camera"
)

// text is a cue's text as its reader takes it.
type text struct {
	p       *mosaic.Plan
	cue     int
	chances []*legibility.Chances // by mark
	ink     []bool
}

func newText(p *mosaic.Plan, cue int) *text {
	j := p.Judged(cue)
	t := &text{p: p, cue: cue, ink: j.Ink}
	for k := range p.Marks {
		t.chances = append(t.chances, p.Chances(j, cue, k))
	}
	return t
}

// outlook is that of one cue; trim is by seat at which turnout it stays empty.
func (t *text) outlook(parts Part, trim []uint8) (out Cue) {
	worst := t.chances[t.p.WorstMark(t.cue)]
	for _, c := range t.chances {
		if parts&Phone != 0 {
			out.Phone = append(out.Phone, c.Shrunk(legibility.PhoneWidth))
			out.Pixels = append(out.Pixels, c.Pixels())
		}
	}
	if parts&Day != 0 {
		out.Day = worst.Day(t.before())
		for i := range out.Day {
			if o := &out.Day[i]; o.Worst >= 0 {
				o.Worst = int(t.p.Cues[t.cue].Field[o.Worst])
			}
		}
	}
	if parts&Falls != 0 {
		out.Falls = t.falls(worst)
		out.Matter = matter(out.Falls)
	}
	if parts&Fewer != 0 {
		for _, share := range mosaic.TrimShares {
			var empty []int32
			for s, at := range trim {
				if int(at) >= share {
					empty = append(empty, int32(s))
				}
			}
			score, verdict := t.p.Without(worst, t.cue, empty)
			out.Trimmed = append(out.Trimmed, Trimmed{share, score, verdict})
		}
	}
	if parts&Unwanted != 0 {
		all := t.readUnwanted()
		out.Planned, out.Unwanted = all[0].Reads, all[1:]
	}
	if parts&Sizes != 0 {
		out.Sizes = t.sizes()
	}
	return out
}

// Trimmed is how a cue's text reads when so few come that Trim leaves seats empty, at one of TrimShares.
type Trimmed struct {
	Share   int
	Score   float64
	Verdict legibility.Verdict
}

// falls is by seat of Stands how much of the score each takes away alone.
func (t *text) falls(c *legibility.Chances) []legibility.Fall {
	falls := c.Falls()
	if falls == nil {
		return nil
	}
	out := make([]legibility.Fall, len(t.p.Stands.Seats))
	for k, s := range t.p.Cues[t.cue].Field {
		out[s] = falls[k]
	}
	return out
}

// Harm is how much a seat costs in the mean: what it costs empty and wrong, by how many are
// expected to be. Its unit means nothing but more or less.
func Harm(f legibility.Fall) int {
	return int(100*mosaic.ExpectedEmpty)*int(f.Empty) + int(100*mosaic.ExpectedWrong)*int(f.Wrong)
}

// matter are the seats that do harm, the most first; ties go to the lower seat.
func matter(falls []legibility.Fall) (out []int32) {
	for s := range falls {
		if Harm(falls[s]) > 0 {
			out = append(out, int32(s))
		}
	}
	slices.SortStableFunc(out, func(a, b int32) int { return cmp.Compare(Harm(falls[b]), Harm(falls[a])) })
	return out
}

// before is what the people of a text show until they move: the cue before where that is still up, else nothing.
func (t *text) before() []legibility.Shows {
	p, cue := t.p, t.cue
	if cue == 0 || p.Cues[cue-1].Times.Down < p.Cues[cue].Times.Up {
		return nil
	}
	return t.shows(p.Cues[cue-1].Colours)
}

// shows is how colours look to whoever reads the text: as its ink or its ground, whichever is nearer.
func (t *text) shows(colours []int16) []legibility.Shows {
	p, cue := t.p, t.cue
	spec := &p.Stunt.Cues[cue]
	ink, ground := p.Stunt.RGBOf(spec.Ink), colour.RGB{}
	onCards := spec.Ground != mosaic.Shirts
	if onCards {
		ground = p.Stunt.RGBOf(spec.Ground)
	}
	as := make([]legibility.Shows, len(p.Stunt.Colours))
	for c := range as {
		light := p.Stunt.Colours[c].RGB.Linear()
		if onCards && mosaic.Differ(light, ground.Linear()) < mosaic.Differ(light, ink.Linear()) {
			as[c] = legibility.ShowsGround
		} else {
			as[c] = legibility.ShowsInk
		}
	}
	out := make([]legibility.Shows, len(p.Cues[cue].Field))
	for k, s := range p.Cues[cue].Field {
		switch c := colours[s]; {
		case c != mosaic.None:
			out[k] = as[c]
		case onCards:
			out[k] = legibility.ShowsNothing
		}
	}
	return out
}

// Unwanting is what a text reads as when one section goes wrong.
type Unwanting struct {
	Section int    // of Stands
	How     string // plain words that follow "section A"
	Reads   string // "" where nothing is left to read; legibility.Blot stands for what is no letter
}

// readUnwanted lists what the text reads as from the camera: first as planned, without any fault, then when one
// section shows nothing, is late, or was laid from the wrong end. What reads as planned is left out. People judge
// the words: no list of bad ones is kept.
func (t *text) readUnwanted() []Unwanting {
	p, cue, chances := t.p, t.cue, t.chances[0]
	plan := &p.Cues[cue]
	whole := t.shows(plan.Colours)
	var earlier []legibility.Shows
	if cue > 0 {
		earlier = t.shows(p.Cues[cue-1].Colours)
	}
	out := []Unwanting{{Section: -1, Reads: t.spell(chances.Spell(whole, nil))}}
	for _, part := range t.inkedSections() {
		try := func(how string, change func(shows []legibility.Shows, from []int32)) {
			shows, from := slices.Clone(whole), make([]int32, len(whole))
			for i := range from {
				from[i] = int32(i)
			}
			change(shows, from)
			reads := t.spell(chances.Spell(shows, from))
			if reads != out[0].Reads {
				out = append(out, Unwanting{int(p.Stands.Seats[plan.Field[part[0]]].Section), how, reads})
			}
		}
		try("missing, or still at rest", func(shows []legibility.Shows, _ []int32) {
			for i := part[0]; i < part[1]; i++ {
				shows[i] = legibility.ShowsNothing
			}
		})
		if earlier != nil {
			try("still showing the cue before", func(shows []legibility.Shows, _ []int32) {
				copy(shows[part[0]:part[1]], earlier[part[0]:])
			})
		}
		try("laid from the wrong end", func(shows []legibility.Shows, from []int32) {
			t.turnRows(part, func(a, b int) {
				slices.Reverse(shows[a:b])
				slices.Reverse(from[a:b])
			})
		})
	}
	return out
}

// inkedSections are the stretches of the text's field that are one section each, with ink in it.
func (t *text) inkedSections() (out [][2]int) {
	p, field := t.p, t.p.Cues[t.cue].Field
	section := func(i int) int32 { return p.Stands.Seats[field[i]].Section }
	for i := 0; i < len(field); {
		n := i
		for n < len(field) && section(n) == section(i) {
			n++
		}
		if slices.Contains(t.ink[i:n], true) {
			out = append(out, [2]int{i, n})
		}
		i = n
	}
	return out
}

// turnRows gives every row of a stretch of the text's field.
func (t *text) turnRows(part [2]int, row func(a, b int)) {
	p, field := t.p, t.p.Cues[t.cue].Field
	for i := part[0]; i < part[1]; {
		n := i
		for n < part[1] && p.Stands.Seats[field[n]].Row == p.Stands.Seats[field[i]].Row {
			n++
		}
		row(i, n)
		i = n
	}
}

// spell puts letters together: words stay apart, lines have a stroke between them.
func (t *text) spell(letters []legibility.Spelt) string {
	p, cue := t.p, t.cue
	words := wordsOf(p.Stunt.Cues[cue].Text, len(p.Cues[cue].Text.Letters))
	lines := p.Cues[cue].Text.Letters
	var b strings.Builder
	for i, l := range letters {
		if i > 0 {
			switch last := letters[i-1].Glyph; {
			case lines[last].Line != lines[l.Glyph].Line:
				b.WriteString(" / ")
			case words[last] != words[l.Glyph]:
				b.WriteByte(' ')
			}
		}
		b.WriteRune(l.Rune)
	}
	return b.String()
}

// wordsOf is which word each letter belongs to; all one where letters were added in setting the text.
func wordsOf(text string, letters int) []int {
	out := make([]int, 0, letters)
	for w, word := range strings.Fields(norm.NFC.String(text)) {
		for range word {
			out = append(out, w)
		}
	}
	if len(out) != letters {
		return make([]int, letters)
	}
	return out
}

// TextSizes are how large a text is, as the camera sees it.
type TextSizes struct {
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

// sizes measures the lowest letter of the text in the camera's picture; nil where nothing of it is seen.
func (t *text) sizes() *TextSizes {
	p, chances := t.p, t.chances[0]
	v, letters := p.Marks[0].View, p.Cues[t.cue].Text.Letters
	boxes := chances.Boxes()
	at := -1
	for i, b := range boxes {
		if b != ([4]float64{}) && (at < 0 || math.Round(64*(b[3]-b[1])) < math.Round(64*(boxes[at][3]-boxes[at][1]))) {
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	b := boxes[at]
	middle := (b[0] + b[2]) / 2
	angle := angleBetween(v, camera.Pixel{middle, b[1]}, camera.Pixel{middle, b[3]})
	s := &TextSizes{
		Distance: t.distanceTo(b), Arcmin: angle * 180 / math.Pi * 60,
		Pixels: b[3] - b[1], Frame: (b[3] - b[1]) / float64(v.Height),
		Stroke: chances.Stroke() / (b[3] - b[1]), Wide: (b[2] - b[0]) / (b[3] - b[1]),
		Seats: letters[at].Seats, Rows: letters[at].Rows,
	}
	s.High = 2 * s.Distance * math.Tan(angle/2)
	return s
}

// angleBetween is the angle in radians between the lines of sight through two places of a picture.
func angleBetween(v *camera.View, a, b camera.Pixel) float64 {
	ray := func(p camera.Pixel) [3]float64 { return [3]float64{p[0] - v.Center[0], p[1] - v.Center[1], v.Focal} }
	x, y := ray(a), ray(b)
	dot := float64(x[0]*y[0]) + float64(x[1]*y[1]) + float64(x[2]*y[2])
	var square float64 // of their cross product
	for i := range 3 {
		k, l := (i+1)%3, (i+2)%3
		c := float64(x[k]*y[l]) - float64(x[l]*y[k])
		square += float64(c * c)
	}
	return math.Atan2(math.Sqrt(square), dot)
}

// distanceTo is from the lens to the seats in a box of the picture, in the mean.
func (t *text) distanceTo(b [4]float64) float64 {
	p, cue := t.p, t.cue
	sum, n := 0.0, 0.0
	m := &p.Marks[0]
	for _, s := range p.Cues[cue].Field {
		if c := m.Sight.Centre[s]; m.Sight.Seen[s] > 0 && c[0] >= b[0] && c[0] <= b[2] && c[1] >= b[1] &&
			c[1] <= b[3] {
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
func (s *TextSizes) Rules() []Rule {
	ratio := func(rule float64) string { return fmt.Sprintf("%.1f′", 2*math.Atan(rule/2)*arcminutes) }
	here := fmt.Sprintf("%.0f′", s.Arcmin)
	stroke, wide := math.Round(100*s.Stroke), math.Round(100*s.Wide)
	angle := func(rule float64) bool { return s.Arcmin >= 2*math.Atan(rule/2)*arcminutes }
	return []Rule{
		{"Letter height to distance, road signs", "MUTCD 2009, 2A.13: 1 in for each 30 ft",
			ratio(signRule), here, angle(signRule)},
		{"Letter height to distance, signs of few lights", "California CBC 2013, 11B-703.8.4: 1/5 in for each foot",
			ratio(coarseSignRule), here, angle(coarseSignRule)},
		{"Letter height on a screen", "ISO 9241-3: 16′, better 20′ to 22′",
			fmt.Sprintf("%d′", screenArcmin), here, s.Arcmin >= screenArcmin},
		{"Stroke to height", "ADA 2010, 703.5: 10 to 30 %",
			"10 to 30 %", fmt.Sprintf("%.0f %%", stroke), stroke >= strokeFrom && stroke <= strokeTo},
		{"Width to height", "ADA 2010, 703.5, of the O: 55 to 110 %",
			"55 to 110 %", fmt.Sprintf("%.0f %%", wide), wide >= wideFrom && wide <= wideTo},
		{"Smallest matrix of a capital", "ISO 9241-3: 5 × 7, for reading 7 × 9",
			"5 × 7", fmt.Sprintf("%.1f seats × %d rows", s.Seats, s.Rows),
			s.Seats >= matrixSeats && s.Rows >= matrixRows},
		{"Pixels to tell a thing from others", "Johnson 1958, 50 %: 6.4 pairs of lines",
			"12.8 pixels", fmt.Sprintf("%.0f pixels", s.Pixels), s.Pixels >= identifyPixels},
		{"Letter height in the frame, subtitles", "UK digital TV: 20 of 576 lines",
			"3.5 %", fmt.Sprintf("%.1f %%", 100*s.Frame), s.Frame >= subtitleShare},
	}
}

// FrameAt is what the camera's frame takes in at a distance along its axis, in metres, and how many pixels
// a metre has there: width = picture width · distance / focal length in pixels.
func FrameAt(v *camera.View, distance float64) (width, height, pixelsAMetre float64) {
	return float64(v.Width) * distance / v.Focal, float64(v.Height) * distance / v.Focal, v.Focal / distance
}
