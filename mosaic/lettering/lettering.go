// Package lettering fits text to seats as the camera sees them: it decides
// which seats are ink. Start with Fit.
package lettering

import (
	"slices"

	"everyseat/mosaic/legibility"
)

// Seat is one seat that may carry the text, as one view sees it.
type Seat = legibility.Seat

// Field is the seats that may carry the text as one mark sees them.
type Field = legibility.Field

// Options is what the reading depends on beside the seats.
type Options = legibility.Options

// Letter is one letter as it was laid.
type Letter struct {
	Rune    rune
	Line    int
	Box     [4]float64 // left, top, right, bottom in the main picture
	Seats   float64    // mean width in seats
	Rows    int        // height in rows
	Section int32      // where most of it lies
}

// Layout is the text laid on the seats.
type Layout struct {
	Ink     []bool // by Field seat
	Letters []Letter
	Face    string
	Dropped []string // plain words: accents that did not fit, signs set otherwise
	Notes   []string // plain words: why it is not centred, and the like
}

// Glyphs is what legibility.Judge needs of the layout.
func (l *Layout) Glyphs() []legibility.Glyph {
	out := make([]legibility.Glyph, len(l.Letters))
	for i, t := range l.Letters {
		out[i] = legibility.Glyph{Rune: t.Rune, Box: t.Box}
	}
	return out
}

// Misfit says that the text does not fit, and what would.
type Misfit struct {
	What string
	Hint string
	// Small: the letters could be set, but the seats are too few for so many.
	Small bool
}

func (m *Misfit) Error() string { return m.What }

// How many drafts go from one stage to the next.
const (
	toRefine = 6
	toSpread = 2
)

// Fit lays text (lines parted by "\n") so that it reads in every view; views[0]
// is the camera, all views list the same seats in the same order. Errors are *Misfit.
func Fit(views []*Field, text string, o Options) (*Layout, error) {
	lines, err := clean(text)
	if err != nil {
		return nil, err
	}
	if err := check(views); err != nil {
		return nil, err
	}
	lay := &Layout{}
	lines = plainAccents(views[0], lines, lay)
	all := searches(views, lines, o)
	winner, home := winnerOf(all, (*search).drafts)
	if winner == nil {
		winner, home = winnerOf(all, (*search).fewer)
	}
	if winner == nil {
		return nil, misfit(views[0], lines)
	}
	home.finish(winner, lay)
	return lay, nil
}

func check(views []*Field) error {
	if len(views) == 0 || len(views[0].Seats) == 0 {
		return &Misfit{What: "no seat may carry the text",
			Hint: "give sections whose people hold cards and that the camera sees"}
	}
	for _, v := range views {
		if len(v.Seats) != len(views[0].Seats) {
			return &Misfit{What: "the views do not list the same seats",
				Hint: "give every mark the same seats in the same order"}
		}
	}
	if slices.ContainsFunc(views[0].Seats, func(s Seat) bool { return s.Pixels > 0 }) {
		return nil
	}
	return &Misfit{What: "the camera sees none of the seats that may carry the text",
		Hint: "turn the camera to the stands, or raise it"}
}

// searches are the canvases to try: the picture as it is, and levelled along the rows
// where these slant.
func searches(views []*Field, lines [][]sign, o Options) []*search {
	var out []*search
	for _, w := range legibility.Warps(views[0]) {
		c := legibility.NewCanvas(views[0], w)
		s := &search{g: survey(views[0], c), lines: lines, coming: legibility.Expects(o)}
		for _, v := range views[1:] {
			s.views = append(s.views, legibility.Levelled(v))
		}
		out = append(out, s)
	}
	return out
}

// winnerOf is the best draft of all searches, and whose it is; nil where nothing fits.
func winnerOf(all []*search, drafts func(*search) []*draft) (winner *draft, home *search) {
	for _, s := range all {
		ds := s.glance(drafts(s), toRefine)
		for _, d := range ds {
			s.choose(d)
			s.refine(d)
			s.whole(d)
		}
		for _, d := range best(ds, toSpread) {
			if d = s.spread(d); winner == nil || quant(d.composed()) > quant(winner.composed()) {
				winner, home = d, s
			}
		}
	}
	return winner, home
}

// finish writes the winner into the layout.
func (s *search) finish(d *draft, lay *Layout) {
	lay.Ink = s.ink(d)
	lay.Face = d.styles[0].face.name
	c := s.g.canvas
	for i, items := range d.items {
		st := d.styles[i]
		for k, it := range items {
			x0, x1 := d.at[i][k], d.at[i][k]+it.width
			l := Letter{Rune: it.rune, Line: i, Seats: it.width / st.pitch}
			l.Rows, l.Section = s.under(x0, st.top, x1, st.base)
			l.Box = c.Warp.Box([4]float64{x0, st.top, x1, st.base})
			lay.Letters = append(lay.Letters, l)
		}
	}
	s.note(d, lay)
}

// under counts the rows in a box and finds the section that most of its seats belong to.
func (s *search) under(x0, y0, x1, y1 float64) (rows int, section int32) {
	count := map[int32]map[int32]int{}
	for _, i := range s.g.canvas.Between(x0, x1) {
		if p := &s.g.canvas.Places[i]; p.Y > y0 && p.Y < y1 {
			seat := &s.g.field.Seats[i]
			if count[seat.Section] == nil {
				count[seat.Section] = map[int32]int{}
			}
			count[seat.Section][seat.Row]++
		}
	}
	most := -1
	for sec, byRow := range count {
		n := 0
		for _, k := range byRow {
			n += k
		}
		if n > most || n == most && sec < section {
			most, section, rows = n, sec, len(byRow)
		}
	}
	return rows, section
}
