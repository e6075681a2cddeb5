package sheets

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"everyseat/layouts/paper"
	"everyseat/mosaic"
	"everyseat/mosaic/brief"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/say"
)

// errNoCamera is for plans that were not made by mosaic.Make.
var errNoCamera = errors.New("the plan has no camera")

// Camera writes camera.pdf, one page for the person at the lens: the picture as it should look with sections and rows
// named at its sides, where the tape cross is and how to measure it, the lens, what lies at each edge of the frame,
// what to lock, and the caution. Errors are *seating.Fault.
func Camera(w io.Writer, b *brief.Brief) error {
	if err := hasPicture(b); err != nil {
		return err
	}
	// All of it is one page: type and picture shrink until they fit.
	for size, share := paper.SizeBody, 0.42; ; size, share = max(size-0.5, paper.SizeLeast), share-0.02 {
		f, err := uprightFlow(b, "Camera")
		if err != nil {
			return err
		}
		f.Title("Camera: what it should look like", b.Paper.Occasion)
		f.lensPictures(size, share)
		for _, pair := range b.Paper.Camera {
			f.PairAt(pair[0], pair[1], size, 30)
		}
		if f.Page() == 1 || share < 0.1 {
			return f.Finish(w)
		}
	}
}

func hasPicture(b *brief.Brief) error {
	if p := b.Plan; len(p.Marks) == 0 || p.Marks[0].View == nil || len(p.Cues) == 0 {
		return errNoCamera
	}
	return nil
}

const rowTickRoom = 6.0 // beside the picture

// lensPictures draws the frame at the first cue over the whole width and the next cues below it, with words for a
// sheet of this type; the first takes at most a share of the page's height that is left.
func (f *flow) lensPictures(size, share float64) {
	q := f.lowered(newPicture(f.plan, 0, f.Left()+rowTickRoom, f.Y, f.Inner()-2*rowTickRoom), share, newPicture)
	q.draw(&f.Pen)
	q.ticks(&f.Pen)
	f.Y += q.height + 7.5
	more := f.otherCues()
	words := "Above: the whole frame at " + brief.CueName(f.plan, 0)
	if more > 0 {
		words += ", and the other cues cut to the cards"
	}
	if n := len(f.plan.Cues) - 1 - more; n > 0 {
		words += fmt.Sprintf("; %s more in pictures/", say.Count(n, "cue"))
	}
	f.Paragraph(words+". Rows at the sides, sections below; heads before the cards are not drawn. If letters stand "+
		"mirrored, stop: the rows were laid from the wrong end.", paper.SizeSmall*size/paper.SizeBody)
	f.Y += 1
}

// lowered is a picture made anew in the middle of the page where it takes more than a share of the height that is
// left.
func (f *flow) lowered(q picture, share float64,
	anew func(p *mosaic.Plan, cue int, x, y, width float64) picture) picture {
	high := (f.Bottom() - f.Y) * share
	if q.height <= high {
		return q
	}
	width := q.width * high / q.height
	return anew(f.plan, q.cue, (f.Left()+f.Right()-width)/2, f.Y, width)
}

// otherCues draws the cues after the first one, cut to the cards, as many as the page has room for, and counts them.
func (f *flow) otherCues() int {
	const gap, columns, most = 4.0, 3, 9
	more := min(len(f.plan.Cues)-1, most)
	across := min(more, columns)
	width := min((f.Inner()-float64(gap*float64(across-1)))/float64(max(across, 1)), f.Inner()/2)
	for i := range more {
		s := newClosePicture(f.plan, i+1, f.Left()+float64(float64(i%columns)*(width+gap)), f.Y, width)
		s.draw(&f.Pen)
		f.Text(s.x, s.y+s.height+paper.LineHeight(8), 8, regular,
			regular.Shorten(say.Capital(brief.CueName(f.plan, i+1)), 8, width))
		if i%columns == columns-1 || i == more-1 {
			f.Y += s.height + paper.LineHeight(8) + 2
		}
	}
	return more
}

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
	return picture{p, cue, x, y, width, float64(v.Height) * scale, scale, 0, 0}
}

// closeRim is what a close picture shows around the cards, as a share of their width.
const closeRim = 0.03

// newClosePicture is cut to the cards of all cues, so that letters are as large as the paper allows.
func newClosePicture(p *mosaic.Plan, cue int, x, y, width float64) picture {
	view := p.Marks[0].View
	left, right, top, bottom := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, corners := range brief.CardsSeen(p) {
		for _, c := range corners {
			left, right, top, bottom = min(left, c[0]), max(right, c[0]), min(top, c[1]), max(bottom, c[1])
		}
	}
	rim := closeRim * (right - left)
	left, top = max(left-rim, 0), max(top-rim, 0)
	right, bottom = min(right+rim, float64(view.Width)), min(bottom+rim, float64(view.Height))
	if left >= right || top >= bottom {
		return newPicture(p, cue, x, y, width)
	}
	scale := width / (right - left)
	return picture{p, cue, x, y, width, (bottom - top) * scale, scale, left, top}
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
func (q *picture) farFirst() (list []int32) {
	mark := &q.plan.Marks[0]
	at := mark.View.Position
	depth := map[int32]int64{} // whole numbers decide alike everywhere
	for s, c := range q.plan.Cues[q.cue].Colours {
		if c < 0 || mark.Sight.Behind[s] {
			continue
		}
		pos := q.plan.Stands.Seats[s].Position
		dx, dy := pos[0]-at[0], pos[1]-at[1]
		depth[int32(s)] = int64(math.Round((float64(dx*dx) + float64(dy*dy)) * 1e4))
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
		sum, n := 0.0, 0.0
		for s := sec.First; s < sec.Last; s++ {
			if !sight.Behind[s] {
				sum, n = sum+sight.Corners[s][0][0], n+1
			}
		}
		u := math.Round(sum / n)
		if side == seating.Left {
			u = -u
		}
		if n > 0 && u > at {
			best, at = k, u
		}
	}
	return best
}

// Trial writes trial.pdf, the hour of the week before: twelve people in two rows of six at the real mark, with a card
// of every colour, an empty seat and two ways of holding, and what to look at afterwards. Errors are *seating.Fault.
func Trial(w io.Writer, b *brief.Brief) error {
	if len(b.Plan.Marks) == 0 || b.Plan.Marks[0].View == nil {
		return errNoCamera
	}
	return running(w, b, "Trial with twelve people", "Trial: twelve people, the week before", func(f *flow) {
		t := &b.Paper.Trial
		if len(t.Rows) == 0 {
			f.Paragraph("No section has two rows one behind the other with six people with cards each: sit twelve "+
				"people as near to that as the stands allow, in two rows.", 12)
		} else {
			f.Paragraph(t.Intro, paper.SizeBody)
			f.Y += 1
			f.Pair("Where", t.Where)
			f.Pair("When", t.When)
			f.Pair("Bring", t.Bring)
			f.trialSeats(t)
		}
		f.Heading("What to film, ten seconds each")
		type shot struct{ Number, What, For string }
		var shots []shot
		for i, s := range t.Shots {
			shots = append(shots, shot{strconv.Itoa(i + 1), s[0], s[1]})
		}
		table(f, 9.5, []column{{"Shot", 0, strong}, {"What", 1.4, 0}, {"For", 1, 0}, {"Done", 0, tick}}, shots, nil)
		f.Heading("What to read off the film, full size")
		f.Dashes(t.Look...)
	})
}

// trialSeats draws both rows as the camera sees them and names the seats.
func (f *flow) trialSeats(t *brief.Trial) {
	f.Heading("Who sits where, as the camera sees it")
	if t.TooMany != "" {
		f.Paragraph(t.TooMany, paper.SizeBody)
	}
	const high, label, across = 21.0, 26.0, 7
	cellWidth := min((f.Inner()-label)/across, 22)
	f.Need(2*high + 22)
	f.Y += 3
	left := f.Left() + label
	for i, row := range t.Rows {
		x, name := left, "back row"
		if i == 1 {
			x, name = x+cellWidth/2, "front row"
		}
		f.Text(f.Left(), f.Y+high/2, 10, bold, name)
		f.Text(f.Left(), f.Y+high/2+paper.LineHeight(9), 9, regular, regular.Shorten(row.Name, 9, label-2))
		for k := range row.Seats {
			f.trialSeat(x+float64(float64(k)*cellWidth), f.Y, cellWidth, high, &row.Seats[k])
		}
		f.Y += high + 1.5
	}
	f.Y += 3
	end := left + float64(cellWidth*across)
	f.Text(left, f.Y, 9, bold, "LEFT as the camera sees it")
	f.TextRight(end, f.Y, 9, bold, "RIGHT as the camera sees it")
	f.Y += paper.LineHeight(8.5)
	f.Text(left, f.Y, 8.5, regular, "right hand of whoever sits there")
	f.TextRight(end, f.Y, 8.5, regular, "left hand of whoever sits there")
	f.Y += 3
	f.Paragraph(t.Pixels, paper.SizeBody)
}

func (f *flow) trialSeat(x, y, w, h float64, s *brief.TrialSeat) {
	f.Stroke(black, 0.3)
	if s.Colour < 0 {
		f.Dashed(1.5, 1)
		f.Box(x+0.6, y+0.6, w-1.2, h-1.2)
		f.Solid()
		f.TextMiddle(x+w/2, y+h/2-1, 9, bold, "EMPTY")
	} else {
		f.Swatch(x+0.6, y+0.6, w-1.2, h-9.5, f.Palette[s.Colour])
		f.Box(x+0.6, y+0.6, w-1.2, h-1.2)
		name := f.plan.Stunt.Colours[s.Colour].Name
		size := max(regular.SizeFor(name, w-2, 8), paper.SizeLeast)
		f.TextMiddle(x+w/2, y+h-5.2, size, regular, regular.Shorten(name, size, w-2))
	}
	size := max(bold.SizeFor(s.ID, w-2, 8), paper.SizeLeast)
	f.TextMiddle(x+w/2, y+h-1.8, size, bold, bold.Shorten(s.ID, size, w-1.4))
}
