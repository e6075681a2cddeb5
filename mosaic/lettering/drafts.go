package lettering

import (
	"iter"
	"math"
	"slices"

	"everyseat/mosaic/faces"
)

// Fewest seats a letter (an H) may be wide and rows it may be high: below that
// nothing tells it from its neighbours in the alphabet.
const (
	fewestSeats = 3.0
	fewestRows  = 5
)

// widest is how wide an H may be, in heights; lines that share the rows are low and may be wider.
const (
	widest     = 1.5
	widestMany = 1.6
)

// draft is one way to lay the whole text.
type draft struct {
	styles    []*style // by line
	at        [][]float64
	items     [][]item
	intervals [][]interval
	share     float64 // of the rows used
	bold      int     // index into boldness
	value     float64 // higher is better
	home      *search

	read []map[placed]float64 // by line: what letters were worth where refine has tried them
}

// middle is the middle of the seats that a line may use.
func (d *draft) middle(line int) float64 {
	intervals := d.intervals[line]
	return float64((intervals[0].left + intervals[len(intervals)-1].right) / 2)
}

// end is where a line's last letter ends.
func (d *draft) end(line int) float64 {
	last := len(d.at[line]) - 1
	return d.at[line][last] + d.items[line][last].width
}

// styleFaces are the faces tried, plainest first.
var styleFaces = []face{
	{name: "bold", typeface: faces.Bold, stem: 0.23},
	{name: "medium", typeface: faces.Medium, stem: 0.19},
	{name: "block", across: 1, up: 2},
}

// drafts lists what may be tried: faces, heights, gaps and widths, each line's letters
// already placed by spacing alone. Gaps between letters are in seats: narrow ones, and wide ones only where aisles
// otherwise push the line off the middle or make it uneven.
func (s *search) drafts() []*draft {
	var out []*draft
	for _, used := range s.heights() {
		rows, share := s.shareRows(used, centred), float64(used)/float64(s.g.rows())
		if rows == nil {
			continue
		}
		for _, f := range styleFaces {
			least := math.Inf(1)
			for i, gap := range []float64{1.2, 2, 3, 4.5, 7} {
				if i > 1 && least < plainEnough {
					break
				}
				for _, d := range s.widths(f, rows, gap, share) {
					least = min(least, s.uneven(d))
					out = append(out, d)
				}
			}
		}
	}
	return out
}

// marginRows is the fewest rows a line of which one above and one below the letters may stay ground:
// letters of ten rows lose little to letters of twelve, those of eight much to those of ten
// (measured on a straight grid).
const marginRows = 12

func (s *search) margin() bool { return s.g.rows() >= marginRows*len(s.lines) }

// heights are the numbers of rows tried, most first.
func (s *search) heights() []int {
	rows := s.g.rows()
	share := func(k float64) int { return int(math.Round(k * float64(rows))) }
	if s.margin() {
		return slices.Compact([]int{rows, rows - 2, share(0.8), share(0.7)})
	}
	return slices.Compact([]int{rows, share(0.85), share(0.7)})
}

// plainEnough is the cost of unevenness that is not worth wider gaps.
const plainEnough = 0.06

// lineRows is where one line's capitals stand, as edges of rows from the top, and the rows above for accents.
type lineRows struct{ top, base, room int }

// centred is where the used rows begin that stand in the middle of all.
const centred = -1

// shareRows shares the used rows, from a start on, out over the lines; nil where they are too few.
func (s *search) shareRows(used, start int) []lineRows {
	n := len(s.lines)
	rows, leading := used, 0
	if n > 1 {
		leading = max(2, int(math.Round(float64(used)*0.3/(float64(n)+float64(0.3*float64(n-1))))))
		rows = (used - leading*(n-1)) / n
	}
	if rows < fewestRows {
		return nil
	}
	if start == centred {
		start = (s.g.rows() - rows*n - leading*(n-1)) / 2
	}
	var out []lineRows
	for i, l := range s.lines {
		room := 0 // above the capitals, for accents
		if slices.ContainsFunc(l, sign.accented) {
			room = max(leastRoom, int(math.Ceil(0.28*float64(rows))))
			if rows-room < fewestRows {
				return nil
			}
		}
		top := start + i*(rows+leading)
		out = append(out, lineRows{top + room, top + rows, room})
	}
	return out
}

// leastRoom is the fewest rows for an accent: one of ground and two for its strokes.
const leastRoom = 3

// clearGap is how wide the gap between letters is at least, in widths of an H: narrower, they run together from afar.
const clearGap = 0.24

func (s *search) widths(f face, rows []lineRows, gap, share float64) []*draft {
	g := s.g
	pitch := g.canvas.Pitch
	most := math.Inf(1)
	broad := widest
	if len(rows) > 1 {
		broad = widestMany
	}
	var intervals [][]interval
	for _, b := range rows {
		most = min(most, broad*(g.edges[b.base]-g.edges[b.top]))
		intervals = append(intervals, g.intervals(g.edges[b.top], g.edges[b.base]))
	}
	try := func(wide float64) *draft {
		d := &draft{share: share, intervals: intervals}
		for i, b := range rows {
			top, base := g.edges[b.top], g.edges[b.base]
			st := &style{
				face: f, top: top, base: base, wide: wide, gap: max(gap*pitch, clearGap*wide), pitch: pitch, row: g.row,
				room: top - g.edges[b.top-b.room],
			}
			items := st.items(s.lines[i], nil)
			if _, ok := fits(items, intervals[i], pitch); !ok {
				return nil
			}
			d.styles, d.items = append(d.styles, st), append(d.items, items)
		}
		return d
	}
	// the widest that fits, by halving
	least := fewestSeats * pitch
	lo, hi := least, max(most, least)
	if try(lo) == nil {
		return nil
	}
	if try(hi) == nil {
		for range 7 {
			if mid := (lo + hi) / 2; try(mid) != nil {
				lo = mid
			} else {
				hi = mid
			}
		}
	} else {
		lo = hi
	}
	var out []*draft
	for _, k := range []float64{1, 0.87} {
		if d := try(max(lo*k, least)); d != nil && s.space(d) {
			out = append(out, d)
		}
	}
	return out
}

// How the rows are cut down where a text does not fit on most of them.
const (
	rowSteps    = 24 // numbers of rows tried at most
	fewerWanted = 6  // numbers of rows from which letters are taken, beginning with the most
)

// fewer lists drafts on a part of the rows: where aisles slant in the picture, sections
// share more seats across over fewer rows. It is for texts that fit on no larger part.
func (s *search) fewer() []*draft {
	var out []*draft
	fitted := 0
	for rows, share := range s.fewerRows() {
		n := len(out)
		for _, f := range styleFaces {
			out = append(out, s.widths(f, rows, 1.2, share)...)
		}
		if len(out) > n {
			fitted++
		}
		if fitted == 3*fewerWanted {
			break
		}
	}
	return out
}

// fewerRows are the lines on fewer and fewer rows, in the middle, at the top and at the bottom, and the share of all
// rows that they use.
func (s *search) fewerRows() iter.Seq2[[]lineRows, float64] {
	return func(yield func([]lineRows, float64) bool) {
		rows := s.g.rows()
		for used := rows; used >= fewestRows && s.shareRows(used, centred) != nil; used -= max(1, rows/rowSteps) {
			starts := []int{(rows - used) / 2, 0, rows - used}
			for k, start := range starts {
				if k > 0 && start == starts[0] {
					continue
				}
				if !yield(s.shareRows(used, start), float64(used)/float64(rows)) {
					return
				}
			}
		}
	}
}

// most is how many letters as wide as an H fit in every line, on whichever rows, fewer than n.
func (s *search) most(n int) int {
	for k := n - 1; k > 0; k-- {
		line := slices.Repeat([]sign{{rune: 'H'}}, k)
		try := &search{g: s.g, lines: slices.Repeat([][]sign{line}, len(s.lines))}
		for rows := range try.fewerRows() {
			if try.widths(styleFaces[0], rows, 1.2, 1) != nil {
				return k
			}
		}
	}
	return 0
}

// across is how many seats the sections share at most over a part of the rows, as wide as they are seen.
func (s *search) across() float64 {
	most := 0.0
	for rows := range s.fewerRows() {
		for _, b := range rows {
			sum := 0.0
			for _, in := range s.g.intervals(s.g.edges[b.top], s.g.edges[b.base]) {
				sum += (in.right - in.left) / s.g.canvas.Pitch
			}
			most = max(most, sum)
		}
	}
	return most
}
