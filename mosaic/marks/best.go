package marks

import (
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
)

// candidates is how many of the best places are planned in full before one is named.
const candidates = 4

// worthMoving is how much better a place must be for the cross to be moved there.
const worthMoving = 0.05

// here scores the stunt's own mark and how far the camera may stray from it.
func (s *search) here(m *Map) {
	m.Here = Scored{Place: s.own(), Fixed: s.plannedScore(s.plan), Anew: Unknown}
	if m.Spells {
		m.Here.Anew = s.worstScore(s.plan) // it is planned for this place
	}
	m.Stray = s.stray(m)
}

// put gives the place whose cell holds a place that was planned in full that one's scores: who looks the
// cross up on the map finds what the plan says.
func (p *Patch) put(at Scored) {
	i, ok := p.cell(at.Place)
	if !ok || p.Fixed[i] == Unknown {
		return
	}
	if at.Fixed != Unknown {
		p.Fixed[i] = at.Fixed
	}
	if at.Anew != Unknown {
		p.Anew[i] = at.Anew
	}
}

// cell is which place of the patch has a place in its part of the rectangle.
func (p *Patch) cell(at Place) (i int, ok bool) {
	if at.Height != p.Height || at.Across < p.Left || at.Across > p.Right || at.Back < p.Nearest || at.Back > p.Farthest {
		return 0, false
	}
	part := func(from, to, at seating.Length, n int) int {
		if to <= from {
			return 0
		}
		return min(n-1, int((at-from)*seating.Length(n)/(to-from)))
	}
	return part(p.Nearest, p.Farthest, at.Back, p.Rows)*p.Cols + part(p.Left, p.Right, at.Across, p.Cols), true
}

// plannedScore is the least score of a plan's texts from its camera; with further marks, from the worst.
func (s *search) plannedScore(p *mosaic.Plan) float64 {
	if s.elsewhere.Texts() == 0 {
		return thousandth(s.elsewhere.Shown(p.Marks[0].Sight))
	}
	worst := 1.0
	for i := range p.Cues {
		if p.Cues[i].Text != nil {
			worst = min(worst, p.Marks[0].Scores[i])
		}
	}
	return thousandth(worst)
}

// worstScore is that of all marks that count.
func (s *search) worstScore(p *mosaic.Plan) float64 {
	worst := 1.0
	for i := range p.Cues {
		for k := range p.Marks {
			if p.Cues[i].Text != nil && (k == 0 || !s.o.Walk) {
				worst = min(worst, p.Marks[k].Scores[i])
			}
		}
	}
	return thousandth(worst)
}

// best names the best place for the cross: the best few of the map are planned in full.
func (s *search) best(m *Map) {
	m.Best = m.Here
	if !m.Spells {
		return
	}
	var all []Scored
	for i := range m.Patches {
		p := &m.Patches[i]
		for k := range p.Anew {
			if p.Anew[k] != Unknown {
				all = append(all, Scored{p.At(k%p.Cols, k/p.Cols), p.Fixed[k], p.Anew[k]})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b Scored) int {
		switch {
		case s.better(a, b):
			return -1
		case s.better(b, a):
			return 1
		}
		return 0
	})
	all = all[:min(len(all), candidates)]
	plans := make([]*mosaic.Plan, len(all))
	inParallel(len(all), func(k int) {
		stunt := *s.plan.Stunt
		stunt.Camera = markAt(s.plan, all[k].Place)
		if s.o.Walk {
			stunt.Marks = nil
		}
		if p, err := mosaic.Make(&stunt); err == nil {
			plans[k], all[k].Anew = p, s.worstScore(p)
		}
	})
	for k := range all {
		if plans[k] == nil {
			continue
		}
		for i := range m.Patches {
			m.Patches[i].put(Scored{all[k].Place, Unknown, all[k].Anew})
		}
		if all[k].Anew >= m.Here.Anew+worthMoving && all[k].Anew > m.Best.Anew {
			m.Best, m.BestPlan = all[k], plans[k]
		}
	}
}

// How far and how finely straying is looked at.
const (
	strayStep = 25 * seating.Centimetre
	strayMost = 6 * seating.Metre
)

func (s *search) stray(m *Map) Stray {
	var ways [4]Reach
	if m.Spells && legibility.VerdictOf(m.Here.Fixed) != legibility.Reads {
		return Stray{} // there is nothing to keep
	}
	home, err := s.see(m.Here.Place)
	if err != nil {
		return Stray{}
	}
	keeps := s.elsewhere.Keeps(home)
	inParallel(len(ways), func(i int) {
		across, back := [4]seating.Length{-1, 1, 0, 0}[i], [4]seating.Length{0, 0, -1, 1}[i]
		ways[i] = mosaic.Farthest(strayStep, strayMost, func(d seating.Length) (bool, End) {
			at := m.Here.Place
			at.Across, at.Back = at.Across+across*d, at.Back+back*d
			if !s.canBe(at) {
				return false, EndRoom
			}
			mark, err := s.see(at)
			if err != nil {
				return false, EndRoom
			}
			return keeps(mark), EndScore
		})
	})
	return Stray{ways[0], ways[1], ways[2], ways[3]}
}
