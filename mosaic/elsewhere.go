package mosaic

import (
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating/camera"
)

// Elsewhere reads a plan's texts from places where its camera does not stand, and plans
// them anew for such places. It may be used by several goroutines at once.
type Elsewhere struct {
	p     *Plan
	index map[string]int16
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
	e := &Elsewhere{p: p, index: m.index}
	for i := range p.Cues {
		plan, cue := &p.Cues[i], &p.Stunt.Cues[i]
		if plan.Text == nil {
			continue
		}
		t := textElsewhere{cue: i, letters: plan.Text.Glyphs()}
		t.ink, t.options = m.laid(plan, i, p.Hands)
		if cue.Fit == "flat" {
			t.home = m.flatField(plan.Field)
		} else {
			t.home = m.fields(plan.Field)[0]
		}
		t.laid = legibility.NewLaid(t.home, t.ink, t.letters, t.options)
		e.texts = append(e.texts, t)
	}
	return e
}

// Texts is how many cues spell something; the others cannot be read.
func (e *Elsewhere) Texts() int { return len(e.texts) }

// at is a plan whose first mark is another, and what its cues are made with.
func (e *Elsewhere) at(mark Mark, further []Mark) (*maker, *Plan) {
	p := *e.p
	p.Marks, p.Cues, p.Warnings, p.Cells, p.doubts = append([]Mark{mark}, further...), nil, nil, nil, nil
	cues := len(p.Stunt.Cues)
	m := &maker{p: &p, index: e.index, judged: make([][]*lettering.Field, cues), painted: make([]map[int32]bool, cues), lights: make([][]lit, cues)}
	for i := range p.Marks {
		m.cells = append(m.cells, camera.Cells(p.Stands, p.Marks[i].View, p.Marks[i].Sight))
	}
	return m, &p
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
	m, _ := e.at(mark, nil)
	for i := range e.texts {
		t := &e.texts[i]
		worst = min(worst, e.p.Cues[t.cue].heldBack(t.laid.Expect(m.fields(e.p.Cues[t.cue].Field)[0])))
	}
	return worst
}

// Read judges every text, as the plan is, from one other place.
func (e *Elsewhere) Read(mark Mark) []legibility.Reading {
	var out []legibility.Reading
	m, _ := e.at(mark, nil)
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
	m, p := e.at(mark, further)
	for i := range e.texts {
		t := &e.texts[i]
		plan, err := m.cue(t.cue)
		if err != nil {
			return 0, err
		}
		ink, options := m.laid(plan, t.cue, nil) // the cards are not dealt again
		fields := m.judged[t.cue]
		for k := range p.Marks {
			first := len(fields) - len(p.Marks)
			worst = min(worst, plan.heldBack(legibility.Expect(fields, first+k, ink, plan.Text.Glyphs(), options)))
		}
	}
	return worst, nil
}
