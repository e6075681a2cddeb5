package camera

// tilesAcross is how many tiles the window has each way.
const tilesAcross = 128

// tiles marks where in the window wanted cards lie, so that a look at a few cards of
// many need not draw what is nowhere near them.
type tiles struct {
	window box
	marked [tilesAcross][tilesAcross]bool
}

// tile marks the tiles that the wanted cards touch.
func (r *seeing) tile(window box) *tiles {
	t := &tiles{window: window}
	for i := range r.cards {
		if c := &r.cards[i]; c.wanted {
			first, last := t.around(c.box)
			for y := first[1]; y <= last[1]; y++ {
				for x := first[0]; x <= last[0]; x++ {
					t.marked[y][x] = true
				}
			}
		}
	}
	return t
}

// around is the tiles that a box touches, those at the border for what lies beyond it.
func (t *tiles) around(b box) (first, last [2]int) {
	for axis := range 2 {
		size := (t.window[axis+2] - t.window[axis]) / tilesAcross
		first[axis] = min(index((b[axis]-t.window[axis])/size-0.5, tilesAcross), tilesAcross-1)
		last[axis] = min(index((b[axis+2]-t.window[axis])/size-0.5, tilesAcross), tilesAcross-1)
	}
	return first, last
}

// touch says whether an item may draw over a marked tile.
func (t *tiles) touch(s *span) bool {
	first, last := t.around(box{float64(s[0]), float64(s[1]), float64(s[2]), float64(s[3])})
	for y := first[1]; y <= last[1]; y++ {
		for x := first[0]; x <= last[0]; x++ {
			if t.marked[y][x] {
				return true
			}
		}
	}
	return false
}
