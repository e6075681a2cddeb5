package brief

import (
	"fmt"
	"iter"
	"math"
	"strings"
	"time"

	"everyseat/mosaic"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// cameraWords is what the person at the lens is told, in order: what it is about, and the words.
func (t *teller) cameraWords() [][2]string {
	if len(t.p.Marks) == 0 || t.p.Marks[0].View == nil {
		return nil
	}
	c := lensWords{p: t.p, t: t}
	c.place()
	c.lens()
	c.frame()
	c.lock()
	return c.said
}

type lensWords struct {
	p    *mosaic.Plan
	t    *teller
	said [][2]string
}

func (c *lensWords) pair(about, words string) { c.said = append(c.said, [2]string{about, words}) }

// place is the tape cross, measured in ways that check each other.
func (c *lensWords) place() {
	at := c.p.Marks[0].View.Position
	side := "in the middle of the stands"
	switch mm := math.Round(at[0] * 1000); {
	case mm < 0:
		side = away(at[0]) + " to the LEFT of the stands' middle"
	case mm > 0:
		side = away(at[0]) + " to the RIGHT of the stands' middle"
	}
	line := "in front of"
	if at[1] > 0 {
		line = "behind the line of"
	}
	text := fmt.Sprintf("%s %s the front row's front edge, %s as the camera sees them.", away(at[1]), line, side)
	if ends := c.ends(); ends != "" {
		text += " " + ends
	}
	if walls := c.walls(); walls != "" {
		text += " " + walls
	}
	c.pair("Tape cross", text)
	stray := "Put the lens over the cross within a hand's width. " + c.stray()
	if len(c.p.Marks) > 1 && !c.p.Stunt.Walks {
		var names []string
		for _, m := range c.p.Marks[1:] {
			names = append(names, m.View.Name)
		}
		stray += " The plan reads from " + strings.Join(names, ", ") + " too."
	}
	c.pair("May stray", stray)
	c.walk()
	c.pair("Lens height",
		away(at[2])+" above the floor, to the middle of the glass. The frame's sides stand upright; "+c.aim())
}

// stray is how far the lens may stray each way, with the plan as it is.
func (c *lensWords) stray() string {
	s := c.t.o.Stray
	switch {
	case s == nil:
		return "How far it may stray and still read is worked out by everyseat marks."
	case !c.p.ReadsAtMark():
		return "It does not surely read from the cross itself, so it may not stray at all."
	}
	return fmt.Sprintf("If it must move, turned to the stands again: LEFT %s, RIGHT %s, nearer %s, back %s, up %s, "+
		"down %s. Farther it no longer surely reads, or nobody looked.",
		says(s.Left), says(s.Right), says(s.Nearer), says(s.Back), says(s.Up), says(s.Down))
}

// aim says how far up or down the lens looks, and at which seat.
func (c *lensWords) aim() string {
	v := c.p.Marks[0].View
	words := "the lens looks level"
	if tilt := math.Round(math.Asin(v.Rotation[2][2]) * 180 / math.Pi); tilt != 0 {
		way := "up"
		if tilt < 0 {
			way = "down"
		}
		words = fmt.Sprintf("the lens looks %.0f° %s", math.Abs(tilt), way)
	}
	best, near := -1, int64(math.MaxInt64)
	for s, corners := range CardsSeen(c.p) {
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
	return words + ", and the card nearest to the frame's middle is " + c.p.Stands.ID(best) + "."
}

// ends are the tapes to both ends of the front rows, which need no wall.
func (c *lensWords) ends() string {
	at := c.p.Marks[0].View.Position
	low, high := -1, -1
	for s := range c.p.Stands.Seats {
		sec := &c.p.Stands.Sections[c.p.Stands.Seats[s].Section]
		if sec.Spec.Kind == seating.Floor || c.p.Stands.Seats[s].Row != 0 {
			continue
		}
		x := math.Round(c.p.Stands.Seats[s].Position[0] * 1000)
		if low < 0 || x < math.Round(c.p.Stands.Seats[low].Position[0]*1000) {
			low = s
		}
		if high < 0 || x > math.Round(c.p.Stands.Seats[high].Position[0]*1000) {
			high = s
		}
	}
	if low < 0 || low == high {
		return ""
	}
	far := func(s int) string {
		q := c.p.Stands.Seats[s].Position
		return away(math.Hypot(q[0]-at[0], q[1]-at[1]))
	}
	return fmt.Sprintf("Check along the floor: %s to below the middle of seat %s, %s to below %s.", far(low),
		c.p.Stands.ID(low), far(high), c.p.Stands.ID(high))
}

// walls are the tapes square to the nearest wall and to the nearest one that runs another way.
func (c *lensWords) walls() string {
	tapes := wallTapes(c.p)
	if len(tapes) == 0 {
		return ""
	}
	words := make([]string, len(tapes))
	for i, t := range tapes {
		words[i] = away(t.distance) + " square to " + t.name
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
		along := float64((at[0]-ax)*dx) + float64((at[1]-ay)*dy)
		if along < 0 || along > long {
			continue // the tape would miss the wall
		}
		off := float64((at[0]-ax)*dy) - float64((at[1]-ay)*dx)
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
		if math.Abs(float64(best[i].along[0]*t.along[0])+float64(best[i].along[1]*t.along[1])) > parallel {
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

func (c *lensWords) lens() {
	v := c.p.Marks[0].View
	share := float64(v.Width) / v.Focal
	angle := v.Angle() * 180 / math.Pi
	c.pair("Zoom", fmt.Sprintf("%.0f° across, like a %.0f mm lens on full frame. Tape test: at 5 m (16 ft 5 in) the "+
		"frame is %s wide, no more and no less. Picture %d × %d, on its side; digital zoom and stabiliser off.",
		angle, v.FocalOn(camera.FullFrame), away(5*share), v.Width, v.Height))
}

func (c *lensWords) frame() {
	c.pair("Frame", strings.Join(frameEdges(c.p), ". ")+".")
}

// lock is what to do before the take, and what to beware of.
func (c *lensWords) lock() {
	c.pair("With cards up",
		"Lock exposure, focus and white balance while the cards are up at the rehearsal; on automatic the picture jumps "+
			"when they come up. The lightest card must not burn out: look at it at full size. "+c.t.lightLine())
	c.pair("Filming", "Start before READY, stop after DOWN. Keep every take. Before anybody moves, look at one frame "+
		"of the take at full size: letters the right way round, nobody in the lane, both ends in.")
	walk := "The camera stands still. Whoever must walk backwards with it has a spotter with a hand on the shoulder."
	if c.p.Stunt.Walks {
		walk = "Whoever walks with the camera has a spotter with a hand on the shoulder, who looks where they go; nobody " +
			"else is on the path."
	}
	c.pair("Caution", walk+" Tripod feet and cables are taped and covered, and never in an aisle or lane. No ladder; "+
		"nothing is flown or hung over people. An alarm: camera down and walk.")
}

// A walk with a camera: a calm step, and a pace at which the picture stays steady (common practice, no source).
const (
	walkStep  = 0.7 // metres
	walkPace  = 0.7 // metres a second
	lastSteps = 3
)

// leg is the straight way from one mark to the next one. Metres.
type leg struct {
	to       *mosaic.Mark
	long     float64
	toward   float64 // how much nearer to the stands it ends
	sideways float64 // positive: to the right
}

// legs are the ways over the marks in order.
func legs(p *mosaic.Plan) []leg {
	var list []leg
	for i := 1; i < len(p.Marks); i++ {
		a, b := p.Marks[i-1].View.Position, p.Marks[i].View.Position
		list = append(list, leg{&p.Marks[i], math.Hypot(b[0]-a[0], b[1]-a[1]), b[1] - a[1], b[0] - a[0]})
	}
	return list
}

// walk says where a camera that walks goes, and its last steps.
func (c *lensWords) walk() {
	if !c.p.Stunt.Walks || len(c.p.Marks) < 2 {
		return
	}
	var parts []string
	whole := 0.0
	ways := legs(c.p)
	for _, w := range ways {
		whole += w.long
		at := w.to.View.Position
		parts = append(parts, fmt.Sprintf("%s %s to “%s” (%s in front of the front row, %s, lens %s high)",
			away(w.long), w.way(), w.to.View.Name, away(at[1]), acrossWords(at[0]), away(at[2])))
	}
	time := time.Duration(math.Round(whole/walkPace)) * time.Second
	c.pair("Path", fmt.Sprintf("From the tape cross %s. In all %s, about %.0f steps of 70 cm and %s. Tape the whole "+
		"line on the floor and a cross at every mark.",
		strings.Join(parts, ", then "), away(whole), math.Max(1, math.Round(whole/walkStep)), say.Seconds(time)))
	last := ways[len(ways)-1]
	n := min(lastSteps, int(last.long/walkStep))
	words := fmt.Sprintf("Stop with both feet on the last cross, “%s”, before UP is called, and stand still through "+
		"HOLD.", last.to.View.Name)
	if n > 0 {
		var marks []string
		for i := n; i > 0; i-- {
			marks = append(marks, away(float64(i)*walkStep))
		}
		words = fmt.Sprintf("Short tapes across the line %s before the last cross, “%s”, are the last %s: slow down there. ",
			strings.Join(marks, ", "), last.to.View.Name, say.Count(n, "step")) + words
	}
	c.pair("Last steps", words+" "+c.readsAlong())
}

// way says which way a leg goes for somebody who films the stands.
func (w *leg) way() string {
	const straight = 0.25 // of the way
	var words []string
	switch {
	case w.toward > straight*w.long:
		words = append(words, "forward")
	case -w.toward > straight*w.long:
		words = append(words, "BACKWARD")
	}
	switch {
	case w.sideways > straight*w.long:
		words = append(words, "to the right")
	case -w.sideways > straight*w.long:
		words = append(words, "to the left")
	}
	return strings.Join(words, " and ")
}

// acrossWords say where a mark is across.
func acrossWords(x float64) string {
	switch mm := math.Round(x * 1000); {
	case mm < 0:
		return away(x) + " LEFT of the middle"
	case mm > 0:
		return away(x) + " RIGHT of the middle"
	}
	return "in the middle"
}

// readsAlong are the scores of the first cue at the marks.
func (c *lensWords) readsAlong() string {
	if len(c.p.Cues) == 0 || c.p.Cues[0].Text == nil {
		return ""
	}
	var parts []string
	for i := range c.p.Marks {
		m := &c.p.Marks[i]
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
func frameEdges(p *mosaic.Plan) []string {
	view := p.Marks[0].View
	w, h := float64(view.Width), float64(view.Height)
	var out []string
	for _, side := range []struct {
		name string
		room func(c camera.Pixel) float64 // share of the frame between the point and the edge
	}{
		{"LEFT edge", func(c camera.Pixel) float64 { return c[0] / w }},
		{"RIGHT edge", func(c camera.Pixel) float64 { return 1 - c[0]/w }},
		{"TOP edge", func(c camera.Pixel) float64 { return c[1] / h }},
		{"BOTTOM edge", func(c camera.Pixel) float64 { return 1 - c[1]/h }},
	} {
		best, room, cut := -1, int64(math.MaxInt64), 0
		for s, corners := range CardsSeen(p) {
			nearest := int64(math.MaxInt64)
			for _, c := range corners {
				nearest = min(nearest, int64(math.Round(side.room(c)*1000)))
			}
			if nearest < 0 {
				cut++
			} else if nearest < room {
				best, room = s, nearest
			}
		}
		words := "no card is near it"
		if best >= 0 {
			words = fmt.Sprintf("card %s is the nearest, %d %% of the frame away from it", p.Stands.ID(best), (room+5)/10)
		}
		if cut > 0 {
			words += "; " + say.Count(cut, "card") + " beyond it"
		}
		out = append(out, side.name+": "+words)
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
