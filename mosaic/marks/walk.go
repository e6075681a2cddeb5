package marks

import (
	"cmp"
	"fmt"
	"math"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
	"everyseat/seating/together"
)

// A walk is looked at every half metre, but at most so often.
const (
	walkStep  = seating.Metre / 2
	walkLooks = 120
)

// Walk is a camera that walks the marks in order, with the plan as it is.
type Walk struct {
	Steps []WalkStep
	// From is how far before its end the text reads without a break until the end; Whole is the
	// way's length. Both along the floor.
	From, Whole seating.Length
	// EndAnew is the score at the end if the plan were made for it alone, or Unknown; FromAnew is
	// how far before the end that plan reads without a break.
	EndAnew  float64
	FromAnew seating.Length
}

// WalkStep is one place of the way.
type WalkStep struct {
	Scored
	Gone seating.Length // from the first mark
}

// Ends says whether the text reads along the last third of the way.
func (w *Walk) Ends() bool { return w.From > 0 && 3*w.From >= w.Whole }

// way is the walk over the marks, not looked at yet.
func (s *search) way() (*Walk, error) {
	stops := append([]camera.Mark{s.plan.Stunt.Camera}, s.plan.Stunt.Marks...)
	if len(stops) < 2 {
		return nil, &seating.Fault{Key: "mark", What: "a walk needs a way, and there is one mark alone",
			Hint: "add the places it passes in order, each as [[mark]] with back, across and height; " +
				"the camera starts at [camera]"}
	}
	w := &Walk{Steps: waySteps(stops), EndAnew: Unknown}
	w.Whole = w.Steps[len(w.Steps)-1].Gone
	if w.Whole == 0 {
		return nil, &seating.Fault{Key: "mark", What: "the marks of the walk are all in one place",
			Hint: "give them different places"}
	}
	return w, nil
}

// walk scores the way, and where its end does not read, the way back from there with a plan made for it alone.
func (s *search) walk(w *Walk) {
	together.Each(len(w.Steps), func(i int) {
		if mark, err := s.see(w.Steps[i].Place); err == nil {
			w.Steps[i].Fixed = s.score(mark)
		}
	})
	if s.elsewhere.Texts() == 0 {
		return
	}
	for i := len(w.Steps) - 1; i >= 0; i-- {
		if f := w.Steps[i].Fixed; f == Unknown || legibility.VerdictOf(f) != legibility.Reads {
			break
		}
		w.From = w.Whole - w.Steps[i].Gone
	}
	if w.Ends() {
		return
	}
	stunt := *s.plan.Stunt
	stunt.Camera, stunt.Marks = markAt(s.plan, w.Steps[len(w.Steps)-1].Place), nil
	plan, err := mosaic.Make(&stunt)
	if err != nil {
		w.EndAnew = 0
		return
	}
	w.EndAnew = s.plannedScore(plan)
	anew := newSearch(plan, s.room, Options{})
	for i := len(w.Steps) - 1; i >= 0; i-- {
		mark, err := anew.see(w.Steps[i].Place)
		if err != nil || legibility.VerdictOf(anew.score(mark)) != legibility.Reads {
			return
		}
		w.FromAnew = w.Whole - w.Steps[i].Gone
	}
}

// waySteps are places along the straight ways between the stops, both ends among them.
func waySteps(stops []camera.Mark) []WalkStep {
	gone, whole := seating.Length(0), seating.Length(0)
	for i := 1; i < len(stops); i++ {
		whole += apart(&stops[i-1], &stops[i])
	}
	step := max(walkStep, whole/walkLooks)
	steps := []WalkStep{{Scored{placeOf(&stops[0]), Unknown, Unknown}, 0}}
	for i := 1; i < len(stops); i++ {
		long := apart(&stops[i-1], &stops[i])
		n := max(1, (long+step-1)/step)
		for k := seating.Length(1); k <= n; k++ {
			at := placeOf(&stops[i-1]).toward(placeOf(&stops[i]), k, n)
			steps = append(steps, WalkStep{Scored{at, Unknown, Unknown}, gone + long*k/n})
		}
		gone += long
	}
	return steps
}

// toward is k steps of n on the straight way to another place.
func (p Place) toward(to Place, k, n seating.Length) Place {
	on := func(from, to seating.Length) seating.Length { return from + (to-from)*k/n }
	return Place{on(p.Across, to.Across), on(p.Back, to.Back), on(p.Height, to.Height)}
}

// apart is the distance along the floor.
func apart(a, b *camera.Mark) seating.Length {
	return length(math.Hypot((a.Across - b.Across).Metres(), (a.Back - b.Back).Metres()))
}

// Caution is a plain sentence about a mark, and the key of the stunt file it is about.
type Caution struct{ Key, Text string }

// cautions say what contradicts what.
func (s *search) cautions(walks bool) []Caution {
	var out []Caution
	if why := s.room.refuses(placeOf(&s.plan.Stunt.Camera)); why != free && why != inLane {
		out = append(out, Caution{"camera",
			"The stunt's own mark is " + refusalWords[why] + ": look at [room] and [camera]."})
	}
	out = append(out, s.inTheWay(walks)...)
	out = append(out, s.oneSection()...)
	if !walks && len(s.plan.Marks) > 1 && s.elsewhere.Texts() > 0 {
		out = append(out, s.contradict()...)
	}
	return out
}

// Cautions are about a plan's marks: one where nobody can stand, a lens that sees one
// section only, two marks that contradict each other, each with the nearest thing that works.
func Cautions(p *mosaic.Plan) []Caution {
	s := &search{plan: p, room: newRoom(p)}
	if len(p.Marks) > 1 {
		s.elsewhere = p.Elsewhere()
	}
	s.keepQuads()
	return s.cautions(s.plan.Stunt.Walks)
}

// usualDoor is how wide a door is taken to be where nobody measured it (common practice, no source).
const usualDoor = 90 * seating.Centimetre

// inTheWay warns of marks in lanes, and so close to a door that it hits them. Where the room names the places where
// cameras may stand, it knows what they stand on; of a walk the beginning alone stays.
func (s *search) inTheWay(walks bool) (out []Caution) {
	stunt := s.plan.Stunt
	if len(stunt.Room.Spots) > 0 {
		return nil
	}
	marks := append([]camera.Mark{stunt.Camera}, stunt.Marks...)
	if walks {
		marks = marks[:1]
	}
	for k := range marks {
		at, name := placeOf(&marks[k]), "The camera"
		if k > 0 {
			name = fmt.Sprintf("The mark %q", marks[k].Name)
		}
		warn := func(format string, args ...any) {
			words := name + " stands " + fmt.Sprintf(format, args...)
			if at.Height >= overHeads {
				words += "; if it stands on something above, such as a balcony, say where with camera = [{ … }] " +
					"under [room]"
			}
			out = append(out, Caution{marks[k].Key, words + "."})
		}
		for _, l := range s.plan.Stands.Spec.Lanes {
			if !(extent{l.Left, l.Right, l.Near, l.Far}).holds(at) {
				continue
			}
			aside, way := at.Across-l.Left, "left"
			if right := l.Right - at.Across; right < aside {
				aside, way = right, "right"
			}
			warn("in the lane %q, which stays free: move it %s to the %s", cmp.Or(l.Name, "lane"),
				(aside + offWall).Spoken(), way)
		}
		for _, e := range stunt.Room.Exits {
			swings := cmp.Or(e.Width, usualDoor)
			apart := length(math.Hypot((at.Across - e.Across).Metres(), (at.Away() - e.Away).Metres()))
			if apart < swings {
				warn("%s from the door %q, which swings %s: move it %s farther away", apart.Spoken(), e.Name,
					swings.Spoken(), (swings - apart + offWall).Spoken())
			}
		}
	}
	return out
}

var refusalWords = [...]string{
	behindWall: "behind a wall, or closer to one than half a tripod",
	onSeats:    "where people sit",
	onObstacle: "where an obstacle stands",
	noSpot:     "in none of the places where a camera may stand",
}

// oneSection warns of a lens that sees one section only.
func (s *search) oneSection() []Caution {
	sight := s.plan.Marks[0].Sight
	var seen, not []string
	for _, sec := range s.plan.Stands.Sections {
		in, cards := 0, 0
		for k := sec.First; k < sec.Last; k++ {
			if s.cards[k] {
				cards++
				if sight.InFrame[k] && !sight.Behind[k] {
					in++
				}
			}
		}
		switch {
		case cards == 0:
		case 4*in >= cards:
			seen = append(seen, sec.Name)
		default:
			not = append(not, sec.Name)
		}
	}
	if len(seen) != 1 || len(not) == 0 {
		return nil
	}
	lens := s.lens(&Map{})
	do := "take a much wider lens."
	if lens.From > 0 {
		do = "put the mark " + lens.From.Spoken() + " back."
		if lens.Longest > 0 {
			do = "take a lens of " + focal(lens.Longest) + " on full frame or shorter, or " + do
		}
	}
	return []Caution{{"camera",
		"From the mark the lens sees section " + seen[0] + " only, and not " + say.List(not) + ": " + do}}
}

// contradict finds further marks from which the text would read if it were planned for them alone, and
// does not since it is planned for the camera too.
func (s *search) contradict() []Caution {
	var out []Caution
	marks := s.plan.Marks
	reads := func(score float64) bool { return legibility.VerdictOf(score) == legibility.Reads }
	home := marks[0].View.Name
	for k := 1; k < len(marks); k++ {
		here, there := reads(s.plan.LeastScore(0)), reads(s.plan.LeastScore(k))
		if here && there {
			continue
		}
		say := func(text string) { out = append(out, Caution{fmt.Sprintf("mark[%d]", k-1), text}) }
		name := marks[k].View.Name
		for _, m := range marks[:k] {
			if m.View.Position == marks[k].View.Position {
				say("The marks " + m.View.Name + " and " + name + " are one place.")
			}
		}
		from := "neither"
		if here {
			from = home + " only"
		} else if there {
			from = name + " only"
		}
		first, errFirst := s.elsewhere.Anew(marks[0], nil)
		alone, errAlone := s.elsewhere.Anew(marks[k], nil)
		switch {
		case errAlone != nil || !reads(alone):
			say("From " + name + " no plan reads, not even one made for it alone; " + s.nearer(k))
		case errFirst == nil && reads(first):
			say("The marks " + home + " and " + name + " contradict each other: planned for each alone the text " +
				"reads, planned for both it reads from " + from + "; " + s.nearer(k))
		}
	}
	return out
}

// nearerLooks is how many places between two marks are looked at.
const nearerLooks = 24

// nearer says which place between a mark and the camera, the nearest to the mark, could take the
// mark's part: the plan made for both reads there.
func (s *search) nearer(k int) string {
	for i := seating.Length(1); i < nearerLooks; i++ {
		at := placeOf(&s.plan.Stunt.Marks[k-1]).toward(placeOf(&s.plan.Stunt.Camera), i, nearerLooks)
		mark, err := s.see(at)
		if err != nil {
			continue
		}
		score, err := s.elsewhere.Anew(s.plan.Marks[0], []mosaic.Mark{mark})
		if err == nil && legibility.VerdictOf(score) == legibility.Reads {
			return "the nearest place to it that goes with the camera's is " + at.Words() + "."
		}
	}
	return "leave one of them out, or make two cues of it."
}
