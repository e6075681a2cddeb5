package sheets

import (
	"fmt"
	"math"
	"strings"
	"time"

	"everyseat/mosaic"
)

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
func (l *lensSheet) walk() {
	if !l.plan.Stunt.Walks || len(l.plan.Marks) < 2 {
		return
	}
	var parts []string
	whole := 0.0
	ways := legs(l.plan)
	for _, w := range ways {
		whole += w.long
		at := w.to.View.Position
		parts = append(parts, fmt.Sprintf("%s %s to “%s” (%s in front of the front row, %s, lens %s high)",
			span(w.long), w.way(), w.to.View.Name, span(at[1]), acrossWords(at[0]), span(at[2])))
	}
	time := time.Duration(math.Round(whole/walkPace)) * time.Second
	l.pairs("Path", fmt.Sprintf("From the tape cross %s. In all %s, about %.0f steps of 70 cm and %s. Tape the whole line on the floor and a cross at every mark.",
		strings.Join(parts, ", then "), span(whole), math.Max(1, math.Round(whole/walkStep)), seconds(time)))
	last := ways[len(ways)-1]
	n := min(lastSteps, int(last.long/walkStep))
	words := fmt.Sprintf("Stop with both feet on the last cross, “%s”, before UP is called, and stand still through HOLD.", last.to.View.Name)
	if n > 0 {
		var marks []string
		for i := n; i > 0; i-- {
			marks = append(marks, span(float64(i)*walkStep))
		}
		words = fmt.Sprintf("Short tapes across the line %s before the last cross, “%s”, are the last %s: slow down there. ",
			strings.Join(marks, ", "), last.to.View.Name, plural(n, "step")) + words
	}
	l.pairs("Last steps", words+" "+l.readsAlong())
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
		return span(x) + " LEFT of the middle"
	case mm > 0:
		return span(x) + " RIGHT of the middle"
	}
	return "in the middle"
}

// readsAlong are the scores of the first cue at the marks.
func (l *lensSheet) readsAlong() string {
	if len(l.plan.Cues) == 0 || l.plan.Cues[0].Text == nil {
		return ""
	}
	var parts []string
	for i := range l.plan.Marks {
		m := &l.plan.Marks[i]
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

// path draws the walk on the plan, dashed, with an arrow at its end.
func (f *floorPlan) path(p *pen) {
	if !f.plan.Stunt.Walks {
		return
	}
	p.lineColour(black)
	p.lineWidth(0.6)
	p.dashed(1, 1)
	for i := 1; i < len(f.plan.Marks); i++ {
		a, b := f.plan.Marks[i-1].View.Position, f.plan.Marks[i].View.Position
		q, r := f.at(a[0], a[1]), f.at(b[0], b[1])
		p.line(q[0], q[1], r[0], r[1])
	}
	p.solid()
}
