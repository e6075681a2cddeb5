package mosaic

import "slices"

// Shares of a seat, in thousandths, and what they decide (ours, no source, by eye over drawings of ours).
const (
	strokeFrom1000 = 30  // a stroke that covers less of a seat leaves it as it is
	emptyPart      = 150 // a part of a seat that shows less of a stroke is bare
	middleFrom     = 7   // tenths of what the seat within is covered
	dotFrom        = 250 // a dot that lies on one seat alone must cover so much of it
)

// inked is how much of a seat one colour covers, in thousandths: all of it, and its parts row by row.
type inked struct {
	whole int
	part  [partsAside * partsAside]int
}

// strokes finds the seats along which strokes of one colour run that are thinner than a seat. It starts
// with all that a stroke touches and takes seats off, those least covered first, as long as what is left
// has the same pieces and the same holes: so a ring stays a ring and a line a line, one seat wide.
type strokes struct {
	walk   *walk
	inked  []inked
	shows  []bool // seats that show the colour already
	on     map[[2]int]int32
	places [][2]int // row and column, least covered first
}

// widened lists the seats, by their number in the walk, that must show the colour too.
func (s *strokes) widened() []int32 {
	s.touched()
	s.openGaps()
	for s.thin() {
	}
	s.fillNotches()
	s.dropDots()
	var out []int32
	for _, k := range s.on {
		if !s.shows[k] {
			out = append(out, k)
		}
	}
	slices.Sort(out)
	return out
}

func (s *strokes) touched() {
	s.on, s.places = map[[2]int]int32{}, nil
	for r, row := range s.walk.rows {
		for c, k := range row {
			if k != gap && (s.shows[k] || s.inked[k].whole >= strokeFrom1000) {
				s.on[[2]int{r, c}] = k
				s.places = append(s.places, [2]int{r, c})
			}
		}
	}
	slices.SortStableFunc(s.places, func(a, b [2]int) int { return s.inked[s.on[a]].whole - s.inked[s.on[b]].whole })
}

// openGaps takes off the seats in which two strokes come close and leave ground between them.
func (s *strokes) openGaps() {
	var open [][2]int
	for _, at := range s.places {
		k := s.on[at]
		if s.shows[k] {
			continue
		}
		has := func(dr, dc int) bool {
			beside, ok := s.on[[2]int{at[0] + dr, at[1] + dc}]
			return ok && s.inked[beside].whole >= 2*s.inked[k].whole
		}
		if has(0, -1) && has(0, 1) && s.inked[k].bare(1, partsAside) || has(-1, 0) && has(1, 0) && s.inked[k].bare(partsAside, 1) {
			open = append(open, at)
		}
	}
	for _, at := range open {
		delete(s.on, at)
	}
	s.places = slices.DeleteFunc(s.places, func(at [2]int) bool { _, ok := s.on[at]; return !ok })
}

// bare says whether a line of parts through the seat shows nothing; from one line to the next it is step
// parts, along a line it is along.
func (i *inked) bare(step, along int) bool {
	for line := range partsAside {
		none := true
		for n := range partsAside {
			none = none && i.part[line*step+n*along] < emptyPart
		}
		if none {
			return true
		}
	}
	return false
}

// around are the eight places about a place, counter-clockwise from the right.
var around = [8][2]int{{0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}, {1, 1}}

// thin goes through the seats once, and says whether one was taken off.
func (s *strokes) thin() bool {
	changed := false
	for _, at := range s.places {
		k, ok := s.on[at]
		if !ok || s.shows[k] || s.middle(at) || !s.simple(at) || s.end(at) {
			continue
		}
		delete(s.on, at)
		changed = true
	}
	return changed
}

// middle says whether a stroke runs over a seat at its edge about as much as over the one within: where it
// runs between two rows or two columns both show it, so that what is even stays so.
func (s *strokes) middle(at [2]int) bool {
	own, edge := s.inked[s.on[at]].whole, false
	for _, d := range [2][2]int{{0, 1}, {1, 0}} {
		a, before := s.on[[2]int{at[0] - d[0], at[1] - d[1]}]
		b, after := s.on[[2]int{at[0] + d[0], at[1] + d[1]}]
		if before == after {
			continue
		}
		if edge = true; after {
			a = b
		}
		if 10*own < middleFrom*s.inked[a].whole {
			return false
		}
	}
	return edge
}

// simple says whether pieces and holes stay the same without a seat: its connectivity number for eight
// neighbours is 1 (Yokoi, Toriwaki, Fukumura, "An Analysis of Topological Properties of Digitized Binary
// Pictures Using Local Features", Computer Graphics and Image Processing 4, 1975).
func (s *strokes) simple(at [2]int) bool {
	var off [9]int
	for n, d := range around {
		if _, ok := s.on[[2]int{at[0] + d[0], at[1] + d[1]}]; !ok {
			off[n] = 1
		}
	}
	off[8] = off[0]
	number := 0
	for n := 0; n < 8; n += 2 {
		number += off[n] - off[n]*off[n+1]*off[n+2]
	}
	return number == 1
}

// end says whether a line ends on a seat: it has one neighbour, or two that lie side by side before it, and is
// covered half as much as they are.
func (s *strokes) end(at [2]int) bool {
	n, straight, most := 0, 0, 0
	for i, d := range around {
		if k, ok := s.on[[2]int{at[0] + d[0], at[1] + d[1]}]; ok {
			n, most = n+1, max(most, s.inked[k].whole)
			straight += 1 - i%2
		}
	}
	return (n == 1 || n == 2 && straight == 1) && 2*s.inked[s.on[at]].whole >= most
}

// fillNotches puts seats back that were taken off where strokes meet: between two that lie on both sides
// of one, about as much covered as the lesser of them, if pieces and holes stay the same.
func (s *strokes) fillNotches() {
	for _, at := range s.places {
		if _, ok := s.on[at]; ok || !s.simple(at) {
			continue
		}
		k := s.walk.rows[at[0]][at[1]]
		for _, d := range [2][2]int{{0, 1}, {1, 0}} {
			a, before := s.on[[2]int{at[0] - d[0], at[1] - d[1]}]
			b, after := s.on[[2]int{at[0] + d[0], at[1] + d[1]}]
			if before && after && 8*s.inked[k].whole >= 7*min(s.inked[a].whole, s.inked[b].whole) {
				s.on[at] = k
				break
			}
		}
	}
}

// dropDots takes off what is left of specks.
func (s *strokes) dropDots() {
	for _, at := range s.places {
		k, ok := s.on[at]
		if !ok || s.shows[k] || s.inked[k].whole >= dotFrom {
			continue
		}
		alone := true
		for _, d := range around {
			_, beside := s.on[[2]int{at[0] + d[0], at[1] + d[1]}]
			alone = alone && !beside
		}
		if alone {
			delete(s.on, at)
		}
	}
}
