package flash

import (
	"cmp"
	"slices"
	"time"
)

// span is a stretch of moments such that the second that begins at any of them has
// more than three flashes.
type span struct {
	first, last time.Duration // both included
	from        time.Duration // the first flash of the second at the span's beginning
	cue         int16         // of the flash that is one too many there
	area        int64         // of the seat
}

// moment is what changes at one time, in the picture as a whole.
type moment struct {
	at       time.Duration
	cue      int16
	up, down int64 // area
}

// counter adds up what the seats do.
type counter struct {
	spans  []span
	halves []half
}

// half is one seat's half of a flash.
type half struct {
	edge
	area int64
}

// seat takes in one seat's edges, in order of time.
func (c *counter) seat(area int64, edges []edge) {
	c.add(area, tooMany(edges))
	for _, e := range edges {
		c.halves = append(c.halves, half{e, area})
	}
}

func (c *counter) add(area int64, spans []span) {
	for _, s := range spans {
		s.area = area
		c.spans = append(c.spans, s)
	}
}

// danger is the first second in which seats of more than limit together have too
// many flashes, or the picture as a whole has; nil where there is none.
func (c *counter) danger(limit int64) *Danger {
	ends := slices.Clone(c.spans)
	slices.SortStableFunc(c.spans, func(a, b span) int { return cmp.Compare(a.first, b.first) })
	slices.SortStableFunc(ends, func(a, b span) int { return cmp.Compare(a.last, b.last) })
	var sum int64
	var found *Danger
	for _, s := range c.spans {
		for ; ends[0].last < s.first; ends = ends[1:] {
			sum -= ends[0].area
		}
		if sum += s.area; sum > limit {
			found = &Danger{Cue: int(s.cue), From: s.from, Area: float64(sum) / wholeFrame}
			break
		}
	}
	if whole := c.whole(limit); whole != nil && (found == nil || whole.From < found.From) {
		found = whole
	}
	return found
}

// whole looks at the picture as one: a change of more than limit at one moment is a
// change of the picture. Where enough goes up and enough down at once, it opposes
// whatever was before; should that be the very first change, both ways are tried.
func (c *counter) whole(limit int64) *Danger {
	slices.SortFunc(c.halves, func(a, b half) int {
		return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.cue, b.cue))
	})
	var moments []moment
	for halves := c.halves; len(halves) > 0; {
		m := moment{at: halves[0].at, cue: halves[0].cue}
		for ; len(halves) > 0 && halves[0].at == m.at; halves = halves[1:] {
			if halves[0].up {
				m.up += halves[0].area
			} else {
				m.down += halves[0].area
			}
		}
		if m.up > limit || m.down > limit {
			moments = append(moments, m)
		}
	}
	for _, turn := range []bool{true, false} {
		var edges []edge
		for _, m := range moments {
			up, down := m.up > limit, m.down > limit
			if len(edges) == 0 && up != down {
				turn = up
			}
			if turn && up || !turn && down {
				edges = append(edges, edge{m.at, m.cue, turn})
				turn = !turn
			}
		}
		if spans := tooMany(edges); len(spans) > 0 {
			s := spans[0]
			m := moments[slices.IndexFunc(moments, func(m moment) bool { return m.at == s.from })]
			return &Danger{Cue: int(s.cue), From: s.from, Area: float64(max(m.up, m.down)) / wholeFrame}
		}
	}
	return nil
}

// tooMany are the spans of more than three flashes a second; edges take turns. A
// flash is a change and the opposing one that follows within a second. Flashes that
// begin upward and those that begin downward are counted apart, since they share changes.
func tooMany(edges []edge) []span {
	var spans []span
	for first := range 2 {
		var begun []edge
		for i := first; i+1 < len(edges); i += 2 {
			if edges[i+1].at-edges[i].at <= time.Second {
				begun = append(begun, edges[i])
			}
		}
		spans = append(spans, crowded(begun)...)
	}
	return joined(spans)
}

// crowded are the spans of more than MaxFlashes edges a second.
func crowded(edges []edge) []span {
	var spans []span
	for i := MaxFlashes; i < len(edges); i++ {
		from, to := edges[i-MaxFlashes].at, edges[i]
		if to.at-from < Second {
			spans = append(spans, span{first: to.at - Second + 1, last: from, from: from, cue: to.cue})
		}
	}
	return joined(spans)
}

// joined makes one span of those that overlap, so that no area counts twice.
func joined(spans []span) []span {
	slices.SortStableFunc(spans, func(a, b span) int { return cmp.Compare(a.first, b.first) })
	var out []span
	for _, s := range spans {
		if n := len(out); n > 0 && s.first <= out[n-1].last {
			out[n-1].last = max(out[n-1].last, s.last)
			continue
		}
		out = append(out, s)
	}
	return out
}
