package mosaic

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Reach is how far the camera may go one way.
type Reach struct {
	Distance seating.Length
	End      End
}

// End is why it may not go farther.
type End uint8

// The reasons.
const (
	EndScore End = iota // it no longer reads
	EndRoom             // a wall, the stands or something else is there
	EndFar              // nobody looked farther
)

// Stray is how far the camera may stray from the tape cross, as it sees the stands, with
// the plan as it is and the lens turned to the stands again: until a text no longer reads, or of
// pictures a tenth of what is seen of the cards is lost.
type Stray struct {
	Left, Right, Nearer, Back, Up, Down Reach
}

// How far and how finely straying is looked at, and among how many seats; package marks looks
// farther, for any number.
const (
	strayStep  = 25 * seating.Centimetre
	strayMost  = 4 * seating.Metre
	strayTall  = 1 * seating.Metre // up or down
	strayLow   = 10 * seating.Centimetre
	straySeats = 3000
	// straySamples a card are enough where only a score's change counts.
	straySamples = 16
)

// Stray is worked out when it is first asked for. It is not known where there are more than a few
// thousand seats; where the plan does not read from the mark itself, nothing may stray.
func (p *Plan) Stray() (s Stray, known bool) {
	if len(p.Stands.Seats) > straySeats || len(p.Marks) == 0 {
		return Stray{}, false
	}
	d := &p.doubted().stray
	d.once.Do(func() { d.is = p.stray() })
	return d.is, true
}

// ReadsAtMark says whether every text reads from the camera.
func (p *Plan) ReadsAtMark() bool {
	for i := range p.Cues {
		if p.Cues[i].Text != nil && legibility.VerdictOf(p.Marks[0].Scores[i]) != legibility.Reads {
			return false
		}
	}
	return true
}

func (p *Plan) stray() Stray {
	if !p.ReadsAtMark() {
		return Stray{}
	}
	e := p.Elsewhere()
	home, err := e.From(p.Stunt.Camera, straySamples)
	if err != nil {
		return Stray{}
	}
	keeps := e.Keeps(home)
	ways := [...][3]seating.Length{{-1}, {1}, {0, -1}, {0, 1}, {0, 0, 1}, {0, 0, -1}} // across, back, height
	var reach [len(ways)]Reach
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(ways)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(ways); i = int(next.Add(1)) - 1 {
				reach[i] = p.strayTo(e, ways[i], keeps)
			}
		})
	}
	wait.Wait()
	return Stray{reach[0], reach[1], reach[2], reach[3], reach[4], reach[5]}
}

func (p *Plan) strayTo(e *Elsewhere, way [3]seating.Length, keeps func(Mark) bool) Reach {
	most := strayMost
	if way[2] != 0 {
		most = strayTall
	}
	return Farthest(strayStep, most, func(d seating.Length) (bool, End) {
		m := p.Stunt.Camera
		m.Across, m.Back, m.Height = m.Across+way[0]*d, m.Back+way[1]*d, m.Height+way[2]*d
		if m.Height < strayLow || p.wallBetween(&p.Stunt.Camera, &m) {
			return false, EndRoom
		}
		mark, err := e.From(m, straySamples)
		if err != nil {
			return false, EndRoom
		}
		return keeps(mark), EndScore
	})
}

// Farthest is the largest multiple of step, up to most, at which try holds, if what holds far
// away holds nearer too: in strides of 4, 16 … steps, then by halves. Where try does not hold it says why.
func Farthest(step, most seating.Length, try func(seating.Length) (holds bool, why End)) Reach {
	n := int(most / step)
	good, bad, end := 0, n+1, EndFar
	look := func(k int) {
		if holds, why := try(seating.Length(k) * step); holds {
			good = k
		} else {
			bad, end = k, why
		}
	}
	for k := 4; bad > n && good < n; k *= 4 {
		look(min(k, n))
	}
	for bad-good > 1 {
		look((good + bad) / 2)
	}
	return Reach{seating.Length(good) * step, end}
}

// From looks from another place with the plan's cards, turned to it where people turn them. Errors
// are those of camera.NewView.
func (e *Elsewhere) From(m camera.Mark, samples int) (Mark, error) {
	scene := e.p.Scene
	if scene.Card.ToMark {
		turned, at := *scene, m.Position()
		turned.Mark = &at
		scene = &turned
	}
	v, err := camera.NewView(m, scene)
	if err != nil {
		return Mark{}, err
	}
	return Mark{View: v, Sight: scene.SeeWith(v, samples)}, nil
}

// lostShare is how much of what is seen of a picture's cards may be lost (ours, no source).
const lostShare = 0.1

// Keeps says of other marks whether from there the plan still does what it does from its camera;
// home is what its camera sees, looked at as the others are. The camera's own score
// comes from more tries than a quick look has: what the quick one gives there is made up for.
func (e *Elsewhere) Keeps(home Mark) func(Mark) bool {
	if len(e.texts) == 0 {
		least := e.Shown(home.Sight) * (1 - lostShare)
		return func(m Mark) bool { return thousandth(e.Shown(m.Sight)) >= thousandth(least) }
	}
	own := 1.0
	for i := range e.texts {
		own = min(own, e.p.Marks[0].Scores[e.texts[i].cue])
	}
	off := own - e.Score(home)
	reads, _ := legibility.Thresholds()
	return func(m Mark) bool { return thousandth(e.Score(m)+off) >= thousandth(reads) }
}

// Shown is the share of the cards' area that is seen: what is told where nothing is spelt.
func (e *Elsewhere) Shown(t *camera.Sight) float64 {
	sum, n := 0.0, 0
	for i := range e.p.Stands.Seats {
		if e.p.Stands.Seats[i].Use == seating.UseCard {
			sum += float64(t.Seen[i])
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// thousandth makes scores alike on every processor.
func thousandth(score float64) float64 { return math.Round(score*1000) / 1000 }

// wallBetween says whether a wall of the room crosses the way from one place to another.
func (p *Plan) wallBetween(from, to *camera.Mark) bool {
	at := func(across, away seating.Length) [2]int64 {
		return [2]int64{int64(across / seating.Millimetre), int64(away / seating.Millimetre)}
	}
	side := func(a, b, c [2]int64) int64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
	a, b := at(from.Across, -from.Back), at(to.Across, -to.Back)
	if a == b {
		return false
	}
	walls := p.Stunt.Room.Walls
	for i := range walls {
		c, next := at(walls[i][0], walls[i][1]), (i+1)%len(walls)
		if next == 0 && len(walls) < 3 {
			break
		}
		d := at(walls[next][0], walls[next][1])
		if (side(a, b, c) > 0) != (side(a, b, d) > 0) && (side(c, d, a) > 0) != (side(c, d, b) > 0) {
			return true
		}
	}
	return false
}

// Says is a reach in words: "1.00 m (3 ft 3 in)", "at least …", "less than …", "not at all".
func (r Reach) Says() string {
	switch {
	case r.Distance == 0 && r.End == EndRoom:
		return "not at all"
	case r.Distance == 0:
		return "less than " + span(strayStep.Metres())
	case r.End == EndFar:
		return "at least " + span(r.Distance.Metres())
	}
	return span(r.Distance.Metres())
}

// Spells says whether any cue is a text.
func (p *Plan) Spells() bool {
	return slices.ContainsFunc(p.Cues, func(c CuePlan) bool { return c.Text != nil })
}

// sayStray is a sentence for the ten.
func (p *Plan) sayStray() string {
	s, known := p.Stray()
	kept := "the text still reads"
	if !p.Spells() {
		kept = "nine tenths of what shows from the cross still show"
	}
	switch {
	case !known:
		return fmt.Sprintf("How far it may stray is %s: everyseat marks works it out.", notKnown)
	case !p.ReadsAtMark():
		return "Since it does not surely read from the mark itself, it may not stray: everyseat marks looks for a better one."
	}
	return fmt.Sprintf("It may stray from the tape cross %s, %s, and %s, and %s.",
		eitherWay(s.Left, s.Right, "to the left", "to the right", "to either side"),
		eitherWay(s.Nearer, s.Back, "nearer", "back", "nearer or back"),
		eitherWay(s.Up, s.Down, "up", "down", "up or down"), kept)
}

// eitherWay says two opposite reaches, in one where they are alike.
func eitherWay(a, b Reach, toA, toB, toBoth string) string {
	if a.Says() == b.Says() {
		return a.Says() + " " + toBoth
	}
	return fmt.Sprintf("%s %s and %s %s", a.Says(), toA, b.Says(), toB)
}
