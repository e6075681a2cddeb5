package stuntfile

import (
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"everyseat/mosaic"
	"everyseat/mosaic/colour"
	"everyseat/seating"
	"everyseat/seating/camera"
	"everyseat/seating/people"
)

// Version is the version of the file's keys that this package reads.
const Version = 1

// Limits of the picture's sides in pixels: below, nothing can be judged; above, memory.
const (
	minPicture = 64
	maxPicture = 16384
)

// stunt reads the whole document.
func (r *reader) stunt() *mosaic.Stunt {
	s := scope{r, r.f.doc.root}
	st := &mosaic.Stunt{}
	r.version(s)
	s.text("title", &st.Title)
	r.date(s, &st.Date)
	s.either("place", &st.Outdoors, "indoors", "outdoors")
	s.text("contact", &st.Contact)
	s.number("tempo", &st.Tempo)
	s.text("flashing_risk_accepted", &st.FlashingRisk)
	r.stands(s, st)
	r.room(s, st)
	r.cameras(s, st)
	r.card(s, st)
	r.colours(s, st)
	for _, c := range s.each("cue") {
		st.Cues = append(st.Cues, r.cue(c))
	}
	r.laying(s, st)
	r.print(s, st)
	r.day(s, st)
	r.people(s, st)
	s.close()
	return st
}

func (r *reader) version(s scope) {
	n := 0
	if s.whole("version", &n) && n != Version {
		s.fault(s.find("version"), fmt.Sprintf("version %d is not known here", n),
			fmt.Sprintf("this everyseat reads version = %d", Version))
	}
	s.must("version", fmt.Sprintf("write version = %d in the first line", Version))
}

func (r *reader) date(s scope, to *string) {
	s.bare("date", to, unstable.LocalDate)
	if v := s.given("date"); v != nil && v.kind == unstable.LocalDate {
		if _, err := decode[toml.LocalDate](v); err != nil {
			s.fault(v, fmt.Sprintf("there is no date %s", v.text), "year, month, day: 2027-10-02")
		}
	}
}

func (r *reader) room(s scope, st *mosaic.Stunt) {
	room, _ := s.inner("room")
	if v := room.find("walls"); v != nil {
		const want = "a list of corners"
		const hint = `write walls = [["-10 m", "-12 m"], ["10 m", "-12 m"]]: across and away, corner by corner`
		list(v, "walls", &st.Room.Walls, func(corner *value, key string, to *[2]seating.Length) bool {
			if corner.kind != unstable.Array || len(corner.items) != 2 {
				room.wrong(corner, key, want, hint)
				return false
			}
			return room.readLength(corner.items[0], key, &to[0]) && room.readLength(corner.items[1], key, &to[1])
		})
	}
	for _, l := range room.each("lane") {
		var lane seating.Lane
		l.text("name", &lane.Name)
		l.allSides(`a lane is a rectangle: left, right (across), near, far (away from the camera), such as "-2 m"`,
			side{"left", &lane.Left}, side{"right", &lane.Right}, side{"near", &lane.Near}, side{"far", &lane.Far})
		l.close()
		st.Stands.Lanes = append(st.Stands.Lanes, lane)
	}
	for _, o := range room.each("obstacle") {
		var ob camera.Obstacle
		o.text("name", &ob.Name)
		word(o, "kind", &ob.Kind, "box", "post", "hoop")
		o.must("kind", `say what it is: kind = "box", "post" or "hoop"`)
		o.sides(side{"across", &ob.Across}, side{"away", &ob.Away}, side{"width", &ob.Width}, side{"depth", &ob.Depth},
			side{"height", &ob.Height}, side{"bottom", &ob.Bottom})
		o.close()
		st.Room.Obstacles = append(st.Room.Obstacles, ob)
	}
	for _, e := range room.each("exit") {
		var exit mosaic.Exit // a door: its middle, and how wide it opens
		e.text("name", &exit.Name)
		e.allSides(`an exit is where its middle is: across and away (from the camera), such as "-12 m"`,
			side{"across", &exit.Across}, side{"away", &exit.Away})
		e.measured("width", &exit.Width)
		e.close()
		st.Room.Exits = append(st.Room.Exits, exit)
	}
	for _, c := range room.each("camera") {
		var spot mosaic.Spot
		c.text("name", &spot.Name)
		c.allSides("where a camera may stand is a rectangle: left, right (across), near, far (away from the camera), "+
			`such as "-20 m"`,
			side{"left", &spot.Left}, side{"right", &spot.Right}, side{"near", &spot.Near}, side{"far", &spot.Far})
		c.lengths("heights", &spot.Heights)
		c.close()
		st.Room.Spots = append(st.Room.Spots, spot)
	}
	room.close()
}

func (r *reader) cameras(s scope, st *mosaic.Stunt) {
	c, there := s.inner("camera")
	if s.given("camera") == nil {
		s.absent("[camera]", `write [camera] with back = "20 m": how far in front of the stands it is`)
	}
	r.mark(c, &st.Camera, there)
	c.flag("walks", &st.Walks)
	c.close()
	for _, m := range s.each("mark") {
		mark := camera.Mark{Lens: st.Camera.Lens} // the same camera, unless it says otherwise
		m.text("name", &mark.Name)
		r.mark(m, &mark, true)
		m.close()
		st.Marks = append(st.Marks, mark)
	}
}

func (r *reader) mark(s scope, m *camera.Mark, there bool) {
	s.length("across", &m.Across)
	s.length("back", &m.Back)
	if there {
		s.must("back", `write back = "20 m": how far in front of the front row the lens is`)
	}
	s.measured("height", &m.Height)
	r.aim(s, m)
	r.picture(s, &m.Picture)
	r.lens(s, &m.Lens)
}

func (r *reader) aim(s scope, m *camera.Mark) {
	v := s.find("aim")
	if v == nil || v.kind == unstable.String && v.text == "auto" {
		return
	}
	if v.table == nil {
		s.wrong(v, "aim", `"auto" or a place`, `write aim = { across = "0 m", away = "3 m", height = "2 m" }`)
		return
	}
	a := scope{r, v.table}
	var across, away, height seating.Length
	a.sides(side{"across", &across}, side{"away", &away}, side{"height", &height})
	a.close()
	m.Aim = &seating.Point{across.Metres(), away.Metres(), height.Metres()}
}

func (r *reader) picture(s scope, to *[2]int) {
	v := s.find("picture")
	if v == nil {
		return
	}
	sides, ok := two(v, integer, minPicture, maxPicture)
	if !ok {
		s.wrong(v, "picture", fmt.Sprintf("width and height in pixels, each from %d to %d", minPicture, maxPicture),
			"write picture = [3840, 2160]")
		return
	}
	*to = [2]int{int(sides[0]), int(sides[1])}
}

// lens reads the one of three ways in which the lens is given.
func (r *reader) lens(s scope, to *camera.Lens) {
	var l camera.Lens
	sensor := r.sensor(s, &l)
	var focal seating.Length
	focals := s.length("lens", &focal)
	l.Focal = millimetres(focal)
	field := s.number("field_of_view", &l.FieldOfView)
	sees := r.sees(s, &l)
	ways := 0
	for _, given := range []bool{sensor || focals, field, sees} {
		if given {
			ways++
		}
	}
	const one = `give one of: sensor and lens; field_of_view = 65; or the tape test, sees = "6.3 m at 5 m"`
	switch {
	case ways > 1:
		r.faultAt(s.t.at.from, "the lens is given in more than one way", one)
	case sensor && !focals:
		s.must("lens", `write lens = "50 mm" beside sensor`)
	case focals && !sensor:
		s.must("sensor", `write sensor = "36 mm x 24 mm" beside lens`)
	case ways == 1:
		*to = l
	}
}

func millimetres(l seating.Length) float64 { return float64(l) / float64(seating.Millimetre) }

func (r *reader) sensor(s scope, l *camera.Lens) bool {
	v := s.find("sensor")
	if v == nil {
		return false
	}
	sides, err := parseSides(v.text)
	if v.kind != unstable.String || err != nil || len(sides) > 2 {
		s.wrong(v, "sensor", "the size of the sensor", `write sensor = "36 mm x 24 mm"`)
		return false
	}
	l.SensorWidth = millimetres(sides[0])
	if len(sides) == 2 {
		l.SensorHeight = millimetres(sides[1])
	}
	return true
}

func (r *reader) sees(s scope, l *camera.Lens) bool {
	v := s.find("sees")
	if v == nil {
		return false
	}
	width, at, two := strings.Cut(v.text, " at ")
	var err error
	if two {
		if l.Sees, err = seating.ParseLength(strings.TrimSpace(width)); err == nil {
			l.At, err = seating.ParseLength(strings.TrimSpace(at))
		}
	}
	if v.kind != unstable.String || !two || err != nil || l.Sees <= 0 || l.At <= 0 {
		s.wrong(v, "sees", "what fills the frame at a distance", `write sees = "6.3 m at 5 m"`)
		return false
	}
	return true
}

// parseSides reads "36 mm x 24 mm", "8.5 x 11 in" or one length.
func parseSides(text string) ([]seating.Length, error) {
	parts := strings.FieldsFunc(text, func(c rune) bool { return c == 'x' || c == '×' })
	if len(parts) == 0 {
		return nil, fmt.Errorf("no size in %q", text)
	}
	last := strings.TrimSpace(parts[len(parts)-1])
	unit := strings.TrimLeft(last, "0123456789./ ")
	sides := make([]seating.Length, len(parts))
	for i, p := range parts {
		p = strings.TrimSpace(p)
		l, err := seating.ParseLength(p)
		if err != nil {
			l, err = seating.ParseLength(p + unit)
		}
		if err != nil {
			return nil, err
		}
		sides[i] = l
	}
	return sides, nil
}

func (r *reader) card(s scope, st *mosaic.Stunt) {
	c, _ := s.inner("card")
	card := &st.Card
	r.cardSize(c, card)
	word(c, "orientation", &card.Orientation, "auto", "landscape", "portrait")
	if held := camera.Held(0); choice(c, "held", &held, "chest", "chin", "eyes", "overhead") {
		card.Held = camera.Chest + held
	}
	c.either("turn", &card.ToMark, "section", "mark")
	word(c, "kind", &card.Kind, mosaic.Sheet, mosaic.Bonded, mosaic.Printed)
	c.measured("hand_height", &card.HandHeight)
	c.measured("hand_sideways", &card.HandSideways)
	c.number("hand_tilt", &card.HandTilt)
	c.close()
}

func (r *reader) cardSize(s scope, card *mosaic.CardSpec) {
	v := s.find("size")
	if v == nil {
		return
	}
	if v.kind == unstable.String {
		if paper, err := mosaic.LookUpPaper(v.text); err == nil && v.text != "" {
			card.Width, card.Height = paper.Width, paper.Height
			return
		}
		if sides, err := parseSides(v.text); err == nil && len(sides) == 2 {
			card.Width, card.Height = sides[0], sides[1]
			if card.Width > 0 && card.Height > 0 {
				return
			}
		}
	}
	s.wrong(v, "size", "a paper's name or two lengths", `write size = "Letter", size = "A4" or size = "11 in x 14 in"`)
}

func (r *reader) colours(s scope, st *mosaic.Stunt) {
	for _, c := range s.each("colour") {
		col := mosaic.Colour{Sheets: -1}
		if c.text("name", &col.Name) {
			r.colourName(c, col.Name)
		}
		r.hex(c, &col.RGB)
		c.count("sheets", &col.Sheets)
		c.some("pack", &col.Pack)
		c.money("price", &col.PriceCents)
		word(c, "darkest_ink", &col.DarkestInk, "black", "white")
		c.close()
		st.Colours = append(st.Colours, col)
	}
}

// none is what painted seats write for no card.
const none = "none"

// colourName refuses what files and the command line could not tell from something else.
func (r *reader) colourName(s scope, name string) {
	v := s.given("name")
	if i := strings.IndexAny(name, "/,:=#\n"); i >= 0 {
		s.fault(v, fmt.Sprintf("the colour name %q holds %q", name, name[i]), "use letters, figures and spaces")
	}
	if strings.EqualFold(name, none) {
		s.fault(v, fmt.Sprintf("%q means no card and cannot name a colour", name), "choose another name")
	}
}

func (r *reader) hex(s scope, to *colour.RGB) {
	const hint = `write hex = "#12284c": two digits each of red, green and blue, from 00 to ff`
	v := s.find("hex")
	s.must("hex", hint)
	if v == nil {
		return
	}
	c, err := colour.ParseHex(v.text)
	if v.kind != unstable.String || err != nil {
		s.wrong(v, "hex", "a colour", hint)
		return
	}
	*to = c
}

func (r *reader) laying(s scope, st *mosaic.Stunt) {
	to := &st.Laying
	l, _ := s.inner("laying")
	l.either("how", &to.Pass, "lay", "pass")
	l.some("helpers", &to.Helpers)
	l.duration("per_card", &to.PerCard)
	l.duration("per_row", &to.PerRow)
	choice(l, "direction", &to.Direction, "left to right", "right to left")
	l.flag("serpentine", &to.Serpentine)
	l.either("start", &to.FromBack, "front", "back")
	l.close()
}

func (r *reader) print(s scope, st *mosaic.Stunt) {
	to := &st.Print
	p, _ := s.inner("print")
	papers := make([]string, len(mosaic.PaperSizes))
	for i, n := range mosaic.PaperSizes {
		papers[i] = n.Name
	}
	word(p, "paper", &to.Paper, papers...)
	p.some("per_sheet", &to.PerSheet)
	word(p, "placards", &to.Placards, mosaic.Labels, mosaic.OnStock, mosaic.FullColoured)
	p.either("cut", &to.WholePile, "each sheet", "whole pile")
	p.either("turn", &to.ShortEdge, "long edge", "short edge")
	p.measured("margin", &to.Margin)
	p.flag("tile", &to.Tile)
	if g, there := p.inner("grid"); there {
		to.Grid = labelGrid(g)
	}
	p.flag("bands", &to.Bands)
	if g, there := p.inner("band_grid"); there {
		to.BandGrid = labelGrid(g)
	}
	p.money("toner", &st.Work.TonerCents)
	p.some("white_pack", &st.Work.PaperPack)
	p.money("white_price", &st.Work.PaperCents)
	p.money("wage", &st.Work.WageCents)
	p.close()
}

// labelGrid reads a sheet of stick-on labels.
func labelGrid(g scope) *mosaic.LabelGrid {
	grid := &mosaic.LabelGrid{}
	const hint = `write grid = { columns = 2, rows = 5, width = "4in", height = "2in", left = "4 mm", top = "0.5in" }`
	for _, n := range []struct {
		key string
		to  *int
	}{{"columns", &grid.Columns}, {"rows", &grid.Rows}} {
		if g.count(n.key, n.to) && *n.to == 0 {
			g.fault(g.given(n.key), n.key+" cannot be 0",
				"count the labels of one sheet, side by side and one below the other")
		}
		g.must(n.key, hint)
	}
	g.measured("width", &grid.Width)
	g.must("width", hint)
	g.measured("height", &grid.Height)
	g.must("height", hint)
	g.sides(side{"left", &grid.Left}, side{"top", &grid.Top}, side{"across", &grid.Across}, side{"down", &grid.Down})
	g.close()
	return grid
}

func (r *reader) day(s scope, st *mosaic.Stunt) {
	d, _ := s.inner("day")
	d.bare("doors", &st.Day.Doors, unstable.LocalTime)
	d.bare("take", &st.Day.Take, unstable.LocalTime)
	d.texts("signs", &st.Day.Signs)
	d.texts("rehearsals", &st.Day.Rehearsals)
	d.texts("keys", &st.Day.Keys)
	d.close()
}

// people reads who comes: [people] with its roster, and every [[group]].
func (r *reader) people(s scope, st *mosaic.Stunt) {
	to := &st.People
	p, _ := s.inner("people")
	p.file("roster", func(name string, data []byte) (err error) {
		to.RosterName = name
		to.Roster, err = people.Read(name, data)
		return err
	})
	p.flag("names", &to.Names)
	p.text("held_by", &to.HeldBy)
	p.some("per_minute", &to.PerMinute)
	p.close()
	for _, g := range s.each("group") {
		var party people.Party
		g.text("name", &party.Name)
		g.some("people", &party.People)
		g.count("wheelchairs", &party.Wheelchairs)
		g.count("companions", &party.Companions)
		g.count("not_filmed", &party.Unfilmed)
		g.text("leader", &party.Leader)
		g.text("room", &party.Room)
		g.text("door", &party.Door)
		g.bare("time", &party.Time, unstable.LocalTime)
		g.close()
		to.Groups = append(to.Groups, party)
	}
}
