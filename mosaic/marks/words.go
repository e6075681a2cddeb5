package marks

import (
	"fmt"
	"math"
	"strings"

	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

func focal(mm float64) string { return fmt.Sprintf("%.0f mm", math.Floor(mm)) }

// Words says where a place is.
func (p Place) Words() string {
	return fmt.Sprintf("%s back, %s, lens %s high",
		abs(p.Back).Spoken(), p.side(seating.Length.Spoken), p.Height.Spoken())
}

// side is on which side of the middle a place lies, and how far from it.
func (p Place) side(told func(seating.Length) string) string {
	switch {
	case p.Across > 0:
		return told(p.Across) + " to the right"
	case p.Across < 0:
		return told(-p.Across) + " to the left"
	}
	return "in the middle"
}

// Sentences are the summary in plain words.
func (m *Map) Sentences() []string {
	var out []string
	out = append(out, m.sayHere(), m.sayStray())
	if m.Spells {
		out = append(out, m.sayBest()...)
	}
	for i := range m.Patches {
		out = append(out, m.sayPatch(&m.Patches[i]))
	}
	if m.Walk != nil && m.Spells {
		out = append(out, m.sayWalk())
	}
	return append(out, m.sayLens()...)
}

func hundred(score float64) string { return fmt.Sprintf("%.0f of 100", 100*score) }

func (m *Map) sayHere() string {
	at := "The mark is " + m.Here.Words()
	if !m.Spells {
		return fmt.Sprintf("%s. No cue spells a text, so the map shows how much of the cards' area the camera sees: "+
			"%.0f %% from here.", at, 100*m.Here.Fixed)
	}
	texts, least := 0, ""
	for i := range m.Plan.Cues {
		if m.Plan.Cues[i].Text != nil {
			texts++
		}
	}
	if texts > 1 {
		least = fmt.Sprintf(", the least of its %d texts", texts)
	}
	out := fmt.Sprintf("%s: from there the plan %s (%s%s).",
		at, m.Verdict(m.Here.Fixed).Says(), hundred(m.Here.Fixed), least)
	if m.Walk == nil && len(m.Plan.Marks) > 1 && m.Here.Anew < m.Here.Fixed {
		out += fmt.Sprintf(" From the worst of the %d marks it has %s, which is the plan's own score.",
			len(m.Plan.Marks), hundred(m.Here.Anew))
	}
	return out
}

func (m *Map) sayStray() string {
	s := &m.Stray
	if m.Spells && m.Verdict(m.Here.Fixed) != legibility.Reads {
		return "Since it does not surely read from the mark itself, there is no room to stray."
	}
	if stuck := (Reach{End: EndRoom}); *s == (Stray{stuck, stuck, stuck, stuck}) {
		return "The camera cannot stray from the mark: on all sides something is in the way, " +
			"or it is nowhere allowed to stand."
	}
	words := func(r Reach, way string) string {
		switch {
		case r.End == EndFar:
			return fmt.Sprintf("more than %s %s", r.Distance.Spoken(), way)
		case r.Distance == 0 && r.End == EndRoom:
			return fmt.Sprintf("not at all %s, where something is in the way", way)
		case r.Distance == 0:
			return fmt.Sprintf("less than %s %s", strayStep.Spoken(), way)
		case r.End == EndRoom:
			return fmt.Sprintf("%s %s, as far as there is room", r.Distance.Spoken(), way)
		}
		return fmt.Sprintf("%s %s", r.Distance.Spoken(), way)
	}
	return "With the plan as it is the camera may stray " +
		say.List([]string{
			words(s.Left, "to the left"), words(s.Right, "to the right"),
			words(s.Forward, "toward the stands"), words(s.Back, "away from them"),
		}) + "."
}

func (m *Map) sayBest() []string {
	if m.BestPlan == nil {
		return []string{"Planned anew for other places it reads nowhere clearly better: keep the cross where it is."}
	}
	out := []string{fmt.Sprintf("Planned anew, the best place for the cross is %s: "+
		"there it %s (%s, and %s at the mark now).",
		m.Best.Words(), m.Verdict(m.Best.Anew).Says(), hundred(m.Best.Anew), hundred(m.Here.Anew))}
	p := m.BestPlan
	for _, line := range camera.Outside(p.Scene, p.Marks[0].View, p.Marks[0].Sight) {
		out = append(out, "From there "+line+".")
	}
	for _, line := range camera.HiddenReport(p.Scene, p.Marks[0].View, p.Marks[0].Sight) {
		out = append(out, "From there: "+line+".")
	}
	return out
}

// sayPatch counts places.
func (m *Map) sayPatch(p *Patch) string {
	where := "on the floor"
	if p.Name != "" {
		where = p.Name
	}
	all, reads, sum := 0, 0, 0.0
	for _, f := range p.Fixed {
		if f == Unknown {
			continue
		}
		all++
		sum += f
		if m.Verdict(f) == legibility.Reads {
			reads++
		}
	}
	head := fmt.Sprintf("At %s, %s", p.Height.Spoken(), where)
	if all == 0 {
		return head + ": no camera can stand there."
	}
	if !m.Spells {
		return fmt.Sprintf("%s: %.0f %% of the cards' area is seen in the mean over %d places.",
			head, 100*sum/float64(all), all)
	}
	tried, well, best := 0, 0, -1
	for i, a := range p.Anew {
		if a == Unknown {
			continue
		}
		tried++
		if m.Verdict(a) == legibility.Reads {
			well++
		}
		if best < 0 || a > p.Anew[best] {
			best = i
		}
	}
	line := fmt.Sprintf("%s: the plan as it is reads from %d of %d places", head, reads, all)
	if best >= 0 {
		at := p.place(best)
		metres := func(l seating.Length) string { return fmt.Sprintf("%.2f m", l.Metres()) }
		line += fmt.Sprintf("; planned anew it reads from %d of the %d that were tried, best %s back and %s (%s)",
			well, tried, metres(at.Back), at.side(metres), hundred(p.Anew[best]))
	}
	return line + "."
}

func (m *Map) sayWalk() string {
	w := m.Walk
	way := fmt.Sprintf("The way over the marks is %s long: ", w.Whole.Spoken())
	switch {
	case w.From == w.Whole:
		return way + "the plan reads all along it."
	case w.Ends():
		return way + fmt.Sprintf("the plan reads along the last %s.", w.From.Spoken())
	case w.From > 0:
		way += fmt.Sprintf("the plan reads along the last %s only, which is less than a third of it.", w.From.Spoken())
	default:
		way += "at its end the plan does not read."
	}
	switch {
	case w.EndAnew == Unknown:
		return way
	case m.Verdict(w.EndAnew) != legibility.Reads:
		return way + fmt.Sprintf(" Not even planned for its end alone does it read there (%s): end the way elsewhere.",
			hundred(w.EndAnew))
	}
	along := "there"
	if w.FromAnew > 0 {
		along = "along the last " + w.FromAnew.Spoken()
	}
	return way + fmt.Sprintf(" Planned for its end alone it reads %s (%s at the end): make that place the [camera].",
		along, hundred(w.EndAnew))
}

func (m *Map) sayLens() []string {
	l := &m.Lens
	var out []string
	line := fmt.Sprintf("The lens is like a %.0f mm lens on full frame", l.Now)
	switch {
	case l.Fill > 1:
		line += "; from the mark it cannot take in all cards"
	case l.Fill > 0:
		line += fmt.Sprintf("; from the mark the cards fill %.0f %% of its frame", 100*l.Fill)
	}
	if l.Longest > 0 {
		line += fmt.Sprintf(", and the longest that takes them in is %s", focal(l.Longest))
	}
	out = append(out, line+".")
	line = "No place within 200 m before the middle lets this lens take in all cards"
	if l.From > 0 {
		line = fmt.Sprintf("This lens takes in all cards from %s back, before the middle", l.From.Spoken())
	}
	if m.Spells && l.To > 0 {
		line += fmt.Sprintf("; on this map the farthest place for which the text can be made to read is %s back",
			l.To.Spoken())
	}
	out = append(out, line+".")
	var others []string
	for _, f := range l.Others {
		others = append(others, fmt.Sprintf("%.0f mm from %.1f m", f.Focal,
			math.Ceil(float64(f.From.Metres()*10)-1e-6)/10))
	}
	if len(others) > 0 {
		out = append(out,
			"Other lenses, on full frame, take in all cards from so far back: "+strings.Join(others, ", ")+".")
	}
	return out
}
