package mosaic

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"everyseat/mosaic/colour"
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

// levels turn light into other light: what is as dark as black becomes low, and all else
// is brighter by gain. They are taken per share that is covered.
type levels struct{ black, low, gain float64 }

var asItIs = levels{gain: 1}

func ofStops(stops float64) levels { return levels{gain: math.Exp2(stops)} }

func (v levels) of(l light) light {
	for c := range 3 { // premultiplied
		l[c] = min(max(float64((l[c]-float64(v.black*l[3]))*v.gain)+float64(v.low*l[3]), 0), l[3])
	}
	return l
}

// expose gives the lights these levels.
func expose(lights []light, v levels) {
	if v == asItIs {
		return
	}
	for k := range lights {
		lights[k] = v.of(lights[k])
	}
}

// exposed is what an image shows on its seats, as the crew exposes it or, where they do not
// say, as most of it shows; covered and fine become the light that was aimed at.
func (m *maker) exposed(cue *Cue, seats []int32, covered, fine []light, ground int16) []int16 {
	blank := m.blank(cue, covered, ground)
	if cue.Exposure != nil {
		v := ofStops(*cue.Exposure)
		expose(covered, v)
		expose(fine, v)
		return m.reduce(cue, seats, covered, ground)
	}
	shown := m.reduce(cue, seats, covered, ground)
	if blank {
		return shown
	}
	// Thin lines are pale on whole seats, and yet the drawing is well exposed: where parts of
	// seats are known, they tell.
	if m.fills(fine, ground) || m.fills(covered, ground) {
		return shown
	}
	look := m.newLikeness(seats, covered, ground)
	likeness := look.of(shown)
	if likeness >= likeEnough {
		return shown
	}
	v := m.bestLevels(look, covered, ground)
	if v == asItIs {
		return shown
	}
	better := slices.Clone(covered)
	expose(better, v)
	other := m.reduce(cue, seats, better, ground)
	if look.of(other) < likeness+clearGain {
		return shown
	}
	copy(covered, better)
	expose(fine, v)
	m.warn("Cue %q: %s; exposure = 0 shows it as it is.", cue.Name, v.say(imageName(cue)))
	return other
}

// say tells in plain words what was done.
func (v levels) say(name string) string {
	stops := math.Log2(v.gain)
	said := fmt.Sprintf("%s is made %.1f stops brighter", name, stops)
	if stops < 0 {
		said = fmt.Sprintf("%s is made %.1f stops darker", name, -stops)
	}
	if v.black > 0 {
		said = fmt.Sprintf("%s is pale: what is darkest in it is made as dark as the darkest card, and all of it %.1f times as rich in contrast", name, v.gain)
	}
	return said + ", so that more of it shows"
}

// bestLevels are, of those that bring the image's darks, middle or lights to the cards', the
// ones under which the nearest colours look most like it.
func (m *maker) bestLevels(look *likeness, covered []light, ground int16) levels {
	candidates := m.candidates(covered, ground)
	scores := make([]int, len(candidates))
	var wait sync.WaitGroup
	for i, v := range candidates {
		wait.Go(func() {
			shown := make([]int16, len(covered))
			for k := range covered {
				l := v.of(covered[k])
				shown[k] = m.about(&l, ground)
			}
			scores[i] = look.of(shown)
		})
	}
	wait.Wait()
	best := asItIs
	for i, most := 0, -1001; i < len(candidates); i++ {
		if scores[i] > most {
			best, most = candidates[i], scores[i]
		}
	}
	return best
}

// candidates are levels that are worth trying: the darkest and lightest, or the darkest and
// the middle of the image on those of the cards; with the black left as it is, or not.
func (m *maker) candidates(covered []light, ground int16) []levels {
	at := m.percentiles(covered, ground)
	low, high := m.cardLights()
	root := (math.Cbrt(low) + math.Cbrt(high)) / 2 // lightness goes with the cube root
	middle := float64(root*root) * root
	var out []levels
	add := func(black, from, to float64) {
		v := levels{black: black, gain: to / (from - black)}
		if black > 0 {
			v.low = low
			v.gain = (to - low) / (from - black)
		}
		v.gain = min(max(v.gain, 1.0/(1<<mostStops)), 1<<mostStops)
		v.gain = math.Round(v.gain*1000) / 1000
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
func (m *maker) percentiles(lights []light, ground int16) func(percent int) float64 {
	all := make([]int, len(lights)) // in millionths: decisions are made on whole numbers
	for k := range lights {
		all[k] = int(math.Round(m.bestLight(&lights[k], ground).Luminance() * 1e6))
	}
	slices.Sort(all)
	return func(percent int) float64 { return float64(all[(len(all)-1)*percent/100]) / 1e6 }
}

// cardLights are the luminance of the darkest and of the lightest card.
func (m *maker) cardLights() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range m.p.Stunt.Colours {
		y := c.RGB.Linear().Luminance()
		low, high = min(low, y), max(high, y)
	}
	return low, high
}

// fills says whether the image is as rich in lightness as the cards allow, or half of it.
func (m *maker) fills(lights []light, ground int16) bool {
	if len(lights) == 0 {
		return false
	}
	at := m.percentiles(lights, ground)
	low, high := m.cardLights()
	lightness := func(y float64) float64 { return colour.Linear{y, y, y}.Lab()[0] }
	own, cards := lightness(at(98))-lightness(at(2)), lightness(high)-lightness(low)
	return math.Round(1e6*100*own) >= math.Round(1e6*wellExposed*cards)
}

// likeness compares what seats show with the image as it is: how far lightness and hues go
// up and down together, at viewing blur, however bright and rich in contrast each is.
type likeness struct {
	m      *maker
	wanted []colour.Linear
	blur   *blur
	labs   []colour.Lab // of the image, blurred, by seat
}

func (m *maker) newLikeness(seats []int32, covered []light, ground int16) *likeness {
	l := &likeness{m: m, wanted: make([]colour.Linear, len(seats)), blur: newBlur(m.p.Marks[0].View.Width, seats, m.p.Marks[0].Sight)}
	for k := range seats {
		l.wanted[k] = m.bestLight(&covered[k], ground)
	}
	l.labs = l.blurred(l.wanted)
	return l
}

func (l *likeness) blurred(lights []colour.Linear) []colour.Lab {
	grid := l.blur.of(lights)
	cells := make([]colour.Lab, len(grid))
	for i := range grid {
		if grid[i][3] > 0 {
			cells[i] = grid[i].alone().Lab()
		}
	}
	out := make([]colour.Lab, len(lights))
	for k, at := range l.blur.at {
		out[k] = cells[at]
	}
	return out
}

// of is the correlation over lightness and both hues together, in thousandths: 1000 = alike.
func (l *likeness) of(shown []int16) int {
	got := l.blurred(l.m.shows(l.wanted, shown))
	a, b := means(l.labs), means(got)
	var both, first, second float64
	for k := range got {
		for c := range 3 {
			x, y := l.labs[k][c]-a[c], got[k][c]-b[c]
			both += float64(x * y)
			first += float64(x * x)
			second += float64(y * y)
		}
	}
	if first < 1e-6 || second < 1e-6 {
		return 0
	}
	return int(math.Round(1000 * both / math.Sqrt(first*second)))
}

func means(labs []colour.Lab) (mean colour.Lab) {
	for k := range labs {
		for c := range mean {
			mean[c] += labs[k][c]
		}
	}
	for c := range mean {
		mean[c] /= float64(max(len(labs), 1))
	}
	return mean
}

// blank warns of an image that is one colour on all seats, and says so.
func (m *maker) blank(cue *Cue, covered []light, ground int16) bool {
	low, high := colour.Lab{math.Inf(1), math.Inf(1), math.Inf(1)}, colour.Lab{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for k := range covered {
		lab := m.bestLight(&covered[k], ground).Lab()
		for c := range lab {
			low[c], high[c] = min(low[c], lab[c]), max(high[c], lab[c])
		}
	}
	for c := range low {
		if math.Round(1e6*(high[c]-low[c])) > nothingShows*1e6 {
			return false
		}
	}
	m.warn("Cue %q: %s shows nothing: all that falls on seats is one colour.", cue.Name, imageName(cue))
	return true
}
