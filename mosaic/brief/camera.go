package brief

import (
	"cmp"
	"fmt"
	"iter"
	"math"
	"slices"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// cameraWords is what the person at the lens is told, in order: what it is about, and the words.
func (t *teller) cameraWords() [][2]string {
	if len(t.Marks) == 0 || t.Marks[0].View == nil {
		return nil
	}
	v := t.Marks[0].View
	stray := "Put the lens over the cross within a hand's width. " + t.mayStray()
	if len(t.Marks) > 1 && !t.Stunt.Walks {
		stray += " The plan reads from " + strings.Join(t.furtherMarks(), ", ") + " too."
	}
	walk := "The camera stands still. Whoever must walk backwards with it has a spotter with a hand on the shoulder."
	if t.Stunt.Walks {
		walk = "Whoever walks with the camera has a spotter with a hand on the shoulder, who looks where they go; " +
			"nobody else is on the path."
	}
	said := append([][2]string{{"Tape cross", t.tapeCross()}, {"May stray", stray}}, t.walk()...)
	return append(said, [][2]string{
		{"Lens height", away(v.Position[2]) + " above the floor, to the middle of the glass. The frame's sides " +
			"stand upright; " + t.aim()},
		{"Zoom", fmt.Sprintf("%.0f° across, like a %.0f mm lens on full frame. Tape test: at 5 m (16 ft 5 in) the "+
			"frame is %s wide, no more and no less. Picture %d × %d, on its side; digital zoom and stabiliser off.",
			v.Angle()*180/math.Pi, v.FocalOn(camera.FullFrame), away(5*(float64(v.Width)/v.Focal)), v.Width,
			v.Height)},
		{"Frame", strings.Join(frameEdges(t.Plan), ". ") + "."},
		{"With cards up", "Lock exposure, focus and white balance while the cards are up at the rehearsal; on " +
			"automatic the picture jumps when they come up. The lightest card must not burn out: look at it at full " +
			"size. " + t.lightLine()},
		{"Filming", "Start before READY, stop after DOWN. Keep every take. Before anybody moves, look at one frame " +
			"of the take at full size: letters the right way round, nobody in the lane, both ends in."},
		{"Caution", walk + " Tripod feet and cables are taped and covered, and never in an aisle or lane. No " +
			"ladder; nothing is flown or hung over people. An alarm: camera down and walk."},
	}...)
}

// tapeCross is where it lies, measured in ways that check each other.
func (t *teller) tapeCross() string {
	at := t.Marks[0].View.Position
	line := "in front of"
	if at[1] > 0 {
		line = "behind the line of"
	}
	text := fmt.Sprintf("%s %s the front row's front edge, %s as the camera sees them.", away(at[1]), line,
		aside(at[0], " to the LEFT of the stands' middle", " to the RIGHT of the stands' middle",
			"in the middle of the stands"))
	if ends := t.ends(); ends != "" {
		text += " " + ends
	}
	if walls := wallTapes(t.Plan); walls != nil {
		text += " From the walls: " + strings.Join(walls, ", ") + "."
	}
	return text
}

func (t *teller) furtherMarks() (names []string) {
	for _, m := range t.Marks[1:] {
		names = append(names, m.View.Name)
	}
	return names
}

// mayStray is how far the lens may stray each way, with the plan as it is.
func (t *teller) mayStray() string {
	s := t.o.Stray
	switch {
	case s == nil:
		return "How far it may stray and still read is worked out by everyseat marks."
	case !t.ReadsAtMark():
		return "It does not surely read from the cross itself, so it may not stray at all."
	}
	return fmt.Sprintf("If it must move, turned to the stands again: LEFT %s, RIGHT %s, nearer %s, back %s, up %s, "+
		"down %s. Farther it no longer surely reads, or nobody looked.",
		says(s.Left), says(s.Right), says(s.Nearer), says(s.Back), says(s.Up), says(s.Down))
}

// aim says how far up or down the lens looks, and at which seat.
func (t *teller) aim() string {
	v := t.Marks[0].View
	words := "the lens looks level"
	if tilt := math.Round(math.Asin(v.Rotation[2][2]) * 180 / math.Pi); tilt != 0 {
		way := "up"
		if tilt < 0 {
			way = "down"
		}
		words = fmt.Sprintf("the lens looks %.0f° %s", math.Abs(tilt), way)
	}
	best, near := -1, int64(math.MaxInt64)
	for s, corners := range CardsSeen(t.Plan) {
		var u, w float64
		for _, q := range corners {
			u, w = u+float64(q[0]/4), w+float64(q[1]/4)
		}
		if d := int64(math.Round(math.Hypot(u-v.Center[0], w-v.Center[1]) * 16)); d < near {
			best, near = s, d
		}
	}
	if best < 0 {
		return words + "."
	}
	return words + ", and the card nearest to the frame's middle is " + t.Stands.ID(best) + "."
}

// ends are the tapes to both ends of the front rows, which need no wall.
func (t *teller) ends() string {
	at := t.Marks[0].View.Position
	var front []int
	for s := range t.Stands.Seats {
		if seat := &t.Stands.Seats[s]; seat.Row == 0 && t.Stands.Sections[seat.Section].Spec.Kind != seating.Floor {
			front = append(front, s)
		}
	}
	if len(front) == 0 {
		return ""
	}
	across := func(a, b int) int {
		x := func(s int) float64 { return math.Round(t.Stands.Seats[s].Position[0] * 1000) }
		return cmp.Compare(x(a), x(b))
	}
	low, high := slices.MinFunc(front, across), slices.MaxFunc(front, across)
	if low == high {
		return ""
	}
	far := func(s int) string {
		q := t.Stands.Seats[s].Position
		return away(math.Hypot(q[0]-at[0], q[1]-at[1]))
	}
	return fmt.Sprintf("Check along the floor: %s to below the middle of seat %s, %s to below %s.", far(low),
		t.Stands.ID(low), far(high), t.Stands.ID(high))
}

// wallTapes are at most two tapes from the mark, each square to the nearest of the walls that run its way.
func wallTapes(p *mosaic.Plan) (words []string) {
	type tape struct{ distance, dx, dy, off float64 } // dx and dy are the wall's direction, a unit
	var tapes []tape
	const parallel = 0.9 // cosine
	walls := p.Stunt.Room.Walls
	at := p.Marks[0].View.Position
	for i := range walls {
		a, b := walls[i], walls[(i+1)%len(walls)]
		ax, ay := a[0].Metres(), a[1].Metres()
		dx, dy := b[0].Metres()-ax, b[1].Metres()-ay
		long := math.Hypot(dx, dy)
		if long < 0.1 {
			continue
		}
		dx, dy = dx/long, dy/long
		along := float64((at[0]-ax)*dx) + float64((at[1]-ay)*dy)
		if along < 0 || along > long {
			continue // the tape would miss the wall
		}
		off := float64((at[0]-ax)*dy) - float64((at[1]-ay)*dx)
		one := tape{math.Abs(off), dx, dy, off}
		alike := slices.IndexFunc(tapes, func(o tape) bool {
			return math.Abs(float64(o.dx*dx)+float64(o.dy*dy)) > parallel
		})
		if alike < 0 && len(tapes) < 2 {
			tapes = append(tapes, one)
		} else if alike >= 0 && math.Round(one.distance*1000) < math.Round(tapes[alike].distance*1000) {
			tapes[alike] = one
		}
	}
	for _, o := range tapes {
		x, y, name := -o.dy*o.off, o.dx*o.off, "behind the stands" // from the mark to the wall
		switch {
		case math.Abs(x) >= math.Abs(y) && x < 0:
			name = "on the LEFT"
		case math.Abs(x) >= math.Abs(y):
			name = "on the RIGHT"
		case y < 0:
			name = "behind the camera"
		}
		words = append(words, away(o.distance)+" square to the wall "+name)
	}
	return words
}

// A walk with a camera: a calm step, and a pace at which the picture stays steady (common practice, no source).
const (
	walkStep  = 0.7 // metres
	walkPace  = 0.7 // metres a second
	lastSteps = 3
)

// walk says where a camera that walks goes, and its last steps; nothing of one that stands still.
func (t *teller) walk() [][2]string {
	if !t.Stunt.Walks || len(t.Marks) < 2 {
		return nil
	}
	var parts []string
	whole, long := 0.0, 0.0 // the last leg's
	for i := 1; i < len(t.Marks); i++ {
		from, to := t.Marks[i-1].View.Position, t.Marks[i].View.Position
		long = math.Hypot(to[0]-from[0], to[1]-from[1])
		whole += long
		parts = append(parts, fmt.Sprintf("%s %s to “%s” (%s in front of the front row, %s, lens %s high)",
			away(long), legWay(long, to[0]-from[0], to[1]-from[1]), t.Marks[i].View.Name, away(to[1]),
			aside(to[0], " LEFT of the middle", " RIGHT of the middle", "in the middle"), away(to[2])))
	}
	time := time.Duration(math.Round(whole/walkPace)) * time.Second
	path := fmt.Sprintf("From the tape cross %s. In all %s, about %.0f steps of 70 cm and %s. Tape the whole line "+
		"on the floor and a cross at every mark.", strings.Join(parts, ", then "), away(whole), math.Max(1,
		math.Round(whole/walkStep)), say.Seconds(time))
	last := t.Marks[len(t.Marks)-1].View.Name
	words := fmt.Sprintf("Stop with both feet on the last cross, “%s”, before UP is called, and stand still through "+
		"HOLD.", last)
	if n := min(lastSteps, int(long/walkStep)); n > 0 {
		var marks []string
		for i := n; i > 0; i-- {
			marks = append(marks, away(float64(i)*walkStep))
		}
		words = fmt.Sprintf("Short tapes across the line %s before the last cross, “%s”, are the last %s: slow down "+
			"there. ", strings.Join(marks, ", "), last, say.Count(n, "step")) + words
	}
	return [][2]string{{"Path", path}, {"Last steps", words + " " + t.readsAlong()}}
}

// legWay says which way a leg so long goes for somebody who films the stands: so far to the right, and toward them.
func legWay(long, right, toward float64) string {
	straight := 0.25 * long
	var words []string
	switch {
	case toward > straight:
		words = append(words, "forward")
	case -toward > straight:
		words = append(words, "BACKWARD")
	}
	switch {
	case right > straight:
		words = append(words, "to the right")
	case -right > straight:
		words = append(words, "to the left")
	}
	return strings.Join(words, " and ")
}

// readsAlong are the scores of the first cue at the marks.
func (t *teller) readsAlong() string {
	if len(t.Cues) == 0 || t.Cues[0].Text == nil {
		return ""
	}
	var parts []string
	for i := range t.Marks {
		m := &t.Marks[i]
		if len(m.Scores) == 0 {
			return ""
		}
		name := "“" + m.View.Name + "”"
		if i == 0 {
			name = "the tape cross"
		}
		parts = append(parts, fmt.Sprintf("%.0f at %s", 100*m.Scores[0], name))
	}
	return "Reads, of 100: " + strings.Join(parts, ", ") + "."
}

// frameEdges say for each side of the frame which card is nearest to it, and how much room is left.
func frameEdges(p *mosaic.Plan) (out []string) {
	w, h := float64(p.Marks[0].View.Width), float64(p.Marks[0].View.Height)
	for side, name := range [...]string{"LEFT", "RIGHT", "TOP", "BOTTOM"} {
		best, room, cut := -1, int64(math.MaxInt64), 0
		for s, corners := range CardsSeen(p) {
			nearest := int64(math.MaxInt64)
			for _, c := range corners { // share of the frame between the card and the edge
				share := [...]float64{c[0] / w, 1 - c[0]/w, c[1] / h, 1 - c[1]/h}[side]
				nearest = min(nearest, int64(math.Round(share*1000)))
			}
			if nearest < 0 {
				cut++
			} else if nearest < room {
				best, room = s, nearest
			}
		}
		words := " edge: no card is near it"
		if best >= 0 {
			words = fmt.Sprintf(" edge: card %s is the nearest, %d %% of the frame away from it", p.Stands.ID(best),
				(room+5)/10)
		}
		if cut > 0 {
			words += "; " + say.Count(cut, "card") + " beyond it"
		}
		out = append(out, name+words)
	}
	return out
}

// CardsSeen are the seats with cards before the lens, and the corners of their cards in the picture.
func CardsSeen(p *mosaic.Plan) iter.Seq2[int, [4]camera.Pixel] {
	sight := p.Marks[0].Sight
	return func(yield func(int, [4]camera.Pixel) bool) {
		for s := range p.Stands.Seats {
			if p.Stands.Seats[s].Use == seating.UseCard && !sight.Behind[s] && !yield(s, sight.Corners[s]) {
				return
			}
		}
	}
}
