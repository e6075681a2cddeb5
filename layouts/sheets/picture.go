package sheets

import (
	"cmp"
	"math"
	"slices"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/seating"
)

// picture is the camera's picture at one cue as a plain drawing: the cards where the lens has them, the far
// ones first. Heads and what else hides cards is left out, so that whoever looks through the
// lens sees what should be there.
type picture struct {
	plan          *mosaic.Plan
	cue           int
	x, y          float64 // top left corner on the page
	width, height float64
	scale         float64 // millimetres a pixel
	u, v          float64 // the pixel at its top left corner
}

func newPicture(p *mosaic.Plan, cue int, x, y, width float64) picture {
	v := p.Marks[0].View
	scale := width / float64(v.Width)
	return picture{plan: p, cue: cue, x: x, y: y, width: width, height: float64(v.Height) * scale, scale: scale}
}

// closeRim is what a close picture shows around the cards, as a share of their width.
const closeRim = 0.03

// newClosePicture is cut to the cards of all cues, so that letters are as large as the paper allows.
func newClosePicture(p *mosaic.Plan, cue int, x, y, width float64) picture {
	mark := &p.Marks[0]
	left, right, top, bottom := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, corners := range brief.CardsSeen(p) {
		for _, c := range corners {
			left, right, top, bottom = min(left, c[0]), max(right, c[0]), min(top, c[1]), max(bottom, c[1])
		}
	}
	rim := closeRim * (right - left)
	left, top = max(left-rim, 0), max(top-rim, 0)
	right, bottom = min(right+rim, float64(mark.View.Width)), min(bottom+rim, float64(mark.View.Height))
	if left >= right || top >= bottom {
		return newPicture(p, cue, x, y, width)
	}
	scale := width / (right - left)
	return picture{plan: p, cue: cue, x: x, y: y, width: width, height: (bottom - top) * scale, scale: scale,
		u: left, v: top}
}

// at is a pixel's place on the page.
func (q *picture) at(u, v float64) [2]float64 {
	return [2]float64{q.x + float64((u-q.u)*q.scale), q.y + float64((v-q.v)*q.scale)}
}

// paleGround lies under the cards: darker than paper, lighter than what a copier turns black.
var paleGround = colour.RGB{0xe4, 0xe4, 0xe4}

func (q *picture) draw(p *paper.Pen) {
	p.Fill(paleGround)
	p.Filled(q.x, q.y, q.width, q.height)
	p.Stroke(grey, 0.05)
	p.Inside(q.x, q.y, q.width, q.height, func() {
		last := int16(mosaic.None)
		for _, s := range q.farFirst() {
			c := q.plan.Cues[q.cue].Colours[s]
			if c != last {
				p.Fill(q.plan.Stunt.Colours[c].RGB)
				last = c
			}
			k := q.plan.Marks[0].Sight.Corners[s]
			p.Polygon(paper.Both, q.at(k[0][0], k[0][1]), q.at(k[1][0], k[1][1]), q.at(k[2][0], k[2][1]),
				q.at(k[3][0], k[3][1]))
		}
	})
	p.Stroke(black, 0.4)
	p.Box(q.x, q.y, q.width, q.height)
}

// farFirst are the seats that show a card before the lens, the far ones first.
func (q *picture) farFirst() []int32 {
	mark := &q.plan.Marks[0]
	at := mark.View.Position
	var list []int32
	depth := map[int32]int64{}
	for s, c := range q.plan.Cues[q.cue].Colours {
		if c < 0 || mark.Sight.Behind[s] {
			continue
		}
		pos := q.plan.Stands.Seats[s].Position
		dx, dy := pos[0]-at[0], pos[1]-at[1]
		depth[int32(s)] = int64(math.Round((float64(dx*dx) + float64(dy*dy)) * 1e4)) // whole numbers decide alike everywhere
		list = append(list, int32(s))
	}
	slices.SortStableFunc(list, func(a, b int32) int { return cmp.Compare(depth[b], depth[a]) })
	return list
}

// ticks name the sections under the picture and the rows beside it.
func (q *picture) ticks(p *paper.Pen) {
	sight := q.plan.Marks[0].Sight
	p.Stroke(black, 0.2)
	end := math.Inf(-1)
	for k := range q.plan.Stands.Sections {
		sec := &q.plan.Stands.Sections[k]
		low, high := math.Inf(1), math.Inf(-1)
		for s := sec.First; s < sec.Last; s++ {
			if q.plan.Stands.Seats[s].Use != seating.UseCard || sight.Behind[s] {
				continue
			}
			for _, c := range sight.Corners[s] {
				low, high = min(low, c[0]), max(high, c[0])
			}
		}
		low, high = max(low, 0), min(high, q.width/q.scale)
		if low >= high || sec.Spec.Kind == seating.Floor {
			continue
		}
		y := q.y + q.height
		a, b := q.at(low, 0)[0], q.at(high, 0)[0]
		p.Line(a, y+1.2, b, y+1.2)
		p.Line(a, y+0.4, a, y+2)
		p.Line(b, y+0.4, b, y+2)
		name := "section " + sec.Name
		size := bold.SizeFor(name, max(b-a, 6), 9)
		if from := (a+b)/2 - bold.Width(size, name)/2; size >= paper.SizeLeast && from > end {
			p.TextMiddle((a+b)/2, y+2+paper.LineHeight(9)*0.85, size, bold, name)
			end = (a+b)/2 + bold.Width(size, name)/2 + 1
		}
	}
	q.rowTicks(p, seating.Left)
	q.rowTicks(p, seating.Right)
}

// rowTicks names the rows of the outermost section on one side, where the frame's edge meets them.
func (q *picture) rowTicks(p *paper.Pen, side seating.Side) {
	sec := q.outermost(side)
	if sec < 0 {
		return
	}
	section := &q.plan.Stands.Sections[sec]
	sight := q.plan.Marks[0].Sight
	next := math.Inf(1)
	for r := range section.Rows {
		row := &section.Rows[r]
		s := row.First
		if side == seating.Right {
			s = row.Last - 1
		}
		if row.First == row.Last || sight.Behind[s] {
			continue
		}
		v := 0.0
		for _, c := range sight.Corners[s] {
			v += c[1] / 4
		}
		at := q.at(0, v)[1]
		if at < q.y+1 || at > q.y+q.height-1 || at > next {
			continue
		}
		next = at - 2.9
		if side == seating.Left {
			p.Line(q.x-1.5, at, q.x, at)
			p.TextRight(q.x-2, at+paper.CapHeight(7)/2, 7, regular, row.Name)
		} else {
			p.Line(q.x+q.width, at, q.x+q.width+1.5, at)
			p.Text(q.x+q.width+2, at+paper.CapHeight(7)/2, 7, regular, row.Name)
		}
	}
}

// outermost is the section in the stands that reaches furthest to one side of the picture, or −1.
func (q *picture) outermost(side seating.Side) int {
	sight := q.plan.Marks[0].Sight
	best, at := -1, math.Inf(-1)
	for k := range q.plan.Stands.Sections {
		sec := &q.plan.Stands.Sections[k]
		if sec.Spec.Kind == seating.Floor || sec.Spec.NoCards {
			continue
		}
		sum, n := 0.0, 0
		for s := sec.First; s < sec.Last; s++ {
			if !sight.Behind[s] {
				sum += sight.Corners[s][0][0]
				n++
			}
		}
		if n == 0 {
			continue
		}
		u := math.Round(sum / float64(n))
		if side == seating.Left {
			u = -u
		}
		if u > at {
			best, at = k, u
		}
	}
	return best
}
