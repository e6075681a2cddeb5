package marks

import (
	"cmp"
	"math"
	"slices"
	"sync"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/together"
)

// search is what working out a map shares.
type search struct {
	plan      *mosaic.Plan
	room      *room
	o         Options
	elsewhere *mosaic.Elsewhere
	quads     [][4]seating.Point
	cards     []bool
	fits      seating.Length // back, where the lens takes in all cards from the middle; 0 = nowhere near
	progress  progress
}

func newSearch(p *mosaic.Plan, r *room, o Options) *search {
	s := &search{plan: p, room: r, o: o, elsewhere: p.Elsewhere(), progress: progress{tell: o.Progress}}
	s.keepQuads()
	s.whereFits()
	return s
}

// progress counts what is done.
type progress struct {
	tell     func(done, of int)
	mu       sync.Mutex
	done, of int
}

// Planning anew takes so many times as long as a look.
const anewTakes = 8

func (p *progress) step(n int) {
	if p.tell == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.done = min(p.done+n, p.of)
	p.tell(p.done, p.of)
}

func (s *search) amount(patches []Patch) int {
	n := 0
	for i := range patches {
		p := &patches[i]
		n += p.Cols*p.Rows + s.glimpsesIn(p.Cols)*s.glimpsesIn(p.Rows) + anewTakes*len(s.anewPlaces(p))
	}
	return n
}

// fill works out a patch: glimpses, the plan as it is, then planning anew.
func (s *search) fill(p *Patch) {
	l := s.glimpses(p)
	s.scoreAll(p, l)
	if s.elsewhere.Texts() == 0 {
		return
	}
	s.planAnew(p, s.anewPlaces(p))
	if whole := s.places(); 2*p.Cols > whole || 2*p.Rows > whole { // a coarser map is an outline
		s.refine(p)
	}
}

// alike is how little the scores of four places that do not read may differ for the place
// between them not to be looked at.
const alike = 0.02

// scoreAll scores the plan as it is: first every second place like the black squares of a
// chessboard, then those between them, but where nothing around reads and all is alike.
func (s *search) scoreAll(p *Patch, l *lattice) {
	for colour := range 2 {
		together.Each(len(p.Fixed), func(i int) {
			col, row := i%p.Cols, i/p.Cols
			if (col+row)%2 != colour {
				return
			}
			defer s.progress.step(1)
			if around, ok := p.lostAround(col, row); ok && colour == 1 && s.elsewhere.Texts() > 0 &&
				s.canBe(p.At(col, row)) {
				p.Fixed[i] = around
			} else if mark, ok := s.lookAt(p, l, i); ok {
				p.Fixed[i] = s.score(mark)
			}
		})
	}
}

// lostAround is the mean score beside, before and behind a place; ok is false unless all four
// do not read and are alike.
func (p *Patch) lostAround(col, row int) (mean float64, ok bool) {
	_, fails := legibility.Thresholds()
	low, high := 1.0, 0.0
	for _, d := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
		c, r := col+d[0], row+d[1]
		if c < 0 || r < 0 || c >= p.Cols || r >= p.Rows {
			return 0, false
		}
		f := p.Fixed[r*p.Cols+c]
		if f == Unknown || f >= fails {
			return 0, false
		}
		low, high, mean = min(low, f), max(high, f), mean+float64(f/4)
	}
	return thousandth(mean), math.Round(1000*(high-low)) <= 1000*alike
}

// canBe says whether a camera can be there, if only in passing.
func (s *search) canBe(at Place) bool {
	why := s.room.refuses(at)
	return why == free || why == inLane
}

// score is that of the plan as it is.
func (s *search) score(mark mosaic.Mark) float64 {
	if s.elsewhere.Texts() == 0 {
		return thousandth(s.elsewhere.Shown(mark.Sight))
	}
	return thousandth(s.elsewhere.Score(mark))
}

// glimpseEvery is how many places, each way, share a glimpse. What rows and heads hide
// changes so slowly with the place that scores do not notice. An obstacle's edge is passed too
// fast for that: where there are any, each place gets a look of its own.
const glimpseEvery = 4

func (s *search) glimpsesIn(places int) int {
	if len(s.plan.Scene.Obstacles) > 0 {
		return 0
	}
	return (places + glimpseEvery - 1) / glimpseEvery
}

// glimpses looks from a few places of a patch, evenly.
func (s *search) glimpses(p *Patch) *lattice {
	l := &lattice{cols: s.glimpsesIn(p.Cols), rows: s.glimpsesIn(p.Rows)}
	l.of = make([]*glimpse, l.cols*l.rows)
	coarse := *p
	coarse.Cols, coarse.Rows = l.cols, l.rows
	together.Each(len(l.of), func(i int) {
		defer s.progress.step(1)
		l.of[i] = s.glimpseFrom(coarse.At(i%l.cols, i/l.cols))
	})
	return l
}

// lookAt looks from place i of a patch; ok is false where no camera can be.
func (s *search) lookAt(p *Patch, l *lattice, i int) (mosaic.Mark, bool) {
	at := p.place(i)
	if !s.canBe(at) {
		return mosaic.Mark{}, false
	}
	scene, v, err := s.view(at)
	if err != nil {
		return mosaic.Mark{}, false
	}
	if four, weight, ok := l.weigh(p, i%p.Cols, i/p.Cols); ok {
		return mosaic.Mark{View: v, Sight: s.blend(scene, v, four, weight)}, true
	}
	return mosaic.Mark{View: v, Sight: scene.SeeWith(v, lookSamples)}, true
}

// anewPlaces are the places of a patch that are planned anew first: evenly, eight each way on a whole map.
func (s *search) anewPlaces(p *Patch) []int {
	if s.elsewhere.Texts() == 0 {
		return nil
	}
	n := usualAnew
	if whole := s.places(); p.Cols*2 <= whole && p.Rows*2 <= whole {
		n /= coarserBy
	}
	if len(s.plan.Stands.Seats) > manySeats {
		n = min(n, 4)
	}
	cols, rows := min(n, p.Cols), min(n, p.Rows)
	if p.Name != "" { // a gallery is long and narrow
		wide, deep := p.Right-p.Left, p.Farthest-p.Nearest
		share := func(part, whole seating.Length) int {
			return max(1, int((2*seating.Length(n)*part+whole)/(2*whole)))
		}
		cols, rows = min(cols, share(wide, max(wide, deep))), min(rows, share(deep, max(wide, deep)))
	}
	var out []int
	for r := range rows {
		for c := range cols {
			out = append(out, (2*r+1)*p.Rows/(2*rows)*p.Cols+(2*c+1)*p.Cols/(2*cols))
		}
	}
	p.even, p.grid = out, [2]int{cols, rows}
	return out
}

// planAnew works out the places in the list that are not known yet.
func (s *search) planAnew(p *Patch, places []int) {
	var further []mosaic.Mark
	if !s.o.Walk {
		further = s.plan.Marks[1:]
	}
	together.Each(len(places), func(k int) {
		defer s.progress.step(anewTakes)
		i := places[k]
		at := p.place(i)
		if p.Anew[i] != Unknown || s.room.refuses(at) != free {
			return
		}
		mark, err := s.elsewhere.From(markAt(s.plan, at), 0)
		if err != nil {
			return
		}
		score, _ := s.elsewhere.Anew(mark, further) // 0 where a text does not fit
		p.Anew[i] = thousandth(score)
	})
}

// refine looks closer around the place with the best score planned anew, of those alike the one nearest to the mark,
// a few steps at a time.
func (s *search) refine(p *Patch) {
	for _, step := range []int{2, 1} {
		best := -1
		for i, anew := range p.Anew {
			if anew != Unknown && (best < 0 || s.compare(p.scored(i), p.scored(best)) < 0) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		var around []int
		for dr := -step; dr <= step; dr += step {
			for dc := -step; dc <= step; dc += step {
				c, r := best%p.Cols+dc, best/p.Cols+dr
				if c >= 0 && r >= 0 && c < p.Cols && r < p.Rows {
					around = append(around, r*p.Cols+c)
				}
			}
		}
		s.planAnew(p, around)
	}
}

func (p *Patch) place(i int) Place   { return p.At(i%p.Cols, i/p.Cols) }
func (p *Patch) scored(i int) Scored { return Scored{p.place(i), p.Fixed[i], p.Anew[i]} }

// alikeScore is the step in which scores planned anew are compared: the score's own noise.
const alikeScore = 0.02

func steps(score float64) int { return int(float64(score/alikeScore) + 0.5) }

// compare puts what is clearly better first, and of what is as good the place nearer to the mark.
func (s *search) compare(a, b Scored) int {
	return cmp.Or(cmp.Compare(steps(b.Anew), steps(a.Anew)), cmp.Compare(s.fromMark(a.Place), s.fromMark(b.Place)))
}

// fromMark is the squared distance to the stunt's own mark, in square centimetres.
func (s *search) fromMark(at Place) int64 {
	m := &s.plan.Stunt.Camera
	sum := int64(0)
	for _, d := range []seating.Length{at.Across - m.Across, at.Back - m.Back, at.Height - m.Height} {
		cm := int64(d / seating.Centimetre)
		sum += cm * cm
	}
	return sum
}

// placeOf is where a mark is.
func placeOf(m *camera.Mark) Place { return Place{m.Across, m.Back, m.Height} }

// candidates is how many of the best places are planned in full before one is named.
const candidates = 4

// worthMoving is how much better a place must be for the cross to be moved there.
const worthMoving = 0.05

// here scores the stunt's own mark and how far the camera may stray from it.
func (s *search) here(m *Map) {
	m.Here = Scored{Place: placeOf(&s.plan.Stunt.Camera), Fixed: s.plannedScore(s.plan), Anew: Unknown}
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
	if at.Height != p.Height || at.Across < p.Left || at.Across > p.Right || at.Back < p.Nearest ||
		at.Back > p.Farthest {
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

// plannedScore is the least score of a plan's texts from its camera; where nothing is spelt, what is seen from there.
func (s *search) plannedScore(p *mosaic.Plan) float64 {
	if s.elsewhere.Texts() == 0 {
		return thousandth(s.elsewhere.Shown(p.Marks[0].Sight))
	}
	return thousandth(p.LeastScore(0))
}

// worstScore is that of all marks that count.
func (s *search) worstScore(p *mosaic.Plan) float64 {
	worst := p.LeastScore(0)
	for k := 1; k < len(p.Marks) && !s.o.Walk; k++ {
		worst = min(worst, p.LeastScore(k))
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
				all = append(all, p.scored(k))
			}
		}
	}
	slices.SortStableFunc(all, s.compare)
	all = all[:min(len(all), candidates)]
	plans := make([]*mosaic.Plan, len(all))
	together.Each(len(all), func(k int) {
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
	if m.Spells && legibility.VerdictOf(m.Here.Fixed) != legibility.Reads {
		return Stray{} // there is nothing to keep
	}
	home, err := s.see(m.Here.Place)
	if err != nil {
		return Stray{}
	}
	keeps := s.elsewhere.Keeps(home)
	var ways [4]Reach
	together.Each(len(ways), func(i int) {
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
