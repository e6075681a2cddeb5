package flash

import "time"

// edge is one half of a flash: a change up (brighter; to red) or down.
type edge struct {
	at  time.Duration
	cue int16
	up  bool
}

// luminanceEdges appends the changes that count as halves of general flashes; up and
// down take turns. A rise in several steps is one change, at the step that makes it
// large enough, and a dip of less than 10 % on the way does not part it.
func luminanceEdges(edges []edge, looks []Look, start int16, own []Change) []edge {
	low := looks[start].Luminance // darkest since the last turn downward began, or since the start
	high := low                   // and the brightest
	rising, falling := false, false
	counted := false // the present rise or fall is among the edges
	for _, c := range own {
		l := looks[c.Look].Luminance
		switch {
		case !rising && l-low >= changeStep:
			rising, falling, counted = true, false, false
			high = l
		case !falling && high-l >= changeStep:
			rising, falling, counted = false, true, false
			low = l
		}
		if rising {
			high = max(high, l)
		} else if falling {
			low = min(low, l)
		} else {
			low, high = min(low, l), max(high, l)
		}
		if (rising || falling) && !counted && low < darkBelow {
			edges = append(edges, edge{c.At, c.Cue, rising})
			counted = true
		}
	}
	return edges
}

// redEdges appends the changes that count as halves of red flashes; to red and from red
// take turns. Coming back to red closes a pair even if the last step is a small one.
func redEdges(edges []edge, looks []Look, start int16, own []Change) []edge {
	before := looks[start]
	red, left := before, false // the last red, and whether a counted change has left it
	for _, c := range own {
		now := looks[c.Look]
		switch {
		case now.Red:
			if left || !red.Red && apart(before, now) {
				edges = append(edges, edge{c.At, c.Cue, true})
			}
			red, left = now, false
		case red.Red && !left && apart(red, now):
			edges = append(edges, edge{c.At, c.Cue, false})
			left = true
		}
		before = now
	}
	return edges
}
