package artwork

import (
	"math"

	"everyseat/mosaic/colour"
)

// reduce gives every seat its card colour: the nearest one, or by error diffusion, as
// asked or as it looks closer from the mark.
func (p *painting) reduce(lights []light) []int16 {
	flat := p.nearestAll(lights)
	if p.how == Flat || len(p.Colours) < 2 {
		return flat
	}
	want := p.wanted(lights)
	diffused := p.diffused(want, flat)
	if p.how == Diffuse {
		return diffused
	}
	if look := p.newLook(want); look.off(diffused) >= look.off(flat) {
		return flat
	}
	return diffused
}

// wanted is the light that seats would best show.
func (c *Cards) wanted(lights []light) []colour.Linear {
	want := make([]colour.Linear, len(lights))
	for k := range lights {
		want[k] = c.best(&lights[k])
	}
	return want
}

// look compares what seats show with what is wanted, as it looks from the mark at viewing blur.
type look struct {
	cards *Cards
	blur  *blur
	want  []colour.Linear
	labs  []colour.Lab // of want
}

func (p *painting) newLook(want []colour.Linear) *look {
	b := p.wall.newBlur()
	return &look{&p.Cards, b, want, b.labs(want)}
}

// at is how cards of these colours look.
func (l *look) at(colours []int16) []colour.Lab {
	shown := make([]colour.Linear, len(colours))
	for k, c := range colours {
		shown[k] = l.want[k] // nobody holds a card there: it is no difference
		if c != None {
			shown[k] = l.cards.Colours[c].Linear()
		}
	}
	return l.blur.labs(shown)
}

// off is by how much colours look off what is wanted: the sum over the seats of the squared CIELAB
// difference, in hundredths.
func (l *look) off(colours []int16) (sum int64) {
	for k, x := range l.at(colours) {
		d := [3]float64{l.labs[k][0] - x[0], l.labs[k][1] - x[1], l.labs[k][2] - x[2]}
		sum += int64(math.Round(100 * (float64(d[0]*d[0]) + float64(d[1]*d[1]) + float64(d[2]*d[2]))))
	}
	return sum
}

// like is how far lightness and hues go up and down together with what is wanted, however bright and rich
// in contrast each is: the correlation over all three, in thousandths; 1000 = alike.
func (l *look) like(colours []int16) int {
	got := l.at(colours)
	a, b := mean(l.labs), mean(got)
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

func mean(labs []colour.Lab) (mean colour.Lab) {
	for k := range labs {
		for c := range mean {
			mean[c] += labs[k][c]
		}
	}
	for c := range mean {
		mean[c] /= float64(len(labs))
	}
	return mean
}

// fullLight is one channel's most, in the whole numbers in which errors are handed on.
const fullLight = math.MaxUint16

// light16 is linear light in whole numbers, 0…fullLight a channel.
type light16 [3]int32

func inWhole(l colour.Linear) (out light16) {
	for i, v := range l {
		out[i] = int32(math.Round(min(max(v, 0), 1) * fullLight))
	}
	return out
}

func (l light16) linear() (out colour.Linear) {
	for i, v := range l {
		out[i] = float64(v) / fullLight
	}
	return out
}

// diffused are the seats' colours by error diffusion within each section, to and fro.
// Hidden seats take their nearest colour and carry no error, nor do seats without a card.
func (p *painting) diffused(want []colour.Linear, flat []int16) []int16 {
	out := make([]int16, len(flat))
	copy(out, flat)
	lights := make([]light16, len(want))
	for k := range want {
		lights[k] = inWhole(want[k])
	}
	palette := make([]light16, len(p.Colours))
	for c, rgb := range p.Colours {
		palette[c] = inWhole(rgb.Linear())
	}
	nearest := func(l light16) int { return p.Palette.Nearest(l.linear()) }
	first := p.heavierRight(want)
	fromRight := func(row int) bool { return (row%2 == 0) == first }
	for _, w := range p.wall.walks(func(k int) bool { return flat[k] != None && !p.wall.Seats[k].Hidden }) {
		w.diffuse(out, lights, palette, nearest, fromRight)
	}
	return out
}

// heavierRight says on which side of the stands the picture is brighter. The walk begins
// there, so that a mirrored picture is walked the mirrored way.
func (p *painting) heavierRight(want []colour.Linear) bool {
	var turn int64
	at := make([]int64, len(want)) // in millimetres
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for k, s := range p.wall.Seats {
		at[k] = int64(math.Round(p.wall.Stands.Seats[s.Index].Position[0] * 1000))
		low, high = min(low, at[k]), max(high, at[k])
	}
	for k, l := range want {
		turn += (2*at[k] - low - high) * int64(math.Round(l.Luminance()*1000))
	}
	return turn > 0
}

// diffuse gives every seat of a walk a colour of the palette, and hands what it is off on:
// 7/16 to the next in the row, 3/16, 5/16 and 1/16 to those below behind, below, and below
// ahead (Floyd, Steinberg, "An Adaptive Algorithm for Spatial Greyscale", Proc. SID 17(2),
// 1976). Error that would go into a gap is dropped.
func (w walk) diffuse(out []int16, lights, palette []light16,
	nearest func(light16) int, fromRight func(row int) bool) {
	errs := make([]light16, len(lights)) // in sixteenths
	var off light16
	hand := func(row, column int, sixteenths int32) {
		if k := w.at(row, column); k != gap {
			for i, v := range off {
				errs[k][i] += sixteenths * v
			}
		}
	}
	for r, row := range w {
		step, x := 1, 0
		if fromRight(r) {
			step, x = -1, len(row)-1
		}
		for ; x >= 0 && x < len(row); x += step {
			k := row[x]
			if k == gap {
				continue
			}
			l := lights[k]
			for i := range l {
				l[i] = min(max(l[i]+errs[k][i]/16, 0), fullLight)
			}
			c := nearest(l)
			out[k] = int16(c)
			off = light16{l[0] - palette[c][0], l[1] - palette[c][1], l[2] - palette[c][2]}
			hand(r, x+step, 7)
			hand(r+1, x-step, 3)
			hand(r+1, x, 5)
			hand(r+1, x+step, 1)
		}
	}
}

// viewBlur is the blur at which a picture of the stands is judged, as a part of the
// frame's width: a film is watched some 480 pixels wide, and two of these run together
// (ours, no source).
const viewBlur = 1.0 / 240

// blur mixes the light of seats that are near each other in the picture: on a grid of
// one sigma a side over the seats, across and then down.
type blur struct {
	columns, lines int
	at             []int // by seat: its place in the grid
	weight         []float64
}

// gauss is the normal curve at 0…3 sigma.
var gauss = [4]float64{1, 0.606530660, 0.135335283, 0.011108997}

func (w *Wall) newBlur() *blur {
	width := float64(w.Width)
	low, high := [2]int{math.MaxInt, math.MaxInt}, [2]int{math.MinInt, math.MinInt}
	cell := make([][2]int, len(w.Seats))
	b := &blur{at: make([]int, len(w.Seats)), weight: make([]float64, len(w.Seats))}
	for k, s := range w.Seats {
		b.weight[k] = s.Pixels
		for c, v := range s.Centre { // far outside the frame nothing shows, wherever it lies
			cell[k][c] = int(math.Floor(min(max(v, -width), 2*width) / (viewBlur * width)))
			low[c], high[c] = min(low[c], cell[k][c]), max(high[c], cell[k][c])
		}
	}
	b.columns, b.lines = high[0]-low[0]+1, high[1]-low[1]+1
	for k := range cell {
		b.at[k] = (cell[k][1]-low[1])*b.columns + cell[k][0] - low[0]
	}
	return b
}

// labs is the seats' lights, blurred; zero where nothing near is seen.
func (b *blur) labs(lights []colour.Linear) []colour.Lab {
	grid := make([]light, b.columns*b.lines) // its last part is the weight
	for k, l := range lights {
		grid[b.at[k]].add(&light{l[0], l[1], l[2], 1}, b.weight[k])
	}
	grid = spread(grid, 1, b.columns)
	grid = spread(grid, b.columns, b.lines)
	cells := make([]colour.Lab, len(grid))
	for i := range grid {
		if grid[i][3] > 0 {
			cells[i] = grid[i].alone().Lab()
		}
	}
	out := make([]colour.Lab, len(lights))
	for k, at := range b.at {
		out[k] = cells[at]
	}
	return out
}

// spread blurs a grid along lines of a length whose entries are so many steps apart.
func spread(grid []light, step, length int) []light {
	out := make([]light, len(grid))
	for i := range grid {
		if grid[i][3] == 0 {
			continue
		}
		at := i / step % length
		for d := max(-3, -at); d <= min(3, length-1-at); d++ {
			out[i+d*step].add(&grid[i], gauss[max(d, -d)])
		}
	}
	return out
}
