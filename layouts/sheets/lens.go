package sheets

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"everyseat/mosaic"
	"everyseat/seating"
)

// errNoCamera is for plans that were not made by mosaic.Make.
var errNoCamera = errors.New("the plan has no camera")

// Camera writes camera.pdf, one page for the person at the lens: the picture as it should look with
// sections and rows named at its sides, where the tape cross is and how to measure it, the lens,
// what lies at each edge of the frame, what to lock, and the caution. Errors are *seating.Fault.
func Camera(w io.Writer, p *mosaic.Plan) error {
	if len(p.Marks) == 0 || p.Marks[0].View == nil || len(p.Cues) == 0 {
		return errNoCamera
	}
	// All of it is one page: type and picture shrink until they fit.
	for size, share := sizeBody, 0.42; ; size, share = max(size-0.5, sizeLeast), share-0.02 {
		f, err := uprightFlow(p, "Camera")
		if err != nil {
			return err
		}
		l := lensSheet{flow: f, size: size, share: share}
		f.title("Camera: what it should look like", occasion(p))
		l.pictures()
		l.place()
		l.lens()
		l.frame()
		l.lock()
		if f.pdf.PageNo() == 1 || share < 0.1 {
			return f.finish(w)
		}
	}
}

// lensSheet is the page.
type lensSheet struct {
	*flow
	size  float64 // of the type
	share float64 // of the page's height that the picture may take
}

const rowTickRoom = 6.0 // beside the picture

// pictures draws the frame at the first cue over the whole width and the next cues below it.
func (l *lensSheet) pictures() {
	q := newPicture(l.plan, 0, l.left+rowTickRoom, l.y, l.width()-2*rowTickRoom)
	// A tall picture leaves room for the words.
	if high := (l.bottom() - l.y) * l.share; q.height > high {
		width := q.width * high / q.height
		q = newPicture(l.plan, 0, (l.left+l.right-width)/2, l.y, width)
	}
	q.draw(l.pen())
	q.ticks(l.pen())
	l.y += q.height + 7.5
	more := l.otherCues()
	words := "Above: the whole frame at " + cueName(l.plan, 0)
	if more > 0 {
		words += ", and the other cues cut to the cards"
	}
	if n := len(l.plan.Cues) - 1 - more; n > 0 {
		words += fmt.Sprintf("; %s more in pictures/", plural(n, "cue"))
	}
	l.paragraph(words+". Rows at the sides, sections below; heads before the cards are not drawn. If letters stand mirrored, stop: the rows were laid from the wrong end.", sizeSmall*l.size/sizeBody)
	l.y += 1
}

// otherCues draws the cues after the first one, cut to the cards, as many as the page has room for, and counts them.
func (l *lensSheet) otherCues() int {
	const gap, columns, most = 4.0, 3, 9
	more := min(len(l.plan.Cues)-1, most)
	across := min(more, columns)
	width := min((l.width()-gap*float64(across-1))/float64(max(across, 1)), l.width()/2)
	for i := range more {
		s := newClosePicture(l.plan, i+1, l.left+float64(i%columns)*(width+gap), l.y, width)
		s.draw(l.pen())
		l.pen().text(s.x, s.y+s.height+lineHeight(8), 8, regular, shortenText(sentenceCase(cueName(l.plan, i+1)), 8, regular, width))
		if i%columns == columns-1 || i == more-1 {
			l.y += s.height + lineHeight(8) + 2
		}
	}
	return more
}

func (l *lensSheet) pairs(name, text string) { l.pairAt(name, text, l.size, 30) }

// place is the tape cross, measured in ways that check each other.
func (l *lensSheet) place() {
	at := l.plan.Marks[0].View.Position
	side := "in the middle of the stands"
	switch mm := math.Round(at[0] * 1000); {
	case mm < 0:
		side = span(at[0]) + " to the LEFT of the stands' middle"
	case mm > 0:
		side = span(at[0]) + " to the RIGHT of the stands' middle"
	}
	line := "in front of"
	if at[1] > 0 {
		line = "behind the line of"
	}
	text := fmt.Sprintf("%s %s the front row's front edge, %s as the camera sees them.", span(at[1]), line, side)
	if ends := l.ends(); ends != "" {
		text += " " + ends
	}
	if walls := l.walls(); walls != "" {
		text += " " + walls
	}
	l.pairs("Tape cross", text)
	stray := "Put the lens over the cross within a hand's width. " + l.stray()
	if len(l.plan.Marks) > 1 && !l.plan.Stunt.Walks {
		var names []string
		for _, m := range l.plan.Marks[1:] {
			names = append(names, m.View.Name)
		}
		stray += " The plan reads from " + strings.Join(names, ", ") + " too."
	}
	l.pairs("May stray", stray)
	l.walk()
	l.pairs("Lens height", span(at[2])+" above the floor, to the middle of the glass. The frame's sides stand upright; "+l.aim())
}

// stray is how far the lens may stray each way, with the plan as it is.
func (l *lensSheet) stray() string {
	s, known := l.plan.Stray()
	switch {
	case !known:
		return "How far it may stray and still read is worked out by everyseat marks."
	case !l.plan.ReadsAtMark():
		return "It does not surely read from the cross itself, so it may not stray at all."
	}
	return fmt.Sprintf("If it must move, turned to the stands again: LEFT %s, RIGHT %s, nearer %s, back %s, up %s, down %s. Farther it no longer surely reads, or nobody looked.",
		s.Left.Says(), s.Right.Says(), s.Nearer.Says(), s.Back.Says(), s.Up.Says(), s.Down.Says())
}

// aim says how far up or down the lens looks, and at which seat.
func (l *lensSheet) aim() string {
	v := l.plan.Marks[0].View
	words := "the lens looks level"
	if tilt := math.Round(math.Asin(v.Rotation[2][2]) * 180 / math.Pi); tilt != 0 {
		way := "up"
		if tilt < 0 {
			way = "down"
		}
		words = fmt.Sprintf("the lens looks %.0f° %s", math.Abs(tilt), way)
	}
	best, near := -1, int64(math.MaxInt64)
	for s := range l.plan.Stands.Seats {
		if l.plan.Stands.Seats[s].Use != seating.UseCard || l.plan.Marks[0].Sight.Behind[s] {
			continue
		}
		var u, w float64
		for _, c := range l.plan.Marks[0].Sight.Corners[s] {
			u, w = u+c[0]/4, w+c[1]/4
		}
		if d := int64(math.Round(math.Hypot(u-v.Center[0], w-v.Center[1]) * 16)); d < near {
			best, near = s, d
		}
	}
	if best < 0 {
		return words + "."
	}
	return words + ", and the card nearest to the frame's middle is " + l.plan.Stands.ID(best) + "."
}

// ends are the tapes to both ends of the front rows, which need no wall.
func (l *lensSheet) ends() string {
	at := l.plan.Marks[0].View.Position
	low, high := -1, -1
	for s := range l.plan.Stands.Seats {
		sec := &l.plan.Stands.Sections[l.plan.Stands.Seats[s].Section]
		if sec.Spec.Kind == seating.Floor || l.plan.Stands.Seats[s].Row != 0 {
			continue
		}
		x := math.Round(l.plan.Stands.Seats[s].Position[0] * 1000)
		if low < 0 || x < math.Round(l.plan.Stands.Seats[low].Position[0]*1000) {
			low = s
		}
		if high < 0 || x > math.Round(l.plan.Stands.Seats[high].Position[0]*1000) {
			high = s
		}
	}
	if low < 0 || low == high {
		return ""
	}
	far := func(s int) string {
		q := l.plan.Stands.Seats[s].Position
		return span(math.Hypot(q[0]-at[0], q[1]-at[1]))
	}
	return fmt.Sprintf("Check along the floor: %s to below the middle of seat %s, %s to below %s.", far(low), l.plan.Stands.ID(low), far(high), l.plan.Stands.ID(high))
}

// walls are the tapes square to the nearest wall and to the nearest one that runs another way.
func (l *lensSheet) walls() string {
	tapes := wallTapes(l.plan)
	if len(tapes) == 0 {
		return ""
	}
	words := make([]string, len(tapes))
	for i, t := range tapes {
		words[i] = span(t.distance) + " square to " + t.name
	}
	return "From the walls: " + strings.Join(words, ", ") + "."
}

// wallTape is a tape from the mark square to a wall.
type wallTape struct {
	name     string
	distance float64
	along    [2]float64 // the wall's direction, a unit
}

// wallTapes are at most two, to walls that do not run the same way.
func wallTapes(p *mosaic.Plan) []wallTape {
	walls := p.Stunt.Room.Walls
	at := p.Marks[0].View.Position
	var best []wallTape
	for i := range walls {
		if len(walls) < 2 {
			break
		}
		a, b := walls[i], walls[(i+1)%len(walls)]
		ax, ay := a[0].Metres(), a[1].Metres()
		dx, dy := b[0].Metres()-ax, b[1].Metres()-ay
		long := math.Hypot(dx, dy)
		if long < 0.1 {
			continue
		}
		dx, dy = dx/long, dy/long
		along := (at[0]-ax)*dx + (at[1]-ay)*dy
		if along < 0 || along > long {
			continue // the tape would miss the wall
		}
		off := (at[0]-ax)*dy - (at[1]-ay)*dx
		t := wallTape{wallName(dx, dy, off), math.Abs(off), [2]float64{dx, dy}}
		best = takeTape(best, t)
	}
	return best
}

// wallName says where a wall is, from its direction and the side on which the mark lies.
func wallName(dx, dy, off float64) string {
	// From the mark to the wall.
	nx, ny := -dy*off, dx*off
	switch {
	case math.Abs(nx) >= math.Abs(ny) && nx < 0:
		return "the wall on the LEFT"
	case math.Abs(nx) >= math.Abs(ny):
		return "the wall on the RIGHT"
	case ny < 0:
		return "the wall behind the camera"
	}
	return "the wall behind the stands"
}

// takeTape keeps the nearest wall of each of two directions.
func takeTape(best []wallTape, t wallTape) []wallTape {
	const parallel = 0.9 // cosine
	for i := range best {
		if math.Abs(best[i].along[0]*t.along[0]+best[i].along[1]*t.along[1]) > parallel {
			if math.Round(t.distance*1000) < math.Round(best[i].distance*1000) {
				best[i] = t
			}
			return best
		}
	}
	if len(best) < 2 {
		best = append(best, t)
	}
	return best
}

const fullFrame = 36 // millimetres wide, the sensor that lenses are usually compared on

func (l *lensSheet) lens() {
	v := l.plan.Marks[0].View
	share := float64(v.Width) / v.Focal
	angle := 2 * math.Atan(share/2) * 180 / math.Pi
	l.pairs("Zoom", fmt.Sprintf("%.0f° across, like a %.0f mm lens on full frame. Tape test: at 5 m (16 ft 5 in) the frame is %s wide, no more and no less. Picture %d × %d, on its side; digital zoom and stabiliser off.",
		angle, v.Focal/float64(v.Width)*fullFrame, span(5*share), v.Width, v.Height))
}

func (l *lensSheet) frame() {
	q := newPicture(l.plan, 0, 0, 0, 100)
	var words []string
	for _, e := range q.edges() {
		words = append(words, e.name+": "+e.text)
	}
	l.pairs("Frame", strings.Join(words, ". ")+".")
}

// lock is what to do before the take, and what to beware of.
func (l *lensSheet) lock() {
	l.pairs("With cards up", "Lock exposure, focus and white balance while the cards are up at the rehearsal; on automatic the picture jumps when they come up. The lightest card must not burn out: look at it at full size. "+l.plan.LightLine())
	l.pairs("Filming", "Start before READY, stop after DOWN. Keep every take. Before anybody moves, look at one frame of the take at full size: letters the right way round, nobody in the lane, both ends in.")
	walk := "The camera stands still. Whoever must walk backwards with it has a spotter with a hand on the shoulder."
	if l.plan.Stunt.Walks {
		walk = "Whoever walks with the camera has a spotter with a hand on the shoulder, who looks where they go; nobody else is on the path."
	}
	l.pairs("Caution", walk+" Tripod feet and cables are taped and covered, and never in an aisle or lane. No ladder; nothing is flown or hung over people. An alarm: camera down and walk.")
}
