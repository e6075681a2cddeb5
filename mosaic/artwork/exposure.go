package artwork

import (
	"math"
	"slices"

	"everyseat/mosaic/colour"
	"everyseat/seating/together"
)

// When an image is exposed automatically (ours, no source).
const (
	// An image whose lightness fills so much of the cards', in percent, is well exposed.
	wellExposed = 50
	// A picture whose likeness, in thousandths, is so good is left as it is; another exposure
	// must make it so much better.
	likeEnough = 950
	clearGain  = 30

	// nothingShows is the range of lightness and of both hues, in CIELAB units, under which an
	// image has nothing to show.
	nothingShows = 3.0

	mostStops = 5 // brighter or darker; beyond that there is noise and little else
)

// A colour that fills so much of the picture, in thousandths, and shows on less than a
// quarter of the seats that this would be, is lost (ours, no source).
const (
	noticeable  = 4
	shownAtMost = 4
)

// Levels turn light into other light: what is as dark as Black becomes Low, both linear light 0…1, and
// all else is brighter by Gain. They are taken per share that is covered.
type Levels struct{ Black, Low, Gain float64 }

// AsItIs leaves light alone.
var AsItIs = Levels{Gain: 1}

func (v Levels) of(l light) light {
	for c := range 3 { // premultiplied
		l[c] = min(max(float64((l[c]-float64(v.Black*l[3]))*v.Gain)+float64(v.Low*l[3]), 0), l[3])
	}
	return l
}

func (v Levels) ofAll(lights []light) []light {
	if v == AsItIs {
		return lights
	}
	out := make([]light, len(lights))
	for k := range lights {
		out[k] = v.of(lights[k])
	}
	return out
}

// exposed is what an image shows on its seats, as the crew exposes it or, where they do not
// say, as most of it shows.
func (p *painting) exposed(stops *float64) *Shown {
	out := &Shown{Levels: AsItIs, Blank: p.blank(), cards: p.Cards}
	levels := AsItIs
	if stops != nil {
		levels.Gain = math.Exp2(*stops)
		out.Colours = p.reduce(levels.ofAll(p.whole))
	} else if out.Colours = p.reduce(p.whole); !out.Blank {
		levels, out.Colours = p.better(out.Colours)
		out.Levels = levels
	}
	out.aims = levels.ofAll(p.whole)
	out.TooThin = p.tooThin(levels.ofAll(p.parts), out.Colours)
	return out
}

// better exposes the image otherwise, if it then looks clearly more like it is than as shown.
func (p *painting) better(shown []int16) (Levels, []int16) {
	// Thin lines are pale on whole seats, and yet the drawing is well exposed: where parts of
	// seats are known, they tell.
	if p.fills(p.parts) || p.fills(p.whole) {
		return AsItIs, shown
	}
	look := p.newLook(p.wanted(p.whole))
	likeness := look.like(shown)
	if likeness >= likeEnough {
		return AsItIs, shown
	}
	v := p.bestLevels(look, p.candidates())
	if v == AsItIs {
		return AsItIs, shown
	}
	other := p.reduce(v.ofAll(p.whole))
	if look.like(other) < likeness+clearGain {
		return AsItIs, shown
	}
	return v, other
}

// candidates are levels that are worth trying: the darkest and lightest, or the darkest and
// the middle of the image on those of the cards; with the black left as it is, or not.
func (p *painting) candidates() (out []Levels) {
	at := p.percentiles(p.whole)
	low, high := p.reach()
	root := (math.Cbrt(low) + math.Cbrt(high)) / 2 // lightness goes with the cube root
	middle := float64(float64(root*root) * root)
	add := func(black, from, to float64) {
		v := Levels{Black: black, Gain: to / (from - black)}
		if black > 0 {
			v.Low = low
			v.Gain = (to - low) / (from - black)
		}
		v.Gain = min(max(v.Gain, 1.0/(1<<mostStops)), 1<<mostStops)
		v.Gain = math.Round(v.Gain*1000) / 1000
		if from > black {
			out = append(out, v)
		}
	}
	add(0, at(98), high)
	add(0, at(90), high)
	add(0, at(50), middle)
	add(at(2), at(98), high)
	add(at(2), at(50), middle)
	return out
}

// percentiles are of the luminance of what seats would best show.
func (c *Cards) percentiles(lights []light) func(percent int) float64 {
	all := make([]int, len(lights)) // in millionths: decisions are made on whole numbers
	for k := range lights {
		all[k] = int(math.Round(c.best(&lights[k]).Luminance() * 1e6))
	}
	slices.Sort(all)
	return func(percent int) float64 { return float64(all[(len(all)-1)*percent/100]) / 1e6 }
}

// reach is the luminance of the darkest and of the lightest card.
func (c *Cards) reach() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, rgb := range c.Colours {
		y := rgb.Linear().Luminance()
		low, high = min(low, y), max(high, y)
	}
	return low, high
}

// fills says whether the image is as rich in lightness as the cards allow, or half of it.
func (c *Cards) fills(lights []light) bool {
	if len(lights) == 0 {
		return false
	}
	at := c.percentiles(lights)
	low, high := c.reach()
	lightness := func(y float64) float64 { return colour.Linear{y, y, y}.Lab()[0] }
	own, cards := lightness(at(98))-lightness(at(2)), lightness(high)-lightness(low)
	return math.Round(1e6*100*own) >= math.Round(1e6*wellExposed*cards)
}

// bestLevels are the ones under which the nearest colours look most like the image.
func (p *painting) bestLevels(look *look, candidates []Levels) Levels {
	likeness := make([]int, len(candidates))
	together.Each(len(candidates), func(i int) {
		shown := make([]int16, len(p.whole))
		for k := range shown {
			exposed := candidates[i].of(p.whole[k])
			shown[k] = p.about(&exposed)
		}
		likeness[i] = look.like(shown)
	})
	if len(candidates) == 0 {
		return AsItIs
	}
	return candidates[slices.Index(likeness, slices.Max(likeness))]
}

// blank says whether an image is one colour on all seats.
func (p *painting) blank() bool {
	low := [3]float64{math.Inf(1), math.Inf(1), math.Inf(1)}
	high := [3]float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, l := range p.wanted(p.whole) {
		for c, v := range l.Lab() {
			low[c], high[c] = min(low[c], v), max(high[c], v)
		}
	}
	for c := range low {
		if math.Round(1e6*(high[c]-low[c])) > nothingShows*1e6 {
			return false
		}
	}
	return true
}

// tooThin names the colours of an image that are in parts of seats and on hardly any
// whole one: its thin lines.
func (p *painting) tooThin(parts []light, shown []int16) (lost []int16) {
	inParts, onSeats := make([]int, len(p.Colours)), make([]int, len(p.Colours))
	for k := range parts {
		if c := p.about(&parts[k]); c != None {
			inParts[c]++
		}
	}
	for _, c := range shown {
		if c != None {
			onSeats[c]++
		}
	}
	for c, n := range inParts {
		if n*1000 >= noticeable*len(parts) && onSeats[c]*partsAside*partsAside*shownAtMost < n {
			lost = append(lost, int16(c))
		}
	}
	return lost
}
