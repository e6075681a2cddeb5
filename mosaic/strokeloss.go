package mosaic

import "slices"

// What is missed of strokes (ours, no source).
const (
	lostFrom    = 8 // thousandths of a seat: a stroke that covers so much of it is missed where it does not show
	cornerSeats = 4 // so many seats together at which strokes run into one are a corner
)

// lost counts the seats over which a stroke of a colour runs that neither they nor those around them show.
func (w *walk) lost(in []inked, shown []int16, c int16) (n int) {
	for r, row := range w.rows {
		for col, k := range row {
			if k != gap && in[k].whole >= lostFrom && !w.shows(r, col, shown, c) {
				n++
			}
		}
	}
	return n
}

// shows says whether a place or one about it shows a colour.
func (w *walk) shows(r, col int, shown []int16, c int16) bool {
	for y := max(r-1, 0); y <= min(r+1, len(w.rows)-1); y++ {
		for x := max(col-1, 0); x <= min(col+1, len(w.rows[y])-1); x++ {
			if k := w.rows[y][x]; k != gap && shown[k] == c {
				return true
			}
		}
	}
	return false
}

// melted counts the seats at which two strokes of a colour run into one: bare ground between them, a third of a seat
// wide at least, lies within seats side by side or one behind the other that both show the colour. A few seats
// together are a corner, where strokes meet anyway.
func (w *walk) melted(in []inked, shown []int16, c int16) (n int) {
	at := map[[2]int]bool{}
	for r, row := range w.rows {
		for col := range row {
			at[[2]int{r, col}] = w.meltedAt(r, col, in, shown, c)
		}
	}
	for r, row := range w.rows {
		for col := range row {
			if run := take(at, [2]int{r, col}); run > cornerSeats {
				n += run
			}
		}
	}
	return n
}

func (w *walk) meltedAt(r, col int, in []inked, shown []int16, c int16) bool {
	k := w.at(r, col)
	if k == gap || shown[k] != c {
		return false
	}
	for _, d := range [2][2]int{{0, 1}, {1, 0}} {
		lines := in[k].lines(d)
		if next := w.at(r+d[0], col+d[1]); next != gap && shown[next] == c {
			lines = append(lines, in[next].lines(d)...)
		}
		if parted(lines) {
			return true
		}
	}
	return false
}

// take counts the places joined to one of a set, and takes them off it.
func take(set map[[2]int]bool, at [2]int) (n int) {
	if !set[at] {
		return 0
	}
	set[at], n = false, 1
	for _, d := range around {
		n += take(set, [2]int{at[0] + d[0], at[1] + d[1]})
	}
	return n
}

// at is the number at a place, or gap.
func (w *walk) at(r, col int) int32 {
	if r >= len(w.rows) || col >= len(w.rows[r]) {
		return gap
	}
	return w.rows[r][col]
}

// parted says whether bare lines lie between inked ones.
func parted(inked []bool) bool {
	first, last := slices.Index(inked, true), len(inked)-1
	for last > first && !inked[last] {
		last--
	}
	return first >= 0 && slices.Contains(inked[first:last+1], false)
}

// lines says which of a seat's lines of parts across d show something, from the left or the top.
func (i *inked) lines(d [2]int) []bool {
	out := make([]bool, partsAside)
	for line := range out {
		for n := range partsAside {
			at := n*partsAside + line
			if d[0] == 1 {
				at = line*partsAside + n
			}
			out[line] = out[line] || i.part[at] >= emptyPart
		}
	}
	return out
}
