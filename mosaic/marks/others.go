package marks

import (
	"slices"

	"everyseat/mosaic"
	"everyseat/seating"
)

// Heights and steps at which other places are tried.
const (
	ladderless = 5 * seating.Metre // as high as a gallery or a lift
	asideFrom  = seating.Metre / 2 // from the middle: less is not worth moving
)

// Others are a few places where the stunt's camera could stand instead, those that help most
// often first: higher, in the middle, nearer and farther; inside the room and not in a lane.
// Where the room names places for cameras, they are in the middle and the
// outer parts of each, at its heights.
func Others(stunt *mosaic.Stunt, stands *seating.Stands) []Place {
	r, err := newRoom(&mosaic.Plan{Stunt: stunt, Stands: stands})
	if err != nil {
		return nil
	}
	own := placeOf(&stunt.Camera)
	if own.Height <= 0 {
		own.Height = handHeight
	}
	middle := (r.extent.left + r.extent.right) / 2
	var all []Place
	if spots := stunt.Room.Spots; len(spots) > 0 {
		for _, part := range []seating.Length{3, 1, 5} { // sixths from the left: the middle first
			for i := range spots {
				all = append(all, placesIn(&spots[i], part, own.Height)...)
			}
		}
	} else {
		all = around(own, middle)
	}
	var out []Place
	for _, p := range all {
		if p != own && !slices.Contains(out, p) && r.refuses(p) == free {
			out = append(out, p)
		}
	}
	return out
}

// around is places about a mark, those that help most often first.
func around(own Place, middle seating.Length) []Place {
	back := func(percent seating.Length) seating.Length {
		const step = seating.Metre / 2
		return max(step, (own.Back*percent/100+step/2)/step*step)
	}
	var heights []seating.Length
	for _, h := range []seating.Length{highHeight, ladderless, 8 * seating.Metre} {
		if h >= own.Height+seating.Metre/2 && len(heights) < 2 {
			heights = append(heights, h)
		}
	}
	var out []Place
	aside := abs(own.Across-middle) >= asideFrom
	for _, h := range heights {
		out = append(out, Place{own.Across, own.Back, h})
		if aside {
			out = append(out, Place{middle, own.Back, h})
		}
	}
	if aside {
		out = append(out, Place{middle, own.Back, own.Height}, Place{(own.Across + middle) / 2, own.Back, own.Height})
	}
	for _, percent := range []seating.Length{75, 140} {
		out = append(out, Place{own.Across, back(percent), own.Height})
		for _, h := range heights[:min(1, len(heights))] {
			out = append(out, Place{middle, back(percent), h})
		}
	}
	return out
}

// placesIn is a place in a spot, so many sixths of its width from the left, at each of its heights.
func placesIn(s *mosaic.Spot, sixths, height seating.Length) []Place {
	heights := s.Heights
	if len(heights) == 0 {
		heights = []seating.Length{height, highHeight}
	}
	var out []Place
	for _, h := range unique(heights) {
		across := s.Left + (s.Right-s.Left)*sixths/6
		out = append(out, Place{toCentimetre(2*across, 0), -toCentimetre(s.Near+s.Far, 0), h})
	}
	return out
}
