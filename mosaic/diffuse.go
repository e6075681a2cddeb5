package mosaic

import (
	"math"

	"everyseat/mosaic/colour"
	"everyseat/seating"
)

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

// walk is the seats in rows, from the top, each in its column; gap where none stands
// that takes part. Error is not handed across a gap.
type walk struct {
	rows       [][]int32
	serpentine bool
	fromRight  bool // the first row begins at its right end
}

const gap = -1

// diffuse gives every entry of lights a colour of the palette, and hands what it is off on:
// 7/16 to the next in the row, 3/16, 5/16 and 1/16 to those below behind, below, and below
// ahead (Floyd, Steinberg, "An Adaptive Algorithm for Spatial Greyscale", Proc. SID 17(2),
// 1976). Error that would go into a gap is dropped.
func (w *walk) diffuse(lights, palette []light16, nearest func(light16) int) []int16 {
	out := make([]int16, len(lights))
	errs := make([]light16, len(lights)) // in sixteenths
	right := w.fromRight
	for r, row := range w.rows {
		step, x := 1, 0
		if right {
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
			off := light16{l[0] - palette[c][0], l[1] - palette[c][1], l[2] - palette[c][2]}
			w.hand(errs, r, x+step, off, 7)
			w.hand(errs, r+1, x-step, off, 3)
			w.hand(errs, r+1, x, off, 5)
			w.hand(errs, r+1, x+step, off, 1)
		}
		if w.serpentine {
			right = !right
		}
	}
	return out
}

// hand gives so many sixteenths of an error to whoever stands there.
func (w *walk) hand(errs []light16, row, column int, off light16, sixteenths int32) {
	if row >= len(w.rows) || column < 0 || column >= len(w.rows[row]) || w.rows[row][column] == gap {
		return
	}
	to := &errs[w.rows[row][column]]
	for i, v := range off {
		to[i] += sixteenths * v
	}
}

// diffused are the colours of an image's seats by error diffusion within each section.
// Hidden seats take their nearest colour and carry no error, nor do seats without a card.
func (m *maker) diffused(seats []int32, want []colour.Linear, flat []int16) []int16 {
	out := make([]int16, len(seats))
	copy(out, flat)
	at := make([]int32, len(m.p.Stands.Seats)) // place in seats, from 1
	for k, s := range seats {
		if flat[k] != None && m.p.Marks[0].Sight.Seen[s] >= hiddenCard {
			at[s] = int32(k) + 1
		}
	}
	lights := make([]light16, len(seats))
	for k := range want {
		lights[k] = inWhole(want[k])
	}
	palette := make([]light16, len(m.p.Stunt.Colours))
	for c, k := range m.p.Stunt.Colours {
		palette[c] = inWhole(k.RGB.Linear())
	}
	nearest := func(l light16) int { return m.palette.Nearest(l.linear()) }
	fromRight := m.heavierRight(seats, want)
	for k := range m.p.Stands.Sections {
		w := walkOf(&m.p.Stands.Sections[k], m.p.Stands.Seats, at)
		w.fromRight = fromRight
		own := w.diffuse(lights, palette, nearest)
		for _, row := range w.rows {
			for _, n := range row {
				if n != gap {
					out[n] = own[n]
				}
			}
		}
	}
	return out
}

// walkOf puts a section's seats into columns, from the back row down.
func walkOf(sec *seating.Section, seats []seating.Seat, at []int32) *walk {
	widest := 0
	for _, row := range sec.Rows {
		widest = max(widest, row.Places)
	}
	w := &walk{serpentine: true}
	for r := len(sec.Rows) - 1; r >= 0; r-- {
		row := &sec.Rows[r]
		shift := (widest - row.Places) / 2
		switch sec.Spec.Align {
		case seating.AlignLeft:
			shift = 0
		case seating.AlignRight:
			shift = widest - row.Places
		}
		line := make([]int32, widest)
		for x := range line {
			line[x] = gap
		}
		for s := row.First; s < row.Last; s++ {
			if at[s] > 0 {
				line[shift+int(seats[s].Place)] = at[s] - 1
			}
		}
		w.rows = append(w.rows, line)
	}
	return w
}

// heavierRight says on which side of the stands the picture is brighter. The walk begins
// there, so that a mirrored picture is walked the mirrored way.
func (m *maker) heavierRight(seats []int32, want []colour.Linear) bool {
	var turn, middle int64
	place := make([]int64, len(seats))
	low, high := int64(math.MaxInt64), int64(math.MinInt64)
	for k, s := range seats {
		place[k] = int64(math.Round(m.p.Stands.Seats[s].Position[0] * 1000))
		low, high = min(low, place[k]), max(high, place[k])
	}
	middle = low + high
	for k, l := range want {
		turn += (2*place[k] - middle) * int64(math.Round(l.Luminance()*1000))
	}
	return turn > 0
}
