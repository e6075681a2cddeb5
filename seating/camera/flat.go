package camera

import (
	"math"

	"everyseat/seating"
)

// FlatCells are cells on the plain grid, as seen straight on without
// perspective: one unit is a metre, x to the right, rows stacked by their step; v down.
// A step is measured along the slope of the rows. Curved rows are unrolled;
// sections that face sideways by more than 45 degrees are folded out beside the
// others, on the side where they stand.
func FlatCells(stands *seating.Stands) []Cell {
	cells := make([]Cell, len(stands.Seats))
	frontal, sides := emptyBox(), []int{}
	for i := range stands.Sections {
		if sideways(stands.Sections[i].Facing) != 0 {
			sides = append(sides, i)
			continue
		}
		sec := &stands.Sections[i]
		b := flatSection(stands, i, cells, sec.Origin[0], sec.Origin[1])
		frontal = frontal.with(b)
	}
	if frontal[0] > frontal[2] {
		frontal = box{}
	}
	for _, i := range sides {
		sec := &stands.Sections[i]
		wide := flatSection(stands, i, make([]Cell, len(cells)), 0, 0)
		side, gap := sideways(sec.Facing), sec.Spec.Pitch.Metres()
		at := frontal[2] + gap - wide[0]
		if side > 0 {
			at = frontal[0] - gap - wide[2]
		}
		frontal = frontal.with(flatSection(stands, i, cells, at, 0))
	}
	return cells
}

func (b box) with(o box) box {
	b.add(Pixel{o[0], o[1]})
	b.add(Pixel{o[2], o[3]})
	return b
}

// sideways is 1 for a section on the left that looks to the right, −1 for one on the right, 0 for one that looks to the front or back.
func sideways(facing float64) int {
	s, c := sincos(facing)
	switch {
	case math.Abs(s) <= math.Abs(c)+1e-9:
		return 0
	case s > 0:
		return 1
	}
	return -1
}

// flatSection lays one section's cells, its origin at x and y, and gives their box.
func flatSection(stands *seating.Stands, section int, cells []Cell, x, y float64) box {
	sec := &stands.Sections[section]
	b := emptyBox()
	pitch := sec.Spec.Pitch.Metres()
	f := frameOf(sec.Origin, sec.Facing)
	bottom := -y - sec.Spec.FirstRow.Metres()
	for r := range sec.Rows {
		row := &sec.Rows[r]
		top := bottom - flatStep(sec, r)
		for seat := row.First; seat < row.Last; seat++ {
			at := &stands.Seats[seat]
			across := flatAlign(sec, row) + float64(pitch*(float64(at.Place)+0.5))
			if sec.Spec.Radius == 0 {
				across, _, _ = f.local(at.Position)
			}
			left, right := x+across-pitch/2, x+across+pitch/2
			b.add(Pixel{left, top})
			b.add(Pixel{right, bottom})
			if at.Use == seating.UseCard {
				cells[seat] = Cell{{left, top}, {right, top}, {right, bottom}, {left, bottom}}
			}
		}
		bottom = top
	}
	return b
}

// flatAlign is where an unrolled row begins, from the section's middle; rows line up with the front one.
func flatAlign(sec *seating.Section, row *seating.Row) float64 {
	front := sec.Rows[0].Places
	for i := 0; i < len(sec.Rows) && sec.Rows[0].Places == 0; i++ {
		front = max(front, sec.Rows[i].Places)
	}
	pitch := sec.Spec.Pitch.Metres()
	switch sec.Spec.Align {
	case seating.AlignLeft:
		return -pitch * float64(front) / 2
	case seating.AlignRight:
		return pitch * (float64(front)/2 - float64(row.Places))
	}
	return -pitch * float64(row.Places) / 2
}

// flatStep is the slanted way from a row's front edge to the next one's; the last row repeats the one before.
func flatStep(sec *seating.Section, row int) float64 {
	rows := sec.Rows
	if row+1 >= len(rows) {
		if row == 0 {
			return math.Sqrt(float64(sec.Spec.Rise.Metres()*sec.Spec.Rise.Metres()) + float64(sec.Spec.Run.Metres()*sec.Spec.Run.Metres()))
		}
		row--
	}
	back, up := (rows[row+1].Front - rows[row].Front).Metres(), (rows[row+1].Height - rows[row].Height).Metres()
	return math.Sqrt(float64(back*back) + float64(up*up))
}
