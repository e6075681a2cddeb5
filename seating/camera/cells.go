package camera

import (
	"cmp"
	"math"
	"slices"

	"everyseat/seating"
	"everyseat/seating/together"
)

// Cell is the part of the picture that one seat answers for: top-left,
// top-right, bottom-right, bottom-left, in pixels. It is bounded half-way to its
// neighbours in the row and to the rows above and below as seen, half a pitch
// at ends and aisles, and centred on what is seen of the card.
type Cell [4]Pixel

// Cells gives each seat's cell; a zero Cell where the seat holds no card or is behind the lens.
//
// The border between two rows is the mean of the two lines through their cards'
// middles, and the border between two seats is upright, so neighbouring cells
// share their borders. Where a section is seen so much from the side that its
// rows run up and down the picture, the two change roles.
func Cells(stands *seating.Stands, v *View, sight *Sight) []Cell {
	cells := make([]Cell, len(stands.Seats))
	together.Each(len(stands.Sections), func(i int) {
		rows := stands.Sections[i].Rows
		k := knit{stands: stands, view: v, sight: sight, lines: make([]line, len(rows))}
		for r := range rows {
			for seat := rows[r].First; seat < rows[r].Last; seat++ {
				at := &stands.Seats[seat]
				if at.Use == seating.UseCard && !sight.Behind[seat] && sight.Corners[seat] != [4]Pixel{} {
					k.lines[r] = append(k.lines[r], stitch{int32(seat), at.Place, sight.Centre[seat]})
				}
			}
		}
		k.orient()
		for r, l := range k.lines {
			for j := range l {
				cells[l[j].seat] = k.cell(r, j)
			}
		}
	})
	return cells
}

// stitch is the middle of one card in the picture; along the row first once oriented.
type stitch struct {
	seat, place int32
	at          Pixel
}

// line is a row as seen, in order along it.
type line []stitch

// knit is one section's rows as seen.
type knit struct {
	stands *seating.Stands
	view   *View
	sight  *Sight
	lines  []line
	along  int // the picture's axis that the rows run along: 1, v, where they run up and down the picture
}

// orient decides which way the rows run and sorts them along it.
func (k *knit) orient() {
	var along Pixel
	for _, l := range k.lines {
		for j := 1; j < len(l); j++ {
			along[0] += math.Abs(l[j].at[0] - l[j-1].at[0])
			along[1] += math.Abs(l[j].at[1] - l[j-1].at[1])
		}
	}
	const steep = 1.75 // about 60 degrees
	if along[1] > steep*along[0] {
		k.along = 1
	}
	for _, l := range k.lines {
		if k.along == 1 {
			for j := range l {
				l[j].at[0], l[j].at[1] = l[j].at[1], l[j].at[0]
			}
		}
		slices.SortStableFunc(l, func(a, b stitch) int { return cmp.Compare(a.at[0], b.at[0]) })
	}
}

func (k *knit) cell(row, j int) Cell {
	left, right := k.ends(row, j)
	var c Cell
	c[0][0], c[3][0], c[1][0], c[2][0] = left, left, right, right
	c[0][1], c[3][1] = k.borders(row, j, left)
	c[1][1], c[2][1] = k.borders(row, j, right)
	if k.along == 1 { // what was left is now top
		c = Cell{{c[0][1], c[0][0]}, {c[3][1], c[3][0]}, {c[2][1], c[2][0]}, {c[1][1], c[1][0]}}
	}
	return c
}

// ends is where the cell begins and ends along the row.
func (k *knit) ends(row, j int) (left, right float64) {
	l := k.lines[row]
	at := l[j].at[0]
	beside := func(i int) (half float64, ok bool) {
		if i < 0 || i >= len(l) {
			return 0, false
		}
		step := l[i].place - l[j].place
		return math.Abs(l[i].at[0]-at) / 2, step == 1 || step == -1
	}
	before, hasBefore := beside(j - 1)
	after, hasAfter := beside(j + 1)
	if !hasBefore && !hasAfter {
		before, hasBefore = k.halfPitch(l[j].seat), true
	}
	if !hasBefore {
		before = after
	}
	if !hasAfter {
		after = before
	}
	return at - before, at + after
}

// halfPitch is half a place along the row, as seen.
func (k *knit) halfPitch(seat int32) float64 {
	at := &k.stands.Seats[seat]
	f := frameOf(at.Position, at.Facing)
	half := k.stands.Sections[at.Section].Spec.Pitch.Metres() / 2
	a, near1 := k.view.Project(f.at(-half, 0, 1))
	b, near2 := k.view.Project(f.at(half, 0, 1))
	if near1 < near || near2 < near {
		return k.cardSize(seat, k.along) / 2
	}
	return math.Abs(b[k.along]-a[k.along]) / 2
}

// cardSize is how far the card reaches along an axis of the picture.
func (k *knit) cardSize(seat int32, axis int) float64 {
	t := shot{corners: k.sight.Corners[seat]}
	b := t.box()
	return b[axis+2] - b[axis]
}

// borders is where the cell's border to the next rows lies at a place along the row: the smaller first.
func (k *knit) borders(row, j int, along float64) (low, high float64) {
	own := k.lines[row].height(along, 0)
	slope := k.lines[row].slope(max(0, j-1), min(len(k.lines[row])-1, j+1))
	least := k.cardSize(k.lines[row][j].seat, 1-k.along) / 10
	found := [2]float64{math.NaN(), math.NaN()} // distance to the border upward and downward
	for _, next := range [2]int{row - 1, row + 1} {
		if next < 0 || next >= len(k.lines) || len(k.lines[next]) == 0 {
			continue
		}
		off := (k.lines[next].height(along, slope) - own) / 2
		side := 0
		if off > 0 {
			side = 1
		}
		if math.IsNaN(found[side]) || math.Abs(off) < found[side] {
			found[side] = math.Max(math.Abs(off), least)
		}
	}
	for side, off := range found {
		if math.IsNaN(off) {
			found[side] = found[1-side]
		}
	}
	if math.IsNaN(found[0]) {
		found = [2]float64{5 * least, 5 * least}
	}
	return own - found[0], own + found[1]
}

// height is the line's place across at a place along, going on straight beyond its
// ends; a line of one card runs at the given slope.
func (l line) height(along, slope float64) float64 {
	if len(l) == 1 {
		return l[0].at[1] + float64(slope*(along-l[0].at[0]))
	}
	i, _ := slices.BinarySearchFunc(l, along, func(s stitch, x float64) int {
		if s.at[0] < x {
			return -1
		}
		return 1
	})
	switch {
	case i == 0:
		return l[0].at[1] + float64(l.slope(0, min(2, len(l)-1))*(along-l[0].at[0]))
	case i == len(l):
		return l[i-1].at[1] + float64(l.slope(max(0, i-3), i-1)*(along-l[i-1].at[0]))
	}
	return l[i-1].at[1] + float64(l.slope(i-1, i)*(along-l[i-1].at[0]))
}

// slope is the line's slope between two of its cards.
func (l line) slope(a, b int) float64 {
	if d := l[b].at[0] - l[a].at[0]; math.Abs(d) > 1e-9 {
		return (l[b].at[1] - l[a].at[1]) / d
	}
	return 0
}

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
		at := stands.Sections[i].Origin
		frontal = frontal.with(flatSection(stands, i, cells, at[0], at[1]))
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

// sideways is 1 for a section on the left that looks to the right, −1 for one on the right, 0 for one that looks to
// the front or back.
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
			left, right := x+across-float64(pitch/2), x+across+float64(pitch/2)
			b = b.with(box{left, top, right, bottom})
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
		return pitch * float64(front-2*row.Places) / 2
	}
	return -pitch * float64(row.Places) / 2
}

// flatStep is the slanted way from a row's front edge to the next one's; the last row repeats the one before.
func flatStep(sec *seating.Section, row int) float64 {
	back, up := sec.Spec.Run.Metres(), sec.Spec.Rise.Metres()
	if row = min(row, len(sec.Rows)-2); row >= 0 {
		this, next := &sec.Rows[row], &sec.Rows[row+1]
		back, up = (next.Front - this.Front).Metres(), (next.Height - this.Height).Metres()
	}
	return math.Sqrt(float64(back*back) + float64(up*up))
}
