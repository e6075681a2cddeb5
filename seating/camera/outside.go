package camera

import "everyseat/seating"

// Outside says in plain sentences which cards the picture does not hold: outside
// the frame, cut by its edge, behind the lens, or seen from behind. Empty is good.
func Outside(s *Scene, v *View, sight *Sight) []string {
	var outside, cut, behind, back []int32
	for seat := range s.Stands.Seats {
		q, ok := s.CardQuad(seat)
		if !ok {
			continue
		}
		t := v.quad(q)
		switch {
		case t.depth < near:
			behind = append(behind, int32(seat))
		case !t.front:
			back = append(back, int32(seat))
		case sight.InFrame[seat]:
		case v.misses(t.box()):
			outside = append(outside, int32(seat))
		default:
			cut = append(cut, int32(seat))
		}
	}
	var lines []string
	say := func(seats []int32, one, many string) {
		if len(seats) > 0 {
			lines = append(lines, count(len(seats), one, many)+": "+nameSeats(s.Stands, seats, s.holds))
		}
	}
	say(outside, "card is outside the frame", "cards are outside the frame")
	say(cut, "card is cut by the edge of the frame", "cards are cut by the edge of the frame")
	say(behind, "card is behind the lens or within 0.3 m of it", "cards are behind the lens or within 0.3 m of it")
	if s.Resting || s.Card.Held == Lap {
		say(back, "card lies flat and is seen from below", "cards lie flat and are seen from below")
	} else {
		say(back, "card is seen from behind", "cards are seen from behind")
	}
	return lines
}

// misses says whether a box lies wholly outside the picture.
func (v *View) misses(b box) bool {
	return b[2] <= 0 || b[3] <= 0 || b[0] >= float64(v.Width) || b[1] >= float64(v.Height)
}

// floorSection says whether a seat belongs to a floor block.
func (s *Scene) floorSection(seat int32) bool {
	return s.Stands.Sections[s.Stands.Seats[seat].Section].Spec.Kind == seating.Floor
}
