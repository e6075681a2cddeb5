package mosaic

import (
	"math"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Elsewhere reads a plan's texts from places where its camera does not stand, and plans
// them anew for such places. It may be used by several goroutines at once.
type Elsewhere struct {
	p     *Plan
	texts []textElsewhere
}

// textElsewhere is one text as the plan has it.
type textElsewhere struct {
	cue     int
	home    *lettering.Field // in whose picture the letters' boxes are
	ink     []bool
	letters []legibility.Glyph
	options lettering.Options
	laid    *legibility.Laid
}

// Elsewhere prepares the plan to be read from other places.
func (p *Plan) Elsewhere() *Elsewhere {
	m := newMaker(p)
	e := &Elsewhere{p: p}
	for i := range p.Cues {
		plan, cue := &p.Cues[i], &p.Stunt.Cues[i]
		if plan.Text == nil {
			continue
		}
		t := textElsewhere{cue: i, letters: plan.Text.Glyphs()}
		t.ink, t.options = m.laid(plan, i, p.Hands)
		t.home = m.fieldsFor(cue, plan.Field)[0]
		t.laid = legibility.NewLaid(t.home, t.ink, t.letters, t.options)
		e.texts = append(e.texts, t)
	}
	return e
}

// Texts is how many cues spell something; the others cannot be read.
func (e *Elsewhere) Texts() int { return len(e.texts) }

// at is a plan begun with another first mark.
func (e *Elsewhere) at(marks ...Mark) *maker {
	return newMaker(&Plan{Stunt: e.p.Stunt, Stands: e.p.Stands, Scene: e.p.Scene, Cards: e.p.Cards, Marks: marks})
}

// hopeless is the share of a text's seats that must show anything at all for it to be judged.
const hopeless = 0.5

// Score is the least score of the texts, 0…1, as the plan is, from one other place. It
// tries fewer mishaps than Read, and where half of a text's seats cannot be seen at all
// it is 0 without any.
func (e *Elsewhere) Score(mark Mark) float64 {
	for i := range e.texts {
		seats, seen := e.p.Cues[e.texts[i].cue].Field, 0
		for _, s := range seats {
			if mark.Sight.Seen[s] > 0 {
				seen++
			}
		}
		if float64(seen) < hopeless*float64(len(seats)) {
			return 0
		}
	}
	worst := 1.0
	m := e.at(mark)
	for i := range e.texts {
		t := &e.texts[i]
		worst = min(worst, e.p.Cues[t.cue].heldBack(t.laid.Expect(m.fields(e.p.Cues[t.cue].Field)[0])))
	}
	return worst
}

// Read judges every text, as the plan is, from one other place.
func (e *Elsewhere) Read(mark Mark) []legibility.Reading {
	var out []legibility.Reading
	m := e.at(mark)
	for i := range e.texts {
		t := &e.texts[i]
		views := []*lettering.Field{t.home, m.fields(e.p.Cues[t.cue].Field)[0]}
		reading := legibility.Judge(views, 1, t.ink, t.letters, t.options)
		e.p.Cues[t.cue].holdBack(&reading)
		out = append(out, reading)
	}
	return out
}

// Anew is the least score of the texts, 0…1, planned for another place and for the
// further marks. The error is that of the first text that does not fit.
func (e *Elsewhere) Anew(mark Mark, further []Mark) (float64, error) {
	worst := 1.0
	m := e.at(append([]Mark{mark}, further...)...)
	for i := range e.texts {
		t := &e.texts[i]
		plan, err := m.cue(t.cue)
		if err != nil {
			return 0, err
		}
		ink, options := m.laid(plan, t.cue, nil) // the cards are not dealt again
		fields := m.judged[t.cue]
		first := len(fields) - len(m.p.Marks)
		for k := range m.p.Marks {
			worst = min(worst, plan.heldBack(legibility.Expect(fields, first+k, ink, plan.Text.Glyphs(), options)))
		}
	}
	return worst, nil
}

// Scene is the scene as a mark has it before it: with the cards turned to it where people turn them.
func (e *Elsewhere) Scene(m camera.Mark) *camera.Scene {
	if !e.p.Scene.Card.ToMark {
		return e.p.Scene
	}
	turned, at := *e.p.Scene, m.Position()
	turned.Mark = &at
	return &turned
}

// From looks from another place with the plan's cards, with so many samples a card; 0 = as closely as a plan does.
// Errors are those of camera.NewView.
func (e *Elsewhere) From(m camera.Mark, samples int) (Mark, error) {
	scene := e.Scene(m)
	v, err := camera.NewView(m, scene)
	switch {
	case err != nil:
		return Mark{}, err
	case samples == 0:
		return Mark{View: v, Sight: scene.See(v)}, nil
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
	off := e.p.LeastScore(0) - e.Score(home)
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
