// Package marks finds where the camera may stand: how far it may stray from the
// tape cross with the plan as it is, and where to put the cross if everything were planned
// anew. Start with Search.
package marks

import (
	"math"
	"slices"

	"everyseat/mosaic"
	"everyseat/mosaic/legibility"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// Place is where a lens may be: Across to the camera's right, Back before the front row,
// Height above the floor.
type Place struct {
	Across, Back, Height seating.Length
}

// Away is the place's distance behind the front row's front edge: negative before it.
func (p Place) Away() seating.Length { return -p.Back }

// Unknown stands for a score that was not worked out, or where nobody can stand.
const Unknown = -1

// Patch is a rectangle of places at one height, in Cols × Rows. Scores are by
// row·Cols + column; column 0 is the left one, row 0 the one nearest to the stands. The place whose
// part of the rectangle holds the stunt's own mark has the mark's scores.
type Patch struct {
	Name        string // of the spot; "" for the floor
	Left, Right seating.Length
	Nearest     seating.Length // back, of its edges
	Farthest    seating.Length
	Height      seating.Length
	Cols, Rows  int
	Fixed       []float64 // 0…1 or Unknown: of the plan as it is
	Anew        []float64 // 0…1 or Unknown: planned anew for that place

	even []int // the places that are planned anew first, evenly
	grid [2]int
}

// Even says whether place i is one of those that are planned anew in an even grid.
func (p *Patch) Even(i int) bool { return slices.Contains(p.even, i) }

// EvenCols is how many such places there are from left to right.
func (p *Patch) EvenCols() int { return max(1, p.grid[0]) }

// EvenRows is how many such places there are from near to far.
func (p *Patch) EvenRows() int { return max(1, p.grid[1]) }

// At is the middle of a column and row, on whole centimetres.
func (p *Patch) At(col, row int) Place {
	return Place{
		Across: between(p.Left, p.Right, col, p.Cols),
		Back:   between(p.Nearest, p.Farthest, row, p.Rows),
		Height: p.Height,
	}
}

// between is the middle of part i of n of a span, to the next centimetre; halves go away from its middle,
// so that both sides are alike.
func between(from, to seating.Length, i, n int) seating.Length {
	return halfInCentimetres(from+to) + halfInCentimetres((to-from)*seating.Length(2*i+1-n)/seating.Length(n))
}

// halfInCentimetres is half of a length, to the next whole centimetre.
func halfInCentimetres(twice seating.Length) seating.Length {
	if twice < 0 {
		return -halfInCentimetres(-twice)
	}
	return (twice/2 + seating.Centimetre/2) / seating.Centimetre * seating.Centimetre
}

// Scored is a place with its scores.
type Scored struct {
	Place
	Fixed float64 // of the plan as it is, or Unknown
	Anew  float64 // planned anew for this place, or Unknown
}

// Verdict is what people are told of the plan as it is, or Picture where nothing is spelt.
func (m *Map) Verdict(score float64) legibility.Verdict {
	switch {
	case score == Unknown:
		return ""
	case !m.Spells:
		return legibility.Picture
	}
	return legibility.VerdictOf(score)
}

// Reach is how far the camera may go one way, and End why it may not go farther.
type (
	Reach = mosaic.Reach
	End   = mosaic.End
)

// The reasons.
const (
	EndScore = mosaic.EndScore // it no longer reads
	EndRoom  = mosaic.EndRoom  // a wall, the stands or something else is there
	EndFar   = mosaic.EndFar   // nobody looked farther
)

// Stray is how far from the mark the text still reads, as the plan is.
type Stray struct {
	Left, Right, Forward, Back Reach // as the camera sees it; Forward is toward the stands
}

// Map is where the camera can stand.
type Map struct {
	Plan    *mosaic.Plan
	Closed  bool // the room's walls go all the way round
	Spells  bool // false: no cue spells a text, and scores are the share of the cards' area that is seen
	Patches []Patch
	Here    Scored // the stunt's own mark
	Stray   Stray

	Best     Scored       // the best place for the cross
	BestPlan *mosaic.Plan // as made for it; nil where no place is better than the mark
	Walk     *Walk        // nil unless asked for
	Lens     Lens
	Warnings []string // plain sentences
}

// Options are what may be chosen.
type Options struct {
	// Heights of the lens; the first gets the whole map, the others a coarser one. None: the
	// stunt's own, 1.6 m and 3 m.
	Heights []seating.Length
	Walk    bool // the marks are a path, in order
	Places  int  // of the map each way; 0 = 40, fewer for very large stands
	// Progress is told how much of the work is done; calls do not overlap. May be nil.
	Progress func(done, of int)
}

// Search works the map out. Errors are *seating.Fault: there is no place where a camera may stand.
func Search(p *mosaic.Plan, o Options) (*Map, error) {
	r := newRoom(p)
	s := newSearch(p, r, o)
	patches, err := s.patches()
	if err != nil {
		return nil, err
	}
	m := &Map{Plan: p, Closed: r.ring, Spells: s.elsewhere.Texts() > 0, Patches: patches}
	if o.Walk {
		if m.Walk, err = s.way(); err != nil {
			return nil, err
		}
	}
	s.progress.of = s.amount(m.Patches)
	for i := range m.Patches {
		s.fill(&m.Patches[i])
	}
	s.here(m)
	s.best(m)
	for i := range m.Patches {
		m.Patches[i].put(m.Here)
	}
	if o.Walk {
		s.walk(m.Walk)
	}
	m.Lens = s.lens(m)
	for _, c := range s.cautions(o.Walk) {
		m.Warnings = append(m.Warnings, c.Text)
	}
	s.progress.step(s.progress.of)
	return m, nil
}

// thousandth makes scores alike on every processor.
func thousandth(score float64) float64 { return math.Round(score*1000) / 1000 }

// markAt is the stunt's camera at another place.
func markAt(p *mosaic.Plan, at Place) camera.Mark {
	m := p.Stunt.Camera
	m.Across, m.Back, m.Height = at.Across, at.Back, at.Height
	return m
}
