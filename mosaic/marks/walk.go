package marks

import (
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

// walk scores the way.
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
	if !w.Ends() {
		s.walkAnew(w)
	}
}

// walkAnew makes the plan for the way's end alone and walks the way back from there.
func (s *search) walkAnew(w *Walk) {
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
	gone := seating.Length(0)
	whole := seating.Length(0)
	for i := 1; i < len(stops); i++ {
		whole += apart(&stops[i-1], &stops[i])
	}
	step := max(walkStep, whole/walkLooks)
	steps := []WalkStep{{Scored{placeOf(&stops[0]), Unknown, Unknown}, 0}}
	for i := 1; i < len(stops); i++ {
		a, b := placeOf(&stops[i-1]), placeOf(&stops[i])
		long := apart(&stops[i-1], &stops[i])
		n := max(1, int((long+step-1)/step))
		for k := 1; k <= n; k++ {
			on := func(from, to seating.Length) seating.Length {
				return from + (to-from)*seating.Length(k)/seating.Length(n)
			}
			at := Place{on(a.Across, b.Across), on(a.Back, b.Back), on(a.Height, b.Height)}
			steps = append(steps, WalkStep{Scored{at, Unknown, Unknown}, gone + long*seating.Length(k)/seating.Length(n)})
		}
		gone += long
	}
	return steps
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
	if why := s.room.refuses(s.own()); why != free && why != inLane {
		out = append(out, Caution{"camera",
			"The stunt's own mark is " + refusalWords[why] + ": look at [room] and [camera]."})
	}
	out = append(out, s.oneSection()...)
	if !walks && len(s.plan.Marks) > 1 && s.elsewhere.Texts() > 0 {
		out = append(out, s.contradict()...)
	}
	return out
}

// Cautions are about a plan's marks: one where nobody can stand, a lens that sees one
// section only, two marks that contradict each other, each with the nearest thing that works.
func Cautions(p *mosaic.Plan) []Caution {
	r, err := newRoom(p)
	if err != nil {
		return nil // Search says it
	}
	s := &search{plan: p, room: r}
	if len(p.Marks) > 1 {
		s.elsewhere = p.Elsewhere()
	}
	s.keepQuads()
	return s.cautions(s.plan.Stunt.Walks)
}

var refusalWords = [...]string{
	behindWall: "behind a wall, or closer to one than half a tripod",
	onSeats:    "where people sit",
	onObstacle: "where an obstacle stands",
	noSpot:     "in none of the places where a camera may stand",
}

// oneSection warns of a lens that sees one section only.
func (s *search) oneSection() []Caution {
	stands, sight := s.plan.Stands, s.plan.Marks[0].Sight
	var seen, not []string
	for i := range stands.Sections {
		sec := &stands.Sections[i]
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
	line := "From the mark the lens sees section " + seen[0] + " only, and not " + say.List(not) + ": "
	switch {
	case lens.Longest > 0 && lens.From > 0:
		line += "take a lens of " + focal(lens.Longest) +
			" on full frame or shorter, or put the mark " + lens.From.Spoken() + " back."
	case lens.From > 0:
		line += "put the mark " + lens.From.Spoken() + " back."
	default:
		line += "take a much wider lens."
	}
	return []Caution{{"camera", line}}
}

// contradict finds further marks from which the text would read if it were planned for them alone, and
// does not since it is planned for the camera too.
func (s *search) contradict() []Caution {
	var out []Caution
	marks := s.plan.Marks
	if len(marks) < 2 {
		return nil
	}
	for k := 1; k < len(marks); k++ {
		if s.readsOf(k) && s.readsOf(0) {
			continue
		}
		say := func(text string) { out = append(out, Caution{fmt.Sprintf("mark[%d]", k-1), text}) }
		for i := range k {
			if a, b := marks[i].View.Position, marks[k].View.Position; a == b {
				say("The marks " + marks[i].View.Name + " and " + marks[k].View.Name + " are one place.")
			}
		}
		first, errFirst := s.elsewhere.Anew(marks[0], nil)
		alone, errAlone := s.elsewhere.Anew(marks[k], nil)
		name := marks[k].View.Name
		switch {
		case errAlone != nil || legibility.VerdictOf(alone) != legibility.Reads:
			say("From " + name + " no plan reads, not even one made for it alone; " + s.nearer(k))
		case errFirst == nil && legibility.VerdictOf(first) == legibility.Reads:
			say("The marks " + marks[0].View.Name + " and " + name + " contradict each other: planned for each alone the text " +
				"reads, planned for both it reads from " + s.readsFrom(k) + "; " + s.nearer(k))
		}
	}
	return out
}

// readsFrom says from which of the camera and mark k the plan reads.
func (s *search) readsFrom(k int) string {
	switch {
	case s.readsOf(0):
		return s.plan.Marks[0].View.Name + " only"
	case s.readsOf(k):
		return s.plan.Marks[k].View.Name + " only"
	}
	return "neither"
}

func (s *search) readsOf(mark int) bool {
	for i := range s.plan.Cues {
		if s.plan.Cues[i].Text != nil && legibility.VerdictOf(s.plan.Marks[mark].Scores[i]) != legibility.Reads {
			return false
		}
	}
	return true
}

// nearerLooks is how many places between two marks are looked at.
const nearerLooks = 24

// nearer says which place between a mark and the camera, the nearest to the mark, could take the
// mark's part: the plan made for both reads there.
func (s *search) nearer(k int) string {
	from, to := placeOf(&s.plan.Stunt.Marks[k-1]), s.own()
	for i := 1; i < nearerLooks; i++ {
		on := func(a, b seating.Length) seating.Length { return a + (b-a)*seating.Length(i)/nearerLooks }
		at := Place{on(from.Across, to.Across), on(from.Back, to.Back), on(from.Height, to.Height)}
		mark, err := s.see(at)
		if err != nil {
			continue
		}
		if score, err := s.elsewhere.Anew(s.plan.Marks[0], []mosaic.Mark{mark}); err == nil && legibility.VerdictOf(score) == legibility.Reads {
			return "the nearest place to it that goes with the camera's is " + at.Words() + "."
		}
	}
	return "leave one of them out, or make two cues of it."
}
