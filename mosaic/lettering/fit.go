package lettering

import (
	"fmt"
	"math"
	"slices"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering/faces"
)

var boldFace, mediumFace, monoFace = faces.Bold, faces.Medium, faces.Mono

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
	var glyphs []legibility.Glyph
	for _, l := range lay.Letters {
		glyphs = append(glyphs, legibility.Glyph{Rune: l.Rune, Box: l.Box})
	}
	lay.Score = 1
	for m := range views {
		lay.Score = min(lay.Score, legibility.Expect(views, m, lay.Ink, glyphs, o))
	}
	return lay, nil
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

// Glyphs is what legibility.Judge needs of the layout.
func (l *Layout) Glyphs() []legibility.Glyph {
	out := make([]legibility.Glyph, len(l.Letters))
	for i, t := range l.Letters {
		out[i] = legibility.Glyph{Rune: t.Rune, Box: t.Box}
	}
	return out
}

func check(views []*Field) error {
	if len(views) == 0 || len(views[0].Seats) == 0 {
		return &Misfit{What: "no seat may carry the text", Hint: "give sections whose people hold cards and that the camera sees"}
	}
	for _, v := range views {
		if len(v.Seats) != len(views[0].Seats) {
			return &Misfit{What: "the views do not list the same seats", Hint: "give every mark the same seats in the same order"}
		}
	}
	for i := range views[0].Seats {
		if views[0].Seats[i].Pixels > 0 {
			return nil
		}
	}
	return &Misfit{What: "the camera sees none of the seats that may carry the text", Hint: "turn the camera to the stands, or raise it"}
}

// searches are the canvases to try: the picture as it is, and levelled along the rows
// where these slant.
func searches(views []*Field, lines [][]sign, o Options) []*search {
	var out []*search
	for _, w := range legibility.Warps(views[0]) {
		c := legibility.NewCanvas(views[0], w)
		s := &search{g: survey(views[0], c), lines: lines, coming: legibility.Expects(o)}
		for _, v := range views[1:] {
			ws := legibility.Warps(v)
			s.views = append(s.views, legibility.NewCanvas(v, ws[len(ws)-1]))
		}
		out = append(out, s)
	}
	return out
}

func accents(line []sign) bool {
	for _, l := range line {
		if _, ok := faces.Base(l.rune); ok {
			return true
		}
	}
	return false
}

// rowsForAccents is how many rows a line needs for letters with accents.
const rowsForAccents = 10

// plainAccents takes accents off where the rows are too few, and says so.
func plainAccents(f *Field, lines [][]sign, lay *Layout) [][]sign {
	rows := survey(f, legibility.NewCanvas(f, legibility.Straight(f))).rows()
	if rows/len(lines) >= rowsForAccents {
		return lines
	}
	out := make([][]sign, len(lines))
	for i, l := range lines {
		out[i] = slices.Clone(l)
		for k, s := range l {
			if b, ok := faces.Base(s.rune); ok {
				out[i][k].rune = b
				lay.Dropped = append(lay.Dropped, fmt.Sprintf("%c is set as %c: %d rows a line are too few for accents, which need %d", s.rune, b, rows/len(lines), rowsForAccents))
			}
		}
	}
	return out
}

// misfit says why nothing fits, and what would.
func misfit(f *Field, lines [][]sign) error {
	c := legibility.NewCanvas(f, legibility.Straight(f))
	g := survey(f, c)
	n := len(lines)
	if g.rows() < fewestRows {
		return &Misfit{
			What: fmt.Sprintf("letters need at least %d rows, and the camera sees %d", fewestRows, g.rows()),
			Hint: "use more rows, hold the cards higher, or raise the camera", Small: true,
		}
	}
	if n > 1 && (&search{g: g, lines: lines}).bands(g.rows()) == nil {
		return &Misfit{
			What: fmt.Sprintf("%d lines do not fit: %d rows give each fewer than %d", n, g.rows(), fewestRows),
			Hint: fmt.Sprintf("use fewer lines, or make %s of them", cuesWord(n)), Small: true,
		}
	}
	longest := 0
	for _, l := range lines {
		longest = max(longest, len(l))
	}
	s := &search{g: g, lines: lines}
	hint := fmt.Sprintf("make two cues of it, use at most %d letters, or about %d seats across", s.most(longest), int(math.Ceil(float64(longest)*(fewestSeats+1.3))))
	across := s.across()
	if s.most(2) < 1 {
		hint = "use wider sections: a letter must not cross an aisle"
	}
	return &Misfit{
		What: fmt.Sprintf("%d letters do not fit: rows enough for letters share at most %d seats across as the camera sees them, and a letter needs %.0f", longest, int(across), fewestSeats),
		Hint: hint, Small: true,
	}
}

func cuesWord(n int) string {
	if n == 2 {
		return "two cues"
	}
	return fmt.Sprintf("%d cues", n)
}

// finish writes the winner into the layout.
func (s *search) finish(d *draft, lay *Layout) {
	lay.Ink = s.ink(d)
	lay.Face = d.face
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
