package mosaic

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"everyseat/mosaic/colour"
	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
)

// cue plans cue i: the ground, then text or image, then what is painted by hand.
func (m *maker) cue(i int) (*CuePlan, error) {
	cue := &m.p.Stunt.Cues[i]
	plan := &CuePlan{Name: cue.Name, At: cue.At, Colours: m.ground(cue)}
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

// ground gives every card seat the cue's ground and everybody else none.
func (m *maker) ground(cue *Cue) []int16 {
	seats := m.p.Stands.Seats
	out := make([]int16, len(seats))
	ground := m.index[cue.Ground]
	for s := range seats {
		out[s] = None
		if seats[s].Use == seating.UseCard {
			out[s] = ground
		}
	}
	return out
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

// image lays an image on the seats.
func (m *maker) image(plan *CuePlan, cue *Cue, i int, carry []bool) error {
	cells := m.cells[0]
	if cue.Fit == "flat" {
		cells = m.flatCells()
	}
	seats := m.usable(carry, cells)
	image, err := m.sampled(cue, i, seats)
	if err != nil {
		return err
	}
	if image.frames > 1 {
		m.warn("Cue %q: %s has %d frames; the first one is shown.", cue.Name, cue.ImageName, image.frames)
	}
	covered, fine := image.covered, image.fine
	ground := m.index[cue.Ground]
	shown := m.drawing(cue, seats, image, ground)
	if shown == nil {
		shown = m.exposed(cue, seats, covered, fine, ground)
		m.lostLines(cue, m.countParts(fine, ground), len(fine), shown)
	}
	drawn := 0
	for k, s := range seats {
		plan.Colours[s] = shown[k]
		if shown[k] != ground {
			drawn++
		}
	}
	if len(seats) >= fewSeats && drawn*leastDrawn < len(seats) {
		m.warn("Cue %q: only %d of %d seats show anything but %s: crop %s to what matters, or write fit = \"fill\".", cue.Name, drawn, len(seats), cue.Ground, imageName(cue))
	}
	if m.p.Stunt.limited() {
		m.lights[i] = m.lightsOf(seats, covered, shown, ground)
	}
	return nil
}

// An image that shows on less than a leastDrawn-th of the seats is hardly seen; fewSeats are too few to say so (ours, no
// source).
const (
	leastDrawn = 12
	fewSeats   = 60
)

// seatLight samples the seats' cells, and their parts unless there are too many.
func (a *artwork) seatLight(cells []camera.Cell, seats []int32, p placement) (whole, fine []light) {
	quads := a.quads(cells, seats, p)
	if len(seats) <= mostForLines {
		quads = append(quads, parts(quads)...)
	}
	all := a.sample(quads)
	return all[:len(seats):len(seats)], all[len(seats):]
}

// reduce gives every seat its card colour: the nearest one, or by error diffusion, as
// asked or as it looks closer from the mark.
func (m *maker) reduce(cue *Cue, seats []int32, covered []light, ground int16) []int16 {
	flat := make([]int16, len(seats))
	want := make([]colour.Linear, len(seats))
	for k := range seats {
		flat[k] = m.nearest(&covered[k], ground)
		want[k] = m.bestLight(&covered[k], ground)
	}
	if cue.Reduce == Flat || len(m.p.Stunt.Colours) < 2 {
		return flat
	}
	diffused := m.diffused(seats, want, flat)
	if cue.Reduce == Diffuse {
		return diffused
	}
	if off := m.looksOff(seats, want, diffused, flat); off[0] < off[1] {
		return diffused
	}
	return flat
}

// bestLight is the light that a seat would best show.
func (m *maker) bestLight(l *light, ground int16) colour.Linear {
	if ground == None {
		return l.alone()
	}
	return l.over(m.p.Stunt.Colours[ground].RGB.Linear())
}

// limited says whether any colour has only so many sheets.
func (s *Stunt) limited() bool {
	return slices.ContainsFunc(s.Colours, func(c Colour) bool { return c.Sheets >= 0 })
}

// lightsOf are the lights of the seats that an image covers, before its ground. Where
// error is handed on, a seat ought to show the colour that it was given.
func (m *maker) lightsOf(seats []int32, covered []light, shown []int16, ground int16) []lit {
	out := make([]lit, len(m.p.Stands.Seats))
	for k, s := range seats {
		if shown[k] == m.nearest(&covered[k], ground) {
			out[s] = lit{light: m.bestLight(&covered[k], ground), shown: true}
		}
	}
	return out
}

// nearest is the card colour of a seat's light. Before a ground of cards what is
// transparent shows the ground; before shirts a seat more than half empty shows no card.
func (m *maker) nearest(l *light, ground int16) int16 {
	if ground == None && math.Round(l[3]*1e6) < 500_000 {
		return None
	}
	return int16(m.palette.Nearest(m.bestLight(l, ground)))
}

// text lays a text on the seats, and keeps the fields by which it can be judged.
func (m *maker) text(plan *CuePlan, cue *Cue, i int, carry []bool) error {
	key := fmt.Sprintf("cue[%d].text", i)
	bare := m.bare(cue)
	seats := slices.DeleteFunc(m.usable(carry, m.cells[0]), func(s int32) bool { return bare[s] })
	if len(seats) == 0 {
		return &seating.Fault{Key: key, What: "none of the seats that should show the text is before the camera", Hint: "turn the camera, or name other sections in on = […]"}
	}
	fields := m.fields(seats)
	laidIn := fields
	if cue.Fit == "flat" {
		fields = append([]*lettering.Field{m.flatField(seats)}, fields...)
		laidIn = fields[:1]
	}
	layout, err := lettering.Fit(laidIn, cue.Text, m.options(cue))
	if err != nil {
		var misfit *lettering.Misfit
		if errors.As(err, &misfit) {
			f := &seating.Fault{Key: key, What: misfit.What, Hint: misfit.Hint, Cause: misfit}
			if len(cue.Rows) > 0 {
				f.Hint += "; or lay it on more rows than rows = [" + rowsKeys(cue.Rows) + "] names"
			}
			return f
		}
		return underKey(err, key)
	}
	ink := m.index[cue.Ink]
	for k, s := range seats {
		if layout.Ink[k] {
			plan.Colours[s] = ink
		}
	}
	plan.Text, plan.Field = layout, seats
	for _, note := range layout.Dropped {
		m.warn("Cue %q: %s", cue.Name, sentence(note))
	}
	m.warnNarrow(cue, layout)
	plan.Torn = m.warnGaps(cue, layout)
	m.noteBare(seats, layout)
	m.noteAside(cue, seats, layout)
	m.judged[i] = fields
	return nil
}

// fields are these seats as every mark sees them.
func (m *maker) fields(seats []int32) []*lettering.Field {
	fields := make([]*lettering.Field, len(m.p.Marks))
	for k := range m.p.Marks {
		mark, cells := &m.p.Marks[k], m.cells[k]
		f := &lettering.Field{
			Seats: make([]lettering.Seat, len(seats)),
			Width: float64(mark.View.Width), Height: float64(mark.View.Height),
		}
		for n, s := range seats {
			seat := m.fieldSeat(s)
			seat.Cell, seat.Card = corners(cells[s]), corners(mark.Sight.Corners[s])
			seat.Centre = mark.Sight.Centre[s]
			seat.Seen, seat.Pixels = float64(mark.Sight.Seen[s]), float64(mark.Sight.Pixels[s])
			f.Seats[n] = seat
		}
		fields[k] = f
	}
	return fields
}

func (m *maker) fieldSeat(s int32) lettering.Seat {
	seat := &m.p.Stands.Seats[s]
	return lettering.Seat{Index: s, Section: seat.Section, Row: seat.Row, Place: seat.Place}
}

// flatScale is pixels a metre of the flat field: fine enough that no card is under 20 pixels wide.
const flatScale = 100

// flatField sets the plain grid into a picture of its own, every card wholly seen.
func (m *maker) flatField(seats []int32) *lettering.Field {
	cells := m.flatCells()
	b := extent(cells, seats)
	card := m.p.Scene.Card
	halfWide, halfHigh := card.Width.Metres()/2*flatScale, card.Height.Metres()/2*flatScale
	f := &lettering.Field{Width: math.Ceil((b[2] - b[0]) * flatScale), Height: math.Ceil((b[3] - b[1]) * flatScale)}
	for _, s := range seats {
		seat := m.fieldSeat(s)
		for k, c := range cells[s] {
			seat.Cell[k] = [2]float64{(c[0] - b[0]) * flatScale, (c[1] - b[1]) * flatScale}
			seat.Centre[0] += seat.Cell[k][0] / 4
			seat.Centre[1] += seat.Cell[k][1] / 4
		}
		x, y := seat.Centre[0], seat.Centre[1]
		seat.Card = [4][2]float64{
			{x - halfWide, y - halfHigh}, {x + halfWide, y - halfHigh},
			{x + halfWide, y + halfHigh}, {x - halfWide, y + halfHigh},
		}
		seat.Seen, seat.Pixels = 1, 4*halfWide*halfHigh
		f.Seats = append(f.Seats, seat)
	}
	return f
}

func corners(q [4]camera.Pixel) (out [4][2]float64) {
	for k, p := range q {
		out[k] = p
	}
	return out
}

// options are what reading depends on beside the seats.
func (m *maker) options(cue *Cue) lettering.Options {
	spec, card := m.p.Stunt.Card, m.p.Scene.Card
	return lettering.Options{
		Empty: ExpectedEmpty, Wrong: ExpectedWrong,
		HandHeight: spec.HandHeight.Metres(), HandSideways: spec.HandSideways.Metres(),
		HandTilt:  spec.HandTilt * math.Pi / 180,
		CardWidth: card.Width.Metres(), CardHeight: card.Height.Metres(),
		Seed: 1,
	}
}

// read judges cue i from every mark; the worst one is the cue's reading. A
// picture cannot be spelt, so it has no score.
func (m *maker) read(i int) {
	plan, fields := &m.p.Cues[i], m.judged[i]
	plan.Reading = legibility.Reading{Verdict: legibility.Picture, Letters: []legibility.Letter{}}
	if plan.Text == nil {
		for k := range m.p.Marks {
			m.p.Marks[k].Scores = append(m.p.Marks[k].Scores, 0)
		}
		return
	}
	ink, options := m.laid(plan, i, m.p.Hands)
	// Letters laid flat have their places in the flat field, which comes before the marks.
	first := len(fields) - len(m.p.Marks)
	for k := range m.p.Marks {
		reading := legibility.Judge(fields, first+k, ink, plan.Text.Glyphs(), options)
		plan.holdBack(&reading)
		m.p.Marks[k].Scores = append(m.p.Marks[k].Scores, reading.Score)
		if k == 0 || reading.Score < plan.Reading.Score {
			plan.Reading = reading
		}
	}
}

// paint overrides what the cue shows on seats painted by hand.
func (m *maker) paint(colours []int16, cue *Cue, i int) error {
	m.painted[i] = map[int32]bool{}
	for k := range cue.Painted {
		if err := m.paintRange(colours, m.painted[i], &cue.Painted[k], fmt.Sprintf("cue[%d].painted[%d]", i, k)); err != nil {
			return err
		}
	}
	return nil
}

// paintRange paints the card seats between two seats that must exist; numbers
// between that are not there, and people without cards, are passed over.
func (m *maker) paintRange(colours []int16, painted map[int32]bool, p *Paint, key string) error {
	seats, err := m.p.Stands.InRange(p.Section, p.Seats)
	if err != nil {
		var f *seating.Fault
		if errors.As(err, &f) && strings.Contains(p.Seats.Row, "..") {
			f.Hint = fmt.Sprintf("seats are painted row by row: a line each for the rows of %s", p.Seats.Row)
		}
		return underKey(err, key)
	}
	for _, s := range seats {
		if painted[s] {
			return &seating.Fault{Key: key, What: fmt.Sprintf("seat %s is painted twice", m.p.Stands.ID(int(s))), Hint: "name each seat once"}
		}
	}
	shows := int16(None)
	if p.Colour != "" {
		shows = m.index[p.Colour]
	}
	cards := false
	for _, s := range seats {
		if m.p.Stands.Seats[s].Use == seating.UseCard {
			colours[s], cards, painted[s] = shows, true, true
		}
	}
	if !cards {
		return &seating.Fault{
			Key:  key,
			What: fmt.Sprintf("nobody on %s to %s holds a card", m.p.Stands.ID(int(seats[0])), m.p.Stands.ID(int(seats[len(seats)-1]))),
			Hint: "paint other seats",
		}
	}
	return nil
}
