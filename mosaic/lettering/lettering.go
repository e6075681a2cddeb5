// Package lettering fits text to seats as the camera sees them: it decides
// which seats are ink. Start with Fit.
package lettering

import (
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/seating/together"
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
	toRefine = 3 // of every search
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

// leans are how far letters lean with the stands: upright in the picture, half, and along the columns of seats.
var leans = []float64{0, 0.5, 1}

// searches are the canvases to lay letters on: the picture as it is, and levelled along the rows where these slant;
// and this one with the columns of seats upright or half upright, so that letters lean with the stands.
func searches(views []*Field, lines [][]sign, o Options) []*search {
	warps := legibility.Warps(views[0])
	film := make([]*legibility.Canvas, len(views))
	for k, v := range views {
		film[k] = legibility.Levelled(v)
	}
	var out []*search
	add := func(c *legibility.Canvas) {
		if c != nil {
			out = append(out, &search{g: survey(views[0], c), lines: lines, film: film, coming: legibility.Expects(o), crowd: o.Crowd})
		}
	}
	if len(warps) > 1 {
		add(legibility.NewCanvas(views[0], warps[0]))
	}
	for _, lean := range leans {
		c := film[0]
		if lean > 0 {
			c = c.Leaning(views[0], lean)
		}
		add(c)
	}
	return out
}

// winnerOf is the best draft of all searches, and whose it is; nil where nothing fits.
func winnerOf(all []*search, drafts func(*search) []*draft) (winner *draft, home *search) {
	by := make([][]*draft, len(all))
	together.Each(len(all), func(k int) {
		s := all[k]
		by[k] = s.glance(drafts(s), toRefine)
		for _, d := range by[k] {
			s.choose(d)
			s.refine(d)
			s.whole(d)
			d.home = s
		}
	})
	last := best(slices.Concat(by...), toSpread)
	if len(last) == 0 {
		return nil, nil
	}
	together.Each(len(last), func(k int) {
		own := last[k].home.apart()
		last[k] = own.grow(own.spread(last[k]))
	})
	winner = last[0]
	for _, d := range last[1:] {
		if quant(d.composed()) > quant(winner.composed()) {
			winner = d
		}
	}
	return winner, winner.home
}

// apart is the search for a worker of its own.
func (s *search) apart() *search {
	own, g := *s, *s.g
	own.patch, own.seats, own.g = legibility.Patch{}, nil, &g
	g.loose, g.todo = nil, nil
	return &own
}

// finish writes the winner into the layout.
func (s *search) finish(d *draft, lay *Layout) {
	lay.Ink = s.ink(d)
	lay.Face = d.styles[0].face.name
	for i, items := range d.items {
		st := d.styles[i]
		for k, it := range items {
			x0, x1 := d.at[i][k], d.at[i][k]+it.width
			l := Letter{Rune: it.rune, Line: i, Seats: it.width / st.pitch}
			l.Rows, l.Section = s.under(x0, st.top, x1, st.base)
			l.Box = s.film[0].Warp.Box(s.filmed(s.film[0], [4]float64{x0, st.top, x1, st.base}))
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
