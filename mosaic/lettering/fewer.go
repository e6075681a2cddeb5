package lettering

import "strings"

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
	s.parts(func(bands []band, share float64) bool {
		n := len(out)
		for _, f := range styleFaces() {
			out = append(out, s.widths(f, bands, 1.2, share)...)
		}
		if len(out) > n {
			fitted++
		}
		return fitted < 3*fewerWanted
	})
	return out
}

// parts calls try with bands of fewer and fewer rows, in the middle, at the top and at the bottom, while it says so.
func (s *search) parts(try func(bands []band, share float64) bool) {
	rows := s.g.rows()
	step := max(1, rows/rowSteps)
	for used := rows; used >= fewestRows; used -= step {
		if s.bands(used) == nil {
			return
		}
		starts := []int{(rows - used) / 2, 0, rows - used}
		for k, start := range starts {
			if k > 0 && start == starts[0] {
				continue
			}
			if !try(s.bandsFrom(used, start), float64(used)/float64(rows)) {
				return
			}
		}
	}
}

// most is how many letters as wide as an H fit in every line, on whichever rows, fewer than n.
func (s *search) most(n int) int {
	lines := make([][]sign, len(s.lines))
	for k := n - 1; k > 0; k-- {
		row := make([]sign, 0, k)
		for _, r := range strings.Repeat("H", k) {
			row = append(row, sign{rune: r})
		}
		for i := range lines {
			lines[i] = row
		}
		try := &search{g: s.g, lines: lines}
		if try.anywhere() {
			return k
		}
	}
	return 0
}

// anywhere says whether the narrowest letters fit on any part of the rows.
func (s *search) anywhere() bool {
	found := false
	s.parts(func(bands []band, _ float64) bool {
		found = s.widths(styleFaces()[0], bands, 1.2, 1) != nil
		return !found
	})
	return found
}

// across is how many seats the sections share at most over a part of the rows, as wide as they are seen.
func (s *search) across() float64 {
	most := 0.0
	s.parts(func(bands []band, _ float64) bool {
		for _, b := range bands {
			sum := 0.0
			for _, sp := range s.g.spans(s.g.edges[b.top], s.g.edges[b.base]) {
				sum += (sp.right - sp.left) / s.g.canvas.Pitch
			}
			most = max(most, sum)
		}
		return true
	})
	return most
}
