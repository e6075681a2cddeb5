package mosaic

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic/artwork"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// cue plans cue i: the ground on every card, nothing elsewhere; then text or image, then what is painted by hand.
func (m *maker) cue(i int) (*CuePlan, error) {
	cue, seats := &m.p.Stunt.Cues[i], m.p.Stands.Seats
	plan := &CuePlan{Name: cue.Name, At: cue.At, Colours: slices.Repeat([]int16{None}, len(seats))}
	for s := range seats {
		if seats[s].Use == seating.UseCard {
			plan.Colours[s] = m.index[cue.Ground]
		}
	}
	carry, err := m.carriers(i)
	if err != nil {
		return nil, err
	}
	switch {
	case cue.Text != "":
		err = m.text(plan, cue, i, carry)
	case cue.Image != nil || cue.ImageName != "":
		err = m.image(plan, cue, i, carry)
	}
	if err != nil {
		return nil, err
	}
	return plan, m.paint(plan.Colours, cue, i)
}

// usable are those of these seats that have a cell.
func (m *maker) usable(carry []bool, cells []camera.Cell) []int32 {
	var out []int32
	for s := range m.p.Stands.Seats {
		if carry[s] && cells[s] != (camera.Cell{}) {
			out = append(out, int32(s))
		}
	}
	return out
}

// paint overrides what the cue shows on seats painted by hand: those with cards between two seats that must exist.
// Numbers between that are not there, and people without cards, are passed over.
func (m *maker) paint(colours []int16, cue *Cue, i int) error {
	stands, painted := m.p.Stands, map[int32]bool{}
	m.painted[i] = painted
	for k, p := range cue.Painted {
		key := fmt.Sprintf("cue[%d].painted[%d]", i, k)
		seats, err := stands.InRange(p.Section, p.Seats)
		if err != nil {
			if f, ok := errors.AsType[*seating.Fault](err); ok && strings.Contains(p.Seats.Row, "..") {
				f.Hint = fmt.Sprintf("seats are painted row by row: a line each for the rows of %s", p.Seats.Row)
			}
			return underKey(err, key)
		}
		if twice := slices.IndexFunc(seats, func(s int32) bool { return painted[s] }); twice >= 0 {
			return &seating.Fault{Key: key, Hint: "name each seat once",
				What: fmt.Sprintf("seat %s is painted twice", stands.ID(int(seats[twice])))}
		}
		cards := false
		for _, s := range seats {
			if stands.Seats[s].Use == seating.UseCard {
				colours[s], cards, painted[s] = m.index[cmp.Or(p.Colour, Shirts)], true, true
			}
		}
		if !cards {
			first, last := stands.ID(int(seats[0])), stands.ID(int(seats[len(seats)-1]))
			return &seating.Fault{Key: key, What: fmt.Sprintf("nobody on %s to %s holds a card", first, last),
				Hint: "paint other seats"}
		}
	}
	return nil
}

// An image that shows on less than a leastDrawn-th of the seats is hardly seen; fewSeats are too few to say so
// (ours, no source).
const (
	leastDrawn = 12
	fewSeats   = 60
)

// image lays an image on the seats.
func (m *maker) image(plan *CuePlan, cue *Cue, i int, carry []bool) error {
	cells := m.cellsFor(cue)
	seats := m.usable(carry, cells)
	sample, err := m.sampled(cue, i, cells, seats)
	if err != nil {
		return err
	}
	if m.palette == nil {
		m.palette = colour.NewPalette(rgbs(m.p.Stunt.Colours))
	}
	ground := m.index[cue.Ground]
	cards := artwork.Cards{Colours: rgbs(m.p.Stunt.Colours), Palette: m.palette, Ground: ground}
	shown := sample.Show(cards, cue.Reduce, cue.Exposure)
	m.sayShown(cue, sample.Frames, shown)
	drawn := 0
	for k, s := range seats {
		plan.Colours[s] = shown.Colours[k]
		if shown.Colours[k] != ground {
			drawn++
		}
	}
	if len(seats) >= fewSeats && drawn*leastDrawn < len(seats) {
		m.warn("Cue %q: only %d of %d seats show anything but %s: crop %s to what matters, or write fit = \"fill\".",
			cue.Name, drawn, len(seats), cue.Ground, imageName(cue))
	}
	if m.p.Stunt.Limited() {
		m.lights[i] = map[int32]colour.Linear{}
		for k, s := range seats {
			if light, nearest := shown.Light(k); nearest {
				m.lights[i][s] = light
			}
		}
	}
	return nil
}

// sampled is an image as it lies on seats: a cue that shows what one before it showed, perhaps exposed in another
// way, need not open the image again.
type sampled struct {
	data  []byte
	fit   string
	focus [2]float64
	seats []int32
	is    *artwork.Sample
}

// sampled opens the cue's image and samples it, or finds it sampled.
func (m *maker) sampled(cue *Cue, i int, cells []camera.Cell, seats []int32) (*artwork.Sample, error) {
	for _, s := range m.samples {
		if s.fit == cue.Fit && s.focus == cue.Focus && slices.Equal(s.seats, seats) && bytes.Equal(s.data, cue.Image) {
			return s.is, nil
		}
	}
	key := fmt.Sprintf("cue[%d].image", i)
	image, fault := artwork.Open(imageName(cue), cue.Image)
	if fault != nil {
		fault.Key = key
		return nil, fault
	}
	view, sight := m.p.Marks[0].View, m.p.Marks[0].Sight
	into := extent(cells, seats)
	if cue.Fit != "flat" {
		into[0], into[1] = max(into[0], 0), max(into[1], 0)
		into[2], into[3] = min(into[2], float64(view.Width)), min(into[3], float64(view.Height))
	}
	if !(into[0] < into[2] && into[1] < into[3]) {
		return nil, &seating.Fault{
			Key: key, What: "none of the seats that should show the image is in the picture",
			Hint: "turn the camera, or name other sections in on = […]",
		}
	}
	wall := &artwork.Wall{Stands: m.p.Stands, Width: view.Width, Seats: make([]artwork.Seat, len(seats))}
	for k, s := range seats {
		wall.Seats[k] = artwork.Seat{
			Index: s, Cell: corners(cells[s]), Centre: sight.Centre[s], Pixels: float64(sight.Pixels[s]),
			Hidden: sight.Seen[s] < hiddenCard,
		}
	}
	sample := image.Sample(wall, into, cue.Fit == "fill", cue.Focus)
	m.samples = append(m.samples, sampled{cue.Image, cue.Fit, cue.Focus, seats, sample})
	return sample, nil
}

// sayShown tells what became of an image.
func (m *maker) sayShown(cue *Cue, frames int, shown *artwork.Shown) {
	name := imageName(cue)
	if frames > 1 {
		m.warn("Cue %q: %s has %d frames; the first one is shown.", cue.Name, name, frames)
	}
	strokes := func(at []int, what string) {
		var names []string
		sum := 0
		for c, n := range at {
			if n > 0 {
				names, sum = append(names, m.p.Stunt.Colours[c].Name), sum+n
			}
		}
		if sum > 0 {
			m.warn("Cue %q: "+what, cue.Name, strings.Join(names, " and "), name, say.Count(sum, "seat"))
		}
	}
	strokes(shown.Widened, "thin strokes of %s in %s are widened to one seat, at %s; "+
		"reduce = \"flat\" shows every seat its nearest colour instead.")
	strokes(shown.Lost, "strokes of %s in %s are too thin to keep at %s and are lost there: draw them thicker.")
	strokes(shown.Merged, "strokes of %s in %s lie closer than a seat at %s and run together there: "+
		"draw them farther apart.")
	if shown.Blank {
		m.warn("Cue %q: %s shows nothing: all that falls on seats is one colour.", cue.Name, name)
	}
	if v := shown.Levels; v != artwork.AsItIs {
		said := fmt.Sprintf("made %.1f stops brighter", math.Log2(v.Gain))
		switch {
		case v.Black > 0:
			said = fmt.Sprintf("pale: what is darkest in it is made as dark as the darkest card, "+
				"and all of it %.1f times as rich in contrast", v.Gain)
		case v.Gain < 1:
			said = fmt.Sprintf("made %.1f stops darker", -math.Log2(v.Gain))
		}
		m.warn("Cue %q: %s is %s, so that more of it shows; exposure = 0 shows it as it is.", cue.Name, name, said)
	}
	if thin := m.names(shown.TooThin); len(thin) > 0 {
		m.warn("Cue %q: what is %s in %s is thinner than a seat and is lost: draw these lines thicker.",
			cue.Name, strings.Join(thin, " or "), name)
	}
}

func imageName(cue *Cue) string { return cmp.Or(cue.ImageName, "the image") }
