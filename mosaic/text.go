package mosaic

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"everyseat/mosaic/legibility"
	"everyseat/mosaic/lettering"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/say"
)

// text lays a text on the seats, and keeps the fields by which it can be judged.
func (m *maker) text(plan *CuePlan, cue *Cue, i int, carry []bool) error {
	key := fmt.Sprintf("cue[%d].text", i)
	bare := m.bare(cue)
	seats := slices.DeleteFunc(m.usable(carry, m.cells[0]), func(s int32) bool { return bare[s] })
	if len(seats) == 0 {
		return &seating.Fault{Key: key, What: "none of the seats that should show the text is before the camera",
			Hint: "turn the camera, or name other sections in on = […]"}
	}
	fields := m.fieldsFor(cue, seats)
	laidIn := fields
	if cue.Fit == "flat" {
		laidIn = fields[:1]
	}
	layout, err := lettering.Fit(laidIn, cue.Text, m.options(cue))
	if err != nil {
		if misfit, ok := errors.AsType[*lettering.Misfit](err); ok {
			f := &seating.Fault{Key: key, What: misfit.What, Hint: misfit.Hint, Cause: misfit}
			if len(cue.Rows) > 0 {
				f.Hint += "; or lay it on more rows than rows = " + rowsKeys(cue.Rows) + " names"
			}
			return f
		}
		return underKey(err, key)
	}
	var inked []int32
	for k, s := range seats {
		if layout.Ink[k] {
			plan.Colours[s] = m.index[cue.Ink]
			inked = append(inked, s)
		}
	}
	plan.Text, plan.Field = layout, seats
	for _, note := range layout.Dropped {
		m.warn("Cue %q: %s", cue.Name, say.Sentence(note))
	}
	if each := math.Floor(10*SeatsEach(layout)) / 10; Narrow(each) { // whatever their score
		m.warn("Cue %q: its letters have %.1f seats each, and with fewer than four they cannot be relied on: "+
			"make two cues of it, write fewer letters, or give it more seats.", cue.Name, each)
	}
	plan.Torn = m.warnGaps(cue, layout)
	if bare := m.sectionsWithout(inked, seats); len(bare) > 0 {
		layout.Notes = append(layout.Notes, "no letter lies on section "+say.FirstFew(bare)+": the ground shows there")
	}
	m.noteAside(cue, seats, layout)
	m.judged[i] = fields
	return nil
}

// fieldsFor are the fields by which a text on these seats is judged: every mark's, and before them the flat one in
// which it is laid, where the cue asks for that.
func (m *maker) fieldsFor(cue *Cue, seats []int32) []*lettering.Field {
	fields := m.fields(seats)
	if cue.Fit == "flat" {
		return slices.Insert(fields, 0, m.flatField(m.cellsFor(cue), seats))
	}
	return fields
}

// fields are these seats as every mark sees them.
func (m *maker) fields(seats []int32) []*lettering.Field {
	fields := make([]*lettering.Field, len(m.p.Marks))
	for k := range m.p.Marks {
		mark, cells := &m.p.Marks[k], m.cells[k]
		var columns [][2]float64 // letters lean as the camera sees the stands
		if k == 0 {
			columns = camera.Columns(m.p.Stands, mark.View)
		}
		f := &lettering.Field{
			Seats: make([]lettering.Seat, len(seats)),
			Width: float64(mark.View.Width), Height: float64(mark.View.Height),
		}
		for n, s := range seats {
			seat := m.fieldSeat(s)
			seat.Cell, seat.Card = corners(cells[s]), corners(mark.Sight.Corners[s])
			seat.Centre = mark.Sight.Centre[s]
			seat.Seen, seat.Pixels = float64(mark.Sight.Seen[s]), float64(mark.Sight.Pixels[s])
			if k == 0 {
				seat.Column = columns[s]
			}
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
func (m *maker) flatField(cells []camera.Cell, seats []int32) *lettering.Field {
	b := extent(cells, seats)
	card := m.p.Scene.Card
	halfWide, halfHigh := float64(card.Width.Metres()/2*flatScale), float64(card.Height.Metres()/2*flatScale)
	f := &lettering.Field{Width: math.Ceil((b[2] - b[0]) * flatScale), Height: math.Ceil((b[3] - b[1]) * flatScale)}
	for _, s := range seats {
		seat := m.fieldSeat(s)
		for k, c := range cells[s] {
			seat.Cell[k] = [2]float64{(c[0] - b[0]) * flatScale, (c[1] - b[1]) * flatScale}
			seat.Centre[0] += float64(seat.Cell[k][0] / 4)
			seat.Centre[1] += float64(seat.Cell[k][1] / 4)
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
		Seed: 1, Crowd: m.crowd(cue),
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

// laid is how a cue's text lies on its field, and with what it is read: which seats show its ink, and what the cards
// show that is neither ink nor ground. Painted seats and stock that is short may have changed what the search laid.
// Labels count where hands, by cue and seat, are dealt; nil: not yet.
func (m *maker) laid(plan *CuePlan, i int, hands [][]Hold) ([]bool, lettering.Options) {
	cue := &m.p.Stunt.Cues[i]
	o := m.options(cue)
	inkIndex, ground := m.index[cue.Ink], m.index[cue.Ground]
	level := m.levels(cue)
	ink := make([]bool, len(plan.Field))
	tints := make([]legibility.Tint, len(plan.Field))
	some := false
	for k, s := range plan.Field {
		c := plan.Colours[s]
		ink[k] = c == inkIndex
		if c != inkIndex && c != ground {
			tints[k] = legibility.Tint{Share: 1, Level: level(c)}
		}
		if share := m.p.labelSeen(hands, i, s); share > 0 {
			tints[k] = tints[k].Under(share, level(whitePaper))
		}
		some = some || tints[k].Share > 0
	}
	if some {
		o.Tints = tints
	}
	return ink, o
}

// whitePaper is the index of what is no card but a label.
const whitePaper = None - 1

// levels says how a colour looks between the cue's ground, 0, and its ink, 1: by the luma of ITU-R BT.601, as
// programs that read pictures take it, and within these ends.
func (m *maker) levels(cue *Cue) func(c int16) float32 {
	clothes := m.p.Stunt.People.Wear.mean().RGB()
	luma := func(c int16) int { // in thousandths
		rgb := clothes // where there is no card
		switch c {
		case None:
		case whitePaper:
			return 1000 * 255
		default:
			rgb = m.p.Stunt.Colours[c].RGB
		}
		return 299*int(rgb[0]) + 587*int(rgb[1]) + 114*int(rgb[2])
	}
	ground := luma(m.index[cue.Ground])
	contrast := luma(m.index[cue.Ink]) - ground
	return func(c int16) float32 {
		if contrast == 0 {
			return 0
		}
		return min(max(float32(luma(c)-ground)/float32(contrast), 0), 1)
	}
}

// wideGap is how many letters wide a gap within a word may be before the word falls apart
// (by eye over forty plans of ours, no source).
const wideGap = 2

// warnGaps says where a word is torn apart, by sections that stand far from each other, and whether
// one is.
func (m *maker) warnGaps(cue *Cue, text *lettering.Layout) (torn bool) {
	var begins []bool // by letter of the text, spaces not counted: a word begins with it
	begin := true
	for _, r := range strings.TrimSpace(cue.Text) {
		if begin = begin || unicode.IsSpace(r); !unicode.IsSpace(r) {
			begins, begin = append(begins, begin), false
		}
	}
	if len(begins) != len(text.Letters) { // some sign was set as two
		return false
	}
	width := 0.0
	for i := range text.Letters {
		width += (text.Letters[i].Box[2] - text.Letters[i].Box[0]) / float64(len(text.Letters))
	}
	for i := 1; i < len(text.Letters); i++ {
		a, b := &text.Letters[i-1], &text.Letters[i]
		if a.Line != b.Line || width <= 0 || begins[i] {
			continue
		}
		if gap := (b.Box[0] - a.Box[2]) / width; gap > wideGap {
			m.warn("Cue %q: between %c and %c lies a gap as wide as %.1f letters, and the word falls apart: "+
				"lay it on fewer sections with on = […], or make a cue of each part.", cue.Name, a.Rune, b.Rune, gap)
			return true
		}
	}
	return false
}

// under is how far under what reads the score of a torn text stays.
const under = 0.01

// heldBack is the score of the cue's text, and where a word of it is torn apart at most just under
// what reads: each letter may be clear, and still nobody reads the word.
func (c *CuePlan) heldBack(score float64) float64 {
	if reads, _ := legibility.Thresholds(); c.Torn && score > reads-under {
		return reads - under
	}
	return score
}

// holdBack does the same to a reading.
func (c *CuePlan) holdBack(r *legibility.Reading) {
	if held := c.heldBack(r.Score); held != r.Score {
		r.Score, r.Verdict = held, legibility.VerdictOf(held)
	}
}

// sectionsWithout are the sections that have none of some seats, but of all.
func (m *maker) sectionsWithout(some, all []int32) (names []string) {
	stands := m.p.Stands
	bare := make([]bool, len(stands.Sections))
	for _, s := range all {
		bare[stands.Seats[s].Section] = true
	}
	for _, s := range some {
		bare[stands.Seats[s].Section] = false
	}
	for k := range bare {
		if bare[k] {
			names = append(names, stands.Sections[k].Name)
		}
	}
	return names
}

// bare are seats that are painted by hand with neither ink nor ground: a text must do without
// them. What is painted wrongly is found when it is painted.
func (m *maker) bare(cue *Cue) map[int32]bool {
	out := map[int32]bool{}
	for k := range cue.Painted {
		p := &cue.Painted[k]
		seats, err := m.p.Stands.InRange(p.Section, p.Seats)
		for _, s := range seats {
			if err == nil {
				out[s] = p.Colour != cue.Ink && p.Colour != cue.Ground
			}
		}
	}
	return out
}

// enoughSeats is how many seats a letter needs for reading it to be relied on: of letters three seats
// wide six in ten were read, of four nearly nine, of six all (our own study, one reader).
const enoughSeats = 4

// Narrow says whether letters of so many seats cannot be relied on.
func Narrow(seats float64) bool { return seats < enoughSeats }

// SeatsEach is the mean width of a text's letters in seats; 0 = there are none.
func SeatsEach(text *lettering.Layout) float64 {
	if text == nil || len(text.Letters) == 0 {
		return 0
	}
	sum := 0.0
	for i := range text.Letters {
		sum += text.Letters[i].Seats
	}
	return sum / float64(len(text.Letters))
}

// noteAside says why a text stands off the middle of the stands where the seats that carry it do. Seats on the floor
// count where some of these are there.
func (m *maker) noteAside(cue *Cue, seats []int32, text *lettering.Layout) {
	stands, cells := m.p.Stands, m.cellsFor(cue)
	floor := func(s int32) bool {
		return stands.Sections[stands.Seats[s].Section].Spec.Kind == seating.Floor
	}
	cards := make([]bool, len(stands.Seats))
	onFloor := slices.ContainsFunc(seats, floor)
	for s := range cards {
		cards[s] = stands.Seats[s].Use == seating.UseCard && (onFloor || !floor(int32(s)))
	}
	all := m.usable(cards, cells)
	own, whole := extent(cells, seats), extent(cells, all)
	width := 0.0
	for i := range seats {
		b := extent(cells, seats[i:i+1])
		width += b[2] - b[0]
	}
	off := (own[0] + own[2] - whole[0] - whole[2]) / 2 / (width / float64(len(seats)))
	if math.Abs(off) < 1 {
		return
	}
	side := "right"
	if off < 0 {
		side = "left"
	}
	text.Notes = append(text.Notes,
		fmt.Sprintf("the seats that carry the text lie %.1f seats %s of the middle of all "+
			"that are in sight: %s", math.Abs(off), side, m.whyAside(cue, seats, all)))
}

// whyAside names the sections of all that have none of the seats, or else what takes single seats away.
func (m *maker) whyAside(cue *Cue, seats, all []int32) string {
	without, bare, stands := m.sectionsWithout(seats, all), m.bare(cue), m.p.Stands
	painted := slices.ContainsFunc(all, func(s int32) bool {
		return bare[s] && slices.Contains(without, stands.Sections[stands.Seats[s].Section].Name)
	})
	switch {
	case len(without) > 0 && len(cue.On) > 0:
		return "on = […] does not name section " + say.FirstFew(without)
	case len(without) > 0 && len(cue.Rows) > 0:
		return "rows = " + rowsKeys(cue.Rows) + " leaves out section " + say.FirstFew(without)
	case len(without) > 0 && painted:
		return "section " + say.FirstFew(without) + " is painted by hand or hardly seen"
	case len(without) > 0:
		return "too little can be seen of section " + say.FirstFew(without)
	case len(cue.Rows) > 0:
		return "rows = " + rowsKeys(cue.Rows) + " leaves out the others"
	}
	return "the others are painted by hand"
}

// extent is the smallest box around the cells of these seats: left, top, right, bottom.
func extent(cells []camera.Cell, seats []int32) [4]float64 {
	b := [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, s := range seats {
		for _, p := range cells[s] {
			b[0], b[1] = min(b[0], p[0]), min(b[1], p[1])
			b[2], b[3] = max(b[2], p[0]), max(b[3], p[1])
		}
	}
	return b
}
