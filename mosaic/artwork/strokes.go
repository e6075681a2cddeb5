package artwork

import (
	"iter"
	"slices"
)

// Shares of a seat, in thousandths, and what they decide (ours, no source, by eye over drawings of ours).
const (
	strokeFrom1000 = 30  // a stroke that covers less of a seat leaves it as it is
	emptyPart      = 150 // a part of a seat that shows less of a stroke is bare
	middleFrom     = 7   // tenths of what the seat within is covered
	dotFrom        = 250 // a dot that lies on one seat alone must cover so much of it
	lostFrom       = 8   // a stroke that covers so much of a seat is missed where it does not show
)

// cornerSeats: so many seats together at which strokes run into one are a corner (ours, no source).
const cornerSeats = 4

// place is a row and a column of a walk.
type place [2]int

// around are the eight places about a place, counter-clockwise from the right; ahead are the next in the row and
// the next row's.
var (
	around = [8]place{{0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}, {1, 1}}
	ahead  = [2]place{{0, 1}, {1, 0}}
)

// seats are all who take part, with their places.
func (w walk) seats() iter.Seq2[place, int32] {
	return func(yield func(place, int32) bool) {
		for r, row := range w {
			for c, k := range row {
				if k != gap && !yield(place{r, c}, k) {
					return
				}
			}
		}
	}
}

// strokes finds the seats along which strokes of one colour run that are thinner than a seat. It starts
// with all that a stroke touches and takes seats off, those least covered first, as long as what is left
// has the same pieces and the same holes: so a ring stays a ring and a line a line, one seat wide.
type strokes struct {
	walk
	ink    []inked // by seat, as shows and on
	shows  []bool  // the colour already
	on     []bool
	places []place // least covered first
}

// widened lists the seats that must show the colour too.
func (s *strokes) widened() (out []int32) {
	s.touched()
	s.openGaps()
	for s.thin() {
	}
	s.fillNotches()
	s.dropDots()
	for k, on := range s.on {
		if on && !s.shows[k] {
			out = append(out, int32(k))
		}
	}
	return out
}

func (s *strokes) touched() {
	s.on = make([]bool, len(s.ink))
	for p, k := range s.seats() {
		if s.on[k] = s.shows[k] || s.ink[k].whole >= strokeFrom1000; s.on[k] {
			s.places = append(s.places, p)
		}
	}
	slices.SortStableFunc(s.places, func(a, b place) int { return s.ink[s.seat(a)].whole - s.ink[s.seat(b)].whole })
}

func (s *strokes) seat(p place) int32 { return s.walk[p[0]][p[1]] }

// beside is the seat so many steps from a place, and whether a stroke runs there.
func (s *strokes) beside(p, step place) (k int32, on bool) {
	k = s.at(p[0]+step[0], p[1]+step[1])
	return k, k != gap && s.on[k]
}

// sides are the seats before and after a place.
func (s *strokes) sides(p, step place) (a, b int32, before, after bool) {
	a, before = s.beside(p, place{-step[0], -step[1]})
	b, after = s.beside(p, step)
	return a, b, before, after
}

// openGaps takes off the seats in which two strokes come close and leave ground between them.
func (s *strokes) openGaps() {
	var open []int32
	for _, p := range s.places {
		k := s.seat(p)
		for _, step := range ahead {
			a, b, before, after := s.sides(p, step)
			if !s.shows[k] && before && after && min(s.ink[a].whole, s.ink[b].whole) >= 2*s.ink[k].whole &&
				slices.Contains(s.ink[k].lines(step), false) {
				open = append(open, k)
			}
		}
	}
	for _, k := range open {
		s.on[k] = false
	}
	s.places = slices.DeleteFunc(s.places, func(p place) bool { return !s.on[s.seat(p)] })
}

// thin goes through the seats once, and says whether one was taken off.
func (s *strokes) thin() (changed bool) {
	for _, p := range s.places {
		if k := s.seat(p); s.on[k] && !s.shows[k] && !s.middle(p) && s.simple(p) && !s.end(p) {
			s.on[k], changed = false, true
		}
	}
	return changed
}

// middle says whether a stroke runs over a seat at its edge about as much as over the one within: where it
// runs between two rows or two columns both show it, so that what is even stays so.
func (s *strokes) middle(p place) (edge bool) {
	for _, step := range ahead {
		within, b, before, after := s.sides(p, step)
		if before == after {
			continue
		}
		if edge = true; after {
			within = b
		}
		if 10*s.ink[s.seat(p)].whole < middleFrom*s.ink[within].whole {
			return false
		}
	}
	return edge
}

// simple says whether pieces and holes stay the same without a seat: its connectivity number for eight
// neighbours is 1 (Yokoi, Toriwaki, Fukumura, "An Analysis of Topological Properties of Digitized Binary
// Pictures Using Local Features", Computer Graphics and Image Processing 4, 1975).
func (s *strokes) simple(p place) bool {
	var off [9]int
	for n, step := range around {
		if _, on := s.beside(p, step); !on {
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
func (s *strokes) end(p place) bool {
	n, straight, most := 0, 0, 0
	for i, step := range around {
		if k, on := s.beside(p, step); on {
			n, most = n+1, max(most, s.ink[k].whole)
			straight += 1 - i%2
		}
	}
	return (n == 1 || n == 2 && straight == 1) && 2*s.ink[s.seat(p)].whole >= most
}

// fillNotches puts seats back that were taken off where strokes meet: between two that lie on both sides
// of one, about as much covered as the lesser of them, if pieces and holes stay the same.
func (s *strokes) fillNotches() {
	for _, p := range s.places {
		k := s.seat(p)
		if s.on[k] || !s.simple(p) {
			continue
		}
		for _, step := range ahead {
			a, b, before, after := s.sides(p, step)
			if before && after && 8*s.ink[k].whole >= 7*min(s.ink[a].whole, s.ink[b].whole) {
				s.on[k] = true
			}
		}
	}
}

// dropDots takes off what is left of specks.
func (s *strokes) dropDots() {
	for _, p := range s.places {
		alone := !slices.ContainsFunc(around[:], func(step place) bool { _, on := s.beside(p, step); return on })
		if k := s.seat(p); alone && !s.shows[k] && s.ink[k].whole < dotFrom {
			s.on[k] = false
		}
	}
}

// lost counts the seats over which a stroke of a colour runs that neither they nor those around them show.
func (w walk) lost(ink []inked, shown []int16, c int16) (n int) {
	for p, k := range w.seats() {
		shows := func(step place) bool {
			at := w.at(p[0]+step[0], p[1]+step[1])
			return at != gap && shown[at] == c
		}
		if ink[k].whole >= lostFrom && shown[k] != c && !slices.ContainsFunc(around[:], shows) {
			n++
		}
	}
	return n
}

// merged counts the seats at which two strokes of a colour run into one: bare ground between them, a third of a seat
// wide at least, lies within seats side by side or one behind the other that both show the colour. A few seats
// together are a corner, where strokes meet anyway.
func (w walk) merged(ink []inked, shown []int16, c int16) (n int) {
	at := map[place]bool{}
	for p, k := range w.seats() {
		if shown[k] != c {
			continue
		}
		for _, step := range ahead {
			lines := ink[k].lines(step)
			if next := w.at(p[0]+step[0], p[1]+step[1]); next != gap && shown[next] == c {
				lines = append(lines, ink[next].lines(step)...)
			}
			at[p] = at[p] || parted(lines)
		}
	}
	for p := range w.seats() {
		if run := take(at, p); run > cornerSeats {
			n += run
		}
	}
	return n
}

// take counts the places joined to one of a set, and takes them off it.
func take(set map[place]bool, p place) (n int) {
	if !set[p] {
		return 0
	}
	set[p], n = false, 1
	for _, step := range around {
		n += take(set, place{p[0] + step[0], p[1] + step[1]})
	}
	return n
}

// parted says whether bare lines lie between inked ones.
func parted(inked []bool) bool {
	first, last := slices.Index(inked, true), len(inked)-1
	for last > first && !inked[last] {
		last--
	}
	return first >= 0 && slices.Contains(inked[first:last+1], false)
}

// lines says which of a seat's lines of parts across a step show something, from the left or the top.
func (i *inked) lines(step place) []bool {
	out := make([]bool, partsAside)
	for line := range out {
		for n := range partsAside {
			at := n*partsAside + line
			if step[0] == 1 {
				at = line*partsAside + n
			}
			out[line] = out[line] || i.part[at] >= emptyPart
		}
	}
	return out
}
